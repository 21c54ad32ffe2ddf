/* The heat index of the US National Weather Service, and a range for it.
 *
 * In degF and percent: below an index of 80 a simple line; above it Rothfusz's
 * regression, lowered for dry air and raised for very damp air. It is not
 * monotone, so a box of arguments is cut into cells, and each cell is enclosed
 * by the value at its middle and the steepest slopes in it. */
#include <math.h>

#include "science/constants.h"
#include "science/points.h"

enum { CELLS = 24 };

/* Regression in t (degF) and r (%): coefficient, power of t, power of r. */
typedef struct {
  double c;
  int t, r;
} term;

static const term terms[] = {
    {-42.379, 0, 0},     {2.04901523, 1, 0},  {10.14333127, 0, 1},
    {-0.22475541, 1, 1}, {-6.83783e-3, 2, 0}, {-5.481717e-2, 0, 2},
    {1.22874e-3, 2, 1},  {8.5282e-4, 1, 2},   {-1.99e-6, 2, 2},
};
enum { TERMS = sizeof terms / sizeof *terms };

static double power(double base, int exponent) {
  return exponent <= 0 ? 1 : exponent == 1 ? base : base * base;
}

static double regression(double t, double r) {
  double sum = 0;
  for (int i = 0; i < TERMS; i++) sum += terms[i].c * power(t, terms[i].t) * power(r, terms[i].r);
  return sum;
}

/* Already averaged with the temperature, as the service does. */
static double simple(double t, double r) {
  return (t + 0.5 * (t + 61 + (t - 68) * 1.2 + r * 0.094)) / 2;
}

static double dry_part(double r) { return r < 13 ? (13 - r) / 4 : 0; }
static double near_95(double t) {
  return t >= 80 && t <= 112 ? sqrt(fmax(0, 17 - fabs(t - 95)) / 17) : 0;
}
static double damp_part(double r) { return r > 85 ? (r - 85) / 10 : 0; }
static double below_87(double t) { return t >= 80 && t <= 87 ? (87 - t) / 5 : 0; }

static double index_of(double t, double r) {
  double first = simple(t, r);
  if (first < 80) return first;
  return regression(t, r) - dry_part(r) * near_95(t) + damp_part(r) * below_87(t);
}

static double fahrenheit(double kelvin) { return (kelvin - TS_CELSIUS) * 1.8 + 32; }
static double kelvin(double f) { return (f - 32) / 1.8 + TS_CELSIUS; }

double ts_point_heat_index(const double *x) {
  return kelvin(index_of(fahrenheit(x[0]), 100 * x[1]));
}

/* ---- enclosing a cell ----------------------------------------------------------- */

static ts_range join(ts_range a, ts_range b) {
  return (ts_range){fmin(a.lo, b.lo), fmax(a.hi, b.hi)};
}

/* The steepest slope in a cell, along t (by_t) or along r: each term at the end that makes it
 * largest. The cell lies in t >= 0, r >= 0. */
static double steepest(ts_range t, ts_range r, bool by_t) {
  double lo = 0, hi = 0;
  for (int i = 0; i < TERMS; i++) {
    int pt = terms[i].t - (by_t ? 1 : 0), pr = terms[i].r - (by_t ? 0 : 1);
    if (pt < 0 || pr < 0) continue;
    double c = terms[i].c * (by_t ? terms[i].t : terms[i].r);
    double least = power(t.lo, pt) * power(r.lo, pr), most = power(t.hi, pt) * power(r.hi, pr);
    lo += c * (c > 0 ? least : most);
    hi += c * (c > 0 ? most : least);
  }
  return fmax(fabs(lo), fabs(hi));
}

static ts_range regression_in(ts_range t, ts_range r) {
  t.lo = fmax(t.lo, 0); /* colder than that the regression is not used */
  double middle = regression((t.lo + t.hi) / 2, (r.lo + r.hi) / 2);
  double reach =
      steepest(t, r, true) * (t.hi - t.lo) / 2 + steepest(t, r, false) * (r.hi - r.lo) / 2;
  return (ts_range){middle - reach, middle + reach};
}

/* What the adjustments can do in a cell: both parts are products of two factors >= 0. */
static ts_range adjustment_in(ts_range t, ts_range r) {
  double near = fmax(near_95(t.lo), near_95(t.hi)), far = fmin(near_95(t.lo), near_95(t.hi));
  double below = fmax(below_87(t.lo), below_87(t.hi)), above = fmin(below_87(t.lo), below_87(t.hi));
  if (t.lo <= 95 && t.hi >= 95) near = 1;
  if (t.lo < 80 && t.hi >= 80) below = 1.4, near = fmax(near, near_95(80));
  return (ts_range){damp_part(r.lo) * above - dry_part(r.lo) * near,
                    damp_part(r.hi) * below - dry_part(r.hi) * far};
}

static ts_range cell(ts_range t, ts_range r) {
  if (t.lo == t.hi && r.lo == r.hi) return (ts_range){index_of(t.lo, r.lo), index_of(t.lo, r.lo)};
  ts_range all = {INFINITY, -INFINITY};
  double least = simple(t.lo, r.lo), most = simple(t.hi, r.hi);
  if (least < 80) all = (ts_range){least, fmin(most, 80)};
  if (most < 80) return all;
  ts_range curve = regression_in(t, r), change = adjustment_in(t, r);
  return join(all, (ts_range){curve.lo + change.lo, curve.hi + change.hi});
}

static ts_range part(ts_range whole, int i, int parts) {
  double step = (whole.hi - whole.lo) / parts;
  double hi = i == parts - 1 ? whole.hi : whole.lo + (i + 1) * step;
  return (ts_range){whole.lo + i * step, fmax(hi, whole.lo + i * step)};
}

ts_range ts_range_heat_index(const ts_range *x) {
  ts_range t = {fahrenheit(x[0].lo), fahrenheit(x[0].hi)}, r = {100 * x[1].lo, 100 * x[1].hi};
  ts_range all = {INFINITY, -INFINITY};
  int across = t.lo < t.hi ? CELLS : 1, down = r.lo < r.hi ? CELLS : 1;
  for (int i = 0; i < across; i++)
    for (int j = 0; j < down; j++) all = join(all, cell(part(t, i, across), part(r, j, down)));
  return (ts_range){kelvin(all.lo), kelvin(all.hi)};
}
