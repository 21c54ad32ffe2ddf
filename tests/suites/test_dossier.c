/* Reading dossiers: what is reported, and what is read. */
#include "base/digest.h"
#include "base/file.h"
#include "base/text.h"
#include "dossier/subjects.h"
#include "dossier/vocabulary_index.h"
#include "scratch.h"
#include "said.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

Suite *suite_dossier(void);

static ts_arena *arena;
static ts_vocabulary *vocabulary;
static ts_units *units;
static ts_diagnostics *problems;

static void setup(void) {
  char why[256];
  arena = ts_arena_new();
  vocabulary = ts_vocabulary_new();
  units = ts_units_new(why, sizeof why);
  problems = ts_diagnostics_new();
  ck_assert_msg(vocabulary && units, "%s", why);
}

static void teardown(void) {
  ts_diagnostics_free(problems);
  ts_units_free(units);
  ts_vocabulary_free(vocabulary);
  ts_arena_free(arena);
}

/* What was reported, as printed. */
static char *printed(const ts_diagnostics *all) { return said_of(all, arena); }

static ts_dossier *read_text(const char *folder, const char *text) {
  char *path = ts_path_join(arena, folder, "dossier.xml");
  ck_assert(ts_file_write(path, text, strlen(text), problems));
  return ts_dossier_read(path, vocabulary, units, problems);
}

/* ---- the vocabulary ------------------------------------------------------ */

START_TEST(the_built_in_vocabulary_keeps_its_rules) {
  bool good = ts_vocabulary_check(vocabulary, problems);
  ck_assert_msg(good, "%s", printed(problems));
  ck_assert_uint_gt(ts_entity_count(vocabulary), 20);
}
END_TEST

START_TEST(every_fact_is_found_by_its_name) {
  for (size_t e = 0; e < ts_entity_count(vocabulary); e++) {
    const ts_entity_def *entity = ts_entity_at(vocabulary, e);
    ck_assert_ptr_eq(ts_entity_find(vocabulary, entity->name), entity);
    for (size_t i = 0; i < ts_fact_count(vocabulary, entity); i++) {
      const ts_fact_def *fact = ts_fact_at(vocabulary, entity, i);
      ck_assert_str_eq(fact->entity, entity->name);
      ck_assert_uint_eq(ts_fact_position(vocabulary, e, fact->name), i);
    }
  }
  ck_assert_ptr_null(ts_entity_find(vocabulary, "zebra"));
}
END_TEST

static const ts_fact_def gangway = {.entity = "deck",
                                    .name = "gangway-width",
                                    .type = TS_QUANTITY,
                                    .unit = "m",
                                    .low = "0.2 m",
                                    .high = "6 m",
                                    .meaning = "width of the gangway",
                                    .measured = "tape",
                                    .asked = "site manager"};

START_TEST(a_pack_may_add_a_fact) {
  ts_fact_def fact = gangway;
  ck_assert(ts_vocabulary_add(vocabulary, units, &fact, problems, "pack.lua", 3));
  const ts_entity_def *deck = ts_entity_find(vocabulary, "deck");
  const ts_fact_def *added = ts_fact_at(vocabulary, deck, ts_fact_count(vocabulary, deck) - 1);
  ck_assert_str_eq(added->name, "gangway-width");
  ck_assert(added != &fact && added->name != fact.name);
  ck_assert(ts_fact_dim(vocabulary, added) == TS_LENGTH);
  ck_assert_double_eq(ts_fact_plausible(vocabulary, added).lo, 0.2);
}
END_TEST

START_TEST(a_wrong_added_fact_is_refused) {
  const struct {
    const char *name, *entity, *low, *high, *unit, *message;
  } wrong[] = {
      {"x", "dekc", "0 m", "6 m", "m", "unknown entity \"dekc\"; the nearest name is \"deck\""},
      {"end", "deck", "0 m", "6 m", "m", "a word of Lua cannot be a name"},
      {"Width", "deck", "0 m", "6 m", "m", "lower-case words"},
      {"x", "deck", "0 metros", "6 m", "m", "does not read"},
      {"x", "deck", "0 m", "6 kg", "m", "differ in dimension"},
      {"x", "deck", "6 m", "0 m", "m", "the plausible range is empty"},
      {"x", "deck", "0 m", "6 m", "kg", "another dimension"},
      {"x", "deck", "0 m", "6 m", "metros", "unknown unit \"metros\""},
      {"x", "deck", NULL, "6 m", "m", "does not read"},
  };
  for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
    ts_diagnostics *said = ts_diagnostics_new();
    ts_fact_def fact = gangway;
    fact.name = wrong[i].name, fact.entity = wrong[i].entity, fact.unit = wrong[i].unit;
    fact.low = wrong[i].low, fact.high = wrong[i].high;
    ck_assert(!ts_vocabulary_add(vocabulary, units, &fact, said, "pack.lua", 7));
    const char *text = printed(said);
    ck_assert_msg(strstr(text, wrong[i].message) != NULL, "%zu: %s", i, text);
    ck_assert_msg(strncmp(text, "pack.lua:7: error: ", 19) == 0, "%s", text);
    ts_diagnostics_free(said);
  }
  ck_assert(ts_vocabulary_check(vocabulary, problems)); /* nothing of it stayed */
}
END_TEST

START_TEST(a_taken_name_is_refused) {
  ck_assert(ts_vocabulary_add(vocabulary, units, &gangway, problems, "pack.lua", 1));
  ck_assert(!ts_vocabulary_add(vocabulary, units, &gangway, problems, "pack.lua", 2));
  ck_assert_str_eq(printed(problems), "pack.lua:2: error: fact \"gangway-width\" of \"deck\" is "
                                      "already in the vocabulary\n");
}
END_TEST

START_TEST(added_facts_are_written_as_fact_elements) {
  char folder[256];
  scratch_make(folder, sizeof folder);
  ck_assert(ts_vocabulary_add(vocabulary, units, &gangway, problems, "pack.lua", 3));
  ts_dossier *dossier =
      read_text(folder, "<dossier format='1'><production title='a' jurisdiction='b' revision='c' "
                        "on='2027-01-01' by='d'/><site id='s'>\n<deck>\n"
                        "<fact name='gangway-width' value='4 ft'/></deck></site></dossier>");
  ck_assert_msg(dossier != NULL, "%s", printed(problems));
  ts_field field = ts_subject_field(dossier, ts_subject_find(dossier, "s/deck"), "gangway_width");
  ck_assert_int_eq(field.kind, TS_FIELD_FACT);
  ck_assert_double_eq_tol(ts_slot_value(dossier, field.slot)->range.lo, 4 * 0.3048, 1e-12);
  ck_assert_int_eq(ts_slot_line(dossier, field.slot), 3);
  ts_dossier_free(dossier);
  ck_assert_ptr_null(
      read_text(folder, "<dossier format='1'><production title='a' jurisdiction='b' revision='c' "
                        "on='2027-01-01' by='d'/><site id='s'><deck gangway-width='1 m'>\n"
                        "<fact name='lit' value='yes'/>\n<fact name='gangway-width' value='9 m'/>\n"
                        "<fact name='gangway-width'/></deck></site></dossier>"));
  const char *text = printed(problems);
  ck_assert_msg(strstr(text, "write <fact name=\"gangway-width\" value=\"...\"/>") != NULL, "%s",
                text);
  ck_assert_msg(strstr(text, ":3: error: \"9 m\" for \"gangway-width\" is out of") != NULL, "%s",
                text);
  ck_assert_msg(strstr(text, ":4: error: \"fact\" lacks \"value\"") != NULL, "%s", text);
  scratch_remove(folder);
}
END_TEST

/* ---- what is generated from the vocabulary ----------------------------------- */

static char *written(bool (*write)(const ts_vocabulary *vocabulary, FILE *out)) {
  char *text = NULL;
  size_t size;
  FILE *out = open_memstream(&text, &size);
  ck_assert(write(vocabulary, out));
  fclose(out);
  char *copy = ts_arena_copy(arena, text);
  free(text);
  return copy;
}

START_TEST(the_reference_page_has_80_columns) {
  const char *page = written(ts_vocabulary_write_reference);
  for (const char *line = page; *line; line += strcspn(line, "\n") + 1) {
    size_t columns = 0;
    for (size_t i = 0; i < strcspn(line, "\n"); i++)
      columns += ((unsigned char)line[i] & 0xC0) != 0x80;
    ck_assert_msg(columns <= 80, "%.*s", (int)strcspn(line, "\n"), line);
    ck_assert_msg(columns == 0 || line[strcspn(line, "\n") - 1] != ' ', "%.*s", (int)columns, line);
  }
}
END_TEST

START_TEST(the_reference_page_and_the_schema_have_every_fact) {
  const char *page = written(ts_vocabulary_write_reference),
             *schema = written(ts_vocabulary_write_schema);
  for (size_t e = 0; e < ts_entity_count(vocabulary); e++) {
    const ts_entity_def *entity = ts_entity_at(vocabulary, e);
    const char *part = strstr(page, ts_arena_printf(arena, "\n%s: ", entity->name));
    const char *define =
        strstr(schema, ts_arena_printf(arena, "<define name=\"%s\">", entity->name));
    ck_assert_msg(part && (define != NULL) == (entity->parent != NULL), "%s", entity->name);
    for (size_t i = 0; i < ts_fact_count(vocabulary, entity); i++) {
      const ts_fact_def *fact = ts_fact_at(vocabulary, entity, i);
      part = strstr(part, ts_arena_printf(arena, "\n    %s: ", fact->name));
      ck_assert_msg(part != NULL, "%s.%s", entity->name, fact->name);
      if (!define || fact->derived) continue;
      define = strstr(define, ts_arena_printf(arena, "<attribute name=\"%s\">", fact->name));
      ck_assert_msg(define != NULL, "%s.%s", entity->name, fact->name);
    }
  }
  ck_assert_ptr_null(strstr(schema, "volume-by-dimensions"));
}
END_TEST

/* ---- samples: each says itself what must be reported ----------------------- */

typedef struct {
  const char *lines[64];
  size_t count;
} lines;

static void add_line(lines *all, const char *start) {
  ck_assert_uint_lt(all->count, 64);
  all->lines[all->count++] = ts_arena_copy_n(arena, start, strcspn(start, "\n"));
}

static lines expected_in(const char *path) {
  lines all = {.count = 0};
  size_t length;
  const char *text = ts_file_read(arena, path, 1 << 20, &length, problems);
  ck_assert_msg(text != NULL, "%s", path);
  for (const char *at = text; (at = strstr(at, "\nexpect: ")); at += 9) add_line(&all, at + 9);
  return all;
}

/* "FOLDER/name.xml:5: error: x" as "5: error: x", "FOLDER/other.xml:5: ..." as "other.xml:5: ...".
 */
static lines reported_for(const char *folder, const char *name, const ts_diagnostics *said) {
  lines all = {.count = 0};
  ts_text text = {0};
  const char *at = printed(said), *stem = ts_path_join(arena, folder, "");
  for (const char *next; (next = strstr(at, stem)); at = next + strlen(stem)) {
    ts_text_add_n(&text, at, (size_t)(next - at));
  }
  ts_text_add(&text, at);
  for (char *line = ts_arena_copy(arena, text.data); *line; line += strcspn(line, "\n") + 1) {
    size_t own = strlen(name);
    bool mine = strncmp(line, name, own) == 0 && line[own] == ':';
    add_line(&all, mine ? line + own + (line[own + 1] == ' ' ? 0 : 1) : line);
  }
  ts_text_release(&text);
  return all;
}

static bool meets(const char *line, const char *expected) {
  size_t length = strlen(expected);
  if (length > 3 && strcmp(expected + length - 3, "...") == 0)
    return strncmp(line, expected, length - 3) == 0;
  return strcmp(line, expected) == 0;
}

static void compare(const char *path, lines expected, lines reported) {
  for (size_t i = 0; i < expected.count; i++) {
    size_t k = 0;
    while (k < reported.count &&
           !(reported.lines[k] && meets(reported.lines[k], expected.lines[i])))
      k++;
    ck_assert_msg(k < reported.count, "%s does not report: %s", path, expected.lines[i]);
    reported.lines[k] = NULL;
  }
  for (size_t k = 0; k < reported.count; k++)
    ck_assert_msg(!reported.lines[k], "%s reports as well: %s", path, reported.lines[k]);
}

static void check_sample(const char *folder, const char *name, bool good) {
  ts_diagnostics *said = ts_diagnostics_new();
  const char *path = ts_path_join(arena, folder, name);
  ts_dossier *dossier = ts_dossier_read(path, vocabulary, units, said);
  compare(path, expected_in(path), reported_for(folder, name, said));
  ck_assert_msg((dossier != NULL) == good, "%s", path);
  ck_assert_msg((ts_count(said, TS_ERROR) == 0) == good, "%s", path);
  ts_dossier_free(dossier);
  ts_diagnostics_free(said);
}

static void check_folder(const char *name, bool good, size_t least) {
  const char *folder = ts_path_join(arena, SOURCE_FOLDER "/tests/dossiers", name);
  char **names = ts_folder_list(arena, folder, ".xml", problems);
  size_t count = 0;
  ck_assert_msg(names != NULL, "%s", printed(problems));
  for (; names[count]; count++) check_sample(folder, names[count], good);
  ck_assert_uint_ge(count, least);
}

START_TEST(good_dossiers_read) {
  check_folder("good", true, 3);
  check_sample(SOURCE_FOLDER "/tests/dossiers/good/split", "dossier.xml", true);
}
END_TEST

START_TEST(bad_dossiers_are_refused_with_every_mistake) { check_folder("bad", false, 25); }
END_TEST

START_TEST(twelve_mistakes_give_twelve_messages) {
  const char *folder = SOURCE_FOLDER "/tests/dossiers/bad/twelve";
  check_sample(folder, "dossier.xml", false);
  ck_assert_uint_eq(expected_in(ts_path_join(arena, folder, "dossier.xml")).count, 12);
}
END_TEST

/* ---- files --------------------------------------------------------------- */

static const char top[] = "<dossier format='1'><production title='a' jurisdiction='b' "
                          "revision='c' on='2027-01-01' by='d'/>";

START_TEST(a_link_that_leads_out_is_refused) {
  char folder[256], outside[256];
  scratch_make(folder, sizeof folder);
  scratch_make(outside, sizeof outside);
  const char *target = ts_path_join(arena, outside, "day.xml");
  ck_assert(ts_file_write(target, "<dossier format='1'/>", 21, problems));
  ck_assert_int_eq(symlink(target, ts_path_join(arena, folder, "day.xml")), 0);
  ck_assert_int_eq(symlink(outside, ts_path_join(arena, folder, "days")), 0);
  const char *body = "<include href='day.xml'/><include href='days/day.xml'/></dossier>";
  ck_assert_ptr_null(read_text(folder, ts_arena_printf(arena, "%s%s", top, body)));
  ck_assert_uint_eq(ts_count(problems, TS_ERROR), 2);
  const char *text = printed(problems);
  ck_assert_msg(strstr(text, "\"day.xml\" is outside the dossier's folder") != NULL, "%s", text);
  ck_assert_msg(strstr(text, "\"days/day.xml\" is outside the dossier's folder") != NULL, "%s",
                text);
  scratch_remove(folder);
  scratch_remove(outside);
}
END_TEST

START_TEST(includes_may_not_go_on_for_ever) {
  char folder[256];
  scratch_make(folder, sizeof folder);
  for (int i = 1; i <= 12; i++) {
    const char *text =
        ts_arena_printf(arena, "<dossier format='1'><include href='%d.xml'/></dossier>", i + 1);
    const char *path = ts_path_join(arena, folder, ts_arena_printf(arena, "%d.xml", i));
    ck_assert(ts_file_write(path, text, strlen(text), problems));
  }
  ck_assert_ptr_null(
      read_text(folder, ts_arena_printf(arena, "%s<include href='1.xml'/></dossier>", top)));
  const char *text = printed(problems);
  ck_assert_msg(strstr(text, "8.xml:1: error: includes go too far") != NULL, "%s", text);
  ck_assert_uint_eq(ts_count(problems, TS_ERROR), 1);
  scratch_remove(folder);
}
END_TEST

START_TEST(a_file_above_the_limit_is_refused) {
  char folder[256];
  scratch_make(folder, sizeof folder);
  size_t size = (8u << 20) + 1;
  char *bytes = ts_arena_alloc(arena, size + 1);
  memset(bytes, ' ', size);
  const char *path = ts_path_join(arena, folder, "large.xml");
  ck_assert(ts_file_write(path, bytes, size, problems));
  ck_assert_ptr_null(ts_dossier_read(path, vocabulary, units, problems));
  ck_assert_msg(strstr(printed(problems), "is larger than 8388608 bytes") != NULL, "%s",
                printed(problems));
  ck_assert_ptr_null(ts_dossier_read(folder, vocabulary, units, problems));
  ck_assert_ptr_null(
      ts_dossier_read(ts_path_join(arena, folder, "none.xml"), vocabulary, units, problems));
  ck_assert_uint_eq(ts_count(problems, TS_ERROR), 3);
  scratch_remove(folder);
}
END_TEST

START_TEST(sources_are_named_from_the_folder_and_digested) {
  static const char *const names[] = {"dossier.xml", "places.xml", "days/first.xml",
                                      "days/second.xml"};
  const char *folder = SOURCE_FOLDER "/tests/dossiers/good/split";
  ts_dossier *dossier =
      ts_dossier_read(ts_path_join(arena, folder, "dossier.xml"), vocabulary, units, problems);
  ck_assert_msg(dossier != NULL, "%s", printed(problems));
  ck_assert_uint_eq(ts_source_count(dossier), 4);
  for (size_t i = 0; i < 4; i++) {
    char digest[65], expected[65];
    size_t length;
    const char *bytes =
        ts_file_read(arena, ts_path_join(arena, folder, names[i]), 1 << 20, &length, problems);
    ck_assert_str_eq(ts_source_name(dossier, i), names[i]);
    ck_assert_str_eq(ts_source_digest(dossier, i, digest), ts_digest(bytes, length, expected));
  }
  const ts_subject_info *task = ts_subject_at(dossier, ts_subject_find(dossier, "t1"));
  ck_assert_str_eq(task->file, "days/first.xml");
  ck_assert_int_eq(task->line, 5);
  ts_dossier_free(dossier);
}
END_TEST

START_TEST(the_example_productions_read_without_a_word) {
  static const char *const names[] = {"tank-serial", "lake-stunt", "stage-pool"};
  for (size_t i = 0; i < 3; i++) {
    const char *path =
        ts_arena_printf(arena, SOURCE_FOLDER "/shared/productions/%s/dossier.xml", names[i]);
    ts_dossier *dossier = ts_dossier_read(path, vocabulary, units, problems);
    ck_assert_msg(dossier != NULL, "%s", printed(problems));
    ck_assert_str_eq(printed(problems), "");
    ts_dossier_free(dossier);
  }
}
END_TEST

Suite *suite_dossier(void) {
  Suite *suite = suite_create("dossier");
  TCase *words = tcase_create("vocabulary"), *samples = tcase_create("samples"),
        *files = tcase_create("files");
  tcase_add_checked_fixture(words, setup, teardown);
  tcase_add_checked_fixture(samples, setup, teardown);
  tcase_add_checked_fixture(files, setup, teardown);
  tcase_set_timeout(samples, 60);
  tcase_add_test(words, the_built_in_vocabulary_keeps_its_rules);
  tcase_add_test(words, every_fact_is_found_by_its_name);
  tcase_add_test(words, a_pack_may_add_a_fact);
  tcase_add_test(words, a_wrong_added_fact_is_refused);
  tcase_add_test(words, a_taken_name_is_refused);
  tcase_add_test(words, added_facts_are_written_as_fact_elements);
  tcase_add_test(words, the_reference_page_has_80_columns);
  tcase_add_test(words, the_reference_page_and_the_schema_have_every_fact);
  tcase_add_test(samples, good_dossiers_read);
  tcase_add_test(samples, bad_dossiers_are_refused_with_every_mistake);
  tcase_add_test(samples, twelve_mistakes_give_twelve_messages);
  tcase_add_test(samples, the_example_productions_read_without_a_word);
  tcase_add_test(files, a_link_that_leads_out_is_refused);
  tcase_add_test(files, includes_may_not_go_on_for_ever);
  tcase_add_test(files, a_file_above_the_limit_is_refused);
  tcase_add_test(files, sources_are_named_from_the_folder_and_digested);
  suite_add_tcase(suite, words);
  suite_add_tcase(suite, samples);
  suite_add_tcase(suite, files);
  return suite;
}
