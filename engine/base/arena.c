/* Arena: a chain of blocks, filled from the front, freed together. */
#include "base/arena.h"

#include <stdalign.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FIRST_SIZE = 2 * 1024, BLOCK_SIZE = 32 * 1024 }; /* many arenas stay small */

typedef struct block {
  struct block *older;
  size_t used, size;
  size_t soiled;       /* bytes from the front that were used before it was cleared */
  max_align_t bytes[]; /* aligned for any type */
} block;

struct ts_arena {
  block *newest;
};

void ts_out_of_memory(void) {
  fputs("tankside: error: out of memory\n", stderr);
  exit(2);
}

void *ts_alloc(size_t size) {
  void *memory = calloc(1, size ? size : 1);
  if (!memory) ts_out_of_memory();
  return memory;
}

void *ts_resize(void *memory, size_t size) {
  void *moved = realloc(memory, size ? size : 1);
  if (!moved) ts_out_of_memory();
  return moved;
}

ts_arena *ts_arena_new(void) { return ts_alloc(sizeof(ts_arena)); }

void ts_arena_free(ts_arena *arena) {
  if (!arena) return;
  for (block *b = arena->newest; b;) {
    block *older = b->older;
    free(b);
    b = older;
  }
  free(arena);
}

void ts_arena_clear(ts_arena *arena) {
  block *kept = NULL;
  for (block *b = arena->newest; b;) {
    block *older = b->older;
    if (!kept && b->size <= BLOCK_SIZE)
      kept = b;
    else
      free(b);
    b = older;
  }
  if (kept) {
    if (kept->used > kept->soiled) kept->soiled = kept->used;
    kept->used = 0;
    kept->older = NULL;
  }
  arena->newest = kept;
}

void ts_arena_take_over(ts_arena *arena, ts_arena *other) {
  block **last = &arena->newest;
  while (*last) last = &(*last)->older;
  *last = other->newest;
  free(other);
}

static block *block_new(size_t size) {
  if (size > SIZE_MAX - sizeof(block)) ts_out_of_memory();
  block *b = ts_alloc(sizeof(block) + size);
  b->size = size;
  return b;
}

/* Something large gets a block of its own behind the newest one, so that the
 * room left in the newest is not lost. */
static void *alloc_large(ts_arena *arena, size_t size) {
  block *b = block_new(size);
  b->used = size;
  if (arena->newest) {
    b->older = arena->newest->older;
    arena->newest->older = b;
  } else {
    arena->newest = b;
  }
  return b->bytes;
}

/* The front of what was used before is made zero when it is used again. */
static void clean(block *b, void *memory, size_t size) {
  if (b->used < b->soiled)
    memset(memory, 0, size < b->soiled - b->used ? size : b->soiled - b->used);
}

/* At a multiple of `unit`, which is a power of two. */
static void *reserve(ts_arena *arena, size_t size, size_t unit, bool zeroed) {
  if (size == 0) size = 1; /* each has a place of its own */
  if (size > BLOCK_SIZE / 4) return alloc_large(arena, size);
  block *b = arena->newest;
  size_t at = b ? (b->used + unit - 1) & ~(unit - 1) : 0;
  if (!b || b->size < at + size) {
    b = block_new(b || size > FIRST_SIZE ? BLOCK_SIZE : FIRST_SIZE);
    b->older = arena->newest;
    arena->newest = b;
    at = 0;
  }
  void *memory = (char *)b->bytes + at;
  b->used = at;
  if (zeroed) clean(b, memory, size);
  b->used += size;
  return memory;
}

/* The size of a type is a multiple of what it must stand at, so where it may stand is known by the
 * size of one or of many: four bytes need not stand as sixteen do. */
static size_t unit_of(size_t size) {
  enum { ANY = alignof(max_align_t) };
  return (size & (ANY - 1)) != 0 ? size & (~size + 1) : ANY;
}

void *ts_arena_alloc(ts_arena *arena, size_t size) {
  return reserve(arena, size, unit_of(size), true);
}

void *ts_arena_keep(ts_arena *arena, const void *bytes, size_t size) {
  void *copy = reserve(arena, size, unit_of(size), false);
  if (size > 0) memcpy(copy, bytes, size);
  return copy;
}

char *ts_arena_copy_n(ts_arena *arena, const char *text, size_t length) {
  if (!text) return NULL;
  if (length == SIZE_MAX) ts_out_of_memory();
  char *copy = reserve(arena, length + 1, 1, false); /* text may stand anywhere */
  memcpy(copy, text, length);
  copy[length] = '\0';
  return copy;
}

char *ts_arena_copy(ts_arena *arena, const char *text) {
  return text ? ts_arena_copy_n(arena, text, strlen(text)) : NULL;
}

char *ts_arena_printf(ts_arena *arena, const char *format, ...) {
  char most[160]; /* long enough for nearly everything */
  va_list list;
  va_start(list, format);
  int length = vsnprintf(most, sizeof most, format, list);
  va_end(list);
  if (length < 0) abort(); /* a wrong format string: our own mistake */
  if ((size_t)length < sizeof most) return ts_arena_copy_n(arena, most, (size_t)length);
  char *text = ts_arena_alloc(arena, (size_t)length + 1);
  va_start(list, format);
  vsnprintf(text, (size_t)length + 1, format, list);
  va_end(list);
  return text;
}
