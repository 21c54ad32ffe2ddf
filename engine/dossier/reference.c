/* The reference page of the vocabulary: plain text, 80 columns. */
#include "base/text.h"
#include "dossier/plan.h"

#include <stdlib.h>
#include <string.h>

enum { COLUMNS = 80, INDENT = 4, DEEPER = 6 };

static const char *const type_words[] = {
    [TS_ID] = "its own name",   [TS_REF] = "name of a",       [TS_REFS] = "names of",
    [TS_DAY] = "date",          [TS_KIND_WORD] = "one of",    [TS_TEXT] = "words",
    [TS_QUANTITY] = "quantity", [TS_COUNT] = "whole number",  [TS_FLAG] = "yes or no",
    [TS_CHOICE] = "one of",     [TS_SET] = "any of, or none", [TS_DATE] = "date or part of one",
    [TS_CLOCK] = "time of day",
};

static const char *const sees_words[] = {
    [TS_OPEN_TO_ALL] = "", [TS_CREW_ONLY] = "; crew only", [TS_CONFIDENTIAL] = "; confidential"};

static void paragraph(ts_text *page, const char *text, size_t first, size_t indent) {
  ts_text_addf(page, "%*s", (int)first, "");
  ts_text_add_folded(page, text, first, indent, COLUMNS);
  ts_text_add(page, "\n");
}

/* What may be written, as one line: "quantity, 0 m to 60 m, best in m". */
static void add_form(ts_text *line, const ts_fact_def *def) {
  ts_text_add(line, type_words[def->type]);
  if (def->choices) ts_text_addf(line, " %s", def->choices);
  if (def->low && def->high && ts_is_number(def->type))
    ts_text_addf(line, ", %s to %s", def->low, def->high);
  if (def->unit && *def->unit) ts_text_addf(line, ", in %s", def->unit);
  if (def->unit_us) ts_text_addf(line, " or %s", def->unit_us);
  if (def->optional) ts_text_add(line, "; may be left out");
  ts_text_add(line, sees_words[def->sees]);
}

void ts_fact_explain(const ts_fact_def *def, ts_text *line) {
  add_form(line, def);
  if (def->derived)
    ts_text_addf(line, "; worked out: %s", def->measured);
  else if (ts_is_fact(def->type))
    ts_text_addf(line, "; found by: %s; ask: %s", def->measured, def->asked);
}

static void add_fact(ts_text *page, const ts_known_fact *fact) {
  const ts_fact_def *def = fact->def;
  ts_text line = {0};
  ts_text_addf(&line, "%s: %s", def->name, def->meaning);
  paragraph(page, line.data, INDENT, DEEPER);
  ts_text_release(&line);
  ts_fact_explain(def, &line);
  if (fact->added) ts_text_add(&line, "; declared by a pack");
  paragraph(page, line.data, DEEPER, DEEPER);
  ts_text_release(&line);
}

static void add_heading(ts_text *page, const ts_entity_def *def) {
  ts_text line = {0};
  ts_text_addf(&line, "%s: %s.", def->name, def->meaning);
  if (!def->parent)
    ts_text_add(&line, " Not written: made for each person and date.");
  else
    ts_text_addf(&line, " Stands in %s%s.", def->parent, def->single ? ", once" : "");
  if (!def->single && def->plural) ts_text_addf(&line, " In rules, a list: %s.", def->plural);
  ts_text_add(page, "\n");
  paragraph(page, line.data, 0, 2);
  ts_text_add(page, "\n");
  ts_text_release(&line);
}

/* The other subjects a rule reaches from one of this entity, and the lists. */
static void add_links(ts_text *page, const ts_plan *plan) {
  const char **names = ts_alloc((plan->field_count + 1) * sizeof *names);
  for (size_t i = 0; i < plan->names.capacity; i++)
    if (plan->names.keys[i]) names[plan->names.values[i]] = plan->names.keys[i];
  static const ts_field_kind kinds[] = {TS_FIELD_SUBJECT, TS_FIELD_LIST};
  static const char *const heads[] = {"In rules it leads to:", "; to lists:"};
  ts_text line = {0};
  for (int k = 0; k < 2; k++) {
    bool some = false;
    for (size_t i = 0; i < plan->field_count; i++) {
      if (plan->fields[i].kind != kinds[k]) continue;
      ts_text_addf(&line, "%s %s", some ? "," : heads[k], names[i]);
      some = true;
    }
  }
  if (line.length > 0) {
    ts_text_add(page, "\n");
    paragraph(page, line.data, INDENT, DEEPER);
  }
  ts_text_release(&line);
  free(names);
}

static void add_introduction(ts_text *page) {
  static const char *const lines[] = {
      "What a dossier can state.",
      "",
      "Each entity is an element, each fact an attribute of it. A number is written with its unit: "
      "\"4.2 m\", \"3.8..4.5 m\", \"4.2 \u00b1 0.1 m\". A fact that is left out or written \"?\" "
      "is "
      "not known: it then counts as anything in its plausible range, and as any of its choices. "
      "Some of several choices are written \"light|moderate\"; a member of a set that is not "
      "certain is written with a question mark, \"hands mouth?\". In rules, names are written with "
      "an underscore: free_chlorine; what stands under \"leads to\" is written behind a point: "
      "i.site.water.temperature.",
  };
  for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) paragraph(page, lines[i], 0, 0);
}

bool ts_vocabulary_write_reference(const ts_vocabulary *vocabulary, FILE *out) {
  ts_text page = {0};
  ts_arena *arena = ts_arena_new();
  ts_plan *plans = ts_plans_new(vocabulary, arena);
  add_introduction(&page);
  for (size_t i = 0; i < vocabulary->entity_count; i++) {
    add_heading(&page, vocabulary->entities[i].def);
    for (size_t k = 0; k < vocabulary->entities[i].count; k++)
      add_fact(&page, ts_known_at(vocabulary, i, k));
    add_links(&page, &plans[i]);
  }
  ts_plans_free(plans, vocabulary);
  ts_arena_free(arena);
  bool good = fwrite(page.data, 1, page.length, out) == page.length;
  ts_text_release(&page);
  return good;
}
