/* Values of facts as a reader sees them. */
#include "base/text.h"
#include "dossier/world.h"
#include "quantity/calendar.h"

#include <math.h>
#include <string.h>

/* ---- numbers ----------------------------------------------------------- */

static const char *date_text(ts_arena *arena, double seconds) {
  char text[32];
  return ts_arena_copy(arena, ts_date_write(seconds, text, sizeof text));
}

static const char *clock_text(ts_arena *arena, double seconds) {
  char text[32];
  return ts_arena_copy(arena, ts_clock_show(seconds, text, sizeof text));
}

static const char *moments(ts_arena *arena, ts_range range,
                           const char *(*one)(ts_arena *, double)) {
  const char *low = one(arena, range.lo), *high = one(arena, range.hi);
  return ts_same(low, high) ? low : ts_arena_printf(arena, "%s..%s", low, high);
}

static const char *shown(const ts_dossier *dossier, ts_range range, ts_dim dim, const char *unit,
                         ts_arena *arena) {
  char text[128];
  ts_quantity_show(dossier->units, range, dim, unit, dossier->system, text, sizeof text);
  return ts_arena_copy(arena, text);
}

static const char *unit_of(const ts_dossier *dossier, const ts_fact_def *fact) {
  bool us = dossier->system == TS_US && fact->unit_us != NULL;
  return us ? fact->unit_us : fact->unit;
}

const char *ts_show_number(const ts_dossier *dossier, const ts_fact_def *fact, ts_range range,
                           ts_arena *arena) {
  if (fact->type == TS_DATE || fact->type == TS_DAY) return moments(arena, range, date_text);
  if (fact->type == TS_CLOCK) return moments(arena, range, clock_text);
  ts_dim dim = ts_fact_dim(dossier->vocabulary, fact);
  return shown(dossier, range, dim, unit_of(dossier, fact), arena);
}

const char *ts_show_difference(const ts_dossier *dossier, const ts_fact_def *fact, double si,
                               ts_arena *arena) {
  ts_dim dim = ts_fact_dim(dossier->vocabulary, fact);
  bool point = dim == TS_TEMPERATURE || dim == TS_MOMENT;
  ts_range range = {fabs(si), fabs(si)};
  if (point) return shown(dossier, range, dim & ~TS_POINT, NULL, arena);
  return shown(dossier, range, dim, unit_of(dossier, fact), arena);
}

/* ---- words --------------------------------------------------------------- */

/* A choice that is open reads "a or b"; a set lists its members, those that are
 * not certain with a question mark. */
static const char *words(const ts_fact_def *fact, uint64_t may, uint64_t must, ts_arena *arena) {
  ts_text text = {0};
  bool set = fact->type == TS_SET;
  const char *at = fact->choices;
  for (unsigned bit = 0; at != NULL && *(at += strspn(at, " ")) != '\0'; bit++) {
    size_t length = strcspn(at, " ");
    if (may >> bit & 1) {
      if (text.length > 0) ts_text_add(&text, set ? ", " : " or ");
      for (size_t i = 0; i < length; i++)
        ts_text_add_n(&text, !set && at[i] == '-' ? " " : &at[i], 1);
      if (set && !(must >> bit & 1)) ts_text_add(&text, "?");
    }
    at += length;
  }
  const char *copy = ts_arena_copy(arena, text.length > 0 ? text.data : "none");
  ts_text_release(&text);
  return copy;
}

const char *ts_show_value(const ts_dossier *dossier, const ts_fact_def *fact, const ts_value *value,
                          ts_arena *arena) {
  switch (fact->type) {
  case TS_FLAG: return value->choices == 3 ? "not known" : value->choices & 2 ? "yes" : "no";
  case TS_CHOICE:
  case TS_SET: return words(fact, value->choices, value->certain, arena);
  case TS_QUANTITY:
  case TS_COUNT:
  case TS_DATE:
  case TS_CLOCK: return ts_show_number(dossier, fact, value->range, arena);
  default: return value->text; /* structure and text, as written */
  }
}

const char *ts_show_form(const ts_dossier *dossier, const ts_fact_def *fact, ts_arena *arena) {
  if (fact->type == TS_FLAG) return "yes or no";
  if (fact->type == TS_DATE) return "a date, like 2027-03-09";
  if (fact->type == TS_CLOCK) return "a time of day, like 10:40";
  if (fact->type == TS_CHOICE) return ts_arena_printf(arena, "one of: %s", fact->choices);
  if (fact->type == TS_SET) return ts_arena_printf(arena, "none, or some of: %s", fact->choices);
  ts_range all = ts_fact_plausible(ts_dossier_vocabulary(dossier), fact);
  return ts_arena_printf(arena, "a value or a range (a..b, a ± b) within %s",
                         ts_show_number(dossier, fact, all, arena));
}
