#include "rule/lexer.h"

#include <string.h>

/* As Lua has it, whatever the locale. */
static bool is_blank(char c) { return c == ' ' || (c >= '\t' && c <= '\r'); }
static bool is_decimal(char c) { return c >= '0' && c <= '9'; }
static bool is_wordly(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || is_decimal(c) || c == '_';
}

ts_lexer ts_lexer_new(const char *text, size_t length) {
  return (ts_lexer){.at = text, .end = text + length, .line_start = text, .line = 1};
}

static void count_line(ts_lexer *lex) {
  lex->line++;
  lex->line_start = lex->at + 1;
}

/* The number of '=' of a long bracket that opens at `at`, or -1. */
static int long_level(const ts_lexer *lex, const char *at) {
  const char *p = at + 1;
  while (p < lex->end && *p == '=') p++;
  return p < lex->end && *at == '[' && *p == '[' ? (int)(p - at - 1) : -1;
}

static void skip_long(ts_lexer *lex, int level) {
  lex->at += level + 2;
  for (; lex->at < lex->end; lex->at++) {
    if (*lex->at == '\n') count_line(lex);
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

static void skip_comment(ts_lexer *lex) {
  lex->at += 2;
  int level = lex->at < lex->end && *lex->at == '[' ? long_level(lex, lex->at) : -1;
  if (level >= 0) {
    skip_long(lex, level);
    return;
  }
  const char *newline = memchr(lex->at, '\n', (size_t)(lex->end - lex->at));
  lex->at = newline ? newline : lex->end;
}

static void skip_blank(ts_lexer *lex) {
  while (lex->at < lex->end) {
    if (*lex->at == '\n') count_line(lex);
    if (is_blank(*lex->at))
      lex->at++;
    else if (*lex->at == '-' && lex->at + 1 < lex->end && lex->at[1] == '-')
      skip_comment(lex);
    else
      return;
  }
}

/* The next place, up to the end, where one of the characters stands. */
static const char *next_of(const ts_lexer *lex, const char *characters) {
  if (lex->at >= lex->end) return lex->end;
  const char *at = lex->at + strcspn(lex->at, characters);
  return at < lex->end ? at : lex->end;
}

static void skip_string(ts_lexer *lex) {
  const char *stops = *lex->at == '"' ? "\"\n\\" : "'\n\\";
  for (lex->at++;; lex->at++) {
    lex->at = next_of(lex, stops);
    if (lex->at >= lex->end || *lex->at != '\\') break;
    if (++lex->at < lex->end && *lex->at == '\n') count_line(lex);
  }
  if (lex->at < lex->end) lex->at++;
  if (lex->at > lex->end) lex->at = lex->end;
}

/* ... == ~= <= >= // :: << >> .. and single ones. */
static void skip_symbol(ts_lexer *lex) {
  char first = *lex->at++;
  char second = lex->at < lex->end ? *lex->at : ' ';
  bool doubled = second == first && strchr("=/:<>.", first);
  if (!doubled && !(second == '=' && strchr("~<>", first))) return;
  lex->at++;
  if (first == '.' && lex->at < lex->end && *lex->at == '.') lex->at++;
}

static bool is_digit(const ts_lexer *lex, const char *at) {
  return at < lex->end && is_decimal(*at);
}

/* 12, 0x1F, 1.5, .5, 2e-3; "1..2" is a number, a join and a number. */
static void skip_number(ts_lexer *lex) {
  const char *p = lex->at;
  bool hex = p + 1 < lex->end && *p == '0' && (p[1] == 'x' || p[1] == 'X');
  for (; p < lex->end; p++) {
    bool sign = *p == '-' || *p == '+';
    bool exponent = sign && !hex && p > lex->at && (p[-1] == 'e' || p[-1] == 'E');
    bool point = *p == '.' && !(p + 1 < lex->end && p[1] == '.');
    if (!is_wordly(*p) && !point && !exponent) break;
  }
  lex->at = p;
}

static void skip_name(ts_lexer *lex) {
  const char *at = lex->at;
  while (at < lex->end && is_wordly(*at)) at++;
  lex->at = at;
}

ts_token ts_lexer_next(ts_lexer *lex) {
  skip_blank(lex);
  ts_token t = {TS_T_END, lex->at, 0, lex->line, (int)(lex->at - lex->line_start) + 1};
  if (lex->at >= lex->end) return t;
  char c = *lex->at;
  int level = c == '[' ? long_level(lex, lex->at) : -1;
  if (c == '"' || c == '\'')
    t.kind = TS_T_STRING, skip_string(lex);
  else if (level >= 0)
    t.kind = TS_T_STRING, skip_long(lex, level);
  else if (is_digit(lex, lex->at) || (c == '.' && is_digit(lex, lex->at + 1)))
    t.kind = TS_T_NUMBER, skip_number(lex);
  else if (is_wordly(c))
    t.kind = TS_T_NAME, skip_name(lex);
  else
    t.kind = TS_T_SYMBOL, skip_symbol(lex);
  t.length = (size_t)(lex->at - t.start);
  return t;
}

char ts_lexer_mark(ts_lexer *lex) {
  for (;;) {
    lex->at = next_of(lex, "-\"'[({])},;");
    if (lex->at >= lex->end) return '\0';
    char c = *lex->at;
    int level = c == '[' ? long_level(lex, lex->at) : -1;
    if (c == '"' || c == '\'')
      skip_string(lex);
    else if (level >= 0)
      skip_long(lex, level);
    else if (c == '-' && lex->at + 1 < lex->end && lex->at[1] == '-')
      skip_comment(lex);
    else if (lex->at++, c != '-')
      return c;
  }
}
