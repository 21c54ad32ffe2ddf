/* A table from a stranger: taken into a dossier that still reads, or refused with a message.
 *
 * The first byte says what the rest is: a file as it is (CSV, or an archive), the content of an
 * OpenDocument spreadsheet, or one part of an Office Open XML one: a sheet, its styles, its texts,
 * the workbook, or what stands for what in it. */
#include "base/zip.h"
#include "dossier/import.h"
#include "dossier/world.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const char dossier_text[] =
    "<dossier format=\"1\"><production title=\"Mill\" jurisdiction=\"gb-eng\" revision=\"1\" "
    "on=\"2027-05-01\" by=\"I. Marsh\"/><site id=\"race\"/>"
    "<person id=\"ann\" name=\"Ann Lee\" role=\"performer\"/>"
    "<day date=\"2027-05-11\" site=\"race\"><task id=\"leap\" title=\"Leap\">"
    "<immersion person=\"ann\" wears=\"none\"/></task></day></dossier>";

static const char book[] =
    "<workbook xmlns:r=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships\">"
    "<sheets><sheet name=\"people\" r:id=\"r1\"/></sheets></workbook>";
static const char relations[] =
    "<Relationships><Relationship Id=\"r1\" Target=\"worksheets/sheet1.xml\"/></Relationships>";
static const char sheet[] =
    "<worksheet><sheetData><row><c t=\"inlineStr\"><is><t>id</t></is></c><c t=\"inlineStr\"><is>"
    "<t>born</t></is></c></row><row><c t=\"s\"><v>0</v></c><c "
    "s=\"1\"><v>33000</v></c></row></sheetData></worksheet>";
static const char strings[] = "<sst><si><t>ann</t></si></sst>";
static const char styles[] =
    "<styleSheet><cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/></cellXfs></styleSheet>";

typedef struct {
  ts_units *units;
  ts_vocabulary *vocabulary;
  ts_dossier *dossier;
} bench;

static ts_dossier *read_text(const bench *b, const char *text, size_t length,
                             ts_diagnostics *problems) {
  ts_given_text given = {"dossier.xml", text, length};
  return ts_dossier_read_given("dossier.xml", &given, 1, b->vocabulary, b->units, problems);
}

static const bench *bench_once(void) {
  static bench b; /* a fuzz target lives as long as its process */
  char why[200];
  if (b.units) return &b;
  b.units = ts_units_new(why, sizeof why);
  b.vocabulary = ts_vocabulary_new();
  ts_diagnostics *problems = ts_diagnostics_new();
  b.dossier = read_text(&b, dossier_text, sizeof dossier_text - 1, problems);
  if (!b.dossier) abort();
  ts_diagnostics_free(problems);
  return &b;
}

/* An Office Open XML spreadsheet, one part of which is the input. */
static void write_parts(int part, const char *bytes, size_t length, ts_text *file) {
  ts_zip_entry parts[] = {{"xl/worksheets/sheet1.xml", sheet, sizeof sheet - 1, true},
                          {"xl/styles.xml", styles, sizeof styles - 1, true},
                          {"xl/sharedStrings.xml", strings, sizeof strings - 1, true},
                          {"xl/workbook.xml", book, sizeof book - 1, true},
                          {"xl/_rels/workbook.xml.rels", relations, sizeof relations - 1, true}};
  parts[part].bytes = bytes;
  parts[part].length = length;
  ts_zip_write(parts, sizeof parts / sizeof *parts, NULL, file);
}

/* The file that the input stands for. */
static ts_text file_of(const char *data, size_t size) {
  ts_text file = {0};
  char kind = size ? data[0] : 0;
  const char *rest = data + (size ? 1 : 0);
  size_t length = size ? size - 1 : 0;
  if (kind == 1)
    ts_zip_write(&(ts_zip_entry){"content.xml", rest, length, true}, 1, NULL, &file);
  else if (kind >= 2 && kind <= 6)
    write_parts(kind - 2, rest, length, &file);
  else
    ts_text_add_n(&file, rest, length);
  return file;
}

/* What was taken leaves a dossier of which no element, attribute or subject came by itself. */
static void check_taken(const bench *b, const ts_import *import, ts_diagnostics *problems) {
  ts_rewrite *rewrite = ts_rewrite_new(b->dossier, problems);
  ts_text text;
  if (!ts_rewrite_source(rewrite, 0, dossier_text, sizeof dossier_text - 1)) abort();
  if (ts_import_rewrite(import, rewrite) && ts_rewrite_text(rewrite, 0, &text)) {
    ts_dossier *then = read_text(b, text.data, text.length, problems);
    if (!then && !ts_count(problems, TS_ERROR)) abort();
    ts_dossier_free(then);
    ts_text_release(&text);
  }
  ts_rewrite_free(rewrite);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  const bench *b = bench_once();
  ts_diagnostics *problems = ts_diagnostics_new();
  ts_import *import = ts_import_new(b->dossier, problems);
  ts_text file = file_of((const char *)data, size);
  bool good = ts_import_table(import, "people.csv", file.data ? file.data : "", file.length) &&
              ts_import_work_out(import);
  if (!good && !ts_count(problems, TS_ERROR)) abort(); /* refused without a word */
  if (good && ts_count(problems, TS_ERROR)) abort();
  if (good) check_taken(b, import, problems);
  ts_import_free(import);
  ts_text_release(&file);
  ts_diagnostics_free(problems);
  return 0;
}
