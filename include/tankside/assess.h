/* Assessing: what the rules say about a dossier, merged, scored and credited.
 *
 * For each rule and each subject it is asked of, three views stand side by
 * side: as described, with the controls that are in place, and with the
 * planned ones too. In each, a finding has the worst and the best score over
 * all courses the facts leave open. The headline counts what is in place.
 *
 * A score is a prompt for a decision by a competent person, never a statement
 * that something may go ahead. */
#ifndef TANKSIDE_ASSESS_H
#define TANKSIDE_ASSESS_H

#include "tankside/diagnostics.h"
#include "tankside/dossier.h"
#include "tankside/quantity.h"

typedef struct ts_packs ts_packs; /* engine/rule/rule.h */

/* ---- the matrix --------------------------------------------------------- */

enum { TS_LEVELS = 5 }; /* likelihood and severity both run from 1 to 5 */

typedef struct ts_matrix ts_matrix;

typedef struct {
  const char *id, *word, *letter; /* "very-high", "Very high", "V" */
  const char *sign, *review;      /* who decides, and when it is looked at again */
  int rank;                       /* higher is worse; each band has its own */
  bool above;                     /* above the line: somebody named must decide first */
} ts_band;

/* Reads a matrix file: scales, bands, all 25 cells or a published table and
 * how the scales map onto it, and the limits of credit. NULL with a report for
 * everything that is missing, unknown or contradictory. Free with ts_matrix_free. */
ts_matrix *ts_matrix_read(const char *path, ts_diagnostics *problems);
void ts_matrix_free(ts_matrix *matrix);

const char *ts_matrix_id(const ts_matrix *matrix);

/* The band of a score; both arguments 1..5. */
const ts_band *ts_matrix_band(const ts_matrix *matrix, int likelihood, int severity);

/* The place of a score in the order of scores: its band first, then likelihood times
 * severity, then severity. Higher is worse; 0 is "not found" (likelihood 0). */
int ts_matrix_rank(const ts_matrix *matrix, int likelihood, int severity);

/* ---- the assessment ----------------------------------------------------- */

typedef struct ts_assessment ts_assessment;

typedef enum { TS_AS_DESCRIBED, TS_IN_PLACE, TS_AS_PLANNED, TS_VIEWS } ts_view;

/* Whether a stop or a note is said: on no course, on some, on all. */
typedef enum { TS_GONE, TS_POSSIBLE, TS_CERTAIN } ts_certainty;

typedef struct {
  int8_t likelihood, severity; /* 1..5; both 0: not found on that side */
  int16_t rank;                /* ts_matrix_rank */
} ts_score; /* small: of each finding a good many are kept */

/* One finding in one view. */
typedef struct {
  ts_score worst, best;   /* hazards */
  ts_certainty certainty : 8; /* all words */
  bool settled;           /* every course says the same: no open fact matters */
  bool unresolved;        /* more courses than the bound: the worst the rule declares */
  bool floored;           /* the worst was raised from likelihood 1: it rests on an assumed fact */
} ts_standing;

/* One finding or duty, to look at. Texts belong to the assessment. */
typedef struct {
  const char *id;                                   /* "F1", "D1" */
  const char *word;                                 /* "hazard", "stop", "note", "duty" */
  const char *rule, *title, *about;                 /* about: "" where the rule says nothing */
  const char *subject, *subject_label, *task_label; /* path and labels; task_label may be NULL */
  const char *because;                              /* of the worst course */
  const char *state; /* duties, in place: "met", "open", "not-met"; else NULL */
  bool waived;
  ts_standing standing[TS_VIEWS];
} ts_finding_view;

typedef struct {
  size_t stops; /* possible or certain with what is in place */
  size_t above; /* hazards whose worst score in place is above the line, waived ones not counted */
  size_t hazards, notes;
  size_t waived;                                  /* findings under a waiver */
  size_t open;                                    /* facts not known that some finding rests on */
  size_t duties_met, duties_open, duties_not_met; /* with what is in place */
  size_t failed; /* rules that failed on some subject, and packs that were not found */
  bool complete; /* nothing failed */
} ts_summary;

typedef struct {
  const ts_dossier *dossier;
  const ts_packs *packs;
  const ts_matrix *matrix;
  const ts_units *units;
  const char *const *sets; /* each --set as given, "PATH=VALUE"; already applied to the dossier */
  size_t set_count;
  const char *folder; /* where the dossier stands, put before file names in messages; or NULL */
  const char *no_rules_for; /* a jurisdiction for which no pack was found, or NULL */
  /* Called now and then with how far it is, from 0 to 1; may be NULL. */
  void (*progress)(void *context, double part);
  void *context;
  /* Which rules to ask of which subjects, for a "what if" on a part; NULL: all of all. */
  bool (*wanted)(void *wanted_context, size_t rule, ts_subject subject);
  void *wanted_context;
  bool scores_only; /* without margins, ways down, conditions, questions and remedies */
  bool questions_only; /* of all those: for asking one after another */
  /* Findings say how they stand and what they rest on, and neither why nor by which numbers: a
   * screen shows that of a few (assess/wording.h). Not for writing. */
  bool without_words;
  /* An assessment of the same packs and matrix over a dossier that is alike but for values of
   * facts: what no changed fact bears on is taken over from it, which is faster and comes to the
   * same. From any other nothing is taken. It and its dossier must live until ts_assess returns.
   * NULL: there is none. */
  const ts_assessment *before;
  bool for_next; /* it may become the `before` of another */
  /* How many threads may work on it; 0 is one. What comes out does not depend on it. `progress` is
   * called by the caller's own, `wanted` by any. */
  size_t workers;
} ts_assess_inputs;

/* Runs every rule over every subject. Everything in `inputs` must outlive the
 * result. NULL, with reports, when the dossier names a control that no pack
 * has. A rule that fails does not end it: see ts_summary. Free with ts_assessment_free. */
ts_assessment *ts_assess(const ts_assess_inputs *inputs, ts_diagnostics *problems);
void ts_assessment_free(ts_assessment *assessment);

ts_summary ts_assessment_summary(const ts_assessment *assessment);

/* True when somebody must look before the task: a stop, a hazard above the
 * line, a duty not met or open, or an assessment that is not complete. */
bool ts_assessment_holds(const ts_assessment *assessment);

/* Findings (stops, hazards, notes) in the order of the document, and duties. */
size_t ts_finding_count(const ts_assessment *assessment);
ts_finding_view ts_finding_at(const ts_assessment *assessment, size_t index);
size_t ts_duty_count(const ts_assessment *assessment);
ts_finding_view ts_duty_at(const ts_assessment *assessment, size_t index);

/* The digest over all inputs, as an assessment of them records it; for whoever wants to know whether
 * one that is there was made of the same. Returns `digest`. */
char *ts_inputs_digest(const ts_assess_inputs *inputs, char digest[65]);

/* The whole assessment as XML, format 1: everything the documents say. The
 * bytes are malloc'd and NUL-terminated; the caller frees them. The same inputs give the same
 * bytes. */
void ts_assessment_write(const ts_assessment *assessment, char **bytes, size_t *length);

/* The same bytes, handed over piece by piece as they are written, so that a long assessment is never held as
 * text. False as soon as `take` was; it is not called again then. */
bool ts_assessment_write_to(const ts_assessment *assessment,
                            bool (*take)(void *context, const char *bytes, size_t length),
                            void *context);

#endif
