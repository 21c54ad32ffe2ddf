/* Waiting until somebody saves a file: on Linux woken by the kernel, elsewhere by looking often.
 *
 * What wakes only says when to look. That a file is not what it was is seen on the file, so a wake
 * for nothing does no harm, and a folder on another machine, which wakes nobody, is looked at all
 * the same, only later. */
#include "base/saved.h"
#include "base/arena.h"
#include "base/file.h"
#include "base/text.h"

#include <signal.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <time.h>
#ifdef __linux__
#include <poll.h>
#include <sys/inotify.h>
#include <sys/signalfd.h>
#include <unistd.h>
#endif

enum { QUIET = 150, OFTEN = 300, SELDOM = 2000 }; /* milliseconds */
enum { TURNS = 40 }; /* of QUIET: one who never stops is looked at too */

/* What tells one content of a file from another. */
typedef struct {
  bool there;
  dev_t device;
  ino_t number;
  off_t size;
  struct timespec written;
} stamp;

typedef struct {
  const char *path;
  stamp was;
  bool changed; /* since somebody was told */
} watched;

typedef struct {
  const char *path, *suffix;
} folder;

struct ts_saved {
  ts_arena *arena;
  watched *files;
  size_t file_count, file_capacity;
  folder *folders;
  size_t folder_count, folder_capacity;
  int wakes, ends; /* Linux: what changes in the folders, and signals, as files to read */
};

/* ---- being woken --------------------------------------------------------------------------- */

static sigset_t ending(void) {
  sigset_t set;
  sigemptyset(&set);
  sigaddset(&set, SIGINT);
  sigaddset(&set, SIGTERM);
  sigaddset(&set, SIGHUP);
  return set;
}

bool ts_saved_ended(void) {
  sigset_t waiting;
  sigpending(&waiting);
  return sigismember(&waiting, SIGINT) || sigismember(&waiting, SIGTERM) ||
         sigismember(&waiting, SIGHUP);
}

#ifdef __linux__

static void begin_waking(ts_saved *saved) {
  sigset_t set = ending();
  saved->wakes = inotify_init1(IN_NONBLOCK | IN_CLOEXEC);
  saved->ends = signalfd(-1, &set, SFD_NONBLOCK | SFD_CLOEXEC);
}

static void end_waking(ts_saved *saved) {
  if (saved->wakes >= 0) close(saved->wakes);
  if (saved->ends >= 0) close(saved->ends);
}

/* The folder, not the file: a file that is replaced is another file. */
static void wake_for(ts_saved *saved, const char *path) {
  if (saved->wakes >= 0)
    inotify_add_watch(saved->wakes, path,
                      IN_CLOSE_WRITE | IN_MOVED_TO | IN_MOVED_FROM | IN_CREATE | IN_DELETE);
}

/* What woke is taken in and thrown away; the signal stays, for ts_saved_ended. */
static void wait_for(ts_saved *saved, int most) {
  struct pollfd on[] = {{.fd = saved->ends, .events = POLLIN},
                        {.fd = saved->wakes, .events = POLLIN}};
  char events[4096];
  poll(on, 2, most);
  while (saved->wakes >= 0 && read(saved->wakes, events, sizeof events) > 0) {
  }
}

static void wait_for_change(ts_saved *saved) { wait_for(saved, SELDOM); }

#else

static void begin_waking(ts_saved *saved) { (void)saved; }
static void end_waking(ts_saved *saved) { (void)saved; }
static void wake_for(ts_saved *saved, const char *path) { (void)saved, (void)path; }

static void wait_for_change(ts_saved *saved) {
  (void)saved;
  nanosleep(&(struct timespec){.tv_nsec = OFTEN * 1000000L}, NULL);
}

#endif

/* ---- looking ------------------------------------------------------------------------------- */

static stamp stamp_of(const char *path) {
  struct stat is;
  if (stat(path, &is) != 0) return (stamp){.there = false};
  return (stamp){true, is.st_dev, is.st_ino, is.st_size, is.st_mtim};
}

static bool is_same(const stamp *a, const stamp *b) {
  return a->there == b->there && a->device == b->device && a->number == b->number &&
         a->size == b->size && a->written.tv_sec == b->written.tv_sec &&
         a->written.tv_nsec == b->written.tv_nsec;
}

static bool is_known(const ts_saved *saved, const char *path) {
  for (size_t i = 0; i < saved->file_count; i++)
    if (ts_same(saved->files[i].path, path)) return true;
  return false;
}

static void add_file(ts_saved *saved, const char *path, stamp was) {
  if (is_known(saved, path)) return;
  TS_GROW(saved->files, saved->file_count, saved->file_capacity);
  saved->files[saved->file_count++] = (watched){ts_arena_copy(saved->arena, path), was, false};
}

/* Files that have come into a folder; `news`: each then counts as changed. */
static void list(ts_saved *saved, const folder *in, bool news) {
  ts_arena *arena = ts_arena_new();
  ts_diagnostics *unsaid = ts_diagnostics_new();
  char **names = ts_folder_list(arena, in->path, in->suffix, unsaid);
  for (; names != NULL && *names != NULL; names++) {
    const char *path = ts_path_join(arena, in->path, *names);
    stamp was = {.there = false};
    if (!news) was = stamp_of(path);
    add_file(saved, path, was);
  }
  ts_diagnostics_free(unsaid);
  ts_arena_free(arena);
}

/* True when any file is not what it was at the last look. */
static bool look(ts_saved *saved) {
  bool any = false;
  for (size_t i = 0; i < saved->folder_count; i++) list(saved, &saved->folders[i], true);
  for (size_t i = 0; i < saved->file_count; i++) {
    watched *one = &saved->files[i];
    stamp is = stamp_of(one->path);
    if (is_same(&is, &one->was)) continue;
    one->was = is;
    one->changed = any = true;
  }
  return any;
}

/* ---- from outside --------------------------------------------------------------------------- */

ts_saved *ts_saved_new(void) {
  ts_saved *saved = ts_alloc(sizeof *saved);
  sigset_t set = ending();
  saved->arena = ts_arena_new();
  pthread_sigmask(SIG_BLOCK, &set, NULL);
  begin_waking(saved);
  return saved;
}

void ts_saved_free(ts_saved *saved) {
  if (saved == NULL) return;
  end_waking(saved);
  free(saved->files);
  free(saved->folders);
  ts_arena_free(saved->arena);
  free(saved);
}

void ts_saved_file(ts_saved *saved, const char *path) {
  add_file(saved, path, stamp_of(path));
  wake_for(saved, ts_path_folder(saved->arena, path));
}

void ts_saved_folder(ts_saved *saved, const char *path, const char *suffix) {
  for (size_t i = 0; i < saved->folder_count; i++)
    if (ts_same(saved->folders[i].path, path)) return;
  TS_GROW(saved->folders, saved->folder_count, saved->folder_capacity);
  saved->folders[saved->folder_count] = (folder){ts_arena_copy(saved->arena, path), suffix};
  list(saved, &saved->folders[saved->folder_count++], false);
  wake_for(saved, path);
}

size_t ts_saved_count(const ts_saved *saved) { return saved->file_count; }

static void pause_for(long milliseconds) {
  nanosleep(&(struct timespec){.tv_nsec = milliseconds * 1000000L}, NULL);
}

bool ts_saved_wait(ts_saved *saved, void (*each)(void *context, const char *path, bool there),
                   void *context) {
  while (!look(saved)) {
    if (ts_saved_ended()) return false;
    wait_for_change(saved);
  }
  for (int turn = 0; turn < TURNS && !ts_saved_ended(); turn++) {
    pause_for(QUIET);
    if (!look(saved)) break;
  }
  for (size_t i = 0; i < saved->file_count; i++) {
    if (saved->files[i].changed) each(context, saved->files[i].path, saved->files[i].was.there);
    saved->files[i].changed = false;
  }
  return !ts_saved_ended();
}
