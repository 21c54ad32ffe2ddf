/* Writing a first dossier. */
#include "command/draft.h"
#include <string.h>

enum { COLUMNS = 100, STEP = 2, ENTITIES_MAX = 256 };

typedef struct {
  const ts_session *session;
  ts_text *out;
  bool teach;
  bool taught[ENTITIES_MAX]; /* by index of the entity */
} writer;

/* ---- what is written of an element ---------------------------------------------------------- */

/* The value of a fact, "?" where it is open, NULL where it is not written. */
static const char *written(const writer *w, const xmlNode *node, const ts_fact_def *fact) {
  const char *value = stage_value(w->session->arena, node, fact->name);
  const char *left_out = stage_value(w->session->arena, node, "leave-out");
  bool open = fact->type >= TS_QUANTITY && !fact->derived;
  if (left_out != NULL && stage_names(left_out, fact->name)) return NULL;
  return value != NULL ? value : open ? "?" : NULL;
}

/* Words that a dossier can do without are explained all the same: somebody may have them. */
static bool explained(const writer *w, const xmlNode *node, const ts_fact_def *fact) {
  return written(w, node, fact) != NULL || (fact->type == TS_TEXT && !fact->derived);
}

/* ---- comments -------------------------------------------------------------------------- */

/* Two hyphens would end a comment: the second becomes one that looks the same. */
static void add_comment_words(const writer *w, const char *text, size_t column, size_t indent) {
  ts_text words = {0};
  for (; *text != '\0'; text++) {
    bool second = *text == '-' && words.length > 0 && words.data[words.length - 1] == '-';
    if (second)
      ts_text_add(&words, "\u2010");
    else
      ts_text_add_n(&words, text, 1);
  }
  if (words.length > 0) ts_text_add_folded(w->out, words.data, column, indent, COLUMNS);
  ts_text_release(&words);
}

static void teach_fact(const writer *w, const ts_fact_def *fact, size_t indent) {
  ts_text line = {0};
  ts_text_addf(&line, "%s: %s; ", fact->name, fact->meaning);
  ts_fact_explain(fact, &line);
  ts_text_addf(w->out, "\n%*s", (int)indent, "");
  add_comment_words(w, line.data, indent, indent + STEP);
  ts_text_release(&line);
}

static void teach(writer *w, const xmlNode *node, const ts_entity_def *entity, size_t indent) {
  ts_text says = {0};
  ts_text_addf(&says, "%s: %s", entity->name, entity->meaning);
  ts_text_addf(w->out, "\n%*s<!-- ", (int)indent, "");
  add_comment_words(w, says.data, indent + 5, indent + 5);
  ts_text_release(&says);
  for (size_t i = 0; i < ts_fact_count(w->session->vocabulary, entity); i++) {
    const ts_fact_def *fact = ts_fact_at(w->session->vocabulary, entity, i);
    if (explained(w, node, fact)) teach_fact(w, fact, indent + 5);
  }
  ts_text_add(w->out, " -->");
}

/* ---- elements -------------------------------------------------------------------------- */

static size_t characters(const char *text) {
  size_t count = 0;
  for (; *text != '\0'; text++) count += ((unsigned char)*text & 0xC0) != 0x80;
  return count;
}

/* One attribute, on a line with those before it as long as there is room. */
static void add_attribute(const writer *w, const char *name, const char *value, size_t indent,
                          size_t *column) {
  ts_xml_out one = {0};
  ts_xml_start(&one, "a");
  ts_xml_attribute(&one, name, value);
  const char *text = one.text.data + strlen("<a ");
  size_t wide = characters(text);
  if (*column > indent && *column + 1 + wide + strlen("/>") > COLUMNS) {
    ts_text_addf(w->out, "\n%*s", (int)indent, "");
    *column = indent;
  } else {
    ts_text_add(w->out, " ");
    *column += 1;
  }
  ts_text_add(w->out, text);
  *column += wide;
  ts_text_release(&one.text);
}

static void write_elements(writer *w, const xmlNode *parent, const char *name, size_t indent);

static bool has_elements(const xmlNode *node) {
  for (const xmlNode *child = node->children; child != NULL; child = child->next)
    if (child->type == XML_ELEMENT_NODE && !stage_is_rule(child)) return true;
  return false;
}

static void write_element(writer *w, const xmlNode *node, size_t index, size_t indent) {
  const ts_entity_def *entity = ts_entity_at(w->session->vocabulary, index);
  size_t under = indent + 1 + strlen(entity->name) + 1, column = under - 1;
  if (w->teach && !w->taught[index]) teach(w, node, entity, indent);
  w->taught[index] = true;
  ts_text_addf(w->out, "\n%*s<%s", (int)indent, "", entity->name);
  for (size_t i = 0; i < ts_fact_count(w->session->vocabulary, entity); i++) {
    const ts_fact_def *fact = ts_fact_at(w->session->vocabulary, entity, i);
    const char *value = written(w, node, fact);
    if (value != NULL) add_attribute(w, fact->name, value, under, &column);
  }
  bool inside = has_elements(node);
  ts_text_add(w->out, inside ? ">" : "/>");
  if (!inside) return;
  write_elements(w, node, entity->name, indent + STEP);
  ts_text_addf(w->out, "\n%*s</%s>", (int)indent, "", entity->name);
}

/* What stands in an element, in the order of the vocabulary. */
static void write_elements(writer *w, const xmlNode *parent, const char *name, size_t indent) {
  size_t count = ts_entity_count(w->session->vocabulary);
  for (size_t i = 0; i < count && i < ENTITIES_MAX; i++) {
    const ts_entity_def *entity = ts_entity_at(w->session->vocabulary, i);
    if (!ts_same(entity->parent, name)) continue;
    const xmlNode *node = ts_xml_child(parent, entity->name);
    for (; node != NULL; node = ts_xml_next(node, entity->name)) write_element(w, node, i, indent);
  }
}

static const char head[] =
    "\n<!-- Begun by `tankside new`. \"?\" is what nobody has said yet; it counts as the worst it "
    "could\n"
    "     be. Write a value over it: \"4.2 m\", a range \"3.8..4.5 m\", \"4.2 ± 0.1 m\", \"yes\", "
    "a word\n"
    "     out of those listed, \"light|moderate\" where it is one of the two; or let `tankside "
    "ask` do\n"
    "     it. Before the first element of each kind stands what it can state.\n"
    "     Also possible, after the days: where a fact is known from, and what has been agreed:\n"
    "       <evidence for=\"PATH\" kind=\"measured\" by=\"NAME\" on=\"2027-03-08\" ref=\"LOG, "
    "PAGE\"/>\n"
    "       <control ref=\"ID\" state=\"planned\"/>   in a site, day, task or immersion; "
    "`tankside\n"
    "     vocabulary`, as html, lists the controls there are. -->";

void draft_write(const ts_session *session, const xmlNode *root, bool teaching, ts_text *out) {
  writer w = {.session = session, .out = out, .teach = teaching};
  const char *units = stage_value(session->arena, root, "units");
  ts_text_add(out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>");
  if (teaching) ts_text_add(out, head);
  ts_text_addf(out, "\n<dossier format=\"1\" units=\"%s\">", units != NULL ? units : "metric");
  write_elements(&w, root, "dossier", STEP);
  ts_text_add(out, "\n</dossier>\n");
}
