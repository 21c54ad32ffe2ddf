/* Arithmetic on closed ranges, ends rounded to nearest.
 * Low-level; calls nothing above. Every function encloses all point results. */
#ifndef TS_QUANTITY_INTERVAL_H
#define TS_QUANTITY_INTERVAL_H

#include "tankside/quantity.h"

/* As fmin and fmax of the C library, which compilers call: a number rather than no number. */
static inline double ts_least(double a, double b) { return a < b || b != b ? a : b; }
static inline double ts_most(double a, double b) { return a > b || b != b ? a : b; }

ts_range ts_range_add(ts_range a, ts_range b);
ts_range ts_range_sub(ts_range a, ts_range b);
ts_range ts_range_mul(ts_range a, ts_range b); /* 0 times an infinite end counts as 0 */
ts_range ts_range_div(ts_range a, ts_range b); /* infinite ends where b touches zero */
ts_range ts_range_min(ts_range a, ts_range b);
ts_range ts_range_max(ts_range a, ts_range b);
ts_range ts_range_abs(ts_range a);
ts_range ts_range_power(ts_range a, int k);    /* k >= 0 */
ts_range ts_range_root(ts_range a, double k);  /* a >= 0 is cut first; pow(a, 1/k) */
/* The ends `steps` units in the last place further out. */
ts_range ts_range_widen(ts_range a, int steps);
/* The common part; false when there is none (then *a is left as it is). */
bool ts_range_meet(ts_range *a, ts_range b);

#endif
