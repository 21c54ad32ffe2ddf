/* edit: a fact written into a dossier's file changes that fact, and hardly a byte besides. */
#include "assess_world.h"
#include "draw.h"
#include "scratch.h"

#include "base/file.h"
#include "base/text.h"
#include "dossier/edit.h"
#include "dossier/subjects.h"
#include <check.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_edit(void);

enum { FACTS = 100, FACTS_SHORT = 8 };

static ts_units *units;
static ts_vocabulary *vocabulary;
static ts_diagnostics *problems;
static ts_arena *arena;
static char folder[256];

static void begin(void) {
  char why[256];
  units = ts_units_new(why, sizeof why);
  vocabulary = ts_vocabulary_new();
  problems = ts_diagnostics_new();
  arena = ts_arena_new();
  scratch_make(folder, sizeof folder);
}

static void end(void) {
  scratch_remove(folder);
  ts_arena_free(arena);
  ts_diagnostics_free(problems);
  ts_vocabulary_free(vocabulary);
  ts_units_free(units);
}

static ts_dossier *dossier_of(const char *text, size_t length) {
  const char *path = ts_path_join(arena, folder, "dossier.xml");
  ck_assert(ts_file_write(path, text, length, problems));
  return ts_dossier_read(path, vocabulary, units, problems);
}

static const char *production(const char *name, size_t *length) {
  const char *path =
      ts_arena_printf(arena, "%s/productions/%s/dossier.xml", ts_data_path(arena, "shared"), name);
  const char *text = ts_file_read(arena, path, 8 << 20, length, problems);
  ck_assert_ptr_nonnull(text);
  return text;
}

/* How many lines of one text are not in the other, counted from both ends. */
static size_t lines_touched(const char *a, const char *b) {
  size_t lines = 1;
  while (*a != '\0' && *a == *b) a++, b++;
  const char *a_end = a + strlen(a), *b_end = b + strlen(b);
  while (a_end > a && b_end > b && a_end[-1] == b_end[-1]) a_end--, b_end--;
  for (; b < b_end; b++) lines += *b == '\n';
  return lines;
}

static bool same_value(const ts_value *a, const ts_value *b) {
  return a->range.lo == b->range.lo && a->range.hi == b->range.hi && a->choices == b->choices &&
         a->certain == b->certain && a->state == b->state;
}

/* Facts made of others may follow; nothing that is written may. */
static void only_this_changed(const ts_dossier *before, const ts_dossier *after, uint32_t slot) {
  char path[256];
  ck_assert_uint_eq(ts_slot_count(before), ts_slot_count(after));
  for (uint32_t i = 0; i < ts_slot_count(before); i++) {
    if (i == slot || ts_slot_fact(before, i)->derived) continue;
    ck_assert_msg(same_value(ts_slot_value(before, i), ts_slot_value(after, i)), "%s changed too",
                  ts_slot_path(before, i, path, sizeof path));
  }
}

static bool is_written(const ts_fact_def *fact) {
  return fact->type >= TS_QUANTITY && !fact->derived;
}

static void write_unknown(const ts_dossier *dossier, uint32_t slot, const char *text,
                          size_t length) {
  ts_text edited;
  char path[256];
  ts_slot_path(dossier, slot, path, sizeof path);
  if (ts_edit_source(dossier, slot) != 0) return;
  ck_assert_msg(ts_edit_fact(dossier, slot, "?", text, length, &edited, problems), "%s", path);
  ck_assert_msg(lines_touched(text, edited.data) <= 4, "%s: more than its place was touched", path);
  ts_dossier *after = dossier_of(edited.data, edited.length);
  ck_assert_msg(after != NULL, "%s", path);
  only_this_changed(dossier, after, slot);
  ck_assert_int_eq((int)ts_slot_value(after, slot)->state, TS_UNKNOWN);
  ts_dossier_free(after);
  ts_text_release(&edited);
}

START_TEST(any_fact_of_a_production_can_be_written_and_no_other_changes) {
  static const char *const names[] = {"lake-stunt", "stage-pool"};
  int count = getenv("TANKSIDE_TEST_SHORT") ? FACTS_SHORT : FACTS;
  size_t length;
  const char *text = production(names[_i], &length);
  ts_dossier *dossier = dossier_of(text, length);
  ck_assert_ptr_nonnull(dossier);
  draws luck = {(uint64_t)_i + 7};
  for (int i = 0; i < count / 2;) {
    uint32_t slot = (uint32_t)draw_below(&luck, ts_slot_count(dossier));
    const ts_fact_def *fact = ts_slot_fact(dossier, slot);
    const ts_entity_def *entity = ts_subject_at(dossier, ts_slot_subject(dossier, slot))->entity;
    if (!is_written(fact) || entity->parent == NULL) continue;
    write_unknown(dossier, slot, text, length);
    i++;
  }
  ts_dossier_free(dossier);
}
END_TEST

/* ---- by hand -------------------------------------------------------------------------------- */

static const char small[] =
    "<?xml version=\"1.0\"?>\n"
    "<!-- ours -->\n"
    "<dossier format=\"1\">\n"
    "  <production title=\"Mill\" jurisdiction=\"gb-eng\" revision=\"1\" on=\"2027-05-01\" by=\"I. "
    "Marsh\"/>\n"
    "  <site id='race'\n"
    "        indoor='no' ><basin  depth = '2 m' /></site>\n"
    "  <person id=\"a\" role=\"performer\"/> <person id=\"b\" role=\"performer\"/>\n"
    "  <day date=\"2027-05-11\" site=\"race\"/>\n"
    "</dossier>\n";

static void written(const char *path, const char *value, const char *from, const char *to) {
  ts_dossier *dossier = dossier_of(small, strlen(small));
  char found[256];
  uint32_t slot = 0;
  ck_assert_ptr_nonnull(dossier);
  while (slot < ts_slot_count(dossier) &&
         !ts_same(ts_slot_path(dossier, slot, found, sizeof found), path))
    slot++;
  ck_assert_msg(slot < ts_slot_count(dossier), "no fact %s", path);
  ts_text edited, expected = {0};
  ck_assert(ts_edit_fact(dossier, slot, value, small, strlen(small), &edited, problems));
  const char *at = strstr(small, from);
  ts_text_add_n(&expected, small, (size_t)(at - small));
  ts_text_add(&expected, to);
  ts_text_add(&expected, at + strlen(from));
  ck_assert_str_eq(edited.data, expected.data);
  ts_text_release(&edited);
  ts_text_release(&expected);
  ts_dossier_free(dossier);
}

START_TEST(a_value_takes_the_place_of_the_old_one) {
  written("race/basin/depth", "2.4 m", "'2 m'", "'2.4 m'");
}
END_TEST

START_TEST(a_new_attribute_stands_after_the_others) {
  written("race/basin/length", "9 m", "depth = '2 m' /", "depth = '2 m' length=\"9 m\" /");
}
END_TEST

START_TEST(of_two_on_a_line_the_right_one) {
  written("b/mass", "70 kg", "id=\"b\" role=\"performer\"",
          "id=\"b\" role=\"performer\" mass=\"70 kg\"");
}
END_TEST

START_TEST(a_part_that_nobody_wrote_is_begun) {
  written("race/water/temperature", "18 degC", "indoor='no' >",
          "indoor='no' >\n    <water temperature=\"18 degC\"/>");
}
END_TEST

START_TEST(what_a_value_holds_is_escaped) {
  ts_text out;
  ts_edit_evidence evidence = {"measured", "A \"B\" <C> & D's", "2027-05-01", NULL};
  ck_assert(ts_edit_add_evidence("race/basin/depth", &evidence, small, strlen(small), &out));
  ck_assert_ptr_nonnull(strstr(
      out.data, "  <evidence for=\"race/basin/depth\" kind=\"measured\" "
                "by=\"A &quot;B&quot; &lt;C> &amp; D&apos;s\" on=\"2027-05-01\"/>\n</dossier>\n"));
  ts_dossier *dossier = dossier_of(out.data, out.length);
  ck_assert_ptr_nonnull(dossier);
  ck_assert_str_eq(ts_evidence_at(dossier, 0)->by, evidence.by);
  ts_dossier_free(dossier);
  ts_text_release(&out);
}
END_TEST

START_TEST(a_file_changed_meanwhile_is_left_alone) {
  ts_dossier *dossier = dossier_of(small, strlen(small));
  char *other = ts_arena_copy(arena, small);
  ts_text out;
  other[strlen(other) - 2] = ' ';
  ck_assert(!ts_edit_fact(dossier, ts_subject_at(dossier, 1)->slot + 3, "?", other, strlen(other),
                          &out, problems));
  ck_assert_uint_eq(ts_count(problems, TS_ERROR), 1);
  ts_dossier_free(dossier);
}
END_TEST

Suite *suite_edit(void) {
  Suite *suite = suite_create("edit");
  TCase *hand = tcase_create("by hand"), *lot = tcase_create("by lot");
  tcase_add_checked_fixture(hand, begin, end);
  tcase_add_checked_fixture(lot, begin, end);
  tcase_add_test(hand, a_value_takes_the_place_of_the_old_one);
  tcase_add_test(hand, a_new_attribute_stands_after_the_others);
  tcase_add_test(hand, of_two_on_a_line_the_right_one);
  tcase_add_test(hand, a_part_that_nobody_wrote_is_begun);
  tcase_add_test(hand, what_a_value_holds_is_escaped);
  tcase_add_test(hand, a_file_changed_meanwhile_is_left_alone);
  tcase_add_loop_test(lot, any_fact_of_a_production_can_be_written_and_no_other_changes, 0, 2);
  tcase_set_timeout(lot, 120);
  suite_add_tcase(suite, hand);
  suite_add_tcase(suite, lot);
  return suite;
}
