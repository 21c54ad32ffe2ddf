/* The mark of each form in which something is written. */
#include "document/mark.h"

#include <stdbool.h>
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

ts_origin ts_document_origin(const char *bytes, size_t length) {
  static const char signature[] = "<Signature xmlns=\"http://www.w3.org/2000/09/xmldsig#\">";
  if (begins(bytes, length, texts[0].begins) && holds(bytes, length, signature)) return TS_SIGNED;
  bool ours = is_text(bytes, length) || is_pdf(bytes, length) || is_register(bytes, length) ||
              is_spreadsheet(bytes, length) || is_database(bytes, length);
  return ours ? TS_WRITTEN : TS_FOREIGN;
}
