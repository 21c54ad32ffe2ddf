/* The built-in vocabulary as tables: which entities there are and what can be
 * said about each. The rows are data; reading, checking and printing them is
 * the business of tankside/dossier.h.
 *
 * Rows of one entity follow each other, in the order of the reference page.
 * The rows themselves stand in vocabulary_*.def, one file a section. */
#ifndef TS_DOSSIER_VOCABULARY_H
#define TS_DOSSIER_VOCABULARY_H

#include "tankside/dossier.h"

/* All built-in entities, parents before what stands in them. Never freed. */
const ts_entity_def *ts_builtin_entities(size_t *count);

/* All built-in facts, in the order of the entities. Never freed. */
const ts_fact_def *ts_builtin_facts(size_t *count);

#endif
