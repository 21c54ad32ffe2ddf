#include "dossier/names.h"

#include "base/arena.h"
#include "base/text.h"

#include <stdlib.h>
#include <string.h>

/* The place of the key, or the empty place where it would go. */
static size_t place(const ts_names *names, const char *key) {
  size_t mask = names->capacity - 1, at = ts_hash(names->seed, key) & mask;
  while (names->keys[at] && strcmp(names->keys[at], key) != 0) at = (at + 1) & mask;
  return at;
}

static void grow(ts_names *names) {
  ts_names larger = {.seed = names->capacity ? names->seed : ts_hash_seed()};
  larger.capacity = names->capacity ? 2 * names->capacity : 16;
  larger.keys = ts_alloc(larger.capacity * sizeof *larger.keys);
  larger.values = ts_alloc(larger.capacity * sizeof *larger.values);
  for (size_t i = 0; i < names->capacity; i++)
    if (names->keys[i]) ts_names_put(&larger, names->keys[i], names->values[i]);
  ts_names_release(names);
  *names = larger;
}

void ts_names_put(ts_names *names, const char *key, uint32_t value) {
  if (4 * (names->count + 1) > 3 * names->capacity) grow(names);
  size_t at = place(names, key);
  if (!names->keys[at]) names->count++;
  names->keys[at] = key;
  names->values[at] = value;
}

uint32_t ts_names_get(const ts_names *names, const char *key) {
  if (!names->capacity) return TS_ABSENT;
  size_t at = place(names, key);
  return names->keys[at] ? names->values[at] : TS_ABSENT;
}

static int by_text(const void *a, const void *b) {
  return strcmp(*(const char *const *)a, *(const char *const *)b);
}

const char *ts_names_nearest(const ts_names *names, const char *name) {
  const char **keys = ts_alloc((names->count + 1) * sizeof *keys);
  size_t count = 0;
  for (size_t i = 0; i < names->capacity; i++)
    if (names->keys[i]) keys[count++] = names->keys[i];
  /* Sorted, so that a tie does not hang on the order of the table. */
  qsort(keys, count, sizeof *keys, by_text);
  const char *nearest = ts_nearest(name, keys, count);
  free(keys);
  return nearest;
}

void ts_names_release(ts_names *names) {
  free(names->keys);
  free(names->values);
  *names = (ts_names){0};
}
