#include "assess_world.h"

#include "base/file.h"
#include "base/text.h"
#include "said.h"
#include "scratch.h"
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void open_world(assess_world *w) {
  char why[256] = "";
  *w = (assess_world){.arena = ts_arena_new(), .problems = ts_diagnostics_new()};
  w->units = ts_units_new(why, sizeof why);
  ck_assert_msg(w->units != NULL, "%s", why);
  w->vocabulary = ts_vocabulary_new();
  w->packs = ts_packs_new(w->units, w->vocabulary);
  w->matrix = ts_matrix_read(SOURCE_FOLDER "/shared/matrices/five-by-five.xml", w->problems);
}

const char *assess_world_said(assess_world *w) { return said_of(w->problems, w->arena); }

static void must(assess_world *w, bool good) { ck_assert_msg(good, "%s", assess_world_said(w)); }

static void read_dossier(assess_world *w, const char *path) {
  w->dossier = ts_dossier_read(path, w->vocabulary, w->units, w->problems);
  must(w, w->dossier != NULL && w->matrix != NULL);
}

static void write_text(assess_world *w, const char *path, const char *text) {
  must(w, ts_file_write(path, text, strlen(text), w->problems));
}

static const char dossier_text[] =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
    "<dossier format=\"1\" units=\"metric\">\n"
    "  <production title=\"Test\" jurisdiction=\"test\" revision=\"1\" on=\"2027-03-01\" "
    "by=\"us\"/>\n"
    "  <site id=\"tank\"/>\n"
    "  <person id=\"p1\" role=\"performer\" name=\"One\"/>\n"
    "  <person id=\"p2\" role=\"performer\"/>\n"
    "  <day date=\"2027-03-09\" site=\"tank\">\n"
    "    <task id=\"t1\" title=\"Task\" start=\"10:00\" finish=\"11:00\">\n"
    "      <immersion person=\"p1\" wears=\"none\" %s/>\n"
    "      <immersion person=\"p2\" wears=\"none\" breath-hold=\"0 s\" depth=\"1 m\"/>\n%s\n"
    "    </task>\n"
    "  </day>\n%s\n"
    "</dossier>\n";

void assess_world_make(assess_world *w, const char *rules, const char *immersion,
                       const char *inside, const char *after) {
  open_world(w);
  scratch_make(w->folder, sizeof w->folder);
  char *pack = ts_path_join(w->arena, w->folder, "test");
  char *path = ts_path_join(w->arena, w->folder, "dossier.xml");
  must(w, ts_folder_make(pack, w->problems));
  write_text(w, ts_path_join(w->arena, pack, "rules.lua"), rules);
  write_text(w, path, ts_arena_printf(w->arena, dossier_text, immersion, inside, after));
  must(w, ts_packs_load(w->packs, pack, w->problems));
  read_dossier(w, path);
}

/* A pack that came with the program. */
static void load_own(assess_world *w, const char *pack) {
  char *folder = ts_arena_printf(w->arena, "%s/rules/%s", SOURCE_FOLDER, pack);
  must(w, !ts_folder_exists(folder) || ts_packs_load(w->packs, folder, w->problems));
}

/* The packs that stand beside a dossier. */
static void load_beside(assess_world *w, const char *folder) {
  char **names = ts_folder_list(w->arena, folder, "/", w->problems);
  for (size_t i = 0; names != NULL && names[i] != NULL; i++)
    must(w, ts_packs_load(w->packs, ts_path_join(w->arena, folder, names[i]), w->problems));
}

void assess_world_under(assess_world *w, const char *production, const char *jurisdiction) {
  open_world(w);
  char *country = ts_arena_copy_n(w->arena, jurisdiction, 2);
  char *federal = ts_arena_printf(w->arena, "%s-fed", country);
  load_own(w, "common");
  load_own(w, country);
  if (!ts_same(federal, jurisdiction)) load_own(w, federal);
  load_own(w, jurisdiction);
  char *folder = ts_arena_printf(w->arena, "%s/shared/productions/%s", SOURCE_FOLDER, production);
  load_beside(w, folder);
  read_dossier(w, ts_path_join(w->arena, folder, "dossier.xml"));
}

void assess_world_demo(assess_world *w, const char *production) {
  assess_world_under(w, production, ts_same(production, "lake-stunt") ? "us-fed" : "gb-eng");
}

void assess_world_free(assess_world *w) {
  ts_matrix_free(w->matrix);
  ts_dossier_free(w->dossier);
  ts_packs_free(w->packs);
  ts_vocabulary_free(w->vocabulary);
  ts_units_free(w->units);
  ts_diagnostics_free(w->problems);
  if (w->folder[0] != '\0') scratch_remove(w->folder);
  ts_arena_free(w->arena);
}

ts_assessment *assess_world_run(assess_world *w) { return assess_world_part(w, NULL, NULL); }

static ts_assessment *assess_with(assess_world *w, bool (*wanted)(void *, size_t, ts_subject),
                                  void *context, bool scores_only) {
  ts_assess_inputs inputs = {.dossier = w->dossier,
                             .packs = w->packs,
                             .matrix = w->matrix,
                             .units = w->units,
                             .wanted = wanted,
                             .wanted_context = context,
                             .scores_only = scores_only};
  ts_assessment *assessment = ts_assess(&inputs, w->problems);
  must(w, assessment != NULL);
  return assessment;
}

static bool is_it(const ts_finding_view *view, const char *rule, const char *subject,
                  const char *about) {
  return ts_same(view->rule, rule) && ts_same(view->subject, subject) &&
         (about == NULL || ts_same(view->about, about));
}

static bool look_for(const ts_assessment *a, const char *rule, const char *subject,
                     const char *about, ts_finding_view *found) {
  for (size_t i = 0; i < ts_finding_count(a) + ts_duty_count(a); i++) {
    size_t findings = ts_finding_count(a);
    *found = i < findings ? ts_finding_at(a, i) : ts_duty_at(a, i - findings);
    if (is_it(found, rule, subject, about)) return true;
  }
  return false;
}

ts_finding_view finding_of(const ts_assessment *assessment, const char *rule, const char *subject,
                           const char *about) {
  ts_finding_view found;
  ck_assert_msg(look_for(assessment, rule, subject, about, &found), "no finding of %s on %s", rule,
                subject);
  return found;
}

ts_assessment *assess_world_part(assess_world *w,
                                 bool (*wanted)(void *context, size_t rule, ts_subject subject),
                                 void *context) {
  return assess_with(w, wanted, context, true);
}

ts_assessment *assess_world_full(assess_world *w) { return assess_with(w, NULL, NULL, false); }

bool has_finding(const ts_assessment *assessment, const char *rule, const char *subject) {
  ts_finding_view found;
  return look_for(assessment, rule, subject, NULL, &found);
}
