// A user's C++ program: the boiling point of an 80 % sugar syrup.
#include <cstdio>
#include <sirop/sirop.hpp>

int main() {
    sirop::mixture syrup(
        {{sirop::component::sucrose, sirop::grams(80)}, {sirop::component::water, sirop::grams(20)}});
    auto boils = syrup.boiling_point(sirop::hectopascals(1013.25));
    double celsius = sirop::in_celsius(boils.value);
    std::printf("boils at %.2f C\n", celsius);
    return celsius > 108 && celsius < 111 ? 0 : 1;
}
