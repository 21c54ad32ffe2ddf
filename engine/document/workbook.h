/* A workbook for departments: what each is asked to say of the dossier, with what is known now and
 * a cell to fill in. Comes back through dossier/import.h.
 *
 * A fact stands in one sheet only: that of who usually knows it; what is each person's own business
 * in that person's. So a sheet that goes to its department shows nothing confidential that is not
 * its business. Structure (who, where, when, the dive log) stands in lists, to which rows may be
 * added. */
#ifndef TS_DOCUMENT_WORKBOOK_H
#define TS_DOCUMENT_WORKBOOK_H

#include "base/text.h"
#include "dossier/subjects.h"

typedef struct {
  const char *name;  /* "diving supervisor", "person hal" */
  const char *asked; /* as the vocabulary has it */
  ts_subject person; /* TS_NO_SUBJECT, but for a person's own */
} ts_department;

/* Those that are asked for anything of this dossier, in its order, people last; in the arena. */
ts_department *ts_departments(const ts_dossier *dossier, ts_arena *arena, size_t *count);

/* The sheets of some departments as an OpenDocument spreadsheet. False with a report; release *ods
 * in any case. */
bool ts_workbook_make(const ts_dossier *dossier, const ts_department *departments, size_t count,
                      ts_text *ods, ts_diagnostics *problems);

#endif
