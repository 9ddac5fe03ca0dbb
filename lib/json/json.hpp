// A JSON value: null, truth, number, text, list, or object in the order of its keys; and how it is written.
// Destroying one needs no memory, and recursion no deeper than the value.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <type_traits>
#include <variant>
#include <vector>

#include "sirop/base/estimate.hpp"

namespace sirop::lib {

class json {
  public:
    struct member;
    using list = std::vector<json>;
    using object = std::vector<member>;

    json() = default;  ///< null
    json(const json& other);
    json(json&& other) noexcept;
    json& operator=(json other) noexcept;
    ~json();
    /// A truth, a number, a text, a list or an object; a number that is not finite is null.
    template <class Value>
    json(Value value) : value_(kept(std::move(value))) {}
    json(double x);
    json(std::string_view text);
    json(const std::vector<std::string>& texts);

    bool is_null() const { return as<std::nullptr_t>() != nullptr; }
    /// What it holds (bool, std::string, list, object), or null if it holds something else.
    template <class Kind>
    const Kind* as() const {
        return std::get_if<Kind>(&value_);
    }
    template <class Kind>
    Kind* as() {
        return std::get_if<Kind>(&value_);
    }
    bool is_number() const;
    /// The number that it holds, or NaN.
    double number() const;
    /// The value under a key; null if it is no object or has no such key.
    const json* find(std::string_view key) const;

  private:
    /// Integers of any width are kept in 64 bits; a variant alone would not know which to take.
    template <class Value>
    static auto kept(Value value) {
        if constexpr (std::is_same_v<Value, bool> || !std::is_integral_v<Value>)
            return value;
        else if constexpr (std::is_signed_v<Value>)
            return static_cast<std::int64_t>(value);
        else
            return static_cast<std::uint64_t>(value);
    }

    std::variant<std::nullptr_t, bool, std::int64_t, std::uint64_t, double, std::string, list, object> value_;
};

struct json::member {
    std::string key;
    json value;
};

/// The value under a key, made where it is missing; what is no object becomes one.
json& at(json& object, std::string_view key);
/// A new null at the end of a list; what is no list becomes one.
json& grown(json& list);

/// Sets a key.
void write(json& object, std::string_view key, json value);
/// Sets a key, and beside it the two ends of its interval.
void write(json& object, const std::string& key, const core::estimate& e, double factor = 1.0);

/// A key and its value, as one of several that are set.
template <class Value>
struct field {
    std::string_view key;
    const Value& value;
};
template <class Value>
field(const char*, const Value&) -> field<Value>;
template <class... Values>
void write(json& object, const field<Values>&... fields) {
    (write(object, std::string(fields.key), fields.value), ...);
}

/// As text that ends in a newline; numbers are the shortest that read back as the same, and what is not UTF-8 is
/// replaced.
std::string text_of(const json& value);

}  // namespace sirop::lib
