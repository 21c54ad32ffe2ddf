/* Constants that more than one topic uses, in SI units. */
#ifndef TS_SCIENCE_CONSTANTS_H
#define TS_SCIENCE_CONSTANTS_H

#define TS_GRAVITY 9.80665     /* standard acceleration of free fall, m/s2 */
#define TS_ATMOSPHERE 101325.0 /* Pa */
#define TS_CELSIUS 273.15      /* 0 degC in kelvin */
#define TS_FOOT 0.3048         /* m */
#define TS_MINUTE 60.0         /* s */
#define TS_HOUR 3600.0         /* s */
/* What stands for "without limit" where a result is a time: nobody is at work in
 * water longer than a day, and an infinite end would not print. */
#define TS_ONE_DAY 86400.0        /* s */
#define TS_LONG (30 * TS_ONE_DAY) /* the same for supplies and rooms, which may outlast a day */
#define TS_MMHG 133.322387415     /* conventional millimetre of mercury, Pa */
#define TS_PI 3.14159265358979323846

#endif
