/* Text: growing strings and nearest names. Numbers are in number.c. */
#include "base/text.h"

#include "base/arena.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/random.h>

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

char *ts_text_more(ts_text *text, size_t length) {
  make_room(text, length);
  char *more = text->data + text->length;
  text->length += length;
  text->data[text->length] = '\0';
  return more;
}

void ts_text_add_n(ts_text *text, const char *piece, size_t length) {
  char *more = ts_text_more(text, length);
  if (length) memcpy(more, piece, length);
}

void ts_text_add(ts_text *text, const char *piece) {
  if (piece) ts_text_add_n(text, piece, strlen(piece));
}

void ts_text_addf(ts_text *text, const char *format, ...) {
  enum { MOSTLY = 120 }; /* so much room is enough for nearly everything */
  va_list list;
  make_room(text, MOSTLY);
  va_start(list, format);
  int length = vsnprintf(text->data + text->length, MOSTLY + 1, format, list);
  va_end(list);
  if (length < 0) abort(); /* a wrong format string: our own mistake */
  if (length > MOSTLY) {
    make_room(text, (size_t)length);
    va_start(list, format);
    vsnprintf(text->data + text->length, (size_t)length + 1, format, list);
    va_end(list);
  }
  text->length += (size_t)length;
}

char *ts_join(char *out, size_t size, const char *const *pieces, size_t count) {
  size_t at = 0;
  for (size_t i = 0; i < count && at + 1 < size; i++) {
    size_t length = strlen(pieces[i]), room = size - 1 - at;
    if (length > room) length = room;
    memcpy(out + at, pieces[i], length);
    at += length;
  }
  if (size > 0) out[at] = '\0';
  return out;
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

size_t ts_character(const char *at) {
  static const unsigned smallest[] = {0, 0, 0x80, 0x800, 0x10000};
  const unsigned char *c = (const unsigned char *)at;
  if (c[0] < 0x80) return c[0] >= 0x20 || c[0] == '\t' || c[0] == '\n' || c[0] == '\r';
  size_t length = c[0] >= 0xF0 ? 4 : c[0] >= 0xE0 ? 3 : 2;
  if (c[0] < 0xC2 || c[0] > 0xF4) return 0;
  unsigned value = c[0] & (0xFFu >> (length + 1));
  for (size_t i = 1; i < length; i++) {
    if ((c[i] & 0xC0) != 0x80) return 0;
    value = value << 6 | (c[i] & 0x3F);
  }
  bool wrong = value < smallest[length] || value > 0x10FFFF ||
               (value >= 0xD800 && value < 0xE000) || value == 0xFFFE || value == 0xFFFF;
  return wrong ? 0 : length;
}

bool ts_turns_direction(const char *c) {
  return c[0] == '\xE2' && ((c[1] == '\x80' && c[2] >= '\xAA' && c[2] <= '\xAE') ||
                            (c[1] == '\x81' && c[2] >= '\xA6' && c[2] <= '\xA9'));
}

/* Eight characters from the blank to '~' at once; false where one may be another. In each byte the
 * highest bit shows what is 128 or more, what is less than a blank and what is 127. */
static bool plain_eight(const char *text) {
  const uint64_t each = 0x0101010101010101;
  uint64_t eight;
  memcpy(&eight, text, sizeof eight);
  return ((eight | (eight - 0x20 * each) | (eight + each)) & 0x80 * each) == 0;
}

const char *ts_text_trouble(const char *text, size_t length) {
  for (const char *end = text + length; text < end;) {
    if (end - text >= 8 && plain_eight(text)) {
      text += 8;
      continue;
    }
    if (*text >= ' ' && *text < '\x7F') { /* nearly all */
      text++;
      continue;
    }
    size_t n = ts_character(text);
    if (n == 0)
      return (unsigned char)*text < 0x20 ? "a control character" : "bytes that are no UTF-8";
    bool control = *text == '\x7F' || (n == 2 && text[0] == '\xC2' && text[1] < '\xA0');
    if (control) return "a control character";
    if (n == 3 && ts_turns_direction(text)) return "a character that turns the direction of writing";
    text += n;
  }
  return NULL;
}

/* FNV-1a. */
uint64_t ts_hash(uint64_t seed, const char *text) {
  uint64_t h = 14695981039346656037u ^ seed;
  for (; *text; text++) h = (h ^ (unsigned char)*text) * 1099511628211u;
  return h ^ h >> 32;
}

uint64_t ts_hash_seed(void) {
  uint64_t seed = 0;
  if (getrandom(&seed, sizeof seed, GRND_NONBLOCK) != sizeof seed) seed = (uint64_t)(uintptr_t)&seed;
  // NOLINTNEXTLINE(clang-analyzer-core.StackAddressEscape): a number by then, nobody goes there
  return seed;
}

bool ts_ends_in(const char *text, const char *end) {
  size_t n = strlen(text), m = strlen(end);
  return n >= m && strcmp(text + n - m, end) == 0;
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
