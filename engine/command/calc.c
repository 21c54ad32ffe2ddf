/* tankside calc: any science function, with its formula and source. */
#include "base/text.h"
#include "command/command.h"
#include "tankside/science.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { SHOWN = FUNCTION_SHOWN, WHY = 256 };

/* ---- names and arguments ---------------------------------------------------------- */

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

/* "?" is not known: all of the valid range. Else the dimension has to be the argument's. */
static bool read_argument(const ts_session *s, const ts_argument *argument, const char *text,
                          ts_range *range) {
  char why[WHY], found[64], wanted[64];
  ts_dim dim;
  if (ts_same(text, "?")) {
    *range = (ts_range){argument->lo, argument->hi};
    return true;
  }
  if (!ts_quantity_read(s->units, text, range, &dim, why, sizeof why)) {
    usage_error("%s \"%s\": %s", argument->name, text, why);
    return false;
  }
  if (dim == argument->dim) return true;
  usage_error("%s \"%s\": found %s, expected %s%s%s", argument->name, text,
              ts_dim_name(dim, found, sizeof found),
              ts_dim_name(argument->dim, wanted, sizeof wanted),
              argument->unit[0] != '\0' ? ", for example in " : "", argument->unit);
  return false;
}

static int wrong_count(const ts_function *f, size_t count) {
  ts_text wanted = {0};
  for (int i = 0; i < f->count; i++)
    ts_text_addf(&wanted, "%s%s%s%s%s", i > 0 ? ", " : "", f->argument[i].name,
                 f->argument[i].unit[0] ? " (" : "", f->argument[i].unit,
                 f->argument[i].unit[0] ? ")" : "");
  usage_error("%s takes %d argument%s, found %zu; expected %s", f->name, f->count,
              f->count == 1 ? "" : "s", count, wanted.data);
  ts_text_release(&wanted);
  return NOT_DONE;
}

/* ---- what makes a result wide, and what makes it open ------------------------------- */

/* How wide the result is when argument `i` alone keeps its range. */
static double width_alone(const ts_function *f, const ts_range *x, int i) {
  ts_range alone[TS_ARGUMENTS_MAX];
  bool open;
  for (int k = 0; k < f->count; k++) {
    double middle = x[k].lo + (x[k].hi - x[k].lo) / 2;
    alone[k] = k == i ? x[k] : (ts_range){middle, middle};
  }
  ts_range result = ts_function_apply(f, alone, &open);
  return result.hi - result.lo;
}

static void say_widest(const ts_session *s, const ts_function *f, const ts_range *x) {
  int widest = -1, ranges = 0;
  double most = 0;
  for (int i = 0; i < f->count; i++) {
    if (x[i].lo == x[i].hi) continue;
    double width = width_alone(f, x, i);
    ranges++;
    if (widest >= 0 && width <= most) continue;
    widest = i;
    most = width;
  }
  if (ranges == 0) return;
  char shown[SHOWN], text[SHOWN + 160];
  const ts_argument *a = &f->argument[widest];
  snprintf(text, sizeof text, "%s %s, %s%s", a->name,
           function_show(s, x[widest], a->dim, a->unit, shown),
           ranges == 1 ? "alone" : "more than any other",
           most > 0 ? "" : "; here it makes no difference");
  print_folded("  Made wide by: ", text);
}

static bool outside(const ts_argument *a, ts_range x) {
  return x.lo < a->lo - 1e-9 * fabs(a->lo) || x.hi > a->hi + 1e-9 * fabs(a->hi);
}

static void say_open(const ts_session *s, const ts_function *f, const ts_range *x) {
  char given[SHOWN], valid[SHOWN], text[3 * SHOWN];
  for (int i = 0; i < f->count; i++) {
    const ts_argument *a = &f->argument[i];
    if (!outside(a, x[i])) continue;
    snprintf(text, sizeof text,
             "%s = %s lies outside %s, the range in which this holds; the result could be anything "
             "up to its widest.",
             a->name, function_show(s, x[i], a->dim, a->unit, given),
             function_show(s, (ts_range){a->lo, a->hi}, a->dim, a->unit, valid));
    print_folded("  Open: ", text);
  }
}

static void say_unknown(const ts_session *s, const ts_function *f, const char *const *words) {
  char shown[SHOWN], text[SHOWN + 160];
  for (int i = 0; i < f->count; i++) {
    const ts_argument *a = &f->argument[i];
    // NOLINTNEXTLINE(clang-analyzer-core.CallAndMessage): there are as many words as arguments by now
    if (!ts_same(words[i], "?")) continue;
    snprintf(text, sizeof text, "%s, taken as all of its valid range, %s", a->name,
             function_show(s, (ts_range){a->lo, a->hi}, a->dim, a->unit, shown));
    print_folded("  Not known: ", text);
  }
}

/* ---- working one out ------------------------------------------------------------------ */

/* Formula, numbers, result. */
static bool print_result(const ts_session *s, const ts_function *f, const ts_range *x) {
  char shown[SHOWN];
  bool open = false;
  ts_text numbers = {0};
  ts_range result = ts_function_apply(f, x, &open);
  for (int i = 0; i < f->count; i++)
    ts_text_addf(&numbers, "%s%s = %s", i > 0 ? ", " : "", f->argument[i].name,
                 function_show(s, x[i], f->argument[i].dim, f->argument[i].unit, shown));
  print_folded("  ", f->formula);
  print_folded("  ", numbers.data);
  printf("  %s = %s\n", f->name, function_show(s, result, f->dim, f->unit, shown));
  ts_text_release(&numbers);
  return !open;
}

static int work_out(const ts_session *s, const ts_function *f, const char *const *words,
                    size_t count) {
  ts_range x[TS_ARGUMENTS_MAX] = {{0, 0}};
  bool good = true;
  if (count != (size_t)f->count) return wrong_count(f, count);
  for (int i = 0; i < f->count; i++)
    good = read_argument(s, &f->argument[i], words[i], &x[i]) && good;
  if (!good) return NOT_DONE;
  bool settled = print_result(s, f, x);
  say_unknown(s, f, words);
  if (settled)
    say_widest(s, f, x);
  else
    say_open(s, f, x);
  print_folded("  Source: ", f->source);
  return settled ? DONE : LOOK;
}

/* The example is one line of arguments in single quotes. */
static size_t split(ts_arena *arena, const char *line, const char **words, size_t most) {
  size_t count = 0;
  const char *open, *close;
  for (; count < most && (open = strchr(line, '\'')) != NULL; line = close + 1) {
    close = strchr(open + 1, '\'');
    if (close == NULL) break;
    words[count++] = ts_arena_copy_n(arena, open + 1, (size_t)(close - open - 1));
  }
  return count;
}

static int describe(const ts_session *s, const ts_function *f) {
  const char *words[TS_ARGUMENTS_MAX];
  function_describe(s, f);
  size_t count = split(s->arena, f->example, words, TS_ARGUMENTS_MAX);
  return work_out(s, f, words, count);
}

static int calc(const ts_session *s, const ts_options *options) {
  if (options->all && options->word_count > 0)
    return usage_error("\"--all\" shows every function and takes no name; found \"%s\"",
                       options->words[0]);
  if (options->word_count == 0) {
    if (options->all)
      functions_all(s);
    else
      functions_list();
    return DONE;
  }
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
    .usage = "calc [NAME [ARGUMENT]...] | calc --all",
    .summary = "any of the functions that rules use, with formula and source",
    .details = "calc                   lists all functions by topic, with their units\n"
               "calc NAME              its arguments with units, valid ranges and directions,\n"
               "                       formula, source, limits, and an example worked out\n"
               "calc NAME ARGUMENT...  works it out; arguments are quantities: \"3 m\",\n"
               "                       \"20..22 degC\"; \"?\" stands for all of the valid range\n"
               "\n"
               "  tankside calc survival_time\n"
               "  tankside calc survival_time '8..10 degC'\n\n"
               "Exit status: 0 worked out, 1 open (an argument outside its valid range), 2 usage.",
    .takes = OPTION_ALL,
    .least = 0,
    .most = WORDS_MAX,
    .kinds = {A_FUNCTION},
    .run = run};
