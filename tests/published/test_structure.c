/* Published figures: loads of water, plates, floating and hanging things, ice, leaks. */
#include "figures.h"

#define FRESH 1000.0
#define SIX "one unit of the sixth digit"
#define HYDRO "hydrostatics"
#define OPENSTAX "OpenStax College Physics, fluid statics"
#define ROARK "Roark's Formulas for Stress and Strain 7th ed., Table 11.4 case 1a"
#define SLINGS "rigging chart, 1 / sin(angle)"
#define GOLD "Gold formula, 7.03 kg/cm2"
#define RHO62 (62.4 * 0.45359237 / 0.028316846592)
#define DEGREES *(3.14159265358979323846 / 180)
#define KG_PER_CM2 *1e4
#define TIMOSHENKO "Timoshenko, Plates and Shells, Table 8, square, nu 0.3 (from memory)"
#define ASIN_08 0.92729521800161223 /* the angle whose sine is 0.8 */

/* clang-format off */
static const figure figures[] = {
    {"H-01", "wall_thrust", {500, 80.0, FRESH}, 1.57e10, 0.01e10, DIGIT, OPENSTAX ", dam"},
    {"H-01", "wall_thrust", {500, 80.0, FRESH}, 1.569064e10, 1e4, SIX,
     OPENSTAX ", dam, standard gravity"},
    {"H-06", "wall_thrust", {60 FEET, 20 FEET, FRESH}, 3332321, 1, DIGIT, HYDRO},
    {"H-07", "wall_moment", {60 FEET, 20 FEET, FRESH}, 6771276, 1, DIGIT, HYDRO},
    {"H-11", "window_thrust", {2.0, 1.2, 3.0, FRESH}, 70607.88, 0.01, DIGIT, HYDRO},
    {"H-11", "window_pressure_centre", {1.2, 3.0}, 3.040, 0.0005, ROUNDING, HYDRO},
    {"H-12", "hatch_force", {0.36, 2.0, FRESH}, 7060.8, 0.1, DIGIT, HYDRO},
    {"H-12", "hatch_force", {0.36, 0.3, FRESH}, 1059.1, 0.1, DIGIT, HYDRO},
    {"H-12", "hatch_force", {0.9, 0.5, FRESH}, 4413.0, 0.1, DIGIT, HYDRO ", flooded vehicle door"},
    {"H-13", "suction_force", {0.300, 3.0, FRESH}, 2079.6, 0.2, "1 in 10^4", HYDRO},
    {"H-14", "depth_for_floor_load", {7500, FRESH}, 0.7648, 0.0001, DIGIT,
     "UK stages, 7.5 kN/m2 (from memory)"},
    {"H-14", "depth_for_floor_load", {150 * 47.88025898, FRESH}, 2.404 FEET, 0.0024 FEET,
     "0.1 %: the source counts 62.4 lb/ft3", "US stage floors, 150 lb/ft2 (from memory)"},
    {"S-02", "plate_stress_square", {1.0, 0.040, 20 KPA}, 3.5925e6, 100, DIGIT, ROARK},
    {"S-02", "plate_deflection_square", {1.0, 0.040, 20 KPA, 3.2e9}, 4.336e-3, 1e-6, DIGIT, ROARK},
    {"S-03", "plate_stress_round", {0.5, 0.040, 20 KPA}, 3.8672e6, 100, DIGIT,
     "Timoshenko/Roark circular plate, simply supported (from memory)"},
    {"B-01", "submerged_fraction", {995, 1000}, 0.995, 1e-12, EXACT,
     "OpenStax University Physics 1 ch. 14"},
    {"B-01", "submerged_fraction", {995, 1027}, 0.969, 0.0005, ROUNDING,
     "OpenStax University Physics 1 ch. 14"},
    {"B-02", "submerged_fraction", {917, 1000}, 0.917, 1e-12, EXACT,
     "OpenStax University Physics 1 ch. 14"},
    {"B-08", "mass_in_water", {289 POUNDS, 3.1 CUBIC_FEET, RHO62}, 95.6 POUNDS, 0.05 POUNDS,
     ROUNDING, "diving physics lecture, lift bags"},
    {"B-12", "buoyancy", {1.00e7 / 7.8e3, FRESH}, 1.3e7, 0.05e7, ROUNDING,
     OPENSTAX ", steel block (from memory)"},
    {"B-12", "net_lift", {1.00e7 / 7.8e3, 1.00e7, FRESH}, -(9.80665e7 - 1.25726e7), 1e4, SIX,
     OPENSTAX ", steel block: weight less buoyancy"},
    {"L-09", "hook_load", {150, 1.0, FRESH}, 1150, 1e-9, EXACT, "mass balance, box full of water"},
    {"L-09", "mass_in_water", {150, 150 / 7850.0, FRESH}, 130.9, 0.05, ROUNDING,
     "steel prop under water"},
    {"L-10", "stopping_load_factor", {0.5, 0.1}, 1.1275, 0.0001, DIGIT, "kinematics"},
    {"L-01", "sling_factor", {90 DEGREES}, 1, 0.001, DIGIT, SLINGS},
    {"L-01", "sling_factor", {85 DEGREES}, 1.004, 0.001, DIGIT, SLINGS},
    {"L-01", "sling_factor", {80 DEGREES}, 1.015, 0.001, DIGIT, SLINGS},
    {"L-01", "sling_factor", {70 DEGREES}, 1.064, 0.001, DIGIT, SLINGS},
    {"L-01", "sling_factor", {55 DEGREES}, 1.221, 0.001, DIGIT, SLINGS},
    {"L-01", "sling_factor", {40 DEGREES}, 1.555, 0.001, DIGIT, SLINGS},
    {"L-01", "sling_factor", {75 DEGREES}, 1.035, 0.001, DIGIT, SLINGS},
    {"L-01", "sling_factor", {65 DEGREES}, 1.104, 0.001, DIGIT, SLINGS},
    {"L-01", "sling_factor", {60 DEGREES}, 1.155, 0.001, DIGIT, SLINGS},
    {"L-01", "sling_factor", {50 DEGREES}, 1.305, 0.001, DIGIT, SLINGS},
    {"L-01", "sling_factor", {45 DEGREES}, 1.414, 0.001, DIGIT, SLINGS},
    {"L-01", "sling_factor", {35 DEGREES}, 1.742, 0.002, "the chart rounds 1.7434 down", SLINGS},
    {"L-01", "sling_factor", {30 DEGREES}, 2, 0.001, DIGIT, SLINGS},
    {"V-06", "free_surface_loss", {6, 2, 3000, FRESH}, 1.3333, 0.0001, DIGIT, "rho i / mass"},
    {"V-07", "sinkage", {300, 6, 2, FRESH}, 0.0250, 1e-9, EXACT, "m / (rho A)"},
    {"I-02", "ice_capacity", {0.10, 7.03 KG_PER_CM2}, 703, 1e-6, EXACT, GOLD},
    {"I-02", "ice_capacity", {0.20, 7.03 KG_PER_CM2}, 2812, 1e-6, EXACT, GOLD},
    {"I-02", "ice_capacity", {0.30, 7.03 KG_PER_CM2}, 6327, 1e-6, EXACT, GOLD},
    {"I-02", "ice_capacity", {0.50, 7.03 KG_PER_CM2}, 17575, 1e-6, EXACT, GOLD},
    {"I-02", "ice_capacity", {1.00, 7.03 KG_PER_CM2}, 70300, 1e-6, EXACT, GOLD},
    {"T-01", "voltage_gradient", {0.5, 20, 1.0}, 1.5915, 0.0001, DIGIT, "half-space conduction"},
    {"H-06", "window_thrust", {60 FEET, 20 FEET, 10 FEET, FRESH}, 3332321, 1, DIGIT,
     HYDRO ", a window that is the whole wall"},
    {"H-06", "window_pressure_centre", {20 FEET, 10 FEET}, 4.064, 0.0005, DIGIT,
     HYDRO ", a window that is the whole wall"},
    {"H-01", "wall_moment", {500, 80, FRESH}, 1.569064e10 * 80 / 3, 1e6, SIX,
     OPENSTAX ", dam: the force at a third of the height"},
    {"H-02", "suction_force", {0.200, 10.33227, FRESH}, 101325 * 3.14159265 * 0.01, 0.01, SIX,
     OPENSTAX ": the depth that makes one atmosphere"},
    {"S-T8", "plate_stress_square", {0.6, 0.025, 30 KPA}, 6 * 0.0479 * 30 KPA * 0.36 / 0.000625,
     2e4, "0.0479 has three digits", TIMOSHENKO},
    {"S-T8", "plate_deflection_square", {0.6, 0.025, 30 KPA, 3.2e9},
     0.00406 * 30 KPA * 0.1296 * 12 * 0.91 / (3.2e9 * 1.5625e-5), 1e-5,
     "0.3 %: 0.00406 has three digits", TIMOSHENKO},
    {"S-R10", "plate_stress_round", {0.3, 0.025, 50 KPA}, 6 * (3.3 * 50 KPA * 0.09 / 16) / 0.000625,
     1, SIX, "Roark Table 11.2 case 10a: moment (3 + nu) q r2 / 16 (from memory)"},
    {"B-09", "buoyancy", {0.48780, 1025}, 500 * 9.80665, 0.1, SIX, "lift bag for 500 kg, sea"},
    {"BOY-05", "net_lift", {1, 2.4, 1025}, (1025 - 2.4) * 9.80665, 1e-6, EXACT,
     "Archimedes, lift bag of 1 m3 less the 2.4 kg of its air"},
    {"B-04", "submerged_fraction", {940, 1230}, 1 - 0.236, 0.0005, DIGIT,
     "textbook problem, Dead Sea brine, lungs full"},
    {"B-04", "submerged_fraction", {1028, 1230}, 1 - 0.164, 0.0005, DIGIT,
     "textbook problem, Dead Sea brine, lungs empty"},
    {"L-09", "hook_load", {40, 0.5, 1025}, 552.5, 1e-9, EXACT, "half a cubic metre of sea water"},
    {"L-F", "stopping_load_factor", {4.42869, 0.5}, 3, 1e-4, DIGIT,
     "a fall of 1 m stopped within half a metre: 1 + h / s"},
    {"L-02", "sling_factor", {ASIN_08}, 1.25, 1e-9, EXACT,
     "rigging chart example, 96 in of 120 in"},
    {"V-06", "free_surface_loss", {10, 4, 40000, FRESH}, 4.0 * 4 / 12, 1e-9, EXACT,
     "breadth squared over 12 draughts: a box of 1 m draught loses all it has"},
    {"V-07", "sinkage", {1025, 10, 5, 1025}, 0.020, 1e-9, EXACT, "1 m3 of sea over 50 m2"},
    {"T-01", "voltage_gradient", {0.5, 20, 0.5}, 4 * 1.5915, 0.0004, DIGIT,
     "half-space conduction, half as far"},
    {"T-01", "voltage_gradient", {1.0, 50, 2.0}, 10 * 0.7958 / 4, 0.0004, DIGIT,
     "half-space conduction: twice the full-space value, 5 times the volts at 1 m, 2 m off"},
};
/* clang-format on */

FIGURE_SUITE(structure)
