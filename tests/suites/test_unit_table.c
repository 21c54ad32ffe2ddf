/* quantity: what each unit is worth, what udunits2 adds, dimensions. */
#include "base/text.h"
#include "quantity/dimension.h"
#include "quantity/units.h"
#include "scratch.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (int)(sizeof rows / sizeof *rows)
#define DAY 86400.0
#define RATE TS_DIM(0, 0, -1, 0, 0, 0, 0)
#define ENERGY TS_DIM(2, 1, -2, 0, 0, 0, 0)

static ts_units *units;

static void set_up(void) {
  char why[200];
  units = ts_units_new(why, sizeof why);
  ck_assert_msg(units != NULL, "%s", why);
}

static void tear_down(void) { ts_units_free(units); }

/* ---- units -------------------------------------------------------------------------- */

/* What one of each unit is in SI, worked out here from its definition. */
#define INCH 0.0254
#define FOOT 0.3048
#define POUND 0.45359237
#define STANDARD_GRAVITY 9.80665
#define GALLON (231 * INCH * INCH * INCH)

static const struct {
  const char *unit;
  double si;
  ts_dim dim;
} each[] = {
    {"m", 1, TS_LENGTH},
    {"cm", 0.01, TS_LENGTH},
    {"km", 1000, TS_LENGTH},
    {"um", 1e-6, TS_LENGTH},
    {"nm", 1e-9, TS_LENGTH},
    {"meter", 1, TS_LENGTH},
    {"in", INCH, TS_LENGTH},
    {"inches", INCH, TS_LENGTH},
    {"foot", FOOT, TS_LENGTH},
    {"feet", FOOT, TS_LENGTH},
    {"yd", 3 * FOOT, TS_LENGTH},
    {"mi", 5280 * FOOT, TS_LENGTH},
    {"fathoms", 6 * FOOT, TS_LENGTH},
    {"nmi", 1852, TS_LENGTH},
    {"kg", 1, TS_MASS},
    {"g", 1e-3, TS_MASS},
    {"mg", 1e-6, TS_MASS},
    {"ug", 1e-9, TS_MASS},
    {"t", 1000, TS_MASS},
    {"lb", POUND, TS_MASS},
    {"lbs", POUND, TS_MASS},
    {"oz", POUND / 16, TS_MASS},
    {"short_ton", 2000 * POUND, TS_MASS},
    {"long_ton", 2240 * POUND, TS_MASS},
    {"s", 1, TS_TIME},
    {"ms", 1e-3, TS_TIME},
    {"seconds", 1, TS_TIME},
    {"min", 60, TS_TIME},
    {"minute", 60, TS_TIME},
    {"minutes", 60, TS_TIME},
    {"h", 3600, TS_TIME},
    {"hr", 3600, TS_TIME},
    {"hours", 3600, TS_TIME},
    {"d", DAY, TS_TIME},
    {"days", DAY, TS_TIME},
    {"week", 7 * DAY, TS_TIME},
    {"weeks", 7 * DAY, TS_TIME},
    {"year", 365.2425 * DAY, TS_TIME},
    {"years", 365.2425 * DAY, TS_TIME},
    {"y", 365.2425 * DAY, TS_TIME},
    {"A", 1, TS_DIM(0, 0, 0, 1, 0, 0, 0)},
    {"mA", 1e-3, TS_DIM(0, 0, 0, 1, 0, 0, 0)},
    {"V", 1, TS_DIM(2, 1, -3, -1, 0, 0, 0)},
    {"Ohm", 1, TS_DIM(2, 1, -3, -2, 0, 0, 0)},
    {"uS/cm", 1e-4, TS_DIM(-3, -1, 3, 2, 0, 0, 0)},
    {"mol/L", 1000, TS_DIM(-3, 0, 0, 0, 0, 1, 0)},
    {"Hz", 1, RATE},
    {"rpm", 1.0 / 60, RATE},
    {"lx", 1, TS_DIM(-2, 0, 0, 0, 0, 0, 1)},
    {"m2", 1, TS_AREA},
    {"cm2", 1e-4, TS_AREA},
    {"ft2", FOOT *FOOT, TS_AREA},
    {"sqft", FOOT *FOOT, TS_AREA},
    {"ha", 1e4, TS_AREA},
    {"acre", 43560 * FOOT *FOOT, TS_AREA},
    {"m3", 1, TS_VOLUME},
    {"L", 1e-3, TS_VOLUME},
    {"l", 1e-3, TS_VOLUME},
    {"litres", 1e-3, TS_VOLUME},
    {"mL", 1e-6, TS_VOLUME},
    {"gal", GALLON, TS_VOLUME},
    {"qt", GALLON / 4, TS_VOLUME},
    {"floz", GALLON / 128, TS_VOLUME},
    {"impgal", 4.54609e-3, TS_VOLUME},
    {"ft3", FOOT *FOOT *FOOT, TS_VOLUME},
    {"in3", INCH *INCH *INCH, TS_VOLUME},
    {"m3/h", 1.0 / 3600, TS_FLOW},
    {"L/min", 1e-3 / 60, TS_FLOW},
    {"L/s", 1e-3, TS_FLOW},
    {"gpm", GALLON / 60, TS_FLOW},
    {"gph", GALLON / 3600, TS_FLOW},
    {"cfm", FOOT *FOOT *FOOT / 60, TS_FLOW},
    {"m/s", 1, TS_SPEED},
    {"km/h", 1 / 3.6, TS_SPEED},
    {"kn", 1852.0 / 3600, TS_SPEED},
    {"knots", 1852.0 / 3600, TS_SPEED},
    {"mph", 5280 * FOOT / 3600, TS_SPEED},
    {"ft/s", FOOT, TS_SPEED},
    {"ft/min", FOOT / 60, TS_SPEED},
    {"fpm", FOOT / 60, TS_SPEED},
    {"m/s2", 1, TS_ACCELERATION},
    {"gn", STANDARD_GRAVITY, TS_ACCELERATION},
    {"N", 1, TS_FORCE},
    {"kN", 1000, TS_FORCE},
    {"lbf", POUND *STANDARD_GRAVITY, TS_FORCE},
    {"kgf", STANDARD_GRAVITY, TS_FORCE},
    {"Pa", 1, TS_PRESSURE},
    {"hPa", 100, TS_PRESSURE},
    {"kPa", 1000, TS_PRESSURE},
    {"MPa", 1e6, TS_PRESSURE},
    {"bar", 1e5, TS_PRESSURE},
    {"mbar", 100, TS_PRESSURE},
    {"psi", POUND *STANDARD_GRAVITY / (INCH * INCH), TS_PRESSURE},
    {"psf", POUND *STANDARD_GRAVITY / (FOOT * FOOT), TS_PRESSURE},
    {"lbf/in2", POUND *STANDARD_GRAVITY / (INCH * INCH), TS_PRESSURE},
    {"fsw", 64 * POUND *STANDARD_GRAVITY / (FOOT * FOOT), TS_PRESSURE},
    {"msw", 1e4, TS_PRESSURE},
    {"atm", 101325, TS_PRESSURE},
    {"mmHg", 13.5951 * STANDARD_GRAVITY, TS_PRESSURE},
    {"cmH2O", 10 * STANDARD_GRAVITY, TS_PRESSURE},
    {"ftH2O", 1000 * STANDARD_GRAVITY *FOOT, TS_PRESSURE},
    {"J", 1, ENERGY},
    {"kWh", 3.6e6, ENERGY},
    {"kcal", 4184, ENERGY},
    {"ft lbf", FOOT *POUND *STANDARD_GRAVITY, ENERGY},
    {"W", 1, TS_POWER},
    {"kVA", 1000, TS_POWER},
    {"hp", 550 * FOOT *POUND *STANDARD_GRAVITY, TS_POWER},
    {"mg/L", 1e-3, TS_DENSITY},
    {"ug/L", 1e-6, TS_DENSITY},
    {"g/L", 1, TS_DENSITY},
    {"kg/m3", 1, TS_DENSITY},
    {"lb/ft3", POUND / (FOOT * FOOT * FOOT), TS_DENSITY},
    {"m2/s", 1, TS_DIM(2, 0, -1, 0, 0, 0, 0)},
    {"W/m2", 1, TS_DIM(0, 1, -3, 0, 0, 0, 0)},
    {"uW/cm2", 1e-2, TS_DIM(0, 1, -3, 0, 0, 0, 0)},
    {"mJ/cm2", 10, TS_DIM(0, 1, -2, 0, 0, 0, 0)},
    {"kg/h", 1.0 / 3600, TS_DIM(0, 1, -1, 0, 0, 0, 0)},
    {"met", 58.15, TS_DIM(0, 1, -3, 0, 0, 0, 0)},
    {"clo", 0.155, TS_DIM(0, -1, 3, 0, 1, 0, 0)},
    {"calorie", 4.184, ENERGY},
    {"kilocalories", 4184, ENERGY},
    {"horsepower", 550 * FOOT *POUND *STANDARD_GRAVITY, TS_POWER},
    {"footcandles", 1 / (FOOT * FOOT), TS_DIM(-2, 0, 0, 0, 0, 0, 1)},
    {"%", 0.01, TS_NUMBER},
    {"ppm", 1e-6, TS_NUMBER},
    {"ppb", 1e-9, TS_NUMBER},
    {"deg", 3.14159265358979 / 180, TS_NUMBER},
    {"people", 1, TS_NUMBER},
    {"NTU", 1, TS_TURBIDITY},
    {"dBA", 1, TS_SOUND},
};

START_TEST(a_unit_is_what_its_definition_says) {
  double si;
  ts_dim dim;
  char why[200];
  ck_assert_msg(ts_unit_convert(units, each[_i].unit, 1, &si, &dim, why, sizeof why), "%s", why);
  ck_assert_msg(fabs(si / each[_i].si - 1) < 1e-12, "1 %s is %.17g, expected %.17g", each[_i].unit,
                si, each[_i].si);
  ck_assert_msg(dim == each[_i].dim, "%s has the wrong dimension", each[_i].unit);
}
END_TEST

/* Where a name is in both tables, udunits2 must agree but for what is known of it:
 * gallons rounded to 5.7e-8, survey feet (2e-6, acres 4e-6), the tropical year (8e-7). Left out:
 * its gal is an acceleration, its calorie that of the steam tables, its footcandle 0.1 lx. */
static bool differs_by_choice(const char *name) {
  return ts_same(name, "gal") || ts_same(name, "calorie") || ts_same(name, "footcandle");
}

typedef struct {
  int shared;
  char differ[200];
} agreement;

static void compare_with_own(void *context, const char *name, ts_scale scale) {
  agreement *a = context;
  ts_scale own;
  bool is_ours = false;
  const char *listed;
  for (size_t i = 0; !is_ours && (listed = ts_unit_name_at(units, i, &is_ours)); i++)
    is_ours = is_ours && ts_same(listed, name);
  if (!is_ours || differs_by_choice(name) || !ts_unit_named(units, name, strlen(name), &own))
    return;
  a->shared++;
  double ratio = own.num / own.den / (scale.num / scale.den);
  if (own.dim != scale.dim || fabs(ratio - 1) > 5e-6) snprintf(a->differ, 200, "%s", name);
}

START_TEST(udunits_agrees_where_it_has_the_same_name) {
  agreement a = {0, ""};
  char why[200];
  ck_assert_msg(ts_udunits_each(compare_with_own, &a, why, sizeof why), "%s", why);
  ck_assert_str_eq(a.differ, "");
  ck_assert_int_gt(a.shared, 30);
}
END_TEST

static bool reads_as(const char *name, const ts_scale *scale) {
  ts_scale found;
  return ts_unit_named(units, name, strlen(name), &found) && found.dim == scale->dim &&
         found.num == scale->num && found.den == scale->den;
}

static bool is_own(const char *name) {
  bool own;
  const char *listed;
  for (size_t i = 0; (listed = ts_unit_name_at(units, i, &own)) && own; i++)
    if (ts_same(listed, name)) return true;
  return false;
}

static bool is_refused(const char *name) {
  const ts_refusal *row = ts_refusals;
  while (row->name && !ts_same(row->name, name)) row++;
  return row->name != NULL;
}

static void look_for_another(void *context, const char *name, ts_scale scale) {
  agreement *a = context;
  char plural[80];
  snprintf(plural, sizeof plural, "%ss", name);
  if (is_own(name) || is_refused(name)) return;
  a->shared++;
  if (!ts_udunits_may_name(name, strlen(name))) snprintf(a->differ, 200, "%s: its form", name);
  if (!reads_as(name, &scale)) snprintf(a->differ, 200, "%s", name);
  if (!reads_as(plural, &scale)) snprintf(a->differ, 200, "%s", plural);
}

/* Its names are looked at last, and only where ours give nothing: so no prefix or plural of ours
 * may read what it has, in the singular or plural, as something else. */
START_TEST(nothing_of_ours_stands_before_a_name_of_udunits) {
  agreement a = {0, ""};
  ck_assert(ts_udunits_each(look_for_another, &a, NULL, 0));
  ck_assert_str_eq(a.differ, "");
  ck_assert_int_gt(a.shared, 80);
}
END_TEST

/* Its data are gone when they are asked for: what is ours reads, and the rest says why not. */
START_TEST(without_its_data_our_own_units_read) {
  char folder[200], path[300], why[400];
  scratch_make(folder, sizeof folder);
  snprintf(path, sizeof path, "%s/udunits2.xml", folder);
  FILE *file = fopen(path, "w");
  ck_assert(file && fclose(file) == 0);
  ck_assert_int_eq(setenv("UDUNITS2_XML_PATH", path, 1), 0);
  ts_units *bare = ts_units_new(why, sizeof why);
  ck_assert_int_eq(remove(path), 0);
  ck_assert(ts_unit_convert(bare, "kPa", 1, &(double){0}, &(ts_dim){0}, why, sizeof why));
  ck_assert(!ts_unit_convert(bare, "fortnights", 1, &(double){0}, &(ts_dim){0}, why, sizeof why));
  ck_assert_ptr_nonnull(
      strstr(why, "unknown unit \"fortnights\"; the data of udunits2 cannot be read"));
  ck_assert_ptr_null(ts_units_new(why, sizeof why));
  ck_assert_ptr_nonnull(strstr(why, "the data of udunits2 cannot be read; expected at"));
  ck_assert_int_eq(unsetenv("UDUNITS2_XML_PATH"), 0);
  ts_units_free(bare);
  scratch_remove(folder);
}
END_TEST

START_TEST(udunits_adds_what_we_lack) {
  double si;
  ts_dim dim;
  ck_assert(ts_unit_convert(units, "gravity", 1, &si, &dim, NULL, 0));
  ck_assert_double_eq_tol(si, STANDARD_GRAVITY, 1e-9);
  ck_assert_uint_eq(dim, TS_ACCELERATION);
  ck_assert(ts_unit_convert(units, "fortnights", 1, &si, &dim, NULL, 0));
  ck_assert_double_eq(si, 14 * DAY);
  size_t count = 0;
  while (ts_unit_name_at(units, count, NULL)) count++;
  ck_assert_uint_gt(count, 250);
}
END_TEST

/* Two things to two people, nothing on a set, or not one word in small letters. */
START_TEST(udunits_does_not_add) {
  static const char *const names[] = {"candle", "bags", "counts", "metric_ton", "degK", "nucleon"};
  for (int i = 0; i < COUNT(names); i++)
    ck_assert_msg(!ts_unit_convert(units, names[i], 1, &(double){0}, &(ts_dim){0}, NULL, 0), "%s",
                  names[i]);
}
END_TEST

START_TEST(every_name_in_the_table_reads) {
  ts_scale scale;
  char why[200];
  const char *name;
  for (size_t i = 0; (name = ts_unit_name_at(units, i, NULL)); i++) {
    ck_assert_msg(ts_unit_read(units, name, &scale, why, sizeof why), "%s: %s", name, why);
    ck_assert_msg(scale.num > 0 && scale.den > 0 && isfinite(scale.num / scale.den), "%s", name);
  }
  for (const ts_refusal *row = ts_refusals; row->name; row++)
    ck_assert_msg(!ts_unit_read(units, row->name, &scale, why, sizeof why), "%s", row->name);
}
END_TEST

/* ---- dimensions ----------------------------------------------------------------------- */

START_TEST(dimensions_have_names) {
  static const struct {
    ts_dim dim;
    const char *name;
  } rows[] = {{TS_LENGTH, "length"},
              {TS_PRESSURE, "pressure"},
              {TS_TEMPERATURE, "temperature"},
              {TS_TEMPERATURE_DIFFERENCE, "temperature difference"},
              {TS_MOMENT, "date or time of day"},
              {TS_TURBIDITY, "turbidity"},
              {TS_NUMBER, "plain number"},
              {TS_DIM(3, -1, 2, 0, 0, 0, 0), "m3 kg-1 s2"}};
  char name[64];
  for (int i = 0; i < COUNT(rows); i++)
    ck_assert_str_eq(ts_dim_name(rows[i].dim, name, sizeof name), rows[i].name);
  ck_assert_str_eq(ts_dim_name(TS_PRESSURE, name, 5), "pres");
}
END_TEST

START_TEST(dimensions_join) {
  ts_dim dim;
  ck_assert(ts_dim_join(TS_FORCE, TS_AREA, -1, &dim));
  ck_assert_uint_eq(dim, TS_PRESSURE);
  ck_assert(ts_dim_join(TS_NUMBER, TS_SPEED, 3, &dim));
  ck_assert_uint_eq(dim, TS_DIM(3, 0, -3, 0, 0, 0, 0));
  ck_assert(!ts_dim_join(TS_DIM(120, 0, 0, 0, 0, 0, 0), TS_AREA, 9, &dim));
  ck_assert_int_eq(ts_dim_exponent(TS_PRESSURE, 2), -2);
}
END_TEST

Suite *suite_unit_table(void);
Suite *suite_unit_table(void) {
  Suite *suite = suite_create("unit_table");
  TCase *all = tcase_create("units");
  tcase_add_unchecked_fixture(all, set_up, tear_down);
  tcase_add_loop_test(all, a_unit_is_what_its_definition_says, 0, COUNT(each));
  tcase_add_test(all, udunits_agrees_where_it_has_the_same_name);
  tcase_add_test(all, nothing_of_ours_stands_before_a_name_of_udunits);
  tcase_add_test(all, without_its_data_our_own_units_read);
  tcase_add_test(all, udunits_adds_what_we_lack);
  tcase_add_test(all, udunits_does_not_add);
  tcase_add_test(all, every_name_in_the_table_reads);
  tcase_add_test(all, dimensions_have_names);
  tcase_add_test(all, dimensions_join);
  suite_add_tcase(suite, all);
  return suite;
}
