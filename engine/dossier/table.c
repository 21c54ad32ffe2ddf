/* Which kind of table a file is, and what the readers of each share. */
#include "dossier/table_int.h"
#include "dossier/words.h"
#include "quantity/calendar.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

enum { MEMBER_LIMIT = 64 << 20, TEXT_LIMIT = 4096, TABLES_MAX = 256 };

/* ---- adding --------------------------------------------------------------------------- */

bool ts_table_fail(ts_table_reader *reader, const char *format, ...) {
  va_list list;
  char *text = NULL;
  va_start(list, format);
  if (vasprintf(&text, format, list) < 0) ts_out_of_memory();
  va_end(list);
  ts_report(reader->problems, TS_ERROR, reader->into->file, 0, "%s", text);
  free(text);
  reader->failed = true;
  return false;
}

ts_table *ts_table_begin(ts_table_reader *reader, const char *name) {
  ts_tables *all = reader->into;
  if (all->count == TABLES_MAX) {
    ts_table_fail(reader, "has more than %d sheets", TABLES_MAX);
    return NULL;
  }
  TS_GROW(all->tables, all->count, all->capacity);
  all->tables[all->count] = (ts_table){.name = ts_arena_copy(reader->arena, name ? name : "")};
  return &all->tables[all->count++];
}

/* Line breaks and tabs are blanks; a character that XML cannot hold is refused. */
static bool one_line(ts_table_reader *reader, ts_cell *cell) {
  char name[TS_CELL_NAME], *text = ts_words_trim(reader->arena, cell->text);
  for (char *c = text; *c != '\0'; c++) {
    if (strchr("\t\r\n", *c) != NULL) *c = ' ';
    if ((unsigned char)*c < ' ' || *c == 0x7f)
      return ts_table_fail(reader, "%s holds a character that is no text",
                           ts_cell_name(cell->row, cell->column, name));
  }
  if (strlen(text) > TEXT_LIMIT)
    return ts_table_fail(reader, "%s holds more than %d bytes of text",
                         ts_cell_name(cell->row, cell->column, name), TEXT_LIMIT);
  cell->text = text;
  return true;
}

bool ts_table_add(ts_table_reader *reader, ts_table *table, ts_cell cell) {
  bool words = cell.kind == TS_CELL_TEXT || cell.kind == TS_CELL_FAULT;
  if (cell.row >= TS_TABLE_ROWS || cell.column >= TS_TABLE_COLUMNS)
    return ts_table_fail(reader, "has more than %d rows or %d columns", TS_TABLE_ROWS,
                         TS_TABLE_COLUMNS);
  if (words && !one_line(reader, &cell)) return false;
  if (words && cell.text[0] == '\0') return true;
  if (++reader->into->cells > TS_TABLE_CELLS)
    return ts_table_fail(reader, "has more than %d cells", TS_TABLE_CELLS);
  TS_GROW(table->cells, table->count, table->capacity);
  table->cells[table->count++] = cell;
  return true;
}

/* ---- XML ------------------------------------------------------------------------------ */

ts_xml *ts_table_member(ts_table_reader *reader, const char *name) {
  size_t length;
  char *bytes = ts_zip_member(reader->zip, reader->arena, name, MEMBER_LIMIT, &length,
                              reader->into->file, reader->problems);
  const char *where = ts_arena_printf(reader->arena, "%s, %s", reader->into->file, name);
  ts_xml *xml = bytes ? ts_xml_read(bytes, length, where, reader->problems) : NULL;
  if (xml == NULL) reader->failed = true;
  return xml;
}

const char *ts_table_attribute(const ts_table_reader *reader, const xmlNode *node,
                               const char *space, const char *name) {
  xmlChar *value = space ? xmlGetNsProp(node, BAD_CAST name, BAD_CAST space)
                         : xmlGetNoNsProp(node, BAD_CAST name);
  const char *copy = ts_arena_copy(reader->arena, (const char *)value);
  xmlFree(value);
  return copy;
}

uint32_t ts_table_whole(const ts_table_reader *reader, const xmlNode *node, const char *space,
                        const char *name, uint32_t otherwise) {
  const char *text = ts_table_attribute(reader, node, space, name);
  uint64_t value = 0;
  if (text == NULL || *text == '\0') return otherwise;
  for (; *text >= '0' && *text <= '9' && value < UINT32_MAX; text++)
    value = 10 * value + (uint64_t)(*text - '0');
  return *text == '\0' && value < UINT32_MAX ? (uint32_t)value : otherwise;
}

bool ts_table_number(const char *text, double *value) {
  const char *end = text ? ts_number_read(text, value) : NULL;
  return end != NULL && *end == '\0';
}

/* "10:40:00", also with parts of a second, rounded to one. */
static bool read_clock(const char *text, double *seconds) {
  double part[3] = {0};
  for (int i = 0; i < 3; i++) {
    text = ts_number_read(text, &part[i]);
    if (text == NULL || part[i] < 0 || part[i] >= 60) return false;
    if (i < 2 && *text++ != ':') return false;
  }
  *seconds = (double)(int64_t)(part[0] * 3600 + part[1] * 60 + part[2] + 0.5);
  return *text == '\0' || strcmp(text, "Z") == 0;
}

bool ts_table_date(const char *text, double *seconds) {
  ts_date date;
  char day[11] = "";
  double clock = 0;
  if (text == NULL || strlen(text) < 10) return false;
  memcpy(day, text, 10);
  if (!ts_date_read(day, &date)) return false;
  if (text[10] != '\0' && (text[10] != 'T' || !read_clock(text + 11, &clock))) return false;
  *seconds = (double)ts_day_number(date) * TS_DAY_SECONDS + clock;
  return true;
}

/* ---- looking things up ---------------------------------------------------------------- */

static int by_place(const void *a, const void *b) {
  const ts_cell *one = a, *other = b;
  if (one->row != other->row) return one->row < other->row ? -1 : 1;
  return one->column < other->column ? -1 : one->column > other->column;
}

const ts_cell *ts_table_cell(const ts_table *table, uint32_t row, uint32_t column) {
  ts_cell wanted = {.row = row, .column = column};
  if (table->count == 0) return NULL;
  return bsearch(&wanted, table->cells, table->count, sizeof wanted, by_place);
}

uint32_t ts_table_rows(const ts_table *table) {
  return table->count > 0 ? table->cells[table->count - 1].row + 1 : 0;
}

char *ts_cell_name(uint32_t row, uint32_t column, char out[TS_CELL_NAME]) {
  char letters[TS_CELL_NAME];
  size_t at = sizeof letters - 1;
  letters[at] = '\0';
  for (uint32_t left = column + 1; left > 0; left = (left - 1) / 26)
    letters[--at] = (char)('A' + (left - 1) % 26);
  snprintf(out, TS_CELL_NAME, "%.4s%u", letters + at, (unsigned)(row + 1) % 100000000);
  return out;
}

/* ---- the door ------------------------------------------------------------------------- */

static bool read_archive(ts_table_reader *reader) {
  reader->zip = ts_zip_open(reader->bytes, reader->length);
  if (reader->zip == NULL)
    return ts_table_fail(reader, "is a damaged archive, or only a part of one");
  bool good = false;
  if (ts_zip_has(reader->zip, "xl/workbook.xml"))
    good = ts_table_read_xlsx(reader);
  else if (ts_zip_has(reader->zip, "content.xml"))
    good = ts_table_read_ods(reader);
  else
    ts_table_fail(reader, "is an archive, but neither an OpenDocument nor an Office Open XML "
                          "spreadsheet");
  ts_zip_close(reader->zip);
  return good;
}

bool ts_tables_read(ts_tables *into, ts_arena *arena, const char *file, const char *bytes,
                    size_t length, ts_diagnostics *problems) {
  ts_table_reader reader = {
      .into = into, .arena = arena, .bytes = bytes, .length = length, .problems = problems};
  *into = (ts_tables){.file = ts_arena_copy(arena, file)};
  bool archive = length >= 2 && memcmp(bytes, "PK", 2) == 0;
  bool good = archive ? read_archive(&reader) : ts_table_read_csv(&reader);
  for (size_t i = 0; i < into->count; i++)
    if (into->tables[i].count > 0)
      qsort(into->tables[i].cells, into->tables[i].count, sizeof(ts_cell), by_place);
  return good && !reader.failed;
}

void ts_tables_release(ts_tables *tables) {
  for (size_t i = 0; i < tables->count; i++) free(tables->tables[i].cells);
  free(tables->tables);
  *tables = (ts_tables){0};
}
