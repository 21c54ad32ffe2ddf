/* The part of Lua that rules may use, written or wrapped so that it is
 * bounded, deterministic and leaks no address. */
#include "rule/sandbox.h"

#include "base/text.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { TEXT_LIMIT = 4096 }; /* bytes a string function may make */

static int check_text_size(lua_State *L, size_t size) {
  return size > TEXT_LIMIT ? luaL_error(L, "a text over %d bytes", (int)TEXT_LIMIT) : 0;
}

static int lua_kind(lua_State *L) {
  luaL_checkany(L, 1);
  const char *name = ts_is_subject(L, 1) ? "subject" : ts_is_node(L, 1) ? "quantity" : luaL_typename(L, 1);
  lua_pushstring(L, name);
  return 1;
}

static int plain_text(lua_State *L) {
  char out[32];
  switch (lua_type(L, 1)) {
  case LUA_TSTRING: lua_pushvalue(L, 1); break;
  case LUA_TNUMBER: lua_pushstring(L, ts_number_write(lua_tonumber(L, 1), out, sizeof out)); break;
  case LUA_TBOOLEAN: lua_pushstring(L, lua_toboolean(L, 1) ? "true" : "false"); break;
  default: return luaL_error(L, "tostring is for plain values; name a quantity in the text as {name}");
  }
  return 1;
}

static int next_index(lua_State *L) {
  lua_Integer i = luaL_checkinteger(L, 2) + 1;
  lua_pushinteger(L, i);
  lua_geti(L, 1, i);
  return lua_isnil(L, -1) ? 1 : 2;
}

static int each_index(lua_State *L) {
  luaL_checkany(L, 1);
  if (!lua_istable(L, 1)) return luaL_error(L, "ipairs wants a list, not a %s", luaL_typename(L, 1));
  lua_pushcfunction(L, next_index);
  lua_pushvalue(L, 1);
  lua_pushinteger(L, 0);
  return 3;
}

/* pairs in byte order of string keys, so that a run does not depend on the hash seed. */
static int compare_keys(const void *a, const void *b) {
  return strcmp(*(const char *const *)a, *(const char *const *)b);
}

static int next_key(lua_State *L) {           /* upvalues: keys, position */
  lua_Integer at = lua_tointeger(L, lua_upvalueindex(2)) + 1;
  lua_pushinteger(L, at);
  lua_replace(L, lua_upvalueindex(2));
  lua_rawgeti(L, lua_upvalueindex(1), at);
  if (lua_isnil(L, -1)) return 1;
  lua_pushvalue(L, -1);
  lua_gettable(L, 1);
  return 2;
}

/* Pushes a table, or what it shows where it is a read-only view. What is behind a view must not get into a
 * rule's hands. */
static void push_members(lua_State *L, int table) {
  int shown = luaL_getmetafield(L, table, "__index");
  if (shown == LUA_TTABLE) return;
  if (shown != LUA_TNIL) lua_pop(L, 1);
  lua_pushvalue(L, table);
}

static int each_key(lua_State *L) {
  luaL_checktype(L, 1, LUA_TTABLE);
  lua_settop(L, 1);
  push_members(L, 1);
  const char *keys[256];
  size_t count = 0;
  for (lua_pushnil(L); lua_next(L, 2); lua_pop(L, 1)) {
    if (lua_type(L, -2) != LUA_TSTRING) return luaL_error(L, "pairs is for tables with string keys; use ipairs for lists");
    if (count == 256) return luaL_error(L, "pairs over more than 256 keys");
    keys[count++] = lua_tostring(L, -2);
  }
  if (count > 1) qsort(keys, count, sizeof *keys, compare_keys);
  lua_createtable(L, (int)count, 0);
  for (size_t i = 0; i < count; i++) {
    lua_pushstring(L, keys[i]);
    lua_rawseti(L, -2, (lua_Integer)i + 1);
  }
  lua_pushinteger(L, 0);
  lua_pushcclosure(L, next_key, 2);
  lua_pushvalue(L, 1);
  return 2;
}

static int text_upper(lua_State *L) {
  size_t n;
  const char *s = luaL_checklstring(L, 1, &n);
  check_text_size(L, n);
  luaL_Buffer b;
  char *out = luaL_buffinitsize(L, &b, n);
  for (size_t i = 0; i < n; i++) out[i] = s[i] >= 'a' && s[i] <= 'z' ? (char)(s[i] - 32) : s[i];
  luaL_pushresultsize(&b, n);
  return 1;
}

static int text_lower(lua_State *L) {
  size_t n;
  const char *s = luaL_checklstring(L, 1, &n);
  check_text_size(L, n);
  luaL_Buffer b;
  char *out = luaL_buffinitsize(L, &b, n);
  for (size_t i = 0; i < n; i++) out[i] = s[i] >= 'A' && s[i] <= 'Z' ? (char)(s[i] + 32) : s[i];
  luaL_pushresultsize(&b, n);
  return 1;
}

static int text_length(lua_State *L) {
  size_t n;
  luaL_checklstring(L, 1, &n);
  lua_pushinteger(L, (lua_Integer)n);
  return 1;
}

static int text_sub(lua_State *L) {
  size_t n;
  const char *s = luaL_checklstring(L, 1, &n);
  lua_Integer from = luaL_checkinteger(L, 2), to = luaL_optinteger(L, 3, (lua_Integer)n);
  if (from < 1) from = 1;
  if (to > (lua_Integer)n) to = (lua_Integer)n;
  lua_pushlstring(L, from <= to ? s + from - 1 : "", from <= to ? (size_t)(to - from + 1) : 0);
  return 1;
}

static int list_insert(lua_State *L) {
  luaL_checktype(L, 1, LUA_TTABLE);
  luaL_checkany(L, 2);
  if (lua_gettop(L) != 2) return luaL_error(L, "table.insert takes a list and a value");
  if (lua_rawlen(L, 1) >= 4096) return luaL_error(L, "a list over 4096 members");
  lua_seti(L, 1, luaL_len(L, 1) + 1);
  return 0;
}

static int list_concat(lua_State *L) {
  luaL_checktype(L, 1, LUA_TTABLE);
  const char *between = luaL_optstring(L, 2, "");
  luaL_Buffer b;
  luaL_buffinit(L, &b);
  lua_Integer n = luaL_len(L, 1);
  for (lua_Integer i = 1; i <= n; i++) {
    if (i > 1) luaL_addstring(&b, between);
    if (lua_geti(L, 1, i) != LUA_TSTRING) return luaL_error(L, "table.concat joins strings only");
    luaL_addvalue(&b);
    check_text_size(L, luaL_bufflen(&b));
  }
  luaL_pushresult(&b);
  return 1;
}

static int count_members(lua_State *L, int members) {
  enum { MOST = 256 };
  int count = 0;
  for (lua_pushnil(L); lua_next(L, members); lua_pop(L, 1), count++) {
    if (lua_type(L, -2) != LUA_TSTRING) return luaL_error(L, "table.copy is for tables with string keys");
    if (count == MOST) return luaL_error(L, "table.copy of more than %d keys", (int)MOST);
  }
  return count;
}

static void put_members(lua_State *L, int members, int into) {
  for (lua_pushnil(L); lua_next(L, members);) {
    lua_pushvalue(L, -2);
    lua_insert(L, -2);
    lua_rawset(L, into);
  }
}

/* table.copy(facts, changes): a new table of both, where both have a key with what `changes` has. */
static int table_copy(lua_State *L) {
  enum { FACTS = 3, CHANGES, COPY };
  luaL_checktype(L, 1, LUA_TTABLE);
  lua_settop(L, 2);
  if (lua_isnil(L, 2)) lua_newtable(L), lua_replace(L, 2);
  luaL_checktype(L, 2, LUA_TTABLE);
  push_members(L, 1);
  push_members(L, 2);
  lua_createtable(L, 0, count_members(L, FACTS) + count_members(L, CHANGES));
  put_members(L, FACTS, COPY);
  put_members(L, CHANGES, COPY);
  return 1;
}

static int push_whole(lua_State *L, double x) {
  luaL_argcheck(L, fabs(x) < 1e15, 1, "too large for a whole number");
  lua_pushinteger(L, (lua_Integer)x);
  return 1;
}

static int number_floor(lua_State *L) { return push_whole(L, floor(luaL_checknumber(L, 1))); }

static int number_ceil(lua_State *L) { return push_whole(L, ceil(luaL_checknumber(L, 1))); }

static void put_table(lua_State *L, const char *name, const luaL_Reg *functions) {
  lua_newtable(L);
  luaL_setfuncs(L, functions, 0);
  ts_freeze(L);
  lua_setfield(L, -2, name);
}

void ts_install_library(lua_State *L) {
  static const luaL_Reg basic[] = {
      {"type", lua_kind}, {"tostring", plain_text}, {"ipairs", each_index}, {"pairs", each_key}, {NULL, NULL}};
  static const luaL_Reg text[] = {
      {"upper", text_upper}, {"lower", text_lower}, {"len", text_length}, {"sub", text_sub}, {NULL, NULL}};
  static const luaL_Reg list[] = {{"insert", list_insert}, {"concat", list_concat}, {"copy", table_copy}, {NULL, NULL}};
  static const luaL_Reg number[] = {{"floor", number_floor}, {"ceil", number_ceil}, {NULL, NULL}};
  luaL_setfuncs(L, basic, 0);
  put_table(L, "string", text);
  put_table(L, "table", list);
  put_table(L, "math", number);
  lua_pushliteral(L, ""); /* methods on strings reach the same small table */
  lua_newtable(L);
  lua_getfield(L, -3, "string");
  lua_setfield(L, -2, "__index");
  lua_pushboolean(L, 0);
  lua_setfield(L, -2, "__metatable");
  lua_setmetatable(L, -2);
  lua_pop(L, 1);
}
