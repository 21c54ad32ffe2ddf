/* base: arena, text, numbers, nearest names, digest, diagnostics. */
#include "base/arena.h"
#include "base/digest.h"
#include "base/pool.h"
#include "base/text.h"
#include "tankside/diagnostics.h"

#include <check.h>
#include <float.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- arena and text ------------------------------------------------------ */

START_TEST(arena_gives_zeroed_aligned_memory_of_any_size) {
  ts_arena *arena = ts_arena_new();
  size_t sizes[] = {0, 1, 7, 16, 4000, 9000, 40000, 1000000, 4, 24, 12, 8};
  enum { SIZES = sizeof sizes / sizeof *sizes };
  unsigned char *kept[SIZES * 50];
  int n = 0;
  for (int round = 0; round < 50; round++)
    for (size_t i = 0; i < SIZES; i++) {
      unsigned char *p = ts_arena_alloc(arena, sizes[i]);
      for (size_t unit = 1; unit <= _Alignof(max_align_t) && sizes[i] % unit == 0; unit *= 2)
        ck_assert_uint_eq((uintptr_t)p % unit, 0);
      for (size_t k = 0; k < sizes[i]; k += 997) ck_assert_uint_eq(p[k], 0);
      if (sizes[i] < 5000) memset(p, n & 0xFF, sizes[i]);
      kept[n++] = p;
    }
  for (int k = 0; k < n; k++) /* nobody wrote into anybody else's */
    if (sizes[k % SIZES] == 4000)
      for (size_t b = 0; b < 4000; b++) ck_assert_uint_eq(kept[k][b], k & 0xFF);
  ts_arena_free(arena);
}
END_TEST

START_TEST(arena_copies_text) {
  ts_arena *arena = ts_arena_new();
  ck_assert_ptr_null(ts_arena_copy(arena, NULL));
  ck_assert_str_eq(ts_arena_copy(arena, ""), "");
  ck_assert_str_eq(ts_arena_copy_n(arena, "depth of water", 5), "depth");
  ck_assert_str_eq(ts_arena_printf(arena, "%s/%d", "d1", 3), "d1/3");
  ts_arena_free(arena);
  ts_arena_free(NULL);
}
END_TEST

START_TEST(a_pool_keeps_what_is_equal_once) {
  enum { TEXTS = 5000 };
  ts_arena *arena = ts_arena_new();
  ts_pool *pool = ts_pool_new(arena);
  const char *kept[TEXTS];
  char text[32];
  for (int i = 0; i < TEXTS; i++) {
    snprintf(text, sizeof text, "%d m", i);
    kept[i] = ts_pool_text(pool, text);
    ck_assert_ptr_ne(kept[i], text);
  }
  for (int i = 0; i < TEXTS; i++) { /* each is still what it was, and found again */
    snprintf(text, sizeof text, "%d m", i);
    ck_assert_str_eq(kept[i], text);
    ck_assert_ptr_eq(ts_pool_text(pool, text), kept[i]);
  }
  ck_assert_ptr_null(ts_pool_text(pool, NULL));
  ck_assert_ptr_eq(ts_pool_keep(pool, NULL, 0), ts_pool_keep(pool, "", 0));
  ck_assert_ptr_ne(ts_pool_keep(pool, "ab", 2), ts_pool_keep(pool, "ab", 3)); /* another length */
  ck_assert_ptr_ne(ts_pool_keep(pool, "abcdefgh1", 9), ts_pool_keep(pool, "abcdefgh2", 9));
  const char *one = ts_pool_text(pool, "one");
  ck_assert_ptr_ne(ts_pool_keep(pool, "one", 4),
                   one); /* what is no text stands where anything may */
  ts_pool_free(pool);
  ck_assert_str_eq(kept[TEXTS - 1], "4999 m");
  ts_arena_free(arena);
}
END_TEST

START_TEST(text_grows) {
  ts_text text = {0};
  for (int i = 0; i < 1000; i++) ts_text_addf(&text, "%03d", i);
  ts_text_add(&text, NULL);
  ts_text_add_n(&text, "tail and more", 4);
  ck_assert_uint_eq(text.length, 3004);
  ck_assert_uint_eq(strlen(text.data), 3004);
  ck_assert_str_eq(text.data + 2997, "999tail");
  ck_assert_int_eq(strncmp(text.data, "000001002", 9), 0);
  ts_text_release(&text);
  ck_assert_ptr_null(text.data);
}
END_TEST

START_TEST(same_takes_null) {
  ck_assert(ts_same(NULL, NULL));
  ck_assert(!ts_same("a", NULL));
  ck_assert(!ts_same(NULL, "a"));
  ck_assert(ts_same("a", "a"));
  ck_assert(!ts_same("a", "b"));
}
END_TEST

START_TEST(nearest_name) {
  const char *const facts[] = {"temperature", "turbidity", "depth", "width", "free-chlorine", "ph"};
  const struct {
    const char *name, *nearest;
  } cases[] = {
      {"tempratur", "temperature"},
      {"temperature", "temperature"},
      {"dpeth", "depth"},
      {"depht", "depth"},
      {"widht", "width"},
      {"free_chlorin", "free-chlorine"},
      {"pH", "ph"},
      {"xy", NULL},
      {"pressure-of-air", NULL},
      {"", NULL},
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    const char *found = ts_nearest(cases[i].name, facts, sizeof facts / sizeof *facts);
    ck_assert_msg(ts_same(found, cases[i].nearest), "%s: %s", cases[i].name,
                  found ? found : "none");
  }
  ck_assert_ptr_null(ts_nearest("depth", NULL, 0));
}
END_TEST

/* ---- numbers -------------------------------------------------------------- */

START_TEST(number_reads) {
  const struct {
    const char *text;
    double value;
    const char *rest;
  } cases[] = {
      {"4.2 m", 4.2, " m"},
      {"-3.25", -3.25, ""},
      {"+7", 7, ""},
      {"1e-3 s", 0.001, " s"},
      {"3..4", 3, "..4"},
      {"3.8..4.5", 3.8, "..4.5"},
      {".5", 0.5, ""},
      {"5.", 5, "."},
      {"2E3x", 2000, "x"},
      {"3e", 3, "e"},
      {"3e+ m", 3, "e+ m"},
      {"0x10", 0, "x10"},
      {"1,5", 1, ",5"},
      {"10:40", 10, ":40"},
      {"2027-03-09", 2027, "-03-09"},
      {"1e-400", 0, ""},
      {"9007199254740993", 9007199254740992.0, ""},
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    double value = NAN;
    const char *rest = ts_number_read(cases[i].text, &value);
    ck_assert_msg(rest && ts_same(rest, cases[i].rest), "%s leaves %s", cases[i].text, rest);
    ck_assert_msg(value == cases[i].value, "%s gives %.17g", cases[i].text, value);
  }
}
END_TEST

START_TEST(number_refuses) {
  const char *const cases[] = {"",    "-",    ".",  "..5",   "e5",  "nan",
                               "inf", "-inf", " 5", "1e999", "+-1", "m"};
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    double value = 42;
    ck_assert_msg(ts_number_read(cases[i], &value) == NULL, "\"%s\" was read", cases[i]);
    ck_assert_double_eq(value, 42);
  }
}
END_TEST

START_TEST(number_reads_long_ones) {
  char text[2001];
  memset(text, '0', 2000);
  memcpy(text, "0.", 2);
  memcpy(text + 2000 - 4, "e+3", 4);
  text[5] = '7';
  double value = 0;
  ck_assert_str_eq(ts_number_read(text, &value), "");
  ck_assert_double_eq(value, 0.7);
}
END_TEST

/* A fixed sequence of numbers that looks random (xorshift). */
static uint64_t next_random(uint64_t *state) {
  *state ^= *state << 13;
  *state ^= *state >> 7;
  *state ^= *state << 17;
  return *state;
}

static void check_round_trip(double value) {
  char text[32];
  double again = 0;
  const char *rest = ts_number_read(ts_number_write(value, text, sizeof text), &again);
  ck_assert_msg(rest && !*rest && memcmp(&again, &value, sizeof value) == 0, "%.17g as %s", value,
                text);
}

START_TEST(number_round_trips) {
  const double edges[] = {0.0,
                          -0.0,
                          1,
                          0.1,
                          1.0 / 3,
                          5e-324,
                          DBL_MIN,
                          DBL_MAX,
                          -DBL_MAX,
                          DBL_TRUE_MIN * 3,
                          nextafter(DBL_MIN, 0),
                          1e15,
                          1e16,
                          123456789012345678.0,
                          0.30000000000000004};
  for (size_t i = 0; i < sizeof edges / sizeof *edges; i++) check_round_trip(edges[i]);
  uint64_t state = 88172645463325252u;
  for (int i = 0; i < 20000; i++) {
    uint64_t bits = next_random(&state);
    double value;
    memcpy(&value, &bits, sizeof value);
    if (isfinite(value)) check_round_trip(value);
    check_round_trip((double)(int64_t)(bits % 2000000) / 1000 - 1000);
  }
}
END_TEST

START_TEST(number_writes_the_shortest) {
  const struct {
    double value;
    const char *text;
  } cases[] = {
      {0.1, "0.1"},       {4.2, "4.2"},   {300, "300"},    {0.1 + 0.2, "0.30000000000000004"},
      {5e-324, "5e-324"}, {-2.5, "-2.5"}, {1e23, "1e+23"}, {273.15, "273.15"}};
  char text[32];
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
    ck_assert_str_eq(ts_number_write(cases[i].value, text, sizeof text), cases[i].text);
}
END_TEST

START_TEST(number_rounds) {
  const struct {
    double value;
    int digits;
    const char *text;
  } cases[] = {
      {3.14159, 3, "3.14"},
      {0.000123456, 2, "0.00012"},
      {1234567, 3, "1230000"},
      {100, 4, "100"},
      {0.1 + 0.2, 4, "0.3"},
      {-2.5, 4, "-2.5"},
      {0, 4, "0"},
      {-0.0, 4, "0"},
      {9.9999, 3, "10"},
      {99.96, 3, "100"},
      {0.00999, 1, "0.01"},
      {1, 1, "1"},
      {1e15, 4, "1000000000000000"},
      {26.5, 4, "26.5"},
      {18, 2, "18"},
      {1013.25, 4, "1013"},
  };
  char text[64];
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
    ck_assert_str_eq(ts_number_round(cases[i].value, cases[i].digits, text, sizeof text),
                     cases[i].text);
}
END_TEST

START_TEST(number_round_never_cuts_digits_off) {
  char text[8];
  double again = 0;
  ts_number_round(1e30, 3, text, sizeof text);
  ck_assert_ptr_nonnull(ts_number_read(text, &again));
  ck_assert_double_eq(again, 1e30);
}
END_TEST

/* Every byte at every place of a text, whole eights of which are looked at together. */
START_TEST(text_trouble_is_seen_wherever_it_stands) {
  enum { PLACES = 20 };
  for (int place = 0; place < PLACES; place++)
    for (int c = 1; c < 256; c++) {
      char text[] = "abcd ~efghijklmnopq!";
      text[place] = (char)c;
      const char *trouble = ts_text_trouble(text, PLACES);
      bool well = (c >= 0x20 && c <= 0x7E) || c == '\t' || c == '\n' || c == '\r';
      ck_assert_msg((trouble == NULL) == well, "byte %d at %d: %s", c, place,
                    trouble ? trouble : "well");
    }
  ck_assert_ptr_null(ts_text_trouble("abcdefg\xC3\xA9hijklmn", 16));
  ck_assert_ptr_null(ts_text_trouble("", 0));
}
END_TEST

/* ---- digest ---------------------------------------------------------------- */

/* The examples published with FIPS 180-4. */
START_TEST(digest_published_examples) {
  char out[65];
  ck_assert_str_eq(ts_digest("", 0, out),
                   "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  ck_assert_str_eq(ts_digest(NULL, 0, out),
                   "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  ck_assert_str_eq(ts_digest("abc", 3, out),
                   "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  const char *two_blocks = "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq";
  ck_assert_str_eq(ts_digest(two_blocks, strlen(two_blocks), out),
                   "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  char *million = malloc(1000000);
  memset(million, 'a', 1000000);
  ck_assert_str_eq(ts_digest(million, 1000000, out),
                   "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
  free(million);
}
END_TEST

/* ---- diagnostics ------------------------------------------------------------ */

static void check_printed(const ts_diagnostics *all, const char *expected) {
  char *printed = NULL;
  size_t size = 0;
  FILE *out = open_memstream(&printed, &size);
  ts_diagnostics_print(all, out);
  fclose(out);
  ck_assert_str_eq(printed, expected);
  free(printed);
}

START_TEST(diagnostics_order) {
  ts_diagnostics *all = ts_diagnostics_new();
  check_printed(all, "");
  ts_report(all, TS_ERROR, "b.xml", 9, "unknown fact \"%s\"", "tempratur");
  ts_report(all, TS_WARNING, "a.xml", 2, "wide");
  ts_report(all, TS_NOTE, "b.xml", 3, "first");
  ts_report(all, TS_ERROR, "b.xml", 0, "as a whole");
  ts_report(all, TS_ERROR, "b.xml", 3, "second");
  ts_report(all, TS_ERROR, NULL, 0, "no file");
  check_printed(all, "b.xml: error: as a whole\n"
                     "b.xml:3: note: first\n"
                     "b.xml:3: error: second\n"
                     "b.xml:9: error: unknown fact \"tempratur\"\n"
                     "a.xml:2: warning: wide\n"
                     "tankside: error: no file\n");
  ck_assert_uint_eq(ts_count(all, TS_ERROR), 4);
  ck_assert_uint_eq(ts_count(all, TS_WARNING), 1);
  ck_assert_uint_eq(ts_count(all, TS_NOTE), 1);
  ts_diagnostics_free(all);
  ts_diagnostics_free(NULL);
}
END_TEST

START_TEST(diagnostics_keep_each_once) {
  ts_diagnostics *all = ts_diagnostics_new();
  for (int round = 0; round < 2; round++)
    for (int i = 1; i <= 5000; i++) {
      ts_report(all, TS_ERROR, "a.xml", i, "same");
      ts_report(all, TS_WARNING, "a.xml", i, "same");
      ts_report(all, TS_ERROR, "a.xml", 1, "number %d", i);
    }
  ck_assert_uint_eq(ts_count(all, TS_ERROR), 10000);
  ck_assert_uint_eq(ts_count(all, TS_WARNING), 5000);
  ts_diagnostics_free(all);
}
END_TEST

START_TEST(diagnostics_stay_on_one_line) {
  ts_diagnostics *all = ts_diagnostics_new();
  ts_report(all, TS_ERROR, "a\nb.xml", 1, "bad \"%s\"", "x\ny\033[31m\x7f\xC2\x9Bz \xC3\xA9");
  check_printed(all, "a?b.xml:1: error: bad \"x?y?[31m???z \xC3\xA9\"\n");
  ts_diagnostics_free(all);
}
END_TEST

Suite *suite_base(void);
Suite *suite_base(void) {
  Suite *suite = suite_create("base");
  TCase *text = tcase_create("text"), *number = tcase_create("number"),
        *other = tcase_create("other");
  tcase_set_timeout(number, 60);
  tcase_add_test(text, arena_gives_zeroed_aligned_memory_of_any_size);
  tcase_add_test(text, arena_copies_text);
  tcase_add_test(text, a_pool_keeps_what_is_equal_once);
  tcase_add_test(text, text_grows);
  tcase_add_test(text, same_takes_null);
  tcase_add_test(text, nearest_name);
  tcase_add_test(text, text_trouble_is_seen_wherever_it_stands);
  tcase_add_test(number, number_reads);
  tcase_add_test(number, number_refuses);
  tcase_add_test(number, number_reads_long_ones);
  tcase_add_test(number, number_round_trips);
  tcase_add_test(number, number_writes_the_shortest);
  tcase_add_test(number, number_rounds);
  tcase_add_test(number, number_round_never_cuts_digits_off);
  tcase_add_test(other, digest_published_examples);
  tcase_add_test(other, diagnostics_order);
  tcase_add_test(other, diagnostics_keep_each_once);
  tcase_add_test(other, diagnostics_stay_on_one_line);
  suite_add_tcase(suite, text);
  suite_add_tcase(suite, number);
  suite_add_tcase(suite, other);
  return suite;
}
