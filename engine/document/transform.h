/* Transform: assessment.xml through a stylesheet of templates/ to HTML.
 *
 * Internal to engine/document; the public door is tankside/document.h. */
#ifndef TS_DOCUMENT_TRANSFORM_H
#define TS_DOCUMENT_TRANSFORM_H

#include "base/arena.h"
#include "base/text.h"
#include "base/xml.h"
#include "tankside/document.h"
#include <libxslt/security.h>
#include <libxslt/xsltInternals.h>

/* Parses an assessment and checks that it is one, of a format this library
 * knows. What is not printed need not be held: `without` names elements that are left out, apart by
 * spaces, or is NULL. NULL with a report. The bytes must outlive the result; ts_xml_free. */
ts_xml *ts_document_open(const char *bytes, size_t length, const char *without,
                         ts_diagnostics *problems);

/* Left out where only the production, its days and tasks are asked for. */
#define TS_ALL_BUT_SCHEDULE                                                                        \
  "findings duties subjects elsewhere looked-at controls open-facts remedies charts"

/* The same for a document whose root is `kind`; `name` is used in messages. */
ts_xml *ts_document_open_as(const char *kind, const char *bytes, size_t length, const char *name,
                            ts_diagnostics *problems);

/* What is no assessment, but is turned into something readable all the same. NUL-terminated, for
 * free(); false with a report. */
bool ts_document_transform(const char *stylesheet, const char *name, const char *bytes,
                           size_t length, char **result, size_t *result_length,
                           ts_diagnostics *problems);

/* The language that assessment.xml itself is written in. */
#define TS_WRITTEN_IN "en-GB"

/* A word of that language by its id, for what is put into a tree before a stylesheet sees it, or
 * into a table; "" where there is none. In the arena. */
const char *ts_language_word(ts_arena *arena, const char *id);

/* As ts_sheet_each_task, on a parsed assessment. */
bool ts_document_each_task(const xmlNode *root, bool (*visit)(void *data, const char *path),
                           void *data);

/* The stylesheet in templates/ for "a4", "letter" or NULL (A4); NULL with a report for any other.
 */
const char *ts_document_paper(const char *paper, ts_diagnostics *problems);

/* The content of a spreadsheet (content.xml), and its settings (settings.xml) or NULL, made into
 * the file; false when it cannot be. Release *ods in any case. */
bool ts_document_spreadsheet(const char *content, size_t length, const char *settings,
                             ts_text *ods);

/* Makes characters that turn the direction of writing visible, in every text of what is
 * to become a paper. Changes the tree. */
void ts_document_plain(xmlNode *root);

/* What a stylesheet may reach: it reads inside `folder` and nothing else; no
 * writing, no network. Held between begin and end; libxslt checks imports
 * against its process-wide preferences only, so this sets them and `end` puts
 * back what was there. Not for two threads at once. */
typedef struct {
  xsltSecurityPrefsPtr prefs, before;
} ts_document_guard;
bool ts_document_guard_begin(ts_document_guard *guard);
void ts_document_guard_end(ts_document_guard *guard);

#endif
