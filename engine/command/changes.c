/* One assessment against another, in a few lines. */
#include "command/command.h"
#include "tankside/document.h"
#include <stdlib.h>

ts_kept kept_new(const ts_assessment *assessment) {
  ts_kept kept;
  ts_assessment_write(assessment, &kept.bytes, &kept.length);
  return kept;
}

void kept_free(ts_kept *kept) {
  free(kept->bytes);
  *kept = (ts_kept){NULL, 0};
}

bool print_changes(ts_arena *arena, const ts_kept *before, const ts_kept *now,
                   ts_diagnostics *problems) {
  const char *const bytes[] = {before->bytes, now->bytes};
  const size_t lengths[] = {before->length, now->length};
  static const char *const names[] = {"as it was", "as it is"};
  char *comparison, *text = NULL;
  size_t length;
  if (!ts_compare(bytes, lengths, names, &comparison, &length, problems)) return false;
  bool good = ts_comparison_render(comparison, length, "brief", &text, &length, problems);
  if (good) print_lines(arena, text);
  free(comparison);
  free(text);
  return good;
}
