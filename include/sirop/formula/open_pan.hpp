// What the open surface of a hot pan gives up to still air.
#pragma once

#include <cmath>

#include "no_fast_math.hpp"

namespace sirop::formula {

/// Heat that leaves with the vapour of an open surface below the boil, W/m2, at the pressures of water vapour over
/// the surface (water activity times saturation pressure) and in the room, Pa.  One constant, our fit to an
/// engineering table of open water in still air at 15.6 C (the table calls itself rough): within 6 % from 45 to 99
/// C, 25 % too much at 32 C.
template <class Scalar>
Scalar evaporation_loss(const Scalar& surface_pa, double room_pa) {
    constexpr double watts_per_square_metre_pascal = 0.110;
    return watts_per_square_metre_pascal * (surface_pa - room_pa);
}

/// Heat that leaves it by radiation and convection, W/m2, by how much it is hotter than the room, K: h = 9.0 +
/// 0.055 dT, our fit to the same table, within 4 % from 32 to 99 C; hotter, continued.
template <class Scalar>
Scalar dry_surface_loss(const Scalar& above_room_kelvin) {
    return above_room_kelvin * (9.0 + 0.055 * above_room_kelvin);
}

}  // namespace sirop::formula
