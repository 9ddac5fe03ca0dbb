// Reading JSON from strangers: the document with its first fault, and typed fields with the place of each fault.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "json/json.hpp"
#include "sirop/cooking/batch.hpp"

namespace sirop::lib {

inline constexpr std::size_t most_bytes = 1048576;  ///< of a text

using core::refusal;

/// Text of a stranger, fit for one line.
inline std::string tame(std::string_view text) {
    return core::escaped(text, 60);
}

inline std::string in_quotes(std::string_view text) {
    std::string out(1, '"');
    return out.append(tame(text)).append(1, '"');
}

inline std::string shown(const json& value) {
    if (value.is_object()) return "an object";
    if (value.is_array()) return "a list";
    if (value.is_string()) return "the text " + in_quotes(value.get_ref<const std::string&>());
    return tame(value.dump(-1, ' ', true, json::error_handler_t::replace));
}

/// Builds the document from parser events; stops at a duplicate key or at too much depth.
class builder {
  public:
    explicit builder(std::string_view text) : text_(text) {}

    json root;
    std::optional<refusal> fault;

    bool null() { return put(nullptr); }
    bool boolean(bool value) { return put(value); }
    bool number_integer(json::number_integer_t value) { return put(value); }
    bool number_unsigned(json::number_unsigned_t value) { return put(value); }
    bool number_float(json::number_float_t value, const json::string_t&) { return put(value); }
    bool string(json::string_t& value) { return put(std::move(value)); }
    bool binary(json::binary_t&) { return false; }

    bool start_object(std::size_t) { return open(json::object()); }
    bool start_array(std::size_t) { return open(json::array()); }
    bool end_object() { return close(); }
    bool end_array() { return close(); }

    bool key(json::string_t& name) {
        constexpr std::size_t most_keys = 64;  // far more than any object here has
        if (stack_.back()->size() >= most_keys) {
            fault = refusal{path(tame(name)), "is one key too many; at most " + std::to_string(most_keys) +
                                                  " are accepted in one object"};
            return false;
        }
        if (stack_.back()->contains(name)) {
            fault = refusal{path(tame(name)), "the key stands twice; each key is accepted once"};
            return false;
        }
        keys_.back() = name;
        return true;
    }

    bool parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception& problem) {
        // What the parser found and expected, without its own account of the place; then the word that it stopped
        // at.
        std::string what = problem.what();
        for (const char* prefix : {"] ", ": "})
            if (const auto from = what.find(prefix); from != std::string::npos) what.erase(0, from + 2);
        if (const auto last_read = what.find("; last read"); last_read != std::string::npos)
            what.resize(last_read);
        std::string plain;
        for (const char c : what.substr(0, 160)) plain += c >= 0x20 && c < 0x7F ? c : '?';
        const auto in_word = [&](std::size_t i) {
            const auto c = static_cast<unsigned char>(text_[i]);
            return (c >= '0' && c <= '9') || ((c | 0x20U) >= 'a' && (c | 0x20U) <= 'z') || c == '+' || c == '-' ||
                   c == '.' || c == '_';
        };
        std::size_t from = std::min(position > 0 ? position - 1 : 0, text_.size());
        while (from > 0 && from < text_.size() && in_word(from) && in_word(from - 1)) --from;
        std::size_t to = from;
        while (to < text_.size() && in_word(to)) ++to;
        if (to > from) plain += ", at " + in_quotes(text_.substr(from, to - from));
        const auto before = text_.substr(0, from);
        const auto line = 1 + std::count(before.begin(), before.end(), '\n');
        const auto column = from - (before.rfind('\n') + 1) + 1;  // npos + 1 is 0
        fault = refusal{"line " + std::to_string(line) + ", column " + std::to_string(column),
                        plain + "; a JSON object in UTF-8 is accepted"};
        return false;
    }

  private:
    std::string_view text_;
    std::vector<json*> stack_;
    std::vector<std::string> keys_;

    std::string path(const std::string& last) const {
        std::string out;
        for (std::size_t i = 0; i < stack_.size(); ++i) {
            if (i + 1 == stack_.size() && !last.empty()) {
                out.append(out.empty() ? "" : ".").append(last);
            } else if (stack_[i]->is_array()) {
                out.append(1, '[').append(std::to_string(stack_[i]->size() - 1)).append(1, ']');
            } else {
                out.append(out.empty() ? "" : ".").append(tame(keys_[i]));
            }
        }
        return out.empty() ? "batch" : out;
    }

    json* place(json value) {
        if (stack_.empty()) {
            root = std::move(value);
            return &root;
        }
        json& parent = *stack_.back();
        if (parent.is_array()) {
            parent.push_back(std::move(value));
            return &parent.back();
        }
        return &(parent[keys_.back()] = std::move(value));
    }
    bool put(json value) {
        place(std::move(value));
        return true;
    }
    bool open(json container) {
        if (stack_.size() >= most_depth) {
            fault = refusal{"batch", "is nested over " + std::to_string(most_depth) +
                                         " deep; objects and lists are accepted to that depth"};
            return false;
        }
        stack_.push_back(place(std::move(container)));
        keys_.emplace_back();
        return true;
    }
    bool close() {
        stack_.pop_back();
        keys_.pop_back();
        return true;
    }
};

/// Reads typed fields; keeps the first fault and from then on gives back defaults.
class field_reader {
  public:
    std::optional<refusal> fault;

    void refuse(const std::string& place, const std::string& reason) {
        if (!fault) fault = refusal{place, reason};
    }

    /// The object at a place, its keys all among the accepted ones.
    const json* object(const json& value, const std::string& place, std::initializer_list<const char*> accepted) {
        if (!value.is_object()) {
            refuse(place, "is " + shown(value) + "; an object is accepted");
            return nullptr;
        }
        for (const auto& [key, unused] : value.items()) {
            bool known = false;
            std::string list;
            for (const char* name : accepted) {
                known = known || key == name;
                list += std::string(list.empty() ? "" : ", ") + name;
            }
            if (!known) {
                refuse(under(place, tame(key)), "unknown key; accepted here: " + list);
                return nullptr;
            }
        }
        return &value;
    }

    const json* member(const json& object, const char* key) const {
        const auto found = object.find(key);
        return found == object.end() ? nullptr : &*found;
    }

    const json* required(const json& object, const std::string& place, const char* key, const char* accepted) {
        const json* value = member(object, key);
        if (value == nullptr) refuse(under(place, key), std::string("is missing; ") + accepted + " is needed");
        return value;
    }

    double number(const json& value, const std::string& place, const char* unit) {
        if (value.is_number()) return value.get<double>();
        refuse(place, "is " + shown(value) + "; a number (" + unit + ") is accepted");
        return core::not_a_number;
    }

    double number_within(const json& value, const std::string& place, const core::limit& range) {
        return number_between(value, place, range.low, range.high, std::string(range.unit).c_str());
    }

    double number_between(const json& value, const std::string& place, double low, double high, const char* unit) {
        const double x = number(value, place, unit);
        if (!fault && !(x >= low && x <= high))
            refuse(place, core::shortest(x) + " is outside the accepted range, " + core::shortest(low) + " to " +
                              core::shortest(high) + " " + unit);
        return x;
    }

    std::string text(const json& value, const std::string& place) {
        if (!value.is_string()) {
            refuse(place, "is " + shown(value) + "; a text is accepted");
            return {};
        }
        auto text = value.get<std::string>();
        if (const auto why = core::find_text_fault(place, text)) refuse(why->place, why->reason);
        return text;
    }

    static std::string under(const std::string& place, const std::string& key) {
        return place.empty() || place == "batch" ? key : place + "." + key;
    }
};

/// The JSON object that a text holds, or the first thing wrong with it.  Never throws but for lack of memory.
inline core::outcome<json> read_object(std::string_view text) {
    if (text.size() > most_bytes)
        return refusal{"batch", "has " + std::to_string(text.size()) + " bytes or more; at most " +
                                    std::to_string(most_bytes) + " (1 MiB) are accepted"};
    if (const auto nul = text.find('\0'); nul != std::string_view::npos)
        return refusal{"batch", "holds a NUL at byte " + std::to_string(nul) + "; JSON in UTF-8 is accepted"};
    builder document(text);
    if (!json::sax_parse(text.begin(), text.end(), &document))
        return document.fault ? *document.fault : refusal{"batch", "is not a JSON object"};
    return std::move(document.root);
}

}  // namespace sirop::lib
