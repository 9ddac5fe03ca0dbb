/* sirop: the C API.
 *
 * Every function is reentrant, prints nothing, keeps no global state, never aborts and lets no exception out.
 * Each returns a status: 0 is fine, a positive number is a warning (the result was computed), a negative one an
 * error: NaN is then written through every pointer to a number that is not null.  The result goes through the last
 * pointer.  A look-up of a constant text returns the text itself, null where there is none.
 * A function whose name ends in _n is the same for n elements: what is one number for each of them is an array of
 * n. Each element has its status, in its result or, where the result has no room for one, in `statuses` (null: not
 * wanted); the function returns the first error, or else the worst warning.  One bad element spoils no other.
 * The unit stands in every name.  The header compiles as C99 and as C++. */
#ifndef SIROP_SIROP_H
#define SIROP_SIROP_H

#include <stddef.h>
#include <stdint.h>

#define SIROP_VERSION_MAJOR 0
#define SIROP_VERSION_MINOR 1
#define SIROP_VERSION_PATCH 0

#if defined(_WIN32) || defined(SIROP_STATIC)
#define SIROP_API
#else
#define SIROP_API __attribute__((visibility("default")))
#endif

#ifdef __cplusplus
extern "C" {
#endif

/* Status codes: numbered, published, never reused.  An unknown negative code is a general failure. */
enum {
    SIROP_OK = 0,           /* fine */
    SIROP_EXTRAPOLATED = 1, /* computed, outside the fitted range of a model */
    SIROP_E_GENERAL = -1,   /* any other failure */
    SIROP_E_RANGE = -2,     /* an argument is outside its range, infinite or not a number */
    SIROP_E_NAME = -3,      /* no such component, ingredient, table or quantity */
    SIROP_E_BUFFER = -4,    /* the buffer is too small; *needed_bytes says how large it must be; or an array of
                               masses is too short for what it would hold */
    SIROP_E_BATCH = -5,     /* the batch file is refused; the output holds the reason in one line */
    SIROP_E_NULL = -6,      /* a required pointer is null */
    SIROP_E_MEMORY = -7,    /* out of memory */
    SIROP_E_IMPOSSIBLE = -8 /* the question has no answer within the model */
};

/* The components, in the order of every array of masses. */
enum {
    SIROP_WATER,
    SIROP_SUCROSE,
    SIROP_GLUCOSE,
    SIROP_FRUCTOSE,
    SIROP_GALACTOSE,
    SIROP_LACTOSE,
    SIROP_MALTOSE,
    SIROP_MALTOTRIOSE,
    SIROP_MALTOTETRAOSE,
    SIROP_MALTOPENTAOSE,
    SIROP_MALTOHEXAOSE,
    SIROP_MALTOHEPTAOSE,
    SIROP_HIGHER_SACCHARIDES,
    SIROP_SORBITOL,
    SIROP_GLYCEROL,
    SIROP_SALT,
    SIROP_MINERALS,
    SIROP_PROTEIN,
    SIROP_STARCH,
    SIROP_FIBRE,
    SIROP_COCOA_SOLIDS,
    SIROP_FAT,
    SIROP_ACID,
    SIROP_COCOA_BUTTER,
    SIROP_VEGETABLE_FAT,
    SIROP_AGAR,
    SIROP_GELATIN,
    SIROP_ISOMALT,
    SIROP_MALTITOL,
    SIROP_ETHANOL,
    SIROP_COMPONENT_COUNT
};

/* A number with its interval and its status. */
typedef struct sirop_estimate {
    double value;
    double low;
    double high;
    int32_t status;
    int32_t reserved;
} sirop_estimate;

/* An inclusive range. */
typedef struct sirop_range {
    double low;
    double high;
} sirop_range;

/* The version of the library that runs, such as "0.1.0". */
SIROP_API const char* sirop_version(void);

/* What a status code means, in English; never null. */
SIROP_API const char* sirop_status_text(int32_t status);

/* The name of a component as the batch file writes it; null for an index that does not exist. */
SIROP_API const char* sirop_component_name(int32_t component);

/* The inclusive range that an argument accepts, such as "pressure_hpa"; sirop_argument_name(0), (1), ... lists the
 * arguments, null after the last. */
SIROP_API const char* sirop_argument_name(int32_t index);
SIROP_API int32_t sirop_accepted_range(const char* argument, sirop_range* range);

/* Pressure of the kitchen from its altitude (ISO 2533), or from the temperature at which water boils in it
 * (IAPWS-IF97), and that temperature from the pressure. */
SIROP_API int32_t sirop_pressure_at_altitude_hpa(double altitude_metres, double* pressure_hpa);
SIROP_API int32_t sirop_pressure_from_boiling_water_hpa(double water_boils_celsius, double* pressure_hpa);
SIROP_API int32_t sirop_water_boils_celsius(double pressure_hpa, double* celsius);
SIROP_API int32_t sirop_pressure_at_altitude_hpa_n(size_t n, const double* altitude_metres, int32_t* statuses,
                                                   double* pressure_hpa);
SIROP_API int32_t sirop_pressure_from_boiling_water_hpa_n(size_t n, const double* water_boils_celsius,
                                                          int32_t* statuses, double* pressure_hpa);
SIROP_API int32_t sirop_water_boils_celsius_n(size_t n, const double* pressure_hpa, int32_t* statuses,
                                              double* celsius);

/* Mixtures.  grams: the masses of the first `components` components, at least 0, not all 0; the others are 0.
 * components: 1 to SIROP_COMPONENT_COUNT.  A program passes the SIROP_COMPONENT_COUNT that it was compiled with,
 * and keeps working with a later library that knows more of them. */

/* Temperature at which the mixture boils. */
SIROP_API int32_t sirop_boiling_point_celsius(const double* grams, size_t components, double pressure_hpa,
                                              sirop_estimate* celsius);

/* Grams of water that the mixture holds when it boils at that temperature; its own water does not count. */
SIROP_API int32_t sirop_water_at_boil_grams(const double* grams, size_t components, double celsius,
                                            double pressure_hpa, sirop_estimate* water_grams);

/* Water activity of the mixture at a temperature. */
SIROP_API int32_t sirop_water_activity(const double* grams, size_t components, double celsius,
                                       sirop_estimate* activity);

/* Temperature at which ice begins to form in the mixture. */
SIROP_API int32_t sirop_freezing_point_celsius(const double* grams, size_t components, sirop_estimate* celsius);

/* The same for n mixtures: grams holds n * components numbers, the other arrays n. */
SIROP_API int32_t sirop_boiling_point_celsius_n(size_t n, const double* grams, size_t components,
                                                const double* pressure_hpa, sirop_estimate* celsius);
SIROP_API int32_t sirop_water_at_boil_grams_n(size_t n, const double* grams, size_t components,
                                              const double* celsius, const double* pressure_hpa,
                                              sirop_estimate* water_grams);
SIROP_API int32_t sirop_water_activity_n(size_t n, const double* grams, size_t components, const double* celsius,
                                         sirop_estimate* activity);
SIROP_API int32_t sirop_freezing_point_celsius_n(size_t n, const double* grams, size_t components,
                                                 sirop_estimate* celsius);

/* Properties.  Any property of the catalogue by its name, which carries its unit, such as "density_g_per_ml" or
 * "viscosity_pa_s": sirop_property_name(0), (1), ... lists them, null after the last.  Unit, source and
 * uncertainty are texts; null for an unknown name. */
SIROP_API const char* sirop_property_name(int32_t index);
SIROP_API const char* sirop_property_unit(const char* property);
SIROP_API const char* sirop_property_source(const char* property);
SIROP_API const char* sirop_property_uncertainty(const char* property);

/* The temperatures in which it is answered (inclusive), and above which solids of the syrup phase, in percent, the
 * answer is an extrapolation.  A range whose ends are equal: the property does not depend on a temperature. */
SIROP_API int32_t sirop_property_range(const char* property, sirop_range* celsius, double* fitted_solids_percent);

/* Its value for a mixture at a temperature and, where it matters, a pressure; and the same for n mixtures. */
SIROP_API int32_t sirop_property_estimate(const char* property, const double* grams, size_t components,
                                          double celsius, double pressure_hpa, sirop_estimate* result);
SIROP_API int32_t sirop_property_estimate_n(const char* property, size_t n, const double* grams, size_t components,
                                            const double* celsius, const double* pressure_hpa,
                                            sirop_estimate* results);

/* Conversions of a scale, by name such as "brix_to_density_kg_m3"; the list as for properties.  Of plain sucrose
 * at 20 C where a concentration is meant. */
SIROP_API const char* sirop_conversion_name(int32_t index);
SIROP_API int32_t sirop_convert(const char* conversion, double value, double* result);
SIROP_API int32_t sirop_convert_n(const char* conversion, size_t n, const double* values, int32_t* statuses,
                                  double* results);

/* Ingredients of the pantry: names, where each composition comes from, what in it is an estimate (may be ""), and
 * the grams of each component in 100 g.  Glucose syrups between the tabulated ones by dextrose equivalent.
 * components is as for mixtures; SIROP_E_BUFFER: the ingredient holds a component beyond them. */
SIROP_API const char* sirop_ingredient_name(int32_t index);
SIROP_API const char* sirop_ingredient_source(const char* ingredient);
SIROP_API const char* sirop_ingredient_estimate(const char* ingredient);
SIROP_API int32_t sirop_ingredient_grams(const char* ingredient, double* grams, size_t components);
SIROP_API int32_t sirop_glucose_syrup_grams(double dextrose_equivalent, double solids_percent, double* grams,
                                            size_t components);
SIROP_API int32_t sirop_glucose_syrup_grams_n(size_t n, const double* dextrose_equivalent,
                                              const double* solids_percent, int32_t* statuses, double* grams,
                                              size_t components);

/* Stages.  A table by its name, such as "us 2004"; a stage by its name in the table.  The range is of plain sugar
 * syrup at sea level. */
SIROP_API const char* sirop_stage_table_name(int32_t index);
SIROP_API const char* sirop_stage_table_source(const char* table);
SIROP_API const char* sirop_stage_name(const char* table, int32_t index);
SIROP_API int32_t sirop_stage_range_celsius(const char* table, const char* stage, sirop_range* celsius);

/* Where something lies in a table: lower and upper are indices of sirop_stage_name.  In a stage both are its
 * index; between two stages they are these two; below the first lower is -1; above a stage (the last, or the last
 * that the model reaches) upper is the count of stages.  On an error both are -1. */
typedef struct sirop_stage_place {
    int32_t lower;
    int32_t upper;
    int32_t status;
    int32_t reserved;
} sirop_stage_place;

/* The stage that a table means by a temperature in a kitchen, and the stage that a mixture is by its consistency
 * in cold water: SIROP_EXTRAPOLATED where the firmness of the mixture is. */
SIROP_API int32_t sirop_stage_of_temperature(const char* table, double celsius, double pressure_hpa,
                                             sirop_stage_place* place);
SIROP_API int32_t sirop_stage_of_temperature_n(const char* table, size_t n, const double* celsius,
                                               const double* pressure_hpa, sirop_stage_place* places);
SIROP_API int32_t sirop_stage_of_mixture(const char* table, const double* grams, size_t components,
                                         sirop_stage_place* place);
SIROP_API int32_t sirop_stage_of_mixture_n(const char* table, size_t n, const double* grams, size_t components,
                                           sirop_stage_place* places);

/* A place as a text, such as "between soft ball and firm ball"; out and needed_bytes as in sirop_predict_json. */
SIROP_API int32_t sirop_stage_place_text(const char* table, int32_t lower, int32_t upper, char* out,
                                         size_t out_bytes, size_t* needed_bytes);

/* The temperatures between which a mixture, boiled down, has the consistency of a stage; a stage that the table
 * prints as a single temperature stands for 0.6 C either way.  SIROP_EXTRAPOLATED where the firmness, or the
 * boiling point, at either end is (the viscosity of syrups: above 75 % solids). */
SIROP_API int32_t sirop_celsius_for_stage(const char* table, const char* stage, const double* grams,
                                          size_t components, double pressure_hpa, sirop_range* celsius);
SIROP_API int32_t sirop_celsius_for_stage_n(const char* table, const char* stage, size_t n, const double* grams,
                                            size_t components, const double* pressure_hpa, int32_t* statuses,
                                            sirop_range* celsius);

/* Words of the set, from the thinnest on, with their meaning and the firmness from which on each is said (the
 * property "firmness_pa_s"), and the index of the word for a firmness. */
SIROP_API const char* sirop_texture_word(int32_t index);
SIROP_API const char* sirop_texture_word_meaning(int32_t index);
SIROP_API int32_t sirop_texture_word_firmness_pa_s(int32_t index, sirop_range* firmness_pa_s);
SIROP_API int32_t sirop_texture_word_of(double firmness_pa_s, int32_t* index);
SIROP_API int32_t sirop_texture_word_of_n(size_t n, const double* firmness_pa_s, int32_t* statuses,
                                          int32_t* indices);

/* Graining of a mixture at a temperature.  struct_bytes: set it to sizeof(sirop_graining) before the call, of an
 * array in the first element; a later library fills what the caller's struct holds, and takes it for the step of
 * the array.  risk: 0 none, 1 low, 2 moderate, 3 high; -1 on an error.  Below 0 C part of the water is ice, and
 * the rest is judged at 0 C; above 89 C, where the law of lactose ends, it is judged there: both are
 * SIROP_EXTRAPOLATED. */
typedef struct sirop_graining {
    uint32_t struct_bytes;
    int32_t status;
    int32_t risk;
    int32_t reserved;
    sirop_estimate sucrose_supersaturation;
    sirop_estimate lactose_supersaturation;
    sirop_estimate crystallizable_percent; /* of the dissolved sucrose and lactose */
    double hindering_percent;              /* other sugars, of themselves and the sucrose */
} sirop_graining;
SIROP_API int32_t sirop_graining_at(const double* grams, size_t components, double celsius,
                                    sirop_graining* result);
SIROP_API int32_t sirop_graining_at_n(size_t n, const double* grams, size_t components, const double* celsius,
                                      sirop_graining* results);

/* Layers that touch, at equilibrium: grams holds layers * components numbers.  The water activity common to all,
 * and the water that each layer gains (negative: gives), `layers` results.  The same for n desserts of as many
 * layers each. */
SIROP_API int32_t sirop_layers_at_equilibrium(size_t layers, const double* grams, size_t components,
                                              double celsius, sirop_estimate* water_activity,
                                              sirop_estimate* water_gained_grams);
SIROP_API int32_t sirop_layers_at_equilibrium_n(size_t n, size_t layers, const double* grams, size_t components,
                                                const double* celsius, sirop_estimate* water_activity,
                                                sirop_estimate* water_gained_grams);

/* Keeping: the published limits of growth, from the highest on: the group (null after the last), the water
 * activity below which it does not grow, and where they were published. */
SIROP_API const char* sirop_growth_group(int32_t index);
SIROP_API int32_t sirop_growth_limit(int32_t index, double* water_activity);
SIROP_API const char* sirop_growth_limits_source(void);

/* The main job: a batch file (docs/batch-file.md) in, the answer out.
 * batch: batch_bytes bytes of UTF-8 JSON.  table: the stage table's name, null for the default "us 2004".
 * out: receives the answer, or on SIROP_E_BATCH the reason of the refusal in one line, and ends in a NUL.
 * *needed_bytes: the bytes that the whole text takes, its NUL included.  If out_bytes is less, out holds "" and
 * the status is SIROP_E_BUFFER; with out_bytes 0, out may be null.  On other errors out is left as it was, and
 * *needed_bytes is 0. */
SIROP_API int32_t sirop_predict_json(const char* batch, size_t batch_bytes, const char* table, char* out,
                                     size_t out_bytes, size_t* needed_bytes);
/* The same as a readable report for a cook: everything. */
SIROP_API int32_t sirop_predict_report(const char* batch, size_t batch_bytes, const char* table, char* out,
                                       size_t out_bytes, size_t* needed_bytes);
/* The same as a card to cook by: cautions, ingredients, where to stop, what it becomes, in some 25 lines.
 * columns: the characters at which lines wrap, 24 to 200; others are SIROP_E_RANGE. */
SIROP_API int32_t sirop_predict_card(const char* batch, size_t batch_bytes, const char* table, int32_t columns,
                                     char* out, size_t out_bytes, size_t* needed_bytes);

/* The inverse questions (docs/questions.md): to which temperature, how to rescue, what instead, and so on.  A
 * question in, the answer out, as JSON or as a report; everything else as in sirop_predict_json. */
SIROP_API int32_t sirop_ask_json(const char* question, size_t question_bytes, char* out, size_t out_bytes,
                                 size_t* needed_bytes);
SIROP_API int32_t sirop_ask_report(const char* question, size_t question_bytes, char* out, size_t out_bytes,
                                   size_t* needed_bytes);

/* A batch by calls instead of text.  A handle belongs to one thread at a time; what *_new, *_read, *_predict and
 * *_ask give has its *_free, which takes null too.  sirop_batch_read gives a handle on SIROP_E_BATCH too: an empty
 * batch, whose sirop_batch_refusal is the reason; free it as any other.  On other errors *batch is null. */
typedef struct sirop_batch sirop_batch;
enum { SIROP_PAN, SIROP_OFF_HEAT, SIROP_NEIGHBOURS };
SIROP_API int32_t sirop_batch_new(sirop_batch** batch);
SIROP_API int32_t sirop_batch_read(const char* text, size_t text_bytes, sirop_batch** batch);
SIROP_API void sirop_batch_free(sirop_batch* batch);
/* An ingredient of the pantry, or one of any composition; celsius counts off the heat only.  Names are plain text
 * on one line: others are refused with SIROP_E_NAME. */
SIROP_API int32_t sirop_batch_add(sirop_batch* batch, int32_t where, const char* ingredient, double grams,
                                  double celsius);
SIROP_API int32_t sirop_batch_add_mixture(sirop_batch* batch, int32_t where, const char* name, const double* grams,
                                          size_t components, double celsius);
/* Fields: "thermometer_celsius" (what it shows when the cook ends), "pressure_hpa", "thermometer_error_kelvin",
 * "thermometer_within_kelvin", "serve_celsius", "store_celsius", "pour_celsius".  "thermometer_celsius" must be
 * set before a prediction; sirop_batch_predict names these fields where it refuses. */
SIROP_API int32_t sirop_batch_set(sirop_batch* batch, const char* field, double value);
/* Why the last call on this handle was refused, in one line; "" if it was not.  Valid until the next call on it.
 */
SIROP_API const char* sirop_batch_refusal(const sirop_batch* batch);
/* The batch as a batch file, which sirop_batch_read reads once it has a temperature that it can be cooked to; out
 * and needed_bytes as in sirop_predict_json. */
SIROP_API int32_t sirop_batch_text(const sirop_batch* batch, char* out, size_t out_bytes, size_t* needed_bytes);

/* The prediction as a handle, to be asked by the keys of the answer, joined by dots, such as
 * "cooked.water_percent_low", "set.word", "cautions.0".  As a number, true is 1 and false is 0; null is
 * SIROP_E_IMPOSSIBLE, a text SIROP_E_NAME. */
typedef struct sirop_answer sirop_answer;
SIROP_API int32_t sirop_batch_predict(sirop_batch* batch, const char* table, sirop_answer** answer);
SIROP_API void sirop_answer_free(sirop_answer* answer);
SIROP_API int32_t sirop_answer_number(const sirop_answer* answer, const char* key, double* value);
SIROP_API int32_t sirop_answer_text(const sirop_answer* answer, const char* key, char* out, size_t out_bytes,
                                    size_t* needed_bytes);
/* How many there are under a key: elements of a list, keys of an object. */
SIROP_API int32_t sirop_answer_count(const sirop_answer* answer, const char* key, int32_t* count);
/* The whole answer as a readable report for a cook. */
SIROP_API int32_t sirop_answer_report(const sirop_answer* answer, char* out, size_t out_bytes,
                                      size_t* needed_bytes);

/* An inverse question by calls instead of text: its kind, such as "cook_for" (sirop_question_name lists them, null
 * after the last), then its keys of docs/questions.md, joined by dots, such as "wanted.water_percent",
 * "wanted.set_word", "with.0": a list grows by its next index.  A batch is copied; the question's own is "batch".
 * Setting a key again replaces it; none can be taken back.  The answer holds the keys of the JSON answer, such as
 * "answer.thermometer_celsius" and "prediction.set.word". */
typedef struct sirop_question sirop_question;
SIROP_API const char* sirop_question_name(int32_t index);
SIROP_API int32_t sirop_question_new(const char* kind, sirop_question** question);
SIROP_API void sirop_question_free(sirop_question* question);
SIROP_API int32_t sirop_question_set_number(sirop_question* question, const char* key, double value);
SIROP_API int32_t sirop_question_set_truth(sirop_question* question, const char* key, int32_t yes);
SIROP_API int32_t sirop_question_set_text(sirop_question* question, const char* key, const char* text);
SIROP_API int32_t sirop_question_set_batch(sirop_question* question, const char* key, const sirop_batch* batch);
SIROP_API int32_t sirop_question_ask(sirop_question* question, sirop_answer** answer);
/* As sirop_batch_refusal. */
SIROP_API const char* sirop_question_refusal(const sirop_question* question);

#ifdef __cplusplus
}
#endif

#endif
