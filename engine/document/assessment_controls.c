/* Controls that a finding, a way down or a remedy names or the dossier applies, in the order of the
 * hierarchy. */
#include "assess/scope.h"
#include "document/assessment.h"
#include <stdlib.h>
#include <string.h>

static void words(ts_paper *paper, const char *element, const char *text) {
  if (text == NULL || text[0] == '\0') return;
  ts_xml_start(&paper->out, element);
  ts_xml_words(&paper->out, text);
  ts_xml_end(&paper->out);
}

static void effect(ts_paper *paper, const ts_control *control) {
  const char *changes = ts_paper_changes(paper, control, NULL);
  const char *lowers = ts_paper_lowers(paper, control->lowers_likelihood, control->lowers_severity);
  if (changes != NULL && lowers != NULL)
    words(paper, "effect", ts_arena_printf(paper->arena, "%s; %s", changes, lowers));
  else
    words(paper, "effect", changes != NULL ? changes : lowers);
}

static void changes(ts_paper *paper, const ts_control *control) {
  for (size_t i = 0; i < control->change_count; i++) {
    ts_xml_start(&paper->out, "change");
    ts_xml_attribute(&paper->out, "entity", control->changes[i].entity);
    ts_xml_attribute(&paper->out, "fact", control->changes[i].fact);
    ts_xml_end(&paper->out);
  }
}

static void applied(ts_paper *paper, const ts_control *control) {
  for (size_t i = 0; i < ts_applied_count(paper->dossier); i++) {
    const ts_applied_control *one = ts_applied_at(paper->dossier, i);
    if (!ts_same(one->control, control->id)) continue;
    ts_xml_start(&paper->out, "applied");
    ts_xml_attribute(&paper->out, "subject", ts_paper_path(paper, one->scope));
    ts_xml_attribute(&paper->out, "subject-label", ts_paper_label(paper, one->scope));
    ts_xml_attribute(&paper->out, "state", one->in_place ? "in-place" : "planned");
    ts_xml_attribute(&paper->out, "by", one->by);
    ts_xml_attribute(&paper->out, "on", one->on);
    ts_xml_attribute(&paper->out, "evidence", one->evidence);
    ts_xml_attribute(&paper->out, "to", one->to);
    ts_xml_end(&paper->out);
  }
}

static void control(ts_paper *paper, const ts_control *it) {
  ts_xml_out *out = &paper->out;
  ts_xml_start(out, "control");
  ts_xml_attribute(out, "ref", it->id);
  ts_xml_attribute(out, "title", it->title);
  ts_xml_attribute(out, "kind", ts_hierarchy_word(it->kind));
  ts_xml_attributef(out, "kind-rank", "%d", (int)it->kind + 1);
  ts_xml_attribute(out, "pack", it->pack);
  ts_xml_attribute(out, "file", it->file);
  ts_xml_attributef(out, "line", "%d", it->line);
  ts_xml_attribute(out, "source", it->source);
  words(paper, "say", it->say);
  if (it->check != NULL || it->often != NULL || it->who != NULL) {
    ts_xml_start(out, "check");
    ts_xml_attribute(out, "how", it->check);
    ts_xml_attribute(out, "often", it->often);
    ts_xml_attribute(out, "who", it->who);
    ts_xml_end(out);
  }
  effect(paper, it);
  changes(paper, it);
  applied(paper, it);
  ts_xml_end(out);
}

/* ---- which ones ------------------------------------------------------------------- */

static void mark(ts_paper *paper, bool *wanted, const char *id) {
  const ts_control *control = ts_control_find(paper->packs, id);
  if (control != NULL) wanted[control - ts_control_at(paper->packs, 0)] = true;
}

static void mark_finding(ts_paper *paper, bool *wanted, const ts_finding *finding) {
  const ts_outcome *outcome = ts_finding_said(finding)->same;
  for (size_t i = 0; i < outcome->control_count; i++) mark(paper, wanted, outcome->controls[i]);
  for (size_t i = 0; i < finding->way_count; i++)
    for (size_t k = 0; k < 2 && finding->ways[i].does->controls[k]; k++)
      mark(paper, wanted, finding->ways[i].does->controls[k]->id);
}

static void mark_named(ts_paper *paper, bool *wanted) {
  const ts_assessment *a = paper->a;
  for (size_t i = 0; i < a->finding_count; i++) mark_finding(paper, wanted, &a->findings[i]);
  for (size_t i = 0; i < a->remedy_count; i++)
    for (size_t k = 0; k < a->remedies[i].control_count; k++)
      mark(paper, wanted, a->remedies[i].controls[k]->id);
  for (size_t i = 0; i < ts_applied_count(paper->dossier); i++)
    mark(paper, wanted, ts_applied_at(paper->dossier, i)->control);
}

void ts_paper_controls(ts_paper *paper) {
  size_t count = ts_control_count(paper->packs);
  bool *wanted = ts_arena_alloc(paper->arena, (count + 1) * sizeof *wanted);
  mark_named(paper, wanted);
  ts_xml_start(&paper->out, "controls");
  for (int kind = TS_ELIMINATION; kind <= TS_PPE; kind++)
    for (size_t i = 0; i < count; i++)
      if (wanted[i] && (int)ts_control_at(paper->packs, i)->kind == kind)
        control(paper, ts_control_at(paper->packs, i));
  ts_xml_end(&paper->out);
}
