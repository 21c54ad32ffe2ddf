/* Annotations for a Lua language server: comments of the kind `---@class`, `---@field`. They are
 * Lua that does nothing when it is run. */
#include "base/text.h"
#include "command/editor.h"
#include "rule/shares.h"
#include "tankside/science.h"
#include <string.h>

enum { FIELDS_MAX = 512 };

static const char about[] =
    "---@meta\n"
    "-- Made by `tankside vocabulary --editor`: make it anew when packs or the program change.\n\n";

/* "person-day" is person_day where Lua wants a name. */
static void add_name(ts_text *out, const char *name) {
  for (const char *c = name; *c != '\0'; c++) ts_text_add_n(out, *c == '-' ? "_" : c, 1);
}

static void add_type(ts_text *out, const char *entity) {
  ts_text_add(out, "tankside.");
  add_name(out, entity);
}

/* ---- subjects and their facts ---------------------------------------------------- */

static void add_choices(ts_text *out, const char *choices) {
  for (const char *at = choices; *(at += strspn(at, " ")) != '\0'; at += strcspn(at, " "))
    ts_text_addf(out, "%s\"%.*s\"", at == choices ? "" : "|", (int)strcspn(at, " "), at);
}

static void add_fact_type(ts_text *out, const ts_fact_def *fact, bool member) {
  if (member || fact->type == TS_FLAG)
    ts_text_add(out, "boolean");
  else if (fact->type == TS_CHOICE || fact->type == TS_KIND_WORD)
    add_choices(out, fact->choices);
  else
    ts_text_add(out, "tankside.quantity");
}

static bool has_range(const ts_fact_def *fact) {
  return fact->low != NULL && fact->high != NULL &&
         (fact->type == TS_QUANTITY || fact->type == TS_COUNT || fact->type == TS_CLOCK);
}

static void add_fact_words(ts_text *out, const ts_fact_def *fact) {
  ts_text_add(out, fact->meaning);
  if (fact->unit != NULL && fact->unit[0] != '\0') ts_text_addf(out, "; in %s", fact->unit);
  if (fact->unit_us != NULL) ts_text_addf(out, " or %s", fact->unit_us);
  if (has_range(fact)) ts_text_addf(out, "; plausible: %s to %s", fact->low, fact->high);
  if (fact->derived)
    ts_text_addf(out, "; worked out: %s", fact->measured);
  else if (fact->type >= TS_QUANTITY)
    ts_text_addf(out, "; found by: %s; ask: %s", fact->measured, fact->asked);
  if (fact->sees == TS_CONFIDENTIAL) ts_text_add(out, "; confidential");
}

/* Whether a reference may be "none": then the field is nil. */
static bool may_be_nil(const ts_session *s, const ts_entity_def *entity, const char *field) {
  for (size_t i = 0; i < ts_fact_count(s->vocabulary, entity); i++) {
    const ts_fact_def *fact = ts_fact_at(s->vocabulary, entity, i);
    if (fact->type != TS_REF || !fact->optional) continue;
    ts_text name = {0};
    add_name(&name, fact->name);
    bool same = ts_same(name.data, field);
    ts_text_release(&name);
    if (same) return true;
  }
  return false;
}

static void add_link(ts_text *out, const ts_dossier *world, const ts_field *field, bool optional) {
  bool list = field->kind == TS_FIELD_LIST;
  bool known = list ? field->count > 0 : field->subject != TS_NO_SUBJECT;
  if (!known) {
    ts_text_add(out, list ? "tankside.subject[]" : "tankside.subject?");
    return;
  }
  ts_subject to = list ? field->list[0] : field->subject;
  const ts_entity_def *entity = ts_subject_at(world, to)->entity;
  add_type(out, entity->name);
  ts_text_addf(out, "%s %s%s",
               list       ? "[]"
               : optional ? "?"
                          : "",
               entity->meaning,
               list       ? "; in the order of the dossier"
               : optional ? "; nil where there is none"
                          : "");
}

static void add_field(const ts_session *s, ts_text *out, const ts_dossier *world,
                      ts_subject subject, const char *name) {
  ts_field field = ts_subject_field(world, subject, name);
  if (field.kind == TS_FIELD_TEXT || field.kind == TS_FIELD_NONE) return;
  ts_text_addf(out, "---@field %s ", name);
  if (field.kind == TS_FIELD_SUBJECT || field.kind == TS_FIELD_LIST) {
    add_link(out, world, &field, may_be_nil(s, ts_subject_at(world, subject)->entity, name));
  } else {
    const ts_fact_def *fact = ts_slot_fact(world, field.slot);
    add_fact_type(out, fact, field.kind == TS_FIELD_MEMBER);
    ts_text_add(out, " ");
    add_fact_words(out, fact);
  }
  ts_text_add(out, "\n");
}

/* A world in which each kind of subject is there once shows what its fields lead to. */
static void add_entity(const ts_session *s, ts_text *out, const ts_entity_def *entity) {
  const char *names[FIELDS_MAX];
  ts_subject subject;
  ts_dossier *world = ts_dossier_example(s->vocabulary, s->units, entity->name, &subject);
  size_t count = ts_subject_field_names(world, subject, names, FIELDS_MAX);
  ts_text_addf(out, "---%s\n---@class (exact) ", entity->meaning);
  add_type(out, entity->name);
  ts_text_add(out, "\n---@field label string what it is called on paper\n");
  for (size_t i = 0; i < count && i < FIELDS_MAX; i++) add_field(s, out, world, subject, names[i]);
  ts_text_add(out, "\n");
  ts_dossier_free(world);
}

bool annotate_facts(const ts_session *s, ts_text *out) {
  ts_text_add(out, about);
  for (size_t i = 0; i < ts_entity_count(s->vocabulary); i++)
    add_entity(s, out, ts_entity_at(s->vocabulary, i));
  return true;
}

/* ---- functions ------------------------------------------------------------------- */

static void add_argument(const ts_session *s, ts_text *out, const ts_argument *a) {
  static const char *const directions[] = {"rises with it", "falls with it",
                                           "may rise or fall with it"};
  char shown[FUNCTION_SHOWN];
  ts_text_addf(out, "---@param %s tankside.quantity|number %s%svalid: %s; the result %s\n", a->name,
               a->unit[0] ? a->unit : "a plain number", "; ",
               function_show(s, (ts_range){a->lo, a->hi}, a->dim, a->unit, shown),
               directions[a->direction]);
}

static void add_function(const ts_session *s, ts_text *out, const ts_function *f) {
  ts_text_addf(out, "---%s\n---\n---Formula: %s\n---\n---Source: %s\n---\n---Limits: %s\n",
               f->meaning, f->formula, f->source, f->limits);
  for (int i = 0; i < f->count; i++) add_argument(s, out, &f->argument[i]);
  ts_text_addf(out, "---@return tankside.quantity %s\nfunction calc.%s(",
               f->unit[0] ? f->unit : "a plain number", f->name);
  for (int i = 0; i < f->count; i++)
    ts_text_addf(out, "%s%s", i > 0 ? ", " : "", f->argument[i].name);
  ts_text_add(out, ") end\n\n");
}

bool annotate_functions(const ts_session *s, ts_text *out) {
  ts_text_add(out, about);
  ts_text_add(out, "---Functions of the field; `tankside calc NAME` shows one with an example.\n"
                   "---@class (exact) tankside.calc\ncalc = {}\n\n");
  for (const ts_function *f = ts_functions(); f->name != NULL; f++) add_function(s, out, f);
  return true;
}

/* ---- packs ----------------------------------------------------------------------- */

static void add_kinds(const ts_session *s, ts_text *out) {
  size_t count = ts_entity_count(s->vocabulary);
  ts_text_add(out, "---@alias tankside.kind ");
  for (size_t i = 0; i < count; i++)
    ts_text_addf(out, "%s\"%s\"", i > 0 ? "|" : "", ts_entity_at(s->vocabulary, i)->name);
  ts_text_add(out, "\n---@alias tankside.subject ");
  for (size_t i = 0; i < count; i++) {
    if (i > 0) ts_text_add(out, "|");
    add_type(out, ts_entity_at(s->vocabulary, i)->name);
  }
  ts_text_add(out, "\n\n");
}

static void add_shared(ts_text *out, const ts_shared *shared) {
  if (shared->parameters == NULL) {
    ts_text_addf(out, "---@type integer\n%s.%s = 0\n\n", shared->table, shared->name);
    return;
  }
  if (shared->comment[0] != '\0') ts_text_addf(out, "---%s\n---\n", shared->comment);
  ts_text_addf(out, "---(%s:%d)\nfunction %s.%s(%s) end\n\n", shared->file, shared->line,
               shared->table, shared->name, shared->parameters);
}

void annotate_packs(const ts_session *s, ts_text *out) {
  const ts_shared *shared;
  size_t count = ts_shared_names(s->packs, s->arena, &shared);
  add_kinds(s, out);
  for (size_t i = 0; i < count; i++) {
    if (i == 0 || !ts_same(shared[i].table, shared[i - 1].table))
      ts_text_addf(out, "---@class tankside.shared.%s\n%s = {}\n\n", shared[i].table,
                   shared[i].table);
    add_shared(out, &shared[i]);
  }
}
