/* Reading facts: what a field of a subject is, with controls' effects laid over. */
#include "rule/sandbox.h"

#include "base/text.h"
#include <string.h>

void ts_note_read(ts_sandbox *box, uint32_t slot) {
  if (box->read_mark[slot] == box->stamp) return;
  box->read_mark[slot] = box->stamp;
  TS_GROW(box->reads, box->read_count, box->read_capacity);
  box->reads[box->read_count++] = slot;
}

/* ---- effects --------------------------------------------------------------- */

static int choice_index(const char *choices, const char *word) {
  size_t n = strlen(word);
  int index = 0;
  for (const char *at = choices; at && *at; index++) {
    size_t length = strcspn(at, " ");
    if (length == n && !strncmp(at, word, n)) return index;
    at += length + strspn(at + length, " ");
  }
  return -1;
}

static void change_number(ts_sandbox *box, const ts_change *change, const char *text, ts_value *value) {
  ts_range to;
  ts_dim dim;
  char why[200];
  if (!ts_quantity_read(box->units, text, &to, &dim, why, sizeof why)) return;
  if (change->how == TS_AT_MOST) value->range = (ts_range){value->range.lo < to.hi ? value->range.lo : to.hi, value->range.hi < to.hi ? value->range.hi : to.hi};
  else if (change->how == TS_AT_LEAST) value->range = (ts_range){value->range.lo > to.lo ? value->range.lo : to.lo, value->range.hi > to.lo ? value->range.hi : to.lo};
  else value->range = to;
}

static void change_value(ts_sandbox *box, const ts_fact_def *fact, const ts_change *change, const char *text, ts_value *value) {
  switch (fact->type) {
  case TS_QUANTITY: case TS_COUNT: case TS_DATE: case TS_CLOCK: change_number(box, change, text, value); break;
  case TS_FLAG: value->choices = ts_same(text, "yes") ? 2 : 1; break;
  case TS_CHOICE: {
    int index = choice_index(fact->choices, text);
    if (index >= 0) value->choices = (uint64_t)1 << index;
    break;
  }
  case TS_SET:
    value->choices = value->certain = 0;
    int index = choice_index(fact->choices, text);
    if (index >= 0) value->choices = value->certain = (uint64_t)1 << index;
    break;
  default: break;
  }
}

ts_value ts_slot_seen(ts_sandbox *box, uint32_t slot) {
  ts_value value = *ts_slot_value(box->dossier, slot);
  if (!box->effect_count) return value;
  const ts_fact_def *fact = ts_slot_fact(box->dossier, slot);
  for (size_t i = 0; i < box->effect_count; i++) {
    const ts_control *control = box->effects[i].control;
    for (size_t k = 0; k < control->change_count; k++) {
      const ts_change *change = &control->changes[k];
      if (!ts_same(change->entity, fact->entity) || !ts_same(change->fact, fact->name)) continue;
      const char *to = k == 0 && box->effects[i].to ? box->effects[i].to : change->value;
      change_value(box, fact, change, to, &value);
    }
  }
  return value;
}

/* ---- values ----------------------------------------------------------------- */

static ts_node_id read_for_derive(ts_fact_reader *reader, uint32_t slot);

typedef struct {
  ts_fact_reader base;
  ts_sandbox *box;
} reading;

static ts_node_id read_for_derive(ts_fact_reader *reader, uint32_t slot) {
  return ts_slot_node(((reading *)reader)->box, slot);
}

static bool changed_by_effect(const ts_sandbox *box, const ts_fact_def *fact) {
  for (size_t i = 0; i < box->effect_count; i++)
    for (size_t k = 0; k < box->effects[i].control->change_count; k++) {
      const ts_change *change = &box->effects[i].control->changes[k];
      if (ts_same(change->entity, fact->entity) && ts_same(change->fact, fact->name)) return true;
    }
  return false;
}

static ts_node_id derived_node(ts_sandbox *box, uint32_t slot) {
  reading reader = {{box->dossier, box->graph, read_for_derive}, box};
  return ts_derive(&reader.base, slot);
}

/* A derived fact that a control changes directly is clamped like a stated one. */
static ts_node_id changed_derived(ts_sandbox *box, uint32_t slot, const ts_fact_def *fact) {
  ts_node_id node = derived_node(box, slot);
  if (node == TS_NO_NODE) return node;
  ts_value value = {.range = {ts_node_at(box->graph, node)->lo, ts_node_at(box->graph, node)->hi}};
  ts_dim dim = ts_node_at(box->graph, node)->dim;
  for (size_t i = 0; i < box->effect_count; i++)
    for (size_t k = 0; k < box->effects[i].control->change_count; k++) {
      const ts_change *change = &box->effects[i].control->changes[k];
      if (!ts_same(change->entity, fact->entity) || !ts_same(change->fact, fact->name)) continue;
      change_value(box, fact, change, k == 0 && box->effects[i].to ? box->effects[i].to : change->value, &value);
    }
  return ts_derived(box->graph, slot, ts_constant(box->graph, value.range, dim));
}

ts_node_id ts_slot_node(ts_sandbox *box, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(box->dossier, slot);
  ts_note_read(box, slot);
  if (fact->derived) return changed_by_effect(box, fact) ? changed_derived(box, slot, fact) : derived_node(box, slot);
  ts_value value = ts_slot_seen(box, slot);
  return ts_fact_value(box->graph, slot, value.range, ts_fact_dim(ts_dossier_vocabulary(box->dossier), fact));
}

/* ---- what a field gives to Lua ---------------------------------------------- */

static void push_choice(lua_State *L, const char *choices, unsigned index) {
  const char *at = choices;
  for (unsigned i = 0; i < index; i++) at += strcspn(at, " ") + strspn(at + strcspn(at, " "), " ");
  lua_pushlstring(L, at, strcspn(at, " "));
}

static int read_fact(lua_State *L, ts_sandbox *box, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(box->dossier, slot);
  ts_value value;
  switch (fact->type) {
  case TS_QUANTITY: case TS_COUNT: case TS_DATE: case TS_CLOCK: case TS_DAY:
    ts_push_node(L, ts_slot_node(box, slot));
    return 1;
  case TS_FLAG:
    value = ts_slot_seen(box, slot);
    ts_note_read(box, slot);
    lua_pushboolean(L, ts_decide_choice(L, TS_READ_FLAG, slot, 0, value.choices) == 1);
    return 1;
  case TS_CHOICE: case TS_KIND_WORD:
    value = ts_slot_seen(box, slot);
    ts_note_read(box, slot);
    push_choice(L, fact->choices, ts_decide_choice(L, TS_READ_CHOICE, slot, 0, value.choices));
    return 1;
  default:
    return luaL_error(L, "\"%s\" is text for people; rules cannot read it", fact->name);
  }
}

static int read_member(lua_State *L, ts_sandbox *box, uint32_t slot, unsigned bit) {
  ts_value value = ts_slot_seen(box, slot);
  uint64_t options = (value.certain >> bit & 1) ? 2 : (value.choices >> bit & 1) ? 3 : 1;
  ts_note_read(box, slot);
  lua_pushboolean(L, ts_decide_choice(L, TS_READ_FLAG, slot, bit + 1, options) == 1);
  return 1;
}

static int push_list(lua_State *L, const ts_field *field) {
  lua_createtable(L, (int)field->count, 0);
  for (size_t i = 0; i < field->count; i++) {
    ts_push_subject(L, field->list[i]);
    lua_rawseti(L, -2, (lua_Integer)i + 1);
  }
  return 1;
}

static int unknown_field(lua_State *L, ts_sandbox *box, ts_subject subject, const char *name) {
  const ts_subject_info *info = ts_subject_at(box->dossier, subject);
  const char *near = ts_subject_nearest(box->dossier, subject, name);
  if (near) return luaL_error(L, "%s has no field \"%s\"; the nearest name is \"%s\"", info->entity->name, name, near);
  return luaL_error(L, "%s has no field \"%s\"", info->entity->name, name);
}

int ts_field_read(lua_State *L, ts_subject subject, const char *name) {
  ts_sandbox *box = ts_sandbox_of(L);
  if (!strcmp(name, "label")) {
    lua_pushstring(L, ts_subject_at(box->dossier, subject)->label);
    return 1;
  }
  ts_field field = ts_subject_field(box->dossier, subject, name);
  switch (field.kind) {
  case TS_FIELD_FACT: return read_fact(L, box, field.slot);
  case TS_FIELD_MEMBER: return read_member(L, box, field.slot, field.bit);
  case TS_FIELD_LIST: return push_list(L, &field);
  case TS_FIELD_TEXT: return luaL_error(L, "\"%s\" is text for people; rules cannot read it", name);
  case TS_FIELD_SUBJECT:
    if (field.subject == TS_NO_SUBJECT) lua_pushnil(L);
    else ts_push_subject(L, field.subject);
    return 1;
  case TS_FIELD_NONE: break;
  }
  return unknown_field(L, box, subject, name);
}
