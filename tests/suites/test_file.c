/* base/file.h: reading bounded, writing whole or not at all, staying inside a folder. */
#include "base/file.h"
#include "base/text.h"
#include "said.h"
#include "scratch.h"

#include <check.h>
#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

static char folder[256];
static ts_arena *arena;
static ts_diagnostics *problems;

static void set_up(void) {
  scratch_make(folder, sizeof folder);
  arena = ts_arena_new();
  problems = ts_diagnostics_new();
}

static void tear_down(void) {
  ts_diagnostics_free(problems);
  ts_arena_free(arena);
  scratch_remove(folder);
}

static char *in(const char *name) { return ts_path_join(arena, folder, name); }

static void check_problem(size_t count, const char *words) {
  const char *printed = said_of(problems, arena);
  ck_assert_uint_eq(ts_count(problems, TS_ERROR), count);
  ck_assert_msg(strstr(printed, words) != NULL, "no \"%s\" in: %s", words, printed);
  ck_assert_msg(strstr(printed, folder) != NULL, "no path in: %s", printed);
}

static void check_content(const char *path, const char *bytes, size_t length) {
  size_t got = 0;
  char *read = ts_file_read(arena, path, 1 << 20, &got, problems);
  ck_assert_ptr_nonnull(read);
  ck_assert_uint_eq(got, length);
  ck_assert_mem_eq(read, bytes, length);
  ck_assert_int_eq(read[length], 0);
}

START_TEST(writes_and_reads_any_bytes) {
  const char bytes[] = "one\0two\r\n\xff three";
  ck_assert(ts_file_write(in("a"), bytes, sizeof bytes, problems));
  check_content(in("a"), bytes, sizeof bytes);
  ck_assert(ts_file_write(in("a"), "", 0, problems));
  check_content(in("a"), "", 0);
  ck_assert_int_eq(scratch_count(folder), 1);
  ck_assert_ptr_nonnull(ts_file_read(arena, in("a"), 0, NULL, problems));
  ck_assert_uint_eq(ts_count(problems, TS_ERROR), 0);
}
END_TEST

START_TEST(an_existing_file_keeps_its_permissions) {
  struct stat about;
  ck_assert(ts_file_write(in("a"), "x", 1, problems));
  ck_assert_int_eq(chmod(in("a"), 0600), 0);
  ck_assert(ts_file_write(in("a"), "y", 1, problems));
  ck_assert_int_eq(stat(in("a"), &about), 0);
  ck_assert_int_eq(about.st_mode & 0777, 0600);
}
END_TEST

/* The file may grow to 1000 bytes, then the system refuses: what was there before
 * must still be there, and nothing else. */
START_TEST(a_failed_write_leaves_the_old_file) {
  char large[5000];
  memset(large, 'x', sizeof large);
  ck_assert(ts_file_write(in("a"), "old", 3, problems));
  struct rlimit before, small;
  ck_assert_int_eq(getrlimit(RLIMIT_FSIZE, &before), 0);
  void (*handler)(int) = signal(SIGXFSZ, SIG_IGN);
  small = before;
  small.rlim_cur = 1000;
  ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &small), 0);
  bool replaced = ts_file_write(in("a"), large, sizeof large, problems);
  bool created = ts_file_write(in("b"), large, sizeof large, problems);
  ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &before), 0);
  signal(SIGXFSZ, handler);
  ck_assert(!replaced);
  ck_assert(!created);
  check_problem(2, "cannot be written: File too large");
  check_content(in("a"), "old", 3);
  ck_assert_int_eq(scratch_count(folder), 1);
}
END_TEST

START_TEST(writing_refuses_what_is_not_a_file) {
  ck_assert(!ts_file_write(folder, "x", 1, problems));
  ck_assert(!ts_file_write(in("none/a"), "x", 1, problems));
  check_problem(2, "No such file or directory");
  ck_assert_int_eq(scratch_count(folder), 0);
  struct stat about;
  ck_assert(!ts_file_write("/dev/null", "x", 1, problems));
  ck_assert_int_eq(stat("/dev/null", &about), 0);
  ck_assert(S_ISCHR(about.st_mode));
}
END_TEST

START_TEST(reading_is_bounded) {
  ck_assert(ts_file_write(in("a"), "12345", 5, problems));
  ck_assert_ptr_nonnull(ts_file_read(arena, in("a"), 5, NULL, problems));
  ck_assert_ptr_null(ts_file_read(arena, in("a"), 4, NULL, problems));
  check_problem(1, "is larger than 4 bytes");
}
END_TEST

START_TEST(reading_refuses_what_is_not_a_file) {
  ck_assert_int_eq(mkfifo(in("pipe"), 0600), 0);
  ck_assert_ptr_null(ts_file_read(arena, in("pipe"), 10, NULL, problems));
  ck_assert_ptr_null(ts_file_read(arena, folder, 10, NULL, problems));
  check_problem(2, "is not a regular file");
  ck_assert_ptr_null(ts_file_read(arena, in("none"), 10, NULL, problems));
  check_problem(3, "cannot be opened: No such file or directory");
}
END_TEST

START_TEST(folders_are_made_with_their_parents) {
  ck_assert(!ts_folder_exists(in("a/b/c")));
  ck_assert(ts_folder_make(in("a/b//c/"), problems));
  ck_assert(ts_folder_exists(in("a/b/c")));
  ck_assert(ts_folder_make(in("a/b/c"), problems));
  ck_assert(ts_file_write(in("file"), "", 0, problems));
  ck_assert(!ts_folder_exists(in("file")));
  ck_assert(!ts_folder_make(in("file/d"), problems));
  check_problem(1, "cannot be made");
  ck_assert(!ts_folder_make(in("file"), problems));
}
END_TEST

START_TEST(lists_regular_files_in_byte_order) {
  const char *const made[] = {"b.lua", "a.lua", "Z.lua", "c.txt", "lua"};
  for (size_t i = 0; i < 5; i++) ck_assert(ts_file_write(in(made[i]), "", 0, problems));
  ck_assert(ts_folder_make(in("d.lua"), problems));
  char **names = ts_folder_list(arena, folder, ".lua", problems);
  ck_assert_ptr_nonnull(names);
  ck_assert_str_eq(names[0], "Z.lua");
  ck_assert_str_eq(names[1], "a.lua");
  ck_assert_str_eq(names[2], "b.lua");
  ck_assert_ptr_null(names[3]);
  ck_assert_ptr_null(ts_folder_list(arena, in("d.lua"), "", problems)[0]);
  ck_assert_ptr_null(ts_folder_list(arena, in("none"), "", problems));
  check_problem(1, "cannot be listed");
}
END_TEST

START_TEST(paths_are_joined_and_taken_apart) {
  ck_assert_str_eq(ts_path_join(arena, "a", "b"), "a/b");
  ck_assert_str_eq(ts_path_join(arena, "a/", "b"), "a/b");
  ck_assert_str_eq(ts_path_join(arena, "", "b"), "b");
  ck_assert_str_eq(ts_path_join(arena, "a", "/b"), "/b");
  ck_assert_str_eq(ts_path_folder(arena, "a/b/c"), "a/b");
  ck_assert_str_eq(ts_path_folder(arena, "/c"), "/");
  ck_assert_str_eq(ts_path_folder(arena, "c"), ".");
  ck_assert_str_eq(ts_path_name("a/b/c"), "c");
  ck_assert_str_eq(ts_path_name("c"), "c");
}
END_TEST

START_TEST(names_stay_inside_their_folder) {
  ck_assert(ts_folder_make(in("in/deep"), problems));
  ck_assert(ts_folder_make(in("inside-not"), problems));
  ck_assert(ts_file_write(in("secret"), "", 0, problems));
  ck_assert(ts_file_write(in("in/a.xml"), "", 0, problems));
  ck_assert_int_eq(symlink("../secret", in("in/link")), 0);
  ck_assert_int_eq(symlink("..", in("in/up")), 0);
  ck_assert_int_eq(symlink("a.xml", in("in/good")), 0);
  const struct {
    const char *name;
    bool inside;
  } cases[] = {
      {"a.xml", true},
      {"deep/../a.xml", true},
      {"good", true},
      {"missing.xml", true},
      {"none/missing.xml", true},
      {"../secret", false},
      {"link", false},
      {"up/secret", false},
      {"up/new", false},
      {"../inside-not", false},
      {"none/../../secret", false},
      {"/etc/passwd", false},
      {"deep/../../in/a.xml", true},
      {"..", false},
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
    ck_assert_msg(ts_path_inside(in("in"), cases[i].name) == cases[i].inside, "%s", cases[i].name);
  ck_assert(!ts_path_inside(in("none"), "a"));
}
END_TEST

START_TEST(data_is_found) {
  ck_assert(ts_folder_exists(ts_data_path(arena, "shared")));
  setenv("TANKSIDE_DATA", folder, 1);
  char *path = ts_data_path(arena, "rules");
  unsetenv("TANKSIDE_DATA");
  ck_assert_str_eq(path, in("rules"));
}
END_TEST

static bool fill(void *context, const char *temporary, ts_diagnostics *said) {
  const char *bytes = context;
  FILE *out = fopen(temporary, "w");
  fputs(bytes ? bytes : "half", out);
  fclose(out);
  if (!bytes) ts_report(said, TS_ERROR, folder, 0, "it went wrong");
  return bytes != NULL;
}

/* Three pieces; the second fails where it is told so. */
static bool in_pieces(void *context, int file) {
  bool fails = context != NULL;
  if (!ts_file_add(file, "one ", 4)) return false;
  if (fails) errno = EIO;
  return !fails && ts_file_add(file, "", 0) && ts_file_add(file, "two", 3);
}

START_TEST(what_comes_in_pieces_is_whole_or_not_there) {
  ck_assert(ts_file_fill(in("a"), in_pieces, NULL, problems));
  check_content(in("a"), "one two", 7);
  ck_assert(!ts_file_fill(in("a"), in_pieces, problems, problems));
  ck_assert(!ts_file_fill(in("b"), in_pieces, problems, problems));
  check_problem(2, "cannot be written: Input/output error");
  check_content(in("a"), "one two", 7);
  ck_assert_int_eq(scratch_count(folder), 1);
}
END_TEST

START_TEST(what_a_library_writes_is_whole_or_not_there) {
  ck_assert(ts_file_make(in("a"), fill, (char[]){"by it"}, problems));
  check_content(in("a"), "by it", 5);
  ck_assert(!ts_file_make(in("a"), fill, NULL, problems));
  check_problem(1, "it went wrong");
  check_content(in("a"), "by it", 5);
  ck_assert_int_eq(scratch_count(folder), 1);
}
END_TEST

START_TEST(a_file_is_read_piece_by_piece) {
  char piece[4];
  ck_assert(ts_file_write(in("a"), "abcdef", 6, problems));
  int file = ts_file_open(in("a"), 6, problems);
  ck_assert_int_ge(file, 0);
  ck_assert_int_eq(ts_file_next(file, piece, 4), 4);
  ck_assert_int_eq(ts_file_next(file, piece, 4), 2);
  ck_assert_mem_eq(piece, "ef", 2);
  ck_assert_int_eq(ts_file_next(file, piece, 4), 0);
  ts_file_close(file);
  ck_assert_int_eq(ts_file_open(in("a"), 5, problems), -1);
  check_problem(1, "is larger than 5 bytes");
}
END_TEST

static void join_path(void *context, const char *path) {
  ts_text_addf(context, "%s ", path + strlen(folder) + 1);
}

START_TEST(a_folder_is_walked_in_order_and_links_are_not) {
  ts_text seen = {0};
  ck_assert(ts_folder_make(in("b/c"), problems) && ts_folder_make(in("a"), problems));
  ck_assert(ts_file_write(in("b/c/x"), "", 0, problems) &&
            ts_file_write(in("b/x"), "", 0, problems));
  ck_assert(ts_file_write(in("a/xx"), "", 0, problems) &&
            ts_file_write(in("a/x"), "", 0, problems));
  ck_assert_int_eq(symlink("..", in("b/up")), 0);
  ck_assert(ts_folder_walk(folder, "x", join_path, &seen, problems));
  ck_assert_str_eq(seen.data, "a/x b/x b/c/x ");
  ts_text_release(&seen);
  ck_assert(!ts_folder_walk(in("nowhere"), "x", join_path, &seen, problems));
}
END_TEST

Suite *suite_file(void);
Suite *suite_file(void) {
  Suite *suite = suite_create("file");
  TCase *all = tcase_create("file");
  tcase_add_checked_fixture(all, set_up, tear_down);
  tcase_add_test(all, writes_and_reads_any_bytes);
  tcase_add_test(all, an_existing_file_keeps_its_permissions);
  tcase_add_test(all, a_failed_write_leaves_the_old_file);
  tcase_add_test(all, writing_refuses_what_is_not_a_file);
  tcase_add_test(all, reading_is_bounded);
  tcase_add_test(all, reading_refuses_what_is_not_a_file);
  tcase_add_test(all, folders_are_made_with_their_parents);
  tcase_add_test(all, lists_regular_files_in_byte_order);
  tcase_add_test(all, paths_are_joined_and_taken_apart);
  tcase_add_test(all, names_stay_inside_their_folder);
  tcase_add_test(all, data_is_found);
  tcase_add_test(all, what_comes_in_pieces_is_whole_or_not_there);
  tcase_add_test(all, what_a_library_writes_is_whole_or_not_there);
  tcase_add_test(all, a_file_is_read_piece_by_piece);
  tcase_add_test(all, a_folder_is_walked_in_order_and_links_are_not);
  suite_add_tcase(suite, all);
  return suite;
}
