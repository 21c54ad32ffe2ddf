/* The door of an import: tables in, changes out, and those into the files. */
#include "base/file.h"
#include "dossier/import_find.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

enum { FILES = sizeof((ts_import *)0)->files / sizeof(ts_tables *) };

ts_import *ts_import_new(const ts_dossier *dossier, ts_diagnostics *problems) {
  ts_import *import = ts_alloc(sizeof *import);
  *import = (ts_import){.arena = ts_arena_new(), .dossier = dossier, .problems = problems};
  import->meanings = ts_arena_alloc(import->arena, (dossier->vocabulary->fact_count + 1) *
                                                       sizeof *import->meanings);
  import->by_slot = ts_alloc((dossier->slot_count + 1) * sizeof *import->by_slot);
  return import;
}

void ts_import_free(ts_import *import) {
  if (import == NULL) return;
  for (size_t i = 0; i < import->file_count; i++) {
    ts_tables_release(import->files[i]);
    free(import->files[i]);
  }
  for (size_t i = 0; i < import->sheet_count; i++) free(import->sheets[i].columns);
  for (size_t i = 0; i < import->map.count; i++) free(import->map.sheets[i].columns);
  free(import->sheets);
  free(import->map.sheets);
  free(import->fresh);
  free(import->sets);
  free(import->by_slot);
  ts_arena_free(import->arena);
  free(import);
}

bool ts_import_fail(const ts_import *import, const char *where, const char *format, ...) {
  va_list list;
  char *text = NULL;
  va_start(list, format);
  if (vasprintf(&text, format, list) < 0) ts_out_of_memory();
  va_end(list);
  ts_report(import->problems, TS_ERROR, where, 0, "%s", text);
  free(text);
  return false;
}

/* A CSV has one sheet, which is called like the file. */
const char *ts_import_sheet_name(const ts_import *import, const char *file, const ts_table *table) {
  const char *name = ts_path_name(file);
  size_t length = strlen(table->name);
  bool same =
      strncmp(name, table->name, length) == 0 && strchr(name + length, '.') == name + length;
  return same ? file : ts_arena_printf(import->arena, "%s, %s", file, table->name);
}

const char *ts_import_cell_name(const ts_import *import, const ts_import_sheet *sheet, uint32_t row,
                                uint32_t column) {
  char cell[TS_CELL_NAME];
  return ts_arena_printf(import->arena, "%s, %s",
                         ts_import_sheet_name(import, sheet->file, sheet->table),
                         ts_cell_name(row, column, cell));
}

bool ts_import_table(ts_import *import, const char *file, const char *bytes, size_t length) {
  if (import->file_count == FILES)
    return ts_import_fail(import, file, "is one file too many; at most %d at once", (int)FILES);
  ts_tables *tables = import->files[import->file_count++] = ts_alloc(sizeof *tables);
  return ts_tables_read(tables, import->arena, file, bytes, length, import->problems);
}

/* ---- changes -------------------------------------------------------------------------- */

static const ts_value *value_now(const ts_import *import, const ts_import_set *set) {
  const ts_subject_entry *entry = &import->dossier->subjects[set->target.subject];
  return ts_slot_value(import->dossier, entry->info.slot + set->position);
}

static bool same_value(const ts_known_fact *fact, const ts_value *a, const char *a_text,
                       const ts_value *b, const char *b_text) {
  if (!ts_is_fact(fact->def->type)) return ts_same(a_text, b_text);
  return a->range.lo == b->range.lo && a->range.hi == b->range.hi && a->choices == b->choices &&
         a->certain == b->certain && a->state == b->state;
}

/* From the lower to the higher of both, in the unit of the first. */
static bool widen(const ts_import *import, ts_import_set *set, const ts_value *value) {
  char text[128];
  const ts_fact_def *def = set->fact->def;
  if (def->type != TS_QUANTITY && def->type != TS_COUNT) return false;
  if (value->range.lo < set->value.range.lo) set->value.range.lo = value->range.lo;
  if (value->range.hi > set->value.range.hi) set->value.range.hi = value->range.hi;
  ts_system system = import->dossier->system;
  const char *unit = system == TS_US && def->unit_us ? def->unit_us : def->unit;
  ts_quantity_write(import->dossier->units, set->value.range, set->fact->dim, unit, system, text,
                    sizeof text);
  set->to = ts_arena_copy(import->arena, text);
  return true;
}

/* A second word on a fact that was spoken of already. */
static bool again(const ts_import *import, ts_import_set *set, const char *text,
                  const ts_value *value, ts_import_rows merge, const char *where) {
  if (same_value(set->fact, &set->value, set->to, value, text)) return true;
  if (merge == TS_ROWS_RANGE && widen(import, set, value)) return true;
  if (merge != TS_ROWS_AGREE) {
    set->to = text;
    set->value = *value;
    set->where = where;
    return true;
  }
  return ts_import_fail(import, where, "\"%s\" for \"%s\" of %s, which is \"%s\" in %s", text,
                        set->fact->def->name, ts_import_path(import, set->target), set->to,
                        set->where);
}

static bool set_fresh(ts_import *import, ts_import_set set) {
  ts_import_fresh *fresh = set.target.fresh;
  const char *before = fresh->texts[set.position];
  if (before == NULL) {
    fresh->texts[set.position] = set.to;
    fresh->values[set.position] = set.value;
    return true;
  }
  return same_value(set.fact, &fresh->values[set.position], before, &set.value, set.to) ||
         ts_import_fail(import, set.where,
                        "\"%s\" for \"%s\" of the new %s, which is \"%s\" in "
                        "another row",
                        set.to, set.fact->def->name, fresh->name, before);
}

bool ts_import_set_fact(ts_import *import, ts_import_target target, uint32_t position,
                        const char *text, const ts_value *value, ts_import_rows merge,
                        const char *where, const ts_edit_evidence *evidence) {
  const ts_dossier *dossier = import->dossier;
  uint32_t entity = target.fresh ? target.fresh->entity : dossier->subjects[target.subject].entity;
  ts_import_set set = {.target = target,
                       .position = position,
                       .fact = ts_known_at(dossier->vocabulary, entity, position),
                       .to = text,
                       .where = where,
                       .value = *value};
  if (evidence != NULL) set.evidence = *evidence;
  if (target.fresh != NULL) return set_fresh(import, set);
  uint32_t *number = &import->by_slot[dossier->subjects[target.subject].info.slot + position];
  if (*number > 0) return again(import, &import->sets[*number - 1], text, value, merge, where);
  TS_GROW(import->sets, import->set_count, import->set_capacity);
  import->sets[import->set_count++] = set;
  *number = (uint32_t)import->set_count;
  return true;
}

/* ---- the order of the sheets ---------------------------------------------------------- */

static int by_entity(const void *a, const void *b) {
  const ts_import_sheet *one = a, *other = b;
  if (one->entity != other->entity) return one->entity < other->entity ? -1 : 1;
  return (one->order > other->order) - (one->order < other->order);
}

static bool read_heads(ts_import *import) {
  bool good = true;
  size_t used = 0;
  for (size_t f = 0; f < import->file_count; f++) {
    const ts_tables *file = import->files[f];
    for (size_t t = 0; t < file->count; t++) {
      ts_import_sheet sheet = {
          .table = &file->tables[t], .file = file->file, .order = import->sheet_count};
      bool read = ts_import_head(import, &sheet);
      used += sheet.count > 0 || !read;
      good = read && good;
      TS_GROW(import->sheets, import->sheet_count, import->sheet_capacity);
      import->sheets[import->sheet_count++] = sheet;
    }
  }
  if (used == 0 && import->file_count > 0)
    return ts_import_fail(import, import->files[0]->file,
                          "nothing in it says anything of a dossier");
  return good;
}

static bool map_was_used(const ts_import *import) {
  bool good = true;
  for (size_t i = 0; i < import->map.count; i++) {
    const ts_map_sheet *sheet = &import->map.sheets[i];
    if (sheet->used || sheet->name == NULL) continue;
    ts_report(import->problems, TS_ERROR, import->map.file, sheet->line,
              "no file has a sheet \"%s\"", sheet->name);
    good = false;
  }
  return good;
}

/* What must be stated of those that are new. */
static bool all_complete(const ts_import *import) {
  bool good = true;
  for (size_t i = 0; i < import->fresh_count; i++) {
    const ts_import_fresh *fresh = import->fresh[i];
    const ts_known_entity *entity = &import->dossier->vocabulary->entities[fresh->entity];
    for (uint32_t p = 0; p < entity->count; p++) {
      const ts_fact_def *def = ts_known_at(import->dossier->vocabulary, fresh->entity, p)->def;
      if (ts_is_fact(def->type) || def->optional || def->derived || fresh->texts[p]) continue;
      good = ts_import_fail(import, fresh->where, "the new %s \"%s\" lacks \"%s\": %s",
                            entity->def->name, fresh->name, def->name, def->meaning);
    }
  }
  return good;
}

static void drop_unchanged(ts_import *import) {
  size_t kept = 0;
  for (size_t i = 0; i < import->set_count; i++) {
    const ts_import_set *set = &import->sets[i];
    const ts_value *now = value_now(import, set);
    if (!same_value(set->fact, now, now->text, &set->value, set->to)) import->sets[kept++] = *set;
  }
  import->set_count = kept;
}

bool ts_import_work_out(ts_import *import) {
  bool good = read_heads(import);
  good = map_was_used(import) && good;
  if (import->sheet_count > 0)
    qsort(import->sheets, import->sheet_count, sizeof *import->sheets, by_entity);
  for (size_t i = 0; i < import->sheet_count; i++)
    if (import->sheets[i].count > 0) good = ts_import_read_rows(import, &import->sheets[i]) && good;
  good = good && all_complete(import);
  drop_unchanged(import);
  return good;
}

/* ---- what comes of it ----------------------------------------------------------------- */

/* How many facts are stated of a new one. */
static size_t stated(const ts_import *import, const ts_import_fresh *fresh) {
  size_t count = 0;
  for (uint32_t p = 0; p < import->dossier->vocabulary->entities[fresh->entity].count; p++)
    count += fresh->texts[p] != NULL;
  return count;
}

size_t ts_import_count(const ts_import *import) {
  size_t count = import->set_count;
  for (size_t i = 0; i < import->fresh_count; i++) count += stated(import, import->fresh[i]);
  return count;
}

static ts_import_change of_fresh(const ts_import *import, size_t index) {
  size_t i = 0;
  uint32_t p = 0;
  while (index >= stated(import, import->fresh[i])) index -= stated(import, import->fresh[i++]);
  const ts_import_fresh *fresh = import->fresh[i];
  for (;; p++)
    if (fresh->texts[p] != NULL && index-- == 0) break;
  const ts_vocabulary *vocabulary = import->dossier->vocabulary;
  return (ts_import_change){.subject = fresh->name,
                            .entity = vocabulary->entities[fresh->entity].def->name,
                            .fact = ts_known_at(vocabulary, fresh->entity, p)->def->name,
                            .to = fresh->texts[p],
                            .where = fresh->where,
                            .fresh = true};
}

ts_import_change ts_import_at(const ts_import *import, size_t index) {
  if (index >= import->set_count) return of_fresh(import, index - import->set_count);
  const ts_import_set *set = &import->sets[index];
  const ts_subject_info *info = &import->dossier->subjects[set->target.subject].info;
  return (ts_import_change){.subject = info->path,
                            .entity = info->entity->name,
                            .fact = set->fact->def->name,
                            .from = value_now(import, set)->text,
                            .to = set->to,
                            .where = set->where};
}

static bool rewrite_set(const ts_import *import, const ts_import_set *set, ts_rewrite *rewrite) {
  const ts_subject_entry *entry = &import->dossier->subjects[set->target.subject];
  uint32_t slot = entry->info.slot + set->position;
  char path[256];
  if (!ts_rewrite_fact(rewrite, slot, set->to)) return false;
  if (set->evidence.kind == NULL) return true;
  ts_edit_evidence evidence = set->evidence;
  if (evidence.ref == NULL) evidence.ref = set->where;
  ts_rewrite_evidence(rewrite, entry->file, ts_slot_path(import->dossier, slot, path, sizeof path),
                      &evidence);
  return true;
}

/* New ones come after what they stand in: the sheets were read in that order. */
static bool rewrite_fresh(const ts_import *import, ts_rewrite *rewrite) {
  const ts_vocabulary *vocabulary = import->dossier->vocabulary;
  ts_rewrite_element **made =
      ts_arena_alloc(import->arena, (import->fresh_count + 1) * sizeof *made);
  for (size_t i = 0; i < import->fresh_count; i++) {
    const ts_import_fresh *fresh = import->fresh[i];
    const ts_known_entity *entity = &vocabulary->entities[fresh->entity];
    ts_rewrite_element *in = NULL;
    for (size_t j = 0; j < i; j++)
      if (import->fresh[j] == fresh->parent.fresh) in = made[j];
    made[i] = ts_rewrite_add(rewrite, entity->def, fresh->parent.subject, in);
    if (made[i] == NULL) return false;
    for (uint32_t p = 0; p < entity->count; p++)
      if (fresh->texts[p] != NULL)
        ts_rewrite_say(rewrite, made[i], ts_known_at(vocabulary, fresh->entity, p)->def,
                       fresh->texts[p]);
  }
  return true;
}

bool ts_import_rewrite(const ts_import *import, ts_rewrite *rewrite) {
  bool good = true;
  for (size_t i = 0; i < import->set_count; i++)
    good = rewrite_set(import, &import->sets[i], rewrite) && good;
  return rewrite_fresh(import, rewrite) && good;
}
