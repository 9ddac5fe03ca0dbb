// Bad calls: each gets the error of its class and code, and a message with the argument, the value and what is
// accepted.  A module that stops is never called again before a fresh start.
import assert from "node:assert/strict";
import test from "node:test";
import * as sirop from "sirop";
import {bytes, components, withMostPages} from "./limited.js";
import {functions, publicName, signature} from "./table.js";

test("before init nothing answers", () => {
    for (const early of [() => sirop.version(), () => sirop.predict({}), () => sirop.components()])
        assert.throws(early, (problem) => problem instanceof sirop.GeneralError && /init/.test(problem.message));
});

test("init refuses what is no module, and stays usable", async () => {
    await assert.rejects(sirop.init("sirop.wasm"), sirop.OutOfRangeError);
    await assert.rejects(sirop.init(new Uint8Array([1, 2, 3])), WebAssembly.CompileError);
    await sirop.init();
});

const {BatchRefusedError, ImpossibleError, MissingArgumentError, OutOfRangeError, UnknownNameError} = sirop;
const syrup = {sucrose: 60, water: 20};
const batch = {sirop_batch: 1, pan: [{ingredient: "honey", grams: 50}], cook: {to_celsius: 120}};
const refused = (change) => () => sirop.predict({...batch, ...change});

const bad = [
    ["pressure too low", () => sirop.boilingPointCelsius(syrup, 299), OutOfRangeError,
        /pressureHpa: 299 .*300 to 1100 hPa/],
    ["pressure is NaN", () => sirop.waterBoilsCelsius(NaN), OutOfRangeError, /pressureHpa: NaN .*300 to 1100 hPa/],
    ["altitude is infinite", () => sirop.pressureAtAltitudeHpa(Infinity), OutOfRangeError,
        /altitudeMetres: Infinity .*-500 to 9000 m/],
    ["boiling water as a text", () => sirop.pressureFromBoilingWaterHpa("98"), OutOfRangeError,
        /waterBoilsCelsius: "98" .*70 to 102 °C/],
    ["pressure missing", () => sirop.boilingPointCelsius(syrup), MissingArgumentError,
        /pressureHpa: is missing.*300 to 1100 hPa/],
    ["mixture missing", () => sirop.freezingPointCelsius(), MissingArgumentError, /grams: is missing/],
    ["a negative mass", () => sirop.waterActivity({sucrose: -1, water: 20}, 20), OutOfRangeError,
        /grams\.sucrose: -1 .*0 to 1000000000 g/],
    ["all masses 0", () => sirop.waterActivity({water: 0}, 20), OutOfRangeError, /grams: .*above 0/],
    ["too many masses", () => sirop.waterActivity(new Array(40).fill(1), 20), OutOfRangeError,
        /grams: has 40 masses; 1 to \d+ /],
    ["unknown component", () => sirop.waterActivity({suger: 1, water: 1}, 20), UnknownNameError,
        /grams\.suger: .*sucrose/],
    ["a mixture as a number", () => sirop.waterActivity(5, 20), OutOfRangeError, /grams: 5 /],
    ["too hot", () => sirop.waterActivity(syrup, 251), OutOfRangeError, /celsius: 251 .*-30 to 250 °C/],
    ["no water", () => sirop.boilingPointCelsius({sucrose: 1}, 1000), ImpossibleError,
        /boilingPointCelsius: .*no answer.*pressureHpa 1000/],
    ["cooler than boiling water", () => sirop.waterAtBoilGrams(syrup, 90, 1013.25), ImpossibleError, /celsius 90/],
    ["unknown property", () => sirop.property("sweetness", syrup, 20), UnknownNameError,
        /property: "sweetness" is not known; properties\(\)/],
    ["property outside its temperatures", () => sirop.property("refractive_index", syrup, 120), OutOfRangeError,
        /celsius: 120 .*-30 to 100 °C/],
    ["a NUL in a name", () => sirop.propertyRange("density_g_per_ml\0x"), UnknownNameError, /not known/],
    ["unknown argument", () => sirop.acceptedRange("mood"), UnknownNameError, /argument: "mood" is not known/],
    ["index is no whole number", () => sirop.componentName(1.5), OutOfRangeError, /component: 1\.5/],
    ["unknown table", () => sirop.predict(batch, {table: "mars 2090"}), UnknownNameError,
        /table: "mars 2090" is not known/],
    ["the table in place of the options", () => sirop.predict(batch, "us 1918"), OutOfRangeError,
        /options: "us 1918" .*\{table/],
    ["an unknown option", () => sirop.report(batch, {tabel: "us 1918"}), UnknownNameError,
        /options\.tabel: unknown key; accepted: table/],
    ["batch missing", () => sirop.predict(), MissingArgumentError, /batch: is missing/],
    ["batch as a number", () => sirop.predict(7), BatchRefusedError, /batch: is 7; an object/],
    ["batch in broken JSON", () => sirop.predict("{"), BatchRefusedError, /line 1, column/],
    ["unknown key", refused({pam: []}), BatchRefusedError, /^pam: unknown key/],
    ["unknown ingredient", refused({pan: [{ingredient: "moon dust", grams: 5}]}), BatchRefusedError,
        /^pan\[0\]\.ingredient: unknown ingredient "moon dust"/],
    ["mass is NaN", refused({pan: [{ingredient: "honey", grams: NaN}]}), BatchRefusedError, /^pan\[0\]\.grams: NaN/],
    ["not reached by boiling", refused({cook: {to_celsius: 101}}), BatchRefusedError,
        /^cook\.to_celsius: 101\.0 °C .*starts to boil/],
    ["batch that holds itself", () => {
        const round = {...batch};
        round.pan = [round];
        sirop.predict(round);
    }, BatchRefusedError, /cannot be written as JSON/],
    ["arrays of unequal length", () => sirop.waterActivityN([syrup, syrup], [20, 30, 40]), OutOfRangeError,
        /celsius: has 3 numbers; 2 are accepted/],
    ["masses that do not fill the rows", () => sirop.freezingPointCelsiusN(new Float64Array(components + 1)),
        OutOfRangeError, RegExp(`grams: has ${components + 1} masses; a multiple of ${components} is`)],
    ["unknown conversion", () => sirop.convert("brix_to_joy", 1), UnknownNameError,
        /conversion: "brix_to_joy" is not known; conversions\(\)/],
    ["no such Brix", () => sirop.convert("brix_to_density_kg_m3", 160), OutOfRangeError, /value 160/],
    ["unknown ingredient of the pantry", () => sirop.ingredientGrams("moon dust"), UnknownNameError,
        /ingredient: "moon dust" is not known; ingredients\(\)/],
    ["unknown stage", () => sirop.stageRangeCelsius("us 2004", "melted"), UnknownNameError,
        /stage: "melted" is not known; stageTables\(\)/],
    ["graining too hot", () => sirop.grainingAt(syrup, 140), OutOfRangeError, /celsius: 140 .*-30 to 100 °C/],
    ["unknown question", () => sirop.ask({sirop_question: 1, ask: "why", batch}), BatchRefusedError,
        /^ask: is "why"; accepted: /],
    ["question missing", () => sirop.ask(), MissingArgumentError, /question: is missing/],
    ["unknown ingredient in a batch by calls", () => sirop.batchAdd(sirop.batchNew(), 0, "moon dust", 5),
        UnknownNameError, /ingredient: "moon dust" is unknown/],
    ["a place that is none", () => sirop.batchAdd(sirop.batchNew(), 9, "honey", 5), OutOfRangeError, /where: 9/],
    ["unknown field", () => sirop.batchSet(sirop.batchNew(), "mood", 1), UnknownNameError,
        /field: "mood" is unknown; accepted: .*serve_celsius/],
    ["field out of range", () => sirop.batchSet(sirop.batchNew(), "serve_celsius", 500), OutOfRangeError,
        /serve_celsius: 500 .*-30 to 100/],
    ["an empty batch", () => sirop.batchPredict(sirop.batchNew()), BatchRefusedError, /pan/],
    ["a batch in broken JSON by calls", () => sirop.batchRead("{"), BatchRefusedError, /line 1, column/],
    ["a batch that was freed", () => {
        const freed = sirop.batchNew();
        sirop.batchFree(freed);
        sirop.batchPredict(freed);
    }, MissingArgumentError, /batch: has been freed/],
    ["a batch in place of an answer", () => sirop.answerNumber(sirop.batchNew(), "set.celsius"), OutOfRangeError,
        /answer: an object is not an answer of batchPredict/],
    ["a key that the answer has not", () => {
        const own = sirop.batchRead(batch);
        sirop.answerNumber(sirop.batchPredict(own), "set.mood");
    }, UnknownNameError, /key: "set\.mood" is not known/],
    ["no question of that kind", () => sirop.questionNew("why"), UnknownNameError,
        /kind: "why" is not known; questionKinds\(\)/],
    ["a question without its batch", () => sirop.questionAsk(sirop.questionNew("cook_for")), BatchRefusedError,
        /batch: is missing/],
    ["a key that leads nowhere", () => sirop.questionSetNumber(sirop.questionNew("rescue"), "with.3", 1),
        UnknownNameError, /key: "with\.3" leads nowhere/],
    ["a number that JSON has not", () => sirop.questionSetNumber(sirop.questionNew("rescue"), "now.brix", NaN),
        OutOfRangeError, /value: not a number is not accepted/],
    ["a truth that is none", () => sirop.questionSetTruth(sirop.questionNew("rescue"), "now.additions_in", 1),
        OutOfRangeError, /yes: 1 is not true or false/],
    ["a truth missing", () => sirop.questionSetTruth(sirop.questionNew("rescue"), "now.additions_in"),
        MissingArgumentError, /yes: is missing/],
    ["a batch in place of a question", () => sirop.questionAsk(sirop.batchNew()), OutOfRangeError,
        /question: an object is not a question of questionNew/],
    ["a question that was freed", () => {
        const freed = sirop.questionNew("scale");
        sirop.questionFree(freed);
        sirop.questionSetNumber(freed, "yield.grams", 5);
    }, MissingArgumentError, /question: has been freed/],
    ["no place of a table", () => sirop.stagePlaceText(undefined, 4, 2), OutOfRangeError, /lower 4, upper 2/],
    ["no limit of growth there", () => sirop.growthLimit(99), OutOfRangeError, /index 99/],
    ["numbers missing", () => sirop.waterBoilsCelsiusN(), MissingArgumentError, /pressureHpa: is missing/],
    ["a text among numbers", () => sirop.waterBoilsCelsiusN([1000, "900"]), OutOfRangeError,
        /pressureHpa\[1\]: "900" is not a number/],
    ["an unknown conversion for many", () => sirop.convertN("brix_to_joy", [1, 2]), UnknownNameError,
        /conversion: "brix_to_joy" is not known/],
    ["desserts of unequal layers", () => sirop.layersAtEquilibriumN([[syrup, syrup], [syrup]], 20),
        OutOfRangeError, /grams\[1\]: has 1 layers; 2/],
    ["desserts that do not come out even",
        () => sirop.layersAtEquilibriumN({grams: new Float64Array(components * 3), layers: 2}, 20), OutOfRangeError,
        /grams\.layers: 2; a whole number that divides 3 mixtures/],
    ["desserts of unequal components", () => sirop.layersAtEquilibriumN([{grams: new Array(6).fill(1), components: 3},
        {grams: new Array(4).fill(1), components: 2}], 20), OutOfRangeError, /grams\[1\]: has 2 components; 3/],
    ["desserts that do not say their layers", () => sirop.layersAtEquilibriumN({grams: new Float64Array(2 * components)},
        20), OutOfRangeError, /grams\.layers: undefined/],
    ["numbers of unequal length", () => sirop.glucoseSyrupGramsN([42, 28], [80, 75, 70]), OutOfRangeError,
        /solidsPercent: has 3 numbers; 2 are accepted/],
    ["a negative mass in a layer", () => sirop.layersAtEquilibrium([syrup, {water: -1}], 20), OutOfRangeError,
        /grams\[1\]\.water: -1 .*0 to 1000000000 g/],
    ["an empty layer", () => sirop.layersAtEquilibrium([syrup, {water: 0}], 20), OutOfRangeError,
        /grams\[1\]: all are 0/],
    ["no layer", () => sirop.layersAtEquilibrium([], 20), OutOfRangeError, /grams: has no mixture/],
    ["an unknown table for many", () => sirop.stageOfTemperatureN("mars 2090", [110, 120], 1013.25),
        UnknownNameError, /table: "mars 2090" is not known/],
    ["an unknown stage for many", () => sirop.celsiusForStageN(undefined, "melted", [syrup], 1013.25),
        UnknownNameError, /stage: "melted" is not known/],
    ["a freed batch for a question", () => {
        const freed = sirop.batchNew();
        sirop.batchFree(freed);
        sirop.questionSetBatch(sirop.questionNew("scale"), "batch", freed);
    }, MissingArgumentError, /batch: has been freed/],
    ["a question with an unknown key", () => {
        const own = sirop.questionNew("cook_for");
        sirop.questionSetBatch(own, "batch", sirop.batchRead(batch));
        sirop.questionSetNumber(own, "wanted.sweetness", 5);
        sirop.questionAsk(own);
    }, BatchRefusedError, /^wanted\.sweetness: /],
    ["layers too cold", () => sirop.layersAtEquilibrium([syrup, syrup], -5), OutOfRangeError,
        /celsius: -5 .*0 to 100 °C/],
    ["a glucose syrup that is none", () => sirop.glucoseSyrupGrams(5, 80), OutOfRangeError,
        /dextroseEquivalent: 5 .*10 to 60/],
    ["a list where a value stands", () => {
        const own = sirop.batchPredict(sirop.batchRead(batch));
        sirop.answerCount(own, "set.word");
    }, UnknownNameError, /key: "set\.word" is not known/],
    ["a listener that is no function", () => sirop.onExtrapolated(3), OutOfRangeError, /listener: 3/],
];

const codes = new Map([[sirop.GeneralError, -1], [sirop.OutOfRangeError, -2], [sirop.UnknownNameError, -3],
    [sirop.BufferTooSmallError, -4], [sirop.BatchRefusedError, -5], [sirop.MissingArgumentError, -6],
    [sirop.OutOfMemoryError, -7], [sirop.ImpossibleError, -8]]);

test("at least 20 bad calls", () => assert.ok(bad.length >= 20));

for (const [name, call, Class, message] of bad) {
    test(`bad call: ${name}`, () => {
        assert.throws(call, (problem) => {
            assert.equal(problem.constructor, Class, `${problem.name}: ${problem.message}`);
            assert.ok(problem instanceof sirop.SiropError && problem instanceof Error);
            assert.equal(problem.code, codes.get(Class));
            assert.equal(problem.name, Class.name);
            assert.match(problem.message, message);
            return true;
        });
        // and the next good call is answered
        assert.ok(sirop.boilingPointCelsius(syrup, 1013.25).value > 100);
    });
}

test("place and reason of a refusal", () => {
    try {
        sirop.predict({...batch, serve: {celsius: 300}});
        assert.fail("not refused");
    } catch (problem) {
        assert.equal(problem.place, "serve.celsius");
        assert.match(problem.reason, /^300 is outside/);
    }
});

test("whatever is given: a result or a SiropError, and the next call is answered", () => {
    const odd = [undefined, null, NaN, Infinity, -0, 1e308, 5e-324, -1, 1013.25, 2 ** 40, 1.5, "", "water", "density_g_per_ml",
        "\0", "\ud800", "x".repeat(70000), true, 7n, Symbol("s"), () => 1, [], [1], [NaN], ["1"], [[1, 2]], [null], {},
        {water: "1"}, {water: 1}, {grams: 3}, {grams: [], components: 0}, {grams: [1, 2], components: NaN},
        new Float64Array(components).fill(1), new Float64Array(2 * components).fill(1), new Uint8Array([1, 2]),
        new ArrayBuffer(8),
        new DataView(new ArrayBuffer(8)), new Date(0), "{}", "[[[[", JSON.stringify(batch)];
    let calls = 0, answers = 0;
    const attempt = (call) => {
        ++calls;
        try {
            call();
            ++answers;
        } catch (problem) {
            assert.ok(problem instanceof sirop.SiropError, `${call}: ${problem}`);
            assert.ok(problem.message.length > 10 && !problem.message.includes("\n"));
        }
    };
    for (const name of Object.keys(functions)) {
        const {length} = signature(name).takes;
        const own = sirop[publicName(name)];
        for (let i = 0; i < 400; ++i)
            attempt(() => own(...Array.from({length}, (_, k) => odd[(i * (7 * k + 1) + 13 * k) % odd.length])));
    }
    // and with a batch, a question and an answer that are good
    for (const name of Object.keys(functions).filter((one) => !one.endsWith("_free"))) {
        const {takes} = signature(name);
        if (!["batch", "question", "answer"].includes(takes[0]?.kind)) continue;
        for (let i = 0; i < 60; ++i) {
            const own = {batch: sirop.batchRead(batch), question: sirop.questionNew("rescue")};
            own.answer = sirop.batchPredict(own.batch);
            attempt(() => sirop[publicName(name)](...takes.map(({kind}, k) =>
                own[kind] ?? odd[(i * (2 * k + 1) + 13 * k) % odd.length])));
            attempt(() => sirop.questionAsk(own.question));
            for (const kind of Object.keys(own)) sirop[`${kind}Free`](own[kind]);
        }
    }
    for (const value of odd)
        for (const friendly of [sirop.predict, sirop.report, sirop.property]) attempt(() => friendly(value, value));
    assert.ok(calls > 9000 && answers > 100, `${answers} of ${calls}`);
    assert.ok(sirop.waterBoilsCelsius(1000) > 99);
});

test("out of memory for the arguments: OutOfMemoryError, and it goes on", async () => {
    await sirop.init(withMostPages(4));
    assert.throws(() => sirop.freezingPointCelsiusN(new Float64Array(components * 100000).fill(1)), sirop.OutOfMemoryError);
    assert.ok(sirop.waterBoilsCelsius(1000) > 99);
});

test("out of memory inside: GeneralError, no answer until a fresh start", async () => {
    await sirop.init(withMostPages(12));
    const kept = sirop.batchNew();
    const question = sirop.questionNew("scale");
    const rows = Array.from({length: 3000}, () => ({ingredient: "honey", grams: 1}));
    assert.throws(() => sirop.predict({...batch, pan: rows}),
        (problem) => problem.constructor === sirop.GeneralError && problem.code === -1 && /stopped/.test(problem.message));
    for (const later of [() => sirop.waterBoilsCelsius(1000), () => sirop.predict(batch), () => sirop.components()])
        assert.throws(later, (problem) => problem.constructor === sirop.GeneralError && /afresh/.test(problem.message));
    await sirop.init();
    assert.ok(sirop.waterBoilsCelsius(1000) > 99);
    assert.throws(() => sirop.batchSet(kept, "serve_celsius", 20), (problem) => problem.constructor === sirop.GeneralError &&
        /lost when sirop was loaded again/.test(problem.message));
    assert.throws(() => sirop.questionAsk(question), /lost when sirop was loaded again/);
    sirop.batchFree(kept);
    sirop.questionFree(question);
    await sirop.init(bytes);
    assert.equal(sirop.predict({...batch, pan: rows}).sirop_answer, 1);
});
