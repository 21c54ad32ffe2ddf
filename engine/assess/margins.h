/* Margins: how far each number a finding rests on is from changing it. */
#ifndef TS_ASSESS_MARGINS_H
#define TS_ASSESS_MARGINS_H

#include "assess/probe.h"

/* Fills the margins of one finding, in the assessment's arena. None where its rule failed. */
void ts_margins(ts_probe *probe, ts_assessment *assessment, ts_finding *finding);

/* The written facts that what was said of a finding rests on: ascending slots in `arena`. */
const uint32_t *ts_rests_on(const ts_assessment *assessment, const ts_finding *finding,
                            ts_arena *arena, size_t *count);

#endif
