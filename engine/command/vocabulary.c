/* tankside vocabulary: what a dossier can state, and all else there is to look up. */
#include "base/file.h"
#include "base/text.h"
#include "command/editor.h"
#include "command/output.h"
#include "command/reference.h"
#include "tankside/document.h"
#include <stdio.h>
#include <stdlib.h>

/* ---- forms: each writes itself to a stream ----------------------------------------- */

static bool write_text(ts_session *s, FILE *out) {
  return ts_vocabulary_write_reference(s->vocabulary, out);
}

static bool write_schema(ts_session *s, FILE *out) {
  return ts_vocabulary_write_schema(s->vocabulary, out);
}

static bool write_man(ts_session *s, FILE *out) {
  return ts_vocabulary_write_manual(s->vocabulary, out);
}

static bool write_xml(ts_session *s, FILE *out) {
  ts_text xml = {0};
  bool good = reference_write(s, &xml) && fwrite(xml.data, 1, xml.length, out) == xml.length;
  ts_text_release(&xml);
  return good;
}

static bool write_html(ts_session *s, FILE *out) {
  ts_text xml = {0};
  char *html = NULL;
  size_t length = 0;
  bool good = reference_write(s, &xml) &&
              ts_reference_render(xml.data, xml.length, &html, &length, s->problems) &&
              fwrite(html, 1, length, out) == length;
  free(html);
  ts_text_release(&xml);
  return good;
}

static const char *const forms[] = {"text", "html", "xml", "schema", "man", NULL};
static bool (*const writers[])(ts_session *, FILE *) = {write_text, write_html, write_xml,
                                                        write_schema, write_man};
enum { FORMS = sizeof forms / sizeof forms[0] - 1 };

/* ---- where it goes ------------------------------------------------------------------- */

/* A file appears whole or not at all. */
static bool write_file(ts_session *s, const ts_options *options, size_t form) {
  char *bytes = NULL;
  size_t length = 0;
  FILE *memory = open_memstream(&bytes, &length);
  if (memory == NULL) ts_out_of_memory();
  bool good = writers[form](s, memory);
  if (fclose(memory) != 0) ts_out_of_memory();
  good = good && output_file(s, options, options->out, bytes, length);
  free(bytes);
  return good;
}

static bool write_form(ts_session *s, const ts_options *options, size_t form) {
  if (options->out == NULL || ts_same(options->out, "-")) return writers[form](s, stdout);
  return write_file(s, options, form);
}

static int run(const ts_options *options) {
  ts_session s = {0};
  size_t form = 0;
  while (options->as != NULL && form < FORMS && !ts_same(options->as, forms[form])) form++;
  if (form == FORMS) return unknown("form", options->as, forms, FORMS);
  if (options->editor && options->out == NULL)
    return usage_error("\"--editor\" writes several files: name their folder with -o");
  bool good = session_open(&s) && session_load_all_packs(&s, options);
  if (good) good = options->editor ? editor_write(&s, options) : write_form(&s, options, form);
  session_close(&s);
  return good ? DONE : NOT_DONE;
}

const ts_verb verb_vocabulary = {
    .name = "vocabulary",
    .usage = "vocabulary [--as text|html|xml|schema|man] [-o FILE] | vocabulary --editor -o DIR",
    .summary = "every fact a dossier can state; reference page; help for editors",
    .details =
        "--as text    (when nothing is said) all facts, with their units, plausible ranges, how\n"
        "             they are found out and who usually knows\n"
        "--as html    the reference page: topics with their rules and sources, rules,\n"
        "             controls, facts with the rules that look at them, functions\n"
        "--as xml     what that page is made of\n"
        "--as schema  a RELAX NG schema of the dossier\n"
        "--as man     the elements as a part of a manual page\n"
        "--editor     into the folder given with -o: the schema in both syntaxes and where to\n"
        "             find it, and annotations for a Lua language server, so that an editor\n"
        "             completes and explains while a dossier or a rule is written\n\n"
        "Facts, rules and controls that packs declare are included.\n\n"
        "  tankside vocabulary --as html -o facts.html\n"
        "  tankside vocabulary --editor -o editor\n\n"
        "Exit status: 0 written, 2 not.",
    .takes = OPTION_AS | OPTION_PACK | OPTION_OUT | OPTION_EDITOR | OPTION_FORCE,
    .least = 0,
    .most = 0,
    .forms = forms,
    .needs = WRITES_OUT,
    .run = run};
