/* What it costs that a rule's values are ranges that know where they come from.
 *
 *   tankside-settled PLAIN.lua DOSSIER PACK...
 *
 * Every rule of the packs over every subject of the dossier for which the facts settle it, three
 * ways: run in Lua by the engine, with everything that it records; replayed from its record,
 * without Lua; and the same rule file run by plain Lua over bare numbers (PLAIN.lua has the words
 * of rule files for that; every q"..." is a number before anything runs, every derived fact too,
 * and the science functions are the same C). What is said must be the same three times. Prints the
 * microseconds of each and the ratios to plain Lua: processor time, medians over rounds that
 * alternate. */
#include "base/file.h"
#include "rule/rule.h"

#include <lauxlib.h>
#include <lualib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { FIELDS_MOST = 4096, PASSES = 20, MEASURES = 15 };

typedef struct {
  size_t rule;
  ts_subject subject;
} settled_pair;

typedef struct {
  ts_arena *arena;
  ts_diagnostics *problems;
  ts_units *units;
  ts_vocabulary *vocabulary;
  ts_packs *packs;
  ts_dossier *dossier;
  ts_evaluator *run, *replayed;
  lua_State *plain;
  int loaded, subjects, list; /* references: the table PLAIN.lua gives, the subjects, the pairs */
  settled_pair *pairs;
  size_t pair_count, pair_capacity;
  size_t left_out;
} bench;

static void die(const bench *b, const char *what) {
  fprintf(stderr, "%s\n", what);
  if (b->problems) ts_diagnostics_print(b->problems, stderr);
  exit(EXIT_FAILURE);
}

static void must_run(const bench *b, int status) {
  if (status != LUA_OK) die(b, lua_tostring(b->plain, -1));
}

/* ---- subjects as tables of bare numbers ------------------------------------------------ */

static ts_node_id read_slot(ts_fact_reader *reader, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(reader->dossier, slot);
  if (fact->derived) return ts_derive(reader, slot);
  const ts_vocabulary *vocabulary = ts_dossier_vocabulary(reader->dossier);
  return ts_fact_value(reader->graph, slot, ts_slot_value(reader->dossier, slot)->range,
                       ts_fact_dim(vocabulary, fact));
}

/* Where a number is not known exactly any of its values does: the pair is settled. */
static void push_number(bench *b, ts_graph *graph, uint32_t slot) {
  ts_fact_reader reader = {.dossier = b->dossier, .graph = graph, .read = read_slot};
  ts_node_id made = read_slot(&reader, slot);
  if (made == TS_NO_NODE)
    lua_pushnil(b->plain);
  else
    lua_pushnumber(b->plain, (ts_node_at(graph, made)->lo + ts_node_at(graph, made)->hi) / 2);
}

static void push_choice(bench *b, const ts_fact_def *fact, uint64_t choices) {
  const char *at = fact->choices;
  while (choices && !(choices & 1)) {
    at += strcspn(at, " ");
    at += strspn(at, " ");
    choices >>= 1;
  }
  lua_pushlstring(b->plain, at, strcspn(at, " "));
}

static void push_fact(bench *b, ts_graph *graph, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(b->dossier, slot);
  const ts_value *value = ts_slot_value(b->dossier, slot);
  if (fact->type == TS_FLAG)
    lua_pushboolean(b->plain, value->choices == 2);
  else if (fact->type == TS_CHOICE || fact->type == TS_KIND_WORD)
    push_choice(b, fact, value->choices);
  else
    push_number(b, graph, slot);
}

static void push_subject(bench *b, ts_subject subject) {
  lua_rawgeti(b->plain, LUA_REGISTRYINDEX, b->subjects);
  lua_rawgeti(b->plain, -1, (lua_Integer)subject + 1);
  lua_remove(b->plain, -2);
}

static bool push_field(bench *b, ts_graph *graph, const ts_field *field) {
  switch (field->kind) {
  case TS_FIELD_FACT: push_fact(b, graph, field->slot); return true;
  case TS_FIELD_MEMBER:
    lua_pushboolean(b->plain, ts_slot_value(b->dossier, field->slot)->certain >> field->bit & 1);
    return true;
  case TS_FIELD_SUBJECT:
    if (field->subject == TS_NO_SUBJECT) return false;
    push_subject(b, field->subject);
    return true;
  case TS_FIELD_LIST:
    lua_createtable(b->plain, (int)field->count, 0);
    for (size_t i = 0; i < field->count; i++) {
      push_subject(b, field->list[i]);
      lua_rawseti(b->plain, -2, (lua_Integer)i + 1);
    }
    return true;
  default: return false;
  }
}

static void fill_subject(bench *b, ts_graph *graph, ts_subject subject) {
  const char *names[FIELDS_MOST];
  size_t count = ts_subject_field_names(b->dossier, subject, names, FIELDS_MOST);
  if (count > FIELDS_MOST) die(b, "more fields than this bench has room for");
  push_subject(b, subject);
  for (size_t i = 0; i < count; i++) {
    ts_field field = ts_subject_field(b->dossier, subject, names[i]);
    if (push_field(b, graph, &field)) lua_setfield(b->plain, -2, names[i]);
  }
  lua_pushstring(b->plain, ts_subject_at(b->dossier, subject)->label);
  lua_setfield(b->plain, -2, "label");
  lua_pop(b->plain, 1);
}

static void make_subjects(bench *b) {
  lua_newtable(b->plain);
  for (ts_subject s = 0; s < ts_subject_count(b->dossier); s++) {
    lua_newtable(b->plain);
    lua_rawseti(b->plain, -2, (lua_Integer)s + 1);
  }
  b->subjects = luaL_ref(b->plain, LUA_REGISTRYINDEX);
  ts_graph *graph = ts_graph_new();
  for (ts_subject s = 0; s < ts_subject_count(b->dossier); s++) {
    ts_graph_reset(graph);
    fill_subject(b, graph, s);
  }
  ts_graph_free(graph);
}

/* ---- plain Lua ------------------------------------------------------------------------- */

static int read_number(lua_State *L) {
  const bench *b = lua_touserdata(L, lua_upvalueindex(1));
  ts_range range;
  ts_dim dim;
  char why[256];
  if (!ts_quantity_read(b->units, luaL_checkstring(L, 1), &range, &dim, why, sizeof why))
    return luaL_error(L, "%s", why);
  lua_pushnumber(L, range.lo);
  return 1;
}

static int call_science(lua_State *L) {
  const ts_function *f = lua_touserdata(L, lua_upvalueindex(1));
  double x[TS_ARGUMENTS_MAX];
  for (int i = 0; i < f->count; i++) x[i] = luaL_checknumber(L, i + 1);
  lua_pushnumber(L, f->point(x));
  return 1;
}

static void put_words(bench *b) {
  lua_newtable(b->plain);
  for (const ts_function *f = ts_functions(); f->name; f++) {
    lua_pushlightuserdata(b->plain, (void *)f);
    lua_pushcclosure(b->plain, call_science, 1);
    lua_setfield(b->plain, -2, f->name);
  }
  lua_setglobal(b->plain, "calc");
  lua_pushlightuserdata(b->plain, b);
  lua_pushcclosure(b->plain, read_number, 1);
  lua_setglobal(b->plain, "number");
}

static void get_plain(bench *b, const char *name) {
  lua_rawgeti(b->plain, LUA_REGISTRYINDEX, b->loaded);
  lua_getfield(b->plain, -1, name);
  lua_remove(b->plain, -2);
}

/* "common/air.lua" lies in the folder of the pack common. */
static const char *path_of(bench *b, const char *file) {
  for (size_t i = 0; i < ts_pack_folder_count(b->packs); i++) {
    const char *folder = ts_pack_folder(b->packs, i), *pack = ts_pack_name(b->arena, folder);
    size_t length = strlen(pack);
    if (!strncmp(pack, file, length) && file[length] == '/')
      return ts_arena_printf(b->arena, "%s%s", folder, file + length);
  }
  return file;
}

static void load_file(bench *b, const char *file) {
  size_t length;
  const char *text = ts_file_read(b->arena, path_of(b, file), 1 << 20, &length, b->problems);
  if (!text) die(b, "a rule file cannot be read");
  get_plain(b, "load");
  lua_pushlstring(b->plain, text, length);
  lua_pushfstring(b->plain, "@%s", file);
  must_run(b, lua_pcall(b->plain, 2, 0, 0));
}

static void open_plain(bench *b, const char *words) {
  b->plain = luaL_newstate();
  luaL_openlibs(b->plain);
  put_words(b);
  must_run(b, luaL_loadfile(b->plain, words) || lua_pcall(b->plain, 0, 1, 0));
  b->loaded = luaL_ref(b->plain, LUA_REGISTRYINDEX);
  for (size_t i = 0; i < ts_pack_file_count(b->packs); i++)
    load_file(b, ts_pack_file_name(b->packs, i));
  make_subjects(b);
}

/* ---- the same is said ------------------------------------------------------------------- */

static bool same_outcome(const ts_outcome *a, const ts_outcome *b) {
  return a->word == b->word && a->likelihood == b->likelihood && a->severity == b->severity &&
         a->state == b->state && strcmp(a->about, b->about) == 0 && a->line == b->line &&
         a->decision_count == b->decision_count;
}

static lua_Integer field_of(lua_State *L, const char *name) {
  lua_getfield(L, -1, name);
  lua_Integer value = lua_tointeger(L, -1);
  lua_pop(L, 1);
  return value;
}

static void push_pair(bench *b, const settled_pair *pair) {
  get_plain(b, "rule");
  lua_pushstring(b->plain, ts_rule_at(b->packs, pair->rule)->id);
  must_run(b, lua_pcall(b->plain, 1, 1, 0));
  push_subject(b, pair->subject);
}

static bool plain_says(bench *b, const settled_pair *pair, const ts_course *course) {
  static const char *const words[] = {"hazard", "duty", "stop", "note"};
  get_plain(b, "once");
  push_pair(b, pair);
  must_run(b, lua_pcall(b->plain, 2, 1, 0));
  bool same = lua_tointeger(b->plain, -1) == (lua_Integer)course->outcome_count;
  for (size_t i = 0; same && i < course->outcome_count; i++) {
    const ts_outcome *out = &course->outcomes[i];
    get_plain(b, "said");
    lua_pushinteger(b->plain, (lua_Integer)i + 1);
    must_run(b, lua_pcall(b->plain, 1, 1, 0));
    lua_getfield(b->plain, -1, "word");
    same = strcmp(lua_tostring(b->plain, -1), words[out->word]) == 0;
    lua_pop(b->plain, 1);
    if (out->word == TS_HAZARD)
      same = same && field_of(b->plain, "likelihood") == out->likelihood &&
             field_of(b->plain, "severity") == out->severity;
  }
  lua_settop(b->plain, 0);
  return same;
}

static bool replay_says(const ts_evaluation *run, const ts_evaluation *replayed) {
  const ts_course *a = run->courses, *c = replayed->courses;
  bool same = replayed->course_count == 1 && a->applies == c->applies &&
              a->outcome_count == c->outcome_count;
  for (size_t i = 0; same && i < a->outcome_count; i++)
    same = same_outcome(&a->outcomes[i], &c->outcomes[i]);
  return same;
}

/* Once to record, once from the record. */
static void take_pair(bench *b, const settled_pair *pair) {
  const ts_evaluation *run = ts_evaluate(b->run, pair->rule, pair->subject, NULL, 0);
  if (run->failure || run->unresolved || run->course_count != 1) {
    b->left_out++;
    return;
  }
  ts_evaluate(b->replayed, pair->rule, pair->subject, NULL, 0);
  bool same = replay_says(run, ts_evaluate(b->replayed, pair->rule, pair->subject, NULL, 0)) &&
              plain_says(b, pair, run->courses);
  if (!same) {
    fprintf(stderr, "%s over %s: ", ts_rule_at(b->packs, pair->rule)->id,
            ts_subject_at(b->dossier, pair->subject)->path);
    die(b, "not the same is said three times");
  }
  TS_GROW(b->pairs, b->pair_count, b->pair_capacity);
  b->pairs[b->pair_count++] = *pair;
}

static void take_pairs(bench *b) {
  for (size_t rule = 0; rule < ts_rule_count(b->packs); rule++)
    for (ts_subject s = 0; s < ts_subject_count(b->dossier); s++)
      if (!strcmp(ts_rule_at(b->packs, rule)->each, ts_subject_at(b->dossier, s)->entity->name))
        take_pair(b, &(settled_pair){rule, s});
  lua_createtable(b->plain, (int)b->pair_count * 2, 0);
  for (size_t i = 0; i < b->pair_count; i++) {
    push_pair(b, &b->pairs[i]);
    lua_rawseti(b->plain, 1, (lua_Integer)(2 * i + 2));
    lua_rawseti(b->plain, 1, (lua_Integer)(2 * i + 1));
  }
  b->list = luaL_ref(b->plain, LUA_REGISTRYINDEX);
}

/* ---- the clock -------------------------------------------------------------------------- */

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static double time_engine(bench *b, ts_evaluator *evaluator) {
  double begun = now();
  for (int pass = 0; pass < PASSES; pass++)
    for (size_t i = 0; i < b->pair_count; i++)
      ts_evaluate(evaluator, b->pairs[i].rule, b->pairs[i].subject, NULL, 0);
  return now() - begun;
}

static double time_plain(bench *b) {
  double begun = now();
  get_plain(b, "rounds");
  lua_rawgeti(b->plain, LUA_REGISTRYINDEX, b->list);
  lua_pushinteger(b->plain, PASSES);
  must_run(b, lua_pcall(b->plain, 2, 0, 0));
  return now() - begun;
}

static int compare_times(const void *a, const void *b) {
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static double median(double *times) {
  qsort(times, MEASURES, sizeof *times, compare_times);
  return times[MEASURES / 2];
}

static void measure(bench *b, const char *dossier) {
  double run[MEASURES], replayed[MEASURES], plain[MEASURES];
  for (int i = 0; i < MEASURES; i++) {
    run[i] = time_engine(b, b->run);
    replayed[i] = time_engine(b, b->replayed);
    plain[i] = time_plain(b);
  }
  double each = 1e6 / PASSES / (double)b->pair_count, base = median(plain);
  printf("%s: %zu settled evaluations (%zu are not): Lua %.2f us, replayed %.2f us, plain Lua %.2f "
         "us; ratios %.2f %.2f\n",
         dossier, b->pair_count, b->left_out, median(run) * each, median(replayed) * each,
         base * each, median(run) / base, median(replayed) / base);
}

/* ----------------------------------------------------------------------------------------- */

static void open_bench(bench *b, char **words) {
  char why[256] = "";
  *b = (bench){.arena = ts_arena_new(), .problems = ts_diagnostics_new()};
  b->units = ts_units_new(why, sizeof why);
  if (!b->units) die(b, why);
  b->vocabulary = ts_vocabulary_new();
  b->packs = ts_packs_new(b->units, b->vocabulary);
  for (char **pack = words + 3; *pack; pack++)
    if (!ts_packs_load(b->packs, *pack, b->problems)) die(b, "a pack does not load");
  b->dossier = ts_dossier_read(words[2], b->vocabulary, b->units, b->problems);
  if (!b->dossier) die(b, "the dossier cannot be read");
  b->run = ts_evaluator_new(b->packs, b->dossier);
  b->replayed = ts_evaluator_new(b->packs, b->dossier);
  ts_evaluator_record(b->replayed);
  open_plain(b, words[1]);
}

static void close_bench(bench *b) {
  lua_close(b->plain);
  free(b->pairs);
  ts_evaluator_free(b->run);
  ts_evaluator_free(b->replayed);
  ts_dossier_free(b->dossier);
  ts_packs_free(b->packs);
  ts_vocabulary_free(b->vocabulary);
  ts_units_free(b->units);
  ts_diagnostics_free(b->problems);
  ts_arena_free(b->arena);
}

int main(int argc, char **argv) {
  if (argc < 4) {
    fprintf(stderr, "usage: tankside-settled PLAIN.lua DOSSIER PACK...\n");
    return EXIT_FAILURE;
  }
  bench b;
  open_bench(&b, argv);
  take_pairs(&b);
  measure(&b, argv[2]);
  close_bench(&b);
  return 0;
}
