/* Pressure of air and water, and what it does to gas. */
#include <math.h>

#include "science/constants.h"
#include "science/points.h"

/* ICAO standard atmosphere, lowest layer: 288.15 K at sea level, 6.5 K/km. */
double ts_point_air_pressure(const double *x) {
  double exponent = TS_GRAVITY * 0.0289644 / (8.31432 * 0.0065);
  return TS_ATMOSPHERE * pow(1 - 0.0065 * x[0] / 288.15, exponent);
}

double ts_point_hydrostatic_pressure(const double *x) { return x[1] * TS_GRAVITY * x[0]; }

double ts_point_ambient_pressure(const double *x) { return x[1] + x[2] * TS_GRAVITY * x[0]; }

double ts_point_depth_of_pressure(const double *x) {
  return fmax(0, x[0] - x[1]) / (x[2] * TS_GRAVITY);
}

double ts_point_expansion_ratio(const double *x) { return x[0] / x[1]; }

double ts_point_lung_expansion_ratio(const double *x) {
  return 1 + x[2] * TS_GRAVITY * x[0] / x[1];
}

double ts_point_volume_at_pressure(const double *x) { return x[0] * (x[1] / x[2]); }

double ts_point_partial_pressure(const double *x) { return x[0] * x[1]; }

double ts_point_surface_equivalent(const double *x) { return x[0] * (x[1] / x[2]); }

double ts_point_equivalent_air_depth(const double *x) {
  double surface_head = x[2] / (x[3] * TS_GRAVITY);
  double nitrogen = (1 - x[1]) / 0.79;
  return fmax(0, x[0] * nitrogen - surface_head * (1 - nitrogen));
}

/* Hyland and Wexler over liquid water, kelvin to pascal. */
double ts_point_vapour_pressure(const double *x) {
  double t = x[0];
  return exp(-5.8002206e3 / t + 1.3914993 - 4.8640239e-2 * t + 4.1764768e-5 * t * t -
             1.4452093e-8 * t * t * t + 6.5459673 * log(t));
}

/* ---- density of water, EOS-80 at the surface ------------------------------ */

double ts_point_water_density(const double *x) {
  double t = (x[0] - TS_CELSIUS) * 1.00024; /* the polynomial wants IPTS-68 */
  double s = 1000 * x[1];                   /* practical salinity, taken equal to g/kg */
  double fresh = 999.842594 +
                 t * (6.793952e-2 + t * (-9.095290e-3 +
                                         t * (1.001685e-4 + t * (-1.120083e-6 + t * 6.536332e-9))));
  double a = 0.824493 + t * (-4.0899e-3 + t * (7.6438e-5 + t * (-8.2467e-7 + t * 5.3875e-9)));
  double b = -5.72466e-3 + t * (1.0227e-4 - t * 1.6546e-6);
  return fresh + a * s + b * s * sqrt(s) + 4.8314e-4 * s * s;
}

/* The slope of that density along temperature. */
static double density_slope(double temperature, double salinity) {
  double t = (temperature - TS_CELSIUS) * 1.00024, s = 1000 * salinity;
  double fresh =
      6.793952e-2 +
      t * (-2 * 9.095290e-3 + t * (3 * 1.001685e-4 + t * (-4 * 1.120083e-6 + t * 5 * 6.536332e-9)));
  double a = -4.0899e-3 + t * (2 * 7.6438e-5 + t * (-3 * 8.2467e-7 + t * 4 * 5.3875e-9));
  double b = 1.0227e-4 - t * 2 * 1.6546e-6;
  return fresh + a * s + b * s * sqrt(s);
}

/* The temperature of greatest density within [lo, hi]: density climbs to one summit and falls
 * beyond it, so where the slope turns is found by halving, if it turns within at all. */
static double densest(double salinity, double lo, double hi) {
  if (density_slope(lo, salinity) <= 0) return lo;
  if (density_slope(hi, salinity) >= 0) return hi;
  for (int i = 0; i < 50; i++) {
    double middle = (lo + hi) / 2;
    if (density_slope(middle, salinity) > 0)
      lo = middle;
    else
      hi = middle;
  }
  return (lo + hi) / 2;
}

/* Saltier is denser throughout, so only temperature needs a search. */
ts_range ts_range_water_density(const ts_range *x) {
  double summit = densest(x[1].hi, x[0].lo, x[0].hi);
  double cold = ts_point_water_density((double[]){x[0].lo, x[1].lo});
  double warm = ts_point_water_density((double[]){x[0].hi, x[1].lo});
  double most = ts_point_water_density((double[]){summit, x[1].hi});
  double ends = fmax(ts_point_water_density((double[]){x[0].lo, x[1].hi}),
                     ts_point_water_density((double[]){x[0].hi, x[1].hi}));
  /* The summit is flat: what the search can miss is far below a part in 10^12. */
  if (x[0].lo == x[0].hi) return (ts_range){fmin(cold, warm), ends};
  return (ts_range){fmin(cold, warm), fmax(most, ends) * (1 + 1e-12)};
}
