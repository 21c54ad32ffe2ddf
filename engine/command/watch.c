/* tankside watch: assesses whenever something it is made from is saved, and says what that changed.
 */
#include "base/file.h"
#include "base/saved.h"
#include "base/text.h"
#include "base/xml.h"
#include "command/command.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { PART_LIMIT = 64 * 1024 * 1024, DEEPEST = 16 };

typedef struct {
  const ts_options *options;
  ts_saved *saved;
  ts_session s;        /* of the last that could be assessed */
  ts_assessment *last; /* NULL: none yet */
  bool rules_saved;    /* or the matrix, since those of the session were read */
  int status;          /* of the last round */
} watcher;

/* ---- what to look at ------------------------------------------------------------------- */

static void look_at(watcher *w, ts_arena *arena, const char *path, int depth);

static void look_at_includes(watcher *w, ts_arena *arena, const ts_xml *xml, const char *path,
                             int depth) {
  const char *folder = ts_path_folder(arena, path);
  const xmlNode *include = ts_xml_child(ts_xml_root(xml), "include");
  for (; include != NULL; include = ts_xml_next(include, "include")) {
    xmlChar *href = xmlGetNoNsProp(include, BAD_CAST "href");
    if (href != NULL && ts_path_inside(folder, (const char *)href))
      look_at(w, arena, ts_path_join(arena, folder, (const char *)href), depth + 1);
    xmlFree(href);
  }
}

/* A part of the dossier and what it includes, also where that does not read or is not there yet. */
static void look_at(watcher *w, ts_arena *arena, const char *path, int depth) {
  ts_diagnostics *unsaid = ts_diagnostics_new();
  size_t length = 0;
  ts_saved_file(w->saved, path);
  char *bytes = depth < DEEPEST ? ts_file_read(arena, path, PART_LIMIT, &length, unsaid) : NULL;
  ts_xml *xml = bytes != NULL ? ts_xml_read(bytes, length, path, unsaid) : NULL;
  if (xml != NULL) look_at_includes(w, arena, xml, path, depth);
  ts_xml_free(xml);
  ts_diagnostics_free(unsaid);
}

static void look_at_dossier(watcher *w) {
  ts_arena *arena = ts_arena_new();
  look_at(w, arena, w->options->words[0], 0);
  ts_arena_free(arena);
}

static void look_at_inputs(watcher *w, const ts_session *s) {
  const ts_options *o = w->options;
  for (size_t i = 0; i < ts_pack_folder_count(s->packs); i++)
    ts_saved_folder(w->saved, ts_pack_folder(s->packs, i), ".lua");
  for (size_t i = 0; i < o->set_file_count; i++) ts_saved_file(w->saved, o->set_files[i]);
  bool file = o->matrix != NULL && strpbrk(o->matrix, "./") != NULL;
  if (file) ts_saved_file(w->saved, o->matrix);
}

/* ---- one round ------------------------------------------------------------------------- */

typedef struct {
  ts_progress shown;
  const watcher *w;
} watch_progress;

/* Whoever ends it does not wait for an assessment; what was last assessed counts. */
static void part(void *context, double part) {
  watch_progress *p = context;
  progress_part(&p->shown, part);
  if (!ts_saved_ended()) return;
  progress_end(&p->shown);
  fflush(stdout);
  exit(p->w->status);
}

/* What is shown are scores and questions; what a save does not bear on is taken over. */
static ts_assessment *assess(const watcher *w, ts_session *s) {
  watch_progress progress = {progress_new(), w};
  ts_assess_inputs inputs = session_inputs(s, w->options->words[0]);
  inputs.questions_only = inputs.without_words = true;
  inputs.before = w->last;
  inputs.for_next = true;
  inputs.progress = part;
  inputs.context = &progress;
  ts_assessment *made = ts_assess(&inputs, s->problems);
  progress_end(&progress.shown);
  return made;
}

static void figures(ts_summary sum) {
  printf("%zu stop%s, %zu above the line, %zu dut%s not met, %zu fact%s not known\n", sum.stops,
         sum.stops == 1 ? "" : "s", sum.above, sum.duties_not_met,
         sum.duties_not_met == 1 ? "y" : "ies", sum.open, sum.open == 1 ? "" : "s");
}

/* The first time all of it, then what is not as it was when it could last be assessed. */
static void show(const watcher *w, const ts_session *s, const ts_assessment *a) {
  if (w->last == NULL)
    print_summary(s, a);
  else if (print_changes(s->arena, w->last, a, s->problems))
    figures(ts_assessment_summary(a));
}

/* What of a session is read anew in each round. */
static void forget_dossier(ts_session *s) {
  ts_dossier_free(s->dossier);
  ts_diagnostics_free(s->problems);
  free(s->what_ifs);
  free(s->sets);
}

/* The dossier alone was saved: it is read by the rules that are there, as long as it still says
 * the same of which those are. False where it does not, or where anything is wrong with it; then
 * nothing has been said. */
static bool assess_again(watcher *w) {
  ts_session s = w->s;
  ts_assessment *a = NULL;
  session_begin_again(&s);
  if (session_read_again(&s, w->options, w->options->words[0], w->s.dossier)) a = assess(w, &s);
  if (a == NULL) {
    forget_dossier(&s);
    return false;
  }
  show(w, &s, a);
  session_say(&s);
  ts_assessment_free(w->last);
  forget_dossier(&w->s);
  w->s = s;
  w->last = a;
  return true;
}

static void forget_last(watcher *w) {
  ts_assessment_free(w->last);
  session_close(&w->s);
  w->last = NULL;
}

static bool assess_anew(watcher *w) {
  ts_session s = {0};
  ts_assessment *a = NULL;
  if (session_open(&s)) {
    bool matrix = session_read_matrix(&s, w->options->matrix);
    bool read = session_read_dossier(&s, w->options, w->options->words[0]);
    look_at_inputs(w, &s);
    if (read && matrix && ts_count(s.problems, TS_ERROR) == 0) a = assess(w, &s);
  }
  if (a == NULL) {
    session_close(&s);
    return false;
  }
  show(w, &s, a);
  session_say(&s);
  if (w->last != NULL) forget_last(w);
  w->s = s;
  w->last = a;
  w->rules_saved = false;
  return true;
}

static void assess_now(watcher *w) {
  look_at_dossier(w); /* before it is read: what is saved from here on is seen */
  bool again = w->last != NULL && !w->rules_saved && assess_again(w);
  bool done = again || assess_anew(w);
  w->status = !done ? NOT_DONE : ts_assessment_holds(w->last) ? LOOK : DONE;
  if (!done) puts("not assessed; waiting until it is mended");
  fflush(stdout);
}

/* ---- the verb -------------------------------------------------------------------------- */

/* What the dossier may be made of besides its own files and those of --set-file. */
static bool is_of_rules(const watcher *w, const char *path) {
  const char *matrix = w->options->matrix;
  return ts_ends_in(path, ".lua") || ts_ends_in(path, ".zip") ||
         (matrix != NULL && ts_same(path, matrix));
}

static void say_saved(void *context, const char *path, bool there) {
  watcher *w = context;
  w->rules_saved = w->rules_saved || is_of_rules(w, path);
  printf("\n%s  %s\n", there ? "saved" : "gone ", path);
  fflush(stdout);
}

/* A name that leads nowhere is a slip of whoever typed it, not a file that will come. */
static bool is_there(const char *path) {
  ts_arena *arena = ts_arena_new();
  ts_diagnostics *problems = ts_diagnostics_new();
  bool there = ts_file_read(arena, path, PART_LIMIT, NULL, problems) != NULL;
  ts_diagnostics_print(problems, stderr);
  ts_diagnostics_free(problems);
  ts_arena_free(arena);
  return there;
}

static int run(const ts_options *options) {
  watcher w = {.options = options, .status = NOT_DONE};
  if (!is_there(options->words[0])) return NOT_DONE;
  w.saved = ts_saved_new();
  assess_now(&w);
  printf("\nwatching %zu files; ^C ends\n", ts_saved_count(w.saved));
  fflush(stdout);
  while (ts_saved_wait(w.saved, say_saved, &w)) assess_now(&w);
  if (w.last != NULL) forget_last(&w);
  ts_saved_free(w.saved);
  return w.status;
}

const ts_verb verb_watch = {
    .name = "watch",
    .usage = "watch DOSSIER [OPTION]...",
    .summary = "assess again whenever a file is saved, and show what changed",
    .details =
        "Shows the summary, then waits. When the dossier, a file it includes, a rule file of\n"
        "one of its packs, a --set-file or the matrix is saved, it assesses again and shows\n"
        "what that changed: facts and controls, findings and duties that came, rose, fell or\n"
        "went, facts to ask about. What is wrong with a file is shown, and it goes on waiting;\n"
        "what is mended is compared with what could last be assessed. Nothing is written.\n\n"
        "  tankside watch dossier.xml\n\n"
        "^C ends it. Exit status: of the last time something was saved; 0 nothing above the\n"
        "line, 1 something to look at, 2 not assessed.",
    .takes = OPTION_PACK | OPTION_MATRIX | OPTION_SET | OPTION_SET_FILE,
    .least = 1,
    .most = 1,
    .kinds = {A_DOSSIER},
    .run = run};
