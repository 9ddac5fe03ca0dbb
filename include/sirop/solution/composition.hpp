// A mixture: grams of each component, dissolved or not.
#pragma once

#include <array>
#include <cstddef>

#include "../data/components.hpp"

namespace sirop::core {

using masses = std::array<double, component_count>;  ///< grams of each component

/// Grams of everything in the pot.  Crystals are sugar that is there but not dissolved: neither syrup nor
/// water-holding.  Raw is the part of what must boil to gel that has never boiled.
template <class Scalar>
struct mixture_of {
    using parts = std::array<Scalar, component_count>;
    parts grams{}, crystals_of{}, raw_of{};
    Scalar ice{};

    Scalar& operator[](component c) { return grams[index_of(c)]; }
    const Scalar& operator[](component c) const { return grams[index_of(c)]; }
    Scalar& crystals(component c) { return crystals_of[index_of(c)]; }
    const Scalar& crystals(component c) const { return crystals_of[index_of(c)]; }
    Scalar& raw(component c) { return raw_of[index_of(c)]; }
    const Scalar& raw(component c) const { return raw_of[index_of(c)]; }

    Scalar water() const { return (*this)[component::water]; }
    Scalar fat() const { return sum(phase::fat); }
    Scalar crystals() const {
        Scalar total{};
        for (const Scalar& g : crystals_of) total += g;
        return total;
    }
    Scalar sum(phase where) const {
        Scalar total{};
        for (std::size_t i = 0; i < component_count; ++i)
            if (columns_of<constant_of<Scalar>>[i].where == where) total += grams[i];
        return total;
    }
    Scalar dissolved() const { return sum(phase::dissolved); }
    Scalar total() const {
        return water() + dissolved() + sum(phase::suspended) + fat() + sum(phase::spirit) + crystals() + ice;
    }

    /// Mass fraction of dissolved solids in the syrup phase; NaN without a syrup phase.
    Scalar syrup_solids() const {
        const Scalar solids = dissolved();
        return solids / (solids + water());
    }

    mixture_of with_water(const Scalar& grams_of_water) const {
        mixture_of m = *this;
        m[component::water] = grams_of_water;
        return m;
    }

    /// The same in another amount.
    mixture_of times(const Scalar& factor) const {
        mixture_of m = *this;
        for (parts* of : {&m.grams, &m.crystals_of, &m.raw_of})
            for (Scalar& g : *of) g *= factor;
        m.ice *= factor;
        return m;
    }

    /// So many grams of a dissolved ingredient more.
    void add(const Scalar& grams_of_it, const masses& per_gram) {
        for (std::size_t i = 0; i < component_count; ++i) grams[i] += grams_of_it * per_gram[i];
    }
    mixture_of& operator+=(const mixture_of& other) {
        for (std::size_t i = 0; i < component_count; ++i) {
            grams[i] += other.grams[i];
            crystals_of[i] += other.crystals_of[i];
            raw_of[i] += other.raw_of[i];
        }
        ice += other.ice;
        return *this;
    }
};

using mixture = mixture_of<double>;

/// The same mixture in another scalar, without slopes.
template <class Scalar>
mixture_of<Scalar> in_scalar(const mixture& m) {
    mixture_of<Scalar> out;
    for (std::size_t i = 0; i < component_count; ++i) {
        out.grams[i] = m.grams[i];
        out.crystals_of[i] = m.crystals_of[i];
        out.raw_of[i] = m.raw_of[i];
    }
    out.ice = m.ice;
    return out;
}

}  // namespace sirop::core
