/* tankside assess: the dossier assessed, a summary shown, the documents written. */
#include "base/file.h"
#include "base/text.h"
#include "command/command.h"
#include "tankside/document.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

/* ---- progress ------------------------------------------------------------------ */

/* Shown only to somebody who watches a terminal, and only once it takes long. */
typedef struct {
  bool watched, shown;
  struct timespec began;
} watch;

static watch progress_new(void) {
  watch p = {.watched = isatty(STDERR_FILENO) == 1};
  clock_gettime(CLOCK_MONOTONIC, &p.began);
  return p;
}

static bool progress_due(watch *p) {
  struct timespec now;
  if (!p->watched) return false;
  clock_gettime(CLOCK_MONOTONIC, &now);
  long waited = (now.tv_sec - p->began.tv_sec) * 1000 + (now.tv_nsec - p->began.tv_nsec) / 1000000;
  p->shown = p->shown || waited > 1000;
  return p->shown;
}

static void progress_part(void *context, double part) {
  if (progress_due(context)) fprintf(stderr, "\rassessing %3.0f %%", 100 * part);
}

static void progress_file(watch *p, const char *name) {
  if (progress_due(p)) fprintf(stderr, "\r\033[Kwriting %s", name);
}

static void progress_end(const watch *p) {
  if (p->shown) fputs("\r\033[K", stderr);
}

/* ---- documents ------------------------------------------------------------------ */

typedef struct {
  ts_session *s;
  const ts_options *options;
  watch *progress;
  const char *folder, *xml_path;
  const char *bytes; /* the assessment in the language of the papers */
  size_t length;
  const ts_sheet *sheet;
  size_t files;
} writer;

static bool write_pdf(writer *w, const char *html_path, const char *name) {
  char *file = ts_arena_printf(w->s->arena, "%s.pdf", name);
  char *path = ts_path_join(w->s->arena, w->folder, file);
  progress_file(w->progress, file);
  w->files++;
  if (w->sheet->attaches)
    return ts_sheet_pdf_with(html_path, path, w->options->paper, w->xml_path, w->s->problems);
  return ts_sheet_pdf(html_path, path, w->options->paper, w->s->problems);
}

/* Writes what was made and frees it. */
static bool put(writer *w, const char *name, const char *form, char *bytes, size_t length) {
  char *file = ts_arena_printf(w->s->arena, "%s.%s", name, form);
  bool good =
      ts_file_write(ts_path_join(w->s->arena, w->folder, file), bytes, length, w->s->problems);
  free(bytes);
  w->files++;
  return good;
}

static bool write_page(writer *w, const char *task) {
  ts_arena *arena = w->s->arena;
  const char *sheet = w->sheet->name;
  char *bytes = NULL;
  size_t length = 0;
  char *name = task ? ts_arena_printf(arena, "%s-%s", sheet, task) : ts_arena_copy(arena, sheet);
  const char *form = w->sheet->spreadsheet ? "csv" : "html";
  progress_file(w->progress, name);
  if (!ts_sheet_render(w->bytes, w->length, sheet, task, w->options->paper, &bytes, &length,
                       w->s->problems) ||
      !put(w, name, form, bytes, length))
    return false;
  if (w->options->no_pdf || !w->sheet->own_pdf) return true;
  return write_pdf(w, ts_path_join(arena, w->folder, ts_arena_printf(arena, "%s.html", name)),
                   name);
}

static bool write_for_task(void *data, const char *task) { return write_page(data, task); }

static bool write_spreadsheet(writer *w) {
  char *bytes = NULL;
  size_t length = 0;
  return ts_sheet_spreadsheet(w->bytes, w->length, w->sheet->name, &bytes, &length,
                              w->s->problems) &&
         put(w, w->sheet->name, "ods", bytes, length);
}

static bool write_index(writer *w) {
  char *html = NULL;
  size_t length = 0;
  return ts_sheet_index(w->bytes, w->length, !w->options->no_pdf, &html, &length, w->s->problems) &&
         put(w, "index", "html", html, length);
}

static bool write_sheets(writer *w) {
  for (w->sheet = ts_sheets(); w->sheet->name != NULL; w->sheet++) {
    bool good = w->sheet->per_task
                    ? ts_sheet_each_task(w->bytes, w->length, write_for_task, w, w->s->problems)
                    : write_page(w, NULL);
    if (!good || (w->sheet->spreadsheet && !write_spreadsheet(w))) return false;
  }
  return write_index(w);
}

/* A name that ends in .xml asks for the assessment alone. */
static bool wants_file(const char *out) {
  size_t length = strlen(out);
  return length > 4 && ts_same(out + length - 4, ".xml");
}

static bool write_documents(ts_session *s, const ts_options *options, watch *progress,
                            const char *bytes, size_t length) {
  if (wants_file(options->out)) return ts_file_write(options->out, bytes, length, s->problems);
  writer w = {.s = s, .options = options, .progress = progress, .folder = options->out};
  w.xml_path = ts_path_join(s->arena, w.folder, "assessment.xml");
  w.files = 1;
  char *translated = NULL;
  bool good = ts_assessment_in_language(bytes, length, options->language, &translated, &w.length,
                                        s->problems);
  w.bytes = translated;
  good = good && ts_folder_make(w.folder, s->problems) &&
         ts_file_write(w.xml_path, bytes, length, s->problems) && write_sheets(&w);
  free(translated);
  if (good) printf("\n%zu file%s in %s\n", w.files, plural(w.files), w.folder);
  return good;
}

/* ---- the verb ----------------------------------------------------------------------- */

static ts_assessment *assess(ts_session *s, const ts_options *options, watch *progress) {
  ts_assess_inputs inputs = session_inputs(s, options, options->words[0]);
  inputs.progress = progress_part;
  inputs.context = progress;
  return ts_assess(&inputs, s->problems);
}

/* ---- one finding explained --------------------------------------------------------- */

static bool no_such_finding(ts_session *s, const ts_assessment *a, const char *id) {
  size_t findings = ts_finding_count(a), duties = ts_duty_count(a);
  const char **ids = ts_arena_alloc(s->arena, (findings + duties + 1) * sizeof *ids);
  for (size_t i = 0; i < findings; i++) ids[i] = ts_finding_at(a, i).id;
  for (size_t i = 0; i < duties; i++) ids[findings + i] = ts_duty_at(a, i).id;
  unknown("finding", id, ids, findings + duties);
  return false;
}

static bool explain(ts_session *s, const ts_assessment *a, const char *id, const char *bytes,
                    size_t length) {
  char *text;
  if (!ts_finding_text(bytes, length, id, &text, s->problems)) return false;
  bool found = text[0] != '\0';
  if (found) print_lines(s->arena, text);
  free(text);
  return found || no_such_finding(s, a, id);
}

static int conclude(ts_session *s, const ts_options *options, watch *progress,
                    const ts_assessment *assessment) {
  char *bytes = NULL;
  size_t length = 0;
  bool good = true;
  progress_end(progress);
  if (options->out != NULL || options->explain != NULL)
    ts_assessment_write(assessment, &bytes, &length);
  if (options->explain == NULL)
    print_summary(s, assessment);
  else
    good = explain(s, assessment, options->explain, bytes, length);
  if (good && options->out != NULL) good = write_documents(s, options, progress, bytes, length);
  progress_end(progress);
  free(bytes);
  if (!good) return NOT_DONE;
  return ts_assessment_holds(assessment) ? LOOK : DONE;
}

static int run(const ts_options *options) {
  ts_session s = {0};
  watch progress = progress_new();
  ts_assessment *assessment = NULL;
  int status = NOT_DONE;
  bool opened = session_open(&s);
  bool matrix = opened && session_read_matrix(&s, options->matrix);
  bool language = !opened || options->language == NULL ||
                  ts_language_known(options->language, "--language", 0, s.problems);
  if (opened && session_read_dossier(&s, options, options->words[0]) && matrix && language &&
      ts_count(s.problems, TS_ERROR) == 0)
    assessment = assess(&s, options, &progress);
  if (assessment != NULL) status = conclude(&s, options, &progress, assessment);
  ts_assessment_free(assessment);
  session_close(&s);
  return status;
}

const ts_verb verb_assess = {
    .name = "assess",
    .usage = "assess DOSSIER [OPTION]...",
    .summary = "score every task of a dossier and write the documents",
    .details =
        "Runs the common rules, those of the dossier's jurisdiction and those given with\n"
        "--pack over every subject, in three views: as described, with what is in place,\n"
        "with everything planned. Shows a summary; with -o DIR also writes assessment.xml,\n"
        "every document (`tankside print --help` lists them) as HTML, most as PDF, and an\n"
        "index.html to find them by; -o FILE.xml writes the assessment alone. What is not\n"
        "known counts as its worst.\n"
        "--explain F12 shows instead all that is behind one finding: scores, conditions,\n"
        "working with its sources, facts and evidence, how far each number is from changing\n"
        "it, and what would bring it below the line, with what that makes worse elsewhere.\n\n"
        "It never says that something may go ahead: a competent person decides.\n\n"
        "Exit status: 0 nothing above the line, no stop, no duty open or not met, complete;\n"
        "1 otherwise; 2 not assessed, and then nothing is written.",
    .takes = OPTION_PACK | OPTION_MATRIX | OPTION_SET | OPTION_OUT | OPTION_PAPER | OPTION_NO_PDF |
             OPTION_EXPLAIN | OPTION_LANGUAGE,
    .least = 1,
    .most = 1,
    .kinds = {A_DOSSIER},
    .run = run};
