#include "rule/heap.h"

#include "base/arena.h"
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

enum { LARGE = 64 * 1024 };

static bool is_small(size_t size) { return size > 0 && size <= TS_HEAP_SMALL; }

static size_t steps(size_t size) { return (size + TS_HEAP_STEP - 1) / TS_HEAP_STEP; }

/* The first step of a large block holds the one before it. */
static void cut_open(ts_heap *heap) {
  char *block = ts_resize(NULL, LARGE);
  *(void **)block = heap->newest;
  heap->newest = block;
  heap->at = block + TS_HEAP_STEP;
  heap->end = block + LARGE;
}

static void *take(ts_heap *heap, size_t size) {
  size_t n = steps(size);
  void *block = heap->dropped[n];
  if (block) {
    heap->dropped[n] = *(void **)block;
    return block;
  }
  if ((size_t)(heap->end - heap->at) < n * TS_HEAP_STEP) cut_open(heap);
  block = heap->at;
  heap->at += n * TS_HEAP_STEP;
  return block;
}

static void drop(ts_heap *heap, void *block, size_t size) {
  if (!is_small(size)) {
    free(block);
    return;
  }
  *(void **)block = heap->dropped[steps(size)];
  heap->dropped[steps(size)] = block;
}

void *ts_heap_resize(ts_heap *heap, void *block, size_t old, size_t size) {
  if (!is_small(old) && !is_small(size) && size > 0) return ts_resize(block, size);
  if (is_small(old) && is_small(size) && steps(old) == steps(size)) return block;
  void *moved = is_small(size) ? take(heap, size) : size > 0 ? ts_resize(NULL, size) : NULL;
  if (moved && block) memcpy(moved, block, old < size ? old : size);
  if (block) drop(heap, block, old);
  return moved;
}

void ts_heap_release(ts_heap *heap) {
  for (void *block = heap->newest; block;) {
    void *before = *(void **)block;
    free(block);
    block = before;
  }
}
