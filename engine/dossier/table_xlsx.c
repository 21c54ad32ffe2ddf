/* Office Open XML spreadsheets (ECMA-376 part 1, section 18): the workbook, its relations, shared
 * strings, styles and sheets, and nothing else. */
#include "dossier/table_int.h"
#include "quantity/calendar.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char relation_space[] =
    "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
static const char relation_space_strict[] =
    "http://purl.oclc.org/ooxml/officeDocument/relationships";

typedef struct {
  ts_table_reader *reader;
  const char **strings; /* shared */
  size_t string_count, string_capacity;
  ts_forms forms;
  bool since_1904;
} workbook;

typedef struct {
  workbook *book;
  ts_table *table;
  uint32_t row, column; /* of the next cell, where it does not say */
} progress;

/* ---- texts ---------------------------------------------------------------------------- */

/* All <t> below, but for those of a phonetic reading. */
static void add_words(const xmlNode *inside, ts_text *words) {
  for (const xmlNode *node = inside->children; node != NULL; node = node->next) {
    if (node->type != XML_ELEMENT_NODE || ts_same((const char *)node->name, "rPh")) continue;
    if (!ts_same((const char *)node->name, "t")) {
      add_words(node, words);
      continue;
    }
    xmlChar *content = xmlNodeGetContent(node);
    if (content != NULL) ts_text_add(words, (const char *)content);
    xmlFree(content);
  }
}

static const char *words_of(const ts_table_reader *reader, const xmlNode *node) {
  ts_text words = {0};
  add_words(node, &words);
  const char *copy = ts_arena_copy(reader->arena, words.data ? words.data : "");
  ts_text_release(&words);
  return copy;
}

static bool read_strings(workbook *book) {
  if (!ts_zip_has(book->reader->zip, "xl/sharedStrings.xml")) return true;
  ts_xml *xml = ts_table_member(book->reader, "xl/sharedStrings.xml");
  if (xml == NULL) return false;
  for (const xmlNode *s = ts_xml_child(ts_xml_root(xml), "si"); s != NULL;
       s = ts_xml_next(s, "si")) {
    TS_GROW(book->strings, book->string_count, book->string_capacity);
    book->strings[book->string_count++] = words_of(book->reader, s);
  }
  ts_xml_free(xml);
  return true;
}

/* ---- one cell ------------------------------------------------------------------------- */

/* Days since 1970 of the day a serial number counts from. The 1900 system holds a 29 February 1900
 * that never was: what is before it counts from a day later, and that day is no date. */
static bool first_day(const workbook *book, double serial, double *day) {
  static const double from_1904 = -24107, from_1900 = -25569;
  if (serial < 0 || serial > 2958465 || (!book->since_1904 && floor(serial) == 60)) return false;
  *day = book->since_1904 ? from_1904 : serial < 60 ? from_1900 + 1 : from_1900;
  return true;
}

static bool read_serial(const workbook *book, ts_form form, double serial, ts_cell *cell) {
  double day = 0, seconds = floor(serial * TS_DAY_SECONDS + 0.5);
  bool time = form == TS_FORM_ELAPSED || (form != TS_FORM_NUMBER && serial >= 0 && serial < 1);
  cell->kind = time ? TS_CELL_TIME : TS_CELL_DATE;
  cell->number = seconds;
  if (time) return serial >= 0;
  if (!first_day(book, serial, &day)) return false;
  cell->number += day * TS_DAY_SECONDS;
  return true;
}

static bool read_number(const workbook *book, const char *text, uint32_t style, ts_cell *cell) {
  ts_form form = style < book->forms.count ? book->forms.forms[style] : TS_FORM_NUMBER;
  if (!ts_table_number(text, &cell->number)) return false;
  cell->kind = form == TS_FORM_PERCENT ? TS_CELL_PERCENT : TS_CELL_NUMBER;
  if (form == TS_FORM_NUMBER || form == TS_FORM_PERCENT) return true;
  return read_serial(book, form, cell->number, cell);
}

static bool read_shared(const workbook *book, const char *text, ts_cell *cell) {
  double index;
  if (!ts_table_number(text, &index) || index < 0 || index >= (double)book->string_count)
    return false;
  cell->text = book->strings[(size_t)index];
  return true;
}

static bool read_value(const workbook *book, const xmlNode *node, ts_cell *cell) {
  const ts_table_reader *reader = book->reader;
  const char *type = ts_table_attribute(reader, node, NULL, "t");
  const xmlNode *inlined = ts_xml_child(node, "is"), *v = ts_xml_child(node, "v");
  xmlChar *content = v != NULL ? xmlNodeGetContent(v) : NULL;
  const char *text = ts_arena_copy(reader->arena, content ? (const char *)content : "");
  xmlFree(content);
  cell->kind = TS_CELL_TEXT;
  cell->text = text;
  if (ts_same(type, "inlineStr")) {
    cell->text = inlined != NULL ? words_of(reader, inlined) : "";
    return true;
  }
  if (*text == '\0' || ts_same(type, "str")) return true;
  if (ts_same(type, "s")) return read_shared(book, text, cell);
  cell->kind = TS_CELL_FAULT;
  if (ts_same(type, "e")) return true;
  cell->kind = TS_CELL_YES_NO;
  cell->number = ts_same(text, "1");
  if (ts_same(type, "b")) return true;
  cell->kind = TS_CELL_DATE;
  if (ts_same(type, "d")) return ts_table_date(text, &cell->number);
  return read_number(book, text, ts_table_whole(reader, node, NULL, "s", 0), cell);
}

/* "B7" gives column 1; the row is that of the row's element. False when it is no such name. */
static bool column_of(const char *name, uint32_t *column) {
  uint32_t letters = 0;
  for (; *name >= 'A' && *name <= 'Z'; name++) {
    letters = 26 * letters + (uint32_t)(*name - 'A') + 1;
    if (letters > TS_TABLE_COLUMNS) return false;
  }
  *column = letters - 1;
  return letters > 0 && *name >= '1' && *name <= '9';
}

static bool add_cell(progress *p, const xmlNode *node) {
  ts_table_reader *reader = p->book->reader;
  char shown[TS_CELL_NAME];
  const char *name = ts_table_attribute(reader, node, NULL, "r");
  if (name != NULL && !column_of(name, &p->column))
    return ts_table_fail(reader, "sheet \"%s\": \"%.20s\" is no place for a cell", p->table->name,
                         name);
  ts_cell cell = {.row = p->row, .column = p->column++};
  if (!read_value(p->book, node, &cell))
    return ts_table_fail(reader, "sheet \"%s\", %s does not hold the value that it says",
                         p->table->name, ts_cell_name(cell.row, cell.column, shown));
  return ts_table_add(reader, p->table, cell);
}

/* ---- sheets --------------------------------------------------------------------------- */

static bool read_rows(progress *p, const xmlNode *data) {
  for (const xmlNode *r = ts_xml_child(data, "row"); r != NULL; r = ts_xml_next(r, "row")) {
    uint32_t stated = ts_table_whole(p->book->reader, r, NULL, "r", p->row + 1);
    p->row = stated > 0 ? stated - 1 : 0;
    p->column = 0;
    for (const xmlNode *c = ts_xml_child(r, "c"); c != NULL; c = ts_xml_next(c, "c"))
      if (!add_cell(p, c)) return false;
    p->row++;
  }
  return true;
}

static bool read_sheet(workbook *book, const char *name, const char *member) {
  ts_xml *xml = ts_table_member(book->reader, member);
  progress p = {.book = book};
  if (xml == NULL) return false;
  p.table = ts_table_begin(book->reader, name);
  bool good = p.table != NULL && read_rows(&p, ts_xml_child(ts_xml_root(xml), "sheetData"));
  ts_xml_free(xml);
  return good;
}

/* The member that a relation of the workbook leads to, or NULL. */
static const char *target_of(const ts_table_reader *reader, const xmlNode *relations,
                             const char *id) {
  const xmlNode *r = ts_xml_child(relations, "Relationship");
  while (r != NULL && !ts_same(ts_table_attribute(reader, r, NULL, "Id"), id))
    r = ts_xml_next(r, "Relationship");
  const char *target = r ? ts_table_attribute(reader, r, NULL, "Target") : NULL;
  if (target == NULL || id == NULL) return NULL;
  return target[0] == '/' ? target + 1 : ts_arena_printf(reader->arena, "xl/%s", target);
}

/* Sheets of charts and the like have no cells; they are left out. */
static bool read_sheets(workbook *book, const xmlNode *sheets, const xmlNode *relations) {
  const ts_table_reader *reader = book->reader;
  for (const xmlNode *s = ts_xml_child(sheets, "sheet"); s != NULL; s = ts_xml_next(s, "sheet")) {
    const char *name = ts_table_attribute(reader, s, NULL, "name");
    const char *id = ts_table_attribute(reader, s, relation_space, "id");
    if (id == NULL) id = ts_table_attribute(reader, s, relation_space_strict, "id");
    const char *member = target_of(reader, relations, id);
    if (member == NULL)
      return ts_table_fail(book->reader, "sheet \"%s\" is nowhere in it", name ? name : "");
    if (strstr(member, "worksheets/") == NULL) continue;
    if (!read_sheet(book, name, member)) return false;
  }
  return true;
}

static bool read_book(workbook *book, const xmlNode *root) {
  const ts_table_reader *reader = book->reader;
  ts_xml *relations = ts_table_member(book->reader, "xl/_rels/workbook.xml.rels");
  if (relations == NULL) return false;
  const xmlNode *about = ts_xml_child(root, "workbookPr");
  const char *mode = about ? ts_table_attribute(reader, about, NULL, "date1904") : NULL;
  book->since_1904 = ts_same(mode, "1") || ts_same(mode, "true");
  bool good = read_strings(book) && ts_table_forms(book->reader, &book->forms) &&
              read_sheets(book, ts_xml_child(root, "sheets"), ts_xml_root(relations));
  ts_xml_free(relations);
  return good;
}

bool ts_table_read_xlsx(ts_table_reader *reader) {
  workbook book = {.reader = reader};
  ts_xml *xml = ts_table_member(reader, "xl/workbook.xml");
  if (xml == NULL) return false;
  bool good = read_book(&book, ts_xml_root(xml));
  free(book.strings);
  free(book.forms.forms);
  ts_xml_free(xml);
  return good;
}
