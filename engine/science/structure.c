/* Loads: water on walls, windows, hatches and floors; things that float, sink and hang. */
#include <math.h>

#include "science/constants.h"
#include "science/points.h"

/* ---- water against structure ------------------------------------------------- */

double ts_point_wall_thrust(const double *x) { return x[2] * TS_GRAVITY * x[0] * x[1] * x[1] / 2; }

double ts_point_wall_moment(const double *x) {
  return x[2] * TS_GRAVITY * x[0] * x[1] * x[1] * x[1] / 6;
}

double ts_point_window_thrust(const double *x) { return x[3] * TS_GRAVITY * x[2] * x[0] * x[1]; }

/* A window wholly under water has its centre at least half its height down. */
double ts_point_window_pressure_centre(const double *x) {
  double centre = fmax(x[1], x[0] / 2);
  return centre > 0 ? centre + x[0] * x[0] / (12 * centre) : 0;
}

double ts_point_hatch_force(const double *x) { return x[2] * TS_GRAVITY * x[1] * x[0]; }

double ts_point_suction_force(const double *x) {
  return x[2] * TS_GRAVITY * x[1] * TS_PI * x[0] * x[0] / 4;
}

double ts_point_depth_for_floor_load(const double *x) { return x[0] / (x[1] * TS_GRAVITY); }

/* ---- windows as plates ---------------------------------------------------------- */

double ts_point_plate_stress_square(const double *x) {
  return 0.2874 * x[2] * (x[0] / x[1]) * (x[0] / x[1]);
}

double ts_point_plate_deflection_square(const double *x) {
  double slender = x[0] / x[1];
  return 0.0444 * x[2] * slender * slender * slender * x[0] / x[3];
}

double ts_point_plate_stress_round(const double *x) {
  const double poisson = 0.3;
  return 3 * (3 + poisson) / 8 * x[2] * (x[0] / x[1]) * (x[0] / x[1]);
}

/* ---- what floats, sinks and hangs ------------------------------------------------- */

double ts_point_buoyancy(const double *x) { return x[1] * TS_GRAVITY * x[0]; }

double ts_point_net_lift(const double *x) { return (x[2] * x[0] - x[1]) * TS_GRAVITY; }

double ts_point_mass_in_water(const double *x) { return x[0] - x[2] * x[1]; }

double ts_point_hook_load(const double *x) { return x[0] + x[2] * x[1]; }

double ts_point_submerged_fraction(const double *x) { return fmin(1, x[0] / x[1]); }

double ts_point_stopping_load_factor(const double *x) {
  return 1 + x[0] * x[0] / (2 * TS_GRAVITY * x[1]);
}

double ts_point_sling_factor(const double *x) { return 1 / sin(x[0]); }

/* ---- boats and ice ------------------------------------------------------------------ */

double ts_point_free_surface_loss(const double *x) {
  return x[3] * x[0] * x[1] * x[1] * x[1] / 12 / x[2];
}

double ts_point_sinkage(const double *x) { return x[0] / (x[3] * x[1] * x[2]); }

double ts_point_ice_capacity(const double *x) { return x[1] * x[0] * x[0]; }

/* ---- a leak of current -------------------------------------------------------------- */

double ts_point_voltage_gradient(const double *x) {
  return x[1] * x[0] / (2 * TS_PI * x[2] * x[2]);
}

/* ---- people, costume, boats ------------------------------------------------------------ */

double ts_point_ballast_mass(const double *x) { return x[0] / (TS_GRAVITY * (1 - x[2] / x[1])); }

double ts_point_soaked_mass(const double *x) { return x[0] * (1 + x[1]); }

double ts_point_body_density(const double *x) { return 4950 / (x[0] + 4.50); }

double ts_point_body_net_lift(const double *x) {
  return TS_GRAVITY * (x[3] * (x[0] / x[1] + x[2]) - x[0]);
}

/* Straight in the mass, up or down; each other argument has one direction. */
ts_range ts_range_body_net_lift(const ts_range *x) {
  double least[2], most[2];
  for (int i = 0; i < 2; i++) {
    double mass = i == 0 ? x[0].lo : x[0].hi;
    least[i] = ts_point_body_net_lift((double[]){mass, x[1].hi, x[2].lo, x[3].lo});
    most[i] = ts_point_body_net_lift((double[]){mass, x[1].lo, x[2].hi, x[3].hi});
  }
  return (ts_range){fmin(least[0], least[1]), fmax(most[0], most[1])};
}

double ts_point_boat_persons_capacity(const double *x) {
  const double pound = 0.45359237;
  return (x[0] / pound + 32) / 141;
}
