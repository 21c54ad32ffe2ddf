/* Published figures: gas consumption, endurance, cylinders, oxygen limits. */
#include "figures.h"

#define USN4 "US Navy Diving Manual SS521-AG-PRO-010 Rev 4 Change A"
#define NOAA "NOAA Diving Manual, oxygen exposure limits, working dive"
#define CYLINDERS "scuba cylinder specification table"
/* Depth in feet of sea water as a pressure, 33 ft to an atmosphere. */
#define FSW(d) (((d) + 33) / 33.0 * 101325)
/* Water of which 10 m make 1 bar, and 33 ft make 1 atm. */
#define RHO10 (1e5 / (9.80665 * 10))
#define RHO33 (101325.0 / (9.80665 * 33 * 0.3048))
#define CUBIC_INCHES *1.6387064e-5

/* clang-format off */
static const figure figures[] = {
    {"GAS-02", "gas_demand", {1.4 CFM, FSW(70), 1 ATM}, 4.37 CFM, 0.01 CFM, DIGIT,
     USN4 ", fig. 7-6"},
    {"C-07", "gas_demand", {35 L_PER_MIN, 3 BAR_, 1 BAR_}, 105 L_PER_MIN, 1e-12, EXACT,
     "Boyle's law"},
    {"GAS-04", "gas_needed", {1.4 CFM, FSW(190), 1 ATM, 3 MINUTES, 1}, 28.38 CUBIC_FEET,
     0.01 CUBIC_FEET, DIGIT, USN4 ", par. 8-2.2.1"},
    {"GAS-05", "gas_needed", {1.4 CFM, FSW(95), 1 ATM, 7 MINUTES, 1}, 38.01 CUBIC_FEET,
     0.01 CUBIC_FEET, DIGIT, USN4 ", p 8-3"},
    {"GAS-09", "gas_endurance", {12 LITRES, 232 BAR_, 50 BAR_, 20 L_PER_MIN, 2 BAR_, 1},
     54.6 MINUTES, 0.1 MINUTES, DIGIT, "ideal gas identity"},
    {"GAS-09", "gas_endurance", {12 LITRES, 232 BAR_, 50 BAR_, 20 L_PER_MIN, 3 BAR_, 1},
     36.4 MINUTES, 0.1 MINUTES, DIGIT, "ideal gas identity"},
    {"GAS-09", "gas_endurance", {12 LITRES, 232 BAR_, 50 BAR_, 20 L_PER_MIN, 2 BAR_, 2},
     27.3 MINUTES, 0.05 MINUTES, ROUNDING, "ideal gas identity, two people: half"},
    {"C-01", "cylinder_free_gas", {673 CUBIC_INCHES, 3000 PSI, 14.7 PSI}, 79.87 CUBIC_FEET,
     0.05 CUBIC_FEET, ROUNDING, CYLINDERS ", aluminium 80"},
    {"C-02", "cylinder_free_gas", {730 CUBIC_INCHES, 2250 PSI, 14.7 PSI}, 65.08 CUBIC_FEET,
     0.05 CUBIC_FEET, ROUNDING, CYLINDERS ", steel 71.2"},
    {"C-02", "cylinder_free_gas", {730 CUBIC_INCHES, 2475 PSI, 14.7 PSI}, 71.55 CUBIC_FEET,
     0.05 CUBIC_FEET, ROUNDING, CYLINDERS ", steel 71.2, overfilled by 10 %"},
    {"C-05", "cylinder_energy", {12 LITRES, 232 BAR_, 1 BAR_}, 1516.4e3, 100, DIGIT,
     "p V ln(p / p0)"},
    {"C-05", "cylinder_energy", {12 LITRES, 232 BAR_, 1 BAR_}, 1536e3, 23e3,
     "1.5 %: the printed figure counts moles by 22.4 L",
     "n R T ln(p / p0), 12 L at 232 bar and 25 degC"},
    {"C-E", "cylinder_energy", {1, 271828.182846, 100 KPA}, 271828.182846, 1e-3, EXACT,
     "p V ln(p / p0) where p / p0 is e"},
    {"PO2-21", "maximum_operating_depth", {0.21, 1.4 BAR_, 1 BAR_, RHO10}, 56.7, 0.05, ROUNDING,
     "Dalton's law"},
    {"PO2-21", "maximum_operating_depth", {0.21, 1.6 BAR_, 1 BAR_, RHO10}, 66.2, 0.05, ROUNDING,
     "Dalton's law"},
    {"PO2-21", "maximum_operating_depth", {0.21, 1.4 ATM, 1 ATM, RHO33}, 187 FEET, 0.5 FEET,
     ROUNDING, "Dalton's law, 33 ft to 1 atm"},
    {"PO2-21", "maximum_operating_depth", {0.21, 1.6 ATM, 1 ATM, RHO33}, 218.4 FEET, 0.1 FEET,
     DIGIT, "Dalton's law, 33 ft to 1 atm"},
    {"PO2-06", "oxygen_exposure_limit", {0.6 ATM}, 720 MINUTES, 0, TABLE, NOAA},
    {"PO2-07", "oxygen_exposure_limit", {0.7 ATM}, 570 MINUTES, 0, TABLE, NOAA},
    {"PO2-09", "oxygen_exposure_limit", {0.9 ATM}, 360 MINUTES, 0, TABLE, NOAA},
    {"PO2-12", "oxygen_exposure_limit", {1.2 ATM}, 210 MINUTES, 0, TABLE, NOAA},
    {"PO2-13", "oxygen_exposure_limit", {1.3 ATM}, 180 MINUTES, 0, TABLE, NOAA},
    {"PO2-14", "oxygen_exposure_limit", {1.4 ATM}, 150 MINUTES, 0, TABLE, NOAA},
    {"PO2-15", "oxygen_exposure_limit", {1.5 ATM}, 120 MINUTES, 0, TABLE, NOAA},
    {"PO2-16", "oxygen_exposure_limit", {1.6 ATM}, 45 MINUTES, 0, TABLE, NOAA},
    {"PO2-14", "oxygen_exposure_limit", {1.31 ATM}, 150 MINUTES, 0,
     "between rows the higher pressure", NOAA},
    {"PO2-07", "oxygen_exposure_limit", {0.605 ATM}, 570 MINUTES, 0,
     "between rows the higher pressure", NOAA},
    {"PO2-12", "oxygen_exposure_limit", {1.105 ATM}, 210 MINUTES, 0,
     "between rows the higher pressure", NOAA},
    {"PO2-08", "oxygen_exposure_limit", {0.8 ATM}, 450 MINUTES, 0, TABLE, NOAA ", transcribed"},
    {"PO2-10", "oxygen_exposure_limit", {1.0 ATM}, 300 MINUTES, 0, TABLE, NOAA ", transcribed"},
    {"PO2-11", "oxygen_exposure_limit", {1.1 ATM}, 240 MINUTES, 0, TABLE, NOAA ", transcribed"},
    {"PO2-08", "oxygen_exposure_day", {0.8 ATM}, 450 MINUTES, 0, TABLE, NOAA ", transcribed"},
    {"PO2-10", "oxygen_exposure_day", {1.0 ATM}, 300 MINUTES, 0, TABLE, NOAA ", transcribed"},
    {"PO2-11", "oxygen_exposure_day", {1.1 ATM}, 270 MINUTES, 0, TABLE, NOAA ", transcribed"},
    {"PO2-07", "oxygen_exposure_day", {0.7 ATM}, 570 MINUTES, 0, TABLE, NOAA},
    {"PO2-13", "oxygen_exposure_limit", {1.205 ATM}, 180 MINUTES, 0,
     "between rows the higher pressure", NOAA},
    {"PO2-16", "oxygen_exposure_limit", {1.61 ATM}, 0, 0, "beyond the table no time", NOAA},
    {"PO2-06", "oxygen_exposure_day", {0.6 ATM}, 720 MINUTES, 0, TABLE, NOAA},
    {"PO2-09", "oxygen_exposure_day", {0.9 ATM}, 360 MINUTES, 0, TABLE, NOAA},
    {"PO2-12", "oxygen_exposure_day", {1.2 ATM}, 240 MINUTES, 0, TABLE, NOAA},
    {"PO2-13", "oxygen_exposure_day", {1.3 ATM}, 210 MINUTES, 0, TABLE, NOAA},
    {"PO2-14", "oxygen_exposure_day", {1.4 ATM}, 180 MINUTES, 0, TABLE, NOAA},
    {"PO2-15", "oxygen_exposure_day", {1.5 ATM}, 180 MINUTES, 0, TABLE, NOAA},
    {"PO2-16", "oxygen_exposure_day", {1.6 ATM}, 150 MINUTES, 0, TABLE, NOAA},
};
/* clang-format on */

FIGURE_SUITE(gas)
