// Ounces and degrees Fahrenheit in a batch file are grams and degrees Celsius.
#include <gtest/gtest.h>

#include "json/batch_file.hpp"

TEST(KitchenUnits, OuncesAndFahrenheitReadAsGramsAndCelsius) {
    const auto b = sirop::lib::read_batch(
        R"({"sirop_batch":1,"pan":[{"ingredient":"caster sugar","ounces":7},{"ingredient":"water","grams":80}],)"
        R"("cook":{"to_fahrenheit":240},"serve":{"fahrenheit":68},"store":{"fahrenheit":41},"pour":{"fahrenheit":122}})");
    ASSERT_TRUE(b) << b.why.reason;
    EXPECT_NEAR(b->pan[0].grams, 7 * 0.45359237 * 1000.0 / 16.0, 1e-9);  // sixteen to the pound
    EXPECT_NEAR(b->thermometer_celsius, 115.0 + 5.0 / 9.0, 1e-12);
    EXPECT_NEAR(b->serve_celsius, 20.0, 1e-12);
    EXPECT_NEAR(b->store_celsius, 5.0, 1e-12);
    EXPECT_NEAR(b->pour_celsius, 50.0, 1e-12);
}
