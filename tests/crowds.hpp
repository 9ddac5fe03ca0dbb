// Two things that a test and the validation report compute alike from the library's own parts.
#pragma once

#include <cmath>

#include "mixtures.hpp"
#include "sirop/texture/consistency.hpp"

namespace sirop_test {

/// log10 of the viscosity, Pa s, of sucrose in equilibrium with air of a relative humidity (0 to 1), and its
/// interval: that of the viscosity and that of the water, in quadrature.
inline sirop::core::estimate log10_viscosity_in_air(double humidity, double celsius) {
    using namespace sirop::core;
    const mixture dry = made_of({{component::sucrose, 1.0}});
    const auto at = three_curves.map([&](curve side) {
        const double kelvin = celsius + sirop::formula::zero_celsius;
        return log10_viscosity(dry.with_water(water_held(dry, std::log(humidity), kelvin, side)), celsius);
    });
    const estimate e = at.value;
    const double drier = std::fmax(at.low.value, at.high.value), wetter = std::fmin(at.low.value, at.high.value);
    return between(e.value, e.value - std::hypot(e.value - e.low, e.value - wetter),
                   e.value + std::hypot(e.high - e.value, drier - e.value));
}

/// ln of the relative viscosity of crystals that fill a share of the volume of a syrup.
inline double crystals_ln(double share) {
    using namespace sirop::core;
    grade status = grade::fine;
    return detail::crowd_ln(share, detail::solids_crowding, detail::rigid_intrinsic, status);
}

}  // namespace sirop_test
