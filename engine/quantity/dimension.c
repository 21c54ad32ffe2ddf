/* Dimensions: see dimension.h. */
#include "quantity/dimension.h"

#include <stdio.h>
#include <string.h>

static const char *const base_symbol[TS_BASES] = {"m", "kg", "s", "A", "K", "mol", "cd"};

#define IRRADIANCE TS_DIM(0, 1, -3, 0, 0, 0, 0)
#define VOLTAGE TS_DIM(2, 1, -3, -1, 0, 0, 0)

/* What the dimensions that turn up on a wet stage are called in messages. */
static const struct {
  ts_dim dim;
  const char *name;
} names[] = {
    {TS_NUMBER, "plain number"},
    {TS_LENGTH, "length"},
    {TS_MASS, "mass"},
    {TS_TIME, "time"},
    {TS_TEMPERATURE, "temperature"},
    {TS_TEMPERATURE_DIFFERENCE, "temperature difference"},
    {TS_MOMENT, "date or time of day"},
    {TS_TURBIDITY, "turbidity"},
    {TS_SOUND, "sound level"},
    {TS_AREA, "area"},
    {TS_VOLUME, "volume"},
    {TS_FLOW, "flow"},
    {TS_SPEED, "speed"},
    {TS_ACCELERATION, "acceleration"},
    {TS_FORCE, "force"},
    {TS_PRESSURE, "pressure"},
    {TS_POWER, "power"},
    {TS_DENSITY, "density or concentration"},
    {TS_DIM(0, 0, -1, 0, 0, 0, 0), "rate"},
    {TS_DIM(2, 1, -2, 0, 0, 0, 0), "energy or moment of force"},
    {TS_DIM(1, 1, -1, 0, 0, 0, 0), "momentum"},
    {TS_DIM(0, 1, -1, 0, 0, 0, 0), "mass flow"},
    {TS_DIM(-3, 1, 1, 0, 0, 0, 0), "concentration times time"},
    {TS_DIM(-3, 0, 0, 0, 0, 0, 0), "count per volume"},
    {TS_DIM(-2, 0, 0, 0, 0, 0, 0), "count per area"},
    {TS_DIM(-1, 0, 0, 0, 0, 0, 0), "count per length"},
    {TS_DIM(0, 1, -2, 0, 0, 0, 0), "energy per area"},
    {IRRADIANCE, "power per area"},
    {TS_DIM(0, 1, -3, 0, -1, 0, 0), "heat transfer coefficient"},
    {TS_DIM(0, -1, 3, 0, 1, 0, 0), "thermal insulation"},
    {TS_DIM(1, 1, -3, 0, -1, 0, 0), "thermal conductivity"},
    {TS_DIM(2, 0, -2, 0, -1, 0, 0), "specific heat"},
    {TS_DIM(2, 0, -2, 0, 0, 0, 0), "energy per mass"},
    {TS_DIM(2, 0, -1, 0, 0, 0, 0), "area per time"},
    {TS_DIM(-1, 1, -1, 0, 0, 0, 0), "viscosity"},
    {TS_DIM(-2, 1, 0, 0, 0, 0, 0), "mass per area"},
    {TS_DIM(-1, 1, 0, 0, 0, 0, 0), "mass per length"},
    {TS_DIM(0, 0, 0, 1, 0, 0, 0), "electric current"},
    {TS_DIM(0, 0, 1, 1, 0, 0, 0), "electric charge"},
    {VOLTAGE, "voltage"},
    {TS_DIM(2, 1, -3, -2, 0, 0, 0), "electric resistance"},
    {TS_DIM(-2, -1, 3, 2, 0, 0, 0), "electric conductance"},
    {TS_DIM(-3, -1, 3, 2, 0, 0, 0), "electric conductivity"},
    {TS_DIM(0, 0, 0, 0, 0, 1, 0), "amount of substance"},
    {TS_DIM(-3, 0, 0, 0, 0, 1, 0), "amount concentration"},
    {TS_DIM(0, 0, 0, 0, 0, 0, 1), "luminous intensity"},
    {TS_DIM(-2, 0, 0, 0, 0, 0, 1), "illuminance"},
};

int ts_dim_exponent(ts_dim dim, int base) { return (int8_t)(uint8_t)(dim >> (8 * base)); }

bool ts_dim_join(ts_dim a, ts_dim b, int times, ts_dim *result) {
  ts_dim joined = 0;
  for (int i = 0; i < TS_BASES; i++) {
    int exponent = ts_dim_exponent(a, i) + times * ts_dim_exponent(b, i);
    if (exponent < -127 || exponent > 127) return false;
    joined |= (ts_dim)(uint8_t)exponent << (8 * i);
  }
  *result = joined;
  return true;
}

char *ts_dim_text(ts_dim dim, const char *between, char *out, size_t size) {
  size_t at = 0;
  if (size) out[0] = '\0';
  for (int i = 0; i < TS_BASES && at < size; i++) {
    int exponent = ts_dim_exponent(dim, i), added;
    if (!exponent) continue;
    const char *gap = at ? between : "";
    if (exponent == 1)
      added = snprintf(out + at, size - at, "%s%s", gap, base_symbol[i]);
    else
      added = snprintf(out + at, size - at, "%s%s%d", gap, base_symbol[i], exponent);
    at += (size_t)added;
  }
  return out;
}

char *ts_dim_name(ts_dim dim, char *out, size_t size) {
  for (size_t i = 0; i < sizeof names / sizeof *names; i++)
    if (names[i].dim == dim) {
      snprintf(out, size, "%s", names[i].name);
      return out;
    }
  return ts_dim_text(dim, " ", out, size);
}
