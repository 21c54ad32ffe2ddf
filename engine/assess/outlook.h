/* What would change the findings: margins, ways down, conditions, questions, remedies. */
#ifndef TS_ASSESS_OUTLOOK_H
#define TS_ASSESS_OUTLOOK_H

#include "assess/crew.h"

/* After everything has been found and put in order. */
void ts_outlook(ts_crew *crew);

#endif
