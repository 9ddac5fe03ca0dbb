// A value, or the reason why there is none.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "../formula/no_fast_math.hpp"
#include "text.hpp"

namespace sirop::core {

/// Why a question is refused: the place in the batch, and a sentence with the value and what is accepted.
struct refusal {
    std::string place;
    std::string reason;
};

/// A number outside what is accepted, which is said in words: "0 to 15 K".
inline refusal outside(std::string place, double value, std::string_view accepted) {
    return {std::move(place), shortest(value) + " is outside the accepted range, " + std::string(accepted)};
}

/// A value, or the reason why there is none.
template <class Value>
struct outcome {
    std::optional<Value> value;
    refusal why;

    outcome(Value v) : value(std::move(v)) {}
    outcome(refusal r) : why(std::move(r)) {}
    explicit operator bool() const { return value.has_value(); }
    const Value& operator*() const { return *value; }
    const Value* operator->() const { return &*value; }
};

}  // namespace sirop::core
