/* The second wall: a filter of system calls by libseccomp, and Landlock.
 *
 * The filter is a list of what is allowed, and all else is answered as by a kernel that is too old
 * to know it. So a new C library that tries a new call first falls back on one that is in the list,
 * as it does on such a kernel. What is allowed only with some arguments is refused with EPERM
 * otherwise. Files are still read wherever they are: what a list or an option names may be
 * anywhere. */
#include "command/wall.h"

#include "base/file.h"
#include "base/text.h"
#include "command/sanitized.h"
#include <asm/ioctls.h>
#include <asm/termbits.h> /* for the sizes in TCGETS2 and its like */
#include <errno.h>
#include <fcntl.h>
#include <linux/landlock.h>
#include <linux/sched.h>
#include <paths.h>
#include <seccomp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <unistd.h>

/* ---- what a verb needs ------------------------------------------------------------- */

typedef struct {
  bool out, first, anywhere, scratch, runs;
} needs;

static unsigned bits_of(const ts_verb *verb, const ts_options *o) {
  unsigned bits = verb->needs;
  for (const ts_action *a = verb->actions; a != NULL && a->name != NULL; a++)
    if (o->word_count > 0 && ts_same(a->name, o->words[0])) bits |= a->needs;
  return bits;
}

static bool sets_pdf(unsigned bits, const ts_options *o) {
  if (bits & RUNS_AS_PDF) return ts_same(o->as, "pdf");
  if (o->no_pdf || o->no_papers || !(bits & RUNS_WEASYPRINT)) return false;
  return !(bits & WRITES_OUT) || (o->out != NULL && !ts_ends_in(o->out, ".xml"));
}

static needs needs_of(const ts_verb *verb, const ts_options *o) {
  if (verb == NULL) return (needs){.out = false};
  unsigned bits = bits_of(verb, o);
  bool runs = sets_pdf(bits, o), out = o->out != NULL;
  return (needs){.out = out && bits & WRITES_OUT,
                 .first = !out && !o->dry_run && bits & WRITES_FIRST,
                 .anywhere = bits & WRITES_ANYWHERE,
                 .scratch = runs || bits & WRITES_SCRATCH,
                 .runs = runs};
}

static bool writes(const needs *n) { return n->out || n->first || n->anywhere || n->scratch; }

/* ---- which calls ------------------------------------------------------------------- */

/* What does no harm with any argument: memory, time, threads, what is open, names, what is read. */
static const char allowed[] =
    "read readv pread64 preadv write writev pwrite64 pwritev close close_range lseek _llseek "
    "dup dup2 dup3 flock fadvise64 fadvise64_64 pipe pipe2 memfd_create poll "
    "ppoll ppoll_time64 select _newselect pselect6 pselect6_time64 epoll_create1 epoll_ctl "
    "epoll_wait epoll_pwait eventfd2 signalfd4 inotify_init1 inotify_add_watch "
    "inotify_rm_watch stat stat64 lstat lstat64 fstat fstat64 newfstatat fstatat64 statx "
    "statfs statfs64 fstatfs fstatfs64 access faccessat faccessat2 readlink readlinkat "
    "getdents getdents64 getcwd chdir fchdir umask brk munmap mremap madvise mincore msync "
    "membarrier futex futex_time64 set_robust_list get_robust_list rseq set_tid_address "
    "set_thread_area arch_prctl fork exit exit_group wait4 waitid waitpid rt_sigaction "
    "rt_sigprocmask rt_sigreturn sigreturn rt_sigpending rt_sigtimedwait "
    "rt_sigtimedwait_time64 rt_sigsuspend sigaltstack restart_syscall getpid gettid getppid "
    "getpgrp getpgid getsid getuid getuid32 geteuid geteuid32 getgid getgid32 getegid "
    "getegid32 getresuid getresuid32 getresgid getresgid32 getgroups getgroups32 "
    "clock_gettime clock_gettime64 clock_getres clock_getres_time64 clock_nanosleep "
    "clock_nanosleep_time64 nanosleep gettimeofday time times getrusage getrlimit ugetrlimit "
    "sysinfo uname getrandom getcpu sched_yield sched_getaffinity sched_getparam "
    "sched_getscheduler";

static const char for_writing[] =
    "mkdir mkdirat rmdir unlink unlinkat rename renameat renameat2 link linkat chmod fchmod "
    "fchmodat ftruncate ftruncate64 fallocate fsync fdatasync";

/* Not by default: code that is made while it runs, which Python's way to call libraries does. */
static const char for_programs[] =
    "execve vfork setpgid setsid setrlimit kill tgkill mmap mmap2 mprotect";

/* Terminals: how it is set, how wide it is; not what puts words into its mouth (TIOCSTI). */
static const unsigned long of_devices[] = {
#ifdef TCGETS2
    TCGETS2, TCSETS2, TCSETSW2, TCSETSF2,
#endif
    TCGETS,  TCSETS,  TCSETSW,  TCSETSF,  TIOCGWINSZ, TIOCGPGRP, FIONREAD, FIOCLEX, FIONBIO};

/* Copies, flags, locks; not whom a signal goes to when it is ready (F_SETOWN). The numbers are the
 * long locks of 32-bit machines. */
static const unsigned long of_files[] = {
    F_DUPFD,     F_DUPFD_CLOEXEC, F_GETFD,     F_SETFD, F_GETFL, F_SETFL,
    F_GETLK,     F_SETLK,         F_SETLKW,    12,      13,      14,
    F_OFD_GETLK, F_OFD_SETLK,     F_OFD_SETLKW};

static const unsigned long of_process[] = {PR_SET_PDEATHSIG, PR_SET_NAME, PR_GET_NAME};

enum {
  TO_WRITE = O_WRONLY | O_RDWR | O_CREAT | O_TRUNC,
  ANOTHER_VIEW = CLONE_NEWNS | CLONE_NEWCGROUP | CLONE_NEWUTS | CLONE_NEWIPC | CLONE_NEWUSER |
                 CLONE_NEWPID | CLONE_NEWNET
};

/* ---- the filter ---------------------------------------------------------------------- */

typedef struct {
  scmp_filter_ctx rules;
  int failed; /* the first error, as a negative errno; 0: none */
} filter;

static void add(filter *f, uint32_t answer, int call, const struct scmp_arg_cmp *when) {
  int result = seccomp_rule_add_array(f->rules, answer, call, when != NULL, when);
  if (result != 0 && f->failed == 0) f->failed = result;
}

/* Those of a list, by name: one that this machine does not have, or this libseccomp does not know,
 * is not called either. */
static void allow(filter *f, const char *names) {
  char name[32];
  for (size_t n; *(names += strspn(names, " ")) != '\0'; names += n) {
    n = strcspn(names, " ");
    snprintf(name, sizeof name, "%.*s", (int)n, names);
    int call = seccomp_syscall_resolve_name(name);
    if (call != __NR_SCMP_ERROR) add(f, SCMP_ACT_ALLOW, call, NULL);
  }
}

static void answer_masked(filter *f, uint32_t answer, int call, unsigned argument, uint64_t mask,
                          uint64_t value) {
  add(f, answer, call, &SCMP_CMP64(argument, SCMP_CMP_MASKED_EQ, mask, value));
}

static void allow_values(filter *f, int call, unsigned argument, const unsigned long *values,
                         size_t count) {
  for (size_t i = 0; i < count; i++)
    add(f, SCMP_ACT_ALLOW, call, &SCMP_CMP64(argument, SCMP_CMP_EQ, values[i], 0));
}

/* Allowed with none of these bits; refused with any. */
static void allow_without(filter *f, int call, unsigned argument, uint64_t bits) {
  answer_masked(f, SCMP_ACT_ALLOW, call, argument, bits, 0);
  for (uint64_t bit = 1; bit <= bits; bit <<= 1)
    if (bits & bit) answer_masked(f, SCMP_ACT_ERRNO(EPERM), call, argument, bit, bit);
}

/* To empty a file asks for no right to write to it in the first versions of Landlock. */
static void opened_for_writing(filter *f, int call, unsigned argument) {
  enum { EMPTIED = O_ACCMODE | O_TRUNC };
  answer_masked(f, SCMP_ACT_ALLOW, call, argument, O_TRUNC, 0);
  answer_masked(f, SCMP_ACT_ALLOW, call, argument, O_WRONLY, O_WRONLY);
  answer_masked(f, SCMP_ACT_ALLOW, call, argument, O_RDWR, O_RDWR);
  answer_masked(f, SCMP_ACT_ERRNO(EPERM), call, argument, EMPTIED, O_RDONLY | O_TRUNC);
}

static void files_opened(filter *f, bool writing) {
  static const int calls[] = {SCMP_SYS(open), SCMP_SYS(openat)}; /* flags are argument 1, and 2 */
  for (unsigned i = 0; i < 2; i++) {
    if (writing)
      opened_for_writing(f, calls[i], 1 + i);
    else
      allow_without(f, calls[i], 1 + i, TO_WRITE);
  }
}

/* Memory is written or run, never both, and none becomes what is run. */
static void nothing_made_to_run(filter *f) {
  static const int maps[] = {SCMP_SYS(mmap), SCMP_SYS(mmap2)};
  enum { BOTH = PROT_WRITE | PROT_EXEC };
  for (unsigned i = 0; i < 2; i++) {
    answer_masked(f, SCMP_ACT_ALLOW, maps[i], 2, PROT_EXEC, 0);
    answer_masked(f, SCMP_ACT_ALLOW, maps[i], 2, BOTH, PROT_EXEC);
    answer_masked(f, SCMP_ACT_ERRNO(EPERM), maps[i], 2, BOTH, BOTH);
  }
  allow_without(f, SCMP_SYS(mprotect), 2, PROT_EXEC);
}

/* To its own group, as libedit passes on what the terminal sends; and to itself, to abort. */
static void signals_kept_in(filter *f) {
  const unsigned long group = 0, process = (unsigned long)getpid();
  allow_values(f, SCMP_SYS(kill), 0, &group, 1);
  allow_values(f, SCMP_SYS(tgkill), 0, &process, 1);
}

static void add_rules(filter *f, const needs *n) {
  static const unsigned long own[] = {0};
  allow(f, allowed);
  if (writes(n)) allow(f, for_writing);
  files_opened(f, writes(n));
  allow_values(f, SCMP_SYS(fcntl), 1, of_files, sizeof of_files / sizeof *of_files);
  allow_values(f, SCMP_SYS(fcntl64), 1, of_files, sizeof of_files / sizeof *of_files);
  allow_without(f, SCMP_SYS(clone), 0, ANOTHER_VIEW);
  allow_values(f, SCMP_SYS(ioctl), 1, of_devices, sizeof of_devices / sizeof *of_devices);
  allow_values(f, SCMP_SYS(prctl), 0, of_process, sizeof of_process / sizeof *of_process);
  allow_values(f, SCMP_SYS(prlimit64), 0, own, 1);
  if (n->runs) {
    allow(f, for_programs);
    return;
  }
  signals_kept_in(f);
  nothing_made_to_run(f);
}

/* A negative errno where it does not stand. */
static int raise_filter(const needs *n) {
  filter f = {.rules = seccomp_init(SCMP_ACT_ERRNO(ENOSYS))};
  if (f.rules == NULL) return -ENOSYS;
  add_rules(&f, n);
  errno = 0;
  if (f.failed == 0) f.failed = seccomp_load(f.rules);
  if (f.failed != 0 && errno != 0) f.failed = -errno; /* libseccomp has few words for why */
  seccomp_release(f.rules);
  return f.failed;
}

/* ---- where files may be written -------------------------------------------------------- */

enum { REFER = 2 }; /* the version that brought it: Linux 5.19 */

static const uint64_t into_file = LANDLOCK_ACCESS_FS_WRITE_FILE,
                      granted = LANDLOCK_ACCESS_FS_WRITE_FILE | LANDLOCK_ACCESS_FS_REMOVE_DIR |
                                LANDLOCK_ACCESS_FS_REMOVE_FILE | LANDLOCK_ACCESS_FS_MAKE_DIR |
                                LANDLOCK_ACCESS_FS_MAKE_REG | LANDLOCK_ACCESS_FS_REFER,
                      never = LANDLOCK_ACCESS_FS_MAKE_CHAR | LANDLOCK_ACCESS_FS_MAKE_SOCK |
                              LANDLOCK_ACCESS_FS_MAKE_FIFO | LANDLOCK_ACCESS_FS_MAKE_BLOCK |
                              LANDLOCK_ACCESS_FS_MAKE_SYM;

typedef struct {
  int rules; /* the kernel's handle */
  ts_arena *arena;
} bounds;

/* What is not there, or cannot be opened, is not written to either. */
static void grant(const bounds *b, const char *path, uint64_t rights) {
  int file = open(path, O_PATH | O_CLOEXEC);
  struct landlock_path_beneath_attr beneath = {.allowed_access = rights, .parent_fd = file};
  if (file < 0) return;
  syscall(SYS_landlock_add_rule, b->rules, LANDLOCK_RULE_PATH_BENEATH, &beneath, 0);
  close(file);
}

/* The folder a path is in, or is; of one that is still to be made, the nearest that is there. */
static void grant_folder(const bounds *b, const char *path) {
  while (!ts_folder_exists(path) && !ts_same(path, ".") && !ts_same(path, "/"))
    path = ts_path_folder(b->arena, path);
  grant(b, path, granted);
}

/* And where it leads, as a link: that is what is written. */
static void grant_beneath(const bounds *b, const char *path) {
  grant_folder(b, path);
  grant_folder(b, ts_path_target(b->arena, path));
}

/* Where this program, SQLite and Python look for room, in their order. */
static void grant_scratch(const bounds *b) {
  const char *sqlite = getenv("SQLITE_TMPDIR"), *place = getenv("TMPDIR");
  if (sqlite != NULL) grant(b, sqlite, granted);
  if (place != NULL && *place != '\0') {
    grant(b, place, granted);
    return;
  }
  grant(b, P_tmpdir, granted);
  grant(b, _PATH_VARTMP, granted);
}

/* Where fontconfig, under WeasyPrint, keeps what it knows of typefaces. */
static void grant_typefaces(const bounds *b) {
  const char *cache = getenv("XDG_CACHE_HOME"), *home = getenv("HOME");
  if (cache == NULL && home != NULL) cache = ts_path_join(b->arena, home, ".cache");
  if (cache != NULL) grant(b, ts_path_join(b->arena, cache, "fontconfig"), granted);
}

static void grant_all(const bounds *b, const needs *n, const ts_options *o) {
  grant(b, _PATH_DEVNULL, into_file);
  if (n->out) grant_beneath(b, o->out);
  if (n->first) grant_beneath(b, o->words[0]);
  if (n->scratch) grant_scratch(b);
  if (n->runs) grant_typefaces(b);
}

/* A negative errno where it does not stand. `version`: of Landlock, as the kernel has it. */
static int raise_bounds(const needs *n, const ts_options *o, long *version) {
  *version = syscall(SYS_landlock_create_ruleset, NULL, 0, LANDLOCK_CREATE_RULESET_VERSION);
  if (*version < 0) return -errno;
  if (*version < REFER) return -ENOSYS; /* nothing could be moved into its folder */
  struct landlock_ruleset_attr handled = {.handled_access_fs = granted | never};
  bounds b = {.rules = (int)syscall(SYS_landlock_create_ruleset, &handled, sizeof handled, 0)};
  if (b.rules < 0) return -errno;
  b.arena = ts_arena_new();
  grant_all(&b, n, o);
  ts_arena_free(b.arena);
  int result = prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 &&
                       syscall(SYS_landlock_restrict_self, b.rules, 0) == 0
                   ? 0
                   : -errno;
  close(b.rules);
  return result;
}

/* ---- both ----------------------------------------------------------------------------- */

static void tell(char *said, size_t size, int result, const char *by) {
  char reason[64];
  if (result == 0)
    snprintf(said, size, "yes, by %s", by);
  else
    snprintf(said, size, "no: %s", strerror_r(-result, reason, sizeof reason));
}

static void bound_writing(ts_wall *wall, const needs *n, const ts_options *options) {
  char landlock[32];
  long version;
  int result = raise_bounds(n, options, &version);
  snprintf(landlock, sizeof landlock, "Landlock %ld", version);
  tell(wall->writing, sizeof wall->writing, result, landlock);
}

/* Both make calls to the kernel that are their own: to look into the process, say, at its end.
 * valgrind lets itself be seen by what it loads into the process. */
static const char *what_watches(void) {
#ifdef TS_SANITIZED
  return "built with a sanitizer";
#else
  const char *loaded = getenv("LD_PRELOAD");
  return loaded != NULL && strstr(loaded, "/vgpreload_") != NULL ? "under valgrind" : NULL;
#endif
}

static ts_wall without(const char *why) {
  ts_wall wall;
  snprintf(wall.calls, sizeof wall.calls, "no: %s", why);
  snprintf(wall.writing, sizeof wall.writing, "no: %s", why);
  return wall;
}

ts_wall wall_raise(const ts_verb *verb, const ts_options *options) {
  const char *watches = what_watches();
  if (watches != NULL) return without(watches);
  ts_wall wall = without("the folder is asked for later");
  needs n = needs_of(verb, options);
  if (!n.anywhere) bound_writing(&wall, &n, options);
  tell(wall.calls, sizeof wall.calls, raise_filter(&n), "seccomp");
  return wall;
}
