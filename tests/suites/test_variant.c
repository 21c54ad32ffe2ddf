/* Variants, and how a dossier keeps its values and its texts. */
#include "base/digest.h"
#include "base/file.h"
#include "dossier/world.h"
#include "said.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_variant(void);

static ts_arena *arena;
static ts_vocabulary *vocabulary;
static ts_units *units;
static ts_diagnostics *problems;
static ts_dossier *dossier;

static const char text[] =
    "<dossier format='1'><production title='P' reference='R' jurisdiction='gb-eng' revision='1'"
    " on='2027-01-05' by='B'/><site id='tank'><water temperature='26 degC'/></site>"
    "<person id='p1' role='performer' born='2000-03-09'/><person id='p2' role='performer'/>"
    "<day date='2027-03-09' site='tank'><task id='t1' title='T'>"
    "<immersion person='p1' wears='none' depth='2 m' time='10 min'/>"
    "<immersion person='p2' wears='none' depth='2 m' time='10 min'/>"
    "<control ref='one' state='planned'/></task></day></dossier>";

static void setup(void) {
  char why[256];
  arena = ts_arena_new();
  vocabulary = ts_vocabulary_new();
  units = ts_units_new(why, sizeof why);
  problems = ts_diagnostics_new();
  dossier = ts_dossier_read_text(text, strlen(text), "dossier.xml", vocabulary, units, problems);
  ck_assert_msg(dossier != NULL, "%s", said_of(problems, arena));
}

static void teardown(void) {
  ts_dossier_free(dossier);
  ts_diagnostics_free(problems);
  ts_units_free(units);
  ts_vocabulary_free(vocabulary);
  ts_arena_free(arena);
}

static uint32_t slot_of(const char *subject, const char *fact) {
  uint32_t slot = ts_world_slot(dossier, ts_subject_find(dossier, subject), fact);
  ck_assert_uint_ne(slot, TS_ABSENT);
  return slot;
}

static double low(const ts_dossier *of, uint32_t slot) { return ts_slot_value(of, slot)->range.lo; }

static ts_value number(double x) { return (ts_value){.range = {x, x}, .state = TS_SET_BY_USER}; }

START_TEST(what_is_equal_is_kept_once_and_changed_alone) {
  uint32_t one = slot_of("t1/p1", "depth"), two = slot_of("t1/p2", "depth");
  ck_assert_ptr_eq(ts_slot_value(dossier, one), ts_slot_value(dossier, two));
  ck_assert(ts_dossier_set(dossier, "t1/p1/depth", "3 m", problems));
  ck_assert_double_eq(low(dossier, one), 3);
  ck_assert_double_eq(low(dossier, two), 2);
}
END_TEST

START_TEST(a_variant_is_as_the_dossier_was_when_it_was_made) {
  uint32_t depth = slot_of("t1/p1", "depth");
  ts_dossier *was = ts_dossier_variant(dossier);
  ck_assert(ts_dossier_set(dossier, "t1/p1/depth", "3 m", problems));
  ck_assert_double_eq(low(was, depth), 2);
  ts_dossier_free(was);
}
END_TEST

START_TEST(variants_over_one_dossier_do_not_see_each_other) {
  uint32_t time = slot_of("t1/p1", "time"), all = slot_of("p1@2027-03-09", "time");
  ts_dossier *a = ts_dossier_variant_over(dossier, NULL), *b = ts_dossier_variant_over(dossier, a);
  ts_variant_put(a, time, number(1200));
  ts_variant_put(b, time, number(1800));
  ck_assert_double_eq(low(a, all), 1200);
  ck_assert_double_eq(low(b, all), 1800);
  ts_variant_put(b, time, *ts_slot_value(dossier, time));
  ck_assert_double_eq(low(b, all), 600);
  ck_assert_ptr_eq(ts_slot_value(b, time), ts_slot_value(dossier, time));
  ck_assert_double_eq(low(dossier, all), 600);
  ts_dossier_free(b);
  ts_dossier_free(a);
}
END_TEST

START_TEST(a_variant_of_a_variant_has_its_values_and_controls) {
  uint32_t time = slot_of("t1/p1", "time"), all = slot_of("p1@2027-03-09", "time");
  ts_applied_control two = {.control = "two", .in_place = true, .file = ""};
  ts_dossier *first = ts_dossier_variant(dossier), *over;
  ts_variant_put(first, time, number(1200));
  ts_variant_apply(first, &two);
  over = ts_dossier_variant_over(first, NULL);
  ck_assert_uint_eq(ts_applied_count(over), 2);
  ck_assert_str_eq(ts_applied_at(over, 0)->control, "one");
  ck_assert_str_eq(ts_applied_at(over, 1)->control, "two");
  ts_variant_apply(over, &two);
  ck_assert_uint_eq(ts_applied_count(over), 3);
  ts_variant_keep(over, 2);
  ck_assert_uint_eq(ts_applied_count(over), 2);
  ck_assert_uint_eq(ts_applied_count(dossier), 1);
  ck_assert_double_eq(low(over, all), 1200);
  ts_variant_put(over, time, number(60));
  ts_variant_put(over, time, number(1200));
  ck_assert_double_eq(low(over, all), 1200);
  ts_dossier_free(over);
  ts_dossier_free(first);
}
END_TEST

/* The text is followed by white space up to so many bytes. */
static void check_source(size_t length) {
  char *padded = ts_arena_alloc(arena, length + 1), digest[65], expected[65];
  memset(padded, '\n', length);
  memcpy(padded, text, strlen(text));
  ts_dossier *read = ts_dossier_read_text(padded, length, "d.xml", vocabulary, units, problems);
  ck_assert_ptr_nonnull(read);
  ck_assert_str_eq(ts_source_digest(read, 0, digest), ts_digest(padded, length, expected));
  ck_assert(ts_source_is(&read->sources[0], padded, length));
  ck_assert(!ts_source_is(&read->sources[0], padded, length - 1));
  padded[length - 1] = ' ';
  ck_assert(!ts_source_is(&read->sources[0], padded, length));
  ts_dossier_free(read);
}

START_TEST(a_long_text_is_known_again_too) {
  check_source(TS_SOURCE_KEPT);
  check_source(TS_SOURCE_KEPT + 1);
}
END_TEST

Suite *suite_variant(void) {
  Suite *suite = suite_create("variant");
  TCase *tcase = tcase_create("variant");
  tcase_add_checked_fixture(tcase, setup, teardown);
  tcase_add_test(tcase, what_is_equal_is_kept_once_and_changed_alone);
  tcase_add_test(tcase, a_variant_is_as_the_dossier_was_when_it_was_made);
  tcase_add_test(tcase, variants_over_one_dossier_do_not_see_each_other);
  tcase_add_test(tcase, a_variant_of_a_variant_has_its_values_and_controls);
  tcase_add_test(tcase, a_long_text_is_known_again_too);
  suite_add_tcase(suite, tcase);
  return suite;
}
