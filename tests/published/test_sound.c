/* Published figures: how long a noise may be borne. */
#include "figures.h"

#define OSHA "29 CFR 1910.95, Table G-16"
#define OSHA_A "29 CFR 1910.95, Table G-16a"
#define CANADA "Canada, National Joint Council noise directive, 87 dB(A), 3 dB"
#define STEP "the table rounds to half hours between the 5 dB steps"

/* clang-format off */
static const figure figures[] = {
    {"A-12", "noise_time_5db", {90}, 8 HOURS, 1e-6, TABLE, OSHA},
    {"A-12", "noise_time_5db", {92}, 6 HOURS, 0.07 HOURS, STEP, OSHA},
    {"A-12", "noise_time_5db", {92}, 6.063 HOURS, 0.001 HOURS, DIGIT, OSHA_A},
    {"A-12", "noise_time_5db", {95}, 4 HOURS, 1e-6, TABLE, OSHA},
    {"A-12", "noise_time_5db", {97}, 3.031 HOURS, 0.001 HOURS, DIGIT, OSHA_A},
    {"A-12", "noise_time_5db", {100}, 2 HOURS, 1e-6, TABLE, OSHA},
    {"A-12", "noise_time_5db", {105}, 1 HOURS, 1e-6, TABLE, OSHA},
    {"A-12", "noise_time_5db", {110}, 0.5 HOURS, 1e-6, TABLE, OSHA},
    {"A-12", "noise_time_5db", {115}, 0.25 HOURS, 1e-6, TABLE, OSHA},
    {"A-14", "noise_time_3db", {83, 87}, 20 HOURS, 0.2 HOURS, ROUNDING, CANADA},
    {"A-14", "noise_time_3db", {84, 87}, 16 HOURS, 1e-6, TABLE, CANADA},
    {"A-14", "noise_time_3db", {87, 87}, 8 HOURS, 1e-6, TABLE, CANADA},
    {"A-14", "noise_time_3db", {90, 87}, 4 HOURS, 1e-6, TABLE, CANADA},
    {"A-14", "noise_time_3db", {93, 87}, 2 HOURS, 1e-6, TABLE, CANADA},
    {"A-14", "noise_time_3db", {96, 87}, 1 HOURS, 1e-6, TABLE, CANADA},
    {"A-14", "noise_time_3db", {101, 87}, 0.32 HOURS, 0.01 HOURS, DIGIT, CANADA},
    {"A-14", "noise_dose", {96, 1 HOURS, 87}, 1, 1e-12, TABLE, CANADA ": one hour is all of it"},
    {"A-14", "noise_dose", {90, 4 HOURS, 87}, 1, 1e-12, TABLE, CANADA ": four hours is all of it"},
    {"A-14", "noise_dose", {101, 0.32 HOURS, 87}, 1, 0.03, "0.32 h is printed rounded", CANADA},
};
/* clang-format on */

FIGURE_SUITE(sound)
