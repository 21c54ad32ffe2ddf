/* Units: the tables of names.
 *
 * Our own rows are in a hash table that is filled at creation and never changed, so that reading
 * takes no lock and may go on in any number of threads. udunits2's names are in a second one, which
 * is filled when the first name is met that only udunits2 may know: reading its data takes longer
 * than reading most dossiers, and few of them need it. Under a lock, once, and not changed after
 * that. A name in both is ours. */
#include "quantity/units.h"

#include "base/arena.h"
#include "base/text.h"

#include <ctype.h>
#include <pthread.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

typedef struct {
  ts_arena *arena;
  ts_unit *all;
  size_t count, capacity;
  uint32_t *slots; /* index + 1 into `all`; 0 is empty */
  size_t mask;
} unit_names;

typedef struct {
  pthread_mutex_t lock;
  unit_names names;
  bool read;
  char why[256]; /* it could not be, else "" */
} unit_names_lent;

struct ts_units {
  unit_names own;
  unit_names_lent *lent; /* by udunits2 */
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

static const ts_unit *find(const unit_names *names, const char *name, size_t length) {
  for (size_t at = hash(name, length) & names->mask; names->slots[at];
       at = (at + 1) & names->mask) {
    const ts_unit *unit = &names->all[names->slots[at] - 1];
    if (strncmp(unit->name, name, length) == 0 && !unit->name[length]) return unit;
  }
  return NULL;
}

/* ---- filling ---------------------------------------------------------------- */

static void put_in_slot(unit_names *names, uint32_t index) {
  const char *name = names->all[index].name;
  size_t at = hash(name, strlen(name)) & names->mask;
  while (names->slots[at]) at = (at + 1) & names->mask;
  names->slots[at] = index + 1;
}

/* Doubles the slots before they are half full. */
static void make_room(unit_names *names) {
  size_t slots = names->slots ? names->mask + 1 : 0;
  if (2 * (names->count + 1) <= slots) return;
  slots = slots ? 2 * slots : 1024;
  names->slots = ts_arena_alloc(names->arena, slots * sizeof *names->slots);
  names->mask = slots - 1;
  for (size_t i = 0; i < names->count; i++) put_in_slot(names, (uint32_t)i);
}

static void begin(unit_names *names) {
  names->arena = ts_arena_new();
  make_room(names);
}

static void add(unit_names *names, ts_unit unit) {
  if (find(names, unit.name, strlen(unit.name))) return;
  make_room(names);
  TS_GROW(names->all, names->count, names->capacity);
  names->all[names->count++] = unit;
  put_in_slot(names, (uint32_t)names->count - 1);
}

static void end(unit_names *names) {
  free(names->all);
  ts_arena_free(names->arena);
}

static const ts_refusal *refused(const char *name) {
  for (const ts_refusal *row = ts_refusals; row->name; row++)
    if (ts_same(row->name, name)) return row;
  return NULL;
}

typedef struct {
  const unit_names *own;
  unit_names *lent;
} taking;

static void take(void *context, const char *name, ts_scale scale) {
  const taking *t = context;
  if (refused(name) || find(t->own, name, strlen(name))) return;
  add(t->lent, (ts_unit){ts_arena_copy(t->lent->arena, name), scale, TS_PLURAL});
}

static const unit_names_lent *lent(const ts_units *units) {
  unit_names_lent *lent = units->lent;
  pthread_mutex_lock(&lent->lock);
  taking t = {&units->own, &lent->names};
  if (!lent->read) (void)ts_udunits_each(take, &t, lent->why, sizeof lent->why);
  lent->read = true;
  pthread_mutex_unlock(&lent->lock);
  return lent;
}

ts_units *ts_units_new(char *why, size_t size) {
  if (!ts_udunits_there(why, size)) return NULL;
  ts_units *units = ts_alloc(sizeof *units);
  begin(&units->own);
  for (const ts_unit *row = ts_own_units; row->name; row++) add(&units->own, *row);
  units->lent = ts_alloc(sizeof *units->lent);
  pthread_mutex_init(&units->lent->lock, NULL);
  begin(&units->lent->names);
  return units;
}

void ts_units_free(ts_units *units) {
  if (!units) return;
  end(&units->own);
  end(&units->lent->names);
  pthread_mutex_destroy(&units->lent->lock);
  free(units->lent);
  free(units);
}

/* ---- looking up --------------------------------------------------------------- */

static const ts_unit *find_plural(const unit_names *names, const char *name, size_t length) {
  if (length < 3 || name[length - 1] != 's') return NULL;
  const ts_unit *unit = find(names, name, length - 1);
  return unit && (unit->naming == TS_PLURAL || unit->naming == TS_WORD) ? unit : NULL;
}

/* The unit behind `prefix`, when the name starts with it. */
static const ts_unit *find_behind(const unit_names *own, const char *prefix, ts_naming naming,
                                  const char *name, size_t length) {
  size_t skip = strlen(prefix);
  if (length <= skip || strncmp(name, prefix, skip) != 0) return NULL;
  const ts_unit *unit = find(own, name + skip, length - skip);
  if (!unit && naming == TS_WORD) unit = find_plural(own, name + skip, length - skip);
  return unit && unit->naming == naming ? unit : NULL;
}

static bool find_prefixed(const unit_names *own, const char *name, size_t length, ts_scale *scale) {
  for (const ts_prefix *prefix = ts_prefixes; prefix->symbol; prefix++) {
    const ts_unit *unit = find_behind(own, prefix->symbol, TS_SYMBOL, name, length);
    if (!unit) unit = find_behind(own, prefix->word, TS_WORD, name, length);
    if (!unit) continue;
    ts_scale factor = {prefix->num, prefix->den, 0, 0, TS_NUMBER};
    return ts_scale_join(&unit->scale, &factor, 1, scale);
  }
  return false;
}

/* As written or in the plural. */
static bool find_in(const unit_names *names, const char *name, size_t length, ts_scale *scale) {
  const ts_unit *unit = find(names, name, length);
  if (!unit) unit = find_plural(names, name, length);
  if (unit) *scale = unit->scale;
  return unit != NULL;
}

bool ts_unit_named(const ts_units *units, const char *name, size_t length, ts_scale *scale) {
  return find_in(&units->own, name, length, scale) ||
         find_prefixed(&units->own, name, length, scale) ||
         (ts_udunits_may_name(name, length) && find_in(&lent(units)->names, name, length, scale));
}

const char *ts_unit_name_at(const ts_units *units, size_t index, bool *own) {
  if (own) *own = index < units->own.count;
  if (index < units->own.count) return units->own.all[index].name;
  const unit_names *names = &lent(units)->names;
  index -= units->own.count;
  return index < names->count ? names->all[index].name : NULL;
}

const char *ts_units_trouble(const ts_units *units) {
  const char *why = lent(units)->why;
  return *why ? why : NULL;
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
  size_t count = USUAL + units->own.count + lent(units)->names.count;
  const char **names = ts_alloc(count * sizeof *names);
  memcpy(names, usual, sizeof usual);
  for (size_t i = 0; USUAL + i < count; i++) names[USUAL + i] = ts_unit_name_at(units, i, NULL);
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
