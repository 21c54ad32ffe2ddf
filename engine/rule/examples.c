/* Examples: each rule carries its own tests, run over worlds made by hand.
 *
 * An example states facts (`given`), perhaps controls in place (`with`), and
 * what the worst outcome then is (`expect`). */
#include "rule/check_int.h"

#include <stdlib.h>
#include <string.h>

typedef struct {
  ts_checking *c;
  const ts_packs *packs;
  const ts_rule *rule;
  size_t index;
  ts_evaluator *evaluator;
  ts_diagnostics *problems;
  const char *file; /* "common/air.lua" */
  const char *name; /* of the example */
} trial;

static void complain(trial *t, const char *text) {
  ts_report(t->problems, TS_ERROR, t->file, t->rule->line, "%s: example \"%s\": %s", t->rule->id, t->name, text);
}

/* ---- given --------------------------------------------------------------------------- */

static int compare_keys(const void *a, const void *b) { return strcmp(*(const char *const *)a, *(const char *const *)b); }

/* What is shared is a view, behind which its members stand: then those instead, on the top. */
static void look_behind(lua_State *L) {
  if (luaL_getmetafield(L, -1, "__index") == LUA_TTABLE) lua_replace(L, -2);
}

/* Keys in byte order: "wears.1.covers" before "wears.2.covers", whatever the hash seed. */
static bool apply_given(trial *t, lua_State *L, ts_dossier *world, ts_subject subject) {
  const char *keys[128];
  size_t count = 0;
  bool good = true;
  if (!lua_istable(L, -1)) return complain(t, "\"given\" is a table of paths and texts"), false;
  look_behind(L);
  for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1)) {
    if (lua_type(L, -2) == LUA_TSTRING && lua_type(L, -1) == LUA_TSTRING && count < 128) keys[count++] = lua_tostring(L, -2);
    else complain(t, "\"given\" has paths and texts: [\"person.mass\"] = \"60 kg\""), good = false;
  }
  if (count > 0) qsort(keys, count, sizeof *keys, compare_keys);
  for (size_t i = 0; i < count; i++) {
    lua_getfield(L, -1, keys[i]);
    good = ts_dossier_given(world, subject, keys[i], lua_tostring(L, -1), t->problems, t->file, t->rule->line) && good;
    lua_pop(L, 1);
  }
  return good;
}

/* ---- with ---------------------------------------------------------------------------- */

enum { EFFECTS = 16 };

static size_t read_with(trial *t, lua_State *L, ts_effect *effects) {
  size_t count = 0;
  for (lua_Integer i = 1; lua_istable(L, -1) && i <= luaL_len(L, -1) && count < EFFECTS; i++) {
    lua_geti(L, -1, i);
    const char *id = lua_tostring(L, -1);
    effects[count] = (ts_effect){.control = id ? ts_control_find(t->packs, id) : NULL, .here = true};
    if (effects[count].control) count++;
    else complain(t, "\"with\" names a control that is not in the catalogue");
    lua_pop(L, 1);
  }
  return count;
}

/* ---- expect -------------------------------------------------------------------------- */

static const char *const words[] = {"hazard", "duty", "stop", "note"};

/* The worst outcome of one word over all courses; for duties, not met is worst, open next. */
static const ts_outcome *worst_of(const ts_evaluation *seen, ts_word word) {
  const ts_outcome *worst = NULL;
  int rank = -1;
  for (size_t c = 0; c < seen->course_count; c++)
    for (size_t o = 0; o < seen->courses[c].outcome_count; o++) {
      const ts_outcome *out = &seen->courses[c].outcomes[o];
      if (out->word != word) continue;
      int now = word == TS_DUTY ? (int)out->state : 10 * out->likelihood * out->severity + out->severity;
      if (now > rank) worst = out, rank = now;
    }
  return worst;
}

static bool any_outcome(const ts_evaluation *seen) {
  for (size_t c = 0; c < seen->course_count; c++)
    if (seen->courses[c].outcome_count) return true;
  return false;
}

static int level(lua_State *L, const char *name) {
  lua_getfield(L, -1, name);
  int value = (int)lua_tointeger(L, -1);
  lua_pop(L, 1);
  return value;
}

static bool hazard_is(trial *t, lua_State *L, const ts_outcome *worst) {
  int likelihood = level(L, "likelihood"), severity = level(L, "severity");
  if (worst->likelihood == likelihood && worst->severity == severity) return true;
  char text[120];
  snprintf(text, sizeof text, "expected hazard %d × %d, found %d × %d", likelihood, severity, worst->likelihood, worst->severity);
  complain(t, text);
  return false;
}

static bool duty_is(trial *t, lua_State *L, const ts_outcome *worst) {
  lua_getfield(L, -1, "met");
  ts_duty_state want = lua_isnil(L, -1) ? TS_UNDECIDED : lua_toboolean(L, -1) ? TS_MET : TS_NOT_MET;
  lua_pop(L, 1);
  if (worst->state == want) return true;
  static const char *const states[] = {"met", "open", "not met"};
  char text[80];
  snprintf(text, sizeof text, "expected a duty %s, found %s", states[want], states[worst->state]);
  complain(t, text);
  return false;
}

static bool nothing_is(trial *t, const ts_evaluation *seen) {
  if (!any_outcome(seen)) return true;
  const ts_outcome *worst = worst_of(seen, TS_HAZARD);
  char text[80] = "expected nothing, found something that is no hazard";
  if (worst)
    snprintf(text, sizeof text, "expected nothing, found hazard %d × %d", worst->likelihood, worst->severity);
  complain(t, text);
  return false;
}

static bool meets(trial *t, lua_State *L, const ts_evaluation *seen) {  /* one expectation on the top */
  lua_getfield(L, -1, "word");
  const char *word = lua_tostring(L, -1);
  lua_pop(L, 1);
  if (ts_same(word, "nothing")) return nothing_is(t, seen);
  int index = 0;
  while (index < 4 && (!word || !ts_same(words[index], word))) index++;
  if (index == 4) return complain(t, "\"expect\" must be nothing, hazard { }, stop { }, duty { } or note { }"), false;
  const ts_outcome *worst = worst_of(seen, (ts_word)index);
  if (!worst) {
    char text[60];
    snprintf(text, sizeof text, "expected a %s, found none", words[index]);
    return complain(t, text), false;
  }
  if (index == TS_HAZARD) return hazard_is(t, L, worst);
  return index == TS_DUTY ? duty_is(t, L, worst) : true;
}

static bool names_stop(lua_State *L) {  /* one expectation on the top */
  lua_getfield(L, -1, "word");
  bool stop = lua_isstring(L, -1) && !strcmp(lua_tostring(L, -1), words[TS_STOP]);
  lua_pop(L, 1);
  return stop;
}

/* Nothing is worse than a stop: an example that does not name it does not expect it. */
static bool no_other_stop(trial *t, const ts_evaluation *seen, bool named) {
  if (named || !worst_of(seen, TS_STOP)) return true;
  return complain(t, "found a stop, which it does not expect"), false;
}

static bool meets_all(trial *t, lua_State *L, const ts_evaluation *seen) {
  if (!lua_istable(L, -1)) return complain(t, "it has no \"expect\""), false;
  if (luaL_len(L, -1) == 0) return meets(t, L, seen) && no_other_stop(t, seen, names_stop(L));
  bool good = true, stop = false;
  for (lua_Integer i = 1; i <= luaL_len(L, -1); i++) {
    lua_geti(L, -1, i);
    good = lua_istable(L, -1) && meets(t, L, seen) && good;
    stop = stop || (lua_istable(L, -1) && names_stop(L));
    lua_pop(L, 1);
  }
  return no_other_stop(t, seen, stop) && good;
}

/* ---- one example --------------------------------------------------------------------- */

static bool run_in(trial *t, lua_State *L, ts_dossier *world, ts_subject subject, int example) {
  ts_effect effects[EFFECTS];
  lua_getfield(L, example, "given");
  bool good = lua_isnil(L, -1) || apply_given(t, L, world, subject);
  lua_getfield(L, example, "with");
  size_t count = read_with(t, L, effects);
  if (!good) return false;
  ts_evaluator_use(t->evaluator, world);
  const ts_evaluation *seen = ts_evaluate(t->evaluator, t->index, subject, effects, count);
  ts_keep_seen(t->c, t->index, seen);
  if (seen->failure) return complain(t, seen->failure), false;
  if (seen->unresolved) complain(t, "more courses than can be seen: state more facts, or ask fewer questions");
  lua_getfield(L, example, "expect");
  return meets_all(t, L, seen) && !seen->unresolved;
}

/* ---- a world to look at ---------------------------------------------------------------- */

static bool leaves_open(lua_State *L) {  /* of the table of facts on the top */
  bool open = false;
  look_behind(L);
  for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1))
    if (lua_type(L, -1) != LUA_TSTRING || strchr(lua_tostring(L, -1), '?')) open = true;
  return open;
}

/* It expects something, with no control, and every fact it states has a value. */
static bool shows_something(lua_State *L, int example) {
  lua_getfield(L, example, "with");
  lua_getfield(L, example, "expect");
  bool shows = lua_isnil(L, -2) && lua_istable(L, -1);
  if (shows) {
    lua_getfield(L, -1, "word");
    shows = !lua_isstring(L, -1) || strcmp(lua_tostring(L, -1), "nothing") != 0;
  }
  lua_getfield(L, example, "given");
  shows = shows && lua_istable(L, -1) && !leaves_open(L);
  lua_settop(L, example);
  return shows;
}

static ts_dossier *world_of(trial *t, lua_State *L, int example, ts_subject *subject) {
  ts_dossier *world = ts_dossier_example(t->packs->vocabulary, t->packs->units, t->rule->each, subject);
  lua_rawgeti(L, example, 1);
  if (lua_type(L, -1) == LUA_TSTRING) t->name = lua_tostring(L, -1);
  lua_getfield(L, example, "given");
  if (world && apply_given(t, L, world, *subject)) return world;
  ts_dossier_free(world);
  return NULL;
}

static int push_examples(lua_State *L, const ts_packs *packs, size_t rule) {
  lua_getfield(L, LUA_REGISTRYINDEX, TS_DECLARED);
  lua_rawgeti(L, -1, ts_rule_declaration(packs, rule));
  lua_getfield(L, -1, "body");
  lua_getfield(L, -1, "examples");
  return lua_gettop(L);
}

ts_dossier *ts_rule_example_world(const ts_packs *packs, size_t rule, ts_subject *subject, const char **name) {
  lua_State *L = packs->box->lua;
  trial t = {.packs = packs, .rule = ts_rule_at(packs, rule), .name = "", .file = "", .problems = ts_diagnostics_new()};
  ts_dossier *world = NULL;
  int list = push_examples(L, packs, rule);
  for (size_t i = 1; i <= t.rule->example_count && !world; i++) {
    lua_rawgeti(L, list, (lua_Integer)i);
    if (lua_istable(L, -1) && shows_something(L, list + 1)) world = world_of(&t, L, list + 1, subject);
    lua_settop(L, list);
  }
  *name = ts_arena_copy(packs->arena, t.name);
  lua_settop(L, 0);
  ts_diagnostics_free(t.problems);
  return world;
}

/* ---- all of them ------------------------------------------------------------------------ */

static bool run_example(trial *t, lua_State *L) {  /* the example on the top */
  int example = lua_gettop(L);
  t->name = "?";
  if (!lua_istable(L, example)) return complain(t, "an example is a table"), false;
  lua_rawgeti(L, example, 1);
  t->name = lua_type(L, -1) == LUA_TSTRING ? lua_tostring(L, -1) : "(it has no name)";
  ts_subject subject;
  ts_dossier *world = ts_dossier_example(t->packs->vocabulary, t->packs->units, t->rule->each, &subject);
  if (!world) return complain(t, "no world can be made for this kind of subject"), false;
  bool good = run_in(t, L, world, subject, example);
  ts_dossier_free(world);
  lua_settop(L, example);
  return good;
}

size_t ts_examples_run(ts_checking *c, size_t rule) {
  const ts_packs *packs = c->packs;
  lua_State *L = packs->box->lua;
  trial t = {.c = c, .packs = packs, .rule = ts_rule_at(packs, rule), .index = rule, .evaluator = c->evaluator, .problems = c->problems};
  t.file = ts_arena_printf(c->arena, "%s/%s", t.rule->pack, t.rule->file);
  size_t passed = 0;
  int list = push_examples(L, packs, rule);
  for (size_t i = 1; i <= t.rule->example_count; i++) {
    lua_rawgeti(L, list, (lua_Integer)i);
    passed += run_example(&t, L);
    lua_settop(L, list);
  }
  lua_settop(L, 0);
  if (!t.rule->example_count) ts_report(c->problems, TS_ERROR, t.file, t.rule->line, "%s: a rule without examples", t.rule->id);
  return passed;
}

size_t ts_rule_examples_run(const ts_packs *packs, size_t rule, ts_diagnostics *problems) {
  ts_checking c = {.packs = packs, .problems = problems, .arena = ts_arena_new()};
  c.evaluator = ts_evaluator_new(packs, NULL);
  c.rules = ts_arena_alloc(c.arena, ts_rule_count(packs) * sizeof *c.rules);
  size_t passed = ts_examples_run(&c, rule);
  ts_checking_release(&c);
  return passed;
}
