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

#define ROW(height, minimum, preferred) {height, minimum, preferred},
static const struct {
  double height, minimum, preferred; /* m */
} platforms[] = {
#include "science/tables/diving_platform_depth.inc"
};

/* The first row at least as high; the last ends the valid range. */
static int platform_row(double height) {
  int last = (int)(sizeof platforms / sizeof *platforms) - 1, i = 0;
  while (i < last && height * (1 - 1e-9) > platforms[i].height) i++;
  return i;
}

double ts_point_entry_depth_minimum(const double *x) {
  return platforms[platform_row(x[0])].minimum;
}

double ts_point_entry_depth_preferred(const double *x) {
  return platforms[platform_row(x[0])].preferred;
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

#define ROW(size, limit) {size, limit},
static const struct {
  double size, limit; /* m kg, m2/s */
} wading[] = {
#include "science/tables/wading_limit.inc"
};

double ts_point_wading_limit(const double *x) {
  int i = 0;
  while (x[0] * x[1] > wading[i].size) i++;
  return wading[i].limit;
}

double ts_point_blast_distance(const double *x) {
  return cbrt(x[0]) * pow(52.4e6 / x[1], 1 / 1.13);
}
