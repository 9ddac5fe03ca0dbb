// The list of public functions is the C header's: each is exported by the module, stands in the table with its
// arguments, and is a JavaScript function of the package, with a type.
import assert from "node:assert/strict";
import {readFileSync} from "node:fs";
import {createRequire} from "node:module";
import test from "node:test";
import {pathToFileURL} from "node:url";
import * as sirop from "sirop";
import {functions, publicName, signature} from "./table.js";

const header = readFileSync(process.env.SIROP_HEADER, "utf8").replace(/\/\*[\s\S]*?\*\//g, " ");
const require = createRequire(import.meta.url);
const module = new WebAssembly.Module(readFileSync(require.resolve("sirop/sirop.wasm")));
const exported = WebAssembly.Module.exports(module).map(({name}) => name);
const types = readFileSync(new URL("index.d.ts", pathToFileURL(require.resolve("sirop/sirop.wasm"))), "utf8");

/** name -> {returns, parameters: [{type, name}]} */
const declared = new Map([...header.matchAll(/SIROP_API\s+([\w\s*]+?)\s*(sirop_\w+)\s*\(([^)]*)\)\s*;/g)]
    .map(([, returns, name, list]) => [name, {
        returns: returns.replace(/\s+/g, " "),
        parameters: list.trim() === "void" ? [] : list.split(",").map((one) => {
            const [, type, parameter] = /^\s*(.*?)\s*(\w+)\s*$/s.exec(one);
            return {type: type.replace(/\s+/g, " ").replace(/ \*/g, "*"), name: parameter};
        }),
    }]));

/** How a kind of the table looks in C: what is taken, and what is given. */
const inC = {
    number: (name) => [["double", name]],
    index: (name) => [["int32_t", name]],
    text: (name) => [["const char*", name]],
    "text?": (name) => [["const char*", name]],
    json: (name) => [["const char*", name], ["size_t", `${name}_bytes`]],
    masses: (name) => [["const double*", name], ["size_t", "components"]],
    rows: (name) => [["size_t", "n"], ["const double*", name], ["size_t", "components"]],
    desserts: (name) => [["size_t", "n"], ["size_t", "layers"], ["const double*", name], ["size_t", "components"]],
    many: (name) => [["size_t", "n"], ["const double*", name]],
    numbers: (name) => [["const double*", name]],
    truth: (name) => [["int32_t", name]],
    batch: (name) => [["sirop_batch*", name]],
    question: (name) => [["sirop_question*", name]],
    answer: (name) => [["sirop_answer*", name]],
};
const outC = {
    number: (name) => [["double*", name]],
    whole: (name) => [["int32_t*", name]],
    range: (name) => [["sirop_range*", name]],
    estimate: (name) => [["sirop_estimate*", name]],
    estimates: (name) => [["sirop_estimate*", name]],
    gains: (name) => [["sirop_estimate*", name]],
    graining: (name) => [["sirop_graining*", name]],
    grainings: (name) => [["sirop_graining*", name]],
    place: (name) => [["sirop_stage_place*", name]],
    places: (name) => [["sirop_stage_place*", name]],
    values: (name) => [["int32_t*", "statuses"], ["double*", name]],
    wholes: (name) => [["int32_t*", "statuses"], ["int32_t*", name]],
    ranges: (name) => [["int32_t*", "statuses"], ["sirop_range*", name]],
    syrups: (name) => [["int32_t*", "statuses"], ["double*", name], ["size_t", "components"]],
    masses: (name) => [["double*", name], ["size_t", "components"]],
    written: (name) => [["char*", name], ["size_t", `${name}_bytes`], ["size_t*", "needed_bytes"]],
    batch: (name) => [["sirop_batch**", name]],
    question: (name) => [["sirop_question**", name]],
    answer: (name) => [["sirop_answer**", name]],
    text: () => [],
    done: () => [],
    nothing: () => [],
};
const returned = {text: "const char*", nothing: "void"};

/** Handles are the same for us with and without const; the layers of one dessert are its rows. */
function plain({type, name}, i) {
    const counts = name === "layers" && i === 0;
    return [type.replace(/^const (sirop_\w+\*)/, "$1"), counts ? "n" : name];
}

test("the module imports nothing", () => assert.equal(WebAssembly.Module.imports(module).length, 0));

test("the header declares functions", () => {
    assert.ok(declared.size > 20);
    assert.equal(declared.size, header.match(/^SIROP_API\b/gm).length);
});

for (const [name, {returns, parameters}] of declared) {
    test(`${name} is bound`, () => {
        assert.ok(exported.includes(name), `${name} is not exported by sirop.wasm`);
        assert.ok(name in functions, `${name} is missing in functions.js`);
        assert.equal(typeof sirop[publicName(name)], "function", `${publicName(name)} is missing in index.js`);
        assert.match(types, new RegExp(`export function ${publicName(name)}\\(`), `${publicName(name)} has no type`);
        const {takes, gives} = signature(name);
        const expected = [...takes.flatMap((t) => inC[t.kind](t.name)), ...gives.flatMap((g) => outC[g.kind](g.name))];
        assert.deepEqual(expected, parameters.map(plain), `arguments of ${name}`);
        assert.equal(returns, returned[gives[0].kind] ?? "int32_t");
    });
}

test("the table has nothing that the header has not", () => {
    for (const name of Object.keys(functions)) assert.ok(declared.has(name), name);
});

test("the version is the header's, in the package and in the module", async () => {
    const number = (part) => new RegExp(`#define SIROP_VERSION_${part} (\\d+)`).exec(header)[1];
    const version = ["MAJOR", "MINOR", "PATCH"].map(number).join(".");
    assert.equal(require("sirop/package.json").version, version);
    assert.equal(await sirop.init(), version);
});

test("no dependency at run time, types first", () => {
    const own = require("sirop/package.json");
    assert.equal(own.dependencies, undefined);
    assert.equal(own.peerDependencies, undefined);
    assert.deepEqual(Object.keys(own.exports["."]), ["types", "default"]);
});

test("every export has a type, and every type an export", () => {
    const typed = [...types.matchAll(/^export (?:declare )?(?:function|class|const) (\w+)/gm)].map(([, name]) => name);
    assert.deepEqual([...new Set(typed)].sort(), Object.keys(sirop).sort());
});
