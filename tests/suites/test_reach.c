/* Everything a rule can reach, found by going through the environment of rule files: every table,
 * every metatable, every upvalue. What is found must stand in tests/hostile/reach.txt, and nothing
 * more. */
#include "base/file.h"
#include "base/text.h"
#include "rule/sandbox.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_reach(void);

#define UNKNOWN                                                                                    \
  "(an unknown name)" /* how the environment itself, which has no fields, is come by */

enum { SEEN = 1 }; /* stack index of the table of what was seen */

typedef struct {
  lua_State *L;
  ts_arena *arena;
  const char **found;
  size_t count, capacity;
} walk;

static void reach(walk *w, const char *path);

/* The value on the top has not been here before; it has from now on. */
static bool first_time(walk *w) {
  const void *where = lua_topointer(w->L, -1);
  if (where == NULL || lua_iscfunction(w->L, -1)) return true; /* these hold only plain upvalues */
  bool seen = lua_rawgetp(w->L, SEEN, where) != LUA_TNIL;
  lua_pop(w->L, 1);
  if (seen) return false;
  lua_pushboolean(w->L, 1);
  lua_rawsetp(w->L, SEEN, where);
  return true;
}

/* What is looked up in a metatable's table is reached by its plain name. */
static char *plain_path(ts_arena *arena, const char *path) {
  static const char *const steps[] = {UNKNOWN " (metatable).__index.", " (metatable).__index."};
  char *plain = ts_arena_copy(arena, path);
  for (size_t i = 0; i < 2; i++)
    for (char *at; (at = strstr(plain, steps[i])) != NULL;) {
      size_t length = strlen(steps[i]);
      bool first = at == plain;
      memmove(at + (first ? 0 : 1), at + length, strlen(at + length) + 1);
      if (!first) *at = '.';
    }
  return plain;
}

static void add(walk *w, const char *path, const char *kind) {
  TS_GROW(w->found, w->count, w->capacity);
  w->found[w->count++] = ts_arena_printf(w->arena, "%s: %s", plain_path(w->arena, path), kind);
}

static void through_metatable(walk *w, const char *path) {
  if (!lua_getmetatable(w->L, -1)) return;
  reach(w, ts_arena_printf(w->arena, "%s (metatable)", *path ? path : UNKNOWN));
  lua_pop(w->L, 1);
}

static void through_table(walk *w, const char *path) {
  for (lua_pushnil(w->L); lua_next(w->L, -2); lua_pop(w->L, 1)) {
    lua_pushvalue(w->L, -2); /* a copy: lua_tostring would change the key itself */
    const char *key = ts_arena_copy(w->arena, lua_tostring(w->L, -1));
    lua_pop(w->L, 1);
    ck_assert_msg(key != NULL, "a key that is no name in %s", path);
    reach(w, *path ? ts_arena_printf(w->arena, "%s.%s", path, key) : key);
  }
}

static void through_upvalues(walk *w, const char *path) {
  for (int i = 1; lua_getupvalue(w->L, -1, i) != NULL; i++) {
    reach(w, ts_arena_printf(w->arena, "%s (upvalue %d)", path, i));
    lua_pop(w->L, 1);
  }
}

static void reach(walk *w, const char *path) {
  luaL_checkstack(w->L, 16, "deep");
  int type = lua_type(w->L, -1);
  if (!first_time(w)) return;
  bool plain =
      type == LUA_TTABLE || type == LUA_TNUMBER || type == LUA_TBOOLEAN || type == LUA_TSTRING;
  if (!plain) add(w, path, lua_iscfunction(w->L, -1) ? "C function" : luaL_typename(w->L, -1));
  if (type == LUA_TTABLE || type == LUA_TUSERDATA) through_metatable(w, path);
  if (type == LUA_TTABLE) through_table(w, path);
  if (type == LUA_TFUNCTION) through_upvalues(w, path);
}

static int by_text(const void *a, const void *b) {
  return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* Also what values bring along: texts and handles have metatables of their own. */
static void walk_all(walk *w) {
  lua_State *L = w->L;
  lua_settop(L, 0);
  lua_newtable(L);
  lua_getfield(L, LUA_REGISTRYINDEX, TS_ENVIRONMENT);
  reach(w, "");
  lua_pushliteral(L, "text");
  through_metatable(w, "(a text)");
  lua_pushlightuserdata(L, w);
  through_metatable(w, "(a handle)");
  lua_pushinteger(L, 1);
  ck_assert(!lua_getmetatable(L, -1));
  lua_pushboolean(L, 1);
  ck_assert(!lua_getmetatable(L, -1));
  lua_pushnil(L);
  ck_assert(!lua_getmetatable(L, -1));
  lua_pushcfunction(L, lua_error);
  ck_assert(!lua_getmetatable(L, -1));
  qsort(w->found, w->count, sizeof *w->found, by_text);
}

/* What the list says, a line each, without comments; a line that ends in * stands for every
 * function of science. */
static size_t written(ts_arena *arena, const char **lines, size_t most) {
  ts_diagnostics *problems = ts_diagnostics_new();
  char *text =
      ts_file_read(arena, SOURCE_FOLDER "/tests/hostile/reach.txt", 1 << 20, NULL, problems);
  ts_diagnostics_free(problems);
  ck_assert_ptr_nonnull(text);
  size_t count = 0;
  for (char *line = strsep(&text, "\n"); line != NULL; line = strsep(&text, "\n")) {
    char *star = strchr(line, '*');
    if (*line == '#' || *line == '\0') continue;
    ck_assert_uint_lt(count + 256, most);
    if (star == NULL) lines[count++] = line;
    for (const ts_function *f = ts_functions(); star != NULL && f->name != NULL; f++)
      lines[count++] =
          ts_arena_printf(arena, "%.*s%s%s", (int)(star - line), line, f->name, star + 1);
  }
  qsort(lines, count, sizeof *lines, by_text);
  return count;
}

START_TEST(nothing_but_what_is_written_down) {
  char why[256];
  ts_units *units = ts_units_new(why, sizeof why);
  ts_sandbox *box = ts_sandbox_new(units);
  walk w = {.L = box->lua, .arena = ts_arena_new()};
  lua_sethook(box->lua, NULL, 0, 0);
  walk_all(&w);
  const char *lines[2048];
  size_t count = written(w.arena, lines, 2048);
  for (size_t i = 0, k = 0; i < w.count || k < count;) {
    int order = i == w.count ? 1 : k == count ? -1 : strcmp(w.found[i], lines[k]);
    ck_assert_msg(order >= 0, "reached, and not written down: %s", w.found[i]);
    ck_assert_msg(order <= 0, "written down, and not reached: %s", lines[k]);
    i++, k++;
  }
  free(w.found);
  ts_arena_free(w.arena);
  ts_sandbox_free(box);
  ts_units_free(units);
}
END_TEST

Suite *suite_reach(void) {
  Suite *suite = suite_create("reach");
  TCase *tc = tcase_create("reach");
  tcase_add_test(tc, nothing_but_what_is_written_down);
  suite_add_tcase(suite, tc);
  return suite;
}
