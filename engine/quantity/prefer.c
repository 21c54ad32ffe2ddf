/* Preferred units: see prefer.h. */
#include "quantity/prefer.h"

#include "quantity/calendar.h"

#include <math.h>
#include <stddef.h>

#define ANY INFINITY
#define RATE TS_DIM(0, 0, -1, 0, 0, 0, 0)
#define ENERGY TS_DIM(2, 1, -2, 0, 0, 0, 0)

/* The first row of the dimension and system whose limit (SI) is above the
 * value counts. A dimension without US rows uses the metric ones. */
static const struct {
  ts_dim dim;
  ts_system system;
  double below;
  const char *unit;
} rows[] = {
    {TS_NUMBER, TS_METRIC, ANY, ""},
    {TS_LENGTH, TS_METRIC, 0.01, "mm"},
    {TS_LENGTH, TS_METRIC, 1, "cm"},
    {TS_LENGTH, TS_METRIC, 5000, "m"},
    {TS_LENGTH, TS_METRIC, ANY, "km"},
    {TS_LENGTH, TS_US, 0.3048, "in"},
    {TS_LENGTH, TS_US, 1609.344, "ft"},
    {TS_LENGTH, TS_US, ANY, "mi"},
    {TS_MASS, TS_METRIC, 1e-3, "mg"},
    {TS_MASS, TS_METRIC, 1, "g"},
    {TS_MASS, TS_METRIC, 1e4, "kg"},
    {TS_MASS, TS_METRIC, ANY, "t"},
    {TS_MASS, TS_US, 0.45359237, "oz"},
    {TS_MASS, TS_US, ANY, "lb"},
    {TS_TIME, TS_METRIC, 120, "s"},
    {TS_TIME, TS_METRIC, 7200, "min"},
    {TS_TIME, TS_METRIC, 172800, "h"},
    {TS_TIME, TS_METRIC, TS_YEAR_SECONDS, "d"},
    {TS_TIME, TS_METRIC, ANY, "years"},
    {TS_TEMPERATURE, TS_METRIC, ANY, "degC"},
    {TS_TEMPERATURE, TS_US, ANY, "degF"},
    {TS_TEMPERATURE_DIFFERENCE, TS_METRIC, ANY, "K"},
    {TS_TEMPERATURE_DIFFERENCE, TS_US, ANY, "delta_degF"},
    {TS_TURBIDITY, TS_METRIC, ANY, "NTU"},
    {TS_SOUND, TS_METRIC, ANY, "dBA"},
    {TS_AREA, TS_METRIC, 0.01, "cm2"},
    {TS_AREA, TS_METRIC, ANY, "m2"},
    {TS_AREA, TS_US, 0.09290304, "in2"},
    {TS_AREA, TS_US, ANY, "ft2"},
    {TS_VOLUME, TS_METRIC, 1e-3, "mL"},
    {TS_VOLUME, TS_METRIC, 1, "L"},
    {TS_VOLUME, TS_METRIC, ANY, "m3"},
    {TS_VOLUME, TS_US, 946e-6, "floz"},
    {TS_VOLUME, TS_US, ANY, "gal"},
    {TS_FLOW, TS_METRIC, 1.0 / 60, "L/min"},
    {TS_FLOW, TS_METRIC, ANY, "m3/h"},
    {TS_FLOW, TS_US, ANY, "gpm"},
    {TS_SPEED, TS_METRIC, ANY, "m/s"},
    {TS_SPEED, TS_US, ANY, "ft/s"},
    {TS_ACCELERATION, TS_METRIC, ANY, "m/s2"},
    {TS_ACCELERATION, TS_US, ANY, "ft/s2"},
    {TS_FORCE, TS_METRIC, 1000, "N"},
    {TS_FORCE, TS_METRIC, ANY, "kN"},
    {TS_FORCE, TS_US, ANY, "lbf"},
    {TS_PRESSURE, TS_METRIC, ANY, "kPa"},
    {TS_PRESSURE, TS_US, ANY, "psi"},
    {ENERGY, TS_METRIC, 1e3, "J"},
    {ENERGY, TS_METRIC, 1e6, "kJ"},
    {ENERGY, TS_METRIC, ANY, "MJ"},
    {TS_POWER, TS_METRIC, 1e3, "W"},
    {TS_POWER, TS_METRIC, ANY, "kW"},
    {TS_DENSITY, TS_METRIC, 1, "mg/L"},
    {TS_DENSITY, TS_METRIC, ANY, "kg/m3"},
    {TS_DENSITY, TS_US, 1, "mg/L"},
    {TS_DENSITY, TS_US, ANY, "lb/ft3"},
    {RATE, TS_METRIC, 1.0 / 60, "/h"},
    {RATE, TS_METRIC, 1, "/min"},
    {RATE, TS_METRIC, ANY, "/s"},
    {TS_DIM(0, 1, -1, 0, 0, 0, 0), TS_METRIC, ANY, "kg/h"},
    {TS_DIM(0, 1, -1, 0, 0, 0, 0), TS_US, ANY, "lb/h"},
    {TS_DIM(-2, 1, 0, 0, 0, 0, 0), TS_METRIC, ANY, "kg/m2"},
    {TS_DIM(-2, 1, 0, 0, 0, 0, 0), TS_US, ANY, "lb/ft2"},
    {TS_DIM(-1, 1, 0, 0, 0, 0, 0), TS_METRIC, ANY, "kg/m"},
    {TS_DIM(-1, 1, 0, 0, 0, 0, 0), TS_US, ANY, "lb/ft"},
    {TS_DIM(-3, 1, 1, 0, 0, 0, 0), TS_METRIC, ANY, "mg.min/L"},
    {TS_DIM(-3, 0, 0, 0, 0, 0, 0), TS_METRIC, ANY, "cfu/100mL"},
    {TS_DIM(-2, 0, 0, 0, 0, 0, 0), TS_METRIC, ANY, "/m2"},
    {TS_DIM(-1, 0, 0, 0, 0, 0, 0), TS_METRIC, ANY, "/m"},
    {TS_DIM(0, 1, -2, 0, 0, 0, 0), TS_METRIC, ANY, "J/m2"},
    {TS_DIM(0, 1, -3, 0, 0, 0, 0), TS_METRIC, ANY, "W/m2"},
    {TS_DIM(0, 1, -3, 0, -1, 0, 0), TS_METRIC, ANY, "W/(m2.K)"},
    {TS_DIM(0, -1, 3, 0, 1, 0, 0), TS_METRIC, ANY, "clo"},
    {TS_DIM(1, 1, -3, 0, -1, 0, 0), TS_METRIC, ANY, "W/(m.K)"},
    {TS_DIM(2, 0, -2, 0, -1, 0, 0), TS_METRIC, ANY, "J/(kg.K)"},
    {TS_DIM(2, 0, -1, 0, 0, 0, 0), TS_METRIC, ANY, "m2/s"},
    {TS_DIM(-1, 1, -1, 0, 0, 0, 0), TS_METRIC, ANY, "Pa.s"},
    {TS_DIM(1, 1, -1, 0, 0, 0, 0), TS_METRIC, ANY, "N.s"},
    {TS_DIM(0, 0, 0, 1, 0, 0, 0), TS_METRIC, 1, "mA"},
    {TS_DIM(0, 0, 0, 1, 0, 0, 0), TS_METRIC, ANY, "A"},
    {TS_DIM(2, 1, -3, -1, 0, 0, 0), TS_METRIC, ANY, "V"},
    {TS_DIM(2, 1, -3, -2, 0, 0, 0), TS_METRIC, ANY, "Ohm"},
    {TS_DIM(-2, 0, 0, 0, 0, 0, 1), TS_METRIC, ANY, "lx"},
};

static const char *look_up(double size, ts_dim dim, ts_system system) {
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    if (rows[i].dim == dim && rows[i].system == system &&
        (size < rows[i].below || rows[i].below == ANY))
      return rows[i].unit;
  return NULL;
}

const char *ts_prefer(ts_range range, ts_dim dim, ts_system system) {
  double size = fmax(fabs(range.lo), fabs(range.hi));
  /* Nothing has no size: use the unit of ordinary amounts. */
  bool small_amounts = dim == TS_DENSITY || dim == TS_VOLUME || dim == TS_FLOW;
  if (size == 0) size = small_amounts ? 0.01 : 1;
  const char *unit = look_up(size, dim, system);
  return unit ? unit : look_up(size, dim, TS_METRIC);
}

bool ts_prefer_clock(ts_range range) {
  return fabs(range.lo) < TS_CLOCK_END && fabs(range.hi) < TS_CLOCK_END;
}
