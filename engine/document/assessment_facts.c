/* Facts: every subject's, with evidence, and those still to be asked for. */
#include "document/assessment.h"
#include <stdlib.h>
#include <string.h>

/* ---- subjects -------------------------------------------------------------------- */

/* Stated facts are always listed; unknown and derived ones where a rule read them. */
static bool listed(const ts_paper *paper, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(paper->dossier, slot);
  if (fact->type < TS_QUANTITY) return false; /* structure and text, not facts */
  if (paper->only.facts != NULL && !paper->only.facts[slot]) return false;
  if (!fact->derived && ts_slot_value(paper->dossier, slot)->state != TS_UNKNOWN) return true;
  return paper->a->read[slot];
}

static int compare_targets(const void *left, const void *right) {
  const ts_evidence *a = *(const ts_evidence *const *)left;
  const ts_evidence *b = *(const ts_evidence *const *)right;
  int order = strcmp(a->target, b->target);
  return order != 0 ? order : (a > b) - (a < b);
}

const ts_evidence **ts_paper_evidence(ts_paper *paper) {
  size_t count = ts_evidence_count(paper->dossier);
  const ts_evidence **all = ts_arena_alloc(paper->arena, (count + 1) * sizeof *all);
  for (size_t i = 0; i < count; i++) all[i] = ts_evidence_at(paper->dossier, i);
  if (count > 0) qsort(all, count, sizeof *all, compare_targets);
  return all;
}

size_t ts_paper_evidence_for(const ts_paper *paper, const char *path, size_t *end) {
  size_t low = 0, high = ts_evidence_count(paper->dossier);
  while (low < high) {
    size_t middle = (low + high) / 2;
    if (strcmp(paper->evidence[middle]->target, path) < 0)
      low = middle + 1;
    else
      high = middle;
  }
  for (*end = low; *end < ts_evidence_count(paper->dossier); ++*end)
    if (!ts_same(paper->evidence[*end]->target, path)) break;
  return low;
}

static void evidence(ts_paper *paper, const char *path) {
  size_t end;
  for (size_t i = ts_paper_evidence_for(paper, path, &end); i < end; i++) {
    const ts_evidence *one = paper->evidence[i];
    ts_xml_start(&paper->out, "evidence");
    ts_xml_attribute(&paper->out, "kind", one->kind);
    ts_xml_attribute(&paper->out, "by", one->by);
    ts_xml_attribute(&paper->out, "on", one->on);
    ts_xml_attribute(&paper->out, "ref", one->ref);
    ts_xml_end(&paper->out);
  }
}

static void fact(ts_paper *paper, uint32_t slot, const ts_subject_info *subject) {
  const ts_fact_def *def = ts_slot_fact(paper->dossier, slot);
  const ts_value *value = ts_slot_value(paper->dossier, slot);
  char path[256];
  ts_xml_start(&paper->out, "fact");
  ts_xml_attribute(&paper->out, "name", def->name);
  ts_xml_attribute(&paper->out, "title", ts_paper_title(paper, def->name));
  ts_xml_attribute(&paper->out, "text", ts_paper_fact(paper, slot));
  ts_xml_attribute(&paper->out, "state", ts_paper_state(paper, slot));
  ts_xml_attribute(&paper->out, "assumed", ts_paper_yes(ts_slot_assumed(paper->dossier, slot)));
  ts_xml_attribute(&paper->out, "sees", ts_paper_sees(def));
  ts_xml_attribute(&paper->out, "meaning", def->meaning);
  ts_xml_attribute(&paper->out, "asked", def->asked);
  if (value->state == TS_STATED && !def->derived && ts_slot_line(paper->dossier, slot) > 0) {
    ts_xml_attributef(&paper->out, "line", "%d", ts_slot_line(paper->dossier, slot));
    ts_xml_attribute(&paper->out, "file", subject->file);
  }
  evidence(paper, ts_slot_path(paper->dossier, slot, path, sizeof path));
  ts_xml_end(&paper->out);
}

/* Words for people (a telephone number, where to meet) and what kind of thing it is. */
static void text(ts_paper *paper, uint32_t slot) {
  const ts_fact_def *def = ts_slot_fact(paper->dossier, slot);
  bool words = def->type == TS_TEXT || def->type == TS_KIND_WORD;
  const char *written = words ? ts_paper_fact(paper, slot) : NULL;
  if (written == NULL || written[0] == '\0') return;
  ts_xml_start(&paper->out, "text");
  ts_xml_attribute(&paper->out, "name", def->name);
  ts_xml_attribute(&paper->out, "text", written);
  ts_xml_attribute(&paper->out, "sees", ts_paper_sees(def));
  ts_xml_end(&paper->out);
}

static void subject(ts_paper *paper, size_t number) {
  ts_subject it = (ts_subject)number;
  const ts_subject_info *info = ts_subject_at(paper->dossier, it);
  size_t count = ts_fact_count(paper->vocabulary, info->entity);
  ts_xml_start(&paper->out, "subject");
  ts_xml_attribute(&paper->out, "path", info->path);
  ts_xml_attribute(&paper->out, "entity", info->entity->name);
  ts_xml_attribute(&paper->out, "label", ts_paper_label(paper, it));
  if (info->parent != TS_NO_SUBJECT)
    ts_xml_attribute(&paper->out, "parent", ts_paper_path(paper, info->parent));
  for (uint32_t i = 0; i < count; i++) text(paper, info->slot + i);
  for (uint32_t i = 0; i < count; i++)
    if (listed(paper, info->slot + i)) fact(paper, info->slot + i, info);
  ts_xml_end(&paper->out);
}

void ts_paper_subjects(ts_paper *paper) {
  ts_xml_start(&paper->out, "subjects");
  ts_paper_each(paper, ts_subject_count(paper->dossier), paper->only.subjects, subject);
  ts_xml_end(&paper->out);
}

/* ---- what to ask ------------------------------------------------------------------ */

/* What a form needs so that the answer can be written down: ticks for words, else a line with
 * its unit. */
static void answer(ts_paper *paper, const ts_fact_def *def) {
  static const char *const forms[] = {
      [TS_QUANTITY] = "quantity", [TS_COUNT] = "count", [TS_FLAG] = "flag",  [TS_CHOICE] = "choice",
      [TS_SET] = "set",           [TS_DATE] = "date",   [TS_CLOCK] = "clock"};
  bool us = ts_dossier_units(paper->dossier) == TS_US && def->unit_us != NULL;
  ts_xml_start(&paper->out, "answer");
  ts_xml_attribute(&paper->out, "form", forms[def->type]);
  if (def->type == TS_QUANTITY)
    ts_xml_attribute(&paper->out, "unit", us ? def->unit_us : def->unit);
  if (def->type == TS_CHOICE || def->type == TS_SET)
    ts_xml_attribute(&paper->out, "choices", def->choices);
  ts_xml_end(&paper->out);
}

static void open_fact(ts_paper *paper, const ts_open_fact *open) {
  bool unknown = ts_slot_value(paper->dossier, open->slot)->state == TS_UNKNOWN;
  const ts_fact_def *def = ts_slot_fact(paper->dossier, open->slot);
  char path[256];
  ts_xml_start(&paper->out, "fact");
  ts_xml_attribute(&paper->out, "path",
                   ts_slot_path(paper->dossier, open->slot, path, sizeof path));
  ts_xml_attribute(&paper->out, "title", ts_paper_title(paper, def->name));
  ts_xml_attribute(&paper->out, "subject-label",
                   ts_paper_label(paper, ts_slot_subject(paper->dossier, open->slot)));
  ts_xml_attribute(&paper->out, "meaning", def->meaning);
  ts_xml_attribute(&paper->out, "asked", def->asked);
  ts_xml_attribute(&paper->out, "measured", def->measured);
  ts_xml_attribute(&paper->out, "state", ts_paper_state(paper, open->slot));
  ts_xml_attribute(&paper->out, "plausible", unknown ? ts_paper_plausible(paper, def) : NULL);
  ts_xml_attribute(&paper->out, "now", unknown ? NULL : ts_paper_fact(paper, open->slot));
  ts_xml_attribute(&paper->out, "findings", open->findings);
  ts_xml_attributef(&paper->out, "removes", "%d", open->removes);
  ts_xml_attributef(&paper->out, "middle", "%d", open->middle);
  ts_xml_attributef(&paper->out, "settles", "%.0f", 100 * open->settles);
  if (open->removes > 0)
    ts_xml_attribute(&paper->out, "best", ts_paper_value(paper, def, &open->best));
  if (def->sees == TS_CONFIDENTIAL && !unknown)
    ts_xml_attribute(&paper->out, "withheld", "(withheld)");
  ts_xml_attribute(&paper->out, "sees", ts_paper_sees(def));
  answer(paper, def);
  ts_xml_end(&paper->out);
}

void ts_paper_open_facts(ts_paper *paper) {
  ts_xml_start(&paper->out, "open-facts");
  for (size_t i = 0; i < paper->a->open_count; i++)
    if (paper->only.asked == NULL || paper->only.asked[paper->a->open[i].slot])
      open_fact(paper, &paper->a->open[i]);
  ts_xml_end(&paper->out);
}
