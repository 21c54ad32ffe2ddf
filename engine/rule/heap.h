/* Memory for one Lua state. A state makes and drops small blocks by the hundred thousand, and says
 * the size of each when it drops it: so they are cut from large ones and kept by size, which takes
 * a fifth of the time that malloc does. What is larger comes from malloc. */
#ifndef TS_RULE_HEAP_H
#define TS_RULE_HEAP_H

#include <stddef.h>

/* Blocks up to so many bytes are cut. None with sanitizers, which then see each block. */
#ifndef TS_HEAP_SMALL
#define TS_HEAP_SMALL 256
#endif

enum { TS_HEAP_STEP = 16 };

typedef struct {
  void *dropped[TS_HEAP_SMALL / TS_HEAP_STEP + 1]; /* by size in steps: each begins with the next */
  char *at, *end;                                  /* what is left of the newest large block */
  void *newest;                                    /* begins with the one before it */
} ts_heap;

/* As realloc, with the size of the block, 0 where it is NULL. `size` 0 drops it and gives NULL. Out
 * of memory ends the run. */
void *ts_heap_resize(ts_heap *heap, void *block, size_t old, size_t size);
/* Frees all that was cut; larger blocks must have been dropped. */
void ts_heap_release(ts_heap *heap);

#endif
