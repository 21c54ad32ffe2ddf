/* Nothing a rule can reach may remember: a pure function keeps no state.
 *
 * Tables that a rule's functions hold in upvalues are replaced by read-only views; that no
 * function assigns to an upvalue is seen before the file runs (scopes.h). */
#include "rule/sandbox.h"

/* What is frozen is gone down by recursion, with a few places of the stack for each level: so many
 * levels are bounded by it, far above what anybody writes and far below what the C stack holds. */
static void check_depth(lua_State *L, const char *what) {
  enum { PLACES_MOST = 1000 };
  if (lua_gettop(L) > PLACES_MOST) luaL_error(L, "%s nested too deep", what);
  luaL_checkstack(L, 16, "nested too deep");
}

static int refuse_write(lua_State *L) {
  luaL_where(L, 1);
  if (!*lua_tostring(L, -1)) luaL_where(L, 2); /* whoever called table.insert */
  lua_pushliteral(L, "this table is read-only: one evaluation leaves nothing behind for the next");
  lua_concat(L, 2);
  return lua_error(L);
}

static int view_length(lua_State *L) {
  lua_getmetatable(L, 1);
  lua_getfield(L, -1, "__index");
  lua_pushinteger(L, (lua_Integer)lua_rawlen(L, -1));
  return 1;
}

/* In place of the table on the top, its view: remembered, so that one table has one view. */
static void new_view(lua_State *L) {
  lua_newtable(L);                       /* table, view */
  lua_newtable(L);                       /* table, view, meta */
  lua_pushvalue(L, -3);
  lua_setfield(L, -2, "__index");
  lua_pushcfunction(L, refuse_write);
  lua_setfield(L, -2, "__newindex");
  lua_pushcfunction(L, view_length);
  lua_setfield(L, -2, "__len");
  lua_pushboolean(L, 0);
  lua_setfield(L, -2, "__metatable");
  lua_setmetatable(L, -2);               /* table, view */
  lua_getfield(L, LUA_REGISTRYINDEX, TS_FREEZER);
  lua_pushvalue(L, -3);
  lua_pushvalue(L, -3);
  lua_rawset(L, -3);                     /* table, view, freezer */
  lua_pushvalue(L, -2);
  lua_pushvalue(L, -3);
  lua_rawset(L, -3);                     /* freezer[view] = view */
  lua_pop(L, 1);
}

static void freeze_members(lua_State *L) {  /* original on the top */
  check_depth(L, "tables");
  for (lua_pushnil(L); lua_next(L, -2);) {  /* original, key, value */
    if (lua_isfunction(L, -1) && !lua_iscfunction(L, -1)) ts_freeze_function(L, lua_gettop(L));
    if (lua_istable(L, -1)) {
      ts_freeze(L);
      lua_pushvalue(L, -2);
      lua_insert(L, -2);                    /* original, key, key, view */
      lua_rawset(L, -4);                    /* assigning to a present key is allowed during next */
    } else {
      lua_pop(L, 1);
    }
  }
}

void ts_freeze(lua_State *L) {
  lua_getfield(L, LUA_REGISTRYINDEX, TS_FREEZER);
  lua_pushvalue(L, -2);
  lua_rawget(L, -2);                        /* table, freezer, known */
  lua_remove(L, -2);
  if (!lua_isnil(L, -1)) {
    lua_remove(L, -2);                      /* known */
    return;
  }
  lua_pop(L, 1);                            /* table */
  new_view(L);                              /* table, view */
  lua_insert(L, -2);                        /* view, table */
  freeze_members(L);
  lua_pop(L, 1);
}

/* freezer[function] = true marks it as seen; false where it was. */
static bool remember_function(lua_State *L, int index) {
  lua_getfield(L, LUA_REGISTRYINDEX, TS_FREEZER);
  lua_pushvalue(L, index);
  bool seen = lua_rawget(L, -2) != LUA_TNIL;
  lua_pushvalue(L, index);
  lua_pushboolean(L, 1);
  lua_rawset(L, -4);
  lua_pop(L, 2);
  return !seen;
}

static void freeze_upvalue(lua_State *L, int index, int n) {  /* its value on the top; pops it */
  if (lua_istable(L, -1)) {
    ts_freeze(L);
    lua_setupvalue(L, index, n);
    return;
  }
  if (lua_isfunction(L, -1) && !lua_iscfunction(L, -1)) ts_freeze_function(L, lua_gettop(L));
  lua_pop(L, 1);
}

static bool is_environment(lua_State *L) {  /* of the value on the top */
  lua_getfield(L, LUA_REGISTRYINDEX, TS_ENVIRONMENT);
  bool same = lua_rawequal(L, -1, -2);
  lua_pop(L, 1);
  return same;
}

void ts_freeze_function(lua_State *L, int index) {
  check_depth(L, "functions");
  if (!remember_function(L, index)) return;
  for (int n = 1; lua_getupvalue(L, index, n); n++) {
    if (is_environment(L)) lua_pop(L, 1);
    else freeze_upvalue(L, index, n);
  }
}
