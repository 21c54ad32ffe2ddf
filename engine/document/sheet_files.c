/* The files of an assessment: which there are, how each is made, and where one differs. */
#include "tankside/document.h"

#include "base/arena.h"
#include "base/text.h"
#include "document/differences.h"
#include "document/transform.h"
#include <stdlib.h>
#include <string.h>

/* ---- which there are ------------------------------------------------------------------- */

typedef struct {
  ts_arena *arena;
  const ts_sheet *sheet; /* NULL: the index */
  bool pdf;
  ts_file_taker take;
  void *data;
} tour;

static bool take_form(const tour *t, const char *task, const char *form, const char *bytes,
                      size_t length) {
  const char *sheet = t->sheet ? t->sheet->name : "index";
  const char *dash = task ? "-" : "", *of = task ? task : "";
  ts_sheet_file file = {.name = ts_arena_printf(t->arena, "%s%s%s.%s", sheet, dash, of, form),
                        .form = form,
                        .sheet = t->sheet,
                        .task = task};
  return t->take(t->data, &file, bytes, length);
}

/* What a stylesheet makes, and the PDF that is set from it. */
static bool take_page(void *data, const char *task, const char *bytes, size_t length) {
  const tour *t = data;
  if (t->sheet->spreadsheet) return take_form(t, task, "csv", bytes, length);
  return take_form(t, task, "html", bytes, length) &&
         (!t->pdf || !t->sheet->own_pdf || take_form(t, task, "pdf", NULL, 0));
}

static bool name_files(void *data, const char *task) {
  const tour *t = data;
  return take_page(data, task, NULL, 0) &&
         (!t->sheet->spreadsheet || take_form(t, task, "ods", NULL, 0));
}

typedef struct {
  bool (*visit)(void *data, const ts_sheet_file *file);
  void *data;
} visitor;

static bool visit_file(void *data, const ts_sheet_file *file, const char *bytes, size_t length) {
  const visitor *v = data;
  (void)bytes, (void)length;
  return v->visit(v->data, file);
}

bool ts_sheet_each_file(const char *assessment_xml, size_t length, bool pdf,
                        bool (*visit)(void *data, const ts_sheet_file *file), void *data,
                        ts_diagnostics *problems) {
  ts_xml *xml = ts_document_open(assessment_xml, length, TS_ALL_BUT_SCHEDULE, problems);
  if (!xml) return false;
  tour t = {ts_arena_new(), ts_sheets(), pdf, visit_file, &(visitor){visit, data}};
  bool all = true;
  for (; all && t.sheet->name; t.sheet++)
    all = t.sheet->per_task ? ts_document_each_task(ts_xml_root(xml), name_files, &t)
                            : name_files(&t, NULL);
  t.sheet = NULL;
  all = all && take_form(&t, NULL, "html", NULL, 0);
  ts_arena_free(t.arena);
  ts_xml_free(xml);
  return all;
}

/* ---- how each is made ------------------------------------------------------------------ */

static bool make_page(tour *t, const char *xml, size_t length, const char *paper,
                      ts_diagnostics *problems) {
  char *bytes = NULL;
  size_t count = 0;
  bool good = ts_sheet_render(xml, length, t->sheet->name, NULL, paper, &bytes, &count, problems) &&
              take_page(t, NULL, bytes, count);
  free(bytes);
  return good;
}

static bool make_spreadsheet(const tour *t, const char *xml, size_t length,
                             ts_diagnostics *problems) {
  char *bytes = NULL;
  size_t count = 0;
  bool good = ts_sheet_spreadsheet(xml, length, t->sheet->name, &bytes, &count, problems) &&
              take_form(t, NULL, "ods", bytes, count);
  free(bytes);
  return good;
}

bool ts_sheet_make_each_file(const char *assessment_xml, size_t length, bool pdf, const char *paper,
                             ts_file_taker take, void *data, ts_diagnostics *problems) {
  tour t = {ts_arena_new(), ts_sheets(), pdf, take, data};
  bool good = true;
  for (; good && t.sheet->name; t.sheet++) {
    good = t.sheet->per_task ? ts_sheet_render_each(assessment_xml, length, t.sheet->name, paper,
                                                    take_page, &t, problems)
                             : make_page(&t, assessment_xml, length, paper, problems);
    if (good && t.sheet->spreadsheet) good = make_spreadsheet(&t, assessment_xml, length, problems);
  }
  ts_arena_free(t.arena);
  return good;
}

/* ---- where one differs ----------------------------------------------------------------- */

static size_t first_other(const char *a, size_t a_length, const char *b, size_t b_length) {
  size_t at = 0;
  while (at < a_length && at < b_length && a[at] == b[at]) at++;
  return at;
}

static size_t count_of(const char *bytes, size_t length, const char *what) {
  size_t count = 0, size = strlen(what);
  const char *end = bytes + length;
  for (const char *at = bytes; (at = memmem(at, (size_t)(end - at), what, size)); at += size)
    count++;
  return count;
}

/* The page of a PDF whose content an object is: the first page names its content first. 0: none. */
static size_t page_of(const char *pdf, size_t length, size_t object) {
  char contents[48];
  int size = snprintf(contents, sizeof contents, "/Contents %zu 0 R", object);
  const char *at = memmem(pdf, length, contents, (size_t)size);
  return at ? count_of(pdf, (size_t)(at - pdf), "/Contents ") + 1 : 0;
}

/* The number of the object around an offset: that of the last "\nN 0 obj" before it. */
static size_t object_at(const char *pdf, size_t offset) {
  static const char mark[] = " 0 obj\n";
  const char *found = NULL, *end = pdf + offset;
  for (const char *at = pdf; (at = memmem(at, (size_t)(end - at), mark, sizeof mark - 1)); at++)
    found = at;
  size_t number = 0, ten = 1;
  for (; found && found > pdf && found[-1] >= '0' && found[-1] <= '9'; found--, ten *= 10)
    number += ten * (size_t)(found[-1] - '0');
  return number;
}

static void pdf_differs(const char *given, size_t length, size_t offset, const char *name,
                        ts_diagnostics *problems) {
  size_t object = object_at(given, offset), page = page_of(given, length, object);
  if (page > 0)
    ts_report(problems, TS_ERROR, name, 0, "page %zu is not what is set from this assessment",
              page);
  else
    ts_report(problems, TS_ERROR, name, 0, "object %zu is not what is set from this assessment",
              object);
}

/* "assessment.xml sha256 ..." is among its keywords. */
static bool of_another(const char *given, size_t length, const char *digest, const char *name,
                       ts_diagnostics *problems) {
  static const char mark[] = "assessment.xml sha256 ";
  const char *at = memmem(given, length, mark, sizeof mark - 1), *end = given + length;
  if (!at || end - at < (long)sizeof mark + 64) return false;
  at += sizeof mark - 1;
  if (strncmp(at, digest, 64) == 0 || strspn(at, "0123456789abcdef") != 64) return false;
  ts_report(problems, TS_ERROR, name, 0,
            "made from another assessment: it names %.12s, this is %.12s", at, digest);
  return true;
}

void ts_sheet_file_differences(const char *given, size_t given_length, const char *expected,
                               size_t expected_length, const char *form, const char *digest,
                               const char *name, size_t limit, size_t *count,
                               ts_diagnostics *problems) {
  size_t at = first_other(given, given_length, expected, expected_length);
  *count = given_length != expected_length || at < given_length;
  if (*count == 0 || of_another(given, given_length, digest, name, problems)) return;
  if (ts_same(form, "html"))
    ts_page_differences(given, given_length, expected, expected_length, name, limit, count,
                        problems);
  else if (ts_same(form, "pdf"))
    pdf_differs(given, given_length, at, name, problems);
  else if (ts_same(form, "csv"))
    ts_report(problems, TS_ERROR, name, (int)count_of(given, at, "\n") + 1,
              "not the line that is made from this assessment");
  else
    ts_report(problems, TS_ERROR, name, 0, "not what is made from this assessment");
}
