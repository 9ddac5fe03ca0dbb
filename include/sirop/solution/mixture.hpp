// What follows from a composition by the additive-water rule: water at the boil, boiling point, water activity,
// freezing point.
#pragma once

#include "held.hpp"

namespace sirop::core {

inline constexpr double min_freezing_celsius = -30.0;

// --- boiling
// ------------------------------------------------------------------------------------------------------

/// Temperature, C, at which water boils at a pressure in Pa.
template <class Scalar>
Scalar water_boils_celsius(const Scalar& pressure_pa) {
    const Scalar kelvin = formula::saturation_temperature(pressure_pa);
    if constexpr (!std::is_same_v<Scalar, single>) return kelvin - formula::zero_celsius;
    // The last step of that equation cancels in float (0.2 mK): one step of Newton's rule on the pressure.
    const Scalar excess = formula::saturation_pressure(kelvin) - pressure_pa;
    return (kelvin - formula::zero_celsius) - excess / formula::saturation_slope(kelvin);
}

namespace detail {

/// ln aw of what boils so much above water, which boils at `base` C under that pressure: ln(P/psat).  Where the
/// logarithm would cancel, the slope of ln psat is integrated over the elevation: Gauss and Legendre with 5 points
/// for each 75 K (error below 1e-11; to 2 K, exact to rounding).
template <class Scalar>
Scalar ln_activity_of_elevation(const Scalar& base, const Scalar& elevation, const Scalar& pressure_pa) {
    using std::log;
    const Scalar kelvin = base + formula::zero_celsius;
    if (elevation > Scalar(precision<Scalar>::logarithm_from_kelvin))
        return log(pressure_pa / formula::saturation_pressure(Scalar(kelvin + elevation)));
    constexpr std::array<constant_of<Scalar>, 5> node = {-0.9061798459386640, -0.5384693101056831, 0.0,
                                                         0.5384693101056831, 0.9061798459386640};
    constexpr std::array<constant_of<Scalar>, 5> weight = {
        0.2369268850561891, 0.4786286704993665, 0.5688888888888889, 0.4786286704993665, 0.2369268850561891};
    const int panels = elevation > Scalar(150.0) ? 3 : elevation > Scalar(75.0) ? 2 : 1;
    const Scalar half = elevation * constant_of<Scalar>(0.5) / constant_of<Scalar>(static_cast<float>(panels));
    Scalar sum{}, middle = half;
    for (int panel = 0; panel < panels; ++panel, middle += 2.0 * half)
        for (std::size_t i = 0; i < node.size(); ++i) {
            const Scalar t = kelvin + (middle + half * node[i]);
            sum += weight[i] * formula::saturation_slope(t) / formula::saturation_pressure(t);
        }
    return -half * sum;
}

}  // namespace detail

/// ln aw of whatever boils at a temperature in C under a pressure in Pa: ln(P/psat(T)).
template <class Scalar>
Scalar ln_activity_at_boil(const Scalar& celsius, const Scalar& pressure_pa) {
    const Scalar base = water_boils_celsius(pressure_pa);
    return detail::ln_activity_of_elevation(base, Scalar(celsius - base), pressure_pa);
}

/// Grams of water that the mixture holds when it boils at a temperature and a pressure.
/// Not computed at or below the boiling point of water, above max_model_celsius, or if nothing holds water.
inline estimate water_at_boil(const mixture& m, double celsius, double pressure_pa) {
    const double ln_aw = ln_activity_at_boil(celsius, pressure_pa);
    if (!(ln_aw < 0.0) || !(celsius <= max_model_celsius) || !holds_water(m)) return {};
    return water_held_estimate(m, ln_aw, celsius + formula::zero_celsius);
}

/// Its best value alone; NaN where it is not computed.
inline double best_water_at_boil(const mixture& m, double celsius, double pressure_pa) {
    const double ln_aw = ln_activity_at_boil(celsius, pressure_pa);
    if (!(ln_aw < 0.0) || !(celsius <= max_model_celsius) || !holds_water(m)) return not_a_number;
    return water_held(m, ln_aw, celsius + formula::zero_celsius);
}

// --- the inverses: one solve each, by what is held(ln aw, T in K) ---
//
// If there is more water than the solids hold at an activity that cannot be told from 1, it is free, and the
// mixture boils, freezes and evaporates like water.

namespace detail {

// What is asked of a mixture with its water is a distance from pure water: `at` gives the state there, `near` the
// distance at about which ln aw lies, `answer` what is wanted.
template <class X>
struct water_state {
    X ln_aw, kelvin;
    constant_of<X> slope = 1.0;  ///< of ln(-ln aw) by the logarithm of the distance, nearly
};

/// Boiling under a pressure: the elevation in K; wanted in C.
template <class Scalar>
struct boiling_search {
    using Number = constant_of<Scalar>;
    static constexpr double clapeyron_kelvin = 4900.0;  ///< heat of evaporation of water over R, about
    Scalar pressure_pa, base = water_boils_celsius(pressure_pa);

    template <class X>
    water_state<X> at(const X& elevation) const {
        const X from = number_in<X>(base);
        const X ln_aw = ln_activity_of_elevation(from, elevation, number_in<X>(pressure_pa));
        const X kelvin = from + elevation + formula::zero_celsius;
        const Number k = value_of(kelvin);
        return {ln_aw, kelvin, -clapeyron_kelvin * value_of(elevation) / (k * k * value_of(ln_aw))};
    }
    Number near(const Number& ln_aw) const {
        const Number k = kelvin(), share = -ln_aw * k / clapeyron_kelvin;
        return smaller(Number(k * share / larger(Number(1.0 - share), Number(0.3))), Number(0.5 * most()));
    }
    Number kelvin() const { return value_of(base) + formula::zero_celsius; }
    Scalar answer(const Scalar& elevation) const { return base + elevation; }
    static constexpr Number least() { return Number(precision<Number>::least_elevation_kelvin); }
    Number most() const { return Number(max_model_celsius) - value_of(base); }
};

/// Evaporating at a temperature: -ln aw; wanted is ln aw.
template <class Scalar>
struct activity_search {
    using Number = constant_of<Scalar>;
    Scalar at_kelvin;

    template <class X>
    water_state<X> at(const X& distance) const {
        return {-distance, number_in<X>(at_kelvin)};
    }
    static Number near(const Number& ln_aw) { return smaller(Number(-ln_aw), Number(5.0)); }
    Number kelvin() const { return value_of(at_kelvin); }
    static Scalar answer(const Scalar& distance) { return 0.0 - distance; }
    static constexpr Number least() { return Number(precision<Number>::least_distance); }
    static constexpr Number most() { return Number(20.0); }
};

/// Freezing: the depression in K; wanted in C.
struct freezing_search {
    static water_state<double> at(double depression) {
        const double kelvin = formula::zero_celsius - depression;
        return {formula::ice_ln_activity(kelvin), kelvin};
    }
    static double near(double ln_aw) { return std::fmin(-103.0 * ln_aw, 25.0); }  // of an ideal dilute solution
    static constexpr double kelvin() { return formula::zero_celsius - 5.0; }
    static double answer(double depression) { return 0.0 - depression; }
    static constexpr double least() { return 1.5e-8; }
    static constexpr double most() { return -min_freezing_celsius; }
};

/// The distance at which what is held, in liquid and glass, equals the water: 0 if the water is free, NaN if even
/// the far end holds more.  The water being known, the glass adds a known ln aw.
template <class Scalar, class Search, class Held>
Scalar balance(const Search& search, const glass_sums<Scalar>& glass, const Held& liquid, const Scalar& water,
               curve side, const beginning<constant_of<Scalar>>& from, int& brackets) {
    using Number = constant_of<Scalar>;
    const auto off = [&](const auto& distance, const Number& error) {
        using X = std::decay_t<decltype(distance)>;
        const auto state = search.at(distance);
        const X grams = number_in<X>(water),
                ln_liquid = state.ln_aw - glass.ln_activity(grams, state.kelvin, side);
        if (!(ln_liquid < X(0.0)))
            return sloped<X, Number>{X(100.0 + ln_liquid), Number(-1.0)};  // the glass alone does more
        const auto there = liquid(ln_liquid, state.kelvin, error);
        return sloped<X, Number>{near_log(X(there.value / grams)),
                                 there.slope * state.slope * value_of(state.ln_aw) / value_of(ln_liquid)};
    };
    return falling_root<Scalar>(off, from, search.least(), search.most(), brackets);
}

template <class Number, class Search, class Solids>
beginning<Number> begin(const Search& search, Solids& solids, const Number& water) {
    const Number kelvin = search.kelvin(), ln_liquid = solids.begin(water, kelvin);
    return {search.near(Number(ln_liquid + solids.glass.ln_activity(water, kelvin, curve::best))), Number(0.1)};
}

/// By the best curves.
template <class Scalar, class Search>
Scalar answer_of(const mixture_of<Scalar>& m, const Search& search) {
    solids_of<Scalar> solids(m);
    const auto from = begin(search, solids, value_of(m.water()));
    return search.answer(balance(
        search, solids.glass, [&](const auto&... at) { return solids.held(at...); }, m.water(), curve::best, from,
        solids.brackets));
}

struct graded_sides {
    sides<double> answers;
    grade status = grade::fine;
};
/// By the curves of each side, which begin at the best answer; with the grade of the best.
template <class Search>
graded_sides answers_of(solids_on_edges& solids, double water, const Search& search,
                        const sides<curve>& on = three_curves) {
    graded_sides found;
    auto from = begin(search, solids, water);
    found.answers = on.map([&](curve side) {
        const auto liquid = [&](double ln_aw, double kelvin, double error) {
            return solids.held_on(side, ln_aw, kelvin, error);
        };
        const double distance = balance(search, solids.glass, liquid, water, side, from, solids.brackets);
        if (side == curve::best && distance > 0.0) {
            const auto state = search.at(distance);
            found.status = solids.status(state.ln_aw, state.kelvin);
            from = {distance, 0.1};
        }
        return search.answer(distance);
    });
    return found;
}
template <class Search>
double answer_of(const mixture& m, const Search& search, curve side) {
    solids_on_edges solids(m);
    return answers_of(solids, m.water(), search, {side, side, side}).answers.value;
}

}  // namespace detail

/// Best boiling point, C, under a pressure in Pa, of a mixture with water; NaN above max_model_celsius.
template <class Scalar>
Scalar best_boiling_celsius(const mixture_of<Scalar>& m, const Scalar& pressure_pa) {
    return detail::answer_of(m, detail::boiling_search<Scalar>{pressure_pa});
}
/// The same along a curve.
inline double boiling_celsius(const mixture& m, double pressure_pa, curve side) {
    return detail::answer_of(m, detail::boiling_search<double>{pressure_pa}, side);
}

/// Best ln aw at T in K of a mixture with water, all of it liquid; 0 with free water.
template <class Scalar>
Scalar best_ln_activity(const mixture_of<Scalar>& m, const Scalar& kelvin) {
    return detail::answer_of(m, detail::activity_search<Scalar>{kelvin});
}
/// The same along a curve.
inline double ln_activity(const mixture& m, double kelvin, curve side) {
    return detail::answer_of(m, detail::activity_search<double>{kelvin}, side);
}

/// Boiling point, C, under a pressure in Pa.  Not computed without water, or for a mixture that would boil above
/// max_model_celsius.
inline estimate boiling_celsius(const mixture& m, double pressure_pa) {
    if (!(m.water() > 0.0)) return {};
    detail::solids_on_edges solids(m);
    const auto celsius = detail::answers_of(solids, m.water(), detail::boiling_search<double>{pressure_pa});
    return estimate_to_the_end(celsius.answers, max_model_celsius, celsius.status);
}

/// Water activity at a temperature in C, all the water being liquid.  Not computed without water.
inline estimate water_activity(const mixture& m, double celsius) {
    if (!(m.water() > 0.0)) return {};
    detail::solids_on_edges solids(m);
    const auto ln_aw =
        detail::answers_of(solids, m.water(), detail::activity_search<double>{celsius + formula::zero_celsius});
    return estimate_of(ln_aw.answers.map([](double ln) { return std::exp(ln); }), ln_aw.status);
}

/// Temperature, C, at which ice begins to form; not computed without water or below min_freezing_celsius.
inline estimate freezing_celsius(const mixture& m) {
    if (!(m.water() > 0.0)) return {};
    detail::solids_on_edges solids(m);
    const auto celsius = detail::answers_of(solids, m.water(), detail::freezing_search{});
    return estimate_to_the_end(celsius.answers, min_freezing_celsius, celsius.status);
}

/// The mixture at a temperature: below its freezing point part of the water is ice, and the rest is what the
/// solids hold at the activity of ice.
template <class Scalar>
mixture_of<Scalar> at_temperature(const mixture_of<Scalar>& m, double celsius) {
    if (!(celsius < 0.0)) return m;
    const Scalar kelvin = celsius + formula::zero_celsius;
    const Scalar held = water_held(m, Scalar(formula::ice_ln_activity(kelvin)), kelvin);
    if (!(held < m.water())) return m;  // no ice, or too near 0 C to tell
    mixture_of<Scalar> frozen = m.with_water(held);
    frozen.ice += m.water() - held;
    return frozen;
}

}  // namespace sirop::core
