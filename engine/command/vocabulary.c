/* tankside vocabulary: what a dossier can state. */
#include "base/text.h"
#include "command/command.h"
#include <stdio.h>

static int run(const ts_options *options) {
  static const char *const forms[] = {"text", "schema"};
  ts_session s = {0};
  bool schema = ts_same(options->as, "schema");
  if (options->as != NULL && !schema && !ts_same(options->as, "text"))
    return unknown("form", options->as, forms, 2);
  bool good = session_open(&s) && session_load_all_packs(&s, options);
  if (good)
    good = schema ? ts_vocabulary_write_schema(s.vocabulary, stdout)
                  : ts_vocabulary_write_reference(s.vocabulary, stdout);
  session_close(&s);
  return good ? DONE : NOT_DONE;
}

const ts_verb verb_vocabulary = {
    .name = "vocabulary",
    .usage = "vocabulary [--as text|schema] [--pack DIR]...",
    .summary = "every fact a dossier can state: reference page or schema",
    .details = "Prints the reference page of all facts, with their units, plausible ranges, how\n"
               "they are found out and who usually knows; or, with --as schema, a RELAX NG\n"
               "schema of the dossier for editors. Facts that packs declare are included.",
    .takes = OPTION_AS | OPTION_PACK,
    .least = 0,
    .most = 0,
    .run = run};
