/* A first rule: what it is to be, from the command line or asked for. */
#ifndef TS_COMMAND_RULES_NEW_H
#define TS_COMMAND_RULES_NEW_H

#include "command/command.h"

/* All in words, as a person gives them. */
typedef struct {
  const char *id;           /* "ledge.too-deep" */
  const char *path;         /* "immersion.depth" */
  const char *how, *value;  /* "above", "3 m" */
  const char *title, *harm; /* NULL: what stands for them until somebody knows better */
  int likelihood, severity;
  const char *controls; /* ids with commas between, or "" */
  const char *out;      /* the file; "-" is standard output */
} rule_wish;

/* The fact of a path like "immersion.depth", or NULL with a message. */
const ts_fact_def *rule_fact(const ts_session *session, const char *path);
/* Whether a rule can be made of it; what is wrong is said at once. Its default title too. */
bool rule_wish_good(ts_session *session, const rule_wish *wish, const char **title);
/* Whether it is an id for a rule, with a message where it is not. */
bool rule_id_good(const char *id);
/* Numbers and counts are compared; yes/no and choices are. */
bool rule_fact_is_number(const ts_fact_def *fact);

/* Asks for all of it, one line each: questions on standard error, answers from standard input.
 * An empty answer takes what stands in brackets, "?" explains. False where it was given up. */
bool rules_ask(ts_session *session, rule_wish *wish);

#endif
