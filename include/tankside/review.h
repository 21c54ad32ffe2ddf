/* A book: a register over many assessments, for who answers for all of them.
 *
 * Each assessment.xml is read element by element, so that memory does not grow with it, into the
 * tables of shared/schema/book/tables.sql; what is printed, and the SQLite file, are made from
 * those. Nothing is assessed again, and nothing confidential is taken over: what a rule calls
 * discreet keeps only its score and task, and nothing says which person it is about. */
#ifndef TANKSIDE_REVIEW_H
#define TANKSIDE_REVIEW_H

#include "tankside/diagnostics.h"
#include "tankside/quantity.h"
#include <stdbool.h>
#include <stddef.h>

typedef struct ts_book ts_book;

/* An empty book. `on` is the day as of which things lapse and certificates are judged
 * ("2027-10-08"), or NULL: then only what lapses before the work ends is known, and certificates
 * are judged today. `authorities` are certificates (PEM, one file's text) that the reader trusts,
 * or NULL. Both must outlive it. NULL with a report when it cannot be begun. Free with ts_book_free
 * (NULL is allowed). */
ts_book *ts_book_new(const ts_units *units, const char *on, const char *authorities,
                     ts_diagnostics *problems);
void ts_book_free(ts_book *book);

/* Reads one assessment of at most `limit` bytes. False with a report, which the book keeps too,
 * when it cannot be read; what was read before stays. */
bool ts_book_add(ts_book *book, const char *path, size_t limit, ts_diagnostics *problems);

/* Once all are read: judges what is unusual among them. False with a report. */
bool ts_book_close(ts_book *book, ts_diagnostics *problems);

/* How many were read, how many could not be, and of how many the signature does not hold. */
typedef struct {
  size_t read, unread, altered;
} ts_book_count;
ts_book_count ts_book_counted(const ts_book *book);

/* A closed book as "text" (lines of a head, a tab and a text to be folded under it), "csv", "html"
 * or "xml". NUL-terminated, for free(). False with a report. */
bool ts_book_render(ts_book *book, const char *as, char **out, size_t *length,
                    ts_diagnostics *problems);

/* A closed book as an SQLite file, whole or not at all. */
bool ts_book_write(ts_book *book, const char *path, ts_diagnostics *problems);

#endif
