#include "assess/shifts.h"
#include "assess/ways.h"
#include "base/sort.h"
#include "base/text.h"
#include <assert.h>
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
  ts_elsewhere does;
  struct memory *next; /* made at the same place */
} memory;

/* One that waits, and for what it is a way down. */
typedef struct {
  memory *memory;
  ts_subject near;
} waiting;

struct ts_shifts {
  const ts_probe *probe;
  ts_assessment *a;
  /* What is known of what was tried everywhere, by where it is made; and of what was tried near
   * something, by that. */
  memory **of_place, **of_near;
  size_t capacity;
  waiting *waiting;
  size_t waiting_count, waiting_capacity;
};

ts_shifts *ts_shifts_new(const ts_probe *probe, ts_assessment *a) {
  ts_shifts *s = ts_alloc(sizeof *s);
  size_t subjects = ts_subject_count(a->in.dossier);
  *s = (ts_shifts){.probe = probe, .a = a};
  s->of_place = ts_alloc((2 * subjects + 1) * sizeof *s->of_place);
  s->of_near = s->of_place + subjects;
  return s;
}

void ts_shifts_free(ts_shifts *s) {
  if (s == NULL) return;
  free(s->of_place);
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

static bool is_of(const ts_elsewhere *does, const ts_try *tried, ts_subject from) {
  if (does->slot != tried->slot || does->from != from) return false;
  if (tried->slot == TS_NO_SLOT)
    return does->controls[0] == tried->controls[0] && does->controls[1] == tried->controls[1];
  const ts_value *a = does->value, *b = &tried->value;
  return a->range.lo == b->range.lo && a->range.hi == b->range.hi && a->choices == b->choices &&
         a->certain == b->certain;
}

static ts_try try_of(const ts_elsewhere *does) {
  ts_try tried = {.slot = does->slot, .scope = does->from};
  if (does->value != NULL) tried.value = *does->value;
  for (size_t i = 0; i < 2 && does->controls[i] != NULL; i++)
    tried.controls[tried.control_count++] = does->controls[i];
  return tried;
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

static pair_list touched_by_controls(ts_touched *touched, const ts_try *tried, ts_arena *scratch) {
  pair_list list = {0};
  for (size_t i = 0; i < tried->control_count; i++) {
    size_t count;
    const uint32_t *pairs =
        ts_pairs_touched(touched, tried->controls[i], tried->scope, scratch, &count);
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

static void add_shift(shift_list *list, uint32_t of, bool fresh, ts_word word, ts_stand then) {
  TS_GROW(list->at, list->count, list->capacity);
  list->at[list->count++] = (ts_shift){.of = of,
                                       .rank = then.rank,
                                       .likelihood = then.likelihood,
                                       .severity = then.severity,
                                       .certainty = then.certainty,
                                       .duty = then.duty,
                                       .word = word,
                                       .fresh = fresh};
}

static_assert(TS_CERTAIN < 4 && TS_NOT_MET < 4 && TS_REMARK < 4, "a shift holds every stand");

static ts_stand stand_then(const ts_shift *shift) {
  return (ts_stand){.rank = shift->rank,
                    .likelihood = shift->likelihood,
                    .severity = shift->severity,
                    .certainty = shift->certainty,
                    .duty = shift->duty};
}

ts_shifted ts_shift_read(const ts_assessment *a, const ts_shift *shift) {
  ts_shifted it = {.word = shift->word, .then = stand_then(shift)};
  if (shift->fresh) {
    it.rule = a->pairs[shift->of].rule;
    it.subject = a->pairs[shift->of].subject;
    return it;
  }
  it.finding = shift->word == TS_DUTY ? &a->duties[shift->of] : &a->findings[shift->of];
  it.rule = it.finding->rule;
  it.subject = it.finding->subject;
  return it;
}

/* Findings that stand somewhere now. */
static void compare_said(const ts_probe *p, size_t pair, const ts_tallies *tallies, both *lists) {
  for (uint32_t i = p->said_from[pair]; i < p->said_from[pair + 1]; i++) {
    const ts_said_at *at = &p->said[i];
    const ts_finding *f = at->duty ? &p->a->duties[at->index] : &p->a->findings[at->index];
    ts_stand then = ts_stands(tallies, f->word, f->about);
    int before = ts_stand_heat(f->word, ts_stands_now(f)), after = ts_stand_heat(f->word, then);
    if (f->word != TS_REMARK && before != after)
      add_shift(after > before ? &lists->worse : &lists->better, at->index, false, f->word, then);
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
    ts_stand then = ts_stand_of(tally->standing.worst, tally->standing.certainty, tally->duty);
    if (ts_stand_heat(tally->word, then) > 0)
      add_shift(&lists->worse, (uint32_t)pair, true, tally->word, then);
  }
}

/* Stops, then hazards by how bad they would be, then duties. */
static int weight_of(const ts_shift *shift) {
  int word = shift->word == TS_STOP ? 2 : shift->word == TS_HAZARD ? 1 : 0;
  return word * 100000 + ts_stand_heat(shift->word, stand_then(shift));
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

static void keep(ts_elsewhere *does, ts_arena *arena, both *lists) {
  size_t better = lists->better.count, worse = lists->worse.count;
  if (better + worse == 0) return;
  ts_shift *all = ts_arena_alloc(arena, (better + worse) * sizeof *all);
  if (better > 0) memcpy(all, lists->better.at, better * sizeof *all);
  if (worse > 0) memcpy(all + better, lists->worse.at, worse * sizeof *all);
  does->shifts = all;
  does->better_count = (uint32_t)better;
  does->worse_count = (uint32_t)worse;
  free(lists->better.at);
  free(lists->worse.at);
}

/* Of all pairs that it touches those over subjects that `near` covers, then the others in their
 * order, as many as are looked at. */
static void keep_nearest(const ts_assessment *a, const ts_touched *touched, ts_subject near,
                         pair_list all, pair_list *kept) {
  kept->count = ts_pairs_within(touched, near, all.pairs, all.count, kept->pairs, LOOKED_AT);
  for (size_t i = 0; i < all.count && kept->count < LOOKED_AT; i++)
    if (!ts_covers(a->in.dossier, near, a->pairs[all.pairs[i]].subject))
      kept->pairs[kept->count++] = all.pairs[i];
}

/* Where the change is tried: everywhere that it touches; where that is a whole season, within
 * `near` and in so many other places, so that a task more costs no more than a task. */
static pair_list choose_places(const ts_probe *probe, ts_touched *touched, ts_elsewhere *does,
                               ts_subject near) {
  ts_arena *scratch = ts_arena_new();
  ts_try tried = try_of(does);
  bool moves = tried.slot != TS_NO_SLOT;
  pair_list all =
      moves ? touched_by_slot(probe, tried.slot) : touched_by_controls(touched, &tried, scratch);
  bool wide = all.count > LOOKED_AT;
  size_t count = wide ? LOOKED_AT : all.count;
  pair_list chosen = {.pairs = ts_alloc(count * sizeof *chosen.pairs), .count = count};
  does->not_tried = (uint32_t)(all.count - count);
  if (wide)
    keep_nearest(probe->a, touched, near, all, &chosen);
  else if (count > 0)
    memcpy(chosen.pairs, all.pairs, count * sizeof *all.pairs);
  ts_arena_free(scratch);
  return chosen;
}

static void try_it(ts_elsewhere *does, pair_list places, ts_probe *probe, ts_arena *arena) {
  both lists = {0};
  ts_try tried = try_of(does);
  ts_try_begin(probe, &tried);
  for (size_t i = 0; i < places.count; i++) {
    const ts_tallies *tallies = ts_probe_try(probe, places.pairs[i]);
    if (tallies == NULL) continue;
    compare_said(probe, places.pairs[i], tallies, &lists);
    compare_new(probe, places.pairs[i], tallies, &lists);
  }
  ts_try_end(probe, &tried);
  sort_by_weight(lists.worse.at, lists.worse.count);
  keep(does, arena, &lists);
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
  does->number = (uint32_t)a->elsewhere_count;
}

static memory *known(memory *first, const ts_try *tried, ts_subject from) {
  while (first != NULL && !is_of(&first->does, tried, from)) first = first->next;
  return first;
}

static void remember(ts_shifts *s, memory *m, memory **place, ts_subject near) {
  m->next = *place;
  *place = m;
  TS_GROW(s->waiting, s->waiting_count, s->waiting_capacity);
  s->waiting[s->waiting_count++] = (waiting){m, near};
}

static memory *memory_new(ts_arena *arena, const ts_try *tried, ts_subject from) {
  memory *m = ts_arena_alloc(arena, sizeof *m);
  m->does.slot = tried->slot;
  m->does.from = from;
  if (tried->slot != TS_NO_SLOT)
    m->does.value = ts_arena_keep(arena, &tried->value, sizeof tried->value);
  for (size_t i = 0; i < tried->control_count; i++) m->does.controls[i] = tried->controls[i];
  return m;
}

/* Whether a change is remembered by what it is tried near. Controls stand at what they are a way
 * down for: that is where they are made, too. */
static bool is_wide(const ts_shifts *s, const ts_try *tried) {
  return tried->slot != TS_NO_SLOT && touched_by_slot(s->probe, tried->slot).count > LOOKED_AT;
}

const ts_elsewhere *ts_shifts_of(ts_shifts *s, const ts_try *tried, const ts_finding *finding) {
  const ts_dossier *dossier = s->a->in.dossier;
  ts_subject near = ts_control_place(dossier, finding->subject), from = tried->scope;
  if (tried->slot != TS_NO_SLOT) from = ts_slot_subject(dossier, tried->slot);
  memory *m = known(s->of_place[from], tried, from);
  if (m == NULL) m = known(s->of_near[near], tried, from);
  if (m != NULL) return &m->does;
  m = memory_new(s->a->arena, tried, from);
  list_it(s, &m->does);
  remember(s, m, is_wide(s, tried) ? &s->of_near[near] : &s->of_place[from], near);
  return &m->does;
}

/* ---- those that wait ----------------------------------------------------------------- */

size_t ts_shifts_waiting(const ts_shifts *s) { return s->waiting_count; }

void ts_shifts_look(const ts_shifts *s, ts_probe *probe, ts_touched *touched, ts_arena *arena,
                    size_t number) {
  const waiting *it = &s->waiting[number];
  ts_elsewhere *does = &it->memory->does;
  pair_list places = choose_places(probe, touched, does, it->near);
  try_it(does, places, probe, arena);
  free(places.pairs);
}

void ts_shifts_looked(ts_shifts *s) { s->waiting_count = 0; }
