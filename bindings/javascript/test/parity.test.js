// Every case of the shared dump gives the same here as from C: 1e-13 relative or 1e-12 in the unit, texts exactly.
import assert from "node:assert/strict";
import {readFileSync} from "node:fs";
import test from "node:test";
import * as sirop from "sirop";
import {functions, publicName, signature} from "./table.js";

await sirop.init();
const cases = readFileSync(process.env.SIROP_PARITY_CASES, "utf8").trim().split("\n").map((line) => JSON.parse(line));

/** Where two values differ, or undefined. */
function difference(ours, theirs, place) {
    if (theirs === null)
        return ours === null || ours === undefined || Number.isNaN(ours) ? undefined : `${place}: ${ours}, not NaN or null`;
    if (typeof theirs === "number") {
        if (ours === theirs) return undefined;
        const far = Math.abs(ours - theirs);
        return far <= 1e-13 * Math.abs(theirs) || far <= 1e-12 ? undefined : `${place}: ${ours}, not ${theirs}`;
    }
    if (typeof theirs !== "object")
        return ours === theirs ? undefined : `${place}: ${JSON.stringify(ours)}, not ${JSON.stringify(theirs)}`;
    if (typeof ours !== "object" || ours === null) return `${place}: ${ours} is no object`;
    if (Array.isArray(theirs) && ours.length !== theirs.length)
        return `${place}: ${ours.length} elements, not ${theirs.length}`;
    for (const key of Object.keys(ours)) if (!(key in theirs)) return `${place}.${key}: is too much`;
    for (const key of Object.keys(theirs)) {
        const found = difference(ours[key], theirs[key], `${place}.${key}`);
        if (found !== undefined) return found;
    }
    return undefined;
}

const isHandle = (kind) => ["batch", "question", "answer"].includes(kind);

const numberOr = (x) => (x === null ? NaN : x);

/** The arguments of a case, in the order of the function; null is NaN for a number and nothing for all else. */
function argumentsOf({call, in: given}, handles) {
    return signature(call).takes.map(({kind, name}) => {
        if (isHandle(kind)) return handles[kind];
        assert.ok(name in given, `${call}: the case has no ${name}`);
        const value = given[name];
        if (kind === "number") return numberOr(value);
        if (value === null) return undefined;
        if (["numbers", "many", "masses"].includes(kind)) return value.map(numberOr);
        if (kind === "truth") return value !== 0;
        if (kind === "rows" || kind === "desserts")
            return {grams: value.map(numberOr), components: given.components, layers: given.layers};
        return value;
    });
}

const snake = (name) => name.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
const worst = (statuses) => statuses.find((status) => status < 0) ?? Math.max(0, ...statuses);

/** A result in the shape of the case, with its own status if it carries one. */
const shapes = {
    estimate: ({value, low, high, status, extrapolated}) => {
        assert.equal(extrapolated, status === 1);
        return {out: {value, low, high}, status};
    },
    estimates: ({value, low, high, status}) => ({
        out: Array.from(value, (_, i) => ({value: value[i], low: low[i], high: high[i], status: status[i]})),
        status: worst([...status]),
    }),
    graining: ({status, extrapolated, ...rest}) => {
        assert.equal(extrapolated, status > 0);
        return {status, out: Object.fromEntries(Object.entries(rest).map(([key, value]) =>
            [snake(key), typeof value === "object" ? shapes.estimate(value).out : value]))};
    },
    grainings: (list) => ({
        out: list.map((one) => ({...shapes.graining(one).out, status: one.status})),
        status: worst(list.map(({status}) => status)),
    }),
    place: ({lower, upper, name, status, extrapolated}) => {
        assert.equal(extrapolated, status === 1);
        assert.ok(name.length > 0);
        return {out: {lower, upper}, status};
    },
    places: ({lower, upper, status}) => ({
        out: Array.from(lower, (_, i) => ({lower: lower[i], upper: upper[i], status: status[i]})),
        status: worst([...status]),
    }),
    values: ({value, status}, name) => ({out: {statuses: [...status], [name]: [...value]}, status: worst([...status])}),
    ranges: ({low, high, status}, name) => ({
        out: {statuses: [...status], [name]: Array.from(low, (_, i) => ({low: low[i], high: high[i]}))},
        status: worst([...status]),
    }),
    syrups: ({grams, status}, name) => shapes.values({value: grams, status}, name),
    masses: (grams) => ({out: sirop.components().map((name) => grams[name] ?? 0)}),
    batch: () => ({out: null}),
    question: () => ({out: null}),
    answer: () => ({out: null}),
};
shapes.gains = shapes.estimates;
shapes.wholes = shapes.values;

function shaped(gives, result) {
    if (gives.length === 1) return shapes[gives[0].kind]?.(result, gives[0].name) ?? {out: result};
    const all = gives.map(({kind, label}) => shapes[kind]?.(result?.[label]) ?? {out: result?.[label]});
    return {
        out: Object.fromEntries(gives.map(({name}, i) => [name, all[i].out])),
        status: worst(all.map(({status}) => status ?? 0)),
    };
}

/** What our function gives, in the shape of the case.  A handle that it gives is kept among the handles. */
function perform(one, handles) {
    let told = 0;
    sirop.onExtrapolated(() => (told = 1));
    const {gives} = signature(one.call);
    const [{kind}] = gives;
    if (kind === "answer") handles.answer = undefined;
    try {
        const result = sirop[publicName(one.call)](...argumentsOf(one, handles));
        if (isHandle(kind)) handles[kind] = result;
        const {out, status = told} = shaped(gives, result);
        if (status >= 0) assert.equal(status, told, "the listener");
        return {status, out};
    } catch (problem) {
        if (!(problem instanceof sirop.SiropError)) throw problem;
        return {status: problem.code, reason: problem.message};
    } finally {
        sirop.onExtrapolated(undefined);
    }
}

/** A case after the calls that led to it, on handles of its own. */
function repeat(one) {
    const handles = {};
    try {
        for (const step of one.before ?? []) perform(step, handles);
        return perform(one, handles);
    } finally {
        sirop.answerFree(handles.answer);
        sirop.questionFree(handles.question);
        sirop.batchFree(handles.batch);
    }
}

/** Whether C gave nothing: no number, no text (an index that means nothing is -1). */
function isNothing(out) {
    if (Array.isArray(out)) return out.every(isNothing);
    if (typeof out === "object" && out !== null)
        return Object.entries(out).every(([key, value]) => key.startsWith("status") || isNothing(value));
    return out === null || out === -1;
}

/** A text in JSON is compared by its values. */
function readable(out) {
    if (typeof out !== "string" || !/^\s*[{[]/.test(out)) return out;
    try {
        return JSON.parse(out);
    } catch {
        return out;
    }
}

test("the dump has 1000 cases", () => assert.ok(cases.length >= 1000));

for (const call of Object.keys(functions)) {
    test(`${call} gives what C gives`, () => {
        const own = cases.filter((one) => one.call === call);
        assert.ok(own.length > 0, `no case of ${call}`);
        for (const one of own) {
            const ours = repeat(one);
            const where = JSON.stringify(one.in).slice(0, 400);
            assert.equal(ours.status, one.status, `status of ${call}(${where})`);
            if (ours.reason !== undefined) {
                // The error takes the place of what C wrote: the reason of a refusal, or else nothing.
                if (typeof one.out === "string") assert.equal(ours.reason, one.out, where);
                else assert.ok(isNothing(one.out), `${call}(${where}) gave ${JSON.stringify(one.out)}`);
                continue;
            }
            const found = difference(readable(ours.out), readable(one.out), "out");
            assert.equal(found, undefined, `${call}(${where})`);
        }
    });
}

test("every case belongs to a function of the table", () => {
    for (const {call} of cases) assert.ok(call in functions, call);
});
