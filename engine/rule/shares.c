/* What packs share: the tables that every rule sees, and the functions in them, with the words
 * that stand above each in its file. */
#include "rule/shares.h"

#include "base/text.h"
#include "rule/packs_int.h"
#include <stdlib.h>
#include <string.h>

typedef struct {
  const ts_packs *packs;
  ts_arena *arena;
  ts_shared *all;
  size_t count, capacity;
} collection;

/* "available, needed": the names of the parameters of the function on the top. */
static const char *parameters(lua_State *L, ts_arena *arena) {
  ts_text text = {0};
  const char *name;
  for (int n = 1; (name = lua_getlocal(L, NULL, n)) != NULL; n++)
    ts_text_addf(&text, "%s%s", n > 1 ? ", " : "", name);
  const char *copy = ts_arena_copy(arena, text.data ? text.data : "");
  ts_text_release(&text);
  return copy;
}

static const ts_pack_file *file_of(const ts_packs *packs, const char *name) {
  for (size_t i = 0; i < packs->file_count; i++)
    if (ts_same(packs->files[i].name, name)) return &packs->files[i];
  return NULL;
}

/* Where a line begins, counting from 1. */
static const char *line_start(const char *text, int line) {
  while (text != NULL && --line > 0)
    if ((text = strchr(text, '\n')) != NULL) text++;
  return text;
}

static bool is_comment(const char *line) {
  line += strspn(line, " ");
  return line[0] == '-' && line[1] == '-';
}

/* The comment lines straight above a line, as one text. */
static const char *comment_above(const char *text, int line, ts_arena *arena) {
  ts_text words = {0};
  int first = line;
  for (const char *above; first > 1 && (above = line_start(text, first - 1)) != NULL; first--)
    if (!is_comment(above)) break;
  for (int at = first; at < line; at++) {
    const char *start = line_start(text, at);
    start += strspn(start, " -");
    if (words.length > 0) ts_text_add(&words, " ");
    ts_text_add_n(&words, start, strcspn(start, "\n"));
  }
  const char *copy = ts_arena_copy(arena, words.data ? words.data : "");
  ts_text_release(&words);
  return copy;
}

/* The function on the top. */
static void add_function(collection *c, lua_State *L, const char *table, const char *name) {
  lua_Debug where;
  lua_pushvalue(L, -1);
  if (!lua_getinfo(L, ">S", &where) || where.source[0] != '@') return;
  const ts_pack_file *file = file_of(c->packs, where.source + 1);
  TS_GROW(c->all, c->count, c->capacity);
  c->all[c->count++] =
      (ts_shared){.table = ts_arena_copy(c->arena, table),
                  .name = ts_arena_copy(c->arena, name),
                  .parameters = parameters(L, c->arena),
                  .comment = file ? comment_above(file->text, where.linedefined, c->arena) : "",
                  .file = file ? file->name : "",
                  .line = where.linedefined};
}

static void add_number(collection *c, const char *table, const char *name) {
  TS_GROW(c->all, c->count, c->capacity);
  c->all[c->count++] = (ts_shared){.table = ts_arena_copy(c->arena, table),
                                   .name = ts_arena_copy(c->arena, name),
                                   .comment = "",
                                   .file = ""};
}

/* The read-only view on the top: what it shows is behind its __index. */
static void add_table(collection *c, lua_State *L, const char *table) {
  if (luaL_getmetafield(L, -1, "__index") != LUA_TTABLE) return;
  for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1)) {
    if (lua_type(L, -2) != LUA_TSTRING) continue;
    const char *name = lua_tostring(L, -2);
    if (lua_isfunction(L, -1) && !lua_iscfunction(L, -1)) add_function(c, L, table, name);
    if (lua_isnumber(L, -1)) add_number(c, table, name);
  }
}

static int by_name(const void *a, const void *b) {
  const ts_shared *x = a, *y = b;
  int order = strcmp(x->table, y->table);
  return order != 0 ? order : strcmp(x->name, y->name);
}

size_t ts_shared_names(const ts_packs *packs, ts_arena *arena, const ts_shared **shared) {
  lua_State *L = packs->box->lua;
  collection c = {.packs = packs, .arena = arena};
  int top = lua_gettop(L);
  lua_getfield(L, LUA_REGISTRYINDEX, TS_NAMES);
  int names = lua_gettop(L);
  for (lua_pushnil(L); lua_next(L, names); lua_settop(L, names + 1))
    if (lua_type(L, -2) == LUA_TSTRING && lua_istable(L, -1)) add_table(&c, L, lua_tostring(L, -2));
  lua_settop(L, top);
  ts_shared *list = ts_arena_alloc(arena, (c.count + 1) * sizeof *list);
  if (c.count > 0) {
    memcpy(list, c.all, c.count * sizeof *list);
    qsort(list, c.count, sizeof *list, by_name);
  }
  free(c.all);
  *shared = list;
  return c.count;
}
