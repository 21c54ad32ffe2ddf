/* quantity: writing that reads back bit for bit, showing that hides nothing. */
#include "base/text.h"
#include "tankside/quantity.h"

#include <check.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* With sanitizers and under valgrind a tenth of the samples runs the same code. */
static int rounds(int all) { return getenv("TANKSIDE_TEST_SHORT") != NULL ? all / 40 : all; }

#define COUNT(rows) (int)(sizeof rows / sizeof *rows)
#define DAY 86400.0

static ts_units *units;

static void set_up(void) {
  char why[200];
  units = ts_units_new(why, sizeof why);
  ck_assert_msg(units != NULL, "%s", why);
}

static void tear_down(void) { ts_units_free(units); }

static ts_dim read(const char *text, ts_range *range) {
  ts_dim dim = 0;
  char why[300];
  ck_assert_msg(ts_quantity_read(units, text, range, &dim, why, sizeof why), "\"%s\": %s", text,
                why);
  return dim;
}

/* ---- pseudo-random numbers, the same in every run ---------------------------------- */

static uint64_t next(uint64_t *state) {
  *state ^= *state << 13;
  *state ^= *state >> 7;
  *state ^= *state << 17;
  return *state;
}

/* Any finite double, every exponent as likely as another. */
static double any_double(uint64_t *state) {
  double x;
  do {
    uint64_t bits = next(state);
    memcpy(&x, &bits, sizeof x);
  } while (!isfinite(x));
  return x;
}

/* A decimal of a few digits, as people write them. */
static double some_decimal(uint64_t *state) {
  static const double powers[] = {1, 10, 100, 1000, 1e4};
  int64_t digits = (int64_t)(next(state) % 2000001) - 1000000;
  return (double)digits / powers[next(state) % COUNT(powers)];
}

/* A double of everyday size with all its bits in use. */
static double some_double(uint64_t *state) {
  return ldexp((double)(int64_t)next(state), (int)(next(state) % 40) - 70);
}

/* ---- writing ---------------------------------------------------------------------- */

static const struct {
  ts_dim dim;
  const char *unit; /* NULL: the writer's choice */
} kinds[] = {
    {TS_LENGTH, NULL},
    {TS_LENGTH, "mm"},
    {TS_LENGTH, "ft"},
    {TS_LENGTH, "kg"}, /* does not fit: written in another */
    {TS_LENGTH, "nonsense"},
    {TS_MASS, "lb"},
    {TS_MASS, "g"},
    {TS_TIME, NULL},
    {TS_TIME, "min"},
    {TS_TIME, "year"},
    {TS_TEMPERATURE, NULL},
    {TS_TEMPERATURE, "degC"},
    {TS_TEMPERATURE, "degF"},
    {TS_TEMPERATURE_DIFFERENCE, "delta_degF"},
    {TS_MOMENT, NULL},
    {TS_MOMENT, "date"},
    {TS_MOMENT, "clock"},
    {TS_NUMBER, NULL},
    {TS_NUMBER, "%"},
    {TS_NUMBER, "ppm"},
    {TS_TURBIDITY, NULL},
    {TS_SOUND, NULL},
    {TS_PRESSURE, "psi"},
    {TS_PRESSURE, "fsw"},
    {TS_FLOW, "gpm"},
    {TS_DENSITY, "mg/L"},
    {TS_POWER, NULL},
    {TS_DIM(-3, 0, 0, 0, 0, 0, 0), "cfu/100mL"},
    {TS_DIM(0, 0, -1, 0, 0, 0, 0), "1/h"},
    {TS_DIM(1, -2, 3, -4, 5, -6, 7), NULL},
    {TS_DIM(-9, 9, -9, 9, -9, 9, -9), NULL},
};

static bool same_bits(double a, double b) { return memcmp(&a, &b, sizeof a) == 0; }

static void check_round_trip(ts_range range, ts_dim dim, const char *unit, ts_system system) {
  char text[96], roomy[300];
  ts_range again;
  ts_quantity_write(units, range, dim, unit, system, text, sizeof text);
  ts_quantity_write(units, range, dim, unit, system, roomy, sizeof roomy);
  ck_assert_str_eq(text, roomy); /* 96 bytes were enough */
  ts_dim found = read(text, &again);
  ck_assert_msg(found == dim, "\"%s\" has another dimension", text);
  ck_assert_msg(same_bits(again.lo, range.lo) && same_bits(again.hi, range.hi),
                "%a..%a was written \"%s\", which is %a..%a", range.lo, range.hi, text, again.lo,
                again.hi);
}

typedef double maker(uint64_t *state);

static void check_many(maker *make, int all) {
  uint64_t state = 88172645463325252u;
  for (int i = 0; i < rounds(all); i++)
    for (int k = 0; k < COUNT(kinds); k++) {
      double a = make(&state), b = i % 3 ? make(&state) : a;
      ts_range range = {a <= b ? a : b, a <= b ? b : a};
      check_round_trip(range, kinds[k].dim, kinds[k].unit, i % 2 ? TS_US : TS_METRIC);
    }
}

START_TEST(any_range_reads_back_bit_for_bit) { check_many(any_double, 3500); }
END_TEST

START_TEST(everyday_ranges_read_back_bit_for_bit) {
  check_many(some_decimal, 2000);
  check_many(some_double, 2000);
}
END_TEST

START_TEST(edges_read_back_bit_for_bit) {
  static const double edges[] = {0.0,
                                 -0.0,
                                 1,
                                 -1,
                                 273.15,
                                 273.15 - 1e-13,
                                 1e-320,
                                 5e-324,
                                 1e308,
                                 -1e308,
                                 86400,
                                 172799,
                                 172800,
                                 172799.5,
                                 -86400,
                                 1e15,
                                 1e-5,
                                 1e16 + 2,
                                 0.1,
                                 1.0 / 3,
                                 4096.000000000001,
                                 253402214400.0,
                                 -62135596800.0,
                                 -62135596801.0,
                                 253402300800.0};
  for (int k = 0; k < COUNT(kinds); k++)
    for (int i = 0; i < COUNT(edges); i++)
      for (int j = 0; j < COUNT(edges); j++)
        if (edges[i] <= edges[j])
          check_round_trip((ts_range){edges[i], edges[j]}, kinds[k].dim, kinds[k].unit, TS_METRIC);
}
END_TEST

/* What somebody wrote with few digits comes back as written, not as 25.999999999999943. */
START_TEST(short_decimals_stay_short) {
  static const char *const in[] = {"degC", "degF", "ft",   "in",  "mm",  "lb",
                                   "psi",  "gpm",  "mg/L", "%",   "kn",  "gal",
                                   "kPa",  "h",    "year", "fsw", "cfm", "m3/h"};
  uint64_t state = 2463534242u;
  char number[32], written[64], text[96];
  ts_range range;
  for (int i = 0; i < rounds(5000); i++)
    for (int k = 0; k < COUNT(in); k++) {
      double decimal = some_decimal(&state);
      snprintf(written, sizeof written, "%s %s", ts_number_round(decimal, 7, number, sizeof number),
               in[k]);
      ts_dim dim = read(written, &range);
      ts_quantity_write(units, range, dim, in[k], TS_METRIC, text, sizeof text);
      ck_assert_str_eq(text, written);
    }
}
END_TEST

static const struct {
  const char *read, *unit;
  ts_system system;
  const char *written;
} writes[] = {
    {"4.2 m", NULL, TS_METRIC, "4.2 m"},
    {"3.8..4.5 m", NULL, TS_METRIC, "3.8..4.5 m"},
    {"14 ft", NULL, TS_US, "14 ft"},
    {"14 ft", "ft", TS_METRIC, "14 ft"},
    {"5 ft 7 in", "in", TS_METRIC, "67 in"},
    {"30 cm", NULL, TS_METRIC, "30 cm"},
    {"26 degC", NULL, TS_METRIC, "26 degC"},
    {"78.8 degF", NULL, TS_US, "78.8 degF"},
    {"1 h 20 min", NULL, TS_METRIC, "80 min"},
    {"90 s", NULL, TS_METRIC, "90 s"},
    {"3 d", NULL, TS_METRIC, "3 d"},
    {"12 years", NULL, TS_METRIC, "12 years"},
    {"0 s", NULL, TS_METRIC, "0 s"},
    {"1.2 mg/L", NULL, TS_METRIC, "1.2 mg/L"},
    {"180 m3/h", NULL, TS_METRIC, "180 m3/h"},
    {"30 %", "%", TS_METRIC, "30 %"},
    {"30 %", NULL, TS_METRIC, "0.3"},
    {"5 NTU", NULL, TS_METRIC, "5 NTU"},
    {"85 dBA", NULL, TS_METRIC, "85 dBA"},
    {"2027-03", NULL, TS_METRIC, "2027-03-01..2027-03-31"},
    {"2027-03-09", "date", TS_METRIC, "2027-03-09"},
    {"9:05", NULL, TS_METRIC, "09:05"},
    {"10:40..25:10", "clock", TS_METRIC, "10:40..25:10"},
    {"10:40:30", NULL, TS_METRIC, "10:40:30"},
    {"1970-01-02", "date", TS_METRIC, "1970-01-02"},
    {"@10.5 s", "clock", TS_METRIC, "@10.5 s"},
    {"5 m4", NULL, TS_METRIC, "5 m4"},
    {"5 mol.m-3.s-1", NULL, TS_METRIC, "5 m-3.s-1.mol"},
    {"10 cfu/100 mL", NULL, TS_METRIC, "10 cfu/100mL"},
};

START_TEST(writes_as_expected) {
  ts_range range;
  char text[96];
  ts_dim dim = read(writes[_i].read, &range);
  ck_assert_str_eq(
      ts_quantity_write(units, range, dim, writes[_i].unit, writes[_i].system, text, sizeof text),
      writes[_i].written);
}
END_TEST

START_TEST(is_cut_to_the_room_there_is) {
  char text[6] = "zzzzz";
  ts_range range = {3.25, 4.5};
  ck_assert_ptr_eq(ts_quantity_write(units, range, TS_LENGTH, "m", TS_METRIC, text, 4), text);
  ck_assert_str_eq(text, "3.2");
  ck_assert_str_eq(ts_quantity_show(units, range, TS_LENGTH, "m", TS_METRIC, text, 5), "3.25");
}
END_TEST

/* ---- showing ----------------------------------------------------------------------- */

static const struct {
  const char *read, *unit;
  ts_system system;
  const char *shown;
} shows[] = {
    {"4.2 m", NULL, TS_METRIC, "4.2 m"},
    {"4.20004 m", NULL, TS_METRIC, "4.2 m"},
    {"14 ft", NULL, TS_METRIC, "4.267 m"},
    {"4.2 m", NULL, TS_US, "13.78 ft"},
    {"5 ft 7 in", NULL, TS_US, "5 ft 7 in"},
    {"5 ft 7 in", "ft", TS_METRIC, "5 ft 7 in"},
    {"2.5 ft", "ft", TS_US, "2 ft 6 in"},
    {"1.7018 m", "m", TS_US, "1.702 m"},
    {"100 cm", NULL, TS_METRIC, "1 m"},
    {"99 cm", NULL, TS_METRIC, "99 cm"},
    {"5000 m", NULL, TS_METRIC, "5 km"},
    {"12 in", NULL, TS_US, "1 ft"},
    {"11 in", NULL, TS_US, "11 in"},
    {"0 mg/L", NULL, TS_METRIC, "0 mg/L"},
    {"0 m", NULL, TS_US, "0 ft"},
    {"4.2 m", "cm", TS_US, "420 cm"},
    {"123456 m", "m", TS_METRIC, "123500 m"},
    {"0.333333333", NULL, TS_METRIC, "0.3333"},
    {"12", NULL, TS_METRIC, "12"},
    {"35 %", "%", TS_METRIC, "35 %"},
    /* ends go outward where rounding would hide that they differ, and only there */
    {"1.00004..1.00006 m", NULL, TS_METRIC, "1..1.001 m"},
    {"3.8..4.5 m", NULL, TS_METRIC, "3.8..4.5 m"},
    {"-1.00006..-1.00004 m", NULL, TS_METRIC, "-1.001..-1 m"},
    {"0.1..0.30000000000000004 m", "m", TS_METRIC, "0.1..0.3 m"},
    /* temperatures */
    {"26 degC", NULL, TS_METRIC, "26 °C"},
    {"26.04 degC", NULL, TS_METRIC, "26 °C"},
    {"26.04..29.96 degC", NULL, TS_METRIC, "26..30 °C"},
    {"26.04..26.06 degC", NULL, TS_METRIC, "26..26.1 °C"},
    {"26 degC", NULL, TS_US, "78.8 °F"},
    {"-0.01 degC", NULL, TS_METRIC, "0 °C"},
    {"1.5 K", NULL, TS_METRIC, "1.5 K"},
    {"1.5 K", NULL, TS_US, "2.7 °F"},
    /* times */
    {"45 s", NULL, TS_METRIC, "45 s"},
    {"45 s", "min", TS_METRIC, "45 s"},
    {"12.3456 s", NULL, TS_METRIC, "12.35 s"},
    {"119 s", NULL, TS_METRIC, "119 s"},
    {"120 s", NULL, TS_METRIC, "2 min"},
    {"150 s", NULL, TS_METRIC, "2 min 30 s"},
    {"80 min", "s", TS_METRIC, "1 h 20 min"},
    {"3600 s", NULL, TS_METRIC, "1 h"},
    {"3599.9 s", NULL, TS_METRIC, "1 h"},
    {"47 h 59 min 40 s", NULL, TS_METRIC, "2 d"},
    {"76 h", NULL, TS_METRIC, "3 d 4 h"},
    {"-80 min", NULL, TS_METRIC, "-1 h 20 min"},
    {"0 s", NULL, TS_METRIC, "0 s"},
    {"18..20 s", NULL, TS_METRIC, "18..20 s"},
    {"-3..5 s", NULL, TS_METRIC, "-3..5 s"},
    {"10..20 min", NULL, TS_METRIC, "10..20 min"},
    {"2..3 h", NULL, TS_METRIC, "2..3 h"},
    {"0..24 h", NULL, TS_METRIC, "0..24 h"},
    {"90..150 s", NULL, TS_METRIC, "90 s .. 2 min 30 s"},
    {"4801..6001 s", NULL, TS_METRIC, "1 h 20 min .. 1 h 41 min"},
    {"12.5 years", NULL, TS_METRIC, "12.5 years"},
    {"12 year", "year", TS_METRIC, "12 years"},
    {"1 year", "year", TS_METRIC, "1 year"},
    /* moments */
    {"2027-03-09", NULL, TS_METRIC, "9 March 2027"},
    {"2027-03-09..2027-03-12", NULL, TS_METRIC, "9 March 2027 .. 12 March 2027"},
    {"10:40", NULL, TS_METRIC, "10:40"},
    {"10:40..25:10", NULL, TS_METRIC, "10:40..25:10"},
    {"@10.5 s", NULL, TS_METRIC, "00:00:10..00:00:11"},
    /* the usual unit of each kind */
    {"180 m3/h", NULL, TS_METRIC, "180 m³/h"},
    {"30 L/min", NULL, TS_METRIC, "30 L/min"},
    {"30 gpm", NULL, TS_US, "30 gpm"},
    {"250 L", NULL, TS_METRIC, "250 L"},
    {"2038.8 m3", NULL, TS_METRIC, "2039 m³"},
    {"101325 Pa", NULL, TS_METRIC, "101.3 kPa"},
    {"101325 Pa", NULL, TS_US, "14.7 psi"},
    {"1.2 mg/L", NULL, TS_METRIC, "1.2 mg/L"},
    {"1025 kg/m3", NULL, TS_METRIC, "1025 kg/m³"},
    {"2500 W", NULL, TS_METRIC, "2.5 kW"},
    {"80 kg", NULL, TS_US, "176.4 lb"},
    {"3 1/h", "1/h", TS_METRIC, "3 per h"},
    {"85 dBA", NULL, TS_METRIC, "85 dB(A)"},
    {"7 um", "um", TS_METRIC, "7 µm"},
    {"7 mg.min/L", NULL, TS_METRIC, "7 mg·min/L"},
    {"2 inH2O", "inH2O", TS_METRIC, "2 inH2O"},
    {"5 m4", NULL, TS_METRIC, "5 m⁴"},
    {"5 kg.m-7", NULL, TS_METRIC, "5 m⁻⁷·kg"},
};

START_TEST(shows_as_expected) {
  ts_range range;
  char text[200];
  ts_dim dim = read(shows[_i].read, &range);
  ck_assert_str_eq(
      ts_quantity_show(units, range, dim, shows[_i].unit, shows[_i].system, text, sizeof text),
      shows[_i].shown);
}
END_TEST

START_TEST(shows_open_ends_in_words) {
  char text[100];
  ts_quantity_show(units, (ts_range){3, INFINITY}, TS_LENGTH, "m", TS_METRIC, text, sizeof text);
  ck_assert_str_eq(text, "3 m or more");
  ts_quantity_show(units, (ts_range){-INFINITY, 3}, TS_NUMBER, NULL, TS_METRIC, text, sizeof text);
  ck_assert_str_eq(text, "3 or less");
  ts_quantity_show(units, (ts_range){-INFINITY, INFINITY}, TS_TIME, NULL, TS_METRIC, text,
                   sizeof text);
  ck_assert_str_eq(text, "any value");
}
END_TEST

/* What is shown can be read again, encloses the range, and is off by no more than a
 * unit of the last digit shown: 1e-3 of the value, or 0.1 degree, or the smaller
 * part of a time. */
static void check_shown(ts_range range, ts_dim dim, const char *unit, ts_system system) {
  char text[200];
  ts_range shown;
  ts_quantity_show(units, range, dim, unit, system, text, sizeof text);
  ck_assert_msg(read(text, &shown) == dim, "\"%s\" has another dimension", text);
  double size = fmax(fabs(range.lo), fabs(range.hi)), noise = 1e-8 * size;
  double step = dim == TS_TEMPERATURE ? 0.101 : 1.001e-3 * size;
  if (dim == TS_TIME) step = size < 120 ? step : size < 3600 ? 1.001 : size < 172800 ? 60.1 : 3601;
  ck_assert_msg(fabs(shown.lo - range.lo) <= step && fabs(shown.hi - range.hi) <= step,
                "%.17g..%.17g is shown as \"%s\"", range.lo, range.hi, text);
  if (range.lo < range.hi)
    ck_assert_msg(shown.lo <= range.lo + noise && shown.hi >= range.hi - noise,
                  "%.17g..%.17g is shown as \"%s\", which is narrower", range.lo, range.hi, text);
}

START_TEST(what_is_shown_encloses_what_is_meant) {
  static const struct {
    ts_dim dim;
    const char *unit;
    double largest;
  } rows[] = {{TS_LENGTH, NULL, 1e4},  {TS_LENGTH, "ft", 100},   {TS_TIME, NULL, 200},
              {TS_TIME, "min", 1e4},   {TS_TIME, "h", 1e6},      {TS_TEMPERATURE, NULL, 330},
              {TS_FLOW, NULL, 1},      {TS_PRESSURE, NULL, 1e6}, {TS_NUMBER, NULL, 100},
              {TS_DENSITY, NULL, 0.1}, {TS_MASS, NULL, 1e5},     {TS_VOLUME, NULL, 1e3},
              {TS_POWER, NULL, 1e5},   {TS_FORCE, NULL, 1e5},    {TS_SPEED, NULL, 10}};
  uint64_t state = 777777777777u;
  for (int i = 0; i < rounds(3000); i++)
    for (int k = 0; k < COUNT(rows); k++) {
      double a = rows[k].largest * ldexp((double)(next(&state) >> 11), -53);
      double b = i % 3 == 0 ? a : i % 3 == 1 ? a * (1 + 1e-5) : rows[k].largest;
      check_shown((ts_range){a, b}, rows[k].dim, rows[k].unit, i % 2 ? TS_US : TS_METRIC);
    }
}
END_TEST

START_TEST(any_double_can_be_shown) {
  uint64_t state = 99999u;
  char text[300];
  for (int i = 0; i < rounds(3000); i++)
    for (int k = 0; k < COUNT(kinds); k++) {
      double a = any_double(&state), b = i % 2 ? a : any_double(&state);
      ts_range range = {fmin(a, b), fmax(a, b)};
      ts_quantity_show(units, range, kinds[k].dim, kinds[k].unit, TS_METRIC, text, sizeof text);
      ck_assert_msg(*text && !strstr(text, "nan") && !strstr(text, "?"), "%a..%a: \"%s\"", range.lo,
                    range.hi, text);
    }
}
END_TEST

Suite *suite_quantity_write(void);
Suite *suite_quantity_write(void) {
  Suite *suite = suite_create("quantity_write");
  TCase *all = tcase_create("write");
  tcase_add_unchecked_fixture(all, set_up, tear_down);
  tcase_add_test(all, any_range_reads_back_bit_for_bit);
  tcase_add_test(all, everyday_ranges_read_back_bit_for_bit);
  tcase_add_test(all, edges_read_back_bit_for_bit);
  tcase_add_test(all, short_decimals_stay_short);
  tcase_add_loop_test(all, writes_as_expected, 0, COUNT(writes));
  tcase_add_test(all, is_cut_to_the_room_there_is);
  tcase_add_loop_test(all, shows_as_expected, 0, COUNT(shows));
  tcase_add_test(all, shows_open_ends_in_words);
  tcase_add_test(all, what_is_shown_encloses_what_is_meant);
  tcase_add_test(all, any_double_can_be_shown);
  tcase_set_timeout(all, 120);
  suite_add_tcase(suite, all);
  return suite;
}
