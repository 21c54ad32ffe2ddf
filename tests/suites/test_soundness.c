/* What a rule says of facts in part known holds for every world they allow: on rules by lot.
 *
 * A box is a state of knowledge of each fact. What the evaluation of a box says must enclose what
 * the evaluation of any point in it says, and of any smaller box. */
#include "heard.h"
#include "random_lab.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

enum { RULES = 500, BOXES = 4, SAMPLES = 500, NARROWER = 5 };

/* With sanitizers and under valgrind: the same code, few of the points. */
static bool in_short(void) { return getenv("TANKSIDE_TEST_SHORT") != NULL; }

static size_t rule_count(void) { return in_short() ? 100 : RULES; }

typedef struct {
  random_lab w;
  ts_arena *boxed;   /* what lives as long as a box */
  const heard *wide; /* of the box in hand */
  heard narrow;
  size_t boxes, forked, unresolved, points;
} lab;

static lab *open_lab(uint64_t seed) {
  lab *l = ts_alloc(sizeof *l);
  *l = (lab){0};
  random_lab_open(&l->w, seed, rule_count(), random_rule_write);
  return l;
}

static void close_lab(lab *l) {
  random_lab_close(&l->w);
  heard_free(&l->narrow);
  ts_arena_free(l->boxed);
  free(l);
}

/* ---- saying what went wrong -------------------------------------------------------------- */

static void add_value(lab *l, ts_text *text, const box_fact *f, const ts_value *value) {
  char shown[96];
  if (f->fact->unit == NULL && f->fact->type != TS_DATE && f->fact->type != TS_CLOCK) {
    ts_text_addf(text, " %llx/%llx", (unsigned long long)value->choices,
                 (unsigned long long)value->certain);
    return;
  }
  ts_quantity_write(l->w.units, value->range, f->dim, f->fact->unit, TS_METRIC, shown,
                    sizeof shown);
  ts_text_addf(text, " %s", shown);
}

/* The rule, the box, and what is in the variant now. */
static const char *story(lab *l, const random_rule *rule) {
  ts_text text = {0};
  ts_text_addf(&text, "\n%s", rule->text);
  for (size_t i = 0; i < rule->reads.count; i++) {
    const box_fact *f = &rule->reads.at[i];
    char path[128];
    ts_text_addf(&text, "%s", ts_slot_path(l->w.source.world, f->slot, path, sizeof path));
    add_value(l, &text, f, &f->wide);
    ts_text_add(&text, " |");
    add_value(l, &text, f, ts_slot_value(l->w.variant, f->slot));
    ts_text_add(&text, "\n");
  }
  if (l->wide != NULL) ts_text_addf(&text, "wide: %s\n", heard_text(l->w.arena, l->wide));
  ts_text_addf(&text, "narrow: %s\n", heard_text(l->w.arena, &l->narrow));
  char *copy = ts_arena_copy(l->w.arena, text.data);
  ts_text_release(&text);
  return copy;
}

/* ---- evaluating ---------------------------------------------------------------------------- */

static void listen(lab *l, size_t rule) {
  const ts_evaluation *seen = ts_evaluate(l->w.evaluator, rule, l->w.source.subject, NULL, 0);
  ck_assert_msg(seen->failure == NULL, "%s%s", seen->failure, story(l, &l->w.rules[rule]));
  heard_take(&l->narrow, seen);
}

static void check_inside(lab *l, size_t rule) {
  listen(l, rule);
  const char *why = heard_outside(l->wide, &l->narrow);
  if (why != NULL) ck_abort_msg("%s: %s", why, story(l, &l->w.rules[rule]));
}

/* A box for the rule, and what is said of it. False when not every course could be seen: then
 * the declared worst counts, and what the courses say binds nothing. */
static bool open_box(lab *l, size_t rule) {
  random_lab_box(&l->w, rule);
  listen(l, rule);
  ts_arena_free(l->boxed);
  l->boxed = ts_arena_new();
  l->wide = heard_keep(l->boxed, &l->narrow);
  l->boxes++;
  l->forked += l->wide->courses > 1;
  l->unresolved += l->wide->unresolved;
  return !l->wide->unresolved;
}

static void check_point(lab *l, size_t rule, draw_where where) {
  random_lab_point(&l->w, rule, where);
  check_inside(l, rule);
  l->points++;
}

static void check_smaller(lab *l, size_t rule) {
  const random_rule *r = &l->w.rules[rule];
  for (size_t i = 0; i < r->reads.count; i++)
    ts_variant_put(l->w.variant, r->reads.at[i].slot,
                   draw_narrower(&l->w.luck, &r->reads.at[i], &r->turns));
  check_inside(l, rule);
}

/* ---- tests --------------------------------------------------------------------------------- */

START_TEST(every_point_of_a_box_is_enclosed) {
  lab *l = open_lab(20270309);
  size_t samples = in_short() ? 10 : SAMPLES;
  for (size_t i = 0; i < rule_count() * BOXES; i++) {
    size_t rule = i / BOXES;
    if (!open_box(l, rule)) continue;
    for (size_t k = 0; k < samples; k++) check_point(l, rule, draw_where_of(k));
  }
  printf("soundness: %zu boxes, %zu forked, %zu unresolved, %zu points\n", l->boxes, l->forked,
         l->unresolved, l->points);
  ck_assert_uint_lt(20 * l->unresolved, l->boxes);
  ck_assert_uint_gt(2 * l->forked, l->boxes);
  close_lab(l);
}
END_TEST

START_TEST(to_know_more_never_makes_worse) {
  lab *l = open_lab(20270310);
  for (size_t i = 0; i < rule_count() * BOXES; i++) {
    size_t rule = i / BOXES;
    if (!open_box(l, rule)) continue;
    for (size_t k = 0; k < (in_short() ? 1 : NARROWER); k++) check_smaller(l, rule);
  }
  close_lab(l);
}
END_TEST

Suite *suite_soundness(void);

Suite *suite_soundness(void) {
  Suite *suite = suite_create("soundness");
  TCase *cases = tcase_create("soundness");
  tcase_set_timeout(cases, 540);
  tcase_add_test(cases, every_point_of_a_box_is_enclosed);
  tcase_add_test(cases, to_know_more_never_makes_worse);
  suite_add_tcase(suite, cases);
  return suite;
}
