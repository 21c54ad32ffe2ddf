#include "assess/margins.h"
#include "assess/open.h"
#include "assess/search.h"
#include "base/sort.h"
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

const uint32_t *ts_rests_on(const ts_assessment *a, const ts_finding *finding, ts_arena *arena,
                            size_t *count) {
  const ts_spoken *said = ts_finding_said(finding);
  size_t found = 0, capacity = 0;
  uint32_t *all = NULL;
  for (size_t i = 0; i < said->fact_count; i++) {
    size_t parts;
    const uint32_t *made = ts_made_of(a->in.dossier, said->facts[i], arena, &parts);
    for (size_t k = 0; k < parts; k++) {
      TS_GROW(all, found, capacity);
      all[found++] = made[k];
    }
  }
  *count = found > 0 ? ts_sort_once_each(all, found) : 0;
  uint32_t *slots = ts_arena_alloc(arena, (*count + 1) * sizeof *slots);
  if (*count > 0) memcpy(slots, all, *count * sizeof *slots);
  free(all);
  return slots;
}

/* ---- one finding, one fact ---------------------------------------------------------- */

typedef struct {
  ts_probe *probe;
  const ts_finding *finding;
  size_t pair;
  ts_margin *margins;
  size_t count, capacity;
} seeker;

typedef struct {
  ts_word word;
  ts_stand before;
} start;

static bool stands_otherwise(const void *context, ts_stand stand) {
  const start *s = context;
  return !ts_same_stand(s->word, s->before, stand);
}

/* Where each side begins and ends. */
static ts_range stretch(ts_side_of side, ts_range now, ts_range plausible) {
  switch (side) {
  case TS_DOWN: return (ts_range){now.lo, plausible.lo};
  case TS_UP: return (ts_range){now.hi, plausible.hi};
  case TS_FROM_LOW: return (ts_range){now.lo, now.hi};
  case TS_FROM_HIGH: break;
  }
  return (ts_range){now.hi, now.lo};
}

/* How it stands at an end of what the number may be now, from which two sides are searched. */
typedef struct {
  bool asked, known;
  ts_stand stand;
} end;

/* At the only value that it has it stands as it does now. */
static void stand_at(const seeker *k, const ts_search *search, ts_range now, double x, end *e) {
  if (e->asked) return;
  e->asked = true;
  e->stand = ts_stands_now(k->finding);
  e->known = now.lo == now.hi || ts_search_at(search, x, &e->stand);
}

static bool seek(seeker *k, uint32_t slot, ts_side_of side, ts_range way, end *from,
                 ts_margin *margin) {
  start s = {.word = k->finding->word};
  ts_search search = {.probe = k->probe,
                      .pair = k->pair,
                      .slot = slot,
                      .word = k->finding->word,
                      .about = k->finding->about,
                      .met = stands_otherwise,
                      .context = &s};
  ts_found found;
  stand_at(k, &search, ts_slot_value(k->probe->a->in.dossier, slot)->range, way.lo, from);
  s.before = from->stand;
  bool good = from->known && ts_search_first(&search, way.lo, way.hi, &found);
  ts_search_done(&search);
  if (!good) return false;
  *margin = (ts_margin){.slot = slot,
                        .side = side,
                        .from = way.lo,
                        .edge = found.edge,
                        .included = found.included,
                        .beyond = found.first,
                        .then = found.then,
                        .before = s.before};
  return true;
}

static void seek_fact(seeker *k, uint32_t slot) {
  const ts_assess_inputs *in = &k->probe->a->in;
  const ts_fact_def *fact = ts_slot_fact(in->dossier, slot);
  ts_range plausible = ts_fact_plausible(ts_dossier_vocabulary(in->dossier), fact);
  ts_range now = ts_slot_value(in->dossier, slot)->range;
  double from_low = NAN;
  end ends[2] = {{0}}; /* the low one, the high one */
  for (int side = TS_DOWN; side <= TS_FROM_HIGH; side++) {
    ts_range way = stretch((ts_side_of)side, now, plausible);
    bool outward = side <= TS_UP;
    ts_margin margin;
    if (outward ? (side == TS_DOWN ? way.hi >= way.lo : way.hi <= way.lo) : now.lo == now.hi)
      continue;
    end *from = &ends[side == TS_UP || side == TS_FROM_HIGH];
    if (!seek(k, slot, (ts_side_of)side, way, from, &margin)) {
      if (side == TS_FROM_LOW) return; /* nothing changes inside, from neither end */
      continue;
    }
    if (side == TS_FROM_LOW) from_low = margin.edge;
    if (side == TS_FROM_HIGH && fabs(margin.edge - from_low) <= 1e-9 * fabs(from_low)) continue;
    TS_GROW(k->margins, k->count, k->capacity);
    k->margins[k->count++] = margin;
  }
}

/* ---- all of them --------------------------------------------------------------------- */

/* How far, as part of what is plausible: to compare degrees with minutes. */
static double distance(const ts_dossier *dossier, const ts_margin *m) {
  ts_range all = ts_fact_plausible(ts_dossier_vocabulary(dossier), ts_slot_fact(dossier, m->slot));
  return fabs(m->edge - m->from) / fmax(all.hi - all.lo, 1e-300);
}

/* Nearest first; what nobody can move comes after what somebody can. */
static bool goes_before(const ts_dossier *dossier, const ts_margin *a, const ts_margin *b) {
  bool given = ts_fact_is_given(ts_slot_fact(dossier, a->slot));
  if (given != ts_fact_is_given(ts_slot_fact(dossier, b->slot))) return !given;
  return distance(dossier, a) < distance(dossier, b);
}

static void sort_by_distance(const ts_dossier *dossier, ts_margin *margins, size_t count) {
  for (size_t i = 1; i < count; i++) /* a handful: insertion keeps the order of equals */
    for (size_t k = i; k > 0 && goes_before(dossier, &margins[k], &margins[k - 1]); k--) {
      ts_margin swap = margins[k];
      margins[k] = margins[k - 1];
      margins[k - 1] = swap;
    }
}

void ts_margins(ts_probe *probe, ts_assessment *a, ts_finding *finding) {
  seeker k = {.probe = probe, .finding = finding, .pair = ts_pair_of(a, finding)};
  size_t count;
  if (k.pair == SIZE_MAX) return;
  finding->too_open = a->pairs[k.pair].courses > TS_COURSES_SEARCHED || ts_probe_is_spent(probe);
  if (finding->too_open) return;
  ts_arena *scratch = ts_arena_new();
  const uint32_t *slots = ts_rests_on(a, finding, scratch, &count);
  for (size_t i = 0; i < count; i++)
    if (ts_slot_is_number(a->in.dossier, slots[i])) seek_fact(&k, slots[i]);
  sort_by_distance(a->in.dossier, k.margins, k.count);
  if (k.count > 0)
    finding->margins = ts_arena_keep(a->arena, k.margins, k.count * sizeof *k.margins);
  finding->margin_count = (uint32_t)k.count;
  free(k.margins);
  ts_arena_free(scratch);
}
