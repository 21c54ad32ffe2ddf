/* A map from text to a number. Low-level; calls nothing above engine/base.
 *
 * Keys are kept, not copied, and must outlive the map. Start with
 * `ts_names names = {0}`; release with ts_names_release. */
#ifndef TS_DOSSIER_NAMES_H
#define TS_DOSSIER_NAMES_H

#include <stddef.h>
#include <stdint.h>

#define TS_ABSENT UINT32_MAX

typedef struct {
  const char **keys;
  uint32_t *values;
  uint64_t seed;
  size_t count, capacity; /* capacity is 0 or a power of two, at most three quarters full */
} ts_names;

/* Sets the value of a key, replacing an earlier one. */
void ts_names_put(ts_names *names, const char *key, uint32_t value);

/* The value of a key, or TS_ABSENT. */
uint32_t ts_names_get(const ts_names *names, const char *key);

/* The nearest key to `name`, or NULL when none is near (see ts_nearest). */
const char *ts_names_nearest(const ts_names *names, const char *name);

void ts_names_release(ts_names *names);

#endif
