/* Text: growing strings, numbers without a locale, nearest names.
 * Low-level; calls nothing above but the arena. */
#ifndef TS_BASE_TEXT_H
#define TS_BASE_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

/* A growing string. Start with `ts_text t = {0}`; `data` is NUL-terminated
 * once anything was added, else NULL. Release with ts_text_release. */
typedef struct {
  char *data;
  size_t length, capacity;
} ts_text;

void ts_text_add(ts_text *text, const char *piece);
void ts_text_add_n(ts_text *text, const char *piece, size_t length);
void ts_text_addf(ts_text *text, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* So many characters more, for the caller to write; until the next is added. */
char *ts_text_more(ts_text *text, size_t length);
void ts_text_release(ts_text *text);
/* Adds words broken at spaces so that no line is wider than `columns` characters, where it can be
 * helped; the first begins at `column`, the others at `indent`. */
void ts_text_add_folded(ts_text *text, const char *words, size_t column, size_t indent,
                        size_t columns);

/* Length of the character at `at`: UTF-8, and one that may stand in XML; 0 where there is none such
 * (a control character, a surrogate, U+FFFE, U+FFFF, bytes that are no UTF-8, the end). */
size_t ts_character(const char *at);
/* What in a text is not to be printed, or NULL: "bytes that are no UTF-8", "a control character",
 * "a character that turns the direction of writing". */
const char *ts_text_trouble(const char *text, size_t length);

/* Whether a character that turns the direction of writing begins there: U+202A to U+202E, U+2066 to
 * U+2069, three bytes each. What is read is then not what is written. */
bool ts_turns_direction(const char *at);

/* The pieces one behind the other, cut off where `size` ends: what snprintf does with "%s%s", in a
 * fifth of the time. Gives `out`. */
char *ts_join(char *out, size_t size, const char *const *pieces, size_t count);
#define TS_JOIN(out, size, ...) \
  ts_join(out, size, (const char *const[]){__VA_ARGS__}, \
          sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *))

bool ts_ends_in(const char *text, const char *end); /* whole, too */
/* Equal strings; NULL equals only NULL. Asked a million times, mostly of strings that differ at
 * once: so here. */
static inline bool ts_same(const char *a, const char *b) {
  return a == b || (a && b && *a == *b && strcmp(a, b) == 0);
}

/* A hash of a text for a table. With a seed of the table's own nobody can choose texts that all fall
 * on one place; what is written may not depend on it. */
uint64_t ts_hash(uint64_t seed, const char *text);
uint64_t ts_hash_seed(void);

/* Edits that turn one text into the other: insert, delete, replace, swap neighbours. */
size_t ts_edits(const char *a, const char *b);

/* The candidate with the smallest edit distance to `name`, or NULL when none
 * is nearer than a third of its length (2 edits are always near, unless nothing is in common). */
const char *ts_nearest(const char *name, const char *const *candidates, size_t count);

/* Reads a decimal number ("-3.25", "1e-3") from the start of `text`, the same
 * in every locale. Returns the first character after it, or NULL when there is no number
 * or none that a double can hold. A point counts only with a digit after it: "3..4" reads 3. */
const char *ts_number_read(const char *text, double *value);

/* Writes the shortest decimal that reads back as exactly this double; at most 32 bytes. */
char *ts_number_write(double value, char *out, size_t size);
/* Writes with at most `digits` significant digits, no exponent, no trailing zeros; with
 * an exponent all the same when `size` would cut it short. */
char *ts_number_round(double value, int digits, char *out, size_t size);

/* The value rounded to so many significant digits. */
double ts_number_digits(double value, int digits);

#endif
