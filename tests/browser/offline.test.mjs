// Kept whole or not at all, and then there without a signal.
import assert from "node:assert/strict";
import { test } from "node:test";
import { caches, heard, open, openAndKeep, visit } from "./harness.mjs";

test("with the server gone the page opens again and can be answered", async (t) => {
  const { page, server } = await visit(t);
  await openAndKeep(page, server.address);
  await server.stop();
  await page.reload();
  await heard(page, "usable");
  assert.equal(await page.locator("#trouble").isVisible(), false);
  // A link with a query, as a sharing program may add one, is the same page.
  await page.goto(`${server.address}?from=elsewhere`);
  await heard(page, "usable");
});

test("cut off by the browser itself it opens as well", async (t) => {
  const { page, server, context } = await visit(t);
  await openAndKeep(page, server.address);
  await context.setOffline(true);
  await page.reload();
  await heard(page, "usable");
});

test("below a path it is kept and opens without a server", async (t) => {
  const { page, server } = await visit(t, { under: "/some/path/" });
  assert.match(server.address, /\/some\/path\/$/);
  await openAndKeep(page, server.address);
  await server.stop();
  await page.reload();
  await heard(page, "usable");
});

test("a worker that the browser has put to sleep wakes up without a server", async (t) => {
  const { page, server, context } = await visit(t);
  await openAndKeep(page, server.address);
  const devtools = await context.newCDPSession(page);
  await devtools.send("ServiceWorker.enable");
  await devtools.send("ServiceWorker.stopAllWorkers");
  await server.stop();
  await page.reload();
  await heard(page, "usable");
});

for (const [what, pattern] of [["the book", /^book-.*\.pack$/], ["an icon", /^icon-512-.*\.png$/]]) {
  test(`with ${what} missing nothing is kept, the page says so, and it works online`, async (t) => {
    const { page, server } = await visit(t, { spoil: (site) => site.drop(site.file(pattern)) });
    await open(page, server.address);
    assert.match(await heard(page, "offline-failed"), /not kept on this device yet/);
    assert.deepEqual(await caches(page), []);
    assert.equal(await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.active ?? null), null);
    await page.reload();
    await heard(page, "usable");
  });
}

test("with a file damaged on the way nothing is kept", async (t) => {
  const { page, server } = await visit(t, {
    spoil(site) {
      const name = site.file(/^book-.*\.pack$/);
      const bytes = site.read(name);
      bytes[bytes.length >> 1] ^= 1;
      site.put(name, bytes);
    },
  });
  await open(page, server.address);
  await heard(page, "offline-failed");
  assert.deepEqual(await caches(page), []);
});

test("what is not in the list is neither kept nor answered by the worker", async (t) => {
  const { page, server } = await visit(t, { spoil: (site) => site.put("extra.txt", "not in the list") });
  await openAndKeep(page, server.address);
  assert.equal(await page.evaluate(async () => (await fetch("extra.txt")).text()), "not in the list");
  const kept = await page.evaluate(async () => {
    const [name] = await globalThis.caches.keys();
    return (await (await globalThis.caches.open(name)).keys()).map((request) => request.url);
  });
  assert.ok(kept.includes(server.address), "the page itself");
  assert.deepEqual(kept.filter((url) => url.includes("extra")), []);
  await server.stop();
  assert.equal(await page.evaluate(() => fetch("extra.txt").then(() => "answered", () => "refused")), "refused");
});

test("the worker and the book come only after the page can be answered", async (t) => {
  const { page, server, asked } = await visit(t);
  const late = () => asked.filter((url) => /\/(sw\.js|book-[^/]*)$/.test(url));
  await page.route("**/*.wasm", async (route) => {
    assert.deepEqual(late(), []);
    await new Promise((resolve) => setTimeout(resolve, 1500));
    assert.deepEqual(late(), []);
    await route.continue();
  });
  await openAndKeep(page, server.address);
});
