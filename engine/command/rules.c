/* tankside rules: what the packs hold, and whether their examples come out. */
#include "base/file.h"
#include "base/text.h"
#include "command/topics.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- check: whose rules are reported on ----------------------------------------------- */

/* With packs given, what is reported is about them: who checks a pack of one's own does not want
 * to hear of the others. */
static bool is_asked_for(const ts_session *s, const ts_options *options, const char *pack) {
  for (size_t i = 0; i < options->pack_count; i++)
    if (ts_same(ts_pack_name(s->arena, options->packs[i]), pack)) return true;
  return options->pack_count == 0;
}

static ts_check_count check_asked_for(ts_session *s, const ts_options *options) {
  if (options->pack_count == 0) return ts_packs_check(s->packs, s->problems);
  ts_diagnostics *all = ts_diagnostics_new();
  ts_check_count n = ts_packs_check(s->packs, all);
  for (size_t i = 0; i < options->pack_count; i++)
    ts_diagnostics_copy(all, s->problems, ts_pack_name(s->arena, options->packs[i]));
  ts_diagnostics_free(all);
  return n;
}

/* ---- the same, by topic --------------------------------------------------------------- */

/* A rule's topic is the first part of its id: "air" of "air.return-margin". */
static size_t topic_length(const ts_rule *rule) { return strcspn(rule->id, "."); }

static bool same_topic(const ts_rule *a, const ts_rule *b) {
  return topic_length(a) == topic_length(b) && strncmp(a->id, b->id, topic_length(a)) == 0;
}

/* Rules are ordered by id, so those of one topic stand together. */
static void topics(const ts_session *s, const ts_options *options) {
  size_t count = ts_rule_count(s->packs);
  for (size_t i = 0, next; i < count; i = next) {
    const ts_rule *first = ts_rule_at(s->packs, i);
    size_t examples = 0, rules = 0;
    for (next = i; next < count && same_topic(first, ts_rule_at(s->packs, next)); next++) {
      bool asked = is_asked_for(s, options, ts_rule_at(s->packs, next)->pack);
      rules += asked;
      examples += asked ? ts_rule_at(s->packs, next)->example_count : 0;
    }
    if (rules > 0)
      printf("  %-20.*s %4zu rule%s %*zu example%s\n", (int)topic_length(first), first->id, rules,
             plural(rules), rules == 1 ? 6 : 5, examples, plural(examples));
  }
}

static int check(ts_session *s, const ts_options *options, bool loaded) {
  ts_check_count n = check_asked_for(s, options);
  size_t errors = ts_count(s->problems, TS_ERROR), warnings = ts_count(s->problems, TS_WARNING);
  topics(s, options);
  if (options->pack_count > 0) puts("with all that are loaded:");
  printf("%zu rule%s, %zu control%s, %zu of %zu examples come out as they say\n",
         ts_rule_count(s->packs), plural(ts_rule_count(s->packs)), ts_control_count(s->packs),
         plural(ts_control_count(s->packs)), n.passed, n.examples);
  printf("%zu of %zu decisions seen both ways, %zu of %zu statements reached\n", n.both_ways,
         n.decisions, n.reached, n.statements);
  printf("%zu error%s, %zu warning%s%s\n", errors, plural(errors), warnings, plural(warnings),
         options->pack_count > 0 ? " in the packs given" : "");
  if (!loaded) return NOT_DONE;
  return n.passed == n.examples && errors == 0 ? DONE : LOOK;
}

/* ---- the verb -------------------------------------------------------------------- */

static const ts_action actions[] = {{"list", "", 1, {0}, 0},
                                    {"check", "", 1, {0}, 0},
                                    {"try", " RULE DOSSIER", 3, {A_RULE, A_DOSSIER}, 0},
                                    {"explain", " RULE", 2, {A_RULE}, 0},
                                    {"new",
                                     " [ID ENTITY.FACT above|below|is VALUE] [-o FILE.lua]",
                                     5,
                                     {A_WORD, A_FACT},
                                     WRITES_ANYWHERE},
                                    {"topics", "", 1, {0}, 0},
                                    {"compare", " OLD NEW DOSSIER...", 4, {A_PACK, A_PACK}, 0},
                                    {.name = NULL}};
enum { ACTIONS = sizeof actions / sizeof actions[0] - 1 };

static bool words_fit(const ts_options *options, const ts_action *action) {
  bool asked = ts_same(action->name, "new") && options->word_count == 1; /* one by one */
  bool many = ts_same(action->name, "compare") && options->word_count > action->words;
  if (options->word_count == action->words || asked || many) return true;
  usage_error("usage: tankside rules %s%s [--pack DIR]...", action->name, action->usage);
  return false;
}

static int no_such_action(const char *name) {
  const char *names[ACTIONS];
  for (size_t i = 0; i < ACTIONS; i++) names[i] = actions[i].name;
  return unknown("action", name, names, ACTIONS);
}

static int act_on_rule(ts_session *s, const ts_options *options, bool trying) {
  size_t rule;
  bool good = trying ? session_read_dossier(s, options, options->words[2])
                     : session_load_all_packs(s, options);
  if (!good || !rule_by_id(s, options->words[1], &rule)) return NOT_DONE;
  return trying ? rules_try(s, rule) : rules_explain(s, rule);
}

static int act(ts_session *s, const ts_options *options, const char *action) {
  bool trying = ts_same(action, "try");
  if (trying || ts_same(action, "explain")) return act_on_rule(s, options, trying);
  if (ts_same(action, "new")) return rules_new(s, options);
  bool loaded = session_load_all_packs(s, options);
  if (ts_same(action, "check"))
    return check(s, options, loaded); /* what did load is checked all the same */
  if (!loaded) return NOT_DONE;
  return ts_same(action, "topics") ? topics_print(s) : rules_list(s, options);
}

static int run(const ts_options *options) {
  ts_session s = {0};
  int status = NOT_DONE;
  const ts_action *action = actions;
  while (action->name != NULL && !ts_same(options->words[0], action->name)) action++;
  if (action->name == NULL) return no_such_action(options->words[0]);
  if (!words_fit(options, action)) return NOT_DONE;
  if (ts_same(action->name, "compare")) return rules_compare(options); /* two sessions of its own */
  if (session_open(&s)) status = act(&s, options, action->name);
  session_close(&s);
  return status;
}

static const char *const forms[] = {"text", "csv", NULL}; /* of the list */

const ts_verb verb_rules = {
    .name = "rules",
    .usage = "rules list|check|try|explain|new|topics|compare [WORD]... [--pack DIR]...",
    .summary = "the rules and their examples; one tried, explained or begun",
    .details =
        "list     one rule a line: id, the subject it is asked of, title, pack/file:line;\n"
        "         with --where, which may be repeated, only rules that each holds for:\n"
        "         topic, pack, subject, fact, control by name; title and source by some\n"
        "         of their words; jurisdiction with all that holds there; --as csv for a\n"
        "         spreadsheet\n"
        "check    runs every example of every rule, and says what does not come out as\n"
        "         written, which threshold no example reaches, and which control a rule\n"
        "         names that no pack has; with --pack it speaks of those packs only\n"
        "try      RULE DOSSIER: what a rule says for each subject of a dossier, as described, on "
        "every\n"
        "         course that the facts leave open\n"
        "explain  RULE: when a rule applies, what it looks at and can say, which controls it\n"
        "         names, its sources; and what it says when one fact after another of its\n"
        "         own example is changed\n\n"
        "new      ID ENTITY.FACT above|below|is VALUE: a first rule of one's own, like\n"
        "         `rules new ledge.deep immersion.depth above '3 m' -o ledge/deep.lua`;\n"
        "         it already passes `rules check`, and says what is still to be filled in;\n"
        "         without these words it asks for one after another, \"?\" explains\n"
        "topics   what an assessment has to look at: each topic with the rules that look at\n"
        "         it and their sources; says what no rule looks at, and which rule of the\n"
        "         common pack stands under no topic\n"
        "compare  OLD NEW DOSSIER...: what a change of rules does before it is adopted: which\n"
        "         rules came, went or changed, and for each dossier which findings and duties\n"
        "         rise, fall, come or go, each with its rule; OLD is a folder, or a pack by\n"
        "         name, NEW the folder that would stand in its place\n\n"
        "  tankside rules list --where topic=air\n"
        "  tankside rules explain air.return-margin\n"
        "  tankside rules try air.return-margin dossier.xml\n\n"
        "All packs that came with the program are loaded, and those given with --pack;\n"
        "`try` loads those of the dossier's jurisdiction.\n"
        "Exit status of check: 0 all come out, 1 some do not, 2 a pack cannot be loaded.",
    .takes = OPTION_PACK | OPTION_SET | OPTION_SET_FILE | OPTION_OUT | OPTION_WHERE | OPTION_AS,
    .least = 1,
    .most = WORDS_MAX,
    .actions = actions,
    .forms = forms,
    .needs = WRITES_OUT,
    .run = run};
