/* Axes of charts: places in thousandths of an axis, and where its ticks stand. */
#ifndef TS_DOCUMENT_ASSESSMENT_AXIS_H
#define TS_DOCUMENT_ASSESSMENT_AXIS_H

#include "document/assessment.h"

/* An attribute: where `value` stands on the axis, from 0 to 1000; what lies beyond an end stands
 * at it. */
void ts_axis_at(ts_paper *paper, const char *name, double value, ts_range axis);
/* A round distance from tick to tick, so that there are seven at most. */
double ts_axis_step(ts_range axis, ts_dim dim);
/* <tick axis at text/>, seven at most, at round values. `unit`: as of ts_quantity_show. */
void ts_axis_ticks(ts_paper *paper, const char *name, ts_range axis, ts_dim dim, const char *unit);
/* A number as a reader sees it, in the dossier's units. */
const char *ts_axis_shown(ts_paper *paper, ts_range range, ts_dim dim, const char *unit);

/* Part of <charts>: from one time under water to the next. */
void ts_paper_gaps(ts_paper *paper);

/* When a step of the rescue is over, s after the trouble. */
typedef struct {
  const char *id;
  ts_range at;
  bool known; /* it and all before it */
} ts_milestone;

/* <stretch of>: where some steps stand on an axis of their own, with its ticks. */
void ts_paper_stretch(ts_paper *paper, const char *of, const ts_milestone *all, size_t count);

#endif
