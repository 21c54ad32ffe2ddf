/* Small helpers on words, shared by the files of this stage. */
#ifndef TS_DOSSIER_WORDS_H
#define TS_DOSSIER_WORDS_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>

/* A copy without white space at either end. */
char *ts_words_trim(ts_arena *arena, const char *text);

/* Takes the next word from *at (words stand between any of `between`), or NULL at the end. */
char *ts_words_next(ts_arena *arena, const char **at, const char *between);

/* True when `text` is a name: letters, digits, '.', '_' and '-', not starting with '-' or '.'. */
bool ts_words_name(const char *text);

#endif
