// Loads the WebAssembly module and calls its functions as the table in functions.js, which is made from the C header,
// describes them.  rows and desserts say what n is; where neither is taken, the length of the first list of numbers.
import {BatchRefusedError, GeneralError, MissingArgumentError, OutOfMemoryError, OutOfRangeError, UnknownNameError,
    errorOf} from "./errors.js";
import {functions, layouts} from "./functions.js";

let compiled;  // the WebAssembly.Module, kept for a fresh start
let wasm;      // the exports of the instance that runs; undefined before init() and after a stop
let stopped;   // why it stopped
let masses;    // names of the components, in their order

const utf8 = new TextEncoder();
const fromUtf8 = new TextDecoder();

// --- loading --------------------------------------------------------------------------------------------------------

async function compileFromOwnFile() {
    const url = new URL("./sirop.wasm", import.meta.url);
    if (url.protocol === "file:" && globalThis.process?.versions?.node !== undefined) {
        const {readFile} = await import("node:fs/promises");
        return WebAssembly.compile(await readFile(url));
    }
    const response = await fetch(url);
    if (!response.ok) throw new GeneralError(`sirop.wasm: ${url} answers ${response.status}`);
    try {
        return await WebAssembly.compileStreaming(response.clone());
    } catch {
        // A server that does not say application/wasm, or a browser without streaming.
        return WebAssembly.compile(await response.arrayBuffer());
    }
}

/** Loads the module. @param source its bytes, or a WebAssembly.Module; without it the file beside this one */
export async function load(source) {
    if (source === undefined && wasm !== undefined) return;
    let module = compiled;
    if (source instanceof WebAssembly.Module) module = source;
    else if (source instanceof ArrayBuffer || ArrayBuffer.isView(source)) module = await WebAssembly.compile(source);
    else if (source !== undefined)
        throw new OutOfRangeError(`init: ${shown(source)} is not the module; an ArrayBuffer, a typed array or a ` +
            "WebAssembly.Module is accepted");
    else if (module === undefined) module = await compileFromOwnFile();
    const instance = await WebAssembly.instantiate(module, {});
    instance.exports._initialize();
    compiled = module;
    wasm = instance.exports;
    stopped = undefined;
    shelf = allocate(shelfBytes);
    shelfUsed = 0;
    masses = [];
    for (let name; (name = call("sirop_component_name", [masses.length])) !== undefined;) masses.push(name);
}

function running() {
    if (wasm !== undefined) return wasm;
    throw new GeneralError(stopped === undefined ? "sirop is not loaded yet: await init() first"
        : `sirop stopped (${stopped}); await init() starts it afresh`);
}

/** The JavaScript name of a C function: sirop_water_activity -> waterActivity */
function publicName(name) {
    return name.replace(/^sirop_/, "").replace(/_([a-z0-9])/g, (_, letter) => letter.toUpperCase());
}

/** The names of the components, in the order of every array of masses. */
export function componentNames() {
    running();
    return masses;
}

// --- memory ---------------------------------------------------------------------------------------------------------

/** Runs a piece of the module.  If it stops, its memory is not to be trusted: it is never called again. */
function run(name, args) {
    try {
        return wasm[name](...args);
    } catch (problem) {
        wasm = undefined;
        stopped = `${name}: ${problem.message}`;
        throw new GeneralError(`sirop stopped in ${name} (${problem.message}), perhaps out of memory; ` +
            "await init() starts it afresh");
    }
}

const shelfBytes = 4096;
let shelf;      // memory that is always there, for what is small
let shelfUsed;

function allocate(bytes) {
    const at = run("malloc", [bytes]) >>> 0;
    if (at === 0) throw new OutOfMemoryError(`out of memory: ${bytes} bytes more are not to be had`);
    return at;
}

/** Pieces of the module's memory for one call.  Views are made when used: the memory may move as it grows. */
class Call {
    #pieces = [];
    #shelfBefore = shelfUsed;

    reserve(bytes) {
        const rounded = Math.max(8 * Math.ceil(bytes / 8), 8);
        if (rounded <= shelfBytes - shelfUsed) {
            shelfUsed += rounded;
            return shelf + shelfUsed - rounded;
        }
        this.#pieces.push(allocate(rounded));
        return this.#pieces.at(-1);
    }

    bytes(data, ending = 0) {
        const at = this.reserve(data.length + ending);
        const view = new Uint8Array(wasm.memory.buffer, at, data.length + ending);
        view.set(data);
        view.fill(0, data.length);
        return at;
    }

    numbers(data) {
        const at = this.reserve(8 * data.length);
        new Float64Array(wasm.memory.buffer, at, data.length).set(data);
        return at;
    }

    release() {
        shelfUsed = this.#shelfBefore;
        if (wasm !== undefined) for (const at of this.#pieces) run("free", [at]);
    }
}

function textAt(at) {
    if (at === 0) return undefined;
    const memory = new Uint8Array(wasm.memory.buffer);
    return fromUtf8.decode(memory.subarray(at, memory.indexOf(0, at)));
}

// --- arguments ------------------------------------------------------------------------------------------------------

/** A value as it stands in a message: short, in one line. */
export function shown(value) {
    if (typeof value === "string") return JSON.stringify(value.length > 60 ? `${value.slice(0, 60)}...` : value);
    if (typeof value === "object" && value !== null) return Array.isArray(value) ? "a list" : "an object";
    return String(value).slice(0, 60);
}

const units = {celsius: "°C", hpa: "hPa", metres: "m", grams: "g", percent: "%", kelvin: "K"};

function rangeOf(name) {
    const argument = name === "celsius" ? "temperature_celsius" : name;
    const call = new Call();
    try {
        const at = call.reserve(16);
        if (run("sirop_accepted_range", [call.bytes(utf8.encode(argument), 1), at]) !== 0) return undefined;
        const [low, high] = new Float64Array(wasm.memory.buffer, at, 2);
        return {low, high};
    } finally {
        call.release();
    }
}

/** "300 to 1100 hPa is accepted" */
function accepted(name, range = rangeOf(name)) {
    const unit = units[name.replace(/^.*_/, "")];
    return range === undefined ? "a number is accepted"
        : `${range.low} to ${range.high}${unit === undefined ? "" : ` ${unit}`} is accepted`;
}

/** The value, unless it is missing. */
function needed(value, label, what) {
    if (value === undefined || value === null) throw new MissingArgumentError(`${label}: is missing; ${what}`);
    return value;
}

function numberIn(value, {range, label, preset}) {
    if (value === undefined && preset !== undefined) return preset;
    if (typeof value === "number") return value;  // what is accepted is asked of the module only where it is told
    throw new OutOfRangeError(`${label}: ${shown(needed(value, label, accepted(range)))} is not a number; ` +
        accepted(range));
}

function indexIn(value, {label}) {
    needed(value, label, "a whole number is accepted");
    if (Number.isInteger(value) && Math.abs(value) <= 0x7FFFFFFF) return value;
    throw new OutOfRangeError(`${label}: ${shown(value)} is not a whole number of 32 bits`);
}

function textIn(value, {label}) {
    if (typeof needed(value, label, "a text is accepted") !== "string")
        throw new UnknownNameError(`${label}: ${shown(value)} is not a text`);
    if (value.includes("\0")) throw new UnknownNameError(`${label}: ${shown(value)} is not known`);
    return value;
}

function truthIn(value, {label}) {
    if (typeof needed(value, label, "true or false is accepted") === "boolean") return value;
    throw new OutOfRangeError(`${label}: ${shown(value)} is not true or false`);
}

function isList(value) {
    return Array.isArray(value) || (ArrayBuffer.isView(value) && !(value instanceof DataView));
}

/** One mixture: masses in the order of the components, or by their names. */
function massesIn(value, {label}) {
    if (value === undefined || value === null) needed(value, label, accepted("grams"));
    let grams = value;
    if (typeof value === "object" && !isList(value)) {
        grams = new Float64Array(masses.length);
        for (const [name, mass] of Object.entries(value)) {
            const i = masses.indexOf(name);
            if (i < 0)
                throw new UnknownNameError(`${label}.${name}: unknown component; accepted: ${masses.join(", ")}`);
            grams[i] = numberIn(mass, {range: "grams", label: `${label}.${name}`});
        }
    } else if (!isList(value)) {
        throw new OutOfRangeError(`${label}: ${shown(value)} is not a mixture; an object such as ` +
            "{sucrose: 60, water: 20} or a list of masses is accepted");
    }
    if (grams.length < 1 || grams.length > masses.length)
        throw new OutOfRangeError(`${label}: has ${grams.length} masses; 1 to ${masses.length} are accepted`);
    return Float64Array.from(grams, (mass, i) => numberIn(mass, {range: "grams", label: `${label}.${masses[i]}`}));
}

/** n mixtures: a list of them, or all their masses one after the other. */
function rowsIn(value, {label}) {
    if (value === undefined || value === null) needed(value, label, accepted("grams"));
    if (Array.isArray(value) && typeof value[0] === "object") {
        const components = masses.length;
        const all = new Float64Array(value.length * components);
        value.forEach((one, i) => all.set(massesIn(one, {label: `${label}[${i}]`}), i * components));
        return {n: value.length, components, all};
    }
    const {grams, components = masses.length} = isList(value) ? {grams: value} : value;
    if (!isList(grams))
        throw new OutOfRangeError(`${label}: ${shown(value)} is not a list of mixtures, nor of their masses`);
    if (!Number.isInteger(components) || components < 1 || components > masses.length)
        throw new OutOfRangeError(`${label}.components: ${shown(components)}; 1 to ${masses.length} is accepted`);
    if (grams.length % components !== 0)
        throw new OutOfRangeError(`${label}: has ${grams.length} masses; a multiple of ${components} is accepted`);
    const all = grams instanceof Float64Array ? grams
        : Float64Array.from(grams, (mass, i) => numberIn(mass, {range: "grams", label: `${label}[${i}]`}));
    return {n: grams.length / components, components, all};
}

/** n desserts of as many layers each: a list of lists of mixtures, or all their masses one after the other. */
function dessertsIn(value, {label}) {
    if (value === undefined || value === null) needed(value, label, accepted("grams"));
    if (!isList(value)) {
        const {n: mixtures, components, all} = rowsIn(value, {label});
        if (!Number.isInteger(value.layers) || value.layers < 1 || mixtures % value.layers !== 0)
            throw new OutOfRangeError(`${label}.layers: ${shown(value.layers)}; a whole number that divides ` +
                `${mixtures} mixtures is accepted`);
        return {n: mixtures / value.layers, layers: value.layers, components, all};
    }
    const desserts = Array.from(value, (one, i) => rowsIn(one, {label: `${label}[${i}]`}));
    const [{n: layers, components} = {n: 1, components: 1}] = desserts;
    for (const [i, one] of desserts.entries())
        for (const [has, first, what] of [[one.n, layers, "layers"], [one.components, components, "components"]])
            if (has !== first)
                throw new OutOfRangeError(`${label}[${i}]: has ${has} ${what}; ${first}, as in the first, ` +
                    "are accepted");
    const all = new Float64Array(desserts.length * layers * components);
    desserts.forEach((one, i) => all.set(one.all, i * layers * components));
    return {n: desserts.length, layers, components, all};
}

/** How many plain numbers are meant: as many as the first list of them holds, or else one. */
function countOf(takes, args) {
    const first = takes.findIndex(({kind}, i) => (kind === "many" || kind === "numbers") && isList(args[i]));
    return first < 0 ? 1 : args[first].length;
}

function numbersIn(value, {range, label}, n) {
    if (!isList(value)) return new Float64Array(n).fill(numberIn(value, {range, label}));
    if (value.length !== n)
        throw new OutOfRangeError(`${label}: has ${value.length} numbers; ${n} are accepted, or one for all`);
    if (value instanceof Float64Array) return value;
    return Float64Array.from(value, (one, i) => numberIn(one, {range, label: `${label}[${i}]`}));
}

/** Where a number stands that JSON cannot write. */
function unwritable(value, place) {
    if (typeof value === "number" && !Number.isFinite(value)) return `${place}: ${value} is not a finite number`;
    if (typeof value === "bigint") return `${place}: ${value}n is not a number of JSON`;
    if (typeof value !== "object" || value === null) return undefined;
    for (const [key, inner] of Object.entries(value)) {
        const here = Array.isArray(value) ? `${place}[${key}]` : place === "" ? key : `${place}.${key}`;
        const fault = unwritable(inner, here);
        if (fault !== undefined) return fault;
    }
    return undefined;
}

function jsonIn(value, {label}) {
    if (typeof value === "string") return value;
    if (typeof needed(value, label, "an object, or its text in JSON, is accepted") !== "object") throw new BatchRefusedError(`${label}: is ${shown(value)}; an object is accepted`);
    let fault;
    try {
        fault = unwritable(value, "");
        if (fault === undefined) return JSON.stringify(value);
    } catch (problem) {
        fault = `${label}: cannot be written as JSON (${problem.message.split("\n")[0]})`;
    }
    throw new BatchRefusedError(fault);
}

/** Where each handle comes from. */
const origins = {batch: "a batch of batchNew or batchRead", question: "a question of questionNew",
    answer: "an answer of batchPredict or questionAsk"};

/** What stands for a thing in the module's memory: a batch or a question that is put together, or an answer. */
class Handle {
    #at;
    #kind;
    #home = wasm;

    constructor(kind, at) {
        this.#kind = kind;
        this.#at = at;
        forgotten.register(this, {kind, at, home: wasm}, this);
    }

    static addressOf(handle, {kind, label}) {
        if (handle === undefined || handle === null) throw new MissingArgumentError(`${label}: is missing`);
        if (!(handle instanceof Handle) || handle.#kind !== kind)
            throw new OutOfRangeError(`${label}: ${shown(handle)} is not ${origins[kind]}`);
        if (handle.#at === 0) throw new MissingArgumentError(`${label}: has been freed`);
        if (handle.#home !== wasm) throw new GeneralError(`${label}: was lost when sirop was loaded again`);
        return handle.#at;
    }

    static free(handle, take) {
        if (handle === undefined || handle === null) return;
        if (handle instanceof Handle && (handle.#at === 0 || handle.#home !== wasm)) return;
        run(`sirop_${take.kind}_free`, [Handle.addressOf(handle, take)]);
        handle.#at = 0;
        forgotten.unregister(handle);
    }
}

/** Frees what a program has forgotten, some time. */
const forgotten = new FinalizationRegistry(({kind, at, home}) => {
    if (home === wasm) run(`sirop_${kind}_free`, [at]);
});

// --- results --------------------------------------------------------------------------------------------------------

const plain = {double: Float64Array, int32_t: Int32Array, handle: Uint32Array};
const bytesOf = (type) => layouts[type]?.bytes ?? plain[type].BYTES_PER_ELEMENT;

/** n plain values, `step` bytes apart. */
function columnAt(type, at, n, step = bytesOf(type)) {
    const stride = step / bytesOf(type);
    const all = new plain[type](wasm.memory.buffer, at, n === 0 ? 0 : stride * (n - 1) + 1);
    return plain[type].from({length: n}, (_, i) => all[stride * i]);
}

/** One value: a plain one, or a struct with its members. */
function valueAt(type, at) {
    if (layouts[type] === undefined) return columnAt(type, at, 1)[0];
    const found = Object.fromEntries(layouts[type].fields.map(([label, inner, offset]) =>
        [label, valueAt(inner, at + offset)]));
    return "status" in found ? {...found, extrapolated: found.status > 0} : found;
}

/** n values: an array of each member, or of what is plain. */
function columnsAt(type, at, n, label = "value") {
    const {bytes, fields} = layouts[type] ?? {bytes: bytesOf(type), fields: [[label, type, 0]]};
    return Object.fromEntries(fields.map(([member, inner, offset]) => [member, columnAt(inner, at + offset, n, bytes)]));
}

/** What an element is of each kind of result that has n. */
const elements = {values: "double", wholes: "int32_t", ranges: "range", estimates: "estimate", gains: "estimate",
    places: "place", grainings: "graining", syrups: "double"};
const single = {number: "double", whole: "int32_t", masses: "double"};

/** Room for a result: what the function gets for it, and how it is read. */
function roomFor({kind}, memory, n, layers) {
    const type = elements[kind] ?? (origins[kind] !== undefined ? "handle" : single[kind] ?? kind);
    const counted = kind === "masses" || kind === "syrups";
    const count = (kind in elements ? n : 1) * (counted ? masses.length : kind === "gains" ? layers : 1);
    const at = memory.reserve(bytesOf(type) * count);
    if (count > 0) new Uint32Array(wasm.memory.buffer, at, 1)[0] = layouts[type]?.sized ? layouts[type].bytes : 0;
    // Where an element has no room for its status, they go before.
    const own = layouts[type]?.fields.some(([label]) => label === "status");
    const beside = kind in elements && !own ? memory.reserve(4 * n) : undefined;
    return {
        raw: [...(beside === undefined ? [] : [beside]), at, ...(counted ? [masses.length] : [])],
        read: () => {
            if (type === "handle") {
                const made = valueAt(type, at);
                return made === 0 ? undefined : new Handle(kind, made);
            }
            if (kind === "masses")
                return Object.fromEntries([...columnAt(type, at, count)].map((mass, i) => [masses[i], mass])
                    .filter(([, mass]) => mass !== 0));
            if (kind === "grainings")
                return Array.from({length: n}, (_, i) => valueAt(type, at + i * bytesOf(type)));
            if (!(kind in elements)) return valueAt(type, at);
            const found = columnsAt(type, at, count, counted ? "grams" : "value");
            return beside === undefined ? found : {...found, status: columnAt("int32_t", beside, n)};
        },
    };
}

// --- what is wrong --------------------------------------------------------------------------------------------------

const lists = {property: "properties()", ingredient: "ingredients()", conversion: "conversions()",
    table: "stageTables()", stage: "stageTables()", kind: "questionKinds()", argument: "argumentNames()"};

function meaningOf(status) {
    return textAt(run("sirop_status_text", [status]) >>> 0);
}

/** Says that a number is outside its range, if it is.  A range whose ends are equal: the number does not matter. */
function beyond(label, number, range, within = rangeOf(range)) {
    if (within === undefined || within.low === within.high || (number >= within.low && number <= within.high))
        return undefined;
    return `${label}: ${number} is outside the accepted range, ` + accepted(range, within).replace(" is accepted", "");
}

/** Says what is wrong with a mixture, if something is. */
function unmixable(label, grams, range) {
    const within = rangeOf(range);
    for (const [i, mass] of grams.entries()) {
        const found = beyond(`${label}.${masses[i]}`, mass, range, within);
        if (found !== undefined) return found;
    }
    return grams.some((mass) => mass > 0) ? undefined : `${label}: all are 0; at least one mass above 0 is accepted`;
}

/** Names the argument that is outside its range, if one is. */
function outside(takes, values) {
    const property = takes[0]?.name === "property" ? values[0] : undefined;
    for (const [i, {kind, name, range, label}] of takes.entries()) {
        const value = values[i];
        let found;
        if (kind === "number")
            found = beyond(label, value, range, name === "celsius" && property !== undefined
                ? call("sirop_property_range", [property]).celsius : undefined);
        else if (kind === "masses") found = unmixable(label, value, range);
        else if (kind === "rows" && value.n === 0) found = `${label}: has no mixture; at least one is accepted`;
        for (let row = 0; kind === "rows" && found === undefined && row < value.n; ++row)
            found = unmixable(`${label}[${row}]`,
                value.all.subarray(row * value.components, (row + 1) * value.components), range);
        if (found !== undefined) return found;
    }
    return undefined;
}

/** What is wrong with the arguments, in a sentence. */
function problem(status, name, takes, values) {
    // A batch and a question say themselves why they refused a call.
    const reason = ["batch", "question"].includes(takes[0]?.kind) ? refusalOf(values[0], takes[0]) : "";
    if (reason !== "") return reason;
    if (status === -2) {
        const found = outside(takes, values);
        if (found !== undefined) return found;
    }
    if (status === -3) {
        const given = takes.flatMap(({kind, label}, i) =>
            kind.startsWith("text") && values[i] !== undefined ? [`${label}: ${shown(values[i])}`] : []);
        const where = [...new Set(takes.flatMap(({name: argument}) => lists[argument] ?? []))];
        return `${given.join(", ") || publicName(name)} is not known` +
            (where.length === 0 ? "" : `; ${where.join(" and ")} lists what is`);
    }
    const numbers = takes.flatMap(({kind, label}, i) =>
        kind === "number" || kind === "index" ? [`${label} ${values[i]}`] : []);
    return `${publicName(name)}: ${meaningOf(status)}${numbers.length === 0 ? "" : ` (${numbers.join(", ")})`}`;
}

function refusalOf(handle, take) {
    return textAt(run(`sirop_${take.kind}_refusal`, [Handle.addressOf(handle, take)]) >>> 0);
}

/** The reason that a refused text's handle holds; the handle is not needed any more. */
function reasonOf(handle) {
    const take = {kind: "batch", label: "batch"};
    const reason = refusalOf(handle, take);
    Handle.free(handle, take);
    return reason;
}

// --- calls ----------------------------------------------------------------------------------------------------------

const expectedBytes = 65536;  // ample for the usual answer

const optionalText = (value, argument) => value === undefined || value === null ? undefined : textIn(value, argument);

/** Each kind of argument: its value as it is understood, and what the function gets for it. */
const takers = {
    number: [numberIn, (number) => [number]],
    index: [indexIn, (index) => [index]],
    "text?": [optionalText, (text, memory) => [text === undefined ? 0 : memory.bytes(utf8.encode(text), 1)]],
    text: [textIn, (text, memory) => [memory.bytes(utf8.encode(text), 1)]],
    json: [jsonIn, (text, memory) => {
        const bytes = utf8.encode(text);
        return [memory.bytes(bytes), bytes.length];
    }],
    masses: [massesIn, (grams, memory) => [memory.numbers(grams), grams.length]],
    rows: [rowsIn, ({n, all, components}, memory) => [n, memory.numbers(all), components]],
    desserts: [dessertsIn, ({n, layers, all, components}, memory) => [n, layers, memory.numbers(all), components]],
    many: [numbersIn, (numbers, memory) => [numbers.length, memory.numbers(numbers)]],
    numbers: [numbersIn, (numbers, memory) => [memory.numbers(numbers)]],
    truth: [truthIn, (yes) => [yes ? 1 : 0]],
    handle: [(handle) => handle, (handle, memory, argument) => [Handle.addressOf(handle, argument)]],
};

/** Calls a function of the table with its arguments, in their order, and gives what the table says. */
export function call(name, args) {
    running();
    const {takes, gives} = functions[name];
    const [first] = gives;
    if (first.kind === "nothing") return Handle.free(args[0], takes[0]);
    const memory = new Call();
    try {
        const values = [];
        const raw = [];
        let n = countOf(takes, args), layers = 1;
        for (const [i, argument] of takes.entries()) {
            const [understood, passed] = takers[argument.kind] ?? takers.handle;
            const value = understood(args[i], argument, n);
            if (argument.kind === "rows" || argument.kind === "desserts") ({n, layers = 1} = value);
            values.push(value);
            raw.push(...passed(value, memory, argument));
        }
        if (first.kind === "written") return written(name, takes, values, raw, memory);

        const rooms = first.kind === "text" || first.kind === "done" ? []
            : gives.map((one) => roomFor(one, memory, n, layers));
        const returned = run(name, [...raw, ...rooms.flatMap((room) => room.raw)]);
        if (first.kind === "text") return textAt(returned >>> 0);
        const results = rooms.map((room) => room.read());
        const result = results.length === 1 ? results[0]
            : results.length === 0 ? undefined
            : Object.fromEntries(gives.map(({label}, i) => [label, results[i]]));
        // An array goes on after an element that fails, but not with a name that is unknown for all; graining goes on
        // without the one of two sugars.  Each part carries its status.
        const goesOn = first.kind in elements ? returned !== -3 : first.kind === "graining" && result.risk >= 0;
        if (returned < 0 && !goesOn) {
            const reason = result instanceof Handle ? reasonOf(result) : "";
            throw errorOf(returned, reason !== "" ? reason : problem(returned, name, takes, values));
        }
        if (first.kind === "place")
            result.name = call("sirop_stage_place_text", [values[0], result.lower, result.upper]);
        if (returned > 0) tell(name, result);
        return result;
    } finally {
        memory.release();
    }
}

function written(name, takes, values, raw, memory) {
    const needed = memory.reserve(4);
    let bytes = expectedBytes;
    for (;;) {
        const out = memory.reserve(bytes);
        const status = run(name, [...raw, out, bytes, needed]);
        const [size] = new Uint32Array(wasm.memory.buffer, needed, 1);
        if (status === -4 && size > bytes) {
            bytes = size;
            continue;
        }
        const text = size === 0 ? "" : fromUtf8.decode(new Uint8Array(wasm.memory.buffer, out, size - 1));
        if (status < 0)
            throw errorOf(status, status === -5 && text !== "" ? text : problem(status, name, takes, values));
        if (status > 0) tell(name, text);
        return text;
    }
}

// --- extrapolation --------------------------------------------------------------------------------------------------

let hook;

/** A function that is told of each extrapolated result: hook(name, result).  undefined takes it away. */
export function onExtrapolated(listener) {
    if (listener !== undefined && listener !== null && typeof listener !== "function")
        throw new OutOfRangeError(`listener: ${shown(listener)} is not a function`);
    hook = listener ?? undefined;
}

function tell(name, result) {
    hook?.(publicName(name), result);
}

/** The public JavaScript function of each C function, by its name. */
export function bindAll() {
    return Object.fromEntries(Object.keys(functions).map((name) => {
        const bound = (...args) => call(name, args);
        Object.defineProperty(bound, "name", {value: publicName(name)});
        Object.defineProperty(bound, "length", {value: functions[name].takes.length});
        return [publicName(name), bound];
    }));
}
