#include "assess/shifts.h"
#include "assess/ways.h"
#include "base/sort.h"
#include "base/text.h"
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { LOOKED_AT = 128 }; /* pairs that one change is tried on, where it touches more of them */

typedef struct {
  uint32_t *pairs;
  size_t count, capacity;
} pair_list;

/* All that one change shifts, whoever asks. */
typedef struct memory {
  ts_try tried;
  pair_list pairs; /* where it will be tried, while it waits */
  ts_subject near; /* where it was looked at first; TS_NO_SUBJECT: everywhere */
  ts_elsewhere does;
  struct memory *next; /* made at the same place */
} memory;

struct ts_shifts {
  ts_probe *probe;
  ts_touched *touched;
  ts_assessment *a;
  /* What is known of what was tried everywhere, by the slot moved or by where controls stand; and
   * of what was tried near something, by that. */
  memory **of_slot, **of_scope, **of_near;
  size_t capacity;
  memory **waiting;
  size_t waiting_count, waiting_capacity;
};

ts_shifts *ts_shifts_new(ts_probe *probe, ts_touched *touched, ts_assessment *a) {
  ts_shifts *s = ts_alloc(sizeof *s);
  size_t slots = ts_slot_count(a->in.dossier), subjects = ts_subject_count(a->in.dossier);
  memory **places = ts_alloc((slots + 2 * subjects + 1) * sizeof *places);
  for (size_t i = 0; i <= slots + 2 * subjects; i++) places[i] = NULL;
  *s = (ts_shifts){.probe = probe, .touched = touched, .a = a};
  s->of_slot = places;
  s->of_scope = places + slots;
  s->of_near = s->of_scope + subjects;
  return s;
}

void ts_shifts_free(ts_shifts *s) {
  if (s == NULL) return;
  free(s->of_slot);
  free(s->waiting);
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

static void add_pair(pair_list *list, uint32_t pair) {
  TS_GROW(list->pairs, list->count, list->capacity);
  list->pairs[list->count++] = pair;
}

/* Derived facts are read with what they are made of, so the pairs that read them are here already.
 */
static pair_list touched_by_slot(const ts_probe *p, uint32_t slot) {
  return (pair_list){.pairs = p->pairs_of + p->pairs_from[slot],
                     .count = p->pairs_from[slot + 1] - p->pairs_from[slot]};
}

static pair_list touched_by_controls(const ts_shifts *s, const ts_try *tried, ts_arena *scratch) {
  pair_list list = {0};
  for (size_t i = 0; i < tried->control_count; i++) {
    size_t count;
    const uint32_t *pairs =
        ts_pairs_touched(s->touched, tried->controls[i], tried->scope, scratch, &count);
    for (size_t k = 0; k < count; k++) add_pair(&list, pairs[k]);
  }
  if (list.count > 0) list.count = ts_sort_once_each(list.pairs, list.count);
  uint32_t *kept = ts_arena_keep(scratch, list.pairs, list.count * sizeof *kept);
  free(list.pairs);
  return (pair_list){.pairs = kept, .count = list.count};
}

/* ---- what it does there ---------------------------------------------------------------- */

typedef struct {
  ts_shift *at;
  size_t count, capacity;
} shift_list;

typedef struct {
  shift_list better, worse;
} both;

static void add_shift(shift_list *list, const ts_pair *pair, uint32_t index, ts_word word,
                      ts_stand then) {
  TS_GROW(list->at, list->count, list->capacity);
  list->at[list->count++] = (ts_shift){index, pair->rule, pair->subject, word, then};
}

/* Findings that stand somewhere now. */
static void compare_said(const ts_probe *p, size_t pair, const ts_tallies *tallies, both *lists) {
  for (uint32_t i = p->said_from[pair]; i < p->said_from[pair + 1]; i++) {
    const ts_said_at *at = &p->said[i];
    const ts_finding *f = at->duty ? &p->a->duties[at->index] : &p->a->findings[at->index];
    ts_stand then = ts_stands(tallies, f->word, f->about);
    int before = ts_stand_heat(f->word, ts_stands_now(f)), after = ts_stand_heat(f->word, then);
    if (f->word != TS_REMARK && before != after)
      add_shift(after > before ? &lists->worse : &lists->better, &p->a->pairs[pair], at->index,
                f->word, then);
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
static void compare_new(const ts_probe *p, size_t pair, const ts_tallies *tallies, both *lists) {
  for (size_t i = 0; i < tallies->count; i++) {
    const ts_tally *tally = &tallies->at[i];
    if (tally->word == TS_REMARK || said_before(p, pair, tally)) continue;
    ts_stand then = {tally->standing.worst, tally->standing.certainty, tally->duty};
    if (ts_stand_heat(tally->word, then) > 0)
      add_shift(&lists->worse, &p->a->pairs[pair], TS_NEW, tally->word, then);
  }
}

/* Stops, then hazards by how bad they would be, then duties. */
static int weight_of(const ts_shift *shift) {
  int word = shift->word == TS_STOP ? 2 : shift->word == TS_HAZARD ? 1 : 0;
  return word * 100000 + ts_stand_heat(shift->word, shift->then);
}

typedef struct {
  ts_shift shift;
  size_t place;
} placed;

static int heaviest_first(const void *left, const void *right) {
  const placed *a = left, *b = right;
  int wa = weight_of(&a->shift), wb = weight_of(&b->shift);
  return wa != wb ? (wa < wb ? 1 : -1) : (a->place > b->place) - (a->place < b->place);
}

static void sort_by_weight(ts_shift *shifts, size_t count) {
  placed *all = ts_alloc((count + 1) * sizeof *all);
  for (size_t i = 0; i < count; i++) all[i] = (placed){shifts[i], i};
  if (count > 1) qsort(all, count, sizeof *all, heaviest_first);
  for (size_t i = 0; i < count; i++) shifts[i] = all[i].shift;
  free(all);
}

static const ts_shift *kept(ts_arena *arena, shift_list *list, size_t *count) {
  ts_shift *copy = ts_arena_alloc(arena, (list->count + 1) * sizeof *copy);
  if (list->count > 0) memcpy(copy, list->at, list->count * sizeof *copy);
  *count = list->count;
  free(list->at);
  return copy;
}

/* Of all pairs that it touches those over subjects that `near` covers, then the others in their
 * order, as many as are looked at. */
static void keep_nearest(const ts_shifts *s, ts_subject near, pair_list all, pair_list *kept) {
  kept->count = ts_pairs_within(s->touched, near, all.pairs, all.count, kept->pairs, LOOKED_AT);
  for (size_t i = 0; i < all.count && kept->count < LOOKED_AT; i++)
    if (!ts_covers(s->a->in.dossier, near, s->a->pairs[all.pairs[i]].subject))
      kept->pairs[kept->count++] = all.pairs[i];
}

/* Where the change is tried: everywhere that it touches; where that is a whole season, within
 * `near` and in so many other places, so that a task more costs no more than a task. */
static void choose_places(const ts_shifts *s, memory *m, ts_subject near) {
  ts_arena *scratch = ts_arena_new();
  bool moves = m->tried.slot != TS_NO_SLOT, wide;
  pair_list all =
      moves ? touched_by_slot(s->probe, m->tried.slot) : touched_by_controls(s, &m->tried, scratch);
  wide = all.count > LOOKED_AT;
  m->near = wide ? near : TS_NO_SUBJECT;
  m->does.not_tried = wide ? all.count - LOOKED_AT : 0;
  m->pairs.pairs = ts_alloc(LOOKED_AT * sizeof *m->pairs.pairs);
  m->pairs.count = all.count;
  if (wide)
    keep_nearest(s, near, all, &m->pairs);
  else if (all.count > 0)
    memcpy(m->pairs.pairs, all.pairs, all.count * sizeof *all.pairs);
  ts_arena_free(scratch);
}

static void try_it(memory *m, ts_probe *probe, ts_arena *arena) {
  both lists = {0};
  ts_try_begin(probe, &m->tried);
  for (size_t i = 0; i < m->pairs.count; i++) {
    const ts_tallies *tallies = ts_probe_try(probe, m->pairs.pairs[i]);
    if (tallies == NULL) continue;
    compare_said(probe, m->pairs.pairs[i], tallies, &lists);
    compare_new(probe, m->pairs.pairs[i], tallies, &lists);
  }
  ts_try_end(probe, &m->tried);
  sort_by_weight(lists.worse.at, lists.worse.count);
  m->does.better = kept(arena, &lists.better, &m->does.better_count);
  m->does.worse = kept(arena, &lists.worse, &m->does.worse_count);
}

static void list_it(ts_shifts *s, ts_elsewhere *does) {
  ts_assessment *a = s->a;
  if (a->elsewhere_count == s->capacity) {
    size_t more = s->capacity ? 2 * s->capacity : 64;
    const ts_elsewhere **larger = ts_arena_alloc(a->arena, more * sizeof *larger);
    if (s->capacity > 0) memcpy(larger, a->elsewhere, s->capacity * sizeof *larger);
    a->elsewhere = larger;
    s->capacity = more;
  }
  a->elsewhere[a->elsewhere_count++] = does;
  does->number = a->elsewhere_count;
}

static memory *known(memory *first, const ts_try *tried) {
  while (first != NULL && !same_try(&first->tried, tried)) first = first->next;
  return first;
}

static void remember(ts_shifts *s, memory *m, memory **place) {
  if (m->near != TS_NO_SUBJECT) place = &s->of_near[m->near];
  m->next = *place;
  *place = m;
  TS_GROW(s->waiting, s->waiting_count, s->waiting_capacity);
  s->waiting[s->waiting_count++] = m;
}

const ts_elsewhere *ts_shifts_of(ts_shifts *s, const ts_try *tried, const ts_finding *finding) {
  bool moves = tried->slot != TS_NO_SLOT;
  ts_subject near = ts_control_place(s->a->in.dossier, finding->subject);
  memory **place = moves ? &s->of_slot[tried->slot] : &s->of_scope[tried->scope];
  memory *m = known(*place, tried);
  if (m == NULL) m = known(s->of_near[near], tried);
  if (m != NULL) return &m->does;
  m = ts_arena_alloc(s->a->arena, sizeof *m);
  m->tried = *tried;
  choose_places(s, m, near);
  m->does.from = moves ? ts_slot_subject(s->a->in.dossier, tried->slot) : tried->scope;
  list_it(s, &m->does);
  remember(s, m, place);
  return &m->does;
}

/* ---- those that wait ----------------------------------------------------------------- */

size_t ts_shifts_waiting(const ts_shifts *s) { return s->waiting_count; }

void ts_shifts_look(ts_shifts *s, ts_probe *probe, ts_arena *arena, size_t number) {
  memory *m = s->waiting[number];
  try_it(m, probe, arena);
  free(m->pairs.pairs);
  m->pairs = (pair_list){0};
}

void ts_shifts_looked(ts_shifts *s) { s->waiting_count = 0; }
