/* Preloaded into the program by run.py: makes one call fail, or ends the process there.
 *
 *   FAULT_KIND   memory, open, read, write, sync, close, move, other: which calls are counted
 *   FAULT_AT     which of them, from 1; 0 or nothing: none
 *   FAULT_KEEP   that one and all after it
 *   FAULT_KILL   there the process is killed instead, as by a cut of the power
 *   FAULT_COUNT  a file, to which at the end goes how many of each kind there were
 *   FAULT_PATHS  a file, to which goes the number of the first call on every path of calls
 *   FAULT_DEEP   so many callers make a path
 *   FAULT_WITHIN a function of a library: of that kind those calls alone that it is the reason for
 *   FAULT_HASTE  the monotonic clock and poll() run 20,000 times as fast
 *
 * What the C library does by itself (the writes of stdio) is not seen: /dev/full shows that. */
#define _GNU_SOURCE
#undef _FORTIFY_SOURCE
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <execinfo.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { DEEPEST = 16, SEEN = 1 << 16, HASTE = 20000 };
typedef enum { MEMORY, OPEN, READ, WRITE, SYNC, CLOSE, MOVE, OTHER, KINDS } what;
static const char *const kinds[KINDS] = {"memory", "open", "read", "write", "sync", "close", "move", "other"};

static bool on, keep, kills, haste, inside;
static what kind = KINDS; /* none */
static int paths_to = -1, count_to = -1; /* opened at the start: later the program may write less */
static unsigned long at, counts[KINDS];
static int deep; /* how many callers make a path */
static const char *within;
static uintptr_t seen[SEEN];

static unsigned long number(const char *name) {
  const char *text = getenv(name);
  return text ? strtoul(text, NULL, 10) : 0;
}

/* dlsym may ask for memory before it has told where there is some. It is never freed. */
static void *(*real_malloc)(size_t), *(*real_calloc)(size_t, size_t), *(*real_realloc)(void *, size_t);
static void *early(size_t n) {
  static max_align_t bytes[4096];
  static size_t used;
  void *got = bytes + used;
  used += n / sizeof *bytes + 1;
  return used <= sizeof bytes / sizeof *bytes ? got : NULL;
}

static what kind_named(const char *name) {
  what one = 0;
  while (one < KINDS && (!name || strcmp(name, kinds[one]) != 0)) one++;
  return one;
}

/* The file that a variable names, or -1. */
static int written_to(const char *variable) {
  const char *path = getenv(variable);
  return path ? (int)syscall(SYS_open, path, O_WRONLY | O_CREAT | O_TRUNC, 0666) : -1;
}

__attribute__((constructor)) static void begin(void) {
  void *frames[2];
  void *(*found)(size_t) = (void *(*)(size_t))dlsym(RTLD_NEXT, "__libc_malloc");
  real_calloc = (void *(*)(size_t, size_t))dlsym(RTLD_NEXT, "__libc_calloc");
  real_realloc = (void *(*)(void *, size_t))dlsym(RTLD_NEXT, "__libc_realloc");
  real_malloc = found;
  if (strcmp(program_invocation_short_name, "tankside") != 0) return; /* not its children */
  backtrace(frames, 2); /* loads what it needs, before anything is counted */
  kind = kind_named(getenv("FAULT_KIND"));
  at = number("FAULT_AT");
  keep = getenv("FAULT_KEEP") != NULL;
  kills = getenv("FAULT_KILL") != NULL;
  haste = getenv("FAULT_HASTE") != NULL;
  count_to = written_to("FAULT_COUNT");
  deep = (int)number("FAULT_DEEP");
  if (deep > DEEPEST) deep = DEEPEST;
  within = getenv("FAULT_WITHIN");
  paths_to = written_to("FAULT_PATHS");
  on = true;
}

__attribute__((destructor)) static void end(void) {
  char text[64];
  if (!on || count_to < 0) return;
  on = false;
  for (what one = 0; one < KINDS; one++) {
    int length = snprintf(text, sizeof text, "%s %lu\n", kinds[one], counts[one]);
    syscall(SYS_write, count_to, text, (size_t)length);
  }
}

/* Whether one of the callers is the function that is asked for. */
static bool is_within(void) {
  void *frames[DEEPEST];
  bool found = within == NULL;
  int depth = found ? 0 : backtrace(frames, DEEPEST);
  for (int i = 0; i < depth && !found; i++) {
    Dl_info info;
    found = dladdr(frames[i], &info) && info.dli_sname && strcmp(info.dli_sname, within) == 0;
  }
  return found;
}

/* The number of this call, if no other came this way before. */
static void note_path(void) {
  void *frames[DEEPEST + 3];
  uintptr_t hash = 1469598103934665603u;
  int depth = backtrace(frames, deep + 3);
  for (int i = 3; i < depth; i++) hash = (hash ^ (uintptr_t)frames[i]) * 1099511628211u;
  size_t slot = (hash ^ hash >> 32) % SEEN;
  while (seen[slot] && seen[slot] != hash) slot = (slot + 1) % SEEN;
  if (seen[slot]) return;
  seen[slot] = hash;
  char text[32];
  int length = snprintf(text, sizeof text, "%lu\n", counts[kind]);
  syscall(SYS_write, paths_to, text, (size_t)length);
}

/* Whether this call is to fail. */
static bool fails(what of, int why) {
  if (!on || inside) return false;
  inside = true;
  bool counted = of != kind || is_within();
  inside = false;
  if (!counted) return false;
  unsigned long count = ++counts[of];
  if (of != kind) return false;
  inside = true;
  if (paths_to >= 0) note_path();
  inside = false;
  if (at == 0 || (keep ? count < at : count != at)) return false;
  if (kills) raise(SIGKILL);
  errno = why;
  return true;
}

#define NEXT(name) ((__typeof__(&name))dlsym(RTLD_NEXT, #name))

/* ---- memory: where the program, which stands in for malloc itself, asks for it -------------- */

void *__libc_malloc(size_t n) {
  return fails(MEMORY, ENOMEM) ? NULL : real_malloc ? real_malloc(n) : early(n);
}
void *__libc_calloc(size_t n, size_t m) {
  return fails(MEMORY, ENOMEM) ? NULL : real_calloc ? real_calloc(n, m) : early(n * m);
}
void *__libc_realloc(void *p, size_t n) {
  return fails(MEMORY, ENOMEM) ? NULL : real_realloc(p, n);
}

/* ---- opening, making --------------------------------------------------------------------- */

static mode_t mode_of(int flags, va_list list) {
  return flags & (O_CREAT | O_TMPFILE) ? va_arg(list, mode_t) : 0;
}

int open(const char *path, int flags, ...) {
  va_list list;
  va_start(list, flags);
  mode_t mode = mode_of(flags, list);
  va_end(list);
  return fails(OPEN, EMFILE) ? -1 : NEXT(open)(path, flags, mode);
}
int open64(const char *path, int flags, ...) {
  va_list list;
  va_start(list, flags);
  mode_t mode = mode_of(flags, list);
  va_end(list);
  return fails(OPEN, EMFILE) ? -1 : NEXT(open64)(path, flags, mode);
}
int openat(int folder, const char *path, int flags, ...) {
  va_list list;
  va_start(list, flags);
  mode_t mode = mode_of(flags, list);
  va_end(list);
  return fails(OPEN, EMFILE) ? -1 : NEXT(openat)(folder, path, flags, mode);
}
FILE *fopen(const char *path, const char *mode) {
  return fails(OPEN, EMFILE) ? NULL : NEXT(fopen)(path, mode);
}
FILE *fopen64(const char *path, const char *mode) {
  return fails(OPEN, EMFILE) ? NULL : NEXT(fopen64)(path, mode);
}
DIR *opendir(const char *path) { return fails(OPEN, EMFILE) ? NULL : NEXT(opendir)(path); }
DIR *fdopendir(int file) { return fails(OPEN, ENOMEM) ? NULL : NEXT(fdopendir)(file); }
int mkdir(const char *path, mode_t mode) { return fails(OPEN, ENOSPC) ? -1 : NEXT(mkdir)(path, mode); }
int mkdirat(int folder, const char *path, mode_t mode) {
  return fails(OPEN, ENOSPC) ? -1 : NEXT(mkdirat)(folder, path, mode);
}

/* ---- reading, writing -------------------------------------------------------------------- */

ssize_t read(int file, void *bytes, size_t n) { return fails(READ, EIO) ? -1 : NEXT(read)(file, bytes, n); }
ssize_t __read_chk(int file, void *bytes, size_t n, size_t room) {
  (void)room;
  return read(file, bytes, n);
}
struct dirent *readdir(DIR *folder) { return fails(READ, EIO) ? NULL : NEXT(readdir)(folder); }
struct dirent64 *readdir64(DIR *folder) { return fails(READ, EIO) ? NULL : NEXT(readdir64)(folder); }
ssize_t write(int file, const void *bytes, size_t n) {
  return fails(WRITE, ENOSPC) ? -1 : NEXT(write)(file, bytes, n);
}
/* As the C library itself marks a stream that failed. */
static bool stream_fails(FILE *to, what of) {
  if (!fails(of, ENOSPC)) return false;
  if (to) to->_flags |= 0x20;
  return true;
}
size_t fwrite(const void *bytes, size_t size, size_t n, FILE *to) {
  return stream_fails(to, WRITE) ? 0 : NEXT(fwrite)(bytes, size, n, to);
}
int fflush(FILE *to) { return stream_fails(to, SYNC) ? EOF : NEXT(fflush)(to); }
int fsync(int file) { return fails(SYNC, EIO) ? -1 : NEXT(fsync)(file); }

/* What is closed is closed, whatever was said of it. */
int close(int file) {
  int done = NEXT(close)(file);
  return fails(CLOSE, EIO) ? -1 : done;
}
int fclose(FILE *file) {
  int done = NEXT(fclose)(file);
  return fails(CLOSE, EIO) ? EOF : done;
}
int closedir(DIR *folder) {
  int done = NEXT(closedir)(folder);
  return fails(CLOSE, EIO) ? -1 : done;
}

/* ---- moving, and the rest ------------------------------------------------------------------ */

int rename(const char *from, const char *to) { return fails(MOVE, EIO) ? -1 : NEXT(rename)(from, to); }
int renameat(int a, const char *from, int b, const char *to) {
  return fails(MOVE, EIO) ? -1 : NEXT(renameat)(a, from, b, to);
}
int renameat2(int a, const char *from, int b, const char *to, unsigned flags) {
  return fails(MOVE, EIO) ? -1 : NEXT(renameat2)(a, from, b, to, flags);
}
int linkat(int a, const char *from, int b, const char *to, int flags) {
  return fails(MOVE, EIO) ? -1 : NEXT(linkat)(a, from, b, to, flags);
}
int unlinkat(int folder, const char *name, int flags) {
  return fails(OTHER, EIO) ? -1 : NEXT(unlinkat)(folder, name, flags);
}
int flock(int file, int how) { return fails(OTHER, ENOLCK) ? -1 : NEXT(flock)(file, how); }
int fchmodat(int folder, const char *name, mode_t mode, int flags) {
  return fails(OTHER, EPERM) ? -1 : NEXT(fchmodat)(folder, name, mode, flags);
}
int fstat(int file, struct stat *about) { return fails(OTHER, EIO) ? -1 : NEXT(fstat)(file, about); }
int on_exit(void (*call)(int, void *), void *with) {
  return fails(OTHER, ENOMEM) ? -1 : NEXT(on_exit)(call, with);
}
char *realpath(const char *path, char *into) {
  return fails(OTHER, ENOMEM) ? NULL : NEXT(realpath)(path, into);
}
char *__realpath_chk(const char *path, char *into, size_t room) {
  (void)room;
  return realpath(path, into);
}
pid_t fork(void) { return fails(OTHER, EAGAIN) ? -1 : NEXT(fork)(); }
int pipe2(int both[2], int flags) { return fails(OTHER, EMFILE) ? -1 : NEXT(pipe2)(both, flags); }
pid_t waitpid(pid_t pid, int *status, int how) {
  return fails(OTHER, EINTR) ? -1 : NEXT(waitpid)(pid, status, how);
}

/* ---- the clock -------------------------------------------------------------------------------- */

int clock_gettime(clockid_t clock, struct timespec *now) {
  int done = NEXT(clock_gettime)(clock, now);
  if (haste && clock == CLOCK_MONOTONIC) now->tv_sec = now->tv_sec * HASTE + now->tv_nsec / (1000000000 / HASTE);
  return done;
}
int poll(struct pollfd *files, nfds_t n, int wait) {
  return NEXT(poll)(files, n, haste && wait > HASTE ? wait / HASTE : wait);
}
int __poll_chk(struct pollfd *files, nfds_t n, int wait, size_t room) {
  (void)room;
  return poll(files, n, wait);
}
