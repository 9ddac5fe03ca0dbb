// The inputs of a batch that are uncertain in any kitchen, and the same batch with one of them off by an amount.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "../cooking/batch.hpp"

namespace sirop::core {

enum class input_kind : unsigned char {
    thermometer,          ///< K by which the cook really ends hotter
    pressure,             ///< hPa
    weighing,             ///< g of a line
    dextrose_equivalent,  ///< DE of a line of glucose syrup, along the table of starch syrups
    syrup_solids,         ///< percentage points of solids of a line of syrup, water giving way
    fat  ///< percentage points of fat of a line of cream or milk, the rest giving way in proportion
};

struct uncertain_input {
    input_kind kind = input_kind::thermometer;
    bool off_heat = false;  ///< of a line: where it stands,
    std::size_t line = 0;   ///< and its index
    std::string name;       ///< in words
    std::string place;      ///< in the batch: "pan[2].grams"
    double value = not_a_number;
    double standard_uncertainty = not_a_number;
    std::string unit;
};

/// What a kitchen without better knowledge may assume, as standard uncertainties (our estimates).  thermometer:
/// NaN takes thermometer_within_kelvin of the batch, a 95 % half width, over 1.96; 1 K if that is 0.  Weighing:
/// the larger of the two.  Fat: a quarter of it where it is below four times the number.
struct usual_uncertainties {
    double thermometer_kelvin = not_a_number;
    double pressure_hpa = 5.0;
    double weighing_grams = 1.0;
    double weighing_percent = 0.5;
    double dextrose_equivalent = 2.0;
    double syrup_solids_percent = 1.0;
    double fat_percent = 1.0;
};

namespace detail {

inline double fat_share(const masses& per_gram) {
    double fat = 0.0;
    for (const auto& c : components)
        if (c.where == phase::fat) fat += per_gram[index_of(c.id)];
    return fat;
}
/// Its kind in the pantry; what has its own composition counts by that: a syrup is water and what is dissolved in
/// it, milk or cream fat and protein in water.
inline ingredient_kind kind_of(const ingredient_line& l) {
    if (const auto* row = find_ingredient(l.name)) return row->kind;
    if (same_name(l.name, "glucose syrup")) return ingredient_kind::glucose_syrup;  // by dextrose equivalent
    double syrup = 0.0;
    for (const auto& c : components)
        if (c.where == phase::solvent || c.where == phase::dissolved) syrup += l.per_gram[index_of(c.id)];
    if (syrup > 0.98) return ingredient_kind::syrup;
    return l.per_gram[index_of(component::protein)] > 0.0 ? ingredient_kind::milk_or_cream
                                                          : ingredient_kind::other;
}
inline bool is_starch_syrup(const ingredient_line& l) {
    return has_dextrose_equivalent(kind_of(l)) && l.per_gram[index_of(component::glucose)] > 0.0;
}
inline bool is_syrup(const ingredient_line& l) {
    const double water = l.per_gram[index_of(component::water)];
    return has_varying_solids(kind_of(l)) && water > 0.0 && water < 1.0;
}
inline bool has_uncertain_fat(const ingredient_line& l) {
    return has_varying_fat(kind_of(l)) && fat_share(l.per_gram) > 0.0;
}

/// Solids of a starch syrup along the table, and how they change per DE: linear in each segment but for the
/// division by the sum, and on with the end segment's slope beyond the table.
struct starch_solids {
    masses share{}, by_de{};
};
inline starch_solids starch_solids_at(double de) {
    const double at = std::fmin(std::fmax(de, min_dextrose_equivalent), max_dextrose_equivalent);
    std::size_t upper = 1;
    while (upper + 1 < starch_syrups.size() && starch_syrups[upper].dextrose_equivalent < at) ++upper;
    const starch_syrup &a = starch_syrups[upper - 1], &b = starch_syrups[upper];
    const double width = b.dextrose_equivalent - a.dextrose_equivalent;
    const double t = (at - a.dextrose_equivalent) / width;
    const auto raw = [](double x, double y, double s) { return (1.0 - s) * x + s * y; };
    double sum = raw(a.fructose, b.fructose, t), slope_of_sum = (b.fructose - a.fructose) / width;
    for (std::size_t i = 0; i < chain_components.size(); ++i) {
        sum += raw(a.chains[i], b.chains[i], t);
        slope_of_sum += (b.chains[i] - a.chains[i]) / width;
    }
    starch_solids s;
    s.share = starch_syrup_solids(at);
    const auto slope = [&](double raw_slope, double share) {
        return 100.0 * raw_slope / sum - share * slope_of_sum / sum;
    };
    for (std::size_t i = 0; i < chain_components.size(); ++i) {
        const std::size_t k = index_of(chain_components[i]);
        s.by_de[k] = slope((b.chains[i] - a.chains[i]) / width, s.share[k]);
    }
    const std::size_t f = index_of(component::fructose);
    s.by_de[f] = slope((b.fructose - a.fructose) / width, s.share[f]);
    for (std::size_t i = 0; i < component_count; ++i) {
        s.share[i] = 0.01 * (s.share[i] + s.by_de[i] * (de - at));
        s.by_de[i] *= 0.01;
    }
    return s;
}

/// DE at which the table has a syrup's share of glucose in its solids.
inline double dextrose_equivalent_of(const masses& per_gram) {
    const double share = per_gram[index_of(component::glucose)] / (1.0 - per_gram[index_of(component::water)]);
    const auto glucose = [](double de) { return starch_solids_at(de).share[index_of(component::glucose)]; };
    const double found = solve_monotone([&](double de) { return glucose(de) - share; }, 40.0, 1.0, 120.0);
    return found;
}

/// A composition whose DE, solids or fat differ by an amount; negative shares if that is too much.
inline masses shifted(const masses& per_gram, input_kind kind, double by) {
    constexpr std::size_t water = index_of(component::water);
    masses m = per_gram;
    if (kind == input_kind::dextrose_equivalent) {
        const double de = dextrose_equivalent_of(per_gram);
        const auto from = starch_solids_at(de).share, to = starch_solids_at(de + by).share;
        for (std::size_t i = 0; i < component_count; ++i) m[i] += (1.0 - per_gram[water]) * (to[i] - from[i]);
    } else if (kind == input_kind::syrup_solids) {
        const double solids = 1.0 - per_gram[water];
        for (double& x : m) x *= (solids + 0.01 * by) / solids;
        m[water] = per_gram[water] - 0.01 * by;
    } else if (kind == input_kind::fat) {
        const double fat = fat_share(per_gram);
        for (const auto& c : components)
            m[index_of(c.id)] *= c.where == phase::fat ? 1.0 + 0.01 * by / fat : 1.0 - 0.01 * by / (1.0 - fat);
    }
    return m;
}

/// Its derivative per unit.
inline masses shifting(const masses& per_gram, input_kind kind) {
    if (kind != input_kind::dextrose_equivalent) {  // linear: the shift by one unit itself
        masses m = shifted(per_gram, kind, 1.0);
        for (std::size_t i = 0; i < component_count; ++i) m[i] -= per_gram[i];
        return m;
    }
    masses m = starch_solids_at(dextrose_equivalent_of(per_gram)).by_de;
    for (double& x : m) x *= 1.0 - per_gram[index_of(component::water)];
    return m;
}

inline const ingredient_line& line_of(const batch& b, const uncertain_input& in) {
    return (in.off_heat ? b.off_heat : b.pan)[in.line];
}

/// The same batch with an input off by an amount.
inline void shift(batch& b, const uncertain_input& in, double by) {
    if (in.kind == input_kind::thermometer) {
        b.thermometer_error_kelvin -= by;
        return;
    }
    if (in.kind == input_kind::pressure) {
        b.pressure_pa += 100.0 * by;
        return;
    }
    auto& line = (in.off_heat ? b.off_heat : b.pan)[in.line];
    if (in.kind == input_kind::weighing)
        line.grams += by;
    else
        line.per_gram = shifted(line.per_gram, in.kind, by);
}

}  // namespace detail

/// The inputs of a batch that are uncertain in any kitchen.
inline std::vector<uncertain_input> uncertain_inputs(const batch& b, const usual_uncertainties& usual = {}) {
    std::vector<uncertain_input> inputs;
    double kelvin = usual.thermometer_kelvin;
    if (std::isnan(kelvin))
        kelvin = b.thermometer_within_kelvin > 0.0 ? b.thermometer_within_kelvin / normal_95 : 1.0;
    inputs.push_back({input_kind::thermometer, false, 0, "thermometer", "cook.thermometer",
                      b.thermometer_celsius - b.thermometer_error_kelvin, kelvin, "K"});
    inputs.push_back({input_kind::pressure, false, 0, "air pressure", "cook.pressure_hpa", 0.01 * b.pressure_pa,
                      usual.pressure_hpa, "hPa"});
    for (const bool off_heat : {false, true}) {
        const auto& lines = off_heat ? b.off_heat : b.pan;
        for (std::size_t i = 0; i < lines.size(); ++i) {
            const auto& l = lines[i];
            if (!(l.grams > 0.0)) continue;
            const std::string place = (off_heat ? "off_heat[" : "pan[") + std::to_string(i) + "]";
            const auto add = [&](input_kind kind, const char* what, const char* key, double value, double u,
                                 const char* unit) {
                inputs.push_back({kind, off_heat, i, what + l.name, place + key, value, u, unit});
            };
            add(input_kind::weighing, "weighing of ", ".grams", l.grams,
                std::fmax(usual.weighing_grams, 0.01 * usual.weighing_percent * l.grams), "g");
            if (detail::is_starch_syrup(l))
                add(input_kind::dextrose_equivalent, "dextrose equivalent of ", ".dextrose_equivalent",
                    detail::dextrose_equivalent_of(l.per_gram), usual.dextrose_equivalent, "DE");
            if (detail::is_syrup(l))
                add(input_kind::syrup_solids, "solids of ", ".solids_percent",
                    100.0 * (1.0 - l.per_gram[index_of(component::water)]), usual.syrup_solids_percent, "%");
            if (detail::has_uncertain_fat(l)) {
                const double fat = 100.0 * detail::fat_share(l.per_gram);
                add(input_kind::fat, "fat of ", ".fat_percent", fat, std::fmin(usual.fat_percent, 0.25 * fat),
                    "%");
            }
        }
    }
    return inputs;
}

}  // namespace sirop::core
