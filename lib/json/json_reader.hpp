// Reading JSON from strangers: the document with its first fault, and typed fields with the place of each fault.
#pragma once

#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "json/json.hpp"
#include "sirop/base/limits.hpp"
#include "sirop/base/outcome.hpp"

namespace sirop::lib {

inline constexpr std::size_t most_bytes = 1048576;  ///< of a text
inline constexpr std::size_t most_depth = 32;       ///< of nested objects and lists

using core::refusal;

/// Text of a stranger, fit for one line: at most 60 bytes, what is not plain text escaped.
std::string tame(std::string_view text);
std::string in_quotes(std::string_view text);

/// Adds a name to a list of them.
inline void add_name(std::string& list, std::string_view name) {
    list.append(list.empty() ? "" : ", ").append(name);
}

/// What a value is, in a refusal.
std::string shown(const json& value);

/// What is said of a number outside its range.
std::string outside(double x, double low, double high);

/// The JSON object that a text holds, or the first thing wrong with it.  Never throws but for lack of memory.
core::outcome<json> read_object(std::string_view text);

/// Reads typed fields; keeps the first fault and from then on gives back defaults.
class field_reader {
  public:
    std::optional<refusal> fault;

    void refuse(const std::string& place, const std::string& reason) {
        if (!fault) fault = refusal{place, reason};
    }

    /// The object at a place, its keys all among the accepted ones.
    const json* object(const json& value, const std::string& place, std::span<const std::string_view> accepted);
    const json* object(const json& value, const std::string& place,
                       std::initializer_list<std::string_view> accepted) {
        return object(value, place, std::span(accepted.begin(), accepted.size()));
    }
    /// Lets `read` have each part of a list and its place, until there is a fault; `accepted` is said of what is
    /// no list.
    template <class Read>
    void each(const json& value, const std::string& place, const Read& read, const char* accepted = "a list") {
        const auto* list = value.as<json::list>();
        if (list == nullptr) return refuse(place, "is " + shown(value) + "; " + accepted + " is accepted");
        for (std::size_t i = 0; i < list->size() && !fault; ++i)
            read((*list)[i], place + "[" + std::to_string(i) + "]");
    }

    const json* member(const json& object, std::string_view key) const { return object.find(key); }
    const json* required(const json& object, const std::string& place, const char* key, const char* accepted);

    /// The version of a format, 1, under a key.
    void version(const json& object, const char* key);

    double number(const json& value, const std::string& place, const char* unit);
    double number_within(const json& value, const std::string& place, const core::limit& range);
    double number_between(const json& value, const std::string& place, double low, double high, const char* unit);
    std::string text(const json& value, const std::string& place);

    static std::string under(const std::string& place, const std::string& key) {
        return place.empty() || place == "batch" ? key : place + "." + key;
    }
};

}  // namespace sirop::lib
