/* PDF: the HTML set by the separate program weasyprint.
 *
 * No shell. The program writes to a pipe and this process writes the file, so
 * that a PDF is there whole or not at all. A fixed SOURCE_DATE_EPOCH makes two
 * runs give the same bytes. templates/tags/ mends weasyprint from inside, before
 * it starts: figures with their text, and tags in time proportional to the pages. */
#include "base/file.h"
#include "base/text.h"
#include "document/parts.h"
#include "document/transform.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <poll.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#ifdef __linux__
#include <sys/prctl.h>
#endif
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { NOT_THERE = 127, SAID_LIMIT = 1 << 16, PDF_LIMIT = 512 << 20, PAGE_LIMIT = 512 << 20 };

/* Seconds after which it is stopped: of its own work, which grows with the pages and which nothing
 * else on the machine changes; the clock only catches one that waits for ever. */
enum { LEAST = 300, A_MEGABYTE = 100, CLOCK_TIMES = 20 };

static const struct {
  const char *name, *css;
} papers[] = {{"a4", "a4.css"}, {"letter", "letter.css"}};

const char *ts_document_paper(const char *paper, ts_diagnostics *problems) {
  for (size_t i = 0; i < sizeof papers / sizeof *papers; i++)
    if (ts_same(paper ? paper : "a4", papers[i].name)) return papers[i].css;
  ts_report(problems, TS_ERROR, "assessment.xml", 0,
            "unknown paper \"%s\"; expected \"a4\" or \"letter\"", paper);
  return NULL;
}

/* ---- the child ---------------------------------------------------------- */

typedef struct {
  pid_t pid;
  int out, err;        /* our ends of its pipes; -1 when closed */
  long long end;       /* milliseconds: by when it must be over */
  bool in_time, heard; /* whether it was; whether all it wrote was taken */
} child;

static bool names(const char *variable, const char *name) {
  size_t length = strlen(name);
  return strncmp(variable, name, length) == 0 && variable[length] == '=';
}

/* The environment with what the program is to find in it; in the arena. */
static char **environment(ts_arena *arena) {
  const char *path = getenv("PYTHONPATH"), *tags = ts_data_path(arena, "templates/tags");
  bool more = path && path[0];
  const struct {
    const char *name, *value;
  } set[] = {{"SOURCE_DATE_EPOCH", "0"},
             {"PYTHONDONTWRITEBYTECODE", "1"},
             {"PYTHONPATH", more ? ts_arena_printf(arena, "%s:%s", tags, path) : tags}};
  enum { SET = sizeof set / sizeof *set };
  size_t count = 0, kept = 0;
  while (environ[count]) count++;
  char **copy = ts_arena_alloc(arena, (count + SET + 1) * sizeof *copy);
  for (size_t i = 0; i < count; i++) {
    bool ours = false;
    for (size_t k = 0; k < SET; k++) ours = ours || names(environ[i], set[k].name);
    if (!ours) copy[kept++] = environ[i];
  }
  for (size_t k = 0; k < SET; k++)
    copy[kept++] = ts_arena_printf(arena, "%s=%s", set[k].name, set[k].value);
  copy[kept] = NULL;
  return copy;
}

static unsigned seconds_for(const char *html_path) {
  struct stat about;
  size_t bytes = stat(html_path, &about) == 0 && about.st_size > 0 ? (size_t)about.st_size : 0;
  return LEAST + (unsigned)(bytes >> 20) * A_MEGABYTE;
}

/* Runs in the child: only what is allowed between fork and exec. Where the system knows how, it
 * ends with us, however we end. */
static void become(char *const *arguments, char *const *variables, unsigned seconds, int out,
                   int err) {
  // NOLINTNEXTLINE(android-cloexec-open): it may come out as 0 itself, and stays
  int nothing = open("/dev/null", O_RDONLY);
  struct rlimit work = {seconds, seconds + 1};
  setpgid(0, 0);
  setrlimit(RLIMIT_CPU, &work);
#ifdef PR_SET_PDEATHSIG
  prctl(PR_SET_PDEATHSIG, SIGKILL);
#endif
  if (nothing >= 0 && dup2(nothing, 0) >= 0 && dup2(out, 1) >= 0 && dup2(err, 2) >= 0)
    execvpe(arguments[0], arguments, variables);
  _exit(NOT_THERE);
}

static long long milliseconds(void) {
  struct timespec now;
  clock_gettime(CLOCK_MONOTONIC, &now);
  return now.tv_sec * 1000LL + now.tv_nsec / 1000000;
}

/* Keeps errno, which says why there is no child. */
static void shut(int file) {
  int why = errno;
  if (file >= 0) close(file);
  errno = why;
}

static bool start(child *c, char *const *arguments, unsigned seconds, ts_arena *arena) {
  char **variables = environment(arena);
  int out[2] = {-1, -1}, err[2] = {-1, -1};
  *c = (child){.pid = -1, .out = -1, .err = -1, .in_time = true, .heard = true};
  c->end = milliseconds() + 1000LL * CLOCK_TIMES * seconds;
  if (pipe2(out, O_CLOEXEC) == 0 && pipe2(err, O_CLOEXEC) == 0) c->pid = fork();
  if (c->pid == 0) become(arguments, variables, seconds, out[1], err[1]);
  if (c->pid > 0) setpgid(c->pid, c->pid); /* as it does itself: whoever comes first */
  shut(out[1]);
  shut(err[1]);
  c->out = out[0];
  c->err = err[0];
  if (c->pid > 0) return true;
  shut(out[0]);
  shut(err[0]);
  return false;
}

/* ---- listening ---------------------------------------------------------- */

/* Takes what is there; closes the pipe at its end. Past the limit it is read and dropped. False
 * when not all was taken. */
static bool take(int *pipe, short events, ts_text *into, size_t limit) {
  if (!(events & (POLLIN | POLLHUP | POLLERR))) return true;
  char bytes[65536];
  ssize_t n = read(*pipe, bytes, sizeof bytes);
  bool fits = n <= 0 || into->length + (size_t)n <= limit;
  if (n > 0 && fits) ts_text_add_n(into, bytes, (size_t)n);
  if (n > 0 || (n < 0 && errno == EINTR)) return fits;
  close(*pipe);
  *pipe = -1;
  return n == 0;
}

/* Reads both pipes to their ends, or until the time runs out. What it says past the limit of that
 * is no loss. */
static void listen_to(child *c, ts_text *pdf, ts_text *said) {
  while (c->in_time && (c->out >= 0 || c->err >= 0)) {
    long long left = c->end - milliseconds();
    struct pollfd both[] = {{c->out, POLLIN, 0}, {c->err, POLLIN, 0}};
    int ready = left > 0 ? poll(both, 2, left < INT_MAX ? (int)left : INT_MAX) : 0;
    c->in_time = left > 0 && (ready >= 0 || errno == EINTR);
    if (ready <= 0) continue;
    c->heard = take(&c->out, both[0].revents, pdf, PDF_LIMIT) && c->heard;
    take(&c->err, both[1].revents, said, SAID_LIMIT);
  }
}

/* It may close both and go on all the same: that takes its time too. */
static int finish(child *c) {
  const struct timespec pause = {.tv_nsec = 5000000};
  int status = 0;
  pid_t ended = 0;
  while (c->in_time && (ended = waitpid(c->pid, &status, WNOHANG)) == 0) {
    nanosleep(&pause, NULL);
    c->in_time = milliseconds() < c->end;
  }
  if (!c->in_time) kill(-c->pid, SIGKILL);
  while (ended == 0 && waitpid(c->pid, &status, 0) < 0 && errno == EINTR) continue;
  shut(c->out);
  shut(c->err);
  return status;
}

/* ---- reporting ---------------------------------------------------------- */

/* It says so whenever tags are asked for; no claim is made on any paper. */
static bool expected(const char *line, size_t n) {
  static const char about_tags[] = "WARNING: PDF/UA support is experimental";
  return n >= sizeof about_tags - 1 && strncmp(line, about_tags, sizeof about_tags - 1) == 0;
}

/* Each line weasyprint said, as one warning. */
static void report_lines(const ts_text *said, const char *file, ts_diagnostics *problems) {
  const char *line = said->length ? said->data : "";
  while (*line) {
    size_t n = strcspn(line, "\n");
    if (n && !expected(line, n))
      ts_report(problems, TS_WARNING, file, 0, "weasyprint: %.*s", (int)n, line);
    line += n + (line[n] == '\n');
  }
}

/* Begins and ends as a PDF does: one that was cut off has no end. */
static bool is_whole(const ts_text *pdf) {
  static const char begin[] = "%PDF-", end[] = "%%EOF";
  size_t length = pdf->length;
  while (length > 0 && strchr("\r\n", pdf->data[length - 1]) != NULL) length--;
  return length >= sizeof begin + sizeof end && memcmp(pdf->data, begin, sizeof begin - 1) == 0 &&
         memcmp(pdf->data + length - (sizeof end - 1), end, sizeof end - 1) == 0;
}

static bool judge(const child *c, unsigned seconds, int status, const ts_text *pdf,
                  const char *file, ts_diagnostics *problems) {
  if (!c->in_time)
    ts_report(problems, TS_ERROR, file, 0, "weasyprint took longer than %u s and was stopped",
              seconds * CLOCK_TIMES);
  else if (WIFSIGNALED(status) && WTERMSIG(status) == SIGXCPU)
    ts_report(problems, TS_ERROR, file, 0,
              "weasyprint took more than %u s of processor time and was stopped", seconds);
  else if (WIFEXITED(status) && WEXITSTATUS(status) == NOT_THERE)
    ts_report(problems, TS_ERROR, file, 0,
              "the program \"weasyprint\" cannot be run; install the package weasyprint");
  else if (!WIFEXITED(status) || WEXITSTATUS(status) != 0)
    ts_report(problems, TS_ERROR, file, 0, "weasyprint failed; what it said is above");
  else if (!c->heard)
    ts_report(problems, TS_ERROR, file, 0, "what weasyprint gave could not be read to its end");
  else if (!is_whole(pdf))
    ts_report(problems, TS_ERROR, file, 0, "weasyprint gave no whole PDF");
  else
    return true;
  return false;
}

/* ---- the whole ---------------------------------------------------------- */

/* A path that no argument parser takes for an option or an address. */
static char *plain_path(ts_arena *arena, const char *path, ts_diagnostics *problems) {
  char *real = realpath(path, NULL);
  if (!real) ts_report(problems, TS_ERROR, path, 0, "cannot be opened");
  char *copy = ts_arena_copy(arena, real);
  free(real);
  return copy;
}

static bool run_program(char *const *arguments, const char *html_path, ts_text *pdf,
                        ts_arena *arena, ts_diagnostics *problems) {
  child c;
  ts_text said = {0};
  unsigned seconds = seconds_for(html_path);
  bool started = start(&c, arguments, seconds, arena);
  if (started)
    listen_to(&c, pdf, &said);
  else
    ts_report(problems, TS_ERROR, html_path, 0, "no program can be started to set it as PDF: %s",
              ts_arena_copy(arena, strerror(errno)));
  int status = started ? finish(&c) : 0;
  report_lines(&said, html_path, problems);
  ts_text_release(&said);
  return started && judge(&c, seconds, status, pdf, html_path, problems);
}

static bool set_one(const char *html_path, const char *pdf_path, const char *paper_css,
                    const char *attachment, ts_diagnostics *problems) {
  ts_arena *arena = ts_arena_new();
  const char *folder = ts_data_path(arena, "templates");
  char *html = plain_path(arena, html_path, problems);
  char *attached = attachment ? plain_path(arena, attachment, problems) : NULL;
  char program[] = "weasyprint", variant[] = "--pdf-variant", ua[] = "pdf/ua-1", style[] = "-s",
       attach[] = "-a", output[] = "-";
  char *arguments[] = {program,
                       variant,
                       ua,
                       style,
                       ts_path_join(arena, folder, "paged.css"),
                       style,
                       ts_path_join(arena, folder, paper_css),
                       html,
                       output,
                       attached ? attach : NULL,
                       attached,
                       NULL};
  ts_text pdf = {0};
  bool good = html && (attached || !attachment) &&
              run_program(arguments, html_path, &pdf, arena, problems) &&
              ts_file_write(pdf_path, pdf.data, pdf.length, problems);
  ts_text_release(&pdf);
  ts_arena_free(arena);
  return good;
}

/* ---- parts ------------------------------------------------------------------------------ */

size_t ts_sheet_pdf_parts(const char *html, size_t length) {
  ts_parts *parts = ts_parts_of(html, length);
  size_t count = ts_parts_count(parts);
  ts_parts_free(parts);
  return count;
}

static size_t stem_of(const char *pdf) {
  size_t length = strlen(pdf);
  return length > 4 && ts_same(pdf + length - 4, ".pdf") ? length - 4 : length;
}

void ts_sheet_pdf_name(const char *pdf, size_t part, size_t parts, char *name, size_t size) {
  if (parts == 1)
    snprintf(name, size, "%s", pdf);
  else
    snprintf(name, size, "%.*s-part-%02zu.pdf", (int)stem_of(pdf), pdf, part);
}

bool ts_sheet_is_part_of(const char *pdf, const char *name) {
  static const char mark[] = "-part-";
  size_t stem = stem_of(pdf);
  if (strncmp(name, pdf, stem) != 0 || strncmp(name + stem, mark, sizeof mark - 1) != 0)
    return false;
  const char *number = name + stem + sizeof mark - 1;
  size_t digits = strspn(number, "0123456789");
  return digits >= 2 && ts_same(number + digits, ".pdf");
}

bool ts_sheet_is_part(const char *name) {
  for (const ts_sheet *sheet = ts_sheets(); sheet->name != NULL; sheet++)
    if (sheet->own_pdf && ts_sheet_is_part_of(sheet->name, name)) return true;
  return false;
}

/* Its page is in `scratch` while it is set. */
static bool set_part(const ts_parts *parts, size_t number, const char *scratch,
                     const char *pdf_path, const char *paper_css, const char *attachment,
                     ts_diagnostics *problems) {
  char name[PATH_MAX], page[PATH_MAX];
  ts_text html = {0};
  ts_sheet_pdf_name(pdf_path, number + 1, ts_parts_count(parts), name, sizeof name);
  snprintf(page, sizeof page, "%s/%s.html", scratch, ts_path_name(name));
  ts_parts_write(parts, number, &html);
  bool good = ts_file_write(page, html.data, html.length, problems) &&
              set_one(page, name, paper_css, number == 0 ? attachment : NULL, problems);
  ts_text_release(&html);
  return good;
}

static bool set_parts(const ts_parts *parts, const char *pdf_path, const char *paper_css,
                      const char *attachment, ts_arena *arena, ts_diagnostics *problems) {
  const char *scratch = ts_folder_temporary(arena, problems);
  bool good = scratch != NULL;
  for (size_t i = 0; good && i < ts_parts_count(parts); i++)
    good = set_part(parts, i, scratch, pdf_path, paper_css, attachment, problems);
  if (!scratch) return false;
  ts_diagnostics_rename(problems, scratch, ts_path_folder(arena, pdf_path));
  ts_folder_remove(scratch);
  return good;
}

bool ts_sheet_pdf_with(const char *html_path, const char *pdf_path, const char *paper,
                       const char *attachment, ts_diagnostics *problems) {
  const char *paper_css = ts_document_paper(paper, problems);
  if (!paper_css) return false;
  ts_arena *arena = ts_arena_new();
  size_t length = 0;
  const char *html = ts_file_read(arena, html_path, PAGE_LIMIT, &length, problems);
  ts_parts *parts = html ? ts_parts_of(html, length) : NULL;
  bool good = false;
  if (parts && ts_parts_count(parts) == 1)
    good = set_one(html_path, pdf_path, paper_css, attachment, problems);
  else if (parts)
    good = set_parts(parts, pdf_path, paper_css, attachment, arena, problems);
  ts_parts_free(parts);
  ts_arena_free(arena);
  return good;
}

bool ts_sheet_pdf(const char *html_path, const char *pdf_path, const char *paper,
                  ts_diagnostics *problems) {
  return ts_sheet_pdf_with(html_path, pdf_path, paper, NULL, problems);
}
