// The model for a small machine, on a scalar: float or double.  Best values only; no heap, no Boost, no exception,
// no state, and a fixed bound on every loop.  Formulas and components are those of the library; the solver is
// small.
//
// "single" is the float that the formulas take: their constants are written as doubles, and a float beside a
// double constant would be computed in double, which most microcontrollers must emulate.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <type_traits>

#include "../base/estimate.hpp"
#include "../base/limits.hpp"
#include "../data/components.hpp"
#include "../formula/density.hpp"
#include "../formula/glass.hpp"
#include "../formula/isotherm.hpp"
#include "../formula/refraction.hpp"

namespace sirop::core::embedded {

/// A float that stays one: a double constant beside it is rounded to float first.
class single {
  public:
    constexpr single() = default;
    constexpr single(float x) : x_(x) {}                       // NOLINT(google-explicit-constructor)
    constexpr single(double x) : x_(static_cast<float>(x)) {}  // NOLINT(google-explicit-constructor)
    constexpr explicit operator float() const { return x_; }

    friend constexpr single operator-(single a) { return -a.x_; }
    friend constexpr single operator+(single a, single b) { return a.x_ + b.x_; }
    friend constexpr single operator-(single a, single b) { return a.x_ - b.x_; }
    friend constexpr single operator*(single a, single b) { return a.x_ * b.x_; }
    friend constexpr single operator/(single a, single b) { return a.x_ / b.x_; }
    constexpr single& operator+=(single b) { return *this = *this + b; }
    constexpr single& operator*=(single b) { return *this = *this * b; }
    friend constexpr bool operator==(single a, single b) { return a.x_ == b.x_; }
    friend constexpr bool operator<(single a, single b) { return a.x_ < b.x_; }
    friend constexpr bool operator>(single a, single b) { return a.x_ > b.x_; }
    friend constexpr bool operator<=(single a, single b) { return a.x_ <= b.x_; }
    friend constexpr bool operator>=(single a, single b) { return a.x_ >= b.x_; }

    friend single exp(single a) { return __builtin_expf(a.x_); }
    friend single log(single a) { return __builtin_logf(a.x_); }
    friend single log1p(single a) { return __builtin_log1pf(a.x_); }
    friend single sqrt(single a) { return __builtin_sqrtf(a.x_); }
    friend single pow(single a, single b) { return __builtin_powf(a.x_, b.x_); }

  private:
    float x_ = 0.0F;
};

/// What a number type is computed in.
template <class Real>
using scalar_of = std::conditional_t<std::is_same_v<Real, float>, single, Real>;

/// What the precision of a scalar allows.
template <class Scalar>
struct precision;
template <>
struct precision<double> {
    static constexpr double least_elevation_kelvin = 1.0e-9;  ///< smallest that is told apart
    static constexpr double free_ln_activity = -6.0e-11;      ///< a little more than belongs to it, 300..1100 hPa
    static constexpr double most_ln_water = 26.0;             ///< of the water per gram; wetter, ln aw rounds to 0
    static constexpr double narrow = 1.0e-7;                  ///< bracket that its chord closes
    static constexpr double rounding = 1.0e-12;
};
template <>
struct precision<single> {
    static constexpr double least_elevation_kelvin = 3.1e-5;  // one ulp of 373 K
    static constexpr double free_ln_activity = -1.6e-6;
    static constexpr double most_ln_water = 13.0;
    static constexpr double narrow = 1.0e-4;
    static constexpr double rounding = 2.4e-7;
};

template <class Scalar>
struct answer {
    Scalar value{not_a_number};
    grade status = grade::not_computed;
};

/// False for NaN.
template <class Scalar>
constexpr bool is_number(Scalar x) {
    return x >= Scalar(0.0) || x < Scalar(0.0);
}

template <class Scalar>
constexpr answer<Scalar> answer_of(Scalar value, bool fitted) {
    if (!(value > Scalar(-3.0e38) && value < Scalar(3.0e38))) return {};  // infinite or not a number
    return {value, fitted ? grade::fine : grade::extrapolated};
}

template <class Scalar>
constexpr Scalar smaller(Scalar a, Scalar b) {
    return a < b ? a : b;
}
template <class Scalar>
constexpr Scalar larger(Scalar a, Scalar b) {
    return a > b ? a : b;  // b if a is not a number
}
template <class Scalar>
constexpr Scalar magnitude(Scalar a) {
    return a < Scalar(0.0) ? -a : a;
}

// --- the solver -----------------------------------------------------------------------------------------------

/// A function behind a pointer, so that the solver is compiled once for each scalar.
template <class Scalar>
struct function_ref {
    const void* function;
    Scalar (*call)(const void*, Scalar);
    Scalar operator()(Scalar x) const { return call(function, x); }
};

/// The x in [low, high] at which a monotone function changes sign, or NaN if it does not.  A bracket grown from
/// the guess; then false position by the Illinois rule (Dowell & Jarratt 1971), with a bisection whenever three
/// steps have not halved the bracket; the last bracket is closed by its chord.  At most 127 evaluations.
template <class Scalar>
[[gnu::noinline]] Scalar bracketed_root(const function_ref<Scalar> f, Scalar guess, Scalar low, Scalar high) {
    const Scalar zero = 0.0, nan = not_a_number;
    if (!(low < high)) return nan;
    Scalar a = smaller(larger(guess, low), high), fa = f(a);
    Scalar b = a + 0.25 <= high ? a + 0.25 : a - 0.25, fb = f(b);
    if (fa == zero) return a;
    const bool rising = (fb > fa) == (b > a);
    const bool up = (fa < zero) == rising;
    if (up != (b > a)) {
        const Scalar x = a, fx = fa;
        a = b, fa = fb;
        b = x, fb = fx;
    }
    // a little beyond the root of the chord; where the function is flat the chord says nothing
    Scalar step =
        smaller(larger(Scalar(1.2 * magnitude(Scalar(fb * (b - a) / (fb - fa)))), Scalar(0.01)), Scalar(4.0));
    for (int i = 0; (fa < zero) == (fb < zero) && !(fb == zero); ++i) {
        if (i == 25 || (up ? b >= high : b <= low)) return nan;
        a = b, fa = fb;
        b = up ? smaller(Scalar(b + step), high) : larger(Scalar(b - step), low);
        fb = f(b);
        if (!is_number(fb)) return nan;
        step *= 2.0;
    }
    Scalar weighted = fa;  // fa, halved each time that a has stayed
    Scalar goal = 0.5 * magnitude(Scalar(b - a));
    int slow = 0;
    for (int i = 0; i < 100 && !(fb == zero); ++i) {
        const Scalar width = magnitude(Scalar(b - a));
        if (width <= precision<Scalar>::narrow * larger(magnitude(b), Scalar(1.0))) break;
        if (width <= goal) {
            goal = 0.5 * width;
            slow = 0;
        }
        Scalar x = b - fb * (b - a) / (fb - weighted);
        const bool inside = (x > a && x < b) || (x > b && x < a);
        if (!inside || slow == 3) {
            x = 0.5 * (a + b);
            slow = 0;
        } else {
            ++slow;
        }
        const Scalar fx = f(x);
        if (!is_number(fx)) return nan;
        if ((fx < zero) == (fb < zero)) {
            weighted = 0.5 * weighted;
        } else {
            a = b, fa = fb;
            weighted = fa;
        }
        b = x, fb = fx;
    }
    const Scalar root = b - fb * (b - a) / (fb - fa);
    return (root >= a && root <= b) || (root >= b && root <= a) ? root : b;
}

template <class Scalar, class Function>
Scalar solve(const Function& f, Scalar guess, Scalar low, Scalar high) {
    const auto call = [](const void* function, Scalar x) -> Scalar {
        return (*static_cast<const Function*>(function))(x);
    };
    return bracketed_root(function_ref<Scalar>{&f, call}, guess, low, high);
}

// --- water held by one gram -----------------------------------------------------------------------------------

// The constants of solution/isotherm.hpp, which needs Boost; tests/embedded_test.cpp compares them.
inline constexpr double sucrose_molar_mass = 342.297, glucose_molar_mass = 180.156, sorbitol_molar_mass = 182.172,
                        glycerol_molar_mass = 92.094, sodium_chloride_molar_mass = 58.443;
inline constexpr double sucrose_last_water = 3.0 / 97.0;
inline constexpr double chain_chi = 0.5, chain_density = 1.55, chain_water_density = 1.0;
inline constexpr double sorbitol_norrish = -1.65;
inline constexpr double salt_last_molality = 6.0;
inline constexpr double salt_a = 2.5619, salt_b = 3.0605, salt_c = 2.5401, salt_end = -0.37;
struct gab_constants {
    double m0, c, k;
};
inline constexpr gab_constants gab_protein{6.5, 10.0, 0.80}, gab_cocoa{4.5, 15.0, 0.80},
    gab_starch{9.5, 20.0, 0.73};

/// Volume of a chain in units of the water molecule.
constexpr double chain_size(double units) {
    return (162.141 * units + 18.015) / (chain_density * 18.05);
}

/// What is read of a component, in the scalar and without its texts.
template <class Scalar>
struct component_row {
    isotherm_kind isotherm = isotherm_kind::none;
    phase where = phase::solvent;
    Scalar share{};               ///< of the salt curve (electrolyte); 1 / volume of the chain (chain)
    Scalar glass_celsius{};       ///< of what counts in the glass transition
    Scalar glass_weight{};        ///< 1 / Gordon-Taylor constant, or 0
    bool monosaccharide = false;  ///< counts with them in the viscosity
};

template <class Scalar>
constexpr std::array<component_row<Scalar>, component_count> make_rows() {
    std::array<component_row<Scalar>, component_count> rows{};
    for (std::size_t i = 0; i < component_count; ++i) {
        const auto& c = components[i];
        auto& row = rows[i];
        row.isotherm = c.isotherm;
        row.where = c.where;
        row.share = Scalar(c.isotherm == isotherm_kind::chain ? 1.0 / chain_size(c.units) : c.units);
        const bool in_syrup = c.where == phase::solvent || c.where == phase::dissolved;
        if (in_syrup && is_number(c.glass_celsius)) {
            row.glass_celsius = Scalar(c.glass_celsius);
            row.glass_weight = Scalar(1.0 / c.glass_constant);
        }
        row.monosaccharide = c.isotherm == isotherm_kind::monosaccharide || c.id == component::sorbitol ||
                             c.id == component::glycerol;
    }
    return rows;
}
// A constant, so never initialized at run time, which the check does not see in a template.
template <class Scalar>
inline constexpr auto component_rows = make_rows<Scalar>();  // NOLINT(bugprone-dynamic-static-initializers)

template <class Scalar>
using masses_of = std::array<Scalar, component_count>;  ///< grams of each component

/// Grams of water per gram at which a solute's decreasing ln_aw(mole fraction) takes a value, solved in
/// logarithms.
template <class Scalar, class LnActivity>
Scalar invert_solution(const LnActivity& ln_activity_of, Scalar ln_aw, Scalar ratio, Scalar ln_least) {
    using std::exp;
    using std::log;
    const Scalar target = log(-ln_aw);
    const Scalar ideal = 1.0 / (ratio * (exp(-ln_aw) - 1.0));
    const auto off = [&](Scalar u) -> Scalar {
        return log(-ln_activity_of(Scalar(1.0 / (1.0 + exp(u) * ratio)))) - target;
    };
    return exp(solve(off, Scalar(log(ideal)), ln_least, Scalar(precision<Scalar>::most_ln_water)));
}

template <class Scalar>
Scalar sucrose_last_ln_activity(Scalar kelvin) {
    constexpr double x = 1.0 / (1.0 + sucrose_last_water * sucrose_molar_mass / formula::water_molar_mass);
    return formula::starzak_peacock_ln_activity(Scalar(x), kelvin);
}

template <class Scalar>
Scalar sucrose_water(Scalar ln_aw, Scalar kelvin) {
    using std::exp;
    constexpr double ratio = sucrose_molar_mass / formula::water_molar_mass;
    constexpr double x_last = 1.0 / (1.0 + sucrose_last_water * ratio);
    constexpr double ln_least = -3.4760986898352733;  // ln(3/97)
    const Scalar ln_last = sucrose_last_ln_activity(kelvin);
    if (ln_aw >= ln_last)
        return invert_solution([&](Scalar x) -> Scalar { return formula::starzak_peacock_ln_activity(x, kelvin); },
                               ln_aw, Scalar(ratio), Scalar(ln_least - 20.0 * precision<Scalar>::rounding));
    return sucrose_last_water * exp((ln_aw - ln_last) / formula::starzak_peacock_slope(Scalar(x_last), kelvin));
}

/// x to the 2/3, at compile time: Newton's rule for the cube root.
constexpr double two_thirds_power(double x) {
    double root = 1.0;
    for (int i = 0; i < 60; ++i) root -= (root - x / (root * root)) / 3.0;
    return root * root;
}

// The formulas that take constants as double arguments, flattened so that these become the scalar when compiled.
template <class Scalar>
[[gnu::flatten]] Scalar glucose_ln_activity(Scalar x, Scalar sugar_water, Scalar water_sugar) {
    constexpr auto pair = formula::uniquac_glucose;
    constexpr double r_ratio = two_thirds_power(pair.r_sugar / 0.92);
    return formula::uniquac_ln_activity(
        x, formula::uniquac_energies<Scalar>{sugar_water, water_sugar, r_ratio, pair.q_sugar});
}
template <class Scalar>
[[gnu::flatten]] Scalar sorbitol_ln_activity(Scalar x) {
    return formula::norrish_ln_activity(x, sorbitol_norrish);
}
/// Flory-Huggins of an endless chain; what its size N adds is -f/N.
template <class Scalar>
[[gnu::flatten]] Scalar chain_ln_activity(Scalar f, Scalar one_over_size) {
    return formula::flory_huggins_ln_activity(f, __builtin_inf(), chain_chi) - one_over_size * f;
}
template <class Scalar>
[[gnu::flatten]] Scalar solid_water(component id, Scalar activity) {
    if (id == component::protein || id == component::gelatin)
        return formula::gab_water(activity, gab_protein.m0, gab_protein.c, gab_protein.k);
    if (id == component::cocoa_solids) return formula::gab_water(activity, gab_cocoa.m0, gab_cocoa.c, gab_cocoa.k);
    return formula::gab_water(activity, gab_starch.m0, gab_starch.c, gab_starch.k);
}

template <class Scalar>
Scalar monosaccharide_water(Scalar ln_aw, Scalar kelvin) {
    using std::exp;
    // as formula::uniquac_at, which takes a power in double at run time
    constexpr auto pair = formula::uniquac_glucose;
    const Scalar dt = kelvin - 298.15;
    const Scalar sugar_water = exp(-(pair.sugar_water_0 + pair.sugar_water_1 * dt) / kelvin);
    const Scalar water_sugar = exp(-(pair.water_sugar_0 + pair.water_sugar_1 * dt) / kelvin);
    return invert_solution([&](Scalar x) -> Scalar { return glucose_ln_activity(x, sugar_water, water_sugar); },
                           ln_aw, Scalar(glucose_molar_mass / formula::water_molar_mass), Scalar(-30.0));
}

template <class Scalar>
Scalar chain_water(Scalar ln_aw, Scalar one_over_size) {
    using std::exp;
    using std::log;
    const Scalar target = log(-ln_aw);
    const auto off = [&](Scalar u) -> Scalar {
        const Scalar f = 1.0 / (1.0 + exp(u) * (chain_density / chain_water_density));
        return log(-chain_ln_activity(f, one_over_size)) - target;
    };
    constexpr double ln_guess = -1.6094379124341003;  // ln 0.2
    return exp(solve(off, Scalar(ln_guess), Scalar(-30.0), Scalar(precision<Scalar>::most_ln_water)));
}

template <class Scalar>
Scalar salt_water(Scalar ln_aw) {
    using std::exp;
    using std::log;
    constexpr double grams_per_mole = 1.0e-3 * sodium_chloride_molar_mass;
    const Scalar ln_last = formula::sodium_chloride_ln_activity(Scalar(salt_last_molality));
    if (ln_aw < ln_last) {
        constexpr double end = salt_end;
        constexpr double at_end = end * (salt_a + end * (salt_b + end * salt_c));
        constexpr double slope = salt_a + end * (2.0 * salt_b + 3.0 * end * salt_c);
        const Scalar d = ln_aw - ln_last;
        const Scalar ln_h =
            d >= Scalar(end) ? d * (salt_a + d * (salt_b + d * salt_c)) : Scalar(at_end + slope * (d - end));
        return exp(ln_h) * (1.0 / (salt_last_molality * grams_per_mole));
    }
    const Scalar target = log(-ln_aw);
    const auto off = [&](Scalar u) -> Scalar {
        return log(-formula::sodium_chloride_ln_activity(Scalar(exp(u)))) - target;
    };
    constexpr double ln_most = 1.791759469228055;  // ln 6
    const Scalar log_m = solve(off, Scalar(log(-ln_aw * (1.0 / 0.036))), Scalar(-40.0),
                               Scalar(ln_most + 20.0 * precision<Scalar>::rounding));
    return exp(-log_m) * (1.0 / grams_per_mole);
}

// --- mixtures -------------------------------------------------------------------------------------------------

/// Grams of water that each component of a mixture holds at ln aw < 0 and T in K, and their sum.
template <class Scalar>
[[gnu::noinline]] Scalar water_held(const masses_of<Scalar>& grams, Scalar ln_aw, Scalar kelvin,
                                    masses_of<Scalar>& held) {
    using std::exp;
    const Scalar unknown = -1.0, zero = 0.0;
    Scalar total = 0.0, like_sucrose = unknown, like_glucose = unknown, like_salt = unknown;
    for (std::size_t i = 0; i < component_count; ++i) {
        held[i] = zero;
        const auto& row = component_rows<Scalar>[i];
        if (grams[i] <= zero) continue;
        Scalar h = zero;
        switch (row.isotherm) {
            case isotherm_kind::none:
                continue;
            case isotherm_kind::sucrose:
                if (like_sucrose == unknown) like_sucrose = sucrose_water(ln_aw, kelvin);
                h = like_sucrose;
                break;
            case isotherm_kind::monosaccharide:
                if (like_glucose == unknown) like_glucose = monosaccharide_water(ln_aw, kelvin);
                h = like_glucose;
                break;
            case isotherm_kind::electrolyte:
                if (like_salt == unknown) like_salt = salt_water(ln_aw);
                h = row.share * like_salt;
                break;
            case isotherm_kind::chain:
                h = chain_water(ln_aw, row.share);
                break;
            case isotherm_kind::sorbitol:
                h = invert_solution([](Scalar x) -> Scalar { return sorbitol_ln_activity(x); }, ln_aw,
                                    Scalar(sorbitol_molar_mass / formula::water_molar_mass), Scalar(-30.0));
                break;
            case isotherm_kind::glycerol:
                h = invert_solution([&](Scalar x) -> Scalar { return formula::glycerol_ln_activity(x, kelvin); },
                                    ln_aw, Scalar(glycerol_molar_mass / formula::water_molar_mass), Scalar(-30.0));
                break;
            case isotherm_kind::solid:
                h = solid_water(static_cast<component>(i), Scalar(exp(ln_aw)));
                break;
        }
        held[i] = grams[i] * h;
        total += held[i];
    }
    return total;
}
template <class Scalar>
Scalar water_held(const masses_of<Scalar>& grams, Scalar ln_aw, Scalar kelvin) {
    masses_of<Scalar> held;
    return water_held(grams, ln_aw, kelvin, held);
}

/// Whether the model of a component is used inside the range it was fitted in, as isotherm_grade of the library.
template <class Scalar>
bool fitted(isotherm_kind kind, Scalar ln_aw, Scalar kelvin) {
    const Scalar celsius = kelvin - formula::zero_celsius;
    switch (kind) {
        case isotherm_kind::sucrose:
            return celsius >= Scalar(-5.0) && celsius <= Scalar(150.0) &&
                   ln_aw >= sucrose_last_ln_activity(kelvin);
        case isotherm_kind::monosaccharide:
            return celsius >= Scalar(-5.0) && celsius <= Scalar(100.0);
        case isotherm_kind::solid:
            return celsius >= Scalar(0.0) && celsius <= Scalar(60.0);
        case isotherm_kind::electrolyte:
            return celsius <= Scalar(60.0) &&
                   ln_aw >= formula::sodium_chloride_ln_activity(Scalar(salt_last_molality));
        case isotherm_kind::sorbitol:
            return celsius <= Scalar(60.0);
        case isotherm_kind::glycerol:
        case isotherm_kind::chain:
        case isotherm_kind::none:
            break;
    }
    return true;
}

/// Whether all that hold a hundredth of the water are used inside their ranges.
template <class Scalar>
bool fitted(const masses_of<Scalar>& held, Scalar all, Scalar ln_aw, Scalar kelvin) {
    bool good = kelvin <= Scalar(170.0 + formula::zero_celsius);
    for (std::size_t i = 0; i < component_count; ++i)
        if (held[i] > Scalar(0.0) && held[i] >= 0.01 * all)
            good = good && fitted(component_rows<Scalar>[i].isotherm, ln_aw, kelvin);
    return good;
}
template <class Scalar>
bool fitted_for(const masses_of<Scalar>& grams, Scalar ln_aw, Scalar kelvin) {
    masses_of<Scalar> held;
    const Scalar all = water_held(grams, ln_aw, kelvin, held);
    return fitted(held, all, ln_aw, kelvin);
}

/// By eq. (31) of IF97, whose last step cancels in float (0.2 mK), and one step of Newton's rule on eq. (30).
template <class Scalar>
[[gnu::noinline]] Scalar water_boils_celsius(Scalar pressure_hpa) {
    const Scalar pascal = 100.0 * pressure_hpa;
    const Scalar kelvin = formula::saturation_temperature(pascal);
    const Scalar excess = formula::saturation_pressure(kelvin) - pascal;
    return (kelvin - formula::zero_celsius) - excess / formula::saturation_slope(kelvin);
}

/// ln aw of what boils that much above water, at a pressure at which water boils at `base`: the slope of ln psat
/// over the elevation, by Gauss and Legendre with 5 points for each 75 K (error below 1e-11).  The logarithm of a
/// ratio of pressures would cancel at small elevations.
template <class Scalar>
Scalar ln_activity_of_elevation(Scalar base_celsius, Scalar elevation) {
    constexpr std::array<Scalar, 5> node = {-0.9061798459386640, -0.5384693101056831, 0.0, 0.5384693101056831,
                                            0.9061798459386640};
    constexpr std::array<Scalar, 5> weight = {0.2369268850561891, 0.4786286704993665, 0.5688888888888889,
                                              0.4786286704993665, 0.2369268850561891};
    const Scalar panels = elevation > Scalar(150.0)  ? Scalar(3.0)
                          : elevation > Scalar(75.0) ? Scalar(2.0)
                                                     : Scalar(1.0);
    const Scalar half = 0.5 * elevation / panels;
    Scalar sum = 0.0;
    for (Scalar middle = half; middle < elevation; middle += 2.0 * half)
        for (std::size_t i = 0; i < node.size(); ++i) {
            const Scalar kelvin = base_celsius + formula::zero_celsius + (middle + half * node[i]);
            sum += weight[i] * formula::saturation_slope(kelvin) / formula::saturation_pressure(kelvin);
        }
    return -half * sum;
}

/// Grams of water that the solids hold when they boil at a temperature and a pressure.
template <class Scalar>
answer<Scalar> water_at_boil(const masses_of<Scalar>& grams, Scalar celsius, Scalar pressure_hpa) {
    const Scalar base = water_boils_celsius(pressure_hpa), elevation = celsius - base;
    if (!(elevation >= Scalar(precision<Scalar>::least_elevation_kelvin))) return {};
    const Scalar ln_aw = ln_activity_of_elevation(base, elevation);
    const Scalar kelvin = celsius + formula::zero_celsius;
    masses_of<Scalar> held;
    const Scalar all = water_held(grams, ln_aw, kelvin, held);
    if (!(all > Scalar(0.0))) return {};  // nothing that holds water
    return answer_of(all, fitted(held, all, ln_aw, kelvin));
}

/// Temperature, C, at which a mixture with its own water boils.
template <class Scalar>
answer<Scalar> boiling_celsius(const masses_of<Scalar>& grams, Scalar pressure_hpa) {
    using std::exp;
    using std::log;
    const Scalar water = grams[index_of(component::water)];
    if (!(water > Scalar(0.0))) return {};
    const Scalar base = water_boils_celsius(pressure_hpa), most = temperature_limit.high - base;
    if (water_held(grams, Scalar(precision<Scalar>::free_ln_activity), Scalar(base + formula::zero_celsius)) <=
        water)
        return answer_of(base, true);
    const Scalar target = log(water);
    const auto off = [&](Scalar u) -> Scalar {
        const Scalar elevation = exp(u);
        return log(water_held(grams, ln_activity_of_elevation(base, elevation),
                              Scalar(base + elevation + formula::zero_celsius))) -
               target;
    };
    const Scalar elevation = exp(solve(
        off, Scalar(2.0), Scalar(log(Scalar(precision<Scalar>::least_elevation_kelvin))), Scalar(log(most))));
    if (!is_number(elevation)) return {};
    return answer_of(Scalar(base + elevation), fitted_for(grams, ln_activity_of_elevation(base, elevation),
                                                          Scalar(base + elevation + formula::zero_celsius)));
}

/// Water activity of a mixture at a temperature, all its water being liquid.
template <class Scalar>
answer<Scalar> water_activity(const masses_of<Scalar>& grams, Scalar celsius) {
    using std::exp;
    using std::log;
    const Scalar water = grams[index_of(component::water)], kelvin = celsius + formula::zero_celsius;
    if (!(water > Scalar(0.0))) return {};
    constexpr Scalar wettest = precision<Scalar>::free_ln_activity;
    if (water_held(grams, wettest, kelvin) <= water) return answer_of(Scalar(1.0), true);
    const Scalar target = log(water);
    const auto off = [&](Scalar v) -> Scalar { return log(water_held(grams, Scalar(-exp(v)), kelvin)) - target; };
    const Scalar ln_aw = -exp(solve(off, Scalar(-1.0), Scalar(log(-wettest)), Scalar(3.0)));
    if (!is_number(ln_aw)) return {};
    return answer_of(Scalar(exp(ln_aw)), fitted_for(grams, ln_aw, kelvin));
}

// --- the syrup phase ------------------------------------------------------------------------------------------

/// Glass transition, C: Gordon-Taylor, sum (w/k) Tg / sum (w/k).  Not computed without a syrup phase.
template <class Scalar>
answer<Scalar> glass_celsius(const masses_of<Scalar>& grams) {
    Scalar weight{}, sum{};
    for (std::size_t i = 0; i < component_count; ++i) {
        const Scalar share = grams[i] * component_rows<Scalar>[i].glass_weight;
        weight += share;
        sum += share * component_rows<Scalar>[i].glass_celsius;
    }
    return answer_of(Scalar(sum / weight), true);
}

inline constexpr limit viscosity_limit{"temperature_celsius", -30.0, 170.0, "°C"};

/// log10 of its viscosity in Pa s, all its water being liquid.  Fitted from 0 to 100 C, to 75 % solids.
template <class Scalar>
answer<Scalar> syrup_log10_viscosity(const masses_of<Scalar>& grams, Scalar celsius) {
    Scalar solids{}, small_ones{};
    for (std::size_t i = 0; i < component_count; ++i) {
        const auto& row = component_rows<Scalar>[i];
        if (row.where == phase::dissolved) solids += grams[i];
        if (row.monosaccharide) small_ones += grams[i];
    }
    const Scalar water = grams[index_of(component::water)], zero = 0.0;
    const Scalar w = solids > zero ? Scalar(solids / (solids + water)) : zero;
    const Scalar share = solids > zero ? Scalar(small_ones / solids) : zero;
    const Scalar glass = glass_celsius(grams).value + formula::zero_celsius;
    return answer_of(formula::syrup_log10_viscosity(Scalar(celsius + formula::zero_celsius), glass, w, share),
                     celsius >= zero && celsius <= Scalar(100.0) && w <= Scalar(0.75));
}

// --- plain sucrose at 20 C ------------------------------------------------------------------------------------

/// Mass %, 0 to 95, at which a rising function of the mass fraction takes a value; not computed beyond.
template <class Scalar, class Function>
answer<Scalar> brix_at(const Function& rising, Scalar value, Scalar fitted_to) {
    const Scalar last = 0.95;
    const Scalar least = rising(Scalar(0.0)), most = rising(last),
                 slack = 4.0 * precision<Scalar>::rounding * most;
    if (!(value >= least - slack && value <= most + slack)) return {};
    if (value <= least) return answer_of(Scalar(0.0), true);
    if (value >= most) return answer_of(Scalar(100.0 * last), false);
    const auto off = [&](Scalar w) -> Scalar { return rising(w) - value; };
    const Scalar brix = 100.0 * solve(off, Scalar(0.5), Scalar(0.0), last);
    return answer_of(brix, brix <= fitted_to);
}

/// From the refractive index nD: the scale is official to 85 %.
template <class Scalar>
answer<Scalar> brix_of_index(Scalar index) {
    return brix_at([](Scalar w) -> Scalar { return formula::sucrose_refractive_index(w); }, index, Scalar(85.0));
}

/// From the density: fitted to about 80 %, good to 85 %.
template <class Scalar>
answer<Scalar> brix_of_density(Scalar kg_per_m3) {
    return brix_at([](Scalar w) -> Scalar { return formula::sucrose_density(w, Scalar(20.0)); }, kg_per_m3,
                   Scalar(85.0));
}

}  // namespace sirop::core::embedded
