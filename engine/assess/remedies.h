/* Remedies: the fewest controls that bring a whole task below the line. */
#ifndef TS_ASSESS_REMEDIES_H
#define TS_ASSESS_REMEDIES_H

#include "assess/crew.h"

/* Fills assessment->remedies: one for each task with a finding above the line. */
void ts_remedies(ts_crew *crew);

#endif
