/* Changes to a dossier's files, gathered and then made all at once: values, new elements and
 * evidence go in, every file comes out with nothing else changed. Order, comments and spacing of
 * the rest stay as somebody wrote them. Nothing is written here. */
#ifndef TS_DOSSIER_REWRITE_H
#define TS_DOSSIER_REWRITE_H

#include "dossier/edit.h"

typedef struct ts_rewrite ts_rewrite;
typedef struct ts_rewrite_element ts_rewrite_element; /* one that is to be added */

/* The dossier must outlive it. Free with ts_rewrite_free. */
ts_rewrite *ts_rewrite_new(const ts_dossier *dossier, ts_diagnostics *problems);
void ts_rewrite_free(ts_rewrite *rewrite);

/* What stands in a source now; the bytes must outlive it. Comes before any change in that source.
 * False, with a report, when it is not the text that was read. */
bool ts_rewrite_source(ts_rewrite *rewrite, size_t source, const char *text, size_t length);

/* Puts `value` where the fact is written, else in a new attribute, else in a new element. Each
 * fact once. False, with a report, when the fact is not one that is written. */
bool ts_rewrite_fact(ts_rewrite *rewrite, uint32_t slot, const char *value);

/* Adds an element of an entity to a subject (TS_NO_SUBJECT: at the top of the dossier), or to one
 * that is itself added: behind its like, else where the order of the vocabulary has it. Lives as
 * long as the rewrite. NULL, with a report, where there is no place for it. */
ts_rewrite_element *ts_rewrite_add(ts_rewrite *rewrite, const ts_entity_def *entity,
                                   ts_subject parent, ts_rewrite_element *in);
/* States one of its facts. */
void ts_rewrite_say(ts_rewrite *rewrite, ts_rewrite_element *element, const ts_fact_def *fact,
                    const char *value);

/* Evidence goes before the end of a source. */
void ts_rewrite_evidence(ts_rewrite *rewrite, size_t index, const char *path,
                         const ts_edit_evidence *evidence);

/* Its element alone, on a line of its own. */
void ts_rewrite_evidence_text(const char *path, const ts_edit_evidence *evidence, ts_text *out);

/* The whole source, changed; false where nothing was changed in it. Release *out. */
bool ts_rewrite_text(ts_rewrite *rewrite, size_t source, ts_text *out);

#endif
