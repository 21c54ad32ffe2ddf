/* How long a noise may be borne, how far a call carries, how fast sound is. Levels in dB(A). */
#include <math.h>

#include "science/constants.h"
#include "science/points.h"

#define SHIFT (8 * TS_HOUR)

double ts_point_noise_time_5db(const double *x) {
  return fmin(SHIFT / exp2((x[0] - 90) / 5), TS_ONE_DAY);
}

double ts_point_noise_time_3db(const double *x) {
  return fmin(SHIFT / exp2((x[0] - x[1]) / 3), TS_ONE_DAY);
}

double ts_point_noise_dose(const double *x) { return x[1] / SHIFT * exp2((x[0] - x[2]) / 3); }

double ts_point_level_at_distance(const double *x) { return x[0] - 20 * log10(x[1]); }

/* Medwin 1975. */
double ts_point_sound_speed(const double *x) {
  double t = x[0] - TS_CELSIUS, salt = 1000 * x[1] - 35;
  return 1449.2 + t * (4.6 + t * (0.00029 * t - 0.055)) + (1.34 - 0.010 * t) * salt + 0.016 * x[2];
}
