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

/* ---- values ------------------------------------------------------------------- */

const char *ts_paper_number(ts_paper *paper, const ts_fact_def *fact, ts_range range) {
  return ts_show_number(paper->dossier, fact, range, paper->arena);
}

/* How far off something is needs two digits, three from 100 on. Times in parts stay. */
static const char *coarse(ts_paper *paper, const char *text) {
  double value = 0;
  char number[64];
  const char *rest = ts_number_read(text, &value);
  if (rest == NULL || strpbrk(rest, "0123456789") != NULL) return text;
  return ts_arena_printf(paper->arena, "%s%s",
                         ts_number_round(value, value < 100 ? 2 : 3, number, sizeof number), rest);
}

const char *ts_paper_difference(ts_paper *paper, const ts_fact_def *fact, double si) {
  return coarse(paper, ts_show_difference(paper->dossier, fact, si, paper->arena));
}

const char *ts_paper_value(ts_paper *paper, const ts_fact_def *fact, const ts_value *value) {
  return ts_show_value(paper->dossier, fact, value, paper->arena);
}

const char *ts_paper_fact(ts_paper *paper, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(paper->dossier, slot);
  const ts_value *value = ts_slot_value(paper->dossier, slot);
  if (value->state == TS_UNKNOWN && !fact->derived) return "not known";
  return ts_paper_value(paper, fact, value);
}

const char *ts_paper_plausible(ts_paper *paper, const ts_fact_def *fact) {
  if (fact->type == TS_FLAG) return "yes or no";
  if (fact->type == TS_CHOICE || fact->type == TS_SET) {
    ts_value all = {.choices = ~0ULL, .certain = ~0ULL};
    return ts_paper_value(paper, fact, &all);
  }
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
