// Compares the library with published data and writes the report (markdown, to standard output) and the series of
// the figures (CSV, into the folder named as the first argument).  docs/validation/make.sh compiles and runs it.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdarg>
#include <cstddef>
#include <cstdio>
#include <exception>
#include <fstream>
#include <functional>
#include <sirop/core/consistency.hpp>
#include <sirop/core/pantry.hpp>
#include <string>
#include <utility>
#include <vector>

#include "csv.hpp"
#include "text.hpp"

namespace {

using namespace sirop::core;
namespace formula = sirop::formula;
using sirop_test::csv_row;
using sirop_test::read_csv;

constexpr double atmosphere = formula::standard_atmosphere;

[[gnu::format(printf, 1, 2)]] std::string text(const char* format, ...) {
    std::array<char, 1024> buffer{};
    va_list arguments;
    va_start(arguments, format);
    std::vsnprintf(buffer.data(), buffer.size(), format, arguments);
    va_end(arguments);
    return buffer.data();
}
std::string decimals(double value, int places) {
    return text("%.*f", places, value);
}
std::string percent_of(double share) {
    return text("%.0f %%", 100.0 * share);
}

double kelvin(double celsius) {
    return celsius + formula::zero_celsius;
}
double mole_fraction_at(double mass_percent, double molar_mass) {
    return 1.0 / (1.0 + (100.0 - mass_percent) / mass_percent * molar_mass / formula::water_molar_mass);
}
mixture solution(component solute, double mass_percent) {
    mixture m;
    m[solute] = mass_percent;
    m[component::water] = 100.0 - mass_percent;
    return m;
}
mixture corn_syrup(double mass_percent) {
    mixture m;
    m.grams = starch_syrup_solids(42.0);
    const double scale = mass_percent / m.dissolved();
    for (double& grams : m.grams) grams *= scale;
    m[component::water] = 100.0 - mass_percent;
    return m;
}
/// Where a function that is negative at `low` and positive at `high` changes sign: bisection, so that the library's
/// solver does not check itself.
double bisect(const std::function<double(double)>& f, double low, double high) {
    for (int i = 0; i < 100; ++i) {
        const double middle = 0.5 * (low + high);
        (f(middle) < 0.0 ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

// ---- data sets ----

constexpr std::size_t enough_points = 8;  ///< below this, too few to judge a share of nine in ten

/// The interval of one point and what it must hold, on a scale where its sides add: aw, grams, log10 of viscosity.
struct judged {
    estimate e;
    double published = 0.0, rounding = 0.0;
    bool is_activity = false;

    double side() const { return published < e.value ? e.value - e.low : e.high - e.value; }
    double off() const { return std::fabs(published - e.value); }
    bool inside() const { return off() <= side() + rounding; }
    /// Whether the published digits are fine enough to judge the interval's width.
    bool sharp() const { return rounding <= 0.5 * side(); }
    double edge() const { return published < e.value ? e.low : e.high; }
};

struct point {
    double off, solids;
    std::string where;
    std::vector<judged> interval;  ///< none or one
};

struct data_set {
    std::string name, source, unit;
    int places;
    std::string aim_of;  ///< "rms", "worst" or nothing
    double aim;
    std::string group;  ///< of the calibration table; nothing where the quantity has no interval
    std::vector<point> points{};

    void add(double off, double solids, std::string where) { points.push_back({off, solids, std::move(where), {}}); }
    void add(double off, double solids, std::string where, const judged& j) {
        points.push_back({off, solids, std::move(where), {j}});
    }
    void add_activity(const mixture& m, double celsius, double published, double rounding, std::string where) {
        const estimate e = water_activity(m, celsius);
        add(e.value - published, 100.0 * m.syrup_solids(), std::move(where), {e, published, rounding, true});
    }
    void add_viscosity(const mixture& m, double celsius, double published_pa_s) {
        const estimate e = log10_viscosity(m, celsius);
        const double solids = 100.0 * m.syrup_solids();
        add(100.0 * (std::pow(10.0, e.value) / published_pa_s - 1.0), solids, text("%g %%, %g °C", solids, celsius),
            {e, std::log10(published_pa_s), 0.0});
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
        if (aim_of.empty()) return "";
        const double reached = aim_of == "rms" ? rms() : std::fabs(worst().off);
        return aim_of + " " + text("%g", aim) + (reached <= aim ? ": met" : ": **not met**");
    }
};

/// What the intervals of a list of points amount to.
struct calibration {
    std::size_t points = 0, inside = 0, sharp = 0;
    double factor = 0.0;  ///< by which the sharp points' intervals would have to grow to hold nine in ten
    double stated_low = 1.0e9, stated_high = 0.0, needed = 0.0;  ///< relative error of ln aw; needed by nine in ten

    explicit calibration(const std::vector<judged>& list) {
        std::vector<double> factors, errors;
        for (const judged& j : list) {
            ++points;
            inside += j.inside();
            if (!j.sharp()) continue;
            ++sharp;
            factors.push_back(j.off() / j.side());
            if (!j.is_activity) continue;
            const auto relative = [&](double aw) { return std::fabs(std::log(j.e.value) / std::log(aw) - 1.0); };
            errors.push_back(relative(j.published));
            stated_low = std::min(stated_low, relative(j.edge()));
            stated_high = std::max(stated_high, relative(j.edge()));
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

std::size_t regime_of(double solids) {
    return solids < 60.0 ? 0 : (solids <= 85.0 ? 1 : 2);
}
constexpr std::array<const char*, 3> regime_names = {"under 60 %", "60 to 85 %", "over 85 %"};

std::vector<judged> judged_in(const std::vector<const data_set*>& sets, std::size_t regime) {
    std::vector<judged> list;
    for (const data_set* d : sets)
        for (const point& p : d->points)
            if (!p.interval.empty() && (regime > 2 || regime_of(p.solids) == regime)) list.push_back(p.interval[0]);
    return list;
}

void print_sets(const std::vector<data_set>& sets) {
    std::puts("| data set | published in | points | bias | rms | worst (where) | aim | inside the interval |\n"
              "|---|---|---:|---:|---:|---|---|---:|");
    for (const data_set& d : sets) {
        const calibration c(judged_in({&d}, 3));
        std::printf("| %s, %s | %s | %zu | %s | %s | %s (%s) | %s | %s |\n", d.name.c_str(), d.unit.c_str(),
                    d.source.c_str(), d.points.size(), decimals(d.bias(), d.places).c_str(),
                    decimals(d.rms(), d.places).c_str(), decimals(d.worst().off, d.places).c_str(),
                    d.worst().where.c_str(), d.aim_text().c_str(),
                    c.points ? text("%zu of %zu", c.inside, c.points).c_str() : "–");
    }
}

#include "sets.inc"

}  // namespace

int main(int argc, char** argv) try {
    if (argc != 2) {
        std::fputs("usage: validate FOLDER_FOR_CSV\n", stderr);
        return 2;
    }
    return report(argv[1]);
} catch (const std::exception& problem) {
    std::fprintf(stderr, "validate: %s\n", problem.what());
    return 1;
}
