#include "said.h"

#include <stdlib.h>

char *said_of(const ts_diagnostics *problems, ts_arena *arena) {
  char *text = NULL;
  size_t size = 0;
  FILE *out = open_memstream(&text, &size);
  ts_diagnostics_print(problems, out);
  fclose(out);
  char *copy = ts_arena_copy(arena, text);
  free(text);
  return copy;
}
