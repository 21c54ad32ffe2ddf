/* Units: our own table.
 *
 * What must be exact, what the trade writes and udunits2 lacks, and every
 * symbol: udunits2's short names include things nobody means on a set (`gal` is an
 * acceleration there, `pt` and `ph` are printers' points and phots), so from
 * there only single words in small letters are taken, and of those not all
 * (udunits.c). Its turn is 6.28 radians, so that a count of turns would come out
 * wrong: refused. Its US gallon is rounded to seven digits and its acre and fathom
 * are made of survey feet, which NIST retired at the end of 2022 (from memory);
 * ours are exact, of international feet. Its footcandle is a hundredth of one, its
 * calorie another than the `cal` of the table.
 *
 * Sources. Customary units: NIST SP 811 (2008), App. B.8/B.9, and NIST SP 1038
 * (2006). msw: 10 kPa, by definition (US Navy Diving Manual). fsw: four values
 * are in use, 0.74 % apart; ours is the US Navy Diving Manual's 64 lbf/ft3 at
 * standard gravity, 3.0643 kPa = 0.44444 psi in its conversion table. met and
 * clo: ISO 8996 and ISO 9920 (58.15 W/m2 and 0.155 m2 K/W, from memory). The
 * year is the mean Gregorian one, 365.2425 days. */
#include "quantity/units.h"

#include <stddef.h>

#define PER_TIME TS_DIM(0, 0, -1, 0, 0, 0, 0)
#define ENERGY TS_DIM(2, 1, -2, 0, 0, 0, 0)
#define CHARGE TS_DIM(0, 0, 1, 1, 0, 0, 0)
#define CURRENT TS_DIM(0, 0, 0, 1, 0, 0, 0)
#define VOLTAGE TS_DIM(2, 1, -3, -1, 0, 0, 0)
#define RESISTANCE TS_DIM(2, 1, -3, -2, 0, 0, 0)
#define CONDUCTANCE TS_DIM(-2, -1, 3, 2, 0, 0, 0)
#define CAPACITANCE TS_DIM(-2, -1, 4, 2, 0, 0, 0)
#define FLUX TS_DIM(2, 1, -2, -1, 0, 0, 0)
#define FLUX_DENSITY TS_DIM(0, 1, -2, -1, 0, 0, 0)
#define INDUCTANCE TS_DIM(2, 1, -2, -2, 0, 0, 0)
#define DOSE TS_DIM(2, 0, -2, 0, 0, 0, 0)
#define AMOUNT TS_DIM(0, 0, 0, 0, 0, 1, 0)
#define LUMINOUS TS_DIM(0, 0, 0, 0, 0, 0, 1)
#define ILLUMINANCE TS_DIM(-2, 0, 0, 0, 0, 0, 1)
#define IRRADIANCE TS_DIM(0, 1, -3, 0, 0, 0, 0)
#define INSULATION TS_DIM(0, -1, 3, 0, 1, 0, 0)

#define FACTOR(num, den, dim)                                                                      \
  { num, den, 0.0, 0.0, dim }
#define SI(symbol, word, dim)                                                                      \
  {symbol, FACTOR(1, 1, dim), TS_SYMBOL}, { word, FACTOR(1, 1, dim), TS_WORD }

const ts_unit ts_own_units[] = {
    /* SI base and derived units */
    SI("m", "metre", TS_LENGTH),
    {"meter", FACTOR(1, 1, TS_LENGTH), TS_WORD},
    {"g", FACTOR(1, 1e3, TS_MASS), TS_SYMBOL},
    {"gram", FACTOR(1, 1e3, TS_MASS), TS_WORD},
    SI("s", "second", TS_TIME),
    SI("A", "ampere", CURRENT),
    SI("K", "kelvin", TS_TEMPERATURE_DIFFERENCE),
    SI("mol", "mole", AMOUNT),
    SI("cd", "candela", LUMINOUS),
    SI("Hz", "hertz", PER_TIME),
    SI("N", "newton", TS_FORCE),
    SI("Pa", "pascal", TS_PRESSURE),
    SI("J", "joule", ENERGY),
    SI("W", "watt", TS_POWER),
    SI("V", "volt", VOLTAGE),
    SI("Ohm", "ohm", RESISTANCE),
    SI("S", "siemens", CONDUCTANCE),
    SI("T", "tesla", FLUX_DENSITY),
    SI("Wb", "weber", FLUX),
    {"coulomb", FACTOR(1, 1, CHARGE), TS_WORD},
    {"farad", FACTOR(1, 1, CAPACITANCE), TS_WORD},
    {"henry", FACTOR(1, 1, INDUCTANCE), TS_WORD},
    SI("lm", "lumen", LUMINOUS),
    SI("lx", "lux", ILLUMINANCE),
    SI("Sv", "sievert", DOSE),
    SI("Gy", "gray", DOSE),
    SI("Bq", "becquerel", PER_TIME),
    SI("rad", "radian", TS_NUMBER),
    {"VA", FACTOR(1, 1, TS_POWER), TS_SYMBOL},
    {"Wh", FACTOR(3600, 1, ENERGY), TS_SYMBOL},
    {"Ah", FACTOR(3600, 1, CHARGE), TS_SYMBOL},

    /* length */
    {"in", FACTOR(254, 1e4, TS_LENGTH), TS_AS_IS},
    {"inch", FACTOR(254, 1e4, TS_LENGTH), TS_AS_IS},
    {"inches", FACTOR(254, 1e4, TS_LENGTH), TS_AS_IS},
    {"ft", FACTOR(3048, 1e4, TS_LENGTH), TS_AS_IS},
    {"foot", FACTOR(3048, 1e4, TS_LENGTH), TS_AS_IS},
    {"feet", FACTOR(3048, 1e4, TS_LENGTH), TS_AS_IS},
    {"yd", FACTOR(9144, 1e4, TS_LENGTH), TS_AS_IS},
    {"yard", FACTOR(9144, 1e4, TS_LENGTH), TS_PLURAL},
    {"mi", FACTOR(1609344, 1e3, TS_LENGTH), TS_AS_IS},
    {"mile", FACTOR(1609344, 1e3, TS_LENGTH), TS_PLURAL},
    {"nmi", FACTOR(1852, 1, TS_LENGTH), TS_AS_IS},
    {"nautical_mile", FACTOR(1852, 1, TS_LENGTH), TS_PLURAL},
    {"fathom", FACTOR(18288, 1e4, TS_LENGTH), TS_PLURAL},
    {"furlong", FACTOR(201168, 1e3, TS_LENGTH), TS_PLURAL},
    {"micron", FACTOR(1, 1e6, TS_LENGTH), TS_PLURAL},

    /* mass */
    {"t", FACTOR(1e3, 1, TS_MASS), TS_AS_IS},
    {"tonne", FACTOR(1e3, 1, TS_MASS), TS_PLURAL},
    {"lb", FACTOR(45359237, 1e8, TS_MASS), TS_PLURAL},
    {"pound", FACTOR(45359237, 1e8, TS_MASS), TS_PLURAL},
    {"oz", FACTOR(45359237, 16e8, TS_MASS), TS_AS_IS},
    {"ounce", FACTOR(45359237, 16e8, TS_MASS), TS_PLURAL},
    {"st", FACTOR(14 * 45359237.0, 1e8, TS_MASS), TS_AS_IS},
    {"stone", FACTOR(14 * 45359237.0, 1e8, TS_MASS), TS_PLURAL},
    {"short_ton", FACTOR(90718474, 1e5, TS_MASS), TS_PLURAL},
    {"long_ton", FACTOR(10160469088, 1e7, TS_MASS), TS_PLURAL},

    /* time */
    {"sec", FACTOR(1, 1, TS_TIME), TS_PLURAL},
    {"min", FACTOR(60, 1, TS_TIME), TS_AS_IS},
    {"mins", FACTOR(60, 1, TS_TIME), TS_AS_IS},
    {"minute", FACTOR(60, 1, TS_TIME), TS_PLURAL},
    {"h", FACTOR(3600, 1, TS_TIME), TS_AS_IS},
    {"hr", FACTOR(3600, 1, TS_TIME), TS_PLURAL},
    {"hour", FACTOR(3600, 1, TS_TIME), TS_PLURAL},
    {"d", FACTOR(86400, 1, TS_TIME), TS_AS_IS},
    {"day", FACTOR(86400, 1, TS_TIME), TS_PLURAL},
    {"wk", FACTOR(604800, 1, TS_TIME), TS_PLURAL},
    {"week", FACTOR(604800, 1, TS_TIME), TS_PLURAL},
    {"y", FACTOR(31556952, 1, TS_TIME), TS_AS_IS},
    {"yr", FACTOR(31556952, 1, TS_TIME), TS_PLURAL},
    {"year", FACTOR(31556952, 1, TS_TIME), TS_PLURAL},

    /* temperature: points, then differences */
    {"degC", {1, 1, 0, 273.15, TS_TEMPERATURE}, TS_AS_IS},
    {"deg C", {1, 1, 0, 273.15, TS_TEMPERATURE}, TS_AS_IS},
    {"celsius", {1, 1, 0, 273.15, TS_TEMPERATURE}, TS_AS_IS},
    {"Celsius", {1, 1, 0, 273.15, TS_TEMPERATURE}, TS_AS_IS},
    {"degF", {5, 9, 32, 273.15, TS_TEMPERATURE}, TS_AS_IS},
    {"deg F", {5, 9, 32, 273.15, TS_TEMPERATURE}, TS_AS_IS},
    {"fahrenheit", {5, 9, 32, 273.15, TS_TEMPERATURE}, TS_AS_IS},
    {"Fahrenheit", {5, 9, 32, 273.15, TS_TEMPERATURE}, TS_AS_IS},
    {"delta_degC", FACTOR(1, 1, TS_TEMPERATURE_DIFFERENCE), TS_AS_IS},
    {"delta_degF", FACTOR(5, 9, TS_TEMPERATURE_DIFFERENCE), TS_AS_IS},

    /* area and volume */
    {"ha", FACTOR(1e4, 1, TS_AREA), TS_AS_IS},
    {"hectare", FACTOR(1e4, 1, TS_AREA), TS_PLURAL},
    {"acre", FACTOR(40468564224, 1e7, TS_AREA), TS_PLURAL},
    {"sqft", FACTOR(9290304, 1e8, TS_AREA), TS_AS_IS},
    {"L", FACTOR(1, 1e3, TS_VOLUME), TS_SYMBOL},
    {"l", FACTOR(1, 1e3, TS_VOLUME), TS_SYMBOL},
    {"litre", FACTOR(1, 1e3, TS_VOLUME), TS_WORD},
    {"liter", FACTOR(1, 1e3, TS_VOLUME), TS_WORD},
    {"gal", FACTOR(3785411784, 1e12, TS_VOLUME), TS_AS_IS},
    {"usgal", FACTOR(3785411784, 1e12, TS_VOLUME), TS_AS_IS},
    {"impgal", FACTOR(454609, 1e8, TS_VOLUME), TS_AS_IS},
    {"floz", FACTOR(3785411784, 128e12, TS_VOLUME), TS_AS_IS},
    {"qt", FACTOR(3785411784, 4e12, TS_VOLUME), TS_AS_IS},
    {"cuft", FACTOR(28316846592, 1e12, TS_VOLUME), TS_AS_IS},

    /* flow and speed */
    {"gpm", FACTOR(3785411784, 60e12, TS_FLOW), TS_AS_IS},
    {"gph", FACTOR(3785411784, 3600e12, TS_FLOW), TS_AS_IS},
    {"cfm", FACTOR(28316846592, 60e12, TS_FLOW), TS_AS_IS},
    {"acfm", FACTOR(28316846592, 60e12, TS_FLOW), TS_AS_IS},
    {"lpm", FACTOR(1, 60e3, TS_FLOW), TS_AS_IS},
    {"kn", FACTOR(1852, 3600, TS_SPEED), TS_AS_IS},
    {"kt", FACTOR(1852, 3600, TS_SPEED), TS_PLURAL},
    {"knot", FACTOR(1852, 3600, TS_SPEED), TS_PLURAL},
    {"mph", FACTOR(44704, 1e5, TS_SPEED), TS_AS_IS},
    {"kph", FACTOR(1e3, 3600, TS_SPEED), TS_AS_IS},
    {"fpm", FACTOR(3048, 60e4, TS_SPEED), TS_AS_IS},
    {"rpm", FACTOR(1, 60, PER_TIME), TS_AS_IS},
    {"bpm", FACTOR(1, 60, PER_TIME), TS_AS_IS},
    {"gn", FACTOR(980665, 1e5, TS_ACCELERATION), TS_AS_IS},

    /* force, pressure, energy, power */
    {"lbf", FACTOR(44482216152605, 1e13, TS_FORCE), TS_AS_IS},
    {"kgf", FACTOR(980665, 1e5, TS_FORCE), TS_AS_IS},
    {"bar", FACTOR(1e5, 1, TS_PRESSURE), TS_SYMBOL},
    {"bara", FACTOR(1e5, 1, TS_PRESSURE), TS_AS_IS},
    {"psi", FACTOR(44482216152605, 64516e5, TS_PRESSURE), TS_AS_IS},
    {"psia", FACTOR(44482216152605, 64516e5, TS_PRESSURE), TS_AS_IS},
    {"psf", FACTOR(44482216152605, 9290304e5, TS_PRESSURE), TS_AS_IS},
    {"atm", FACTOR(101325, 1, TS_PRESSURE), TS_AS_IS},
    {"ata", FACTOR(101325, 1, TS_PRESSURE), TS_AS_IS},
    {"torr", FACTOR(101325, 760, TS_PRESSURE), TS_AS_IS},
    {"mmHg", FACTOR(133322387415, 1e9, TS_PRESSURE), TS_AS_IS},
    {"inHg", FACTOR(3386388640341, 1e9, TS_PRESSURE), TS_AS_IS},
    {"mmH2O", FACTOR(980665, 1e5, TS_PRESSURE), TS_AS_IS},
    {"cmH2O", FACTOR(980665, 1e4, TS_PRESSURE), TS_AS_IS},
    {"mH2O", FACTOR(980665, 1e2, TS_PRESSURE), TS_AS_IS},
    {"inH2O", FACTOR(24908891, 1e5, TS_PRESSURE), TS_AS_IS},
    {"ftH2O", FACTOR(298906692, 1e5, TS_PRESSURE), TS_AS_IS},
    {"msw", FACTOR(1e4, 1, TS_PRESSURE), TS_AS_IS},
    {"fsw", FACTOR(64 * 44482216152605.0, 9290304e5, TS_PRESSURE), TS_AS_IS},
    {"cal", FACTOR(4184, 1e3, ENERGY), TS_SYMBOL},
    {"calorie", FACTOR(4184, 1e3, ENERGY), TS_WORD},
    {"Btu", FACTOR(105505585262, 1e8, ENERGY), TS_AS_IS},
    {"BTU", FACTOR(105505585262, 1e8, ENERGY), TS_AS_IS},
    {"hp", FACTOR(4191.0 * 8896443230521.0, 5e13, TS_POWER), TS_AS_IS},
    {"horsepower", FACTOR(4191.0 * 8896443230521.0, 5e13, TS_POWER), TS_AS_IS},
    {"footcandle", FACTOR(1e8, 9290304, ILLUMINANCE), TS_PLURAL},
    {"met", FACTOR(5815, 100, IRRADIANCE), TS_AS_IS},
    {"clo", FACTOR(155, 1e3, INSULATION), TS_AS_IS},

    /* plain numbers and what is counted */
    {"%", FACTOR(1, 100, TS_NUMBER), TS_AS_IS},
    {"percent", FACTOR(1, 100, TS_NUMBER), TS_AS_IS},
    {"ppm", FACTOR(1, 1e6, TS_NUMBER), TS_AS_IS},
    {"ppb", FACTOR(1, 1e9, TS_NUMBER), TS_AS_IS},
    {"pH", FACTOR(1, 1, TS_NUMBER), TS_AS_IS},
    {"cfu", FACTOR(1, 1, TS_NUMBER), TS_AS_IS},
    {"CFU", FACTOR(1, 1, TS_NUMBER), TS_AS_IS},
    {"MPN", FACTOR(1, 1, TS_NUMBER), TS_AS_IS},
    {"person", FACTOR(1, 1, TS_NUMBER), TS_PLURAL},
    {"people", FACTOR(1, 1, TS_NUMBER), TS_AS_IS},
    {"take", FACTOR(1, 1, TS_NUMBER), TS_PLURAL},
    {"breath", FACTOR(1, 1, TS_NUMBER), TS_PLURAL},
    {"deg", FACTOR(3.14159265358979323846, 180, TS_NUMBER), TS_AS_IS},
    {"degree", FACTOR(3.14159265358979323846, 180, TS_NUMBER), TS_PLURAL},
    {"NTU", FACTOR(1, 1, TS_TURBIDITY), TS_AS_IS},
    {"dBA", FACTOR(1, 1, TS_SOUND), TS_AS_IS},
    {"dB(A)", FACTOR(1, 1, TS_SOUND), TS_AS_IS},
    {NULL, FACTOR(1, 1, TS_NUMBER), TS_AS_IS},
};

const ts_prefix ts_prefixes[] = {
    {"k", "kilo", 1e3, 1}, {"m", "milli", 1, 1e3}, {"u", "micro", 1, 1e6}, {"c", "centi", 1, 1e2},
    {"M", "mega", 1e6, 1}, {"G", "giga", 1e9, 1},  {"h", "hecto", 1e2, 1}, {"d", "deci", 1, 10},
    {"n", "nano", 1, 1e9}, {"da", "deca", 10, 1},  {"p", "pico", 1, 1e12}, {"T", "tera", 1e12, 1},
    {NULL, NULL, 1, 1},
};

const ts_refusal ts_refusals[] = {
    {"C", "degC for a temperature"},
    {"F", "degF for a temperature"},
    {"ton", "t (1000 kg), short_ton (2000 lb) or long_ton (2240 lb)"},
    {"tons", "t (1000 kg), short_ton (2000 lb) or long_ton (2240 lb)"},
    {"gallon", "gal (US) or impgal"},
    {"gallons", "gal (US) or impgal"},
    {"pint", "L, gal (US) or impgal"},
    {"pints", "L, gal (US) or impgal"},
    {"month", "d, or a date such as 2027-03"},
    {"months", "d, or a date such as 2027-03"},
    {"fps", "ft/s, or /s for frames"},
    {"psig", "psi, and add the pressure of the air where the absolute pressure is meant"},
    {"barg", "bar, and add the pressure of the air where the absolute pressure is meant"},
    {"dB", "dBA"},
    {"'", "ft"},
    {"\"", "in"},
    {"NM", "nmi for nautical miles"},
    {"sq", "ft2 or m2"},
    {"cu", "ft3 or m3"},
    {"M", "m for metres, mol/L for a concentration"},
    {"FNU", "NTU; the two are not the same measurement"},
    {"scfm", "cfm, and say at which pressure"},
    {"turn", "rpm for a speed, deg for an angle"},
    {"turns", "rpm for a speed, deg for an angle"},
    {"revolution", "rpm for a speed, deg for an angle"},
    {"revolutions", "rpm for a speed, deg for an angle"},
    {"rotation", "rpm for a speed, deg for an angle"},
    {"rotations", "rpm for a speed, deg for an angle"},
    {"cycle", "Hz for a rate"},
    {"cycles", "Hz for a rate"},
    {NULL, NULL},
};
