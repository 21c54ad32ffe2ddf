/* When a rule applies, in words: what its `when` gives back, read from the text. */
#include "rule/check_int.h"

#include "base/text.h"
#include <string.h>

typedef struct {
  ts_checking *c;
  const char *each; /* facts of the rule's own subject go without its name */
  int depth;
  bool lost; /* something cannot be put into words */
} speaker;

static const char *say(speaker *s, ts_syntax *it);

static const char *spaced(speaker *s, const char *name) {
  char *words = ts_arena_copy(s->c->arena, name);
  for (char *w = words; *w; w++)
    if (*w == '_' || *w == '-') *w = ' ';
  return words;
}

/* ---- facts --------------------------------------------------------------------------- */

/* "breath hold", "task overhead": what a field leads to; NULL where it is no fact. */
static const char *fact_name(speaker *s, ts_syntax *it) {
  const char *path = it->kind == TS_E_FIELD ? ts_types_path(s->c, it) : NULL;
  if (!path) return NULL;
  size_t own = strlen(s->each);
  bool mine = !strncmp(path, s->each, own) && path[own] == '.';
  char *words = ts_arena_copy(s->c->arena, spaced(s, mine ? path + own + 1 : path));
  for (char *w = words; *w; w++)
    if (*w == '.') *w = ' ';
  return words;
}

/* A yes/no that decides by itself. */
static const char *say_flag(speaker *s, ts_syntax *it, bool yes) {
  const char *name = fact_name(s, it);
  return name ? ts_arena_printf(s->c->arena, "%s is %s", name, yes ? "yes" : "no") : NULL;
}

/* ---- expressions -------------------------------------------------------------------------- */

static const struct {
  const char *sign, *words;
} signs[] = {{"<", "below"},     {"<=", "at most"}, {">", "above"},
             {">=", "at least"}, {"==", "is"},      {"~=", "is not"}};

static const char *say_comparison(speaker *s, ts_syntax *it) {
  const char *words = it->text;
  for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
    if (ts_same(signs[i].sign, it->text)) words = signs[i].words;
  if (it->last->kind == TS_E_NIL)
    return ts_arena_printf(s->c->arena, "there is %s %s", it->text[0] == '=' ? "no" : "a",
                           say(s, it->first));
  const char *left = fact_name(s, it->first), *right = fact_name(s, it->last);
  if (!left) left = say(s, it->first);
  return ts_arena_printf(s->c->arena, "%s %s %s", left, words, right ? right : say(s, it->last));
}

/* `and` within `or` and the like: brackets where they would be read the wrong way. */
static const char *say_side(speaker *s, ts_syntax *it, ts_syntax_kind around) {
  const char *words = say(s, it);
  ts_syntax *bare = ts_syntax_bare(it);
  bool other = (bare->kind == TS_E_AND || bare->kind == TS_E_OR) && bare->kind != around;
  return other ? ts_arena_printf(s->c->arena, "(%s)", words) : words;
}

static const char *say_joined(speaker *s, ts_syntax *it) {
  const char *left = say_side(s, it->first, it->kind), *right = say_side(s, it->last, it->kind);
  return ts_arena_printf(s->c->arena, "%s %s %s", left, it->text, right);
}

static const char *say_not(speaker *s, ts_syntax *it) {
  ts_syntax *inner = ts_syntax_bare(it->first);
  const char *flag = say_flag(s, inner, false);
  return flag ? flag : ts_arena_printf(s->c->arena, "not (%s)", say(s, inner));
}

/* What a helper of one line gives back; its name where there is more to it. */
static const char *say_call(speaker *s, ts_syntax *it) {
  ts_syntax *argument = it->first->next, *function = ts_function_meant(s->c, it->first);
  if (ts_same(it->first->text, "q") && argument && argument->kind == TS_E_STRING)
    return argument->text;
  ts_syntax *only = function && function->last ? function->last->first : NULL;
  if (only && only->kind == TS_S_RETURN && only->first) return say(s, only->first);
  if (it->first->kind == TS_E_NAME || it->first->kind == TS_E_FIELD)
    return spaced(s, it->first->text);
  return s->lost = true, "";
}

static const char *say_name(speaker *s, ts_syntax *it) {
  bool value = it->local && it->local->value && !it->local->assigned;
  return value ? say(s, it->local->value) : spaced(s, it->text);
}

static const char *say_field(speaker *s, ts_syntax *it) {
  const char *flag = say_flag(s, it, true);
  return flag ? flag : spaced(s, it->text);
}

static const char *deeper(speaker *s, ts_syntax *it) {
  switch (it->kind) {
  case TS_E_PAREN: return say(s, it->first);
  case TS_E_AND:
  case TS_E_OR: return say_joined(s, it);
  case TS_E_NOT: return say_not(s, it);
  case TS_E_COMPARE: return say_comparison(s, it);
  case TS_E_CALL: return say_call(s, it);
  case TS_E_NAME: return say_name(s, it);
  case TS_E_FIELD: return say_field(s, it);
  case TS_E_STRING:
  case TS_E_NUMBER: return it->text;
  case TS_E_TRUE: return "yes";
  case TS_E_FALSE: return "no";
  case TS_E_UNARY:
    return ts_arena_printf(s->c->arena, "%s%s", it->text[0] == '#' ? "number of " : "-",
                           say(s, it->first));
  case TS_E_BINARY:
    return ts_arena_printf(s->c->arena, "%s %s %s", say(s, it->first), it->text, say(s, it->last));
  default: return s->lost = true, "";
  }
}

static const char *say(speaker *s, ts_syntax *it) {
  if (++s->depth > 40) s->lost = true;
  const char *words = s->lost ? "" : deeper(s, it);
  s->depth--;
  return words;
}

const char *ts_when_words(ts_checking *c, size_t rule) {
  ts_syntax *table = c->rules[rule].table, *when = table ? ts_syntax_item(table, "when") : NULL;
  ts_syntax *function = when ? ts_syntax_bare(when) : NULL;
  if (function && function->kind != TS_E_FUNCTION) function = ts_function_meant(c, function);
  ts_syntax *only = function && function->last ? function->last->first : NULL;
  if (!only || only->kind != TS_S_RETURN || !only->first) return NULL;
  speaker s = {.c = c, .each = ts_rule_at(c->packs, rule)->each};
  ts_types_follow(c, rule);
  const char *words = say(&s, only->first);
  return s.lost ? NULL : words;
}
