// The hob, the pan and the room: what heat comes in, and what is lost.  Data, and what follows from a weighing.
#pragma once

#include <array>
#include <cmath>
#include <string_view>

#include "../base/estimate.hpp"

namespace sirop::core {

/// A kind of hob.  Efficiencies are published, second hand, and differ by a factor of two: calibrate yours by
/// timing one pan of water (hob_from_water).  The lag is that of the heat stored between flame and food, which
/// still comes when it is turned off (our estimates).
struct hob_kind {
    std::string_view name;
    double efficiency, efficiency_low, efficiency_high;
    double lag_seconds;
};
inline constexpr auto hob_kinds = std::to_array<hob_kind>(
    {{"gas", 0.40, 0.22, 0.55, 15.0}, {"coil", 0.72, 0.65, 0.80, 60.0}, {"induction", 0.84, 0.72, 0.90, 10.0}});

constexpr const hob_kind* find_hob(std::string_view name) {
    for (const auto& h : hob_kinds)
        if (h.name == name) return &h;
    return nullptr;
}

/// A pan on a hob in a room.
struct stove {
    double watts = 1500.0;  ///< that the hob takes at full
    double efficiency = 0.72, efficiency_low = 0.65, efficiency_high = 0.80;
    double lag_seconds = 30.0;
    double pan_joule_per_kelvin = 500.0;   ///< 1 kg of steel has 500, of copper 390, of aluminium 900
    double opening_square_metres = 0.031;  ///< 20 cm across
    double wall_square_metres = 0.05;      ///< bottom and sides; they lose heat when the hob is off
    double room_celsius = 20.0, room_vapour_pa = 1200.0;  ///< of the air: 50 % humidity

    double joules_per_second(double share = 1.0) const { return share * watts * efficiency; }
};

}  // namespace sirop::core
