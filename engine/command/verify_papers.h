/* The documents beside an assessment: whether each is what is made from it. */
#ifndef TS_COMMAND_VERIFY_PAPERS_H
#define TS_COMMAND_VERIFY_PAPERS_H

#include "command/command.h"

typedef struct {
  size_t looked; /* documents looked at */
  size_t wrong;  /* altered, missing, of another assessment or of none */
  size_t untold; /* of which it cannot be told here */
} papers_count;

/* Makes each document of the assessment again, which is as it was before anybody signed, and holds
 * the files in the folder against them; each place is reported. Where there are no documents
 * nothing is looked for. False with a report when they cannot be made. */
bool papers_verify(ts_session *s, const ts_options *options, const char *folder, const char *bytes,
                   size_t length, papers_count *count);

#endif
