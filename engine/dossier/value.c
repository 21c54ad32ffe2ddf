#include "dossier/value.h"

#include "base/text.h"
#include "dossier/words.h"

#include <math.h>
#include <string.h>

enum { WHY = 256 };

bool ts_same_value(const ts_value *a, const ts_value *b) {
  return a->state == b->state && a->choices == b->choices && a->certain == b->certain &&
         a->range.lo == b->range.lo && a->range.hi == b->range.hi && ts_same(a->text, b->text);
}

/* ---- numbers ----------------------------------------------------------- */

static bool unreadable(const ts_known_fact *fact, const char *text, const char *why,
                       const ts_place *place) {
  ts_report(place->problems, TS_ERROR, place->file, place->line,
            "cannot read \"%s\" for \"%s\": %s", text, fact->def->name, why);
  return false;
}

static const char expected_clock[] = "expected a time of day, like \"10:40\"";
static const char expected_date[] = "expected a date, like \"2027-03-09\"";

/* What does not even look like a date is told what one looks like, not which unit is unknown. */
static const char *better_reason(const ts_known_fact *fact, const char *text, const char *why) {
  if (fact->dim != TS_MOMENT || strpbrk(text, ":-")) return why;
  return fact->def->type == TS_CLOCK ? expected_clock : expected_date;
}

static bool wrong_dimension(const ts_known_fact *fact, const char *text, ts_dim found,
                            const ts_place *place) {
  char is[64], wanted[64];
  const char *name = fact->def->name, *like = fact->def->high;
  if (found == TS_NUMBER && fact->dim == TS_MOMENT)
    return unreadable(fact, text, better_reason(fact, text, ""), place);
  ts_dim_name(found, is, sizeof is);
  ts_dim_name(fact->dim, wanted, sizeof wanted);
  if (found == TS_NUMBER)
    ts_report(place->problems, TS_ERROR, place->file, place->line,
              "bare number \"%s\" for \"%s\"; expected %s with its unit, like \"%s\"", text, name,
              wanted, like);
  else
    ts_report(place->problems, TS_ERROR, place->file, place->line,
              "wrong dimension for \"%s\": found %s in \"%s\", expected %s, like \"%s\"", name, is,
              text, wanted, like);
  return false;
}

/* Dates and times of day share a dimension; what tells them apart is how they are written. */
static bool right_form(const ts_known_fact *fact, const char *text, const ts_place *place) {
  bool clock = strchr(text, ':') != NULL;
  if (fact->dim != TS_MOMENT || clock == (fact->def->type == TS_CLOCK)) return true;
  return unreadable(fact, text,
                    clock ? "a time of day; expected a date, like \"2027-03-09\""
                          : "a date; expected a time of day, like \"10:40\"",
                    place);
}

static bool plausible(const ts_known_fact *fact, const char *text, ts_range range,
                      const ts_place *place) {
  /* A hair of room: 45 degC converted is not to the last bit what 318.15 K is. */
  double room = 1e-12 * fmax(fabs(fact->plausible.lo), fabs(fact->plausible.hi));
  if (fact->def->type == TS_DAY ||
      (range.lo >= fact->plausible.lo - room && range.hi <= fact->plausible.hi + room))
    return true;
  ts_report(place->problems, TS_ERROR, place->file, place->line,
            "\"%s\" for \"%s\" is out of the plausible range %s to %s", text, fact->def->name,
            fact->def->low, fact->def->high);
  return false;
}

static bool whole(double x) { return x == floor(x); }

static bool fits_type(const ts_known_fact *fact, const char *text, ts_range range,
                      const ts_place *place) {
  if (fact->def->type == TS_COUNT && !(whole(range.lo) && whole(range.hi)))
    return unreadable(fact, text, "expected a whole number, like \"2\" or \"2..4\"", place);
  if (fact->def->type == TS_DAY && range.lo != range.hi)
    return unreadable(fact, text, "expected one exact date, like \"2027-03-09\"", place);
  return right_form(fact, text, place) && plausible(fact, text, range, place);
}

static bool read_number(const ts_units *units, const ts_known_fact *fact, const char *text,
                        ts_value *value, const ts_place *place) {
  char why[WHY];
  ts_range range;
  ts_dim dim;
  if (!ts_quantity_read(units, text, &range, &dim, why, sizeof why))
    return unreadable(fact, text, better_reason(fact, text, why), place);
  if (dim != fact->dim) return wrong_dimension(fact, text, dim, place);
  if (!fits_type(fact, text, range, place)) return false;
  value->range = range;
  return true;
}

/* ---- words ------------------------------------------------------------- */

static bool read_flag(const ts_known_fact *fact, const char *text, ts_value *value,
                      const ts_place *place) {
  if (ts_same(text, "yes") || ts_same(text, "no")) {
    value->choices = text[0] == 'y' ? 2 : 1;
    return true;
  }
  return unreadable(fact, text, "expected \"yes\", \"no\" or \"?\"", place);
}

static bool impossible_choice(const ts_known_fact *fact, const char *word, const ts_place *place) {
  const char *near = ts_nearest(word, fact->choices, fact->choice_count);
  ts_report(place->problems, TS_ERROR, place->file, place->line,
            "impossible choice \"%s\" for \"%s\"%s%s%s; the choices are: %s", word, fact->def->name,
            near ? "; the nearest is \"" : "", near ? near : "", near ? "\"" : "",
            fact->def->choices);
  return false;
}

/* One choice, or several that are still possible: `light|moderate`. */
static bool read_choice(ts_arena *arena, const ts_known_fact *fact, const char *text,
                        ts_value *value, const ts_place *place) {
  uint64_t bits = 0;
  bool good = true, exact = fact->def->type == TS_KIND_WORD;
  const char *at = text;
  for (char *word; (word = ts_words_next(arena, &at, exact ? " " : "|"));) {
    uint32_t bit = ts_choice_find(fact, word);
    if (bit == TS_ABSENT)
      good = impossible_choice(fact, word, place);
    else
      bits |= UINT64_C(1) << bit;
  }
  if (good && !bits) return unreadable(fact, text, "no choice is given", place);
  if (good && exact && (bits & (bits - 1)))
    return unreadable(fact, text, "expected one choice only", place);
  if (good) value->choices = bits;
  return good;
}

/* Any of the choices; `mouth?` may be among them. */
static bool read_set(ts_arena *arena, const ts_known_fact *fact, const char *text, ts_value *value,
                     const ts_place *place) {
  uint64_t may = 0, must = 0;
  bool good = true;
  const char *at = text;
  for (char *word; !ts_same(text, "none") && (word = ts_words_next(arena, &at, " "));) {
    size_t length = strlen(word);
    bool certain = word[length - 1] != '?';
    if (!certain) word[length - 1] = '\0';
    uint32_t bit = ts_choice_find(fact, word);
    if (bit == TS_ABSENT) {
      good = impossible_choice(fact, word, place);
      continue;
    }
    may |= UINT64_C(1) << bit;
    if (certain) must |= UINT64_C(1) << bit;
  }
  if (good && !may && !ts_same(text, "none"))
    return unreadable(fact, text, "write \"none\" where there are none", place);
  if (good) value->choices = may, value->certain = must;
  return good;
}

static bool read_stated(const ts_units *units, ts_arena *arena, const ts_known_fact *fact,
                        const char *text, ts_value *value, const ts_place *place) {
  switch (fact->def->type) {
  case TS_TEXT: return true;
  case TS_FLAG: return read_flag(fact, text, value, place);
  case TS_CHOICE:
  case TS_KIND_WORD: return read_choice(arena, fact, text, value, place);
  case TS_SET: return read_set(arena, fact, text, value, place);
  default: return read_number(units, fact, text, value, place);
  }
}

bool ts_value_read(const ts_units *units, ts_arena *arena, const ts_known_fact *fact,
                   const char *text, ts_value *value, const ts_place *place) {
  ts_value read = fact->unknown;
  read.text = text;
  if (!ts_is_fact(fact->def->type) || !ts_same(text, "?")) {
    read.state = TS_STATED;
    read.certain = 0;
    if (!read_stated(units, arena, fact, text, &read, place)) return false;
  }
  *value = read;
  return true;
}

bool ts_fact_read(const ts_vocabulary *vocabulary, const ts_units *units, ts_arena *arena,
                  const ts_fact_def *fact, const char *text, ts_value *value,
                  ts_diagnostics *problems, const char *file, int line) {
  ts_place place = {problems, file, line};
  return ts_value_read(units, arena, ts_known(vocabulary, fact), text, value, &place);
}
