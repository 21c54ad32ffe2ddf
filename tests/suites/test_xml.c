/* base/xml.h: lines of elements and attributes, what is refused, what is written. */
#include "base/file.h"
#include "base/xml.h"
#include "scratch.h"

#include <check.h>
#include <libxml/parser.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static ts_diagnostics *problems;

static void set_up(void) { problems = ts_diagnostics_new(); }
static void tear_down(void) { ts_diagnostics_free(problems); }

static ts_xml *read_text(const char *text) {
  return ts_xml_read(text, strlen(text), "t.xml", problems);
}

static void check_refused(const char *text, const char *words) {
  ts_diagnostics *found = ts_diagnostics_new();
  char *printed = NULL;
  size_t size = 0;
  ck_assert_msg(ts_xml_read(text, strlen(text), "t.xml", found) == NULL, "was read: %s", text);
  FILE *out = open_memstream(&printed, &size);
  ts_diagnostics_print(found, out);
  fclose(out);
  ck_assert_uint_gt(ts_count(found, TS_ERROR), 0);
  ck_assert_msg(strstr(printed, words) != NULL, "no \"%s\" in: %s", words, printed);
  free(printed);
  ts_diagnostics_free(found);
}

static xmlNode *child(xmlNode *parent, int number) {
  xmlNode *found = xmlFirstElementChild(parent);
  while (number-- > 0) found = xmlNextElementSibling(found);
  return found;
}

/* ---- lines ------------------------------------------------------------------- */

START_TEST(attributes_are_found_where_they_are_written) {
  ts_xml *xml = read_text("<?xml version=\"1.0\"?>\n"       /* 1 */
                          "<!-- <water\n"                   /* 2 */
                          " depth='9'/> -->\n"              /* 3 */
                          "<dossier>\n"                     /* 4 */
                          "  <water\n"                      /* 5 */
                          "    a = \"depth='1' >\"\n"       /* 6 */
                          "    depth\n"                     /* 7 */
                          "      =\n"                       /* 8 */
                          "      '4.2\n"                    /* 9 */
                          "       m'\n"                     /* 10 */
                          "    x:lang=\"en\" xmlns:x='u'\n" /* 11 */
                          "    depth-to=\"5 m\"\n"          /* 12 */
                          "  />\n"                          /* 13 */
                          "  <plant flow='1'/><plant\n"     /* 14 */
                          "  flow='2'></plant>\n"           /* 15 */
                          "</dossier>\n");
  ck_assert_ptr_nonnull(xml);
  xmlNode *root = ts_xml_root(xml), *water = child(root, 0);
  ck_assert_int_eq(ts_xml_line(xml, root), 4);
  ck_assert_int_eq(ts_xml_line(xml, water), 5);
  ck_assert_int_eq(ts_xml_attribute_line(xml, water, "a"), 6);
  ck_assert_int_eq(ts_xml_attribute_line(xml, water, "depth"), 7);
  ck_assert_int_eq(ts_xml_attribute_line(xml, water, "lang"), 11);
  ck_assert_int_eq(ts_xml_attribute_line(xml, water, "depth-to"), 12);
  ck_assert_int_eq(ts_xml_attribute_line(xml, water, "not-there"), 5);
  ck_assert_int_eq(ts_xml_line(xml, child(root, 1)), 14);
  ck_assert_int_eq(ts_xml_line(xml, child(root, 2)), 14);
  ck_assert_int_eq(ts_xml_attribute_line(xml, child(root, 2), "flow"), 15);
  ck_assert_ptr_eq(ts_xml_document(xml), root->doc);
  ts_xml_free(xml);
}
END_TEST

/* libxml2 alone stops counting at 65535. */
START_TEST(lines_are_right_in_long_files) {
  ts_text text = {0};
  ts_text_add(&text, "\xEF\xBB\xBF<dossier>\n");
  for (int i = 0; i < 70000; i++) ts_text_addf(&text, "<t\n a='%d'/>\n", i);
  ts_text_add(&text, "</dossier>\n");
  ts_xml *xml = ts_xml_read(text.data, text.length, "t.xml", problems);
  ck_assert_ptr_nonnull(xml);
  int i = 0;
  for (xmlNode *n = child(ts_xml_root(xml), 0); n; n = xmlNextElementSibling(n), i++) {
    ck_assert_int_eq(ts_xml_line(xml, n), 2 + 2 * i);
    ck_assert_int_eq(ts_xml_attribute_line(xml, n, "a"), 3 + 2 * i);
  }
  ck_assert_int_eq(i, 70000);
  ts_xml_free(xml);
  ts_text_release(&text);
}
END_TEST

START_TEST(other_encodings_still_have_element_lines) {
  ts_xml *xml = read_text("<?xml version='1.0' encoding='ISO-8859-1'?>\n<d t='caf\xE9'>\n"
                          "  <water depth='\xE9'/>\n</d>");
  ck_assert_ptr_nonnull(xml);
  xmlNode *root = ts_xml_root(xml);
  xmlChar *title = xmlGetProp(root, (const xmlChar *)"t");
  ck_assert_str_eq((char *)title, "caf\xC3\xA9");
  xmlFree(title);
  ck_assert_int_eq(ts_xml_line(xml, child(root, 0)), 3);
  ck_assert_int_eq(ts_xml_attribute_line(xml, child(root, 0), "depth"), 3);
  ts_xml_free(xml);
}
END_TEST

/* ---- refusals ------------------------------------------------------------------ */

START_TEST(a_doctype_is_refused) {
  check_refused("<?xml version='1.0'?>\n<!DOCTYPE d>\n<d/>", "t.xml:2: error: a DOCTYPE");
  check_refused("<!DOCTYPE d SYSTEM 'd.dtd'><d/>", "a DOCTYPE");
  check_refused("<!DOCTYPE d [<!ENTITY e 'x'>]><d>&e;</d>", "a DOCTYPE");
  check_refused("<!DOCTYPE d [<!ENTITY e SYSTEM 'file:///etc/passwd'>]><d>&e;</d>", "a DOCTYPE");
  check_refused("<!DOCTYPE d [<!ENTITY a 'aaaaaaaaaa'><!ENTITY b '&a;&a;&a;&a;'>"
                "<!ENTITY c '&b;&b;&b;'>]><d>&c;</d>",
                "a DOCTYPE");
}
END_TEST

START_TEST(what_is_not_well_formed_is_refused_with_its_line) {
  check_refused("", "not well-formed");
  check_refused("<d>\n<a>\n</d>", "t.xml:3: error: not well-formed XML: Opening and ending tag");
  check_refused("<d>\n<a b=c/></d>", "t.xml:2: error");
  check_refused("<d>\n\n&unknown;</d>", "t.xml:3: error");
  check_refused("<d>\xFF</d>", "t.xml:1: error");
  check_refused("<d>\n<x:a/></d>", "t.xml:2: error"); /* a prefix without a namespace */
  check_refused("<d a='1'\n a='2'/>", "t.xml:2: error");
}
END_TEST

START_TEST(every_error_is_reported) {
  ck_assert_ptr_null(read_text("<d>\n<a b='1' b='2'/>\n<c e='<'/>\n</d>"));
  ck_assert_uint_ge(ts_count(problems, TS_ERROR), 2);
}
END_TEST

START_TEST(nesting_without_end_is_refused) {
  ts_text text = {0};
  for (int i = 0; i < 100000; i++) ts_text_add(&text, "<a>");
  check_refused(text.data, "t.xml:1: error");
  ts_text_release(&text);
}
END_TEST

START_TEST(other_files_are_not_opened) {
  ts_xml *xml =
      read_text("<d xmlns:xi='http://www.w3.org/2001/XInclude'>"
                "<xi:include href='file:///etc/passwd' parse='text'/><![CDATA[a<b]]></d>");
  ck_assert_ptr_nonnull(xml);
  xmlNode *root = ts_xml_root(xml);
  ck_assert_str_eq((const char *)child(root, 0)->name, "include");
  ck_assert_ptr_null(child(root, 0)->children);
  ck_assert_int_eq(child(root, 0)->next->type, XML_TEXT_NODE);
  ts_xml_free(xml);
}
END_TEST

/* ---- writing --------------------------------------------------------------------- */

START_TEST(writes_indented) {
  ts_xml_out out = {0};
  ts_xml_begin(&out);
  ts_xml_start(&out, "assessment");
  ts_xml_attributef(&out, "format", "%d", 1);
  ts_xml_attribute(&out, "left-out", NULL);
  ts_xml_start(&out, "finding");
  ts_xml_end(&out);
  ts_xml_start(&out, "because");
  ts_xml_words(&out, "a ");
  ts_xml_start(&out, "em");
  ts_xml_words(&out, "15 s");
  ts_xml_end(&out);
  ts_xml_words(&out, " hold");
  ts_xml_end(&out);
  ts_xml_start(&out, "empty");
  ts_xml_words(&out, "");
  ts_xml_end(&out);
  ts_xml_end(&out);
  ck_assert_str_eq(out.text.data, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                                  "<assessment format=\"1\">\n"
                                  "  <finding/>\n"
                                  "  <because>a <em>15 s</em> hold</because>\n"
                                  "  <empty/>\n"
                                  "</assessment>\n");
  ts_text_release(&out.text);
}
END_TEST

/* What is written reads back the same, whatever the text was. */
static void check_survives(const char *words, const char *expected) {
  ts_xml_out out = {0};
  ts_xml_begin(&out);
  ts_xml_start(&out, "d");
  ts_xml_attribute(&out, "v", words);
  ts_xml_words(&out, words);
  ts_xml_end(&out);
  ts_xml *xml = ts_xml_read(out.text.data, out.text.length, "t.xml", problems);
  ck_assert_msg(xml != NULL, "not read: %s", out.text.data);
  xmlChar *value = xmlGetProp(ts_xml_root(xml), (const xmlChar *)"v");
  xmlChar *content = xmlNodeGetContent(ts_xml_root(xml));
  ck_assert_str_eq((char *)value, expected);
  ck_assert_str_eq((char *)content, expected);
  xmlFree(value);
  xmlFree(content);
  ts_xml_free(xml);
  ts_text_release(&out.text);
}

START_TEST(text_survives) {
  check_survives("a<b>&\"c'd\" ]]>", "a<b>&\"c'd\" ]]>");
  check_survives("line\nnext\ttab\rreturn", "line\nnext\ttab\rreturn");
  check_survives("\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x8C\x8A",
                 "\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x8C\x8A");
}
END_TEST

#define R "\xEF\xBF\xBD"
START_TEST(illegal_characters_are_replaced) {
  check_survives("a\x01"
                 "b\x1F",
                 "a" R "b" R);
  check_survives("\xFF"
                 "a\x80",
                 R "a" R);
  check_survives("\xC0\xAF", R R);             /* overlong */
  check_survives("\xED\xA0\x80", R R R);       /* a surrogate */
  check_survives("\xEF\xBF\xBF", R R R);       /* U+FFFF */
  check_survives("\xF4\x90\x80\x80", R R R R); /* above U+10FFFF */
  check_survives("a\xE2\x82", "a" R R);        /* cut short */
}
END_TEST

/* ---- element by element ------------------------------------------------------------ */

/* What a stream gives of a text, as "name@depth=id ..."; whether it came to its end. */
static bool stream_text(const char *text, ts_text *seen) {
  char folder[256], path[300];
  scratch_make(folder, sizeof folder);
  snprintf(path, sizeof path, "%s/t.xml", folder);
  ck_assert(ts_file_write(path, text, strlen(text), problems));
  ts_xml_stream *in = ts_xml_stream_open(path, 1 << 20, problems);
  ck_assert_ptr_nonnull(in);
  while (ts_xml_stream_next(in)) {
    const char *id = ts_xml_stream_value(in, "id"), *none = ts_xml_stream_value(in, "none");
    ts_text_addf(seen, "%s@%d=%s ", ts_xml_stream_name(in), ts_xml_stream_depth(in), id ? id : "-");
    ck_assert_ptr_null(none);
  }
  bool good = ts_xml_stream_close(in);
  scratch_remove(folder);
  return good;
}

START_TEST(a_stream_gives_each_element_once) {
  ts_text seen = {0};
  ck_assert(stream_text("<a id=\"1\"><!-- no --><b id=\"x &amp; y\">text<c/></b><b/></a>", &seen));
  ck_assert_str_eq(seen.data, "a@0=1 b@1=x & y c@2=- b@1=- ");
  ts_text_release(&seen);
}
END_TEST

START_TEST(a_stream_that_breaks_says_so) {
  static const char *const bad[] = {"<a><b></a>",
                                    "<a><b/>",
                                    "<a/><a/>",
                                    "<a b=\"1\" b=\"2\"/>",
                                    "<!DOCTYPE a [<!ENTITY e \"x\">]><a>&e;</a>",
                                    "no XML",
                                    ""};
  for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
    ts_text seen = {0};
    size_t before = ts_count(problems, TS_ERROR);
    ck_assert_msg(!stream_text(bad[i], &seen), "was read: %s", bad[i]);
    ck_assert_uint_gt(ts_count(problems, TS_ERROR), before);
    ts_text_release(&seen);
  }
}
END_TEST

/* A text of some megabytes, as elements with values, and children that were written apart. */
static void write_long(ts_xml_out *out) {
  ts_xml_begin(out);
  ts_xml_start(out, "all");
  for (int i = 0; i < 40000; i++) {
    ts_xml_start(out, "one");
    ts_xml_attributef(out, "text", "a value that takes up some room, so that %d of them are long",
                      i);
    if (i % 3 == 0) ts_xml_words(out, "said <&> meant");
    ts_xml_end(out);
    if (i % 1000 != 0) continue;
    ts_xml_out apart = ts_xml_apart(out);
    ts_xml_start(&apart, "two");
    ts_xml_end(&apart);
    ts_xml_append(out, &apart.text);
    ts_text_release(&apart.text);
  }
  ts_xml_end(out);
}

typedef struct {
  ts_text text;
  int pieces, last; /* the last that is taken; 0: all are */
} taken;

static bool take(void *context, const char *bytes, size_t length) {
  taken *t = context;
  ts_text_add_n(&t->text, bytes, length);
  return ++t->pieces != t->last;
}

START_TEST(what_is_handed_over_is_the_same_text) {
  ts_xml_out whole = {0};
  write_long(&whole);
  taken all = {.pieces = 0}, some = {.last = 2};
  ts_xml_out out = {.take = take, .context = &all};
  write_long(&out);
  ck_assert(ts_xml_finish(&out));
  ck_assert_int_gt(all.pieces, 1);
  ck_assert_uint_lt(out.text.capacity, whole.text.length); /* it was never all there */
  ck_assert_str_eq(all.text.data, whole.text.data);
  ts_text_release(&out.text);
  out = (ts_xml_out){.take = take, .context = &some};
  write_long(&out);
  ck_assert(!ts_xml_finish(&out));
  ck_assert_int_eq(some.pieces, 2); /* not asked again */
  ck_assert_mem_eq(some.text.data, whole.text.data, some.text.length);
  ts_text_release(&out.text);
  ts_text_release(&all.text);
  ts_text_release(&some.text);
  ts_text_release(&whole.text);
}
END_TEST

Suite *suite_xml(void);
Suite *suite_xml(void) {
  Suite *suite = suite_create("xml");
  TCase *all = tcase_create("xml");
  tcase_set_timeout(all, 60);
  tcase_add_checked_fixture(all, set_up, tear_down);
  tcase_add_test(all, attributes_are_found_where_they_are_written);
  tcase_add_test(all, lines_are_right_in_long_files);
  tcase_add_test(all, other_encodings_still_have_element_lines);
  tcase_add_test(all, a_doctype_is_refused);
  tcase_add_test(all, what_is_not_well_formed_is_refused_with_its_line);
  tcase_add_test(all, every_error_is_reported);
  tcase_add_test(all, nesting_without_end_is_refused);
  tcase_add_test(all, other_files_are_not_opened);
  tcase_add_test(all, writes_indented);
  tcase_add_test(all, text_survives);
  tcase_add_test(all, illegal_characters_are_replaced);
  tcase_add_test(all, what_is_handed_over_is_the_same_text);
  tcase_add_test(all, a_stream_gives_each_element_once);
  tcase_add_test(all, a_stream_that_breaks_says_so);
  suite_add_tcase(suite, all);
  return suite;
}
