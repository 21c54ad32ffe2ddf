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
  size_t files;
  const char *page; /* where the HTML written last stands */
  size_t pdfs;      /* in so many parts it is to be set */
  ts_text parts;    /* PDFs that are set in several: "set/4 " */
  bool clear;       /* nothing stands in the way */
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

/* What an earlier run called a paper: "card.html", "task-dusk.pdf". */
static bool is_paper(const void *context, const char *name) {
  (void)context;
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

static bool write_pdf(writer *w, const ts_sheet_file *file) {
  w->files += w->pdfs;
  if (w->pdfs > 1) ts_text_addf(&w->parts, "%s/%zu ", file->sheet->name, w->pdfs);
  return ts_sheet_pdf_with(w->page, output_path(&w->out, file->name), w->out.options->paper,
                           file->sheet->attaches ? output_path(&w->out, record) : NULL,
                           w->out.s->problems);
}

static bool put(void *data, const ts_sheet_file *file, const char *bytes, size_t length) {
  writer *w = data;
  progress_file(w->progress, file->name);
  if (bytes == NULL) return write_pdf(w, file);
  if (ts_same(file->form, "html")) {
    w->page = output_path(&w->out, file->name);
    w->pdfs = ts_sheet_pdf_parts(bytes, length);
  }
  w->files++;
  return output_put(&w->out, file->name, bytes, length);
}

static bool write_papers(writer *w) {
  progress_file(w->progress, ts_sheets()->name);
  return ts_sheet_make_each_file(w->bytes, w->length, !w->out.options->no_pdf,
                                 w->out.options->paper, put, w, w->out.s->problems);
}

static bool write_contents(writer *w) {
  char *html = NULL;
  size_t length = 0;
  const char *parts = w->parts.length ? w->parts.data : "";
  bool good = ts_sheet_index(w->bytes, w->length, w->out.options->no_pdf ? NULL : parts, &html,
                             &length, w->out.s->problems) &&
              output_put(&w->out, contents, html, length);
  free(html);
  w->files++;
  return good;
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
         write_note(w) && fflush(stdout) == 0 && output_publish(&w->out, is_paper, NULL);
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
