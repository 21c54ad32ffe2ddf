/* Where applied controls stand, and which subjects that covers. */
#ifndef TS_ASSESS_SCOPE_H
#define TS_ASSESS_SCOPE_H

#include "assess/assessment.h"

/* True when a control that stands at `scope` covers `subject`: it is the
 * subject itself or something it is in, of, or part of: its parents, its task,
 * person, day and site, and always the production. */
bool ts_covers(const ts_dossier *dossier, ts_subject scope, ts_subject subject);

/* True when a pack has every control that the dossier applies and each reaches a value that
 * its first change can have; a report for everything else. */
bool ts_controls_known(const ts_assess_inputs *in, ts_diagnostics *problems);

/* Whether the view counts this applied control at all. */
bool ts_view_counts(ts_view view, const ts_applied_control *applied);

/* The applied control with this id that covers the subject and counts in the
 * view: an in-place one before a planned one; NULL when there is none. */
const ts_applied_control *ts_applied_here(const ts_dossier *dossier, const char *control,
                                          ts_subject subject, ts_view view);

/* The changes that controls make to facts in a view, in the order in which the dossier applies
 * them, for an evaluation over `subject`. Returns how many; *effects lives in `arena`. */
size_t ts_effects_here(const ts_assess_inputs *in, ts_subject subject, ts_view view,
                       ts_arena *arena, ts_effect **effects);

#endif
