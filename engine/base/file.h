/* Files: the one door. Nothing else in the engine opens, lists or renames.
 *
 * Reading is bounded; writing is whole or not at all: a temporary in the same
 * folder (base/staging.h), flushed to the disk, then renamed over the old file. */
#ifndef TS_BASE_FILE_H
#define TS_BASE_FILE_H

#include "base/arena.h"
#include "tankside/diagnostics.h"
#include <stdbool.h>

/* Reads a whole regular file of at most `limit` bytes into the arena,
 * NUL-terminated. NULL with a report when it is missing, unreadable, not a
 * regular file or too large. `length` may be NULL. */
char *ts_file_read(ts_arena *arena, const char *path, size_t limit, size_t *length,
                   ts_diagnostics *problems);

/* The same file piece by piece, for what is too large to hold: a handle, or -1 with a report; how
 * many bytes came, 0 at the end, -1 when it cannot be read on. */
int ts_file_open(const char *path, size_t limit, ts_diagnostics *problems);
int ts_file_next(int file, char *bytes, size_t size);
void ts_file_close(int file);

/* Writes a file whole or not at all; through a link, what it points to. False with a report, and
 * then what was there before is there still. */
bool ts_file_write(const char *path, const char *bytes, size_t length, ts_diagnostics *problems);

/* The same, and never over what is there already. */
bool ts_file_write_new(const char *path, const char *bytes, size_t length, ts_diagnostics *problems);

/* The same piece by piece, for what is too large to hold: `fill` adds one after another to the file, and is
 * false with errno when one of them was. */
bool ts_file_fill(const char *path, bool (*fill)(void *context, int file), void *context,
                  ts_diagnostics *problems);
bool ts_file_add(int file, const char *bytes, size_t length);

/* The same by a library that writes files itself: `make` makes the temporary it is given the
 * path of, and reports what went wrong. */
bool ts_file_make(const char *path,
                  bool (*make)(void *context, const char *temporary, ts_diagnostics *problems),
                  void *context, ts_diagnostics *problems);

/* Makes a new folder for what is needed for a while (in TMPDIR, else where the system has such); NULL with
 * a report. Remove it with the files in it. */
char *ts_folder_temporary(ts_arena *arena, ts_diagnostics *problems);
void ts_folder_remove(const char *path);

/* Makes a folder and its parents; true when it exists afterwards. */
bool ts_folder_make(const char *path, ts_diagnostics *problems);

/* Names of regular files in a folder that end in `suffix`, or of the folders in it where that is
 * "/", in byte order, NULL-terminated; NULL with a report. */
char **ts_folder_list(ts_arena *arena, const char *path, const char *suffix, ts_diagnostics *problems);
bool ts_folder_exists(const char *path);
bool ts_file_exists(const char *path); /* whatever has that name */

/* Calls `found` with the path of every regular file of that name in a folder and those below it, in
 * byte order, a folder's own before those below; links to folders are not followed. False with a report. */
bool ts_folder_walk(const char *path, const char *name, void (*found)(void *context, const char *path),
                    void *context, ts_diagnostics *problems);

/* Joins and takes apart; results in the arena. */
char *ts_path_join(ts_arena *arena, const char *folder, const char *name);
char *ts_path_folder(ts_arena *arena, const char *path); /* "." where there is none */
const char *ts_path_name(const char *path);              /* after the last slash */
char *ts_path_target(ts_arena *arena, const char *path); /* all links resolved; itself where none is there */
/* True when `name`, taken from `folder`, stays inside it with all links resolved. */
bool ts_path_inside(const char *folder, const char *name);
/* True when both exist and are one, with all links resolved. */
bool ts_path_same(const char *one, const char *other);

/* Where the data is: in TANKSIDE_DATA, else in ../share/tankside beside the running program's
 * folder, else in the source or install folder fixed at build time; the first that exists.
 * `name` is "rules", "templates", "shared" or a path below them. */
char *ts_data_path(ts_arena *arena, const char *name);

#endif
