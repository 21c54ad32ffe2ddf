#include "command/paths.h"

#include "base/file.h"
#include "base/text.h"
#include <stdlib.h>
#include <string.h>

enum { LIST_LIMIT = 256 * 1024 * 1024 };

typedef struct {
  ts_paths *paths;
  size_t under; /* the length of the folder they are looked for in */
} search;

static void found(void *context, const char *path) {
  const search *now = context;
  ts_paths *p = now->paths;
  size_t under = now->under;
  TS_GROW(p->at, p->count, p->capacity);
  for (; strncmp(path, "./", 2) == 0; path += 2) under = under > 2 ? under - 2 : 0;
  p->at[p->count++] = (ts_found_path){ts_arena_copy(p->s->arena, path), under};
}

static bool add_under(ts_paths *p, const char *word, size_t under) {
  search now = {p, under};
  if (ts_folder_exists(word)) return ts_folder_walk(word, p->name, found, &now, p->s->problems);
  found(&now, word); /* what is not there is named when it is read */
  return true;
}

bool paths_add(ts_paths *p, const char *word) {
  return add_under(p, word, ts_folder_exists(word) ? strlen(word) : 0);
}

bool paths_add_list(ts_paths *p, const char *list) {
  ts_arena *arena = p->s->arena;
  const char *folder = ts_path_folder(arena, list);
  const char *text = ts_file_read(arena, list, LIST_LIMIT, NULL, p->s->problems);
  bool good = text != NULL;
  for (const char *at = text; at != NULL && *at != '\0';
       at += strcspn(at, "\n"), at += *at == '\n') {
    char *name = ts_arena_copy_n(arena, at, strcspn(at, "\r\n"));
    if (name[0] == '\0' || name[0] == '#') continue;
    const char *path = ts_path_join(arena, folder, name);
    good = add_under(p, path, strlen(path) - strlen(name)) && good;
  }
  return good;
}

static int by_bytes(const void *a, const void *b) {
  return strcmp(((const ts_found_path *)a)->path, ((const ts_found_path *)b)->path);
}

void paths_in_order(ts_paths *p) {
  size_t kept = 0;
  if (p->count > 0) qsort(p->at, p->count, sizeof *p->at, by_bytes);
  for (size_t i = 0; i < p->count; i++)
    if (i == 0 || !ts_same(p->at[i].path, p->at[kept - 1].path)) p->at[kept++] = p->at[i];
  p->count = kept;
}
