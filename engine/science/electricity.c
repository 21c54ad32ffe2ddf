/* Electricity and people in or near water. */
#include <math.h>

#include "science/constants.h"
#include "science/points.h"

/* ---- through a body ---------------------------------------------------------- */

double ts_point_body_current(const double *x) { return x[0] / x[1]; }

double ts_point_touch_voltage_limit(const double *x) { return x[0] * x[1]; }

double ts_point_heart_current(const double *x) { return x[0] * x[1]; }

/* IEC 60479-1, curve b: level to 10 ms, level from 2 s, straight on its logarithmic paper. */
double ts_point_let_go_current(const double *x) {
  const double first = 0.010, last = 2, most = 0.200, least = 0.005; /* s, A */
  double slope = log(least / most) / log(last / first);
  return most * pow(fmin(fmax(x[0], first), last) / first, slope);
}

/* Dalziel, for 50 kg. */
double ts_point_tolerable_body_current(const double *x) { return 0.116 / sqrt(x[0]); }

/* ---- around the water ---------------------------------------------------------- */

double ts_point_electrical_zone(const double *x) {
  double distance = x[0], height = x[1];
  if (distance <= 0 && height <= 0) return 0;
  if (height > 2.5 || distance > 3.5) return 3;
  return distance > 2.0 ? 2 : 1;
}

double ts_point_voltage_gradient_distance(const double *x) {
  return sqrt(x[1] * x[0] / (2 * TS_PI * x[2]));
}
