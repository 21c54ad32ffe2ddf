#include "assess/search.h"
#include "base/sort.h"
#include "base/text.h"
#include <math.h>
#include <stdlib.h>

enum { PLACES = 64, COURSES = 64, HALVINGS = 60, DIGITS = 9 };

static const double beside = 1e-9; /* relative: how near to a place its two sides are tried */
static const double close_in =
    4e-9; /* relative: what two sides of a place are apart, and a little */

bool ts_search_at(const ts_search *s, double x, ts_stand *stand) {
  ts_variant_put(s->probe->variant, s->slot, ts_value_point(x));
  const ts_tallies *tallies = ts_probe_try(s->probe, s->pair);
  if (tallies == NULL) return false;
  *stand = ts_stands(tallies, s->word, s->about);
  return true;
}

void ts_search_done(const ts_search *s) {
  ts_variant_put(s->probe->variant, s->slot, *ts_slot_value(s->probe->a->in.dossier, s->slot));
}

/* ---- what the courses of the whole stretch tell --------------------------------------- */

/* A course of the stretch: where the number lies on it, and how things stand if it is taken. */
typedef struct {
  ts_range box;
  ts_stand stand;
  ts_answers answers;
  bool answered; /* `answers` are there */
} leg;

typedef struct {
  const ts_search *search;
  leg legs[COURSES];
  size_t count;
  double slack; /* what the tolerance of comparisons may put on the other side of a box's end */
} outlook;

/* Only those courses are possible at x whose box holds it, for narrowing leaves nothing possible
 * out. Gives the first of those at which a hazard stands worst, and whether all stand alike; NULL
 * where there is none. */
static const leg *worst_at(const outlook *o, double x, bool *alike) {
  const leg *worst = NULL;
  *alike = true;
  for (size_t i = 0; i < o->count; i++) {
    const leg *l = &o->legs[i];
    if (x < l->box.lo - o->slack || x > l->box.hi + o->slack) continue;
    *alike = *alike && (worst == NULL || ts_same_stand(o->search->word, worst->stand, l->stand));
    if (worst == NULL || l->stand.rank > worst->stand.rank) worst = l;
  }
  return worst;
}

/* Whether it is sure that nothing is met at x: where all courses that may be possible there stand
 * alike, or where the worst of them is possible, by which a hazard stands. */
static bool denied(const outlook *o, double x) {
  const ts_search *s = o->search;
  bool alike;
  const leg *worst = worst_at(o, x, &alike);
  if (worst == NULL || s->met(s->context, worst->stand)) return false;
  if (alike) return true;
  if (s->word != TS_HAZARD || !worst->answered) return false;
  ts_variant_put(s->probe->variant, s->slot, ts_value_point(x));
  return ts_probe_sees(s->probe, s->pair, &worst->answers);
}

/* Met at x; a rule that fails there meets nothing. */
static bool met_at(const outlook *o, double x, ts_stand *stand) {
  const ts_search *s = o->search;
  return !denied(o, x) && ts_search_at(s, x, stand) && s->met(s->context, *stand);
}

static ts_range box_on(const ts_course *course, uint32_t slot) {
  ts_range box = {-INFINITY, INFINITY};
  for (size_t i = 0; i < course->bound_count; i++)
    if (course->bounds[i].slot == slot && course->bounds[i].number) box = course->bounds[i].range;
  return box;
}

/* Of the evaluation over the stretch. A number that controls change is not seen as it is given:
 * there boxes tell nothing of it. */
static void keep_legs(outlook *o, ts_range all) {
  const ts_search *s = o->search;
  const ts_evaluation *seen = s->probe->evaluation;
  if (seen->unresolved || seen->course_count > COURSES) return;
  if (ts_probe_changes(s->probe, s->pair, s->slot)) return;
  o->slack = 4e-12 * fmax(fabs(all.lo), fabs(all.hi));
  o->count = seen->course_count;
  for (size_t i = 0; i < seen->course_count; i++) {
    const ts_tallies *alone = ts_probe_tally(s->probe, s->pair, i);
    leg *l = &o->legs[i];
    l->box = box_on(&seen->courses[i], s->slot);
    l->stand = ts_stands(alone, s->word, s->about);
    l->answered = ts_course_answers(s->probe->evaluator, i, &l->answers);
  }
}

/* ---- places where something can change ---------------------------------------------- */

typedef struct {
  double at[PLACES];
  size_t count;
} places;

static void add_place(places *p, double x, double from, double to) {
  double low = fmin(from, to), high = fmax(from, to);
  if (x > low && x < high && p->count < PLACES) p->at[p->count++] = x;
}

static bool near(double a, double b) { return fabs(a - b) <= beside * fmax(fabs(a), fabs(b)); }

/* In the order in which they are met on the way, each once. */
static void put_in_order(places *p, bool upward) {
  ts_sort_numbers(p->at, p->count);
  size_t kept = 0;
  for (size_t i = 0; i < p->count; i++)
    if (kept == 0 || !near(p->at[kept - 1], p->at[i])) p->at[kept++] = p->at[i];
  p->count = kept;
  for (size_t i = 0; !upward && i < kept / 2; i++) {
    double swap = p->at[i];
    p->at[i] = p->at[kept - 1 - i];
    p->at[kept - 1 - i] = swap;
  }
}

/* Settles that nothing is met on the whole stretch, or gives the places to look at. */
static bool look_over(outlook *o, double from, double to, places *found) {
  const ts_search *s = o->search;
  ts_range all = {fmin(from, to), fmax(from, to)};
  ts_variant_put(s->probe->variant, s->slot, ts_value_range(all));
  const ts_tallies *tallies = ts_probe_try(s->probe, s->pair);
  if (tallies == NULL) return true; /* it fails somewhere on the way: look point by point */
  const ts_tally *tally = ts_tally_find(tallies, s->word, s->about);
  const ts_evaluation *evaluation = s->probe->evaluation;
  bool settled = tally != NULL ? tally->standing.settled : !evaluation->unresolved;
  if (settled && !s->met(s->context, ts_stands(tallies, s->word, s->about))) return false;
  for (size_t c = 0; c < evaluation->course_count; c++)
    for (size_t i = 0; i < evaluation->courses[c].bound_count; i++) {
      const ts_bound *bound = &evaluation->courses[c].bounds[i];
      if (bound->slot != s->slot || !bound->number) continue;
      add_place(found, bound->range.lo, from, to);
      add_place(found, bound->range.hi, from, to);
    }
  put_in_order(found, to > from);
  keep_legs(o, all);
  return true;
}

/* ---- closing in ------------------------------------------------------------------------ */

/* Between `not_met` and `met` lies a change. */
typedef struct {
  double not_met, met;
  ts_stand then; /* at `met` */
} gap;

/* Tries a value within it: one of its ends moves there, and it is known on which side the change
 * is. */
static bool try_within(const outlook *o, gap *g, double x) {
  ts_stand stand;
  bool is_met = met_at(o, x, &stand);
  if (is_met)
    g->met = x, g->then = stand;
  else
    g->not_met = x;
  return is_met;
}

/* Where narrowing inverts a function it names a place a little past the change: the change is
 * looked for close to where it is met, then further away. */
static void look_beside(const outlook *o, gap *g) {
  double place = g->met, way = g->not_met - place, step = 25 * close_in * fabs(place);
  while (step > 0 && step < fabs(way) / 32 && try_within(o, g, place + copysign(step, way)))
    step *= 32;
}

/* The number with the fewest digits between the two: a round threshold stands for itself, and not
 * for what the tolerance of comparisons leaves beside it. */
static double roundest(const gap *g) {
  double low = fmin(g->met, g->not_met), high = fmax(g->met, g->not_met);
  for (int digits = 1; digits < DIGITS; digits++) {
    double x = ts_number_digits(g->met, digits);
    if (x >= low && x <= high) return x;
  }
  return ts_number_digits(g->met, DIGITS);
}

/* Halves until the two are as near as the two sides of a place (they are, where narrowing named
 * it). The edge itself is tried. */
static void close_on(const outlook *o, gap g, double scale, ts_found *found) {
  double nothing = 1e-10 * scale; /* beside the whole stretch, as good as zero */
  look_beside(o, &g);
  for (int i = 0; i < HALVINGS; i++) {
    double middle = g.not_met + (g.met - g.not_met) / 2, size = fmax(fabs(g.met), fabs(g.not_met));
    if (fabs(g.met - g.not_met) <= fmax(close_in * size, nothing / 4)) break;
    if (middle == g.met || middle == g.not_met) break;
    try_within(o, &g, middle);
  }
  ts_stand stand;
  found->first = g.met;
  found->then = g.then;
  found->edge = fabs(g.met) <= nothing ? 0 : roundest(&g);
  found->included = met_at(o, found->edge, &stand);
}

/* The same for numbers that come in steps: counted from `not_met`. */
static void close_on_steps(const outlook *o, gap g, double step, ts_found *found) {
  double start = g.not_met, towards = g.met > start ? step : -step;
  double low = 0, high = nearbyint((g.met - start) / towards);
  while (high - low > 1) {
    double middle = floor((low + high) / 2);
    if (try_within(o, &g, start + middle * towards))
      high = middle;
    else
      low = middle;
  }
  found->edge = found->first = start + high * towards;
  found->included = true;
  found->then = g.then;
}

/* ---- the way ------------------------------------------------------------------------------ */

typedef struct {
  const outlook *outlook;
  double last; /* the last value known not to meet it */
  double step;
  double from, to;
  ts_found *found;
} walk;

/* Tries one value further on; true when the change has been found and closed in on. */
static bool walk_to(walk *w, double x) {
  ts_stand stand;
  bool upward = w->to > w->last;
  if (upward ? x > w->to : x < w->to) x = w->to;
  if (upward ? x <= w->last : x >= w->last) return false;
  if (!met_at(w->outlook, x, &stand)) {
    w->last = x;
    return false;
  }
  gap g = {w->last, x, stand};
  if (w->step > 0)
    close_on_steps(w->outlook, g, w->step, w->found);
  else
    close_on(w->outlook, g, fabs(w->to - w->from), w->found);
  return true;
}

static double on_step(const walk *w, double x) {
  if (w->step == 0) return x;
  double towards = w->to > w->from ? w->step : -w->step;
  return w->from + ceil((x - w->from) / towards) * towards;
}

/* One stretch up to a place and just past it. */
static bool walk_past(walk *w, double place) {
  double sign = w->to > w->from ? 1 : -1, side = sign * beside * fmax(fabs(place), 1e-9);
  if (w->step > 0) {
    double at = on_step(w, place);
    return walk_to(w, at - sign * w->step) || walk_to(w, at) || walk_to(w, at + sign * w->step);
  }
  return walk_to(w, w->last + (place - w->last) / 2) || walk_to(w, place - side) ||
         walk_to(w, place + side);
}

static bool walk_all(walk *w, const places *p) {
  for (size_t i = 0; i < p->count; i++)
    if (walk_past(w, p->at[i])) return true;
  return walk_to(w, on_step(w, w->last + (w->to - w->last) / 2)) || walk_to(w, w->to);
}

bool ts_search_first(const ts_search *search, double from, double to, ts_found *found) {
  places p = {.count = 0};
  outlook o;
  o.search = search;
  o.count = 0;
  walk w = {.outlook = &o, .last = from, .from = from, .to = to, .found = found};
  w.step = ts_slot_step(ts_slot_fact(search->probe->variant, search->slot));
  if (w.step > 0) w.to = from + trunc((to - from) / w.step) * w.step;
  bool good = from != w.to && look_over(&o, from, w.to, &p) && walk_all(&w, &p);
  ts_search_done(search);
  return good;
}
