/* Writing into a dossier's file what was learnt, and nothing else: order, comments and spacing of
 * the rest stay as somebody wrote them. Many changes at once: dossier/rewrite.h. */
#ifndef TS_DOSSIER_EDIT_H
#define TS_DOSSIER_EDIT_H

#include "base/text.h"
#include "dossier/subjects.h"

/* Which of the dossier's sources a fact is to be written in: an index for ts_source_name. */
size_t ts_edit_source(const ts_dossier *dossier, uint32_t slot);

/* `text` is what stands in that source now. *out becomes the same with `value` as the value of the
 * fact: in the attribute where there is one, else in a new one, else in a new element. False, with
 * a report, when the text is not the one that was read, or the fact is not one that is written. */
bool ts_edit_fact(const ts_dossier *dossier, uint32_t slot, const char *value, const char *text,
                  size_t length, ts_text *out, ts_diagnostics *problems);

/* The same for evidence of a fact, put before the end of the source: what kind ("measured"), by
 * whom, on which day, and where it is kept; NULL for what is not said. */
typedef struct {
  const char *kind, *by, *on, *ref;
} ts_edit_evidence;
bool ts_edit_add_evidence(const char *path, const ts_edit_evidence *evidence, const char *text,
                          size_t length, ts_text *out);

#endif
