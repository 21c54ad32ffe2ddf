#include "assess/crew.h"
#include "assess/scope.h"
#include "base/share.h"
#include <stdlib.h>

enum { ENOUGH = 50 }; /* subjects that can be worth one more worker, which loads all rules again */

/* ---- who there is ---------------------------------------------------------------- */

static size_t worth_having(const ts_assess_inputs *in) {
  size_t most = 1 + ts_subject_count(in->dossier) / ENOUGH, wanted = in->workers;
  if (wanted > most) wanted = most;
  if (wanted > TS_WORKERS_MAX) wanted = TS_WORKERS_MAX;
  return wanted > 0 ? wanted : 1;
}

/* An empty part of the assessment. */
static ts_assessment part_of(const ts_assessment *a) {
  ts_assessment part = {.arena = ts_arena_new(), .in = a->in, .labels = a->labels};
  size_t rules = ts_rule_count(a->in.packs) + 1, slots = ts_slot_count(a->in.dossier) + 1;
  part.pool = ts_pool_new(part.arena);
  part.looks = ts_arena_alloc(part.arena, rules * sizeof *part.looks);
  part.read = ts_arena_alloc(part.arena, slots * sizeof *part.read);
  return part;
}

ts_crew *ts_crew_new(ts_assessment *assessment) {
  ts_crew *crew = ts_alloc(sizeof *crew);
  crew->a = assessment;
  crew->count = worth_having(&assessment->in);
  crew->workers = ts_alloc(crew->count * sizeof *crew->workers);
  for (size_t i = 0; i < crew->count; i++) crew->workers[i].a = part_of(assessment);
  return crew;
}

void ts_crew_free(ts_crew *crew) {
  for (size_t i = crew->count; i-- > 0;) ts_probe_free(crew->workers[i].probe);
  for (size_t i = 0; i < crew->count; i++) {
    ts_worker *w = &crew->workers[i];
    ts_touched_free(w->touched);
    free(w->marks);
    ts_evaluator_free(w->evaluator);
    ts_pool_free(w->a.pool);
    ts_arena_take_over(crew->a->arena, w->a.arena);
  }
  free(crew->workers);
  free(crew);
}

/* ---- making findings ---------------------------------------------------------------- */

typedef struct {
  ts_crew *crew;
  ts_job *job;
  void *context;
} order;

static void tell(const ts_crew *crew, size_t done, size_t count) {
  const ts_assess_inputs *in = &crew->a->in;
  if (in->progress == NULL) return;
  in->progress(in->context, crew->from + (crew->to - crew->from) * (double)done / (double)count);
}

/* Its evaluator is made on the worker's own thread: that loads every rule. */
static void find_one(void *context, size_t worker, size_t number) {
  const order *o = context;
  ts_worker *w = &o->crew->workers[worker];
  if (w->evaluator == NULL) {
    w->evaluator = ts_evaluator_new(w->a.in.packs, w->a.in.dossier);
    w->laid = ts_laid_of(&w->a.in);
    ts_evaluator_record(w->evaluator);
    if (w->a.in.for_next) w->ear = ts_ear_new(w->a.in.dossier);
  }
  if (worker == 0) tell(o->crew, number, ts_subject_count(w->a.in.dossier));
  o->job(w, o->context, number);
}

void ts_crew_find(ts_crew *crew, ts_job *job, void *context) {
  order o = {crew, job, context};
  ts_share_out(crew->count, 0, ts_subject_count(crew->a->in.dossier), find_one, &o);
}

void ts_crew_found(ts_crew *crew) {
  for (size_t i = 0; i < crew->count; i++) {
    ts_worker *w = &crew->workers[i];
    if (w->evaluator != NULL) ts_evaluator_lay(w->evaluator, NULL, 0);
    ts_laid_free(w->laid);
    w->laid = NULL;
    ts_ear_free(&w->ear);
    free(w->a.findings);
    free(w->a.duties);
    free(w->a.pairs);
    free(w->a.failures);
    free(w->a.asked);
    ts_arena *own = w->a.arena;
    ts_pool_free(w->a.pool); /* it is large, and what is said later is something else */
    w->a = *crew->a;
    w->a.arena = own;
    w->a.pool = ts_pool_new(own);
  }
}

/* ---- trying -------------------------------------------------------------------------- */

/* The first one's is made before the others', which share what it has worked out. */
static ts_probe *probe_of(const ts_crew *crew, ts_worker *w) {
  const ts_probe *first = w == crew->workers ? NULL : crew->workers[0].probe;
  if (w->probe == NULL) w->probe = ts_probe_new(&w->a, w->evaluator, first);
  return w->probe;
}

static void try_one(void *context, size_t worker, size_t number) {
  const order *o = context;
  ts_worker *w = &o->crew->workers[worker];
  ts_probe *probe = probe_of(o->crew, w);
  probe->spent = o->crew->spent;
  o->job(w, o->context, number);
  w->spent += probe->spent - o->crew->spent;
}

static void add_up(ts_crew *crew) {
  for (size_t i = 0; i < crew->count; i++) {
    crew->spent += crew->workers[i].spent;
    crew->workers[i].spent = 0;
  }
}

/* At the end of a round whoever is done waits for the others: a long one is a smaller loss, and
 * more is spent before it is known. */
enum { LONGEST = 1024, CHEAP = 100000 /* courses */ };

size_t ts_crew_longer(const ts_crew *crew, size_t round, size_t spent) {
  return crew->spent - spent < CHEAP && round < LONGEST ? 2 * round : round;
}

void ts_crew_try(ts_crew *crew, size_t count, size_t round, ts_job *job, void *context) {
  order o = {crew, job, context};
  if (count > 0) (void)ts_crew_probe(crew);
  for (size_t from = 0, end; from < count; from = end) {
    size_t spent = crew->spent;
    end = count - from > round ? from + round : count;
    ts_share_out(crew->count, from, end, try_one, &o);
    add_up(crew);
    tell(crew, end, count);
    round = ts_crew_longer(crew, round, spent);
  }
}

ts_probe *ts_crew_probe(ts_crew *crew) { return probe_of(crew, &crew->workers[0]); }

ts_touched *ts_worker_touched(ts_worker *worker) {
  if (worker->touched == NULL) worker->touched = ts_touched_new(worker->probe);
  return worker->touched;
}
