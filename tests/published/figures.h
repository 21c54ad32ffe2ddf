/* How a published figure is checked.
 *
 * Each test_<topic>.c here has one table of figures and ends in FIGURE_SUITE. A
 * row names the function, gives its arguments in SI units, the expected result,
 * the tolerance with its reason, and the source. Every row goes the way a rule
 * goes: found by name, applied as ranges. `id` groups rows of one source. */
#ifndef TANKSIDE_TESTS_FIGURES_H
#define TANKSIDE_TESTS_FIGURES_H

#include <check.h>
#include <stddef.h>

#include "tankside/science.h"

typedef struct {
  const char *id, *function;
  double x[TS_ARGUMENTS_MAX];
  double expected, tolerance;
  const char *why; /* this tolerance */
  const char *source;
} figure;

/* Reasons for a tolerance. */
#define DIGIT "one unit of the last digit printed"
#define ROUNDING "the figure is printed rounded"
#define TABLE "exact: a table cell"
#define EXACT "exact by definition, but for rounding in doubles"
#define CHART "half a degree: the chart prints whole degrees"

/* Units, as factors to SI. */
#define MINUTES *60.0
#define HOURS *3600.0
#define LITRES *1e-3
#define L_PER_MIN *(1e-3 / 60)
#define M3_PER_H *(1 / 3600.0)
#define KPA *1e3
#define BAR_ *1e5
#define ATM *101325.0
#define PSI *6894.757293168
#define MMHG *133.322387415
#define FEET *0.3048
#define INCHES *0.0254
#define POUNDS *0.45359237
#define GALLONS *3.785411784e-3
#define CUBIC_FEET *0.028316846592
#define CFM *(0.028316846592 / 60)
#define MG_L *1e-3
#define KNOTS *(1852.0 / 3600)
#define KM_H *(1 / 3.6)
#define MPH *0.44704
#define PERCENT *0.01
#define DEGC(t) ((t) + 273.15)
#define DEGF(t) (((t)-32) / 1.8 + 273.15)
#define FAHRENHEIT_DEGREES *(1 / 1.8)

static inline void check_figure(const figure *row) {
  const ts_function *f = ts_function_find(row->function);
  ck_assert_msg(f != NULL, "%s: no function %s", row->id, row->function);
  ts_range x[TS_ARGUMENTS_MAX];
  for (int i = 0; i < f->count; i++) x[i] = (ts_range){row->x[i], row->x[i]};
  bool open = true;
  ts_range got = ts_function_apply(f, x, &open);
  ck_assert_msg(!open, "%s: %s is open here", row->id, row->function);
  /* The last term is for the doubles of the expected value itself. */
  double near = row->tolerance + 1e-12 * (row->expected < 0 ? -row->expected : row->expected);
  ck_assert_msg(got.lo >= row->expected - near && got.hi <= row->expected + near,
                "%s: %s gives %.10g..%.10g, published %.10g +- %g (%s; %s)", row->id, row->function,
                got.lo, got.hi, row->expected, row->tolerance, row->why, row->source);
}

/* All rows of a file, for test_coverage.c, which has to know every file's name. */
typedef struct {
  const figure *rows;
  size_t count;
} figure_rows;

#define FIGURE_ROWS(name_)                                                                         \
  figure_rows figures_of_##name_(void);                                                            \
  figure_rows figures_of_##name_(void) {                                                           \
    return (figure_rows){figures, sizeof figures / sizeof *figures};                               \
  }

/* The suite of a file: every row of `figures` is one test. */
#define FIGURE_SUITE(name_)                                                                        \
  FIGURE_ROWS(name_)                                                                               \
  START_TEST(figure_holds) { check_figure(&figures[_i]); }                                         \
  END_TEST                                                                                         \
  Suite *suite_##name_(void);                                                                      \
  Suite *suite_##name_(void) {                                                                     \
    Suite *suite = suite_create("published " #name_);                                              \
    TCase *rows = tcase_create("figures");                                                         \
    tcase_add_loop_test(rows, figure_holds, 0, (int)(sizeof figures / sizeof *figures));           \
    suite_add_tcase(suite, rows);                                                                  \
    return suite;                                                                                  \
  }

#endif
