/* Moist air over wet skin and wet bulbs. */
#include <math.h>

#include "science/constants.h"
#include "science/points.h"

static double saturated(double kelvin) { return ts_point_vapour_pressure(&kelvin); }

/* Water per dry air, by mass, at a vapour pressure. */
static double mixing(double vapour, double air) { return 0.621945 * vapour / (air - vapour); }

/* What the air would hold if its wet bulb stood at `wet` (ASHRAE's energy balance, degC). */
static double mixing_by_wet_bulb(double dry, double wet, double air) {
  double t = dry - TS_CELSIUS, w = wet - TS_CELSIUS;
  double full = mixing(saturated(wet), air);
  return ((2501 - 2.326 * w) * full - 1.006 * (t - w)) / (2501 + 1.86 * t - 4.186 * w);
}

double ts_point_wet_bulb(const double *x) {
  double target = mixing(x[1] * saturated(x[0]), x[2]);
  double lo = x[0] - 50, hi = x[0];
  for (int i = 0; i < 60; i++) {
    double middle = (lo + hi) / 2;
    if (mixing_by_wet_bulb(x[0], middle, x[2]) < target)
      lo = middle;
    else
      hi = middle;
  }
  return hi;
}

/* Down to -45 degC, which stands for anything drier. */
double ts_point_dew_point(const double *x) {
  double target = x[1] * saturated(x[0]), lo = TS_CELSIUS - 45, hi = x[0];
  for (int i = 0; i < 60; i++) {
    double middle = (lo + hi) / 2;
    if (saturated(middle) < target)
      lo = middle;
    else
      hi = middle;
  }
  return hi;
}

double ts_point_evaporative_heat_loss(const double *x) {
  const double lewis = 16.5e-3; /* K/Pa */
  double skin = saturated(x[0]), air = x[2] * saturated(x[1]);
  return lewis * x[3] * fmax(0, skin - air);
}

double ts_point_convection_in_air(const double *x) { return 2.874 + 7.427 * pow(x[0], 1.345); }

double ts_point_convection_in_wind(const double *x) { return fmax(3.1, 8.3 * pow(x[0], 0.6)); }
