/* Quantities: closed ranges in SI units with a dimension.
 *
 * A number in tankside is never bare. `4.2 m`, `3.8..4.5 m`, `4.2 ± 0.1 m`,
 * `5 ft 7 in` and `26 degC` are all the same kind of thing: a closed range
 * [lo, hi] of doubles in SI units, and a dimension.
 *
 * How a quantity was made (facts, constants, operations) is the business of
 * engine/science/graph.h; this header is about reading and writing them.
 */
#ifndef TANKSIDE_QUANTITY_H
#define TANKSIDE_QUANTITY_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* A closed range, lo <= hi, neither end NaN. A settled value has lo == hi. */
typedef struct {
  double lo, hi;
} ts_range;

/* A dimension: the exponents of the SI base units as seven signed bytes, from
 * the lowest byte up: metre, kilogram, second, ampere, kelvin, mole, candela.
 * The highest byte is a kind that dimensional analysis alone would lose:
 * an absolute temperature is not a temperature difference, a moment is not a
 * duration, and turbidity is not a fraction though both have no SI unit. */
typedef uint64_t ts_dim;

#define TS_DIM(m, kg, s, A, K, mol, cd)                                        \
  ((ts_dim)(uint8_t)(m) | (ts_dim)(uint8_t)(kg) << 8 |                         \
   (ts_dim)(uint8_t)(s) << 16 | (ts_dim)(uint8_t)(A) << 24 |                   \
   (ts_dim)(uint8_t)(K) << 32 | (ts_dim)(uint8_t)(mol) << 40 |                 \
   (ts_dim)(uint8_t)(cd) << 48)

#define TS_KIND(n) ((ts_dim)(n) << 56)
#define TS_KIND_OF(dim) ((unsigned)((dim) >> 56))
#define TS_POINT TS_KIND(1)     /* a position on a scale: 26 degC, 10:40, a date */
#define TS_TURBIDITY TS_KIND(2) /* NTU */
#define TS_SOUND TS_KIND(3)     /* dB(A) */

#define TS_NUMBER ((ts_dim)0)
#define TS_LENGTH TS_DIM(1, 0, 0, 0, 0, 0, 0)
#define TS_MASS TS_DIM(0, 1, 0, 0, 0, 0, 0)
#define TS_TIME TS_DIM(0, 0, 1, 0, 0, 0, 0)
#define TS_TEMPERATURE (TS_DIM(0, 0, 0, 0, 1, 0, 0) | TS_POINT)
#define TS_TEMPERATURE_DIFFERENCE TS_DIM(0, 0, 0, 0, 1, 0, 0)
#define TS_MOMENT (TS_TIME | TS_POINT) /* date: s since 1970-01-01; clock: s since midnight */
#define TS_AREA TS_DIM(2, 0, 0, 0, 0, 0, 0)
#define TS_VOLUME TS_DIM(3, 0, 0, 0, 0, 0, 0)
#define TS_FLOW TS_DIM(3, 0, -1, 0, 0, 0, 0)
#define TS_SPEED TS_DIM(1, 0, -1, 0, 0, 0, 0)
#define TS_ACCELERATION TS_DIM(1, 0, -2, 0, 0, 0, 0)
#define TS_FORCE TS_DIM(1, 1, -2, 0, 0, 0, 0)
#define TS_PRESSURE TS_DIM(-1, 1, -2, 0, 0, 0, 0)
#define TS_POWER TS_DIM(2, 1, -3, 0, 0, 0, 0)
#define TS_DENSITY TS_DIM(-3, 1, 0, 0, 0, 0, 0) /* also mg/L */

/* The units tankside understands: udunits2's, and the trade's own that it
 * lacks (fsw, msw, NTU, ppm, gpm, cfm ...). Read-only after creation, so one
 * may be shared between threads. */
typedef struct ts_units ts_units;

/* Loads the tables. Returns NULL, with the reason in `why` (at most `size`
 * bytes), when udunits2's own data cannot be found. Free with ts_units_free. */
ts_units *ts_units_new(char *why, size_t size);
void ts_units_free(ts_units *units);

/* Reads a quantity: a number with a unit, a range `a..b unit` or
 * `a unit .. b unit`, `a ± b unit` (also `+-`), a compound form
 * (`1 h 20 min`, `5 ft 7 in`), a date (`2027-03-09`, `2027-03`), or a clock
 * time (`10:40`, `10:40:30`; hours up to 47 for work past midnight).
 * A bare number has dimension TS_NUMBER. Reading never depends on the locale.
 * On success fills *range and *dim and returns true. On failure returns false
 * and writes to `why` what was found and what was expected, with the nearest
 * unit name where one is near. `?` is not a quantity: callers deal with it. */
bool ts_quantity_read(const ts_units *units, const char *text, ts_range *range,
                      ts_dim *dim, char *why, size_t size);

/* Which units to prefer where the caller names none. */
typedef enum { TS_METRIC, TS_US } ts_system;

/* Writes a range so that reading it gives the same two doubles again, bit for
 * bit, in `unit` where that can be done and else in SI base units. `unit` may
 * be NULL: then one is chosen by dimension, size and system. The text is cut
 * to `size`; 96 bytes are always enough. Returns `out`. */
char *ts_quantity_write(const ts_units *units, ts_range range, ts_dim dim,
                        const char *unit, ts_system system, char *out, size_t size);

/* Writes a range for a reader: rounded to four significant digits or fewer, times as
 * `1 h 20 min`, ends outward when rounding would hide a difference. */
char *ts_quantity_show(const ts_units *units, ts_range range, ts_dim dim,
                       const char *unit, ts_system system, char *out, size_t size);

/* Converts between a unit and SI: ts_unit_convert(u, "degC", 26, &si, &dim).
 * False with a reason in `why` when the unit is not known. */
bool ts_unit_convert(const ts_units *units, const char *unit, double value,
                     double *si, ts_dim *dim, char *why, size_t size);

/* The dimension in words for messages: "length", "pressure", "m2 kg s-1". */
char *ts_dim_name(ts_dim dim, char *out, size_t size);

#endif
