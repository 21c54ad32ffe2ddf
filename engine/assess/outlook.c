#include "assess/outlook.h"
#include "assess/conditions.h"
#include "assess/margins.h"
#include "assess/probe.h"
#include "assess/questions.h"
#include "assess/remedies.h"
#include "assess/ways.h"

/* How far it is: finding has taken the first fifth. */
static void tell(const ts_assessment *a, double part) {
  if (a->in.progress != NULL) a->in.progress(a->in.context, 0.2 + 0.8 * part);
}

static void look_around(ts_probe *probe, ts_assessment *a, ts_finding *all, size_t count) {
  for (size_t i = 0; i < count; i++) {
    if (all[i].word == TS_REMARK) continue;
    ts_conditions(probe, a, &all[i]);
    ts_margins(probe, a, &all[i]);
  }
}

static void find_ways(ts_probe *probe, ts_touched *touched, ts_assessment *a) {
  ts_shifts *shifts = ts_shifts_new(probe, touched, a);
  for (size_t i = 0; i < a->finding_count; i++) {
    ts_ways(probe, shifts, a, &a->findings[i]);
    tell(a, 0.3 + 0.6 * (double)i / (double)a->finding_count);
  }
  ts_shifts_free(shifts);
}

void ts_outlook(ts_assessment *a, ts_evaluator *evaluator) {
  ts_probe *probe = ts_probe_new(a, evaluator);
  bool all = !a->in.questions_only;
  if (all) look_around(probe, a, a->findings, a->finding_count);
  if (all) look_around(probe, a, a->duties, a->duty_count);
  ts_questions(probe, a); /* before the ways down: they matter most where much is open */
  tell(a, 0.3);
  ts_touched *touched = all ? ts_touched_new(probe) : NULL;
  if (all) find_ways(probe, touched, a);
  if (all) ts_remedies(probe, touched, a);
  ts_touched_free(touched);
  ts_probe_free(probe);
}
