/* The file of stages: read, checked against the vocabulary, merged. */
#include "command/stages.h"
#include "base/file.h"
#include "base/text.h"
#include <string.h>

enum { STAGES_LIMIT = 1024 * 1024 };

/* ---- looking at it --------------------------------------------------------------------- */

const char *stage_value(ts_arena *arena, const xmlNode *node, const char *name) {
  xmlChar *value = xmlGetNoNsProp(node, (const xmlChar *)name);
  const char *copy = value != NULL ? ts_arena_copy(arena, (const char *)value) : NULL;
  xmlFree(value);
  return copy;
}

static bool fits(const char *pattern, size_t length, const char *name) {
  bool open = length > 0 && pattern[length - 1] == '*';
  if (open) length--;
  return strncmp(pattern, name, length) == 0 && (open || name[length] == '\0');
}

bool stage_names(const char *words, const char *name) {
  for (const char *at = name != NULL ? words : NULL; at != NULL && *(at += strspn(at, " ")) != '\0';
       at += strcspn(at, " "))
    if (fits(at, strcspn(at, " "), name)) return true;
  return false;
}

bool stage_is_rule(const xmlNode *node) {
  return ts_same((const char *)node->name, "ask") || ts_same((const char *)node->name, "when");
}

const ts_fact_def *stage_fact(const ts_session *session, const xmlNode *node, const char *name) {
  const ts_entity_def *entity = ts_entity_find(session->vocabulary, (const char *)node->name);
  size_t count = entity != NULL ? ts_fact_count(session->vocabulary, entity) : 0;
  for (size_t i = 0; i < count; i++) {
    const ts_fact_def *fact = ts_fact_at(session->vocabulary, entity, i);
    if (ts_same(fact->name, name) && !fact->derived) return fact;
  }
  return NULL;
}

static const char *const own_words[] = {"leave-out", "roles", NULL};

static bool is_own_word(const char *name) {
  return ts_same(name, own_words[0]) || ts_same(name, own_words[1]);
}

/* ---- checking it: the file goes with the vocabulary, or is not used ---------------------- */

static void no_such_fact(const stages *s, const xmlNode *at, const char *entity, const char *name) {
  ts_report(s->session->problems, TS_ERROR, s->file, ts_xml_line(s->xml, at),
            "\"%s\" has no fact \"%s\"", entity, name);
}

/* Each pattern leaves something out. */
static void check_patterns(const stages *s, const xmlNode *of, const xmlNode *at) {
  const char *words = stage_value(s->session->arena, at, "leave-out");
  const ts_entity_def *entity = ts_entity_find(s->session->vocabulary, (const char *)of->name);
  for (; words != NULL && *(words += strspn(words, " ")) != '\0'; words += strcspn(words, " ")) {
    const char *one = ts_arena_copy_n(s->session->arena, words, strcspn(words, " "));
    bool some = false;
    for (size_t i = 0; i < ts_fact_count(s->session->vocabulary, entity); i++)
      some = some || stage_names(one, ts_fact_at(s->session->vocabulary, entity, i)->name);
    if (!some) no_such_fact(s, at, (const char *)of->name, one);
  }
}

static void check_rule(const stages *s, const xmlNode *of, const xmlNode *rule) {
  const char *name = stage_value(s->session->arena, rule, "fact");
  if (name == NULL || stage_fact(s->session, of, name) == NULL)
    no_such_fact(s, rule, (const char *)of->name, name ? name : "");
  check_patterns(s, of, rule);
}

static void check_element(const stages *s, const xmlNode *node);

static void check_inside(const stages *s, const xmlNode *node) {
  for (const xmlNode *child = node->children; child != NULL; child = child->next) {
    if (child->type != XML_ELEMENT_NODE) continue;
    if (stage_is_rule(child))
      check_rule(s, node, child);
    else
      check_element(s, child);
  }
}

static void check_element(const stages *s, const xmlNode *node) {
  if (ts_entity_find(s->session->vocabulary, (const char *)node->name) == NULL) {
    ts_report(s->session->problems, TS_ERROR, s->file, ts_xml_line(s->xml, node),
              "a dossier has no \"%s\"", (const char *)node->name);
    return;
  }
  for (const xmlAttr *a = node->properties; a != NULL; a = a->next)
    if (!is_own_word((const char *)a->name) &&
        stage_fact(s->session, node, (const char *)a->name) == NULL)
      no_such_fact(s, node, (const char *)node->name, (const char *)a->name);
  check_patterns(s, node, node);
  check_inside(s, node);
}

/* ---- reading it ---------------------------------------------------------------------------- */

static bool has_body(const xmlNode *kind) {
  const xmlNode *site = ts_xml_child(kind, "site");
  return site != NULL && xmlHasProp(site, (const xmlChar *)"water-body") != NULL;
}

static void list_kinds(stages *s) {
  ts_arena *arena = s->session->arena;
  const xmlNode *root = ts_xml_root(s->xml);
  for (xmlNode *k = ts_xml_child(root, "kind"); k != NULL; k = ts_xml_next(k, "kind")) s->count++;
  s->kinds = ts_arena_alloc(arena, (s->count + 1) * sizeof *s->kinds);
  size_t i = 0;
  for (xmlNode *k = ts_xml_child(root, "kind"); k != NULL; k = ts_xml_next(k, "kind"))
    s->kinds[i++] =
        (stage_kind){stage_value(arena, k, "name"), stage_value(arena, k, "meaning"), has_body(k)};
}

bool stages_open(stages *s, ts_session *session) {
  *s = (stages){.session = session};
  size_t length = 0;
  s->file = ts_path_join(session->arena, ts_data_path(session->arena, "shared"), "stages.xml");
  const char *bytes =
      ts_file_read(session->arena, s->file, STAGES_LIMIT, &length, session->problems);
  s->xml = bytes ? ts_xml_read(bytes, length, s->file, session->problems) : NULL;
  if (s->xml == NULL) return false;
  for (const xmlNode *part = ts_xml_root(s->xml)->children; part != NULL; part = part->next)
    if (part->type == XML_ELEMENT_NODE) check_inside(s, part);
  list_kinds(s);
  return ts_count(session->problems, TS_ERROR) == 0;
}

void stages_close(stages *s) {
  if (s->merged != NULL) xmlFreeDoc(s->merged);
  ts_xml_free(s->xml);
}

/* ---- merging -------------------------------------------------------------------------------- */

/* Lists add up: "rain" and "wind" make "rain wind"; "none" gives way. */
static void merge_attribute(const stages *s, xmlNode *into, const xmlNode *from, const char *name) {
  ts_arena *arena = s->session->arena;
  const char *more = stage_value(arena, from, name), *have = stage_value(arena, into, name);
  const ts_fact_def *fact = stage_fact(s->session, into, name);
  bool list = fact == NULL || fact->type == TS_REFS || fact->type == TS_SET;
  if (have != NULL && !list) return;
  if (have != NULL && !ts_same(have, "none")) more = ts_arena_printf(arena, "%s %s", have, more);
  xmlSetProp(into, (const xmlChar *)name, (const xmlChar *)more);
}

static bool has_rule(ts_arena *arena, const xmlNode *node, const xmlNode *rule) {
  const char *fact = stage_value(arena, rule, "fact");
  for (const xmlNode *n = ts_xml_child(node, "ask"); n != NULL; n = ts_xml_next(n, "ask"))
    if (ts_same((const char *)rule->name, "ask") && ts_same(stage_value(arena, n, "fact"), fact))
      return true;
  return false;
}

static void merge(const stages *s, xmlNode *into, const xmlNode *from);

/* What has an id of its own comes beside what is there; all else is one with it. */
static void merge_child(const stages *s, xmlNode *into, xmlNode *child) {
  bool rule = stage_is_rule(child);
  xmlNode *there = ts_xml_child(into, (const char *)child->name);
  if (!rule && there != NULL && !xmlHasProp(child, (const xmlChar *)"id"))
    merge(s, there, child);
  else if (!rule || !has_rule(s->session->arena, into, child))
    xmlAddChild(into, xmlDocCopyNode(child, into->doc, 1));
}

static void merge(const stages *s, xmlNode *into, const xmlNode *from) {
  for (const xmlAttr *a = from->properties; a != NULL; a = a->next)
    merge_attribute(s, into, from, (const char *)a->name);
  for (xmlNode *child = from->children; child != NULL; child = child->next)
    if (child->type == XML_ELEMENT_NODE) merge_child(s, into, child);
}

/* The elements of a part, a kind, or what always stands there. */
static void merge_part(const stages *s, const xmlNode *part) {
  xmlNode *root = xmlDocGetRootElement(s->merged);
  for (xmlNode *child = part->children; child != NULL; child = child->next)
    if (child->type == XML_ELEMENT_NODE) merge_child(s, root, child);
}

static void merge_kind(const stages *s, const char *name, const char *element) {
  ts_arena *arena = s->session->arena;
  const xmlNode *root = ts_xml_root(s->xml);
  for (xmlNode *k = ts_xml_child(root, element); k != NULL; k = ts_xml_next(k, element)) {
    if (!stage_names(name, stage_value(arena, k, "name"))) continue;
    const char *also = stage_value(arena, k, "also");
    merge_part(s, k);
    if (also != NULL) merge_kind(s, also, "part");
  }
}

void stages_merge(stages *s, const size_t *chosen, size_t count) {
  const xmlNode *root = ts_xml_root(s->xml);
  s->merged = xmlNewDoc((const xmlChar *)"1.0");
  xmlDocSetRootElement(s->merged, xmlNewDocNode(s->merged, NULL, (const xmlChar *)"dossier", NULL));
  merge_part(s, ts_xml_child(root, "always"));
  bool dry = true;
  for (size_t i = 0; i < count; i++) {
    merge_kind(s, s->kinds[chosen[i]].name, "kind");
    dry = dry && !s->kinds[chosen[i]].body;
  }
  if (dry) merge_part(s, ts_xml_child(root, "dry"));
}
