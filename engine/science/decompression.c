/* Dives on air by the tables: limits, groups, intervals.
 *
 * Every lookup takes the deeper row and the longer time. A depth or time that
 * reaches a row by rounding alone (1e-9) counts as that row. */
#include <math.h>

#include "science/constants.h"
#include "science/points.h"
#include "science/tables_air.h"

static double feet_of(double metres) { return metres / TS_FOOT * (1 - 1e-9); }

/* Whole minutes, a started minute counted. */
static double minutes_begun(double seconds) { return ceil(seconds / TS_MINUTE * (1 - 1e-9)); }

/* Whole minutes that have passed. */
static double minutes_gone(double seconds) { return floor(seconds / TS_MINUTE * (1 + 1e-9)); }

/* Groups are whole; one read between two counts as the higher. */
static int group_of(double number) { return (int)ceil(number - 1e-9); }

/* NULL: deeper than the table. */
static const ts_no_stop_row *no_stop_row(double metres) {
  double feet = feet_of(metres);
  for (size_t i = 0; i < ts_no_stop_count; i++)
    if (feet <= ts_no_stop_rows[i].feet) return &ts_no_stop_rows[i];
  return NULL;
}

static int no_stop_minutes(double metres) {
  const ts_no_stop_row *row = no_stop_row(metres);
  return row == NULL ? 0 : row->limit;
}

double ts_point_no_stop_limit(const double *x) { return no_stop_minutes(x[0]) * TS_MINUTE; }

/* Where the limit is unlimited the groups end too: the next one is the last there. */
static int group_in(const ts_no_stop_row *row, double minutes) {
  int longest = 0;
  for (int group = 1; group <= TS_GROUPS; group++) {
    if (minutes <= row->last[group - 1]) return group;
    if (row->last[group - 1] != 0) longest = group;
  }
  return row->limit == TS_DAY_MINUTES ? longest + 1 : TS_PAST_TABLE;
}

double ts_point_repetitive_group(const double *x) {
  double minutes = minutes_begun(x[1]);
  if (x[0] <= 0 || minutes <= 0) return 0;
  const ts_no_stop_row *row = no_stop_row(x[0]);
  return row == NULL ? TS_PAST_TABLE : group_in(row, minutes);
}

/* ---- surface interval ------------------------------------------------------ */

/* After `minutes` at the surface. */
static int credited(int group, double minutes) {
  const int *ends = ts_interval_ends[group - 1];
  for (int step = 0; step < group; step++)
    if (minutes <= ends[step]) return group - step;
  return 0;
}

double ts_point_surface_interval_group(const double *x) {
  int group = group_of(x[0]);
  double minutes = minutes_gone(x[1]);
  if (group == 0) return 0;
  if (group == TS_PAST_TABLE) return minutes < TS_DAY_MINUTES ? group : 0;
  return credited(group, minutes);
}

/* ---- residual nitrogen ------------------------------------------------------ */

/* Below the last row its times stand: they are longer than those further down. */
static size_t residual_index(double metres) {
  double feet = feet_of(metres);
  for (size_t i = 0; i < ts_residual_count; i++)
    if (feet <= ts_residual_rows[i].feet) return i;
  return ts_residual_count - 1;
}

/* At 25 ft groups O and Z are sent to the 30 ft row. */
static size_t row_for(size_t index, int group) {
  bool sent_on =
      ts_residual_rows[index].feet == 25 && ts_residual_rows[index].minutes[group - 1] == 0;
  return sent_on ? index + 1 : index;
}

static double residual_minutes(size_t index, int group) {
  if (group == 0) return 0;
  if (group == TS_PAST_TABLE) return TS_DAY_MINUTES;
  int minutes = ts_residual_rows[row_for(index, group)].minutes[group - 1];
  return minutes == 0 ? TS_DAY_MINUTES : minutes;
}

double ts_point_residual_nitrogen_time(const double *x) {
  return residual_minutes(residual_index(x[0]), group_of(x[1])) * TS_MINUTE;
}

/* Not monotone in the group (25 ft: N 470 min, O 308 by the 30 ft row): all cells are looked at. */
ts_range ts_range_residual_nitrogen_time(const ts_range *x) {
  ts_range all = {INFINITY, -INFINITY};
  for (size_t i = residual_index(x[0].lo); i <= residual_index(x[0].hi); i++)
    for (int group = group_of(x[1].lo); group <= group_of(x[1].hi); group++) {
      double seconds = residual_minutes(i, group) * TS_MINUTE;
      all = (ts_range){fmin(all.lo, seconds), fmax(all.hi, seconds)};
    }
  return all;
}

/* Limit and residual time come from the same row, as the manual's worksheet has it. */
double ts_point_no_stop_remaining(const double *x) {
  int group = group_of(x[1]), limit = no_stop_minutes(x[0]);
  if (group == TS_PAST_TABLE) return 0;
  if (group == 0 || limit == TS_DAY_MINUTES) return limit * TS_MINUTE;
  size_t index = residual_index(x[0]), row = row_for(index, group);
  if (row != index) limit = no_stop_minutes(ts_residual_rows[row].feet * TS_FOOT);
  return fmax(0, limit - residual_minutes(row, group)) * TS_MINUTE;
}

/* ---- height above the sea --------------------------------------------------- */

/* Minutes by group for a climb of so many thousands of feet. */
static double climb_interval(int group, int thousands) {
  const ts_climb_row *row = ts_climb_rows, *last = row + ts_climb_count - 1;
  while (row < last && group > row->group) row++;
  return group == 0 || thousands == 0 ? 0 : row->minutes[thousands - 1] * TS_MINUTE;
}

double ts_point_altitude_interval(const double *x) {
  double thousands = ceil(feet_of(x[1]) / 1000);
  return climb_interval(group_of(x[0]), (int)fmin(fmax(0, thousands), TS_CLIMBS));
}

double ts_point_flying_interval(const double *x) { return climb_interval(group_of(x[0]), 8); }

double ts_point_altitude_group(const double *x) {
  double feet = feet_of(x[0]);
  const ts_altitude_row *row = ts_altitude_rows, *last = row + ts_altitude_count - 1;
  while (row < last && feet > row->feet) row++;
  return feet <= 0 ? 0 : row->group;
}

double ts_point_ascent_time(const double *x) { return x[0] / x[1]; }
