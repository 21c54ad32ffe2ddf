/* The papers of an assessment: every sheet in its forms, in one folder.
 *
 * They are listed first, so that what stands in their way is said before any is made. */
#include "base/file.h"
#include "base/text.h"
#include "command/made_of.h"
#include "tankside/document.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char record[] = "assessment.xml", contents[] = "index.html";

typedef struct {
  ts_output out;
  ts_progress *progress;
  const ts_assessment *assessment;
  const char
      *record_bytes; /* as it is written; and in the language of the papers: NULL without any */
  const char *bytes;
  size_t record_length, length;
  const ts_sheet *sheet;
  size_t files;
  ts_text parts; /* PDFs that are set in several: "set/4 " */
  bool clear;    /* nothing stands in the way */
} writer;

/* ---- which there are --------------------------------------------------------------- */

static bool may_be(void *data, const ts_sheet_file *file) {
  writer *w = data;
  w->clear = output_may_be(&w->out, file->name) && w->clear;
  return true; /* all that stands in the way is said in one run */
}

static bool all_may_be(writer *w) {
  w->clear = output_may_be(&w->out, record);
  if (w->out.options->no_papers) return w->clear;
  return ts_sheet_each_file(w->bytes, w->length, !w->out.options->no_pdf, may_be, w,
                            w->out.s->problems) &&
         w->clear;
}

enum { FORMS = 4 };
static const char *const forms[FORMS] = {"html", "pdf", "csv", "ods"};

/* The file of the sheet that is at hand. */
static const char *file_name(const writer *w, const char *task, const char *form) {
  ts_arena *arena = w->out.s->arena;
  const char *sheet = w->sheet->name;
  return task ? ts_arena_printf(arena, "%s-%s.%s", sheet, task, form)
              : ts_arena_printf(arena, "%s.%s", sheet, form);
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
  return (form && ts_sheet_is_part(name)) || ts_same(name, contents);
}

/* ---- making them ---------------------------------------------------------------------- */

static bool put(writer *w, const char *name, char *bytes, size_t length) {
  bool good = output_put(&w->out, name, bytes, length);
  free(bytes);
  w->files++;
  return good;
}

static bool write_pdf(writer *w, const char *task, size_t parts) {
  const char *name = file_name(w, task, "pdf");
  progress_file(w->progress, name);
  w->files += parts;
  if (parts > 1) ts_text_addf(&w->parts, "%s/%zu ", w->sheet->name, parts);
  return ts_sheet_pdf_with(output_path(&w->out, file_name(w, task, "html")),
                           output_path(&w->out, name), w->out.options->paper,
                           w->sheet->attaches ? output_path(&w->out, record) : NULL,
                           w->out.s->problems);
}

/* A sheet, or that of one task, once its text is there. */
static bool put_page(void *data, const char *task, const char *bytes, size_t length) {
  writer *w = data;
  const char *name = file_name(w, task, w->sheet->spreadsheet ? "csv" : "html");
  bool pdf = w->sheet->own_pdf && !w->out.options->no_pdf;
  progress_file(w->progress, name);
  w->files++;
  return output_put(&w->out, name, bytes, length) &&
         (!pdf || write_pdf(w, task, ts_sheet_pdf_parts(bytes, length)));
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
  char *bytes = NULL;
  size_t length = 0;
  return ts_sheet_spreadsheet(w->bytes, w->length, w->sheet->name, &bytes, &length,
                              w->out.s->problems) &&
         put(w, file_name(w, NULL, "ods"), bytes, length);
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
  const char *parts = w->parts.length ? w->parts.data : "";
  return ts_sheet_index(w->bytes, w->length, w->out.options->no_pdf ? NULL : parts, &html, &length,
                        w->out.s->problems) &&
         put(w, contents, html, length);
}

/* For one of many: by it the next run knows that this one is done. */
static bool write_note(const writer *w) {
  const ts_session *s = w->out.s;
  return s->figures == NULL || made_of_put(&w->out, s->status, s->figures);
}

/* ---- all ---------------------------------------------------------------------------------- */

/* The papers are made from the text; alone the assessment need not be one. */
static bool put_record(const writer *w) {
  return w->bytes != NULL ? output_put(&w->out, record, w->record_bytes, w->record_length)
                          : output_put_assessment(&w->out, record, w->assessment);
}

/* Standard output comes first: where it cannot be written the run has failed, and nothing changes.
 */
static bool make_and_publish(writer *w) {
  bool alone = w->bytes == NULL;
  w->files = 1;
  return all_may_be(w) && put_record(w) && (alone || (write_papers(w) && write_contents(w))) &&
         write_note(w) && fflush(stdout) == 0 && output_publish(&w->out, is_paper);
}

static bool write_all(writer *w, ts_session *s, const ts_options *options) {
  bool good = ts_folder_make(options->out, s->problems) &&
              output_begin(&w->out, s, options, options->out) && make_and_publish(w);
  output_end(&w->out);
  ts_text_release(&w->parts);
  if (good && s->figures == NULL)
    printf("\n%zu file%s in %s\n", w->files, plural(w->files), options->out);
  return good;
}

bool papers_write(ts_session *s, const ts_options *options, ts_progress *progress,
                  const ts_assessment *assessment) {
  writer w = {.progress = progress, .assessment = assessment};
  char *text = NULL, *translated = NULL;
  bool good = true;
  if (!options->no_papers) {
    ts_assessment_write(assessment, &text, &w.record_length);
    good = ts_assessment_in_language(text, w.record_length, options->language, &translated,
                                     &w.length, s->problems);
  }
  w.record_bytes = text;
  w.bytes = translated;
  good = good && write_all(&w, s, options);
  free(translated);
  free(text);
  return good;
}
