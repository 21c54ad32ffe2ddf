/* Two assessments that are at hand, compared by way of what may differ between them.
 *
 * The comparison itself is that of two documents (compare.c). Of findings, duties and facts that
 * are as they were it says nothing, so those are not written. What is left out here is what is
 * the same bit for bit; whether the rest differs for a reader is said there. */
#include "document/assessment.h"
#include "document/compare.h"
#include "tankside/document.h"

#include <stdlib.h>
#include <string.h>

typedef struct {
  ts_arena *arena;
  const ts_assessment *made[BOTH];
  ts_paper_some some[BOTH];
} differ;

/* ---- facts ------------------------------------------------------------------------------ */

/* A fact that is stated is listed whether some finding rests on it or not; others only then. */
static bool listed_on_one_side(const differ *d, uint32_t slot) {
  const ts_dossier *dossier = d->made[NEW]->in.dossier;
  bool read = d->made[OLD]->read[slot] != d->made[NEW]->read[slot];
  return read && (ts_slot_fact(dossier, slot)->derived || ts_slot_assumed(dossier, slot));
}

/* Those whose value may be another, or that are listed on one side alone. */
static void find_facts(differ *d) {
  const ts_dossier *dossier = d->made[NEW]->in.dossier;
  bool *subjects = ts_arena_alloc(d->arena, ts_subject_count(dossier) + 1);
  bool *facts = ts_slots_changed(d->made[OLD]->in.dossier, dossier, d->arena);
  for (uint32_t slot = 0; slot < ts_slot_count(dossier); slot++) {
    facts[slot] = facts[slot] || listed_on_one_side(d, slot);
    if (facts[slot]) subjects[ts_slot_subject(dossier, slot)] = true;
  }
  for (int s = OLD; s < BOTH; s++) d->some[s].facts = facts, d->some[s].subjects = subjects;
}

/* What nobody has said yet, by slot, in a list of things to ask. */
static bool *unknown_in(differ *d, int side) {
  const ts_assessment *a = d->made[side];
  bool *unknown = ts_arena_alloc(d->arena, ts_slot_count(a->in.dossier) + 1);
  for (size_t i = 0; i < a->open_count; i++)
    unknown[a->open[i].slot] = ts_slot_assumed(a->in.dossier, a->open[i].slot);
  return unknown;
}

/* Those that are asked for on one side alone. */
static void find_questions(differ *d) {
  bool *old = unknown_in(d, OLD), *new = unknown_in(d, NEW);
  for (uint32_t slot = 0; slot < ts_slot_count(d->made[NEW]->in.dossier); slot++)
    new[slot] = new[slot] != old[slot];
  d->some[OLD].asked = d->some[NEW].asked = new;
}

/* ---- findings --------------------------------------------------------------------------- */

static int by_text(const char *a, const char *b) { return strcmp(a ? a : "", b ? b : ""); }

/* Of two duties that a rule says of one subject: where the law asks for them. */
static int by_law(const ts_finding *a, const ts_finding *b) {
  const ts_outcome *x = ts_finding_said(a)->same, *y = ts_finding_said(b)->same;
  int is = by_text(x->instrument, y->instrument);
  return is != 0 ? is : by_text(x->section, y->section);
}

/* By what they are known by on both sides. */
static int order(const ts_finding *a, const ts_finding *b) {
  if (a->subject != b->subject) return a->subject < b->subject ? -1 : 1;
  if (a->rule != b->rule) return a->rule < b->rule ? -1 : 1;
  if (a->word != b->word) return a->word < b->word ? -1 : 1;
  int is = strcmp(a->about, b->about);
  return is != 0 ? is : by_law(a, b);
}

static int compare(const void *left, const void *right) {
  return order(*(const ts_finding *const *)left, *(const ts_finding *const *)right);
}

static const ts_finding **sorted(differ *d, const ts_finding *all, size_t count) {
  const ts_finding **at = ts_arena_alloc(d->arena, (count + 1) * sizeof *at);
  for (size_t i = 0; i < count; i++) at[i] = &all[i];
  qsort(at, count, sizeof *at, compare);
  return at;
}

static bool same_score(ts_score a, ts_score b) {
  return a.likelihood == b.likelihood && a.severity == b.severity && a.rank == b.rank;
}

static bool stands_the_same(const ts_finding *a, const ts_finding *b) {
  for (int v = 0; v < TS_VIEWS; v++) {
    const ts_case *x = &a->view[v], *y = &b->view[v];
    if (!same_score(x->standing.worst, y->standing.worst) ||
        !same_score(x->standing.best, y->standing.best) ||
        x->standing.certainty != y->standing.certainty || x->duty != y->duty)
      return false;
  }
  return true;
}

/* Marks those that do not stand the same on both sides, or stand on one alone. */
static void find_those(differ *d, const ts_finding *const all[BOTH], const size_t count[BOTH],
                       const bool **marked[BOTH]) {
  const ts_finding **at[BOTH];
  bool *marks[BOTH];
  size_t i = 0, k = 0;
  for (int s = OLD; s < BOTH; s++) {
    at[s] = sorted(d, all[s], count[s]);
    *marked[s] = marks[s] = ts_arena_alloc(d->arena, count[s] + 1);
  }
  while (i < count[OLD] || k < count[NEW]) {
    int is = i == count[OLD] ? 1 : k == count[NEW] ? -1 : order(at[OLD][i], at[NEW][k]);
    bool alike = is == 0 && stands_the_same(at[OLD][i], at[NEW][k]);
    if (is <= 0) marks[OLD][at[OLD][i++] - all[OLD]] = !alike;
    if (is >= 0) marks[NEW][at[NEW][k++] - all[NEW]] = !alike;
  }
}

static void find_findings(differ *d) {
  const ts_assessment *const *a = d->made;
  find_those(d, (const ts_finding *const[]){a[OLD]->findings, a[NEW]->findings},
             (const size_t[]){a[OLD]->finding_count, a[NEW]->finding_count},
             (const bool **[]){&d->some[OLD].findings, &d->some[NEW].findings});
  find_those(d, (const ts_finding *const[]){a[OLD]->duties, a[NEW]->duties},
             (const size_t[]){a[OLD]->duty_count, a[NEW]->duty_count},
             (const bool **[]){&d->some[OLD].duties, &d->some[NEW].duties});
}

/* ---- both ------------------------------------------------------------------------------- */

static bool values_alone(const ts_assessment *const made[BOTH]) {
  const ts_assess_inputs *old = &made[OLD]->in, *new = &made[NEW]->in;
  if (old->packs != new->packs || old->matrix != new->matrix) return false;
  return ts_dossiers_alike(old->dossier, new->dossier);
}

bool ts_compare_made(const ts_assessment *const made[2], char **xml, size_t *length,
                     ts_diagnostics *problems) {
  static const char *const names[] = {"as it was", "as it is"};
  differ d = {.arena = ts_arena_new(), .made = {made[OLD], made[NEW]}};
  char *bytes[BOTH];
  size_t lengths[BOTH];
  if (values_alone(made)) find_facts(&d), find_questions(&d), find_findings(&d);
  for (int s = OLD; s < BOTH; s++)
    ts_assessment_write_some(made[s], d.some[s], &bytes[s], &lengths[s]);
  ts_arena_free(d.arena);
  bool good = ts_compare((const char *const *)bytes, lengths, names, xml, length, problems);
  for (int s = OLD; s < BOTH; s++) free(bytes[s]);
  return good;
}
