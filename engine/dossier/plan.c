#include "dossier/plan.h"

#include "base/text.h"
#include "dossier/words.h"

#include <stdlib.h>
#include <string.h>

/* What one plan is made from. */
typedef struct {
  const ts_vocabulary *vocabulary;
  ts_arena *arena;
  ts_plan *plans;
  uint32_t entity;
} maker;

static ts_plan *mine(maker *m) { return &m->plans[m->entity]; }

static const ts_known_entity *known_entity(const maker *m, size_t entity) {
  return &m->vocabulary->entities[entity];
}

/* The entity in which another stands: top-level ones stand in the production,
 * a person-day in its day. */
static uint32_t parent_of(const maker *m, size_t entity) {
  const ts_names *names = &m->vocabulary->entity_names;
  const char *parent = known_entity(m, entity)->def->parent;
  if (ts_same(known_entity(m, entity)->def->name, "production")) return TS_ABSENT;
  if (!parent) return ts_names_get(names, "day");
  return ts_names_get(names, ts_same(parent, "dossier") ? "production" : parent);
}

static bool stands_below(const maker *m, size_t entity, uint32_t above) {
  for (uint32_t at = parent_of(m, entity); at != TS_ABSENT; at = parent_of(m, at))
    if (at == above) return true;
  return false;
}

/* Whether a fact is a reference that may lead to the named entity. */
static bool leads_to(const ts_known_fact *fact, const char *entity) {
  return (fact->def->type == TS_REF || fact->def->type == TS_REFS) &&
         ts_choice_find(fact, entity) != TS_ABSENT;
}

static bool refers_to(const maker *m, size_t entity, const char *name) {
  const ts_known_entity *from = known_entity(m, entity);
  for (size_t i = 0; i < from->count; i++)
    if (leads_to(ts_known_at(m->vocabulary, entity, i), name)) return true;
  return false;
}

static const char *field_of(maker *m, const char *name) {
  char *field = ts_arena_copy(m->arena, name);
  for (char *c = field; *c; c++)
    if (*c == '-') *c = '_';
  return field;
}

/* The first meaning of a name holds: the order of looking in. */
static bool add_field(maker *m, const char *field, ts_field_kind kind, size_t index, size_t bit) {
  ts_plan *plan = mine(m);
  if (ts_names_get(&plan->names, field) != TS_ABSENT) return false;
  TS_GROW(plan->fields, plan->field_count, plan->field_capacity);
  ts_names_put(&plan->names, field, (uint32_t)plan->field_count);
  plan->fields[plan->field_count++] =
      (ts_plan_field){.kind = kind, .index = (uint32_t)index, .bit = (unsigned)bit};
  return true;
}

static uint32_t add_hop(maker *m, ts_hop_kind kind, size_t index, const char *field) {
  ts_plan *plan = mine(m);
  TS_GROW(plan->hops, plan->hop_count, plan->hop_capacity);
  plan->hops[plan->hop_count] = (ts_hop){kind, (uint32_t)index, field};
  add_field(m, field, TS_FIELD_SUBJECT, plan->hop_count, 0);
  return (uint32_t)plan->hop_count++;
}

static uint32_t add_list(maker *m, ts_list_kind kind, size_t index, const char *field) {
  ts_plan *plan = mine(m);
  TS_GROW(plan->lists, plan->list_count, plan->list_capacity);
  plan->lists[plan->list_count] = (ts_list_rule){kind, (uint32_t)index, field};
  add_field(m, field, TS_FIELD_LIST, plan->list_count, 0);
  return (uint32_t)plan->list_count++;
}

/* ---- the meanings, in the order in which they are looked for ------------ */

static void add_facts(maker *m) {
  for (size_t i = 0; i < known_entity(m, m->entity)->count; i++) {
    const ts_known_fact *fact = ts_known_at(m->vocabulary, m->entity, i);
    switch (fact->def->type) {
    case TS_REF:
    case TS_REFS: break;
    case TS_ID:
    case TS_TEXT: add_field(m, fact->field, TS_FIELD_TEXT, i, 0); break;
    default: add_field(m, fact->field, TS_FIELD_FACT, i, 0); break;
    }
  }
}

static void add_members(maker *m) {
  for (size_t i = 0; i < known_entity(m, m->entity)->count; i++) {
    const ts_known_fact *fact = ts_known_at(m->vocabulary, m->entity, i);
    for (size_t bit = 0; fact->def->type == TS_SET && bit < fact->choice_count; bit++) {
      const char *choice = field_of(m, fact->choices[bit]);
      add_field(m, ts_arena_printf(m->arena, "%s_%s", fact->field, choice), TS_FIELD_MEMBER, i,
                bit);
    }
  }
}

static void add_references(maker *m) {
  for (size_t i = 0; i < known_entity(m, m->entity)->count; i++) {
    const ts_known_fact *fact = ts_known_at(m->vocabulary, m->entity, i);
    if (fact->def->type == TS_REF) add_hop(m, TS_HOP_REFERENCE, i, fact->field);
    if (fact->def->type == TS_REFS) add_list(m, TS_LIST_REFERENCES, i, fact->field);
  }
}

static void add_parts(maker *m) {
  for (size_t i = 0; i < m->vocabulary->entity_count; i++) {
    const ts_entity_def *part = known_entity(m, i)->def;
    if (part->single && parent_of(m, i) == m->entity)
      mine(m)->part[i] = add_hop(m, TS_HOP_PART, i, field_of(m, part->name));
  }
}

static void add_parents(maker *m) {
  uint32_t parent = mine(m)->parent;
  if (parent == TS_ABSENT) {
    add_hop(m, TS_HOP_ITSELF, 0, "production");
    return;
  }
  add_hop(m, TS_HOP_PARENT, 0, field_of(m, known_entity(m, parent)->def->name));
  const ts_plan *beyond = &m->plans[parent];
  for (size_t i = 0; i < beyond->hop_count; i++)
    if (ts_names_get(&mine(m)->names, beyond->hops[i].field) == TS_ABSENT)
      add_hop(m, TS_HOP_BEYOND, i, beyond->hops[i].field);
}

static void add_lists(maker *m) {
  const char *name = known_entity(m, m->entity)->def->name;
  for (size_t i = 0; i < m->vocabulary->entity_count; i++) {
    const ts_entity_def *other = known_entity(m, i)->def;
    if (other->single || !other->plural || i == m->entity) continue;
    const char *field = field_of(m, other->plural);
    bool person_day = !known_entity(m, m->entity)->def->parent;
    if (stands_below(m, i, m->entity))
      mine(m)->below[i] = add_list(m, TS_LIST_BELOW, i, field);
    else if (refers_to(m, i, name))
      mine(m)->referring[i] = add_list(m, TS_LIST_REFERRING, i, field);
    else if (person_day && refers_to(m, i, "person") && stands_below(m, i, mine(m)->parent))
      mine(m)->that_day[i] = add_list(m, TS_LIST_THAT_DAY, i, field);
  }
}

/* ---- all of them ------------------------------------------------------- */

static uint32_t *absent(const maker *m) {
  uint32_t *numbers = ts_arena_alloc(m->arena, m->vocabulary->entity_count * sizeof *numbers);
  for (size_t i = 0; i < m->vocabulary->entity_count; i++) numbers[i] = TS_ABSENT;
  return numbers;
}

static void make(maker *m, uint32_t entity, bool *made) {
  if (entity == TS_ABSENT || made[entity]) return;
  made[entity] = true;
  make(m, parent_of(m, entity), made); /* what lies beyond the parent comes from its plan */
  m->entity = entity;
  ts_plan *plan = mine(m);
  *plan = (ts_plan){.parent = parent_of(m, entity)};
  plan->below = absent(m);
  plan->referring = absent(m);
  plan->that_day = absent(m);
  plan->part = absent(m);
  add_facts(m);
  add_members(m);
  add_references(m);
  add_parts(m);
  add_parents(m);
  add_lists(m);
}

ts_plan *ts_plans_new(const ts_vocabulary *vocabulary, ts_arena *arena) {
  maker m = {.vocabulary = vocabulary, .arena = arena};
  m.plans = ts_alloc(vocabulary->entity_count * sizeof *m.plans);
  bool *made = ts_arena_alloc(arena, vocabulary->entity_count * sizeof *made);
  for (size_t i = 0; i < vocabulary->entity_count; i++) make(&m, (uint32_t)i, made);
  return m.plans;
}

void ts_plans_free(ts_plan *plans, const ts_vocabulary *vocabulary) {
  for (size_t i = 0; plans && i < vocabulary->entity_count; i++) {
    ts_names_release(&plans[i].names);
    free(plans[i].fields);
    free(plans[i].hops);
    free(plans[i].lists);
  }
  free(plans);
}
