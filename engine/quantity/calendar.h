/* The calendar: days, dates, weekdays, ages, times of day.
 *
 * Proleptic Gregorian, years 1 to 9999, no time zones: a production's dates
 * and clocks are those on its own wall. Nothing here asks what day it is. */
#ifndef TS_QUANTITY_CALENDAR_H
#define TS_QUANTITY_CALENDAR_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define TS_DAY_SECONDS 86400.0
#define TS_YEAR_SECONDS 31556952.0 /* 365.2425 days, the mean Gregorian year */
#define TS_CLOCK_END 172800.0      /* 48:00; a clock time is below it */

typedef struct {
  int year, month, day; /* 1..9999, 1..12, 1..31 */
} ts_date;

bool ts_date_valid(ts_date date);       /* no 30 February */
int ts_month_days(int year, int month); /* 28..31 */

/* Days since 1970-01-01, and back. The day number must be that of a date
 * between 0001-01-01 and 9999-12-31. */
int64_t ts_day_number(ts_date date);
ts_date ts_date_of(int64_t day);

/* Day of the week, 0 = Monday ... 6 = Sunday, and its English name. */
int ts_weekday(int64_t day);
const char *ts_weekday_name(int weekday);

/* Reads `2027-03-09` exactly. False for anything else, also for 30 February. */
bool ts_date_read(const char *text, ts_date *date);

/* Age at the moment `on` of somebody born on the day `born` (both s since
 * 1970-01-01): the completed calendar years plus the elapsed part of the
 * current one, in seconds of years of 365.2425 days. So the age on the 18th
 * birthday is exactly `18 years`. Somebody born on 29 February completes a
 * year on 1 March where there is no 29 February (common practice). Negative
 * before birth. A moment outside the calendar gives NaN. */
double ts_age(double born, double on);

/* The date of a moment as "9 March 2027", or as "2027-03-09".
 * `size` 32 is enough. A moment outside the calendar gives "?". */
char *ts_date_show(double moment, char *out, size_t size);
char *ts_date_write(double moment, char *out, size_t size);

/* Seconds since midnight as "10:40", or "10:40:30" where there are seconds;
 * parts of a second are dropped. Outside 0 to 47:59:59 gives "?". */
char *ts_clock_show(double moment, char *out, size_t size);

#endif
