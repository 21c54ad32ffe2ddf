/* Pool: a table of what is there, found by its hash. */
#include "base/pool.h"

#include "base/text.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* A text may stand anywhere and is never given for something else. */
typedef enum { THING, TEXT } sort;

typedef struct {
  const void *bytes; /* NULL: nothing is here */
  size_t size;
  uint64_t hash;
} place;

struct ts_pool {
  ts_arena *arena;
  place *places; /* a power of two of them, never more than three quarters full */
  size_t count, capacity;
  uint64_t seed; /* nobody outside can make all fall into one place */
};

ts_pool *ts_pool_new(ts_arena *arena) {
  ts_pool *pool = ts_alloc(sizeof *pool);
  *pool = (ts_pool){.arena = arena, .seed = ts_hash_seed()};
  return pool;
}

void ts_pool_free(ts_pool *pool) {
  if (pool) free(pool->places);
  free(pool);
}

/* Eight bytes at a time; what is left over last. */
static uint64_t hash_of(uint64_t seed, const char *bytes, size_t size) {
  const uint64_t by =
      0x9E3779B97F4A7C15u; /* 2 to the 64th over the golden ratio: all bits matter */
  uint64_t h = seed ^ size;
  while (size > 0) {
    size_t some = size < sizeof h ? size : sizeof h;
    uint64_t word = 0;
    memcpy(&word, bytes, some);
    h = (h ^ word) * by;
    h ^= h >> 32;
    bytes += some;
    size -= some;
  }
  return h;
}

/* Where it is, or where it would be. The last bit of the hash is the sort. */
static place *place_of(const ts_pool *pool, const void *bytes, size_t size, uint64_t hash) {
  for (size_t i = (hash >> 1) & (pool->capacity - 1);; i = (i + 1) & (pool->capacity - 1)) {
    place *p = &pool->places[i];
    if (!p->bytes) return p;
    if (p->hash == hash && p->size == size && (size == 0 || memcmp(p->bytes, bytes, size) == 0))
      return p;
  }
}

static void enlarge(ts_pool *pool) {
  place *old = pool->places;
  size_t count = pool->capacity;
  pool->capacity = count ? 2 * count : 256;
  pool->places = ts_alloc(pool->capacity * sizeof *pool->places);
  for (size_t i = 0; i < count; i++)
    if (old[i].bytes) *place_of(pool, old[i].bytes, old[i].size, old[i].hash) = old[i];
  free(old);
}

static place *find(ts_pool *pool, sort is, const void *bytes, size_t size) {
  if (4 * pool->count >= 3 * pool->capacity) enlarge(pool);
  uint64_t hash = (hash_of(pool->seed, bytes, size) & ~(uint64_t)1) | is;
  place *p = place_of(pool, bytes, size, hash);
  if (!p->bytes) {
    *p = (place){.size = size, .hash = hash};
    pool->count++;
  }
  return p;
}

const void *ts_pool_keep(ts_pool *pool, const void *bytes, size_t size) {
  place *p = find(pool, THING, bytes, size);
  if (!p->bytes) p->bytes = ts_arena_keep(pool->arena, bytes, size);
  return p->bytes;
}

const char *ts_pool_text(ts_pool *pool, const char *text) {
  if (!text) return NULL;
  size_t length = strlen(text);
  place *p = find(pool, TEXT, text, length + 1);
  if (!p->bytes) p->bytes = ts_arena_copy_n(pool->arena, text, length);
  return p->bytes;
}
