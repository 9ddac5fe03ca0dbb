#include "batch_file.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace sirop::lib {
namespace {

using core::refusal;
using json = nlohmann::ordered_json;

/// Text of a stranger, fit for one line: at most 60 bytes, cut between characters; control characters and what
/// some readers take for the end of a line (C0, C1, U+2028, U+2029) replaced.
std::string tame(std::string_view text) {
    constexpr std::size_t most = 60;
    std::string out;
    for (std::size_t i = 0; i < text.size();) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const std::size_t length = byte < 0x80U ? 1 : (byte < 0xE0U ? 2 : (byte < 0xF0U ? 3 : 4));
        const std::string_view character = text.substr(i, length);
        i += length;
        if (out.size() + length > most) return out + "...";
        const bool control = byte < 0x20U || byte == 0x7FU ||
                             (byte == 0xC2U && static_cast<unsigned char>(character.back()) < 0xA0U) ||
                             character == "\u2028" || character == "\u2029";
        out += control ? std::string_view("?") : character;
    }
    return out;
}

std::string in_quotes(std::string_view text) {
    std::string out(1, '"');
    return out.append(tame(text)).append(1, '"');
}

std::string shown(const json& value) {
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
        if (value.is_string()) return value.get<std::string>();
        refuse(place, "is " + shown(value) + "; a text is accepted");
        return {};
    }

    static std::string under(const std::string& place, const std::string& key) {
        return place.empty() || place == "batch" ? key : place + "." + key;
    }
};

/// Up to four names of the pantry that share a word with an unknown one.
std::string similar_names(std::string_view name) {
    std::string list;
    int count = 0;
    if (name.size() > 100) return list;
    for (std::size_t from = 0; from < name.size();) {
        const std::size_t to = std::min(name.find_first_of(" ,", from), name.size());
        const auto word = name.substr(from, to - from);
        from = to + 1;
        if (word.size() < 3) continue;
        for (const auto& row : core::pantry)
            for (std::size_t i = 0; i + word.size() <= row.name.size() && count < 4; ++i)
                if (core::same_name(row.name.substr(i, word.size()), word) &&
                    list.find(in_quotes(row.name)) == std::string::npos) {
                    list.append(count++ == 0 ? "" : ", ").append(in_quotes(row.name));
                    break;
                }
    }
    return list;
}

core::masses read_composition(field_reader& in, const json& value, const std::string& place) {
    core::masses shares{};
    if (!value.is_object()) {
        in.refuse(place, "is " + shown(value) + "; an object of components and grams is accepted");
        return shares;
    }
    double sum = 0.0;
    for (const auto& [key, grams] : value.items()) {
        const auto component = core::find_component(key);
        if (!component) {
            std::string list;
            for (const auto& c : core::components) list += (list.empty() ? "" : ", ") + std::string(c.name);
            in.refuse(field_reader::under(place, tame(key)), "unknown component; accepted: " + list);
            return shares;
        }
        const double g = in.number_between(grams, field_reader::under(place, key), 0.0, 100.05, "g per 100 g");
        shares[core::index_of(*component)] = g;
        sum += g;
    }
    if (!in.fault && !(std::fabs(sum - 100.0) <= 0.05 + 1.0e-9))
        in.refuse(place, "sums to " + core::shortest(sum) + "; 100 within 0.05 is accepted");
    for (double& share : shares) share /= sum;
    return shares;
}

core::ingredient_line read_line(field_reader& in, const json& value, const std::string& place, bool off_heat,
                                std::vector<std::string>& notes) {
    core::ingredient_line line;
    const json* row =
        off_heat
            ? in.object(value, place,
                        {"ingredient", "grams", "celsius", "per_100_g", "dextrose_equivalent", "solids_percent"})
            : in.object(value, place,
                        {"ingredient", "grams", "per_100_g", "dextrose_equivalent", "solids_percent"});
    if (row == nullptr) return line;
    const json* name = in.required(*row, place, "ingredient", "the name of an ingredient");
    const json* grams = in.required(*row, place, "grams", "a mass in grams");
    if (in.fault) return line;
    const std::string name_place = place + ".ingredient";
    line.name = in.text(*name, name_place);
    line.grams = in.number_within(*grams, place + ".grams", core::grams_limit);
    if (const json* celsius = in.member(*row, "celsius"))
        line.celsius = in.number_within(*celsius, place + ".celsius", core::added_limit);
    if (in.fault) return line;

    const json* composition = in.member(*row, "per_100_g");
    const json* dextrose = in.member(*row, "dextrose_equivalent");
    const json* solids = in.member(*row, "solids_percent");
    if (composition != nullptr) {
        if (dextrose != nullptr || solids != nullptr) {
            in.refuse(place + (dextrose != nullptr ? ".dextrose_equivalent" : ".solids_percent"),
                      "stands beside per_100_g; one of them is accepted");
            return line;
        }
        line.per_gram = read_composition(in, *composition, place + ".per_100_g");
        if (core::without_outer_blanks(line.name).empty()) in.refuse(name_place, "is empty; a name is accepted");
        if (core::find_ingredient(line.name) != nullptr)
            notes.push_back(place + ": the composition given replaces the pantry's " + in_quotes(line.name) + ".");
        return line;
    }
    if (core::same_name(line.name, "glucose syrup")) {
        if (dextrose == nullptr) {
            in.refuse(
                place + ".dextrose_equivalent",
                "is missing; \"glucose syrup\" needs it (10 to 60), or name one such as \"glucose syrup 42 DE\"");
            return line;
        }
        const double de = in.number_between(*dextrose, place + ".dextrose_equivalent",
                                            core::min_dextrose_equivalent, core::max_dextrose_equivalent, "DE");
        double percent = 80.0;
        if (solids != nullptr)
            percent = in.number_between(*solids, place + ".solids_percent", 1.0, 100.0, "%");
        else
            notes.push_back(place + ": solids_percent is not given; 80 % is assumed.");
        if (!in.fault) line.per_gram = core::starch_syrup_composition(de, percent);
        return line;
    }
    if (dextrose != nullptr || solids != nullptr) {
        in.refuse(place + (dextrose != nullptr ? ".dextrose_equivalent" : ".solids_percent"),
                  "is accepted only with the ingredient \"glucose syrup\"");
        return line;
    }
    if (const auto known = core::pantry_composition(line.name)) {
        line.per_gram = *known;
        return line;
    }
    const std::string similar = similar_names(line.name);
    in.refuse(name_place, "unknown ingredient " + in_quotes(line.name) + "; accepted: a name of the pantry" +
                              (similar.empty() ? "" : " such as " + similar) + ", or give its per_100_g");
    return line;
}

void read_lines(field_reader& in, const json& value, const std::string& place, bool off_heat,
                std::vector<core::ingredient_line>& lines, std::vector<std::string>& notes) {
    if (!value.is_array()) return in.refuse(place, "is " + shown(value) + "; a list of ingredients is accepted");
    for (std::size_t i = 0; i < value.size() && !in.fault; ++i)
        lines.push_back(read_line(in, value[i], place + "[" + std::to_string(i) + "]", off_heat, notes));
}

void read_cook(field_reader& in, const json& value, core::batch& b) {
    const json* cook = in.object(
        value, "cook",
        {"to_celsius", "to_fahrenheit", "pressure_hpa", "altitude_metres", "altitude_feet", "water_boils_celsius",
         "thermometer_reads_in_boiling_water_celsius", "thermometer_within_celsius"});
    if (cook == nullptr) return;
    const json* celsius = in.member(*cook, "to_celsius");
    const json* fahrenheit = in.member(*cook, "to_fahrenheit");
    if (celsius != nullptr && fahrenheit != nullptr)
        return in.refuse("cook.to_fahrenheit", "stands beside to_celsius; one temperature is accepted");
    if (celsius == nullptr && fahrenheit == nullptr)
        return in.refuse("cook.to_celsius", "is missing; to_celsius or to_fahrenheit is needed");
    b.target_place = celsius != nullptr ? "cook.to_celsius" : "cook.to_fahrenheit";
    b.thermometer_celsius = celsius != nullptr
                                ? in.number(*celsius, b.target_place, "°C")
                                : core::fahrenheit_to_celsius(in.number(*fahrenheit, b.target_place, "°F"));

    if (const json* within = in.member(*cook, "thermometer_within_celsius"))
        b.thermometer_within_kelvin =
            in.number_within(*within, "cook.thermometer_within_celsius", core::thermometer_within_limit);

    const char* given = nullptr;
    for (const char* key : {"pressure_hpa", "altitude_metres", "altitude_feet", "water_boils_celsius"}) {
        const json* number = in.member(*cook, key);
        if (number == nullptr || in.fault) continue;
        const std::string place = std::string("cook.") + key;
        if (given != nullptr)
            return in.refuse(place, std::string("stands beside ") + given + "; one of them is accepted");
        given = key;
        const std::string_view which = key;
        constexpr double feet_per_metre = 1.0 / 0.3048;
        if (which == "pressure_hpa") {
            b.pressure_pa = 100.0 * in.number_within(*number, place, core::pressure_limit);
        } else if (which == "altitude_metres") {
            b.pressure_pa = formula::standard_pressure(in.number_within(*number, place, core::altitude_limit));
        } else if (which == "altitude_feet") {
            // whole feet inside the range in metres
            const double feet =
                in.number_between(*number, place, std::ceil(core::altitude_limit.low * feet_per_metre),
                                  std::floor(core::altitude_limit.high * feet_per_metre), "ft");
            b.pressure_pa = formula::standard_pressure(feet / feet_per_metre);
        } else {
            b.pressure_pa = formula::saturation_pressure(
                in.number_within(*number, place, core::water_boils_limit) + formula::zero_celsius);
        }
    }
    if (in.fault) return;
    if (const json* reading = in.member(*cook, "thermometer_reads_in_boiling_water_celsius")) {
        const std::string place = "cook.thermometer_reads_in_boiling_water_celsius";
        const double boils = core::water_boils_celsius(b.pressure_pa);
        const double shows = in.number(*reading, place, "°C");
        b.thermometer_error_kelvin = shows - boils;
        if (!in.fault && !core::thermometer_error_limit.holds(b.thermometer_error_kelvin))
            in.refuse(place, core::shortest(shows) + " is more than " +
                                 core::shortest(core::thermometer_error_limit.high) +
                                 " degrees from where water boils here, " + core::fixed(boils, 1) +
                                 " °C; use another thermometer");
    }
}

}  // namespace

core::outcome<core::batch> read_batch(std::string_view text) {
    if (text.size() > most_bytes)
        return refusal{"batch", "has " + std::to_string(text.size()) + " bytes or more; at most " +
                                    std::to_string(most_bytes) + " (1 MiB) are accepted"};
    if (const auto nul = text.find('\0'); nul != std::string_view::npos)
        return refusal{"batch", "holds a NUL at byte " + std::to_string(nul) + "; JSON in UTF-8 is accepted"};
    builder document(text);
    if (!json::sax_parse(text.begin(), text.end(), &document))
        return document.fault ? *document.fault : refusal{"batch", "is not a JSON object"};

    core::batch b;
    field_reader in;
    const json* root =
        in.object(document.root, "batch", {"sirop_batch", "title", "pan", "cook", "off_heat", "serve"});
    if (root == nullptr) return *in.fault;
    const json* version = in.required(*root, "batch", "sirop_batch", "the version of the format, 1,");
    if (version != nullptr && !(version->is_number() && version->get<double>() == 1.0))
        in.refuse("sirop_batch", "is " + shown(*version) + "; the version 1 is accepted");
    if (const json* title = in.member(*root, "title")) b.title = in.text(*title, "title");
    const json* pan = in.required(*root, "batch", "pan", "a list of ingredients");
    const json* cook = in.required(*root, "batch", "cook", "an object with the cook temperature");
    if (in.fault) return *in.fault;
    read_lines(in, *pan, "pan", false, b.pan, b.notes);
    if (!in.fault) read_cook(in, *cook, b);
    if (const json* off_heat = in.member(*root, "off_heat"); off_heat != nullptr && !in.fault)
        read_lines(in, *off_heat, "off_heat", true, b.off_heat, b.notes);
    if (const json* serve = in.member(*root, "serve"); serve != nullptr && !in.fault)
        if (const json* object = in.object(*serve, "serve", {"celsius"}))
            if (const json* celsius = in.member(*object, "celsius"))
                b.serve_celsius = in.number_within(*celsius, "serve.celsius", core::serve_limit);
    if (!in.fault) in.fault = core::find_fault(b);
    if (in.fault) return *in.fault;
    return b;
}

std::string one_line(const refusal& why) {
    return why.place + ": " + why.reason;
}

}  // namespace sirop::lib
