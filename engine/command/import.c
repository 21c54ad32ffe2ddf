/* tankside import: tables that departments keep, into the dossier. */
#include "dossier/import.h"
#include "base/file.h"
#include "base/text.h"
#include "command/command.h"
#include "dossier/table.h"
#include "dossier/world.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { DOSSIER_LIMIT = 64 * 1024 * 1024, MAP_LIMIT = 1024 * 1024 };

/* One of the dossier's files, before and after. */
typedef struct {
  const char *path, *name, *before;
  size_t length;
  ts_text after;
  bool changed;
} source_file;

typedef struct {
  ts_session *s;
  const ts_options *options;
  ts_import *import;
  source_file *files;
  size_t count;
} importer;

/* ---- reading -------------------------------------------------------------------------- */

static bool read_map(importer *i) {
  size_t length;
  const char *file = i->options->map;
  if (file == NULL) return true;
  const char *bytes = ts_file_read(i->s->arena, file, MAP_LIMIT, &length, i->s->problems);
  return bytes != NULL && ts_import_map(i->import, file, bytes, length);
}

/* Every file is read, so that all that is wrong is said in one run. */
static bool read_tables(importer *i) {
  bool good = true;
  for (size_t w = 1; w < i->options->word_count; w++) {
    size_t length;
    const char *file = i->options->words[w];
    const char *bytes =
        ts_file_read(i->s->arena, file, TS_TABLE_FILE_LIMIT, &length, i->s->problems);
    good = bytes != NULL && ts_import_table(i->import, file, bytes, length) && good;
  }
  return good;
}

static bool read_sources(importer *i) {
  ts_arena *arena = i->s->arena;
  const char *folder = ts_path_folder(arena, i->options->words[0]);
  i->count = ts_source_count(i->s->dossier);
  i->files = ts_arena_alloc(arena, (i->count + 1) * sizeof *i->files);
  for (size_t f = 0; f < i->count; f++) {
    source_file *file = &i->files[f];
    file->name = ts_source_name(i->s->dossier, f);
    file->path = f == 0 ? i->options->words[0] : ts_path_join(arena, folder, file->name);
    file->before = ts_file_read(arena, file->path, DOSSIER_LIMIT, &file->length, i->s->problems);
    if (file->before == NULL) return false;
  }
  return true;
}

/* ---- what changes --------------------------------------------------------------------- */

static void show_change(const importer *i, const ts_import_change *c) {
  print_folded("  ", ts_arena_printf(i->s->arena, "%s/%s: %s → %s (%s)", c->subject, c->fact,
                                     c->from ? c->from : "not written", c->to, c->where));
}

/* All facts of one new subject, which follow each other; gives how many there are. */
static size_t show_fresh(const importer *i, size_t first) {
  ts_import_change head = ts_import_at(i->import, first);
  size_t at = first, all = ts_import_count(i->import);
  ts_text text = {0};
  ts_text_addf(&text, "new %s %s:", head.entity, head.subject);
  for (; at < all; at++) {
    ts_import_change c = ts_import_at(i->import, at);
    if (c.where != head.where) break;
    ts_text_addf(&text, "%s %s=\"%s\"", at > first ? "," : "", c.fact, c.to);
  }
  ts_text_addf(&text, " (%s)", head.where);
  print_folded("  ", text.data);
  ts_text_release(&text);
  return at - first;
}

static void show_changes(const importer *i) {
  size_t changed = 0, fresh = 0, all = ts_import_count(i->import);
  for (size_t at = 0; at < all;) {
    ts_import_change c = ts_import_at(i->import, at);
    if (c.fresh) {
      at += show_fresh(i, at);
      fresh++;
    } else {
      show_change(i, &c);
      at++, changed++;
    }
  }
  printf("%s%zu fact%s changed, %zu subject%s added\n", all > 0 ? "\n" : "", changed,
         changed == 1 ? "" : "s", fresh, fresh == 1 ? "" : "s");
}

/* ---- into the files ------------------------------------------------------------------- */

static bool rewrite_all(importer *i) {
  ts_rewrite *rewrite = ts_rewrite_new(i->s->dossier, i->s->problems);
  bool good = true;
  for (size_t f = 0; f < i->count && good; f++)
    good = ts_rewrite_source(rewrite, f, i->files[f].before, i->files[f].length);
  good = good && ts_import_rewrite(i->import, rewrite);
  for (size_t f = 0; f < i->count && good; f++)
    i->files[f].changed = ts_rewrite_text(rewrite, f, &i->files[f].after);
  ts_rewrite_free(rewrite);
  return good;
}

/* Whether the dossier still reads with all that; what is wrong with it is said. */
static bool still_reads(importer *i) {
  size_t count = 0;
  ts_given_text *given = ts_arena_alloc(i->s->arena, (i->count + 1) * sizeof *given);
  for (size_t f = 0; f < i->count; f++)
    if (i->files[f].changed)
      given[count++] =
          (ts_given_text){i->files[f].name, i->files[f].after.data, i->files[f].after.length};
  ts_dossier *then = ts_dossier_read_given(i->options->words[0], given, count, i->s->vocabulary,
                                           i->s->units, i->s->problems);
  bool good = then != NULL;
  ts_dossier_free(then);
  if (!good) fputs("The dossier would not read with this; nothing is written.\n", stderr);
  return good;
}

/* All files or none: what was written is put back when another cannot be. */
static bool write_all(importer *i) {
  size_t f = 0;
  bool good = true;
  for (; f < i->count && good; f++)
    if (i->files[f].changed)
      good = ts_file_write(i->files[f].path, i->files[f].after.data, i->files[f].after.length,
                           i->s->problems);
  for (size_t back = 0; !good && back + 1 < f; back++)
    if (i->files[back].changed)
      ts_file_write(i->files[back].path, i->files[back].before, i->files[back].length,
                    i->s->problems);
  return good;
}

static void say_written(const importer *i) {
  fputs("written to", stdout);
  const char *between = " ";
  for (size_t f = 0; f < i->count; f++) {
    if (!i->files[f].changed) continue;
    printf("%s%s", between, i->files[f].path);
    between = ", ";
  }
  putchar('\n');
}

/* ---- the verb ------------------------------------------------------------------------- */

/* What was said when the dossier was read is said again when it is read changed. */
static void forget_warnings(ts_session *s) {
  ts_diagnostics_free(s->problems);
  s->problems = ts_diagnostics_new();
}

static bool import_all(importer *i) {
  bool good = read_map(i);
  good = read_tables(i) && good;
  if (!good || !ts_import_work_out(i->import)) return false;
  show_changes(i);
  if (ts_import_count(i->import) == 0) return true;
  if (!read_sources(i) || !rewrite_all(i) || !still_reads(i)) return false;
  if (i->options->dry_run) {
    puts("a dry run: nothing is written");
    return true;
  }
  if (!write_all(i)) return false;
  say_written(i);
  return true;
}

static int run(const ts_options *options) {
  ts_session s = {0};
  importer i = {.s = &s, .options = options};
  int status = NOT_DONE;
  if (session_open(&s) && session_read_dossier(&s, options, options->words[0])) {
    forget_warnings(&s);
    i.import = ts_import_new(s.dossier, s.problems);
    if (import_all(&i)) status = DONE;
    ts_import_free(i.import);
    for (size_t f = 0; f < i.count; f++) ts_text_release(&i.files[f].after);
  }
  session_close(&s);
  return status;
}

const ts_verb verb_import = {
    .name = "import",
    .usage = "import DOSSIER FILE... [--dry-run] [--map FILE] [--pack DIR]...",
    .summary = "takes tables in: CSV, OpenDocument, Office Open XML",
    .details =
        "Reads people, days, tasks, immersions, posts, dive records and what is said of a\n"
        "site (its water, air, deck ...) from tables: CSV, .ods or .xlsx, told apart by\n"
        "what is in them. A sheet is named like what it holds (people, records, water), or\n"
        "its headings say so; a column is headed by a fact, with its unit: \"depth (ft)\".\n"
        "A sheet with the columns subject, fact and new value has a row for each fact, as\n"
        "`tankside workbook` writes it. A row is about who has that id, else that name;\n"
        "dive records go by day, person and time down; who is not there yet is added. An\n"
        "empty cell changes nothing.\n\n"
        "Nothing is guessed: a number without a unit, a day that could be a month, a heading\n"
        "that could mean two facts are errors, each with its cell. What a heading in other\n"
        "words is taken for is said. A map says what they are:\n\n"
        "  <import dates=\"d.m.y\" decimal=\",\">\n"
        "    <sheet name=\"Pool\" entity=\"water\" head=\"3\" rows=\"latest\"\n"
        "           kind=\"measured\" by=\"I. Marsh\" on=\"2027-03-08\">\n"
        "      <column heading=\"Warmth\" fact=\"temperature\" unit=\"degC\"/>\n"
        "      <column at=\"F\" fact=\"none\"/>\n"
        "    </sheet>\n"
        "  </import>\n\n"
        "entity=\"none\" leaves a sheet out. rows: agree (default; two rows may not differ on\n"
        "one fact), latest (by the first column of dates), range (lowest to highest).\n"
        "kind, by and on become evidence for every fact that changes.\n\n"
        "What changes is shown; only that is written, and nothing while anything is wrong.\n\n"
        "  tankside import dossier.xml crew.ods dives.csv --dry-run\n\n"
        "Exit status: 0 taken in, or nothing to take; 2 nothing was written.",
    .takes = OPTION_DRY_RUN | OPTION_MAP | OPTION_PACK,
    .least = 2,
    .most = WORDS_MAX,
    .needs = WRITES_FIRST,
    .run = run};
