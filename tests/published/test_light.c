/* Published figures: seeing under water. */
#include "figures.h"

#define POPE "Pope and Fry 1997, Appl. Opt. 36:8710 (from memory)"
#define ANZECC "ANZECC 2000, Table 3.3.11, clarity and turbidity (from memory)"
#define HALF_TO_DOUBLE(v) (v) * 1.25, (v) * 0.75
#define FACTOR_TWO "the row is good to a factor two, and says so"

/* clang-format off */
static const figure figures[] = {
    {"VIS-001", "visibility", {0.5}, 9.2, 0.1, ROUNDING,
     "Zaneveld and Pegau 2003, Opt. Express 11:2997"},
    {"VIS-002", "visibility_black_disc", {0.5}, 9.6, 0.1, ROUNDING, "Davies-Colley 1988"},
    {"O-05", "contrast_left", {0.340, 5}, 0.183, 0.001, DIGIT, POPE ", 650 nm"},
    {"O-05", "contrast_left", {0.00922, 5}, 0.955, 0.001, DIGIT, POPE ", 450 nm"},
    {"VIS-001", "contrast_left", {0.5, 9.2}, 0.01, 0.0001, "4.6 = -ln(0.01), rounded",
     "Zaneveld and Pegau 2003: sight ends at 1 % of the contrast"},
    {"LX-01", "lamp_illuminance", {1, 0, 1}, 1, 1e-12, EXACT, "definition of the lux"},
    {"LX-02", "lamp_illuminance", {1, 0, 1 FEET}, 10.76391, 1e-5, DIGIT,
     "NIST SP 811, App. B.8: one footcandle (from memory)"},
    {"O-05", "lamp_illuminance", {25, 0.340, 5}, 0.183, 0.001, DIGIT,
     POPE ", 650 nm: 18.3 % left after 5 m, 25 cd at 5 m are 1 lx"},
    {"VIS-001", "visibility", {1}, 4.60517, 0.006, "4.6 = -ln(0.01), rounded",
     "Zaneveld and Pegau 2003: sight ends at 1 % of the contrast"},
    {"VIS-002", "visibility_black_disc", {1}, 4.8036, 0.005, "4.8 = -ln(0.0082), rounded",
     "Davies-Colley 1988: threshold contrast 0.0082 (from memory)"},
    {"VIS-NZ", "visibility_of_turbidity", {5.6}, HALF_TO_DOUBLE(0.8), FACTOR_TWO,
     ANZECC ", lowland rivers"},
    {"VIS-NZ", "visibility_of_turbidity", {4.1}, HALF_TO_DOUBLE(0.6), FACTOR_TWO,
     ANZECC ", upland rivers"},
};
/* clang-format on */

FIGURE_SUITE(light)
