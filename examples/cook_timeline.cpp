// How a batch cooks over time on this hob: minutes, temperature, water, colour; as a page, JSON or a figure.
#include "figure/timeline.hpp"
#include "question.hpp"

namespace {

/// The figure of the answer to "cook_over_time".
std::string drawn(const question::json& reply) {
    sirop::figure::timeline t;
    t.title = reply.value("title", "");
    const auto& answer = reply.at("answer");
    for (const auto& row : answer.at("path")) {
        t.celsius.push_back({row.at("minutes"), row.at("celsius")});
        t.water_percent.push_back({row.at("minutes"), row.at("water_percent")});
    }
    for (const auto& row : answer.at("steps"))
        t.steps.push_back({row.at("minutes"), row.at("celsius"), row.at("says")});
    return sirop::figure::figure_of(t);
}

}  // namespace

int main(int argc, char** argv) {
    question::program app("How a batch cooks over time: heat, minutes, water, colour, and when to turn it off.",
                          "cook_timeline");
    std::string hob = "coil", steps, svg;
    double watts = 1500.0, efficiency = 0.0, pan_grams = 1000.0, opening = 200.0, ph = 0.0;
    app.add_option("--hob", hob, "gas, coil or induction")->capture_default_str();
    app.add_option("--watts", watts, "That the hob takes")
        ->capture_default_str()
        ->check(kitchen::within(50.0, 5e4));
    const auto* measured = app.add_option("--efficiency-percent", efficiency, "If you timed a pan of water")
                               ->check(kitchen::within(5.0, 100.0));
    app.add_option("--pan-grams", pan_grams)->capture_default_str()->check(kitchen::within(0.0, 1e5));
    app.add_option("--opening-millimetres", opening)->capture_default_str()->check(kitchen::within(50.0, 2000.0));
    const auto* acid = app.add_option("--ph", ph, "Of what is in the pan")->check(kitchen::within(2.0, 10.0));
    app.add_option("--steps", steps, "A JSON list, such as [{\"heat_to_celsius\": 118}, {\"hold_minutes\": 2}]");
    app.add_option("--svg", svg, "The figure to write instead of the page, or - for standard output");
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;

    question::json asked = {
        {"ask", "cook_over_time"},
        {"stove", {{"hob", hob}, {"watts", watts}, {"pan_grams", pan_grams}, {"opening_millimetres", opening}}}};
    if (measured->count() > 0) asked["stove"]["efficiency_percent"] = efficiency;
    if (acid->count() > 0) asked["ph"] = ph;
    if (!steps.empty()) {
        asked["steps"] = question::json::parse(steps, nullptr, false);
        if (asked["steps"].is_discarded())
            return kitchen::refused("--steps: is not JSON; a list of steps is accepted");
    }
    if (svg.empty()) return app.ask(asked);
    if (svg != "-" && kitchen::same_file(app.path(), svg))
        return kitchen::refused("--svg: \"" + svg + "\" is the batch file; another path is accepted");
    return app.ask(asked, {}, [&](const std::string& text) {
        const std::string figure = drawn(question::json::parse(text));
        return svg == "-" ? kitchen::print(figure) : kitchen::write_file(svg, figure);
    });
}
