/* Heat: WBGT with its limits, and hot water on skin. */
#include <math.h>
#include <stddef.h>

#include "science/constants.h"
#include "science/points.h"

/* ---- WBGT -------------------------------------------------------------------- */

double ts_point_wbgt_indoor(const double *x) { return 0.7 * x[0] + 0.3 * x[1]; }

double ts_point_wbgt_outdoor(const double *x) { return 0.7 * x[0] + 0.2 * x[1] + 0.1 * x[2]; }

double ts_point_wbgt_limit_acclimatised(const double *x) {
  return TS_CELSIUS + 56.7 - 11.5 * log10(x[0]);
}

double ts_point_wbgt_limit_unacclimatised(const double *x) {
  return TS_CELSIUS + 59.9 - 14.1 * log10(x[0]);
}

/* ISO 7243:1989: upper edge of each metabolic class in W/m2, reference values in degC. */
typedef struct {
  double edge, acclimatised, unacclimatised;
} heat_class;

#define ROW(edge, acclimatised, unacclimatised) {edge, acclimatised, unacclimatised},
static const heat_class classes[] = {
#include "science/tables/wbgt_reference.inc"
};

static const heat_class *class_of(double rate) {
  const heat_class *c = classes, *last = c + sizeof classes / sizeof *classes - 1;
  while (c < last && rate * (1 - 1e-9) > c->edge) c++;
  return c;
}

double ts_point_wbgt_reference_acclimatised(const double *x) {
  return TS_CELSIUS + class_of(x[0])->acclimatised;
}

double ts_point_wbgt_reference_unacclimatised(const double *x) {
  return TS_CELSIUS + class_of(x[0])->unacclimatised;
}

/* ---- hot water on skin ----------------------------------------------------------- */

/* Feldman's four pieces, seconds. */
static double feldman(double t) {
  double l = log(t);
  if (t <= 51.3) return exp(34.58 * l * l - 294.8 * l + 629.2);
  if (t <= 52.1) return 2675 - 50 * t;
  if (t <= 58.3) return 1.441 * t * t - 168.2 * t + 4917;
  return 0.05322 * t * t - 7.437 * t + 262.4;
}

/* The pieces jump up at two seams and turn up again beyond 69.8 degC; hotter is never
 * slower, so nothing is allowed above what stood before. */
double ts_point_scald_time(const double *x) {
  double t = fmin(fmax(x[0] - TS_CELSIUS, 44), 69.87), before = INFINITY;
  if (t > 51.3) before = fmin(before, feldman(51.3));
  if (t > 58.3) before = fmin(before, feldman(58.3));
  return fmin(feldman(t), before);
}

#define ROW(temperature, seconds) {temperature, seconds},
static const struct {
  double temperature, seconds;
} scalds[] = {
#include "science/tables/scald_time.inc"
};

double ts_point_scald_time_table(const double *x) {
  double t = (x[0] - TS_CELSIUS) * (1 - 1e-9);
  for (size_t i = 0; i < sizeof scalds / sizeof *scalds; i++)
    if (t <= scalds[i].temperature) return scalds[i].seconds;
  return 0;
}
