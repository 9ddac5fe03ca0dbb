// The worked example, for the page and for the worker.
import {init, predict} from "./sirop/index.js";

export async function line(source) {
    await init(source);
    const {finished, set, stage} = predict({
        sirop_batch: 1,
        title: "Caramel sauce (invented)",
        pan: [
            {ingredient: "white sugar", grams: 250},
            {ingredient: "glucose syrup 42 DE", grams: 100},
            {ingredient: "heavy cream 36 %", grams: 300},
        ],
        off_heat: [{ingredient: "butter, unsalted", grams: 40}],
        cook: {to_celsius: 107, altitude_metres: 350},
        serve: {celsius: 18},
    });
    return `${finished.water_percent.toFixed(1)} % water (${finished.water_percent_low.toFixed(1)} to ` +
        `${finished.water_percent_high.toFixed(1)}), ${set.word}; the table says ${stage.by_temperature}`;
}
