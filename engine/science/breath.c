/* Holding a breath: the oxygen in the lungs against what the work takes.
 *
 * A budget, not a model of a person: one full breath of `LUNG` per kg starts at
 * `START` oxygen; the work takes oxygen at a steady rate; the end is a stated
 * oxygen pressure in the lungs once back at the surface, because that is where
 * pressure falls and people faint. Oxygen in blood and muscle is left out, so
 * a held breath lasts longer than this in most people. */
#include <math.h>

#include "science/constants.h"
#include "science/points.h"

#define LUNG 80e-6            /* full lungs, m3 per kg of body (from memory) */
#define START 0.155           /* oxygen fraction after one full breath (from memory) */
#define VAPOUR (47 * TS_MMHG) /* water vapour in the lungs */
#define END (50 * TS_MMHG)    /* the limit's end pressure: SpO2 falls steeply below (from memory) */
#define FRESH 1000.0          /* kg/m3 */

/* m3/s, dry at 0 degC and one atmosphere; 10 mL/min times mass to the 3/4 at rest. */
double ts_point_oxygen_uptake(const double *x) {
  return x[1] * 10e-6 / TS_MINUTE * pow(x[0], 0.75);
}

double ts_point_carbon_dioxide_output(const double *x) { return 0.9 * ts_point_oxygen_uptake(x); }

double ts_point_metabolic_power(const double *x) { return 20.1e6 * ts_point_oxygen_uptake(x); }

/* Gas in full lungs at the depth of the breath, dry at 0 degC and one atmosphere. */
static double lung_gas(double mass, double depth) {
  double pressure = TS_ATMOSPHERE + FRESH * TS_GRAVITY * depth;
  return LUNG * mass * (pressure - VAPOUR) / TS_ATMOSPHERE * (273.15 / 310.15);
}

double ts_point_breath_hold_to_oxygen(const double *x) {
  double end_fraction = x[3] / (TS_ATMOSPHERE - VAPOUR);
  double usable = lung_gas(x[0], x[2]) * fmax(0, START - end_fraction);
  return usable / ts_point_oxygen_uptake(x);
}

double ts_point_breath_hold_limit(const double *x) {
  return ts_point_breath_hold_to_oxygen((double[]){x[0], x[1], x[2], END});
}

double ts_point_alveolar_oxygen_after(const double *x) {
  double used = ts_point_oxygen_uptake(x) * x[3] / lung_gas(x[0], x[2]);
  return fmax(0, START - used) * (TS_ATMOSPHERE - VAPOUR);
}

/* ---- cold, carbon dioxide, carbon monoxide ------------------------------------------ */

double ts_point_breath_hold_in_cold_water(const double *x) {
  return 15.01 + 0.92 * (x[0] - TS_CELSIUS);
}

/* 863 mmHg turns gas dry at 0 degC into a pressure in the lungs at 37 degC. */
double ts_point_carbon_dioxide_recovery_time(const double *x) {
  double stored = x[0] * x[1], cleared = x[2] * (40.0 / 863.0);
  if (stored <= 0) return 0;
  return cleared > 0 ? fmin(stored / cleared, TS_ONE_DAY) : TS_ONE_DAY;
}

double ts_point_carboxyhaemoglobin(const double *x) {
  double ppm = x[0] * 1e6, minutes = x[1] / TS_MINUTE;
  return fmin(pow(10, 0.858 * log10(ppm) + 0.63 * log10(minutes) - 2.295) / 100, 1);
}
