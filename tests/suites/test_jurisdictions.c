/* The demo productions under the law of each place: every duty as jurisdictions.tsv says, which
 * was worked out by hand from the law and the dossiers, none that it does not say, and the common
 * rules find the same everywhere. */
#include "assess_world.h"

#include "base/file.h"
#include "base/text.h"
#include <check.h>
#include <stdlib.h>
#include <string.h>

static const char *const places[] = {"gb-eng", "gb-sct", "us-fed", "us-ca", "us-ny"};
static const char *const productions[] = {"lake-stunt", "stage-pool", "tank-serial"};

enum {
  PLACES = sizeof places / sizeof *places,
  PRODUCTIONS = sizeof productions / sizeof *productions
};

/* ---- the table -------------------------------------------------------------------------- */

/* PRODUCTION | RULE | SUBJECTS | a cell for each place | REASON, between tabs. RULE is an id
 * without its pack. SUBJECTS are paths, with what it is about in brackets where that matters, or
 * "all:N". A cell is met, not-met, open, or - where nothing is asked. */
enum { PRODUCTION, RULE, SUBJECTS, CELLS, REASON = CELLS + PLACES, COLUMNS };

typedef struct {
  char *cells[COLUMNS];
  int line;
} row;

typedef struct {
  row *rows;
  size_t count, capacity;
} table;

static void read_row(table *t, char *line, int number) {
  row r = {.line = number};
  int column = 0;
  for (char *cell = strsep(&line, "\t"); cell != NULL; cell = strsep(&line, "\t")) {
    ck_assert_msg(column < COLUMNS, "line %d: too many columns", number);
    r.cells[column++] = cell;
  }
  ck_assert_msg(column == COLUMNS, "line %d: %d columns, not %d", number, column, COLUMNS);
  TS_GROW(t->rows, t->count, t->capacity);
  t->rows[t->count++] = r;
}

static table read_table(assess_world *w) {
  char *text = ts_file_read(w->arena, SOURCE_FOLDER "/tests/suites/jurisdictions.tsv", 1 << 20,
                            NULL, w->problems);
  ck_assert_ptr_nonnull(text);
  table t = {0};
  int number = 0;
  for (char *line = strsep(&text, "\n"); line != NULL; line = strsep(&text, "\n")) {
    number++;
    if (line[0] != '\0' && line[0] != '#') read_row(&t, line, number);
  }
  ck_assert_uint_gt(t.count, 0);
  return t;
}

/* ---- duties against it ------------------------------------------------------------------- */

typedef struct {
  assess_world w;
  ts_assessment *a;
  const char *production, *place;
  const char *cell; /* what the row now looked at says */
  const row *row;
  bool *told; /* per duty: some row speaks of it */
} looking;

static bool of_rule(const ts_finding_view *duty, const char *suffix) {
  const char *dot = strchr(duty->rule, '.');
  return dot != NULL && ts_same(dot + 1, suffix);
}

static void check_duty(looking *l, size_t index) {
  ts_finding_view duty = ts_duty_at(l->a, index);
  ck_assert_msg(!l->told[index], "line %d: %s on %s is said twice", l->row->line, duty.rule,
                duty.subject);
  ck_assert_msg(ts_same(duty.state, l->cell),
                "%s under %s, line %d: %s on %s [%s] is %s, not %s: %s", l->production, l->place,
                l->row->line, duty.rule, duty.subject, duty.about, duty.state, l->cell,
                l->row->cells[REASON]);
  l->told[index] = true;
}

/* How many duties of the row's rule are about `subject`, each checked; NULL: about any. */
static size_t check_those(looking *l, const char *subject, const char *about) {
  size_t count = 0;
  for (size_t i = 0; i < ts_duty_count(l->a); i++) {
    ts_finding_view duty = ts_duty_at(l->a, i);
    if (!of_rule(&duty, l->row->cells[RULE])) continue;
    if (subject != NULL && !ts_same(duty.subject, subject)) continue;
    if (about != NULL && !ts_same(duty.about, about)) continue;
    count++;
    if (!ts_same(l->cell, "-")) check_duty(l, i);
  }
  return count;
}

static void check_subject(looking *l, char *word) {
  char *about = strchr(word, '[');
  if (about != NULL) {
    *about++ = '\0';
    about[strlen(about) - 1] = '\0';
  }
  size_t wanted = 0, count;
  if (sscanf(word, "all:%zu", &wanted) == 1)
    count = check_those(l, NULL, about);
  else
    count = check_those(l, word, about);
  bool none = ts_same(l->cell, "-");
  ck_assert_msg(none         ? count == 0
                : wanted > 0 ? count == wanted
                             : count > 0,
                "%s under %s, line %d: %zu duties of %s on %s", l->production, l->place,
                l->row->line, count, l->row->cells[RULE], word);
}

static void check_row(looking *l, size_t place) {
  char *copy = ts_arena_copy(l->w.arena, l->row->cells[SUBJECTS]), *rest = copy;
  l->cell = l->row->cells[CELLS + place];
  for (char *word = strsep(&rest, ";"); word != NULL; word = strsep(&rest, ";"))
    check_subject(l, word);
}

static void check_nothing_else(const looking *l) {
  for (size_t i = 0; i < ts_duty_count(l->a); i++) {
    ts_finding_view duty = ts_duty_at(l->a, i);
    ck_assert_msg(l->told[i], "%s under %s: the table does not speak of %s on %s [%s], %s",
                  l->production, l->place, duty.rule, duty.subject, duty.about, duty.state);
  }
}

static looking look_at(const char *production, const char *place) {
  looking l = {.production = production, .place = place};
  assess_world_under(&l.w, production, place);
  l.a = assess_world_run(&l.w);
  l.told = ts_alloc((ts_duty_count(l.a) + 1) * sizeof *l.told);
  return l;
}

static void look_away(looking *l) {
  free(l->told);
  ts_assessment_free(l->a);
  assess_world_free(&l->w);
}

static void check_duties(looking *l, size_t place) {
  table t = read_table(&l->w);
  for (size_t i = 0; i < t.count; i++) {
    l->row = &t.rows[i];
    if (ts_same(l->row->cells[PRODUCTION], l->production)) check_row(l, place);
  }
  check_nothing_else(l);
  free(t.rows);
}

/* ---- what no law changes ------------------------------------------------------------------- */

static bool is_common(const looking *l, const ts_finding_view *f) {
  for (size_t i = 0; i < ts_rule_count(l->w.packs); i++)
    if (ts_same(ts_rule_at(l->w.packs, i)->id, f->rule))
      return ts_same(ts_rule_at(l->w.packs, i)->pack, "common");
  return false;
}

static void add_standing(ts_text *text, const ts_standing *s) {
  ts_text_addf(text, " %dx%d %dx%d %d", s->worst.likelihood, s->worst.severity, s->best.likelihood,
               s->best.severity, (int)s->certainty);
}

static int by_bytes(const void *a, const void *b) {
  return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* All that the common rules say, in the order of rules and subjects. */
static const char *common_said(const looking *l) {
  const char **lines = ts_alloc((ts_finding_count(l->a) + 1) * sizeof *lines);
  size_t count = 0;
  for (size_t i = 0; i < ts_finding_count(l->a); i++) {
    ts_finding_view f = ts_finding_at(l->a, i);
    if (!is_common(l, &f)) continue;
    ts_text line = {0};
    ts_text_addf(&line, "%s %s [%s] %s", f.rule, f.subject, f.about, f.because);
    for (int v = 0; v < TS_VIEWS; v++) add_standing(&line, &f.standing[v]);
    lines[count++] = ts_arena_copy(l->w.arena, line.data);
    ts_text_release(&line);
  }
  ck_assert_uint_gt(count, 50);
  qsort(lines, count, sizeof *lines, by_bytes);
  ts_text all = {0};
  for (size_t i = 0; i < count; i++) ts_text_addf(&all, "%s\n", lines[i]);
  free(lines);
  const char *copy = ts_arena_copy(l->w.arena, all.data);
  ts_text_release(&all);
  return copy;
}

START_TEST(each_duty_is_as_the_law_of_the_place_has_it) {
  looking first = look_at(productions[_i], places[0]);
  check_duties(&first, 0);
  const char *common = common_said(&first);
  for (size_t place = 1; place < PLACES; place++) {
    looking l = look_at(productions[_i], places[place]);
    check_duties(&l, place);
    ck_assert_str_eq(common_said(&l), common);
    look_away(&l);
  }
  look_away(&first);
}
END_TEST

Suite *suite_jurisdictions(void);

Suite *suite_jurisdictions(void) {
  Suite *suite = suite_create("jurisdictions");
  TCase *tests = tcase_create("jurisdictions");
  tcase_set_timeout(tests, 300);
  tcase_add_loop_test(tests, each_duty_is_as_the_law_of_the_place_has_it, 0,
                      getenv("TANKSIDE_TEST_SHORT") != NULL ? 1 : PRODUCTIONS);
  suite_add_tcase(suite, tests);
  return suite;
}
