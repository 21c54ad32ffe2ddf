/* tankside assess: the dossier assessed, a summary shown, the documents written. */
#include "base/text.h"
#include "command/made_of.h"
#include "command/many.h"
#include "dossier/subjects.h"
#include "tankside/document.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- documents ------------------------------------------------------------------ */

/* A name that ends in .xml asks for the assessment alone. */
static bool wants_file(const char *out) {
  size_t length = strlen(out);
  return length > 4 && ts_same(out + length - 4, ".xml");
}

static bool write_documents(ts_session *s, const ts_options *options, ts_progress *progress,
                            const ts_assessment *assessment) {
  if (wants_file(options->out)) return output_assessment(s, options, options->out, assessment);
  return papers_write(s, options, progress, assessment);
}

/* ---- the verb ----------------------------------------------------------------------- */

/* The dossier as it stands, before what-ifs change it, and its assessment. */
typedef struct {
  ts_dossier *dossier;
  ts_assessment *assessment;
} standing;

static void standing_free(standing *was) {
  ts_assessment_free(was->assessment);
  ts_dossier_free(was->dossier);
}

static bool on_screen(const ts_options *options) {
  return options->out == NULL && options->explain == NULL;
}

/* One for each so many subjects, where nobody says how many: a hundred take a tenth of a second,
 * and to load all rules once more takes a fifth of that. */
enum { SUBJECTS_EACH = 250 };

static size_t workers(const ts_session *s, const ts_options *options) {
  size_t there = options_workers(options), worth = 1 + ts_subject_count(s->dossier) / SUBJECTS_EACH;
  return options->workers == NULL && there > worth ? worth : there;
}

/* Scores are enough. What the what-ifs do not bear on is then taken over from it. */
static standing as_it_stands(ts_session *s, const ts_options *options) {
  standing was = {.dossier = ts_dossier_variant(s->dossier)};
  ts_assess_inputs inputs = session_inputs(s, options->words[0]);
  inputs.dossier = was.dossier;
  inputs.set_count = 0;
  inputs.workers = workers(s, options);
  inputs.scores_only = true;
  inputs.without_words = on_screen(options);
  inputs.for_next = true;
  was.assessment = ts_assess(&inputs, s->problems);
  return was;
}

/* On the screen stand scores and questions; what would change a finding only on paper, or where it
 * is explained. */
static ts_assessment *assess(ts_session *s, const ts_options *options, ts_progress *progress,
                             const ts_assessment *before) {
  ts_assess_inputs inputs = session_inputs(s, options->words[0]);
  inputs.questions_only = inputs.without_words = on_screen(options);
  inputs.workers = workers(s, options);
  inputs.progress = progress_part;
  inputs.context = progress;
  inputs.before = before;
  return ts_assess(&inputs, s->problems);
}

/* ---- one finding explained --------------------------------------------------------- */

static bool no_such_finding(ts_session *s, const ts_assessment *a, const char *id) {
  size_t findings = ts_finding_count(a), duties = ts_duty_count(a);
  const char **ids = ts_arena_alloc(s->arena, (findings + duties + 1) * sizeof *ids);
  for (size_t i = 0; i < findings; i++) ids[i] = ts_finding_at(a, i).id;
  for (size_t i = 0; i < duties; i++) ids[findings + i] = ts_duty_at(a, i).id;
  unknown("finding", id, ids, findings + duties);
  return false;
}

static bool explain(ts_session *s, const ts_assessment *a, const char *id) {
  char *bytes, *text;
  size_t length;
  ts_assessment_write(a, &bytes, &length);
  bool good = ts_finding_text(bytes, length, id, &text, s->problems);
  free(bytes);
  if (!good) return false;
  bool found = text[0] != '\0';
  if (found) print_lines(s->arena, text);
  free(text);
  return found || no_such_finding(s, a, id);
}

/* What the what-ifs change in the dossier as it stands. */
static bool show_what_if(ts_session *s, const ts_assessment *assessment,
                         const ts_assessment *before) {
  if (before == NULL) return true;
  puts("\nWhat if, against the dossier as it stands:");
  return print_changes(s->arena, before, assessment, s->problems);
}

/* Everything that is wrong is said, whatever was wrong before it. */
static bool read_all(ts_session *s, const ts_options *options) {
  bool matrix = session_read_matrix(s, options->matrix);
  bool language = options->language == NULL ||
                  ts_language_known(options->language, "--language", 0, s->problems);
  bool sets = what_if_read(s, options);
  return session_read_as_it_stands(s, options, options->words[0]) && matrix && language && sets;
}

/* ---- one of many ---------------------------------------------------------------------- */

/* "1 stop, 60 of 208 hazards above the line, 7 duties not met, 5 open, 13 facts not known". */
static const char *figures_of(ts_session *s, const ts_assessment *assessment) {
  ts_summary sum = ts_assessment_summary(assessment);
  return ts_arena_printf(s->arena,
                         "%zu stop%s, %zu of %zu hazard%s above the line, %zu %s not met, %zu "
                         "open, %zu fact%s not known%s",
                         sum.stops, plural(sum.stops), sum.above, sum.hazards, plural(sum.hazards),
                         sum.duties_not_met, sum.duties_not_met == 1 ? "duty" : "duties",
                         sum.duties_open, sum.open, plural(sum.open),
                         sum.complete ? "" : ", NOT COMPLETE");
}

static int conclude_one(ts_session *s, const ts_options *options, ts_progress *progress,
                        const ts_assessment *assessment) {
  s->status = ts_assessment_holds(assessment) ? LOOK : DONE;
  s->figures = figures_of(s, assessment);
  bool good = write_documents(s, options, progress, assessment);
  if (good) puts(s->figures);
  return good ? s->status : NOT_DONE;
}

static int assess_one(ts_session *s, const ts_options *options) {
  ts_progress progress = progress_new();
  int status = NOT_DONE;
  if (!read_all(s, options) || ts_count(s->problems, TS_ERROR) > 0) return NOT_DONE;
  const char *before = options->force ? NULL : made_of_same(s, options, options->out, &status);
  if (before != NULL) {
    printf("%s, as before\n", before);
    return status;
  }
  ts_assessment *assessment = assess(s, options, &progress, NULL);
  if (assessment != NULL) status = conclude_one(s, options, &progress, assessment);
  ts_assessment_free(assessment);
  return status;
}

/* ---- one alone ------------------------------------------------------------------------ */

static int conclude(ts_session *s, const ts_options *options, ts_progress *progress,
                    const ts_assessment *assessment, const ts_assessment *before) {
  bool good = true;
  progress_end(progress);
  if (options->explain == NULL)
    print_summary(s, assessment);
  else
    good = explain(s, assessment, options->explain);
  good = good && show_what_if(s, assessment, before);
  if (good && options->out != NULL) good = write_documents(s, options, progress, assessment);
  progress_end(progress);
  if (!good) return NOT_DONE;
  return ts_assessment_holds(assessment) ? LOOK : DONE;
}

static int run(const ts_options *options) {
  if (many_asked(options)) return many_run(options, assess_one);
  ts_session s = {0};
  ts_progress progress = progress_new();
  ts_assessment *assessment = NULL;
  standing was = {NULL, NULL};
  int status = NOT_DONE;
  bool good = session_open(&s) && read_all(&s, options);
  if (good && s.what_if_count > 0 && options->explain == NULL) was = as_it_stands(&s, options);
  if (s.dossier != NULL && what_if_apply(&s) && good && ts_count(s.problems, TS_ERROR) == 0)
    assessment = assess(&s, options, &progress, was.assessment);
  if (assessment != NULL) status = conclude(&s, options, &progress, assessment, was.assessment);
  ts_assessment_free(assessment);
  standing_free(&was);
  session_close(&s);
  return status;
}

const ts_verb verb_assess = {
    .name = "assess",
    .usage = "assess DOSSIER|FOLDER... [OPTION]...",
    .summary = "score every task of a dossier and write the documents",
    .details =
        "Runs the common rules, those of the dossier's jurisdiction and those given with\n"
        "--pack over every subject, in three views: as described, with what is in place,\n"
        "with everything planned. Shows a summary; with -o DIR also writes assessment.xml,\n"
        "every document (`tankside print --help` lists them) as HTML, most as PDF, and an\n"
        "index.html to find them by; -o FILE.xml writes the assessment alone. What is not\n"
        "known counts as its worst. --no-papers writes into DIR only assessment.xml, of which\n"
        "`print` makes any paper later.\n"
        "The files appear in DIR together, once all are made; those of an earlier run that\n"
        "are no more are removed. What tankside did not write, or somebody signed or changed\n"
        "since, is left alone, and then nothing is written, unless --force is given.\n"
        "--set and --set-file try values that are not in the dossier; what they change\n"
        "against the dossier as it stands comes last.\n"
        "--explain F12 shows instead all that is behind one finding: scores, conditions,\n"
        "working with its sources, facts and evidence, how far each number is from changing\n"
        "it, and what would bring it below the line, with what that makes worse elsewhere.\n\n"
        "  tankside assess dossier.xml -o paper\n"
        "  tankside assess dossier.xml --explain F1\n\n"
        "Several dossiers, a folder (every dossier.xml in it and below) or a --list go to -o DIR,\n"
        "each into a folder of its own there, several at a time. Each says in a line what came\n"
        "out; what fails is named and the others go on. What was done before with the same\n"
        "dossier, rules, matrix, options and tankside is not done again unless --force is given,\n"
        "so a run that was stopped goes on where it was; of two runs at once each does what the\n"
        "other does not. --part 3/8 takes the third of every eight, for the third of eight\n"
        "machines.\n\n"
        "  tankside assess book/ -o assessed --no-pdf\n\n"
        "It never says that something may go ahead: a competent person decides.\n\n"
        "Exit status: 0 nothing above the line, no stop, no duty open or not met, complete;\n"
        "1 otherwise; 2 not assessed, and then nothing is written; of many, 2 if any was not.",
    .takes = OPTION_PACK | OPTION_MATRIX | OPTION_SET | OPTION_SET_FILE | OPTION_OUT |
             OPTION_PAPER | OPTION_NO_PDF | OPTION_EXPLAIN | OPTION_LANGUAGE | OPTION_FORCE |
             OPTION_WORKERS | OPTION_LIST | OPTION_PART | OPTION_NO_PAPERS,
    .least = 1,
    .most = WORDS_MAX,
    .kinds = {A_DOSSIER},
    .needs = WRITES_OUT | RUNS_WEASYPRINT,
    .run = run};
