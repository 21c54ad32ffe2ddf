/* Published figures: pressure of water and air, density, Boyle, vapour. */
#include "figures.h"

#define SEA_LEVEL 101325.0
#define TEOS "TEOS-10 density and hydrostatics"
#define US33 "US convention 33 ft of sea water = 1 atm"
#define RHO33 (101325.0 / (9.80665 * 33 * 0.3048)) /* water of which 33 ft make 1 atm */
#define RHO64 (64 * 0.45359237 / 0.028316846592)   /* 64 lb/ft3 */
#define RHO62 (62.4 * 0.45359237 / 0.028316846592) /* 62.4 lb/ft3 */
#define ICAO "ICAO Standard Atmosphere (Doc 7488 constants)"
#define ICAO64 "ICAO Standard Atmosphere (1964) table"
#define EOS80 "UNESCO Technical Papers in Marine Science 44 (1983), EOS-80 check values"
#define IAPWS "IAPWS-95"
#define OPENSTAX "OpenStax College Physics, fluid statics"
/* EOS-80's check values are at IPTS-68 temperatures. */
#define T68(t) DEGC((t) / 1.00024)
#define GRAVITY "standard gravity against 9.812 m/s2 at 51.5 N: 0.06 %"
#define OTHER_STATE "EOS-80 and IAPWS-95 differ by under 0.003 kg/m3 here"

/* clang-format off */
static const figure figures[] = {
    {"PRS-F01", "ambient_pressure", {1, SEA_LEVEL, 998.208}, 111.114 KPA, 1, DIGIT, TEOS},
    {"PRS-F02", "ambient_pressure", {2, SEA_LEVEL, 998.208}, 120.903 KPA, 1, DIGIT, TEOS},
    {"PRS-F06", "ambient_pressure", {6, SEA_LEVEL, 998.208}, 160.059 KPA, 1, DIGIT, TEOS},
    {"PRS-F10", "ambient_pressure", {10, SEA_LEVEL, 998.208}, 199.216 KPA, 1, DIGIT, TEOS},
    {"PRS-F01", "hydrostatic_pressure", {1, 998.208}, 9.789 KPA, 1, DIGIT, TEOS},
    {"PRS-F02", "hydrostatic_pressure", {2, 998.208}, 19.578 KPA, 1, DIGIT, TEOS},
    {"PRS-F06", "hydrostatic_pressure", {6, 998.208}, 58.734 KPA, 1, DIGIT, TEOS},
    {"PRS-F10", "hydrostatic_pressure", {10, 998.208}, 97.891 KPA, 1, DIGIT, TEOS},
    {"PRS-S05", "hydrostatic_pressure", {5, 1028.107}, 50.44 KPA, 50, GRAVITY,
     "TEOS-10, GSW 3.6.16"},
    {"PRS-S10", "hydrostatic_pressure", {10, 1028.107}, 100.881 KPA, 101, GRAVITY,
     "TEOS-10, GSW 3.6.16"},
    {"PRS-S30", "hydrostatic_pressure", {30, 1028.107}, 302.657 KPA, 303, GRAVITY,
     "TEOS-10, GSW 3.6.16"},
    {"PRS-02", "hydrostatic_pressure", {1 FEET, RHO64}, 3.0643 KPA, 0.1, DIGIT,
     "US Navy Diving Manual, 1 fsw at 64 lb/ft3"},
    {"PRS-10", "hydrostatic_pressure", {1 FEET, RHO62}, 0.4333 PSI, 0.0001 PSI, DIGIT,
     "62.4 lb/ft3, as US diving manuals use it"},
    {"PRS-05", "ambient_pressure", {130 FEET, SEA_LEVEL, RHO33}, 4.94 ATM, 0.005 ATM, ROUNDING,
     US33},
    {"PRS-06", "depth_of_pressure", {7 ATM, SEA_LEVEL, RHO33}, 198 FEET, 1e-9, EXACT, US33},
    {"PRS-07", "ambient_pressure", {46 FEET, SEA_LEVEL, RHO33}, 2.3939 ATM, 0.0001 ATM, DIGIT,
     "Canada Termium terminology record, 2002"},
    {"PRS-08", "ambient_pressure", {33 FEET, SEA_LEVEL, RHO33}, 2 ATM, 1e-6, EXACT, US33},
    {"PRS-08", "ambient_pressure", {66 FEET, SEA_LEVEL, RHO33}, 3 ATM, 1e-6, EXACT, US33},
    {"PRS-08", "ambient_pressure", {99 FEET, SEA_LEVEL, RHO33}, 4 ATM, 1e-6, EXACT, US33},
    {"H-09", "hydrostatic_pressure", {1, 1000}, 9806.65, 1e-6, EXACT, "p = rho g h"},
    {"H-09", "hydrostatic_pressure", {1, 1025}, 10051.82, 0.01, DIGIT, "p = rho g h"},
    {"H-08", "hydrostatic_pressure", {20 FEET, 1000}, 59781.3, 0.1, DIGIT, "p = rho g h"},
    {"H-02", "depth_of_pressure", {2 * SEA_LEVEL, SEA_LEVEL, 1000}, 10.33227, 1e-5, DIGIT,
     OPENSTAX},
    {"BAR-02", "hydrostatic_pressure", {0.90, 1000}, 8.83 KPA, 0.01 KPA, DIGIT,
     "IAFF diving medicine: 90 cm of water"},
    {"BAR-03", "depth_of_pressure", {SEA_LEVEL + 20 MMHG, SEA_LEVEL, 1025}, 0.265, 0.0005, DIGIT,
     "Diving and Subaquatic Medicine: 20 mmHg"},
    {"BAR-04", "hydrostatic_pressure", {4 FEET, 1025}, 92 MMHG, 0.5 MMHG, ROUNDING,
     "Atlas of Emergency Medicine: 4 ft of sea water"},
    {"B-09", "ambient_pressure", {20, SEA_LEVEL, 1025}, 3.02361 BAR_, 1, DIGIT, "hydrostatics"},
    /* density */
    {"PRS-20", "water_density", {DEGC(4), 0.035}, 1027.79, 0.02, ROUNDING, "TEOS-10"},
    {"PRS-20", "water_density", {DEGC(15), 0.035}, 1025.98, 0.02, ROUNDING, "TEOS-10"},
    {"PRS-20", "water_density", {DEGC(25), 0.035}, 1023.34, 0.02, ROUNDING, "TEOS-10"},
    {"U-23", "water_density", {DEGC(10), 0.035}, 1026.955, 0.02, OTHER_STATE, "TEOS-10"},
    {"U-23", "water_density", {DEGC(20), 0.035}, 1024.766, 0.02, OTHER_STATE, "TEOS-10"},
    {"PRS-21", "water_density", {DEGC(4), 0}, 999.98, 0.01, DIGIT, "TEOS-10"},
    {"PRS-21", "water_density", {DEGC(15), 0}, 999.10, 0.01, DIGIT, "TEOS-10"},
    {"PRS-21", "water_density", {DEGC(30), 0}, 995.65, 0.01, DIGIT, "TEOS-10"},
    {"PROP-014", "water_density", {DEGC(4), 0}, 999.9749, 0.003, OTHER_STATE, IAPWS},
    {"PROP-014", "water_density", {DEGC(20), 0}, 998.2072, 0.003, OTHER_STATE, IAPWS},
    {"PROP-014", "water_density", {DEGC(30), 0}, 995.6495, 0.003, OTHER_STATE, IAPWS},
    {"PROP-014", "water_density", {DEGC(40), 0}, 992.2164, 0.003, OTHER_STATE, IAPWS},
    {"PROP-001", "water_density", {T68(5), 0}, 999.96675, 5e-6, DIGIT, EOS80},
    {"PROP-003", "water_density", {T68(25), 0}, 997.04796, 5e-6, DIGIT, EOS80},
    {"PROP-005", "water_density", {T68(5), 0.035}, 1027.67547, 5e-6, DIGIT, EOS80},
    {"PROP-007", "water_density", {T68(25), 0.035}, 1023.34306, 5e-6, DIGIT, EOS80},
    /* the standard atmosphere: 1 m of height is up to 12 Pa */
    {"PRS-22", "air_pressure", {111}, 1000e2, 12, ROUNDING, ICAO64},
    {"PRS-22", "air_pressure", {540}, 950e2, 12, ROUNDING, ICAO64},
    {"PRS-22", "air_pressure", {988}, 900e2, 12, ROUNDING, ICAO64},
    {"PRS-22", "air_pressure", {1457}, 850e2, 12, ROUNDING, ICAO64},
    {"PRS-22", "air_pressure", {1949}, 800e2, 12, ROUNDING, ICAO64},
    {"PRS-22", "air_pressure", {3012}, 700e2, 12, ROUNDING, ICAO64},
    {"PRS-22", "air_pressure", {5574}, 500e2, 12, ROUNDING, ICAO64},
    {"PRS-25", "air_pressure", {0}, 1013.25e2, 1e-6, EXACT, ICAO},
    {"PRS-23", "air_pressure", {300}, 977.73e2, 1, DIGIT, ICAO},
    {"PRS-23", "air_pressure", {500}, 954.61e2, 1, DIGIT, ICAO},
    {"PRS-23", "air_pressure", {1000}, 898.75e2, 1, DIGIT, ICAO},
    {"PRS-23", "air_pressure", {1500}, 845.56e2, 1, DIGIT, ICAO},
    {"PRS-23", "air_pressure", {2000}, 794.95e2, 1, DIGIT, ICAO},
    {"PRS-23", "air_pressure", {2500}, 746.83e2, 1, DIGIT, ICAO},
    {"PRS-23", "air_pressure", {3000}, 701.09e2, 1, DIGIT, ICAO},
    {"PRS-24", "air_pressure", {8000 FEET}, 752.6e2, 10, DIGIT, ICAO},
    /* gas under pressure */
    {"BOY-03", "volume_at_pressure", {24 CUBIC_FEET, 33 / 33.0 ATM, 132 / 33.0 ATM}, 6 CUBIC_FEET,
     1e-12, EXACT, "US Navy Diving Manual ch. 2 (from memory)"},
    {"BOY-04", "volume_at_pressure", {6.0 LITRES, 1 BAR_, 2 BAR_}, 3.0 LITRES, 1e-15, EXACT,
     "Boyle's law"},
    {"BOY-04", "volume_at_pressure", {6.0 LITRES, 1 BAR_, 4 BAR_}, 1.5 LITRES, 1e-15, EXACT,
     "Boyle's law"},
    {"BOY-04", "volume_at_pressure", {6.0 LITRES, SEA_LEVEL, 202.2 KPA}, 3.006 LITRES, 0.001 LITRES,
     DIGIT, "Boyle's law with the TEOS-10 pressure at 10 m"},
    {"BOY-05", "volume_at_pressure", {1, 2 BAR_, 1 BAR_}, 2000 LITRES, 1e-12, EXACT,
     "Boyle's law, lift bag"},
    {"B-09", "volume_at_pressure", {0.48780, 3.02361 BAR_, SEA_LEVEL}, 1455.6 LITRES, 0.1 LITRES,
     DIGIT, "Boyle's law, lift bag at 20 m"},
    {"BOY-03", "expansion_ratio", {4 ATM, 1 ATM}, 4, 1e-12, EXACT,
     "US Navy Diving Manual ch. 2 (from memory)"},
    {"PRS-08", "lung_expansion_ratio", {33 FEET, SEA_LEVEL, RHO33}, 2, 1e-9, EXACT, US33},
    {"CO2-15", "surface_equivalent", {10e-6, 4 BAR_, 1 BAR_}, 40e-6, 1e-15, EXACT, "Dalton's law"},
    {"PROP-018", "vapour_pressure", {DEGC(10)}, 1228.2, 0.4, "0.03 % between the two equations",
     IAPWS},
    {"PROP-018", "vapour_pressure", {DEGC(28)}, 3783.1, 1.1, "0.03 % between the two equations",
     IAPWS},
    {"PROP-018", "vapour_pressure", {DEGC(40)}, 7384.9, 2.2, "0.03 % between the two equations",
     IAPWS},
    {"PROP-019", "vapour_pressure", {DEGC(20)}, 2338.80, 0.01, DIGIT, "ASHRAE Fundamentals 2017"},
    {"PROP-019", "vapour_pressure", {DEGC(25)}, 3169.22, 0.01, DIGIT, "ASHRAE Fundamentals 2017"},
    {"PROP-019", "vapour_pressure", {DEGC(30)}, 4246.03, 0.01, DIGIT, "ASHRAE Fundamentals 2017"},
    {"PROP-019", "vapour_pressure", {DEGC(35)}, 5627.82, 0.01, DIGIT, "ASHRAE Fundamentals 2017"},
};
/* clang-format on */

FIGURE_SUITE(pressure)
