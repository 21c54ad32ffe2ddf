/* Reading quantities: one value, a range, a value with a tolerance, a point. */
#include "base/text.h"
#include "quantity/piece.h"
#include "quantity/plain.h"

#include <math.h>
#include <string.h>

typedef struct {
  ts_range range;
  ts_dim dim;
} result;

static bool is_moment(const ts_piece *piece) {
  return piece->form == TS_DATED || piece->form == TS_CLOCK_TIME;
}

static ts_dim dim_of(const ts_piece *piece) {
  return is_moment(piece) ? TS_MOMENT : piece->scale.dim;
}

static void finish(const ts_piece *lo, const ts_piece *hi, result *out) {
  out->dim = dim_of(lo);
  out->range.lo = is_moment(lo) ? lo->lo : ts_scale_to_si(&lo->scale, lo->number);
  out->range.hi = is_moment(hi) ? hi->hi : ts_scale_to_si(&hi->scale, hi->number);
}

/* Takes the spaces off both ends; `end` may be written to. */
static char *trim(char *start, char *end) {
  while (start < end && *start == ' ') start++;
  while (end > start && end[-1] == ' ') end--;
  *end = '\0';
  return start;
}

/* ---- a..b ---------------------------------------------------------------------------- */

/* `3..4 m`: the unit on the right is the unit of both. */
static bool share_unit(const ts_reader *reader, ts_piece *left, const ts_piece *right) {
  if (left->form == TS_BARE && right->form == TS_SCALED) {
    if (right->parts > 1)
      return ts_refuse(reader, "unit missing before \"..\"; write it on both sides");
    left->form = TS_SCALED;
    left->scale = right->scale;
  }
  if (left->form == TS_SCALED && right->form == TS_BARE)
    return ts_refuse(reader,
                     "unit missing after \"..\"; expected it on the last number or on both");
  return true;
}

static bool same_dimension(const ts_reader *reader, const ts_piece *left, const ts_piece *right) {
  char one[64], other[64];
  if (dim_of(left) != dim_of(right))
    return ts_refuse(reader, "the ends of the range differ: %s and %s",
                     ts_dim_name(dim_of(left), one, sizeof one),
                     ts_dim_name(dim_of(right), other, sizeof other));
  if (is_moment(left) && left->form != right->form)
    return ts_refuse(reader, "the ends of the range differ: a date and a time of day");
  return true;
}

static bool read_range(const ts_reader *reader, char *text, char *dots, result *out) {
  ts_piece left, right;
  char *before = trim(text, dots), *after = dots + 2;
  after = trim(after, after + strlen(after));
  if (*after == '.' || strstr(after, ".."))
    return ts_refuse(reader, "too many points; a range is written \"3..4 m\"");
  if (!*before || !*after)
    return ts_refuse(reader, "one end of the range is missing; write both, as in \"3..4 m\"");
  if (!ts_piece_read(reader, before, &left) || !ts_piece_read(reader, after, &right)) return false;
  if (!share_unit(reader, &left, &right) || !same_dimension(reader, &left, &right)) return false;
  finish(&left, &right, out);
  if (out->range.lo <= out->range.hi) return true;
  return ts_refuse(reader, "the range \"%s..%s\" runs downward; write the lower end first%s",
                   before, after,
                   left.form == TS_CLOCK_TIME ? ", with hours over 24 past midnight" : "");
}

/* ---- a +- b ---------------------------------------------------------------------------- */

/* 4.2 - 0.1 is 4.1000000000000005; what was written in decimals is meant in decimals. */
static double as_decimal(double number) {
  char text[64];
  double decimal;
  if (!(fabs(number) > 1e-5 && fabs(number) < 1e15)) return number;
  return ts_number_read(ts_number_round(number, 15, text, sizeof text), &decimal) ? decimal
                                                                                  : number;
}

static bool is_relative(const ts_piece *middle, const ts_piece *by, const char *by_text) {
  return strchr(by_text, '%') && by->form == TS_SCALED && by->scale.dim == TS_NUMBER &&
         middle->form == TS_SCALED && !TS_KIND_OF(middle->scale.dim) &&
         middle->scale.dim != TS_NUMBER;
}

/* Ends in the written unit: `26 +- 1 degC`, `4.2 m +- 0.1 m`, `5 mg/L +- 10 %`. */
static bool spread_number(const ts_piece *middle, const ts_piece *by, bool relative, result *out) {
  ts_scale step = ts_scale_of_difference(&middle->scale);
  double away = by->number;
  if (relative)
    away = fabs(middle->number) * ts_scale_to_si(&by->scale, by->number);
  else if (by->form == TS_SCALED)
    away = ts_scale_from_si(&step, ts_scale_to_si(&by->scale, by->number));
  away = as_decimal(away);
  out->dim = middle->scale.dim;
  out->range.lo = ts_scale_to_si(&middle->scale, as_decimal(middle->number - away));
  out->range.hi = ts_scale_to_si(&middle->scale, as_decimal(middle->number + away));
  return true;
}

static bool spread(const ts_reader *reader, ts_piece *middle, ts_piece *by, bool relative,
                   result *out) {
  char one[64], other[64];
  if (middle->form == TS_BARE && by->form == TS_SCALED && by->parts == 1) {
    middle->form = TS_SCALED;
    middle->scale = by->scale;
  }
  by->scale = ts_scale_of_difference(&by->scale);
  ts_dim needed = is_moment(middle) ? TS_TIME : ts_scale_of_difference(&middle->scale).dim;
  if (!relative && (by->form == TS_SCALED || is_moment(middle)) && by->scale.dim != needed)
    return ts_refuse(reader, "the tolerance is a %s where a %s was expected",
                     ts_dim_name(by->scale.dim, one, sizeof one),
                     ts_dim_name(needed, other, sizeof other));
  if (!is_moment(middle)) return spread_number(middle, by, relative, out);
  double away = ts_scale_to_si(&by->scale, by->number);
  out->dim = TS_MOMENT;
  out->range = (ts_range){middle->lo - away, middle->hi + away};
  return true;
}

static bool read_tolerance(const ts_reader *reader, char *text, char *sign, result *out) {
  ts_piece middle, by;
  char *before = trim(text, sign), *after = sign + 2;
  after = trim(after, after + strlen(after));
  if (!*before || !*after)
    return ts_refuse(reader, "a number is missing beside \"+-\"; expected \"4.2 +- 0.1 m\"");
  if (strstr(after, "+-")) return ts_refuse(reader, "more than one \"+-\" in a quantity");
  if (!ts_piece_read(reader, before, &middle) || !ts_piece_read(reader, after, &by)) return false;
  if (is_moment(&by)) return ts_refuse(reader, "the tolerance \"%s\" must be a time", after);
  if (signbit(by.number)) return ts_refuse(reader, "the tolerance \"%s\" is negative", after);
  return spread(reader, &middle, &by, is_relative(&middle, &by, after), out);
}

/* ---- the whole text ------------------------------------------------------------------------ */

static bool read_value(const ts_reader *reader, char *text, result *out) {
  ts_piece piece;
  if (!ts_piece_read(reader, text, &piece)) return false;
  finish(&piece, &piece, out);
  return true;
}

static bool read_any(const ts_reader *reader, char *text, result *out) {
  char *dots = strstr(text, ".."), *sign = strstr(text, "+-");
  if (dots && sign) return ts_refuse(reader, "both \"..\" and \"+-\" in \"%s\"; use one", text);
  if (dots) return read_range(reader, text, dots, out);
  if (sign) return read_tolerance(reader, text, sign, out);
  return read_value(reader, text, out);
}

/* `@38400.5 s` is a moment and `@299.15 K` a temperature: how ts_quantity_write
 * writes a point that no date, clock time or degree hits exactly. */
static bool read_point(const ts_reader *reader, char *text, result *out) {
  if (!read_any(reader, trim(text, text + strlen(text)), out)) return false;
  if (out->dim != TS_TIME && out->dim != TS_TEMPERATURE_DIFFERENCE)
    return ts_refuse(reader, "\"@\" marks a moment in s or a temperature in K, nothing else");
  out->dim |= TS_POINT;
  return true;
}

bool ts_quantity_read(const ts_units *units, const char *text, ts_range *range, ts_dim *dim,
                      char *why, size_t size) {
  char plain[TS_PLAIN_SIZE];
  ts_reader reader = {units, why, size};
  result read = {.dim = 0};
  if (!ts_plain_text(text, plain, why, size)) return false;
  if (plain[0] == '?' && !plain[1])
    return ts_refuse(&reader, "\"?\" (not known) is not a quantity; a number was expected");
  bool point = plain[0] == '@';
  if (!(point ? read_point(&reader, plain + 1, &read) : read_any(&reader, plain, &read)))
    return false;
  if (!isfinite(read.range.lo) || !isfinite(read.range.hi))
    return ts_refuse(&reader, "the quantity \"%s\" is too large", plain);
  *range = read.range;
  *dim = read.dim;
  return true;
}
