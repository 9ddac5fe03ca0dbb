// Compiled, not run: what must type-check, and what must not.
import {
    type Answer, type AnswerHandle, type Batch, BatchRefusedError, type Estimates, SiropError, answerCount,
    answerNumber, answerReport, answerText, ask, batchAdd, batchNew, batchPredict, boilingPointCelsius,
    celsiusForStageN, components, convertN, freezingPointCelsiusN, glucoseSyrupGramsN, grainingAt, grainingAtN, growthLimit, init,
    ingredients, layersAtEquilibriumN, onExtrapolated, place, predict, properties, property, questionAsk, questionNew,
    questionRefusal, questionSetTruth, report, textureWordOfN, stageOfMixture, stageOfTemperatureN, stageTables,
    waterActivityN,
} from "sirop";

const batch: Batch = {
    sirop_batch: 1,
    pan: [{ingredient: "honey", grams: 100}, {ingredient: "mine", grams: 5, per_100_g: {water: 20, sucrose: 80}}],
    cook: {to_celsius: 120, altitude_metres: 350},
    off_heat: [{ingredient: "butter, unsalted", grams: 10, celsius: 5}],
};

export async function check(): Promise<void> {
    const version: string = await init(new Uint8Array(8));
    const answer: Answer = predict(batch, {table: "us 1918"});
    const water: number | null = answer.finished.water_percent_low;
    const text: string = report(JSON.stringify(batch));
    const boils: number = boilingPointCelsius({sucrose: 60, water: 20}, 1013.25).high;
    const many: Estimates = waterActivityN({grams: new Float64Array(4), components: 2}, 20);
    const first: Int32Array = many.status;
    const names: string[] = [...components(), ...properties().map((one) => one.unit)];
    onExtrapolated((name: string) => names.push(name));
    property("dry_substance_percent", [20, 80]);
    const cookTo: unknown = ask({sirop_question: 1, ask: "cook_for", batch, wanted: {water_percent: 15}}).answer.celsius;
    const risk: number = grainingAt(ingredients()[0]?.gramsIn100 ?? {water: 1}, 20).risk;
    const low: number | undefined = stageTables()[0]?.stages[0]?.celsius.low;
    const way: string | undefined = answer.graining.ways_to_clear[0]?.sentence;
    const own = batchNew();
    batchAdd(own, place.pan, "honey", 100);
    const handle: AnswerHandle = batchPredict(own);
    const asked = questionNew("rescue");
    questionSetTruth(asked, "now.additions_in", true);
    const second: AnswerHandle = questionAsk(asked);
    const far: string = answerText(second, "answer.ways.0.sentence") + answerReport(second) 
        + questionRefusal(asked);
    const count: number = answerCount(second, "cautions") + growthLimit(0) + textureWordOfN([1, 20]).value.length;
    const risks: number[] = grainingAtN([{sucrose: 80, water: 20}], 20).map((one) => one.risk);
    const places: Int32Array = stageOfTemperatureN("us 1918", 117, [1013.25, 900]).upper;
    const syrups: Estimates = freezingPointCelsiusN(glucoseSyrupGramsN([42, 28], 80).grams);
    const stage: string = stageOfMixture(undefined, {sucrose: 80, water: 20}).name;
    const lows: Float64Array = celsiusForStageN(undefined, "soft ball", [{sucrose: 1, water: 1}], 1013.25).low;
    const baume: Float64Array = convertN("brix_to_baume", [10, 20]).value;
    const gained: Float64Array = layersAtEquilibriumN([[{water: 1, sucrose: 1}]], 20).waterGainedGrams.value;
    console.log(far, count, risks, places, syrups, second, stage, lows, baume, gained);
    console.log(version, water, text, boils, first, names, cookTo, risk, low, way, answerNumber(handle, "set.celsius"));
    try {
        predict(batch);
    } catch (problem) {
        if (problem instanceof BatchRefusedError) console.log(problem.place, problem.code);
        if (problem instanceof SiropError) console.log(problem.message);
    }

    // @ts-expect-error: a pressure is needed
    boilingPointCelsius({sucrose: 60, water: 20});
    // @ts-expect-error: no such component
    boilingPointCelsius({suger: 60}, 1000);
    // @ts-expect-error: the pan is missing
    predict({sirop_batch: 1, cook: {to_celsius: 120}});
    // @ts-expect-error: a batch is no answer
    answerNumber(own, "set.celsius");
    // @ts-expect-error: a batch is no question
    questionAsk(own);
    // @ts-expect-error: neither true nor false
    questionSetTruth(asked, "now.additions_in", 1);
    // @ts-expect-error: a place is no text
    const words: string = stageOfMixture(undefined, {sucrose: 80, water: 20});
    // @ts-expect-error: a limit is a number, its group apart
    console.log(words, growthLimit(0).group);
    // @ts-expect-error: no such value
    console.log(answer.finished.water);
}
