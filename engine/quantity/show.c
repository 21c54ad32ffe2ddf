/* Showing quantities to readers: rounded, in the unit they expect. */
#include "base/text.h"
#include "quantity/calendar.h"
#include "quantity/dimension.h"
#include "quantity/prefer.h"
#include "quantity/units.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { NUMBER = 48, UNIT = 96, DIGITS = 4, TEMPERATURE_DECIMALS = 1, PLACES_MAX = 300 };

/* ---- rounding --------------------------------------------------------------------- */

typedef enum { DOWN = -1, NEAREST = 0, UP = 1 } direction;

/* A whole number near `x`. What differs from a whole number only by the error of
 * conversion counts as that number, else 30 degC could show as 30.1. */
static double whole_near(double x, direction to) {
  double nearest = nearbyint(x);
  if (to == NEAREST || fabs(x - nearest) < 1e-6) return nearest;
  return to == UP ? ceil(x) : floor(x);
}

/* Rounds to four significant digits, and no more than `decimals` behind the point. */
static double round_for_reader(double x, int decimals, direction to) {
  int places = x == 0 || !isfinite(x) ? 0 : DIGITS - 1 - (int)floor(log10(fabs(x)));
  if (x == 0 || !isfinite(x) || places > PLACES_MAX) return x;
  if (places > decimals) places = decimals;
  double power = pow(10, abs(places));
  return places >= 0 ? whole_near(x * power, to) / power : whole_near(x / power, to) * power;
}

/* The last places that library functions are widened by are not a range to a reader. */
static bool same_to_reader(double lo, double hi) {
  return lo == hi || (isfinite(hi - lo) && hi - lo <= 1e-9 * fmax(fabs(lo), fabs(hi)));
}

static const char *number_text(double x, char *out) {
  double size = fabs(x);
  if (size != 0 && (size < 1e-6 || size >= 1e12)) return ts_number_write(x, out, NUMBER);
  return ts_number_round(x, 15, out, NUMBER);
}

/* ---- units for readers ------------------------------------------------------------- */

static const struct {
  const char *written, *shown;
} pretty[] = {
    {"delta_degC", "°C"}, {"delta_degF", "°F"}, {"degC", "°C"},    {"degF", "°F"}, {"deg C", "°C"},
    {"deg F", "°F"},      {"Ohm", "Ω"},         {"year", "years"}, {"y", "years"}, {"dBA", "dB(A)"},
};

static const char *const raised[] = {"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};

static bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

/* The exponent that ends a name: m3, s-1. H2O is a name. */
static size_t show_exponent(ts_text *text, const char *at) {
  size_t length = (at[0] == '^') + (at[at[0] == '^'] == '-');
  if (!is_digit(at[length]) || is_digit(at[length + 1]) || is_letter(at[length + 1])) return 0;
  if (strchr("-^", at[0]) && memchr(at, '-', length)) ts_text_add(text, "⁻");
  ts_text_add(text, raised[at[length] - '0']);
  return length + 1;
}

/* mg/L stays, m3/h becomes m³/h, ug/L µg/L, m2.kg m²·kg. The unit itself, or what it becomes in `out`. */
static const char *show_unit(const char *unit, char *out, size_t size) {
  for (size_t i = 0; i < sizeof pretty / sizeof *pretty; i++)
    if (*unit == *pretty[i].written && ts_same(unit, pretty[i].written)) return pretty[i].shown;
  if (*unit != '/' && unit[strcspn(unit, "0123456789u.")] == '\0') return unit;
  ts_text text = {0};
  if (unit[0] == '1' && unit[1] == '/') unit++;
  if (*unit == '/') ts_text_add(&text, "per "), unit++;
  for (const char *at = unit; *at;) {
    size_t taken = at > unit && is_letter(at[-1]) ? show_exponent(&text, at) : 0;
    if (taken) {
      at += taken;
      continue;
    }
    bool starts = at == unit || !is_letter(at[-1]);
    if (*at == 'u' && starts && is_letter(at[1]))
      ts_text_add(&text, "µ");
    else if (*at == '.')
      ts_text_add(&text, "·");
    else
      ts_text_add_n(&text, at, 1);
    at++;
  }
  TS_JOIN(out, size, text.data ? text.data : "");
  ts_text_release(&text);
  return out;
}

static const char *gap_before(const char *unit) { return *unit ? " " : ""; }

/* ---- numbers ------------------------------------------------------------------------ */

/* Ends that a division by zero left open. */
static void show_open(double lo, double hi, const char *unit, char *out, size_t size) {
  char number[NUMBER];
  if (isinf(lo) && isinf(hi))
    snprintf(out, size, "any value");
  else if (isinf(hi))
    snprintf(out, size, "%s%s%s or more", number_text(lo, number), gap_before(unit), unit);
  else
    snprintf(out, size, "%s%s%s or less", number_text(hi, number), gap_before(unit), unit);
}

static void show_numbers(double lo, double hi, int decimals, const char *unit, char *out,
                         size_t size) {
  char low[NUMBER], high[NUMBER], room[UNIT];
  bool settled = lo == hi;
  lo = round_for_reader(lo, decimals, settled ? NEAREST : DOWN);
  hi = settled ? lo : round_for_reader(hi, decimals, UP);
  const char *shown = show_unit(unit, room, sizeof room);
  if (isinf(lo) || isinf(hi)) {
    show_open(lo, hi, shown, out, size);
    return;
  }
  number_text(lo, low);
  settled = lo == hi || ts_same(low, number_text(hi, high));
  if (settled && ts_same(low, "1") && ts_same(shown, "years")) shown = "year";
  TS_JOIN(out, size, low, settled ? "" : "..", settled ? "" : high, gap_before(shown), shown);
}

static bool show_in(const ts_units *units, ts_range range, ts_dim dim, const char *unit, char *out,
                    size_t size) {
  ts_scale scale;
  char why[8];
  if (!unit || !ts_unit_read(units, unit, &scale, why, sizeof why) || scale.dim != dim)
    return false;
  show_numbers(ts_scale_from_si(&scale, range.lo), ts_scale_from_si(&scale, range.hi),
               dim == TS_TEMPERATURE ? TEMPERATURE_DECIMALS : 99, unit, out, size);
  return true;
}

/* A settled length of whole inches, as 5 ft 7 in. Whole feet need no inches. */
static bool show_feet(ts_range range, const char *unit, char *out, size_t size) {
  double inches = whole_near(range.lo / 0.0254, NEAREST), feet = floor(inches / 12);
  if (!ts_same(unit, "ft") || range.lo != range.hi || !(inches > 12 && inches < 1200)) return false;
  if (fabs(inches - range.lo / 0.0254) > 1e-6 || inches == feet * 12) return false;
  snprintf(out, size, "%.0f ft %.0f in", feet, inches - feet * 12);
  return true;
}

static void show_base(ts_range range, ts_dim dim, char *out, size_t size) {
  char base[UNIT];
  show_numbers(range.lo, range.hi, 99, ts_dim_text(dim, ".", base, sizeof base), out, size);
}

/* ---- times --------------------------------------------------------------------------- */

#define PARTS_FROM 120.0 /* s: from two minutes on, times are shown in parts */

/* Two parts at most, so the finer the shorter: 2 min 30 s, 1 h 20 min, 3 d 4 h. */
static const struct {
  double below, large, small;
  const char *large_name, *small_name;
} steps[] = {
    {3600, 60, 1, "min", "s"}, {172800, 3600, 60, "h", "min"}, {INFINITY, 86400, 3600, "d", "h"}};

static const char *time_text(double s, direction to, char *out) {
  char number[NUMBER], rest[NUMBER];
  const char *sign = s < 0 ? "-" : "";
  direction away = s < 0 ? (direction)-to : to;
  s = fabs(s);
  if (s < PARTS_FROM)
    return TS_JOIN(out, NUMBER, sign, number_text(round_for_reader(s, 99, away), number), " s");
  size_t i = 0;
  while (s >= steps[i].below) i++;
  double all = whole_near(s / steps[i].small, away), per = steps[i].large / steps[i].small;
  double large = floor(all / per), small = all - large * per;
  /* 59 min 59.9 s rounds up into the next step. */
  if (large * steps[i].large >= steps[i].below) return time_text(large * steps[i].large, to, out);
  number_text(large, number);
  if (small == 0) return TS_JOIN(out, NUMBER, sign, number, " ", steps[i].large_name);
  return TS_JOIN(out, NUMBER, sign, number, " ", steps[i].large_name, " ",
                 number_text(small, rest), " ", steps[i].small_name);
}

/* The unit once, where both ends are whole numbers of it: 18..20 s, 10..20 min. */
static bool show_plain_times(ts_range range, char *out, size_t size) {
  static const struct {
    double second, below;
    const char *name;
  } plain[] = {{3600, 172800, "h"}, {86400, INFINITY, "d"}, {60, 7200, "min"}, {1, 120, "s"}};
  double largest = fmax(fabs(range.lo), fabs(range.hi));
  for (size_t i = 0; i < sizeof plain / sizeof *plain; i++) {
    double lo = range.lo / plain[i].second, hi = range.hi / plain[i].second;
    bool seconds = plain[i].second == 1;
    if (largest >= plain[i].below) continue;
    if (!seconds && (floor(lo) != lo || floor(hi) != hi)) continue;
    show_numbers(lo, hi, 99, plain[i].name, out, size);
    return true;
  }
  return false;
}

static bool is_everyday(const char *unit) {
  static const char *const everyday[] = {"s", "min", "h", "d"};
  for (size_t i = 0; unit && i < sizeof everyday / sizeof *everyday; i++)
    if (ts_same(unit, everyday[i])) return true;
  return !unit;
}

static bool show_time(ts_range range, const char *unit, char *out, size_t size) {
  char lo[NUMBER], hi[NUMBER];
  bool ages = !unit && range.hi >= TS_YEAR_SECONDS;
  if (!is_everyday(unit) || ages || isinf(range.lo) || isinf(range.hi)) return false;
  if (range.lo == range.hi) {
    TS_JOIN(out, size, time_text(range.lo, NEAREST, lo));
    return true;
  }
  if (show_plain_times(range, out, size)) return true;
  time_text(range.lo, DOWN, lo);
  time_text(range.hi, UP, hi);
  bool settled = ts_same(lo, hi);
  TS_JOIN(out, size, lo, settled ? "" : " .. ", settled ? "" : hi);
  return true;
}

/* ---- moments -------------------------------------------------------------------------- */

static bool show_moment(ts_range range, const char *unit, char *out, size_t size) {
  char lo[NUMBER], hi[NUMBER];
  bool clock = unit ? ts_same(unit, "clock") : ts_prefer_clock(range);
  if (clock) {
    ts_clock_show(whole_near(range.lo, DOWN), lo, sizeof lo);
    ts_clock_show(whole_near(range.hi, UP), hi, sizeof hi);
  } else {
    ts_date_show(range.lo, lo, sizeof lo);
    ts_date_show(range.hi, hi, sizeof hi);
  }
  if (*lo == '?' || *hi == '?') return false;
  bool settled = ts_same(lo, hi);
  TS_JOIN(out, size, lo, settled ? "" : clock ? ".." : " .. ", settled ? "" : hi);
  return true;
}

char *ts_quantity_show(const ts_units *units, ts_range range, ts_dim dim, const char *unit,
                       ts_system system, char *out, size_t size) {
  const char *preferred = ts_prefer(range, dim, system);
  bool done = false;
  if (same_to_reader(range.lo, range.hi)) range.lo = range.hi = range.lo / 2 + range.hi / 2;
  if (dim == TS_LENGTH) done = show_feet(range, unit ? unit : preferred, out, size);
  if (dim == TS_MOMENT) done = show_moment(range, unit, out, size);
  if (dim == TS_TIME) done = show_time(range, unit, out, size);
  if (!done) done = show_in(units, range, dim, unit, out, size);
  if (!done) done = show_in(units, range, dim, preferred, out, size);
  if (!done) show_base(range, dim, out, size);
  return out;
}
