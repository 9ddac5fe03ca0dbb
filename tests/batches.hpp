// Random batches of pantry ingredients that several tests ask about.  All invented.
#pragma once

#include <string>
#include <vector>

#include "pantry_mixtures.hpp"
#include "sirop/cooking/predict.hpp"
#include "sweep.hpp"

namespace sirop_test {

/// A syrup, caramel or sauce: sugar and syrups, perhaps dairy, perhaps additions, somewhere.
inline sirop::core::batch random_batch(random_numbers& random) {
    static const std::vector<std::string> syrups = {
        "glucose syrup 28 DE", "glucose syrup 42 DE", "glucose syrup 62 DE", "honey",
        "invert sugar syrup",  "maple syrup",         "light molasses",      "high-maltose syrup"};
    static const std::vector<std::string> dairy = {"heavy cream 36 %", "whole milk", "evaporated milk",
                                                   "coconut milk", "sweetened condensed milk"};
    static const std::vector<std::string> added = {"butter, unsalted",       "butter, salted",
                                                   "dark chocolate 60-69 %", "milk chocolate",
                                                   "heavy cream 36 %",       "raspberry puree"};
    sirop::core::batch b;
    b.title = "Random (invented)";
    b.pan.push_back(line("white sugar", random.between(50.0, 500.0)));
    b.pan.push_back(line("water", random.between(80.0, 300.0)));
    if (random.below(3) > 0)
        b.pan.push_back(line(syrups[random.below(syrups.size())], random.between(10.0, 300.0)));
    if (random.below(2) == 0)
        b.pan.push_back(line(dairy[random.below(dairy.size())], random.between(20.0, 300.0)));
    if (random.below(2) == 0) b.pan.push_back(line("salt", random.between(0.0, 6.0)));
    const double pan = sirop::core::in_the_pan(b.pan).total();
    if (random.below(2) == 0)
        b.off_heat.push_back(line(added[random.below(added.size())], pan * random.between(0.01, 0.2), 15.0));
    b.pressure_pa = random.between(75000.0, 104000.0);
    b.thermometer_error_kelvin = random.between(-3.0, 3.0);
    b.serve_celsius = random.between(2.0, 35.0);
    return b;
}

}  // namespace sirop_test
