/* Every function of the registry is checked against something other than itself: by two published
 * figures at different arguments at least, or by a test that works the result out another way. */
#include <string.h>

#include "figures.h"

/* Every file has a suite, and those with a table have its rows; a weak name is NULL where not. */
#define SUITE(kind, name) figure_rows figures_of_##name(void) __attribute__((weak));
#include "suite_list.h"
#undef SUITE

typedef figure_rows (*rows_of_file)(void);
static const rows_of_file files[] = {
#define SUITE(kind, name) figures_of_##name,
#include "suite_list.h"
#undef SUITE
};
enum { FILES = sizeof files / sizeof *files };

/* Nobody has published a value of these; what is done instead, and where. */
static const struct {
  const char *function, *how;
} derived[] = {
    {"alveolar_oxygen_after", "test_derived.c: lungs counted in moles"},
    {"breath_hold_to_oxygen", "test_derived.c: lungs counted in moles"},
    {"no_stop_limit_model", "test_decompression.c: where a compartment is full"},
    {"plunge_depth", "test_derived.c: the fall under water in small steps"},
};
enum { DERIVED = sizeof derived / sizeof *derived };

static bool is_derived(const char *function) {
  for (int i = 0; i < DERIVED; i++)
    if (strcmp(derived[i].function, function) == 0) return true;
  return false;
}

/* Counts the rows of a function, those at the arguments of an earlier row not again. */
static int figures_for(const char *function) {
  const figure *first = NULL;
  int count = 0;
  for (int i = 0; i < FILES; i++) {
    figure_rows table = files[i] != NULL ? files[i]() : (figure_rows){NULL, 0};
    for (size_t k = 0; k < table.count; k++) {
      const figure *row = &table.rows[k];
      if (strcmp(row->function, function) != 0) continue;
      if (first != NULL && memcmp(first->x, row->x, sizeof row->x) == 0) continue;
      if (first == NULL) first = row;
      count++;
    }
  }
  return count;
}

START_TEST(every_function_has_two_figures) {
  for (const ts_function *f = ts_functions(); f->name != NULL; f++) {
    int count = figures_for(f->name);
    ck_assert_msg(count >= 2 || is_derived(f->name),
                  "%s has %d published figures: add some beside those of its topic", f->name,
                  count);
  }
}
END_TEST

/* A row left here after a function went, or after figures came, would hide the next gap. */
START_TEST(derived_ones_need_it) {
  for (int i = 0; i < DERIVED; i++) {
    ck_assert_msg(ts_function_find(derived[i].function) != NULL, "no %s", derived[i].function);
    ck_assert_msg(figures_for(derived[i].function) < 2, "%s has figures", derived[i].function);
  }
}
END_TEST

START_TEST(figures_are_many_and_say_why) {
  size_t count = 0;
  for (int i = 0; i < FILES; i++) {
    figure_rows table = files[i] != NULL ? files[i]() : (figure_rows){NULL, 0};
    count += table.count;
    for (size_t k = 0; k < table.count; k++) {
      const figure *row = &table.rows[k];
      ck_assert_msg(row->id != NULL && row->why != NULL && row->source != NULL,
                    "a figure of %s lacks a text", row->function);
      ck_assert_msg(ts_function_find(row->function) != NULL, "%s: no function %s", row->id,
                    row->function);
    }
  }
  ck_assert_int_ge((int)count, 250);
}
END_TEST

Suite *suite_coverage(void);

Suite *suite_coverage(void) {
  Suite *suite = suite_create("published coverage");
  TCase *all = tcase_create("coverage");
  tcase_add_test(all, every_function_has_two_figures);
  tcase_add_test(all, derived_ones_need_it);
  tcase_add_test(all, figures_are_many_and_say_why);
  suite_add_tcase(suite, all);
  return suite;
}
