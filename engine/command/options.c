/* Options: one table, from which they are read and described. */
#include "base/text.h"
#include "command/command.h"
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

typedef struct {
  const char *name, *value; /* "--pack", "DIR"; value NULL for a switch */
  option_bit bit;
  const char *help;
} option_row;

static const option_row rows[] = {
    {"--pack", "DIR", OPTION_PACK,
     "also the rules of this folder, or of a pack by name; repeatable"},
    {"--matrix", "NAME|FILE", OPTION_MATRIX,
     "the matrix: five-by-five (default), mil-std-882e, or a file"},
    {"--set", "PATH=VALUE", OPTION_SET, "take this value instead of the dossier's; repeatable"},
    {"--set-file", "FILE", OPTION_SET_FILE,
     "the same, one PATH=VALUE a line, # for comments; repeatable"},
    {"--where", "FIELD=TEXT", OPTION_WHERE, "only rules for which this holds; repeatable"},
    {"-o", "PATH", OPTION_OUT, "write here"},
    {"--paper", "a4|letter", OPTION_PAPER, "size of the paper (a4)"},
    {"--language", "NAME", OPTION_LANGUAGE,
     "of the papers: en-GB (default), en-US, fr, de, es; else the dossier's"},
    {"--no-pdf", NULL, OPTION_NO_PDF, "write no PDF, only HTML"},
    {"--explain", "FINDING", OPTION_EXPLAIN,
     "instead of the summary: all that is behind one finding or duty"},
    {"--as", "FORM", OPTION_AS, "in this form"},
    {"--sheet", "NAME", OPTION_SHEET, "which document (assessment)"},
    {"--all", NULL, OPTION_ALL, "every function in full, as text for a reviewer"},
    {"--key", "FILE", OPTION_KEY, "private key, PEM"},
    {"--certificate", "FILE", OPTION_CERTIFICATE, "its certificate, PEM"},
    {"--on", "DATE", OPTION_ON, "the day of signing: 2027-03-08"},
    {"--role", "TEXT", OPTION_ROLE, "as whom: safety officer"},
    {"--trust", "FILE", OPTION_TRUST, "certificates that vouch for signers, PEM"},
    {"--dossier", "FILE", OPTION_DOSSIER, "the dossier it was made from"},
    {"--editor", NULL, OPTION_EDITOR, "help for editors, into the folder given with -o"},
    {"--task", "ID", OPTION_TASK, "the task of a sheet that is made for each"},
};

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
  const char *near = ts_nearest(name, candidates, count);
  if (near != NULL)
    return usage_error("unknown %s \"%s\"; the nearest is \"%s\"", what, name, near);
  return usage_error("unknown %s \"%s\"; `tankside --help` lists what there is", what, name);
}

void options_help(unsigned takes) {
  for (size_t i = 0; i < ROWS; i++) {
    char head[64];
    if (!(takes & rows[i].bit)) continue;
    snprintf(head, sizeof head, "%s %s", rows[i].name, rows[i].value ? rows[i].value : "");
    printf("  %-20s %s\n", head, rows[i].help);
  }
}

static bool keep(const char **list, size_t *count, const char *value, const char *name) {
  if (*count == REPEATS_MAX) {
    usage_error("more than %d times \"%s\"", REPEATS_MAX, name);
    return false;
  }
  list[(*count)++] = value;
  return true;
}

static bool store(ts_options *into, const option_row *row, const char *value) {
  switch (row->bit) {
  case OPTION_PACK: return keep(into->packs, &into->pack_count, value, row->name);
  case OPTION_SET: return keep(into->sets, &into->set_count, value, row->name);
  case OPTION_SET_FILE: return keep(into->set_files, &into->set_file_count, value, row->name);
  case OPTION_WHERE: return keep(into->wheres, &into->where_count, value, row->name);
  case OPTION_MATRIX: into->matrix = value; break;
  case OPTION_OUT: into->out = value; break;
  case OPTION_PAPER: into->paper = value; break;
  case OPTION_NO_PDF: into->no_pdf = true; break;
  case OPTION_ALL: into->all = true; break;
  case OPTION_EDITOR: into->editor = true; break;
  case OPTION_AS: into->as = value; break;
  case OPTION_SHEET: into->sheet = value; break;
  case OPTION_TASK: into->task = value; break;
  case OPTION_LANGUAGE: into->language = value; break;
  case OPTION_KEY: into->key = value; break;
  case OPTION_CERTIFICATE: into->certificate = value; break;
  case OPTION_ON: into->on = value; break;
  case OPTION_ROLE: into->role = value; break;
  case OPTION_TRUST: into->trust = value; break;
  case OPTION_DOSSIER: into->dossier = value; break;
  case OPTION_EXPLAIN: into->explain = value; break;
  }
  return true;
}

/* The row an argument names, with or without `=value` after it. */
static const option_row *row_for(const ts_verb *verb, const char *argument, size_t *length) {
  const char *equals = argument[1] == '-' ? strchr(argument, '=') : NULL;
  *length = equals != NULL ? (size_t)(equals - argument) : strlen(argument);
  for (size_t i = 0; i < ROWS; i++)
    if (verb->takes & rows[i].bit && strlen(rows[i].name) == *length &&
        strncmp(rows[i].name, argument, *length) == 0)
      return &rows[i];
  return NULL;
}

static bool no_such_option(const ts_verb *verb, const char *argument) {
  const char *names[ROWS + 1];
  size_t count = 0;
  for (size_t i = 0; i < ROWS; i++)
    if (verb->takes & rows[i].bit) names[count++] = rows[i].name;
  names[count++] = "--help";
  unknown("option", argument, names, count);
  return false;
}

/* Reads one option at arguments[*at]; moves *at over its value. */
static bool read_option(const ts_verb *verb, int count, char **arguments, int *at,
                        ts_options *into) {
  const char *argument = arguments[*at], *value = NULL;
  size_t length;
  const option_row *row = row_for(verb, argument, &length);
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
  if (into->help || (into->word_count >= verb->least && into->word_count <= verb->most))
    return true;
  usage_error("usage: tankside %s", verb->usage);
  return false;
}

static bool paper_known(const ts_options *into) {
  static const char *const papers[] = {"a4", "letter"};
  if (into->paper == NULL || ts_same(into->paper, "a4") || ts_same(into->paper, "letter"))
    return true;
  unknown("paper", into->paper, papers, 2);
  return false;
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
  return words_fit(verb, into) && paper_known(into);
}
