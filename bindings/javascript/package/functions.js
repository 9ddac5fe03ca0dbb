// Every function of the C API: what it takes, under the names of the C header, and what it gives.  From this table
// the calls are made; the test compares it with the header.
//
//   takes      in C                                        in JavaScript
//   number     double                                      number
//   index      int32_t                                     whole number
//   text       const char*                                 string
//   text?      const char*, may be null                    string or undefined
//   json       const char*, size_t                         object, or its text in JSON
//   masses     const double*, size_t                       masses of one mixture
//   rows       size_t, const double*, size_t               masses of n mixtures
//   desserts   size_t, size_t, const double*, size_t       as many layers for each of n desserts
//   many       size_t, const double*                       n numbers, or one for all
//   numbers    const double*, n of them                    n numbers, or one for all
//   truth      int32_t                                     boolean
//   batch      sirop_batch*                                handle
//   question   sirop_question*                             handle
//   answer     sirop_answer*                               handle
//
//   gives      in C                                        in JavaScript
//   number     double*                                     number
//   whole      int32_t*                                    number
//   range      sirop_range*                                {low, high}
//   estimate   sirop_estimate*                             {value, low, high, status, extrapolated}
//   estimates  sirop_estimate*, n of them                  the same with arrays
//   gains      sirop_estimate*, one for each layer         the same
//   graining   sirop_graining*                             its fields
//   grainings  sirop_graining*, n of them                  a list of them
//   place      sirop_stage_place*                          {lower, upper, name, status, extrapolated}
//   places     sirop_stage_place*, n of them               the same with arrays, without the names
//   values     int32_t*, double*, n of each                {value, status}, arrays
//   wholes     int32_t*, int32_t*, n of each               the same
//   ranges     int32_t*, sirop_range*, n of each           {low, high, status}, arrays
//   masses     double*, size_t                             {component: grams}, those that are not 0
//   syrups     int32_t*, double*, size_t                   {grams, status}, arrays; each syrup has all components
//   written    char*, size_t, size_t*                      string
//   batch      sirop_batch**                               handle
//   question   sirop_question**                            handle
//   answer     sirop_answer**                              handle
//   text       returned const char*                        string, or undefined for null
//   done       nothing but the status                      undefined
//   nothing    void                                        undefined
//
// After a name, @range is the accepted range that the argument has in sirop_accepted_range if it is not its own name,
// and =value what it is if it is not given.  A function that gives several things gives an object of them; the
// names of what it takes and gives are the header's.  rows and desserts say what n is; where neither is taken, it is
// the length of the first list of numbers.

export const functions = {
    sirop_version: "-> text",
    sirop_status_text: "index status -> text",
    sirop_component_name: "index component -> text",
    sirop_argument_name: "index index -> text",
    sirop_accepted_range: "text argument -> range range",

    sirop_pressure_at_altitude_hpa: "number altitude_metres -> number pressure_hpa",
    sirop_pressure_from_boiling_water_hpa: "number water_boils_celsius -> number pressure_hpa",
    sirop_water_boils_celsius: "number pressure_hpa -> number celsius",
    sirop_pressure_at_altitude_hpa_n: "many altitude_metres -> values pressure_hpa",
    sirop_pressure_from_boiling_water_hpa_n: "many water_boils_celsius -> values pressure_hpa",
    sirop_water_boils_celsius_n: "many pressure_hpa -> values celsius",

    sirop_boiling_point_celsius: "masses grams, number pressure_hpa -> estimate celsius",
    sirop_water_at_boil_grams: "masses grams, number celsius, number pressure_hpa -> estimate water_grams",
    sirop_water_activity: "masses grams, number celsius -> estimate activity",
    sirop_freezing_point_celsius: "masses grams -> estimate celsius",

    sirop_boiling_point_celsius_n: "rows grams, numbers pressure_hpa -> estimates celsius",
    sirop_water_at_boil_grams_n: "rows grams, numbers celsius, numbers pressure_hpa -> estimates water_grams",
    sirop_water_activity_n: "rows grams, numbers celsius -> estimates activity",
    sirop_freezing_point_celsius_n: "rows grams -> estimates celsius",

    sirop_property_name: "index index -> text",
    sirop_property_unit: "text property -> text",
    sirop_property_source: "text property -> text",
    sirop_property_uncertainty: "text property -> text",
    sirop_property_range: "text property -> range celsius, number fitted_solids_percent",
    sirop_property_estimate: "text property, masses grams, number celsius, number pressure_hpa -> estimate result",
    sirop_property_estimate_n:
        "text property, rows grams, numbers celsius, numbers pressure_hpa -> estimates results",

    sirop_conversion_name: "index index -> text",
    sirop_convert: "text conversion, number value -> number result",
    sirop_convert_n: "text conversion, many values -> values results",

    sirop_ingredient_name: "index index -> text",
    sirop_ingredient_source: "text ingredient -> text",
    sirop_ingredient_estimate: "text ingredient -> text",
    sirop_ingredient_grams: "text ingredient -> masses grams",
    sirop_glucose_syrup_grams: "number dextrose_equivalent, number solids_percent -> masses grams",
    sirop_glucose_syrup_grams_n: "many dextrose_equivalent, numbers solids_percent -> syrups grams",

    sirop_stage_table_name: "index index -> text",
    sirop_stage_table_source: "text? table -> text",
    sirop_stage_name: "text? table, index index -> text",
    sirop_stage_range_celsius: "text? table, text stage -> range celsius",
    sirop_stage_of_temperature: "text? table, number celsius, number pressure_hpa -> place place",
    sirop_stage_of_temperature_n: "text? table, many celsius, numbers pressure_hpa -> places places",
    sirop_stage_of_mixture: "text? table, masses grams -> place place",
    sirop_stage_of_mixture_n: "text? table, rows grams -> places places",
    sirop_stage_place_text: "text? table, index lower, index upper -> written out",
    sirop_celsius_for_stage: "text? table, text stage, masses grams, number pressure_hpa -> range celsius",
    sirop_celsius_for_stage_n: "text? table, text stage, rows grams, numbers pressure_hpa -> ranges celsius",

    sirop_texture_word: "index index -> text",
    sirop_texture_word_meaning: "index index -> text",
    sirop_texture_word_firmness_pa_s: "index index -> range firmness_pa_s",
    sirop_texture_word_of: "number firmness_pa_s -> whole index",
    sirop_texture_word_of_n: "many firmness_pa_s -> wholes indices",

    sirop_graining_at: "masses grams, number celsius@serve_celsius -> graining result",
    sirop_graining_at_n: "rows grams, numbers celsius@serve_celsius -> grainings results",
    sirop_layers_at_equilibrium:
        "rows grams, number celsius@layers_celsius -> estimate water_activity, estimates water_gained_grams",
    sirop_layers_at_equilibrium_n:
        "desserts grams, numbers celsius@layers_celsius -> estimates water_activity, gains water_gained_grams",
    sirop_growth_group: "index index -> text",
    sirop_growth_limit: "index index -> number water_activity",
    sirop_growth_limits_source: "-> text",

    sirop_predict_json: "json batch, text? table -> written out",
    sirop_predict_report: "json batch, text? table -> written out",
    sirop_predict_card: "json batch, text? table, index columns -> written out",
    sirop_ask_json: "json question -> written out",
    sirop_ask_report: "json question -> written out",

    sirop_batch_new: "-> batch batch",
    sirop_batch_read: "json text -> batch batch",
    sirop_batch_free: "batch batch -> nothing",
    sirop_batch_add: "batch batch, index where, text ingredient, number grams, number celsius@added_celsius=20 -> done",
    sirop_batch_add_mixture:
        "batch batch, index where, text name, masses grams, number celsius@added_celsius=20 -> done",
    sirop_batch_set: "batch batch, text field, number value -> done",
    sirop_batch_refusal: "batch batch -> text",
    sirop_batch_text: "batch batch -> written out",
    sirop_batch_predict: "batch batch, text? table -> answer answer",
    sirop_answer_free: "answer answer -> nothing",
    sirop_answer_number: "answer answer, text key -> number value",
    sirop_answer_text: "answer answer, text key -> written out",
    sirop_answer_count: "answer answer, text key -> whole count",
    sirop_answer_report: "answer answer -> written out",

    sirop_question_name: "index index -> text",
    sirop_question_new: "text kind -> question question",
    sirop_question_free: "question question -> nothing",
    sirop_question_set_number: "question question, text key, number value -> done",
    sirop_question_set_truth: "question question, text key, truth yes -> done",
    sirop_question_set_text: "question question, text key, text text -> done",
    sirop_question_set_batch: "question question, text key, batch batch -> done",
    sirop_question_ask: "question question -> answer answer",
    sirop_question_refusal: "question question -> text",
};

/** water_boils_celsius -> waterBoilsCelsius */
export function camel(name) {
    return name.replace(/_([a-z0-9])/g, (_, letter) => letter.toUpperCase());
}

/** The JavaScript name of a C function: sirop_water_activity -> waterActivity */
export function publicName(name) {
    return camel(name.replace(/^sirop_/, ""));
}

function parts(list) {
    return [...list.matchAll(/([a-z]+\??)(?: ([a-z_0-9]+))?(?:@([a-z_]+))?(?:=([\d.]+))?/g)]
        .map(([, kind, name = "", range = name, preset]) =>
            ({kind, name, label: camel(name), range, preset: preset === undefined ? undefined : Number(preset)}));
}

const signatures = new Map(Object.entries(functions).map(([name, row]) => {
    const [takes, gives] = row.split("->").map(parts);
    return [name, {takes, gives}];
}));

/** A row of the table, taken apart: {takes: [{kind, name, label, range, preset}], gives: [...]}. */
export function signature(name) {
    return signatures.get(name);
}
