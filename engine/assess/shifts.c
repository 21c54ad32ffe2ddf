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

typedef struct far far;

/* One that waits, and for what it is a way down. */
typedef struct {
  memory *memory;
  ts_subject near;
  bool wide;
  const far *far; /* where it is wide */
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
  far *fars; /* of those that wait */
  size_t far_count;
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

static pair_list touched_by(const ts_probe *probe, ts_touched *touched, const ts_try *tried,
                            ts_arena *scratch) {
  bool moves = tried->slot != TS_NO_SLOT;
  return moves ? touched_by_slot(probe, tried->slot) : touched_by_controls(touched, tried, scratch);
}

static void try_at(ts_probe *probe, size_t pair, both *lists) {
  const ts_tallies *tallies = ts_probe_try(probe, pair);
  if (tallies == NULL) return;
  compare_said(probe, pair, tallies, lists);
  compare_new(probe, pair, tallies, lists);
}

static void try_on(ts_probe *probe, const ts_try *tried, pair_list pairs, both *lists) {
  ts_try_begin(probe, tried);
  for (size_t i = 0; i < pairs.count; i++) try_at(probe, pairs.pairs[i], lists);
  ts_try_end(probe, tried);
}

/* ---- what it does in a whole season ---------------------------------------------------- */

/* What a change does at the first pairs that it touches, where those are too many: for all in a
 * round that try it near something. */
struct far {
  const ts_elsewhere *change;
  both lists;
  uint32_t better_to[LOOKED_AT], worse_to[LOOKED_AT]; /* by pair: where in the lists its own end */
};

static void look_far(far *f, ts_probe *probe) {
  ts_try tried = try_of(f->change);
  pair_list all = touched_by_slot(probe, tried.slot);
  ts_try_begin(probe, &tried);
  for (size_t i = 0; i < LOOKED_AT; i++) {
    try_at(probe, all.pairs[i], &f->lists);
    f->better_to[i] = (uint32_t)f->lists.better.count;
    f->worse_to[i] = (uint32_t)f->lists.worse.count;
  }
  ts_try_end(probe, &tried);
}

static void add_part(shift_list *to, const shift_list *from, const uint32_t *ends, size_t pair) {
  for (size_t i = pair > 0 ? ends[pair - 1] : 0; i < ends[pair]; i++) {
    TS_GROW(to->at, to->count, to->capacity);
    to->at[to->count++] = from->at[i];
  }
}

/* Those that `near` covers are there already, so the first so many are always enough. */
static void add_far(const ts_probe *probe, const far *f, ts_subject near, size_t room,
                    both *lists) {
  const ts_assessment *a = probe->a;
  pair_list all = touched_by_slot(probe, f->change->slot);
  for (size_t i = 0; i < LOOKED_AT && room > 0; i++) {
    if (ts_covers(a->in.dossier, near, a->pairs[all.pairs[i]].subject)) continue;
    add_part(&lists->better, &f->lists.better, f->better_to, i);
    add_part(&lists->worse, &f->lists.worse, f->worse_to, i);
    room--;
  }
}

/* Of all pairs that it touches those over subjects that `near` covers, then the others in their
 * order, as many as are looked at: so that a task more costs no more than a task. */
static void try_near(const waiting *it, ts_probe *probe, ts_touched *touched, pair_list all,
                     both *lists) {
  uint32_t near[LOOKED_AT];
  ts_try tried = try_of(&it->memory->does);
  size_t count = ts_pairs_within(touched, it->near, all.pairs, all.count, near, LOOKED_AT);
  try_on(probe, &tried, (pair_list){.pairs = near, .count = count}, lists);
  if (it->far != NULL) {
    add_far(probe, it->far, it->near, LOOKED_AT - count, lists);
    return;
  }
  const ts_assessment *a = probe->a;
  uint32_t rest[LOOKED_AT];
  pair_list others = {.pairs = rest};
  for (size_t i = 0; i < all.count && count + others.count < LOOKED_AT; i++)
    if (!ts_covers(a->in.dossier, it->near, a->pairs[all.pairs[i]].subject))
      rest[others.count++] = all.pairs[i];
  try_on(probe, &tried, others, lists);
}

/* ---- listing -------------------------------------------------------------------------- */

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

static void remember(ts_shifts *s, memory *m, ts_subject near, bool wide) {
  memory **place = wide ? &s->of_near[near] : &s->of_place[m->does.from];
  m->next = *place;
  *place = m;
  TS_GROW(s->waiting, s->waiting_count, s->waiting_capacity);
  s->waiting[s->waiting_count++] = (waiting){.memory = m, .near = near, .wide = wide};
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
  remember(s, m, near, is_wide(s, tried));
  return &m->does;
}

/* ---- those that wait ----------------------------------------------------------------- */

size_t ts_shifts_waiting(const ts_shifts *s) { return s->waiting_count; }

static int by_numbers(ts_range a, ts_range b) {
  if (a.lo != b.lo) return a.lo < b.lo ? -1 : 1;
  return (a.hi > b.hi) - (a.hi < b.hi);
}

/* The wide ones first, those of one change together. */
static int by_change(const void *left, const void *right) {
  const waiting *x = *(waiting *const *)left, *y = *(waiting *const *)right;
  if (x->wide != y->wide) return x->wide ? -1 : 1;
  if (!x->wide) return 0;
  const ts_elsewhere *a = &x->memory->does, *b = &y->memory->does;
  if (a->slot != b->slot) return a->slot < b->slot ? -1 : 1;
  if (a->value->choices != b->value->choices) return a->value->choices < b->value->choices ? -1 : 1;
  if (a->value->certain != b->value->certain) return a->value->certain < b->value->certain ? -1 : 1;
  return by_numbers(a->value->range, b->value->range);
}

size_t ts_shifts_far(ts_shifts *s) {
  waiting **all = ts_alloc((s->waiting_count + 1) * sizeof(waiting *));
  for (size_t i = 0; i < s->waiting_count; i++) all[i] = &s->waiting[i];
  if (s->waiting_count > 0) qsort(all, s->waiting_count, sizeof *all, by_change);
  s->fars = ts_alloc((s->waiting_count + 1) * sizeof *s->fars);
  for (size_t i = 0; i < s->waiting_count && all[i]->wide; i++) {
    if (i == 0 || by_change(&all[i - 1], &all[i]) != 0)
      s->fars[s->far_count++] = (far){.change = &all[i]->memory->does};
    all[i]->far = &s->fars[s->far_count - 1];
  }
  free(all);
  return s->far_count;
}

void ts_shifts_look_far(const ts_shifts *s, ts_probe *probe, size_t number) {
  look_far(&s->fars[number], probe);
}

void ts_shifts_look(const ts_shifts *s, ts_probe *probe, ts_touched *touched, ts_arena *arena,
                    size_t number) {
  const waiting *it = &s->waiting[number];
  ts_elsewhere *does = &it->memory->does;
  ts_arena *scratch = ts_arena_new();
  ts_try tried = try_of(does);
  pair_list all = touched_by(probe, touched, &tried, scratch);
  both lists = {0};
  does->not_tried = (uint32_t)(all.count > LOOKED_AT ? all.count - LOOKED_AT : 0);
  if (does->not_tried > 0)
    try_near(it, probe, touched, all, &lists);
  else
    try_on(probe, &tried, all, &lists);
  sort_by_weight(lists.worse.at, lists.worse.count);
  keep(does, arena, &lists);
  ts_arena_free(scratch);
}

void ts_shifts_looked(ts_shifts *s) {
  for (size_t i = 0; i < s->far_count; i++) {
    free(s->fars[i].lists.better.at);
    free(s->fars[i].lists.worse.at);
  }
  free(s->fars);
  s->fars = NULL;
  s->far_count = s->waiting_count = 0;
}
