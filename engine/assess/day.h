/* One day as it goes: what each person was to do in the water, what the log has, and what is left of
 * every limit. Whatever is open counts at its worst. Nothing here sets a limit: rules name totals and
 * ceilings, and the published tables give the times without stops. */
#ifndef TS_ASSESS_DAY_H
#define TS_ASSESS_DAY_H

#include "assess/assessment.h"
#include "science/repetitive.h"

/* What a rule names as the most, and what it names as reached. SI. */
typedef struct {
  size_t rule;
  const ts_finding *finding; /* that says it */
  const char *more;          /* "_in_7_days" */
  ts_dim dim;
  double so_far, with_plan, most; /* with plan: and with what of it is still to come */
  bool logged; /* the log tells how much of it is used; else `so_far` says nothing */
} ts_allowance;

/* Bottom time without stops at a depth, on air, from a moment on. */
typedef struct {
  ts_subject immersion; /* that is still to come; TS_NO_SUBJECT: again at once */
  double from, depth, left;
  double needed; /* what of its time is still to come */
} ts_dive_left;

/* The most less what it comes to with the plan; below 0 where that is over. */
double ts_allowance_left(const ts_allowance *one);

typedef struct {
  ts_subject person, person_day;
  const ts_subject *immersions, *records; /* records by when they went down */
  size_t immersion_count, record_count;
  const ts_allowance *allowances;
  size_t allowance_count;
  const size_t *said; /* findings of the log, by index in the assessment */
  size_t said_count;
  ts_dives dives; /* on gas, up to and with the last one in the log */
  double up;      /* when that was over, at the latest: s since 1970-01-01 */
  const ts_dive_left *left;
  size_t left_count; /* 0: no gas is planned or was breathed */
} ts_day_person;

typedef struct {
  ts_assessment *a;       /* of that day's people and log, scores only */
  ts_assessment *to_come; /* the same with what the log has and what of the plan is still to come */
  ts_assessment *so_far;  /* and with what the log has alone */
  ts_dossier *variants[2];
  ts_day_person *people;
  size_t count;
} ts_day_report;

/* The day that is looked at where none is named: the last with a log, else the first. NAN: there is
 * no day. */
double ts_day_default(const ts_dossier *dossier);
bool ts_day_exists(const ts_dossier *dossier, double date);

/* False with reports. Release in any case. `inputs` must outlive it. */
bool ts_day_look(const ts_assess_inputs *inputs, double date, ts_day_report *day,
                 ts_diagnostics *problems);
void ts_day_release(ts_day_report *day);

/* True when somebody must look: a total above its ceiling, something in the log that the plan does
 * not have, or a rule that failed. */
bool ts_day_holds(const ts_day_report *day);

#endif
