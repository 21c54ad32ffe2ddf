/* What a later pack may do to a rule it did not write: tighten one of the limits that
 * the rule declares, or raise its scores. Neither can lower anything: a limit moves
 * one way only, and steps are only added. Looser, or lower, takes a waiver. */
#include "rule/form.h"

#include "base/text.h"
#include <stdlib.h>
#include <string.h>

/* ---- limits of a rule ------------------------------------------------------- */

static int compare_limits(const void *a, const void *b) {
  return strcmp(((const ts_limit *)a)->name, ((const ts_limit *)b)->name);
}

/* A limit is one number; false with a report for anything else. */
static bool read_number(ts_form *f, const char *text, ts_range *range, ts_dim *dim) {
  char why[256];
  if (!ts_quantity_read(f->packs->units, text, range, dim, why, sizeof why))
    ts_form_report(f, "cannot read the limit \"%s\": %s", text, why);
  else if (range->lo < range->hi)
    ts_form_report(f, "a limit is one number, and \"%s\" is a range", text);
  else
    return true;
  return false;
}

static void read_limit(ts_form *f, int table, ts_limit *limit) {
  static const char *const names[] = {"at_most", "at_least"};
  TS_FORM_KNOWN(f, table, names);
  const char *most = ts_form_text(f, table, "at_most", false);
  const char *least = ts_form_text(f, table, "at_least", false);
  if ((most == NULL) == (least == NULL)) {
    ts_form_wrong(f, "limits", "a table of { at_most = \"20 s\" } or { at_least = \"6 m\" }");
    return;
  }
  limit->at_least = least != NULL;
  limit->declared = limit->text = least ? least : most;
  if (read_number(f, limit->text, &limit->range, &limit->dim)) limit->declared_range = limit->range;
}

void ts_form_limits(ts_form *f, ts_rule *rule) {
  enum { MOST = 16 };
  ts_limit *limits = ts_arena_alloc(f->packs->arena, MOST * sizeof *limits);
  lua_getfield(f->L, f->body, "limits");
  bool table = lua_istable(f->L, -1);
  if (!table && !lua_isnil(f->L, -1)) ts_form_wrong(f, "limits", "a table of named limits");
  for (lua_pushnil(f->L); table && lua_next(f->L, -2); lua_pop(f->L, 1)) {
    if (lua_type(f->L, -2) != LUA_TSTRING || !lua_istable(f->L, -1) || rule->limit_count == MOST) {
      ts_form_report(f, "\"limits\" has names and tables, at most %d", (int)MOST);
      continue;
    }
    ts_limit *limit = &limits[rule->limit_count++];
    limit->name = ts_arena_copy(f->packs->arena, lua_tostring(f->L, -2));
    read_limit(f, lua_gettop(f->L), limit);
  }
  lua_settop(f->L, f->body);
  qsort(limits, rule->limit_count, sizeof *limits, compare_limits);
  rule->limits = limits;
}

/* ---- which rule, which limit --------------------------------------------------- */

static ts_rule *find_rule(ts_form *f, const char *id) {
  size_t count = f->packs->rule_count;
  const char **ids = ts_alloc((count + 1) * sizeof *ids);
  ts_rule *found = NULL;
  for (size_t i = 0; i < count; i++) {
    ids[i] = f->packs->rules[i].rule.id;
    if (ts_same(ids[i], id)) found = &f->packs->rules[i].rule;
  }
  const char *near = id && !found ? ts_nearest(id, ids, count) : NULL;
  if (id && !found)
    ts_form_report(f, "no rule \"%s\" is loaded%s%s%s", id, near ? "; the nearest name is \"" : "",
                   near ? near : "", near ? "\"" : "");
  free(ids);
  return found;
}

static const char *limit_names(const ts_form *f, const ts_rule *rule) {
  const char *all = "none";
  for (size_t i = 0; i < rule->limit_count; i++)
    all = i ? ts_arena_printf(f->packs->arena, "%s, %s", all, rule->limits[i].name) : rule->limits[i].name;
  return all;
}

/* Only the packs change a limit; whoever else sees a rule sees it as it stands. */
static ts_limit *find_limit(ts_form *f, const ts_rule *rule, const char *name) {
  for (size_t i = 0; i < rule->limit_count; i++)
    if (ts_same(rule->limits[i].name, name)) return (ts_limit *)&rule->limits[i];
  if (name)
    ts_form_report(f, "rule \"%s\" has no limit \"%s\"; its limits: %s", rule->id, name, limit_names(f, rule));
  return NULL;
}

static ts_amendment *amendment_add(ts_form *f, const ts_rule *rule, const char *because) {
  ts_packs *packs = f->packs;
  TS_GROW(packs->amendments, packs->amendment_count, packs->amendment_capacity);
  ts_amendment *made = &packs->amendments[packs->amendment_count++];
  *made = (ts_amendment){.rule = rule->id, .because = because, .pack = ts_form_pack(f),
                         .file = ts_form_file(f), .line = f->line};
  return made;
}

/* ---- tighten -------------------------------------------------------------------- */

static bool stricter(const ts_limit *limit, double to, double than) {
  return limit->at_least ? to > than : to < than;
}

static bool may_tighten(ts_form *f, const ts_rule *rule, const ts_limit *limit, const char *to, ts_range *range) {
  ts_dim dim;
  if (!read_number(f, to, range, &dim)) return false;
  if (dim != limit->dim)
    ts_form_report(f, "limit \"%s\" of rule \"%s\" is %s; \"%s\" is not of its kind", limit->name,
                   rule->id, limit->declared, to);
  else if (!stricter(limit, range->lo, limit->declared_range.lo))
    ts_form_report(f, "limit \"%s\" of rule \"%s\" is %s %s, and \"%s\" is not stricter; to set the rule "
                   "aside takes a waiver in the dossier", limit->name, rule->id,
                   limit->at_least ? "at least" : "at most", limit->declared, to);
  else
    return true;
  return false;
}

/* Of two packs that tighten one limit the stricter holds, whichever comes first. */
void ts_form_tighten(ts_form *f) {
  static const char *const names[] = {"rule", "limit", "to", "because"};
  TS_FORM_KNOWN(f, f->body, names);
  const char *name = ts_form_text(f, f->body, "limit", true), *to = ts_form_text(f, f->body, "to", true);
  const char *because = ts_form_text(f, f->body, "because", true);
  ts_rule *rule = find_rule(f, ts_form_text(f, f->body, "rule", true));
  ts_limit *limit = rule ? find_limit(f, rule, name) : NULL;
  ts_range range;
  if (!limit || !to || !may_tighten(f, rule, limit, to, &range) || !f->good) return;
  ts_amendment *made = amendment_add(f, rule, because);
  made->limit = limit->name;
  made->from = limit->declared;
  made->to = to;
  if (!stricter(limit, range.lo, limit->range.lo)) return;
  limit->range = range;
  limit->text = to;
}

/* ---- raise ------------------------------------------------------------------------ */

static int at_most_five(int level) { return level > 5 ? 5 : level; }

void ts_form_raise(ts_form *f) {
  static const char *const names[] = {"rule", "likelihood", "severity", "because"};
  TS_FORM_KNOWN(f, f->body, names);
  int likelihood = ts_form_number(f, f->body, "likelihood", 0, 4, 0);
  int severity = ts_form_number(f, f->body, "severity", 0, 4, 0);
  const char *because = ts_form_text(f, f->body, "because", true);
  ts_rule *rule = find_rule(f, ts_form_text(f, f->body, "rule", true));
  if (likelihood + severity == 0 && f->good)
    ts_form_report(f, "it raises nothing; expected likelihood = 1 to 4, severity = 1 to 4, or both");
  if (!rule || !f->good) return;
  ts_amendment *made = amendment_add(f, rule, because);
  made->likelihood = likelihood;
  made->severity = severity;
  rule->raised_likelihood = at_most_five(rule->raised_likelihood + likelihood);
  rule->raised_severity = at_most_five(rule->raised_severity + severity);
  rule->worst_likelihood = at_most_five(rule->worst_likelihood + likelihood);
  rule->worst_severity = at_most_five(rule->worst_severity + severity);
}

/* ---- while a rule runs --------------------------------------------------------------- */

static int unknown_limit(lua_State *L) {
  return luaL_error(L, "the rule declares no limit \"%s\"", lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "?");
}

void ts_push_limits(lua_State *L) {
  const ts_sandbox *box = ts_sandbox_of(L);
  const ts_rule *rule = box->rule;
  if (!rule->limit_count) {
    lua_pushnil(L);
    return;
  }
  lua_createtable(L, 0, (int)rule->limit_count);
  for (size_t i = 0; i < rule->limit_count; i++) {
    const ts_limit *limit = &rule->limits[i];
    ts_push_constant(L, box->amended ? limit->range : limit->declared_range, limit->dim);
    lua_setfield(L, -2, limit->name);
  }
  lua_createtable(L, 0, 2);
  lua_pushcfunction(L, unknown_limit);
  lua_setfield(L, -2, "__index");
  lua_pushboolean(L, 0);
  lua_setfield(L, -2, "__metatable");
  lua_setmetatable(L, -2);
}

int ts_raised(const ts_sandbox *box, int level, bool likelihood) {
  if (!box->amended) return level;
  return at_most_five(level + (likelihood ? box->rule->raised_likelihood : box->rule->raised_severity));
}
