/* Tables that people keep: CSV, OpenDocument and Office Open XML spreadsheets, read into cells.
 *
 * A cell has a kind, as the file states it; what it means is not decided here. Formulas are not
 * computed: the value that the program which saved the file left there counts. Empty cells are not
 * kept. Stage-internal. */
#ifndef TS_DOSSIER_TABLE_H
#define TS_DOSSIER_TABLE_H

#include "base/arena.h"
#include "tankside/diagnostics.h"
#include <stdbool.h>
#include <stdint.h>

typedef enum {
  TS_CELL_TEXT,
  TS_CELL_NUMBER,
  TS_CELL_PERCENT, /* 0.5 is 50 % */
  TS_CELL_DATE,    /* s since 1970-01-01; a time of day may be in it */
  TS_CELL_TIME,    /* s: a time of day, or a length of time */
  TS_CELL_YES_NO,  /* 1 or 0 */
  TS_CELL_FAULT    /* the spreadsheet's own error, as text */
} ts_cell_kind;

typedef struct {
  uint32_t row, column; /* from 0 */
  ts_cell_kind kind;
  const char *text; /* TEXT and FAULT: without white space at its ends, on one line */
  double number;
} ts_cell;

typedef struct {
  const char *name; /* of a CSV: the file's, without folder and ending */
  ts_cell *cells;   /* by row, then by column */
  size_t count, capacity;
} ts_table;

typedef struct {
  const char *file; /* as given */
  ts_table *tables;
  size_t count, capacity;
  size_t cells; /* in all tables */
} ts_tables;

enum {
  TS_TABLE_FILE_LIMIT = 32 << 20, /* bytes */
  TS_TABLE_CELLS = 500 * 1000,    /* in one file */
  TS_TABLE_ROWS = 1 << 20,
  TS_TABLE_COLUMNS = 1 << 14
};

/* Reads a file's bytes, which its content tells apart, not its name. Texts go to the arena. False
 * with reports. Release *into in any case. */
bool ts_tables_read(ts_tables *into, ts_arena *arena, const char *file, const char *bytes,
                    size_t length, ts_diagnostics *problems);
void ts_tables_release(ts_tables *tables);

/* The cell at a place, or NULL where it is empty. */
const ts_cell *ts_table_cell(const ts_table *table, uint32_t row, uint32_t column);

/* One more than the last row that has a cell. */
uint32_t ts_table_rows(const ts_table *table);

/* "B7" for row 6 and column 1. */
enum { TS_CELL_NAME = 16 };
char *ts_cell_name(uint32_t row, uint32_t column, char out[TS_CELL_NAME]);

#endif
