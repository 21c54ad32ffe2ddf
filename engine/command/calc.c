/* tankside calc: any science function, with its formula and source. */
#include "base/text.h"
#include "command/command.h"
#include "tankside/science.h"
#include <stdio.h>
#include <string.h>

enum { SHOWN = 128, WHY = 256 };

static const char *show(const ts_session *s, ts_range range, ts_dim dim, const char *unit,
                        char *out) {
  return ts_quantity_show(s->units, range, dim, unit, TS_METRIC, out, SHOWN);
}

/* ---- lists --------------------------------------------------------------------- */

static int list(void) {
  const char *topic = "";
  for (const ts_function *f = ts_functions(); f->name != NULL; f++) {
    if (!ts_same(f->topic, topic)) printf("%s%s\n", topic[0] ? "\n" : "", f->topic);
    topic = f->topic;
    printf("  %-34s %s\n", f->name, f->meaning);
  }
  puts("\n`tankside calc NAME` shows one of them; `tankside calc NAME ARGUMENT...` works it out.");
  return DONE;
}

static int no_such_function(const char *name) {
  const char *names[1024];
  size_t count = 0;
  for (const ts_function *f = ts_functions(); f->name != NULL && count < 1024; f++)
    names[count++] = f->name;
  const char *near = ts_nearest(name, names, count);
  if (near != NULL)
    return usage_error("unknown function \"%s\"; the nearest is \"%s\"", name, near);
  return usage_error("unknown function \"%s\"; `tankside calc` lists them", name);
}

/* ---- working one out -------------------------------------------------------------- */

/* Whole ends read as a typing mistake: the dimension has to be the argument's. */
static bool read_argument(const ts_session *s, const ts_argument *argument, const char *text,
                          ts_range *range) {
  char why[WHY], found[64], wanted[64];
  ts_dim dim;
  if (!ts_quantity_read(s->units, text, range, &dim, why, sizeof why)) {
    usage_error("%s \"%s\": %s", argument->name, text, why);
    return false;
  }
  if (dim == argument->dim) return true;
  usage_error("%s \"%s\": found %s, expected %s", argument->name, text,
              ts_dim_name(dim, found, sizeof found),
              ts_dim_name(argument->dim, wanted, sizeof wanted));
  return false;
}

static void print_result(const ts_session *s, const ts_function *f, const ts_range *x) {
  char shown[SHOWN];
  bool open = false;
  ts_range result = ts_function_apply(f, x, &open);
  printf("  %s\n  ", f->formula);
  for (int i = 0; i < f->count; i++)
    printf("%s%s = %s", i > 0 ? ", " : "", f->argument[i].name,
           show(s, x[i], f->argument[i].dim, f->argument[i].unit, shown));
  printf("\n  %s = %s\n", f->name, show(s, result, f->dim, f->unit, shown));
  if (open)
    puts("  An argument lies outside the range in which this holds: the result is open,\n"
         "  anything it could be at all.");
}

static int work_out(const ts_session *s, const ts_function *f, const char *const *words,
                    size_t count) {
  ts_range x[TS_ARGUMENTS_MAX];
  bool good = true;
  if (count != (size_t)f->count)
    return usage_error("%s takes %d arguments, found %zu; `tankside calc %s` shows them", f->name,
                       f->count, count, f->name);
  for (int i = 0; i < f->count; i++)
    good = read_argument(s, &f->argument[i], words[i], &x[i]) && good;
  if (!good) return NOT_DONE;
  print_result(s, f, x);
  printf("  Source: %s\n", f->source);
  return DONE;
}

/* ---- describing one ---------------------------------------------------------------- */

static void describe_argument(const ts_session *s, const ts_argument *a) {
  static const char *const directions[] = {"rises with it", "falls with it", "turns"};
  char shown[SHOWN];
  printf("  %-22s %-10s %s; the result %s\n", a->name, a->unit[0] ? a->unit : "(number)",
         show(s, (ts_range){a->lo, a->hi}, a->dim, a->unit, shown), directions[a->direction]);
}

/* The example is one line of arguments as for this command: words, with quotes
 * around those with spaces. */
static size_t split(ts_arena *arena, const char *line, const char **words, size_t most) {
  size_t count = 0;
  for (const char *at = line; *(at += strspn(at, " ")) != '\0' && count < most;) {
    char quote = *at == '"' || *at == '\'' ? *at++ : ' ';
    const char *end = strchr(at, quote);
    size_t length = end != NULL ? (size_t)(end - at) : strlen(at);
    words[count++] = ts_arena_copy_n(arena, at, length);
    at += length + (end != NULL && quote != ' ');
  }
  return count;
}

static int describe(const ts_session *s, const ts_function *f) {
  const char *words[TS_ARGUMENTS_MAX + 1];
  printf("%s: %s\n\n", f->name, f->meaning);
  for (int i = 0; i < f->count; i++) describe_argument(s, &f->argument[i]);
  printf("\n");
  print_folded("  Formula: ", f->formula);
  print_folded("  Source:  ", f->source);
  print_folded("  Limits:  ", f->limits);
  if (f->example == NULL) return DONE;
  printf("\nExample: tankside calc %s %s\n", f->name, f->example);
  size_t count = split(s->arena, f->example, words, TS_ARGUMENTS_MAX + 1);
  if (count > 0 && ts_same(words[0], f->name)) return work_out(s, f, words + 1, count - 1);
  return work_out(s, f, words, count);
}

static int calc(const ts_session *s, const ts_options *options) {
  if (options->word_count == 0) return list();
  const ts_function *f = ts_function_find(options->words[0]);
  if (f == NULL) return no_such_function(options->words[0]);
  if (options->word_count == 1) return describe(s, f);
  return work_out(s, f, options->words + 1, options->word_count - 1);
}

static int run(const ts_options *options) {
  ts_session s = {0};
  int status = session_open(&s) ? calc(&s, options) : NOT_DONE;
  session_close(&s);
  return status;
}

const ts_verb verb_calc = {
    .name = "calc",
    .usage = "calc [NAME [ARGUMENT]...]",
    .summary = "any of the functions that rules use, with formula and source",
    .details =
        "calc                   lists all functions by topic\n"
        "calc NAME              its arguments with units and valid ranges, formula, source,\n"
        "                       limits, and an example worked out\n"
        "calc NAME ARGUMENT...  works it out; arguments are quantities: \"3 m\", \"20..22 degC\"",
    .takes = 0,
    .least = 0,
    .most = TS_ARGUMENTS_MAX + 1,
    .run = run};
