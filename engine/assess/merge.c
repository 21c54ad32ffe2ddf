/* Merging courses: tallies get their words and become findings. */
#include "assess/merge.h"
#include "assess/copy.h"
#include "base/sort.h"
#include "base/text.h"
#include <stdlib.h>
#include <string.h>

typedef struct {
  ts_assessment *assessment;
  size_t rule;
  ts_subject subject;
  ts_view view;
  ts_evaluator *evaluator;
  const ts_evaluation *evaluation;
  ts_kept_words *kept;
} merger;

/* ---- findings ------------------------------------------------------------ */

static ts_finding *finding_new(const merger *m, ts_word word, const char *about) {
  ts_assessment *a = m->assessment;
  ts_finding made = {.rule = (uint32_t)m->rule,
                     .subject = m->subject,
                     .word = word,
                     .about = ts_pool_text(a->pool, about)};
  for (int v = 0; v < TS_VIEWS; v++) made.view[v].standing.settled = true;
  if (word == TS_DUTY) {
    TS_GROW(a->duties, a->duty_count, a->duty_capacity);
    a->duties[a->duty_count] = made;
    return &a->duties[a->duty_count++];
  }
  TS_GROW(a->findings, a->finding_count, a->finding_capacity);
  a->findings[a->finding_count] = made;
  return &a->findings[a->finding_count++];
}

/* All views of one rule and subject are merged one after the other, so a finding made
 * in an earlier view is near the end. */
static ts_finding *finding_for(const merger *m, ts_word word, const char *about) {
  ts_assessment *a = m->assessment;
  ts_finding *all = word == TS_DUTY ? a->duties : a->findings;
  for (size_t i = word == TS_DUTY ? a->duty_count : a->finding_count; i-- > 0;) {
    if (all[i].rule != m->rule || all[i].subject != m->subject) break;
    if (all[i].word == word && ts_same(all[i].about, about)) return &all[i];
  }
  return finding_new(m, word, about);
}

/* ---- words ----------------------------------------------------------------- */

/* The course as it was seen, with what its outcome rests on in order, as if it were worded. */
static const ts_spoken *without_words(const merger *m, const ts_side *side) {
  const ts_course *course = &m->evaluation->courses[side->course];
  ts_outcome outcome = course->outcomes[side->outcome];
  uint32_t *facts = ts_alloc(outcome.fact_count * sizeof *facts);
  if (outcome.fact_count > 0) memcpy(facts, outcome.facts, outcome.fact_count * sizeof *facts);
  outcome.fact_count = ts_sort_once_each(facts, outcome.fact_count);
  outcome.facts = facts;
  const ts_spoken *said = ts_spoken_copy(m->assessment->pool, course, &outcome);
  free(facts);
  return said;
}

static const ts_spoken *with_words(const merger *m, const ts_side *side) {
  const ts_course *course = ts_course_worded(m->evaluator, side->course);
  return ts_spoken_copy(m->assessment->pool, course, &course->outcomes[side->outcome]);
}

/* Most views have the courses of the one before. */
static const ts_spoken *words_of(const merger *m, const ts_side *side) {
  ts_kept_words *kept = m->kept;
  for (size_t i = 0; i < kept->count; i++)
    if (kept->at[i].course == side->course && kept->at[i].outcome == side->outcome)
      return kept->at[i].said;
  const ts_spoken *said =
      m->assessment->in.without_words ? without_words(m, side) : with_words(m, side);
  if (kept->count < TS_WORDS_KEPT)
    kept->at[kept->count++] = (ts_kept_word){side->course, side->outcome, said};
  return said;
}

/* What an unresolved rule that said no hazard gets: nothing to hang words on. */
static const ts_spoken *no_words(const merger *m) {
  static const char *const text =
      "too much is not known: not every course of this rule could be seen";
  static const ts_course nothing = {.applies = true};
  ts_outcome words = {.word = TS_HAZARD, .about = "", .because = text, .because_withheld = text};
  return ts_spoken_copy(m->assessment->pool, &nothing, &words);
}

static bool same_place(const ts_side *a, const ts_side *b) {
  return a->course == b->course && a->outcome == b->outcome;
}

static void fill(const merger *m, const ts_tally *tally, ts_case *into) {
  into->standing = tally->standing;
  into->duty = tally->duty;
  if (tally->courses == 0) {
    if (into->worst == NULL) into->worst = no_words(m);
    return;
  }
  into->worst = words_of(m, &tally->worst);
  into->best = same_place(&tally->best, &tally->worst) ? into->worst : words_of(m, &tally->best);
}

static void mark_read(ts_assessment *assessment, const ts_course *course) {
  for (size_t o = 0; o < course->outcome_count; o++)
    for (size_t i = 0; i < course->outcomes[o].fact_count; i++)
      assessment->read[course->outcomes[o].facts[i]] = true;
}

void ts_merge(ts_assessment *assessment, size_t rule, ts_subject subject, ts_view view,
              ts_evaluator *evaluator, const ts_evaluation *evaluation, ts_kept_words *kept) {
  merger m = {assessment, rule, subject, view, evaluator, evaluation, kept};
  ts_tallies all = {0};
  for (size_t i = 0; i < evaluation->course_count; i++)
    mark_read(assessment, &evaluation->courses[i]);
  ts_tally_all(&assessment->in, rule, subject, view, evaluation, &all);
  for (size_t i = 0; i < all.count; i++)
    fill(&m, &all.at[i], &finding_for(&m, all.at[i].word, all.at[i].about)->view[view]);
  free(all.at);
}

static void keep_case(const merger *m, ts_finding *finding) {
  ts_case *into = &finding->view[m->view];
  if (into->worst == NULL && m->view > TS_AS_DESCRIBED) *into = finding->view[m->view - 1];
  if (into->worst == NULL) return;
  into->standing.settled = false;
  into->standing.certainty = TS_POSSIBLE;
  if (finding->word == TS_HAZARD)
    ts_raise_to_declared(&m->assessment->in, m->rule, &into->standing);
  if (finding->word == TS_DUTY && into->duty == TS_MET) into->duty = TS_UNDECIDED;
}

static void keep_cases(const merger *m, ts_finding *all, size_t count) {
  for (size_t i = count; i-- > 0;) {
    if (all[i].rule != m->rule || all[i].subject != m->subject) return;
    keep_case(m, &all[i]);
  }
}

void ts_merge_failed(ts_assessment *assessment, size_t rule, ts_subject subject, ts_view view) {
  merger m = {.assessment = assessment, .rule = rule, .subject = subject, .view = view};
  keep_cases(&m, assessment->findings, assessment->finding_count);
  keep_cases(&m, assessment->duties, assessment->duty_count);
}
