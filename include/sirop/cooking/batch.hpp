// A batch: ingredients and masses, what is to be done with them, and the kitchen -> compositions.
#pragma once

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

struct ingredient_line {
    std::string name;
    masses per_gram{};  ///< mass fractions, summing to 1
    double grams = 0.0;
    double celsius = 20.0;  ///< of an addition off the heat
};

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

    /// On a shelf at 20 C, or where it is served if that is colder.
    double stored_celsius() const {
        return std::isnan(store_celsius) ? std::fmin(serve_celsius, 20.0) : store_celsius;
    }
};

/// An ingredient of the pantry, or of the starch syrups at a dextrose equivalent and solids.
inline std::optional<masses> pantry_composition(std::string_view name) {
    const pantry_row* row = find_ingredient(name);
    if (row == nullptr) return std::nullopt;
    return composition_of(*row);
}

static_assert(dextrose_equivalent_limit.low == min_dextrose_equivalent &&
                  dextrose_equivalent_limit.high == max_dextrose_equivalent,
              "glucose syrups are accepted where the table has them");

/// One gram of a starch syrup; the caller has checked the ranges.
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

/// Everything in the pan, dissolved: it is going to boil.
inline mixture in_the_pan(const std::vector<ingredient_line>& lines) {
    mixture m;
    for (const auto& line : lines)
        for (std::size_t i = 0; i < component_count; ++i) m.grams[i] += line.grams * line.per_gram[i];
    return m;
}

/// Masses as they are off the heat: protein, starch and agar that never boil; sucrose and lactose as crystals if
/// the ingredient arrives dry.
inline mixture as_it_arrives(const masses& grams, bool dry) {
    mixture m;
    m.grams = grams;
    m.raw_protein = m[component::protein];
    m.raw_starch = m[component::starch];
    m.raw_agar = m[component::agar];
    if (!dry) return m;
    m.sucrose_crystals = std::exchange(m[component::sucrose], 0.0);
    m.lactose_crystals = std::exchange(m[component::lactose], 0.0);
    return m;
}

/// What an ingredient brings off the heat.
inline mixture off_the_heat(const ingredient_line& line) {
    return as_it_arrives(in_the_pan({line}).grams, arrives_dry(line.per_gram));
}

/// The first thing wrong with the names and numbers of a batch, if any.
inline std::optional<refusal> find_fault(const batch& b) {
    const auto outside = [](const std::string& place, const limit& l, double value) {
        return refusal{place, shortest(value) + " is outside the accepted range, " + shortest(l.low) + " to " +
                                  shortest(l.high) + " " + std::string(l.unit)};
    };
    double total = 0.0;
    const auto check_lines = [&](const std::vector<ingredient_line>& lines, const std::string& list,
                                 double& sum) -> std::optional<refusal> {
        for (std::size_t i = 0; i < lines.size(); ++i) {
            const std::string place = list + "[" + std::to_string(i) + "]";
            if (auto fault = find_text_fault(place + ".ingredient", lines[i].name)) return fault;
            if (!grams_limit.holds(lines[i].grams)) return outside(place + ".grams", grams_limit, lines[i].grams);
            if (!added_limit.holds(lines[i].celsius))
                return outside(place + ".celsius", added_limit, lines[i].celsius);
            double shares = 0.0;
            for (const double share : lines[i].per_gram) shares += share >= 0.0 ? share : not_a_number;
            if (!(std::fabs(shares - 1.0) <= 1.0e-6))
                return refusal{place,
                               "has a composition that is negative or nothing; masses of at least 0 are accepted"};
            sum += lines[i].grams;
        }
        return std::nullopt;
    };
    if (auto fault = find_text_fault("title", b.title)) return fault;
    for (const auto& note : b.notes)
        if (auto fault = find_text_fault("notes", note)) return fault;
    if (b.pan.empty()) return refusal{"pan", "is empty; it needs at least one ingredient with its grams"};
    if (auto fault = check_lines(b.pan, "pan", total)) return fault;
    if (!(total > 0.0)) return refusal{"pan", "holds 0 g in all; at least one ingredient needs more than 0 grams"};
    if (auto fault = check_lines(b.off_heat, "off_heat", total)) return fault;
    if (!pressure_limit.holds(0.01 * b.pressure_pa))
        return outside("cook.pressure_hpa", pressure_limit, 0.01 * b.pressure_pa);
    if (!serve_limit.holds(b.serve_celsius)) return outside("serve.celsius", serve_limit, b.serve_celsius);
    if (!serve_limit.holds(b.stored_celsius())) return outside("store.celsius", serve_limit, b.store_celsius);
    if (!std::isnan(b.pour_celsius) && !pour_limit.holds(b.pour_celsius))
        return outside("pour.celsius", pour_limit, b.pour_celsius);
    double beside = 0.0;
    if (auto fault = check_lines(b.neighbours, "neighbours", beside)) return fault;
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
