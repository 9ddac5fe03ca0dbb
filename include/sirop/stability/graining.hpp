// Graining: how far each sugar of a batch, and its salt, is beyond saturation, how much of it can crystallize,
// which grains first, and how likely that is.
#pragma once

#include <array>
#include <optional>
#include <string>

#include "../base/text.hpp"
#include "../data/grainers.hpp"
#include "../solution/properties.hpp"

namespace sirop::core {

namespace detail {

/// A component's own solution beside its crystals at one temperature, by Gibbs and Duhem from its isotherm h(aw)
/// alone: d ln a = -(moles of water per mole) d ln aw, and a crystal with n moles of water in a mole is in
/// equilibrium where ln a + n ln aw is that of the saturated solution.  Moles are those of particles.
class own_solution {
  public:
    own_solution(const grainer& g, double celsius) : c_(data_of(g.id)), kelvin_(celsius + formula::zero_celsius) {
        const double s = saturated_share(g.law, celsius);
        saturated_water_ = (1.0 - s) / s;
        if (g.law == solubility_law::glucose) {  // either crystal, whichever is the less soluble beside the others
            const double hydrate = formula::glucose_monohydrate_solubility(celsius);
            const double dry = formula::anhydrous_glucose_solubility(celsius);
            crystals_[0] = {1.0, log_dryness((1.0 - hydrate) / hydrate)};
            crystals_[1] = {0.0, log_dryness((1.0 - dry) / dry)};
            forms_ = 2;
        } else {
            const bool hydrate = g.law == solubility_law::lactose || g.law == solubility_law::maltose;
            crystals_[0] = {hydrate ? 1.0 : 0.0, log_dryness(saturated_water_)};
        }
        start_ = crystals_[0].from;
        if (forms_ == 2) start_ = std::fmin(start_, crystals_[1].from);
        for (std::size_t i = 0; i < forms_; ++i) {
            form& f = crystals_[i];
            if (f.water > 0.0) f.flat = log_dryness(f.water / molar_ratio(c_.particle_molar_mass));
            f.offset = integral(f.from, f);
        }
    }

    /// ln(-ln aw) of the saturated solution, by its least soluble crystals.
    double start() const { return start_; }
    /// Grams of water in that for each gram.
    double saturated_water() const { return saturated_water_; }
    double held(double log_dryness) const { return water_held(c_, -std::exp(log_dryness), kelvin_); }

    /// ln of the activity above that beside crystals, in the own solution at ln(-ln aw); 0 at the start, never
    /// falls. So dry that it holds less than its hydrate would, the crystals change, and it is taken as flat.
    double beyond(double log_dryness) const {
        double most = 0.0;
        for (std::size_t i = 0; i < forms_; ++i)
            most = std::fmax(most, integral(log_dryness, crystals_[i]) - crystals_[i].offset);
        return most;
    }

  private:
    struct form {
        double water = 0.0, from = 0.0, offset = 0.0;
        double flat = HUGE_VAL;  ///< from there on the solution is drier than the crystal
    };

    double log_dryness(double water) const {
        mixture alone;
        alone[c_.id] = 1.0;
        return std::log(-best_ln_activity(alone.with_water(water), kelvin_));
    }

    /// The moles of water, less those of the crystal, over -d ln aw from the start on: in ln(-ln aw), where the
    /// integrand is nearly the osmotic coefficient, and flat; Gauss and Legendre with 5 points for each 1.5.
    /// Sucrose and its like past 97 % solids, where h is a power law, in closed form.
    double integral(double to, const form& crystal) const {
        constexpr std::array<double, 5> node = {-0.9061798459386640, -0.5384693101056831, 0.0, 0.5384693101056831,
                                                0.9061798459386640};
        constexpr std::array<double, 5> weight = {0.2369268850561891, 0.4786286704993665, 0.5688888888888889,
                                                  0.4786286704993665, 0.2369268850561891};
        const double ratio = molar_ratio(c_.particle_molar_mass);
        const double end = std::fmin(to, crystal.flat);
        double sum = 0.0, smooth = end;
        if (c_.isotherm.kind == isotherm_kind::sucrose) {
            smooth = std::fmin(end, std::log(-sucrose_last_ln_activity(kelvin_)));
            if (smooth < end) {
                const double power = formula::starzak_peacock_slope(sucrose_last_fraction, kelvin_);
                sum = ratio * power * (sucrose_last_water - held(end)) -
                      crystal.water * (std::exp(end) - std::exp(smooth));
            }
        }
        for (double from = start_; from < smooth; from += 1.5) {
            const double half = 0.5 * std::fmin(1.5, smooth - from);
            for (std::size_t i = 0; i < node.size(); ++i) {
                const double v = from + half * (1.0 + node[i]);
                sum += half * weight[i] * (held(v) * ratio - crystal.water) * std::exp(v);
            }
        }
        return sum;
    }

    const component_data& c_;
    double kelvin_, saturated_water_ = 0.0, start_ = 0.0;
    std::array<form, 2> crystals_{};
    std::size_t forms_ = 1;
};

/// Of its grams: less dissolved sugar than this counts as this, so that supersaturation stays a number, 1e6 at
/// most.
inline constexpr double least_dissolved_share = 1.0e-6;

/// A component beside the other solutes of a mixture, at a temperature in C.  Solutions of the same water activity
/// mix ideally (the additive-water rule), so its activity is that of its own solution at the mixture's water
/// activity times its share of the dissolved particles.  With crystals that share is exp(-beyond), so the water
/// that a mixture with crystals holds falls as it gets drier, from all to none: one falling equation.
class beside_others {
  public:
    beside_others(const mixture& m, const grainer& g, double celsius)
        : water_(m.water()),
          kelvin_(celsius + formula::zero_celsius),
          own_(g, celsius),
          others_(m),
          particle_(data_of(g.id).particle_molar_mass),
          grams_(m[g.id]) {
        others_[g.id] = 0.0;
        for (const auto& c : components)
            if (c.where == phase::dissolved) particles_ += others_[c.id] / c.particle_molar_mass;
    }

    /// Grams that stay dissolved in the mixture's water.
    double dissolving() const {
        const auto at_least = [&](double grams) { return std::fmax(grams, least_dissolved_share * grams_); };
        const auto alone = [&] {
            return at_least((water_ - water_held_by_liquid(others_, -std::exp(own_.start()), kelvin_)) /
                            own_.saturated_water());
        };
        if (!(particles_ > 0.0)) return alone();
        const double least = std::log(1.0e-12), most = std::log(driest - own_.start());
        const auto dry_at = [&](double u) { return own_.start() + std::exp(u); };
        const auto off = [&](double u) {
            const double v = dry_at(u);
            return std::log(water_held_by_liquid(others_, -std::exp(v), kelvin_) + own_.held(v) * grams_at(v)) -
                   std::log(water_);
        };
        const double root = solve_monotone(off, -0.7, least, most);
        if (!std::isnan(root)) return at_least(grams_at(dry_at(root)));
        return off(least) < 0.0 ? alone() : at_least(grams_at(driest));
    }

    /// Whether at least so many grams stay dissolved: the one equation, evaluated once.
    bool dissolves(double grams) const {
        if (!(particles_ > 0.0)) return dissolving() >= grams;
        const double beyond = std::log1p(particles_ * particle_ / grams);
        const auto off = [&](double u) { return std::log(own_.beyond(own_.start() + std::exp(u)) / beyond); };
        const double u =
            solve_monotone(off, std::log(0.6 * beyond), std::log(1.0e-12), std::log(driest - own_.start()));
        if (std::isnan(u)) return dissolving() >= grams;
        const double v = own_.start() + std::exp(u);
        return water_held_by_liquid(others_, -std::exp(v), kelvin_) + own_.held(v) * grams <= water_;
    }

  private:
    static constexpr double driest = 3.0;  ///< ln(-ln aw): an activity of 2e-9

    double grams_at(double v) const { return particle_ * particles_ / std::expm1(own_.beyond(v)); }

    double water_, kelvin_;
    own_solution own_;
    mixture others_;
    double particle_, grams_, particles_ = 0.0;
};

}  // namespace detail

/// How far a component is beyond saturation.
struct saturation {
    estimate supersaturation;       ///< grams per gram of water over that at equilibrium with crystals
    estimate crystallizable_grams;  ///< what crystallizes until equilibrium
};

/// The value of saturation_of alone, at a temperature within the solubility law.
inline double supersaturation_value(const mixture& m, const grainer& g, double celsius) {
    const double grams = m[g.id];
    return grams > 0.0 ? grams / detail::beside_others(m, g, celsius).dissolving() : 0.0;
}

/// How far a dissolved component is beyond saturation at a temperature in C (outside its solubility law, or of
/// what cannot grain: not computed).  The value is by the activity of the additive-water model, by which the other
/// solutes lower the solubility, as they do; the interval reaches to the component alone in all the water. Flagged
/// beyond 97 % solids and outside the measurements beneath the law.
inline saturation saturation_of(const mixture& m, component id, double celsius) {
    const grainer* g = grainer_of(id);
    if (g == nullptr || !(celsius >= g->first_celsius && celsius <= g->last_celsius) || !(m.water() > 0.0))
        return {};
    const double grams = m[id];
    if (!(grams > 0.0)) return {exactly(0.0), exactly(0.0)};
    const double s = saturated_share(g->law, celsius);
    const double alone = m.water() * s / (1.0 - s);
    const double beside = detail::beside_others(m, *g, celsius).dissolving();
    const auto beyond = [&](double dissolves) { return std::fmax(0.0, grams - dissolves); };
    const bool measured = m.syrup_solids() <= 0.97 && celsius >= g->data_from && celsius <= g->data_to;
    const grade status = measured ? grade::fine : grade::extrapolated;
    return {between(grams / beside, grams / alone, grams / beside, status),
            between(beyond(beside), beyond(alone), beyond(beside), status)};
}

enum class graining_risk : unsigned char { none, low, moderate, high };
inline constexpr std::array<std::string_view, 4> graining_risk_names = {"none", "low", "moderate", "high"};

/// One of the grainers in a mixture.
struct grainer_answer {
    component id{};
    estimate supersaturation, crystallizable_grams;
    double hindering_percent = 0.0;
    graining_risk risk = graining_risk::none;
};

struct graining {
    double celsius = not_a_number;  ///< where it was judged
    std::array<grainer_answer, grainers.size()> each;
    estimate crystallizable_percent;  ///< of the dissolved sucrose and lactose
    double hindering_percent = 0.0;   ///< of sucrose
    graining_risk risk = graining_risk::none;
    std::optional<component> first;  ///< what grains first; nothing where nothing is beyond saturation
    std::string reason;

    /// Of a component that can grain.
    const grainer_answer& operator[](component id) const {
        std::size_t i = 0;
        while (i + 1 < each.size() && each[i].id != id) ++i;
        return each[i];
    }
};

/// Share of the sugars that hinder the graining of a component.  Sucrose and lactose: small molecules and large
/// ones; the small sugars: sucrose and large ones.  Of themselves and what does not hinder it; lactose and salts
/// do not count for the others.
inline double hindering_share(const mixture& m, const grainer& g) {
    double hindering = 0.0, rest = 0.0;
    for (const auto& c : components) {
        const auto how = hindrance_of(c);
        if (c.id != g.id && (how & g.hindered_by) != 0)
            hindering += m[c.id];
        else if (c.id == g.id || how != hinders_not)
            rest += m[c.id];
    }
    return hindering > 0.0 ? hindering / (hindering + rest) : 0.0;
}
inline double hindering_share(const mixture& m) {
    return hindering_share(m, *grainer_of(component::sucrose));
}

/// Trade rule: at least as much glucose-syrup solids as sugar (common practice, no source); our estimate: a third
/// is half way.
inline constexpr double hindering_enough = 0.5, hindering_some = 0.33;

/// Where a grainer is judged: within its law, and not below 0 C.
inline double judged_celsius(const grainer& g, double celsius) {
    return std::fmin(std::fmax(celsius, g.first_celsius), g.last_celsius);
}

/// The supersaturation up to which a grainer is at most at low risk; infinite where it is at any.
inline double low_risk_limit(const grainer& g, double hindering) {
    if (hindering >= (g.at_once ? hindering_enough : hindering_some)) return HUGE_VAL;
    return hindering >= hindering_some ? g.high_limit : g.low_limit;
}

/// The risk of a grainer so many times over its saturation.
inline graining_risk risk_of(const grainer& g, double supersaturation, bool glass, double hindering) {
    if (!(supersaturation > 1.0)) return graining_risk::none;
    if (glass || supersaturation <= low_risk_limit(g, hindering)) return graining_risk::low;
    const bool soon = g.at_once && supersaturation > g.high_limit && hindering < hindering_some;
    return soon ? graining_risk::high : graining_risk::moderate;
}

/// Whether the risk by graining_of is at most low, found with the least that tells it.
inline bool hardly_grains(const mixture& m, double celsius) {
    if (!(m.water() > 0.0) || glass_celsius(m) > celsius) return true;
    for (const auto& g : grainers) {
        const double grams = m[g.id];
        if (!(grams > 0.0)) continue;
        const double most = low_risk_limit(g, hindering_share(m, g)), t = judged_celsius(g, celsius);
        if (std::isfinite(most) && !detail::beside_others(m, g, t).dissolves(grams / most)) return false;
    }
    return true;
}

namespace detail {

/// Why a batch is at its risk, of what grains first.
inline std::string graining_reason(const graining& g, double celsius, bool glass) {
    if (!g.first) return "its water keeps all of its sugar in solution";
    const grainer& row = *grainer_of(*g.first);
    const grainer_answer& worst_of = g[*g.first];
    const double beyond = worst_of.supersaturation.value, judged = judged_celsius(row, celsius);
    const std::string name(data_of(*g.first).name);
    std::string text = beyond < 1.05
                           ? "it is just saturated with " + name
                           : "it holds " + (beyond < 20.0 ? fixed(beyond, 1) : std::string("far more than 20")) +
                                 " times the " + name + " that can stay dissolved";
    if (judged != celsius) text += " (judged at " + fixed(judged, 0) + " °C)";
    const bool much = worst_of.hindering_percent >= 100.0 * hindering_enough;
    const std::string others = "the other sugars, " + fixed(worst_of.hindering_percent, 0) + " %";
    if (glass) return text + ", but it is a glass, in which no crystals grow while it stays dry and cool";
    if (beyond <= row.high_limit && worst_of.risk == graining_risk::low)
        return text + ", within the metastable zone: it grains only if crystals get in";
    if (worst_of.risk == graining_risk::low && row.at_once)
        return text + "; " + others + " beside it, hinder crystals (trade rule: at least half)";
    if (worst_of.risk == graining_risk::low) return text + "; " + others + " beside it, hinder crystals";
    if (row.at_once && row.hindered_by != hinders_not)
        return text + (beyond <= row.high_limit ? ", within the metastable zone" : "") +
               ", and other sugars are " + (much ? "" : "only ") + fixed(worst_of.hindering_percent, 0) +
               " % beside it (trade rule: at least half)";
    if (row.law == solubility_law::lactose) return text + ": it may turn sandy in storage";
    return text + ": it may set to crystals in storage";
}

}  // namespace detail

/// How likely a batch is to grain at a temperature in C.  Grades: none (not beyond saturation), low (beyond it,
/// but within the metastable zone, or in a glass, or well hindered), moderate, high.  Below 0 C judged at 0 C,
/// above a solubility law's end at its end.
inline graining graining_of(const mixture& m, double celsius) {
    graining g;
    g.celsius = judged_celsius(*grainer_of(component::lactose), celsius);
    const bool glass = glass_celsius(m) > celsius;
    double nearest = 0.0;  // of what is beyond saturation: by how much, over its limit
    for (std::size_t i = 0; i < grainers.size(); ++i) {
        const auto& row = grainers[i];
        auto& a = g.each[i];
        const double hindering = hindering_share(m, row);
        const auto s = saturation_of(m, row.id, judged_celsius(row, celsius));
        a = {row.id, s.supersaturation, s.crystallizable_grams, 100.0 * hindering,
             risk_of(row, s.supersaturation.value, glass, hindering)};
        const double ratio = s.supersaturation.value / row.low_limit;
        if (a.risk == graining_risk::none || a.risk < g.risk || (a.risk == g.risk && ratio <= nearest)) continue;
        g.risk = a.risk;
        g.first = row.id;
        nearest = ratio;
    }
    g.hindering_percent = g[component::sucrose].hindering_percent;
    const double sugar = m[component::sucrose] + m[component::lactose];
    const auto percent_of = [&](double a, double b) { return sugar > 0.0 ? 100.0 * (a + b) / sugar : 0.0; };
    const auto &s = g[component::sucrose].crystallizable_grams, &l = g[component::lactose].crystallizable_grams;
    g.crystallizable_percent = between(percent_of(s.value, l.value), percent_of(s.low, l.low),
                                       percent_of(s.high, l.high), worst(s.status, l.status));
    g.reason = detail::graining_reason(g, celsius, glass);
    return g;
}

/// The mixture when its sucrose and lactose have grained: at equilibrium with their crystals at a temperature in
/// C. The syrup that is left is thinner, the crystals crowd it.  The water of lactose's crystals stays in the
/// syrup.
inline mixture grained(const mixture& m, double celsius) {
    mixture out = m;
    // Each sugar moves the other's saturation, so they settle in turns; what has crystallized may dissolve again.
    const auto settle = [&](component id) {
        const grainer& g = *grainer_of(id);
        double& crystals = out.crystals(id);
        const double dissolved = out[id], all = dissolved + crystals;
        if (!(dissolved > 0.0) || !(out.water() > 0.0)) return 0.0;
        const double times =
            supersaturation_value(out, g, judged_celsius(*grainer_of(component::lactose), celsius));
        out[id] = std::fmin(all, dissolved / times);
        crystals = all - out[id];
        return std::fabs(out[id] - dissolved);
    };
    for (int turn = 0; turn < 50; ++turn)
        if (settle(component::sucrose) + settle(component::lactose) <= 1.0e-9 * m.total()) break;
    return out;
}

}  // namespace sirop::core
