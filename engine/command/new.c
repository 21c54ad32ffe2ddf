/* tankside new: a first dossier from a few answers. */
#include "base/file.h"
#include "base/text.h"
#include "command/advice.h"
#include "command/draft.h"
#include "command/line.h"
#include "dossier/subjects.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SHOWN_MAX = 256 };

typedef enum { TAKEN, ENDED, AGAIN, OVER } outcome; /* ENDED: no more of these; OVER: no answer */

typedef struct {
  ts_session *s;
  line_reader *reader;
  stages stages;
  xmlNode *draft; /* <dossier> as far as it has been answered */
  const char *path;
  size_t asked, answered;
  const ts_fact_def *shown[SHOWN_MAX]; /* facts asked for before */
  size_t shown_count;
} newcomer;

/* ---- one question ---------------------------------------------------------------------------- */

static const char *value_of(const newcomer *n, const xmlNode *node, const char *name) {
  return stage_value(n->s->arena, node, name);
}

static void put(xmlNode *node, const char *name, const char *value) {
  xmlSetProp(node, (const xmlChar *)name, (const xmlChar *)value);
}

/* Says at once what was wrong, and begins a clean sheet. Nothing is in a file yet: places in it are
 * left out. */
static void say_problems(const newcomer *n) {
  char *text = NULL;
  size_t length = 0;
  FILE *out = open_memstream(&text, &length);
  fflush(stdout);
  if (out == NULL) ts_out_of_memory();
  ts_diagnostics_print(n->s->problems, out);
  if (fclose(out) != 0) ts_out_of_memory();
  for (const char *at = text; (at = strstr(at, "error: ")) != NULL;) {
    at += strlen("error: ");
    usage_error("%s", ts_arena_copy_n(n->s->arena, at, strcspn(at, "\n")));
    at += strcspn(at, "\n");
  }
  free(text);
  ts_diagnostics_free(n->s->problems);
  n->s->problems = ts_diagnostics_new();
}

/* What an answer may look like; NULL where any words will do. */
static const char *form_of(const newcomer *n, const ts_fact_def *fact) {
  ts_arena *arena = n->s->arena;
  bool us = ts_same(value_of(n, n->draft, "units"), "us") && fact->unit_us != NULL;
  switch (fact->type) {
  case TS_FLAG: return "yes or no";
  case TS_DAY:
  case TS_DATE: return "a date, like 2027-03-09";
  case TS_CLOCK: return "a time of day, like 10:40";
  case TS_COUNT: return ts_arena_printf(arena, "a whole number, %s to %s", fact->low, fact->high);
  case TS_KIND_WORD:
  case TS_CHOICE: return ts_arena_printf(arena, "one of: %s", fact->choices);
  case TS_SET: return ts_arena_printf(arena, "none, or some of: %s", fact->choices);
  case TS_QUANTITY:
    return ts_arena_printf(arena, "in %s; a range a..b will do; %s to %s",
                           us ? fact->unit_us : fact->unit, fact->low, fact->high);
  default: return NULL;
  }
}

static const char *const *words_of(const newcomer *n, const ts_fact_def *fact) {
  if (ts_same(fact->name, "jurisdiction")) return choices(n->s->arena, A_JURISDICTION);
  if (fact->type == TS_FLAG) return line_split(n->s->arena, "yes no");
  return line_split(n->s->arena, fact->choices);
}

/* The next answer that can stand in a file; NULL where there is none. */
static const char *next_answer(newcomer *n, const char *prompt) {
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
  say_problems(n);
  return good;
}

/* What an empty answer takes; NULL: nothing. */
static const char *otherwise(const newcomer *n, const xmlNode *node, const xmlNode *rule) {
  const char *have = value_of(n, node, value_of(n, rule, "fact"));
  return have != NULL ? have : value_of(n, rule, "like");
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
  print_folded("    ", "? leaves it open, again begins this part again, end of input (^D) stops: "
                       "nothing is written then.");
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
    answer = next_answer(n, prompt);
    if (answer == NULL) return OVER;
    if (answer[0] == '\0' && empty != NULL) answer = empty;
    bool open = answer[0] == '\0' || ts_same(answer, "?");
    if (ts_same(answer, "again")) return AGAIN;
    if (open && !must) return TAKEN;
    if (open)
      puts("    This has to be answered.");
    else if (ts_same(answer, "help"))
      explain(n, fact, does);
    else if (take(n, fact, answer, before))
      break;
  }
  n->answered++;
  put(node, fact->name, answer);
  return TAKEN;
}

static outcome ask_rule(newcomer *n, xmlNode *node, const xmlNode *rule, bool may_end) {
  const ts_fact_def *fact = stage_fact(n->s, node, value_of(n, rule, "fact"));
  const char *empty = otherwise(n, node, rule);
  bool must = value_of(n, rule, "must") != NULL && !may_end;
  outcome o = ask(n, node, fact, empty, must, may_end);
  bool nothing = o == TAKEN && value_of(n, node, fact->name) == NULL;
  return nothing && may_end ? ENDED : o;
}

/* ---- one element
 * --------------------------------------------------------------------------------- */

/* What nothing hangs on, from what was answered so far. */
static void apply_when(const newcomer *n, xmlNode *node, const char *fact) {
  for (xmlNode *w = ts_xml_child(node, "when"); w != NULL; w = ts_xml_next(w, "when")) {
    const char *value = value_of(n, node, fact);
    const char *have = value_of(n, node, "leave-out"), *more = value_of(n, w, "leave-out");
    if (!ts_same(value_of(n, w, "fact"), fact) || value == NULL ||
        !stage_names(value_of(n, w, "is"), value))
      continue;
    put(node, "leave-out", have ? ts_arena_printf(n->s->arena, "%s %s", have, more) : more);
  }
}

static bool is_left_out(const newcomer *n, const xmlNode *node, const char *fact) {
  const char *left_out = value_of(n, node, "leave-out");
  return left_out != NULL && stage_names(left_out, fact);
}

/* What goes without saying for the kind is not asked; a list may hold more. */
static bool is_settled(const newcomer *n, const xmlNode *node, const char *fact) {
  return value_of(n, node, fact) != NULL && stage_fact(n->s, node, fact)->type != TS_SET;
}

static void show_element(const newcomer *n, const xmlNode *node, const char *of) {
  const ts_entity_def *entity = ts_entity_find(n->s->vocabulary, (const char *)node->name);
  const char *title = value_of(n, node, "title");
  if (of == NULL) of = title != NULL ? title : entity->meaning;
  if (ts_xml_child(node, "ask") == NULL) return;
  putchar('\n');
  print_folded("", ts_arena_printf(n->s->arena, "%s: %s", entity->name, of));
}

/* Asks what is to be asked of an element and those in it. `may_end`: an empty first answer says
 * that there is no such thing. */
static outcome interview(newcomer *n, xmlNode *node, const char *of, bool may_end) {
  outcome o = TAKEN;
  show_element(n, node, of);
  for (xmlNode *r = ts_xml_child(node, "ask"); r != NULL && o == TAKEN; r = ts_xml_next(r, "ask")) {
    const char *fact = value_of(n, r, "fact");
    if (is_left_out(n, node, fact) || is_settled(n, node, fact)) continue;
    o = ask_rule(n, node, r, may_end);
    apply_when(n, node, fact);
    may_end = false;
  }
  for (xmlNode *child = node->children; child != NULL && o == TAKEN; child = child->next)
    if (child->type == XML_ELEMENT_NODE && !stage_is_rule(child))
      o = interview(n, child, NULL, false);
  return o;
}

/* ---- ids
 * --------------------------------------------------------------------------------------------- */

static bool is_id_taken(const newcomer *n, const xmlNode *node, const char *id) {
  for (const xmlNode *child = node->children; child != NULL; child = child->next)
    if (child->type == XML_ELEMENT_NODE &&
        (ts_same(value_of(n, child, "id"), id) || is_id_taken(n, child, id)))
      return true;
  return false;
}

/* The first word of a name in small letters, or `otherwise`; with a number where it is taken. */
static const char *id_from(const newcomer *n, const char *name, const char *otherwise) {
  char word[24];
  size_t length = 0;
  for (; *name != '\0' && length < sizeof word - 1; name++) {
    bool capital = *name >= 'A' && *name <= 'Z', small = *name >= 'a' && *name <= 'z';
    if (capital || small) word[length++] = (char)(capital ? *name - 'A' + 'a' : *name);
    if (!capital && !small && length > 1) break;
  }
  word[length] = '\0';
  const char *stem = length > 1 ? ts_arena_copy(n->s->arena, word) : otherwise, *id = stem;
  for (int i = 2; is_id_taken(n, n->draft, id); i++)
    id = ts_arena_printf(n->s->arena, "%s-%d", stem, i);
  return id;
}

/* ---- what is begun with, answered
 * ------------------------------------------------------------------------ */

/* Whether the dossier reads as far as it goes; what does not go together is said. */
static bool reads(newcomer *n) {
  ts_text text = {0};
  draft_write(n->s, n->draft, false, &text);
  ts_dossier *dossier = ts_dossier_read_text(text.data, text.length, "dossier.xml",
                                             n->s->vocabulary, n->s->units, n->s->problems);
  bool good = dossier != NULL;
  ts_dossier_free(dossier);
  ts_text_release(&text);
  if (!good) {
    say_problems(n);
    puts("  That does not go together; this part again.");
  }
  ts_diagnostics_free(n->s->problems);
  n->s->problems = ts_diagnostics_new();
  return good;
}

static xmlNode *begin(newcomer *n, xmlNode *parent, const xmlNode *like) {
  return xmlAddChild(parent, xmlDocCopyNode((xmlNode *)like, n->draft->doc, 1));
}

static void drop(xmlNode *node) {
  xmlUnlinkNode(node);
  xmlFreeNode(node);
}

/* What is still to be done to an element once it was answered; may ask more. */
typedef outcome (*finisher)(newcomer *n, xmlNode *node);

/* One element under `parent`, begun again until it goes with the rest. */
static outcome add(newcomer *n, xmlNode *parent, const xmlNode *like, const char *of, bool may_end,
                   finisher finish) {
  for (;;) {
    xmlNode *node = begin(n, parent, like);
    outcome o = interview(n, node, of, may_end);
    if (o == TAKEN && finish != NULL) o = finish(n, node);
    if (o == TAKEN && reads(n)) return TAKEN;
    drop(node);
    if (o == ENDED || o == OVER) return o;
  }
}

/* As many as there are. */
static outcome add_all(newcomer *n, xmlNode *parent, const char *name, finisher finish) {
  const xmlNode *like = ts_xml_child(xmlDocGetRootElement(n->stages.merged), name);
  outcome o = TAKEN;
  while (o == TAKEN) o = add(n, parent, like, NULL, true, finish);
  return o == ENDED ? TAKEN : o;
}

static outcome finish_person(newcomer *n, xmlNode *person) {
  put(person, "id", id_from(n, value_of(n, person, "name"), "person"));
  return TAKEN;
}

static outcome finish_site(newcomer *n, xmlNode *site) {
  put(site, "id", id_from(n, value_of(n, site, "title"), "site"));
  return TAKEN;
}

/* ---- who keeps watch, who goes in
 * --------------------------------------------------------------------------- */

/* Whoever has the role of a post gets it. */
static void add_posts(newcomer *n, xmlNode *task) {
  const xmlNode *like = ts_xml_child(xmlDocGetRootElement(n->stages.merged), "post");
  const char *posts = stage_fact(n->s, like, "role")->choices;
  xmlNode *person = ts_xml_child(n->draft, "person");
  for (; person != NULL; person = ts_xml_next(person, "person")) {
    const char *role = value_of(n, person, "role");
    if (!stage_names(posts, role)) continue;
    xmlNode *post = begin(n, task, like);
    put(post, "person", value_of(n, person, "id"));
    put(post, "role", role);
  }
}

/* Ids of all people, or of those whose role is among `roles`, and how they are called. */
static const char *people(const newcomer *n, const char *roles, bool named) {
  const char *all = "";
  const xmlNode *p = ts_xml_child(n->draft, "person");
  for (; p != NULL; p = ts_xml_next(p, "person")) {
    const char *id = value_of(n, p, "id"), *name = value_of(n, p, "name");
    if (roles != NULL && !stage_names(roles, value_of(n, p, "role"))) continue;
    all = ts_arena_printf(n->s->arena, "%s%s%s", all, *all == '\0' ? "" : named ? ", " : " ", id);
    if (named) all = ts_arena_printf(n->s->arena, "%s (%s)", all, name);
  }
  return all;
}

static bool all_people(const newcomer *n, const char *ids) {
  const char *const *names = line_split(n->s->arena, people(n, NULL, false));
  const char *const *given = line_split(n->s->arena, ids);
  bool good = true;
  size_t count = 0;
  while (names[count] != NULL) count++;
  for (size_t i = 0; given[i] != NULL; i++) {
    size_t k = 0;
    while (k < count && !ts_same(names[k], given[i])) k++;
    if (k == count) unknown("person", given[i], names, count);
    good = good && k < count;
  }
  return good;
}

/* Ids of those who go in, or "none". */
static outcome ask_who(newcomer *n, const char *usual, const char **ids) {
  putchar('\n');
  print_folded("  who goes in: ", people(n, NULL, true));
  print_folded("    ", "ids with blanks between, or none");
  print_folded("    Enter: ", usual);
  n->asked++;
  line_words(n->reader, line_split(n->s->arena, people(n, NULL, false)));
  do {
    *ids = next_answer(n, "  > ");
    if (*ids == NULL) return OVER;
    if (ts_same(*ids, "again")) return AGAIN;
    if ((*ids)[0] == '\0') *ids = usual;
  } while (!ts_same(*ids, "none") && !all_people(n, *ids));
  n->answered++;
  return TAKEN;
}

static outcome add_immersion(newcomer *n, xmlNode *task, const xmlNode *like, const char *person) {
  xmlNode *immersion = begin(n, task, like);
  put(immersion, "person", person);
  outcome o = interview(
      n, immersion, ts_arena_printf(n->s->arena, "%s in “%s”", person, value_of(n, task, "title")),
      false);
  /* What nobody breathes from is not named. */
  if (is_left_out(n, immersion, "supply")) xmlUnsetProp(immersion, (const xmlChar *)"supply");
  return o;
}

static outcome finish_task(newcomer *n, xmlNode *task) {
  const xmlNode *like = ts_xml_child(xmlDocGetRootElement(n->stages.merged), "immersion");
  const char *usual = people(n, value_of(n, like, "roles"), false), *ids = NULL;
  size_t day = 0, number = 0;
  for (xmlNode *d = ts_xml_child(n->draft, "day"); d != NULL; d = ts_xml_next(d, "day")) day++;
  for (xmlNode *t = ts_xml_child(task->parent, "task"); t != NULL; t = ts_xml_next(t, "task"))
    number++;
  put(task, "id", ts_arena_printf(n->s->arena, "d%zut%zu", day, number));
  add_posts(n, task);
  outcome o = ask_who(n, *usual != '\0' ? usual : "none", &ids);
  if (o != TAKEN || ts_same(ids, "none")) return o;
  const char *const *each = line_split(n->s->arena, ids);
  for (size_t i = 0; each[i] != NULL && o == TAKEN; i++) o = add_immersion(n, task, like, each[i]);
  return o;
}

static outcome finish_day(newcomer *n, xmlNode *day) {
  put(day, "site", value_of(n, ts_xml_child(n->draft, "site"), "id"));
  return reads(n) ? add_all(n, day, "task", finish_task) : AGAIN;
}

/* ---- the kinds, the whole
 * ------------------------------------------------------------------------------------ */

static bool find_kind(const newcomer *n, const char *name, size_t *index) {
  const char **names = ts_arena_alloc(n->s->arena, (n->stages.count + 1) * sizeof *names);
  for (*index = 0; *index < n->stages.count; ++*index)
    if (ts_same(names[*index] = n->stages.kinds[*index].name, name)) return true;
  unknown("kind", name, names, n->stages.count);
  return false;
}

/* All are kinds, each once, and at most one is a body of water. */
static bool read_kinds(const newcomer *n, const char *answer, size_t *chosen, size_t *count) {
  const char *const *names = line_split(n->s->arena, answer);
  const char *body = NULL;
  bool good = names[0] != NULL;
  *count = 0;
  for (size_t i = 0; names[i] != NULL; i++) {
    size_t kind;
    if (!find_kind(n, names[i], &kind)) {
      good = false;
      continue;
    }
    bool had = false;
    for (size_t k = 0; k < *count; k++) had = had || chosen[k] == kind;
    if (had) continue;
    if (n->stages.kinds[kind].body && body != NULL) {
      usage_error("\"%s\" and \"%s\" are two places: begin with one", body, names[i]);
      good = false;
    }
    if (n->stages.kinds[kind].body) body = names[i];
    chosen[(*count)++] = kind;
  }
  return good;
}

static outcome ask_kinds(newcomer *n) {
  const char **names = ts_arena_alloc(n->s->arena, (n->stages.count + 1) * sizeof *names);
  size_t *chosen = ts_arena_alloc(n->s->arena, (n->stages.count + 1) * sizeof *chosen), count;
  puts("What kind of wet stage is it? One or more of these, with blanks between:\n");
  for (size_t i = 0; i < n->stages.count; i++) {
    names[i] = n->stages.kinds[i].name;
    print_folded(ts_arena_printf(n->s->arena, "  %-13s", names[i]), n->stages.kinds[i].meaning);
  }
  putchar('\n');
  line_words(n->reader, names);
  n->asked++;
  const char *answer;
  do {
    answer = next_answer(n, "  > ");
    if (answer == NULL) return OVER;
  } while (!read_kinds(n, answer, chosen, &count));
  n->answered++;
  stages_merge(&n->stages, chosen, count);
  return TAKEN;
}

static outcome ask_units(newcomer *n) {
  const char *const *names = choices(n->s->arena, A_UNIT_SYSTEM);
  const char *place = value_of(n, ts_xml_child(n->draft, "production"), "jurisdiction");
  const char *usual = strncmp(place, names[1], 2) == 0 ? names[1] : names[0], *answer;
  print_folded("  ", "units: those of the papers; a value may be written in others");
  print_folded("    one of: ", line_join(n->s->arena, names));
  print_folded("    Enter: ", usual);
  line_words(n->reader, names);
  n->asked++;
  for (;;) {
    answer = next_answer(n, "  > ");
    if (answer == NULL) return OVER;
    if (answer[0] == '\0') answer = usual;
    if (ts_same(answer, names[0]) || ts_same(answer, names[1])) break;
    unknown("units", answer, names, 2);
  }
  n->answered++;
  put(n->draft, "units", answer);
  return TAKEN;
}

static outcome add_once(newcomer *n, const char *name, finisher finish) {
  const xmlNode *root = xmlDocGetRootElement(n->stages.merged);
  outcome o = TAKEN;
  for (xmlNode *e = ts_xml_child(root, name); e != NULL && o == TAKEN; e = ts_xml_next(e, name))
    o = add(n, n->draft, e, NULL, false, finish);
  return o;
}

static outcome ask_everything(newcomer *n) {
  outcome o = ask_kinds(n);
  if (o == TAKEN) o = add_once(n, "production", NULL);
  if (o == TAKEN) o = ask_units(n);
  if (o == TAKEN) o = add_once(n, "site", finish_site);
  if (o == TAKEN) o = add_once(n, "appliance", NULL);
  if (o == TAKEN) o = add_once(n, "prop", NULL);
  if (o == TAKEN) o = add_all(n, n->draft, "person", finish_person);
  if (o == TAKEN) o = add_all(n, n->draft, "day", finish_day);
  return o;
}

static int write_down(newcomer *n, const char *folder) {
  ts_text text = {0};
  draft_write(n->s, n->draft, true, &text);
  bool good = ts_folder_make(folder, n->s->problems) &&
              ts_file_write_new(n->path, text.data, text.length, n->s->problems);
  ts_text_release(&text);
  if (!good) return NOT_DONE;
  printf("\n%s is written: %zu questions, %zu answered; what is open is \"?\" in it.\n\n", n->path,
         n->asked, n->answered);
  advise(folder);
  return DONE;
}

static int converse(newcomer *n, const char *folder) {
  xmlDoc *doc = xmlNewDoc((const xmlChar *)"1.0");
  n->draft = xmlNewDocNode(doc, NULL, (const xmlChar *)"dossier", NULL);
  xmlDocSetRootElement(doc, n->draft);
  n->reader = line_open(stdout);
  outcome o = ask_everything(n);
  line_close(n->reader);
  int status = o == TAKEN ? write_down(n, folder) : NOT_DONE;
  if (o != TAKEN) usage_error("the answers ended before the last question; nothing was written");
  xmlFreeDoc(doc);
  return status;
}

static int run(const ts_options *options) {
  ts_session s = {0};
  newcomer n = {.s = &s};
  int status = NOT_DONE;
  if (session_open(&s) && stages_open(&n.stages, &s)) {
    n.path = ts_path_join(s.arena, options->words[0], "dossier.xml");
    status = ts_file_exists(n.path)
                 ? usage_error("\"%s\" is there already and is left alone", n.path)
                 : converse(&n, options->words[0]);
  }
  stages_close(&n.stages);
  session_close(&s);
  return status;
}

const ts_verb verb_new = {
    .name = "new",
    .usage = "new FOLDER",
    .summary = "begin a dossier by answering a few questions",
    .details =
        "Asks what kind of wet stage it is, then for the production, the place, the people, the\n"
        "days and what is done on them, and writes FOLDER/dossier.xml: all that the kind of\n"
        "stage needs, what is not known yet as \"?\", with a comment on each fact: what it is,\n"
        "how it is found out, who knows. At a terminal lines can be edited, and the tabulator\n"
        "completes; from a pipe it reads one answer a line. An empty answer takes what is\n"
        "offered or leaves a fact open; help says more; again begins the part again. Nothing\n"
        "is written before the last answer, and nothing that is there is ever written over.\n\n"
        "  tankside new night-swim\n"
        "  tankside new night-swim < answers.txt\n\n"
        "Exit status: 0 written, 2 not.",
    .takes = 0,
    .least = 1,
    .most = 1,
    .kinds = {A_FOLDER},
    .run = run};
