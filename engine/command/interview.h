/* Questions of `tankside new`: one element of the dossier after another, with what the file of
 * stages says is to be asked. */
#ifndef TS_COMMAND_INTERVIEW_H
#define TS_COMMAND_INTERVIEW_H

#include "command/line.h"
#include "command/stages.h"

enum { SHOWN_MAX = 256 };

/* ENDED: there are no more of these. AGAIN: this part again; BACK: the one it is in. OVER: there
 * are no more answers. */
typedef enum { TAKEN, ENDED, AGAIN, BACK, OVER } outcome;

typedef struct {
  ts_session *s;
  line_reader *reader;
  stages stages;
  xmlNode *draft; /* <dossier> as far as it has been answered */
  const char *path;
  size_t asked, answered;
  const ts_fact_def *shown[SHOWN_MAX]; /* facts asked for before */
  size_t shown_count;
} newcomer;

/* An attribute of an element: looked up, put. */
const char *new_value(const newcomer *n, const xmlNode *node, const char *name);
void new_put(xmlNode *node, const char *name, const char *value);
/* Whether a fact of it is not to be written. */
bool new_left_out(const newcomer *n, const xmlNode *node, const char *fact);

/* Says at once what was wrong, and begins a clean sheet. */
void new_say_problems(const newcomer *n);
/* The next answer that can stand in a file; NULL where there is none. */
const char *new_answer(newcomer *n, const char *prompt);
/* Asks what is to be asked of an element and those in it; `of` is what it is called, or NULL.
 * `may_end`: an empty first answer says that there is no such thing. */
outcome new_interview(newcomer *n, xmlNode *node, const char *of, bool may_end);

#endif
