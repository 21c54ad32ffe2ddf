/* The functions behind the rows: SI in, SI out, arguments in the order of the
 * row, called only with arguments inside their valid ranges. */
#ifndef TS_SCIENCE_POINTS_H
#define TS_SCIENCE_POINTS_H

#include "tankside/science.h"

#define TS_POINT_OF(name_) double ts_point_##name_(const double *x)
#define TS_RANGE_OF(name_) ts_range ts_range_##name_(const ts_range *x)

/* breath.c */
TS_POINT_OF(alveolar_oxygen_after);
TS_POINT_OF(breath_hold_in_cold_water);
TS_POINT_OF(breath_hold_limit);
TS_POINT_OF(breath_hold_to_oxygen);
TS_POINT_OF(carbon_dioxide_output);
TS_POINT_OF(carbon_dioxide_recovery_time);
TS_POINT_OF(carboxyhaemoglobin);
TS_POINT_OF(metabolic_power);
TS_POINT_OF(oxygen_uptake);

/* chamber.c */
TS_POINT_OF(air_changes);
TS_POINT_OF(carbon_dioxide_after);
TS_RANGE_OF(carbon_dioxide_after);
TS_POINT_OF(carbon_dioxide_after_release);
TS_POINT_OF(carbon_dioxide_steady);
TS_POINT_OF(oxygen_after);
TS_POINT_OF(oxygen_after_release);
TS_POINT_OF(oxygen_steady);
TS_POINT_OF(time_to_carbon_dioxide);
TS_POINT_OF(time_to_oxygen);
TS_POINT_OF(ventilation_for_carbon_dioxide);

/* decompression.c */
TS_POINT_OF(altitude_group);
TS_POINT_OF(altitude_interval);
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
TS_POINT_OF(breathing_air_water_limit);
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

/* cold.c */
TS_POINT_OF(body_surface_area);
TS_POINT_OF(body_surface_mosteller);
TS_POINT_OF(cold_shock_grade);
TS_POINT_OF(cooling_rate_exercise);
TS_POINT_OF(cooling_rate_rest);
TS_POINT_OF(core_cooling_time);
TS_POINT_OF(frostbite_time);
TS_POINT_OF(hand_function_time);
TS_POINT_OF(immersion_heat_loss);
TS_POINT_OF(neutral_water_temperature);
TS_POINT_OF(suit_insulation);
TS_POINT_OF(surface_per_mass);
TS_POINT_OF(survival_time);
TS_POINT_OF(wind_chill);

/* heat.c */
TS_POINT_OF(scald_time);
TS_POINT_OF(scald_time_table);
TS_POINT_OF(wbgt_indoor);
TS_POINT_OF(wbgt_limit_acclimatised);
TS_POINT_OF(wbgt_limit_unacclimatised);
TS_POINT_OF(wbgt_outdoor);
TS_POINT_OF(wbgt_reference_acclimatised);
TS_POINT_OF(wbgt_reference_unacclimatised);

/* heat_index.c */
TS_POINT_OF(heat_index);
TS_RANGE_OF(heat_index);

/* moist_air.c */
TS_POINT_OF(convection_in_air);
TS_POINT_OF(convection_in_wind);
TS_POINT_OF(dew_point);
TS_POINT_OF(evaporative_heat_loss);
TS_POINT_OF(wet_bulb);

/* light.c */
TS_POINT_OF(absorption_of_pure_water);
TS_POINT_OF(attenuation_of_visibility);
TS_POINT_OF(contrast_left);
TS_POINT_OF(lamp_illuminance);
TS_POINT_OF(smallest_detail);
TS_POINT_OF(visibility);
TS_POINT_OF(visibility_black_disc);
TS_POINT_OF(visibility_of_turbidity);

/* motion.c */
TS_POINT_OF(blast_distance);
TS_POINT_OF(blast_peak_pressure);
TS_POINT_OF(bore_speed);
TS_POINT_OF(breaking_wave_height);
TS_POINT_OF(dam_break_discharge);
TS_POINT_OF(dam_break_front);
TS_POINT_OF(depth_velocity);
TS_POINT_OF(drag_force);
TS_POINT_OF(drawdown);
TS_POINT_OF(drift_distance);
TS_POINT_OF(efflux_speed);
TS_POINT_OF(emptying_time);
TS_POINT_OF(entry_depth_minimum);
TS_POINT_OF(entry_depth_preferred);
TS_POINT_OF(exit_time);
TS_POINT_OF(fall_speed);
TS_POINT_OF(fall_time);
TS_POINT_OF(falling_water_force);
TS_POINT_OF(filling_time);
TS_POINT_OF(flood_hazard_rating);
TS_POINT_OF(friction_of_pendulum);
TS_POINT_OF(jet_force);
TS_POINT_OF(level_rate);
TS_POINT_OF(lightning_distance);
TS_POINT_OF(orifice_flow);
TS_POINT_OF(plunge_depth);
TS_POINT_OF(solitary_wave_speed);
TS_POINT_OF(stagnation_pressure);
TS_POINT_OF(stopping_distance);
TS_POINT_OF(swim_time);
TS_POINT_OF(swim_time_against);
TS_POINT_OF(wading_limit);
TS_POINT_OF(walking_speed);
TS_POINT_OF(wave_length);
TS_POINT_OF(wave_speed);

/* sound.c */
TS_POINT_OF(level_at_distance);
TS_POINT_OF(noise_dose);
TS_POINT_OF(noise_time_3db);
TS_POINT_OF(noise_time_5db);
TS_POINT_OF(sound_speed);

/* structure.c */
TS_POINT_OF(ballast_mass);
TS_POINT_OF(boat_persons_capacity);
TS_POINT_OF(body_density);
TS_POINT_OF(body_net_lift);
TS_RANGE_OF(body_net_lift);
TS_POINT_OF(buoyancy);
TS_POINT_OF(depth_for_floor_load);
TS_POINT_OF(free_surface_loss);
TS_POINT_OF(hatch_force);
TS_POINT_OF(hook_load);
TS_POINT_OF(ice_capacity);
TS_POINT_OF(mass_in_water);
TS_POINT_OF(net_lift);
TS_POINT_OF(plate_deflection_square);
TS_POINT_OF(plate_stress_round);
TS_POINT_OF(plate_stress_square);
TS_POINT_OF(sinkage);
TS_POINT_OF(sling_factor);
TS_POINT_OF(soaked_mass);
TS_POINT_OF(stopping_load_factor);
TS_POINT_OF(submerged_fraction);
TS_POINT_OF(suction_force);
TS_POINT_OF(voltage_gradient);
TS_POINT_OF(wall_moment);
TS_POINT_OF(wall_thrust);
TS_POINT_OF(window_pressure_centre);
TS_POINT_OF(window_thrust);

/* water.c */
TS_POINT_OF(basin_volume);
TS_POINT_OF(bather_load);
TS_POINT_OF(chlorine_dose);
TS_POINT_OF(chlorine_feed);
TS_POINT_OF(chlorine_rise);
TS_POINT_OF(circulation_for_bathers);
TS_POINT_OF(ct_time);
TS_POINT_OF(ct_value);
TS_POINT_OF(dilution_for_bathers);
TS_POINT_OF(grate_velocity);
TS_POINT_OF(hypochlorous_acid);
TS_POINT_OF(hypochlorous_fraction);
TS_POINT_OF(hypochlorous_with_cyanurate);
TS_POINT_OF(legionella_growth);
TS_RANGE_OF(legionella_growth);
TS_POINT_OF(legionella_reduction_time);
TS_POINT_OF(pool_evaporation);
TS_POINT_OF(purified_fraction);
TS_POINT_OF(remaining_fraction);
TS_POINT_OF(replacement_volume);
TS_POINT_OF(saturation_index);
TS_POINT_OF(saturation_index_pool);
TS_POINT_OF(thiosulfate_dose);
TS_POINT_OF(turnover_time);

/* electricity.c */
TS_POINT_OF(body_current);
TS_POINT_OF(electrical_zone);
TS_POINT_OF(heart_current);
TS_POINT_OF(let_go_current);
TS_POINT_OF(tolerable_body_current);
TS_POINT_OF(touch_voltage_limit);
TS_POINT_OF(voltage_gradient_distance);

/* rescue.c */
TS_POINT_OF(arrest_survival);
TS_POINT_OF(evacuation_time);
TS_POINT_OF(rescue_time);
TS_POINT_OF(submersion_outcome);
TS_POINT_OF(time_to_casualty);

#endif
