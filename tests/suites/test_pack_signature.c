/* pack_signature: the file with a pack's signatures. Only the form that is written is read, every
 * edit by lot is found, and what the pack is now is held against what was signed. */
#include "document/pack_signature.h"
#include "draw.h"
#include "said.h"
#include "signer.h"

#include <check.h>
#include <ctype.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_pack_signature(void);

enum { EDITS = 300, EDITS_SHORT = 30, FILES = 3 };

static ts_arena *arena;
static ts_diagnostics *problems;
static ts_pack_line lines[FILES];
static ts_pack_list pack = {"quay", lines, FILES};
static char *whole; /* signed by one */
static size_t whole_length;
static size_t seen;

static const char *digest_of(char digit) {
  char *text = ts_arena_alloc(arena, 65);
  memset(text, digit, 64);
  text[64] = '\0';
  return text;
}

static void begin(void) {
  ts_text text = {0};
  arena = ts_arena_new();
  problems = ts_diagnostics_new();
  lines[0] = (ts_pack_line){"01-quay.lua", digest_of('a')};
  lines[1] = (ts_pack_line){"mud & <silt>.lua", digest_of('b')};
  lines[2] = (ts_pack_line){"tide.lua", digest_of('c')};
  ts_pack_list_text(&pack, &text);
  ts_signer signer = signer_make(arena);
  ck_assert(
      ts_sign("pack", text.data, text.length, "s.xml", &signer, &whole, &whole_length, problems));
  ts_text_release(&text);
}

static void end(void) {
  free(whole);
  ts_diagnostics_free(problems);
  ts_arena_free(arena);
}

static void count(void *context, const ts_signature *one) {
  (void)context;
  ck_assert_str_eq(one->who, "CN = I. Marsh");
  ck_assert_str_eq(one->as, "officer");
  ck_assert_str_eq(one->on, "2027-03-08");
  seen++;
}

static bool holds(const char *text, size_t length, const ts_pack_list *is) {
  ts_pack_signed file = {"s.xml", text, length};
  seen = 0;
  return ts_pack_signed_holds(&file, is, "quay", count, NULL, problems);
}

START_TEST(what_was_signed_holds) {
  ck_assert_msg(holds(whole, whole_length, &pack), "%s", said_of(problems, arena));
  ck_assert_uint_eq(seen, 1);
  ck_assert_uint_eq(ts_count(problems, TS_ERROR), 0);
}
END_TEST

/* A letter or digit becomes another: nowhere does that leave the meaning. */
START_TEST(every_edit_is_found) {
  draws luck = {20270308};
  size_t edits = getenv("TANKSIDE_TEST_SHORT") ? EDITS_SHORT : EDITS;
  for (size_t i = 0; i < edits; i++) {
    char *copy = ts_arena_copy_n(arena, whole, whole_length);
    size_t at = draw_below(&luck, whole_length);
    while (!isalnum((unsigned char)copy[at])) at = (at + 1) % whole_length;
    char was = copy[at];
    do copy[at] = "0123456789abcdefXYZ"[draw_below(&luck, 19)];
    while (copy[at] == was);
    ts_diagnostics_free(problems); /* what was said before is not said again */
    problems = ts_diagnostics_new();
    ck_assert_msg(!holds(copy, whole_length, &pack), "byte %zu, %c for %c", at, copy[at], was);
    ck_assert_uint_gt(ts_count(problems, TS_ERROR), 0);
  }
}
END_TEST

/* The pack is now another: each file is named, the others are not. */
START_TEST(what_differs_is_named) {
  ts_pack_line now[] = {{"01-quay.lua", digest_of('d')},
                        {"mud & <silt>.lua", digest_of('b')},
                        {"new.lua", digest_of('e')}};
  ts_pack_list is = {"quay", now, 3};
  ts_pack_signed file = {"s.xml", whole, whole_length};
  size_t differences;
  ck_assert(ts_pack_signed_differs(&file, &is, "here/quay", &differences, problems));
  ck_assert_uint_eq(differences, 3);
  const char *said = said_of(problems, arena);
  ck_assert_ptr_nonnull(strstr(said, "here/quay/01-quay.lua: error: was altered"));
  ck_assert_ptr_nonnull(strstr(said, "here/quay/new.lua: error: was added"));
  ck_assert_ptr_nonnull(strstr(said, "here/quay/tide.lua: error: went missing"));
  ck_assert_ptr_null(strstr(said, "silt"));
  ck_assert(!holds(whole, whole_length, &is));
}
END_TEST

START_TEST(a_pack_of_another_name_is_another) {
  ts_pack_list is = {"mole", lines, FILES};
  ck_assert(!holds(whole, whole_length, &is));
  ck_assert_ptr_nonnull(strstr(said_of(problems, arena), "signed for the pack \"quay\""));
}
END_TEST

/* `with` in the place of `what`, which is there. */
static void refused(const char *what, const char *with, const char *message) {
  const char *at = strstr(whole, what);
  ck_assert_ptr_nonnull(at);
  ts_text text = {0};
  ts_text_add_n(&text, whole, (size_t)(at - whole));
  ts_text_add(&text, with);
  ts_text_add(&text, at + strlen(what));
  ts_pack_signed file = {"s.xml", text.data, text.length};
  size_t differences;
  bool good = ts_pack_signed_differs(&file, &pack, "quay", &differences, problems);
  const char *said = said_of(problems, arena);
  ck_assert_msg(!good && strstr(said, message), "%s for %s: %s", with, what, said);
  ck_assert(!holds(text.data, text.length, &pack));
  ts_text_release(&text);
}

START_TEST(another_form_is_refused) {
  refused("tide.lua", "01-quay.lua", "\"01-quay.lua\" is there twice or out of order");
  refused("tide.lua", "../tide.lua", "\"../tide.lua\" is no name of a rule file");
  refused("tide.lua", "a\\tide.lua", "is no name of a rule file");
  refused("tide.lua", "/tide.lua", "is no name of a rule file");
  refused("tide.lua", ".lua", "is no name of a rule file");
  refused("sha256=\"c", "sha256=\"C", "is no SHA-256");
  refused("sha256=\"c", "sha256=\"", "is no SHA-256");
  refused("<file name", "<rule name", "s.xml:");
  refused("<file name=\"tide", "<note/><file name=\"tide", "expected <file> or a signature");
  refused("<file name=\"tide", "<!-- --><file name=\"tide", "not written as");
  refused("<file name=\"tide", " <file name=\"tide", "not written as");
  refused("<file name=\"tide", "<file more=\"\" name=\"tide", "not written as");
  refused("<file name=\"tide", "<file xmlns=\"urn:x\" name=\"tide", "not written as");
  refused("name=\"quay\"", "name=\"quay\" more=\"\"", "not written as");
  refused("tide.lua", "t&#105;de.lua", "not written as");
  refused("</Signature>", "</Signature> ", "something else than signatures");
  refused("</Signature>", "</Signature><!-- -->", "something else than signatures");
  refused("</Signature>", "</Signature><?x y?>", "something else than signatures");
  refused("</Signature>", "</Signature><file name=\"z.lua\" sha256=\"\"/>", "something else");
  refused("</pack>", "</pack><!-- -->", "beside the root");
  refused("<pack ", "<!-- --><pack ", "beside the root");
  refused("<pack ", "<!DOCTYPE pack><pack ", "DOCTYPE");
  refused("format=\"1\"", "format=\"2\"", "no <pack> of format 1");
}
END_TEST

START_TEST(nobody_signed_it) {
  ts_text text = {0};
  ts_pack_list_text(&pack, &text);
  ck_assert(!holds(text.data, text.length, &pack));
  ck_assert_ptr_nonnull(strstr(said_of(problems, arena), "nobody signed it"));
  ts_text_release(&text);
}
END_TEST

/* An assessment is not taken for a pack, nor a pack for an assessment. */
START_TEST(one_kind_is_not_the_other) {
  ck_assert_uint_eq(
      ts_signatures("assessment", whole, whole_length, "s.xml", NULL, NULL, count, NULL, problems),
      0);
  ck_assert_uint_eq(ts_count(problems, TS_ERROR), 1);
}
END_TEST

Suite *suite_pack_signature(void) {
  Suite *suite = suite_create("pack_signature");
  TCase *all = tcase_create("pack signature");
  tcase_add_checked_fixture(all, begin, end);
  tcase_add_test(all, what_was_signed_holds);
  tcase_add_test(all, every_edit_is_found);
  tcase_add_test(all, what_differs_is_named);
  tcase_add_test(all, a_pack_of_another_name_is_another);
  tcase_add_test(all, another_form_is_refused);
  tcase_add_test(all, nobody_signed_it);
  tcase_add_test(all, one_kind_is_not_the_other);
  tcase_set_timeout(all, 120);
  suite_add_tcase(suite, all);
  return suite;
}
