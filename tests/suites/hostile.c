#include "hostile.h"

#include "base/file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LIMIT = 1 << 20, CASES_MAX = 256 };

/* The cases are read before any test runs: what is wrong with the file ends the whole. */
static void need(bool holds, const char *what, const char *where) {
  if (holds) return;
  fprintf(stderr, "tests/hostile: %s: %.60s\n", what, where);
  exit(2);
}

static char byte_of(const char *hex) {
  return (char)strtol((char[]){hex[0], hex[1], '\0'}, NULL, 16);
}

/* `«N*text»` is N times the text, `\xHH` a byte; everything else is itself. */
static void write_out(const char *from, const char *end, ts_text *into) {
  while (from < end) {
    char *star = NULL;
    long times = strncmp(from, "«", 2) == 0 ? strtol(from + 2, &star, 10) : 0;
    if (times > 0 && *star == '*') {
      const char *close = strstr(star, "»");
      need(close != NULL, "a repetition that does not end", from);
      for (long i = 0; i < times; i++) ts_text_add_n(into, star + 1, (size_t)(close - star - 1));
      from = close + 2;
    } else if (strncmp(from, "\\x", 2) == 0) {
      char byte = byte_of(from + 2);
      ts_text_add_n(into, &byte, 1);
      from += 4;
    } else {
      ts_text_add_n(into, from++, 1);
    }
  }
}

static int lines_before(const char *text, const char *at) {
  int lines = 1;
  for (; text < at; text++) lines += *text == '\n';
  return lines;
}

/* One case, from its "--- " on; `end` is where the next begins. */
static hostile_case read_case(const char *at, const char *end, ts_arena *arena) {
  const char *verdict = strchr(at, '\n') + 1, *colon = strchr(verdict, ':'),
             *body = strchr(verdict, '\n') + 1;
  need(colon != NULL && colon + 2 < body && strchr("rfb", *verdict), "no verdict", at);
  ts_text text = {0};
  write_out(body, end, &text);
  hostile_case found = {.name = ts_arena_printf(arena, "%.*s", (int)(verdict - at - 5), at + 4),
                        .verdict = *verdict,
                        .says = ts_arena_printf(arena, "%.*s", (int)(body - colon - 3), colon + 2),
                        .length = text.length};
  char *copy = ts_arena_alloc(arena, text.length + 1);
  memcpy(copy, text.data, text.length);
  copy[text.length] = '\0';
  found.text = copy;
  ts_text_release(&text);
  return found;
}

const hostile_case *hostile_cases(const char *file, ts_arena *arena, size_t *count) {
  ts_diagnostics *problems = ts_diagnostics_new();
  size_t length;
  const char *path = ts_arena_printf(arena, "%s/tests/hostile/%s", SOURCE_FOLDER, file);
  const char *text = ts_file_read(arena, path, LIMIT, &length, problems);
  ts_diagnostics_free(problems);
  need(text != NULL, "cannot be read", path);
  hostile_case *cases = ts_arena_alloc(arena, CASES_MAX * sizeof *cases);
  *count = 0;
  for (const char *at = strstr(text, "\n--- "), *next; at != NULL; at = next) {
    next = strstr(at + 1, "\n--- ");
    need(*count < CASES_MAX, "too many cases", at);
    cases[*count] = read_case(at + 1, next != NULL ? next + 1 : text + length, arena);
    cases[(*count)++].line = lines_before(text, at + 1);
  }
  return cases;
}
