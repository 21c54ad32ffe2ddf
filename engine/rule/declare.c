/* From declared Lua tables to checked C structs: every field known, of its
 * type, and present where it must be; the nearest name where one is misspelt. */
#include "rule/packs_int.h"

#include "base/text.h"
#include <string.h>

typedef struct {
  ts_packs *packs;
  lua_State *L;
  ts_diagnostics *problems;
  const char *word, *file;
  int line;
  int body; /* stack index of the declared table */
  bool good;
} form;

static void wrong(form *f, const char *name, const char *expected) {
  ts_report(f->problems, TS_ERROR, f->file, f->line, "%s: field \"%s\" must be %s", f->word, name, expected);
  f->good = false;
}

static const char *text(form *f, int table, const char *name, bool required) {
  lua_getfield(f->L, table, name);
  const char *value = NULL;
  if (lua_type(f->L, -1) == LUA_TSTRING && *lua_tostring(f->L, -1)) value = ts_arena_copy(f->packs->arena, lua_tostring(f->L, -1));
  else if (!lua_isnil(f->L, -1) || required) wrong(f, name, required ? "a text, and present" : "a text");
  lua_pop(f->L, 1);
  return value;
}

static int number(form *f, int table, const char *name, int lo, int hi, int otherwise) {
  lua_getfield(f->L, table, name);
  int value = otherwise;
  if (lua_isinteger(f->L, -1) && lua_tointeger(f->L, -1) >= lo && lua_tointeger(f->L, -1) <= hi) value = (int)lua_tointeger(f->L, -1);
  else if (!lua_isnil(f->L, -1)) wrong(f, name, "a small whole number");
  lua_pop(f->L, 1);
  return value;
}

static void known_fields(form *f, int table, const char *const *names, size_t count) {
  for (lua_pushnil(f->L); lua_next(f->L, table); lua_pop(f->L, 1)) {
    const char *name = lua_type(f->L, -2) == LUA_TSTRING ? lua_tostring(f->L, -2) : "(a list member)";
    size_t i = 0;
    while (i < count && strcmp(names[i], name)) i++;
    if (i < count) continue;
    const char *near = ts_nearest(name, names, count);
    ts_report(f->problems, TS_ERROR, f->file, f->line, "%s: unknown field \"%s\"%s%s%s", f->word, name,
              near ? "; the nearest name is \"" : "", near ? near : "", near ? "\"" : "");
    f->good = false;
  }
}

#define KNOWN_FIELDS(f, table, names) known_fields(f, table, names, sizeof(names) / sizeof *(names))

static void need_function(form *f, const char *name, bool required) {
  lua_getfield(f->L, f->body, name);
  if (!lua_isfunction(f->L, -1) && (required || !lua_isnil(f->L, -1))) wrong(f, name, "a function");
  lua_pop(f->L, 1);
}

static const char *const *texts(form *f, const char *name, size_t *count) {
  lua_getfield(f->L, f->body, name);
  const char **list = NULL;
  bool empty = false;
  *count = 0;
  if (lua_istable(f->L, -1)) {
    lua_Integer n = luaL_len(f->L, -1);
    list = ts_arena_alloc(f->packs->arena, (size_t)(n + 1) * sizeof *list);
    for (lua_Integer i = 1; i <= n; i++) {
      bool given = lua_geti(f->L, -1, i) == LUA_TSTRING && *lua_tostring(f->L, -1);
      if (given) list[(*count)++] = ts_arena_copy(f->packs->arena, lua_tostring(f->L, -1));
      else empty = true;
      lua_pop(f->L, 1);
    }
  }
  if (!*count || empty) wrong(f, name, "a list of texts, at least one and none empty");
  lua_pop(f->L, 1);
  return list;
}

static size_t list_length(form *f, const char *name) {
  lua_getfield(f->L, f->body, name);
  size_t n = lua_istable(f->L, -1) ? lua_rawlen(f->L, -1) : 0;
  lua_pop(f->L, 1);
  return n;
}

static const ts_entity_def *entity(form *f, const char *name) {
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

static const char *pack_of(form *f) {
  const char *slash = strchr(f->file, '/');
  return ts_arena_copy_n(f->packs->arena, f->file, slash ? (size_t)(slash - f->file) : 0);
}

static const char *name_of(form *f) {
  const char *slash = strchr(f->file, '/');
  return slash ? slash + 1 : f->file;
}

/* ---- rules ---------------------------------------------------------------------- */

static void worst_of(form *f, ts_rule *rule) {
  static const char *const names[] = {"likelihood", "severity"};
  rule->worst_likelihood = rule->worst_severity = 5;
  lua_getfield(f->L, f->body, "worst");
  if (lua_istable(f->L, -1)) {
    int table = lua_gettop(f->L);
    KNOWN_FIELDS(f, table, names);
    rule->worst_likelihood = number(f, table, "likelihood", 1, 5, 5);
    rule->worst_severity = number(f, table, "severity", 1, 5, 5);
  } else if (!lua_isnil(f->L, -1)) {
    wrong(f, "worst", "{ likelihood = , severity = }");
  }
  lua_pop(f->L, 1);
}

static void unique_rule(form *f, const char *id) {
  for (size_t i = 0; id && i < f->packs->rule_count; i++) {
    const ts_rule *other = &f->packs->rules[i].rule;
    if (!ts_same(other->id, id)) continue;
    ts_report(f->problems, TS_ERROR, f->file, f->line, "rule \"%s\" is already declared in %s/%s:%d", id, other->pack, other->file, other->line);
    f->good = false;
  }
}

static void read_rule(form *f, lua_Integer declaration) {
  static const char *const names[] = {"id", "title", "each", "harm", "sources", "reasoning", "worst", "when", "assess", "examples"};
  KNOWN_FIELDS(f, f->body, names);
  ts_rule rule = {.id = text(f, f->body, "id", true), .title = text(f, f->body, "title", true),
                  .each = text(f, f->body, "each", true), .harm = text(f, f->body, "harm", true),
                  .reasoning = text(f, f->body, "reasoning", false), .pack = pack_of(f), .file = name_of(f), .line = f->line};
  rule.sources = texts(f, "sources", &rule.source_count);
  rule.example_count = list_length(f, "examples");
  worst_of(f, &rule);
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

static ts_hierarchy kind_of(form *f, const char *kind) {
  for (int i = 0; kind && i < 5; i++)
    if (!strcmp(hierarchy[i], kind)) return (ts_hierarchy)i;
  wrong(f, "kind", "elimination, substitution, engineering, administrative or ppe");
  return TS_ADMINISTRATIVE;
}

static const ts_fact_def *find_fact(form *f, const char *entity_name, const char *fact) {
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

static ts_change read_change(form *f, int table) {
  static const char *const names[] = {"fact", "at_most", "at_least", "becomes"};
  KNOWN_FIELDS(f, table, names);
  ts_change change = {0};
  const char *path = text(f, table, "fact", true);
  const char *dot = path ? strchr(path, '.') : NULL;
  if (!dot) return wrong(f, "changes", "{ fact = \"immersion.breath-hold\", at_most = \"10 s\" }"), change;
  change.entity = ts_arena_copy_n(f->packs->arena, path, (size_t)(dot - path));
  change.fact = dot + 1;
  for (int how = TS_AT_MOST; how <= TS_BECOMES; how++) {
    const char *value = text(f, table, names[1 + how], false);
    if (!value) continue;
    if (change.text) wrong(f, "changes", "one of at_most, at_least, becomes");
    change.how = how;
    change.text = value;
  }
  if (!change.text) wrong(f, "changes", "one of at_most, at_least, becomes");
  change.def = find_fact(f, change.entity, change.fact);
  if (change.def && change.text)
    f->good = ts_fact_read(f->packs->vocabulary, f->packs->units, f->packs->arena, change.def, change.text,
                           &change.value, f->problems, f->file, f->line) && f->good;
  return change;
}

static void read_changes(form *f, ts_control *control) {
  lua_getfield(f->L, f->body, "changes");
  if (lua_istable(f->L, -1)) {
    int list = lua_gettop(f->L);
    size_t count = lua_rawlen(f->L, list);
    ts_change *changes = ts_arena_alloc(f->packs->arena, (count + 1) * sizeof *changes);
    for (size_t i = 0; i < count; i++) {
      if (lua_geti(f->L, list, (lua_Integer)i + 1) == LUA_TTABLE) changes[i] = read_change(f, lua_gettop(f->L));
      else wrong(f, "changes", "a list of tables");
      lua_settop(f->L, list);
    }
    control->changes = changes;
    control->change_count = count;
  } else if (!lua_isnil(f->L, -1)) {
    wrong(f, "changes", "a list of tables");
  }
  lua_pop(f->L, 1);
}

static void read_lowers(form *f, ts_control *control) {
  static const char *const names[] = {"likelihood", "severity"};
  lua_getfield(f->L, f->body, "lowers");
  if (lua_istable(f->L, -1)) {
    int table = lua_gettop(f->L);
    KNOWN_FIELDS(f, table, names);
    control->lowers_likelihood = number(f, table, "likelihood", 0, 4, 0);
    control->lowers_severity = number(f, table, "severity", 0, 4, 0);
    if (control->kind >= TS_ADMINISTRATIVE && control->lowers_severity)
      wrong(f, "lowers", "without severity: administrative controls and PPE never lower it");
  } else if (!lua_isnil(f->L, -1)) {
    wrong(f, "lowers", "{ likelihood = 1 }");
  }
  lua_pop(f->L, 1);
}

static void read_control(form *f) {
  static const char *const names[] = {"id", "title", "kind", "say", "check", "often", "who", "lowers", "changes", "source"};
  KNOWN_FIELDS(f, f->body, names);
  ts_control control = {.id = text(f, f->body, "id", true), .title = text(f, f->body, "title", true),
                        .say = text(f, f->body, "say", true), .check = text(f, f->body, "check", true),
                        .often = text(f, f->body, "often", true), .who = text(f, f->body, "who", true),
                        .source = text(f, f->body, "source", false), .pack = pack_of(f), .file = name_of(f), .line = f->line};
  control.kind = kind_of(f, text(f, f->body, "kind", true));
  read_changes(f, &control);
  read_lowers(f, &control);
  for (size_t i = 0; control.id && i < f->packs->control_count; i++)
    if (ts_same(f->packs->controls[i].id, control.id)) wrong(f, "id", "new: this control is already declared");
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

static ts_sees seen_by(form *f) {
  const char *word = text(f, f->body, "sees", false);
  if (!word) return TS_CREW_ONLY;
  for (size_t i = 0; i < sizeof readers / sizeof *readers; i++)
    if (!strcmp(readers[i].word, word)) return readers[i].sees;
  wrong(f, "sees", "open, crew or confidential");
  return TS_CONFIDENTIAL;
}

static void read_fact(form *f) {
  static const char *const names[] = {"entity", "name", "type", "unit", "low", "high", "choices", "meaning", "measured", "asked", "sees"};
  KNOWN_FIELDS(f, f->body, names);
  ts_fact_def fact = {.entity = text(f, f->body, "entity", true), .name = text(f, f->body, "name", true),
                      .unit = text(f, f->body, "unit", false), .low = text(f, f->body, "low", false),
                      .high = text(f, f->body, "high", false), .choices = text(f, f->body, "choices", false),
                      .meaning = text(f, f->body, "meaning", true), .measured = text(f, f->body, "measured", true),
                      .asked = text(f, f->body, "asked", true), .sees = seen_by(f), .type = TS_ID};
  const char *type = text(f, f->body, "type", true);
  for (size_t i = 0; type && i < sizeof types / sizeof *types; i++)
    if (!strcmp(types[i].word, type)) fact.type = types[i].type;
  if (fact.type == TS_ID) wrong(f, "type", "quantity, count, flag, choice, set, date or clock");
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
  form f = {.packs = packs, .L = L, .problems = problems, .body = lua_gettop(L), .good = true};
  f.word = lua_tostring(L, -4);
  f.file = ts_arena_copy(packs->arena, lua_tostring(L, -3));
  f.line = (int)lua_tointeger(L, -2);
  if (!strcmp(f.word, "rule")) read_rule(&f, declaration);
  else if (!strcmp(f.word, "control")) read_control(&f);
  else read_fact(&f);
  lua_pop(L, 5);
  return f.good;
}

/* Facts first: controls name them. */
bool ts_declarations_read(ts_packs *packs, ts_diagnostics *problems) {
  lua_State *L = packs->box->lua;
  bool good = true;
  lua_getfield(L, LUA_REGISTRYINDEX, TS_DECLARED);
  lua_Integer last = (lua_Integer)packs->box->declared;
  for (int facts = 1; facts >= 0; facts--)
    for (lua_Integer i = packs->declared + 1; i <= last; i++) {
      lua_rawgeti(L, -1, i);
      lua_getfield(L, -1, "word");
      bool is_fact = !strcmp(lua_tostring(L, -1), "fact");
      lua_pop(L, 2);
      if (is_fact == (facts == 1)) good = read_one(packs, i, problems) && good;
    }
  packs->declared = last;
  lua_pop(L, 1);
  return good;
}
