/* quantity: the calendar, ages, times of day. */
#include "quantity/calendar.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#define COUNT(rows) (int)(sizeof rows / sizeof *rows)

static double moment(const char *text) {
  ts_date date;
  ck_assert_msg(ts_date_read(text, &date), "%s", text);
  return (double)ts_day_number(date) * TS_DAY_SECONDS;
}

/* Walks the whole calendar day by day with the rule for leap years in words. */
START_TEST(every_day_has_its_number) {
  static const int lengths[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  int64_t day = -719162; /* 0001-01-01: 1969 years of 365 days and 477 leap days before 1970 */
  int weekday = 0;       /* a Monday (from memory) */
  for (int year = 1; year <= 9999; year++)
    for (int month = 1; month <= 12; month++) {
      int length = lengths[month - 1];
      if (month == 2 && (year % 400 == 0 || (year % 4 == 0 && year % 100 != 0))) length++;
      ck_assert_int_eq(ts_month_days(year, month), length);
      for (int d = 1; d <= length; d++, day++, weekday = (weekday + 1) % 7) {
        ts_date date = {year, month, d}, back = ts_date_of(day);
        if (ts_day_number(date) != day || back.year != year || back.month != month ||
            back.day != d || ts_weekday(day) != weekday || !ts_date_valid(date))
          ck_abort_msg("%d-%d-%d", year, month, d);
      }
      ck_assert(!ts_date_valid((ts_date){year, month, length + 1}));
      ck_assert(!ts_date_valid((ts_date){year, month, 0}));
    }
}
END_TEST

/* The C library's own calendar is the second opinion. */
START_TEST(agrees_with_the_c_library) {
  for (int year = 1902; year < 2100; year += 3)
    for (int month = 1; month <= 12; month++) {
      struct tm tm = {.tm_year = year - 1900, .tm_mon = month - 1, .tm_mday = 28};
      time_t seconds = timegm(&tm);
      int64_t day = ts_day_number((ts_date){year, month, 28});
      ck_assert_int_eq(day * 86400, seconds);
      ck_assert_int_eq(ts_weekday(day), (tm.tm_wday + 6) % 7);
    }
}
END_TEST

START_TEST(weekdays_have_names) {
  ck_assert_str_eq(ts_weekday_name(ts_weekday(0)), "Thursday");
  ck_assert_str_eq(ts_weekday_name(ts_weekday(ts_day_number((ts_date){2000, 1, 1}))), "Saturday");
  ck_assert_str_eq(ts_weekday_name(0), "Monday");
  ck_assert_str_eq(ts_weekday_name(6), "Sunday");
  ck_assert_str_eq(ts_weekday_name(7), "?");
}
END_TEST

START_TEST(reads_dates_exactly) {
  static const char *const wrong[] = {"2027-02-29", "2027-3-9",    "2027-03-9",  "27-03-09",
                                      "2027/03/09", "2027-03-09 ", " 2027-03-0", "2027-13-01",
                                      "",           "2027-03",     "+027-03-09", "2027-00-10"};
  ts_date date;
  for (int i = 0; i < COUNT(wrong); i++)
    ck_assert_msg(!ts_date_read(wrong[i], &date), "\"%s\" was read", wrong[i]);
  ck_assert(ts_date_read("2028-02-29", &date));
  ck_assert_int_eq(date.year, 2028);
  ck_assert_int_eq(date.month, 2);
  ck_assert_int_eq(date.day, 29);
}
END_TEST

/* ---- ages -------------------------------------------------------------------- */

static const struct {
  const char *born, *on;
  int years;          /* completed */
  int elapsed, whole; /* days into the current year of life, and its days */
} ages[] = {
    {"2014-05-02", "2014-05-02", 0, 0, 365},
    {"2014-05-02", "2015-05-01", 0, 364, 365},
    {"2014-05-02", "2015-05-02", 1, 0, 366},
    {"2014-05-02", "2027-03-09", 12, 311, 365},
    {"2009-03-09", "2027-03-09", 18, 0, 366},
    {"2009-03-10", "2027-03-09", 17, 364, 365},
    {"2000-12-31", "2001-01-01", 0, 1, 365},
    {"2008-02-29", "2024-02-29", 16, 0, 366},
    {"2008-02-29", "2023-02-28", 14, 364, 365}, /* no birthday yet on 28 February */
    {"2008-02-29", "2023-03-01", 15, 0, 365},
    {"2008-02-29", "2026-03-01", 18, 0, 365},
    {"2008-02-28", "2024-02-29", 16, 1, 366},
    {"1900-03-01", "2000-02-29", 99, 365, 366}, /* 1900 was no leap year, 2000 was one */
    {"2027-03-09", "2027-03-08", -1, 364, 365}, /* before birth: below 0 */
};

START_TEST(age_counts_calendar_years) {
  double years = ts_age(moment(ages[_i].born), moment(ages[_i].on)) / TS_YEAR_SECONDS;
  double expected = ages[_i].years + (double)ages[_i].elapsed / ages[_i].whole;
  ck_assert_msg(fabs(years - expected) < 1e-12, "born %s, on %s: %.15g years, expected %.15g",
                ages[_i].born, ages[_i].on, years, expected);
  ck_assert_int_eq((int)floor(years), ages[_i].years);
}
END_TEST

/* A limit such as "18 years" is met on the birthday, not a rounding before or after it. */
START_TEST(a_birthday_is_exactly_whole_years) {
  for (int year = 1900; year < 2040; year++)
    for (int month = 1; month <= 12; month++) {
      double born = (double)ts_day_number((ts_date){year, month, 28}) * TS_DAY_SECONDS;
      for (int years = 0; years < 100; years++) {
        double on = (double)ts_day_number((ts_date){year + years, month, 28}) * TS_DAY_SECONDS;
        ck_assert(ts_age(born, on) == years * TS_YEAR_SECONDS);
        ck_assert(ts_age(born, on - TS_DAY_SECONDS) < years * TS_YEAR_SECONDS);
      }
    }
}
END_TEST

/* Nobody gets younger from one day to the next, and who was born later is not older. */
START_TEST(age_is_monotone) {
  int64_t first = ts_day_number((ts_date){2003, 12, 1}), on = ts_day_number((ts_date){2023, 1, 1});
  for (int64_t born = first; born < first + 500; born++)
    for (int64_t day = on; day < on + 900; day += 1 + day % 3) {
      double age = ts_age((double)born * TS_DAY_SECONDS, (double)day * TS_DAY_SECONDS);
      ck_assert(ts_age((double)born * TS_DAY_SECONDS, (double)(day + 1) * TS_DAY_SECONDS) > age);
      ck_assert(ts_age((double)(born + 1) * TS_DAY_SECONDS, (double)day * TS_DAY_SECONDS) <= age);
    }
}
END_TEST

START_TEST(age_outside_the_calendar_is_no_number) {
  ck_assert(isnan(ts_age(0, 1e15)));
  ck_assert(isnan(ts_age(-1e15, 0)));
  ck_assert(isnan(ts_age(NAN, 0)));
  ck_assert(isnan(ts_age(0, INFINITY)));
}
END_TEST

/* ---- text ---------------------------------------------------------------------- */

START_TEST(dates_and_clocks_as_text) {
  char text[32];
  ck_assert_str_eq(ts_date_show(moment("2027-03-09"), text, sizeof text), "9 March 2027");
  ck_assert_str_eq(ts_date_write(moment("2027-03-09"), text, sizeof text), "2027-03-09");
  ck_assert_str_eq(ts_date_show(moment("0001-01-01"), text, sizeof text), "1 January 1");
  ck_assert_str_eq(ts_date_write(moment("0987-12-31"), text, sizeof text), "0987-12-31");
  ck_assert_str_eq(ts_date_show(1e15, text, sizeof text), "?");
  ck_assert_str_eq(ts_date_write(NAN, text, sizeof text), "?");
  ck_assert_str_eq(ts_clock_show(0, text, sizeof text), "00:00");
  ck_assert_str_eq(ts_clock_show(38400, text, sizeof text), "10:40");
  ck_assert_str_eq(ts_clock_show(38430.9, text, sizeof text), "10:40:30");
  ck_assert_str_eq(ts_clock_show(172799, text, sizeof text), "47:59:59");
  ck_assert_str_eq(ts_clock_show(172800, text, sizeof text), "?");
  ck_assert_str_eq(ts_clock_show(-1, text, sizeof text), "?");
  ck_assert_str_eq(ts_clock_show(NAN, text, sizeof text), "?");
}
END_TEST

Suite *suite_calendar(void);
Suite *suite_calendar(void) {
  Suite *suite = suite_create("calendar");
  TCase *all = tcase_create("calendar");
  tcase_add_test(all, every_day_has_its_number);
  tcase_add_test(all, agrees_with_the_c_library);
  tcase_add_test(all, weekdays_have_names);
  tcase_add_test(all, reads_dates_exactly);
  tcase_add_loop_test(all, age_counts_calendar_years, 0, COUNT(ages));
  tcase_add_test(all, a_birthday_is_exactly_whole_years);
  tcase_add_test(all, age_is_monotone);
  tcase_add_test(all, age_outside_the_calendar_is_no_number);
  tcase_add_test(all, dates_and_clocks_as_text);
  tcase_set_timeout(all, 60);
  suite_add_tcase(suite, all);
  return suite;
}
