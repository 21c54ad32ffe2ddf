/* A declared Lua table being read field by field: every field known, of its type, and
 * present where it must be. Inside of the packs. */
#ifndef TS_RULE_FORM_H
#define TS_RULE_FORM_H

#include "rule/packs_int.h"

typedef struct {
  ts_packs *packs;
  lua_State *L;
  ts_diagnostics *problems;
  const char *word, *file; /* "rule"; "common/air.lua" */
  int line;
  int body; /* stack index of the declared table */
  bool good;
} ts_form;

/* What is wrong goes to the problems, with the form's file and line, and it is good no more. */
void ts_form_report(ts_form *f, const char *format, ...) __attribute__((format(printf, 2, 3)));
void ts_form_wrong(ts_form *f, const char *name, const char *expected);

/* The text on the top of the stack as a rule file may declare one, copied; else NULL: no text, an
 * empty one, one over 4096 bytes or with what is not to be printed, which is reported. */
const char *ts_form_top(ts_form *f, const char *name);

/* Fields of the table at a stack index. Texts are copied into the packs' arena; NULL, `otherwise`
 * where there is none. */
const char *ts_form_text(ts_form *f, int table, const char *name, bool required);
int ts_form_number(ts_form *f, int table, const char *name, int lo, int hi, int otherwise);

/* Reports every field that is none of these. */
void ts_form_known(ts_form *f, int table, const char *const *names, size_t count);
#define TS_FORM_KNOWN(f, table, names) ts_form_known(f, table, names, sizeof(names) / sizeof *(names))

/* An id: lower-case letters, digits, '.', '-' and '_', so that no two look alike. */
const char *ts_form_id(ts_form *f, const char *name);

/* The folder and the file in it that the form's file names; both in the packs' arena. */
const char *ts_form_pack(const ts_form *f);
const char *ts_form_file(const ts_form *f);

/* ---- what a later pack may make stricter: amend.c ---------------------------- */

/* The limits a rule declares. */
void ts_form_limits(ts_form *f, ts_rule *rule);
/* tighten { rule = , limit = , to = , because = } */
void ts_form_tighten(ts_form *f);
/* raise { rule = , likelihood = , severity = , because = } */
void ts_form_raise(ts_form *f);

#endif
