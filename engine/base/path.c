/* Paths: joining, taking apart, staying inside a folder, finding the data. */
#include "base/file.h"
#include "base/text.h"

#include <errno.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* Fixed by the build: the source tree, and where `install` puts the data. */
#ifndef TANKSIDE_DATA_INSTALLED
#define TANKSIDE_DATA_INSTALLED ""
#endif

char *ts_path_join(ts_arena *arena, const char *folder, const char *name) {
  size_t length = strlen(folder);
  if (name[0] == '/' || length == 0) return ts_arena_copy(arena, name);
  return ts_arena_printf(arena, "%s%s%s", folder, folder[length - 1] == '/' ? "" : "/", name);
}

const char *ts_path_name(const char *path) {
  const char *slash = strrchr(path, '/');
  return slash ? slash + 1 : path;
}

char *ts_path_folder(ts_arena *arena, const char *path) {
  const char *slash = strrchr(path, '/');
  if (!slash) return ts_arena_copy(arena, ".");
  if (slash == path) return ts_arena_copy(arena, "/");
  return ts_arena_copy_n(arena, path, (size_t)(slash - path));
}

/* NULL with errno, but never for want of memory. */
static char *real_path(const char *path) {
  char *real = realpath(path, NULL);
  if (real == NULL && errno == ENOMEM) ts_out_of_memory();
  return real;
}

/* The real path of what exists of `path`: what is not there yet is cut off from
 * the end, except "..", which would climb out of what it cannot be checked against. */
static char *real_part(ts_arena *arena, const char *path) {
  for (char *rest = ts_arena_copy(arena, path);; rest = ts_path_folder(arena, rest)) {
    char *real = real_path(rest);
    if (real || errno != ENOENT) return real;
    const char *last = ts_path_name(rest);
    if (ts_same(last, "..") || ts_same(rest, ".") || ts_same(rest, "/")) return NULL;
  }
}

static bool starts_with_folder(const char *path, const char *folder) {
  size_t length = strlen(folder);
  if (ts_same(folder, "/")) return true;
  return strncmp(path, folder, length) == 0 && (path[length] == '/' || path[length] == '\0');
}

/* A name of one part that is there, and is no link, is in the folder whatever leads to that: as
 * nearly all are. */
static bool stands_in(ts_arena *arena, const char *folder, const char *name) {
  struct stat is;
  return *folder != '\0' && strchr(name, '/') == NULL && name[strspn(name, ".")] != '\0' &&
         lstat(ts_path_join(arena, folder, name), &is) == 0 && !S_ISLNK(is.st_mode);
}

bool ts_path_inside(const char *folder, const char *name) {
  if (name[0] == '/') return false;
  ts_arena *arena = ts_arena_new();
  if (stands_in(arena, folder, name)) {
    ts_arena_free(arena);
    return true;
  }
  char *real_folder = real_path(folder);
  char *real = real_folder ? real_part(arena, ts_path_join(arena, real_folder, name)) : NULL;
  bool inside = real && starts_with_folder(real, real_folder);
  free(real);
  free(real_folder);
  ts_arena_free(arena);
  return inside;
}

char *ts_path_target(ts_arena *arena, const char *path) {
  char *real = real_path(path);
  char *copy = ts_arena_copy(arena, real != NULL ? real : path);
  free(real);
  return copy;
}

bool ts_path_same(const char *one, const char *other) {
  char *a = real_path(one), *b = real_path(other);
  bool same = a && ts_same(a, b);
  free(a);
  free(b);
  return same;
}

/* The folder that the running program is in, or NULL. */
static char *program_folder(ts_arena *arena) {
  char program[PATH_MAX];
  ssize_t length = readlink("/proc/self/exe", program, sizeof program - 1);
  if (length <= 0) return NULL;
  program[length] = '\0';
  return ts_path_folder(arena, program);
}

char *ts_data_path(ts_arena *arena, const char *name) {
  const char *chosen = getenv("TANKSIDE_DATA");
  if (chosen && *chosen) return ts_path_join(arena, chosen, name);
  /* In share/tankside beside bin; a build has a link to its source in its own folder. */
  const char *bin = program_folder(arena);
  const char *share =
      bin ? ts_path_join(arena, ts_path_folder(arena, bin), "share/tankside") : NULL;
  const char *link = bin ? ts_path_target(arena, ts_path_join(arena, bin, "share/tankside")) : NULL;
  const char *places[] = {share, link, TANKSIDE_DATA_INSTALLED};
  for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
    if (!places[i]) continue;
    char *path = ts_path_join(arena, places[i], name);
    if (ts_folder_exists(path)) return path;
  }
  return ts_path_join(arena, TANKSIDE_DATA_INSTALLED, name);
}
