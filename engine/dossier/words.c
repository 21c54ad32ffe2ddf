#include "dossier/words.h"

#include <string.h>

static const char blanks[] = " \t\r\n";

char *ts_words_trim(ts_arena *arena, const char *text) {
  text += strspn(text, blanks);
  size_t length = strlen(text);
  while (length && strchr(blanks, text[length - 1])) length--;
  return ts_arena_copy_n(arena, text, length);
}

char *ts_words_next(ts_arena *arena, const char **at, const char *between) {
  *at += strspn(*at, between);
  size_t length = strcspn(*at, between);
  if (!length) return NULL;
  char *word = ts_words_trim(arena, ts_arena_copy_n(arena, *at, length));
  *at += length;
  return word;
}

bool ts_words_name(const char *text) {
  static const char letters[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-.";
  return *text && *text != '-' && *text != '.' && strspn(text, letters) == strlen(text);
}
