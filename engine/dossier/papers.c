/* Figures about the papers of a dossier: evidence, controls in place, waivers. A reviewer asks
 * for them; rules read them as facts of the production. None of them depends on another fact:
 * to learn a fact must not change how it is known. */
#include "dossier/world.h"

/* ---- dates ----------------------------------------------------------------- */

static double revised_on(const ts_dossier *d) {
  return ts_world_value(d, ts_world_slot(d, 0, "on"))->range.lo;
}

/* A date that has been read before, in seconds; `otherwise` where there is none. */
static double moment(const ts_dossier *d, const char *date, double otherwise) {
  char why[64];
  ts_range range;
  ts_dim dim;
  bool read = date && ts_quantity_read(d->units, date, &range, &dim, why, sizeof why);
  return read ? range.lo : otherwise;
}

/* ---- evidence ---------------------------------------------------------------- */

static double evidence_count(const ts_dossier *d) { return (double)d->evidence_count; }

static double evidence_estimates(const ts_dossier *d) {
  double count = 0;
  for (size_t i = 0; i < d->evidence_count; i++) count += ts_same(d->evidence[i].kind, "estimate");
  return count;
}

static double evidence_without_reference(const ts_dossier *d) {
  double count = 0;
  for (size_t i = 0; i < d->evidence_count; i++)
    count += !d->evidence[i].ref || !*d->evidence[i].ref;
  return count;
}

static double evidence_age(const ts_dossier *d) {
  double now = revised_on(d), oldest = now;
  for (size_t i = 0; i < d->evidence_count; i++) {
    double on = moment(d, d->evidence[i].on, now);
    if (ts_same(d->evidence[i].kind, "measured") && on < oldest) oldest = on;
  }
  return now - oldest;
}

/* ---- controls ------------------------------------------------------------------ */

static double controls_in_place(const ts_dossier *d) {
  double count = 0;
  for (size_t i = 0; i < d->control_count; i++) count += d->controls[i].in_place;
  return count;
}

static double controls_without_evidence(const ts_dossier *d) {
  double count = 0;
  for (size_t i = 0; i < d->control_count; i++) {
    const ts_applied_control *control = &d->controls[i];
    count += control->in_place && (!control->evidence || !*control->evidence);
  }
  return count;
}

static double controls_unchecked(const ts_dossier *d) {
  double count = 0;
  for (size_t i = 0; i < d->control_count; i++)
    count += d->controls[i].claimed && !d->controls[i].in_place;
  return count;
}

/* ---- waivers ----------------------------------------------------------------------- */

static double waiver_count(const ts_dossier *d) { return (double)d->waiver_count; }

static double waivers_refused(const ts_dossier *d) {
  double count = 0;
  for (size_t i = 0; i < d->waiver_count; i++) count += !d->waivers[i].valid;
  return count;
}

static double waivers_by_author(const ts_dossier *d) {
  double count = 0;
  const char *author = ts_world_text(d, 0, "by");
  for (size_t i = 0; i < d->waiver_count; i++) count += author && ts_same(d->waivers[i].by, author);
  return count;
}

static double waiver_reach(const ts_dossier *d) {
  double now = revised_on(d), last = now;
  for (size_t i = 0; i < d->waiver_count; i++) {
    double until = moment(d, d->waivers[i].until, now);
    if (until > last) last = until;
  }
  return last - now;
}

/* ---- the table ------------------------------------------------------------------------ */

static const struct {
  const char *fact;
  double (*figure)(const ts_dossier *);
} rows[] = {
    {"evidence-count", evidence_count},
    {"evidence-estimates", evidence_estimates},
    {"evidence-without-reference", evidence_without_reference},
    {"evidence-age", evidence_age},
    {"controls-in-place", controls_in_place},
    {"controls-without-evidence", controls_without_evidence},
    {"controls-unchecked", controls_unchecked},
    {"waiver-count", waiver_count},
    {"waivers-refused", waivers_refused},
    {"waivers-by-author", waivers_by_author},
    {"waiver-reach", waiver_reach},
};

double ts_papers_figure(const ts_dossier *dossier, const char *fact) {
  while (dossier->of) dossier = dossier->of;
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    if (ts_same(rows[i].fact, fact)) return rows[i].figure(dossier);
  return 0;
}
