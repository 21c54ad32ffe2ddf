/* The functions behind the rows: SI in, SI out, arguments in the order of the
 * row, called only with arguments inside their valid ranges. */
#ifndef TS_SCIENCE_POINTS_H
#define TS_SCIENCE_POINTS_H

#include "tankside/science.h"

#define TS_POINT_OF(name_) double ts_point_##name_(const double *x)
#define TS_RANGE_OF(name_) ts_range ts_range_##name_(const ts_range *x)

/* decompression.c */
TS_POINT_OF(altitude_group);
TS_POINT_OF(ascent_time);
TS_POINT_OF(flying_interval);
TS_POINT_OF(no_stop_limit);
TS_POINT_OF(no_stop_remaining);
TS_POINT_OF(repetitive_group);
TS_POINT_OF(residual_nitrogen_time);
TS_RANGE_OF(residual_nitrogen_time);
TS_POINT_OF(surface_interval_group);
/* tissue.c */
TS_POINT_OF(no_stop_limit_model);
TS_POINT_OF(tolerated_nitrogen_pressure);

/* gas.c */
TS_POINT_OF(cylinder_energy);
TS_POINT_OF(cylinder_free_gas);
TS_POINT_OF(gas_demand);
TS_POINT_OF(gas_endurance);
TS_POINT_OF(gas_needed);
TS_POINT_OF(maximum_operating_depth);
TS_POINT_OF(oxygen_exposure_day);
TS_POINT_OF(oxygen_exposure_limit);

/* pressure.c */
TS_POINT_OF(air_pressure);
TS_POINT_OF(ambient_pressure);
TS_POINT_OF(depth_of_pressure);
TS_POINT_OF(equivalent_air_depth);
TS_POINT_OF(expansion_ratio);
TS_POINT_OF(hydrostatic_pressure);
TS_POINT_OF(lung_expansion_ratio);
TS_POINT_OF(partial_pressure);
TS_POINT_OF(surface_equivalent);
TS_POINT_OF(vapour_pressure);
TS_POINT_OF(volume_at_pressure);
TS_POINT_OF(water_density);
TS_RANGE_OF(water_density);

#endif
