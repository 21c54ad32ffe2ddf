/* What assessments run of a rule file: all but the examples, nothing else lost. */
#include "base/file.h"
#include "base/text.h"
#include "rule/bare.h"
#include "rule/rule.h"
#include "said.h"
#include "scratch.h"
#include "tankside/diagnostics.h"

#include <check.h>
#include <string.h>

static ts_arena *arena;

static void set_up(void) { arena = ts_arena_new(); }
static void tear_down(void) { ts_arena_free(arena); }

/* Written by hand; NULL: stays as it is. */
static const struct {
  const char *text, *bare;
} cases[] = {
    {"rule { id = 'a', examples = { 1 } }", "rule { id = 'a', examples = {}}"},
    {"rule { examples = { { 'a', x = 1 }, { 'b' } }, id = 'a' }",
     "rule { examples = {}, id = 'a' }"},
    {"rule { examples = f(1, { 2 })[3]; id = 'a' }", "rule { examples = {}; id = 'a' }"},
    {"rule { examples = a .. ',' }\nrule { examples = { [[}\n]] } }\nb()",
     "rule { examples = {}}\nrule { examples = {}\n}\nb()"},
    {"rule { examples = {\n -- } a comment\n '}', \"\\\"}\"\n }, id = 'a' }",
     "rule { examples = {}\n\n\n, id = 'a' }"},
    {"rule { assess = function (i) local t = { examples = { 1 } } end, examples = g }",
     "rule { assess = function (i) local t = { examples = { 1 } } end, examples = {}}"},
    {"for i = 1, 2 do rule { id = n(i), examples = make(function () return 1, 2 end) } end",
     "for i = 1, 2 do rule { id = n(i), examples = {}} end"},
    /* no example of a rule */
    {"share.x { examples = { 1 } }", NULL},
    {"control { examples = { 1 } }", NULL},
    {"rule { limits = { examples = { 1 } } }", NULL},
    {"rule { id = examples == 1 }", NULL},
    {"rule { id = a.examples }", NULL},
    {"rule { id = 'examples = {}' } -- rule { examples = { 1 } }", NULL},
    {"local examples = { 1 }", NULL},
    {"rule (examples)", NULL},
    /* no plain end */
    {"rule { examples = function () return 1, 2 end, id = 'a' }", NULL},
    {"rule { examples = { 1 }", NULL},
    {"rule { examples = { '\\\\', \"a\\\nb\" }, id = '\\\\' }", "rule { examples = {}\n, id = '\\\\' }"},
    {"rule { examples = 'a\\\\", NULL},
    {"rule { examples = 'a\\", NULL},
    {"rule { examples = \"", NULL},
    {"rule { examples =", NULL},
    {"rule { examples", NULL},
    {"", NULL},
    {")]}rule { id = 1 }", NULL},
};

START_TEST(examples_go_and_the_rest_stays) {
  size_t length = strlen(cases[_i].text);
  const char *bare = ts_bare(arena, cases[_i].text, &length);
  ck_assert_str_eq(bare, cases[_i].bare != NULL ? cases[_i].bare : cases[_i].text);
  ck_assert_uint_eq(length, strlen(bare));
}
END_TEST

/* ---- packs --------------------------------------------------------------------------- */

typedef struct {
  ts_units *units;
  ts_vocabulary *vocabulary;
  ts_packs *packs;
  ts_diagnostics *problems;
} bench;

static bench open_bench(bool bare) {
  char why[256];
  bench b = {.units = ts_units_new(why, sizeof why),
             .vocabulary = ts_vocabulary_new(),
             .problems = ts_diagnostics_new()};
  b.packs = ts_packs_new(b.units, b.vocabulary);
  if (bare) ts_packs_leave_examples(b.packs);
  return b;
}

static void close_bench(bench *b) {
  ts_packs_free(b->packs);
  ts_vocabulary_free(b->vocabulary);
  ts_units_free(b->units);
  ts_diagnostics_free(b->problems);
}

static void load_all(bench *b) {
  const char *rules = ts_data_path(arena, "rules");
  char **names = ts_folder_list(arena, rules, "/", b->problems);
  bool good = ts_packs_load(b->packs, ts_path_join(arena, rules, "common"), b->problems);
  for (size_t i = 0; names[i] != NULL; i++)
    good = ts_packs_load(b->packs, ts_path_join(arena, rules, names[i]), b->problems) && good;
  ck_assert_msg(good, "%s", said_of(b->problems, arena));
}

static void same_rule(const ts_rule *a, const ts_rule *b) {
  ck_assert_str_eq(a->id, b->id);
  ck_assert_str_eq(a->title, b->title);
  ck_assert_str_eq(a->file, b->file);
  ck_assert_int_eq(a->line, b->line);
  ck_assert_uint_eq(a->source_count, b->source_count);
}

START_TEST(every_pack_that_comes_with_the_program_is_the_same_without_them) {
  bench whole = open_bench(false), bare = open_bench(true);
  size_t examples = 0;
  load_all(&whole);
  load_all(&bare);
  ck_assert_uint_gt(ts_rule_count(whole.packs), 200);
  ck_assert_uint_eq(ts_rule_count(whole.packs), ts_rule_count(bare.packs));
  for (size_t i = 0; i < ts_rule_count(whole.packs); i++) {
    same_rule(ts_rule_at(whole.packs, i), ts_rule_at(bare.packs, i));
    examples += ts_rule_at(whole.packs, i)->example_count;
    ck_assert_uint_eq(ts_rule_at(bare.packs, i)->example_count, 0);
  }
  ck_assert_uint_gt(examples, 1000);
  ck_assert_uint_eq(ts_control_count(whole.packs), ts_control_count(bare.packs));
  for (size_t i = 0; i < ts_control_count(whole.packs); i++)
    ck_assert_str_eq(ts_control_at(whole.packs, i)->id, ts_control_at(bare.packs, i)->id);
  close_bench(&whole);
  close_bench(&bare);
}
END_TEST

static const char hidden[] =
    "local function more() rule { id = 'x.z', title = 't', each = 'task', harm = 'h', sources = { "
    "'s' }, "
    "assess = function (t) end } return {} end\n"
    "rule { id = 'x.y', title = 't', each = 'task', harm = 'h', sources = { 's' }, "
    "assess = function (t) end, examples = more() }\n";

START_TEST(a_rule_declared_among_examples_is_told_of) {
  char scratch[256];
  bench b = open_bench(false), bare = open_bench(true);
  scratch_make(scratch, sizeof scratch);
  const char *folder = ts_path_join(arena, scratch, "pack");
  ck_assert(ts_folder_make(folder, b.problems));
  ck_assert(
      ts_file_write(ts_path_join(arena, folder, "a.lua"), hidden, strlen(hidden), b.problems));
  ck_assert(ts_packs_load(b.packs, folder, b.problems));
  ck_assert(ts_packs_load(bare.packs, folder, bare.problems));
  ck_assert_uint_eq(ts_rule_count(b.packs), 2);
  ck_assert_uint_eq(ts_rule_count(bare.packs), 1);
  ts_packs_check(b.packs, b.problems);
  ck_assert_ptr_nonnull(strstr(said_of(b.problems, arena), "\"examples\" declares something"));
  scratch_remove(scratch);
  close_bench(&b);
  close_bench(&bare);
}
END_TEST

Suite *suite_bare(void);
Suite *suite_bare(void) {
  Suite *suite = suite_create("bare");
  TCase *tc = tcase_create("bare");
  tcase_set_timeout(tc, 120);
  tcase_add_checked_fixture(tc, set_up, tear_down);
  tcase_add_loop_test(tc, examples_go_and_the_rest_stays, 0, sizeof cases / sizeof *cases);
  tcase_add_test(tc, every_pack_that_comes_with_the_program_is_the_same_without_them);
  tcase_add_test(tc, a_rule_declared_among_examples_is_told_of);
  suite_add_tcase(suite, tc);
  return suite;
}
