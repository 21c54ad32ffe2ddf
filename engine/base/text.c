/* Text: growing strings and nearest names. Numbers are in number.c. */
#include "base/text.h"

#include "base/arena.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Makes room for `more` characters and the NUL. */
static void make_room(ts_text *text, size_t more) {
  if (more < text->capacity - text->length) return; /* 0 - 0 when fresh: never true */
  size_t needed = text->length + more + 1;
  if (needed <= text->length) abort(); /* longer than the address space */
  size_t capacity = text->capacity ? text->capacity : 64;
  while (capacity < needed) capacity = capacity > SIZE_MAX / 2 ? needed : 2 * capacity;
  text->data = ts_resize(text->data, capacity);
  text->capacity = capacity;
}

void ts_text_add_n(ts_text *text, const char *piece, size_t length) {
  make_room(text, length);
  if (length) memcpy(text->data + text->length, piece, length);
  text->length += length;
  text->data[text->length] = '\0';
}

void ts_text_add(ts_text *text, const char *piece) {
  if (piece) ts_text_add_n(text, piece, strlen(piece));
}

void ts_text_addf(ts_text *text, const char *format, ...) {
  va_list list;
  va_start(list, format);
  int length = vsnprintf(NULL, 0, format, list);
  va_end(list);
  if (length < 0) abort(); /* a wrong format string: our own mistake */
  make_room(text, (size_t)length);
  va_start(list, format);
  vsnprintf(text->data + text->length, (size_t)length + 1, format, list);
  va_end(list);
  text->length += (size_t)length;
}

void ts_text_release(ts_text *text) {
  free(text->data);
  *text = (ts_text){0};
}

/* Characters, not bytes. */
static size_t width(const char *text, size_t length) {
  size_t count = 0;
  for (size_t i = 0; i < length; i++) count += ((unsigned char)text[i] & 0xC0) != 0x80;
  return count;
}

void ts_text_add_folded(ts_text *text, const char *words, size_t column, size_t indent,
                        size_t columns) {
  for (bool begun = false; *(words += strspn(words, " ")) != '\0'; begun = true) {
    size_t length = strcspn(words, " "), wide = width(words, length);
    if (begun && column + 1 + wide > columns) {
      ts_text_addf(text, "\n%*s", (int)indent, "");
      column = indent;
    } else if (begun) {
      ts_text_add(text, " ");
      column++;
    }
    ts_text_add_n(text, words, length);
    column += wide;
    words += length;
  }
}

bool ts_same(const char *a, const char *b) {
  if (!a || !b) return a == b;
  return strcmp(a, b) == 0;
}

/* ---- nearest name ------------------------------------------------------- */

static size_t min_of(size_t a, size_t b) { return a < b ? a : b; }

/* Edits that turn `a` into `b`: insert, delete, replace, swap neighbours.
 * Three rows of the usual table are kept: this, the last, the one before. */
static size_t edits(const char *a, size_t n, const char *b, size_t m) {
  size_t *rows = ts_alloc(3 * (m + 1) * sizeof *rows);
  size_t *before = rows, *last = rows + m + 1, *row = last + m + 1;
  for (size_t j = 0; j <= m; j++) last[j] = j;
  for (size_t i = 1; i <= n; i++) {
    row[0] = i;
    for (size_t j = 1; j <= m; j++) {
      row[j] = min_of(min_of(last[j], row[j - 1]) + 1, last[j - 1] + (a[i - 1] != b[j - 1]));
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        row[j] = min_of(row[j], before[j - 2] + 1);
    }
    size_t *spare = before;
    before = last, last = row, row = spare;
  }
  size_t result = last[m];
  free(rows);
  return result;
}

size_t ts_edits(const char *a, const char *b) { return edits(a, strlen(a), b, strlen(b)); }

const char *ts_nearest(const char *name, const char *const *candidates, size_t count) {
  const char *nearest = NULL;
  size_t length = strlen(name), best = (length / 3 > 2 ? length / 3 : 2) + 1;
  for (size_t i = 0; i < count; i++) {
    size_t m = strlen(candidates[i]);
    size_t apart = m > length ? m - length : length - m;
    if (apart >= best) continue; /* at least that many edits: not worth counting */
    size_t distance = edits(name, length, candidates[i], m);
    /* A name that shares no letter with the candidate is not near it. */
    if (distance < best && distance < (m > length ? m : length)) {
      best = distance;
      nearest = candidates[i];
    }
  }
  return nearest;
}
