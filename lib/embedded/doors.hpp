// Checks of the arguments of sirop_embedded.h, on float or double, and the results written.
#pragma once

#include "sirop/sirop_embedded.h"
#include "sirop/solution/embedded.hpp"

static_assert(SIROP_COMPONENT_COUNT == sirop::core::component_count);

namespace sirop::lib::embedded {

namespace model = core::embedded;
using model::scalar_of;

/// Inclusive; false for NaN.
template <const core::limit& range, class Real>
bool holds(Real x) {
    return x >= static_cast<Real>(range.low) && x <= static_cast<Real>(range.high);
}

template <class Real>
int32_t fail(int32_t status, Real* out) {
    *out = static_cast<Real>(core::not_a_number);
    return status;
}

template <class Real>
int32_t put(const model::answer<scalar_of<Real>>& found, Real* out) {
    *out = static_cast<Real>(found.value);
    return found.status == core::grade::fine           ? SIROP_OK
           : found.status == core::grade::extrapolated ? SIROP_EXTRAPOLATED
                                                       : SIROP_E_IMPOSSIBLE;
}

/// A number from a number within a range.
template <const core::limit& range, class Real, class Compute>
int32_t of_number(Real x, Real* out, const Compute& compute) {
    if (out == nullptr) return SIROP_E_NULL;
    if (!holds<range>(x)) return fail(SIROP_E_RANGE, out);
    *out = static_cast<Real>(compute(scalar_of<Real>(x)));
    return SIROP_OK;
}

template <class Real>
bool read_masses(const Real* grams, size_t components, model::masses_of<scalar_of<Real>>& m) {
    if (components < 1 || components > core::component_count) return false;
    bool any = false;
    for (size_t i = 0; i < components; ++i) {
        if (!holds<core::grams_limit>(grams[i])) return false;
        m[i] = grams[i];
        any = any || grams[i] > static_cast<Real>(0.0);
    }
    return any;
}

/// A number from a mixture, the other arguments being in range or not.
template <class Real, class Compute>
int32_t of_mixture(const Real* grams, size_t components, bool in_range, Real* out, const Compute& compute) {
    if (out == nullptr) return SIROP_E_NULL;
    if (grams == nullptr) return fail(SIROP_E_NULL, out);
    model::masses_of<scalar_of<Real>> m{};
    if (!read_masses(grams, components, m) || !in_range) return fail(SIROP_E_RANGE, out);
    return put(compute(m), out);
}

template <class Real>
int32_t water_boils_celsius(Real pressure_hpa, Real* celsius) {
    return of_number<core::pressure_limit>(pressure_hpa, celsius,
                                           [](auto p) { return model::water_boils_celsius(p); });
}

template <class Real>
int32_t pressure_at_altitude_hpa(Real altitude_metres, Real* pressure_hpa) {
    return of_number<core::altitude_limit>(altitude_metres, pressure_hpa,
                                           [](auto h) { return 0.01 * formula::standard_pressure(h); });
}

template <class Real>
int32_t water_at_boil_grams(const Real* grams, size_t components, Real celsius, Real pressure_hpa,
                            Real* water_grams) {
    const bool in_range = holds<core::pressure_limit>(pressure_hpa) && holds<core::temperature_limit>(celsius);
    return of_mixture(grams, components, in_range, water_grams, [&](const auto& m) {
        return model::water_at_boil(m, scalar_of<Real>(celsius), scalar_of<Real>(pressure_hpa));
    });
}

template <class Real>
int32_t boiling_point_celsius(const Real* grams, size_t components, Real pressure_hpa, Real* celsius) {
    return of_mixture(grams, components, holds<core::pressure_limit>(pressure_hpa), celsius,
                      [&](const auto& m) { return model::boiling_celsius(m, scalar_of<Real>(pressure_hpa)); });
}

template <class Real>
int32_t water_activity(const Real* grams, size_t components, Real celsius, Real* activity) {
    return of_mixture(grams, components, holds<core::temperature_limit>(celsius), activity,
                      [&](const auto& m) { return model::water_activity(m, scalar_of<Real>(celsius)); });
}

template <class Real>
int32_t syrup_log10_viscosity_pa_s(const Real* grams, size_t components, Real celsius, Real* log10_pa_s) {
    return of_mixture(grams, components, holds<model::viscosity_limit>(celsius), log10_pa_s,
                      [&](const auto& m) { return model::syrup_log10_viscosity(m, scalar_of<Real>(celsius)); });
}

template <class Real>
int32_t glass_transition_celsius(const Real* grams, size_t components, Real* celsius) {
    return of_mixture(grams, components, true, celsius, [](const auto& m) { return model::glass_celsius(m); });
}

/// A Brix that is not computed is an argument off the scale.
template <class Real>
int32_t put_brix(const model::answer<scalar_of<Real>>& found, Real* brix) {
    if (found.status == core::grade::not_computed) return fail(SIROP_E_RANGE, brix);
    return put(found, brix);
}

template <class Real>
int32_t brix_from_refractive_index(Real refractive_index, Real* brix) {
    if (brix == nullptr) return SIROP_E_NULL;
    return put_brix(model::brix_of_index(scalar_of<Real>(refractive_index)), brix);
}

template <class Real>
int32_t brix_from_density_kg_m3(Real density_kg_m3, Real* brix) {
    if (brix == nullptr) return SIROP_E_NULL;
    return put_brix(model::brix_of_density(scalar_of<Real>(density_kg_m3)), brix);
}

}  // namespace sirop::lib::embedded
