/* Words for single findings of an assessment that was made without (ts_assess_inputs). */
#ifndef TS_ASSESS_WORDING_H
#define TS_ASSESS_WORDING_H

#include "assess/assessment.h"

typedef struct ts_wording ts_wording;

ts_wording *ts_wording_new(const ts_assessment *assessment);
void ts_wording_free(ts_wording *wording); /* NULL is allowed */

/* Why the finding stands as it does at worst, in the view whose words are printed: its rule runs
 * once more. Lives as long as the wording. */
const char *ts_wording_because(ts_wording *wording, const ts_finding *finding);

#endif
