/* What people call a subject. */
#ifndef TS_ASSESS_LABEL_H
#define TS_ASSESS_LABEL_H

#include "assess/assessment.h"

/* The label a dossier gives, or one made of what the subject belongs to: "Ines Caldey in
 * “The lock gate”", "water of Tank 2". One for each subject, in the arena. */
const char **ts_labels(const ts_dossier *dossier, ts_arena *arena);

#endif
