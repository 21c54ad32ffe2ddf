/* Questions, on a demo production half of whose facts are forgotten.
 *
 * The first question must be the best one there is: every other open fact is tried with many
 * more answers than the questions try, and none takes more away. The first three together
 * must beat any other three. And what an answer is said to take away is what a whole new
 * assessment with that answer takes away. */
#include "assess/probe.h"
#include "assess_world.h"

#include "base/text.h"
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { GRID = 24, RIVALS = 7, STOP = 25 };

static bool short_run(void) { return getenv("TANKSIDE_TEST_SHORT") != NULL; }

typedef struct {
  assess_world world;
  ts_assessment *a;
  ts_probe *probe;
  int *base; /* by pair: what it weighs as things are, -1 before it is known */
} scene;

/* Every other stated fact is forgotten, as a dossier half filled in would have it. */
static void forget_half(ts_dossier *dossier, ts_diagnostics *problems) {
  size_t seen = 0;
  for (uint32_t slot = 0; slot < ts_slot_count(dossier); slot++) {
    const ts_fact_def *fact = ts_slot_fact(dossier, slot);
    char path[256];
    if (fact->derived || fact->type < TS_QUANTITY) continue;
    if (ts_slot_value(dossier, slot)->state == TS_UNKNOWN || seen++ % 2) continue;
    ck_assert(
        ts_dossier_set(dossier, ts_slot_path(dossier, slot, path, sizeof path), "?", problems));
  }
}

static int weight_of_findings(const ts_finding *all, size_t count) {
  int sum = 0;
  for (size_t i = 0; i < count; i++) {
    const ts_standing *now = &all[i].view[TS_IN_PLACE].standing;
    if (all[i].word == TS_HAZARD) sum += now->worst.likelihood * now->worst.severity;
    if (all[i].word == TS_STOP && now->certainty != TS_GONE) sum += STOP;
  }
  return sum;
}

static int weight_of_pair(scene *s, size_t pair) {
  const ts_tallies *tallies = ts_probe_try(s->probe, pair);
  int sum = 0;
  for (size_t i = 0; tallies != NULL && i < tallies->count; i++) {
    const ts_tally *t = &tallies->at[i];
    if (t->word == TS_HAZARD) sum += t->standing.worst.likelihood * t->standing.worst.severity;
    if (t->word == TS_STOP) sum += STOP;
  }
  return sum;
}

/* What pairs weigh as things are is worked out once. Call with the variant as the dossier is. */
static void know_base(scene *s, uint32_t slot) {
  for (uint32_t i = s->probe->pairs_from[slot]; i < s->probe->pairs_from[slot + 1]; i++) {
    size_t pair = s->probe->pairs_of[i];
    if (s->base[pair] < 0) s->base[pair] = weight_of_pair(s, pair);
  }
}

/* What the values now laid in the variant take away, over the pairs that read any of the slots. */
static int taken_away(scene *s, const uint32_t *slots, size_t count) {
  int away = 0;
  for (size_t k = 0; k < count; k++)
    for (uint32_t i = s->probe->pairs_from[slots[k]]; i < s->probe->pairs_from[slots[k] + 1]; i++) {
      size_t pair = s->probe->pairs_of[i];
      bool counted = false;
      for (size_t e = 0; e < k; e++)
        for (uint32_t j = s->probe->pairs_from[slots[e]]; j < s->probe->pairs_from[slots[e] + 1];
             j++)
          counted = counted || s->probe->pairs_of[j] == pair;
      if (!counted) away += s->base[pair] - weight_of_pair(s, pair);
    }
  return away;
}

static void put_back(scene *s, uint32_t slot) {
  ts_variant_put(s->probe->variant, slot, *ts_slot_value(s->a->in.dossier, slot));
}

/* ---- one fact, many answers -------------------------------------------------------------- */

static int try_answer(scene *s, uint32_t slot, ts_value value, int best) {
  ts_variant_put(s->probe->variant, slot, value);
  int away = taken_away(s, &slot, 1);
  return away > best ? away : best;
}

static int best_of_numbers(scene *s, uint32_t slot, ts_range now) {
  double step = ts_slot_step(ts_slot_fact(s->a->in.dossier, slot));
  int best = 0, grid = short_run() ? 4 : GRID;
  for (int i = 0; i <= grid; i++) {
    double x = now.lo + (now.hi - now.lo) * i / grid;
    if (step > 0) x = nearbyint(x / step) * step;
    best = try_answer(s, slot, ts_value_point(x), best);
  }
  /* Small values matter more often than large ones: a second grid by ratios. */
  for (int i = 1; i <= grid && now.lo >= 0 && now.hi > 0; i++) {
    double x = now.hi * pow(10, -6.0 * i / grid);
    if (step > 0) x = nearbyint(x / step) * step;
    if (x >= now.lo) best = try_answer(s, slot, ts_value_point(x), best);
  }
  return best;
}

static int best_of_words(scene *s, uint32_t slot, const ts_value *now, bool set) {
  int best = 0;
  uint64_t sure = set ? now->certain : 0;
  if (set) best = try_answer(s, slot, ts_value_choice(sure), best);
  for (unsigned bit = 0; bit < 64; bit++)
    if (now->choices & ~sure & (uint64_t)1 << bit)
      best = try_answer(s, slot, ts_value_choice(sure | (uint64_t)1 << bit), best);
  return best;
}

static int best_by_trying(scene *s, uint32_t slot) {
  const ts_value *now = ts_slot_value(s->a->in.dossier, slot);
  ts_fact_type type = ts_slot_fact(s->a->in.dossier, slot)->type;
  int best = 0;
  know_base(s, slot);
  if (ts_slot_is_number(s->a->in.dossier, slot))
    best = best_of_numbers(s, slot, now->range);
  else if (type == TS_FLAG || type == TS_CHOICE || type == TS_SET)
    best = best_of_words(s, slot, now, type == TS_SET);
  put_back(s, slot);
  return best;
}

/* ---- tests --------------------------------------------------------------------------------- */

static void open_scene(scene *s) {
  assess_world_demo(&s->world, "lake-stunt");
  if (!short_run()) forget_half(s->world.dossier, s->world.problems);
  s->a = assess_world_full(&s->world);
  s->probe = ts_probe_new(s->a, NULL, NULL);
  s->base = ts_alloc((s->a->pair_count + 1) * sizeof *s->base);
  for (size_t i = 0; i < s->a->pair_count; i++) s->base[i] = -1;
  ck_assert_uint_gt(s->a->open_count, short_run() ? 5 : 50);
}

static void close_scene(scene *s) {
  free(s->base);
  ts_probe_free(s->probe);
  ts_assessment_free(s->a);
  assess_world_free(&s->world);
}

static void no_other_single_answer_takes_more_away(scene *s) {
  int first = s->a->open[0].removes, most = 0;
  size_t step = short_run() ? 5 : 1, exact = 0, tried_at_all = 0;
  for (size_t i = 0; i < s->a->open_count; i += step, tried_at_all++) {
    int tried = best_by_trying(s, s->a->open[i].slot);
    if (tried > most) most = tried;
    exact += tried <= s->a->open[i].removes;
    ck_assert_int_le(tried, first);
    if (i > 3) ck_assert_int_le(s->a->open[i].removes, s->a->open[i - 1].removes);
  }
  printf("questions: %zu open facts; the first takes away %d, the best found by trying %d; of %zu "
         "tried %zu have no better answer than the one given\n",
         s->a->open_count, first, most, tried_at_all, exact);
  if (!short_run()) ck_assert_int_eq(most, first);
}

/* The answers that are best alone, given together. */
static int together(scene *s, const size_t *which, size_t count) {
  uint32_t slots[3];
  for (size_t i = 0; i < count; i++) {
    slots[i] = s->a->open[which[i]].slot;
    know_base(s, slots[i]);
  }
  for (size_t i = 0; i < count; i++)
    ts_variant_put(s->probe->variant, slots[i], s->a->open[which[i]].best);
  int away = taken_away(s, slots, count);
  for (size_t i = 0; i < count; i++) put_back(s, slots[i]);
  return away;
}

static void the_first_three_beat_any_other_three(scene *s) {
  size_t first[3] = {0, 1, 2};
  int best = together(s, first, 3), rival = 0;
  size_t rivals = short_run() ? 5 : 3 + RIVALS, tried = 0;
  for (size_t i = 0; i < rivals; i++)
    for (size_t k = i + 1; k < rivals; k++)
      for (size_t m = k + 1; m < rivals; m++, tried++) {
        size_t three[3] = {i, k, m};
        int away = together(s, three, 3);
        if (m > 2 && away > rival) rival = away;
      }
  printf("questions: the first three take away %d together, the best other three of %zu tried %d\n",
         best, tried, rival);
  ck_assert_int_ge(best, rival);
}

static void what_is_promised_is_what_an_assessment_gives(scene *s) {
  int before = weight_of_findings(s->a->findings, s->a->finding_count);
  for (size_t i = 0; i < (short_run() ? 1 : 5); i++) {
    const ts_open_fact *open = &s->a->open[i];
    ts_dossier *variant = ts_dossier_variant(s->world.dossier);
    ts_variant_put(variant, open->slot, open->best);
    ts_assess_inputs inputs = s->a->in;
    inputs.dossier = variant;
    inputs.scores_only = true;
    ts_assessment *after = ts_assess(&inputs, s->world.problems);
    ck_assert_int_eq(before - weight_of_findings(after->findings, after->finding_count),
                     open->removes);
    ts_assessment_free(after);
    ts_dossier_free(variant);
  }
}

/* One scene for all: assessing a production of which so little is known takes a while. */
START_TEST(questions_are_the_best_there_are) {
  scene s;
  open_scene(&s);
  what_is_promised_is_what_an_assessment_gives(&s);
  no_other_single_answer_takes_more_away(&s);
  the_first_three_beat_any_other_three(&s);
  close_scene(&s);
}
END_TEST

Suite *suite_questions(void);
Suite *suite_questions(void) {
  Suite *suite = suite_create("questions");
  TCase *tests = tcase_create("questions");
  tcase_set_timeout(tests, 180);
  tcase_add_test(tests, questions_are_the_best_there_are);
  suite_add_tcase(suite, tests);
  return suite;
}
