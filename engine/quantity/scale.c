/* Scales: numbers in a unit to SI and back, products of units. */
#include "quantity/units.h"

#include "base/text.h"
#include "quantity/dimension.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define WHOLE_MAX 9007199254740992.0 /* 2^53: whole numbers below it are exact */

double ts_scale_to_si(const ts_scale *scale, double number) {
  double si = (number - scale->zero) * scale->num / scale->den;
  /* Adding a zero would turn -0 into 0, and the two must survive writing and reading. */
  return scale->origin != 0 ? si + scale->origin : si;
}

double ts_scale_from_si(const ts_scale *scale, double si) {
  if (scale->origin != 0) si -= scale->origin;
  double number = si * scale->den / scale->num;
  return scale->zero != 0 ? number + scale->zero : number;
}

ts_scale ts_scale_of_difference(const ts_scale *scale) {
  ts_scale difference = *scale;
  difference.zero = difference.origin = 0;
  if (TS_KIND_OF(scale->dim) == TS_KIND_OF(TS_POINT)) difference.dim &= ~TS_KIND(0xff);
  return difference;
}

static bool whole(double x) { return x >= 1 && x <= WHOLE_MAX && floor(x) == x; }

/* Divides both by their greatest common divisor, where both are whole. */
static void reduce(double *a, double *b) {
  if (!whole(*a) || !whole(*b)) return;
  double x = *a, y = *b;
  while (y > 0) {
    double rest = fmod(x, y);
    x = y, y = rest;
  }
  *a /= x, *b /= x;
}

static void ratio_multiply(ts_scale *to, double num, double den) {
  reduce(&num, &den);
  reduce(&to->num, &den);
  reduce(&num, &to->den);
  to->num *= num;
  to->den *= den;
}

bool ts_scale_join(const ts_scale *a, const ts_scale *b, int times, ts_scale *result) {
  ts_scale joined = ts_scale_of_difference(a);
  bool up = times > 0;
  if (!ts_dim_join(joined.dim, b->dim, times, &joined.dim)) return false;
  for (int i = abs(times); i > 0; i--)
    ratio_multiply(&joined, up ? b->num : b->den, up ? b->den : b->num);
  if (!isfinite(joined.num) || !isfinite(joined.den) || joined.num <= 0 || joined.den <= 0)
    return false;
  *result = joined;
  return true;
}

/* The digits of a decimal as a whole number, and the power of ten that goes with them. */
static double digits_of(const char *decimal, int *exponent) {
  double digits = 0;
  bool after_point = false;
  *exponent = 0;
  for (; *decimal && *decimal != 'e'; decimal++) {
    if (*decimal == '.') {
      after_point = true;
    } else {
      digits = digits * 10 + (*decimal - '0');
      *exponent -= after_point;
    }
  }
  if (*decimal == 'e') *exponent += (int)strtol(decimal + 1, NULL, 10);
  return digits;
}

ts_scale ts_scale_of_factor(double factor, ts_dim dim) {
  char decimal[32];
  int exponent;
  double digits = digits_of(ts_number_write(factor, decimal, sizeof decimal), &exponent);
  ts_scale scale = {factor, 1, 0, 0, dim};
  double power = 1;
  for (int i = abs(exponent); i > 0; i--) power *= 10;
  /* Powers of ten are exact up to 10^22; beyond that the ratio would gain nothing. */
  if (!whole(digits) || abs(exponent) > 22) return scale;
  scale.num = exponent > 0 ? digits * power : digits;
  scale.den = exponent < 0 ? power : 1;
  reduce(&scale.num, &scale.den);
  return scale;
}
