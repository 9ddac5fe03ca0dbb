// The part of the C API that needs the heap, but no handle: stages as text, graining and layers, batch files and
// questions as text.
#include <cstddef>
#include <utility>

#include "c/c_call.hpp"
#include "json/batch_file.hpp"
#include "questions/question.hpp"
#include "report/card.hpp"

namespace {

using namespace sirop;
using namespace sirop::lib;

int32_t refuse(std::string& text, const core::refusal& why) {
    text = one_line(why);
    return SIROP_E_BATCH;
}

/// Predicts a batch file and lets `write` make the text of batch and prediction.
template <class Write>
int32_t predict(const char* batch, size_t batch_bytes, const char* table, char* out, size_t out_bytes,
                size_t* needed_bytes, const Write& write) noexcept {
    return text_call(batch != nullptr, out, out_bytes, needed_bytes, [&](std::string& text) -> int32_t {
        const auto* stages = table_of(table);
        if (stages == nullptr) return SIROP_E_NAME;
        const auto read = read_batch({batch, batch_bytes});
        if (!read) return refuse(text, read.why);
        const auto answer = core::predict_with_advice(*read, *stages);
        if (!answer) return refuse(text, answer.why);
        text = write(*read, *answer);
        return status_of(answer->status);
    });
}

int32_t ask(const char* question, size_t question_bytes, char* out, size_t out_bytes, size_t* needed_bytes,
            bool as_json) noexcept {
    return text_call(question != nullptr, out, out_bytes, needed_bytes, [&](std::string& text) -> int32_t {
        const auto answer = answer_question(std::string_view(question, question_bytes));
        if (!answer) return refuse(text, answer.why);
        text = as_json ? text_of(answer->answer) : answer->report;
        return status_of(answer->status);
    });
}

}  // namespace

extern "C" {

int32_t sirop_stage_place_text(const char* table, int32_t lower, int32_t upper, char* out, size_t out_bytes,
                               size_t* needed_bytes) {
    return text_call(true, out, out_bytes, needed_bytes, [&](std::string& text) -> int32_t {
        const auto* stages = table_of(table);
        if (stages == nullptr) return SIROP_E_NAME;
        text = core::stage_text(*stages, {lower, upper});
        return text.empty() ? SIROP_E_RANGE : SIROP_OK;
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

int32_t sirop_graining_at_n(size_t n, const double* grams, size_t components, const double* celsius,
                            sirop_graining* results) {
    if (n == 0) return SIROP_OK;
    if (results == nullptr) return SIROP_E_NULL;
    const uint32_t step = results->struct_bytes;
    if (step < sizeof(sirop_graining)) return sirop_graining_at(nullptr, components, core::not_a_number, results);
    if (step % alignof(sirop_graining) != 0) {  // the size of no struct
        const double nothing = core::not_a_number;
        sirop_graining_at(&nothing, 1, nothing, results);  // out of range, as the whole call
        return SIROP_E_RANGE;
    }
    const bool arrays = grams != nullptr && celsius != nullptr;
    int32_t status = SIROP_OK;
    for (size_t i = 0; i < n; ++i) {
        auto* result = reinterpret_cast<sirop_graining*>(reinterpret_cast<char*>(results) + i * step);
        result->struct_bytes = step;
        status = worse(status, arrays ? sirop_graining_at(grams + i * components, components, celsius[i], result)
                                      : sirop_graining_at(nullptr, components, core::not_a_number, result));
    }
    return status;
}

int32_t sirop_layers_at_equilibrium(size_t layers, const double* grams, size_t components, double celsius,
                                    sirop_estimate* water_activity, sirop_estimate* water_gained_grams) {
    return guarded(
        [&]() -> int32_t {
            if (grams == nullptr || water_activity == nullptr || water_gained_grams == nullptr)
                return SIROP_E_NULL;
            if (layers < 1 || !core::layers_limit.holds(celsius)) return SIROP_E_RANGE;
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

int32_t sirop_layers_at_equilibrium_n(size_t n, size_t layers, const double* grams, size_t components,
                                      const double* celsius, sirop_estimate* water_activity,
                                      sirop_estimate* water_gained_grams) {
    const bool arrays = grams != nullptr && celsius != nullptr;
    int32_t status = SIROP_OK;
    for (size_t i = 0; i < n; ++i)
        status = worse(status, sirop_layers_at_equilibrium(
                                   layers, arrays ? grams + i * layers * components : nullptr, components,
                                   arrays ? celsius[i] : core::not_a_number,
                                   water_activity == nullptr ? nullptr : water_activity + i,
                                   water_gained_grams == nullptr ? nullptr : water_gained_grams + i * layers));
    return status;
}

int32_t sirop_predict_json(const char* batch, size_t batch_bytes, const char* table, char* out, size_t out_bytes,
                           size_t* needed_bytes) {
    return predict(batch, batch_bytes, table, out, out_bytes, needed_bytes,
                   [](const core::batch&, const core::prediction& p) { return json_answer(p); });
}

int32_t sirop_predict_report(const char* batch, size_t batch_bytes, const char* table, char* out, size_t out_bytes,
                             size_t* needed_bytes) {
    return predict(batch, batch_bytes, table, out, out_bytes, needed_bytes,
                   [](const core::batch&, const core::prediction& p) { return report(p); });
}

int32_t sirop_predict_card(const char* batch, size_t batch_bytes, const char* table, int32_t columns, char* out,
                           size_t out_bytes, size_t* needed_bytes) {
    if (!card_width_limit.holds(columns) && needed_bytes != nullptr) {
        *needed_bytes = 0;
        return SIROP_E_RANGE;
    }
    return predict(batch, batch_bytes, table, out, out_bytes, needed_bytes,
                   [&](const core::batch& b, const core::prediction& p) {
                       return card_text(card_of(b, p), static_cast<size_t>(columns));
                   });
}

int32_t sirop_ask_json(const char* question, size_t question_bytes, char* out, size_t out_bytes,
                       size_t* needed_bytes) {
    return ask(question, question_bytes, out, out_bytes, needed_bytes, true);
}

int32_t sirop_ask_report(const char* question, size_t question_bytes, char* out, size_t out_bytes,
                         size_t* needed_bytes) {
    return ask(question, question_bytes, out, out_bytes, needed_bytes, false);
}

}  // extern "C"
