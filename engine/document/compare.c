/* What went into two assessments, and what of it is not the same. */
#include "document/compare.h"

#include "base/text.h"
#include "document/transform.h"
#include "tankside/document.h"

#include <stdlib.h>
#include <string.h>

/* ---- nodes --------------------------------------------------------------------------- */

const char *ts_node_text(ts_comparison *c, const xmlNode *node, const char *name) {
  const xmlAttr *attribute = node ? xmlHasProp((xmlNode *)node, BAD_CAST name) : NULL;
  const xmlNode *text = attribute ? attribute->children : NULL;
  if (text == NULL) return "";
  if (text->next == NULL && text->type == XML_TEXT_NODE) return (const char *)text->content;
  xmlChar *whole = xmlNodeListGetString(node->doc, text, 1);
  const char *copy = ts_arena_copy(c->arena, whole ? (const char *)whole : "");
  xmlFree(whole);
  return copy;
}

const xmlNode *ts_node_child(const xmlNode *node, const char *name) {
  return ts_xml_child(node, name);
}

const xmlNode *ts_node_next(const xmlNode *node) {
  return ts_xml_next(node, (const char *)node->name);
}

/* ---- differences --------------------------------------------------------------------- */

ts_difference *ts_difference_of(const ts_differences *all, const char *key) {
  /* The table holds places counted from 1: the items move while they grow. */
  size_t place = (size_t)xmlHashLookup(all->by_key, BAD_CAST key);
  return place > 0 ? &all->items[place - 1] : NULL;
}

const char *ts_difference_word(const ts_difference *d) {
  return d->node[OLD] == NULL ? "came" : d->node[NEW] == NULL ? "went" : "changed";
}

static void differs(ts_differences *all, const char *key, const xmlNode *old, const xmlNode *new) {
  if (xmlHashAddEntry(all->by_key, BAD_CAST key, (void *)(all->count + 1)) != 0) return;
  TS_GROW(all->items, all->count, all->capacity);
  all->items[all->count++] = (ts_difference){.node = {old, new}};
}

static bool same_in(ts_comparison *c, const xmlNode *a, const xmlNode *b,
                    const char *const *names) {
  for (; *names != NULL; names++)
    if (!ts_same(ts_node_text(c, a, *names), ts_node_text(c, b, *names))) return false;
  return true;
}

/* ---- one kind of thing, on both sides --------------------------------------------------- */

/* What is compared: where each stands, what it is known by, and what of it matters. */
typedef struct {
  void (*each)(ts_comparison *c, const xmlNode *root,
               void (*visit)(ts_comparison *c, const char *key, const xmlNode *node, void *into),
               void *into);
  const char *const *matters;
} kind;

static void index_one(ts_comparison *c, const char *key, const xmlNode *node, void *into) {
  (void)c;
  xmlHashAddEntry(into, BAD_CAST key, (void *)node);
}

typedef struct {
  const kind *of;
  xmlHashTable *old;
  ts_differences *all;
} match;

/* What is left of the old side's table when the new side has been through is gone. */
static void match_new(ts_comparison *c, const char *key, const xmlNode *node, void *into) {
  match *m = into;
  const xmlNode *old = xmlHashLookup(m->old, BAD_CAST key);
  if (old == NULL || !same_in(c, old, node, m->of->matters)) differs(m->all, key, old, node);
  if (old != NULL) xmlHashRemoveEntry(m->old, BAD_CAST key, NULL);
}

static void match_old(ts_comparison *c, const char *key, const xmlNode *node, void *into) {
  (void)c;
  match *m = into;
  if (xmlHashLookup(m->old, BAD_CAST key) == node) differs(m->all, key, node, NULL);
}

static void compare(ts_comparison *c, const kind *of, ts_differences *all) {
  match m = {of, xmlHashCreate(0), all};
  all->by_key = xmlHashCreate(0);
  of->each(c, c->root[OLD], index_one, m.old);
  of->each(c, c->root[NEW], match_new, &m);
  of->each(c, c->root[OLD], match_old, &m);
  xmlHashFree(m.old, NULL);
}

typedef void (*visitor)(ts_comparison *c, const char *key, const xmlNode *node, void *into);

static void each_fact(ts_comparison *c, const xmlNode *root, visitor visit, void *into) {
  const xmlNode *subject = ts_node_child(ts_node_child(root, "subjects"), "subject");
  for (; subject != NULL; subject = ts_node_next(subject)) {
    const char *path = ts_node_text(c, subject, "path");
    const xmlNode *fact = ts_node_child(subject, "fact");
    for (; fact != NULL; fact = ts_node_next(fact))
      visit(c, ts_arena_printf(c->arena, "%s/%s", path, ts_node_text(c, fact, "name")), fact, into);
  }
}

static void each_applied(ts_comparison *c, const xmlNode *root, visitor visit, void *into) {
  const xmlNode *control = ts_node_child(ts_node_child(root, "controls"), "control");
  for (; control != NULL; control = ts_node_next(control)) {
    const xmlNode *applied = ts_node_child(control, "applied");
    for (; applied != NULL; applied = ts_node_next(applied))
      visit(c,
            ts_arena_printf(c->arena, "%s %s", ts_node_text(c, control, "ref"),
                            ts_node_text(c, applied, "subject")),
            applied, into);
  }
}

static void each_input(ts_comparison *c, const xmlNode *root, const char *name, visitor visit,
                       void *into) {
  const xmlNode *input = ts_node_child(ts_node_child(root, "inputs"), name);
  for (; input != NULL; input = ts_node_next(input))
    visit(c,
          ts_arena_printf(c->arena, "%s/%s%s", ts_node_text(c, input, "pack"),
                          ts_node_text(c, input, "file"), ts_node_text(c, input, "path")),
          input, into);
}

static void each_file(ts_comparison *c, const xmlNode *root, visitor visit, void *into) {
  each_input(c, root, "rules", visit, into);
}

static void each_set(ts_comparison *c, const xmlNode *root, visitor visit, void *into) {
  each_input(c, root, "set", visit, into);
}

/* What nobody has said yet; a stated fact that is wide is no news when it stays so. */
static void each_question(ts_comparison *c, const xmlNode *root, visitor visit, void *into) {
  const xmlNode *fact = ts_node_child(ts_node_child(root, "open-facts"), "fact");
  for (; fact != NULL; fact = ts_node_next(fact))
    if (ts_same(ts_node_text(c, fact, "state"), "unknown"))
      visit(c, ts_node_text(c, fact, "path"), fact, into);
}

static const kind fact_kind = {each_fact, (const char *const[]){"text", "state", "assumed", NULL}};
static const kind applied_kind = {each_applied, (const char *const[]){"state", "to", NULL}};
static const kind file_kind = {each_file, (const char *const[]){"sha256", NULL}};
static const kind set_kind = {each_set, (const char *const[]){"value", NULL}};
static const kind question_kind = {each_question, (const char *const[]){NULL}};

static bool matrix_differs(ts_comparison *c) {
  const xmlNode *of[BOTH];
  for (int s = OLD; s < BOTH; s++)
    of[s] = ts_node_child(ts_node_child(c->root[s], "inputs"), "matrix");
  return !same_in(c, of[OLD], of[NEW], (const char *const[]){"sha256", NULL});
}

static void index_subjects(ts_comparison *c, int side) {
  const xmlNode *subject = ts_node_child(ts_node_child(c->root[side], "subjects"), "subject");
  c->subjects[side] = xmlHashCreate(0);
  for (; subject != NULL; subject = ts_node_next(subject))
    xmlHashAddEntry(c->subjects[side], BAD_CAST ts_node_text(c, subject, "path"), (void *)subject);
}

static void find_differences(ts_comparison *c) {
  compare(c, &fact_kind, &c->facts);
  compare(c, &applied_kind, &c->applied);
  compare(c, &file_kind, &c->files);
  compare(c, &set_kind, &c->sets);
  compare(c, &question_kind, &c->asked);
  c->matrix = matrix_differs(c);
  c->program = !same_in(c, c->root[OLD], c->root[NEW], (const char *const[]){"tankside", NULL});
  for (int s = OLD; s < BOTH; s++) index_subjects(c, s);
}

/* ---- writing --------------------------------------------------------------------------- */

void ts_write_both(ts_comparison *c, const ts_difference *d, const char *attribute) {
  if (d->node[OLD] != NULL)
    ts_xml_attribute(&c->out, "old", ts_node_text(c, d->node[OLD], attribute));
  if (d->node[NEW] != NULL)
    ts_xml_attribute(&c->out, "new", ts_node_text(c, d->node[NEW], attribute));
}

static const xmlNode *one_of(const ts_difference *d) {
  return d->node[NEW] ? d->node[NEW] : d->node[OLD];
}

static void write_facts(ts_comparison *c) {
  ts_xml_start(&c->out, "facts");
  for (size_t i = 0; i < c->facts.count; i++) {
    const ts_difference *d = &c->facts.items[i];
    const xmlNode *fact = one_of(d), *subject = fact->parent;
    ts_xml_start(&c->out, "fact");
    ts_xml_attribute(&c->out, "change", ts_difference_word(d));
    ts_xml_attributef(&c->out, "path", "%s/%s", ts_node_text(c, subject, "path"),
                      ts_node_text(c, fact, "name"));
    ts_xml_attribute(&c->out, "title", ts_node_text(c, fact, "title"));
    ts_xml_attribute(&c->out, "subject-label", ts_node_text(c, subject, "label"));
    ts_xml_attribute(&c->out, "state", ts_node_text(c, fact, "state"));
    ts_xml_attribute(&c->out, "sees", ts_node_text(c, fact, "sees"));
    ts_xml_attribute(&c->out, "matters", d->noted ? "yes" : "no");
    ts_write_both(c, d, "text");
    ts_xml_end(&c->out);
  }
  ts_xml_end(&c->out);
}

static void write_applied(ts_comparison *c) {
  ts_xml_start(&c->out, "controls");
  for (size_t i = 0; i < c->applied.count; i++) {
    const ts_difference *d = &c->applied.items[i];
    const xmlNode *applied = one_of(d);
    ts_xml_start(&c->out, "control");
    ts_xml_attribute(&c->out, "change", ts_difference_word(d));
    ts_xml_attribute(&c->out, "ref", ts_node_text(c, applied->parent, "ref"));
    ts_xml_attribute(&c->out, "title", ts_node_text(c, applied->parent, "title"));
    ts_xml_attribute(&c->out, "subject", ts_node_text(c, applied, "subject"));
    ts_xml_attribute(&c->out, "subject-label", ts_node_text(c, applied, "subject-label"));
    ts_write_both(c, d, "state");
    ts_xml_end(&c->out);
  }
  ts_xml_end(&c->out);
}

static void write_input(ts_comparison *c, const char *of, const char *change, const char *name) {
  ts_xml_start(&c->out, "input");
  ts_xml_attribute(&c->out, "kind", of);
  ts_xml_attribute(&c->out, "change", change);
  ts_xml_attribute(&c->out, "name", name);
}

static void write_inputs(ts_comparison *c) {
  ts_xml_start(&c->out, "inputs");
  for (size_t i = 0; i < c->files.count; i++) {
    const ts_difference *d = &c->files.items[i];
    const xmlNode *file = one_of(d);
    const char *name = ts_arena_printf(c->arena, "%s/%s", ts_node_text(c, file, "pack"),
                                       ts_node_text(c, file, "file"));
    write_input(c, "rules", ts_difference_word(d), name);
    ts_xml_end(&c->out);
  }
  for (size_t i = 0; i < c->sets.count; i++) {
    const ts_difference *d = &c->sets.items[i];
    write_input(c, "set", ts_difference_word(d), ts_node_text(c, one_of(d), "path"));
    ts_write_both(c, d, "value");
    ts_xml_end(&c->out);
  }
  if (c->matrix) write_input(c, "matrix", "changed", ""), ts_xml_end(&c->out);
  if (c->program) write_input(c, "program", "changed", ""), ts_xml_end(&c->out);
  ts_xml_end(&c->out);
}

/* Waivers are compared whole: who, until when and why all matter to a reader. */
static const char *waiver_key(ts_comparison *c, const xmlNode *waiver) {
  static const char *const parts[] = {"rule", "subject", "by", "until", "because"};
  ts_text key = {0};
  for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
    ts_text_addf(&key, "%s\n", ts_node_text(c, waiver, parts[i]));
  const char *kept = ts_arena_copy(c->arena, key.data);
  ts_text_release(&key);
  return kept;
}

static void write_waivers_not_in(ts_comparison *c, int side, const char *change) {
  const xmlNode *waiver = ts_node_child(ts_node_child(c->root[1 - side], "waivers"), "waiver");
  xmlHashTable *other = xmlHashCreate(0);
  for (; waiver != NULL; waiver = ts_node_next(waiver))
    xmlHashAddEntry(other, BAD_CAST waiver_key(c, waiver), (void *)waiver);
  waiver = ts_node_child(ts_node_child(c->root[side], "waivers"), "waiver");
  for (; waiver != NULL; waiver = ts_node_next(waiver)) {
    if (xmlHashLookup(other, BAD_CAST waiver_key(c, waiver)) != NULL) continue;
    ts_xml_start(&c->out, "waiver");
    ts_xml_attribute(&c->out, "change", change);
    ts_xml_attribute(&c->out, "rule", ts_node_text(c, waiver, "rule"));
    ts_xml_attribute(&c->out, "by", ts_node_text(c, waiver, "by"));
    ts_xml_attribute(&c->out, "until", ts_node_text(c, waiver, "until"));
    ts_xml_attribute(&c->out, "because", ts_node_text(c, waiver, "because"));
    ts_xml_end(&c->out);
  }
  xmlHashFree(other, NULL);
}

static void write_waivers(ts_comparison *c) {
  ts_xml_start(&c->out, "waivers");
  write_waivers_not_in(c, NEW, "came");
  write_waivers_not_in(c, OLD, "went");
  ts_xml_end(&c->out);
}

static void write_questions(ts_comparison *c) {
  static const char *const copied[] = {"path", "meaning", "asked"};
  ts_xml_start(&c->out, "questions");
  for (size_t i = 0; i < c->asked.count; i++) {
    const ts_difference *d = &c->asked.items[i];
    ts_xml_start(&c->out, "question");
    ts_xml_attribute(&c->out, "change", ts_difference_word(d));
    for (size_t k = 0; k < sizeof copied / sizeof copied[0]; k++)
      ts_xml_attribute(&c->out, copied[k], ts_node_text(c, one_of(d), copied[k]));
    ts_xml_end(&c->out);
  }
  ts_xml_end(&c->out);
}

/* The headline of each side, as the assessment has it. */
static void write_side(ts_comparison *c, int side) {
  static const char *const counts[] = {"tankside",       "complete",    "stops",  "above", "open",
                                       "duties-not-met", "duties-open", "waived", "failed"};
  static const char *const names[] = {"title", "reference", "revision", "on", "by"};
  const xmlNode *root = c->root[side], *production = ts_node_child(root, "production");
  ts_xml_start(&c->out, side == OLD ? "old" : "new");
  for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++)
    ts_xml_attribute(&c->out, counts[i], ts_node_text(c, root, counts[i]));
  for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
    ts_xml_attribute(&c->out, names[i], ts_node_text(c, production, names[i]));
  ts_xml_attribute(
      &c->out, "digest",
      ts_node_text(c, ts_node_child(ts_node_child(root, "inputs"), "digest"), "sha256"));
  ts_xml_end(&c->out);
}

/* An element as it is. */
static void write_copy(ts_comparison *c, const xmlNode *node) {
  if (node == NULL) return;
  ts_xml_start(&c->out, (const char *)node->name);
  for (const xmlAttr *a = node->properties; a != NULL; a = a->next)
    ts_xml_attribute(&c->out, (const char *)a->name, ts_node_text(c, node, (const char *)a->name));
  for (const xmlNode *child = node->children; child != NULL; child = child->next)
    if (child->type == XML_ELEMENT_NODE) write_copy(c, child);
  ts_xml_end(&c->out);
}

static void write_comparison(ts_comparison *c) {
  ts_xml_begin(&c->out);
  ts_xml_start(&c->out, "comparison");
  ts_xml_attribute(&c->out, "format", "1");
  write_side(c, OLD);
  write_side(c, NEW);
  write_copy(c, ts_node_child(c->root[NEW], "production"));
  write_copy(c, ts_node_child(c->root[NEW], "matrix"));
  ts_compare_findings(c); /* first: it finds which differences mattered */
  write_facts(c);
  write_applied(c);
  write_inputs(c);
  write_waivers(c);
  write_questions(c);
  ts_xml_end(&c->out);
}

static void release(ts_comparison *c) {
  ts_differences *const all[] = {&c->facts, &c->applied, &c->files, &c->sets, &c->asked};
  for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
    xmlHashFree(all[i]->by_key, NULL);
    free(all[i]->items);
  }
  for (int s = OLD; s < BOTH; s++) xmlHashFree(c->subjects[s], NULL);
  ts_arena_free(c->arena);
}

bool ts_compare(const char *const bytes[2], const size_t lengths[2], const char *const names[2],
                char **xml, size_t *length, ts_diagnostics *problems) {
  ts_xml *read[BOTH];
  *xml = NULL;
  for (int s = OLD; s < BOTH; s++)
    read[s] = ts_document_open_as("assessment", bytes[s], lengths[s], names[s], problems);
  if (read[OLD] != NULL && read[NEW] != NULL) {
    ts_comparison c = {.arena = ts_arena_new(),
                       .root = {ts_xml_root(read[OLD]), ts_xml_root(read[NEW])}};
    find_differences(&c);
    write_comparison(&c);
    release(&c);
    *xml = c.out.text.data;
    *length = c.out.text.length;
  }
  for (int s = OLD; s < BOTH; s++) ts_xml_free(read[s]);
  return *xml != NULL;
}
