// The package's own table of functions, which it does not offer to others.
import {createRequire} from "node:module";
import {pathToFileURL} from "node:url";

const beside = pathToFileURL(createRequire(import.meta.url).resolve("sirop/sirop.wasm"));
export const {functions} = await import(new URL("functions.js", beside));
/** sirop_water_activity -> waterActivity */
export const publicName = (name) => name.replace("sirop_", "").replace(/_([a-z0-9])/g, (_, one) => one.toUpperCase());
export const signature = (name) => functions[name];
