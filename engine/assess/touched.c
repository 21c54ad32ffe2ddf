#include "assess/touched.h"
#include "base/sort.h"
#include "base/text.h"
#include <stdlib.h>
#include <string.h>

/* Subjects by subject: those of `s` stand in at[from[s]] to at[from[s + 1]]. */
typedef struct {
  ts_subject *at;
  uint32_t *from;
} groups;

/* The subjects of an entity that lead to no subject of a kind: what they are is shared by all. */
typedef struct {
  const char *entity, *kind;
  ts_subject *at;
  size_t count, capacity;
} shared;

struct ts_touched {
  const ts_probe *probe;
  const ts_dossier *dossier;
  groups covered;      /* by scope: the subjects it covers */
  groups inside;       /* by scope: the subjects that lead to it by its kind */
  uint32_t *pair_from; /* by subject: its first pair; one more at the end */
  shared *shared;
  size_t shared_count, shared_capacity;
  uint32_t *pairs; /* found so far */
  size_t pair_count, pair_capacity;
};

/* ---- who is covered, who is inside ---------------------------------------------------- */

typedef size_t lister(const ts_dossier *dossier, ts_subject subject, ts_subject *list);

/* Those subjects to which this one leads by their own kind: the tasks, days, sites it is of; and
 * always the production. */
static size_t led_to(const ts_dossier *dossier, ts_subject subject, ts_subject *list) {
  const ts_vocabulary *vocabulary = ts_dossier_vocabulary(dossier);
  size_t count = 0;
  list[count++] = 0;
  for (size_t i = 0; i < ts_entity_count(vocabulary) && count < TS_SCOPES_MAX; i++) {
    const ts_entity_def *kind = ts_entity_at(vocabulary, i);
    ts_subject there = ts_leads_to(dossier, subject, kind->name);
    if (there != TS_NO_SUBJECT && there != 0 &&
        ts_same(ts_subject_at(dossier, there)->entity->name, kind->name))
      list[count++] = there;
  }
  return count;
}

static void group(const ts_dossier *dossier, lister *list, groups *g) {
  ts_subject scopes[TS_SCOPES_MAX], subjects = ts_subject_count(dossier);
  g->from = ts_alloc((subjects + 2) * sizeof *g->from);
  for (ts_subject s = 0; s < subjects; s++)
    for (size_t i = list(dossier, s, scopes); i-- > 0;) g->from[scopes[i] + 1]++;
  for (ts_subject s = 0; s < subjects; s++) g->from[s + 1] += g->from[s];
  g->at = ts_alloc((g->from[subjects] + 1) * sizeof *g->at);
  uint32_t *next = ts_alloc((subjects + 1) * sizeof *next);
  for (ts_subject s = 0; s < subjects; s++)
    for (size_t i = list(dossier, s, scopes); i-- > 0;)
      g->at[g->from[scopes[i]] + next[scopes[i]]++] = s;
  free(next);
}

static const ts_subject *group_of(const groups *g, ts_subject scope, size_t *count) {
  *count = g->from[scope + 1] - g->from[scope];
  return g->at + g->from[scope];
}

static void index_pairs(ts_touched *t) {
  const ts_assessment *a = t->probe->a;
  ts_subject subjects = ts_subject_count(t->dossier);
  t->pair_from = ts_alloc((subjects + 2) * sizeof *t->pair_from);
  for (size_t i = 0; i < a->pair_count; i++) t->pair_from[a->pairs[i].subject + 1]++;
  for (ts_subject s = 0; s < subjects; s++) t->pair_from[s + 1] += t->pair_from[s];
}

ts_touched *ts_touched_new(const ts_probe *probe) {
  ts_touched *t = ts_alloc(sizeof *t);
  *t = (ts_touched){.probe = probe, .dossier = probe->a->in.dossier};
  group(t->dossier, ts_scopes_over, &t->covered);
  group(t->dossier, led_to, &t->inside);
  index_pairs(t);
  return t;
}

void ts_touched_free(ts_touched *t) {
  if (t == NULL) return;
  free(t->covered.at);
  free(t->covered.from);
  free(t->inside.at);
  free(t->inside.from);
  free(t->pair_from);
  for (size_t i = 0; i < t->shared_count; i++) free(t->shared[i].at);
  free(t->shared);
  free(t->pairs);
  free(t);
}

/* ---- by its changes -------------------------------------------------------------------- */

static void add_pair(ts_touched *t, uint32_t pair) {
  TS_GROW(t->pairs, t->pair_count, t->pair_capacity);
  t->pairs[t->pair_count++] = pair;
}

/* The slot of the fact on the subject; TS_NO_SLOT where it is of another entity. */
static uint32_t slot_of(const ts_touched *t, ts_subject subject, const ts_fact_def *fact) {
  if (!ts_same(ts_subject_at(t->dossier, subject)->entity->name, fact->entity)) return TS_NO_SLOT;
  return ts_fact_slot(t->dossier, subject, fact);
}

/* A fact of the scope is changed for everybody who reads it. */
static void touch_inside(ts_touched *t, ts_subject scope, const ts_fact_def *fact) {
  size_t count;
  const ts_subject *inside = group_of(&t->inside, scope, &count);
  for (size_t i = 0; i < count; i++) {
    uint32_t slot = slot_of(t, inside[i], fact);
    if (slot == TS_NO_SLOT) continue;
    for (uint32_t k = t->probe->pairs_from[slot]; k < t->probe->pairs_from[slot + 1]; k++)
      add_pair(t, t->probe->pairs_of[k]);
  }
}

static const shared *shared_of(ts_touched *t, const char *entity, const char *kind) {
  for (size_t i = 0; i < t->shared_count; i++)
    if (ts_same(t->shared[i].entity, entity) && ts_same(t->shared[i].kind, kind))
      return &t->shared[i];
  shared made = {.entity = entity, .kind = kind};
  for (ts_subject s = 0; s < ts_subject_count(t->dossier); s++) {
    if (!ts_same(ts_subject_at(t->dossier, s)->entity->name, entity) ||
        ts_leads_to(t->dossier, s, kind) != TS_NO_SUBJECT)
      continue;
    TS_GROW(made.at, made.count, made.capacity);
    made.at[made.count++] = s;
  }
  TS_GROW(t->shared, t->shared_count, t->shared_capacity);
  t->shared[t->shared_count] = made;
  return &t->shared[t->shared_count++];
}

size_t ts_pairs_within(const ts_touched *t, ts_subject scope, const uint32_t *list, size_t length,
                       uint32_t *found, size_t most) {
  size_t count, within = 0;
  const ts_subject *covered = group_of(&t->covered, scope, &count);
  for (size_t i = 0; i < count && within < most; i++) {
    uint32_t last = t->pair_from[covered[i] + 1];
    size_t k = ts_first_from(list, length, t->pair_from[covered[i]]);
    for (; k < length && list[k] < last && within < most; k++) found[within++] = list[k];
  }
  return within;
}

/* A fact shared by all (the water, over a task) is changed for those within the scope. */
static void touch_readers_within(ts_touched *t, ts_subject scope, uint32_t slot) {
  const uint32_t *list = t->probe->pairs_of + t->probe->pairs_from[slot];
  size_t length = t->probe->pairs_from[slot + 1] - t->probe->pairs_from[slot];
  if (length == 0) return; /* there may be no room for any yet */
  TS_RESERVE(t->pairs, t->pair_count + length, t->pair_capacity);
  t->pair_count += ts_pairs_within(t, scope, list, length, t->pairs + t->pair_count, length);
}

static void touch_shared(ts_touched *t, ts_subject scope, const ts_fact_def *fact) {
  const shared *all = shared_of(t, fact->entity, ts_subject_at(t->dossier, scope)->entity->name);
  for (size_t i = 0; i < all->count; i++)
    touch_readers_within(t, scope, ts_fact_slot(t->dossier, all->at[i], fact));
}

/* ---- by its credit ----------------------------------------------------------------------- */

static bool names_control(const ts_spoken *said, const char *id) {
  for (size_t i = 0; said != NULL && i < said->same->control_count; i++)
    if (ts_same(said->same->controls[i], id)) return true;
  return false;
}

static bool is_credited(const ts_probe *p, const ts_said_at *at, const ts_control *control) {
  if (at->duty) return false;
  const ts_case *now = &p->a->findings[at->index].view[TS_IN_PLACE];
  return names_control(now->worst, control->id) || names_control(now->best, control->id);
}

static void touch_credited(ts_touched *t, const ts_control *control, ts_subject scope) {
  const ts_probe *p = t->probe;
  size_t count;
  if (control->lowers_likelihood == 0 && control->lowers_severity == 0) return;
  const ts_subject *covered = group_of(&t->covered, scope, &count);
  for (size_t i = 0; i < count; i++)
    for (uint32_t pair = t->pair_from[covered[i]]; pair < t->pair_from[covered[i] + 1]; pair++)
      for (uint32_t k = p->said_from[pair]; k < p->said_from[pair + 1]; k++)
        if (is_credited(p, &p->said[k], control)) add_pair(t, pair);
}

/* ---- both ---------------------------------------------------------------------------------- */

const uint32_t *ts_pairs_touched(ts_touched *t, const ts_control *control, ts_subject scope,
                                 ts_arena *arena, size_t *count) {
  t->pair_count = 0;
  for (size_t i = 0; i < control->change_count; i++) {
    const ts_fact_def *fact = control->changes[i].def;
    touch_inside(t, scope, fact);
    touch_shared(t, scope, fact);
  }
  touch_credited(t, control, scope);
  *count = ts_sort_once_each(t->pairs, t->pair_count);
  uint32_t *pairs = ts_arena_alloc(arena, (*count + 1) * sizeof *pairs);
  if (*count > 0) memcpy(pairs, t->pairs, *count * sizeof *pairs);
  return pairs;
}
