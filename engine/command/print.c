/* tankside print: one document from an assessment that was written before. */
#include "base/file.h"
#include "base/text.h"
#include "command/output.h"
#include "tankside/document.h"
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>

typedef struct {
  ts_session *s;
  const ts_options *options;
  const char *path, *sheet, *bytes;
  size_t length;
} printer;

static bool to_stdout(const char *html, size_t length) {
  return fwrite(html, 1, length, stdout) == length;
}

static bool write_pdf(const printer *p, const char *html, size_t length) {
  const char *attachment = ts_sheet_find(p->sheet)->attaches ? p->path : NULL;
  size_t parts = ts_sheet_pdf_parts(html, length);
  char first[PATH_MAX], last[PATH_MAX];
  ts_sheet_pdf_name(p->options->out, 1, parts, first, sizeof first);
  ts_sheet_pdf_name(p->options->out, parts, parts, last, sizeof last);
  if (!output_pdf(p->s, p->options, html, length, attachment)) return false;
  if (parts > 1)
    printf("too long for one PDF: set in %zu parts, %s to %s\n", parts, first, ts_path_name(last));
  return true;
}

static bool put(const printer *p, const char *bytes, size_t length) {
  if (ts_same(p->options->as, "pdf")) return write_pdf(p, bytes, length);
  if (p->options->out == NULL) return to_stdout(bytes, length);
  return output_file(p->s, p->options, p->options->out, bytes, length);
}

static bool print_sheet(const printer *p) {
  char *bytes = NULL;
  size_t length = 0;
  bool made =
      ts_same(p->options->as, "ods")
          ? ts_sheet_spreadsheet(p->bytes, p->length, p->sheet, &bytes, &length, p->s->problems)
          : ts_sheet_render(p->bytes, p->length, p->sheet, p->options->task, p->options->paper,
                            &bytes, &length, p->s->problems);
  bool good = made && put(p, bytes, length);
  free(bytes);
  return good;
}

static bool print_in_language(printer *p) {
  size_t length = 0;
  char *translated = NULL;
  const char *bytes = ts_file_read(p->s->arena, p->path, ASSESSMENT_LIMIT, &length, p->s->problems);
  bool good = bytes != NULL && ts_assessment_in_language(bytes, length, p->options->language,
                                                         &translated, &p->length, p->s->problems);
  p->bytes = translated;
  good = good && print_sheet(p);
  free(translated);
  return good;
}

/* The forms a sheet comes in; the first is what it is without --as. */
static int wrong_form(const ts_options *options, const ts_sheet *sheet) {
  static const char *const pages[] = {"html", "pdf"}, *const tables[] = {"csv", "ods"};
  const char *const *both = sheet->spreadsheet ? tables : pages;
  if (options->as != NULL && !ts_same(options->as, both[0]) && !ts_same(options->as, both[1]))
    return unknown("form", options->as, both, 2);
  if (ts_same(options->as, both[1]) && options->out == NULL)
    return usage_error("a %s needs a file to go to: -o FILE",
                       sheet->spreadsheet ? "spreadsheet" : "PDF");
  return DONE;
}

/* What cannot be asked for, said before anything is read. */
static int wrong_request(const ts_options *options, const char *sheet) {
  const ts_sheet *found = ts_sheet_find(sheet);
  if (found == NULL) {
    size_t count = 0;
    while (ts_sheet_names()[count] != NULL) count++;
    return unknown("sheet", sheet, ts_sheet_names(), count);
  }
  if (found->per_task && options->task == NULL)
    return usage_error("sheet \"%s\" is made for one task: --task ID", sheet);
  if (!found->per_task && options->task != NULL)
    return usage_error("sheet \"%s\" is made for all tasks, not with --task", sheet);
  return wrong_form(options, found);
}

static int run(const ts_options *options) {
  ts_session s = {0};
  printer p = {
      .s = &s, .options = options, .sheet = options->sheet ? options->sheet : "assessment"};
  int status = wrong_request(options, p.sheet);
  if (status != DONE) return status;
  s.arena = ts_arena_new();
  s.problems = ts_diagnostics_new();
  p.path = assessment_path(&s, options->words[0]);
  status = print_in_language(&p) ? DONE : NOT_DONE;
  session_close(&s);
  return status;
}

static const char *const forms[] = {"html", "pdf", "csv", "ods", NULL};

const ts_verb verb_print = {
    .name = "print",
    .usage = "print ASSESSMENT [--sheet NAME] [--as html|pdf|csv|ods] [OPTION]...",
    .summary = "a document from an assessment.xml",
    .details =
        "Prints one document from an assessment.xml that `tankside assess -o` wrote. HTML\n"
        "and CSV go to standard output or to the file given with -o; a PDF or a spreadsheet\n"
        "needs -o, and the HTML that a PDF is set from stays beside it. Nothing is computed\n"
        "again.\n\n"
        "A document of more than about two hundred pages is set as several PDFs, each complete\n"
        "in itself: FILE-part-01.pdf, FILE-part-02.pdf and so on. What it was set in before\n"
        "under that name, one or several, is removed.\n\n"
        "  assessment  everything, personal facts too: insurer, officer, coordinator\n"
        "  task        the sheet of one task (--task ID), for those who do it\n"
        "  emergency   whom to call, who does what, how long it takes to the chamber\n"
        "  station     who stands where, signals, gas, numbers: the safety team\n"
        "  card        briefing cards for those who go in, four to a page\n"
        "  record      head count, dives, water, equipment of a day, to fill in by pen\n"
        "  question    what is open, by who knows the answer\n"
        "  form        a form for what nobody has answered yet\n"
        "  set         the papers for the water, bound, with their contents\n"
        "  reviewer    scope, method, evidence, assumptions, digests: the reviewer\n"
        "  register    findings and duties as a table: csv or ods\n\n"
        "All but the first leave personal facts out.\n\n"
        "  tankside print paper --sheet card --as pdf -o cards.pdf\n"
        "  tankside print paper --sheet register -o register.csv\n\n"
        "Exit status: 0 printed, 2 not.",
    .takes = OPTION_SHEET | OPTION_AS | OPTION_TASK | OPTION_OUT | OPTION_PAPER | OPTION_LANGUAGE |
             OPTION_FORCE,
    .least = 1,
    .most = 1,
    .kinds = {AN_ASSESSMENT},
    .forms = forms,
    .needs = WRITES_OUT | RUNS_AS_PDF,
    .run = run};
