/* Conditions: when an open finding stands at its worst and at its best, stated on facts. */
#ifndef TS_ASSESS_CONDITIONS_H
#define TS_ASSESS_CONDITIONS_H

#include "assess/probe.h"

/* Fills when_worst and when_best of a finding that is not settled with what is in place. Of
 * the courses that stand so, the one that needs the fewest words; clauses that are not needed
 * are left out, each time by trying. */
void ts_conditions(ts_probe *probe, ts_assessment *assessment, ts_finding *finding);

#endif
