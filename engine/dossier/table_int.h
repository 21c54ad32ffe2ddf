/* What the readers of tables share: table.c (which reader, adding cells), table_csv.c, table_ods.c,
 * table_xlsx.c, table_styles.c. */
#ifndef TS_DOSSIER_TABLE_INT_H
#define TS_DOSSIER_TABLE_INT_H

#include "base/xml.h"
#include "base/zip.h"
#include "dossier/table.h"

typedef struct {
  ts_tables *into;
  ts_arena *arena;
  const char *bytes;
  size_t length;
  ts_zip *zip; /* NULL for CSV */
  ts_diagnostics *problems;
  bool failed;
  size_t looked_at; /* cells, the empty ones of rows that repeat too */
} ts_table_reader;

/* Begins a table; later ones must not be begun while cells are still added to it. */
ts_table *ts_table_begin(ts_table_reader *reader, const char *name);

/* Adds a cell behind all others; a text is trimmed and put on one line, and not kept when nothing
 * is left of it. False, with a report, when the file holds more than is read. */
bool ts_table_add(ts_table_reader *reader, ts_table *table, ts_cell cell);

/* Reports against the file; gives false. */
bool ts_table_fail(ts_table_reader *reader, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* A member of the archive as a tree, or NULL with a report. */
ts_xml *ts_table_member(ts_table_reader *reader, const char *name);

/* An attribute in the arena, or NULL. `space` NULL: one without a namespace. */
const char *ts_table_attribute(const ts_table_reader *reader, const xmlNode *node,
                               const char *space, const char *name);
/* As a whole number from 0 up; `otherwise` where it is missing or is none. */
uint32_t ts_table_whole(const ts_table_reader *reader, const xmlNode *node, const char *space,
                        const char *name, uint32_t otherwise);
/* A decimal number and nothing else. */
bool ts_table_number(const char *text, double *value);
/* "2027-03-09" or "2027-03-09T10:40:00". */
bool ts_table_date(const char *text, double *seconds);

bool ts_table_read_csv(ts_table_reader *reader);
bool ts_table_read_ods(ts_table_reader *reader);
bool ts_table_read_xlsx(ts_table_reader *reader);

/* What the number formats of a workbook make of its cells, by the index of a cell's style. */
typedef enum {
  TS_FORM_NUMBER,
  TS_FORM_PERCENT,
  TS_FORM_DATE,
  TS_FORM_TIME,
  TS_FORM_DATE_TIME,
  TS_FORM_ELAPSED /* [h]:mm: a length of time, also beyond a day */
} ts_form;
typedef struct {
  ts_form *forms;
  size_t count, capacity;
} ts_forms;
/* False with a report. Free `forms->forms`. */
bool ts_table_forms(ts_table_reader *reader, ts_forms *forms);

#endif
