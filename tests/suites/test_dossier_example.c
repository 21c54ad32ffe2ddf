/* Worlds made by hand, for rules' examples. */
#include "base/arena.h"
#include "base/text.h"
#include "said.h"
#include "dossier/subjects.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_dossier_example(void);

static ts_vocabulary *vocabulary;
static ts_units *units;
static ts_diagnostics *problems;
static ts_dossier *world;
static ts_subject each;

static void setup(void) {
  char why[256];
  vocabulary = ts_vocabulary_new();
  units = ts_units_new(why, sizeof why);
  problems = ts_diagnostics_new();
  world = NULL;
}

static void teardown(void) {
  ts_dossier_free(world);
  ts_diagnostics_free(problems);
  ts_units_free(units);
  ts_vocabulary_free(vocabulary);
}

static void make(const char *entity) {
  ts_dossier_free(world);
  world = ts_dossier_example(vocabulary, units, entity, &each);
  ck_assert_ptr_nonnull(world);
}

static void give(const char *path, const char *value) {
  bool good = ts_dossier_given(world, each, path, value, problems, "air.lua", 12);
  if (!good) ts_diagnostics_print(problems, stderr);
  ck_assert_msg(good, "%s = %s", path, value);
}

/* What a rule would read: follows names, and numbers into lists, to a field. */
static ts_field follow(const char *path) {
  ts_subject at = each;
  ts_field field = {.kind = TS_FIELD_NONE};
  char name[64];
  for (const char *rest = path; *rest; rest += *rest == '.') {
    size_t length = strcspn(rest, ".");
    snprintf(name, sizeof name, "%.*s", (int)length, rest);
    rest += length;
    if (field.kind == TS_FIELD_LIST && name[0] >= '1' && name[0] <= '9') {
      size_t index = strtoul(name, NULL, 10);
      ck_assert_msg(index <= field.count, "%s", path);
      at = field.list[index - 1];
      field = (ts_field){.kind = TS_FIELD_SUBJECT, .subject = at};
      continue;
    }
    field = ts_subject_field(world, at, name);
    ck_assert_msg(field.kind != TS_FIELD_NONE, "%s: %s", path, name);
    if (field.kind == TS_FIELD_SUBJECT) at = field.subject;
  }
  return field;
}

static const ts_value *read(const char *path) { return ts_slot_value(world, follow(path).slot); }
static size_t length(const char *path) { return follow(path).count; }
static ts_subject subject(const char *path) { return follow(path).subject; }

/* ---- the world as it comes --------------------------------------------------- */

START_TEST(every_entity_is_there_once) {
  make("production");
  for (size_t e = 0; e < ts_entity_count(vocabulary); e++) {
    size_t count = 0;
    for (ts_subject s = 0; s < ts_subject_count(world); s++)
      if (ts_subject_at(world, s)->entity == ts_entity_at(vocabulary, e)) count++;
    ck_assert_msg(count == 1, "%s: %zu", ts_entity_at(vocabulary, e)->name, count);
  }
}
END_TEST

START_TEST(nothing_is_known_of_it) {
  make("immersion");
  for (uint32_t slot = 0; slot < ts_slot_count(world); slot++) {
    const ts_fact_def *fact = ts_slot_fact(world, slot);
    if (fact->type >= TS_QUANTITY && !fact->derived)
      ck_assert_msg(ts_slot_value(world, slot)->state == TS_UNKNOWN, "%s.%s", fact->entity,
                    fact->name);
  }
}
END_TEST

START_TEST(everything_is_linked) {
  make("immersion");
  ck_assert_uint_eq(subject("person"), subject("task.posts.1.person"));
  ck_assert_uint_eq(subject("person.immersions.1"), each);
  ck_assert_uint_eq(subject("supply.immersions.1"), each);
  ck_assert_uint_eq(length("wears"), 1);
  ck_assert_uint_eq(length("task.rigs"), 1);
  ck_assert_uint_eq(subject("site"), subject("task.rigs.1.site"));
  ck_assert_uint_eq(subject("day.person_days.1.person"), subject("person"));
  ck_assert_int_eq(follow("site.water.temperature").kind, TS_FIELD_FACT);
  ck_assert_int_eq(follow("site.basin.depth").kind, TS_FIELD_FACT);
  make("person-day");
  ck_assert_uint_eq(length("immersions"), 1);
  ck_assert_uint_eq(length("records"), 1);
}
END_TEST

START_TEST(an_unknown_kind_of_subject_gives_no_world) {
  ck_assert_ptr_null(ts_dossier_example(vocabulary, units, "zebra", &each));
}
END_TEST

/* ---- giving facts --------------------------------------------------------------- */

START_TEST(facts_are_given_where_a_rule_reads_them) {
  make("immersion");
  give("breath_hold", "15 s");
  give("person.mass", "60 kg");
  give("site.water.temperature", "28..30 degC");
  give("effort", "light|moderate");
  give("task.start", "10:00");
  give("task.finish", "11:00");
  give("takes", "3..5");
  ck_assert_double_eq(read("breath_hold")->range.hi, 15);
  ck_assert_double_eq(read("person.mass")->range.lo, 60);
  ck_assert_double_eq(read("site.water.temperature")->range.lo, 301.15);
  ck_assert_uint_eq(read("effort")->choices, 6);
  ck_assert_double_eq(read("task_duration")->range.lo, 3600);
  ck_assert_int_eq(read("breath_hold")->state, TS_STATED);
  give("breath_hold", "?");
  ck_assert_int_eq(read("breath_hold")->state, TS_UNKNOWN);
}
END_TEST

START_TEST(members_of_sets_are_given_one_by_one) {
  make("appliance");
  give("covers_hands", "yes");
  ck_assert_uint_eq(read("covers")->certain, 16);
  ck_assert_uint_eq(read("covers")->choices, 127); /* the others are still open */
  give("covers_mouth", "no");
  ck_assert_uint_eq(read("covers")->choices, 126);
  give("covers_hands", "?");
  ck_assert_uint_eq(read("covers")->certain, 0);
  give("covers", "none");
  ck_assert_uint_eq(read("covers")->choices, 0);
  ck_assert_int_eq(read("covers")->state, TS_STATED);
}
END_TEST

START_TEST(what_is_derived_may_be_given_too) {
  make("person-day");
  give("time_7_days", "12 h");
  ck_assert_double_eq(read("time_7_days")->range.lo, 43200);
  give("immersions.1.time", "30 min"); /* the rest is worked out again, this one stays */
  ck_assert_double_eq(read("time_7_days")->range.lo, 43200);
  ck_assert_double_eq(read("time_planned")->range.lo, 1800);
  give("time_7_days", "?");
  ck_assert_double_eq(read("time_7_days")->range.lo, 1800);
  make("immersion");
  give("person.born", "2017-03-09");
  give("day.date", "2027-03-08");
  ck_assert_double_lt(read("age")->range.hi, 10 * 31556952.);
  give("day.date", "2027-03-09");
  ck_assert_double_eq(read("age")->range.lo, 10 * 31556952.);
}
END_TEST

START_TEST(kinds_of_structure_may_be_given) {
  make("post");
  give("role", "medic");
  ck_assert_uint_eq(read("role")->choices, 1 << 4);
  make("person-day");
  give("day.date", "2027-07-01"); /* the person-day stays with its day */
  ck_assert_uint_eq(length("immersions"), 1);
  ck_assert_uint_eq(length("person.person_days"), 1);
}
END_TEST

/* ---- lists -------------------------------------------------------------------- */

START_TEST(a_list_grows_by_its_next_member) {
  make("immersion");
  give("wears.2.covers", "mouth");
  ck_assert_uint_eq(length("wears"), 2);
  ck_assert_uint_eq(read("wears.2.covers")->certain, 1);
  ck_assert_int_eq(read("wears.1.covers")->state, TS_UNKNOWN);
  give("task.posts.2.role", "lifeguard");
  ck_assert_uint_eq(length("task.posts"), 2);
  ck_assert_msg(subject("task.posts.2.person") != subject("person"),
                "one more post: somebody else's");
  give("task.immersions.2.time", "5 min");
  give("task.immersions.3.time", "5 min");
  ck_assert_double_eq(read("task.people_under_water")->range.lo, 3);
  give("day.tasks.2.start", "12:00");
  ck_assert_uint_eq(length("day.tasks"), 2);
  ck_assert_uint_eq(length("day.tasks.2.immersions"), 0);
  give("day.tasks.2.immersions.1.time", "7 min");
  ck_assert_uint_eq(length("day.tasks.2.immersions"), 1);
  ck_assert_uint_eq(length("task.immersions"), 3);
  give("site.supplies.2.users", "2");
  ck_assert_uint_eq(length("site.supplies"), 2);
}
END_TEST

START_TEST(a_person_gets_more_of_their_own) {
  make("person");
  give("immersions.2.time", "5 min");
  ck_assert_uint_eq(subject("immersions.2.person"), each);
  make("person-day");
  give("immersions.1.time", "10 min");
  give("immersions.2.time", "5 min");
  ck_assert_double_eq(read("time_planned")->range.lo, 900);
  give("records.1.down", "10:00");
  give("records.1.up", "10:10");
  give("records.2.down", "10:40");
  give("records.2.up", "11:00");
  ck_assert_double_eq(read("shortest_surface_interval")->range.lo, 1800);
  ck_assert_double_eq(read("time_recorded")->range.hi, 1800);
}
END_TEST

START_TEST(lists_and_references_are_cut_with_none) {
  make("immersion");
  give("wears", "none");
  give("supply", "none");
  ck_assert_uint_eq(length("wears"), 0);
  ck_assert_uint_eq(subject("supply"), TS_NO_SUBJECT);
  give("wears.1.covers", "eyes"); /* and grow again */
  ck_assert_uint_eq(length("wears"), 1);
  give("task.posts", "none");
  ck_assert_uint_eq(length("task.posts"), 0);
  ck_assert_uint_eq(length("person.posts"), 0);
  make("day");
  give("tasks", "none");
  ck_assert_uint_eq(length("immersions"), 0);
  ck_assert_double_eq(read("people_in_water")->range.hi, 0);
}
END_TEST

START_TEST(what_cannot_be_given_is_said) {
  static const struct {
    const char *path, *value, *message;
  } wrong[] = {
      {"breth_hold", "15 s",
       "immersion has no \"breth_hold\"; the nearest name is \"breath_hold\""},
      {"person.mas", "15 kg", "person has no \"mas\"; the nearest name is \"mass\""},
      {"breath_hold", "15", "bare number \"15\""},
      {"breath_hold.x", "15 s", "nothing can follow \"breath_hold\""},
      {"breath_hold", "15 kg", "wrong dimension"},
      {"effort", "heavy", "impossible choice \"heavy\""},
      {"person", "p1", "expected \"none\", or a fact after \"person\""},
      {"task", "none", "only a reference can be cut, not \"task\""},
      {"wears.3.covers", "eyes", "the number of a member, or the next one, after \"wears\""},
      {"wears.x.covers", "eyes", "the number of a member, or the next one, after \"wears\""},
      {"wears.0.covers", "eyes", "the number of a member, or the next one, after \"wears\""},
      {"wears.1.5.covers", "eyes", "has no \"5\""},
      {"wears.1", "eyes", "the path ends too early"},
      {"wears.1.covers_hands", "often", "expected \"yes\", \"no\" or \"?\", found \"often\""},
      {"person.person_days.2.time", "1 h", "nothing can be added to \"person_days\""},
      {"", "1 h", "the path ends too early"},
  };
  for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
    ts_diagnostics *said = ts_diagnostics_new();
    make("immersion");
    bool good = ts_dossier_given(world, each, wrong[i].path, wrong[i].value, said, "air.lua", 12);
    ts_arena *arena = ts_arena_new();
    const char *text = said_of(said, arena);
    ck_assert_msg(!good && strstr(text, wrong[i].message), "%s: %s", wrong[i].path, text);
    ck_assert_msg(strncmp(text, "air.lua:12: error: ", 19) == 0, "%s", text);
    ts_arena_free(arena);
    ts_diagnostics_free(said);
  }
}
END_TEST

Suite *suite_dossier_example(void) {
  Suite *suite = suite_create("dossier_example");
  TCase *made = tcase_create("made"), *given = tcase_create("given");
  tcase_add_checked_fixture(made, setup, teardown);
  tcase_add_checked_fixture(given, setup, teardown);
  tcase_add_test(made, every_entity_is_there_once);
  tcase_add_test(made, nothing_is_known_of_it);
  tcase_add_test(made, everything_is_linked);
  tcase_add_test(made, an_unknown_kind_of_subject_gives_no_world);
  tcase_add_test(given, facts_are_given_where_a_rule_reads_them);
  tcase_add_test(given, members_of_sets_are_given_one_by_one);
  tcase_add_test(given, what_is_derived_may_be_given_too);
  tcase_add_test(given, kinds_of_structure_may_be_given);
  tcase_add_test(given, a_list_grows_by_its_next_member);
  tcase_add_test(given, a_person_gets_more_of_their_own);
  tcase_add_test(given, lists_and_references_are_cut_with_none);
  tcase_add_test(given, what_cannot_be_given_is_said);
  suite_add_tcase(suite, made);
  suite_add_tcase(suite, given);
  return suite;
}
