// What is timed (speed.cpp) and what is counted (instruction_counts.py): the same calls on the same inputs.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "sirop/cooking/graining_fixes.hpp"
#include "sirop/questions/formulate.hpp"
#include "sirop/questions/rescue.hpp"
#include "sirop/sirop.h"

namespace speed {

using masses = std::array<double, SIROP_COMPONENT_COUNT>;

inline const masses& plain_syrup() {
    static const masses grams = [] {
        masses g{};
        g[SIROP_SUCROSE] = 80.0;
        g[SIROP_WATER] = 20.0;
        return g;
    }();
    return grams;
}

/// Sugar, a glucose syrup and cream: 16 components.
inline const masses& caramel() {
    static const masses grams = [] {
        masses sum{}, one{};
        for (const auto& [name, share] :
             {std::pair{"white sugar", 2.5}, {"glucose syrup 42 DE", 1.0}, {"heavy cream 36 %", 2.4}}) {
            sirop_ingredient_grams(name, one.data(), one.size());
            for (std::size_t i = 0; i < one.size(); ++i) sum[i] += share * one[i];
        }
        sum[SIROP_WATER] = 80.0;
        return sum;
    }();
    return grams;
}

// Invented.
inline const std::string batch_text = R"json({"sirop_batch": 1, "title": "Tonka caramel (invented)", "pan": [
    {"ingredient": "white sugar", "grams": 210}, {"ingredient": "glucose syrup 42 DE", "grams": 140},
    {"ingredient": "heavy cream 36 %", "grams": 230}], "cook": {"to_celsius": 109},
    "off_heat": [{"ingredient": "butter, unsalted", "grams": 35}]})json";

inline std::string question(const char* rest) {
    return R"({"sirop_question": 1, "batch": )" + batch_text + ", " + rest + "}";
}

/// The same batch without a text.
inline const sirop::core::batch& batch() {
    using namespace sirop::core;
    static const auto plan = [] {
        const auto line = [](const char* name, double grams) {
            return ingredient_line{name, *pantry_composition(name), grams};
        };
        sirop::core::batch b;
        b.title = "Tonka caramel (invented)";
        b.pan = {line("white sugar", 210.0), line("glucose syrup 42 DE", 140.0), line("heavy cream 36 %", 230.0)};
        b.off_heat = {line("butter, unsalted", 35.0)};
        b.thermometer_celsius = 109.0;
        return b;
    }();
    return plan;
}

/// A text in, a text out.
template <class Call>
int32_t text_by(const Call& call) {
    static std::vector<char> out(1U << 20U);
    std::size_t needed = 0;
    return call(out.data(), out.size(), &needed);
}
inline int32_t ask(const char* rest) {
    static std::string text;
    text = question(rest);
    return text_by([](char* out, std::size_t bytes, std::size_t* needed) {
        return sirop_ask_json(text.data(), text.size(), out, bytes, needed);
    });
}

inline volatile double sink;  ///< where a result goes that nobody reads

/// What a slider shows of a batch, by the best estimate, without the heap.
inline int32_t best_values() {
    using namespace sirop::core;
    const auto& b = batch();
    static const mixture pan = in_the_pan(b.pan);
    static const auto added = additions(b.off_heat);
    const mixture finished = finished_at(pan, b.thermometer_celsius, added, b.pressure_pa).contents;
    grade ignored = grade::fine;
    sink = percent(finished.water(), finished.total()) + best_activity(finished, b.serve_celsius) +
           detail::log10_firmness_value(finished, b.serve_celsius, history::cooling, ignored) +
           glass_celsius(finished) + stage_in_cold_water(finished, stage_tables[0]).plain_celsius;
    return 0;
}
inline int32_t predict_numbers() {
    const auto p = sirop::core::predict(batch(), sirop::core::stage_tables[0]);
    sink = p ? p->finished.water_percent.value : 0.0;
    return p ? 0 : -1;
}
inline int32_t predict_with_remedies() {
    const int32_t status = predict_numbers();
    return sirop::core::ways_to_clear_graining(batch()).empty() ? -1 : status;
}
inline int32_t predict_text() {
    return text_by([](char* out, std::size_t bytes, std::size_t* needed) {
        return sirop_predict_json(batch_text.data(), batch_text.size(), nullptr, out, bytes, needed);
    });
}
inline int32_t cook_for() {
    return sirop::core::cook_for(batch(), sirop::core::wanted_word("ribbon")) ? 0 : -1;
}
inline int32_t rescue() {
    return sirop::core::rescue(batch(), {.thermometer_celsius = 119.0}, sirop::core::wanted_word("ribbon")) ? 0
                                                                                                            : -1;
}
inline int32_t formulate() {
    using namespace sirop::core;
    const auto& b = batch();
    formulation q;
    q.kitchen = b;
    q.pan = {{b.pan[0], true}, {b.pan[1]}, {b.pan[2], true}};
    q.off_heat = {{b.off_heat[0]}};
    q.sets = {wanted_word("mounding")};
    q.yield = yield_target{600.0};
    return sirop::core::formulate(q) ? 0 : -1;
}

template <const masses& (*Of)(), class Call>
int32_t of_mixture(const Call& call) {
    sirop_estimate e{};
    const int32_t status = call(Of().data(), Of().size(), &e);
    sink = e.value;
    return status;
}
template <const masses& (*Of)()>
int32_t water_at_boil() {
    return of_mixture<Of>([](const double* g, std::size_t n, sirop_estimate* e) {
        return sirop_water_at_boil_grams(g, n, 118.0, 955.0, e);
    });
}
template <const masses& (*Of)()>
int32_t boiling_point() {
    return of_mixture<Of>([](const double* g, std::size_t n, sirop_estimate* e) {
        return sirop_boiling_point_celsius(g, n, 955.0, e);
    });
}
template <const masses& (*Of)()>
int32_t water_activity() {
    return of_mixture<Of>(
        [](const double* g, std::size_t n, sirop_estimate* e) { return sirop_water_activity(g, n, 20.0, e); });
}
template <const masses& (*Of)()>
int32_t stage() {
    return of_mixture<Of>([](const double* g, std::size_t n, sirop_estimate*) {
        sirop_stage_place place{};
        return sirop_stage_of_mixture(nullptr, g, n, &place);
    });
}

/// One call that is timed; its instructions are counted where it is of the ten that stand for all.
struct workload {
    std::string_view name;
    std::string_view what;  ///< on docs/speed.md
    int32_t (*call)();      ///< a status, negative where it fails
    double aim_exps;        ///< how many times as long as one exp it may take; 0: no aim
    bool counted = true;
};

inline constexpr std::array workloads = {
    workload{"water_at_boil", "`sirop_water_at_boil_grams`, caramel", water_at_boil<caramel>, 0.0},
    workload{"water_at_boil_plain", "the same, plain syrup", water_at_boil<plain_syrup>, 0.0, false},
    workload{"boiling_point_plain", "`sirop_boiling_point_celsius`, plain syrup", boiling_point<plain_syrup>, 0.0},
    workload{"boiling_point", "the same, caramel", boiling_point<caramel>, 0.0},
    workload{"water_activity", "`sirop_water_activity`, caramel", water_activity<caramel>, 0.0, false},
    workload{"stage", "`sirop_stage_of_mixture`, caramel", stage<caramel>, 0.0, false},
    workload{"best_values", "best values of a batch alone, without the heap", best_values, 1600.0},
    workload{"predict_numbers", "a prediction, numbers and intervals", predict_numbers, 6000.0},
    workload{"predict_with_remedies", "the same with its ways to clear the graining", predict_with_remedies,
             24000.0},
    workload{"predict_text", "a prediction with all its sentences, from JSON to JSON", predict_text, 36000.0},
    workload{"cook_for", "`cook_for`", cook_for, 20000.0},
    workload{"rescue", "`rescue`, three liquids", rescue, 60000.0},
    workload{"formulate", "`formulate`", formulate, 400000.0},
    workload{"substitute_text", "`substitute`, as a question in JSON, with the prediction",
             [] { return ask(R"("ask": "substitute", "replace": "heavy cream 36 %", "by": ["coconut cream"])"); },
             0.0, false},
    workload{"sensitivity_text", "`sensitivity`, likewise", [] { return ask(R"("ask": "sensitivity")"); }, 0.0,
             false},
};

}  // namespace speed
