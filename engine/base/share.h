/* Sharing: numbered pieces of work, done by several threads.
 *
 * Which thread does which piece is chance; so a piece must depend on nothing but its number, and
 * write only what is its own or its worker's. Then all comes out the same with any number of
 * workers. */
#ifndef TS_BASE_SHARE_H
#define TS_BASE_SHARE_H

#include <stddef.h>

enum { TS_WORKERS_MAX = 64 };

/* One piece: `worker` is the number of the thread that does it, from 0, the caller's own. */
typedef void ts_piece(void *context, size_t worker, size_t number);

/* Does the pieces from `first` up to but not `end`, each once: whoever is free takes the next.
 * Returns when all are done. Where no thread is to be had, those there are do it all. */
void ts_share_out(size_t workers, size_t first, size_t end, ts_piece *piece, void *context);

/* How many processors this process may use, at most TS_WORKERS_MAX. */
size_t ts_processors(void);

#endif
