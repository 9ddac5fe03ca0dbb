// To which temperature is this batch cooked in another kitchen, or with another thermometer?
#include "question.hpp"

int main(int argc, char** argv) {
    question::program app("The same batch in another kitchen: the temperature that leaves the same water.",
                          "other_kitchen");
    question::numbers there;
    auto* place = app.add_option_group("there", "the other kitchen; at most one, as in the batch if missing");
    const auto& p = sirop::core::pressure_limit;
    const auto& a = sirop::core::altitude_limit;
    const auto& w = sirop::core::water_boils_limit;
    there.add(*place, "pressure-hpa", "Its air pressure", p.low, p.high);
    there.add(*place, "altitude-metres", "Its altitude", a.low, a.high);
    there.add(*place, "altitude-feet", "Its altitude", -1640.0, 29527.0);
    there.add(*place, "water-boils-celsius", "Where water really boils there", w.low, w.high);
    place->require_option(0, 1);
    there.add(app, "thermometer-reads-in-boiling-water-celsius",
              "What the thermometer there shows in boiling water", 0.0, 200.0);
    there.add(app, "thermometer-within-celsius", "To what the thermometer there is right, either way", 0.0, 20.0);
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;

    auto to = question::json::object();
    there.into(to);
    return app.ask({{"ask", "travel"}, {"to", to}});
}
