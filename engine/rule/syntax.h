/* A rule file as a tree: what `rules check` looks at without running anything.
 *
 * Names are bound to the local they mean; a name without one is a global. The tree keeps where
 * each part begins and ends in the text, so that the text can be written again with marks in it. */
#ifndef TS_RULE_SYNTAX_H
#define TS_RULE_SYNTAX_H

#include "base/arena.h"
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef enum {
  TS_S_BLOCK,  /* statements */
  TS_S_LOCAL,  /* its values; `locals` */
  TS_S_ASSIGN, /* what is assigned to (`targets` of them), then the values */
  TS_S_CALL,   /* a call */
  TS_S_IF,     /* condition, block, condition, block ..., block of the else */
  TS_S_WHILE,  /* condition, block */
  TS_S_REPEAT, /* block, condition */
  TS_S_FOR,    /* expressions, block; `locals` */
  TS_S_DO,     /* block */
  TS_S_RETURN, /* values */
  TS_S_BREAK,
  TS_S_FUNCTION, /* `local function`: the function; `locals` has its name */
  TS_E_NIL,      /* expressions, from here on */
  TS_E_TRUE,
  TS_E_FALSE,
  TS_E_NUMBER,
  TS_E_STRING,
  TS_E_FUNCTION, /* block; `locals` are its parameters */
  TS_E_NAME,
  TS_E_FIELD,  /* object; `text` is the name: a.b, a["b"] */
  TS_E_INDEX,  /* object, key */
  TS_E_CALL,   /* callee, arguments */
  TS_E_METHOD, /* object, arguments; `text` is the name */
  TS_E_AND,
  TS_E_OR,
  TS_E_NOT,
  TS_E_COMPARE, /* two sides; `text` is the operator */
  TS_E_BINARY,
  TS_E_UNARY,
  TS_E_TABLE, /* items */
  TS_E_ITEM,  /* a list member: its value */
  TS_E_KEYED, /* name = value: its value, `text` is the name; [key] = value: key, value */
  TS_E_PAREN
} ts_syntax_kind;

typedef struct ts_syntax ts_syntax;

typedef struct ts_local {
  const char *name;
  ts_syntax *value;      /* what it begins as, or NULL */
  ts_syntax *list;       /* a loop's variable: the loop; with `place` 1 for the member */
  unsigned place;        /* among the names declared together, from 0 */
  bool assigned;         /* later, to something else */
  void *mark;            /* for whoever walks the tree */
  struct ts_local *next; /* declared together */
} ts_local;

struct ts_syntax {
  ts_syntax_kind kind;
  const char *text; /* a name, the words of a string, an operator, a number as written */
  size_t from, to;  /* bytes of the text: [from, to) */
  const char *file; /* "common/air.lua" */
  int line, column;
  ts_syntax *first, *last, *next;
  ts_local *local; /* of a NAME: what it means; NULL is a global */
  ts_local *locals;
  size_t targets;
  uint32_t number; /* for whoever walks the tree; 0 at first */
};

/* The block of the file, or NULL where it is not Lua (which says so when it is loaded). */
ts_syntax *ts_syntax_read(ts_arena *arena, const char *file, const char *text, size_t length);

/* The value of a table's item with this name, or NULL. */
ts_syntax *ts_syntax_item(ts_syntax *table, const char *name);
/* Without the brackets around it. */
ts_syntax *ts_syntax_bare(ts_syntax *expression);

#endif
