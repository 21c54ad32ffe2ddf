/* Withholding: what a rule calls discreet is taken out of an assessment before it becomes a paper
 * for readers who may not see what is confidential. That something stands there, how it scores
 * and in which task is left; what it is, of whom, why and what would help is not. */
#include "document/withhold.h"

#include "base/arena.h"
#include "base/text.h"
#include "document/transform.h"
#include <libxml/hash.h>
#include <stdlib.h>

typedef struct {
  xmlNode **nodes; /* findings and duties that are discreet */
  size_t count, capacity;
  const char *neutral;        /* what stands in their place */
  xmlHashTable *ids, *titles; /* theirs: sets, so that a long assessment is gone through once */
} discreet;

static void add_to(xmlHashTable *set, const xmlNode *node, const char *attribute) {
  xmlChar *text = xmlGetNoNsProp(node, BAD_CAST attribute);
  if (text) xmlHashUpdateEntry(set, text, (void *)node, NULL);
  xmlFree(text);
}

static bool is_in(xmlHashTable *set, const xmlNode *node, const char *attribute) {
  xmlChar *text = xmlGetNoNsProp(node, BAD_CAST attribute);
  bool there = text && xmlHashLookup(set, text) != NULL;
  xmlFree(text);
  return there;
}

static bool is_element(const xmlNode *node, const char *name) {
  return node->type == XML_ELEMENT_NODE && ts_same((const char *)node->name, name);
}

static bool has(const xmlNode *node, const char *attribute, const char *value) {
  xmlChar *text = xmlGetNoNsProp(node, BAD_CAST attribute);
  bool same = text && ts_same((const char *)text, value);
  xmlFree(text);
  return same;
}

static void gather(discreet *all, xmlNode *node) {
  for (; node; node = node->next) {
    if (node->type != XML_ELEMENT_NODE) continue;
    if (has(node, "discreet", "yes")) {
      TS_GROW(all->nodes, all->count, all->capacity);
      all->nodes[all->count++] = node;
      add_to(all->ids, node, "id");
      add_to(all->titles, node, "title");
    } else {
      gather(all, node->children);
    }
  }
}

static void put(xmlNode *node, const char *attribute, const char *text) {
  if (xmlHasProp(node, BAD_CAST attribute)) xmlSetProp(node, BAD_CAST attribute, BAD_CAST text);
}

/* ---- other places that speak of it: what a change would do elsewhere, what stays above ---- */

/* By its id; or, where it would be new and has none, by its title among what would change. */
static bool tells_of(const discreet *all, const xmlNode *node) {
  return is_in(all->ids, node, "finding") ||
         (xmlHasProp(node, BAD_CAST "words") && is_in(all->titles, node, "title"));
}

static void hush(const discreet *all, xmlNode *node) {
  for (; node; node = node->next) {
    if (node->type != XML_ELEMENT_NODE || has(node, "discreet", "yes")) continue;
    if (tells_of(all, node)) {
      put(node, "title", all->neutral);
      put(node, "words", all->neutral);
      put(node, "subject-label", "");
    }
    hush(all, node->children);
  }
}

/* ---- what would help ------------------------------------------------------------------------ */

/* The controls that discreet findings name, or the others. */
static xmlHashTable *controls_named(const xmlNode *findings, bool discreetly) {
  xmlHashTable *set = xmlHashCreate(0);
  for (const xmlNode *it = findings->children; it; it = it->next) {
    if (it->type != XML_ELEMENT_NODE || has(it, "discreet", "yes") != discreetly) continue;
    for (const xmlNode *child = it->children; child; child = child->next)
      if (is_element(child, "control")) add_to(set, child, "ref");
  }
  return set;
}

/* In the remedies of tasks: elsewhere controls stand with the finding they are for. A control that
 * bears on nothing else gives away what it is for. */
static void hush_remedies(const discreet *all, const xmlNode *findings, xmlNode *remedies) {
  xmlHashTable *theirs = controls_named(findings, true), *others = controls_named(findings, false);
  for (xmlNode *remedy = remedies->children; remedy; remedy = remedy->next)
    for (xmlNode *part = remedy->children; part; part = part->next)
      if (is_element(part, "control") && is_in(theirs, part, "ref") && !is_in(others, part, "ref"))
        put(part, "title", all->neutral);
  xmlHashFree(theirs, NULL);
  xmlHashFree(others, NULL);
}

static xmlNode *child_of(xmlNode *root, const char *name) {
  xmlNode *child = root->children;
  while (child && !is_element(child, name)) child = child->next;
  return child;
}

/* ---- values given for this run --------------------------------------------------------- */

static bool is_confidential(const xmlNode *node, const char *path) {
  for (; node; node = node->next) {
    if (node->type != XML_ELEMENT_NODE) continue;
    if (has(node, "path", path) && has(node, "sees", "confidential")) return true;
    if (is_confidential(node->children, path)) return true;
  }
  return false;
}

static void hush_inputs(const xmlNode *root, xmlNode *inputs) {
  for (xmlNode *set = inputs->children; set; set = set->next) {
    xmlChar *path = is_element(set, "set") ? xmlGetNoNsProp(set, BAD_CAST "path") : NULL;
    if (path && is_confidential(root->children, (const char *)path)) {
      put(set, "path", "(withheld)");
      put(set, "value", "(withheld)");
    }
    xmlFree(path);
  }
}

/* ---- the thing itself ------------------------------------------------------------------- */

static void drop_attributes(xmlNode *node) {
  static const char *const names[] = {"about",          "harm",     "who",        "reasoning",
                                      "waived-because", "evidence", "instrument", "section"};
  for (size_t i = 0; i < sizeof names / sizeof *names; i++) xmlUnsetProp(node, BAD_CAST names[i]);
}

static void drop_children(xmlNode *node) {
  for (xmlNode *child = node->children, *next; child; child = next) {
    next = child->next;
    if (is_element(child, "score")) continue;
    xmlUnlinkNode(child);
    xmlFreeNode(child);
  }
}

/* It belongs to the task, where there is one, and to nobody in it. */
static void drop_person(xmlNode *node) {
  xmlChar *task = xmlGetNoNsProp(node, BAD_CAST "task");
  if (task) put(node, "subject", (const char *)task);
  put(node, "subject-label", "");
  xmlFree(task);
}

/* The root of an assessment in another language carries its own. */
static const char *neutral_words(ts_arena *arena, const xmlNode *root) {
  xmlChar *words = xmlGetNoNsProp(root, BAD_CAST "withheld");
  const char *said =
      words ? ts_arena_copy(arena, (const char *)words) : ts_language_word(arena, "withheld-title");
  xmlFree(words);
  return said;
}

void ts_document_withhold(xmlNode *root) {
  ts_arena *arena = ts_arena_new();
  discreet all = {.ids = xmlHashCreate(0), .titles = xmlHashCreate(0)};
  gather(&all, root->children);
  if (all.count) all.neutral = neutral_words(arena, root);
  xmlNode *findings = child_of(root, "findings"), *remedies = child_of(root, "remedies");
  xmlNode *inputs = child_of(root, "inputs");
  if (inputs) hush_inputs(root, inputs);
  if (all.count) hush(&all, root->children);
  if (all.count && findings && remedies) hush_remedies(&all, findings, remedies);
  for (size_t i = 0; i < all.count; i++) {
    xmlNode *node = all.nodes[i];
    put(node, "title", all.neutral);
    put(node, "rule", "withheld"); /* one line on paper for all of them */
    put(node, "file", "");
    drop_attributes(node);
    drop_children(node);
    drop_person(node);
  }
  xmlHashFree(all.ids, NULL);
  xmlHashFree(all.titles, NULL);
  free(all.nodes);
  ts_arena_free(arena);
}
