/* What a dossier that was read says: values, paths, fields, derived facts, papers. */
#include "base/file.h"
#include "base/text.h"
#include "dossier/subjects.h"
#include "said.h"
#include "quantity/calendar.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_dossier_facts(void);

static ts_arena *arena;
static ts_vocabulary *vocabulary;
static ts_units *units;
static ts_diagnostics *problems;
static ts_dossier *dossier;

static void open_sample(const char *name) {
  char why[256];
  arena = ts_arena_new();
  vocabulary = ts_vocabulary_new();
  units = ts_units_new(why, sizeof why);
  problems = ts_diagnostics_new();
  const char *path = ts_path_join(arena, SOURCE_FOLDER "/tests/dossiers/good", name);
  dossier = ts_dossier_read(path, vocabulary, units, problems);
  ck_assert_ptr_nonnull(dossier);
}

static void setup(void) { open_sample("a-busy-week.xml"); }
static void setup_forms(void) { open_sample("every-form-of-value.xml"); }

static void teardown(void) {
  ts_dossier_free(dossier);
  ts_diagnostics_free(problems);
  ts_units_free(units);
  ts_vocabulary_free(vocabulary);
  ts_arena_free(arena);
}

static ts_subject find(const char *path) {
  ts_subject subject = ts_subject_find(dossier, path);
  ck_assert_msg(subject != TS_NO_SUBJECT, "no \"%s\"", path);
  return subject;
}

/* The slot at "path field", the field as in Lua. */
static uint32_t slot_at(const char *path, const char *field) {
  ts_field found = ts_subject_field(dossier, find(path), field);
  ck_assert_msg(found.kind == TS_FIELD_FACT || found.kind == TS_FIELD_TEXT, "%s.%s", path, field);
  return found.slot;
}

static const ts_value *value_at(const char *path, const char *field) {
  return ts_slot_value(dossier, slot_at(path, field));
}

/* ---- values ---------------------------------------------------------------- */

static const double inch = 0.0254, foot = 0.3048, pound = 0.45359237;

START_TEST(every_form_of_number_is_read) {
  const struct {
    const char *path, *field;
    double lo, hi;
  } wanted[] = {
      {"tank", "altitude", 130 * foot, 130 * foot},
      {"tank/basin", "length", 22, 22},
      {"tank/basin", "width", 46 * foot, 46 * foot},
      {"tank/basin", "depth", 4.7, 4.9},
      {"tank/basin", "least_depth", 1.2, 1.4},
      {"tank/basin", "exits", 2, 3},
      {"tank/water", "temperature", (82 + 459.67) / 1.8, (84 + 459.67) / 1.8},
      {"tank/water", "free_chlorine", 0.0011, 0.0011},
      {"p1", "mass", 84 * pound, 84 * pound},
      {"p1", "height", 67 * inch, 67 * inch},
      {"t1/p1", "time", 3900, 3900},
      {"t1", "start", 21.5 * 3600, 22 * 3600},
      {"2027-03-09", "wrap", 26.5 * 3600, 26.5 * 3600},
  };
  for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) {
    const ts_value *value = value_at(wanted[i].path, wanted[i].field);
    ck_assert_int_eq(value->state, TS_STATED);
    ck_assert_msg(fabs(value->range.lo - wanted[i].lo) <= 1e-12 * fabs(wanted[i].lo) &&
                      fabs(value->range.hi - wanted[i].hi) <= 1e-12 * fabs(wanted[i].hi),
                  "%s.%s: %.17g..%.17g", wanted[i].path, wanted[i].field, value->range.lo,
                  value->range.hi);
  }
  ck_assert_int_eq(ts_dossier_units(dossier), TS_US);
}
END_TEST

START_TEST(words_are_read_as_bits) {
  /* water-body: tank pool ...; effort: rest light moderate hard; additives: dye milk ...;
   * covers: mouth nose eyes ears hands feet body */
  ck_assert_uint_eq(value_at("tank", "water_body")->choices, 3);
  ck_assert_uint_eq(value_at("t1/p1", "effort")->choices, 2 | 4);
  ck_assert_uint_eq(value_at("tank/water", "additives")->choices, 3);
  ck_assert_uint_eq(value_at("tank/water", "additives")->certain, 1);
  ck_assert_uint_eq(value_at("set/water", "additives")->choices, 0);
  ck_assert_int_eq(value_at("set/water", "additives")->state, TS_STATED);
  ck_assert_uint_eq(value_at("gauntlets", "covers")->certain, 16);
}
END_TEST

START_TEST(what_is_not_known_may_be_anything_plausible) {
  const char *paths[] = {"tank", "t1/p1", "p1", "set/basin", "tank/deck", "t1/post-1"};
  for (size_t i = 0; i < sizeof paths / sizeof *paths; i++) {
    const ts_subject_info *info = ts_subject_at(dossier, find(paths[i]));
    for (size_t k = 0; k < ts_fact_count(vocabulary, info->entity); k++) {
      uint32_t slot = info->slot + (uint32_t)k;
      const ts_fact_def *fact = ts_slot_fact(dossier, slot);
      const ts_value *value = ts_slot_value(dossier, slot);
      ck_assert_ptr_eq(fact, ts_fact_at(vocabulary, info->entity, k));
      if (value->state != TS_UNKNOWN || fact->derived) continue;
      ts_range plausible = ts_fact_plausible(vocabulary, fact);
      ck_assert(ts_slot_assumed(dossier, slot));
      ck_assert_double_eq(value->range.lo, plausible.lo);
      ck_assert_double_eq(value->range.hi, plausible.hi);
      ck_assert_uint_eq(value->certain, 0);
      if (fact->type == TS_FLAG) ck_assert_uint_eq(value->choices, 3);
    }
  }
  ck_assert_int_eq(value_at("tank", "indoor")->state, TS_UNKNOWN);
  ck_assert_int_eq(value_at("t1/p1", "takes")->state, TS_UNKNOWN);
  ck_assert_uint_eq(value_at("p1", "allergies")->choices, 0xff); /* eight of them */
  ck_assert_int_eq(value_at("tank", "title")->state, TS_STATED); /* text is never assumed */
}
END_TEST

/* ---- paths ------------------------------------------------------------------ */

START_TEST(subjects_are_found_by_their_paths) {
  static const char *const paths[] = {"production",
                                      "tank",
                                      "tank/water",
                                      "bank",
                                      "p1",
                                      "p2",
                                      "2027-03-05",
                                      "2027-03-09",
                                      "2027-03-09.2",
                                      "a1",
                                      "a1/p1",
                                      "a1/p1.2",
                                      "a1/post-1",
                                      "a1/post-2",
                                      "2027-03-05/record-1",
                                      "2027-03-05/record-2",
                                      "p1@2027-03-05",
                                      "p1@2027-03-09",
                                      "p2@2027-03-09",
                                      "lake/basin"};
  for (size_t i = 0; i < sizeof paths / sizeof *paths; i++)
    ck_assert_str_eq(ts_subject_at(dossier, find(paths[i]))->path, paths[i]);
  ck_assert_uint_eq(find("production"), 0);
  ck_assert_uint_eq(ts_subject_find(dossier, "p1@2027-03-09.2"), TS_NO_SUBJECT);
  ck_assert_uint_eq(ts_subject_find(dossier, "p3"), TS_NO_SUBJECT);
}
END_TEST

START_TEST(slots_know_their_paths) {
  char out[256];
  for (uint32_t slot = 0; slot < ts_slot_count(dossier); slot++) {
    const ts_subject_info *info = ts_subject_at(dossier, ts_slot_subject(dossier, slot));
    ck_assert(slot >= info->slot && slot - info->slot < ts_fact_count(vocabulary, info->entity));
    ts_slot_path(dossier, slot, out, sizeof out);
    ck_assert(strncmp(out, info->path, strlen(info->path)) == 0);
  }
  ck_assert_str_eq(ts_slot_path(dossier, slot_at("a1/p1", "breath_hold"), out, sizeof out),
                   "a1/p1/breath-hold");
}
END_TEST

START_TEST(parents_lead_to_the_production) {
  for (ts_subject s = 1; s < ts_subject_count(dossier); s++) {
    ts_subject above = s;
    for (int i = 0; i < 8 && above != 0; i++) above = ts_subject_at(dossier, above)->parent;
    ck_assert_uint_eq(above, 0);
  }
  ck_assert_uint_eq(ts_subject_at(dossier, 0)->parent, TS_NO_SUBJECT);
  ck_assert_uint_eq(ts_subject_at(dossier, find("p1@2027-03-05"))->parent, find("2027-03-05"));
}
END_TEST

/* ---- fields ------------------------------------------------------------------- */

START_TEST(fields_lead_to_subjects) {
  static const struct {
    const char *from, *field, *to;
  } wanted[] = {
      {"a1/p1", "person", "p1"},
      {"a1/p1", "task", "a1"},
      {"a1/p1", "day", "2027-03-05"},
      {"a1/p1", "site", "tank"},
      {"a1/p1", "production", "production"},
      {"a1/p1", "supply", "bank"},
      {"a1/p1.2", "supply", NULL},
      {"a1", "site", "tank"},
      {"tank", "water", "tank/water"},
      {"tank/water", "site", "tank"},
      {"tank/water", "basin", "tank/basin"},
      {"bank", "water", "tank/water"},
      {"2027-03-09.2", "site", "lake"},
      {"p1@2027-03-09", "person", "p1"},
      {"p1@2027-03-09", "day", "2027-03-09"},
      {"p1@2027-03-09", "site", "tank"},
      {"production", "production", "production"},
      {"a1/post-2", "person", "p2"},
  };
  for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) {
    ts_field field = ts_subject_field(dossier, find(wanted[i].from), wanted[i].field);
    ck_assert_msg(field.kind == TS_FIELD_SUBJECT, "%s.%s", wanted[i].from, wanted[i].field);
    ts_subject to = wanted[i].to ? find(wanted[i].to) : TS_NO_SUBJECT;
    ck_assert_msg(field.subject == to, "%s.%s", wanted[i].from, wanted[i].field);
  }
}
END_TEST

static const char *list_text(const char *from, const char *name) {
  ts_text text = {0};
  ts_field field = ts_subject_field(dossier, find(from), name);
  ck_assert_msg(field.kind == TS_FIELD_LIST, "%s.%s", from, name);
  for (size_t i = 0; i < field.count; i++)
    ts_text_addf(&text, "%s%s", i ? " " : "", ts_subject_at(dossier, field.list[i])->path);
  char *copy = ts_arena_copy(arena, text.data ? text.data : "");
  ts_text_release(&text);
  return copy;
}

START_TEST(fields_lead_to_lists) {
  static const struct {
    const char *from, *field, *members;
  } wanted[] = {
      {"a1", "immersions", "a1/p1 a1/p1.2"},
      {"a1", "posts", "a1/post-1 a1/post-2"},
      {"a1/p1", "wears", "gauntlets hood"},
      {"a1/p1.2", "wears", ""},
      {"2027-03-05", "tasks", "a1"},
      {"2027-03-05", "immersions", "a1/p1 a1/p1.2"},
      {"2027-03-05", "records", "2027-03-05/record-1 2027-03-05/record-2"},
      {"2027-03-05", "person_days", "p1@2027-03-05"},
      {"p1", "immersions", "a1/p1 a1/p1.2 b1/p1 b2/p1 c1/p1"},
      {"p1", "records", "2027-03-05/record-1 2027-03-05/record-2"},
      {"p1", "person_days", "p1@2027-03-05 p1@2027-03-09 p1@2027-03-10"},
      {"p2", "posts", "a1/post-1 a1/post-2"},
      {"p1@2027-03-09", "immersions", "b1/p1 b2/p1"}, /* two units, one body */
      {"2027-03-09", "person_days", "p1@2027-03-09"},
      {"p1@2027-03-05", "records", "2027-03-05/record-1 2027-03-05/record-2"},
      {"p2@2027-03-09", "immersions", "b2/p2"},
      {"hood", "immersions", "a1/p1"},
      {"tank", "days", "2027-03-05 2027-03-09 2027-03-10"},
      {"tank", "supplies", "bank"},
      {"bank", "immersions", "a1/p1"},
      {"production", "sites", "tank lake"},
      {"production", "people", "p1 p2"},
      {"production", "appliances", "gauntlets hood"},
      {"production", "props", ""},
      {"production", "days", "2027-03-05 2027-03-09 2027-03-09.2 2027-03-10"},
      {"production", "immersions", "a1/p1 a1/p1.2 b1/p1 b2/p2 b2/p1 c1/p1"},
  };
  for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++)
    ck_assert_msg(ts_same(list_text(wanted[i].from, wanted[i].field), wanted[i].members),
                  "%s.%s: %s", wanted[i].from, wanted[i].field,
                  list_text(wanted[i].from, wanted[i].field));
}
END_TEST

START_TEST(fields_lead_to_facts_and_members) {
  ts_field field = ts_subject_field(dossier, find("gauntlets"), "covers_hands");
  ck_assert_int_eq(field.kind, TS_FIELD_MEMBER);
  ck_assert_uint_eq(ts_slot_value(dossier, field.slot)->certain >> field.bit & 1, 1);
  ck_assert_int_eq(ts_subject_field(dossier, find("p1"), "name").kind, TS_FIELD_TEXT);
  ck_assert_int_eq(ts_subject_field(dossier, find("p1"), "role").kind, TS_FIELD_FACT);
  ck_assert_int_eq(ts_subject_field(dossier, find("p1"), "breath_hold").kind, TS_FIELD_NONE);
  ck_assert_int_eq(ts_subject_field(dossier, find("a1/p1"), "breath-hold").kind, TS_FIELD_NONE);
  ck_assert_str_eq(ts_subject_nearest(dossier, find("a1/p1"), "breth_hold"), "breath_hold");
  ck_assert_str_eq(ts_subject_nearest(dossier, find("a1"), "imersions"), "immersions");
  ck_assert_ptr_null(ts_subject_nearest(dossier, find("a1"), "qqqqqqqqqq"));
  ck_assert_str_eq(ts_subject_at(dossier, find("p1"))->label, "A. Performer");
  ck_assert_str_eq(ts_subject_at(dossier, find("p2"))->label, "p2");
}
END_TEST

/* ---- derived facts, worked out by hand ------------------------------------------ */

START_TEST(derived_facts_are_what_they_say) {
  const double minute = 60, year = TS_YEAR_SECONDS, all = NAN;
  const struct {
    const char *path, *field;
    double lo, hi;
    bool assumed;
  } wanted[] = {
      {"tank/basin", "volume_by_dimensions", 10 * 5 * (3 + 1) / 2., 10 * 5 * (3 + 1) / 2., false},
      {"lake/basin", "volume_by_dimensions", 0, 20000. * 20000 * 100, true},
      /* born 2017-03-09: the tenth birthday is the 9th, 4 days of 365 before it on the 5th */
      {"p1@2027-03-09", "age", 10 * year, 10 * year, false},
      {"b1/p1", "age", 10 * year, 10 * year, false},
      {"p1", "age_at_start", 9 * year + 361 / 365. * year, 9 * year + 361 / 365. * year, false},
      {"p2@2027-03-09", "age", all, all, true},
      {"2027-03-05", "people_in_water", 1, 1, false},
      {"2027-03-09.2", "people_in_water", 2, 2, false},
      {"a1", "people_under_water", 1, 1, false},
      {"a1", "duration", 90 * minute, 90 * minute, false},
      {"a1/p1.2", "task_duration", 90 * minute, 90 * minute, false},
      {"b1", "duration", 50 * minute, 60 * minute, false},
      {"2027-03-05/record-1", "duration", 15 * minute, 15 * minute, false},
      {"p1@2027-03-05", "time_planned", 25 * minute, 30 * minute, false},
      {"p1@2027-03-05", "time_recorded", 27 * minute, 27 * minute, false},
      {"p1@2027-03-05", "time", 27 * minute, 30 * minute, false},
      {"p1@2027-03-09", "time_recorded", 0, 0, false},
      {"p1@2027-03-09", "time", 45 * minute, 45 * minute, false},
      {"p1@2027-03-09", "time_7_days", 72 * minute, 75 * minute, false},
      {"p1@2027-03-10", "time_7_days", 92 * minute, 95 * minute, false},
      {"p1@2027-03-05", "time_7_days", 27 * minute, 30 * minute, false},
      {"p1@2027-03-05", "longest", 15 * minute, 20 * minute, false},
      {"p1@2027-03-05", "deepest", 2.6, 2.6, false}, /* the log: deeper than planned */
      {"p1@2027-03-05", "takes", 9, 9, false},
      {"p1@2027-03-05", "immersion_count", 2, 2, false},
      {"p1@2027-03-05", "wet_time", 60 * minute, (60 + 1440) * minute, true},
      {"p1@2027-03-05", "descents", 0, 1000, true},
      {"p1@2027-03-05", "consecutive_days", 1, 1, false},
      {"p1@2027-03-10", "consecutive_days", 2, 2, false},
      {"p1@2027-03-05", "at_place_time", 10 * 60 * minute, 10 * 60 * minute, false},
      {"p1@2027-03-05", "shortest_surface_interval", 8 * minute, 8 * minute, false},
      {"p1@2027-03-09", "shortest_surface_interval", 20000 * minute, 20000 * minute, false},
      {"production", "evidence_count", 1, 1, false},
      {"production", "evidence_estimates", 0, 0, false},
      {"production", "evidence_without_reference", 0, 0, false},
      {"production", "evidence_age", 2 * 1440 * minute, 2 * 1440 * minute, false},
      {"production", "controls_in_place", 1, 1, false},
      {"production", "controls_without_evidence", 0, 0, false},
      {"production", "controls_unchecked", 1, 1, false},
      {"production", "waiver_count", 4, 4, false},
      {"production", "waivers_refused", 3, 3, false},
      {"production", "waivers_by_author", 3, 3, false},
      {"production", "waiver_reach", 31 * 1440 * minute, 31 * 1440 * minute, false},
  };
  for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) {
    uint32_t slot = slot_at(wanted[i].path, wanted[i].field);
    ts_range plausible = ts_fact_plausible(vocabulary, ts_slot_fact(dossier, slot));
    ts_range found = ts_slot_value(dossier, slot)->range;
    double lo = isnan(wanted[i].lo) ? plausible.lo : wanted[i].lo;
    double hi = isnan(wanted[i].hi) ? plausible.hi : wanted[i].hi;
    ck_assert_msg(fabs(found.lo - lo) <= 1e-9 * fabs(lo) && fabs(found.hi - hi) <= 1e-9 * fabs(hi),
                  "%s.%s: %.10g..%.10g", wanted[i].path, wanted[i].field, found.lo, found.hi);
    ck_assert_msg(ts_slot_assumed(dossier, slot) == wanted[i].assumed, "%s.%s", wanted[i].path,
                  wanted[i].field);
  }
}
END_TEST

START_TEST(a_person_on_a_birthday_is_exactly_that_old) {
  ts_range age = value_at("p1@2027-03-09", "age")->range, ten;
  ts_dim dim;
  char why[128];
  ck_assert(ts_quantity_read(units, "10 year", &ten, &dim, why, sizeof why));
  ck_assert_double_eq(age.lo, ten.lo); /* not a hair less: rules compare with < */
}
END_TEST

START_TEST(every_derived_fact_of_the_vocabulary_has_its_derivation) {
  size_t seen = 0;
  for (size_t e = 0; e < ts_entity_count(vocabulary); e++) {
    ts_subject subject;
    const char *name = ts_entity_at(vocabulary, e)->name;
    ts_dossier *world = ts_dossier_example(vocabulary, units, name, &subject);
    const ts_subject_info *info = ts_subject_at(world, subject);
    ck_assert_str_eq(info->entity->name, name);
    for (size_t k = 0; k < ts_fact_count(vocabulary, info->entity); k++) {
      uint32_t slot = info->slot + (uint32_t)k;
      if (ts_slot_fact(world, slot)->derived) {
        seen++;
        ts_range range = ts_slot_value(world, slot)->range;
        ts_range plausible = ts_fact_plausible(vocabulary, ts_slot_fact(world, slot));
        ck_assert_msg(range.lo >= plausible.lo && range.hi <= plausible.hi, "%s.%s", name,
                      ts_slot_fact(world, slot)->name);
        /* an example has no papers to count */
        ck_assert_msg(range.hi > 0 || ts_same(name, "production"), "%s.%s", name,
                      ts_slot_fact(world, slot)->name);
      }
    }
    ts_dossier_free(world);
  }
  ck_assert_uint_ge(seen, 20);
}
END_TEST

/* ---- setting facts ------------------------------------------------------------- */

START_TEST(a_fact_is_set_by_its_path) {
  ck_assert(ts_dossier_set(dossier, "a1/p1/breath-hold", "21 s", problems));
  const ts_value *value = value_at("a1/p1", "breath_hold");
  ck_assert_double_eq(value->range.lo, 21);
  ck_assert_int_eq(value->state, TS_SET_BY_USER);
  ck_assert(!ts_slot_assumed(dossier, slot_at("a1/p1", "breath_hold")));
  ck_assert(ts_dossier_set(dossier, "tank/water/ph", "?", problems));
  ck_assert_int_eq(value_at("tank/water", "ph")->state, TS_UNKNOWN);
  ck_assert(ts_dossier_set(dossier, "production/diving-notified", "no", problems));
  ck_assert_uint_eq(value_at("production", "diving_notified")->choices, 1);
}
END_TEST

START_TEST(what_is_derived_follows_what_is_set) {
  ck_assert(ts_dossier_set(dossier, "b1/p1/time", "1 h", problems));
  ck_assert_double_eq(value_at("p1@2027-03-09", "time")->range.lo, 3600 + 5 * 60);
  ck_assert_double_eq(value_at("p1@2027-03-10", "time_7_days")->range.lo,
                      27 * 60 + 65 * 60 + 20 * 60);
  ck_assert(ts_dossier_set(dossier, "p2/born", "2000-01-01", problems));
  ck_assert(!ts_slot_assumed(dossier, slot_at("p2@2027-03-09", "age")));
}
END_TEST

START_TEST(a_wrong_setting_is_refused) {
  static const struct {
    const char *path, *value, *message;
  } wrong[] = {
      {"a1/p1/breth-hold", "20 s", "the nearest is \"a1/p1/breath-hold\""},
      {"a1/p9/breath-hold", "20 s", "which is not in the dossier; the nearest is \""},
      {"breath-hold", "20 s", "cannot set \"breath-hold\""},
      {"a1/p1", "20 s", "cannot set \"a1/p1\""},
      {"a1/p1/breath-hold", "20", "bare number \"20\" for \"breath-hold\""},
      {"a1/p1/breath-hold", "20 m", "wrong dimension for \"breath-hold\""},
      {"a1/p1/breath-hold", "3 h", "is out of the plausible range 0 s to 600 s"},
      {"a1/p1/effort", "heavy", "impossible choice \"heavy\""},
      {"a1/p1/age", "20 year", "it is worked out from other facts"},
      {"a1/p1/person", "p2", "it is structure, not a fact"},
  };
  for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
    ts_diagnostics *said = ts_diagnostics_new();
    ck_assert(!ts_dossier_set(dossier, wrong[i].path, wrong[i].value, said));
    const char *text = said_of(said, arena);
    ck_assert_msg(strstr(text, wrong[i].message) != NULL, "%s", text);
    ck_assert_msg(strncmp(text, "--set: error: ", 14) == 0, "%s", text);
    ts_diagnostics_free(said);
  }
  ck_assert_double_eq(value_at("a1/p1", "breath_hold")->range.lo, 15); /* as it was */
}
END_TEST

/* Learning a fact may only narrow what is derived: forgetting one may only widen it. */
START_TEST(forgetting_any_fact_widens_what_is_derived) {
  char path[256];
  size_t forgotten = 0;
  ts_range *before = ts_alloc(ts_slot_count(dossier) * sizeof *before);
  for (uint32_t slot = 0; slot < ts_slot_count(dossier); slot++) {
    const ts_fact_def *fact = ts_slot_fact(dossier, slot);
    const ts_value *value = ts_slot_value(dossier, slot);
    if (fact->type < TS_QUANTITY || fact->derived || value->state == TS_UNKNOWN) continue;
    for (uint32_t i = 0; i < ts_slot_count(dossier); i++)
      before[i] = ts_slot_value(dossier, i)->range;
    ck_assert(
        ts_dossier_set(dossier, ts_slot_path(dossier, slot, path, sizeof path), "?", problems));
    for (uint32_t i = 0; i < ts_slot_count(dossier); i++) {
      ts_range now = ts_slot_value(dossier, i)->range;
      ck_assert_msg(now.lo <= before[i].lo && now.hi >= before[i].hi, "%s", path);
    }
    forgotten++;
  }
  ck_assert_uint_ge(forgotten, 20);
  free(before);
}
END_TEST

/* ---- papers ------------------------------------------------------------------- */

START_TEST(controls_say_where_they_stand) {
  ck_assert_uint_eq(ts_applied_count(dossier), 3);
  const ts_applied_control *control = ts_applied_at(dossier, 1);
  ck_assert_str_eq(control->control, "second-air-source");
  ck_assert_uint_eq(control->scope, find("a1"));
  ck_assert(control->in_place);
  ck_assert_str_eq(control->to, "3");
  ck_assert_str_eq(control->by, "B. Diver");
  ck_assert_str_eq(control->on, "2027-03-01");
  ck_assert_str_eq(control->evidence, "log 7");
  ck_assert_str_eq(control->file, "a-busy-week.xml");
  ck_assert_uint_eq(ts_applied_at(dossier, 0)->scope, find("tank/water"));
  ck_assert(!ts_applied_at(dossier, 0)->in_place);
  ck_assert_uint_eq(ts_applied_at(dossier, 2)->scope, 0);
  ck_assert_msg(!ts_applied_at(dossier, 2)->in_place, "no date: planned");
}
END_TEST

START_TEST(waivers_hold_to_the_last_day) {
  static const bool valid[] = {true, false, false, false};
  ck_assert_uint_eq(ts_waiver_count(dossier), 4);
  for (size_t i = 0; i < 4; i++)
    ck_assert_msg(ts_waiver_at(dossier, i)->valid == valid[i], "%zu", i);
  ck_assert_str_eq(ts_waiver_at(dossier, 0)->subject, "a1/p1");
  ck_assert_ptr_null(ts_waiver_at(dossier, 1)->subject);
}
END_TEST

START_TEST(evidence_is_kept_as_written) {
  ck_assert_uint_eq(ts_evidence_count(dossier), 1);
  const ts_evidence *evidence = ts_evidence_at(dossier, 0);
  ck_assert_str_eq(evidence->target, "tank/water/temperature");
  ck_assert_str_eq(evidence->kind, "measured");
  ck_assert_str_eq(evidence->by, "W. Technician");
  ck_assert_str_eq(evidence->on, "2027-02-27");
  ck_assert_str_eq(evidence->ref, "log 2");
}
END_TEST

Suite *suite_dossier_facts(void) {
  Suite *suite = suite_create("dossier_facts");
  TCase *forms = tcase_create("forms"), *week = tcase_create("week");
  tcase_add_checked_fixture(forms, setup_forms, teardown);
  tcase_add_test(forms, every_form_of_number_is_read);
  tcase_add_test(forms, words_are_read_as_bits);
  tcase_add_test(forms, what_is_not_known_may_be_anything_plausible);
  tcase_add_checked_fixture(week, setup, teardown);
  tcase_set_timeout(week, 60);
  tcase_add_test(week, subjects_are_found_by_their_paths);
  tcase_add_test(week, slots_know_their_paths);
  tcase_add_test(week, parents_lead_to_the_production);
  tcase_add_test(week, fields_lead_to_subjects);
  tcase_add_test(week, fields_lead_to_lists);
  tcase_add_test(week, fields_lead_to_facts_and_members);
  tcase_add_test(week, derived_facts_are_what_they_say);
  tcase_add_test(week, a_person_on_a_birthday_is_exactly_that_old);
  tcase_add_test(week, every_derived_fact_of_the_vocabulary_has_its_derivation);
  tcase_add_test(week, a_fact_is_set_by_its_path);
  tcase_add_test(week, what_is_derived_follows_what_is_set);
  tcase_add_test(week, a_wrong_setting_is_refused);
  tcase_add_test(week, forgetting_any_fact_widens_what_is_derived);
  tcase_add_test(week, controls_say_where_they_stand);
  tcase_add_test(week, waivers_hold_to_the_last_day);
  tcase_add_test(week, evidence_is_kept_as_written);
  suite_add_tcase(suite, forms);
  suite_add_tcase(suite, week);
  return suite;
}
