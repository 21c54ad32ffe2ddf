/* What the examples reach of the rules' text.
 *
 * A point is a place where a rule can go one way or the other, or a statement that can be
 * reached or not. Points are found in the tree of a file; the file is then written again with a
 * call at each point, on the same lines, and run in place of the original. A comparison is a
 * point wherever it stands; so is whatever `if`, `while`, `and`, `or` and `not` decide by, and
 * every yes/no fact that is read. */
#include "rule/check_int.h"

#include "base/text.h"
#include <stdlib.h>
#include <string.h>

/* ---- finding them -------------------------------------------------------------------- */

typedef struct {
  ts_checking *c;
  size_t rule;   /* whose text this is */
  bool followed; /* within a function that a rule reaches */
} finder;

static void find(finder *f, ts_syntax *it, bool decides);

static void number(finder *f, ts_syntax *it, bool decision) {
  ts_checking *c = f->c;
  TS_GROW(c->points, c->point_count, c->point_capacity);
  it->number = (uint32_t)c->point_count;
  c->points[c->point_count++] = (ts_point){.at = it, .decision = decision, .rule = f->rule};
}

/* What gives a quantity, a text or a table is never false, whatever it decides. Whether two
 * subjects are the same is no fact but a matter of who else is there. */
static bool never_false(const ts_syntax *it) {
  static const char *const makers[] = {"q",    "min",  "max",    "abs",   "sum", "sqrt",
                                       "calc", "math", "string", "table", "same"};
  const ts_syntax *root = it;
  if (it->kind == TS_E_FIELD) return it->number == TS_FIELD_IS_NEVER_FALSE;
  if (it->kind != TS_E_CALL && it->kind != TS_E_METHOD && it->kind != TS_E_INDEX)
    return it->kind != TS_E_NAME;
  while (root->kind == TS_E_CALL || root->kind == TS_E_FIELD) root = root->first;
  for (size_t i = 0; i < sizeof makers / sizeof *makers; i++)
    if (root->kind == TS_E_NAME && !root->local && ts_same(root->text, makers[i])) return true;
  return false;
}

static void find_parts(finder *f, ts_syntax *it) {
  for (ts_syntax *child = it->first; child; child = child->next) find(f, child, false);
}

/* if and while: every part but the blocks decides; repeat: the last part. */
static void find_branches(finder *f, ts_syntax *it) {
  for (ts_syntax *child = it->first; child; child = child->next)
    find(f, child, child->kind != TS_S_BLOCK);
}

static void find_function(const finder *f, ts_syntax *it) {
  finder inner = *f;
  inner.followed = it->number != 0;
  find_parts(&inner, it);
}

static bool declares_rule(const ts_checking *c, const ts_syntax *call, size_t *rule) {
  if (call->kind != TS_E_CALL || !call->first->next) return false;
  for (size_t i = 0; i < ts_rule_count(c->packs); i++)
    if (c->rules[i].table == call->first->next) return *rule = i, true;
  return false;
}

static void find_statement(finder *f, ts_syntax *it) {
  if (f->followed) number(f, it, false);
  finder inner = *f;
  if (it->kind == TS_S_CALL) declares_rule(f->c, it->first, &inner.rule);
  if (it->kind == TS_S_IF || it->kind == TS_S_WHILE || it->kind == TS_S_REPEAT)
    find_branches(&inner, it);
  else
    find_parts(&inner, it);
}

static void find_expression(finder *f, ts_syntax *it, bool decides) {
  bool flag = it->kind == TS_E_FIELD && it->number == TS_FIELD_IS_FLAG;
  bool leaf = it->kind == TS_E_COMPARE || flag || (decides && !never_false(it));
  if (it->kind == TS_E_FIELD) it->number = 0;
  if (f->followed && leaf) number(f, it, true);
  find_parts(f, it);
}

static void find(finder *f, ts_syntax *it, bool decides) {
  switch (it->kind) {
  case TS_S_BLOCK: find_parts(f, it); break;
  case TS_E_FUNCTION: find_function(f, it); break;
  case TS_E_PAREN:
  case TS_E_NOT: find(f, it->first, decides); break;
  case TS_E_AND:
  case TS_E_OR:
    find(f, it->first, true);
    find(f, it->last, decides);
    break;
  default:
    if (it->kind < TS_E_NIL)
      find_statement(f, it);
    else
      find_expression(f, it, decides);
  }
}

/* ---- writing the text again ------------------------------------------------------------ */

static void copy_to(ts_text *out, const char *text, size_t *at, size_t to) {
  ts_text_add_n(out, text + *at, to - *at);
  *at = to;
}

static void write(ts_text *out, const char *text, size_t *at, const ts_syntax *it) {
  bool point = it->number && it->kind != TS_E_FUNCTION, decision = point && it->kind >= TS_E_NIL;
  copy_to(out, text, at, it->from);
  if (point) ts_text_addf(out, TS_SEEN "(%u%s", (unsigned)it->number, decision ? "," : ");");
  for (const ts_syntax *child = it->first; child; child = child->next) write(out, text, at, child);
  copy_to(out, text, at, it->to);
  if (decision) ts_text_add(out, ")");
}

/* Lua has limits (registers, levels) that the added calls might pass: then that file stays as it
 * is. */
static bool compiles(lua_State *L, const ts_text *text) {
  bool good = luaL_loadbufferx(L, text->data, text->length, "=marked", "t") == LUA_OK;
  lua_pop(L, 1);
  return good;
}

static void seen(void *who, unsigned number, bool yes) {
  ts_checking *c = who;
  ts_point *point = &c->points[number];
  if (c->with_examples)
    point->examples |= yes ? 2 : 1;
  else
    point->anything |= yes ? 2 : 1;
}

static void leave_file(ts_checking *c, size_t file, size_t points, ts_text *out) {
  const ts_pack_file *from = &c->packs->files[file];
  ts_report(c->problems, TS_WARNING, from->name, 0,
            "too deeply nested for its decisions to be counted: write it flatter");
  c->trees[file] = NULL;
  c->point_count = points;
  out->length = 0;
  ts_text_add_n(out, from->text, from->length);
}

static void mark_file(ts_checking *c, size_t file, ts_text *out) {
  const ts_pack_file *from = &c->packs->files[file];
  size_t at = 0, points = c->point_count;
  if (from->refused)
    return; /* what was never run stays so: a rule's place among those declared counts */
  if (c->trees[file]) {
    finder f = {.c = c, .rule = TS_NO_RULE};
    find(&f, c->trees[file], false);
    write(out, from->text, &at, c->trees[file]);
  }
  ts_text_add_n(out, from->text + at, from->length - at);
  if (c->trees[file] && !compiles(c->packs->box->lua, out)) leave_file(c, file, points, out);
}

void ts_coverage_begin(ts_checking *c) {
  ts_text *texts = ts_alloc((c->packs->file_count + 1) * sizeof *texts);
  TS_GROW(c->points, c->point_count, c->point_capacity);
  c->points[c->point_count++] = (ts_point){.rule = TS_NO_RULE}; /* 0 is no point */
  for (size_t i = 0; i < c->packs->file_count; i++) mark_file(c, i, &texts[i]);
  c->evaluator = ts_evaluator_watched(c->packs, texts, seen, c);
  for (size_t i = 0; i < c->packs->file_count; i++) ts_text_release(&texts[i]);
  free(texts);
}

/* ---- saying ------------------------------------------------------------------------------- */

static bool compares_numbers(const ts_syntax *it) {
  return it->kind == TS_E_COMPARE && (it->text[0] == '<' || it->text[0] == '>');
}

/* "i.depth > q"3 m"": short, on one line. */
static const char *words_of(const ts_checking *c, const ts_syntax *it) {
  for (size_t i = 0; i < c->packs->file_count; i++) {
    const ts_pack_file *file = &c->packs->files[i];
    if (!ts_same(file->name, it->file)) continue;
    size_t length = it->to - it->from, limit = 60;
    char *words = ts_arena_printf(c->arena, "%.*s%s", (int)(length < limit ? length : limit),
                                  file->text + it->from, length > limit ? "..." : "");
    for (char *w = words; *w; w++)
      if (*w == '\n') *w = ' ';
    return words;
  }
  return "";
}

static const char *id_of(const ts_checking *c, const ts_point *p) {
  return p->rule == TS_NO_RULE ? "a helper" : ts_rule_at(c->packs, p->rule)->id;
}

/* An example came here and it went one way; or none did, and nothing plausible goes the other. */
static unsigned one_way(const ts_point *p) {
  unsigned seen =
      p->examples || p->rule == TS_NO_RULE || !compares_numbers(p->at) ? p->examples : p->anything;
  return seen == 3 ? 0 : seen;
}

static void report_decision(const ts_checking *c, const ts_point *p) {
  const ts_syntax *it = p->at;
  unsigned way = one_way(p);
  bool nothing = compares_numbers(it) && p->rule != TS_NO_RULE && p->anything == way;
  ts_report(c->problems, TS_WARNING, it->file, it->line,
            "%s: no example makes this %s %s%s: %s (column %d)", id_of(c, p),
            it->kind == TS_E_COMPARE ? "comparison" : "condition", way == 1 ? "true" : "false",
            nothing ? ", and nothing plausible does" : "", words_of(c, it), it->column);
}

static bool missed(const ts_checking *c, const ts_syntax *statement) {
  return statement && statement->number && !c->points[statement->number].examples;
}

/* Of statements that are not reached the first of each block: the others follow. The block
 * of a condition that is always the same goes without saying: the condition is reported. */
static void report_unreached(const ts_checking *c, const ts_syntax *it, bool said) {
  bool branches = it->kind == TS_S_IF || it->kind == TS_S_WHILE;
  for (const ts_syntax *child = it->first; child; child = child->next) {
    bool statement = child->kind < TS_E_NIL && child->kind != TS_S_BLOCK;
    bool now = statement && missed(c, child);
    if (now && !said)
      ts_report(c->problems, TS_WARNING, child->file, child->line,
                "%s: no example comes to this: %s (column %d)", id_of(c, &c->points[child->number]),
                words_of(c, child), child->column);
    said = said || now;
    report_unreached(c, child,
                     said || (branches && child->kind == TS_S_BLOCK && missed(c, child->first)));
  }
}

void ts_coverage_report(const ts_checking *c) {
  for (size_t i = 1; i < c->point_count; i++) {
    const ts_point *p = &c->points[i];
    if (p->decision && one_way(p)) report_decision(c, p);
  }
  for (size_t i = 0; i < c->packs->file_count; i++)
    if (c->trees[i]) report_unreached(c, c->trees[i], false);
}
