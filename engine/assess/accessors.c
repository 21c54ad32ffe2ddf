/* The public view of an assessment. */
#include "assess/assessment.h"
#include "assess/scope.h"

ts_summary ts_assessment_summary(const ts_assessment *assessment) { return assessment->summary; }

bool ts_assessment_holds(const ts_assessment *assessment) {
  const ts_summary *s = &assessment->summary;
  return s->stops > 0 || s->above > 0 || s->duties_not_met > 0 || s->duties_open > 0 ||
         !s->complete;
}

static ts_finding_view view_of(const ts_assessment *a, const ts_finding *f) {
  const ts_dossier *dossier = a->in.dossier;
  const ts_rule *rule = ts_rule_at(a->in.packs, f->rule);
  const ts_subject_info *subject = ts_subject_at(dossier, f->subject);
  ts_subject task = ts_leads_to(dossier, f->subject, "task");
  ts_finding_view view = {
      .id = f->id,
      .word = ts_word_name(f->word),
      .rule = rule->id,
      .title = rule->title,
      .about = f->about,
      .subject = subject->path,
      .subject_label = a->labels[f->subject],
      .task_label = task == TS_NO_SUBJECT ? NULL : a->labels[task],
      .because = ts_finding_said(f)->because,
      .state = f->word == TS_DUTY ? ts_duty_name(f->view[TS_IN_PLACE].duty) : NULL,
      .waived = f->waiver != NULL,
  };
  for (int v = 0; v < TS_VIEWS; v++) view.standing[v] = f->view[v].standing;
  return view;
}

size_t ts_finding_count(const ts_assessment *assessment) { return assessment->finding_count; }

ts_finding_view ts_finding_at(const ts_assessment *assessment, size_t index) {
  return view_of(assessment, &assessment->findings[index]);
}

size_t ts_duty_count(const ts_assessment *assessment) { return assessment->duty_count; }

ts_finding_view ts_duty_at(const ts_assessment *assessment, size_t index) {
  return view_of(assessment, &assessment->duties[index]);
}
