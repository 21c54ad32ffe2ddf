/* Air dives one after another: worked examples, and that nothing more of a dive leaves more. */
#include "science/repetitive.h"

#include <check.h>

#define FEET *0.3048
#define MINUTES *60.0

static ts_dives after_first(double depth, double time) {
  return ts_dives_next((ts_dives){0}, 1e9, depth, time);
}

/* NOAA Diving Center, US Navy Decompression Tables and Procedures, Part Three, "Brief SIT": 80 ft
 * for 20 min, 8 min at the surface, then 70 ft for 20 min is one dive to 80 ft for 40 min. */
START_TEST(less_than_ten_minutes_is_one_dive) {
  ts_dives dives = ts_dives_next(after_first(80 FEET, 20 MINUTES), 8 MINUTES, 70 FEET, 20 MINUTES);
  ck_assert_double_eq_tol(dives.depth, 80 FEET, 1e-9);
  ck_assert_double_eq_tol(dives.time, 40 MINUTES, 1e-9);
  ck_assert_int_eq(ts_dives_letter(dives), '>'); /* Table 9-7: 39 min at 80 ft */
  ck_assert_double_eq(ts_dives_left(dives, 5 MINUTES, 20 FEET), 0);
}
END_TEST

/* Worked by hand in a public transcription of Rev 7 (2016), Tables 9-7 and 9-8, as the manual's
 * worksheet goes. 60 ft, 30 min: 28 < 30 <= 33, F. 60 min: F 0:53 to 1:44 is E. At 50 ft E has 35
 * min; 92 - 35 = 57. */
START_TEST(second_dive) {
  ts_dives dives = after_first(60 FEET, 30 MINUTES);
  ck_assert_int_eq(ts_dives_letter(dives), 'F');
  ck_assert_double_eq_tol(ts_dives_left(dives, 60 MINUTES, 50 FEET), 57 MINUTES, 1e-9);
  ck_assert_double_eq_tol(ts_dives_left(dives, 52 MINUTES, 50 FEET), 50 MINUTES, 1e-9); /* F: 42 */
}
END_TEST

/* On from there: 20 min at 50 ft count as 55; 48 < 55 <= 56, H. 120 min: H 1:45 to 2:37 is F. At
 * 40 ft F has 55 min; 163 - 55 = 108. After 8:53 it is no longer repetitive. */
START_TEST(third_dive) {
  ts_dives dives = ts_dives_next(after_first(60 FEET, 30 MINUTES), 60 MINUTES, 50 FEET, 20 MINUTES);
  ck_assert_int_eq(ts_dives_letter(dives), 'H');
  ck_assert_double_eq_tol(dives.time, 55 MINUTES, 1e-9);
  ck_assert_double_eq_tol(ts_dives_left(dives, 120 MINUTES, 40 FEET), 108 MINUTES, 1e-9);
  ck_assert_double_eq_tol(ts_dives_left(dives, 533 MINUTES, 40 FEET), 163 MINUTES, 1e-9);
  ck_assert(ts_dives_unlimited(ts_dives_left(dives, 120 MINUTES, 20 FEET)));
}
END_TEST

/* A shallow dive does not take off what a deep one before it put on. */
START_TEST(no_group_falls_under_water) {
  ts_dives dives = after_first(100 FEET, 25 MINUTES);
  ck_assert_int_eq(ts_dives_letter(dives), 'H');
  dives = ts_dives_next(dives, 15 MINUTES, 10 FEET, 5 MINUTES);
  ck_assert_int_eq(ts_dives_letter(dives), 'H');
}
END_TEST

/* ---- more of anything never leaves more ------------------------------------------------------ */

typedef struct {
  double interval, depth, time;
} dive;

static double left_after(const dive *dives, int count, double interval, double depth) {
  ts_dives at = {0};
  for (int i = 0; i < count; i++)
    at = ts_dives_next(at, dives[i].interval, dives[i].depth, dives[i].time);
  return ts_dives_left(at, interval, depth);
}

static double drawn(unsigned *seed, double most) {
  *seed = *seed * 1103515245u + 12345u;
  return most * (*seed >> 8 & 0xFFFF) / 65535;
}

/* Longer, or sooner. Deeper is not among them: by the manual's own table the residual time falls
 * with depth, faster in some cells than the group rises. Nor is 25 ft: there the table sends groups
 * O and Z on to the next row. */
START_TEST(worse_never_leaves_more) {
  unsigned seed = 7;
  for (int round = 0; round < 20000; round++) {
    dive dives[3];
    for (int i = 0; i < 3; i++)
      dives[i] = (dive){drawn(&seed, 200 MINUTES), (26 + drawn(&seed, 100)) FEET,
                        drawn(&seed, 40 MINUTES)};
    double interval = drawn(&seed, 200 MINUTES), depth = (26 + drawn(&seed, 100)) FEET;
    double left = left_after(dives, 3, interval, depth);
    dive *worse = &dives[round % 3], was = *worse;
    ck_assert_double_le(left_after(dives, 3, interval / 2, depth), left);
    worse->time += drawn(&seed, 20 MINUTES);
    ck_assert_double_le(left_after(dives, 3, interval, depth), left);
    *worse = was;
    worse->interval /= 2;
    ck_assert_double_le(left_after(dives, 3, interval, depth), left);
  }
}
END_TEST

Suite *suite_repetitive(void);

Suite *suite_repetitive(void) {
  Suite *suite = suite_create("published repetitive");
  TCase *worked = tcase_create("worked");
  tcase_add_test(worked, less_than_ten_minutes_is_one_dive);
  tcase_add_test(worked, second_dive);
  tcase_add_test(worked, third_dive);
  tcase_add_test(worked, no_group_falls_under_water);
  tcase_add_test(worked, worse_never_leaves_more);
  suite_add_tcase(suite, worked);
  return suite;
}
