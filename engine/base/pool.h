/* Pool: what is equal is kept once.
 *
 * Low-level; calls nothing above. For what many say again and again, as rules do of one subject
 * after another. Bytes are compared: in a struct with gaps those must be zero, and what it points
 * to must be from the same pool, to be known again. */
#ifndef TS_BASE_POOL_H
#define TS_BASE_POOL_H

#include "base/arena.h"

typedef struct ts_pool ts_pool;

ts_pool *
ts_pool_new(ts_arena *arena); /* what it keeps is in the arena, and stays when the pool is freed */
void ts_pool_free(ts_pool *pool); /* NULL is allowed */

/* The copy of so many bytes, made now or before; never NULL, not to be written to. */
const void *ts_pool_keep(ts_pool *pool, const void *bytes, size_t size);
const char *ts_pool_text(ts_pool *pool, const char *text); /* NULL gives NULL */

#endif
