/* Text folded at the width of a terminal. */
#include "base/text.h"
#include "command/command.h"
#include <stdio.h>
#include <string.h>

enum { WIDTH = 80 };

/* Characters, not bytes: continuation bytes do not count. */
static size_t columns(const char *text, size_t bytes) {
  size_t count = 0;
  for (size_t i = 0; i < bytes; i++) count += ((unsigned char)text[i] & 0xC0) != 0x80;
  return count;
}

/* A number and what it counts, or a capital and its number, stay on one line. */
static bool holds(const char *word, size_t bytes, const char *next) {
  bool is_capital = bytes == 1 && *word >= 'A' && *word <= 'Z';
  return strspn(word, "0123456789.:") >= bytes || (is_capital && strspn(next, "0123456789") > 0);
}

/* A word and up to two that stay with it. */
static size_t unbroken(const char *text) {
  const char *word = text;
  size_t bytes = strcspn(word, " \n\t");
  for (int k = 0; k < 2; k++, bytes = strcspn(word, " \n\t")) {
    const char *next = word + bytes + 1;
    bool comes = word[bytes] == ' ' && strcspn(next, " \n\t") > 0;
    if (!comes || !holds(word, bytes, next)) break;
    word = next;
  }
  return (size_t)(word - text) + bytes;
}

const char *plural(size_t count) { return count == 1 ? "" : "s"; }

void print_folded(const char *first, const char *text) {
  size_t indent = columns(first, strlen(first)), at = indent;
  if (indent > WIDTH / 3) indent = 8; /* a long head: what follows is not squeezed beside it */
  bool begun = false;
  fputs(first, stdout);
  for (const char *word = text; *(word += strspn(word, " \n\t")) != '\0';) {
    size_t bytes = unbroken(word), width = columns(word, bytes);
    if (begun && at + 1 + width > WIDTH) {
      printf("\n%*s", (int)indent, "");
      at = indent;
      begun = false;
    }
    if (begun) fputc(' ', stdout);
    fwrite(word, 1, bytes, stdout);
    at += width + begun;
    begun = true;
    word += bytes;
  }
  fputc('\n', stdout);
}

void print_lines(ts_arena *arena, const char *text) {
  for (const char *at = text; *at != '\0';) {
    size_t head = strcspn(at, "\t"), all = strcspn(at, "\n");
    const char *line = ts_arena_copy_n(arena, at, all);
    if (head > all) head = all;
    print_folded(ts_arena_copy_n(arena, at, head), line + head + (head < all));
    at += all + (at[all] == '\n');
  }
}

void print_cut(const char *text, int width) {
  size_t bytes = 0;
  int at = 0;
  bool cut = (int)columns(text, strlen(text)) > width;
  for (; text[bytes] != '\0' && at < width - cut; at++) do
      bytes++;
    while (((unsigned char)text[bytes] & 0xC0) == 0x80);
  fwrite(text, 1, bytes, stdout);
  if (cut) fputs("…", stdout);
  printf("%*s", width - at - cut, "");
}
