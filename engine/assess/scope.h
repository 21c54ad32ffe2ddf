/* Where applied controls stand, and which subjects that covers. */
#ifndef TS_ASSESS_SCOPE_H
#define TS_ASSESS_SCOPE_H

#include "assess/assessment.h"

/* True when a pack has every control that the dossier applies and each reaches a value that
 * its first change can have; a report for everything else. */
bool ts_controls_known(const ts_assess_inputs *in, ts_diagnostics *problems);

/* Whether the view counts this applied control at all. */
bool ts_view_counts(ts_view view, const ts_applied_control *applied);

/* The applied control with this id that covers the subject and counts in the
 * view: an in-place one before a planned one; NULL when there is none. */
const ts_applied_control *ts_applied_here(const ts_dossier *dossier, const char *control,
                                          ts_subject subject, ts_view view);

/* The changes that the dossier's controls make to facts; the level of each is the first view that
 * counts it. Free with ts_laid_free. */
ts_laid *ts_laid_of(const ts_assess_inputs *in);

#endif
