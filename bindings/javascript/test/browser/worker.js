import {line} from "./example.js";

line().then((text) => postMessage(text), (problem) => postMessage(String(problem)));
