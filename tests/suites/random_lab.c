#include "random_lab.h"

#include "base/file.h"
#include "scratch.h"
#include <check.h>

enum { IN_FILE = 25 };

static void write_file(random_lab *l, const char *pack, size_t first, random_write write) {
  ts_text text = {0};
  for (size_t i = first; i < first + IN_FILE; i++) {
    write(&l->source, &l->luck, (unsigned)i, &l->rules[i]);
    ts_text_add(&text, l->rules[i].text);
  }
  char *name = ts_arena_printf(l->arena, "%s/r%04zu.lua", pack, first);
  ck_assert(ts_file_write(name, text.data, text.length, l->problems));
  ts_text_release(&text);
}

static void load_rules(random_lab *l, random_write write) {
  char *pack = ts_path_join(l->arena, l->folder, "random");
  ck_assert(ts_folder_make(pack, l->problems));
  for (size_t i = 0; i < l->rule_count; i += IN_FILE) write_file(l, pack, i, write);
  bool loaded = ts_packs_load(l->packs, pack, l->problems);
  if (!loaded) ts_diagnostics_print(l->problems, stderr);
  ck_assert(loaded);
  ck_assert_uint_eq(ts_rule_count(l->packs), l->rule_count);
}

void random_lab_open(random_lab *l, uint64_t seed, size_t rule_count, random_write write) {
  char why[256] = "";
  *l = (random_lab){.arena = ts_arena_new(), .problems = ts_diagnostics_new(), .luck = {seed}};
  ck_assert_uint_eq(rule_count % IN_FILE, 0);
  l->rule_count = rule_count;
  l->rules = ts_arena_alloc(l->arena, rule_count * sizeof *l->rules);
  l->units = ts_units_new(why, sizeof why);
  ck_assert_msg(l->units != NULL, "%s", why);
  l->vocabulary = ts_vocabulary_new();
  l->packs = ts_packs_new(l->units, l->vocabulary);
  scratch_make(l->folder, sizeof l->folder);
  random_source_open(&l->source, l->vocabulary, l->units);
  load_rules(l, write);
  l->variant = ts_dossier_variant(l->source.world);
  l->evaluator = ts_evaluator_new(l->packs, l->variant);
}

void random_lab_close(random_lab *l) {
  ts_evaluator_free(l->evaluator);
  ts_dossier_free(l->variant);
  for (size_t i = 0; i < l->rule_count; i++) random_rule_free(&l->rules[i]);
  random_source_close(&l->source);
  scratch_remove(l->folder);
  ts_packs_free(l->packs);
  ts_vocabulary_free(l->vocabulary);
  ts_units_free(l->units);
  ts_diagnostics_free(l->problems);
  ts_arena_free(l->arena);
}

void random_lab_box(random_lab *l, size_t rule) {
  random_rule *r = &l->rules[rule];
  for (size_t i = 0; i < r->reads.count; i++) {
    box_fact *f = &r->reads.at[i];
    f->wide = draw_state(&l->luck, l->source.world, f, &r->turns);
  }
  box_put(&r->reads, l->variant);
}

void random_lab_point(random_lab *l, size_t rule, draw_where where) {
  const random_rule *r = &l->rules[rule];
  for (size_t i = 0; i < r->reads.count; i++)
    ts_variant_put(l->variant, r->reads.at[i].slot,
                   draw_point(&l->luck, &r->reads.at[i], &r->turns, where));
}
