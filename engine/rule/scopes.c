#include "rule/scopes.h"

#include "base/arena.h"
#include <stdlib.h>
#include <string.h>

/* FOR_HEAD: from `for` to its `do`, where it becomes a block. */
typedef enum { BLOCK, FOR_HEAD, FUNCTION } scope_kind;

typedef struct {
  scope_kind kind;
  size_t names; /* how many were declared before it */
  int brackets; /* FUNCTION: how many were open where it begins */
} scope;

typedef struct {
  const char *start;
  size_t length;
  int function; /* how many functions are open around it */
  bool lingers; /* of a `repeat` that is over: its condition still sees it, what follows does not */
} declared;

/* What a name means that comes next: a variable of `local` or `for`, the name or a parameter of a
 * function. */
typedef enum { NOTHING, LOCAL_NAMES, FOR_NAMES, FUNCTION_NAME, PARAMETERS } expected;

struct ts_scopes {
  ts_token *tokens;
  size_t token_count, token_capacity;
  scope *open;
  size_t open_count, open_capacity;
  declared *names;
  size_t name_count, name_capacity;
  expected next;
  bool local_function;
  int functions, brackets;
};

static void open_scope(ts_scopes *s, scope_kind kind) {
  TS_GROW(s->open, s->open_count, s->open_capacity);
  s->open[s->open_count++] = (scope){kind, s->name_count, s->brackets};
  s->functions += kind == FUNCTION;
}

static void close_scope(ts_scopes *s) {
  if (s->open_count == 1) return; /* the file itself */
  scope *last = &s->open[--s->open_count];
  s->name_count = last->names;
  if (last->kind != FUNCTION) return;
  s->functions--;
  s->brackets = last->brackets;
}

/* The condition after `until` sees the locals of the block, and nobody can tell where it ends. */
static void close_repeat(ts_scopes *s) {
  if (s->open_count == 1) return;
  for (size_t i = s->open[--s->open_count].names; i < s->name_count; i++)
    s->names[i].lingers = true;
}

ts_scopes *ts_scopes_new(void) {
  ts_scopes *s = ts_alloc(sizeof *s);
  open_scope(s, FUNCTION);
  return s;
}

void ts_scopes_free(ts_scopes *s) {
  if (!s) return;
  free(s->tokens);
  free(s->open);
  free(s->names);
  free(s);
}

static void declare(ts_scopes *s, const ts_token *t) {
  TS_GROW(s->names, s->name_count, s->name_capacity);
  s->names[s->name_count++] = (declared){t->start, t->length, s->functions, false};
}

/* The innermost one counts, and any that lingers. */
static bool belongs_outside(const ts_scopes *s, const ts_token *t) {
  for (size_t i = s->name_count; i-- > 0;) {
    const declared *n = &s->names[i];
    if (n->length != t->length || memcmp(n->start, t->start, t->length) != 0) continue;
    if (n->function != s->functions) return true;
    if (!n->lingers) return false;
  }
  return false;
}

/* ---- what is assigned to ------------------------------------------------------------------ */

static bool is_one_of(const ts_token *t, const char *three) {
  return t->kind == TS_T_SYMBOL && t->length == 1 &&
         (*t->start == three[0] || *t->start == three[1] || *t->start == three[2]);
}
static bool opens(const ts_token *t) { return is_one_of(t, "([{"); }
static bool closes(const ts_token *t) { return is_one_of(t, ")]}"); }

/* From a closing bracket to what stands before the one that opens it. */
static size_t before_bracket(const ts_scopes *s, size_t at) {
  int depth = 0;
  do {
    depth += closes(&s->tokens[at]) - opens(&s->tokens[at]);
    at--;
  } while (depth > 0 && at > 0);
  return at;
}

/* From the last token of what is assigned to, to what stands before its first; *name is that
 * one when it is a name and nothing else. The first token of all is a blank one, so there is an
 * end. */
static size_t before_target(const ts_scopes *s, size_t at, const ts_token **name) {
  bool whole = true;
  while (at > 0) {
    const ts_token *t = &s->tokens[at], *before = &s->tokens[at - 1];
    if (closes(t))
      at = before_bracket(s, at);
    else if (t->kind == TS_T_STRING)
      at--;
    else if (t->kind == TS_T_NAME && (ts_token_is(before, ".") || ts_token_is(before, ":")))
      at -= 2;
    else {
      if (t->kind != TS_T_NAME) return at;
      if (whole) *name = t;
      return at - 1;
    }
    whole = false;
  }
  return 0;
}

/* The `=` was taken last: whether one of the names before it is another function's. */
static const ts_token *assigned_outside(const ts_scopes *s) {
  size_t at = s->token_count - 2;
  for (;;) {
    const ts_token *name = NULL;
    at = before_target(s, at, &name);
    if (name && belongs_outside(s, name)) return name;
    if (at < 2 || !ts_token_is(&s->tokens[at], ",")) return NULL;
    at--;
  }
}

/* ---- token by token ----------------------------------------------------------------------- */

static bool block_word(ts_scopes *s, const ts_token *t) {
  if (ts_token_is(t, "end") || ts_token_is(t, "elseif")) return close_scope(s), true;
  if (ts_token_is(t, "until")) return close_repeat(s), true;
  if (ts_token_is(t, "else")) close_scope(s);
  if (ts_token_is(t, "else") || ts_token_is(t, "then") || ts_token_is(t, "repeat"))
    return open_scope(s, BLOCK), true;
  if (!ts_token_is(t, "do")) return false;
  scope *top = &s->open[s->open_count - 1];
  if (top->kind == FOR_HEAD)
    top->kind = BLOCK;
  else
    open_scope(s, BLOCK);
  return true;
}

static bool head_word(ts_scopes *s, const ts_token *t, const ts_token *before) {
  if (ts_token_is(t, "function")) {
    s->local_function = ts_token_is(before, "local");
    s->next = FUNCTION_NAME;
  } else if (ts_token_is(t, "local")) {
    s->next = LOCAL_NAMES;
  } else if (ts_token_is(t, "for")) {
    open_scope(s, FOR_HEAD);
    s->next = FOR_NAMES;
  } else {
    return false;
  }
  return true;
}

/* `function name (`: the name is assigned to, or declared after `local`. */
static const ts_token *function_name(ts_scopes *s, const ts_token *t, const ts_token *before) {
  if (t->kind == TS_T_NAME && s->local_function) declare(s, t);
  if (!ts_token_is(t, "(")) return NULL;
  bool plain = before->kind == TS_T_NAME && ts_token_is(&s->tokens[s->token_count - 3], "function");
  const ts_token *wrong = plain && belongs_outside(s, before) ? before : NULL;
  open_scope(s, FUNCTION);
  s->next = PARAMETERS;
  return wrong;
}

static bool lists_names(ts_scopes *s, const ts_token *t, const ts_token *before) {
  if (ts_token_is(t, ",")) return true;
  bool named = t->kind == TS_T_NAME && (ts_token_is(before, ",") || ts_token_is(before, "local") ||
                                        ts_token_is(before, "for"));
  if (named)
    declare(s, t);
  else
    s->next = NOTHING;
  return named || ts_token_is(t, "=");
}

static const ts_token *plain_token(ts_scopes *s, const ts_token *t, const ts_token *before) {
  if (t->kind == TS_T_NAME) (void)(block_word(s, t) || head_word(s, t, before));
  if (t->kind != TS_T_SYMBOL) return NULL;
  s->brackets += opens(t) - closes(t);
  if (!ts_token_is(t, "=") || s->token_count < 3) return NULL;
  size_t top = s->open_count - 1;
  while (s->open[top].kind != FUNCTION) top--;
  return s->brackets == s->open[top].brackets ? assigned_outside(s)
                                              : NULL; /* else a table's item */
}

const ts_token *ts_scopes_take(ts_scopes *s, const ts_token *token) {
  static const ts_token blank = {TS_T_END, "", 0, 0, 0};
  TS_GROW(s->tokens, s->token_count, s->token_capacity);
  if (s->token_count == 0) s->tokens[s->token_count++] = blank;
  TS_GROW(s->tokens, s->token_count, s->token_capacity);
  s->tokens[s->token_count++] = *token;
  const ts_token *t = &s->tokens[s->token_count - 1], *before = t - 1;
  if (s->next == FUNCTION_NAME) return function_name(s, t, before);
  if (s->next == PARAMETERS) {
    if (t->kind == TS_T_NAME) declare(s, t);
    if (ts_token_is(t, ")")) s->next = NOTHING;
    return NULL;
  }
  if (s->next != NOTHING && !ts_token_is(t, "function") && lists_names(s, t, before)) return NULL;
  if (ts_token_is(t, "function")) s->next = NOTHING;
  return plain_token(s, t, before);
}
