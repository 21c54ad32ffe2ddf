/* A note in a folder of papers: what they were made of, what came out, and the digest of each. By
 * it a run over many dossiers knows which are done already. */
#ifndef TS_COMMAND_MADE_OF_H
#define TS_COMMAND_MADE_OF_H

#include "command/output.h"

/* Writes the note beside what is staged. */
bool made_of_put(const ts_output *out, int status, const char *figures);

/* The figures that the note in a folder holds, with the status, where it says that the folder was
 * made of what is loaded now, with the same options, and every file is as it was made or signed
 * since; else NULL. */
const char *made_of_same(ts_session *s, const ts_options *options, const char *folder, int *status);

#endif
