// The module of the package and its components, also with an upper limit of its memory.
import assert from "node:assert/strict";
import {readFileSync} from "node:fs";
import {createRequire} from "node:module";

export const bytes = readFileSync(createRequire(import.meta.url).resolve("sirop/sirop.wasm"));

const {exports: bare} = new WebAssembly.Instance(new WebAssembly.Module(bytes));
bare._initialize();
/** How many components the module knows. */
export let components = 0;
while (bare.sirop_component_name(components) !== 0) ++components;

/** The module that may take so many more pages of 64 KiB: section 5 says how many it has, least and most. */
export function withMostPages(more) {
    const wasm = bytes;
    const number = (at) => {
        let value = 0, shift = 0, byte;
        do {
            byte = wasm[at++];
            value |= (byte & 0x7F) << shift;
            shift += 7;
        } while (byte & 0x80);
        return [value, at];
    };
    const leb = (value) => value < 0x80 ? [value] : [value & 0x7F | 0x80, ...leb(value >> 7)];
    for (let at = 8; at < wasm.length;) {
        const id = wasm[at];
        const [size, inner] = number(at + 1);
        if (id === 5) {
            const [least] = number(inner + 2);
            assert.equal(wasm[inner + 1], 0, "the memory has a limit already");
            const section = [1, 1, ...leb(least), ...leb(least + more)];
            return Uint8Array.from([...wasm.subarray(0, at), 5, ...leb(section.length), ...section,
                ...wasm.subarray(inner + size)]);
        }
        at = inner + size;
    }
    throw new Error("no memory section");
}
