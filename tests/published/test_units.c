/* Published conversions, each with its source and tolerance beside it, and a
 * cross-check against GNU units where that program is installed. */
#include "tankside/quantity.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static ts_units *units;

static void set_up(void) {
  char why[200];
  units = ts_units_new(why, sizeof why);
  ck_assert_msg(units != NULL, "%s", why);
}

static void tear_down(void) { ts_units_free(units); }

static double si_of(const char *text) {
  ts_range range;
  ts_dim dim;
  char why[200];
  ck_assert_msg(ts_quantity_read(units, text, &range, &dim, why, sizeof why), "%s: %s", text, why);
  ck_assert_double_eq(range.lo, range.hi);
  return range.lo;
}

static double in_unit(const char *text, const char *unit) {
  double one;
  ts_dim dim;
  char why[200];
  ck_assert_msg(ts_unit_convert(units, unit, 1, &one, &dim, why, sizeof why), "%s: %s", unit, why);
  return si_of(text) / one;
}

/* ---- published figures ---------------------------------------------------------- */

#define NIST "NIST SP 811 (2008) App. B.8/B.9; NIST SP 1038 (2006)"

static const struct {
  const char *id, *text, *unit;
  double expected, relative;
  const char *source;
} figures[] = {
    {"U-02", "1 in", "m", 0.0254, 1e-12, NIST},
    {"U-03", "1 yd", "m", 0.9144, 1e-12, NIST},
    {"U-04", "1 lb", "kg", 0.45359237, 1e-12, NIST},
    {"U-05", "1 gal", "m3", 0.003785411784, 1e-12, NIST},
    {"U-05", "231 in3", "m3", 0.003785411784, 1e-12, NIST},
    {"U-07", "1 lbf", "N", 4.4482216152605, 1e-12, NIST},
    {"U-09", "1 bar", "psi", 14.503773773021, 1e-12, NIST},
    {"U-09", "1 atm", "psi", 14.695948775513, 1e-12, NIST},
    {"U-09", "1 atm", "Pa", 101325, 1e-12, NIST},
    {"U-10", "1 inHg", "Pa", 3386.388640341, 1e-10, NIST},
    {"U-11", "1 kn", "m/s", 0.514444444444444, 1e-12, NIST},
    {"U-11", "1 mph", "m/s", 0.44704, 1e-12, NIST},
    {"U-12", "1 cfm", "m3/s", 4.719474432e-4, 1e-9, NIST},
    {"U-12", "1 ft3/min", "m3/s", 4.719474432e-4, 1e-9, NIST},
    {"U-12", "1 gpm", "m3/s", 6.30901964e-5, 1e-9, NIST},
    {"U-13", "1 Btu", "J", 1055.05585262, 1e-11, NIST},
    {"U-15", "1 hp", "W", 745.69987158227, 1e-11, NIST},
    {"U-15", "1 short_ton", "kg", 907.18474, 1e-11, NIST},
    {"U-15", "1 long_ton", "kg", 1016.0469088, 1e-11, NIST},
    {"U-16", "72000 ft3", "m3", 2038.812954624, 1e-12, "derived from " NIST},
    {"U-16", "72000 ft3", "L", 2038812.954624, 1e-12, "derived from " NIST},
    {"U-17", "72000 ft3", "gal", 538597.402597403, 1e-12, "72000 x 1728/231"},
    {"U-18", "72000 ft3", "impgal", 448476.15305108, 1e-12, "derived from " NIST},
    {"U-19", "2038.812954624 m3", "ft3", 4492800 / 62.4, 1e-5, "62.4 lb/ft3, diving manuals"},
    {"U-20", "1 fsw", "Pa", 3064.34, 1e-5, "64.0 lbf/ft3: US Navy, NOAA"},
    {"PRS-01", "1 msw", "kPa", 10, 1e-12, "US Navy Diving Manual and others, definition"},
    {"PRS-02", "1 fsw", "kPa", 3.0643, 2e-5, "US Navy Diving Manual, unit conversion table"},
    {"PRS-02", "1 fsw", "psi", 0.44444, 2e-5, "US Navy Diving Manual, unit conversion table"},
    {"PRS-02", "1 fsw", "msw", 0.30643, 2e-5, "US Navy Diving Manual, unit conversion table"},
    {"PRS-04", "1 atm", "mmHg", 760, 1e-6, "diving science handbook, conversions"},
    {"PRS-04", "1 atm", "kPa", 101.3, 5e-4, "diving science handbook, conversions"},
    {"PRS-04", "1 atm", "psi", 14.7, 5e-4, "diving science handbook, conversions"},
};

START_TEST(a_published_conversion) {
  double found = in_unit(figures[_i].text, figures[_i].unit);
  ck_assert_msg(fabs(found / figures[_i].expected - 1) <= figures[_i].relative,
                "%s: %s is %.15g %s, published %.15g (%s)", figures[_i].id, figures[_i].text, found,
                figures[_i].unit, figures[_i].expected, figures[_i].source);
}
END_TEST

/* U-14, absolute tolerance 1e-9 K; NIST SP 811 (2008) App. B.8. */
static const struct {
  const char *fahrenheit;
  double celsius;
} temperatures[] = {{"98.6 degF", 37}, {"32 degF", 0}, {"212 degF", 100}, {"-40 degF", -40}};

START_TEST(a_published_temperature) {
  double found = si_of(temperatures[_i].fahrenheit) - 273.15;
  ck_assert_msg(fabs(found - temperatures[_i].celsius) <= 1e-9, "%s is %.12g degC",
                temperatures[_i].fahrenheit, found);
}
END_TEST

/* ---- the same answers as GNU units ---------------------------------------------- */

/* Pairs whose definitions agree. Left out, because they do not: fsw (3048 Pa
 * there), year (tropical there). */
static const struct {
  const char *from, *to, *gnu_from, *gnu_to; /* NULL: written the same */
} pairs[] = {
    {"ft", "m", NULL, NULL},
    {"in", "cm", NULL, NULL},
    {"yd", "m", NULL, NULL},
    {"mi", "km", NULL, NULL},
    {"nmi", "m", "nauticalmile", NULL},
    {"furlong", "m", NULL, NULL},
    {"fathom", "m", NULL, NULL},
    {"lb", "kg", NULL, NULL},
    {"oz", "g", NULL, NULL},
    {"stone", "kg", NULL, NULL},
    {"short_ton", "kg", "shortton", NULL},
    {"long_ton", "kg", "longton", NULL},
    {"t", "lb", "tonne", NULL},
    {"gal", "L", NULL, NULL},
    {"impgal", "L", "brgallon", NULL},
    {"floz", "mL", NULL, NULL},
    {"qt", "L", NULL, NULL},
    {"ft3", "L", NULL, NULL},
    {"ha", "m2", "hectare", NULL},
    {"acre", "m2", NULL, NULL},
    {"gpm", "L/min", NULL, NULL},
    {"cfm", "m3/h", NULL, "m3/hr"},
    {"kn", "km/h", "knot", "km/hr"},
    {"mph", "ft/s", NULL, NULL},
    {"ft/min", "mm/s", NULL, NULL},
    {"lbf", "N", NULL, NULL},
    {"kgf", "N", NULL, NULL},
    {"psi", "kPa", NULL, NULL},
    {"psf", "Pa", "lbf/ft2", NULL},
    {"bar", "psi", NULL, NULL},
    {"mbar", "Pa", NULL, NULL},
    {"atm", "bar", NULL, NULL},
    {"torr", "Pa", NULL, NULL},
    {"mmHg", "Pa", NULL, NULL},
    {"inHg", "Pa", NULL, NULL},
    {"mmH2O", "Pa", "mm water", NULL},
    {"inH2O", "Pa", "inch water", NULL},
    {"Btu", "kJ", "btu_IT", NULL},
    {"cal", "J", "cal_th", NULL},
    {"kWh", "MJ", NULL, NULL},
    {"hp", "kW", NULL, NULL},
    {"Btu/h", "W", "btu_IT/hr", NULL},
    {"lb/ft3", "kg/m3", NULL, NULL},
    {"uW/cm2", "W/m2", NULL, NULL},
    {"mJ/cm2", "J/m2", NULL, NULL},
    {"ug/L", "mg/m3", NULL, NULL},
    {"mg.min/L", "kg s/m3", "mg min/L", NULL},
    {"delta_degF", "K", "tempF(1)-tempF(0)", NULL},
    {"clo", "m2.K/W", NULL, "m2 K/W"},
    {"deg", "mrad", "degree", "milliradian"},
    {"rpm", "1/s", "1/min", NULL},
    {"week", "h", NULL, "hour"},
    {"lx", "lm/m2", NULL, NULL},
};

/* The factor that the program `units` gives, or NaN when it gives none. */
static double gnu_factor(const char *from, const char *to) {
  char command[200], line[100] = "";
  snprintf(command, sizeof command, "LC_ALL=C units -t -1 -d 15 '%s' '%s' 2>/dev/null", from, to);
  FILE *pipe = popen(command, "r");
  if (!pipe) return NAN;
  if (!fgets(line, sizeof line, pipe)) line[0] = '\0';
  pclose(pipe);
  char *end;
  double factor = strtod(line, &end);
  return end == line || *end != '\n' ? NAN : factor;
}

START_TEST(the_same_factor_as_gnu_units) {
  if (isnan(gnu_factor("m", "cm"))) return; /* the program is not installed */
  const char *from = pairs[_i].gnu_from ? pairs[_i].gnu_from : pairs[_i].from;
  const char *to = pairs[_i].gnu_to ? pairs[_i].gnu_to : pairs[_i].to;
  char one[64];
  snprintf(one, sizeof one, "1 %s", pairs[_i].from);
  double expected = gnu_factor(from, to), found = in_unit(one, pairs[_i].to);
  ck_assert_msg(fabs(found / expected - 1) <= 1e-11, "1 %s is %.15g %s, GNU units has %.15g",
                pairs[_i].from, found, pairs[_i].to, expected);
}
END_TEST

Suite *suite_units(void);
Suite *suite_units(void) {
  Suite *suite = suite_create("units");
  TCase *all = tcase_create("published");
  tcase_add_unchecked_fixture(all, set_up, tear_down);
  tcase_add_loop_test(all, a_published_conversion, 0, sizeof figures / sizeof *figures);
  tcase_add_loop_test(all, a_published_temperature, 0, sizeof temperatures / sizeof *temperatures);
  tcase_add_loop_test(all, the_same_factor_as_gnu_units, 0, sizeof pairs / sizeof *pairs);
  tcase_set_timeout(all, 60);
  suite_add_tcase(suite, all);
  return suite;
}
