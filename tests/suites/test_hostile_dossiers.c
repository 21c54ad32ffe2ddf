/* Dossiers from strangers (tests/hostile/dossiers.txt): each is refused with its reason and line,
 * or is read for what it says; none reads another file, or stays in it for ever. */
#include "hostile.h"
#include "scratch.h"
#include "said.h"
#include "tankside/dossier.h"

#include "base/file.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

Suite *suite_hostile_dossiers(void);

static ts_arena *arena;
static const hostile_case *cases;
static size_t case_count;

static const char before[] =
    "<dossier format=\"1\"><production title=\"T\" jurisdiction=\"gb-eng\" revision=\"1\" "
    "on=\"2027-03-01\" by=\"N. Example\"/>\n";

/* What stands beside the dossier: a link out of the folder, a device, a pipe, a file that comes
 * back. */
static void furnish(const char *folder) {
  const char *again = "<dossier format=\"1\"><include href=\"dossier.xml\"/></dossier>";
  ts_diagnostics *problems = ts_diagnostics_new();
  ck_assert(ts_file_write(ts_arena_printf(arena, "%s/again.xml", folder), again, strlen(again),
                          problems));
  ts_diagnostics_free(problems);
  ck_assert_int_eq(symlink("/etc/passwd", ts_arena_printf(arena, "%s/link.xml", folder)), 0);
  ck_assert_int_eq(symlink("/dev/zero", ts_arena_printf(arena, "%s/device", folder)), 0);
  ck_assert_int_eq(mkfifo(ts_arena_printf(arena, "%s/pipe", folder), 0600), 0);
}

static void write_case(const char *path, const hostile_case *one, ts_diagnostics *problems) {
  ts_text file = {0};
  bool whole = memmem(one->text, one->length, "<dossier", 8) != NULL;
  if (!whole) ts_text_add(&file, before);
  ts_text_add_n(&file, one->text, one->length - 1); /* without the last line's end */
  if (!whole) ts_text_add(&file, "</dossier>\n");
  ck_assert(ts_file_write(path, file.data, file.length, problems));
  ts_text_release(&file);
}

static const char *printed(const ts_diagnostics *problems) { return said_of(problems, arena); }

static void judge(const hostile_case *one, const ts_dossier *dossier, const char *said) {
  if (one->verdict == 'b') {
    ck_assert_msg(dossier != NULL, "%s: refused: %.600s", one->name, said);
    return;
  }
  ck_assert_msg(dossier == NULL, "%s: read; said %.300s", one->name, said);
  ck_assert_msg(strstr(said, one->says) != NULL, "%s: no \"%s\" in: %.600s", one->name, one->says,
                said);
  ck_assert_msg(strstr(said, "dossier.xml:") || strstr(said, "again.xml:"),
                "%s: no place in: %.600s", one->name, said);
  ck_assert_msg(strlen(said) < 256 * 1024, "%s: says %zu bytes", one->name, strlen(said));
  ck_assert_msg(strstr(said, "root:x:") == NULL, "%s: another file was read: %.600s", one->name,
                said);
}

START_TEST(does_no_harm) {
  char scratch[256], why[256];
  scratch_make(scratch, sizeof scratch);
  furnish(scratch);
  ts_units *units = ts_units_new(why, sizeof why);
  ts_vocabulary *vocabulary = ts_vocabulary_new();
  ts_diagnostics *problems = ts_diagnostics_new();
  const char *path = ts_arena_printf(arena, "%s/dossier.xml", scratch);
  write_case(path, &cases[_i], problems);
  ts_dossier *dossier = ts_dossier_read(path, vocabulary, units, problems);
  judge(&cases[_i], dossier, printed(problems));
  ts_dossier_free(dossier);
  ts_diagnostics_free(problems);
  ts_vocabulary_free(vocabulary);
  ts_units_free(units);
  scratch_remove(scratch);
}
END_TEST

Suite *suite_hostile_dossiers(void) {
  Suite *suite = suite_create("hostile_dossiers");
  TCase *tc = tcase_create("hostile_dossiers");
  tcase_set_timeout(tc, 60);
  arena = ts_arena_new();
  cases = hostile_cases("dossiers.txt", arena, &case_count);
  tcase_add_loop_test(tc, does_no_harm, 0, (int)case_count);
  suite_add_tcase(suite, tc);
  return suite;
}
