// The water that the solids of a mixture hold at an activity and a temperature: the sum of what each component
// holds (the additive-water rule), on the best curves and on the edges of their uncertainty.
#pragma once

#include "../base/sides.hpp"
#include "composition.hpp"
#include "glass_term.hpp"
#include "isotherm.hpp"
#include "mixing_rule.hpp"

namespace sirop::core {

inline constexpr sides<curve> three_curves{curve::best, curve::low, curve::high};

namespace detail {

/// For each component the first one of which `same` holds; component_count where nothing holds water.
template <class Same>
constexpr std::array<unsigned char, component_count> first_alike(const Same& same) {
    std::array<unsigned char, component_count> first{};
    for (std::size_t i = 0; i < component_count; ++i) {
        std::size_t of = component_count;
        if (components[i].isotherm.kind != isotherm_kind::none)
            for (of = 0; !same(components[of], components[i]);) ++of;
        first[i] = static_cast<unsigned char>(of);
    }
    return first;
}
/// One curve: the same law; of electrolytes each holds its share (size) of the first one's.
constexpr bool one_curve(const component_data& a, const component_data& b) {
    auto curve = a.isotherm;
    if (curve.kind == isotherm_kind::electrolyte) curve.size = b.isotherm.size;
    return curve == b.isotherm;
}
inline constexpr auto first_on_curve = first_alike(one_curve);
inline constexpr auto first_on_edges =
    first_alike([](const auto& a, const auto& b) { return a.isotherm == b.isotherm && a.trust == b.trust; });

constexpr std::size_t different(const std::array<unsigned char, component_count>& first) {
    std::size_t count = 0;
    for (std::size_t i = 0; i < component_count; ++i) count += first[i] == i;
    return count;
}

/// What holds water in a mixture: its distinct curves, each with what was last found on it, from which the next
/// search begins.
template <class Scalar>
class solids_of {
  public:
    using Number = constant_of<Scalar>;

    explicit solids_of(const mixture_of<Scalar>& m) {
        std::array<unsigned char, component_count> place{};  // of the curve of a component, from 1
        bool chains = false;
        for (std::size_t i = 0; i < component_count; ++i) {
            if (is_nothing(m.grams[i]) || m.grams[i] < Scalar(0.0)) continue;
            const std::size_t first = first_on_curve[i];
            if (first == component_count) continue;
            const auto& law = columns_of<Number>[first].isotherm;
            if (place[first] == 0) {
                parts_[count_] = {&law, Scalar(0.0), Number(0.0), {}};
                place[first] = static_cast<unsigned char>(++count_);
            }
            part& p = parts_[place[first] - 1U];
            const Scalar grams = law.kind == isotherm_kind::electrolyte
                                     ? Scalar(m.grams[i] * (columns_of<Number>[i].isotherm.size / law.size))
                                     : m.grams[i];
            p.grams += grams;
            p.largest = larger(p.largest, value_of(grams));
            if (law.kind == isotherm_kind::chain) chains = true;
        }
        if (chains) glass = glass_sums<Scalar>(m);
    }

    /// A first ln aw < 0 at which they hold about so much water at a temperature in K: every gram of a solute is
    /// taken to hold the same, and each law carried from there along its slope; solids that swell hold a little.
    Number begin(const Number& water, const Number& kelvin) {
        using std::exp;
        using std::log;
        const Number wet = -1.0e-3, middle = -0.4, zero = 0.0;
        Number grams{}, swollen{};
        for (std::size_t k = 0; k < count_; ++k) {
            const part& p = parts_[k];
            by_law(
                *p.law, middle, kelvin,
                [&](const auto&, const auto&, double) {
                    grams += value_of(p.grams);
                    return zero;
                },
                [&](const auto& known) {
                    swollen += value_of(p.grams) * known(middle);
                    return zero;
                });
        }
        const Number each = larger(Number(water - swollen), Number(0.2 * water)) / grams;
        std::array<Number, curve_count> at{};
        Number sum{}, weights{};
        for (std::size_t k = 0; k < count_; ++k) {
            part& p = parts_[k];
            by_law(
                *p.law, wet, kelvin,
                [&](const auto& law, const auto&, double) {
                    const auto a = law(jet<Number>{each, each, each});
                    const Number slope = a.value / a.first, weight = value_of(p.grams) * slope;
                    if (!(a.value < zero) || !(slope < zero)) return zero;
                    at[k] = log(-a.value);
                    p.at = {each, slope, zero, 0};
                    sum += weight * at[k];
                    weights += weight;
                    return zero;
                },
                [&](const auto&) { return zero; });
        }
        if (!(weights < zero)) return -0.4;
        const Number middle_of = sum / weights;
        for (std::size_t k = 0; k < count_; ++k) parts_[k].at.follow(middle_of - at[k]);
        return ln_aw_ = -exp(middle_of);
    }

    /// Grams of water held, as a liquid, at ln aw < 0 and T in K, and the slope of their logarithm by ln(-ln aw),
    /// as far as aw goes; exact, or to 3e-5 of the cube of an error that is told.
    template <class X>
    sloped<X, Number> held(const X& ln_aw, const X& kelvin, const Number& error = Number(0.0)) {
        const Number ln = value_of(ln_aw), reach = reach_of(error);
        const Number rise = ln_aw_ < Number(0.0) ? near_log(Number(ln / ln_aw_)) : Number(0.0);
        X total{};
        Number slope{};
        for (std::size_t k = 0; k < count_; ++k) {
            part& p = parts_[k];
            p.at.follow(rise);
            const X water = number_in<X>(p.grams) * find_water(*p.law, ln_aw, kelvin, reach, p.at);
            total += water;
            slope += value_of(water) * p.at.slope;
        }
        ln_aw_ = ln;
        return {total, slope / value_of(total)};
    }

    /// Whether the curves that hold at least one part in a hundred of the water are used in their ranges.
    grade status(const Number& ln_aw, const Number& kelvin) {
        const Number far = 1.0e-3;
        if (!(magnitude(near_log(Number(ln_aw / ln_aw_))) < far)) held(ln_aw, kelvin, far);
        Number all{};
        for (std::size_t k = 0; k < count_; ++k) all += value_of(parts_[k].grams) * parts_[k].at.water;
        bool fitted = kelvin <= Number(170.0 + formula::zero_celsius);
        for (std::size_t k = 0; k < count_; ++k) {
            const part& p = parts_[k];
            if (p.largest * p.at.water >= 0.1 * all && p.largest > Number(0.0))
                fitted = fitted && is_fitted(*p.law, ln_aw, kelvin);
        }
        return fitted ? grade::fine : grade::extrapolated;
    }

    glass_sums<Scalar> glass;
    int brackets = 0;  ///< how often a search of the mixture needed a bracket
    /// The same, and how often one of a curve did.
    int brackets_used() const {
        int sum = brackets;
        for (std::size_t k = 0; k < count_; ++k) sum += parts_[k].at.brackets;
        return sum;
    }

  protected:
    static constexpr std::size_t curve_count = different(first_on_curve);
    struct part {
        const isotherm_columns<Number>* law;
        Scalar grams;
        Number largest;  // grams of one component on it
        holding<Number> at;
    };
    static Number reach_of(const Number& error) {
        return larger(Number(precision<Number>::last_step), Number(0.03 * error));
    }

    std::array<part, curve_count> parts_;
    std::size_t count_ = 0;
    Number ln_aw_{};
};

/// The same with the edges of each curve.
class solids_on_edges : public solids_of<double> {
  public:
    explicit solids_on_edges(const mixture& m) : solids_of(m), mixed_(mixedness(m)) {
        std::array<unsigned char, component_count> place{};
        for (std::size_t i = 0; i < component_count; ++i) {
            if (!(m.grams[i] > 0.0)) continue;
            const std::size_t first = first_on_edges[i];
            if (first == component_count) continue;
            if (place[first] == 0) {
                std::size_t of = 0;
                while (parts_[of].law != &columns_of<double>[first_on_curve[i]].isotherm) ++of;
                edges_[edge_count_] = {&components[first], of, 0.0, 0.0, {}};
                place[first] = static_cast<unsigned char>(++edge_count_);
            }
            edges_[place[first] - 1U].grams += m.grams[i];
        }
    }

    /// As held, along a curve.
    sloped<double> held_on(curve side, double whole_ln_aw, double kelvin, double error = 0.0) {
        if (side == curve::best) return held(whole_ln_aw, kelvin, error);
        const double ln_aw = beside_mixing_rule(mixed_, whole_ln_aw, side);
        if (ln_aw != ln_aw_ || kelvin != kelvin_ || error < error_) {
            held(ln_aw, kelvin, error);
            for (std::size_t k = 0; k < count_; ++k)
                if (has_second_model(parts_[k].law->kind)) find_second(k, ln_aw, kelvin, error);
            kelvin_ = kelvin, error_ = error;
        }
        if (side != side_)
            for (std::size_t k = 0; k < edge_count_; ++k) edges_[k].ln_aw = 0.0;
        side_ = side;
        sloped<double> sum;
        for (std::size_t k = 0; k < edge_count_; ++k) {
            edge& e = edges_[k];
            const part& p = parts_[e.part];
            const double share = p.law->kind == isotherm_kind::electrolyte ? e.row->isotherm.size : 1.0;
            const double ln_edge = side == curve::second
                                       ? ln_aw
                                       : ln_aw * edge_power(*e.row, ln_aw, kelvin, share * p.at.water, side);
            const bool begun = e.ln_aw < 0.0;
            if (!begun) e.at = p.at;
            e.at.follow(near_log(ln_edge / (begun ? e.ln_aw : ln_aw)));
            e.ln_aw = ln_edge;
            double water = find_water(e.row->isotherm, ln_edge, kelvin, reach_of(error), e.at);
            double slope = e.at.slope;
            if (has_second_model(p.law->kind)) {
                const second_model& other = seconds_[e.part];
                if (side == curve::second) water = other.water, slope = other.at.slope;
                if (side == curve::low) water = std::fmin(water, other.water);
                if (side == curve::high) water = std::fmax(water, other.water);
            }
            sum.value += e.grams * water;
            sum.slope += e.grams * water * slope;
        }
        sum.slope /= sum.value;
        return sum;
    }

  private:
    struct edge {
        const component_data* row;
        std::size_t part;
        double grams, ln_aw;
        holding<double> at;
    };
    struct second_model {
        double ln_aw = 0.0, water = 0.0;
        holding<double> at{};
    };
    void find_second(std::size_t k, double ln_aw, double kelvin, double error) {
        const part& p = parts_[k];
        second_model& s = seconds_[k];
        if (s.ln_aw < 0.0)
            s.at.follow(near_log(ln_aw / s.ln_aw));
        else
            s.at = p.at;
        s.ln_aw = ln_aw;
        s.water = second_water(p.law->kind, ln_aw, kelvin, p.at.water, reach_of(error), s.at);
    }
    std::array<edge, different(first_on_edges)> edges_;
    std::size_t edge_count_ = 0;
    std::array<second_model, curve_count> seconds_{};
    double mixed_, kelvin_ = 0.0, error_ = 0.0;
    curve side_ = curve::best;
};

}  // namespace detail

/// Grams of water that the mixture's solids, as a liquid, hold at ln aw < 0 and T in K; its own water does not
/// enter.
template <class Scalar>
Scalar water_held_by_liquid(const mixture_of<Scalar>& m, const Scalar& ln_aw, const Scalar& kelvin) {
    return detail::solids_of<Scalar>(m).held(ln_aw, kelvin).value;
}

/// The same along a curve.
inline double water_held_by_liquid(const mixture& m, double ln_aw, double kelvin, curve side) {
    return detail::solids_on_edges(m).held_on(side, ln_aw, kelvin).value;
}

/// Grams of water that the mixture's solids hold at ln aw < 0 and T in K, in liquid and glass.
template <class Scalar>
Scalar water_held(const mixture_of<Scalar>& m, const Scalar& ln_aw, const Scalar& kelvin) {
    detail::solids_of<Scalar> solids(m);
    return detail::held_through_glass(
        solids.glass, [&](const auto&... at) { return solids.held(at...); }, ln_aw, kelvin, curve::best,
        solids.brackets);
}
namespace detail {
inline double water_held(solids_on_edges& solids, double ln_aw, double kelvin, curve side) {
    const auto liquid = [&](double ln, double t, double error) { return solids.held_on(side, ln, t, error); };
    return held_through_glass(solids.glass, liquid, ln_aw, kelvin, side, solids.brackets);
}
}  // namespace detail
/// The same along a curve.
inline double water_held(const mixture& m, double ln_aw, double kelvin, curve side) {
    detail::solids_on_edges solids(m);
    return detail::water_held(solids, ln_aw, kelvin, side);
}

template <class Scalar>
bool holds_water(const mixture_of<Scalar>& m) {
    for (std::size_t i = 0; i < component_count; ++i)
        if (m.grams[i] > Scalar(0.0) && detail::first_on_curve[i] != component_count) return true;
    return false;
}

/// Water held at ln aw < 0 and T in K on all three curves, with the grade.
inline estimate water_held_estimate(const mixture& m, double ln_aw, double kelvin) {
    detail::solids_on_edges solids(m);
    const auto grams =
        three_curves.map([&](curve side) { return detail::water_held(solids, ln_aw, kelvin, side); });
    return estimate_of(grams, solids.status(ln_aw, kelvin));
}

/// Whether measurements support the interval of the water: whether the isotherms that hold at least a tenth of it
/// are used in their ranges.  A smaller part, wrong by half, moves the whole by less than the others' interval.
template <class Scalar>
grade isotherms_grade(const mixture_of<Scalar>& m, const Scalar& ln_aw, const Scalar& kelvin) {
    detail::solids_of<Scalar> solids(m);
    solids.held(ln_aw, kelvin);
    return solids.status(value_of(ln_aw), value_of(kelvin));
}

}  // namespace sirop::core
