// What the server sends, which is what `_headers` of the release asks of any host.
import assert from "node:assert/strict";
import http from "node:http";
import { after, before, test } from "node:test";
import { Site, serve } from "./harness.mjs";

let site;
let server;
before(async () => {
  site = new Site();
  server = await serve(site.dist, { under: "/p/" });
});
after(async () => {
  await server?.stop();
  site?.remove();
});

/** One request, unpacked by nobody. */
function ask(path, { method = "GET", accepts = "" } = {}) {
  return new Promise((resolve, reject) => {
    const headers = accepts ? { "accept-encoding": accepts } : {};
    const request = http.request({ port: server.port, host: "127.0.0.1", path, method, headers }, (answer) => {
      const parts = [];
      answer.on("data", (part) => parts.push(part));
      answer.on("end", () => resolve({ status: answer.statusCode, headers: answer.headers, body: Buffer.concat(parts) }));
    });
    request.on("error", reject);
    request.end();
  });
}

test("page and worker carry the policy and are asked for anew", async () => {
  for (const path of ["/p/", "/p/index.html", "/p/sw.js"]) {
    const { status, headers } = await ask(path);
    assert.equal(status, 200, path);
    assert.equal(headers["cache-control"], "no-cache", path);
    assert.match(headers["content-security-policy"], /default-src 'none'.*frame-ancestors 'self'/, path);
    assert.equal(headers["x-content-type-options"], "nosniff", path);
    assert.equal(headers["referrer-policy"], "no-referrer", path);
    assert.equal(headers["cross-origin-opener-policy"], "same-origin", path);
  }
});

test("files named by their bytes are kept for good, under their right types", async () => {
  for (const [pattern, type] of [
    [/^app-.*\.wasm$/, "application/wasm"], [/^boot-.*\.js$/, "text/javascript; charset=utf-8"],
    [/^styles-.*\.css$/, "text/css; charset=utf-8"], [/^core-.*\.pack$/, "application/octet-stream"],
    [/^manifest-.*\.webmanifest$/, "application/manifest+json"], [/^icon-512-.*\.png$/, "image/png"],
  ]) {
    const { status, headers } = await ask(`/p/${site.file(pattern)}`);
    assert.equal(status, 200);
    assert.equal(headers["content-type"], type);
    assert.match(headers["cache-control"], /immutable/);
  }
});

test("packed copies are sent to those who can undo them", async () => {
  const name = site.file(/^app-.*\.wasm$/);
  const plain = await ask(`/p/${name}`);
  const brotli = await ask(`/p/${name}`, { accepts: "gzip, deflate, br" });
  const gzip = await ask(`/p/${name}`, { accepts: "gzip" });
  assert.equal(plain.headers["content-encoding"], undefined);
  assert.equal(brotli.headers["content-encoding"], "br");
  assert.equal(gzip.headers["content-encoding"], "gzip");
  assert.ok(brotli.body.length < gzip.body.length && gzip.body.length < plain.body.length);
  assert.deepEqual(plain.body, site.read(name));
});

test("what is not there, or not below the path, is not answered", async () => {
  for (const path of ["/", "/index.html", "/p/missing.html", "/p/../Cargo.toml", "/p/%2e%2e/Cargo.toml", "/pp/"]) {
    assert.equal((await ask(path)).status, 404, path);
  }
  const further = await ask("/p");
  assert.equal(further.status, 308);
  assert.equal(further.headers.location, "/p/");
  assert.equal((await ask("/p/", { method: "POST" })).status, 405);
  const head = await ask("/p/", { method: "HEAD" });
  assert.equal(head.status, 200);
  assert.equal(head.body.length, 0);
});

test("one page alone may stand in the pages of others, and brings what the strictest of them ask for", async () => {
  const frame = await ask("/p/frame.html");
  assert.doesNotMatch(frame.headers["content-security-policy"], /frame-ancestors/);
  assert.equal(frame.headers["cross-origin-embedder-policy"], "require-corp");
  assert.equal(frame.headers["cross-origin-resource-policy"], "cross-origin");
  for (const name of ["", "index.html", "book.html", "cabinet.html", "practice.html", "key.html", "card.html", "club.html"]) {
    const { headers } = await ask(`/p/${name}`);
    assert.match(headers["content-security-policy"], /; frame-ancestors 'self'$/, name);
    assert.equal(headers["cross-origin-resource-policy"], undefined, name);
    assert.equal(headers["access-control-allow-origin"], undefined, name);
  }
  const loader = await ask("/p/embed.js");
  assert.equal(loader.headers["cross-origin-resource-policy"], "cross-origin");
  assert.equal(loader.headers["cache-control"], "no-cache");
});
