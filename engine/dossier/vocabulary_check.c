/* Whether the built-in tables keep their own rules. */
#include "base/text.h"
#include "dossier/vocabulary.h"
#include "dossier/vocabulary_index.h"

#include <math.h>
#include <string.h>

typedef struct {
  const ts_vocabulary *vocabulary;
  ts_diagnostics *problems;
  const ts_known_fact *fact;
  const char *file;
  int line;
  bool good;
} checking;

static const char lower_case[] = "abcdefghijklmnopqrstuvwxyz";

static void wrong(checking *c, const char *what, const char *about) {
  ts_report(c->problems, TS_ERROR, c->file, c->line, "fact \"%s\" of \"%s\": %s%s%s%s",
            c->fact->def->name, c->fact->def->entity, what, about ? " \"" : "", about ? about : "",
            about ? "\"" : "");
  c->good = false;
}

static bool is_lua_word(const char *name) {
  static const char *const words[] = {"and",   "break", "do",       "else", "elseif", "end",
                                      "false", "for",   "function", "goto", "if",     "in",
                                      "local", "nil",   "not",      "or",   "repeat", "return",
                                      "then",  "true",  "until",    "while"};
  for (size_t i = 0; i < sizeof words / sizeof *words; i++)
    if (ts_same(words[i], name)) return true;
  return false;
}

static bool is_plain_word(const char *word) {
  size_t length = strlen(word);
  return length && strchr(lower_case, word[0]) && word[length - 1] != '-' &&
         strspn(word, "abcdefghijklmnopqrstuvwxyz0123456789-") == length;
}

/* ---- names ------------------------------------------------------------- */

static void check_name(checking *c) {
  const ts_fact_def *def = c->fact->def;
  uint32_t entity = ts_names_get(&c->vocabulary->entity_names, def->entity);
  if (entity == TS_ABSENT) {
    wrong(c, "unknown entity", def->entity);
    return;
  }
  uint32_t position = ts_fact_position(c->vocabulary, entity, def->name);
  /* Absent: it is being added, and nobody has the name yet. */
  if (position != TS_ABSENT && ts_known_at(c->vocabulary, entity, position) != c->fact)
    wrong(c, "the name is there twice", NULL);
  if (!is_plain_word(def->name)) wrong(c, "a name is lower-case words joined by hyphens", NULL);
  if (is_lua_word(c->fact->field)) wrong(c, "a word of Lua cannot be a name", NULL);
  if (!def->meaning || !*def->meaning) wrong(c, "no meaning is given", NULL);
  if (ts_is_fact(def->type) && (!def->measured || !def->asked))
    wrong(c, "how it is found out, or who is asked, is missing", NULL);
}

/* ---- choices ----------------------------------------------------------- */

static void check_choice(checking *c, size_t index) {
  const char *word = c->fact->choices[index];
  bool reference = c->fact->def->type == TS_REF || c->fact->def->type == TS_REFS;
  if (ts_choice_find(c->fact, word) != index) wrong(c, "a choice is there twice:", word);
  if (reference && !ts_entity_find(c->vocabulary, word)) wrong(c, "unknown entity", word);
  if (!reference && !is_plain_word(word)) wrong(c, "not a word of lower case:", word);
}

static void check_choices(checking *c) {
  ts_fact_type type = c->fact->def->type;
  bool needs = type == TS_REF || type == TS_REFS || type == TS_KIND_WORD || type == TS_CHOICE ||
               type == TS_SET;
  if (needs != (c->fact->choice_count > 0)) wrong(c, "choices are missing, or not wanted", NULL);
  if (c->fact->choice_count >= TS_CHOICES_MAX) wrong(c, "too many choices", NULL);
  for (size_t i = 0; i < c->fact->choice_count; i++) check_choice(c, i);
}

/* ---- ranges ------------------------------------------------------------ */

static bool reads(checking *c, const char *text, ts_range *range, ts_dim *dim) {
  char why[256];
  if (text && ts_quantity_read(c->vocabulary->units, text, range, dim, why, sizeof why))
    return true;
  wrong(c, "plausible range does not read:", text ? text : "");
  return false;
}

static void check_unit(checking *c, const char *unit, ts_dim dim) {
  char why[256];
  double si;
  ts_dim found;
  if (!unit || !*unit) return;
  if (!ts_unit_convert(c->vocabulary->units, unit, 1, &si, &found, why, sizeof why))
    wrong(c, "unknown unit", unit);
  else if (found != dim)
    wrong(c, "the plausible range is of another dimension than", unit);
}

static void check_kind_of_number(checking *c, ts_range low, ts_range high, ts_dim dim) {
  const ts_fact_def *def = c->fact->def;
  bool moment = def->type == TS_DATE || def->type == TS_CLOCK;
  if (moment != (dim == TS_MOMENT)) wrong(c, "a date or time of day is expected", NULL);
  if (def->type == TS_COUNT &&
      (dim != TS_NUMBER || low.lo != floor(low.lo) || high.hi != floor(high.hi)))
    wrong(c, "a count has whole, bare numbers", NULL);
  if (moment == (def->unit != NULL)) wrong(c, "a unit is missing, or not wanted", NULL);
}

static void check_range(checking *c) {
  const ts_fact_def *def = c->fact->def;
  ts_range low, high;
  ts_dim low_dim, high_dim;
  if (!ts_is_fact(def->type) || !ts_is_number(def->type)) return;
  if (!reads(c, def->low, &low, &low_dim) || !reads(c, def->high, &high, &high_dim)) return;
  if (low_dim != high_dim) wrong(c, "the ends of the plausible range differ in dimension", NULL);
  if (!(low.lo < high.hi)) wrong(c, "the plausible range is empty", NULL);
  check_unit(c, def->unit, low_dim);
  check_unit(c, def->unit_us, low_dim);
  check_kind_of_number(c, low, high, low_dim);
}

/* ---- entities ---------------------------------------------------------- */

static bool check_entity(const ts_vocabulary *vocabulary, size_t index, ts_diagnostics *problems) {
  const ts_entity_def *def = vocabulary->entities[index].def;
  bool top = !def->parent || ts_same(def->parent, "dossier");
  const char *what = NULL;
  if (ts_names_get(&vocabulary->entity_names, def->name) != index)
    what = "the name is there twice";
  else if (!top && !ts_entity_find(vocabulary, def->parent))
    what = "unknown parent";
  else if (!def->single && !def->plural)
    what = "a list name is missing";
  else if (!def->meaning || !*def->meaning)
    what = "no meaning is given";
  if (what) ts_report(problems, TS_ERROR, "vocabulary", 0, "%s: %s", def->name, what);
  return !what;
}

bool ts_vocabulary_check_fact(const ts_vocabulary *vocabulary, const ts_known_fact *fact,
                              ts_diagnostics *problems, const char *file, int line) {
  checking c = {vocabulary, problems, fact, file, line, true};
  check_name(&c);
  check_choices(&c);
  check_range(&c);
  return c.good;
}

bool ts_vocabulary_check(const ts_vocabulary *vocabulary, ts_diagnostics *problems) {
  bool good = true;
  for (size_t i = 0; i < vocabulary->entity_count; i++)
    if (!check_entity(vocabulary, i, problems)) good = false;
  for (size_t i = 0; i < vocabulary->fact_count; i++)
    if (!ts_vocabulary_check_fact(vocabulary, &vocabulary->facts[i], problems, "vocabulary", 0))
      good = false;
  return good;
}
