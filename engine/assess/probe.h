/* Trying: how findings would stand if something were otherwise.
 *
 * A probe holds a variant of the dossier and what is needed to run single rules over single
 * subjects of it again, as with what is in place. Margins, ways down, questions and
 * conditions are all made of such tries, so each says what an assessment of the
 * dossier with that change in it would say. */
#ifndef TS_ASSESS_PROBE_H
#define TS_ASSESS_PROBE_H

#include "assess/tally.h"

/* A finding or duty of a pair, by index. */
typedef struct {
  uint32_t index;
  bool duty;
} ts_said_at;

typedef struct {
  const ts_assessment *a;
  ts_dossier *variant;
  ts_assess_inputs in; /* the assessment's, with the variant */
  ts_evaluator *evaluator;
  bool own;        /* the evaluator is freed with the probe */
  ts_arena *arena; /* for as long as the probe lives */
  ts_laid *laid;   /* what is in place */
  ts_effect *room; /* what is tried on top of it */
  size_t room_size;
  size_t applied; /* how many controls the dossier applies: those above are being tried */
  ts_tallies tallies;
  const ts_evaluation *evaluation; /* of the last try */
  uint32_t *pairs_of, *pairs_from; /* by slot: the pairs that read it; one more at the end */
  ts_said_at *said;                /* what each pair said in any view */
  uint32_t *said_from;             /* by pair; one more at the end */
  ts_pool *pool;         /* of lists of controls */
  const ts_control *const **bearing; /* by finding: those that could bear on it, ended by NULL; NULL
                                        until asked for */
  size_t spent, allowed; /* courses run in tries, and how many may be */
} ts_probe;

/* With an evaluator of the same packs that nobody else uses meanwhile, or NULL for one of its own.
 * `like` is another probe of the same assessment, or NULL: what only says who reads and says what
 * is shared with it, and it must outlive this one. */
ts_probe *ts_probe_new(const ts_assessment *assessment, ts_evaluator *evaluator,
                       const ts_probe *like);
void ts_probe_free(ts_probe *probe);

/* Runs the rule of a pair over its subject with whatever the variant holds now. The tallies
 * and probe->evaluation hold until the next try. NULL when the rule fails. */
const ts_tallies *ts_probe_try(ts_probe *probe, size_t pair);

/* Whether a course of those answers would be among the courses of ts_probe_try: cheaper than all of
 * them. False says nothing. Ends the last try. */
bool ts_probe_sees(ts_probe *probe, size_t pair, const ts_answers *answers);

/* What one course of the last try amounts to, as if it were the only one. In the place of the
 * tallies of that try. */
const ts_tallies *ts_probe_tally(ts_probe *probe, size_t pair, size_t course);

/* Whether controls change this fact where the pair reads it: it is then not seen as the variant has
 * it. */
bool ts_probe_changes(const ts_probe *probe, size_t pair, uint32_t slot);

/* Whether tries have used up what they may: enough for every finding of a full dossier, and a
 * bound where a dossier would take for ever. Counted, so that it ends at the same place each time.
 */
bool ts_probe_is_spent(const ts_probe *probe);

/* A stand, of what it is made of. */
ts_stand ts_stand_of(ts_score worst, ts_certainty certainty, ts_duty_state duty);
/* How a finding of the pair stands by such tallies; gone where they have nothing of it. */
ts_stand ts_stands(const ts_tallies *tallies, ts_word word, const char *about);
/* How a finding stands in the assessment itself. */
ts_stand ts_stands_now(const ts_finding *finding);

bool ts_same_stand(ts_word word, ts_stand a, ts_stand b);
/* More is worse: hazards by rank, stops and notes by certainty, duties by state. */
int ts_stand_heat(ts_word word, ts_stand stand);
/* A hazard above the line, or a stop that may be said. */
bool ts_stands_above(const ts_matrix *matrix, ts_word word, ts_stand stand);

/* The finding's pair; SIZE_MAX where its rule failed. */
size_t ts_pair_of(const ts_assessment *assessment, const ts_finding *finding);

/* A value with one number, one answer or one choice in it: what a fact would be if it were known.
 */
ts_value ts_value_point(double x);
ts_value ts_value_range(ts_range range);
ts_value ts_value_choice(uint64_t bits);

/* Facts that hold one number that can be asked for and moved. */
bool ts_slot_is_number(const ts_dossier *dossier, uint32_t slot);
/* The step between values of a number that comes in steps (people, dates, minutes); 0: none. */
double ts_slot_step(const ts_fact_def *fact);

/* Applies a control, in place at `scope`, to what is tried; and takes all such back. */
void ts_probe_apply(ts_probe *probe, const ts_control *control, ts_subject scope);
void ts_probe_take_back(ts_probe *probe);

#endif
