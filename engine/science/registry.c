/* The table of all functions, and how ranges go through it. */
#include "science/rows.h"

#include <math.h>
#include <string.h>

#include "quantity/interval.h"

enum { WIDEN = 4 }; /* units in the last place, for the rounding inside a function */

/* Topics in the order of the alphabet, as the reference prints them. */
static const ts_function functions[] = {
#include "science/breath.inc"
#include "science/chamber.inc"
#include "science/decompression.inc"
#include "science/electricity.inc"
#include "science/gas.inc"
#include "science/light.inc"
#include "science/motion.inc"
#include "science/pressure.inc"
#include "science/rescue.inc"
#include "science/sound.inc"
#include "science/structure.inc"
#include "science/thermal.inc"
#include "science/water.inc"
    {.name = NULL},
};

const ts_function *ts_functions(void) { return functions; }

const ts_function *ts_function_find(const char *name) {
  for (const ts_function *f = functions; f->name != NULL; f++)
    if (strcmp(f->name, name) == 0) return f;
  return NULL;
}

/* Takes an argument into *out, its ends cut to the valid range when they stand
 * outside by rounding alone. False when it is outside (or not a number). */
static bool take_argument(const ts_argument *argument, ts_range given, ts_range *out) {
  double slack_lo = 1e-9 * fabs(argument->lo), slack_hi = 1e-9 * fabs(argument->hi);
  if (!(given.lo >= argument->lo - slack_lo && given.hi <= argument->hi + slack_hi)) return false;
  if (!(given.lo <= given.hi)) return false;
  out->lo = ts_least(ts_most(given.lo, argument->lo), argument->hi);
  out->hi = ts_least(ts_most(given.hi, argument->lo), argument->hi);
  return true;
}

/* A search ends a rounding to either side, so the corners of a narrow box may come out crossed. */
static ts_range uncrossed(ts_range r) { return (ts_range){ts_least(r.lo, r.hi), ts_most(r.lo, r.hi)}; }

/* The two corners that matter: where every argument pulls down, and where every one pulls up. */
static ts_range from_corners(const ts_function *function, const ts_range *x) {
  double low[TS_ARGUMENTS_MAX], high[TS_ARGUMENTS_MAX];
  for (int i = 0; i < function->count; i++) {
    bool rises = function->argument[i].direction == TS_RISES;
    low[i] = rises ? x[i].lo : x[i].hi;
    high[i] = rises ? x[i].hi : x[i].lo;
  }
  return (ts_range){function->point(low), function->point(high)};
}

/* A search ends a few roundings from the root, on either side of it. */
static ts_range widen_search(ts_range r) {
  return (ts_range){r.lo - 1e-12 * fabs(r.lo), r.hi + 1e-12 * fabs(r.hi)};
}

ts_range ts_function_apply(const ts_function *function, const ts_range *x, bool *open) {
  ts_range widest = {function->lo, function->hi}, taken[TS_ARGUMENTS_MAX];
  *open = true;
  for (int i = 0; i < function->count; i++)
    if (!take_argument(&function->argument[i], x[i], &taken[i])) return widest;
  ts_range result =
      function->range != NULL ? function->range(taken) : from_corners(function, taken);
  if (function->iterated) result = uncrossed(result);
  if (!(result.lo <= result.hi)) return widest; /* a NaN, which no row should give */
  if (function->iterated) result = widen_search(result);
  if (!function->exact) result = ts_range_widen(result, WIDEN);
  *open = false;
  return (ts_range){ts_least(ts_most(result.lo, widest.lo), widest.hi),
                    ts_most(ts_least(result.hi, widest.hi), widest.lo)};
}
