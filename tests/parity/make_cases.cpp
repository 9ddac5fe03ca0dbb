// The cases that each binding must repeat: 1000 calls of the C API with what they gave, as JSON Lines on standard
// output.  The same on every machine, but for the last bits of the results.
//
//     {"call": "sirop_...", "in": {argument: value, ...}, "status": n, "out": ...}
//
// "in" holds the arguments by their names in sirop.h, without the pointers that receive the result, and without
// the bytes of a text and of its buffer, which follow from the text.  A mixture is an array of `components`
// numbers; that of a function for n mixtures holds n * components, and its other arrays n numbers.  NaN and a null
// pointer are null, infinity is 1e999.  Numbers have 17 significant digits. "status" is what the function
// returned; 0 for a function that returns a text or nothing.  "out" is
//   a number                                        double*, int32_t*
//   a text, or null                                 const char* returned, or a text written into a buffer
//   an array of numbers                             double* of a composition
//   {"value", "low", "high"}                        sirop_estimate*
//   [{"value", "low", "high", "status"}, ...]       sirop_estimate* of n results
//   {"low", "high"}                                 sirop_range*
//   {"lower", "upper"}                              sirop_stage_place*; of n results with "status"
//   {"risk", "hindering_percent", and its estimates}     sirop_graining*, by the names of its fields; of n results
//                                                   with "status"
//   an object of these                              several results: by their names in sirop.h, "statuses" too
//   null                                            a handle, or nothing
// A text call that gives an error other than SIROP_E_BATCH has null as "out".
// A call on a handle has before "in" the calls that led to it, made on one batch, one question and the last answer
// of either, in this order, also those that were refused; sirop_question_set_batch takes the batch:
//     "before": [{"call": "sirop_batch_new", "in": {}}, {"call": "sirop_batch_add", "in": {...}}, ...]
// The program ends with status 1 if it does not print exactly 1000 cases.
#include "case_writer.hpp"
#include "texts.hpp"

namespace {

using namespace parity;

constexpr int wanted = 1000;
const double nan = std::nan("");
printer print;
dice draw;

// --- calls without a mixture
// --------------------------------------------------------------------------------------

/// const char* f(int32_t), asked for every `step`th index from -1 on, and past the last; gives back all names.
std::vector<std::string> names(const char* call, const char* (*name)(int32_t), int step,
                               const char* argument = "index") {
    std::vector<std::string> found;
    while (const char* one = name(static_cast<int32_t>(found.size()))) found.emplace_back(one);
    const int count = static_cast<int>(found.size());
    for (int i = -1; i < count; i += step) print(call, members{}.with(argument, i), 0, json(name(i)));
    print(call, members{}.with(argument, count), 0, json(name(count)));
    return found;
}

void about() {
    print("sirop_version", {}, 0, json(sirop_version()));
    for (const int status : {0, 1, 2, -1, -2, -3, -4, -5, -6, -7, -8, -9, -1000})
        print("sirop_status_text", members{}.with("status", status), 0, json(sirop_status_text(status)));
    names("sirop_component_name", sirop_component_name, 1, "component");
    auto arguments = names("sirop_argument_name", sirop_argument_name, 1);
    arguments.emplace_back("");
    arguments.emplace_back("mood");
    for (const auto& name : arguments) {
        sirop_range range{};
        const int status = sirop_accepted_range(name.c_str(), &range);
        print("sirop_accepted_range", members{}.with("argument", name), status, json(range));
    }
}

void number(const char* call, int32_t (*function)(double, double*), const char* argument, double low, double high,
            int times) {
    for (int i = -4; i < times; ++i) {
        // First the bounds, then the next double beyond each.
        const double x = i == -4   ? low
                         : i == -3 ? high
                         : i == -2 ? std::nextafter(low, -1.0e9)
                         : i == -1 ? std::nextafter(high, 1.0e9)
                                   : draw.mostly(low, high);
        double out = nan;
        const int status = function(x, &out);
        print(call, members{}.with(argument, x), status, json(out));
    }
}

/// int32_t f(size_t, const double*, int32_t*, T*): numbers, some of them bad, to results with their statuses.
template <class Result, class Function>
void numbers(const char* call, const Function& function, const members& in, const char* argument,
             const char* result, double low, double high) {
    for (const std::size_t n : {0U, 5U}) {
        std::vector<double> x(n);
        for (double& one : x) one = draw.mostly(low, high);
        if (n > 1) x[1] = nan;
        std::vector<int32_t> statuses(n);
        std::vector<Result> out(n);
        const int status = function(n, x.data(), statuses.data(), out.data());
        print(call, in.with("n", n).with(argument, x), status,
              members{}.with("statuses", statuses).with(result, out).object());
    }
}

void kitchen() {
    number("sirop_pressure_at_altitude_hpa", sirop_pressure_at_altitude_hpa, "altitude_metres", -500.0, 9000.0, 9);
    number("sirop_pressure_from_boiling_water_hpa", sirop_pressure_from_boiling_water_hpa, "water_boils_celsius",
           70.0, 102.0, 9);
    number("sirop_water_boils_celsius", sirop_water_boils_celsius, "pressure_hpa", 300.0, 1100.0, 9);
    numbers<double>("sirop_pressure_at_altitude_hpa_n", sirop_pressure_at_altitude_hpa_n, {}, "altitude_metres",
                    "pressure_hpa", -500.0, 9000.0);
    numbers<double>("sirop_pressure_from_boiling_water_hpa_n", sirop_pressure_from_boiling_water_hpa_n, {},
                    "water_boils_celsius", "pressure_hpa", 70.0, 102.0);
    numbers<double>("sirop_water_boils_celsius_n", sirop_water_boils_celsius_n, {}, "pressure_hpa", "celsius",
                    300.0, 1100.0);
}

void conversions() {
    auto found = names("sirop_conversion_name", sirop_conversion_name, 1);
    found.emplace_back("cups_to_spoons");
    for (const auto& name : found)
        for (const double value : {draw.uniform(0.0, 100.0), draw.mostly(0.0, 1500.0)}) {
            double out = nan;
            const int status = sirop_convert(name.c_str(), value, &out);
            print("sirop_convert", members{}.with("conversion", name).with("value", value), status, json(out));
        }
    for (const char* name : {"brix_to_baume", "celsius_to_fahrenheit", "cups_to_spoons"})
        numbers<double>(
            "sirop_convert_n",
            [&](std::size_t n, const double* x, int32_t* statuses, double* out) {
                return sirop_convert_n(name, n, x, statuses, out);
            },
            members{}.with("conversion", name), "values", "results", 0.0, 90.0);
}

void ingredients() {
    auto found = names("sirop_ingredient_name", sirop_ingredient_name, 5);
    found.emplace_back("moon dust");
    found.emplace_back(" Honey ");
    for (std::size_t i = 0; i < found.size(); i += i + 3 < found.size() ? 6 : 1) {
        const char* name = found[i].c_str();
        const auto in = members{}.with("ingredient", name);
        print("sirop_ingredient_source", in, 0, json(sirop_ingredient_source(name)));
        print("sirop_ingredient_estimate", in, 0, json(sirop_ingredient_estimate(name)));
        std::vector<double> grams(all_components);
        const int status = sirop_ingredient_grams(name, grams.data(), grams.size());
        print("sirop_ingredient_grams", in.with("components", grams.size()), status, json(grams));
    }
    for (const std::size_t n : {0U, 3U}) {
        std::vector<double> equivalents(n), solids(n), grams(n * all_components);
        for (std::size_t i = 0; i < n; ++i) {
            equivalents[i] = draw.mostly(10.0, 60.0);
            solids[i] = i == 1 ? 0.0 : draw.mostly(1.0, 100.0);
        }
        std::vector<int32_t> statuses(n);
        const int status = sirop_glucose_syrup_grams_n(n, equivalents.data(), solids.data(), statuses.data(),
                                                       grams.data(), all_components);
        print("sirop_glucose_syrup_grams_n",
              members{}
                  .with("n", n)
                  .with("dextrose_equivalent", equivalents)
                  .with("solids_percent", solids)
                  .with("components", all_components),
              status, members{}.with("statuses", statuses).with("grams", grams).object());
    }
    for (int i = 0; i < 8; ++i) {
        const double equivalent = draw.mostly(10.0, 60.0), solids = draw.mostly(1.0, 100.0);
        std::vector<double> grams(all_components);
        const int status = sirop_glucose_syrup_grams(equivalent, solids, grams.data(), grams.size());
        print("sirop_glucose_syrup_grams",
              members{}
                  .with("dextrose_equivalent", equivalent)
                  .with("solids_percent", solids)
                  .with("components", grams.size()),
              status, json(grams));
    }
}

void words() {
    const auto found = names("sirop_texture_word", sirop_texture_word, 1);
    for (int i = -1; i <= static_cast<int>(found.size()); ++i) {
        const auto in = members{}.with("index", i);
        print("sirop_texture_word_meaning", in, 0, json(sirop_texture_word_meaning(i)));
        sirop_range range{};
        const int status = sirop_texture_word_firmness_pa_s(i, &range);
        print("sirop_texture_word_firmness_pa_s", in, status, json(range));
    }
    for (int i = 0; i < 10; ++i) {
        const double firmness = i == 0 ? -1.0 : i == 1 ? nan : std::pow(10.0, draw.uniform(-3.0, 13.0));
        int32_t index = 0;
        const int status = sirop_texture_word_of(firmness, &index);
        print("sirop_texture_word_of", members{}.with("firmness_pa_s", firmness), status, json(index));
    }
    numbers<int32_t>("sirop_texture_word_of_n", sirop_texture_word_of_n, {}, "firmness_pa_s", "indices", 0.0,
                     1.0e4);
    const auto groups = names("sirop_growth_group", sirop_growth_group, 1);
    for (int i = -1; i <= static_cast<int>(groups.size()); ++i) {
        double activity = nan;
        const int status = sirop_growth_limit(i, &activity);
        print("sirop_growth_limit", members{}.with("index", i), status, json(activity));
    }
    print("sirop_growth_limits_source", {}, 0, json(sirop_growth_limits_source()));
}

/// n mixtures one after the other.
std::vector<double> mixtures_of(std::size_t n, std::size_t components) {
    std::vector<double> grams;
    for (std::size_t i = 0; i < n; ++i) {
        const auto one = draw.mixture(components);
        grams.insert(grams.end(), one.begin(), one.end());
    }
    return grams;
}

// --- texts written into a buffer
// ----------------------------------------------------------------------------------

/// Calls with a small buffer and then, if that was too small, with one of the size that was asked for.
template <class Call>
void text(const char* call, const members& in, const Call& function, const std::string& before = "") {
    std::vector<char> out(16);
    std::size_t needed = 0;
    int status = function(out.data(), out.size(), &needed);
    if (status == SIROP_E_BUFFER) {
        out.resize(needed);
        status = function(out.data(), out.size(), &needed);
    }
    print(call, in, status, status >= 0 || status == SIROP_E_BATCH ? json(out.data()) : "null", before);
}

void stages() {
    const auto tables = names("sirop_stage_table_name", sirop_stage_table_name, 1);
    for (const char* table : {static_cast<const char*>(nullptr), "us 1918", "fr pastry", "no such table"}) {
        const auto in = members{}.with("table", table);
        print("sirop_stage_table_source", in, 0, json(sirop_stage_table_source(table)));
        for (int i = 0; i < 7; ++i) {
            const char* stage = i == 6 ? "no such stage" : sirop_stage_name(table, i);
            if (i < 6) print("sirop_stage_name", in.with("index", i), 0, json(sirop_stage_name(table, i)));
            if (stage == nullptr || i % 2 != 0) continue;
            sirop_range range{};
            int status = sirop_stage_range_celsius(table, stage, &range);
            print("sirop_stage_range_celsius", in.with("stage", stage), status, json(range));
            const std::size_t components = draw.components();
            const auto grams = draw.mixture(components);
            const double hpa = draw.pressure_hpa();
            status = sirop_celsius_for_stage(table, stage, grams.data(), components, hpa, &range);
            print("sirop_celsius_for_stage",
                  in.with("stage", stage)
                      .with("grams", grams)
                      .with("components", components)
                      .with("pressure_hpa", hpa),
                  status, json(range));
        }
        for (int i = 0; i < 4; ++i) {
            const std::size_t components = draw.components();
            const auto grams = draw.mixture(components);
            const double celsius = draw.mostly(95.0, 190.0), hpa = draw.pressure_hpa();
            sirop_stage_place place{};
            int status = sirop_stage_of_temperature(table, celsius, hpa, &place);
            print("sirop_stage_of_temperature", in.with("celsius", celsius).with("pressure_hpa", hpa), status,
                  json(place));
            text("sirop_stage_place_text", in.with("lower", place.lower).with("upper", place.upper),
                 [&](char* out, std::size_t bytes, std::size_t* needed) {
                     return sirop_stage_place_text(table, place.lower, place.upper, out, bytes, needed);
                 });
            status = sirop_stage_of_mixture(table, grams.data(), components, &place);
            print("sirop_stage_of_mixture", in.with("grams", grams).with("components", components), status,
                  json(place));
        }
        const std::size_t n = 4, components = draw.components();
        const auto grams = mixtures_of(n, components);
        std::vector<double> celsius(n), hpa(n);
        for (std::size_t i = 0; i < n; ++i) {
            celsius[i] = draw.mostly(95.0, 190.0);
            hpa[i] = draw.pressure_hpa();
        }
        const auto of_n = in.with("n", n);
        std::vector<sirop_stage_place> places(n);
        int status = sirop_stage_of_temperature_n(table, n, celsius.data(), hpa.data(), places.data());
        print("sirop_stage_of_temperature_n", of_n.with("celsius", celsius).with("pressure_hpa", hpa), status,
              json(places));
        const auto of_mixtures = of_n.with("grams", grams).with("components", components);
        status = sirop_stage_of_mixture_n(table, n, grams.data(), components, places.data());
        print("sirop_stage_of_mixture_n", of_mixtures, status, json(places));
        const char* stage = sirop_stage_name(table, 1) == nullptr ? "soft ball" : sirop_stage_name(table, 1);
        std::vector<int32_t> statuses(n);
        std::vector<sirop_range> ranges(n);
        status = sirop_celsius_for_stage_n(table, stage, n, grams.data(), components, hpa.data(), statuses.data(),
                                           ranges.data());
        print("sirop_celsius_for_stage_n", of_mixtures.with("stage", stage).with("pressure_hpa", hpa), status,
              members{}.with("statuses", statuses).with("celsius", ranges).object());
    }
}

void texts() {
    auto all = batches();
    for (std::size_t i = 0; i < all.size() + 2; ++i) {
        const auto& batch = all[i % all.size()];
        const char* table = i >= all.size() ? (i % 2 == 0 ? "no such table" : "fr pastry")
                            : i % 2 == 0    ? nullptr
                                            : "us 1918";
        const auto in = members{}.with("batch", batch).with("table", table);
        text("sirop_predict_json", in, [&](char* out, std::size_t bytes, std::size_t* needed) {
            return sirop_predict_json(batch.data(), batch.size(), table, out, bytes, needed);
        });
        text("sirop_predict_report", in, [&](char* out, std::size_t bytes, std::size_t* needed) {
            return sirop_predict_report(batch.data(), batch.size(), table, out, bytes, needed);
        });
    }
    for (const auto& question : questions()) {
        const auto in = members{}.with("question", question);
        text("sirop_ask_json", in, [&](char* out, std::size_t bytes, std::size_t* needed) {
            return sirop_ask_json(question.data(), question.size(), out, bytes, needed);
        });
        text("sirop_ask_report", in, [&](char* out, std::size_t bytes, std::size_t* needed) {
            return sirop_ask_report(question.data(), question.size(), out, bytes, needed);
        });
    }
}

// --- mixtures
// -----------------------------------------------------------------------------------------------------

void properties() {
    auto found = names("sirop_property_name", sirop_property_name, 1);
    found.emplace_back("no_such_property");
    for (const auto& one : found) {
        const char* name = one.c_str();
        const auto in = members{}.with("property", name);
        print("sirop_property_unit", in, 0, json(sirop_property_unit(name)));
        print("sirop_property_source", in, 0, json(sirop_property_source(name)));
        print("sirop_property_uncertainty", in, 0, json(sirop_property_uncertainty(name)));
        sirop_range range{};
        double solids = nan;
        const int status = sirop_property_range(name, &range, &solids);
        print("sirop_property_range", in, status,
              members{}.with("celsius", range).with("fitted_solids_percent", solids).object());
        for (int i = 0; i < 3; ++i) {
            const std::size_t components = draw.components();
            const auto grams = draw.mixture(components);
            const double celsius = draw.mostly(0.0, 100.0), hpa = draw.pressure_hpa();
            sirop_estimate e{};
            const int of_it = sirop_property_estimate(name, grams.data(), components, celsius, hpa, &e);
            print("sirop_property_estimate",
                  in.with("grams", grams)
                      .with("components", components)
                      .with("celsius", celsius)
                      .with("pressure_hpa", hpa),
                  of_it, json(e));
        }
    }
}

void graining(int times) {
    for (int i = 0; i < times; ++i) {
        const std::size_t components = draw.components();
        const auto grams = draw.mixture(components);
        const double celsius = draw.mostly(0.0, 40.0);
        sirop_graining g{};
        g.struct_bytes = sizeof g;
        const int status = sirop_graining_at(grams.data(), components, celsius, &g);
        print("sirop_graining_at",
              members{}.with("grams", grams).with("components", components).with("celsius", celsius), status,
              json(g));
    }
    for (const std::size_t n : {0U, 5U}) {
        const std::size_t components = draw.components();
        const auto grams = mixtures_of(n, components);
        std::vector<double> celsius(n);
        for (double& one : celsius) one = draw.mostly(0.0, 40.0);
        std::vector<sirop_graining> found(n);
        if (n > 0) found[0].struct_bytes = sizeof(sirop_graining);
        const int status = sirop_graining_at_n(n, grams.data(), components, celsius.data(), found.data());
        print("sirop_graining_at_n",
              members{}.with("n", n).with("grams", grams).with("components", components).with("celsius", celsius),
              status, json(found));
    }
}

void layers(int times) {
    for (int i = 0; i < times; ++i) {
        const std::size_t n = 1 + draw.below(4), components = draw.components();
        const auto grams = mixtures_of(n, components);
        const double celsius = draw.mostly(0.0, 40.0);
        sirop_estimate activity{};
        std::vector<sirop_estimate> gained(n);
        const int status =
            sirop_layers_at_equilibrium(n, grams.data(), components, celsius, &activity, gained.data());
        print("sirop_layers_at_equilibrium",
              members{}
                  .with("layers", n)
                  .with("grams", grams)
                  .with("components", components)
                  .with("celsius", celsius),
              status, members{}.with("water_activity", activity).with("water_gained_grams", gained).object());
    }
    for (const std::size_t n : {0U, 3U}) {
        const std::size_t components = draw.components();
        constexpr std::size_t each = 2;
        const auto grams = mixtures_of(n * each, components);
        std::vector<double> celsius(n);
        for (double& one : celsius) one = draw.mostly(0.0, 40.0);
        std::vector<sirop_estimate> activities(n), gained(n * each);
        const int status = sirop_layers_at_equilibrium_n(n, each, grams.data(), components, celsius.data(),
                                                         activities.data(), gained.data());
        print("sirop_layers_at_equilibrium_n",
              members{}
                  .with("n", n)
                  .with("layers", each)
                  .with("grams", grams)
                  .with("components", components)
                  .with("celsius", celsius),
              status, members{}.with("water_activity", activities).with("water_gained_grams", gained).object());
    }
}

void arrays(std::size_t n, const char* property) {
    const std::size_t components = draw.components();
    const auto grams = mixtures_of(n, components);
    std::vector<double> celsius(n), hpa(n), hot(n);
    for (std::size_t i = 0; i < n; ++i) {
        celsius[i] = draw.mostly(0.0, 100.0);
        hot[i] = draw.mostly(100.0, 150.0);
        hpa[i] = draw.pressure_hpa();
    }
    const auto in = members{}.with("n", n).with("grams", grams).with("components", components);
    std::vector<sirop_estimate> e(n);
    int status = sirop_boiling_point_celsius_n(n, grams.data(), components, hpa.data(), e.data());
    print("sirop_boiling_point_celsius_n", in.with("pressure_hpa", hpa), status, json(e));
    status = sirop_water_at_boil_grams_n(n, grams.data(), components, hot.data(), hpa.data(), e.data());
    print("sirop_water_at_boil_grams_n", in.with("celsius", hot).with("pressure_hpa", hpa), status, json(e));
    status = sirop_water_activity_n(n, grams.data(), components, celsius.data(), e.data());
    print("sirop_water_activity_n", in.with("celsius", celsius), status, json(e));
    status = sirop_freezing_point_celsius_n(n, grams.data(), components, e.data());
    print("sirop_freezing_point_celsius_n", in, status, json(e));
    status =
        sirop_property_estimate_n(property, n, grams.data(), components, celsius.data(), hpa.data(), e.data());
    print("sirop_property_estimate_n",
          in.with("property", property).with("celsius", celsius).with("pressure_hpa", hpa), status, json(e));
}

/// One case of each of the four functions of a mixture.
void mixtures() {
    const std::size_t components = draw.components();
    const auto grams = draw.mixture(components);
    const double celsius = draw.mostly(-30.0, 180.0), hpa = draw.pressure_hpa(), hot = draw.mostly(100.0, 150.0);
    const auto in = members{}.with("grams", grams).with("components", components);
    sirop_estimate e{};
    int status = sirop_boiling_point_celsius(grams.data(), components, hpa, &e);
    print("sirop_boiling_point_celsius", in.with("pressure_hpa", hpa), status, json(e));
    status = sirop_water_at_boil_grams(grams.data(), components, hot, hpa, &e);
    print("sirop_water_at_boil_grams", in.with("celsius", hot).with("pressure_hpa", hpa), status, json(e));
    status = sirop_water_activity(grams.data(), components, celsius, &e);
    print("sirop_water_activity", in.with("celsius", celsius), status, json(e));
    status = sirop_freezing_point_celsius(grams.data(), components, &e);
    print("sirop_freezing_point_celsius", in, status, json(e));
}

// --- handles
// ------------------------------------------------------------------------------------------------------

/// A batch by calls.  Each call is a case, led to by all before it.
class session {
  public:
    session() { step("sirop_batch_new", {}, sirop_batch_new(&batch)); }
    explicit session(const std::string& text) {
        const int status = sirop_batch_read(text.data(), text.size(), &batch);
        step("sirop_batch_read", members{}.with("text", text), status,
             status == SIROP_E_BATCH ? json(sirop_batch_refusal(batch)) : "null");
    }
    session(const session&) = delete;
    session& operator=(const session&) = delete;
    ~session() {
        step("sirop_answer_free", {}, 0, answer == nullptr ? "" : "null");
        sirop_answer_free(answer);
        step("sirop_question_free", {}, 0, question == nullptr ? "" : "null");
        sirop_question_free(question);
        step("sirop_batch_free", {}, 0);
        sirop_batch_free(batch);
    }
    void add(int where, const char* ingredient, double grams, double celsius = 20.0) {
        step("sirop_batch_add",
             members{}
                 .with("where", where)
                 .with("ingredient", ingredient)
                 .with("grams", grams)
                 .with("celsius", celsius),
             sirop_batch_add(batch, where, ingredient, grams, celsius));
    }
    void add_mixture(int where, const char* name, const std::vector<double>& grams, double celsius = 20.0) {
        step("sirop_batch_add_mixture",
             members{}
                 .with("where", where)
                 .with("name", name)
                 .with("grams", grams)
                 .with("components", grams.size())
                 .with("celsius", celsius),
             sirop_batch_add_mixture(batch, where, name, grams.data(), grams.size(), celsius));
    }
    void set(const char* field, double value) {
        step("sirop_batch_set", members{}.with("field", field).with("value", value),
             sirop_batch_set(batch, field, value));
    }
    void refusal() { step("sirop_batch_refusal", {}, 0, json(sirop_batch_refusal(batch))); }
    void predict(const char* table) {
        sirop_answer_free(answer);
        step("sirop_batch_predict", members{}.with("table", table), sirop_batch_predict(batch, table, &answer));
    }
    void batch_text() {
        text(
            "sirop_batch_text", {},
            [&](char* out, std::size_t bytes, std::size_t* needed) {
                return sirop_batch_text(batch, out, bytes, needed);
            },
            before());
    }
    void begin(const char* kind) {
        sirop_question_free(question);
        step("sirop_question_new", members{}.with("kind", kind), sirop_question_new(kind, &question));
    }
    void tell(const char* key, double value) {
        step("sirop_question_set_number", members{}.with("key", key).with("value", value),
             sirop_question_set_number(question, key, value));
    }
    void tell(const char* key, bool yes) {
        step("sirop_question_set_truth", members{}.with("key", key).with("yes", yes ? 1 : 0),
             sirop_question_set_truth(question, key, yes ? 1 : 0));
    }
    void tell(const char* key, const char* value) {
        step("sirop_question_set_text", members{}.with("key", key).with("text", value),
             sirop_question_set_text(question, key, value));
    }
    void tell_batch(const char* key) {
        step("sirop_question_set_batch", members{}.with("key", key),
             sirop_question_set_batch(question, key, batch));
    }
    void ask() {
        sirop_answer_free(answer);
        step("sirop_question_ask", {}, sirop_question_ask(question, &answer));
    }
    void why() { step("sirop_question_refusal", {}, 0, json(sirop_question_refusal(question)), false); }
    void count(const char* key) {
        int32_t found = 0;
        const int status = sirop_answer_count(answer, key, &found);
        step("sirop_answer_count", members{}.with("key", key), status, json(found), false);
    }
    void report() {
        text(
            "sirop_answer_report", {},
            [&](char* out, std::size_t bytes, std::size_t* needed) {
                return sirop_answer_report(answer, out, bytes, needed);
            },
            before());
    }
    void number(const char* key) {
        double value = nan;
        const int status = sirop_answer_number(answer, key, &value);
        step("sirop_answer_number", members{}.with("key", key), status, json(value), false);
    }
    void text_of(const char* key) {
        text(
            "sirop_answer_text", members{}.with("key", key),
            [&](char* out, std::size_t bytes, std::size_t* needed) {
                return sirop_answer_text(answer, key, out, bytes, needed);
            },
            before());
    }

  private:
    std::string before() const { return R"("before": [)" + steps + "], "; }
    /// Prints the call as a case; one that changes the batch leads to the next ones.
    void step(const char* call, const members& in, int status, const std::string& out = "null",
              bool changes = true) {
        if (out.empty()) return;
        print(call, in, status, out, before());
        if (changes)
            steps += std::string(steps.empty() ? "{" : ", {") + members{}.with("call", call).text + R"(, "in": )" +
                     in.object() + "}";
    }
    sirop_batch* batch = nullptr;
    sirop_question* question = nullptr;
    sirop_answer* answer = nullptr;
    std::string steps;
};

void fill(session& s) {
    s.add(SIROP_PAN, "white sugar", 220.0);
    s.add(SIROP_PAN, "glucose syrup 42 DE", 90.0);
    s.add(SIROP_PAN, "heavy cream 36 %", 200.0);
    s.add(SIROP_OFF_HEAT, "butter, unsalted", 30.0, 15.0);
}

void questions_by_calls() {
    names("sirop_question_name", sirop_question_name, 1);
    for (const char* kind : {"cook_for", "why"}) {
        sirop_question* made = nullptr;
        print("sirop_question_new", members{}.with("kind", kind), sirop_question_new(kind, &made), "null");
        sirop_question_free(made);
    }
    {
        session s;
        fill(s);
        s.batch_text();
        s.begin("cook_for");
        s.tell("wanted.water_percent", 15.0);
        s.ask();  // without its batch
        s.why();
        s.tell_batch("batch");
        s.ask();
        s.number("answer.thermometer_celsius");
        s.number("prediction.cooked.water_percent");
        s.text_of("answer.reason");
        s.count("cautions");
        s.count("answer.reason");
        s.report();
        s.tell("wanted.water_percent.more", 1.0);  // through a number
        s.why();
        s.tell("wanted.within", nan);
        s.tell("wanted.water_percent", "much");
        s.ask();
        s.why();
    }
    {
        session s;
        fill(s);
        s.begin("rescue");
        s.tell_batch("batch");
        s.tell("wanted.set_word", "ribbon");
        s.tell("now.thermometer_celsius", 118.0);
        s.tell("now.additions_in", true);
        s.tell("with.1", "water");  // leaves out the first
        s.tell("with.0", "water");
        s.tell("with.1", "whole milk");
        s.ask();
        s.count("answer.ways");
        s.number("answer.ways.1.grams");
        s.text_of("answer.ways.0.sentence");
    }
    {
        session s;
        fill(s);
        s.set("thermometer_celsius", 109.0);
        s.begin("sensitivity");
        s.tell_batch("batch");
        s.ask();
        s.number("answer.outputs.water_percent.standard_uncertainty");
        s.number("answer.inputs.0.derivative.log10_firmness");
    }
}

void handles() {
    {
        session s;
        s.add(SIROP_PAN, "white sugar", 250.0);
        s.add(SIROP_PAN, "glucose syrup 42 DE", 100.0);
        s.add(SIROP_PAN, "moon dust", 5.0);
        s.refusal();
        s.add(SIROP_PAN, "heavy cream 36 %", 300.0);
        s.refusal();
        s.add(SIROP_OFF_HEAT, "butter, unsalted", 40.0, 12.0);
        s.set("thermometer_celsius", 107.0);
        s.set("pressure_hpa", 971.9);
        s.set("serve_celsius", 18.0);
        s.set("mood", 1.0);
        s.refusal();
        s.set("pressure_hpa", 12.0);
        s.refusal();
        s.predict("no such table");
        s.refusal();
        s.predict(nullptr);
        for (const char* key : {"cooked.water_percent_low", "finished.grams", "set.viscosity_pa_s",
                                "finished.freezing_celsius", "cooked", "no.such.key", "cautions.0"})
            s.number(key);
        for (const char* key :
             {"set.word", "cautions.0", "cautions.99", "stage.by_temperature", "cooked", "", "x"})
            s.text_of(key);
    }
    {
        session s;
        std::vector<double> grams(all_components, 0.0);
        grams[SIROP_WATER] = 80.0;
        grams[SIROP_SUCROSE] = 150.0;
        grams[SIROP_GLUCOSE] = 40.0;
        s.add_mixture(SIROP_PAN, "bench syrup", grams);
        s.add_mixture(7, "bench syrup", grams);
        s.refusal();
        s.add_mixture(SIROP_PAN, "nothing", {0.0, 0.0});
        s.add(SIROP_PAN, "honey", -1.0);
        s.add(SIROP_OFF_HEAT, "honey", 20.0, 500.0);
        s.add(SIROP_NEIGHBOURS, "dark chocolate 60-69 %", 100.0);
        s.predict(nullptr);
        s.refusal();
        s.set("thermometer_celsius", 112.0);
        s.set("thermometer_within_kelvin", 0.5);
        s.set("store_celsius", 16.0);
        s.predict("fr pastry");
        s.number("cooked.grams");
        s.text_of("stage.by_consistency");
    }
    {
        session s(batches()[3]);
        s.refusal();
        s.predict("us 1918");
        s.number("finished.water_activity_at_serving_high");
        s.text_of("title");
    }
    for (const auto& refused : {std::string("{"), std::string(R"({"sirop_batch": 1, "pan": []})")}) {
        sirop_batch* batch = nullptr;
        const int status = sirop_batch_read(refused.data(), refused.size(), &batch);
        print("sirop_batch_read", members{}.with("text", refused), status, json(sirop_batch_refusal(batch)));
        sirop_batch_free(batch);
    }
}

}  // namespace

int main() {
    about();
    kitchen();
    conversions();
    ingredients();
    words();
    stages();
    texts();
    handles();
    questions_by_calls();
    properties();
    graining(12);
    layers(10);
    for (const std::size_t n : {0U, 1U, 2U, 7U, 20U}) arrays(n, "density_g_per_ml");
    arrays(3, "viscosity_pa_s");
    arrays(3, "no_such_property");
    const int left = wanted - print.printed;
    for (int i = 0; i < left / 4; ++i) mixtures();
    while (print.printed < wanted) print("sirop_version", {}, 0, json(sirop_version()));
    std::fprintf(stderr, "%d cases, %d of them to fill up\n", print.printed, left);
    return print.printed == wanted ? 0 : 1;
}
