/* Units: scales, the table of names, unit expressions.
 *
 * A scale says how a number in some unit becomes SI:
 *
 *     si = (number - zero) * num / den + origin
 *
 * The factor is kept as a ratio of two doubles, nearly always whole numbers,
 * because n * 0.001 is not the double nearest to n/1000 for one n in seven,
 * while n * 1 / 1000 always is: `300 mm` is then exactly `0.3 m`. */
#ifndef TS_QUANTITY_UNITS_H
#define TS_QUANTITY_UNITS_H

#include "tankside/quantity.h"

typedef struct {
  double num, den;     /* both above 0 */
  double zero, origin; /* both 0 but for degC and degF */
  ts_dim dim;
} ts_scale;

double ts_scale_to_si(const ts_scale *scale, double number);
double ts_scale_from_si(const ts_scale *scale, double si);

/* How large a difference of one unit is in SI: the same scale without its
 * zero and without the kind "point". */
ts_scale ts_scale_of_difference(const ts_scale *scale);

/* a times b to the power `times` (-9..9), the ratio reduced where both parts are
 * whole. False when an exponent gets too large. */
bool ts_scale_join(const ts_scale *a, const ts_scale *b, int times, ts_scale *result);

/* What may stand before or after a name. */
typedef enum {
  TS_AS_IS,  /* only as written */
  TS_SYMBOL, /* with an SI prefix symbol: kPa */
  TS_WORD,   /* with an SI prefix in words and a plural s: kilopascals */
  TS_PLURAL  /* with a plural s, no prefix: hours */
} ts_naming;

typedef struct {
  const char *name;
  ts_scale scale;
  ts_naming naming;
} ts_unit;

typedef struct {
  const char *symbol, *word;
  double num, den;
} ts_prefix;

/* What somebody might write, and why it is not taken: `C` for degC, `ton`
 * which is three different masses. */
typedef struct {
  const char *name, *write;
} ts_refusal;

/* The tables of unit_table.c; each ends with a row whose first field is NULL. */
extern const ts_unit ts_own_units[];
extern const ts_prefix ts_prefixes[];
extern const ts_refusal ts_refusals[];

/* One unit by its name in the table, with prefix or plural. False when there is none. */
bool ts_unit_named(const ts_units *units, const char *name, size_t length, ts_scale *scale);

/* The nearest thing to `name` that is a unit, or NULL. */
const char *ts_unit_nearest(const ts_units *units, const char *name);

/* Reads a whole unit expression (mg/L, m3/h, W/(m2 K), cfu/100 mL), ASCII
 * only. The empty text is the plain number 1. False with a reason in `why`. */
bool ts_unit_read(const ts_units *units, const char *text, ts_scale *scale, char *why, size_t size);

/* Why udunits2's names are missing where its data could not be read, else NULL. */
const char *ts_units_trouble(const ts_units *units);

/* Every name in the table, own and udunits2's: for completion and for tests.
 * NULL past the end; *own says whether it comes from our table. */
const char *ts_unit_name_at(const ts_units *units, size_t index, bool *own);

/* A scale in SI with this factor: 0.3048 becomes 3048/10000. */
ts_scale ts_scale_of_factor(double factor, ts_dim dim);

/* ---- udunits2 (udunits.c) ------------------------------------------------- */

/* Whether its data are there. False with where they were expected. */
bool ts_udunits_there(char *why, size_t size);

/* Whether a name is of the form of those that are taken from it; in the plural, too. */
bool ts_udunits_may_name(const char *name, size_t length);

typedef void ts_unit_taker(void *context, const char *name, ts_scale scale);

/* Hands every multiplicative unit of udunits2's data that has a name of one word
 * to `take`; `name` is only lent. False with a reason when the data cannot be
 * found. udunits2 keeps its status, its message handler and its reader's state
 * in variables of the process, so this is the only place that uses it and
 * it must not run in two threads at once. */
bool ts_udunits_each(ts_unit_taker *take, void *context, char *why, size_t size);

#endif
