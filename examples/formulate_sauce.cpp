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
    app.add_option("--free", free, "Ingredients whose grams are asked, by name or place")->required();
    app.add_option("--set", sets, "Up to two, as WORD@CELSIUS, such as ribbon@25 \"soft set@5\"")->expected(1, 2);
    question::numbers targets;
    targets.add(app, "sweetness-percent", "As sweet as so much sugar in all", 0.0, 200.0);
    targets.add(app, "fat-percent", "Fat in all", 0.0, 100.0);
    targets.add(app, "water-activity-at-most", "Where it is kept", 0.0, 1.0);
    app.add_option("--graining-at-most", graining, "none, low, moderate or high");
    const question::yield_options yield(app);
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;

    question::json asked = {{"ask", "formulate"}, {"free", free}};
    for (const auto& text : sets) {
        const auto set = set_at(text);
        if (!set) return kitchen::refused("--set: \"" + text + "\" is not WORD@CELSIUS, such as ribbon@25");
        asked["wanted"].push_back(*set);
    }
    targets.into(asked);
    if (!graining.empty()) asked["graining_at_most"] = graining;
    if (auto wanted = yield.wanted(); !wanted.empty()) asked["yield"] = std::move(wanted);
    return app.ask(asked);
}
