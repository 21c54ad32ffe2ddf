/* Runs the examples of some rules again and again, for mutate.py.
 *
 *   tankside-mutants FOLDER...
 *
 * Every line read names rules. For each the packs in the folders are loaded afresh, and the
 * answer is one line: "lives" when every example of those rules comes out as it says; else
 * "dies RULE", the first whose examples do not; "unread" when the packs do not load. */
#include "rule/rule.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
  const ts_units *units;
  char **folders;
} bench;

static size_t rule_named(const ts_packs *packs, const char *id) {
  size_t i = 0, count = ts_rule_count(packs);
  while (i < count && strcmp(ts_rule_at(packs, i)->id, id) != 0) i++;
  if (i < count) return i;
  fprintf(stderr, "no rule \"%s\"\n", id);
  exit(EXIT_FAILURE);
}

static const char *first_to_fail(const ts_packs *packs, char *ids, ts_diagnostics *problems) {
  for (char *id = strtok_r(ids, " \n", &ids); id; id = strtok_r(NULL, " \n", &ids)) {
    size_t rule = rule_named(packs, id);
    if (ts_rule_examples_run(packs, rule, problems) < ts_rule_at(packs, rule)->example_count)
      return id;
  }
  return NULL;
}

static void answer(const bench *b, char *ids) {
  ts_diagnostics *problems = ts_diagnostics_new();
  ts_vocabulary *vocabulary = ts_vocabulary_new(); /* a pack may add facts to it */
  ts_packs *packs = ts_packs_new(b->units, vocabulary);
  bool good = true;
  for (char **folder = b->folders; *folder; folder++)
    good = ts_packs_load(packs, *folder, problems) && good;
  const char *failed = good ? first_to_fail(packs, ids, problems) : NULL;
  printf("%s%s\n", !good ? "unread" : failed ? "dies " : "lives", failed ? failed : "");
  fflush(stdout);
  if (getenv("MUTANTS_SHOW") != NULL) ts_diagnostics_print(problems, stderr);
  ts_packs_free(packs);
  ts_vocabulary_free(vocabulary);
  ts_diagnostics_free(problems);
}

int main(int argc, char **argv) {
  char why[256] = "", line[65536];
  ts_units *units = ts_units_new(why, sizeof why);
  if (argc < 2 || units == NULL) {
    fprintf(stderr, "usage: tankside-mutants FOLDER... %s\n", why);
    return EXIT_FAILURE;
  }
  bench b = {units, argv + 1};
  while (fgets(line, sizeof line, stdin)) answer(&b, line);
  ts_units_free(units);
  return EXIT_SUCCESS;
}
