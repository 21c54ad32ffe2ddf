/* Rule files from strangers (tests/hostile/rules.txt): each is refused with its reason, fails in
 * the open or is bounded, whatever it tries, and the rule beside it says what it always says. */
#include "hostile.h"
#include "rule/rule.h"
#include "said.h"
#include "scratch.h"

#include "base/file.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_hostile_rules(void);

static ts_arena *arena;
static const hostile_case *cases;
static size_t case_count;

typedef struct {
  ts_units *units;
  ts_vocabulary *vocabulary;
  ts_packs *packs;
  ts_diagnostics *problems;
  char scratch[256];
  bool loaded;
} bench;

static const char honest[] =
    "rule { id = 'z.honest', title = 't', each = 'immersion', harm = 'h', sources = { 's' },\n"
    " assess = function (i) if i.depth > q'1 m' then hazard { likelihood = 2, severity = 3, "
    "because = 'b' } end end }\n";

static bool has(const hostile_case *one, const char *words) {
  return memmem(one->text, one->length, words, strlen(words)) != NULL;
}

/* Whether the case is a file of its own. One that shall fail declares the rule that does. */
static bool is_file(const hostile_case *one) {
  static const char *const declaring[] = {"rule {", "control {", "fact {",
                                          "share(", "tighten {", "raise {"};
  bool declares = false;
  for (size_t i = 0; i < sizeof declaring / sizeof *declaring; i++)
    declares = declares || has(one, declaring[i]);
  return declares && (one->verdict == 'r' || has(one, "assess ="));
}

/* The case as it is, or as the inside of a rule. */
static void write_case(const bench *b, const hostile_case *one) {
  ts_text file = {0};
  if (!is_file(one))
    ts_text_add(
        &file, "rule { id = 'x.y', title = 't', each = 'immersion', harm = 'h', sources = { 's' }, "
               "assess = function (i)\n");
  ts_text_add_n(&file, one->text, one->length);
  if (!is_file(one)) ts_text_add(&file, "\nend }\n");
  ck_assert(ts_file_write(ts_arena_printf(arena, "%s/pack/a.lua", b->scratch), file.data,
                          file.length, b->problems));
  ts_text_release(&file);
}

static bench open_bench(const hostile_case *one) {
  char why[256];
  bench b = {.units = ts_units_new(why, sizeof why),
             .vocabulary = ts_vocabulary_new(),
             .problems = ts_diagnostics_new()};
  b.packs = ts_packs_new(b.units, b.vocabulary);
  scratch_make(b.scratch, sizeof b.scratch);
  const char *folder = ts_arena_printf(arena, "%s/pack", b.scratch);
  ck_assert(ts_folder_make(folder, b.problems));
  write_case(&b, one);
  ck_assert(ts_file_write(ts_arena_printf(arena, "%s/z.lua", folder), honest, strlen(honest),
                          b.problems));
  b.loaded = ts_packs_load(b.packs, folder, b.problems);
  return b;
}

static void close_bench(bench *b) {
  scratch_remove(b->scratch);
  ts_packs_free(b->packs);
  ts_vocabulary_free(b->vocabulary);
  ts_units_free(b->units);
  ts_diagnostics_free(b->problems);
}

static const char *printed(const bench *b) { return said_of(b->problems, arena); }

static void is_refused(const bench *b, const hostile_case *one) {
  const char *said = printed(b);
  ck_assert_msg(!b->loaded, "%s: loaded", one->name);
  ck_assert_msg(strstr(said, one->says) != NULL, "%s: no \"%s\" in: %.600s", one->name, one->says,
                said);
  ck_assert_msg(strstr(said, "pack/a.lua") != NULL, "%s: no file named in: %.600s", one->name,
                said);
  ck_assert_msg(strlen(said) < 64 * 1024, "%s: says %zu bytes", one->name, strlen(said));
}

static void says_what_it_always_says(ts_evaluator *evaluator, ts_subject subject) {
  const ts_evaluation *seen = ts_evaluate(evaluator, 1, subject, NULL, 0);
  ck_assert_ptr_null(seen->failure);
  ck_assert_uint_eq(seen->course_count, 2);
}

static void comes_to_an_end(const bench *b, const hostile_case *one) {
  ck_assert_msg(b->loaded, "%s: refused: %.600s", one->name, printed(b));
  ts_subject subject;
  ts_dossier *world = ts_dossier_example(b->vocabulary, b->units, "immersion", &subject);
  ts_evaluator *evaluator = ts_evaluator_new(b->packs, world);
  const ts_evaluation *seen = ts_evaluate(evaluator, 0, subject, NULL, 0);
  const char *failure = seen->failure ? ts_arena_copy(arena, seen->failure) : NULL;
  size_t courses = failure ? 0 : seen->course_count;
  ck_assert_uint_le(courses, 256);
  for (size_t i = 0; i < courses; i++) ck_assert_ptr_nonnull(ts_course_worded(evaluator, i));
  if (one->verdict == 'f') {
    ck_assert_msg(failure != NULL, "%s: did not fail", one->name);
    ck_assert_msg(strstr(failure, one->says) != NULL, "%s: no \"%s\" in: %.600s", one->name,
                  one->says, failure);
    ck_assert_msg(strstr(failure, "pack/a.lua:") != NULL, "%s: no place in: %.600s", one->name,
                  failure);
  } else {
    ck_assert_msg(failure == NULL, "%s: %.600s", one->name, failure);
  }
  says_what_it_always_says(evaluator, subject);
  ts_packs_check(b->packs, b->problems); /* looks into the file and runs it once more, marked */
  ts_evaluator_free(evaluator);
  ts_dossier_free(world);
}

START_TEST(does_no_harm) {
  const hostile_case *one = &cases[_i];
  bench b = open_bench(one);
  if (one->verdict == 'r')
    is_refused(&b, one);
  else
    comes_to_an_end(&b, one);
  close_bench(&b);
}
END_TEST

Suite *suite_hostile_rules(void) {
  Suite *suite = suite_create("hostile_rules");
  TCase *tc = tcase_create("hostile_rules");
  tcase_set_timeout(tc, 60);
  arena = ts_arena_new();
  cases = hostile_cases("rules.txt", arena, &case_count);
  tcase_add_loop_test(tc, does_no_harm, 0, (int)case_count);
  suite_add_tcase(suite, tc);
  return suite;
}
