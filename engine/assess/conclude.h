/* After all rules have spoken: waivers, order, ids and the headline counts. */
#ifndef TS_ASSESS_CONCLUDE_H
#define TS_ASSESS_CONCLUDE_H

#include "assess/assessment.h"

void ts_conclude(ts_assessment *assessment, ts_diagnostics *problems);

#endif
