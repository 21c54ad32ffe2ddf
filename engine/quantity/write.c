/* Writing quantities so that reading gives the same two doubles. */
#include "base/text.h"
#include "quantity/calendar.h"
#include "quantity/dimension.h"
#include "quantity/prefer.h"
#include "quantity/units.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { NUMBER = 32, UNIT = 64 };

// NOLINTNEXTLINE(bugprone-suspicious-memory-comparison): the bits are meant, 0 is not -0
static bool same_bits(double a, double b) { return memcmp(&a, &b, sizeof a) == 0; }

static bool reads_back(const ts_scale *scale, const char *number, double si) {
  double read;
  return ts_number_read(number, &read) && same_bits(ts_scale_to_si(scale, read), si);
}

/* A shorter decimal near `number` that stands for the same SI value: converting 299.15 K
 * gives 25.999999999999943 degC, but 26 reads back as well. */
static bool shorter_number(const ts_scale *scale, double number, double si, char *out) {
  static const char digits[] = {6, 9, 12, 13, 14, 15, 16, 17};
  if (!(fabs(number) >= 1e-5 && fabs(number) < 1e15)) return false;
  for (size_t i = 0; i < sizeof digits; i++)
    if (reads_back(scale, ts_number_round(number, digits[i], out, NUMBER), si)) return true;
  return false;
}

/* The number in this unit for an SI value; false when no double in the unit hits it. */
static bool exact_number(const ts_scale *scale, double si, char *out) {
  double number = ts_scale_from_si(scale, si);
  if (!isfinite(number)) return false;
  if (shorter_number(scale, number, si, out)) return true;
  double above = nextafter(number, INFINITY), below = nextafter(number, -INFINITY);
  const double tries[] = {number, above, below, nextafter(above, INFINITY),
                          nextafter(below, -INFINITY)};
  for (size_t i = 0; i < sizeof tries / sizeof *tries; i++)
    if (reads_back(scale, ts_number_write(tries[i], out, NUMBER), si)) return true;
  return false;
}

static void put_together(const char *mark, const char *lo, const char *hi, const char *unit,
                         char *out, size_t size) {
  bool settled = strcmp(lo, hi) == 0;
  snprintf(out, size, "%s%s%s%s%s%s", mark, lo, settled ? "" : "..", settled ? "" : hi,
           *unit ? " " : "", unit);
}

static bool write_in(const ts_units *units, ts_range range, ts_dim dim, const char *unit, char *out,
                     size_t size) {
  ts_scale scale;
  char lo[NUMBER], hi[NUMBER], why[8];
  if (!unit || strlen(unit) >= UNIT / 2 || !ts_unit_read(units, unit, &scale, why, sizeof why) ||
      scale.dim != dim)
    return false;
  if (!exact_number(&scale, range.lo, lo) || !exact_number(&scale, range.hi, hi)) return false;
  put_together("", lo, hi, unit, out, size);
  return true;
}

/* SI base units always work: the number is written so that it reads back as itself. */
static void write_base(ts_range range, ts_dim dim, char *out, size_t size) {
  char lo[NUMBER], hi[NUMBER], base[UNIT];
  const char *unit = ts_dim_text(dim, ".", base, sizeof base);
  if (dim == TS_TURBIDITY) unit = "NTU";
  if (dim == TS_SOUND) unit = "dBA";
  put_together((dim & TS_POINT) == TS_POINT && TS_KIND_OF(dim) == TS_KIND_OF(TS_POINT) ? "@" : "",
               ts_number_write(range.lo, lo, sizeof lo), ts_number_write(range.hi, hi, sizeof hi),
               unit, out, size);
}

/* ---- moments ---------------------------------------------------------------------- */

static bool is_date(double moment) {
  ts_date first = {1, 1, 1}, last = {9999, 12, 31};
  double day = moment / TS_DAY_SECONDS;
  return fmod(moment, TS_DAY_SECONDS) == 0 && !same_bits(moment, -0.0) && day >= (double)ts_day_number(first) &&
         day <= (double)ts_day_number(last);
}

static bool is_clock(double moment) {
  return floor(moment) == moment && !signbit(moment) && moment < TS_CLOCK_END;
}

static bool write_moment(ts_range range, const char *unit, char *out, size_t size) {
  char lo[NUMBER], hi[NUMBER];
  bool clock = unit ? ts_same(unit, "clock") : ts_prefer_clock(range);
  if (clock && is_clock(range.lo) && is_clock(range.hi))
    put_together("", ts_clock_show(range.lo, lo, sizeof lo), ts_clock_show(range.hi, hi, sizeof hi),
                 "", out, size);
  else if (!clock && is_date(range.lo) && is_date(range.hi))
    put_together("", ts_date_write(range.lo, lo, sizeof lo), ts_date_write(range.hi, hi, sizeof hi),
                 "", out, size);
  else
    return false;
  return true;
}

char *ts_quantity_write(const ts_units *units, ts_range range, ts_dim dim, const char *unit,
                        ts_system system, char *out, size_t size) {
  bool done = dim == TS_MOMENT
                  ? write_moment(range, unit, out, size)
                  : write_in(units, range, dim, unit, out, size) ||
                        write_in(units, range, dim, ts_prefer(range, dim, system), out, size);
  if (!done) write_base(range, dim, out, size);
  return out;
}
