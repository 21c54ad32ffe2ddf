/* Air in closed spaces, well mixed: dry chambers, bells, rooms filled with fog. */
#include <math.h>

#include "science/constants.h"
#include "science/points.h"

double ts_point_air_changes(const double *x) { return x[1] / x[0]; }

/* ---- with a supply ----------------------------------------------------------- */

double ts_point_carbon_dioxide_steady(const double *x) {
  double made = x[0] * x[1];
  return x[2] > 0 ? fmin(1, x[3] + made / x[2]) : 1;
}

double ts_point_oxygen_steady(const double *x) {
  return x[2] > 0 ? fmax(0, x[3] - x[0] * x[1] / x[2]) : 0;
}

double ts_point_ventilation_for_carbon_dioxide(const double *x) {
  enum { MOST = 1000 }; /* m3/s: stands for "no flow is enough" */
  double made = x[0] * x[1], room = x[3] - x[2];
  if (room <= 0) return MOST;
  return fmin(made / room, MOST);
}

/* The two parts of what is in the air after a time: what was there or blown in, and what
 * people added. `k` counts the air changes. Only sums of what is positive: a difference would
 * lose a small share beside a large one. */
static double carried(double start, double supply, double k) {
  return start * exp(-k) - supply * expm1(-k);
}
static double added(double made, double volume, double time, double k) {
  double mixed = k > 1e-8 ? -expm1(-k) / k : 1 - k / 2;
  return made * time / volume * mixed;
}

enum { VOLUME, PEOPLE, RATE, FLOW, SUPPLY, TIME, FIRST };

double ts_point_carbon_dioxide_after(const double *x) {
  double k = x[FLOW] * x[TIME] / x[VOLUME];
  double now = carried(x[FIRST], x[SUPPLY], k);
  return fmin(1, now + added(x[PEOPLE] * x[RATE], x[VOLUME], x[TIME], k));
}

/* One end for one flow range: `carried` may go either way with the flow, `added` falls. */
static double least_over_flow(const double *x, ts_range flow) {
  double slow = flow.lo * x[TIME] / x[VOLUME], fast = flow.hi * x[TIME] / x[VOLUME];
  double least = fmin(carried(x[FIRST], x[SUPPLY], slow), carried(x[FIRST], x[SUPPLY], fast));
  return least + added(x[PEOPLE] * x[RATE], x[VOLUME], x[TIME], fast);
}
static double most_over_flow(const double *x, ts_range flow) {
  double slow = flow.lo * x[TIME] / x[VOLUME], fast = flow.hi * x[TIME] / x[VOLUME];
  double most = fmax(carried(x[FIRST], x[SUPPLY], slow), carried(x[FIRST], x[SUPPLY], fast));
  return most + added(x[PEOPLE] * x[RATE], x[VOLUME], x[TIME], slow);
}

/* With everything else held, the result moves one way with volume and with time (towards
 * the steady level or from the first one), so their four corners hold the extremes. */
ts_range ts_range_carbon_dioxide_after(const ts_range *x) {
  ts_range all = {INFINITY, -INFINITY};
  for (int corner = 0; corner < 4; corner++) {
    double volume = corner & 1 ? x[VOLUME].hi : x[VOLUME].lo;
    double time = corner & 2 ? x[TIME].hi : x[TIME].lo;
    double low[] = {volume, x[PEOPLE].lo, x[RATE].lo, 0, x[SUPPLY].lo, time, x[FIRST].lo};
    double high[] = {volume, x[PEOPLE].hi, x[RATE].hi, 0, x[SUPPLY].hi, time, x[FIRST].hi};
    all.lo = fmin(all.lo, least_over_flow(low, x[FLOW]));
    all.hi = fmax(all.hi, most_over_flow(high, x[FLOW]));
  }
  return (ts_range){fmin(1, all.lo), fmin(1, all.hi)};
}

/* ---- with the supply lost ------------------------------------------------------ */

/* Time for `rate` to fill `volume`, with 30 days standing for anything longer. */
static double time_to_fill(double volume, double rate) {
  if (volume <= 0) return 0;
  return rate > 0 ? fmin(volume / rate, TS_LONG) : TS_LONG;
}

double ts_point_time_to_carbon_dioxide(const double *x) {
  return time_to_fill(x[0] * (x[4] - x[3]), x[1] * x[2]);
}

double ts_point_time_to_oxygen(const double *x) {
  return time_to_fill(x[0] * (x[3] - x[4]), x[1] * x[2]);
}

double ts_point_oxygen_after(const double *x) { return fmax(0, x[4] - x[1] * x[2] * x[3] / x[0]); }

/* ---- gas let into a room -------------------------------------------------------- */

static double share_released(const double *x) { return fmin(1, x[1] / x[0]); }

double ts_point_oxygen_after_release(const double *x) { return x[2] * (1 - share_released(x)); }

double ts_point_carbon_dioxide_after_release(const double *x) {
  return x[2] + (1 - x[2]) * share_released(x);
}
