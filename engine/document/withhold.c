/* Withholding: what a rule calls discreet is taken out of an assessment before it becomes a paper
 * for readers who may not see what is confidential. That something stands there, how it scores
 * and in which task is left; what it is, of whom, why and what would help is not. */
#include "document/withhold.h"

#include "base/arena.h"
#include "base/text.h"
#include <stdlib.h>

/* Unless the root of an assessment in another language carries its own words. */
static const char neutral[] = "Withheld: ask the safety officer";

typedef struct {
  xmlNode **nodes; /* findings and duties that are discreet */
  size_t count, capacity;
  const char *neutral; /* what stands in their place */
} discreet;

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
static bool tells_of(const xmlNode *node, const xmlNode *it) {
  xmlChar *title = xmlGetNoNsProp(it, BAD_CAST "title"), *id = xmlGetNoNsProp(it, BAD_CAST "id");
  bool change = xmlHasProp(node, BAD_CAST "words") != NULL;
  bool tells = (change && title && has(node, "title", (const char *)title)) ||
               (id && has(node, "finding", (const char *)id));
  xmlFree(title);
  xmlFree(id);
  return tells;
}

static void hush(const discreet *all, xmlNode *node) {
  for (; node; node = node->next) {
    if (node->type != XML_ELEMENT_NODE || has(node, "discreet", "yes")) continue;
    for (size_t i = 0; i < all->count; i++) {
      if (!tells_of(node, all->nodes[i])) continue;
      put(node, "title", all->neutral);
      put(node, "words", all->neutral);
      put(node, "subject-label", "");
      break;
    }
    hush(all, node->children);
  }
}

/* ---- what would help ------------------------------------------------------------------------ */

static bool names_control(const xmlNode *finding, const char *ref) {
  for (const xmlNode *child = finding->children; child; child = child->next)
    if (is_element(child, "control") && has(child, "ref", ref)) return true;
  return false;
}

/* A control that bears on nothing else gives away what it is for. */
static bool only_for_discreet(const xmlNode *findings, const char *ref) {
  bool named = false;
  for (const xmlNode *it = findings->children; it; it = it->next) {
    if (it->type != XML_ELEMENT_NODE || !names_control(it, ref)) continue;
    if (!has(it, "discreet", "yes")) return false;
    named = true;
  }
  return named;
}

static void hush_control(const discreet *all, const xmlNode *findings, xmlNode *control) {
  xmlChar *ref = xmlGetNoNsProp(control, BAD_CAST "ref");
  if (ref && only_for_discreet(findings, (const char *)ref)) put(control, "title", all->neutral);
  xmlFree(ref);
}

/* In the remedies of tasks: elsewhere controls stand with the finding they are for. */
static void hush_remedies(const discreet *all, const xmlNode *findings, xmlNode *remedies) {
  for (xmlNode *remedy = remedies->children; remedy; remedy = remedy->next)
    for (xmlNode *part = remedy->children; part; part = part->next)
      if (is_element(part, "control")) hush_control(all, findings, part);
}

static xmlNode *child_of(xmlNode *root, const char *name) {
  xmlNode *child = root->children;
  while (child && !is_element(child, name)) child = child->next;
  return child;
}

/* ---- values given for this run ----------------------------------------------------------------
 */

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

void ts_document_withhold(xmlNode *root) {
  xmlChar *words = xmlGetNoNsProp(root, BAD_CAST "withheld");
  discreet all = {.neutral = words ? (const char *)words : neutral};
  gather(&all, root->children);
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
  free(all.nodes);
  xmlFree(words);
}
