/* The same as test_soundness.c on every rule that comes with the program and every subject of the
 * demo productions: what is said with the dossier as written, or with less than is written, holds
 * for each world it allows. */
#include "shipped_world.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>

static bool in_short(void) { return getenv("TANKSIDE_TEST_SHORT") != NULL; }

/* The first stands for all where each step costs ten times or more. */
static const struct {
  int production;
  unsigned forget;
} cases[] = {{0, 30}, {0, 0}, {1, 0}, {1, 30}, {2, 0}, {2, 30}};

enum { CASES = sizeof cases / sizeof *cases };

static void check_all(shipped_world *s) {
  for (size_t i = 0; i < s->pair_count; i++) {
    const shipped_pair *pair = &s->pairs[i];
    if (pair->wide->unresolved || shipped_world_hear(s, s->drawn, pair) == NULL) continue;
    const char *why = heard_outside(pair->wide, &s->said);
    if (why != NULL) ck_abort_msg("%s: %s", why, shipped_world_story(s, pair));
  }
}

/* Rules whose courses cannot all be seen count at their declared worst; there must be few. */
static void check_resolved(const shipped_world *s) {
  size_t unresolved = 0;
  for (size_t i = 0; i < s->pair_count; i++) unresolved += s->pairs[i].wide->unresolved;
  printf("shipped: %zu pairs, %zu open facts, %zu unresolved\n", s->pair_count, s->open.count,
         unresolved);
  ck_assert_uint_gt(s->pair_count, 0);
  ck_assert_uint_gt(s->open.count, 0);
  ck_assert_uint_lt(20 * unresolved, s->pair_count);
}

START_TEST(every_world_of_a_dossier_is_enclosed) {
  shipped_world s;
  draws luck = {20270311};
  size_t samples = in_short() ? 3 : 100;
  shipped_world_open(&s, cases[_i].production, cases[_i].forget);
  check_resolved(&s);
  for (size_t k = 0; k < samples; k++) {
    for (size_t i = 0; i < s.open.count; i++)
      ts_variant_put(s.variant, s.open.at[i].slot,
                     draw_point(&luck, &s.open.at[i], &s.turns, draw_where_of(k)));
    check_all(&s);
  }
  shipped_world_close(&s);
}
END_TEST

START_TEST(to_know_more_of_a_dossier_never_makes_worse) {
  shipped_world s;
  draws luck = {20270312};
  size_t samples = in_short() ? 1 : 5;
  shipped_world_open(&s, cases[_i].production, cases[_i].forget);
  for (size_t k = 0; k < samples; k++) {
    for (size_t i = 0; i < s.open.count; i++)
      ts_variant_put(s.variant, s.open.at[i].slot, draw_narrower(&luck, &s.open.at[i], &s.turns));
    check_all(&s);
  }
  shipped_world_close(&s);
}
END_TEST

Suite *suite_soundness_shipped(void);

Suite *suite_soundness_shipped(void) {
  Suite *suite = suite_create("soundness_shipped");
  TCase *tests = tcase_create("soundness_shipped");
  tcase_set_timeout(tests, 540);
  int last = in_short() ? 1 : CASES;
  tcase_add_loop_test(tests, every_world_of_a_dossier_is_enclosed, 0, last);
  tcase_add_loop_test(tests, to_know_more_of_a_dossier_never_makes_worse, 0, last);
  suite_add_tcase(suite, tests);
  return suite;
}
