/* workbook: what departments are sent comes back unchanged, and shows nobody what is not theirs. */
#include "base/arena.h"
#include "base/file.h"
#include "base/text.h"
#include "document/workbook.h"
#include "dossier/import.h"
#include "dossier/table.h"
#include "dossier/world.h"
#include <check.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_workbook(void);

static ts_units *units;
static ts_vocabulary *vocabulary;
static ts_diagnostics *problems;
static ts_arena *arena;
static ts_dossier *dossier;
static ts_department *departments;
static size_t count;
static ts_tables book;

/* Those that need no pack of their own to be read. */
static const char *const productions[] = {"lake-stunt", "stage-pool", "tank-serial"};
enum { PRODUCTIONS = sizeof productions / sizeof *productions };

static void begin(void) {
  char why[256];
  units = ts_units_new(why, sizeof why);
  vocabulary = ts_vocabulary_new();
  problems = ts_diagnostics_new();
  arena = ts_arena_new();
  book = (ts_tables){0};
}

static void end(void) {
  ts_tables_release(&book);
  ts_dossier_free(dossier);
  ts_arena_free(arena);
  ts_diagnostics_free(problems);
  ts_vocabulary_free(vocabulary);
  ts_units_free(units);
}

static void open_dossier(const char *path) {
  dossier = ts_dossier_read(path, vocabulary, units, problems);
  ck_assert_msg(dossier != NULL, "%s", path);
  departments = ts_departments(dossier, arena, &count);
}

static void open_production(int index) {
  open_dossier(ts_arena_printf(arena, "%s/productions/%s/dossier.xml",
                               ts_data_path(arena, "shared"), productions[index]));
}

static ts_text made(const ts_department *of, size_t many) {
  ts_text ods;
  ck_assert(ts_workbook_make(dossier, of, many, &ods, problems));
  return ods;
}

static void open_book(const ts_department *of, size_t many) {
  ts_text ods = made(of, many);
  ts_tables_release(&book);
  ck_assert(ts_tables_read(&book, arena, "book.ods", ods.data, ods.length, problems));
  ts_text_release(&ods);
}

START_TEST(what_nobody_touched_changes_nothing) {
  open_production(_i);
  ts_text ods = made(departments, count), again = made(departments, count);
  ck_assert(ods.length == again.length && memcmp(ods.data, again.data, ods.length) == 0);
  ts_import *import = ts_import_new(dossier, problems);
  ck_assert(ts_import_table(import, "book.ods", ods.data, ods.length));
  ck_assert(ts_import_work_out(import));
  ck_assert_uint_eq(ts_import_count(import), 0);
  ts_import_free(import);
  ts_text_release(&ods);
  ts_text_release(&again);
}
END_TEST

/* ---- who sees what -------------------------------------------------------------------- */

static const char *text_at(const ts_table *table, uint32_t row, uint32_t column) {
  const ts_cell *cell = ts_table_cell(table, row, column);
  return cell ? cell->text : NULL;
}

/* The slot of a row with subject and fact, or TS_ABSENT for a sheet that is a list. */
static uint32_t slot_of(const ts_table *table, uint32_t row) {
  if (!ts_same(text_at(table, 0, 0), "subject") || !ts_same(text_at(table, 0, 1), "fact"))
    return TS_ABSENT;
  ts_subject subject = ts_subject_find(dossier, text_at(table, row, 0));
  ck_assert_uint_ne(subject, TS_NO_SUBJECT);
  uint32_t slot = ts_world_slot(dossier, subject, text_at(table, row, 1));
  ck_assert_uint_ne(slot, TS_ABSENT);
  return slot;
}

/* A row of facts in a department's file is one that department is asked for; of a person's own,
 * that person's. */
static void row_is_theirs(const ts_department *d, uint32_t slot) {
  char path[256];
  ts_slot_path(dossier, slot, path, sizeof path);
  ck_assert_msg(ts_same(ts_slot_fact(dossier, slot)->asked, d->asked), "%s in %s", path, d->name);
  if (d->person != TS_NO_SUBJECT)
    ck_assert_msg(ts_leads_to(dossier, ts_slot_subject(dossier, slot), "person") == d->person,
                  "%s in %s", path, d->name);
}

/* A list has no column of something confidential. */
static void list_is_for_all(const ts_table *table) {
  for (size_t i = 0; i < table->count && table->cells[i].row == 0; i++) {
    const char *heading = table->cells[i].text;
    const char *name = ts_arena_copy_n(arena, heading, strcspn(heading, " "));
    for (size_t e = 0; e < ts_entity_count(vocabulary); e++) {
      const ts_entity_def *entity = ts_entity_at(vocabulary, e);
      if (!ts_same(entity->plural, table->name)) continue;
      for (size_t f = 0; f < ts_fact_count(vocabulary, entity); f++)
        if (ts_same(ts_fact_at(vocabulary, entity, f)->name, name))
          ck_assert_msg(ts_fact_at(vocabulary, entity, f)->sees != TS_CONFIDENTIAL, "%s", heading);
    }
  }
}

START_TEST(a_sheet_shows_nobody_what_is_not_theirs) {
  size_t confidential = 0, rows = 0;
  open_production(_i);
  for (size_t d = 0; d < count; d++) {
    open_book(&departments[d], 1);
    for (size_t t = 0; t < book.count; t++)
      for (uint32_t row = 1; row < ts_table_rows(&book.tables[t]); row++) {
        uint32_t slot =
            text_at(&book.tables[t], row, 1) ? slot_of(&book.tables[t], row) : TS_ABSENT;
        if (slot == TS_ABSENT) continue;
        row_is_theirs(&departments[d], slot);
        confidential += ts_slot_fact(dossier, slot)->sees == TS_CONFIDENTIAL;
        rows++;
      }
    for (size_t t = 0; t < book.count; t++) list_is_for_all(&book.tables[t]);
  }
  ck_assert_uint_gt(confidential, 0);
  /* Nothing is left out, and nothing stands twice: as many rows as there are facts to ask for. */
  size_t asked = 0;
  for (uint32_t slot = 0; slot < ts_slot_count(dossier); slot++) {
    const ts_fact_def *fact = ts_slot_fact(dossier, slot);
    ts_subject subject = ts_slot_subject(dossier, slot);
    asked += fact->type >= TS_QUANTITY && !fact->derived &&
             ts_subject_at(dossier, subject)->entity->parent != NULL;
  }
  ck_assert_uint_eq(rows, asked);
}
END_TEST

/* ---- what a dossier holds stays text -------------------------------------------------- */

START_TEST(a_value_never_becomes_a_formula) {
  static const char text[] =
      "<dossier format=\"1\"><production title=\"=1+1\" jurisdiction=\"gb-eng\" revision=\"1\" "
      "on=\"2027-05-01\" by=\"I. Marsh\"/><site id=\"race\"/>"
      "<person id=\"a\" name=\"=HYPERLINK(&quot;x&quot;)\" role=\"crew\" note=\"&lt;b&gt; +1 @x "
      "-2\"/>"
      "</dossier>";
  ts_given_text given = {"dossier.xml", text, strlen(text)};
  dossier = ts_dossier_read_given("dossier.xml", &given, 1, vocabulary, units, problems);
  ck_assert_ptr_nonnull(dossier);
  departments = ts_departments(dossier, arena, &count);
  open_book(departments, count);
  size_t found = 0;
  for (size_t t = 0; t < book.count; t++)
    for (size_t i = 0; i < book.tables[t].count; i++) {
      const ts_cell *cell = &book.tables[t].cells[i];
      ck_assert_int_eq(cell->kind, TS_CELL_TEXT);
      found += ts_same(cell->text, "=HYPERLINK(\"x\")") || ts_same(cell->text, "<b> +1 @x -2") ||
               ts_same(cell->text, "=1+1");
    }
  ck_assert_uint_ge(found, 3);
}
END_TEST

Suite *suite_workbook(void) {
  Suite *suite = suite_create("workbook");
  TCase *tests = tcase_create("workbook");
  int productions_tried = getenv("TANKSIDE_TEST_SHORT") ? 1 : PRODUCTIONS;
  tcase_add_checked_fixture(tests, begin, end);
  tcase_set_timeout(tests, 120);
  tcase_add_loop_test(tests, what_nobody_touched_changes_nothing, 0, productions_tried);
  tcase_add_loop_test(tests, a_sheet_shows_nobody_what_is_not_theirs, 0, productions_tried);
  tcase_add_test(tests, a_value_never_becomes_a_formula);
  suite_add_tcase(suite, tests);
  return suite;
}
