/* Many dossiers: each assessed into a folder of its own, several at a time. */
#ifndef TS_COMMAND_MANY_H
#define TS_COMMAND_MANY_H

#include "command/command.h"

/* One of them, in a process of its own, with a session in which the common rules are loaded. Says
 * on standard output in a line what came out; gives the exit status. */
typedef int many_assess(ts_session *session, const ts_options *options);

/* Whether more than one dossier is asked for: several words, a folder, a list. */
bool many_asked(const ts_options *options);
int many_run(const ts_options *options, many_assess *assess);

#endif
