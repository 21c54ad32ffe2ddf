/* Remedies: the fewest controls that bring a whole task below the line. */
#ifndef TS_ASSESS_REMEDIES_H
#define TS_ASSESS_REMEDIES_H

#include "assess/shifts.h"

/* Fills assessment->remedies: one for each task with a finding above the line. */
void ts_remedies(ts_probe *probe, ts_touched *touched, ts_assessment *assessment);

#endif
