// The pan over time: it warms, boils down, inverts, browns and coasts.  Mass and energy are followed through every
// step; with no time, acid or loss the end is that of the plain prediction.
#pragma once

#include <array>
#include <cmath>

#include "../base/runge_kutta.hpp"
#include "../formula/browning.hpp"
#include "../formula/inversion.hpp"
#include "../formula/open_pan.hpp"
#include "../solution/properties.hpp"
#include "hob.hpp"

namespace sirop::core {

/// A pan at a moment, and what it has gone through so far.
struct pan_state {
    double seconds = 0.0, celsius = 20.0;
    mixture contents;
    double hob_joule = 0.0;       ///< on its way from the flame to the food
    double browning = 0.0;        ///< index of formula/browning.hpp
    double inverted_grams = 0.0;  ///< of sucrose
    double steam_grams = 0.0;
    double heat_joule = 0.0, steam_joule = 0.0, lost_joule = 0.0;  ///< from the flame; with the steam; to the air
    bool boils = false;
};

/// What a cook does for a while.
struct heating {
    double share = 1.0;                 ///< of the hob's power; 0 off
    double to_celsius = not_a_number;   ///< ends on reaching it, from below or from above
    double for_seconds = not_a_number;  ///< ends after so long, at the latest
    double ph = 6.5;                    ///< of what is in the pan
    double largest_step = 1.0;          ///< 0.3 K and 4 % of the water, times this
};

/// Viscosity at which a still syrup gives off half of what open water of its activity would, Pa s: it no longer
/// stirs itself, and skins over (our estimate).
inline constexpr double skinning_pa_s = 0.3;

/// The most that one heating may last, s: a pan that has not reached its temperature by then does not.
inline constexpr double longest_heating_seconds = 24.0 * 3600.0;

namespace detail {

/// The pan in motion: the slopes of temperature, water, inverted sucrose, browning and heats.
class pan_in_motion {
  public:
    enum at : std::size_t { temperature, water, inverted, browning, hob, heat, steam, lost, count };
    using state = std::array<double, count>;

    pan_in_motion(const pan_state& from, const stove& on, const heating& how, double pressure_pa)
        : start_(from.contents),
          stove_(on),
          how_(how),
          pressure_(pressure_pa),
          water_boils_(water_boils_celsius(pressure_pa)),
          solids_(start_.dissolved()),
          reactive_(start_[component::sucrose] + start_[component::glucose] + 5.0 * start_[component::fructose]),
          reducing_(0.0) {
        for (const auto& c : components)
            if (c.small_sugar || c.id == component::lactose || c.id == component::maltose)
                reducing_ += start_[c.id];
    }

    mixture contents(const state& y) const {
        mixture m = start_;
        m[component::water] = y[water];
        m[component::sucrose] -= y[inverted];
        m[component::glucose] += formula::inversion_hexose * y[inverted];
        m[component::fructose] += formula::inversion_hexose * y[inverted];
        return m;
    }

    /// Boiling point of the contents, C.
    double boiling(const mixture& m) const {
        const double t = best_boiling_celsius(m, pressure_);
        return std::isfinite(t) ? t : max_model_celsius;
    }

    /// Slopes by the second; at the boil the temperature is the boiling point, whatever the state says.
    state slope(const state& y, bool at_boil) const {
        const mixture m = contents(y);
        const double t = at_boil ? boiling(m) : y[temperature];
        const double kelvin = t + formula::zero_celsius;
        state d{};
        const double flow = y[hob] / stove_.lag_seconds;
        d[hob] = stove_.joules_per_second(how_.share) - flow;
        d[heat] = stove_.joules_per_second(how_.share);
        const double area = stove_.opening_square_metres + (how_.share > 0.0 ? 0.0 : stove_.wall_square_metres);
        d[lost] = area * formula::dry_surface_loss(t - stove_.room_celsius);

        const double volume = m.dissolved() > 0.0 ? syrup_volume(m, std::fmin(t, 150.0)) : m.water();
        const double sucrose = m[component::sucrose];
        if (sucrose > 0.0 && m.water() > 0.0)
            d[inverted] = sucrose * formula::inversion_rate(kelvin, how_.ph, m.water() / volume);
        if (solids_ > 0.0) {
            const double total = m.total();
            const double by_ph = formula::browning_by_ph(how_.ph);
            d[browning] = by_ph * (formula::caramel_browning_rate(kelvin, reactive_now(y) / solids_) +
                                   formula::milk_browning_rate(kelvin, m[component::protein] / total,
                                                               reducing_now(y) / total));
        }

        // Heats in J/g: of liquid water, of what inverts, of steam.
        const double of_water = 1.0e-3 * formula::specific_enthalpy(t, formula::heat_water);
        const double latent = 1.0e-3 * formula::latent_heat(kelvin);
        const double of_steam = of_water + latent;
        const double of_inverted =
            formula::inversion_water * 1.0e-3 * formula::specific_enthalpy(t, formula::heat_dissolved_sugar);
        const double capacity =
            1000.0 * sum_by_heat_law(m, [&](const auto& law) { return formula::specific_heat(t, law); }) +
            stove_.pan_joule_per_kelvin;
        const double supplied = flow - d[lost];
        double evaporated;
        if (at_boil) {
            const auto [by_water, by_inverted] = boiling_slopes(m, t);
            d[water] = -(supplied + d[inverted] * (formula::inversion_water * of_steam - of_inverted -
                                                   capacity * by_inverted)) /
                       (latent - capacity * by_water);
            d[temperature] = by_water * d[water] + by_inverted * d[inverted];
            evaporated = -d[water] - formula::inversion_water * d[inverted];
        } else {
            evaporated = surface_grams(m, t, latent);
            d[water] = -evaporated - formula::inversion_water * d[inverted];
            d[temperature] = (supplied - evaporated * latent +
                              d[inverted] * (formula::inversion_water * of_water - of_inverted)) /
                             capacity;
        }
        d[steam] = evaporated * of_steam;
        return d;
    }

    /// Grams a second that leave the open surface below the boil.
    double surface_grams(const mixture& m, double celsius, double latent_joule) const {
        if (!(m.water() > 0.0)) return 0.0;
        const double kelvin = celsius + formula::zero_celsius;
        const double over = std::exp(best_ln_activity(m, kelvin)) * formula::saturation_pressure(kelvin);
        const double thick = m.dissolved() > 0.0 ? std::pow(10.0, syrup_log10_viscosity(m, celsius)) : 0.0;
        return std::fmax(0.0, stove_.opening_square_metres / (1.0 + thick / skinning_pa_s) *
                                  formula::evaporation_loss(std::fmin(over, pressure_), stove_.room_vapour_pa) /
                                  latent_joule);
    }

    /// Whether at its boiling point it gives off more than the surface alone does.
    bool boils_on(const state& y) const {
        const state d = slope(y, true);
        const mixture m = contents(y);
        const double t = boiling(m);
        const double latent = 1.0e-3 * formula::latent_heat(t + formula::zero_celsius);
        const double evaporated = -d[water] - formula::inversion_water * d[inverted];
        return m.water() > 0.0 && evaporated >= surface_grams(m, t, latent);
    }

  private:
    double reactive_now(const state& y) const {
        return reactive_ + y[inverted] * (6.0 * formula::inversion_hexose - 1.0);
    }
    double reducing_now(const state& y) const { return reducing_ + 2.0 * formula::inversion_hexose * y[inverted]; }

    struct slopes {
        double by_water, by_inverted;
    };
    /// Slope of the boiling point, K/g, by the water and by the sucrose inverted; 0 where water is free.
    slopes boiling_slopes(const mixture& m, double celsius) const {
        const double ln_aw = ln_activity_at_boil(celsius, pressure_);
        if (!(celsius > water_boils_) || !(ln_aw < 0.0) || !holds_water(m)) return {0.0, 0.0};
        const dual t(celsius, 1.0), pressure(pressure_);
        const double by_celsius =
            water_held(in_scalar<dual>(m), ln_activity_at_boil(t, pressure), dual(t + formula::zero_celsius))
                .slope;
        if (!(by_celsius < 0.0)) return {0.0, 0.0};
        const double kelvin = celsius + formula::zero_celsius;
        const auto held = [&](component c) { return water_held(components[index_of(c)], ln_aw, kelvin); };
        const double by_inverted =
            formula::inversion_hexose * (held(component::glucose) + held(component::fructose)) -
            held(component::sucrose);
        return {1.0 / by_celsius, -by_inverted / by_celsius};
    }

    mixture start_;
    const stove& stove_;
    const heating& how_;
    double pressure_, water_boils_, solids_, reactive_, reducing_;
};

}  // namespace detail

/// The pan after a while on (or off) the hob.  `seen` is called with each state on the way, at most 0.3 K
/// and five percent of the water apart.  Where neither a temperature nor a time ends it, or the temperature is
/// never reached, it ends after longest_heating_seconds, or where 99.5 % solids are passed.
template <class Seen>
pan_state heated(const pan_state& from, const stove& on, const heating& how, double pressure_pa,
                 const Seen& seen) {
    using motion = detail::pan_in_motion;
    const motion pan(from, on, how, pressure_pa);
    motion::state y{};
    y[motion::temperature] = from.celsius;
    y[motion::water] = from.contents.water();
    y[motion::hob] = from.hob_joule;
    const double end = std::isfinite(how.for_seconds) ? how.for_seconds : longest_heating_seconds;
    const bool upwards = how.to_celsius > from.celsius;
    double seconds = 0.0;
    bool at_boil = from.boils;
    const auto shown = [&] {
        pan_state s = from;
        s.seconds += seconds;
        s.celsius = y[motion::temperature];
        s.contents = pan.contents(y);
        s.hob_joule = y[motion::hob];
        s.browning += y[motion::browning];
        s.inverted_grams += y[motion::inverted];
        s.steam_grams += from.contents.water() - y[motion::water] - formula::inversion_water * y[motion::inverted];
        s.heat_joule += y[motion::heat];
        s.steam_joule += y[motion::steam];
        s.lost_joule += y[motion::lost];
        s.boils = at_boil;
        return s;
    };
    const auto after = [&](double step) {
        motion::state next =
            runge_kutta_step(y, step, [&](const motion::state& x) { return pan.slope(x, at_boil); });
        if (at_boil) next[motion::temperature] = pan.boiling(pan.contents(next));
        return next;
    };
    /// The step, up to `longest`, after which a rising or falling quantity has passed 0.
    const auto until = [&](double longest, const auto& quantity) {
        double low = 0.0, high = longest;
        for (int i = 0; i < 60 && high - low > 1.0e-9 * longest; ++i) {
            const double middle = 0.5 * (low + high);
            (quantity(after(middle)) < 0.0 ? low : high) = middle;
        }
        return high;
    };
    while (seconds < end) {
        if (at_boil && !pan.boils_on(y)) at_boil = false;
        const motion::state d = pan.slope(y, at_boil);
        const double longest = how.largest_step;
        double step = end - seconds;
        if (std::fabs(d[motion::hob]) * on.lag_seconds > 1.0e-5 * on.watts * on.lag_seconds)  // it warms or cools
            step = std::fmin(step, 0.2 * longest * on.lag_seconds);
        step = std::fmin(step, 0.3 * longest / std::fabs(d[motion::temperature]));
        if (y[motion::water] > 0.0)
            step = std::fmin(step, 0.04 * longest * y[motion::water] / std::fabs(d[motion::water]));
        motion::state next = after(step);
        bool comes_to_boil = false;
        if (!at_boil && next[motion::temperature] > y[motion::temperature]) {
            const auto over_boil = [&](const motion::state& x) {
                return x[motion::temperature] - pan.boiling(pan.contents(x));
            };
            comes_to_boil = over_boil(next) > 0.0 && pan.boils_on(next);
            if (comes_to_boil) {
                step = over_boil(y) < 0.0 ? until(step, over_boil) : 0.0;
                next = after(step);
            }
        }
        bool reached = false;
        if (std::isfinite(how.to_celsius)) {
            const double sign = upwards ? 1.0 : -1.0;
            const auto over = [&](const motion::state& x) {
                return sign * (x[motion::temperature] - how.to_celsius);
            };
            reached = over(next) >= 0.0;
            if (reached) {
                step = until(step, over);
                next = after(step);
            }
        }
        at_boil = at_boil || (comes_to_boil && !reached);
        y = next;
        seconds += step;
        seen(shown());
        if (reached || !(y[motion::water] > 0.0) || pan.contents(y).syrup_solids() > last_syrup_solids) break;
    }
    return shown();
}

}  // namespace sirop::core
