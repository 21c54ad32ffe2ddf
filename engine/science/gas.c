/* Breathing gas: how much, how long, how deep. */
#include <math.h>
#include <stddef.h>

#include "science/constants.h"
#include "science/points.h"

double ts_point_gas_demand(const double *x) { return x[0] * (x[1] / x[2]); }

double ts_point_gas_needed(const double *x) { return x[0] * (x[1] / x[2]) * x[3] * x[4]; }

double ts_point_gas_endurance(const double *x) {
  double usable = x[0] * fmax(0, x[1] - x[2]), rate = x[3] * x[4] * x[5];
  return rate > 0 ? fmin(usable / rate, TS_LONG) : TS_LONG;
}

double ts_point_cylinder_free_gas(const double *x) { return x[0] * ((x[1] + x[2]) / x[2]); }

double ts_point_cylinder_energy(const double *x) { return x[0] * x[1] * log(x[1] / x[2]); }

double ts_point_maximum_operating_depth(const double *x) {
  return fmin(fmax(0, x[1] / x[0] - x[2]) / (x[3] * TS_GRAVITY), 1000);
}

/* ---- oxygen exposure -------------------------------------------------------- */

typedef struct {
  double pressure;         /* atm */
  double single, in_a_day; /* minutes */
} exposure_row;

#define ROW(pressure, single, day) {pressure, single, day},
static const exposure_row exposures[] = {
#include "science/tables/oxygen_exposure.inc"
};

/* The first row at or above the pressure: between rows the higher one. */
static const exposure_row *exposure_at(double pascal) {
  double pressure = pascal / TS_ATMOSPHERE - 1e-9;
  for (size_t i = 0; i < sizeof exposures / sizeof *exposures; i++)
    if (pressure <= exposures[i].pressure) return &exposures[i];
  return NULL;
}

double ts_point_oxygen_exposure_limit(const double *x) {
  const exposure_row *row = exposure_at(x[0]);
  return row == NULL ? 0 : row->single * TS_MINUTE;
}

double ts_point_oxygen_exposure_day(const double *x) {
  const exposure_row *row = exposure_at(x[0]);
  return row == NULL ? 0 : row->in_a_day * TS_MINUTE;
}

/* EN 12021. */
double ts_point_breathing_air_water_limit(const double *x) { return x[0] > 200e5 ? 35e-6 : 50e-6; }
