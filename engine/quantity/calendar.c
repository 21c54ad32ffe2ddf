/* The calendar: see calendar.h. */
#include "quantity/calendar.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { YEAR_MIN = 1, YEAR_MAX = 9999, ERA_DAYS = 146097, EPOCH = 719468 };

static bool is_leap(int year) { return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0); }

int ts_month_days(int year, int month) {
  static const char days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return month == 2 && is_leap(year) ? 29 : days[month - 1];
}

bool ts_date_valid(ts_date date) {
  return date.year >= YEAR_MIN && date.year <= YEAR_MAX && date.month >= 1 && date.month <= 12 &&
         date.day >= 1 && date.day <= ts_month_days(date.year, date.month);
}

/* Counted in years that begin on 1 March, so that the leap day is the last of
 * its year and 400 years (an era) always have the same length. */
int64_t ts_day_number(ts_date date) {
  int64_t year = date.year - (date.month <= 2);
  int64_t era = (year >= 0 ? year : year - 399) / 400;
  int64_t year_of_era = year - era * 400;
  int64_t month = (date.month + 9) % 12;
  int64_t day_of_year = (153 * month + 2) / 5 + date.day - 1;
  int64_t day_of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
  return era * ERA_DAYS + day_of_era - EPOCH;
}

ts_date ts_date_of(int64_t day) {
  day += EPOCH;
  int64_t era = (day >= 0 ? day : day - ERA_DAYS + 1) / ERA_DAYS;
  int64_t day_of_era = day - era * ERA_DAYS;
  int64_t year_of_era =
      (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
  int64_t day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
  int64_t month = (5 * day_of_year + 2) / 153;
  ts_date date;
  date.day = (int)(day_of_year - (153 * month + 2) / 5 + 1);
  date.month = (int)(month < 10 ? month + 3 : month - 9);
  date.year = (int)(year_of_era + era * 400 + (date.month <= 2));
  return date;
}

/* 1970-01-01 was a Thursday. */
int ts_weekday(int64_t day) { return (int)(((day + 3) % 7 + 7) % 7); }

const char *ts_weekday_name(int weekday) {
  static const char *const names[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                      "Friday", "Saturday", "Sunday"};
  return weekday >= 0 && weekday < 7 ? names[weekday] : "?";
}

static bool digits(const char *text, int count, int *value) {
  *value = 0;
  for (int i = 0; i < count; i++) {
    if (text[i] < '0' || text[i] > '9') return false;
    *value = *value * 10 + (text[i] - '0');
  }
  return true;
}

bool ts_date_read(const char *text, ts_date *date) {
  return strlen(text) == 10 && text[4] == '-' && text[7] == '-' && digits(text, 4, &date->year) &&
         digits(text + 5, 2, &date->month) && digits(text + 8, 2, &date->day) &&
         ts_date_valid(*date);
}

/* ---- moments ------------------------------------------------------------------ */

/* The day a moment lies in; false outside the calendar. */
static bool day_of(double moment, int64_t *day) {
  double number = floor(moment / TS_DAY_SECONDS);
  ts_date first = {YEAR_MIN, 1, 1}, last = {YEAR_MAX, 12, 31};
  if (!(number >= (double)ts_day_number(first) && number <= (double)ts_day_number(last)))
    return false;
  *day = (int64_t)number;
  return true;
}

/* The moment at which the birthday in `year` begins. */
static double birthday(ts_date born, int year) {
  ts_date date = {year, born.month, born.day};
  if (born.month == 2 && born.day == 29 && !is_leap(year)) date.month = 3, date.day = 1;
  return (double)ts_day_number(date) * TS_DAY_SECONDS;
}

double ts_age(double born, double on) {
  int64_t born_day, on_day;
  if (!day_of(born, &born_day) || !day_of(on, &on_day)) return NAN;
  ts_date date = ts_date_of(born_day);
  int year = ts_date_of(on_day).year;
  if (on < birthday(date, year)) year--;
  double last = birthday(date, year), next = birthday(date, year + 1);
  return (year - date.year + (on - last) / (next - last)) * TS_YEAR_SECONDS;
}

char *ts_date_show(double moment, char *out, size_t size) {
  static const char *const months[] = {"January",   "February", "March",    "April",
                                       "May",       "June",     "July",     "August",
                                       "September", "October",  "November", "December"};
  int64_t day;
  if (!day_of(moment, &day)) {
    snprintf(out, size, "?");
    return out;
  }
  ts_date date = ts_date_of(day);
  snprintf(out, size, "%d %s %d", date.day, months[date.month - 1], date.year);
  return out;
}

char *ts_date_write(double moment, char *out, size_t size) {
  int64_t day;
  if (!day_of(moment, &day)) {
    snprintf(out, size, "?");
    return out;
  }
  ts_date date = ts_date_of(day);
  snprintf(out, size, "%04d-%02d-%02d", date.year, date.month, date.day);
  return out;
}

char *ts_clock_show(double moment, char *out, size_t size) {
  if (!(moment >= 0 && moment < TS_CLOCK_END)) {
    snprintf(out, size, "?");
    return out;
  }
  int all = (int)moment, seconds = all % 60;
  if (seconds)
    snprintf(out, size, "%02d:%02d:%02d", all / 3600, all / 60 % 60, seconds);
  else
    snprintf(out, size, "%02d:%02d", all / 3600, all / 60 % 60);
  return out;
}
