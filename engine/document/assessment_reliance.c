/* What a reviewer asks first: how much of what findings rest on is stated, on what evidence, and
 * which low scores rest on something nobody has stated. */
#include "assess/open.h"
#include "document/assessment.h"
#include <stdlib.h>
#include <string.h>

typedef struct {
  ts_paper *paper;
  bool *seen;        /* by slot: what it is made of has been counted */
  bool *rested;      /* by slot: a written fact that a finding or duty rests on */
  ts_text *findings; /* by slot: the low findings that rest on it, where it is not known */
  size_t *times;     /* by slot: how many they are */
} reliance;

/* What a fact is made of, itself where it is written. */
static const uint32_t *made_of(const reliance *r, uint32_t slot, size_t *count) {
  return ts_made_of(r->paper->dossier, slot, r->paper->arena, count);
}

static bool is_written(const reliance *r, uint32_t slot) {
  return ts_slot_fact(r->paper->dossier, slot)->type >= TS_QUANTITY;
}

/* The same facts are rested on by many. */
static void note_rest(reliance *r, const ts_finding *finding) {
  const ts_spoken *said = ts_finding_said(finding);
  for (size_t i = 0; i < said->fact_count; i++) {
    size_t count;
    if (r->seen[said->facts[i]]) continue;
    r->seen[said->facts[i]] = true;
    const uint32_t *made = made_of(r, said->facts[i], &count);
    for (size_t k = 0; k < count; k++)
      r->rested[made[k]] = r->rested[made[k]] || is_written(r, made[k]);
  }
}

static void note_low(reliance *r, uint32_t slot, const ts_finding *finding) {
  ts_text *text = &r->findings[slot];
  size_t id = strlen(finding->id);
  bool there = text->length >= id && strcmp(text->data + text->length - id, finding->id) == 0;
  if (there) return; /* made of it twice over: the last one named */
  ts_text_addf(text, "%s%s", text->length > 0 ? " " : "", finding->id);
  r->times[slot]++;
}

static void note_all_low(reliance *r, const ts_finding *finding) {
  const ts_spoken *said = ts_finding_said(finding);
  for (size_t i = 0; i < said->fact_count; i++) {
    size_t count;
    const uint32_t *made = made_of(r, said->facts[i], &count);
    for (size_t k = 0; k < count; k++)
      if (is_written(r, made[k]) && ts_slot_value(r->paper->dossier, made[k])->state == TS_UNKNOWN)
        note_low(r, made[k], finding);
  }
}

/* A hazard that stays below the line at its worst, with what is in place. */
static bool is_low(const ts_paper *paper, const ts_finding *finding) {
  ts_score worst = finding->view[TS_IN_PLACE].standing.worst;
  return finding->word == TS_HAZARD && worst.likelihood > 0 &&
         !ts_matrix_band(paper->a->in.matrix, worst.likelihood, worst.severity)->above;
}

static bool is_proved(const ts_paper *paper, const char *path) {
  size_t end;
  return ts_paper_evidence_for(paper, path, &end) < end;
}

static bool has_evidence(const ts_paper *paper, uint32_t slot) {
  char path[256];
  ts_slot_path(paper->dossier, slot, path, sizeof path);
  return is_proved(paper, path) ||
         is_proved(paper, ts_paper_path(paper, ts_slot_subject(paper->dossier, slot)));
}

static void counts(reliance *r) {
  size_t all = 0, unknown = 0, proved = 0;
  for (uint32_t slot = 0; slot < ts_slot_count(r->paper->dossier); slot++) {
    if (!r->rested[slot]) continue;
    all++;
    if (ts_slot_value(r->paper->dossier, slot)->state == TS_UNKNOWN)
      unknown++;
    else
      proved += has_evidence(r->paper, slot);
  }
  ts_xml_attributef(&r->paper->out, "facts", "%zu", all);
  ts_xml_attributef(&r->paper->out, "unknown", "%zu", unknown);
  ts_xml_attributef(&r->paper->out, "with-evidence", "%zu", proved);
  ts_xml_attributef(&r->paper->out, "without-evidence", "%zu", all - unknown - proved);
}

static void fact(reliance *r, uint32_t slot) {
  const ts_fact_def *def = ts_slot_fact(r->paper->dossier, slot);
  char path[256];
  ts_xml_start(&r->paper->out, "fact");
  ts_xml_attribute(&r->paper->out, "path",
                   ts_slot_path(r->paper->dossier, slot, path, sizeof path));
  ts_xml_attribute(&r->paper->out, "title", ts_paper_title(r->paper, def->name));
  ts_xml_attribute(&r->paper->out, "subject-label",
                   ts_paper_label(r->paper, ts_slot_subject(r->paper->dossier, slot)));
  ts_xml_attribute(&r->paper->out, "assumed", ts_paper_plausible(r->paper, def));
  ts_xml_attribute(&r->paper->out, "sees", ts_paper_sees(def));
  ts_xml_attribute(&r->paper->out, "findings", r->findings[slot].data);
  ts_xml_end(&r->paper->out);
}

typedef struct {
  size_t times;
  uint32_t slot;
} relied_on;

/* Most relied on first, then in the order of the dossier. */
static int most_first(const void *left, const void *right) {
  const relied_on *a = left, *b = right;
  if (a->times != b->times) return a->times > b->times ? -1 : 1;
  return (a->slot > b->slot) - (a->slot < b->slot);
}

static void facts(reliance *r) {
  size_t count = 0, slots = ts_slot_count(r->paper->dossier);
  relied_on *all = ts_alloc((slots + 1) * sizeof *all);
  for (uint32_t slot = 0; slot < slots; slot++)
    if (r->times[slot] > 0) all[count++] = (relied_on){r->times[slot], slot};
  if (count > 0) qsort(all, count, sizeof *all, most_first);
  for (size_t i = 0; i < count; i++) fact(r, all[i].slot);
  free(all);
}

void ts_paper_reliance(ts_paper *paper) {
  const ts_assessment *a = paper->a;
  size_t slots = ts_slot_count(paper->dossier);
  reliance r = {.paper = paper};
  r.seen = ts_arena_alloc(paper->arena, (slots + 1) * sizeof *r.seen);
  r.rested = ts_arena_alloc(paper->arena, (slots + 1) * sizeof *r.rested);
  r.times = ts_arena_alloc(paper->arena, (slots + 1) * sizeof *r.times);
  r.findings = ts_arena_alloc(paper->arena, (slots + 1) * sizeof *r.findings);
  for (size_t i = 0; i < a->finding_count; i++) note_rest(&r, &a->findings[i]);
  for (size_t i = 0; i < a->duty_count; i++) note_rest(&r, &a->duties[i]);
  for (size_t i = 0; i < a->finding_count; i++)
    if (is_low(paper, &a->findings[i])) note_all_low(&r, &a->findings[i]);
  ts_xml_start(&paper->out, "reliance");
  counts(&r);
  facts(&r);
  ts_xml_end(&paper->out);
  for (size_t slot = 0; slot < slots; slot++) ts_text_release(&r.findings[slot]);
}
