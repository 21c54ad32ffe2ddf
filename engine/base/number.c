/* Numbers to text and back, the same in every locale of the host program.
 *
 * The C library rounds correctly both ways but looks at the locale's decimal
 * point, so the conversions here name the "C" locale themselves. That locale is
 * built in: asking for it costs nothing and cannot fail for want of a file. */
#include "base/arena.h"
#include "base/text.h"

#include <float.h>
#include <locale.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

static size_t digits_at(const char *text) {
  size_t n = 0;
  while (is_digit(text[n])) n++;
  return n;
}

/* Length of the number at the start of `text`, 0 when there is none. A point
 * belongs to it only when a digit follows, so "3..4" starts with "3". */
static size_t number_length(const char *text) {
  size_t at = text[0] == '-' || text[0] == '+';
  size_t whole = digits_at(text + at), fraction = 0;
  at += whole;
  if (text[at] == '.') fraction = digits_at(text + at + 1);
  if (fraction) at += 1 + fraction;
  if (!whole && !fraction) return 0;
  if (text[at] == 'e' || text[at] == 'E') {
    size_t sign = text[at + 1] == '-' || text[at + 1] == '+';
    size_t exponent = digits_at(text + at + 1 + sign);
    if (exponent) at += 1 + sign + exponent;
  }
  return at;
}

static double convert(const char *number) {
  locale_t c = newlocale(LC_ALL_MASK, "C", (locale_t)0);
  if (!c) ts_out_of_memory();
  double value = strtod_l(number, NULL, c);
  freelocale(c);
  return value;
}

const char *ts_number_read(const char *text, double *value) {
  size_t length = number_length(text);
  if (!length) return NULL;
  char few[64];
  char *number = length < sizeof few ? few : ts_alloc(length + 1);
  memcpy(number, text, length);
  number[length] = '\0';
  double result = convert(number);
  if (number != few) free(number);
  if (!isfinite(result)) return NULL; /* larger than any double */
  *value = result;
  return text + length;
}

/* printf of one double with the given style and precision, in the C locale. */
static void print(double value, char style, int precision, char *out, size_t size) {
  locale_t c = newlocale(LC_ALL_MASK, "C", (locale_t)0);
  if (!c) ts_out_of_memory();
  locale_t before = uselocale(c);
  if (style == 'e')
    snprintf(out, size, "%.*e", precision, value);
  else
    snprintf(out, size, "%.*g", precision, value);
  uselocale(before);
  freelocale(c);
}

char *ts_number_write(double value, char *out, size_t size) {
  char text[32];
  /* Any decimal of 15 digits survives a double, except near zero where doubles hold fewer. */
  int precision = fabs(value) < DBL_MIN ? 1 : DBL_DIG;
  for (; precision < DBL_DECIMAL_DIG; precision++) {
    double again;
    print(value, 'g', precision, text, sizeof text);
    if (!isfinite(value) || (ts_number_read(text, &again) && again == value)) break;
  }
  if (precision == DBL_DECIMAL_DIG) print(value, 'g', precision, text, sizeof text);
  snprintf(out, size, "%s", text);
  return out;
}

/* Lays out `count` digits d[0].d[1]d[2]... x 10^exponent without an exponent. */
static void lay_out(ts_text *text, const char *d, int count, int exponent) {
  if (exponent < 0) ts_text_add(text, "0.");
  for (int i = exponent; i < -1; i++) ts_text_add(text, "0");
  for (int i = 0; i < count; i++) {
    if (exponent >= 0 && i == exponent + 1) ts_text_add(text, ".");
    ts_text_add_n(text, d + i, 1);
  }
  for (int i = count; i <= exponent; i++) ts_text_add(text, "0");
}

/* The number of digits of a whole number, not counting zeros at the end. */
static int digits_of(uint64_t whole) {
  int count = 0;
  while (whole % 10 == 0 && whole != 0) whole /= 10;
  for (; whole != 0; whole /= 10) count++;
  return count;
}

/* A decimal with few digits behind the point, as nearly all are that people write: `whole` over ten
 * to the power of `places`. Up to 15 digits survive a double, so it is what rounding gives. */
static bool is_short(double value, int digits, uint64_t *whole, int *places) {
  static const double powers[] = {1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6};
  if (!(fabs(value) < 1e9)) return false;
  for (*places = 0; *places <= 6; ++*places) {
    double power = powers[*places], scaled = fabs(value) * power;
    if (scaled != floor(scaled) || scaled / power != fabs(value)) continue;
    for (*whole = (uint64_t)scaled; *places > 0 && *whole % 10 == 0; *whole /= 10) --*places;
    return scaled < 1e15 && digits_of(*whole) <= digits;
  }
  return false;
}

static char *write_short(bool negative, uint64_t whole, int places, char *out) {
  char back[40];
  int n = 0;
  for (int i = 0; whole != 0 || i <= places; i++, whole /= 10) {
    if (i == places && i > 0) back[n++] = '.';
    back[n++] = (char)('0' + whole % 10);
  }
  if (negative) back[n++] = '-';
  for (int i = 0; i < n; i++) out[i] = back[n - 1 - i];
  out[n] = '\0';
  return out;
}

char *ts_number_round(double value, int digits, char *out, size_t size) {
  char printed[64], d[DBL_DECIMAL_DIG];
  uint64_t whole;
  int places;
  if (digits < 1) digits = 1;
  if (digits > DBL_DECIMAL_DIG) digits = DBL_DECIMAL_DIG;
  if (size >= 32 && digits <= DBL_DIG && is_short(value, digits, &whole, &places))
    return write_short(value < 0, whole, places, out);
  print(value, 'e', digits - 1, printed, sizeof printed);
  const char *e = strchr(printed, 'e');
  if (!isfinite(value) || !e) {
    snprintf(out, size, "%s", printed);
    return out;
  }
  int count = 0, last = 0;
  for (const char *p = printed; p < e; p++)
    if (is_digit(*p)) d[count++] = *p;
  for (int i = 0; i < count; i++)
    if (d[i] != '0') last = i + 1;
  ts_text text = {0};
  if (last && printed[0] == '-') ts_text_add(&text, "-");
  lay_out(&text, last ? d : "0", last ? last : 1, last ? (int)strtol(e + 1, NULL, 10) : 0);
  /* Cut short it would be another number. */
  if (text.length < size)
    memcpy(out, text.data, text.length + 1);
  else
    print(value, 'g', digits, out, size);
  ts_text_release(&text);
  return out;
}

double ts_number_digits(double value, int digits) {
  if (value == 0 || !isfinite(value)) return value;
  int places = digits - 1 - (int)floor(log10(fabs(value)));
  double power = pow(10, abs(places));
  if (!isfinite(power)) return value;
  return places >= 0 ? nearbyint(value * power) / power : nearbyint(value / power) * power;
}
