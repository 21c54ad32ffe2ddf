/* Names that can be given: of what came with the program. */
#include "base/file.h"
#include "base/text.h"
#include "command/command.h"
#include "tankside/document.h"
#include <string.h>

/* Names of files or folders in a folder of the data, without what stands before and after. */
static const char *const *in_folder(ts_arena *arena, const char *folder, const char *before,
                                    const char *after) {
  ts_diagnostics *unsaid = ts_diagnostics_new();
  char **files = ts_folder_list(arena, ts_data_path(arena, folder), after, unsaid);
  ts_diagnostics_free(unsaid);
  size_t count = 0, skip = strlen(before), cut = ts_same(after, "/") ? 0 : strlen(after);
  while (files != NULL && files[count] != NULL) count++;
  const char **names = ts_arena_alloc(arena, (count + 1) * sizeof *names);
  count = 0;
  for (size_t i = 0; files != NULL && files[i] != NULL; i++)
    if (strncmp(files[i], before, skip) == 0)
      names[count++] = ts_arena_copy_n(arena, files[i] + skip, strlen(files[i]) - skip - cut);
  return names;
}

/* A country, or a country and a part of it: "gb", "us-ca". */
static bool is_jurisdiction(const char *pack) {
  return strspn(pack, "abcdefghijklmnopqrstuvwxyz") == 2 && (pack[2] == '\0' || pack[2] == '-');
}

static const char *const *jurisdictions(ts_arena *arena) {
  const char *const *packs = in_folder(arena, "rules", "", "/");
  size_t count = 0;
  while (packs[count] != NULL) count++;
  const char **names = ts_arena_alloc(arena, (count + 1) * sizeof *names);
  count = 0;
  for (size_t i = 0; packs[i] != NULL; i++)
    if (is_jurisdiction(packs[i])) names[count++] = packs[i];
  return names;
}

const char *const *choices(ts_arena *arena, value_kind kind) {
  static const char *const none[] = {NULL}, *const units[] = {"metric", "us", NULL};
  switch (kind) {
  case A_PAPER: return papers;
  case A_SHEET: return ts_sheet_names();
  case A_UNIT_SYSTEM: return units;
  case A_LANGUAGE: return in_folder(arena, "templates", "words-", ".xml");
  case A_MATRIX: return in_folder(arena, "shared/matrices", "", ".xml");
  case A_PACK: return in_folder(arena, "rules", "", "/");
  case A_JURISDICTION: return jurisdictions(arena);
  default: return none;
  }
}
