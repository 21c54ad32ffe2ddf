/* Rules that say the same: asked of the same subject, deciding by the same facts in the same way,
 * or called almost the same. */
#include "rule/check_int.h"

#include "base/text.h"
#include <stdlib.h>
#include <string.h>

/* ---- what a rule decides by, in one form ------------------------------------------------- */

typedef struct {
  ts_checking *c;
  const char **parts;
  size_t count, capacity;
} printer;

static const char *form(printer *p, ts_syntax *it, int depth);

static const char *joined(printer *p, const char *word, ts_syntax *first, int depth) {
  ts_text text = {0};
  ts_text_add(&text, word);
  for (ts_syntax *part = first; part; part = part->next)
    ts_text_addf(&text, "%s%s", part == first ? "(" : ",", form(p, part, depth + 1));
  ts_text_add(&text, ")");
  const char *copy = ts_arena_copy(p->c->arena, text.data);
  ts_text_release(&text);
  return copy;
}

/* "3 m" and "3.0 m" and "300 cm" are one text: SI, and the dimension. */
static const char *form_of_quantity(printer *p, const char *words) {
  ts_range range;
  ts_dim dim;
  char why[256], lo[32], hi[32];
  if (!ts_quantity_read(p->c->packs->units, words, &range, &dim, why, sizeof why)) return words;
  ts_number_round(range.lo, 9, lo, sizeof lo);
  ts_number_round(range.hi, 9, hi, sizeof hi);
  return ts_arena_printf(p->c->arena, "%s..%s:%lld", lo, hi, (long long)dim);
}

static const char *form_of_call(printer *p, ts_syntax *it, int depth) {
  ts_syntax *argument = it->first->next;
  bool quantity = ts_same(it->first->text, "q") && argument && argument->kind == TS_E_STRING;
  if (quantity) return form_of_quantity(p, argument->text);
  return joined(p, form(p, it->first, depth + 1), argument, depth);
}

/* a > b is b < a. */
static const char *form_of_comparison(printer *p, ts_syntax *it, int depth) {
  bool turned = it->text[0] == '>';
  const char *left = form(p, turned ? it->last : it->first, depth + 1);
  const char *right = form(p, turned ? it->first : it->last, depth + 1);
  const char *sign = !turned ? it->text : it->text[1] ? "<=" : "<";
  return ts_arena_printf(p->c->arena, "%s%s%s", left, sign, right);
}

static bool stands_for_value(const ts_syntax *name) {
  return name->local && name->local->value && !name->local->assigned &&
         name->local->value->kind != TS_E_FUNCTION;
}

/* A field is the fact it leads to; a local what it begins as; the rest as it is written. */
static const char *form(printer *p, ts_syntax *it, int depth) {
  const char *path = it->kind == TS_E_FIELD ? ts_types_path(p->c, it) : NULL;
  if (depth > 12) return "...";
  if (path) return path;
  switch (it->kind) {
  case TS_E_PAREN: return form(p, it->first, depth + 1);
  case TS_E_NAME: return stands_for_value(it) ? form(p, it->local->value, depth + 1) : it->text;
  case TS_E_CALL: return form_of_call(p, it, depth);
  case TS_E_COMPARE: return form_of_comparison(p, it, depth);
  case TS_E_FUNCTION: return "function";
  case TS_E_FIELD:
    return ts_arena_printf(p->c->arena, "%s.%s", form(p, it->first, depth + 1), it->text);
  case TS_E_STRING:
  case TS_E_NUMBER:
  case TS_E_TRUE:
  case TS_E_FALSE:
  case TS_E_NIL:
    return ts_arena_printf(p->c->arena, "%s'%s'", it->kind == TS_E_TRUE ? "true" : "", it->text);
  default: return joined(p, it->text, it->first, depth);
  }
}

static void keep(printer *p, const char *part) {
  for (size_t i = 0; i < p->count; i++)
    if (ts_same(p->parts[i], part)) return;
  TS_GROW(p->parts, p->count, p->capacity);
  p->parts[p->count++] = part;
}

static void gather(printer *p, ts_syntax *it) {
  bool helped = it->kind == TS_E_CALL && ts_function_meant(p->c, it->first);
  const char *path = it->kind == TS_E_FIELD ? ts_types_path(p->c, it) : NULL;
  if (it->kind == TS_E_COMPARE || helped) keep(p, form(p, it, 0));
  if (path) keep(p, path);
  for (ts_syntax *child = it->first; child; child = child->next) gather(p, child);
}

static int by_text(const void *a, const void *b) {
  return strcmp(*(const char *const *)a, *(const char *const *)b);
}

const char *ts_alike_print(ts_checking *c, size_t rule) {
  printer p = {.c = c};
  ts_text text = {0};
  ts_syntax *table = c->rules[rule].table;
  static const char *const functions[] = {"when", "assess"};
  for (size_t i = 0; table && i < 2; i++) {
    ts_syntax *function = ts_syntax_item(table, functions[i]);
    if (function) gather(&p, function);
  }
  if (p.count) qsort(p.parts, p.count, sizeof *p.parts, by_text);
  for (size_t i = 0; i < p.count; i++) ts_text_addf(&text, "%s\n", p.parts[i]);
  const char *print = p.count ? ts_arena_copy(c->arena, text.data) : NULL;
  ts_text_release(&text);
  free(p.parts);
  return print;
}

/* ---- pairs ----------------------------------------------------------------------------------- */

/* One title is near another where a misspelling could be all that is between them. */
static bool near_titles(const char *a, const char *b) {
  size_t longer = strlen(a) > strlen(b) ? strlen(a) : strlen(b);
  return ts_same(a, b) || (longer >= 12 && ts_edits(a, b) * 12 <= longer);
}

/* A pack of law: two letters of a country, alone or followed by "-". */
static bool is_law(const char *pack) {
  return strspn(pack, "abcdefghijklmnopqrstuvwxyz") == 2 && (pack[2] == '\0' || pack[2] == '-');
}

/* The law of a whole country, on which that of its parts stands. */
static bool is_whole(const char *pack) { return pack[2] == '\0' || ts_same(pack + 2, "-fed"); }

/* Whether two packs are never loaded for one dossier: the law of two places. */
static bool apart(const char *a, const char *b) {
  if (!is_law(a) || !is_law(b) || ts_same(a, b)) return false;
  return strncmp(a, b, 2) != 0 || (!is_whole(a) && !is_whole(b));
}

static void compare(const ts_checking *c, size_t first, size_t second) {
  const ts_rule *a = ts_rule_at(c->packs, first), *b = ts_rule_at(c->packs, second);
  if (!ts_same(a->each, b->each) || apart(a->pack, b->pack)) return;
  bool alike = c->rules[first].print && ts_same(c->rules[first].print, c->rules[second].print);
  if (!alike && !near_titles(a->title, b->title)) return;
  const char *file = ts_arena_printf(c->arena, "%s/%s", b->pack, b->file);
  ts_report(c->problems, TS_WARNING, file, b->line, "%s: %s \"%s\" (%s/%s:%d)", b->id,
            alike ? "reads the same facts and decides by the same values as"
                  : "its title is nearly that of",
            a->id, a->pack, a->file, a->line);
}

/* The later of the two is told, since the earlier was there. */
static bool declared_before(const ts_checking *c, size_t a, size_t b) {
  return ts_rule_declaration(c->packs, a) < ts_rule_declaration(c->packs, b);
}

void ts_alike_report(ts_checking *c) {
  for (size_t i = 0; i < ts_rule_count(c->packs); i++)
    for (size_t k = i + 1; k < ts_rule_count(c->packs); k++)
      compare(c, declared_before(c, i, k) ? i : k, declared_before(c, i, k) ? k : i);
}
