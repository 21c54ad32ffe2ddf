/* Packs: folders of rule files, loaded, checked field by field, and kept as C
 * tables beside the Lua functions. */
#include "rule/packs_int.h"

#include "base/digest.h"
#include "base/file.h"
#include "base/text.h"
#include "rule/bare.h"
#include "rule/evaluator.h"
#include "rule/lint.h"
#include "rule/trace.h"
#include <stdlib.h>
#include <string.h>

ts_packs *ts_packs_new(const ts_units *units, ts_vocabulary *vocabulary) {
  ts_packs *packs = ts_alloc(sizeof *packs);
  packs->arena = ts_arena_new();
  packs->units = units;
  packs->vocabulary = vocabulary;
  packs->box = ts_sandbox_new(units);
  packs->lent = ts_arena_alloc(packs->arena, sizeof *packs->lent);
  atomic_flag_clear(packs->lent);
  return packs;
}

void ts_packs_free(ts_packs *packs) {
  if (!packs) return;
  ts_sandbox_free(packs->box);
  ts_arena_free(packs->arena);
  free(packs->rules);
  free(packs->controls);
  free(packs->files);
  free(packs->amendments);
  free(packs->folders);
  free(packs->signers);
  free(packs);
}

void ts_packs_leave_examples(ts_packs *packs) { packs->bare = true; }

size_t ts_rule_count(const ts_packs *packs) { return packs->rule_count; }
const ts_rule *ts_rule_at(const ts_packs *packs, size_t index) { return &packs->rules[index].rule; }
size_t ts_control_count(const ts_packs *packs) { return packs->control_count; }
const ts_control *ts_control_at(const ts_packs *packs, size_t index) { return &packs->controls[index]; }
size_t ts_amendment_count(const ts_packs *packs) { return packs->amendment_count; }
const ts_amendment *ts_amendment_at(const ts_packs *packs, size_t index) { return &packs->amendments[index]; }
size_t ts_pack_folder_count(const ts_packs *packs) { return packs->folder_count; }
const char *ts_pack_folder(const ts_packs *packs, size_t index) { return packs->folders[index]; }
size_t ts_pack_file_count(const ts_packs *packs) { return packs->file_count; }
const char *ts_pack_file_name(const ts_packs *packs, size_t index) { return packs->files[index].name; }
char *ts_pack_file_digest(const ts_packs *packs, size_t index, char digest[65]) {
  return ts_digest(packs->files[index].text, packs->files[index].length, digest);
}
lua_Integer ts_rule_declaration(const ts_packs *packs, size_t rule) { return packs->rules[rule].declaration; }

/* Those of packs that are loaded stand in the order of their ids, later ones behind them. */
const ts_control *ts_control_find(const ts_packs *packs, const char *id) {
  size_t low = 0, high = packs->sorted_controls;
  while (low < high) {
    size_t middle = (low + high) / 2;
    int order = strcmp(packs->controls[middle].id, id);
    if (order == 0) return &packs->controls[middle];
    if (order < 0) low = middle + 1;
    else high = middle;
  }
  for (size_t i = packs->sorted_controls; i < packs->control_count; i++)
    if (ts_same(packs->controls[i].id, id)) return &packs->controls[i];
  return NULL;
}

/* ---- loading -------------------------------------------------------------------- */

/* "common/air.lua:12: text" from Lua becomes a report at its own file and line. */
static void report_lua(const char *why, const char *name, ts_diagnostics *problems) {
  size_t n = strlen(name);
  int line = 0;
  if (!strncmp(why, name, n) && why[n] == ':') {
    const char *at = why + n + 1;
    while (*at >= '0' && *at <= '9') line = 10 * line + (*at++ - '0');
    if (*at == ':') why = at + 1 + (at[1] == ' ');
  }
  ts_report(problems, TS_ERROR, name, line, "%s", why);
}

/* What is refused for its size or a NUL is refused as it is. */
static void choose_run(const ts_packs *packs, ts_pack_file *file) {
  file->run = file->text;
  file->run_length = file->length;
  if (packs->bare && file->length <= TS_RULE_FILE_LIMIT && !memchr(file->text, 0, file->length))
    file->run = ts_bare(packs->arena, file->text, &file->run_length);
}

static bool run_file(ts_packs *packs, ts_pack_file *file, ts_diagnostics *problems) {
  choose_run(packs, file);
  file->refused = !ts_lint(file->run, file->run_length, file->name, problems);
  if (file->refused) return false;
  const char *why = ts_sandbox_run_file(packs->box, file->run, file->run_length, file->name);
  if (why) report_lua(why, file->name, problems);
  return why == NULL;
}

static bool load_text(ts_packs *packs, const char *pack, const char *name, char *text, size_t length, ts_diagnostics *problems) {
  ts_pack_file file = {.pack = pack, .name = ts_arena_printf(packs->arena, "%s/%s", pack, name), .text = text, .length = length};
  TS_GROW(packs->files, packs->file_count, packs->file_capacity);
  packs->files[packs->file_count++] = file;
  return run_file(packs, &packs->files[packs->file_count - 1], problems);
}

static bool load_file(ts_packs *packs, const char *folder, const char *pack, const char *name, ts_diagnostics *problems) {
  size_t length;
  char *text = ts_pack_file_read(packs->arena, folder, pack, name, &length, problems);
  return text && load_text(packs, pack, name, text, length, problems);
}

static int compare_rules(const void *a, const void *b) {
  return strcmp(((const ts_loaded_rule *)a)->rule.id, ((const ts_loaded_rule *)b)->rule.id);
}

static int compare_controls(const void *a, const void *b) {
  return strcmp(((const ts_control *)a)->id, ((const ts_control *)b)->id);
}

static bool loaded_before(const ts_packs *packs, const char *folder) {
  for (size_t i = 0; i < packs->folder_count; i++)
    if (ts_path_same(packs->folders[i], folder)) return true;
  return false;
}

/* On paper a file is "pack/file": no two packs may have one name, and the names of those that
 * come with the program stand for nothing else. */
static bool name_is_free(ts_packs *packs, const char *folder, const char *pack, ts_diagnostics *problems) {
  const char *taken = NULL, *own = ts_path_join(packs->arena, ts_data_path(packs->arena, "rules"), pack);
  for (size_t i = 0; i < packs->folder_count; i++)
    if (ts_same(ts_pack_name(packs->arena, packs->folders[i]), pack)) taken = packs->folders[i];
  if (ts_folder_exists(own) && !ts_path_same(own, folder)) taken = own;
  if (taken)
    ts_report(problems, TS_ERROR, folder, 0, "the name \"%s\" belongs to the pack in %s; give this folder another name", pack, taken);
  return !taken;
}

static bool load_folder(ts_packs *packs, const char *folder, const char *pack, ts_diagnostics *problems) {
  char **names = ts_folder_list(packs->arena, folder, ".lua", problems);
  bool good = names != NULL;
  for (size_t i = 0; names && names[i]; i++) good = load_file(packs, folder, pack, names[i], problems) && good;
  return good;
}

static bool load_zip(ts_packs *packs, const char *path, const char *pack, ts_diagnostics *problems) {
  size_t count = 0;
  ts_pack_member *members = ts_pack_unzip(packs->arena, path, NULL, &count, problems);
  bool good = members != NULL;
  for (size_t i = 0; members && i < count; i++)
    good = load_text(packs, pack, members[i].name, members[i].text, members[i].length, problems) && good;
  return good;
}

bool ts_packs_load(ts_packs *packs, const char *folder, ts_diagnostics *problems) {
  const char *pack = ts_pack_name(packs->arena, folder);
  if (loaded_before(packs, folder)) return true;
  return name_is_free(packs, folder, pack, problems) && ts_packs_load_as(packs, folder, pack, problems);
}

bool ts_packs_load_as(ts_packs *packs, const char *folder, const char *pack, ts_diagnostics *problems) {
  if (loaded_before(packs, folder)) return true;
  pack = ts_arena_copy(packs->arena, pack);
  TS_GROW(packs->folders, packs->folder_count, packs->folder_capacity);
  packs->folders[packs->folder_count++] = ts_arena_copy(packs->arena, folder);
  size_t before = packs->file_count;
  bool good = ts_pack_is_zip(folder) ? load_zip(packs, folder, pack, problems) : load_folder(packs, folder, pack, problems);
  if (good && packs->file_count == before) {
    ts_report(problems, TS_ERROR, folder, 0, "no rule files (*.lua) in this folder");
    good = false;
  }
  good = ts_declarations_read(packs, problems) && good;
  ts_graph_mark(packs->box->graph);
  if (packs->rule_count) qsort(packs->rules, packs->rule_count, sizeof *packs->rules, compare_rules);
  if (packs->control_count) qsort(packs->controls, packs->control_count, sizeof *packs->controls, compare_controls);
  packs->sorted_controls = packs->control_count;
  return good;
}

/* ---- the text of one rule ---------------------------------------------------------- */

static const ts_pack_file *file_of(const ts_packs *packs, const ts_rule *rule) {
  for (size_t i = 0; i < packs->file_count; i++)
    if (ts_same(packs->files[i].pack, rule->pack) && ts_same(ts_path_name(packs->files[i].name), rule->file)) return &packs->files[i];
  return NULL;
}

const char *ts_rule_text(const ts_packs *packs, size_t index, ts_arena *arena) {
  static const char start[] = "rule {", end[] = "\n}";
  const ts_rule *rule = &packs->rules[index].rule;
  const ts_pack_file *file = file_of(packs, rule);
  if (!file) return "";
  const char *id = strstr(file->text, ts_arena_printf(arena, "\"%s\"", rule->id)), *from = file->text;
  for (const char *at = from; id && (at = strstr(at, start)) && at < id; at++) from = at;
  const char *to = strstr(id ? id : from, end);
  return ts_arena_copy_n(arena, from, to ? (size_t)(to - from) : strlen(from));
}

/* ---- evaluators ------------------------------------------------------------------- */

void ts_evaluator_use(ts_evaluator *evaluator, const ts_dossier *dossier) {
  ts_sandbox *box = evaluator->box;
  box->dossier = dossier;
  box->slot_count = ts_slot_count(dossier);
  free(box->read_at);
  free(box->read_ever_at);
  box->read_at = ts_alloc((box->slot_count + 1) * sizeof *box->read_at);
  box->read_ever_at = ts_alloc((box->slot_count + 1) * sizeof *box->read_ever_at);
}

void ts_evaluator_lay(ts_evaluator *evaluator, ts_laid *laid, int level) {
  evaluator->box->laid = laid;
  evaluator->box->laid_level = level;
}

void ts_evaluator_record(ts_evaluator *evaluator) {
  if (!evaluator->box->recorder) evaluator->box->recorder = ts_recorder_new();
}

void ts_evaluator_narrow(ts_evaluator *evaluator, bool narrow) { evaluator->box->narrowing = narrow; }

static ts_evaluator *empty_evaluator(const ts_packs *packs, ts_sandbox *box) {
  ts_evaluator *evaluator = ts_alloc(sizeof *evaluator);
  evaluator->packs = packs;
  evaluator->box = box;
  evaluator->box->packs = packs;
  return evaluator;
}

/* The first that runs rules over a dossier does so where they were loaded: so they load once. */
static ts_evaluator *borrowing(const ts_packs *packs) {
  if (atomic_flag_test_and_set(packs->lent)) return NULL;
  ts_evaluator *evaluator = empty_evaluator(packs, packs->box);
  evaluator->borrowed = true;
  return evaluator;
}

static ts_evaluator *loading_again(const ts_packs *packs) {
  ts_evaluator *evaluator = empty_evaluator(packs, ts_sandbox_new(packs->units));
  for (size_t i = 0; i < packs->file_count; i++)
    if (!packs->files[i].refused)
      ts_sandbox_run_file(evaluator->box, packs->files[i].run, packs->files[i].run_length, packs->files[i].name);
  ts_graph_mark(evaluator->box->graph);
  return evaluator;
}

/* Those of examples load again: what they try is read from the packs' own box meanwhile. */
ts_evaluator *ts_evaluator_new(const ts_packs *packs, const ts_dossier *dossier) {
  ts_evaluator *evaluator = dossier ? borrowing(packs) : NULL;
  if (!evaluator) evaluator = loading_again(packs);
  evaluator->box->amended = dossier != NULL; /* examples prove a rule as it was written */
  if (dossier) ts_evaluator_use(evaluator, dossier);
  return evaluator;
}

ts_evaluator *ts_evaluator_watched(const ts_packs *packs, const ts_text *texts, ts_watch *watch, void *watcher) {
  ts_evaluator *evaluator = empty_evaluator(packs, ts_sandbox_new(packs->units));
  ts_sandbox_watch(evaluator->box, watch, watcher);
  for (size_t i = 0; i < packs->file_count; i++)
    if (!packs->files[i].refused)
      ts_sandbox_run_file(evaluator->box, texts[i].data, texts[i].length, packs->files[i].name);
  ts_graph_mark(evaluator->box->graph);
  return evaluator;
}

/* As it was when the packs were loaded. */
static void give_back(const ts_packs *packs) {
  ts_sandbox *box = packs->box;
  ts_recorder_free(box->recorder);
  box->recorder = NULL;
  box->laid = NULL;
  box->dossier = NULL;
  box->narrowing = true;
  ts_graph_reset(box->graph);
  atomic_flag_clear(packs->lent);
}

void ts_evaluator_free(ts_evaluator *evaluator) {
  if (!evaluator) return;
  if (evaluator->borrowed) give_back(evaluator->packs);
  else ts_sandbox_free(evaluator->box);
  free(evaluator->courses);
  free(evaluator->kept);
  free(evaluator->reads);
  free(evaluator);
}
