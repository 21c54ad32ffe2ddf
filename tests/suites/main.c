/* Runs the suites: all of them, or those named on the command line.
 *
 *   tankside-tests [--list] [suite ...]
 *
 * The list is written by CMake from the file names: test_x.c gives suite_x. The
 * last line of the output is `checks: <passed> <failed>` for tests/run.sh. */
#include <check.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define SUITE(kind, name) Suite *suite_##name(void);
#include "suite_list.h"
#undef SUITE

typedef struct {
  const char *kind, *name;
  Suite *(*make)(void);
} entry;

static const entry entries[] = {
#define SUITE(kind, name) {kind, #name, suite_##name},
#include "suite_list.h"
#undef SUITE
    {NULL, NULL, NULL}};

static bool wanted(const entry *e, int count, char **names) {
  for (int i = 0; i < count; i++)
    if (strcmp(names[i], e->name) == 0 || strcmp(names[i], e->kind) == 0) return true;
  return count == 0;
}

static int list(void) {
  for (const entry *e = entries; e->name; e++) printf("%s %s\n", e->kind, e->name);
  return EXIT_SUCCESS;
}

int main(int argc, char **argv) {
  if (argc == 2 && strcmp(argv[1], "--list") == 0) return list();
  SRunner *runner = srunner_create(NULL);
  int chosen = 0;
  for (const entry *e = entries; e->name; e++) {
    if (!wanted(e, argc - 1, argv + 1)) continue;
    srunner_add_suite(runner, e->make());
    chosen++;
  }
  srunner_run_all(runner, CK_ENV);
  int run = srunner_ntests_run(runner), failed = srunner_ntests_failed(runner);
  srunner_free(runner);
  printf("checks: %d %d\n", run - failed, failed);
  return chosen > 0 && run > 0 && failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
