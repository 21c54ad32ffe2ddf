/* What a change does elsewhere, where it touches more places than are tried: the places near what
 * it is a way down for, and the first of the others, tried one by one. */
#include "assess/probe.h"
#include "assess/ways.h"
#include "assess_world.h"
#include "base/text.h"

#include <check.h>
#include <stdlib.h>

Suite *suite_shifts(void);

enum { TASKS = 60, LOOKED_AT = 128 };

/* The deeper it is, the cooler the water must be for one rule, and the warmer for the other. */
static const char rules[] =
    "rule { id = 'warm', title = 'Warm', each = 'immersion', harm = 'performer: heat',\n"
    "  sources = { 'common practice' }, examples = {}, assess = function (i)\n"
    "    local most = i.depth > q'2 m' and q'28 degC' or q'30 degC'\n"
    "    if i.site.water.temperature > most then\n"
    "      hazard { likelihood = 4, severity = 4, because = 'warm' }\n"
    "    end end }\n"
    "rule { id = 'cold', title = 'Cold', each = 'immersion', harm = 'performer: cold',\n"
    "  sources = { 'common practice' }, examples = {}, assess = function (i)\n"
    "    if i.site.water.temperature < q'29 degC' and i.depth > q'1 m' then\n"
    "      hazard { likelihood = 4, severity = 4, because = 'cold' }\n"
    "    end end }\n";

static assess_world w;
static ts_assessment *a;
static ts_probe *probe;

static void setup(void) {
  ts_text days = {0};
  ts_text_add(&days, "<day date=\"2027-03-10\" site=\"tank\">\n");
  for (int i = 0; i < TASKS; i++)
    ts_text_addf(
        &days,
        "<task id=\"more-%d\" title=\"T\"><immersion person=\"p1\" wears=\"none\" "
        "depth=\"%d.5 m\"/><immersion person=\"p2\" wears=\"none\" depth=\"%d m\"/></task>\n",
        i, i % 4, i % 3);
  ts_text_add(&days, "</day>\n");
  assess_world_make(&w, rules, "depth=\"1 m\"", "", days.data);
  ts_text_release(&days);
  ck_assert(ts_dossier_set(w.dossier, "tank/water/temperature", "33 degC", w.problems));
  a = assess_world_full(&w);
  probe = ts_probe_new(a, NULL, NULL);
}

static void teardown(void) {
  ts_probe_free(probe);
  ts_assessment_free(a);
  assess_world_free(&w);
}

/* ---- one by one --------------------------------------------------------------------------- */

/* What somebody stands as then, and no longer as now. */
typedef struct {
  uint32_t of;
  bool fresh;
  int heat;
} other;

static other expected[4 * LOOKED_AT];
static size_t expected_count;

static bool reads(const ts_pair *pair, uint32_t slot) {
  for (size_t i = 0; i < pair->read_count; i++)
    if (pair->reads[i] == slot) return true;
  return false;
}

/* Pairs near the finding, then the others, in their order; returns how many there are in all. */
static size_t places_of(const ts_elsewhere *does, ts_subject near, size_t *places) {
  size_t count = 0, all = 0;
  for (int far = 0; far < 2; far++)
    for (size_t i = 0; i < a->pair_count; i++) {
      if (!reads(&a->pairs[i], does->slot)) continue;
      if (ts_covers(w.dossier, near, a->pairs[i].subject) == (far != 0)) continue;
      if (count < LOOKED_AT) places[count++] = i;
      all++;
    }
  return all;
}

static void expect_at(size_t pair) {
  const ts_tallies *tallies = ts_probe_try(probe, pair);
  ck_assert_ptr_nonnull(tallies);
  bool said = false;
  for (size_t i = 0; i < a->finding_count; i++) {
    const ts_finding *f = &a->findings[i];
    if (ts_pair_of(a, f) != pair) continue;
    int heat = ts_stand_heat(f->word, ts_stands(tallies, f->word, f->about));
    said = true;
    if (heat != ts_stand_heat(f->word, ts_stands_now(f)))
      expected[expected_count++] = (other){(uint32_t)i, false, heat};
  }
  int heat = ts_stand_heat(TS_HAZARD, ts_stands(tallies, TS_HAZARD, ""));
  if (!said && heat > 0) expected[expected_count++] = (other){(uint32_t)pair, true, heat};
}

static void must_be_expected(const ts_shift *shift) {
  for (size_t i = 0; i < expected_count; i++)
    if (expected[i].of == shift->of && expected[i].fresh == shift->fresh &&
        expected[i].heat == shift->rank) {
      expected[i] = expected[--expected_count];
      return;
    }
  ck_abort_msg("%u%s is said to stand otherwise", shift->of, shift->fresh ? " (new)" : "");
}

static void must_do_what_it_says(const ts_finding *finding, const ts_elsewhere *does) {
  size_t places[LOOKED_AT];
  size_t all = places_of(does, ts_control_place(w.dossier, finding->subject), places);
  ck_assert_uint_eq(does->not_tried, all - LOOKED_AT);
  expected_count = 0;
  ts_variant_put(probe->variant, does->slot, *does->value);
  for (size_t i = 0; i < LOOKED_AT; i++) expect_at(places[i]);
  ts_variant_put(probe->variant, does->slot, *ts_slot_value(w.dossier, does->slot));
  for (size_t i = 0; i < does->better_count + does->worse_count; i++)
    must_be_expected(&does->shifts[i]);
  ck_assert_uint_eq(expected_count, 0);
}

START_TEST(a_change_that_touches_a_season_does_what_it_does_one_by_one) {
  size_t wide = 0, worse = 0;
  for (size_t i = 0; i < a->finding_count; i++)
    for (size_t k = 0; k < a->findings[i].way_count; k++) {
      const ts_elsewhere *does = a->findings[i].ways[k].does;
      if (does->not_tried == 0 || does->slot == TS_NO_SLOT) continue;
      must_do_what_it_says(&a->findings[i], does);
      worse += does->worse_count > 0;
      wide++;
    }
  ck_assert_uint_gt(wide, TASKS);
  ck_assert_uint_gt(worse, 10);
  ck_assert_uint_lt(worse, wide);
}
END_TEST

Suite *suite_shifts(void) {
  Suite *suite = suite_create("shifts");
  TCase *tcase = tcase_create("shifts");
  tcase_add_checked_fixture(tcase, setup, teardown);
  tcase_set_timeout(tcase, 60);
  tcase_add_test(tcase, a_change_that_touches_a_season_does_what_it_does_one_by_one);
  suite_add_tcase(suite, tcase);
  return suite;
}
