/* Which pairs a control can touch: found by where it stands. */
#ifndef TS_ASSESS_TOUCHED_H
#define TS_ASSESS_TOUCHED_H

#include "assess/probe.h"

typedef struct ts_touched ts_touched;

ts_touched *ts_touched_new(const ts_probe *probe);
void ts_touched_free(ts_touched *touched);

/* The pairs that a control at `scope` can change, by its changes or by its credit: ascending,
 * in `arena`. */
const uint32_t *ts_pairs_touched(ts_touched *touched, const ts_control *control, ts_subject scope,
                                 ts_arena *arena, size_t *count);

/* Of an ascending list of pairs those over subjects that a scope covers, `most` of them: how many. */
size_t ts_pairs_within(const ts_touched *touched, ts_subject scope, const uint32_t *list,
                       size_t length, uint32_t *found, size_t most);

#endif
