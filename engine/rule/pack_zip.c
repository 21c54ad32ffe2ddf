/* A pack that is given to others: the same files, in one ZIP archive. */
#include "base/file.h"
#include "base/text.h"
#include "base/zip.h"
#include "rule/packs_int.h"
#include <string.h>

enum { MEMBERS = 256, ALL_LIMIT = 16 << 20 }; /* files; bytes of all of them, packed or not */

static bool ends_in(const char *name, const char *end) {
  size_t n = strlen(name), m = strlen(end);
  return n > m && ts_same(name + n - m, end);
}

bool ts_pack_is_zip(const char *path) { return ends_in(path, ".zip") && !ts_folder_exists(path); }

bool ts_pack_exists(const char *path) {
  return ts_folder_exists(path) || (ts_pack_is_zip(path) && ts_file_exists(path));
}

const char *ts_pack_name(ts_arena *arena, const char *path) {
  size_t n = strlen(path);
  if (ts_pack_is_zip(path)) n -= strlen(".zip");
  while (n > 1 && path[n - 1] == '/') n--;
  return ts_path_name(ts_arena_copy_n(arena, path, n));
}

/* How much of every name is the one folder that holds all: "ledge/". */
static size_t around_all(char *const *names) {
  const char *first = names[0], *slash = first ? strchr(first, '/') : NULL;
  size_t length = slash ? (size_t)(slash - first) + 1 : 0;
  for (; *names; names++)
    if (strncmp(*names, first, length) != 0) return 0;
  return length;
}

/* Rule files and what explains them; nothing below. */
static bool belongs(const char *path, const char *name, ts_diagnostics *problems) {
  bool known = ends_in(name, ".lua") || ends_in(name, ".xml") || ends_in(name, ".txt");
  if (known && strchr(name, '/') == NULL) return true;
  ts_report(problems, TS_ERROR, path, 0, "\"%s\" in it is no file of a pack: expected *.lua, *.xml or *.txt in one folder", name);
  return false;
}

static bool take(ts_pack_member *into, const ts_zip *zip, ts_arena *arena, const char *member, const char *name,
                 const char *path, size_t *all, ts_diagnostics *problems) {
  into->name = name;
  into->text = ts_zip_member(zip, arena, member, TS_PACK_FILE_LIMIT, &into->length, path, problems);
  *all += into->text ? into->length : 0;
  if (into->text && *all <= ALL_LIMIT) return true;
  if (into->text) ts_report(problems, TS_ERROR, path, 0, "holds more than %d bytes of rules", ALL_LIMIT);
  return false;
}

static ts_pack_member *unzip(ts_arena *arena, const ts_zip *zip, const char *path, ts_pack_member *aside, size_t *count,
                             ts_diagnostics *problems) {
  char **names = ts_zip_names(zip, arena, MEMBERS, path, problems);
  ts_pack_member *members = ts_arena_alloc(arena, MEMBERS * sizeof *members);
  size_t head = names ? around_all(names) : 0, all = 0;
  bool good = names != NULL;
  for (*count = 0; good && *names; names++) {
    const char *name = *names + head;
    if (name[0] == '\0') continue; /* the folder itself */
    good = belongs(path, name, problems);
    if (good && aside && ts_same(name, aside->name)) good = take(aside, zip, arena, *names, name, path, &all, problems);
    if (good && ends_in(name, ".lua")) good = take(&members[(*count)++], zip, arena, *names, name, path, &all, problems);
  }
  return good ? members : NULL;
}

ts_pack_member *ts_pack_unzip(ts_arena *arena, const char *path, ts_pack_member *aside, size_t *count,
                              ts_diagnostics *problems) {
  size_t length = 0;
  char *bytes = ts_file_read(arena, path, ALL_LIMIT, &length, problems);
  ts_zip *zip = bytes ? ts_zip_open(bytes, length) : NULL;
  if (bytes && !zip) ts_report(problems, TS_ERROR, path, 0, "is no ZIP archive");
  ts_pack_member *members = zip ? unzip(arena, zip, path, aside, count, problems) : NULL;
  ts_zip_close(zip);
  return members;
}
