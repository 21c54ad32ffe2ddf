/* The papers of an assessment: every sheet in its forms, in one folder.
 *
 * They are listed first, so that what stands in their way is said before any is made. */
#include "base/file.h"
#include "base/text.h"
#include "command/output.h"
#include "tankside/document.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char record[] = "assessment.xml", contents[] = "index.html";

typedef struct {
  const ts_sheet *sheet;
  const char *name; /* without a form: "card", "task-dusk" */
} paper;

typedef struct {
  ts_output out;
  ts_progress *progress;
  const char *bytes; /* the assessment in the language of the papers */
  size_t length;
  const ts_sheet *sheet;
  paper *papers;
  size_t count, capacity, files;
} writer;

/* ---- which there are --------------------------------------------------------------- */

/* The paper of the sheet that is at hand. */
static paper paper_of(const writer *w, const char *task) {
  const char *sheet = w->sheet->name;
  return (paper){w->sheet, task ? ts_arena_printf(w->out.s->arena, "%s-%s", sheet, task) : sheet};
}

static bool add_paper(void *data, const char *task) {
  writer *w = data;
  TS_GROW(w->papers, w->count, w->capacity);
  w->papers[w->count++] = paper_of(w, task);
  return true;
}

static bool list_papers(writer *w) {
  bool good = true;
  for (w->sheet = ts_sheets(); good && w->sheet->name != NULL; w->sheet++)
    good = w->sheet->per_task
               ? ts_sheet_each_task(w->bytes, w->length, add_paper, w, w->out.s->problems)
               : add_paper(w, NULL);
  return good;
}

enum { FORMS = 4 };
static const char *const forms[FORMS] = {"html", "pdf", "csv", "ods"};

/* Whether a sheet comes in a form. */
static bool comes_as(const writer *w, const ts_sheet *sheet, const char *form) {
  if (ts_same(form, "pdf")) return sheet->own_pdf && !w->out.options->no_pdf;
  return ts_same(form, "html") == (sheet->spreadsheet == NULL);
}

static const char *file_name(const writer *w, const paper *p, const char *form) {
  return ts_arena_printf(w->out.s->arena, "%s.%s", p->name, form);
}

static bool all_may_be(const writer *w) {
  bool good = output_may_be(&w->out, record);
  good = output_may_be(&w->out, contents) && good;
  for (const paper *p = w->papers; p < w->papers + w->count; p++)
    for (int i = 0; i < FORMS; i++)
      if (comes_as(w, p->sheet, forms[i]))
        good = output_may_be(&w->out, file_name(w, p, forms[i])) && good;
  return good;
}

/* What an earlier run called a paper: "card.html", "task-dusk.pdf". */
static bool is_paper(const char *name) {
  const char *dot = strrchr(name, '.');
  bool form = false;
  for (int i = 0; dot != NULL && i < FORMS; i++) form = form || ts_same(dot + 1, forms[i]);
  for (const ts_sheet *sheet = ts_sheets(); form && sheet->name != NULL; sheet++) {
    size_t length = strlen(sheet->name);
    if (strncmp(name, sheet->name, length) != 0) continue;
    if (name + length == dot || (sheet->per_task && name[length] == '-')) return true;
  }
  return false;
}

/* ---- making them ---------------------------------------------------------------------- */

static bool put(writer *w, const char *name, char *bytes, size_t length) {
  bool good = output_put(&w->out, name, bytes, length);
  free(bytes);
  w->files++;
  return good;
}

static bool write_pdf(writer *w, const paper *p) {
  const char *name = file_name(w, p, "pdf");
  progress_file(w->progress, name);
  w->files++;
  return ts_sheet_pdf_with(output_path(&w->out, file_name(w, p, "html")),
                           output_path(&w->out, name), w->out.options->paper,
                           p->sheet->attaches ? output_path(&w->out, record) : NULL,
                           w->out.s->problems);
}

/* A sheet, or that of one task, once its text is there. */
static bool put_page(void *data, const char *task, const char *bytes, size_t length) {
  writer *w = data;
  const paper p = paper_of(w, task);
  const char *name = file_name(w, &p, w->sheet->spreadsheet ? "csv" : "html");
  progress_file(w->progress, name);
  w->files++;
  return output_put(&w->out, name, bytes, length) &&
         (!comes_as(w, w->sheet, "pdf") || write_pdf(w, &p));
}

static bool write_page(writer *w) {
  char *bytes = NULL;
  size_t length = 0;
  progress_file(w->progress, w->sheet->name);
  bool good = ts_sheet_render(w->bytes, w->length, w->sheet->name, NULL, w->out.options->paper,
                              &bytes, &length, w->out.s->problems) &&
              put_page(w, NULL, bytes, length);
  free(bytes);
  return good;
}

static bool write_spreadsheet(writer *w) {
  const paper p = paper_of(w, NULL);
  char *bytes = NULL;
  size_t length = 0;
  return ts_sheet_spreadsheet(w->bytes, w->length, w->sheet->name, &bytes, &length,
                              w->out.s->problems) &&
         put(w, file_name(w, &p, "ods"), bytes, length);
}

static bool write_papers(writer *w) {
  for (w->sheet = ts_sheets(); w->sheet->name != NULL; w->sheet++) {
    bool good = w->sheet->per_task
                    ? ts_sheet_render_each(w->bytes, w->length, w->sheet->name,
                                           w->out.options->paper, put_page, w, w->out.s->problems)
                    : write_page(w);
    if (!good || (w->sheet->spreadsheet && !write_spreadsheet(w))) return false;
  }
  return true;
}

static bool write_contents(writer *w) {
  char *html = NULL;
  size_t length = 0;
  return ts_sheet_index(w->bytes, w->length, !w->out.options->no_pdf, &html, &length,
                        w->out.s->problems) &&
         put(w, contents, html, length);
}

/* ---- all ---------------------------------------------------------------------------------- */

/* Standard output comes first: where it cannot be written the run has failed, and nothing changes.
 */
static bool make_and_publish(writer *w, const char *bytes, size_t length) {
  w->files = 1;
  return list_papers(w) && all_may_be(w) && output_put(&w->out, record, bytes, length) &&
         write_papers(w) && write_contents(w) && fflush(stdout) == 0 &&
         output_publish(&w->out, is_paper);
}

static bool write_in_language(writer *w, ts_session *s, const ts_options *options,
                              const char *bytes, size_t length) {
  bool good = ts_folder_make(options->out, s->problems) &&
              output_begin(&w->out, s, options, options->out) && make_and_publish(w, bytes, length);
  output_end(&w->out);
  free(w->papers);
  if (good) printf("\n%zu file%s in %s\n", w->files, plural(w->files), options->out);
  return good;
}

bool papers_write(ts_session *s, const ts_options *options, ts_progress *progress,
                  const char *bytes, size_t length) {
  writer w = {.progress = progress};
  char *translated = NULL;
  bool good = ts_assessment_in_language(bytes, length, options->language, &translated, &w.length,
                                        s->problems);
  w.bytes = translated;
  good = good && write_in_language(&w, s, options, bytes, length);
  free(translated);
  return good;
}
