/* tankside compare: two assessments, what changed between them and why. */
#include "base/file.h"
#include "base/text.h"
#include "command/output.h"
#include "tankside/document.h"
#include <stdio.h>
#include <stdlib.h>

typedef struct {
  ts_session *s;
  const ts_options *options;
  char *comparison;
  size_t length;
} comparer;

static bool read_both(comparer *c) {
  const char *bytes[2], *names[2];
  size_t lengths[2];
  for (int i = 0; i < 2; i++) {
    names[i] = assessment_path(c->s, c->options->words[i]);
    bytes[i] = ts_file_read(c->s->arena, names[i], ASSESSMENT_LIMIT, &lengths[i], c->s->problems);
  }
  return bytes[0] != NULL && bytes[1] != NULL &&
         ts_compare(bytes, lengths, names, &c->comparison, &c->length, c->s->problems);
}

static bool write_page(const comparer *c, const char *html, size_t length) {
  const char *out = c->options->out;
  bool pdf = ts_same(c->options->as, "pdf");
  if (out == NULL) return fwrite(html, 1, length, stdout) == length;
  return pdf ? output_pdf(c->s, c->options, html, length, NULL)
             : output_file(c->s, c->options, out, html, length);
}

static bool show(const comparer *c) {
  if (ts_same(c->options->as, "xml")) return write_page(c, c->comparison, c->length);
  bool text = c->options->as == NULL || ts_same(c->options->as, "text");
  char *made;
  size_t length;
  if (!ts_comparison_render(c->comparison, c->length, text ? "text" : "html", &made, &length,
                            c->s->problems))
    return false;
  bool good = true;
  if (text)
    print_lines(c->s->arena, made);
  else
    good = write_page(c, made, length);
  free(made);
  return good;
}

static const char *const forms[] = {"text", "html", "pdf", "xml", NULL};

static int wrong_request(const ts_options *options) {
  bool known = options->as == NULL;
  for (int i = 0; i < 4; i++) known = known || ts_same(options->as, forms[i]);
  if (!known) return unknown("form", options->as, forms, 4);
  if (ts_same(options->as, "pdf") && options->out == NULL)
    return usage_error("a PDF needs a file to go to: -o FILE");
  if (options->out != NULL && (options->as == NULL || ts_same(options->as, "text")))
    return usage_error("-o is for --as html, pdf and xml; a text goes to standard output");
  return DONE;
}

static int run(const ts_options *options) {
  ts_session s = {0};
  comparer c = {.s = &s, .options = options};
  int status = wrong_request(options);
  if (status != DONE) return status;
  s.arena = ts_arena_new();
  s.problems = ts_diagnostics_new();
  bool good = read_both(&c) && show(&c);
  free(c.comparison);
  session_close(&s);
  return good ? DONE : NOT_DONE;
}

const ts_verb verb_compare = {
    .name = "compare",
    .usage = "compare OLD NEW [--as text|html|pdf|xml] [-o FILE]",
    .summary = "two assessments: what changed, and because of what",
    .details =
        "Compares two files that `tankside assess -o` wrote, or the folders they are in: which\n"
        "findings and duties came, rose, fell or went, each with the facts, controls and\n"
        "rules that changed behind it; then every changed fact, control, rule file and\n"
        "waiver. Nothing is computed again. HTML and XML go to standard\n"
        "output or to -o FILE.\n\n"
        "  tankside compare before paper\n"
        "  tankside compare before paper --as pdf -o changes.pdf\n\n"
        "Exit status: 0 compared, 2 not.",
    .takes = OPTION_AS | OPTION_OUT | OPTION_PAPER | OPTION_FORCE,
    .least = 2,
    .most = 2,
    .kinds = {AN_ASSESSMENT, AN_ASSESSMENT},
    .forms = forms,
    .needs = WRITES_OUT | RUNS_AS_PDF,
    .run = run};
