// The answer to the main job, as data: what predict finds of a batch, from the pan to the shelf.
#pragma once

#include <string>
#include <vector>

#include "../stability/graining.hpp"
#include "../stability/keeping.hpp"
#include "../stability/neighbours.hpp"
#include "../texture/serving.hpp"

namespace sirop::core {

/// The pan at the end of the cook.
struct cooked_state {
    double celsius = not_a_number;              ///< real temperature at which the cook ends
    double thermometer_celsius = not_a_number;  ///< what the cook's thermometer shows then
    double pressure_pa = not_a_number;
    double water_boils_celsius = not_a_number;
    double water_activity = not_a_number;  ///< fixed by temperature and pressure
    double starts_to_boil_celsius = not_a_number;
    double highest_celsius = not_a_number;  ///< the end of the model for this pan
    estimate water_percent, solids_percent, grams, water_boiled_off_grams;
    mixture contents;
};

/// The batch with its additions in.
struct finished_state {
    estimate grams, water_percent, fat_percent, water_flashed_grams, water_activity_at_serving,
        syrup_solids_percent, brix_of_syrup_phase, glass_transition_celsius, freezing_celsius, millilitres;
    double mixed_celsius = not_a_number;  ///< where the additions bring the batch
    double sucrose_supersaturation = not_a_number, lactose_supersaturation = not_a_number;  ///< at serving
    double undissolved_sugar_grams = 0.0;
    mixture contents;
    mixture at_serving;  ///< with the ice that has formed
};

struct stage_answer {
    std::string table;
    std::string by_temperature;  ///< the table, read at this pressure
    std::string by_consistency;  ///< the plain syrup that is as stiff as what is in the pan
    double sea_level_celsius = not_a_number;
    double plain_syrup_celsius = not_a_number;  ///< where plain syrup at sea level has this consistency
    std::string finished_by_consistency;        ///< the same after the additions
};

/// What a spoonful of cold milk stirred into the finished batch makes of it.
struct loosening {
    double milk_grams = not_a_number;
    estimate log10_firmness;  ///< Pa s
    std::string word;
};

/// One change of a batch that brings its risk of graining down to low.
struct way_to_clear {
    std::string change;  ///< "glucose syrup", "invert sugar" or "more water"
    double grams = not_a_number;
    double thermometer_celsius = not_a_number;  ///< at which the changed batch is cooked
    std::string sentence;
};

struct prediction {
    std::string title;
    mixture pan;
    double pan_grams = 0.0, off_heat_grams = 0.0;
    double thermometer_within_kelvin = 0.0;
    cooked_state cooked;
    finished_state finished;
    stage_answer stage;
    set_answer set;
    loosening with_milk;
    graining graining_at_serving, graining_in_storage;
    keeping keeping_in_storage;
    std::vector<way_to_clear> ways_to_clear;  ///< empty where the risk is none or low
    neighbours_answer neighbours;             ///< no layers if none were given
    grade status = grade::fine;               ///< the worst of water, activity and viscosity
    std::vector<std::string> cautions, notes;
};

/// Mass percent of a part.
inline double percent(double part, double whole) {
    return 100.0 * part / whole;
}

}  // namespace sirop::core
