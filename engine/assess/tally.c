#include "assess/tally.h"
#include "assess/merge.h"
#include "base/text.h"
#include <limits.h>
#include <stdlib.h>

typedef struct {
  const ts_assess_inputs *in;
  size_t rule;
  ts_subject subject;
  ts_view view;
  const ts_evaluation *evaluation;
  ts_tallies *all;
} teller;

/* ---- scores -------------------------------------------------------------- */

static bool rests_on_assumed(const ts_dossier *dossier, const ts_outcome *outcome) {
  for (size_t i = 0; i < outcome->fact_count; i++)
    if (ts_slot_assumed(dossier, outcome->facts[i])) return true;
  return false;
}

/* Duties and stops have no score; a rank lets them be folded like hazards. */
static ts_score score_of(const teller *t, const ts_outcome *outcome) {
  if (outcome->word == TS_HAZARD) return ts_credited(t->in, t->subject, t->view, outcome);
  return (ts_score){.rank = (int16_t)(outcome->word == TS_DUTY ? 1 + (int)outcome->state : 1)};
}

/* Nothing may be scored 1 on a fact that is assumed. */
static void floor_at_two(const teller *t, const ts_outcome *outcome, ts_side *said) {
  ts_score *score = &said->score;
  if (outcome->word != TS_HAZARD || score->likelihood != 1 ||
      !rests_on_assumed(t->in->dossier, outcome))
    return;
  *score = ts_matrix_score(t->in->matrix, 2, score->severity);
  said->floored = true;
}

/* ---- folding ------------------------------------------------------------- */

static ts_tally *tally_for(const teller *t, ts_word word, const char *about) {
  ts_tally *found = (ts_tally *)ts_tally_find(t->all, word, about);
  if (found != NULL) return found;
  TS_GROW(t->all->at, t->all->count, t->all->capacity);
  t->all->at[t->all->count] = (ts_tally){.word = word,
                                         .about = about,
                                         .worst_plain = INT_MIN,
                                         .best_plain = INT_MAX,
                                         .here.course = SIZE_MAX};
  return &t->all->at[t->all->count++];
}

/* Within one course the worst of what is said about one thing counts. */
static void hear(const teller *t, size_t course, size_t index) {
  const ts_outcome *outcome = &t->evaluation->courses[course].outcomes[index];
  ts_tally *tally = tally_for(t, outcome->word, outcome->about ? outcome->about : "");
  ts_side said = {.score = score_of(t, outcome), .course = course, .outcome = index};
  int plain = said.score.rank;
  said.plain = said.score;
  floor_at_two(t, outcome, &said);
  bool first = tally->here.course != course;
  if (first || plain > tally->here_plain) tally->here_plain = plain;
  if (first || said.score.rank > tally->here.score.rank) tally->here = said;
}

static void fold(ts_tally *tally) {
  const ts_side *here = &tally->here;
  bool first = tally->courses++ == 0;
  if (first || here->score.rank > tally->worst.score.rank) tally->worst = *here;
  if (tally->here_plain > tally->worst_plain) tally->worst_plain = tally->here_plain;
  if (tally->here_plain >= tally->best_plain) return;
  tally->best_plain = tally->here_plain;
  tally->best = *here;
  tally->best.floored = false; /* the floor is for the worst only */
  tally->best.score = here->plain;
}

static void fold_course(const teller *t, size_t course) {
  for (size_t i = 0; i < t->evaluation->courses[course].outcome_count; i++) hear(t, course, i);
  for (size_t i = 0; i < t->all->count; i++)
    if (t->all->at[i].here.course == course) fold(&t->all->at[i]);
}

/* ---- what it amounts to ---------------------------------------------------- */

void ts_raise_to_declared(const ts_assess_inputs *in, size_t rule, ts_standing *standing) {
  const ts_rule *declares = ts_rule_at(in->packs, rule);
  ts_score declared =
      ts_matrix_score(in->matrix, declares->worst_likelihood, declares->worst_severity);
  if (declared.rank > standing->worst.rank) standing->worst = declared;
  standing->best = (ts_score){0};
  standing->unresolved = true;
  standing->settled = false;
}

static bool everywhere(const teller *t, const ts_tally *tally) {
  return tally->courses == t->evaluation->course_count && !t->evaluation->unresolved;
}

static ts_duty_state state_at(const teller *t, const ts_side *side) {
  return t->evaluation->courses[side->course].outcomes[side->outcome].state;
}

/* Met on every course that says it is met; not met on every course of all is
 * not met; whatever hangs on an open fact is open. */
static ts_duty_state duty_state(const teller *t, const ts_tally *tally) {
  ts_duty_state worst = state_at(t, &tally->worst), best = state_at(t, &tally->best);
  if (t->evaluation->unresolved || worst == TS_UNDECIDED) return TS_UNDECIDED;
  if (worst == TS_MET) return TS_MET;
  return best == TS_NOT_MET && everywhere(t, tally) ? TS_NOT_MET : TS_UNDECIDED;
}

static void stand(const teller *t, ts_tally *tally) {
  ts_standing *standing = &tally->standing;
  bool all = everywhere(t, tally);
  standing->certainty = all ? TS_CERTAIN : TS_POSSIBLE;
  standing->settled = all && tally->worst_plain == tally->best_plain;
  standing->unresolved = t->evaluation->unresolved;
  if (tally->word == TS_DUTY) tally->duty = duty_state(t, tally);
  if (tally->word != TS_HAZARD) return;
  standing->worst = tally->worst.score;
  standing->floored = tally->worst.floored;
  if (all) standing->best = tally->best.score;
  if (t->evaluation->unresolved) ts_raise_to_declared(t->in, t->rule, standing);
}

/* What a rule gets whose courses could not all be seen and that said no hazard about nothing
 * in particular. */
static void declare(const teller *t) {
  if (ts_tally_find(t->all, TS_HAZARD, "") != NULL) return;
  ts_tally *tally = tally_for(t, TS_HAZARD, "");
  tally->standing.certainty = TS_POSSIBLE;
  ts_raise_to_declared(t->in, t->rule, &tally->standing);
}

void ts_tally_all(const ts_assess_inputs *in, size_t rule, ts_subject subject, ts_view view,
                  const ts_evaluation *evaluation, ts_tallies *into) {
  teller t = {in, rule, subject, view, evaluation, into};
  into->count = 0;
  for (size_t i = 0; i < evaluation->course_count; i++) fold_course(&t, i);
  for (size_t i = 0; i < into->count; i++) stand(&t, &into->at[i]);
  if (evaluation->unresolved) declare(&t);
}

const ts_tally *ts_tally_find(const ts_tallies *tallies, ts_word word, const char *about) {
  for (size_t i = 0; i < tallies->count; i++)
    if (tallies->at[i].word == word && ts_same(tallies->at[i].about, about)) return &tallies->at[i];
  return NULL;
}
