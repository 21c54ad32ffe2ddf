/* Margins of the demo productions: at each reported edge the finding changes, and nowhere
 * nearer; where none is reported, nothing changes. Looked at by evaluating the rule again at
 * a point, which is not how edges are found: that is by narrowing over whole stretches. */
#include "assess/margins.h"
#include "assess/search.h"
#include "assess_world.h"

#include "base/text.h"
#include <check.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

static const char *const productions[] = {"lake-stunt", "stage-pool", "tank-serial"};
enum { PRODUCTIONS = sizeof productions / sizeof productions[0], WANTED = 70 };

static bool short_run(void) { return getenv("TANKSIDE_TEST_SHORT") != NULL; }
static int scan_points(void) { return short_run() ? 5 : 200; }

typedef struct {
  assess_world world;
  ts_assessment *a;
  ts_probe *probe;
  const ts_finding *finding;
  ts_search at; /* only its ts_search_at is used: how it stands at one point */
  size_t margins, findings;
} scene;

static ts_stand stand_at(scene *s, uint32_t slot, double x) {
  ts_stand stand;
  s->at.slot = slot;
  ck_assert(ts_search_at(&s->at, x, &stand));
  return stand;
}

static bool same(const scene *s, ts_stand a, ts_stand b) {
  return ts_same_stand(s->finding->word, a, b);
}

static const char *where(const scene *s, uint32_t slot) {
  static _Thread_local char text[512];
  char path[256];
  snprintf(text, sizeof text, "%s %s (%s), %s", s->finding->id,
           ts_rule_at(s->a->in.packs, s->finding->rule)->id,
           ts_subject_at(s->a->in.dossier, s->finding->subject)->path,
           ts_slot_path(s->a->in.dossier, slot, path, sizeof path));
  return text;
}

static bool upward(const ts_margin *m) { return m->side == TS_UP || m->side == TS_FROM_LOW; }

/* A little before the edge, and a little past it: steps for what comes in steps. An edge is closed
 * in on to 4e-9 of itself and then rounded to nine digits, half of one is up to 5e-9. */
static double beside(const scene *s, const ts_margin *m, int sign) {
  double step = ts_slot_step(ts_slot_fact(s->a->in.dossier, m->slot));
  ts_range all = ts_fact_plausible(ts_dossier_vocabulary(s->a->in.dossier),
                                   ts_slot_fact(s->a->in.dossier, m->slot));
  double by = fmax(1e-8 * fmax(fabs(m->edge), fabs(m->from)), 1e-10 * (all.hi - all.lo));
  if (step > 0) by = step;
  if (step > 0 && sign > 0) return m->edge; /* the edge is the first value there */
  return m->edge + (upward(m) ? sign * by : -sign * by);
}

/* Every value of a scan between the two ends stands as given. */
static void check_scan(scene *s, uint32_t slot, double from, double to, ts_stand as) {
  int points = scan_points();
  double step = ts_slot_step(ts_slot_fact(s->a->in.dossier, slot));
  for (int i = 0; i <= points; i++) {
    double x = from + (to - from) * i / points;
    if (step > 0) x = from + trunc((x - from) / step) * step;
    ts_stand stand = stand_at(s, slot, x);
    if (same(s, stand, as)) continue;
    ck_abort_msg("%s: %d x %d at %.17g, not %d x %d as from %.17g to %.17g", where(s, slot),
                 (int)stand.likelihood, (int)stand.severity, x, (int)as.likelihood,
                 (int)as.severity, from, to);
  }
}

static double within(const scene *s, uint32_t slot, double x) {
  ts_range all = ts_fact_plausible(ts_dossier_vocabulary(s->a->in.dossier),
                                   ts_slot_fact(s->a->in.dossier, slot));
  return fmin(fmax(x, all.lo), all.hi);
}

static void check_margin(scene *s, const ts_margin *m) {
  double before = beside(s, m, -1), past = within(s, m->slot, beside(s, m, 1));
  bool room = upward(m) ? before >= m->from : before <= m->from;
  s->margins++;
  ck_assert(!same(s, m->before, m->then));
  ck_assert_msg(same(s, stand_at(s, m->slot, past), m->then), "%s: not so past %.12g",
                where(s, m->slot), m->edge);
  ck_assert_msg(same(s, stand_at(s, m->slot, m->edge), m->before) != m->included,
                "%s: wrong at the edge %.12g", where(s, m->slot), m->edge);
  if (room) check_scan(s, m->slot, m->from, before, m->before);
}

static bool has_margin(const ts_finding *f, uint32_t slot, ts_side_of side) {
  for (size_t i = 0; i < f->margin_count; i++)
    if (f->margins[i].slot == slot && f->margins[i].side == side) return true;
  return false;
}

/* Outward sides of a fact for which no margin is given: nothing changes up to the plausible end. */
static void check_none(scene *s, uint32_t slot) {
  const ts_dossier *dossier = s->a->in.dossier;
  ts_range now = ts_slot_value(dossier, slot)->range;
  ts_range all = ts_fact_plausible(ts_dossier_vocabulary(dossier), ts_slot_fact(dossier, slot));
  if (now.lo > all.lo && !has_margin(s->finding, slot, TS_DOWN))
    check_scan(s, slot, now.lo, all.lo, stand_at(s, slot, now.lo));
  if (now.hi < all.hi && !has_margin(s->finding, slot, TS_UP))
    check_scan(s, slot, now.hi, all.hi, stand_at(s, slot, now.hi));
}

static void check_finding(scene *s, const ts_finding *finding) {
  size_t count;
  ts_arena *scratch = ts_arena_new();
  s->finding = finding;
  s->at = (ts_search){.probe = s->probe,
                      .pair = ts_pair_of(s->a, finding),
                      .word = finding->word,
                      .about = finding->about};
  if (s->at.pair != SIZE_MAX) {
    for (size_t i = 0; i < finding->margin_count; i++) {
      check_margin(s, &finding->margins[i]);
      ts_search_done(&s->at);
    }
    const uint32_t *slots = ts_rests_on(s->a, finding, scratch, &count);
    for (size_t i = 0; i < count; i++) {
      s->at.slot = slots[i];
      if (!ts_slot_is_number(s->a->in.dossier, slots[i])) continue;
      check_none(s, slots[i]);
      ts_search_done(&s->at);
    }
    s->findings++;
  }
  ts_arena_free(scratch);
}

START_TEST(edges_are_where_it_changes_and_nothing_is_nearer) {
  scene s = {.findings = 0};
  if (short_run() && _i > 0) return;
  assess_world_demo(&s.world, productions[_i]);
  s.a = assess_world_full(&s.world);
  s.probe = ts_probe_new(s.a, NULL, NULL);
  size_t wanted = short_run() ? 3 : WANTED, step = s.a->finding_count / wanted + 1;
  for (size_t i = 0; i < s.a->finding_count; i += step)
    if (s.a->findings[i].word != TS_REMARK) check_finding(&s, &s.a->findings[i]);
  for (size_t i = 0; i < s.a->duty_count; i += short_run() ? 40 : 4)
    check_finding(&s, &s.a->duties[i]);
  printf("margins, %s: %zu findings and duties, %zu margins, %d values between\n", productions[_i],
         s.findings, s.margins, scan_points());
  ck_assert_uint_gt(s.margins, short_run() ? 0 : s.findings / 2);
  ts_probe_free(s.probe);
  ts_assessment_free(s.a);
  assess_world_free(&s.world);
}
END_TEST

/* ---- by hand --------------------------------------------------------------------------- */

static const char window_rule[] =
    "rule { id = 'm.window', title = 't', each = 'immersion', harm = 'h', sources = { 's' },\n"
    " assess = function (i)\n"
    "  if i.depth > q'3 m' and i.depth <= q'3.2 m' then\n"
    "   hazard { likelihood = 5, severity = 5, because = 'window' }\n"
    "  else hazard { likelihood = 2, severity = 2, because = 'outside' } end\n"
    " end, examples = {} }\n";

/* A narrow window far off is found: 3 m excluded, 3.2 m included. */
START_TEST(a_narrow_window_is_not_stepped_over) {
  assess_world w;
  assess_world_make(&w, window_rule, "depth=\"1 m\"", "", "");
  ts_assessment *a = assess_world_full(&w);
  bool found = false;
  for (size_t i = 0; i < a->finding_count; i++) {
    const ts_finding *f = &a->findings[i];
    if (!ts_same(ts_subject_at(a->in.dossier, f->subject)->path, "t1/p1")) continue;
    for (size_t k = 0; k < f->margin_count; k++) {
      if (f->margins[k].side != TS_UP) continue;
      found = true;
      ck_assert_double_eq_tol(f->margins[k].edge, 3, 1e-9);
      ck_assert(!f->margins[k].included);
      ck_assert_int_eq(f->margins[k].then.likelihood, 5);
    }
  }
  ck_assert(found);
  ts_assessment_free(a);
  assess_world_free(&w);
}
END_TEST

/* From 1 m, worked out by hand: where it changes, and whether it has changed there. */
static const struct {
  const char *condition;
  ts_side_of side;
  double edge;
  bool included;
} thresholds[] = {
    {"i.depth > q'5.9 m'", TS_UP, 5.9, false},
    {"i.depth >= q'5.9 m'", TS_UP, 5.9, true},
    {"i.depth < q'0.7 m'", TS_DOWN, 0.7, false},
    {"i.depth <= q'0.7 m'", TS_DOWN, 0.7, true},
    {"3 * i.depth - q'1 m' > q'16.7 m'", TS_UP, 5.9, false},
    {"i.depth * i.depth >= q'34.81 m^2'", TS_UP, 5.9, true},
    {"i.depth * i.depth > q'34.81 m^2'", TS_UP, 5.9, false},
    {"i.depth * i.depth <= q'0.49 m^2'", TS_DOWN, 0.7, true},
};

static const ts_margin *only_margin(const ts_assessment *a, ts_side_of side) {
  for (size_t i = 0; i < a->finding_count; i++)
    for (size_t k = 0; k < a->findings[i].margin_count; k++)
      if (a->findings[i].margins[k].side == side) return &a->findings[i].margins[k];
  return NULL;
}

START_TEST(a_round_threshold_is_the_edge_and_on_its_right_side) {
  assess_world w;
  char rule[500];
  snprintf(rule, sizeof rule,
           "rule { id = 'm.edge', title = 't', each = 'immersion', harm = 'h', sources = { 's' },\n"
           " assess = function (i)\n  if %s then hazard { likelihood = 5, severity = 5, because = "
           "'b' }\n"
           "  else hazard { likelihood = 2, severity = 2, because = 'a' } end\n end }\n",
           thresholds[_i].condition);
  assess_world_make(&w, rule, "depth=\"1 m\"", "", "");
  ts_assessment *a = assess_world_full(&w);
  const ts_margin *m = only_margin(a, thresholds[_i].side);
  ck_assert_ptr_nonnull(m);
  ck_assert_msg(m->edge == thresholds[_i].edge, "%.17g", m->edge);
  ck_assert_int_eq(m->included, thresholds[_i].included);
  ts_assessment_free(a);
  assess_world_free(&w);
}
END_TEST

Suite *suite_margins(void);
Suite *suite_margins(void) {
  Suite *suite = suite_create("margins");
  TCase *tests = tcase_create("margins");
  tcase_set_timeout(tests, 120);
  tcase_add_loop_test(tests, edges_are_where_it_changes_and_nothing_is_nearer, 0, PRODUCTIONS);
  tcase_add_test(tests, a_narrow_window_is_not_stepped_over);
  tcase_add_loop_test(tests, a_round_threshold_is_the_edge_and_on_its_right_side, 0,
                      sizeof thresholds / sizeof *thresholds);
  suite_add_tcase(suite, tests);
  return suite;
}
