#include "assess/seen.h"
#include <stdlib.h>
#include <string.h>

/* Courses that are kept; those of further pairs are run each time. A season that is half unknown
 * has more of them than memory. */
enum { KEPT = 20000 };

struct ts_seen {
  ts_probe *probe;
  ts_arena *arena;
  ts_pool *pool;            /* what is said over one subject is said over the next */
  const ts_evaluation **of; /* by pair */
  size_t kept;
  const char **room;
  size_t room_count;
};

ts_seen *ts_seen_new(ts_probe *probe) {
  ts_arena *arena = ts_arena_new();
  ts_seen *seen = ts_arena_alloc(arena, sizeof *seen);
  *seen = (ts_seen){.probe = probe, .arena = arena, .pool = ts_pool_new(arena)};
  seen->of = ts_arena_alloc(arena, (probe->a->pair_count + 1) * sizeof *seen->of);
  return seen;
}

void ts_seen_free(ts_seen *seen) {
  if (seen == NULL) return;
  ts_pool_free(seen->pool);
  free(seen->room);
  ts_arena_free(seen->arena);
}

/* ---- copies ------------------------------------------------------------------- */

static const char *const *controls_of(ts_seen *seen, const ts_outcome *outcome) {
  size_t count = outcome->control_count;
  TS_RESERVE(seen->room, count, seen->room_count);
  for (size_t i = 0; i < count; i++) seen->room[i] = ts_pool_text(seen->pool, outcome->controls[i]);
  return ts_pool_keep(seen->pool, seen->room, count * sizeof *seen->room);
}

static ts_outcome outcome_of(ts_seen *seen, const ts_outcome *o) {
  return (ts_outcome){.word = o->word,
                      .about = ts_pool_text(seen->pool, o->about),
                      .likelihood = o->likelihood,
                      .severity = o->severity,
                      .state = o->state,
                      .controls = controls_of(seen, o),
                      .control_count = o->control_count,
                      .facts =
                          ts_arena_keep(seen->arena, o->facts, o->fact_count * sizeof *o->facts),
                      .fact_count = o->fact_count};
}

static ts_course course_of(ts_seen *seen, const ts_course *c) {
  ts_arena *arena = seen->arena;
  ts_outcome *outcomes = ts_arena_alloc(arena, c->outcome_count * sizeof *outcomes);
  for (size_t i = 0; i < c->outcome_count; i++) outcomes[i] = outcome_of(seen, &c->outcomes[i]);
  return (ts_course){.applies = c->applies,
                     .outcomes = outcomes,
                     .outcome_count = c->outcome_count,
                     .bounds = ts_arena_keep(arena, c->bounds, c->bound_count * sizeof *c->bounds),
                     .bound_count = c->bound_count};
}

static const ts_evaluation *kept(ts_seen *seen, const ts_evaluation *e) {
  ts_course *courses = ts_arena_alloc(seen->arena, e->course_count * sizeof *courses);
  for (size_t i = 0; i < e->course_count; i++) courses[i] = course_of(seen, &e->courses[i]);
  ts_evaluation copy = {
      .courses = courses, .course_count = e->course_count, .unresolved = e->unresolved};
  seen->kept += e->course_count;
  return ts_arena_keep(seen->arena, &copy, sizeof copy);
}

/* ---- one pair -------------------------------------------------------------------- */

const ts_evaluation *ts_seen_of(ts_seen *seen, size_t pair) {
  ts_probe *probe = seen->probe;
  const ts_evaluation *there = seen->of[pair];
  if (there != NULL) {
    probe->spent += there->course_count;
    return there;
  }
  if (ts_probe_try(probe, pair) == NULL) return NULL;
  if (seen->kept + probe->evaluation->course_count > KEPT) return probe->evaluation;
  return seen->of[pair] = kept(seen, probe->evaluation);
}
