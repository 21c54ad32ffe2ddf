/* What the expressions of a rule are: subjects, lists of them, facts; followed through locals,
 * loops and helper functions from the one parameter of `when` and `assess`. Where it cannot be
 * told an expression is nothing in particular, and nothing is said about it. */
#include "rule/check_int.h"

#include "base/text.h"
#include <string.h>

typedef enum { IS_OPEN, IS_SUBJECT, IS_LIST, IS_FACT } kind;

enum { VARIANTS = 4, DEPTH = 24 }; /* a helper may be given a site here and a chamber there */

/* Subjects stand for their entity: the world has one of everything. */
typedef struct {
  kind kind;
  size_t count;
  uint32_t at[VARIANTS]; /* subjects; slots of a fact */
  bool member;           /* of a set: a flag */
} type;

typedef struct {
  ts_checking *c;
  size_t rule;
  int depth;
  bool silent; /* only looking: what is wrong has been reported */
} walker;

static const type open_type = {IS_OPEN, 0, {0}, false};

/* ---- types ------------------------------------------------------------------------- */

/* True when there was something new. */
static bool merge(type *into, const type *from) {
  bool grew = false;
  if (from->kind == IS_OPEN || (into->kind != IS_OPEN && into->kind != from->kind)) return false;
  into->kind = from->kind;
  into->member = from->member;
  for (size_t i = 0; i < from->count; i++) {
    size_t k = 0;
    while (k < into->count && into->at[k] != from->at[i]) k++;
    if (k < into->count || k == VARIANTS) continue;
    into->at[into->count++] = from->at[i];
    grew = true;
  }
  return grew;
}

static const char *entity_name(const ts_dossier *world, uint32_t subject) {
  return ts_subject_at(world, subject)->entity->name;
}

static type one(kind what, uint32_t at) { return (type){what, 1, {at}, false}; }

static type first_of_entity(const ts_dossier *world, const char *name) {
  for (ts_subject s = 0; s < ts_subject_count(world); s++)
    if (ts_same(entity_name(world, s), name)) return one(IS_SUBJECT, s);
  return open_type;
}

static type field_of_one(const walker *w, uint32_t subject, const char *name, bool *exists) {
  ts_field field = ts_subject_field(w->c->world, subject, name);
  *exists = field.kind != TS_FIELD_NONE || ts_same(name, "label");
  type found = open_type;
  if (field.kind == TS_FIELD_FACT || field.kind == TS_FIELD_MEMBER)
    found = one(IS_FACT, field.slot);
  if (field.kind == TS_FIELD_SUBJECT && field.subject != TS_NO_SUBJECT)
    found = one(IS_SUBJECT, field.subject);
  if (field.kind == TS_FIELD_LIST && field.count) found = one(IS_LIST, field.list[0]);
  found.member = field.kind == TS_FIELD_MEMBER;
  return found;
}

static void no_field(const walker *w, ts_syntax *field, uint32_t subject) {
  const char *near = ts_subject_nearest(w->c->world, subject, field->text);
  ts_report(w->c->problems, TS_ERROR, field->file, field->line,
            "%s: %s has no field \"%s\"%s%s%s (column %d)", ts_rule_at(w->c->packs, w->rule)->id,
            entity_name(w->c->world, subject), field->text, near ? "; the nearest name is \"" : "",
            near ? near : "", near ? "\"" : "", field->column);
}

static type type_of(walker *w, ts_syntax *it);

static type type_of_field(walker *w, ts_syntax *it) {
  type object = type_of(w, it->first), found = open_type;
  for (size_t i = 0; object.kind == IS_SUBJECT && i < object.count; i++) {
    bool exists;
    type part = field_of_one(w, object.at[i], it->text, &exists);
    if (!exists && !w->silent) no_field(w, it, object.at[i]);
    merge(&found, &part);
  }
  return found;
}

/* What the function gives back: the first value of each of its own returns. */
static void gather_returns(walker *w, ts_syntax *it, type *found) {
  for (; it; it = it->next) {
    if (it->kind == TS_S_RETURN && it->first) {
      type part = type_of(w, it->first);
      merge(found, &part);
    }
    if (it->kind != TS_E_FUNCTION) gather_returns(w, it->first, found);
  }
}

static type type_of_call(walker *w, ts_syntax *it) {
  ts_syntax *function = ts_function_meant(w->c, it->first);
  type found = open_type;
  if (function) gather_returns(w, function->first, &found);
  return found;
}

static type type_of_index(walker *w, ts_syntax *it) {
  type found = type_of(w, it->first);
  if (found.kind != IS_LIST) return open_type;
  found.kind = IS_SUBJECT;
  return found;
}

static type deeper(walker *w, ts_syntax *it) {
  type left, right;
  switch (it->kind) {
  case TS_E_NAME: return it->local && it->local->mark ? *(const type *)it->local->mark : open_type;
  case TS_E_PAREN: return type_of(w, it->first);
  case TS_E_FIELD: return type_of_field(w, it);
  case TS_E_INDEX: return type_of_index(w, it);
  case TS_E_CALL: return type_of_call(w, it);
  case TS_E_AND: return type_of(w, it->last);
  case TS_E_OR:
    left = type_of(w, it->first), right = type_of(w, it->last);
    merge(&left, &right);
    return left;
  default: return open_type;
  }
}

static type type_of(walker *w, ts_syntax *it) {
  if (w->depth >= DEPTH) return open_type;
  w->depth++;
  type found = deeper(w, it);
  w->depth--;
  return found;
}

/* ---- helpers ---------------------------------------------------------------------------- */

/* The value of a table that `share` makes known everywhere, or NULL. */
static ts_syntax *shared_table(const ts_checking *c, const char *name) {
  for (size_t i = 0; i < c->packs->file_count; i++)
    for (ts_syntax *s = c->trees[i] ? c->trees[i]->first : NULL; s; s = s->next) {
      ts_syntax *call = s->first;
      if (s->kind != TS_S_CALL || call->kind != TS_E_CALL || !ts_same(call->first->text, "share"))
        continue;
      ts_syntax *word = call->first->next;
      if (word && word->next && ts_same(word->text, name)) return word->next;
    }
  return NULL;
}

/* The expression a name, or a field of a table that is written out, stands for. */
static ts_syntax *value_meant(const ts_checking *c, ts_syntax *it, int depth) {
  it = ts_syntax_bare(it);
  if (!it || depth > DEPTH) return NULL;
  if (it->kind == TS_E_NAME && it->local)
    return it->local->assigned ? NULL : value_meant(c, it->local->value, depth + 1);
  if (it->kind == TS_E_NAME) return value_meant(c, shared_table(c, it->text), depth + 1);
  if (it->kind != TS_E_FIELD) return it;
  ts_syntax *table = value_meant(c, it->first, depth + 1);
  bool written = table && table->kind == TS_E_TABLE;
  return written ? value_meant(c, ts_syntax_item(table, it->text), depth + 1) : NULL;
}

ts_syntax *ts_function_meant(const ts_checking *c, ts_syntax *callee) {
  ts_syntax *value = value_meant(c, callee, 0);
  return value && value->kind == TS_E_FUNCTION ? value : NULL;
}

/* ---- walking -------------------------------------------------------------------------------- */

static void walk(walker *w, ts_syntax *it);

static bool give(walker *w, ts_local *local, const type *what) {
  if (!local->mark) local->mark = ts_arena_alloc(w->c->arena, sizeof(type));
  return merge(local->mark, what);
}

/* A function is followed once for a rule, and again whenever it is given something new. One
 * that stands here without a call is followed with what stands around it. */
static void enter(walker *w, ts_syntax *function, ts_syntax *arguments, bool called) {
  uint32_t mark = (uint32_t)w->rule + 1;
  bool fresh = function->number != mark, again = fresh || !called;
  for (ts_local *l = function->locals; fresh && l; l = l->next) l->mark = NULL;
  ts_syntax *argument = arguments;
  for (ts_local *l = function->locals; l && argument; l = l->next, argument = argument->next) {
    type what = type_of(w, argument);
    again = give(w, l, &what) || again;
  }
  function->number = mark;
  if (!again || w->depth >= DEPTH) return;
  w->depth++;
  walk(w, function->first);
  w->depth--;
}

void ts_keep_fact(ts_rule_seen *seen, const ts_fact_def *fact) {
  for (size_t i = 0; i < seen->fact_count; i++)
    if (seen->facts[i] == fact) return;
  TS_GROW(seen->facts, seen->fact_count, seen->fact_capacity);
  seen->facts[seen->fact_count++] = fact;
}

static void walk_field(walker *w, ts_syntax *it) {
  type found = type_of(w, it);
  if (found.kind == IS_OPEN) return;
  it->number = TS_FIELD_IS_NEVER_FALSE;
  if (found.kind != IS_FACT) return;
  for (size_t i = 0; i < found.count; i++) {
    const ts_fact_def *fact = ts_slot_fact(w->c->world, found.at[i]);
    ts_keep_fact(&w->c->rules[w->rule], fact);
    if (found.member || fact->type == TS_FLAG) it->number = TS_FIELD_IS_FLAG;
  }
}

/* ---- words of a choice --------------------------------------------------------------- */

static const char *nearest_choice(walker *w, const ts_fact_def *fact, const char *word,
                                  bool *known) {
  const char *names[64];
  size_t count = 0;
  *known = false;
  for (const char *at = fact->choices; *(at += strspn(at, " ")) && count < 64;
       at += strcspn(at, " ")) {
    names[count] = ts_arena_copy_n(w->c->arena, at, strcspn(at, " "));
    *known = *known || ts_same(names[count], word);
    count++;
  }
  return ts_nearest(word, names, count);
}

/* i.effort == "heavy": never so, since no effort is called that. */
static void check_choice(walker *w, ts_syntax *it) {
  type field = type_of(w, it->first);
  if (field.kind != IS_FACT || field.member || it->last->kind != TS_E_STRING) return;
  const ts_fact_def *fact = ts_slot_fact(w->c->world, field.at[0]);
  bool known;
  if ((fact->type != TS_CHOICE && fact->type != TS_KIND_WORD) || field.count > 1) return;
  const char *near = nearest_choice(w, fact, it->last->text, &known);
  if (known) return;
  ts_report(w->c->problems, TS_ERROR, it->file, it->line,
            "%s: \"%s\" is no %s of %s%s%s%s (column %d)", ts_rule_at(w->c->packs, w->rule)->id,
            it->last->text, fact->name, fact->entity, near ? "; the nearest name is \"" : "",
            near ? near : "", near ? "\"" : "", it->last->column);
}

/* local a, b = x, y; and what a loop over a list gives. */
static void bind_locals(walker *w, ts_syntax *it) {
  for (ts_local *l = it->locals; l; l = l->next) {
    l->mark = NULL;
    type what = l->value && l->value->kind != TS_E_FUNCTION ? type_of(w, l->value) : open_type;
    if (l->value) give(w, l, &what);
  }
}

static void bind_loop(walker *w, ts_syntax *it) {
  ts_syntax *over = it->first;
  for (ts_local *l = it->locals; l; l = l->next) l->mark = NULL;
  bool list = over->kind == TS_E_CALL && ts_same(over->first->text, "ipairs") && over->first->next;
  if (!list || !it->locals || !it->locals->next) return;
  type what = type_of(w, over->first->next);
  if (what.kind != IS_LIST) return;
  what.kind = IS_SUBJECT;
  give(w, it->locals->next, &what);
}

static void bind_assigned(walker *w, ts_syntax *it) {
  ts_syntax *target = it->first, *value = it->first;
  for (size_t i = 0; i < it->targets && value; i++) value = value->next;
  for (size_t i = 0; i < it->targets && value; i++, target = target->next, value = value->next) {
    type what = type_of(w, value);
    if (target->kind == TS_E_NAME && target->local) give(w, target->local, &what);
  }
}

static void walk_parts(walker *w, ts_syntax *it) {
  for (ts_syntax *child = it->first; child; child = child->next) {
    if (it->kind == TS_S_FOR && child == it->last) bind_loop(w, it);
    walk(w, child);
  }
}

static void walk(walker *w, ts_syntax *it) {
  if (it->kind == TS_E_FUNCTION) {
    enter(w, it, NULL, false);
    return;
  }
  walk_parts(w, it);
  if (it->kind == TS_E_FIELD) walk_field(w, it);
  if (it->kind == TS_E_COMPARE) check_choice(w, it);
  if (it->kind == TS_S_LOCAL) bind_locals(w, it);
  if (it->kind == TS_S_ASSIGN) bind_assigned(w, it);
  if (it->kind != TS_E_CALL) return;
  ts_syntax *function = ts_function_meant(w->c, it->first);
  if (function) enter(w, function, it->first->next, true);
}

static void follow(walker *w, const char *name, const type *subject) {
  ts_syntax *table = w->c->rules[w->rule].table;
  ts_syntax *value = table ? ts_syntax_item(table, name) : NULL;
  ts_syntax *function = value ? value_meant(w->c, value, 0) : NULL;
  if (!function || function->kind != TS_E_FUNCTION || !function->locals) return;
  function->locals->mark = NULL;
  give(w, function->locals, subject);
  function->number = (uint32_t)w->rule + 1;
  walk(w, function->first);
}

void ts_types_follow(ts_checking *c, size_t rule) {
  walker w = {.c = c, .rule = rule};
  type subject = first_of_entity(c->world, ts_rule_at(c->packs, rule)->each);
  follow(&w, "when", &subject);
  follow(&w, "assess", &subject);
}

const char *ts_types_path(ts_checking *c, ts_syntax *field) {
  walker w = {.c = c, .silent = true};
  type found = type_of(&w, field);
  if (found.kind != IS_FACT) return NULL;
  const ts_fact_def *fact = ts_slot_fact(c->world, found.at[0]);
  return ts_arena_printf(c->arena, "%s.%s%s%s", fact->entity, fact->name, found.member ? "." : "",
                         found.member ? field->text : "");
}
