// sirop_embedded.h in float.  An object of its own: it shows that no double is computed with.
#include "doors.hpp"

namespace small = sirop::lib::embedded;

extern "C" {

int32_t sirop_embedded_water_boils_celsius_f(float pressure_hpa, float* celsius) {
    return small::water_boils_celsius(pressure_hpa, celsius);
}

int32_t sirop_embedded_pressure_at_altitude_hpa_f(float altitude_metres, float* pressure_hpa) {
    return small::pressure_at_altitude_hpa(altitude_metres, pressure_hpa);
}

int32_t sirop_embedded_water_at_boil_grams_f(const float* grams, size_t components, float celsius,
                                             float pressure_hpa, float* water_grams) {
    return small::water_at_boil_grams(grams, components, celsius, pressure_hpa, water_grams);
}

int32_t sirop_embedded_boiling_point_celsius_f(const float* grams, size_t components, float pressure_hpa,
                                               float* celsius) {
    return small::boiling_point_celsius(grams, components, pressure_hpa, celsius);
}

int32_t sirop_embedded_water_activity_f(const float* grams, size_t components, float celsius, float* activity) {
    return small::water_activity(grams, components, celsius, activity);
}

int32_t sirop_embedded_syrup_log10_viscosity_pa_s_f(const float* grams, size_t components, float celsius,
                                                    float* log10_pa_s) {
    return small::syrup_log10_viscosity_pa_s(grams, components, celsius, log10_pa_s);
}

int32_t sirop_embedded_glass_transition_celsius_f(const float* grams, size_t components, float* celsius) {
    return small::glass_transition_celsius(grams, components, celsius);
}

int32_t sirop_embedded_brix_from_refractive_index_f(float refractive_index, float* brix) {
    return small::brix_from_refractive_index(refractive_index, brix);
}

int32_t sirop_embedded_brix_from_density_kg_m3_f(float density_kg_m3, float* brix) {
    return small::brix_from_density_kg_m3(density_kg_m3, brix);
}

}  // extern "C"
