// A batch: ingredients and masses, what is to be done with them, and the kitchen -> compositions.
#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "../base/limits.hpp"
#include "../base/outcome.hpp"
#include "../base/plain_text.hpp"
#include "../base/text.hpp"
#include "../data/pantry.hpp"
#include "../solution/mixture.hpp"

namespace sirop::core {

/// So many grams of an ingredient.
struct ingredient_line {
    std::string name;
    masses per_gram{};  ///< mass fractions, summing to 1
    double grams = 0.0;
    double celsius = 20.0;  ///< of an addition off the heat
};

/// What a cook decides; predict says what comes of it.
struct batch {
    std::string title;
    std::vector<ingredient_line> pan;
    std::vector<ingredient_line> off_heat;
    double thermometer_celsius = not_a_number;  ///< what the cook's thermometer shows when the cook ends
    double thermometer_error_kelvin = 0.0;      ///< by how much it reads too high
    double thermometer_within_kelvin = 0.0;     ///< its remaining uncertainty: widens every interval
    double pressure_pa = formula::standard_atmosphere;
    double serve_celsius = 20.0;
    double store_celsius = not_a_number;      ///< where it is kept; without one see stored_celsius
    double pour_celsius = not_a_number;       ///< where it shall pour at assembly, if asked
    std::vector<ingredient_line> neighbours;  ///< layers of the dessert that touch it
    std::string target_place = "cook";        ///< where a complaint about the target points
    std::vector<std::string> notes;           ///< what was assumed in reading it

    /// The true temperature at which the cook ends, C.
    double real_celsius() const { return thermometer_celsius - thermometer_error_kelvin; }

    /// Where it is kept, C: unless said, on a shelf at 20 C, or where it is served if that is colder.
    double stored_celsius() const {
        return std::isnan(store_celsius) ? std::fmin(serve_celsius, 20.0) : store_celsius;
    }
};

/// One gram of an ingredient of the pantry; none of an unknown name.
inline std::optional<masses> pantry_composition(std::string_view name) {
    const pantry_row* row = find_ingredient(name);
    if (row == nullptr) return std::nullopt;
    return composition_of(*row);
}

static_assert(dextrose_equivalent_limit.low == min_dextrose_equivalent &&
                  dextrose_equivalent_limit.high == max_dextrose_equivalent,
              "glucose syrups are accepted where the table has them");

/// One gram of a starch syrup of a dextrose equivalent and mass % of solids; the caller has checked the ranges.
inline masses starch_syrup_composition(double dextrose_equivalent, double solids_percent) {
    masses syrup = starch_syrup_solids(dextrose_equivalent);
    for (double& share : syrup) share *= 1.0e-4 * solids_percent;
    syrup[index_of(component::water)] += 1.0 - 0.01 * solids_percent;
    return syrup;
}

/// Whether an ingredient arrives dry: with less water than a tenth of its fat-free mass.
inline bool arrives_dry(const masses& per_gram) {
    return per_gram[index_of(component::water)] < 0.1 * (1.0 - per_gram[index_of(component::fat)]);
}

/// Everything in some lines, dissolved.
inline mixture contents_of(const std::vector<ingredient_line>& lines) {
    mixture m;
    for (const auto& line : lines) m.add(line.grams, line.per_gram);
    return m;
}

/// Everything in the pan, dissolved: it is going to boil, so what leaves in the boil (alcohol) is left out.
inline mixture in_the_pan(const std::vector<ingredient_line>& lines) {
    mixture m = contents_of(lines);
    for (const auto& c : components)
        if (c.leaves_in_the_boil) m[c.id] = 0.0;
    return m;
}

/// Masses as they are off the heat: what must boil to gel has not; sucrose and lactose are crystals if the
/// ingredient arrives dry.
template <class Scalar>
mixture_of<Scalar> as_it_arrives(const std::array<Scalar, component_count>& grams, bool dry) {
    mixture_of<Scalar> m;
    m.grams = grams;
    for (std::size_t i = 0; i < component_count; ++i) {
        if (components[i].must_boil) m.raw_of[i] = m.grams[i];
        if (dry && components[i].solubility != solubility_law::none)
            m.crystals_of[i] = std::exchange(m.grams[i], Scalar(0.0));
    }
    return m;
}

/// What so many grams of an ingredient bring off the heat.
inline mixture off_the_heat(double grams, const masses& per_gram) {
    mixture m;
    m.add(grams, per_gram);
    return as_it_arrives(m.grams, arrives_dry(per_gram));
}
inline mixture off_the_heat(const ingredient_line& line) {
    return off_the_heat(line.grams, line.per_gram);
}

/// The complaint about a number outside a limit.
inline refusal outside(const std::string& place, const limit& accepted, double value) {
    return {place, shortest(value) + " is outside the accepted range, " + shortest(accepted.low) + " to " +
                       shortest(accepted.high) + " " + std::string(accepted.unit)};
}

namespace detail {

/// The first thing wrong with a list of ingredients, if any.
inline std::optional<refusal> find_lines_fault(const std::vector<ingredient_line>& lines, const char* list) {
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const auto& line = lines[i];
        const std::string place = std::string(list).append(1, '[').append(std::to_string(i)).append(1, ']');
        if (auto fault = find_text_fault(place + ".ingredient", line.name)) return fault;
        if (!grams_limit.holds(line.grams)) return outside(place + ".grams", grams_limit, line.grams);
        if (!added_limit.holds(line.celsius)) return outside(place + ".celsius", added_limit, line.celsius);
        double shares = 0.0;
        for (const double share : line.per_gram) shares += share >= 0.0 ? share : not_a_number;
        if (!(std::fabs(shares - 1.0) <= 1.0e-6))
            return refusal{place,
                           "has a composition that is negative or nothing; masses of at least 0 are accepted"};
    }
    return std::nullopt;
}

}  // namespace detail

/// The first thing wrong with the names and numbers of a batch, if any.
inline std::optional<refusal> find_fault(const batch& b) {
    if (auto fault = find_text_fault("title", b.title)) return fault;
    for (const auto& note : b.notes)
        if (auto fault = find_text_fault("notes", note)) return fault;
    if (b.pan.empty()) return refusal{"pan", "is empty; it needs at least one ingredient with its grams"};
    if (auto fault = detail::find_lines_fault(b.pan, "pan")) return fault;
    double total = 0.0;
    for (const auto& line : b.pan) total += line.grams;
    if (!(total > 0.0)) return refusal{"pan", "holds 0 g in all; at least one ingredient needs more than 0 grams"};
    if (auto fault = detail::find_lines_fault(b.off_heat, "off_heat")) return fault;
    if (!pressure_limit.holds(0.01 * b.pressure_pa))
        return outside("cook.pressure_hpa", pressure_limit, 0.01 * b.pressure_pa);
    if (!serve_limit.holds(b.serve_celsius)) return outside("serve.celsius", serve_limit, b.serve_celsius);
    if (!serve_limit.holds(b.stored_celsius())) return outside("store.celsius", serve_limit, b.store_celsius);
    if (!std::isnan(b.pour_celsius) && !pour_limit.holds(b.pour_celsius))
        return outside("pour.celsius", pour_limit, b.pour_celsius);
    if (auto fault = detail::find_lines_fault(b.neighbours, "neighbours")) return fault;
    for (std::size_t i = 0; i < b.neighbours.size(); ++i)
        if (!(b.neighbours[i].grams > 0.0))
            return refusal{"neighbours[" + std::to_string(i) + "].grams", "is 0; a layer needs more than 0 grams"};
    if (!thermometer_error_limit.holds(b.thermometer_error_kelvin))
        return outside("cook.thermometer_reads_in_boiling_water_celsius", thermometer_error_limit,
                       b.thermometer_error_kelvin);
    if (!thermometer_within_limit.holds(b.thermometer_within_kelvin))
        return outside("cook.thermometer_within_celsius", thermometer_within_limit, b.thermometer_within_kelvin);
    if (!target_limit.holds(b.thermometer_celsius))
        return outside(b.target_place, target_limit, b.thermometer_celsius);
    return std::nullopt;
}

}  // namespace sirop::core
