/* The example productions: read without an error, and rich enough to try the
 * vocabulary on. */
#include "base/arena.h"
#include "base/file.h"
#include "base/text.h"
#include "dossier/subjects.h"

#include <check.h>
#include <stdlib.h>

Suite *suite_productions(void);

static const char *const productions[] = {"tank-serial", "stage-pool", "lake-stunt"};
enum { PRODUCTIONS = sizeof productions / sizeof *productions };

static ts_arena *arena;
static ts_units *units;
static ts_vocabulary *vocabulary;
static ts_dossier *dossiers[PRODUCTIONS];

static ts_dossier *read_production(const char *name) {
  ts_diagnostics *problems = ts_diagnostics_new();
  char *path =
      ts_arena_printf(arena, "%s/productions/%s/dossier.xml", ts_data_path(arena, "shared"), name);
  ts_dossier *dossier = ts_dossier_read(path, vocabulary, units, problems);
  if (ts_count(problems, TS_ERROR) || ts_count(problems, TS_WARNING))
    ts_diagnostics_print(problems, stderr);
  ck_assert_ptr_nonnull(dossier);
  ck_assert_uint_eq(ts_count(problems, TS_WARNING), 0);
  ts_diagnostics_free(problems);
  return dossier;
}

static void setup(void) {
  char why[256];
  arena = ts_arena_new();
  units = ts_units_new(why, sizeof why);
  ck_assert_msg(units != NULL, "%s", why);
  vocabulary = ts_vocabulary_new();
  for (size_t i = 0; i < PRODUCTIONS; i++) dossiers[i] = read_production(productions[i]);
}

static void teardown(void) {
  for (size_t i = 0; i < PRODUCTIONS; i++) ts_dossier_free(dossiers[i]);
  ts_vocabulary_free(vocabulary);
  ts_units_free(units);
  ts_arena_free(arena);
}

static bool stated(const ts_dossier *dossier, const ts_fact_def *fact) {
  for (uint32_t slot = 0; slot < ts_slot_count(dossier); slot++)
    if (ts_slot_fact(dossier, slot) == fact && ts_slot_value(dossier, slot)->state == TS_STATED &&
        ts_slot_value(dossier, slot)->text)
      return true;
  return false;
}

static bool stated_somewhere(const ts_fact_def *fact) {
  for (size_t i = 0; i < PRODUCTIONS; i++)
    if (stated(dossiers[i], fact)) return true;
  return false;
}

START_TEST(together_they_state_most_of_the_vocabulary) {
  size_t all = 0, said = 0;
  for (size_t e = 0; e < ts_entity_count(vocabulary); e++) {
    const ts_entity_def *entity = ts_entity_at(vocabulary, e);
    for (size_t f = 0; f < ts_fact_count(vocabulary, entity); f++) {
      const ts_fact_def *fact = ts_fact_at(vocabulary, entity, f);
      if (fact->type < TS_QUANTITY || fact->derived) continue;
      all++;
      said += stated_somewhere(fact);
    }
  }
  ck_assert_msg(said * 10 >= all * 9, "%zu of %zu facts", said, all);
}
END_TEST

START_TEST(each_leaves_something_open_and_says_most) {
  for (size_t i = 0; i < PRODUCTIONS; i++) {
    size_t written = 0, asked = 0;
    for (uint32_t slot = 0; slot < ts_slot_count(dossiers[i]); slot++) {
      const ts_value *value = ts_slot_value(dossiers[i], slot);
      if (!value->text || ts_slot_fact(dossiers[i], slot)->type < TS_QUANTITY) continue;
      if (value->state == TS_UNKNOWN)
        asked++;
      else
        written++;
    }
    ck_assert_msg(asked >= 3, "%s: %zu facts are marked ?", productions[i], asked);
    ck_assert_msg(written >= 1000, "%s: %zu facts", productions[i], written);
  }
}
END_TEST

static size_t applied(const ts_dossier *dossier, bool in_place) {
  size_t count = 0;
  for (size_t i = 0; i < ts_applied_count(dossier); i++)
    count += ts_applied_at(dossier, i)->in_place == in_place;
  return count;
}

START_TEST(each_has_evidence_and_controls_in_place_and_planned) {
  for (size_t i = 0; i < PRODUCTIONS; i++) {
    ck_assert_msg(ts_evidence_count(dossiers[i]) >= 3, "%s", productions[i]);
    ck_assert_msg(applied(dossiers[i], true) >= 1, "%s", productions[i]);
    ck_assert_msg(applied(dossiers[i], false) >= 1, "%s", productions[i]);
  }
}
END_TEST

START_TEST(the_serial_is_split_into_a_file_a_day) {
  ck_assert_uint_eq(ts_source_count(dossiers[0]), 7);
  ck_assert_str_eq(ts_source_name(dossiers[0], 1), "day-1.xml");
}
END_TEST

/* 14 + 11 min in Ada's records of day 1 in the dive log; Tove 18 + 11; both written in day-1.xml.
 */
START_TEST(the_logs_add_up_to_what_the_serial_states) {
  static const struct {
    const char *path;
    double minutes;
  } totals[] = {{"ada@2027-03-08", 25}, {"tove@2027-03-08", 29}, {"ines@2027-03-09", 14}};
  for (size_t i = 0; i < sizeof totals / sizeof *totals; i++) {
    ts_subject subject = ts_subject_find(dossiers[0], totals[i].path);
    ck_assert_msg(subject != TS_NO_SUBJECT, "%s", totals[i].path);
    ts_field records = ts_subject_field(dossiers[0], subject, "records");
    double sum = 0;
    for (size_t r = 0; r < records.count; r++) {
      ts_field down = ts_subject_field(dossiers[0], records.list[r], "down");
      ts_field up = ts_subject_field(dossiers[0], records.list[r], "up");
      sum += ts_slot_value(dossiers[0], up.slot)->range.lo -
             ts_slot_value(dossiers[0], down.slot)->range.lo;
    }
    ck_assert_double_eq_tol(sum / 60, totals[i].minutes, 1e-9);
  }
}
END_TEST

START_TEST(the_lake_is_in_us_units_and_the_others_metric) {
  ck_assert_int_eq(ts_dossier_units(dossiers[0]), TS_METRIC);
  ck_assert_int_eq(ts_dossier_units(dossiers[1]), TS_METRIC);
  ck_assert_int_eq(ts_dossier_units(dossiers[2]), TS_US);
}
END_TEST

Suite *suite_productions(void) {
  Suite *suite = suite_create("productions");
  TCase *read = tcase_create("read");
  tcase_set_timeout(read, 60);
  tcase_add_unchecked_fixture(read, setup, teardown);
  tcase_add_test(read, together_they_state_most_of_the_vocabulary);
  tcase_add_test(read, each_leaves_something_open_and_says_most);
  tcase_add_test(read, each_has_evidence_and_controls_in_place_and_planned);
  tcase_add_test(read, the_serial_is_split_into_a_file_a_day);
  tcase_add_test(read, the_logs_add_up_to_what_the_serial_states);
  tcase_add_test(read, the_lake_is_in_us_units_and_the_others_metric);
  suite_add_tcase(suite, read);
  return suite;
}
