/* Pieces: numbers with units, and compounds. */
#include "quantity/piece.h"

#include "base/text.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { PARTS_MAX = 4 };

bool ts_refuse(const ts_reader *reader, const char *format, ...) {
  va_list list;
  va_start(list, format);
  if (reader->size) vsnprintf(reader->why, reader->size, format, list);
  va_end(list);
  return false;
}

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

/* A number and the unit text behind it, which ends where a space and another number follow. */
typedef struct {
  double number;
  ts_scale scale;
  bool has_unit;
} part;

static bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

static bool starts_number(const char *text) {
  if (text[0] == '1' && text[1] == '/' && is_letter(text[2])) return false; /* the unit 1/h */
  if (*text == '-' || *text == '+') text++;
  if (*text == '.') text++;
  return is_digit(*text);
}

static size_t unit_length(const char *text) {
  size_t at = 0;
  while (text[at] && !(text[at] == ' ' && starts_number(text + at + 1))) at++;
  return at;
}

/* Says what is wrong with a text that does not start with a number. */
static bool not_a_number(const ts_reader *reader, const char *text) {
  if (*text == '?') return ts_refuse(reader, "\"?\" (not known) cannot be used here");
  if (*text == '<' || *text == '>')
    return ts_refuse(reader, "unexpected \"%c\"; write both ends of the range, as in \"0..5 mg/L\"",
                     *text);
  if (starts_number(text)) return ts_refuse(reader, "the number in \"%s\" is too large", text);
  return ts_refuse(reader, "no number found in \"%s\"; expected a quantity such as \"4.2 m\"",
                   text);
}

/* Says what people of other habits may have meant by a number that is followed by `next`. */
static bool odd_after_number(const ts_reader *reader, const char *text, const char *next) {
  if (*next == ',')
    return ts_refuse(reader, "unexpected comma in \"%s\"; write 1500 or 1.5, with a point", text);
  if (*next == '-' && is_digit(next[1]))
    return ts_refuse(reader, "unexpected \"-\" in \"%s\"; a range is written \"3..4 m\"", text);
  if (*next == '/' && is_digit(next[1]))
    return ts_refuse(reader, "unexpected \"/\" in \"%s\"; write a decimal number, as in \"0.5 in\"",
                     text);
  if (*next == '?') return ts_refuse(reader, "unexpected \"?\" in \"%s\"", text);
  return true;
}

static bool read_part(const ts_reader *reader, const char **text, part *read) {
  const char *at = *text, *end = ts_number_read(at, &read->number);
  if (!end) return not_a_number(reader, at);
  if (!odd_after_number(reader, at, end)) return false;
  while (*end == ' ' && !starts_number(end + 1)) end++;
  size_t length = *end == ' ' ? 0 : unit_length(end);
  char unit[640];
  snprintf(unit, sizeof unit, "%.*s", (int)length, end);
  read->has_unit = length > 0;
  if (!ts_unit_read(reader->units, unit, &read->scale, reader->why, reader->size)) return false;
  *text = end + length;
  if (**text == ' ') ++*text;
  return true;
}

/* ---- compounds -------------------------------------------------------------------- */

/* How many of the unit `small` make one of `large`. */
static double how_many(const ts_scale *large, const ts_scale *small) {
  return large->num * small->den / (large->den * small->num);
}

static bool parts_fit(const ts_reader *reader, const part *a, const part *b, const char *text) {
  if (!a->has_unit || !b->has_unit)
    return ts_refuse(reader, "a number without a unit in \"%s\"; write numbers without spaces",
                     text);
  if (TS_KIND_OF(a->scale.dim) || a->scale.dim != b->scale.dim || !a->scale.dim)
    return ts_refuse(reader, "the parts of \"%s\" do not make one quantity", text);
  double many = how_many(&a->scale, &b->scale);
  if (!(many > 1))
    return ts_refuse(reader, "the parts of \"%s\" must go from the larger unit to the smaller",
                     text);
  if (signbit(b->number) || b->number >= many || floor(a->number) != a->number)
    return ts_refuse(reader,
                     "the parts of \"%s\" do not fit; only the last may have a fraction, and each "
                     "must be less than one of the unit before",
                     text);
  return true;
}

/* All parts in the unit of the last: 5 ft 7 in is 67 in, and one conversion rounds. */
static double total(const part *parts, int count) {
  double sum = 0;
  for (int i = 0; i < count; i++)
    sum += fabs(parts[i].number) * how_many(&parts[i].scale, &parts[count - 1].scale);
  return signbit(parts[0].number) ? -sum : sum;
}

static bool read_parts(const ts_reader *reader, const char *text, ts_piece *piece) {
  part parts[PARTS_MAX];
  int count = 0;
  const char *at = text;
  do {
    if (count == PARTS_MAX) return ts_refuse(reader, "too many parts in \"%s\"", text);
    if (!read_part(reader, &at, &parts[count])) return false;
    if (count && !parts_fit(reader, &parts[count - 1], &parts[count], text)) return false;
    count++;
  } while (*at);
  piece->form = parts[0].has_unit ? TS_SCALED : TS_BARE;
  piece->parts = count;
  piece->scale = parts[count - 1].scale;
  piece->number = count > 1 ? total(parts, count) : parts[0].number;
  return true;
}

bool ts_piece_read(const ts_reader *reader, const char *text, ts_piece *piece) {
  if (ts_is_date(text)) return ts_date_piece(reader, text, piece);
  if (ts_is_clock(text)) return ts_clock_piece(reader, text, piece);
  return read_parts(reader, text, piece);
}
