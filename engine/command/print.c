/* tankside print: one document from an assessment that was written before. */
#include "base/file.h"
#include "base/text.h"
#include "command/command.h"
#include "tankside/document.h"
#include <stdio.h>
#include <stdlib.h>

typedef struct {
  ts_session *s;
  const ts_options *options;
  const char *sheet, *bytes;
  size_t length;
} printer;

static bool to_stdout(const char *html, size_t length) {
  return fwrite(html, 1, length, stdout) == length;
}

/* The PDF is set from an HTML file, which stays beside it: it is the accessible edition. */
static bool write_pdf(const printer *p, const char *html, size_t length) {
  ts_arena *arena = p->s->arena;
  const char *pdf = p->options->out;
  char *beside = ts_arena_printf(arena, "%s.html", pdf);
  if (!ts_file_write(beside, html, length, p->s->problems)) return false;
  if (ts_sheet_find(p->sheet)->attaches)
    return ts_sheet_pdf_with(beside, pdf, p->options->paper, p->options->words[0], p->s->problems);
  return ts_sheet_pdf(beside, pdf, p->options->paper, p->s->problems);
}

static bool print_sheet(const printer *p) {
  char *html = NULL;
  size_t length = 0;
  if (!ts_sheet_render(p->bytes, p->length, p->sheet, p->options->task, p->options->paper, &html,
                       &length, p->s->problems))
    return false;
  bool good;
  if (ts_same(p->options->as, "pdf"))
    good = write_pdf(p, html, length);
  else if (p->options->out != NULL)
    good = ts_file_write(p->options->out, html, length, p->s->problems);
  else
    good = to_stdout(html, length);
  free(html);
  return good;
}

/* What cannot be asked for, said before anything is read. */
static int wrong_request(const ts_options *options, const char *sheet) {
  static const char *const forms[] = {"html", "pdf"};
  const ts_sheet *found = ts_sheet_find(sheet);
  if (found == NULL) {
    size_t count = 0;
    while (ts_sheet_names()[count] != NULL) count++;
    return unknown("sheet", sheet, ts_sheet_names(), count);
  }
  if (options->as != NULL && !ts_same(options->as, "html") && !ts_same(options->as, "pdf"))
    return unknown("form", options->as, forms, 2);
  if (ts_same(options->as, "pdf") && options->out == NULL)
    return usage_error("a PDF needs a file to go to: -o FILE");
  if (found->per_task && options->task == NULL)
    return usage_error("sheet \"%s\" is made for one task: --task ID", sheet);
  if (!found->per_task && options->task != NULL)
    return usage_error("sheet \"%s\" is made for all tasks, not with --task", sheet);
  return DONE;
}

static int run(const ts_options *options) {
  ts_session s = {0};
  printer p = {
      .s = &s, .options = options, .sheet = options->sheet ? options->sheet : "assessment"};
  int status = wrong_request(options, p.sheet);
  if (status != DONE) return status;
  s.arena = ts_arena_new();
  s.problems = ts_diagnostics_new();
  p.bytes = ts_file_read(s.arena, options->words[0], ASSESSMENT_LIMIT, &p.length, s.problems);
  status = p.bytes != NULL && print_sheet(&p) ? DONE : NOT_DONE;
  session_close(&s);
  return status;
}

const ts_verb verb_print = {
    .name = "print",
    .usage = "print ASSESSMENT [--sheet NAME] [--as html|pdf] [OPTION]...",
    .summary = "a document from an assessment.xml",
    .details = "Prints one document from an assessment.xml that `tankside assess -o` wrote. HTML\n"
               "goes to standard output or to the file given with -o; a PDF needs -o, and the\n"
               "HTML it is set from stays beside it. Nothing is computed again.",
    .takes = OPTION_SHEET | OPTION_AS | OPTION_TASK | OPTION_OUT | OPTION_PAPER,
    .least = 1,
    .most = 1,
    .run = run};
