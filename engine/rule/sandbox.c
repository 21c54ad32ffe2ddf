#include "rule/sandbox.h"

#include "base/text.h"
#include "rule/trace.h"
#include <lualib.h>
#include <stdlib.h>
#include <string.h>

enum {
  MEMORY_LIMIT = 64 * 1024 * 1024, /* bytes, all rule files and one evaluation together */
  HOOK_STEP = 100                  /* instructions between two looks at the budget */
};

/* The capped allocator: Lua raises its own "not enough memory" past the limit. That is a mistake of
 * the rule; where the machine has no more, the run ends as everywhere. */
static void *allocate(void *user, void *block, size_t old, size_t new) {
  ts_sandbox *box = user;
  if (!block) old = 0;
  if (new == 0) {
    free(block);
    box->memory -= old;
    return NULL;
  }
  if (new > old && box->memory + (new - old) > box->memory_limit) return NULL;
  box->memory += new - old;
  return ts_resize(block, new);
}

static void count_steps(lua_State *L, lua_Debug *where) {
  (void)where;
  if (ts_sandbox_of(L)->steps_left-- > 0) return;
  luaL_where(L, 0); /* a hook runs in the place of what it interrupts */
  lua_pushliteral(L, "the rule runs too long");
  lua_concat(L, 2);
  lua_error(L);
}

ts_sandbox *ts_sandbox_of(lua_State *L) { return *(ts_sandbox **)lua_getextraspace(L); }

/* Reading a name that nothing defines is an error with the nearest name. */
static int unknown_global(lua_State *L) {
  const char *name = lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "?";
  lua_getmetatable(L, 1);
  lua_getfield(L, -1, "names");
  const char *candidates[128];
  size_t count = 0;
  for (lua_pushnil(L); count < 128 && lua_next(L, -2); lua_pop(L, 1))
    if (lua_type(L, -2) == LUA_TSTRING) candidates[count++] = lua_tostring(L, -2);
  const char *near = ts_nearest(name, candidates, count);
  if (near) return luaL_error(L, "unknown name \"%s\"; the nearest name is \"%s\"", name, near);
  return luaL_error(L, "unknown name \"%s\"", name);
}

static int lookup_global(lua_State *L) {
  lua_getmetatable(L, 1);          /* env, name, meta */
  lua_getfield(L, -1, "names");    /* env, name, meta, names */
  lua_pushvalue(L, 2);
  lua_rawget(L, -2);
  if (!lua_isnil(L, -1)) return 1;
  lua_settop(L, 2);
  return unknown_global(L);
}

static int refuse_global(lua_State *L) {
  return luaL_error(L, "assignment to the global \"%s\"; write \"local\"",
                    lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "?");
}

/* Leaves the environment (an empty table whose metatable looks names up) in
 * the registry, and the table of names on the stack for the installers. */
static void make_environment(lua_State *L) {
  lua_newtable(L);                                  /* env */
  lua_newtable(L);                                  /* env, meta */
  lua_newtable(L);                                  /* env, meta, names */
  lua_pushvalue(L, -1);
  lua_setfield(L, -3, "names");
  lua_pushcfunction(L, lookup_global);
  lua_setfield(L, -3, "__index");
  lua_pushcfunction(L, refuse_global);
  lua_setfield(L, -3, "__newindex");
  lua_pushboolean(L, 0);
  lua_setfield(L, -3, "__metatable");
  lua_insert(L, -3);                                /* names, env, meta */
  lua_setmetatable(L, -2);                          /* names, env */
  lua_setfield(L, LUA_REGISTRYINDEX, "tankside.environment"); /* names */
}

static int install(lua_State *L) {
  lua_newtable(L);
  lua_setfield(L, LUA_REGISTRYINDEX, TS_FREEZER);
  make_environment(L);
  ts_install_library(L);
  ts_install_values(L);
  ts_install_words(L);
  lua_pop(L, 1);
  lua_newtable(L);
  lua_setfield(L, LUA_REGISTRYINDEX, TS_DECLARED);
  return 0;
}

ts_sandbox *ts_sandbox_new(const ts_units *units) {
  ts_sandbox *box = ts_alloc(sizeof *box);
  box->units = units;
  box->memory_limit = MEMORY_LIMIT;
  box->narrowing = true;
  box->arena = ts_arena_new();
  box->graph = ts_graph_new();
  box->lua = lua_newstate(allocate, box);
  if (!box->lua) abort(); /* a fresh state is far below the limit */
  *(ts_sandbox **)lua_getextraspace(box->lua) = box;
  lua_pushcfunction(box->lua, install);
  if (lua_pcall(box->lua, 0, 0, 0) != LUA_OK) abort(); /* our own code: cannot fail */
  lua_sethook(box->lua, count_steps, LUA_MASKCOUNT, HOOK_STEP);
  return box;
}

void ts_sandbox_free(ts_sandbox *box) {
  if (!box) return;
  lua_close(box->lua);
  ts_graph_free(box->graph);
  ts_recorder_free(box->recorder);
  ts_arena_free(box->arena);
  free(box->steps);
  free(box->reads);
  free(box->read_mark);
  free(box->read_ever);
  free(box->bounds);
  free(box->said);
  free(box->room);
  free(box->forks);
  free(box->saved);
  free(box);
}

/* TS_SEEN(number, value) gives the value back; TS_SEEN(number) says that this was reached. */
static int pass_point(lua_State *L) {
  ts_sandbox *box = ts_sandbox_of(L);
  bool statement = lua_isnone(L, 2);
  box->watch(box->watcher, (unsigned)lua_tointeger(L, 1), statement || lua_toboolean(L, 2));
  if (statement) return 0;
  lua_settop(L, 2);
  return 1;
}

void ts_sandbox_watch(ts_sandbox *box, ts_watch *watch, void *watcher) {
  lua_State *L = box->lua;
  box->watch = watch;
  box->watcher = watcher;
  lua_getfield(L, LUA_REGISTRYINDEX, "tankside.environment");
  lua_pushliteral(L, TS_SEEN);
  lua_pushcfunction(L, pass_point);
  lua_rawset(L, -3);
  lua_pop(L, 1);
}

const char *ts_sandbox_run_file(ts_sandbox *box, const char *text, size_t length, const char *name) {
  lua_State *L = box->lua;
  box->file = name;
  box->steps_left = 100000;
  const char *chunk = ts_arena_printf(box->arena, "@%s", name);
  int status = luaL_loadbufferx(L, text, length, chunk, "t");
  if (status == LUA_OK) {
    lua_getfield(L, LUA_REGISTRYINDEX, "tankside.environment");
    lua_setupvalue(L, -2, 1); /* a chunk's only upvalue is its _ENV */
    status = lua_pcall(L, 0, 0, 0);
  }
  if (status == LUA_OK) return NULL;
  const char *why = lua_tostring(L, -1);
  if (why && ts_same(why, "C stack overflow")) why = "nested too deeply to be read";
  why = ts_arena_copy(box->arena, why ? why : "an error that is not text");
  lua_pop(L, 1);
  return why;
}
