/* Cold: in the water, in the wind, and how much body there is to cool. */
#include <math.h>

#include "science/constants.h"
#include "science/points.h"

static double celsius(double kelvin) { return kelvin - TS_CELSIUS; }

/* ---- the body -------------------------------------------------------------- */

double ts_point_body_surface_area(const double *x) {
  return 0.007184 * pow(100 * x[1], 0.725) * pow(x[0], 0.425);
}

double ts_point_body_surface_mosteller(const double *x) { return sqrt(100 * x[1] * x[0] / 3600); }

double ts_point_surface_per_mass(const double *x) { return ts_point_body_surface_area(x) / x[0]; }

/* ---- in the water ------------------------------------------------------------ */

/* The formula climbs without end towards 23 degC, far beyond its data: held from 20 degC up. */
double ts_point_survival_time(const double *x) {
  double water = fmin(celsius(x[0]), 20);
  return TS_MINUTE * (15 + 7.2 / (0.0785 - 0.0034 * water));
}

/* Fingers follow the water with one time constant, from 33 degC skin to the 15 degC at
 * which they stop obeying. The constant makes it 10 minutes in water of 10 degC. */
double ts_point_hand_function_time(const double *x) {
  double water = celsius(x[0]);
  if (water >= 15) return TS_ONE_DAY;
  return fmin(6.5 * TS_MINUTE * log((33 - water) / (15 - water)), TS_ONE_DAY);
}

static double cooling(double at_zero, double per_degree, double kelvin) {
  return fmax(0, at_zero - per_degree * celsius(kelvin)) / TS_HOUR;
}

double ts_point_cooling_rate_rest(const double *x) { return cooling(3.818, 0.109, x[0]); }

double ts_point_cooling_rate_exercise(const double *x) { return cooling(3.434, 0.110, x[0]); }

double ts_point_immersion_heat_loss(const double *x) {
  return x[0] * fmax(0, x[1] - x[2]) / (x[3] + 1 / x[4]);
}

/* Foam of 0.05 W/(m K) at the surface. Squeezed to 2.5 times the pressure (15 m of sea) its
 * insulation is a third, so it goes with the pressure ratio to the power ln 3 / ln 2.5. */
double ts_point_suit_insulation(const double *x) {
  double ratio = fmin(1, x[2] / x[1]);
  return x[0] / 0.05 * pow(ratio, log(3) / log(2.5));
}

double ts_point_core_cooling_time(const double *x) {
  const double heat_of_body = 3490; /* J/(kg K) */
  double deficit = x[1] - x[2], stored = x[0] * heat_of_body * x[3];
  return deficit > 0 ? fmin(stored / deficit, TS_ONE_DAY) : TS_ONE_DAY;
}

/* ---- in the wind --------------------------------------------------------------- */

/* The 2001 formula, degC and km/h. */
static double chilled(double air, double wind) {
  double v = pow(wind, 0.16);
  return 13.12 + 0.6215 * air - 11.37 * v + 0.3965 * air * v;
}

/* Under 5 km/h on a straight line from still air; above 10 degC it is not defined. */
double ts_point_wind_chill(const double *x) {
  double air = celsius(x[0]), wind = x[1] * 3.6;
  if (air > 10) return x[0];
  if (wind >= 5) return TS_CELSIUS + chilled(air, wind);
  return TS_CELSIUS + air + (chilled(air, 5) - air) * (wind / 5);
}

double ts_point_frostbite_time(const double *x) {
  double air = celsius(x[0]), wind = x[1] * 3.6;
  double base = -24.5 * (0.667 * wind + 4.8) + 2111;
  return TS_MINUTE * fmax(0, base) * pow(-4.8 - air, -1.668);
}

/* ---- going in, and staying in balance ------------------------------------------------- */

double ts_point_cold_shock_grade(const double *x) {
  double water = x[0];
  if (water >= TS_CELSIUS + 25) return 0;
  if (water >= TS_CELSIUS + 15) return 1;
  return water > TS_CELSIUS + 10 ? 2 : 3;
}

double ts_point_neutral_water_temperature(const double *x) {
  return fmax(x[2] - x[0] * (x[3] + 1 / x[4]) / x[1], TS_CELSIUS - 2);
}
