/* Rules: the sandbox refuses what it must, courses are all seen, and what is said can be redone. */
#include "rule/rule.h"

#include "base/file.h"
#include "base/text.h"
#include "said.h"
#include "scratch.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_rule(void);

typedef struct {
  ts_arena *arena;
  ts_units *units;
  ts_vocabulary *vocabulary;
  ts_packs *packs;
  ts_diagnostics *problems;
  char scratch[256];
  const char *folder;
  bool loaded;
} bench;

static void put(bench *b, const char *name, const char *text) {
  ck_assert(ts_file_write(ts_path_join(b->arena, b->folder, name), text, strlen(text), b->problems));
}

static bench open_bench(void) {
  char why[256];
  bench b = {.arena = ts_arena_new(), .units = ts_units_new(why, sizeof why), .vocabulary = ts_vocabulary_new(), .problems = ts_diagnostics_new()};
  b.packs = ts_packs_new(b.units, b.vocabulary);
  scratch_make(b.scratch, sizeof b.scratch);
  b.folder = ts_path_join(b.arena, b.scratch, "pack");
  ck_assert(ts_folder_make(b.folder, b.problems));
  return b;
}

static void close_bench(bench *b) {
  scratch_remove(b->scratch);
  ts_packs_free(b->packs);
  ts_vocabulary_free(b->vocabulary);
  ts_units_free(b->units);
  ts_diagnostics_free(b->problems);
  ts_arena_free(b->arena);
}

/* One rule with this body, loaded from a file of its own. */
static bench bench_with(const char *before, const char *body) {
  bench b = open_bench();
  const char *rule = ts_arena_printf(b.arena, "%s\nrule { id = 'x.y', title = 't', each = 'immersion', harm = 'h', "
                                     "sources = { 'common practice' },\n assess = function (i)\n%s\nend }\n", before, body);
  put(&b, "a.lua", rule);
  b.loaded = ts_packs_load(b.packs, b.folder, b.problems);
  return b;
}

static char *printed(const bench *b) { return said_of(b->problems, b->arena); }

static void expect_report(const bench *b, const char *part) {
  char *text = printed(b);
  ck_assert_msg(strstr(text, part) != NULL, "\"%s\" not in: %s", part, text);
}

typedef void (*looker)(const ts_evaluation *seen);

/* Runs the rule over an example immersion with one fact given, and looks. */
static void evaluate(bench *b, const char *path, const char *value, looker look) {
  if (!b->loaded) ck_abort_msg("not loaded: %s", printed(b));
  ts_subject subject;
  ts_dossier *world = ts_dossier_example(b->vocabulary, b->units, "immersion", &subject);
  ck_assert(!path || ts_dossier_given(world, subject, path, value, b->problems, "test", 1));
  ts_evaluator *evaluator = ts_evaluator_new(b->packs, world);
  ts_evaluation seen = *ts_evaluate(evaluator, 0, subject, NULL, 0);
  ts_course *worded = ts_alloc((seen.course_count + 1) * sizeof *worded);
  for (size_t i = 0; i < seen.course_count; i++) worded[i] = *ts_course_worded(evaluator, i);
  seen.courses = worded;
  look(&seen);
  free(worded);
  ts_evaluator_free(evaluator);
  ts_dossier_free(world);
}

/* ---- refused while loading ------------------------------------------------------------- */

static const char keeps[] = "belongs to what is around this function";

static const struct {
  const char *body, *says, *before;
} refused[] = {
    {"if i.depth == i.depth then end", "\"==\" and \"~=\" are only for", ""},
    {"if i.takes ~= 3 then end", "\"==\" and \"~=\" are only for", ""},
    {"local t = {} local x = t[i.depth < q'1 m']", "no comparison inside [ ]", ""},
    {"goto done ::done::", "goto", ""},
    {"local _ENV = {}", "_ENV", ""},
    {"local x <close> = nil", "<close>", ""},
    {"local x = 1 & 3", "bitwise", ""},
    {"return function (...) end", "\"...\"", ""},
    {"local = 3", "expected", ""},
    {"n = n + 1", keeps, "local n = 0"},
    {"if kept then return end kept = i", keeps, "local kept"},
    {"local x, y = 1, 2 x, n = y, x", keeps, "local n = 0"},
    {"n, i.depth = 1, 2", keeps, "local n = 0"},
    {"n, (i).depth = 1, 2", keeps, "local n = 0"},
    {"local t = {} t[{ 1, n }], n = 1, 2", keeps, "local n = 0"},
    {"local f = function () return n end function n() end", keeps, "local n"},
    {"local t = { a = function () n = 1 end, b = 2 }", keeps, "local n"},
    {"do local n = 1 end n = 2", keeps, "local n"},
    {"for n = 1, 2 do end n = 2", keeps, "local n"},
    {"for _, x in ipairs({ function () do local n = 1 end n = 3 end }) do end", keeps, "local n"},
    {"if i.depth > q'1 m' then local n = 1 elseif i.depth > q'0 m' then n = 1 end", keeps, "local n"},
    {"repeat local n = 1 until true n = 2", keeps, "local n = 0"},
    {"repeat local n = 1 local f until (function () n = n + 1 return true end)()", keeps, ""},
    {"local n = 0 local f = function () n = n + 1 end f()", keeps, ""},
    {"f = 1", keeps, "local function f() end"},
};

/* Assigning to what is the function's own, under a name that something around it has too. */
static const char *const own_names[] = {
    "local n = 1 n = 2",
    "local n n = 2 local t = { n = 3 } t.n, n = 1, 4",
    "for n = 1, 2 do n = 3 end",
    "for _, n in ipairs({ 1 }) do n = 3 end",
    "local function f(n) n = 2 return n end f(1)",
    "local f = function (a, n) n = a end f(1, 2)",
    "local t = { n = 1 } t.n = 2 t['n'] = 3",
    "local n, m = 1 m, n = n, 2",
    "repeat local n = 1 n = 2 until n > 1",
    "while true do local n = 1 n = 2 if n > 1 then break end end",
    "local function n() end n = nil",
    "local t = { function (n) n = 1 end, n = 2, [1] = 3 } local n = 4 n = 5",
};

START_TEST(what_is_its_own_a_function_may_assign_to) {
  bench b = bench_with("local n = 0", own_names[_i]);
  if (!b.loaded) ck_abort_msg("%s: %s", own_names[_i], printed(&b));
  close_bench(&b);
}
END_TEST

START_TEST(refused_while_loading) {
  bench b = bench_with(refused[_i].before, refused[_i].body);
  ck_assert(!b.loaded);
  expect_report(&b, refused[_i].says);
  expect_report(&b, "pack/a.lua:");
  close_bench(&b);
}
END_TEST

START_TEST(bytecode_and_binary_are_refused) {
  bench b = open_bench();
  ts_file_write(ts_path_join(b.arena, b.folder, "a.lua"), "\x1bLua\x54\x00\x19", 7, b.problems);
  ck_assert(!ts_packs_load(b.packs, b.folder, b.problems));
  close_bench(&b);
}
END_TEST

START_TEST(misspelt_fields_are_named) {
  bench b = open_bench();
  put(&b, "a.lua", "rule { id = 'x.y', titel = 't', each = 'imersion', harm = 'h', sources = { 's' }, assess = function () end }\n"
                   "control { id = 'c', title = 't', kind = 'magic', say = 's', check = 'c', often = 'o', who = 'w',\n"
                   "  changes = { { fact = 'immersion.breth-hold', at_most = '3 s' } } }\n");
  ck_assert(!ts_packs_load(b.packs, b.folder, b.problems));
  expect_report(&b, "unknown field \"titel\"; the nearest name is \"title\"");
  expect_report(&b, "unknown kind of subject \"imersion\"; the nearest name is immersion");
  expect_report(&b, "\"kind\" must be elimination");
  expect_report(&b, "immersion has no fact \"breth-hold\"; the nearest name is breath-hold");
  close_bench(&b);
}
END_TEST

/* ---- failures while evaluating ------------------------------------------------------------ */

static const struct {
  const char *before, *body, *says;
} failing[] = {
    {"", "while true do end", "runs too long"},
    {"", "for n = 1, 1e9 do end", "runs too long"},
    {"", "local t = {} for n = 1, 1e7 do t[n] = { n } end", "too long"},
    {"", "local s = 'x' for n = 1, 60 do s = s .. s end", "memory"},
    {"local function f() return f() + 1 end", "f()", "too long"},
    {"", "depth = 3", "assignment to the global \"depth\""},
    {"", "return os.time()", "unknown name \"os\""},
    {"", "return io.open('x')", "unknown name \"io\""},
    {"", "return load('x')", "unknown name \"load\""},
    {"", "return pcall(q)", "unknown name \"pcall\""},
    {"", "return setmetatable({}, {})", "unknown name \"setmetatable\""},
    {"", "return getmetatable('').__index", "unknown name"},
    {"", "return ('x'):rep(10)", "rep"},
    {"", "string.len = nil", "read-only"},
    {"", "calc.visibility = nil", "read-only"},
    {"", "return calc.breath_hold_limt(1)", "the nearest name is calc.breath_hold_limit"},
    {"", "return i.dept", "the nearest name is \"depth\""},
    {"", "i.depth = q'1 m'", "cannot change a fact"},
    {"", "return i.depth + i.time", "cannot add"},
    {"", "return i.depth < q'3 s'", "cannot compare"},
    {"", "return i.depth < 3", "cannot compare"},
    {"", "return q'3 metrs'", "metrs"},
    {"", "return tostring(i.depth)", "plain values"},
    {"", "return 'depth ' .. i.depth", "not text"},
    {"", "hazard { likelihood = 6, severity = 5, because = 'b' }", "\"likelihood\" must be a whole number from 1 to 5"},
    {"", "hazard { likelihod = 3, severity = 5, because = 'b' }", "likelihood"},
    {"", "hazard { likelihood = 3, severity = 5 }", "\"because\" must be a text"},
    {"local seen = {}", "seen[1] = true", "read-only"},
    {"local t rule { id = 'x.z', title = 't', each = 'immersion', harm = 'h', sources = { 's' }, assess = function () "
     "end } t = {}", "t[1] = true", "read-only"},
    {"local t, api = {}, {} share('keeper', api) api.f = function () t[1] = true end", "keeper.f()", "read-only"},
    {"local api = {} share('keeper', api) api.t = {}", "keeper.t[1] = true", "read-only"},
    {"local api = {} share('keeper', api) api.f = function () api.n = 1 end", "keeper.f()", "read-only"},
    {"", "duty { met = true, instrument = { name = 'n', from = '6 m' }, section = 's', because = 'b' }",
     "\"from\" of an instrument must be a date"},
    {"", "duty { met = true, instrument = { from = '2015-02-06' }, section = 's', because = 'b' }",
     "\"instrument\" must be a text, or {"},
    {"", "error('x')", "unknown name \"error\""},
    {"", "table.copy({ 'x' })", "table.copy is for tables with string keys"},
    {"", "table.copy({ a = 'x' }, i)", "table expected"},
    {"local facts = { a = 'x' }", "local t = table.copy(facts) t.a = 'y' facts.a = 'y'", "read-only"},
    {"", "local d = 0 / 0 hazard { likelihood = d, severity = 1, because = 'b' }", "likelihood"},
};

static const char *wanted;

static void look_for_failure(const ts_evaluation *seen) {
  ck_assert_msg(seen->failure != NULL, "no failure for: %s", wanted);
  ck_assert_msg(strstr(seen->failure, wanted) != NULL, "\"%s\" not in \"%s\"", wanted, seen->failure);
}

START_TEST(fails_in_the_open) {
  bench b = bench_with(failing[_i].before, failing[_i].body);
  wanted = failing[_i].says;
  evaluate(&b, "depth", "3 m", look_for_failure);
  close_bench(&b);
}
END_TEST

static void look_for_none(const ts_evaluation *seen) {
  ck_assert_msg(seen->failure == NULL, "%s", seen->failure);
  ck_assert_uint_eq(seen->courses[0].outcome_count, 1);
}

/* Of a table that is read-only meanwhile, and of one that is not. */
START_TEST(a_copy_has_what_both_have) {
  bench b = bench_with("local facts = { a = 'x', c = 'v' }",
                       "local first = table.copy(facts, { b = 'y', a = 'z' }) local second = table.copy(first) "
                       "second.a = 'w' second.d = 'u' "
                       "if facts.a == 'x' and first.a == 'z' and first.b == 'y' and first.c == 'v' and first.d == nil "
                       "and second.a == 'w' and second.b == 'y' and second.d == 'u' then note { because = 'so' } end");
  evaluate(&b, "depth", "3 m", look_for_none);
  close_bench(&b);
}
END_TEST

/* A failed evaluation leaves the evaluator as good as new. */
START_TEST(a_failure_leaves_nothing_behind) {
  bench b = open_bench();
  put(&b, "a.lua", "rule { id = 'a.bomb', title = 't', each = 'immersion', harm = 'h', sources = { 's' },\n"
                   " assess = function () local s = 'x' for n = 1, 60 do s = s .. s end end }\n"
                   "rule { id = 'b.good', title = 't', each = 'immersion', harm = 'h', sources = { 's' },\n"
                   " assess = function (i) if i.depth > q'1 m' then hazard { likelihood = 2, severity = 3, because = 'b' } end end }\n");
  ck_assert(ts_packs_load(b.packs, b.folder, b.problems));
  ts_subject subject;
  ts_dossier *world = ts_dossier_example(b.vocabulary, b.units, "immersion", &subject);
  ts_evaluator *evaluator = ts_evaluator_new(b.packs, world);
  for (int round = 0; round < 50; round++) {
    ck_assert_ptr_nonnull(ts_evaluate(evaluator, 0, subject, NULL, 0)->failure);
    const ts_evaluation *good = ts_evaluate(evaluator, 1, subject, NULL, 0);
    ck_assert_ptr_null(good->failure);
    ck_assert_uint_eq(good->course_count, 2);
  }
  ts_evaluator_free(evaluator);
  ts_dossier_free(world);
  close_bench(&b);
}
END_TEST

/* ---- courses -------------------------------------------------------------------------------- */

static void look_settled(const ts_evaluation *seen) {
  ck_assert_ptr_null(seen->failure);
  ck_assert_uint_eq(seen->course_count, 1);
  ck_assert_uint_eq(seen->courses[0].outcome_count, 1);
  const ts_outcome *out = seen->courses[0].outcomes;
  ck_assert_int_eq(out->likelihood, 4);
  ck_assert_str_eq(out->because, "at 3 m, twice is 6 m");
  ck_assert_str_eq(out->values[0].working, "3 m × 2 = 6 m");
  ck_assert_str_eq(out->values[0].names, "depth × 2");
  ck_assert_str_eq(out->values[1].names, "greatest of (least of (depth × 3, 9 m, 7 m), 1 m, size of (depth − 5 m))");
  ck_assert(seen->courses[0].decisions[0].settled);
  ck_assert_str_eq(seen->courses[0].decisions[0].text, "depth (3 m) > 2 m");
}

START_TEST(settled_facts_give_one_course) {
  bench b = bench_with("", "local twice = i.depth * 2\n if i.depth > q'2 m' then hazard { likelihood = 4, severity = 2, "
                           "because = 'at {i.depth}, twice is {twice}', values = { twice = twice, "
                           "upper = max(min(i.depth * 3, q'9 m', q'7 m'), q'1 m', abs(i.depth - q'5 m')) } } end");
  evaluate(&b, "depth", "3 m", look_settled);
  close_bench(&b);
}
END_TEST

static void look_in_force(const ts_evaluation *seen) {
  ck_assert_ptr_null(seen->failure);
  ck_assert_uint_eq(seen->courses[0].outcome_count, 1);
  const ts_outcome *out = seen->courses[0].outcomes;
  ck_assert_str_eq(out->instrument, "The law");
  ck_assert_str_eq(out->from, "2015-02-06");
  ck_assert_str_eq(out->to, "2027-03-09");
  ck_assert_str_eq(out->evidence, "the licence");
}

static void look_not_in_force(const ts_evaluation *seen) {
  ck_assert_ptr_null(seen->failure);
  ck_assert_uint_eq(seen->courses[0].outcome_count, 0);
}

/* Both ends count; the day is that of the subject, not of the revision. */
START_TEST(a_duty_holds_while_its_law_is_in_force) {
  static const struct {
    const char *day;
    looker look;
  } days[] = {{"2015-02-05", look_not_in_force},
              {"2015-02-06", look_in_force},
              {"2027-03-09", look_in_force},
              {"2027-03-10", look_not_in_force}};
  bench b = bench_with("local law = { name = 'The law', from = '2015-02-06', to = '2027-03-09' }",
                       "duty { met = i.escorted, instrument = law, section = '1', evidence = 'the "
                       "licence', because = 'b' }");
  evaluate(&b, "day.date", days[_i].day, days[_i].look);
  close_bench(&b);
}
END_TEST

static void look_both_sides(const ts_evaluation *seen) {
  ck_assert_ptr_null(seen->failure);
  ck_assert_uint_eq(seen->course_count, 2);
  ck_assert_uint_eq(seen->courses[0].outcome_count + seen->courses[1].outcome_count, 1);
}

START_TEST(an_overlap_forks) {
  bench b = bench_with("", "if i.depth > q'2 m' then hazard { likelihood = 4, severity = 2, because = 'b' } end");
  evaluate(&b, "depth", "1..3 m", look_both_sides);
  close_bench(&b);
}
END_TEST

/* The second comparison is settled by the first on both sides: two courses, not four. */
START_TEST(what_was_decided_is_not_asked_again) {
  bench b = bench_with("", "local deep = i.depth + q'1 m' > q'3 m'\n local also = i.depth > q'2 m'\n"
                           "if deep then hazard { likelihood = also and 4 or 1, severity = 2, because = 'b' } end");
  evaluate(&b, "depth", "1..3 m", look_both_sides);
  close_bench(&b);
}
END_TEST

static void look_flag(const ts_evaluation *seen) {
  ck_assert_ptr_null(seen->failure);
  ck_assert_uint_eq(seen->course_count, 2);
  for (size_t i = 0; i < 2; i++) ck_assert(!seen->courses[i].decisions[0].settled);
}

START_TEST(an_unknown_flag_forks_once) {
  bench b = bench_with("", "local a = i.site.indoor\n local b = i.site.indoor\n if a and not b then hazard { likelihood = 5, severity = 5, because = 'never' } end");
  evaluate(&b, NULL, NULL, look_flag);
  close_bench(&b);
}
END_TEST

static void look_unresolved(const ts_evaluation *seen) {
  ck_assert_ptr_null(seen->failure);
  ck_assert(seen->unresolved);
  ck_assert_uint_le(seen->course_count, 256);
}

/* Ten independent open comparisons are 1024 courses: past the bound, and said so. */
START_TEST(too_many_courses_are_unresolved) {
  bench b = bench_with("", "local n = 1\n for k = 1, 10 do if q'0..1 m' * k + i.depth > q'3 m' + q'0..1 m' * (k * k) then n = n + 1 end end\n"
                           "hazard { likelihood = 1 + math.floor(n / 4), severity = 1, because = 'b' }");
  evaluate(&b, "depth", "0..6 m", look_unresolved);
  close_bench(&b);
}
END_TEST

static void look_withheld(const ts_evaluation *seen) {
  ck_assert_ptr_null(seen->failure);
  ck_assert_ptr_nonnull(strstr(seen->courses[0].outcomes[0].because, "2014"));
  ck_assert_ptr_null(strstr(seen->courses[0].outcomes[0].because_withheld, "2014"));
  ck_assert_ptr_nonnull(strstr(seen->courses[0].outcomes[0].because_withheld, "(withheld)"));
}

START_TEST(confidential_values_can_be_left_out) {
  bench b = bench_with("", "note { because = 'born {i.person.born}' }");
  evaluate(&b, "person.born", "2014-05-02", look_withheld);
  close_bench(&b);
}
END_TEST

static void look_undated(const ts_evaluation *seen) {
  ck_assert_ptr_null(seen->failure);
  const ts_outcome *said = &seen->courses[0].outcomes[0];
  ck_assert_str_eq(said->because, "an unknown time before, on not known");
  ck_assert_str_eq(said->values[0].shown, "an unknown time");
  ck_assert_ptr_nonnull(strstr(said->values[0].working, "− (not known) = an unknown time"));
}

/* The two centuries in which it plausibly lies are no help to a reader, nor is "-73.81..127.2 years". */
START_TEST(how_long_ago_an_unknown_date_was_is_not_known) {
  bench b = bench_with("", "local age = i.day.date - i.person.medical_on\n"
                           "note { because = '{age} before, on {i.person.medical_on}', values = { age = age } }");
  evaluate(&b, NULL, NULL, look_undated);
  close_bench(&b);
}
END_TEST

static void look_withheld_deep(const ts_evaluation *seen) {
  ck_assert_ptr_null(seen->failure);
  ck_assert_str_eq(seen->courses[0].outcomes[0].because_withheld, "(withheld)");
  ck_assert_str_eq(seen->courses[0].outcomes[0].values[0].withheld, "(withheld)");
}

/* However much is added on top of it. */
START_TEST(a_confidential_value_is_left_out_of_a_long_sum) {
  bench b = bench_with("", "local d = i.day.date - i.person.born\n for n = 1, 500 do d = d + q'1 h' end\n"
                           "note { because = '{d}', values = { d = d } }");
  evaluate(&b, "person.born", "2014-05-02", look_withheld_deep);
  close_bench(&b);
}
END_TEST

/* ---- effects ---------------------------------------------------------------------------------- */

START_TEST(a_control_changes_what_the_rule_sees) {
  bench b = bench_with("control { id = 'c', title = 't', kind = 'engineering', say = 's', check = 'c', often = 'o', who = 'w',\n"
                       " changes = { { fact = 'immersion.depth', at_most = '2 m' } } }",
                       "if i.depth > q'2.5 m' then hazard { likelihood = 4, severity = 2, because = 'b' } end");
  ck_assert(b.loaded);
  ts_subject subject;
  ts_dossier *world = ts_dossier_example(b.vocabulary, b.units, "immersion", &subject);
  ck_assert(ts_dossier_given(world, subject, "depth", "3 m", b.problems, "test", 1));
  ts_evaluator *evaluator = ts_evaluator_new(b.packs, world);
  ts_effect effect = {.control = ts_control_find(b.packs, "c")};
  ck_assert_uint_eq(ts_evaluate(evaluator, 0, subject, NULL, 0)->courses[0].outcome_count, 1);
  ck_assert_uint_eq(ts_evaluate(evaluator, 0, subject, &effect, 1)->courses[0].outcome_count, 0);
  ts_value further = {.range = {2.8, 2.8}}; /* the dossier says how far it really goes */
  effect.to = &further;
  ck_assert_uint_eq(ts_evaluate(evaluator, 0, subject, &effect, 1)->courses[0].outcome_count, 1);
  ts_evaluator_free(evaluator);
  ts_dossier_free(world);
  close_bench(&b);
}
END_TEST

/* A control over one task leaves the same fact of another alone, but not the water both share. */
START_TEST(a_control_changes_its_scope_alone) {
  bench b = bench_with("control { id = 'c', title = 't', kind = 'engineering', say = 's', check = 'c', often = 'o', who = 'w',\n"
                       " changes = { { fact = 'immersion.depth', at_most = '2 m' }, { fact = 'water.temperature', at_least = '30 degC' } } }",
                       "if i.depth > q'2.5 m' then hazard { likelihood = 4, severity = 2, because = 'b' } end\n"
                       "if i.site.water.temperature < q'28 degC' then hazard { likelihood = 3, severity = 2, about = 'cold', because = 'b' } end");
  ck_assert(b.loaded);
  ts_subject subject;
  ts_dossier *world = ts_dossier_example(b.vocabulary, b.units, "immersion", &subject);
  ck_assert(ts_dossier_given(world, subject, "depth", "3 m", b.problems, "test", 1));
  ck_assert(ts_dossier_given(world, subject, "site.water.temperature", "20 degC", b.problems, "test", 1));
  ts_evaluator *evaluator = ts_evaluator_new(b.packs, world);
  ts_subject person = ts_leads_to(world, subject, "person"), task = ts_leads_to(world, subject, "task");
  ts_effect effect = {.control = ts_control_find(b.packs, "c"), .scope = task, .here = true};
  ck_assert_uint_eq(ts_evaluate(evaluator, 0, subject, &effect, 1)->courses[0].outcome_count, 0);
  effect.here = false; /* as for a subject of another task: this immersion's depth changes, its water does not */
  ck_assert_uint_eq(ts_evaluate(evaluator, 0, subject, &effect, 1)->courses[0].outcome_count, 1);
  effect.scope = person; /* the immersion is this person's */
  ck_assert_uint_eq(ts_evaluate(evaluator, 0, subject, &effect, 1)->courses[0].outcome_count, 1);
  effect.scope = ts_leads_to(world, subject, "day");
  ck_assert_uint_eq(ts_evaluate(evaluator, 0, subject, &effect, 1)->courses[0].outcome_count, 1);
  uint32_t reads = ts_subject_at(world, task)->slot; /* something no control changes */
  ck_assert(!ts_effects_reach(world, &effect, 1, &reads, 1));
  ts_evaluator_free(evaluator);
  ts_dossier_free(world);
  close_bench(&b);
}
END_TEST

/* ---- examples and packs -------------------------------------------------------------------------- */

START_TEST(examples_are_run_and_judged) {
  bench b = open_bench();
  put(&b, "a.lua", "rule { id = 'x.y', title = 't', each = 'immersion', harm = 'h', sources = { 's' },\n"
                   " assess = function (i) if i.depth > q'2 m' then hazard { likelihood = 4, severity = 2, because = 'b' } end end,\n"
                   " examples = { { 'shallow', given = { depth = '1 m' }, expect = nothing },\n"
                   "  { 'deep', given = { depth = '3 m' }, expect = hazard { likelihood = 4, severity = 2 } },\n"
                   "  { 'not known', given = { depth = '?' }, expect = hazard { likelihood = 4, severity = 2 } },\n"
                   "  { 'wrong', given = { depth = '3 m' }, expect = hazard { likelihood = 5, severity = 2 } } } }\n");
  ck_assert(ts_packs_load(b.packs, b.folder, b.problems));
  ck_assert_uint_eq(ts_packs_check(b.packs, b.problems).passed, 3);
  expect_report(&b, "example \"wrong\": expected hazard 5 × 2, found 4 × 2");
  close_bench(&b);
}
END_TEST

START_TEST(what_an_example_states_is_a_table_also_a_shared_one) {
  bench b = open_bench();
  put(&b, "0.lua", "share('facts', { shallow = { depth = '1 m' } })\n");
  put(&b, "a.lua", "rule { id = 'x.y', title = 't', each = 'immersion', harm = 'h', sources = { 's' }, assess = function (i)"
                   " if i.depth > q'2 m' then note { because = 'b' } end end, examples = { { 'number', given = #{}, expect = nothing },"
                   " { 'deep', given = { depth = '3 m' }, expect = note {} }, { 'shared', given = facts.shallow, expect = nothing } } }\n");
  ck_assert(ts_packs_load(b.packs, b.folder, b.problems) && ts_packs_check(b.packs, b.problems).passed == 2);
  expect_report(&b, "example \"number\": \"given\" is a table of paths and texts");
  close_bench(&b);
}
END_TEST

START_TEST(a_threshold_no_example_reaches_is_found) {
  bench b = open_bench();
  put(&b, "a.lua", "rule { id = 'x.y', title = 't', each = 'immersion', harm = 'h', sources = { 's' },\n"
                   " assess = function (i)\n  if i.depth > q'2 m' then note { because = 'b' } end end,\n"
                   " examples = { { 'shallow', given = { depth = '1 m' }, expect = nothing } } }\n");
  ck_assert(ts_packs_load(b.packs, b.folder, b.problems) && ts_packs_check(b.packs, b.problems).passed == 1);
  expect_report(&b, "a.lua:3: warning: x.y: no example makes this comparison true");
  close_bench(&b);
}
END_TEST

START_TEST(a_file_nested_too_deeply_is_said_to_be) {
  bench b = open_bench();
  ts_text text = {0};
  ts_text_add(&text, "local t = {}\nlocal x = 1");
  for (int i = 0; i < 600; i++) ts_text_add(&text, " + 1");
  ts_text_add(&text, "\nlocal function f() return t");
  for (int i = 0; i < 9000; i++) ts_text_add(&text, ".a");
  ts_text_add(&text, " end\n");
  put(&b, "a.lua", text.data);
  ck_assert_msg(ts_packs_load(b.packs, b.folder, b.problems), "%s", printed(&b));
  ts_packs_check(b.packs, b.problems);
  expect_report(&b, "a.lua: warning: nested too deeply to be looked into");
  ts_text_release(&text);
  close_bench(&b);
}
END_TEST

START_TEST(a_pack_may_declare_facts_and_share_tables) {
  bench b = open_bench();
  put(&b, "00.lua", "fact { entity = 'basin', name = 'ledge-width', type = 'quantity', unit = 'm', low = '0 m', high = '9 m',\n"
                    " meaning = 'm', measured = 't', asked = 'site manager' }\nshare('limits', { ledge = '0.6 m' })\n");
  put(&b, "01.lua", "rule { id = 'x.y', title = 't', each = 'site', harm = 'h', sources = { 's' },\n"
                    " assess = function (s) if s.basin.ledge_width < q(limits.ledge) then stop { because = 'b' } end end,\n"
                    " examples = { { 'narrow', given = { ['basin.ledge_width'] = '0.5 m' }, expect = stop {} },\n"
                    "  { 'wide', given = { ['basin.ledge_width'] = '1 m' }, expect = nothing } } }\n");
  ck_assert_msg(ts_packs_load(b.packs, b.folder, b.problems), "%s", printed(&b));
  ck_assert_uint_eq(ts_packs_check(b.packs, b.problems).passed, 2);
  ck_assert_uint_eq(ts_count(b.problems, TS_ERROR), 0);
  close_bench(&b);
}
END_TEST

START_TEST(the_same_rule_twice_is_refused) {
  bench b = open_bench();
  const char *rule = "rule { id = 'x.y', title = 't', each = 'site', harm = 'h', sources = { 's' }, assess = function () end }\n";
  put(&b, "a.lua", rule);
  put(&b, "b.lua", rule);
  ck_assert(!ts_packs_load(b.packs, b.folder, b.problems));
  expect_report(&b, "pack/b.lua:1: error: rule \"x.y\" is already declared in pack/a.lua:1");
  close_bench(&b);
}
END_TEST

static void add_all(TCase *tc) {
  tcase_add_loop_test(tc, refused_while_loading, 0, sizeof refused / sizeof *refused);
tcase_add_loop_test(tc, what_is_its_own_a_function_may_assign_to, 0, sizeof own_names / sizeof *own_names);
  tcase_add_test(tc, bytecode_and_binary_are_refused);
  tcase_add_test(tc, misspelt_fields_are_named);
  tcase_add_test(tc, a_copy_has_what_both_have);
  tcase_add_loop_test(tc, fails_in_the_open, 0, sizeof failing / sizeof *failing);
  tcase_add_test(tc, a_failure_leaves_nothing_behind);
  tcase_add_test(tc, settled_facts_give_one_course);
  tcase_add_loop_test(tc, a_duty_holds_while_its_law_is_in_force, 0, 4);
  tcase_add_test(tc, an_overlap_forks);
  tcase_add_test(tc, what_was_decided_is_not_asked_again);
  tcase_add_test(tc, an_unknown_flag_forks_once);
  tcase_add_test(tc, too_many_courses_are_unresolved);
  tcase_add_test(tc, confidential_values_can_be_left_out);
  tcase_add_test(tc, how_long_ago_an_unknown_date_was_is_not_known);
  tcase_add_test(tc, a_confidential_value_is_left_out_of_a_long_sum);
  tcase_add_test(tc, a_control_changes_what_the_rule_sees);
  tcase_add_test(tc, a_control_changes_its_scope_alone);
  tcase_add_test(tc, examples_are_run_and_judged);
  tcase_add_test(tc, what_an_example_states_is_a_table_also_a_shared_one);
  tcase_add_test(tc, a_threshold_no_example_reaches_is_found);
  tcase_add_test(tc, a_pack_may_declare_facts_and_share_tables);
  tcase_add_test(tc, a_file_nested_too_deeply_is_said_to_be);
  tcase_add_test(tc, the_same_rule_twice_is_refused);
}

Suite *suite_rule(void) {
  Suite *suite = suite_create("rule");
  TCase *tc = tcase_create("rule");
  tcase_set_timeout(tc, 120);
  add_all(tc);
  suite_add_tcase(suite, tc);
  return suite;
}
