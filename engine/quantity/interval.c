#include "quantity/interval.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* An end that is not a number (infinity minus infinity) may be anything. */
static ts_range tidy(double lo, double hi) {
  return (ts_range){isnan(lo) ? -INFINITY : lo, isnan(hi) ? INFINITY : hi};
}

ts_range ts_range_add(ts_range a, ts_range b) { return tidy(a.lo + b.lo, a.hi + b.hi); }

ts_range ts_range_sub(ts_range a, ts_range b) { return tidy(a.lo - b.hi, a.hi - b.lo); }

static double product(double x, double y) { return x == 0 || y == 0 ? 0 : x * y; }

static ts_range hull4(double p, double q, double r, double s) {
  return (ts_range){ts_least(ts_least(p, q), ts_least(r, s)), ts_most(ts_most(p, q), ts_most(r, s))};
}

ts_range ts_range_mul(ts_range a, ts_range b) {
  return hull4(product(a.lo, b.lo), product(a.lo, b.hi), product(a.hi, b.lo), product(a.hi, b.hi));
}

/* A divisor that touches zero at one end is read from the other side. */
static ts_range divide_by_touching(ts_range a, ts_range b) {
  bool above = b.lo == 0 && b.hi > 0;
  bool below = b.hi == 0 && b.lo < 0;
  if (!above && !below) return (ts_range){-INFINITY, INFINITY};
  double edge = above ? b.hi : b.lo;
  double p = a.lo / edge, q = a.hi / edge;
  double lo = ts_least(p, q), hi = ts_most(p, q);
  bool some_negative = above ? a.lo < 0 : a.hi > 0;
  bool some_positive = above ? a.hi > 0 : a.lo < 0;
  return tidy(some_negative ? -INFINITY : lo, some_positive ? INFINITY : hi);
}

/* A quotient of ends; infinity over infinity may be anything between 0 and infinity. */
static double quotient(double x, double y) { return isinf(y) ? 0 : x / y; }

ts_range ts_range_div(ts_range a, ts_range b) {
  if (b.lo <= 0 && b.hi >= 0) return divide_by_touching(a, b);
  ts_range r = hull4(quotient(a.lo, b.lo), quotient(a.lo, b.hi), quotient(a.hi, b.lo), quotient(a.hi, b.hi));
  return r;
}

ts_range ts_range_min(ts_range a, ts_range b) {
  return (ts_range){ts_least(a.lo, b.lo), ts_least(a.hi, b.hi)};
}

ts_range ts_range_max(ts_range a, ts_range b) {
  return (ts_range){ts_most(a.lo, b.lo), ts_most(a.hi, b.hi)};
}

ts_range ts_range_abs(ts_range a) {
  if (a.lo >= 0) return a;
  if (a.hi <= 0) return (ts_range){-a.hi, -a.lo};
  return (ts_range){0, ts_most(-a.lo, a.hi)};
}

/* By repeated multiplication: pow() may differ between C libraries. */
static double whole_power(double x, int k) {
  double r = 1;
  for (int i = 0; i < k; i++) r *= x;
  return r;
}

ts_range ts_range_power(ts_range a, int k) {
  double p = whole_power(a.lo, k), q = whole_power(a.hi, k);
  if (k % 2 == 1 || a.lo >= 0) return (ts_range){p, q};
  if (a.hi <= 0) return (ts_range){q, p};
  return (ts_range){0, ts_most(p, q)};
}

ts_range ts_range_root(ts_range a, double k) {
  double lo = ts_most(a.lo, 0), hi = ts_most(a.hi, 0);
  if (k == 2) return (ts_range){sqrt(lo), sqrt(hi)};
  return ts_range_widen((ts_range){pow(lo, 1 / k), pow(hi, 1 / k)}, 4);
}

/* Doubles in their order as whole numbers: neighbours differ by one, both zeros are 0. */
static int64_t place_of(double x) {
  int64_t bits;
  memcpy(&bits, &x, sizeof bits);
  return bits < 0 ? INT64_MIN - bits : bits;
}

static double at_place(int64_t place) {
  int64_t bits = place < 0 ? INT64_MIN - place : place;
  double x;
  memcpy(&x, &bits, sizeof x);
  return x;
}

ts_range ts_range_widen(ts_range a, int steps) {
  if (isfinite(a.lo)) a.lo = at_place(place_of(a.lo) - steps);
  if (isfinite(a.hi)) a.hi = at_place(place_of(a.hi) + steps);
  /* A few steps past the largest number is not a number: it is infinite. */
  if (isnan(a.lo)) a.lo = -INFINITY;
  if (isnan(a.hi)) a.hi = INFINITY;
  return a;
}

bool ts_range_meet(ts_range *a, ts_range b) {
  double lo = ts_most(a->lo, b.lo), hi = ts_least(a->hi, b.hi);
  if (!(lo <= hi)) return false;
  *a = (ts_range){lo, hi};
  return true;
}
