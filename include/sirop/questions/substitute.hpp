// One ingredient in place of another: how much of what, and to which temperature to cook then, so that set,
// sweetness and safety from graining stay as near as they can.  Needs Eigen.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "../base/least_squares.hpp"
#include "plan.hpp"

namespace sirop::core {

/// An amount that a substitution tries to keep: grams of it in a gram of an ingredient.
struct kept_amount {
    std::string_view name;
    double weight;  ///< per gram in 100 g of the batch without its water; our choice
    double (*in)(const masses&);
    std::string_view help;  ///< what brings more of it
};

/// What stands for the taste (sweetness, salt), the mouthfeel and the set (fat by kind, protein, cocoa, gel
/// formers) and the yield (dry mass).  Little protein, starch or salt does much, so a gram of them weighs more.
/// Water weighs next to nothing, for the pan boils it off.
inline constexpr std::array<kept_amount, 10> kept_amounts = {{
    {"sweetness", 1.0,
     [](const masses& m) {
         double sum = 0.0;
         for (const auto& c : components) sum += c.sweetness.value * m[index_of(c.id)];
         return sum;
     },
     "white sugar, fructose or honey"},
    {"dry mass", 1.0, [](const masses& m) { return 1.0 - m[index_of(component::water)]; },
     "something that fills and is hardly sweet, such as maltodextrin 10 DE,"},
    {"fat", 1.0,
     [](const masses& m) {
         return m[index_of(component::fat)] + m[index_of(component::cocoa_butter)] +
                m[index_of(component::vegetable_fat)];
     },
     "butter, unsalted"},
    {"milk fat", 0.5, [](const masses& m) { return m[index_of(component::fat)]; }, "butter, unsalted"},
    {"cocoa butter", 0.5, [](const masses& m) { return m[index_of(component::cocoa_butter)]; }, "cocoa butter"},
    {"protein", 2.0,
     [](const masses& m) { return m[index_of(component::protein)] + m[index_of(component::gelatin)]; },
     "skim milk powder"},
    {"cocoa solids", 1.0, [](const masses& m) { return m[index_of(component::cocoa_solids)]; }, "cocoa powder"},
    {"gel formers", 2.0,
     [](const masses& m) {
         return m[index_of(component::starch)] + m[index_of(component::fibre)] + m[index_of(component::agar)];
     },
     "corn starch"},
    {"salt", 2.0, [](const masses& m) { return m[index_of(component::salt)]; }, "salt"},
    {"water", 0.01, [](const masses& m) { return m[index_of(component::water)]; }, "water"},
}};

/// Weights of what may improve but shall not get worse, and of the pull of a line that may change to its grams.
inline constexpr double hindering_weight = 1.0, lactose_weight = 0.5, change_weight = 0.05;

/// Beyond these a substitution is refused (our choice): by how much of itself a property may move.
inline constexpr double sweetness_may_move = 0.30, yield_may_move = 0.30;
inline constexpr std::size_t most_replacements = 4;

struct replacement {
    ingredient_line line;             ///< its grams do not count
    double at_most_grams = HUGE_VAL;  ///< in the batch as given
};

/// Another line whose grams may change.
struct changeable_line {
    line_place place;
    double at_least_grams = 0.0, at_most_grams = HUGE_VAL;
};

struct substitution {
    batch plan;  ///< with the temperature to which it is cooked
    line_place replaced;
    std::vector<replacement> with;  ///< 1 to 4; they go where the replaced line was
    std::vector<changeable_line> may_change;
};

struct line_change {
    std::string name;
    line_place place;  ///< in the new batch
    double grams_before = 0.0, grams = 0.0;
    bound_side at = bound_side::free;  ///< the bound that it lies on
};

struct trade {
    std::string_view name, unit;
    double before = not_a_number, after = not_a_number;
    std::string before_word, after_word;  ///< where the number has one
};

struct kept_residual {
    std::string_view name;
    double before_grams = not_a_number, after_grams = not_a_number;  ///< in the batch
    double weight = not_a_number;
};

struct substitution_answer {
    batch plan;                             ///< the new batch, cooked to the new temperature
    std::vector<line_change> replacements;  ///< in the order asked
    std::vector<line_change> changed;       ///< the lines that might change
    cook_answer cook;
    double thermometer_before_celsius = not_a_number;
    finished_measures before, after;
    std::vector<trade> trades;
    std::vector<kept_residual> residuals;
    std::vector<std::string> reasons;
};

namespace detail {

inline std::vector<trade> trades_of(const finished_measures& a, const finished_measures& b) {
    const auto pa_s = [](double x) { return std::pow(10.0, x); };
    std::vector<trade> t = {
        {"sweetness_percent", "%", a.sweetness_percent, b.sweetness_percent, "", ""},
        {"fat_percent", "%", a.fat_percent, b.fat_percent, "", ""},
        {"protein_percent", "%", a.protein_percent, b.protein_percent, "", ""},
        {"cocoa_percent", "%", a.cocoa_percent, b.cocoa_percent, "", ""},
        {"water_percent", "%", a.water_percent, b.water_percent, "", ""},
        {"water_activity_in_storage", "", a.water_activity, b.water_activity, "", ""},
        {"sucrose_supersaturation", "", a.sucrose_supersaturation, b.sucrose_supersaturation, "", ""},
        {"lactose_supersaturation", "", a.lactose_supersaturation, b.lactose_supersaturation, "", ""},
        {"graining_risk", "", static_cast<double>(a.risk), static_cast<double>(b.risk), risk_name(a.risk),
         risk_name(b.risk)},
        {"hindering_percent", "%", a.hindering_percent, b.hindering_percent, "", ""},
        {"yield_grams", "g", a.grams, b.grams, "", ""},
        {"firmness_pa_s", "Pa s", pa_s(a.log10_firmness), pa_s(b.log10_firmness), a.word, b.word},
    };
    if (!std::isnan(a.log10_firmness_at_pouring))
        t.push_back({"firmness_at_pouring_pa_s", "Pa s", pa_s(a.log10_firmness_at_pouring),
                     pa_s(b.log10_firmness_at_pouring), a.word_at_pouring, b.word_at_pouring});
    return t;
}

/// What is wrong with the lines that a substitution names, if anything.
inline std::optional<refusal> find_line_fault(const substitution& q) {
    const auto* old = find_line(q.plan, q.replaced);
    const auto count = [&](batch_list list) {
        return std::to_string(list == batch_list::pan ? q.plan.pan.size() : q.plan.off_heat.size());
    };
    const auto unknown = [&](const std::string& place, const line_place& at) {
        return refusal{place, at.text() + " is not a line of the batch; it has " + count(at.list) + " there"};
    };
    if (old == nullptr) return unknown("replace", q.replaced);
    if (!(old->grams > 0.0))
        return refusal{"replace",
                       q.replaced.text() + ", " + old->name + ", has 0 g; a line with grams is accepted"};
    if (q.with.empty() || q.with.size() > most_replacements)
        return refusal{"with", std::to_string(q.with.size()) + " replacements are given; 1 to " +
                                   std::to_string(most_replacements) + " are accepted"};
    for (std::size_t i = 0; i < q.with.size(); ++i) {
        const std::string place = "with[" + std::to_string(i) + "]";
        const auto& r = q.with[i];
        if (auto fault = find_text_fault(place, r.line.name)) return *fault;
        if (same_name(r.line.name, old->name))
            return refusal{place, "\"" + r.line.name + "\" is the ingredient to be replaced; name another"};
        double shares = 0.0;
        for (const double share : r.line.per_gram) shares += share >= 0.0 ? share : not_a_number;
        if (!(std::fabs(shares - 1.0) <= 1.0e-6))
            return refusal{place,
                           "has a composition that is negative or nothing; masses of at least 0 are accepted"};
        if (!added_limit.holds(r.line.celsius))
            return outside(place + ".celsius", r.line.celsius,
                           shortest(added_limit.low) + " to " + shortest(added_limit.high) + " °C");
        if (!(r.at_most_grams > 0.0))
            return refusal{place + ".at_most_grams",
                           shortest(r.at_most_grams) + " is not accepted; it is to be above 0"};
    }
    for (std::size_t i = 0; i < q.may_change.size(); ++i) {
        const std::string place = "may_change[" + std::to_string(i) + "]";
        const auto& c = q.may_change[i];
        if (find_line(q.plan, c.place) == nullptr) return unknown(place, c.place);
        if (c.place == q.replaced)
            return refusal{place, c.place.text() + " is the line that is replaced; name another"};
        for (std::size_t j = 0; j < i; ++j)
            if (q.may_change[j].place == c.place)
                return refusal{place, c.place.text() + " is named twice; once is accepted"};
        if (auto fault = find_grams_range_fault(place, c.at_least_grams, c.at_most_grams)) return fault;
    }
    return std::nullopt;
}

/// The grams of replacements and changeable lines, in 1/100 of the batch's dry mass, nearest to what is kept.
inline bounded_solution nearest_amounts(const substitution& q, const mixture& all, double unit) {
    const auto& old = *find_line(q.plan, q.replaced);
    const auto k = static_cast<Eigen::Index>(q.with.size());
    const auto c = static_cast<Eigen::Index>(q.may_change.size());
    const Eigen::Index n = k + c + 2;  // and how far hindering sugars and lactose are on the safe side
    const auto kept = static_cast<Eigen::Index>(kept_amounts.size());
    Eigen::MatrixXd a = Eigen::MatrixXd::Zero(kept + 2 + c, n);
    Eigen::VectorXd b = Eigen::VectorXd::Zero(kept + 2 + c), low = Eigen::VectorXd::Zero(n), high(n), prior(n);

    // Beyond half, more hindering sugar is not asked for.
    const double share = std::fmin(hindering_share(all), hindering_enough);
    const auto hindering = [&](const masses& m) {
        mixture one;
        one.grams = m;
        const double others = one.dissolved() - m[index_of(component::salt)] - m[index_of(component::minerals)] -
                              m[index_of(component::sucrose)] - m[index_of(component::lactose)];
        return (1.0 - share) * others - share * m[index_of(component::sucrose)];
    };
    const auto lactose = [](const masses& m) { return m[index_of(component::lactose)]; };
    const auto column = [&](const masses& m) {
        Eigen::VectorXd v = Eigen::VectorXd::Zero(a.rows());
        for (Eigen::Index i = 0; i < kept; ++i) {
            const auto& amount = kept_amounts[static_cast<std::size_t>(i)];
            v[i] = amount.weight * amount.in(m);
        }
        v[kept] = hindering_weight * hindering(m);
        v[kept + 1] = lactose_weight * lactose(m);
        return v;
    };
    b += column(old.per_gram) * (old.grams / unit);
    for (Eigen::Index j = 0; j < k; ++j) {
        const auto& r = q.with[static_cast<std::size_t>(j)];
        a.col(j) = column(r.line.per_gram);
        prior[j] = old.grams / unit / static_cast<double>(k);
        high[j] = r.at_most_grams / unit;
    }
    for (Eigen::Index j = 0; j < c; ++j) {
        const auto& l = q.may_change[static_cast<std::size_t>(j)];
        const auto& line = *find_line(q.plan, l.place);
        a.col(k + j) = column(line.per_gram);
        b += a.col(k + j) * (line.grams / unit);
        a(kept + 2 + j, k + j) = change_weight;
        b[kept + 2 + j] = change_weight * (line.grams / unit);
        prior[k + j] = line.grams / unit;
        low[k + j] = l.at_least_grams / unit;
        high[k + j] = l.at_most_grams / unit;
    }
    a(kept, n - 2) = -hindering_weight;
    a(kept + 1, n - 1) = lactose_weight;
    prior[n - 2] = prior[n - 1] = 0.0;
    high[n - 2] = high[n - 1] = HUGE_VAL;
    return bounded_least_squares(a, b, low, high, prior);
}

}  // namespace detail

/// One ingredient replaced.  The grams follow from a bounded least-squares problem over the amounts of
/// kept_amounts, the temperature from the firmness that the batch has at its serving temperature.  Refused, with
/// the reason that binds: no such line, no temperature gives the set, or the change is too large to be the same
/// dish.
inline outcome<substitution_answer> substitute(const substitution& q) {
    if (auto fault = find_fault(q.plan)) return *fault;
    if (auto fault = detail::find_line_fault(q)) return *fault;
    const auto& old = *detail::find_line(q.plan, q.replaced);
    const cook_path before(q.plan);
    if (auto fault = find_pan_fault(before)) return *fault;
    const double real = q.plan.thermometer_celsius - q.plan.thermometer_error_kelvin;
    if (!(real >= before.boils_celsius && real <= before.last_celsius))
        return refusal{q.plan.target_place,
                       both_scales(q.plan.thermometer_celsius) + " is outside the accepted range, " +
                           both_scales(before.boils_celsius + q.plan.thermometer_error_kelvin) + " to " +
                           both_scales(before.last_celsius + q.plan.thermometer_error_kelvin) +
                           ", where this pan boils"};

    substitution_answer s;
    s.thermometer_before_celsius = q.plan.thermometer_celsius;
    s.before = measures_of(q.plan, before.finished_at(real));

    mixture all = in_the_pan(q.plan.pan);
    all += contents_of(q.plan.off_heat);
    const double unit = 0.01 * (all.total() - all.water());
    const auto solved = detail::nearest_amounts(q, all, unit);
    if (solved.status != least_squares_status::solved)
        return refusal{"with", "cannot be done because the amounts could not be solved; take fewer replacements"};

    // The new batch: lines that may change first, while the places still hold.
    s.plan = q.plan;
    const std::size_t k = q.with.size();
    for (std::size_t j = 0; j < q.may_change.size(); ++j) {
        auto at = q.may_change[j].place;
        auto& line = detail::lines_of(s.plan, at.list)[at.index];
        const auto x = static_cast<Eigen::Index>(k + j);
        const double grams = solved.x[x] * unit;
        if (at.list == q.replaced.list && at.index > q.replaced.index) at.index += k - 1;
        s.changed.push_back({line.name, at, line.grams, grams, solved.at[k + j]});
        line.grams = grams;
    }
    auto& lines = detail::lines_of(s.plan, q.replaced.list);
    const auto spot = lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(q.replaced.index));
    std::vector<ingredient_line> inserted;
    for (std::size_t j = 0; j < k; ++j) {
        inserted.push_back(q.with[j].line);
        inserted.back().grams = solved.x[static_cast<Eigen::Index>(j)] * unit;
        s.replacements.push_back({inserted.back().name,
                                  {q.replaced.list, q.replaced.index + j},
                                  0.0,
                                  inserted.back().grams,
                                  solved.at[j]});
    }
    lines.insert(spot, inserted.begin(), inserted.end());

    const std::string what = old.name + " by " + [&] {
        std::string names;
        for (const auto& r : q.with) names += (names.empty() ? "" : " and ") + r.line.name;
        return names;
    }();
    const auto because = [&](const std::string& why, const std::string& help) {
        std::string bounds;
        for (std::size_t j = 0; j < k; ++j)
            if (s.replacements[j].at == bound_side::high)
                bounds += "; " + s.replacements[j].name + " is at its bound of " +
                          detail::grams_text(q.with[j].at_most_grams) + ", raise it";
        for (const auto& c : s.changed)
            if (c.at != bound_side::free)
                bounds += "; " + c.name + " is at its bound of " + detail::grams_text(c.grams);
        return refusal{"with", what + " cannot be done because " + why + bounds + "; " + help};
    };

    const auto cook =
        cook_for(s.plan, wanted_number(measure::firmness_pa_s, std::pow(10.0, s.before.log10_firmness)));
    if (!cook) return because(cook.why.place + ": " + cook.why.reason, "add another replacement, or water");
    s.cook = *cook;
    s.plan.thermometer_celsius = s.cook.thermometer_celsius;
    s.plan.notes.push_back(what + ": amounts by least squares, temperature by the firmness at serving");
    s.after = measures_of(s.plan, s.cook.finished);

    if (s.after.risk == graining_risk::high && s.before.risk < graining_risk::high)
        return because("the risk of graining rises from " + detail::risk_name(s.before.risk) +
                           " to high, with other sugars at " + fixed(s.before.hindering_percent, 0) +
                           " % beside the sucrose before and " + fixed(s.after.hindering_percent, 0) + " % after",
                       "add glucose syrup or invert sugar syrup as another replacement");
    if (std::fabs(s.after.sweetness_percent / s.before.sweetness_percent - 1.0) > sweetness_may_move)
        return because("sweetness would go from " + fixed(s.before.sweetness_percent, 1) + " to " +
                           fixed(s.after.sweetness_percent, 1) + " %, by more than " +
                           fixed(100.0 * sweetness_may_move, 0) + " % of itself",
                       s.after.sweetness_percent < s.before.sweetness_percent
                           ? "add something sweeter as another replacement, such as fructose or honey"
                           : "add something hardly sweet as another replacement, such as maltodextrin 10 DE");
    if (std::fabs(s.after.dry_grams / s.before.dry_grams - 1.0) > yield_may_move)
        return because("the yield without water would go from " + detail::grams_text(s.before.dry_grams) + " to " +
                           detail::grams_text(s.after.dry_grams) + ", by more than " +
                           fixed(100.0 * yield_may_move, 0) + " % of itself",
                       s.after.dry_grams < s.before.dry_grams
                           ? "add another replacement that fills, such as maltodextrin 10 DE"
                           : "add another replacement, stronger in what the old one brought");

    s.trades = detail::trades_of(s.before, s.after);
    mixture now = in_the_pan(s.plan.pan);
    now += contents_of(s.plan.off_heat);
    const auto shares = [](const mixture& m) {
        masses per_gram = m.grams;
        for (double& g : per_gram) g /= m.total();
        return per_gram;
    };
    for (const auto& amount : kept_amounts)
        s.residuals.push_back({amount.name, amount.in(shares(all)) * all.total(),
                               amount.in(shares(now)) * now.total(), amount.weight});

    std::string taken;
    for (const auto& r : s.replacements)
        taken += (taken.empty() ? "" : " and ") + detail::grams_text(r.grams) + " of " + r.name;
    s.reasons.push_back(taken + " for " + detail::grams_text(old.grams) + " of " + old.name + ".");
    for (const auto& c : s.changed)
        s.reasons.push_back(c.name + ": " + detail::grams_text(c.grams) + " for " +
                            detail::grams_text(c.grams_before) + ".");
    s.reasons.push_back("Cook to " + both_scales(s.cook.thermometer_celsius) + ", before " +
                        both_scales(s.thermometer_before_celsius) + ": at " +
                        both_scales(q.plan.serve_celsius, 0) + " it is then " + s.after.word + ", before " +
                        s.before.word + ".");
    if (!s.after.word_at_pouring.empty())
        s.reasons.push_back("At " + both_scales(q.plan.pour_celsius, 0) + " it is " + s.after.word_at_pouring +
                            ", before " + s.before.word_at_pouring + ".");
    const kept_amount* least = nullptr;  // what it lacks most, by its weight
    double most_missing = 1.0;           // 1 % of the dry mass at weight 1
    for (std::size_t i = 0; i < kept_amounts.size(); ++i) {
        const auto& r = s.residuals[i];
        const double missing = r.weight * (r.before_grams - r.after_grams) / unit;
        if (missing > most_missing) {
            most_missing = missing;
            least = &kept_amounts[i];
        }
    }
    if (least != nullptr)
        s.reasons.push_back("It lacks most in " + std::string(least->name) + "; " + std::string(least->help) +
                            " would bring it.");
    s.reasons.push_back("Sweetness from " + fixed(s.before.sweetness_percent, 1) + " to " +
                        fixed(s.after.sweetness_percent, 1) + " %, fat from " + fixed(s.before.fat_percent, 1) +
                        " to " + fixed(s.after.fat_percent, 1) + " %, risk of graining from " +
                        detail::risk_name(s.before.risk) + " to " + detail::risk_name(s.after.risk) + ".");
    return s;
}

}  // namespace sirop::core
