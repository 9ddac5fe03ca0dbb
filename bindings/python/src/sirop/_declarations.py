"""Made by make_generated.py from sirop.h: the functions of the C API and its status codes."""

import re

FUNCTIONS = {re.search(r"(\w+)\(", one)[1]: " ".join(one.split()) for one in """
const char* sirop_version(void);
const char* sirop_status_text(int32_t status);
const char* sirop_component_name(int32_t component);
const char* sirop_argument_name(int32_t index);
int32_t sirop_accepted_range(const char* argument, sirop_range* range);
int32_t sirop_pressure_at_altitude_hpa(double altitude_metres, double* pressure_hpa);
int32_t sirop_pressure_from_boiling_water_hpa(double water_boils_celsius, double* pressure_hpa);
int32_t sirop_water_boils_celsius(double pressure_hpa, double* celsius);
int32_t sirop_pressure_at_altitude_hpa_n(size_t n, const double* altitude_metres, int32_t* statuses, double*
    pressure_hpa);
int32_t sirop_pressure_from_boiling_water_hpa_n(size_t n, const double* water_boils_celsius, int32_t* statuses,
    double* pressure_hpa);
int32_t sirop_water_boils_celsius_n(size_t n, const double* pressure_hpa, int32_t* statuses, double* celsius);
int32_t sirop_boiling_point_celsius(const double* grams, size_t components, double pressure_hpa, sirop_estimate*
    celsius);
int32_t sirop_water_at_boil_grams(const double* grams, size_t components, double celsius, double pressure_hpa,
    sirop_estimate* water_grams);
int32_t sirop_water_activity(const double* grams, size_t components, double celsius, sirop_estimate* activity);
int32_t sirop_freezing_point_celsius(const double* grams, size_t components, sirop_estimate* celsius);
int32_t sirop_boiling_point_celsius_n(size_t n, const double* grams, size_t components, const double* pressure_hpa,
    sirop_estimate* celsius);
int32_t sirop_water_at_boil_grams_n(size_t n, const double* grams, size_t components, const double* celsius, const
    double* pressure_hpa, sirop_estimate* water_grams);
int32_t sirop_water_activity_n(size_t n, const double* grams, size_t components, const double* celsius,
    sirop_estimate* activity);
int32_t sirop_freezing_point_celsius_n(size_t n, const double* grams, size_t components, sirop_estimate* celsius);
const char* sirop_property_name(int32_t index);
const char* sirop_property_unit(const char* property);
const char* sirop_property_source(const char* property);
const char* sirop_property_uncertainty(const char* property);
int32_t sirop_property_range(const char* property, sirop_range* celsius, double* fitted_solids_percent);
int32_t sirop_property_estimate(const char* property, const double* grams, size_t components, double celsius, double
    pressure_hpa, sirop_estimate* result);
int32_t sirop_property_estimate_n(const char* property, size_t n, const double* grams, size_t components, const
    double* celsius, const double* pressure_hpa, sirop_estimate* results);
const char* sirop_conversion_name(int32_t index);
int32_t sirop_convert(const char* conversion, double value, double* result);
int32_t sirop_convert_n(const char* conversion, size_t n, const double* values, int32_t* statuses, double* results);
const char* sirop_ingredient_name(int32_t index);
const char* sirop_ingredient_source(const char* ingredient);
const char* sirop_ingredient_estimate(const char* ingredient);
int32_t sirop_ingredient_grams(const char* ingredient, double* grams, size_t components);
int32_t sirop_glucose_syrup_grams(double dextrose_equivalent, double solids_percent, double* grams, size_t
    components);
int32_t sirop_glucose_syrup_grams_n(size_t n, const double* dextrose_equivalent, const double* solids_percent,
    int32_t* statuses, double* grams, size_t components);
const char* sirop_stage_table_name(int32_t index);
const char* sirop_stage_table_source(const char* table);
const char* sirop_stage_name(const char* table, int32_t index);
int32_t sirop_stage_range_celsius(const char* table, const char* stage, sirop_range* celsius);
int32_t sirop_stage_of_temperature(const char* table, double celsius, double pressure_hpa, sirop_stage_place* place);
int32_t sirop_stage_of_temperature_n(const char* table, size_t n, const double* celsius, const double* pressure_hpa,
    sirop_stage_place* places);
int32_t sirop_stage_of_mixture(const char* table, const double* grams, size_t components, sirop_stage_place* place);
int32_t sirop_stage_of_mixture_n(const char* table, size_t n, const double* grams, size_t components,
    sirop_stage_place* places);
int32_t sirop_stage_place_text(const char* table, int32_t lower, int32_t upper, char* out, size_t out_bytes, size_t*
    needed_bytes);
int32_t sirop_celsius_for_stage(const char* table, const char* stage, const double* grams, size_t components, double
    pressure_hpa, sirop_range* celsius);
int32_t sirop_celsius_for_stage_n(const char* table, const char* stage, size_t n, const double* grams, size_t
    components, const double* pressure_hpa, int32_t* statuses, sirop_range* celsius);
const char* sirop_texture_word(int32_t index);
const char* sirop_texture_word_meaning(int32_t index);
int32_t sirop_texture_word_firmness_pa_s(int32_t index, sirop_range* firmness_pa_s);
int32_t sirop_texture_word_of(double firmness_pa_s, int32_t* index);
int32_t sirop_texture_word_of_n(size_t n, const double* firmness_pa_s, int32_t* statuses, int32_t* indices);
int32_t sirop_graining_at(const double* grams, size_t components, double celsius, sirop_graining* result);
int32_t sirop_graining_at_n(size_t n, const double* grams, size_t components, const double* celsius, sirop_graining*
    results);
int32_t sirop_layers_at_equilibrium(size_t layers, const double* grams, size_t components, double celsius,
    sirop_estimate* water_activity, sirop_estimate* water_gained_grams);
int32_t sirop_layers_at_equilibrium_n(size_t n, size_t layers, const double* grams, size_t components, const double*
    celsius, sirop_estimate* water_activity, sirop_estimate* water_gained_grams);
const char* sirop_growth_group(int32_t index);
int32_t sirop_growth_limit(int32_t index, double* water_activity);
const char* sirop_growth_limits_source(void);
int32_t sirop_predict_json(const char* batch, size_t batch_bytes, const char* table, char* out, size_t out_bytes,
    size_t* needed_bytes);
int32_t sirop_predict_report(const char* batch, size_t batch_bytes, const char* table, char* out, size_t out_bytes,
    size_t* needed_bytes);
int32_t sirop_ask_json(const char* question, size_t question_bytes, char* out, size_t out_bytes, size_t*
    needed_bytes);
int32_t sirop_ask_report(const char* question, size_t question_bytes, char* out, size_t out_bytes, size_t*
    needed_bytes);
int32_t sirop_batch_new(sirop_batch** batch);
int32_t sirop_batch_read(const char* text, size_t text_bytes, sirop_batch** batch);
void sirop_batch_free(sirop_batch* batch);
int32_t sirop_batch_add(sirop_batch* batch, int32_t where, const char* ingredient, double grams, double celsius);
int32_t sirop_batch_add_mixture(sirop_batch* batch, int32_t where, const char* name, const double* grams, size_t
    components, double celsius);
int32_t sirop_batch_set(sirop_batch* batch, const char* field, double value);
const char* sirop_batch_refusal(const sirop_batch* batch);
int32_t sirop_batch_text(const sirop_batch* batch, char* out, size_t out_bytes, size_t* needed_bytes);
int32_t sirop_batch_predict(sirop_batch* batch, const char* table, sirop_answer** answer);
void sirop_answer_free(sirop_answer* answer);
int32_t sirop_answer_number(const sirop_answer* answer, const char* key, double* value);
int32_t sirop_answer_text(const sirop_answer* answer, const char* key, char* out, size_t out_bytes, size_t*
    needed_bytes);
int32_t sirop_answer_count(const sirop_answer* answer, const char* key, int32_t* count);
int32_t sirop_answer_report(const sirop_answer* answer, char* out, size_t out_bytes, size_t* needed_bytes);
const char* sirop_question_name(int32_t index);
int32_t sirop_question_new(const char* kind, sirop_question** question);
void sirop_question_free(sirop_question* question);
int32_t sirop_question_set_number(sirop_question* question, const char* key, double value);
int32_t sirop_question_set_truth(sirop_question* question, const char* key, int32_t yes);
int32_t sirop_question_set_text(sirop_question* question, const char* key, const char* text);
int32_t sirop_question_set_batch(sirop_question* question, const char* key, const sirop_batch* batch);
int32_t sirop_question_ask(sirop_question* question, sirop_answer** answer);
const char* sirop_question_refusal(const sirop_question* question);
""".split(";\n") if one}

CODES = {
    "OK": 0,
    "EXTRAPOLATED": 1,
    "E_GENERAL": -1,
    "E_RANGE": -2,
    "E_NAME": -3,
    "E_BUFFER": -4,
    "E_BATCH": -5,
    "E_NULL": -6,
    "E_MEMORY": -7,
    "E_IMPOSSIBLE": -8,
}
