/* Inside of a book: its tables, and how rows get into them and out. Stage-internal; the public door
 * is tankside/review.h. */
#ifndef TS_DOCUMENT_BOOK_H
#define TS_DOCUMENT_BOOK_H

#include "base/arena.h"
#include "tankside/review.h"
#include <sqlite3.h>

typedef enum {
  TS_BOOK_ASSESSMENT,
  TS_BOOK_SIGNATURE,
  TS_BOOK_RULE_FILE,
  TS_BOOK_PACK,
  TS_BOOK_BAND,
  TS_BOOK_ROLE,
  TS_BOOK_DAY,
  TS_BOOK_TASK,
  TS_BOOK_IMMERSION,
  TS_BOOK_FINDING,
  TS_BOOK_DUTY,
  TS_BOOK_QUESTION,
  TS_BOOK_DATED,
  TS_BOOK_EVIDENCE,
  TS_BOOK_WAIVER,
  TS_BOOK_FAILURE,
  TS_BOOK_SHIPPED_PACK,
  TS_BOOK_SHIPPED_MATRIX,
  TS_BOOK_UNREAD,
  TS_BOOK_SELF,
  TS_BOOK_TABLES
} ts_book_table;

struct ts_book {
  sqlite3 *db;
  sqlite3_stmt *inserts[TS_BOOK_TABLES];
  const ts_units *units;
  const char *on, *authorities;
  ts_book_count count;
};

/* One row: its columns in the order of tables.sql, as text; NULL and "" are NULL. Numbers are read
 * by the table, which refuses what is none. False when it is refused. */
bool ts_book_put(ts_book *book, ts_book_table table, const char *const *values, size_t count);
#define TS_BOOK_PUT(book, table, ...)                                                              \
  ts_book_put((book), (table), (const char *const[]){__VA_ARGS__},                                 \
              sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *))

/* Reads one assessment into the tables as number `id`; what was put in of one that fails, the
 * caller takes back. */
bool ts_book_read(ts_book *book, size_t id, const char *path, size_t limit,
                  ts_diagnostics *problems);

#endif
