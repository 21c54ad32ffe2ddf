/* The time line of a rescue and of an evacuation, and what time costs. */
#include <math.h>

#include "science/constants.h"
#include "science/points.h"

/* ---- times --------------------------------------------------------------------- */

/* A day stands for "never gets there". */
static double leg(double distance, double speed) {
  if (distance <= 0) return 0;
  return speed > 0 ? fmin(distance / speed, TS_ONE_DAY) : TS_ONE_DAY;
}

double ts_point_time_to_casualty(const double *x) {
  return x[0] + leg(x[1], x[2]) + leg(x[3], x[4]);
}

/* The way there, up, and back along the same distance. */
double ts_point_rescue_time(const double *x) {
  double there = ts_point_time_to_casualty(x);
  return there + leg(x[3], x[5]) + leg(x[1], x[6]) + x[7];
}

double ts_point_evacuation_time(const double *x) {
  return x[0] + leg(x[1], x[2]) + leg(x[3], x[4] * x[5]);
}

/* ---- outcomes -------------------------------------------------------------------- */

#define ROW(minutes, percent) {minutes, percent},
static const struct {
  double minutes, percent;
} outcomes[] = {
#include "science/tables/submersion_outcome.inc"
};

double ts_point_submersion_outcome(const double *x) {
  double minutes = x[0] / TS_MINUTE * (1 - 1e-9);
  int i = 0;
  while (minutes > outcomes[i].minutes) i++;
  return outcomes[i].percent / 100;
}

double ts_point_arrest_survival(const double *x) {
  return fmax(0, 0.67 - (0.023 * x[0] + 0.011 * x[1] + 0.021 * x[2]) / TS_MINUTE);
}
