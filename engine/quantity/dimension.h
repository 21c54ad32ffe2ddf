/* Dimensions: arithmetic on the exponents, names for people, base units as text.
 *
 * Low-level; calls nothing above base/. A dimension is one word of eight
 * signed bytes (tankside/quantity.h says which), so equality is `==`. */
#ifndef TS_QUANTITY_DIMENSION_H
#define TS_QUANTITY_DIMENSION_H

#include "tankside/quantity.h"

enum { TS_BASES = 7 };

/* The exponent of one base unit, 0 = metre ... 6 = candela. */
int ts_dim_exponent(ts_dim dim, int base);

/* a times b to the power `times`, exponent by exponent. False when an
 * exponent leaves -127..127. Kinds are dropped: a product is neither a point
 * on a scale nor turbidity nor sound. */
bool ts_dim_join(ts_dim a, ts_dim b, int times, ts_dim *result);

/* The product of SI base units as text that ts_quantity_read accepts:
 * "m2.kg.s-3", with `between` put between the units; "" for a plain number. */
char *ts_dim_text(ts_dim dim, const char *between, char *out, size_t size);

#endif
