/* Published figures: WBGT and its limits, heat index, moist air, hot water on skin. */
#include "figures.h"

#define ISO "ISO 7243"
#define ISO89 "ISO 7243:1989, reference values, still air"
#define NIOSH "NIOSH 2016-106, section 8.1"
#define ROTHFUSZ "US National Weather Service, Rothfusz 1990"
#define PSYCHRO "ASHRAE Fundamentals, psychrometrics"
#define FELDMAN "Feldman et al., after Moritz and Henriques"
#define SCALDS "anti-scald trade table, second degree"
#define KURAZUMI "Kurazumi et al., J. Ergonomics 2014, 26 degC"
#define F_(t) (t) FAHRENHEIT_DEGREES

static const figure figures[] = {
    {"HEAT-001", "wbgt_indoor", {DEGC(25), DEGC(30)}, DEGC(26.5), 0.001, EXACT, ISO},
    {"HEAT-003", "wbgt_indoor", {DEGC(17.3), DEGC(40)}, DEGC(24.1), 0.05, ROUNDING, ISO},
    {"HEAT-003", "wbgt_indoor", {DEGC(21.1), DEGC(55)}, DEGC(31.3), 0.05, ROUNDING, ISO},
    {"HEAT-003", "wbgt_indoor", {DEGC(16.7), DEGC(40)}, DEGC(23.7), 0.05, ROUNDING, ISO},
    {"HEAT-004", "wbgt_reference_acclimatised", {65}, DEGC(33), 0, TABLE, ISO89},
    {"HEAT-004", "wbgt_reference_acclimatised", {100}, DEGC(30), 0, TABLE, ISO89},
    {"HEAT-004", "wbgt_reference_acclimatised", {165}, DEGC(28), 0, TABLE, ISO89},
    {"HEAT-004", "wbgt_reference_acclimatised", {230}, DEGC(25), 0, TABLE, ISO89},
    {"HEAT-004", "wbgt_reference_acclimatised", {261}, DEGC(23), 0, TABLE, ISO89},
    {"HEAT-005", "wbgt_reference_unacclimatised", {65}, DEGC(32), 0, TABLE, ISO89},
    {"HEAT-005", "wbgt_reference_unacclimatised", {130}, DEGC(29), 0, TABLE, ISO89},
    {"HEAT-005", "wbgt_reference_unacclimatised", {131}, DEGC(26), 0, TABLE, ISO89},
    {"HEAT-005", "wbgt_reference_unacclimatised", {230}, DEGC(22), 0, TABLE, ISO89},
    {"HEAT-005", "wbgt_reference_unacclimatised", {300}, DEGC(18), 0, TABLE, ISO89},
    {"HEAT-006", "wbgt_limit_acclimatised", {117}, DEGC(32.92), 0.01, DIGIT, NIOSH},
    {"HEAT-006", "wbgt_limit_acclimatised", {180}, DEGC(30.76), 0.01, DIGIT, NIOSH},
    {"HEAT-006", "wbgt_limit_acclimatised", {300}, DEGC(28.21), 0.01, DIGIT, NIOSH},
    {"HEAT-006", "wbgt_limit_acclimatised", {415}, DEGC(26.59), 0.01, DIGIT, NIOSH},
    {"HEAT-006", "wbgt_limit_acclimatised", {520}, DEGC(25.47), 0.01, DIGIT, NIOSH},
    {"HEAT-007", "wbgt_limit_unacclimatised", {117}, DEGC(30.74), 0.01, DIGIT, NIOSH},
    {"HEAT-007", "wbgt_limit_unacclimatised", {180}, DEGC(28.10), 0.01, DIGIT, NIOSH},
    {"HEAT-007", "wbgt_limit_unacclimatised", {300}, DEGC(24.97), 0.01, DIGIT, NIOSH},
    {"HEAT-007", "wbgt_limit_unacclimatised", {415}, DEGC(22.99), 0.01, DIGIT, NIOSH},
    {"HEAT-007", "wbgt_limit_unacclimatised", {520}, DEGC(21.60), 0.01, DIGIT, NIOSH},
    {"HI-002", "heat_index", {DEGF(80), 0.75}, DEGF(83.58), F_(0.01), DIGIT, ROTHFUSZ},
    {"HI-002", "heat_index", {DEGF(95), 0.60}, DEGF(113.09), F_(0.01), DIGIT, ROTHFUSZ},
    {"HI-002", "heat_index", {DEGF(96), 0.50}, DEGF(107.64), F_(0.01), DIGIT, ROTHFUSZ},
    {"HI-002", "heat_index", {DEGF(100), 0.40}, DEGF(109.26), F_(0.01), DIGIT, ROTHFUSZ},
    {"HI-002", "heat_index", {DEGF(100), 0.55}, DEGF(123.64), F_(0.01), DIGIT, ROTHFUSZ},
    {"HI-002", "heat_index", {DEGF(110), 0.40}, DEGF(135.66), F_(0.01), DIGIT, ROTHFUSZ},
    {"HI-003", "heat_index", {DEGF(82), 0.95}, DEGF(93.97), F_(0.01), DIGIT, ROTHFUSZ ", damp air"},
    {"HI-003", "heat_index", {DEGF(86), 0.90}, DEGF(105.39), F_(0.11),
     "printed with or without the adjustment of 0.1", ROTHFUSZ ", damp air"},
    {"HI-004", "heat_index", {DEGF(100), 0.10}, DEGF(94.12), F_(0.01), DIGIT, ROTHFUSZ ", dry air"},
    {"PROP-021", "wet_bulb", {DEGC(30), 0.60, 101325}, DEGC(23.81), 0.02, ROUNDING, PSYCHRO},
    {"PROP-021", "wet_bulb", {DEGC(20), 0.50, 101325}, DEGC(13.78), 0.02, ROUNDING, PSYCHRO},
    {"PROP-021", "dew_point", {DEGC(30), 0.60}, DEGC(21.39), 0.02, ROUNDING, PSYCHRO},
    {"INS-006", "convection_in_air", {0.25}, 4.02, 0.01, DIGIT, KURAZUMI},
    {"INS-006", "convection_in_air", {0.50}, 5.80, 0.01, DIGIT, KURAZUMI},
    {"INS-006", "convection_in_air", {0.73}, 7.74, 0.01, DIGIT, KURAZUMI},
    {"INS-007", "evaporative_heat_loss", {DEGC(33), DEGC(20), 0.50, 5.8}, 370, 11, "3 %",
     "ASHRAE Fundamentals, Lewis relation (from memory)"},
    {"SCALD-004", "scald_time", {DEGC(45)}, 3241, 65, "2 %: the coefficients are rounded", FELDMAN},
    {"SCALD-004", "scald_time", {DEGC(50)}, 172, 3.5, "2 %: the coefficients are rounded", FELDMAN},
    {"SCALD-004", "scald_time", {DEGC(52)}, 75, 1.5, "2 %: the coefficients are rounded", FELDMAN},
    {"SCALD-004", "scald_time", {DEGC(55)}, 25.0, 0.5, "2 %: the coefficients are rounded", FELDMAN},
    {"SCALD-004", "scald_time", {DEGC(60)}, 7.77, 0.16, "2 %: the coefficients are rounded", FELDMAN},
    {"SCALD-002", "scald_time_table", {DEGC(45)}, 2 HOURS, 0, TABLE, SCALDS},
    {"SCALD-002", "scald_time_table", {DEGC(47)}, 20 MINUTES, 0, TABLE, SCALDS},
    {"SCALD-002", "scald_time_table", {DEGC(48)}, 15 MINUTES, 0, TABLE, SCALDS},
    {"SCALD-002", "scald_time_table", {DEGC(49)}, 8 MINUTES, 0, TABLE, SCALDS},
    {"SCALD-002", "scald_time_table", {DEGC(51)}, 2 MINUTES, 0, TABLE, SCALDS},
    {"SCALD-002", "scald_time_table", {DEGC(55)}, 17, 0, TABLE, SCALDS},
    {"SCALD-002", "scald_time_table", {DEGC(60)}, 3, 0, TABLE, SCALDS},
    {"SCALD-002", "scald_time_table", {DEGC(53)}, 17, 0, "between rows the hotter", SCALDS},
};

FIGURE_SUITE(heat)
