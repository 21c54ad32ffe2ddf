/* The crew: workers that share out the work of one assessment.
 *
 * Each has an evaluator of its own (a Lua state belongs to one thread), a dossier to try things on
 * and an arena for what it finds. The world, the packs and the matrix are shared: nothing writes
 * to them while the crew works. What comes out depends neither on how many workers there are nor
 * on who did what. */
#ifndef TS_ASSESS_CREW_H
#define TS_ASSESS_CREW_H

#include "assess/reuse.h"
#include "assess/touched.h"

typedef struct {
  ts_assessment a; /* as it sees it: lists of its own while findings are made, then those of the
                      whole; what it finds always goes into an arena of its own */
  ts_evaluator *evaluator;
  ts_laid *laid;       /* while findings are made */
  ts_ear ear;          /* the same, where another assessment comes after */
  ts_probe *probe;     /* afterwards */
  ts_touched *touched; /* once asked for */
  bool *marks;         /* by pair, once asked for: none is set between two jobs */
  size_t spent;        /* courses it ran in this round */
} ts_worker;

typedef struct {
  ts_assessment *a; /* the whole */
  size_t count;
  ts_worker *workers;
  size_t spent;    /* courses run in the rounds that are over */
  double from, to; /* which part of the whole the present work is, for the progress */
} ts_crew;

/* As many workers as the inputs say, fewer where there is little to do. */
ts_crew *ts_crew_new(ts_assessment *assessment);
void ts_crew_free(ts_crew *crew); /* what its workers found lives on in the assessment's arena */

typedef void ts_job(ts_worker *worker, void *context, size_t number);

/* Making findings: one job a subject. Then each worker's lists are dropped, for those of the whole.
 */
void ts_crew_find(ts_crew *crew, ts_job *job, void *context);
void ts_crew_found(ts_crew *crew);

/* Trying things, in rounds of so many jobs. What the rounds before have spent is known as one
 * begins, and a job adds what it spends itself: so the bound on tries holds at the same place with
 * any number of workers. */
void ts_crew_try(ts_crew *crew, size_t count, size_t round, ts_job *job, void *context);
/* How long the next round is after one of so many jobs, before which so much was spent: twice as
 * long, up to a thousand, as long as little is spent in one. The same with any number of workers.
 */
size_t ts_crew_longer(const ts_crew *crew, size_t round, size_t spent);

/* For what is done by one alone. */
ts_probe *ts_crew_probe(ts_crew *crew);
ts_touched *ts_worker_touched(ts_worker *worker);

#endif
