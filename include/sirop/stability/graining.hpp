// Graining: how far the sucrose and the lactose of a batch are beyond saturation, how much of them can
// crystallize, and how likely it is.
#pragma once

#include <array>
#include <string>

#include "../base/text.hpp"
#include "../solution/properties.hpp"

namespace sirop::core {

/// Which of the two sugars that grain.
struct graining_sugar {
    component id;
    std::string_view name;
    double first_celsius, last_celsius;  ///< of its solubility law, inclusive
    double low_limit, high_limit;        ///< supersaturation: below, seeds only grow; above, it grains by itself
    std::string_view limits_source;
};

inline constexpr graining_sugar graining_sucrose{component::sucrose,
                                                 "sucrose",
                                                 0.0,
                                                 100.0,
                                                 1.2,
                                                 1.3,
                                                 "metastable zone 1.2 to 1.3, recalled, confidence medium"};
inline constexpr graining_sugar graining_lactose{
    component::lactose, "lactose", 0.0, 89.0, 1.6, 2.1, "metastable zone 1.6 to 2.1, recalled, confidence medium"};

namespace detail {

/// ln of the activity of sucrose in water, up to a constant, at a mole fraction x of sucrose: by Gibbs and Duhem
/// from Starzak & Peacock 1997, ln gamma_w = A (x^2 + a x^3 + b x^4), in closed form.  Beyond 97 % solids, where
/// that is continued as a power law of the water, from the power law.
inline double sucrose_ln_activity(double x, double kelvin) {
    constexpr double q = -17638.0, a = -1.0038, b = -0.24653;
    const double big_a = q / (formula::gas_constant * kelvin);
    const double last = sucrose_last_fraction;
    const double in = std::fmin(x, last);
    const double within =
        std::log(in) - big_a * in * (2.0 + in * (1.5 * a - 1.0 + in * (4.0 / 3.0 * b - a - in * b)));
    if (x <= last) return within;
    // d ln a_s = -(moles of water per mole) d ln a_w
    return within + formula::starzak_peacock_slope(last, kelvin) * (1.0 / last - 1.0 / x);
}

inline double solubility_of(const graining_sugar& sugar, double celsius) {
    return sugar.id == component::sucrose ? formula::sucrose_solubility(celsius)
                                          : formula::lactose_solubility(celsius);
}

/// Grams of a sugar that dissolve in all of a mixture's water, as if it were alone in it, at a temperature in C.
inline double grams_dissolving_alone(const mixture& m, const graining_sugar& sugar, double celsius) {
    const double s = solubility_of(sugar, celsius);
    return m.water() * s / (1.0 - s);
}

/// Of its grams: less dissolved sugar than this counts as this, so that supersaturation stays a number, 1e6 at
/// most.
inline constexpr double least_dissolved_share = 1.0e-6;

/// What the other solutes of a mixture are to the saturation of a sugar, at a temperature in C.  Solutions of the
/// same water activity mix ideally (the additive-water rule), so the sugar's activity is that of its own solution
/// at the mixture's water activity times its share of the solute molecules; at equilibrium with crystals it is
/// that of its own saturated solution.
struct beside_others {
    double kelvin, molecules = 0.0, saturated_fraction, saturated;

    beside_others(const mixture& m, const graining_sugar& sugar, double celsius)
        : kelvin(celsius + formula::zero_celsius) {
        for (const auto& c : components)
            if (c.where == phase::dissolved && c.id != sugar.id) molecules += m[c.id] / c.particle_molar_mass;
        const double s = solubility_of(sugar, celsius);
        saturated_fraction = mole_fraction((1.0 - s) / s, molar_ratio(sucrose_molar_mass));
        saturated = sucrose_ln_activity(saturated_fraction, kelvin);
    }
    /// ln of the sugar's activity, alone in so much water per gram.
    double ln_activity_alone(double water_per_gram) const {
        return sucrose_ln_activity(mole_fraction(water_per_gram, molar_ratio(sucrose_molar_mass)), kelvin);
    }
    /// ln of its activity over that at saturation, of so many grams where one holds so much water.
    double ln_beyond(double grams, double water_per_gram) const {
        const double moles = grams / sucrose_molar_mass;
        if (!(moles > 0.0)) return -100.0;
        return std::log(moles / (moles + molecules)) + ln_activity_alone(water_per_gram) - saturated;
    }
};

/// Grams of a sugar that stay dissolved beside the other solutes in a mixture's water, at a temperature in C.
/// Solved in the water activity: there the sugar's grams are explicit, what the other solutes leave of the water
/// over what one gram holds.  Where they leave next to nothing (or no root is found), the water activity is
/// theirs, and the sugar's share of the molecules tells its grams.
inline double grams_in_equilibrium(const mixture& m, const graining_sugar& sugar, double celsius) {
    const beside_others law(m, sugar, celsius);
    mixture others = m;
    others[sugar.id] = 0.0;
    struct state {
        double water_per_gram, water_left, grams;
    };
    const auto at = [&](double u) -> state {
        const double ln_aw = -std::exp(u), h = sucrose_water(ln_aw, law.kelvin);
        const double left = m.water() - water_held(others, ln_aw, law.kelvin);
        return {h, left, left / h};
    };
    const auto at_least = [&](double grams) { return std::fmax(grams, least_dissolved_share * m[sugar.id]); };
    if (!(law.molecules > 0.0))
        return at_least(
            at(std::log(-formula::starzak_peacock_ln_activity(law.saturated_fraction, law.kelvin))).grams);
    constexpr double driest = 3.0;
    const double ln_aw_without = best_ln_activity(others, law.kelvin);
    const double without = std::isnan(ln_aw_without) ? driest : std::log(-std::fmin(ln_aw_without, -1.0e-10));
    const double root = solve_monotone(
        [&](double u) {
            const state there = at(u);
            return law.ln_beyond(there.grams, there.water_per_gram);
        },
        std::fmax(without + 0.1, -1.0), without, driest);
    const state found = at(std::isnan(root) ? without : root);
    if (!std::isnan(root) && found.water_left > 1.0e-4 * m.water()) return at_least(found.grams);
    const double share = std::exp(law.saturated - law.ln_activity_alone(found.water_per_gram));
    return at_least(sucrose_molar_mass * law.molecules * share / (1.0 - share));
}

}  // namespace detail

struct saturation {
    estimate supersaturation;       ///< grams per gram of water over that at equilibrium with crystals
    estimate crystallizable_grams;  ///< what crystallizes until equilibrium
};

/// The value of saturation_of alone, at a temperature within the solubility law: for lactose the simple rule, for
/// sucrose that of the activities.
inline double supersaturation_value(const mixture& m, const graining_sugar& sugar, double celsius) {
    const double grams = m[sugar.id];
    if (!(grams > 0.0)) return 0.0;
    return grams / (sugar.id == component::sucrose ? detail::grams_in_equilibrium(m, sugar, celsius)
                                                   : detail::grams_dissolving_alone(m, sugar, celsius));
}

/// Whether a mixture's sugar is at most so many times saturated, by its value: of sucrose, whether so many times
/// less of it would stay dissolved, which takes one water activity.
inline bool is_within(const mixture& m, const graining_sugar& sugar, double celsius, double supersaturation) {
    const double grams = m[sugar.id] / supersaturation;
    if (sugar.id == component::sucrose && grams > 0.0) {
        const detail::beside_others law(m, sugar, celsius);
        mixture less = m;
        less[sugar.id] = grams;
        const double ln_aw = best_ln_activity(less, law.kelvin);
        if (!(ln_aw < 0.0)) return ln_aw == 0.0;
        const double h = detail::sucrose_water(ln_aw, law.kelvin);
        if (grams * h > 1.0e-4 * m.water()) return law.ln_beyond(grams, h) <= 0.0;
    }
    return supersaturation_value(m, sugar, celsius) <= supersaturation;
}

/// How far a dissolved sugar is beyond saturation at a temperature in C (outside the solubility law: not
/// computed). Two rules, which the interval holds: the sugar alone in all the water (other sugars left out), and
/// the activity of the additive-water model, by which other sugars lower the solubility, as they do.  The second
/// is the value of sucrose, the first that of lactose.
inline saturation saturation_of(const mixture& m, const graining_sugar& sugar, double celsius) {
    if (!(celsius >= sugar.first_celsius && celsius <= sugar.last_celsius) || !(m.water() > 0.0)) return {};
    const double grams = m[sugar.id];
    if (!(grams > 0.0)) return {exactly(0.0), exactly(0.0)};
    const double alone = detail::grams_dissolving_alone(m, sugar, celsius);
    const double beside = detail::grams_in_equilibrium(m, sugar, celsius);
    const double trusted = sugar.id == component::sucrose ? beside : alone;
    const auto beyond = [&](double dissolves) { return std::fmax(0.0, grams - dissolves); };
    const grade status = m.syrup_solids() > 0.97 ? grade::extrapolated : grade::fine;
    return {between(grams / trusted, grams / alone, grams / beside, status),
            between(beyond(trusted), beyond(alone), beyond(beside), status)};
}

enum class graining_risk : unsigned char { none, low, moderate, high };
inline constexpr std::array<std::string_view, 4> graining_risk_names = {"none", "low", "moderate", "high"};

struct graining {
    double celsius = not_a_number;  ///< where it was judged
    saturation sucrose, lactose;
    estimate crystallizable_percent;  ///< of the dissolved sucrose and lactose
    double hindering_percent = 0.0;   ///< the other sugars, of themselves and the sucrose
    graining_risk sucrose_risk = graining_risk::none, lactose_risk = graining_risk::none;
    graining_risk risk = graining_risk::none;
    std::string reason;
};

/// Share of the sugars that hinder the graining of sucrose: all that is dissolved but lactose and salts, over
/// itself and the sucrose.
inline double hindering_share(const mixture& m) {
    const double others = m.dissolved() - m[component::salt] - m[component::minerals] - m[component::sucrose] -
                          m[component::lactose];
    return others > 0.0 ? others / (others + m[component::sucrose]) : 0.0;
}

/// Trade rule: at least as much glucose-syrup solids as sugar (common practice, no source); our estimate: a third
/// is half way.
inline constexpr double hindering_enough = 0.5, hindering_some = 0.33;

namespace detail {

/// The risk of a sugar so many times over its saturation.
inline graining_risk risk_of(const graining_sugar& sugar, double beyond, bool glass, double hindering) {
    if (!(beyond > 1.0)) return graining_risk::none;
    if (glass || beyond <= sugar.low_limit) return graining_risk::low;
    if (beyond <= sugar.high_limit)
        return hindering >= hindering_some ? graining_risk::low : graining_risk::moderate;
    if (sugar.id == component::lactose) return graining_risk::moderate;  // sandy in time, not at once
    return hindering >= hindering_enough ? graining_risk::low
           : hindering >= hindering_some ? graining_risk::moderate
                                         : graining_risk::high;
}

/// Where the risk at a temperature in C is judged.
inline double judged_celsius(double celsius) {
    return std::fmin(std::fmax(celsius, 0.0), graining_lactose.last_celsius);
}

}  // namespace detail

/// Whether the risk by graining_of is at most low, found with the least that tells it.
inline bool hardly_grains(const mixture& m, double celsius) {
    if (!(m.water() > 0.0) || glass_celsius(m) > celsius) return true;
    const double hindering = hindering_share(m);
    const auto hardly = [&](const graining_sugar& sugar) {
        const auto low_at = [&](double beyond) {
            return detail::risk_of(sugar, beyond, false, hindering) <= graining_risk::low;
        };
        return low_at(HUGE_VAL) || is_within(m, sugar, detail::judged_celsius(celsius),
                                             low_at(sugar.high_limit) ? sugar.high_limit : sugar.low_limit);
    };
    return hardly(graining_lactose) && hardly(graining_sucrose);
}

/// How likely a batch is to grain at a temperature in C.  Grades: none (not beyond saturation), low (beyond it,
/// but within the metastable zone, or in a glass, or well hindered), moderate, high.  Below 0 C judged at 0 C,
/// above a solubility law's end at its end.
inline graining graining_of(const mixture& m, double celsius) {
    graining g;
    g.celsius = detail::judged_celsius(celsius);
    g.sucrose = saturation_of(m, graining_sucrose, g.celsius);
    g.lactose = saturation_of(m, graining_lactose, g.celsius);
    const double hindering = hindering_share(m);
    g.hindering_percent = 100.0 * hindering;
    const double sugar = m[component::sucrose] + m[component::lactose];
    const auto percent_of = [&](double a, double b) { return sugar > 0.0 ? 100.0 * (a + b) / sugar : 0.0; };
    const auto &s = g.sucrose.crystallizable_grams, &l = g.lactose.crystallizable_grams;
    g.crystallizable_percent = between(percent_of(s.value, l.value), percent_of(s.low, l.low),
                                       percent_of(s.high, l.high), worst(s.status, l.status));
    const bool glass = glass_celsius(m) > celsius;
    g.sucrose_risk = detail::risk_of(graining_sucrose, g.sucrose.supersaturation.value, glass, hindering);
    g.lactose_risk = detail::risk_of(graining_lactose, g.lactose.supersaturation.value, glass, hindering);
    g.risk = std::max(g.sucrose_risk, g.lactose_risk);
    const bool by_lactose = g.lactose_risk > g.sucrose_risk;
    const auto& worse = by_lactose ? g.lactose : g.sucrose;
    const std::string name(by_lactose ? "lactose" : "sucrose");
    if (g.risk == graining_risk::none) {
        g.reason = "its water keeps sucrose and lactose in solution";
        return g;
    }
    g.reason = "it holds " +
               (worse.supersaturation.value < 20.0 ? fixed(worse.supersaturation.value, 1)
                                                   : std::string("far more than 20")) +
               " times the " + name + " that can stay dissolved" +
               (g.celsius != celsius ? " (judged at " + fixed(g.celsius, 0) + " °C)" : std::string());
    if (glass)
        g.reason += ", but it is a glass, in which nothing grows while it stays dry and cool";
    else if (!by_lactose && worse.supersaturation.value <= graining_sucrose.high_limit)
        g.reason += ", within the metastable zone: it needs a seed";
    else if (!by_lactose && hindering >= hindering_enough)
        g.reason += "; the other sugars, " + fixed(g.hindering_percent, 0) +
                    " % beside the sucrose, hinder crystals (trade rule: at least half)";
    else if (!by_lactose)
        g.reason += ", and other sugars are only " + fixed(g.hindering_percent, 0) +
                    " % beside the sucrose (trade rule: at least half)";
    else
        g.reason += ": it may turn sandy in storage";
    return g;
}

/// The mixture when it has grained: at equilibrium with its crystals at a temperature in C.  The syrup that is
/// left is thinner, the crystals crowd it.
inline mixture grained(const mixture& m, double celsius) {
    mixture out = m;
    const double t = detail::judged_celsius(celsius);
    // Each sugar moves the other's saturation, so they settle in turns; what has crystallized may dissolve again.
    const auto settle = [&](const graining_sugar& which) {
        double& crystals = out.crystals(which.id);
        const double dissolved = out[which.id];
        const auto s = saturation_of(out, which, t).supersaturation;
        if (!s.computed() || !(s.value > 0.0)) return 0.0;
        const double all = dissolved + crystals;
        out[which.id] = std::fmin(all, dissolved / s.value);
        crystals = all - out[which.id];
        return std::fabs(out[which.id] - dissolved);
    };
    for (int turn = 0; turn < 50; ++turn) {
        const double moved = settle(graining_sucrose) + settle(graining_lactose);
        if (moved <= 1.0e-9 * m.total()) break;
    }
    return out;
}

}  // namespace sirop::core
