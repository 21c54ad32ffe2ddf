/* Waiting until somebody saves a file.
 *
 * A file counts as saved when it is not what it was: written over, replaced by another that was
 * renamed onto it, gone, or there again. */
#ifndef TS_BASE_SAVED_H
#define TS_BASE_SAVED_H

#include <stdbool.h>
#include <stddef.h>

typedef struct ts_saved ts_saved;

/* From here on ^C and a request to end do not end the process, but the wait: see below. */
ts_saved *ts_saved_new(void);
void ts_saved_free(ts_saved *saved);

/* Looks at a file as well, which need not be there; at every file of a folder whose name ends so.
 * Asking twice is asking once. */
void ts_saved_file(ts_saved *saved, const char *path);
void ts_saved_folder(ts_saved *saved, const char *path, const char *suffix);
size_t ts_saved_count(const ts_saved *saved);

/* Whether somebody has asked the process to end. */
bool ts_saved_ended(void);

/* Waits until a file is saved, and then until all have been quiet for a moment: editors write in
 * several steps. Calls `each` for every file that is not what it was; `there` is false where it is
 * gone. False when the process is to end. */
bool ts_saved_wait(ts_saved *saved, void (*each)(void *context, const char *path, bool there),
                   void *context);

#endif
