// The list of public functions is the C header's: each is exported by the module, and is a JavaScript function
// of the package, with a type.
import assert from "node:assert/strict";
import {readFileSync} from "node:fs";
import {createRequire} from "node:module";
import test from "node:test";
import {pathToFileURL} from "node:url";
import * as sirop from "sirop";
import {functions, publicName} from "./table.js";

const header = readFileSync(process.env.SIROP_HEADER, "utf8").replace(/\/\*[\s\S]*?\*\//g, " ");
const require = createRequire(import.meta.url);
const module = new WebAssembly.Module(readFileSync(require.resolve("sirop/sirop.wasm")));
const exported = WebAssembly.Module.exports(module).map(({name}) => name);
const types = readFileSync(new URL("index.d.ts", pathToFileURL(require.resolve("sirop/sirop.wasm"))), "utf8");

const declared = [...header.matchAll(/SIROP_API\s[^;(]*\b(sirop_\w+)\s*\(/g)].map(([, name]) => name);

test("the module imports nothing", () => assert.equal(WebAssembly.Module.imports(module).length, 0));

test("the table has the header's functions", () => {
    assert.ok(declared.length > 20);
    assert.equal(declared.length, header.match(/^SIROP_API\b/gm).length);
    assert.deepEqual(declared, Object.keys(functions));
});

for (const name of declared) {
    test(`${name} is bound`, () => {
        assert.ok(exported.includes(name), `${name} is not exported by sirop.wasm`);
        assert.equal(typeof sirop[publicName(name)], "function", `${publicName(name)} is missing in index.js`);
        assert.match(types, new RegExp(`export function ${publicName(name)}\\(`), `${publicName(name)} has no type`);
    });
}

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
