/* A book as XML, row by row from its tables, and what the stylesheets make of that. */
#include "document/book.h"

#include "base/text.h"
#include "base/xml.h"
#include "document/transform.h"
#include <stdlib.h>
#include <string.h>

/* What stands in the book, and what stands in each assessment, in this order. */
typedef struct {
  const char *element, *sql;
} rows;

static const rows of_book[] = {
    {"reason", "SELECT reason, count(*) AS assessments, sum(n) AS n FROM attention GROUP BY rank "
               "ORDER BY rank"},
    {"jurisdiction", "SELECT * FROM jurisdictions"},
    {"rule", "SELECT * FROM rules_above LIMIT 12"},
    {"pack", "SELECT * FROM pack_versions ORDER BY name, assessments DESC, digest"},
    {"unread", "SELECT * FROM unread ORDER BY file"},
};

static const rows of_assessment[] = {
    {"reason", "SELECT reason, n FROM attention WHERE assessment = ?"},
    {"signature",
     "SELECT who, as_whom, on_day, state FROM signatures WHERE assessment = ? ORDER BY n"},
    {"lapse", "SELECT entity, what, until_day, state FROM lapses WHERE assessment = ? "
              "ORDER BY until_day, entity, what, n"},
    {"unusual", "SELECT kind, name, digest, origin, among FROM unusual WHERE assessment = ?"},
    {"waiver",
     "SELECT rule, by_whom, until_day, valid FROM waivers WHERE assessment = ? ORDER BY n"},
    {"failure", "SELECT rule FROM failures WHERE assessment = ? ORDER BY n"},
};

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static void attributes(ts_xml_out *out, sqlite3_stmt *row) {
  for (int i = 0; i < sqlite3_column_count(row); i++)
    ts_xml_attribute(out, sqlite3_column_name(row, i), (const char *)sqlite3_column_text(row, i));
}

/* An element for each row of a query about one assessment, or about all of them. */
static bool put_rows(ts_book *book, const rows *what, sqlite3_int64 id, ts_xml_out *out) {
  sqlite3_stmt *query = NULL;
  if (sqlite3_prepare_v2(book->db, what->sql, -1, &query, NULL) != SQLITE_OK) return false;
  sqlite3_bind_int64(query, 1, id);
  int step;
  while ((step = sqlite3_step(query)) == SQLITE_ROW) {
    ts_xml_start(out, what->element);
    attributes(out, query);
    ts_xml_end(out);
  }
  sqlite3_finalize(query);
  return step == SQLITE_DONE;
}

static bool put_assessments(ts_book *book, ts_xml_out *out) {
  sqlite3_stmt *query = NULL;
  bool good = true;
  int step = SQLITE_ERROR;
  if (sqlite3_prepare_v2(book->db, "SELECT * FROM register ORDER BY id", -1, &query, NULL) !=
      SQLITE_OK)
    return false;
  while (good && (step = sqlite3_step(query)) == SQLITE_ROW) {
    ts_xml_start(out, "assessment");
    attributes(out, query);
    for (size_t i = 0; good && i < COUNT(of_assessment); i++)
      good = put_rows(book, &of_assessment[i], sqlite3_column_int64(query, 0), out);
    ts_xml_end(out);
  }
  sqlite3_finalize(query);
  return good && step == SQLITE_DONE;
}

static bool put_book(ts_book *book, ts_xml_out *out) {
  bool good = true;
  ts_xml_begin(out);
  ts_xml_start(out, "book");
  ts_xml_attribute(out, "format", "1");
  ts_xml_attribute(out, "tankside", TANKSIDE_VERSION);
  ts_xml_attribute(out, "on", book->on);
  ts_xml_attributef(out, "read", "%zu", book->count.read);
  ts_xml_attributef(out, "unread", "%zu", book->count.unread);
  for (size_t i = 0; good && i < COUNT(of_book); i++) good = put_rows(book, &of_book[i], 0, out);
  good = good && put_assessments(book, out);
  ts_xml_end(out);
  return good;
}

static const char *stylesheet(const char *as) {
  return ts_same(as, "html") ? "book.xsl" : ts_same(as, "csv") ? "book-csv.xsl" : "book-text.xsl";
}

bool ts_book_render(ts_book *book, const char *as, char **out, size_t *length,
                    ts_diagnostics *problems) {
  ts_xml_out xml = {0};
  *out = NULL;
  bool good = put_book(book, &xml);
  if (!good) ts_report(problems, TS_ERROR, "tankside", 0, "%s", sqlite3_errmsg(book->db));
  if (good && ts_same(as, "xml")) {
    *out = xml.text.data; /* ts_text grows with malloc: the caller frees it */
    *length = xml.text.length;
    return true;
  }
  good = good && ts_document_transform(stylesheet(as), "book", xml.text.data, xml.text.length, out,
                                       length, problems);
  ts_text_release(&xml.text);
  return good;
}
