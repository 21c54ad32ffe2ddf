/* Totals against ceilings: a rule that names a value `ceiling`, or `ceiling` and more, says the most
 * that the value named `total`, with the same more, may be. */
#ifndef TS_ASSESS_CEILING_H
#define TS_ASSESS_CEILING_H

#include "rule/rule.h"

/* What follows "ceiling" in a value's name; NULL where it is not one. */
const char *ts_after_ceiling(const ts_shown *value);

/* The total that goes with value `index` of what a rule says; NULL where that is no ceiling or has
 * none. *more is what both names say beyond that: "_in_7_days", or "". */
const ts_shown *ts_ceiling_total(const ts_outcome *outcome, size_t index, const char **more);

#endif
