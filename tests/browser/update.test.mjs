// A new version waits until the user agrees, and then replaces the old one whole.
import assert from "node:assert/strict";
import { test } from "node:test";
import { caches, heard, openAndKeep, visit } from "./harness.mjs";
import { createHash } from "node:crypto";

const digest = (bytes) => createHash("sha256").update(bytes).digest("hex");

/** Releases a version whose page carries a mark, as the build would: page, list and version changed together. */
function release(site, mark) {
  const old = site.read("index.html");
  const page = Buffer.from(old.toString().replace(/<html lang="en"[^>]*>/, `<html lang="en" data-release="${mark}">`));
  const worker = site.read("sw.js").toString();
  assert.ok(worker.includes(digest(old)), "the list names the page's digest");
  site.put("index.html", page);
  site.put("sw.js", worker.replace(digest(old), digest(page)).replace(/VERSION = "[^"]+"/, `VERSION = "${mark}"`));
}

const shown = (page) => page.evaluate(() => document.documentElement.dataset.release ?? "first");
const lookForUpdate = (page) => page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());

test("the new version waits, survives a reload unasked, and takes over when the user agrees", async (t) => {
  const { page, server, site } = await visit(t);
  await openAndKeep(page, server.address);
  const [first] = await caches(page);
  release(site, "second");
  await lookForUpdate(page);
  await heard(page, "update");
  assert.equal(await shown(page), "first");

  await page.reload();
  await heard(page, "update");
  assert.equal(await shown(page), "first", "a reload alone changes nothing");

  await page.evaluate(() => { dispatchEvent(new CustomEvent("pressmark:accept-update")); });
  await page.waitForFunction(() => document.documentElement.dataset.release === "second");
  await heard(page, "usable");
  const kept = await caches(page);
  assert.equal(kept.length, 1);
  assert.notEqual(kept[0], first);

  await server.stop();
  await page.reload();
  await heard(page, "usable");
  assert.equal(await shown(page), "second");
});

test("another window of the old version is told and not torn away", async (t) => {
  const { page, server, site, context } = await visit(t);
  await openAndKeep(page, server.address);
  const other = await context.newPage();
  await other.addInitScript(() => {
    globalThis.heard = [];
    for (const name of ["usable", "update"]) addEventListener(`pressmark:${name}`, () => globalThis.heard.push([name]));
  });
  await other.goto(server.address);
  await heard(other, "usable");
  release(site, "second");
  await lookForUpdate(page);
  await heard(page, "update");
  await heard(other, "update");
  await other.evaluate(() => { globalThis.heard.length = 0; });
  await page.evaluate(() => { dispatchEvent(new CustomEvent("pressmark:accept-update")); });
  await page.waitForFunction(() => document.documentElement.dataset.release === "second");
  await heard(other, "update");
  assert.equal(await shown(other), "first", "it is still what it was");
  await other.evaluate(() => { dispatchEvent(new CustomEvent("pressmark:accept-update")); });
  await other.waitForFunction(() => document.documentElement.dataset.release === "second");
});

test("an update that does not arrive whole leaves the old version in place", async (t) => {
  const { page, server, site } = await visit(t);
  await openAndKeep(page, server.address);
  const before = await caches(page);
  release(site, "broken");
  site.put("index.html", site.read("index.html").toString().replace("broken", "other"));
  await lookForUpdate(page);
  await page.waitForFunction(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    return !registration.installing && !registration.waiting;
  });
  assert.deepEqual(await caches(page), before);
  await server.stop();
  await page.reload();
  await heard(page, "usable");
  assert.equal(await shown(page), "first");
});

test("the way out drops everything that was kept and leaves the page working online", async (t) => {
  const { page, server, site } = await visit(t, { spoil: (site) => site.put("note.txt", "") });
  await openAndKeep(page, server.address);
  site.put("sw.js", await wayOut());
  await lookForUpdate(page);
  await page.waitForFunction(async () => (await globalThis.caches.keys()).length === 0);
  // The worker sends the page to the network once more; there it registers again whatever stands under sw.js.
  await heard(page, "usable");
  assert.equal(await page.locator("#trouble").isVisible(), false);
});

async function wayOut() {
  const fs = await import("node:fs/promises");
  return fs.readFile(new URL("../../www/sw-off.js", import.meta.url));
}
