#include "dossier/rewrite.h"

#include "base/xml.h"
#include "dossier/world.h"
#include <stdlib.h>
#include <string.h>

enum { COLUMNS = 100 };

/* A piece of a source that something else takes the place of. */
typedef struct {
  size_t from, to;
  char *piece; /* in the arena */
  size_t order;
} splice;

typedef struct {
  const char *text;
  size_t length;
  ts_xml *xml; /* NULL: its text was not given */
  splice *splices;
  size_t count, capacity;
} source;

typedef struct {
  const char *name, *value;
  bool declared; /* by a pack: written as <fact/> */
} stated;

struct ts_rewrite_element {
  const char *name;
  stated *facts;
  size_t fact_count, fact_capacity;
  ts_rewrite_element *inside, *next; /* its first child; its next sibling */
  const xmlNode *parent;             /* NULL: in one that is added */
  size_t source, at;                 /* behind what it stands; 0: first in its parent */
};

struct ts_rewrite {
  ts_arena *arena;
  const ts_dossier *dossier;
  ts_diagnostics *problems;
  source *sources;
  ts_rewrite_element **added; /* those that stand in elements that are there */
  size_t added_count, added_capacity;
  ts_rewrite_element **all;
  size_t all_count, all_capacity;
};

ts_rewrite *ts_rewrite_new(const ts_dossier *dossier, ts_diagnostics *problems) {
  ts_rewrite *r = ts_alloc(sizeof *r);
  *r = (ts_rewrite){.arena = ts_arena_new(), .dossier = dossier, .problems = problems};
  r->sources = ts_arena_alloc(r->arena, (dossier->source_count + 1) * sizeof *r->sources);
  return r;
}

void ts_rewrite_free(ts_rewrite *r) {
  for (size_t i = 0; i < r->dossier->source_count; i++) {
    ts_xml_free(r->sources[i].xml);
    free(r->sources[i].splices);
  }
  for (size_t i = 0; i < r->all_count; i++) free(r->all[i]->facts);
  free(r->all);
  free(r->added);
  ts_arena_free(r->arena);
  free(r);
}

bool ts_rewrite_source(ts_rewrite *r, size_t index, const char *text, size_t length) {
  const ts_source *was = &r->dossier->sources[index];
  if (!ts_source_is(was, text, length)) {
    ts_report(r->problems, TS_ERROR, was->path, 0,
              "was changed meanwhile by somebody else; read it again");
    return false;
  }
  ts_xml *xml = ts_xml_read(text, length, was->path, r->problems);
  r->sources[index] = (source){.text = text, .length = length, .xml = xml};
  return xml != NULL;
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
static xmlNode *on_line(const source *in, xmlNode *from, const char *name, int line, size_t *left) {
  for (xmlNode *node = from; node != NULL; node = node->next) {
    if (is_named(node, name) && ts_xml_line(in->xml, node) == line && (*left)-- == 0) return node;
    xmlNode *inside = on_line(in, node->children, name, line, left);
    if (inside != NULL) return inside;
  }
  return NULL;
}

/* NULL where the subject is not written: a part that nobody has said anything of. */
static xmlNode *element_of(const ts_rewrite *r, uint32_t file, ts_subject subject) {
  const ts_subject_entry *entry = &r->dossier->subjects[subject];
  const ts_entity_def *def = entry->info.entity;
  const source *in = &r->sources[file];
  if (def->parent == NULL || entry->file != file || in->xml == NULL) return NULL;
  if (def->single) {
    bool top = entry->info.parent == TS_NO_SUBJECT;
    xmlNode *parent = top ? ts_xml_root(in->xml) : element_of(r, file, entry->info.parent);
    return parent != NULL ? ts_xml_child(parent, def->name) : NULL;
  }
  size_t left = order_on_line(r->dossier, subject);
  return on_line(in, ts_xml_root(in->xml), def->name, entry->info.line, &left);
}

/* ---- pieces of text ------------------------------------------------------------------- */

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

/* Takes the piece, and releases it. */
static void put(ts_rewrite *r, size_t index, size_t from, size_t to, ts_text *piece) {
  source *in = &r->sources[index];
  TS_GROW(in->splices, in->count, in->capacity);
  const char *copy = piece->data ? piece->data : "";
  in->splices[in->count] = (splice){from, to, ts_arena_copy(r->arena, copy), in->count};
  in->count++;
  ts_text_release(piece);
}

/* How far the line on which this offset stands is indented. */
static int indent_at(const char *text, size_t at) {
  while (at > 0 && text[at - 1] != '\n') at--;
  return (int)strspn(text + at, " \t");
}

/* ---- where an element ends ------------------------------------------------------------ */

static size_t behind(const source *in, size_t at, const char *what) {
  const char *found = memmem(in->text + at, in->length - at, what, strlen(what));
  return found ? (size_t)(found - in->text) + strlen(what) : in->length;
}

/* Just after the '>' of the tag that begins at `at`; '>' may stand in a value. */
static size_t behind_tag(const source *in, size_t at) {
  char quote = '\0';
  for (; at < in->length; at++) {
    char c = in->text[at];
    if (quote != '\0')
      quote = c == quote ? '\0' : quote;
    else if (c == '"' || c == '\'')
      quote = c;
    else if (c == '>')
      return at + 1;
  }
  return at;
}

/* Just after the end of the element whose start tag begins at `at`. The text is well-formed. */
static size_t behind_element(const source *in, size_t at) {
  size_t depth = 0;
  while (at < in->length) {
    const char *c = in->text + at;
    if (strncmp(c, "<!--", 4) == 0) {
      at = behind(in, at, "-->");
    } else if (strncmp(c, "<![CDATA[", 9) == 0) {
      at = behind(in, at, "]]>");
    } else if (strncmp(c, "<?", 2) == 0) {
      at = behind(in, at, "?>");
    } else {
      at = behind_tag(in, at);
      bool closes = c[1] == '/', both = in->text[at - 2] == '/';
      depth = closes ? depth - 1 : both ? depth : depth + 1;
    }
    if (depth == 0) return at;
    while (at < in->length && in->text[at] != '<') at++;
  }
  return at;
}

/* ---- new elements --------------------------------------------------------------------- */

static ts_rewrite_element *new_element(ts_rewrite *r, const char *name) {
  ts_rewrite_element *element = ts_arena_alloc(r->arena, sizeof *element);
  element->name = name;
  TS_GROW(r->all, r->all_count, r->all_capacity);
  r->all[r->all_count++] = element;
  return element;
}

static ts_rewrite_element *add_to(ts_rewrite *r, const char *name, const xmlNode *parent,
                                  size_t index, size_t at) {
  ts_rewrite_element *element = new_element(r, name);
  element->parent = parent;
  element->source = index;
  element->at = at;
  TS_GROW(r->added, r->added_count, r->added_capacity);
  r->added[r->added_count++] = element;
  return element;
}

static void state(ts_rewrite *r, ts_rewrite_element *element, const char *name, const char *value,
                  bool declared) {
  TS_GROW(element->facts, element->fact_count, element->fact_capacity);
  element->facts[element->fact_count++] =
      (stated){ts_arena_copy(r->arena, name), ts_arena_copy(r->arena, value), declared};
}

/* What is stated in attributes, wrapped under the first of them. */
static void write_tag(const ts_rewrite_element *element, int indent, ts_text *out) {
  size_t line = out->length;
  ts_text_addf(out, "%*s<%s", indent, "", element->name);
  for (size_t i = 0; i < element->fact_count; i++) {
    const stated *fact = &element->facts[i];
    ts_text one = {0};
    if (fact->declared) continue;
    add_attribute(&one, fact->name, fact->value);
    if (i > 0 && out->length - line + one.length > COLUMNS) {
      ts_text_add(out, "\n");
      line = out->length;
      ts_text_addf(out, "%*s", indent + 1 + (int)strlen(element->name), "");
    }
    if (one.data != NULL) ts_text_add(out, one.data);
    ts_text_release(&one);
  }
}

/* On lines of its own, without the last line's end. */
static void write_element(const ts_rewrite_element *element, int indent, ts_text *out) {
  bool open = element->inside != NULL;
  write_tag(element, indent, out);
  for (size_t i = 0; i < element->fact_count; i++) open = open || element->facts[i].declared;
  ts_text_add(out, open ? ">" : "/>");
  for (size_t i = 0; i < element->fact_count; i++) {
    if (!element->facts[i].declared) continue;
    ts_text_addf(out, "\n%*s<fact", indent + 2, "");
    add_attribute(out, "name", element->facts[i].name);
    add_attribute(out, "value", element->facts[i].value);
    ts_text_add(out, "/>");
  }
  for (const ts_rewrite_element *e = element->inside; e != NULL; e = e->next) {
    ts_text_add(out, "\n");
    write_element(e, indent + 2, out);
  }
  if (open) ts_text_addf(out, "\n%*s</%s>", indent, "", element->name);
}

/* All that is added to one parent, of which `first` is the first. */
static void place(ts_rewrite *r, size_t first) {
  const xmlNode *parent = r->added[first]->parent;
  size_t index = r->added[first]->source, begin, end;
  const source *in = &r->sources[index];
  if (!ts_xml_tag(in->xml, parent, &begin, &end)) return;
  size_t after = end + strspn(in->text + end, " \t\r\n");
  bool empty = in->text[after] == '/';
  int indent = indent_at(in->text, begin);
  ts_text head = {0};
  ts_text_add(&head, ">");
  for (size_t i = first; i < r->added_count; i++) {
    const ts_rewrite_element *one = r->added[i];
    ts_text piece = {0}, *out = empty || one->at == 0 ? &head : &piece;
    if (one->parent != parent) continue;
    ts_text_add(out, "\n");
    write_element(one, indent + 2, out);
    if (out == &piece) put(r, index, one->at, one->at, &piece);
  }
  if (empty) ts_text_addf(&head, "\n%*s</%s>", indent, "", (const char *)parent->name);
  if (head.length > 1)
    put(r, index, end, after + (empty ? 2 : 1), &head);
  else
    ts_text_release(&head);
}

static void place_all(ts_rewrite *r) {
  for (size_t i = 0; i < r->added_count; i++) {
    bool seen = false;
    for (size_t j = 0; j < i && !seen; j++) seen = r->added[j]->parent == r->added[i]->parent;
    if (!seen) place(r, i);
  }
  r->added_count = 0;
}

/* ---- a fact of a subject that is there ------------------------------------------------ */

static void put_attribute(ts_rewrite *r, size_t index, const xmlNode *element, const char *name,
                          const char *value) {
  const source *in = &r->sources[index];
  size_t begin, end;
  ts_text piece = {0};
  if (ts_xml_value(in->xml, element, name, &begin, &end)) {
    add_escaped(&piece, value);
    put(r, index, begin, end, &piece);
  } else if (ts_xml_tag(in->xml, element, &begin, &end)) {
    while (strchr(" \t\r\n", in->text[end - 1]) != NULL) end--;
    add_attribute(&piece, name, value);
    put(r, index, end, end, &piece);
  }
}

/* A fact that a pack declares: <fact name="" value=""/>. */
static void put_declared(ts_rewrite *r, size_t index, const xmlNode *element, const char *name,
                         const char *value) {
  for (xmlNode *child = element->children; child != NULL; child = child->next) {
    if (!is_named(child, "fact")) continue;
    xmlChar *own = xmlGetNoNsProp(child, BAD_CAST "name");
    bool same = ts_same((const char *)own, name);
    xmlFree(own);
    if (same) {
      put_attribute(r, index, child, "value", value);
      return;
    }
  }
  ts_rewrite_element *fact = add_to(r, "fact", element, index, 0);
  state(r, fact, "name", name, false);
  state(r, fact, "value", value, false);
}

/* A part that nobody had said anything of is begun once. */
static void put_in_new_part(ts_rewrite *r, size_t index, const xmlNode *parent, const char *part,
                            const char *name, const char *value) {
  ts_rewrite_element *element = NULL;
  for (size_t i = 0; i < r->added_count && element == NULL; i++)
    if (r->added[i]->parent == parent && ts_same(r->added[i]->name, part)) element = r->added[i];
  if (element == NULL) element = add_to(r, part, parent, index, 0);
  state(r, element, name, value, false);
}

bool ts_rewrite_fact(ts_rewrite *r, uint32_t slot, const char *value) {
  ts_subject subject = r->dossier->owners[slot];
  const ts_subject_entry *entry = &r->dossier->subjects[subject];
  const ts_subject_info *info = &entry->info;
  const ts_known_fact *fact = ts_world_known(r->dossier, slot);
  const xmlNode *element = element_of(r, entry->file, subject), *parent = NULL;
  char path[256];
  if (element == NULL && info->entity->single && info->parent != TS_NO_SUBJECT)
    parent = element_of(r, entry->file, info->parent);
  if (fact->def->derived || (element == NULL && (parent == NULL || fact->added))) {
    ts_report(r->problems, TS_ERROR, r->dossier->sources[entry->file].path, 0,
              "\"%s\" has no place in this file to be written at",
              ts_slot_path(r->dossier, slot, path, sizeof path));
    return false;
  }
  if (element == NULL)
    put_in_new_part(r, entry->file, parent, info->entity->name, fact->def->name, value);
  else if (fact->added)
    put_declared(r, entry->file, element, fact->def->name, value);
  else
    put_attribute(r, entry->file, element, fact->def->name, value);
  return true;
}

/* ---- subjects that are new ------------------------------------------------------------ */

/* Behind which of the parent's elements one of an entity belongs: the last of its like, else the
 * last that the vocabulary has before it; NULL: first. */
static const xmlNode *predecessor(const ts_vocabulary *vocabulary, const xmlNode *parent,
                                  uint32_t entity) {
  const xmlNode *found = NULL;
  for (const xmlNode *node = parent->children; node != NULL; node = node->next) {
    if (node->type != XML_ELEMENT_NODE) continue;
    uint32_t other = ts_names_get(&vocabulary->entity_names, (const char *)node->name);
    if (other != TS_ABSENT && other <= entity) found = node;
  }
  return found;
}

/* Where what stands at the top of the dossier goes: into the file that has the last of its like. */
static size_t source_of_top(const ts_dossier *dossier, uint32_t entity) {
  size_t found = 0;
  for (ts_subject s = 0; s < dossier->subject_count; s++)
    if (dossier->subjects[s].entity == entity) found = dossier->subjects[s].file;
  return found;
}

ts_rewrite_element *ts_rewrite_add(ts_rewrite *r, const ts_entity_def *entity, ts_subject parent,
                                   ts_rewrite_element *in) {
  const ts_vocabulary *vocabulary = r->dossier->vocabulary;
  uint32_t number = (uint32_t)ts_entity_index(vocabulary, entity);
  if (in != NULL) {
    ts_rewrite_element **last = &in->inside;
    while (*last != NULL) last = &(*last)->next;
    return *last = new_element(r, entity->name);
  }
  bool top = parent == TS_NO_SUBJECT;
  size_t index = top ? source_of_top(r->dossier, number) : r->dossier->subjects[parent].file;
  const source *into = &r->sources[index];
  const xmlNode *element = !into->xml ? NULL
                           : top      ? ts_xml_root(into->xml)
                                      : element_of(r, (uint32_t)index, parent);
  if (element == NULL) {
    ts_report(r->problems, TS_ERROR, r->dossier->sources[index].path, 0,
              "there is no place in this file for a new \"%s\"", entity->name);
    return NULL;
  }
  const xmlNode *before = predecessor(vocabulary, element, number);
  size_t begin = 0, end;
  bool behind_it = before != NULL && ts_xml_tag(into->xml, before, &begin, &end);
  return add_to(r, entity->name, element, index, behind_it ? behind_element(into, begin) : 0);
}

void ts_rewrite_say(ts_rewrite *r, ts_rewrite_element *element, const ts_fact_def *fact,
                    const char *value) {
  state(r, element, fact->name, value, ts_known(r->dossier->vocabulary, fact)->added);
}

/* ---- evidence, and the whole ---------------------------------------------------------- */

void ts_rewrite_evidence_text(const char *path, const ts_edit_evidence *evidence, ts_text *out) {
  ts_text_add(out, "  <evidence");
  add_attribute(out, "for", path);
  add_attribute(out, "kind", evidence->kind);
  add_attribute(out, "by", evidence->by);
  add_attribute(out, "on", evidence->on);
  add_attribute(out, "ref", evidence->ref);
  ts_text_add(out, "/>\n");
}

void ts_rewrite_evidence(ts_rewrite *r, size_t index, const char *path,
                         const ts_edit_evidence *evidence) {
  const source *in = &r->sources[index];
  size_t begin, end;
  ts_text piece = {0};
  if (!ts_xml_tag(in->xml, ts_xml_root(in->xml), &begin, &end)) return;
  size_t at = behind_element(in, begin);
  while (at > begin && in->text[at - 1] != '<') at--;
  ts_rewrite_evidence_text(path, evidence, &piece);
  put(r, index, at - 1, at - 1, &piece);
}

static int by_offset(const void *a, const void *b) {
  const splice *one = a, *other = b;
  if (one->from != other->from) return one->from < other->from ? -1 : 1;
  return one->order < other->order ? -1 : 1;
}

bool ts_rewrite_text(ts_rewrite *r, size_t index, ts_text *out) {
  source *in = &r->sources[index];
  size_t at = 0;
  *out = (ts_text){0};
  place_all(r);
  if (in->count == 0) return false;
  qsort(in->splices, in->count, sizeof *in->splices, by_offset);
  for (size_t i = 0; i < in->count; i++) {
    const splice *s = &in->splices[i];
    ts_text_add_n(out, in->text + at, s->from - at);
    ts_text_add(out, s->piece);
    at = s->to;
  }
  ts_text_add_n(out, in->text + at, in->length - at);
  return true;
}
