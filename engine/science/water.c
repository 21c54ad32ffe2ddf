/* Water treatment: turnover, disinfectant, doses, balance, evaporation. */
#include <math.h>

#include "science/constants.h"
#include "science/points.h"

/* ---- circulation ---------------------------------------------------------- */

double ts_point_turnover_time(const double *x) {
  return x[1] > 0 ? fmin(x[0] / x[1], TS_LONG) : TS_LONG;
}

double ts_point_purified_fraction(const double *x) { return -expm1(-x[1] * x[0]); }

double ts_point_remaining_fraction(const double *x) { return exp(-x[1] * x[2] / x[0]); }

double ts_point_grate_velocity(const double *x) { return x[0] / x[1]; }

double ts_point_basin_volume(const double *x) { return x[0] * x[1] * ((x[2] + x[3]) / 2); }

/* ---- disinfectant ----------------------------------------------------------- */

/* Morris 1966. */
static double acid_exponent(double kelvin) { return 3000 / kelvin - 10.0686 + 0.0253 * kelvin; }

static double acid_fraction(double ph, double kelvin) {
  return 1 / (1 + pow(10, ph - acid_exponent(kelvin)));
}

double ts_point_hypochlorous_fraction(const double *x) { return acid_fraction(x[0], x[1]); }

double ts_point_hypochlorous_acid(const double *x) { return x[0] * acid_fraction(x[1], x[2]); }

/* Chlorine held by cyanurate, in mol per m3: three reactions of O'Brien, Morris and Butler at
 * 25 degC. `h` is free hypochlorous acid, `hydrogen` the acid in mol/L. */
static double chlorine_with(double h, double cyanurate, double hydrogen) {
  const double t = 298.15, litre = 1000;
  double k6 = pow(10, -(1743 / t + 1.12)), k7 = litre * pow(10, -(2028 / t - 2.15));
  double k9 = litre * pow(10, -(2229 / t - 1.65)), ka = pow(10, -acid_exponent(t));
  double one = h / k9, two = h * h / (k9 * k7); /* chlorinated once, twice, per plain cyanurate */
  double plain = cyanurate / (hydrogen / k6 + 1 + one + two);
  return h * (1 + ka / hydrogen) + plain * (one + 2 * two);
}

double ts_point_hypochlorous_with_cyanurate(const double *x) {
  const double chlorine_mass = 70.906e-3, cyanuric_mass = 129.07e-3; /* kg/mol */
  double total = x[0] / chlorine_mass, cyanurate = x[1] / cyanuric_mass;
  double hydrogen = pow(10, -x[2]), lo = 0, hi = total;
  for (int i = 0; i < 120 && lo < hi; i++) {
    double middle = (lo + hi) / 2;
    if (chlorine_with(middle, cyanurate, hydrogen) < total)
      lo = middle;
    else
      hi = middle;
  }
  return hi * chlorine_mass;
}

double ts_point_ct_value(const double *x) { return x[0] * x[1]; }

double ts_point_ct_time(const double *x) { return x[1] > 0 ? fmin(x[0] / x[1], TS_LONG) : TS_LONG; }

/* ---- doses -------------------------------------------------------------------- */

double ts_point_chlorine_dose(const double *x) { return x[0] * x[1] / x[2]; }

double ts_point_chlorine_rise(const double *x) { return x[1] * x[2] / x[0]; }

double ts_point_chlorine_feed(const double *x) { return x[0] * x[1]; }

double ts_point_thiosulfate_dose(const double *x) { return 1.9 * x[0] * x[1]; }

/* ---- balance -------------------------------------------------------------------- */

/* Common logarithm of a concentration in mg/L, from 1 mg/L up. */
static double log_mg(double concentration) { return log10(fmax(1, 1000 * concentration)); }

double ts_point_saturation_index(const double *x) {
  double a = (log_mg(x[4]) - 1) / 10, b = -13.12 * log10(x[1]) + 34.55;
  double c = log_mg(x[2]) - 0.4, d = log_mg(x[3]);
  return x[0] - (9.3 + a + b) + c + d;
}

#define ROW(fahrenheit, factor) {fahrenheit, factor},
static const struct {
  double fahrenheit, factor;
} factors[] = {
#include "science/tables/pool_temperature_factor.inc"
};

/* The operators' temperature factor, on straight lines between its rows. */
static double temperature_factor(double kelvin) {
  enum { LAST = sizeof factors / sizeof *factors - 1 };
  double f = (kelvin - TS_CELSIUS) * 1.8 + 32;
  f = fmin(fmax(f, factors[0].fahrenheit), factors[LAST].fahrenheit);
  int i = 1;
  while (i < LAST && f > factors[i].fahrenheit) i++;
  double below = factors[i - 1].fahrenheit, above = factors[i].fahrenheit;
  double share = (f - below) / (above - below);
  return factors[i - 1].factor + share * (factors[i].factor - factors[i - 1].factor);
}

double ts_point_saturation_index_pool(const double *x) {
  return x[0] + temperature_factor(x[1]) + (log_mg(x[2]) - 0.4) + log_mg(x[3]) - 12.1;
}

/* ---- to the air -------------------------------------------------------------------- */

double ts_point_pool_evaporation(const double *x) {
  double water = ts_point_vapour_pressure(&x[1]), air = x[3] * ts_point_vapour_pressure(&x[2]);
  double latent = 1e3 * (2501 - 2.36 * (x[1] - TS_CELSIUS)); /* J/kg */
  return x[0] * fmax(0, water - air) * (0.089 + 0.0782 * x[4]) / latent;
}

/* ---- people in the water ---------------------------------------------------------------- */

#define ROW(depth, area) {depth, area},
static const struct {
  double depth, area; /* m, m2 */
} bathers[] = {
#include "science/tables/pool_bather_area.inc"
};

double ts_point_bather_load(const double *x) {
  int i = 0;
  while (x[1] * (1 - 1e-9) > bathers[i].depth) i++;
  return x[0] / bathers[i].area;
}

double ts_point_circulation_for_bathers(const double *x) { return 1.7 / TS_HOUR * x[0]; }

double ts_point_dilution_for_bathers(const double *x) { return 0.030 * x[0]; }

double ts_point_replacement_volume(const double *x) { return x[0] * fmax(0, 1 - x[2] / x[1]); }

/* ---- legionella ---------------------------------------------------------------------------- */

static const ts_range grows = {TS_CELSIUS + 20, TS_CELSIUS + 45};
static const ts_range thrives = {TS_CELSIUS + 32, TS_CELSIUS + 42};

static bool meets(ts_range a, ts_range b) { return a.lo <= b.hi && b.lo <= a.hi; }
static bool within(ts_range a, ts_range b) { return b.lo <= a.lo && a.hi <= b.hi; }

ts_range ts_range_legionella_growth(const ts_range *x) {
  return (ts_range){within(*x, thrives) ? 2
                    : within(*x, grows) ? 1
                                        : 0,
                    meets(*x, thrives) ? 2
                    : meets(*x, grows) ? 1
                                       : 0};
}

double ts_point_legionella_growth(const double *x) {
  ts_range here = {x[0], x[0]};
  return ts_range_legionella_growth(&here).lo;
}

double ts_point_legionella_reduction_time(const double *x) {
  return TS_MINUTE * 124 * pow(2.0 / 124, (x[0] - TS_CELSIUS - 50) / 10);
}
