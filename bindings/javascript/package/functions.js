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
//   numbers    const double*, n of them                    n numbers, or one for all
//   batch      sirop_batch*                                handle
//   answer     sirop_answer*                               handle
//
//   gives      in C                                        in JavaScript
//   number     double*                                     number
//   whole      int32_t*                                    number
//   range      sirop_range*                                {low, high}
//   estimate   sirop_estimate*                             {value, low, high, status, extrapolated}
//   estimates  sirop_estimate*, n of them                  the same with arrays
//   graining   sirop_graining*                             its fields
//   masses     double*, size_t                             {component: grams}, those that are not 0
//   written    char*, size_t, size_t*                      string
//   batch      sirop_batch**                               handle
//   answer     sirop_answer**                              handle
//   text       returned const char*                        string, or undefined for null
//   done       nothing but the status                      undefined
//   nothing    void                                        undefined
//
// After a name, @range is the accepted range that the argument has in sirop_accepted_range if it is not its own name,
// and =value what it is if it is not given.  A function that gives several things gives an object of them; the
// names of what it takes and gives are the header's (rows bring n, a returned text has a name of its own).

export const functions = {
    sirop_version: "-> text",
    sirop_status_text: "index status -> text",
    sirop_component_name: "index component -> text",
    sirop_accepted_range: "text argument -> range range",

    sirop_pressure_at_altitude_hpa: "number altitude_metres -> number pressure_hpa",
    sirop_pressure_from_boiling_water_hpa: "number water_boils_celsius -> number pressure_hpa",
    sirop_water_boils_celsius: "number pressure_hpa -> number celsius",

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

    sirop_ingredient_name: "index index -> text",
    sirop_ingredient_source: "text ingredient -> text",
    sirop_ingredient_estimate: "text ingredient -> text",
    sirop_ingredient_grams: "text ingredient -> masses grams",
    sirop_glucose_syrup_grams: "number dextrose_equivalent, number solids_percent -> masses grams",

    sirop_stage_table_name: "index index -> text",
    sirop_stage_table_source: "text? table -> text",
    sirop_stage_name: "text? table, index index -> text",
    sirop_stage_range_celsius: "text? table, text stage -> range celsius",
    sirop_stage_of_temperature: "text? table, number celsius, number pressure_hpa -> written out",
    sirop_stage_of_mixture: "text? table, masses grams -> written out",
    sirop_celsius_for_stage: "text? table, text stage, masses grams, number pressure_hpa -> range celsius",

    sirop_set_word: "index index -> text",
    sirop_set_word_meaning: "index index -> text",
    sirop_set_word_firmness_pa_s: "index index -> range firmness_pa_s",
    sirop_set_word_of: "number firmness_pa_s -> whole index",

    sirop_graining_at: "masses grams, number celsius@serve_celsius -> graining result",
    sirop_layers_at_equilibrium:
        "rows grams, number celsius -> estimate water_activity, estimates water_gained_grams",
    sirop_growth_limit: "index index -> text group, number water_activity",

    sirop_predict_json: "json batch, text? table -> written out",
    sirop_predict_report: "json batch, text? table -> written out",
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
    sirop_batch_predict: "batch batch, text? table -> answer answer",
    sirop_answer_free: "answer answer -> nothing",
    sirop_answer_number: "answer answer, text key -> number value",
    sirop_answer_text: "answer answer, text key -> written out",
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
