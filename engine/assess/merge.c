/* Merging courses: a tally for each thing that is said, folded course by course. */
#include "assess/merge.h"
#include "assess/copy.h"
#include "base/text.h"
#include <limits.h>
#include <stdlib.h>

/* One side of what a key amounts to: the score, and where it was said. */
typedef struct {
  ts_score score;
  const ts_course *course;
  const ts_outcome *outcome;
  bool floored;
} side;

/* One key (word, about) over the courses of one evaluation. */
typedef struct {
  ts_word word;
  const char *about;
  side worst, best;
  int worst_plain, best_plain; /* ranks before the floor: whether all courses agree */
  size_t courses;              /* that say it */
  side here;                   /* worst of the course in hand */
  int here_plain;
} tally;

typedef struct {
  ts_assessment *assessment;
  size_t rule;
  ts_subject subject;
  ts_view view;
  const ts_evaluation *evaluation;
  tally *tallies;
  size_t count, capacity;
} merger;

static const ts_rule *rule_of(const merger *m) {
  return ts_rule_at(m->assessment->in.packs, m->rule);
}

/* ---- scores -------------------------------------------------------------- */

static bool rests_on_assumed(const ts_dossier *dossier, const ts_outcome *outcome) {
  for (size_t i = 0; i < outcome->fact_count; i++)
    if (ts_slot_assumed(dossier, outcome->facts[i])) return true;
  return false;
}

/* Duties and stops have no score; a rank lets them be folded like hazards. */
static ts_score score_of(const merger *m, const ts_outcome *outcome) {
  if (outcome->word == TS_HAZARD) return ts_credited(m->assessment, m->subject, m->view, outcome);
  return (ts_score){.rank = outcome->word == TS_DUTY ? 1 + (int)outcome->state : 1};
}

/* Nothing may be scored 1 on a fact that is assumed. */
static side floored(const merger *m, side said) {
  ts_score *score = &said.score;
  if (said.outcome->word == TS_HAZARD && score->likelihood == 1 &&
      rests_on_assumed(m->assessment->in.dossier, said.outcome)) {
    score->likelihood = 2;
    score->rank = ts_matrix_rank(m->assessment->in.matrix, 2, score->severity);
    said.floored = true;
  }
  return said;
}

/* ---- folding ------------------------------------------------------------- */

static tally *tally_for(merger *m, ts_word word, const char *about) {
  for (size_t i = 0; i < m->count; i++)
    if (m->tallies[i].word == word && ts_same(m->tallies[i].about, about)) return &m->tallies[i];
  TS_GROW(m->tallies, m->count, m->capacity);
  m->tallies[m->count] =
      (tally){.word = word, .about = about, .worst_plain = INT_MIN, .best_plain = INT_MAX};
  return &m->tallies[m->count++];
}

/* Within one course the worst of what is said about one thing counts. */
static void hear(merger *m, const ts_course *course, const ts_outcome *outcome) {
  tally *t = tally_for(m, outcome->word, outcome->about ? outcome->about : "");
  side plain = {.score = score_of(m, outcome), .course = course, .outcome = outcome};
  side said = floored(m, plain);
  bool first = t->here.course != course;
  if (first || plain.score.rank > t->here_plain) t->here_plain = plain.score.rank;
  if (first || said.score.rank > t->here.score.rank) t->here = said;
  for (size_t i = 0; i < outcome->fact_count; i++) m->assessment->read[outcome->facts[i]] = true;
}

static void fold(merger *m, tally *t) {
  t->courses++;
  if (t->worst.outcome == NULL || t->here.score.rank > t->worst.score.rank) t->worst = t->here;
  if (t->here_plain > t->worst_plain) t->worst_plain = t->here_plain;
  if (t->here_plain >= t->best_plain) return;
  t->best_plain = t->here_plain;
  t->best = t->here;
  t->best.score = score_of(m, t->here.outcome); /* the floor is for the worst only */
}

static void fold_course(merger *m, const ts_course *course) {
  for (size_t i = 0; i < course->outcome_count; i++) hear(m, course, &course->outcomes[i]);
  for (size_t i = 0; i < m->count; i++)
    if (m->tallies[i].here.course == course) fold(m, &m->tallies[i]);
}

/* ---- filling the case ---------------------------------------------------- */

static bool everywhere(const merger *m, const tally *t) {
  return t->courses == m->evaluation->course_count && !m->evaluation->unresolved;
}

/* The score the rule declares for when its courses cannot all be seen, if that is worse. */
static void raise_to_declared(const merger *m, ts_standing *standing) {
  const ts_rule *rule = rule_of(m);
  ts_score declared = {.likelihood = rule->worst_likelihood, .severity = rule->worst_severity};
  declared.rank = ts_matrix_rank(m->assessment->in.matrix, declared.likelihood, declared.severity);
  if (declared.rank > standing->worst.rank) standing->worst = declared;
  standing->best = (ts_score){0};
  standing->unresolved = true;
  standing->settled = false;
}

/* Met on every course that says it is met; not met on every course of all is
 * not met; whatever hangs on an open fact is open. */
static ts_duty_state duty_state(const merger *m, const tally *t) {
  ts_duty_state worst = t->worst.outcome->state, best = t->best.outcome->state;
  if (m->evaluation->unresolved || worst == TS_UNDECIDED) return TS_UNDECIDED;
  if (worst == TS_MET) return TS_MET;
  return best == TS_NOT_MET && everywhere(m, t) ? TS_NOT_MET : TS_UNDECIDED;
}

static void fill(const merger *m, const tally *t, ts_case *into) {
  ts_arena *arena = m->assessment->arena;
  ts_standing *standing = &into->standing;
  bool all = everywhere(m, t);
  into->worst = ts_spoken_copy(arena, t->worst.course, t->worst.outcome);
  into->best = t->best.outcome == t->worst.outcome
                   ? into->worst
                   : ts_spoken_copy(arena, t->best.course, t->best.outcome);
  standing->certainty = all ? TS_CERTAIN : TS_POSSIBLE;
  standing->settled = all && t->worst_plain == t->best_plain;
  if (t->word == TS_DUTY) into->duty = duty_state(m, t);
  if (t->word != TS_HAZARD) {
    standing->unresolved = m->evaluation->unresolved;
    return;
  }
  standing->worst = t->worst.score;
  standing->floored = t->worst.floored;
  if (all) standing->best = t->best.score;
  if (m->evaluation->unresolved) raise_to_declared(m, standing);
}

/* ---- findings ------------------------------------------------------------ */

static ts_finding *finding_new(const merger *m, ts_word word, const char *about) {
  ts_assessment *a = m->assessment;
  ts_finding made = {.rule = m->rule,
                     .subject = m->subject,
                     .word = word,
                     .about = ts_arena_copy(a->arena, about)};
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

/* A course with nothing to hang words on: what an unresolved rule that said no hazard gets. */
static void unresolved_hazard(merger *m) {
  static const ts_course nothing = {.applies = true};
  static const ts_outcome words = {
      .word = TS_HAZARD,
      .about = "",
      .because = "too much is not known: not every course of this rule could be seen",
      .because_withheld = "too much is not known: not every course of this rule could be seen"};
  ts_case *into = &finding_for(m, TS_HAZARD, "")->view[m->view];
  if (into->worst == NULL) into->worst = ts_spoken_copy(m->assessment->arena, &nothing, &words);
  into->standing.certainty = TS_POSSIBLE;
  raise_to_declared(m, &into->standing);
}

void ts_merge(ts_assessment *assessment, size_t rule, ts_subject subject, ts_view view,
              const ts_evaluation *evaluation) {
  merger m = {.assessment = assessment,
              .rule = rule,
              .subject = subject,
              .view = view,
              .evaluation = evaluation};
  for (size_t i = 0; i < evaluation->course_count; i++) fold_course(&m, &evaluation->courses[i]);
  for (size_t i = 0; i < m.count; i++)
    fill(&m, &m.tallies[i], &finding_for(&m, m.tallies[i].word, m.tallies[i].about)->view[view]);
  if (evaluation->unresolved) unresolved_hazard(&m);
  free(m.tallies);
}

static void keep_case(const merger *m, ts_finding *finding) {
  ts_case *into = &finding->view[m->view];
  if (into->worst == NULL && m->view > TS_AS_DESCRIBED) *into = finding->view[m->view - 1];
  if (into->worst == NULL) return;
  into->standing.settled = false;
  into->standing.certainty = TS_POSSIBLE;
  if (finding->word == TS_HAZARD) raise_to_declared(m, &into->standing);
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
