/* Merging: what the courses of one evaluation mean together becomes findings and duties. */
#ifndef TS_ASSESS_MERGE_H
#define TS_ASSESS_MERGE_H

#include "assess/tally.h"

/* What of one evaluation has been kept in words, for other views that have it: those that find no
 * room are kept again. */
enum { TS_WORDS_KEPT = 8 };
typedef struct {
  size_t course, outcome;
  const ts_spoken *said;
} ts_kept_word;
typedef struct {
  ts_kept_word at[TS_WORDS_KEPT];
  size_t count; /* 0 with a new evaluation */
} ts_kept_words;

/* Merges the evaluator's last evaluation, of `rule` over `subject` in `view`, into the
 * assessment's findings and duties: makes those it says and fills their case for that view.
 * Findings of the same rule and subject that it does not say stay "gone" there. */
void ts_merge(ts_assessment *assessment, size_t rule, ts_subject subject, ts_view view,
              ts_evaluator *evaluator, const ts_evaluation *evaluation, ts_kept_words *kept);

/* After an evaluation of the view failed and what it saw was merged: whatever the view
 * before it holds stays, hazards at the worst the rule declares. A failure never makes milder. */
void ts_merge_failed(ts_assessment *assessment, size_t rule, ts_subject subject, ts_view view);

/* Likelihood and severity of one outcome after the credit of the `lowers`
 * controls it names that are applied over the subject in the view. */
ts_score ts_credited(const ts_assess_inputs *in, ts_subject subject, ts_view view,
                     const ts_outcome *outcome);

/* The steps that one control is credited with, after the limits are shared
 * out in the order in which the outcome names its controls. */
typedef struct {
  int likelihood, severity;
} ts_steps;
ts_steps ts_credit_of(const ts_assess_inputs *in, ts_subject subject, ts_view view,
                      const ts_outcome *outcome, size_t control);

#endif
