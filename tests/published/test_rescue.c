/* Published figures: the time line of a rescue, ways out, outcomes. */
#include "figures.h"

#define LARSEN "Larsen et al. 1993, Ann. Emerg. Med. 22:1652 (from memory)"
#define SZPILMAN "Szpilman et al. 2012, N. Engl. J. Med. 366:2102 (from memory)"
#define PER_MINUTE /60

/* clang-format off */
static const figure figures[] = {
    {"RES-07", "arrest_survival", {0, 0, 0}, 0.67, 1e-9, EXACT, LARSEN ", all at once"},
    {"RES-07", "arrest_survival", {1 MINUTES, 1 MINUTES, 1 MINUTES}, 0.615, 1e-9, EXACT,
     LARSEN ", 5.5 % for each minute without any"},
    {"RES-07", "arrest_survival", {20 MINUTES, 20 MINUTES, 20 MINUTES}, 0, 1e-9, EXACT, LARSEN},
    {"E-04", "evacuation_time", {0, 0, 1.2, 100, 1.3, 0.9}, 85.47, 0.01, DIGIT,
     "IMO flow of 1.3 people a second and metre"},
    {"E-01", "evacuation_time", {30, 24, 1.2, 0, 1.3, 0.9}, 50, 1e-9, EXACT,
     "IMO speed of 1.2 m/s where few walk"},
    {"E-13", "rescue_time", {10, 15, 0.75, 0, 0.5, 0.5, 0.75, 0}, 50, 1e-9, EXACT,
     "seen in 10 s; 15 m at 0.75 m/s, there and back"},
    {"E-13", "rescue_time", {0, 0, 1, 9, 18.0 PER_MINUTE, 18.0 PER_MINUTE, 1, 30}, 90, 1e-9, EXACT,
     "9 m at 18 m/min down and up, 30 s to land"},
    {"RES-04", "submersion_outcome", {4 MINUTES}, 0.10, 0, TABLE, SZPILMAN},
    {"RES-04", "submersion_outcome", {8 MINUTES}, 0.56, 0, TABLE, SZPILMAN},
    {"RES-04", "submersion_outcome", {20 MINUTES}, 0.88, 0, TABLE, SZPILMAN},
    {"RES-04", "submersion_outcome", {30 MINUTES}, 1, 0, TABLE, SZPILMAN ", nearly all"},
    {"E-10", "time_to_casualty", {10, 20, 1, 0, 0.5}, 30, 1e-9, EXACT,
     "lifeguard 10:20 standard: 30 s in all"},
    {"E-13", "time_to_casualty", {0, 25, 0.833, 0, 0.5}, 30.0, 0.03, "1 in 10^3", "d / v"},
};
/* clang-format on */

FIGURE_SUITE(rescue)
