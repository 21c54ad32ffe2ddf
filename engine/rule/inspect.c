/* Names and controls, as they stand in the text: what does not exist, what has no effect. */
#include "rule/check_int.h"

#include "base/text.h"
#include <string.h>

static const char *nearest_words(ts_checking *c, const char *near) {
  return near ? ts_arena_printf(c->arena, "; the nearest name is \"%s\"", near) : "";
}

/* ---- names ----------------------------------------------------------------------------- */

/* Pushes what every rule file knows by this name, or nil. */
static void push_known(lua_State *L, const char *name) {
  lua_getfield(L, LUA_REGISTRYINDEX, TS_NAMES);
  lua_pushstring(L, name);
  lua_rawget(L, -2);
  lua_remove(L, -2);
}

/* In place of the view on the top the table it shows; false where it shows none. */
static bool open_table(lua_State *L) {
  if (!lua_istable(L, -1)) return false;
  if (luaL_getmetafield(L, -1, "__index") != LUA_TTABLE) return false;
  lua_replace(L, -2);
  return true;
}

enum { NAMES = 512 };

static const char *nearest_key(ts_checking *c, lua_State *L,
                               const char *name) { /* of the table on the top */
  const char *keys[NAMES];
  size_t count = 0;
  for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1))
    if (lua_type(L, -2) == LUA_TSTRING && count < NAMES) keys[count++] = lua_tostring(L, -2);
  return ts_arena_copy(c->arena, ts_nearest(name, keys, count));
}

static void check_global(ts_checking *c, const ts_syntax *it) {
  lua_State *L = c->packs->box->lua;
  push_known(L, it->text);
  bool known = !lua_isnil(L, -1);
  lua_settop(L, 0);
  if (known) return;
  lua_getfield(L, LUA_REGISTRYINDEX, TS_NAMES);
  ts_report(c->problems, TS_ERROR, it->file, it->line, "unknown name \"%s\"%s (column %d)",
            it->text, nearest_words(c, nearest_key(c, L, it->text)), it->column);
  lua_settop(L, 0);
}

/* calc.x, scale.x, string.x: what these tables do not have. */
static void check_member(ts_checking *c, const ts_syntax *it) {
  lua_State *L = c->packs->box->lua;
  push_known(L, it->first->text);
  bool table = open_table(L);
  if (table)
    lua_pushstring(L, it->text), lua_rawget(L, -2); /* raw: some raise an error themselves */
  if (table && lua_isnil(L, -1)) {
    lua_pop(L, 1);
    ts_report(c->problems, TS_ERROR, it->file, it->line, "\"%s\" has no \"%s\"%s (column %d)",
              it->first->text, it->text, nearest_words(c, nearest_key(c, L, it->text)), it->column);
  }
  lua_settop(L, 0);
}

static void check_targets(ts_checking *c, const ts_syntax *assignment) {
  const ts_syntax *target = assignment->first;
  for (size_t i = 0; i < assignment->targets && target; i++, target = target->next)
    if (target->kind == TS_E_NAME && !target->local)
      ts_report(c->problems, TS_ERROR, target->file, target->line,
                "assignment to the global \"%s\"; write \"local\" (column %d)", target->text,
                target->column);
}

static void check_names(ts_checking *c, const ts_syntax *it) {
  bool global = it->kind == TS_E_NAME && !it->local;
  if (it->kind == TS_S_ASSIGN) check_targets(c, it);
  if (it->kind == TS_E_FIELD && it->first->kind == TS_E_NAME && !it->first->local)
    check_member(c, it);
  if (global) check_global(c, it);
  size_t targets = it->kind == TS_S_ASSIGN ? it->targets : 0;
  for (const ts_syntax *child = it->first; child; child = child->next, targets -= targets > 0)
    if (!targets || child->kind != TS_E_NAME) check_names(c, child);
}

/* ---- controls that are named --------------------------------------------------------------- */

static const char *nearest_control(ts_checking *c, const char *id) {
  size_t count = ts_control_count(c->packs);
  const char **ids = ts_arena_alloc(c->arena, (count + 1) * sizeof *ids);
  for (size_t i = 0; i < count; i++) ids[i] = ts_control_at(c->packs, i)->id;
  return ts_nearest(id, ids, count);
}

static void no_control(ts_checking *c, const char *file, int line, const char *id) {
  ts_report(c->problems, TS_ERROR, file, line, "control \"%s\" is in no pack%s", id,
            nearest_words(c, nearest_control(c, id)));
}

/* controls = { "a", "b" } or also = { "c" }, wherever it stands. */
static bool is_control_list(const ts_syntax *it) {
  bool named =
      it->kind == TS_E_KEYED && (ts_same(it->text, "controls") || ts_same(it->text, "also"));
  return named && it->first->kind == TS_E_TABLE;
}

static void check_written(ts_checking *c, const ts_syntax *it) {
  bool list = is_control_list(it);
  for (const ts_syntax *item = list ? it->first->first : NULL; item; item = item->next)
    if (item->first->kind == TS_E_STRING && !ts_control_find(c->packs, item->first->text))
      no_control(c, item->file, item->line, item->first->text);
  for (const ts_syntax *child = it->first; child; child = child->next) check_written(c, child);
}

void ts_inspect_names(ts_checking *c) {
  for (size_t i = 0; i < c->packs->file_count; i++) {
    if (!c->trees[i]) continue;
    check_names(c, c->trees[i]);
    check_written(c, c->trees[i]);
  }
}

/* Whether a text stands anywhere in the rules: not in the control itself, nor in an example. */
static bool stands(const ts_syntax *it, const char *id) {
  if (it->kind == TS_E_STRING && ts_same(it->text, id)) return true;
  if (it->kind == TS_E_CALL && ts_same(it->first->text, "control")) return false;
  if (it->kind == TS_E_KEYED && ts_same(it->text, "examples")) return false;
  for (const ts_syntax *child = it->first; child; child = child->next)
    if (stands(child, id)) return true;
  return false;
}

/* In a list of controls, so that check_written has seen it. */
static bool in_list(const ts_syntax *it, const char *id) {
  bool list = is_control_list(it);
  if (list && stands(it->first, id)) return true;
  for (const ts_syntax *child = it->first; child; child = child->next)
    if (in_list(child, id)) return true;
  return false;
}

static bool written(const ts_checking *c, const char *id) {
  for (size_t i = 0; i < c->packs->file_count; i++)
    if (c->trees[i] && in_list(c->trees[i], id)) return true;
  return false;
}

static bool named_anywhere(const ts_checking *c, const char *id) {
  for (size_t i = 0; i < c->packs->file_count; i++)
    if (c->trees[i] && stands(c->trees[i], id)) return true;
  for (size_t r = 0; r < ts_rule_count(c->packs); r++)
    for (size_t i = 0; i < c->rules[r].control_count; i++)
      if (ts_same(c->rules[r].controls[i], id)) return true;
  return false;
}

/* ---- controls and what they do --------------------------------------------------------------- */

static bool lowers(const ts_control *control) {
  return control->lowers_likelihood || control->lowers_severity;
}

static bool reads_change(const ts_rule_seen *seen, const ts_control *control) {
  for (size_t k = 0; k < control->change_count; k++)
    for (size_t i = 0; i < seen->fact_count; i++)
      if (seen->facts[i] == control->changes[k].def) return true;
  return false;
}

/* What is listed to change the score must be able to; what only helps must not. */
static void check_effect(ts_checking *c, size_t rule, const ts_control *control, const char *file,
                         size_t place) {
  const ts_rule_seen *seen = &c->rules[rule];
  const char *id = ts_rule_at(c->packs, rule)->id;
  bool works = lowers(control) || reads_change(seen, control);
  if (seen->control_scored[place] && !works && control->change_count)
    ts_report(
        c->problems, TS_WARNING, file, seen->control_lines[place],
        "%s: control \"%s\" only changes %s.%s, which this rule does not read; list it in \"also\"",
        id, control->id, control->changes[0].entity, control->changes[0].fact);
  if (!seen->control_scored[place] && works)
    ts_report(c->problems, TS_WARNING, file, seen->control_lines[place],
              "%s: control \"%s\" changes the score; list it in \"controls\"", id, control->id);
}

static void check_named(ts_checking *c, size_t rule) {
  const ts_rule *it = ts_rule_at(c->packs, rule);
  const ts_rule_seen *seen = &c->rules[rule];
  const char *file = ts_arena_printf(c->arena, "%s/%s", it->pack, it->file);
  for (size_t i = 0; i < seen->control_count; i++) {
    const ts_control *control = ts_control_find(c->packs, seen->controls[i]);
    if (!control && !written(c, seen->controls[i]))
      no_control(c, file, seen->control_lines[i], seen->controls[i]);
    if (control) check_effect(c, rule, control, file, i);
  }
}

void ts_inspect_controls(ts_checking *c) {
  for (size_t i = 0; i < ts_rule_count(c->packs); i++) check_named(c, i);
  for (size_t i = 0; i < ts_control_count(c->packs); i++) {
    const ts_control *control = ts_control_at(c->packs, i);
    const char *file = ts_arena_printf(c->arena, "%s/%s", control->pack, control->file);
    if (!lowers(control) && !control->change_count)
      ts_report(c->problems, TS_WARNING, file, control->line,
                "control \"%s\" neither lowers nor changes anything", control->id);
    if (!named_anywhere(c, control->id))
      ts_report(c->problems, TS_WARNING, file, control->line, "control \"%s\": no rule names it",
                control->id);
  }
}

/* ---- scores ---------------------------------------------------------------------------- */

/* A number of the scale that the rule's own comparison chooses: `x > y and 5 or 3`. */
static bool own_choice(const ts_syntax *it, int depth) {
  it = ts_syntax_bare((ts_syntax *)it);
  if (!it || depth > 8) return false;
  if (it->kind == TS_E_NAME)
    return it->local && !it->local->assigned && own_choice(it->local->value, depth + 1);
  if (it->kind != TS_E_OR || it->first->kind != TS_E_AND) return false;
  bool numbers = it->last->kind == TS_E_NUMBER && it->first->last->kind == TS_E_NUMBER;
  return numbers && it->first->first->kind == TS_E_COMPARE;
}

static void check_score(ts_checking *c, const ts_rule *rule, ts_syntax *said, const char *name) {
  const ts_syntax *score = ts_syntax_item(said, name);
  if (!score || !own_choice(score, 0)) return;
  ts_report(c->problems, TS_WARNING, score->file, score->line,
            "%s: %s is chosen by a comparison of its own and not by `scale`; say why in "
            "\"reasoning\" (column %d)",
            rule->id, name, score->column);
}

static void check_scores(ts_checking *c, const ts_rule *rule, const ts_syntax *it) {
  for (ts_syntax *child = it ? it->first : NULL; child; child = child->next) {
    bool hazard =
        child->kind == TS_E_CALL && ts_same(child->first->text, "hazard") && child->first->next;
    if (hazard) check_score(c, rule, child->first->next, "likelihood");
    if (hazard) check_score(c, rule, child->first->next, "severity");
    check_scores(c, rule, child);
  }
}

void ts_inspect_scores(ts_checking *c) {
  for (size_t i = 0; i < ts_rule_count(c->packs); i++)
    if (!ts_rule_at(c->packs, i)->reasoning)
      check_scores(c, ts_rule_at(c->packs, i), c->rules[i].table);
}
