// What the cautions and notes of an answer are, for programs: a code that stays, how grave it is, and where in the
// answer its numbers stand.  The sentences are written where they are known to be true; here they are recognized.
#include <utility>

#include "json/batch_file.hpp"

namespace sirop::lib {
namespace {

/// What is known of a sentence that holds `part`; the first row that fits counts.
struct sentence {
    std::string_view part, code, severity, key;
};

constexpr std::string_view danger = "danger", caution = "caution", extrapolation = "extrapolation", note = "note";
constexpr sentence sentences[] = {
    {"sticks and burns deep", "hot_sugar_burns", danger, ""},
    {"bursts into steam", "steam_burst", danger, ""},
    {"The additions boil up", "additions_boil_up", danger, "finished.water_flashed_grams"},
    {"Risk of", "graining", caution, "graining"},
    {"added off the heat stays undissolved", "undissolved_sugar", caution, "finished.undissolved_sugar_grams"},
    {"Keeping: water activity", "keeping", caution, "keeping"},
    {"Keeping beside its neighbours", "keeping_beside_neighbours", caution, "neighbours.water_activity"},
    {"is a screening figure", "keeping_is_screening", caution, ""},
    {"of the rescued batch are not judged", "rescue_not_judged", caution, ""},
    {"Allergens, and polyols", "allergens_not_judged", caution, ""},
    {"Allergen: ", "allergen", caution, ""},
    {" may curdle", "milk_may_curdle", caution, ""},
    {"beyond 97 % solids", "beyond_97_percent_solids", extrapolation, "cooked.solids_percent"},
    {"above 170 °C", "above_170_celsius", extrapolation, "cooked.celsius"},
    {"; this pan ends at", "too_hot_for_what_is_in_it", danger, "cooked.celsius"},
    {"Alcohol burns", "alcohol_burns", danger, ""},
    {"Baking soda foams", "soda_foams", danger, ""},
    {"not for infants", "not_for_infants", danger, ""},
    {"Egg sets and curdles", "egg", caution, ""},
    {"Sugar alcohols: more", "laxative", caution, ""},
    {"Made with milk or cream", "chill_dairy", caution, "keeping"},
    {"cocoa and gelling agents", "isotherm_of_solids", note, ""},
    {"much of the water is held by", "isotherm_beyond_fit", extrapolation, ""},
    {"gels or networks of fat", "gels_are_estimates", extrapolation, "set.firmness_pa_s"},
    {"viscosities are measured", "viscosity_beyond_fit", extrapolation, "set.viscosity_pa_s"},
    {"A freezing point cannot", "no_freezing_point", note, "finished.freezing_celsius"},
    {"A supersaturation of lactose", "no_lactose_supersaturation", note, "finished.lactose_supersaturation"},
    {"A refractometer reading", "no_refractometer_reading", note, "finished.brix_of_syrup_phase"},
    {"The table is read", "table_as_it_stands", note, "stage.sea_level_celsius"},
    {"The table speaks of plain sugar", "table_of_plain_sugar", note, "stage.plain_syrup_celsius"},
    {"with the additions the syrup", "additions_beyond_model", extrapolation, "finished.syrup_solids_percent"},
    {"isomalt and maltitol", "isotherm_of_polyols", extrapolation, ""},
    {"Boiled milk protein", "milk_protein_gel", note, "set.gel_modulus_pa"},
    {"Starch: taken", "starch_taken_as_cooked", note, "set.gel_modulus_pa"},
    {"Fibre counts", "pectin_not_modelled", note, ""},
    {"Cocoa butter is taken", "cocoa_butter_taken_as_tempered", note, "set.firmness_pa_s"},
    {"Agar sets", "agar_melts_hot", note, ""},
    {"Agar: in so much sugar", "agar_in_much_sugar", note, "set.gel_modulus_pa"},
    {"Agar that is not boiled", "agar_not_boiled", note, ""},
    {"Acid turns", "inversion_not_modelled", note, ""},
    {"of the water is ice", "ice_at_serving", note, "finished.water_activity_at_serving"},
    {"More than 40 % fat", "fat_may_separate", note, "finished.fat_percent"},
    {"The cook ends when", "pour_off_at_once", note, "cooked.thermometer_celsius"},
    {"the isotherm of salt", "isotherm_beyond_fit", extrapolation, ""},
    {"the composition given replaces", "own_composition", note, ""},
    {"solids_percent is not given", "solids_assumed", note, ""},
    {" ml of ", "volume_taken_as_mass", note, ""},
    {"amounts by least squares", "amounts_by_least_squares", note, ""},
    {"The prediction is missing", "no_prediction", extrapolation, ""},
    {"Uncertainty of the inputs alone", "inputs_alone", note, ""},
    {"Water flashes off at the additions", "flash_evens_out", note, ""},
    {"Some sugar stays undissolved", "crystals_move", note, ""},
    {"Ice at serving fixes", "ice_fixes_activity", note, ""},
    {"not linear over these uncertainties", "not_linear", note, ""},
    {"samples could not be computed", "samples_not_computed", note, ""},
    {"The stove is not given", "stove_assumed", note, ""},
    {"The pH is not given", "ph_assumed", note, ""},
    {"Times rest on the hob's efficiency", "times_rest_on_the_hob", note, ""},
    {"The loss in the pan is not determined", "loss_not_determined", note, ""},
    {"As many measurements as unknowns", "fit_not_checked", note, ""},
    {"The logs scatter", "logs_scatter", note, ""},
    {"is at its bound", "fit_at_bound", note, ""},
    {"standard errors from the fit", "outlier", note, ""},
};

}  // namespace

void write_remarks(json& answer) {
    const std::string beside = answer.find("prediction") != nullptr ? "prediction." : "";
    const bool has_keys = !beside.empty() || answer.find("cooked") != nullptr;
    json& remarks = at(answer, "remarks") = json(json::list());
    for (const auto& [list, usual] : {std::pair{"cautions", caution}, std::pair{"notes", note}}) {
        std::size_t index = 0;
        for (const auto& text : *answer.find(list)->as<json::list>()) {
            sentence known{"", "other", usual, ""};
            for (const auto& one : sentences)
                if (known.part.empty() && text.as<std::string>()->find(one.part) != std::string::npos) known = one;
            json& remark = grown(remarks);
            write(remark, field{"about", std::string(list) + "." + std::to_string(index++)},
                  field{"code", known.code}, field{"severity", known.severity});
            if (has_keys && !known.key.empty()) write(remark, "key", beside + std::string(known.key));
        }
    }
}

}  // namespace sirop::lib
