// Serves a folder on a free port of this machine, and prints its address.     usage: node serve.js FOLDER
// Below /plain/ the same files come without the media type of WebAssembly.  A page that loads /hold?NAME is not
// complete before it asks for /release?NAME.
import {readFile} from "node:fs/promises";
import {createServer} from "node:http";
import {extname, join, normalize} from "node:path";

const types = {".html": "text/html; charset=utf-8", ".js": "text/javascript", ".wasm": "application/wasm"};

const waiting = new Map();

/** A promise that its own `release` fulfils, or else half a minute. */
function wait(name) {
    if (!waiting.has(name)) {
        let release;
        const released = new Promise((resolve) => {
            release = resolve;
            setTimeout(resolve, 30000).unref();
        });
        waiting.set(name, Object.assign(released, {release}));
    }
    return waiting.get(name);
}

const server = createServer(async (request, response) => {
    const {pathname, search} = new URL(request.url, "http://localhost");
    const path = normalize(decodeURIComponent(pathname));
    if (path === "/release") wait(search).release();
    if (path === "/hold") await wait(search);
    if (path === "/release" || path === "/hold") {
        response.writeHead(204).end();
        return;
    }
    const plain = path.startsWith("/plain/");
    const file = join(process.argv[2], plain ? path.slice("/plain".length) : path);
    const type = types[extname(file)] ?? "text/plain";
    try {
        const body = await readFile(file);
        response.writeHead(200, {"content-type": plain && type === "application/wasm" ? "text/plain" : type});
        response.end(body);
    } catch {
        response.writeHead(404).end();
    }
});
server.listen(0, "127.0.0.1", () => console.log(`http://127.0.0.1:${server.address().port}`));
