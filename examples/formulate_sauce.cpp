// From a list of ingredients and what the sauce shall be, to grams: the batch file's grams are kept, or, of the
// free ones, where the search starts.
#include "question.hpp"

namespace {

/// "ribbon@25": a word of the set at a temperature in C.
std::optional<question::json> set_at(const std::string& text) {
    const auto at = text.rfind('@');
    if (at == std::string::npos) return std::nullopt;
    double celsius = 0.0;
    const auto [stop, problem] = std::from_chars(text.data() + at + 1, text.data() + text.size(), celsius);
    if (problem != std::errc() || stop != text.data() + text.size()) return std::nullopt;
    return question::json{{"set_word", text.substr(0, at)}, {"celsius", celsius}};
}

}  // namespace

int main(int argc, char** argv) {
    question::program app("Grams and a cook temperature for a sauce that pours here, holds there, and keeps.",
                          "formulate_sauce");
    std::string graining;
    std::vector<std::string> free, sets;
    double sweetness = 0.0, fat = 0.0, activity = 0.0, grams = 0.0, millilitres = 0.0, portions = 0.0, each = 0.0;
    app.add_option("--free", free, "Ingredients whose grams are asked, by name or place")->required();
    app.add_option("--set", sets, "Up to two, as WORD@CELSIUS, such as ribbon@25 \"soft set@5\"")->expected(1, 2);
    const auto number = [&](const char* name, double& into, const char* what, double high) {
        return app.add_option(name, into, what)->check(kitchen::within(0.0, high));
    };
    const auto* with_sweetness =
        number("--sweetness-percent", sweetness, "As sweet as so much sugar in all", 200.0);
    const auto* with_fat = number("--fat-percent", fat, "Fat in all", 100.0);
    const auto* with_activity = number("--water-activity-at-most", activity, "Where it is kept", 1.0);
    app.add_option("--graining-at-most", graining, "none, low, moderate or high");
    const auto* with_grams = number("--grams", grams, "The yield", 1e9);
    const auto* with_millilitres = number("--millilitres", millilitres, "The yield", 1e9);
    auto* with_portions = number("--portions", portions, "The yield", 1e6);
    auto* with_each = number("--grams-per-portion", each, "Of the yield", 1e6);
    with_portions->needs(with_each);
    with_each->needs(with_portions);
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;

    question::json asked = {{"ask", "formulate"}, {"free", free}};
    for (const auto& text : sets) {
        const auto set = set_at(text);
        if (!set) return kitchen::refused("--set: \"" + text + "\" is not WORD@CELSIUS, such as ribbon@25");
        asked["wanted"].push_back(*set);
    }
    if (with_sweetness->count() > 0) asked["sweetness_percent"] = sweetness;
    if (with_fat->count() > 0) asked["fat_percent"] = fat;
    if (with_activity->count() > 0) asked["water_activity_at_most"] = activity;
    if (!graining.empty()) asked["graining_at_most"] = graining;
    if (with_grams->count() > 0) asked["yield"]["grams"] = grams;
    if (with_millilitres->count() > 0) asked["yield"]["millilitres"] = millilitres;
    if (with_portions->count() > 0) {
        asked["yield"]["portions"] = portions;
        asked["yield"]["grams_per_portion"] = each;
    }
    return app.ask(asked);
}
