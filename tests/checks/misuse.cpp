// Compiles as it stands; with SIROP_MISUSE 1, 2 or 3 it must not, and the message must hold our sentence.
#include <sirop/sirop.hpp>

int main() {
    using namespace sirop;
    const mixture syrup{{component::sucrose, grams(80)}, {component::water, grams(20)}};
#if SIROP_MISUSE == 1
    return syrup.boiling_point(1013.25).computed();
#elif SIROP_MISUSE == 2
    return syrup.activity(celsius_degrees(25)).computed();
#elif SIROP_MISUSE == 3
    return syrup.water_at_boil(118.0, hectopascals(1013.25)).computed();
#else
    return syrup.boiling_point(hectopascals(1013.25)).computed() ? 0 : 1;
#endif
}
