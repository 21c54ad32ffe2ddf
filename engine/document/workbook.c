#include "document/workbook.h"

#include "base/xml.h"
#include "document/transform.h"
#include <stdlib.h>
#include <string.h>

enum { BLANK_ROWS = 40 };

/* Lists to which rows may be added, and whose they are. */
static const struct {
  const char *entity, *asked;
  bool facts; /* with all facts, not only what each is and refers to */
} lists[] = {{"person", "production manager", false}, {"day", "production manager", false},
             {"task", "assistant director", false},   {"immersion", "assistant director", false},
             {"post", "diving supervisor", false},    {"record", "diving supervisor", true}};

static const char own_business[] = "the person";

typedef struct {
  const ts_dossier *dossier;
  ts_arena *arena;
  ts_xml_out out;
  const char **choices; /* lists of words that cells offer */
  size_t choice_count, choice_capacity;
} writer;

/* ---- departments ---------------------------------------------------------------------- */

static bool is_asked(const ts_fact_def *fact) {
  return fact->type >= TS_QUANTITY && !fact->derived;
}

static ts_department department_of(const ts_dossier *dossier, uint32_t slot, ts_arena *arena) {
  const ts_fact_def *fact = ts_slot_fact(dossier, slot);
  ts_department d = {fact->asked, fact->asked, TS_NO_SUBJECT};
  if (!ts_same(fact->asked, own_business)) return d;
  d.person = ts_leads_to(dossier, ts_slot_subject(dossier, slot), "person");
  if (d.person != TS_NO_SUBJECT)
    d.name = ts_arena_printf(arena, "person %s", ts_subject_at(dossier, d.person)->path);
  return d;
}

static bool same_department(const ts_department *a, const ts_department *b) {
  return ts_same(a->asked, b->asked) && a->person == b->person;
}

/* Those made by the reader, like a person's day, are not written. */
static bool is_written(const ts_dossier *dossier, uint32_t slot) {
  return ts_subject_at(dossier, ts_slot_subject(dossier, slot))->entity->parent != NULL;
}

static void add_department(ts_department *all, size_t *count, ts_department d) {
  for (size_t i = 0; i < *count; i++)
    if (same_department(&all[i], &d)) return;
  all[(*count)++] = d;
}

ts_department *ts_departments(const ts_dossier *dossier, ts_arena *arena, size_t *count) {
  size_t most = ts_subject_count(dossier) + 64;
  ts_department *all = ts_arena_alloc(arena, most * sizeof *all);
  *count = 0;
  for (size_t i = 0; i < sizeof lists / sizeof *lists; i++)
    add_department(all, count, (ts_department){lists[i].asked, lists[i].asked, TS_NO_SUBJECT});
  for (int people = 0; people < 2; people++)
    for (uint32_t slot = 0; slot < ts_slot_count(dossier); slot++) {
      const ts_fact_def *fact = ts_slot_fact(dossier, slot);
      if (!is_asked(fact) || !is_written(dossier, slot)) continue;
      if (ts_same(fact->asked, own_business) == (people == 1))
        add_department(all, count, department_of(dossier, slot, arena));
    }
  return all;
}

/* ---- cells ---------------------------------------------------------------------------- */

/* The name of a list of words, written once before the sheets; NULL for none. */
static const char *choices_named(const writer *w, const char *words) {
  for (size_t i = 0; words != NULL && i < w->choice_count; i++)
    if (ts_same(w->choices[i], words)) return ts_arena_printf(w->arena, "c%zu", i + 1);
  return NULL;
}

static const char *words_of(const writer *w, const ts_fact_def *fact) {
  if (fact->type == TS_FLAG) return "yes no ?";
  if (fact->type == TS_CHOICE) return ts_arena_printf(w->arena, "%s ?", fact->choices);
  return fact->type == TS_KIND_WORD ? fact->choices : NULL;
}

static void collect_words(writer *w, const char *words) {
  if (words == NULL || choices_named(w, words) != NULL) return;
  TS_GROW(w->choices, w->choice_count, w->choice_capacity);
  w->choices[w->choice_count++] = words;
}

static void cell(writer *w, const char *text, const char *words) {
  ts_xml_start(&w->out, "cell");
  ts_xml_attribute(&w->out, "choices", choices_named(w, words));
  ts_xml_attribute(&w->out, "text", text);
  ts_xml_end(&w->out);
}

/* `kind`: "told" (not to be changed), "fill" or "name". Width in mm. */
static void column(writer *w, const char *heading, const char *kind, int width, const char *words,
                   const char *meaning) {
  ts_xml_start(&w->out, "column");
  ts_xml_attribute(&w->out, "heading", heading);
  ts_xml_attribute(&w->out, "kind", kind);
  ts_xml_attributef(&w->out, "width", "%d", width);
  ts_xml_attribute(&w->out, "choices", choices_named(w, words));
  ts_xml_attribute(&w->out, "meaning", meaning);
  ts_xml_end(&w->out);
}

static void sheet(writer *w, const char *name, bool locked, int frozen, int blank) {
  ts_xml_start(&w->out, "sheet");
  ts_xml_attribute(&w->out, "name", name);
  ts_xml_attribute(&w->out, "locked", locked ? "yes" : "no");
  ts_xml_attributef(&w->out, "frozen", "%d", frozen);
  ts_xml_attributef(&w->out, "blank", "%d", blank);
}

static const char *unit_of(const ts_dossier *dossier, const ts_fact_def *fact) {
  bool us = ts_dossier_units(dossier) == TS_US && fact->unit_us != NULL;
  return fact->type != TS_QUANTITY ? "" : us ? fact->unit_us : fact->unit;
}

/* ---- a sheet of facts ----------------------------------------------------------------- */

static const char kinds[] = "measured certificate statement estimate";

static void fact_columns(writer *w) {
  column(w, "subject", "name", 34, NULL, NULL);
  column(w, "fact", "name", 34, NULL, NULL);
  column(w, "of", "told", 40, NULL, NULL);
  column(w, "what it means", "told", 70, NULL, NULL);
  column(w, "now", "told", 30, NULL, NULL);
  column(w, "new value", "fill", 34, NULL, NULL);
  column(w, "unit", "told", 16, NULL, NULL);
  column(w, "what to write", "told", 52, NULL, NULL);
  column(w, "known from", "fill", 24, kinds, NULL);
  column(w, "by whom", "fill", 30, NULL, NULL);
  column(w, "on which day", "fill", 24, NULL, NULL);
  column(w, "kept where", "fill", 30, NULL, NULL);
  column(w, "found by", "told", 34, NULL, NULL);
  column(w, "seen by", "told", 20, NULL, NULL);
}

static const char *seen_by(const ts_fact_def *fact) {
  return fact->sees == TS_OPEN_TO_ALL ? "everybody"
         : fact->sees == TS_CREW_ONLY ? "crew"
                                      : "you only";
}

static void fact_row(writer *w, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(w->dossier, slot);
  const ts_subject_info *info = ts_subject_at(w->dossier, ts_slot_subject(w->dossier, slot));
  const char *now = ts_slot_value(w->dossier, slot)->text;
  ts_xml_start(&w->out, "row");
  cell(w, info->path, NULL);
  cell(w, fact->name, NULL);
  cell(w, info->label, NULL);
  cell(w, fact->meaning, NULL);
  cell(w, now ? now : "?", NULL);
  cell(w, NULL, words_of(w, fact));
  cell(w, unit_of(w->dossier, fact), NULL);
  cell(w, ts_show_form(w->dossier, fact, w->arena), NULL);
  cell(w, NULL, kinds);
  for (int i = 0; i < 3; i++) cell(w, NULL, NULL);
  cell(w, fact->measured, NULL);
  cell(w, seen_by(fact), NULL);
  ts_xml_end(&w->out);
}

static bool is_of(const writer *w, uint32_t slot, const ts_department *department) {
  if (!is_asked(ts_slot_fact(w->dossier, slot)) || !is_written(w->dossier, slot)) return false;
  ts_department own = department_of(w->dossier, slot, w->arena);
  return same_department(&own, department);
}

static void fact_sheet(writer *w, const ts_department *department) {
  sheet(w, department->name, true, 2, 0);
  fact_columns(w);
  for (uint32_t slot = 0; slot < ts_slot_count(w->dossier); slot++)
    if (is_of(w, slot, department)) fact_row(w, slot);
  ts_xml_end(&w->out);
}

/* ---- a list --------------------------------------------------------------------------- */

/* Whether a fact is a column of the list: what its subjects are, and all of it where the list says
 * so. */
static bool listed(const ts_fact_def *fact, bool facts) {
  return !fact->derived && (facts || fact->type < TS_QUANTITY);
}

static bool has_id(const writer *w, const ts_entity_def *entity) {
  const ts_vocabulary *vocabulary = ts_dossier_vocabulary(w->dossier);
  for (size_t i = 0; i < ts_fact_count(vocabulary, entity); i++)
    if (ts_fact_at(vocabulary, entity, i)->type == TS_ID) return true;
  return false;
}

static bool at_top(const ts_entity_def *entity) { return ts_same(entity->parent, "dossier"); }

static void list_columns(writer *w, const ts_entity_def *entity, bool facts) {
  const ts_vocabulary *vocabulary = ts_dossier_vocabulary(w->dossier);
  if (!at_top(entity) && !has_id(w, entity))
    column(w, "subject", "told", 34, NULL, "of rows that are there; leave it empty in a new row");
  if (!at_top(entity))
    column(w, entity->parent, "name", 30, NULL,
           ts_arena_printf(w->arena, "the %s it belongs to", entity->parent));
  for (size_t i = 0; i < ts_fact_count(vocabulary, entity); i++) {
    const ts_fact_def *fact = ts_fact_at(vocabulary, entity, i);
    const char *unit = unit_of(w->dossier, fact);
    if (!listed(fact, facts)) continue;
    column(w, unit[0] ? ts_arena_printf(w->arena, "%s (%s)", fact->name, unit) : fact->name, "fill",
           fact->type == TS_TEXT ? 60 : 30, words_of(w, fact), fact->meaning);
  }
}

static void list_row(writer *w, ts_subject subject, bool facts) {
  const ts_subject_info *info = ts_subject_at(w->dossier, subject);
  const ts_vocabulary *vocabulary = ts_dossier_vocabulary(w->dossier);
  ts_xml_start(&w->out, "row");
  if (!at_top(info->entity) && !has_id(w, info->entity)) cell(w, info->path, NULL);
  if (!at_top(info->entity)) cell(w, ts_subject_at(w->dossier, info->parent)->path, NULL);
  for (size_t i = 0; i < ts_fact_count(vocabulary, info->entity); i++) {
    const ts_fact_def *fact = ts_fact_at(vocabulary, info->entity, i);
    if (listed(fact, facts))
      cell(w, ts_slot_value(w->dossier, info->slot + (uint32_t)i)->text, words_of(w, fact));
  }
  ts_xml_end(&w->out);
}

static void list_sheet(writer *w, const ts_entity_def *entity, bool facts) {
  sheet(w, entity->plural, false, has_id(w, entity) || at_top(entity) ? 1 : 3, BLANK_ROWS);
  list_columns(w, entity, facts);
  for (ts_subject s = 0; s < ts_subject_count(w->dossier); s++)
    if (ts_subject_at(w->dossier, s)->entity == entity) list_row(w, s, facts);
  ts_xml_end(&w->out);
}

static const ts_entity_def *entity_of_list(const writer *w, size_t list) {
  return ts_entity_find(ts_dossier_vocabulary(w->dossier), lists[list].entity);
}

/* ---- the whole ------------------------------------------------------------------------ */

/* Words that any cell may offer, before the sheets that name them. */
static void write_choices(writer *w) {
  const ts_vocabulary *vocabulary = ts_dossier_vocabulary(w->dossier);
  collect_words(w, kinds);
  for (size_t e = 0; e < ts_entity_count(vocabulary); e++) {
    const ts_entity_def *entity = ts_entity_at(vocabulary, e);
    for (size_t i = 0; i < ts_fact_count(vocabulary, entity); i++)
      collect_words(w, words_of(w, ts_fact_at(vocabulary, entity, i)));
  }
  for (size_t i = 0; i < w->choice_count; i++) {
    ts_xml_start(&w->out, "choices");
    ts_xml_attribute(&w->out, "id", choices_named(w, w->choices[i]));
    for (const char *at = w->choices[i]; *(at += strspn(at, " ")) != '\0';) {
      size_t length = strcspn(at, " ");
      ts_xml_start(&w->out, "choice");
      ts_xml_attribute(&w->out, "word", ts_arena_copy_n(w->arena, at, length));
      ts_xml_end(&w->out);
      at += length;
    }
    ts_xml_end(&w->out);
  }
}

static void write_about(writer *w) {
  const ts_subject_info *production = ts_subject_at(w->dossier, 0);
  ts_xml_attribute(&w->out, "title", production->label);
  ts_xml_attribute(&w->out, "units", ts_dossier_units(w->dossier) == TS_US ? "us" : "metric");
}

static void write_sheets(writer *w, const ts_department *departments, size_t count) {
  ts_xml_begin(&w->out);
  ts_xml_start(&w->out, "workbook");
  write_about(w);
  write_choices(w);
  for (size_t d = 0; d < count; d++) {
    fact_sheet(w, &departments[d]);
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++)
      if (ts_same(lists[i].asked, departments[d].asked))
        list_sheet(w, entity_of_list(w, i), lists[i].facts);
  }
  ts_xml_end(&w->out);
}

bool ts_workbook_make(const ts_dossier *dossier, const ts_department *departments, size_t count,
                      ts_text *ods, ts_diagnostics *problems) {
  writer w = {.dossier = dossier, .arena = ts_arena_new()};
  char *content = NULL, *settings = NULL;
  size_t length, rest;
  *ods = (ts_text){0};
  write_sheets(&w, departments, count);
  const ts_text *xml = &w.out.text;
  bool good = ts_document_transform("workbook-ods.xsl", "workbook", xml->data, xml->length,
                                    &content, &length, problems) &&
              ts_document_transform("workbook-settings.xsl", "workbook", xml->data, xml->length,
                                    &settings, &rest, problems) &&
              ts_document_spreadsheet(content, length, settings, ods);
  free(content);
  free(settings);
  ts_text_release(&w.out.text);
  free(w.choices);
  ts_arena_free(w.arena);
  return good;
}
