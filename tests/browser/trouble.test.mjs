// When the program cannot start, the page says so in words and leads on.
import assert from "node:assert/strict";
import { test } from "node:test";
import { heard, open, visit } from "./harness.mjs";

/** The sentence of trouble, with the dead question out of the way and a way on that works. */
async function troubled(page, sentence) {
  await page.locator("#trouble").waitFor({ state: "visible" });
  assert.match(await page.locator("#trouble-says").innerText(), sentence);
  assert.equal(await page.locator("#app").isVisible(), false);
  assert.equal(await page.locator("#held").isVisible(), false);
  assert.ok(await page.locator("#trouble-again").isVisible());
  await page.locator("#trouble a[href='key.html']").click();
  await page.waitForURL(/key\.html$/);
  assert.ok(await page.locator("h1").isVisible(), "the printed key");
  await page.goBack();
  await page.locator("#trouble").waitFor({ state: "visible" });
}

test("without WebAssembly it says so", async (t) => {
  const { page, server } = await visit(t, {
    before: (page) => page.addInitScript(() => { delete globalThis.WebAssembly; }),
  });
  await page.goto(server.address);
  await troubled(page, /WebAssembly turned off/);
});

test("without WebAssembly a piece in the address is not left opening for ever", async (t) => {
  const { page, server } = await visit(t, {
    before: (page) => page.addInitScript(() => { delete globalThis.WebAssembly; }),
  });
  await page.goto(`${server.address}#x`);
  await troubled(page, /WebAssembly turned off/);
});

test("with the whole program missing the opening goes on, says so, and gives over once it is there", async (t) => {
  let name;
  let bytes;
  const { page, server, site } = await visit(t, {
    spoil(site) {
      name = site.file(/^app-.*\.wasm$/);
      bytes = site.read(name);
      site.drop(name);
    },
  });
  await open(page, server.address);
  const see = page.locator(".strip");
  await page.locator(".choices .choice").first().tap();
  await see.tap();
  await page.getByText("The rest of Pressmark could not be loaded").waitFor();
  assert.equal(await page.locator("#heading").innerText(), "One moment");
  site.put(name, bytes);
  await page.locator(".keys").getByRole("button", { name: "See finding" }).tap();
  await page.locator(".rows").waitFor();
});

test("with the wasm missing it says so, and starts again once it is there", async (t) => {
  let name;
  let bytes;
  const { page, server, site } = await visit(t, {
    spoil(site) {
      name = site.file(/^opening-.*\.wasm$/);
      bytes = site.read(name);
      site.drop(name);
    },
  });
  await page.goto(server.address);
  await troubled(page, /could not be loaded/);
  site.put(name, bytes);
  await page.locator("#trouble-again").click();
  await heard(page, "usable");
  assert.equal(await page.locator("#trouble").isVisible(), false);
});

test("with the start script missing it says so", async (t) => {
  const { page, server } = await visit(t, { spoil: (site) => site.drop(site.file(/^boot-.*\.js$/)) });
  await page.goto(server.address);
  await troubled(page, /cannot start/);
});

test("wasm sent under a wrong media type still starts", async (t) => {
  const { page, server } = await visit(t);
  await page.route("**/*.wasm", async (route) => {
    const answer = await route.fetch();
    await route.fulfill({ response: answer, headers: { ...answer.headers(), "content-type": "text/plain" } });
  });
  await open(page, server.address);
  // The program that takes over later comes under the wrong type too.
  await heard(page, "whole-ready");
});

test("a damaged pack is refused with a sentence, never half read", async (t) => {
  const { page, server } = await visit(t, {
    spoil(site) {
      const name = site.file(/^core-.*\.pack$/);
      const bytes = site.read(name);
      bytes[bytes.length - 1] ^= 1;
      site.put(name, bytes);
    },
  });
  await page.goto(server.address);
  await troubled(page, /arrived damaged/);
  assert.equal(await page.evaluate(() => globalThis.heard.some(([name]) => name === "usable")), false);
});

test("a pack damaged once on the way is asked for again", async (t) => {
  const { page, server } = await visit(t);
  let times = 0;
  await page.route("**/core-*.pack", async (route) => {
    times += 1;
    const answer = await route.fetch();
    const bytes = await answer.body();
    if (times === 1) bytes[bytes.length >> 1] ^= 1;
    await route.fulfill({ response: answer, body: bytes });
  });
  await open(page, server.address);
  assert.ok(times >= 2, `asked ${times} times`);
});

test("without JavaScript the first question and a note stand there", async (t) => {
  // Turned off as a user would turn it off: playwright's own switch leaves <noscript> unread.
  const preferences = { profile: { default_content_setting_values: { javascript: 2 } } };
  const { page, server, context } = await visit(t, { options: { preferences } });
  await page.goto(server.address);
  const devtools = await context.newCDPSession(page);
  const { documents: [shown], strings } = await devtools.send("DOMSnapshot.captureSnapshot", { computedStyles: [] });
  const text = shown.layout.text.filter((at) => at >= 0).map((at) => strings[at]).join(" ");
  assert.match(text, /needs JavaScript/);
  assert.match(text, /\?/, "a question");
  assert.doesNotMatch(text, /cannot start|Opening your piece/);
});

test("with storage refused the page works and says what cannot be kept", async (t) => {
  const { page, server } = await visit(t, {
    before: (page) => page.addInitScript(() => {
      Object.defineProperty(globalThis, "localStorage", { get() { throw new DOMException("no", "SecurityError"); } });
      ServiceWorkerContainer.prototype.register = () => Promise.reject(new DOMException("no", "NotSupportedError"));
    }),
  });
  await open(page, server.address);
  assert.match(await heard(page, "offline-failed"), /does not let Pressmark be kept/);
});
