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

/* Pope and Fry 1997: nm, 1/m. */
double ts_point_absorption_of_pure_water(const double *x) {
  static const double table[][2] = {{450, 0.00922}, {475, 0.0114}, {500, 0.0204}, {510, 0.0325},
                                    {525, 0.0417},  {550, 0.0565}, {575, 0.0772}, {600, 0.2224},
                                    {625, 0.2834},  {650, 0.3400}, {675, 0.4480}, {700, 0.6240}};
  const int last = (int)(sizeof table / sizeof *table) - 1;
  double nm = x[0] * 1e9;
  int i = 0;
  while (i < last - 1 && nm > table[i + 1][0]) i++;
  double part = (nm - table[i][0]) / (table[i + 1][0] - table[i][0]);
  return table[i][1] * pow(table[i + 1][1] / table[i][1], fmin(fmax(part, 0), 1));
}
