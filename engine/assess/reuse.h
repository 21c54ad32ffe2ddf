/* What of an earlier assessment still stands, when only values of facts changed since.
 *
 * What a rule says over a subject, in all three views, depends on
 *
 *   - the facts it reads on any course of any view, derived ones and what those are made of
 *     included, and how each is known (assumed or not);
 *   - structure: who and what there is, what refers to what, what it is called, the dates;
 *   - the controls the dossier applies: what they change, whom they cover, what they are credited
 *     with;
 *   - the rule and its limits, the matrix, the units of the dossier.
 *
 * Only the first may have changed where an earlier assessment is given: of all else that differs,
 * nothing is taken over. So the index that is kept with an assessment (`asked`) has for each rule
 * over each subject the slots it read in any view. A rule none of whose slots changed, by itself
 * or by what it is made of, runs the same course by course: at each step it asks what it asked
 * before and is answered the same. Its findings, duties, reads, and how it was looked at are
 * copied. All others run again, and those that failed. What is made of all of them together
 * (waivers, order, numbers, counts, open facts, what would change a finding) is made anew.
 *
 * Suite `reuse` holds the bytes of both ways against each other. */
#ifndef TS_ASSESS_REUSE_H
#define TS_ASSESS_REUSE_H

#include "assess/assessment.h"

/* ---- keeping ------------------------------------------------------------------- */

/* What one rule over one subject reads while it is asked. */
typedef struct {
  bool *rests; /* by slot: an outcome rests on it */
  uint32_t *reads;
  size_t count, capacity;
} ts_ear;

ts_ear ts_ear_new(const ts_dossier *dossier);
void ts_ear_free(ts_ear *ear);
/* One more evaluation of the same rule and subject. */
void ts_ear_hear(ts_ear *ear, const ts_evaluation *evaluation);
/* Keeps what was heard since the last, in the assessment. */
void ts_ear_keep(ts_ear *ear, ts_assessment *assessment, ts_asked asked);

/* ---- taking over --------------------------------------------------------------- */

typedef struct ts_reuse ts_reuse;

/* NULL where there is no earlier assessment, or nothing can be taken from it. */
ts_reuse *ts_reuse_new(const ts_assess_inputs *inputs);
void ts_reuse_free(ts_reuse *reuse);

/* How the rule was asked over the subject, where it would say the same again; else NULL. */
const ts_asked *ts_reuse_find(const ts_reuse *reuse, size_t rule, ts_subject subject);
/* Copies what it said, read and rested on. */
void ts_reuse_take(const ts_reuse *reuse, const ts_asked *asked, ts_assessment *into);

#endif
