// What the questions that plan a batch share: its lines by their place, and what they weigh of the finished batch.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "../stability/sweetness.hpp"
#include "cook_for.hpp"

namespace sirop::core {

enum class batch_list : unsigned char { pan, off_heat };

/// Where a line stands in a batch: "pan[1]", "off_heat[0]".
struct line_place {
    batch_list list = batch_list::pan;
    std::size_t index = 0;

    bool operator==(const line_place&) const = default;
    std::string text() const {
        return std::string(list == batch_list::pan ? "pan[" : "off_heat[") + std::to_string(index) + "]";
    }
};

/// A finished batch as plan questions weigh it, by the best estimate.
struct finished_measures {
    double sweetness_percent = not_a_number, fat_percent = not_a_number, protein_percent = not_a_number,
           cocoa_percent = not_a_number, water_percent = not_a_number;
    double water_activity = not_a_number;                                                   ///< in storage
    double sucrose_supersaturation = not_a_number, lactose_supersaturation = not_a_number;  ///< in storage
    double hindering_percent = not_a_number;
    graining_risk risk = graining_risk::none;  ///< the worse of serving and storage
    double grams = not_a_number, dry_grams = not_a_number, millilitres = not_a_number;
    double log10_firmness = not_a_number, log10_firmness_at_pouring = not_a_number;
    std::string word, word_at_pouring;
};

inline finished_measures measures_of(const batch& b, const mixture& finished) {
    finished_measures f;
    const double store = b.stored_celsius();
    f.grams = finished.total();
    f.dry_grams = f.grams - finished.water();
    const auto share = [&](double part) { return percent(part, f.grams); };
    f.sweetness_percent = sweetness_percent(finished).value;
    f.fat_percent = share(finished.fat());
    f.protein_percent = share(finished[component::protein] + finished[component::gelatin]);
    f.cocoa_percent = share(finished[component::cocoa_solids] + finished[component::cocoa_butter]);
    f.water_percent = share(finished.water());
    f.water_activity = measured(wanted_number(measure::water_activity, 0.5, store), finished, finished, store);
    const auto stored = graining_of(at_temperature(finished, store), store);
    f.sucrose_supersaturation = stored[component::sucrose].supersaturation.value;
    f.lactose_supersaturation = stored[component::lactose].supersaturation.value;
    f.hindering_percent = stored.hindering_percent;
    f.risk = stored.risk;
    if (b.serve_celsius != store)
        f.risk = std::max(f.risk, graining_of(at_temperature(finished, b.serve_celsius), b.serve_celsius).risk);
    f.millilitres = volume(finished, b.serve_celsius);
    grade ignored = grade::fine;
    const auto firmness = [&](double celsius, history h) {
        return detail::log10_firmness_value(at_temperature(finished, celsius), celsius, h, ignored);
    };
    f.log10_firmness = firmness(b.serve_celsius, history::cooling);
    f.word = word_for(std::pow(10.0, f.log10_firmness)).word;
    if (!std::isnan(b.pour_celsius)) {
        f.log10_firmness_at_pouring = firmness(b.pour_celsius, history::warming);
        f.word_at_pouring = word_for(std::pow(10.0, f.log10_firmness_at_pouring)).word;
    }
    return f;
}

namespace detail {

inline std::string grams_text(double grams) {
    return fixed(grams, grams >= 50.0 ? 0 : 1) + " g";
}

inline std::vector<ingredient_line>& lines_of(batch& b, batch_list list) {
    return list == batch_list::pan ? b.pan : b.off_heat;
}
inline const ingredient_line* find_line(const batch& b, const line_place& at) {
    const auto& lines = at.list == batch_list::pan ? b.pan : b.off_heat;
    return at.index < lines.size() ? &lines[at.index] : nullptr;
}

inline std::string risk_name(graining_risk r) {
    return std::string(graining_risk_names[static_cast<std::size_t>(r)]);
}

/// What is wrong with the grams that a line may have, if anything.
inline std::optional<refusal> find_grams_range_fault(const std::string& place, double least, double most) {
    if (least >= 0.0 && least <= most && least < HUGE_VAL) return std::nullopt;
    return refusal{place, "may be from " + shortest(least) + " to " + shortest(most) +
                              " g; a range from at least 0 upward is accepted"};
}

}  // namespace detail

}  // namespace sirop::core
