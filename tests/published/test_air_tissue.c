/* The air tables worked out again: a cell that is mistyped does not fit.
 *
 * All of Tables 9-6 to 9-8 come from one rule. A repetitive group is a step of 1.24565 fsw of the
 * nitrogen that a slow tissue holds above what it holds at the surface, and nobody is in a group
 * below 1 fsw. The tissue fills with a half-time of 120 min; it empties at a steady rate while it
 * is 4.130 fsw or more above its surroundings, below that with the same half-time. Before an ascent
 * to altitude it is another tissue, of 640 min, that has to fall to one level a height. The form of
 * the rule is Thalmann's (from memory); step, floor, rate and levels were fitted to the cells read
 * in the manual (9-7 to 70 ft, 9-8 to 60 ft and to L, of 9-6 what is read), and the others follow
 * from it. */
#include <math.h>
#include <stdlib.h>

#include "figures.h"
#include "science/tables_air.h"

static const double air_nitrogen = 0.79, step = 1.24565, floor_ = 1, steady_above = 4.130;
static const double descent = 75, ascent = 30; /* ft/min, Table 9-9 */

static double rate(double half_time) { return log(2) / half_time; }

/* Nitrogen above that of the surface, in fsw, up to which somebody is in a group; 0: no group. */
static double level(int group) { return floor_ + group * step; }

/* ---- Table 9-8, second part: as long at depth as fills a clean tissue to the level -------- */

/* Minutes, INFINITY where the tissue does not fill so far. */
static double minutes_to_fill(int feet, double to) {
  double full = air_nitrogen * feet;
  return to < full ? -log(1 - to / full) / rate(120) : INFINITY;
}

/* Printed is the next whole minute. At 25 ft group O lacks 0.07 fsw of all the tissue can take, and
 * the table sends it to 30 ft like Z. */
static bool residual_fits(int feet, int group, int printed) {
  double minutes = minutes_to_fill(feet, level(group));
  if (minutes == INFINITY || (feet == 25 && group == 15)) return printed == 0;
  return printed - 1 < minutes && minutes <= printed;
}

/* ---- Table 9-7: the dive with its descent and ascent ---------------------------------------- */

/* The most the tissue holds: bottom time counts from the surface, and on the way up it fills on
 * until its surroundings have come down to it. */
static double most_after(int feet, double minutes) {
  double k = rate(120), way = fmin(feet / descent, minutes), fall = air_nitrogen * ascent / k;
  double held = air_nitrogen * descent * (way - (1 - exp(-k * way)) / k);
  double around = air_nitrogen * descent * way;
  held = around + (held - around) * exp(-k * (minutes - way));
  double over = around + fall - held; /* falls below `fall` when the two are level */
  return over > fall ? around - fall * log(over / fall) : held;
}

/* Two tenths of a minute are the manual's own rounding on the way (worst: 20 ft E, 0.18); near the
 * end of filling, where a minute is next to nothing, 0.002 fsw. */
static bool within(int feet, double minutes, double limit) {
  return most_after(feet, minutes) <= limit + 0.002 || most_after(feet, minutes - 0.2) <= limit;
}

/* Printed is the last whole minute; where the limit comes first, the limit. */
static bool last_minute_fits(const ts_no_stop_row *row, int group, int printed) {
  bool is_last = most_after(row->feet, printed + 1) > level(group);
  if (printed >= row->limit) is_last = printed == row->limit;
  return is_last && within(row->feet, printed, level(group));
}

/* An empty cell: the group before has the limit, or nobody gets so far in any time, or the way
 * down alone takes longer. */
static bool empty_fits(const ts_no_stop_row *row, int group) {
  if (group > 1 && within(row->feet, row->limit, level(group - 1))) return true;
  if (level(group) > air_nitrogen * row->feet) return true;
  return most_after(row->feet, ceil(row->feet / descent)) > level(group);
}

static bool no_stop_fits(const ts_no_stop_row *row, int group, int printed) {
  return printed == 0 ? empty_fits(row, group) : last_minute_fits(row, group, printed);
}

/* ---- Table 9-8, first part ---------------------------------------------------------------- */

static double minutes_to_empty(double from, double to) {
  double k = rate(120), steady = fmax(0, from - fmax(to, steady_above)) / (steady_above * k);
  return steady + fmax(0, log(fmin(from, steady_above) / to) / k);
}

/* Rounded to the minute; six hundredths more for the rate, which is fitted to three figures. */
static bool interval_fits(int group, int left, int printed) {
  return fabs(minutes_to_empty(level(group), level(left - 1)) - printed) <= 0.56;
}

/* ---- Table 9-6 ------------------------------------------------------------------------- */

/* fsw, for 1000 to 10000 ft. */
static const double bearable[TS_CLIMBS] = {14.2363, 12.8667, 11.4960, 10.2095, 8.9224,
                                           7.6743,  6.5074,  5.3404,  4.2138,  3.1273};

static bool climb_fits(int group, int thousands, int printed) {
  double minutes = log(level(group) / bearable[thousands - 1]) / rate(640);
  return fabs(fmax(0, minutes) - printed) <= 0.5;
}

/* ---- every cell ------------------------------------------------------------------------ */

START_TEST(residual_nitrogen) {
  for (size_t i = 0; i < ts_residual_count; i++)
    for (int group = 1; group <= TS_GROUPS; group++) {
      const ts_residual_row *row = &ts_residual_rows[i];
      ck_assert_msg(residual_fits(row->feet, group, row->minutes[group - 1]),
                    "%d ft, group %d: %d, worked out %g", row->feet, group, row->minutes[group - 1],
                    minutes_to_fill(row->feet, level(group)));
    }
}
END_TEST

START_TEST(no_stop_groups) {
  for (size_t i = 0; i < ts_no_stop_count; i++)
    for (int group = 1; group <= TS_GROUPS; group++) {
      const ts_no_stop_row *row = &ts_no_stop_rows[i];
      int printed = row->last[group - 1];
      ck_assert_msg(no_stop_fits(row, group, printed), "%d ft, group %d: %d; at most %g, then %g",
                    row->feet, group, printed, level(group), most_after(row->feet, printed));
    }
}
END_TEST

START_TEST(surface_intervals) {
  for (int group = 1; group <= TS_GROUPS; group++)
    for (int left = group; left >= 1; left--) {
      int printed = ts_interval_ends[group - 1][group - left];
      ck_assert_msg(interval_fits(group, left, printed), "%d to %d: %d, worked out %g", group,
                    left - 1, printed, minutes_to_empty(level(group), level(left - 1)));
    }
}
END_TEST

START_TEST(altitude_intervals) {
  ck_assert_uint_eq(ts_climb_count, TS_GROUPS + 1);
  for (int group = 1; group <= TS_GROUPS; group++)
    for (int thousands = 1; thousands <= TS_CLIMBS; thousands++) {
      int printed = ts_climb_rows[group - 1].minutes[thousands - 1];
      ck_assert_msg(climb_fits(group, thousands, printed), "group %d, %d000 ft: %d", group,
                    thousands, printed);
    }
}
END_TEST

/* ---- the check itself: a cell that is some minutes off stands out ------------------- */

typedef struct {
  int tried, seen;
} slips;

static void slip(slips *s, bool fits) {
  s->tried++;
  s->seen += !fits;
}

static slips residual_slips(int by) {
  slips s = {0, 0};
  for (size_t i = 0; i < ts_residual_count; i++)
    for (int group = 1; group <= TS_GROUPS; group++) {
      int printed = ts_residual_rows[i].minutes[group - 1];
      if (printed != 0) slip(&s, residual_fits(ts_residual_rows[i].feet, group, printed + by));
    }
  return s;
}

static slips no_stop_slips(int by) {
  slips s = {0, 0};
  for (size_t i = 0; i < ts_no_stop_count; i++)
    for (int group = 1; group <= TS_GROUPS; group++) {
      int printed = ts_no_stop_rows[i].last[group - 1];
      if (printed != 0) slip(&s, no_stop_fits(&ts_no_stop_rows[i], group, printed + by));
    }
  return s;
}

static slips interval_slips(int by) {
  slips s = {0, 0};
  for (int group = 1; group <= TS_GROUPS; group++)
    for (int left = group; left >= 1; left--)
      slip(&s, interval_fits(group, left, ts_interval_ends[group - 1][group - left] + by));
  return s;
}

static slips climb_slips(int by) {
  slips s = {0, 0};
  for (int group = 1; group <= TS_GROUPS; group++)
    for (int k = 1; k <= TS_CLIMBS; k++)
      slip(&s, climb_fits(group, k, ts_climb_rows[group - 1].minutes[k - 1] + by));
  return s;
}

/* Two minutes always, but at 25 ft O; one always where what is printed is exact, and elsewhere but
 * for the cells that stand within the tolerance of the next minute. */
START_TEST(a_slip_stands_out) {
  static slips (*const tables[])(int) = {residual_slips, climb_slips, interval_slips,
                                         no_stop_slips};
  static const double least[] = {1, 1, 0.9, 0.85};
  for (int i = 0; i < 4; i++)
    for (int by = -2; by <= 2; by++) {
      slips s = tables[i](by);
      double wanted = by == 0 ? 0 : abs(by) == 1 ? least[i] * s.tried : s.tried - 1;
      ck_assert_msg(s.tried >= 130 && s.seen >= wanted && (by != 0 || s.seen == 0),
                    "table %d, %+d min: %d of %d seen", i, by, s.seen, s.tried);
    }
}
END_TEST

Suite *suite_air_tissue(void);

Suite *suite_air_tissue(void) {
  Suite *suite = suite_create("published air tissue");
  TCase *cells = tcase_create("cells");
  tcase_add_test(cells, residual_nitrogen);
  tcase_add_test(cells, no_stop_groups);
  tcase_add_test(cells, surface_intervals);
  tcase_add_test(cells, altitude_intervals);
  tcase_add_test(cells, a_slip_stands_out);
  suite_add_tcase(suite, cells);
  return suite;
}
