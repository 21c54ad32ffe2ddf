/* quantity: reading what people write, refusing what they should not. */
#include "tankside/quantity.h"

#include <check.h>
#include <math.h>
#include <pthread.h>
#include <stdio.h>
#include <string.h>

#define COUNT(rows) (int)(sizeof rows / sizeof *rows)
#define DAY 86400.0
#define RATE TS_DIM(0, 0, -1, 0, 0, 0, 0)
#define PER_VOLUME TS_DIM(-3, 0, 0, 0, 0, 0, 0)
#define CT TS_DIM(-3, 1, 1, 0, 0, 0, 0)

static ts_units *units;

static void set_up(void) {
  char why[200];
  units = ts_units_new(why, sizeof why);
  ck_assert_msg(units != NULL, "%s", why);
}

static void tear_down(void) { ts_units_free(units); }

static void check_reads(const char *text, double lo, double hi, ts_dim dim) {
  ts_range range;
  ts_dim found;
  char why[300] = "", one[64], other[64];
  ck_assert_msg(ts_quantity_read(units, text, &range, &found, why, sizeof why), "\"%s\": %s", text,
                why);
  ck_assert_msg(found == dim, "\"%s\" is a %s, expected %s", text,
                ts_dim_name(found, one, sizeof one), ts_dim_name(dim, other, sizeof other));
  ck_assert_msg(range.lo == lo && range.hi == hi, "\"%s\" is %.17g..%.17g, expected %.17g..%.17g",
                text, range.lo, range.hi, lo, hi);
}

/* ---- what can be written ------------------------------------------------------- */

static const struct {
  const char *text;
  double lo, hi;
  ts_dim dim;
} good[] = {
    {"4.2 m", 4.2, 4.2, TS_LENGTH},
    {"4.2m", 4.2, 4.2, TS_LENGTH},
    {"  4.2   m ", 4.2, 4.2, TS_LENGTH},
    {".5 m", 0.5, 0.5, TS_LENGTH},
    {"-3 m", -3, -3, TS_LENGTH},
    {"1e3 m", 1000, 1000, TS_LENGTH},
    {"5 metres", 5, 5, TS_LENGTH},
    {"5 kilometres", 5000, 5000, TS_LENGTH},
    {"300 mm", 0.3, 0.3, TS_LENGTH},
    {"14 ft", 4.2672, 4.2672, TS_LENGTH},
    {"7.4", 7.4, 7.4, TS_NUMBER},
    {"7.4 pH", 7.4, 7.4, TS_NUMBER},
    {"0", 0, 0, TS_NUMBER},
    {"35 %", 0.35, 0.35, TS_NUMBER},
    {"35%", 0.35, 0.35, TS_NUMBER},
    {"3 ppm", 3e-6, 3e-6, TS_NUMBER},
    /* ranges */
    {"3.8..4.5 m", 3.8, 4.5, TS_LENGTH},
    {"3.8 .. 4.5 m", 3.8, 4.5, TS_LENGTH},
    {"3.8 m..4.5 m", 3.8, 4.5, TS_LENGTH},
    {"380 cm .. 4.5 m", 3.8, 4.5, TS_LENGTH},
    {"3..4", 3, 4, TS_NUMBER},
    {"-2..45 degC", 271.15, 318.15, TS_TEMPERATURE},
    {"-4..-3 m", -4, -3, TS_LENGTH},
    {"5..5 m", 5, 5, TS_LENGTH},
    {"5 ft 7 in .. 6 ft", 1.7018, 1.8288, TS_LENGTH},
    {"1..2.5 %", 0.01, 0.025, TS_NUMBER},
    {"3…4 m", 3, 4, TS_LENGTH},
    /* tolerances, in decimals as written */
    {"4.2 ± 0.1 m", 4.1, 4.3, TS_LENGTH},
    {"4.2 +- 0.1 m", 4.1, 4.3, TS_LENGTH},
    {"4.2 +/- 0.1 m", 4.1, 4.3, TS_LENGTH},
    {"4.2+-0.1m", 4.1, 4.3, TS_LENGTH},
    {"4.2 m ± 0.1 m", 4.1, 4.3, TS_LENGTH},
    {"4.2 m ± 10 cm", 4.1, 4.3, TS_LENGTH},
    {"4.2 m ± 0.1", 4.1, 4.3, TS_LENGTH},
    {"0.3 ± 0.1 m", 0.2, 0.4, TS_LENGTH},
    {"7.4 ± 0.2", 7.2, 7.6, TS_NUMBER},
    {"26 ± 1 degC", 298.15, 300.15, TS_TEMPERATURE},
    {"26 degC ± 1 K", 298.15, 300.15, TS_TEMPERATURE},
    {"5 mg/L ± 10 %", 4.5e-3, 5.5e-3, TS_DENSITY},
    {"50 ± 10 %", 0.4, 0.6, TS_NUMBER},
    {"1 h 20 min ± 5 min", 4500, 5100, TS_TIME},
    {"10:40 ± 10 min", 37800, 39000, TS_MOMENT},
    {"2027-03-09 ± 3 d", 20883 * DAY, 20889 * DAY, TS_MOMENT},
    {"3 ± 0 m", 3, 3, TS_LENGTH},
    /* compounds */
    {"5 ft 7 in", 1.7018, 1.7018, TS_LENGTH},
    {"-5 ft 7 in", -1.7018, -1.7018, TS_LENGTH},
    {"1 h 20 min", 4800, 4800, TS_TIME},
    {"2 min 30 s", 150, 150, TS_TIME},
    {"1 h 20 min 5.5 s", 4805.5, 4805.5, TS_TIME},
    {"1 d 2 h 3 min 4 s", 93784, 93784, TS_TIME},
    {"9 st 7 lb", 60.32778521, 60.32778521, TS_MASS},
    {"1 m 80 cm", 1.8, 1.8, TS_LENGTH},
    {"0 h 5 min", 300, 300, TS_TIME},
    /* temperatures and their differences */
    {"26 degC", 299.15, 299.15, TS_TEMPERATURE},
    {"26 °C", 299.15, 299.15, TS_TEMPERATURE},
    {"26°C", 299.15, 299.15, TS_TEMPERATURE},
    {"26 ° C", 299.15, 299.15, TS_TEMPERATURE},
    {"26 deg C", 299.15, 299.15, TS_TEMPERATURE},
    {"32 degF", 273.15, 273.15, TS_TEMPERATURE},
    {"212 °F", 373.15, 373.15, TS_TEMPERATURE},
    {"1.5 K", 1.5, 1.5, TS_TEMPERATURE_DIFFERENCE},
    {"9 delta_degF", 5, 5, TS_TEMPERATURE_DIFFERENCE},
    {"3 delta_degC", 3, 3, TS_TEMPERATURE_DIFFERENCE},
    {"@299.15 K", 299.15, 299.15, TS_TEMPERATURE},
    /* moments; 20886 days from 1970-01-01 to 2027-03-09 */
    {"2027-03-09", 20886 * DAY, 20886 * DAY, TS_MOMENT},
    {"1970-01-01", 0, 0, TS_MOMENT},
    {"1969-12-31", -DAY, -DAY, TS_MOMENT},
    {"2028-02-29", 21243 * DAY, 21243 * DAY, TS_MOMENT},
    {"2027-03", 20878 * DAY, 20908 * DAY, TS_MOMENT},
    {"2028-02", 21215 * DAY, 21243 * DAY, TS_MOMENT},
    {"2027-03-09..2027-03-12", 20886 * DAY, 20889 * DAY, TS_MOMENT},
    {"2027-02..2027-03", 20850 * DAY, 20908 * DAY, TS_MOMENT},
    {"2027-03-09 .. 2027-03", 20886 * DAY, 20908 * DAY, TS_MOMENT},
    {"10:40", 38400, 38400, TS_MOMENT},
    {"9:05", 32700, 32700, TS_MOMENT},
    {"10:40:30", 38430, 38430, TS_MOMENT},
    {"25:10", 90600, 90600, TS_MOMENT},
    {"00:00..47:59:59", 0, 172799, TS_MOMENT},
    {"10:40 .. 12:00", 38400, 43200, TS_MOMENT},
    {"@38400.5 s", 38400.5, 38400.5, TS_MOMENT},
    {"@1..2 s", 1, 2, TS_MOMENT},
    /* what keyboards and word processors make of units */
    {"180 m³/h", 0.05, 0.05, TS_FLOW},
    {"180 m^3/h", 0.05, 0.05, TS_FLOW},
    {"5 m²", 5, 5, TS_AREA},
    {"5 m s⁻²", 5, 5, TS_ACCELERATION},
    {"7 µm", 7e-6, 7e-6, TS_LENGTH},
    {"7 \xce\xbcm", 7e-6, 7e-6, TS_LENGTH},
    {"−3 m", -3, -3, TS_LENGTH},
    {"3\xc2\xa0m", 3, 3, TS_LENGTH},
    {"3\tm", 3, 3, TS_LENGTH},
    {"60 mg·min/L", 3.6, 3.6, CT},
    /* unit expressions */
    {"60 mg min/L", 3.6, 3.6, CT},
    {"60 mg.min/L", 3.6, 3.6, CT},
    {"60 mg*min/L", 3.6, 3.6, CT},
    {"5 mg per L", 5e-3, 5e-3, TS_DENSITY},
    {"2 kg m s-2", 2, 2, TS_FORCE},
    {"2 m2.kg.s-3", 2, 2, TS_POWER},
    {"2 W/(m2 K)", 2, 2, TS_DIM(0, 1, -3, 0, -1, 0, 0)},
    {"2 W/m2/K", 2, 2, TS_DIM(0, 1, -3, 0, -1, 0, 0)},
    {"2 kJ/(kg degC)", 2000, 2000, TS_DIM(2, 0, -2, 0, -1, 0, 0)},
    {"5 cfu/100 mL", 50000, 50000, PER_VOLUME},
    {"5 cfu/100ml", 50000, 50000, PER_VOLUME},
    {"5 L/100 km", 5e-8, 5e-8, TS_AREA},
    {"6 /h", 6 / 3600.0, 6 / 3600.0, RATE},
    {"6 1/h", 6 / 3600.0, 6 / 3600.0, RATE},
    {"6 per h", 6 / 3600.0, 6 / 3600.0, RATE},
    {"30 L/min/person", 0.0005, 0.0005, TS_FLOW},
    {"85 dB(A)", 85, 85, TS_SOUND},
    {"2 inH2O", 498.17782, 498.17782, TS_PRESSURE},
    {"2 mH₂O", 19613.3, 19613.3, TS_PRESSURE},
};

START_TEST(reads) { check_reads(good[_i].text, good[_i].lo, good[_i].hi, good[_i].dim); }
END_TEST

/* ---- what is refused, and what the reason must say -------------------------------- */

static const struct {
  const char *text, *says;
} bad[] = {
    {"", "empty"},
    {"   ", "empty"},
    {"?", "not known"},
    {"? m", "not known"},
    {"3..? m", "not known"},
    {"abc", "no number found in \"abc\""},
    {"m", "no number"},
    {"m 4", "no number"},
    {"nan", "no number"},
    {"nan m", "no number"},
    {"inf m", "no number"},
    {"-inf", "no number"},
    {"1e400 m", "too large"},
    {"1e308 km", "too large"},
    {"1e308 GW", "too large"},
    {"0x10 m", "unknown unit \"x\""},
    {"4.2 mtr", "unknown unit \"mtr\""},
    {"4.2 metr", "the nearest name is \"metre\""},
    {"4.2 degc", "the nearest name is \"degC\""},
    {"4.2 kpa", "the nearest name is \"kPa\""},
    {"4.2 ntu", "the nearest name is \"NTU\""},
    {"4.2 PSI", "the nearest name is \"psi\""},
    {"4.2 hourz", "the nearest name is \"hour\""},
    {"4.2 zzzzzz", "unknown unit \"zzzzzz\""},
    {"26 C", "write degC"},
    {"80 F", "write degF"},
    {"2 ton", "short_ton"},
    {"2 gallons", "impgal"},
    {"2 pints", "impgal"},
    {"2 months", "2027-03"},
    {"25 fps", "ft/s"},
    {"5' 7\"", "write ft"},
    {"30 psig", "psi"},
    {"1,500 m", "comma"},
    {"1,5 m", "comma"},
    {"1 500 m", "without spaces"},
    {"3-4 m", "a range is written \"3..4 m\""},
    {"3–4 m", "a range is written \"3..4 m\""},
    {"1/2 in", "decimal"},
    {"3 1/2 in", "decimal"},
    {"< 5 mg/L", "both ends"},
    {">5 mg/L", "both ends"},
    {"4..3 m", "runs downward"},
    {"4 m..300 cm", "runs downward"},
    {"3...4 m", "too many points"},
    {"3..4..5 m", "too many points"},
    {"3.. m", "no number"},
    {"..4 m", "one end of the range is missing"},
    {"3..", "one end of the range is missing"},
    {"..", "one end of the range is missing"},
    {"3 m..4", "unit missing after"},
    {"1..2 h 20 min", "unit missing before"},
    {"3 m..4 s", "length and time"},
    {"3..4 m ± 1 m", "use one"},
    {"3 ± m", "no number"},
    {"± 3 m", "missing beside"},
    {"3 m ±", "missing beside"},
    {"3 ± 1 ± 1 m", "more than one"},
    {"3 m ± 1 s", "tolerance is a time where a length was expected"},
    {"3 m ± -1 m", "negative"},
    {"10:40 ± 3", "where a time was expected"},
    {"10:40 ± 10:00", "must be a time"},
    {"20 degC ± 10 %", "where a temperature difference was expected"},
    {"7 in 5 ft", "from the larger unit to the smaller"},
    {"5 m ± 10 %/m", "where a length was expected"},
    {"5 kft", "unknown unit \"kft\""},
    {"5 kdegC", "unknown unit \"kdegC\""},
    {"5 millifeet", "unknown unit \"millifeet\""},
    {"5 kmetres", "unknown unit \"kmetres\""},
    {"5 ft 12 in", "less than one of the unit before"},
    {"5 ft 13 in", "less than one of the unit before"},
    {"5 ft -7 in", "less than one of the unit before"},
    {"5.5 ft 7 in", "only the last may have a fraction"},
    {"5 ft 7 s", "do not make one quantity"},
    {"5 ft 7", "without a unit"},
    {"20 degC 5 degC", "do not make one quantity"},
    {"1 d 1 h 1 min 1 s 1 ms", "too many parts"},
    {"2027-02-29", "not in the calendar"},
    {"2027-02-30", "not in the calendar"},
    {"2027-13-01", "not in the calendar"},
    {"2027-00", "not in the calendar"},
    {"2027-04-31", "not in the calendar"},
    {"0000-01-01", "not in the calendar"},
    {"2027-3-9", "expected \"2027-03-09\""},
    {"2027-03-09 10:40", "is not a date"},
    {"2027-03-9x", "is not a date"},
    {"2027-03-12..2027-03-09", "runs downward"},
    {"2027-03-09..10:40", "a date and a time of day"},
    {"48:00", "hours go to 47"},
    {"10:60", "minutes and seconds to 59"},
    {"10:40:60", "minutes and seconds to 59"},
    {"10:4", "expected \"14:05\""},
    {"10:40 pm", "is not a time of day"},
    {"10:40:30.5", "is not a time of day"},
    {"23:00..01:00", "hours over 24 past midnight"},
    {"10³ m", "unexpected \"^\""},
    {"5 m/", "ends where a unit name was expected"},
    {"5 m//s", "unexpected \"/\""},
    {"5 (m", "not closed"},
    {"5 m)", "unexpected \")\""},
    {"5 ((((((((((m))))))))))", "too many brackets"},
    {"5 m^", "exponent missing"},
    {"5 m128", "exponent out of range"},
    {"5 m99999999999999999999", "exponent out of range"},
    {"5 km127", "is out of range"},
    {"5 m/1e300 Gm", "is out of range"},
    {"5 NTU2", "only stands alone"},
    {"5 m/100 NTU", "only stands alone"},
    {"5 m.15 s", "unexpected \"1\""},
    {"5 m/0 s", "number out of range"},
    {"5 m/1e999 s", "number out of range"},
    {"5 m0", "exponent out of range"},
    {"5 W/m2 K", "read two ways"},
    {"5 W/m2.K", "read two ways"},
    {"5 NTU/m", "only stands alone"},
    {"5 m @", "unexpected \"@\""},
    {"@5 m", "nothing else"},
    {"@10:40", "nothing else"},
    {"5 m\x01", "unexpected byte 1"},
    {"5 \xff", "unexpected byte 255"},
    {"5 м", "unexpected \"м\""}, /* a Cyrillic letter that looks like m */
};

START_TEST(refuses) {
  ts_range range;
  ts_dim dim;
  char why[300] = "";
  ck_assert_msg(!ts_quantity_read(units, bad[_i].text, &range, &dim, why, sizeof why),
                "\"%s\" was read as %g..%g", bad[_i].text, range.lo, range.hi);
  ck_assert_msg(strstr(why, bad[_i].says) != NULL, "\"%s\": \"%s\" lacks \"%s\"", bad[_i].text, why,
                bad[_i].says);
}
END_TEST

START_TEST(refuses_what_is_too_long) {
  char text[400], why[100];
  ts_range range;
  ts_dim dim;
  for (size_t length = 250; length < 300; length++) {
    memset(text, ' ', length);
    memcpy(text, "3 m", 3);
    text[length] = '\0';
    ck_assert_int_eq(ts_quantity_read(units, text, &range, &dim, why, sizeof why), length <= 256);
  }
  ck_assert_ptr_nonnull(strstr(why, "too long"));
  for (size_t i = 0; i < 128; i++) memcpy(text + 2 * i, "°", 2); /* grows when made plain */
  text[256] = '\0';
  ck_assert(!ts_quantity_read(units, text, &range, &dim, why, sizeof why));
}
END_TEST

START_TEST(leaves_the_result_alone_and_needs_no_room_for_a_reason) {
  ts_range range = {1, 2};
  ts_dim dim = TS_MASS;
  char why[4] = "xxx";
  ck_assert(!ts_quantity_read(units, "4 zzzz", &range, &dim, NULL, 0));
  ck_assert(!ts_quantity_read(units, "4 zzzz", &range, &dim, why, 1));
  ck_assert_str_eq(why, "");
  ck_assert(!ts_quantity_read(units, "", &range, &dim, why, sizeof why));
  ck_assert_str_eq(why, "emp");
  ck_assert_double_eq(range.lo, 1);
  ck_assert_double_eq(range.hi, 2);
  ck_assert_uint_eq(dim, TS_MASS);
}
END_TEST

/* ---- exactness --------------------------------------------------------------------- */

/* Multiplying by 0.001 misses the nearest double for one whole number in seven. */
START_TEST(decimal_units_hit_the_nearest_double) {
  static const struct {
    const char *unit;
    double per;
    ts_dim dim;
  } rows[] = {{"mm", 1000, TS_LENGTH}, {"cm", 100, TS_LENGTH},  {"g", 1000, TS_MASS},
              {"%", 100, TS_NUMBER},   {"ppm", 1e6, TS_NUMBER}, {"mg/L", 1000, TS_DENSITY},
              {"L", 1000, TS_VOLUME},  {"uL", 1e9, TS_VOLUME},  {"m/h", 3600, TS_SPEED}};
  char text[64];
  for (int i = 0; i < COUNT(rows); i++)
    for (int n = 1; n <= 1000; n++) {
      snprintf(text, sizeof text, "%d %s", n, rows[i].unit);
      check_reads(text, n / rows[i].per, n / rows[i].per, rows[i].dim);
    }
}
END_TEST

START_TEST(feet_and_inches_add_up_before_they_round) {
  char compound[64], inches[64];
  ts_range a, b;
  ts_dim dim;
  for (int n = 12; n < 1200; n++) {
    snprintf(compound, sizeof compound, "%d ft %d in", n / 12, n % 12);
    snprintf(inches, sizeof inches, "%d in", n);
    ck_assert(ts_quantity_read(units, compound, &a, &dim, NULL, 0));
    ck_assert(ts_quantity_read(units, inches, &b, &dim, NULL, 0));
    ck_assert_double_eq(a.lo, b.lo);
  }
}
END_TEST

/* ---- threads ---------------------------------------------------------------------------- */

static void *read_all(void *result) {
  ts_range range;
  ts_dim dim;
  int *wrong = result;
  for (int round = 0; round < 50; round++)
    for (int i = 0; i < COUNT(good); i++)
      if (!ts_quantity_read(units, good[i].text, &range, &dim, NULL, 0) || range.lo != good[i].lo ||
          dim != good[i].dim)
        ++*wrong;
  return NULL;
}

START_TEST(threads_share_the_tables) {
  pthread_t thread[4];
  int wrong[4] = {0};
  for (int i = 0; i < 4; i++)
    ck_assert_int_eq(pthread_create(&thread[i], NULL, read_all, &wrong[i]), 0);
  for (int i = 0; i < 4; i++) {
    pthread_join(thread[i], NULL);
    ck_assert_int_eq(wrong[i], 0);
  }
}
END_TEST

Suite *suite_quantity(void);
Suite *suite_quantity(void) {
  Suite *suite = suite_create("quantity");
  TCase *all = tcase_create("quantity");
  tcase_add_unchecked_fixture(all, set_up, tear_down);
  tcase_add_loop_test(all, reads, 0, COUNT(good));
  tcase_add_loop_test(all, refuses, 0, COUNT(bad));
  tcase_add_test(all, refuses_what_is_too_long);
  tcase_add_test(all, leaves_the_result_alone_and_needs_no_room_for_a_reason);
  tcase_add_test(all, decimal_units_hit_the_nearest_double);
  tcase_add_test(all, feet_and_inches_add_up_before_they_round);
  tcase_add_test(all, threads_share_the_tables);
  tcase_set_timeout(all, 60);
  suite_add_tcase(suite, all);
  return suite;
}
