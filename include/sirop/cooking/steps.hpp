// A recipe as steps, followed over time: heat, hold, add, rest, cool.
#pragma once

#include <vector>

#include "../base/outcome.hpp"
#include "batch.hpp"
#include "mixing.hpp"
#include "over_time.hpp"

namespace sirop::core {

enum class step_kind : unsigned char {
    heat,  ///< with the hob on, until it is so hot
    hold,  ///< with the hob on for a while
    add,   ///< ingredients, hot or cold; the hob is off
    rest,  ///< hob off, for a while
    cool   ///< hob off, until it is so cold, in the open pan
};
inline constexpr std::array<std::string_view, 5> step_names = {"heat", "hold", "add", "rest", "cool"};

struct cook_step {
    step_kind kind = step_kind::heat;
    double to_celsius = not_a_number;
    double seconds = not_a_number;
    double share = 1.0;  ///< of the hob's power
    std::vector<ingredient_line> lines;
};

/// A step as it went.
struct step_taken {
    cook_step step;
    double seconds = 0.0;
    bool reached = true;             ///< the temperature that was asked for
    double kelvin_per_minute = 0.0;  ///< how fast it climbed or fell at the end
    double flashed_grams = 0.0;      ///< water that an addition turned into steam at once
    pan_state end;
};

struct course {
    std::vector<step_taken> steps;
    std::vector<pan_state> path;  ///< every state on the way
    double boils_from_seconds = not_a_number;
    double highest_celsius = not_a_number;
};

/// What a batch says if nobody says more: heat to its target, add what goes in off the heat, cool to
/// serving, or as near to the room as is soon reached.
inline std::vector<cook_step> usual_steps(const batch& b, const stove& on) {
    std::vector<cook_step> steps = {{step_kind::heat, b.real_celsius(), not_a_number, 1.0, {}}};
    if (!b.off_heat.empty()) steps.push_back({step_kind::add, not_a_number, not_a_number, 0.0, b.off_heat});
    steps.push_back({step_kind::cool, std::fmax(b.serve_celsius, on.room_celsius + 5.0), not_a_number, 0.0, {}});
    return steps;
}

namespace detail {

inline void take(course& c, pan_state& p, const stove& on, double pressure_pa, double ph, const cook_step& step) {
    step_taken taken;
    taken.step = step;
    const pan_state before = p;
    if (step.kind == step_kind::add) {
        const mixed m = mix(p.contents, p.celsius, step.lines, pressure_pa);
        p.contents = m.contents;
        p.hob_joule += on.pan_joule_per_kelvin * (p.celsius - m.celsius);  // the hot pan gives it up in its time
        p.celsius = m.celsius;
        p.steam_grams += m.flashed_grams;
        p.boils = m.flashed_grams > 0.0;
        taken.flashed_grams = m.flashed_grams;
        c.path.push_back(p);
    } else {
        heating how;
        how.share = step.kind == step_kind::rest || step.kind == step_kind::cool ? 0.0 : step.share;
        how.to_celsius = step.to_celsius;
        how.for_seconds = step.seconds;
        how.ph = ph;
        pan_state last = p, before_last = p;
        p = heated(p, on, how, pressure_pa, [&](const pan_state& s) {
            if (s.boils && std::isnan(c.boils_from_seconds)) c.boils_from_seconds = s.seconds;
            c.path.push_back(s);
            before_last = last;
            last = s;
        });
        if (last.seconds > before_last.seconds)
            taken.kelvin_per_minute =
                60.0 * (last.celsius - before_last.celsius) / (last.seconds - before_last.seconds);
        taken.reached = std::isnan(step.to_celsius) || std::fabs(p.celsius - step.to_celsius) < 1.0e-3;
    }
    taken.seconds = p.seconds - before.seconds;
    taken.end = p;
    c.steps.push_back(std::move(taken));
}

}  // namespace detail

/// The course of a batch over time.  The pan starts cold, everything in it, at `start_celsius`; all sugar counts
/// as dissolved.  Refused: a fault in the batch; a step whose temperature is never reached.
inline outcome<course> cook_over_time(const batch& b, const stove& on, const std::vector<cook_step>& steps,
                                      double ph, double start_celsius = 20.0) {
    if (auto fault = find_fault(b)) return *fault;
    course c;
    pan_state p;
    p.contents = in_the_pan(b.pan);
    p.celsius = start_celsius;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        detail::take(c, p, on, b.pressure_pa, ph, steps[i]);
        if (c.steps.back().reached) continue;
        const bool dry = !(p.contents.syrup_solids() <= last_syrup_solids);
        return refusal{"steps[" + std::to_string(i) + "]",
                       "never reaches " + both_scales(steps[i].to_celsius) +
                           (dry ? ": at " + both_scales(p.celsius) +
                                      " it passes 99.5 % solids of the syrup phase, where the model ends"
                                : ": it stays at " + both_scales(p.celsius) +
                                      "; more power, a smaller opening or another temperature")};
    }
    for (const auto& s : c.path) c.highest_celsius = std::fmax(c.highest_celsius, s.celsius);
    return c;
}

/// At which real temperature to turn the hob off, C, so that the pan climbs on to `celsius` by the heat that is
/// still on its way; NaN where it does not get there.  `ready`: the pan a few degrees before.
inline double turn_off_celsius(const pan_state& ready, const stove& on, double celsius, double pressure_pa,
                               double ph) {
    const auto peak = [&](double off_celsius) {
        heating until{1.0, off_celsius};
        until.ph = ph;
        const pan_state off = heated(ready, on, until, pressure_pa, [](const pan_state&) {});
        double highest = off.celsius;
        heating coast{0.0, not_a_number, 6.0 * on.lag_seconds};
        coast.ph = ph;
        heated(off, on, coast, pressure_pa, [&](const pan_state& s) { highest = std::fmax(highest, s.celsius); });
        return highest;
    };
    return solve_monotone([&](double t) { return peak(t) - celsius; }, celsius - 1.0, ready.celsius, celsius);
}

/// Bands of the browning index, with the words that cookery books use (common practice; ordinal, a factor of two
/// either way, so one band up or down).
struct browning_band {
    double from;
    std::string_view word;
};
inline constexpr auto browning_bands = std::to_array<browning_band>(
    {{0.0, "no colour"}, {0.25, "straw"}, {0.75, "light gold"}, {2.5, "amber"}, {5.0, "dark"}, {12.0, "burnt"}});
inline constexpr double browning_factor = 2.0;

constexpr std::string_view browning_word(double index) {
    std::string_view word = browning_bands.front().word;
    for (const auto& band : browning_bands)
        if (index >= band.from) word = band.word;
    return word;
}

}  // namespace sirop::core
