/* Every name of a unit that is accepted, of our own table or from udunits2, with every prefix and
 * plural that is, and every unit that the vocabulary and the science functions print, against the
 * program `units` where it is installed; without it nothing is compared, with it nothing is left
 * out. */
#include <check.h>
#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "dossier/vocabulary.h"
#include "quantity/units.h"
#include "tankside/science.h"

enum { QUESTIONS = 2000, TEXT = 120 };

/* Both are right; doubles differ. */
#define EXACT 1e-11
/* udunits2 rounds to six or seven digits and takes some of its lengths from survey feet. */
#define ROUNDED 1e-5

/* What the program calls it; names that are not here it calls the same. Where its own
 * definition is another one, ours is spelled out. */
static const struct {
  const char *ours, *theirs;
} named[] = {
    {"Ohm", "ohm"},
    {"sec", "second"},
    {"mins", "minute"},
    {"h", "hour"},
    {"d", "day"},
    {"y", "gregorianyear"}, /* theirs is the tropical year */
    {"yr", "gregorianyear"},
    {"year", "gregorianyear"},
    {"nmi", "nauticalmile"},
    {"nautical_mile", "nauticalmile"},
    {"t", "tonne"},
    {"st", "stone"},
    {"short_ton", "shortton"},
    {"long_ton", "longton"},
    {"degC", "tempC(26)"},
    {"deg C", "tempC(26)"},
    {"celsius", "tempC(26)"},
    {"Celsius", "tempC(26)"},
    {"degF", "tempF(26)"},
    {"deg F", "tempF(26)"},
    {"fahrenheit", "tempF(26)"},
    {"Fahrenheit", "tempF(26)"},
    {"delta_degC", "tempC(1)-tempC(0)"},
    {"delta_degF", "tempF(1)-tempF(0)"},
    {"rad", "radian"},
    {"deg", "degree"},
    {"Wh", "W hour"},
    {"Ah", "A hour"},
    {"sqft", "ft^2"},
    {"cuft", "ft^3"},
    {"usgal", "usgallon"},
    {"impgal", "brgallon"},
    {"gpm", "usgallon/minute"},
    {"gph", "usgallon/hour"},
    {"acfm", "ft^3/minute"},
    {"kn", "knot"},
    {"kt", "knot"},
    {"rpm", "1/minute"},
    {"bpm", "1/minute"},
    {"gn", "gravity"},
    {"bara", "bar"},
    {"psf", "lbf/ft^2"},
    {"ata", "atm"},
    {"mmH2O", "mm water"},
    {"cmH2O", "cm water"},
    {"mH2O", "m water"},
    {"inH2O", "inch water"},
    {"ftH2O", "ft water"},
    {"msw", "0.1 bar"},     /* by definition */
    {"fsw", "64 lbf/ft^2"}, /* the US Navy's; theirs is 3048 Pa */
    {"cal", "cal_th"},
    {"calorie", "cal_th"},
    {"Btu", "btu_IT"},
    {"BTU", "btu_IT"},
    {"met", "58.15 W/m^2"}, /* ISO 8996 (from memory); not among theirs */
    {"watthour", "W hour"},
    {"voltampere", "V A"},
    {"%", "0.01"},
    {"percent", "0.01"},
    /* counted, or on a scale of its own: nothing to convert */
    {"pH", "1"},
    {"cfu", "1"},
    {"CFU", "1"},
    {"MPN", "1"},
    {"person", "1"},
    {"people", "1"},
    {"take", "1"},
    {"breath", "1"},
    {"NTU", "1"},
    {"dBA", "1"},
    {"dB(A)", "1"},
};

static const char *theirs(const char *ours) {
  for (size_t i = 0; i < sizeof named / sizeof *named; i++)
    if (strcmp(named[i].ours, ours) == 0) return named[i].theirs;
  return ours;
}

/* ---- what is asked ------------------------------------------------------------------- */

typedef struct {
  char ours[TEXT], have[TEXT], want[TEXT];
  double expected;
} question;

typedef struct {
  ts_units *units;
  question all[QUESTIONS];
  int count;
} exam;

/* One word of an expression in their spelling, its exponent marked: "m-2" is "m^-2" there. */
static const char *put_word(const char *at, char *out, size_t size) {
  char word[TEXT] = "";
  size_t length = 0;
  while (isalpha((unsigned char)at[length]) || at[length] == '_' || at[length] == '%') length++;
  snprintf(word, sizeof word, "%.*s", (int)length, at);
  at += length;
  size_t used = strlen(out);
  snprintf(out + used, size - used, "(%s)%s", theirs(word),
           isdigit((unsigned char)*at) || *at == '-' ? "^" : "");
  return at;
}

static void put_expression(const char *text, char *out, size_t size) {
  const char *whole = theirs(text);
  snprintf(out, size, "%s", whole != text ? whole : "");
  if (whole != text) return;
  while (*text != '\0') {
    if (isalpha((unsigned char)*text) || *text == '%') {
      text = put_word(text, out, size);
      continue;
    }
    size_t used = strlen(out);
    snprintf(out + used, size - used, "%c", *text == '.' ? ' ' : *text);
    text++;
  }
}

/* The SI base units of a dimension, kinds aside. */
static void put_base(ts_dim dim, char *out, size_t size) {
  static const char *const base[] = {"m", "kg", "s", "A", "K", "mol", "cd"};
  snprintf(out, size, "1");
  for (int i = 0; i < 7; i++) {
    int power = (int8_t)(dim >> (8 * i) & 0xff);
    size_t used = strlen(out);
    if (power != 0) snprintf(out + used, size - used, " %s^%d", base[i], power);
  }
}

static void ask(exam *e, const char *ours) {
  char why[200];
  ts_dim dim;
  ck_assert_int_lt(e->count, QUESTIONS);
  question *q = &e->all[e->count++];
  snprintf(q->ours, sizeof q->ours, "%s", ours);
  put_expression(ours, q->have, sizeof q->have);
  double number = strstr(q->have, "(26)") != NULL ? 26 : 1;
  ck_assert_msg(ts_unit_convert(e->units, ours, number, &q->expected, &dim, why, sizeof why), "%s",
                why);
  put_base(dim, q->want, sizeof q->want);
}

/* ---- what is answered --------------------------------------------------------------------- */

/* Asks all at once. False where the program is not installed, else every question must have
 * its number: the first line that is none belongs to the first question not understood. */
static bool answered(const exam *e, double *answers) {
  ts_text command = {0};
  ts_text_add(&command, "LC_ALL=C units -t -1 -q -d 15 2>&1 <<'END'\n");
  for (int i = 0; i < e->count; i++)
    ts_text_addf(&command, "%s\n%s\n", e->all[i].have, e->all[i].want);
  ts_text_add(&command, "END\n");
  FILE *pipe = popen(command.data, "r");
  char line[200];
  int got = 0;
  while (pipe != NULL && got < e->count && fgets(line, sizeof line, pipe) != NULL) {
    const char *rest = ts_number_read(line, &answers[got]);
    if (rest == NULL && got == 0) break; /* the shell: not found */
    ck_assert_msg(rest != NULL && *rest == '\n', "%s, asked as %s in %s: %s", e->all[got].ours,
                  e->all[got].have, e->all[got].want, line);
    got++;
  }
  if (pipe != NULL) pclose(pipe);
  ts_text_release(&command);
  return got == e->count;
}

static void compare(exam *e, double tolerance) {
  static const question foot = {"1 ft", "ft", "m", 0.3048}; /* known to be understood */
  double answers[QUESTIONS];
  e->all[0] = foot;
  if (!answered(e, answers)) return;
  for (int i = 0; i < e->count; i++) {
    const question *q = &e->all[i];
    ck_assert_msg(fabs(answers[i] / q->expected - 1) <= tolerance,
                  "%s is %.15g SI, the program has %.15g (%s)", q->ours, q->expected, answers[i],
                  q->have);
  }
}

static exam *new_exam(void) {
  char why[200];
  exam *e = calloc(1, sizeof *e);
  ck_assert_ptr_nonnull(e);
  e->units = ts_units_new(why, sizeof why);
  ck_assert_msg(e->units != NULL, "%s", why);
  e->count = 1; /* the first question is always the foot */
  return e;
}

static void hand_in(exam *e, int at_least, double tolerance) {
  ck_assert_int_ge(e->count, at_least);
  compare(e, tolerance);
  ts_units_free(e->units);
  free(e);
}

START_TEST(our_own_table) {
  exam *e = new_exam();
  for (const ts_unit *u = ts_own_units; u->name != NULL; u++) ask(e, u->name);
  hand_in(e, 170, EXACT);
}
END_TEST

static bool is_listed(const exam *e, const char *name) {
  const char *listed;
  for (size_t i = 0; (listed = ts_unit_name_at(e->units, i, NULL)) != NULL; i++)
    if (strcmp(listed, name) == 0) return true;
  return false;
}

/* Something behind a prefix or with a plural s: asked as the prefix and the name. A name of the
 * table that reads the same goes first. */
static void ask_derived(exam *e, const char *before, const char *prefix, const char *name,
                        const char *after) {
  char ours[TEXT];
  snprintf(ours, sizeof ours, "%s%s%s", before, name, after);
  if (is_listed(e, ours)) return;
  ask(e, ours);
  question *q = &e->all[e->count - 1];
  snprintf(q->have, sizeof q->have, "%s (%s)", prefix, theirs(name));
}

START_TEST(every_prefix) {
  exam *e = new_exam();
  for (const ts_unit *u = ts_own_units; u->name != NULL; u++)
    for (const ts_prefix *p = ts_prefixes; p->symbol != NULL; p++) {
      if (u->naming == TS_SYMBOL) ask_derived(e, p->symbol, p->word, u->name, "");
      if (u->naming != TS_WORD) continue;
      ask_derived(e, p->word, p->word, u->name, "");
      ask_derived(e, p->word, p->word, u->name, "s");
    }
  hand_in(e, 1000, EXACT);
}
END_TEST

static void ask_plurals(bool ours, double tolerance) {
  exam *e = new_exam();
  const char *name;
  bool own;
  for (size_t i = 0; (name = ts_unit_name_at(e->units, i, &own)) != NULL; i++) {
    char plural[TEXT];
    ts_scale scale;
    snprintf(plural, sizeof plural, "%ss", name);
    if (strlen(name) < 2) continue; /* ms is a millisecond */
    if (own == ours && ts_unit_named(e->units, plural, strlen(plural), &scale))
      ask_derived(e, "", "", name, "s");
  }
  hand_in(e, 50, tolerance);
}

START_TEST(every_plural) {
  ask_plurals(true, EXACT);
  ask_plurals(false, ROUNDED);
}
END_TEST

START_TEST(what_the_vocabulary_prints) {
  exam *e = new_exam();
  size_t count;
  const ts_fact_def *facts = ts_builtin_facts(&count);
  for (size_t i = 0; i < count; i++) {
    const char *printed[] = {facts[i].unit, facts[i].unit_us};
    for (int k = 0; k < 2; k++)
      if (printed[k] != NULL && printed[k][0] != '\0') ask(e, printed[k]);
  }
  hand_in(e, 200, EXACT);
}
END_TEST

START_TEST(what_the_functions_print) {
  exam *e = new_exam();
  for (const ts_function *f = ts_functions(); f->name != NULL; f++) {
    if (f->unit[0] != '\0') ask(e, f->unit);
    for (int i = 0; i < f->count; i++)
      if (f->argument[i].unit[0] != '\0') ask(e, f->argument[i].unit);
  }
  hand_in(e, 400, EXACT);
}
END_TEST

START_TEST(what_udunits_adds) {
  exam *e = new_exam();
  const char *name;
  bool own;
  for (size_t i = 0; (name = ts_unit_name_at(e->units, i, &own)) != NULL; i++)
    if (!own) ask(e, name);
  hand_in(e, 80, ROUNDED);
}
END_TEST

/* A name in the list above that no unit has any more would hide a missing one. */
START_TEST(every_name_is_ours) {
  exam *e = new_exam();
  for (size_t i = 0; i < sizeof named / sizeof *named; i++) {
    const char *name;
    size_t at = 0;
    while ((name = ts_unit_name_at(e->units, at, NULL)) != NULL && strcmp(name, named[i].ours) != 0)
      at++;
    ck_assert_msg(name != NULL, "%s is not a unit of ours", named[i].ours);
  }
  ts_units_free(e->units);
  free(e);
}
END_TEST

Suite *suite_every_unit(void);

Suite *suite_every_unit(void) {
  Suite *suite = suite_create("published every unit");
  TCase *all = tcase_create("units");
  tcase_set_timeout(all, 60);
  tcase_add_test(all, our_own_table);
  tcase_add_test(all, every_prefix);
  tcase_add_test(all, every_plural);
  tcase_add_test(all, what_the_vocabulary_prints);
  tcase_add_test(all, what_the_functions_print);
  tcase_add_test(all, what_udunits_adds);
  tcase_add_test(all, every_name_is_ours);
  suite_add_tcase(suite, all);
  return suite;
}
