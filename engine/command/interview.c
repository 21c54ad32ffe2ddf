/* Asking for the facts of one element, as the file of stages says. */
#include "command/interview.h"
#include "base/text.h"
#include "dossier/subjects.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- one question ---------------------------------------------------------------------------- */

const char *new_value(const newcomer *n, const xmlNode *node, const char *name) {
  return stage_value(n->s->arena, node, name);
}

void new_put(xmlNode *node, const char *name, const char *value) {
  xmlSetProp(node, (const xmlChar *)name, (const xmlChar *)value);
}

/* Says at once what was wrong, and begins a clean sheet. Nothing is in a file yet: places in it are
 * left out. */
void new_say_problems(const newcomer *n) {
  char *text = NULL;
  size_t length = 0;
  FILE *out = open_memstream(&text, &length);
  fflush(stdout);
  if (out != NULL) ts_diagnostics_print(n->s->problems, out);
  if (out == NULL || fclose(out) != 0) ts_out_of_memory();
  for (const char *at = text; at != NULL && (at = strstr(at, "error: ")) != NULL;) {
    at += strlen("error: ");
    usage_error("%s", ts_arena_copy_n(n->s->arena, at, strcspn(at, "\n")));
    at += strcspn(at, "\n");
  }
  free(text);
  ts_diagnostics_free(n->s->problems);
  n->s->problems = ts_diagnostics_new();
}

/* "in ft; within 0..330 ft": a range is an answer too. */
static const char *quantity_form(const newcomer *n, const ts_fact_def *fact) {
  char shown[128];
  bool us = ts_same(new_value(n, n->draft, "units"), "us") && fact->unit_us != NULL;
  const char *unit = us ? fact->unit_us : fact->unit;
  ts_quantity_show(n->s->units, ts_fact_plausible(n->s->vocabulary, fact),
                   ts_fact_dim(n->s->vocabulary, fact), unit, us ? TS_US : TS_METRIC, shown,
                   sizeof shown);
  return ts_arena_printf(n->s->arena, "in %s; within %s", *unit != '\0' ? unit : "numbers", shown);
}

/* What an answer may look like; NULL where any words will do. */
static const char *form_of(const newcomer *n, const ts_fact_def *fact) {
  ts_arena *arena = n->s->arena;
  switch (fact->type) {
  case TS_FLAG: return "yes or no";
  case TS_DAY:
  case TS_DATE: return "a date, like 2027-03-09";
  case TS_CLOCK: return "a time of day, like 10:40";
  case TS_COUNT: return ts_arena_printf(arena, "a whole number, %s to %s", fact->low, fact->high);
  case TS_KIND_WORD:
  case TS_CHOICE: return ts_arena_printf(arena, "one of: %s", fact->choices);
  case TS_SET: return ts_arena_printf(arena, "none, or some of: %s", fact->choices);
  case TS_QUANTITY: return quantity_form(n, fact);
  default: return NULL;
  }
}

static const char *const *words_of(const newcomer *n, const ts_fact_def *fact) {
  if (ts_same(fact->name, "jurisdiction")) return choices(n->s->arena, A_JURISDICTION);
  if (fact->type == TS_FLAG) return line_split(n->s->arena, "yes no");
  return line_split(n->s->arena, fact->choices);
}

/* The next answer that can stand in a file; NULL where there is none. */
const char *new_answer(newcomer *n, const char *prompt) {
  const char *answer, *trouble;
  while ((answer = line_read(n->reader, prompt)) != NULL &&
         (trouble = ts_text_trouble(answer, strlen(answer))) != NULL)
    usage_error("the answer holds %s", trouble);
  return answer != NULL ? ts_arena_copy(n->s->arena, answer) : NULL;
}

/* Somebody may mean a place that no pack is for: said twice, it is taken. */
static bool take_jurisdiction(newcomer *n, const char *answer, const char *before) {
  const char *const *names = choices(n->s->arena, A_JURISDICTION);
  size_t count = 0;
  for (; names[count] != NULL; count++)
    if (ts_same(names[count], answer)) return true;
  if (ts_same(answer, before)) return true;
  unknown("jurisdiction", answer, names, count);
  print_folded("  ",
               "Say it again to take it all the same: then only the rules are asked that hold "
               "everywhere, and the assessment says that it is not complete.");
  return false;
}

static bool take(newcomer *n, const ts_fact_def *fact, const char *answer, const char *before) {
  ts_value value;
  if (ts_same(fact->name, "jurisdiction")) return take_jurisdiction(n, answer, before);
  bool good = ts_fact_read(n->s->vocabulary, n->s->units, n->s->arena, fact, answer, &value,
                           n->s->problems, fact->name, 0);
  new_say_problems(n);
  return good;
}

/* What an empty answer takes; NULL: nothing. */
static const char *otherwise(const newcomer *n, const xmlNode *node, const xmlNode *rule) {
  const char *have = new_value(n, node, new_value(n, rule, "fact"));
  return have != NULL ? have : new_value(n, rule, "like");
}

static bool was_shown(newcomer *n, const ts_fact_def *fact) {
  for (size_t i = 0; i < n->shown_count; i++)
    if (n->shown[i] == fact) return true;
  if (n->shown_count < SHOWN_MAX) n->shown[n->shown_count++] = fact;
  return false;
}

static void show_question(const newcomer *n, const ts_fact_def *fact, const char *empty) {
  const char *const *names = words_of(n, fact);
  const char *form = form_of(n, fact);
  print_folded("  ", ts_arena_printf(n->s->arena, "%s: %s", fact->name, fact->meaning));
  if (form != NULL) print_folded("    ", form);
  if (ts_same(fact->name, "jurisdiction")) print_folded("    ", line_join(n->s->arena, names));
  if (empty != NULL) print_folded("    Enter: ", empty);
}

static void explain(const newcomer *n, const ts_fact_def *fact, const char *empty) {
  show_question(n, fact, empty);
  if (fact->type >= TS_QUANTITY) {
    print_folded("    found by   ", fact->measured);
    print_folded("    who knows  ", fact->asked);
  }
  print_folded("    ",
               "? leaves it open; again begins this part again, back the one it is in; end of "
               "input (^D) stops, and nothing is written then.");
}

/* What an empty answer does, in words. */
static const char *empty_does(const ts_fact_def *fact, const char *empty, bool must, bool may_end) {
  if (may_end) return "no more";
  if (empty != NULL || must) return empty;
  return fact->type >= TS_QUANTITY ? "not known" : "nothing";
}

/* Asks until the answer will do; an empty one takes `empty`, or leaves the fact open. */
static outcome ask(newcomer *n, xmlNode *node, const ts_fact_def *fact, const char *empty,
                   bool must, bool may_end) {
  const char *answer = "", *before, *does = empty_does(fact, empty, must, may_end);
  const char *prompt = "  > ";
  if (was_shown(n, fact))
    prompt = ts_arena_printf(n->s->arena, "  %s > ", fact->name);
  else
    show_question(n, fact, does);
  n->asked++;
  line_words(n->reader, words_of(n, fact));
  for (;;) {
    before = answer;
    answer = new_answer(n, prompt);
    if (answer == NULL) return OVER;
    if (answer[0] == '\0' && empty != NULL) answer = empty;
    bool open = answer[0] == '\0' || ts_same(answer, "?");
    if (ts_same(answer, "again")) return AGAIN;
    if (ts_same(answer, "back")) return BACK;
    if (open && !must) return TAKEN;
    if (open)
      puts("    This has to be answered.");
    else if (ts_same(answer, "help"))
      explain(n, fact, does);
    else if (take(n, fact, answer, before))
      break;
  }
  n->answered++;
  new_put(node, fact->name, answer);
  return TAKEN;
}

static outcome ask_rule(newcomer *n, xmlNode *node, const xmlNode *rule, bool may_end) {
  const ts_fact_def *fact = stage_fact(n->s, node, new_value(n, rule, "fact"));
  const char *empty = otherwise(n, node, rule);
  bool must = new_value(n, rule, "must") != NULL && !may_end;
  outcome o = ask(n, node, fact, empty, must, may_end);
  bool nothing = o == TAKEN && new_value(n, node, fact->name) == NULL;
  return nothing && may_end ? ENDED : o;
}

/* ---- one element ----------------------------------------------------------------------- */

/* What nothing hangs on, from what was answered so far. */
static void apply_when(const newcomer *n, xmlNode *node, const char *fact) {
  for (xmlNode *w = ts_xml_child(node, "when"); w != NULL; w = ts_xml_next(w, "when")) {
    const char *value = new_value(n, node, fact);
    const char *have = new_value(n, node, "leave-out"), *more = new_value(n, w, "leave-out");
    if (!ts_same(new_value(n, w, "fact"), fact) || value == NULL ||
        !stage_names(new_value(n, w, "is"), value))
      continue;
    new_put(node, "leave-out", have ? ts_arena_printf(n->s->arena, "%s %s", have, more) : more);
  }
}

bool new_left_out(const newcomer *n, const xmlNode *node, const char *fact) {
  const char *left_out = new_value(n, node, "leave-out");
  return left_out != NULL && stage_names(left_out, fact);
}

/* What goes without saying for the kind is not asked; a list may hold more. */
static bool is_settled(const newcomer *n, const xmlNode *node, const char *fact) {
  return new_value(n, node, fact) != NULL && stage_fact(n->s, node, fact)->type != TS_SET;
}

static void show_element(const newcomer *n, const xmlNode *node, const char *of) {
  const ts_entity_def *entity = ts_entity_find(n->s->vocabulary, (const char *)node->name);
  const char *title = new_value(n, node, "title");
  if (of == NULL) of = title != NULL ? title : entity->meaning;
  if (ts_xml_child(node, "ask") == NULL) return;
  putchar('\n');
  print_folded("", ts_arena_printf(n->s->arena, "%s: %s", entity->name, of));
}

/* Asks what is to be asked of an element and those in it. `may_end`: an empty first answer says
 * that there is no such thing. */
outcome new_interview(newcomer *n, xmlNode *node, const char *of, bool may_end) {
  outcome o = TAKEN;
  show_element(n, node, of);
  for (xmlNode *r = ts_xml_child(node, "ask"); r != NULL && o == TAKEN; r = ts_xml_next(r, "ask")) {
    const char *fact = new_value(n, r, "fact");
    if (new_left_out(n, node, fact) || is_settled(n, node, fact)) continue;
    o = ask_rule(n, node, r, may_end);
    apply_when(n, node, fact);
    may_end = false;
  }
  for (xmlNode *child = node->children; child != NULL && o == TAKEN; child = child->next)
    if (child->type == XML_ELEMENT_NODE && !stage_is_rule(child))
      o = new_interview(n, child, NULL, false);
  return o;
}
