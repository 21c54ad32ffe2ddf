/* The same question as of the shipped rules, of rules by lot: is what is claimed as the worst the
 * worst that some world has, and how much of that is narrowing's doing.
 *
 * A world is looked for by drawing points of the box, then inside each course that says the worst,
 * as far as its bounds tell where that is. Both engines are measured by what either of them has
 * led to: an engine that cannot say where its worst lies is not held to have invented it. */
#include "heard.h"
#include "random_lab.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>

enum { RULES = 500, BOXES = 3, PLAIN = 300, IN_COURSE = 50, COURSES = 64, TARGETS = 16 };

static bool in_short(void) { return getenv("TANKSIDE_TEST_SHORT") != NULL; }

/* One hazard or stop, and the worst score that a world gave it: a stop has 1. */
typedef struct {
  ts_word word;
  const char *about;
  int reached;
} target;

typedef struct {
  size_t open, reached, courses, unresolved;
} tally;

typedef struct {
  random_lab w;
  ts_evaluator *narrow, *plain; /* with narrowing and without */
  ts_arena *boxed;              /* what lives as long as a box */
  heard said;
  target targets[TARGETS];
  size_t target_count;
  size_t pairs;
  tally with, without;
} hunt;

/* ---- what is claimed ---------------------------------------------------------------------- */

static bool counts(const heard_word *w) { return w->word == TS_HAZARD || w->word == TS_STOP; }

/* What is said where not all courses were seen is the worst that the rule declares. */
static int claimed(const hunt *h, size_t rule, const heard *all, const heard_word *w) {
  const ts_rule *r = ts_rule_at(h->w.packs, rule);
  int declared = all->unresolved ? r->worst_likelihood * r->worst_severity : 0;
  if (w->word == TS_STOP) return 1;
  return declared > w->worst ? declared : w->worst;
}

static bool is_open(const hunt *h, size_t rule, const heard *all, const heard_word *w) {
  return counts(w) && (w->courses < all->courses ||
                       (w->word == TS_HAZARD && w->best < claimed(h, rule, all, w)));
}

static bool any_open(const hunt *h, size_t rule, const heard *all) {
  for (size_t i = 0; i < all->count; i++)
    if (is_open(h, rule, all, &all->at[i])) return true;
  return false;
}

static target *target_of(hunt *h, ts_word word, const char *about) {
  for (size_t i = 0; i < h->target_count; i++)
    if (h->targets[i].word == word && ts_same(h->targets[i].about, about)) return &h->targets[i];
  ck_assert_uint_lt(h->target_count, TARGETS);
  h->targets[h->target_count] = (target){word, ts_arena_copy(h->boxed, about), 0};
  return &h->targets[h->target_count++];
}

/* ---- worlds ------------------------------------------------------------------------------- */

/* A function asked outside what it is valid for leaves a question open even at a point: what every
 * course there says, the world has for certain. */
static void look(hunt *h, size_t rule) {
  heard_take(&h->said, ts_evaluate(h->w.evaluator, rule, h->w.source.subject, NULL, 0));
  for (size_t i = 0; i < h->said.count; i++) {
    const heard_word *w = &h->said.at[i];
    int score = w->word == TS_STOP ? 1 : w->best;
    if (!counts(w) || w->courses < h->said.courses) continue;
    target *t = target_of(h, w->word, w->about);
    if (score > t->reached) t->reached = score;
  }
}

static const box_fact *fact_of(const random_rule *rule, uint32_t slot) {
  for (size_t i = 0; i < rule->reads.count; i++)
    if (rule->reads.at[i].slot == slot) return &rule->reads.at[i];
  return NULL;
}

static void put_bound(hunt *h, const random_rule *rule, const ts_bound *bound, draw_where where) {
  const box_fact *f = fact_of(rule, bound->slot);
  if (f == NULL) return; /* a derived fact follows from others */
  box_fact within = *f;
  if (bound->member != 0) { /* of a set one word is bound; the others stay as they were drawn */
    uint64_t bit = UINT64_C(1) << (bound->member - 1);
    within.wide = *ts_slot_value(h->w.variant, bound->slot);
    within.wide.choices &= ~bit;
    within.wide.certain &= ~bit;
    if (bound->choices & 2) within.wide.choices |= bit, within.wide.certain |= bit;
  } else if (bound->number) {
    within.wide.range = bound->range;
  } else {
    within.wide.choices = bound->choices;
  }
  ts_variant_put(h->w.variant, bound->slot, draw_point(&h->w.luck, &within, &rule->turns, where));
}

/* ---- searching ---------------------------------------------------------------------------- */

static bool says(const ts_course *course, const heard_word *w) {
  for (size_t i = 0; i < course->outcome_count; i++) {
    const ts_outcome *out = &course->outcomes[i];
    if (out->word == w->word && ts_same(out->about, w->about) &&
        (w->word == TS_STOP || out->likelihood * out->severity == w->worst))
      return true;
  }
  return false;
}

/* The middle of what the course leaves possible, then points of it by lot. */
static void search_course(hunt *h, size_t rule, const ts_course *course, const target *t,
                          int score) {
  for (size_t k = 0; k < IN_COURSE && t->reached < score; k++) {
    draw_where where = k == 0 ? DRAW_MIDDLE : draw_where_of(3 + k);
    random_lab_point(&h->w, rule, where);
    for (size_t b = 0; b < course->bound_count; b++)
      put_bound(h, &h->w.rules[rule], &course->bounds[b], where);
    look(h, rule);
  }
}

static void search(hunt *h, size_t rule, const ts_evaluation *seen, const heard *all) {
  for (size_t i = 0; i < all->count; i++) {
    const heard_word *w = &all->at[i];
    if (!is_open(h, rule, all, w)) continue;
    const target *t = target_of(h, w->word, w->about);
    size_t tried = 0;
    for (size_t k = 0; k < seen->course_count && tried < COURSES; k++) {
      if (!says(&seen->courses[k], w)) continue;
      search_course(h, rule, &seen->courses[k], t, w->word == TS_STOP ? 1 : w->worst);
      tried++;
    }
  }
}

static void count(hunt *h, size_t rule, const heard *all, tally *to) {
  to->courses += all->courses;
  to->unresolved += all->unresolved;
  for (size_t i = 0; i < all->count; i++) {
    const heard_word *w = &all->at[i];
    if (!is_open(h, rule, all, w)) continue;
    to->open++;
    to->reached += target_of(h, w->word, w->about)->reached >= claimed(h, rule, all, w);
  }
}

static const heard *hear(hunt *h, const ts_evaluation *seen) {
  heard_take(&h->said, seen);
  return heard_keep(h->boxed, &h->said);
}

static void hunt_box(hunt *h, size_t rule) {
  random_lab_box(&h->w, rule);
  ts_arena_free(h->boxed);
  h->boxed = ts_arena_new();
  h->target_count = 0;
  const ts_evaluation *narrow = ts_evaluate(h->narrow, rule, h->w.source.subject, NULL, 0);
  const ts_evaluation *plain = ts_evaluate(h->plain, rule, h->w.source.subject, NULL, 0);
  const heard *with = hear(h, narrow), *without = hear(h, plain);
  if (!any_open(h, rule, with) && !any_open(h, rule, without)) return;
  h->pairs++;
  for (size_t k = 0; k < PLAIN; k++) {
    random_lab_point(&h->w, rule, draw_where_of(k));
    look(h, rule);
  }
  search(h, rule, narrow, with);
  search(h, rule, plain, without);
  count(h, rule, with, &h->with);
  count(h, rule, without, &h->without);
}

/* ---- the test ----------------------------------------------------------------------------- */

static double percent(const tally *t) {
  return t->open > 0 ? 100.0 * (double)t->reached / (double)t->open : 100;
}

static double mean(size_t sum, size_t count) { return count > 0 ? (double)sum / (double)count : 0; }

static const struct {
  const char *name;
  random_write write;
} profiles[] = {{"random rules", random_rule_write}, {"linked rules", linked_rule_write}};

static void print_tallies(const hunt *h, const char *name) {
  printf("tight, %s: with narrowing %zu/%zu (%.1f %%), without %zu/%zu (%.1f %%); courses with "
         "%.1f, without %.1f; not all seen with %zu, without %zu of %zu\n",
         name, h->with.reached, h->with.open, percent(&h->with), h->without.reached,
         h->without.open, percent(&h->without), mean(h->with.courses, h->pairs),
         mean(h->without.courses, h->pairs), h->with.unresolved, h->without.unresolved, h->pairs);
}

START_TEST(narrowing_makes_worst_scores_real) {
  hunt *h = ts_alloc(sizeof *h);
  *h = (hunt){0};
  random_lab_open(&h->w, 20270315, in_short() ? RULES / 10 : RULES, profiles[_i].write);
  h->narrow = ts_evaluator_new(h->w.packs, h->w.variant);
  h->plain = ts_evaluator_new(h->w.packs, h->w.variant);
  ts_evaluator_narrow(h->plain, false);
  for (size_t i = 0; i < h->w.rule_count * BOXES; i++) hunt_box(h, i / BOXES);
  print_tallies(h, profiles[_i].name);
  ck_assert_uint_gt(h->with.open, 0);
  /* A tenth of the rules is a sample of some 130: three standard deviations are 8 %. */
  ck_assert_double_gt(percent(&h->with), in_short() ? 82 : 90);
  ck_assert_double_gt(percent(&h->with), percent(&h->without));
  ts_evaluator_free(h->narrow);
  ts_evaluator_free(h->plain);
  random_lab_close(&h->w);
  heard_free(&h->said);
  ts_arena_free(h->boxed);
  free(h);
}
END_TEST

Suite *suite_tightness_random(void);

Suite *suite_tightness_random(void) {
  Suite *suite = suite_create("tightness_random");
  TCase *cases = tcase_create("tightness_random");
  tcase_set_timeout(cases, 540);
  tcase_add_loop_test(cases, narrowing_makes_worst_scores_real, 0,
                      sizeof profiles / sizeof *profiles);
  suite_add_tcase(suite, cases);
  return suite;
}
