/* Plain text: what people type, as the ASCII that the reader knows.
 *
 * Internal to quantity/. `°C`, `m³`, `µ`, `·`, `±`, a real minus sign, `…` and
 * the various spaces become degC, m^3, u, `.`, `+-`, `-`, `..` and a space;
 * runs of spaces become one and those at the ends go. */
#ifndef TS_QUANTITY_PLAIN_H
#define TS_QUANTITY_PLAIN_H

#include <stdbool.h>
#include <stddef.h>

enum {
  TS_INPUT_MAX = 256,             /* bytes of a quantity as written */
  TS_PLAIN_SIZE = 2 * 256 + 1 + 8 /* the longest replacement is twice what it replaces */
};

/* False, with a reason in `why`, for a text that is too long, empty or holds
 * a character no quantity has. `out` has room for TS_PLAIN_SIZE bytes. */
bool ts_plain_text(const char *text, char *out, char *why, size_t size);

#endif
