/* What a cell says of a fact: its kind and words turned into what a dossier would hold. */
#include "dossier/import_int.h"
#include "dossier/words.h"
#include "quantity/calendar.h"

#include <ctype.h>
#include <math.h>
#include <string.h>
#include <strings.h>

enum { UNIT_LENGTH = 40, NUMBER_LENGTH = 32 };

bool ts_import_is_unit(const ts_import *import, const char *unit, ts_dim *dim) {
  char text[UNIT_LENGTH + 3], why[256];
  ts_range range;
  if (unit[0] == '\0' || strlen(unit) > UNIT_LENGTH || isdigit((unsigned char)unit[0]))
    return false;
  for (const char *c = unit; *c != '\0'; c++)
    if (strchr(" .:", *c) != NULL && strpbrk(c + 1, "0123456789.") != NULL) return false;
  snprintf(text, sizeof text, "1 %s", unit);
  return ts_quantity_read(import->dossier->units, text, &range, dim, why, sizeof why);
}

/* ---- cells as words ------------------------------------------------------------------- */

static const char *number_words(const ts_import *import, double number) {
  char text[NUMBER_LENGTH];
  return ts_arena_copy(import->arena, ts_number_write(number, text, sizeof text));
}

static const char *date_words(const ts_import *import, double seconds) {
  char day[32], clock[32];
  double time = seconds - floor(seconds / TS_DAY_SECONDS) * TS_DAY_SECONDS;
  ts_date_write(seconds, day, sizeof day);
  if (time == 0) return ts_arena_copy(import->arena, day);
  return ts_arena_printf(import->arena, "%s %s", day, ts_clock_show(time, clock, sizeof clock));
}

static const char *time_words(const ts_import *import, double seconds) {
  char clock[32];
  return ts_arena_copy(import->arena, ts_clock_show(seconds, clock, sizeof clock));
}

const char *ts_import_words(const ts_import *import, const ts_cell *cell) {
  switch (cell->kind) {
  case TS_CELL_NUMBER: return number_words(import, cell->number);
  case TS_CELL_PERCENT:
    return ts_arena_printf(import->arena, "%s %%",
                           number_words(import, ts_number_digits(100 * cell->number, 15)));
  case TS_CELL_DATE: return date_words(import, cell->number);
  case TS_CELL_TIME: return time_words(import, cell->number);
  case TS_CELL_YES_NO: return cell->number != 0 ? "yes" : "no";
  default: return cell->text;
  }
}

/* ---- numbers -------------------------------------------------------------------------- */

/* Digits and what joins them: no unit. */
static bool is_bare(const char *text) {
  for (const char *c = text; *c != '\0'; c++)
    if (strchr("0123456789.,+- \xc2\xb1", *c) == NULL) return false;
  return strpbrk(text, "0123456789") != NULL;
}

static bool digits_around(const char *text, const char *c) {
  return c > text && isdigit((unsigned char)c[-1]) && isdigit((unsigned char)c[1]);
}

/* The decimal mark as a point. A comma that nobody declared, or a point beside a declared comma,
 * could part thousands, and is refused. */
static const char *with_point(const ts_import *import, const ts_import_form *form, const char *text,
                              const char *where) {
  bool comma = ts_same(form->decimal, ",");
  char *copy = ts_arena_copy(import->arena, text);
  for (char *c = copy; *c != '\0'; c++) {
    if ((*c != ',' && *c != '.') || !digits_around(copy, c)) continue;
    if ((*c == ',') != comma) {
      ts_import_fail(import, where, "\"%s\" has a %s in a number%s", text,
                     comma ? "point" : "comma",
                     comma ? ", where the map says that the comma is the decimal mark"
                           : "; a map says decimal=\",\" where that is the decimal mark");
      return NULL;
    }
    *c = '.';
  }
  return copy;
}

static const char *with_unit(const ts_import *import, const ts_known_fact *fact,
                             const ts_import_form *form, const char *text, const char *where) {
  bool needs = fact->def->type == TS_QUANTITY && fact->def->unit != NULL && fact->def->unit[0];
  if (!needs || !is_bare(text)) return text;
  if (form->unit != NULL) return ts_arena_printf(import->arena, "%s %s", text, form->unit);
  ts_import_fail(import, where,
                 "bare number \"%s\" for \"%s\"; its unit stands behind it, in the heading, as in "
                 "\"%s (%s)\", or in a map",
                 text, fact->def->name, fact->def->name, fact->def->unit);
  return NULL;
}

static const char *number_text(const ts_import *import, const ts_known_fact *fact,
                               const ts_import_form *form, const char *text, const char *where) {
  const char *plain = with_point(import, form, text, where);
  return plain ? with_unit(import, fact, form, plain, where) : NULL;
}

/* A length of time from a cell that shows hours and minutes. */
static const char *duration_text(const ts_import *import, double seconds) {
  bool minutes = fmod(seconds, 60) == 0;
  return ts_arena_printf(import->arena, "%s %s",
                         number_words(import, minutes ? seconds / 60 : seconds),
                         minutes ? "min" : "s");
}

/* ---- days and times ------------------------------------------------------------------- */

/* Three groups of digits with one character between each; false for anything else. */
static bool three_groups(const char *text, const char *at[3], size_t length[3]) {
  for (int i = 0; i < 3; i++) {
    at[i] = text;
    length[i] = strspn(text, "0123456789");
    text += length[i];
    if (length[i] == 0 || length[i] > 4 || (i < 2 && *text++ == '\0')) return false;
  }
  return *text == '\0';
}

static const char *date_text(const ts_import *import, const ts_import_form *form, const char *text,
                             const char *where) {
  const char *at[3], *year = NULL, *month = NULL, *day = NULL;
  size_t length[3];
  ts_date date;
  if (ts_date_read(text, &date) || !three_groups(text, at, length) || length[0] == 4) return text;
  if (form->dates == NULL) {
    ts_import_fail(import, where,
                   "\"%s\" does not say which is the day and which the month; write it like "
                   "2027-03-09, or let a map say, as in dates=\"d.m.y\"",
                   text);
    return NULL;
  }
  for (int i = 0; i < 3; i++) {
    const char *group = ts_arena_copy_n(import->arena, at[i], length[i]);
    if (form->dates[i] == 'y') year = length[i] == 4 ? group : NULL;
    if (form->dates[i] == 'm') month = length[i] <= 2 ? group : NULL;
    if (form->dates[i] == 'd') day = length[i] <= 2 ? group : NULL;
  }
  if (year == NULL || month == NULL || day == NULL) return text; /* the reader refuses it */
  return ts_arena_printf(import->arena, "%s-%s%s-%s%s", year, month[1] ? "" : "0", month,
                         day[1] ? "" : "0", day);
}

/* "1:05 PM" as 13:05. */
static const char *half_day_text(const ts_import *import, const char *text) {
  size_t length = strcspn(text, " aApP");
  const char *half = text + length + strspn(text + length, " ");
  bool before = strcasecmp(half, "am") == 0, after = strcasecmp(half, "pm") == 0;
  double hours;
  const char *rest = ts_number_read(text, &hours);
  if ((!before && !after) || rest == NULL || *rest != ':' || hours < 1 || hours > 12) return text;
  int full = (int)hours % 12 + (after ? 12 : 0);
  if (text + length - rest == 6 && strncmp(rest + 3, ":00", 3) == 0) length -= 3;
  return ts_arena_printf(import->arena, "%02d%.*s", full, (int)(text + length - rest), rest);
}

/* A moment, for a time of day: how long after the row's day began. */
static const char *clock_text(const ts_import *import, const ts_import_form *form,
                              const ts_cell *cell, const char *where) {
  double after = form->day != NULL ? cell->number - *form->day : -1;
  if (after >= 0 && after < TS_CLOCK_END) return time_words(import, after);
  ts_import_fail(import, where, "\"%s\" is a day too; expected a time of day%s",
                 date_words(import, cell->number),
                 form->day != NULL ? " on the day of the row, or in the night after" : "");
  return NULL;
}

/* ---- words ---------------------------------------------------------------------------- */

static char *small_letters(ts_arena *arena, const char *text) {
  char *copy = ts_arena_copy(arena, text);
  for (char *c = copy; *c != '\0'; c++) *c = (char)tolower((unsigned char)*c);
  return copy;
}

static const char *flag_text(ts_arena *arena, const char *text) {
  const char *small = small_letters(arena, text);
  if (ts_same(small, "y") || ts_same(small, "true")) return "yes";
  if (ts_same(small, "n") || ts_same(small, "false")) return "no";
  return small;
}

/* "Stunt performer" is stunt-performer; of a set, "mouth, eyes" is mouth eyes. */
static const char *choice_text(ts_arena *arena, ts_fact_type type, const char *text) {
  char *copy = small_letters(arena, text);
  for (char *c = copy; *c != '\0'; c++) {
    if (type == TS_SET && strchr(",;", *c) != NULL) *c = ' ';
    if (type != TS_SET && *c == ' ' && strchr(copy, '|') == NULL) *c = '-';
  }
  return copy;
}

/* ---- together ------------------------------------------------------------------------- */

static const char *text_of_words(const ts_import *import, const ts_known_fact *fact,
                                 const ts_import_form *form, const char *text, const char *where) {
  if (text[0] == '=') {
    ts_import_fail(import, where, "holds a formula, \"%s\", and not a value", text);
    return NULL;
  }
  switch (fact->def->type) {
  case TS_QUANTITY:
  case TS_COUNT: return number_text(import, fact, form, text, where);
  case TS_DATE:
  case TS_DAY: return date_text(import, form, text, where);
  case TS_CLOCK: return half_day_text(import, text);
  case TS_FLAG: return flag_text(import->arena, text);
  case TS_CHOICE:
  case TS_SET:
  case TS_KIND_WORD: return choice_text(import->arena, fact->def->type, text);
  default: return text;
  }
}

static const char *text_of(const ts_import *import, const ts_known_fact *fact,
                           const ts_import_form *form, const ts_cell *cell, const char *where) {
  const char *words = ts_import_words(import, cell);
  if (cell->kind == TS_CELL_FAULT) {
    ts_import_fail(import, where, "holds an error of the spreadsheet, \"%s\"", words);
    return NULL;
  }
  if (cell->kind == TS_CELL_TEXT) return text_of_words(import, fact, form, words, where);
  if (cell->kind == TS_CELL_NUMBER) return with_unit(import, fact, form, words, where);
  if (cell->kind == TS_CELL_DATE && fact->def->type == TS_CLOCK)
    return clock_text(import, form, cell, where);
  if (cell->kind == TS_CELL_TIME && fact->def->type == TS_QUANTITY && fact->dim == TS_TIME)
    return duration_text(import, cell->number);
  return words;
}

const char *ts_import_value(const ts_import *import, const ts_known_fact *fact,
                            const ts_import_form *form, const ts_cell *cell, const char *where,
                            ts_value *value) {
  ts_fact_type type = fact->def->type;
  ts_place place = {import->problems, where, 0};
  const char *text = text_of(import, fact, form, cell, where);
  *value = fact->unknown;
  if (text == NULL || type == TS_ID || type == TS_REF || type == TS_REFS) return text;
  return ts_value_read(import->dossier->units, import->arena, fact, text, value, &place) ? text
                                                                                         : NULL;
}
