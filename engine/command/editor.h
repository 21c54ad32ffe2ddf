/* Help for editors: the dossier's schema, and annotations for a Lua language server. */
#ifndef TS_COMMAND_EDITOR_H
#define TS_COMMAND_EDITOR_H

#include "base/text.h"
#include "command/command.h"

/* Writes all of it into the folder given with -o, and says what to do with it. False with reports.
 */
bool editor_write(ts_session *session, const ts_options *options);

/* Annotations: the subjects with their facts; the functions; what packs share. */
bool annotate_facts(const ts_session *session, ts_text *out);
bool annotate_functions(const ts_session *session, ts_text *out);
void annotate_packs(const ts_session *session, ts_text *out);

#endif
