#include "rule/lint.h"

#include "base/text.h"
#include "rule/scopes.h"
#include <string.h>

typedef struct {
  const char *name;
  ts_diagnostics *problems;
  int bracket[64]; /* how deep in [ ] each open ( [ { stands */
  int depth;
  bool good;
} lint;

static void refuse(lint *l, int line, const char *text) {
  ts_report(l->problems, TS_ERROR, l->name, line, "%s", text);
  l->good = false;
}

static bool settled_operand(const ts_token *t) {
  return t->kind == TS_T_STRING || ts_token_is(t, "nil") || ts_token_is(t, "true") || ts_token_is(t, "false");
}

static void check_equality(lint *l, const ts_token *before, const ts_token *op, const ts_token *after) {
  if (!ts_token_is(op, "==") && !ts_token_is(op, "~=")) return;
  if (settled_operand(before) || settled_operand(after)) return;
  refuse(l, op->line, "\"==\" and \"~=\" are only for a string, nil, true or false; compare quantities with < and >, subjects with same(a, b)");
}

static void check_brackets(lint *l, const ts_token *t) {
  switch (*t->start) {
  case '[': case '(': case '{':
    if (l->depth < 63) l->bracket[++l->depth] = *t->start == '[';
    break;
  case ']': case ')': case '}':
    if (l->depth > 0) l->depth--;
    break;
  case '<': case '>':
    if (l->bracket[l->depth] && !ts_token_is(t, "<<") && !ts_token_is(t, ">>"))
      refuse(l, t->line, "no comparison inside [ ]: put it in a local first");
  }
}

static const struct {
  const char *word, *why;
} refused[] = {
    {"goto", "\"goto\" is not for rules"},
    {"::", "labels are not for rules"},
    {"_ENV", "\"_ENV\" is not for rules"},
    {"_G", "\"_G\" is not for rules"},
    {"&", "bitwise operators are not for rules"},
    {"|", "bitwise operators are not for rules"},
    {"<<", "bitwise operators are not for rules"},
    {">>", "bitwise operators are not for rules"},
    {"~", "bitwise operators are not for rules"},
    {"...", "\"...\" is not for rules"},
};

static void check_assigned(lint *l, const ts_token *name) {
  if (!name) return;
  ts_report(l->problems, TS_ERROR, l->name, name->line,
            "\"%.*s\" belongs to what is around this function: one evaluation leaves nothing behind for the next; "
            "declare it local here", (int)(name->length < 64 ? name->length : 64), name->start);
  l->good = false;
}

/* Whether one of them begins so: nearly no word of a file does. */
static bool may_be_refused(char first) {
  switch (first) {
  case 'g': case '_': case ':': case '&': case '|': case '<': case '>': case '~': case '.': return true;
  default: return false;
  }
}

static void check_word(lint *l, const ts_token *before, const ts_token *t) {
  for (size_t i = 0; may_be_refused(*t->start) && i < sizeof refused / sizeof *refused; i++)
    if (ts_token_is(t, refused[i].word)) refuse(l, t->line, refused[i].why);
  bool attribute = ts_token_is(before, "<") && (ts_token_is(t, "close") || ts_token_is(t, "const"));
  if (attribute) refuse(l, t->line, "<close> and <const> are not for rules");
}

/* What is read must be what is run: no bytes that an editor hides, turns round or guesses at. */
static void check_bytes(lint *l, const char *text, size_t length) {
  int line = 1;
  for (const char *end = text + length; text < end; line++) {
    const char *newline = memchr(text, '\n', (size_t)(end - text)), *stop = newline ? newline : end;
    const char *trouble = ts_text_trouble(text, (size_t)(stop - text));
    if (trouble) {
      ts_report(l->problems, TS_ERROR, l->name, line, "the line holds %s", trouble);
      l->good = false;
    }
    text = stop + 1;
  }
}

bool ts_lint(const char *text, size_t length, const char *name, ts_diagnostics *problems) {
  lint l = {.name = name, .problems = problems, .good = true};
  if (length > TS_RULE_FILE_LIMIT) return refuse(&l, 0, "the rule file is over 64 KiB: split it"), false;
  if (memchr(text, 0, length)) return refuse(&l, 0, "the rule file holds a NUL byte: only Lua text is read"), false;
  check_bytes(&l, text, length);
  ts_lexer lexer = ts_lexer_new(text, length);
  ts_scopes *scopes = ts_scopes_new();
  ts_token before = {TS_T_END, text, 0, 1, 1}, t = ts_lexer_next(&lexer);
  while (t.kind != TS_T_END) {
    ts_token after = ts_lexer_next(&lexer);
    if (t.kind == TS_T_SYMBOL) {
      check_equality(&l, &before, &t, &after);
      check_brackets(&l, &t);
    }
    if (t.kind == TS_T_SYMBOL || t.kind == TS_T_NAME) check_word(&l, &before, &t);
    check_assigned(&l, ts_scopes_take(scopes, &t));
    before = t;
    t = after;
  }
  ts_scopes_free(scopes);
  return l.good;
}
