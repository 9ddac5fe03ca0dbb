// sirop in JavaScript.  Types and explanations: index.d.ts.  Safety: hot sugar burns and steam bursts; a program
// that tells people what to do shows them the answer's cautions.
import {bind, componentNames, load, onExtrapolated, shown} from "./engine.js";
import {OutOfRangeError, UnknownNameError} from "./errors.js";

export {BatchRefusedError, BufferTooSmallError, GeneralError, ImpossibleError, MissingArgumentError, OutOfMemoryError,
    OutOfRangeError, SiropError, UnknownNameError} from "./errors.js";
export {onExtrapolated};

let loading;

/** Loads the module, once; afterwards every other function is at hand. */
export function init(source) {
    const begun = (loading ?? Promise.resolve()).then(() => load(source)).then(version);
    loading = begun.catch(() => undefined);
    return begun;
}

// --- the functions of the C API, one each ---------------------------------------------------------------------------

export const version = bind("sirop_version");
export const statusText = bind("sirop_status_text");
export const componentName = bind("sirop_component_name");
export const argumentName = bind("sirop_argument_name");
export const acceptedRange = bind("sirop_accepted_range");

export const pressureAtAltitudeHpa = bind("sirop_pressure_at_altitude_hpa");
export const pressureFromBoilingWaterHpa = bind("sirop_pressure_from_boiling_water_hpa");
export const waterBoilsCelsius = bind("sirop_water_boils_celsius");
export const pressureAtAltitudeHpaN = bind("sirop_pressure_at_altitude_hpa_n");
export const pressureFromBoilingWaterHpaN = bind("sirop_pressure_from_boiling_water_hpa_n");
export const waterBoilsCelsiusN = bind("sirop_water_boils_celsius_n");

export const boilingPointCelsius = bind("sirop_boiling_point_celsius");
export const waterAtBoilGrams = bind("sirop_water_at_boil_grams");
export const waterActivity = bind("sirop_water_activity");
export const freezingPointCelsius = bind("sirop_freezing_point_celsius");

export const boilingPointCelsiusN = bind("sirop_boiling_point_celsius_n");
export const waterAtBoilGramsN = bind("sirop_water_at_boil_grams_n");
export const waterActivityN = bind("sirop_water_activity_n");
export const freezingPointCelsiusN = bind("sirop_freezing_point_celsius_n");

export const propertyName = bind("sirop_property_name");
export const propertyUnit = bind("sirop_property_unit");
export const propertySource = bind("sirop_property_source");
export const propertyUncertainty = bind("sirop_property_uncertainty");
export const propertyRange = bind("sirop_property_range");
export const propertyEstimate = bind("sirop_property_estimate");
export const propertyEstimateN = bind("sirop_property_estimate_n");

export const conversionName = bind("sirop_conversion_name");
export const convert = bind("sirop_convert");
export const convertN = bind("sirop_convert_n");

export const ingredientName = bind("sirop_ingredient_name");
export const ingredientSource = bind("sirop_ingredient_source");
export const ingredientEstimate = bind("sirop_ingredient_estimate");
export const ingredientGrams = bind("sirop_ingredient_grams");
export const glucoseSyrupGrams = bind("sirop_glucose_syrup_grams");
export const glucoseSyrupGramsN = bind("sirop_glucose_syrup_grams_n");

export const stageTableName = bind("sirop_stage_table_name");
export const stageTableSource = bind("sirop_stage_table_source");
export const stageName = bind("sirop_stage_name");
export const stageRangeCelsius = bind("sirop_stage_range_celsius");
export const stageOfTemperature = bind("sirop_stage_of_temperature");
export const stageOfTemperatureN = bind("sirop_stage_of_temperature_n");
export const stageOfMixture = bind("sirop_stage_of_mixture");
export const stageOfMixtureN = bind("sirop_stage_of_mixture_n");
export const stagePlaceText = bind("sirop_stage_place_text");
export const celsiusForStage = bind("sirop_celsius_for_stage");
export const celsiusForStageN = bind("sirop_celsius_for_stage_n");

export const textureWord = bind("sirop_texture_word");
export const textureWordMeaning = bind("sirop_texture_word_meaning");
export const textureWordFirmnessPaS = bind("sirop_texture_word_firmness_pa_s");
export const textureWordOf = bind("sirop_texture_word_of");
export const textureWordOfN = bind("sirop_texture_word_of_n");

export const grainingAt = bind("sirop_graining_at");
export const grainingAtN = bind("sirop_graining_at_n");
export const layersAtEquilibrium = bind("sirop_layers_at_equilibrium");
export const layersAtEquilibriumN = bind("sirop_layers_at_equilibrium_n");
export const growthGroup = bind("sirop_growth_group");
export const growthLimit = bind("sirop_growth_limit");
export const growthLimitsSource = bind("sirop_growth_limits_source");

export const predictJson = bind("sirop_predict_json");
export const predictReport = bind("sirop_predict_report");
export const askJson = bind("sirop_ask_json");
export const askReport = bind("sirop_ask_report");

export const batchNew = bind("sirop_batch_new");
export const batchRead = bind("sirop_batch_read");
export const batchFree = bind("sirop_batch_free");
export const batchAdd = bind("sirop_batch_add");
export const batchAddMixture = bind("sirop_batch_add_mixture");
export const batchSet = bind("sirop_batch_set");
export const batchRefusal = bind("sirop_batch_refusal");
export const batchText = bind("sirop_batch_text");
export const batchPredict = bind("sirop_batch_predict");
export const answerFree = bind("sirop_answer_free");
export const answerNumber = bind("sirop_answer_number");
export const answerText = bind("sirop_answer_text");
export const answerCount = bind("sirop_answer_count");
export const answerReport = bind("sirop_answer_report");

export const questionName = bind("sirop_question_name");
export const questionNew = bind("sirop_question_new");
export const questionFree = bind("sirop_question_free");
export const questionSetNumber = bind("sirop_question_set_number");
export const questionSetTruth = bind("sirop_question_set_truth");
export const questionSetText = bind("sirop_question_set_text");
export const questionSetBatch = bind("sirop_question_set_batch");
export const questionAsk = bind("sirop_question_ask");
export const questionRefusal = bind("sirop_question_refusal");

/** Where batchAdd and batchAddMixture put something. */
export const place = Object.freeze({pan: 0, offHeat: 1, neighbours: 2});

// --- for hands ------------------------------------------------------------------------------------------------------

/** The names of the components, in the order of every array of masses. */
export function components() {
    return [...componentNames()];
}

/** What a function gives for 0, 1, 2 ... until it gives nothing. */
function all(at) {
    const list = [];
    for (let one; (one = at(list.length)) !== undefined;) list.push(one);
    return list;
}

/** Everything known of each property: name, unit, range, source, uncertainty. */
export function properties() {
    return all(propertyName).map((name) => {
        const {celsius, fittedSolidsPercent} = propertyRange(name);
        return {
            name,
            unit: propertyUnit(name),
            celsius: celsius.low === celsius.high ? undefined : celsius,
            fittedSolidsPercent,
            source: propertySource(name),
            uncertainty: propertyUncertainty(name),
        };
    });
}

/** The pantry: each ingredient with the grams of its components in 100 g. */
export function ingredients() {
    return all(ingredientName).map((name) => ({
        name,
        gramsIn100: ingredientGrams(name),
        source: ingredientSource(name),
        estimate: ingredientEstimate(name),
    }));
}

/** The names of the conversions. */
export function conversions() {
    return all(conversionName);
}

/** The stage tables with their stages, of plain sugar syrup at sea level. */
export function stageTables() {
    return all(stageTableName).map((name) => ({
        name,
        source: stageTableSource(name),
        stages: all((i) => stageName(name, i)).map((stage) => ({name: stage, celsius: stageRangeCelsius(name, stage)})),
    }));
}

/** The words of the set, from the thinnest on. */
export function textureWords() {
    return all(textureWord).map((word, i) =>
        ({word, meaning: textureWordMeaning(i), firmnessPaS: textureWordFirmnessPaS(i)}));
}

/** The published limits of growth, from the highest water activity on. */
export function growthLimits() {
    return all(growthGroup).map((group, i) => ({group, waterActivity: growthLimit(i)}));
}

/** The kinds of questions. */
export function questionKinds() {
    return all(questionName);
}

/** The arguments whose range can be asked for. */
export function argumentNames() {
    return all(argumentName);
}

const seaLevelHpa = 1013.25;

/** A property of a mixture.  celsius may be missing where the property does not depend on it. */
export function property(name, grams, celsius, pressureHpa = seaLevelHpa) {
    let at = celsius;
    if (at === undefined && typeof name === "string") {
        const range = propertyRange(name).celsius;
        if (range.low === range.high) at = range.low;
    }
    return propertyEstimate(name, grams, at, pressureHpa);
}

function tableOf(options) {
    if (options === undefined || options === null) return undefined;
    if (typeof options !== "object")
        throw new OutOfRangeError(`options: ${shown(options)} is not an object; {table: "us 2004"} is accepted`);
    for (const key of Object.keys(options))
        if (key !== "table") throw new UnknownNameError(`options.${key}: unknown key; accepted: table`);
    return options.table;
}

function whole(text) {
    const answer = JSON.parse(text);
    return {...answer, extrapolated: answer.status !== "fine"};
}

/** What a batch will be when it is cold. */
export function predict(batch, options) {
    return whole(predictJson(batch, tableOf(options)));
}

/** The same as a readable report for a cook. */
export function report(batch, options) {
    return predictReport(batch, tableOf(options));
}

/** An inverse question: to which temperature, how to rescue, how much for that yield, how elsewhere. */
export function ask(question) {
    return whole(askJson(question));
}
