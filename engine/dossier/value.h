/* Reading the text of one fact. Stage-internal. */
#ifndef TS_DOSSIER_VALUE_H
#define TS_DOSSIER_VALUE_H

#include "dossier/subjects.h"
#include "dossier/vocabulary_index.h"

/* Where a text stands, for messages. */
typedef struct {
  ts_diagnostics *problems;
  const char *file;
  int line;
} ts_place;

/* The same in all it holds, the text as written too. */
bool ts_same_value(const ts_value *a, const ts_value *b);

/* Reads `text` (kept: it must live as long as the value) for any type but
 * TS_ID, TS_REF and TS_REFS. On success fills *value. On failure reports and
 * leaves *value alone. */
bool ts_value_read(const ts_units *units, ts_arena *arena, const ts_known_fact *fact,
                   const char *text, ts_value *value, const ts_place *place);

#endif
