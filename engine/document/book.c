/* A book's tables: made, filled, closed. The database is a temporary of SQLite's own, which goes to
 * the disk when it outgrows its cache, and is gone afterwards. */
#include "document/book.h"

#include "base/digest.h"
#include "base/file.h"
#include "base/text.h"
#include <stdlib.h>
#include <string.h>

enum { SCHEMA_LIMIT = 1 << 20, FILE_LIMIT = 1 << 20, COLUMNS = 32 };

static const char *const names[TS_BOOK_TABLES] = {[TS_BOOK_ASSESSMENT] = "assessments",
                                                  [TS_BOOK_SIGNATURE] = "signatures",
                                                  [TS_BOOK_RULE_FILE] = "rule_files",
                                                  [TS_BOOK_PACK] = "packs",
                                                  [TS_BOOK_BAND] = "bands",
                                                  [TS_BOOK_ROLE] = "roles",
                                                  [TS_BOOK_DAY] = "days",
                                                  [TS_BOOK_TASK] = "tasks",
                                                  [TS_BOOK_IMMERSION] = "immersions",
                                                  [TS_BOOK_FINDING] = "findings",
                                                  [TS_BOOK_DUTY] = "duties",
                                                  [TS_BOOK_QUESTION] = "questions",
                                                  [TS_BOOK_DATED] = "dated",
                                                  [TS_BOOK_EVIDENCE] = "evidence",
                                                  [TS_BOOK_WAIVER] = "waivers",
                                                  [TS_BOOK_FAILURE] = "failures",
                                                  [TS_BOOK_SHIPPED_PACK] = "shipped_packs",
                                                  [TS_BOOK_SHIPPED_MATRIX] = "shipped_matrices",
                                                  [TS_BOOK_UNREAD] = "unread",
                                                  [TS_BOOK_SELF] = "book"};

/* What the database says is wrong, against a file. */
static bool wrong(const ts_book *book, const char *path, ts_diagnostics *problems) {
  ts_report(problems, TS_ERROR, path, 0, "%s", sqlite3_errmsg(book->db));
  return false;
}

static bool run(ts_book *book, const char *sql, ts_diagnostics *problems) {
  return sqlite3_exec(book->db, sql, NULL, NULL, NULL) == SQLITE_OK ||
         wrong(book, "tankside", problems);
}

static bool run_file(ts_book *book, ts_arena *arena, const char *name, ts_diagnostics *problems) {
  const char *path = ts_path_join(arena, ts_data_path(arena, "shared"), "schema/book");
  path = ts_path_join(arena, path, name);
  const char *sql = ts_file_read(arena, path, SCHEMA_LIMIT, NULL, problems);
  return sql && (sqlite3_exec(book->db, sql, NULL, NULL, NULL) == SQLITE_OK ||
                 wrong(book, path, problems));
}

/* ---- rows ------------------------------------------------------------------------------------ */

static sqlite3_stmt *insert(ts_book *book, ts_book_table table, size_t count) {
  char sql[128], marks[2 * COLUMNS] = "?";
  for (size_t i = 1; i < count && i < COLUMNS; i++) memcpy(marks + 2 * i - 1, ",?", 3);
  snprintf(sql, sizeof sql, "INSERT INTO %s VALUES(%s)", names[table], marks);
  sqlite3_stmt **kept = &book->inserts[table];
  if (!*kept) sqlite3_prepare_v2(book->db, sql, -1, kept, NULL);
  return *kept;
}

bool ts_book_put(ts_book *book, ts_book_table table, const char *const *values, size_t count) {
  sqlite3_stmt *row = insert(book, table, count);
  if (!row) return false;
  sqlite3_reset(row);
  for (size_t i = 0; i < count; i++) {
    const char *value = values[i] && values[i][0] ? values[i] : NULL;
    sqlite3_bind_text(row, (int)i + 1, value, -1, SQLITE_STATIC);
  }
  bool good = sqlite3_step(row) == SQLITE_DONE;
  sqlite3_clear_bindings(row);
  return good; /* it is reset before its next use: until then the reason can be asked for */
}

/* ---- what came with this program ------------------------------------------------------- */

static bool shipped_pack(ts_book *book, ts_arena *arena, const char *folder, const char *name,
                         ts_diagnostics *problems) {
  ts_text lines = {0};
  size_t count = 0;
  char digest[65];
  char **files = ts_folder_list(arena, folder, ".lua", problems);
  for (; files && files[count]; count++) {
    size_t length = 0;
    const char *path = ts_path_join(arena, folder, files[count]);
    const char *bytes = ts_file_read(arena, path, FILE_LIMIT, &length, problems);
    ts_text_addf(&lines, "%s %s\n", files[count], bytes ? ts_digest(bytes, length, digest) : "");
  }
  ts_digest(lines.length ? lines.data : "", lines.length, digest);
  ts_text_release(&lines);
  return TS_BOOK_PUT(book, TS_BOOK_SHIPPED_PACK, name, ts_arena_printf(arena, "%zu", count),
                     digest);
}

static bool shipped_packs(ts_book *book, ts_arena *arena, ts_diagnostics *problems) {
  const char *rules = ts_data_path(arena, "rules");
  char **packs = ts_folder_list(arena, rules, "/", problems);
  bool good = packs != NULL;
  for (; good && *packs; packs++)
    good = shipped_pack(book, arena, ts_path_join(arena, rules, *packs), *packs, problems);
  return good;
}

static bool shipped_matrices(ts_book *book, ts_arena *arena, ts_diagnostics *problems) {
  const char *folder = ts_path_join(arena, ts_data_path(arena, "shared"), "matrices");
  char **files = ts_folder_list(arena, folder, ".xml", problems);
  bool good = files != NULL;
  for (; good && *files; files++) {
    size_t length = 0;
    char digest[65];
    const char *bytes =
        ts_file_read(arena, ts_path_join(arena, folder, *files), FILE_LIMIT, &length, problems);
    good = bytes &&
           TS_BOOK_PUT(book, TS_BOOK_SHIPPED_MATRIX, ts_digest(bytes, length, digest), *files);
  }
  return good;
}

/* ---- the whole ------------------------------------------------------------------------- */

static bool begin(ts_book *book, ts_diagnostics *problems) {
  ts_arena *arena = ts_arena_new();
  bool good = sqlite3_open("", &book->db) == SQLITE_OK &&
              run(book, "PRAGMA foreign_keys = ON", problems) &&
              run_file(book, arena, "tables.sql", problems) && run(book, "BEGIN", problems) &&
              TS_BOOK_PUT(book, TS_BOOK_SELF, TANKSIDE_VERSION, book->on) &&
              shipped_packs(book, arena, problems) && shipped_matrices(book, arena, problems);
  if (!good) wrong(book, "tankside", problems);
  ts_arena_free(arena);
  return good;
}

ts_book *ts_book_new(const ts_units *units, const char *on, const char *authorities,
                     ts_diagnostics *problems) {
  ts_book *book = ts_alloc(sizeof *book);
  book->units = units;
  book->on = on;
  book->authorities = authorities;
  if (begin(book, problems)) return book;
  ts_book_free(book);
  return NULL;
}

void ts_book_free(ts_book *book) {
  if (!book) return;
  for (int i = 0; i < TS_BOOK_TABLES; i++) sqlite3_finalize(book->inserts[i]);
  sqlite3_close(book->db);
  free(book);
}

bool ts_book_add(ts_book *book, const char *path, size_t limit, ts_diagnostics *problems) {
  ts_arena *arena = ts_arena_new();
  ts_diagnostics *own = ts_diagnostics_new();
  run(book, "SAVEPOINT one", own);
  bool good = ts_book_read(book, book->count.read + 1, path, limit, own);
  if (!good) {
    int line = 0;
    const char *why = ts_first_error(own, &line);
    run(book, "ROLLBACK TO one", own);
    TS_BOOK_PUT(book, TS_BOOK_UNREAD, path, line > 0 ? ts_arena_printf(arena, "%d", line) : NULL,
                why);
    ts_report(problems, TS_ERROR, path, line, "%s", why);
  }
  run(book, "RELEASE one", own);
  book->count.read += good;
  book->count.unread += !good;
  ts_diagnostics_free(own);
  ts_arena_free(arena);
  return good;
}

bool ts_book_close(ts_book *book, ts_diagnostics *problems) {
  ts_arena *arena = ts_arena_new();
  bool good = run_file(book, arena, "views.sql", problems) && run(book, "COMMIT", problems);
  ts_arena_free(arena);
  return good;
}

ts_book_count ts_book_counted(const ts_book *book) { return book->count; }

/* Written afresh, so that the bytes hang on nothing but the rows. */
static bool write_into(void *context, const char *temporary, ts_diagnostics *problems) {
  ts_book *book = context;
  char *sql = sqlite3_mprintf("VACUUM INTO %Q", temporary);
  bool good = sql && run(book, sql, problems);
  sqlite3_free(sql);
  return good;
}

bool ts_book_write(ts_book *book, const char *path, ts_diagnostics *problems) {
  return ts_file_make(path, write_into, book, problems);
}
