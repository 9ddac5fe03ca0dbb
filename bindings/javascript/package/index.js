// sirop in JavaScript.  Types and explanations: index.d.ts.  Safety: hot sugar burns and steam bursts; a program
// that tells people what to do shows them the answer's cautions.
import {argumentName, askJson, conversionName, growthGroup, growthLimit, ingredientEstimate, ingredientGrams,
    ingredientName, ingredientSource, predictJson, predictReport, propertyEstimate, propertyName, propertyRange,
    propertySource, propertyUncertainty, propertyUnit, questionName, stageName, stageRangeCelsius, stageTableName,
    stageTableSource, textureWord, textureWordFirmnessPaS, textureWordMeaning, version} from "./bound.js";
import {componentNames, load, onExtrapolated, shown} from "./engine.js";
import {OutOfRangeError, UnknownNameError} from "./errors.js";

export {BatchRefusedError, BufferTooSmallError, GeneralError, ImpossibleError, MissingArgumentError, OutOfMemoryError,
    OutOfRangeError, SiropError, UnknownNameError} from "./errors.js";
export {onExtrapolated};
export * from "./bound.js";  // the functions of the C API, one each

let loading;

/** Loads the module, once; afterwards every other function is at hand. */
export function init(source) {
    const begun = (loading ?? Promise.resolve()).then(() => load(source)).then(version);
    loading = begun.catch(() => undefined);
    return begun;
}

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
