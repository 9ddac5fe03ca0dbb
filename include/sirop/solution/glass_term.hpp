// Water held below the glass transition of the whole mixture.
#pragma once

#include <cmath>

#include "composition.hpp"
#include "isotherm.hpp"

namespace sirop::core {

/// What the glass of the whole mixture adds to ln aw: `water` grams of its own or not, T in K.  The sugars' curves
/// were fitted through the glass and need nothing; the chains bring their share.
template <class Scalar>
Scalar glass_ln_activity(const mixture_of<Scalar>& m, const Scalar& water, const Scalar& kelvin,
                         curve side = curve::best) {
    Scalar weight = water, sum{}, chains{};
    const auto& columns = columns_of<constant_of<Scalar>>;
    const auto& of_water = columns[index_of(component::water)];
    for (std::size_t i = 0; i < component_count; ++i) {
        if (columns[i].isotherm.kind == isotherm_kind::none || is_nothing(m.grams[i])) continue;
        const Scalar share = m.grams[i] / columns[i].glass_constant;
        weight += share;
        sum += share * (columns[i].glass_celsius - of_water.glass_celsius);
        if (columns[i].isotherm.kind == isotherm_kind::chain) chains += m.grams[i];
    }
    if (is_nothing(chains)) return Scalar(0.0);
    const Scalar above_water = sum / weight;
    // Known within half: the step of the heat capacity within a third, T - Tg within 12 to 20 K.
    if (side != curve::best && side != curve::second) chains *= side == curve::low ? 0.5 : 1.5;
    return formula::glass_ln_activity(Scalar(chains * above_water / weight),
                                      Scalar(above_water + (of_water.glass_celsius + formula::zero_celsius)),
                                      kelvin);
}

namespace detail {

/// Water held in liquid and glass: that which the liquid holds at the activity from which the glass leads to
/// ln_aw. The glass adds the less, the more water there is, so ln aw rises with water throughout.
template <class Scalar, class Liquid>
Scalar held_through_glass(const mixture_of<Scalar>& m, const Liquid& liquid, const Scalar& ln_aw,
                          const Scalar& kelvin, curve side = curve::best) {
    using std::exp;
    using std::log;
    const Scalar as_liquid = liquid(ln_aw);
    if (is_nothing(glass_ln_activity(m, as_liquid, kelvin, side))) return as_liquid;
    const Scalar target = log(-ln_aw);
    const auto off = [&](Scalar u) -> Scalar {
        const Scalar ln_liquid = -exp(u);
        return log(-(ln_liquid + glass_ln_activity(m, Scalar(liquid(ln_liquid)), kelvin, side))) - target;
    };
    return liquid(Scalar(-exp(solve_monotone(off, Scalar(target - 0.2), Scalar(target - 12.0), target))));
}

}  // namespace detail

}  // namespace sirop::core
