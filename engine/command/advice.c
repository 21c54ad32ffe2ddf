/* What to do next: from the dossier in a folder, and what has been made of it. */
#include "command/advice.h"
#include "base/digest.h"
#include "base/file.h"
#include "base/text.h"
#include "command/command.h"
#include "dossier/subjects.h"
#include <stdio.h>
#include <string.h>

typedef struct {
  ts_session s;
  const char *folder;
  const char *dossier; /* its path, or NULL */
  size_t others;       /* dossiers beside it */
  const char *assessment, *text;
  bool current, is_signed; /* of the assessment */
  bool due;
} adviser;

/* ---- what there is ------------------------------------------------------------------------- */

/* As somebody would type it: nothing before a name in the folder one is in. */
static const char *path_in(const adviser *a, const char *folder, const char *name) {
  return ts_same(folder, ".") ? name : ts_path_join(a->s.arena, folder, name);
}

static const char *text_of(const adviser *a, const char *path, size_t *length) {
  ts_diagnostics *unsaid = ts_diagnostics_new();
  const char *text = ts_file_read(a->s.arena, path, ASSESSMENT_LIMIT, length, unsaid);
  ts_diagnostics_free(unsaid);
  return text != NULL ? text : "";
}

/* A dossier of its own, not a part that another includes. Files may be large and are not parsed:
 * "<" stands for itself nowhere else in XML but in comments. */
static bool is_dossier(const char *text) {
  const char *root = strstr(text, "<dossier"), *other = strstr(text, "<assessment");
  bool first = root != NULL && (other == NULL || root < other);
  return first && (strstr(root, "<production") != NULL || strstr(root, "<include") != NULL);
}

static bool is_assessment(const char *text) {
  const char *root = strstr(text, "<assessment"), *other = strstr(text, "<dossier");
  return root != NULL && other != NULL && root < other;
}

static char **names_in(const adviser *a, const char *folder, const char *suffix) {
  ts_diagnostics *unsaid = ts_diagnostics_new();
  char **names = ts_folder_list(a->s.arena, folder, suffix, unsaid);
  ts_diagnostics_free(unsaid);
  return names != NULL ? names : ts_arena_alloc(a->s.arena, sizeof *names);
}

/* "dossier.xml" goes before others. */
static void find_dossier(adviser *a) {
  char **names = names_in(a, a->folder, ".xml");
  for (size_t i = 0; names[i] != NULL; i++) {
    const char *path = path_in(a, a->folder, names[i]);
    if (!is_dossier(text_of(a, path, NULL))) continue;
    a->others += a->dossier != NULL;
    if (a->dossier == NULL || ts_same(names[i], "dossier.xml")) a->dossier = path;
  }
}

/* ---- the assessment that was made of it ------------------------------------------------ */

static const char *quoted_after(const adviser *a, const char *at, const char *name) {
  const char *value = strstr(at, name);
  if (value == NULL) return "";
  value += strlen(name);
  return ts_arena_copy_n(a->s.arena, value, strcspn(value, "\""));
}

/* Whether every file of the dossier still is what was read then. */
static bool still_holds(const adviser *a, const char *text) {
  const char *end = strstr(text, "</inputs>"), *folder = ts_path_folder(a->s.arena, a->dossier);
  const char *at = strstr(text, "<dossier ");
  bool holds = at != NULL && end != NULL && at < end;
  for (; at != NULL && at < end; at = strstr(at + 1, "<dossier ")) {
    char digest[65];
    size_t length = 0;
    const char *path = ts_path_join(a->s.arena, folder, quoted_after(a, at, "file=\""));
    const char *bytes = text_of(a, path, &length);
    holds = holds && ts_same(ts_digest(bytes, length, digest), quoted_after(a, at, "sha256=\""));
  }
  return holds;
}

static bool is_of_dossier(const adviser *a, const char *text) {
  const char *first = strstr(text, "<dossier ");
  return is_assessment(text) &&
         ts_same(quoted_after(a, first, "file=\""), ts_path_name(a->dossier));
}

/* The one that holds is kept, of those a signed one; else any. */
static void consider(adviser *a, const char *path) {
  const char *text = text_of(a, path, NULL);
  if (!is_of_dossier(a, text)) return;
  bool current = still_holds(a, text), is_signed = strstr(text, "<Signature") != NULL;
  int worth = 2 * current + is_signed, had = 2 * a->current + a->is_signed;
  if (a->assessment != NULL && worth <= had) return;
  a->assessment = path;
  a->text = text;
  a->current = current;
  a->is_signed = is_signed;
}

static void find_assessment(adviser *a) {
  char **names = names_in(a, a->folder, ".xml"), **folders = names_in(a, a->folder, "/");
  for (size_t i = 0; names[i] != NULL; i++) consider(a, path_in(a, a->folder, names[i]));
  for (size_t i = 0; folders[i] != NULL; i++) {
    const char *below = path_in(a, a->folder, folders[i]);
    consider(a, ts_path_join(a->s.arena, below, "assessment.xml"));
  }
}

/* ---- saying it ------------------------------------------------------------------------- */

static void due(adviser *a, const char *command, const char *why) {
  if (!a->due) puts("\nNext:");
  a->due = true;
  printf("  %s\n", command);
  print_folded("      ", why);
}

static const char *show_dossier(adviser *a) {
  ts_arena *arena = a->s.arena;
  const ts_options none = {0};
  bool good = session_read_dossier(&a->s, &none, a->dossier);
  size_t errors = ts_count(a->s.problems, TS_ERROR);
  const char *more = a->others > 0 ? ts_arena_printf(arena, "; %zu more beside it", a->others) : "";
  if (!good || errors > 0)
    return ts_arena_printf(arena, "%zu error%s%s", errors, plural(errors), more);
  fact_tally t = count_facts(a->s.dossier);
  return ts_arena_printf(arena, "%zu fact%s stated, %zu not known%s", t.stated, plural(t.stated),
                         t.unknown, more);
}

static void show_assessment(const adviser *a) {
  const char *above = quoted_after(a, a->text, "above=\""),
             *stops = quoted_after(a, a->text, "stops=\"");
  print_folded(ts_arena_printf(a->s.arena, "%s: ", a->assessment),
               ts_arena_printf(a->s.arena, "%s, %s; %s above the line, %s stop%s",
                               a->current ? "matches the dossier" : "the dossier changed since",
                               a->is_signed ? "signed" : "not signed", above, stops,
                               ts_same(stops, "1") ? "" : "s"));
}

static void advise_assessment(adviser *a) {
  ts_arena *arena = a->s.arena;
  const char *folder =
      a->assessment != NULL ? ts_path_folder(arena, a->assessment) : path_in(a, a->folder, "paper");
  if (a->assessment == NULL || !a->current)
    due(a, ts_arena_printf(arena, "tankside assess %s -o %s", a->dossier, folder),
        "scores it and writes the papers");
  else if (!a->is_signed)
    due(a,
        ts_arena_printf(arena,
                        "tankside sign %s --key KEY.pem \\\n"
                        "    --certificate CERTIFICATE.pem --on DATE --role 'safety officer'",
                        a->assessment),
        "whoever answers for it signs");
  else {
    putchar('\n');
    print_folded("", ts_arena_printf(arena,
                                     "`tankside verify %s --dossier %s` says whether it "
                                     "follows and the signatures hold.",
                                     a->assessment, a->dossier));
  }
}

static int advise_dossier(adviser *a) {
  ts_arena *arena = a->s.arena;
  print_folded(ts_arena_printf(arena, "%s: ", a->dossier), show_dossier(a));
  if (a->s.dossier == NULL || ts_count(a->s.problems, TS_ERROR) > 0) {
    due(a, ts_arena_printf(arena, "tankside check %s", a->dossier),
        "says what is wrong, and where");
    return LOOK;
  }
  find_assessment(a);
  if (a->assessment != NULL) show_assessment(a);
  if (count_facts(a->s.dossier).unknown > 0 && !(a->current && a->is_signed))
    due(a, ts_arena_printf(arena, "tankside ask %s", a->dossier),
        "asks for what matters most of what is not known");
  advise_assessment(a);
  return a->due ? LOOK : DONE;
}

static int advise_nothing(const adviser *a) {
  print_folded("", ts_same(a->folder, ".") ? "There is no dossier in this folder."
                                           : "There is no dossier in that folder.");
  puts("\nNext:\n"
       "  tankside new FOLDER      begins one by asking a few questions\n"
       "  tankside --help          all there is");
  return NOT_DONE;
}

int advise(const char *folder) {
  adviser a = {.folder = folder};
  int status = NOT_DONE;
  if (session_open(&a.s)) {
    find_dossier(&a);
    status = a.dossier != NULL ? advise_dossier(&a) : advise_nothing(&a);
  }
  ts_diagnostics_free(a.s.problems); /* counted, and said by `check` */
  a.s.problems = ts_diagnostics_new();
  session_close(&a.s);
  return status;
}
