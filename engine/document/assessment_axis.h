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

/* Parts of <charts> that are in assessment_lines.c. */
void ts_paper_gaps(ts_paper *paper);       /* from one time under water to the next */
void ts_paper_time_lines(ts_paper *paper); /* from trouble to hospital, with ranges */

#endif
