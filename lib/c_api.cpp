#include <cstring>
#include <new>

#include "batch_file.hpp"
#include "sirop/core/catalogue.hpp"
#include "sirop/sirop.h"

static_assert(SIROP_COMPONENT_COUNT == sirop::core::component_count);
static_assert(sizeof(sirop_estimate) == 32 && sizeof(sirop_range) == 16);

#define SIROP_TEXT_OF(x) #x
#define SIROP_DOTTED(a, b, c) SIROP_TEXT_OF(a) "." SIROP_TEXT_OF(b) "." SIROP_TEXT_OF(c)

namespace {

using namespace sirop;

/// Runs the body of a C function; nothing thrown gets out.
template <class Body>
int32_t guarded(const Body& body) noexcept {
#if defined(__cpp_exceptions)
    try {
        return body();
    } catch (const std::bad_alloc&) {
        return SIROP_E_MEMORY;
    } catch (...) {
        return SIROP_E_GENERAL;
    }
#else
    return body();
#endif
}

/// Writes an estimate and gives back its status: computed or, if it has no answer, impossible.
int32_t put(const core::estimate& e, sirop_estimate* out) {
    out->value = e.value;
    out->low = e.low;
    out->high = e.high;
    out->reserved = 0;
    out->status = !e.computed()                           ? SIROP_E_IMPOSSIBLE
                  : e.status == core::grade::extrapolated ? SIROP_EXTRAPOLATED
                                                          : SIROP_OK;
    return out->status;
}

int32_t fail(int32_t status, sirop_estimate* out) {
    put({}, out);
    return out->status = status;
}

/// The mixture of an array of masses; false if one is negative, not finite or too large, or all are 0, or if there
/// are none or more of them than components.
bool read_masses(const double* grams, std::size_t components, core::mixture& m) {
    if (components < 1 || components > core::component_count) return false;
    double sum = 0.0;
    for (std::size_t i = 0; i < components; ++i) {
        if (!core::grams_limit.holds(grams[i])) return false;
        m.grams[i] = grams[i];
        sum += grams[i];
    }
    return sum > 0.0;
}

/// Checks pointer and masses, then computes.
template <class Compute>
int32_t of_mixture(const double* grams, size_t components, sirop_estimate* out, const Compute& compute) noexcept {
    if (out == nullptr) return SIROP_E_NULL;
    if (grams == nullptr) return fail(SIROP_E_NULL, out);
    return guarded([&] {
        core::mixture m;
        if (!read_masses(grams, components, m)) return fail(SIROP_E_RANGE, out);
        return compute(m);
    });
}

/// The worse of two statuses: errors before warnings, the first error kept.
int32_t worse(int32_t a, int32_t b) {
    if (a < 0) return a;
    return b < 0 || b > a ? b : a;
}

template <class One>
int32_t for_each(std::size_t n, const One& one) noexcept {
    int32_t status = SIROP_OK;
    for (std::size_t i = 0; i < n; ++i) status = worse(status, one(i));
    return status;
}

int32_t put_text(const std::string& text, char* out, std::size_t out_bytes, std::size_t* needed_bytes,
                 int32_t status) {
    *needed_bytes = text.size() + 1;
    if (out_bytes < *needed_bytes) {
        if (out_bytes > 0) out[0] = '\0';
        return SIROP_E_BUFFER;
    }
    std::memcpy(out, text.c_str(), text.size() + 1);
    return status;
}

using writer = std::string (*)(const core::prediction&);

int32_t predict(const char* batch, std::size_t batch_bytes, const char* table, char* out, std::size_t out_bytes,
                std::size_t* needed_bytes, writer write) noexcept {
    if (needed_bytes == nullptr) return SIROP_E_NULL;
    *needed_bytes = 0;
    if (batch == nullptr || (out == nullptr && out_bytes > 0)) return SIROP_E_NULL;
    return guarded([&]() -> int32_t {
        const auto* stages = core::find_stage_table(table == nullptr ? core::stage_tables[0].name : table);
        if (stages == nullptr) return SIROP_E_NAME;
        const auto refused = [&](const core::refusal& why) {
            return put_text(lib::one_line(why), out, out_bytes, needed_bytes, SIROP_E_BATCH);
        };
        const auto read = lib::read_batch({batch, batch_bytes});
        if (!read) return refused(read.why);
        const auto answer = core::predict_with_advice(*read, *stages);
        if (!answer) return refused(answer.why);
        const int32_t status = answer->status == core::grade::fine ? SIROP_OK : SIROP_EXTRAPOLATED;
        return put_text(write(*answer), out, out_bytes, needed_bytes, status);
    });
}

/// A plain number from a plain number within a range.
template <class Compute>
int32_t of_number(double x, const core::limit& range, double* out, const Compute& compute) noexcept {
    if (out == nullptr) return SIROP_E_NULL;
    *out = core::not_a_number;
    if (!range.holds(x)) return SIROP_E_RANGE;
    *out = compute(x);
    return SIROP_OK;
}

/// One of a property's texts (literals, so they end in a NUL), or null.
const char* text_of_property(const char* property, std::string_view core::property::*text) noexcept {
    const auto* found = property == nullptr ? nullptr : core::find_property(property);
    return found == nullptr ? nullptr : (found->*text).data();
}

bool pressure_holds(double hpa) {
    return core::pressure_limit.holds(hpa);
}

}  // namespace

extern "C" {

const char* sirop_version(void) {
    return SIROP_DOTTED(SIROP_VERSION_MAJOR, SIROP_VERSION_MINOR, SIROP_VERSION_PATCH);
}

const char* sirop_status_text(int32_t status) {
    switch (status) {
        case SIROP_OK:
            return "fine";
        case SIROP_EXTRAPOLATED:
            return "computed outside the fitted range of a model";
        case SIROP_E_RANGE:
            return "an argument is outside its range, infinite or not a number";
        case SIROP_E_NAME:
            return "no such component, ingredient, table or quantity";
        case SIROP_E_BUFFER:
            return "the buffer is too small";
        case SIROP_E_BATCH:
            return "the batch is refused; the output holds the reason";
        case SIROP_E_NULL:
            return "a required pointer is null";
        case SIROP_E_MEMORY:
            return "out of memory";
        case SIROP_E_IMPOSSIBLE:
            return "the question has no answer within the model";
        default:
            return status > 0 ? "unknown warning" : "general failure";
    }
}

const char* sirop_component_name(int32_t component) {
    if (component < 0 || component >= SIROP_COMPONENT_COUNT) return nullptr;
    return core::components[static_cast<std::size_t>(component)].name.data();  // literals end in NUL
}

int32_t sirop_accepted_range(const char* argument, sirop_range* range) {
    if (argument == nullptr || range == nullptr) return SIROP_E_NULL;
    const auto* found = core::find_limit(argument);
    *range = found == nullptr ? sirop_range{core::not_a_number, core::not_a_number}
                              : sirop_range{found->low, found->high};
    return found == nullptr ? SIROP_E_NAME : SIROP_OK;
}

int32_t sirop_pressure_at_altitude_hpa(double altitude_metres, double* pressure_hpa) {
    return of_number(altitude_metres, core::altitude_limit, pressure_hpa,
                     [](double h) { return 0.01 * formula::standard_pressure(h); });
}

int32_t sirop_pressure_from_boiling_water_hpa(double water_boils_celsius, double* pressure_hpa) {
    return of_number(water_boils_celsius, core::water_boils_limit, pressure_hpa,
                     [](double t) { return 0.01 * formula::saturation_pressure(t + formula::zero_celsius); });
}

int32_t sirop_water_boils_celsius(double pressure_hpa, double* celsius) {
    return of_number(pressure_hpa, core::pressure_limit, celsius,
                     [](double p) { return core::water_boils_celsius(100.0 * p); });
}

int32_t sirop_boiling_point_celsius(const double* grams, size_t components, double pressure_hpa,
                                    sirop_estimate* celsius) {
    return of_mixture(grams, components, celsius, [&](const core::mixture& m) {
        if (!pressure_holds(pressure_hpa)) return fail(SIROP_E_RANGE, celsius);
        return put(core::boiling_celsius(m, 100.0 * pressure_hpa), celsius);
    });
}

int32_t sirop_water_at_boil_grams(const double* grams, size_t components, double celsius, double pressure_hpa,
                                  sirop_estimate* water_grams) {
    return of_mixture(grams, components, water_grams, [&](const core::mixture& m) {
        if (!pressure_holds(pressure_hpa) || !core::temperature_limit.holds(celsius))
            return fail(SIROP_E_RANGE, water_grams);
        return put(core::water_at_boil(m, celsius, 100.0 * pressure_hpa), water_grams);
    });
}

int32_t sirop_water_activity(const double* grams, size_t components, double celsius, sirop_estimate* activity) {
    return of_mixture(grams, components, activity, [&](const core::mixture& m) {
        if (!core::temperature_limit.holds(celsius)) return fail(SIROP_E_RANGE, activity);
        return put(core::water_activity(m, celsius), activity);
    });
}

int32_t sirop_freezing_point_celsius(const double* grams, size_t components, sirop_estimate* celsius) {
    return of_mixture(grams, components, celsius,
                      [&](const core::mixture& m) { return put(core::freezing_celsius(m), celsius); });
}

int32_t sirop_boiling_point_celsius_n(size_t n, const double* grams, size_t components, const double* pressure_hpa,
                                      sirop_estimate* celsius) {
    if (grams == nullptr || pressure_hpa == nullptr || celsius == nullptr) return n == 0 ? SIROP_OK : SIROP_E_NULL;
    return for_each(n, [&](size_t i) {
        return sirop_boiling_point_celsius(grams + i * components, components, pressure_hpa[i], celsius + i);
    });
}

int32_t sirop_water_at_boil_grams_n(size_t n, const double* grams, size_t components, const double* celsius,
                                    const double* pressure_hpa, sirop_estimate* water_grams) {
    if (grams == nullptr || celsius == nullptr || pressure_hpa == nullptr || water_grams == nullptr)
        return n == 0 ? SIROP_OK : SIROP_E_NULL;
    return for_each(n, [&](size_t i) {
        return sirop_water_at_boil_grams(grams + i * components, components, celsius[i], pressure_hpa[i],
                                         water_grams + i);
    });
}

int32_t sirop_water_activity_n(size_t n, const double* grams, size_t components, const double* celsius,
                               sirop_estimate* activity) {
    if (grams == nullptr || celsius == nullptr || activity == nullptr) return n == 0 ? SIROP_OK : SIROP_E_NULL;
    return for_each(n, [&](size_t i) {
        return sirop_water_activity(grams + i * components, components, celsius[i], activity + i);
    });
}

int32_t sirop_freezing_point_celsius_n(size_t n, const double* grams, size_t components, sirop_estimate* celsius) {
    if (grams == nullptr || celsius == nullptr) return n == 0 ? SIROP_OK : SIROP_E_NULL;
    return for_each(n, [&](size_t i) {
        return sirop_freezing_point_celsius(grams + i * components, components, celsius + i);
    });
}

const char* sirop_property_name(int32_t index) {
    const auto i = static_cast<std::size_t>(index);
    return index >= 0 && i < core::catalogue.size() ? core::catalogue[i].name.data() : nullptr;
}

const char* sirop_property_unit(const char* property) {
    return text_of_property(property, &core::property::unit);
}

const char* sirop_property_source(const char* property) {
    return text_of_property(property, &core::property::source);
}

const char* sirop_property_uncertainty(const char* property) {
    return text_of_property(property, &core::property::uncertainty);
}

int32_t sirop_property_range(const char* property, sirop_range* celsius, double* fitted_solids_percent) {
    if (property == nullptr || celsius == nullptr || fitted_solids_percent == nullptr) return SIROP_E_NULL;
    const auto* found = core::find_property(property);
    *celsius = found == nullptr ? sirop_range{core::not_a_number, core::not_a_number}
                                : sirop_range{found->celsius_low, found->celsius_high};
    *fitted_solids_percent = found == nullptr ? core::not_a_number : found->fitted_solids_percent;
    return found == nullptr ? SIROP_E_NAME : SIROP_OK;
}

int32_t sirop_property_estimate(const char* property, const double* grams, size_t components, double celsius,
                                double pressure_hpa, sirop_estimate* result) {
    return of_mixture(grams, components, result, [&](const core::mixture& m) {
        if (property == nullptr) return fail(SIROP_E_NULL, result);
        const auto* found = core::find_property(property);
        if (found == nullptr) return fail(SIROP_E_NAME, result);
        const bool at_any = found->celsius_low == found->celsius_high;
        if (!pressure_holds(pressure_hpa) ||
            (!at_any && !(celsius >= found->celsius_low && celsius <= found->celsius_high)))
            return fail(SIROP_E_RANGE, result);
        return put(core::evaluate(*found, m, celsius, 100.0 * pressure_hpa), result);
    });
}

int32_t sirop_property_estimate_n(const char* property, size_t n, const double* grams, size_t components,
                                  const double* celsius, const double* pressure_hpa, sirop_estimate* results) {
    if (grams == nullptr || celsius == nullptr || pressure_hpa == nullptr || results == nullptr)
        return n == 0 ? SIROP_OK : SIROP_E_NULL;
    return for_each(n, [&](size_t i) {
        return sirop_property_estimate(property, grams + i * components, components, celsius[i], pressure_hpa[i],
                                       results + i);
    });
}

int32_t sirop_predict_json(const char* batch, size_t batch_bytes, const char* table, char* out, size_t out_bytes,
                           size_t* needed_bytes) {
    return predict(batch, batch_bytes, table, out, out_bytes, needed_bytes, lib::json_answer);
}

int32_t sirop_predict_report(const char* batch, size_t batch_bytes, const char* table, char* out, size_t out_bytes,
                             size_t* needed_bytes) {
    return predict(batch, batch_bytes, table, out, out_bytes, needed_bytes, lib::report);
}

}  // extern "C"
