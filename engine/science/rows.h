/* How the rows of the registry are written.
 *
 * Each topic is two files: `gas.c` holds the arithmetic, one small function a
 * name, and `gas.inc` holds what is said about it: arguments, valid ranges,
 * directions, formula, source, limits, example. `registry.c` includes all the
 * .inc files into the one table.
 *
 * To add a function: write ts_point_<name> in the topic's .c, declare it in
 * points.h, add its row in the .inc at its place in the alphabet, and a
 * published figure in tests/published. The suite test_science checks directions,
 * enclosures and texts of every row by itself.
 */
#ifndef TS_SCIENCE_ROWS_H
#define TS_SCIENCE_ROWS_H

#include "science/constants.h"
#include "science/points.h"

/* The name of a row and the function behind it. */
#define TS_ROW(name_) .name = #name_, .point = ts_point_##name_

/* Arguments that many rows share. */
#define TS_ARG_DEPTH                                                                               \
  { "depth", TS_LENGTH, "m", 0, 100, TS_RISES }
#define TS_ARG_DENSITY                                                                             \
  { "density", TS_DENSITY, "kg/m3", 950, 1250, TS_RISES }
#define TS_ARG_SURFACE_PRESSURE                                                                    \
  { "surface_pressure", TS_PRESSURE, "kPa", 50e3, 120e3, TS_RISES }
#define TS_ARG_AMBIENT_PRESSURE                                                                    \
  { "ambient_pressure", TS_PRESSURE, "kPa", 50e3, 1.4e6, TS_RISES }

/* Dimensions that only science needs. */
#define TS_AREA_PER_MASS TS_DIM(2, -1, 0, 0, 0, 0, 0)
#define TS_MASS_PER_AREA TS_DIM(-2, 1, 0, 0, 0, 0, 0)
#define TS_MASS_FLOW TS_DIM(0, 1, -1, 0, 0, 0, 0)
#define TS_MOMENT_OF_FORCE TS_DIM(2, 1, -2, 0, 0, 0, 0) /* also energy */
#define TS_DOSE TS_DIM(-3, 1, 1, 0, 0, 0, 0)            /* concentration x time */
#define TS_PER_LENGTH TS_DIM(-1, 0, 0, 0, 0, 0, 0)
#define TS_PER_AREA TS_DIM(-2, 0, 0, 0, 0, 0, 0)
#define TS_PER_TIME TS_DIM(0, 0, -1, 0, 0, 0, 0)
#define TS_HEAT_FLUX TS_DIM(0, 1, -3, 0, 0, 0, 0)
#define TS_HEAT_TRANSFER TS_DIM(0, 1, -3, 0, -1, 0, 0)
#define TS_INSULATION TS_DIM(0, -1, 3, 0, 1, 0, 0)
#define TS_COOLING TS_DIM(0, 0, -1, 0, 1, 0, 0)
#define TS_AREA_PER_TIME TS_DIM(2, 0, -1, 0, 0, 0, 0)
#define TS_CROWD_FLOW TS_DIM(-1, 0, -1, 0, 0, 0, 0)
#define TS_INTENSITY TS_DIM(0, 0, 0, 0, 0, 0, 1)
#define TS_ILLUMINANCE TS_DIM(-2, 0, 0, 0, 0, 0, 1)
#define TS_CURRENT TS_DIM(0, 0, 0, 1, 0, 0, 0)
#define TS_VOLTAGE TS_DIM(2, 1, -3, -1, 0, 0, 0)
#define TS_RESISTANCE TS_DIM(2, 1, -3, -2, 0, 0, 0)
#define TS_RESISTIVITY TS_DIM(3, 1, -3, -2, 0, 0, 0)
#define TS_FIELD TS_DIM(1, 1, -3, -1, 0, 0, 0)

#endif
