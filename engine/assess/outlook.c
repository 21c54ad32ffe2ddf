#include "assess/outlook.h"
#include "assess/conditions.h"
#include "assess/margins.h"
#include "assess/probe.h"
#include "assess/questions.h"
#include "assess/remedies.h"
#include "assess/ways.h"

static void look_around(ts_probe *probe, ts_assessment *a, ts_finding *all, size_t count) {
  for (size_t i = 0; i < count; i++) {
    if (all[i].word == TS_REMARK) continue;
    ts_conditions(probe, a, &all[i]);
    ts_margins(probe, a, &all[i]);
  }
}

void ts_outlook(ts_assessment *a) {
  ts_probe *probe = ts_probe_new(a);
  ts_shifts *shifts = ts_shifts_new(probe, a->arena);
  look_around(probe, a, a->findings, a->finding_count);
  look_around(probe, a, a->duties, a->duty_count);
  for (size_t i = 0; i < a->finding_count; i++) ts_ways(probe, shifts, a, &a->findings[i]);
  ts_remedies(probe, a);
  ts_questions(probe, a);
  ts_shifts_free(shifts);
  ts_probe_free(probe);
}
