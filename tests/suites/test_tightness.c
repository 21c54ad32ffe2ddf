/* A worst score that no world can have frightens for nothing: how many of those that open facts
 * lead to are met by a world that is drawn, and what narrowing has to do with it.
 *
 * A world that gives the worst is looked for first anywhere in the dossier, then among what each
 * course that says it leaves possible. */
#include "shipped_world.h"

#include "base/text.h"
#include <check.h>
#include <stdio.h>
#include <stdlib.h>

enum { PLAIN = 30, IN_COURSE = 10, COURSES = 64 };

static bool in_short(void) { return getenv("TANKSIDE_TEST_SHORT") != NULL; }

typedef struct {
  shipped_world s;
  draws luck;
  ts_evaluator *plain; /* without narrowing */
  heard loose;         /* what the pair in hand says without narrowing */
  int reached[64];     /* by hazard of `loose`: the worst that a world gave */
  size_t with, with_reached, without, without_reached;
} hunt;

/* ---- findings ----------------------------------------------------------------------------- */

static bool is_open(const heard *all, const heard_word *w) {
  return w->word == TS_HAZARD && (w->best < w->worst || w->courses < all->courses);
}

/* What is said where not all courses were seen is the worst that the rule declares. */
static int worst_of(const hunt *h, const shipped_pair *pair, const heard *all,
                    const heard_word *w) {
  const ts_rule *rule = ts_rule_at(h->s.w.packs, pair->rule);
  int declared = rule->worst_likelihood * rule->worst_severity;
  return all->unresolved && declared > w->worst ? declared : w->worst;
}

static int *reached_for(hunt *h, const char *about) {
  const heard_word *w = heard_find(&h->loose, TS_HAZARD, about);
  ck_assert_msg(w != NULL, "narrowing brings up something new");
  return &h->reached[w - h->loose.at];
}

/* ---- worlds ------------------------------------------------------------------------------- */

static const box_fact *open_fact(const hunt *h, uint32_t slot) {
  size_t lo = 0, hi = h->s.open.count;
  while (lo < hi) {
    size_t middle = (lo + hi) / 2;
    if (h->s.open.at[middle].slot < slot)
      lo = middle + 1;
    else
      hi = middle;
  }
  return lo < h->s.open.count && h->s.open.at[lo].slot == slot ? &h->s.open.at[lo] : NULL;
}

/* A point for each open fact that the rule reads; the rest of the world bears on nothing here. */
static void put_anywhere(hunt *h, const ts_evaluation *seen, draw_where where) {
  for (size_t i = 0; i < seen->read_count; i++) {
    const box_fact *f = open_fact(h, seen->reads[i]);
    if (f != NULL)
      ts_variant_put(h->s.variant, f->slot, draw_point(&h->luck, f, &h->s.turns, where));
  }
}

static void put_bound(hunt *h, const ts_bound *bound, draw_where where) {
  const box_fact *f = open_fact(h, bound->slot);
  if (f == NULL) return; /* a derived fact follows from others */
  box_fact within = *f;
  if (bound->member != 0) {
    uint64_t bit = UINT64_C(1) << (bound->member - 1);
    within.wide = *ts_slot_value(h->s.variant, bound->slot);
    within.wide.choices =
        bound->choices & 2 ? within.wide.choices | bit : within.wide.choices & ~bit;
    within.wide.certain =
        bound->choices & 2 ? within.wide.certain | bit : within.wide.certain & ~bit;
  } else if (bound->number) {
    within.wide.range = bound->range;
  } else {
    within.wide.choices = bound->choices;
  }
  ts_variant_put(h->s.variant, bound->slot, draw_point(&h->luck, &within, &h->s.turns, where));
}

static void look(hunt *h, const shipped_pair *pair) {
  if (shipped_world_hear(&h->s, h->s.drawn, pair) == NULL) return;
  for (size_t i = 0; i < h->s.said.count; i++) {
    const heard_word *w = &h->s.said.at[i];
    /* A course that is open even at a point is no world. */
    if (w->word != TS_HAZARD || h->s.said.courses > 1) continue;
    int *reached = reached_for(h, w->about);
    if (w->worst > *reached) *reached = w->worst;
  }
}

/* ---- searching ---------------------------------------------------------------------------- */

static bool says(const ts_course *course, const heard_word *w, int score) {
  for (size_t i = 0; i < course->outcome_count; i++) {
    const ts_outcome *out = &course->outcomes[i];
    if (out->word == w->word && ts_same(out->about, w->about) &&
        out->likelihood * out->severity == score)
      return true;
  }
  return false;
}

/* Worlds within each course that gives the worst of one hazard, until one is met. */
static void search_courses(hunt *h, const shipped_pair *pair, const ts_evaluation *seen,
                           const heard_word *w) {
  size_t tried = 0;
  for (size_t i = 0; i < seen->course_count && tried < COURSES; i++) {
    const ts_course *course = &seen->courses[i];
    if (!says(course, w, w->worst)) continue;
    tried++;
    for (size_t k = 0; k < IN_COURSE && *reached_for(h, w->about) < w->worst; k++) {
      put_anywhere(h, seen, draw_where_of(k));
      for (size_t b = 0; b < course->bound_count; b++)
        put_bound(h, &course->bounds[b], draw_where_of(k));
      look(h, pair);
    }
  }
}

static void search(hunt *h, const shipped_pair *pair, ts_evaluator *evaluator, const heard *all) {
  const ts_evaluation *seen = ts_evaluate(evaluator, pair->rule, pair->subject, NULL, 0);
  for (size_t k = 0; k < PLAIN; k++) {
    put_anywhere(h, seen, draw_where_of(k));
    look(h, pair);
  }
  for (size_t i = 0; i < all->count; i++)
    if (is_open(all, &all->at[i])) search_courses(h, pair, seen, &all->at[i]);
}

static void count(hunt *h, const shipped_pair *pair, const heard *all, size_t *open,
                  size_t *reached) {
  for (size_t i = 0; i < all->count; i++) {
    const heard_word *w = &all->at[i];
    if (!is_open(all, w)) continue;
    (*open)++;
    *reached += *reached_for(h, w->about) >= worst_of(h, pair, all, w);
  }
}

static void hunt_pair(hunt *h, const shipped_pair *pair) {
  ck_assert_ptr_nonnull(shipped_world_hear(&h->s, h->plain, pair));
  const heard *loose = heard_keep(h->s.w.arena, &h->s.said);
  h->loose = *loose;
  ck_assert_uint_lt(loose->count, sizeof h->reached / sizeof *h->reached);
  for (size_t i = 0; i < loose->count; i++) h->reached[i] = 0;
  if (loose->courses < 2 && !loose->unresolved) return;
  search(h, pair, h->s.whole, pair->wide);
  search(h, pair, h->plain, loose);
  count(h, pair, pair->wide, &h->with, &h->with_reached);
  count(h, pair, loose, &h->without, &h->without_reached);
}

static void hunt_production(hunt *h, int production, unsigned forget) {
  shipped_world_open(&h->s, production, forget);
  h->plain = ts_evaluator_new(h->s.w.packs, h->s.known);
  ts_evaluator_narrow(h->plain, false);
  size_t stride = in_short() ? 8 : 1;
  for (size_t i = 0; i < h->s.pair_count; i += stride) hunt_pair(h, &h->s.pairs[i]);
  ts_evaluator_free(h->plain);
  shipped_world_close(&h->s);
}

static double percent(size_t part, size_t whole) {
  return whole > 0 ? 100.0 * (double)part / (double)whole : 100;
}

/* With the dossiers as written, and with much of them forgotten. */
static const unsigned forgets[] = {0, 40};

START_TEST(worst_scores_are_met_by_a_world) {
  hunt h = {.luck = {20270313}};
  for (int i = 0; i < (in_short() ? 1 : SHIPPED_PRODUCTIONS); i++)
    hunt_production(&h, i, forgets[_i]);
  double with = percent(h.with_reached, h.with);
  double without = percent(h.without_reached, h.without);
  printf("tight%s: with narrowing %zu/%zu (%.1f %%), without %zu/%zu (%.1f %%)\n",
         forgets[_i] > 0 ? ", much forgotten" : "", h.with_reached, h.with, with, h.without_reached,
         h.without, without);
  ck_assert_uint_gt(h.with, 0);
  ck_assert_double_gt(with, 90);
  ck_assert_double_ge(with, without);
}
END_TEST

Suite *suite_tightness(void);

Suite *suite_tightness(void) {
  Suite *suite = suite_create("tightness");
  TCase *cases = tcase_create("tightness");
  tcase_set_timeout(cases, 540);
  tcase_add_loop_test(cases, worst_scores_are_met_by_a_world, 0, sizeof forgets / sizeof *forgets);
  suite_add_tcase(suite, cases);
  return suite;
}
