// The package's own table of functions, which it does not offer to others.
import {createRequire} from "node:module";
import {pathToFileURL} from "node:url";

const beside = pathToFileURL(createRequire(import.meta.url).resolve("sirop/sirop.wasm"));
export const {functions, publicName, signature} = await import(new URL("functions.js", beside));
