// The handles of the C API: batches by calls, questions by calls, and the answers to both.
#include <array>
#include <cmath>
#include <memory>
#include <optional>
#include <utility>

#include "c/c_call.hpp"
#include "json/batch_file.hpp"
#include "questions/question.hpp"
#include "report/page.hpp"

/// A batch that is being put together, and why the last call on it was refused.
struct sirop_batch {
    sirop::core::batch plan;
    std::string refusal;
};
/// The same of a question, as its text would have it.
struct sirop_question {
    sirop::lib::json content;
    std::string refusal;
    std::vector<std::string> notes;  ///< what was assumed in reading its batch
};
struct sirop_answer {
    sirop::lib::json content;
    std::string report;
    int32_t status;
};

namespace {

using namespace sirop;
using namespace sirop::lib;

/// The lists of a batch, by the number that means them.
constexpr std::array lists = {&core::batch::pan, &core::batch::off_heat, &core::batch::neighbours};
static_assert(SIROP_PAN == 0 && SIROP_OFF_HEAT == 1 && SIROP_NEIGHBOURS == 2);

/// What sirop_batch_set sets, in units of the batch times `factor`; `place` is its key in the batch file.
struct settable {
    std::string_view name;
    double core::batch::*into;
    core::limit range;
    double factor;
    std::string_view place;
};
constexpr settable fields[] = {
    {"thermometer_celsius", &core::batch::thermometer_celsius, core::target_limit, 1.0, "cook.to_celsius"},
    {"pressure_hpa", &core::batch::pressure_pa, core::pressure_limit, 100.0, "cook.pressure_hpa"},
    {"thermometer_error_kelvin", &core::batch::thermometer_error_kelvin, core::thermometer_error_limit, 1.0,
     "cook.thermometer_reads_in_boiling_water_celsius"},
    {"thermometer_within_kelvin", &core::batch::thermometer_within_kelvin, core::thermometer_within_limit, 1.0,
     "cook.thermometer_within_celsius"},
    {"serve_celsius", &core::batch::serve_celsius, core::serve_limit, 1.0, "serve.celsius"},
    {"store_celsius", &core::batch::store_celsius, core::serve_limit, 1.0, "store.celsius"},
    {"pour_celsius", &core::batch::pour_celsius, core::pour_limit, 1.0, "pour.celsius"},
};

template <class Handle>
int32_t refused(Handle* handle, int32_t status, std::string why) {
    handle->refusal = std::move(why);
    return status;
}

/// A call on a handle: its refusal is that of this call, or empty.
template <class Handle, class Body>
int32_t handle_call(Handle* handle, const Body& body) noexcept {
    if (handle == nullptr) return SIROP_E_NULL;
    handle->refusal.clear();
    return guarded(body, [&](int32_t status) {
        if (handle->refusal.empty())
            guarded([&]() -> int32_t {
                handle->refusal = sirop_status_text(status);
                return status;
            });
    });
}

/// Whether a name or text from outside may not be kept; then the handle says why.
template <class Handle>
bool unfit_text(Handle* handle, const char* argument, const char* text) {
    const auto fault = core::find_text_fault(argument, text);
    if (fault) handle->refusal = one_line(*fault);
    return fault.has_value();
}

/// The refusal of a call that was given no place for its answer.
template <class Handle>
int32_t no_answer_pointer(Handle* handle) {
    return refused(handle, SIROP_E_NULL, "answer: is null; a pointer to a sirop_answer* is accepted");
}

/// Where a refused batch is at fault: the field of sirop_batch_set in place of the key of the batch file.
std::string field_of(const core::batch& b, const std::string& place) {
    if (place == b.target_place) return "thermometer_celsius";
    for (const auto& f : fields)
        if (place == f.place) return std::string(f.name);
    return place;
}

int32_t add(sirop_batch* b, int32_t where, core::ingredient_line line) {
    const auto* list = element_at(lists, where);
    if (list == nullptr)
        return refused(
            b, SIROP_E_RANGE,
            "where: " + std::to_string(where) + "; SIROP_PAN, SIROP_OFF_HEAT or SIROP_NEIGHBOURS is accepted");
    for (const auto& [name, value, range] : {std::tuple{"grams", line.grams, core::grams_limit},
                                             std::tuple{"celsius", line.celsius, core::added_limit}})
        if (!range.holds(value))
            return refused(b, SIROP_E_RANGE, name + (": " + outside(value, range.low, range.high)));
    (b->plan.**list).push_back(std::move(line));
    return SIROP_OK;
}

/// Takes the first of keys that are joined by dots off a path.
std::string first_key(std::string_view& path) {
    const auto dot = std::min(path.find('.'), path.size());
    std::string key(path.substr(0, dot));
    path.remove_prefix(std::min(dot + 1, path.size()));
    return key;
}

/// The index that a key of digits means; nothing if it is none, or above `most`.
std::optional<std::size_t> index_in(const std::string& key, std::size_t most) {
    std::size_t index = 0;
    for (const char c : key) {
        if (c < '0' || c > '9' || index > most) return std::nullopt;
        index = 10 * index + static_cast<std::size_t>(c - '0');
    }
    return key.empty() || index > most ? std::nullopt : std::optional(index);
}

/// The value under keys joined by dots; null if there is none.
const json* find_key(const json& root, std::string_view path) {
    const json* at = &root;
    while (at != nullptr && !path.empty()) {
        const std::string key = first_key(path);
        if (const auto* list = at->as<json::list>()) {
            const auto index = index_in(key, list->size());
            at = index && *index < list->size() ? &(*list)[*index] : nullptr;
        } else {
            at = at->find(key);
        }
    }
    return at;
}

constexpr int deepest = 16;

/// The place under keys joined by dots, made where it is missing; null where they lead through a value, leave out
/// an element of a list, or go too deep.
json* make_key(json& root, std::string_view path) {
    json* at = &root;
    if (path.ends_with('.')) return nullptr;
    for (int depth = 0; !path.empty(); ++depth) {
        const std::string key = first_key(path);
        if (key.empty() || depth == deepest) return nullptr;
        if (at->is_null() && key.find_first_not_of("0123456789") == key.npos) *at = json(json::list());
        if (auto* list = at->as<json::list>()) {
            const auto index = index_in(key, list->size());
            if (!index) return nullptr;
            at = *index == list->size() ? &grown(*at) : &(*list)[*index];
        } else if (at->is_null() || at->as<json::object>() != nullptr) {
            at = &lib::at(*at, key);
        } else {
            return nullptr;
        }
    }
    return at == &root ? nullptr : at;
}

/// Sets a key of a question, or leaves the question as it was.
int32_t set_key(sirop_question* question, const char* key, json value) {
    if (key == nullptr) return refused(question, SIROP_E_NULL, "key: is null; a key of the question is accepted");
    const auto top = std::string_view(key).substr(0, std::string_view(key).find('.'));
    if (top == "ask" || top == "sirop_question")
        return refused(question, SIROP_E_NAME,
                       "key: " + in_quotes(key) + " is set by sirop_question_new; another key is accepted");
    json changed = question->content;
    json* place = make_key(changed, key);
    if (place == nullptr)
        return refused(question, SIROP_E_NAME,
                       "key: " + in_quotes(key) +
                           " leads nowhere; keys joined by dots are accepted, a list's from 0 on without a gap");
    *place = std::move(value);
    question->content = std::move(changed);
    return SIROP_OK;
}

}  // namespace

extern "C" {

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
        if (unfit_text(batch, "ingredient", ingredient)) return SIROP_E_NAME;
        const auto known = core::pantry_composition(ingredient);
        const std::string similar = known ? "" : similar_names(ingredient);
        if (!known)
            return refused(batch, SIROP_E_NAME,
                           "ingredient: " + in_quotes(ingredient) +
                               " is unknown; a name of the pantry is accepted" +
                               (similar.empty() ? "" : ", such as " + similar));
        return add(batch, where, {ingredient, *known, grams, celsius});
    });
}

int32_t sirop_batch_add_mixture(sirop_batch* batch, int32_t where, const char* name, const double* grams,
                                size_t components, double celsius) {
    return handle_call(batch, [&]() -> int32_t {
        if (name == nullptr) return refused(batch, SIROP_E_NULL, "name: is null; a text is accepted");
        if (unfit_text(batch, "name", name)) return SIROP_E_NAME;
        if (core::without_outer_blanks(name).empty())
            return refused(batch, SIROP_E_NAME, "name: is empty; a text is accepted");
        if (grams == nullptr)
            return refused(batch, SIROP_E_NULL, "grams: is null; an array of masses is accepted");
        if (components < 1 || components > core::component_count)
            return refused(batch, SIROP_E_RANGE,
                           "components: " + std::to_string(components) + " is outside the accepted range, 1 to " +
                               std::to_string(core::component_count));
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
        std::string names;
        for (const auto& f : fields) {
            add_name(names, f.name);
            if (field == nullptr || f.name != field) continue;
            if (!f.range.holds(value))
                return refused(batch, SIROP_E_RANGE,
                               std::string(f.name) + ": " + outside(value, f.range.low, f.range.high));
            batch->plan.*f.into = f.factor * value;
            return SIROP_OK;
        }
        if (field == nullptr) return refused(batch, SIROP_E_NULL, "field: is null; accepted: " + names);
        return refused(batch, SIROP_E_NAME, "field: " + in_quotes(field) + " is unknown; accepted: " + names);
    });
}

const char* sirop_batch_refusal(const sirop_batch* batch) {
    return batch == nullptr ? "" : batch->refusal.c_str();
}

int32_t sirop_batch_text(const sirop_batch* batch, char* out, size_t out_bytes, size_t* needed_bytes) {
    return text_call(batch != nullptr, out, out_bytes, needed_bytes, [&](std::string& text) -> int32_t {
        text = text_of(batch_json(batch->plan));
        return SIROP_OK;
    });
}

int32_t sirop_batch_predict(sirop_batch* batch, const char* table, sirop_answer** answer) {
    if (answer != nullptr) *answer = nullptr;
    return handle_call(batch, [&]() -> int32_t {
        if (answer == nullptr) return no_answer_pointer(batch);
        const auto* stages = table_of(table);
        if (stages == nullptr)
            return refused(batch, SIROP_E_NAME, "table: " + in_quotes(table) + " is not a stage table");
        const auto& plan = batch->plan;
        if (!plan.pan.empty() && std::isnan(plan.thermometer_celsius))  // an empty pan is named first
            return refused(batch, SIROP_E_BATCH, "thermometer_celsius: is missing; set it with sirop_batch_set");
        const auto p = core::predict_with_advice(plan, *stages);
        if (!p) return refused(batch, SIROP_E_BATCH, one_line({field_of(plan, p.why.place), p.why.reason}));
        *answer = new sirop_answer{prediction_json(*p), report(*p), status_of(p->status)};
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
        if (found == nullptr) return SIROP_E_NAME;
        if (found->is_null()) return SIROP_E_IMPOSSIBLE;
        const auto* yes = found->as<bool>();
        if (yes == nullptr && !found->is_number()) return SIROP_E_NAME;
        *value = yes != nullptr ? (*yes ? 1.0 : 0.0) : found->number();
        return answer->status;
    });
}

int32_t sirop_answer_text(const sirop_answer* answer, const char* key, char* out, size_t out_bytes,
                          size_t* needed_bytes) {
    return text_call(answer != nullptr && key != nullptr, out, out_bytes, needed_bytes,
                     [&](std::string& text) -> int32_t {
                         const json* found = find_key(answer->content, key);
                         if (found == nullptr) return SIROP_E_NAME;
                         const auto* plain = found->as<std::string>();
                         // "" is the whole answer, a key of an object its part
                         text = plain != nullptr ? *plain : text_of(*found);
                         return answer->status;
                     });
}

int32_t sirop_answer_count(const sirop_answer* answer, const char* key, int32_t* count) {
    if (count == nullptr) return SIROP_E_NULL;
    *count = -1;
    if (answer == nullptr || key == nullptr) return SIROP_E_NULL;
    return guarded([&]() -> int32_t {
        const json* found = find_key(answer->content, key);
        const auto* list = found == nullptr ? nullptr : found->as<json::list>();
        const auto* object = found == nullptr ? nullptr : found->as<json::object>();
        if (list == nullptr && object == nullptr) return SIROP_E_NAME;
        *count = static_cast<int32_t>(list != nullptr ? list->size() : object->size());
        return answer->status;
    });
}

int32_t sirop_answer_report(const sirop_answer* answer, char* out, size_t out_bytes, size_t* needed_bytes) {
    return text_call(answer != nullptr, out, out_bytes, needed_bytes, [&](std::string& text) -> int32_t {
        text = answer->report;
        return answer->status;
    });
}

const char* sirop_question_name(int32_t index) {
    return name_at(question_kinds(), index);
}

int32_t sirop_question_new(const char* kind, sirop_question** question) {
    if (question == nullptr) return SIROP_E_NULL;
    *question = nullptr;
    if (kind == nullptr) return SIROP_E_NULL;
    return guarded([&]() -> int32_t {
        for (const auto& known : question_kinds())
            if (known.name == kind) {
                auto made = std::make_unique<sirop_question>();
                write(made->content, "sirop_question", 1);
                write(made->content, "ask", kind);
                *question = made.release();
                return SIROP_OK;
            }
        return SIROP_E_NAME;
    });
}

void sirop_question_free(sirop_question* question) {
    delete question;
}

int32_t sirop_question_set_number(sirop_question* question, const char* key, double value) {
    return handle_call(question, [&]() -> int32_t {
        if (!std::isfinite(value))
            return refused(question, SIROP_E_RANGE,
                           "value: " + core::shortest(value) + " is not accepted; a finite number is");
        return set_key(question, key, json(value));
    });
}

int32_t sirop_question_set_truth(sirop_question* question, const char* key, int32_t yes) {
    return handle_call(question, [&]() -> int32_t { return set_key(question, key, json(yes != 0)); });
}

int32_t sirop_question_set_text(sirop_question* question, const char* key, const char* text) {
    return handle_call(question, [&]() -> int32_t {
        if (text == nullptr) return refused(question, SIROP_E_NULL, "text: is null; a text is accepted");
        if (unfit_text(question, "text", text)) return SIROP_E_NAME;
        return set_key(question, key, json(std::string(text)));
    });
}

int32_t sirop_question_set_batch(sirop_question* question, const char* key, const sirop_batch* batch) {
    return handle_call(question, [&]() -> int32_t {
        if (batch == nullptr) return refused(question, SIROP_E_NULL, "batch: is null; a batch is accepted");
        auto notes = batch->plan.notes;
        const int32_t status = set_key(question, key, batch_json(batch->plan));
        if (status >= 0 && std::string_view(key) == "batch") question->notes = std::move(notes);
        return status;
    });
}

int32_t sirop_question_ask(sirop_question* question, sirop_answer** answer) {
    if (answer != nullptr) *answer = nullptr;
    return handle_call(question, [&]() -> int32_t {
        if (answer == nullptr) return no_answer_pointer(question);
        auto reply = answer_question(question->content, question->notes);
        if (!reply) return refused(question, SIROP_E_BATCH, one_line(reply.why));
        *answer = new sirop_answer{std::move(reply.value->answer), std::move(reply.value->report),
                                   status_of(reply->status)};
        return (*answer)->status;
    });
}

const char* sirop_question_refusal(const sirop_question* question) {
    return question == nullptr ? "" : question->refusal.c_str();
}

}  // extern "C"
