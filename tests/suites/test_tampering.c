/* tampering: two hundred single edits, by lot, of a signed assessment, of what it was made from and
 * of the documents made from it. Each is found, by the functions that `tankside verify` goes by,
 * and it is said where; in the untouched none is. */
#include "assess_world.h"
#include "draw.h"
#include "scratch.h"
#include "signer.h"

#include "base/file.h"
#include "base/text.h"
#include "tankside/document.h"
#include "tankside/sign.h"
#include <check.h>
#include <ctype.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_tampering(void);

enum { EDITS = 200, EDITS_SHORT = 20, FILES = 32, INPUTS = 3 };

static const char rules[] =
    "rule {\n"
    "  id = \"test.sill\", title = \"The sill is low\", each = \"immersion\", harm = \"performers: "
    "a knock\",\n"
    "  sources = { \"common practice\" },\n"
    "  assess = function (i)\n"
    "    if i.depth > q\"1.5 m\" then\n"
    "      hazard { likelihood = 4, severity = 4, because = \"the sill is low at {i.depth}\" }\n"
    "    end\n"
    "    duty { met = i.breath_hold < q\"20 s\", instrument = \"House rules\", section = \"4\" }\n"
    "  end,\n"
    "  examples = { { \"any\", given = {}, expect = nothing } },\n"
    "}\n";

typedef struct {
  const char *name; /* in the folder */
  const char *bytes;
  size_t length;
  const char *form; /* of a document, else NULL */
} file;

static assess_world w;
static file files[FILES];
static size_t file_count;
static char *plain, *whole; /* the assessment, unsigned and signed */
static size_t plain_length, whole_length;
static char digest[65];
static draws luck;

/* ---- what there is to edit ------------------------------------------------------------------ */

static void add(const char *name, const char *bytes, size_t length, const char *form) {
  ck_assert_uint_lt(file_count, FILES);
  files[file_count++] = (file){ts_arena_copy(w.arena, name), bytes, length, form};
}

static void add_input(const char *name) {
  size_t length;
  const char *bytes =
      ts_file_read(w.arena, ts_path_join(w.arena, w.folder, name), 1 << 20, &length, w.problems);
  ck_assert_ptr_nonnull(bytes);
  add(name, bytes, length, NULL);
}

static bool add_document(void *data, const ts_sheet_file *document, const char *bytes,
                         size_t length) {
  (void)data;
  add(document->name, ts_arena_copy_n(w.arena, bytes, length), length,
      ts_arena_copy(w.arena, document->form));
  return true;
}

static void add_index(void) {
  char *bytes;
  size_t length;
  ck_assert(ts_sheet_index(whole, whole_length, NULL, &bytes, &length, w.problems));
  add("index.html", ts_arena_copy_n(w.arena, bytes, length), length, "html");
  free(bytes);
}

/* What follows from the files of the folder; NULL when they cannot be read. */
static char *assess_folder(size_t *length, ts_diagnostics *problems) {
  const char *folder = w.folder;
  ts_vocabulary *vocabulary = ts_vocabulary_new();
  ts_packs *packs = ts_packs_new(w.units, vocabulary);
  ts_matrix *matrix = ts_matrix_read(ts_path_join(w.arena, folder, "matrix.xml"), problems);
  bool loaded = ts_packs_load(packs, ts_path_join(w.arena, folder, "test"), problems);
  ts_dossier *dossier =
      ts_dossier_read(ts_path_join(w.arena, folder, "dossier.xml"), vocabulary, w.units, problems);
  ts_assess_inputs inputs = {
      .dossier = dossier, .packs = packs, .matrix = matrix, .units = w.units, .folder = folder};
  ts_assessment *a = loaded && dossier && matrix && ts_count(problems, TS_ERROR) == 0
                         ? ts_assess(&inputs, problems)
                         : NULL;
  char *bytes = NULL;
  if (a) ts_assessment_write(a, &bytes, length);
  ts_assessment_free(a);
  ts_matrix_free(matrix);
  ts_dossier_free(dossier);
  ts_packs_free(packs);
  ts_vocabulary_free(vocabulary);
  return bytes;
}

static void begin(void) {
  assess_world_make(&w, rules, "breath-hold=\"12..25 s\" depth=\"1..2 m\"", "", "");
  size_t length;
  const char *matrix = ts_file_read(w.arena, SOURCE_FOLDER "/shared/matrices/five-by-five.xml",
                                    1 << 20, &length, w.problems);
  ck_assert(
      ts_file_write(ts_path_join(w.arena, w.folder, "matrix.xml"), matrix, length, w.problems));
  plain = assess_folder(&plain_length, w.problems);
  ck_assert_msg(plain != NULL, "%s", assess_world_said(&w));
  ts_signer signer = signer_make(w.arena);
  ck_assert_msg(ts_sign("assessment", plain, plain_length, "a.xml", &signer, &whole, &whole_length,
                        w.problems),
                "%s", assess_world_said(&w));
  ts_assessment_digest(whole, whole_length, digest);
  file_count = 0;
  add_input("dossier.xml");
  add_input("test/rules.lua");
  add_input("matrix.xml");
  ck_assert(
      ts_sheet_make_each_file(whole, whole_length, false, NULL, add_document, NULL, w.problems));
  add_index();
  luck = (draws){20271008};
}

static void end(void) {
  free(plain);
  free(whole);
  assess_world_free(&w);
}

/* ---- edits ----------------------------------------------------------------------------- */

/* Another of its own kind, so that what is edited can still be read more often than not. */
static char other(char c) {
  static const char digits[] = "0123456789", letters[] = "abcdefghijklmnopqrstuvwxyz";
  const char *kind = isdigit((unsigned char)c) ? digits : letters;
  char made = c;
  while (made == c) made = kind[draw_below(&luck, strlen(kind))];
  return made;
}

static char *edit(const char *bytes, size_t length, size_t at) {
  char *copy = ts_arena_copy_n(w.arena, bytes, length);
  memcpy(copy, bytes, length); /* a spreadsheet has zero bytes */
  copy[at] = other(copy[at]);
  return copy;
}

static int line_of(const char *bytes, size_t at) {
  int line = 1;
  for (size_t i = 0; i < at; i++) line += bytes[i] == '\n';
  return line;
}

/* ---- how each is found ----------------------------------------------------------------- */

static const char *said_in(ts_diagnostics *problems) {
  ts_diagnostics *before = w.problems;
  w.problems = problems;
  const char *said = assess_world_said(&w);
  w.problems = before;
  return said;
}

/* Whether a message of the file has a line not after the edit, or speaks of the file as a whole. */
static bool placed(const char *said, const char *name, int line) {
  size_t length = strlen(name);
  for (const char *at = said; (at = strstr(at, name)) != NULL; at++) {
    if (at[length] != ':') continue;
    if (!isdigit((unsigned char)at[length + 1]) || strtol(at + length + 1, NULL, 10) <= line + 1)
      return true;
  }
  return false;
}

static void not_intact(void *context, const ts_signature *one) {
  *(bool *)context = *(bool *)context || one->state != TS_SIGNATURE_INTACT;
}

/* Of the signed text: its signature does not hold, and, where it is no part of that, the place. */
static void check_assessment(size_t at) {
  ts_diagnostics *problems = ts_diagnostics_new();
  char *copy = edit(whole, whole_length, at);
  bool altered = false;
  size_t found = 0, cut = ts_unsigned_length(whole, whole_length);
  ts_signatures("assessment", copy, whole_length, "a.xml", NULL, NULL, not_intact, &altered,
                problems);
  altered = altered || ts_count(problems, TS_ERROR) > 0;
  ck_assert_msg(altered, "the signature holds with an edit on line %d: %.60s", line_of(whole, at),
                copy + at - 20);
  if (at < cut) {
    const char *text = ts_arena_printf(w.arena, "%.*s</assessment>\n", (int)cut, copy);
    bool read = ts_assessment_differences(text, strlen(text), plain, plain_length, "a.xml", 5,
                                          &found, problems);
    ck_assert_msg(!read || found > 0, "an edit on line %d is not found", line_of(whole, at));
    ck_assert_msg(placed(said_in(problems), "a.xml", line_of(whole, at)), "line %d: %s",
                  line_of(whole, at), said_in(problems));
  }
  ts_diagnostics_free(problems);
}

static void check_document(const file *f, size_t at) {
  ts_diagnostics *problems = ts_diagnostics_new();
  size_t found = 0;
  ts_sheet_file_differences(edit(f->bytes, f->length, at), f->length, f->bytes, f->length, f->form,
                            digest, f->name, 5, &found, problems);
  const char *said = said_in(problems);
  ck_assert_msg(found > 0, "%s: an edit on line %d is not found", f->name, line_of(f->bytes, at));
  ck_assert_msg(placed(said, f->name, line_of(f->bytes, at)), "%s, line %d: %s", f->name,
                line_of(f->bytes, at), said);
  ts_diagnostics_free(problems);
}

/* Of what it was made from: what follows is another assessment, or nothing, and the file is named.
 */
static void check_input(const file *f, size_t at) {
  ts_diagnostics *problems = ts_diagnostics_new();
  const char *path = ts_path_join(w.arena, w.folder, f->name);
  size_t length = 0, found = 0;
  ck_assert(ts_file_write(path, edit(f->bytes, f->length, at), f->length, problems));
  char *again = assess_folder(&length, problems);
  if (again)
    ts_assessment_differences(plain, plain_length, again, length, "a.xml", 5, &found, problems);
  const char *said = said_in(problems);
  ck_assert_msg(found > 0 || !again, "%s: an edit on line %d is not found", f->name,
                line_of(f->bytes, at));
  ck_assert_msg(strstr(said, ts_path_name(f->name)) != NULL, "%s is not named: %s", f->name, said);
  ck_assert(ts_file_write(path, f->bytes, f->length, problems));
  free(again);
  ts_diagnostics_free(problems);
}

START_TEST(every_edit_is_found_and_placed) {
  int count = getenv("TANKSIDE_TEST_SHORT") ? EDITS_SHORT : EDITS;
  for (int i = 0; i < count; i++) {
    size_t cut = ts_unsigned_length(whole, whole_length);
    const file *input = &files[draw_below(&luck, INPUTS)];
    const file *document = &files[INPUTS + draw_below(&luck, file_count - INPUTS)];
    switch (i % 5) {
    case 0: check_assessment(draw_below(&luck, cut)); break;
    case 1:
      check_assessment(cut + draw_below(&luck, whole_length - cut));
      break; /* the signature */
    case 2: check_input(input, draw_below(&luck, input->length)); break;
    default: check_document(document, draw_below(&luck, document->length)); break;
    }
  }
}
END_TEST

START_TEST(in_the_untouched_there_is_none) {
  bool altered = false;
  size_t found = 1, length = 0;
  ck_assert_uint_eq(ts_signatures("assessment", whole, whole_length, "a.xml", NULL, NULL,
                                  not_intact, &altered, w.problems),
                    1);
  ck_assert(!altered);
  char *again = assess_folder(&length, w.problems);
  ck_assert(ts_assessment_differences(plain, plain_length, again, length, "a.xml", 5, &found,
                                      w.problems));
  ck_assert_uint_eq(found, 0);
  ck_assert_uint_gt(file_count, 12);
  for (size_t i = INPUTS; i < file_count; i++) {
    const file *f = &files[i];
    ts_sheet_file_differences(f->bytes, f->length, f->bytes, f->length, f->form, digest, f->name, 5,
                              &found, w.problems);
    ck_assert_uint_eq(found, 0);
  }
  ck_assert_uint_eq(ts_count(w.problems, TS_ERROR), 0);
  free(again);
}
END_TEST

Suite *suite_tampering(void) {
  Suite *suite = suite_create("tampering");
  TCase *edited = tcase_create("edited");
  tcase_add_checked_fixture(edited, begin, end);
  tcase_add_test(edited, in_the_untouched_there_is_none);
  tcase_add_test(edited, every_edit_is_found_and_placed);
  tcase_set_timeout(edited, 120);
  suite_add_tcase(suite, edited);
  return suite;
}
