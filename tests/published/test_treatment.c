/* Published figures: turnover, disinfectant, doses, balance, evaporation. */
#include "figures.h"

#define MORRIS "J.C. Morris, J. Phys. Chem. 70 (1966) 3798"
#define OBRIEN "O'Brien, Morris and Butler 1974, three reactions, 25 degC"
#define GAGE "Gage and Bidwell 1926"
#define FILTER "filter efficiency times turnovers, after Simmonds et al., Water 2021;13:2350"
#define HANDBOOK "operator handbook 2017, CT 80"
#define CDC "CDC CT value for Cryptosporidium, 15300 mg min/L"
#define LANGELIER "pool operator course"
#define GPM *(3.785411784e-3 / 60)
#define MGD *(3785.411784 / 86400)
#define LB_PER_DAY *(0.45359237 / 86400)
#define MG_MIN_L *(1e-3 * 60)

static const figure figures[] = {
    {"TRN-001", "turnover_time", {90000 GALLONS, 180 GPM}, 8.33 HOURS, 0.01 HOURS, DIGIT, "operator text"},
    {"TRN-002", "turnover_time", {350, 125 M3_PER_H}, 2.8 HOURS, 1e-6, EXACT, "UK pool plant training"},
    {"TRN-002", "turnover_time", {420, 150 M3_PER_H}, 2.8 HOURS, 1e-6, EXACT, "UK pool plant training"},
    {"TRN-003", "turnover_time", {23936 GALLONS, 66.5 GPM}, 360 MINUTES, 0.3 MINUTES, ROUNDING, "operator text"},
    {"TRN-004", "turnover_time", {65000 GALLONS, 240 GPM}, 4.51 HOURS, 0.01 HOURS, DIGIT, "operator tutorial"},
    {"TRN-002", "basin_volume", {25, 12, 1.4, 1.4}, 420, 1e-9, EXACT, "UK pool plant training"},
    {"U-16", "basin_volume", {60 FEET, 60 FEET, 20 FEET, 20 FEET}, 2038.812954624, 1e-9, EXACT,
     "72000 ft3 in cubic metres"},
    {"GB-001", "purified_fraction", {1, 1}, 0.63, 0.01, DIGIT, GAGE},
    {"GB-001", "purified_fraction", {2, 1}, 0.86, 0.01, DIGIT, GAGE},
    {"GB-001", "purified_fraction", {3, 1}, 0.95, 0.01, DIGIT, GAGE},
    {"GB-002", "purified_fraction", {4, 1}, 0.9817, 0.0001, DIGIT, GAGE},
    {"GB-002", "purified_fraction", {5, 1}, 0.9933, 0.0001, DIGIT, GAGE},
    {"GB-002", "purified_fraction", {6, 1}, 0.9975, 0.0001, DIGIT, GAGE},
    {"GB-003", "purified_fraction", {6, 0.9}, 0.9955, 0.0001, DIGIT, FILTER},
    {"GB-003", "purified_fraction", {4, 0.25}, 0.6321, 0.0001, DIGIT, FILTER},
    {"GB-003", "purified_fraction", {6, 0.25}, 0.7769, 0.0001, DIGIT, FILTER},
    {"GB-002", "remaining_fraction", {500, 125 M3_PER_H, 12 HOURS}, 1 - 0.9502, 0.0001, DIGIT,
     GAGE ", three turnovers"},
    {"HOCL-001", "hypochlorous_fraction", {7.5366, 298.15}, 0.5, 0.0003, "half at pH = pK, given to 0.0005",
     MORRIS},
    {"HOCL-002", "hypochlorous_fraction", {7.0, DEGC(0)}, 0.8699, 0.0002, ROUNDING, MORRIS},
    {"HOCL-002", "hypochlorous_fraction", {7.5, DEGC(0)}, 0.6789, 0.0002, ROUNDING, MORRIS},
    {"HOCL-002", "hypochlorous_fraction", {8.0, DEGC(0)}, 0.4006, 0.0002, ROUNDING, MORRIS},
    {"HOCL-003", "hypochlorous_fraction", {7.0, DEGC(10)}, 0.8305, 0.0002, ROUNDING, MORRIS},
    {"HOCL-003", "hypochlorous_fraction", {7.5, DEGC(10)}, 0.6078, 0.0002, ROUNDING, MORRIS},
    {"HOCL-003", "hypochlorous_fraction", {8.0, DEGC(10)}, 0.3289, 0.0002, ROUNDING, MORRIS},
    {"HOCL-004", "hypochlorous_fraction", {7.0, DEGC(20)}, 0.7924, 0.0002, ROUNDING, MORRIS},
    {"HOCL-004", "hypochlorous_fraction", {7.5, DEGC(20)}, 0.5469, 0.0002, ROUNDING, MORRIS},
    {"HOCL-004", "hypochlorous_fraction", {8.0, DEGC(20)}, 0.2763, 0.0002, ROUNDING, MORRIS},
    {"HOCL-004", "hypochlorous_acid", {2 MG_L, 7.5, DEGC(20)}, 2 * 0.5469 MG_L, 0.0004 MG_L, ROUNDING, MORRIS},
    {"HOCL-010", "hypochlorous_with_cyanurate", {2 MG_L, 30 MG_L, 7.5}, 0.0181 MG_L, 0.0001 MG_L, DIGIT, OBRIEN},
    {"HOCL-010", "hypochlorous_with_cyanurate", {2 MG_L, 15 MG_L, 7.5}, 0.0394 MG_L, 0.0001 MG_L, DIGIT, OBRIEN},
    {"HOCL-010", "hypochlorous_with_cyanurate", {2 MG_L, 50 MG_L, 7.5}, 0.01048 MG_L, 1e-5 MG_L, DIGIT, OBRIEN},
    {"HOCL-010", "hypochlorous_with_cyanurate", {10 MG_L, 90 MG_L, 7.5}, 0.0329 MG_L, 0.0001 MG_L, DIGIT, OBRIEN},
    {"HOCL-010", "hypochlorous_with_cyanurate", {4 MG_L, 90 MG_L, 7.5}, 0.01178 MG_L, 1e-5 MG_L, DIGIT, OBRIEN},
    {"HOCL-010", "hypochlorous_with_cyanurate", {1 MG_L, 0, 7.5}, 0.5211 MG_L, 0.0001 MG_L, DIGIT, OBRIEN},
    {"CT-004", "ct_time", {15300 MG_MIN_L, 10 MG_L}, 25.5 HOURS, 1e-6, EXACT, CDC},
    {"CT-004", "ct_time", {15300 MG_MIN_L, 40 MG_L}, 6.375 HOURS, 1e-6, EXACT, CDC},
    {"CT-005", "ct_time", {50 MG_MIN_L, 2 MG_L}, 25 MINUTES, 1e-6, EXACT, "Arkansas guidelines, formed stool"},
    {"CT-006", "ct_time", {80 MG_MIN_L, 2.0 MG_L}, 40 MINUTES, 0.5 MINUTES, ROUNDING, HANDBOOK},
    {"CT-006", "ct_time", {80 MG_MIN_L, 3.0 MG_L}, 27 MINUTES, 0.5 MINUTES, ROUNDING, HANDBOOK},
    {"CT-006", "ct_time", {80 MG_MIN_L, 3.5 MG_L}, 23 MINUTES, 0.5 MINUTES, ROUNDING, HANDBOOK},
    {"CT-006", "ct_time", {80 MG_MIN_L, 4.5 MG_L}, 18 MINUTES, 0.5 MINUTES, ROUNDING, HANDBOOK},
    {"CT-009", "ct_value", {2 MG_L, 5760 MINUTES}, 11520 MG_MIN_L, 1e-6, EXACT, "Emerg. Infect. Dis. 5(4) 1999"},
    {"CT-009", "ct_value", {10 MG_L, 1440 MINUTES}, 14400 MG_MIN_L, 1e-6, EXACT, "Emerg. Infect. Dis. 5(4) 1999"},
    {"DOSE-001", "chlorine_dose", {3000 GALLONS, 7 MG_L, 0.70}, 0.250 POUNDS, 0.0025 POUNDS,
     "1 %: the source counts 8.34 lb a gallon", "US Army medical course MD0160"},
    {"DOSE-002", "chlorine_dose", {550 GALLONS, 200 MG_L, 1}, 0.92 POUNDS, 0.01 POUNDS, DIGIT,
     "water operator training, tank disinfection"},
    {"DOSE-002", "chlorine_dose", {550 GALLONS, 200 MG_L, 0.125}, 7.339 POUNDS, 0.073 POUNDS,
     "1 %: the source counts 8.34 lb a gallon", "water operator training, tank disinfection"},
    {"DOSE-005", "chlorine_feed", {1.5 MGD, 4 MG_L}, 50.0 LB_PER_DAY, 0.1 LB_PER_DAY, DIGIT,
     "basic water formulas"},
    {"DOSE-006", "chlorine_rise", {0.60e6 GALLONS, 20 POUNDS, 1}, 4 MG_L, 0.02 MG_L,
     "0.5 %: the volume is printed to two digits", "operator training, worked answer"},
    {"DOSE-010", "thiosulfate_dose", {100, 1 MG_L}, 0.19, 0.005, ROUNDING, "AWWA field guide, Table 7-5"},
    {"DOSE-010", "thiosulfate_dose", {100000 GALLONS, 1 MG_L}, 1.58 POUNDS, 0.01 POUNDS, DIGIT,
     "AWWA field guide, Table 7-5"},
    {"LSI-004", "saturation_index_pool", {7.0, DEGF(84), 300 MG_L, 25 MG_L}, -0.9, 0.05, ROUNDING, LANGELIER},
    {"LSI-005", "saturation_index_pool", {7.0, DEGF(76), 200 MG_L, 50 MG_L}, -0.9, 0.05, ROUNDING, LANGELIER},
    {"LSI-006", "saturation_index_pool", {7.6, DEGF(84), 300 MG_L, 75 MG_L}, 0.2, 0.05, ROUNDING, LANGELIER},
    {"LSI-007", "saturation_index_pool", {8.0, DEGF(94), 400 MG_L, 150 MG_L}, 1.1, 0.05, ROUNDING, LANGELIER},
    {"LSI-009", "saturation_index", {7.5, DEGC(25), 150 MG_L, 34 MG_L, 320 MG_L}, -0.73, 0.02, ROUNDING,
     "Langelier, analytic form, worked example (from memory)"},
    {"SUC-004", "grate_velocity", {60 M3_PER_H, 0.05}, 0.333, 0.001, DIGIT, "v = Q / A"},
    {"AIR-003", "pool_evaporation", {100, DEGC(28), DEGC(30), 0.60, 0.1}, 17.68 / 3600, 0.02 * 17.68 / 3600,
     "2 %: vapour pressures of another source", "ASHRAE HVAC Applications (from memory)"},
};

FIGURE_SUITE(treatment)
