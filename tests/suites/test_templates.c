/* templates: the palette's contrasts, and the word list against its users. */
#include "base/arena.h"
#include "base/file.h"
#include "base/text.h"
#include "base/xml.h"
#include "template_files.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_templates(void);

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

static const char *attribute(const xmlNode *node, const char *name) {
  return attribute_of(arena, node, name);
}

/* Every stylesheet of templates/ as one text. */
static const char *all_stylesheets(void) {
  ts_text all = {0};
  char **names = ts_folder_list(arena, ts_data_path(arena, "templates"), ".xsl", problems);
  ck_assert_ptr_nonnull(names);
  for (; *names; names++) ts_text_add(&all, template_text(arena, *names));
  const char *copy = ts_arena_copy(arena, all.data);
  ts_text_release(&all);
  return copy;
}

/* ---- contrast, as WCAG 2.2 defines it ------------------------------------- */

static double channel(const char *hex) {
  char two[3] = {hex[0], hex[1], '\0'};
  double v = (double)strtol(two, NULL, 16) / 255;
  return v <= 0.04045 ? v / 12.92 : pow((v + 0.055) / 1.055, 2.4);
}

static double luminance(const char *hex) {
  ck_assert_msg(hex && strlen(hex) == 7 && hex[0] == '#', "not a colour: %s", hex ? hex : "none");
  return 0.2126 * channel(hex + 1) + 0.7152 * channel(hex + 3) + 0.0722 * channel(hex + 5);
}

static double contrast(const char *a, const char *b) {
  double x = luminance(a), y = luminance(b);
  return (fmax(x, y) + 0.05) / (fmin(x, y) + 0.05);
}

static const char *colour(const xmlNode *palette, const char *id) {
  for (const xmlNode *n = palette->children; n; n = n->next)
    if (ts_same((const char *)n->name, "colour") && ts_same(attribute(n, "id"), id))
      return attribute(n, "value");
  ck_abort_msg("the palette has no colour \"%s\"", id);
}

START_TEST(contrast_is_the_published_one) {
  ck_assert_double_eq_tol(contrast("#000000", "#ffffff"), 21, 1e-9);
  ck_assert_double_eq_tol(contrast("#777777", "#ffffff"), 4.48, 0.005); /* W3C's own example */
}
END_TEST

START_TEST(every_pair_of_the_palette_has_the_contrast_it_needs) {
  ts_xml *xml = template_xml(arena, "palette.xml");
  const xmlNode *palette = ts_xml_root(xml);
  int pairs = 0;
  for (const xmlNode *n = palette->children; n; n = n->next) {
    if (!ts_same((const char *)n->name, "pair")) continue;
    double least = 0;
    ck_assert_ptr_nonnull(ts_number_read(attribute(n, "least"), &least));
    ck_assert_double_ge(least, 3);
    double has =
        contrast(colour(palette, attribute(n, "front")), colour(palette, attribute(n, "back")));
    ck_assert_msg(has >= least, "%s: %.2f, needs %.1f", attribute(n, "what"), has, least);
    pairs++;
  }
  ck_assert_int_ge(pairs, 15);
  ts_xml_free(xml);
}
END_TEST

/* A band must still be told apart on a printer without colour. */
START_TEST(fills_grow_darker_with_the_band_and_differ_in_edge_and_pattern) {
  ts_xml *xml = template_xml(arena, "palette.xml");
  const xmlNode *palette = ts_xml_root(xml);
  const char *edges = "", *paths = "";
  int fills = 0;
  for (const xmlNode *n = palette->children; n; n = n->next) {
    if (!ts_same((const char *)n->name, "fill")) continue;
    const char *edge = ts_arena_printf(arena, "[%s]", attribute(n, "edge"));
    const char *path = ts_arena_printf(arena, "[%s %s]", attribute(n, "d"), attribute(n, "width"));
    ck_assert_msg(!strstr(edges, edge), "two fills with the edge %s", edge);
    ck_assert_msg(!strstr(paths, path), "two fills with the pattern %s", path);
    edges = ts_arena_printf(arena, "%s%s", edges, edge);
    paths = ts_arena_printf(arena, "%s%s", paths, path);
    fills++;
  }
  ck_assert_int_eq(fills, 5);
  for (int i = 2; i <= 5; i++)
    ck_assert_double_lt(luminance(colour(palette, ts_arena_printf(arena, "tint-%d", i))),
                        luminance(colour(palette, ts_arena_printf(arena, "tint-%d", i - 1))));
  ts_xml_free(xml);
}
END_TEST

START_TEST(style_sheets_use_colours_of_the_palette_only) {
  static const char *const sheets[] = {"page.css", "browser.css", "sheets.css"};
  ts_xml *xml = template_xml(arena, "palette.xml");
  for (size_t i = 0; i < sizeof sheets / sizeof *sheets; i++) {
    const char *css = template_text(arena, sheets[i]);
    ck_assert_msg(!strstr(css, ": #") && !strstr(css, " #f"), "%s writes a colour itself",
                  sheets[i]);
    for (const char *c = css; (c = strstr(c, "var(--")); c++)
      colour(ts_xml_root(xml), ts_arena_copy_n(arena, c + 6, strcspn(c + 6, ")")));
  }
  ts_xml_free(xml);
}
END_TEST

/* ---- words ---------------------------------------------------------------- */

/* Ids that a stylesheet puts together from a value of the assessment. */
static const char *const made[] = {
    "kind-",    "state-",   "c-",      "duty-",  "n-",    "m-",         "limits-",
    "explain-", "compare-", "sheet-",  "step-",  "does-", "card-must-", "worse-",
    "line-",    "stand-",   "beyond-", "reach-", "unit-", "yes",        "no"};

static bool put_together(const char *id) {
  for (size_t i = 0; i < sizeof made / sizeof *made; i++)
    if (strncmp(id, made[i], strlen(made[i])) == 0) return true;
  return false;
}

/* Alone in quotes, or in a list of the heads of a table. */
static bool used_in(const char *all, const char *id) {
  static const char *const forms[] = {"'%s'", "'%s ", " %s ", " %s'"};
  for (size_t i = 0; i < sizeof forms / sizeof *forms; i++) {
    size_t before = strcspn(forms[i], "%");
    const char *marked =
        ts_arena_printf(arena, "%.*s%s%s", (int)before, forms[i], id, forms[i] + before + 2);
    if (strstr(all, marked)) return true;
  }
  return false;
}

static bool has_word(const xmlNode *words, const char *id) {
  for (const xmlNode *n = words->children; n; n = n->next)
    if (n->type == XML_ELEMENT_NODE && ts_same(attribute(n, "id"), id)) return true;
  return false;
}

START_TEST(every_word_is_used_and_every_used_word_is_there) {
  ts_xml *xml = template_xml(arena, "words-en-GB.xml");
  const char *all = all_stylesheets();
  for (const xmlNode *n = ts_xml_root(xml)->children; n; n = n->next) {
    if (n->type != XML_ELEMENT_NODE) continue;
    /* columns and files are all written, whatever they are called */
    if (ts_same((const char *)n->name, "column") || ts_same((const char *)n->name, "file"))
      continue;
    const char *id = attribute(n, "id");
    bool used = used_in(all, id) || put_together(id);
    ck_assert_msg(used, "nothing prints the word \"%s\"", id);
  }
  static const char *const uses[] = {"$w[@id = '", "name=\"word\" select=\"'",
                                     "name=\"lead\" select=\"'"};
  for (size_t i = 0; i < sizeof uses / sizeof *uses; i++)
    for (const char *c = all; (c = strstr(c, uses[i])); c++) {
      const char *id = c + strlen(uses[i]);
      id = ts_arena_copy_n(arena, id, strcspn(id, "'"));
      ck_assert_msg(has_word(ts_xml_root(xml), id), "a stylesheet wants the word \"%s\"", id);
    }
  ts_xml_free(xml);
}
END_TEST

static bool word_in(const char *text, const char *word) {
  size_t n = strlen(word);
  for (const char *c = text; (c = strcasestr(c, word)); c++) {
    bool starts = c == text || !strchr("abcdefghijklmnopqrstuvwxyz", c[-1] | 0x20);
    bool ends = !c[n] || !strchr("abcdefghijklmnopqrstuvwxyz-", c[n] | 0x20);
    if (starts && ends) return true;
  }
  return false;
}

START_TEST(no_word_says_safe) {
  const char *words = template_text(arena, "words-en-GB.xml");
  ck_assert(word_in("it is safe.", "safe") && !word_in("the safety officer", "safe"));
  ck_assert(!word_in(words, "safe"));
  ck_assert(!word_in(words, "safely"));
  ck_assert(!word_in(words, "shall"));
}
END_TEST

Suite *suite_templates(void) {
  Suite *suite = suite_create("templates");
  TCase *tcase = tcase_create("templates");
  tcase_add_checked_fixture(tcase, setup, teardown);
  tcase_set_timeout(tcase, 60);
  tcase_add_test(tcase, contrast_is_the_published_one);
  tcase_add_test(tcase, every_pair_of_the_palette_has_the_contrast_it_needs);
  tcase_add_test(tcase, fills_grow_darker_with_the_band_and_differ_in_edge_and_pattern);
  tcase_add_test(tcase, style_sheets_use_colours_of_the_palette_only);
  tcase_add_test(tcase, every_word_is_used_and_every_used_word_is_there);
  tcase_add_test(tcase, no_word_says_safe);
  suite_add_tcase(suite, tcase);
  return suite;
}
