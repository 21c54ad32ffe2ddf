/* Parts: a page that is too long to be set as one PDF, as several pages.
 *
 * WeasyPrint holds all it sets: some 8 MB for each page of paper. So a page of more than about 150
 * sheets of paper is cut between its blocks, or where a block is longer still between its rows,
 * into pages of about the same length. Each says which part of how many it is and under which
 * heading it begins, and has all that the first has before its text: title, digest, style, status
 * mark. Rows have the heads of their table over them and the row that names them. A link into
 * another part says which that is.
 *
 * It reads what transform.c wrote: elements closed in order, quoted attributes. */
#ifndef TS_DOCUMENT_PARTS_H
#define TS_DOCUMENT_PARTS_H

#include "base/text.h"

typedef struct ts_parts ts_parts;

/* Of a page, whose text must outlive them. ts_parts_free. */
ts_parts *ts_parts_of(const char *html, size_t length);
void ts_parts_free(ts_parts *parts);

size_t ts_parts_count(const ts_parts *parts); /* 1: it stays whole */

/* One of them, from 0. */
void ts_parts_write(const ts_parts *parts, size_t number, ts_text *html);

#endif
