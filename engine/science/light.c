/* Seeing under water. */
#include <math.h>

#include "science/constants.h"
#include "science/points.h"

double ts_point_visibility(const double *x) { return 4.6 / x[0]; }

double ts_point_visibility_black_disc(const double *x) { return 4.8 / x[0]; }

/* Clean pool water plus one per metre for each NTU. */
double ts_point_visibility_of_turbidity(const double *x) { return 4.8 / (0.1 + x[0]); }

double ts_point_contrast_left(const double *x) { return exp(-x[0] * x[1]); }

double ts_point_lamp_illuminance(const double *x) {
  return x[0] * exp(-x[1] * x[2]) / (x[2] * x[2]);
}
