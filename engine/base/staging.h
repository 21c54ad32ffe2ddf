/* Staging: files of one folder that appear together, or not at all.
 *
 * They are made in a hidden folder inside the one they belong to (so on the same file system) and
 * moved out once all of them are there and on the disk. Until then nothing of what stood there
 * before is touched. If a move fails, those before it are taken back. Two runs that publish into
 * one folder at the same moment wait for one another.
 *
 * Whoever makes such a folder holds a lock on it. One that nobody holds is what a killed run left,
 * and the next run that stages in the same place clears it away. */
#ifndef TS_BASE_STAGING_H
#define TS_BASE_STAGING_H

#include <stdbool.h>

typedef struct ts_staging ts_staging;

/* Makes the hidden folder in `folder`, which must be there. NULL, with errno, when it cannot. */
ts_staging *ts_staging_new(const char *folder);
void ts_staging_free(ts_staging *staging); /* NULL is allowed; what was not published is gone */
/* From now on exit() clears it away too, as when memory runs out: for a program, not a library. */
bool ts_staging_clear_at_exit(ts_staging *staging);

/* The hidden folder: write into it, each file under the name it shall have. */
const char *ts_staging_name(const ts_staging *staging);
int ts_staging_inside(const ts_staging *staging); /* the same, opened */

/* Moves what was staged to where it belongs, in the order of `names`, over what was there before
 * and with its permissions; and takes the `stale` out. Both end with NULL; `stale` may be NULL.
 * False, with errno, and then all stands as before; except that a file system without hard links
 * (FAT) cannot undo a replacement. To be called once. */
bool ts_staging_publish(ts_staging *staging, const char *const *names, const char *const *stale);

/* One file, and never over what is there already. */
bool ts_staging_publish_new(ts_staging *staging, const char *name);

/* Claiming: of several runs that would fill the same folder one does, and the others know. The claim
 * ends with the run, however that ends. Where a file system has no locks, all have it. */
typedef struct {
  enum { TS_CLAIMED, TS_CLAIM_BUSY, TS_CLAIM_FAILED } how; /* FAILED: with errno */
  int file;
} ts_claim;
ts_claim ts_folder_claim(const char *folder, bool wait);
void ts_folder_release(const char *folder, ts_claim held);

#endif
