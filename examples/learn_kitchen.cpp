// What do my cooks so far say of my thermometer and my pan?  One batch, cooked several times and weighed.
#include "question.hpp"

namespace {

/// "107=468": what the thermometer showed, and what was measured then.
std::optional<std::pair<double, double>> reading(const std::string& text) {
    std::pair<double, double> two;
    const char* const end = text.data() + text.size();
    const auto [middle, problem] = std::from_chars(text.data(), end, two.first);
    if (problem != std::errc() || middle == end || *middle != '=') return std::nullopt;
    const auto [stop, other] = std::from_chars(middle + 1, end, two.second);
    if (other != std::errc() || stop != end) return std::nullopt;
    return two;
}

}  // namespace

int main(int argc, char** argv) {
    question::program app("Thermometer error and loss in the pan, from cooks of one batch that were measured.",
                          "learn_kitchen", "The batch file that was cooked, or - for standard input");
    std::vector<std::string> weighed, brix;
    app.add_option("--weighed", weighed,
                   "Cooks as CELSIUS=GRAMS: what the thermometer showed, and what came out of the pan");
    app.add_option("--brix", brix, "Cooks as CELSIUS=BRIX, read at 20 °C");
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;

    std::vector<std::tuple<const char*, double, double>> cooks;
    for (const auto& [key, texts] : {std::pair{"grams", &weighed}, std::pair{"brix", &brix}})
        for (const auto& text : *texts) {
            const auto two = reading(text);
            if (!two) return kitchen::refused("\"" + text + "\" is not CELSIUS=NUMBER, such as 107.5=468");
            cooks.emplace_back(key, two->first, two->second);
        }
    return app.ask({{"ask", "learn_kitchen"}}, [&](question::json& asked, const question::json& batch) {
        asked["logs"] = question::json::array();
        for (const auto& [key, celsius, measured] : cooks) {
            auto cooked = batch;
            if (!cooked.is_object() || !cooked["cook"].is_object()) return;  // the library says why it is refused
            cooked["cook"].erase("to_fahrenheit");
            cooked["cook"]["to_celsius"] = celsius;
            asked["logs"].push_back({{"batch", cooked}, {key, measured}});
        }
    });
}
