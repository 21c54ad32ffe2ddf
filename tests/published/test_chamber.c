/* Published figures: air in closed spaces. */
#include "figures.h"

#define BALANCE "well-mixed mass balance"
#define RATES "mass balance with the rates of MSHA PIB 07-03"

/* clang-format off */
static const figure figures[] = {
    {"VEN-12", "time_to_carbon_dioxide", {100 CUBIC_FEET, 1, 0.018 CFM, 0.0004, 0.03}, 164 MINUTES,
     1 MINUTES, ROUNDING, RATES},
    {"VEN-12", "time_to_carbon_dioxide", {1, 1, 0.51 L_PER_MIN, 0.0004, 0.03}, 58 MINUTES,
     1 MINUTES, ROUNDING, RATES},
    {"VEN-16", "carbon_dioxide_after",
     {6, 2, 0.3 L_PER_MIN, 113.3 L_PER_MIN, 0.0004, 30 MINUTES, 0.0004}, 0.27 PERCENT, 0.01 PERCENT,
     DIGIT, BALANCE},
    {"VEN-16", "carbon_dioxide_after",
     {6, 2, 0.3 L_PER_MIN, 113.3 L_PER_MIN, 0.0004, 60 MINUTES, 0.0004}, 0.40 PERCENT, 0.01 PERCENT,
     DIGIT, BALANCE},
    {"VEN-16", "carbon_dioxide_after",
     {6, 2, 0.3 L_PER_MIN, 113.3 L_PER_MIN, 0.0004, 24 HOURS, 0.0004}, 0.57 PERCENT, 0.01 PERCENT,
     DIGIT, BALANCE},
    {"VEN-16", "carbon_dioxide_steady", {2, 0.3 L_PER_MIN, 113.3 L_PER_MIN, 0.0004}, 0.57 PERCENT,
     0.01 PERCENT, DIGIT, BALANCE},
    {"CO2-14", "carbon_dioxide_steady", {1, 1.6 L_PER_MIN, 4.5 CFM, 0}, 1.26 PERCENT, 0.01 PERCENT,
     DIGIT, "29 CFR 1910.430(h)(2), helmet ventilation"},
    {"CO2-14", "ventilation_for_carbon_dioxide", {1, 1.6 L_PER_MIN, 0, 1.26 PERCENT}, 4.5 CFM,
     0.05 CFM, ROUNDING, "29 CFR 1910.430(h)(2), the other way round"},
    {"VEN-14", "carbon_dioxide_steady", {1, 0.31 L_PER_MIN, 7.5e-3, 0}, 700e-6, 50e-6,
     "the source says about", "ASHRAE Standard 62, technical FAQ 35"},
    /* 0.51 L/min of carbon dioxide and 0.022 cfm of oxygen belong together in the same report. */
    {"MET-07", "oxygen_after", {100 CUBIC_FEET, 1, 0.022 CFM, 60 MINUTES, 0.209}, 0.209 - 0.0132,
     1e-6, EXACT, "mass balance: 1.32 ft3 of 100 in an hour"},
    {"MET-07", "time_to_oxygen", {100 CUBIC_FEET, 1, 0.022 CFM, 0.209, 0.195}, 63.6 MINUTES,
     0.05 MINUTES, ROUNDING, "mass balance: 1.4 ft3 at 0.022 cfm"},
    {"ACH", "air_changes", {10000 CUBIC_FEET, 1000 CFM}, 6 / 3600.0, 1e-12, EXACT,
     "CDC, Guidelines for Environmental Infection Control 2003, 60 cfm / ft3 (from memory)"},
    {"AIR-004", "air_changes", {900, 5400 M3_PER_H}, 6 / 3600.0, 1e-12, EXACT,
     "definition: 5400 m3 an hour is six times 900 m3"},
    /* 10 L of liquid nitrogen are 6.83 m3 of gas: 683 times, the trade's factor. */
    {"N2-683", "oxygen_after_release", {50, 6.83, 0.2095}, 0.181, 0.0005, ROUNDING,
     "0.2095 x (50 - 6.83) / 50, as gas suppliers' guidance counts (from memory)"},
    {"N2-683", "oxygen_after_release", {50, 50, 0.2095}, 0, 1e-12, EXACT,
     "a room full of another gas"},
    /* 1 kg of dry ice: 1000 g / 44.01 g/mol x 24.055 L/mol at 20 degC are 0.5466 m3. */
    {"CO2-KG", "carbon_dioxide_after_release", {546.6, 0.5466, 0}, 0.001, 1e-9, EXACT,
     "one thousandth of the room"},
    {"CO2-KG", "carbon_dioxide_after_release", {50, 6.83, 0.0004}, 1 - 0.9996 * (1 - 0.1366), 1e-9,
     EXACT, "what is not carbon dioxide is thinned like the oxygen of N2-683"},
    {"MET-07", "oxygen_after", {1, 1, 0.5 L_PER_MIN, 60 MINUTES, 0.209}, 0.179, 1e-9, EXACT,
     "mass balance: 30 L of 1000 in an hour"},
    {"MET-07", "time_to_oxygen", {1, 2, 0.25 L_PER_MIN, 0.209, 0.179}, 60 MINUTES, 1e-6, EXACT,
     "mass balance: 30 L of 1000 at half a litre a minute"},
    {"CO2-14", "oxygen_steady", {1, 1.6 L_PER_MIN, 4.5 CFM, 0.209}, 0.209 - 0.0126, 0.0001, DIGIT,
     "29 CFR 1910.430(h)(2): oxygen falls as carbon dioxide rises, litre for litre"},
    {"VEN-14", "oxygen_steady", {1, 0.0105 CFM, 15 CFM, 0.2095}, 0.2088, 0.00005, DIGIT,
     "ASHRAE Standard 62, 700 ppm at 15 cfm, litre for litre"},
    {"VEN-14", "ventilation_for_carbon_dioxide", {1, 0.0105 CFM, 0.0004, 0.0011}, 15 CFM, 0.01 CFM,
     ROUNDING, "ASHRAE Standard 62, technical FAQ 35: 15 cfm for 700 ppm above outdoors"},
};
/* clang-format on */

FIGURE_SUITE(chamber)
