#include "random_writer.h"

#include <math.h>

/* ---- choosing facts ----------------------------------------------------------------- */

bool writer_is_number(const random_fact *f, const random_fact *like) {
  (void)like;
  return f->fact->type == TS_QUANTITY || f->fact->type == TS_COUNT;
}

bool writer_is_alike(const random_fact *f, const random_fact *like) {
  return writer_is_number(f, like) && f->dim == like->dim;
}

static bool is_made_of(const random_fact *f, const random_fact *like) {
  static const char *const names[] = {"born",  "start", "finish",      "down", "up",  "length",
                                      "width", "depth", "least-depth", "call", "wrap"};
  (void)like;
  for (size_t i = 0; i < sizeof names / sizeof *names; i++)
    if (ts_same(f->fact->name, names[i])) return true;
  return false;
}

static bool in_reach(const writer *w, const random_fact *f) {
  return f->list < 0 || f->list == w->list;
}

/* One of all facts that pass, or NULL. */
const random_fact *writer_any(writer *w, fact_test test, const random_fact *like) {
  const random_source *s = w->from;
  const random_fact *found = NULL;
  size_t passed = 0;
  for (size_t i = 0; i < s->count; i++) {
    const random_fact *f = &s->facts[i];
    if (in_reach(w, f) && test(f, like) && below(w, ++passed) == 0) found = f;
  }
  return found;
}

void writer_reads(writer *w, const random_fact *f) {
  box *reads = &w->rule->reads;
  for (size_t i = 0; i < f->slot_count; i++) {
    bool there = ts_slot_fact(w->from->world, f->slots[i])->derived;
    for (size_t k = 0; k < reads->count; k++) there = there || reads->at[k].slot == f->slots[i];
    if (!there) box_add(reads, w->from->world, f->slots[i]);
  }
}

/* Writes the fact, and notes what has to be drawn for it. */
void writer_fact(writer *w, const random_fact *f) {
  put(w, f->text);
  if (f->fact->type == TS_DAY) return;
  writer_reads(w, f);
  for (size_t i = 0; f->fact->derived && i < w->from->count; i++)
    if (is_made_of(&w->from->facts[i], f)) writer_reads(w, &w->from->facts[i]);
}

/* ---- constants ---------------------------------------------------------------------- */

double writer_constant(writer *w, const char *text) {
  ts_range range = {0, 0};
  ts_dim dim;
  char why[200];
  ts_text_addf(&w->text, "q\"%s\"", text);
  if (ts_quantity_read(w->from->units, text, &range, &dim, why, sizeof why))
    anchors_add(&w->rule->turns, dim, range.lo);
  return range.lo;
}

/* A round value between the two, which are in SI, in the unit. Returns it. */
double writer_between(writer *w, const char *unit, ts_range si, bool whole) {
  double zero = 0, one = 1;
  char number[40], text[80], why[200];
  ts_dim dim;
  if (*unit != '\0') {
    ts_unit_convert(w->from->units, unit, 0, &zero, &dim, why, sizeof why);
    ts_unit_convert(w->from->units, unit, 1, &one, &dim, why, sizeof why);
  }
  double lo = (si.lo - zero) / (one - zero), hi = (si.hi - zero) / (one - zero);
  double share = draw_unit(w->luck);
  if (chance(w, 75)) share = share * share * share;
  double x = lo + (hi - lo) * share;
  ts_number_round(whole ? floor(x) : x, 2, number, sizeof number);
  snprintf(text, sizeof text, "%s%s%s", number, *unit ? " " : "", unit);
  return writer_constant(w, text);
}

void writer_threshold(writer *w, const random_fact *f) {
  writer_between(w, f->fact->unit, f->plausible, f->fact->type == TS_COUNT);
}

void writer_order(writer *w) {
  static const char *const orders[] = {" < ", " <= ", " > ", " >= "};
  put(w, orders[below(w, 4)]);
}

/* ---- statements --------------------------------------------------------------------- */

void writer_change(writer *w) {
  static const char *const changes[] = {"l = l + 1", "l = l + 2",     "l = l - 1",
                                        "s = s + 1", "s = max(s, 4)", "l = min(l, 2)"};
  put(w, changes[below(w, 6)]);
}

void writer_hazard(writer *w, const char *about) {
  put(w, "hazard { likelihood = min(5, max(1, l)), severity = min(5, max(1, s)), because = \"b\"");
  if (about != NULL) ts_text_addf(&w->text, ", about = %s", about);
  put(w, " }");
}

void writer_open_rule(writer *w, unsigned number) {
  ts_text_addf(&w->text,
               "rule { id = \"random.r%04u\", title = \"t\", each = \"immersion\", "
               "harm = \"h\", sources = { \"s\" },\n",
               number);
}

void writer_close_rule(writer *w) {
  put(w, "  ");
  writer_hazard(w, NULL);
  put(w, "\n end }\n");
  w->rule->text = ts_arena_copy(w->from->arena, w->text.data);
  ts_text_release(&w->text);
}
