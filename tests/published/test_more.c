/* Published figures: what stands between the topics: cold and breath, water that falls, fills and
 * runs, waves, bathers, legionella, sight, sound, weight in the water. */
#include "figures.h"

#define HAYWARD "Hayward et al. 1984, J. Appl. Physiol. 56:202 (from memory)"
#define ALVEOLAR "alveolar ventilation equation, textbook values at 40 mmHg (from memory)"
#define POPE "Pope and Fry 1997, Appl. Opt. 36:8710 (from memory)"
#define FIFTH "straight on a logarithmic scale over 25 nm"
#define SNELLEN "ISO 8596: a letter is five details (from memory)"
#define PLATFORM "World Aquatics Facilities Rules, pools after September 2013"
#define CEM "USACE Coastal Engineering Manual EM 1110-2-1100"
#define AR_R "Cox, Shand and Blacka 2010"
#define COLE "R. H. Cole, Underwater Explosions 1948 (from memory)"
#define MEDWIN "Medwin 1975, as worked out by hand"
#define SIRI "Siri: fat 495 / D - 450 % (from memory)"
#define ARCHIMEDES "Archimedes' principle, by hand"
#define BOATS "33 CFR 183.43"
#define HOUSE "C. House, J. R. Nav. Med. Serv. 2017;103:189"
#define PWTAG "Pool Water Treatment Advisory Group (from memory)"
#define G 9.80665
#define DEGREE_PER *(180 / 3.14159265358979323846)
#define FRESH 1000.0

/* clang-format off */
static const figure figures[] = {
    {"CO-01", "breath_hold_in_cold_water", {DEGC(0)}, 15.01, 0.005, DIGIT, HAYWARD},
    {"CO-01", "breath_hold_in_cold_water", {DEGC(25)}, 38.01, 0.005, DIGIT, HAYWARD},
    {"CO2-20", "carbon_dioxide_recovery_time", {60, 0.200 L_PER_MIN, 4.3 L_PER_MIN}, 60, 0.8,
     ROUNDING, ALVEOLAR ": 200 mL/min at 4.3 L/min"},
    {"CO2-20", "carbon_dioxide_recovery_time", {60, 0.250 L_PER_MIN, 5.4 L_PER_MIN}, 60, 0.6,
     ROUNDING, ALVEOLAR ": 250 mL/min at 5.4 L/min"},
    {"CO-02", "carboxyhaemoglobin", {50e-6, 8 HOURS}, 0.07, 0.01, "volunteers differ",
     "Stewart et al. 1970: about 7 % (from memory)"},
    {"CO-02", "carboxyhaemoglobin", {100e-6, 8 HOURS}, 0.12, 0.015, "volunteers differ",
     "Stewart et al. 1970: 11 to 13 % (from memory)"},
    {"AIR-05", "breathing_air_water_limit", {200e5}, 50e-6, 0, TABLE, "EN 12021"},
    {"AIR-05", "breathing_air_water_limit", {232e5}, 35e-6, 0, TABLE, "EN 12021"},
    {"O-05", "absorption_of_pure_water", {650e-9}, 0.340, 1e-9, TABLE, POPE},
    {"O-05", "absorption_of_pure_water", {550e-9}, 0.0565, 1e-9, TABLE, POPE},
    {"O-05", "absorption_of_pure_water", {540e-9}, 0.0474, 0.003, FIFTH, POPE},
    {"O-05", "absorption_of_pure_water", {640e-9}, 0.3108, 0.006, FIFTH, POPE},
    {"VIS-002", "attenuation_of_visibility", {9.6}, 0.5, 1e-9, EXACT, "Davies-Colley 1988"},
    {"VIS-002", "attenuation_of_visibility", {1.6}, 3.0, 1e-9, EXACT,
     "Davies-Colley 1988, at the 1.6 m asked of bathing water (from memory)"},
    {"O-10", "smallest_detail", {6, 30 DEGREE_PER}, 8.727e-3 / 5, 1e-6, DIGIT,
     SNELLEN ": 8.73 mm at 6 m for 20/20"},
    {"O-10", "smallest_detail", {6, 3 DEGREE_PER}, 87.27e-3 / 5, 5e-6, ROUNDING,
     SNELLEN ": 87.3 mm at 6 m for 20/200"},
    {"X-02", "blast_distance", {1, 3.8845e6}, 10, 0.01, "1 in 10^3", COLE},
    {"X-02", "blast_distance", {1, 0.28796e6}, 100, 0.1, "1 in 10^3", COLE},
    {"W-14", "breaking_wave_height", {1}, 0.78, 1e-9, EXACT, "McCowan 1894 (from memory)"},
    {"W-14", "breaking_wave_height", {1.28}, 1, 0.005, ROUNDING,
     "Munk 1949: breaks over 1.28 times its height (from memory)"},
    {"F-06", "emptying_time", {10, 2.0, 0.100, 0.61}, 2 * 20 / 0.0300061, 0.1, DIGIT,
     "twice the volume over the first flow"},
    {"F-01", "emptying_time", {4, 1, 0.050, 0.61}, 1508.19, 0.1, DIGIT,
     "twice the volume over the first flow, Torricelli 4.42869 m/s"},
    {"J-06", "entry_depth_minimum", {1}, 3.2, 1e-9, TABLE, PLATFORM},
    {"J-06", "entry_depth_minimum", {3}, 3.5, 1e-9, TABLE, PLATFORM},
    {"J-06", "entry_depth_minimum", {5}, 3.7, 1e-9, TABLE, PLATFORM},
    {"J-06", "entry_depth_minimum", {7.5}, 4.1, 1e-9, TABLE, PLATFORM},
    {"J-06", "entry_depth_minimum", {10}, 4.5, 1e-9, TABLE, PLATFORM},
    {"J-06", "entry_depth_preferred", {1}, 3.3, 1e-9, TABLE, PLATFORM},
    {"J-06", "entry_depth_preferred", {3}, 3.6, 1e-9, TABLE, PLATFORM},
    {"J-06", "entry_depth_preferred", {5}, 3.8, 1e-9, TABLE, PLATFORM},
    {"J-06", "entry_depth_preferred", {7.5}, 4.5, 1e-9, TABLE, PLATFORM},
    {"J-06", "entry_depth_preferred", {10}, 5.0, 1e-9, TABLE, PLATFORM},
    {"F-22", "falling_water_force", {0.1, 3.0, FRESH}, 767.1, 0.1, DIGIT, "rho Q v"},
    {"F-01", "falling_water_force", {0.05, 5, FRESH}, 50 * 9.90285, 0.01, DIGIT,
     "rho Q v, Torricelli 9.90285 m/s"},
    {"U-17", "filling_time", {538597.402597403 GALLONS, 500 GALLONS / 60}, 1077.1948 MINUTES, 0.01,
     DIGIT, "60 x 60 x 20 ft at 500 gal/min"},
    {"TRN-002", "filling_time", {350, 125 M3_PER_H}, 2.8 HOURS, 1e-6, EXACT, "V / Q"},
    {"W-13", "level_rate", {1000 LITRES / 60, 12}, 83.33e-3 / 60, 0.01e-3 / 60, DIGIT, "V / A"},
    {"U-17", "level_rate", {500 GALLONS / 60, 3600 * 0.09290304}, 20 FEET / (1077.1948 * 60), 1e-9,
     DIGIT, "20 ft in 1077.19 min"},
    {"W-07", "solitary_wave_speed", {2.0, 0.5}, 4.95143, 1e-5, DIGIT, CEM " II-1"},
    {"W-01", "solitary_wave_speed", {2.0, 0}, 4.42869, 1e-5, DIGIT, "shallow-water theory"},
    {"D-08", "wading_limit", {1.75, 70}, 0.6, 0, TABLE, AR_R ", adult"},
    {"D-08", "wading_limit", {1.2, 25}, 0.4, 0, TABLE, AR_R ", child of 30 m kg"},
    {"D-08", "wading_limit", {0.85, 12}, 0, 0, TABLE, AR_R ", infant of 10 m kg"},
    {"W-02", "wave_length", {10, 3}, 53.2, 0.1, "the page prints 53.2 and 53.3, with g 9.81",
     CEM " Example II-1-1"},
    {"W-04", "wave_length", {14.13862, 24.189}, 200, 0.05, DIGIT,
     "Dean and Dalrymple, problem 3.7: 312 m in deep water"},
    {"A-16", "level_at_distance", {95, 10}, 75, 1e-9, EXACT, "20 dB for ten times as far"},
    {"A-16", "level_at_distance", {95, 2}, 88.98, 0.005, DIGIT, "6.02 dB for twice as far"},
    {"A-03", "sound_speed", {DEGC(10), 0.035, 0}, 1489.99, 0.005, DIGIT, MEDWIN},
    {"A-03", "sound_speed", {DEGC(20), 0.035, 0}, 1521.52, 0.005, DIGIT, MEDWIN},
    {"A-03", "sound_speed", {DEGC(15), 0.035, 0}, 1506.67, 0.2, "what the row claims",
     "TEOS-10"},
    {"A-02", "sound_speed", {DEGC(0), 0, 0}, 1402.39, 1, "what the row claims",
     "Chen-Millero 1977"},
    {"A-02", "sound_speed", {DEGC(25), 0, 0}, 1496.71, 1, "what the row claims", "TEOS-10"},
    {"L-09", "ballast_mass", {130.9 * G, 7850, FRESH}, 150, 0.1, ROUNDING,
     "steel of 150 kg shows 130.9 kg under water"},
    {"B-15", "ballast_mass", {9.1182 * G, 11340, FRESH}, 10, 0.001, ROUNDING,
     ARCHIMEDES ": lead of 10 kg"},
    {"V-03", "boat_persons_capacity", {450 POUNDS}, 3.42, 0.005, DIGIT, BOATS},
    {"V-03", "boat_persons_capacity", {425 POUNDS}, 3.24, 0.005, DIGIT, BOATS},
    {"B-16", "body_density", {0.214286}, 1050, 0.01, DIGIT, SIRI},
    {"B-16", "body_density", {0.25}, 1042.1, 0.05, DIGIT, SIRI},
    {"B-16", "body_net_lift", {70, 1050, 0, FRESH}, -32.689, 0.001, DIGIT, ARCHIMEDES},
    {"B-16", "body_net_lift", {70, 1050, 6 LITRES, FRESH}, 26.151, 0.001, DIGIT, ARCHIMEDES},
    {"B-14", "soaked_mass", {1, 3.008}, 4.008, 1e-9, EXACT, "Petrulyte and Baltakyte: 300.8 %"},
    {"B-14", "soaked_mass", {1, 1.429}, 2.429, 1e-9, EXACT, "Petrulyte and Baltakyte: 142.9 %"},
    {"COLD-009", "cold_shock_grade", {DEGC(25)}, 0, 0, TABLE, HOUSE ", from below 25 degC"},
    {"COLD-009", "cold_shock_grade", {DEGC(24)}, 1, 0, TABLE, HOUSE ", from below 25 degC"},
    {"COLD-008", "cold_shock_grade", {DEGC(14)}, 2, 0, TABLE, "1-10-1: below 15 degC"},
    {"COLD-009", "cold_shock_grade", {DEGC(10)}, 3, 0, TABLE, HOUSE ", greatest at 10 degC"},
    {"COLD-018", "neutral_water_temperature", {105, 1.8, DEGC(34), 0, 230}, DEGC(34.25), 1.25,
     "a published band", "resting and bare: 33 to 35.5 degC (from memory)"},
    {"COLD-018", "neutral_water_temperature", {95.68, 1.3, DEGC(30), 0.05, 230}, DEGC(26), 0.01,
     DIGIT, "1.3 x 4 / (0.05 + 1/230) = 95.68 W, by hand"},
    {"PWT-01", "bather_load", {22, 0.9}, 10, 1e-9, EXACT, PWTAG ", 2.2 m2 each"},
    {"PWT-01", "bather_load", {270, 1.2}, 100, 1e-9, EXACT, PWTAG ", 2.7 m2 each"},
    {"PWT-01", "bather_load", {40, 2.5}, 10, 1e-9, EXACT, PWTAG ", 4 m2 each"},
    {"PWT-02", "circulation_for_bathers", {100}, 170 M3_PER_H, 1e-9, EXACT, PWTAG},
    {"PWT-02", "circulation_for_bathers", {1}, 1.7 M3_PER_H, 1e-12, EXACT, PWTAG},
    {"WQ-023", "dilution_for_bathers", {1}, 30 LITRES, 1e-12, EXACT, "World Health Organization"},
    {"WQ-023", "dilution_for_bathers", {100}, 3, 1e-9, EXACT, "World Health Organization"},
    {"LEG-002", "legionella_growth", {DEGC(15)}, 0, 0, TABLE, "HSE ACoP L8: 20 to 45 degC"},
    {"LEG-002", "legionella_growth", {DEGC(25)}, 1, 0, TABLE, "HSE ACoP L8: 20 to 45 degC"},
    {"LEG-002", "legionella_growth", {DEGC(37)}, 2, 0, TABLE,
     "World Health Organization: 32 to 42"},
    {"LEG-002", "legionella_growth", {DEGC(44)}, 1, 0, TABLE, "HSE ACoP L8: 20 to 45 degC"},
    {"LEG-002", "legionella_growth", {DEGC(50)}, 0, 0, TABLE, "HSE ACoP L8: 20 to 45 degC"},
    {"LEG-007", "legionella_reduction_time", {DEGC(50)}, 102 MINUTES, 22 MINUTES + 1e-6,
     "a published band", "HSE: 80 to 124 min (from memory)"},
    {"LEG-007", "legionella_reduction_time", {DEGC(60)}, 2 MINUTES, 0.01, EXACT,
     "HSE: 2 min (from memory)"},
    {"MB-01", "replacement_volume", {100, 90 MG_L, 45 MG_L}, 50, 1e-9, EXACT, "half takes half"},
    {"MB-01", "replacement_volume", {500, 100 MG_L, 30 MG_L}, 350, 1e-9, EXACT,
     "30 % left: 70 % replaced"},
};
/* clang-format on */

FIGURE_SUITE(more)
