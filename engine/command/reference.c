/* The reference as XML: topics, rules, controls, facts and functions, for templates/reference.xsl.
 * What a rule looks at and which controls it names is seen by asking it where nothing is known. */
#include "command/reference.h"
#include "base/text.h"
#include "command/topics.h"
#include "tankside/science.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
  ts_session *session;
  ts_xml_out out;
} writer;

static void element(writer *w, const char *name, const char *attribute, const char *value) {
  ts_xml_start(&w->out, name);
  ts_xml_attribute(&w->out, attribute, value);
  ts_xml_end(&w->out);
}

/* ---- topics -------------------------------------------------------------------- */

static void write_topic(writer *w, const ts_topic *topic) {
  ts_xml_start(&w->out, "topic");
  ts_xml_attribute(&w->out, "name", topic->name);
  ts_xml_attribute(&w->out, "says", topic->says);
  for (size_t i = 0; i < topic->rule_count; i++) element(w, "rule", "ref", topic->rules[i]->id);
  ts_xml_end(&w->out);
}

static bool write_topics(writer *w) {
  ts_topics topics;
  if (!topics_read(w->session, &topics)) return false;
  ts_xml_start(&w->out, "topics");
  for (size_t i = 0; i < topics.count; i++) {
    const char *section = topics.at[i].section;
    bool first = i == 0 || !ts_same(section, topics.at[i - 1].section);
    if (first && i > 0) ts_xml_end(&w->out);
    if (first) ts_xml_start(&w->out, "section");
    if (first) ts_xml_attribute(&w->out, "name", section);
    write_topic(w, &topics.at[i]);
  }
  if (topics.count > 0) ts_xml_end(&w->out);
  ts_xml_end(&w->out);
  return true;
}

/* ---- rules --------------------------------------------------------------------- */

static void write_reads(writer *w, const ts_dossier *world, const ts_evaluation *e) {
  for (size_t i = 0; i < e->read_count; i++) {
    const ts_fact_def *fact = ts_slot_fact(world, e->reads[i]);
    if (fact->derived) continue; /* what it is made of is listed */
    ts_xml_start(&w->out, "reads");
    ts_xml_attribute(&w->out, "entity", fact->entity);
    ts_xml_attribute(&w->out, "fact", fact->name);
    ts_xml_end(&w->out);
  }
}

static void note_control(ts_packs *packs, bool *named, const char *id) {
  for (size_t i = 0; i < ts_control_count(packs); i++)
    if (ts_same(ts_control_at(packs, i)->id, id)) named[i] = true;
}

static void write_controls_named(writer *w, const ts_evaluation *e) {
  ts_packs *packs = w->session->packs;
  bool *named = ts_alloc((ts_control_count(packs) + 1) * sizeof *named);
  for (size_t c = 0; c < e->course_count; c++)
    for (size_t o = 0; o < e->courses[c].outcome_count; o++)
      for (size_t i = 0; i < e->courses[c].outcomes[o].control_count; i++)
        note_control(packs, named, e->courses[c].outcomes[o].controls[i]);
  for (size_t i = 0; i < ts_control_count(packs); i++)
    if (named[i]) element(w, "control", "ref", ts_control_at(packs, i)->id);
  free(named);
}

static void write_looks(writer *w, ts_evaluator *evaluator, size_t index) {
  ts_subject subject;
  ts_dossier *world = ts_dossier_example(w->session->vocabulary, w->session->units,
                                         ts_rule_at(w->session->packs, index)->each, &subject);
  ts_evaluator_use(evaluator, world);
  const ts_evaluation *e = ts_evaluate(evaluator, index, subject, NULL, 0);
  if (e->unresolved) ts_xml_attribute(&w->out, "more", "yes");
  write_reads(w, world, e);
  write_controls_named(w, e);
  ts_dossier_free(world);
}

static void write_rule(writer *w, ts_evaluator *evaluator, size_t index) {
  const ts_rule *rule = ts_rule_at(w->session->packs, index);
  ts_xml_start(&w->out, "rule");
  ts_xml_attribute(&w->out, "id", rule->id);
  ts_xml_attribute(&w->out, "title", rule->title);
  ts_xml_attribute(&w->out, "each", rule->each);
  ts_xml_attribute(&w->out, "harm", rule->harm);
  ts_xml_attribute(&w->out, "reasoning", rule->reasoning);
  ts_xml_attributef(&w->out, "at", "%s/%s:%d", rule->pack, rule->file, rule->line);
  ts_xml_attributef(&w->out, "examples", "%zu", rule->example_count);
  write_looks(w, evaluator, index);
  for (size_t i = 0; i < rule->source_count; i++) element(w, "source", "text", rule->sources[i]);
  ts_xml_end(&w->out);
}

static void write_rules(writer *w) {
  ts_evaluator *evaluator = ts_evaluator_new(w->session->packs, NULL);
  ts_xml_start(&w->out, "rules");
  for (size_t i = 0; i < ts_rule_count(w->session->packs); i++) write_rule(w, evaluator, i);
  ts_xml_end(&w->out);
  ts_evaluator_free(evaluator);
}

/* ---- controls ------------------------------------------------------------------ */

static void write_effect(writer *w, const ts_control *control) {
  static const char *const hows[] = {"at most", "at least", "becomes"};
  if (control->lowers_likelihood > 0)
    ts_xml_attributef(&w->out, "lowers-likelihood", "%d", control->lowers_likelihood);
  if (control->lowers_severity > 0)
    ts_xml_attributef(&w->out, "lowers-severity", "%d", control->lowers_severity);
  for (size_t i = 0; i < control->change_count; i++) {
    const ts_change *change = &control->changes[i];
    ts_xml_start(&w->out, "change");
    ts_xml_attribute(&w->out, "entity", change->entity);
    ts_xml_attribute(&w->out, "fact", change->fact);
    ts_xml_attribute(&w->out, "how", hows[change->how]);
    ts_xml_attribute(&w->out, "to", change->text);
    ts_xml_end(&w->out);
  }
}

static void write_controls(writer *w) {
  static const char *const kinds[] = {"elimination", "substitution", "engineering",
                                      "administrative", "ppe"};
  ts_xml_start(&w->out, "controls");
  for (size_t i = 0; i < ts_control_count(w->session->packs); i++) {
    const ts_control *control = ts_control_at(w->session->packs, i);
    ts_xml_start(&w->out, "control");
    ts_xml_attribute(&w->out, "id", control->id);
    ts_xml_attribute(&w->out, "title", control->title);
    ts_xml_attribute(&w->out, "kind", kinds[control->kind]);
    ts_xml_attribute(&w->out, "say", control->say);
    ts_xml_attribute(&w->out, "check", control->check);
    ts_xml_attribute(&w->out, "often", control->often);
    ts_xml_attribute(&w->out, "who", control->who);
    ts_xml_attribute(&w->out, "source", control->source);
    write_effect(w, control);
    ts_xml_end(&w->out);
  }
  ts_xml_end(&w->out);
}

/* ---- facts --------------------------------------------------------------------- */

/* Where it is a list of words, the words; where it leads to subjects, to which. */
static void write_fact(writer *w, const ts_fact_def *fact) {
  static const char *const types[] = {[TS_ID] = "id",
                                      [TS_REF] = "ref",
                                      [TS_REFS] = "refs",
                                      [TS_DAY] = "day",
                                      [TS_KIND_WORD] = "word",
                                      [TS_TEXT] = "text",
                                      [TS_QUANTITY] = "quantity",
                                      [TS_COUNT] = "count",
                                      [TS_FLAG] = "flag",
                                      [TS_CHOICE] = "choice",
                                      [TS_SET] = "set",
                                      [TS_DATE] = "date",
                                      [TS_CLOCK] = "clock"};
  static const char *const readers[] = {NULL, "crew", "confidential"};
  ts_xml_start(&w->out, "fact");
  ts_xml_attribute(&w->out, "name", fact->name);
  ts_xml_attribute(&w->out, "type", types[fact->type]);
  ts_xml_attribute(&w->out, "choices", fact->choices);
  ts_xml_attribute(&w->out, "low", fact->low);
  ts_xml_attribute(&w->out, "high", fact->high);
  ts_xml_attribute(&w->out, "unit", fact->unit && fact->unit[0] ? fact->unit : NULL);
  ts_xml_attribute(&w->out, "unit-us", fact->unit_us);
  ts_xml_attribute(&w->out, "meaning", fact->meaning);
  ts_xml_attribute(&w->out, "measured", fact->measured);
  ts_xml_attribute(&w->out, "asked", fact->asked);
  ts_xml_attribute(&w->out, "sees", readers[fact->sees]);
  if (fact->derived) ts_xml_attribute(&w->out, "derived", "yes");
  if (fact->optional) ts_xml_attribute(&w->out, "optional", "yes");
  ts_xml_end(&w->out);
}

/* The other subjects a rule reaches from one of this kind. */
static void write_links(writer *w, const ts_entity_def *entity) {
  enum { MOST = 512 };
  const char *names[MOST];
  ts_subject subject;
  ts_dossier *world =
      ts_dossier_example(w->session->vocabulary, w->session->units, entity->name, &subject);
  size_t count = ts_subject_field_names(world, subject, names, MOST);
  for (size_t i = 0; i < count && i < MOST; i++) {
    ts_field_kind kind = ts_subject_field(world, subject, names[i]).kind;
    if (kind != TS_FIELD_SUBJECT && kind != TS_FIELD_LIST) continue;
    ts_xml_start(&w->out, "leads");
    ts_xml_attribute(&w->out, "to", names[i]);
    ts_xml_attribute(&w->out, "list", kind == TS_FIELD_LIST ? "yes" : NULL);
    ts_xml_end(&w->out);
  }
  ts_dossier_free(world);
}

static void write_entities(writer *w) {
  const ts_vocabulary *vocabulary = w->session->vocabulary;
  ts_xml_start(&w->out, "entities");
  for (size_t i = 0; i < ts_entity_count(vocabulary); i++) {
    const ts_entity_def *entity = ts_entity_at(vocabulary, i);
    ts_xml_start(&w->out, "entity");
    ts_xml_attribute(&w->out, "name", entity->name);
    ts_xml_attribute(&w->out, "meaning", entity->meaning);
    ts_xml_attribute(&w->out, "parent", entity->parent);
    ts_xml_attribute(&w->out, "single", entity->single ? "yes" : NULL);
    ts_xml_attribute(&w->out, "plural", entity->single ? NULL : entity->plural);
    for (size_t k = 0; k < ts_fact_count(vocabulary, entity); k++)
      write_fact(w, ts_fact_at(vocabulary, entity, k));
    write_links(w, entity);
    ts_xml_end(&w->out);
  }
  ts_xml_end(&w->out);
}

/* ---- functions ----------------------------------------------------------------- */

static void write_function(writer *w, const ts_function *f) {
  static const char *const directions[] = {"rises", "falls", "turns"};
  char shown[FUNCTION_SHOWN];
  ts_xml_start(&w->out, "function");
  ts_xml_attribute(&w->out, "name", f->name);
  ts_xml_attribute(&w->out, "topic", f->topic);
  ts_xml_attribute(&w->out, "meaning", f->meaning);
  ts_xml_attribute(&w->out, "unit", f->unit[0] ? f->unit : NULL);
  ts_xml_attribute(&w->out, "formula", f->formula);
  ts_xml_attribute(&w->out, "source", f->source);
  ts_xml_attribute(&w->out, "limits", f->limits);
  for (int i = 0; i < f->count; i++) {
    const ts_argument *a = &f->argument[i];
    ts_xml_start(&w->out, "argument");
    ts_xml_attribute(&w->out, "name", a->name);
    ts_xml_attribute(&w->out, "unit", a->unit[0] ? a->unit : NULL);
    ts_xml_attribute(&w->out, "valid",
                     function_show(w->session, (ts_range){a->lo, a->hi}, a->dim, a->unit, shown));
    ts_xml_attribute(&w->out, "direction", directions[a->direction]);
    ts_xml_end(&w->out);
  }
  ts_xml_end(&w->out);
}

static void write_functions(writer *w) {
  ts_xml_start(&w->out, "functions");
  for (const ts_function *f = ts_functions(); f->name != NULL; f++) write_function(w, f);
  ts_xml_end(&w->out);
}

/* ---- all ----------------------------------------------------------------------- */

bool reference_write(ts_session *session, ts_text *xml) {
  writer w = {.session = session};
  ts_xml_begin(&w.out);
  ts_xml_start(&w.out, "reference");
  ts_xml_attribute(&w.out, "tankside", TANKSIDE_VERSION);
  bool good = write_topics(&w);
  write_rules(&w);
  write_controls(&w);
  write_entities(&w);
  write_functions(&w);
  ts_xml_end(&w.out);
  *xml = w.out.text;
  return good;
}
