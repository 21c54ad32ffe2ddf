/* What is replayed from a record is what the rule itself does: the same courses, decisions,
 * outcomes, facts read and bounds, to the last bit, for rules that come with the program over the
 * demo productions and for rules by lot, whatever their facts are. */
#include "random_lab.h"
#include "rule/sandbox.h"
#include "shipped_world.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool in_short(void) { return getenv("TANKSIDE_TEST_SHORT") != NULL; }

/* ---- the same ------------------------------------------------------------------------------ */

static bool same_text(const char *a, const char *b) {
  return a == b || (a != NULL && b != NULL && strcmp(a, b) == 0);
}

static const char *outcomes_differ(const ts_outcome *a, const ts_outcome *b) {
  if (a->word != b->word || !same_text(a->about, b->about)) return "what is said";
  if (a->likelihood != b->likelihood || a->severity != b->severity || a->state != b->state)
    return "score";
  if (!same_text(a->instrument, b->instrument) || !same_text(a->section, b->section))
    return "instrument";
  if (!same_text(a->evidence, b->evidence) || !same_text(a->who, b->who)) return "evidence or who";
  if (a->discreet != b->discreet || a->line != b->line) return "discretion or line";
  if (a->decision_count != b->decision_count || a->fact_count != b->fact_count)
    return "what it hangs on";
  if (a->control_count != b->control_count || a->scored_controls != b->scored_controls)
    return "controls";
  for (size_t i = 0; i < a->control_count; i++)
    if (!same_text(a->controls[i], b->controls[i])) return "a control";
  return NULL;
}

/* Bit for bit: -0 is not 0 here. */
static const char *bounds_differ(const ts_bound *a, const ts_bound *b) {
  if (a->slot != b->slot || a->member != b->member || a->number != b->number)
    return "which fact is bounded";
  if (a->number ? memcmp(&a->range, &b->range, sizeof a->range) != 0 : a->choices != b->choices)
    return "a bound";
  return NULL;
}

static const char *courses_differ(const ts_course *a, const ts_course *b) {
  const char *how = NULL;
  if (a->applies != b->applies) return "whether it applies";
  if (a->outcome_count != b->outcome_count) return "how much is said";
  if (a->bound_count != b->bound_count) return "how many facts are bounded";
  for (size_t i = 0; how == NULL && i < a->outcome_count; i++)
    how = outcomes_differ(&a->outcomes[i], &b->outcomes[i]);
  for (size_t i = 0; how == NULL && i < a->bound_count; i++)
    how = bounds_differ(&a->bounds[i], &b->bounds[i]);
  return how;
}

static const char *differ(const ts_evaluation *a, const ts_evaluation *b) {
  const char *how = NULL;
  if (!same_text(a->failure, b->failure)) return "failure";
  if (a->unresolved != b->unresolved || a->course_count != b->course_count) return "courses";
  if (a->read_count != b->read_count) return "how many facts are read";
  if (a->read_count > 0 && memcmp(a->reads, b->reads, a->read_count * sizeof *a->reads) != 0)
    return "a fact read";
  for (size_t i = 0; how == NULL && i < a->course_count; i++)
    how = courses_differ(&a->courses[i], &b->courses[i]);
  return how;
}

/* ---- rules that come with the program ------------------------------------------------------- */

static void draw_world(shipped_world *s, draws *luck, size_t sample) {
  for (size_t i = 0; i < s->open.count; i++) {
    ts_value value = sample % 2
                         ? draw_narrower(luck, &s->open.at[i], &s->turns)
                         : draw_point(luck, &s->open.at[i], &s->turns, draw_where_of(sample / 2));
    ts_variant_put(s->variant, s->open.at[i].slot, value);
  }
}

static void compare_pairs(shipped_world *s, ts_evaluator *replayed) {
  for (size_t i = 0; i < s->pair_count; i++) {
    const shipped_pair *pair = &s->pairs[i];
    const ts_evaluation *run = ts_evaluate(s->drawn, pair->rule, pair->subject, NULL, 0);
    const char *how = differ(run, ts_evaluate(replayed, pair->rule, pair->subject, NULL, 0));
    if (how != NULL)
      ck_abort_msg("%s over %s: %s differs", ts_rule_at(s->w.packs, pair->rule)->id,
                   ts_subject_at(s->w.dossier, pair->subject)->path, how);
  }
}

START_TEST(shipped_rules_are_replayed_as_they_run) {
  shipped_world s;
  draws luck = {20270401};
  size_t samples = in_short() ? 2 : 8, compared = 0;
  shipped_world_open(&s, _i, 30);
  ts_evaluator *replayed = ts_evaluator_new(s.w.packs, s.variant);
  ts_evaluator_record(replayed);
  for (size_t k = 0; k < samples; k++, compared += s.pair_count) {
    draw_world(&s, &luck, k);
    compare_pairs(&s, replayed);
  }
  printf("replay: %zu evaluations of shipped rules\n", compared);
  ts_evaluator_free(replayed);
  shipped_world_close(&s);
}
END_TEST

/* ---- rules by lot ---------------------------------------------------------------------------- */

enum { RULES = 500, BOXES = 20 };

START_TEST(rules_by_lot_are_replayed_as_they_run) {
  random_lab l;
  size_t boxes = in_short() ? 3 : BOXES, compared = 0;
  random_lab_open(&l, 20270402, RULES, random_rule_write);
  ts_evaluator *replayed = ts_evaluator_new(l.packs, l.variant);
  ts_evaluator_record(replayed);
  for (size_t rule = 0; rule < l.rule_count; rule++)
    for (size_t k = 0; k < boxes; k++, compared++) {
      random_lab_box(&l, rule);
      if (k % 2) random_lab_point(&l, rule, draw_where_of(k / 2));
      const ts_evaluation *run = ts_evaluate(l.evaluator, rule, l.source.subject, NULL, 0);
      const char *how = differ(run, ts_evaluate(replayed, rule, l.source.subject, NULL, 0));
      ck_assert_msg(how == NULL, "%s: %s differs", ts_rule_at(l.packs, rule)->id, how);
    }
  printf("replay: %zu evaluations of rules by lot\n", compared);
  ts_evaluator_free(replayed);
  random_lab_close(&l);
}
END_TEST

/* A slot is found again by sixteen bits of its place, however many are read. */
START_TEST(a_slot_is_found_by_the_last_bits_of_its_place) {
  enum { MANY = 3 * 65536 + 10, ODD = 7919 };
  uint32_t *list = ts_alloc(MANY * sizeof *list);
  for (uint32_t i = 0; i < MANY; i++) list[i] = i ^ ODD;
  for (uint32_t i = 0; i < MANY; i += 13) {
    ck_assert(ts_is_at(list, MANY, (uint16_t)i, i ^ ODD));
    ck_assert(!ts_is_at(list, i, (uint16_t)i, i ^ ODD));
    ck_assert(!ts_is_at(list, MANY, (uint16_t)(i + 1), i ^ ODD));
  }
  free(list);
}
END_TEST

Suite *suite_replay(void);

Suite *suite_replay(void) {
  Suite *suite = suite_create("replay");
  TCase *tests = tcase_create("replay");
  tcase_set_timeout(tests, 300);
  tcase_add_loop_test(tests, shipped_rules_are_replayed_as_they_run, 0,
                      in_short() ? 1 : SHIPPED_PRODUCTIONS);
  tcase_add_test(tests, rules_by_lot_are_replayed_as_they_run);
  tcase_add_test(tests, a_slot_is_found_by_the_last_bits_of_its_place);
  suite_add_tcase(suite, tests);
  return suite;
}
