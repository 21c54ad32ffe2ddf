/* pdf: the HTML through weasyprint: pages, same bytes, no complaints, whole or not at all, not for
 * ever. */
#include "base/arena.h"
#include "base/file.h"
#include "base/text.h"
#include "said.h"
#include "scratch.h"
#include "tankside/document.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

Suite *suite_pdf(void);

enum { LIMIT = 1 << 26 };

static ts_arena *arena;
static ts_diagnostics *problems;
static char folder[256];
static const char *xml, *xml_path, *html_path;
static size_t xml_length;

static const char *in_folder(const char *name) { return ts_path_join(arena, folder, name); }

static void write_html(const char *sheet, const char *task, const char *paper) {
  char *html = NULL;
  size_t length = 0;
  ck_assert(ts_sheet_render(xml, xml_length, sheet, task, paper, &html, &length, problems));
  ck_assert(ts_file_write(html_path, html, length, problems));
  free(html);
}

static void setup(void) {
  arena = ts_arena_new();
  problems = ts_diagnostics_new();
  scratch_make(folder, sizeof folder);
  html_path = in_folder("sheet.html");
  xml_path = SOURCE_FOLDER "/tests/assessments/sample.xml";
  xml = ts_file_read(arena, xml_path, LIMIT, &xml_length, problems);
  ck_assert_ptr_nonnull(xml);
  write_html("task", "d1t1", "a4");
}

static void teardown(void) {
  scratch_remove(folder);
  ts_diagnostics_free(problems);
  ts_arena_free(arena);
}

static const char *read_pdf(const char *name, size_t *length) {
  const char *bytes = ts_file_read(arena, in_folder(name), LIMIT, length, problems);
  ck_assert_ptr_nonnull(bytes);
  ck_assert_int_eq(strncmp(bytes, "%PDF-", 5), 0);
  return bytes;
}

static int count_of(const char *bytes, size_t length, const char *what) {
  int n = 0;
  const char *end = bytes + length;
  while ((bytes = memmem(bytes, (size_t)(end - bytes), what, strlen(what)))) {
    bytes += strlen(what);
    n++;
  }
  return n;
}

static void no_complaints(void) {
  if (ts_count(problems, TS_WARNING) + ts_count(problems, TS_ERROR))
    ts_diagnostics_print(problems, stderr);
  ck_assert_uint_eq(ts_count(problems, TS_WARNING), 0);
  ck_assert_uint_eq(ts_count(problems, TS_ERROR), 0);
}

START_TEST(a_task_sheet_becomes_a_tagged_page_without_complaints) {
  static const char *const papers[][2] = {{"a4", "/MediaBox [ 0 0 595.2"},
                                          {"letter", "/MediaBox [ 0 0 612 "}};
  size_t length = 0;
  ck_assert(ts_sheet_pdf(html_path, in_folder("sheet.pdf"), papers[_i][0], problems));
  no_complaints();
  const char *bytes = read_pdf("sheet.pdf", &length);
  ck_assert_int_eq(
      count_of(bytes, length, "/Type /Page\n") + count_of(bytes, length, "/Type /Page "), 1);
  ck_assert_int_ge(count_of(bytes, length, papers[_i][1]), 1);
  ck_assert_int_ge(count_of(bytes, length, "/StructTreeRoot"), 1);
  ck_assert_int_eq(scratch_count(folder), 2);
}
END_TEST

START_TEST(two_runs_give_the_same_bytes) {
  size_t a = 0, b = 0;
  ck_assert(ts_sheet_pdf(html_path, in_folder("a.pdf"), "a4", problems));
  setenv("SOURCE_DATE_EPOCH", "1234567890", 1); /* the caller's own must not matter */
  ck_assert(ts_sheet_pdf(html_path, in_folder("b.pdf"), "a4", problems));
  unsetenv("SOURCE_DATE_EPOCH");
  const char *first = read_pdf("a.pdf", &a), *second = read_pdf("b.pdf", &b);
  ck_assert_uint_eq(a, b);
  ck_assert_mem_eq(first, second, a);
}
END_TEST

START_TEST(what_is_attached_is_in_it) {
  size_t length = 0;
  ck_assert(ts_sheet_pdf_with(html_path, in_folder("with.pdf"), "a4", xml_path, problems));
  no_complaints();
  const char *bytes = read_pdf("with.pdf", &length);
  ck_assert_int_ge(count_of(bytes, length, "/EmbeddedFile"), 1);
  ck_assert_int_ge(count_of(bytes, length, "sample.xml"), 1);
}
END_TEST

static const char *what_was_said(void) { return said_of(problems, arena); }

START_TEST(a_missing_weasyprint_names_the_package) {
  setenv("PATH", folder, 1);
  ck_assert(!ts_sheet_pdf(html_path, in_folder("sheet.pdf"), "a4", problems));
  ck_assert_uint_eq(ts_count(problems, TS_ERROR), 1);
  const char *text = what_was_said();
  ck_assert_ptr_nonnull(strstr(text, "install the package weasyprint"));
  ck_assert_int_eq(scratch_count(folder), 1);
}
END_TEST

/* A stand-in for weasyprint that does what `body` says. */
static void stand_in(const char *body) {
  const char *script = ts_arena_printf(arena, "#!/bin/sh\n%s\n", body),
             *path = in_folder("weasyprint");
  ck_assert(ts_file_write(path, script, strlen(script), problems));
  ck_assert_int_eq(chmod(path, 0755), 0);
  setenv("PATH", ts_arena_printf(arena, "%s:%s", folder, getenv("PATH")), 1);
}

START_TEST(a_failing_weasyprint_leaves_the_old_file_alone) {
  static const char *const bodies[] = {
      "echo 'WARNING: something' >&2; printf '%%PDF-1.7 half'; exit 1", "echo no pdf",
      "kill -9 $$", "printf '%%PDF-1.7 half'", "exit 0"};
  const char *pdf = in_folder("sheet.pdf");
  ck_assert(ts_file_write(pdf, "%PDF-old", 8, problems));
  stand_in(bodies[_i]);
  ck_assert(!ts_sheet_pdf(html_path, pdf, "a4", problems));
  ck_assert_uint_eq(ts_count(problems, TS_ERROR), 1);
  ck_assert_uint_eq(ts_count(problems, TS_WARNING), _i == 0);
  size_t length = 0;
  ck_assert_str_eq(read_pdf("sheet.pdf", &length), "%PDF-old");
}
END_TEST

START_TEST(what_weasyprint_says_becomes_warnings) {
  stand_in("echo 'WARNING: one' >&2; printf '%%PDF-1.7 whole %%%%EOF'; echo 'WARNING: two' >&2");
  ck_assert(ts_sheet_pdf(html_path, in_folder("sheet.pdf"), "a4", problems));
  ck_assert_uint_eq(ts_count(problems, TS_WARNING), 2);
}
END_TEST

START_TEST(one_that_works_for_ever_is_stopped) {
  stand_in("ulimit -S -t 1; while :; do :; done"); /* sooner than the program itself would */
  ck_assert(!ts_sheet_pdf(html_path, in_folder("sheet.pdf"), "a4", problems));
  const char *text = what_was_said();
  ck_assert_ptr_nonnull(strstr(text, "of processor time and was stopped"));
}
END_TEST

START_TEST(its_work_is_limited_by_the_length_of_the_page) {
  stand_in("ulimit -t >&2; case $PYTHONPATH in */templates/tags*) printf '%%PDF-1.7 whole %%%%EOF';; esac");
  ck_assert(ts_sheet_pdf(html_path, in_folder("sheet.pdf"), "a4", problems));
  const char *text = what_was_said();
  ck_assert_ptr_nonnull(strstr(text, "weasyprint: 300\n"));
}
END_TEST

START_TEST(what_is_not_there_is_an_error) {
  ck_assert(!ts_sheet_pdf(in_folder("none.html"), in_folder("x.pdf"), "a4", problems));
  ck_assert(!ts_sheet_pdf(html_path, in_folder("x.pdf"), "a5", problems));
  ck_assert(
      !ts_sheet_pdf_with(html_path, in_folder("x.pdf"), "a4", in_folder("none.xml"), problems));
  ck_assert_uint_eq(ts_count(problems, TS_ERROR), 3);
  ck_assert_int_eq(scratch_count(folder), 1);
}
END_TEST

Suite *suite_pdf(void) {
  Suite *suite = suite_create("pdf");
  TCase *tcase = tcase_create("pdf");
  tcase_add_checked_fixture(tcase, setup, teardown);
  tcase_set_timeout(tcase, 240);
  tcase_add_loop_test(tcase, a_task_sheet_becomes_a_tagged_page_without_complaints, 0, 2);
  tcase_add_test(tcase, two_runs_give_the_same_bytes);
  tcase_add_test(tcase, what_is_attached_is_in_it);
  tcase_add_test(tcase, a_missing_weasyprint_names_the_package);
  tcase_add_loop_test(tcase, a_failing_weasyprint_leaves_the_old_file_alone, 0, 5);
  tcase_add_test(tcase, what_weasyprint_says_becomes_warnings);
  tcase_add_test(tcase, one_that_works_for_ever_is_stopped);
  tcase_add_test(tcase, its_work_is_limited_by_the_length_of_the_page);
  tcase_add_test(tcase, what_is_not_there_is_an_error);
  suite_add_tcase(suite, tcase);
  return suite;
}
