/* Published figures: current through people, zones, leaks in water. */
#include "figures.h"

#define IEC "IEC 60479-1"
#define AODC "AODC 035 (1985) (from memory)"
#define BS7671 "BS 7671:2018 section 702"
#define DALZIEL "IEEE Std 80, 50 kg (from memory)"
#define MA *1e-3

/* clang-format off */
static const figure figures[] = {
    {"EL-021", "body_current", {12, 575}, 20.9 MA, 0.05 MA, DIGIT,
     IEC ", 5 % of people hand to hand: 12 V (from memory)"},
    {"EL-022", "body_current", {7.5, 750}, 10 MA, 1e-9, EXACT, AODC},
    {"EL-022", "body_current", {285, 500}, 570 MA, 1e-9, EXACT, AODC},
    {"EL-022", "touch_voltage_limit", {10 MA, 750}, 7.5, 1e-9, EXACT, AODC ", AC that stays"},
    {"EL-022", "touch_voltage_limit", {40 MA, 750}, 30, 1e-9, EXACT, AODC ", DC that stays"},
    {"EL-022", "touch_voltage_limit", {500 MA, 500}, 250, 1e-9, EXACT, AODC ", AC cut off"},
    {"EL-022", "touch_voltage_limit", {570 MA, 500}, 285, 1e-9, EXACT, AODC ", DC cut off"},
    {"EL-031", "heart_current", {225 MA, 0.4}, 90 MA, 1e-9, EXACT,
     IEC ", its example: 225 mA hand to hand is like 90 mA (from memory)"},
    {"EL-031", "heart_current", {60 MA, 1.0}, 60 MA, 1e-9, EXACT, IEC ", the path of reference"},
    {"EL-016", "let_go_current", {5e-3}, 200 MA, 1e-6, EXACT, IEC ", line b below 10 ms"},
    {"EL-016", "let_go_current", {10e-3}, 200 MA, 1e-6, EXACT, IEC ", line b at 10 ms"},
    {"EL-017", "let_go_current", {0.1}, 40 MA, 3 MA, "read off a logarithmic drawing",
     IEC ", line b (from memory)"},
    {"EL-017", "let_go_current", {10}, 5 MA, 1e-6, EXACT, IEC ", covers everybody (from memory)"},
    {"EL-032", "tolerable_body_current", {1}, 116 MA, 1e-6, EXACT, DALZIEL},
    {"EL-032", "tolerable_body_current", {0.5}, 164 MA, 0.5 MA, DIGIT, DALZIEL},
    {"EL-032", "tolerable_body_current", {0.03}, 670 MA, 1 MA, ROUNDING, DALZIEL},
    {"EL-001", "electrical_zone", {0, 0}, 0, 0, TABLE, BS7671 ", inside the basin"},
    {"EL-001", "electrical_zone", {2.0, 2.5}, 1, 0, TABLE, BS7671 ", 2.0 m and 2.5 m"},
    {"EL-001", "electrical_zone", {0.5, 0}, 1, 0, TABLE, BS7671},
    {"EL-002", "electrical_zone", {2.1, 1.0}, 2, 0, TABLE, BS7671 ", 1.5 m further (from memory)"},
    {"EL-002", "electrical_zone", {3.5, 2.5}, 2, 0, TABLE, BS7671 ", 1.5 m further (from memory)"},
    {"EL-002", "electrical_zone", {3.6, 1.0}, 3, 0, TABLE, BS7671 ", outside (from memory)"},
    {"EL-001", "electrical_zone", {1.0, 2.6}, 3, 0, TABLE, BS7671 ", above 2.5 m"},
    {"T-01", "voltage_gradient_distance", {0.5, 20, 1.5915}, 1.0, 1e-4, DIGIT,
     "half-space conduction"},
    {"T-02", "voltage_gradient_distance", {0.5, 20, 2 / 0.3048}, 0.4925, 0.0005, DIGIT,
     "half-space conduction; 2 V/ft of the electric-shock-drowning investigations (from memory)"},
};
/* clang-format on */

FIGURE_SUITE(electricity)
