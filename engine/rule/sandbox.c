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
  if (new > old && box->memory + (new - old) > box->memory_limit) return NULL;
  box->memory += new - old;
  return ts_heap_resize(&box->heap, block, old, new);
}

static void count_steps(lua_State *L, lua_Debug *where) {
  (void)where;
  if (ts_sandbox_of(L)->steps_left-- > 0) return;
  luaL_where(L, 0); /* a hook runs in the place of what it interrupts */
  lua_pushliteral(L, "the rule runs too long");
  lua_concat(L, 2);
  lua_error(L);
}

/* Also forgets what was counted of the present hundred. */
void ts_sandbox_give(ts_sandbox *box, long hundreds) {
  box->steps_left = hundreds;
  lua_sethook(box->lua, count_steps, LUA_MASKCOUNT, HOOK_STEP);
}

ts_sandbox *ts_sandbox_of(lua_State *L) { return *(ts_sandbox **)lua_getextraspace(L); }

/* Reading a name that nothing defines is an error with the nearest name. Called with the table of names. */
static int unknown_global(lua_State *L) {
  const char *name = lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "?";
  const char *candidates[128];
  size_t count = 0;
  for (lua_pushnil(L); count < 128 && lua_next(L, 1); lua_pop(L, 1))
    if (lua_type(L, -2) == LUA_TSTRING) candidates[count++] = lua_tostring(L, -2);
  const char *near = ts_nearest(name, candidates, count);
  if (near) return luaL_error(L, "unknown name \"%s\"; the nearest name is \"%s\"", name, near);
  return luaL_error(L, "unknown name \"%s\"", name);
}

static int refuse_global(lua_State *L) {
  return luaL_error(L, "assignment to the global \"%s\"; write \"local\"",
                    lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "?");
}

/* Leaves in the registry the table of names, which raises an error for one it does not have, and the environment,
 * an empty table that shows it: so Lua finds a name that is known without a call into C. The names are on the stack, too. */
static void make_environment(lua_State *L) {
  lua_newtable(L);                                  /* names */
  lua_newtable(L);
  lua_pushcfunction(L, unknown_global);
  lua_setfield(L, -2, "__index");
  lua_setmetatable(L, -2);
  lua_pushvalue(L, -1);
  lua_setfield(L, LUA_REGISTRYINDEX, TS_NAMES);
  lua_newtable(L);                                  /* names, env */
  lua_newtable(L);                                  /* names, env, meta */
  lua_pushvalue(L, -3);
  lua_setfield(L, -2, "__index");
  lua_pushcfunction(L, refuse_global);
  lua_setfield(L, -2, "__newindex");
  lua_pushboolean(L, 0);
  lua_setfield(L, -2, "__metatable");
  lua_setmetatable(L, -2);
  lua_setfield(L, LUA_REGISTRYINDEX, TS_ENVIRONMENT); /* names */
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
  return box;
}

void ts_sandbox_free(ts_sandbox *box) {
  if (!box) return;
  lua_close(box->lua);
  ts_heap_release(&box->heap);
  ts_graph_free(box->graph);
  ts_recorder_free(box->recorder);
  ts_arena_free(box->arena);
  free(box->steps);
  free(box->reads);
  free(box->read_at);
  free(box->read_ever_at);
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
  lua_getfield(L, LUA_REGISTRYINDEX, TS_ENVIRONMENT);
  lua_pushliteral(L, TS_SEEN);
  lua_pushcfunction(L, pass_point);
  lua_rawset(L, -3);
  lua_pop(L, 1);
}

const char *ts_sandbox_run_file(ts_sandbox *box, const char *text, size_t length, const char *name) {
  lua_State *L = box->lua;
  box->file = name;
  ts_sandbox_give(box, 100000);
  const char *chunk = ts_arena_printf(box->arena, "@%s", name);
  size_t declared = box->declared;
  int status = luaL_loadbufferx(L, text, length, chunk, "t");
  if (status == LUA_OK) {
    lua_getfield(L, LUA_REGISTRYINDEX, TS_ENVIRONMENT);
    lua_setupvalue(L, -2, 1); /* a chunk's only upvalue is its _ENV */
    status = lua_pcall(L, 0, 0, 0);
  }
  lua_pushcfunction(L, ts_freeze_declared); /* whatever came of it: `rules check` goes on with what there is */
  lua_pushinteger(L, (lua_Integer)declared + 1);
  int frozen = lua_pcall(L, 1, 0, 0);
  if (status == LUA_OK) status = frozen;
  else if (frozen != LUA_OK) lua_pop(L, 1);
  if (status == LUA_OK) return NULL;
  const char *why = lua_tostring(L, -1);
  if (why && ts_same(why, "C stack overflow")) why = "nested too deeply to be read";
  why = ts_arena_copy(box->arena, why ? why : "an error that is not text");
  lua_pop(L, 1);
  return why;
}
