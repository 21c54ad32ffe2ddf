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
};
/* clang-format on */

FIGURE_SUITE(chamber)
