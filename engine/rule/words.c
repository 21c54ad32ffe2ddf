/* The words of a rule file: rule, control, fact, share to declare; tighten, raise to make a
 * rule of another pack stricter; hazard, duty, stop, note to say something about a subject. */
#include "rule/instrument.h"

#include "base/text.h"
#include "rule/trace.h"
#include <stdlib.h>
#include <string.h>

/* ---- declaring -------------------------------------------------------------- */

static int line_of_caller(lua_State *L) {
  lua_Debug where;
  if (!lua_getstack(L, 1, &where) || !lua_getinfo(L, "l", &where)) return 0;
  return where.currentline;
}

enum { DECLARED_MOST = 8192 }; /* in all packs together: ten times what comes with the program */

static int declare(lua_State *L, const char *word) {
  ts_sandbox *box = ts_sandbox_of(L);
  if (box->declared == DECLARED_MOST) return luaL_error(L, "more than %d declarations", (int)DECLARED_MOST);
  if (box->evaluating) return luaL_error(L, "\"%s\" belongs at the top of a file, not inside a rule", word);
  if (!lua_istable(L, 1)) return luaL_error(L, "%s wants a table: %s { ... }", word, word);
  lua_getfield(L, LUA_REGISTRYINDEX, TS_DECLARED);
  lua_createtable(L, 0, 4);
  lua_pushstring(L, word);
  lua_setfield(L, -2, "word");
  lua_pushinteger(L, line_of_caller(L));
  lua_setfield(L, -2, "line");
  lua_pushstring(L, box->file);
  lua_setfield(L, -2, "file");
  lua_pushvalue(L, 1);
  lua_setfield(L, -2, "body");
  lua_rawseti(L, -2, (lua_Integer)++box->declared);
  return 0;
}

static int declare_rule(lua_State *L) { return declare(L, "rule"); }
static int declare_control(lua_State *L) { return declare(L, "control"); }
static int declare_fact(lua_State *L) { return declare(L, "fact"); }
static int declare_tighten(lua_State *L) { return declare(L, "tighten"); }
static int declare_raise(lua_State *L) { return declare(L, "raise"); }

/* share("scale", { ... }): the table is known by that name in this file and every one loaded later. */
static int declare_share(lua_State *L) {
  const char *name = luaL_checkstring(L, 1);
  if (ts_sandbox_of(L)->evaluating) return luaL_error(L, "\"share\" belongs at the top of a file");
  luaL_checktype(L, 2, LUA_TTABLE);
  lua_settop(L, 2);
  lua_getfield(L, LUA_REGISTRYINDEX, TS_NAMES);
  lua_pushvalue(L, 1);
  if (lua_rawget(L, -2) != LUA_TNIL) return luaL_error(L, "the name \"%s\" is taken", name);
  lua_pop(L, 1);
  lua_pushvalue(L, 2);
  lua_setfield(L, -2, name);
  luaL_getsubtable(L, LUA_REGISTRYINDEX, TS_SHARED);
  lua_pushvalue(L, 1);
  lua_rawseti(L, -2, (lua_Integer)lua_rawlen(L, -2) + 1);
  return 0;
}

/* ---- when a file has run ------------------------------------------------------- */

static void freeze_shared(lua_State *L) {
  luaL_getsubtable(L, LUA_REGISTRYINDEX, TS_SHARED);
  int list = lua_gettop(L);
  lua_getfield(L, LUA_REGISTRYINDEX, TS_NAMES);
  for (lua_Integer i = 1; lua_rawgeti(L, list, i) == LUA_TSTRING; i++) {
    lua_pushvalue(L, -1);
    lua_rawget(L, -3);                      /* names, name, table */
    ts_freeze(L);
    lua_rawset(L, -3);
  }
  lua_pushnil(L);
  lua_setfield(L, LUA_REGISTRYINDEX, TS_SHARED);
  lua_settop(L, list - 1);
}

static void freeze_functions(lua_State *L, int table) {
  for (lua_pushnil(L); lua_next(L, table); lua_pop(L, 1))
    if (lua_isfunction(L, -1) && !lua_iscfunction(L, -1)) ts_freeze_function(L, lua_gettop(L));
}

int ts_freeze_declared(lua_State *L) {
  lua_Integer from = luaL_checkinteger(L, 1);
  freeze_shared(L);
  lua_getfield(L, LUA_REGISTRYINDEX, TS_DECLARED);
  for (lua_Integer i = from; lua_rawgeti(L, -1, i) == LUA_TTABLE; i++) {
    lua_getfield(L, -1, "body");
    freeze_functions(L, lua_gettop(L));
    lua_pop(L, 2);
  }
  return 0;
}

/* ---- saying ------------------------------------------------------------------ */

/* Where the rule's own file says it, also by way of a shared function; 0 where it does not. */
static int line_of_rule(lua_State *L, const ts_rule *rule) {
  char source[256];
  lua_Debug where;
  snprintf(source, sizeof source, "@%s/%s", rule->pack, rule->file);
  for (int level = 1; lua_getstack(L, level, &where); level++)
    if (lua_getinfo(L, "Sl", &where) && ts_same(where.source, source)) return where.currentline;
  return 0;
}

static const char *const outcome_words[] = {"hazard", "duty", "stop", "note"};

enum { TEXT_MOST = 4096 }; /* bytes of one text that a rule says */

static const char *text_field(lua_State *L, ts_sandbox *box, const char *name, bool required, const char *word) {
  lua_getfield(L, 1, name);
  if (lua_isnil(L, -1) && !required) return lua_pop(L, 1), NULL;
  if (lua_type(L, -1) != LUA_TSTRING) luaL_error(L, "%s: \"%s\" must be a text", word, name);
  size_t length;
  const char *text = lua_tolstring(L, -1, &length);
  const char *trouble = length > TEXT_MOST ? "more than 4096 bytes" : ts_text_trouble(text, length);
  if (trouble) luaL_error(L, "%s: \"%s\" holds %s", word, name, trouble);
  const char *copy = ts_arena_copy(box->arena, text);
  lua_pop(L, 1);
  return copy;
}

static int level_field(lua_State *L, const char *name) {
  lua_getfield(L, 1, name);
  lua_Integer level = lua_isinteger(L, -1) ? lua_tointeger(L, -1) : 0;
  if (level < 1 || level > 5) luaL_error(L, "hazard: \"%s\" must be a whole number from 1 to 5", name);
  lua_pop(L, 1);
  return (int)level;
}

static int compare_named(const void *a, const void *b) {
  return strcmp(((const ts_named *)a)->name, ((const ts_named *)b)->name);
}

static void read_values(lua_State *L, ts_sandbox *box, ts_said *said, const char *word) {
  enum { MOST = 32 };
  lua_getfield(L, 1, "values");
  if (lua_isnil(L, -1)) {
    lua_pop(L, 1);
    return;
  }
  if (!lua_istable(L, -1)) luaL_error(L, "%s: \"values\" must be a table of named quantities", word);
  ts_named all[MOST] = {0};
  for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1)) {
    if (lua_type(L, -2) != LUA_TSTRING || said->named_count == MOST) luaL_error(L, "%s: \"values\" has names, at most %d", word, (int)MOST);
    ts_named *named = &all[said->named_count++];
    strncpy(named->name, lua_tostring(L, -2), sizeof named->name - 1);
    named->node = ts_to_node(L, -1);
  }
  lua_pop(L, 1);
  said->named = ts_arena_keep(box->arena, all, said->named_count * sizeof *all);
  qsort(said->named, said->named_count, sizeof *said->named, compare_named);
}

/* Adds the ids of one list to those there are. */
static void read_ids(lua_State *L, ts_sandbox *box, ts_said *said, const char *field, const char *word) {
  lua_getfield(L, 1, field);
  if (lua_isnil(L, -1)) {
    lua_pop(L, 1);
    return;
  }
  if (!lua_istable(L, -1)) luaL_error(L, "%s: \"%s\" must be a list of names", word, field);
  size_t before = said->out.control_count, count = (size_t)luaL_len(L, -1);
  if (before + count > 64) luaL_error(L, "%s: more than 64 controls", word);
  const char **ids = ts_arena_alloc(box->arena, (before + count + 1) * sizeof *ids);
  if (before) memcpy(ids, said->out.controls, before * sizeof *ids);
  for (size_t i = 0; i < count; i++) {
    if (lua_geti(L, -1, (lua_Integer)i + 1) != LUA_TSTRING) luaL_error(L, "%s: \"%s\" must be a list of names", word, field);
    ids[before + i] = ts_arena_copy(box->arena, lua_tostring(L, -1));
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
  said->out.controls = ids;
  said->out.control_count = before + count;
}

/* `controls` bear on the score; `also` on the danger, but on no fact that this rule goes by. */
static void read_controls(lua_State *L, ts_sandbox *box, ts_said *said, const char *word) {
  read_ids(L, box, said, "controls", word);
  said->out.scored_controls = said->out.control_count;
  read_ids(L, box, said, "also", word);
}

static const char *const fields[] = {"likelihood", "severity", "because", "values", "controls", "about", "who",
                                     "met", "instrument", "section", "evidence", "discreet", "also"};

/* A misspelt field would be silently ignored by Lua; here it is an error. */
static void check_fields(lua_State *L, const char *word) {
  for (lua_pushnil(L); lua_next(L, 1); lua_pop(L, 1)) {
    if (lua_type(L, -2) != LUA_TSTRING) luaL_error(L, "%s: fields have names", word);
    const char *name = lua_tostring(L, -2);
    size_t count = sizeof fields / sizeof *fields, i = 0;
    while (i < count && strcmp(fields[i], name) != 0) i++;
    if (i < count) continue;
    const char *near = ts_nearest(name, fields, count);
    luaL_error(L, "%s has no field \"%s\"%s%s", word, name, near ? "; the nearest name is " : "", near ? near : "");
  }
}

/* discreet = true: readers who may not see what is confidential learn only that it is there. */
static bool read_discreet(lua_State *L, const char *word) {
  lua_getfield(L, 1, "discreet");
  if (!lua_isnil(L, -1) && !lua_isboolean(L, -1)) luaL_error(L, "%s: \"discreet\" must be true or false", word);
  bool discreet = lua_toboolean(L, -1);
  lua_pop(L, 1);
  return discreet;
}

static void read_duty(lua_State *L, ts_sandbox *box, ts_said *said) {
  ts_instrument_read(L, box, &said->out);
  said->out.section = text_field(L, box, "section", true, "duty");
  said->out.evidence = text_field(L, box, "evidence", false, "duty");
  lua_getfield(L, 1, "met");
  if (!lua_isnil(L, -1) && !lua_isboolean(L, -1)) luaL_error(L, "duty: \"met\" must be true, false or nil (open)");
  said->out.state = lua_isnil(L, -1) ? TS_UNDECIDED : lua_toboolean(L, -1) ? TS_MET : TS_NOT_MET;
  lua_pop(L, 1);
}

/* While files load, hazard { ... } stands for what an example expects. */
static int describe(lua_State *L, ts_word word) {
  if (lua_isnoneornil(L, 1)) lua_settop(L, 0), lua_newtable(L);
  luaL_checktype(L, 1, LUA_TTABLE);
  lua_pushstring(L, outcome_words[word]);
  lua_setfield(L, 1, "word");
  lua_settop(L, 1);
  return 1;
}

static int say(lua_State *L, ts_word word) {
  ts_sandbox *box = ts_sandbox_of(L);
  const char *name = outcome_words[word];
  if (!box->evaluating) return describe(L, word);
  if (!lua_istable(L, 1)) return luaL_error(L, "%s wants a table: %s { ... }", name, name);
  if (box->said_count >= 256) return luaL_error(L, "more than 256 outcomes from one rule over one subject");
  check_fields(L, name);
  ts_said said = {.out = {.word = word, .decision_count = box->step_count, .line = line_of_rule(L, box->rule)}, .slot_mark = box->read_count};
  if (word == TS_HAZARD) {
    said.out.likelihood = ts_raised(box, level_field(L, "likelihood"), true);
    said.out.severity = ts_raised(box, level_field(L, "severity"), false);
  }
  if (word == TS_DUTY) read_duty(L, box, &said);
  if (word == TS_DUTY && !ts_instrument_in_force(box, &said.out)) return 0;
  said.because = text_field(L, box, "because", true, name);
  const char *about = text_field(L, box, "about", false, name);
  said.out.about = about ? about : "";
  said.out.who = text_field(L, box, "who", false, name);
  said.out.discreet = read_discreet(L, name);
  read_values(L, box, &said, name);
  read_controls(L, box, &said, name);
  said.slot_mark = box->read_count;
  TS_GROW(box->said, box->said_count, box->said_capacity);
  box->said[box->said_count++] = said;
  ts_record_say(box, &said);
  return 0;
}

static int say_hazard(lua_State *L) { return say(L, TS_HAZARD); }
static int say_duty(lua_State *L) { return say(L, TS_DUTY); }
static int say_stop(lua_State *L) { return say(L, TS_STOP); }
static int say_note(lua_State *L) { return say(L, TS_REMARK); }

void ts_install_words(lua_State *L) {
  static const luaL_Reg words[] = {{"rule", declare_rule}, {"control", declare_control}, {"fact", declare_fact},
                                   {"share", declare_share}, {"tighten", declare_tighten},
                                   {"raise", declare_raise}, {"hazard", say_hazard}, {"duty", say_duty},
                                   {"stop", say_stop}, {"note", say_note}, {NULL, NULL}};
  luaL_setfuncs(L, words, 0);
  lua_newtable(L); /* what an example expects when nothing is to be said */
  lua_pushliteral(L, "nothing");
  lua_setfield(L, -2, "word");
  ts_freeze(L);
  lua_setfield(L, -2, "nothing");
}
