// sirop: ingredients and a cook temperature -> the water left, the texture stage and the set.
//
// The C++ door.  Every function takes and returns quantities (units.hpp); numbers are converted here, once, and
// computed in the rooms below.  Header-only, reentrant, without global state; compiles with -fno-exceptions.
//
// Every estimate carries a value, a low, a high and a grade: fine, extrapolated (outside the range that a model
// was fitted in) or not_computed (then the numbers are NaN).  Ranges, sources and accuracies: docs/theory.md.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "cooking/advice.hpp"
#include "questions/catalogue.hpp"
#include "units.hpp"

namespace sirop {

using core::component;
using core::grade;
using core::refusal;

/// A quantity with its interval and its grade.
template <class Quantity>
struct estimate {
    Quantity value, low, high;
    grade status;
    bool computed() const { return status != grade::not_computed; }
};

namespace detail {

template <class Maker>
auto with_unit(const core::estimate& e, const Maker& make) {
    return estimate<decltype(make(0.0))>{make(e.value), make(e.low), make(e.high), e.status};
}

/// Says in our words what Boost.Units would say in a page.
template <class Wanted, class Given>
constexpr void wants() {
    static_assert(!std::is_same_v<Wanted, pressure> || std::is_same_v<Given, pressure>,
                  "sirop: a pressure is wanted here, such as hectopascals(1013.25) or pressure_at(metres(350))");
    static_assert(!std::is_same_v<Wanted, temperature> || std::is_same_v<Given, temperature>,
                  "sirop: a temperature is wanted here, such as celsius(118) or fahrenheit(244); a difference of "
                  "temperatures (celsius_degrees) or a plain number is not one");
}

}  // namespace detail

/// Pressure of the standard atmosphere at an altitude of -500 to 9000 m (ISO 2533); NaN outside.
inline pressure pressure_at(length altitude) {
    const double m = in_metres(altitude);
    return pascals(core::altitude_limit.holds(m) ? formula::standard_pressure(m) : core::not_a_number);
}

/// Pressure of a kitchen in which water boils at 70 to 102 C (IAPWS-IF97); NaN outside.
inline pressure pressure_where_water_boils(temperature water_boils) {
    const double c = in_celsius(water_boils);
    return pascals(core::water_boils_limit.holds(c) ? formula::saturation_pressure(in_kelvin(water_boils))
                                                    : core::not_a_number);
}

/// Temperature at which water boils at 300 to 1100 hPa (IAPWS-IF97); NaN outside.
inline temperature water_boils_at(pressure p) {
    return core::pressure_limit.holds(in_hectopascals(p)) ? kelvin(formula::saturation_temperature(in_pascals(p)))
                                                          : kelvin(core::not_a_number);
}

/// A composition by components; masses of at least 0.
class mixture {
  public:
    mixture(std::initializer_list<std::pair<component, mass>> parts) {
        for (const auto& [which, how_much] : parts) contents_[which] += in_grams(how_much);
    }
    explicit mixture(const core::mixture& contents) : contents_(contents) {}

    const core::mixture& contents() const { return contents_; }
    mass total() const { return grams(contents_.total()); }
    mass of(component which) const { return grams(contents_[which]); }

    /// Temperature at which it boils.  300..1100 hPa; not computed outside, for bad masses, or beyond 250 C.
    template <class Pressure>
    estimate<temperature> boiling_point(Pressure kitchen) const {
        detail::wants<pressure, Pressure>();
        const bool good = usable() && core::pressure_limit.holds(in_hectopascals(kitchen));
        return detail::with_unit(good ? core::boiling_celsius(contents_, in_pascals(kitchen)) : core::estimate{},
                                 celsius);
    }

    /// By how much it boils above water.
    template <class Pressure>
    estimate<temperature_difference> boiling_point_elevation(Pressure kitchen) const {
        const auto boils = boiling_point(kitchen);
        const temperature water = water_boils_at(kitchen);
        return {boils.value - water, boils.low - water, boils.high - water, boils.status};
    }

    /// Water that its solids hold when it boils at a temperature, whatever water it has now.
    template <class Temperature, class Pressure>
    estimate<mass> water_at_boil(Temperature boils, Pressure kitchen) const {
        detail::wants<temperature, Temperature>();
        detail::wants<pressure, Pressure>();
        const bool good = usable() && core::pressure_limit.holds(in_hectopascals(kitchen)) && in_range(boils);
        return detail::with_unit(
            good ? core::water_at_boil(contents_, in_celsius(boils), in_pascals(kitchen)) : core::estimate{},
            grams);
    }

    /// Water activity at a temperature, -30..250 C, all water liquid.
    template <class Temperature>
    estimate<sirop::water_activity> activity(Temperature at) const {
        detail::wants<temperature, Temperature>();
        return detail::with_unit(
            usable() && in_range(at) ? core::water_activity(contents_, in_celsius(at)) : core::estimate{},
            [](double aw) { return sirop::water_activity(aw); });
    }

    /// Temperature at which ice begins to form, down to -30 C.
    estimate<temperature> freezing_point() const {
        return detail::with_unit(usable() ? core::freezing_celsius(contents_) : core::estimate{}, celsius);
    }

    /// Glass transition of the syrup phase.
    estimate<temperature> glass_transition() const {
        return detail::with_unit(usable() ? core::glass_transition(contents_) : core::estimate{}, celsius);
    }

    /// Dissolved solids of the syrup phase.
    mass_fraction syrup_solids() const {
        return mass_fraction(usable() ? contents_.syrup_solids() : core::not_a_number);
    }

    /// What a refractometer reads on the syrup phase at 20 C, to 95 %; NaN beyond.
    degrees_brix brix() const {
        return degrees_brix(usable() ? core::brix_of_syrup(contents_) : core::not_a_number);
    }

    /// Viscosity of the whole, thickened by fat and solids, -30..170 C.
    template <class Temperature>
    estimate<dynamic_viscosity> viscosity(Temperature at) const {
        detail::wants<temperature, Temperature>();
        const auto& entry = *core::find_property("viscosity_pa_s");
        return detail::with_unit(
            usable() ? core::evaluate(entry, contents_, in_celsius(at), formula::standard_atmosphere)
                     : core::estimate{},
            [](double v) { return dynamic_viscosity::from_value(v); });
    }

  private:
    core::mixture contents_;

    bool usable() const {
        for (const double g : contents_.grams)
            if (!core::grams_limit.holds(g)) return false;
        return true;
    }
    static bool in_range(temperature t) { return core::temperature_limit.holds(in_celsius(t)); }
};

/// A batch being put together: what goes in the pan, how far it is cooked and where, what is added off the heat.
class batch {
  public:
    explicit batch(std::string title = {}) { plan_.title = std::move(title); }

    /// An ingredient of the pantry by its name; an unknown one is refused by predict.
    batch& pan(std::string_view ingredient, mass how_much) { return add(plan_.pan, ingredient, how_much, 20.0); }
    /// One of any composition.
    batch& pan(std::string_view name, mass how_much, const mixture& composition) {
        plan_.pan.push_back({std::string(name), shares(composition), in_grams(how_much), 20.0});
        return *this;
    }
    batch& off_heat(std::string_view ingredient, mass how_much, temperature at = celsius(20.0)) {
        return add(plan_.off_heat, ingredient, how_much, in_celsius(at));
    }
    /// What the thermometer shows when the cook ends.
    batch& cook_to(temperature shown) {
        plan_.thermometer_celsius = in_celsius(shown);
        return *this;
    }
    batch& kitchen(pressure p) {
        plan_.pressure_pa = in_pascals(p);
        return *this;
    }
    /// By how much the thermometer reads too high.
    batch& thermometer_error(temperature_difference too_high) {
        plan_.thermometer_error_kelvin = in_celsius_degrees(too_high);
        return *this;
    }
    /// Within how much it is right; widens every interval.
    batch& thermometer_within(temperature_difference either_way) {
        plan_.thermometer_within_kelvin = in_celsius_degrees(either_way);
        return *this;
    }
    /// A layer of the dessert that touches it; the answer tells where water goes.
    batch& neighbour(std::string_view ingredient, mass how_much) {
        return add(plan_.neighbours, ingredient, how_much, 20.0);
    }
    /// Where it is kept: on a shelf at 20 C, or where it is served if that is colder, unless said.
    batch& store_at(temperature t) {
        plan_.store_celsius = in_celsius(t);
        return *this;
    }
    /// Where it shall pour at assembly.
    batch& pour_at(temperature t) {
        plan_.pour_celsius = in_celsius(t);
        return *this;
    }
    batch& serve_at(temperature t) {
        plan_.serve_celsius = in_celsius(t);
        return *this;
    }

    const core::batch& plan() const { return plan_; }
    const std::string& unknown_ingredient() const { return unknown_; }

  private:
    core::batch plan_;
    std::string unknown_;

    static core::masses shares(const mixture& composition) {
        core::masses m = composition.contents().grams;
        const double total = composition.contents().total();
        for (double& g : m) g /= total;
        return m;
    }
    batch& add(std::vector<core::ingredient_line>& lines, std::string_view name, mass how_much, double at) {
        if (const auto known = core::pantry_composition(name))
            lines.push_back({std::string(name), *known, in_grams(how_much), at});
        else if (unknown_.empty())
            unknown_ = std::string(name);
        return *this;
    }
};

/// The answer to the main job: quantities of what a cook asks first; everything else in numbers().
class prediction {
  public:
    explicit prediction(core::prediction numbers) : numbers_(std::move(numbers)) {}

    temperature cooked_to() const { return celsius(numbers_.cooked.celsius); }
    estimate<mass_fraction> water_when_cooked() const { return fraction(numbers_.cooked.water_percent); }
    estimate<mass> cooked_mass() const { return detail::with_unit(numbers_.cooked.grams, grams); }
    estimate<mass> water_boiled_off() const {
        return detail::with_unit(numbers_.cooked.water_boiled_off_grams, grams);
    }
    estimate<mass> yield() const { return detail::with_unit(numbers_.finished.grams, grams); }
    estimate<mass_fraction> water() const { return fraction(numbers_.finished.water_percent); }
    estimate<water_activity> activity_at_serving() const {
        return activity(numbers_.finished.water_activity_at_serving);
    }
    estimate<dynamic_viscosity> viscosity_at_serving() const { return power(numbers_.set.log10_viscosity); }
    const std::string& stage_by_temperature() const { return numbers_.stage.by_temperature; }
    const std::string& stage_by_consistency() const { return numbers_.stage.by_consistency; }
    const std::string& set() const { return numbers_.set.word; }
    /// Viscosity and gel together: what the word is read from.
    estimate<dynamic_viscosity> firmness_at_serving() const { return power(numbers_.set.log10_firmness); }
    /// Time in which a layer 1 cm high slumps to half; infinite where it stands.
    estimate<duration> slump_to_half() const {
        return detail::with_unit(numbers_.set.slump_seconds, [](double s) { return duration::from_value(s); });
    }
    /// From where on it pours when it is warmed.
    estimate<temperature> pours_from() const { return detail::with_unit(numbers_.set.pouring_celsius, celsius); }
    core::graining_risk graining_risk_in_storage() const { return numbers_.graining_in_storage.risk; }
    estimate<water_activity> activity_in_storage() const {
        return activity(numbers_.keeping_in_storage.water_activity);
    }
    const std::vector<std::string>& cautions() const { return numbers_.cautions; }
    const std::vector<std::string>& notes() const { return numbers_.notes; }
    /// All of it, in the units of its names.
    const core::prediction& numbers() const { return numbers_; }

  private:
    core::prediction numbers_;
    static estimate<water_activity> activity(const core::estimate& aw) {
        return detail::with_unit(aw, [](double x) { return water_activity(x); });
    }
    static estimate<dynamic_viscosity> power(const core::estimate& log10_pa_s) {
        return detail::with_unit(log10_pa_s, [](double l) { return pascal_seconds(std::pow(10.0, l)); });
    }
    static estimate<mass_fraction> fraction(const core::estimate& percent) {
        return detail::with_unit(percent, [](double p) { return mass_fraction(0.01 * p); });
    }
};

namespace detail {

inline std::optional<refusal> unknown_ingredient(const batch& b) {
    const auto& name = b.unknown_ingredient();
    if (name.empty()) return std::nullopt;
    if (auto fault = core::find_text_fault("batch", name)) return fault;
    return refusal{"batch",
                   "unknown ingredient \"" + name + "\"; a name of the pantry is accepted, or a composition"};
}

}  // namespace detail

/// Predicts a batch by a stage table, or says why not.
inline core::outcome<prediction> predict(const batch& b, std::string_view table = "us 2004") {
    if (auto why = detail::unknown_ingredient(b)) return *why;
    const auto* stages = core::find_stage_table(table);
    if (stages == nullptr) return refusal{"table", "\"" + core::escaped(table, 60) + "\" is not a stage table"};
    auto answer = core::predict_with_advice(b.plan(), *stages);
    if (!answer) return answer.why;
    return prediction(*std::move(answer.value));
}

}  // namespace sirop
