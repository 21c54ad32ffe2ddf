/* Each person's days in the order of their dates, so that those near a date are found at once. */
#include "dossier/world.h"
#include "quantity/calendar.h"

#include <math.h>
#include <stdlib.h>

static double date_of(const ts_dossier *dossier, ts_subject person_day) {
  ts_subject day = dossier->subjects[person_day].info.parent;
  return ts_world_value(dossier, ts_world_slot(dossier, day, "date"))->range.lo;
}

static int by_date(const void *left, const void *right) {
  const ts_dated *a = left, *b = right;
  if (a->date != b->date) return a->date < b->date ? -1 : 1;
  return (a->person_day > b->person_day) - (a->person_day < b->person_day);
}

/* Two of one date are one day of a row. */
static void count_rows(ts_dated *days, size_t count) {
  for (size_t i = 0; i < count; i++) {
    double gap = i > 0 ? days[i].date - days[i - 1].date : INFINITY;
    days[i].row = gap == 0 ? days[i - 1].row : gap == TS_DAY_SECONDS ? days[i - 1].row + 1 : 1;
  }
}

static void enter_days(ts_dossier *dossier, ts_subject person, ts_dated *days) {
  ts_field list = ts_subject_field(dossier, person, "person_days");
  for (size_t i = 0; i < list.count; i++)
    days[i] = (ts_dated){.date = date_of(dossier, list.list[i]), .person_day = list.list[i]};
  if (list.count > 0) qsort(days, list.count, sizeof *days, by_date);
  count_rows(days, list.count);
}

void ts_world_days(ts_dossier *dossier) {
  size_t subjects = dossier->subject_count, count = 0;
  ts_days *days = &dossier->days;
  days->from = ts_arena_alloc(dossier->arena, (subjects + 1) * sizeof *days->from);
  for (ts_subject s = 0; s < subjects; s++) {
    days->from[s] = (uint32_t)count;
    if (ts_world_is(dossier, s, "person"))
      count += ts_subject_field(dossier, s, "person_days").count;
  }
  days->from[subjects] = (uint32_t)count;
  days->at = ts_arena_alloc(dossier->arena, (count + 1) * sizeof *days->at);
  for (ts_subject s = 0; s < subjects; s++)
    if (days->from[s + 1] > days->from[s]) enter_days(dossier, s, days->at + days->from[s]);
}

/* The first of the person's days that is not before the date; the place after all where none is. */
static size_t first_on(const ts_days *days, ts_subject person, double date) {
  size_t low = days->from[person], high = days->from[person + 1];
  while (low < high) {
    size_t middle = low + (high - low) / 2;
    if (days->at[middle].date < date)
      low = middle + 1;
    else
      high = middle;
  }
  return low;
}

const ts_dated *ts_days_between(const ts_dossier *dossier, ts_subject person, double first,
                                double last, size_t *count) {
  const ts_days *days = &dossier->days;
  size_t from = first_on(days, person, first), to = from, end = days->from[person + 1];
  while (to < end && days->at[to].date <= last) to++;
  *count = to - from;
  return days->at + from;
}

size_t ts_days_in_row(const ts_dossier *dossier, ts_subject person, double date) {
  const ts_days *days = &dossier->days;
  size_t at = first_on(days, person, date);
  bool follows = at > days->from[person] && date - days->at[at - 1].date == TS_DAY_SECONDS;
  return follows ? days->at[at - 1].row + 1 : 1;
}
