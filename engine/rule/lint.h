/* What a rule file may not contain, found before it is compiled.
 *
 * Lua would let some mistakes pass silently: `==` between quantities never
 * calls a metamethod, and some constructs miscompile or crash in packaged
 * versions. One pass over the tokens refuses them with file and line. */
#ifndef TS_RULE_LINT_H
#define TS_RULE_LINT_H

#include "tankside/diagnostics.h"
#include <stdbool.h>

enum { TS_RULE_FILE_LIMIT = 64 * 1024 }; /* bytes; the Lua parser recurses on larger ones */

/* True when the text is acceptable; else every finding is reported against `name`. */
bool ts_lint(const char *text, size_t length, const char *name, ts_diagnostics *problems);

#endif
