/* Published figures: cold water, cold wind, body size. */
#include "figures.h"

#define HAYWARD "Hayward, Eckerson and Collis 1975"
#define FUJISHIMA "Fujishima et al., Appl. Human Sci. 1996;15(4):161-167"
#define DUBOIS "DuBois and DuBois 1916"
#define MOSTELLER "Mosteller, N Engl J Med 1987"
#define MSC "Meteorological Service of Canada, wind chill chart"
#define NWS "US National Weather Service, wind chill chart 2001"
#define OPEN_DATA "open validation data for the 2001 formula"
#define CM2_KG *1e-4
#define K_PER_H *(1 / 3600.0)
#define KCAL_PER_H *(4186.8 / 3600)

/* clang-format off */
static const figure figures[] = {
    {"COLD-001", "survival_time", {DEGC(0)}, 106.72 MINUTES, 0.05 MINUTES, ROUNDING, HAYWARD},
    {"COLD-001", "survival_time", {DEGC(5)}, 132.07 MINUTES, 0.05 MINUTES, ROUNDING, HAYWARD},
    {"COLD-001", "survival_time", {DEGC(10)}, 176.80 MINUTES, 0.05 MINUTES, ROUNDING, HAYWARD},
    {"COLD-001", "survival_time", {DEGC(15)}, 276.82 MINUTES, 0.05 MINUTES, ROUNDING, HAYWARD},
    {"COLD-001", "survival_time", {DEGC(20)}, 700.71 MINUTES, 0.05 MINUTES, ROUNDING, HAYWARD},
    {"COLD-004", "cooling_rate_rest", {DEGC(15)}, 2.183 K_PER_H, 0.001 K_PER_H, DIGIT, FUJISHIMA},
    {"COLD-004", "cooling_rate_rest", {DEGC(20)}, 1.638 K_PER_H, 0.001 K_PER_H, DIGIT, FUJISHIMA},
    {"COLD-004", "cooling_rate_rest", {DEGC(25)}, 1.093 K_PER_H, 0.001 K_PER_H, DIGIT, FUJISHIMA},
    {"COLD-004", "cooling_rate_exercise", {DEGC(15)}, 1.784 K_PER_H, 0.001 K_PER_H, DIGIT,
     FUJISHIMA},
    {"COLD-004", "cooling_rate_exercise", {DEGC(20)}, 1.234 K_PER_H, 0.001 K_PER_H, DIGIT,
     FUJISHIMA},
    {"COLD-004", "cooling_rate_exercise", {DEGC(25)}, 0.684 K_PER_H, 0.001 K_PER_H, DIGIT,
     FUJISHIMA},
    {"COLD-008", "hand_function_time", {DEGC(10)}, 10 MINUTES, 1 MINUTES, "a rule of round numbers",
     "1-10-1 principle, Giesbrecht"},
    {"BODY-001", "body_surface_area", {70, 1.70}, 1.8097, 0.001, ROUNDING, DUBOIS},
    {"BODY-001", "body_surface_area", {70, 1.75}, 1.8481, 0.001, ROUNDING, DUBOIS},
    {"BODY-001", "body_surface_area", {80, 1.80}, 1.9964, 0.001, ROUNDING, DUBOIS},
    {"BODY-002", "body_surface_mosteller", {70, 1.75}, 1.845, 0.001, DIGIT, MOSTELLER},
    {"BODY-002", "body_surface_mosteller", {70, 1.70}, 1.8181, 0.0001, DIGIT, MOSTELLER},
    {"BODY-003", "surface_per_mass", {9, 0.75}, 465 CM2_KG, 4.65 CM2_KG, "1 %", DUBOIS},
    {"BODY-003", "surface_per_mass", {20, 1.10}, 388 CM2_KG, 3.88 CM2_KG, "1 %", DUBOIS},
    {"BODY-003", "surface_per_mass", {32, 1.40}, 352 CM2_KG, 3.52 CM2_KG, "1 %", DUBOIS},
    {"BODY-003", "surface_per_mass", {70, 1.75}, 264 CM2_KG, 2.64 CM2_KG, "1 %", DUBOIS},
    /* Factor 3 at 15 m of sea (2.5 times the pressure): the one point the loss was fitted to. */
    {"INS-004", "suit_insulation", {5e-3, 2.5 BAR_, 1 BAR_}, 5e-3 / 0.05 / 3, 1e-9, "fitted to it",
     "foamed neoprene at 15 m"},
    {"WC-001", "wind_chill", {DEGC(-25), 20 KM_H}, DEGC(-37), 0.5, CHART, MSC},
    {"WC-002", "wind_chill", {DEGC(5), 5 KM_H}, DEGC(4), 0.5, CHART, MSC},
    {"WC-002", "wind_chill", {DEGC(0), 20 KM_H}, DEGC(-5), 0.5, CHART, MSC},
    {"WC-002", "wind_chill", {DEGC(-5), 30 KM_H}, DEGC(-13), 0.5, CHART, MSC},
    {"WC-002", "wind_chill", {DEGC(-10), 20 KM_H}, DEGC(-18), 0.5, CHART, MSC},
    {"WC-002", "wind_chill", {DEGC(-20), 30 KM_H}, DEGC(-33), 0.5, CHART, MSC},
    {"WC-002", "wind_chill", {DEGC(-30), 60 KM_H}, DEGC(-50), 0.5, CHART, MSC},
    {"WC-002", "wind_chill", {DEGC(-40), 40 KM_H}, DEGC(-61), 0.5, CHART, MSC},
    {"WC-002", "wind_chill", {DEGC(-50), 80 KM_H}, DEGC(-81), 0.5, CHART, MSC},
    {"WC-003", "wind_chill", {DEGC(-40), 30 KM_H}, DEGC(-58.7), 0.1, DIGIT, OPEN_DATA},
    {"WC-003", "wind_chill", {DEGC(-20), 5 KM_H}, DEGC(-24.3), 0.1, DIGIT, OPEN_DATA},
    {"WC-003", "wind_chill", {DEGC(-20), 15 KM_H}, DEGC(-29.1), 0.1, DIGIT, OPEN_DATA},
    {"WC-003", "wind_chill", {DEGC(-20), 60 KM_H}, DEGC(-36.5), 0.1, DIGIT, OPEN_DATA},
    {"WC-003", "wind_chill", {DEGC(-10), 10 KM_H}, DEGC(-15.3), 0.1, DIGIT, OPEN_DATA},
    {"WC-003", "wind_chill", {DEGC(-5), 5.5 KM_H}, DEGC(-7.527), 0.001, DIGIT, OPEN_DATA},
    /* Two cells that copies of the chart print wrong. */
    {"WC-004", "wind_chill", {DEGC(-20), 20 KM_H}, DEGC(-30), 0.5, CHART, MSC},
    {"WC-004", "wind_chill", {DEGC(-25), 30 KM_H}, DEGC(-39), 0.5, CHART, MSC},
    {"WC-005", "wind_chill", {DEGF(40), 5 MPH}, DEGF(36), 0.5 FAHRENHEIT_DEGREES, CHART, NWS},
    {"WC-005", "wind_chill", {DEGF(30), 10 MPH}, DEGF(21), 0.5 FAHRENHEIT_DEGREES, CHART, NWS},
    {"WC-005", "wind_chill", {DEGF(20), 20 MPH}, DEGF(4), 0.5 FAHRENHEIT_DEGREES, CHART, NWS},
    {"WC-005", "wind_chill", {DEGF(0), 15 MPH}, DEGF(-19), 0.5 FAHRENHEIT_DEGREES, CHART, NWS},
    {"WC-005", "wind_chill", {DEGF(-20), 45 MPH}, DEGF(-58), 0.5 FAHRENHEIT_DEGREES, CHART, NWS},
    {"WC-005", "wind_chill", {DEGF(-45), 5 MPH}, DEGF(-63), 0.5 FAHRENHEIT_DEGREES, CHART, NWS},
    {"WC-008", "frostbite_time", {DEGC(-35), 40 KM_H}, 4.55 MINUTES, 0.1 MINUTES, ROUNDING,
     "Environment Canada, minutes to frostbite (from memory)"},
    {"WC-008", "frostbite_time", {DEGC(-30), 40 KM_H}, 6.16 MINUTES, 0.1 MINUTES, ROUNDING,
     "Environment Canada, minutes to frostbite (from memory)"},
    {"COLD-008", "hand_function_time", {DEGC(5)}, 10 MINUTES, 5 MINUTES, "a rule of round numbers",
     "1-10-1 principle, Giesbrecht: water under 15 degC"},
    {"COLD-008", "hand_function_time", {DEGC(15)}, 24 HOURS, 0, "24 h stands for never",
     "1-10-1 principle, Giesbrecht: water under 15 degC"},
    {"INS-004", "suit_insulation", {5e-3, 1 BAR_, 1 BAR_}, 0.1, 1e-12, EXACT,
     "5 mm of foam of 0.05 W/(m K) (from memory)"},
    {"INS-002", "immersion_heat_loss", {1.8, DEGC(33), DEGC(28), 0, 230}, 230 * 1.8 * 5, 1e-6,
     EXACT, "Nadel et al. 1974, still water, bare (from memory)"},
    {"INS-002", "immersion_heat_loss", {1.8, DEGC(33), DEGC(28), 0, 580}, 580 * 1.8 * 5, 1e-6,
     EXACT, "Nadel et al. 1974, swimming, bare (from memory)"},
    {"INS-005", "immersion_heat_loss", {2, DEGC(30), DEGC(10), 0.1, 10}, 200, 1e-6, EXACT,
     "two equal resistances in a row halve the 400 W of one"},
    {"BODY-58", "core_cooling_time", {70, 58 KCAL_PER_H, 0, 1}, 1 HOURS, 36,
     "1 %: 0.83 kcal/(kg K) has two digits",
     "textbook: 58 kcal are a kelvin of 70 kg (from memory)"},
    {"BODY-58", "core_cooling_time", {35, 158 KCAL_PER_H, 100 KCAL_PER_H, 2}, 1 HOURS, 36,
     "1 %: 0.83 kcal/(kg K) has two digits", "the same: half the body, twice the fall"},
};
/* clang-format on */

FIGURE_SUITE(cold)
