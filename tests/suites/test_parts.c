/* parts: pages too long to be set as one PDF, and where they are cut. The pages are built here of
 * marks that are then looked for: "H;" in what stands over a table, "G3;" in the row that names the
 * rows after it, "R3/7;" in one of those, counted from 0. */
#include "document/parts.h"
#include "draw.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_parts(void);

typedef struct {
  size_t groups, rows, width; /* rows: at most, in a group */
} table;

static ts_text page_with(const table *t, size_t *rows) {
  draws luck = {7};
  ts_text page = {0};
  ts_text_add(&page, "<html><head><title>T</title></head><body data-title=\"T\" data-part=\"Part "
                     "\" data-of=\" of \"><main><section><h2>Named</h2><table id=\"all\">"
                     "<caption>H;</caption><thead><tr><th>head</th></tr></thead>");
  *rows = 0;
  for (size_t g = 0; g < t->groups; g++) {
    size_t count = 1 + draw_below(&luck, t->rows);
    ts_text_addf(&page, "<tbody><tr><th scope=\"rowgroup\">G%zu;</th></tr>", g);
    for (size_t r = 0; r < count; r++)
      ts_text_addf(&page, "<tr><td>R%zu/%zu;%*s</td></tr>", g, r, (int)t->width, "");
    ts_text_add(&page, "</tbody>");
    *rows += count;
  }
  ts_text_add(&page, "</table></section></main></body></html>\n");
  return page;
}

/* What has been read: the marks of a part, in order. */
typedef struct {
  bool heads;           /* in this part, of a table */
  size_t group, in_row; /* the one named last; the last row of it, from 1 */
  size_t last;          /* the group of the last row */
  size_t rows;          /* in all parts */
  bool awaits;          /* what stands over rows has none under it */
} reader;

static void read_mark(reader *r, const char *at, const char *where) {
  size_t group, row;
  char mark[32]; /* sscanf looks for the end of what it is given */
  snprintf(mark, sizeof mark, "%.31s", at);
  if (*mark == 'H') {
    r->heads = r->awaits = true;
  } else if (sscanf(mark, "G%zu;", &group) == 1) {
    ck_assert_msg(r->heads && (group == r->last || group == r->last + 1), "%s: %s", where, mark);
    r->group = group, r->awaits = true;
  } else if (sscanf(mark, "R%zu/%zu;", &group, &row) == 2) {
    bool next = group == r->last ? row == r->in_row : row == 0 && group == r->last + 1;
    ck_assert_msg(r->heads && group == r->group && next, "%s: %s under group %zu", where, mark,
                  r->group);
    r->last = group, r->in_row = row + 1, r->rows++, r->awaits = false;
  }
}

static void read_part(reader *r, const char *html, const char *where) {
  const char *body = strstr(html, "<body");
  r->heads = r->awaits = false;
  r->group = SIZE_MAX;
  for (const char *at = body; (at = strchr(at, '>')) != NULL; at++) read_mark(r, at + 1, where);
  ck_assert_msg(!r->awaits, "%s ends with what names rows", where);
  ck_assert(strstr(html, "</table></section></main></body></html>\n") != NULL);
}

/* Groups of many sizes about the length of a part, so that cuts fall within them, between them and
 * where the next row is the first of its group. */
static const table tables[] = {{3, 9000, 900}, {40, 400, 900}, {9000, 3, 400}, {2000, 1, 4000}};

START_TEST(rows_of_each_part_have_over_them_what_names_them) {
  size_t rows;
  ts_text page = page_with(&tables[_i], &rows);
  ts_parts *parts = ts_parts_of(page.data, page.length);
  ck_assert_uint_gt(ts_parts_count(parts), 2);
  reader r = {0};
  for (size_t i = 0; i < ts_parts_count(parts); i++) {
    ts_text html = {0};
    char where[40];
    snprintf(where, sizeof where, "part %zu", i + 1);
    ts_parts_write(parts, i, &html);
    read_part(&r, html.data, where);
    ck_assert_uint_lt(html.length, 3 << 20);
    ts_text_release(&html);
  }
  ck_assert_uint_eq(r.rows, rows);
  ts_parts_free(parts);
  ts_text_release(&page);
}
END_TEST

/* A row that names others may stand among them too: then it is no head in the next part. */
START_TEST(a_row_in_the_middle_is_not_said_again) {
  ts_text page = {0};
  ts_text_add(&page,
              "<html><head><title>T</title></head><body data-title=\"T\"><main><table><tbody>");
  for (int i = 0; i < 6000; i++) {
    if (i == 5) ts_text_add(&page, "<tr><th scope=\"rowgroup\">middle</th></tr>");
    ts_text_addf(&page, "<tr><td>%d%*s</td></tr>", i, 900, "");
  }
  ts_text_add(&page, "</tbody></table></main></body></html>\n");
  ts_parts *parts = ts_parts_of(page.data, page.length);
  size_t length = 0;
  for (size_t i = 0; i < ts_parts_count(parts); i++) {
    ts_text html = {0};
    ts_parts_write(parts, i, &html);
    ck_assert_int_eq(strstr(html.data, "middle") != NULL, i == 0);
    length += html.length;
    ts_text_release(&html);
  }
  ck_assert_uint_gt(ts_parts_count(parts), 2);
  ck_assert_uint_lt(length, page.length + 2000);
  ts_parts_free(parts);
  ts_text_release(&page);
}
END_TEST

/* How a page may end that no stylesheet wrote. */
static const char *const ends[] = {
    "</main></body></html>", "</table></main></body>", "<", "<td", "<td a=\"", "<script>", "</"};

/* Copied to where nothing lies behind its end, for the sanitizers. */
START_TEST(a_page_that_is_not_made_so_stays_whole) {
  ts_text page = {0};
  ts_text_add(&page,
              "<html><head><title>T</title></head><body data-title=\"T\"><main><table><tbody>");
  for (int i = 0; i < 6000; i++) ts_text_addf(&page, "<tr><td>%*s</td></tr>", 900, "");
  ts_text_add(&page, ends[_i]);
  char *exact = malloc(page.length + 1);
  ck_assert_ptr_nonnull(exact);
  memcpy(exact, page.data, page.length + 1);
  ts_parts *parts = ts_parts_of(exact, page.length);
  ck_assert_uint_eq(ts_parts_count(parts), 1);
  ts_parts_free(parts);
  free(exact);
  ts_text_release(&page);
}
END_TEST

Suite *suite_parts(void) {
  Suite *suite = suite_create("parts");
  TCase *tcase = tcase_create("parts");
  tcase_add_loop_test(tcase, rows_of_each_part_have_over_them_what_names_them, 0,
                      sizeof tables / sizeof *tables);
  tcase_add_test(tcase, a_row_in_the_middle_is_not_said_again);
  tcase_add_loop_test(tcase, a_page_that_is_not_made_so_stays_whole, 0, sizeof ends / sizeof *ends);
  suite_add_tcase(suite, tcase);
  return suite;
}
