// The options that say where a kitchen is and what is in a syrup, shared by the example programs.
#pragma once

#include <fmt/format.h>
#include <sirop/sirop.hpp>

#include <CLI/CLI.hpp>
#include <sstream>
#include <string>

#include "files.hpp"
#include "report/page.hpp"

namespace kitchen {

/// A number within a limit; unlike a plain comparison it also refuses "nan".
inline CLI::Validator within(double low, double high) {
    return {[low, high](std::string& text) {
                double x = sirop::core::not_a_number;
                const auto [stop, problem] = std::from_chars(text.data(), text.data() + text.size(), x);
                const bool whole = problem == std::errc() && stop == text.data() + text.size();
                return whole && x >= low && x <= high
                           ? std::string()
                           : fmt::format("{} is not a number from {:g} to {:g}", text, low, high);
            },
            fmt::format("NUMBER from {:g} to {:g}", low, high)};
}

/// At most one of pressure, altitude or the boiling point of water; sea level without any.
class options {
  public:
    explicit options(CLI::App& app) {
        const auto& p = sirop::core::pressure_limit;
        const auto& a = sirop::core::altitude_limit;
        const auto& w = sirop::core::water_boils_limit;
        auto* group = app.add_option_group("kitchen", "where it is; at most one (default: 1013.25 hPa)");
        group->add_option("--pressure-hpa", pressure_hpa_)->check(within(p.low, p.high));
        group->add_option("--altitude-metres", metres_)->check(within(a.low, a.high));
        group->add_option("--altitude-feet", feet_)->check(within(-1640.0, 29527.0));
        group->add_option("--water-boils-celsius", boils_celsius_)->check(within(w.low, w.high));
        group->require_option(0, 1);
        group_ = group;
    }

    sirop::pressure pressure() const {
        using namespace sirop;
        if (group_->count("--altitude-metres") > 0) return pressure_at(metres(metres_));
        if (group_->count("--altitude-feet") > 0) return pressure_at(feet(feet_));
        if (group_->count("--water-boils-celsius") > 0) return pressure_where_water_boils(celsius(boils_celsius_));
        return hectopascals(pressure_hpa_);
    }

  private:
    CLI::App* group_ = nullptr;
    double pressure_hpa_ = 1013.25, metres_ = 0.0, feet_ = 0.0, boils_celsius_ = 100.0;
};

/// "name=grams": an ingredient of the pantry, or a pure component.  The reason of a refusal, or nothing.
inline std::string add_part(sirop::core::mixture& m, const std::string& part) {
    const auto equals = part.rfind('=');
    const std::string name = part.substr(0, equals);
    const std::string amount = equals == std::string::npos ? "" : part.substr(equals + 1);
    double grams = sirop::core::not_a_number;
    const auto [stop, problem] = std::from_chars(amount.data(), amount.data() + amount.size(), grams);
    if (problem != std::errc() || stop != amount.data() + amount.size() || !sirop::core::grams_limit.holds(grams))
        return fmt::format("part \"{}\": name=grams is accepted, with grams from 0 to 1e9", part);
    if (const auto known = sirop::core::pantry_composition(name)) {
        for (std::size_t i = 0; i < sirop::core::component_count; ++i) m.grams[i] += grams * (*known)[i];
    } else if (const auto pure = sirop::core::find_component(name)) {
        m[*pure] += grams;
    } else {
        return fmt::format("part \"{}\": unknown; an ingredient of the pantry or a component is accepted", name);
    }
    return {};
}

/// What every program says before it tells somebody what to do with hot sugar, and in its help.
inline std::string cautions() {
    std::string out;
    for (const auto text : {sirop::core::burn_caution, sirop::core::steam_caution, sirop::core::keeping_deferral})
        sirop::lib::row(out, "", text, 0);
    return out;
}

/// Parses the command line; the exit status if the program is to end: 0 after --help, 2 after a bad option.
inline int parse(CLI::App& app, int argc, char** argv) {
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& problem) {
        std::ostringstream help;
        if (problem.get_exit_code() != 0)
            return refused(std::string(problem.what()) + "; --help says what is accepted");
        app.exit(problem, help);
        return print(help.str());
    }
    return -1;
}

}  // namespace kitchen
