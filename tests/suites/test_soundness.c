/* What a rule says of facts in part known holds for every world they allow: on rules by lot.
 *
 * A box is a state of knowledge of each fact. What the evaluation of a box says must enclose what
 * the evaluation of any point in it says, and of any smaller box. */
#include "draw.h"
#include "heard.h"
#include "random_rule.h"

#include "base/file.h"
#include "scratch.h"
#include <check.h>
#include <stdlib.h>
#include <string.h>

enum { RULES = 500, BOXES = 4, SAMPLES = 500, NARROWER = 5, IN_FILE = 25 };

/* With sanitizers and under valgrind: the same code, few of the points. */
static bool in_short(void) { return getenv("TANKSIDE_TEST_SHORT") != NULL; }

static size_t rule_count(void) { return in_short() ? 100 : RULES; }

typedef struct {
  ts_arena *arena;
  ts_units *units;
  ts_vocabulary *vocabulary;
  ts_packs *packs;
  ts_diagnostics *problems;
  char folder[256];
  draws luck;
  random_source source;
  random_rule rules[RULES];
  ts_dossier *variant;
  ts_evaluator *evaluator;
  ts_arena *boxed;   /* what lives as long as a box */
  const heard *wide; /* of the box in hand */
  heard narrow;
  size_t boxes, forked, unresolved, points;
} lab;

/* ---- the rules ------------------------------------------------------------------------- */

static void write_file(lab *l, const char *pack, size_t first, size_t end) {
  ts_text text = {0};
  for (size_t i = first; i < end; i++) {
    random_rule_write(&l->source, &l->luck, (unsigned)i, &l->rules[i]);
    ts_text_add(&text, l->rules[i].text);
  }
  char *name = ts_arena_printf(l->arena, "%s/r%04zu.lua", pack, first);
  ck_assert(ts_file_write(name, text.data, text.length, l->problems));
  ts_text_release(&text);
}

static void load_rules(lab *l) {
  char *pack = ts_path_join(l->arena, l->folder, "random");
  ck_assert(ts_folder_make(pack, l->problems));
  for (size_t i = 0; i < rule_count(); i += IN_FILE) write_file(l, pack, i, i + IN_FILE);
  bool loaded = ts_packs_load(l->packs, pack, l->problems);
  if (!loaded) ts_diagnostics_print(l->problems, stderr);
  ck_assert(loaded);
  ck_assert_uint_eq(ts_rule_count(l->packs), rule_count());
}

static lab *open_lab(uint64_t seed) {
  char why[256] = "";
  lab *l = ts_alloc(sizeof *l);
  *l = (lab){.arena = ts_arena_new(), .problems = ts_diagnostics_new(), .luck = {seed}};
  l->units = ts_units_new(why, sizeof why);
  ck_assert_msg(l->units != NULL, "%s", why);
  l->vocabulary = ts_vocabulary_new();
  l->packs = ts_packs_new(l->units, l->vocabulary);
  scratch_make(l->folder, sizeof l->folder);
  random_source_open(&l->source, l->vocabulary, l->units);
  load_rules(l);
  l->variant = ts_dossier_variant(l->source.world);
  l->evaluator = ts_evaluator_new(l->packs, l->variant);
  return l;
}

static void close_lab(lab *l) {
  ts_evaluator_free(l->evaluator);
  ts_dossier_free(l->variant);
  for (size_t i = 0; i < rule_count(); i++) random_rule_free(&l->rules[i]);
  random_source_close(&l->source);
  scratch_remove(l->folder);
  ts_packs_free(l->packs);
  ts_vocabulary_free(l->vocabulary);
  ts_units_free(l->units);
  ts_diagnostics_free(l->problems);
  heard_free(&l->narrow);
  ts_arena_free(l->boxed);
  ts_arena_free(l->arena);
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
  ts_quantity_write(l->units, value->range, f->dim, f->fact->unit, TS_METRIC, shown, sizeof shown);
  ts_text_addf(text, " %s", shown);
}

/* The rule, the box, and what is in the variant now. */
static const char *story(lab *l, const random_rule *rule) {
  ts_text text = {0};
  ts_text_addf(&text, "\n%s", rule->text);
  for (size_t i = 0; i < rule->reads.count; i++) {
    const box_fact *f = &rule->reads.at[i];
    char path[128];
    ts_text_addf(&text, "%s", ts_slot_path(l->source.world, f->slot, path, sizeof path));
    add_value(l, &text, f, &f->wide);
    ts_text_add(&text, " |");
    add_value(l, &text, f, ts_slot_value(l->variant, f->slot));
    ts_text_add(&text, "\n");
  }
  if (l->wide != NULL) ts_text_addf(&text, "wide: %s\n", heard_text(l->arena, l->wide));
  ts_text_addf(&text, "narrow: %s\n", heard_text(l->arena, &l->narrow));
  char *copy = ts_arena_copy(l->arena, text.data);
  ts_text_release(&text);
  return copy;
}

/* ---- evaluating ---------------------------------------------------------------------------- */

static void listen(lab *l, size_t rule) {
  const ts_evaluation *seen = ts_evaluate(l->evaluator, rule, l->source.subject, NULL, 0);
  ck_assert_msg(seen->failure == NULL, "%s%s", seen->failure, story(l, &l->rules[rule]));
  heard_take(&l->narrow, seen);
}

static void check_inside(lab *l, size_t rule) {
  listen(l, rule);
  const char *why = heard_outside(l->wide, &l->narrow);
  if (why != NULL) ck_abort_msg("%s: %s", why, story(l, &l->rules[rule]));
}

/* A box for the rule, and what is said of it. False when not every course could be seen: then
 * the declared worst counts, and what the courses say binds nothing. */
static bool open_box(lab *l, size_t rule) {
  random_rule *r = &l->rules[rule];
  for (size_t i = 0; i < r->reads.count; i++) {
    box_fact *f = &r->reads.at[i];
    f->wide = draw_state(&l->luck, l->source.world, f, &r->turns);
  }
  box_put(&r->reads, l->variant);
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
  const random_rule *r = &l->rules[rule];
  for (size_t i = 0; i < r->reads.count; i++)
    ts_variant_put(l->variant, r->reads.at[i].slot,
                   draw_point(&l->luck, &r->reads.at[i], &r->turns, where));
  check_inside(l, rule);
  l->points++;
}

static void check_smaller(lab *l, size_t rule) {
  const random_rule *r = &l->rules[rule];
  for (size_t i = 0; i < r->reads.count; i++)
    ts_variant_put(l->variant, r->reads.at[i].slot,
                   draw_narrower(&l->luck, &r->reads.at[i], &r->turns));
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
