/* Matrix files: the two that come with the program, and what is refused. */
#include "assess/matrix.h"

#include "base/file.h"
#include "base/text.h"
#include "scratch.h"
#include "said.h"
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static char folder[256];
static ts_arena *arena;
static ts_diagnostics *problems;

static void set_up(void) {
  scratch_make(folder, sizeof folder);
  arena = ts_arena_new();
  problems = ts_diagnostics_new();
}

static void tear_down(void) {
  ts_diagnostics_free(problems);
  ts_arena_free(arena);
  scratch_remove(folder);
}

static const char *said(void) { return said_of(problems, arena); }

static ts_matrix *read_own(const char *name) {
  ts_matrix *matrix = ts_matrix_read(
      ts_arena_printf(arena, "%s/shared/matrices/%s.xml", SOURCE_FOLDER, name), problems);
  ck_assert_msg(matrix != NULL, "%s", said());
  return matrix;
}

/* NPSA, A risk matrix for risk managers (2008), from memory: 1-3, 4-6, 8-12, 15-25. */
START_TEST(five_by_five_has_the_published_bands) {
  ts_matrix *matrix = read_own("five-by-five");
  for (int l = 1; l <= 5; l++)
    for (int s = 1; s <= 5; s++) {
      int score = l * s;
      const char *band = score <= 3    ? "low"
                         : score <= 6  ? "moderate"
                         : score <= 12 ? "high"
                                       : "very-high";
      ck_assert_str_eq(ts_matrix_band(matrix, l, s)->id, band);
      ck_assert_int_eq(ts_matrix_band(matrix, l, s)->above, score >= 8);
      if (s == 5 && l > 1) ck_assert(ts_matrix_band(matrix, l, s)->above);
    }
  ts_matrix_free(matrix);
}
END_TEST

/* MIL-STD-882E (2012), table III, from memory: rows A to E, columns 1 to 4. */
START_TEST(mil_std_maps_onto_its_table) {
  static const char *const rows[5][4] = {{"high", "high", "serious", "medium"},
                                         {"high", "high", "serious", "medium"},
                                         {"high", "serious", "medium", "low"},
                                         {"serious", "medium", "medium", "low"},
                                         {"medium", "medium", "medium", "low"}};
  static const int column[] = {0, 3, 2, 1, 1, 0}; /* severity 1..5 */
  ts_matrix *matrix = read_own("mil-std-882e");
  for (int l = 1; l <= 5; l++)
    for (int s = 1; s <= 5; s++)
      ck_assert_str_eq(ts_matrix_band(matrix, l, s)->id, rows[5 - l][column[s]]);
  ts_matrix_free(matrix);
}
END_TEST

START_TEST(all_cells_of_the_published_table_stand_in_the_file) {
  size_t length;
  char *bytes = ts_file_read(
      arena, ts_arena_printf(arena, "%s/shared/matrices/mil-std-882e.xml", SOURCE_FOLDER), 1 << 20,
      &length, problems);
  for (char row = 'A'; row <= 'F'; row++)
    for (int column = 1; column <= 4; column++)
      ck_assert_ptr_nonnull(
          strstr(bytes, ts_arena_printf(arena, "<published likelihood=\"%c\" severity=\"%d\" ", row,
                                        column)));
}
END_TEST

/* Band first, then the product, then severity; nothing found is below all. */
START_TEST(scores_are_ordered) {
  ts_matrix *matrix = read_own("five-by-five");
  ck_assert_int_lt(ts_matrix_rank(matrix, 0, 0), ts_matrix_rank(matrix, 1, 1));
  ck_assert_int_lt(ts_matrix_rank(matrix, 3, 2), ts_matrix_rank(matrix, 2, 3));
  ck_assert_int_lt(ts_matrix_rank(matrix, 5, 2), ts_matrix_rank(matrix, 3, 4));
  ck_assert_int_lt(ts_matrix_rank(matrix, 3, 4), ts_matrix_rank(matrix, 3, 5));
  for (int l = 1; l <= 5; l++)
    for (int s = 1; s < 5; s++)
      ck_assert_int_lt(ts_matrix_rank(matrix, l, s), ts_matrix_rank(matrix, l, s + 1));
  ts_matrix_free(matrix);
}
END_TEST

/* ---- refused ---------------------------------------------------------------------------- */

/* The default matrix with one piece of text replaced. */
static const char *changed(const char *from, const char *to) {
  size_t length, rest;
  char *text = ts_file_read(arena, SOURCE_FOLDER "/shared/matrices/five-by-five.xml", 1 << 20,
                            &length, problems);
  char *at = strstr(text, from), *path = ts_path_join(arena, folder, "matrix.xml");
  ck_assert_msg(at != NULL, "no \"%s\" to change", from);
  rest = strlen(at + strlen(from));
  char *made = ts_arena_printf(arena, "%.*s%s%.*s", (int)(at - text), text, to, (int)rest,
                               at + strlen(from));
  ck_assert(ts_file_write(path, made, strlen(made), problems));
  return path;
}

static const struct {
  const char *from, *to, *said;
} wrongs[] = {
    {"<cell likelihood=\"2\" severity=\"3\" band=\"moderate\"/>", "",
     "matrix.xml: error: cell likelihood 2, severity 3 is missing"},
    {"severity=\"3\" band=\"moderate\"", "severity=\"3\" band=\"moderat\"",
     "error: unknown band \"moderat\"; the nearest is \"moderate\""},
    {"<cell likelihood=\"1\" severity=\"2\"", "<cell likelihood=\"1\" severity=\"1\"",
     "stands twice"},
    {"severity=\"5\" band=\"very-high\"", "severity=\"6\" band=\"very-high\"",
     "\"severity\" is \"6\"; a whole number from 1 to 5 was expected"},
    {"<cell likelihood=\"3\" severity=\"3\" band=\"high\"/>",
     "<cell likelihood=\"3\" severity=\"3\" band=\"low\"/>",
     "lower band than its milder neighbour"},
    {"kinds=\"administrative ppe\"", "kinds=\"administrativ ppe\"",
     "unknown kind of control \"administrativ\"; the nearest is \"administrative\""},
    {"rank=\"2\"", "rank=\"1\"", "has the id or the rank of"},
    {"above=\"no\"", "above=\"maybe\"", "yes or no was expected"},
    {"<likelihood level=\"1\"", "<likelihood level=\"2\"", "stands twice"},
    {"word=\"rare\"", "", "<likelihood> lacks \"word\""},
    {"<credit ", "<credits ", "unknown element <credits>; the nearest is <credit>"},
    {"format=\"1\"", "format=\"2\"", "a whole number from 1 to 1 was expected"},
};

START_TEST(what_is_wrong_is_said_with_its_line) {
  ck_assert_ptr_null(ts_matrix_read(changed(wrongs[_i].from, wrongs[_i].to), problems));
  ck_assert_msg(strstr(said(), wrongs[_i].said) != NULL, "no \"%s\" in: %s", wrongs[_i].said,
                said());
}
END_TEST

START_TEST(a_missing_file_is_refused) {
  ck_assert_ptr_null(ts_matrix_read(ts_path_join(arena, folder, "none.xml"), problems));
  ck_assert_uint_eq(ts_count(problems, TS_ERROR), 1);
}
END_TEST

Suite *suite_matrix(void);

Suite *suite_matrix(void) {
  Suite *suite = suite_create("matrix");
  TCase *cases = tcase_create("matrix");
  tcase_add_checked_fixture(cases, set_up, tear_down);
  tcase_add_test(cases, five_by_five_has_the_published_bands);
  tcase_add_test(cases, mil_std_maps_onto_its_table);
  tcase_add_test(cases, all_cells_of_the_published_table_stand_in_the_file);
  tcase_add_test(cases, scores_are_ordered);
  tcase_add_loop_test(cases, what_is_wrong_is_said_with_its_line, 0,
                      sizeof wrongs / sizeof wrongs[0]);
  tcase_add_test(cases, a_missing_file_is_refused);
  suite_add_tcase(suite, cases);
  return suite;
}
