/* ZIP archives in memory: minizip, given a file that is a piece of memory. */
#include "base/zip.h"

#include <minizip/unzip.h>
#include <minizip/zip.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* Deflate packs a run of one byte about a thousand to one; tables and texts stay far below this. */
enum { RATIO_MAX = 300, RATIO_FROM = 1 << 20 };

/* ---- a file in memory, as minizip asks for one ---------------------------------------- */

typedef struct {
  ts_text bytes;
  size_t at;
} memory;

struct ts_zip {
  memory file;
  unzFile archive;
};

static voidpf memory_open(voidpf opaque, const char *name, int mode) {
  (void)name, (void)mode;
  return opaque;
}

static uLong memory_read(voidpf opaque, voidpf stream, void *buffer, uLong size) {
  memory *m = stream;
  (void)opaque;
  size_t left = m->bytes.length - m->at, given = size < left ? size : left;
  if (given > 0) memcpy(buffer, m->bytes.data + m->at, given);
  m->at += given;
  return given;
}

/* Over what is there (sizes are filled in afterwards), then beyond its end. */
static uLong memory_write(voidpf opaque, voidpf stream, const void *buffer, uLong size) {
  memory *m = stream;
  (void)opaque;
  size_t left = m->bytes.length - m->at, over = size < left ? size : left;
  if (over > 0) memcpy(m->bytes.data + m->at, buffer, over);
  ts_text_add_n(&m->bytes, (const char *)buffer + over, size - over);
  m->at += size;
  return size;
}

static long memory_tell(voidpf opaque, voidpf stream) {
  (void)opaque;
  return (long)((memory *)stream)->at;
}

static long memory_seek(voidpf opaque, voidpf stream, uLong offset, int origin) {
  memory *m = stream;
  (void)opaque;
  size_t base = origin == ZLIB_FILEFUNC_SEEK_END   ? m->bytes.length
                : origin == ZLIB_FILEFUNC_SEEK_CUR ? m->at
                                                   : 0;
  if (offset > m->bytes.length - base) return -1;
  m->at = base + offset;
  return 0;
}

static int memory_close(voidpf opaque, voidpf stream) {
  (void)opaque, (void)stream;
  return 0;
}

static int memory_error(voidpf opaque, voidpf stream) {
  (void)opaque, (void)stream;
  return 0;
}

static zlib_filefunc_def calls_on(memory *m) {
  return (zlib_filefunc_def){memory_open, memory_read,  memory_write, memory_tell,
                             memory_seek, memory_close, memory_error, m};
}

/* ---- reading -------------------------------------------------------------------------- */

ts_zip *ts_zip_open(const char *bytes, size_t length) {
  ts_zip *zip = ts_alloc(sizeof *zip);
  /* Opened for reading, so that nothing is written through this pointer. */
  zip->file.bytes = (ts_text){.data = (char *)(uintptr_t)bytes, .length = length};
  zlib_filefunc_def calls = calls_on(&zip->file);
  zip->archive = unzOpen2("", &calls);
  if (zip->archive != NULL) return zip;
  free(zip);
  return NULL;
}

void ts_zip_close(ts_zip *zip) {
  if (zip == NULL) return;
  unzClose(zip->archive);
  free(zip);
}

bool ts_zip_has(const ts_zip *zip, const char *name) {
  return unzLocateFile(zip->archive, name, 1) == UNZ_OK;
}

/* All of the member that is open, which says it has `size` bytes; NULL when it has not. */
static char *inflate_all(unzFile archive, ts_arena *arena, size_t size) {
  char *bytes = ts_arena_alloc(arena, size + 1), beyond;
  size_t got = 0;
  while (got < size) {
    int n = unzReadCurrentFile(archive, bytes + got, (unsigned)(size - got));
    if (n <= 0) return NULL;
    got += (size_t)n;
  }
  return unzReadCurrentFile(archive, &beyond, 1) == 0 ? bytes : NULL;
}

/* Why the member that was found is not read, or NULL. */
static const char *refused(const unz_file_info *about, size_t limit) {
  if (about->flag & 1) return "is encrypted; save it without a password";
  if (about->uncompressed_size > limit) return "is too large";
  if (about->uncompressed_size > RATIO_FROM &&
      about->uncompressed_size / RATIO_MAX > about->compressed_size)
    return "unpacks to far more than an honest file would";
  return NULL;
}

char *ts_zip_member(const ts_zip *zip, ts_arena *arena, const char *name, size_t limit,
                    size_t *length, const char *file, ts_diagnostics *problems) {
  unz_file_info about;
  const char *why = NULL;
  char *bytes = NULL;
  if (!ts_zip_has(zip, name) ||
      unzGetCurrentFileInfo(zip->archive, &about, NULL, 0, NULL, 0, NULL, 0) != UNZ_OK)
    why = "is missing";
  else
    why = refused(&about, limit);
  if (why == NULL && unzOpenCurrentFile(zip->archive) == UNZ_OK) {
    bytes = inflate_all(zip->archive, arena, about.uncompressed_size);
    if (unzCloseCurrentFile(zip->archive) != UNZ_OK) bytes = NULL; /* its check sum is wrong */
  }
  if (bytes == NULL)
    ts_report(problems, TS_ERROR, file, 0, "\"%s\" in it %s", name, why ? why : "is damaged");
  else
    *length = about.uncompressed_size;
  return bytes;
}

/* ---- names ---------------------------------------------------------------------------- */

enum { UNIX = 3, NAME_SIZE = 256 };

/* Why a name is not taken, or NULL. */
static const char *bad_name(const char *name) {
  if (name[0] == '/' || strchr(name, '\\') != NULL || strchr(name, ':') != NULL)
    return "is no name inside a folder";
  for (const char *part = name, *slash; part != NULL; part = slash ? slash + 1 : NULL) {
    slash = strchr(part, '/');
    if (strncmp(part, "..", 2) == 0 && (part[2] == '/' || part[2] == '\0'))
      return "leads out of its folder";
  }
  for (const unsigned char *c = (const unsigned char *)name; *c; c++)
    if (*c < ' ') return "has a character that no name holds";
  return name[0] == '\0' ? "has no name" : NULL;
}

static bool is_link(const unz_file_info *about) {
  return about->version >> 8 == UNIX && S_ISLNK((mode_t)(about->external_fa >> 16));
}

static int by_bytes(const void *a, const void *b) {
  return strcmp(*(char *const *)a, *(char *const *)b);
}

static const char *next_name(const ts_zip *zip, ts_arena *arena, char **into) {
  char name[NAME_SIZE];
  unz_file_info about;
  if (unzGetCurrentFileInfo(zip->archive, &about, name, sizeof name, NULL, 0, NULL, 0) != UNZ_OK ||
      about.size_filename >= sizeof name || strlen(name) != about.size_filename)
    return "is damaged, or has a name that is too long";
  *into = ts_arena_copy(arena, name);
  return is_link(&about) ? "is a link" : bad_name(name);
}

static const char *all_names(const ts_zip *zip, ts_arena *arena, size_t most, char **names,
                             const char **which) {
  size_t count = 0;
  int step = unzGoToFirstFile(zip->archive);
  for (; step == UNZ_OK; step = unzGoToNextFile(zip->archive)) {
    if (count == most) return "is one too many";
    const char *why = next_name(zip, arena, &names[count]);
    *which = names[count++];
    if (why != NULL) return why; /* of one that cannot be read there is no name */
  }
  if (step != UNZ_END_OF_LIST_OF_FILE) return "is damaged";
  if (count > 0) qsort(names, count, sizeof *names, by_bytes);
  for (size_t i = 1; i < count; i++)
    if (strcmp(names[i - 1], *which = names[i]) == 0) return "is there twice";
  return NULL;
}

char **ts_zip_names(const ts_zip *zip, ts_arena *arena, size_t most, const char *file,
                    ts_diagnostics *problems) {
  char **names = ts_arena_alloc(arena, (most + 1) * sizeof *names);
  const char *which = NULL, *why = all_names(zip, arena, most, names, &which);
  if (why == NULL) return names;
  ts_report(problems, TS_ERROR, file, 0, "\"%s\" in it %s", which ? which : "?", why);
  return NULL;
}

/* ---- writing -------------------------------------------------------------------------- */

static bool add(zipFile zip, const ts_zip_entry *entry) {
  static const zip_fileinfo always = {.dosDate = 1UL << 21 | 1UL << 16}; /* 1 January 1980 */
  int level = entry->stored ? 0 : 6;
  return zipOpenNewFileInZip(zip, entry->name, &always, NULL, 0, NULL, 0, NULL,
                             entry->stored ? 0 : Z_DEFLATED, level) == ZIP_OK &&
         zipWriteInFileInZip(zip, entry->bytes, (unsigned)entry->length) == ZIP_OK &&
         zipCloseFileInZip(zip) == ZIP_OK;
}

bool ts_zip_write(const ts_zip_entry *entries, size_t count, const char *comment, ts_text *out) {
  memory m = {0};
  zlib_filefunc_def calls = calls_on(&m);
  zipFile zip = zipOpen2("", APPEND_STATUS_CREATE, NULL, &calls);
  bool good = zip != NULL;
  for (size_t i = 0; i < count && good; i++) good = add(zip, &entries[i]);
  good = zip != NULL && zipClose(zip, comment) == ZIP_OK && good;
  *out = m.bytes;
  return good;
}
