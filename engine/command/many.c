#include "command/many.h"

#include "base/file.h"
#include "base/staging.h"
#include "base/text.h"
#include "command/paths.h"
#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

enum { PUT_OFF = 3 }; /* exit status of a child that found another run at its dossier */

typedef struct {
  const char *path, *name, *out; /* the dossier; what it is called; where its papers go */
} dossier;

typedef struct {
  const dossier *of;
  pid_t process;
  int said, problems; /* what it wrote to standard output and standard error */
} child;

typedef struct {
  ts_session s;
  const ts_options *options;
  many_assess *assess;
  ts_paths paths;
  dossier *all;
  size_t count;
  child *children;
  size_t running, most; /* at a time */
  const char *threads;  /* for each */
  const dossier **put_off;
  size_t put_off_count;
  bool wait; /* for the other run */
  size_t done, look, failed;
} many;

/* ---- which, and where to --------------------------------------------------------- */

bool many_asked(const ts_options *o) {
  return o->word_count > 1 || o->list != NULL || o->part != NULL ||
         (o->word_count == 1 && ts_folder_exists(o->words[0]));
}

/* What a folder is called in which a dossier stands directly: the last of its path. */
static const char *folder_name(ts_arena *arena, const char *path) {
  const char *name = ts_path_name(ts_path_folder(arena, path));
  return name[strspn(name, ".")] != '\0' ? name : "dossier";
}

/* By where it stands below the folder or list that led to it: "b/dossier.xml" is b, "b/day.xml" is
 * b/day; and never above or beside the output. */
static const char *name_of(ts_arena *arena, const ts_found_path *found) {
  const char *at = found->path + found->under;
  for (size_t n;
       (n = strspn(at, "/")) > 0 || strncmp(at, "../", 3) == 0 || strncmp(at, "./", 2) == 0;)
    at += n > 0 ? n : strcspn(at, "/");
  size_t length = strlen(at);
  if (ts_same(at, "dossier.xml")) return folder_name(arena, found->path);
  if (ts_ends_in(at, "/dossier.xml")) return ts_arena_copy_n(arena, at, length - 12);
  return ts_arena_copy_n(arena, at, length > 4 && ts_ends_in(at, ".xml") ? length - 4 : length);
}

static int by_name(const void *a, const void *b) {
  return strcmp(((const dossier *)a)->name, ((const dossier *)b)->name);
}

/* Two that would go to one folder, and what would leave the output by its own name. */
static bool all_apart(many *m) {
  bool good = true;
  qsort(m->all, m->count, sizeof *m->all, by_name);
  for (size_t i = 0; i < m->count; i++) {
    const dossier *d = &m->all[i];
    bool inside = strstr(d->name, "/../") == NULL && !ts_ends_in(d->name, "/..");
    if (!inside)
      ts_report(m->s.problems, TS_ERROR, d->path, 0, "leads up and down again; name it directly");
    bool taken = i > 0 && ts_same(d->name, m->all[i - 1].name);
    if (taken)
      ts_report(m->s.problems, TS_ERROR, d->path, 0, "would go to %s, as \"%s\" does", d->out,
                m->all[i - 1].path);
    good = good && inside && !taken;
  }
  return good;
}

/* All of them are named and looked at, so that each goes to the same place whoever takes it. */
static bool gather(many *m) {
  bool good = true;
  m->paths = (ts_paths){.s = &m->s, .name = "dossier.xml"};
  for (size_t i = 0; i < m->options->word_count; i++)
    good = paths_add(&m->paths, m->options->words[i]) && good;
  if (m->options->list != NULL) good = paths_add_list(&m->paths, m->options->list) && good;
  paths_in_order(&m->paths);
  m->count = m->paths.count;
  m->all = ts_arena_alloc(m->s.arena, (m->count + 1) * sizeof *m->all);
  for (size_t i = 0; i < m->count; i++) {
    const char *name = name_of(m->s.arena, &m->paths.at[i]);
    m->all[i] =
        (dossier){m->paths.at[i].path, name, ts_path_join(m->s.arena, m->options->out, name)};
  }
  if (good && m->count == 0)
    ts_report(m->s.problems, TS_ERROR,
              m->options->list != NULL ? m->options->list : m->options->words[0], 0,
              "no dossier.xml here or below");
  return good && m->count > 0 && all_apart(m);
}

static void keep_part(many *m) {
  ts_part part = options_part(m->options);
  size_t kept = 0;
  for (size_t i = part.which - 1; i < m->count; i += part.of) m->all[kept++] = m->all[i];
  m->count = kept;
}

/* ---- in the child ------------------------------------------------------------------ */

static int claim_and_assess(many *m, const dossier *d) {
  ts_options options = *m->options;
  options.words[0] = d->path;
  options.word_count = 1;
  options.list = options.part = NULL;
  options.out = d->out;
  options.workers = m->threads;
  options.one_of_many = true;
  if (!ts_folder_make(d->out, m->s.problems)) return NOT_DONE;
  ts_claim claim = ts_folder_claim(d->out, m->wait);
  if (claim.how == TS_CLAIM_BUSY) return PUT_OFF;
  char reason[128];
  if (claim.how == TS_CLAIM_FAILED) {
    ts_report(m->s.problems, TS_ERROR, d->out, 0, "cannot be written: %s",
              strerror_r(errno, reason, sizeof reason));
    return NOT_DONE;
  }
  int status = m->assess(&m->s, &options);
  ts_folder_release(d->out, claim);
  return status;
}

/* What it says is kept until it ends, so that it reads in one piece. Without its parent it ends. */
static _Noreturn void be_child(many *m, const child *c, pid_t parent) {
  prctl(PR_SET_PDEATHSIG, SIGTERM);
  if (getppid() != parent || dup2(c->said, STDOUT_FILENO) < 0 ||
      dup2(c->problems, STDERR_FILENO) < 0)
    exit(NOT_DONE);
  int status = claim_and_assess(m, c->of);
  session_close(&m->s);
  exit(fflush(stdout) == 0 ? status : NOT_DONE);
}

/* ---- in the parent ------------------------------------------------------------------- */

static void pass_on(int from, FILE *to) {
  char bytes[4096];
  off_t at = 0;
  for (ssize_t n; (n = pread(from, bytes, sizeof bytes, at)) > 0; at += n)
    fwrite(bytes, 1, (size_t)n, to);
}

static void report_end(many *m, const child *c, int ended) {
  int status = WIFEXITED(ended) ? WEXITSTATUS(ended) : NOT_DONE;
  pass_on(c->problems, stderr);
  if (status == PUT_OFF) {
    m->put_off[m->put_off_count++] = c->of;
    return;
  }
  printf("%s: ", c->of->name);
  pass_on(c->said, stdout);
  if (WIFSIGNALED(ended)) printf("failed: ended by signal %d\n", WTERMSIG(ended));
  if (WIFEXITED(ended) && status >= NOT_DONE) puts("failed");
  m->done += status == DONE;
  m->look += status == LOOK;
  m->failed += status >= NOT_DONE;
  fflush(stdout);
}

static bool await_one(many *m) {
  int ended;
  pid_t process = waitpid(-1, &ended, 0);
  for (size_t i = 0; process > 0 && i < m->running; i++) {
    child *c = &m->children[i];
    if (c->process != process) continue;
    report_end(m, c, ended);
    close(c->said);
    close(c->problems);
    *c = m->children[--m->running];
    return true;
  }
  return process > 0;
}

static bool start(many *m, const dossier *d) {
  child c = {.of = d, .said = memfd_create("said", MFD_CLOEXEC)};
  c.problems = memfd_create("problems", MFD_CLOEXEC);
  pid_t parent = getpid();
  fflush(stdout);
  c.process = c.said < 0 || c.problems < 0 ? -1 : fork();
  if (c.process == 0) be_child(m, &c, parent);
  if (c.process > 0) {
    m->children[m->running++] = c;
    return true;
  }
  char reason[128];
  ts_report(m->s.problems, TS_ERROR, d->path, 0, "no process for it: %s",
            strerror_r(errno, reason, sizeof reason));
  if (c.said >= 0) close(c.said);
  if (c.problems >= 0) close(c.problems);
  return false;
}

static bool assess_those(many *m, const dossier *const *these, size_t count) {
  bool good = true;
  for (size_t i = 0; good && i < count; i++) {
    while (good && m->running == m->most) good = await_one(m);
    good = good && start(m, these[i]);
  }
  while (m->running > 0 && await_one(m)) continue;
  return good;
}

/* What another run is at comes last, and is waited for: then it is done, or that run was stopped.
 */
static bool assess_all(many *m) {
  const dossier **these = ts_arena_alloc(m->s.arena, (m->count + 1) * sizeof *these);
  m->put_off = ts_arena_alloc(m->s.arena, (m->count + 1) * sizeof *m->put_off);
  for (size_t i = 0; i < m->count; i++) these[i] = &m->all[i];
  if (!assess_those(m, these, m->count)) return false;
  size_t left = m->put_off_count;
  memcpy(these, m->put_off, left * sizeof *these);
  m->wait = true;
  return assess_those(m, these, left);
}

/* So many at a time as there may be threads; where they are fewer, each has several. */
static void share_workers(many *m) {
  size_t workers = options_workers(m->options);
  m->most = workers < m->count ? workers : m->count > 0 ? m->count : 1;
  // NOLINTNEXTLINE(clang-analyzer-core.DivideZero): there is one worker at least
  m->threads = ts_arena_printf(m->s.arena, "%zu", workers / m->most);
  m->children = ts_arena_alloc(m->s.arena, m->most * sizeof *m->children);
}

static int count_up(const many *m) {
  printf("%zu dossier%s: %zu to be looked at, %zu with nothing above the line, %zu failed\n",
         m->count, plural(m->count), m->look, m->done, m->failed);
  if (m->failed > 0 || m->done + m->look < m->count) return NOT_DONE;
  return m->look > 0 ? LOOK : DONE;
}

static int wrong_request(const ts_options *o) {
  if (o->out == NULL || ts_ends_in(o->out, ".xml"))
    return usage_error("several dossiers need a folder to go to: -o DIR");
  if (o->set_count > 0 || o->set_file_count > 0)
    return usage_error("--set and --set-file are for one dossier");
  return o->explain != NULL ? usage_error("--explain is for one dossier") : DONE;
}

int many_run(const ts_options *options, many_assess *assess) {
  many m = {.options = options, .assess = assess};
  int status = wrong_request(options);
  if (status != DONE) return status;
  bool good = session_open(&m.s) && session_load_for_dossiers(&m.s) && gather(&m);
  if (good) keep_part(&m);
  if (good) share_workers(&m);
  status = good && assess_all(&m) ? count_up(&m) : NOT_DONE;
  free(m.paths.at);
  session_close(&m.s);
  return status;
}
