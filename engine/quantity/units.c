/* Units: the table of names.
 *
 * One hash table, filled at creation from our own rows and then from
 * udunits2's data, and never changed afterwards: reading takes no lock and
 * may go on in any number of threads. A name in both is ours. */
#include "quantity/units.h"

#include "base/arena.h"
#include "base/text.h"

#include <ctype.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

struct ts_units {
  ts_arena *arena;
  ts_unit *all;
  size_t count, capacity, own;
  uint32_t *slots; /* index + 1 into `all`; 0 is empty */
  size_t mask;
};

/* Spellings worth proposing though no row of the table has them. */
static const char *const usual[] = {
    "mm",   "cm",  "km",   "mg",  "kg",  "ug",  "mL",  "kPa",   "hPa",  "MPa",
    "mbar", "kW",  "kN",   "kJ",  "kV",  "mA",  "kHz", "m2",    "m3",   "m/s",
    "mg/L", "L/s", "m3/h", "ft3", "in3", "ft2", "kWh", "L/min", "W/m2", "kg/m3",
};

static uint32_t hash(const char *name, size_t length) {
  uint32_t h = 2166136261u; /* FNV-1a */
  for (size_t i = 0; i < length; i++) h = (h ^ (unsigned char)name[i]) * 16777619u;
  return h;
}

static const ts_unit *find(const ts_units *units, const char *name, size_t length) {
  for (size_t at = hash(name, length) & units->mask; units->slots[at];
       at = (at + 1) & units->mask) {
    const ts_unit *unit = &units->all[units->slots[at] - 1];
    if (strncmp(unit->name, name, length) == 0 && !unit->name[length]) return unit;
  }
  return NULL;
}

/* ---- creation --------------------------------------------------------------- */

static void put_in_slot(ts_units *units, uint32_t index) {
  const char *name = units->all[index].name;
  size_t at = hash(name, strlen(name)) & units->mask;
  while (units->slots[at]) at = (at + 1) & units->mask;
  units->slots[at] = index + 1;
}

/* Doubles the slots before they are half full. */
static void make_room(ts_units *units) {
  size_t slots = units->slots ? units->mask + 1 : 0;
  if (2 * (units->count + 1) <= slots) return;
  slots = slots ? 2 * slots : 1024;
  units->slots = ts_arena_alloc(units->arena, slots * sizeof *units->slots);
  units->mask = slots - 1;
  for (size_t i = 0; i < units->count; i++) put_in_slot(units, (uint32_t)i);
}

static void add(ts_units *units, ts_unit unit) {
  make_room(units);
  if (find(units, unit.name, strlen(unit.name))) return;
  TS_GROW(units->all, units->count, units->capacity);
  units->all[units->count++] = unit;
  put_in_slot(units, (uint32_t)units->count - 1);
}

static const ts_refusal *refused(const char *name) {
  for (const ts_refusal *row = ts_refusals; row->name; row++)
    if (ts_same(row->name, name)) return row;
  return NULL;
}

static void take(void *context, const char *name, ts_scale scale) {
  ts_units *units = context;
  if (refused(name)) return;
  add(units, (ts_unit){ts_arena_copy(units->arena, name), scale, TS_PLURAL});
}

ts_units *ts_units_new(char *why, size_t size) {
  ts_units *units = ts_alloc(sizeof *units);
  units->arena = ts_arena_new();
  for (const ts_unit *row = ts_own_units; row->name; row++) add(units, *row);
  units->own = units->count;
  if (ts_udunits_each(take, units, why, size)) return units;
  ts_units_free(units);
  return NULL;
}

void ts_units_free(ts_units *units) {
  if (!units) return;
  free(units->all);
  ts_arena_free(units->arena);
  free(units);
}

/* ---- looking up --------------------------------------------------------------- */

static const ts_unit *find_plural(const ts_units *units, const char *name, size_t length) {
  if (length < 3 || name[length - 1] != 's') return NULL;
  const ts_unit *unit = find(units, name, length - 1);
  return unit && (unit->naming == TS_PLURAL || unit->naming == TS_WORD) ? unit : NULL;
}

/* The unit behind `prefix`, when the name starts with it. */
static const ts_unit *find_behind(const ts_units *units, const char *prefix, ts_naming naming,
                                  const char *name, size_t length) {
  size_t skip = strlen(prefix);
  if (length <= skip || strncmp(name, prefix, skip) != 0) return NULL;
  const ts_unit *unit = find(units, name + skip, length - skip);
  if (!unit && naming == TS_WORD) unit = find_plural(units, name + skip, length - skip);
  return unit && unit->naming == naming ? unit : NULL;
}

static bool find_prefixed(const ts_units *units, const char *name, size_t length, ts_scale *scale) {
  for (const ts_prefix *prefix = ts_prefixes; prefix->symbol; prefix++) {
    const ts_unit *unit = find_behind(units, prefix->symbol, TS_SYMBOL, name, length);
    if (!unit) unit = find_behind(units, prefix->word, TS_WORD, name, length);
    if (!unit) continue;
    ts_scale factor = {prefix->num, prefix->den, 0, 0, TS_NUMBER};
    return ts_scale_join(&unit->scale, &factor, 1, scale);
  }
  return false;
}

bool ts_unit_named(const ts_units *units, const char *name, size_t length, ts_scale *scale) {
  const ts_unit *unit = find(units, name, length);
  if (!unit) unit = find_plural(units, name, length);
  if (!unit) return find_prefixed(units, name, length, scale);
  *scale = unit->scale;
  return true;
}

const char *ts_unit_name_at(const ts_units *units, size_t index, bool *own) {
  if (index >= units->count) return NULL;
  if (own) *own = index < units->own;
  return units->all[index].name;
}

/* ---- proposals ------------------------------------------------------------------ */

enum { USUAL = sizeof usual / sizeof *usual };

/* The same letters in another case: "kpa" is kPa rather than anything else. */
static const char *other_case(const char *name, const char *const *names, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (strcasecmp(names[i], name) == 0) return names[i];
  return NULL;
}

const char *ts_unit_nearest(const ts_units *units, const char *name) {
  size_t count = USUAL + units->count;
  const char **names = ts_alloc(count * sizeof *names);
  memcpy(names, usual, sizeof usual);
  for (size_t i = 0; i < units->count; i++) names[USUAL + i] = units->all[i].name;
  const char *nearest = other_case(name, names, count);
  /* For a short name nearly everything is two edits away: keep to the same first letter. */
  if (!nearest && strlen(name) > 2) nearest = ts_nearest(name, names, count);
  if (nearest && strlen(name) < 5 &&
      tolower((unsigned char)*nearest) != tolower((unsigned char)*name))
    nearest = NULL;
  free(names);
  return nearest;
}

bool ts_unit_convert(const ts_units *units, const char *unit, double value, double *si, ts_dim *dim,
                     char *why, size_t size) {
  ts_scale scale;
  if (!ts_unit_read(units, unit, &scale, why, size)) return false;
  *si = ts_scale_to_si(&scale, value);
  *dim = scale.dim;
  return true;
}
