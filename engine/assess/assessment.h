/* Inside view of an assessment: built by assess/, written by document/.
 *
 * Everything here lives in the assessment's arena: what an evaluation says
 * holds only until the next one, so what is kept is copied. */
#ifndef TS_ASSESS_ASSESSMENT_H
#define TS_ASSESS_ASSESSMENT_H

#include "assess/matrix.h"
#include "base/arena.h"
#include "rule/rule.h"
#include "tankside/assess.h"

/* An outcome with the decisions of its course on which it hangs. */
typedef struct {
  ts_outcome outcome;
  const ts_decision *decisions; /* the first outcome.decision_count of the course */
} ts_spoken;

/* One finding in one view, with what was said on its worst and best course. */
typedef struct {
  ts_standing standing;
  ts_duty_state duty;     /* duties */
  const ts_spoken *worst; /* NULL when no course says it */
  const ts_spoken *best;  /* of the mildest course that says it; hazards and duties */
} ts_case;

typedef struct {
  size_t rule; /* index in the packs */
  ts_subject subject;
  ts_word word;
  const char *about; /* "" where the rule says nothing */
  ts_case view[TS_VIEWS];
  const ts_waiver *waiver; /* a valid one that covers it, or NULL */
  char id[24];
} ts_finding;

/* A subject to which a rule does not apply, and what decided that. */
typedef struct {
  ts_subject subject;
  const char *because, *withheld;
} ts_skip;

enum { TS_SKIPS_SHOWN = 5 };

/* How one rule went over all its subjects, as described. */
typedef struct {
  size_t subjects, applied, found;
  size_t skipped; /* may be more than are kept */
  ts_skip skips[TS_SKIPS_SHOWN];
} ts_look;

typedef struct {
  const char *rule, *subject; /* subject: path, or NULL */
  const char *text;
} ts_failure;

/* A fact not known, and the findings that rest on it: "F1 F7 D2". */
typedef struct {
  uint32_t slot;
  const char *findings;
} ts_open_fact;

struct ts_assessment {
  ts_arena *arena;
  ts_assess_inputs in;
  ts_finding *findings; /* ordered as in the document */
  size_t finding_count, finding_capacity;
  ts_finding *duties;
  size_t duty_count, duty_capacity;
  ts_look *looks; /* one a rule */
  ts_failure *failures;
  size_t failure_count, failure_capacity;
  bool *read;          /* by slot: some outcome rests on it */
  const char **labels; /* by subject: what people call it */
  ts_open_fact *open;
  size_t open_count;
  ts_summary summary;
};

/* The view whose words are printed: the first, from as described on, in which it is said. */
ts_view ts_finding_speaks(const ts_finding *finding);
/* What is said there: never NULL for a finding that is kept. */
const ts_spoken *ts_finding_said(const ts_finding *finding);

/* "hazard", "duty", "stop", "note"; "met", "open", "not-met". */
const char *ts_word_name(ts_word word);
const char *ts_duty_name(ts_duty_state state);

#endif
