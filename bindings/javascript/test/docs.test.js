// The snippets of docs/javascript.md and of the package's README run, and print what stands below them.
import assert from "node:assert/strict";
import {execFileSync} from "node:child_process";
import {readFileSync, writeFileSync} from "node:fs";
import test from "node:test";

const page = readFileSync(process.env.SIROP_DOC, "utf8");
const front = readFileSync(process.env.SIROP_README, "utf8");

/** [{code, output}]: each block of JavaScript with the next block without a language, if one follows before the next. */
function snippets(text) {
    const blocks = [...text.matchAll(/^```(\w*)\n([\s\S]*?)^```$/gm)].map(([, language, body]) => ({language, body}));
    return blocks.flatMap(({language, body}, i) => language !== "js" ? []
        : [{code: body, output: blocks[i + 1]?.language === "" ? blocks[i + 1].body : undefined}]);
}

function run(code, name) {
    writeFileSync(name, code);
    return execFileSync(process.execPath, [name], {encoding: "utf8"});
}

const shown = snippets(page);

test("the page has its snippets, each with its output", () => {
    assert.ok(shown.length >= 4);
    for (const {code, output} of shown) assert.ok(output?.length > 0, code);
});

for (const [i, {code, output}] of shown.entries()) {
    test(`snippet ${i + 1} of docs/javascript.md prints what stands there`, () => {
        const printed = run(code, `snippet_${i + 1}.mjs`);
        // The first shows one line of several, the cautions; the others all that they print.
        assert.equal(i === 0 ? printed.slice(0, output.length) : printed, output);
        if (i === 0) assert.match(printed, /\n- Hot sugar .*burn/);
    });
}

test("the worked example prints the README's line", () => {
    assert.ok(front.includes(`\`${shown[0].output.trim()}\``), shown[0].output);
});

test("the snippet of the package's README runs", () => {
    const [{code}] = snippets(readFileSync(process.env.SIROP_PACKAGE_README, "utf8"));
    assert.match(run(code, "snippet_readme.mjs"), /^Caramel sauce \(invented\)\n=+\n/);
});
