/* The graph: dimensions, sharing, ranges that enclose, and narrowing that loses nothing. */
#include "science/graph.h"
#include "quantity/interval.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

Suite *suite_graph(void);

/* A small repeatable generator: tests must not depend on a clock. */
static uint64_t state = 88172645463325252u;

static double chance(double lo, double hi) {
  state ^= state << 13;
  state ^= state >> 7;
  state ^= state << 17;
  return lo + (hi - lo) * (double)(state >> 11) / 9007199254740992.0;
}

/* How often a thing is drawn; under valgrind, where each costs fifty times as much, a twentieth. */
static int times(int wanted) { return getenv("TANKSIDE_TEST_SHORT") ? wanted / 20 : wanted; }

static ts_node_id metres(ts_graph *g, uint32_t slot, double lo, double hi) {
  return ts_fact_value(g, slot, (ts_range){lo, hi}, TS_LENGTH);
}

static ts_node_id length(ts_graph *g, double x) { return ts_constant(g, (ts_range){x, x}, TS_LENGTH); }

START_TEST(equal_nodes_are_shared) {
  ts_graph *g = ts_graph_new();
  ts_node_id a = metres(g, 1, 2, 3), b = metres(g, 2, 5, 7);
  ck_assert_uint_eq(ts_binary(g, TS_ADD, a, b), ts_binary(g, TS_ADD, a, b));
  ck_assert_uint_ne(ts_binary(g, TS_ADD, a, b), ts_binary(g, TS_SUB, a, b));
  ck_assert_uint_eq(metres(g, 1, 2, 3), a);
  ck_assert_uint_eq(length(g, 4), length(g, 4));
  ts_graph_free(g);
}
END_TEST

START_TEST(constants_before_the_mark_stay) {
  ts_graph *g = ts_graph_new();
  ts_node_id four = length(g, 4);
  ts_graph_mark(g);
  for (int round = 0; round < 1000; round++) {
    ts_node_id a = metres(g, 1, round, round + 1);
    ck_assert_double_eq(ts_node_at(g, a)->lo, round);
    ck_assert_uint_eq(length(g, 4), four);
    ts_binary(g, TS_ADD, a, four);
    ck_assert_uint_eq(ts_node_count(g), 3);
    ts_graph_reset(g);
  }
  ts_graph_free(g);
}
END_TEST

START_TEST(dimensions_are_checked) {
  ts_graph *g = ts_graph_new();
  ts_node_id m = length(g, 1), s = ts_constant(g, (ts_range){1, 1}, TS_TIME);
  ck_assert_uint_eq(ts_binary(g, TS_ADD, m, s), TS_NO_NODE);
  ck_assert(ts_graph_problem(g)[0]);
  ck_assert_uint_eq(ts_node_at(g, ts_binary(g, TS_DIV, m, s))->dim, TS_SPEED);
  ck_assert_uint_eq(ts_node_at(g, ts_binary(g, TS_MUL, m, m))->dim, TS_AREA);
  ck_assert_uint_eq(ts_node_at(g, ts_power(g, m, 3))->dim, TS_VOLUME);
  ck_assert_uint_eq(ts_node_at(g, ts_unary(g, TS_ROOT, ts_power(g, m, 2)))->dim, TS_LENGTH);
  ck_assert_uint_eq(ts_unary(g, TS_ROOT, m), TS_NO_NODE);
  ts_graph_free(g);
}
END_TEST

START_TEST(temperatures_and_differences_are_kept_apart) {
  ts_graph *g = ts_graph_new();
  ts_node_id warm = ts_constant(g, (ts_range){303.15, 303.15}, TS_TEMPERATURE);
  ts_node_id cool = ts_constant(g, (ts_range){293.15, 293.15}, TS_TEMPERATURE);
  ts_node_id two = ts_constant(g, (ts_range){2, 2}, TS_TEMPERATURE_DIFFERENCE);
  ck_assert_uint_eq(ts_node_at(g, ts_binary(g, TS_SUB, warm, cool))->dim, TS_TEMPERATURE_DIFFERENCE);
  ck_assert_uint_eq(ts_node_at(g, ts_binary(g, TS_ADD, warm, two))->dim, TS_TEMPERATURE);
  ck_assert_uint_eq(ts_node_at(g, ts_binary(g, TS_SUB, warm, two))->dim, TS_TEMPERATURE);
  ck_assert_uint_eq(ts_binary(g, TS_ADD, warm, cool), TS_NO_NODE);
  ck_assert_uint_eq(ts_binary(g, TS_SUB, two, warm), TS_NO_NODE);
  ck_assert_uint_eq(ts_binary(g, TS_MUL, warm, two), TS_NO_NODE);
  ck_assert_uint_eq(ts_binary(g, TS_MIN, warm, two), TS_NO_NODE);
  ts_graph_free(g);
}
END_TEST

START_TEST(division_by_zero_is_refused_for_points_and_open_for_ranges) {
  ts_graph *g = ts_graph_new();
  ts_node_id one = length(g, 1), zero = length(g, 0), touching = metres(g, 1, 0, 2);
  ck_assert_uint_eq(ts_binary(g, TS_DIV, one, zero), TS_NO_NODE);
  const ts_node *open = ts_node_at(g, ts_binary(g, TS_DIV, one, touching));
  ck_assert_double_eq(open->lo, 0.5);
  ck_assert(isinf(open->hi));
  ts_graph_free(g);
}
END_TEST

START_TEST(decimals_compare_as_people_expect) {
  ts_graph *g = ts_graph_new();
  ts_node_id sum = ts_binary(g, TS_ADD, length(g, 0.1), length(g, 0.2));
  ck_assert_int_eq(ts_less(g, length(g, 0.3), sum, false), TS_NO);  /* 0.1 + 0.2 is not above 0.3 */
  ck_assert_int_eq(ts_less(g, sum, length(g, 0.3), true), TS_YES);
  ck_assert_int_eq(ts_less(g, sum, length(g, 0.3), false), TS_NO);
  ck_assert_int_eq(ts_less(g, length(g, 0.3), length(g, 0.300001), false), TS_YES);
  ts_graph_free(g);
}
END_TEST

/* Ends that meet a round threshold must not fork: [1, 3] + 2 is never above 5. */
START_TEST(round_thresholds_do_not_fork) {
  ts_graph *g = ts_graph_new();
  for (int i = 0; i < 200; i++) {
    double hi = i * 0.5;
    ts_node_id x = metres(g, (uint32_t)i, 0, hi);
    ts_node_id y = ts_binary(g, TS_ADD, x, length(g, 2));
    ck_assert_int_eq(ts_less(g, length(g, hi + 2), y, false), TS_NO);
  }
  ts_graph_free(g);
}
END_TEST

START_TEST(after_imposing_the_same_question_is_settled) {
  for (int i = 0; i < times(2000); i++) {
    ts_graph *g = ts_graph_new();
    double lo = chance(-10, 10), hi = lo + chance(0.1, 10), limit = chance(lo, hi);
    ts_node_id x = metres(g, 1, lo, hi), at = length(g, limit);
    bool holds = i % 2, or_equal = i % 3 == 0;
    if (ts_less(g, x, at, or_equal) == TS_OPEN) {
      ck_assert(ts_impose(g, x, at, or_equal, holds));
      ck_assert_int_eq(ts_less(g, x, at, or_equal), holds ? TS_YES : TS_NO);
    }
    ts_graph_free(g);
  }
}
END_TEST

enum { FACTS = 3, NODES = 12 };

/* A random expression over three facts; the same operations for points and for ranges. */
typedef struct {
  int op[NODES];
  int a[NODES], b[NODES];
} recipe;

static recipe random_recipe(void) {
  static const int ops[] = {TS_ADD, TS_SUB, TS_MUL, TS_DIV, TS_MIN, TS_MAX, TS_NEG, TS_ABS};
  recipe r;
  for (int i = 0; i < NODES; i++) {
    r.op[i] = ops[(int)chance(0, 7.999)];
    r.a[i] = (int)chance(0, FACTS + i - 0.001);
    r.b[i] = (int)chance(0, FACTS + i - 0.001);
  }
  return r;
}

/* Builds it; false where a node cannot be made (division by zero). */
static bool build(ts_graph *g, const recipe *r, const ts_range *facts, ts_node_id *out) {
  for (uint32_t i = 0; i < FACTS; i++) out[i] = ts_fact_value(g, i, facts[i], TS_NUMBER);
  for (int i = 0; i < NODES; i++) {
    bool one = r->op[i] == TS_NEG || r->op[i] == TS_ABS;
    ts_node_id a = out[r->a[i]], b = out[r->b[i]];
    ts_node_id id = one ? ts_unary(g, (ts_op)r->op[i], a) : ts_binary(g, (ts_op)r->op[i], a, b);
    if (id == TS_NO_NODE) return false;
    out[FACTS + i] = id;
  }
  return true;
}

static void random_box(ts_range *box) {
  for (int i = 0; i < FACTS; i++) {
    double lo = chance(-5, 5);
    box[i] = (ts_range){lo, lo + chance(0, 6)};
  }
}

static void random_point(const ts_range *box, ts_range *point) {
  for (int i = 0; i < FACTS; i++) {
    double at = chance(0, 1), x = at < 0.1 ? box[i].lo : at > 0.9 ? box[i].hi : chance(box[i].lo, box[i].hi);
    point[i] = (ts_range){x, x};
  }
}

START_TEST(ranges_enclose_every_point) {
  for (int i = 0; i < times(3000); i++) {
    ts_graph *g = ts_graph_new(), *p = ts_graph_new();
    ts_node_id wide[FACTS + NODES], thin[FACTS + NODES];
    ts_range box[FACTS], point[FACTS];
    recipe r = random_recipe();
    random_box(box);
    if (build(g, &r, box, wide))
      for (int k = 0; k < 20; k++) {
        random_point(box, point);
        ts_graph_reset(p);
        if (!build(p, &r, point, thin)) continue;
        for (int n = 0; n < FACTS + NODES; n++) {
          double x = ts_node_at(p, thin[n])->lo;
          ck_assert(ts_node_at(g, wide[n])->lo <= x && x <= ts_node_at(g, wide[n])->hi);
        }
      }
    ts_graph_free(g);
    ts_graph_free(p);
  }
}
END_TEST

/* A point whose comparison comes out one way lies inside what is left after imposing that way. */
static void check_nothing_lost(const recipe *r, const ts_range *box, const ts_range *point, int left, int right, bool or_equal) {
  ts_graph *p = ts_graph_new(), *g = ts_graph_new();
  ts_node_id thin[FACTS + NODES], wide[FACTS + NODES];
  if (build(p, r, point, thin) && build(g, r, box, wide)) {
    ts_answer answer = ts_less(p, thin[left], thin[right], or_equal);
    ck_assert_int_ne(answer, TS_OPEN);
    bool possible = ts_impose(g, wide[left], wide[right], or_equal, answer == TS_YES);
    ck_assert(possible);
    for (int i = 0; i < FACTS; i++)
      ck_assert(ts_node_at(g, wide[i])->lo <= point[i].lo && point[i].lo <= ts_node_at(g, wide[i])->hi);
    ts_graph_restore(g);
    for (int i = 0; i < FACTS; i++) ck_assert_double_eq(ts_node_at(g, wide[i])->lo, box[i].lo);
  }
  ts_graph_free(p);
  ts_graph_free(g);
}

START_TEST(narrowing_loses_no_point) {
  for (int i = 0; i < times(20000); i++) {
    ts_range box[FACTS], point[FACTS];
    recipe r = random_recipe();
    random_box(box);
    random_point(box, point);
    int left = (int)chance(0, FACTS + NODES - 0.001), right = (int)chance(0, FACTS + NODES - 0.001);
    check_nothing_lost(&r, box, point, left, right, i % 2);
  }
}
END_TEST

START_TEST(narrowing_reaches_the_facts) {
  ts_graph *g = ts_graph_new();
  ts_node_id limit = ts_fact_value(g, 1, (ts_range){40, 60}, TS_TIME), hold = ts_fact_value(g, 2, (ts_range){15, 15}, TS_TIME);
  ts_node_id margin = ts_binary(g, TS_SUB, limit, hold);
  ts_node_id thirty = ts_constant(g, (ts_range){30, 30}, TS_TIME);
  ck_assert(ts_impose(g, margin, thirty, false, true));
  ck_assert_double_eq_tol(ts_node_at(g, limit)->hi, 45, 1e-9);
  ck_assert_double_eq(ts_node_at(g, limit)->lo, 40);
  ck_assert_double_eq(ts_node_at(g, thirty)->lo, 30);
  ts_graph_free(g);
}
END_TEST

Suite *suite_graph(void) {
  Suite *suite = suite_create("graph");
  TCase *tc = tcase_create("graph");
  tcase_set_timeout(tc, 120);
  tcase_add_test(tc, equal_nodes_are_shared);
  tcase_add_test(tc, constants_before_the_mark_stay);
  tcase_add_test(tc, dimensions_are_checked);
  tcase_add_test(tc, temperatures_and_differences_are_kept_apart);
  tcase_add_test(tc, division_by_zero_is_refused_for_points_and_open_for_ranges);
  tcase_add_test(tc, decimals_compare_as_people_expect);
  tcase_add_test(tc, round_thresholds_do_not_fork);
  tcase_add_test(tc, after_imposing_the_same_question_is_settled);
  tcase_add_test(tc, ranges_enclose_every_point);
  tcase_add_test(tc, narrowing_loses_no_point);
  tcase_add_test(tc, narrowing_reaches_the_facts);
  suite_add_tcase(suite, tc);
  return suite;
}
