/* Facts and controls in words. */
#include "assess/scope.h"
#include "document/assessment.h"
#include "quantity/calendar.h"
#include <math.h>
#include <string.h>

const char *ts_paper_yes(bool yes) { return yes ? "yes" : "no"; }

const char *ts_paper_title(ts_paper *paper, const char *name) {
  char *title = ts_arena_copy(paper->arena, name);
  for (char *c = title; *c != '\0'; c++)
    if (*c == '-' || *c == '_') *c = ' ';
  return title;
}

/* ---- dates and clocks -------------------------------------------------------- */

const char *ts_paper_date(ts_paper *paper, double seconds) {
  char text[32];
  return ts_arena_copy(paper->arena, ts_date_write(seconds, text, sizeof text));
}

const char *ts_paper_day(ts_paper *paper, double seconds) {
  char text[32];
  int weekday = ts_weekday((int64_t)floor(seconds / TS_DAY_SECONDS));
  return ts_arena_printf(paper->arena, "%s %s", ts_weekday_name(weekday),
                         ts_date_show(seconds, text, sizeof text));
}

static const char *clock_text(ts_paper *paper, double seconds) {
  char text[32];
  return ts_arena_copy(paper->arena, ts_clock_show(seconds, text, sizeof text));
}

/* ---- values ------------------------------------------------------------------- */

static const char *moments(ts_paper *paper, ts_range range,
                           const char *(*one)(ts_paper *, double)) {
  const char *low = one(paper, range.lo), *high = one(paper, range.hi);
  return ts_same(low, high) ? low : ts_arena_printf(paper->arena, "%s..%s", low, high);
}

static const char *shown(ts_paper *paper, ts_range range, ts_dim dim, const char *unit) {
  char text[128];
  ts_system system = ts_dossier_units(paper->dossier);
  ts_quantity_show(paper->a->in.units, range, dim, unit, system, text, sizeof text);
  return ts_arena_copy(paper->arena, text);
}

static const char *unit_of(const ts_paper *paper, const ts_fact_def *fact) {
  bool us = ts_dossier_units(paper->dossier) == TS_US && fact->unit_us != NULL;
  return us ? fact->unit_us : fact->unit;
}

const char *ts_paper_number(ts_paper *paper, const ts_fact_def *fact, ts_range range) {
  if (fact->type == TS_DATE || fact->type == TS_DAY) return moments(paper, range, ts_paper_date);
  if (fact->type == TS_CLOCK) return moments(paper, range, clock_text);
  return shown(paper, range, ts_fact_dim(paper->vocabulary, fact), unit_of(paper, fact));
}

/* A kind set apart by its scale has its own differences: 1.5 K, and 20 min between moments. */
const char *ts_paper_difference(ts_paper *paper, const ts_fact_def *fact, double si) {
  ts_dim dim = ts_fact_dim(paper->vocabulary, fact);
  bool point = dim == TS_TEMPERATURE || dim == TS_MOMENT;
  ts_range range = {fabs(si), fabs(si)};
  if (point) return shown(paper, range, dim & ~TS_POINT, NULL);
  return shown(paper, range, dim, unit_of(paper, fact));
}

/* Words of a choice or a set. A choice that is open reads "a or b"; a set lists
 * its members, those that are not certain with a question mark. */
static const char *words(ts_paper *paper, const ts_fact_def *fact, uint64_t may, uint64_t must) {
  ts_text text = {0};
  bool set = fact->type == TS_SET;
  const char *at = fact->choices;
  for (unsigned bit = 0; at != NULL && *(at += strspn(at, " ")) != '\0'; bit++) {
    size_t length = strcspn(at, " ");
    if (may >> bit & 1) {
      if (text.length > 0) ts_text_add(&text, set ? ", " : " or ");
      ts_text_add_n(&text, at, length);
      if (set && !(must >> bit & 1)) ts_text_add(&text, "?");
    }
    at += length;
  }
  char *copy = ts_arena_copy(paper->arena, text.length > 0 ? text.data : "none");
  ts_text_release(&text);
  return set ? copy : ts_paper_title(paper, copy);
}

const char *ts_paper_value(ts_paper *paper, const ts_fact_def *fact, const ts_value *value) {
  switch (fact->type) {
  case TS_FLAG: return value->choices == 3 ? "not known" : ts_paper_yes(value->choices & 2);
  case TS_CHOICE:
  case TS_SET: return words(paper, fact, value->choices, value->certain);
  case TS_QUANTITY:
  case TS_COUNT:
  case TS_DATE:
  case TS_CLOCK: return ts_paper_number(paper, fact, value->range);
  default: return value->text; /* structure and text, as written */
  }
}

const char *ts_paper_fact(ts_paper *paper, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(paper->dossier, slot);
  const ts_value *value = ts_slot_value(paper->dossier, slot);
  if (value->state == TS_UNKNOWN && !fact->derived) return "not known";
  return ts_paper_value(paper, fact, value);
}

const char *ts_paper_plausible(ts_paper *paper, const ts_fact_def *fact) {
  if (fact->type == TS_FLAG) return "yes or no";
  if (fact->type == TS_CHOICE || fact->type == TS_SET) return words(paper, fact, ~0ULL, ~0ULL);
  return ts_paper_number(paper, fact, ts_fact_plausible(paper->vocabulary, fact));
}

const char *ts_paper_state(const ts_paper *paper, uint32_t slot) {
  static const char *const names[] = {"stated", "unknown", "set"};
  if (ts_slot_fact(paper->dossier, slot)->derived) return "derived";
  return names[ts_slot_value(paper->dossier, slot)->state];
}

const char *ts_paper_sees(const ts_fact_def *fact) {
  static const char *const names[] = {"open", "crew", "confidential"};
  return names[fact->sees];
}

/* ---- finding facts ------------------------------------------------------------- */

uint32_t ts_paper_slot(const ts_paper *paper, ts_subject subject, const char *name) {
  const ts_subject_info *info = ts_subject_at(paper->dossier, subject);
  size_t count = ts_fact_count(paper->vocabulary, info->entity);
  for (size_t i = 0; i < count; i++)
    if (ts_same(ts_fact_at(paper->vocabulary, info->entity, i)->name, name))
      return info->slot + (uint32_t)i;
  return UINT32_MAX;
}

const char *ts_paper_known(ts_paper *paper, ts_subject subject, const char *name) {
  uint32_t slot = ts_paper_slot(paper, subject, name);
  if (slot == UINT32_MAX || ts_slot_assumed(paper->dossier, slot)) return NULL;
  return ts_paper_fact(paper, slot);
}

const char *ts_paper_label(const ts_paper *paper, ts_subject subject) {
  return paper->a->labels[subject];
}

const char *ts_paper_path(const ts_paper *paper, ts_subject subject) {
  return ts_subject_at(paper->dossier, subject)->path;
}

const char *ts_paper_path_to(const ts_paper *paper, ts_subject subject, const char *field) {
  ts_subject there = ts_leads_to(paper->dossier, subject, field);
  return there == TS_NO_SUBJECT ? NULL : ts_paper_path(paper, there);
}

/* ---- controls -------------------------------------------------------------------- */

static void add_change(ts_paper *paper, ts_text *text, const ts_change *change, const char *to) {
  static const char *const hows[] = {"at most ", "at least ", ""};
  if (text->length > 0) ts_text_add(text, "; ");
  ts_text_addf(text, "%s %s%s", ts_paper_title(paper, change->fact), hows[change->how],
               to != NULL ? to : change->text);
}

const char *ts_paper_changes(ts_paper *paper, const ts_control *control, const char *to) {
  ts_text text = {0};
  for (size_t i = 0; i < control->change_count; i++)
    add_change(paper, &text, &control->changes[i], i == 0 ? to : NULL);
  const char *copy = ts_arena_copy(paper->arena, text.data);
  ts_text_release(&text);
  return copy;
}

const char *ts_paper_lowers(ts_paper *paper, int likelihood, int severity) {
  if (likelihood > 0 && severity > 0)
    return ts_arena_printf(paper->arena, "likelihood −%d, severity −%d", likelihood, severity);
  if (likelihood > 0) return ts_arena_printf(paper->arena, "likelihood −%d", likelihood);
  if (severity > 0) return ts_arena_printf(paper->arena, "severity −%d", severity);
  return NULL;
}
