#include "json/json_reader.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "sirop/base/plain_text.hpp"
#include "sirop/base/text.hpp"

namespace sirop::lib {

std::string tame(std::string_view text) {
    return core::escaped(text, 60);
}

std::string in_quotes(std::string_view text) {
    std::string out(1, '"');
    return out.append(tame(text)).append(1, '"');
}

std::string shown(const json& value) {
    if (value.as<json::object>() != nullptr) return "an object";
    if (value.as<json::list>() != nullptr) return "a list";
    if (const auto* text = value.as<std::string>()) return "the text " + in_quotes(*text);
    auto text = text_of(value);
    text.pop_back();  // the end of the line
    return tame(text);
}

std::string outside(double x, double low, double high) {
    return core::shortest(x) + " is outside the accepted range, " + core::shortest(low) + " to " +
           core::shortest(high);
}

namespace {

/// Builds the document from nlohmann's parser events; stops at a duplicate key or at too much depth.
class builder {
  public:
    explicit builder(std::string_view text) : text_(text) {}

    json root;
    std::optional<refusal> fault;

    bool null() { return put({}); }
    bool boolean(bool value) { return put(json(value)); }
    bool number_integer(std::int64_t value) { return put(json(value)); }
    bool number_unsigned(std::uint64_t value) { return put(json(value)); }
    bool number_float(double value, const std::string&) { return put(json(value)); }
    bool string(std::string& value) { return put(json(std::move(value))); }
    bool binary(nlohmann::json::binary_t&) { return false; }

    bool start_object(std::size_t) { return open(json(json::object())); }
    bool start_array(std::size_t) { return open(json(json::list())); }
    bool end_object() { return close(); }
    bool end_array() { return close(); }

    bool key(std::string& name) {
        constexpr std::size_t most_keys = 64;  // far more than any object here has
        auto& members = *stack_.back()->as<json::object>();
        if (members.size() >= most_keys)
            fault = refusal{path(tame(name)), "is one key too many; at most " + std::to_string(most_keys) +
                                                  " are accepted in one object"};
        else if (stack_.back()->find(name) != nullptr)
            fault = refusal{path(tame(name)), "the key stands twice; each key is accepted once"};
        else
            members.push_back({std::move(name), {}});
        return !fault;
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
    std::vector<json*> stack_;  ///< the objects and lists that are open

    std::string path(const std::string& last) const {
        std::string out;
        for (const json* at : stack_) {
            if (at == stack_.back() && !last.empty()) {
                out.append(out.empty() ? "" : ".").append(last);
            } else if (const auto* list = at->as<json::list>()) {
                out.append(1, '[').append(std::to_string(list->size() - 1)).append(1, ']');
            } else {
                const auto& members = *at->as<json::object>();
                out.append(out.empty() ? "" : ".").append(members.empty() ? "" : tame(members.back().key));
            }
        }
        return out.empty() ? "batch" : out;
    }

    json* place(json value) {
        json* to = &root;
        if (!stack_.empty()) {
            auto* members = stack_.back()->as<json::object>();
            to = members != nullptr ? &members->back().value : &grown(*stack_.back());
        }
        *to = std::move(value);
        return to;
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
        return true;
    }
    bool close() {
        stack_.pop_back();
        return true;
    }
};

}  // namespace

core::outcome<json> read_object(std::string_view text) {
    if (text.size() > most_bytes)
        return refusal{"batch", "has " + std::to_string(text.size()) + " bytes or more; at most " +
                                    std::to_string(most_bytes) + " (1 MiB) are accepted"};
    if (const auto nul = text.find('\0'); nul != std::string_view::npos)
        return refusal{"batch", "holds a NUL at byte " + std::to_string(nul) + "; JSON in UTF-8 is accepted"};
    builder document(text);
    if (!nlohmann::json::sax_parse(text.begin(), text.end(), &document))
        return document.fault ? *document.fault : refusal{"batch", "is not a JSON object"};
    return std::move(document.root);
}

const json* field_reader::object(const json& value, const std::string& place,
                                 std::span<const std::string_view> accepted) {
    const auto* members = value.as<json::object>();
    if (members == nullptr) {
        refuse(place, "is " + shown(value) + "; an object is accepted");
        return nullptr;
    }
    for (const auto& m : *members)
        if (std::find(accepted.begin(), accepted.end(), m.key) == accepted.end()) {
            std::string names;
            for (const auto name : accepted) add_name(names, name);
            refuse(under(place, tame(m.key)), "unknown key; accepted here: " + names);
            return nullptr;
        }
    return &value;
}

const json* field_reader::required(const json& object, const std::string& place, const char* key,
                                   const char* accepted) {
    const json* value = object.find(key);
    if (value == nullptr) refuse(under(place, key), std::string("is missing; ") + accepted + " is needed");
    return value;
}

void field_reader::version(const json& object, const char* key) {
    const json* value = required(object, "", key, "the version of the format, 1,");
    if (value != nullptr && value->number() != 1.0)
        refuse(key, "is " + shown(*value) + "; the version 1 is accepted");
}

double field_reader::number(const json& value, const std::string& place, const char* unit) {
    if (value.is_number()) return value.number();
    refuse(place, "is " + shown(value) + "; a number (" + unit + ") is accepted");
    return core::not_a_number;
}

double field_reader::number_within(const json& value, const std::string& place, const core::limit& range) {
    return number_between(value, place, range.low, range.high, std::string(range.unit).c_str());
}

double field_reader::number_between(const json& value, const std::string& place, double low, double high,
                                    const char* unit) {
    const double x = number(value, place, unit);
    if (!fault && !(x >= low && x <= high)) refuse(place, outside(x, low, high) + " " + unit);
    return x;
}

std::string field_reader::text(const json& value, const std::string& place) {
    const auto* text = value.as<std::string>();
    if (text == nullptr) {
        refuse(place, "is " + shown(value) + "; a text is accepted");
        return {};
    }
    if (const auto why = core::find_text_fault(place, *text)) refuse(why->place, why->reason);
    return *text;
}

}  // namespace sirop::lib
