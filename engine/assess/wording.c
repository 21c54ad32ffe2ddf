#include "assess/wording.h"
#include "assess/scope.h"
#include "assess/tally.h"
#include <stdlib.h>

struct ts_wording {
  const ts_assessment *a;
  ts_evaluator *evaluator;
  ts_laid *laid;
  ts_tallies tallies;
  ts_arena *arena;
};

ts_wording *ts_wording_new(const ts_assessment *assessment) {
  ts_wording *w = ts_alloc(sizeof *w);
  *w = (ts_wording){.a = assessment, .arena = ts_arena_new()};
  w->evaluator = ts_evaluator_new(assessment->in.packs, assessment->in.dossier);
  w->laid = ts_laid_of(&assessment->in);
  return w;
}

void ts_wording_free(ts_wording *w) {
  if (w == NULL) return;
  ts_evaluator_free(w->evaluator);
  ts_laid_free(w->laid);
  free(w->tallies.at);
  ts_arena_free(w->arena);
  free(w);
}

const char *ts_wording_because(ts_wording *w, const ts_finding *finding) {
  const char *there = ts_finding_said(finding)->because;
  if (there != NULL) return there;
  ts_view view = ts_finding_speaks(finding);
  ts_evaluator_lay(w->evaluator, w->laid, view);
  const ts_evaluation *seen = ts_evaluate(w->evaluator, finding->rule, finding->subject, NULL, 0);
  ts_tally_all(&w->a->in, finding->rule, finding->subject, view, seen, &w->tallies);
  const ts_tally *tally = ts_tally_find(&w->tallies, finding->word, finding->about);
  if (tally == NULL || tally->courses == 0) return NULL;
  const ts_course *course = ts_course_worded(w->evaluator, tally->worst.course);
  return ts_arena_copy(w->arena, course->outcomes[tally->worst.outcome].because);
}
