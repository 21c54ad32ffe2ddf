/* The fewest controls for a task, found by hitting sets.
 *
 * With some controls tried, each finding still above the line says what could help it: at
 * least one more of the controls that bear on it. A set that has one of every such demand is
 * tried next, smallest first; what is still above adds its demand. The first set that leaves
 * nothing above is a smallest one, as long as no control makes another finding worse. */
#include "assess/remedies.h"
#include "assess/shifts.h"
#include "assess/ways.h"
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { BEARING = 128, DEMANDS = 256, ROUNDS = 400, NODES = 20000 };

/* Controls are numbered by kind, then id; a set of them is a word of bits. */
__extension__ typedef unsigned __int128 control_set;

/* The findings of each task. */
typedef struct {
  size_t *at;
  uint32_t *from; /* by subject; one more at the end */
} by_task;

typedef struct {
  ts_probe *probe;
  ts_touched *touched;
  ts_assessment *a;
  ts_subject task;
  const size_t *findings; /* of the task */
  size_t finding_count;
  const ts_control *controls[BEARING];
  size_t control_count;
  uint32_t *pairs; /* what any of them can touch, and what is above the line now */
  size_t pair_count, pair_capacity;
  bool *taken; /* by pair, while they are gathered; none is before and after */
  control_set demands[DEMANDS];
  size_t demand_count;
  size_t *left; /* findings above the line with the set last tried */
  size_t left_count, left_capacity;
  size_t *beyond; /* findings that stay above with everything there is */
  size_t beyond_count;
  int size;     /* of the smallest set that met all demands so far */
  size_t nodes; /* looked at in the present search */
} healer;

static bool above_now(const ts_assessment *a, const ts_finding *f) {
  return ts_stands_above(a->in.matrix, f->word, ts_stands_now(f));
}

/* ---- what there is to choose from --------------------------------------------------- */

static void add_control(healer *h, const ts_control *control) {
  for (size_t i = 0; i < h->control_count; i++)
    if (h->controls[i] == control) return;
  if (h->control_count < BEARING) h->controls[h->control_count++] = control;
}

static control_set bearing_on(const healer *h, const ts_finding *f) {
  size_t count;
  control_set set = 0;
  const ts_control *const *bearing = ts_bearing_controls(h->probe, f, &count);
  for (size_t i = 0; i < count; i++)
    for (size_t k = 0; k < h->control_count; k++)
      if (h->controls[k] == bearing[i]) set |= (control_set)1 << k;
  return set;
}

static void gather_controls(healer *h) {
  for (size_t i = 0; i < h->finding_count; i++) {
    const ts_finding *f = &h->a->findings[h->findings[i]];
    size_t count;
    if (!above_now(h->a, f)) continue;
    const ts_control *const *bearing = ts_bearing_controls(h->probe, f, &count);
    for (size_t k = 0; k < count; k++) add_control(h, bearing[k]);
  }
  if (h->control_count > 1)
    qsort(h->controls, h->control_count, sizeof h->controls[0], ts_control_order);
}

static void add_pair(healer *h, size_t pair) {
  const ts_subject subject = h->a->pairs[pair].subject;
  if (h->taken[pair] || ts_leads_to(h->a->in.dossier, subject, "task") != h->task) return;
  h->taken[pair] = true;
  TS_GROW(h->pairs, h->pair_count, h->pair_capacity);
  h->pairs[h->pair_count++] = (uint32_t)pair;
}

static void gather_pairs(healer *h) {
  ts_arena *scratch = ts_arena_new();
  for (size_t i = 0; i < h->control_count; i++) {
    size_t count;
    const uint32_t *touched =
        ts_pairs_touched(h->touched, h->controls[i], h->task, scratch, &count);
    for (size_t k = 0; k < count; k++) add_pair(h, touched[k]);
  }
  for (size_t i = 0; i < h->finding_count; i++) {
    const ts_finding *f = &h->a->findings[h->findings[i]];
    size_t pair = ts_pair_of(h->a, f);
    if (pair != SIZE_MAX && above_now(h->a, f)) add_pair(h, pair);
  }
  for (size_t i = 0; i < h->pair_count; i++) h->taken[h->pairs[i]] = false;
  ts_arena_free(scratch);
}

/* ---- trying a set --------------------------------------------------------------------- */

static bool is_beyond(const healer *h, size_t finding) {
  for (size_t i = 0; i < h->beyond_count; i++)
    if (h->beyond[i] == finding) return true;
  return false;
}

static void look_at_pair(healer *h, size_t pair) {
  const ts_tallies *tallies = ts_probe_try(h->probe, pair);
  const ts_probe *p = h->probe;
  for (uint32_t i = p->said_from[pair]; i < p->said_from[pair + 1]; i++) {
    if (p->said[i].duty) continue;
    const ts_finding *f = &h->a->findings[p->said[i].index];
    ts_stand then = tallies ? ts_stands(tallies, f->word, f->about) : ts_stands_now(f);
    if (!ts_stands_above(h->a->in.matrix, f->word, then) || is_beyond(h, p->said[i].index))
      continue;
    TS_GROW(h->left, h->left_count, h->left_capacity);
    h->left[h->left_count++] = p->said[i].index;
  }
}

/* Leaves what stays above the line in `left`. */
static void try_set(healer *h, control_set set) {
  for (size_t i = 0; i < h->control_count; i++)
    if (set >> i & 1) ts_probe_apply(h->probe, h->controls[i], h->task);
  h->left_count = 0;
  for (size_t i = 0; i < h->pair_count; i++) look_at_pair(h, h->pairs[i]);
  ts_probe_take_back(h->probe);
}

/* ---- the smallest set that meets every demand --------------------------------------------- */

/* The first control that meets all demands from `met` on that those chosen do not. */
static bool meet_by_one(const healer *h, control_set chosen, size_t met, control_set *found) {
  control_set common = h->demands[met];
  for (size_t i = met + 1; i < h->demand_count && common; i++)
    if (!(h->demands[i] & chosen)) common &= h->demands[i];
  *found = chosen | (common & -common);
  return common != 0;
}

/* Depth first, at most `more` controls beyond those chosen, which meet the first `met` demands;
 * controls in the order of their kinds. */
static bool meet(healer *h, control_set chosen, size_t met, int more, control_set *found) {
  while (met < h->demand_count && (h->demands[met] & chosen)) met++;
  if (met == h->demand_count) return *found = chosen, true;
  if (more == 0 || h->nodes++ > NODES) return false;
  if (more == 1) return meet_by_one(h, chosen, met, found);
  for (control_set unmet = h->demands[met]; unmet; unmet &= unmet - 1)
    if (meet(h, chosen | (unmet & -unmet), met + 1, more - 1, found)) return true;
  return false;
}

/* Demands are only ever added: what was too small for those before is too small. */
static bool smallest(healer *h, control_set *found) {
  for (; h->size <= (int)h->control_count; h->size++) {
    h->nodes = 0;
    if (meet(h, 0, 0, h->size, found)) return true;
    if (h->nodes > NODES) return false;
  }
  return false;
}

/* What each finding still above asks for beyond the set; false when one can ask for nothing. */
static bool demand(healer *h, control_set set) {
  for (size_t i = 0; i < h->left_count; i++) {
    control_set more = bearing_on(h, &h->a->findings[h->left[i]]) & ~set;
    if (!more) return false;
    bool known = false;
    for (size_t k = 0; k < h->demand_count; k++) known = known || h->demands[k] == more;
    if (!known && h->demand_count < DEMANDS) h->demands[h->demand_count++] = more;
  }
  return true;
}

/* Enough controls to leave nothing above, by trying ever larger sets; false when none is found. */
static bool heal(healer *h, control_set *set) {
  *set = 0;
  for (int round = 0; round < ROUNDS; round++) {
    try_set(h, *set);
    if (h->left_count == 0) return true;
    if (!demand(h, *set) || !smallest(h, set)) return false;
  }
  return false;
}

/* ---- one task -------------------------------------------------------------------------------- */

static void keep(const healer *h, control_set set, ts_remedy *remedy) {
  const ts_control **controls =
      ts_arena_alloc(h->a->arena, (h->control_count + 1) * sizeof *controls);
  for (size_t i = 0; i < h->control_count; i++)
    if (set >> i & 1) controls[remedy->control_count++] = h->controls[i];
  size_t *left = ts_arena_alloc(h->a->arena, (h->beyond_count + 1) * sizeof *left);
  if (h->beyond_count > 0) memcpy(left, h->beyond, h->beyond_count * sizeof *left);
  remedy->controls = controls;
  remedy->left = left;
  remedy->left_count = h->beyond_count;
}

/* What stays above with everything there is has no remedy in the catalogue; the rest is healed. */
static void set_aside(healer *h, control_set all) {
  try_set(h, all);
  h->beyond = ts_alloc((h->left_count + 1) * sizeof *h->beyond);
  if (h->left_count > 0) memcpy(h->beyond, h->left, h->left_count * sizeof *h->beyond);
  h->beyond_count = h->left_count;
}

static void heal_task(healer *h, ts_remedy *remedy) {
  gather_controls(h);
  gather_pairs(h);
  control_set all = h->control_count == BEARING ? ~(control_set)0
                                                : ((control_set)1 << h->control_count) - 1,
              set;
  set_aside(h, all);
  *remedy = (ts_remedy){.task = h->task, .none = h->beyond_count > 0, .fewest = heal(h, &set)};
  keep(h, remedy->fewest ? set : all, remedy);
  free(h->pairs);
  free(h->left);
  free(h->beyond);
}

static by_task group_by_task(const ts_assessment *a, ts_arena *arena) {
  ts_subject subjects = ts_subject_count(a->in.dossier);
  by_task g = {ts_arena_alloc(arena, (a->finding_count + 1) * sizeof *g.at),
               ts_arena_alloc(arena, (subjects + 2) * sizeof *g.from)};
  ts_subject *task = ts_alloc((a->finding_count + 1) * sizeof *task);
  uint32_t *next = ts_alloc((subjects + 1) * sizeof *next);
  for (size_t i = 0; i < a->finding_count; i++) {
    task[i] = ts_leads_to(a->in.dossier, a->findings[i].subject, "task");
    if (task[i] != TS_NO_SUBJECT) g.from[task[i] + 1]++;
  }
  for (ts_subject s = 0; s < subjects; s++) g.from[s + 1] += g.from[s];
  for (size_t i = 0; i < a->finding_count; i++)
    if (task[i] != TS_NO_SUBJECT) g.at[g.from[task[i]] + next[task[i]]++] = i;
  free(next);
  free(task);
  return g;
}

static bool has_above(const healer *h) {
  for (size_t i = 0; i < h->finding_count; i++)
    if (above_now(h->a, &h->a->findings[h->findings[i]])) return true;
  return false;
}

enum { HEALED = 32 }; /* tasks in a round */

typedef struct {
  by_task tasks;
  const ts_subject *todo; /* tasks with something above the line */
  ts_remedy *remedies;    /* one for each; no task where the tries were spent */
} healing;

static healer healer_for(const healing *all, ts_assessment *a, ts_subject task) {
  healer h = {.a = a, .task = task};
  h.findings = all->tasks.at + all->tasks.from[task];
  h.finding_count = all->tasks.from[task + 1] - all->tasks.from[task];
  return h;
}

static void heal_one(ts_worker *w, void *context, size_t number) {
  const healing *all = context;
  healer h = healer_for(all, &w->a, all->todo[number]);
  h.probe = w->probe;
  h.touched = ts_worker_touched(w);
  if (w->marks == NULL) w->marks = ts_alloc((w->a.pair_count + 1) * sizeof *w->marks);
  h.taken = w->marks;
  all->remedies[number].task = TS_NO_SUBJECT;
  if (!ts_probe_is_spent(w->probe)) heal_task(&h, &all->remedies[number]);
}

void ts_remedies(ts_crew *crew) {
  ts_assessment *a = crew->a;
  ts_arena *scratch = ts_arena_new();
  ts_subject subjects = ts_subject_count(a->in.dossier);
  ts_subject *todo = ts_arena_alloc(scratch, (subjects + 1) * sizeof *todo);
  ts_remedy *made = ts_arena_alloc(a->arena, (subjects + 1) * sizeof *made);
  healing all = {group_by_task(a, scratch), todo, made};
  size_t count = 0;
  for (ts_subject s = 0; s < subjects; s++) {
    healer h = healer_for(&all, a, s);
    if (has_above(&h)) todo[count++] = s;
  }
  ts_crew_try(crew, count, HEALED, heal_one, &all);
  for (size_t i = 0; i < count; i++)
    if (made[i].task != TS_NO_SUBJECT) made[a->remedy_count++] = made[i];
  a->remedies = made;
  ts_arena_free(scratch);
}
