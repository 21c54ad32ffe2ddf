/* The registry as a whole: every row is complete, every direction it claims is
 * true, every range it gives encloses what it should. Figures are checked in
 * tests/published. */
#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "tankside/science.h"

enum { SAMPLES = 2000, BOXES = 10000, BOXES_SHORT = 100, INSIDE = 12, CORNERS = 6 };

/* Small and repeatable: the same points on every machine. */
static double next_unit(uint64_t *state) {
  *state = *state * 6364136223846793005u + 1442695040888963407u;
  return (double)(*state >> 11) / 9007199254740992.0;
}

/* A value of the argument's valid range: evenly, crowded to the low end, or an end itself. */
static double pick(const ts_argument *a, uint64_t *state) {
  double kind = next_unit(state), u = next_unit(state);
  if (kind < 0.05) return u < 0.5 ? a->lo : a->hi;
  if (kind < 0.40) u = u * u * u * u;
  return fmin(a->lo + u * (a->hi - a->lo), a->hi);
}

static void pick_all(const ts_function *f, double *x, uint64_t *state) {
  for (int i = 0; i < f->count; i++) x[i] = pick(&f->argument[i], state);
}

/* What rounding inside a function may do to an order of two results. */
static double slack(const ts_function *f, double a, double b) {
  return f->exact ? 0 : 1e-12 * fmax(fabs(a), fabs(b));
}

static bool filled(const char *text) { return text != NULL && text[0] != '\0'; }

START_TEST(every_text_is_there) {
  for (const ts_function *f = ts_functions(); f->name != NULL; f++) {
    ck_assert_msg(filled(f->topic) && filled(f->meaning) && filled(f->formula) &&
                      filled(f->source) && filled(f->limits) && filled(f->example),
                  "%s lacks a text", f->name);
    ck_assert_msg(f->unit != NULL && f->point != NULL, "%s lacks unit or point", f->name);
  }
}
END_TEST

START_TEST(names_are_in_order_and_unique) {
  const ts_function *before = NULL;
  for (const ts_function *f = ts_functions(); f->name != NULL; before = f++) {
    ck_assert_ptr_eq(ts_function_find(f->name), f); /* the first of that name: so no second one */
    ck_assert_msg(strspn(f->name, "abcdefghijklmnopqrstuvwxyz0123456789_") == strlen(f->name), "%s",
                  f->name);
    if (before == NULL) continue;
    int topics = strcmp(before->topic, f->topic);
    ck_assert_msg(topics < 0 || (topics == 0 && strcmp(before->name, f->name) < 0),
                  "%s stands before %s", before->name, f->name);
  }
  ck_assert_ptr_null(ts_function_find("no_such_function"));
}
END_TEST

START_TEST(formulas_name_their_arguments) {
  for (const ts_function *f = ts_functions(); f->name != NULL; f++)
    for (int i = 0; i < f->count; i++)
      ck_assert_msg(strstr(f->formula, f->argument[i].name) != NULL, "formula of %s lacks %s",
                    f->name, f->argument[i].name);
}
END_TEST

START_TEST(examples_have_one_text_an_argument) {
  for (const ts_function *f = ts_functions(); f->name != NULL; f++) {
    int quotes = 0;
    for (const char *c = f->example; *c != '\0'; c++) quotes += *c == '\'';
    ck_assert_msg(quotes == 2 * f->count, "example of %s", f->name);
  }
}
END_TEST

/* Copies the next quoted text of an example; returns what follows it. */
static const char *next_quoted(const char *from, char *out, size_t size) {
  const char *open = strchr(from, '\''), *close = open == NULL ? NULL : strchr(open + 1, '\'');
  ck_assert(close != NULL && (size_t)(close - open) < size);
  memcpy(out, open + 1, (size_t)(close - open - 1));
  out[close - open - 1] = '\0';
  return close + 1;
}

/* Every example reads with the dimensions of its arguments and gives a result. */
START_TEST(examples_run) {
  char why[200], text[96];
  ts_units *units = ts_units_new(why, sizeof why);
  ck_assert_msg(units != NULL, "%s", why);
  for (const ts_function *f = ts_functions(); f->name != NULL; f++) {
    ts_range x[TS_ARGUMENTS_MAX];
    const char *rest = f->example;
    for (int i = 0; i < f->count; i++) {
      ts_dim dim;
      rest = next_quoted(rest, text, sizeof text);
      ck_assert_msg(ts_quantity_read(units, text, &x[i], &dim, why, sizeof why), "%s: %s", f->name,
                    why);
      ck_assert_msg(dim == f->argument[i].dim, "%s: '%s' has another dimension than %s", f->name,
                    text, f->argument[i].name);
    }
    bool open = true;
    ts_function_apply(f, x, &open);
    ck_assert_msg(!open, "the example of %s is open", f->name);
  }
  ts_units_free(units);
}
END_TEST

static void assert_unit(const ts_units *units, const char *name, const char *unit, ts_dim dim) {
  char why[200];
  double si;
  ts_dim found = TS_NUMBER;
  bool read = unit[0] == '\0' || ts_unit_convert(units, unit, 1, &si, &found, why, sizeof why);
  ck_assert_msg(read, "%s: %s", name, why);
  ck_assert_msg(found == dim, "%s: \"%s\" has another dimension", name, unit);
}

START_TEST(units_fit_the_dimensions) {
  char why[200];
  ts_units *units = ts_units_new(why, sizeof why);
  ck_assert_msg(units != NULL, "%s", why);
  for (const ts_function *f = ts_functions(); f->name != NULL; f++) {
    assert_unit(units, f->name, f->unit, f->dim);
    for (int i = 0; i < f->count; i++)
      assert_unit(units, f->name, f->argument[i].unit, f->argument[i].dim);
  }
  ts_units_free(units);
}
END_TEST

START_TEST(ranges_are_ranges) {
  for (const ts_function *f = ts_functions(); f->name != NULL; f++) {
    ck_assert_msg(f->count >= 1 && f->count <= TS_ARGUMENTS_MAX, "%s", f->name);
    ck_assert_msg(f->lo < f->hi && isfinite(f->lo) && isfinite(f->hi), "%s", f->name);
    bool turns = false;
    for (int i = 0; i < f->count; i++) {
      const ts_argument *a = &f->argument[i];
      ck_assert_msg(a->lo < a->hi && isfinite(a->lo) && isfinite(a->hi), "%s %s", f->name, a->name);
      ck_assert_msg(filled(a->name) && a->unit != NULL, "%s", f->name);
      turns = turns || a->direction == TS_TURNS;
    }
    ck_assert_msg(turns == (f->range != NULL), "%s: a range function if and only if one turns",
                  f->name);
  }
}
END_TEST

START_TEST(results_stay_within_the_widest) {
  uint64_t state = 1;
  double x[TS_ARGUMENTS_MAX];
  for (const ts_function *f = ts_functions(); f->name != NULL; f++)
    for (int n = 0; n < SAMPLES; n++) {
      pick_all(f, x, &state);
      double y = f->point(x);
      if (!(y >= f->lo && y <= f->hi))
        ck_abort_msg("%s gives %g outside [%g, %g]", f->name, y, f->lo, f->hi);
    }
}
END_TEST

/* The least and the greatest result of a row lie at two corners of its valid ranges. */
START_TEST(extremes_stay_within_the_widest) {
  for (const ts_function *f = ts_functions(); f->name != NULL; f++) {
    if (f->range != NULL) continue;
    double low[TS_ARGUMENTS_MAX], high[TS_ARGUMENTS_MAX];
    for (int i = 0; i < f->count; i++) {
      bool rises = f->argument[i].direction == TS_RISES;
      low[i] = rises ? f->argument[i].lo : f->argument[i].hi;
      high[i] = rises ? f->argument[i].hi : f->argument[i].lo;
    }
    double least = f->point(low), most = f->point(high);
    ck_assert_msg(least >= f->lo && most <= f->hi, "%s reaches [%g, %g], claims [%g, %g]", f->name,
                  least, most, f->lo, f->hi);
  }
}
END_TEST

/* Moves one argument up and asks whether the result went the claimed way. */
static bool direction_holds(const ts_function *f, int i, uint64_t *state) {
  double x[TS_ARGUMENTS_MAX];
  pick_all(f, x, state);
  double first = x[i], second = pick(&f->argument[i], state);
  if (next_unit(state) < 0.3) second = first + (second - first) * 1e-3; /* small steps too */
  x[i] = fmin(first, second);
  double below = f->point(x);
  x[i] = fmax(first, second);
  double above = f->point(x);
  double allowed = slack(f, below, above);
  return f->argument[i].direction == TS_RISES ? above >= below - allowed : above <= below + allowed;
}

START_TEST(directions_hold) {
  uint64_t state = 2;
  for (const ts_function *f = ts_functions(); f->name != NULL; f++)
    for (int i = 0; i < f->count; i++)
      for (int n = 0; n < SAMPLES && f->argument[i].direction != TS_TURNS; n++)
        if (!direction_holds(f, i, &state))
          ck_abort_msg("%s goes the wrong way with %s", f->name, f->argument[i].name);
}
END_TEST

/* An argument that is said to turn must be seen to go both ways. */
START_TEST(turning_arguments_turn) {
  uint64_t state = 3;
  double x[TS_ARGUMENTS_MAX];
  for (const ts_function *f = ts_functions(); f->name != NULL; f++)
    for (int i = 0; i < f->count; i++) {
      if (f->argument[i].direction != TS_TURNS) continue;
      bool up = false, down = false;
      for (int n = 0; n < 20 * SAMPLES; n++) {
        pick_all(f, x, &state);
        double first = f->point(x), at = x[i];
        x[i] = pick(&f->argument[i], &state);
        if (n % 2 == 0) x[i] = at + (x[i] - at) * 1e-3; /* some turn only at a seam */
        double second = f->point(x), change = x[i] > at ? second - first : first - second;
        up = up || change > slack(f, first, second);
        down = down || change < -slack(f, first, second);
      }
      ck_assert_msg(up && down, "%s does not turn with %s", f->name, f->argument[i].name);
    }
}
END_TEST

static void pick_box(const ts_function *f, ts_range *box, uint64_t *state) {
  double narrow = next_unit(state);
  for (int i = 0; i < f->count; i++) {
    double a = pick(&f->argument[i], state), b = pick(&f->argument[i], state);
    if (narrow < 0.3) b = a + (b - a) * 0.01;
    if (next_unit(state) < 0.2) b = a;
    box[i] = (ts_range){fmin(a, b), fmax(a, b)};
  }
}

static void inside(const ts_function *f, const ts_range *box, double *x, uint64_t *state) {
  for (int i = 0; i < f->count; i++)
    x[i] = fmin(box[i].lo + next_unit(state) * (box[i].hi - box[i].lo), box[i].hi);
}

/* Bit i of `bits` says whether argument i stands at its upper end. */
static void corner(const ts_function *f, const ts_range *box, double *x, unsigned bits) {
  for (int i = 0; i < f->count; i++) x[i] = bits >> i & 1 ? box[i].hi : box[i].lo;
}

/* The corner where every argument that goes one way pulls the result up. */
static unsigned top_corner(const ts_function *f) {
  unsigned bits = 0;
  for (int i = 0; i < f->count; i++) bits |= (f->argument[i].direction == TS_RISES ? 1u : 0u) << i;
  return bits;
}

/* One point of the box, which the range must hold; *seen grows to hold it too. Every ck_assert
 * is a message to the parent, held or not: too slow for millions. */
static void see(const ts_function *f, const double *x, ts_range all, ts_range *seen) {
  double y = f->point(x);
  if (!(y >= all.lo && y <= all.hi))
    ck_abort_msg("%s: %.17g outside [%.17g, %.17g]", f->name, y, all.lo, all.hi);
  *seen = (ts_range){fmin(seen->lo, y), fmax(seen->hi, y)};
}

/* Nothing is claimed that a point near does not reach: to 1 % of what was seen. */
static void assert_tight(const ts_function *f, ts_range all, ts_range seen) {
  double size = fmax(fabs(seen.lo), fabs(seen.hi));
  double slack = 0.01 * (seen.hi - seen.lo) + (f->iterated ? 2e-12 : 1e-14) * size + 1e-300;
  if (f->exact) slack = 0;
  if (!(all.lo >= seen.lo - slack && all.hi <= seen.hi + slack))
    ck_abort_msg("%s: [%.17g, %.17g] where points reach [%.17g, %.17g] only", f->name, all.lo,
                 all.hi, seen.lo, seen.hi);
}

static void try_box(const ts_function *f, uint64_t *state) {
  ts_range box[TS_ARGUMENTS_MAX], seen = {INFINITY, -INFINITY};
  double x[TS_ARGUMENTS_MAX];
  pick_box(f, box, state);
  bool open = true;
  ts_range all = ts_function_apply(f, box, &open);
  if (open) ck_abort_msg("%s is open inside its valid range", f->name);
  for (int k = 0; k < INSIDE; k++) {
    inside(f, box, x, state);
    see(f, x, all, &seen);
  }
  for (int k = 0; k < CORNERS; k++) {
    corner(f, box, x, k == 0 ? top_corner(f) : k == 1 ? ~top_corner(f) : (unsigned)(*state >> 33));
    next_unit(state);
    see(f, x, all, &seen);
  }
  if (f->range == NULL) assert_tight(f, all, seen);
}

START_TEST(ranges_enclose_and_are_tight) {
  uint64_t state = 4;
  int boxes = getenv("TANKSIDE_TEST_SHORT") != NULL ? BOXES_SHORT : BOXES;
  for (const ts_function *f = ts_functions(); f->name != NULL; f++)
    for (int n = 0; n < boxes; n++) try_box(f, &state);
}
END_TEST

/* A settled value must come out settled, but for rounding: ranges are not padded. */
START_TEST(points_stay_points) {
  uint64_t state = 5;
  double x[TS_ARGUMENTS_MAX];
  ts_range box[TS_ARGUMENTS_MAX];
  for (const ts_function *f = ts_functions(); f->name != NULL; f++)
    for (int n = 0; n < 100; n++) {
      pick_all(f, x, &state);
      for (int i = 0; i < f->count; i++) box[i] = (ts_range){x[i], x[i]};
      bool open = true;
      ts_range all = ts_function_apply(f, box, &open);
      double y = f->point(x);
      ck_assert_msg(all.lo <= y && y <= all.hi, "%s", f->name);
      double allowed = f->iterated ? 3e-12 : 1e-14;
      ck_assert_msg(all.hi - all.lo <= allowed * fabs(y) + 1e-300, "%s: %.17g .. %.17g", f->name,
                    all.lo, all.hi);
      ck_assert_msg(!f->exact || all.lo == all.hi, "%s is exact but was widened", f->name);
    }
}
END_TEST

static void assert_open(const ts_function *f, int i, ts_range bad) {
  ts_range box[TS_ARGUMENTS_MAX];
  for (int k = 0; k < f->count; k++) box[k] = (ts_range){f->argument[k].lo, f->argument[k].lo};
  box[i] = bad;
  bool open = false;
  ts_range all = ts_function_apply(f, box, &open);
  ck_assert_msg(open, "%s: %s from %g to %g is not open", f->name, f->argument[i].name, bad.lo,
                bad.hi);
  ck_assert_msg(all.lo == f->lo && all.hi == f->hi, "%s: open is not the widest", f->name);
}

START_TEST(outside_the_valid_range_is_open) {
  for (const ts_function *f = ts_functions(); f->name != NULL; f++)
    for (int i = 0; i < f->count; i++) {
      double lo = f->argument[i].lo, hi = f->argument[i].hi, step = 0.01 * (hi - lo);
      assert_open(f, i, (ts_range){lo - step, lo});
      assert_open(f, i, (ts_range){hi, hi + step});
      assert_open(f, i, (ts_range){lo - step, hi + step});
      assert_open(f, i, (ts_range){-INFINITY, INFINITY});
      assert_open(f, i, (ts_range){NAN, NAN});
      assert_open(f, i, (ts_range){lo, NAN});
    }
}
END_TEST

/* 40 degC read from text may be one rounding above the row's own 40 degC. */
START_TEST(an_end_reached_by_rounding_is_inside) {
  for (const ts_function *f = ts_functions(); f->name != NULL; f++) {
    ts_range box[TS_ARGUMENTS_MAX];
    for (int i = 0; i < f->count; i++) {
      double hi = f->argument[i].hi;
      box[i] = (ts_range){hi, nextafter(hi, INFINITY)};
    }
    bool open = true;
    ts_function_apply(f, box, &open);
    ck_assert_msg(!open, "%s", f->name);
  }
}
END_TEST

Suite *suite_science(void);

Suite *suite_science(void) {
  Suite *suite = suite_create("science");
  TCase *texts = tcase_create("texts");
  tcase_add_test(texts, every_text_is_there);
  tcase_add_test(texts, names_are_in_order_and_unique);
  tcase_add_test(texts, formulas_name_their_arguments);
  tcase_add_test(texts, examples_have_one_text_an_argument);
  tcase_add_test(texts, examples_run);
  tcase_add_test(texts, units_fit_the_dimensions);
  tcase_add_test(texts, ranges_are_ranges);
  suite_add_tcase(suite, texts);
  TCase *values = tcase_create("values");
  tcase_set_timeout(values, 60);
  tcase_add_test(values, results_stay_within_the_widest);
  tcase_add_test(values, extremes_stay_within_the_widest);
  tcase_add_test(values, directions_hold);
  tcase_add_test(values, turning_arguments_turn);
  tcase_add_test(values, ranges_enclose_and_are_tight);
  tcase_add_test(values, points_stay_points);
  tcase_add_test(values, outside_the_valid_range_is_open);
  tcase_add_test(values, an_end_reached_by_rounding_is_inside);
  suite_add_tcase(suite, values);
  return suite;
}
