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

// --- calls without a handle -----------------------------------------------------------------------------------

/// A call with its arguments and what it gave; gives the result back.
template <class Function, class Result, class... Arguments>
Result answer(const char* call, const Function& function, Result result, const Arguments&... arguments) {
    const int status = std::apply(function, std::tuple_cat(in_c(arguments)..., out_c(result)));
    print(call, members(arguments...), status, json(result));
    return result;
}

/// A call that returns a text.
template <class Function, class... Arguments>
void returned(const char* call, const Function& function, const Arguments&... arguments) {
    print(call, members(arguments...), 0, json(std::apply(function, std::tuple_cat(in_c(arguments)...))));
}

/// A call that writes a text: with a small buffer and then, if that was too small, with one of the size asked for.
template <class Function, class... Arguments>
void written(const char* call, const Function& function, const std::string& before, const members& in,
             const Arguments&... arguments) {
    std::vector<char> out(16);
    std::size_t needed = 0;
    int status = function(arguments..., out.data(), out.size(), &needed);
    if (status == SIROP_E_BUFFER) {
        out.resize(needed);
        status = function(arguments..., out.data(), out.size(), &needed);
    }
    print(call, in, status, status >= 0 || status == SIROP_E_BATCH ? json(out.data()) : "null", before);
}
template <class Function, class... Arguments>
void text(const char* call, const Function& function, const Arguments&... arguments) {
    std::apply([&](const auto&... given) { written(call, function, "", members(arguments...), given...); },
               std::tuple_cat(in_c(arguments)...));
}

/// n numbers drawn one after the other.
template <class Draw>
std::vector<double> drawn(std::size_t n, const Draw& next) {
    std::vector<double> found(n);
    for (double& one : found) one = next();
    return found;
}

/// const char* f(int32_t), asked for every `step`th index from -1 on, and past the last; gives back all names.
std::vector<std::string> names(const char* call, const char* (*name)(int32_t), int step,
                               const char* argument = "index") {
    std::vector<std::string> found;
    while (const char* one = name(static_cast<int32_t>(found.size()))) found.emplace_back(one);
    const int count = static_cast<int>(found.size());
    for (int i = -1; i < count; i += step) returned(call, name, named{argument, i});
    returned(call, name, named{argument, count});
    return found;
}

void about() {
    returned("sirop_version", sirop_version);
    for (const int status : {0, 1, 2, -1, -2, -3, -4, -5, -6, -7, -8, -9, -1000})
        returned("sirop_status_text", sirop_status_text, named{"status", status});
    names("sirop_component_name", sirop_component_name, 1, "component");
    auto arguments = names("sirop_argument_name", sirop_argument_name, 1);
    arguments.emplace_back("");
    arguments.emplace_back("mood");
    for (const auto& name : arguments)
        answer("sirop_accepted_range", sirop_accepted_range, sirop_range{}, named{"argument", name});
}

void number(const char* call, int32_t (*function)(double, double*), const char* argument, double low,
            double high) {
    // First the bounds, then the next double beyond each.
    for (const double x : {low, high, std::nextafter(low, -1.0e9), std::nextafter(high, 1.0e9)})
        answer(call, function, nan, named{argument, x});
    for (int i = 0; i < 9; ++i) answer(call, function, nan, named{argument, draw.mostly(low, high)});
}

/// int32_t f(first..., size_t, const double*, int32_t*, T*): numbers, some of them bad, to results with statuses.
template <class Result, class Function, class... First>
void numbers(const char* call, const Function& function, const char* argument, const char* result, double low,
             double high, const First&... first) {
    for (const std::size_t n : {0U, 5U}) {
        auto x = drawn(n, [&] { return draw.mostly(low, high); });
        if (n > 1) x[1] = nan;
        answer(call, function, with_statuses<Result>(n, result), first..., named{"n", n}, named{argument, x});
    }
}

void kitchen() {
    number("sirop_pressure_at_altitude_hpa", sirop_pressure_at_altitude_hpa, "altitude_metres", -500.0, 9000.0);
    number("sirop_pressure_from_boiling_water_hpa", sirop_pressure_from_boiling_water_hpa, "water_boils_celsius",
           70.0, 102.0);
    number("sirop_water_boils_celsius", sirop_water_boils_celsius, "pressure_hpa", 300.0, 1100.0);
    numbers<double>("sirop_pressure_at_altitude_hpa_n", sirop_pressure_at_altitude_hpa_n, "altitude_metres",
                    "pressure_hpa", -500.0, 9000.0);
    numbers<double>("sirop_pressure_from_boiling_water_hpa_n", sirop_pressure_from_boiling_water_hpa_n,
                    "water_boils_celsius", "pressure_hpa", 70.0, 102.0);
    numbers<double>("sirop_water_boils_celsius_n", sirop_water_boils_celsius_n, "pressure_hpa", "celsius", 300.0,
                    1100.0);
}

void conversions() {
    auto found = names("sirop_conversion_name", sirop_conversion_name, 1);
    found.emplace_back("cups_to_spoons");
    for (const auto& name : found)
        for (const double value : {draw.uniform(0.0, 100.0), draw.mostly(0.0, 1500.0)})
            answer("sirop_convert", sirop_convert, nan, named{"conversion", name}, named{"value", value});
    for (const char* name : {"brix_to_baume", "celsius_to_fahrenheit", "cups_to_spoons"})
        numbers<double>("sirop_convert_n", sirop_convert_n, "values", "results", 0.0, 90.0,
                        named{"conversion", name});
}

void ingredients() {
    auto found = names("sirop_ingredient_name", sirop_ingredient_name, 5);
    found.emplace_back("moon dust");
    found.emplace_back(" Honey ");
    const std::vector<double> grams(all_components);
    const named components{"components", all_components};  // C takes it after the grams
    for (std::size_t i = 0; i < found.size(); i += i + 3 < found.size() ? 6 : 1) {
        const named ingredient{"ingredient", found[i]};
        returned("sirop_ingredient_source", sirop_ingredient_source, ingredient);
        returned("sirop_ingredient_estimate", sirop_ingredient_estimate, ingredient);
        const auto of_name = [](const char* name, std::size_t size, double* out) {
            return sirop_ingredient_grams(name, out, size);
        };
        answer("sirop_ingredient_grams", of_name, grams, ingredient, components);
    }
    for (const std::size_t n : {0U, 3U}) {
        std::vector<double> equivalents(n), solids(n);
        for (std::size_t i = 0; i < n; ++i) {
            equivalents[i] = draw.mostly(10.0, 60.0);
            solids[i] = i == 1 ? 0.0 : draw.mostly(1.0, 100.0);
        }
        const auto syrups = [](std::size_t count, const double* equivalent, const double* percent,
                               std::size_t size, int32_t* statuses, double* out) {
            return sirop_glucose_syrup_grams_n(count, equivalent, percent, statuses, out, size);
        };
        answer("sirop_glucose_syrup_grams_n", syrups, with_statuses<double>(n, "grams", all_components),
               named{"n", n}, named{"dextrose_equivalent", equivalents}, named{"solids_percent", solids},
               components);
    }
    for (int i = 0; i < 8; ++i) {
        const double equivalent = draw.mostly(10.0, 60.0), solids = draw.mostly(1.0, 100.0);
        const auto syrup = [](double of, double percent, std::size_t size, double* out) {
            return sirop_glucose_syrup_grams(of, percent, out, size);
        };
        answer("sirop_glucose_syrup_grams", syrup, grams, named{"dextrose_equivalent", equivalent},
               named{"solids_percent", solids}, components);
    }
}

void words() {
    const auto found = names("sirop_texture_word", sirop_texture_word, 1);
    for (int i = -1; i <= static_cast<int>(found.size()); ++i) {
        const named index{"index", i};
        returned("sirop_texture_word_meaning", sirop_texture_word_meaning, index);
        answer("sirop_texture_word_firmness_pa_s", sirop_texture_word_firmness_pa_s, sirop_range{}, index);
    }
    for (int i = 0; i < 10; ++i) {
        const double firmness = i == 0 ? -1.0 : i == 1 ? nan : std::pow(10.0, draw.uniform(-3.0, 13.0));
        answer("sirop_texture_word_of", sirop_texture_word_of, int32_t{0}, named{"firmness_pa_s", firmness});
    }
    numbers<int32_t>("sirop_texture_word_of_n", sirop_texture_word_of_n, "firmness_pa_s", "indices", 0.0, 1.0e4);
    const auto groups = names("sirop_growth_group", sirop_growth_group, 1);
    for (int i = -1; i <= static_cast<int>(groups.size()); ++i)
        answer("sirop_growth_limit", sirop_growth_limit, nan, named{"index", i});
    returned("sirop_growth_limits_source", sirop_growth_limits_source);
}

void stages() {
    names("sirop_stage_table_name", sirop_stage_table_name, 1);
    for (const char* one : {static_cast<const char*>(nullptr), "us 1918", "fr pastry", "no such table"}) {
        const named table{"table", one};
        returned("sirop_stage_table_source", sirop_stage_table_source, table);
        for (int i = 0; i < 7; ++i) {
            const named stage{"stage", i == 6 ? "no such stage" : sirop_stage_name(one, i)};
            if (i < 6) returned("sirop_stage_name", sirop_stage_name, table, named{"index", i});
            if (stage.value == nullptr || i % 2 != 0) continue;
            answer("sirop_stage_range_celsius", sirop_stage_range_celsius, sirop_range{}, table, stage);
            const auto grams = draw.mixtures(1);
            answer("sirop_celsius_for_stage", sirop_celsius_for_stage, sirop_range{}, table, stage, grams,
                   named{"pressure_hpa", draw.pressure_hpa()});
        }
        for (int i = 0; i < 4; ++i) {
            const auto grams = draw.mixtures(1);
            const named celsius{"celsius", draw.mostly(95.0, 190.0)}, hpa{"pressure_hpa", draw.pressure_hpa()};
            const auto place = answer("sirop_stage_of_temperature", sirop_stage_of_temperature,
                                      sirop_stage_place{}, table, celsius, hpa);
            text("sirop_stage_place_text", sirop_stage_place_text, table, named{"lower", place.lower},
                 named{"upper", place.upper});
            answer("sirop_stage_of_mixture", sirop_stage_of_mixture, place, table, grams);
        }
        const named n{"n", std::size_t{4}};
        const auto grams = draw.mixtures(n.value);
        named celsius{"celsius", std::vector<double>(n.value)}, hpa{"pressure_hpa", std::vector<double>(n.value)};
        for (std::size_t i = 0; i < n.value; ++i) {
            celsius.value[i] = draw.mostly(95.0, 190.0);
            hpa.value[i] = draw.pressure_hpa();
        }
        const std::vector<sirop_stage_place> places(n.value);
        answer("sirop_stage_of_temperature_n", sirop_stage_of_temperature_n, places, table, n, celsius, hpa);
        answer("sirop_stage_of_mixture_n", sirop_stage_of_mixture_n, places, table, n, grams);
        const char* second = sirop_stage_name(one, 1);
        answer("sirop_celsius_for_stage_n", sirop_celsius_for_stage_n,
               with_statuses<sirop_range>(n.value, "celsius"), table,
               named{"stage", second == nullptr ? "soft ball" : second}, n, grams, hpa);
    }
}

void texts() {
    const auto all = batches();
    for (std::size_t i = 0; i < all.size() + 2; ++i) {
        const named batch{"batch", sized_text{all[i % all.size()]}};
        const named table{"table", i >= all.size() ? (i % 2 == 0 ? "no such table" : "fr pastry")
                                   : i % 2 == 0    ? nullptr
                                                   : "us 1918"};
        text("sirop_predict_json", sirop_predict_json, batch, table);
        text("sirop_predict_report", sirop_predict_report, batch, table);
        text("sirop_predict_card", sirop_predict_card, batch, table, named{"columns", i % 3 == 0 ? 23 : 32});
    }
    for (const auto& one : questions()) {
        const named question{"question", sized_text{one}};
        text("sirop_ask_json", sirop_ask_json, question);
        text("sirop_ask_report", sirop_ask_report, question);
    }
}

// --- mixtures ---------------------------------------------------------------------------------------------------

void properties() {
    auto found = names("sirop_property_name", sirop_property_name, 1);
    found.emplace_back("no_such_property");
    for (const auto& one : found) {
        const named property{"property", one};
        returned("sirop_property_unit", sirop_property_unit, property);
        returned("sirop_property_source", sirop_property_source, property);
        returned("sirop_property_uncertainty", sirop_property_uncertainty, property);
        answer("sirop_property_range", sirop_property_range,
               both<sirop_range, double>{{"celsius", {}}, {"fitted_solids_percent", nan}}, property);
        for (int i = 0; i < 3; ++i) {
            const auto grams = draw.mixtures(1);
            const named celsius{"celsius", draw.mostly(0.0, 100.0)}, hpa{"pressure_hpa", draw.pressure_hpa()};
            answer("sirop_property_estimate", sirop_property_estimate, sirop_estimate{}, property, grams, celsius,
                   hpa);
        }
    }
}

const auto serving_celsius = [] { return draw.mostly(0.0, 40.0); };

void graining() {
    sirop_graining empty{};
    empty.struct_bytes = sizeof empty;
    for (int i = 0; i < 12; ++i) {
        const auto grams = draw.mixtures(1);
        answer("sirop_graining_at", sirop_graining_at, empty, grams, named{"celsius", serving_celsius()});
    }
    for (const std::size_t n : {0U, 5U}) {
        const auto grams = draw.mixtures(n);
        answer("sirop_graining_at_n", sirop_graining_at_n, std::vector<sirop_graining>(n, empty), named{"n", n},
               grams, named{"celsius", drawn(n, serving_celsius)});
    }
}

void layers() {
    using estimates = std::vector<sirop_estimate>;
    for (int i = 0; i < 10; ++i) {
        const std::size_t n = 1 + draw.below(4);
        const auto grams = draw.mixtures(n);
        answer("sirop_layers_at_equilibrium", sirop_layers_at_equilibrium,
               both<sirop_estimate, estimates>{{"water_activity", {}}, {"water_gained_grams", estimates(n)}},
               named{"layers", n}, grams, named{"celsius", serving_celsius()});
    }
    for (const std::size_t n : {0U, 3U}) {
        constexpr std::size_t each = 2;
        const auto grams = draw.mixtures(n * each);
        answer("sirop_layers_at_equilibrium_n", sirop_layers_at_equilibrium_n,
               both<estimates, estimates>{{"water_activity", estimates(n)},
                                          {"water_gained_grams", estimates(n * each)}},
               named{"n", n}, named{"layers", each}, grams, named{"celsius", drawn(n, serving_celsius)});
    }
}

void arrays(std::size_t count, const char* property) {
    const auto grams = draw.mixtures(count);
    named celsius{"celsius", std::vector<double>(count)};
    auto hot = celsius;
    named hpa{"pressure_hpa", celsius.value};
    for (std::size_t i = 0; i < count; ++i) {
        celsius.value[i] = draw.mostly(0.0, 100.0);
        hot.value[i] = draw.mostly(100.0, 150.0);
        hpa.value[i] = draw.pressure_hpa();
    }
    const named n{"n", count};
    const std::vector<sirop_estimate> e(count);
    answer("sirop_boiling_point_celsius_n", sirop_boiling_point_celsius_n, e, n, grams, hpa);
    answer("sirop_water_at_boil_grams_n", sirop_water_at_boil_grams_n, e, n, grams, hot, hpa);
    answer("sirop_water_activity_n", sirop_water_activity_n, e, n, grams, celsius);
    answer("sirop_freezing_point_celsius_n", sirop_freezing_point_celsius_n, e, n, grams);
    answer("sirop_property_estimate_n", sirop_property_estimate_n, e, named{"property", property}, n, grams,
           celsius, hpa);
}

/// One case of each of the four functions of a mixture.
void mixtures() {
    const auto grams = draw.mixtures(1);
    const named celsius{"celsius", draw.mostly(-30.0, 180.0)}, hpa{"pressure_hpa", draw.pressure_hpa()},
        hot{"celsius", draw.mostly(100.0, 150.0)};
    const sirop_estimate e{};
    answer("sirop_boiling_point_celsius", sirop_boiling_point_celsius, e, grams, hpa);
    answer("sirop_water_at_boil_grams", sirop_water_at_boil_grams, e, grams, hot, hpa);
    answer("sirop_water_activity", sirop_water_activity, e, grams, celsius);
    answer("sirop_freezing_point_celsius", sirop_freezing_point_celsius, e, grams);
}

// --- handles ----------------------------------------------------------------------------------------------------

/// A batch by calls.  Each call is a case, led to by all before it.
class session {
  public:
    session() { step("sirop_batch_new", members(), sirop_batch_new(&batch)); }
    explicit session(const std::string& text) {
        const int status = sirop_batch_read(text.data(), text.size(), &batch);
        step("sirop_batch_read", members(named{"text", text}), status,
             status == SIROP_E_BATCH ? json(sirop_batch_refusal(batch)) : "null");
    }
    session(const session&) = delete;
    session& operator=(const session&) = delete;
    ~session() {
        step("sirop_answer_free", members(), 0, answer == nullptr ? "" : "null");
        sirop_answer_free(answer);
        step("sirop_question_free", members(), 0, question == nullptr ? "" : "null");
        sirop_question_free(question);
        step("sirop_batch_free", members(), 0);
        sirop_batch_free(batch);
    }
    void add(int where, const char* ingredient, double grams, double celsius = 20.0) {
        change("sirop_batch_add", sirop_batch_add, batch, named{"where", where}, named{"ingredient", ingredient},
               named{"grams", grams}, named{"celsius", celsius});
    }
    void add_mixture(int where, const char* name, const std::vector<double>& grams, double celsius = 20.0) {
        change("sirop_batch_add_mixture", sirop_batch_add_mixture, batch, named{"where", where},
               named{"name", name}, masses{grams, grams.size()}, named{"celsius", celsius});
    }
    void set(const char* field, double value) {
        change("sirop_batch_set", sirop_batch_set, batch, named{"field", field}, named{"value", value});
    }
    void refusal() { step("sirop_batch_refusal", members(), 0, json(sirop_batch_refusal(batch))); }
    void predict(const char* table) {
        sirop_answer_free(answer);
        step("sirop_batch_predict", members(named{"table", table}), sirop_batch_predict(batch, table, &answer));
    }
    void batch_text() { written("sirop_batch_text", sirop_batch_text, before(), members(), batch); }
    void begin(const char* kind) {
        sirop_question_free(question);
        step("sirop_question_new", members(named{"kind", kind}), sirop_question_new(kind, &question));
    }
    void tell(const char* key, double value) {
        change("sirop_question_set_number", sirop_question_set_number, question, named{"key", key},
               named{"value", value});
    }
    void tell(const char* key, bool yes) {
        change("sirop_question_set_truth", sirop_question_set_truth, question, named{"key", key},
               named{"yes", yes ? 1 : 0});
    }
    void tell(const char* key, const char* value) {
        change("sirop_question_set_text", sirop_question_set_text, question, named{"key", key},
               named{"text", value});
    }
    void tell_batch(const char* key) {
        step("sirop_question_set_batch", members(named{"key", key}),
             sirop_question_set_batch(question, key, batch));
    }
    void ask() {
        sirop_answer_free(answer);
        step("sirop_question_ask", members(), sirop_question_ask(question, &answer));
    }
    void why() { step("sirop_question_refusal", members(), 0, json(sirop_question_refusal(question)), false); }
    void count(const char* key) {
        int32_t found = 0;
        const int status = sirop_answer_count(answer, key, &found);
        step("sirop_answer_count", members(named{"key", key}), status, json(found), false);
    }
    void report() { written("sirop_answer_report", sirop_answer_report, before(), members(), answer); }
    void number(const char* key) {
        double value = nan;
        const int status = sirop_answer_number(answer, key, &value);
        step("sirop_answer_number", members(named{"key", key}), status, json(value), false);
    }
    void text_of(const char* key) {
        written("sirop_answer_text", sirop_answer_text, before(), members(named{"key", key}), answer, key);
    }

  private:
    std::string before() const { return R"("before": [)" + steps + "], "; }
    /// A call on a handle that changes it.
    template <class Function, class Handle, class... Arguments>
    void change(const char* call, const Function& function, Handle* handle, const Arguments&... arguments) {
        step(call, members(arguments...),
             std::apply(function, std::tuple_cat(std::tuple(handle), in_c(arguments)...)));
    }
    /// Prints the call as a case; one that changes the batch leads to the next ones.
    void step(const char* call, const members& in, int status, const std::string& out = "null",
              bool changes = true) {
        if (out.empty()) return;
        print(call, in, status, out, before());
        if (changes)
            steps += std::string(steps.empty() ? "{" : ", {") + members(named{"call", call}).text + R"(, "in": )" +
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
        print("sirop_question_new", members(named{"kind", kind}), sirop_question_new(kind, &made), "null");
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
        print("sirop_batch_read", members(named{"text", refused}), status, json(sirop_batch_refusal(batch)));
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
    graining();
    layers();
    for (const std::size_t n : {0U, 1U, 2U, 7U, 20U}) arrays(n, "density_g_per_ml");
    arrays(3, "viscosity_pa_s");
    arrays(3, "no_such_property");
    const int left = wanted - print.printed;
    for (int i = 0; i < left / 4; ++i) mixtures();
    while (print.printed < wanted) returned("sirop_version", sirop_version);
    std::fprintf(stderr, "%d cases, %d of them to fill up\n", print.printed, left);
    return print.printed == wanted ? 0 : 1;
}
