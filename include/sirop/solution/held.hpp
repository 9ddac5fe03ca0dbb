// The water that the solids of a mixture hold at an activity and a temperature: the sum of what each component
// holds (the additive-water rule), on the best curves and on the edges of their uncertainty, in liquid and glass.
#pragma once

#include <array>
#include <cmath>

#include "../base/sides.hpp"
#include "composition.hpp"
#include "glass_term.hpp"
#include "isotherm.hpp"
#include "mixing_rule.hpp"

namespace sirop::core {

inline constexpr sides<curve> three_curves{curve::best, curve::low, curve::high};

/// Grams of water that each component of the mixture, as a liquid, holds at ln aw < 0 and T in K.
template <class Scalar>
std::array<Scalar, component_count> water_by_component(const mixture_of<Scalar>& m, const Scalar& ln_aw,
                                                       const Scalar& kelvin) {
    std::array<Scalar, component_count> held{};
    std::array<Scalar, 3> shared{};  // of each kind that is one curve, once it is known
    static_assert(static_cast<int>(isotherm_kind::sucrose) < 3 &&
                  static_cast<int>(isotherm_kind::monosaccharide) < 3);
    for (std::size_t i = 0; i < component_count; ++i) {
        const auto& c = columns_of<constant_of<Scalar>>[i].isotherm;
        if (m.grams[i] < Scalar(0.0) || is_nothing(m.grams[i]) || c.kind == isotherm_kind::none) continue;
        if (!one_curve(c)) {
            held[i] = m.grams[i] * water_held(c, ln_aw, kelvin);
            continue;
        }
        Scalar& h = shared[static_cast<std::size_t>(c.kind)];
        if (is_nothing(h)) h = water_held(c, ln_aw, kelvin);
        held[i] = m.grams[i] * h;
    }
    return held;
}

/// The same of the whole mixture, by the best model or along a curve.
template <class Scalar>
Scalar water_held_by_liquid(const mixture_of<Scalar>& m, const Scalar& ln_aw, const Scalar& kelvin) {
    Scalar total{};
    for (const Scalar& g : water_by_component(m, ln_aw, kelvin)) total += g;
    return total;
}
inline double water_held_by_liquid(const mixture& m, double ln_aw, double kelvin, curve side) {
    if (side == curve::best) return water_held_by_liquid(m, ln_aw, kelvin);
    const double by_rule = beside_mixing_rule(m, ln_aw, side);
    double total = 0.0;
    for (const auto& c : components)
        if (m[c.id] > 0.0) total += m[c.id] * water_held(c, by_rule, kelvin, side);
    return total;
}

/// Grams of water that the mixture's solids hold at ln aw < 0 and T in K; its own water does not enter.
template <class Scalar>
Scalar water_held(const mixture_of<Scalar>& m, const Scalar& ln_aw, const Scalar& kelvin) {
    return detail::held_through_glass(
        m, [&](const Scalar& ln) -> Scalar { return water_held_by_liquid(m, ln, kelvin); }, ln_aw, kelvin);
}
/// The same along a curve.
inline double water_held(const mixture& m, double ln_aw, double kelvin, curve side) {
    return detail::held_through_glass(
        m, [&](double ln) { return water_held_by_liquid(m, ln, kelvin, side); }, ln_aw, kelvin, side);
}

template <class Scalar>
bool holds_water(const mixture_of<Scalar>& m) {
    for (std::size_t i = 0; i < component_count; ++i)
        if (m.grams[i] > Scalar(0.0) && columns_of<constant_of<Scalar>>[i].isotherm.kind != isotherm_kind::none)
            return true;
    return false;
}

/// Whether the isotherms that hold at least one part in a hundred of the mixture's water are used in their ranges.
template <class Scalar>
grade isotherms_grade(const mixture_of<Scalar>& m, const Scalar& ln_aw, const Scalar& kelvin) {
    const auto held = water_by_component(m, ln_aw, kelvin);
    Scalar all{};
    for (const Scalar& g : held) all += g;
    bool fitted = kelvin <= Scalar(170.0 + formula::zero_celsius);
    for (std::size_t i = 0; i < component_count; ++i)
        if (held[i] > Scalar(0.0) && held[i] >= 0.01 * all)
            fitted = fitted && is_fitted(columns_of<constant_of<Scalar>>[i].isotherm, ln_aw, kelvin);
    return fitted ? grade::fine : grade::extrapolated;
}

}  // namespace sirop::core
