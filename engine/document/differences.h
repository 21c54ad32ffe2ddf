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

#endif
