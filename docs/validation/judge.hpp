// Deviations of the library from published data, and whether its intervals hold them.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdarg>
#include <cstddef>
#include <cstdio>
#include <deque>
#include <functional>
#include <sirop/base/text.hpp>
#include <sirop/data/pantry.hpp>
#include <sirop/texture/consistency.hpp>
#include <string>
#include <utility>
#include <vector>

#include "crowds.hpp"
#include "honey.hpp"
#include "mixtures.hpp"
#include "published.hpp"

namespace validation {

using namespace sirop::core;
namespace formula = sirop::formula;
using sirop_test::bisect;
using sirop_test::honey;
using sirop_test::kelvin;
using sirop_test::mole_fraction_at;
using sirop_test::solution;

inline constexpr double atmosphere = formula::standard_atmosphere;

[[gnu::format(printf, 1, 2)]] inline std::string text(const char* format, ...) {
    std::array<char, 1024> buffer{};
    va_list arguments;
    va_start(arguments, format);
    std::vsnprintf(buffer.data(), buffer.size(), format, arguments);
    va_end(arguments);
    return buffer.data();
}
inline std::string with_sign(double value, int places) {
    const std::string plain = fixed(value, places);
    return value > 0.0 && plain.find_first_not_of("0.") != std::string::npos ? "+" + plain : plain;
}

inline mixture corn_syrup(double mass_percent) {
    mixture m;
    m.grams = starch_syrup_solids(42.0);
    const double scale = mass_percent / m.dissolved();
    for (double& grams : m.grams) grams *= scale;
    m[component::water] = 100.0 - mass_percent;
    return m;
}
// ---- data sets ----

inline constexpr std::size_t enough_points = 8;  ///< below this, too few to judge a share of nine in ten

/// The interval of one point and what it must hold, on a scale where its sides add: aw, grams, log10 of viscosity.
struct judged {
    estimate e;
    double published = 0.0, rounding = 0.0;
    enum class scale : unsigned char { plain, activity, log_viscosity } on = scale::plain;

    double side() const { return published < e.value ? e.value - e.low : e.high - e.value; }
    double off() const { return std::fabs(published - e.value); }
    bool inside() const { return off() <= side() + rounding; }
    /// Whether the published digits are fine enough to judge the interval's width.
    bool sharp() const { return rounding <= 0.5 * side(); }
    double edge() const { return published < e.value ? e.low : e.high; }
    /// The relative error, of ln aw or of the viscosity, that would lead from the value to another.
    double relative_error(double other) const {
        return on == scale::activity ? std::fabs(std::log(e.value) / std::log(other) - 1.0)
                                     : std::pow(10.0, std::fabs(other - e.value)) - 1.0;
    }
};

struct point {
    double off, solids;
    std::string where;
    std::vector<judged> interval;  ///< none or one
};

/// What the project set itself: the most of "rms" or "worst", and for some of the worst too.
struct target {
    std::string of{};
    double most = 0.0, worst_too = 0.0;
};

struct data_set {
    std::string name, source, unit;
    int places;
    target aim;
    std::string group;  ///< of the calibration table; nothing where the quantity has no interval
    std::vector<point> points{};

    void add(double off, double solids, std::string where) {
        points.push_back({off, solids, std::move(where), {}});
    }
    void add(double off, double solids, std::string where, const judged& j) {
        points.push_back({off, solids, std::move(where), {j}});
    }
    void add_activity(const mixture& m, double celsius, double published, double rounding, std::string where) {
        const estimate e = water_activity(m, celsius);
        add(e.value - published, 100.0 * m.syrup_solids(), std::move(where),
            {e, published, rounding, judged::scale::activity});
    }
    void add_viscosity(const mixture& m, double celsius, double published_pa_s) {
        const estimate e = log10_viscosity(m, celsius);
        const double solids = 100.0 * m.syrup_solids();
        add(100.0 * (std::pow(10.0, e.value) / published_pa_s - 1.0), solids,
            text("%g %%, %g °C", solids, celsius),
            {e, std::log10(published_pa_s), 0.0, judged::scale::log_viscosity});
    }
    double bias() const {
        double sum = 0.0;
        for (const auto& p : points) sum += p.off;
        return sum / static_cast<double>(points.size());
    }
    double rms() const {
        double sum = 0.0;
        for (const auto& p : points) sum += p.off * p.off;
        return std::sqrt(sum / static_cast<double>(points.size()));
    }
    const point& worst() const {
        return *std::max_element(points.begin(), points.end(), [](const point& a, const point& b) {
            return std::fabs(a.off) < std::fabs(b.off);
        });
    }
    std::string aim_text() const {
        if (aim.of.empty()) return "";
        const double furthest = std::fabs(worst().off);
        const auto line = [](const std::string& what, double wanted, double reached) {
            return what + " " + text("%g", wanted) + (reached <= wanted ? ": met" : ": **not met**");
        };
        return line(aim.of, aim.most, aim.of == "rms" ? rms() : furthest) +
               (aim.worst_too > 0.0 ? "; " + line("worst", aim.worst_too, furthest) : "");
    }
};
/// Sets stay where they are while others are added.
using data_sets = std::deque<data_set>;

inline data_set& new_set(data_sets& all, std::string name, std::string source, std::string unit, int places,
                         target aim = {}, std::string group = "") {
    return all.emplace_back(
        data_set{std::move(name), std::move(source), std::move(unit), places, std::move(aim), std::move(group)});
}

/// What the intervals of a list of points amount to.
struct calibration {
    std::size_t points = 0, inside = 0, sharp = 0;
    double factor = 0.0;  ///< by which the sharp points' intervals would have to grow to hold nine in ten
    double stated_low = 1.0e9, stated_high = 0.0, needed = 0.0;  ///< relative error; needed by nine in ten

    explicit calibration(const std::vector<judged>& list) {
        std::vector<double> factors, errors;
        for (const judged& j : list) {
            ++points;
            inside += j.inside();
            if (!j.sharp()) continue;
            ++sharp;
            factors.push_back(j.off() / j.side());
            if (j.on == judged::scale::plain) continue;
            errors.push_back(j.relative_error(j.published));
            stated_low = std::min(stated_low, j.relative_error(j.edge()));
            stated_high = std::max(stated_high, j.relative_error(j.edge()));
        }
        factor = nine_in_ten(factors);
        needed = nine_in_ten(errors);
    }
    static double nine_in_ten(std::vector<double>& values) {
        if (values.empty()) return not_a_number;
        std::sort(values.begin(), values.end());
        const auto rank = static_cast<std::size_t>(std::ceil(0.9 * static_cast<double>(values.size()) - 1.0e-9));
        return values[rank - 1];
    }
    double share() const { return static_cast<double>(inside) / static_cast<double>(points); }
    std::string width() const {
        return sharp < enough_points ? "too few points to tell" : text("%.1f", 1.0 / factor);
    }
    std::string verdict() const {
        if (points < enough_points) return "too few points to tell";
        if (share() < 0.9) return "**too narrow**";
        if (sharp < enough_points) return "holds; width not judged";
        return 1.0 / factor > 2.0 ? "holds; **more than twice too wide**" : "holds";
    }
};

inline std::size_t regime_of(double solids) {
    return solids < 60.0 ? 0 : (solids <= 85.0 ? 1 : 2);
}
inline constexpr std::array<const char*, 3> regime_names = {"under 60 %", "60 to 85 %", "over 85 %"};

inline std::vector<judged> judged_in(const std::vector<const data_set*>& sets, std::size_t regime) {
    std::vector<judged> list;
    for (const data_set* d : sets)
        for (const point& p : d->points)
            if (!p.interval.empty() && (regime > 2 || regime_of(p.solids) == regime))
                list.push_back(p.interval[0]);
    return list;
}

inline void print_row(const data_set& d, const std::string& first_cells, const std::string& aims) {
    const calibration c(judged_in({&d}, 3));
    std::printf("| %s | %zu | %s | %s | %s (%s) | %s | %s |\n", first_cells.c_str(), d.points.size(),
                fixed(d.bias(), d.places).c_str(), fixed(d.rms(), d.places).c_str(),
                fixed(d.worst().off, d.places).c_str(), d.worst().where.c_str(), aims.c_str(),
                c.points ? text("%zu of %zu", c.inside, c.points).c_str() : "–");
}

/// A line for each set, and one for each regime of solids where a set spans more than one.
inline void print_sets(const data_sets& sets) {
    std::puts(
        "| data set | published in | points | bias | rms | worst (where) | aim | inside the interval |\n"
        "|---|---|---:|---:|---:|---|---|---:|");
    for (const data_set& d : sets) {
        print_row(d, d.name + ", " + d.unit + " | " + d.source, d.aim_text());
        for (std::size_t regime = 0; regime < regime_names.size(); ++regime) {
            data_set part = d;
            std::erase_if(part.points, [&](const point& p) { return regime_of(p.solids) != regime; });
            if (part.points.empty() || part.points.size() == d.points.size()) continue;
            print_row(part, std::string("· ") + regime_names[regime] + " | ", "");
        }
    }
}

}  // namespace validation
