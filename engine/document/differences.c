#include "document/differences.h"

#include "base/arena.h"
#include "base/text.h"
#include "document/transform.h"
#include "tankside/document.h"
#include <libxml/hash.h>
#include <string.h>

typedef struct {
  ts_arena *arena;
  const ts_xml *given;
  const char *name, *from; /* of the file; what it follows from */
  bool page;               /* of HTML: elements are known by id, or by their order */
  size_t limit, count;
  ts_diagnostics *problems;
} tour;

static void wrong(tour *t, int line, const char *what) {
  if (t->count++ < t->limit) ts_report(t->problems, TS_ERROR, t->name, line, "%s", what);
}

static bool is_element(const xmlNode *node) { return node->type == XML_ELEMENT_NODE; }

static const char *value_of(tour *t, const xmlNode *node, const char *name) {
  xmlChar *value = xmlGetNoNsProp((xmlNode *)node, BAD_CAST name);
  const char *kept = ts_arena_copy(t->arena, (const char *)value);
  xmlFree(value);
  return kept;
}

static const char *or_nothing(const char *text) { return text ? text : ""; }

/* What an element is known by: the first of these that it has. */
static const char *known_by(tour *t, const xmlNode *node) {
  if (t->page) return or_nothing(value_of(t, node, "id"));
  static const char *const names[] = {"id",      "path",  "ref",    "rule", "name",    "file", "as",
                                      "finding", "level", "person", "task", "subject", "date"};
  for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
    const char *value = value_of(t, node, names[i]);
    if (value != NULL) return value;
  }
  return "";
}

static bool is_root(const xmlNode *node) {
  return node->parent == NULL || node->parent->type != XML_ELEMENT_NODE;
}

/* The how manieth of its name, where there are more: " 3". */
static const char *order_of(tour *t, const xmlNode *node) {
  size_t before = 0, after = 0;
  for (const xmlNode *n = node->prev; n; n = n->prev)
    before += is_element(n) && xmlStrEqual(n->name, node->name);
  for (const xmlNode *n = node->next; n && after == 0; n = n->next)
    after += is_element(n) && xmlStrEqual(n->name, node->name);
  return before + after > 0 ? ts_arena_printf(t->arena, " %zu", before + 1) : "";
}

/* "findings/finding[F12]/score[in-place]/value 2"; the root by its name, which the others leave
 * out. */
static const char *place_of(tour *t, const xmlNode *node) {
  const char *name = (const char *)node->name, *id = known_by(t, node);
  if (is_root(node)) return name;
  const char *here = id[0] != '\0' ? ts_arena_printf(t->arena, "%s[%s]", name, id)
                                   : ts_arena_printf(t->arena, "%s%s", name, order_of(t, node));
  if (is_root(node->parent)) return here;
  return ts_arena_printf(t->arena, "%s/%s", place_of(t, node->parent), here);
}

static const char *shown(tour *t, const char *text) {
  enum { SHOWN = 60 };
  size_t length = SHOWN;
  if (text == NULL) return "nothing";
  if (strlen(text) <= SHOWN) return ts_arena_printf(t->arena, "\"%s\"", text);
  while (length > 0 && ((unsigned char)text[length] & 0xC0) == 0x80)
    length--; /* whole characters */
  return ts_arena_printf(t->arena, "\"%s…\"", ts_arena_copy_n(t->arena, text, length));
}

static void differ(tour *t, const xmlNode *given, const char *attribute, const char *is,
                   const char *should) {
  bool digest = attribute != NULL && strcmp(attribute, "sha256") == 0;
  int line = attribute ? ts_xml_attribute_line(t->given, given, attribute) : 0;
  const char *place = attribute ? ts_arena_printf(t->arena, "%s %s", place_of(t, given), attribute)
                                : place_of(t, given);
  const char *where = digest ? "not the bytes that were assessed: found" : "found";
  const char *what =
      digest ? "now" : ts_arena_printf(t->arena, "and what follows from %s is", t->from);
  wrong(t, line > 0 ? line : ts_xml_line(t->given, given),
        ts_arena_printf(t->arena, "%s: %s %s, %s %s", place, where, shown(t, is), what,
                        shown(t, should)));
}

static void compare_attributes(tour *t, const xmlNode *given, const xmlNode *expected) {
  for (const xmlAttr *a = expected->properties; a != NULL; a = a->next) {
    const char *name = (const char *)a->name;
    const char *is = value_of(t, given, name), *should = value_of(t, expected, name);
    if (!ts_same(is, should)) differ(t, given, name, is, should);
  }
  for (const xmlAttr *a = given->properties; a != NULL; a = a->next) {
    const char *name = (const char *)a->name;
    if (value_of(t, expected, name) == NULL) differ(t, given, name, value_of(t, given, name), NULL);
  }
}

/* The text an element holds itself; blanks between its elements are of no account. */
static const char *own_text(tour *t, const xmlNode *node) {
  ts_text all = {0};
  for (const xmlNode *child = node->children; child != NULL; child = child->next)
    if ((child->type == XML_TEXT_NODE || child->type == XML_CDATA_SECTION_NODE) &&
        !xmlIsBlankNode(child))
      ts_text_add(&all, (const char *)child->content);
  const char *kept = all.data ? ts_arena_copy(t->arena, all.data) : NULL;
  ts_text_release(&all);
  return kept;
}

/* ---- children ------------------------------------------------------------------------ */

/* Elements of one name and one identity are told apart by their order. */
static const char *key_of(tour *t, const xmlNode *node, xmlHashTable *seen) {
  const char *key =
      ts_arena_printf(t->arena, "%s\n%s", (const char *)node->name, known_by(t, node));
  size_t before = (size_t)xmlHashLookup(seen, BAD_CAST key);
  xmlHashUpdateEntry(seen, BAD_CAST key, (void *)(before + 1), NULL);
  return ts_arena_printf(t->arena, "%s\n%zu", key, before);
}

static xmlHashTable *children_of(tour *t, const xmlNode *parent) {
  xmlHashTable *all = xmlHashCreate(0), *seen = xmlHashCreate(0);
  for (const xmlNode *child = parent->children; child != NULL; child = child->next)
    if (is_element(child)) xmlHashAddEntry(all, BAD_CAST key_of(t, child, seen), (void *)child);
  xmlHashFree(seen, NULL);
  return all;
}

static void compare_elements(tour *t, const xmlNode *given, const xmlNode *expected);

/* What both have, in the order of what was given; what was given too much. */
static void compare_children(tour *t, const xmlNode *given, const xmlNode *expected) {
  xmlHashTable *wanted = children_of(t, expected), *seen = xmlHashCreate(0);
  for (const xmlNode *child = given->children; child != NULL; child = child->next) {
    if (!is_element(child)) continue;
    const char *key = key_of(t, child, seen);
    const xmlNode *twin = xmlHashLookup(wanted, BAD_CAST key);
    if (twin != NULL)
      compare_elements(t, child, twin);
    else
      wrong(t, ts_xml_line(t->given, child),
            ts_arena_printf(t->arena, "%s: does not follow from %s", place_of(t, child), t->from));
    xmlHashRemoveEntry(wanted, BAD_CAST key, NULL);
  }
  xmlHashFree(seen, NULL);
  seen = xmlHashCreate(0);
  for (const xmlNode *child = expected->children; child != NULL; child = child->next)
    if (is_element(child) && xmlHashLookup(wanted, BAD_CAST key_of(t, child, seen)) != NULL)
      wrong(t, ts_xml_line(t->given, given),
            ts_arena_printf(t->arena, "%s: follows from %s and is missing", place_of(t, child),
                            t->from));
  xmlHashFree(seen, NULL);
  xmlHashFree(wanted, NULL);
}

static void compare_elements(tour *t, const xmlNode *given, const xmlNode *expected) {
  const char *is = own_text(t, given), *should = own_text(t, expected);
  compare_attributes(t, given, expected);
  if (!ts_same(is, should)) differ(t, given, NULL, is, should);
  compare_children(t, given, expected);
}

static size_t tour_both(tour t, const ts_xml *expected) {
  t.arena = ts_arena_new();
  compare_elements(&t, ts_xml_root(t.given), ts_xml_root(expected));
  ts_arena_free(t.arena);
  return t.count;
}

size_t ts_tree_differences(const ts_xml *given, const ts_xml *expected, const char *name,
                           size_t limit, ts_diagnostics *problems) {
  tour t = {
      .given = given, .name = name, .from = "the facts", .limit = limit, .problems = problems};
  return tour_both(t, expected);
}

/* Where the first byte stands that is not the same, as a line from 1. */
static int first_other_line(const char *a, size_t a_length, const char *b, size_t b_length) {
  int line = 1;
  for (size_t i = 0; i < a_length && i < b_length && a[i] == b[i]; i++) line += a[i] == '\n';
  return line;
}

bool ts_assessment_differences(const char *given, size_t given_length, const char *expected,
                               size_t expected_length, const char *name, size_t limit,
                               size_t *count, ts_diagnostics *problems) {
  *count = 0;
  ts_xml *is = ts_document_open_as("assessment", given, given_length, name, problems);
  ts_xml *should = ts_document_open_as("assessment", expected, expected_length, "result", problems);
  bool read = is != NULL && should != NULL;
  bool alike = given_length == expected_length && memcmp(given, expected, given_length) == 0;
  if (read && !alike) *count = ts_tree_differences(is, should, name, limit, problems);
  if (read && !alike && *count == 0) {
    *count = 1;
    ts_report(problems, TS_ERROR, name,
              first_other_line(given, given_length, expected, expected_length),
              "not the text that tankside writes, though it says the same");
  }
  ts_xml_free(is);
  ts_xml_free(should);
  return read;
}

void ts_page_differences(const char *given, size_t given_length, const char *expected,
                         size_t expected_length, const char *name, size_t limit, size_t *count,
                         ts_diagnostics *problems) {
  ts_xml *is = ts_html_read(given, given_length), *should = ts_html_read(expected, expected_length);
  tour t = {.given = is,
            .name = name,
            .from = "the assessment",
            .page = true,
            .limit = limit,
            .problems = problems};
  *count = is && should ? tour_both(t, should) : 0;
  if (*count == 0) {
    *count = 1;
    ts_report(problems, TS_ERROR, name,
              first_other_line(given, given_length, expected, expected_length),
              is ? "not the text that tankside writes, though it says the same" : "is no HTML");
  }
  ts_xml_free(is);
  ts_xml_free(should);
}
