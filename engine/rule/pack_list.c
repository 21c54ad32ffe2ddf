/* What is signed of a pack: the list of its rule files; and where its signatures stand. */
#include "base/digest.h"
#include "base/file.h"
#include "base/text.h"
#include "rule/packs_int.h"
#include <string.h>

#define SIGNATURES "signatures.xml"

char *ts_pack_file_read(ts_arena *arena, const char *folder, const char *pack, const char *name,
                        size_t *length, ts_diagnostics *problems) {
  if (ts_path_inside(folder, name))
    return ts_file_read(arena, ts_path_join(arena, folder, name), TS_PACK_FILE_LIMIT, length,
                        problems);
  ts_report(problems, TS_ERROR, ts_arena_printf(arena, "%s/%s", pack, name), 0,
            "leads out of the pack's folder; a pack is read from its folder only");
  return NULL;
}

/* ---- the list ------------------------------------------------------------------------------ */

static ts_pack_line line_of(ts_arena *arena, const char *name, const char *text, size_t length) {
  char digest[65];
  return (ts_pack_line){name, ts_arena_copy(arena, ts_digest(text, length, digest))};
}

static bool list_folder(ts_arena *arena, const char *path, ts_pack_list *list,
                        ts_diagnostics *problems) {
  char **names = ts_folder_list(arena, path, ".lua", problems);
  size_t count = 0, length;
  bool good = names != NULL;
  while (names != NULL && names[count] != NULL) count++;
  list->files = ts_arena_alloc(arena, (count + 1) * sizeof *list->files);
  for (size_t i = 0; i < count; i++) {
    const char *text = ts_pack_file_read(arena, path, list->name, names[i], &length, problems);
    if (text != NULL) list->files[list->count++] = line_of(arena, names[i], text, length);
    good = good && text != NULL;
  }
  return good;
}

static bool list_zip(ts_arena *arena, const char *path, ts_pack_list *list,
                     ts_diagnostics *problems) {
  ts_pack_member *members = ts_pack_unzip(arena, path, NULL, &list->count, problems);
  if (members == NULL) return false;
  list->files = ts_arena_alloc(arena, (list->count + 1) * sizeof *list->files);
  for (size_t i = 0; i < list->count; i++)
    list->files[i] = line_of(arena, members[i].name, members[i].text, members[i].length);
  return true;
}

bool ts_pack_list_read(ts_arena *arena, const char *path, ts_pack_list *list,
                       ts_diagnostics *problems) {
  *list = (ts_pack_list){.name = ts_pack_name(arena, path)};
  bool good = ts_pack_is_zip(path) ? list_zip(arena, path, list, problems)
                                   : list_folder(arena, path, list, problems);
  if (!good || list->count > 0) return good;
  ts_report(problems, TS_ERROR, path, 0, "no rule files (*.lua) in it");
  return false;
}

bool ts_pack_is_loaded(const ts_packs *packs, const char *as) {
  for (size_t i = 0; i < packs->file_count; i++)
    if (ts_same(packs->files[i].pack, as)) return true;
  return false;
}

ts_pack_list ts_pack_list_loaded(const ts_packs *packs, ts_arena *arena, const char *path,
                                 const char *as) {
  const char *own = ts_pack_name(arena, path);
  ts_pack_list list = {.name = ts_same(own, as) ? own : NULL};
  list.files = ts_arena_alloc(arena, (packs->file_count + 1) * sizeof *list.files);
  for (size_t i = 0; i < packs->file_count; i++) {
    const ts_pack_file *file = &packs->files[i];
    if (ts_same(file->pack, as))
      list.files[list.count++] = line_of(arena, ts_path_name(file->name), file->text, file->length);
  }
  return list;
}

/* ---- its signatures ------------------------------------------------------------------------ */

const char *ts_pack_signed_path(ts_arena *arena, const char *path) {
  return ts_pack_is_zip(path) ? ts_arena_printf(arena, "%s." SIGNATURES, path)
                              : ts_path_join(arena, path, SIGNATURES);
}

/* An archive of a folder that was signed has them inside. */
static bool read_inside(ts_arena *arena, const char *path, ts_pack_signed *into,
                        ts_diagnostics *problems) {
  ts_pack_member aside = {.name = SIGNATURES};
  size_t count = 0;
  bool good = ts_pack_unzip(arena, path, &aside, &count, problems) != NULL;
  if (aside.text != NULL)
    *into = (ts_pack_signed){ts_path_join(arena, path, SIGNATURES), aside.text, aside.length};
  return good;
}

bool ts_pack_signed_read(ts_arena *arena, const char *path, ts_pack_signed *into,
                         ts_diagnostics *problems) {
  const char *file = ts_pack_signed_path(arena, path);
  *into = (ts_pack_signed){0};
  if (!ts_file_exists(file))
    return !ts_pack_is_zip(path) || read_inside(arena, path, into, problems);
  into->path = file;
  into->text = ts_pack_is_zip(path)
                   ? ts_file_read(arena, file, TS_PACK_FILE_LIMIT, &into->length, problems)
                   : ts_pack_file_read(arena, path, ts_pack_name(arena, path), SIGNATURES,
                                       &into->length, problems);
  return into->text != NULL;
}

/* ---- who signed ----------------------------------------------------------------------------- */

void ts_pack_signer_add(ts_packs *packs, const ts_pack_signer *signer) {
  ts_arena *arena = packs->arena;
  TS_GROW(packs->signers, packs->signer_count, packs->signer_capacity);
  packs->signers[packs->signer_count++] =
      (ts_pack_signer){ts_arena_copy(arena, signer->pack), ts_arena_copy(arena, signer->who),
                       ts_arena_copy(arena, signer->on), ts_arena_copy(arena, signer->as)};
}

size_t ts_pack_signer_count(const ts_packs *packs) { return packs->signer_count; }

const ts_pack_signer *ts_pack_signer_at(const ts_packs *packs, size_t index) {
  return &packs->signers[index];
}
