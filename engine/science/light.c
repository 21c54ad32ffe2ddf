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

double ts_point_attenuation_of_visibility(const double *x) { return 4.8 / x[0]; }

/* Half a cycle is one detail. */
double ts_point_smallest_detail(const double *x) { return x[0] * tan(1 / (2 * x[1])); }

#define ROW(wavelength, absorption) {wavelength, absorption},
static const struct {
  double wavelength, absorption; /* nm, 1/m */
} pure[] = {
#include "science/tables/pure_water_absorption.inc"
};

/* A spectrum, not a limit: even on a logarithmic scale between two rows. */
double ts_point_absorption_of_pure_water(const double *x) {
  const int last = (int)(sizeof pure / sizeof *pure) - 1;
  double nm = x[0] * 1e9;
  int i = 0;
  while (i < last - 1 && nm > pure[i + 1].wavelength) i++;
  double part = (nm - pure[i].wavelength) / (pure[i + 1].wavelength - pure[i].wavelength);
  double ratio = pure[i + 1].absorption / pure[i].absorption;
  return pure[i].absorption * pow(ratio, fmin(fmax(part, 0), 1));
}
