/* What is not known and matters: the facts to ask for. */
#ifndef TS_ASSESS_OPEN_H
#define TS_ASSESS_OPEN_H

#include "assess/assessment.h"

/* Facts not known or wide that some finding or duty rests on, in the order of the findings:
 * what the worst ones need comes first. Derived facts are traced to what they are made of. */
ts_open_fact *ts_open_facts(const ts_assessment *assessment, size_t *count);

/* The written facts that a fact is made of, itself where it is not derived:
 * ascending slots in `arena`. */
const uint32_t *ts_made_of(const ts_dossier *dossier, uint32_t slot, ts_arena *arena,
                           size_t *count);

#endif
