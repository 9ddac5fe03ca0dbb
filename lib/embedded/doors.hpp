// Checks of the arguments of sirop_embedded.h, on float or double, and the results written.
#pragma once

#include "sirop/base/limits.hpp"
#include "sirop/sirop_embedded.h"
#include "sirop/solution/properties.hpp"

static_assert(SIROP_COMPONENT_COUNT == sirop::core::component_count);

namespace sirop::lib::embedded {

using core::grade;
using core::mixture_of;
using core::precision;

/// What a number type is computed in.
template <class Real>
using scalar_of = std::conditional_t<std::is_same_v<Real, float>, core::single, Real>;

template <class Scalar>
struct answer {
    Scalar value{core::not_a_number};
    grade status = grade::not_computed;
};

template <class Scalar>
constexpr answer<Scalar> answer_of(const Scalar& value, grade status) {
    if (!(value > Scalar(-3.0e38) && value < Scalar(3.0e38))) return {};  // infinite or not a number
    return {value, status};
}

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
int32_t put(const answer<scalar_of<Real>>& found, Real* out) {
    *out = static_cast<Real>(found.value);
    return found.status == grade::fine           ? SIROP_OK
           : found.status == grade::extrapolated ? SIROP_EXTRAPOLATED
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
bool read_masses(const Real* grams, size_t components, mixture_of<scalar_of<Real>>& m) {
    if (components < 1 || components > core::component_count) return false;
    bool any = false;
    for (size_t i = 0; i < components; ++i) {
        if (!holds<core::grams_limit>(grams[i])) return false;
        m.grams[i] = grams[i];
        any = any || grams[i] > static_cast<Real>(0.0);
    }
    return any;
}

/// A number from a mixture, the other arguments being in range or not.
template <class Real, class Compute>
int32_t of_mixture(const Real* grams, size_t components, bool in_range, Real* out, const Compute& compute) {
    if (out == nullptr) return SIROP_E_NULL;
    if (grams == nullptr) return fail(SIROP_E_NULL, out);
    mixture_of<scalar_of<Real>> m;
    if (!read_masses(grams, components, m) || !in_range) return fail(SIROP_E_RANGE, out);
    return put(compute(m), out);
}

/// At least an elevation that can be told apart, below which it is water that boils.
template <class Scalar>
answer<Scalar> water_at_boil(const mixture_of<Scalar>& m, Scalar celsius, Scalar pressure_pa) {
    const Scalar elevation = celsius - core::water_boils_celsius(pressure_pa);
    if (!(elevation >= Scalar(precision<Scalar>::least_elevation_kelvin)) || !core::holds_water(m)) return {};
    const Scalar ln_aw = core::ln_activity_at_boil(celsius, pressure_pa);
    const Scalar kelvin = celsius + formula::zero_celsius;
    return answer_of(core::water_held(m, ln_aw, kelvin), core::isotherms_grade(m, ln_aw, kelvin));
}

template <class Scalar>
answer<Scalar> boiling_celsius(const mixture_of<Scalar>& m, Scalar pressure_pa) {
    if (!(m.water() > Scalar(0.0))) return {};
    const Scalar celsius = core::best_boiling_celsius(m, pressure_pa);
    if (!core::is_number(celsius)) return {};
    const Scalar ln_aw = core::ln_activity_at_boil(celsius, pressure_pa);
    return answer_of(celsius, ln_aw < Scalar(0.0)
                                  ? core::isotherms_grade(m, ln_aw, Scalar(celsius + formula::zero_celsius))
                                  : grade::fine);
}

template <class Scalar>
answer<Scalar> water_activity(const mixture_of<Scalar>& m, Scalar celsius) {
    using std::exp;
    if (!(m.water() > Scalar(0.0))) return {};
    const Scalar kelvin = celsius + formula::zero_celsius, ln_aw = core::best_ln_activity(m, kelvin);
    if (!core::is_number(ln_aw)) return {};
    return answer_of(Scalar(exp(ln_aw)),
                     ln_aw < Scalar(0.0) ? core::isotherms_grade(m, ln_aw, kelvin) : grade::fine);
}

inline constexpr core::limit viscosity_limit{"temperature_celsius", -30.0, 170.0, "°C"};

/// log10 of the viscosity of the syrup phase, all its water being liquid.  Fitted from 0 to 100 C, to 75 % solids.
template <class Scalar>
answer<Scalar> syrup_log10_viscosity(const mixture_of<Scalar>& m, Scalar celsius) {
    const bool fitted = celsius >= Scalar(0.0) && celsius <= Scalar(100.0) && !(m.syrup_solids() > Scalar(0.75));
    return answer_of(core::syrup_log10_viscosity(m, celsius, Scalar(0.0)),
                     fitted ? grade::fine : grade::extrapolated);
}

/// Mass % of plain sucrose at 20 C, 0 to 95, at which a rising function of the mass fraction takes a value.  The
/// refractive index is official to 85 %, the density fitted to about 80 %, good to 85; an argument off the scale
/// is out of range.
template <class Real, class Function>
int32_t brix_at(const Function& rising, Real given, Real* brix) {
    using Scalar = scalar_of<Real>;
    if (brix == nullptr) return SIROP_E_NULL;
    const Scalar value = given, last = 0.95, least = rising(Scalar(0.0)), most = rising(last),
                 slack = 4.0 * precision<Scalar>::rounding * most;
    if (!(value >= least - slack && value <= most + slack)) return fail(SIROP_E_RANGE, brix);
    const auto off = [&](Scalar w) -> Scalar { return rising(w) - value; };
    const Scalar share = value <= least  ? Scalar(0.0)
                         : value >= most ? last
                                         : core::solve_monotone(off, Scalar(0.5), Scalar(0.0), last);
    return put(answer_of(Scalar(100.0 * share), share <= Scalar(0.85) ? grade::fine : grade::extrapolated), brix);
}

}  // namespace sirop::lib::embedded
