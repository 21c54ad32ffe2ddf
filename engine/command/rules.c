/* tankside rules: what the packs hold, and whether their examples come out. */
#include "base/text.h"
#include "command/command.h"
#include <stdio.h>

static int list(const ts_session *s) {
  for (size_t i = 0; i < ts_rule_count(s->packs); i++) {
    const ts_rule *rule = ts_rule_at(s->packs, i);
    printf("%-34s %-10s %s  (%s/%s:%d)\n", rule->id, rule->each, rule->title, rule->pack,
           rule->file, rule->line);
  }
  printf("%zu rules, %zu controls\n", ts_rule_count(s->packs), ts_control_count(s->packs));
  return DONE;
}

static int check(ts_session *s) {
  size_t passed = 0, all = 0;
  for (size_t i = 0; i < ts_rule_count(s->packs); i++) {
    all += ts_rule_at(s->packs, i)->example_count;
    passed += ts_rule_examples_run(s->packs, i, s->problems);
  }
  printf("%zu rules, %zu controls, %zu of %zu examples come out as they say\n",
         ts_rule_count(s->packs), ts_control_count(s->packs), passed, all);
  size_t errors = ts_count(s->problems, TS_ERROR), warnings = ts_count(s->problems, TS_WARNING);
  printf("%zu errors, %zu warnings\n", errors, warnings);
  return passed == all && errors == 0 ? DONE : LOOK;
}

static int run(const ts_options *options) {
  static const char *const actions[] = {"list", "check"};
  ts_session s = {0};
  int status = NOT_DONE;
  bool checking = ts_same(options->words[0], "check");
  if (!checking && !ts_same(options->words[0], "list"))
    return unknown("action", options->words[0], actions, 2);
  if (session_open(&s) && session_load_all_packs(&s, options))
    status = checking ? check(&s) : list(&s);
  session_close(&s);
  return status;
}

const ts_verb verb_rules = {
    .name = "rules",
    .usage = "rules list|check [--pack DIR]...",
    .summary = "the rules there are, and whether their examples come out",
    .details = "list   one rule a line: id, the subject it is asked of, title, pack/file:line\n"
               "check  runs every example of every rule, and says what does not come out as\n"
               "       written, which threshold no example reaches, and which control a rule\n"
               "       names that no pack has\n\n"
               "All packs that came with the program are loaded, and those given with --pack.\n"
               "Exit status of check: 0 all come out, 1 some do not, 2 a pack cannot be loaded.",
    .takes = OPTION_PACK,
    .least = 1,
    .most = 1,
    .run = run};
