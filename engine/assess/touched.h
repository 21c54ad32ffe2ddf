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

/* The subjects that a control at `scope` covers, ascending. */
const ts_subject *ts_covered_by(const ts_touched *touched, ts_subject scope, size_t *count);

#endif
