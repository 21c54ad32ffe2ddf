/* The record: inputs, matrix, what was looked at, controls, waivers, failures. */
#include "assess/scope.h"
#include "base/digest.h"
#include "base/file.h"
#include "document/assessment.h"
#include <string.h>

/* ---- inputs ------------------------------------------------------------------------ */

/* One line of the inputs; its text also goes into the digest over all of them. */
static void input(ts_paper *paper, ts_text *all, const char *element, const char *pack,
                  const char *file, const char *digest) {
  ts_xml_start(&paper->out, element);
  ts_xml_attribute(&paper->out, "pack", pack);
  ts_xml_attribute(&paper->out, "file", file);
  ts_xml_attribute(&paper->out, "sha256", digest);
  ts_xml_end(&paper->out);
  ts_text_addf(all, "%s %s/%s %s\n", element, pack != NULL ? pack : "", file, digest);
}

static void set_input(ts_paper *paper, ts_text *all, const char *set) {
  const char *equals = strchr(set, '=');
  if (equals == NULL) return;
  ts_xml_start(&paper->out, "set");
  ts_xml_attribute(&paper->out, "path", ts_arena_copy_n(paper->arena, set, (size_t)(equals - set)));
  ts_xml_attribute(&paper->out, "value", equals + 1);
  ts_xml_end(&paper->out);
  ts_text_addf(all, "set %s\n", set);
}

static void rule_inputs(ts_paper *paper, ts_text *all) {
  char digest[65];
  for (size_t i = 0; i < ts_pack_file_count(paper->packs); i++) {
    const char *name = ts_pack_file_name(paper->packs, i), *slash = strchr(name, '/');
    const char *pack = slash ? ts_arena_copy_n(paper->arena, name, (size_t)(slash - name)) : "";
    input(paper, all, "rules", pack, slash ? slash + 1 : name,
          ts_pack_file_digest(paper->packs, i, digest));
  }
}

/* Who stands for a pack: what was signed is what was loaded, or it would not be here. */
static void signer_inputs(ts_paper *paper, ts_text *all) {
  for (size_t i = 0; i < ts_pack_signer_count(paper->packs); i++) {
    const ts_pack_signer *signer = ts_pack_signer_at(paper->packs, i);
    ts_xml_start(&paper->out, "signed");
    ts_xml_attribute(&paper->out, "pack", signer->pack);
    ts_xml_attribute(&paper->out, "by", signer->who);
    ts_xml_attribute(&paper->out, "as", signer->as);
    ts_xml_attribute(&paper->out, "on", signer->on);
    ts_xml_end(&paper->out);
    ts_text_addf(all, "signed %s %s, %s, %s\n", signer->pack, signer->who, signer->as, signer->on);
  }
}

/* Each of them, and the digest over all. */
static void all_inputs(ts_paper *paper, char digest[65]) {
  const ts_matrix *matrix = paper->a->in.matrix;
  ts_text all = {0};
  for (size_t i = 0; i < ts_source_count(paper->dossier); i++)
    input(paper, &all, "dossier", NULL, ts_source_name(paper->dossier, i),
          ts_source_digest(paper->dossier, i, digest));
  rule_inputs(paper, &all);
  signer_inputs(paper, &all);
  input(paper, &all, "matrix", NULL, matrix->file,
        ts_digest(matrix->bytes, matrix->length, digest));
  for (size_t i = 0; i < paper->a->in.set_count; i++) set_input(paper, &all, paper->a->in.sets[i]);
  ts_digest(all.data, all.length, digest);
  ts_text_release(&all);
}

void ts_paper_inputs(ts_paper *paper) {
  char digest[65];
  ts_xml_start(&paper->out, "inputs");
  all_inputs(paper, digest);
  ts_xml_start(&paper->out, "digest");
  ts_xml_attribute(&paper->out, "sha256", digest);
  ts_xml_end(&paper->out);
  ts_xml_end(&paper->out);
}

/* What would be written, written for nobody. */
char *ts_inputs_digest(const ts_assess_inputs *inputs, char digest[65]) {
  const ts_assessment nothing = {.in = *inputs};
  ts_paper paper = {
      .a = &nothing, .dossier = inputs->dossier, .packs = inputs->packs, .arena = ts_arena_new()};
  ts_xml_start(&paper.out, "inputs");
  all_inputs(&paper, digest);
  ts_text_release(&paper.out.text);
  ts_arena_free(paper.arena);
  return digest;
}

/* ---- matrix ------------------------------------------------------------------------ */

static void scale(ts_paper *paper, const char *element, const ts_level_words *words) {
  for (int level = 1; level <= TS_LEVELS; level++) {
    ts_xml_start(&paper->out, element);
    ts_xml_attributef(&paper->out, "level", "%d", level);
    ts_xml_attribute(&paper->out, "word", words[level].word);
    ts_xml_attribute(&paper->out, "meaning", words[level].meaning);
    ts_xml_end(&paper->out);
  }
}

static void band(ts_paper *paper, const ts_band *band) {
  ts_xml_start(&paper->out, "band");
  ts_xml_attribute(&paper->out, "id", band->id);
  ts_xml_attribute(&paper->out, "word", band->word);
  ts_xml_attribute(&paper->out, "letter", band->letter);
  ts_xml_attributef(&paper->out, "rank", "%d", band->rank);
  ts_xml_attribute(&paper->out, "above", ts_paper_yes(band->above));
  ts_xml_attribute(&paper->out, "sign", band->sign);
  ts_xml_attribute(&paper->out, "review", band->review);
  ts_xml_end(&paper->out);
}

static void cell(ts_paper *paper, int likelihood, int severity) {
  ts_xml_start(&paper->out, "cell");
  ts_xml_attributef(&paper->out, "likelihood", "%d", likelihood);
  ts_xml_attributef(&paper->out, "severity", "%d", severity);
  ts_xml_attribute(&paper->out, "band",
                   ts_matrix_band(paper->a->in.matrix, likelihood, severity)->id);
  ts_xml_end(&paper->out);
}

void ts_paper_matrix(ts_paper *paper) {
  const ts_matrix *matrix = paper->a->in.matrix;
  ts_xml_start(&paper->out, "matrix");
  ts_xml_attribute(&paper->out, "id", matrix->id);
  ts_xml_attribute(&paper->out, "title", matrix->title);
  ts_xml_attribute(&paper->out, "source", matrix->source);
  scale(paper, "likelihood", matrix->likelihood);
  scale(paper, "severity", matrix->severity);
  for (size_t i = 0; i < matrix->band_count; i++) band(paper, &matrix->bands[i]);
  for (int l = 1; l <= TS_LEVELS; l++)
    for (int s = 1; s <= TS_LEVELS; s++) cell(paper, l, s);
  ts_xml_end(&paper->out);
}

void ts_paper_production(ts_paper *paper) {
  static const char *const texts[] = {"title", "reference", "jurisdiction", "revision",
                                      "on",    "by",        "language"};
  ts_xml_start(&paper->out, "production");
  for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
    ts_xml_attribute(&paper->out, texts[i], ts_paper_known(paper, 0, texts[i]));
  ts_xml_end(&paper->out);
}

/* ---- looked at ---------------------------------------------------------------------- */

static void skipped(ts_paper *paper, const ts_skip *skip) {
  ts_xml_start(&paper->out, "skipped");
  ts_xml_attribute(&paper->out, "subject", ts_paper_path(paper, skip->subject));
  ts_xml_attribute(&paper->out, "subject-label", ts_paper_label(paper, skip->subject));
  /* Every reader gets this list: confidential values stay out of it. */
  ts_xml_attribute(&paper->out, "because", skip->withheld);
  ts_xml_end(&paper->out);
}

static void looked_at(ts_paper *paper, const ts_rule *rule, const ts_look *look) {
  size_t shown = TS_SKIPS_SHOWN;
  if (look->skipped < shown) shown = look->skipped;
  ts_xml_start(&paper->out, "rule");
  ts_xml_attribute(&paper->out, "id", rule->id);
  ts_xml_attribute(&paper->out, "title", rule->title);
  ts_xml_attribute(&paper->out, "each", rule->each);
  ts_xml_attribute(&paper->out, "pack", rule->pack);
  ts_xml_attribute(&paper->out, "file", rule->file);
  ts_xml_attributef(&paper->out, "line", "%d", rule->line);
  ts_xml_attributef(&paper->out, "subjects", "%zu", look->subjects);
  ts_xml_attributef(&paper->out, "applied", "%zu", look->applied);
  ts_xml_attributef(&paper->out, "found", "%zu", look->found);
  if (look->skipped > shown) ts_xml_attributef(&paper->out, "more", "%zu", look->skipped - shown);
  for (size_t i = 0; i < shown; i++) skipped(paper, &look->skips[i]);
  for (size_t i = 0; i < rule->source_count; i++) {
    ts_xml_start(&paper->out, "source");
    ts_xml_words(&paper->out, rule->sources[i]);
    ts_xml_end(&paper->out);
  }
  ts_xml_end(&paper->out);
}

/* A rule that found something on every subject is in the findings already. */
void ts_paper_looked_at(ts_paper *paper) {
  ts_xml_start(&paper->out, "looked-at");
  for (size_t i = 0; i < ts_rule_count(paper->packs); i++) {
    const ts_look *look = &paper->a->looks[i];
    if (look->found < look->subjects || look->subjects == 0)
      looked_at(paper, ts_rule_at(paper->packs, i), look);
  }
  ts_xml_end(&paper->out);
}

/* ---- waivers and failures ------------------------------------------------------------- */

void ts_paper_waivers(ts_paper *paper) {
  ts_xml_start(&paper->out, "waivers");
  for (size_t i = 0; i < ts_waiver_count(paper->dossier); i++) {
    const ts_waiver *waiver = ts_waiver_at(paper->dossier, i);
    ts_xml_start(&paper->out, "waiver");
    ts_xml_attribute(&paper->out, "rule", waiver->rule);
    ts_xml_attribute(&paper->out, "subject", waiver->subject);
    ts_xml_attribute(&paper->out, "by", waiver->by);
    ts_xml_attribute(&paper->out, "until", waiver->until);
    ts_xml_attribute(&paper->out, "because", waiver->because);
    ts_xml_attribute(&paper->out, "valid", ts_paper_yes(waiver->valid));
    ts_xml_end(&paper->out);
  }
  ts_xml_end(&paper->out);
}

/* What a pack made stricter in a rule of another. */
void ts_paper_amendments(ts_paper *paper) {
  if (ts_amendment_count(paper->packs) == 0) return;
  ts_xml_start(&paper->out, "amendments");
  for (size_t i = 0; i < ts_amendment_count(paper->packs); i++) {
    const ts_amendment *made = ts_amendment_at(paper->packs, i);
    ts_xml_start(&paper->out, "amendment");
    ts_xml_attribute(&paper->out, "rule", made->rule);
    ts_xml_attribute(&paper->out, "limit", made->limit);
    ts_xml_attribute(&paper->out, "from", made->from);
    ts_xml_attribute(&paper->out, "to", made->to);
    if (made->likelihood > 0) ts_xml_attributef(&paper->out, "likelihood", "%d", made->likelihood);
    if (made->severity > 0) ts_xml_attributef(&paper->out, "severity", "%d", made->severity);
    ts_xml_attribute(&paper->out, "because", made->because);
    ts_xml_attribute(&paper->out, "pack", made->pack);
    ts_xml_attribute(&paper->out, "file", made->file);
    ts_xml_attributef(&paper->out, "line", "%d", made->line);
    ts_xml_end(&paper->out);
  }
  ts_xml_end(&paper->out);
}

static void change(ts_paper *paper, ts_subject subject) {
  static const char *const texts[] = {"revision", "on", "by", "what"};
  ts_xml_start(&paper->out, "change");
  for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
    ts_xml_attribute(&paper->out, texts[i], ts_paper_known(paper, subject, texts[i]));
  ts_xml_end(&paper->out);
}

/* What each revision changed, as the dossier says. */
void ts_paper_history(ts_paper *paper) {
  ts_xml_start(&paper->out, "history");
  for (ts_subject s = 0; s < ts_subject_count(paper->dossier); s++)
    if (ts_same(ts_subject_at(paper->dossier, s)->entity->name, "change")) change(paper, s);
  ts_xml_end(&paper->out);
}

void ts_paper_failures(ts_paper *paper) {
  ts_xml_start(&paper->out, "failures");
  for (size_t i = 0; i < paper->a->failure_count; i++) {
    const ts_failure *failure = &paper->a->failures[i];
    ts_xml_start(&paper->out, "failure");
    ts_xml_attribute(&paper->out, "rule", failure->rule);
    ts_xml_attribute(&paper->out, "subject", failure->subject);
    ts_xml_attribute(&paper->out, "text", failure->text);
    ts_xml_end(&paper->out);
  }
  ts_xml_end(&paper->out);
}
