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

/** How a kind of the table looks in C, with @ for its name: what is taken, and what is given. */
const inC = {
    number: "double @", index: "int32_t @", text: "const char* @", "text?": "const char* @",
    json: "const char* @, size_t @_bytes", masses: "const double* @, size_t components",
    rows: "size_t n, const double* @, size_t components",
    desserts: "size_t n, size_t layers, const double* @, size_t components",
    many: "size_t n, const double* @", numbers: "const double* @", truth: "int32_t @",
    batch: "sirop_batch* @", question: "sirop_question* @", answer: "sirop_answer* @",
};
const outC = {
    number: "double* @", whole: "int32_t* @", range: "sirop_range* @", place: "sirop_stage_place* @",
    estimate: "sirop_estimate* @", estimates: "sirop_estimate* @", gains: "sirop_estimate* @",
    graining: "sirop_graining* @", grainings: "sirop_graining* @", places: "sirop_stage_place* @",
    values: "int32_t* statuses, double* @", wholes: "int32_t* statuses, int32_t* @",
    ranges: "int32_t* statuses, sirop_range* @", masses: "double* @, size_t components",
    syrups: "int32_t* statuses, double* @, size_t components",
    written: "char* @, size_t @_bytes, size_t* needed_bytes",
    batch: "sirop_batch** @", question: "sirop_question** @", answer: "sirop_answer** @",
    text: "", done: "", nothing: "",
};
const returned = {text: "const char*", nothing: "void"};

/** Handles are the same for us with and without const; the layers of one dessert are its rows. */
function plain({type, name}, i) {
    const counts = name === "layers" && i === 0;
    return `${type.replace(/^const (sirop_\w+\*)/, "$1")} ${counts ? "n" : name}`;
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
        const expected = [...takes.map((one) => inC[one.kind].replaceAll("@", one.name)),
            ...gives.map((one) => outC[one.kind].replaceAll("@", one.name))].filter((text) => text !== "").join(", ");
        assert.equal(expected, parameters.map(plain).join(", "), `arguments of ${name}`);
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
