/* Published figures: seeing under water. */
#include "figures.h"

#define POPE "Pope and Fry 1997, Appl. Opt. 36:8710 (from memory)"

/* clang-format off */
static const figure figures[] = {
    {"VIS-001", "visibility", {0.5}, 9.2, 0.1, ROUNDING,
     "Zaneveld and Pegau 2003, Opt. Express 11:2997"},
    {"VIS-002", "visibility_black_disc", {0.5}, 9.6, 0.1, ROUNDING, "Davies-Colley 1988"},
    {"O-05", "contrast_left", {0.340, 5}, 0.183, 0.001, DIGIT, POPE ", 650 nm"},
    {"O-05", "contrast_left", {0.00922, 5}, 0.955, 0.001, DIGIT, POPE ", 450 nm"},
    {"VIS-001", "contrast_left", {0.5, 9.2}, 0.01, 0.0001, "4.6 = -ln(0.01), rounded",
     "Zaneveld and Pegau 2003: sight ends at 1 % of the contrast"},
};
/* clang-format on */

FIGURE_SUITE(light)
