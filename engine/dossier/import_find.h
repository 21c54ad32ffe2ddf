/* Finding whom a table speaks of, among subjects that are there and those that are new. Private to
 * the import. */
#ifndef TS_DOSSIER_IMPORT_FIND_H
#define TS_DOSSIER_IMPORT_FIND_H

#include "dossier/import_int.h"

extern const ts_import_target ts_import_nobody;
bool ts_import_is_somebody(ts_import_target target);

/* Its path; of a new one its name. */
const char *ts_import_path(const ts_import *import, ts_import_target target);

/* A structure or text fact of it as written, or NULL. */
const char *ts_import_text(const ts_import *import, ts_import_target target, const char *fact);

/* Goes through all of an entity that stand in `in` (nobody: anywhere); *at begins with 0. */
bool ts_import_next(const ts_import *import, uint32_t entity, ts_import_target in, size_t *at,
                    ts_import_target *found);

/* How many go by these words: one whose path they are, else those with such a title or name. */
size_t ts_import_lookup(const ts_import *import, uint32_t entity, const char *words,
                        ts_import_target in, ts_import_target *found);

/* The one that goes by these words. False with a report. */
bool ts_import_one(const ts_import *import, uint32_t entity, const char *words, ts_import_target in,
                   ts_import_target *found, const char *where);

/* What a reference has to say for it to name what the words name. NULL with a report. */
const char *ts_import_resolve(const ts_import *import, const ts_known_fact *fact, const char *words,
                              const char *where);

#endif
