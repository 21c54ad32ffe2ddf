/* Inside an import: import.c (the door, and into the files), import_map.c (the map), import_head.c
 * (what sheets and columns mean), import_rows.c (whom a row is about), import_value.c (what a cell
 * says). */
#ifndef TS_DOSSIER_IMPORT_INT_H
#define TS_DOSSIER_IMPORT_INT_H

#include "dossier/import.h"
#include "dossier/table.h"
#include "dossier/value.h"
#include "dossier/world.h"

/* How numbers and days are written in texts; NULL for what is not said. */
typedef struct {
  const char *unit, *decimal, *dates; /* dates: the letters d, m and y in their order */
  const double *day;                  /* that of the row: what a date with a time is a time of */
} ts_import_form;

/* ---- the map ---------------------------------------------------------------------------- */

typedef enum { TS_ROWS_AGREE, TS_ROWS_LATEST, TS_ROWS_RANGE } ts_import_rows;

typedef struct {
  const char *heading, *at; /* the words of the heading, or the column's letters */
  const char *fact;         /* "none": left out */
  ts_import_form form;
  int line;
  bool used;
} ts_map_column;

typedef struct {
  const char *name, *entity; /* "none": left out */
  uint32_t head;             /* row of the headings, from 1; 0: to be found */
  ts_import_rows rows;
  ts_import_form form;
  ts_edit_evidence evidence;
  ts_map_column *columns;
  size_t count, capacity;
  int line;
  bool used;
} ts_map_sheet;

typedef struct {
  const char *file;
  ts_import_form form; /* of sheets that it does not name */
  ts_map_sheet *sheets;
  size_t count, capacity;
} ts_map;

/* ---- sheets and columns ------------------------------------------------------------------ */

typedef enum {
  TS_COLUMN_FACT,    /* a fact of the row's subject */
  TS_COLUMN_ABOVE,   /* names what the subject stands in, or what that stands in: `entity` */
  TS_COLUMN_SUBJECT, /* the subject's path */
  TS_COLUMN_NAME,    /* a row for each fact: its name */
  TS_COLUMN_VALUE,
  TS_COLUMN_UNIT,
  TS_COLUMN_KIND, /* of evidence */
  TS_COLUMN_BY,
  TS_COLUMN_ON,
  TS_COLUMN_REF
} ts_column_role;

typedef struct {
  uint32_t at;
  ts_column_role role;
  uint32_t position; /* FACT: among those of the entity */
  uint32_t entity;   /* ABOVE */
  ts_import_form form;
} ts_import_column;

typedef struct {
  const ts_table *table;
  const char *file;
  uint32_t head;   /* row of the headings, from 0 */
  uint32_t entity; /* TS_ABSENT: a row for each fact */
  ts_import_column *columns;
  size_t count, capacity;
  ts_map_sheet *map; /* or NULL */
  size_t order;      /* in which it was read */
} ts_import_sheet;

/* ---- what is to change -------------------------------------------------------------------- */

typedef struct ts_import_fresh ts_import_fresh;

/* A subject that is there, or one that is new. */
typedef struct {
  ts_subject subject; /* TS_NO_SUBJECT for a new one */
  ts_import_fresh *fresh;
} ts_import_target;

struct ts_import_fresh {
  uint32_t entity;
  const char *name; /* id, date or what else tells it apart */
  ts_import_target parent;
  const char **texts; /* by position; NULL where nothing is said */
  ts_value *values;
  const char *where;
};

typedef struct {
  ts_import_target target;
  uint32_t position;
  const ts_known_fact *fact;
  const char *to, *where;
  ts_value value;
  ts_edit_evidence evidence; /* kind NULL: none */
} ts_import_set;

struct ts_import {
  ts_arena *arena;
  const ts_dossier *dossier;
  ts_diagnostics *problems;
  ts_map map;
  ts_tables *files[64];
  size_t file_count;
  ts_import_sheet *sheets;
  size_t sheet_count, sheet_capacity;
  ts_import_fresh **fresh;
  size_t fresh_count, fresh_capacity;
  ts_import_set *sets;
  size_t set_count, set_capacity;
  const char **meanings; /* by fact of the vocabulary: as a heading has them, once asked for */
  uint32_t *by_slot;     /* 1 + index of the change of a slot; 0: none */
};

/* Reports against "FILE, SHEET" or a cell of it; gives false. */
bool ts_import_fail(const ts_import *import, const char *where, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
const char *ts_import_sheet_name(const ts_import *import, const char *file, const ts_table *table);
const char *ts_import_cell_name(const ts_import *import, const ts_import_sheet *sheet, uint32_t row,
                                uint32_t column);

/* Words in small letters with '-' between them: "Breath hold (s)" as "breath-hold", and what
 * stands in its brackets to *inside, or NULL. */
const char *ts_import_plain(ts_arena *arena, const char *text, const char **inside);

/* Finds out what a sheet holds. False with reports; a sheet that is left out has no columns. */
bool ts_import_head(ts_import *import, ts_import_sheet *sheet);

/* Works through the rows of a sheet. False with reports. */
bool ts_import_read_rows(ts_import *import, const ts_import_sheet *sheet);

/* What a cell says of a fact, as the dossier would write it, and its value. References are
 * resolved elsewhere: theirs are the words of the cell. NULL with a report. */
const char *ts_import_value(const ts_import *import, const ts_known_fact *fact,
                            const ts_import_form *form, const ts_cell *cell, const char *where,
                            ts_value *value);
/* A cell as plain words. */
const char *ts_import_words(const ts_import *import, const ts_cell *cell);
/* A unit that a number may have behind it. */
bool ts_import_is_unit(const ts_import *import, const char *unit, ts_dim *dim);

/* Notes what is to become of a fact; one that is so already is no change. `merge` says what
 * several rows on one fact come to. */
bool ts_import_set_fact(ts_import *import, ts_import_target target, uint32_t position,
                        const char *text, const ts_value *value, ts_import_rows merge,
                        const char *where, const ts_edit_evidence *evidence);

#endif
