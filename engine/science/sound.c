/* How long a noise may be borne. Levels in dB(A). */
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
