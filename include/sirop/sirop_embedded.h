/* sirop for a small machine: the best values alone, without heap, exceptions, run-time types, I/O or a C++
 * library, in double and in float.  A function that ends in _f takes and gives floats, and computes in float
 * throughout.
 *
 * Every function is reentrant, keeps no state, and ends after a bounded number of steps.  It returns a status of
 * sirop.h (0 fine, positive: computed outside the fitted range, negative: an error), and writes its result through
 * the last pointer; NaN on an error.  Link libsirop_embedded.a and the C mathematics library.  C99 and C++.
 *
 * SIROP_E_RANGE: an argument is outside its inclusive range, infinite or not a number.  SIROP_E_NULL: a pointer is
 * null.  SIROP_E_IMPOSSIBLE: no answer within the model.
 *
 * grams: the masses of the first `components` components of sirop.h, 0 to 1e9 g each, not all 0; the others are 0.
 * components: 1 to SIROP_COMPONENT_COUNT.  pressure_hpa: 300 to 1100.  celsius: -30 to 250, or as stated. */
#ifndef SIROP_SIROP_EMBEDDED_H
#define SIROP_SIROP_EMBEDDED_H

#include "sirop.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Temperature at which water boils at a pressure (IAPWS-IF97). */
int32_t sirop_embedded_water_boils_celsius(double pressure_hpa, double* celsius);
int32_t sirop_embedded_water_boils_celsius_f(float pressure_hpa, float* celsius);

/* Pressure of the standard atmosphere (ISO 2533) at -500 to 9000 m. */
int32_t sirop_embedded_pressure_at_altitude_hpa(double altitude_metres, double* pressure_hpa);
int32_t sirop_embedded_pressure_at_altitude_hpa_f(float altitude_metres, float* pressure_hpa);

/* Grams of water that the mixture holds when it boils at that temperature; its own water does not count.
 * SIROP_E_IMPOSSIBLE where water itself does not boil yet, or if nothing in the mixture holds water. */
int32_t sirop_embedded_water_at_boil_grams(const double* grams, size_t components, double celsius,
                                           double pressure_hpa, double* water_grams);
int32_t sirop_embedded_water_at_boil_grams_f(const float* grams, size_t components, float celsius,
                                             float pressure_hpa, float* water_grams);

/* Temperature at which the mixture boils.  SIROP_E_IMPOSSIBLE without water, or above 250 C. */
int32_t sirop_embedded_boiling_point_celsius(const double* grams, size_t components, double pressure_hpa,
                                             double* celsius);
int32_t sirop_embedded_boiling_point_celsius_f(const float* grams, size_t components, float pressure_hpa,
                                               float* celsius);

/* Water activity of the mixture at a temperature, all its water being liquid.  SIROP_E_IMPOSSIBLE without water.
 */
int32_t sirop_embedded_water_activity(const double* grams, size_t components, double celsius, double* activity);
int32_t sirop_embedded_water_activity_f(const float* grams, size_t components, float celsius, float* activity);

/* Decimal logarithm of the viscosity, in Pa s, of the syrup phase (water and what is dissolved in it, all its
 * water being liquid); -30 to 170 C.  A logarithm, since a glass is beyond the range of a float.
 * SIROP_E_IMPOSSIBLE without a syrup phase. */
int32_t sirop_embedded_syrup_log10_viscosity_pa_s(const double* grams, size_t components, double celsius,
                                                  double* log10_pa_s);
int32_t sirop_embedded_syrup_log10_viscosity_pa_s_f(const float* grams, size_t components, float celsius,
                                                    float* log10_pa_s);

/* Glass transition of the syrup phase.  SIROP_E_IMPOSSIBLE without a syrup phase. */
int32_t sirop_embedded_glass_transition_celsius(const double* grams, size_t components, double* celsius);
int32_t sirop_embedded_glass_transition_celsius_f(const float* grams, size_t components, float* celsius);

/* Mass % of sucrose, 0 to 95, of a plain sucrose syrup at 20 C from its refractive index nD or its density.
 * SIROP_E_RANGE beyond. */
int32_t sirop_embedded_brix_from_refractive_index(double refractive_index, double* brix);
int32_t sirop_embedded_brix_from_refractive_index_f(float refractive_index, float* brix);
int32_t sirop_embedded_brix_from_density_kg_m3(double density_kg_m3, double* brix);
int32_t sirop_embedded_brix_from_density_kg_m3_f(float density_kg_m3, float* brix);

#ifdef __cplusplus
}
#endif

#endif
