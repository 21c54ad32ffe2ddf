#include "dossier/edit.h"

#include "base/digest.h"
#include "base/xml.h"
#include "dossier/world.h"
#include <string.h>

typedef struct {
  const ts_dossier *dossier;
  const ts_xml *xml;
  const char *text;
  size_t length;
  uint32_t file;
  ts_text *out;
} editor;

size_t ts_edit_source(const ts_dossier *dossier, uint32_t slot) {
  return dossier->subjects[dossier->owners[slot]].file;
}

/* ---- which element a subject is ------------------------------------------------------- */

static bool is_named(const xmlNode *node, const char *name) {
  return node->type == XML_ELEMENT_NODE && ts_same((const char *)node->name, name);
}

/* Subjects of one entity that begin on one line are told apart by their order. */
static size_t order_on_line(const ts_dossier *dossier, ts_subject subject) {
  const ts_subject_entry *entry = &dossier->subjects[subject];
  size_t before = 0;
  for (ts_subject i = 0; i < subject; i++) {
    const ts_subject_entry *other = &dossier->subjects[i];
    before += other->entity == entry->entity && other->file == entry->file &&
              other->info.line == entry->info.line;
  }
  return before;
}

/* The n-th element of that name on that line, in the order of the document. */
static xmlNode *on_line(const editor *e, xmlNode *from, const char *name, int line, size_t *left) {
  for (xmlNode *node = from; node != NULL; node = node->next) {
    if (is_named(node, name) && ts_xml_line(e->xml, node) == line && (*left)-- == 0) return node;
    xmlNode *inside = on_line(e, node->children, name, line, left);
    if (inside != NULL) return inside;
  }
  return NULL;
}

/* NULL where the subject is not written: a part that nobody has said anything of. */
static xmlNode *element_of(const editor *e, ts_subject subject) {
  const ts_subject_entry *entry = &e->dossier->subjects[subject];
  const ts_entity_def *def = entry->info.entity;
  if (def->parent == NULL || entry->file != e->file) return NULL;
  if (def->single) {
    bool top = entry->info.parent == TS_NO_SUBJECT;
    xmlNode *parent = top ? ts_xml_root(e->xml) : element_of(e, entry->info.parent);
    return parent != NULL ? ts_xml_child(parent, def->name) : NULL;
  }
  size_t left = order_on_line(e->dossier, subject);
  return on_line(e, ts_xml_root(e->xml), def->name, entry->info.line, &left);
}

/* ---- pieces of text --------------------------------------------------------------------- */

static void add_escaped(ts_text *out, const char *value) {
  for (; *value != '\0'; value++) {
    if (*value == '&')
      ts_text_add(out, "&amp;");
    else if (*value == '<')
      ts_text_add(out, "&lt;");
    else if (*value == '"')
      ts_text_add(out, "&quot;");
    else if (*value == '\'')
      ts_text_add(out, "&apos;");
    else
      ts_text_add_n(out, value, 1);
  }
}

static void add_attribute(ts_text *out, const char *name, const char *value) {
  if (value == NULL || value[0] == '\0') return;
  ts_text_addf(out, " %s=\"", name);
  add_escaped(out, value);
  ts_text_add(out, "\"");
}

/* The text up to `from`, the piece, and the text from `to` on. */
static void splice(const editor *e, size_t from, size_t to, const char *piece) {
  ts_text_add_n(e->out, e->text, from);
  ts_text_add(e->out, piece);
  ts_text_add_n(e->out, e->text + to, e->length - to);
}

/* How far the line on which this offset stands is indented. */
static size_t indent_at(const char *text, size_t at) {
  while (at > 0 && text[at - 1] != '\n') at--;
  return strspn(text + at, " \t");
}

/* ---- the three ways a fact is written ------------------------------------------------------ */

static void put_attribute(const editor *e, const xmlNode *element, const char *name,
                          const char *value) {
  size_t begin, end;
  ts_text piece = {0};
  if (ts_xml_value(e->xml, element, name, &begin, &end)) {
    add_escaped(&piece, value);
    splice(e, begin, end, piece.data ? piece.data : "");
  } else if (ts_xml_tag(e->xml, element, &begin, &end)) {
    while (strchr(" \t\r\n", e->text[end - 1]) != NULL) end--;
    add_attribute(&piece, name, value);
    splice(e, end, end, piece.data ? piece.data : "");
  }
  ts_text_release(&piece);
}

/* A new element, first inside `parent`, on a line of its own. */
static void put_element(const editor *e, const xmlNode *parent, const char *start) {
  size_t begin, end;
  if (!ts_xml_tag(e->xml, parent, &begin, &end)) return;
  size_t after = end + strspn(e->text + end, " \t\r\n");
  bool empty = e->text[after] == '/';
  int indent = (int)indent_at(e->text, begin);
  ts_text piece = {0};
  ts_text_addf(&piece, ">\n%*s%s/>", indent + 2, "", start);
  if (empty) ts_text_addf(&piece, "\n%*s</%s>", indent, "", (const char *)parent->name);
  splice(e, end, after + (empty ? 2 : 1), piece.data);
  ts_text_release(&piece);
}

/* A fact that a pack declares: <fact name="" value=""/>. */
static void put_declared(const editor *e, const xmlNode *element, const char *name,
                         const char *value) {
  ts_text start = {0};
  for (xmlNode *child = element->children; child != NULL; child = child->next) {
    if (!is_named(child, "fact")) continue;
    xmlChar *own = xmlGetNoNsProp(child, BAD_CAST "name");
    bool same = ts_same((const char *)own, name);
    xmlFree(own);
    if (same) {
      put_attribute(e, child, "value", value);
      return;
    }
  }
  ts_text_add(&start, "<fact");
  add_attribute(&start, "name", name);
  add_attribute(&start, "value", value);
  put_element(e, element, start.data);
  ts_text_release(&start);
}

static void put_in_new_part(const editor *e, const xmlNode *parent, const char *part,
                            const char *name, const char *value) {
  ts_text start = {0};
  ts_text_addf(&start, "<%s", part);
  add_attribute(&start, name, value);
  put_element(e, parent, start.data);
  ts_text_release(&start);
}

/* ---- the door ------------------------------------------------------------------------------- */

static bool put(const editor *e, uint32_t slot, const char *value) {
  ts_subject subject = e->dossier->owners[slot];
  const ts_subject_info *info = &e->dossier->subjects[subject].info;
  const ts_known_fact *fact = ts_world_known(e->dossier, slot);
  const xmlNode *element = element_of(e, subject), *parent = NULL;
  if (element == NULL && info->entity->single && info->parent != TS_NO_SUBJECT)
    parent = element_of(e, info->parent);
  if (element != NULL && fact->added)
    put_declared(e, element, fact->def->name, value);
  else if (element != NULL)
    put_attribute(e, element, fact->def->name, value);
  else if (parent != NULL && !fact->added)
    put_in_new_part(e, parent, info->entity->name, fact->def->name, value);
  return e->out->length > 0;
}

bool ts_edit_fact(const ts_dossier *dossier, uint32_t slot, const char *value, const char *text,
                  size_t length, ts_text *out, ts_diagnostics *problems) {
  size_t source = ts_edit_source(dossier, slot);
  const char *name = dossier->sources[source].path;
  char digest[65], path[256];
  *out = (ts_text){0};
  if (!ts_same(ts_digest(text, length, digest), dossier->sources[source].digest)) {
    ts_report(problems, TS_ERROR, name, 0, "was changed meanwhile by somebody else; read it again");
    return false;
  }
  ts_xml *xml = ts_xml_read(text, length, name, problems);
  editor e = {dossier, xml, text, length, (uint32_t)source, out};
  bool good = xml != NULL && !ts_slot_fact(dossier, slot)->derived && put(&e, slot, value);
  if (xml != NULL && !good)
    ts_report(problems, TS_ERROR, name, 0, "\"%s\" has no place in this file to be written at",
              ts_slot_path(dossier, slot, path, sizeof path));
  ts_xml_free(xml);
  return good;
}

bool ts_edit_add_evidence(const char *path, const ts_edit_evidence *evidence, const char *text,
                          size_t length, ts_text *out) {
  static const char end_tag[] = "</dossier";
  const char *end = NULL;
  *out = (ts_text){0};
  for (const char *at = text;
       (at = memmem(at, length - (size_t)(at - text), end_tag, sizeof end_tag - 1)); at++)
    end = at;
  if (end == NULL) return false;
  ts_text_add_n(out, text, (size_t)(end - text));
  ts_text_add(out, "  <evidence");
  add_attribute(out, "for", path);
  add_attribute(out, "kind", evidence->kind);
  add_attribute(out, "by", evidence->by);
  add_attribute(out, "on", evidence->on);
  add_attribute(out, "ref", evidence->ref);
  ts_text_add(out, "/>\n");
  ts_text_add_n(out, end, length - (size_t)(end - text));
  return true;
}
