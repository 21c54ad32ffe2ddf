/* A first dossier as text: what was answered, everything else open, and beside the first of each
 * kind of element what it can state, how that is found out and who knows. */
#ifndef TS_COMMAND_DRAFT_H
#define TS_COMMAND_DRAFT_H

#include "command/stages.h"

/* Writes a tree of the vocabulary's elements; `root` is <dossier>. `teach`: with the comments. */
void draft_write(const ts_session *session, const xmlNode *root, bool teach, ts_text *out);

#endif
