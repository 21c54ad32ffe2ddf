/* The map of an import: <import><sheet name= entity= ...><column heading= fact=
 * .../></sheet></import>. */
#include "base/xml.h"
#include "dossier/import_int.h"

#include <string.h>

typedef struct {
  ts_import *import;
  const ts_xml *xml;
  const char *file;
  bool good;
} reading;

static void wrong(reading *r, const xmlNode *node, const char *attribute, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
static void wrong(reading *r, const xmlNode *node, const char *attribute, const char *format, ...) {
  va_list list;
  char text[512];
  va_start(list, format);
  vsnprintf(text, sizeof text, format, list);
  va_end(list);
  ts_report(r->import->problems, TS_ERROR, r->file,
            attribute ? ts_xml_attribute_line(r->xml, node, attribute) : ts_xml_line(r->xml, node),
            "%s", text);
  r->good = false;
}

/* An attribute's value, or NULL. */
static const char *said(const reading *r, const xmlNode *node, const char *name) {
  xmlChar *value = xmlGetNoNsProp(node, BAD_CAST name);
  const char *copy = ts_arena_copy(r->import->arena, (const char *)value);
  xmlFree(value);
  return copy;
}

/* Reports attributes that are not in the list, which ends with NULL. */
static void only(reading *r, const xmlNode *node, const char *const *allowed) {
  size_t count = 0;
  while (allowed[count] != NULL) count++;
  for (const xmlAttr *a = node->properties; a != NULL; a = a->next) {
    const char *name = (const char *)a->name;
    bool known = false;
    for (size_t i = 0; i < count; i++) known = known || ts_same(allowed[i], name);
    if (known) continue;
    const char *near = ts_nearest(name, allowed, count);
    wrong(r, node, name, "unknown attribute \"%s\" of \"%s\"%s%s%s", name, (const char *)node->name,
          near ? "; the nearest name is \"" : "", near ? near : "", near ? "\"" : "");
  }
}

/* Which of the words, which end with NULL, an attribute is; 0 where it is not written. */
static size_t one_of(reading *r, const xmlNode *node, const char *name, const char *const *words) {
  const char *text = said(r, node, name);
  size_t count = 0;
  for (; text != NULL && words[count] != NULL; count++)
    if (ts_same(words[count], text)) return count;
  if (text == NULL) return 0;
  const char *near = ts_nearest(text, words, count);
  wrong(r, node, name, "impossible choice \"%s\" for \"%s\"%s%s%s", text, name,
        near ? "; the nearest is \"" : "", near ? near : "", near ? "\"" : "");
  return 0;
}

/* "d.m.y" as "dmy": the three letters in any order, with anything between. */
static const char *date_order(reading *r, const xmlNode *node) {
  const char *text = said(r, node, "dates");
  char letters[8] = "";
  size_t count = 0;
  for (const char *c = text; c != NULL && *c != '\0'; c++)
    if (strchr("dmy", *c) != NULL && count < 4) letters[count++] = *c;
  if (text == NULL) return NULL;
  if (count == 3 && strchr(letters, 'd') && strchr(letters, 'm') && strchr(letters, 'y'))
    return ts_arena_copy(r->import->arena, letters);
  wrong(r, node, "dates",
        "cannot read \"%s\" for \"dates\": expected an order of day, month and "
        "year, like \"d.m.y\"",
        text);
  return NULL;
}

static ts_import_form form_of(reading *r, const xmlNode *node, const ts_import_form *outer) {
  static const char *const marks[] = {".", ",", NULL};
  ts_dim dim;
  ts_import_form form = {.unit = said(r, node, "unit"), .dates = date_order(r, node)};
  size_t mark = one_of(r, node, "decimal", marks);
  if (said(r, node, "decimal") != NULL) form.decimal = marks[mark];
  if (form.unit != NULL && !ts_import_is_unit(r->import, form.unit, &dim))
    wrong(r, node, "unit", "unknown unit \"%s\"", form.unit);
  if (form.decimal == NULL) form.decimal = outer->decimal;
  if (form.dates == NULL) form.dates = outer->dates;
  return form;
}

static void read_column(reading *r, const xmlNode *node, ts_map_sheet *sheet) {
  static const char *const allowed[] = {"heading", "at", "fact", "unit", "dates", "decimal", NULL};
  only(r, node, allowed);
  ts_map_column column = {.heading = said(r, node, "heading"),
                          .at = said(r, node, "at"),
                          .fact = said(r, node, "fact"),
                          .form = form_of(r, node, &sheet->form),
                          .line = ts_xml_line(r->xml, node)};
  if ((column.heading == NULL) == (column.at == NULL))
    wrong(r, node, NULL, "\"column\" has one of \"heading\" and \"at\": its words, or its letters");
  TS_GROW(sheet->columns, sheet->count, sheet->capacity);
  sheet->columns[sheet->count++] = column;
}

static ts_edit_evidence evidence_of(reading *r, const xmlNode *node) {
  static const char *const kinds[] = {"measured", "certificate", "statement", "estimate", NULL};
  ts_edit_evidence e = {said(r, node, "kind"), said(r, node, "by"), said(r, node, "on"), NULL};
  one_of(r, node, "kind", kinds);
  if ((e.kind || e.by || e.on) && !(e.kind && e.by && e.on))
    wrong(r, node, NULL, "evidence has all of \"kind\", \"by\" and \"on\"");
  return e;
}

static void read_sheet(reading *r, const xmlNode *node, const ts_import_form *outer) {
  static const char *const allowed[] = {"name",    "entity", "head", "rows", "dates",
                                        "decimal", "kind",   "by",   "on",   NULL};
  static const char *const rows[] = {"agree", "latest", "range", NULL};
  double head = 0;
  only(r, node, allowed);
  ts_map *map = &r->import->map;
  ts_map_sheet sheet = {.name = said(r, node, "name"),
                        .entity = said(r, node, "entity"),
                        .rows = (ts_import_rows)one_of(r, node, "rows", rows),
                        .form = form_of(r, node, outer),
                        .evidence = evidence_of(r, node),
                        .line = ts_xml_line(r->xml, node)};
  const char *row = said(r, node, "head"), *end = row ? ts_number_read(row, &head) : NULL;
  if (sheet.name == NULL) wrong(r, node, NULL, "\"sheet\" lacks \"name\"");
  if (row != NULL && (end == NULL || *end != '\0' || head < 1 || head > TS_TABLE_ROWS))
    wrong(r, node, "head", "cannot read \"%s\" for \"head\": expected the row of the headings",
          row);
  else
    sheet.head = (uint32_t)head;
  for (const xmlNode *c = node->children; c != NULL; c = c->next) {
    if (c->type != XML_ELEMENT_NODE) continue;
    if (ts_same((const char *)c->name, "column"))
      read_column(r, c, &sheet);
    else
      wrong(r, c, NULL, "unknown element \"%s\" in \"sheet\"; allowed here: column",
            (const char *)c->name);
  }
  TS_GROW(map->sheets, map->count, map->capacity);
  map->sheets[map->count++] = sheet;
}

static void read_root(reading *r, const xmlNode *root) {
  static const char *const allowed[] = {"format", "dates", "decimal", NULL};
  ts_import_form none = {0};
  if (!ts_same((const char *)root->name, "import")) {
    wrong(r, root, NULL, "the outermost element is \"%s\"; expected \"import\"",
          (const char *)root->name);
    return;
  }
  only(r, root, allowed);
  ts_import_form form = r->import->map.form = form_of(r, root, &none);
  for (const xmlNode *node = root->children; node != NULL; node = node->next) {
    if (node->type != XML_ELEMENT_NODE) continue;
    if (ts_same((const char *)node->name, "sheet"))
      read_sheet(r, node, &form);
    else
      wrong(r, node, NULL, "unknown element \"%s\" in \"import\"; allowed here: sheet",
            (const char *)node->name);
  }
}

bool ts_import_map(ts_import *import, const char *file, const char *bytes, size_t length) {
  ts_xml *xml = ts_xml_read(bytes, length, file, import->problems);
  reading r = {import, xml, file, xml != NULL};
  import->map.file = file;
  if (xml != NULL) read_root(&r, ts_xml_root(xml));
  ts_xml_free(xml);
  return r.good;
}
