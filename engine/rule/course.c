/* Courses: every way one rule could go over one subject.
 *
 * The evaluation is run again and again. Each run replays the decisions of a
 * prefix and takes the first open answer at every new question; when a run
 * ends, the last question that still has an untried answer is answered the
 * other way, and everything after it is forgotten. What a decision says is
 * imposed on the graph at once, so that later questions it settles are not
 * asked. */
#include "rule/sandbox.h"

#include "base/sort.h"
#include "base/text.h"
#include "rule/evaluator.h"
#include "rule/fork.h"
#include "rule/trace.h"
#include <stdlib.h>
#include <string.h>

enum {
  COURSE_BOUND = 256,
  RUN_BOUND = 4 * COURSE_BOUND,  /* runs, those that turn out impossible included */
  STEP_BUDGET = 2000,            /* hundreds of Lua instructions, one run */
  EVALUATION_BUDGET = 100000,    /* the same, all runs of one evaluation */
  QUESTIONS_BOUND = 4096         /* decisions on one course */
};

const char ts_abandon = 0;

static unsigned first_answer(uint64_t options) { return (unsigned)__builtin_ctzll(options); }

static int abandon(lua_State *L) {
  lua_pushlightuserdata(L, (void *)&ts_abandon);
  return lua_error(L);
}

bool ts_same_question(const ts_step *s, const ts_step *t) {
  return s->kind == t->kind && s->a == t->a && s->b == t->b && s->or_equal == t->or_equal && s->slot == t->slot && s->bit == t->bit;
}

static ts_decided answered(unsigned taken) { return (ts_decided){.how = TS_DECIDED, .taken = taken}; }
static ts_decided refused(const char *why) { return (ts_decided){.how = TS_REFUSED, .why = why}; }
static ts_decided no_course(void) { return (ts_decided){.how = TS_NO_COURSE}; }

static void add_step(ts_sandbox *box, const ts_step *step) {
  TS_GROW(box->steps, box->step_count, box->step_capacity);
  // NOLINTNEXTLINE(clang-analyzer-core.NullDereference): there is room: where none was, it was made
  box->steps[box->step_count++] = *step;
}

static const ts_step *asked_before(const ts_sandbox *box, const ts_step *step) {
  for (size_t i = 0; i < box->step_count; i++)
    if (ts_same_question(&box->steps[i], step)) return &box->steps[i];
  return NULL;
}

/* Room for the nodes of this evaluation, twice. */
static ts_node *room_for(ts_sandbox *box, size_t nodes) {
  if (2 * nodes > box->room_size) {
    box->room_size = 4 * nodes;
    box->room = ts_resize(box->room, box->room_size * sizeof *box->room);
  }
  return box->room;
}

/* Which answers the ranges leave possible: bit 0 no, bit 1 yes. What the first of them says is
 * imposed on the graph. */
static uint64_t impose_possible(ts_sandbox *box, const ts_step *step) {
  ts_graph *graph = box->graph;
  size_t nodes = ts_node_count(graph) - ts_graph_kept(graph);
  ts_node *before = room_for(box, nodes), *with_no = before + nodes;
  ts_graph_point start = ts_graph_save(graph, before), after_no = start;
  bool no = ts_impose(graph, step->a, step->b, step->or_equal, false);
  if (no) after_no = ts_graph_save(graph, with_no);
  ts_graph_go_back(graph, &start, before);
  bool yes = ts_impose(graph, step->a, step->b, step->or_equal, true);
  if (no && yes) ts_fork_keep(box, true);
  if (no) ts_graph_go_back(graph, &after_no, with_no);
  return (uint64_t)no | (uint64_t)yes << 1;
}

static bool impose_step(ts_sandbox *box, const ts_step *step) {
  return !box->narrowing || ts_impose(box->graph, step->a, step->b, step->or_equal, step->taken == 1);
}

static ts_decided fresh_compare(ts_sandbox *box, ts_step *step) {
  ts_answer answer = ts_less(box->graph, step->a, step->b, step->or_equal);
  if (answer != TS_OPEN) {
    step->settled = true;
    step->taken = answer == TS_YES;
    add_step(box, step);
    return answered(step->taken);
  }
  step->options = box->narrowing ? impose_possible(box, step) : 3;
  if (!step->options) return no_course();
  step->taken = first_answer(step->options);
  step->left = step->options & ~((uint64_t)1 << step->taken);
  step->settled = step->left == 0;
  add_step(box, step);
  return answered(step->taken);
}

static ts_decided fresh_read(ts_sandbox *box, ts_step *step) {
  if (!step->options) return refused("a fact without any possible value");
  step->taken = first_answer(step->options);
  step->left = step->options & ~((uint64_t)1 << step->taken);
  step->settled = step->left == 0;
  if (!step->settled) ts_fork_keep(box, false);
  add_step(box, step);
  return answered(step->taken);
}

/* Within the prefix the next step is known; what it decided is imposed again. */
static ts_decided replayed(ts_sandbox *box, const ts_step *known) {
  if (known->left) ts_fork_keep(box, false);
  box->step_count++;
  bool open = known->kind == TS_COMPARE && ts_less(box->graph, known->a, known->b, known->or_equal) == TS_OPEN;
  return !open || impose_step(box, known) ? answered(known->taken) : no_course();
}

/* The answer that is asked for, where it is possible. */
static ts_decided led(ts_sandbox *box, ts_step *step) {
  if (box->step_count >= box->lead->count) return no_course();
  step->taken = box->lead->at[box->step_count];
  bool possible = step->options >> step->taken & 1;
  if (step->kind == TS_COMPARE) {
    ts_answer answer = ts_less(box->graph, step->a, step->b, step->or_equal);
    possible = answer == TS_OPEN ? impose_step(box, step) : (answer == TS_YES) == step->taken;
  }
  add_step(box, step);
  return possible ? answered(step->taken) : no_course();
}

/* The same question asked before on this course has the same answer; a record has each once. */
static ts_decided decide(ts_sandbox *box, ts_step *step) {
  if (box->lead) return led(box, step);
  const ts_step *before = box->replaying ? NULL : asked_before(box, step);
  if (before) return answered(before->taken);
  if (!box->replaying) ts_record_question(box, step);
  const ts_step *known = box->step_count < box->prefix ? &box->steps[box->step_count] : NULL;
  if (known && !ts_same_question(known, step))
    return refused("the rule is not a function of its facts: it asked something else the second time");
  if (!known && box->step_count >= QUESTIONS_BOUND) return refused("the rule asks more than 4096 questions");
  ts_decided decided = known                      ? replayed(box, known)
                       : step->kind == TS_COMPARE ? fresh_compare(box, step)
                                                  : fresh_read(box, step);
  if (decided.how == TS_DECIDED && !box->replaying) ts_record_answer(box, decided.taken);
  return decided;
}

ts_decided ts_decide(ts_sandbox *box, ts_node_id a, ts_node_id b, bool or_equal) {
  return decide(box, &(ts_step){.kind = TS_COMPARE, .a = a, .b = b, .or_equal = or_equal});
}

ts_decided ts_decide_read(ts_sandbox *box, ts_question kind, uint32_t slot, unsigned bit, uint64_t options) {
  return decide(box, &(ts_step){.kind = kind, .slot = slot, .bit = bit, .options = options});
}

static unsigned or_raise(lua_State *L, ts_decided decided) {
  if (decided.how == TS_NO_COURSE) abandon(L);
  if (decided.how == TS_REFUSED) luaL_error(L, "%s", decided.why);
  return decided.taken;
}

bool ts_decide_compare(lua_State *L, ts_node_id a, ts_node_id b, bool or_equal) {
  ts_sandbox *box = ts_sandbox_of(L);
  if (!box->evaluating) luaL_error(L, "facts can only be compared while a rule is evaluated");
  return or_raise(L, ts_decide(box, a, b, or_equal)) == 1;
}

unsigned ts_decide_choice(lua_State *L, ts_question kind, uint32_t slot, unsigned bit, uint64_t options) {
  return or_raise(L, ts_decide_read(ts_sandbox_of(L), kind, slot, bit, options));
}

/* ---- one course --------------------------------------------------------------- */

static void begin_run(ts_sandbox *box) {
  ts_forks_drop(box);
  ts_graph_reset(box->graph);
  box->stamp++;
  box->step_count = 0;
  box->read_count = 0;
  box->said_count = 0;
  box->steps_left = STEP_BUDGET;
}

static bool call_when(lua_State *L, int rule) {
  lua_getfield(L, rule, "when");
  if (lua_isnil(L, -1)) return true;
  ts_push_subject(L, ts_sandbox_of(L)->subject);
  ts_push_limits(L);
  lua_call(L, 2, 1);
  if (!lua_isboolean(L, -1)) luaL_error(L, "\"when\" must give true or false, not a %s", luaL_typename(L, -1));
  return lua_toboolean(L, -1);
}

/* The protected part: rule table at 1; returns whether the rule applies. */
static int run_rule(lua_State *L) {
  bool applies = call_when(L, 1);
  lua_settop(L, 1);
  if (applies) {
    lua_getfield(L, 1, "assess");
    ts_push_subject(L, ts_sandbox_of(L)->subject);
    ts_push_limits(L);
    lua_call(L, 2, 0);
  }
  lua_pushboolean(L, applies);
  return 1;
}

typedef enum { RUN_OK, RUN_IMPOSSIBLE, RUN_FAILED } run_result;

static void push_rule(const ts_evaluator *evaluator) {
  lua_State *L = evaluator->box->lua;
  lua_getfield(L, LUA_REGISTRYINDEX, TS_DECLARED);
  lua_rawgeti(L, -1, ts_rule_declaration(evaluator->packs, evaluator->rule));
  lua_getfield(L, -1, "body");
}

static run_result run_lua(const ts_evaluator *evaluator, bool *applies, const char **failure) {
  ts_sandbox *box = evaluator->box;
  lua_State *L = box->lua;
  begin_run(box);
  ts_sandbox_give(box, STEP_BUDGET); /* with the count that it begins at, wherever it runs */
  push_rule(evaluator);
  lua_pushcfunction(L, run_rule);
  lua_pushvalue(L, -2);
  int status = lua_pcall(L, 1, 1, 0);
  bool abandoned = status != LUA_OK && lua_touserdata(L, -1) == &ts_abandon;
  if (status == LUA_OK) *applies = lua_toboolean(L, -1);
  else if (!abandoned) *failure = ts_arena_copy(box->arena, lua_isstring(L, -1) ? lua_tostring(L, -1) : "an error that is not text");
  lua_settop(L, 0);
  if (abandoned) return RUN_IMPOSSIBLE;
  return status == LUA_OK ? RUN_OK : RUN_FAILED;
}

/* From the record where there is one of this course; else the rule itself runs, and is recorded. */
static run_result run_once(ts_evaluator *evaluator, bool *applies, const char **failure) {
  ts_sandbox *box = evaluator->box;
  if (box->recorder) {
    const ts_fork *fork = ts_fork_last(box);
    if (!fork) begin_run(box);
    ts_replay_result replay = ts_replay(box, evaluator->rule, fork, applies);
    while (replay == TS_NEXT_RECORD) {
      begin_run(box);
      replay = ts_replay(box, evaluator->rule, NULL, applies);
    }
    if (replay != TS_NOT_RECORDED) return replay == TS_REPLAYED ? RUN_OK : RUN_IMPOSSIBLE;
    ts_record_start(box, evaluator->rule);
  }
  run_result did = run_lua(evaluator, applies, failure);
  if (did == RUN_OK) ts_record_end(box, *applies);
  ts_record_stop(box);
  return did;
}

/* Takes the next untried answer; false when every course has been seen. */
static bool next_course(ts_sandbox *box) {
  while (box->step_count && !box->steps[box->step_count - 1].left) box->step_count--;
  if (!box->step_count) return false;
  ts_step *last = &box->steps[box->step_count - 1];
  last->taken = first_answer(last->left);
  last->left &= last->left - 1;
  box->prefix = box->step_count;
  return true;
}

/* ---- what is kept of a course --------------------------------------------------- */

static ts_bound *bound_at(ts_sandbox *box, size_t count) {
  TS_GROW(box->bounds, count, box->bound_capacity);
  return &box->bounds[count];
}

/* Steps that were open bind a fact of words; the graph tells how far numbers were narrowed. */
static void keep_bounds(ts_sandbox *box, ts_course *course) {
  size_t facts, count = 0;
  const ts_made *made = ts_graph_facts(box->graph, &facts);
  for (size_t i = 0; i < box->step_count; i++) {
    const ts_step *step = &box->steps[i];
    if (step->settled || step->kind == TS_COMPARE) continue;
    *bound_at(box, count++) = (ts_bound){.slot = step->slot, .member = step->bit, .choices = (uint64_t)1 << step->taken};
  }
  for (size_t i = 0; i < facts; i++) {
    const ts_node *node = ts_node_at(box->graph, made[i].id);
    if (node->lo <= made[i].range.lo && node->hi >= made[i].range.hi) continue;
    *bound_at(box, count++) = (ts_bound){.slot = node->a, .number = true, .range = {node->lo, node->hi}};
  }
  course->bound_count = count;
  course->bounds = ts_arena_keep(box->arena, box->bounds, count * sizeof *box->bounds);
}

static void keep_outcomes(ts_sandbox *box, ts_course *course) {
  size_t read = box->said_count ? box->read_count : 0; /* nothing said, nothing rests on them */
  const uint32_t *reads = ts_arena_keep(box->arena, box->reads, read * sizeof *reads);
  ts_outcome *outcomes = ts_arena_alloc(box->arena, (box->said_count + 1) * sizeof *outcomes);
  for (size_t i = 0; i < box->said_count; i++) {
    outcomes[i] = box->said[i].out;
    outcomes[i].facts = reads;
    outcomes[i].fact_count = box->said[i].slot_mark;
  }
  course->outcomes = outcomes;
  course->outcome_count = box->said_count;
}

static void keep_course(ts_evaluator *evaluator, bool applies) {
  ts_sandbox *box = evaluator->box;
  TS_GROW(evaluator->courses, evaluator->course_count, evaluator->course_capacity);
  TS_GROW(evaluator->kept, evaluator->course_count, evaluator->kept_capacity);
  ts_course *course = &evaluator->courses[evaluator->course_count];
  *course = (ts_course){.applies = applies};
  keep_outcomes(box, course);
  keep_bounds(box, course);
  const ts_step *steps = ts_arena_keep(box->arena, box->steps, box->step_count * sizeof *steps);
  evaluator->kept[evaluator->course_count++] = (ts_kept){.steps = steps, .count = box->step_count};
}

/* What an impossible course read counts too: with other values it may be possible. */
static void keep_reads(ts_evaluator *evaluator) {
  const ts_sandbox *box = evaluator->box;
  for (size_t i = 0; i < box->read_count; i++) {
    uint32_t slot = box->reads[i];
    if (ts_is_at(evaluator->reads, evaluator->read_count, box->read_ever_at[slot], slot)) continue;
    box->read_ever_at[slot] = (uint16_t)evaluator->read_count;
    TS_GROW(evaluator->reads, evaluator->read_count, evaluator->read_capacity);
    evaluator->reads[evaluator->read_count++] = slot;
  }
}

/* ---- all courses ------------------------------------------------------------------ */

static void see_courses(ts_evaluator *evaluator, ts_evaluation *result) {
  ts_sandbox *box = evaluator->box;
  long budget = EVALUATION_BUDGET;
  box->prefix = 0;
  for (int runs = 0;; runs++) {
    bool applies = false;
    run_result did = run_once(evaluator, &applies, &result->failure);
    budget -= STEP_BUDGET - box->steps_left;
    keep_reads(evaluator);
    if (did == RUN_FAILED) return;
    if (did == RUN_OK) keep_course(evaluator, applies);
    if (!next_course(box)) return;
    if (evaluator->course_count >= COURSE_BOUND || runs >= RUN_BOUND || budget < 0) {
      result->unresolved = true;
      return;
    }
  }
}

static void prepare(ts_evaluator *evaluator, ts_subject subject, const ts_effect *effects, size_t count) {
  ts_sandbox *box = evaluator->box;
  ts_arena_clear(box->arena);
  box->rule = ts_rule_at(evaluator->packs, evaluator->rule);
  box->subject = subject;
  box->effects = effects;
  box->effect_count = count;
  box->evaluation++;
  ts_forks_drop(box);
  evaluator->course_count = 0;
  evaluator->read_count = 0;
  evaluator->result = (ts_evaluation){0};
}

const ts_evaluation *ts_evaluate(ts_evaluator *evaluator, size_t rule, ts_subject subject,
                                 const ts_effect *effects, size_t effect_count) {
  ts_sandbox *box = evaluator->box;
  ts_evaluation *result = &evaluator->result;
  evaluator->rule = rule;
  prepare(evaluator, subject, effects, effect_count);
  box->evaluating = true;
  see_courses(evaluator, result);
  box->evaluating = false;
  ts_sort_once_each(evaluator->reads, evaluator->read_count); /* each is there once */
  result->courses = evaluator->courses;
  result->course_count = evaluator->course_count;
  result->reads = evaluator->reads;
  result->read_count = evaluator->read_count;
  if (!result->failure && !result->course_count) result->unresolved = true;
  return result;
}

bool ts_course_answers(const ts_evaluator *evaluator, size_t index, ts_answers *answers) {
  const ts_kept *kept = &evaluator->kept[index];
  if (kept->count > TS_ANSWERS_MAX) return false;
  answers->count = (uint8_t)kept->count;
  for (size_t i = 0; i < kept->count; i++) answers->at[i] = (uint8_t)kept->steps[i].taken;
  return true;
}

bool ts_course_is_open(ts_evaluator *evaluator, size_t rule, ts_subject subject, const ts_effect *effects,
                       size_t effect_count, const ts_answers *answers) {
  ts_sandbox *box = evaluator->box;
  bool applies;
  if (!box->recorder) return false;
  evaluator->rule = rule;
  prepare(evaluator, subject, effects, effect_count);
  begin_run(box);
  box->prefix = 0;
  box->lead = answers;
  ts_replay_result did = ts_replay(box, rule, NULL, &applies);
  box->lead = NULL;
  return did == TS_REPLAYED;
}

/* The same decisions give the same course: it is taken once more, this time to the letter. */
const ts_course *ts_course_worded(ts_evaluator *evaluator, size_t index) {
  ts_sandbox *box = evaluator->box;
  ts_kept *kept = &evaluator->kept[index];
  if (kept->worded) return kept->worded;
  ts_course *course = ts_arena_alloc(box->arena, sizeof *course);
  *course = evaluator->courses[index];
  bool applies;
  const char *failure = NULL;
  TS_RESERVE(box->steps, kept->count, box->step_capacity);
  if (kept->count) memcpy(box->steps, kept->steps, kept->count * sizeof *kept->steps);
  box->prefix = kept->count;
  ts_forks_drop(box);
  box->evaluating = box->wording = true;
  if (run_once(evaluator, &applies, &failure) == RUN_OK) ts_word_course(box, course);
  box->evaluating = box->wording = false;
  return kept->worded = course;
}
