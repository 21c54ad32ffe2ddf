/* Productions torn about by lot: each is refused with an error, or read so that every attribute in
 * it is known to the dossier, and then every rule is asked of every subject it is for. Never a
 * crash, never an end without a word. TANKSIDE_MUTATIONS says how many (a hundred thousand takes
 * about half an hour). */
#include "assess_world.h"
#include "draw.h"
#include "scratch.h"

#include "base/file.h"
#include "base/text.h"
#include "base/xml.h"
#include "dossier/names.h"
#include "dossier/subjects.h"
#include "dossier/words.h"
#include <check.h>
#include <libxml/tree.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_mutated(void);

static const char *const productions[] = {"lake-stunt", "stage-pool", "tank-serial"};

enum {
  PRODUCTIONS = 3,
  MUTATIONS = 600,
  MUTATIONS_SHORT = 40,
  ASSESSED_EVERY = 50,
  EDITS_MOST = 4
};

/* What a hand, a bad line or an ill will puts in place of a value. */
static const char *const values[] = {
    "",      "?",          "0",          "-1 m",    "1e308 m", "1..2",      "9..1 m",   "0..1000 m",
    "yes",   "no",         "none",       "27 degC", "500 s",   "1e400",     "nan",      "tank",
    "p1",    "2027-02-30", "2027-03-09", "25:00",   "&amp;",   "&lt;b&gt;", "&#x202E;", "1 furlong",
    "12 12", "100 %",      "1,5 m",      "\xff",    "&nbsp;",  "<"};

/* ---- tearing ------------------------------------------------------------------------- */

static void splice(ts_text *text, size_t from, size_t to, const char *piece, size_t length) {
  ts_text out = {0};
  ts_text_add_n(&out, text->data, from);
  ts_text_add_n(&out, piece, length);
  ts_text_add_n(&out, text->data + to, text->length - to);
  ts_text_release(text);
  *text = out;
}

/* The next value between double quotes at or after a place; false where there is none. */
static bool quoted(const ts_text *text, size_t at, size_t *from, size_t *to) {
  const char *equals = strstr(text->data + at, "=\""), *close;
  if (equals == NULL || (close = strchr(equals + 2, '"')) == NULL) return false;
  *from = (size_t)(equals + 2 - text->data);
  *to = (size_t)(close - text->data);
  return true;
}

/* The value of another attribute of the same name, or of any. */
static bool another(const ts_text *text, size_t from, bool same, draws *luck, size_t *other,
                    size_t *end) {
  size_t name = from - 2;
  while (name > 0 && text->data[name - 1] != ' ') name--;
  char *alike = strndup(text->data + name, from - name); /* name=" */
  const char *found = strstr(text->data + draw_below(luck, text->length), alike);
  free(alike);
  if (!same) return quoted(text, draw_below(luck, text->length), other, end);
  return found != NULL && quoted(text, (size_t)(found - text->data), other, end);
}

static void other_value(ts_text *text, draws *luck) {
  size_t from, to, other, end;
  if (!quoted(text, draw_below(luck, text->length), &from, &to)) return;
  if (draw_chance(luck, 30)) {
    splice(text, from, to, "?", 1);
  } else if (draw_chance(luck, 50)) {
    if (!another(text, from, draw_chance(luck, 80), luck, &other, &end)) return;
    char *copy = strndup(text->data + other, end - other);
    splice(text, from, to, copy, strlen(copy));
    free(copy);
  } else {
    const char *value = values[draw_below(luck, sizeof values / sizeof *values)];
    splice(text, from, to, value, strlen(value));
  }
}

/* An attribute goes, with its name. */
static void no_attribute(ts_text *text, draws *luck) {
  size_t from, to;
  if (!quoted(text, draw_below(luck, text->length), &from, &to)) return;
  size_t name = from - 2;
  while (name > 0 && text->data[name - 1] != ' ') name--;
  splice(text, name, to + 1, "", 0);
}

/* A line goes, or comes a second time. */
static void other_line(ts_text *text, draws *luck) {
  size_t from = draw_below(luck, text->length);
  while (from > 0 && text->data[from - 1] != '\n') from--;
  size_t to = from + strcspn(text->data + from, "\n");
  if (to < text->length) to++;
  char *line = strndup(text->data + from, to - from);
  if (draw_chance(luck, 50))
    splice(text, from, to, "", 0);
  else
    splice(text, from, from, line, strlen(line));
  free(line);
}

static void other_byte(ts_text *text, draws *luck) {
  size_t at = draw_below(luck, text->length);
  static const char handy[] = "<>&\"'=/ 0123456789.?-azZ";
  char byte = draw_chance(luck, 80) ? handy[draw_below(luck, sizeof handy - 1)]
                                    : (char)(1 + draw_below(luck, 255));
  splice(text, at, draw_chance(luck, 70) ? at + 1 : at, &byte, 1);
}

static void tear(ts_text *text, draws *luck) {
  size_t edits = draw_chance(luck, 60) ? 1 : 1 + draw_below(luck, EDITS_MOST);
  for (size_t i = 0; i < edits && text->length > 0; i++) {
    switch (draw_below(luck, 8)) {
    case 0: other_byte(text, luck); break;
    case 1: other_line(text, luck); break;
    case 2: no_attribute(text, luck); break;
    default: other_value(text, luck); break;
    }
  }
}

/* ---- every attribute is known ----------------------------------------------------------- */

/* "line name value" of whatever stands in a slot as written. */
static ts_names known_texts(const ts_dossier *dossier, ts_arena *arena) {
  ts_names known = {0};
  for (uint32_t slot = 0; slot < ts_slot_count(dossier); slot++) {
    const ts_value *value = ts_slot_value(dossier, slot);
    const char *name = ts_slot_fact(dossier, slot)->name;
    if (value->text == NULL) continue;
    ts_names_put(
        &known,
        ts_arena_printf(arena, "%d %s %s", ts_slot_line(dossier, slot), name, ts_words_trim(arena, value->text)),
        slot);
  }
  return known;
}

static bool is_subject(const ts_vocabulary *vocabulary, const xmlNode *element) {
  return ts_entity_find(vocabulary, (const char *)element->name) != NULL;
}

static void every_attribute_known(const ts_xml *xml, const xmlNode *element,
                                  const ts_vocabulary *vocabulary, const ts_names *known,
                                  ts_arena *arena) {
  for (const xmlAttr *a = is_subject(vocabulary, element) ? element->properties : NULL; a != NULL;
       a = a->next) {
    const char *name = (const char *)a->name;
    xmlChar *value = xmlNodeListGetString(element->doc, a->children, 1);
    int line = ts_xml_attribute_line(xml, element, name);
    const char *key = ts_arena_printf(arena, "%d %s %s", line, name,
                                      ts_words_trim(arena, value ? (const char *)value : ""));
    ck_assert_msg(ts_names_get(known, key) != TS_ABSENT, "not known to the dossier: %s", key);
    xmlFree(value);
  }
  for (const xmlNode *child = element->children; child != NULL; child = child->next)
    if (child->type == XML_ELEMENT_NODE)
      every_attribute_known(xml, child, vocabulary, known, arena);
}

static void nothing_unread(const assess_world *w, const ts_text *text) {
  ts_arena *arena = ts_arena_new();
  ts_names known = known_texts(w->dossier, arena);
  ts_xml *xml = ts_xml_read(text->data, text->length, "torn", w->problems);
  ck_assert_ptr_nonnull(xml);
  every_attribute_known(xml, ts_xml_root(xml), w->vocabulary, &known, arena);
  ts_xml_free(xml);
  ts_names_release(&known);
  ts_arena_free(arena);
}

/* ---- every rule is asked ---------------------------------------------------------------- */

static bool count_asked(void *context, size_t rule, ts_subject subject) {
  (void)rule, (void)subject;
  ++*(size_t *)context;
  return true;
}

static size_t pairs_of(const assess_world *w) {
  size_t pairs = 0;
  for (size_t i = 0; i < ts_rule_count(w->packs); i++)
    for (ts_subject s = 0; s < ts_subject_count(w->dossier); s++)
      pairs += ts_same(ts_subject_at(w->dossier, s)->entity->name, ts_rule_at(w->packs, i)->each);
  return pairs;
}

static void every_rule_asked(assess_world *w) {
  size_t asked = 0;
  ts_assess_inputs inputs = {.dossier = w->dossier,
                             .packs = w->packs,
                             .matrix = w->matrix,
                             .units = w->units,
                             .wanted = count_asked,
                             .wanted_context = &asked,
                             .scores_only = true};
  size_t errors = ts_count(w->problems, TS_ERROR);
  ts_assessment *assessment = ts_assess(&inputs, w->problems);
  if (assessment == NULL) {
    ck_assert_uint_gt(ts_count(w->problems, TS_ERROR), errors);
    return;
  }
  ts_summary summary = ts_assessment_summary(assessment);
  ck_assert_uint_eq(asked, pairs_of(w));
  ck_assert_msg(summary.complete == (summary.failed == 0), "something failed, and it is complete");
  ts_assessment_free(assessment);
}

/* ---- the run ------------------------------------------------------------------------------ */

static int wanted_count(void) {
  const char *said = getenv("TANKSIDE_MUTATIONS");
  double count;
  if (said != NULL && ts_number_read(said, &count) != NULL) return (int)count;
  return getenv("TANKSIDE_TEST_SHORT") != NULL ? MUTATIONS_SHORT : MUTATIONS;
}

/* Gives whether the torn text could still be read. */
static bool read_torn(assess_world *w, const char *path, const ts_text *torn, bool assessed) {
  ts_diagnostics *own = ts_diagnostics_new(), *outer = w->problems;
  ck_assert(ts_file_write(path, torn->data, torn->length, own));
  w->problems = own;
  w->dossier = ts_dossier_read(path, w->vocabulary, w->units, own);
  bool good = w->dossier != NULL;
  ck_assert_msg(good == (ts_count(own, TS_ERROR) == 0), "read %d, %zu errors", good,
                ts_count(own, TS_ERROR));
  if (good) nothing_unread(w, torn);
  if (good && assessed) every_rule_asked(w);
  ts_dossier_free(w->dossier);
  w->dossier = NULL;
  w->problems = outer;
  ts_diagnostics_free(own);
  return good;
}

/* The text of the production's first file; what it includes is copied into the folder. */
static const char *production(assess_world *w, const char *name, const char *folder,
                              size_t *length) {
  const char *from =
      ts_arena_printf(w->arena, "%s/productions/%s", ts_data_path(w->arena, "shared"), name);
  char **files = ts_folder_list(w->arena, from, ".xml", w->problems);
  const char *first = NULL;
  for (size_t i = 0; files[i] != NULL; i++) {
    size_t size;
    const char *text =
        ts_file_read(w->arena, ts_path_join(w->arena, from, files[i]), 8 << 20, &size, w->problems);
    ck_assert_ptr_nonnull(text);
    ck_assert(ts_file_write(ts_path_join(w->arena, folder, files[i]), text, size, w->problems));
    if (ts_same(files[i], "dossier.xml")) first = text, *length = size;
  }
  ck_assert_ptr_nonnull(first);
  return first;
}

START_TEST(torn_productions_are_refused_or_read_in_full) {
  char folder[256];
  assess_world w;
  size_t length;
  int count = wanted_count() / PRODUCTIONS, good = 0;
  scratch_make(folder, sizeof folder);
  assess_world_demo(&w, productions[_i]);
  ts_dossier *whole = w.dossier;
  const char *text = production(&w, productions[_i], folder, &length);
  const char *path = ts_arena_printf(w.arena, "%s/dossier.xml", folder);
  draws luck = {(uint64_t)_i + 41};
  for (int i = 0; i < count; i++) {
    ts_text torn = {0};
    ts_text_add_n(&torn, text, length);
    tear(&torn, &luck);
    good += read_torn(&w, path, &torn, i % ASSESSED_EVERY == 0);
    ts_text_release(&torn);
  }
  printf("%s: %d torn, %d still read\n", productions[_i], count, good);
  w.dossier = whole;
  assess_world_free(&w);
  scratch_remove(folder);
}
END_TEST

Suite *suite_mutated(void) {
  Suite *suite = suite_create("mutated");
  TCase *tc = tcase_create("mutated");
  tcase_set_timeout(tc, getenv("TANKSIDE_MUTATIONS") != NULL ? 36000 : 120);
  tcase_add_loop_test(tc, torn_productions_are_refused_or_read_in_full, 0, PRODUCTIONS);
  suite_add_tcase(suite, tc);
  return suite;
}
