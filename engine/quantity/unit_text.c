/* Units: reading a unit expression.
 *
 *     expression = ["1"] below { below } | factor { ("." | "*" | " ") factor } { below }
 *     below      = ("/" | " per ") [number] factor
 *     factor     = name [["^"] exponent] | "(" expression ")"
 *
 * After a slash nothing may be multiplied without brackets: people mean both
 * W/(m2 K) and (W/m2) K by "W/m2 K", so it is refused. A number may only
 * stand there, and takes what is behind it along: "cfu/100 mL" is per 100 mL. */
#include "quantity/units.h"

#include "base/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { NESTING_MAX = 8, EXPONENT_MAX = 127 /* what a ts_dim holds */ };

typedef struct {
  const ts_units *units;
  const char *whole, *at;
  int depth;
  char *why;
  size_t size;
} parser;

static bool fail(parser *p, const char *format, ...) __attribute__((format(printf, 2, 3)));
static bool fail(parser *p, const char *format, ...) {
  va_list list;
  va_start(list, format);
  if (p->size) vsnprintf(p->why, p->size, format, list);
  va_end(list);
  return false;
}

static bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == '%' || c == '\'' ||
         c == '"';
}

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

static void skip_spaces(parser *p) {
  while (*p->at == ' ') p->at++;
}

/* ---- factors ------------------------------------------------------------------------ */

static bool unknown(parser *p, const char *name, size_t length) {
  char found[64];
  snprintf(found, sizeof found, "%.*s", (int)length, name);
  for (const ts_refusal *row = ts_refusals; row->name; row++)
    if (ts_same(row->name, found))
      return fail(p, "unit \"%s\" is not used here; write %s", found, row->write);
  const char *trouble = ts_units_trouble(p->units);
  if (trouble) return fail(p, "unknown unit \"%s\"; %s", found, trouble);
  const char *nearest = ts_unit_nearest(p->units, found);
  if (nearest) return fail(p, "unknown unit \"%s\"; the nearest name is \"%s\"", found, nearest);
  return fail(p, "unknown unit \"%s\"", found);
}

static bool joinable(const ts_scale *scale) {
  // NOLINTNEXTLINE(clang-analyzer-core.UndefinedBinaryOperatorResult): it was read before
  unsigned kind = TS_KIND_OF(scale->dim);
  return kind == 0 || kind == TS_KIND_OF(TS_POINT);
}

/* Multiplies `scale` by `next` to the power `times`. */
static bool join(parser *p, ts_scale *scale, const ts_scale *next, int times) {
  if (!joinable(scale) || !joinable(next))
    return fail(p, "unit \"%s\" combines a unit that only stands alone", p->whole);
  ts_scale each = ts_scale_of_difference(next);
  return ts_scale_join(scale, &each, times, scale) ||
         fail(p, "unit \"%s\" is out of range", p->whole);
}

/* `^2`, `2`, `-1` behind a name; 1 where there is none. */
static bool read_exponent(parser *p, int *exponent) {
  bool caret = *p->at == '^';
  const char *digits = p->at + caret;
  bool negative = *digits == '-';
  if (negative || (caret && *digits == '+')) digits++;
  *exponent = 1;
  if (!is_digit(*digits))
    return caret || negative ? fail(p, "exponent missing in unit \"%s\"", p->whole) : true;
  for (*exponent = 0; is_digit(*digits) && *exponent <= EXPONENT_MAX; digits++)
    *exponent = *exponent * 10 + (*digits - '0');
  if (*exponent < 1 || *exponent > EXPONENT_MAX)
    return fail(p, "exponent out of range in unit \"%s\"", p->whole);
  if (negative) *exponent = -*exponent;
  p->at = digits;
  return true;
}

static bool read_name(parser *p, ts_scale *scale) {
  size_t letters = 0, length;
  while (is_letter(p->at[letters])) letters++;
  for (length = letters; is_letter(p->at[length]) || is_digit(p->at[length]);) length++;
  ts_scale found;
  /* Some names have digits inside (mH2O), else digits at the end are the exponent. */
  if (length == letters || !ts_unit_named(p->units, p->at, length, &found)) {
    length = letters;
    if (!ts_unit_named(p->units, p->at, length, &found)) return unknown(p, p->at, length);
  }
  p->at += length;
  int exponent;
  if (!read_exponent(p, &exponent)) return false;
  if (exponent == 1) {
    *scale = found;
    return true;
  }
  *scale = (ts_scale){1, 1, 0, 0, TS_NUMBER};
  return join(p, scale, &found, exponent);
}

static bool read_expression(parser *p, ts_scale *scale);

static bool read_bracket(parser *p, ts_scale *scale) {
  if (++p->depth > NESTING_MAX) return fail(p, "too many brackets in unit \"%s\"", p->whole);
  p->at++;
  if (!read_expression(p, scale)) return false;
  if (*p->at != ')') return fail(p, "bracket not closed in unit \"%s\"", p->whole);
  p->at++;
  p->depth--;
  return true;
}

static bool read_factor(parser *p, ts_scale *scale) {
  skip_spaces(p);
  if (is_letter(*p->at)) return read_name(p, scale);
  if (*p->at == '(') return read_bracket(p, scale);
  if (!*p->at) return fail(p, "unit \"%s\" ends where a unit name was expected", p->whole);
  return fail(p, "unexpected \"%c\" in unit \"%s\"", *p->at, p->whole);
}

/* What a slash divides by: a factor, a number, or both. */
static bool read_divisor(parser *p, ts_scale *scale) {
  double number;
  skip_spaces(p);
  if (!is_digit(*p->at)) return read_factor(p, scale);
  const char *end = ts_number_read(p->at, &number);
  if (!end || !(number > 0)) return fail(p, "number out of range in unit \"%s\"", p->whole);
  p->at = end;
  *scale = ts_scale_of_factor(number, TS_NUMBER);
  skip_spaces(p);
  if (!is_letter(*p->at) || strncmp(p->at, "per ", 4) == 0) return true;
  ts_scale unit;
  return read_factor(p, &unit) && join(p, scale, &unit, 1);
}

/* ---- expressions ----------------------------------------------------------------------- */

typedef enum { END, TIMES, PER } link;

static link read_link(parser *p) {
  bool space = *p->at == ' ';
  skip_spaces(p);
  if (!*p->at || *p->at == ')') return END;
  if (*p->at == '/') return p->at++, PER;
  if (strncmp(p->at, "per ", 4) == 0) return p->at += 4, PER;
  if (*p->at == '.' || *p->at == '*') return p->at++, TIMES;
  return space || *p->at == '(' ? TIMES : END;
}

static bool read_expression(parser *p, ts_scale *scale) {
  ts_scale next = {0};
  bool divided = false;
  *scale = (ts_scale){1, 1, 0, 0, TS_NUMBER};
  skip_spaces(p);
  if (p->at[0] == '1' && p->at[1] == '/') p->at++; /* "/min" and "per min" are 1/min */
  link how = *p->at == '/' || strncmp(p->at, "per ", 4) == 0 ? read_link(p) : END;
  if (how == END && !read_factor(p, scale)) return false;
  if (how == END) how = read_link(p);
  for (; how != END; how = read_link(p)) {
    if (how == TIMES && divided)
      return fail(p, "unit \"%s\" can be read two ways; put brackets after the slash", p->whole);
    divided |= how == PER;
    if (how == PER ? !read_divisor(p, &next) : !read_factor(p, &next)) return false;
    if (!join(p, scale, &next, how == PER ? -1 : 1)) return false;
  }
  return true;
}

bool ts_unit_read(const ts_units *units, const char *text, ts_scale *scale, char *why,
                  size_t size) {
  if (!*text) {
    *scale = (ts_scale){1, 1, 0, 0, TS_NUMBER};
    return true;
  }
  if (ts_unit_named(units, text, strlen(text), scale)) return true;
  parser p = {units, text, text, 0, why, size};
  if (!read_expression(&p, scale)) return false;
  if (*p.at) return fail(&p, "unexpected \"%c\" in unit \"%s\"", *p.at, text);
  return true;
}
