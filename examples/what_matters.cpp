// What should I measure better: the temperature, the grams, the syrup?  Which input moves water and set the most.
#include "question.hpp"

int main(int argc, char** argv) {
    question::program app("Which input matters for the water and the set, and by how much.", "what_matters");
    question::numbers errors, sampling;
    const auto error = [&](const char* name, const char* what) {
        errors.add(app, name, std::string("Standard uncertainty of ").append(what), 0.0, 100.0);
    };
    error("thermometer-kelvin", "the thermometer, in °C (default 1)");
    error("pressure-hpa", "the air pressure (default 5)");
    error("weighing-grams", "each weighing (default 1; the larger of the two counts)");
    error("weighing-percent", "each weighing (default 0.5)");
    error("dextrose-equivalent", "a glucose syrup's dextrose equivalent (default 2)");
    error("syrup-solids-percent", "a syrup's solids (default 1)");
    error("fat-percent", "the fat of milk or cream (default 1)");
    sampling.add(app, "samples", "Check it by so many random batches", 2.0, 100000.0);
    sampling.add(app, "seed", "Where their random numbers begin", 0.0, 9e15);
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;

    question::json asked = {{"ask", "sensitivity"}};
    auto uncertainties = question::json::object();
    errors.into(uncertainties);
    if (!uncertainties.empty()) asked["uncertainties"] = uncertainties;
    sampling.into(asked);
    return app.ask(asked);
}
