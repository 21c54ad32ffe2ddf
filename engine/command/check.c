/* tankside check: the facts of a dossier, no rules. */
#include "assess/scope.h"
#include "command/command.h"
#include "tankside/dossier.h"
#include <stdio.h>

fact_tally count_facts(const ts_dossier *dossier) {
  fact_tally t = {0};
  for (uint32_t slot = 0; slot < ts_slot_count(dossier); slot++) {
    const ts_fact_def *fact = ts_slot_fact(dossier, slot);
    if (fact->type < TS_QUANTITY) continue; /* structure and text */
    if (fact->derived)
      t.derived++;
    else if (ts_slot_value(dossier, slot)->state == TS_UNKNOWN)
      t.unknown++;
    else
      t.stated++;
  }
  return t;
}

static int run(const ts_options *options) {
  ts_session s = {0};
  int status = NOT_DONE;
  if (session_open(&s) && session_read_dossier(&s, options, options->words[0])) {
    fact_tally t = count_facts(s.dossier);
    printf("%u subject%s; %zu fact%s stated, %zu not known, %zu worked out from others\n",
           ts_subject_count(s.dossier), plural(ts_subject_count(s.dossier)), t.stated,
           plural(t.stated), t.unknown, t.derived);
    ts_assess_inputs inputs = {.dossier = s.dossier,
                               .packs = s.packs,
                               .units = s.units,
                               .folder = session_folder(&s, options->words[0])};
    ts_controls_known(&inputs, s.problems);
    size_t warnings = ts_count(s.problems, TS_WARNING);
    printf("%zu warning%s\n", warnings, plural(warnings));
    status = ts_count(s.problems, TS_ERROR) > 0 ? NOT_DONE : DONE;
  }
  session_close(&s);
  return status;
}

const ts_verb verb_check = {
    .name = "check",
    .usage = "check DOSSIER [OPTION]...",
    .summary = "read a dossier: facts, units, references, plausibility",
    .details = "Reads the dossier and what it includes, and says everything that is wrong with\n"
               "it: one problem a line, `file:line: error: text`, on standard error. No rule is\n"
               "run. The packs of its jurisdiction are loaded for the facts they add.\n\n"
               "  tankside check dossier.xml\n\n"
               "Exit status: 0 it can be used (there may be warnings), 2 it cannot.",
    .takes = OPTION_PACK | OPTION_SET | OPTION_SET_FILE,
    .least = 1,
    .most = 1,
    .kinds = {A_DOSSIER},
    .run = run};
