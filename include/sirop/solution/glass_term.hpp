// Water held below the glass transition of the whole mixture.
#pragma once

#include "composition.hpp"
#include "isotherm.hpp"

namespace sirop::core {

namespace detail {

/// The sums over a mixture that its glass transition depends on, without its water.
template <class Scalar>
struct glass_sums {
    Scalar weight{}, above_water{}, chains{};

    glass_sums() = default;
    explicit glass_sums(const mixture_of<Scalar>& m) {
        const auto& columns = columns_of<constant_of<Scalar>>;
        for (std::size_t i = 0; i < component_count; ++i) {
            if (columns[i].isotherm.kind == isotherm_kind::none || is_nothing(m.grams[i])) continue;
            const Scalar share = m.grams[i] / columns[i].glass_constant;
            weight += share;
            above_water += share * (columns[i].glass_celsius - columns[index_of(component::water)].glass_celsius);
            if (columns[i].isotherm.kind == isotherm_kind::chain) chains += m.grams[i];
        }
    }
    /// ln aw that the glass adds, with so many grams of water, at T in K.
    template <class X>
    X ln_activity(const X& water, const X& kelvin, curve side) const {
        using Number = constant_of<Scalar>;
        if (is_nothing(chains)) return X(0.0);
        const X all = water + number_in<X>(weight), warmer = number_in<X>(above_water) / all;
        // Known within half: the step of the heat capacity within a third, T - Tg within 12 to 20 K.
        const Number times = side == curve::low ? Number(0.5) : side == curve::high ? Number(1.5) : Number(1.0);
        const Number of_water =
            columns_of<Number>[index_of(component::water)].glass_celsius + formula::zero_celsius;
        return formula::glass_ln_activity(X(times * number_in<X>(chains) * warmer / all), X(warmer + of_water),
                                          kelvin);
    }
};

/// Water held in liquid and glass: that which the liquid holds at the activity from which the glass leads to
/// ln_aw. The glass adds the less, the more water there is, so ln aw rises with water throughout.
template <class Scalar, class Held>
Scalar held_through_glass(const glass_sums<Scalar>& glass, const Held& liquid, const Scalar& ln_aw,
                          const Scalar& kelvin, curve side, int& brackets) {
    using Number = constant_of<Scalar>;
    const Scalar as_liquid = liquid(ln_aw, kelvin, Number(0.0)).value;
    if (is_nothing(glass.ln_activity(as_liquid, kelvin, side))) return as_liquid;
    const auto off = [&](const auto& distance, const Number& error) {
        using X = std::decay_t<decltype(distance)>;
        const X t = number_in<X>(kelvin);
        const X added = glass.ln_activity(liquid(X(-distance), t, error).value, t, side), all = distance - added;
        return sloped<X, Number>{-near_log(X(all / -number_in<X>(ln_aw))), -value_of(distance) / value_of(all)};
    };
    const Number far = -value_of(ln_aw);
    const Scalar distance = falling_root<Scalar>(off, {Number(0.8 * far), Number(0.3)}, Number(6.0e-6 * far),
                                                 Number(1.0001 * far), brackets);
    return liquid(Scalar(-distance), kelvin, Number(0.0)).value;
}

}  // namespace detail

/// What the glass of the whole mixture adds to ln aw: `water` grams of its own or not, T in K.  The sugars' curves
/// were fitted through the glass and need nothing; the chains bring their share.
template <class Scalar>
Scalar glass_ln_activity(const mixture_of<Scalar>& m, const Scalar& water, const Scalar& kelvin,
                         curve side = curve::best) {
    return detail::glass_sums<Scalar>(m).ln_activity(water, kelvin, side);
}

}  // namespace sirop::core
