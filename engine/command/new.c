/* tankside new: a first dossier from a few answers. */
#include "base/file.h"
#include "base/text.h"
#include "command/advice.h"
#include "command/draft.h"
#include "command/interview.h"
#include "dossier/subjects.h"
#include <stdio.h>
#include <string.h>

/* ---- ids ------------------------------------------------------------------------------- */

static bool is_id_taken(const newcomer *n, const xmlNode *node, const char *id) {
  for (const xmlNode *child = node->children; child != NULL; child = child->next)
    if (child->type == XML_ELEMENT_NODE &&
        (ts_same(new_value(n, child, "id"), id) || is_id_taken(n, child, id)))
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

/* ---- what is begun with, answered ------------------------------------------------------ */

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
    new_say_problems(n);
    puts("  That does not go together; this part again, or back for the one it is in.");
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
    outcome o = new_interview(n, node, of, may_end);
    if (o == TAKEN && finish != NULL) o = finish(n, node);
    if (o == TAKEN && reads(n)) return TAKEN;
    drop(node);
    if (o == ENDED || o == OVER) return o;
    if (o == BACK && parent != n->draft) return AGAIN; /* of the parent */
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
  new_put(person, "id", id_from(n, new_value(n, person, "name"), "person"));
  return TAKEN;
}

static outcome finish_site(newcomer *n, xmlNode *site) {
  new_put(site, "id", id_from(n, new_value(n, site, "title"), "site"));
  return TAKEN;
}

/* ---- who keeps watch, who goes in ------------------------------------------------------ */

/* Whoever has the role of a post gets it. */
static void add_posts(newcomer *n, xmlNode *task) {
  const xmlNode *like = ts_xml_child(xmlDocGetRootElement(n->stages.merged), "post");
  const char *posts = stage_fact(n->s, like, "role")->choices;
  xmlNode *person = ts_xml_child(n->draft, "person");
  for (; person != NULL; person = ts_xml_next(person, "person")) {
    const char *role = new_value(n, person, "role");
    if (!stage_names(posts, role)) continue;
    xmlNode *post = begin(n, task, like);
    new_put(post, "person", new_value(n, person, "id"));
    new_put(post, "role", role);
  }
}

/* Ids of all people, or of those whose role is among `roles`, and how they are called. */
static const char *people(const newcomer *n, const char *roles, bool named) {
  const char *all = "";
  const xmlNode *p = ts_xml_child(n->draft, "person");
  for (; p != NULL; p = ts_xml_next(p, "person")) {
    const char *id = new_value(n, p, "id"), *name = new_value(n, p, "name");
    if (roles != NULL && !stage_names(roles, new_value(n, p, "role"))) continue;
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
    *ids = new_answer(n, "  > ");
    if (*ids == NULL) return OVER;
    if (ts_same(*ids, "again")) return AGAIN;
    if (ts_same(*ids, "back")) return BACK;
    if ((*ids)[0] == '\0') *ids = usual;
  } while (!ts_same(*ids, "none") && !all_people(n, *ids));
  n->answered++;
  return TAKEN;
}

static outcome add_immersion(newcomer *n, xmlNode *task, const xmlNode *like, const char *person) {
  xmlNode *immersion = begin(n, task, like);
  new_put(immersion, "person", person);
  outcome o = new_interview(
      n, immersion, ts_arena_printf(n->s->arena, "%s in “%s”", person, new_value(n, task, "title")),
      false);
  /* What nobody breathes from is not named. */
  if (new_left_out(n, immersion, "supply")) xmlUnsetProp(immersion, (const xmlChar *)"supply");
  return o;
}

static outcome finish_task(newcomer *n, xmlNode *task) {
  const xmlNode *like = ts_xml_child(xmlDocGetRootElement(n->stages.merged), "immersion");
  const char *usual = people(n, new_value(n, like, "roles"), false), *ids = NULL;
  size_t day = 0, number = 0;
  for (xmlNode *d = ts_xml_child(n->draft, "day"); d != NULL; d = ts_xml_next(d, "day")) day++;
  for (xmlNode *t = ts_xml_child(task->parent, "task"); t != NULL; t = ts_xml_next(t, "task"))
    number++;
  new_put(task, "id", ts_arena_printf(n->s->arena, "d%zut%zu", day, number));
  add_posts(n, task);
  outcome o = ask_who(n, *usual != '\0' ? usual : "none", &ids);
  if (o != TAKEN || ts_same(ids, "none")) return o;
  const char *const *each = line_split(n->s->arena, ids);
  for (size_t i = 0; each[i] != NULL && o == TAKEN; i++) o = add_immersion(n, task, like, each[i]);
  return o;
}

static outcome finish_day(newcomer *n, xmlNode *day) {
  new_put(day, "site", new_value(n, ts_xml_child(n->draft, "site"), "id"));
  return reads(n) ? add_all(n, day, "task", finish_task) : AGAIN;
}

/* ---- the kinds, the whole -------------------------------------------------------------- */

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
    answer = new_answer(n, "  > ");
    if (answer == NULL) return OVER;
  } while (!read_kinds(n, answer, chosen, &count));
  n->answered++;
  stages_merge(&n->stages, chosen, count);
  return TAKEN;
}

static outcome ask_units(newcomer *n) {
  const char *const *names = choices(n->s->arena, A_UNIT_SYSTEM);
  const char *place = new_value(n, ts_xml_child(n->draft, "production"), "jurisdiction");
  const char *usual = strncmp(place, names[1], 2) == 0 ? names[1] : names[0], *answer;
  print_folded("  ", "units: those of the papers; a value may be written in others");
  print_folded("    one of: ", line_join(n->s->arena, names));
  print_folded("    Enter: ", usual);
  line_words(n->reader, names);
  n->asked++;
  for (;;) {
    answer = new_answer(n, "  > ");
    if (answer == NULL) return OVER;
    if (answer[0] == '\0') answer = usual;
    if (ts_same(answer, names[0]) || ts_same(answer, names[1])) break;
    unknown("units", answer, names, 2);
  }
  n->answered++;
  new_put(n->draft, "units", answer);
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
    bool here = ts_same(options->words[0], "."); /* as somebody would type it */
    n.path = here ? "dossier.xml" : ts_path_join(s.arena, options->words[0], "dossier.xml");
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
        "offered or leaves a fact open; help says more; again begins the part again, back the\n"
        "one it is in. Nothing\n"
        "is written before the last answer, and nothing that is there is ever written over.\n\n"
        "  tankside new night-swim\n"
        "  tankside new night-swim < answers.txt\n\n"
        "Exit status: 0 written, 2 not.",
    .takes = 0,
    .least = 1,
    .most = 1,
    .kinds = {A_FOLDER},
    .needs = WRITES_FIRST,
    .run = run};
