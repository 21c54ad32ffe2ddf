#include "dossier/world.h"

#include "base/digest.h"
#include "dossier/value.h"

#include <stdlib.h>
#include <string.h>

ts_dossier *ts_world_new(const ts_vocabulary *vocabulary, const ts_units *units) {
  ts_dossier *dossier = ts_alloc(sizeof *dossier);
  *dossier = (ts_dossier){.arena = ts_arena_new(), .vocabulary = vocabulary, .units = units};
  dossier->plans = ts_plans_new(vocabulary, dossier->arena);
  return dossier;
}

void ts_dossier_free(ts_dossier *dossier) {
  if (!dossier) return;
  if (dossier->of) {
    ts_variant_free(dossier);
    return;
  }
  ts_plans_free(dossier->plans, dossier->vocabulary);
  ts_names_release(&dossier->paths);
  ts_names_release(&dossier->numbers);
  ts_names_release(&dossier->person_days);
  free(dossier->subjects);
  free(dossier->values);
  free(dossier->lines);
  free(dossier->owners);
  ts_pool_free(dossier->pool);
  free(dossier->sources);
  free(dossier->evidence);
  free(dossier->evidence_file);
  free(dossier->controls);
  free(dossier->waivers);
  ts_arena_free(dossier->arena);
  free(dossier);
}

/* ---- growing ----------------------------------------------------------- */

static void resize_slots(ts_dossier *dossier, size_t capacity) {
  dossier->values = ts_resize(dossier->values, capacity * sizeof *dossier->values);
  dossier->lines = ts_resize(dossier->lines, capacity * sizeof *dossier->lines);
  dossier->owners = ts_resize(dossier->owners, capacity * sizeof *dossier->owners);
  dossier->slot_capacity = capacity;
}

static void add_slot(ts_dossier *dossier, ts_subject subject, const ts_known_fact *fact, int line) {
  if (dossier->slot_count == dossier->slot_capacity) {
    size_t capacity = dossier->slot_capacity ? 2 * dossier->slot_capacity : 256;
    resize_slots(dossier, capacity);
  }
  dossier->values[dossier->slot_count] = &fact->unknown;
  dossier->lines[dossier->slot_count] = line;
  dossier->owners[dossier->slot_count++] = subject;
}

ts_subject ts_world_add(ts_dossier *dossier, uint32_t entity, const char *path, ts_subject parent,
                        uint32_t file, int line) {
  const ts_known_entity *known = &dossier->vocabulary->entities[entity];
  TS_GROW(dossier->subjects, dossier->subject_count, dossier->subject_capacity);
  ts_subject subject = (ts_subject)dossier->subject_count++;
  ts_subject_entry *entry = &dossier->subjects[subject];
  *entry = (ts_subject_entry){.entity = entity, .file = file};
  entry->info = (ts_subject_info){.entity = known->def,
                                  .path = path,
                                  .label = path,
                                  .line = line,
                                  .parent = parent,
                                  .slot = (uint32_t)dossier->slot_count};
  entry->info.file = file < dossier->source_count ? dossier->sources[file].name : "";
  for (size_t i = 0; i < known->count; i++)
    add_slot(dossier, subject, ts_known_at(dossier->vocabulary, entity, i), line);
  if (known->references > 0)
    entry->targets = ts_arena_alloc(dossier->arena, known->references * sizeof *entry->targets);
  ts_names_put(&dossier->paths, path, subject);
  return subject;
}

static bool is_part_of(const ts_dossier *dossier, uint32_t entity, ts_subject subject) {
  return dossier->vocabulary->entities[entity].def->single &&
         dossier->plans[entity].parent == dossier->subjects[subject].entity;
}

const char *ts_world_part_path(ts_dossier *dossier, ts_subject subject, const char *entity) {
  if (subject == 0) return entity;
  return ts_arena_printf(dossier->arena, "%s/%s", dossier->subjects[subject].info.path, entity);
}

void ts_world_complete(ts_dossier *dossier, ts_subject subject) {
  for (uint32_t i = 0; i < dossier->vocabulary->entity_count; i++) {
    if (!is_part_of(dossier, i, subject)) continue;
    ts_subject_info info = dossier->subjects[subject].info;
    const char *path =
        ts_world_part_path(dossier, subject, dossier->vocabulary->entities[i].def->name);
    ts_subject part = ts_names_get(&dossier->paths, path);
    if (part == TS_NO_SUBJECT)
      part = ts_world_add(dossier, i, path, subject, dossier->subjects[subject].file, info.line);
    ts_world_complete(dossier, part);
  }
}

void ts_world_settle(ts_dossier *dossier) {
  ts_pool_free(dossier->pool);
  dossier->pool = NULL;
  resize_slots(dossier, dossier->slot_count);
}

void ts_list_add(ts_arena *arena, ts_list *list, ts_subject subject) {
  if (list->count == list->capacity) {
    uint32_t capacity = list->capacity ? 2 * list->capacity : 4;
    ts_subject *larger = ts_arena_alloc(arena, capacity * sizeof *larger);
    if (list->count) memcpy(larger, list->at, list->count * sizeof *larger);
    list->at = larger;
    list->capacity = capacity;
  }
  list->at[list->count++] = subject;
}

/* ---- values ------------------------------------------------------------ */

/* Field by field into what is zero, gaps and all, so that equal values have equal bytes. */
static const ts_value *kept(ts_dossier *dossier, const ts_value *value) {
  ts_value whole;
  memset(&whole, 0, sizeof whole);
  whole.range = value->range;
  whole.choices = value->choices;
  whole.certain = value->certain;
  whole.state = value->state;
  whole.text = dossier->pool ? ts_pool_text(dossier->pool, value->text) : value->text;
  return dossier->pool ? ts_pool_keep(dossier->pool, &whole, sizeof whole)
                       : ts_arena_keep(dossier->arena, &whole, sizeof whole);
}

void ts_world_put(ts_dossier *dossier, uint32_t slot, const ts_value *value) {
  if (!ts_same_value(dossier->values[slot], value)) dossier->values[slot] = kept(dossier, value);
}

void ts_world_put_text(ts_dossier *dossier, uint32_t slot, const char *text) {
  ts_value value = *dossier->values[slot];
  value.text = text;
  ts_world_put(dossier, slot, &value);
}

const ts_value *ts_world_value(const ts_dossier *dossier, uint32_t slot) {
  bool own = dossier->laid && dossier->laid[slot];
  return own ? ts_variant_value(dossier, slot, false) : dossier->values[slot];
}

/* ---- looking ----------------------------------------------------------- */

uint32_t ts_world_slot(const ts_dossier *dossier, ts_subject subject, const char *name) {
  const ts_subject_entry *entry = &dossier->subjects[subject];
  uint32_t position = ts_fact_position(dossier->vocabulary, entry->entity, name);
  return position == TS_ABSENT ? TS_ABSENT : entry->info.slot + position;
}

const ts_known_fact *ts_world_known(const ts_dossier *dossier, uint32_t slot) {
  const ts_subject_entry *entry = &dossier->subjects[dossier->owners[slot]];
  return ts_known_at(dossier->vocabulary, entry->entity, slot - entry->info.slot);
}

const char *ts_world_text(const ts_dossier *dossier, ts_subject subject, const char *name) {
  uint32_t slot = ts_world_slot(dossier, subject, name);
  return slot == TS_ABSENT ? NULL : ts_world_value(dossier, slot)->text;
}

ts_list *ts_world_targets(const ts_dossier *dossier, uint32_t slot) {
  uint32_t reference = ts_world_known(dossier, slot)->reference;
  return reference == TS_ABSENT ? NULL
                                : &dossier->subjects[dossier->owners[slot]].targets[reference];
}

ts_subject ts_world_target(const ts_dossier *dossier, ts_subject subject, const char *name) {
  uint32_t slot = ts_world_slot(dossier, subject, name);
  const ts_list *targets = slot == TS_ABSENT ? NULL : ts_world_targets(dossier, slot);
  return targets && targets->count ? targets->at[0] : TS_NO_SUBJECT;
}

bool ts_world_is(const ts_dossier *dossier, ts_subject subject, const char *entity) {
  return ts_same(dossier->subjects[subject].info.entity->name, entity);
}

ts_subject ts_world_above(const ts_dossier *dossier, ts_subject subject, const char *entity) {
  while (subject != TS_NO_SUBJECT && !ts_world_is(dossier, subject, entity))
    subject = dossier->subjects[subject].info.parent;
  return subject;
}

const char *ts_world_file(const ts_dossier *dossier, ts_subject subject) {
  uint32_t file = dossier->subjects[subject].file;
  return file < dossier->source_count ? dossier->sources[file].path : "";
}

/* ---- what other stages see --------------------------------------------- */

ts_subject ts_subject_count(const ts_dossier *dossier) {
  return (ts_subject)dossier->subject_count;
}

const ts_subject_info *ts_subject_at(const ts_dossier *dossier, ts_subject subject) {
  return &dossier->subjects[subject].info;
}

ts_subject ts_subject_find(const ts_dossier *dossier, const char *path) {
  return ts_names_get(&dossier->paths, path); /* TS_ABSENT is TS_NO_SUBJECT */
}

uint32_t ts_slot_count(const ts_dossier *dossier) { return (uint32_t)dossier->slot_count; }

const ts_value *ts_slot_value(const ts_dossier *dossier, uint32_t slot) {
  bool own = dossier->laid && dossier->laid[slot];
  return own ? ts_variant_value(dossier, slot, true) : dossier->values[slot];
}

int ts_slot_line(const ts_dossier *dossier, uint32_t slot) { return dossier->lines[slot]; }

const ts_fact_def *ts_slot_fact(const ts_dossier *dossier, uint32_t slot) {
  return ts_world_known(dossier, slot)->def;
}

ts_subject ts_slot_subject(const ts_dossier *dossier, uint32_t slot) {
  return dossier->owners[slot];
}

uint32_t ts_fact_slot(const ts_dossier *dossier, ts_subject subject, const ts_fact_def *fact) {
  return ts_world_slot(dossier, subject, fact->name);
}

char *ts_slot_path(const ts_dossier *dossier, uint32_t slot, char *out, size_t size) {
  return TS_JOIN(out, size, dossier->subjects[dossier->owners[slot]].info.path, "/",
                 ts_slot_fact(dossier, slot)->name);
}

bool ts_slot_assumed(const ts_dossier *dossier, uint32_t slot) {
  return ts_slot_value(dossier, slot)->state == TS_UNKNOWN;
}

/* ---- fields ------------------------------------------------------------ */

ts_subject ts_subject_link(const ts_dossier *dossier, ts_subject subject, uint32_t index) {
  return dossier->subjects[subject].links[index];
}

const ts_subject *ts_subject_list(const ts_dossier *dossier, ts_subject subject, uint32_t index,
                                  size_t *count) {
  *count = dossier->subjects[subject].lists[index].count;
  return dossier->subjects[subject].lists[index].at;
}

ts_field ts_subject_field(const ts_dossier *dossier, ts_subject subject, const char *name) {
  const ts_subject_entry *entry = &dossier->subjects[subject];
  const ts_plan *plan = &dossier->plans[entry->entity];
  uint32_t number = ts_names_get(&plan->names, name);
  ts_field field = {.kind = TS_FIELD_NONE, .subject = TS_NO_SUBJECT};
  if (number == TS_ABSENT) return field;
  ts_plan_field meaning = plan->fields[number];
  field.kind = meaning.kind;
  field.bit = meaning.bit;
  switch (meaning.kind) {
  case TS_FIELD_SUBJECT: field.subject = entry->links[field.index = meaning.index]; break;
  case TS_FIELD_LIST:
    field.index = meaning.index;
    field.list = ts_subject_list(dossier, subject, field.index, &field.count);
    break;
  default: field.slot = entry->info.slot + meaning.index; break;
  }
  return field;
}

size_t ts_subject_field_names(const ts_dossier *dossier, ts_subject subject, const char **names,
                              size_t most) {
  const ts_plan *plan = &dossier->plans[dossier->subjects[subject].entity];
  for (size_t i = 0; i < plan->names.capacity; i++)
    if (plan->names.keys[i] != NULL && plan->names.values[i] < most)
      names[plan->names.values[i]] = plan->names.keys[i];
  return plan->field_count;
}

ts_subject ts_leads_to(const ts_dossier *dossier, ts_subject subject, const char *field) {
  if (ts_world_is(dossier, subject, field)) return subject;
  ts_field found = ts_subject_field(dossier, subject, field);
  return found.kind == TS_FIELD_SUBJECT ? found.subject : TS_NO_SUBJECT;
}

const char *ts_subject_nearest(const ts_dossier *dossier, ts_subject subject, const char *name) {
  return ts_names_nearest(&dossier->plans[dossier->subjects[subject].entity].names, name);
}

/* ---- papers and sources ------------------------------------------------ */

size_t ts_evidence_count(const ts_dossier *dossier) { return dossier->evidence_count; }

const ts_evidence *ts_evidence_at(const ts_dossier *dossier, size_t index) {
  return &dossier->evidence[index];
}

size_t ts_applied_count(const ts_dossier *dossier) {
  return dossier->control_count + dossier->tried_count;
}

const ts_applied_control *ts_applied_at(const ts_dossier *dossier, size_t index) {
  return index < dossier->control_count ? &dossier->controls[index]
                                        : &dossier->tried[index - dossier->control_count];
}

size_t ts_waiver_count(const ts_dossier *dossier) { return dossier->waiver_count; }

const ts_waiver *ts_waiver_at(const ts_dossier *dossier, size_t index) {
  return &dossier->waivers[index];
}

size_t ts_source_count(const ts_dossier *dossier) { return dossier->source_count; }

const char *ts_source_name(const ts_dossier *dossier, size_t index) {
  return dossier->sources[index].name;
}

char *ts_source_digest(const ts_dossier *dossier, size_t index, char digest[65]) {
  const ts_source *source = &dossier->sources[index];
  if (source->bytes) return ts_digest(source->bytes, source->length, digest);
  memcpy(digest, source->digest, 65);
  return digest;
}

bool ts_source_is(const ts_source *source, const char *bytes, size_t length) {
  char digest[65];
  if (length != source->length) return false;
  if (source->bytes) return memcmp(bytes, source->bytes, length) == 0;
  return ts_same(ts_digest(bytes, length, digest), source->digest);
}

ts_system ts_dossier_units(const ts_dossier *dossier) { return dossier->system; }

const ts_vocabulary *ts_dossier_vocabulary(const ts_dossier *dossier) {
  return dossier->vocabulary;
}
