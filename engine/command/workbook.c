/* tankside workbook: what each department is asked to say, as spreadsheets to fill in. */
#include "document/workbook.h"
#include "base/file.h"
#include "command/command.h"
#include <ctype.h>
#include <stdio.h>
#include <string.h>

typedef struct {
  ts_session *s;
  const ts_options *options;
  ts_department *departments;
  size_t count;
} bookmaker;

static bool write_book(const bookmaker *b, const ts_department *departments, size_t count,
                       const char *path) {
  ts_text ods;
  bool good = ts_workbook_make(b->s->dossier, departments, count, &ods, b->s->problems) &&
              ts_file_write(path, ods.data, ods.length, b->s->problems);
  if (good) printf("%s\n", path);
  ts_text_release(&ods);
  return good;
}

/* "diving supervisor" as diving-supervisor.ods. */
static const char *file_name(const bookmaker *b, const char *department) {
  char *name = ts_arena_printf(b->s->arena, "%s.ods", department);
  for (char *c = name; *c != '\0'; c++)
    if (!isalnum((unsigned char)*c) && strchr(".-_", *c) == NULL) *c = '-';
  return ts_path_join(b->s->arena, b->options->out, name);
}

static bool write_each(const bookmaker *b) {
  bool good = ts_folder_make(b->options->out, b->s->problems);
  for (size_t i = 0; i < b->count && good; i++)
    good = write_book(b, &b->departments[i], 1, file_name(b, b->departments[i].name));
  return good;
}

/* Leaves only the department that was asked for. */
static bool choose(bookmaker *b) {
  const char **names = ts_arena_alloc(b->s->arena, (b->count + 1) * sizeof *names);
  if (b->options->sheet == NULL) return true;
  for (size_t i = 0; i < b->count; i++) {
    names[i] = b->departments[i].name;
    if (!ts_same(names[i], b->options->sheet)) continue;
    b->departments += i;
    b->count = 1;
    return true;
  }
  unknown("department", b->options->sheet, names, b->count);
  return false;
}

static bool is_one_file(const char *path) {
  size_t length = strlen(path);
  return length > 4 && ts_same(path + length - 4, ".ods");
}

static bool write_all(bookmaker *b) {
  if (b->options->out == NULL) {
    usage_error("`workbook` needs -o: a file that ends in .ods, or a folder");
    return false;
  }
  b->departments = ts_departments(b->s->dossier, b->s->arena, &b->count);
  if (!choose(b)) return false;
  if (!is_one_file(b->options->out)) return write_each(b);
  return write_book(b, b->departments, b->count, b->options->out);
}

static int run(const ts_options *options) {
  ts_session s = {0};
  bookmaker b = {.s = &s, .options = options};
  int status = NOT_DONE;
  if (session_open(&s) && session_read_dossier(&s, options, options->words[0]) && write_all(&b))
    status = DONE;
  session_close(&s);
  return status;
}

const ts_verb verb_workbook = {
    .name = "workbook",
    .usage = "workbook DOSSIER -o FILE.ods|FOLDER [--sheet DEPARTMENT] [--pack DIR]...",
    .summary = "spreadsheets for departments, which `import` takes back",
    .details =
        "Writes what each department is asked to say: a row for each fact, with whom it is\n"
        "of, what it means, how it is found out, what to write, what is known now, and cells\n"
        "for a new value and its evidence; lists of people, days, tasks, immersions, posts\n"
        "and dive records, to which rows may be added. What somebody alone may know of\n"
        "themselves stands in a sheet of their own.\n\n"
        "Into a folder goes a file for each department, to be sent; into a file that ends in\n"
        ".ods go all of them, or the one named with --sheet.\n\n"
        "  tankside workbook dossier.xml -o to-send\n"
        "  tankside import dossier.xml to-send/*.ods --dry-run\n\n"
        "Exit status: 0 written, 2 not.",
    .takes = OPTION_OUT | OPTION_SHEET | OPTION_PACK,
    .least = 1,
    .most = 1,
    .needs = WRITES_OUT,
    .run = run};
