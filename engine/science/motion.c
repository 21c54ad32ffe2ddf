/* Things and people that move: falls, jets, waves, currents, ways out. */
#include <math.h>

#include "science/constants.h"
#include "science/points.h"

/* ---- falling and landing ---------------------------------------------------- */

double ts_point_fall_speed(const double *x) { return sqrt(2 * TS_GRAVITY * x[0]); }

double ts_point_fall_time(const double *x) { return sqrt(2 * x[0] / TS_GRAVITY); }

/* Weight and buoyancy cancel; drag alone slows the body from its speed at the surface. */
double ts_point_plunge_depth(const double *x) {
  double speed = sqrt(2 * TS_GRAVITY * x[0]);
  if (speed <= x[3]) return 0;
  return fmin(2 * x[1] / (x[4] * x[2]) * log(speed / x[3]), 100);
}

/* ---- jets and currents -------------------------------------------------------- */

double ts_point_efflux_speed(const double *x) { return sqrt(2 * TS_GRAVITY * x[0]); }

double ts_point_orifice_flow(const double *x) {
  return x[2] * TS_PI * x[0] * x[0] / 4 * sqrt(2 * TS_GRAVITY * x[1]);
}

double ts_point_jet_force(const double *x) { return x[2] * TS_PI * x[0] * x[0] / 4 * x[1] * x[1]; }

double ts_point_stagnation_pressure(const double *x) { return x[1] * x[0] * x[0] / 2; }

double ts_point_drag_force(const double *x) { return x[3] * x[0] * x[1] * x[2] * x[2] / 2; }

double ts_point_depth_velocity(const double *x) { return x[0] * x[1]; }

double ts_point_flood_hazard_rating(const double *x) { return x[0] * (x[1] + 0.5) + x[2]; }

double ts_point_drift_distance(const double *x) { return x[0] * x[1]; }

double ts_point_drawdown(const double *x) { return x[0] / (x[1] * x[2]); }

/* ---- waves ----------------------------------------------------------------------- */

double ts_point_wave_speed(const double *x) { return sqrt(TS_GRAVITY * x[0]); }

double ts_point_bore_speed(const double *x) {
  return sqrt(TS_GRAVITY * x[1] * (1 + x[1] / x[0]) / 2);
}

double ts_point_dam_break_front(const double *x) { return 2 * sqrt(TS_GRAVITY * x[0]); }

double ts_point_dam_break_discharge(const double *x) {
  return 8.0 / 27 * sqrt(TS_GRAVITY) * x[0] * sqrt(x[0]) * x[1];
}

double ts_point_blast_peak_pressure(const double *x) {
  return 52.4e6 * pow(cbrt(x[0]) / x[1], 1.13);
}

/* ---- ways out and ways to stop ---------------------------------------------------- */

/* A day stands for "never gets there". */
static double time_to_cover(double distance, double speed) {
  if (distance <= 0) return 0;
  return speed > 0 ? fmin(distance / speed, TS_ONE_DAY) : TS_ONE_DAY;
}

double ts_point_swim_time(const double *x) { return time_to_cover(x[0], x[1]); }

double ts_point_swim_time_against(const double *x) { return time_to_cover(x[0], x[1] - x[2]); }

double ts_point_exit_time(const double *x) { return time_to_cover(x[0], x[1] * x[2]); }

double ts_point_walking_speed(const double *x) {
  const double free = 1.40, crowding = 0.266; /* m/s; m2 a person */
  return free * fmax(0, 1 - crowding * fmax(0.54, x[0]));
}

double ts_point_stopping_distance(const double *x) {
  return x[0] * x[2] + x[0] * x[0] / (2 * x[1]);
}

double ts_point_friction_of_pendulum(const double *x) { return 3 * x[0] / (330 - x[0]); }

double ts_point_lightning_distance(const double *x) { return 343 * x[0]; }

/* ---- going in from a height -------------------------------------------------------- */

enum { PLATFORMS = 5 };

static double between_platforms(const double *depth, double height) {
  static const double at[PLATFORMS] = {1, 3, 5, 7.5, 10}; /* m */
  int i = 0;
  while (i < PLATFORMS - 2 && height > at[i + 1]) i++;
  double part = fmax(0, (height - at[i]) / (at[i + 1] - at[i]));
  return depth[i] + part * (depth[i + 1] - depth[i]);
}

double ts_point_entry_depth_minimum(const double *x) {
  static const double depth[PLATFORMS] = {3.2, 3.5, 3.7, 4.1, 4.5};
  return between_platforms(depth, x[0]);
}

double ts_point_entry_depth_preferred(const double *x) {
  static const double depth[PLATFORMS] = {3.3, 3.6, 3.8, 4.5, 5.0};
  return between_platforms(depth, x[0]);
}

/* ---- filling, emptying, pouring ------------------------------------------------------ */

double ts_point_filling_time(const double *x) {
  if (x[0] <= 0) return 0;
  return x[1] > 0 ? fmin(x[0] / x[1], TS_LONG) : TS_LONG;
}

double ts_point_emptying_time(const double *x) {
  double opening = x[3] * (TS_PI * x[2] * x[2] / 4), full = x[0] * sqrt(2 * x[1] / TS_GRAVITY);
  if (full <= 0) return 0;
  return opening > 0 ? fmin(full / opening, TS_LONG) : TS_LONG;
}

double ts_point_level_rate(const double *x) { return x[0] / x[1]; }

double ts_point_falling_water_force(const double *x) {
  return x[2] * x[0] * sqrt(2 * TS_GRAVITY * x[1]);
}

/* ---- waves, wading, shock ------------------------------------------------------------ */

double ts_point_breaking_wave_height(const double *x) { return 0.78 * x[0]; }

double ts_point_solitary_wave_speed(const double *x) { return sqrt(TS_GRAVITY * (x[0] + x[1])); }

/* y = 2 pi depth / L solves y tanh y = a; tanh is below both 1 and y, so y is at least a and its
 * root, and no more than a + 1. */
double ts_point_wave_length(const double *x) {
  double turn = 2 * TS_PI / x[0], a = turn * turn * x[1] / TS_GRAVITY;
  double low = fmax(a, sqrt(a)), high = fmax(low, a + 1);
  for (int i = 0; i < 200; i++) {
    double y = (low + high) / 2;
    if (y * tanh(y) < a)
      low = y;
    else
      high = y;
  }
  return TS_GRAVITY * x[0] * x[0] / (2 * TS_PI) * tanh((low + high) / 2);
}

double ts_point_wading_limit(const double *x) {
  double size = x[0] * x[1]; /* m kg */
  if (size > 50) return 0.6;
  return size > 25 ? 0.4 : 0;
}

double ts_point_blast_distance(const double *x) {
  return cbrt(x[0]) * pow(52.4e6 / x[1], 1 / 1.13);
}
