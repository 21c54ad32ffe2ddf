/* Findings and duties: what was said, how it scores, what it hangs and rests on. */
#include "assess/merge.h"
#include "assess/scope.h"
#include "document/assessment.h"
#include <string.h>

static const char *const views[] = {"described", "in-place", "planned"};

/* ---- scores ------------------------------------------------------------------ */

static void number(ts_paper *paper, const char *side, const char *what, int value) {
  char name[32], text[32];
  TS_JOIN(name, sizeof name, side, what);
  ts_xml_attribute(&paper->out, name, ts_number_round(value, 15, text, sizeof text));
}

static void score_side(ts_paper *paper, const char *side, ts_score score) {
  char name[32];
  if (score.likelihood == 0) {
    TS_JOIN(name, sizeof name, side, "-none");
    ts_xml_attribute(&paper->out, name, "yes");
    return;
  }
  number(paper, side, "-likelihood", score.likelihood);
  number(paper, side, "-severity", score.severity);
  number(paper, side, "", score.likelihood * score.severity);
  TS_JOIN(name, sizeof name, side, "-band");
  ts_xml_attribute(&paper->out, name,
                   ts_matrix_band(paper->a->in.matrix, score.likelihood, score.severity)->id);
}

static void score(ts_paper *paper, const ts_finding *finding, int view) {
  static const char *const certainties[] = {"gone", "possible", "certain"};
  const ts_standing *standing = &finding->view[view].standing;
  ts_xml_start(&paper->out, "score");
  ts_xml_attribute(&paper->out, "as", views[view]);
  if (finding->word == TS_HAZARD) {
    score_side(paper, "worst", standing->worst);
    score_side(paper, "best", standing->best);
  } else {
    ts_xml_attribute(&paper->out, "state", certainties[standing->certainty]);
  }
  ts_xml_end(&paper->out);
}

/* ---- why ---------------------------------------------------------------------- */

/* Left out when it says the same: nothing had to be withheld. */
static void withheld(ts_paper *paper, const char *text, const char *other) {
  if (other != NULL && !ts_same(text, other)) ts_xml_attribute(&paper->out, "withheld", other);
}

static void because(ts_paper *paper, const ts_outcome *outcome, const char *which) {
  if (outcome->because == NULL || outcome->because[0] == '\0') return;
  ts_xml_start(&paper->out, "because");
  ts_xml_attribute(&paper->out, "case", which);
  if (outcome->form != NULL) ts_xml_attribute(&paper->out, "form", outcome->form);
  withheld(paper, outcome->because, outcome->because_withheld);
  ts_xml_words(&paper->out, outcome->because);
  ts_xml_end(&paper->out);
}

/* A working shows the numbers behind a value, so it goes with it: who gets `withheld` in
 * place of the value gets no working either. The names alone give nothing away. */
static void values(ts_paper *paper, const ts_outcome *outcome) {
  for (size_t i = 0; i < outcome->value_count; i++) {
    const ts_shown *value = &outcome->values[i];
    ts_xml_start(&paper->out, "value");
    ts_xml_attribute(&paper->out, "name", value->name);
    ts_xml_attribute(&paper->out, "title", ts_paper_title(paper, value->name));
    ts_xml_attribute(&paper->out, "text", value->shown);
    ts_xml_attribute(&paper->out, "names", value->names);
    ts_xml_attribute(&paper->out, "working", value->working);
    withheld(paper, value->shown, value->withheld);
    ts_xml_end(&paper->out);
  }
}

static void condition(ts_paper *paper, const ts_decision *decision, const char *which) {
  ts_xml_start(&paper->out, "condition");
  ts_xml_attribute(&paper->out, "text", decision->text);
  ts_xml_attribute(&paper->out, "case", which);
  ts_xml_attribute(&paper->out, "settled", ts_paper_yes(decision->settled));
  withheld(paper, decision->text, decision->withheld);
  ts_xml_end(&paper->out);
}

static bool said_before(const ts_spoken *said, size_t index) {
  const ts_decision *one = &said->decisions[index];
  for (size_t i = 0; i < index; i++)
    if (ts_same(said->decisions[i].text, one->text)) return true;
  return false;
}

/* What is open first: those are the conditions a reader can still change. What is
 * settled is so in every case and is listed once, with the worst. */
static void conditions(ts_paper *paper, const ts_spoken *said, const char *which) {
  int last = ts_same(which, "worst");
  for (int settled = 0; settled <= last; settled++)
    for (size_t i = 0; i < said->same->decision_count; i++)
      if (said->decisions[i].settled == settled && !said_before(said, i))
        condition(paper, &said->decisions[i], which);
}

static bool is_left_out(const ts_paper *paper, uint32_t slot) {
  return paper->only.facts != NULL && !paper->only.facts[slot];
}

static void rests(ts_paper *paper, const ts_outcome *outcome) {
  for (size_t i = 0; i < outcome->fact_count; i++) {
    uint32_t slot = outcome->facts[i];
    if (is_left_out(paper, slot)) continue;
    const ts_fact_def *fact = ts_slot_fact(paper->dossier, slot);
    const char *text = ts_paper_fact(paper, slot);
    char path[256];
    if (text == NULL) continue;
    ts_xml_start(&paper->out, "rests");
    ts_xml_attribute(&paper->out, "path", ts_slot_path(paper->dossier, slot, path, sizeof path));
    ts_xml_attribute(&paper->out, "title", ts_paper_title(paper, fact->name));
    ts_xml_attribute(&paper->out, "text", text);
    ts_xml_attribute(&paper->out, "state", ts_paper_state(paper, slot));
    ts_xml_attribute(&paper->out, "assumed", ts_paper_yes(ts_slot_assumed(paper->dossier, slot)));
    ts_xml_attribute(&paper->out, "sees", ts_paper_sees(fact));
    ts_xml_end(&paper->out);
  }
}

static const ts_pair *pair_of(const ts_assessment *a, const ts_finding *finding) {
  size_t low = 0, high = a->pair_count;
  while (low < high) {
    size_t middle = (low + high) / 2;
    const ts_pair *p = &a->pairs[middle];
    bool before =
        p->subject != finding->subject ? p->subject < finding->subject : p->rule < finding->rule;
    if (before)
      low = middle + 1;
    else
      high = middle;
  }
  const ts_pair *p = &a->pairs[low];
  bool there = low < a->pair_count && p->rule == finding->rule && p->subject == finding->subject;
  return there ? p : NULL;
}

/* What the rule reads besides, on other courses: a change there may change how it stands too. */
static void reads(ts_paper *paper, const ts_finding *finding, const ts_outcome *outcome) {
  const ts_pair *pair = pair_of(paper->a, finding);
  size_t at = 0;
  for (size_t i = 0; pair != NULL && i < pair->read_count; i++) {
    uint32_t slot = pair->reads[i];
    char path[256];
    while (at < outcome->fact_count && outcome->facts[at] < slot) at++;
    if (at < outcome->fact_count && outcome->facts[at] == slot) continue;
    if (is_left_out(paper, slot) || ts_paper_fact(paper, slot) == NULL) continue;
    ts_xml_start(&paper->out, "reads");
    ts_xml_attribute(&paper->out, "path", ts_slot_path(paper->dossier, slot, path, sizeof path));
    ts_xml_end(&paper->out);
  }
}

static void functions(ts_paper *paper, const ts_outcome *outcome) {
  for (size_t i = 0; i < outcome->call_count; i++) {
    const ts_function *function = ts_function_find(outcome->calls[i]);
    if (function == NULL) continue;
    ts_xml_start(&paper->out, "function");
    ts_xml_attribute(&paper->out, "name", function->name);
    ts_xml_attribute(&paper->out, "formula", function->formula);
    ts_xml_attribute(&paper->out, "source", function->source);
    ts_xml_attribute(&paper->out, "limits", function->limits);
    ts_xml_end(&paper->out);
  }
}

static void sources(ts_paper *paper, const ts_rule *rule) {
  for (size_t i = 0; i < rule->source_count; i++) {
    ts_xml_start(&paper->out, "source");
    ts_xml_words(&paper->out, rule->sources[i]);
    ts_xml_end(&paper->out);
  }
}

/* The two cases a reader compares: the worst course, and the best one that says it,
 * where the facts leave both open. */
static void cases(ts_paper *paper, const ts_case *told) {
  const ts_spoken *worst = told->worst, *best = told->best != worst ? told->best : NULL;
  ts_outcome at_worst = ts_spoken_outcome(worst);
  because(paper, &at_worst, "worst");
  if (best != NULL && !ts_same(best->because, worst->because)) {
    ts_outcome at_best = ts_spoken_outcome(best);
    because(paper, &at_best, "best");
  }
  values(paper, &at_worst);
  conditions(paper, worst, "worst");
  if (best != NULL) conditions(paper, best, "best");
}

static void why(ts_paper *paper, const ts_finding *finding) {
  const ts_case *told = &finding->view[ts_finding_speaks(finding)];
  if (paper->only.findings == NULL) cases(paper, told);
  ts_outcome worst = ts_spoken_outcome(told->worst);
  rests(paper, &worst);
  reads(paper, finding, &worst);
}

/* ---- controls that bear on a finding -------------------------------------------- */

static void control(ts_paper *paper, const ts_finding *finding, const ts_outcome *outcome,
                    size_t index) {
  const ts_control *found = ts_control_find(paper->packs, outcome->controls[index]);
  const ts_applied_control *applied =
      ts_applied_here(paper->dossier, outcome->controls[index], finding->subject, TS_AS_PLANNED);
  if (found == NULL) return;
  ts_steps steps = ts_credit_of(&paper->a->in, finding->subject, TS_AS_PLANNED, outcome, index);
  ts_xml_start(&paper->out, "control");
  ts_xml_attribute(&paper->out, "ref", found->id);
  ts_xml_attribute(&paper->out, "title", found->title);
  ts_xml_attribute(&paper->out, "kind", ts_hierarchy_word(found->kind));
  ts_xml_attribute(&paper->out, "state",
                   applied == NULL     ? "not-planned"
                   : applied->in_place ? "in-place"
                                       : "planned");
  if (outcome->word == TS_HAZARD) /* nothing else has a score to lower */
    ts_xml_attribute(&paper->out, "credited",
                     ts_paper_lowers(paper, steps.likelihood, steps.severity));
  if (found->change_count > 0)
    ts_xml_attribute(&paper->out, "changes",
                     ts_paper_changes(paper, found, applied != NULL ? applied->to : NULL));
  ts_xml_end(&paper->out);
}

static void controls(ts_paper *paper, const ts_finding *finding) {
  const ts_outcome whole = ts_finding_outcome(finding), *outcome = &whole;
  for (size_t i = 0; i < outcome->control_count; i++) {
    bool again = false;
    for (size_t k = 0; k < i; k++)
      again = again || ts_same(outcome->controls[k], outcome->controls[i]);
    if (!again) control(paper, finding, outcome, i);
  }
}

/* Discreet on any course that is told of: another reader must not learn that by what is missing. */
static bool discreet(const ts_finding *finding) {
  for (int v = 0; v < TS_VIEWS; v++) {
    const ts_case *told = &finding->view[v];
    if ((told->worst && told->worst->same->discreet) || (told->best && told->best->same->discreet))
      return true;
  }
  return false;
}

/* What it comes from and what would change it; of a duty no controls bear on a score. */
static void behind(ts_paper *paper, const ts_finding *finding) {
  functions(paper, ts_finding_said(finding)->same);
  sources(paper, ts_rule_at(paper->packs, finding->rule));
  if (finding->word != TS_DUTY) controls(paper, finding);
  ts_paper_would_change(paper, finding);
}

/* ---- the two lists ----------------------------------------------------------------- */

static bool unresolved(const ts_finding *finding) {
  for (int v = 0; v < TS_VIEWS; v++)
    if (finding->view[v].standing.unresolved) return true;
  return false;
}

static void place(ts_paper *paper, const ts_finding *finding, const char *const *fields,
                  size_t count) {
  for (size_t i = 0; i < count; i++)
    ts_xml_attribute(&paper->out, fields[i], ts_paper_path_to(paper, finding->subject, fields[i]));
}

static void waived(ts_paper *paper, const ts_waiver *waiver) {
  if (waiver == NULL) return;
  ts_xml_attribute(&paper->out, "waived-by", waiver->by);
  ts_xml_attribute(&paper->out, "waived-until", waiver->until);
  ts_xml_attribute(&paper->out, "waived-because", waiver->because);
}

static void where(ts_paper *paper, const ts_rule *rule, int line) {
  ts_xml_attribute(&paper->out, "pack", rule->pack);
  ts_xml_attribute(&paper->out, "file", rule->file);
  ts_xml_attributef(&paper->out, "line", "%d", line > 0 ? line : rule->line);
}

static void finding_attributes(ts_paper *paper, const ts_finding *finding) {
  static const char *const fields[] = {"task", "day", "site"};
  const ts_rule *rule = ts_rule_at(paper->packs, finding->rule);
  const ts_outcome whole = ts_finding_outcome(finding), *outcome = &whole;
  const char *who = outcome->who;
  ts_xml_out *out = &paper->out;
  ts_xml_attribute(out, "id", finding->id);
  ts_xml_attribute(out, "word", ts_word_name(finding->word));
  ts_xml_attribute(out, "rule", rule->id);
  ts_xml_attribute(out, "title", rule->title);
  ts_xml_attribute(out, "subject", ts_paper_path(paper, finding->subject));
  ts_xml_attribute(out, "subject-label", ts_paper_label(paper, finding->subject));
  if (paper->only.findings == NULL) {
    ts_xml_attribute(out, "entity", rule->each);
    place(paper, finding, fields, 3);
  }
  if (finding->about[0] != '\0') ts_xml_attribute(out, "about", finding->about);
  if (paper->only.findings != NULL) return;
  where(paper, rule, outcome->line);
  ts_xml_attribute(out, "settled", ts_paper_yes(finding->view[TS_AS_DESCRIBED].standing.settled));
  ts_xml_attribute(out, "unresolved", ts_paper_yes(unresolved(finding)));
  if (finding->too_open) ts_xml_attribute(out, "too-open", "yes");
  if (discreet(finding)) ts_xml_attribute(out, "discreet", "yes");
  waived(paper, finding->waiver);
  ts_xml_attribute(out, "harm", rule->harm);
  ts_xml_attribute(out, "who", who != NULL ? who : ts_paper_who(paper, finding->subject));
  ts_xml_attribute(out, "reasoning", rule->reasoning);
}

static void finding(ts_paper *paper, size_t number) {
  const ts_finding *it = &paper->a->findings[number];
  ts_xml_start(&paper->out, "finding");
  finding_attributes(paper, it);
  for (int v = 0; v < TS_VIEWS; v++) score(paper, it, v);
  why(paper, it);
  if (it->view[TS_AS_DESCRIBED].standing.floored || it->view[TS_IN_PLACE].standing.floored) {
    ts_xml_start(&paper->out, "floored");
    ts_xml_end(&paper->out);
  }
  if (paper->only.findings == NULL) behind(paper, it);
  ts_xml_end(&paper->out);
}

void ts_paper_findings(ts_paper *paper) {
  ts_xml_start(&paper->out, "findings");
  ts_paper_each(paper, paper->a->finding_count, paper->only.findings, finding);
  ts_xml_end(&paper->out);
}

/* A source that was recalled, or read only in what somebody else made of it, must be looked up
 * before anyone relies on it. */
static bool text_unread(const ts_rule *rule) {
  for (size_t i = 0; i < rule->source_count; i++)
    if (strstr(rule->sources[i], "(from memory)") != NULL ||
        strstr(rule->sources[i], "(second hand)") != NULL)
      return true;
  return false;
}

static void duty(ts_paper *paper, size_t number) {
  const ts_finding *it = &paper->a->duties[number];
  static const char *const fields[] = {"task"};
  const ts_rule *rule = ts_rule_at(paper->packs, it->rule);
  const ts_outcome whole = ts_finding_outcome(it), *outcome = &whole;
  ts_xml_out *out = &paper->out;
  ts_xml_start(out, "duty");
  ts_xml_attribute(out, "id", it->id);
  ts_xml_attribute(out, "rule", rule->id);
  ts_xml_attribute(out, "title", rule->title);
  ts_xml_attribute(out, "subject", ts_paper_path(paper, it->subject));
  ts_xml_attribute(out, "subject-label", ts_paper_label(paper, it->subject));
  place(paper, it, fields, 1);
  ts_xml_attribute(out, "state", ts_duty_name(it->view[TS_AS_DESCRIBED].duty));
  ts_xml_attribute(out, "state-in-place", ts_duty_name(it->view[TS_IN_PLACE].duty));
  ts_xml_attribute(out, "instrument", outcome->instrument);
  ts_xml_attribute(out, "section", outcome->section);
  ts_xml_attribute(out, "in-force-from", outcome->from);
  ts_xml_attribute(out, "in-force-to", outcome->to);
  ts_xml_attribute(out, "evidence", outcome->evidence);
  where(paper, rule, outcome->line);
  if (discreet(it)) ts_xml_attribute(out, "discreet", "yes");
  if (text_unread(rule)) ts_xml_attribute(out, "check-the-text", "yes");
  why(paper, it);
  if (paper->only.duties == NULL) behind(paper, it);
  ts_xml_end(out);
}

void ts_paper_duties(ts_paper *paper) {
  ts_xml_start(&paper->out, "duties");
  ts_paper_each(paper, paper->a->duty_count, paper->only.duties, duty);
  ts_xml_end(&paper->out);
}
