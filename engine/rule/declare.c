/* From declared Lua tables to checked C structs: every field known, of its
 * type, and present where it must be; the nearest name where one is misspelt. */
#include "rule/form.h"

#include "base/text.h"
#include <string.h>

static void need_function(ts_form *f, const char *name, bool required) {
  lua_getfield(f->L, f->body, name);
  bool own = lua_isfunction(f->L, -1) && !lua_iscfunction(f->L, -1);
  if (!own && (required || !lua_isnil(f->L, -1))) ts_form_wrong(f, name, "a function written in the file");
  lua_pop(f->L, 1);
}

static const char *const *texts(ts_form *f, const char *name, size_t *count) {
  lua_getfield(f->L, f->body, name);
  const char **list = NULL;
  bool empty = false;
  *count = 0;
  if (lua_istable(f->L, -1)) {
    lua_Integer n = luaL_len(f->L, -1);
    list = ts_arena_alloc(f->packs->arena, (size_t)(n + 1) * sizeof *list);
    for (lua_Integer i = 1; i <= n; i++) {
      lua_geti(f->L, -1, i);
      const char *text = ts_form_top(f, name);
      if (text) list[(*count)++] = text;
      else empty = true;
      lua_pop(f->L, 1);
    }
  }
  if (!*count || empty) ts_form_wrong(f, name, "a list of texts, at least one and none empty");
  lua_pop(f->L, 1);
  return list;
}

static size_t list_length(ts_form *f, const char *name) {
  lua_getfield(f->L, f->body, name);
  size_t n = lua_istable(f->L, -1) ? lua_rawlen(f->L, -1) : 0;
  lua_pop(f->L, 1);
  return n;
}

static const ts_entity_def *entity(ts_form *f, const char *name) {
  const ts_entity_def *found = name ? ts_entity_find(f->packs->vocabulary, name) : NULL;
  if (found || !name) return found;
  const char *names[64];
  size_t count = ts_entity_count(f->packs->vocabulary);
  for (size_t i = 0; i < count && i < 64; i++) names[i] = ts_entity_at(f->packs->vocabulary, i)->name;
  const char *near = ts_nearest(name, names, count < 64 ? count : 64);
  ts_report(f->problems, TS_ERROR, f->file, f->line, "%s: unknown kind of subject \"%s\"%s%s", f->word, name,
            near ? "; the nearest name is " : "", near ? near : "");
  f->good = false;
  return NULL;
}

/* ---- rules ---------------------------------------------------------------------- */

static void worst_of(ts_form *f, ts_rule *rule) {
  static const char *const names[] = {"likelihood", "severity"};
  rule->worst_likelihood = rule->worst_severity = 5;
  lua_getfield(f->L, f->body, "worst");
  if (lua_istable(f->L, -1)) {
    int table = lua_gettop(f->L);
    TS_FORM_KNOWN(f, table, names);
    rule->worst_likelihood = ts_form_number(f, table, "likelihood", 1, 5, 5);
    rule->worst_severity = ts_form_number(f, table, "severity", 1, 5, 5);
  } else if (!lua_isnil(f->L, -1)) {
    ts_form_wrong(f, "worst", "{ likelihood = , severity = }");
  }
  lua_pop(f->L, 1);
}

static void declared_before(ts_form *f, const char *id, const char *pack, const char *file, int line) {
  ts_report(f->problems, TS_ERROR, f->file, f->line, "%s \"%s\" is already declared in %s/%s:%d", f->word, id, pack, file, line);
  f->good = false;
}

static void unique_rule(ts_form *f, const char *id) {
  for (size_t i = 0; id && i < f->packs->rule_count; i++) {
    const ts_rule *other = &f->packs->rules[i].rule;
    if (ts_same(other->id, id)) declared_before(f, id, other->pack, other->file, other->line);
  }
}

static void read_rule(ts_form *f, lua_Integer declaration) {
  static const char *const names[] = {"id", "title", "each", "harm", "sources", "reasoning", "worst", "limits", "when", "assess", "examples"};
  TS_FORM_KNOWN(f, f->body, names);
  ts_rule rule = {.id = ts_form_id(f, "id"), .title = ts_form_text(f, f->body, "title", true),
                  .each = ts_form_text(f, f->body, "each", true), .harm = ts_form_text(f, f->body, "harm", true),
                  .reasoning = ts_form_text(f, f->body, "reasoning", false), .pack = ts_form_pack(f), .file = ts_form_file(f), .line = f->line};
  rule.sources = texts(f, "sources", &rule.source_count);
  rule.example_count = list_length(f, "examples");
  worst_of(f, &rule);
  ts_form_limits(f, &rule);
  entity(f, rule.each);
  need_function(f, "assess", true);
  need_function(f, "when", false);
  unique_rule(f, rule.id);
  if (!f->good) return;
  TS_GROW(f->packs->rules, f->packs->rule_count, f->packs->rule_capacity);
  f->packs->rules[f->packs->rule_count++] = (ts_loaded_rule){rule, declaration};
}

/* ---- controls --------------------------------------------------------------------- */

static const char *const hierarchy[] = {"elimination", "substitution", "engineering", "administrative", "ppe"};

static ts_hierarchy kind_of(ts_form *f, const char *kind) {
  for (int i = 0; kind && i < 5; i++)
    if (!strcmp(hierarchy[i], kind)) return (ts_hierarchy)i;
  ts_form_wrong(f, "kind", "elimination, substitution, engineering, administrative or ppe");
  return TS_ADMINISTRATIVE;
}

static const ts_fact_def *find_fact(ts_form *f, const char *entity_name, const char *fact) {
  const ts_entity_def *found = entity(f, entity_name);
  if (!found) return NULL;
  const char *names[256];
  size_t count = ts_fact_count(f->packs->vocabulary, found);
  for (size_t i = 0; i < count && i < 256; i++) {
    names[i] = ts_fact_at(f->packs->vocabulary, found, i)->name;
    if (!strcmp(names[i], fact)) return ts_fact_at(f->packs->vocabulary, found, i);
  }
  const char *near = ts_nearest(fact, names, count < 256 ? count : 256);
  ts_report(f->problems, TS_ERROR, f->file, f->line, "%s: %s has no fact \"%s\"%s%s", f->word, entity_name, fact,
            near ? "; the nearest name is " : "", near ? near : "");
  f->good = false;
  return NULL;
}

static ts_change read_change(ts_form *f, int table) {
  static const char *const names[] = {"fact", "at_most", "at_least", "becomes"};
  TS_FORM_KNOWN(f, table, names);
  ts_change change = {0};
  const char *path = ts_form_text(f, table, "fact", true);
  const char *dot = path ? strchr(path, '.') : NULL;
  if (!dot) return ts_form_wrong(f, "changes", "{ fact = \"immersion.breath-hold\", at_most = \"10 s\" }"), change;
  change.entity = ts_arena_copy_n(f->packs->arena, path, (size_t)(dot - path));
  change.fact = dot + 1;
  for (int how = TS_AT_MOST; how <= TS_BECOMES; how++) {
    const char *value = ts_form_text(f, table, names[1 + how], false);
    if (!value) continue;
    if (change.text) ts_form_wrong(f, "changes", "one of at_most, at_least, becomes");
    change.how = how;
    change.text = value;
  }
  if (!change.text) ts_form_wrong(f, "changes", "one of at_most, at_least, becomes");
  change.def = find_fact(f, change.entity, change.fact);
  if (change.def && change.def->derived && !strcmp(change.entity, "production"))
    ts_form_report(f, "\"%s\" is a figure about the dossier's papers, and no control changes those", path);
  if (change.def && change.text)
    f->good = ts_fact_read(f->packs->vocabulary, f->packs->units, f->packs->arena, change.def, change.text,
                           &change.value, f->problems, f->file, f->line) && f->good;
  return change;
}

static void read_changes(ts_form *f, ts_control *control) {
  lua_getfield(f->L, f->body, "changes");
  if (lua_istable(f->L, -1)) {
    int list = lua_gettop(f->L);
    size_t count = lua_rawlen(f->L, list);
    ts_change *changes = ts_arena_alloc(f->packs->arena, (count + 1) * sizeof *changes);
    for (size_t i = 0; i < count; i++) {
      if (lua_geti(f->L, list, (lua_Integer)i + 1) == LUA_TTABLE) changes[i] = read_change(f, lua_gettop(f->L));
      else ts_form_wrong(f, "changes", "a list of tables");
      lua_settop(f->L, list);
    }
    control->changes = changes;
    control->change_count = count;
  } else if (!lua_isnil(f->L, -1)) {
    ts_form_wrong(f, "changes", "a list of tables");
  }
  lua_pop(f->L, 1);
}

static void read_lowers(ts_form *f, ts_control *control) {
  static const char *const names[] = {"likelihood", "severity"};
  lua_getfield(f->L, f->body, "lowers");
  if (lua_istable(f->L, -1)) {
    int table = lua_gettop(f->L);
    TS_FORM_KNOWN(f, table, names);
    control->lowers_likelihood = ts_form_number(f, table, "likelihood", 0, 4, 0);
    control->lowers_severity = ts_form_number(f, table, "severity", 0, 4, 0);
    if (control->kind >= TS_ADMINISTRATIVE && control->lowers_severity)
      ts_form_wrong(f, "lowers", "without severity: administrative controls and PPE never lower it");
  } else if (!lua_isnil(f->L, -1)) {
    ts_form_wrong(f, "lowers", "{ likelihood = 1 }");
  }
  lua_pop(f->L, 1);
}

static void unique_control(ts_form *f, const char *id) {
  const ts_control *other = id ? ts_control_find(f->packs, id) : NULL;
  if (other) declared_before(f, id, other->pack, other->file, other->line);
}

static void read_control(ts_form *f) {
  static const char *const names[] = {"id", "title", "kind", "say", "check", "often", "who", "lowers", "changes", "source"};
  TS_FORM_KNOWN(f, f->body, names);
  ts_control control = {.id = ts_form_id(f, "id"), .title = ts_form_text(f, f->body, "title", true),
                        .say = ts_form_text(f, f->body, "say", true), .check = ts_form_text(f, f->body, "check", true),
                        .often = ts_form_text(f, f->body, "often", true), .who = ts_form_text(f, f->body, "who", true),
                        .source = ts_form_text(f, f->body, "source", false), .pack = ts_form_pack(f), .file = ts_form_file(f), .line = f->line};
  control.kind = kind_of(f, ts_form_text(f, f->body, "kind", true));
  read_changes(f, &control);
  read_lowers(f, &control);
  unique_control(f, control.id);
  if (!f->good) return;
  TS_GROW(f->packs->controls, f->packs->control_count, f->packs->control_capacity);
  f->packs->controls[f->packs->control_count++] = control;
}

/* ---- facts of a site ---------------------------------------------------------------- */

static const struct {
  const char *word;
  ts_fact_type type;
} types[] = {{"quantity", TS_QUANTITY}, {"count", TS_COUNT}, {"flag", TS_FLAG}, {"choice", TS_CHOICE}, {"set", TS_SET}, {"date", TS_DATE}, {"clock", TS_CLOCK}};

static const struct {
  const char *word;
  ts_sees sees;
} readers[] = {{"open", TS_OPEN_TO_ALL}, {"crew", TS_CREW_ONLY}, {"confidential", TS_CONFIDENTIAL}};

static ts_sees seen_by(ts_form *f) {
  const char *word = ts_form_text(f, f->body, "sees", false);
  if (!word) return TS_CREW_ONLY;
  for (size_t i = 0; i < sizeof readers / sizeof *readers; i++)
    if (!strcmp(readers[i].word, word)) return readers[i].sees;
  ts_form_wrong(f, "sees", "open, crew or confidential");
  return TS_CONFIDENTIAL;
}

static void read_fact(ts_form *f) {
  static const char *const names[] = {"entity", "name", "type", "unit", "low", "high", "choices", "meaning", "measured", "asked", "sees"};
  TS_FORM_KNOWN(f, f->body, names);
  ts_fact_def fact = {.entity = ts_form_text(f, f->body, "entity", true), .name = ts_form_text(f, f->body, "name", true),
                      .unit = ts_form_text(f, f->body, "unit", false), .low = ts_form_text(f, f->body, "low", false),
                      .high = ts_form_text(f, f->body, "high", false), .choices = ts_form_text(f, f->body, "choices", false),
                      .meaning = ts_form_text(f, f->body, "meaning", true), .measured = ts_form_text(f, f->body, "measured", true),
                      .asked = ts_form_text(f, f->body, "asked", true), .sees = seen_by(f), .type = TS_ID};
  const char *type = ts_form_text(f, f->body, "type", true);
  for (size_t i = 0; type && i < sizeof types / sizeof *types; i++)
    if (!strcmp(types[i].word, type)) fact.type = types[i].type;
  if (fact.type == TS_ID) ts_form_wrong(f, "type", "quantity, count, flag, choice, set, date or clock");
  if (f->good) f->good = ts_vocabulary_add(f->packs->vocabulary, f->packs->units, &fact, f->problems, f->file, f->line);
}

/* ---- all declarations ------------------------------------------------------------------ */

static bool read_one(ts_packs *packs, lua_Integer declaration, ts_diagnostics *problems) {
  lua_State *L = packs->box->lua;
  lua_rawgeti(L, -1, declaration);
  lua_getfield(L, -1, "word");
  lua_getfield(L, -2, "file");
  lua_getfield(L, -3, "line");
  lua_getfield(L, -4, "body"); /* declared, entry, word, file, line, body */
  ts_form f = {.packs = packs, .L = L, .problems = problems, .body = lua_gettop(L), .good = true};
  f.word = lua_tostring(L, -4);
  f.file = ts_arena_copy(packs->arena, lua_tostring(L, -3));
  f.line = (int)lua_tointeger(L, -2);
  if (!strcmp(f.word, "rule")) read_rule(&f, declaration);
  else if (!strcmp(f.word, "control")) read_control(&f);
  else if (!strcmp(f.word, "fact")) read_fact(&f);
  else if (!strcmp(f.word, "tighten")) ts_form_tighten(&f);
  else ts_form_raise(&f);
  lua_pop(L, 5);
  return f.good;
}

/* Facts first: controls name them. What makes a rule stricter comes last. */
static int turn_of(const char *word) {
  if (!strcmp(word, "fact")) return 0;
  return !strcmp(word, "tighten") || !strcmp(word, "raise") ? 2 : 1;
}

bool ts_declarations_read(ts_packs *packs, ts_diagnostics *problems) {
  lua_State *L = packs->box->lua;
  bool good = true;
  lua_getfield(L, LUA_REGISTRYINDEX, TS_DECLARED);
  lua_Integer last = (lua_Integer)packs->box->declared;
  for (int turn = 0; turn <= 2; turn++)
    for (lua_Integer i = packs->declared + 1; i <= last; i++) {
      lua_rawgeti(L, -1, i);
      lua_getfield(L, -1, "word");
      bool now = turn_of(lua_tostring(L, -1)) == turn;
      lua_pop(L, 2);
      if (now) good = read_one(packs, i, problems) && good;
    }
  packs->declared = last;
  lua_pop(L, 1);
  return good;
}
