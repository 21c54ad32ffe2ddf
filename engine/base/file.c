/* Files: reading bounded, writing whole or not at all. Paths are in path.c. */
#include "base/file.h"

#include "base/staging.h"
#include "base/text.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* Reports what failed on a path, with the system's reason. Returns false. */
static bool failed(ts_diagnostics *problems, const char *path, const char *what) {
  char reason[128];
  const char *text = strerror_r(errno, reason, sizeof reason);
  ts_report(problems, TS_ERROR, path, 0, "%s: %s", what, text);
  return false;
}

/* ---- reading ------------------------------------------------------------ */

/* Up to `size` bytes, fewer only at the end of the file; -1 on failure. */
static ssize_t read_fully(int file, char *bytes, size_t size) {
  size_t got = 0;
  while (got < size) {
    ssize_t n = read(file, bytes + got, size - got);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return -1;
    if (n == 0) break;
    got += (size_t)n;
  }
  return (ssize_t)got;
}

/* Whether it is a regular file within the limit; reports otherwise. */
static bool fits(int file, const char *path, size_t limit, size_t *size, ts_diagnostics *problems) {
  struct stat about;
  if (fstat(file, &about) != 0) return failed(problems, path, "cannot be read");
  bool regular = S_ISREG(about.st_mode);
  bool small = about.st_size >= 0 && (uintmax_t)about.st_size <= limit;
  if (!regular)
    ts_report(problems, TS_ERROR, path, 0, "is not a regular file");
  else if (!small)
    ts_report(problems, TS_ERROR, path, 0, "is larger than %zu bytes", limit);
  *size = (size_t)about.st_size;
  return regular && small;
}

static char *read_opened(ts_arena *arena, int file, const char *path, size_t limit, size_t *length,
                         ts_diagnostics *problems) {
  size_t size;
  if (!fits(file, path, limit, &size, problems)) return NULL;
  char *bytes = ts_arena_alloc(arena, size + 1);
  ssize_t got = read_fully(file, bytes, size + 1);
  if (got < 0) {
    failed(problems, path, "cannot be read");
    return NULL;
  }
  if ((size_t)got > size) {
    ts_report(problems, TS_ERROR, path, 0, "grew while it was being read");
    return NULL;
  }
  bytes[got] = '\0';
  if (length) *length = (size_t)got;
  return bytes;
}

static int open_to_read(const char *path, ts_diagnostics *problems) {
  /* Without O_NONBLOCK a named pipe would wait for a writer for ever. */
  int file = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  if (file < 0) failed(problems, path, "cannot be opened");
  return file;
}

int ts_file_open(const char *path, size_t limit, ts_diagnostics *problems) {
  size_t size;
  int file = open_to_read(path, problems);
  if (file < 0 || fits(file, path, limit, &size, problems)) return file;
  close(file);
  return -1;
}

int ts_file_next(int file, char *bytes, size_t size) {
  return (int)read_fully(file, bytes, size < INT32_MAX ? size : INT32_MAX);
}

void ts_file_close(int file) { close(file); }

char *ts_file_read(ts_arena *arena, const char *path, size_t limit, size_t *length,
                   ts_diagnostics *problems) {
  int file = open_to_read(path, problems);
  if (file < 0) return NULL;
  char *bytes = read_opened(arena, file, path, limit, length, problems);
  close(file); /* nothing was written: no failure here could lose anything */
  return bytes;
}

/* ---- writing ------------------------------------------------------------ */

bool ts_file_add(int file, const char *bytes, size_t length) {
  while (length > 0) {
    ssize_t n = write(file, bytes, length);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return false;
    bytes += n;
    length -= (size_t)n;
  }
  return true;
}

/* What is to stand in a file: bytes, or what somebody else adds to it, or writes into it under
 * another name. */
typedef struct {
  const char *path, *bytes;
  size_t length;
  bool (*fill)(void *context, int file);
  bool (*make)(void *context, const char *temporary, ts_diagnostics *problems);
  void *context;
  bool fresh; /* never over what is there already */
  ts_diagnostics *problems;
} content;

/* A new file, its bytes on the disk. */
static bool write_new(int folder, const char *name, const content *c) {
  int file = openat(folder, name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
  if (file < 0) return false;
  bool good = c->fill ? c->fill(c->context, file) : ts_file_add(file, c->bytes, c->length);
  good = good && fsync(file) == 0;
  int why = errno;
  if (close(file) != 0 && good) return false;
  errno = why;
  return good;
}

static bool flush_made(int folder, const char *name) {
  int file = openat(folder, name, O_RDONLY | O_CLOEXEC);
  bool good = file >= 0 && fsync(file) == 0;
  int why = errno;
  if (file >= 0) close(file);
  errno = why;
  return good;
}

/* `make` opens the new file by its path and fills it; then it is flushed as ours are. */
static bool have_made(const ts_staging *staging, const content *c, const char *folder) {
  ts_arena *arena = ts_arena_new();
  const char *name = ts_path_name(c->path), *hidden = ts_staging_name(staging);
  const char *path = ts_path_join(arena, ts_path_join(arena, folder, hidden), name);
  bool made = c->make(c->context, path, c->problems);
  ts_arena_free(arena);
  if (made) return flush_made(ts_staging_inside(staging), name);
  errno = 0; /* it has said what was wrong */
  return false;
}

static bool stage(const ts_staging *staging, const content *c, const char *folder) {
  return c->make ? have_made(staging, c, folder)
                 : write_new(ts_staging_inside(staging), ts_path_name(c->path), c);
}

static bool write_staged(const content *c, const char *folder) {
  const char *name = ts_path_name(c->path), *const names[] = {name, NULL};
  ts_staging *staging = ts_staging_new(folder);
  bool good =
      staging != NULL && stage(staging, c, folder) &&
      (c->fresh ? ts_staging_publish_new(staging, name) : ts_staging_publish(staging, names, NULL));
  int why = errno;
  ts_staging_free(staging);
  errno = why;
  return good;
}

static bool write_content(const char *path, content c) {
  struct stat old;
  ts_arena *arena = ts_arena_new();
  c.path = c.fresh ? path : ts_path_target(arena, path);
  bool good = c.fresh || lstat(c.path, &old) != 0 || S_ISREG(old.st_mode);
  if (!good)
    ts_report(c.problems, TS_ERROR, path, 0, "is not a regular file and is left alone");
  else if (!write_staged(&c, ts_path_folder(arena, c.path)))
    good = errno != 0 && failed(c.problems, path, "cannot be written");
  ts_arena_free(arena);
  return good;
}

bool ts_file_write(const char *path, const char *bytes, size_t length, ts_diagnostics *problems) {
  return write_content(path, (content){.bytes = bytes, .length = length, .problems = problems});
}

bool ts_file_write_new(const char *path, const char *bytes, size_t length,
                       ts_diagnostics *problems) {
  return write_content(
      path, (content){.bytes = bytes, .length = length, .fresh = true, .problems = problems});
}

bool ts_file_fill(const char *path, bool (*fill)(void *context, int file), void *context,
                  ts_diagnostics *problems) {
  return write_content(path, (content){.fill = fill, .context = context, .problems = problems});
}

bool ts_file_make(const char *path,
                  bool (*make)(void *context, const char *temporary, ts_diagnostics *problems),
                  void *context, ts_diagnostics *problems) {
  return write_content(path, (content){.make = make, .context = context, .problems = problems});
}

/* ---- folders ------------------------------------------------------------ */

bool ts_folder_exists(const char *path) {
  struct stat about;
  return stat(path, &about) == 0 && S_ISDIR(about.st_mode);
}

bool ts_file_exists(const char *path) {
  struct stat about;
  return lstat(path, &about) == 0;
}

static bool make_one(const char *path) {
  if (mkdir(path, 0777) == 0) return true;
  int why = errno;
  if (ts_folder_exists(path)) return true;
  errno = why;
  return false;
}

bool ts_folder_make(const char *path, ts_diagnostics *problems) {
  ts_arena *arena = ts_arena_new();
  char *part = ts_arena_copy(arena, path);
  bool good = true;
  for (char *c = part + 1; good && part[0] && *c; c++) {
    if (*c != '/') continue;
    *c = '\0';
    good = make_one(part);
    *c = '/';
  }
  good = good && make_one(path);
  if (!good) failed(problems, path, "cannot be made");
  ts_arena_free(arena);
  return good;
}

static int by_bytes(const void *a, const void *b) {
  return strcmp(*(char *const *)a, *(char *const *)b);
}

static bool wanted(DIR *folder, const char *name, const char *suffix) {
  struct stat about;
  if (fstatat(dirfd(folder), name, &about, 0) != 0) return false;
  if (ts_same(suffix, "/")) return S_ISDIR(about.st_mode) && name[0] != '.';
  return S_ISREG(about.st_mode) && ts_ends_in(name, suffix);
}

char **ts_folder_list(ts_arena *arena, const char *path, const char *suffix,
                      ts_diagnostics *problems) {
  DIR *folder = opendir(path);
  if (!folder) {
    failed(problems, path, "cannot be listed");
    return NULL;
  }
  char **names = NULL;
  size_t count = 0, capacity = 0;
  errno = 0;
  for (struct dirent *entry; (entry = readdir(folder)); errno = 0) {
    if (!wanted(folder, entry->d_name, suffix)) continue;
    TS_GROW(names, count, capacity);
    names[count++] = ts_arena_copy(arena, entry->d_name);
  }
  bool good = errno == 0 || failed(problems, path, "cannot be listed");
  closedir(folder);
  if (count) qsort(names, count, sizeof *names, by_bytes);
  char **kept = ts_arena_alloc(arena, (count + 1) * sizeof *kept);
  if (count) memcpy(kept, names, count * sizeof *kept);
  free(names);
  return good ? kept : NULL;
}

/* ---- folders for a while ---------------------------------------------------------------- */

char *ts_folder_temporary(ts_arena *arena, ts_diagnostics *problems) {
  const char *place = getenv("TMPDIR");
  char *path = ts_path_join(arena, place && *place ? place : P_tmpdir, "tankside-XXXXXX");
  if (mkdtemp(path)) return path;
  failed(problems, path, "cannot be made");
  return NULL;
}

void ts_folder_remove(const char *path) {
  ts_arena *arena = ts_arena_new();
  ts_diagnostics *unsaid = ts_diagnostics_new();
  char **files = ts_folder_list(arena, path, "", unsaid);
  for (; files && *files; files++) unlink(ts_path_join(arena, path, *files));
  rmdir(path);
  ts_diagnostics_free(unsaid);
  ts_arena_free(arena);
}

/* ---- a folder and all below it ------------------------------------------------------- */

enum { WALK_DEPTH = 64 };

typedef struct {
  const char *name;
  void (*found)(void *context, const char *path);
  void *context;
  ts_diagnostics *problems;
  int depth;
} walk;

static bool is_link(const char *path) {
  struct stat about;
  return lstat(path, &about) == 0 && S_ISLNK(about.st_mode);
}

static bool walk_into(walk *w, const char *path) {
  ts_arena *arena = ts_arena_new();
  char **files = ts_folder_list(arena, path, w->name, w->problems);
  char **folders = files ? ts_folder_list(arena, path, "/", w->problems) : NULL;
  bool good = folders != NULL;
  for (; good && *files; files++)
    if (ts_same(*files, w->name)) w->found(w->context, ts_path_join(arena, path, *files));
  for (w->depth++; folders && *folders && w->depth < WALK_DEPTH; folders++) {
    const char *below = ts_path_join(arena, path, *folders);
    if (!is_link(below)) good = walk_into(w, below) && good;
  }
  w->depth--;
  ts_arena_free(arena);
  return good;
}

bool ts_folder_walk(const char *path, const char *name,
                    void (*found)(void *context, const char *path), void *context,
                    ts_diagnostics *problems) {
  walk w = {name, found, context, problems, 0};
  return walk_into(&w, path);
}
