/* The vocabulary: look-up over the built-in tables and what packs add. */
#include "dossier/vocabulary.h"

#include "base/text.h"
#include "dossier/subjects.h"
#include "dossier/vocabulary_index.h"

#include <stdlib.h>
#include <string.h>

bool ts_is_fact(ts_fact_type type) { return type >= TS_QUANTITY; }

bool ts_is_number(ts_fact_type type) {
  return type == TS_QUANTITY || type == TS_COUNT || type == TS_DATE || type == TS_CLOCK ||
         type == TS_DAY;
}

/* ---- building ---------------------------------------------------------- */

static const char *field_name(ts_arena *arena, const char *name) {
  char *field = ts_arena_copy(arena, name);
  for (char *c = field; *c; c++)
    if (*c == '-') *c = '_';
  return field;
}

static void split_choices(ts_arena *arena, ts_known_fact *known) {
  if (!known->def->choices) return;
  known->choices = ts_arena_alloc(arena, TS_CHOICES_MAX * sizeof *known->choices);
  for (const char *at = known->def->choices; *(at += strspn(at, " "));) {
    size_t length = strcspn(at, " ");
    if (known->choice_count < TS_CHOICES_MAX)
      known->choices[known->choice_count++] = ts_arena_copy_n(arena, at, length);
    at += length;
  }
}

/* Reads low and high; the dimension comes with them. What does not read is
 * left empty here and reported by ts_vocabulary_check_fact. */
static void read_plausible(const ts_units *units, ts_known_fact *known) {
  char why[256];
  ts_range low, high;
  ts_dim dim;
  const ts_fact_def *def = known->def;
  if (def->low && def->high &&
      ts_quantity_read(units, def->low, &low, &known->dim, why, sizeof why) &&
      ts_quantity_read(units, def->high, &high, &dim, why, sizeof why) && low.lo <= high.hi)
    known->plausible = (ts_range){low.lo, high.hi};
}

/* The whole plausible range, all choices. Structure counts as stated: it is never assumed. */
static ts_value unknown_value(const ts_known_fact *fact) {
  ts_value value = {.range = fact->plausible, .state = TS_UNKNOWN};
  value.choices = ts_all_choices(fact);
  if (!ts_is_fact(fact->def->type)) {
    value.state = TS_STATED;
    value.choices = 0;
  }
  return value;
}

/* Adds a fact to the flat table. */
static void enter(ts_vocabulary *vocabulary, const ts_units *units, const ts_fact_def *def,
                  bool added) {
  TS_GROW(vocabulary->facts, vocabulary->fact_count, vocabulary->fact_capacity);
  ts_known_fact *known = &vocabulary->facts[vocabulary->fact_count++];
  *known = (ts_known_fact){.def = def, .added = added, .derivation = ts_derivation_of(def)};
  known->field = field_name(vocabulary->arena, def->name);
  split_choices(vocabulary->arena, known);
  if (def->type == TS_DAY)
    known->dim = TS_MOMENT;
  else if (ts_is_number(def->type))
    read_plausible(units, known);
  known->unknown = unknown_value(known);
}

static void attach(ts_vocabulary *vocabulary, uint32_t fact) {
  const ts_fact_def *def = vocabulary->facts[fact].def;
  uint32_t index = ts_names_get(&vocabulary->entity_names, def->entity);
  if (index == TS_ABSENT) return; /* ts_vocabulary_check reports it */
  ts_known_entity *entity = &vocabulary->entities[index];
  TS_GROW(entity->facts, entity->count, entity->capacity);
  ts_names_put(&entity->names, def->name, (uint32_t)entity->count);
  bool refers = def->type == TS_REF || def->type == TS_REFS;
  vocabulary->facts[fact].reference = refers ? entity->references++ : TS_ABSENT;
  entity->facts[entity->count++] = fact;
}

static void enter_entities(ts_vocabulary *vocabulary) {
  const ts_entity_def *defs = ts_builtin_entities(&vocabulary->entity_count);
  vocabulary->entities = ts_alloc(vocabulary->entity_count * sizeof *vocabulary->entities);
  for (size_t i = 0; i < vocabulary->entity_count; i++) {
    vocabulary->entities[i] = (ts_known_entity){.def = &defs[i]};
    ts_names_put(&vocabulary->entity_names, defs[i].name, (uint32_t)i);
  }
}

ts_vocabulary *ts_vocabulary_new(void) {
  char why[256];
  ts_units *units = ts_units_new(why, sizeof why);
  if (!units) return NULL;
  ts_vocabulary *vocabulary = ts_alloc(sizeof *vocabulary);
  *vocabulary = (ts_vocabulary){.arena = ts_arena_new(), .units = units};
  enter_entities(vocabulary);
  vocabulary->builtin = ts_builtin_facts(&vocabulary->builtin_count);
  for (size_t i = 0; i < vocabulary->builtin_count; i++) {
    enter(vocabulary, units, &vocabulary->builtin[i], false);
    attach(vocabulary, (uint32_t)i);
  }
  return vocabulary;
}

void ts_vocabulary_free(ts_vocabulary *vocabulary) {
  if (!vocabulary) return;
  for (size_t i = 0; i < vocabulary->entity_count; i++) {
    free(vocabulary->entities[i].facts);
    ts_names_release(&vocabulary->entities[i].names);
  }
  ts_names_release(&vocabulary->entity_names);
  free(vocabulary->entities);
  free(vocabulary->facts);
  ts_units_free(vocabulary->units);
  ts_arena_free(vocabulary->arena);
  free(vocabulary);
}

/* ---- looking up -------------------------------------------------------- */

size_t ts_entity_count(const ts_vocabulary *vocabulary) { return vocabulary->entity_count; }

const ts_entity_def *ts_entity_at(const ts_vocabulary *vocabulary, size_t index) {
  return vocabulary->entities[index].def;
}

const ts_entity_def *ts_entity_find(const ts_vocabulary *vocabulary, const char *name) {
  uint32_t index = ts_names_get(&vocabulary->entity_names, name);
  return index == TS_ABSENT ? NULL : vocabulary->entities[index].def;
}

size_t ts_entity_index(const ts_vocabulary *vocabulary, const ts_entity_def *entity) {
  return (size_t)(entity - vocabulary->entities[0].def);
}

size_t ts_fact_count(const ts_vocabulary *vocabulary, const ts_entity_def *entity) {
  return vocabulary->entities[ts_entity_index(vocabulary, entity)].count;
}

const ts_fact_def *ts_fact_at(const ts_vocabulary *vocabulary, const ts_entity_def *entity,
                              size_t index) {
  return ts_known_at(vocabulary, ts_entity_index(vocabulary, entity), index)->def;
}

const ts_known_fact *ts_known_at(const ts_vocabulary *vocabulary, size_t entity, size_t position) {
  return &vocabulary->facts[vocabulary->entities[entity].facts[position]];
}

uint32_t ts_fact_position(const ts_vocabulary *vocabulary, size_t entity, const char *name) {
  return ts_names_get(&vocabulary->entities[entity].names, name);
}

const ts_known_fact *ts_known(const ts_vocabulary *vocabulary, const ts_fact_def *fact) {
  for (size_t i = vocabulary->builtin_count; i < vocabulary->fact_count; i++)
    if (vocabulary->facts[i].def == fact) return &vocabulary->facts[i];
  return &vocabulary->facts[fact - vocabulary->builtin];
}

ts_dim ts_fact_dim(const ts_vocabulary *vocabulary, const ts_fact_def *fact) {
  return ts_known(vocabulary, fact)->dim;
}

ts_range ts_fact_plausible(const ts_vocabulary *vocabulary, const ts_fact_def *fact) {
  return ts_known(vocabulary, fact)->plausible;
}

uint64_t ts_all_choices(const ts_known_fact *fact) {
  if (fact->def->type == TS_FLAG) return 3;
  if (fact->choice_count == 0) return 0;
  return UINT64_MAX >> (TS_CHOICES_MAX - fact->choice_count);
}

uint32_t ts_choice_find(const ts_known_fact *fact, const char *word) {
  for (size_t i = 0; i < fact->choice_count; i++)
    if (ts_same(fact->choices[i], word)) return (uint32_t)i;
  return TS_ABSENT;
}

/* ---- adding ------------------------------------------------------------ */

static const ts_fact_def *copy_fact(ts_arena *arena, const ts_fact_def *fact) {
  ts_fact_def *copy = ts_arena_alloc(arena, sizeof *copy);
  *copy = *fact;
  const char **texts[] = {&copy->entity,   &copy->name, &copy->unit,    &copy->unit_us,
                          &copy->low,      &copy->high, &copy->choices, &copy->meaning,
                          &copy->measured, &copy->asked};
  for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
    *texts[i] = ts_arena_copy(arena, *texts[i]);
  bool plain = fact->type == TS_QUANTITY || fact->type == TS_COUNT;
  if (plain && !copy->unit) copy->unit = "";
  return copy;
}

/* What else rules may read by this name on a subject: a part, a parent or a list by its name, or
 * one choice of a set ("covers-hands"). A fact of that name would be read in its stead. */
static bool means_something(const ts_vocabulary *vocabulary, uint32_t entity, const char *name) {
  for (size_t i = 0; i < vocabulary->entity_count; i++)
    if (ts_same(vocabulary->entities[i].def->name, name) ||
        ts_same(vocabulary->entities[i].def->plural, name))
      return true;
  for (size_t i = 0; i < vocabulary->entities[entity].count; i++) {
    const ts_known_fact *set = ts_known_at(vocabulary, entity, i);
    size_t stem = strlen(set->def->name);
    bool member = set->def->type == TS_SET && !strncmp(name, set->def->name, stem) &&
                  name[stem] == '-' && ts_choice_find(set, name + stem + 1) != TS_ABSENT;
    if (member) return true;
  }
  return false;
}

static bool may_add(const ts_vocabulary *vocabulary, const ts_fact_def *fact,
                    ts_diagnostics *problems, const char *file, int line) {
  uint32_t entity = ts_names_get(&vocabulary->entity_names, fact->entity);
  if (entity == TS_ABSENT) {
    const char *near = ts_names_nearest(&vocabulary->entity_names, fact->entity);
    ts_report(problems, TS_ERROR, file, line, "unknown entity \"%s\"%s%s%s", fact->entity,
              near ? "; the nearest name is \"" : "", near ? near : "", near ? "\"" : "");
    return false;
  }
  if (ts_fact_position(vocabulary, entity, fact->name) != TS_ABSENT) {
    ts_report(problems, TS_ERROR, file, line, "fact \"%s\" of \"%s\" is already in the vocabulary",
              fact->name, fact->entity);
    return false;
  }
  if (means_something(vocabulary, entity, fact->name)) {
    ts_report(problems, TS_ERROR, file, line,
              "fact \"%s\" of \"%s\" cannot be added: rules read something else by that name",
              fact->name, fact->entity);
    return false;
  }
  if (ts_is_fact(fact->type) && !fact->derived) return true;
  ts_report(problems, TS_ERROR, file, line,
            "fact \"%s\" cannot be added: only quantities, counts, flags, choices, sets, dates "
            "and times can",
            fact->name);
  return false;
}

bool ts_vocabulary_add(ts_vocabulary *vocabulary, const ts_units *units, const ts_fact_def *fact,
                       ts_diagnostics *problems, const char *file, int line) {
  if (!may_add(vocabulary, fact, problems, file, line)) return false;
  const ts_fact_def *copy = copy_fact(vocabulary->arena, fact);
  enter(vocabulary, units, copy, true);
  const ts_known_fact *known = &vocabulary->facts[vocabulary->fact_count - 1];
  if (!ts_vocabulary_check_fact(vocabulary, known, problems, file, line)) {
    vocabulary->fact_count--;
    return false;
  }
  attach(vocabulary, (uint32_t)(vocabulary->fact_count - 1));
  return true;
}
