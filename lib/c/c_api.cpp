// The part of the C API that needs no heap: numbers in, numbers out, texts that are constants.
#include "c/c_call.hpp"
#include "sirop/base/conversions.hpp"
#include "sirop/data/pantry.hpp"
#include "sirop/questions/catalogue.hpp"
#include "sirop/stability/keeping.hpp"
#include "sirop/texture/stage_equivalent.hpp"

static_assert(SIROP_COMPONENT_COUNT == sirop::core::component_count);
static_assert(sizeof(sirop_estimate) == 32 && sizeof(sirop_range) == 16 && sizeof(sirop_graining) == 120 &&
              sizeof(sirop_stage_place) == 16);

#define SIROP_TEXT_OF(x) #x
#define SIROP_DOTTED(a, b, c) SIROP_TEXT_OF(a) "." SIROP_TEXT_OF(b) "." SIROP_TEXT_OF(c)

namespace {

using namespace sirop;
using namespace sirop::lib;

/// Checks pointer and masses, then computes.
template <class Result, class Compute>
int32_t of_mixture(const double* grams, size_t components, Result* out, const Compute& compute) noexcept {
    if (out == nullptr) return SIROP_E_NULL;
    return guarded(
        [&]() -> int32_t {
            if (grams == nullptr) return SIROP_E_NULL;
            core::mixture m;
            if (!read_masses(grams, components, m)) return SIROP_E_RANGE;
            return compute(m);
        },
        [&](int32_t status) { fail(status, out); });
}

/// A plain number from a plain number within a range.
template <class Compute>
int32_t of_number(double x, const core::limit& range, double* out, const Compute& compute) noexcept {
    if (out == nullptr) return SIROP_E_NULL;
    if (!range.holds(x)) return fail(SIROP_E_RANGE, out);
    *out = compute(x);
    return SIROP_OK;
}

/// Plain numbers from plain numbers, by the function for one.
int32_t of_numbers(size_t n, const double* x, int32_t* statuses, double* out,
                   int32_t (*one)(double, double*)) noexcept {
    return for_each(n, x != nullptr, statuses, out, [&](size_t i) { return one(x[i], out + i); });
}

/// Results for an array of mixtures, each under its own conditions, by the function for one.
template <class Result, class One, class... Conditions>
int32_t of_mixtures(size_t n, const double* grams, size_t components, int32_t* statuses, Result* out,
                    const One& one, const Conditions*... conditions) noexcept {
    return for_each(n, grams != nullptr && (... && (conditions != nullptr)), statuses, out,
                    [&](size_t i) { return one(grams + i * components, components, conditions[i]..., out + i); });
}

const core::property* property_of(const char* name) noexcept {
    return name == nullptr ? nullptr : core::find_property(name);
}

const core::pantry_row* ingredient_of(const char* name) noexcept {
    return name == nullptr ? nullptr : core::find_ingredient(name);
}

const core::stage_row* stage_of(const char* table, const char* stage) noexcept {
    const auto* found = table_of(table);
    if (found == nullptr) return nullptr;
    for (const auto& row : found->rows)
        if (core::same_name(row.name, stage)) return &row;
    return nullptr;
}

/// Writes a composition, the last components left out if the caller does not know them; an error writes NaN.
int32_t put_composition(const core::masses& shares, double factor, double* grams, size_t components,
                        int32_t status) noexcept {
    if (grams == nullptr) return SIROP_E_NULL;
    if (status >= 0 && (components < 1 || components > core::component_count)) status = SIROP_E_RANGE;
    for (std::size_t i = components; status >= 0 && i < core::component_count; ++i)
        if (shares[i] > 0.0) status = SIROP_E_BUFFER;  // holds a component that the caller does not know
    for (std::size_t i = 0; i < components; ++i) grams[i] = status < 0 ? core::not_a_number : factor * shares[i];
    return status;
}

/// Where a mixture boils when it has the consistency of plain syrup at a temperature at sea level, with the grade
/// of the boiling point and of the firmness behind it; not computed where no boiling does it.
core::estimate boils_as_plain(const core::mixture& m, double sea_level_celsius, double pressure_pa) {
    const double water = core::water_of_consistency(m, core::firmness_of_plain(sea_level_celsius));
    if (!std::isfinite(water)) return {};
    const auto boiled = m.with_water(water);
    auto boils = core::boiling_celsius(boiled, pressure_pa);
    boils.status = core::worst(boils.status, core::log10_firmness(boiled, core::cold_water_celsius).status);
    return boils;
}

}  // namespace

extern "C" {

const char* sirop_version(void) {
    return SIROP_DOTTED(SIROP_VERSION_MAJOR, SIROP_VERSION_MINOR, SIROP_VERSION_PATCH);
}

const char* sirop_status_text(int32_t status) {
    static constexpr std::pair<int32_t, const char*> texts[] = {
        {SIROP_OK, "fine"},
        {SIROP_EXTRAPOLATED, "computed outside the fitted range of a model"},
        {SIROP_E_RANGE, "an argument is outside its range, infinite or not a number"},
        {SIROP_E_NAME, "no such component, ingredient, table or quantity"},
        {SIROP_E_BUFFER, "the buffer is too small, or too short for what it would hold"},
        {SIROP_E_BATCH, "the batch is refused; the output holds the reason"},
        {SIROP_E_NULL, "a required pointer is null"},
        {SIROP_E_MEMORY, "out of memory"},
        {SIROP_E_IMPOSSIBLE, "the question has no answer within the model"},
    };
    for (const auto& [code, text] : texts)
        if (code == status) return text;
    return status > 0 ? "unknown warning" : "general failure";
}

const char* sirop_component_name(int32_t component) {
    return name_at(core::components, component);
}

const char* sirop_argument_name(int32_t index) {
    return name_at(core::limits, index);
}

int32_t sirop_accepted_range(const char* argument, sirop_range* range) {
    if (range == nullptr) return SIROP_E_NULL;
    if (argument == nullptr) return fail(SIROP_E_NULL, range);
    const auto* found = core::find_limit(argument);
    if (found == nullptr) return fail(SIROP_E_NAME, range);
    *range = {found->low, found->high};
    return SIROP_OK;
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

int32_t sirop_pressure_at_altitude_hpa_n(size_t n, const double* altitude_metres, int32_t* statuses,
                                         double* pressure_hpa) {
    return of_numbers(n, altitude_metres, statuses, pressure_hpa, sirop_pressure_at_altitude_hpa);
}

int32_t sirop_pressure_from_boiling_water_hpa_n(size_t n, const double* water_boils_celsius, int32_t* statuses,
                                                double* pressure_hpa) {
    return of_numbers(n, water_boils_celsius, statuses, pressure_hpa, sirop_pressure_from_boiling_water_hpa);
}

int32_t sirop_water_boils_celsius_n(size_t n, const double* pressure_hpa, int32_t* statuses, double* celsius) {
    return of_numbers(n, pressure_hpa, statuses, celsius, sirop_water_boils_celsius);
}

int32_t sirop_boiling_point_celsius(const double* grams, size_t components, double pressure_hpa,
                                    sirop_estimate* celsius) {
    return of_mixture(grams, components, celsius, [&](const core::mixture& m) {
        if (!core::pressure_limit.holds(pressure_hpa)) return fail(SIROP_E_RANGE, celsius);
        return put(core::boiling_celsius(m, 100.0 * pressure_hpa), celsius);
    });
}

int32_t sirop_water_at_boil_grams(const double* grams, size_t components, double celsius, double pressure_hpa,
                                  sirop_estimate* water_grams) {
    return of_mixture(grams, components, water_grams, [&](const core::mixture& m) {
        if (!core::pressure_limit.holds(pressure_hpa) || !core::temperature_limit.holds(celsius))
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
    return of_mixtures(n, grams, components, nullptr, celsius, sirop_boiling_point_celsius, pressure_hpa);
}

int32_t sirop_water_at_boil_grams_n(size_t n, const double* grams, size_t components, const double* celsius,
                                    const double* pressure_hpa, sirop_estimate* water_grams) {
    return of_mixtures(n, grams, components, nullptr, water_grams, sirop_water_at_boil_grams, celsius,
                       pressure_hpa);
}

int32_t sirop_water_activity_n(size_t n, const double* grams, size_t components, const double* celsius,
                               sirop_estimate* activity) {
    return of_mixtures(n, grams, components, nullptr, activity, sirop_water_activity, celsius);
}

int32_t sirop_freezing_point_celsius_n(size_t n, const double* grams, size_t components, sirop_estimate* celsius) {
    return of_mixtures(n, grams, components, nullptr, celsius, sirop_freezing_point_celsius);
}

const char* sirop_property_name(int32_t index) {
    return name_at(core::catalogue, index);
}

const char* sirop_property_unit(const char* property) {
    return text_in(property_of(property), &core::property::unit);
}

const char* sirop_property_source(const char* property) {
    return text_in(property_of(property), &core::property::source);
}

const char* sirop_property_uncertainty(const char* property) {
    return text_in(property_of(property), &core::property::uncertainty);
}

int32_t sirop_property_range(const char* property, sirop_range* celsius, double* fitted_solids_percent) {
    if (celsius != nullptr) fail(SIROP_E_NULL, celsius);
    if (fitted_solids_percent != nullptr) fail(SIROP_E_NULL, fitted_solids_percent);
    if (property == nullptr || celsius == nullptr || fitted_solids_percent == nullptr) return SIROP_E_NULL;
    const auto* found = core::find_property(property);
    if (found == nullptr) return SIROP_E_NAME;
    *celsius = {found->celsius_low, found->celsius_high};
    *fitted_solids_percent = found->fitted_solids_percent;
    return SIROP_OK;
}

int32_t sirop_property_estimate(const char* property, const double* grams, size_t components, double celsius,
                                double pressure_hpa, sirop_estimate* result) {
    return of_mixture(grams, components, result, [&](const core::mixture& m) {
        if (property == nullptr) return fail(SIROP_E_NULL, result);
        const auto* found = core::find_property(property);
        if (found == nullptr) return fail(SIROP_E_NAME, result);
        const bool at_any = found->celsius_low == found->celsius_high;
        if (!core::pressure_limit.holds(pressure_hpa) ||
            (!at_any && !(celsius >= found->celsius_low && celsius <= found->celsius_high)))
            return fail(SIROP_E_RANGE, result);
        return put(core::evaluate(*found, m, celsius, 100.0 * pressure_hpa), result);
    });
}

int32_t sirop_property_estimate_n(const char* property, size_t n, const double* grams, size_t components,
                                  const double* celsius, const double* pressure_hpa, sirop_estimate* results) {
    return of_mixtures(
        n, grams, components, nullptr, results,
        [&](auto... of_one) { return sirop_property_estimate(property, of_one...); }, celsius, pressure_hpa);
}

const char* sirop_conversion_name(int32_t index) {
    return name_at(core::scale_conversions, index);
}

int32_t sirop_convert(const char* conversion, double value, double* result) {
    if (result == nullptr) return SIROP_E_NULL;
    *result = core::not_a_number;
    if (conversion == nullptr) return SIROP_E_NULL;
    for (const auto& c : core::scale_conversions)
        if (c.name == conversion) {
            if (!std::isfinite(value)) return SIROP_E_RANGE;
            const double converted = c.of(value);
            if (!std::isfinite(converted)) return SIROP_E_RANGE;
            *result = converted;
            return SIROP_OK;
        }
    return SIROP_E_NAME;
}

int32_t sirop_convert_n(const char* conversion, size_t n, const double* values, int32_t* statuses,
                        double* results) {
    return for_each(n, values != nullptr, statuses, results,
                    [&](size_t i) { return sirop_convert(conversion, values[i], results + i); });
}

const char* sirop_ingredient_name(int32_t index) {
    return name_at(core::pantry, index);
}

const char* sirop_ingredient_source(const char* ingredient) {
    return text_in(ingredient_of(ingredient), &core::pantry_row::source);
}

const char* sirop_ingredient_estimate(const char* ingredient) {
    return text_in(ingredient_of(ingredient), &core::pantry_row::estimate);
}

int32_t sirop_ingredient_grams(const char* ingredient, double* grams, size_t components) {
    if (ingredient == nullptr) return put_composition({}, 1.0, grams, components, SIROP_E_NULL);
    const auto* row = core::find_ingredient(ingredient);
    return put_composition(row == nullptr ? core::masses{} : core::composition_of(*row), 100.0, grams, components,
                           row == nullptr ? SIROP_E_NAME : SIROP_OK);
}

int32_t sirop_glucose_syrup_grams(double dextrose_equivalent, double solids_percent, double* grams,
                                  size_t components) {
    const bool accepted = core::dextrose_equivalent_limit.holds(dextrose_equivalent) &&
                          core::glucose_solids_limit.holds(solids_percent);
    core::masses shares{};
    if (accepted) {
        const auto dry = core::starch_syrup_solids(dextrose_equivalent);
        for (std::size_t i = 0; i < core::component_count; ++i) shares[i] = 0.01 * solids_percent * dry[i];
        shares[core::index_of(core::component::water)] = 100.0 - solids_percent;
    }
    return put_composition(shares, 1.0, grams, components, accepted ? SIROP_OK : SIROP_E_RANGE);
}

int32_t sirop_glucose_syrup_grams_n(size_t n, const double* dextrose_equivalent, const double* solids_percent,
                                    int32_t* statuses, double* grams, size_t components) {
    const bool arrays = dextrose_equivalent != nullptr && solids_percent != nullptr;
    return for_each(n, true, statuses, grams, [&](size_t i) {
        double* of_this = grams + i * components;
        return arrays ? sirop_glucose_syrup_grams(dextrose_equivalent[i], solids_percent[i], of_this, components)
                      : put_composition({}, 1.0, of_this, components, SIROP_E_NULL);
    });
}

const char* sirop_stage_table_name(int32_t index) {
    return name_at(core::stage_tables, index);
}

const char* sirop_stage_table_source(const char* table) {
    return text_in(table_of(table), &core::stage_table::source);
}

const char* sirop_stage_name(const char* table, int32_t index) {
    const auto* found = table_of(table);
    return found == nullptr ? nullptr : name_at(found->rows, index);
}

int32_t sirop_stage_range_celsius(const char* table, const char* stage, sirop_range* celsius) {
    if (celsius == nullptr) return SIROP_E_NULL;
    if (stage == nullptr) return fail(SIROP_E_NULL, celsius);
    const auto* row = stage_of(table, stage);
    if (row == nullptr) return fail(SIROP_E_NAME, celsius);
    *celsius = {row->low_celsius, row->high_celsius};
    return SIROP_OK;
}

int32_t sirop_stage_of_temperature(const char* table, double celsius, double pressure_hpa,
                                   sirop_stage_place* place) {
    if (place == nullptr) return SIROP_E_NULL;
    const auto* stages = table_of(table);
    if (stages == nullptr) return fail(SIROP_E_NAME, place);
    if (!core::temperature_limit.holds(celsius) || !core::pressure_limit.holds(pressure_hpa))
        return fail(SIROP_E_RANGE, place);
    const auto found = core::stage_of_temperature(*stages, celsius, 100.0 * pressure_hpa);
    *place = {found.lower, found.upper, SIROP_OK, 0};
    return SIROP_OK;
}

int32_t sirop_stage_of_temperature_n(const char* table, size_t n, const double* celsius,
                                     const double* pressure_hpa, sirop_stage_place* places) {
    return for_each(n, celsius != nullptr && pressure_hpa != nullptr, nullptr, places, [&](size_t i) {
        return sirop_stage_of_temperature(table, celsius[i], pressure_hpa[i], places + i);
    });
}

int32_t sirop_stage_of_mixture(const char* table, const double* grams, size_t components,
                               sirop_stage_place* place) {
    return of_mixture(grams, components, place, [&](const core::mixture& m) {
        const auto* stages = table_of(table);
        if (stages == nullptr) return fail(SIROP_E_NAME, place);
        const auto found = core::stage_in_cold_water(m, *stages);
        if (!found.place.known()) return fail(SIROP_E_IMPOSSIBLE, place);
        *place = {found.place.lower, found.place.upper, status_of(found.status), 0};
        return place->status;
    });
}

int32_t sirop_stage_of_mixture_n(const char* table, size_t n, const double* grams, size_t components,
                                 sirop_stage_place* places) {
    return of_mixtures(n, grams, components, nullptr, places,
                       [&](auto... of_one) { return sirop_stage_of_mixture(table, of_one...); });
}

int32_t sirop_celsius_for_stage(const char* table, const char* stage, const double* grams, size_t components,
                                double pressure_hpa, sirop_range* celsius) {
    return of_mixture(grams, components, celsius, [&](const core::mixture& m) -> int32_t {
        if (stage == nullptr) return SIROP_E_NULL;
        if (!core::pressure_limit.holds(pressure_hpa)) return SIROP_E_RANGE;
        const auto* row = stage_of(table, stage);
        if (row == nullptr) return SIROP_E_NAME;
        if (core::is_colour(*table_of(table), *row)) return SIROP_E_IMPOSSIBLE;
        const double reach = row->low_celsius == row->high_celsius ? core::stage_point_reach_celsius : 0.0;
        const auto low = boils_as_plain(m, row->low_celsius - reach, 100.0 * pressure_hpa);
        const auto high = boils_as_plain(m, row->high_celsius + reach, 100.0 * pressure_hpa);
        if (!low.computed() || !high.computed()) return SIROP_E_IMPOSSIBLE;
        *celsius = {low.value, high.value};
        return status_of(core::worst(low.status, high.status));
    });
}

int32_t sirop_celsius_for_stage_n(const char* table, const char* stage, size_t n, const double* grams,
                                  size_t components, const double* pressure_hpa, int32_t* statuses,
                                  sirop_range* celsius) {
    return of_mixtures(
        n, grams, components, statuses, celsius,
        [&](auto... of_one) { return sirop_celsius_for_stage(table, stage, of_one...); }, pressure_hpa);
}

const char* sirop_texture_word(int32_t index) {
    return text_in(element_at(core::set_words, index), &core::set_word::word);
}

const char* sirop_texture_word_meaning(int32_t index) {
    return text_in(element_at(core::set_words, index), &core::set_word::meaning);
}

int32_t sirop_texture_word_firmness_pa_s(int32_t index, sirop_range* firmness_pa_s) {
    if (firmness_pa_s == nullptr) return SIROP_E_NULL;
    const auto* word = element_at(core::set_words, index);
    if (word == nullptr) return fail(SIROP_E_RANGE, firmness_pa_s);
    const auto* next = element_at(core::set_words, index + 1);
    *firmness_pa_s = {word->from_pa_s, next == nullptr ? HUGE_VAL : next->from_pa_s};
    return SIROP_OK;
}

int32_t sirop_texture_word_of(double firmness_pa_s, int32_t* index) {
    if (index == nullptr) return SIROP_E_NULL;
    if (!(firmness_pa_s >= 0.0)) return fail(SIROP_E_RANGE, index);
    *index = static_cast<int32_t>(&core::word_for(firmness_pa_s) - core::set_words.data());
    return SIROP_OK;
}

int32_t sirop_texture_word_of_n(size_t n, const double* firmness_pa_s, int32_t* statuses, int32_t* indices) {
    return for_each(n, firmness_pa_s != nullptr, statuses, indices,
                    [&](size_t i) { return sirop_texture_word_of(firmness_pa_s[i], indices + i); });
}

const char* sirop_growth_group(int32_t index) {
    return text_in(element_at(core::growth_limits, index), &core::growth_limit::group);
}

int32_t sirop_growth_limit(int32_t index, double* water_activity) {
    if (water_activity == nullptr) return SIROP_E_NULL;
    const auto* limit = element_at(core::growth_limits, index);
    if (limit == nullptr) return fail(SIROP_E_RANGE, water_activity);
    *water_activity = limit->water_activity;
    return SIROP_OK;
}

const char* sirop_growth_limits_source(void) {
    return core::growth_limits_source.data();
}

}  // extern "C"
