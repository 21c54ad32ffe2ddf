/* Rows: whom each is about, and what it says of them. */
#include "dossier/import_find.h"
#include "dossier/words.h"
#include "quantity/calendar.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

enum {
  PROBLEMS_SHOWN = 500, /* beyond that nobody reads on */
  NEW_MAX = 10 * 1000   /* subjects in one run: each is held against all others */
};

typedef struct {
  ts_import *import;
  const ts_import_sheet *sheet;
  uint32_t row;
  double day; /* of the day it belongs to, where there is one */
} rowing;

static const ts_known_entity *known_entity(const rowing *r) {
  return &r->import->dossier->vocabulary->entities[r->sheet->entity];
}

static const char *where_of(const rowing *r, const ts_cell *cell) {
  return ts_import_cell_name(r->import, r->sheet, r->row, cell ? cell->column : 0);
}

/* The cell of this row in a column that plays a part, or NULL. */
static const ts_cell *cell_of(const rowing *r, ts_column_role role, uint32_t number,
                              const ts_import_column **column) {
  for (size_t i = 0; i < r->sheet->count; i++) {
    const ts_import_column *c = &r->sheet->columns[i];
    if (c->role != role || (role == TS_COLUMN_FACT && c->position != number) ||
        (role == TS_COLUMN_ABOVE && c->entity != number))
      continue;
    if (column != NULL) *column = c;
    return ts_table_cell(r->sheet->table, r->row, c->at);
  }
  return NULL;
}

static const ts_cell *cell_of_fact(const rowing *r, const char *name,
                                   const ts_import_column **column) {
  uint32_t position = ts_fact_position(r->import->dossier->vocabulary, r->sheet->entity, name);
  return position == TS_ABSENT ? NULL : cell_of(r, TS_COLUMN_FACT, position, column);
}

static const char *words_of(const rowing *r, const ts_cell *cell) {
  return cell != NULL ? ts_import_words(r->import, cell) : NULL;
}

/* ---- what it stands in ---------------------------------------------------------------- */

static uint32_t entity_above(const ts_import *import, uint32_t entity) {
  const ts_vocabulary *vocabulary = import->dossier->vocabulary;
  return ts_names_get(&vocabulary->entity_names, vocabulary->entities[entity].def->parent);
}

/* A day is named by its date, in the form that the column has. */
static const char *name_above(const rowing *r, uint32_t entity, const ts_cell *cell,
                              const ts_import_column *column) {
  const ts_vocabulary *vocabulary = r->import->dossier->vocabulary;
  uint32_t date = ts_fact_position(vocabulary, entity, "date");
  ts_import_target found;
  ts_value value;
  const char *words = ts_import_words(r->import, cell);
  if (date == TS_ABSENT || (cell->kind == TS_CELL_TEXT &&
                            ts_import_lookup(r->import, entity, words, ts_import_nobody, &found)))
    return words;
  return ts_import_value(r->import, ts_known_at(vocabulary, entity, date), &column->form, cell,
                         where_of(r, cell), &value);
}

/* The one of an entity that the row names, or the only one there is. False with a report. */
static bool find_above(const rowing *r, uint32_t entity, ts_import_target *found) {
  const ts_import *import = r->import;
  const ts_import_column *column = NULL;
  const ts_cell *cell = cell_of(r, TS_COLUMN_ABOVE, entity, &column);
  const char *name = import->dossier->vocabulary->entities[entity].def->name;
  ts_import_target in = ts_import_nobody, other;
  uint32_t above = entity_above(import, entity);
  if (cell != NULL) {
    const char *words = name_above(r, entity, cell, column);
    if (words == NULL) return false;
    if (above != TS_ABSENT && cell_of(r, TS_COLUMN_ABOVE, above, NULL) != NULL &&
        !find_above(r, above, &in))
      return false;
    return ts_import_one(import, entity, words, in, found, where_of(r, cell));
  }
  size_t at = 0;
  if (column == NULL && ts_import_next(import, entity, in, &at, found) &&
      !ts_import_next(import, entity, in, &at, &other))
    return true;
  return ts_import_fail(import, where_of(r, NULL), "the row does not say of which %s it is; %s",
                        name, column ? "its cell is empty" : "a column of that name does");
}

/* ---- whom it is about ----------------------------------------------------------------- */

/* Facts besides which nothing tells those of an entity apart that stand in one place. */
static const struct {
  const char *entity, *facts[2];
} keys[] = {{"day", {"date", NULL}},
            {"immersion", {"person", NULL}},
            {"post", {"person", "role"}},
            {"record", {"person", "down"}}};

static const char *const *key_of(const char *entity) {
  for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
    if (ts_same(keys[i].entity, entity)) return keys[i].facts;
  return NULL;
}

/* What a cell says of a fact, references resolved. */
static const char *text_of(const rowing *r, const ts_known_fact *fact,
                           const ts_import_column *column, const ts_cell *cell, ts_value *value) {
  ts_import_form form = column->form;
  const char *where = where_of(r, cell);
  if (r->day >= 0) form.day = &r->day;
  const char *text = ts_import_value(r->import, fact, &form, cell, where, value);
  bool reference = fact->def->type == TS_REF || fact->def->type == TS_REFS;
  return text != NULL && reference ? ts_import_resolve(r->import, fact, text, where) : text;
}

/* Whether a target's fact is so already, or would be. */
static bool has(const ts_import *import, ts_import_target target, uint32_t position,
                const ts_known_fact *fact, const char *text, const ts_value *value) {
  const ts_value *own =
      target.fresh ? &target.fresh->values[position]
                   : ts_slot_value(import->dossier,
                                   import->dossier->subjects[target.subject].info.slot + position);
  const char *own_text = target.fresh ? target.fresh->texts[position] : own->text;
  if (!ts_is_number(fact->def->type)) return ts_same(own_text, text);
  return own_text != NULL && own->range.lo == value->range.lo && own->range.hi == value->range.hi;
}

/* By the facts of its key. False with a report; nobody where there is none yet. */
static bool find_by_key(const rowing *r, const char *const *key, ts_import_target in,
                        ts_import_target *found) {
  const ts_import *import = r->import;
  const ts_known_entity *entity = known_entity(r);
  const char *texts[2] = {0};
  uint32_t at_fact[2] = {0};
  ts_value values[2];
  size_t count = 0, matches = 0;
  for (; count < 2 && key[count] != NULL; count++) {
    const ts_import_column *column = NULL;
    const ts_cell *cell = cell_of_fact(r, key[count], &column);
    at_fact[count] = ts_fact_position(import->dossier->vocabulary, r->sheet->entity, key[count]);
    if (cell == NULL)
      return ts_import_fail(import, where_of(r, NULL),
                            "the row lacks \"%s\", by which each %s is "
                            "told from others",
                            key[count], entity->def->name);
    texts[count] =
        text_of(r, ts_known_at(import->dossier->vocabulary, r->sheet->entity, at_fact[count]),
                column, cell, &values[count]);
    if (texts[count] == NULL) return false;
  }
  ts_import_target one;
  for (size_t at = 0; ts_import_next(import, r->sheet->entity, in, &at, &one);) {
    bool same = true;
    for (size_t i = 0; i < count; i++)
      same = same && has(import, one, at_fact[i],
                         ts_known_at(import->dossier->vocabulary, r->sheet->entity, at_fact[i]),
                         texts[i], &values[i]);
    if (same) *found = one, matches++;
  }
  if (matches <= 1) return true;
  return ts_import_fail(import, where_of(r, NULL),
                        "there are %zu of \"%s\" here; a column "
                        "\"subject\" says which: %s is one",
                        matches, texts[0], ts_import_path(import, *found));
}

static bool has_id(const rowing *r) {
  return ts_fact_position(r->import->dossier->vocabulary, r->sheet->entity, "id") != TS_ABSENT;
}

/* By its id, else by its title or name. False with a report; nobody where there is none yet. */
static bool find_by_name(const rowing *r, ts_import_target in, ts_import_target *found) {
  const ts_import *import = r->import;
  const ts_cell *id = cell_of_fact(r, "id", NULL), *name = cell_of_fact(r, "name", NULL);
  if (name == NULL) name = cell_of_fact(r, "title", NULL);
  const char *entity = known_entity(r)->def->name;
  if (id != NULL &&
      ts_import_lookup(import, r->sheet->entity, words_of(r, id), ts_import_nobody, found) &&
      ts_same(ts_import_path(import, *found), words_of(r, id)))
    return true;
  *found = ts_import_nobody;
  size_t same = name ? ts_import_lookup(import, r->sheet->entity, words_of(r, name), in, found) : 0;
  if (id == NULL && same > 1)
    return ts_import_fail(import, where_of(r, name),
                          "\"%s\" goes for more than one %s; a column "
                          "\"id\" says which",
                          words_of(r, name), entity);
  if (id == NULL && same == 1) return true;
  if (id == NULL && name == NULL)
    return ts_import_fail(import, where_of(r, NULL),
                          "the row does not say which %s it is of: its "
                          "\"id\" or its name",
                          entity);
  if (same > 0 && ts_same(entity, "person"))
    return ts_import_fail(import, where_of(r, id),
                          "there is no person \"%s\", but \"%s\" has that "
                          "name",
                          words_of(r, id), ts_import_path(import, *found));
  *found = ts_import_nobody;
  return true;
}

static bool find_part(const rowing *r, ts_import_target in, ts_import_target *found) {
  const char *entity = known_entity(r)->def->name;
  if (ts_same(entity, "production")) {
    *found = (ts_import_target){0, NULL};
    return true;
  }
  if (in.fresh != NULL)
    return ts_import_fail(r->import, where_of(r, NULL),
                          "\"%s\" is new; its %s can be said when it "
                          "is in the dossier",
                          in.fresh->name, entity);
  const char *path =
      ts_arena_printf(r->import->arena, "%s/%s", ts_import_path(r->import, in), entity);
  *found = (ts_import_target){ts_names_get(&r->import->dossier->paths, path), NULL};
  return ts_import_is_somebody(*found) ||
         ts_import_fail(r->import, where_of(r, NULL), "there is no \"%s\" in the dossier", path);
}

/* By its path. */
static bool find_path(const rowing *r, const ts_cell *cell, ts_import_target *found) {
  const ts_dossier *dossier = r->import->dossier;
  const char *path = ts_import_words(r->import, cell);
  found->fresh = NULL;
  found->subject = ts_names_get(&dossier->paths, path);
  if (found->subject == TS_NO_SUBJECT) {
    ts_world_no_path(dossier, "the row is of", path, r->import->problems, where_of(r, cell), 0);
    return false;
  }
  if (r->sheet->entity == TS_ABSENT || dossier->subjects[found->subject].entity == r->sheet->entity)
    return true;
  return ts_import_fail(r->import, where_of(r, cell), "\"%s\" is a %s; expected a %s", path,
                        dossier->subjects[found->subject].info.entity->name,
                        known_entity(r)->def->name);
}

/* ---- those that are new --------------------------------------------------------------- */

/* A name as an id: "Ann O'Lee" as ann-o-lee. */
static const char *id_from(ts_arena *arena, const char *name) {
  ts_text id = {0};
  for (const char *c = name; *c != '\0'; c++) {
    char small = (char)tolower((unsigned char)*c);
    if ((small >= 'a' && small <= 'z') || (small >= '0' && small <= '9'))
      ts_text_add_n(&id, &small, 1);
    else if (id.length > 0 && id.data[id.length - 1] != '-')
      ts_text_add(&id, "-");
  }
  while (id.length > 0 && id.data[id.length - 1] == '-') id.data[--id.length] = '\0';
  const char *copy = ts_arena_copy(arena, id.data ? id.data : "");
  ts_text_release(&id);
  return copy;
}

static bool usable_id(const ts_import *import, const char *id) {
  ts_date date;
  return ts_words_name(id) && !ts_date_read(id, &date) && !ts_same(id, "none") &&
         ts_names_get(&import->dossier->paths, id) == TS_ABSENT;
}

/* What a new one is called: its id; a day's date; else what it is told apart by. */
static const char *name_for(const rowing *r, ts_import_target in, const ts_cell **from) {
  ts_arena *arena = r->import->arena;
  const ts_cell *id = cell_of_fact(r, "id", NULL), *person = cell_of_fact(r, "person", NULL);
  const ts_cell *name = cell_of_fact(r, "name", NULL), *down = cell_of_fact(r, "down", NULL);
  *from = id ? id : name;
  if (id != NULL) return words_of(r, id);
  if (has_id(r)) return name ? id_from(arena, words_of(r, name)) : "";
  if (person == NULL) return words_of(r, cell_of_fact(r, "date", NULL));
  return ts_arena_printf(arena, "%s/%s%s%s", ts_import_path(r->import, in), words_of(r, person),
                         down ? " " : "", down ? words_of(r, down) : "");
}

static bool create(const rowing *r, ts_import_target in, ts_import_target *made) {
  ts_import *import = r->import;
  const ts_known_entity *entity = known_entity(r);
  const ts_cell *from;
  const char *name = name_for(r, in, &from);
  if (import->fresh_count == NEW_MAX)
    return ts_import_fail(import, where_of(r, from), "more than %d are new; take them in parts",
                          NEW_MAX);
  if (has_id(r) && !usable_id(import, name))
    return ts_import_fail(import, where_of(r, from),
                          "a new %s needs an id of its own in a column "
                          "\"id\": letters, digits, '-', '_' and '.'%s%s%s",
                          entity->def->name, name[0] ? "; found \"" : "", name,
                          name[0] ? "\"" : "");
  ts_import_fresh *fresh = ts_arena_alloc(import->arena, sizeof *fresh);
  fresh->entity = r->sheet->entity;
  fresh->name = name;
  fresh->parent = in;
  fresh->texts = ts_arena_alloc(import->arena, (entity->count + 1) * sizeof *fresh->texts);
  fresh->values = ts_arena_alloc(import->arena, (entity->count + 1) * sizeof *fresh->values);
  fresh->where = where_of(r, from);
  if (has_id(r))
    fresh->texts[ts_fact_position(import->dossier->vocabulary, fresh->entity, "id")] = name;
  TS_GROW(import->fresh, import->fresh_count, import->fresh_capacity);
  import->fresh[import->fresh_count++] = fresh;
  *made = (ts_import_target){TS_NO_SUBJECT, fresh};
  return true;
}

/* ---- one row -------------------------------------------------------------------------- */

static bool has_above(const rowing *r, uint32_t above) {
  return cell_of(r, TS_COLUMN_ABOVE, above, NULL) != NULL;
}

/* Whom the row is about, made where nobody is. False with a report. */
static bool find_subject(rowing *r, ts_import_target *found) {
  const ts_known_entity *entity = known_entity(r);
  const ts_cell *path = cell_of(r, TS_COLUMN_SUBJECT, 0, NULL);
  const char *const *key = key_of(entity->def->name);
  uint32_t above = entity_above(r->import, r->sheet->entity);
  ts_import_target in = ts_import_nobody;
  *found = ts_import_nobody;
  if (path != NULL) return find_path(r, path, found);
  if (!entity->def->single && key == NULL && !has_id(r))
    return ts_import_fail(r->import, where_of(r, NULL), "no %s can be imported",
                          entity->def->plural);
  /* One with an id is known without what it stands in. */
  bool needs = above != TS_ABSENT && (!has_id(r) || has_above(r, above));
  if (needs && !find_above(r, above, &in)) return false;
  if (ts_same(entity->def->parent, "day") && ts_import_is_somebody(in)) {
    ts_date date;
    const char *day = ts_import_text(r->import, in, "date");
    if (day != NULL && ts_date_read(day, &date))
      r->day = (double)ts_day_number(date) * TS_DAY_SECONDS;
  }
  bool good = entity->def->single ? find_part(r, in, found)
              : key != NULL       ? find_by_key(r, key, in, found)
                                  : find_by_name(r, in, found);
  if (!good || ts_import_is_somebody(*found)) return good;
  if (above != TS_ABSENT && !needs && !find_above(r, above, &in)) return false;
  return create(r, in, found);
}

static bool set_cell(const rowing *r, ts_import_target target, const ts_import_column *column,
                     const ts_cell *cell) {
  const ts_known_fact *fact =
      ts_known_at(r->import->dossier->vocabulary, r->sheet->entity, column->position);
  ts_import_rows merge = r->sheet->map ? r->sheet->map->rows : TS_ROWS_AGREE;
  const ts_edit_evidence *evidence = r->sheet->map ? &r->sheet->map->evidence : NULL;
  ts_value value;
  const char *text = text_of(r, fact, column, cell, &value);
  if (text == NULL) return false;
  /* What it was found by is no change, even when a name is spaced or spelt in other letters. */
  bool name = ts_same(fact->def->name, "name") || ts_same(fact->def->name, "title");
  bool found_by = name && target.fresh == NULL && has_id(r) &&
                  cell_of_fact(r, "id", NULL) == NULL &&
                  cell_of(r, TS_COLUMN_SUBJECT, 0, NULL) == NULL;
  if (fact->def->type == TS_ID || found_by) return true;
  return ts_import_set_fact(r->import, target, column->position, text, &value, merge,
                            where_of(r, cell), evidence);
}

/* Of nobody known, the cells are looked at all the same, for what is wrong with them. */
static bool judge_cell(const rowing *r, const ts_import_column *column, const ts_cell *cell) {
  ts_value value;
  return text_of(r, ts_known_at(r->import->dossier->vocabulary, r->sheet->entity, column->position),
                 column, cell, &value) != NULL;
}

static bool read_wide(rowing *r) {
  ts_import_target target;
  bool found = find_subject(r, &target), good = found;
  for (size_t i = 0; i < r->sheet->count; i++) {
    const ts_import_column *column = &r->sheet->columns[i];
    const ts_cell *cell = ts_table_cell(r->sheet->table, r->row, column->at);
    if (cell != NULL && column->role == TS_COLUMN_FACT)
      good = (found ? set_cell(r, target, column, cell) : judge_cell(r, column, cell)) && good;
  }
  return good;
}

/* ---- a row for each fact -------------------------------------------------------------- */

static bool read_evidence(const rowing *r, ts_edit_evidence *e) {
  static const char *const kinds[] = {"measured", "certificate", "statement", "estimate"};
  const ts_cell *kind = cell_of(r, TS_COLUMN_KIND, 0, NULL),
                *on = cell_of(r, TS_COLUMN_ON, 0, NULL);
  const ts_cell *by = cell_of(r, TS_COLUMN_BY, 0, NULL);
  ts_date date;
  *e = (ts_edit_evidence){words_of(r, kind), words_of(r, by), words_of(r, on),
                          words_of(r, cell_of(r, TS_COLUMN_REF, 0, NULL))};
  if (!e->kind && !e->by && !e->on) return true;
  if (!e->kind || !e->by || !e->on)
    return ts_import_fail(r->import, where_of(r, NULL),
                          "evidence says all of: known from, by whom, "
                          "on which day");
  bool known = false;
  for (size_t i = 0; i < 4; i++) known = known || ts_same(kinds[i], e->kind);
  if (!known)
    return ts_import_fail(r->import, where_of(r, kind),
                          "impossible choice \"%s\" for \"known "
                          "from\"; the choices are: measured certificate statement estimate",
                          e->kind);
  return ts_date_read(e->on, &date) || ts_import_fail(r->import, where_of(r, on),
                                                      "cannot read \"%s\": expected a date, like "
                                                      "\"2027-03-09\"",
                                                      e->on);
}

/* The position of the fact that the row names. TS_ABSENT with a report. */
static uint32_t fact_named(const rowing *r, ts_subject subject) {
  const ts_dossier *dossier = r->import->dossier;
  const ts_known_entity *entity = &dossier->vocabulary->entities[dossier->subjects[subject].entity];
  const ts_cell *cell = cell_of(r, TS_COLUMN_NAME, 0, NULL);
  const char *name = cell ? words_of(r, cell) : "";
  uint32_t position =
      ts_fact_position(dossier->vocabulary, dossier->subjects[subject].entity, name);
  if (position != TS_ABSENT &&
      !ts_known_at(dossier->vocabulary, dossier->subjects[subject].entity, position)->def->derived)
    return position;
  const char *near = ts_names_nearest(&entity->names, name);
  ts_import_fail(r->import, where_of(r, cell), "unknown fact \"%s\" of \"%s\"%s%s%s", name,
                 entity->def->name, near ? "; the nearest name is \"" : "", near ? near : "",
                 near ? "\"" : "");
  return TS_ABSENT;
}

static bool read_long(const rowing *r) {
  const ts_import_column *column = NULL;
  const ts_cell *cell = cell_of(r, TS_COLUMN_VALUE, 0, &column),
                *path = cell_of(r, TS_COLUMN_SUBJECT, 0, NULL);
  ts_import_target target;
  ts_edit_evidence evidence;
  ts_value value;
  if (cell == NULL) return true;
  if (path == NULL) return ts_import_fail(r->import, where_of(r, cell), "the row names no subject");
  if (!find_path(r, path, &target)) return false;
  uint32_t position = fact_named(r, target.subject);
  if (position == TS_ABSENT || !read_evidence(r, &evidence)) return false;
  const ts_known_fact *fact = ts_world_known(
      r->import->dossier, r->import->dossier->subjects[target.subject].info.slot + position);
  ts_import_column with_unit = *column;
  const char *unit = words_of(r, cell_of(r, TS_COLUMN_UNIT, 0, NULL));
  ts_dim dim;
  if (unit != NULL && ts_import_is_unit(r->import, unit, &dim)) with_unit.form.unit = unit;
  const char *text = text_of(r, fact, &with_unit, cell, &value);
  return text != NULL && ts_import_set_fact(r->import, target, position, text, &value,
                                            TS_ROWS_AGREE, where_of(r, cell), &evidence);
}

/* ---- all of them ---------------------------------------------------------------------- */

typedef struct {
  double when;
  uint32_t row;
} dated;

static int by_date(const void *a, const void *b) {
  const dated *one = a, *other = b;
  if (one->when != other->when) return one->when < other->when ? -1 : 1;
  return one->row < other->row ? -1 : one->row > other->row;
}

/* The date in a row's first column of dates, for a sheet of which the latest row counts. */
static bool date_of(const rowing *r, double *when) {
  for (size_t i = 0; i < r->sheet->count; i++) {
    const ts_import_column *c = &r->sheet->columns[i];
    if (c->role != TS_COLUMN_FACT) continue;
    const ts_known_fact *fact =
        ts_known_at(r->import->dossier->vocabulary, r->sheet->entity, c->position);
    const ts_cell *cell = ts_table_cell(r->sheet->table, r->row, c->at);
    ts_value value;
    if (fact->def->type != TS_DATE || cell == NULL) continue;
    if (ts_import_value(r->import, fact, &c->form, cell, where_of(r, cell), &value) == NULL)
      return false;
    *when = value.range.lo;
    return true;
  }
  return ts_import_fail(r->import, where_of(r, NULL),
                        "the latest row is to count, but this one has "
                        "no date");
}

static bool is_empty(const rowing *r) {
  for (size_t i = 0; i < r->sheet->count; i++)
    if (ts_table_cell(r->sheet->table, r->row, r->sheet->columns[i].at) != NULL) return false;
  return true;
}

static bool latest_last(ts_import *import, const ts_import_sheet *sheet, dated *rows,
                        size_t *count) {
  bool good = true;
  uint32_t last = ts_table_rows(sheet->table);
  *count = 0;
  for (uint32_t row = sheet->head + 1; row < last; row++) {
    rowing r = {import, sheet, row, -1};
    double when = 0;
    if (is_empty(&r)) continue;
    if (sheet->map != NULL && sheet->map->rows != TS_ROWS_AGREE) good = date_of(&r, &when) && good;
    rows[(*count)++] = (dated){when, row};
  }
  if (*count > 0) qsort(rows, *count, sizeof *rows, by_date);
  return good;
}

bool ts_import_read_rows(ts_import *import, const ts_import_sheet *sheet) {
  size_t count = 0;
  dated *rows = ts_alloc((ts_table_rows(sheet->table) + 1) * sizeof *rows);
  bool good = latest_last(import, sheet, rows, &count);
  for (size_t i = 0; i < count; i++) {
    rowing r = {import, sheet, rows[i].row, -1};
    good = (sheet->entity == TS_ABSENT ? read_long(&r) : read_wide(&r)) && good;
    if (ts_count(import->problems, TS_ERROR) < PROBLEMS_SHOWN) continue;
    ts_import_fail(import, ts_import_sheet_name(import, sheet->file, sheet->table),
                   "there is more; mend these first");
    break;
  }
  free(rows);
  return good;
}
