/* The words of a rule file, one after another: for the lint and for the tree. */
#ifndef TS_RULE_LEXER_H
#define TS_RULE_LEXER_H

#include <stdbool.h>
#include <stddef.h>
#include <string.h>

typedef enum { TS_T_END, TS_T_NAME, TS_T_NUMBER, TS_T_STRING, TS_T_SYMBOL } ts_token_kind;

/* A token lies in the text it is read from; `line` and `column` are where it begins, from 1. */
typedef struct {
  ts_token_kind kind;
  const char *start;
  size_t length;
  int line, column;
} ts_token;

typedef struct {
  const char *at, *end, *line_start;
  int line;
} ts_lexer;

/* Of a text in which a NUL stands nowhere before `length`, and there or later somewhere. */
ts_lexer ts_lexer_new(const char *text, size_t length);
/* The next token; of kind TS_T_END where the text is over. Comments and blanks are left out. */
ts_token ts_lexer_next(ts_lexer *lexer);
/* Goes over names, numbers, strings and comments to the next bracket ( [ { } ] ) or comma or semicolon, and gives it,
 * with the lexer behind it; NUL where there is none. Many times as fast as going by tokens; lines are not counted. */
char ts_lexer_mark(ts_lexer *lexer);
/* A name, a number or a symbol that reads so; strings never do. Asked dozens of times a token: so here, and
 * with the length of `text`, which is known where this is compiled. */
static inline bool ts_token_is(const ts_token *token, const char *text) {
  size_t length = strlen(text);
  return token->length == length && token->kind != TS_T_STRING && !memcmp(token->start, text, length);
}

#endif
