/* Asking for a first rule, one question after another. */
#include "assess/matrix.h"
#include "base/text.h"
#include "command/line.h"
#include "command/rules_new.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
  ts_session *session;
  rule_wish *wish;
  const ts_entity_def *entity;
  const ts_fact_def *fact;
  const char *title;            /* unless another is given */
  const ts_level_words *levels; /* of the scale that is asked about */
  line_reader *reader;
  bool over; /* no more answers: what stands in brackets is taken */
} asker;

/* One question: what is asked, what is taken for an empty answer, what "?" says, and whether an
 * answer will do (it is kept then; else it says why not). */
typedef struct {
  const char *text;
  const char *(*otherwise)(asker *a);
  void (*explain)(asker *a);
  bool (*take)(asker *a, const char *answer);
} question;

/* ---- lines -------------------------------------------------------------------------------- */

static bool ask(asker *a, const question *q) {
  for (;;) {
    const char *otherwise = q->otherwise(a);
    const char *prompt = ts_arena_printf(a->session->arena, "%s [%s]: ", q->text, otherwise);
    const char *line = a->over ? NULL : line_read(a->reader, prompt);
    if (a->over) fprintf(stderr, "%s\n", prompt);
    a->over = line == NULL;
    const char *answer = line ? ts_arena_copy(a->session->arena, line) : NULL;
    bool empty = answer == NULL || answer[0] == '\0';
    if (!empty && ts_same(answer, "?"))
      q->explain(a);
    else if (q->take(a, empty ? otherwise : answer))
      return true;
    else if (empty)
      return false; /* what is offered will not do: a file that is there */
  }
}

static void explain_line(const char *name, const char *meaning) {
  fprintf(stderr, "    %-24s %s\n", name, meaning);
}

/* ---- the subject, the fact ------------------------------------------------------------- */

static const char *some_subject(asker *a) { return (void)a, "immersion"; }

static void explain_subject(asker *a) {
  fputs("  The rule is asked once of each of these:\n", stderr);
  for (size_t i = 0; i < ts_entity_count(a->session->vocabulary); i++) {
    const ts_entity_def *entity = ts_entity_at(a->session->vocabulary, i);
    explain_line(entity->name, entity->meaning);
  }
}

static bool take_subject(asker *a, const char *answer) {
  const char *names[256];
  size_t count = ts_entity_count(a->session->vocabulary);
  a->entity = ts_entity_find(a->session->vocabulary, answer);
  for (size_t i = 0; i < count && i < 256; i++)
    names[i] = ts_entity_at(a->session->vocabulary, i)->name;
  if (a->entity == NULL) unknown("subject", answer, names, count < 256 ? count : 256);
  return a->entity != NULL;
}

static bool can_be_asked(const ts_fact_def *fact) {
  return rule_fact_is_number(fact) || fact->type == TS_FLAG || fact->type == TS_CHOICE;
}

static const char *some_fact(asker *a) {
  const char *first = "";
  for (size_t i = 0; i < ts_fact_count(a->session->vocabulary, a->entity); i++) {
    const ts_fact_def *fact = ts_fact_at(a->session->vocabulary, a->entity, i);
    if (ts_same(fact->name, "depth")) return fact->name;
    if (first[0] == '\0' && can_be_asked(fact)) first = fact->name;
  }
  return first;
}

static void explain_fact(asker *a) {
  fputs("  What is known of it:\n", stderr);
  for (size_t i = 0; i < ts_fact_count(a->session->vocabulary, a->entity); i++) {
    const ts_fact_def *fact = ts_fact_at(a->session->vocabulary, a->entity, i);
    if (can_be_asked(fact)) explain_line(fact->name, fact->meaning);
  }
}

static bool take_fact(asker *a, const char *answer) {
  a->wish->path = ts_arena_printf(a->session->arena, "%s.%s", a->entity->name, answer);
  a->fact = rule_fact(a->session, a->wish->path);
  if (a->fact == NULL || can_be_asked(a->fact)) return a->fact != NULL;
  usage_error("\"%s\" is no number, no yes or no, and no choice", a->wish->path);
  return false;
}

/* ---- the comparison -------------------------------------------------------------------- */

static const char *some_comparison(asker *a) {
  return rule_fact_is_number(a->fact) ? "above" : "is";
}

static void explain_comparison(asker *a) {
  fputs(rule_fact_is_number(a->fact)
            ? "  above: it is said of more than the value; below: of less.\n"
            : "  is: it is said where the fact is this word.\n",
        stderr);
}

static bool take_comparison(asker *a, const char *answer) {
  static const char *const hows[] = {"above", "below", "is"};
  bool number = rule_fact_is_number(a->fact);
  a->wish->how = answer;
  if (number ? ts_same(answer, "above") || ts_same(answer, "below") : ts_same(answer, "is"))
    return true;
  unknown("comparison", answer, number ? hows : hows + 2, number ? 2 : 1);
  return false;
}

/* The middle of what is plausible, or the last of the words: most lists begin with the mildest. */
static const char *some_value(asker *a) {
  char text[128];
  ts_range all = ts_fact_plausible(a->session->vocabulary, a->fact);
  double middle = ts_number_digits(all.lo + (all.hi - all.lo) / 4, 2);
  if (a->fact->type == TS_FLAG) return "yes";
  if (a->fact->type == TS_CHOICE) {
    const char *last = strrchr(a->fact->choices, ' ');
    return last ? last + 1 : a->fact->choices;
  }
  if (a->fact->type == TS_COUNT) middle = (double)(long)middle;
  ts_quantity_write(a->session->units, (ts_range){middle, middle},
                    ts_fact_dim(a->session->vocabulary, a->fact), a->fact->unit, TS_METRIC, text,
                    sizeof text);
  return ts_arena_copy(a->session->arena, text);
}

static void explain_value(asker *a) {
  if (a->fact->type == TS_FLAG)
    fputs("  yes or no\n", stderr);
  else if (a->fact->type == TS_CHOICE)
    fprintf(stderr, "  one of: %s\n", a->fact->choices);
  else
    fprintf(stderr, "  a value with its unit, like \"%s\"; from %s to %s is plausible\n",
            some_value(a), a->fact->low, a->fact->high);
}

static bool take_value(asker *a, const char *answer) {
  a->wish->value = answer;
  return rule_wish_good(a->session, a->wish, &a->title);
}

/* ---- words ----------------------------------------------------------------------------- */

static const char *some_title(asker *a) { return a->title; }

static void explain_title(asker *a) {
  (void)a;
  fputs("  What stands at the head of the finding, in a few words: \"Deeper than agreed\".\n",
        stderr);
}

static bool take_title(asker *a, const char *answer) { return a->wish->title = answer, true; }

static const char *some_harm(asker *a) { return (void)a, "who is harmed, and how"; }

static void explain_harm(asker *a) {
  (void)a;
  fputs("  Who is harmed, and how: \"performer: cannot be reached in time, drowning\".\n", stderr);
}

static bool take_harm(asker *a, const char *answer) { return a->wish->harm = answer, true; }

/* ---- scores ---------------------------------------------------------------------------- */

static const char *some_level(asker *a) { return a->levels[3].word; }

static void explain_level(asker *a) {
  for (int i = 1; i <= TS_LEVELS; i++)
    fprintf(stderr, "    %d %-20s %s\n", i, a->levels[i].word,
            a->levels[i].meaning ? a->levels[i].meaning : "");
}

/* By its word or its number; 0 with a message. */
static int level_of(const asker *a, const char *answer) {
  const char *names[TS_LEVELS];
  for (int i = 1; i <= TS_LEVELS; i++) {
    names[i - 1] = a->levels[i].word;
    bool number = answer[0] == '0' + i && answer[1] == '\0';
    if (number || ts_same(answer, a->levels[i].word)) return i;
  }
  unknown("word of the scale", answer, names, TS_LEVELS);
  return 0;
}

static bool take_likelihood(asker *a, const char *answer) {
  return (a->wish->likelihood = level_of(a, answer)) != 0;
}

static bool take_severity(asker *a, const char *answer) {
  return (a->wish->severity = level_of(a, answer)) != 0;
}

/* ---- controls -------------------------------------------------------------------------- */

static const char *no_controls(asker *a) { return (void)a, "none"; }

/* Those that change the fact itself come to mind first. */
static void explain_controls(asker *a) {
  fputs("  Ids from the catalogue with commas between. These change that very fact:\n", stderr);
  for (size_t i = 0; i < ts_control_count(a->session->packs); i++) {
    const ts_control *control = ts_control_at(a->session->packs, i);
    for (size_t k = 0; k < control->change_count; k++)
      if (control->changes[k].def == a->fact) explain_line(control->id, control->title);
  }
}

static bool control_exists(const asker *a, const char *id) {
  size_t count = ts_control_count(a->session->packs);
  const char **ids = ts_arena_alloc(a->session->arena, (count + 1) * sizeof *ids);
  if (ts_control_find(a->session->packs, id) != NULL) return true;
  for (size_t i = 0; i < count; i++) ids[i] = ts_control_at(a->session->packs, i)->id;
  unknown("control", id, ids, count);
  return false;
}

static bool take_controls(asker *a, const char *answer) {
  bool good = true;
  a->wish->controls = ts_same(answer, "none") ? "" : answer;
  for (const char *at = a->wish->controls; *(at += strspn(at, ", ")) != '\0';
       at += strcspn(at, ", "))
    good = control_exists(a, ts_arena_copy_n(a->session->arena, at, strcspn(at, ", "))) && good;
  return good;
}

/* ---- id and file ----------------------------------------------------------------------- */

static const char *some_id(asker *a) {
  return ts_arena_printf(a->session->arena, "own.%s", a->fact->name);
}

static void explain_id(asker *a) {
  (void)a;
  fputs("  A topic, a point and a name in small letters: \"ledge.too-deep\".\n", stderr);
}

static bool take_id(asker *a, const char *answer) {
  a->wish->id = answer;
  return rule_id_good(answer);
}

static const char *some_file(asker *a) {
  const char *point = strchr(a->wish->id, '.');
  return ts_arena_printf(a->session->arena, "%.*s/%s.lua", (int)(point - a->wish->id), a->wish->id,
                         point + 1);
}

static void explain_file(asker *a) {
  (void)a;
  fputs("  A .lua file in a folder of your own rules; \"-\" shows it only.\n", stderr);
}

static bool take_file(asker *a, const char *answer) { return a->wish->out = answer, true; }

/* ---- all of them ----------------------------------------------------------------------- */

static bool ask_all(asker *a) {
  static const question first[] = {
      {"What is the rule asked of", some_subject, explain_subject, take_subject},
      {"Which fact of it", some_fact, explain_fact, take_fact},
      {"Above, below, or is", some_comparison, explain_comparison, take_comparison},
      {"Which value", some_value, explain_value, take_value},
      {"Title of the finding", some_title, explain_title, take_title},
      {"Harm", some_harm, explain_harm, take_harm}};
  static const question likelihood = {"Likelihood", some_level, explain_level, take_likelihood};
  static const question severity = {"Severity", some_level, explain_level, take_severity};
  static const question last[] = {
      {"Controls that help", no_controls, explain_controls, take_controls},
      {"Id of the rule", some_id, explain_id, take_id}};
  static const question file = {"File", some_file, explain_file, take_file};
  bool good = true;
  for (size_t i = 0; good && i < sizeof first / sizeof first[0]; i++) good = ask(a, &first[i]);
  a->levels = a->session->matrix->likelihood;
  good = good && ask(a, &likelihood);
  a->levels = a->session->matrix->severity;
  good = good && ask(a, &severity);
  for (size_t i = 0; good && i < sizeof last / sizeof last[0]; i++) good = ask(a, &last[i]);
  return good && (a->wish->out != NULL || ask(a, &file));
}

bool rules_ask(ts_session *s, rule_wish *wish) {
  if (!session_read_matrix(s, NULL)) return false;
  asker a = {.session = s, .wish = wish, .reader = line_open(stderr)};
  fputs("Enter takes what stands in brackets; ? explains.\n", stderr);
  wish->id = "own.rule";
  bool good = ask_all(&a);
  line_close(a.reader);
  return good;
}
