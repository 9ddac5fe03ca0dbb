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

/** The results of an array call; where the status is negative (see statusText) they are NaN, or -1.  0 fine, 1
 *  extrapolated. */
export interface Values { value: Float64Array; status: Int32Array }
export interface Indices { value: Int32Array; status: Int32Array }
export interface Ranges { low: Float64Array; high: Float64Array; status: Int32Array }
export interface Estimates extends Ranges { value: Float64Array }

/** An inclusive range; high may be Infinity. */
export interface Range { low: number; high: number }

/** Is told of each extrapolated result.  There is one; undefined takes it away.  Nothing is ever printed. */
export function onExtrapolated(listener?: (name: string, result: unknown) => void): void;

// --- mixtures -------------------------------------------------------------------------------------------------------

/** Grams of each component: by name, or in the order of components().  What is not given is 0. */
export type Grams = Composition | readonly number[] | Float64Array;

/** Grams of each component in 100 g, or in whatever is said; what is not there is 0. */
export type Composition = Partial<Record<Component, number>>;

/** n compositions one after the other, each with all components in their order: rows for the other functions. */
export interface Syrups { grams: Float64Array; status: Int32Array }

/** n mixtures: a list of them, or all their masses one after the other, `components` to a mixture (all of them if
 *  it is not said). */
export type Rows = readonly Grams[] | readonly number[] | Float64Array
    | {grams: readonly number[] | Float64Array; components: number};

/** n desserts of as many layers each, in as many components: lists of their layers, or all masses one after the
 *  other.  The gains of layer k of dessert i stand at i * layers + k. */
export type Desserts = readonly Rows[]
    | {grams: readonly number[] | Float64Array; layers: number; components?: number};

/** n numbers, or one for all.  n is the number of mixtures; where none are taken, the length of the first list. */
export type Numbers = number | readonly number[] | Float64Array;

/** The names of the components, in the order of every array of masses. */
export function components(): Component[];

/** The arguments whose range can be asked for, under their names in C, such as "pressure_hpa". */
export function argumentNames(): string[];

// --- lists, and the main job ----------------------------------------------------------------------------------------

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

/** The names of the conversions, such as "brix_to_density_kg_m3"; of plain sucrose at 20 °C where a concentration is
 *  meant. */
export function conversions(): string[];

export interface Ingredient {
    name: string;
    /** Grams of each component in 100 g; what is not there is 0. */
    gramsIn100: Composition;
    source: string;
    /** What in it is an estimate; may be "". */
    estimate: string;
}

/** The pantry. */
export function ingredients(): Ingredient[];

export interface StageTable {
    /** Place and year, such as "us 2004". */
    name: string;
    source: string;
    /** Of plain sugar syrup at sea level. */
    stages: {name: string; celsius: Range}[];
}

/** The published stage tables.  Where a function takes a table, undefined is "us 2004". */
export function stageTables(): StageTable[];

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
export interface StagePlaces { lower: Int32Array; upper: Int32Array; status: Int32Array }

/** The words of the set, from the thinnest on, with the firmness (property "firmness_pa_s") of each. */
export function textureWords(): {word: string; meaning: string; firmnessPaS: Range}[];

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

/** Below the water activity the group does not grow. */
export interface GrowthLimit { group: string; waterActivity: number }

/** Published limits of growth, from the highest on; screening figures. */
export function growthLimits(): GrowthLimit[];

/** The stage table by its name; "us 2004" if it is not given. */
export interface PredictOptions { table?: string }

/** What a batch will be when it is cold.  batch: an object, or its text in JSON. */
export function predict(batch: Batch | string, options?: PredictOptions): Answer;
/** The same as a readable report for a cook. */
export function report(batch: Batch | string, options?: PredictOptions): string;

export function ask(question: Question | string): Reply;

// --- a batch by calls instead of text -------------------------------------------------------------------------------

declare const kind: unique symbol;
/** Free a handle when it is not needed any more; what is forgotten is freed some time.  It is lost if sirop is loaded
 *  again. */
export interface BatchHandle { readonly [kind]: "batch" }
export interface QuestionHandle { readonly [kind]: "question" }
export interface AnswerHandle { readonly [kind]: "answer" }

/** Where something is put. */
export const place: {readonly pan: 0; readonly offHeat: 1; readonly neighbours: 2};

/** The kinds of questions, such as "cook_for". */
export function questionKinds(): string[];

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

