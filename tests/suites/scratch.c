#include "scratch.h"

#include <check.h>
#include <dirent.h>
#include <ftw.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void scratch_make(char *path, size_t size) {
  const char *base = getenv("TMPDIR");
  snprintf(path, size, "%s/tankside-XXXXXX", base && *base ? base : P_tmpdir);
  ck_assert_msg(mkdtemp(path) != NULL, "no scratch folder");
}

static int remove_one(const char *path, const struct stat *about, int kind, struct FTW *where) {
  (void)about, (void)kind, (void)where;
  return remove(path);
}

void scratch_remove(const char *path) {
  ck_assert_int_eq(nftw(path, remove_one, 8, FTW_DEPTH | FTW_PHYS), 0);
}

int scratch_count(const char *path) {
  int count = 0;
  DIR *folder = opendir(path);
  ck_assert_ptr_nonnull(folder);
  for (struct dirent *entry; (entry = readdir(folder));)
    count += strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0;
  closedir(folder);
  return count;
}
