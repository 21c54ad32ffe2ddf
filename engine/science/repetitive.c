/* Air dives one after another. */
#include "science/repetitive.h"
#include "science/constants.h"
#include "science/points.h"
#include "science/tables_air.h"
#include <math.h>

/* With less than this at the surface both are one dive, to the greater depth and for the bottom
 * times of both (US Navy Diving Manual Rev 7, Table 9-8: the first ten minutes give no credit; NOAA
 * Diving Center, US Navy Decompression Tables and Procedures: 80 ft for 20 min, 8 min, 70 ft for
 * 20 min is 80 ft for 40 min). */
static const double one_dive = 10 * TS_MINUTE;

static bool is_one_dive(ts_dives before, double interval) {
  return before.time > 0 && interval < one_dive;
}

static int credited(ts_dives before, double interval) {
  return (int)ts_point_surface_interval_group((double[]){before.group, interval});
}

static int group_after(double depth, double time) {
  return (int)ts_point_repetitive_group((double[]){depth, time});
}

static int higher(int a, int b) { return a > b ? a : b; }

/* No dive leaves a group lower than the one it was begun in. Where two are one, the residual time
 * would have said less for a second that is deeper, but more for one that is shallower: the worse
 * of both counts, so that less time at the surface never leaves more. */
ts_dives ts_dives_next(ts_dives before, double interval, double depth, double time) {
  int begun = credited(before, interval);
  double counted = time + ts_point_residual_nitrogen_time((double[]){depth, begun});
  ts_dives after = {higher(begun, group_after(depth, counted)), depth, counted, counted};
  if (is_one_dive(before, interval)) {
    after.depth = fmax(depth, before.depth);
    after.time = time + before.time;
    after.most = fmax(counted, time + before.most);
    after.group = higher(after.group, group_after(after.depth, after.most));
  }
  return after;
}

double ts_dives_left(ts_dives before, double interval, double depth) {
  double left = ts_point_no_stop_remaining((double[]){depth, credited(before, interval)});
  if (!is_one_dive(before, interval)) return left;
  double limit = ts_point_no_stop_limit((double[]){fmax(depth, before.depth)});
  return ts_dives_unlimited(limit) ? left : fmin(left, fmax(0, limit - before.most));
}

char ts_dives_letter(ts_dives dives) {
  static const char letters[] = "-ABCDEFGHIJKLMNOZ>";
  return letters[dives.group];
}

bool ts_dives_unlimited(double left) { return left >= TS_DAY_MINUTES * TS_MINUTE; }
