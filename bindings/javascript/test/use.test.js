// What a program relies on: the worked example, arrays, extrapolation, catalogue, many calls.
import assert from "node:assert/strict";
import {readFileSync} from "node:fs";
import {createRequire} from "node:module";
import test from "node:test";
import {pathToFileURL} from "node:url";
import * as sirop from "sirop";
import {bytes, components, withMostPages} from "./limited.js";

await sirop.init();

const sauce = {
    sirop_batch: 1,
    title: "Caramel sauce (invented)",
    pan: [{ingredient: "white sugar", grams: 250}, {ingredient: "heavy cream 36 %", grams: 300}],
    cook: {to_celsius: 107, altitude_metres: 350},
};

test("object, text and bytes of the module lead to the same answer", async () => {
    const answer = sirop.predict(sauce);
    assert.deepEqual(sirop.predict(JSON.stringify(sauce)), answer);
    assert.equal(answer.title, "Caramel sauce (invented)");
    assert.equal(typeof answer.cooked.water_percent, "number");
    assert.ok(answer.cooked.water_percent_low < answer.cooked.water_percent);
    assert.ok(answer.cautions.some((line) => line.includes("burn")));
    for (const source of [bytes, bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length),
        new WebAssembly.Module(bytes)]) {
        assert.match(await sirop.init(source), /^\d+\.\d+\.\d+$/);
        assert.deepEqual(sirop.predict(sauce), answer);
    }
});

test("the report is for a cook, and takes a table", () => {
    assert.match(sirop.report(sauce), /WHAT TO WATCH[\s\S]*IN THE PAN/);
    assert.match(sirop.report(sauce, {table: "us 1918"}), /table "us 1918"/);
});

test("a title of any letters comes back", () => {
    for (const title of ["Sirop de fleurs séchées", "糖", "\u{1F36F} \"honey\"", "", "x".repeat(200000)])
        assert.equal(sirop.predict({...sauce, title}).title, title);
    for (const unfit of ["\0", "\n", "\u001b", "\u0085", "\u202e", "\u2028"])
        assert.throws(() => sirop.predict({...sauce, title: `a${unfit}b`}), /title: .* holds U\+.*plain text on one line/);
});

test("masses by name, in a list and in a typed array are the same mixture", () => {
    const byName = sirop.boilingPointCelsius({sucrose: 60, water: 20}, 1000);
    assert.deepEqual(sirop.boilingPointCelsius([20, 60], 1000), byName);
    assert.deepEqual(sirop.boilingPointCelsius(new Float64Array([20, 60, 0]), 1000), byName);
    assert.ok(byName.low < byName.value && byName.value < byName.high);
    assert.equal(sirop.components()[1], "sucrose");
});

test("arrays give the scalar results, also where one fails and many megabytes are asked", () => {
    const n = 20000;
    const grams = new Float64Array(2 * n);
    const celsius = new Float64Array(n);
    for (let i = 0; i < n; ++i) {
        grams[2 * i] = 20 + i % 50;
        grams[2 * i + 1] = 60;
        celsius[i] = i % 100;
    }
    grams[1] = -1;
    const all = sirop.waterActivityN({grams, components: 2}, celsius);
    for (const column of [all.value, all.low, all.high]) assert.ok(column instanceof Float64Array);
    assert.ok(all.status instanceof Int32Array);
    assert.equal(all.status[0], -2);
    assert.ok(Number.isNaN(all.value[0]) && Number.isNaN(all.low[0]) && Number.isNaN(all.high[0]));
    for (const i of [1, 49, 12345, n - 1]) {
        const one = sirop.waterActivity([grams[2 * i], grams[2 * i + 1]], celsius[i]);
        assert.deepEqual([all.value[i], all.low[i], all.high[i], all.status[i]],
            [one.value, one.low, one.high, one.status]);
    }
    const rows = sirop.freezingPointCelsiusN([{water: 80, sucrose: 20}, {water: 60, glucose: 40}]);
    assert.equal(rows.value[1], sirop.freezingPointCelsius({water: 60, glucose: 40}).value);
    assert.equal(sirop.freezingPointCelsiusN([]).value.length, 0);
});

test("syrups are rows, and layers are lists or all masses one after the other; one bad element spoils no other", () => {
    const rows = [{water: 20, sucrose: 60}, {water: -1}, {water: 30, sucrose: 60, glucose: 10}];
    const count = sirop.components().length;
    const equivalents = [42, 5, 28];
    const syrups = sirop.glucoseSyrupGramsN(equivalents, 80);
    assert.deepEqual([...syrups.status], [0, -2, 0]);
    for (const i of [0, 2]) {
        const alone = sirop.glucoseSyrupGrams(equivalents[i], 80);
        assert.deepEqual([...syrups.grams.slice(i * count, (i + 1) * count)],
            sirop.components().map((name) => alone[name] ?? 0));
    }
    assert.ok(syrups.grams.slice(count, 2 * count).every(Number.isNaN));
    // what it gives are rows, the one that failed too
    const failed = [...sirop.stageOfMixtureN(undefined, syrups.grams).status].map((status) => status < 0);
    assert.deepEqual(failed, [false, true, false]);
    // layers: lists, and all masses one after the other
    const desserts = [[rows[0], {water: 60, sucrose: 40}], [rows[0], rows[1]], [rows[2], {water: 15, sucrose: 85}]];
    const at = [20, 20, 4];
    const all = sirop.layersAtEquilibriumN(desserts, at);
    const flat = desserts.flat().flatMap((one) => sirop.components().map((name) => one[name] ?? 0));
    assert.deepEqual(sirop.layersAtEquilibriumN({grams: flat, layers: 2}, at), all);
    const narrow = {grams: [20, 60, 60, 40], components: 2};
    assert.equal(sirop.layersAtEquilibriumN([narrow, narrow], 20).waterActivity.value[1], all.waterActivity.value[0]);
    for (const [i, layers] of desserts.entries()) {
        const gained = Object.fromEntries(Object.entries(all.waterGainedGrams)
            .map(([part, list]) => [part, list.slice(2 * i, 2 * i + 2)]));
        if (i === 1) {
            assert.throws(() => sirop.layersAtEquilibrium(layers, at[i]), sirop.OutOfRangeError);
            assert.deepEqual([all.waterActivity.status[i], ...gained.status], [-2, -2, -2]);
            assert.ok([all.waterActivity.value[i], ...gained.value].every(Number.isNaN));
            continue;
        }
        const alone = sirop.layersAtEquilibrium(layers, at[i]);
        for (const part of ["value", "low", "high", "status"])
            assert.equal(all.waterActivity[part][i], alone.waterActivity[part], part);
        assert.deepEqual(gained, alone.waterGainedGrams);
    }
    // n is the length of the first list of numbers, whichever argument it is
    const kitchens = sirop.stageOfTemperatureN(undefined, 117, [1013.25, 900]);
    assert.deepEqual(kitchens, sirop.stageOfTemperatureN(undefined, [117, 117], [1013.25, 900]));
    assert.notEqual(kitchens.lower[0], kitchens.lower[1]);
    assert.deepEqual(sirop.glucoseSyrupGramsN(42, [80, 75]), sirop.glucoseSyrupGramsN([42, 42], [80, 75]));
    assert.equal(sirop.waterBoilsCelsiusN([]).value.length, 0);
    assert.equal(sirop.waterBoilsCelsiusN(1000).value.length, 1);
    assert.deepEqual(sirop.grainingAtN([], 20), []);
});

test("a stage is a place in its table, and in words", () => {
    const between = sirop.stageOfTemperature(undefined, 117, 1013.25);
    assert.equal(between.name, "between soft ball and firm ball");
    const [{stages}] = sirop.stageTables();
    assert.deepEqual([stages[between.lower].name, stages[between.upper].name], ["soft ball", "firm ball"]);
    assert.equal(sirop.stagePlaceText(undefined, between.lower, between.lower), "soft ball");
    assert.equal(sirop.stageOfMixture(undefined, {sucrose: 40, water: 60}).name, "below thread");
});

test("the refusal of a handle is the message of the error, until the next call", () => {
    const batch = sirop.batchNew();
    const question = sirop.questionNew("cook_for");
    for (const [refused, refusal, good] of [
        [() => sirop.batchAdd(batch, sirop.place.pan, "moon dust", 5), () => sirop.batchRefusal(batch),
            () => sirop.batchSet(batch, "serve_celsius", 5)],
        [() => sirop.questionAsk(question), () => sirop.questionRefusal(question),
            () => sirop.questionSetNumber(question, "wanted.water_percent", 15)],
        [() => sirop.questionSetNumber(question, "wanted.water_percent", Infinity),
            () => sirop.questionRefusal(question), () => sirop.questionSetText(question, "wanted.stage", "soft ball")],
    ]) {
        assert.throws(refused, ({message}) => message.length > 10 && message === refusal());
        good();
        assert.equal(refusal(), "");
    }
    sirop.questionFree(question);
    sirop.batchFree(batch);
});

test("a key that is set again is replaced, and the batch of a question is its own", () => {
    const batch = sirop.batchRead(sauce);
    const question = sirop.questionNew("cook_for");
    sirop.questionSetBatch(question, "batch", batch);
    sirop.batchFree(batch);
    for (const percent of [14, 17]) {
        sirop.questionSetNumber(question, "wanted.water_percent", percent);
        const answer = sirop.questionAsk(question);
        assert.ok(Math.abs(sirop.answerNumber(answer, "prediction.finished.water_percent") - percent) < 1e-6);
        sirop.answerFree(answer);
    }
    sirop.questionFree(question);
});

test("an extrapolated result says so, and the listener is told", () => {
    const told = [];
    sirop.onExtrapolated((name, result) => told.push([name, result]));
    try {
        const dry = sirop.property("viscosity_pa_s", {sucrose: 90, water: 10}, 20);
        assert.equal(dry.extrapolated, true);
        assert.deepEqual(told, [["propertyEstimate", dry]]);
        assert.equal(sirop.property("viscosity_pa_s", {sucrose: 40, water: 60}, 20).extrapolated, false);
        assert.equal(told.length, 1);
        assert.equal(sirop.predict(sauce).extrapolated, true);
        assert.deepEqual(told.map(([name]) => name), ["propertyEstimate", "predictJson"]);
    } finally {
        sirop.onExtrapolated(undefined);
    }
    sirop.property("viscosity_pa_s", {sucrose: 90, water: 10}, 20);
    assert.equal(told.length, 2);
});

test("each list is what the functions of one give, to its end", () => {
    const ofTable = (name) => sirop.stageTables().find((one) => one.name === name).stages;
    for (const [list, at, made] of [
        [sirop.ingredients(), sirop.ingredientName, (name) => ({name, gramsIn100: sirop.ingredientGrams(name),
            source: sirop.ingredientSource(name), estimate: sirop.ingredientEstimate(name)})],
        [ofTable("us 1918"), (i) => sirop.stageName("us 1918", i), (name) =>
            ({name, celsius: sirop.stageRangeCelsius("us 1918", name)})],
        [sirop.stageTables(), sirop.stageTableName, (name) =>
            ({name, source: sirop.stageTableSource(name), stages: ofTable(name)})],
        [sirop.textureWords(), sirop.textureWord, (word, i) => ({word, meaning: sirop.textureWordMeaning(i),
            firmnessPaS: sirop.textureWordFirmnessPaS(i)})],
        [sirop.growthLimits(), sirop.growthGroup, (group, i) => ({group, waterActivity: sirop.growthLimit(i)})],
        [sirop.properties(), sirop.propertyName, (name, i) => ({...sirop.properties()[i], name,
            unit: sirop.propertyUnit(name), source: sirop.propertySource(name),
            uncertainty: sirop.propertyUncertainty(name),
            fittedSolidsPercent: sirop.propertyRange(name).fittedSolidsPercent})],
        [sirop.conversions(), sirop.conversionName, (name) => name],
        [sirop.questionKinds(), sirop.questionName, (name) => name],
        [sirop.argumentNames(), sirop.argumentName, (name) => name],
        [sirop.components(), sirop.componentName, (name) => name],
    ]) {
        assert.ok(list.length > 5);
        assert.deepEqual(list, list.map((_, i) => made(at(i), i)));
        for (const none of [-1, list.length]) assert.equal(at(none), undefined);
    }
    for (const {name, celsius} of sirop.properties()) {
        const range = sirop.propertyRange(name).celsius;
        assert.deepEqual(celsius, range.low === range.high ? undefined : range);
    }
    assert.deepEqual(sirop.predict(sauce).keeping.limits,
        sirop.growthLimits().map(({group, waterActivity}) => ({water_activity: waterActivity, group})));
    assert.equal(sirop.predict(sauce).keeping.limits_source, sirop.growthLimitsSource());
});

test("a question is answered, and its prediction is the main job's", () => {
    const question = {sirop_question: 1, ask: "cook_for", batch: sauce, wanted: {water_percent: 15}};
    const reply = sirop.ask(question);
    assert.equal(reply.ask, "cook_for");
    const to = reply.answer.thermometer_celsius;
    const {extrapolated, ...answer} = sirop.predict({...sauce, cook: {...sauce.cook, to_celsius: to}});
    assert.ok(Math.abs(answer.finished.water_percent - 15) < 1e-6);
    assert.equal(reply.prediction.finished.water_percent, answer.finished.water_percent);
    assert.ok(reply.cautions.length > 0 && extrapolated === (answer.status !== "fine"));
    assert.deepEqual(JSON.parse(sirop.askJson(JSON.stringify(question))).answer, reply.answer);
    assert.match(sirop.askReport(question), /WHAT TO WATCH[\s\S]*QUESTION[\s\S]*ANSWER/);
});

test("a batch by calls is the batch by text", () => {
    const batch = sirop.batchNew();
    sirop.batchAdd(batch, sirop.place.pan, "white sugar", 250);
    sirop.batchAdd(batch, sirop.place.pan, "heavy cream 36 %", 300);
    sirop.batchSet(batch, "thermometer_celsius", 107);
    sirop.batchSet(batch, "pressure_hpa", sirop.pressureAtAltitudeHpa(350));
    const read = sirop.batchRead(sauce);
    const expected = sirop.predict(sauce);
    for (const one of [batch, read]) {
        const answer = sirop.batchPredict(one);
        assert.ok(Math.abs(sirop.answerNumber(answer, "cooked.water_percent") - expected.cooked.water_percent) < 1e-9);
        assert.equal(sirop.answerText(answer, "set.word"), expected.set.word);
        assert.equal(sirop.answerText(answer, "cautions.0"), expected.cautions[0]);
        sirop.answerFree(answer);
        sirop.answerFree(answer);  // once more does nothing
    }
    sirop.batchFree(batch);
    sirop.batchFree(undefined);
    assert.equal(sirop.batchRefusal(read), "");
});

test("a question by calls is the question by text", () => {
    const batch = sirop.batchRead(sauce);
    const question = sirop.questionNew("rescue");
    sirop.questionSetBatch(question, "batch", batch);
    sirop.questionSetText(question, "wanted.set_word", "ribbon");
    sirop.questionSetNumber(question, "now.thermometer_celsius", 118);
    sirop.questionSetTruth(question, "now.additions_in", true);
    sirop.questionSetText(question, "with.0", "water");
    const answer = sirop.questionAsk(question);
    const {extrapolated, ...expected} = sirop.ask({sirop_question: 1, ask: "rescue", batch: sauce, with: ["water"],
        wanted: {set_word: "ribbon"}, now: {thermometer_celsius: 118, additions_in: true}});
    assert.deepEqual(JSON.parse(sirop.answerText(answer, "")), expected);
    assert.equal(extrapolated, expected.status !== "fine");
    assert.equal(sirop.questionRefusal(question), "");
    for (let i = 0; i < 2; ++i) {  // once more does nothing
        sirop.answerFree(answer);
        sirop.questionFree(question);
        sirop.batchFree(batch);
    }
});

test("many calls do not use up the memory", async () => {
    // 2.5 MB: what one call takes, and not what ten would leave behind.
    await sirop.init(withMostPages(40));
    const big = new Float64Array(components * 3000).fill(1);
    for (let i = 0; i < 60; ++i) {
        assert.equal(sirop.freezingPointCelsiusN(big).status.length, 3000);
        assert.throws(() => sirop.waterActivityN(big, [20]), sirop.OutOfRangeError);
        sirop.predict(sauce);
        sirop.report(sauce);
        const batch = sirop.batchRead({...sauce, title: "x".repeat(50000)});
        const answer = sirop.batchPredict(batch);
        sirop.answerText(answer, "");
        sirop.answerFree(answer);
        const question = sirop.questionNew("cook_for");
        sirop.questionSetBatch(question, "batch", batch);
        assert.throws(() => sirop.questionAsk(question), sirop.BatchRefusedError);
        sirop.questionFree(question);
        sirop.batchFree(batch);
        assert.throws(() => sirop.batchRead(`{"${"x".repeat(50000)}`), sirop.BatchRefusedError);
        assert.throws(() => sirop.predict("{"), sirop.BatchRefusedError);
        assert.throws(() => sirop.predict({...sauce, title: "x".repeat(100000)}, {table: "none"}), sirop.UnknownNameError);
        assert.throws(() => sirop.waterActivity(new Float64Array(20).fill(-1), 20), sirop.OutOfRangeError);
    }
    await sirop.init(bytes);
});

test("every key of an answer has a type", () => {
    const beside = pathToFileURL(createRequire(import.meta.url).resolve("sirop/sirop.wasm"));
    const types = readFileSync(new URL("index.d.ts", beside), "utf8");
    const answerType = types.slice(types.indexOf("interface Answer {"), types.indexOf("interface Reply {"));
    let seen = 0;
    const look = (value, place) => {
        if (Array.isArray(value)) value.forEach((one) => look(one, `${place}[]`));
        else if (typeof value === "object" && value !== null) {
            for (const [key, inner] of Object.entries(value)) {
                assert.match(answerType, new RegExp(`^    ${key}\\??:`, "m"), `${place}.${key}`);
                ++seen;
                look(inner, `${place}.${key}`);
            }
        }
    };
    for (const change of [{}, {off_heat: [{ingredient: "butter, unsalted", grams: 30}], serve: {celsius: -5},
        neighbours: [{ingredient: "mango puree", grams: 50}]}])
        look(sirop.predict({...sauce, ...change}), "answer");
    assert.ok(seen > 100);
});
