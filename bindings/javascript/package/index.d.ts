/** Water left, texture stage and set of a syrup, caramel or sauce.  The unit stands in every name; temperatures are
 *  points in °C.  `await init()` comes before every other call.  Hot sugar burns and steam bursts: a program that
 *  tells people what to do shows them `Answer.cautions`. */

/** What init takes: nothing (sirop.wasm beside the package's own file), its bytes, or a compiled module. */
export type ModuleSource = ArrayBuffer | ArrayBufferView | WebAssembly.Module;

/** Loads the module and gives its version.  After a stop (see GeneralError) it starts it afresh. */
export function init(source?: ModuleSource): Promise<string>;

// --- results --------------------------------------------------------------------------------------------------------

/** A number with the models' own interval; errors of measurement come on top. */
export interface Estimate {
    value: number;
    low: number;
    high: number;
    /** 0 fine, 1 extrapolated. */
    status: number;
    /** Computed outside the fitted range of a model. */
    extrapolated: boolean;
}

/** The results of an array call: NaN where the status is negative (see statusText). */
export interface Estimates {
    value: Float64Array;
    low: Float64Array;
    high: Float64Array;
    /** 0 fine, 1 extrapolated, negative not computed. */
    status: Int32Array;
}

/** Numbers from an array call: NaN where the status is negative. */
export interface Values {
    value: Float64Array;
    status: Int32Array;
}

/** Indices from an array call: -1 where the status is negative. */
export interface Indices {
    value: Int32Array;
    status: Int32Array;
}

/** Ranges from an array call. */
export interface Ranges {
    low: Float64Array;
    high: Float64Array;
    status: Int32Array;
}

/** An inclusive range. */
export interface Range {
    low: number;
    /** May be Infinity. */
    high: number;
}

/** Is told of each extrapolated result.  There is one; undefined takes it away.  Nothing is ever printed. */
export function onExtrapolated(listener?: (name: string, result: unknown) => void): void;

// --- mixtures -------------------------------------------------------------------------------------------------------

export type Component =
    | "water" | "sucrose" | "glucose" | "fructose" | "galactose" | "lactose" | "maltose" | "maltotriose"
    | "maltotetraose" | "maltopentaose" | "maltohexaose" | "maltoheptaose" | "higher_saccharides" | "sorbitol"
    | "glycerol" | "salt" | "minerals" | "protein" | "starch" | "fibre" | "cocoa_solids" | "fat" | "acid"
    | "cocoa_butter" | "vegetable_fat" | "agar" | "gelatin" | "isomalt"
    | "maltitol";

/** Grams of each component: by name, or in the order of components().  What is not given is 0. */
export type Grams = Partial<Record<Component, number>> | readonly number[] | Float64Array;

/** n mixtures: a list of them, or all their masses one after the other, `components` to a mixture (all of them if
 *  it is not said). */
export type Rows = readonly Grams[] | readonly number[] | Float64Array
    | {grams: readonly number[] | Float64Array; components: number};

/** n desserts of as many layers each, in as many components: lists of their layers, or all masses one after the
 *  other. */
export type Desserts = readonly Rows[]
    | {grams: readonly number[] | Float64Array; layers: number; components?: number};

/** n numbers, or one for all.  n is the number of mixtures; where none are taken, the length of the first list. */
export type Numbers = number | readonly number[] | Float64Array;

/** The names of the components, in the order of every array of masses. */
export function components(): Component[];

// --- about the library ----------------------------------------------------------------------------------------------

/** The version of the library that runs, such as "0.1.0". */
export function version(): string;
/** What a status code means. */
export function statusText(status: number): string;
/** undefined for an index that does not exist. */
export function componentName(component: number): Component | undefined;
/** The arguments whose range can be asked for, under their names in C, such as "pressure_hpa". */
export function argumentNames(): string[];
/** undefined after the last. */
export function argumentName(index: number): string | undefined;
/** The inclusive range of an argument. */
export function acceptedRange(argument: string): Range;

// --- the kitchen ----------------------------------------------------------------------------------------------------

/** Standard atmosphere (ISO 2533). */
export function pressureAtAltitudeHpa(altitudeMetres: number): number;
/** Pressure where water boils at that temperature (IAPWS-IF97). */
export function pressureFromBoilingWaterHpa(waterBoilsCelsius: number): number;
export function waterBoilsCelsius(pressureHpa: number): number;

/** The same for n numbers.  An element that fails has its own status; the others go on. */
export function pressureAtAltitudeHpaN(altitudeMetres: Numbers): Values;
export function pressureFromBoilingWaterHpaN(waterBoilsCelsius: Numbers): Values;
export function waterBoilsCelsiusN(pressureHpa: Numbers): Values;

// --- water and heat -------------------------------------------------------------------------------------------------

/** Temperature at which the mixture, with its own water, boils. */
export function boilingPointCelsius(grams: Grams, pressureHpa: number): Estimate;
/** Water that the mixture holds when it boils at that temperature; its own water does not count. */
export function waterAtBoilGrams(grams: Grams, celsius: number, pressureHpa: number): Estimate;
export function waterActivity(grams: Grams, celsius: number): Estimate;
/** Temperature at which ice begins to form. */
export function freezingPointCelsius(grams: Grams): Estimate;

/** The same for n mixtures.  An element that fails has its own status; the others go on. */
export function boilingPointCelsiusN(grams: Rows, pressureHpa: Numbers): Estimates;
export function waterAtBoilGramsN(grams: Rows, celsius: Numbers, pressureHpa: Numbers): Estimates;
export function waterActivityN(grams: Rows, celsius: Numbers): Estimates;
export function freezingPointCelsiusN(grams: Rows): Estimates;

// --- properties -----------------------------------------------------------------------------------------------------

export interface Property {
    /** With its unit, such as "density_g_per_ml". */
    name: string;
    unit: string;
    /** The temperatures in which it is answered; undefined if it does not depend on one. */
    celsius: Range | undefined;
    /** Of the syrup phase; above, the answer is extrapolated. */
    fittedSolidsPercent: number;
    source: string;
    uncertainty: string;
}

/** Everything known of each property. */
export function properties(): Property[];
/** A property of a mixture.  celsius may be undefined where it does not depend on it; pressureHpa is 1013.25 if it is
 *  not given. */
export function property(name: string, grams: Grams, celsius?: number, pressureHpa?: number): Estimate;

export function propertyName(index: number): string | undefined;
export function propertyUnit(property: string): string | undefined;
export function propertySource(property: string): string | undefined;
export function propertyUncertainty(property: string): string | undefined;
export function propertyRange(property: string): {celsius: Range; fittedSolidsPercent: number};
export function propertyEstimate(property: string, grams: Grams, celsius: number, pressureHpa: number): Estimate;
export function propertyEstimateN(property: string, grams: Rows, celsius: Numbers, pressureHpa: Numbers): Estimates;

// --- conversions and the pantry -------------------------------------------------------------------------------------

/** The names of the conversions, such as "brix_to_density_kg_m3"; of plain sucrose at 20 °C where a concentration is
 *  meant. */
export function conversions(): string[];
export function conversionName(index: number): string | undefined;
export function convert(conversion: string, value: number): number;
export function convertN(conversion: string, values: Numbers): Values;

export interface Ingredient {
    name: string;
    /** Grams of each component in 100 g; what is not there is 0. */
    gramsIn100: Partial<Record<Component, number>>;
    source: string;
    /** What in it is an estimate; may be "". */
    estimate: string;
}

/** The pantry. */
export function ingredients(): Ingredient[];
export function ingredientName(index: number): string | undefined;
export function ingredientSource(ingredient: string): string | undefined;
export function ingredientEstimate(ingredient: string): string | undefined;
/** In 100 g. */
export function ingredientGrams(ingredient: string): Partial<Record<Component, number>>;
/** In 100 g of a starch syrup between the tabulated ones. */
export function glucoseSyrupGrams(dextroseEquivalent: number, solidsPercent: number): Partial<Record<Component, number>>;
/** Of n syrups one after the other, each with all components in their order: rows for the other functions. */
export function glucoseSyrupGramsN(dextroseEquivalent: Numbers, solidsPercent: Numbers):
    {grams: Float64Array; status: Int32Array};

// --- stages and words -----------------------------------------------------------------------------------------------

export interface StageTable {
    /** Place and year, such as "us 2004". */
    name: string;
    source: string;
    /** Of plain sugar syrup at sea level. */
    stages: {name: string; celsius: Range}[];
}

/** The published stage tables.  Where a function takes a table, undefined is "us 2004". */
export function stageTables(): StageTable[];
export function stageTableName(index: number): string | undefined;
export function stageTableSource(table: string | undefined): string | undefined;
export function stageName(table: string | undefined, index: number): string | undefined;
export function stageRangeCelsius(table: string | undefined, stage: string): Range;

/** Where something lies in a table.  In a stage lower and upper are its index, between two they are these two; below the
 *  first lower is -1; above a stage (the last, or the last that the model reaches) upper is the count of stages. */
export interface StagePlace {
    lower: number;
    upper: number;
    /** In words: "soft ball", "between soft ball and firm ball", "below thread". */
    name: string;
    status: number;
    extrapolated: boolean;
}

/** The places of n: both -1 where the status is negative; stagePlaceText has the words. */
export interface StagePlaces {
    lower: Int32Array;
    upper: Int32Array;
    status: Int32Array;
}

/** What the table says at a temperature in a kitchen. */
export function stageOfTemperature(table: string | undefined, celsius: number, pressureHpa: number): StagePlace;
export function stageOfTemperatureN(table: string | undefined, celsius: Numbers, pressureHpa: Numbers): StagePlaces;
/** What a mixture is by its consistency in cold water. */
export function stageOfMixture(table: string | undefined, grams: Grams): StagePlace;
export function stageOfMixtureN(table: string | undefined, grams: Rows): StagePlaces;
/** A place in words. */
export function stagePlaceText(table: string | undefined, lower: number, upper: number): string;
/** The temperatures between which a mixture, boiled down, has the consistency of a stage. */
export function celsiusForStage(table: string | undefined, stage: string, grams: Grams, pressureHpa: number): Range;
export function celsiusForStageN(table: string | undefined, stage: string, grams: Rows, pressureHpa: Numbers): Ranges;

/** The words of the set, from the thinnest on, with the firmness (property "firmness_pa_s") of each. */
export function textureWords(): {word: string; meaning: string; firmnessPaS: Range}[];
export function textureWord(index: number): string | undefined;
export function textureWordMeaning(index: number): string | undefined;
export function textureWordFirmnessPaS(index: number): Range;
/** The index of the word for a firmness, and of those for n. */
export function textureWordOf(firmnessPaS: number): number;
export function textureWordOfN(firmnessPaS: Numbers): Indices;

// --- graining, layers, keeping --------------------------------------------------------------------------------------

export interface Graining {
    /** 0 none, 1 low, 2 moderate, 3 high. */
    risk: number;
    /** Each with a status of its own: NaN where it cannot be given. */
    sucroseSupersaturation: Estimate;
    lactoseSupersaturation: Estimate;
    /** Of the dissolved sucrose and lactose. */
    crystallizablePercent: Estimate;
    /** Other sugars, of themselves and the sucrose. */
    hinderingPercent: number;
    /** The worst of its parts. */
    status: number;
    extrapolated: boolean;
}

export function grainingAt(grams: Grams, celsius: number): Graining;
/** One for each mixture: where the status is negative, its numbers are NaN and its risk is -1. */
export function grainingAtN(grams: Rows, celsius: Numbers): Graining[];

/** Layers that touch, at equilibrium: the water activity common to all, and the water that each gains (negative:
 *  gives). */
export function layersAtEquilibrium(grams: Rows, celsius: number):
    {waterActivity: Estimate; waterGainedGrams: Estimates};

/** The same for n desserts of as many layers each; the gains of layer k of dessert i stand at i * layers + k. */
export function layersAtEquilibriumN(grams: Desserts, celsius: Numbers):
    {waterActivity: Estimates; waterGainedGrams: Estimates};

export interface GrowthLimit {
    group: string;
    /** Below it the group does not grow. */
    waterActivity: number;
}

/** Published limits of growth, from the highest on; screening figures. */
export function growthLimits(): GrowthLimit[];
/** What does not grow below the limit of that index; undefined after the last. */
export function growthGroup(index: number): string | undefined;
/** The water activity below which the group does not grow. */
export function growthLimit(index: number): number;
/** Where the limits were published. */
export function growthLimitsSource(): string;

// --- the main job: docs/batch-file.md -------------------------------------------------------------------------------

export interface IngredientRow {
    /** A name of the pantry, or your own with per_100_g. */
    ingredient: string;
    /** Or else millilitres. */
    grams?: number;
    millilitres?: number;
    per_100_g?: Partial<Record<Component, number>>;
    /** With the ingredient "glucose syrup". */
    dextrose_equivalent?: number;
    solids_percent?: number;
}

export interface Batch {
    sirop_batch: 1;
    title?: string;
    pan: IngredientRow[];
    /** One temperature, on the cook's thermometer, in its kitchen. */
    cook: Kitchen & {to_celsius?: number; to_fahrenheit?: number};
    off_heat?: (IngredientRow & {celsius?: number})[];
    serve?: {celsius: number};
    store?: {celsius: number};
    pour?: {celsius: number};
    /** What it touches when it is finished. */
    neighbours?: IngredientRow[];
}

/** At most one of the first four, which give the pressure. */
export interface Kitchen {
    pressure_hpa?: number;
    altitude_metres?: number;
    altitude_feet?: number;
    water_boils_celsius?: number;
    thermometer_reads_in_boiling_water_celsius?: number;
    thermometer_within_celsius?: number;
}

type WithRange<Key extends string> =
    {[K in Key | `${Key}_low` | `${Key}_high`]: number | null};

type GrainingAnswer = {
    celsius: number;
    risk: string;
    reason: string;
    hindering_percent: number | null;
} & WithRange<"sucrose_supersaturation" | "lactose_supersaturation" | "crystallizable_percent">;

export interface Answer {
    sirop_answer: 1;
    title: string;
    status: "fine" | "extrapolated";
    /** status is "extrapolated". */
    extrapolated: boolean;
    cooked: {
        celsius: number;
        thermometer_celsius: number;
        pressure_hpa: number;
        water_boils_celsius: number;
        starts_to_boil_celsius: number | null;
        highest_celsius: number | null;
        water_activity: number;
    } & WithRange<"water_percent" | "solids_percent" | "grams" | "water_boiled_off_grams">;
    finished: {
        mixed_celsius: number | null;
        undissolved_sugar_grams: number | null;
        sucrose_supersaturation: number | null;
        lactose_supersaturation: number | null;
    } & WithRange<"grams" | "water_percent" | "fat_percent" | "water_flashed_grams" | "water_activity_at_serving"
        | "syrup_solids_percent" | "brix_of_syrup_phase" | "glass_transition_celsius" | "freezing_celsius"
        | "millilitres">;
    stage: {
        table: string;
        by_temperature: string;
        by_consistency: string;
        sea_level_celsius: number | null;
        plain_syrup_celsius: number | null;
        finished_by_consistency: string;
    };
    set: {
        celsius: number;
        word: string;
        word_if_thinner: string;
        word_if_thicker: string;
        pour_celsius: number | null;
        pours: string;
        holds_a_cut: string;
        too_hard_to_cut: boolean;
        freezer_celsius: number;
        freezer_ice_percent_of_water: number | null;
        freezer_word: string;
        milk_grams: number | null;
        word_with_milk: string;
    } & WithRange<"viscosity_pa_s" | "gel_modulus_pa" | "firmness_pa_s" | "slump_to_half_seconds"
        | "stands_millimetres" | "pours_from_celsius" | "firmness_with_milk_pa_s">;
    graining: {
        at_serving: GrainingAnswer;
        in_storage: GrainingAnswer;
        ways_to_clear: {
            change: string;
            grams: number | null;
            thermometer_celsius: number | null;
            sentence: string;
        }[];
    };
    keeping: {
        celsius: number;
        can_grow: string | null;
        too_cold_for_growth: boolean;
        limits: {water_activity: number; group: string}[];
        limits_source: string;
    } & WithRange<"water_activity" | "equilibrium_relative_humidity_percent">;
    /** If the batch has neighbours. */
    neighbours?: {
        celsius: number;
        layers: ({
            layer: string;
            grams: number;
            water_activity_before: number | null;
            water_percent_before: number | null;
            water_percent_after: number | null;
            word_before: string | null;
            word_after: string | null;
        } & WithRange<"water_gained_grams" | "firmness_before_pa_s" | "firmness_after_pa_s">)[];
    } & WithRange<"water_activity">;
    cautions: string[];
    notes: string[];
}

/** The stage table by its name; "us 2004" if it is not given. */
export interface PredictOptions {
    table?: string;
}

/** What a batch will be when it is cold.  batch: an object, or its text in JSON. */
export function predict(batch: Batch | string, options?: PredictOptions): Answer;
/** The same as a readable report for a cook. */
export function report(batch: Batch | string, options?: PredictOptions): string;

/** The same, with text as the answer. */
export function predictJson(batch: Batch | string, table?: string): string;
export function predictReport(batch: Batch | string, table?: string): string;
/** A card to cook by, wrapped at so many characters (24 to 200): cautions, ingredients, where to stop, what it is then. */
export function predictCard(batch: Batch | string, table: string | null, columns: number): string;

// --- the inverse questions ------------------------------------------------------------------------------------------

/** What is wanted: one measure. */
export interface Wanted {
    water_percent?: number;
    water_activity?: number;
    brix?: number;
    viscosity_pa_s?: number;
    firmness_pa_s?: number;
    stage?: string;
    set_word?: string;
    /** At which temperature: one of them. */
    celsius?: number;
    fahrenheit?: number;
    /** Half the band. */
    within?: number;
    table?: string;
}

/** A question: to which temperature (cook_for), how to rescue it (rescue), how much of everything for a yield (scale),
 *  how in another kitchen (travel), what instead (substitute), how many grams (formulate), which input matters
 *  (sensitivity), what logged cooks say of a kitchen (learn_kitchen, which needs no batch). */
export interface Question {
    sirop_question: 1;
    ask: "cook_for" | "rescue" | "scale" | "travel" | "substitute" | "formulate" | "sensitivity" | "learn_kitchen"
        | (string & {});
    batch?: Batch;
    /** Of formulate a list. */
    wanted?: Wanted | Wanted[];
    now?: {
        thermometer_celsius?: number;
        thermometer_fahrenheit?: number;
        grams_left?: number;
        brix?: number;
        additions_in?: boolean;
    };
    with?: string[];
    yield?: {
        grams?: number;
        millilitres?: number;
        portions?: number;
        grams_per_portion?: number;
        loss_grams?: number;
    };
    to?: Kitchen;
    [key: string]: unknown;
}

export interface Reply {
    sirop_answer: 1;
    ask: string;
    title: string;
    /** In words. */
    question: string;
    /** Its keys depend on the question, and carry their units. */
    answer: Record<string, unknown>;
    /** The whole prediction of what is proposed, where there is one. */
    prediction?: Omit<Answer, "extrapolated">;
    status: "fine" | "extrapolated";
    extrapolated: boolean;
    cautions: string[];
    notes: string[];
}

export function ask(question: Question | string): Reply;
/** The same, with text as the answer. */
export function askJson(question: Question | string): string;
export function askReport(question: Question | string): string;

// --- a batch by calls instead of text -------------------------------------------------------------------------------

declare const kind: unique symbol;
/** Free a handle when it is not needed any more; what is forgotten is freed some time.  It is lost if sirop is loaded
 *  again. */
export interface BatchHandle {
    readonly [kind]: "batch";
}
export interface QuestionHandle {
    readonly [kind]: "question";
}
export interface AnswerHandle {
    readonly [kind]: "answer";
}

/** Where something is put. */
export const place: {readonly pan: 0; readonly offHeat: 1; readonly neighbours: 2};

export function batchNew(): BatchHandle;
export function batchRead(text: Batch | string): BatchHandle;
export function batchFree(batch: BatchHandle | undefined): void;
/** An ingredient of the pantry; celsius counts off the heat only, and is 20 if it is not given. */
export function batchAdd(batch: BatchHandle, where: number, ingredient: string, grams: number, celsius?: number): void;
export function batchAddMixture(batch: BatchHandle, where: number, name: string, grams: Grams, celsius?: number): void;
/** Fields: "thermometer_celsius" (what it shows when the cook ends), "pressure_hpa", "thermometer_error_kelvin",
 *  "thermometer_within_kelvin", "serve_celsius", "store_celsius", "pour_celsius". */
export function batchSet(batch: BatchHandle, field: string, value: number): void;
/** Why the last call on this batch was refused; "" if it was not. */
export function batchRefusal(batch: BatchHandle): string;
/** The batch as a batch file. */
export function batchText(batch: BatchHandle): string;
export function batchPredict(batch: BatchHandle, table?: string): AnswerHandle;
export function answerFree(answer: AnswerHandle | undefined): void;
/** By the keys of the answer, joined by dots, such as "cooked.water_percent_low".  Where the answer has null, such as the
 *  slump time of what stands, it throws ImpossibleError. */
export function answerNumber(answer: AnswerHandle, key: string): number;
/** Such as "set.word", "cautions.0"; "" is the whole answer in JSON. */
export function answerText(answer: AnswerHandle, key: string): string;
/** How many there are under a key: elements of a list, keys of an object. */
export function answerCount(answer: AnswerHandle, key: string): number;
/** The whole answer as a readable report for a cook. */
export function answerReport(answer: AnswerHandle): string;

// --- a question by calls instead of text ----------------------------------------------------------------------------

/** The kinds of questions, such as "cook_for". */
export function questionKinds(): string[];
/** undefined after the last. */
export function questionName(index: number): string | undefined;
/** A question of a kind, still without its keys. */
export function questionNew(kind: string): QuestionHandle;
export function questionFree(question: QuestionHandle | undefined): void;
/** By the keys of the question, joined by dots, such as "wanted.water_percent", "with.0"; set again, it is replaced. */
export function questionSetNumber(question: QuestionHandle, key: string, value: number): void;
export function questionSetTruth(question: QuestionHandle, key: string, yes: boolean): void;
export function questionSetText(question: QuestionHandle, key: string, text: string): void;
/** The batch is copied; the question's own has the key "batch". */
export function questionSetBatch(question: QuestionHandle, key: string, batch: BatchHandle): void;
/** The answer has the keys of Reply, such as "answer.thermometer_celsius", "prediction.set.word".  A refusal is the
 *  error's message. */
export function questionAsk(question: QuestionHandle): AnswerHandle;
/** Why the last call on this question was refused; "" if it was not. */
export function questionRefusal(question: QuestionHandle): string;

// --- errors ---------------------------------------------------------------------------------------------------------

/** Every error of sirop.  code is the status of the C API. */
export class SiropError extends Error {
    constructor(message: string, code?: number);
    readonly code: number;
}
/** -1: anything else: not loaded yet; or the module stopped, and init() must start it afresh. */
export class GeneralError extends SiropError {}
/** -2: an argument is outside its range, infinite or not a number. */
export class OutOfRangeError extends SiropError {}
/** -3: no such component, ingredient, table, quantity. */
export class UnknownNameError extends SiropError {}
/** -4: never leaves this package, which makes the buffers itself. */
export class BufferTooSmallError extends SiropError {}
/** -5: the batch is refused. */
export class BatchRefusedError extends SiropError {
    /** Which key, such as "pan[2].grams". */
    readonly place: string;
    readonly reason: string;
}
/** -6: an argument is missing. */
export class MissingArgumentError extends SiropError {}
/** -7: out of memory. */
export class OutOfMemoryError extends SiropError {}
/** -8: the question has no answer within the model. */
export class ImpossibleError extends SiropError {}
