#include "assess/reuse.h"
#include "assess/copy.h"
#include "base/sort.h"
#include <stdlib.h>
#include <string.h>

/* ---- keeping ------------------------------------------------------------------- */

ts_ear ts_ear_new(const ts_dossier *dossier) {
  return (ts_ear){.rests = ts_alloc(ts_slot_count(dossier) + 1)};
}

void ts_ear_free(ts_ear *ear) {
  free(ear->rests);
  free(ear->reads);
}

void ts_ear_hear(ts_ear *ear, const ts_evaluation *evaluation) {
  TS_RESERVE(ear->reads, ear->count + evaluation->read_count + 1, ear->capacity);
  for (size_t i = 0; i < evaluation->read_count; i++)
    ear->reads[ear->count++] = evaluation->reads[i];
  for (size_t c = 0; c < evaluation->course_count; c++)
    for (size_t o = 0; o < evaluation->courses[c].outcome_count; o++) {
      const ts_outcome *outcome = &evaluation->courses[c].outcomes[o];
      for (size_t i = 0; i < outcome->fact_count; i++) ear->rests[outcome->facts[i]] = true;
    }
}

/* Whatever an outcome rests on was read. */
static void keep_rests(ts_ear *ear, ts_arena *arena, ts_asked *asked) {
  uint32_t *rests = ts_arena_alloc(arena, (asked->read_count + 1) * sizeof *rests);
  for (size_t i = 0; i < asked->read_count; i++) {
    if (!ear->rests[asked->reads[i]]) continue;
    rests[asked->rest_count++] = asked->reads[i];
    ear->rests[asked->reads[i]] = false;
  }
  asked->rests = rests;
}

void ts_ear_keep(ts_ear *ear, ts_assessment *assessment, ts_asked asked) {
  asked.read_count = ts_sort_once_each(ear->reads, ear->count);
  asked.reads = ts_arena_keep(assessment->arena, ear->reads, asked.read_count * sizeof *ear->reads);
  keep_rests(ear, assessment->arena, &asked);
  ear->count = 0;
  TS_GROW(assessment->asked, assessment->asked_count, assessment->asked_capacity);
  assessment->asked[assessment->asked_count++] = asked;
}

/* ---- what is there -------------------------------------------------------------- */

/* Findings or duties by who was asked: those of asked[i] stand in at[from[i]] to at[from[i + 1]].
 */
typedef struct {
  const ts_finding **at;
  uint32_t *from;
} said;

struct ts_reuse {
  const ts_assessment *before;
  ts_arena *arena;
  const bool *changed; /* by slot */
  said findings, duties;
};

static int order(size_t rule, ts_subject subject, size_t other_rule, ts_subject other_subject) {
  if (subject != other_subject) return subject < other_subject ? -1 : 1;
  return (rule > other_rule) - (rule < other_rule);
}

static const ts_asked *asked_of(const ts_assessment *a, size_t rule, ts_subject subject) {
  size_t low = 0, high = a->asked_count;
  while (low < high) {
    size_t middle = (low + high) / 2;
    const ts_asked *it = &a->asked[middle];
    int is = order(it->rule, it->subject, rule, subject);
    if (is == 0) return it;
    if (is < 0)
      low = middle + 1;
    else
      high = middle;
  }
  return NULL;
}

static said index_said(ts_reuse *r, const ts_finding *all, size_t count) {
  const ts_assessment *a = r->before;
  said s = {ts_arena_alloc(r->arena, (count + 1) * sizeof *s.at),
            ts_arena_alloc(r->arena, (a->asked_count + 2) * sizeof *s.from)};
  uint32_t *next = ts_alloc((a->asked_count + 1) * sizeof *next);
  for (size_t i = 0; i < count; i++)
    s.from[asked_of(a, all[i].rule, all[i].subject) - a->asked + 1]++;
  for (size_t i = 0; i < a->asked_count; i++) s.from[i + 1] += s.from[i];
  for (size_t i = 0; i < count; i++) {
    ptrdiff_t by = asked_of(a, all[i].rule, all[i].subject) - a->asked;
    s.at[s.from[by] + next[by]++] = &all[i];
  }
  free(next);
  return s;
}

static bool can_be_used(const ts_assess_inputs *in) {
  const ts_assessment *before = in->before;
  return before != NULL && before->in.for_next && before->in.packs == in->packs &&
         before->in.matrix == in->matrix && before->in.without_words == in->without_words &&
         before->in.wanted == NULL && in->wanted == NULL &&
         ts_dossiers_alike(before->in.dossier, in->dossier);
}

ts_reuse *ts_reuse_new(const ts_assess_inputs *in) {
  if (!can_be_used(in)) return NULL;
  ts_arena *arena = ts_arena_new();
  ts_reuse *r = ts_arena_alloc(arena, sizeof *r);
  *r = (ts_reuse){.before = in->before, .arena = arena};
  r->changed = ts_slots_changed(in->before->in.dossier, in->dossier, arena);
  r->findings = index_said(r, in->before->findings, in->before->finding_count);
  r->duties = index_said(r, in->before->duties, in->before->duty_count);
  return r;
}

void ts_reuse_free(ts_reuse *reuse) {
  if (reuse != NULL) ts_arena_free(reuse->arena);
}

/* ---- what can be taken over -------------------------------------------------------- */

const ts_asked *ts_reuse_find(const ts_reuse *reuse, size_t rule, ts_subject subject) {
  const ts_asked *asked = reuse != NULL ? asked_of(reuse->before, rule, subject) : NULL;
  if (asked == NULL || asked->failed) return NULL;
  for (size_t i = 0; i < asked->read_count; i++)
    if (reuse->changed[asked->reads[i]]) return NULL;
  return asked;
}

static const ts_spoken *spoken_again(ts_pool *pool, const ts_spoken *spoken) {
  if (spoken == NULL) return NULL;
  ts_course course = {.decisions = spoken->decisions,
                      .decision_count = spoken->same->decision_count};
  const ts_outcome outcome = ts_spoken_outcome(spoken);
  return ts_spoken_copy(pool, &course, &outcome);
}

/* Most is said of worst and best and in all views. */
static void say_again(ts_pool *pool, const ts_finding *was, ts_finding *is) {
  const ts_spoken *from[2 * TS_VIEWS], *made[2 * TS_VIEWS] = {NULL};
  size_t count = 0;
  for (size_t v = 0; v < TS_VIEWS; v++) {
    from[count++] = was->view[v].worst;
    from[count++] = was->view[v].best;
  }
  for (size_t i = 0; i < count; i++) {
    size_t first = 0;
    while (from[first] != from[i]) first++;
    made[i] = first < i ? made[first] : spoken_again(pool, from[i]);
  }
  for (size_t v = TS_VIEWS; v-- > 0;) {
    is->view[v].best = made[--count];
    is->view[v].worst = made[--count];
  }
}

/* As it was when it was found: numbers, waivers and what would change it come later. */
static ts_finding found_again(ts_pool *pool, const ts_finding *f) {
  ts_finding again = {.rule = f->rule,
                      .subject = f->subject,
                      .word = f->word,
                      .about = ts_pool_text(pool, f->about)};
  memcpy(again.view, f->view, sizeof again.view);
  say_again(pool, f, &again);
  return again;
}

static void take_pair(const ts_asked *asked, const ts_assessment *from, ts_assessment *into) {
  size_t low = 0, high = from->pair_count;
  while (low < high) {
    size_t middle = (low + high) / 2;
    const ts_pair *it = &from->pairs[middle];
    if (order(it->rule, it->subject, asked->rule, asked->subject) < 0)
      low = middle + 1;
    else
      high = middle;
  }
  ts_pair pair = from->pairs[low]; /* there is one: it did not fail */
  pair.reads = ts_arena_keep(into->arena, pair.reads, pair.read_count * sizeof *pair.reads);
  TS_GROW(into->pairs, into->pair_count, into->pair_capacity);
  into->pairs[into->pair_count++] = pair;
}

/* For the next. */
static void take_asked(const ts_asked *asked, ts_assessment *into) {
  ts_asked again = *asked;
  again.reads = ts_arena_keep(into->arena, asked->reads, asked->read_count * sizeof *asked->reads);
  again.rests = ts_arena_keep(into->arena, asked->rests, asked->rest_count * sizeof *asked->rests);
  again.skip = NULL;
  TS_GROW(into->asked, into->asked_count, into->asked_capacity);
  into->asked[into->asked_count++] = again;
}

void ts_reuse_take(const ts_reuse *r, const ts_asked *asked, ts_assessment *into) {
  size_t by = (size_t)(asked - r->before->asked);
  for (uint32_t i = r->findings.from[by]; i < r->findings.from[by + 1]; i++) {
    TS_GROW(into->findings, into->finding_count, into->finding_capacity);
    into->findings[into->finding_count++] = found_again(into->pool, r->findings.at[i]);
  }
  for (uint32_t i = r->duties.from[by]; i < r->duties.from[by + 1]; i++) {
    TS_GROW(into->duties, into->duty_count, into->duty_capacity);
    into->duties[into->duty_count++] = found_again(into->pool, r->duties.at[i]);
  }
  for (size_t i = 0; i < asked->rest_count; i++) into->read[asked->rests[i]] = true;
  take_pair(asked, r->before, into);
  if (into->in.for_next) take_asked(asked, into);
  into->taken_over++;
}
