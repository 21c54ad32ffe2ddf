/* Inside view of an assessment: built by assess/, written by document/.
 *
 * Everything here lives in the assessment's arena: what an evaluation says
 * holds only until the next one, so what is kept is copied. */
#ifndef TS_ASSESS_ASSESSMENT_H
#define TS_ASSESS_ASSESSMENT_H

#include "assess/matrix.h"
#include "base/arena.h"
#include "base/pool.h"
#include "rule/rule.h"
#include "tankside/assess.h"

/* An outcome with the decisions of its course on which it hangs. What a rule says of one subject
 * after another is the same but for a little: that is kept once for all of them. */
typedef struct {
  const ts_outcome *same; /* without what follows */
  const char *because, *because_withheld;
  const ts_shown *values;
  const uint32_t *facts;
  const ts_decision *decisions; /* the first same->decision_count of the course */
  uint32_t fact_count;
} ts_spoken;

ts_outcome ts_spoken_outcome(const ts_spoken *spoken);

/* When a finding stands so, stated on facts: "free chlorine above 1.8 mg/L". All clauses hold
 * together; none are needed where it always does. `where` and what follows say the same in parts,
 * for papers in other languages; NULL where there is only the text. */
typedef struct {
  const char *text, *withheld;
  const char
      *where; /* is, with, without (a choice); at, between, above, from, below, to, since, until */
  const char *low, *high; /* the value, or both where it is between them */
  uint32_t slot;
} ts_clause;

typedef struct {
  const ts_clause *clauses;
  uint32_t count;
  bool enough; /* with these it stands so, whatever else is open; else they are only needed */
} ts_condition;

/* One finding in one view, with what was said on its worst and best course. */
typedef struct {
  ts_standing standing;
  ts_duty_state duty;     /* duties */
  const ts_spoken *worst; /* NULL when no course says it */
  const ts_spoken *best;  /* of the mildest course that says it; hazards and duties */
} ts_case;

typedef struct ts_finding ts_finding;

/* ---- what would change it: everything here is with what is in place ------------------ */

/* How a finding stands, for comparing: hazards by their worst score (likelihood 0: not found),
 * duties by `duty`, the rest by `certainty`. Small: of each finding a good many are kept. */
typedef struct {
  uint32_t rank : 16, likelihood : 4, severity : 4;
  ts_certainty certainty : 2;
  ts_duty_state duty : 2;
} ts_stand;

/* Where the search for a margin begins, and which way it goes. */
typedef enum {
  TS_DOWN,     /* from the lowest value it may have now, downward */
  TS_UP,       /* from the highest, upward */
  TS_FROM_LOW, /* inside what it may be now, from the lowest upward */
  TS_FROM_HIGH /* inside, from the highest downward */
} ts_side_of;

/* The nearest value of a number at which a finding stands otherwise. */
typedef struct {
  uint32_t slot;
  ts_side_of side : 8;
  bool included; /* it already stands otherwise at the edge itself, not only beyond */
  double from;   /* SI: where the search began */
  double edge;   /* SI, rounded to what a reader can check: the change is here */
  double beyond; /* SI: as near to the edge as it was seen to stand otherwise */
  ts_stand then; /* beyond the edge; on the near side it stands as at `from` */
  ts_stand before;
} ts_margin;

/* How something else would stand, in few bits: there are more of these than of anything else. */
typedef struct {
  uint32_t of; /* the finding or the duty, by index; of what would be new the pair that says it */
  uint32_t rank : 16, likelihood : 4, severity : 4;
  ts_certainty certainty : 2;
  ts_duty_state duty : 2;
  ts_word word : 2;
  bool fresh : 1; /* it would be new */
} ts_shift;

/* The same, to be read. */
typedef struct {
  const ts_finding *finding; /* or duty; NULL: it would be new */
  uint32_t rule;
  ts_subject subject;
  ts_word word;
  ts_stand then;
} ts_shifted;

/* One change, and all that it does, whichever finding it is a way down for: that one is among what
 * gets better. In a season of tasks the same change is a way down for many. */
typedef struct {
  uint32_t number;    /* in the assessment's list, from 1 */
  uint32_t slot;      /* of the fact that is moved; TS_NO_SLOT: controls */
  ts_subject from;    /* whose fact it is, or where the controls would stand */
  uint32_t not_tried; /* rules over subjects that it touches and that were not tried: too many */
  const ts_value *value;         /* what the fact moves to: the nearest that is enough */
  const ts_control *controls[2]; /* the second may be NULL */
  const ts_shift *shifts;        /* what gets better, then what gets worse */
  uint32_t better_count, worse_count;
} ts_elsewhere;

/* One way to bring a finding below the line: a fact moved, or one or two controls more. */
typedef struct {
  const ts_elsewhere *does; /* the change, and what else it does */
  ts_stand then;
  bool edge_included; /* numbers: the value itself is enough; else only what is beyond it */
  bool upward;        /* numbers: it must be raised */
} ts_way;

#define TS_NO_SLOT UINT32_MAX

/* The fewest controls of the catalogue that bring every finding of a task below the line; where
 * some stay above it whatever is added, every other. */
typedef struct {
  ts_subject task;
  bool none;   /* no set brings all below: `left` stay above with everything that bears on them */
  bool fewest; /* no smaller set was found to do; else it is enough, but fewer might do */
  const ts_control *const *controls;
  size_t control_count;
  const size_t *left; /* findings, by index */
  size_t left_count;
} ts_remedy;

struct ts_finding {
  uint32_t rule; /* index in the packs */
  ts_subject subject;
  const char *about; /* "" where the rule says nothing */
  ts_case view[TS_VIEWS];
  const ts_waiver *waiver; /* a valid one that covers it, or NULL */
  ts_condition when_worst, when_best; /* in place, where it is not settled */
  const ts_margin *margins;           /* nearest first, by how much of the plausible range */
  ts_way *ways; /* where it stands above the line: moves, then controls, then pairs */
  uint32_t margin_count, way_count, move_count; /* the moves come first */
  char id[12];
  ts_word word : 8;
  bool too_open; /* margins and most ways were not searched for: too much is not known, or there is
                    too much of it */
};

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

/* One rule over one subject, and the slots it read with what is in place, ascending. */
typedef struct {
  uint32_t rule;
  ts_subject subject;
  const uint32_t *reads;
  uint32_t read_count, courses;
} ts_pair;

/* One rule over one subject, as it was asked in all three views: for an assessment that comes
 * after (assess/reuse.h). */
typedef struct {
  size_t rule;
  ts_subject subject;
  const uint32_t *reads; /* slots read in any view, ascending */
  size_t read_count;
  const uint32_t *rests; /* those of them on which an outcome rests */
  size_t rest_count;
  bool applied, found;  /* as described */
  bool failed;          /* in some view */
  const ts_skip *skip;  /* where it does not apply and that was put into words, else NULL */
} ts_asked;

/* With more courses than this too much is open for margins and for ways down that search: asking
 * comes first, and says more. */
enum { TS_COURSES_SEARCHED = 24 };

typedef struct {
  const char *rule, *subject; /* subject: path, or NULL */
  const char *text;
} ts_failure;

/* A fact that is not known or wide, the findings that rest on it ("F1 F7 D2"), and what an
 * answer is worth. Scores are likelihood times severity of the worst in place, added over
 * all hazards; a stop counts as the worst there is. */
typedef struct {
  uint32_t slot;
  const char *findings;
  int removes;    /* taken away by the answer that takes most away */
  int middle;     /* by one in the middle, or by choices on average */
  ts_value best;  /* that answer */
  double settles; /* share of the findings open now that an answer settles: best and middling */
} ts_open_fact;

struct ts_assessment {
  ts_arena *arena;
  ts_pool *pool; /* of what a worker puts into its arena; the whole has none */
  ts_assess_inputs in;
  ts_finding *findings; /* ordered as in the document */
  size_t finding_count, finding_capacity;
  ts_finding *duties;
  size_t duty_count, duty_capacity;
  ts_look *looks; /* one a rule */
  ts_pair *pairs; /* that did not fail, ordered by subject, then rule */
  size_t pair_count, pair_capacity;
  ts_asked *asked; /* ordered as the pairs; only where in.for_next is set */
  size_t asked_count, asked_capacity;
  size_t taken_over; /* rules over subjects that an earlier assessment had asked */
  ts_failure *failures;
  size_t failure_count, failure_capacity;
  bool *read;          /* by slot: some outcome rests on it */
  const char **labels; /* by subject: what people call it */
  ts_open_fact *open;  /* what takes most away first */
  size_t open_count;
  const ts_elsewhere **elsewhere; /* what the ways down do */
  size_t elsewhere_count;
  const ts_remedy *remedies; /* one for each task with something above the line */
  size_t remedy_count;
  ts_summary summary;
};

/* The view whose words are printed: the first, from as described on, in which it is said. */
ts_view ts_finding_speaks(const ts_finding *finding);
/* What is said there: never NULL for a finding that is kept. */
const ts_spoken *ts_finding_said(const ts_finding *finding);
ts_outcome ts_finding_outcome(const ts_finding *finding);

ts_shifted ts_shift_read(const ts_assessment *assessment, const ts_shift *shift);

/* "hazard", "duty", "stop", "note"; "met", "open", "not-met". */
const char *ts_word_name(ts_word word);
const char *ts_duty_name(ts_duty_state state);

#endif
