/* `rules check`: everything that can be found wrong with rules and controls, in one run. */
#include "rule/check_int.h"

#include "base/text.h"
#include "rule/bare.h"
#include <stdlib.h>
#include <string.h>

/* ---- the text of the rules --------------------------------------------------------------- */

static bool is_lua(const ts_checking *c, const ts_pack_file *file) {
  lua_State *L = c->packs->box->lua;
  bool good = luaL_loadbufferx(L, file->text, file->length, "=file", "t") == LUA_OK;
  lua_pop(L, 1);
  return good;
}

static void read_trees(ts_checking *c) {
  c->trees = ts_arena_alloc(c->arena, (c->packs->file_count + 1) * sizeof *c->trees);
  for (size_t i = 0; i < c->packs->file_count; i++) {
    const ts_pack_file *file = &c->packs->files[i];
    c->trees[i] = ts_syntax_read(c->arena, file->name, file->text, file->length);
    if (!c->trees[i] && !file->refused && is_lua(c, file))
      ts_report(c->problems, TS_WARNING, file->name, 0,
                "nested too deeply to be looked into: write it flatter");
  }
}

/* The table that a call of `rule` on this line declares. */
static ts_syntax *declared_at(ts_syntax *it, int line) {
  for (; it; it = it->next) {
    bool call = it->kind == TS_E_CALL && it->line == line && ts_same(it->first->text, "rule");
    if (call && it->first->next && it->first->next->kind == TS_E_TABLE) return it->first->next;
    ts_syntax *inside = declared_at(it->first, line);
    if (inside) return inside;
  }
  return NULL;
}

static void find_table(ts_checking *c, size_t rule) {
  const ts_rule *it = ts_rule_at(c->packs, rule);
  const char *name = ts_arena_printf(c->arena, "%s/%s", it->pack, it->file);
  for (size_t i = 0; i < c->packs->file_count; i++)
    if (ts_same(c->packs->files[i].name, name) && c->trees[i])
      c->rules[rule].table = declared_at(c->trees[i]->first, it->line);
}

/* ---- what is seen ------------------------------------------------------------------------- */

static void keep_control(ts_rule_seen *seen, ts_arena *arena, const char *id, int line,
                         bool scored) {
  for (size_t i = 0; i < seen->control_count; i++) {
    if (!ts_same(seen->controls[i], id)) continue;
    seen->control_scored[i] = seen->control_scored[i] || scored;
    return;
  }
  TS_GROW(seen->control_scored, seen->control_count, seen->control_scored_capacity);
  seen->control_scored[seen->control_count] = scored;
  TS_GROW(seen->controls, seen->control_count, seen->control_capacity);
  TS_GROW(seen->control_lines, seen->control_count, seen->control_line_capacity);
  seen->control_lines[seen->control_count] = line;
  seen->controls[seen->control_count++] = ts_arena_copy(arena, id);
}

/* A name in a text that is neither a value nor a fact is printed as it stands. */
static void check_words(ts_checking *c, const ts_rule *rule, const ts_outcome *said) {
  const char *open = said->because ? strchr(said->because, '{') : NULL;
  if (!open) return;
  ts_report(c->problems, TS_ERROR, ts_arena_printf(c->arena, "%s/%s", rule->pack, rule->file),
            said->line,
            "%s: \"%.*s\" in \"because\" is neither one of its values nor a fact of the %s",
            rule->id, (int)strcspn(open, "}") + 1, open, rule->each);
}

/* True for the first time that something said on this line is seen. */
static bool first_on_line(ts_rule_seen *seen, int line) {
  for (size_t i = 0; i < seen->line_count; i++)
    if (seen->lines[i] == line) return false;
  TS_GROW(seen->lines, seen->line_count, seen->line_capacity);
  seen->lines[seen->line_count++] = line;
  return true;
}

/* Each place that says something is put into words once. */
static void keep_outcome(ts_checking *c, size_t rule, size_t course, size_t place) {
  ts_rule_seen *seen = &c->rules[rule];
  const ts_outcome *said = &c->evaluator->courses[course].outcomes[place];
  for (size_t i = 0; i < said->control_count; i++)
    keep_control(seen, c->arena, said->controls[i], said->line, i < said->scored_controls);
  if (!first_on_line(seen, said->line)) return;
  const ts_course *worded = ts_course_worded(c->evaluator, course);
  if (place < worded->outcome_count)
    check_words(c, ts_rule_at(c->packs, rule), &worded->outcomes[place]);
}

void ts_keep_seen(ts_checking *c, size_t rule, const ts_evaluation *e) {
  for (size_t i = 0; i < e->read_count; i++)
    ts_keep_fact(&c->rules[rule], ts_slot_fact(c->evaluator->box->dossier, e->reads[i]));
  for (size_t k = 0; k < e->course_count; k++)
    for (size_t o = 0; o < e->courses[k].outcome_count; o++) keep_outcome(c, rule, k, o);
}

/* controls = { "a", "b" } in the rule's own text: on courses past the bound too. */
static void keep_written(ts_checking *c, ts_rule_seen *seen, const ts_syntax *it) {
  bool scored = it->kind == TS_E_KEYED && ts_same(it->text, "controls");
  bool list = scored || (it->kind == TS_E_KEYED && ts_same(it->text, "also"));
  list = list && it->first->kind == TS_E_TABLE;
  for (const ts_syntax *item = list ? it->first->first : NULL; item; item = item->next)
    if (item->first->kind == TS_E_STRING)
      keep_control(seen, c->arena, item->first->text, item->line, scored);
  if (it->kind == TS_E_KEYED && ts_same(it->text, "examples")) return;
  for (const ts_syntax *child = it->first; child; child = child->next) keep_written(c, seen, child);
}

/* Where nothing is known a rule takes every course there is, up to the bound. */
static void see_all_courses(ts_checking *c, size_t rule) {
  const ts_rule *it = ts_rule_at(c->packs, rule);
  ts_subject subject;
  ts_dossier *world = ts_dossier_example(c->packs->vocabulary, c->packs->units, it->each, &subject);
  if (!world) return;
  c->with_examples = false;
  ts_evaluator_use(c->evaluator, world);
  const ts_evaluation *e = ts_evaluate(c->evaluator, rule, subject, NULL, 0);
  ts_keep_seen(c, rule, e);
  if (c->rules[rule].table) keep_written(c, &c->rules[rule], c->rules[rule].table);
  if (e->unresolved || e->failure) /* what was not seen may still be plausible */
    for (size_t i = 1; i < c->point_count; i++)
      if (c->points[i].rule == rule) c->points[i].anything = 3;
  if (e->failure)
    ts_report(c->problems, TS_ERROR, ts_arena_printf(c->arena, "%s/%s", it->pack, it->file),
              it->line, "%s: with nothing known it fails: %s", it->id, e->failure);
  ts_dossier_free(world);
}

/* ---- without examples ------------------------------------------------------------------------ */

static void run_bare(ts_checking *c, ts_sandbox *box, const ts_pack_file *file) {
  size_t length = file->length;
  const char *bare = ts_bare(c->arena, file->text, &length);
  ts_sandbox_run_file(box, bare, length, file->name);
}

/* Assessments run the files without what stands behind `examples`: that must declare nothing. */
static void compare_with_bare(ts_checking *c) {
  const ts_packs *packs = c->packs;
  ts_sandbox *whole = ts_sandbox_new(packs->units), *bare = ts_sandbox_new(packs->units);
  for (size_t i = 0; i < packs->file_count; i++) {
    const ts_pack_file *file = &packs->files[i];
    size_t more = whole->declared - bare->declared;
    if (file->refused) continue;
    ts_sandbox_run_file(whole, file->text, file->length, file->name);
    run_bare(c, bare, file);
    if (whole->declared - bare->declared != more)
      ts_report(c->problems, TS_ERROR, file->name, 0,
                "what stands behind \"examples\" declares something; where a dossier is assessed it is not run");
  }
  ts_sandbox_free(whole);
  ts_sandbox_free(bare);
}

/* ---- all of it ------------------------------------------------------------------------------ */

static void count_points(const ts_checking *c, ts_check_count *count) {
  for (size_t i = 1; i < c->point_count; i++) {
    const ts_point *p = &c->points[i];
    *(p->decision ? &count->decisions : &count->statements) += 1;
    if (p->decision)
      count->both_ways += p->examples == 3;
    else
      count->reached += p->examples != 0;
  }
}

void ts_checking_release(ts_checking *c) {
  for (size_t i = 0; i < ts_rule_count(c->packs); i++) {
    free(c->rules[i].facts);
    free(c->rules[i].controls);
    free(c->rules[i].control_lines);
    free(c->rules[i].control_scored);
    free(c->rules[i].lines);
  }
  free(c->points);
  ts_evaluator_free(c->evaluator);
  ts_dossier_free(c->world);
  ts_arena_free(c->arena);
}

/* Looks at the text of all rules. */
static ts_checking begin(const ts_packs *packs, ts_diagnostics *problems) {
  ts_subject ignored;
  ts_checking c = {.packs = packs, .problems = problems, .arena = ts_arena_new()};
  size_t rules = ts_rule_count(packs);
  c.world = ts_dossier_example(packs->vocabulary, packs->units, "production", &ignored);
  c.rules = ts_arena_alloc(c.arena, (rules + 1) * sizeof *c.rules);
  read_trees(&c);
  for (size_t i = 0; i < rules; i++) {
    find_table(&c, i);
    ts_types_follow(&c, i);
    c.rules[i].print = ts_alike_print(&c, i);
  }
  return c;
}

ts_check_count ts_packs_check(const ts_packs *packs, ts_diagnostics *problems) {
  ts_check_count count = {0};
  size_t rules = ts_rule_count(packs);
  ts_checking c = begin(packs, problems);
  compare_with_bare(&c);
  ts_inspect_names(&c);
  ts_coverage_begin(&c);
  for (size_t i = 0; i < rules; i++) {
    see_all_courses(&c, i);
    c.with_examples = true;
    count.examples += ts_rule_at(packs, i)->example_count;
    count.passed += ts_examples_run(&c, i);
  }
  ts_coverage_report(&c);
  ts_inspect_controls(&c);
  ts_inspect_scores(&c);
  ts_alike_report(&c);
  count_points(&c, &count);
  ts_checking_release(&c);
  return count;
}

/* ---- what rules read and name ------------------------------------------------------------- */

struct ts_rule_index {
  ts_checking c;
  ts_diagnostics *problems; /* of the rules: for `rules check` to say */
};

ts_rule_index *ts_rule_index_new(const ts_packs *packs) {
  ts_rule_index *index = ts_alloc(sizeof *index);
  index->problems = ts_diagnostics_new();
  index->c = begin(packs, index->problems);
  index->c.evaluator = ts_evaluator_new(packs, NULL);
  for (size_t i = 0; i < ts_rule_count(packs); i++) see_all_courses(&index->c, i);
  return index;
}

ts_rule_content ts_rule_index_at(const ts_rule_index *index, size_t rule) {
  const ts_rule_seen *seen = &index->c.rules[rule];
  return (ts_rule_content){seen->facts, seen->fact_count, seen->controls, seen->control_count};
}

void ts_rule_index_free(ts_rule_index *index) {
  if (!index) return;
  ts_checking_release(&index->c);
  ts_diagnostics_free(index->problems);
  free(index);
}

const char *ts_rule_when(const ts_packs *packs, size_t rule, ts_arena *arena) {
  ts_diagnostics *ignored = ts_diagnostics_new();
  ts_checking c = begin(packs, ignored);
  const char *words = ts_arena_copy(arena, ts_when_words(&c, rule));
  ts_checking_release(&c);
  ts_diagnostics_free(ignored);
  return words;
}
