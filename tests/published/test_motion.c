/* Published figures: falls, jets, waves, currents, ways out. */
#include "figures.h"

#define FALL "free fall, standard gravity"
#define TORRICELLI "Torricelli, standard gravity"
#define SHALLOW "shallow-water theory, standard gravity"
#define RITTER "Ritter 1892 (from memory)"
#define DRAG "0.5 rho Cd A v2"
#define SFPE "SFPE Handbook, Nelson and Mowrer (from memory)"
#define COLE "R. H. Cole, Underwater Explosions 1948 (from memory)"
#define PENDULUM "Giles, Sabey and Cardew 1964 (from memory)"
#define FRESH 1000.0
#define HIGHWAY "UK Highway Code, rule 126; reaction and braking behind it (from memory)"
#define TWO_ROUNDINGS "thinking and braking are each printed in whole metres"

/* clang-format off */
static const figure figures[] = {
    {"J-01", "fall_speed", {1}, 4.429, 0.001, DIGIT, FALL},
    {"J-01", "fall_speed", {3}, 7.671, 0.001, DIGIT, FALL},
    {"J-01", "fall_speed", {5}, 9.903, 0.001, DIGIT, FALL},
    {"J-01", "fall_speed", {7.5}, 12.128, 0.001, DIGIT, FALL},
    {"J-01", "fall_speed", {10}, 14.005, 0.001, DIGIT, FALL},
    {"J-01", "fall_speed", {20}, 19.806, 0.001, DIGIT, FALL},
    {"J-01", "fall_speed", {27}, 23.012, 0.001, DIGIT, FALL},
    {"J-02", "fall_speed", {5 FEET}, 12 MPH, 1 MPH, DIGIT, "coasteering safety table"},
    {"J-02", "fall_speed", {10 FEET}, 17 MPH, 1 MPH, DIGIT, "coasteering safety table"},
    {"J-02", "fall_speed", {20 FEET}, 25 MPH, 1 MPH, DIGIT, "coasteering safety table"},
    {"J-02", "fall_speed", {50 FEET}, 38 MPH, 1 MPH, DIGIT, "coasteering safety table"},
    {"J-04", "fall_speed", {186 FEET}, 109.40 FEET, 0.01 FEET, DIGIT, FALL ", 186 ft"},
    {"J-05", "fall_speed", {220 FEET}, 118.98 FEET, 0.01 FEET, DIGIT, FALL ", 220 ft"},
    {"J-05", "fall_time", {220 FEET}, 3.698, 0.001, DIGIT, FALL ", 220 ft"},
    {"F-01", "efflux_speed", {1}, 4.42869, 1e-5, DIGIT, TORRICELLI},
    {"F-01", "efflux_speed", {2}, 6.26311, 1e-5, DIGIT, TORRICELLI},
    {"F-01", "efflux_speed", {5}, 9.90285, 1e-5, DIGIT, TORRICELLI},
    {"F-06", "orifice_flow", {0.100, 2.0, 0.61}, 0.0300061, 3e-6, "1 in 10^4",
     "Q = Cd A sqrt(2 g h)"},
    {"F-16", "jet_force", {0.050, 15, FRESH}, 441.79, 0.01, DIGIT, "rho A v2"},
    {"F-22", "fall_speed", {3.0}, 7.6707, 0.0001, DIGIT, FALL ", dump tank"},
    {"F-22", "stagnation_pressure", {7.6707, FRESH}, 29.420 KPA, 1, DIGIT, "rho v2 / 2"},
    {"W-01", "wave_speed", {0.5}, 2.21435, 1e-5, DIGIT, SHALLOW},
    {"W-01", "wave_speed", {1}, 3.13156, 1e-5, DIGIT, SHALLOW},
    {"W-01", "wave_speed", {2}, 4.42869, 1e-5, DIGIT, SHALLOW},
    {"W-01", "wave_speed", {3}, 5.42402, 1e-5, DIGIT, SHALLOW},
    {"W-05", "wave_speed", {4}, 6.26, 0.01, ROUNDING,
     "R. M. Sorensen, Basic Coastal Engineering, Example 3.3-1"},
    {"W-09", "dam_break_front", {2.0}, 8.85738, 1e-5, DIGIT, RITTER},
    {"W-09", "dam_break_discharge", {2.0, 1}, 2.62441, 1e-5, DIGIT, RITTER},
    {"W-10", "bore_speed", {0.5, 1.0}, 3.83536, 1e-5, DIGIT, "hydraulic-jump relation (Muir Wood)"},
    {"W-13", "drawdown", {1000 LITRES, 4, 3}, 83.33e-3, 0.01e-3, DIGIT, "V / A"},
    {"D-01", "drag_force", {1.1, 0.45, 1.0, FRESH}, 247.5, 0.01, EXACT, DRAG},
    {"D-01", "drag_force", {1.1, 0.45, 0.25722, FRESH}, 16.375, 0.001, DIGIT, DRAG},
    {"D-07", "drift_distance", {1.0 KNOTS, 10 MINUTES}, 308.67, 0.01, DIGIT, "v t"},
    {"D-11", "flood_hazard_rating", {0.5, 1.0, 0}, 0.75, 1e-12, EXACT,
     "Defra/EA FD2320 (from memory)"},
    {"D-11", "depth_velocity", {0.5, 1.0}, 0.5, 1e-12, EXACT, "definition"},
    {"E-04", "exit_time", {100, 1.3, 0.9}, 85.47, 0.01, DIGIT,
     "IMO flow of 1.3 people a second and metre"},
    {"E-05", "walking_speed", {0.54}, 1.1989, 0.0001, DIGIT, SFPE},
    {"E-05", "walking_speed", {1.0}, 1.0276, 0.0001, DIGIT, SFPE},
    {"E-05", "walking_speed", {1.9}, 0.6924, 0.0001, DIGIT, SFPE},
    {"E-05", "walking_speed", {3.0}, 0.2828, 0.0001, DIGIT, SFPE},
    {"E-13", "swim_time", {15, 0.75}, 20.0, 1e-9, EXACT, "d / v"},
    {"E-13", "swim_time", {25, 0.833}, 30.0, 0.03, "1 in 10^3", "d / v"},
    {"LTG-001", "lightning_distance", {30}, 10.3e3, 50, ROUNDING, "sound at 343 m/s, 30 s"},
    {"P-02", "friction_of_pendulum", {24}, 0.2353, 0.0001, DIGIT, PENDULUM},
    {"P-02", "friction_of_pendulum", {36}, 0.3673, 0.0001, DIGIT, PENDULUM},
    {"X-02", "blast_peak_pressure", {1, 10}, 3.8845e6, 3.9e3, "1 in 10^3", COLE},
    {"X-02", "blast_peak_pressure", {1, 100}, 0.28796e6, 0.29e3, "1 in 10^3", COLE},
    {"J-G", "fall_time", {9.80665 / 2}, 1, 1e-9, EXACT, "the first second of " FALL},
    {"F-22", "jet_force", {0.1288372, 7.6707, FRESH}, 767.1, 0.1, DIGIT,
     "rho Q v, 0.1 m3/s: 0.01303661 m2 at that speed"},
    {"F-17", "jet_force", {1 INCHES, 26.2579, FRESH}, 78.54 * 4.4482216, 0.05, ROUNDING,
     "2 p A, smooth bore of 1 in at 50 lbf/in2, fire service"},
    {"F-05", "orifice_flow", {1 FEET, 4 FEET, 0.611}, 4.9 * 0.785398 * 2 CUBIC_FEET,
     0.02 CUBIC_FEET, "the factor 4.9 has two digits", "hydraulic handbooks, Q = 4.9 A sqrt(h)"},
    {"F-613", "stagnation_pressure", {40, 1.225}, 981, 1, ROUNDING,
     "0.613 v2, codes of practice for wind (from memory)"},
    {"W-09", "dam_break_front", {1}, 2 * 3.13156, 2e-5, DIGIT, RITTER ", twice the wave speed"},
    {"W-09", "dam_break_discharge", {1, 3}, 3 * (4.0 / 9) * (2.0 / 3 * 3.13156), 1e-4, ROUNDING,
     RITTER ", depth 4/9 h at two thirds of the wave speed"},
    {"W-12", "bore_speed", {1, 3.77200}, 3 * 3.13156, 1e-4, DIGIT,
     "Belanger: Froude number 3 goes with a depth ratio of 3.77200"},
    {"W-01", "bore_speed", {1, 1}, 3.13156, 1e-5, DIGIT, SHALLOW ", no step at all"},
    {"U-16", "drawdown", {72000 CUBIC_FEET, 60 FEET, 60 FEET}, 20 FEET, 1e-9, EXACT,
     "a tank of 60 x 60 x 20 ft let out"},
    {"D-07", "drift_distance", {1 KNOTS, 60 MINUTES}, 1852, 1e-9, EXACT,
     "a knot is a nautical mile an hour"},
    {"D-11", "flood_hazard_rating", {0.30, 0, 1}, 1.15, 1e-12, EXACT,
     "Defra/EA, supplementary note 2008, 0.15 + 1.0 (from memory)"},
    {"D-11", "flood_hazard_rating", {1, 2, 1}, 3.5, 1e-12, EXACT,
     "Defra/EA FD2320, 1 (2 + 0.5) + 1 (from memory)"},
    {"D-12", "depth_velocity", {1.2, 0.5}, 0.6, 1e-12, EXACT,
     "Cox, Shand and Blacka 2010, limit for adults 0.6 m2/s (from memory)"},
    {"E-SG", "exit_time", {82, 82 / 60.0, 1}, 60, 1e-9, EXACT,
     "Guide to Safety at Sports Grounds, 82 people a metre and minute (from memory)"},
    {"LTG-001", "lightning_distance", {9}, 3e3, 90, "3 %: the rule has one digit",
     "NOAA 30-30, km = seconds / 3"},
    {"D-08", "swim_time_against", {1852, 1.5 KNOTS, 0.5 KNOTS}, 60 MINUTES, 1e-6, EXACT,
     "a nautical mile at one knot over ground"},
    {"D-08", "swim_time_against", {25, 0.5, 0.5}, 24 HOURS, 0, "24 h stands for never",
     "held by the current"},
    {"S-30", "stopping_distance", {30 MPH, 6.57, 0.67}, 23, 1, TWO_ROUNDINGS, HIGHWAY},
    {"S-50", "stopping_distance", {50 MPH, 6.57, 0.67}, 53, 1, TWO_ROUNDINGS, HIGHWAY},
    {"S-70", "stopping_distance", {70 MPH, 6.57, 0.67}, 96, 1, TWO_ROUNDINGS, HIGHWAY},
};
/* clang-format on */

FIGURE_SUITE(motion)
