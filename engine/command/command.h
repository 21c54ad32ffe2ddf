/* The command line: one file for each verb, and what they share.
 *
 * A verb is a row of a table: what it is called, which options it takes, what
 * its help says, and the function that does it. Exit status: 0 nothing above the line, 1
 * something to look at, 2 not done. */
#ifndef TS_COMMAND_COMMAND_H
#define TS_COMMAND_COMMAND_H

#include "base/arena.h"
#include "rule/rule.h"
#include "tankside/assess.h"
#include "tankside/diagnostics.h"
#include <stdbool.h>
#include <stddef.h>
#include <time.h>

enum { DONE = 0, LOOK = 1, NOT_DONE = 2 };

/* ---- options --------------------------------------------------------------- */

typedef enum {
  OPTION_PACK = 1,
  OPTION_MATRIX = 2,
  OPTION_SET = 4,
  OPTION_OUT = 8,
  OPTION_PAPER = 16,
  OPTION_NO_PDF = 32,
  OPTION_AS = 64,
  OPTION_SHEET = 128,
  OPTION_TASK = 256,
  OPTION_EXPLAIN = 512,
  OPTION_ALL = 1024,
  OPTION_EDITOR = 2048,
  OPTION_WHERE = 4096,
  OPTION_DOSSIER = 8192,
  OPTION_KEY = 16384,
  OPTION_CERTIFICATE = 32768,
  OPTION_ON = 65536,
  OPTION_ROLE = 131072,
  OPTION_TRUST = 262144,
  OPTION_LANGUAGE = 524288,
  OPTION_SET_FILE = 1 << 20,
  OPTION_DRY_RUN = 1 << 22,
  OPTION_MAP = 1 << 23,
  OPTION_FORCE = 1 << 24,
  OPTION_WORKERS = 1 << 25,
  OPTION_LIST = 1 << 26,
  OPTION_PART = 1 << 27,
  OPTION_NO_PAPERS = 1 << 28
} option_bit;

enum { REPEATS_MAX = 64, WORDS_MAX = 64 };

/* What a value of an option or a word after a verb stands for: what it can be completed to. */
typedef enum {
  A_WORD, /* nothing can be offered */
  A_FILE,
  A_FOLDER,
  A_DOSSIER,
  AN_ASSESSMENT, /* a file, or the folder it is in */
  A_PACK,
  A_MATRIX,
  A_PAPER,
  A_LANGUAGE,
  A_SHEET,
  A_FORM, /* one of the verb's */
  A_SETTING,
  A_TASK,
  A_RULE,
  A_FACT, /* "immersion.depth" */
  A_FUNCTION,
  A_JURISDICTION,
  A_UNIT_SYSTEM
} value_kind;

typedef struct {
  const char *packs[REPEATS_MAX];
  size_t pack_count;
  const char *sets[REPEATS_MAX];
  size_t set_count;
  const char *set_files[REPEATS_MAX];
  size_t set_file_count;
  const char *wheres[REPEATS_MAX];
  size_t where_count;
  const char *matrix, *out, *paper, *as, *sheet, *task, *explain, *dossier, *language;
  const char *key, *certificate, *on, *role, *trust;
  const char *map, *workers, *list, *part;
  bool no_pdf, no_papers, all, editor, force, help, dry_run;
  bool one_of_many; /* a line instead of the summary; what is done already is left as it is */
  const char *words[WORDS_MAX]; /* what is no option, in order */
  size_t word_count;
} ts_options;

/* A row of the one table of options, from which they are read, described and completed. */
typedef struct {
  const char *name, *value; /* "--pack", "DIR"; value NULL for a switch */
  option_bit bit;
  const char *help;
  value_kind kind;
  size_t at;       /* where in ts_options it is kept */
  size_t count_at; /* where the number of values is kept; 0: not repeatable */
} ts_option;

/* The option after `last` (NULL: the first) among those taken; NULL where there is no more. */
const ts_option *options_next(unsigned takes, const ts_option *last);

/* What a verb does besides reading files and writing to what it was started with (wall.h). */
typedef enum {
  WRITES_OUT = 1,       /* where -o says; nowhere without it */
  WRITES_FIRST = 2,     /* where its first word is: in a dossier's folder, say; not with -o */
  WRITES_ANYWHERE = 4,  /* where somebody says who is asked */
  WRITES_SCRATCH = 8,   /* for a while, where the system has room for such */
  RUNS_WEASYPRINT = 16, /* unless it is told to do without PDF */
  RUNS_AS_PDF = 32      /* the same, where --as pdf asks for it */
} need_bit;

/* What the first word of a verb can be, where it says what is to be done. */
typedef struct {
  const char *name, *usage; /* "try", " RULE DOSSIER" */
  size_t words;             /* how many, with its own */
  value_kind kinds[2];      /* of the words after it */
  unsigned needs;           /* need_bit, or-ed, besides what the verb needs */
} ts_action;

typedef struct {
  const char *name, *usage, *summary; /* "assess", "assess DOSSIER [OPTION]...", one line */
  const char *details;                /* paragraphs for its help, lines of at most 80 columns */
  unsigned takes;                     /* option_bit, or-ed */
  size_t least, most;                 /* how many words */
  value_kind kinds[2];                /* of the words; the last holds for all after it */
  const ts_action *actions;           /* or these, ended by a row without a name */
  const char *const *forms;           /* what --as can say, ended by NULL */
  unsigned needs;                     /* need_bit, or-ed */
  int (*run)(const ts_options *options);
} ts_verb;

extern const ts_verb verb_assess, verb_check, verb_print, verb_rules, verb_calc, verb_vocabulary,
    verb_compare, verb_verify, verb_sign, verb_ask, verb_watch, verb_day, verb_new, verb_import,
    verb_workbook, verb_review, verb_completions;
extern const ts_verb *const verbs[];        /* all of them, ended by NULL */
const ts_verb *verb_find(const char *name); /* or NULL */

/* Reads what follows the verb. False, with messages on stderr, when it cannot be used. */
bool options_read(const ts_verb *verb, int count, char **arguments, ts_options *into);
/* How many threads may work: as given, else one for each processor there is. */
size_t options_workers(const ts_options *options);
/* "3/8": the third of eight; 1/1 where nothing is given. */
typedef struct {
  size_t which, of;
} ts_part;
ts_part options_part(const ts_options *options);
/* The names there are of papers, languages, matrices, packs ..., ended by NULL; none for what is
 * not one of a few. */
const char *const *choices(ts_arena *arena, value_kind kind);
/* The sizes of paper, ended by NULL. */
extern const char *const papers[];
/* The help of a verb, to stdout: usage, details, options. */
void print_help(const ts_verb *verb);

void print_versions(void);
bool libraries_will_do(void); /* false: one that is running is too old; it is said which */
/* The lines that describe the options a verb takes, to stdout. */
void options_help(const ts_verb *verb);
/* `tankside: error: ...` on stderr with the nearest of the candidates; gives NOT_DONE. */
int unknown(const char *what, const char *name, const char *const *candidates, size_t count);
int usage_error(const char *format, ...) __attribute__((format(printf, 1, 2)));

/* ---- a session: what has been loaded --------------------------------------- */

typedef struct {
  ts_arena *arena;
  ts_diagnostics *problems;
  ts_units *units;
  ts_vocabulary *vocabulary;
  ts_packs *packs;
  ts_dossier *dossier;
  ts_matrix *matrix;
  const char *no_rules_for; /* a jurisdiction without a pack, or NULL */
  /* A pack that stands in the place of another, under its name; NULL where none does. */
  const char *instead_of, *instead, *instead_as;
  bool replaced;            /* it was asked for */
  struct what_if *what_ifs; /* values to take instead of the dossier's */
  const char **sets;        /* the same, as "PATH=VALUE" */
  size_t what_if_count, what_if_capacity, set_capacity;
  const char *figures; /* of one of many dossiers: what came out, in a line; else NULL */
  int status;
} ts_session;

/* Units, vocabulary, empty packs. False with reports. Close it in any case. */
bool session_open(ts_session *session);
/* Prints every problem to stderr and frees everything. */
void session_close(ts_session *session);
/* Says at once what was wrong, and begins a clean sheet. */
void session_say(ts_session *session);
/* All packs that came with the program, then those given with --pack: folders, or names of packs
 * that came with the program. */
bool session_load_all_packs(ts_session *session, const ts_options *options);
/* The folder of a pack: as given, or that of a pack that came with the program, by name. */
const char *session_pack(ts_session *session, const char *given);
/* Where an assessment is: the path itself, or assessment.xml in it where it is a folder. */
const char *assessment_path(ts_session *session, const char *path);
enum { ASSESSMENT_LIMIT = 512 * 1024 * 1024, KEY_LIMIT = 1024 * 1024 }; /* bytes */
/* The common pack alone, which every dossier needs: to have it before it is known which. It and all
 * that are loaded after it come without their examples. */
bool session_load_for_dossiers(ts_session *session);
/* The common pack, those of the dossier's jurisdiction, those it names beside itself, those given
 * with --pack; then the dossier itself, as it stands. */
bool session_read_as_it_stands(ts_session *session, const ts_options *options, const char *path);
/* The same, and each what-if taken. */
bool session_read_dossier(ts_session *session, const ts_options *options, const char *path);
/* What has been loaded, to be assessed; the dossier was read from `path`. */
ts_assess_inputs session_inputs(const ts_session *session, const char *path);
/* A copy of a session that goes on with its packs and matrix: nothing read yet, nothing wrong. */
void session_begin_again(ts_session *session);
/* Reads the dossier once more, what-ifs put in. False where anything is wrong, or where it no
 * longer says the same as `was` of which packs it goes by. */
bool session_read_again(ts_session *session, const ts_options *options, const char *path,
                        const ts_dossier *was);
/* The folder of a dossier as a prefix for messages; NULL where its name has none. */
const char *session_folder(const ts_session *session, const char *path);
/* The matrix by name or file; the default where none is given. */
bool session_read_matrix(ts_session *session, const char *name);

/* How many facts are stated, not known, and worked out from others. */
typedef struct {
  size_t stated, unknown, derived;
} fact_tally;
fact_tally count_facts(const ts_dossier *dossier);

/* ---- what if (what_if.c) --------------------------------------------------------- */

/* A value to take instead of the dossier's, "PATH=VALUE", given in a line of a file, or by --set
 * where the line is 0. False with a report where it is no such thing. */
bool what_if_add(ts_session *session, const char *text, const char *file, int line);
/* Those of every --set-file, then those of every --set: what is said later counts. */
bool what_if_read(ts_session *session, const ts_options *options);
/* Puts all of them into the dossier; what is wrong with any is reported where it was given. */
bool what_if_apply(ts_session *session);

/* ---- one assessment against another (changes.c) ----------------------------------- */

/* Prints in a few lines what stands otherwise now than it did before, and which facts, controls
 * and rules changed. */
bool print_changes(ts_arena *arena, const ts_assessment *before, const ts_assessment *now,
                   ts_diagnostics *problems);

/* ---- one rule (rules_look.c) --------------------------------------------------- */

/* False with a message and the nearest id where no pack has it. */
bool rule_by_id(const ts_session *session, const char *id, size_t *index);
/* Which rules there are: all, or those that every --where holds for; as lines or as CSV. */
int rules_list(const ts_session *session, const ts_options *options);
/* What the rule says for each subject of the dossier; what it is made of. Give the exit status. */
int rules_try(const ts_session *session, size_t rule);
int rules_explain(const ts_session *session, size_t rule); /* rules_explain.c */
/* What a dossier comes to when NEW stands in the place of OLD: `rules compare OLD NEW DOSSIER...`.
 */
int rules_compare(const ts_options *options);
/* Its id, title and place; one thing it says, behind an indent. */
void rule_head(const ts_rule *rule);
void print_outcome(const char *indent, const ts_outcome *said);
/* Writes a first rule of one's own, as the words after "new" ask: rules_new.c. */
int rules_new(ts_session *session, const ts_options *options);

/* ---- progress (progress.c) --------------------------------------------------------- */

/* Shown only to somebody who watches a terminal, and only once it takes long. */
typedef struct {
  bool watched, shown;
  struct timespec began;
} ts_progress;

ts_progress progress_new(void);
void progress_part(void *progress, double part); /* as ts_assess calls it */
void progress_file(ts_progress *progress, const char *name);
void progress_end(const ts_progress *progress);

/* ---- papers (papers.c) ------------------------------------------------------------- */

/* Every paper of an assessment, into the folder given with -o. */
bool papers_write(ts_session *session, const ts_options *options, ts_progress *progress,
                  const ts_assessment *assessment);

/* ---- printing ---------------------------------------------------------------- */

/* Prints a text folded at 80 columns: `first` before the first line, as many spaces
 * before the others. Columns are counted in characters. */
void print_folded(const char *first, const char *text);

/* Prints lines of a head, a tab and a text, each text folded under its head. */
void print_lines(ts_arena *arena, const char *text);

/* Prints a cell of a table for spreadsheets, and after the last one the end of the line. Quoted
 * always; an apostrophe before what is like a formula makes it a text. */
void csv_cell(const char *text, bool last);

/* What makes a word of so many things: "s", or nothing for one. */
const char *plural(size_t count);

/* Prints a text cut or filled to a width in characters. */
void print_cut(const char *text, int width);

/* The assessment in a screenful: counts, stops, the top findings, questions. */
void print_summary(const ts_session *session, const ts_assessment *assessment);

/* The functions of science: a list by topic; one with arguments, formula, source, limits and
 * example; all of them so. */
void functions_list(void);
void function_describe(const ts_session *session, const struct ts_function *function);
void functions_all(const ts_session *session);
/* A value in the unit that a function names for it, into `out` of FUNCTION_SHOWN bytes. */
enum { FUNCTION_SHOWN = 128 };
const char *function_show(const ts_session *session, ts_range range, ts_dim dim, const char *unit,
                          char *out);

/* The caution that stands on every document. */
extern const char caution[];

#endif
