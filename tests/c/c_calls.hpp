// What the tests of the C API share: mixtures, whether a result is NaN, texts, handles.
#pragma once

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <limits>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>

#include "sirop/sirop.h"

namespace sirop_test {

using json = nlohmann::ordered_json;

inline constexpr std::size_t count = SIROP_COMPONENT_COUNT;
inline constexpr double nan_value = std::numeric_limits<double>::quiet_NaN();
using grams_of_all = std::array<double, count>;

inline grams_of_all mixture_of(std::initializer_list<std::pair<int, double>> parts) {
    grams_of_all grams{};
    for (const auto& [component, mass] : parts) grams[static_cast<std::size_t>(component)] = mass;
    return grams;
}

/// True if all are NaN; a place that an error left as it was still holds its 7.0.
template <class Numbers>
bool all_nan(const Numbers& numbers) {
    for (const double x : numbers)
        if (!std::isnan(x)) return false;
    return true;
}
inline bool all_nan(const sirop_range& r) {
    return all_nan(std::array{r.low, r.high});
}
inline bool all_nan(const sirop_estimate& e) {
    return all_nan(std::array{e.value, e.low, e.high});
}
inline bool all_nan(const sirop_graining& g) {
    return all_nan(g.sucrose_supersaturation) && all_nan(g.lactose_supersaturation) &&
           all_nan(g.crystallizable_percent) && std::isnan(g.hindering_percent) && g.risk == -1;
}
inline constexpr sirop_estimate stale{7.0, 7.0, 7.0, 7, 7};
inline constexpr sirop_graining stale_graining{sizeof(sirop_graining), 7, 7, 7, stale, stale, stale, 7.0};

/// Equal, NaN to NaN.
inline bool same(double a, double b) {
    return a == b || (std::isnan(a) && std::isnan(b));
}
inline bool same(const sirop_estimate& a, const sirop_estimate& b) {
    return same(a.value, b.value) && same(a.low, b.low) && same(a.high, b.high) && a.status == b.status;
}
inline bool same(const sirop_graining& a, const sirop_graining& b) {
    return a.status == b.status && a.risk == b.risk &&
           same(a.sucrose_supersaturation, b.sucrose_supersaturation) &&
           same(a.lactose_supersaturation, b.lactose_supersaturation) &&
           same(a.crystallizable_percent, b.crystallizable_percent) &&
           same(a.hindering_percent, b.hindering_percent);
}

struct written {
    int32_t status;
    std::string text;
};
/// What a call that takes these arguments writes, and its status.
template <class Function, class... Arguments>
written text_of(const Function& function, const Arguments&... arguments) {
    std::size_t needed = 0;
    written w{function(arguments..., nullptr, 0, &needed), {}};
    if (w.status != SIROP_E_BUFFER) return w;
    w.text.resize(needed);
    w.status = function(arguments..., w.text.data(), w.text.size(), &needed);
    w.text.resize(needed - 1);
    return w;
}

template <class Handle>
struct owned {
    Handle* it = nullptr;
    void (*free)(Handle*);
    explicit owned(void (*f)(Handle*)) : free(f) {}
    ~owned() { free(it); }
    owned(const owned&) = delete;
    owned& operator=(const owned&) = delete;
};
struct batch : owned<sirop_batch> {
    batch() : owned(sirop_batch_free) { EXPECT_EQ(sirop_batch_new(&it), SIROP_OK); }
    explicit batch(const std::string& text) : owned(sirop_batch_free) {
        EXPECT_EQ(sirop_batch_read(text.data(), text.size(), &it), SIROP_OK) << refusal();
    }
    std::string refusal() const { return sirop_batch_refusal(it); }
    std::string text() const {
        const auto w = text_of(sirop_batch_text, it);
        EXPECT_EQ(w.status, SIROP_OK);
        return w.text;
    }
};
struct answer : owned<sirop_answer> {
    answer() : owned(sirop_answer_free) {}
    json content() const {
        const auto w = text_of(sirop_answer_text, it, "");
        EXPECT_GE(w.status, 0);
        return json::parse(w.text, nullptr, false);
    }
    std::string report() const { return text_of(sirop_answer_report, it).text; }
    double number(const char* key) const {
        double found = nan_value;
        EXPECT_GE(sirop_answer_number(it, key, &found), 0) << key;
        return found;
    }
};
struct question : owned<sirop_question> {
    explicit question(const char* kind) : owned(sirop_question_free) {
        EXPECT_EQ(sirop_question_new(kind, &it), SIROP_OK);
    }
    std::string refusal() const { return sirop_question_refusal(it); }
};

}  // namespace sirop_test
