#include "json/batch_file.hpp"

#include <tuple>

#include "sirop/questions/other_kitchen.hpp"

namespace sirop::lib {

namespace {

core::masses read_composition(field_reader& in, const json& value, const std::string& place) {
    core::masses shares{};
    const auto* given = value.as<json::object>();
    if (given == nullptr) {
        in.refuse(place, "is " + shown(value) + "; an object of components and grams is accepted");
        return shares;
    }
    double sum = 0.0;
    for (const auto& [key, grams] : *given) {
        const auto component = core::find_component(key);
        if (!component) {
            std::string names;
            for (const auto& c : core::components) add_name(names, c.name);
            in.refuse(field_reader::under(place, tame(key)), "unknown component; accepted: " + names);
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

}  // namespace

void read_ingredient(field_reader& in, const json& row, const std::string& place, core::ingredient_line& line,
                     std::vector<std::string>& notes) {
    const std::string name_place = place + ".ingredient";
    const json* composition = in.member(row, "per_100_g");
    const json* dextrose = in.member(row, "dextrose_equivalent");
    const json* solids = in.member(row, "solids_percent");
    const std::string syrup_place = place + (dextrose != nullptr ? ".dextrose_equivalent" : ".solids_percent");
    if (composition != nullptr) {
        if (dextrose != nullptr || solids != nullptr) {
            in.refuse(syrup_place, "stands beside per_100_g; one of them is accepted");
            return;
        }
        line.per_gram = read_composition(in, *composition, place + ".per_100_g");
        if (core::without_outer_blanks(line.name).empty()) in.refuse(name_place, "is empty; a name is accepted");
        if (core::find_ingredient(line.name) != nullptr)
            notes.push_back(place + ": the composition given replaces the pantry's " + in_quotes(line.name) + ".");
        return;
    }
    if (core::same_name(line.name, "glucose syrup")) {
        if (dextrose == nullptr) {
            in.refuse(
                place + ".dextrose_equivalent",
                "is missing; \"glucose syrup\" needs it (10 to 60), or name one such as \"glucose syrup 42 DE\"");
            return;
        }
        const double de =
            in.number_within(*dextrose, place + ".dextrose_equivalent", core::dextrose_equivalent_limit);
        double percent = 80.0;
        if (solids != nullptr)
            percent = in.number_within(*solids, place + ".solids_percent", core::glucose_solids_limit);
        else
            notes.push_back(place + ": solids_percent is not given; 80 % is assumed.");
        if (!in.fault) line.per_gram = core::starch_syrup_composition(de, percent);
        return;
    }
    if (dextrose != nullptr || solids != nullptr) {
        in.refuse(syrup_place, "is accepted only with the ingredient \"glucose syrup\"");
        return;
    }
    if (const auto known = core::pantry_composition(line.name)) {
        line.per_gram = *known;
        return;
    }
    const std::string similar = similar_names(line.name);
    in.refuse(name_place, "unknown ingredient " + in_quotes(line.name) + "; accepted: a name of the pantry" +
                              (similar.empty() ? "" : " such as " + similar) + ", or give its per_100_g");
}

core::ingredient_line read_line(field_reader& in, const json& value, const std::string& place, bool off_heat,
                                std::vector<std::string>& notes) {
    core::ingredient_line line;
    std::vector<std::string_view> keys = {"ingredient",          "grams",         "millilitres", "per_100_g",
                                          "dextrose_equivalent", "solids_percent"};
    if (off_heat) keys.insert(keys.begin() + 3, "celsius");
    const json* row = in.object(value, place, keys);
    if (row == nullptr) return line;
    const json* name = in.required(*row, place, "ingredient", "the name of an ingredient");
    const json* millilitres = in.member(*row, "millilitres");
    const json* grams =
        millilitres == nullptr ? in.required(*row, place, "grams", "a mass in grams") : in.member(*row, "grams");
    if (in.fault) return line;
    if (grams != nullptr && millilitres != nullptr)
        in.refuse(place + ".millilitres", "stands beside grams; one of them is accepted");
    line.name = in.text(*name, place + ".ingredient");
    if (grams != nullptr) line.grams = in.number_within(*grams, place + ".grams", core::grams_limit);
    const double volume = millilitres != nullptr ? in.number_between(*millilitres, place + ".millilitres", 0.0,
                                                                     core::grams_limit.high, "ml")
                                                 : core::not_a_number;
    if (const json* celsius = in.member(*row, "celsius"))
        line.celsius = in.number_within(*celsius, place + ".celsius", core::added_limit);
    if (in.fault) return line;
    read_ingredient(in, *row, place, line, notes);
    if (in.fault || millilitres == nullptr) return line;
    const auto density = core::pouring_density(line);
    if (!density) {
        in.refuse(place + ".millilitres", std::string(line.name).append(" ").append(density.why.reason));
        return line;
    }
    line.grams = volume * *density;
    notes.push_back(place + ": " + core::shortest(volume) + " ml of " + in_quotes(line.name) + " taken as " +
                    core::fixed(line.grams, 1) + " g (its density at 20 °C).");
    return line;
}

namespace {

void read_lines(field_reader& in, const json& value, const std::string& place, bool off_heat,
                std::vector<core::ingredient_line>& lines, std::vector<std::string>& notes) {
    in.each(
        value, place,
        [&](const json& row, const std::string& at) { lines.push_back(read_line(in, row, at, off_heat, notes)); },
        "a list of ingredients");
}

}  // namespace

void read_kitchen(field_reader& in, const json& object, const std::string& at, core::batch& b) {
    if (const json* within = in.member(object, "thermometer_within_celsius"))
        b.thermometer_within_kelvin =
            in.number_within(*within, at + ".thermometer_within_celsius", core::thermometer_within_limit);

    constexpr double feet_per_metre = 1.0 / 0.3048;
    const auto& metres = core::altitude_limit;
    const core::limit feet{"altitude_feet", std::ceil(metres.low * feet_per_metre),
                           std::floor(metres.high * feet_per_metre), "ft"};  // whole ones inside the metres
    using to_pascals = double (*)(double);
    const std::tuple<const char*, core::limit, to_pascals> keys[] = {
        {"pressure_hpa", core::pressure_limit, [](double hpa) { return 100.0 * hpa; }},
        {"altitude_metres", metres, [](double h) { return formula::standard_pressure(h); }},
        {"altitude_feet", feet, [](double ft) { return formula::standard_pressure(ft / feet_per_metre); }},
        {"water_boils_celsius", core::water_boils_limit,
         [](double t) { return formula::saturation_pressure(t + formula::zero_celsius); }}};
    const char* given = nullptr;
    for (const auto& [key, range, pascals] : keys) {
        const json* number = in.member(object, key);
        if (number == nullptr || in.fault) continue;
        const std::string place = at + "." + key;
        if (given != nullptr)
            return in.refuse(place, std::string("stands beside ") + given + "; one of them is accepted");
        given = key;
        b.pressure_pa = pascals(in.number_within(*number, place, range));
    }
    if (in.fault) return;
    if (const json* reading = in.member(object, "thermometer_reads_in_boiling_water_celsius")) {
        const std::string place = at + ".thermometer_reads_in_boiling_water_celsius";
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

namespace {

void read_cook(field_reader& in, const json& value, core::batch& b, bool target_needed) {
    const json* cook = in.object(
        value, "cook",
        {"to_celsius", "to_fahrenheit", "pressure_hpa", "altitude_metres", "altitude_feet", "water_boils_celsius",
         "thermometer_reads_in_boiling_water_celsius", "thermometer_within_celsius"});
    if (cook == nullptr) return;
    const json* celsius = in.member(*cook, "to_celsius");
    const json* fahrenheit = in.member(*cook, "to_fahrenheit");
    if (celsius != nullptr && fahrenheit != nullptr)
        return in.refuse("cook.to_fahrenheit", "stands beside to_celsius; one temperature is accepted");
    b.target_place = celsius != nullptr ? "cook.to_celsius" : "cook.to_fahrenheit";
    if (celsius == nullptr && fahrenheit == nullptr) {
        if (target_needed)
            return in.refuse("cook.to_celsius", "is missing; to_celsius or to_fahrenheit is needed");
    } else {
        b.thermometer_celsius = celsius != nullptr
                                    ? in.number(*celsius, b.target_place, "°C")
                                    : core::fahrenheit_to_celsius(in.number(*fahrenheit, b.target_place, "°F"));
    }
    read_kitchen(in, *cook, "cook", b);
}

}  // namespace

core::batch read_batch(field_reader& in, const json& document, bool target_needed) {
    core::batch b;
    const json* root =
        in.object(document, "batch",
                  {"sirop_batch", "title", "pan", "cook", "off_heat", "serve", "store", "pour", "neighbours"});
    if (root == nullptr) return b;
    in.version(*root, "sirop_batch");
    if (const json* title = in.member(*root, "title")) b.title = in.text(*title, "title");
    const json* pan = in.required(*root, "batch", "pan", "a list of ingredients");
    const json* cook = in.required(*root, "batch", "cook", "an object with the cook temperature");
    if (in.fault) return b;
    read_lines(in, *pan, "pan", false, b.pan, b.notes);
    if (!in.fault) read_cook(in, *cook, b, target_needed);
    if (const json* off_heat = in.member(*root, "off_heat"); off_heat != nullptr && !in.fault)
        read_lines(in, *off_heat, "off_heat", true, b.off_heat, b.notes);
    const auto celsius_of = [&](const char* key, double& into, const core::limit& range) {
        const json* value = in.member(*root, key);
        if (value == nullptr || in.fault) return;
        const json* object = in.object(*value, key, {"celsius"});
        const json* celsius = object == nullptr ? nullptr : in.member(*object, "celsius");
        if (celsius != nullptr) into = in.number_within(*celsius, std::string(key).append(".celsius"), range);
    };
    celsius_of("serve", b.serve_celsius, core::serve_limit);
    celsius_of("store", b.store_celsius, core::serve_limit);
    celsius_of("pour", b.pour_celsius, core::pour_limit);
    if (const json* beside = in.member(*root, "neighbours"); beside != nullptr && !in.fault)
        read_lines(in, *beside, "neighbours", false, b.neighbours, b.notes);
    if (!in.fault && (target_needed || std::isfinite(b.thermometer_celsius))) in.fault = core::find_fault(b);
    return b;
}

core::outcome<core::batch> read_batch(std::string_view text) {
    const auto document = read_object(text);
    if (!document) return document.why;
    field_reader in;
    auto b = read_batch(in, *document, true);
    if (in.fault) return *in.fault;
    return b;
}

namespace {

json rows_of(const std::vector<core::ingredient_line>& lines, bool off_heat) {
    json list{json::list()};
    for (const auto& line : lines) {
        json& row = grown(list);
        write(row, field{"ingredient", line.name}, field{"grams", line.grams});
        if (off_heat) write(row, "celsius", line.celsius);
        if (core::pantry_composition(line.name) == line.per_gram) continue;
        json& composition = at(row, "per_100_g");
        for (std::size_t i = 0; i < core::component_count; ++i)
            if (line.per_gram[i] > 0.0) write(composition, core::components[i].name, 100.0 * line.per_gram[i]);
    }
    return list;
}

}  // namespace

json batch_json(const core::batch& b) {
    json out;
    write(out, "sirop_batch", 1);
    if (!b.title.empty()) write(out, "title", b.title);
    at(out, "pan") = rows_of(b.pan, false);
    json& cook = at(out, "cook");
    if (!std::isnan(b.thermometer_celsius)) write(cook, "to_celsius", b.thermometer_celsius);
    write(cook, "pressure_hpa", 0.01 * b.pressure_pa);
    if (b.thermometer_error_kelvin != 0.0)
        write(cook, "thermometer_reads_in_boiling_water_celsius",
              core::water_boils_celsius(b.pressure_pa) + b.thermometer_error_kelvin);
    if (b.thermometer_within_kelvin != 0.0) write(cook, "thermometer_within_celsius", b.thermometer_within_kelvin);
    if (!b.off_heat.empty()) at(out, "off_heat") = rows_of(b.off_heat, true);
    write(at(out, "serve"), "celsius", b.serve_celsius);
    if (!std::isnan(b.store_celsius)) write(at(out, "store"), "celsius", b.store_celsius);
    if (!std::isnan(b.pour_celsius)) write(at(out, "pour"), "celsius", b.pour_celsius);
    if (!b.neighbours.empty()) at(out, "neighbours") = rows_of(b.neighbours, false);
    return out;
}

std::string one_line(const refusal& why) {
    return core::escaped(why.place + ": " + why.reason, 600);
}

}  // namespace sirop::lib
