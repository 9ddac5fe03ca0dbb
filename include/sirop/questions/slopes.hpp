// First derivatives of the model without differencing: water held, the finished batch, and what is read from it.
// A solve is differentiated by the implicit-function rule, a formula by Eigen's differentiating scalar.  Needs
// Eigen; nothing else of the library includes this file.
//
// The model has kinks (a broken line, a minimum, the end of a branch).  On one the derivative is that of the side
// that the model itself takes.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cmath>
#include <unsupported/Eigen/AutoDiff>

#include "../cooking/predict.hpp"

namespace sirop::core {

/// Eigen's differentiating scalar with N derivatives, but one that starts at zero, as every sum here expects.
template <int N>
struct dual : Eigen::AutoDiffScalar<Eigen::Matrix<double, N, 1>> {
    using base = Eigen::AutoDiffScalar<Eigen::Matrix<double, N, 1>>;
    dual() : base(0.0) {}
    dual(double value) : base(value) {}
    dual(double value, int direction) : base(value, N, direction) {}
    template <class Derivatives>
    dual(const Eigen::AutoDiffScalar<Derivatives>& e) : base(e) {}

    double slope(int direction = 0) const { return this->derivatives()[direction]; }

    // Each operation gives a dual, not one of Eigen's expressions: nothing refers to what is gone, and a formula
    // is made of these few functions instead of one for each of its lines.
    friend dual operator-(const dual& a) { return -a.eigen(); }
    friend dual operator+(const dual& a, const dual& b) { return a.eigen() + b.eigen(); }
    friend dual operator+(const dual& a, double b) { return a.eigen() + b; }
    friend dual operator+(double a, const dual& b) { return a + b.eigen(); }
    friend dual operator-(const dual& a, const dual& b) { return a.eigen() - b.eigen(); }
    friend dual operator-(const dual& a, double b) { return a.eigen() - b; }
    friend dual operator-(double a, const dual& b) { return a - b.eigen(); }
    friend dual operator*(const dual& a, const dual& b) { return a.eigen() * b.eigen(); }
    friend dual operator*(const dual& a, double b) { return a.eigen() * b; }
    friend dual operator*(double a, const dual& b) { return a * b.eigen(); }
    friend dual operator/(const dual& a, const dual& b) { return a.eigen() / b.eigen(); }
    friend dual operator/(const dual& a, double b) { return a.eigen() / b; }
    friend dual operator/(double a, const dual& b) { return a / b.eigen(); }
    friend dual exp(const dual& a) { return exp(a.eigen()); }
    friend dual log(const dual& a) { return log(a.eigen()); }
    friend dual log1p(const dual& a) {  // which Eigen 3.4 does not have
        return base(std::log1p(a.value()), a.derivatives() * (1.0 / (1.0 + a.value())));
    }
    friend dual sqrt(const dual& a) { return sqrt(a.eigen()); }
    friend dual pow(const dual& a, double power) { return pow(a.eigen(), power); }

  private:
    const base& eigen() const { return *this; }
};

/// Grams of water that one gram of a component holds, and how they change with ln aw and with the temperature.
struct held_slopes {
    double held = 0.0, by_ln_aw = 0.0, by_kelvin = 0.0;
};

namespace detail {

inline constexpr double normal_95 = 1.959963984540054;  ///< 95 % of a normal distribution lie so far to each side

/// Implicit rule on ln_activity(h, T) = ln aw.
template <class LnActivity>
held_slopes implicit_slopes(double held, double kelvin, const LnActivity& ln_activity) {
    const dual<2> f = ln_activity(dual<2>(held, 0), dual<2>(kelvin, 1));
    return {held, 1.0 / f.slope(0), -f.slope(1) / f.slope(0)};
}

inline dual<2> mole_fraction_of(const dual<2>& water_per_gram, double molar_mass) {
    return 1.0 / (1.0 + water_per_gram * (molar_mass / formula::water_molar_mass));
}

inline held_slopes sucrose_slopes(double held, double ln_aw, double kelvin) {
    const double x_last = mole_fraction(sucrose_last_water, sucrose_molar_mass);
    if (ln_aw >= formula::starzak_peacock_ln_activity(x_last, kelvin))
        return implicit_slopes(held, kelvin, [](const dual<2>& h, const dual<2>& t) {
            return formula::starzak_peacock_ln_activity(mole_fraction_of(h, sucrose_molar_mass), t);
        });
    // The power law of sucrose_water.
    const dual<2> t(kelvin, 1), last(x_last);
    const dual<2> ln_h = (dual<2>(ln_aw, 0) - dual<2>(formula::starzak_peacock_ln_activity(last, t))) /
                         dual<2>(formula::starzak_peacock_slope(last, t));
    return {held, held * ln_h.slope(0), held * ln_h.slope(1)};
}

inline held_slopes salt_slopes(double held, double ln_aw) {
    constexpr double last = 6.0;
    const double d = ln_aw - formula::sodium_chloride_ln_activity(last);
    if (d < 0.0) {  // the continuation of salt_water
        constexpr double a = 2.5619, b = 3.0605, c = 2.5401, end = -0.37;
        const double at = std::fmax(d, end);
        return {held, held * (a + at * (2.0 * b + 3.0 * at * c)), 0.0};
    }
    return implicit_slopes(held, 298.15, [](const dual<2>& h, const dual<2>&) {
        return formula::sodium_chloride_ln_activity(dual<2>(1.0 / (h * (1.0e-3 * sodium_chloride_molar_mass))));
    });
}

}  // namespace detail

/// water_held of a component, with its slopes.
inline held_slopes water_held_slopes(const component_data& c, double ln_aw, double kelvin) {
    using namespace detail;
    const double held = water_held(c, ln_aw, kelvin);
    switch (c.isotherm) {
        case isotherm_kind::sucrose:
            return sucrose_slopes(held, ln_aw, kelvin);
        case isotherm_kind::monosaccharide:
            return implicit_slopes(held, kelvin, [](const dual<2>& h, const dual<2>& t) {
                return formula::uniquac_ln_activity(mole_fraction_of(h, glucose_molar_mass), t,
                                                    formula::uniquac_glucose);
            });
        case isotherm_kind::chain:
            return implicit_slopes(held, kelvin, [&](const dual<2>& h, const dual<2>&) {
                const double n = (162.141 * c.units + 18.015) / (chain_density * 18.05);
                const dual<2> f = 1.0 / (1.0 + h * (chain_density / chain_water_density));
                return formula::flory_huggins_ln_activity(f, n, chain_chi);
            });
        case isotherm_kind::sorbitol:
            return implicit_slopes(held, kelvin, [](const dual<2>& h, const dual<2>&) {
                return formula::norrish_ln_activity(mole_fraction_of(h, sorbitol_molar_mass), -1.65);
            });
        case isotherm_kind::glycerol:
            return implicit_slopes(held, kelvin, [](const dual<2>& h, const dual<2>& t) {
                return formula::glycerol_ln_activity(mole_fraction_of(h, glycerol_molar_mass), t);
            });
        case isotherm_kind::electrolyte: {
            const auto salt = salt_slopes(held / c.units, ln_aw);
            return {held, c.units * salt.by_ln_aw, 0.0};
        }
        case isotherm_kind::solid: {
            using std::exp;
            const auto g = gab_of(c.id);
            const dual<1> activity = exp(dual<1>(ln_aw, 0));
            return {held, formula::gab_water(activity, g.m0, g.c, g.k).slope(), 0.0};
        }
        case isotherm_kind::none:
            break;
    }
    return {};
}

/// What each component holds at one water activity and temperature.  The grams may be those of a mixture or, since
/// all is linear in them, of a change of one.
struct water_law {
    std::array<held_slopes, component_count> of{};

    water_law() = default;
    water_law(double ln_aw, double kelvin) {
        for (const auto& c : components) {
            auto& mine = of[index_of(c.id)];
            if (c.isotherm == isotherm_kind::sucrose && c.id != component::sucrose)
                mine = of[index_of(component::sucrose)];
            else if (c.isotherm == isotherm_kind::monosaccharide && c.id != component::glucose)
                mine = of[index_of(component::glucose)];
            else
                mine = water_held_slopes(c, ln_aw, kelvin);
        }
    }
    double held(const mixture& m) const { return sum(m, &held_slopes::held); }
    double by_ln_aw(const mixture& m) const { return sum(m, &held_slopes::by_ln_aw); }
    double by_kelvin(const mixture& m) const { return sum(m, &held_slopes::by_kelvin); }

  private:
    double sum(const mixture& m, double held_slopes::*which) const {
        double total = 0.0;
        for (std::size_t i = 0; i < component_count; ++i) total += m.grams[i] * (of[i].*which);
        return total;
    }
};

/// Slope of ln_activity_at_boil with the temperature; with the pressure it is 1/P.
inline double ln_activity_at_boil_by_kelvin(double celsius) {
    const double kelvin = celsius + formula::zero_celsius;
    return -formula::saturation_slope(kelvin) / formula::saturation_pressure(kelvin);
}

/// What one unit of an input changes in a batch.
struct batch_change {
    mixture pan;                    ///< grams in the pan
    mixture added;                  ///< grams of additions, dissolved or crystals as they arrive
    double added_heat_joule = 0.0;  ///< that the additions bring
    double celsius = 0.0;           ///< of the real temperature at which the cook ends
    double pressure_pa = 0.0;
};

/// finished_at and its derivatives: the pan boiled down, the additions mixed in, by the implicit rule on the heat
/// balance where sugar dissolves or water flashes off.
class finished_slopes {
  public:
    /// The caller has seen to it that the pan boils at this real temperature in C.
    finished_slopes(const batch& b, const mixture& pan, double celsius) : pa_(b.pressure_pa), celsius_(celsius) {
        const double ln_aw = ln_activity_at_boil(celsius, pa_);
        at_boil_ = water_law(ln_aw, celsius + formula::zero_celsius);
        const double held = at_boil_.held(pan);
        boiled_down_ = held < pan.water();
        pan_ = pan;
        cooked_ = pan.with_water(std::fmin(held, pan.water()));
        value_ = mix(cooked_, celsius, b.off_heat, pa_);
        for (const auto& line : b.off_heat) adds_ = adds_ || line.grams > 0.0;
        if (adds_) replay(b.off_heat);
    }

    const mixed& value() const { return value_; }
    const mixture& cooked() const { return cooked_; }
    bool flashes() const { return flash_ != flash::none; }

    /// Change of the pan at the end of the cook, per unit.
    mixture cooked_change(const batch_change& d) const {
        if (!boiled_down_) return d.pan;
        const double ln_aw = d.pressure_pa / pa_ + ln_activity_at_boil_by_kelvin(celsius_) * d.celsius;
        return d.pan.with_water(at_boil_.held(d.pan) + at_boil_.by_ln_aw(pan_) * ln_aw +
                                at_boil_.by_kelvin(pan_) * d.celsius);
    }

    /// Change of the finished batch, per unit.
    mixture change(const batch_change& d) const {
        mixture m = cooked_change(d);
        if (!adds_) return m;
        double heat = enthalpy_joule(m, celsius_) + joule_per_kelvin(cooked_, celsius_) * d.celsius;
        heat += d.added_heat_joule;
        m += d.added;
        // H(m, t) = heat: the common temperature
        const double t = (heat - enthalpy_joule(m, mixed_celsius_)) / joule_per_kelvin(before_, mixed_celsius_);
        const mixture undissolved = m;
        dissolve_change(m, component::sucrose, m.sucrose_crystals, sucrose_, t);
        dissolve_change(m, component::lactose, m.lactose_crystals, lactose_, t);
        heat += enthalpy_joule(m, mixed_celsius_) - enthalpy_joule(undissolved, mixed_celsius_) +
                (joule_per_kelvin(after_, mixed_celsius_) - joule_per_kelvin(before_, mixed_celsius_)) * t;
        if (flash_ == flash::free_water) m = free_water_change(m, heat, d.pressure_pa);
        if (flash_ == flash::bound_water) m = bound_water_change(m, heat, d.pressure_pa);
        return m;
    }

  private:
    enum class flash : unsigned char { none, all, free_water, bound_water };
    enum class solution : unsigned char { none, all, saturated };
    struct sugar_state {
        solution how = solution::none;
        double ratio = 0.0, ratio_by_kelvin = 0.0;  ///< grams per gram of water at saturation
    };

    static double joule_per_kelvin(const mixture& m, double celsius) {
        return 1000.0 *
               detail::sum_by_heat_law(m, [&](const auto& law) { return formula::specific_heat(celsius, law); });
    }

    template <class Solubility>
    static sugar_state state_of(const mixture& before, component sugar, double crystals, double celsius,
                                double last, const Solubility& solubility) {
        const bool inside = celsius > 0.0 && celsius < last;
        const double at = std::fmin(std::fmax(celsius, 0.0), last);
        const dual<1> s = solubility(inside ? dual<1>(at, 0) : dual<1>(at));
        const dual<1> ratio = s / (1.0 - s);
        sugar_state state{solution::none, ratio.value(), ratio.slope()};
        const double room = before.water() * state.ratio - before[sugar];
        if (crystals > 0.0 && room > 0.0) state.how = room < crystals ? solution::saturated : solution::all;
        // nothing there to dissolve: what an input may bring dissolves if there is room
        if (!(crystals > 0.0) && room > 0.0) state.how = solution::all;
        return state;
    }

    /// Moves the changed crystals that dissolve; the mixture m is the change, t that of the common temperature.
    void dissolve_change(mixture& m, component sugar, double& crystals, const sugar_state& s, double t) const {
        double goes = 0.0;
        if (s.how == solution::all) goes = crystals;
        if (s.how == solution::saturated)
            goes = m.water() * s.ratio + before_.water() * s.ratio_by_kelvin * t - m[sugar];
        m[sugar] += goes;
        crystals -= goes;
    }

    /// Free water boils off at its own boiling point: it is the heat in excess over the latent heat.
    mixture free_water_change(const mixture& m, double heat, double pressure_pa) const {
        const double boils = value_.celsius;
        const double kelvin = boils + formula::zero_celsius;
        const double t = pressure_pa / formula::saturation_slope(kelvin);
        const dual<1> latent = 1.0e-3 * formula::latent_heat(dual<1>(kelvin, 0));
        const double gone = (heat - enthalpy_joule(m, boils) - joule_per_kelvin(after_, boils) * t -
                             value_.flashed_grams * latent.slope() * t) /
                            latent.value();
        return m.with_water(m.water() - gone);
    }

    /// What is left boils where the heat is spent: H(m with its water left, c) + steam = heat, and the water left
    /// is what the solids hold at the boil.
    mixture bound_water_change(const mixture& m, double heat, double pressure_pa) const {
        const double c = value_.celsius;
        const double by_ln_aw = at_flash_.by_ln_aw(after_);
        const double left = at_flash_.held(m) + by_ln_aw * pressure_pa / pa_;  // at constant c
        const double left_by_c = by_ln_aw * ln_activity_at_boil_by_kelvin(c) + at_flash_.by_kelvin(after_);
        const double liquid = 1.0e-3 * formula::specific_enthalpy(c, formula::heat_water);
        const dual<1> at(c, 0);
        const dual<1> steam = 1.0e-3 * (formula::specific_enthalpy(at, formula::heat_water) +
                                        formula::latent_heat(dual<1>(at + formula::zero_celsius)));
        const double excess = heat - enthalpy_joule(m.with_water(left), c) - (m.water() - left) * steam.value();
        const double t = excess / (joule_per_kelvin(value_.contents, c) + left_by_c * (liquid - steam.value()) +
                                   value_.flashed_grams * steam.slope());
        return m.with_water(left + left_by_c * t);
    }

    /// The states that mix() has been through.
    void replay(const std::vector<ingredient_line>& additions) {
        before_ = cooked_;
        double heat = enthalpy_joule(cooked_, celsius_);
        for (const auto& line : additions) {
            const mixture m = off_the_heat(line);
            before_ += m;
            heat += enthalpy_joule(m, line.celsius);
        }
        after_ = value_.contents.with_water(before_.water());
        mixed_celsius_ = value_.celsius;
        if (value_.flashed_grams > 0.0) {
            mixed_celsius_ = solve_monotone([&](double t) { return enthalpy_joule(before_, t) - heat; }, celsius_,
                                            -40.0, 260.0);
            flash_ = flash::bound_water;
            if (value_.celsius <= water_boils_celsius(pa_)) flash_ = flash::free_water;
            if (!(value_.contents.water() > 0.0)) flash_ = flash::all;
        }
        if (flash_ == flash::bound_water)
            at_flash_ =
                water_law(ln_activity_at_boil(value_.celsius, pa_), value_.celsius + formula::zero_celsius);
        sucrose_ = state_of(before_, component::sucrose, before_.sucrose_crystals, mixed_celsius_, 100.0,
                            [](const dual<1>& t) { return formula::sucrose_solubility(t); });
        lactose_ = state_of(before_, component::lactose, before_.lactose_crystals, mixed_celsius_, 89.0,
                            [](const dual<1>& t) { return formula::lactose_solubility(t); });
    }

    double pa_, celsius_;
    bool boiled_down_ = false, adds_ = false;
    mixture pan_, cooked_, before_, after_;
    mixed value_;
    water_law at_boil_, at_flash_;
    double mixed_celsius_ = not_a_number;  ///< before anything flashes off
    sugar_state sucrose_, lactose_;
    flash flash_ = flash::none;
};

/// A mixture that carries its change along: for the explicit laws.
inline mixture_of<dual<1>> carrying(const mixture& m, const mixture& change) {
    mixture_of<dual<1>> both;
    const auto join = [](double value, double slope) {
        dual<1> d(value);
        d.derivatives()[0] = slope;
        return d;
    };
    for (std::size_t i = 0; i < component_count; ++i) both.grams[i] = join(m.grams[i], change.grams[i]);
    both.sucrose_crystals = join(m.sucrose_crystals, change.sucrose_crystals);
    both.lactose_crystals = join(m.lactose_crystals, change.lactose_crystals);
    both.ice = join(m.ice, change.ice);
    both.raw_protein = join(m.raw_protein, change.raw_protein);
    both.raw_starch = join(m.raw_starch, change.raw_starch);
    both.raw_agar = join(m.raw_agar, change.raw_agar);
    return both;
}

/// Change of at_temperature(m, celsius): the ice that forms follows what the solids hold.
inline mixture at_temperature_change(const mixture& m, const mixture& change, double celsius) {
    if (!(at_temperature(m, celsius).ice > m.ice)) return change;
    const double kelvin = celsius + formula::zero_celsius;
    mixture frozen = change;
    frozen[component::water] = water_law(formula::ice_ln_activity(kelvin), kelvin).held(change);
    frozen.ice += change.water() - frozen.water();
    return frozen;
}

/// Change of the water activity at a temperature in C, by the implicit rule; 0 beside ice or with free water.
inline double water_activity_change(const mixture& m, const mixture& change, double celsius) {
    const double kelvin = celsius + formula::zero_celsius;
    if (at_temperature(m, celsius).ice > 0.0) return 0.0;
    const double ln_aw = detail::ln_activity(m, kelvin, curve::best);
    if (!(ln_aw < 0.0)) return 0.0;
    const water_law law(ln_aw, kelvin);
    return std::exp(ln_aw) * (change.water() - law.held(change)) / law.by_ln_aw(m);
}

/// Change of the Brix of the syrup phase at 20 C.
inline double brix_change(const mixture& m, const mixture& change) {
    const double brix = brix_of_syrup(m);
    const dual<1> scale = formula::sucrose_refractive_index(dual<1>(0.01 * brix, 0));
    return 100.0 * refractive_index(carrying(m, change), 20.0).slope() / scale.slope();
}

}  // namespace sirop::core
