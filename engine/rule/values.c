/* Quantities in Lua: handles, arithmetic, comparison, q, calc, min max abs sum. */
#include "rule/sandbox.h"

#include "base/text.h"
#include "rule/trace.h"
#include <stdint.h>
#include <string.h>

#define NODE_TAG ((uint64_t)1 << 61)
#define SUBJECT_TAG ((uint64_t)3 << 61)
#define TAG_MASK ((uint64_t)3 << 61)
#define INDEX_MASK (((uint64_t)1 << 24) - 1)
#define STAMP_MASK (((uint64_t)1 << 36) - 1)

static void push_handle(lua_State *L, uint64_t tag, uint32_t index) {
  ts_sandbox *box = ts_sandbox_of(L);
  if (index > INDEX_MASK) luaL_error(L, "too many values in one evaluation");
  lua_pushlightuserdata(L, (void *)(uintptr_t)(tag | (box->stamp & STAMP_MASK) << 24 | index));
}

static bool handle_at(lua_State *L, int index, uint64_t tag) {
  if (lua_type(L, index) != LUA_TLIGHTUSERDATA) return false;
  return ((uint64_t)(uintptr_t)lua_touserdata(L, index) & TAG_MASK) == tag;
}

bool ts_is_node(lua_State *L, int index) { return handle_at(L, index, NODE_TAG); }

bool ts_is_subject(lua_State *L, int index) { return handle_at(L, index, SUBJECT_TAG); }

static uint32_t open_handle(lua_State *L, int index) {
  uint64_t handle = (uint64_t)(uintptr_t)lua_touserdata(L, index);
  if ((handle >> 24 & STAMP_MASK) != (ts_sandbox_of(L)->stamp & STAMP_MASK))
    luaL_error(L, "a value kept from another evaluation");
  return (uint32_t)(handle & INDEX_MASK);
}

void ts_push_node(lua_State *L, ts_node_id id) {
  if (id == TS_NO_NODE) luaL_error(L, "%s", ts_graph_problem(ts_sandbox_of(L)->graph));
  push_handle(L, NODE_TAG, id);
}

void ts_push_subject(lua_State *L, ts_subject subject) { push_handle(L, SUBJECT_TAG, subject); }

/* ---- making values, for the record as well -------------------------------- */

static ts_node_id make_constant(ts_sandbox *box, ts_range range, ts_dim dim) {
  ts_node_id made = ts_constant(box->graph, range, dim);
  ts_record_constant(box, made);
  return made;
}

static ts_node_id make_binary(ts_sandbox *box, ts_op op, ts_node_id a, ts_node_id b) {
  ts_node_id made = ts_binary(box->graph, op, a, b);
  ts_record_binary(box, op, a, b, made);
  return made;
}

static ts_node_id make_unary(ts_sandbox *box, ts_op op, ts_node_id a) {
  ts_node_id made = ts_unary(box->graph, op, a);
  ts_record_unary(box, op, 0, a, made);
  return made;
}

static ts_node_id make_power(ts_sandbox *box, ts_node_id a, int k) {
  ts_node_id made = ts_power(box->graph, a, k);
  ts_record_unary(box, TS_RAISE, k, a, made);
  return made;
}

void ts_push_constant(lua_State *L, ts_range range, ts_dim dim) {
  ts_push_node(L, make_constant(ts_sandbox_of(L), range, dim));
}

ts_node_id ts_to_node(lua_State *L, int index) {
  ts_sandbox *box = ts_sandbox_of(L);
  if (ts_is_node(L, index)) return open_handle(L, index);
  if (lua_type(L, index) != LUA_TNUMBER)
    luaL_error(L, "a quantity is expected, not a %s", ts_is_subject(L, index) ? "subject" : luaL_typename(L, index));
  double x = lua_tonumber(L, index);
  return make_constant(box, (ts_range){x, x}, TS_NUMBER);
}

ts_subject ts_to_subject(lua_State *L, int index) {
  if (!ts_is_subject(L, index)) luaL_error(L, "a subject is expected, not a %s", ts_is_node(L, index) ? "quantity" : luaL_typename(L, index));
  return open_handle(L, index);
}

/* ---- arithmetic ---------------------------------------------------------- */

static int binary(lua_State *L, ts_op op) {
  ts_node_id a = ts_to_node(L, 1), b = ts_to_node(L, 2);
  ts_push_node(L, make_binary(ts_sandbox_of(L), op, a, b));
  return 1;
}

static int value_add(lua_State *L) { return binary(L, TS_ADD); }
static int value_sub(lua_State *L) { return binary(L, TS_SUB); }
static int value_mul(lua_State *L) { return binary(L, TS_MUL); }
static int value_div(lua_State *L) { return binary(L, TS_DIV); }

static int value_neg(lua_State *L) {
  ts_push_node(L, make_unary(ts_sandbox_of(L), TS_NEG, ts_to_node(L, 1)));
  return 1;
}

static int value_abs(lua_State *L) {
  ts_push_node(L, make_unary(ts_sandbox_of(L), TS_ABS, ts_to_node(L, 1)));
  return 1;
}

static int value_root(lua_State *L) {
  ts_push_node(L, make_unary(ts_sandbox_of(L), TS_ROOT, ts_to_node(L, 1)));
  return 1;
}

static int value_power(lua_State *L) {
  if (lua_type(L, 2) != LUA_TNUMBER || !lua_isinteger(L, 2)) return luaL_error(L, "a power must be a whole number");
  ts_push_node(L, make_power(ts_sandbox_of(L), ts_to_node(L, 1), (int)lua_tointeger(L, 2)));
  return 1;
}

/* ---- comparison ---------------------------------------------------------- */

static int compare(lua_State *L, bool or_equal) {
  ts_node_id a = ts_to_node(L, 1), b = ts_to_node(L, 2);
  ts_sandbox *box = ts_sandbox_of(L);
  ts_dim x = ts_node_at(box->graph, a)->dim, y = ts_node_at(box->graph, b)->dim;
  char first[48], second[48];
  if (x != y) return luaL_error(L, "cannot compare %s with %s", ts_dim_name(x, first, sizeof first), ts_dim_name(y, second, sizeof second));
  lua_pushboolean(L, ts_decide_compare(L, a, b, or_equal));
  return 1;
}

static int value_lt(lua_State *L) { return compare(L, false); }
static int value_le(lua_State *L) { return compare(L, true); }

static int value_same(lua_State *L) {
  lua_pushboolean(L, ts_to_subject(L, 1) == ts_to_subject(L, 2));
  return 1;
}

/* ---- fields and refusals -------------------------------------------------- */

static int value_index(lua_State *L) {
  if (ts_is_node(L, 1)) return luaL_error(L, "a quantity has no fields");
  if (lua_type(L, 2) != LUA_TSTRING) return luaL_error(L, "a subject's fields have names");
  return ts_field_read(L, ts_to_subject(L, 1), lua_tostring(L, 2));
}

static int refuse_set(lua_State *L) { return luaL_error(L, "a rule cannot change a fact"); }
static int refuse_text(lua_State *L) { return luaL_error(L, "a quantity or subject is not text; name it in the text as {name}"); }
static int refuse_length(lua_State *L) { return luaL_error(L, "a quantity or subject has no length"); }
static int refuse_operator(lua_State *L) { return luaL_error(L, "this operator is not for quantities"); }
static int refuse_call(lua_State *L) { return luaL_error(L, "a quantity or subject cannot be called"); }

/* ---- q and the range-aware functions -------------------------------------- */

/* The place of a text in the memory of what q has read: by its address, which is the same for
 * equal short texts while they live; the words are compared, since an address may be used again. */
static ts_read_quantity *memory_of(ts_sandbox *box, const char *text) {
  uintptr_t address = (uintptr_t)text;
  return &box->read_quantities[(address >> 3 ^ address >> 12) % TS_READ_QUANTITIES];
}

static int refuse_quantity(lua_State *L, const char *text, const char *why) {
  enum { SHOWN = 40 };
  char start[SHOWN + 8];
  snprintf(start, sizeof start, strlen(text) > SHOWN ? "%.*s..." : "%.*s", (int)SHOWN, text);
  return luaL_error(L, "q\"%s\": %s", start, why);
}

static int make_quantity(lua_State *L) {
  ts_sandbox *box = ts_sandbox_of(L);
  if (lua_type(L, 1) != LUA_TSTRING) return luaL_error(L, "q wants a text such as q\"5 s\"");
  const char *text = lua_tostring(L, 1);
  ts_read_quantity *known = memory_of(box, text);
  if (!*text || strcmp(known->text, text) != 0) {
    ts_read_quantity read;
    char why[256];
    if (!ts_quantity_read(box->units, text, &read.range, &read.dim, why, sizeof why))
      return refuse_quantity(L, text, why);
    size_t bytes = strlen(text) + 1;
    if (bytes > sizeof read.text) {
      ts_push_constant(L, read.range, read.dim);
      return 1;
    }
    memcpy(read.text, text, bytes);
    *known = read;
  }
  ts_push_constant(L, known->range, known->dim);
  return 1;
}

static int extreme(lua_State *L, ts_op op) {
  int count = lua_gettop(L);
  if (count < 1) return luaL_error(L, "min and max want at least one value");
  ts_node_id best = ts_to_node(L, 1);
  for (int i = 2; i <= count; i++) {
    best = make_binary(ts_sandbox_of(L), op, best, ts_to_node(L, i));
    if (best == TS_NO_NODE) break;
  }
  ts_push_node(L, best);
  return 1;
}

/* Plain numbers stay plain, so that likelihoods can be capped with min and max. */
static bool plain_extreme(lua_State *L, bool min) {
  int count = lua_gettop(L), best = 1;
  for (int i = 1; i <= count; i++)
    if (lua_type(L, i) != LUA_TNUMBER) return false;
  for (int i = 2; i <= count; i++)
    if (lua_compare(L, min ? i : best, min ? best : i, LUA_OPLT)) best = i;
  if (count) lua_pushvalue(L, best);
  return count > 0;
}

static int value_min(lua_State *L) { return plain_extreme(L, true) ? 1 : extreme(L, TS_MIN); }
static int value_max(lua_State *L) { return plain_extreme(L, false) ? 1 : extreme(L, TS_MAX); }

/* sum(list, "field", zero): the field of every subject added to zero. */
static int value_sum(lua_State *L) {
  luaL_checktype(L, 1, LUA_TTABLE);
  const char *field = luaL_checkstring(L, 2);
  ts_node_id total = ts_to_node(L, 3);
  lua_Integer count = luaL_len(L, 1);
  for (lua_Integer i = 1; i <= count && total != TS_NO_NODE; i++) {
    lua_geti(L, 1, i);
    ts_field_read(L, ts_to_subject(L, -1), field);
    total = make_binary(ts_sandbox_of(L), TS_ADD, total, ts_to_node(L, -1));
    lua_settop(L, 3);
  }
  ts_push_node(L, total);
  return 1;
}

/* ---- calc ----------------------------------------------------------------- */

static int call_function(lua_State *L) {
  const ts_function *f = &ts_functions()[lua_tointeger(L, lua_upvalueindex(1))];
  if (lua_gettop(L) != f->count)
    return luaL_error(L, "calc.%s takes %d arguments, not %d", f->name, f->count, lua_gettop(L));
  ts_node_id x[TS_ARGUMENTS_MAX];
  for (int i = 0; i < f->count; i++) x[i] = ts_to_node(L, i + 1);
  ts_node_id made = ts_call(ts_sandbox_of(L)->graph, f, x);
  ts_record_call(ts_sandbox_of(L), f, x, made);
  ts_push_node(L, made);
  return 1;
}

static int unknown_function(lua_State *L) {
  const char *name = lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "?";
  const char *names[512];
  size_t count = 0;
  for (const ts_function *f = ts_functions(); f->name && count < 512; f++) names[count++] = f->name;
  const char *near = ts_nearest(name, names, count);
  return luaL_error(L, "unknown function calc.%s%s%s", name, near ? "; the nearest name is calc." : "", near ? near : "");
}

static void install_calc(lua_State *L) {
  lua_newtable(L);
  for (lua_Integer i = 0; ts_functions()[i].name; i++) {
    lua_pushinteger(L, i);
    lua_pushcclosure(L, call_function, 1);
    lua_setfield(L, -2, ts_functions()[i].name);
  }
  lua_newtable(L);
  lua_pushcfunction(L, unknown_function);
  lua_setfield(L, -2, "__index");
  lua_pushboolean(L, 0);
  lua_setfield(L, -2, "__metatable");
  lua_setmetatable(L, -2);
  ts_freeze(L);
  lua_setfield(L, -2, "calc");
}

/* One metatable serves every light userdata of the state. */
static void install_metatable(lua_State *L) {
  static const luaL_Reg events[] = {
      {"__add", value_add}, {"__sub", value_sub}, {"__mul", value_mul}, {"__div", value_div},
      {"__unm", value_neg}, {"__pow", value_power}, {"__lt", value_lt}, {"__le", value_le},
      {"__index", value_index}, {"__newindex", refuse_set}, {"__concat", refuse_text},
      {"__tostring", refuse_text}, {"__len", refuse_length}, {"__call", refuse_call},
      {"__mod", refuse_operator}, {"__idiv", refuse_operator}, {"__band", refuse_operator},
      {"__bor", refuse_operator}, {"__bxor", refuse_operator}, {"__shl", refuse_operator},
      {"__shr", refuse_operator}, {"__bnot", refuse_operator}, {NULL, NULL}};
  lua_pushlightuserdata(L, NULL);
  lua_newtable(L);
  luaL_setfuncs(L, events, 0);
  lua_pushboolean(L, 0);
  lua_setfield(L, -2, "__metatable");
  lua_setmetatable(L, -2);
  lua_pop(L, 1);
}

void ts_install_values(lua_State *L) {
  static const luaL_Reg functions[] = {{"q", make_quantity}, {"min", value_min}, {"max", value_max},
                                       {"abs", value_abs},   {"sqrt", value_root}, {"sum", value_sum},
                                       {"same", value_same}, {NULL, NULL}};
  install_metatable(L);
  luaL_setfuncs(L, functions, 0);
  install_calc(L);
}
