// sirop_embedded.h in double.
#include "doors.hpp"

namespace small = sirop::lib::embedded;

extern "C" {

int32_t sirop_embedded_water_boils_celsius(double pressure_hpa, double* celsius) {
    return small::water_boils_celsius(pressure_hpa, celsius);
}

int32_t sirop_embedded_pressure_at_altitude_hpa(double altitude_metres, double* pressure_hpa) {
    return small::pressure_at_altitude_hpa(altitude_metres, pressure_hpa);
}

int32_t sirop_embedded_water_at_boil_grams(const double* grams, size_t components, double celsius,
                                           double pressure_hpa, double* water_grams) {
    return small::water_at_boil_grams(grams, components, celsius, pressure_hpa, water_grams);
}

int32_t sirop_embedded_boiling_point_celsius(const double* grams, size_t components, double pressure_hpa,
                                             double* celsius) {
    return small::boiling_point_celsius(grams, components, pressure_hpa, celsius);
}

int32_t sirop_embedded_water_activity(const double* grams, size_t components, double celsius, double* activity) {
    return small::water_activity(grams, components, celsius, activity);
}

int32_t sirop_embedded_syrup_log10_viscosity_pa_s(const double* grams, size_t components, double celsius,
                                                  double* log10_pa_s) {
    return small::syrup_log10_viscosity_pa_s(grams, components, celsius, log10_pa_s);
}

int32_t sirop_embedded_glass_transition_celsius(const double* grams, size_t components, double* celsius) {
    return small::glass_transition_celsius(grams, components, celsius);
}

int32_t sirop_embedded_brix_from_refractive_index(double refractive_index, double* brix) {
    return small::brix_from_refractive_index(refractive_index, brix);
}

int32_t sirop_embedded_brix_from_density_kg_m3(double density_kg_m3, double* brix) {
    return small::brix_from_density_kg_m3(density_kg_m3, brix);
}

}  // extern "C"
