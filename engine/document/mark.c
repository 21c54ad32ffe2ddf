/* The mark of each form in which something is written. */
#include "document/mark.h"

#include "base/file.h"

#include <errno.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#define XML "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
enum { HEAD = 4096, SHA256 = 64 }; /* bytes in which a mark is looked for; hexadecimal digits */

/* What it begins with, and what stands near its beginning; NULL where that says enough. */
static const struct {
  const char *begins, *says;
} texts[] = {
    {XML "<assessment format=\"1\" tankside=\"", NULL},
    {XML "<comparison format=\"1\"", NULL},
    {XML "<book format=\"1\" tankside=\"", NULL},
    {XML "<reference tankside=\"", NULL},
    {"<!DOCTYPE html>\n", "<meta name=\"generator\" content=\"tankside"},
    {"What a dossier can state.\n\nEach entity is an element, each fact an attribute of it.", NULL},
    {TS_NOTE_MARK, NULL},
    {"", "ade by `tankside vocabulary"},
};

static bool begins(const char *bytes, size_t length, const char *with) {
  size_t n = strlen(with);
  return length >= n && memcmp(bytes, with, n) == 0;
}

static bool holds(const char *bytes, size_t length, const char *what) {
  return memmem(bytes, length, what, strlen(what)) != NULL;
}

static bool ends(const char *bytes, size_t length, const char *with) {
  size_t n = strlen(with);
  return length >= n && memcmp(bytes + length - n, with, n) == 0;
}

static bool is_text(const char *bytes, size_t length) {
  size_t head = length < HEAD ? length : HEAD;
  for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
    if (begins(bytes, length, texts[i].begins) &&
        (texts[i].says == NULL || holds(bytes, head, texts[i].says)))
      return true;
  return false;
}

/* Remarks are put behind the first end of a PDF, and then it has two. */
static bool is_pdf(const char *bytes, size_t length) {
  static const char end[] = "%%EOF";
  const char *first = memmem(bytes, length, end, sizeof end - 1);
  return begins(bytes, length, "%PDF-") && holds(bytes, length, "/Creator (tankside") &&
         first != NULL && !holds(first + 1, length - (size_t)(first + 1 - bytes), end);
}

/* A register as CSV: all in quotes, which no spreadsheet program keeps to, and the digest of the
 * assessment last, or over many the caution: "digest","","<sha256>",... */
static bool is_register(const char *bytes, size_t length) {
  static const char *const last[] = {"\r\n\"digest\",", "\r\n\"caution\","};
  if (!begins(bytes, length, "\"") || !ends(bytes, length, "\"\r\n")) return false;
  for (size_t at = length - 2; at-- > 0;) {
    const char *line = bytes + at;
    if (!begins(line, length - at, "\r\n")) continue;
    return (begins(line, length - at, last[0]) || begins(line, length - at, last[1])) &&
           length - at > sizeof "\r\n\"caution\"," + SHA256;
  }
  return false;
}

/* A database of a book: with our mark (SQLite, Database File Format 1.2.17, 1.3), and never written
 * to since it was made: its change counter stands where it begins. */
static bool is_database(const char *bytes, size_t length) {
  static const char magic[] = "SQLite format 3"; /* with its zero */
  enum { COUNTER = 24, MARK = 68, HEADER = 100 };
  return length > HEADER && memcmp(bytes, magic, sizeof magic) == 0 &&
         memcmp(bytes + MARK, "tnks", 4) == 0 && memcmp(bytes + COUNTER, "\0\0\0\1", 4) == 0;
}

static bool is_spreadsheet(const char *bytes, size_t length) {
  return begins(bytes, length, "PK\3\4") && ends(bytes, length, TS_ARCHIVE_MARK);
}

static const char signature[] = "<Signature xmlns=\"http://www.w3.org/2000/09/xmldsig#\">";

ts_origin ts_document_origin(const char *bytes, size_t length) {
  if (begins(bytes, length, texts[0].begins) && holds(bytes, length, signature)) return TS_SIGNED;
  bool ours = is_text(bytes, length) || is_pdf(bytes, length) || is_register(bytes, length) ||
              is_spreadsheet(bytes, length) || is_database(bytes, length);
  return ours ? TS_WRITTEN : TS_FOREIGN;
}

/* ---- files ---------------------------------------------------------------------- */

/* The rest of an assessment, piece by piece, each with the end of the last before it. */
static ts_origin look_for_signature(int file, const char *path, ts_diagnostics *problems) {
  enum { PIECE = 1024 * 1024, OVERLAP = sizeof signature - 2 };
  char *bytes = ts_alloc(PIECE);
  size_t kept = 0;
  bool found = false;
  int got = 1;
  while (!found && (got = ts_file_next(file, bytes + kept, PIECE - kept)) > 0) {
    size_t length = kept + (size_t)got;
    found = holds(bytes, length, signature);
    kept = length < OVERLAP ? length : OVERLAP;
    memmove(bytes, bytes + length - kept, kept);
  }
  int why = errno;
  free(bytes);
  if (got >= 0) return found ? TS_SIGNED : TS_WRITTEN;
  char reason[128];
  ts_report(problems, TS_ERROR, path, 0, "cannot be read: %s",
            strerror_r(why, reason, sizeof reason));
  return TS_FOREIGN;
}

static ts_origin origin_of_all(const char *path, size_t limit, ts_diagnostics *problems) {
  ts_arena *arena = ts_arena_new();
  size_t length;
  const char *bytes = ts_file_read(arena, path, limit, &length, problems);
  ts_origin origin = bytes ? ts_document_origin(bytes, length) : TS_FOREIGN;
  ts_arena_free(arena);
  return origin;
}

ts_origin ts_file_origin(const char *path, size_t limit, ts_diagnostics *problems) {
  char head[sizeof XML "<assessment format=\"1\" tankside=\""];
  int file = ts_file_open(path, SIZE_MAX, problems);
  if (file < 0) return TS_FOREIGN;
  int got = ts_file_next(file, head, sizeof head);
  bool ours = got > 0 && begins(head, (size_t)got, texts[0].begins);
  ts_origin origin = ours ? look_for_signature(file, path, problems) : TS_FOREIGN;
  ts_file_close(file);
  return ours ? origin : origin_of_all(path, limit, problems);
}
