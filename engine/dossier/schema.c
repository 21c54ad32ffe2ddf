/* The dossier's RELAX NG schema, generated from the vocabulary.
 *
 * It serves editors: names, choices and help while typing. What it cannot say
 * (dimensions, plausible ranges, references that lead somewhere) is said by
 * reading the dossier, which also checks all that is said here. */
#include "base/xml.h"
#include "dossier/vocabulary_index.h"

#include <stdlib.h>
#include <string.h>

static const char date_form[] = "[0-9]{4}-[0-9]{2}-[0-9]{2}";
static const char name_pattern[] = "[A-Za-z0-9_][A-Za-z0-9_.\\-]*";

typedef struct {
  const ts_vocabulary *vocabulary;
  ts_xml_out out;
} writer;

/* ---- small pieces ------------------------------------------------------- */

static void start_named(writer *w, const char *element, const char *name) {
  ts_xml_start(&w->out, element);
  ts_xml_attribute(&w->out, "name", name);
}

static void empty(writer *w, const char *element) {
  ts_xml_start(&w->out, element);
  ts_xml_end(&w->out);
}

static void reference(writer *w, const char *name) {
  start_named(w, "ref", name);
  ts_xml_end(&w->out);
}

static void value(writer *w, const char *word) {
  ts_xml_start(&w->out, "value");
  ts_xml_words(&w->out, word);
  ts_xml_end(&w->out);
}

static void parameter(writer *w, const char *pattern) {
  start_named(w, "param", "pattern");
  ts_xml_words(&w->out, pattern);
  ts_xml_end(&w->out);
}

static void pattern(writer *w, const char *text) {
  ts_xml_start(&w->out, "data");
  ts_xml_attribute(&w->out, "type", "token");
  parameter(w, text);
  ts_xml_end(&w->out);
}

static void words(writer *w, const char *const *list, size_t count) {
  ts_xml_start(&w->out, "choice");
  for (size_t i = 0; i < count; i++) value(w, list[i]);
  ts_xml_end(&w->out);
}

/* ---- what a value may look like ------------------------------------------ */

static void id_data(writer *w) {
  static const char *const taken[] = {"none", "production"};
  ts_xml_start(&w->out, "data");
  ts_xml_attribute(&w->out, "type", "token");
  parameter(w, name_pattern);
  ts_xml_start(&w->out, "except");
  words(w, taken, 2);
  pattern(w, date_form);
  ts_xml_end(&w->out);
  ts_xml_end(&w->out);
}

/* "(light|moderate|hard)" */
static void add_alternatives(ts_text *text, const ts_known_fact *fact) {
  for (size_t i = 0; i < fact->choice_count; i++)
    ts_text_addf(text, "%s%s", i ? "|" : "(", fact->choices[i]);
  ts_text_add(text, ")");
}

static void choice_data(writer *w, const ts_known_fact *fact) {
  ts_text text = {0};
  ts_text_add(&text, "\\?|");
  add_alternatives(&text, fact);
  ts_text_add(&text, "( ?\\| ?");
  add_alternatives(&text, fact);
  ts_text_add(&text, ")*");
  pattern(w, text.data);
  ts_text_release(&text);
}

static void set_data(writer *w, const ts_known_fact *fact) {
  ts_text text = {0};
  ts_text_add(&text, "\\?|none|");
  add_alternatives(&text, fact);
  ts_text_add(&text, "[?]?( ");
  add_alternatives(&text, fact);
  ts_text_add(&text, "[?]?)*");
  pattern(w, text.data);
  ts_text_release(&text);
}

static void data(writer *w, const ts_known_fact *fact) {
  static const char *const flags[] = {"yes", "no", "?"};
  switch (fact->def->type) {
  case TS_ID: id_data(w); break;
  case TS_REF: pattern(w, "\\S+"); break;
  case TS_REFS: pattern(w, "\\S+( \\S+)*"); break;
  case TS_DAY: pattern(w, date_form); break;
  case TS_KIND_WORD: words(w, fact->choices, fact->choice_count); break;
  case TS_TEXT: empty(w, "text"); break;
  case TS_QUANTITY: pattern(w, "\\?|.*[0-9].*"); break;
  case TS_COUNT: pattern(w, "\\?|[0-9].*"); break;
  case TS_FLAG: words(w, flags, 3); break;
  case TS_CHOICE: choice_data(w, fact); break;
  case TS_SET: set_data(w, fact); break;
  case TS_DATE: pattern(w, "\\?|[0-9].*-.*"); break;
  case TS_CLOCK: pattern(w, "\\?|[0-9].*:.*"); break;
  }
}

/* ---- attributes ----------------------------------------------------------- */

static void documentation(writer *w, const ts_fact_def *def) {
  ts_text text = {0};
  ts_text_add(&text, def->meaning);
  if (def->low && def->high && ts_is_number(def->type))
    ts_text_addf(&text, "; plausible: %s to %s", def->low, def->high);
  if (ts_is_fact(def->type) && def->measured) ts_text_addf(&text, "; found by: %s", def->measured);
  if (ts_is_fact(def->type) && def->asked) ts_text_addf(&text, "; ask: %s", def->asked);
  ts_xml_start(&w->out, "a:documentation");
  ts_xml_words(&w->out, text.data);
  ts_xml_end(&w->out);
  ts_text_release(&text);
}

static void attribute(writer *w, const ts_known_fact *fact) {
  bool required = !ts_is_fact(fact->def->type) && !fact->def->optional;
  if (!required) ts_xml_start(&w->out, "optional");
  start_named(w, "attribute", fact->def->name);
  documentation(w, fact->def);
  data(w, fact);
  ts_xml_end(&w->out);
  if (!required) ts_xml_end(&w->out);
}

/* An attribute that is no fact: of evidence, a control, a waiver. */
static void plain_attribute(writer *w, const char *name, bool required, const char *form) {
  if (!required) ts_xml_start(&w->out, "optional");
  start_named(w, "attribute", name);
  if (form)
    pattern(w, form);
  else
    empty(w, "text");
  ts_xml_end(&w->out);
  if (!required) ts_xml_end(&w->out);
}

/* ---- elements ------------------------------------------------------------- */

static void children(writer *w, const char *parent, bool single) {
  for (size_t i = 0; i < w->vocabulary->entity_count; i++) {
    const ts_entity_def *def = w->vocabulary->entities[i].def;
    if (!def->parent || strcmp(def->parent, parent) != 0 || def->single != single) continue;
    if (single) ts_xml_start(&w->out, "optional");
    reference(w, def->name);
    if (single) ts_xml_end(&w->out);
  }
}

/* What stands in an element, in any order: single parts once, the rest as often as wanted. */
static void content(writer *w, const char *parent, const char *const *others) {
  ts_xml_start(&w->out, "interleave");
  children(w, parent, true);
  ts_xml_start(&w->out, "zeroOrMore");
  ts_xml_start(&w->out, "choice");
  children(w, parent, false);
  for (; *others; others++) reference(w, *others);
  ts_xml_end(&w->out);
  ts_xml_end(&w->out);
  ts_xml_end(&w->out);
}

static void start_element(writer *w, const char *name, const char *meaning) {
  start_named(w, "define", name);
  start_named(w, "element", name);
  ts_xml_start(&w->out, "a:documentation");
  ts_xml_words(&w->out, meaning);
  ts_xml_end(&w->out);
}

static void end_element(writer *w) {
  ts_xml_end(&w->out);
  ts_xml_end(&w->out);
}

static void entity(writer *w, size_t index) {
  static const char *const others[] = {"control", "fact", NULL};
  const ts_known_entity *known = &w->vocabulary->entities[index];
  if (!known->def->parent) return; /* made by the reader, never written */
  start_element(w, known->def->name, known->def->meaning);
  for (size_t i = 0; i < known->count; i++) {
    const ts_known_fact *fact = ts_known_at(w->vocabulary, index, i);
    if (!fact->def->derived && !fact->added) attribute(w, fact);
  }
  content(w, known->def->name, others);
  end_element(w);
}

/* ---- elements that are no subjects ------------------------------------------ */

/* One attribute a row; a new element begins where `element` is given. */
static const struct {
  const char *element, *meaning, *attribute;
  bool required;
  const char *form;
} papers[] = {
    {"include", "another file of this dossier, in the same folder or below it", "href", true,
     "\\S.*"},
    {"fact", "a fact that a pack declares", "name", true, "\\S+"},
    {NULL, NULL, "value", true, NULL},
    {"evidence", "how a fact is known", "for", true, "\\S+"},
    {NULL, NULL, "kind", true, "measured|certificate|statement|estimate"},
    {NULL, NULL, "by", true, "\\S.*"},
    {NULL, NULL, "on", true, date_form},
    {NULL, NULL, "ref", false, NULL},
    {"control", "a control of the catalogue, planned or in place", "ref", true, "\\S+"},
    {NULL, NULL, "state", true, "planned|in-place"},
    {NULL, NULL, "to", false, NULL},
    {NULL, NULL, "by", false, NULL},
    {NULL, NULL, "on", false, date_form},
    {NULL, NULL, "evidence", false, NULL},
    {"waiver", "a rule that is set aside: by whom, until when, why", "rule", true, "\\S+"},
    {NULL, NULL, "subject", false, "\\S+"},
    {NULL, NULL, "by", false, NULL},
    {NULL, NULL, "until", false, date_form},
    {NULL, NULL, "because", false, NULL},
};

static void write_papers(writer *w) {
  for (size_t i = 0; i < sizeof papers / sizeof *papers; i++) {
    if (papers[i].element && i) end_element(w);
    if (papers[i].element) start_element(w, papers[i].element, papers[i].meaning);
    plain_attribute(w, papers[i].attribute, papers[i].required, papers[i].form);
  }
  end_element(w);
}

static void root(writer *w) {
  static const char *const others[] = {"include", "evidence", "waiver", "control", NULL};
  ts_xml_start(&w->out, "start");
  start_named(w, "element", "dossier");
  start_named(w, "attribute", "format");
  value(w, "1");
  ts_xml_end(&w->out);
  plain_attribute(w, "units", false, "metric|us");
  content(w, "dossier", others);
  ts_xml_end(&w->out);
  ts_xml_end(&w->out);
}

bool ts_vocabulary_write_schema(const ts_vocabulary *vocabulary, FILE *out) {
  writer w = {.vocabulary = vocabulary};
  ts_text_add(&w.out.text,
              "<!-- Made by `tankside vocabulary`: make it anew when packs or the program "
              "change. -->\n");
  ts_xml_start(&w.out, "grammar");
  ts_xml_attribute(&w.out, "xmlns", "http://relaxng.org/ns/structure/1.0");
  ts_xml_attribute(&w.out, "xmlns:a", "http://relaxng.org/ns/compatibility/annotations/1.0");
  ts_xml_attribute(&w.out, "datatypeLibrary", "http://www.w3.org/2001/XMLSchema-datatypes");
  root(&w);
  for (size_t i = 0; i < vocabulary->entity_count; i++) entity(&w, i);
  write_papers(&w);
  ts_xml_end(&w.out);
  bool good = fwrite(w.out.text.data, 1, w.out.text.length, out) == w.out.text.length;
  ts_text_release(&w.out.text);
  return good;
}
