/* A tissue model for what the air tables leave out: altitude, fresh water, other mixtures. */
#include <math.h>
#include <stddef.h>

#include "science/constants.h"
#include "science/points.h"

#define BAR 1e5
#define LUNG_VAPOUR 6270.0 /* water vapour at 37 degC, Pa */
#define AIR_NITROGEN 0.79

/* Buhlmann ZH-L16C, nitrogen: half-time in minutes, a in bar, b. */
typedef struct {
  double half_time, a, b;
} compartment;

static const compartment compartments[] = {
    {5, 1.1696, 0.5578},   {8, 1.0000, 0.6514},    {12.5, 0.8618, 0.7222}, {18.5, 0.7562, 0.7825},
    {27, 0.6200, 0.8126},  {38.3, 0.5043, 0.8434}, {54.3, 0.4410, 0.8693}, {77, 0.4000, 0.8910},
    {109, 0.3750, 0.9092}, {146, 0.3500, 0.9222},  {187, 0.3295, 0.9319},  {239, 0.3065, 0.9403},
    {305, 0.2835, 0.9477}, {390, 0.2610, 0.9544},  {498, 0.2480, 0.9602},  {635, 0.2327, 0.9653},
};

/* How long this compartment can stay before a straight ascent is too much for it. */
static double compartment_limit(const compartment *c, double inspired, double surface) {
  double start = (surface - LUNG_VAPOUR) * AIR_NITROGEN;
  double tolerated = c->a * BAR + surface / c->b;
  if (inspired <= tolerated) return TS_ONE_DAY;
  return c->half_time * TS_MINUTE / log(2) * log((inspired - start) / (inspired - tolerated));
}

double ts_point_no_stop_limit_model(const double *x) {
  double inspired = (x[0] - LUNG_VAPOUR) * x[2], limit = TS_ONE_DAY;
  for (size_t i = 0; i < sizeof compartments / sizeof *compartments; i++)
    limit = fmin(limit, compartment_limit(&compartments[i], inspired, x[1]));
  return limit;
}

/* The rule that generates the A set of coefficients. */
double ts_point_tolerated_nitrogen_pressure(const double *x) {
  double minutes = x[0] / TS_MINUTE;
  double a = 2 * BAR / cbrt(minutes), b = 1.005 - 1 / sqrt(minutes);
  return a + x[1] / b;
}
