/* The functions of science as text: the list, one described, all of them for a reviewer. */
#include "base/text.h"
#include "command/command.h"
#include "tankside/science.h"
#include <stdio.h>
#include <string.h>

enum { WIDTH = 80, SHOWN = FUNCTION_SHOWN };

const char *function_show(const ts_session *s, ts_range range, ts_dim dim, const char *unit,
                          char *out) {
  return ts_quantity_show(s->units, range, dim, unit, TS_METRIC, out, SHOWN);
}

static const char *unit_or_number(const char *unit) { return unit[0] != '\0' ? unit : "(number)"; }

/* ---- the list ---------------------------------------------------------------------- */

void functions_list(void) {
  const char *topic = "";
  char head[64];
  for (const ts_function *f = ts_functions(); f->name != NULL; f++) {
    if (!ts_same(f->topic, topic)) printf("%s%s\n", topic[0] ? "\n" : "", f->topic);
    topic = f->topic;
    snprintf(head, sizeof head, "  %-30s %-10s ", f->name, unit_or_number(f->unit));
    print_folded(head, f->meaning);
  }
  puts("\n`tankside calc NAME` shows one of them, `tankside calc NAME ARGUMENT...` works\n"
       "it out, `tankside calc --all` shows all.");
}

/* ---- one --------------------------------------------------------------------------- */

/* One line: name, unit, valid range, and where the result goes when it grows. */
static void print_argument(const ts_session *s, const ts_argument *a, bool first) {
  static const char *const directions[] = {"rises", "falls", "turns"};
  char shown[SHOWN];
  printf("  %-8s %-21s ", first ? "Takes:" : "", a->name);
  print_cut(unit_or_number(a->unit), 10);
  putchar(' ');
  print_cut(function_show(s, (ts_range){a->lo, a->hi}, a->dim, a->unit, shown), 22);
  printf(" result %s\n", directions[a->direction]);
}

/* The length of the next argument of an example, quotes included. */
static size_t quoted(const char *at) {
  const char *end = strchr(at + 1, '\'');
  return end != NULL ? (size_t)(end - at) + 1 : strlen(at);
}

/* As it is typed: a line that would be too long goes on after a backslash. */
static void print_example(const ts_function *f) {
  size_t at = (size_t)printf("  Example: tankside calc %s", f->name);
  for (const char *word = f->example; *(word += strspn(word, " ")) != '\0';) {
    size_t length = quoted(word);
    if (at + 1 + length > WIDTH - 2) at = (size_t)printf(" \\\n%11s", "") - 3;
    at += (size_t)printf(" %.*s", (int)length, word);
    word += length;
  }
  puts("");
}

void function_describe(const ts_session *s, const ts_function *f) {
  char shown[SHOWN];
  ts_text gives = {0};
  ts_text_addf(&gives, "%s; %s%s, at the widest %s", f->meaning, f->unit[0] ? "in " : "a number",
               f->unit, function_show(s, (ts_range){f->lo, f->hi}, f->dim, f->unit, shown));
  puts(f->name);
  print_folded("  Gives:   ", gives.data);
  ts_text_release(&gives);
  for (int i = 0; i < f->count; i++) print_argument(s, &f->argument[i], i == 0);
  print_folded("  Formula: ", f->formula);
  print_folded("  Source:  ", f->source);
  print_folded("  Limits:  ", f->limits);
  print_example(f);
}

/* ---- all --------------------------------------------------------------------------- */

static const char preface[] =
    "Each has what it gives, with unit; its arguments with unit, valid range and the direction in "
    "which the result moves when they grow (\"turns\": either way); its formula in the names of "
    "its "
    "arguments; where that was published; and what it leaves out. Ranges go through the formula "
    "from end to end. Where an argument lies outside its valid range the result is open: it could "
    "be anything up to the widest. \"(from memory)\" means that the text itself has not been seen, "
    "\"transcribed\" that a copy of it was: check it before relying on it. A table named by its "
    "file stands whole in shared/tables.";

void functions_all(const ts_session *s) {
  const char *topic = "";
  int count = 0;
  for (const ts_function *f = ts_functions(); f->name != NULL; f++) count++;
  printf("The %d functions that rules use, by topic\n\n", count);
  print_folded("", preface);
  for (const ts_function *f = ts_functions(); f->name != NULL; f++) {
    if (!ts_same(f->topic, topic)) {
      printf("\n\n%s\n", f->topic);
      for (size_t i = 0; f->topic[i] != '\0'; i++) putchar('=');
      puts("");
    }
    topic = f->topic;
    puts("");
    function_describe(s, f);
  }
}
