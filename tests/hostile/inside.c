/* Preloaded by tests/commands/wall.sh: does from within a process what somebody would try who found a
 * hole in what reads a file, and says what came of it. A line for each on file 3: "name 0", or the
 * error's number for what was refused; once as the first rule is run, once at the end.
 *
 *   OUTSIDE  a folder that the verb has nothing to do with; "there" and "there too" are in it
 *   OUT      the folder it writes to */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <linux/perf_event.h>
#include <pthread.h>
#include <signal.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/ioctl.h>
#include <sys/mman.h>
#include <sys/ptrace.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <sys/wait.h>
#include <unistd.h>

static int error_of(long result) { return result < 0 ? errno : 0; }

static const char *at(const char *variable, const char *name) {
  static __thread char path[4096];
  const char *folder = getenv(variable);
  snprintf(path, sizeof path, "%s/%s", folder ? folder : ".", name);
  return path;
}

static int internet(void) { return error_of(socket(AF_INET, SOCK_STREAM, 0)); }
static int neighbour(void) { return error_of(socket(AF_UNIX, SOCK_STREAM, 0)); }
static int pair(void) {
  int both[2];
  return error_of(socketpair(AF_UNIX, SOCK_STREAM, 0, both));
}

/* In a child, whose exit status tells the error. */
static int in_child(void (*what)(void)) {
  int status = 0;
  pid_t child = fork();
  if (child < 0) return errno;
  if (child == 0) {
    what();
    _exit(errno);
  }
  waitpid(child, &status, 0);
  return WEXITSTATUS(status);
}

static void become_true(void) {
  char *arguments[] = {"true", NULL}, *none[] = {NULL};
  execve("/bin/true", arguments, none);
}
static int program(void) { return in_child(become_true); }

static void be_traced(void) { _exit(error_of(ptrace(PTRACE_TRACEME, 0, NULL, NULL))); }
static int traced(void) { return in_child(be_traced); }

static int memory_of_process(void) {
  char from = 1, to = 0;
  struct iovec here = {&to, 1}, there = {&from, 1};
  return error_of(process_vm_readv(getpid(), &here, 1, &there, 1, 0));
}

static void see_otherwise(void) { _exit(error_of(syscall(SYS_unshare, 0x10000000 /* CLONE_NEWUSER */))); }
static int namespace(void) { return in_child(see_otherwise); }
static int ring(void) {
  char parameters[256] = {0};
  return error_of(syscall(SYS_io_uring_setup, 1, parameters));
}
static int keys(void) { return error_of(syscall(SYS_keyctl, 0 /* its id */, -3 /* of the session */, 1)); }
static int counters(void) {
  struct perf_event_attr of = {.type = PERF_TYPE_SOFTWARE, .size = sizeof of, .config = PERF_COUNT_SW_TASK_CLOCK};
  return error_of(syscall(SYS_perf_event_open, &of, 0, -1, -1, 0));
}
static int faults_handled(void) { return error_of(syscall(SYS_userfaultfd, 1 /* user mode only */)); }
static int in_kernel(void) {
  char map[128] = {2, 0, 0, 0, 4, 0, 0, 0, 4, 0, 0, 0, 1}; /* BPF_MAP_CREATE of an array */
  return error_of(syscall(SYS_bpf, 0, map, sizeof map));
}
static int another(void) { return error_of(kill(getppid(), 0)); }
static int another_by_file(void) {
  int both[2];
  return pipe(both) < 0 ? errno : error_of(fcntl(both[0], F_SETOWN, getppid()));
}
static int another_s_thread(void) { return error_of(syscall(SYS_tgkill, getppid(), getppid(), 0)); }

static int code(void) {
  void *page = mmap(NULL, 4096, PROT_READ | PROT_WRITE | PROT_EXEC, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
  return page == MAP_FAILED ? errno : 0;
}
static int code_later(void) {
  void *page = mmap(NULL, 4096, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
  return page == MAP_FAILED ? errno : error_of(mprotect(page, 4096, PROT_READ | PROT_EXEC));
}

static int read_file(void) { return error_of(open(at("OUTSIDE", "there"), O_RDONLY)); }
static int write_outside(void) { return error_of(open(at("OUTSIDE", "there"), O_WRONLY)); }
static int make_outside(void) { return error_of(open(at("OUTSIDE", "made"), O_RDWR | O_CREAT, 0600)); }
static int empty_outside(void) { return error_of(open(at("OUTSIDE", "there"), O_RDONLY | O_TRUNC)); }
/* Done before, at the middle of the run, is done. */
static int but(int expected, int error) { return error == expected ? 0 : error; }
static int remove_outside(void) { return but(ENOENT, error_of(unlink(at("OUTSIDE", "there too")))); }
static int folder_outside(void) { return but(EEXIST, error_of(mkdir(at("OUTSIDE", "folder"), 0700))); }
static int make_in_out(void) { return error_of(open(at("OUT", ".inside"), O_WRONLY | O_CREAT, 0600)); }
static int link_in_out(void) { return error_of(symlink("/", at("OUT", ".link"))); }

static int result_in_thread;
static void *threaded(void *unused) {
  result_in_thread = internet();
  return unused;
}
static int internet_in_thread(void) {
  pthread_t thread;
  int result = pthread_create(&thread, NULL, threaded, NULL);
  if (result == 0) pthread_join(thread, NULL);
  return result ? result : result_in_thread;
}

static const struct {
  const char *name;
  int (*attempt)(void);
} attempts[] = {
    {"internet", internet},     {"internet-in-thread", internet_in_thread},
    {"neighbour", neighbour},   {"pair", pair},
    {"program", program},       {"traced", traced},
    {"memory", memory_of_process}, {"namespace", namespace},
    {"ring", ring},             {"keys", keys},
    {"counters", counters},     {"faults", faults_handled},
    {"in-kernel", in_kernel},   {"another", another},
    {"another-by-file", another_by_file},
    {"another-s-thread", another_s_thread},
    {"code", code},             {"code-later", code_later},
    {"read", read_file},        {"write-outside", write_outside},
    {"make-outside", make_outside}, {"empty-outside", empty_outside},
    {"remove-outside", remove_outside}, {"folder-outside", folder_outside},
    {"make-in-out", make_in_out},   {"link-in-out", link_in_out},
};

static void try_all(const char *when) {
  for (size_t i = 0; i < sizeof attempts / sizeof *attempts; i++)
    dprintf(3, "%s %s %s %d\n", program_invocation_short_name, when, attempts[i].name, attempts[i].attempt());
}

int lua_pcallk(void *L, int arguments, int results, int handler, intptr_t context, void *then) {
  static int before;
  int (*real)(void *, int, int, int, intptr_t, void *) =
      (int (*)(void *, int, int, int, intptr_t, void *))dlsym(RTLD_NEXT, "lua_pcallk");
  if (__sync_add_and_fetch(&before, 1) == 1) try_all("middle");
  return real(L, arguments, results, handler, context, then);
}

__attribute__((destructor)) static void at_the_end(void) { try_all("end"); }
