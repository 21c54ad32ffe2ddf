/* Tables into a dossier: which sheet says what of whom, and what that would change.
 *
 * Nothing is guessed that could be otherwise: a bare number has its unit from the heading, from a
 * column "unit" or from a map, or it is an error; so is a heading that could mean two facts. Every
 * bad cell of all files is reported, against "FILE, SHEET, B7". An empty cell changes nothing. */
#ifndef TS_DOSSIER_IMPORT_H
#define TS_DOSSIER_IMPORT_H

#include "dossier/rewrite.h"

typedef struct ts_import ts_import;

/* The dossier must outlive it. Free with ts_import_free. */
ts_import *ts_import_new(const ts_dossier *dossier, ts_diagnostics *problems);
void ts_import_free(ts_import *import);

/* A map: what sheets and columns mean, where their names do not say. Comes before the tables.
 * False with reports; the bytes must outlive the import. */
bool ts_import_map(ts_import *import, const char *file, const char *bytes, size_t length);

/* Takes in a table file; the bytes may go afterwards. False with reports. */
bool ts_import_table(ts_import *import, const char *file, const char *bytes, size_t length);

/* Works out what all tables would change. False when anything is wrong. */
bool ts_import_work_out(ts_import *import);

typedef struct {
  const char *subject; /* its path; of a new one, what it is told apart by */
  const char *entity, *fact;
  const char *from;  /* as written; NULL where nothing was */
  const char *to;    /* as it would be written */
  const char *where; /* "crew.ods, People, B7" */
  bool fresh;        /* of a subject that is new */
} ts_import_change;

size_t ts_import_count(const ts_import *import);
ts_import_change ts_import_at(const ts_import *import, size_t index);

/* Puts all changes into a rewrite that knows every source. False with reports. */
bool ts_import_rewrite(const ts_import *import, ts_rewrite *rewrite);

#endif
