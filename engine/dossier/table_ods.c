/* OpenDocument spreadsheets (ODF 1.3 part 3, section 9): content.xml and nothing else. */
#include "dossier/table_int.h"

#include <stdlib.h>
#include <string.h>

#define NAMESPACE "urn:oasis:names:tc:opendocument:xmlns:"
static const char office[] = NAMESPACE "office:1.0";
static const char table_space[] = NAMESPACE "table:1.0";
static const char text_space[] = NAMESPACE "text:1.0";
/* LibreOffice says only here that a cell holds an error. */
static const char calc[] = "urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0";

enum { LOOKED_AT = 20 * TS_TABLE_CELLS };

typedef struct {
  ts_table_reader *reader;
  ts_table *table;
  uint32_t row;
} progress;

static bool is(const xmlNode *node, const char *space, const char *name) {
  return node->type == XML_ELEMENT_NODE && node->ns != NULL &&
         ts_same((const char *)node->ns->href, space) && ts_same((const char *)node->name, name);
}

/* ---- one cell ------------------------------------------------------------------------- */

static void add_words(const ts_table_reader *reader, const xmlNode *inside, ts_text *words) {
  for (const xmlNode *node = inside->children; node != NULL; node = node->next) {
    if (node->type == XML_TEXT_NODE || node->type == XML_CDATA_SECTION_NODE)
      ts_text_add(words, (const char *)node->content);
    else if (is(node, text_space, "s") || is(node, text_space, "tab") ||
             is(node, text_space, "line-break"))
      ts_text_add(words, " ");
    else if (node->type == XML_ELEMENT_NODE && !is(node, office, "annotation"))
      add_words(reader, node, words);
  }
}

/* What is shown in a cell; a remark on it is not. */
static const char *words_of(const ts_table_reader *reader, const xmlNode *cell) {
  ts_text words = {0};
  for (const xmlNode *node = cell->children; node != NULL; node = node->next)
    if (is(node, text_space, "p")) {
      if (words.length > 0) ts_text_add(&words, " ");
      add_words(reader, node, &words);
    }
  const char *copy = ts_arena_copy(reader->arena, words.data ? words.data : "");
  ts_text_release(&words);
  return copy;
}

/* "PT10H40M00S". */
static bool duration(const char *text, double *seconds) {
  static const struct {
    char letter;
    double seconds;
  } units[] = {{'H', 3600}, {'M', 60}, {'S', 1}};
  double total = 0, part;
  if (text == NULL || strncmp(text, "PT", 2) != 0) return false;
  text += 2;
  for (size_t i = 0; i < 3 && *text != '\0'; i++) {
    const char *end = ts_number_read(text, &part);
    if (end == NULL || part < 0) return false;
    if (*end != units[i].letter) continue;
    total += part * units[i].seconds;
    text = end + 1;
  }
  *seconds = total < 1e9 ? (double)(int64_t)(total + 0.5) : total;
  return *text == '\0';
}

/* Fills the kind and value of a cell. False for a value that is not what its type says. */
static bool read_value(const ts_table_reader *reader, const xmlNode *node, const char *type,
                       ts_cell *cell) {
  const char *value = ts_table_attribute(reader, node, office, "value");
  cell->kind = TS_CELL_NUMBER;
  if (ts_same(type, "float") || ts_same(type, "currency"))
    return ts_table_number(value, &cell->number);
  cell->kind = TS_CELL_PERCENT;
  if (ts_same(type, "percentage")) return ts_table_number(value, &cell->number);
  cell->kind = TS_CELL_DATE;
  if (ts_same(type, "date"))
    return ts_table_date(ts_table_attribute(reader, node, office, "date-value"), &cell->number);
  cell->kind = TS_CELL_TIME;
  if (ts_same(type, "time"))
    return duration(ts_table_attribute(reader, node, office, "time-value"), &cell->number);
  cell->kind = TS_CELL_YES_NO;
  if (ts_same(type, "boolean")) {
    cell->number = ts_same(ts_table_attribute(reader, node, office, "boolean-value"), "true");
    return true;
  }
  cell->kind = TS_CELL_TEXT;
  cell->text = ts_table_attribute(reader, node, office, "string-value");
  if (cell->text == NULL || cell->text[0] == '\0') cell->text = words_of(reader, node);
  if (ts_same(ts_table_attribute(reader, node, calc, "value-type"), "error"))
    cell->kind = TS_CELL_FAULT;
  return true;
}

/* ---- rows ----------------------------------------------------------------------------- */

/* A cell with something in it, as often as it says: what is too much, ts_table_add says. */
static bool add_cell(progress *p, const xmlNode *node, ts_cell cell, uint32_t times) {
  char name[TS_CELL_NAME];
  const char *type = ts_table_attribute(p->reader, node, office, "value-type");
  if (type == NULL) return true;
  if (!read_value(p->reader, node, type, &cell))
    return ts_table_fail(p->reader, "sheet \"%s\", %s does not hold the %s that it says",
                         p->table->name, ts_cell_name(cell.row, cell.column, name), type);
  for (; times > 0; times--, cell.column++)
    if (!ts_table_add(p->reader, p->table, cell)) return false;
  return true;
}

/* False when it cannot go on; *any: whether something is in the row. */
static bool read_row(progress *p, const xmlNode *row, uint32_t number, bool *any) {
  uint64_t column = 0;
  size_t before = p->table->count;
  for (const xmlNode *node = row->children; node != NULL; node = node->next) {
    bool covered = is(node, table_space, "covered-table-cell");
    if (!covered && !is(node, table_space, "table-cell")) continue;
    if (++p->reader->looked_at > LOOKED_AT)
      return ts_table_fail(p->reader, "repeats its rows beyond all use");
    uint32_t times = ts_table_whole(p->reader, node, table_space, "number-columns-repeated", 1);
    ts_cell cell = {.row = number, .column = (uint32_t)(column < UINT32_MAX ? column : UINT32_MAX)};
    if (!covered && !add_cell(p, node, cell, times)) return false;
    column += times;
  }
  *any = p->table->count > before;
  return true;
}

/* Empty rows are only counted, so that a million of them cost nothing. */
static bool read_rows(progress *p, const xmlNode *row) {
  uint32_t times = ts_table_whole(p->reader, row, table_space, "number-rows-repeated", 1);
  bool any = true;
  for (uint32_t i = 0; i < times && any; i++)
    if (!read_row(p, row, p->row + i, &any)) return false;
  p->row = times < TS_TABLE_ROWS - p->row ? p->row + times : TS_TABLE_ROWS;
  return true;
}

/* Rows may stand in groups, and those in groups. */
static bool read_group(progress *p, const xmlNode *group) {
  static const char *const groups[] = {"table-header-rows", "table-rows", "table-row-group"};
  for (const xmlNode *node = group->children; node != NULL; node = node->next) {
    if (is(node, table_space, "table-row") && !read_rows(p, node)) return false;
    for (size_t i = 0; i < sizeof groups / sizeof *groups; i++)
      if (is(node, table_space, groups[i]) && !read_group(p, node)) return false;
  }
  return true;
}

/* ---- the file ------------------------------------------------------------------------- */

static bool read_tables(ts_table_reader *reader, const xmlNode *spreadsheet) {
  for (const xmlNode *node = spreadsheet->children; node != NULL; node = node->next) {
    if (!is(node, table_space, "table")) continue;
    progress p = {.reader = reader};
    p.table = ts_table_begin(reader, ts_table_attribute(reader, node, table_space, "name"));
    if (p.table == NULL || !read_group(&p, node)) return false;
  }
  return true;
}

bool ts_table_read_ods(ts_table_reader *reader) {
  ts_xml *xml = ts_table_member(reader, "content.xml");
  if (xml == NULL) return false;
  const xmlNode *body = ts_xml_child(ts_xml_root(xml), "body");
  const xmlNode *spreadsheet = ts_xml_child(body, "spreadsheet");
  bool good = spreadsheet != NULL
                  ? read_tables(reader, spreadsheet)
                  : ts_table_fail(reader, "is an OpenDocument file, but no spreadsheet");
  ts_xml_free(xml);
  return good;
}
