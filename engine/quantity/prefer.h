/* Preferred units: which unit a reader expects where nobody names one.
 *
 * Internal to quantity/. */
#ifndef TS_QUANTITY_PREFER_H
#define TS_QUANTITY_PREFER_H

#include "tankside/quantity.h"

/* A unit that ts_unit_read knows, by dimension and the larger end's size; NULL
 * where SI base units are as good as any. "" is the plain number. */
const char *ts_prefer(ts_range range, ts_dim dim, ts_system system);

/* A moment within 48 h of 0 is a time of day, anything else a date. */
bool ts_prefer_clock(ts_range range);

#endif
