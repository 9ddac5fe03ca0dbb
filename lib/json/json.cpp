#include "json/json.hpp"

#include <array>
#include <charconv>

namespace sirop::lib {

// Not the variant's own copying: where memory runs out in it, g++ 12's library destroys what was never made.
json::json(const json& other) {
    std::visit(
        [this](const auto& held) {
            auto copy = held;
            value_ = std::move(copy);
        },
        other.value_);
}

json::json(json&& other) noexcept = default;

json& json::operator=(json other) noexcept {
    value_ = std::move(other.value_);
    return *this;
}

json::~json() = default;

json::json(double x) {
    if (std::isfinite(x)) value_ = x;
}

json::json(std::string_view text) : value_(std::string(text)) {}

json::json(const std::vector<std::string>& texts) : value_(list(texts.begin(), texts.end())) {}

bool json::is_number() const {
    return as<double>() != nullptr || as<std::int64_t>() != nullptr || as<std::uint64_t>() != nullptr;
}

double json::number() const {
    if (const auto* x = as<double>()) return *x;
    if (const auto* whole = as<std::int64_t>()) return static_cast<double>(*whole);
    if (const auto* whole = as<std::uint64_t>()) return static_cast<double>(*whole);
    return core::not_a_number;
}

const json* json::find(std::string_view key) const {
    if (const auto* members = as<object>())
        for (const auto& m : *members)
            if (m.key == key) return &m.value;
    return nullptr;
}

json& at(json& object, std::string_view key) {
    if (const json* found = object.find(key)) return const_cast<json&>(*found);
    if (object.as<json::object>() == nullptr) object = json(json::object());
    return object.as<json::object>()->emplace_back(json::member{std::string(key), {}}).value;
}

json& grown(json& list) {
    if (list.as<json::list>() == nullptr) list = json(json::list());
    return list.as<json::list>()->emplace_back();
}

void write(json& object, std::string_view key, json value) {
    at(object, key) = std::move(value);
}
void write(json& object, const std::string& key, const core::estimate& e, double factor) {
    write(object, key, factor * e.value);
    write(object, key + "_low", factor * e.low);
    write(object, key + "_high", factor * e.high);
}

namespace {

/// Writes a value, its parts indented by two blanks a level.
class json_writer {
  public:
    std::string out;

    void value(const json& of, std::size_t level) {
        if (const auto* list = of.as<json::list>()) {
            parts('[', ']', *list, level, [&](const json& part) { value(part, level + 1); });
        } else if (const auto* object = of.as<json::object>()) {
            parts('{', '}', *object, level, [&](const json::member& part) {
                text(part.key);
                out += ": ";
                value(part.value, level + 1);
            });
        } else if (const auto* string = of.as<std::string>()) {
            text(*string);
        } else if (const auto* x = of.as<double>()) {
            number(*x);
        } else if (const auto* truth = of.as<bool>()) {
            out += *truth ? "true" : "false";
        } else if (const auto* whole = of.as<std::int64_t>()) {
            out += std::to_string(*whole);
        } else if (const auto* count = of.as<std::uint64_t>()) {
            out += std::to_string(*count);
        } else {
            out += "null";
        }
    }

  private:
    template <class Parts, class Write>
    void parts(char open, char close, const Parts& all, std::size_t level, const Write& write) {
        out += open;
        for (const auto& part : all) {
            out.append(&part == &all.front() ? "\n" : ",\n").append(2 * level + 2, ' ');
            write(part);
        }
        if (!all.empty()) out.append(1, '\n').append(2 * level, ' ');
        out += close;
    }

    /// The shortest digits: in full, with a decimal point, from 1e-4 to 1e15; else with an exponent.
    void number(double x) {
        std::array<char, 32> buffer;
        const auto end =
            std::to_chars(buffer.data(), buffer.data() + buffer.size(), x, std::chars_format::scientific);
        std::string digits(buffer.data(), end.ptr);
        const auto e = digits.find('e');
        int exponent = 0;
        std::from_chars(buffer.data() + e + (digits[e + 1] == '+' ? 2 : 1), end.ptr, exponent);
        if (exponent < -4 || exponent >= 15) {
            out += digits;
            return;
        }
        digits.resize(e);
        if (digits[0] == '-') {
            out += '-';
            digits.erase(0, 1);
        }
        if (digits.size() > 1) digits.erase(1, 1);  // the point
        if (exponent < 0) {
            out.append("0.").append(static_cast<std::size_t>(-exponent - 1), '0').append(digits);
            return;
        }
        const auto whole = static_cast<std::size_t>(exponent) + 1;
        if (digits.size() <= whole) digits.resize(whole + 1, '0');
        out += digits.insert(whole, 1, '.');
    }

    void text(std::string_view of) {
        out += '"';
        while (!of.empty()) {
            bool whole = true;
            const auto character = of.substr(0, bytes_of_first(of, whole));
            of.remove_prefix(character.size());
            if (!whole)
                out += "\uFFFD";
            else if (character.size() > 1)
                out += character;
            else
                ascii(character[0]);
        }
        out += '"';
    }

    void ascii(char c) {
        constexpr std::string_view special = "\"\\\b\f\n\r\t", letters = "\"\\bfnrt", digits = "0123456789abcdef";
        const auto byte = static_cast<unsigned char>(c);
        if (const auto i = special.find(c); i != special.npos)
            out.append(1, '\\').append(1, letters[i]);
        else if (byte < 0x20U)
            out.append("\\u00").append(1, digits[byte >> 4U]).append(1, digits[byte & 15U]);
        else
            out += c;
    }

    /// The bytes of the first character of a text; if it is not `whole`, those that could have begun one.
    static std::size_t bytes_of_first(std::string_view text, bool& whole) {
        const auto first = static_cast<unsigned char>(text[0]);
        whole = first < 0x80U;
        if (first < 0xC2U || first > 0xF4U) return 1;
        const std::size_t bytes = first < 0xE0U ? 2 : (first < 0xF0U ? 3 : 4);
        std::size_t good = 1;
        for (; good < bytes && good < text.size(); ++good) {
            const auto next = static_cast<unsigned char>(text[good]);
            // none that a shorter form has, no half of a pair, none beyond U+10FFFF
            const unsigned low = good > 1 ? 0x80U : (first == 0xE0U ? 0xA0U : (first == 0xF0U ? 0x90U : 0x80U));
            const unsigned high = good > 1 ? 0xBFU : (first == 0xEDU ? 0x9FU : (first == 0xF4U ? 0x8FU : 0xBFU));
            if (next < low || next > high) break;
        }
        whole = good == bytes;
        return good;
    }
};

}  // namespace

std::string text_of(const json& value) {
    json_writer writer;
    writer.value(value, 0);
    return std::move(writer.out) + "\n";
}

}  // namespace sirop::lib
