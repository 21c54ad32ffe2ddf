/* Reading facts: what a field of a subject is, with controls' effects laid over. */
#include "rule/sandbox.h"

#include "base/text.h"
#include "rule/trace.h"
#include <string.h>

void ts_note_read(ts_sandbox *box, uint32_t slot) {
  if (ts_is_at(box->reads, box->read_count, box->read_at[slot], slot)) return;
  box->read_at[slot] = (uint16_t)box->read_count;
  TS_GROW(box->reads, box->read_count, box->read_capacity);
  box->reads[box->read_count++] = slot;
}

/* ---- effects --------------------------------------------------------------- */

/* A fact of the scope, or one shared by all (the water, over a task) for those within it. */
static bool in_scope(const ts_dossier *dossier, const ts_effect *effect, uint32_t slot) {
  if (effect->scope == 0 || effect->scope == TS_NO_SUBJECT) return true;
  const char *kind = ts_subject_at(dossier, effect->scope)->entity->name;
  ts_subject there = ts_leads_to(dossier, ts_slot_subject(dossier, slot), kind);
  return there == TS_NO_SUBJECT ? effect->here : there == effect->scope;
}

static double least(double a, double b) { return a < b ? a : b; }
static double most(double a, double b) { return a > b ? a : b; }

void ts_change_value(const ts_change *change, const ts_value *to, ts_value *value) {
  ts_range was = value->range;
  value->choices = to->choices;
  value->certain = to->certain;
  value->range = to->range;
  if (change->how == TS_AT_MOST) value->range = (ts_range){least(was.lo, to->range.hi), least(was.hi, to->range.hi)};
  if (change->how == TS_AT_LEAST) value->range = (ts_range){most(was.lo, to->range.lo), most(was.hi, to->range.lo)};
}

/* Lays what controls change over a value; true when any did. */
static bool lay_over(const ts_sandbox *box, uint32_t slot, ts_value *value) {
  bool changed = box->laid && ts_laid_over(box->laid, box->subject, box->laid_level, slot, value);
  const ts_fact_def *fact = box->effect_count ? ts_slot_fact(box->dossier, slot) : NULL;
  for (size_t i = 0; i < box->effect_count; i++) {
    const ts_effect *effect = &box->effects[i];
    for (size_t k = 0; k < effect->control->change_count; k++) {
      const ts_change *change = &effect->control->changes[k];
      if (change->def != fact || !in_scope(box->dossier, effect, slot)) continue;
      ts_change_value(change, k == 0 && effect->to ? effect->to : &change->value, value);
      changed = true;
    }
  }
  return changed;
}

bool ts_effects_reach(const ts_dossier *dossier, const ts_effect *effects, size_t effect_count,
                      const uint32_t *slots, size_t slot_count) {
  for (size_t i = 0; i < effect_count; i++)
    for (size_t k = 0; k < effects[i].control->change_count; k++)
      for (size_t s = 0; s < slot_count; s++)
        if (ts_slot_fact(dossier, slots[s]) == effects[i].control->changes[k].def &&
            in_scope(dossier, &effects[i], slots[s]))
          return true;
  return false;
}

ts_value ts_slot_seen(ts_sandbox *box, uint32_t slot) {
  ts_value value = *ts_slot_value(box->dossier, slot);
  lay_over(box, slot, &value);
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

/* A derived fact that a control changes directly is clamped like a stated one. */
static ts_node_id derived_node(ts_sandbox *box, uint32_t slot) {
  reading reader = {{box->dossier, box->graph, read_for_derive, NULL}, box};
  ts_node_id node = ts_derive(&reader.base, slot);
  if (node == TS_NO_NODE || (!box->laid && !box->effect_count)) return node;
  const ts_node *made = ts_node_at(box->graph, node);
  ts_value value = {.range = {made->lo, made->hi}};
  if (!lay_over(box, slot, &value)) return node;
  return ts_derived(box->graph, slot, ts_constant(box->graph, value.range, made->dim));
}

ts_node_id ts_slot_node(ts_sandbox *box, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(box->dossier, slot);
  ts_note_read(box, slot);
  if (fact->derived) return derived_node(box, slot);
  ts_value value = ts_slot_seen(box, slot);
  return ts_fact_value(box->graph, slot, value.range, ts_fact_dim(ts_dossier_vocabulary(box->dossier), fact));
}

/* ---- what a field gives to Lua ---------------------------------------------- */

static void push_choice(lua_State *L, const char *choices, unsigned index) {
  const char *at = choices;
  for (unsigned i = 0; i < index; i++) at += strcspn(at, " ") + strspn(at + strcspn(at, " "), " ");
  lua_pushlstring(L, at, strcspn(at, " "));
}

uint64_t ts_slot_answers(ts_sandbox *box, uint32_t slot, unsigned bit) {
  ts_value value = ts_slot_seen(box, slot);
  if (bit == 0) return value.choices;
  return (value.certain >> (bit - 1) & 1) ? 2 : (value.choices >> (bit - 1) & 1) ? 3 : 1;
}

static unsigned read_answer(lua_State *L, ts_sandbox *box, ts_question kind, uint32_t slot, unsigned bit) {
  uint64_t options = ts_slot_answers(box, slot, bit);
  ts_note_read(box, slot);
  return ts_decide_choice(L, kind, slot, bit, options);
}

static ts_node_id read_number(ts_sandbox *box, uint32_t slot) {
  ts_node_id node = ts_slot_node(box, slot);
  ts_record_fact(box, slot, node);
  return node;
}

static int read_fact(lua_State *L, ts_sandbox *box, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(box->dossier, slot);
  switch (fact->type) {
  case TS_QUANTITY: case TS_COUNT: case TS_DATE: case TS_CLOCK: case TS_DAY:
    ts_push_node(L, read_number(box, slot));
    return 1;
  case TS_FLAG: lua_pushboolean(L, read_answer(L, box, TS_READ_FLAG, slot, 0) == 1); return 1;
  case TS_CHOICE: case TS_KIND_WORD: push_choice(L, fact->choices, read_answer(L, box, TS_READ_CHOICE, slot, 0)); return 1;
  default:
    return luaL_error(L, "\"%s\" is text for people; rules cannot read it", fact->name);
  }
}

static int read_member(lua_State *L, ts_sandbox *box, uint32_t slot, unsigned bit) {
  lua_pushboolean(L, read_answer(L, box, TS_READ_FLAG, slot, bit + 1) == 1);
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
    ts_record_label(box, subject);
    lua_pushstring(L, ts_subject_at(box->dossier, subject)->label);
    return 1;
  }
  ts_field field = ts_subject_field(box->dossier, subject, name);
  ts_record_met(box, subject, &field);
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
