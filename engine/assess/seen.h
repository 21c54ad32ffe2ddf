/* What pairs say as things are, seen once and kept: answers to many open facts are foretold from
 * the same courses. Of one worker. */
#ifndef TS_ASSESS_SEEN_H
#define TS_ASSESS_SEEN_H

#include "assess/probe.h"

typedef struct ts_seen ts_seen;

ts_seen *ts_seen_new(ts_probe *probe);
void ts_seen_free(ts_seen *seen); /* NULL is allowed */

/* The courses of a pair with nothing tried; NULL when its rule fails. Counts as a try each time it
 * is asked for. Of an outcome there is what it says, how it scores and what it rests on: enough for
 * a tally. Holds until the next call. */
const ts_evaluation *ts_seen_of(ts_seen *seen, size_t pair);

#endif
