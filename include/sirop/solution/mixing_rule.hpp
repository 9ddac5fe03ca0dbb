// What the additive-water rule itself may err by in a mixture.
#pragma once

#include <array>
#include <cmath>

#include "composition.hpp"
#include "isotherm.hpp"

namespace sirop::core {

/// Relative error of ln aw at given water by the additive rule, on the side of less water and on that of more, per
/// 1 - aw and unit of mixedness (0.5 for two in equal parts): our estimate.
inline constexpr double mixing_rule_dry_error = 0.20, mixing_rule_wet_error = 0.10;

namespace detail {

/// How mixed the dissolved solids are, by mass: 0 for one kind of curve, 0.5 for equal parts of two.
inline double mixedness(const mixture& m) {
    std::array<double, 8> of_kind{};
    double all = 0.0, squares = 0.0;
    for (std::size_t i = 0; i < component_count; ++i)
        if (components[i].where == phase::dissolved)
            of_kind[static_cast<std::size_t>(components[i].isotherm.kind)] += m.grams[i];
    for (const double grams : of_kind) {
        all += grams;
        squares += grams * grams;
    }
    return all > 0.0 ? 1.0 - squares / (all * all) : 0.0;
}

inline double beside_mixing_rule(double mixed, double ln_aw, curve side) {
    if (side != curve::low && side != curve::high) return ln_aw;
    const double error = side == curve::low ? mixing_rule_dry_error : -mixing_rule_wet_error;
    return ln_aw * (1.0 - error * mixed * std::expm1(ln_aw));
}

}  // namespace detail

/// ln aw by which a mixture must be asked for its edge on a side, to hold what the additive rule may err by:
/// nothing for one curve or in dilute solution, most for equal parts of several kinds of curve, by mass of the
/// dissolved solids.  docs/theory.md argues its size.
inline double beside_mixing_rule(const mixture& m, double ln_aw, curve side) {
    return detail::beside_mixing_rule(detail::mixedness(m), ln_aw, side);
}

}  // namespace sirop::core
