#include "rule/form.h"

#include "base/text.h"
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void ts_form_report(ts_form *f, const char *format, ...) {
  char *message = NULL;
  va_list list;
  va_start(list, format);
  if (vasprintf(&message, format, list) < 0) ts_out_of_memory();
  va_end(list);
  ts_report(f->problems, TS_ERROR, f->file, f->line, "%s: %s", f->word, message);
  free(message);
  f->good = false;
}

void ts_form_wrong(ts_form *f, const char *name, const char *expected) {
  ts_form_report(f, "field \"%s\" must be %s", name, expected);
}

const char *ts_form_top(ts_form *f, const char *name) {
  enum { MOST = 4096 };
  if (lua_type(f->L, -1) != LUA_TSTRING) return NULL;
  size_t length;
  const char *text = lua_tolstring(f->L, -1, &length);
  const char *trouble = length > MOST ? "more than 4096 bytes" : ts_text_trouble(text, length);
  if (trouble) ts_form_report(f, "field \"%s\" holds %s", name, trouble);
  return trouble || !length ? NULL : ts_arena_copy(f->packs->arena, text);
}

const char *ts_form_text(ts_form *f, int table, const char *name, bool required) {
  lua_getfield(f->L, table, name);
  const char *value = ts_form_top(f, name);
  bool empty = lua_type(f->L, -1) != LUA_TSTRING || lua_rawlen(f->L, -1) == 0;
  if (empty && (!lua_isnil(f->L, -1) || required))
    ts_form_wrong(f, name, required ? "a text, and present" : "a text");
  lua_pop(f->L, 1);
  return value;
}

int ts_form_number(ts_form *f, int table, const char *name, int lo, int hi, int otherwise) {
  lua_getfield(f->L, table, name);
  lua_Integer value = otherwise;
  if (lua_isinteger(f->L, -1)) value = lua_tointeger(f->L, -1);
  if ((!lua_isinteger(f->L, -1) && !lua_isnil(f->L, -1)) || value < lo || value > hi) {
    ts_form_report(f, "field \"%s\" must be a whole number from %d to %d", name, lo, hi);
    value = otherwise;
  }
  lua_pop(f->L, 1);
  return (int)value;
}

void ts_form_known(ts_form *f, int table, const char *const *names, size_t count) {
  for (lua_pushnil(f->L); lua_next(f->L, table); lua_pop(f->L, 1)) {
    const char *name = lua_type(f->L, -2) == LUA_TSTRING ? lua_tostring(f->L, -2) : "(a list member)";
    size_t i = 0;
    while (i < count && !ts_same(names[i], name)) i++;
    if (i < count) continue;
    const char *near = ts_nearest(name, names, count);
    ts_form_report(f, "unknown field \"%s\"%s%s%s", name, near ? "; the nearest name is \"" : "",
                   near ? near : "", near ? "\"" : "");
  }
}

const char *ts_form_id(ts_form *f, const char *name) {
  const char *id = ts_form_text(f, f->body, name, true);
  enum { LONGEST = 64 };
  if (id && strlen(id) > LONGEST)
    ts_form_report(f, "\"%.20s...\" cannot be an id: over %d characters", id, (int)LONGEST);
  else if (id && strspn(id, "abcdefghijklmnopqrstuvwxyz0123456789.-_") != strlen(id))
    ts_form_report(f, "\"%s\" cannot be an id; expected lower-case letters, digits, '.', '-' and '_'", id);
  return id;
}

const char *ts_form_pack(const ts_form *f) {
  const char *slash = strchr(f->file, '/');
  return ts_arena_copy_n(f->packs->arena, f->file, slash ? (size_t)(slash - f->file) : 0);
}

const char *ts_form_file(const ts_form *f) {
  const char *slash = strchr(f->file, '/');
  return slash ? slash + 1 : f->file;
}
