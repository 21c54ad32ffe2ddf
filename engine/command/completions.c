/* tankside completions: for bash, zsh and fish. Their scripts hold no names: they ask what could
 * come next, and it is answered here from the tables that the command line is read by. */
#include "base/file.h"
#include "base/text.h"
#include "command/command.h"
#include "dossier/subjects.h"
#include "tankside/document.h"
#include "tankside/science.h"
#include <stdio.h>
#include <string.h>

enum { SCRIPT_LIMIT = 64 * 1024 };

/* A command line as far as it has been typed. */
typedef struct {
  ts_arena *arena;
  const ts_verb *verb;
  ts_options options; /* packs, and the words that stand before the one that is typed */
  const char *begun;  /* what is there of it */
  bool words_only;    /* after "--" */
} typed;

/* ---- one word that could come ------------------------------------------------------------ */

static void offer(const typed *t, const char *word, const char *what) {
  if (strncmp(word, t->begun, strlen(t->begun)) == 0)
    printf("%s%s%s\n", word, what != NULL ? "\t" : "", what != NULL ? what : "");
}

static void offer_all(const typed *t, const char *const *words) {
  for (size_t i = 0; words != NULL && words[i] != NULL; i++) offer(t, words[i], NULL);
}

/* The shell lists its own files; `suffix` "" for any. */
static void offer_files(const char *suffix) { printf("@files\t%s\n", suffix); }

static void offer_folders(void) { puts("@folders\t"); }

/* ---- names that have to be looked up ----------------------------------------------------- */

static void offer_rules(const typed *t) {
  ts_session s = {0};
  if (session_open(&s) && session_load_all_packs(&s, &t->options))
    for (size_t i = 0; i < ts_rule_count(s.packs); i++)
      offer(t, ts_rule_at(s.packs, i)->id, ts_rule_at(s.packs, i)->title);
  session_close(&s);
}

static void offer_facts(const typed *t) {
  ts_vocabulary *v = ts_vocabulary_new();
  for (size_t e = 0; e < ts_entity_count(v); e++) {
    const ts_entity_def *entity = ts_entity_at(v, e);
    for (size_t i = 0; i < ts_fact_count(v, entity); i++) {
      const ts_fact_def *fact = ts_fact_at(v, entity, i);
      offer(t, ts_arena_printf(t->arena, "%s.%s", entity->name, fact->name), fact->meaning);
    }
  }
  ts_vocabulary_free(v);
}

static void offer_functions(const typed *t) {
  for (const ts_function *f = ts_functions(); f->name != NULL; f++) offer(t, f->name, f->meaning);
}

/* A path as far as the slash after what is typed; a whole one with "=" for its value. */
static const char *next_part(const typed *t, const char *path) {
  size_t begun = strlen(t->begun);
  if (strncmp(path, t->begun, begun) != 0) return NULL;
  const char *slash = strchr(path + begun, '/');
  return slash != NULL ? ts_arena_copy_n(t->arena, path, (size_t)(slash - path) + 1)
                       : ts_arena_printf(t->arena, "%s=", path);
}

/* The facts of the dossier on the line, a part of their paths at a time. */
static void offer_settings(const typed *t) {
  ts_session s = {0};
  const char *last = NULL;
  bool good = t->options.word_count > 0 && session_open(&s) &&
              session_read_dossier(&s, &t->options, t->options.words[t->options.word_count - 1]);
  for (uint32_t slot = 0; good && slot < ts_slot_count(s.dossier); slot++) {
    char path[256];
    const ts_fact_def *fact = ts_slot_fact(s.dossier, slot);
    if (fact->derived || fact->type < TS_QUANTITY) continue;
    const char *next = next_part(t, ts_slot_path(s.dossier, slot, path, sizeof path));
    if (next == NULL || ts_same(next, last)) continue;
    offer(t, next, strchr(next, '=') != NULL ? fact->meaning : NULL);
    last = next;
  }
  if (t->options.word_count > 0) session_close(&s);
}

static bool offer_task(void *data, const char *path) {
  offer(data, path, NULL);
  return true;
}

static void offer_tasks(typed *t) {
  ts_session s = {.arena = t->arena, .problems = ts_diagnostics_new()};
  size_t length = 0;
  const char *path = t->options.word_count > 0 ? t->options.words[0] : "";
  const char *bytes =
      ts_file_read(t->arena, assessment_path(&s, path), ASSESSMENT_LIMIT, &length, s.problems);
  if (bytes != NULL) ts_sheet_each_task(bytes, length, offer_task, t, s.problems);
  ts_diagnostics_free(s.problems);
}

/* ---- what a value can be ------------------------------------------------------------------ */

static void offer_kind(typed *t, value_kind kind) {
  offer_all(t, choices(t->arena, kind));
  switch (kind) {
  case A_FORM: offer_all(t, t->verb->forms); break;
  case A_FILE: offer_files(""); break;
  case A_MATRIX:
  case AN_ASSESSMENT:
  case A_DOSSIER: offer_files(".xml"); break;
  case A_PACK:
  case A_FOLDER: offer_folders(); break;
  case A_RULE: offer_rules(t); break;
  case A_FACT: offer_facts(t); break;
  case A_FUNCTION: offer_functions(t); break;
  case A_SETTING: offer_settings(t); break;
  case A_TASK: offer_tasks(t); break;
  default: break;
  }
}

static const ts_option *option_named(const ts_verb *verb, const char *name, size_t length) {
  for (const ts_option *row = NULL; (row = options_next(verb->takes, row)) != NULL;)
    if (strlen(row->name) == length && strncmp(row->name, name, length) == 0) return row;
  return NULL;
}

static void offer_options(const typed *t) {
  for (const ts_option *row = NULL; (row = options_next(t->verb->takes, row)) != NULL;)
    offer(t, row->name, row->help);
  offer(t, "--help", "what it takes and gives");
}

static void offer_word(typed *t) {
  size_t at = t->options.word_count;
  const ts_verb *verb = t->verb;
  for (const ts_action *a = verb->actions; a != NULL && a->name != NULL; a++) {
    if (at == 0) offer(t, a->name, NULL);
    if (at == 0 || !ts_same(a->name, t->options.words[0]) || at >= a->words) continue;
    if (at <= 2) offer_kind(t, a->kinds[at - 1]);
  }
  if (verb->actions == NULL && at < verb->most) offer_kind(t, verb->kinds[at < 2 ? at : 1]);
}

/* ---- the line ------------------------------------------------------------------------------- */

static void offer_verbs(const typed *t) {
  for (size_t i = 0; verbs[i] != NULL; i++) offer(t, verbs[i]->name, verbs[i]->summary);
  offer(t, "help", "what a command takes and gives");
  offer(t, "--help", "all there is");
  offer(t, "--version", "this program and its libraries");
}

/* Reads what stands before the word that is typed. The option whose value it is, or NULL. */
static const ts_option *read_before(typed *t, const char *const *words, size_t count) {
  for (size_t i = 1; i < count; i++) {
    bool option = !t->words_only && words[i][0] == '-' && words[i][1] != '\0';
    const ts_option *row = option ? option_named(t->verb, words[i], strlen(words[i])) : NULL;
    if (option && ts_same(words[i], "--")) t->words_only = true;
    if (!option) t->options.words[t->options.word_count++] = words[i];
    if (row == NULL || row->value == NULL) continue;
    if (++i == count) return row;
    if (row->bit == OPTION_PACK && t->options.pack_count < REPEATS_MAX)
      t->options.packs[t->options.pack_count++] = words[i];
  }
  return NULL;
}

static void offer_next(typed *t, const char *const *words, size_t count) {
  const ts_option *row = read_before(t, words, count);
  const char *equals = strncmp(t->begun, "--", 2) == 0 ? strchr(t->begun, '=') : NULL;
  if (row != NULL)
    offer_kind(t, row->kind);
  else if (equals != NULL && !t->words_only) {
    row = option_named(t->verb, t->begun, (size_t)(equals - t->begun));
    t->begun = equals + 1;
    if (row != NULL) offer_kind(t, row->kind);
  } else if (t->begun[0] == '-' && !t->words_only)
    offer_options(t);
  else
    offer_word(t);
}

static int words_next(const ts_options *options) {
  size_t before = options->word_count - 2; /* without "words" and the one that is typed */
  const char *const *words = options->words + 1;
  if (options->word_count < 2) return usage_error("usage: tankside completions words -- WORD...");
  typed t = {.arena = ts_arena_new(), .begun = words[before]};
  bool helping = before == 1 && ts_same(words[0], "help");
  if (before > 0) t.verb = verb_find(words[0]);
  if (before == 0 || helping)
    offer_verbs(&t);
  else if (t.verb != NULL)
    offer_next(&t, words, before);
  ts_arena_free(t.arena);
  return DONE;
}

/* ---- the scripts ----------------------------------------------------------------------- */

static const ts_action actions[] = {{"bash", "", 1, {0}, 0},
                                    {"zsh", "", 1, {0}, 0},
                                    {"fish", "", 1, {0}, 0},
                                    {"words", " -- WORD...", WORDS_MAX, {0}, 0},
                                    {.name = NULL}};

static int show_script(const char *shell) {
  const char *names[] = {"bash", "zsh", "fish", "words"};
  static const char *const files[] = {"tankside.bash", "_tankside", "tankside.fish"};
  size_t i = 0;
  while (i < 3 && !ts_same(names[i], shell)) i++;
  if (i == 3) return unknown("shell", shell, names, 4);
  ts_session s = {.arena = ts_arena_new(), .problems = ts_diagnostics_new()};
  const char *folder = ts_data_path(s.arena, "shared/completions");
  const char *text = ts_file_read(s.arena, ts_path_join(s.arena, folder, files[i]), SCRIPT_LIMIT,
                                  NULL, s.problems);
  if (text != NULL) fputs(text, stdout);
  session_close(&s);
  return text != NULL ? DONE : NOT_DONE;
}

static int run(const ts_options *options) {
  if (ts_same(options->words[0], "words")) return words_next(options);
  if (options->word_count == 1) return show_script(options->words[0]);
  return usage_error("usage: tankside completions bash|zsh|fish");
}

const ts_verb verb_completions = {
    .name = "completions",
    .usage = "completions bash|zsh|fish",
    .summary = "what a shell needs to complete commands, options and names",
    .details =
        "Prints the script that completes commands, options and their values: sheets, packs,\n"
        "matrices, languages, rules, functions, tasks, paths of facts. Where the program was\n"
        "installed with its data, the shells find it by themselves. The script asks the\n"
        "program what could come next, as `completions words -- WORD...` prints it: one word\n"
        "a line, a tab, what it is.\n\n"
        "  tankside completions bash > tankside.bash && . ./tankside.bash\n"
        "  tankside completions words -- print --sheet ''\n\n"
        "Exit status: 0 printed, 2 not.",
    .takes = 0,
    .least = 1,
    .most = WORDS_MAX,
    .actions = actions,
    .run = run};
