// What several tests expect of estimates, texts and refusals.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <initializer_list>
#include <string>
#include <vector>

#include "sirop/base/estimate.hpp"

namespace sirop_test {

/// Whether a number lies in the interval of an estimate, ends included.
inline bool holds(const sirop::core::estimate& e, double number) {
    return e.low <= number && number <= e.high;
}

/// Whether one of these texts contains a part.
inline bool mentions(const std::vector<std::string>& texts, const char* part) {
    return std::any_of(texts.begin(), texts.end(),
                       [&](const std::string& text) { return text.find(part) != std::string::npos; });
}

/// An answer that is none: it names the place, and its reason contains each of these parts.
template <class Answer>
void expect_no(const Answer& answer, const std::string& place, std::initializer_list<const char*> parts = {}) {
    ASSERT_FALSE(answer) << place;
    EXPECT_EQ(answer.why.place, place) << answer.why.reason;
    for (const char* part : parts) EXPECT_NE(answer.why.reason.find(part), std::string::npos) << answer.why.reason;
}

}  // namespace sirop_test
