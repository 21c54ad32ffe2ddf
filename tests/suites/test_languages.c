/* languages: every list of words is complete, no fixed English text is left on a translated
 * paper, and texts, days and decimal marks are those of the language. */
#include "base/arena.h"
#include "base/file.h"
#include "base/text.h"
#include "base/xml.h"
#include "tankside/document.h"
#include "template_files.h"

#include <check.h>
#include <libxml/hash.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_languages(void);

static const char *const translated[] = {"fr", "de", "es"};
enum { TRANSLATED = sizeof translated / sizeof *translated };

static ts_arena *arena;
static ts_diagnostics *problems;

static void setup(void) {
  arena = ts_arena_new();
  problems = ts_diagnostics_new();
}

static void teardown(void) {
  ts_diagnostics_free(problems);
  ts_arena_free(arena);
}

static const char *file_text(const char *path, size_t *length) {
  char *text = ts_file_read(arena, path, 1 << 22, length, problems);
  ck_assert_msg(text != NULL, "no %s", path);
  return text;
}

static ts_xml *list(const char *kind, const char *language) {
  return template_xml(arena, ts_arena_printf(arena, "%s-%s.xml", kind, language));
}

static const char *attribute(const xmlNode *node, const char *name) {
  return attribute_of(arena, node, name);
}

static const char *content(const xmlNode *node) { return content_of(arena, node); }

/* ---- the lists ---------------------------------------------------------------------- */

static const char *key_of(const xmlNode *node) {
  const char *id = attribute(node, "id");
  return id ? id : attribute(node, "name");
}

/* The entry of the same kind and name; <date> and its parts have none. */
static const xmlNode *same_entry(const ts_xml *words, const xmlNode *like) {
  const char *key = key_of(like);
  const char *named = xmlHasProp(like, BAD_CAST "id") ? "id" : "name";
  for (const xmlNode *n = ts_xml_root(words)->children; n; n = n->next)
    if (n->type == XML_ELEMENT_NODE && xmlStrEqual(n->name, like->name) &&
        attribute_is(n, named, key))
      return n;
  return NULL;
}

static bool is_entry(const xmlNode *node) {
  return node->type == XML_ELEMENT_NODE && key_of(node) != NULL;
}

/* What only the terminal prints is in English. */
static bool is_for_the_terminal(const char *key) { return strncmp(key, "explain-", 8) == 0; }

/* How often {n} or {m} stands in a text. */
static int marks(const char *text) {
  int n = 0;
  for (; text && *text; text++) n += !strncmp(text, "{n}", 3) || !strncmp(text, "{m}", 3);
  return n;
}

static void check_text(const char *language, const char *key, const char *english,
                       const char *other) {
  bool empty = !english || !*english, empty_too = !other || !*other;
  ck_assert_msg(empty == empty_too, "%s: \"%s\" is empty on one side", language, key);
  ck_assert_msg(marks(english) == marks(other), "%s: \"%s\" has other places for numbers", language,
                key);
}

static void check_entry(const char *language, const xmlNode *english, const xmlNode *other) {
  static const char *const attributes[] = {"one", "many", "none", "title"};
  static const char *const kept[] = {"width", "number", "forms", "for"};
  const char *key = key_of(english);
  check_text(language, key, content(english), content(other));
  for (size_t i = 0; i < sizeof attributes / sizeof *attributes; i++)
    check_text(language, key, attribute(english, attributes[i]), attribute(other, attributes[i]));
  for (size_t i = 0; i < sizeof kept / sizeof *kept; i++)
    ck_assert_msg(ts_same(attribute(english, kept[i]), attribute(other, kept[i])),
                  "%s: \"%s\" has another %s", language, key, kept[i]);
}

START_TEST(every_list_has_the_words_of_the_english_one_and_no_others) {
  ts_xml *english = list("words", "en-GB"), *other = list("words", translated[_i]);
  int entries = 0;
  for (const xmlNode *n = ts_xml_root(english)->children; n; n = n->next) {
    if (!is_entry(n) || is_for_the_terminal(key_of(n))) continue;
    const xmlNode *same = same_entry(other, n);
    ck_assert_msg(same != NULL, "words-%s.xml lacks <%s> \"%s\"", translated[_i],
                  (const char *)n->name, key_of(n));
    check_entry(translated[_i], n, same);
    entries++;
  }
  ck_assert_int_gt(entries, 400);
  for (const xmlNode *n = ts_xml_root(other)->children; n; n = n->next)
    if (is_entry(n))
      ck_assert_msg(same_entry(english, n) != NULL, "words-%s.xml has \"%s\", which nothing prints",
                    translated[_i], key_of(n));
  ts_xml_free(english);
  ts_xml_free(other);
}
END_TEST

START_TEST(american_english_says_only_what_differs) {
  ts_xml *english = list("words", "en-GB"), *american = list("words", "en-US");
  for (const xmlNode *n = ts_xml_root(american)->children; n; n = n->next) {
    if (!is_entry(n)) continue;
    const xmlNode *same = same_entry(english, n);
    ck_assert_msg(same != NULL, "words-en-US.xml has \"%s\", which nothing prints", key_of(n));
    ck_assert_msg(!ts_same(content(same), content(n)), "\"%s\" does not differ", key_of(n));
  }
  ts_xml_free(english);
  ts_xml_free(american);
}
END_TEST

/* The files of terms that a list of words names, one after the other; NULL past the last. */
static const xmlNode *terms_file(const xmlNode *node) {
  while (node && !(node->type == XML_ELEMENT_NODE && xmlStrEqual(node->name, BAD_CAST "terms")))
    node = node->next;
  return node;
}

/* "{n}" of a text, from `from` on; its length goes to `length`. */
static const char *next_place(const char *from, size_t *length) {
  const char *place = strchr(from, '{');
  *length = place ? strcspn(place, "}") + 1 : 0;
  return place;
}

static int times(const char *text, const char *piece, size_t length) {
  int n = 0;
  for (; (text = strchr(text, '{')); text++) n += strncmp(text, piece, length) == 0;
  return n;
}

static int places(const char *text) { return times(text, "{", 1); }

/* Values go to the same places, in whatever order the language wants them. */
static void check_places(const char *file, const char *of, const char *text) {
  size_t length;
  ck_assert_msg(places(of) == places(text), "%s: \"%s\" has other places", file, text);
  for (const char *at = of; (at = next_place(at, &length)); at += length)
    ck_assert_msg(times(of, at, length) == times(text, at, length), "%s: \"%s\" has other places",
                  file, text);
}

/* A value is what stands between the words around its place: they are not such as a value has. */
static void check_between(const char *file, const char *of) {
  static const char *const in_values[] = {"", " ", " or ", " .. ", "-"};
  size_t length;
  for (const char *at = of; (at = next_place(at, &length));) {
    at += length;
    const char *next = strchr(at, '{');
    for (size_t i = 0; next && i < sizeof in_values / sizeof *in_values; i++)
      ck_assert_msg((size_t)(next - at) != strlen(in_values[i]) ||
                        strncmp(at, in_values[i], strlen(in_values[i])) != 0,
                    "%s: places of \"%s\" cannot be told apart", file, of);
  }
}

static void check_term(const char *file, const xmlNode *first, const xmlNode *other) {
  const char *of = attribute(other, "of"), *text = content(other);
  ck_assert_msg(ts_same(attribute(first, "of"), of), "%s parts at \"%s\"", file, of);
  ck_assert_msg(*text && !(strlen(text) > 20 && ts_same(text, of)), "%s: \"%s\" is not translated",
                file, of);
  check_places(file, of, text);
  check_between(file, of);
}

/* How many there are; each is put among those seen, and may not be there yet. */
static int check_terms(const char *first_file, const char *other_file, xmlHashTable *seen) {
  ts_xml *first = template_xml(arena, first_file), *other = template_xml(arena, other_file);
  const xmlNode *a = ts_xml_root(first)->children, *b = ts_xml_root(other)->children;
  int terms = 0;
  for (; a && b; a = a->next, b = b->next) {
    if (a->type != XML_ELEMENT_NODE) continue;
    check_term(other_file, a, b);
    ck_assert_msg(xmlHashAddEntry(seen, BAD_CAST attribute(b, "of"), arena) == 0,
                  "%s has \"%s\" twice", other_file, attribute(b, "of"));
    terms++;
  }
  ck_assert_msg(!a && !b, "%s is longer or shorter than %s", other_file, first_file);
  ts_xml_free(first);
  ts_xml_free(other);
  return terms;
}

/* Texts by what they are in English: the same ones in every language, each once, none empty.
 * Whether anything still says them is asked by tests/source_check.py. */
START_TEST(every_list_of_terms_has_the_same_texts) {
  ts_xml *first = list("words", translated[0]), *other = list("words", translated[_i]);
  const xmlNode *a = terms_file(ts_xml_root(first)->children);
  const xmlNode *b = terms_file(ts_xml_root(other)->children);
  xmlHashTable *seen = xmlHashCreate(4096);
  int terms = 0;
  for (; a && b; a = terms_file(a->next), b = terms_file(b->next))
    terms += check_terms(attribute(a, "file"), attribute(b, "file"), seen);
  ck_assert(!a && !b);
  ck_assert_int_gt(terms, 2500);
  xmlHashFree(seen, NULL);
  ts_xml_free(first);
  ts_xml_free(other);
}
END_TEST

/* ---- papers -------------------------------------------------------------------------- */

static const char *in_language(const char *xml, size_t length, const char *language, size_t *size) {
  char *out = NULL;
  ck_assert_msg(ts_assessment_in_language(xml, length, language, &out, size, problems),
                "not put into %s", language);
  const char *copy = ts_arena_copy_n(arena, out, *size);
  free(out);
  return copy;
}

static const char *sample(size_t *length) {
  return file_text(SOURCE_FOLDER "/tests/assessments/sample.xml", length);
}

static const char *page(const char *xml, size_t length, const ts_sheet *sheet) {
  char *html = NULL;
  size_t size = 0;
  ck_assert_msg(ts_sheet_render(xml, length, sheet->name, sheet->per_task ? "d1t1" : NULL, NULL,
                                &html, &size, problems),
                "no sheet %s", sheet->name);
  const char *copy = ts_arena_copy_n(arena, html, size);
  free(html);
  return copy;
}

/* A text of more than twelve characters that the other list says otherwise. */
static const char *english_only(const xmlNode *word, const ts_xml *other) {
  const xmlNode *same = same_entry(other, word);
  const char *text = content(word);
  return same && strlen(text) > 12 && !ts_same(text, content(same)) ? text : NULL;
}

/* What the assessment itself says (a rule, a dossier) may be the same words. */
static void no_english_in(const char *html, const ts_xml *english, const ts_xml *other,
                          const char *sheet, const char *xml) {
  for (const xmlNode *n = ts_xml_root(english)->children; n; n = n->next) {
    const char *text = is_entry(n) ? english_only(n, other) : NULL;
    if (text && strstr(html, text))
      ck_assert_msg(strstr(xml, text), "sheet %s still says \"%s\"", sheet, text);
  }
}

START_TEST(no_fixed_text_stays_english_on_a_translated_paper) {
  ts_xml *english = list("words", "en-GB"), *other = list("words", translated[_i]);
  size_t length = 0, size = 0;
  const char *xml = sample(&length);
  const char *foreign = in_language(xml, length, translated[_i], &size);
  /* in short, each language looks at every third sheet, another than the others do */
  int step = getenv("TANKSIDE_TEST_SHORT") ? TRANSLATED : 1, at = TRANSLATED - _i;
  for (const ts_sheet *sheet = ts_sheets(); sheet->name; sheet++, at++)
    if (at % step == 0) no_english_in(page(foreign, size, sheet), english, other, sheet->name, xml);
  /* The same search finds plenty where nothing was translated. */
  ck_assert_ptr_nonnull(
      strstr(page(xml, length, ts_sheet_find("task")), ">What can hurt you here<"));
  ts_xml_free(english);
  ts_xml_free(other);
}
END_TEST

/* ---- texts, days, numbers ----------------------------------------------------------------- */

static const char small[] =
    "<assessment format=\"1\" tankside=\"0.1.0\"><production title=\"performer\" "
    "on=\"2027-03-01\"/>"
    "<schedule><day path=\"a\" date=\"2000-01-01\" words=\"x\"><task path=\"t\" title=\"High\">"
    "<immersion path=\"i\" person=\"p\" role=\"performer\" depth=\"1.5..2.25 m\" time=\"10..12 "
    "s\"/>"
    "</task></day><day path=\"b\" date=\"2024-02-29\" words=\"x\"/>"
    "<day path=\"c\" date=\"2027-03-01\" words=\"x\"/></schedule>"
    "<findings><finding rule=\"place.rescue-depth\" title=\"Deeper than a rescuer reaches\""
    " harm=\"performer: nobody can bring them up\" word=\"hazard\">"
    "<because>3.5 m, table 4.2.1, step 7. 12 of .5</because></finding>"
    "<finding rule=\"site.own\" title=\"A rule of the site\" word=\"hazard\"/></findings>"
    "<controls><control ref=\"own\" title=\"A rope\"><say>Tie 1.5 m of "
    "it.</say></control></controls>"
    "</assessment>";

static void says(const char *xml, const char *text) {
  ck_assert_msg(strstr(xml, text) != NULL, "no %s in %s", text, xml);
}

START_TEST(days_are_those_of_the_calendar_in_the_words_of_the_language) {
  size_t size = 0;
  const char *fr = in_language(small, sizeof small - 1, "fr", &size);
  says(fr, "words=\"samedi 1er janvier 2000\"");
  says(fr, "words=\"jeudi 29 février 2024\"");
  const char *de = in_language(small, sizeof small - 1, "de", &size);
  says(de, "words=\"Donnerstag, 29. Februar 2024\"");
  says(de, "words=\"Montag, 1. März 2027\"");
  says(in_language(small, sizeof small - 1, "es", &size), "words=\"lunes, 1 de marzo de 2027\"");
  says(in_language(small, sizeof small - 1, "en-US", &size), "words=\"Saturday, January 1, 2000\"");
}
END_TEST

START_TEST(decimal_marks_are_exchanged_in_numbers_only) {
  size_t size = 0;
  const char *de = in_language(small, sizeof small - 1, "de", &size);
  says(de, "depth=\"1,5..2,25 m\"");
  says(de, "time=\"10..12 s\"");
  says(de, ">3,5 m, table 4.2.1, step 7. 12 of .5<");
  says(de, ">Tie 1,5 m of it.<");
  says(de, "tankside=\"0.1.0\"");
  says(in_language(small, sizeof small - 1, "en-US", &size), "depth=\"1.5..2.25 m\"");
}
END_TEST

START_TEST(texts_with_a_translation_change_and_all_others_stay_and_are_listed) {
  size_t size = 0;
  const char *es = in_language(small, sizeof small - 1, "es", &size);
  says(es, "title=\"Más profundo de lo que alcanza un rescatador\"");
  says(es, "title=\"A rule of the site\"");
  says(es, "<not-translated><rule id=\"place.rescue-depth\"/><rule id=\"site.own\"/><control "
           "ref=\"own\"/></not-translated>");
  /* what a dossier says, and the words sheets choose by */
  says(es,
       "<production title=\"performer\" on=\"2027-03-01\" on-words=\"lunes, 1 de marzo de 2027\"");
  says(es, "title=\"High\"");
  says(es, "role=\"performer\"");
  says(es, "word=\"hazard\"");
}
END_TEST

/* What the core writes as an English sentence stands beside it in parts. */
static const char spoken[] =
    "<assessment format=\"1\" tankside=\"0.1.0\"><matrix><band id=\"high\" word=\"High\"/></matrix>"
    "<findings><finding rule=\"r\" title=\"t\" word=\"stop\">"
    "<when case=\"worst\" enough=\"yes\" text=\"depth at least 3.5 m\" fact=\"depth\""
    " where=\"from\" low=\"3.5 m\"/>"
    "<when case=\"best\" enough=\"yes\" text=\"depth (3 m) &lt; 4.5 m\"/>"
    "<because case=\"worst\" form=\"found fit by: {person.medical}, {age} before the day; within "
    "12 "
    "months is asked for\" withheld=\"found fit by: (withheld), (withheld) before the day; within "
    "12 "
    "months is asked for\">found fit by: diving-doctor, 1.5 d before the day; within 12 months is "
    "asked for</because><because case=\"best\" form=\"{n} of ours\">2.5 m of ours</because>"
    "<margin path=\"p/a\" title=\"deck light\" fact=\"light\" entity=\"deck\" now=\"14 h\""
    " edge=\"18.5 h\" side=\"up\" words=\"high 12 from 18.5 h; now 14 h; 4.5 h away\""
    " where=\"from\" then-band=\"high\" then-score=\"12\" away=\"4.5 h\"/>"
    "<margin path=\"p/b\" title=\"depth\" fact=\"depth\" now=\"9..11 m\" edge=\"10 m\" "
    "side=\"inside\""
    " words=\"possible stop only above 10 m; may be 9..11 m\" where=\"above\""
    " then-state=\"possible-stop\"/>"
    "<margin path=\"p/c\" title=\"depth\" words=\"high from 2.5 m\"/>"
    "<way kind=\"move\" path=\"p/d\" title=\"wet\" fact=\"wet\" to=\"no\" words=\"wet: no; now "
    "yes\""
    " where=\"is\" goal=\"no\" now=\"yes\" then=\"possible stop\" state=\"possible\">"
    "<worse title=\"t\" subject-label=\"Hal in \xe2\x80\x9cx\xe2\x80\x9d\" now=\"not found\" "
    "then=\"high 12\""
    " words=\"new: t, Hal in x: high 12\" then-band=\"high\" then-score=\"12\"/></way>"
    "</finding></findings></assessment>";

START_TEST(sentences_are_made_of_their_parts_in_the_language) {
  size_t size = 0;
  const char *de = in_language(spoken, sizeof spoken - 1, "de", &size);
  says(de, "words=\"hoch 12 ab 18,5 h; jetzt 14 h; Abstand 4,5 h\"");
  says(de, "words=\"m\xc3\xb6glicher Halt erst \xc3\xbc"
           "ber 10 m; kann sein: 9..11 m\"");
  says(de, "words=\"high from 2,5 m\""); /* an older assessment */
  says(de, " mindestens 3,5 m\"");
  says(de, "text=\"Tiefe (3 m) &lt; 4,5 m\"");
  says(de, ": nein; jetzt ja\"");
  says(de, "then=\"m\xc3\xb6glicher Halt\"");
  says(de, "words=\"neu: t, Hal in \xe2\x80\x9cx\xe2\x80\x9d: hoch 12\"");
  const char *us = in_language(spoken, sizeof spoken - 1, "en-US", &size);
  says(us, "title=\"deck light\"");
  says(us, "words=\"high 12 from 18.5 h; now 14 h; 4.5 h away\"");
  says(us, "words=\"wet: no; now yes\"");
}
END_TEST

START_TEST(values_of_a_reason_go_to_their_places_in_the_translation) {
  size_t size = 0;
  const char *de = in_language(spoken, sizeof spoken - 1, "de", &size);
  says(de, ">tauglich befunden durch: Taucherarzt, 1,5 d vor dem Tag; binnen 12 Monaten wird");
  says(de,
       "withheld=\"tauglich befunden durch: (nicht mitgeteilt), (nicht mitgeteilt) vor dem Tag");
  says(de, ">2,5 m of ours<");
  const char *us = in_language(spoken, sizeof spoken - 1, "en-US", &size);
  says(us, ">found fit by: diving-doctor, 1.5 d before the day; within 12 months is asked for<");
}
END_TEST

/* What the core says in fixed patterns: what was decided, what a control changes, values. */
static const char patterned[] =
    "<assessment format=\"1\" tankside=\"0.1.0\"><subjects><subject path=\"s/water\" "
    "entity=\"water\" label=\"water of Head of the Lake\">"
    "<fact name=\"recall-signals\" text=\"speaker, lights\"/><fact name=\"a\" text=\"no\"/>"
    "<fact name=\"b\" text=\"36.5 years\"/><fact name=\"c\" text=\"4 per h\"/></subject></subjects>"
    "<findings><finding rule=\"r\" title=\"t\" word=\"hazard\">"
    "<because case=\"worst\" form=\"{i.breath_hold} of ours\">latex and 3 s</because>"
    "<because case=\"best\">no such word</because>"
    "<rests path=\"p\" title=\"allergies\" text=\"latex\" sees=\"confidential\"/>"
    "<condition text=\"congested: yes (not known)\" case=\"worst\"/>"
    "<condition text=\"medical on (20 February 2026 .. 1 March 2026) &gt; 1.5 d\" case=\"best\" "
    "withheld=\"medical on ((withheld)) &gt; 1.5 d\"/>"
    "<condition text=\"water temperature × 1.5 (3..4.5 \xc2\xb0\x43) \xe2\x89\xa4 5 "
    "\xc2\xb0\x43\"/>"
    "<value name=\"v\" text=\"an unknown time\" working=\"greatest of (0 s, 12 March 2027 "
    "\xe2\x88\x92 "
    "(not known), size of (9 May 2027 \xe2\x88\x92 31 March 2026)) = an unknown time\"/>"
    "<value name=\"w\" text=\"1.049 years\" names=\"years dry \xc3\x97 2\" working=\"least of (2.5 "
    "years, 3 years) \xc3\xb7 2 = 1.049 years\"/>"
    "<margin path=\"p/e\" title=\"kept\" edge=\"5 years\"/>"
    "<control ref=\"c\" title=\"x\" changes=\"breath hold at most 10.5 s; effort light; robe "
    "yes\"/></finding></findings>"
    "<controls><control ref=\"c\" title=\"x\"><effect>breath hold at most 10.5 s; effort light; "
    "robe "
    "yes; likelihood \xe2\x88\x92\x31</effect><change entity=\"immersion\" fact=\"breath-hold\"/>"
    "<change entity=\"immersion\" fact=\"effort\"/><change entity=\"immersion\" fact=\"robe\"/>"
    "</control></controls></assessment>";

START_TEST(what_the_core_says_in_patterns_is_said_in_the_language) {
  size_t size = 0;
  const char *de = in_language(patterned, sizeof patterned - 1, "de", &size);
  says(de, "label=\"Wasser (Head of the Lake)\"");
  says(de, "text=\"Lautsprecher, Lichter\"");
  says(de, "name=\"a\" text=\"no\""); /* sheets choose by it */
  says(de, "text=\"36,5 Jahre\"");
  says(de, "text=\"4/h\"");
  says(de, "text=\"verschnupft: ja (nicht bekannt)\"");
  says(de, "(20. Februar 2026 .. 1. März 2026) &gt; 1,5 d\"");
  says(de, "((nicht mitgeteilt)) &gt; 1,5 d\"");
  says(de, "text=\"Wassertemperatur × 1,5 (3..4,5 °C) ≤ 5 °C\"");
  says(de, "working=\"der größte Wert von (0 s, 12. März 2027 − (nicht bekannt), der Betrag von "
           "(9. Mai 2027 − 31. März 2026)) = eine unbekannte Zeit\"");
  says(de, "names=\"years dry × 2\" working=\"der kleinste Wert von (2,5 Jahre, 3 Jahre) ÷ 2 = "
           "1,049 Jahre\"");
  says(de, "edge=\"5 Jahre\"");
  says(de, "changes=\"Luftanhalten höchstens 10,5 s; Anstrengung: leicht; Umhang: ja\"");
  says(de, "<effect>Luftanhalten höchstens 10,5 s; Anstrengung: leicht; Umhang: ja; "
           "Wahrscheinlichkeit −1</effect>");
}
END_TEST

/* A rule that wrote a personal fact into its own words: the sheets for all leave that out, and
 * would not know it again in another language. */
START_TEST(a_personal_fact_in_the_words_of_a_rule_stays_hidden) {
  size_t size = 0;
  const char *es = in_language(patterned, sizeof patterned - 1, "es", &size);
  says(es, "form=\"{i.breath_hold} of ours\" withheld=\"");
  says(es, ">latex and 3 s<");
  says(es, "<because case=\"best\">no such word<");
}
END_TEST

START_TEST(english_is_handed_on_byte_for_byte) {
  size_t length = 0, size = 0;
  const char *xml = sample(&length);
  ck_assert_str_eq(in_language(xml, length, "en-GB", &size), xml);
  ck_assert_str_eq(in_language(xml, length, NULL, &size), xml);
  ck_assert_uint_eq(size, length);
}
END_TEST

START_TEST(an_unknown_language_is_refused_with_the_nearest) {
  ck_assert(ts_language_known("en-US", "x", 0, problems));
  ck_assert_uint_eq(ts_count(problems, TS_ERROR), 0);
  ck_assert(!ts_language_known("en-UK", "x", 0, problems));
  ck_assert_uint_eq(ts_count(problems, TS_ERROR), 1);
  ck_assert(!ts_language_known("../fr", "x", 0, problems));
}
END_TEST

Suite *suite_languages(void) {
  Suite *suite = suite_create("languages");
  TCase *tcase = tcase_create("languages");
  tcase_add_checked_fixture(tcase, setup, teardown);
  tcase_set_timeout(tcase, 120);
  tcase_add_loop_test(tcase, every_list_has_the_words_of_the_english_one_and_no_others, 0,
                      TRANSLATED);
  tcase_add_test(tcase, american_english_says_only_what_differs);
  tcase_add_loop_test(tcase, every_list_of_terms_has_the_same_texts, 0, TRANSLATED);
  tcase_add_loop_test(tcase, no_fixed_text_stays_english_on_a_translated_paper, 0, TRANSLATED);
  tcase_add_test(tcase, days_are_those_of_the_calendar_in_the_words_of_the_language);
  tcase_add_test(tcase, decimal_marks_are_exchanged_in_numbers_only);
  tcase_add_test(tcase, texts_with_a_translation_change_and_all_others_stay_and_are_listed);
  tcase_add_test(tcase, sentences_are_made_of_their_parts_in_the_language);
  tcase_add_test(tcase, values_of_a_reason_go_to_their_places_in_the_translation);
  tcase_add_test(tcase, what_the_core_says_in_patterns_is_said_in_the_language);
  tcase_add_test(tcase, a_personal_fact_in_the_words_of_a_rule_stays_hidden);
  tcase_add_test(tcase, english_is_handed_on_byte_for_byte);
  tcase_add_test(tcase, an_unknown_language_is_refused_with_the_nearest);
  suite_add_tcase(suite, tcase);
  return suite;
}
