/* A person's days: what is found by their order is what a loop through all of them says; and what
 * is derived in a variant, whatever was put into it and taken back, is what its facts come to. */
#include "base/file.h"
#include "base/text.h"
#include "dossier/subjects.h"
#include "draw.h"
#include "quantity/calendar.h"
#include "said.h"
#include "scratch.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_days(void);

enum { PEOPLE = 3, TASKS = 120, SPAN = 60 /* days, of which some have no task and some several */ };

/* One task of one person, as it is written. */
typedef struct {
  size_t person;
  int day, least, most; /* minutes under water */
} dip;

static dip dips[TASKS];
static char folder[256];
static ts_arena *arena;
static ts_vocabulary *vocabulary;
static ts_units *units;
static ts_diagnostics *problems;
static ts_dossier *dossier;

static const char *date_text(int day, char *text) {
  int64_t first = ts_day_number((ts_date){2027, 3, 1});
  return ts_date_write((double)(first + day) * TS_DAY_SECONDS, text, 32);
}

/* Days in the order in which lots were drawn: a later one may come first. */
static void write_dips(ts_text *text, draws *luck) {
  char date[32];
  for (int i = 0; i < TASKS; i++) {
    dip *d = &dips[i];
    *d = (dip){draw_below(luck, PEOPLE), (int)draw_below(luck, SPAN), 1 + (int)draw_below(luck, 40),
               0};
    d->most = d->least + (int)draw_below(luck, 9);
    ts_text_addf(
        text,
        "<day date=\"%s\" site=\"tank\"><task id=\"t%d\" title=\"T\"><immersion person=\"p%zu\" "
        "wears=\"none\" depth=\"1 m\" time=\"%d..%d min\"/></task></day>\n",
        date_text(d->day, date), i, d->person, d->least, d->most);
  }
}

static void setup(void) {
  char why[256];
  draws luck = {7};
  ts_text text = {0};
  arena = ts_arena_new();
  vocabulary = ts_vocabulary_new();
  units = ts_units_new(why, sizeof why);
  problems = ts_diagnostics_new();
  ts_text_add(&text, "<dossier format=\"1\"><production title=\"Days\" jurisdiction=\"test\" "
                     "revision=\"1\" on=\"2027-02-01\" by=\"us\"/><site id=\"tank\"/>\n");
  for (int i = 0; i < PEOPLE; i++)
    ts_text_addf(&text, "<person id=\"p%d\" role=\"performer\" born=\"%d-04-01\"/>\n", i, 1990 + i);
  write_dips(&text, &luck);
  ts_text_add(&text, "</dossier>\n");
  scratch_make(folder, sizeof folder);
  const char *path = ts_path_join(arena, folder, "dossier.xml");
  ck_assert(ts_file_write(path, text.data, text.length, problems));
  dossier = ts_dossier_read(path, vocabulary, units, problems);
  ck_assert_msg(dossier != NULL, "%s", said_of(problems, arena));
  ts_text_release(&text);
}

static void teardown(void) {
  ts_dossier_free(dossier);
  ts_diagnostics_free(problems);
  ts_units_free(units);
  ts_vocabulary_free(vocabulary);
  ts_arena_free(arena);
  scratch_remove(folder);
}

/* ---- days in order -------------------------------------------------------------------------- */

static bool works(size_t person, int day) {
  for (int i = 0; i < TASKS; i++)
    if (dips[i].person == person && dips[i].day == day) return true;
  return false;
}

static int row_to(size_t person, int day) {
  int row = 1;
  while (works(person, day - row)) row++;
  return row;
}

/* Seconds. */
static ts_range week_to(size_t person, int day) {
  ts_range total = {0, 0};
  for (int i = 0; i < TASKS; i++)
    if (dips[i].person == person && dips[i].day <= day && dips[i].day >= day - 6) {
      total.lo += 60 * dips[i].least;
      total.hi += 60 * dips[i].most;
    }
  return total;
}

static ts_range range_at(size_t person, int day, const char *fact) {
  char path[64], date[32];
  snprintf(path, sizeof path, "p%zu@%s", person, date_text(day, date));
  ts_subject subject = ts_subject_find(dossier, path);
  ck_assert_msg(subject != TS_NO_SUBJECT, "no \"%s\"", path);
  return ts_slot_value(dossier, ts_subject_field(dossier, subject, fact).slot)->range;
}

START_TEST(days_are_counted_as_a_loop_counts_them) {
  size_t checked = 0, longest = 0;
  for (size_t person = 0; person < PEOPLE; person++)
    for (int day = 0; day < SPAN; day++) {
      if (!works(person, day)) continue;
      ts_range week = week_to(person, day), found = range_at(person, day, "time_7_days");
      int row = row_to(person, day);
      ck_assert_double_eq_tol(found.lo, week.lo, 1e-6);
      ck_assert_double_eq_tol(found.hi, week.hi, 1e-6);
      ck_assert_double_eq(range_at(person, day, "consecutive_days").lo, row);
      if ((size_t)row > longest) longest = (size_t)row;
      checked++;
    }
  ck_assert_uint_gt(checked, 60);
  ck_assert_uint_gt(longest, 3);
}
END_TEST

/* ---- variants ---------------------------------------------------------------------------------
 */

static ts_node_id read_plainly(ts_fact_reader *self, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(self->dossier, slot);
  return ts_fact_value(self->graph, slot, ts_slot_value(self->dossier, slot)->range,
                       ts_fact_dim(vocabulary, fact));
}

static void must_be_what_it_comes_to(const ts_dossier *variant, ts_graph *graph, uint32_t slot) {
  ts_fact_reader plain = {.dossier = variant, .graph = graph, .read = read_plainly};
  char path[256];
  ts_graph_reset(graph);
  ts_node_id node = ts_derive(&plain, slot);
  if (node == TS_NO_NODE) return;
  const ts_node *is = ts_node_at(graph, node);
  ts_range said = ts_slot_value(variant, slot)->range;
  ck_assert_msg(said.lo == is->lo && said.hi == is->hi, "%s: %g..%g where its facts come to %g..%g",
                ts_slot_path(variant, slot, path, sizeof path), said.lo, said.hi, is->lo, is->hi);
}

typedef struct {
  uint32_t *at;
  size_t count, capacity;
} slots;

/* One person's, so that what is put often goes into what is read. */
static void sort_out(slots *written, slots *derived) {
  for (uint32_t slot = 0; slot < ts_slot_count(dossier); slot++) {
    const ts_fact_def *fact = ts_slot_fact(dossier, slot);
    const char *path = ts_subject_at(dossier, ts_slot_subject(dossier, slot))->path;
    bool time = strncmp(fact->name, "time", 4) == 0, born = strcmp(fact->name, "born") == 0;
    slots *to = fact->derived ? derived : written;
    if (strstr(path, "p0") == NULL || !(time || born || strcmp(fact->name, "age") == 0)) continue;
    TS_GROW(to->at, to->count, to->capacity);
    to->at[to->count++] = slot;
  }
}

/* Another value, or what it is in the dossier. */
static void put_by_lot(draws *luck, ts_dossier *variant, uint32_t slot) {
  ts_value value = *ts_slot_value(dossier, slot);
  double scale = 0.5 + draw_unit(luck);
  value.range = (ts_range){value.range.lo * scale, value.range.hi * scale};
  ts_variant_put(variant, slot, draw_chance(luck, 50) ? value : *ts_slot_value(dossier, slot));
}

START_TEST(what_is_derived_in_a_variant_is_what_its_facts_come_to) {
  enum { ROUNDS = 3000 };
  draws luck = {11};
  slots written = {0}, derived = {0};
  ts_graph *graph = ts_graph_new();
  sort_out(&written, &derived);
  ts_dossier *parent = ts_dossier_variant(dossier), *variant;
  for (int i = 0; i < 5; i++)
    put_by_lot(&luck, parent, written.at[draw_below(&luck, written.count)]);
  variant = ts_dossier_variant(parent);
  for (int round = 0; round < ROUNDS; round++) {
    put_by_lot(&luck, variant, written.at[draw_below(&luck, written.count)]);
    for (size_t reads = draw_below(&luck, 12); reads > 0; reads--)
      must_be_what_it_comes_to(variant, graph, derived.at[draw_below(&luck, derived.count)]);
  }
  for (size_t i = 0; i < derived.count; i++)
    must_be_what_it_comes_to(variant, graph, derived.at[i]);
  ts_dossier_free(variant);
  ts_dossier_free(parent);
  ts_graph_free(graph);
  free(written.at);
  free(derived.at);
}
END_TEST

Suite *suite_days(void) {
  Suite *suite = suite_create("days");
  TCase *tcase = tcase_create("days");
  tcase_add_checked_fixture(tcase, setup, teardown);
  tcase_set_timeout(tcase, 60);
  tcase_add_test(tcase, days_are_counted_as_a_loop_counts_them);
  tcase_add_test(tcase, what_is_derived_in_a_variant_is_what_its_facts_come_to);
  suite_add_tcase(suite, tcase);
  return suite;
}
