#include "assess/ways.h"
#include "assess/margins.h"
#include "assess/scope.h"
#include "assess/search.h"
#include "base/text.h"
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { PAIRS_KEPT = 6, BEARING_MAX = 256 };

typedef struct {
  ts_probe *probe;
  ts_assessment *a;
  ts_finding *finding;
  size_t pair;
  ts_ways_found *found;
} guide;

static bool above(const guide *g, ts_stand stand) {
  return ts_stands_above(g->a->in.matrix, g->finding->word, stand);
}

/* How the finding would stand; false when the rule fails then. */
static bool would_stand(const guide *g, const ts_try *tried, ts_stand *stand) {
  ts_try_begin(g->probe, tried);
  const ts_tallies *tallies = ts_probe_try(g->probe, g->pair);
  if (tallies != NULL) *stand = ts_stands(tallies, g->finding->word, g->finding->about);
  ts_try_end(g->probe, tried);
  return tallies != NULL;
}

/* Keeps the change if it is enough; false when it is not. */
static bool keep_if_enough(guide *g, const ts_try *tried, bool edge_included, bool upward) {
  ts_ways_found *all = g->found;
  ts_way way = {.edge_included = edge_included, .upward = upward};
  if (!would_stand(g, tried, &way.then) || above(g, way.then)) return false;
  TS_GROW(all->at, all->count, all->capacity);
  all->at[all->count++] = (ts_way_found){*tried, way};
  return true;
}

/* ---- moving one number ---------------------------------------------------------------- */

typedef struct {
  const guide *guide;
  bool wanted; /* searched for: above the line, or not */
} side_of_line;

static bool on_side(const void *context, ts_stand stand) {
  const side_of_line *s = context;
  return above(s->guide, stand) == s->wanted;
}

static ts_try move_to(uint32_t slot, ts_value value) {
  return (ts_try){.slot = slot, .value = value, .scope = TS_NO_SUBJECT};
}

static const ts_margin *margin_on(const guide *g, uint32_t slot, ts_side_of side) {
  for (size_t i = 0; i < g->finding->margin_count; i++) {
    const ts_margin *margin = &g->finding->margins[i];
    if (margin->slot == slot && margin->side == side) return margin;
  }
  return NULL;
}

/* Without a margin on its side it is above the line on all of it, if it is so at the beginning. */
static bool stays_above(const guide *g, const ts_search *search, double from) {
  ts_stand stand = ts_stands_now(g->finding);
  ts_range now = ts_slot_value(g->a->in.dossier, search->slot)->range;
  bool known = now.lo == now.hi || ts_search_at(search, from, &stand);
  ts_search_done(search);
  return known && above(g, stand);
}

/* The nearest value that is enough: where the margin is, if that leads below the line. */
static bool find_below(const guide *g, ts_search search, ts_side_of side, ts_range way,
                       ts_found *found) {
  side_of_line below = {g, false};
  const ts_margin *margin = margin_on(g, search.slot, side);
  search.context = &below;
  if (margin == NULL && stays_above(g, &search, way.lo)) return false;
  if (margin == NULL || above(g, margin->then) || !above(g, margin->before))
    return ts_search_first(&search, way.lo, way.hi, found);
  *found = (ts_found){margin->edge, margin->included, margin->beyond, margin->then};
  return true;
}

/* Outward from what it is now; `way` is from where to where. */
static void move_outward(guide *g, ts_search search, ts_side_of side, ts_range way) {
  ts_found found;
  if (!find_below(g, search, side, way, &found)) return;
  ts_try tried = move_to(search.slot, ts_value_point(found.included ? found.edge : found.first));
  keep_if_enough(g, &tried, found.included, way.hi > way.lo);
}

/* A range that is enough at one end only: as much of it as is enough. */
static bool move_inward(guide *g, ts_search search, double from, double to) {
  side_of_line over = {g, true};
  ts_stand stand;
  ts_found found;
  search.context = &over;
  bool enough = ts_search_at(&search, from, &stand) && !above(g, stand);
  ts_search_done(&search);
  if (!enough || !ts_search_first(&search, from, to, &found)) return false;
  double step = ts_slot_step(ts_slot_fact(g->a->in.dossier, search.slot));
  double back = step > 0 ? step : 2e-9 * fmax(fabs(found.edge), 1e-9);
  double last = !found.included ? found.edge : to > from ? found.edge - back : found.edge + back;
  ts_try tried =
      move_to(search.slot, ts_value_range((ts_range){fmin(from, last), fmax(from, last)}));
  return keep_if_enough(g, &tried, !found.included || step > 0, to < from);
}

static void move_number(guide *g, uint32_t slot) {
  const ts_dossier *dossier = g->a->in.dossier;
  ts_range now = ts_slot_value(dossier, slot)->range;
  ts_range all = ts_fact_plausible(ts_dossier_vocabulary(dossier), ts_slot_fact(dossier, slot));
  ts_search search = {.probe = g->probe,
                      .pair = g->pair,
                      .slot = slot,
                      .word = g->finding->word,
                      .about = g->finding->about,
                      .met = on_side};
  bool inward = now.lo < now.hi && move_inward(g, search, now.lo, now.hi);
  inward = now.lo < now.hi && (move_inward(g, search, now.hi, now.lo) || inward);
  if (inward) return;
  if (now.lo > all.lo) move_outward(g, search, TS_DOWN, (ts_range){now.lo, all.lo});
  if (now.hi < all.hi) move_outward(g, search, TS_UP, (ts_range){now.hi, all.hi});
}

/* ---- another answer --------------------------------------------------------------------- */

static void move_choice(guide *g, uint32_t slot, size_t choices) {
  uint64_t now = ts_slot_value(g->a->in.dossier, slot)->choices;
  for (size_t i = 0; i < choices; i++) {
    uint64_t bit = (uint64_t)1 << i;
    if (now == bit) continue;
    ts_try tried = move_to(slot, ts_value_choice(bit));
    keep_if_enough(g, &tried, true, false);
  }
}

/* One member of a set put in or taken out. */
static void move_member(guide *g, uint32_t slot, size_t choices) {
  const ts_value *now = ts_slot_value(g->a->in.dossier, slot);
  for (size_t i = 0; i < choices; i++)
    for (int in = 0; in <= 1; in++) {
      uint64_t bit = (uint64_t)1 << i;
      ts_value value = *now;
      value.choices = in ? value.choices | bit : value.choices & ~bit;
      value.certain = in ? value.certain | bit : value.certain & ~bit;
      value.state = TS_SET_BY_USER;
      if (value.choices == now->choices && value.certain == now->certain) continue;
      ts_try tried = move_to(slot, value);
      keep_if_enough(g, &tried, true, in == 1);
    }
}

static size_t choice_count(const ts_fact_def *fact) {
  if (fact->type == TS_FLAG) return 2;
  size_t count = 0;
  for (const char *at = fact->choices; at != NULL && *at != '\0';) {
    at += strspn(at, " ");
    count += *at != '\0';
    at += strcspn(at, " ");
  }
  return count;
}

static void move_fact(guide *g, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(g->a->in.dossier, slot);
  if (fact->derived || ts_fact_is_given(fact)) return;
  if (ts_slot_is_number(g->a->in.dossier, slot)) move_number(g, slot);
  if (fact->type == TS_FLAG || fact->type == TS_CHOICE) move_choice(g, slot, choice_count(fact));
  if (fact->type == TS_SET) move_member(g, slot, choice_count(fact));
}

static void move_facts(guide *g) {
  ts_arena *scratch = ts_arena_new();
  size_t count;
  const uint32_t *slots = ts_rests_on(g->a, g->finding, scratch, &count);
  for (size_t i = 0; i < count; i++) move_fact(g, slots[i]);
  ts_arena_free(scratch);
}

/* ---- controls ------------------------------------------------------------------------------ */

ts_subject ts_control_place(const ts_dossier *dossier, ts_subject subject) {
  ts_subject task = ts_leads_to(dossier, subject, "task");
  if (task != TS_NO_SUBJECT) return task;
  bool made = ts_same(ts_subject_at(dossier, subject)->entity->name, "person-day");
  return made ? ts_leads_to(dossier, subject, "day") : subject;
}

/* Some controls, in order, with room for one more. */
typedef struct {
  const ts_control *at[BEARING_MAX + 1];
  size_t count;
} bearing;

static void add_control(const ts_probe *p, const ts_finding *f, const ts_control *control,
                        bearing *list) {
  if (control == NULL || list->count == BEARING_MAX) return;
  if (ts_applied_here(p->a->in.dossier, control->id, f->subject, TS_IN_PLACE) != NULL) return;
  for (size_t i = 0; i < list->count; i++)
    if (list->at[i] == control) return;
  list->at[list->count++] = control;
}

static bool changes_any(const ts_probe *p, const ts_control *control, const ts_pair *pair) {
  ts_effect effect = {.control = control, .scope = 0, .here = true};
  return ts_effects_reach(p->variant, &effect, 1, pair->reads, pair->read_count);
}

int ts_control_order(const void *left, const void *right) {
  const ts_control *a = *(const ts_control *const *)left, *b = *(const ts_control *const *)right;
  return a->kind != b->kind ? (int)a->kind - (int)b->kind : strcmp(a->id, b->id);
}

static void gather_bearing(const ts_probe *p, const ts_finding *finding, bearing *list) {
  const ts_case *now = &finding->view[TS_IN_PLACE];
  for (size_t i = 0; now->worst != NULL && i < now->worst->same->control_count; i++)
    add_control(p, finding, ts_control_find(p->in.packs, now->worst->same->controls[i]), list);
  size_t pair = ts_pair_of(p->a, finding);
  for (size_t i = 0; pair != SIZE_MAX && i < ts_control_count(p->in.packs); i++) {
    const ts_control *control = ts_control_at(p->in.packs, i);
    if (control->change_count > 0 && changes_any(p, control, &p->a->pairs[pair]))
      add_control(p, finding, control, list);
  }
  if (list->count > 1) qsort(list->at, list->count, sizeof *list->at, ts_control_order);
}

const ts_control *const *ts_bearing_controls(ts_probe *p, const ts_finding *finding,
                                             size_t *count) {
  const ts_control *const **kept = &p->bearing[finding - p->a->findings];
  if (*kept == NULL) {
    bearing list;
    list.count = 0;
    gather_bearing(p, finding, &list);
    list.at[list.count] = NULL;
    *kept = ts_pool_keep(p->pool, list.at, (list.count + 1) * sizeof *list.at);
  }
  for (*count = 0; (*kept)[*count] != NULL;) ++*count;
  return *kept;
}

/* Pairs of what is not enough alone, cheapest first: the sum of their places decides. */
static void add_pairs(guide *g, const ts_control **insufficient, size_t count, ts_subject scope) {
  size_t kept = 0;
  for (size_t sum = 1; sum + 2 < 2 * count && kept < PAIRS_KEPT; sum++)
    for (size_t i = 0; 2 * i < sum && kept < PAIRS_KEPT; i++) {
      size_t k = sum - i;
      if (k >= count || k <= i) continue;
      ts_try tried = {.slot = TS_NO_SLOT,
                      .controls = {insufficient[i], insufficient[k]},
                      .control_count = 2,
                      .scope = scope};
      kept += keep_if_enough(g, &tried, true, false);
    }
}

static bool is_named(const ts_finding *finding, const ts_control *control) {
  const ts_outcome *said = finding->view[TS_IN_PLACE].worst->same;
  for (size_t i = 0; i < said->control_count; i++)
    if (ts_same(said->controls[i], control->id)) return true;
  return false;
}

static void add_controls(guide *g) {
  ts_arena *scratch = ts_arena_new();
  size_t count, insufficient = 0;
  ts_subject scope = ts_control_place(g->a->in.dossier, g->finding->subject);
  const ts_control *const *all = ts_bearing_controls(g->probe, g->finding, &count);
  const ts_control **alone = ts_arena_alloc(scratch, (count + 1) * sizeof *alone);
  for (size_t i = 0; i < count; i++) {
    if (g->finding->too_open && (!is_named(g->finding, all[i]) || ts_probe_is_spent(g->probe)))
      continue;
    ts_try tried = {.slot = TS_NO_SLOT, .controls = {all[i]}, .control_count = 1, .scope = scope};
    if (!keep_if_enough(g, &tried, true, false)) alone[insufficient++] = all[i];
  }
  if (insufficient > 1 && !g->finding->too_open) add_pairs(g, alone, insufficient, scope);
  ts_arena_free(scratch);
}

/* ---- all of them ---------------------------------------------------------------------------- */

void ts_ways(ts_probe *probe, ts_assessment *a, ts_finding *finding, ts_ways_found *found) {
  guide g = {probe, a, finding, ts_pair_of(a, finding), found};
  if (g.pair == SIZE_MAX || !above(&g, ts_stands_now(finding))) return;
  finding->too_open = finding->too_open || ts_probe_is_spent(probe);
  if (!finding->too_open) move_facts(&g);
  finding->move_count = (uint32_t)found->count;
  add_controls(&g);
}

void ts_ways_list(ts_assessment *a, ts_shifts *shifts, ts_finding *finding, ts_ways_found *found) {
  if (found->count == 0) return;
  finding->way_count = (uint32_t)found->count;
  finding->ways = ts_arena_alloc(a->arena, found->count * sizeof *finding->ways);
  for (size_t i = 0; i < found->count; i++) {
    finding->ways[i] = found->at[i].way;
    finding->ways[i].does = ts_shifts_of(shifts, &found->at[i].tried, finding);
  }
  free(found->at);
}

/* ---- moves in order -------------------------------------------------------------------------- */

/* How far a move goes, as part of what is plausible; another answer is no way at all. */
static double distance(const ts_dossier *dossier, const ts_way *way) {
  uint32_t slot = way->does->slot;
  if (!ts_slot_is_number(dossier, slot)) return 0;
  ts_range now = ts_slot_value(dossier, slot)->range, then = way->does->value->range;
  ts_range all = ts_fact_plausible(ts_dossier_vocabulary(dossier), ts_slot_fact(dossier, slot));
  double off = way->upward ? then.lo - now.hi : now.lo - then.hi;
  return fmax(off, 0) / fmax(all.hi - all.lo, 1e-300);
}

/* What makes least worse elsewhere first, and of such the nearest. */
static bool goes_before(const ts_dossier *dossier, const ts_way *a, const ts_way *b) {
  if (a->does->worse_count != b->does->worse_count)
    return a->does->worse_count < b->does->worse_count;
  return distance(dossier, a) < distance(dossier, b);
}

void ts_ways_sort(const ts_assessment *a, ts_finding *finding) {
  ts_way *ways = finding->ways;
  for (size_t i = 1; i < finding->move_count; i++)
    for (size_t k = i; k > 0 && goes_before(a->in.dossier, &ways[k], &ways[k - 1]); k--) {
      ts_way swap = ways[k];
      ways[k] = ways[k - 1];
      ways[k - 1] = swap;
    }
}
