/* ZIP archives in memory, through zlib's minizip. Low-level; calls nothing above.
 *
 * Reading takes single members by their name, each bounded; names inside an archive are never
 * used as paths on the disk. Writing gives the same bytes for the same entries. */
#ifndef TS_BASE_ZIP_H
#define TS_BASE_ZIP_H

#include "base/arena.h"
#include "base/text.h"
#include "tankside/diagnostics.h"
#include <stdbool.h>

typedef struct ts_zip ts_zip;

/* NULL where the bytes are no archive. They must outlive it. Free with ts_zip_close. */
ts_zip *ts_zip_open(const char *bytes, size_t length);
void ts_zip_close(ts_zip *zip); /* NULL is allowed */

bool ts_zip_has(const ts_zip *zip, const char *name);

/* Names of all members in byte order, NULL-terminated, in the arena. NULL with a report against `file`
 * where there are more than `most`, or where one is not what a folder packed by an honest hand holds: a
 * link, a name that is absolute, leads upward or holds what no name here does, or two of one name. Names of
 * folders end in a slash. */
char **ts_zip_names(const ts_zip *zip, ts_arena *arena, size_t most, const char *file,
                    ts_diagnostics *problems);

/* A member, inflated into the arena and NUL-terminated. NULL with a report against `file` when it
 * is missing, encrypted, damaged, larger than `limit` bytes, or packed as no honest file is. */
char *ts_zip_member(const ts_zip *zip, ts_arena *arena, const char *name, size_t limit,
                    size_t *length, const char *file, ts_diagnostics *problems);

typedef struct {
  const char *name, *bytes;
  size_t length;
  bool stored; /* not packed */
} ts_zip_entry;

/* The entries in their order, all of one time, and a comment on the whole. False when it cannot be;
 * release *out in any case. */
bool ts_zip_write(const ts_zip_entry *entries, size_t count, const char *comment, ts_text *out);

#endif
