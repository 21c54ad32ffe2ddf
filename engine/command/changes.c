/* One assessment against another, in a few lines. */
#include "command/command.h"
#include "tankside/document.h"
#include <stdlib.h>

bool print_changes(ts_arena *arena, const ts_assessment *before, const ts_assessment *now,
                   ts_diagnostics *problems) {
  const ts_assessment *const made[] = {before, now};
  char *comparison, *text = NULL;
  size_t length;
  if (!ts_compare_made(made, &comparison, &length, problems)) return false;
  bool good = ts_comparison_render(comparison, length, "brief", &text, &length, problems);
  if (good) print_lines(arena, text);
  free(comparison);
  free(text);
  return good;
}
