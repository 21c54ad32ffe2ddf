/* The reference: everything a rule-writer or a reviewer may want to look up, as XML. */
#ifndef TS_COMMAND_REFERENCE_H
#define TS_COMMAND_REFERENCE_H

#include "base/xml.h"
#include "command/command.h"

/* Writes it into `xml`, to be released by the caller. False with reports where the topics
 * cannot be read. */
bool reference_write(ts_session *session, ts_text *xml);

#endif
