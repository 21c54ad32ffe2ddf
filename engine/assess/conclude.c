#include "assess/conclude.h"
#include "assess/open.h"
#include "assess/scope.h"
#include "base/file.h"
#include "base/text.h"
#include <stdio.h>
#include <stdlib.h>

/* ---- words ----------------------------------------------------------------- */

const char *ts_word_name(ts_word word) {
  static const char *const names[] = {"hazard", "duty", "stop", "note"};
  return names[word];
}

const char *ts_duty_name(ts_duty_state state) {
  static const char *const names[] = {"met", "open", "not-met"};
  return names[state];
}

ts_view ts_finding_speaks(const ts_finding *finding) {
  int view = TS_AS_DESCRIBED;
  while (view < TS_AS_PLANNED && finding->view[view].worst == NULL) view++;
  return (ts_view)view;
}

const ts_spoken *ts_finding_said(const ts_finding *finding) {
  return finding->view[ts_finding_speaks(finding)].worst;
}

ts_outcome ts_finding_outcome(const ts_finding *finding) {
  return ts_spoken_outcome(ts_finding_said(finding));
}

/* ---- waivers --------------------------------------------------------------- */

static const char *nearest_rule(const ts_packs *packs, const char *id, bool *known) {
  size_t count = ts_rule_count(packs);
  const char **ids = ts_alloc((count + 1) * sizeof *ids);
  *known = false;
  for (size_t i = 0; i < count; i++) {
    ids[i] = ts_rule_at(packs, i)->id;
    *known = *known || ts_same(ids[i], id);
  }
  const char *near = ts_nearest(id, ids, count);
  free(ids);
  return near;
}

static void check_waiver(const ts_assessment *a, const ts_waiver *w, ts_diagnostics *problems) {
  bool known;
  const char *near = nearest_rule(a->in.packs, w->rule, &known), *file = w->file;
  if (known) return;
  if (a->in.folder != NULL) file = ts_path_join(a->arena, a->in.folder, file);
  ts_report(problems, TS_WARNING, file, w->line, "no rule \"%s\" to waive%s%s%s", w->rule,
            near ? "; the nearest name is \"" : "", near ? near : "", near ? "\"" : "");
}

static bool waives(const ts_assessment *a, const ts_waiver *w, const ts_finding *f) {
  if (!w->valid || !ts_same(w->rule, ts_rule_at(a->in.packs, f->rule)->id)) return false;
  if (w->subject == NULL) return true;
  ts_subject scope = ts_subject_find(a->in.dossier, w->subject);
  return scope != TS_NO_SUBJECT && ts_covers(a->in.dossier, scope, f->subject);
}

static void waive(const ts_assessment *a, ts_finding *findings, size_t count) {
  for (size_t i = 0; i < count; i++)
    for (size_t k = 0; k < ts_waiver_count(a->in.dossier); k++) {
      const ts_waiver *w = ts_waiver_at(a->in.dossier, k);
      /* Nothing lifts a stop but the facts. */
      if (findings[i].waiver == NULL && findings[i].word != TS_STOP && waives(a, w, &findings[i]))
        findings[i].waiver = w;
    }
}

/* ---- order ------------------------------------------------------------------- */

/* Stops, then hazards, then notes. */
static int word_order(ts_word word) { return word == TS_STOP ? 0 : word == TS_HAZARD ? 1 : 2; }

static int heat(const ts_finding *f) {
  const ts_standing *s = &f->view[TS_IN_PLACE].standing;
  if (f->word == TS_HAZARD) return s->worst.rank;
  return f->word == TS_DUTY ? (int)f->view[TS_IN_PLACE].duty : (int)s->certainty;
}

static int compare(const void *left, const void *right) {
  const ts_finding *a = left, *b = right;
  int order = word_order(a->word) - word_order(b->word);
  if (order == 0) order = heat(b) - heat(a);
  if (order == 0) order = (a->rule > b->rule) - (a->rule < b->rule); /* rules are ordered by id */
  if (order == 0) order = (a->subject > b->subject) - (a->subject < b->subject);
  if (order != 0) return order;
  for (const char *x = a->about, *y = b->about;; x++, y++) {
    if (*x != *y) return (unsigned char)*x - (unsigned char)*y;
    if (*x == '\0') return 0;
  }
}

static void put_in_order(ts_finding *findings, size_t count, char letter) {
  if (count > 0) qsort(findings, count, sizeof *findings, compare);
  for (size_t i = 0; i < count; i++)
    snprintf(findings[i].id, sizeof findings[i].id, "%c%u", letter, (unsigned)i + 1);
}

/* ---- counts ------------------------------------------------------------------ */

static bool above(const ts_assessment *a, const ts_finding *f) {
  ts_score worst = f->view[TS_IN_PLACE].standing.worst;
  return f->waiver == NULL && worst.likelihood > 0 &&
         ts_matrix_band(a->in.matrix, worst.likelihood, worst.severity)->above;
}

static void count_finding(ts_assessment *a, const ts_finding *f) {
  ts_summary *s = &a->summary;
  s->waived += f->waiver != NULL;
  s->stops += f->word == TS_STOP && f->view[TS_IN_PLACE].standing.certainty != TS_GONE;
  s->hazards += f->word == TS_HAZARD;
  s->notes += f->word == TS_REMARK;
  s->above += f->word == TS_HAZARD && above(a, f);
}

/* A waiver does not meet a duty: no production can waive what law asks of it. */
static void count_duty(ts_assessment *a, const ts_finding *f) {
  ts_summary *s = &a->summary;
  ts_duty_state state = f->view[TS_IN_PLACE].duty;
  s->waived += f->waiver != NULL;
  s->duties_met += state == TS_MET;
  s->duties_open += state == TS_UNDECIDED;
  s->duties_not_met += state == TS_NOT_MET;
}

static void count(ts_assessment *a) {
  for (size_t i = 0; i < a->finding_count; i++) count_finding(a, &a->findings[i]);
  for (size_t i = 0; i < a->duty_count; i++) count_duty(a, &a->duties[i]);
  a->summary.failed = a->failure_count;
  a->summary.complete = a->failure_count == 0;
}

/* A rule that names a control no pack has promises what nobody can look up. */
static void check_names(const ts_assessment *a, const ts_finding *f, ts_diagnostics *problems) {
  const ts_outcome *said = ts_finding_said(f)->same;
  const ts_rule *rule = ts_rule_at(a->in.packs, f->rule);
  for (size_t i = 0; i < said->control_count; i++)
    if (ts_control_find(a->in.packs, said->controls[i]) == NULL)
      ts_report(problems, TS_WARNING, ts_path_join(a->arena, rule->pack, rule->file), said->line,
                "rule \"%s\" names control \"%s\", which no pack has", rule->id, said->controls[i]);
}

void ts_conclude(ts_assessment *a, ts_diagnostics *problems) {
  for (size_t i = 0; i < ts_waiver_count(a->in.dossier); i++)
    check_waiver(a, ts_waiver_at(a->in.dossier, i), problems);
  for (size_t i = 0; i < a->finding_count; i++) check_names(a, &a->findings[i], problems);
  waive(a, a->findings, a->finding_count);
  waive(a, a->duties, a->duty_count);
  put_in_order(a->findings, a->finding_count, 'F');
  put_in_order(a->duties, a->duty_count, 'D');
  count(a);
  a->open = ts_open_facts(a, &a->open_count);
  for (size_t i = 0; i < a->open_count; i++)
    a->summary.open += ts_slot_value(a->in.dossier, a->open[i].slot)->state == TS_UNKNOWN;
}
