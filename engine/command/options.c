/* Options: one table, from which they are read and described. */
#include "base/share.h"
#include "base/text.h"
#include "command/command.h"
#include "quantity/calendar.h"
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define KEPT(field) .at = offsetof(ts_options, field)
#define LISTED(list, count)                                                                        \
  .at = offsetof(ts_options, list), .count_at = offsetof(ts_options, count)

static const ts_option rows[] = {
    {"--pack", "DIR", OPTION_PACK,
     "also the rules of this folder or ZIP, or of a pack by name; repeatable", A_PACK,
     LISTED(packs, pack_count)},
    {"--matrix", "NAME|FILE", OPTION_MATRIX,
     "the matrix: five-by-five (default), mil-std-882e, or a file", A_MATRIX, KEPT(matrix)},
    {"--set", "PATH=VALUE", OPTION_SET, "take this value instead of the dossier's; repeatable",
     A_SETTING, LISTED(sets, set_count)},
    {"--set-file", "FILE", OPTION_SET_FILE,
     "the same, one PATH=VALUE a line, # for comments; repeatable", A_FILE,
     LISTED(set_files, set_file_count)},
    {"--where", "FIELD=TEXT", OPTION_WHERE, "only rules for which this holds; repeatable",
     LISTED(wheres, where_count)},
    {"-o", "PATH", OPTION_OUT, "write here", A_FILE, KEPT(out)},
    {"--paper", "a4|letter", OPTION_PAPER, "size of the paper (a4)", A_PAPER, KEPT(paper)},
    {"--language", "NAME", OPTION_LANGUAGE,
     "of the papers: en-GB (default), en-US, fr, de, es; else the dossier's", A_LANGUAGE,
     KEPT(language)},
    {"--force", NULL, OPTION_FORCE, "replace what tankside did not write, too", KEPT(force)},
    {"--no-pdf", NULL, OPTION_NO_PDF, "no PDF, only HTML", KEPT(no_pdf)},
    {"--no-papers", NULL, OPTION_NO_PAPERS, "of each folder only assessment.xml", KEPT(no_papers)},
    {"--explain", "FINDING", OPTION_EXPLAIN,
     "instead of the summary: all that is behind one finding or duty", KEPT(explain)},
    {"--as", "FORM", OPTION_AS, "in this form", A_FORM, KEPT(as)},
    {"--sheet", "NAME", OPTION_SHEET, "which document (assessment)", A_SHEET, KEPT(sheet)},
    {"--all", NULL, OPTION_ALL, "every function in full, as text for a reviewer", KEPT(all)},
    {"--key", "FILE", OPTION_KEY, "private key, PEM", A_FILE, KEPT(key)},
    {"--certificate", "FILE", OPTION_CERTIFICATE, "its certificate, PEM", A_FILE,
     KEPT(certificate)},
    {"--on", "DATE", OPTION_ON, "the day of signing, or as of which to look: 2027-03-08", KEPT(on)},
    {"--role", "TEXT", OPTION_ROLE, "as whom: safety officer", KEPT(role)},
    {"--trust", "FILE", OPTION_TRUST, "certificates that vouch for signers, PEM", A_FILE,
     KEPT(trust)},
    {"--dossier", "FILE", OPTION_DOSSIER, "the dossier it was made from", A_DOSSIER, KEPT(dossier)},
    {"--editor", NULL, OPTION_EDITOR, "help for editors, into the folder given with -o",
     KEPT(editor)},
    {"--dry-run", NULL, OPTION_DRY_RUN, "show what would change, and write nothing", KEPT(dry_run)},
    {"--map", "FILE", OPTION_MAP, "says what sheets and columns are, where their names do not",
     A_FILE, KEPT(map)},
    {"--workers", "N", OPTION_WORKERS,
     "so many threads, 1 to 64 (one a processor); what comes out is the same", KEPT(workers)},
    {"--list", "FILE", OPTION_LIST, "also the dossiers and folders that this names, one a line",
     A_FILE, KEPT(list)},
    {"--part", "K/N", OPTION_PART, "of many dossiers each Nth, from the Kth on", KEPT(part)},
    {"--task", "ID", OPTION_TASK, "the task of a sheet that is made for each", A_TASK, KEPT(task)},
};

enum { SHORT_LIST = 100 };
enum { ROWS = sizeof rows / sizeof rows[0] };

int usage_error(const char *format, ...) {
  va_list list;
  va_start(list, format);
  fputs("tankside: error: ", stderr);
  vfprintf(stderr, format, list);
  fputc('\n', stderr);
  va_end(list);
  return NOT_DONE;
}

int unknown(const char *what, const char *name, const char *const *candidates, size_t count) {
  char all[SHORT_LIST] = "";
  size_t used = 0;
  const char *near = ts_nearest(name, candidates, count);
  if (near != NULL)
    return usage_error("unknown %s \"%s\"; the nearest is \"%s\"", what, name, near);
  for (size_t i = 0; i < count && used < sizeof all; i++)
    used += (size_t)snprintf(all + used, sizeof all - used, "%s%s", i ? ", " : "", candidates[i]);
  if (used < sizeof all && count > 0)
    return usage_error("unknown %s \"%s\"; there is: %s", what, name, all);
  return usage_error("unknown %s \"%s\"; `tankside --help` lists what there is", what, name);
}

const ts_option *options_next(unsigned takes, const ts_option *last) {
  const ts_option *row = last != NULL ? last + 1 : rows;
  while (row < rows + ROWS && !(takes & row->bit)) row++;
  return row < rows + ROWS ? row : NULL;
}

/* "in this form: text, csv" */
static const char *help_of(const ts_verb *verb, const ts_option *row, char *out, size_t size) {
  int used = snprintf(out, size, "%s", row->help);
  for (size_t i = 0; row->kind == A_FORM && verb->forms != NULL && verb->forms[i] != NULL; i++)
    used += snprintf(out + used, size - (size_t)used, "%s%s", i == 0 ? ": " : ", ", verb->forms[i]);
  return out;
}

void options_help(const ts_verb *verb) {
  for (const ts_option *row = NULL; (row = options_next(verb->takes, row)) != NULL;) {
    char name[40], head[64], text[256];
    snprintf(name, sizeof name, "%s %s", row->name, row->value ? row->value : "");
    snprintf(head, sizeof head, "  %-20s ", name);
    print_folded(head, help_of(verb, row, text, sizeof text));
  }
}

/* One more of an option that may be repeated. */
static bool keep_another(ts_options *into, const ts_option *row, const char *value) {
  const char **list = (const char **)((char *)into + row->at);
  size_t *count = (size_t *)((char *)into + row->count_at);
  if (*count == REPEATS_MAX) {
    usage_error("more than %d times \"%s\"", REPEATS_MAX, row->name);
    return false;
  }
  list[(*count)++] = value;
  return true;
}

static bool store(ts_options *into, const ts_option *row, const char *value) {
  if (row->count_at != 0) return keep_another(into, row, value);
  if (row->value == NULL)
    *(bool *)((char *)into + row->at) = true;
  else
    *(const char **)((char *)into + row->at) = value;
  return true;
}

/* The row an argument names, with or without `=value` after it. */
static const ts_option *row_for(const ts_verb *verb, const char *argument, size_t *length) {
  const char *equals = argument[1] == '-' ? strchr(argument, '=') : NULL;
  *length = equals != NULL ? (size_t)(equals - argument) : strlen(argument);
  for (const ts_option *row = NULL; (row = options_next(verb->takes, row)) != NULL;)
    if (strlen(row->name) == *length && strncmp(row->name, argument, *length) == 0) return row;
  return NULL;
}

static bool no_such_option(const ts_verb *verb, const char *argument) {
  const char *names[ROWS + 1];
  size_t count = 0;
  for (const ts_option *row = NULL; (row = options_next(verb->takes, row)) != NULL;)
    names[count++] = row->name;
  names[count++] = "--help";
  unknown("option", argument, names, count);
  return false;
}

/* Reads one option at arguments[*at]; moves *at over its value. */
static bool read_option(const ts_verb *verb, int count, char **arguments, int *at,
                        ts_options *into) {
  const char *argument = arguments[*at], *value = NULL;
  size_t length;
  const ts_option *row = row_for(verb, argument, &length);
  if (row == NULL) return no_such_option(verb, argument);
  bool joined = argument[length] == '=';
  if (row->value == NULL && joined) {
    usage_error("\"%s\" takes no value", row->name);
    return false;
  }
  if (row->value != NULL) {
    value = joined ? argument + length + 1 : *at + 1 < count ? arguments[++*at] : NULL;
    if (value == NULL) {
      usage_error("\"%s\" lacks its %s", row->name, row->value);
      return false;
    }
  }
  return store(into, row, value);
}

static bool words_fit(const ts_verb *verb, const ts_options *into) {
  size_t least = into->list != NULL ? 0 : verb->least;
  if (into->help || (into->word_count >= least && into->word_count <= verb->most)) return true;
  usage_error("usage: tankside %s", verb->usage);
  return false;
}

const char *const papers[] = {"a4", "letter", NULL};

static bool paper_known(const ts_options *into) {
  if (into->paper == NULL || ts_same(into->paper, papers[0]) || ts_same(into->paper, papers[1]))
    return true;
  unknown("paper", into->paper, papers, 2);
  return false;
}

static bool day_known(const ts_options *into) {
  ts_date date;
  if (into->on == NULL || ts_date_read(into->on, &date)) return true;
  usage_error("\"%s\" is no date; write it as 2027-03-08", into->on);
  return false;
}

/* The number that a text begins with; 0 where it is none from 1 to `most`. */
static size_t number_read(const char *text, size_t most, const char **after) {
  size_t count = 0;
  for (; *text >= '0' && *text <= '9' && count <= most; text++)
    count = 10 * count + (size_t)(*text - '0');
  *after = text;
  return count <= most ? count : 0;
}

static size_t workers_read(const char *text) {
  size_t count = number_read(text, TS_WORKERS_MAX, &text);
  return *text == '\0' ? count : 0;
}

enum { PARTS_MAX = 1000000 };

ts_part options_part(const ts_options *options) {
  const char *at = options->part;
  if (at == NULL) return (ts_part){1, 1};
  ts_part part = {.which = number_read(at, PARTS_MAX, &at)};
  if (*at == '/') part.of = number_read(at + 1, PARTS_MAX, &at);
  return *at == '\0' && part.which > 0 && part.which <= part.of ? part : (ts_part){0, 0};
}

static bool part_known(const ts_options *into) {
  if (options_part(into).of > 0) return true;
  usage_error("\"%s\" is no part of many; write the third of eight as 3/8", into->part);
  return false;
}

static bool workers_known(const ts_options *into) {
  if (into->workers == NULL || workers_read(into->workers) > 0) return true;
  usage_error("\"%s\" is no number of workers; write one from 1 to %d", into->workers,
              TS_WORKERS_MAX);
  return false;
}

size_t options_workers(const ts_options *options) {
  return options->workers != NULL ? workers_read(options->workers) : ts_processors();
}

/* "-" and what starts with a digit or a point after it ("-3 m") is a word, not an option. */
static bool is_option(const char *argument) {
  return argument[0] == '-' && argument[1] != '\0' && strchr("0123456789.", argument[1]) == NULL;
}

bool options_read(const ts_verb *verb, int count, char **arguments, ts_options *into) {
  bool words_only = false;
  for (int i = 0; i < count; i++) {
    const char *argument = arguments[i];
    if (!words_only && ts_same(argument, "--")) {
      words_only = true;
    } else if (!words_only && (ts_same(argument, "--help") || ts_same(argument, "-h"))) {
      into->help = true;
    } else if (!words_only && is_option(argument)) {
      if (!read_option(verb, count, arguments, &i, into)) return false;
    } else if (into->word_count == WORDS_MAX) {
      usage_error("too many arguments");
      return false;
    } else {
      into->words[into->word_count++] = argument;
    }
  }
  return words_fit(verb, into) && paper_known(into) && day_known(into) && workers_known(into) &&
         part_known(into);
}
