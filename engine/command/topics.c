/* The table of topics: read, checked against the packs, printed. */
#include "command/topics.h"
#include "base/file.h"
#include "base/text.h"
#include "base/xml.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FILE_LIMIT = 1 << 20 };

typedef struct {
  const ts_session *session;
  const char *path;
  const ts_xml *xml;
  ts_topic *topics;
  size_t count, capacity;
  bool *named; /* by index of the rule: some topic has it */
} reading;

/* ---- reading ------------------------------------------------------------------- */

static const char *attribute(const reading *r, xmlNode *node, const char *name) {
  xmlChar *value = xmlGetNoNsProp(node, BAD_CAST name);
  const char *copy = ts_arena_copy(r->session->arena, (const char *)value);
  xmlFree(value);
  return copy;
}

/* "gb-eng.children.*" stands for every rule that begins with what is before the star. */
static bool stands_for(const char *pattern, size_t length, const char *id) {
  if (length > 0 && pattern[length - 1] == '*') return strncmp(pattern, id, length - 1) == 0;
  return strlen(id) == length && strncmp(pattern, id, length) == 0;
}

static void no_such_rule(const reading *r, const char *name, int line) {
  size_t count = ts_rule_count(r->session->packs);
  const char **ids = ts_arena_alloc(r->session->arena, (count + 1) * sizeof *ids);
  for (size_t i = 0; i < count; i++) ids[i] = ts_rule_at(r->session->packs, i)->id;
  const char *near = ts_nearest(name, ids, count);
  ts_report(r->session->problems, TS_ERROR, r->path, line, "no pack has rule \"%s\"%s%s%s", name,
            near ? "; the nearest name is \"" : "", near ? near : "", near ? "\"" : "");
}

/* Adds the rules that one word stands for. */
static void add_rules(reading *r, ts_topic *topic, const ts_rule **rules, const char *word,
                      size_t length) {
  size_t before = topic->rule_count;
  for (size_t i = 0; i < ts_rule_count(r->session->packs); i++) {
    const ts_rule *rule = ts_rule_at(r->session->packs, i);
    if (!stands_for(word, length, rule->id)) continue;
    rules[topic->rule_count++] = rule;
    r->named[i] = true;
  }
  if (topic->rule_count == before)
    no_such_rule(r, ts_arena_copy_n(r->session->arena, word, length), topic->line);
}

static void read_topic(reading *r, xmlNode *node, const char *section) {
  size_t most = ts_rule_count(r->session->packs);
  const ts_rule **rules = ts_arena_alloc(r->session->arena, (2 * most + 1) * sizeof *rules);
  ts_topic topic = {.section = section,
                    .name = attribute(r, node, "name"),
                    .rules = rules,
                    .says = attribute(r, node, "says"),
                    .dossier = attribute(r, node, "dossier"),
                    .line = ts_xml_line(r->xml, node)};
  const char *word = attribute(r, node, "rules");
  for (size_t length; word != NULL && *(word += strspn(word, " ")) != '\0'; word += length) {
    length = strcspn(word, " ");
    if (topic.rule_count < most) add_rules(r, &topic, rules, word, length);
  }
  if (topic.name == NULL) {
    ts_report(r->session->problems, TS_ERROR, r->path, topic.line, "a topic without a name");
    return;
  }
  if (topic.rule_count == 0 && topic.says == NULL)
    ts_report(r->session->problems, TS_ERROR, r->path, topic.line,
              "nothing looks at the topic \"%s\"", topic.name);
  TS_GROW(r->topics, r->count, r->capacity);
  r->topics[r->count++] = topic;
}

static void read_sections(reading *r) {
  for (xmlNode *s = ts_xml_root(r->xml)->children; s != NULL; s = s->next) {
    if (s->type != XML_ELEMENT_NODE) continue;
    const char *section = attribute(r, s, "name");
    for (xmlNode *t = s->children; t != NULL; t = t->next)
      if (t->type == XML_ELEMENT_NODE) read_topic(r, t, section);
  }
}

static void report_unnamed(const reading *r) {
  for (size_t i = 0; i < ts_rule_count(r->session->packs); i++) {
    const ts_rule *rule = ts_rule_at(r->session->packs, i);
    if (!r->named[i] && ts_same(rule->pack, "common"))
      ts_report(r->session->problems, TS_ERROR, r->path, 0, "rule \"%s\" belongs to no topic",
                rule->id);
  }
}

bool topics_read(const ts_session *session, ts_topics *topics) {
  size_t length = 0;
  const char *path =
      ts_path_join(session->arena, ts_data_path(session->arena, "rules"), "topics.xml");
  reading r = {.session = session, .path = path};
  char *bytes = ts_file_read(session->arena, r.path, FILE_LIMIT, &length, session->problems);
  ts_xml *xml = bytes ? ts_xml_read(bytes, length, r.path, session->problems) : NULL;
  *topics = (ts_topics){0};
  if (xml == NULL) return false;
  r.xml = xml;
  r.named = ts_arena_alloc(session->arena, ts_rule_count(session->packs) + 1);
  read_sections(&r);
  report_unnamed(&r);
  if (r.count > 0) {
    ts_topic *all = ts_arena_alloc(session->arena, r.count * sizeof *all);
    memcpy(all, r.topics, r.count * sizeof *all);
    *topics = (ts_topics){all, r.count};
  }
  free(r.topics);
  ts_xml_free(xml);
  return true;
}

/* ---- printing ------------------------------------------------------------------ */

static void print_rule(const ts_rule *rule) {
  char head[96];
  snprintf(head, sizeof head, "    %s  ", rule->id);
  print_folded(head, rule->title);
  for (size_t i = 0; i < rule->source_count; i++) print_folded("      - ", rule->sources[i]);
}

static void print_topic(const ts_topic *topic) {
  char says[256];
  printf("\n");
  print_folded("  ", topic->name);
  for (size_t i = 0; i < topic->rule_count; i++) print_rule(topic->rules[i]);
  if (topic->says == NULL) return;
  snprintf(says, sizeof says, "looked at while the dossier is read: “… %s …”", topic->says);
  print_folded("    ", says);
}

int topics_print(ts_session *session) {
  ts_topics topics;
  const char *section = NULL;
  if (!topics_read(session, &topics)) return NOT_DONE;
  for (size_t i = 0; i < topics.count; i++) {
    const ts_topic *topic = &topics.at[i];
    if (!ts_same(section, topic->section)) printf("%s%s\n", i > 0 ? "\n" : "", topic->section);
    section = topic->section;
    print_topic(topic);
  }
  size_t missing = ts_count(session->problems, TS_ERROR);
  printf("\n%zu topics, %zu rules, %zu missing\n", topics.count, ts_rule_count(session->packs),
         missing);
  return missing > 0 ? LOOK : DONE;
}
