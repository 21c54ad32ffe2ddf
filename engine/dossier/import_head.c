/* What a sheet holds and what its columns are: by the map, else by the words of its name and of
 * its headings. */
#include "dossier/import_int.h"
#include "dossier/words.h"

#include <ctype.h>
#include <string.h>

enum { HEAD_SEARCHED = 20, OFFERED = 4 };

const char *ts_import_plain(ts_arena *arena, const char *text, const char **inside) {
  size_t length = strlen(text), cut = strcspn(text, "([");
  ts_text plain = {0};
  *inside = NULL;
  if (cut > 0 && cut < length) {
    size_t end = strcspn(text + cut + 1, ")]");
    *inside = ts_words_trim(arena, ts_arena_copy_n(arena, text + cut + 1, end));
  }
  for (size_t i = 0; i < (cut > 0 ? cut : length); i++) {
    unsigned char c = (unsigned char)text[i];
    if (isalnum(c) || c >= 0x80) {
      char small = (char)(c < 0x80 ? tolower(c) : c);
      ts_text_add_n(&plain, &small, 1);
    } else if (plain.length > 0 && plain.data[plain.length - 1] != '-') {
      ts_text_add(&plain, "-");
    }
  }
  while (plain.length > 0 && plain.data[plain.length - 1] == '-') plain.length--;
  const char *copy = ts_arena_copy_n(arena, plain.data ? plain.data : "", plain.length);
  ts_text_release(&plain);
  return copy;
}

/* ---- one heading ---------------------------------------------------------------------- */

typedef enum { NOTHING, SURE, LIKELY, SEVERAL } certainty;

typedef struct {
  certainty sure;
  ts_import_column column;
  const char *fact;    /* LIKELY: its name; NOTHING: the nearest, or NULL */
  const char *offered; /* SEVERAL: the names */
} match;

static const char *plain(const ts_import *import, const char *text) {
  const char *inside;
  return ts_import_plain(import->arena, text, &inside);
}

/* Whether a word, with '-' between words, is among those of a text. */
static bool has_word(const char *text, const char *word, size_t length) {
  for (;;) {
    size_t here = strcspn(text, "-");
    if (here == length && memcmp(text, word, length) == 0) return true;
    if (text[here] == '\0') return false;
    text += here + 1;
  }
}

/* Whether every word of a heading is in one of two texts. */
static bool words_among(const char *some, const char *one, const char *other) {
  for (const char *at = some; *at != '\0';) {
    size_t length = strcspn(at, "-");
    if (!has_word(one, at, length) && !has_word(other, at, length)) return false;
    at += length + (at[length] == '-');
  }
  return some[0] != '\0';
}

/* The meaning of a fact as a heading would have it; worked out once for all facts. */
static const char *meaning_of(const ts_import *import, uint32_t entity, uint32_t position) {
  const ts_vocabulary *vocabulary = import->dossier->vocabulary;
  size_t fact = vocabulary->entities[entity].facts[position];
  if (import->meanings[fact] == NULL)
    import->meanings[fact] = plain(import, vocabulary->facts[fact].def->meaning);
  return import->meanings[fact];
}

static match matched(ts_column_role role, uint32_t number) {
  match m = {.sure = SURE, .column = {.role = role}};
  m.column.position = m.column.entity = number;
  return m;
}

/* A heading that names what the subject stands in: the site, the day or the task. */
static bool names_above(const ts_import *import, uint32_t entity, const char *words, match *m) {
  const ts_vocabulary *vocabulary = import->dossier->vocabulary;
  const char *above = vocabulary->entities[entity].def->parent;
  for (; above != NULL && !ts_same(above, "dossier");) {
    uint32_t number = ts_names_get(&vocabulary->entity_names, above);
    if (ts_same(words, above) || (ts_same(above, "day") && ts_same(words, "date"))) {
      *m = matched(TS_COLUMN_ABOVE, number);
      return true;
    }
    above = vocabulary->entities[number].def->parent;
  }
  return false;
}

/* A heading that is a fact's name or meaning, or names what the subject stands in. */
static bool known_heading(const ts_import *import, uint32_t entity, const char *words, match *m) {
  const ts_vocabulary *vocabulary = import->dossier->vocabulary;
  uint32_t position = ts_fact_position(vocabulary, entity, words);
  for (uint32_t i = 0; position == TS_ABSENT && i < vocabulary->entities[entity].count; i++)
    if (ts_same(meaning_of(import, entity, i), words)) position = i;
  if (position != TS_ABSENT && !ts_known_at(vocabulary, entity, position)->def->derived) {
    *m = matched(TS_COLUMN_FACT, position);
    return true;
  }
  if (ts_same(words, "subject")) {
    *m = matched(TS_COLUMN_SUBJECT, 0);
    return true;
  }
  return names_above(import, entity, words, m);
}

/* A heading whose words are all in the name and the meaning of one fact, or of several. */
static match by_meaning(const ts_import *import, uint32_t entity, const char *words) {
  const ts_vocabulary *vocabulary = import->dossier->vocabulary;
  match m = {0};
  size_t found = 0;
  ts_text offered = {0};
  for (uint32_t i = 0; i < vocabulary->entities[entity].count; i++) {
    const ts_fact_def *def = ts_known_at(vocabulary, entity, i)->def;
    if (def->derived || !words_among(words, def->name, meaning_of(import, entity, i))) continue;
    if (++found <= OFFERED) ts_text_addf(&offered, "%s\"%s\"", found > 1 ? ", " : "", def->name);
    m.column = matched(TS_COLUMN_FACT, i).column;
    m.fact = def->name;
  }
  /* One word in common may be chance. */
  m.sure = found == 0 ? NOTHING : found == 1 && strchr(words, '-') ? LIKELY : SEVERAL;
  m.offered = ts_arena_copy(import->arena, offered.data);
  ts_text_release(&offered);
  return m;
}

/* What is known for sure; else by its meaning; else the nearest name. */
static match match_heading(const ts_import *import, uint32_t entity, const char *words) {
  match m = {0};
  if (known_heading(import, entity, words, &m)) return m;
  m = by_meaning(import, entity, words);
  if (m.sure == NOTHING)
    m.fact = ts_names_nearest(&import->dossier->vocabulary->entities[entity].names, words);
  return m;
}

/* ---- a row for each fact -------------------------------------------------------------- */

static const struct {
  const char *words;
  ts_column_role role;
} long_form[] = {{"subject", TS_COLUMN_SUBJECT}, {"fact", TS_COLUMN_NAME},
                 {"new-value", TS_COLUMN_VALUE}, {"unit", TS_COLUMN_UNIT},
                 {"known-from", TS_COLUMN_KIND}, {"by-whom", TS_COLUMN_BY},
                 {"on-which-day", TS_COLUMN_ON}, {"kept-where", TS_COLUMN_REF}};

static bool long_role(const char *words, ts_column_role *role) {
  for (size_t i = 0; i < sizeof long_form / sizeof *long_form; i++)
    if (ts_same(long_form[i].words, words)) {
      *role = long_form[i].role;
      return true;
    }
  return false;
}

static void add_column(ts_import_sheet *sheet, ts_import_column column) {
  TS_GROW(sheet->columns, sheet->count, sheet->capacity);
  sheet->columns[sheet->count++] = column;
}

/* True when the row is the heading of a table with a row for each fact; fills the columns. */
static bool is_long(const ts_import *import, ts_import_sheet *sheet, uint32_t row) {
  unsigned found = 0;
  sheet->count = 0;
  for (size_t i = 0; i < sheet->table->count; i++) {
    const ts_cell *cell = &sheet->table->cells[i];
    ts_import_column column = {.at = cell->column,
                               .form = sheet->map ? sheet->map->form : import->map.form};
    if (cell->row != row || cell->kind != TS_CELL_TEXT) continue;
    if (!long_role(plain(import, cell->text), &column.role)) continue;
    found |= 1u << column.role;
    add_column(sheet, column);
  }
  unsigned needed = 1u << TS_COLUMN_SUBJECT | 1u << TS_COLUMN_NAME | 1u << TS_COLUMN_VALUE;
  if ((found & needed) == needed) return true;
  sheet->count = 0;
  return false;
}

/* ---- which entity, which row ---------------------------------------------------------- */

/* The first rows of a table, any of which may hold its headings. */
typedef struct {
  const char **words; /* by cell: those of a text as a heading; else NULL */
  size_t count;
} head_rows;

static head_rows first_rows(const ts_import *import, const ts_table *table) {
  head_rows rows = {0};
  while (rows.count < table->count && table->cells[rows.count].row < HEAD_SEARCHED) rows.count++;
  rows.words = ts_arena_alloc(import->arena, (rows.count + 1) * sizeof *rows.words);
  for (size_t i = 0; i < rows.count; i++)
    if (table->cells[i].kind == TS_CELL_TEXT) rows.words[i] = plain(import, table->cells[i].text);
  return rows;
}

/* The row, among the first, with most headings that the entity knows; how many those are. */
static size_t best_row(const ts_import *import, const ts_table *table, const head_rows *rows,
                       uint32_t entity, uint32_t *row) {
  size_t known[HEAD_SEARCHED] = {0}, best = 0;
  match m;
  for (size_t i = 0; i < rows->count; i++)
    if (rows->words[i] != NULL && known_heading(import, entity, rows->words[i], &m))
      known[table->cells[i].row]++;
  for (uint32_t r = 0; r < HEAD_SEARCHED; r++)
    if (known[r] > best) best = known[r], *row = r;
  return best;
}

static uint32_t entity_named(const ts_import *import, const char *name) {
  const ts_vocabulary *vocabulary = import->dossier->vocabulary;
  for (uint32_t i = 0; i < vocabulary->entity_count; i++) {
    const ts_entity_def *def = vocabulary->entities[i].def;
    if (def->parent != NULL && (ts_same(def->name, name) || ts_same(def->plural, name))) return i;
  }
  return TS_ABSENT;
}

/* The one entity that knows most headings of a row, and two at least. */
static uint32_t entity_by_headings(const ts_import *import, const ts_table *table,
                                   const head_rows *rows, uint32_t *row) {
  size_t best = 1;
  uint32_t found = TS_ABSENT;
  for (uint32_t i = 0; i < import->dossier->vocabulary->entity_count; i++) {
    uint32_t at = 0;
    if (import->dossier->vocabulary->entities[i].def->parent == NULL) continue;
    size_t known = best_row(import, table, rows, i, &at);
    if (known == best) found = TS_ABSENT;
    if (known > best) best = known, found = i, *row = at;
  }
  return found;
}

static bool unknown_entity(const ts_import *import, const ts_map_sheet *map) {
  const char *near = ts_names_nearest(&import->dossier->vocabulary->entity_names, map->entity);
  ts_report(import->problems, TS_ERROR, import->map.file, map->line, "unknown entity \"%s\"%s%s%s",
            map->entity, near ? "; the nearest is \"" : "", near ? near : "", near ? "\"" : "");
  return false;
}

/* Fills the entity and the row of the headings. False: with a report, or *left_out. */
static bool find_entity(const ts_import *import, ts_import_sheet *sheet, bool *left_out) {
  const ts_map_sheet *map = sheet->map;
  const char *where = ts_import_sheet_name(import, sheet->file, sheet->table);
  bool given = map != NULL && map->entity != NULL;
  head_rows rows = first_rows(import, sheet->table);
  sheet->entity = entity_named(import, given ? map->entity : plain(import, sheet->table->name));
  if (given && sheet->entity == TS_ABSENT) return unknown_entity(import, map);
  if (sheet->entity == TS_ABSENT) {
    sheet->entity = entity_by_headings(import, sheet->table, &rows, &sheet->head);
    if (sheet->entity == TS_ABSENT) {
      *left_out = true;
      ts_report(
          import->problems, TS_WARNING, where, 0,
          "is left out: neither its name nor its headings say of what it is; a map may, as in "
          "<sheet name=\"%s\" entity=\"person\"/>",
          sheet->table->name);
      return false;
    }
    ts_report(import->problems, TS_NOTE, where, 0, "is taken for %s, by its headings",
              import->dossier->vocabulary->entities[sheet->entity].def->plural);
  } else if (best_row(import, sheet->table, &rows, sheet->entity, &sheet->head) == 0 && !given) {
    return ts_import_fail(import, where, "no heading in it is a fact of \"%s\"",
                          import->dossier->vocabulary->entities[sheet->entity].def->name);
  }
  if (map != NULL && map->head > 0) sheet->head = map->head - 1;
  return true;
}

/* ---- the columns ---------------------------------------------------------------------- */

static ts_map_column *mapped(const ts_import *import, const ts_import_sheet *sheet,
                             const ts_cell *cell) {
  char letters[TS_CELL_NAME];
  ts_cell_name(0, cell->column, letters);
  letters[strcspn(letters, "1")] = '\0';
  for (size_t i = 0; sheet->map != NULL && i < sheet->map->count; i++) {
    ts_map_column *column = &sheet->map->columns[i];
    if (ts_same(column->at, letters) ||
        (column->heading && ts_same(plain(import, column->heading), plain(import, cell->text))))
      return column;
  }
  return NULL;
}

/* The unit of a number: the map's, else what stands in the heading's brackets. */
static ts_import_form form_of(const ts_import *import, const ts_import_sheet *sheet,
                              const ts_map_column *map, const char *inside) {
  ts_import_form form = map ? map->form : sheet->map ? sheet->map->form : import->map.form;
  ts_dim dim;
  if (form.unit == NULL && inside != NULL && ts_import_is_unit(import, inside, &dim))
    form.unit = inside;
  return form;
}

/* A unit that does not fit its fact is told once, not for every row. */
static bool unit_fits(const ts_import *import, const ts_import_sheet *sheet,
                      const ts_import_column *column, const char *where) {
  ts_dim dim = TS_NUMBER;
  char is[64], wanted[64];
  if (column->role != TS_COLUMN_FACT || column->form.unit == NULL) return true;
  const ts_known_fact *fact =
      ts_known_at(import->dossier->vocabulary, sheet->entity, column->position);
  if (fact->def->type == TS_QUANTITY && ts_import_is_unit(import, column->form.unit, &dim) &&
      dim == fact->dim)
    return true;
  if (fact->def->type != TS_QUANTITY && fact->def->type != TS_COUNT) return true;
  return ts_import_fail(import, where, "the unit \"%s\" is one of %s; \"%s\" is %s, like \"%s\"",
                        column->form.unit, ts_dim_name(dim, is, sizeof is), fact->def->name,
                        ts_dim_name(fact->dim, wanted, sizeof wanted), fact->def->high);
}

static bool twice(const ts_import *import, const ts_import_sheet *sheet,
                  const ts_import_column *column, const char *where) {
  char first[TS_CELL_NAME];
  for (size_t i = 0; i < sheet->count; i++) {
    const ts_import_column *c = &sheet->columns[i];
    if (c->role != column->role || c->position != column->position) continue;
    ts_import_fail(import, where, "means the same as %s; a map may leave one of them out",
                   ts_cell_name(sheet->head, c->at, first));
    return true;
  }
  return false;
}

/* What a heading is when the map does not say, with reports of what is not sure. */
static bool judge(const ts_import *import, const ts_import_sheet *sheet, const char *heading,
                  const match *m, const char *where) {
  const char *entity = import->dossier->vocabulary->entities[sheet->entity].def->name;
  if (m->sure == SURE) return true;
  if (m->sure == LIKELY) {
    ts_report(import->problems, TS_NOTE, where, 0, "\"%s\" is taken for \"%s\"", heading, m->fact);
    return true;
  }
  if (m->sure == SEVERAL)
    return ts_import_fail(import, where,
                          "\"%s\" could mean %s of \"%s\"; a map says which, or that "
                          "it is left out",
                          heading, m->offered, entity);
  if (m->fact != NULL)
    return ts_import_fail(import, where,
                          "\"%s\" is no fact of \"%s\"; the nearest name is \"%s\"; "
                          "a map says which it is, or that it is left out",
                          heading, entity, m->fact);
  ts_report(import->problems, TS_WARNING, where, 0,
            "\"%s\" is left out: it is no fact of \"%s\"; a map may say what it is", heading,
            entity);
  return true;
}

static bool add_heading(const ts_import *import, ts_import_sheet *sheet, const ts_cell *cell) {
  const char *inside, *words = ts_import_plain(import->arena, cell->text, &inside);
  const char *where = ts_import_cell_name(import, sheet, cell->row, cell->column);
  ts_map_column *map = mapped(import, sheet, cell);
  if (map != NULL) map->used = true;
  if (map != NULL && ts_same(map->fact, "none")) return true;
  if (map != NULL && map->fact != NULL) words = map->fact;
  match m = match_heading(import, sheet->entity, words);
  if (map != NULL && map->fact != NULL && m.sure != SURE) {
    const char *near =
        ts_names_nearest(&import->dossier->vocabulary->entities[sheet->entity].names, words);
    ts_report(import->problems, TS_ERROR, import->map.file, map->line,
              "unknown fact \"%s\" of \"%s\"%s%s%s", words,
              import->dossier->vocabulary->entities[sheet->entity].def->name,
              near ? "; the nearest name is \"" : "", near ? near : "", near ? "\"" : "");
    return false;
  }
  if (!judge(import, sheet, cell->text, &m, where)) return false;
  if (m.sure == NOTHING) return true;
  m.column.at = cell->column;
  m.column.form = form_of(import, sheet, map, inside);
  if (!unit_fits(import, sheet, &m.column, where) || twice(import, sheet, &m.column, where))
    return false;
  add_column(sheet, m.column);
  return true;
}

/* Columns of the map that the sheet has not. */
static bool all_used(const ts_import *import, const ts_import_sheet *sheet) {
  bool good = true;
  for (size_t i = 0; sheet->map != NULL && i < sheet->map->count; i++) {
    const ts_map_column *column = &sheet->map->columns[i];
    if (column->used) continue;
    ts_report(import->problems, TS_ERROR, import->map.file, column->line,
              "sheet \"%s\" has no column \"%s\" in row %u", sheet->table->name,
              column->heading ? column->heading : column->at, (unsigned)sheet->head + 1);
    good = false;
  }
  return good;
}

static bool read_headings(const ts_import *import, ts_import_sheet *sheet) {
  bool good = true;
  for (size_t i = 0; i < sheet->table->count; i++) {
    const ts_cell *cell = &sheet->table->cells[i];
    if (cell->row == sheet->head && cell->kind == TS_CELL_TEXT)
      good = add_heading(import, sheet, cell) && good;
  }
  return all_used(import, sheet) && good;
}

/* ---- the sheet ------------------------------------------------------------------------ */

static ts_map_sheet *map_of(ts_import *import, const char *name) {
  for (size_t i = 0; i < import->map.count; i++)
    if (ts_same(import->map.sheets[i].name, name)) return &import->map.sheets[i];
  return NULL;
}

/* A sheet of one column that is not called like anything in a dossier is a page of explanations. */
static bool is_table(const ts_import *import, const ts_table *table) {
  if (entity_named(import, plain(import, table->name)) != TS_ABSENT) return true;
  for (size_t i = 0; i < table->count; i++)
    if (table->cells[i].column > 0) return true;
  return false;
}

bool ts_import_head(ts_import *import, ts_import_sheet *sheet) {
  bool left_out = false;
  sheet->map = map_of(import, sheet->table->name);
  sheet->entity = TS_ABSENT;
  if (sheet->map != NULL) sheet->map->used = true;
  if (sheet->map != NULL && ts_same(sheet->map->entity, "none")) return true;
  if (sheet->map == NULL && !is_table(import, sheet->table)) return true;
  for (uint32_t row = 0; row < HEAD_SEARCHED && row < ts_table_rows(sheet->table); row++) {
    sheet->head = row;
    if (is_long(import, sheet, row)) return true;
  }
  sheet->head = 0;
  if (!find_entity(import, sheet, &left_out)) return left_out;
  return read_headings(import, sheet);
}
