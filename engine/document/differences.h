/* Two XML trees that should be the same, and where they are not.
 *
 * Stage-internal; the public door is ts_assessment_differences. */
#ifndef TS_DOCUMENT_DIFFERENCES_H
#define TS_DOCUMENT_DIFFERENCES_H

#include "base/xml.h"

/* Reports, against the file `name`, each place where `given` is not as `expected`: an attribute or
 * text that reads otherwise, an element too many or too few. The first `limit` of them are
 * reported one by one. Returns how many there are. */
size_t ts_tree_differences(const ts_xml *given, const ts_xml *expected, const char *name,
                           size_t limit, ts_diagnostics *problems);

/* The same for two pages of HTML, whose bytes are not the same: each place is named by its
 * elements. */
void ts_page_differences(const char *given, size_t given_length, const char *expected,
                         size_t expected_length, const char *name, size_t limit, size_t *count,
                         ts_diagnostics *problems);

#endif
