/* Rules: packs of Lua files, and one rule over one subject seen in every course.
 *
 * A rule is a pure function of one subject. Where the facts do not settle its
 * path the evaluation forks, until every course has been seen; what each
 * course said, and the decisions on which it hangs, is the evaluation. What
 * courses mean together (worst, best, scores, credit) is the business of
 * assess/. */
#ifndef TS_RULE_RULE_H
#define TS_RULE_RULE_H

#include "dossier/subjects.h"

typedef enum { TS_HAZARD, TS_DUTY, TS_STOP, TS_REMARK } ts_word; /* hazard duty stop note */
typedef enum { TS_ELIMINATION, TS_SUBSTITUTION, TS_ENGINEERING, TS_ADMINISTRATIVE, TS_PPE } ts_hierarchy;
typedef enum { TS_MET, TS_UNDECIDED, TS_NOT_MET } ts_duty_state; /* met = true, nil, false */

/* A threshold of a rule that a later pack may tighten. */
typedef struct {
  const char *name;
  bool at_least;                 /* stricter is more; else stricter is less */
  const char *declared, *text;   /* "20 s" as the rule declares it, and as it holds */
  ts_range declared_range, range; /* SI; one number each */
  ts_dim dim;
} ts_limit;

typedef struct {
  const char *id, *title;
  const char *each;              /* entity it is asked of */
  const char *harm;              /* who is harmed and how, one line */
  const char *reasoning;         /* where the score does not follow the shared scales, else NULL */
  const char *const *sources;
  size_t source_count;
  const char *pack, *file;       /* file: name inside the pack's folder */
  int line;
  int worst_likelihood, worst_severity; /* when courses cannot all be seen; 5 and 5 unless declared */
  size_t example_count;
  const ts_limit *limits;        /* ordered by name */
  size_t limit_count;
  int raised_likelihood, raised_severity; /* steps that later packs add to each hazard it says */
} ts_rule;

/* What a pack made stricter in a rule of another: a limit, or the scores. */
typedef struct {
  const char *rule;
  const char *limit, *from, *to; /* NULL where scores are raised */
  int likelihood, severity;      /* steps */
  const char *because;
  const char *pack, *file;
  int line;
} ts_amendment;

typedef struct {
  const char *entity, *fact;     /* "immersion", "breath-hold" */
  enum { TS_AT_MOST, TS_AT_LEAST, TS_BECOMES } how;
  const char *text;              /* as declared: "10 s", "yes", "floating" */
  const ts_fact_def *def;        /* the fact in the vocabulary */
  ts_value value;                /* what `text` says */
} ts_change;

typedef struct {
  const char *id, *title;
  ts_hierarchy kind;
  const char *say;               /* crew text, imperative */
  const char *check, *often, *who; /* how and how often it is checked, and by whom */
  int lowers_likelihood, lowers_severity; /* steps */
  const ts_change *changes;
  size_t change_count;
  const char *source;
  const char *pack, *file;
  int line;
} ts_control;

typedef struct ts_packs ts_packs;

ts_packs *ts_packs_new(const ts_units *units, ts_vocabulary *vocabulary);
void ts_packs_free(ts_packs *packs);
/* From here on files are loaded without the examples in them, in half the time: for whoever only assesses.
 * What is wrong with an example is then not noticed, and rules have none to count or to run. */
void ts_packs_leave_examples(ts_packs *packs);
/* Loads every .lua file of a folder, in byte order; the pack is named after
 * the folder. Facts it declares join the vocabulary. A folder already loaded is not loaded
 * again; another of its name is refused. False with reports. */
bool ts_packs_load(ts_packs *packs, const char *folder, ts_diagnostics *problems);
/* A pack is a folder, or the same in an archive NAME.zip. Whether there is one at a path; its name. */
bool ts_pack_exists(const char *path);
const char *ts_pack_name(ts_arena *arena, const char *path);
/* The same under another name than its folder's: a pack that stands in for the one of that name. */
bool ts_packs_load_as(ts_packs *packs, const char *folder, const char *pack, ts_diagnostics *problems);

/* The text of a rule, as its file has it, up to the brace that ends it at the start of a line; in the arena. */
const char *ts_rule_text(const ts_packs *packs, size_t index, ts_arena *arena);

size_t ts_rule_count(const ts_packs *packs);
const ts_rule *ts_rule_at(const ts_packs *packs, size_t index); /* ordered by id */
size_t ts_control_count(const ts_packs *packs);
const ts_control *ts_control_at(const ts_packs *packs, size_t index); /* ordered by id */
const ts_control *ts_control_find(const ts_packs *packs, const char *id);
/* As they were read. The stricter of two holds, so their order does not matter. */
size_t ts_amendment_count(const ts_packs *packs);
const ts_amendment *ts_amendment_at(const ts_packs *packs, size_t index);
/* Each rule file read: "common/air.lua" and its SHA-256. */
/* The folders that were loaded, also those in which something was wrong. */
size_t ts_pack_folder_count(const ts_packs *packs);
const char *ts_pack_folder(const ts_packs *packs, size_t index);

size_t ts_pack_file_count(const ts_packs *packs);
const char *ts_pack_file_name(const ts_packs *packs, size_t index);
char *ts_pack_file_digest(const ts_packs *packs, size_t index, char digest[65]);

/* ---- what is signed of a pack ------------------------------------------- */

/* Its name, and each rule file with its SHA-256, in byte order. */
typedef struct {
  const char *name, *digest;
} ts_pack_line;

typedef struct {
  const char *name;
  ts_pack_line *files;
  size_t count;
} ts_pack_list;

/* What is on the disk, without running any of it; false with reports. And what was loaded from there
 * under the name `as`: a file could have changed since. What stands in for a pack of another name has none. */
bool ts_pack_list_read(ts_arena *arena, const char *path, ts_pack_list *list, ts_diagnostics *problems);
ts_pack_list ts_pack_list_loaded(const ts_packs *packs, ts_arena *arena, const char *path, const char *as);
/* Whether any rule file was, under that name. */
bool ts_pack_is_loaded(const ts_packs *packs, const char *as);

/* The file in which a pack's signatures stand: in its folder; of an archive beside it, else in it. `path` is
 * NULL where there is none. False with a report when it cannot be read. */
typedef struct {
  const char *path; /* for messages */
  const char *text;
  size_t length;
} ts_pack_signed;
bool ts_pack_signed_read(ts_arena *arena, const char *path, ts_pack_signed *into, ts_diagnostics *problems);
/* Where to write it. */
const char *ts_pack_signed_path(ts_arena *arena, const char *path);

/* Who signed a pack that was loaded: kept here by whoever looked, for the record. */
typedef struct {
  const char *pack, *who, *on, *as;
} ts_pack_signer;
void ts_pack_signer_add(ts_packs *packs, const ts_pack_signer *signer); /* texts are copied */
size_t ts_pack_signer_count(const ts_packs *packs);
const ts_pack_signer *ts_pack_signer_at(const ts_packs *packs, size_t index);

/* ---- evaluating -------------------------------------------------------- */

/* A value a rule names, or a side of a decision, as a reader sees it. */
typedef struct {
  const char *name;     /* "margin" */
  const char *shown;    /* "18..20 s" */
  const char *working;  /* "45 s - 15 s - 12 s = 18 s" or NULL for a plain fact */
  const char *names;    /* "breath-hold limit - breath hold - air return time" or NULL */
  const char *withheld; /* as `shown`, or "(withheld)" when it rests on a confidential fact */
  ts_range range;       /* the number itself, SI */
  ts_dim dim;
  /* The science function that gave it and what that was given, else NULL: for drawing it. */
  const ts_function *function;
  const ts_range *arguments;
} ts_shown;

typedef struct {
  const char *text;     /* "breath hold 12..20 s < 15 s" */
  const char *withheld; /* the same with confidential values left out */
  bool taken;           /* the comparison held on this course */
  bool settled;         /* the facts left no choice: no fork here */
} ts_decision;

typedef struct {
  ts_word word;
  const char *about;    /* what it is about, "" where the rule says nothing */
  int likelihood, severity;       /* TS_HAZARD */
  ts_duty_state state;            /* TS_DUTY */
  const char *instrument, *section; /* TS_DUTY */
  const char *from, *to;          /* the days on which the instrument holds, as declared, or NULL */
  double holds_from, holds_to;    /* the same, as moments */
  const char *evidence;           /* what shows that the duty is met, or NULL */
  bool discreet;                  /* rests on something personal: not for every reader */
  const char *who;                /* exposed people as the rule names them, or NULL */
  const char *const *controls;    /* ids that bear on it */
  size_t control_count;
  size_t scored_controls;         /* the first so many are to change the score; the rest only help */
  size_t decision_count;          /* how many of the course's decisions it hangs on */
  const uint32_t *facts;          /* slots read before it was said; ascending once worded */
  size_t fact_count;
  int line;                       /* in the rule file */
  /* Only in a course that ts_course_worded gave: */
  const char *because, *because_withheld;
  const char *form;               /* of both: as the rule says it, "held for {span}"; NULL where it has no places */
  const ts_shown *values;
  size_t value_count;
  const char *const *calls;       /* science functions used: names, ascending */
  size_t call_count;
} ts_outcome;

/* What a course leaves possible of a fact that could be more. */
typedef struct {
  uint32_t slot;
  unsigned member;                /* of a set: which choice, from 1; else 0 */
  bool number;                    /* `range` says it, else `choices` */
  ts_range range;
  uint64_t choices;               /* flags and members: bit 0 no, bit 1 yes */
} ts_bound;

typedef struct {
  bool applies;                   /* `when` was true */
  const ts_outcome *outcomes;
  size_t outcome_count;
  const ts_bound *bounds;         /* in the order in which the facts were asked for */
  size_t bound_count;
  /* Only when worded: */
  const ts_decision *decisions;   /* settled ones too, in order */
  size_t decision_count;
} ts_course;

typedef struct {
  const ts_course *courses;
  size_t course_count;
  const uint32_t *reads;          /* slots read on any course, ascending; derived ones and what they are made of */
  size_t read_count;
  bool unresolved;                /* more courses than the bound: not all were seen */
  const char *failure;            /* NULL, or what went wrong, with file and line */
} ts_evaluation;

/* An applied control while evaluating: its changes are laid over the facts of its scope,
 * in whatever subject they are read from. A fact that belongs to no subject of the
 * scope's kind (the water, over a task) changes for those only who are within the scope. */
typedef struct {
  const ts_control *control;
  const ts_value *to;             /* replaces the value of its first change, or NULL */
  ts_subject scope;               /* where it stands; 0 is everywhere */
  bool here;                      /* the subject asked about stands within the scope */
} ts_effect;

/* Whether any change of these reaches a slot in the list. */
bool ts_effects_reach(const ts_dossier *dossier, const ts_effect *effects, size_t effect_count,
                      const uint32_t *slots, size_t slot_count);

/* The controls that a dossier applies, as they change facts: found by the fact and by where they
 * stand, so that a long schedule costs no more a read than a short one. Each counts from a level
 * on; one that counts at a level counts at every later one. */
typedef struct ts_laid ts_laid;
ts_laid *ts_laid_new(const ts_dossier *dossier);
void ts_laid_free(ts_laid *laid);
ts_arena *ts_laid_arena(ts_laid *laid);
/* `applied` is the control's number in the dossier; `to` as in an effect. */
void ts_laid_put(ts_laid *laid, size_t applied, const ts_control *control, const ts_value *to, int level);
/* Whether any that counts from this very level on changes one of these facts for the subject. */
bool ts_laid_reaches(ts_laid *laid, ts_subject subject, int level, const uint32_t *slots, size_t slot_count);

typedef struct ts_evaluator ts_evaluator;
/* Without a dossier (an example's world comes later) rules run as they were written, without
 * what later packs made stricter in them. */
ts_evaluator *ts_evaluator_new(const ts_packs *packs, const ts_dossier *dossier);
void ts_evaluator_free(ts_evaluator *evaluator);
/* Goes on with another dossier of the same vocabulary: a variant, an example's world. */
void ts_evaluator_use(ts_evaluator *evaluator, const ts_dossier *dossier);
/* Without narrowing every comparison is seen both ways: only to measure what narrowing is worth. */
void ts_evaluator_narrow(ts_evaluator *evaluator, bool narrow);

/* From now on what counts at that level lies over the facts of every evaluation, before the
 * effects it is given; NULL: nothing does. */
void ts_evaluator_lay(ts_evaluator *evaluator, ts_laid *laid, int level);

/* From now on what rules do is recorded and done again without running them: worth it where the
 * same rules go over many subjects, or many times over the same with other values. */
void ts_evaluator_record(ts_evaluator *evaluator);

/* Sees every course of one rule over one subject, with the effects laid over the
 * facts, in the order given. The result belongs to the evaluator and holds until its next call. */
const ts_evaluation *ts_evaluate(ts_evaluator *evaluator, size_t rule, ts_subject subject,
                                 const ts_effect *effects, size_t effect_count);

/* One course of the last evaluation again, with its words. Never NULL; belongs to the evaluator
 * and holds until the next evaluation. */
const ts_course *ts_course_worded(ts_evaluator *evaluator, size_t index);

/* What each question on a course of the last evaluation was answered, in order. False where there are more
 * than TS_ANSWERS_MAX. */
enum { TS_ANSWERS_MAX = 63 };
typedef struct {
  uint8_t count, at[TS_ANSWERS_MAX];
} ts_answers;
bool ts_course_answers(const ts_evaluator *evaluator, size_t index, ts_answers *answers);

/* Whether the course of those answers is among those that ts_evaluate would see, with the facts as they
 * are now. Only as far as it is recorded: false says nothing. Ends the last evaluation. */
bool ts_course_is_open(ts_evaluator *evaluator, size_t rule, ts_subject subject, const ts_effect *effects,
                       size_t effect_count, const ts_answers *answers);

/* ---- what rules read and name -------------------------------------------- */

/* On whatever course: found in the rules' text, and by running each with nothing known. */
typedef struct ts_rule_index ts_rule_index;

typedef struct {
  const ts_fact_def *const *facts; /* each once, in no order; those a derived one is made of too */
  size_t fact_count;
  const char *const *controls;     /* ids, each once, in the order in which they are named */
  size_t control_count;
} ts_rule_content;

ts_rule_index *ts_rule_index_new(const ts_packs *packs);
ts_rule_content ts_rule_index_at(const ts_rule_index *index, size_t rule); /* belongs to the index */
void ts_rule_index_free(ts_rule_index *index);
/* When a rule applies, in words: "breath hold above 0 s and takes above 1". NULL where it always
 * does, or where its `when` is more than one expression. */
const char *ts_rule_when(const ts_packs *packs, size_t rule, ts_arena *arena);

/* ---- checking rules ------------------------------------------------------ */

typedef struct {
  size_t examples, passed;
  size_t decisions, both_ways;    /* places where a rule can go one way or the other */
  size_t statements, reached;
} ts_check_count;

/* Everything that can be found wrong with the rules and controls that are loaded: examples that do
 * not come out, decisions no example makes both ways, names that do not exist, controls
 * without effect, rules that say the same. Packs that did not load whole can be checked too. */
ts_check_count ts_packs_check(const ts_packs *packs, ts_diagnostics *problems);
/* A world in which what the first example of a rule that says something states is so, and nothing
 * else is known: one without controls and without a fact it leaves open. *name is the
 * example's. NULL where there is none; free with ts_dossier_free. */
ts_dossier *ts_rule_example_world(const ts_packs *packs, size_t rule, ts_subject *subject, const char **name);
/* Only the examples of one rule: how many come out as they say; reports those that do not. */
size_t ts_rule_examples_run(const ts_packs *packs, size_t rule, ts_diagnostics *problems);

#endif
