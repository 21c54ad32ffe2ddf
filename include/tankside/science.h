/* Science: the registry of functions that rules, C and `tankside calc` share.
 *
 * Each function is one row: its name in the field's standard term, arguments
 * with dimension and valid range, the direction in which the result moves
 * with each argument, the formula as text, and where it was published. A
 * function maps points to a point; ranges are carried by the registry from
 * the directions (all corners that matter, ends widened outward by a few
 * units in the last place), so no function needs to know about ranges unless
 * it is not monotone, in which case it brings its own.
 */
#ifndef TANKSIDE_SCIENCE_H
#define TANKSIDE_SCIENCE_H

#include "tankside/quantity.h"

enum { TS_ARGUMENTS_MAX = 8 };

typedef enum {
  TS_RISES,  /* the result never falls when the argument rises */
  TS_FALLS,  /* the result never rises when the argument rises */
  TS_TURNS   /* neither: the row has its own range function */
} ts_direction;

typedef struct {
  const char *name;     /* "water_temperature", as written in rules */
  ts_dim dim;
  const char *unit;     /* for people: "degC"; "" for a plain number */
  double lo, hi;        /* valid range, in SI units; outside it the result is open */
  ts_direction direction;
} ts_argument;

typedef struct ts_function {
  const char *name;     /* "ambient_pressure" */
  const char *topic;    /* "pressure": the file and the heading in the reference */
  const char *meaning;  /* one line */
  ts_dim dim;           /* of the result */
  const char *unit;     /* for people */
  double lo, hi;        /* the widest result there can be, SI: what "open" means */
  const char *formula;  /* "p = p0 + rho g d", with the argument names */
  const char *source;   /* document, year, section; or "common practice"; or ends in "(from memory)" */
  const char *limits;   /* what the model leaves out, how rough it is */
  int count;            /* of arguments */
  ts_argument argument[TS_ARGUMENTS_MAX];
  double (*point)(const double *x);        /* SI in, SI out; pure */
  /* Only where some direction is TS_TURNS, else NULL: encloses every result
   * for arguments in the ranges. */
  ts_range (*range)(const ts_range *x);
  /* One worked line to try: arguments for `tankside calc`, each in single quotes. */
  const char *example;
  bool exact;           /* read from a table or counted: the ends are not widened */
  bool iterated;        /* found by search: the ends are widened by 1e-12 of their size */
} ts_function;

/* All functions, ordered by topic and name; ends with a row whose name is NULL. */
const ts_function *ts_functions(void);

/* The function with this name, or NULL. */
const ts_function *ts_function_find(const char *name);

/* The result for arguments in the given ranges (SI), `function->count` of
 * them. Encloses every point result. When any part of an argument lies outside
 * its valid range, *open is set to true and the result is the function's
 * widest range [lo, hi]: open, not a number that looks right. Else *open is
 * set to false. An argument may stand outside by rounding (1e-9 of the end). */
ts_range ts_function_apply(const ts_function *function, const ts_range *x, bool *open);

#endif
