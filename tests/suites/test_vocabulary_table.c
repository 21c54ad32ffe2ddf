/* The vocabulary's rows: what the tables promise to those who read them. */
#include "base/text.h"
#include "dossier/vocabulary.h"
#include "tankside/quantity.h"

#include <check.h>
#include <ctype.h>
#include <string.h>

Suite *suite_vocabulary_table(void);

static const char *const lua_keywords[] = {"and",   "break", "do",       "else", "elseif", "end",
                                           "false", "for",   "function", "goto", "if",     "in",
                                           "local", "nil",   "not",      "or",   "repeat", "return",
                                           "then",  "true",  "until",    "while"};

static const ts_fact_def *facts;
static const ts_entity_def *entities;
static size_t fact_count, entity_count;
static ts_units *units;

static void setup(void) {
  char why[256];
  facts = ts_builtin_facts(&fact_count);
  entities = ts_builtin_entities(&entity_count);
  units = ts_units_new(why, sizeof why);
  ck_assert_msg(units != NULL, "%s", why);
}

static void teardown(void) { ts_units_free(units); }

static const ts_entity_def *entity_named(const char *name) {
  for (size_t i = 0; i < entity_count; i++)
    if (ts_same(entities[i].name, name)) return &entities[i];
  return NULL;
}

static ts_dim read_text(const ts_fact_def *fact, const char *text, ts_range *range) {
  char why[256];
  ts_dim dim = 0;
  ck_assert_msg(ts_quantity_read(units, text, range, &dim, why, sizeof why), "%s.%s: \"%s\": %s",
                fact->entity, fact->name, text, why);
  return dim;
}

static bool has_range(const ts_fact_def *fact) {
  return fact->type == TS_QUANTITY || fact->type == TS_COUNT || fact->type == TS_DATE ||
         fact->type == TS_CLOCK;
}

static bool has_choices(const ts_fact_def *fact) {
  return fact->type == TS_CHOICE || fact->type == TS_SET || fact->type == TS_KIND_WORD;
}

START_TEST(plausible_ranges_read_and_are_not_inverted) {
  for (size_t i = 0; i < fact_count; i++) {
    ts_range low, high;
    if (!has_range(&facts[i])) continue;
    ts_dim a = read_text(&facts[i], facts[i].low, &low);
    ts_dim b = read_text(&facts[i], facts[i].high, &high);
    ck_assert_msg(a == b && low.lo < high.hi, "%s.%s", facts[i].entity, facts[i].name);
  }
}
END_TEST

START_TEST(preferred_units_have_the_dimension_of_the_range) {
  for (size_t i = 0; i < fact_count; i++) {
    ts_range low;
    char why[256];
    if (facts[i].type != TS_QUANTITY) continue;
    ck_assert_ptr_nonnull(facts[i].unit);
    ts_dim dim = read_text(&facts[i], facts[i].low, &low);
    const char *names[] = {facts[i].unit, facts[i].unit_us ? facts[i].unit_us : facts[i].unit};
    for (size_t n = 0; n < 2; n++) {
      double si;
      ts_dim found = TS_NUMBER;
      if (names[n][0])
        ck_assert_msg(ts_unit_convert(units, names[n], 1.0, &si, &found, why, sizeof why),
                      "%s.%s: %s", facts[i].entity, facts[i].name, why);
      ck_assert_msg(found == dim, "%s.%s: unit %s", facts[i].entity, facts[i].name, names[n]);
    }
  }
}
END_TEST

static bool well_formed(const char *name) {
  if (!islower((unsigned char)name[0])) return false;
  for (const char *c = name; *c; c++)
    if (!islower((unsigned char)*c) && !isdigit((unsigned char)*c) && *c != '-') return false;
  return name[strlen(name) - 1] != '-' && !strstr(name, "--");
}

START_TEST(names_are_words_that_lua_can_read) {
  for (size_t i = 0; i < fact_count; i++) {
    ck_assert_msg(well_formed(facts[i].name), "%s.%s", facts[i].entity, facts[i].name);
    for (size_t k = 0; k < sizeof lua_keywords / sizeof *lua_keywords; k++)
      ck_assert_msg(!ts_same(facts[i].name, lua_keywords[k]), "%s.%s", facts[i].entity,
                    facts[i].name);
  }
  for (size_t i = 0; i < entity_count; i++) ck_assert(well_formed(entities[i].name));
}
END_TEST

static void is_not_a_part_or_list(const ts_fact_def *fact) {
  for (size_t e = 0; e < entity_count; e++) {
    if (fact->type != TS_REF)
      ck_assert_msg(!ts_same(fact->name, entities[e].name), "%s.%s", fact->entity, fact->name);
    if (fact->type != TS_REFS)
      ck_assert_msg(!ts_same(fact->name, entities[e].plural), "%s.%s", fact->entity, fact->name);
  }
}

/* `covers` with the choice `hands` is read as covers_hands. */
static bool is_member(const ts_fact_def *set, const char *name) {
  size_t length = strlen(set->name);
  if (strncmp(name, set->name, length) != 0 || name[length] != '-') return false;
  const char *at = strstr(set->choices, name + length + 1);
  size_t word = strlen(name + length + 1);
  return at && (at == set->choices || at[-1] == ' ') && (at[word] == ' ' || !at[word]);
}

START_TEST(no_two_things_of_one_entity_have_one_name) {
  for (size_t i = 0; i < fact_count; i++) {
    is_not_a_part_or_list(&facts[i]);
    for (size_t j = 0; j < fact_count; j++) {
      if (i == j || !ts_same(facts[i].entity, facts[j].entity)) continue;
      ck_assert_msg(!ts_same(facts[i].name, facts[j].name), "%s.%s", facts[i].entity,
                    facts[i].name);
      if (facts[i].type == TS_SET)
        ck_assert_msg(!is_member(&facts[i], facts[j].name), "%s.%s", facts[j].entity,
                      facts[j].name);
    }
  }
}
END_TEST

START_TEST(rows_of_an_entity_follow_each_other_in_the_order_of_the_entities) {
  size_t at = 0;
  for (size_t i = 0; i < fact_count; i++) {
    while (at < entity_count && !ts_same(entities[at].name, facts[i].entity)) at++;
    ck_assert_msg(at < entity_count, "%s.%s is out of order", facts[i].entity, facts[i].name);
  }
}
END_TEST

START_TEST(parents_and_references_exist) {
  for (size_t i = 0; i < entity_count; i++)
    if (entities[i].parent && !ts_same(entities[i].parent, "dossier"))
      ck_assert_msg(entity_named(entities[i].parent) < &entities[i], "%s", entities[i].name);
  for (size_t i = 0; i < fact_count; i++)
    if (facts[i].type == TS_REF || facts[i].type == TS_REFS)
      ck_assert_msg(entity_named(facts[i].choices) != NULL, "%s.%s", facts[i].entity,
                    facts[i].name);
}
END_TEST

static void choices_differ(const ts_fact_def *fact) {
  const char *word[64];
  size_t length[64], count = 0;
  for (const char *c = fact->choices; *c; c += *c == ' ') {
    ck_assert_msg(count < 64, "%s.%s", fact->entity, fact->name);
    word[count] = c;
    length[count] = strcspn(c, " ");
    ck_assert_msg(length[count] > 0, "%s.%s", fact->entity, fact->name);
    c += length[count++];
    for (size_t k = 0; k + 1 < count; k++)
      ck_assert_msg(length[k] != length[count - 1] || strncmp(word[k], word[count - 1], length[k]),
                    "%s.%s", fact->entity, fact->name);
  }
  ck_assert_msg(count >= 2, "%s.%s", fact->entity, fact->name);
}

START_TEST(choices_are_two_or_more_different_words) {
  for (size_t i = 0; i < fact_count; i++) {
    if (has_choices(&facts[i])) choices_differ(&facts[i]);
    /* "none" is how an empty set is written, so it cannot be a member. */
    if (facts[i].type == TS_SET) ck_assert_ptr_null(strstr(facts[i].choices, "none"));
  }
}
END_TEST

START_TEST(every_row_says_what_it_means_how_it_is_measured_and_who_knows) {
  for (size_t i = 0; i < fact_count; i++) {
    const char *said[] = {facts[i].meaning, facts[i].measured, facts[i].asked};
    for (size_t k = 0; k < 3; k++)
      ck_assert_msg(said[k] && strlen(said[k]) >= 3 && said[k][strlen(said[k]) - 1] != '.', "%s.%s",
                    facts[i].entity, facts[i].name);
  }
}
END_TEST

START_TEST(optional_is_structure_or_text_and_derived_is_a_number) {
  for (size_t i = 0; i < fact_count; i++) {
    if (facts[i].optional) ck_assert(facts[i].type < TS_QUANTITY);
    if (facts[i].derived) ck_assert(facts[i].type == TS_QUANTITY || facts[i].type == TS_COUNT);
  }
}
END_TEST

START_TEST(medical_facts_birth_dates_and_fears_are_confidential) {
  static const char *const hidden[] = {"born", "epilepsy",   "pregnant",  "fear-of-water",
                                       "age",  "medical-on", "congested", "allergies"};
  for (size_t h = 0; h < sizeof hidden / sizeof *hidden; h++) {
    size_t found = 0;
    for (size_t i = 0; i < fact_count; i++)
      if (ts_same(facts[i].name, hidden[h])) {
        ck_assert_msg(facts[i].sees == TS_CONFIDENTIAL, "%s.%s", facts[i].entity, hidden[h]);
        found++;
      }
    ck_assert_msg(found > 0, "%s", hidden[h]);
  }
}
END_TEST

Suite *suite_vocabulary_table(void) {
  Suite *suite = suite_create("vocabulary table");
  TCase *rows = tcase_create("rows");
  tcase_add_checked_fixture(rows, setup, teardown);
  tcase_add_test(rows, plausible_ranges_read_and_are_not_inverted);
  tcase_add_test(rows, preferred_units_have_the_dimension_of_the_range);
  tcase_add_test(rows, names_are_words_that_lua_can_read);
  tcase_add_test(rows, no_two_things_of_one_entity_have_one_name);
  tcase_add_test(rows, rows_of_an_entity_follow_each_other_in_the_order_of_the_entities);
  tcase_add_test(rows, parents_and_references_exist);
  tcase_add_test(rows, choices_are_two_or_more_different_words);
  tcase_add_test(rows, every_row_says_what_it_means_how_it_is_measured_and_who_knows);
  tcase_add_test(rows, optional_is_structure_or_text_and_derived_is_a_number);
  tcase_add_test(rows, medical_facts_birth_dates_and_fears_are_confidential);
  suite_add_tcase(suite, rows);
  return suite;
}
