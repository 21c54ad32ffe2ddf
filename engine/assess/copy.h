/* Copies of what an evaluation says, to outlive it. */
#ifndef TS_ASSESS_COPY_H
#define TS_ASSESS_COPY_H

#include "assess/assessment.h"

/* A deep copy of one outcome and of the decisions of its course it hangs on. Most of it is said of many
 * subjects and in several views. */
const ts_spoken *ts_spoken_copy(ts_pool *pool, const ts_course *course, const ts_outcome *outcome);

#endif
