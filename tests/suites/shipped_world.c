#include "shipped_world.h"

#include "base/file.h"
#include "base/text.h"
#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char *const productions[SHIPPED_PRODUCTIONS] = {"lake-stunt", "stage-pool",
                                                             "tank-serial"};

/* ---- where rules turn --------------------------------------------------------------- */

static void add_literal(shipped_world *s, const char *start, size_t length) {
  char text[64], why[200];
  ts_range range;
  ts_dim dim;
  if (length >= sizeof text) return;
  snprintf(text, sizeof text, "%.*s", (int)length, start);
  if (ts_quantity_read(s->w.units, text, &range, &dim, why, sizeof why))
    anchors_add(&s->turns, dim, range.lo);
}

/* Every text between double quotes that reads as a quantity. */
static void read_literals(shipped_world *s, const char *file) {
  char *path = ts_arena_printf(s->w.arena, "%s/rules/%s", SOURCE_FOLDER, file);
  const char *text = ts_file_read(s->w.arena, path, 1 << 20, NULL, s->w.problems);
  ck_assert_ptr_nonnull(text);
  for (const char *open = strchr(text, '"'); open != NULL;) {
    size_t length = strcspn(open + 1, "\"\n");
    const char *close = open + 1 + length;
    if (*close == '"') add_literal(s, open + 1, length);
    open = *close != '\0' ? strchr(close + 1, '"') : NULL;
  }
}

static void find_turns(shipped_world *s) {
  static const double counts[] = {0, 1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30, 50, 100};
  for (size_t i = 0; i < sizeof counts / sizeof *counts; i++)
    anchors_add(&s->turns, TS_NUMBER, counts[i]);
  for (size_t i = 0; i < ts_pack_file_count(s->w.packs); i++)
    read_literals(s, ts_pack_file_name(s->w.packs, i));
}

/* The law of other places, on the production on which it has most to say. */
static const struct {
  int production;
  const char *pack;
} elsewhere[] = {{0, SOURCE_FOLDER "/rules/gb"},
                 {2, SOURCE_FOLDER "/rules/gb-sct"},
                 {2, SOURCE_FOLDER "/rules/us-fed"},
                 {2, SOURCE_FOLDER "/rules/us-ca"},
                 {2, SOURCE_FOLDER "/rules/us-ny"}};

/* ---- the world ---------------------------------------------------------------------- */

static bool is_written(const shipped_world *s, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(s->w.dossier, slot);
  return fact->type >= TS_QUANTITY && !fact->derived;
}

/* A state of knowledge that allows what is stated, and more. */
static ts_value forgotten(shipped_world *s, draws *luck, const box_fact *f) {
  ts_value stated = f->wide, value = draw_state(luck, s->w.dossier, f, &s->turns);
  value.choices |= stated.choices;
  value.certain &= stated.certain;
  value.range.lo = fmin(value.range.lo, stated.range.lo);
  value.range.hi = fmax(value.range.hi, stated.range.hi);
  return value;
}

static void forget_some(shipped_world *s, unsigned percent) {
  draws luck = {20270314 + percent};
  box stated = {0};
  for (uint32_t slot = 0; slot < ts_slot_count(s->w.dossier); slot++)
    if (is_written(s, slot) && draw_chance(&luck, percent)) box_add(&stated, s->w.dossier, slot);
  for (size_t i = 0; i < stated.count; i++) stated.at[i].wide = forgotten(s, &luck, &stated.at[i]);
  box_put(&stated, s->known);
  box_free(&stated);
}

static void find_open(shipped_world *s) {
  for (uint32_t slot = 0; slot < ts_slot_count(s->known); slot++)
    if (is_written(s, slot) &&
        !value_is_point(ts_slot_fact(s->known, slot), ts_slot_value(s->known, slot)))
      box_add(&s->open, s->known, slot);
}

static void add_pair(shipped_world *s, size_t rule, ts_subject subject) {
  TS_GROW(s->pairs, s->pair_count, s->pair_capacity);
  shipped_pair *pair = &s->pairs[s->pair_count++];
  *pair = (shipped_pair){.rule = rule, .subject = subject};
  ck_assert_ptr_nonnull(shipped_world_hear(s, s->whole, pair));
  pair->wide = heard_keep(s->w.arena, &s->said);
}

static void find_pairs(shipped_world *s) {
  for (ts_subject subject = 0; subject < ts_subject_count(s->w.dossier); subject++)
    for (size_t rule = 0; rule < ts_rule_count(s->w.packs); rule++)
      if (ts_same(ts_rule_at(s->w.packs, rule)->each,
                  ts_subject_at(s->w.dossier, subject)->entity->name))
        add_pair(s, rule, subject);
}

void shipped_world_open(shipped_world *s, int production, unsigned forget) {
  *s = (shipped_world){0};
  assess_world_demo(&s->w, productions[production]);
  for (size_t i = 0; i < sizeof elsewhere / sizeof *elsewhere; i++)
    if (elsewhere[i].production == production)
      ck_assert(ts_packs_load(s->w.packs, elsewhere[i].pack, s->w.problems));
  find_turns(s);
  s->known = ts_dossier_variant(s->w.dossier);
  forget_some(s, forget);
  s->variant = ts_dossier_variant(s->known);
  s->whole = ts_evaluator_new(s->w.packs, s->known);
  s->drawn = ts_evaluator_new(s->w.packs, s->variant);
  find_open(s);
  find_pairs(s);
}

void shipped_world_close(shipped_world *s) {
  ts_evaluator_free(s->whole);
  ts_evaluator_free(s->drawn);
  ts_dossier_free(s->variant);
  ts_dossier_free(s->known);
  box_free(&s->open);
  anchors_free(&s->turns);
  heard_free(&s->said);
  free(s->pairs);
  assess_world_free(&s->w);
}

const ts_evaluation *shipped_world_hear(shipped_world *s, ts_evaluator *evaluator,
                                        const shipped_pair *pair) {
  const ts_evaluation *seen = ts_evaluate(evaluator, pair->rule, pair->subject, NULL, 0);
  if (seen->failure != NULL && strstr(seen->failure, "division by zero") != NULL) return NULL;
  ck_assert_msg(seen->failure == NULL, "%s: %s", seen->failure,
                ts_subject_at(s->w.dossier, pair->subject)->path);
  heard_take(&s->said, seen);
  return seen;
}

static void add_value(shipped_world *s, ts_text *text, uint32_t slot, const ts_value *value) {
  char shown[96];
  const ts_fact_def *fact = ts_slot_fact(s->w.dossier, slot);
  ts_quantity_write(s->w.units, value->range, ts_fact_dim(s->w.vocabulary, fact), fact->unit,
                    TS_METRIC, shown, sizeof shown);
  if (fact->type == TS_FLAG || fact->type == TS_CHOICE || fact->type == TS_SET)
    snprintf(shown, sizeof shown, "%llx/%llx", (unsigned long long)value->choices,
             (unsigned long long)value->certain);
  ts_text_addf(text, " | %s", shown);
}

const char *shipped_world_story(shipped_world *s, const shipped_pair *pair) {
  ts_text text = {0};
  char path[256];
  ts_text_addf(&text, "%s on %s\nwide: %s\nnarrow: %s\n", ts_rule_at(s->w.packs, pair->rule)->id,
               ts_subject_at(s->w.dossier, pair->subject)->path, heard_text(s->w.arena, pair->wide),
               heard_text(s->w.arena, &s->said));
  const ts_evaluation *seen = ts_evaluate(s->whole, pair->rule, pair->subject, NULL, 0);
  for (size_t i = 0; i < seen->read_count; i++) {
    uint32_t slot = seen->reads[i];
    ts_text_addf(&text, "%s", ts_slot_path(s->w.dossier, slot, path, sizeof path));
    add_value(s, &text, slot, ts_slot_value(s->known, slot));
    add_value(s, &text, slot, ts_slot_value(s->variant, slot));
    ts_text_add(&text, "\n");
  }
  const char *copy = ts_arena_copy(s->w.arena, text.data);
  ts_text_release(&text);
  return copy;
}
