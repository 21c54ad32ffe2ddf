/* Lua 5.4's grammar, by descent; what the lint refuses (goto, attributes, bits) is not read. */
#include "rule/syntax.h"

#include "base/text.h"
#include "rule/lexer.h"
#include <string.h>

enum {
  DEPTH = 150, /* nested constructs; Lua itself stops at 200 */
  LINKS = 500  /* a.b.c, a + b + c: each link nests the tree by one, though nothing in the text */
};

typedef struct scope {
  ts_local *local;
  struct scope *outer;
} scope;

typedef struct {
  ts_arena *arena;
  const char *file, *text;
  ts_lexer lexer;
  ts_token now, next;
  size_t end;   /* of the token before */
  scope *names; /* innermost first */
  int depth;
  bool bad;
} parser;

/* ---- tokens ---------------------------------------------------------------------- */

static void step(parser *p) {
  p->end = (size_t)(p->now.start - p->text) + p->now.length;
  p->now = p->next;
  p->next = ts_lexer_next(&p->lexer);
}

static bool at(const parser *p, const char *word) { return ts_token_is(&p->now, word); }

static bool take(parser *p, const char *word) {
  if (p->bad || !at(p, word)) return false;
  step(p);
  return true;
}

static void want(parser *p, const char *word) {
  if (!take(p, word)) p->bad = true;
}

static const char *const reserved[] = {
    "and",   "break", "do",  "else", "elseif", "end",    "false", "for",  "function", "if",   "in",
    "local", "nil",   "not", "or",   "repeat", "return", "then",  "true", "until",    "while"};

static bool at_name(const parser *p) {
  if (p->now.kind != TS_T_NAME) return false;
  for (size_t i = 0; i < sizeof reserved / sizeof *reserved; i++)
    if (at(p, reserved[i])) return false;
  return true;
}

static const char *take_name(parser *p) {
  if (p->bad || !at_name(p)) return p->bad = true, "";
  const char *name = ts_arena_copy_n(p->arena, p->now.start, p->now.length);
  step(p);
  return name;
}

/* ---- nodes ------------------------------------------------------------------------ */

static ts_syntax *node(parser *p, ts_syntax_kind kind) {
  ts_syntax *made = ts_arena_alloc(p->arena, sizeof *made);
  made->kind = kind;
  made->text = "";
  made->file = p->file;
  made->from = (size_t)(p->now.start - p->text);
  made->line = p->now.line;
  made->column = p->now.column;
  return made;
}

static void add(ts_syntax *parent, ts_syntax *child) {
  if (parent->last)
    parent->last->next = child;
  else
    parent->first = child;
  parent->last = child;
}

static ts_syntax *done(parser *p, ts_syntax *it) {
  it->to =
      p->end > it->from ? p->end : it->from; /* an empty block begins after what is before it */
  return it;
}

/* A node that begins where its first part does. */
static ts_syntax *around(parser *p, ts_syntax_kind kind, ts_syntax *first) {
  ts_syntax *made = node(p, kind);
  made->from = first->from;
  made->line = first->line;
  made->column = first->column;
  add(made, first);
  return made;
}

/* ---- names -------------------------------------------------------------------------- */

static ts_local *new_local(parser *p, const char *name) {
  ts_local *made = ts_arena_alloc(p->arena, sizeof *made);
  made->name = name;
  return made;
}

static void declare(parser *p, ts_local *list) {
  for (; list; list = list->next) {
    scope *inner = ts_arena_alloc(p->arena, sizeof *inner);
    *inner = (scope){list, p->names};
    p->names = inner;
  }
}

static ts_local *meaning(const parser *p, const char *name) {
  for (const scope *s = p->names; s; s = s->outer)
    if (ts_same(s->local->name, name)) return s->local;
  return NULL;
}

static ts_local *name_list(parser *p) {
  ts_local *first = new_local(p, take_name(p)), *last = first;
  for (unsigned place = 1; take(p, ","); place++) {
    last = last->next = new_local(p, take_name(p));
    last->place = place;
  }
  return first;
}

/* ---- expressions ------------------------------------------------------------------ */

static ts_syntax *expression(parser *p, int limit);
static ts_syntax *block(parser *p);

static ts_syntax *whole(parser *p) { return expression(p, 0); }

static void expressions(parser *p, ts_syntax *into) {
  do add(into, whole(p));
  while (take(p, ","));
}

/* The words between the quotes, escapes left as they are: names and texts hold none. */
static ts_syntax *string(parser *p) {
  ts_syntax *made = node(p, TS_E_STRING);
  const char *start = p->now.start;
  size_t skip = 1;
  if (*start == '[') skip = 1 + (size_t)(strchr(start + 1, '[') - start);
  size_t length = p->now.length >= 2 * skip ? p->now.length - 2 * skip : 0;
  made->text = ts_arena_copy_n(p->arena, start + skip, length);
  step(p);
  return done(p, made);
}

static ts_syntax *body(parser *p, ts_syntax *made) {
  scope *outside = p->names;
  want(p, "(");
  if (!at(p, ")")) made->locals = name_list(p);
  want(p, ")");
  declare(p, made->locals);
  add(made, block(p));
  want(p, "end");
  p->names = outside;
  return done(p, made);
}

static ts_syntax *item(parser *p) {
  ts_syntax *made = node(p, TS_E_ITEM);
  if (at_name(p) && ts_token_is(&p->next, "=")) {
    made->kind = TS_E_KEYED;
    made->text = take_name(p);
    step(p);
  } else if (take(p, "[")) {
    made->kind = TS_E_KEYED;
    ts_syntax *key = whole(p);
    if (key->kind == TS_E_STRING)
      made->text = key->text;
    else
      add(made, key);
    want(p, "]");
    want(p, "=");
  }
  add(made, whole(p));
  return done(p, made);
}

static ts_syntax *table(parser *p) {
  ts_syntax *made = node(p, TS_E_TABLE);
  want(p, "{");
  while (!p->bad && !at(p, "}")) {
    add(made, item(p));
    if (!take(p, ",") && !take(p, ";")) break;
  }
  want(p, "}");
  return done(p, made);
}

static void arguments(parser *p, ts_syntax *call) {
  if (p->now.kind == TS_T_STRING)
    add(call, string(p));
  else if (at(p, "{"))
    add(call, table(p));
  else {
    want(p, "(");
    if (!at(p, ")")) expressions(p, call);
    want(p, ")");
  }
}

static ts_syntax *index_of(parser *p, ts_syntax *object) {
  ts_syntax *key = whole(p), *made = around(p, TS_E_FIELD, object);
  want(p, "]");
  if (key->kind == TS_E_STRING)
    made->text = key->text;
  else
    made->kind = TS_E_INDEX, add(made, key);
  return made;
}

static ts_syntax *suffixed(parser *p, ts_syntax *it) {
  for (int links = 0; !p->bad; links++) {
    if (links > LINKS) p->bad = true;
    bool call = p->now.kind == TS_T_STRING || at(p, "{") || at(p, "(");
    if (take(p, ".")) {
      it = around(p, TS_E_FIELD, it);
      it->text = take_name(p);
    } else if (take(p, "[")) {
      it = index_of(p, it);
    } else if (take(p, ":")) {
      it = around(p, TS_E_METHOD, it);
      it->text = take_name(p);
      arguments(p, it);
    } else if (call) {
      it = around(p, TS_E_CALL, it);
      arguments(p, it);
    } else
      break;
    done(p, it);
  }
  return it;
}

static ts_syntax *primary(parser *p) {
  ts_syntax *made = node(p, TS_E_NAME);
  if (take(p, "(")) {
    made->kind = TS_E_PAREN;
    add(made, whole(p));
    want(p, ")");
  } else {
    made->text = take_name(p);
    made->local = meaning(p, made->text);
  }
  return suffixed(p, done(p, made));
}

static const struct {
  const char *word;
  ts_syntax_kind kind;
} plain[] = {{"nil", TS_E_NIL}, {"true", TS_E_TRUE}, {"false", TS_E_FALSE}};

static ts_syntax *simple(parser *p) {
  for (size_t i = 0; i < sizeof plain / sizeof *plain; i++) {
    if (!at(p, plain[i].word)) continue;
    ts_syntax *made = node(p, plain[i].kind);
    step(p);
    return done(p, made);
  }
  if (p->now.kind == TS_T_STRING) return string(p);
  if (at(p, "{")) return table(p);
  ts_syntax *made = node(p, TS_E_NUMBER);
  if (p->now.kind == TS_T_NUMBER) {
    made->text = ts_arena_copy_n(p->arena, p->now.start, p->now.length);
    step(p);
    return done(p, made);
  }
  if (!take(p, "function")) return primary(p);
  made->kind = TS_E_FUNCTION;
  return body(p, made);
}

static ts_syntax *unary(parser *p) {
  bool inverts = at(p, "not");
  if (!inverts && !at(p, "-") && !at(p, "#")) return simple(p);
  ts_syntax *made = node(p, inverts ? TS_E_NOT : TS_E_UNARY);
  made->text = inverts ? "not" : at(p, "-") ? "-" : "#";
  step(p);
  add(made, expression(p, 8));
  return done(p, made);
}

/* How strongly an operator binds to its left and to its right. */
static const struct {
  const char *word;
  int left, right;
  ts_syntax_kind kind;
} operators[] = {{"or", 1, 1, TS_E_OR},      {"and", 2, 2, TS_E_AND},    {"<", 3, 3, TS_E_COMPARE},
                 {">", 3, 3, TS_E_COMPARE},  {"<=", 3, 3, TS_E_COMPARE}, {">=", 3, 3, TS_E_COMPARE},
                 {"==", 3, 3, TS_E_COMPARE}, {"~=", 3, 3, TS_E_COMPARE}, {"..", 5, 4, TS_E_BINARY},
                 {"+", 6, 6, TS_E_BINARY},   {"-", 6, 6, TS_E_BINARY},   {"*", 7, 7, TS_E_BINARY},
                 {"/", 7, 7, TS_E_BINARY},   {"//", 7, 7, TS_E_BINARY},  {"%", 7, 7, TS_E_BINARY},
                 {"^", 10, 9, TS_E_BINARY}};
enum { OPERATORS = sizeof operators / sizeof *operators };

static ts_syntax *expression(parser *p, int limit) {
  ts_syntax *it = node(p, TS_E_NIL);
  if (p->bad || ++p->depth > DEPTH) return p->bad = true, it;
  it = unary(p);
  for (int links = 0; !p->bad; links++) {
    if (links > LINKS) p->bad = true;
    size_t i = 0;
    while (i < OPERATORS && !(at(p, operators[i].word) && operators[i].left > limit)) i++;
    if (i == OPERATORS) break;
    it = around(p, operators[i].kind, it);
    it->text = operators[i].word;
    step(p);
    add(it, expression(p, operators[i].right));
    done(p, it);
  }
  p->depth--;
  return it;
}

/* ---- statements ---------------------------------------------------------------------- */

static void inner_block(parser *p, ts_syntax *into) {
  scope *outside = p->names;
  add(into, block(p));
  p->names = outside;
}

static void read_if(parser *p, ts_syntax *made) {
  made->kind = TS_S_IF;
  do {
    add(made, whole(p));
    want(p, "then");
    inner_block(p, made);
  } while (take(p, "elseif"));
  if (take(p, "else")) inner_block(p, made);
  want(p, "end");
}

static void read_for(parser *p, ts_syntax *made) {
  scope *outside = p->names;
  made->kind = TS_S_FOR;
  made->locals = name_list(p);
  for (ts_local *l = made->locals; l; l = l->next) l->list = made;
  if (!take(p, "=")) want(p, "in");
  expressions(p, made);
  want(p, "do");
  declare(p, made->locals);
  add(made, block(p));
  want(p, "end");
  p->names = outside;
}

static void read_repeat(parser *p, ts_syntax *made) {
  scope *outside = p->names;
  made->kind = TS_S_REPEAT;
  add(made, block(p)); /* its locals are still known in the condition */
  want(p, "until");
  add(made, whole(p));
  p->names = outside;
}

static void read_local_function(parser *p, ts_syntax *made) {
  made->kind = TS_S_FUNCTION;
  made->locals = new_local(p, take_name(p));
  declare(p, made->locals);
  ts_syntax *function = node(p, TS_E_FUNCTION);
  made->locals->value = function;
  add(made, body(p, function));
}

static void read_local(parser *p, ts_syntax *made) {
  if (take(p, "function")) {
    read_local_function(p, made);
    return;
  }
  made->kind = TS_S_LOCAL;
  made->locals = name_list(p);
  if (take(p, "=")) expressions(p, made);
  ts_syntax *value = made->first;
  for (ts_local *l = made->locals; l && value; l = l->next, value = value->next) l->value = value;
  declare(p, made->locals);
}

/* function f() ... end: an assignment to what stands there. */
static void read_function(parser *p, ts_syntax *made) {
  made->kind = TS_S_ASSIGN;
  made->targets = 1;
  ts_syntax *target = node(p, TS_E_NAME);
  target->text = take_name(p);
  target->local = meaning(p, target->text);
  done(p, target);
  while (take(p, ".") || take(p, ":")) {
    target = around(p, TS_E_FIELD, target);
    target->text = take_name(p);
    done(p, target);
  }
  add(made, target);
  add(made, body(p, node(p, TS_E_FUNCTION)));
}

static void read_assignment(parser *p, ts_syntax *made) {
  made->kind = TS_S_CALL;
  do {
    ts_syntax *target = primary(p);
    add(made, target);
    made->targets++;
    if (target->kind == TS_E_NAME && target->local) target->local->assigned = true;
  } while (take(p, ","));
  bool call = made->first->kind == TS_E_CALL || made->first->kind == TS_E_METHOD;
  if (made->targets == 1 && call && !at(p, "=")) return;
  made->kind = TS_S_ASSIGN;
  want(p, "=");
  expressions(p, made);
}

static ts_syntax *statement(parser *p) {
  ts_syntax *made = node(p, TS_S_BREAK);
  if (take(p, "break")) return done(p, made);
  if (take(p, "if"))
    read_if(p, made);
  else if (take(p, "for"))
    read_for(p, made);
  else if (take(p, "repeat"))
    read_repeat(p, made);
  else if (take(p, "local"))
    read_local(p, made);
  else if (take(p, "function"))
    read_function(p, made);
  else if (take(p, "do")) {
    made->kind = TS_S_DO;
    inner_block(p, made);
    want(p, "end");
  } else if (take(p, "while")) {
    made->kind = TS_S_WHILE;
    add(made, whole(p));
    want(p, "do");
    inner_block(p, made);
    want(p, "end");
  } else
    read_assignment(p, made);
  return done(p, made);
}

static bool over(const parser *p) {
  return p->bad || p->now.kind == TS_T_END || at(p, "end") || at(p, "else") || at(p, "elseif") ||
         at(p, "until");
}

static ts_syntax *block(parser *p) {
  ts_syntax *made = node(p, TS_S_BLOCK);
  if (++p->depth > DEPTH) p->bad = true;
  while (!over(p)) {
    if (take(p, ";")) continue;
    if (!at(p, "return")) {
      add(made, statement(p));
      continue;
    }
    ts_syntax *leave = node(p, TS_S_RETURN);
    step(p);
    if (!over(p) && !at(p, ";")) expressions(p, leave);
    add(made, done(p, leave));
    take(p, ";");
    break;
  }
  p->depth--;
  return done(p, made);
}

ts_syntax *ts_syntax_read(ts_arena *arena, const char *file, const char *text, size_t length) {
  parser p = {.arena = arena, .file = file, .text = text, .lexer = ts_lexer_new(text, length)};
  p.now = ts_lexer_next(&p.lexer);
  p.next = ts_lexer_next(&p.lexer);
  ts_syntax *made = block(&p);
  return p.bad || p.now.kind != TS_T_END ? NULL : made;
}

/* ---- looking ------------------------------------------------------------------------ */

ts_syntax *ts_syntax_item(ts_syntax *table, const char *name) {
  for (ts_syntax *i = table->first; i; i = i->next)
    if (i->kind == TS_E_KEYED && i->first == i->last && ts_same(i->text, name)) return i->first;
  return NULL;
}

ts_syntax *ts_syntax_bare(ts_syntax *expression) {
  while (expression && expression->kind == TS_E_PAREN) expression = expression->first;
  return expression;
}
