/* differences: every single edit of an assessment is found, on its line or on that of the element
 * around it. */
#include "assess_world.h"
#include "draw.h"

#include "base/text.h"
#include "tankside/document.h"
#include <check.h>
#include <ctype.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_differences(void);

enum { EDITS = 200, EDITS_SHORT = 2 };

static assess_world w;
static char *bytes;
static size_t length;
static draws luck;

static void begin(void) {
  assess_world_demo(&w, "lake-stunt");
  ts_assessment *a = assess_world_run(&w);
  ts_assessment_write(a, &bytes, &length);
  ts_assessment_free(a);
  luck = (draws){20271008};
}

static void end(void) {
  free(bytes);
  assess_world_free(&w);
}

/* ---- edits ------------------------------------------------------------------------------ */

/* Another of its own kind, so that it stays XML more often than not. */
static char other(char c) {
  static const char digits[] = "0123456789", letters[] = "abcdefghijklmnopqrstuvwxyz";
  const char *kind = isdigit((unsigned char)c) ? digits : letters;
  char made = c;
  while (made == c) made = kind[draw_below(&luck, strlen(kind))];
  return made;
}

static size_t edit_character(char *copy) {
  size_t at = draw_below(&luck, length);
  copy[at] = other(copy[at]);
  return at;
}

/* The value of an attribute, or a text, replaced by as many other letters. */
static size_t edit_value(char *copy) {
  size_t at = draw_below(&luck, length);
  while (copy[at] != '"' || copy[at + 1] == '"') at = (at + 1) % length;
  for (size_t i = at + 1; copy[i] != '"'; i++)
    if (isalnum((unsigned char)copy[i])) copy[i] = other(copy[i]);
  return at;
}

/* A line blanked: an element left out, or its start or end. */
static size_t edit_line(char *copy) {
  size_t at = draw_below(&luck, length - 200) + 100;
  while (copy[at] != '\n') at++;
  size_t first = ++at;
  while (copy[at] != '\n') copy[at++] = ' ';
  return first;
}

static size_t (*const edits[])(char *) = {edit_character, edit_value, edit_line};

static int line_of(size_t at) {
  int line = 1;
  for (size_t i = 0; i < at; i++) line += bytes[i] == '\n';
  return line;
}

/* Whether some message has a line not after the one edited: what is left out is reported where the
 * element around it begins, or, where its like stands after it, there; an element that does not
 * close is reported where the next one ends. */
static bool placed(const char *said, int line) {
  for (const char *at = said; (at = strstr(at, "seen.xml:")) != NULL; at++)
    if (strtol(at + strlen("seen.xml:"), NULL, 10) <= line + 1) return true;
  return strstr(said, "not well-formed") != NULL;
}

START_TEST(every_edit_is_found_and_placed) {
  int count = getenv("TANKSIDE_TEST_SHORT") ? EDITS_SHORT : EDITS;
  char *copy = ts_alloc(length + 1);
  for (int i = 0; i < count; i++) {
    ts_diagnostics *problems = ts_diagnostics_new();
    size_t found = 0;
    memcpy(copy, bytes, length + 1);
    size_t at = edits[draw_below(&luck, sizeof edits / sizeof edits[0])](copy);
    if (memcmp(copy, bytes, length) == 0) continue; /* a blank line */
    bool read =
        ts_assessment_differences(copy, length, bytes, length, "seen.xml", 5, &found, problems);
    ts_diagnostics *before = w.problems;
    w.problems = problems;
    const char *said = assess_world_said(&w);
    w.problems = before;
    ck_assert_msg(!read || found > 0, "edit %d on line %d is not found", i, line_of(at));
    ck_assert_msg(placed(said, line_of(at)), "edit %d on line %d: %s", i, line_of(at), said);
    ts_diagnostics_free(problems);
  }
  free(copy);
}
END_TEST

START_TEST(the_same_has_no_difference) {
  size_t found = 1;
  ck_assert(
      ts_assessment_differences(bytes, length, bytes, length, "seen.xml", 5, &found, w.problems));
  ck_assert_uint_eq(found, 0);
}
END_TEST

Suite *suite_differences(void) {
  Suite *suite = suite_create("differences");
  TCase *edited = tcase_create("edited");
  tcase_add_checked_fixture(edited, begin, end);
  tcase_add_test(edited, the_same_has_no_difference);
  tcase_add_test(edited, every_edit_is_found_and_placed);
  tcase_set_timeout(edited, 300);
  suite_add_tcase(suite, edited);
  return suite;
}
