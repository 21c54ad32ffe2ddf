#include "rule/lint.h"

#include <ctype.h>
#include <string.h>

typedef enum { T_END, T_NAME, T_NUMBER, T_STRING, T_SYMBOL } token_kind;

typedef struct {
  token_kind kind;
  const char *start;
  size_t length;
  int line;
} token;

typedef struct {
  const char *at, *end;
  int line;
  const char *name;
  ts_diagnostics *problems;
  int bracket[64]; /* how deep in [ ] each open ( [ { stands */
  int depth;
  bool good;
} lexer;

static bool is(const token *t, const char *text) {
  return t->kind != T_STRING && t->length == strlen(text) && !memcmp(t->start, text, t->length);
}

static void refuse(lexer *lex, int line, const char *text) {
  ts_report(lex->problems, TS_ERROR, lex->name, line, "%s", text);
  lex->good = false;
}

/* The number of '=' of a long bracket that opens at `at`, or -1. */
static int long_level(const lexer *lex, const char *at) {
  const char *p = at + 1;
  while (p < lex->end && *p == '=') p++;
  return p < lex->end && *at == '[' && *p == '[' ? (int)(p - at - 1) : -1;
}

static void skip_long(lexer *lex, int level) {
  lex->at += level + 2;
  for (; lex->at < lex->end; lex->at++) {
    if (*lex->at == '\n') lex->line++;
    if (*lex->at != ']') continue;
    const char *p = lex->at + 1;
    int n = 0;
    while (p < lex->end && *p == '=') p++, n++;
    if (n == level && p < lex->end && *p == ']') {
      lex->at = p + 1;
      return;
    }
  }
}

static void skip_comment(lexer *lex) {
  lex->at += 2;
  int level = lex->at < lex->end && *lex->at == '[' ? long_level(lex, lex->at) : -1;
  if (level >= 0) {
    skip_long(lex, level);
    return;
  }
  while (lex->at < lex->end && *lex->at != '\n') lex->at++;
}

static void skip_blank(lexer *lex) {
  while (lex->at < lex->end) {
    if (*lex->at == '\n') lex->line++;
    if (isspace((unsigned char)*lex->at)) lex->at++;
    else if (*lex->at == '-' && lex->at + 1 < lex->end && lex->at[1] == '-') skip_comment(lex);
    else return;
  }
}

static void skip_string(lexer *lex) {
  char quote = *lex->at++;
  while (lex->at < lex->end && *lex->at != quote && *lex->at != '\n') lex->at += *lex->at == '\\' ? 2 : 1;
  if (lex->at < lex->end) lex->at++;
  if (lex->at > lex->end) lex->at = lex->end;
}

static const char *const symbols[] = {"...", "==", "~=", "<=", ">=", "//", "::", "<<", ">>", ".."};

static void skip_symbol(lexer *lex) {
  for (size_t i = 0; i < sizeof symbols / sizeof *symbols; i++) {
    size_t n = strlen(symbols[i]);
    if ((size_t)(lex->end - lex->at) >= n && !memcmp(lex->at, symbols[i], n)) {
      lex->at += n;
      return;
    }
  }
  lex->at++;
}

static bool word_character(char c) { return isalnum((unsigned char)c) || c == '_'; }

static token next(lexer *lex) {
  skip_blank(lex);
  token t = {T_END, lex->at, 0, lex->line};
  if (lex->at >= lex->end) return t;
  char c = *lex->at;
  int level = c == '[' ? long_level(lex, lex->at) : -1;
  if (c == '"' || c == '\'') t.kind = T_STRING, skip_string(lex);
  else if (level >= 0) t.kind = T_STRING, skip_long(lex, level);
  else if (word_character(c)) {
    t.kind = isdigit((unsigned char)c) ? T_NUMBER : T_NAME;
    while (lex->at < lex->end && (word_character(*lex->at) || (t.kind == T_NUMBER && *lex->at == '.' && lex->at[1] != '.'))) lex->at++;
  } else t.kind = T_SYMBOL, skip_symbol(lex);
  t.length = (size_t)(lex->at - t.start);
  return t;
}

static bool settled_operand(const token *t) {
  return t->kind == T_STRING || is(t, "nil") || is(t, "true") || is(t, "false");
}

static void check_equality(lexer *lex, const token *before, const token *op, const token *after) {
  if (!is(op, "==") && !is(op, "~=")) return;
  if (settled_operand(before) || settled_operand(after)) return;
  refuse(lex, op->line, "\"==\" and \"~=\" are only for a string, nil, true or false; compare quantities with < and >, subjects with same(a, b)");
}

static void check_brackets(lexer *lex, const token *t) {
  bool opens = is(t, "[") || is(t, "(") || is(t, "{");
  bool closes = is(t, "]") || is(t, ")") || is(t, "}");
  if (opens && lex->depth < 63) lex->bracket[++lex->depth] = is(t, "[");
  if (closes && lex->depth > 0) lex->depth--;
  bool compares = is(t, "<") || is(t, ">") || is(t, "<=") || is(t, ">=");
  if (compares && lex->bracket[lex->depth])
    refuse(lex, t->line, "no comparison inside [ ]: put it in a local first");
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

static void check_word(lexer *lex, const token *before, const token *t) {
  for (size_t i = 0; i < sizeof refused / sizeof *refused; i++)
    if (is(t, refused[i].word)) refuse(lex, t->line, refused[i].why);
  bool attribute = is(before, "<") && (is(t, "close") || is(t, "const"));
  if (attribute) refuse(lex, t->line, "<close> and <const> are not for rules");
}

bool ts_lint(const char *text, size_t length, const char *name, ts_diagnostics *problems) {
  lexer lex = {.at = text, .end = text + length, .line = 1, .name = name, .problems = problems, .good = true};
  if (length > TS_RULE_FILE_LIMIT) return refuse(&lex, 0, "the rule file is over 64 KiB: split it"), false;
  if (memchr(text, 0, length)) return refuse(&lex, 0, "the rule file holds a NUL byte: only Lua text is read"), false;
  token before = {T_END, text, 0, 1}, t = next(&lex);
  while (t.kind != T_END) {
    token after = next(&lex);
    check_equality(&lex, &before, &t, &after);
    check_brackets(&lex, &t);
    check_word(&lex, &before, &t);
    before = t;
    t = after;
  }
  return lex.good;
}
