// The part of the C API that builds texts and keeps handles: stages as text, graining and layers, batch files,
// questions, batches by calls and their answers.
#include <cmath>
#include <cstddef>
#include <memory>
#include <utility>

#include "batch_file.hpp"
#include "c_call.hpp"
#include "question.hpp"

/// A batch that is being put together, and why the last call on it was refused.
struct sirop_batch {
    sirop::core::batch plan;
    std::string refusal;
};
struct sirop_answer {
    sirop::lib::json content;
    int32_t status;
};

namespace {

using namespace sirop;
using namespace sirop::lib;

/// Checks the buffer, then lets the body make the text and its status.
template <class Body>
int32_t text_call(bool arguments, char* out, size_t out_bytes, size_t* needed_bytes, const Body& body) noexcept {
    if (needed_bytes == nullptr) return SIROP_E_NULL;
    *needed_bytes = 0;
    if (!arguments || (out == nullptr && out_bytes > 0)) return SIROP_E_NULL;
    return guarded([&]() -> int32_t {
        std::string text;
        const int32_t status = body(text);
        if (status < 0 && status != SIROP_E_BATCH) return status;
        return put_text(text, out, out_bytes, needed_bytes, status);
    });
}

int32_t refuse(std::string& text, const core::refusal& why) {
    text = one_line(why);
    return SIROP_E_BATCH;
}

using writer = std::string (*)(const core::prediction&);

int32_t predict(const char* batch, size_t batch_bytes, const char* table, char* out, size_t out_bytes,
                size_t* needed_bytes, writer write) noexcept {
    return text_call(batch != nullptr, out, out_bytes, needed_bytes, [&](std::string& text) -> int32_t {
        const auto* stages = table_of(table);
        if (stages == nullptr) return SIROP_E_NAME;
        const auto read = read_batch({batch, batch_bytes});
        if (!read) return refuse(text, read.why);
        const auto answer = core::predict_with_advice(*read, *stages);
        if (!answer) return refuse(text, answer.why);
        text = write(*answer);
        return status_of(answer->status);
    });
}

int32_t ask(const char* question, size_t question_bytes, char* out, size_t out_bytes, size_t* needed_bytes,
            bool as_json) noexcept {
    return text_call(question != nullptr, out, out_bytes, needed_bytes, [&](std::string& text) -> int32_t {
        const auto answer = answer_question({question, question_bytes});
        if (!answer) return refuse(text, answer.why);
        text = as_json ? text_of(answer->answer) : answer->report;
        return status_of(answer->status);
    });
}

/// The list of a batch that a call means; null for a number that means none.
std::vector<core::ingredient_line>* lines_of(sirop_batch& b, int32_t where) {
    switch (where) {
        case SIROP_PAN:
            return &b.plan.pan;
        case SIROP_OFF_HEAT:
            return &b.plan.off_heat;
        case SIROP_NEIGHBOURS:
            return &b.plan.neighbours;
        default:
            return nullptr;
    }
}

int32_t refused(sirop_batch* b, int32_t status, std::string why) {
    b->refusal = std::move(why);
    return status;
}

/// A call on a handle: its refusal is that of this call, or empty.
template <class Body>
int32_t handle_call(sirop_batch* b, const Body& body) noexcept {
    if (b == nullptr) return SIROP_E_NULL;
    b->refusal.clear();
    return guarded(body, [&](int32_t status) {
        if (b->refusal.empty())
            guarded([&]() -> int32_t {
                b->refusal = sirop_status_text(status);
                return status;
            });
    });
}

/// Where a refused batch is at fault: the field of sirop_batch_set in place of the key of the batch file.
std::string field_of(const core::batch& b, const std::string& place) {
    static constexpr std::pair<std::string_view, std::string_view> fields[] = {
        {"cook.pressure_hpa", "pressure_hpa"},
        {"cook.thermometer_reads_in_boiling_water_celsius", "thermometer_error_kelvin"},
        {"cook.thermometer_within_celsius", "thermometer_within_kelvin"},
        {"serve.celsius", "serve_celsius"},
        {"store.celsius", "store_celsius"},
        {"pour.celsius", "pour_celsius"},
    };
    if (place == b.target_place) return "thermometer_celsius";
    for (const auto& [key, field] : fields)
        if (place == key) return std::string(field);
    return place;
}

int32_t add(sirop_batch* b, int32_t where, core::ingredient_line line) {
    auto* lines = lines_of(*b, where);
    if (lines == nullptr)
        return refused(
            b, SIROP_E_RANGE,
            "where: " + std::to_string(where) + "; SIROP_PAN, SIROP_OFF_HEAT or SIROP_NEIGHBOURS is accepted");
    for (const auto& [name, value, range] : {std::tuple{"grams", line.grams, core::grams_limit},
                                             std::tuple{"celsius", line.celsius, core::added_limit}})
        if (!range.holds(value))
            return refused(b, SIROP_E_RANGE,
                           std::string(name) + ": " + core::shortest(value) + " is outside the accepted range, " +
                               core::shortest(range.low) + " to " + core::shortest(range.high));
    lines->push_back(std::move(line));
    return SIROP_OK;
}

/// The value under keys joined by dots; null if there is none.
const json* find_key(const json& root, std::string_view path) {
    const json* at = &root;
    while (!path.empty()) {
        const auto dot = std::min(path.find('.'), path.size());
        const std::string key(path.substr(0, dot));
        path.remove_prefix(std::min(dot + 1, path.size()));
        if (at->is_object()) {
            const auto found = at->find(key);
            if (found == at->end()) return nullptr;
            at = &*found;
        } else if (at->is_array()) {
            std::size_t i = 0;
            for (const char c : key) {
                if (c < '0' || c > '9' || i > at->size()) return nullptr;
                i = 10 * i + static_cast<std::size_t>(c - '0');
            }
            if (key.empty() || i >= at->size()) return nullptr;
            at = &(*at)[i];
        } else {
            return nullptr;
        }
    }
    return at;
}

}  // namespace

extern "C" {

int32_t sirop_stage_of_temperature(const char* table, double celsius, double pressure_hpa, char* out,
                                   size_t out_bytes, size_t* needed_bytes) {
    return text_call(true, out, out_bytes, needed_bytes, [&](std::string& text) -> int32_t {
        const auto* stages = table_of(table);
        if (stages == nullptr) return SIROP_E_NAME;
        if (!core::temperature_limit.holds(celsius) || !core::pressure_limit.holds(pressure_hpa))
            return SIROP_E_RANGE;
        // Past 99.5 % solids of plain syrup the chart tells colours, not water: read it as it stands.
        const double carried = core::carried_celsius(celsius, 100.0 * pressure_hpa, formula::standard_atmosphere);
        text = core::stage_name(*stages, std::isfinite(carried) ? carried : celsius);
        return SIROP_OK;
    });
}

int32_t sirop_stage_of_mixture(const char* table, const double* grams, size_t components, char* out,
                               size_t out_bytes, size_t* needed_bytes) {
    return text_call(grams != nullptr, out, out_bytes, needed_bytes, [&](std::string& text) -> int32_t {
        const auto* stages = table_of(table);
        if (stages == nullptr) return SIROP_E_NAME;
        core::mixture m;
        if (!read_masses(grams, components, m)) return SIROP_E_RANGE;
        text = core::stage_in_cold_water(m, *stages).name;
        if (text.empty()) return SIROP_E_IMPOSSIBLE;
        return status_of(core::log10_firmness(m, core::cold_water_celsius).status);
    });
}

int32_t sirop_graining_at(const double* grams, size_t components, double celsius, sirop_graining* result) {
    if (result == nullptr) return SIROP_E_NULL;
    if (result->struct_bytes < sizeof(sirop_graining)) {  // the first version of the struct
        if (result->struct_bytes >= offsetof(sirop_graining, risk)) result->status = SIROP_E_RANGE;
        return SIROP_E_RANGE;
    }
    result->reserved = 0;
    return guarded(
        [&]() -> int32_t {
            if (grams == nullptr) return SIROP_E_NULL;
            core::mixture m;
            if (!read_masses(grams, components, m) || !core::serve_limit.holds(celsius)) return SIROP_E_RANGE;
            m = core::at_temperature(m, celsius);
            if (!(m.water() > 0.0)) return SIROP_E_IMPOSSIBLE;
            const auto g = core::graining_of(m, celsius);
            int32_t status = SIROP_OK;
            for (const auto& [from, to] :
                 {std::pair{&g.sucrose.supersaturation, &result->sucrose_supersaturation},
                  std::pair{&g.lactose.supersaturation, &result->lactose_supersaturation},
                  std::pair{&g.crystallizable_percent, &result->crystallizable_percent}}) {
                put(*from, to);
                if (g.celsius != celsius) to->status = worse(to->status, SIROP_EXTRAPOLATED);
                status = worse(status, to->status);
            }
            result->hindering_percent = g.hindering_percent;
            result->risk = static_cast<int32_t>(g.risk);
            return result->status = status;
        },
        [&](int32_t status) {
            for (auto* e : {&result->sucrose_supersaturation, &result->lactose_supersaturation,
                            &result->crystallizable_percent})
                fail(status, e);
            result->hindering_percent = core::not_a_number;
            result->risk = -1;
            result->status = status;
        });
}

int32_t sirop_layers_at_equilibrium(size_t layers, const double* grams, size_t components, double celsius,
                                    sirop_estimate* water_activity, sirop_estimate* water_gained_grams) {
    return guarded(
        [&]() -> int32_t {
            if (grams == nullptr || water_activity == nullptr || water_gained_grams == nullptr)
                return SIROP_E_NULL;
            if (layers < 1 || !(celsius >= 0.0 && celsius <= core::serve_limit.high)) return SIROP_E_RANGE;
            std::vector<core::layer> all(layers);
            for (size_t i = 0; i < layers; ++i)
                if (!read_masses(grams + i * components, components, all[i].contents)) return SIROP_E_RANGE;
            const auto answer = core::at_equilibrium(all, celsius);
            int32_t status = put(answer.water_activity, water_activity);
            for (size_t i = 0; status >= 0 && i < layers; ++i)
                status = worse(status, put(answer.layers[i].water_gained_grams, water_gained_grams + i));
            return status;
        },
        [&](int32_t status) {
            for (size_t i = 0; water_gained_grams != nullptr && i < layers; ++i)
                fail(status, water_gained_grams + i);
            if (water_activity != nullptr) fail(status, water_activity);
        });
}

int32_t sirop_predict_json(const char* batch, size_t batch_bytes, const char* table, char* out, size_t out_bytes,
                           size_t* needed_bytes) {
    return predict(batch, batch_bytes, table, out, out_bytes, needed_bytes, json_answer);
}

int32_t sirop_predict_report(const char* batch, size_t batch_bytes, const char* table, char* out, size_t out_bytes,
                             size_t* needed_bytes) {
    return predict(batch, batch_bytes, table, out, out_bytes, needed_bytes, report);
}

int32_t sirop_ask_json(const char* question, size_t question_bytes, char* out, size_t out_bytes,
                       size_t* needed_bytes) {
    return ask(question, question_bytes, out, out_bytes, needed_bytes, true);
}

int32_t sirop_ask_report(const char* question, size_t question_bytes, char* out, size_t out_bytes,
                         size_t* needed_bytes) {
    return ask(question, question_bytes, out, out_bytes, needed_bytes, false);
}

int32_t sirop_batch_new(sirop_batch** batch) {
    if (batch == nullptr) return SIROP_E_NULL;
    *batch = nullptr;
    return guarded([&]() -> int32_t {
        *batch = new sirop_batch();
        return SIROP_OK;
    });
}

int32_t sirop_batch_read(const char* text, size_t text_bytes, sirop_batch** batch) {
    if (batch == nullptr) return SIROP_E_NULL;
    *batch = nullptr;
    if (text == nullptr) return SIROP_E_NULL;
    return guarded([&]() -> int32_t {
        auto made = std::make_unique<sirop_batch>();
        auto read = read_batch({text, text_bytes});
        int32_t status = SIROP_OK;
        if (read)
            made->plan = *read;
        else
            status = refused(made.get(), SIROP_E_BATCH, one_line(read.why));
        *batch = made.release();  // with the reason, if it was refused
        return status;
    });
}

void sirop_batch_free(sirop_batch* batch) {
    delete batch;
}

int32_t sirop_batch_add(sirop_batch* batch, int32_t where, const char* ingredient, double grams, double celsius) {
    return handle_call(batch, [&]() -> int32_t {
        if (ingredient == nullptr)
            return refused(batch, SIROP_E_NULL, "ingredient: is null; a name of the pantry is accepted");
        const auto known = core::pantry_composition(ingredient);
        if (!known)
            return refused(
                batch, SIROP_E_NAME,
                "ingredient: " + in_quotes(ingredient) + " is unknown; a name of the pantry is accepted");
        return add(batch, where, {ingredient, *known, grams, celsius});
    });
}

int32_t sirop_batch_add_mixture(sirop_batch* batch, int32_t where, const char* name, const double* grams,
                                size_t components, double celsius) {
    return handle_call(batch, [&]() -> int32_t {
        if (name == nullptr) return refused(batch, SIROP_E_NULL, "name: is null; a text is accepted");
        if (grams == nullptr)
            return refused(batch, SIROP_E_NULL, "grams: is null; an array of masses is accepted");
        core::mixture m;
        if (!read_masses(grams, components, m))
            return refused(batch, SIROP_E_RANGE, "grams: masses of at least 0, not all 0, are accepted");
        core::ingredient_line line{name, m.grams, m.total(), celsius};
        for (double& share : line.per_gram) share /= line.grams;
        return add(batch, where, std::move(line));
    });
}

int32_t sirop_batch_set(sirop_batch* batch, const char* field, double value) {
    return handle_call(batch, [&]() -> int32_t {
        auto& b = batch->plan;
        struct settable {
            std::string_view name;
            double* into;
            core::limit range;
            double factor;
        };
        const settable fields[] = {
            {"thermometer_celsius", &b.thermometer_celsius, core::target_limit, 1.0},
            {"pressure_hpa", &b.pressure_pa, core::pressure_limit, 100.0},
            {"thermometer_error_kelvin", &b.thermometer_error_kelvin, core::thermometer_error_limit, 1.0},
            {"thermometer_within_kelvin", &b.thermometer_within_kelvin, core::thermometer_within_limit, 1.0},
            {"serve_celsius", &b.serve_celsius, core::serve_limit, 1.0},
            {"store_celsius", &b.store_celsius, core::serve_limit, 1.0},
            {"pour_celsius", &b.pour_celsius, core::pour_limit, 1.0},
        };
        std::string names;
        for (const auto& f : fields) {
            names += (names.empty() ? "" : ", ") + std::string(f.name);
            if (field == nullptr || f.name != field) continue;
            if (!f.range.holds(value))
                return refused(batch, SIROP_E_RANGE,
                               std::string(f.name) + ": " + core::shortest(value) +
                                   " is outside the accepted range, " + core::shortest(f.range.low) + " to " +
                                   core::shortest(f.range.high));
            *f.into = f.factor * value;
            return SIROP_OK;
        }
        if (field == nullptr) return refused(batch, SIROP_E_NULL, "field: is null; accepted: " + names);
        return refused(batch, SIROP_E_NAME, "field: " + in_quotes(field) + " is unknown; accepted: " + names);
    });
}

const char* sirop_batch_refusal(const sirop_batch* batch) {
    return batch == nullptr ? "" : batch->refusal.c_str();
}

int32_t sirop_batch_predict(sirop_batch* batch, const char* table, sirop_answer** answer) {
    if (answer != nullptr) *answer = nullptr;
    return handle_call(batch, [&]() -> int32_t {
        if (answer == nullptr)
            return refused(batch, SIROP_E_NULL, "answer: is null; a pointer to a sirop_answer* is accepted");
        const auto* stages = table_of(table);
        if (stages == nullptr)
            return refused(batch, SIROP_E_NAME, "table: " + in_quotes(table) + " is not a stage table");
        const auto& plan = batch->plan;
        if (!plan.pan.empty() && std::isnan(plan.thermometer_celsius))  // an empty pan is named first
            return refused(batch, SIROP_E_BATCH, "thermometer_celsius: is missing; set it with sirop_batch_set");
        const auto p = core::predict_with_advice(plan, *stages);
        if (!p) return refused(batch, SIROP_E_BATCH, one_line({field_of(plan, p.why.place), p.why.reason}));
        *answer = new sirop_answer{prediction_json(*p), status_of(p->status)};
        return (*answer)->status;
    });
}

void sirop_answer_free(sirop_answer* answer) {
    delete answer;
}

int32_t sirop_answer_number(const sirop_answer* answer, const char* key, double* value) {
    if (value == nullptr) return SIROP_E_NULL;
    *value = core::not_a_number;
    if (answer == nullptr || key == nullptr) return SIROP_E_NULL;
    return guarded([&]() -> int32_t {
        const json* found = find_key(answer->content, key);
        if (found == nullptr || found->is_string() || found->is_structured()) return SIROP_E_NAME;
        if (found->is_null()) return SIROP_E_IMPOSSIBLE;
        *value = found->is_boolean() ? (found->get<bool>() ? 1.0 : 0.0) : found->get<double>();
        return answer->status;
    });
}

int32_t sirop_answer_text(const sirop_answer* answer, const char* key, char* out, size_t out_bytes,
                          size_t* needed_bytes) {
    return text_call(answer != nullptr && key != nullptr, out, out_bytes, needed_bytes,
                     [&](std::string& text) -> int32_t {
                         const json* found = find_key(answer->content, key);
                         if (found == nullptr) return SIROP_E_NAME;
                         if (found->is_string())
                             text = found->get<std::string>();
                         else
                             text = text_of(*found);  // "" is the whole answer, a key of an object its part
                         return answer->status;
                     });
}

}  // extern "C"
