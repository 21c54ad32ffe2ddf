/* Pieces: dates and times of day. */
#include "quantity/calendar.h"
#include "quantity/piece.h"

#include <string.h>

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

static size_t count_digits(const char *text) {
  size_t n = 0;
  while (is_digit(text[n])) n++;
  return n;
}

static int number_of(const char *text, size_t digits) {
  int value = 0;
  for (size_t i = 0; i < digits; i++) value = value * 10 + (text[i] - '0');
  return value;
}

bool ts_is_date(const char *text) {
  return count_digits(text) == 4 && text[4] == '-' && is_digit(text[5]);
}

bool ts_is_clock(const char *text) {
  size_t hours = count_digits(text);
  return (hours == 1 || hours == 2) && text[hours] == ':';
}

static double moment_of(int year, int month, int day) {
  return (double)ts_day_number((ts_date){year, month, day}) * TS_DAY_SECONDS;
}

bool ts_date_piece(const ts_reader *reader, const char *text, ts_piece *piece) {
  size_t length = strlen(text);
  bool whole_month = length == 7;
  if ((length != 10 && !whole_month) || count_digits(text + 5) != 2 ||
      (!whole_month && (text[7] != '-' || count_digits(text + 8) != 2)))
    return ts_refuse(reader, "\"%s\" is not a date; expected \"2027-03-09\" or \"2027-03\"", text);
  ts_date date = {number_of(text, 4), number_of(text + 5, 2), 1};
  if (!whole_month) date.day = number_of(text + 8, 2);
  if (!ts_date_valid(date))
    return ts_refuse(reader, "the date \"%s\" is not in the calendar", text);
  piece->form = TS_DATED;
  piece->lo = piece->hi = moment_of(date.year, date.month, date.day);
  if (whole_month)
    piece->hi = moment_of(date.year, date.month, ts_month_days(date.year, date.month));
  return true;
}

bool ts_clock_piece(const ts_reader *reader, const char *text, ts_piece *piece) {
  size_t hours = count_digits(text), length = strlen(text);
  const char *rest = text + hours;
  bool seconds = length == hours + 6;
  if ((length != hours + 3 && !seconds) || count_digits(rest + 1) != 2 ||
      (seconds && (rest[3] != ':' || count_digits(rest + 4) != 2)))
    return ts_refuse(reader, "\"%s\" is not a time of day; expected \"14:05\" or \"14:05:30\"",
                     text);
  int h = number_of(text, hours), m = number_of(rest + 1, 2);
  int s = seconds ? number_of(rest + 4, 2) : 0;
  if (h > 47 || m > 59 || s > 59)
    return ts_refuse(reader,
                     "the time of day \"%s\" is out of range; hours go to 47, for work past "
                     "midnight, minutes and seconds to 59",
                     text);
  piece->form = TS_CLOCK_TIME;
  piece->lo = piece->hi = h * 3600 + m * 60 + s;
  return true;
}
