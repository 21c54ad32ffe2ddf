/* Merging, scoring, crediting, waiving and counting, on packs and dossiers made for it. */
#include "assess_world.h"

#include "base/text.h"
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- a pack to test with ------------------------------------------------------------ */

#define CONTROL(id, kind, effect)                                                                  \
  "control { id = '" id "', title = 'C', kind = '" kind "', say = 'Do it.', check = 'look',"       \
  " often = 'daily', who = 'us', " effect " }\n"

#define RULE(id, each, body)                                                                       \
  "rule { id = '" id "', title = 'T', each = '" each "', harm = 'performer: drowning',"            \
  " sources = { 'common practice' }, assess = function (i)\n" body "\nend, examples = {} }\n"

static const char controls[] = CONTROL(
    "shorter", "engineering", "changes = { { fact = 'immersion.breath-hold', at_most = '8 s' } }")
    CONTROL("second-air", "engineering", "lowers = { likelihood = 1, severity = 1 }")
        CONTROL("drill", "administrative", "lowers = { likelihood = 2 }")
            CONTROL("gloves", "ppe", "lowers = { likelihood = 2 }");

static const char hold_rule[] = RULE(
    "hold", "immersion",
    "  local named = { 'second-air', 'drill', 'gloves', 'shorter' }\n"
    "  if i.breath_hold > q'20 s' then\n"
    "    hazard { likelihood = 5, severity = 5, because = '{i.breath_hold}', controls = named }\n"
    "  elseif i.breath_hold > q'10 s' then\n"
    "    hazard { likelihood = 3, severity = 4, because = '{i.breath_hold}', controls = named }\n"
    "  end\n"
    "  if i.breath_hold > q'60 s' then stop { because = 'too long' } end");

static assess_world w;
static ts_assessment *a;

static void make(const char *rules, const char *immersion, const char *inside, const char *after) {
  char *both = NULL;
  size_t size = 0;
  FILE *out = open_memstream(&both, &size);
  fputs(controls, out);
  fputs(rules, out);
  fclose(out);
  assess_world_make(&w, both, immersion, inside, after);
  free(both);
  a = assess_world_run(&w);
}

static void end(void) {
  ts_assessment_free(a);
  assess_world_free(&w);
  a = NULL;
}

static void check_score(ts_score score, int likelihood, int severity) {
  ck_assert_int_eq(score.likelihood, likelihood);
  ck_assert_int_eq(score.severity, severity);
}

static ts_standing standing_of(const char *rule, ts_view view) {
  return finding_of(a, rule, "t1/p1", NULL).standing[view];
}

/* ---- worst and best -------------------------------------------------------------------- */

START_TEST(a_settled_fact_gives_one_score) {
  make(hold_rule, "breath-hold=\"15 s\"", "", "");
  ts_standing s = standing_of("hold", TS_AS_DESCRIBED);
  check_score(s.worst, 3, 4);
  check_score(s.best, 3, 4);
  ck_assert(s.settled);
  ck_assert_int_eq(s.certainty, TS_CERTAIN);
  ck_assert(!has_finding(a, "hold", "t1/p2"));
  end();
}
END_TEST

START_TEST(a_range_gives_worst_and_best) {
  make(hold_rule, "breath-hold=\"15..30 s\"", "", "");
  ts_standing s = standing_of("hold", TS_IN_PLACE);
  check_score(s.worst, 5, 5);
  check_score(s.best, 3, 4);
  ck_assert(!s.settled);
  end();
}
END_TEST

START_TEST(a_course_without_the_finding_makes_best_none) {
  make(hold_rule, "breath-hold=\"5..15 s\"", "", "");
  ts_standing s = standing_of("hold", TS_IN_PLACE);
  check_score(s.worst, 3, 4);
  check_score(s.best, 0, 0);
  ck_assert_int_eq(s.certainty, TS_POSSIBLE);
  end();
}
END_TEST

START_TEST(an_unknown_fact_counts_as_its_worst_and_may_stop) {
  make(hold_rule, "", "", "");
  ck_assert_uint_eq(ts_assessment_summary(a).stops, 1);
  ck_assert_uint_eq(ts_assessment_summary(a).open, 1);
  ck_assert_str_eq(ts_finding_at(a, 0).word, "stop");
  ck_assert_int_eq(ts_finding_at(a, 0).standing[TS_IN_PLACE].certainty, TS_POSSIBLE);
  check_score(ts_finding_at(a, 1).standing[TS_IN_PLACE].worst, 5, 5);
  ck_assert(ts_assessment_holds(a));
  end();
}
END_TEST

START_TEST(a_certain_stop_stays_with_everything_planned) {
  make(hold_rule, "breath-hold=\"90 s\"", "<control ref=\"second-air\" state=\"planned\"/>", "");
  ts_finding_view f = ts_finding_at(a, 0);
  ck_assert_str_eq(f.word, "stop");
  for (int view = 0; view < TS_VIEWS; view++)
    ck_assert_int_eq(f.standing[view].certainty, TS_CERTAIN);
  end();
}
END_TEST

/* ---- the floor ------------------------------------------------------------------------- */

static const char rare_rule[] =
    RULE("rare", "immersion",
         "  if i.first_time then hazard { likelihood = 1, severity = 3, because = 'x' }\n"
         "  else hazard { likelihood = 1, severity = 2, because = 'y' } end");

START_TEST(nothing_is_scored_1_on_an_assumed_fact) {
  make(rare_rule, "", "", "");
  ts_standing s = standing_of("rare", TS_IN_PLACE);
  check_score(s.worst, 2, 3);
  ck_assert(s.floored);
  check_score(s.best, 1, 2);
  end();
  make(rare_rule, "first-time=\"yes\"", "", "");
  s = standing_of("rare", TS_IN_PLACE);
  check_score(s.worst, 1, 3);
  ck_assert(!s.floored);
  end();
}
END_TEST

/* ---- controls --------------------------------------------------------------------------- */

#define IN_PLACE(ref) "<control ref=\"" ref "\" state=\"in-place\" by=\"us\" on=\"2027-03-01\"/>"
#define PLANNED(ref) "<control ref=\"" ref "\" state=\"planned\"/>"

START_TEST(changes_are_computed_and_only_in_place_counts) {
  make(hold_rule, "breath-hold=\"15 s\"", PLANNED("shorter"), "");
  check_score(standing_of("hold", TS_AS_DESCRIBED).worst, 3, 4);
  check_score(standing_of("hold", TS_IN_PLACE).worst, 3, 4);
  check_score(standing_of("hold", TS_AS_PLANNED).worst, 0, 0);
  ck_assert_uint_eq(ts_assessment_summary(a).above, 1);
  end();
  make(hold_rule, "breath-hold=\"15 s\"", IN_PLACE("shorter"), "");
  check_score(standing_of("hold", TS_IN_PLACE).worst, 0, 0);
  ck_assert_uint_eq(ts_assessment_summary(a).above, 0);
  end();
}
END_TEST

START_TEST(a_value_on_the_control_replaces_the_catalogues) {
  make(hold_rule, "breath-hold=\"30 s\"",
       "<control ref=\"shorter\" to=\"15 s\" state=\"in-place\" by=\"us\" on=\"2027-03-01\"/>", "");
  check_score(standing_of("hold", TS_AS_DESCRIBED).worst, 5, 5);
  check_score(standing_of("hold", TS_IN_PLACE).worst, 3, 4);
  end();
}
END_TEST

START_TEST(engineering_lowers_both) {
  make(hold_rule, "breath-hold=\"30 s\"", IN_PLACE("second-air"), "");
  check_score(standing_of("hold", TS_AS_DESCRIBED).worst, 5, 5);
  check_score(standing_of("hold", TS_IN_PLACE).worst, 4, 4);
  check_score(standing_of("hold", TS_IN_PLACE).best, 4, 4);
  end();
}
END_TEST

START_TEST(administrative_and_ppe_together_lower_by_two_at_most) {
  make(hold_rule, "breath-hold=\"30 s\"", IN_PLACE("drill") IN_PLACE("gloves"), "");
  check_score(standing_of("hold", TS_IN_PLACE).worst, 3, 5);
  end();
}
END_TEST

START_TEST(credit_needs_the_control_to_be_named_and_near) {
  static const char other[] = RULE("other", "immersion",
                                   "  if i.breath_hold > q'10 s' then hazard { likelihood = 4, "
                                   "severity = 4, because = 'x' } end");
  make(other, "breath-hold=\"15 s\"", IN_PLACE("second-air"), "");
  check_score(standing_of("other", TS_IN_PLACE).worst, 4, 4);
  end();
  /* On the second day's task: not over the first day's immersion. */
  make(hold_rule, "breath-hold=\"30 s\"", "",
       "<day date=\"2027-03-10\" site=\"tank\"><task id=\"t2\" title=\"Other\" start=\"10:00\""
       " finish=\"11:00\"><immersion person=\"p1\" wears=\"none\" breath-hold=\"5 s\"/>" IN_PLACE(
           "second-air") "</task></day>");
  check_score(standing_of("hold", TS_IN_PLACE).worst, 5, 5);
  end();
}
END_TEST

START_TEST(a_score_is_never_credited_below_1) {
  static const char low[] =
      RULE("low", "immersion",
           "  hazard { likelihood = 1, severity = 1, because = 'x', controls = { 'second-air' } }");
  make(low, "", IN_PLACE("second-air"), "");
  check_score(standing_of("low", TS_IN_PLACE).worst, 1, 1);
  end();
}
END_TEST

START_TEST(an_unknown_control_is_an_error_with_the_nearest_name) {
  assess_world_make(&w, controls, "", PLANNED("second-ear"), "");
  ts_assess_inputs inputs = {
      .dossier = w.dossier, .packs = w.packs, .matrix = w.matrix, .units = w.units};
  ck_assert_ptr_null(ts_assess(&inputs, w.problems));
  const char *said = assess_world_said(&w);
  ck_assert_msg(strstr(said, "unknown control \"second-ear\"; the nearest name is \"second-air\""),
                "%s", said);
  ck_assert_ptr_nonnull(strstr(said, "dossier.xml:11: error"));
  assess_world_free(&w);
}
END_TEST

/* ---- duties ------------------------------------------------------------------------------- */

static const char duty_rule[] =
    RULE("plan", "immersion",
         "  duty { met = i.escorted, instrument = 'Policy', section = '1', because = 'x' }");

static const char *duty_state(const char *immersion) {
  make(duty_rule, immersion, "", "");
  const char *state = finding_of(a, "plan", "t1/p1", "").state;
  end();
  return state;
}

START_TEST(duties_are_met_open_or_not_met) {
  ck_assert_str_eq(duty_state("escorted=\"yes\""), "met");
  ck_assert_str_eq(duty_state("escorted=\"no\""), "not-met");
  ck_assert_str_eq(duty_state("escorted=\"?\""), "open");
}
END_TEST

/* ---- what could not be seen ------------------------------------------------------------------ */

static const char failing_rule[] =
    RULE("fails", "immersion", "  if i.breath_hold > q'10 s' then error('no') end");

START_TEST(a_failure_is_reported_and_makes_it_incomplete) {
  make(failing_rule, "breath-hold=\"15 s\"", "", "");
  ts_summary s = ts_assessment_summary(a);
  ck_assert_uint_eq(s.failed, 1);
  ck_assert(!s.complete);
  ck_assert(ts_assessment_holds(a));
  char *bytes;
  size_t length;
  ts_assessment_write(a, &bytes, &length);
  ck_assert_ptr_nonnull(strstr(bytes, "complete=\"no\""));
  ck_assert_ptr_nonnull(strstr(bytes, "<failure rule=\"fails\" subject=\"t1/p1\""));
  free(bytes);
  end();
}
END_TEST

static const char fork_rule[] =
    RULE("forks", "immersion",
         "  local n = 0\n"
         "  for _, f in ipairs { i.first_time, i.mask, i.eyes_open, i.escorted, i.slow_entry,\n"
         "      i.hears_recall, i.trained_that_day, i.withdrawal_signal, i.robe, i.can_stand } do\n"
         "    if f then n = n + 1 end\n"
         "  end\n"
         "  if n > 100 then hazard { likelihood = 2, severity = 2, because = 'x' } end");

START_TEST(too_many_courses_count_as_the_declared_worst) {
  make(fork_rule, "", "", "");
  ts_standing s = standing_of("forks", TS_IN_PLACE);
  ck_assert(s.unresolved);
  check_score(s.worst, 5, 5);
  check_score(s.best, 0, 0);
  end();
}
END_TEST

/* ---- waivers --------------------------------------------------------------------------- */

#define WAIVER(rule) "<waiver rule=\"" rule "\" by=\"us\" until=\"2027-12-31\" because=\"agreed\"/>"

START_TEST(a_waived_finding_is_kept_and_not_counted) {
  make(hold_rule, "breath-hold=\"30 s\"", "", WAIVER("hold"));
  ts_summary s = ts_assessment_summary(a);
  ck_assert_uint_eq(s.above, 0);
  ck_assert_uint_eq(s.waived, 1);
  ck_assert(finding_of(a, "hold", "t1/p1", "").waived);
  check_score(standing_of("hold", TS_IN_PLACE).worst, 5, 5);
  end();
}
END_TEST

START_TEST(a_waiver_never_lifts_a_stop) {
  make(hold_rule, "breath-hold=\"90 s\"", "", WAIVER("hold"));
  ck_assert_uint_eq(ts_assessment_summary(a).stops, 1);
  ck_assert(!ts_finding_at(a, 0).waived);
  ck_assert(ts_assessment_holds(a));
  end();
}
END_TEST

START_TEST(an_incomplete_waiver_does_not_count) {
  make(hold_rule, "breath-hold=\"30 s\"", "",
       "<waiver rule=\"hold\" by=\"us\" until=\"2020-01-01\" because=\"agreed\"/>");
  ck_assert_uint_eq(ts_assessment_summary(a).above, 1);
  ck_assert_uint_ge(ts_count(w.problems, TS_WARNING), 1);
  end();
}
END_TEST

/* ---- order, places, documents ---------------------------------------------------------- */

START_TEST(findings_are_ordered_and_numbered) {
  static const char rules[] =
      RULE("b", "immersion", "  hazard { likelihood = 2, severity = 2, because = 'x' }")
          RULE("c", "immersion", "  hazard { likelihood = 5, severity = 5, because = 'x' }")
              RULE("d", "immersion", "  note { because = 'x' }")
                  RULE("e", "immersion", "  stop { because = 'x' }")
                      RULE("a", "immersion",
                           "  hazard { likelihood = 2, severity = 2, because = 'x', about = 'z' }\n"
                           "  hazard { likelihood = 2, severity = 2, because = 'x', about = 'y' }");
  static const char *const expected[] = {"e t1/p1 ",  "e t1/p2 ",  "c t1/p1 ",  "c t1/p2 ",
                                         "a t1/p1 y", "a t1/p1 z", "a t1/p2 y", "a t1/p2 z",
                                         "b t1/p1 ",  "b t1/p2 ",  "d t1/p1 ",  "d t1/p2 "};
  make(rules, "", "", "");
  ck_assert_uint_eq(ts_finding_count(a), 12);
  for (size_t i = 0; i < 12; i++) {
    ts_finding_view f = ts_finding_at(a, i);
    char found[64], id[24];
    snprintf(found, sizeof found, "%s %s %s", f.rule, f.subject, f.about);
    snprintf(id, sizeof id, "F%zu", i + 1);
    ck_assert_str_eq(found, expected[i]);
    ck_assert_str_eq(f.id, id);
  }
  end();
}
END_TEST

START_TEST(what_does_not_apply_is_listed_with_why) {
  static const char rule[] =
      "rule { id = 'deep', title = 'T', each = 'immersion', harm = 'x: y', sources = { 'common "
      "practice' },"
      " when = function (i) return i.depth > q'3 m' end,"
      " assess = function (i) hazard { likelihood = 2, severity = 2, because = 'x' } end,"
      " examples = {} }";
  char *bytes;
  size_t length;
  make(rule, "depth=\"2 m\"", "", "");
  ts_assessment_write(a, &bytes, &length);
  ck_assert_ptr_nonnull(strstr(bytes, "subjects=\"2\" applied=\"0\" found=\"0\""));
  ck_assert_msg(strstr(bytes, "<skipped subject=\"t1/p1\" subject-label=\"One in “Task”\" "
                              "because=\"depth (2 m) ≤ 3 m\"/>"),
                "%s", strstr(bytes, "<looked-at"));
  free(bytes);
  end();
}
END_TEST

static bool add_piece(void *context, const char *bytes, size_t length) {
  ts_text_add_n(context, bytes, length);
  return true;
}

static bool refuse(void *context, const char *bytes, size_t length) {
  (void)bytes, (void)length;
  ++*(int *)context;
  return false;
}

START_TEST(handed_over_it_is_the_same_text) {
  char *bytes;
  size_t length;
  int asked = 0;
  ts_text pieces = {0};
  make(hold_rule, "breath-hold=\"15..30 s\"", IN_PLACE("drill"), "");
  ts_assessment_write(a, &bytes, &length);
  ck_assert(ts_assessment_write_to(a, add_piece, &pieces));
  ck_assert_uint_eq(pieces.length, length);
  ck_assert_mem_eq(pieces.data, bytes, length);
  ck_assert(!ts_assessment_write_to(a, refuse, &asked));
  ck_assert_int_eq(asked, 1);
  ts_text_release(&pieces);
  free(bytes);
  end();
}
END_TEST

START_TEST(the_same_inputs_give_the_same_bytes) {
  char *one, *two;
  size_t first, second;
  make(hold_rule, "breath-hold=\"15..30 s\"", IN_PLACE("drill"), WAIVER("hold"));
  ts_assessment_write(a, &one, &first);
  ts_assessment *again = assess_world_run(&w);
  ts_assessment_write(again, &two, &second);
  ck_assert_uint_eq(first, second);
  ck_assert_mem_eq(one, two, first);
  ck_assert_ptr_null(strstr(one, w.folder));
  ts_assessment_free(again);
  free(one);
  free(two);
  end();
}
END_TEST

Suite *suite_assess(void);

Suite *suite_assess(void) {
  const TTest *const tests[] = {a_settled_fact_gives_one_score,
                                a_range_gives_worst_and_best,
                                a_course_without_the_finding_makes_best_none,
                                an_unknown_fact_counts_as_its_worst_and_may_stop,
                                a_certain_stop_stays_with_everything_planned,
                                nothing_is_scored_1_on_an_assumed_fact,
                                changes_are_computed_and_only_in_place_counts,
                                a_value_on_the_control_replaces_the_catalogues,
                                engineering_lowers_both,
                                administrative_and_ppe_together_lower_by_two_at_most,
                                credit_needs_the_control_to_be_named_and_near,
                                a_score_is_never_credited_below_1,
                                an_unknown_control_is_an_error_with_the_nearest_name,
                                duties_are_met_open_or_not_met,
                                a_failure_is_reported_and_makes_it_incomplete,
                                too_many_courses_count_as_the_declared_worst,
                                a_waived_finding_is_kept_and_not_counted,
                                a_waiver_never_lifts_a_stop,
                                an_incomplete_waiver_does_not_count,
                                findings_are_ordered_and_numbered,
                                what_does_not_apply_is_listed_with_why,
                                handed_over_it_is_the_same_text,
                                the_same_inputs_give_the_same_bytes};
  Suite *suite = suite_create("assess");
  TCase *cases = tcase_create("assess");
  for (size_t i = 0; i < sizeof tests / sizeof tests[0]; i++) tcase_add_test(cases, tests[i]);
  suite_add_tcase(suite, cases);
  return suite;
}
