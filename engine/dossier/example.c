/* A world made by hand: one of everything, nothing known, for a rule's examples. */
#include "dossier/value.h"
#include "dossier/words.h"
#include "dossier/world.h"

#include <stdlib.h>
#include <string.h>

static const char example_date[] = "2027-03-09";

/* ---- making ------------------------------------------------------------ */

/* The first subject of an entity, or TS_NO_SUBJECT. */
static ts_subject first_of(const ts_dossier *dossier, uint32_t entity) {
  for (ts_subject s = 0; s < dossier->subject_count; s++)
    if (dossier->subjects[s].entity == entity && !dossier->subjects[s].removed) return s;
  return TS_NO_SUBJECT;
}

static void point_at(ts_dossier *dossier, uint32_t slot, ts_subject target) {
  ts_list *targets = ts_world_targets(dossier, slot);
  bool none = target == TS_NO_SUBJECT;
  *targets = (ts_list){0};
  ts_world_put_text(dossier, slot, none ? "none" : dossier->subjects[target].info.path);
  if (!none) ts_list_add(dossier->arena, targets, target);
}

/* What a reference leads to before an example says otherwise. Nobody is their own parent. */
static void link_reference(ts_dossier *dossier, uint32_t slot) {
  const ts_known_fact *fact = ts_world_known(dossier, slot);
  ts_subject owner = dossier->owners[slot];
  uint32_t entity = ts_names_get(&dossier->vocabulary->entity_names, fact->choices[0]);
  if (entity == TS_ABSENT || entity == dossier->subjects[owner].entity) return;
  point_at(dossier, slot, first_of(dossier, entity));
}

static void read_structure(ts_dossier *dossier, uint32_t slot, const char *text) {
  ts_diagnostics *ignored = ts_diagnostics_new(); /* our own words: they read */
  ts_place place = {ignored, "", 0};
  ts_value value;
  if (ts_value_read(dossier->units, dossier->arena, ts_world_known(dossier, slot), text, &value,
                    &place))
    ts_world_put(dossier, slot, &value);
  ts_diagnostics_free(ignored);
}

static void fill_structure(ts_dossier *dossier, ts_subject subject) {
  const ts_subject_entry *entry = &dossier->subjects[subject];
  size_t count = dossier->vocabulary->entities[entry->entity].count;
  for (uint32_t slot = entry->info.slot; slot < entry->info.slot + count; slot++) {
    const ts_known_fact *fact = ts_world_known(dossier, slot);
    switch (fact->def->type) {
    case TS_ID: ts_world_put_text(dossier, slot, entry->info.path); break;
    case TS_DAY: read_structure(dossier, slot, example_date); break;
    case TS_KIND_WORD: read_structure(dossier, slot, fact->choices[0]); break;
    case TS_REF:
    case TS_REFS: link_reference(dossier, slot); break;
    default: break;
    }
  }
}

/* "person", "person-2" ...: names for what has none. */
static const char *example_path(ts_dossier *dossier, uint32_t entity) {
  const char *name = dossier->vocabulary->entities[entity].def->name, *path = name;
  for (unsigned n = 2; ts_names_get(&dossier->paths, path) != TS_ABSENT; n++)
    path = ts_arena_printf(dossier->arena, "%s-%u", name, n);
  return path;
}

static ts_subject add_example(ts_dossier *dossier, uint32_t entity, ts_subject parent) {
  ts_subject made = ts_world_add(dossier, entity, example_path(dossier, entity), parent, 0, 0);
  ts_world_complete(dossier, made);
  return made;
}

static void refresh(ts_dossier *dossier) {
  ts_world_person_days(dossier);
  ts_world_link(dossier);
  ts_world_derive(dossier);
}

static void add_all(ts_dossier *dossier) {
  const ts_vocabulary *vocabulary = dossier->vocabulary;
  uint32_t production = ts_names_get(&vocabulary->entity_names, "production");
  ts_world_add(dossier, production, "production", TS_NO_SUBJECT, 0, 0);
  ts_world_complete(dossier, 0);
  for (uint32_t i = 0; i < vocabulary->entity_count; i++) {
    const ts_entity_def *def = vocabulary->entities[i].def;
    if (!def->single && def->parent)
      add_example(dossier, i, first_of(dossier, dossier->plans[i].parent));
  }
  for (ts_subject s = 0; s < dossier->subject_count; s++) fill_structure(dossier, s);
}

ts_dossier *ts_dossier_example(const ts_vocabulary *vocabulary, const ts_units *units,
                               const char *each, ts_subject *subject) {
  uint32_t entity = ts_names_get(&vocabulary->entity_names, each);
  if (entity == TS_ABSENT) return NULL;
  ts_dossier *dossier = ts_world_new(vocabulary, units);
  add_all(dossier);
  refresh(dossier);
  *subject = first_of(dossier, entity);
  return dossier;
}

/* ---- what an example gives ---------------------------------------------- */

/* One path being followed. */
typedef struct {
  ts_dossier *dossier;
  const char *path; /* the whole, for messages */
  const char *rest; /* what is still to be read */
  ts_place place;
  ts_subject at;
} walk;

static bool stuck(const walk *w, const char *why, const char *name) {
  ts_report(w->place.problems, TS_ERROR, w->place.file, w->place.line,
            "an example cannot give \"%s\": %s \"%s\"", w->path, why, name);
  return false;
}

static bool no_field(const walk *w, const char *name) {
  const char *near = ts_subject_nearest(w->dossier, w->at, name);
  ts_report(w->place.problems, TS_ERROR, w->place.file, w->place.line,
            "an example cannot give \"%s\": %s has no \"%s\"%s%s%s", w->path,
            w->dossier->subjects[w->at].info.entity->name, name,
            near ? "; the nearest name is \"" : "", near ? near : "", near ? "\"" : "");
  return false;
}

static const ts_list_rule *list_rule(const walk *w, const char *name) {
  const ts_plan *plan = &w->dossier->plans[w->dossier->subjects[w->at].entity];
  return &plan->lists[plan->fields[ts_names_get(&plan->names, name)].index];
}

/* Where a new subject of an entity would stand, below or beside the one the path is at. */
static ts_subject place_for(const walk *w, uint32_t entity) {
  uint32_t parent = w->dossier->plans[entity].parent;
  for (ts_subject s = w->at; s != TS_NO_SUBJECT; s = w->dossier->subjects[s].info.parent)
    if (w->dossier->subjects[s].entity == parent) return s;
  for (ts_subject s = 0; s < w->dossier->subject_count; s++)
    if (w->dossier->subjects[s].entity == parent &&
        ts_world_above(w->dossier, s, w->dossier->subjects[w->at].info.entity->name) == w->at)
      return s;
  return first_of(w->dossier, parent);
}

/* The reference of a new subject that should lead to the one the path is at. */
static void refer_back(const walk *w, ts_subject made, const char *entity, ts_subject target) {
  const ts_subject_entry *entry = &w->dossier->subjects[made];
  size_t count = w->dossier->vocabulary->entities[entry->entity].count;
  for (uint32_t slot = entry->info.slot; slot < entry->info.slot + count; slot++) {
    const ts_known_fact *fact = ts_world_known(w->dossier, slot);
    bool reference = fact->def->type == TS_REF || fact->def->type == TS_REFS;
    if (reference && ts_choice_find(fact, entity) != TS_ABSENT) {
      point_at(w->dossier, slot, target);
      return;
    }
  }
}

/* One more immersion or post of a task is somebody else's. */
static void give_own_person(const walk *w, ts_subject made) {
  ts_dossier *dossier = w->dossier;
  uint32_t slot = ts_world_slot(dossier, made, "person");
  uint32_t entity = ts_names_get(&dossier->vocabulary->entity_names, "person");
  if (slot == TS_ABSENT || ts_world_known(dossier, slot)->def->type != TS_REF) return;
  ts_subject person = add_example(dossier, entity, 0);
  fill_structure(dossier, person);
  point_at(dossier, slot, person);
}

static void grow_list(const walk *w, const ts_list_rule *rule) {
  ts_dossier *dossier = w->dossier;
  uint32_t entity = rule->index, slot = 0;
  if (rule->kind == TS_LIST_REFERENCES) {
    slot = dossier->subjects[w->at].info.slot + rule->index;
    entity =
        ts_names_get(&dossier->vocabulary->entity_names, ts_world_known(dossier, slot)->choices[0]);
  }
  if (!dossier->vocabulary->entities[entity].def->parent)
    return; /* person-days follow by themselves */
  ts_subject made = add_example(dossier, entity, place_for(w, entity));
  fill_structure(dossier, made);
  if (rule->kind == TS_LIST_REFERENCES)
    ts_list_add(dossier->arena, ts_world_targets(dossier, slot), made);
  else if (rule->kind == TS_LIST_BELOW)
    give_own_person(w, made);
  else if (rule->kind == TS_LIST_REFERRING)
    refer_back(w, made, dossier->subjects[w->at].info.entity->name, w->at);
  else
    refer_back(w, made, "person", ts_world_target(dossier, w->at, "person"));
  refresh(dossier);
}

/* Goes to a member of a list, adding it when it is the next one. */
static bool to_member(walk *w, const char *name, const ts_field *field) {
  double number;
  const char *word = ts_words_next(w->dossier->arena, &w->rest, ".");
  const char *end = word ? ts_number_read(word, &number) : NULL;
  if (!end || *end || !(number >= 1 && number <= (double)field->count + 1))
    return stuck(w, "expected the number of a member, or the next one, after", name);
  size_t index = (size_t)number - 1;
  if ((double)(index + 1) != number) return stuck(w, "expected a whole number after", name);
  if (index == field->count) grow_list(w, list_rule(w, name));
  ts_field grown = ts_subject_field(w->dossier, w->at, name);
  if (index >= grown.count) return stuck(w, "nothing can be added to", name);
  w->at = grown.list[index];
  return true;
}

static bool to_subject(walk *w, const char *name, const ts_field *field) {
  if (field->subject == TS_NO_SUBJECT) return stuck(w, "nothing is there for", name);
  w->at = field->subject;
  return true;
}

/* ---- setting what the path leads to ------------------------------------- */

static bool set_member(const walk *w, const ts_field *field, const char *text) {
  ts_value value = *ts_world_value(w->dossier, field->slot);
  uint64_t bit = UINT64_C(1) << field->bit;
  bool yes = ts_same(text, "yes"), open = ts_same(text, "?");
  if (!yes && !open && !ts_same(text, "no"))
    return stuck(w, "expected \"yes\", \"no\" or \"?\", found", text);
  value.choices = yes || open ? value.choices | bit : value.choices & ~bit;
  value.certain = yes ? value.certain | bit : value.certain & ~bit;
  uint64_t all = ts_all_choices(ts_world_known(w->dossier, field->slot));
  value.state = value.choices == all && !value.certain ? TS_UNKNOWN : TS_STATED;
  ts_world_put(w->dossier, field->slot, &value);
  return true;
}

static bool set_fact(const walk *w, const ts_field *field, const char *text) {
  const ts_known_fact *fact = ts_world_known(w->dossier, field->slot);
  ts_value read;
  if (!ts_value_read(w->dossier->units, w->dossier->arena, fact, text, &read, &w->place))
    return false;
  if (fact->def->derived && read.state == TS_STATED) read.state = TS_SET_BY_USER;
  ts_world_put(w->dossier, field->slot, &read);
  w->dossier->lines[field->slot] = w->place.line;
  return true;
}

static void remove_all(ts_dossier *dossier, const ts_field *field) {
  for (size_t i = 0; i < field->count; i++) dossier->subjects[field->list[i]].removed = true;
  for (ts_subject s = 1; s < dossier->subject_count; s++) {
    ts_subject parent = dossier->subjects[s].info.parent;
    if (parent != TS_NO_SUBJECT && dossier->subjects[parent].removed)
      dossier->subjects[s].removed = true;
  }
}

static bool cut(const walk *w, const char *name, const ts_field *field) {
  ts_dossier *dossier = w->dossier;
  const ts_plan *plan = &dossier->plans[dossier->subjects[w->at].entity];
  uint32_t index = plan->fields[ts_names_get(&plan->names, name)].index;
  uint32_t slot = dossier->subjects[w->at].info.slot;
  if (field->kind == TS_FIELD_LIST) {
    const ts_list_rule *rule = &plan->lists[index];
    if (rule->kind == TS_LIST_REFERENCES)
      point_at(dossier, slot + rule->index, TS_NO_SUBJECT);
    else
      remove_all(dossier, field);
    return true;
  }
  if (plan->hops[index].kind != TS_HOP_REFERENCE)
    return stuck(w, "only a reference can be cut, not", name);
  point_at(dossier, slot + plan->hops[index].index, TS_NO_SUBJECT);
  return true;
}

static bool set_at_end(const walk *w, const char *name, const ts_field *field, const char *value) {
  const char *text = ts_words_trim(w->dossier->arena, value);
  switch (field->kind) {
  case TS_FIELD_FACT: return set_fact(w, field, text);
  case TS_FIELD_MEMBER: return set_member(w, field, text);
  case TS_FIELD_TEXT: ts_world_put_text(w->dossier, field->slot, text); return true;
  case TS_FIELD_SUBJECT:
  case TS_FIELD_LIST:
    if (ts_same(text, "none")) return cut(w, name, field);
    return stuck(w, "expected \"none\", or a fact after", name);
  case TS_FIELD_NONE: break;
  }
  return no_field(w, name);
}

/* One step along the path; at its end the value is set. */
static bool step(walk *w, const char *value, bool *done) {
  char *name = ts_words_next(w->dossier->arena, &w->rest, ".");
  if (!name) return stuck(w, "the path ends too early in", w->path);
  ts_field field = ts_subject_field(w->dossier, w->at, name);
  *done = *w->rest == '\0';
  if (*done) return set_at_end(w, name, &field, value);
  switch (field.kind) {
  case TS_FIELD_SUBJECT: return to_subject(w, name, &field);
  case TS_FIELD_LIST: return to_member(w, name, &field);
  case TS_FIELD_NONE: return no_field(w, name);
  default: return stuck(w, "nothing can follow", name);
  }
}

bool ts_dossier_given(ts_dossier *dossier, ts_subject subject, const char *path, const char *value,
                      ts_diagnostics *problems, const char *file, int line) {
  walk w = {dossier, path, path, {problems, file, line}, subject};
  bool done = false;
  while (!done)
    if (!step(&w, value, &done)) return false;
  refresh(dossier);
  return true;
}
