// The options that say where a kitchen is, shared by the example programs.
#pragma once

#include <sirop/sirop.hpp>

#include <CLI/CLI.hpp>

namespace kitchen {

/// At most one of pressure, altitude or the boiling point of water; sea level without any.
class options {
  public:
    explicit options(CLI::App& app) {
        const auto& p = sirop::core::pressure_limit;
        const auto& a = sirop::core::altitude_limit;
        const auto& w = sirop::core::water_boils_limit;
        auto* group = app.add_option_group("kitchen", "where it is; at most one (default: 1013.25 hPa)");
        group->add_option("--pressure-hpa", pressure_hpa_)->check(CLI::Range(p.low, p.high));
        group->add_option("--altitude-metres", metres_)->check(CLI::Range(a.low, a.high));
        group->add_option("--altitude-feet", feet_)->check(CLI::Range(-1640.0, 29527.0));
        group->add_option("--water-boils-celsius", boils_celsius_)->check(CLI::Range(w.low, w.high));
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

/// The footer of every program that tells somebody what to do with hot sugar.
inline constexpr const char* cautions =
    "Hot sugar sticks and burns deep, and water added to it bursts into steam: deep pan, long sleeves, add "
    "liquids\n"
    "off the heat and in parts. On a burn: cool running water for 20 minutes. For keeping and sale follow your "
    "local\n"
    "food code.\n";

/// Parses the command line; the exit status if the program is to end: 0 after --help, 2 after a bad option.
inline int parse(CLI::App& app, int argc, char** argv) {
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& problem) {
        return app.exit(problem) == 0 ? 0 : 2;
    }
    return -1;
}

}  // namespace kitchen
