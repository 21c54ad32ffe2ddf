#include "assess/shifts.h"
#include "assess/ways.h"
#include "base/sort.h"
#include "base/text.h"
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum {
  LOOKED_AT = 256, /* pairs that one change is tried on, where it touches more of them */
  TOLD = 40        /* shifts that a way lists of each side; the rest is counted */
};

/* All that one change shifts, whoever asks. */
typedef struct {
  ts_try tried;
  ts_subject near;  /* where it was looked at first; TS_NO_SUBJECT: everywhere */
  size_t not_tried; /* pairs it touches that were not looked at */
  uint32_t next;    /* in the same place of the table, 1 more than its number; 0: none */
  ts_shift *all;
  bool *worse; /* one a shift */
  size_t count, capacity;
} memory;

struct ts_shifts {
  ts_probe *probe;
  ts_touched *touched;
  ts_arena *keep;
  memory *known;
  size_t count, capacity;
  uint32_t heads[1024]; /* by what a change is: 1 more than the number of the last one */
};

ts_shifts *ts_shifts_new(ts_probe *probe, ts_touched *touched, ts_arena *keep) {
  ts_shifts *s = ts_alloc(sizeof *s);
  *s = (ts_shifts){.probe = probe, .touched = touched, .keep = keep};
  return s;
}

void ts_shifts_free(ts_shifts *s) {
  if (s == NULL) return;
  for (size_t i = 0; i < s->count; i++) {
    free(s->known[i].all);
    free(s->known[i].worse);
  }
  free(s->known);
  free(s);
}

/* ---- making a change ------------------------------------------------------------- */

void ts_try_begin(ts_probe *probe, const ts_try *tried) {
  if (tried->slot != TS_NO_SLOT) ts_variant_put(probe->variant, tried->slot, tried->value);
  for (size_t i = 0; i < tried->control_count; i++)
    ts_probe_apply(probe, tried->controls[i], tried->scope);
}

void ts_try_end(ts_probe *probe, const ts_try *tried) {
  if (tried->slot != TS_NO_SLOT)
    ts_variant_put(probe->variant, tried->slot, *ts_slot_value(probe->a->in.dossier, tried->slot));
  ts_probe_take_back(probe);
}

static bool same_try(const ts_try *a, const ts_try *b) {
  if (a->slot != b->slot || a->control_count != b->control_count || a->scope != b->scope)
    return false;
  for (size_t i = 0; i < a->control_count; i++)
    if (a->controls[i] != b->controls[i]) return false;
  return a->slot == TS_NO_SLOT ||
         (a->value.range.lo == b->value.range.lo && a->value.range.hi == b->value.range.hi &&
          a->value.choices == b->value.choices && a->value.certain == b->value.certain);
}

/* ---- which pairs it can touch ------------------------------------------------------ */

typedef struct {
  uint32_t *pairs;
  size_t count, capacity;
} pair_list;

static void add_pair(pair_list *list, uint32_t pair) {
  TS_GROW(list->pairs, list->count, list->capacity);
  list->pairs[list->count++] = pair;
}

static void touched_by_slot(const ts_probe *p, uint32_t slot, pair_list *list) {
  for (uint32_t i = p->pairs_from[slot]; i < p->pairs_from[slot + 1]; i++)
    add_pair(list, p->pairs_of[i]);
  /* Derived facts are read with what they are made of, so those pairs are here already. */
}

static void touched_by(ts_shifts *s, const ts_try *tried, pair_list *list) {
  ts_arena *scratch = ts_arena_new();
  if (tried->slot != TS_NO_SLOT) touched_by_slot(s->probe, tried->slot, list);
  for (size_t i = 0; i < tried->control_count; i++) {
    size_t count;
    const uint32_t *pairs = ts_pairs_touched(s->touched, tried->controls[i], tried->scope, scratch, &count);
    for (size_t k = 0; k < count; k++) add_pair(list, pairs[k]);
  }
  list->count = ts_sort_once_each(list->pairs, list->count);
  ts_arena_free(scratch);
}

/* ---- what it does there ---------------------------------------------------------------- */

static void add_shift(memory *m, const ts_pair *pair, size_t index, ts_word word, ts_stand then,
                      bool worse) {
  if (m->count == m->capacity) {
    m->capacity = m->capacity ? 2 * m->capacity : 8;
    m->all = ts_resize(m->all, m->capacity * sizeof *m->all);
    m->worse = ts_resize(m->worse, m->capacity * sizeof *m->worse);
  }
  m->worse[m->count] = worse;
  m->all[m->count++] = (ts_shift){index, pair->rule, pair->subject, word, then};
}

/* Findings that stand somewhere now. */
static void compare_said(const ts_probe *p, size_t pair, const ts_tallies *tallies, memory *m) {
  for (uint32_t i = p->said_from[pair]; i < p->said_from[pair + 1]; i++) {
    const ts_said_at *at = &p->said[i];
    const ts_finding *f = at->duty ? &p->a->duties[at->index] : &p->a->findings[at->index];
    ts_stand then = ts_stands(tallies, f->word, f->about);
    int before = ts_stand_heat(f->word, ts_stands_now(f)), after = ts_stand_heat(f->word, then);
    if (f->word != TS_REMARK && before != after)
      add_shift(m, &p->a->pairs[pair], at->index, f->word, then, after > before);
  }
}

static bool said_before(const ts_probe *p, size_t pair, const ts_tally *tally) {
  for (uint32_t i = p->said_from[pair]; i < p->said_from[pair + 1]; i++) {
    const ts_said_at *at = &p->said[i];
    const ts_finding *f = at->duty ? &p->a->duties[at->index] : &p->a->findings[at->index];
    if (f->word == tally->word && ts_same(f->about, tally->about)) return true;
  }
  return false;
}

/* What nobody says as things are, in any view. */
static void compare_new(const ts_probe *p, size_t pair, const ts_tallies *tallies, memory *m) {
  for (size_t i = 0; i < tallies->count; i++) {
    const ts_tally *tally = &tallies->at[i];
    if (tally->word == TS_REMARK || said_before(p, pair, tally)) continue;
    ts_stand then = {tally->standing.worst, tally->standing.certainty, tally->duty};
    if (ts_stand_heat(tally->word, then) > 0)
      add_shift(m, &p->a->pairs[pair], SIZE_MAX, tally->word, then, true);
  }
}

/* ---- what is remembered ------------------------------------------------------------------ */

static size_t place_of(const ts_shifts *s, const ts_try *tried) {
  uint64_t bits[2], h = tried->slot * 31u + tried->scope;
  memcpy(bits, &tried->value.range, sizeof bits);
  h = (h ^ bits[0] ^ bits[1] << 1 ^ tried->value.choices ^ tried->value.certain << 7) *
      0x9E3779B97F4A7C15u;
  for (size_t i = 0; i < tried->control_count; i++)
    h = (h ^ (uint64_t)(tried->controls[i] - ts_control_at(s->probe->in.packs, 0))) *
        0x9E3779B97F4A7C15u;
  return (size_t)(h >> 32) % (sizeof s->heads / sizeof *s->heads);
}

static memory *known_try(ts_shifts *s, const ts_try *tried, ts_subject near) {
  for (uint32_t at = s->heads[place_of(s, tried)]; at != 0; at = s->known[at - 1].next) {
    memory *m = &s->known[at - 1];
    if (same_try(&m->tried, tried) && (m->near == TS_NO_SUBJECT || m->near == near)) return m;
  }
  return NULL;
}

static memory *new_memory(ts_shifts *s, const ts_try *tried) {
  uint32_t *head = &s->heads[place_of(s, tried)];
  TS_GROW(s->known, s->count, s->capacity);
  s->known[s->count] = (memory){.tried = *tried, .near = TS_NO_SUBJECT, .next = *head};
  *head = (uint32_t)++s->count;
  return &s->known[s->count - 1];
}

/* Those within `near` first; the others in their order, as many as are looked at. */
static void keep_nearest(const ts_shifts *s, ts_subject near, pair_list *list) {
  uint32_t *kept = ts_alloc(list->count * sizeof *kept);
  size_t count = 0;
  for (int pass = 0; pass < 2; pass++)
    for (size_t i = 0; i < list->count && count < LOOKED_AT; i++) {
      bool within = ts_covers(s->probe->variant, near, s->probe->a->pairs[list->pairs[i]].subject);
      if (within == (pass == 0)) kept[count++] = list->pairs[i];
    }
  free(list->pairs);
  list->pairs = kept;
  list->count = count;
}

static void look_at(ts_shifts *s, const pair_list *list, memory *m) {
  ts_try_begin(s->probe, &m->tried);
  for (size_t i = 0; i < list->count; i++) {
    const ts_tallies *tallies = ts_probe_try(s->probe, list->pairs[i]);
    if (tallies == NULL) continue;
    compare_said(s->probe, list->pairs[i], tallies, m);
    compare_new(s->probe, list->pairs[i], tallies, m);
  }
  ts_try_end(s->probe, &m->tried);
}

/* What the change shifts everywhere; where it touches a whole season, within `near` and in so
 * many other places, so that a task more costs no more than a task. */
static const memory *remember(ts_shifts *s, const ts_try *tried, ts_subject near) {
  memory *m = known_try(s, tried, near);
  if (m != NULL) return m;
  m = new_memory(s, tried);
  pair_list list = {0};
  touched_by(s, tried, &list);
  if (list.count > LOOKED_AT) {
    m->near = near;
    m->not_tried = list.count - LOOKED_AT;
    keep_nearest(s, near, &list);
  }
  look_at(s, &list, m);
  free(list.pairs);
  return m;
}

/* ---- telling ------------------------------------------------------------------------------- */

static bool is_itself(const ts_probe *p, const ts_shift *shift, const ts_finding *finding) {
  if (shift->index == SIZE_MAX) return false;
  const ts_finding *all = shift->word == TS_DUTY ? p->a->duties : p->a->findings;
  return &all[shift->index] == finding;
}

/* Stops, then hazards by how bad they would be, then duties. */
static int weight_of(const ts_shift *shift) {
  int word = shift->word == TS_STOP ? 2 : shift->word == TS_HAZARD ? 1 : 0;
  return word * 100000 + ts_stand_heat(shift->word, shift->then);
}

static void sort_by_weight(ts_shift *shifts, size_t count) {
  for (size_t i = 1; i < count; i++)
    for (size_t k = i; k > 0 && weight_of(&shifts[k]) > weight_of(&shifts[k - 1]); k--) {
      ts_shift swap = shifts[k];
      shifts[k] = shifts[k - 1];
      shifts[k - 1] = swap;
    }
}

/* As many as a way lists, kept. */
static const ts_shift *told(const ts_shifts *s, const ts_shift *all, size_t count, size_t *kept) {
  *kept = count < TOLD ? count : TOLD;
  ts_shift *copy = ts_arena_alloc(s->keep, (*kept + 1) * sizeof *copy);
  if (*kept > 0) memcpy(copy, all, *kept * sizeof *copy);
  return copy;
}

void ts_shifts_of(ts_shifts *s, const ts_try *tried, const ts_finding *finding, ts_way *way) {
  const memory *m = remember(s, tried, ts_control_place(s->probe->variant, finding->subject));
  ts_shift *all = ts_alloc((m->count + 1) * sizeof *all);
  size_t better = 0, worse = m->count; /* from the front, and from the back */
  for (size_t i = 0; i < m->count; i++)
    if (!m->worse[i] && !is_itself(s->probe, &m->all[i], finding)) all[better++] = m->all[i];
  for (size_t i = m->count; i-- > 0;)
    if (m->worse[i] && !is_itself(s->probe, &m->all[i], finding)) all[--worse] = m->all[i];
  sort_by_weight(all + worse, m->count - worse);
  way->better = told(s, all, better, &way->better_count);
  way->worse = told(s, all + worse, m->count - worse, &way->worse_count);
  way->better_more = better - way->better_count;
  way->worse_more = m->count - worse - way->worse_count;
  way->not_tried = m->not_tried;
  free(all);
}
