// How firm a batch is: the viscosity of its syrup phase thickened by what floats in it, the modulus of the gels
// and networks in it, the word for both together, how a layer slumps, where it pours.
//
// Everything falls as water or temperature rises, and is continuous.
#pragma once

#include <array>
#include <string_view>

#include "../data/set_words.hpp"
#include "../formula/texture.hpp"
#include "../solution/properties.hpp"

namespace sirop::core {

/// Seconds for which a spoon or a finger tries a batch (our choice).  A spring of modulus G resists in that time
/// like a liquid of viscosity G times it: firmness = viscosity + 5 s x modulus, in Pa s.
inline constexpr double trying_seconds = 5.0;

inline constexpr double pouring_pa_s = 10.0;      ///< firmness up to which a sauce pours from a jug (our choice)
inline constexpr double layer_metres = 0.01;      ///< height of the layer that is watched
inline constexpr double serving_seconds = 600.0;  ///< for which a cut edge has to hold (our choice)
inline constexpr double yield_strain = 0.1;       ///< yield stress over modulus (our estimate)

/// Whether a gel is on its way down in temperature or up: what sets on cooling melts hotter.
enum class history : unsigned char { cooling, warming };

namespace detail {

// The crowding at which suspended matter locks: our estimates, confidence low.
inline constexpr double solids_crowding = 0.64, fat_crowding = 0.78, rigid_intrinsic = 2.5,
                        liquid_drop_intrinsic = 1.0;

/// Share of a gel that has set at a temperature, by how it got there: 1 below, 0 above, linear between.
constexpr double set_share(const gel_setting& s, double celsius, history h) {
    const double low = h == history::cooling ? s.set_celsius : s.gel_celsius;
    const double high = h == history::cooling ? s.liquid_celsius : s.melted_celsius;
    return celsius <= low ? 1.0 : (celsius >= high ? 0.0 : (high - celsius) / (high - low));
}

/// ln of the relative viscosity of a crowd.  Past 95 % of the locking volume the law would reach its pole: it goes
/// on with its slope there, and is flagged.
template <class Scalar>
Scalar crowd_ln(const Scalar& phi, double phi_max, const Scalar& intrinsic, grade& status) {
    const double last = 0.95 * phi_max;
    if (phi <= last) return formula::krieger_dougherty_ln(phi, phi_max, intrinsic);
    status = worst(status, grade::extrapolated);
    return formula::krieger_dougherty_ln(Scalar(last), phi_max, intrinsic) +
           intrinsic / (1.0 - last / phi_max) * (phi - last);
}

/// Grams of solid fat, and of that the part which bridges from drop to drop.
template <class Scalar>
struct solid_fat {
    Scalar grams{}, bridging{};
};

template <class Scalar>
solid_fat<Scalar> solid_fat_of(const mixture_of<Scalar>& m, double celsius) {
    solid_fat<Scalar> solid;
    for (const auto& c : components) {
        if (c.solid_fat == nullptr) continue;
        const double share = c.solid_fat->at(celsius);
        solid.grams += m[c.id] * share;
        solid.bridging += m[c.id] * (share * c.bridging_share);
    }
    return solid;
}

/// log10 of the factor by which fat and suspended solids thicken the syrup.
template <class Scalar>
Scalar thickening_log10(const mixture_of<Scalar>& m, double celsius, grade& status) {
    const Scalar syrup = syrup_volume(m, celsius);
    const Scalar fat = volume_of(m, phase::fat, celsius);
    Scalar solids = crystal_volume(m) + ice_volume(m, celsius);
    for (const auto& c : components)
        if (c.where == phase::suspended)
            solids += m[c.id] * (c.swelling.cm3_per_gram + c.swelling.times_volume / c.density.at(celsius));
    const Scalar phi_solids = solids / (solids + syrup);
    const Scalar phi_fat = fat / (fat + solids + syrup);
    const Scalar grams_of_fat = m.fat();
    const Scalar solid_share =
        grams_of_fat > 0.0 ? Scalar(solid_fat_of(m, celsius).grams / grams_of_fat) : Scalar(0.0);
    const Scalar drop = liquid_drop_intrinsic + (rigid_intrinsic - liquid_drop_intrinsic) * solid_share;
    return (crowd_ln(phi_solids, solids_crowding, Scalar(rigid_intrinsic), status) +
            crowd_ln(phi_fat, fat_crowding, drop, status)) /
           std::log(10.0);
}

/// A modulus in Pa, and the least and most that its law leaves open.
template <class Scalar>
struct modulus_parts {
    Scalar value{}, low{}, high{};
    void add(const Scalar& pa, double factor, double least_share = 1.0, double most_share = 1.0) {
        value += pa;
        low += pa * (least_share / factor);
        high += pa * (most_share * factor);
    }
};

/// Gels of protein and starch soften as they warm: e-fold in 15 K from 20 C (our estimate: a caramel pours from
/// its pan).
inline double gel_softening(double celsius) {
    return std::exp(-(celsius - 20.0) / 15.0);
}

/// Volume share of fat from which it begins to be the continuous phase, and is: then all of it bridges (our
/// estimate; butter is at 0.85).
inline constexpr double fat_inverts_from = 0.5, fat_inverted_at = 0.75;

/// Volume of what forms a network, over that of the batch: crystals, ice, and the solid fat that bridges.
template <class Scalar>
Scalar network_share(const mixture_of<Scalar>& m, double celsius) {
    const Scalar all = volume(m, celsius);
    Scalar fat_network{};
    const Scalar grams_of_fat = m.fat();
    if (grams_of_fat > 0.0) {
        const auto solid = solid_fat_of(m, celsius);
        const Scalar share = volume_of(m, phase::fat, celsius) / all;
        const Scalar ramp = share <= fat_inverts_from ? Scalar(0.0)
                            : share >= fat_inverted_at
                                ? Scalar(1.0)
                                : Scalar((share - fat_inverts_from) / (fat_inverted_at - fat_inverts_from));
        fat_network = share * (solid.bridging + ramp * (solid.grams - solid.bridging)) / grams_of_fat;
    }
    return fat_network + (crystal_volume(m) + ice_volume(m, celsius)) / all;
}

template <class Scalar>
modulus_parts<Scalar> moduli(const mixture_of<Scalar>& m, double celsius, history h) {
    modulus_parts<Scalar> g;
    const Scalar water = m.water();
    for (const auto& c : components) {
        const Scalar agent = m[c.id] - m.raw(c.id);
        if (!(agent > 0.0) || c.gel.prefactor == 0.0) continue;
        const double share = c.gel.melts != nullptr ? set_share(*c.gel.melts, celsius, h) : 1.0;
        const double soft = c.gel.melts != nullptr ? share : gel_softening(celsius);
        if (share > 0.0)
            g.add(soft * formula::gel_modulus(Scalar(agent / (agent + water)), c.gel.prefactor, c.gel.power), 5.0,
                  share < 1.0 ? 0.0 : 1.0, 1.0 / share);
    }
    g.add(formula::network_modulus(network_share(m, celsius)), 10.0);
    return g;
}

/// Value of log10 of viscosity and of firmness, Pa s, on any scalar.
template <class Scalar>
Scalar log10_viscosity_value(const mixture_of<Scalar>& m, double celsius, grade& status) {
    return syrup_log10_viscosity(m, celsius) + thickening_log10(m, celsius, status);
}
template <class Scalar>
Scalar log10_firmness_value(const Scalar& viscous, const Scalar& modulus) {
    using std::exp;
    using std::log1p;
    const double ln10 = std::log(10.0);
    return viscous + log1p(trying_seconds * modulus * exp(-ln10 * viscous)) / ln10;
}
template <class Scalar>
Scalar log10_firmness_value(const mixture_of<Scalar>& m, double celsius, history h, grade& status) {
    return log10_firmness_value(log10_viscosity_value(m, celsius, status), moduli(m, celsius, h).value);
}

}  // namespace detail

/// log10 of the viscosity of the whole batch, Pa s, at a temperature in C; ice, if any, already in the mixture.
/// Interval, in quadrature: the syrup law, 9 % to 75 % solids, where it rests on data (of monosaccharides alone 19
/// % at 25 K from 20 C, where their data are out of line, and 31 % from 50 K on, where there are none), growing to
/// a factor of 3 at 90 %; the glass transition, of which +-5 K enter as that grows, and 12 K times the cube of the
/// share of chains, whose own is estimated (the law was fitted to one syrup of 68 % chains); half the thickening.
inline estimate log10_viscosity(const mixture& m, double celsius) {
    const double w = m.syrup_solids();
    if (!(m.water() > 0.0)) return {};
    grade status = w <= 0.75 ? grade::fine : grade::extrapolated;
    const double syrup = syrup_log10_viscosity(m, celsius);
    const double thick = detail::thickening_log10(m, celsius, status);
    using ramp = formula::broken_line<2>;
    const double off_20 = 0.04 * monosaccharide_share(m) * std::fmin(std::fabs(celsius - 20.0) / 25.0, 2.0);
    const double law = ramp{{{{0.75, 0.036 + off_20}, {0.90, 0.5}}}}.at(w);
    const double chains = chain_share(m);
    const double glass = std::fmax(glass_error_kelvin * ramp{{{{0.75, 0.0}, {0.85, 1.0}}}}.at(w),
                                   chain_glass_error_kelvin * chains * chains * chains);
    const double value = syrup + thick;
    const double up = syrup_log10_viscosity(m, celsius, glass) - syrup;
    const double down = syrup - syrup_log10_viscosity(m, celsius, -glass);
    return between(value, value - std::hypot(down, law, 0.5 * thick), value + std::hypot(up, law, 0.5 * thick),
                   status);
}

namespace detail {

inline estimate log10_firmness(const estimate& viscous, const modulus_parts<double>& g) {
    if (!viscous.computed()) return {};
    const double value = log10_firmness_value(viscous.value, g.value);
    // a gel that decides the answer flags it: its law is an estimate
    const bool gelled = value - viscous.value > 0.3;
    return between(value, log10_firmness_value(viscous.low, g.low), log10_firmness_value(viscous.high, g.high),
                   worst(viscous.status, gelled ? grade::extrapolated : grade::fine));
}

/// Slumping of a mixture of a density; `pa` is its modulus.
struct slump {
    double kg_per_m3, holds = formula::holding_stress(layer_metres, kg_per_m3);
    double seconds(double log10_viscosity, double pa) const {
        const double share = yield_strain * pa / holds;
        return share >= 1.0 ? HUGE_VAL
                            : formula::slump_seconds(std::pow(10.0, log10_viscosity), layer_metres, kg_per_m3) /
                                  (1.0 - share);
    }
    double standing_metres(double pa) const { return yield_strain * pa / (9.80665 * kg_per_m3); }
};
inline slump slump_of(const mixture& m, double celsius) {
    return {1000.0 * m.total() / volume(m, celsius)};
}
inline estimate gel_modulus(const modulus_parts<double>& g) {
    return between(g.value, g.low, g.high, g.value > 0.0 ? grade::extrapolated : grade::fine);
}
inline estimate slump_seconds(const slump& layer, const estimate& viscous, const modulus_parts<double>& g) {
    return {layer.seconds(viscous.value, g.value), 0.5 * layer.seconds(viscous.low, g.low),
            2.0 * layer.seconds(viscous.high, g.high),
            worst(viscous.status, g.value > 0.0 ? grade::extrapolated : grade::fine)};
}
inline estimate standing_metres(const slump& layer, const estimate& modulus) {
    return estimate_of(sides_of(modulus).map([&](double pa) { return layer.standing_metres(pa); }),
                       modulus.status);
}

}  // namespace detail

/// Modulus, Pa, of the gels (boiled milk protein and starch, agar, gelatin) and networks (solid fat, crystals,
/// ice) in the batch at a temperature in C; 0 without any.  The laws and their factors: formula/texture.hpp.
inline estimate gel_modulus(const mixture& m, double celsius, history h = history::cooling) {
    if (!(m.total() > 0.0)) return {};
    return detail::gel_modulus(detail::moduli(m, celsius, h));
}

/// log10 of the firmness, Pa s: viscosity + 5 s x modulus.  The word of the set and the stage are read from it.
inline estimate log10_firmness(const mixture& m, double celsius, history h = history::cooling) {
    return detail::log10_firmness(log10_viscosity(m, celsius), detail::moduli(m, celsius, h));
}

/// Seconds in which a layer 1 cm high and 4 cm wide slumps to half its height; infinite where its yield stress
/// holds it up.  Viscosity and yield stress as far apart as their intervals.
inline estimate slump_to_half_seconds(const mixture& m, double celsius) {
    const auto viscous = log10_viscosity(m, celsius);
    if (!viscous.computed()) return {};
    return detail::slump_seconds(detail::slump_of(m, celsius), viscous,
                                 detail::moduli(m, celsius, history::cooling));
}

/// Height, m, up to which a piece stands without any cold flow, because its yield stress carries its weight.
inline estimate standing_metres(const mixture& m, double celsius) {
    const auto g = gel_modulus(m, celsius);
    return g.computed() ? detail::standing_metres(detail::slump_of(m, celsius), g) : g;
}

namespace detail {

inline constexpr double coldest_pouring_celsius = -30.0, hottest_pouring_celsius = 170.0;

/// Where a firmness that falls with temperature comes down to pouring.
template <class Firmness>
double pouring_by(const Firmness& log10_firmness_at) {
    const double target = std::log10(pouring_pa_s);
    if (log10_firmness_at(coldest_pouring_celsius) <= target) return coldest_pouring_celsius;
    return solve_monotone([&](double t) { return log10_firmness_at(t) - target; }, 40.0, coldest_pouring_celsius,
                          hottest_pouring_celsius);
}

}  // namespace detail

/// The best value of pouring_celsius alone.
inline double best_pouring_celsius(const mixture& m) {
    if (!(m.water() > 0.0)) return not_a_number;
    grade ignored = grade::fine;
    return detail::pouring_by(
        [&](double t) { return detail::log10_firmness_value(m, t, history::warming, ignored); });
}

/// Temperature, C, above which the batch pours as it is warmed (firmness up to 10 Pa s): -30 if it pours at any,
/// NaN if at none to 170.  Ice is left out.
inline estimate pouring_celsius(const mixture& m) {
    if (!(m.water() > 0.0)) return {};
    const auto warm = [&](double t) { return log10_firmness(m, t, history::warming); };
    const sides<double> celsius{best_pouring_celsius(m), detail::pouring_by([&](double t) { return warm(t).low; }),
                                detail::pouring_by([&](double t) { return warm(t).high; })};
    return estimate_to_the_end(celsius, detail::hottest_pouring_celsius, warm(celsius.value).status);
}

}  // namespace sirop::core
