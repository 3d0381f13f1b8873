// The first load: few requests, the first question painted before any script, nothing from elsewhere, right headers.
import assert from "node:assert/strict";
import { test } from "node:test";
import { heard, open, openAndKeep, visit } from "./harness.mjs";

test("at most eight requests, none of them twice, up to the first question", async (t) => {
  const { page, server, asked } = await visit(t);
  await open(page, server.address);
  // The worker, the book and the whole program come after that. The browser mentions an icon drawn from one answer twice.
  const late = asked.findIndex((url) => /\/(sw\.js|(book|app)-[^/]*)$/.test(url));
  const early = late < 0 ? [...asked] : asked.slice(0, late);
  const first = [...new Set(early)];
  assert.ok(first.length <= 8, `${first.length} requests: ${first.join(" ")}`);
  for (const kind of [/opening-.*\.wasm$/, /core-.*\.pack$/, /boot-.*\.js$/, /\.css$/]) {
    assert.equal(early.filter((url) => kind.test(url)).length, 1, `${kind} is loaded once`);
  }
});

test("the first question is painted while the program is still on its way", async (t) => {
  const { page, server } = await visit(t);
  let letGo;
  const held = new Promise((resolve) => { letGo = resolve; });
  await page.route("**/*.wasm", async (route) => { await held; await route.continue(); });
  await page.goto(server.address, { waitUntil: "commit" });
  await page.locator("#app h1").waitFor({ state: "visible" });
  letGo();
  await heard(page, "usable");
});

test("with a piece in the address the first question stays hidden until that piece is there", async (t) => {
  const { page, server } = await visit(t);
  let letGo;
  const held = new Promise((resolve) => { letGo = resolve; });
  await page.route("**/*.wasm", async (route) => { await held; await route.continue(); });
  // Before the style sheet is there nothing is painted, and everything counts as visible.
  await page.goto(`${server.address}#x`, { waitUntil: "domcontentloaded" });
  await page.locator("#held").waitFor({ state: "visible" });
  assert.equal(await page.locator("#app").isVisible(), false);
  letGo();
  await heard(page, "usable");
  await page.locator("#app").waitFor({ state: "visible" });
  assert.equal(await page.locator("#held").isVisible(), false);
});

for (const [chosen, set] of [["sun", "sun"], ["dark", "dark"], ["\"><script>", null]]) {
  test(`of the theme ${chosen} the page is ${set} before the program has come`, async (t) => {
    const { page, server } = await visit(t, {
      before: (page) => page.addInitScript((chosen) => localStorage.setItem("pressmark.theme", chosen), chosen),
    });
    await page.route("**/*.wasm", () => {});
    await page.goto(server.address);
    assert.equal(await page.evaluate(() => document.documentElement.dataset.theme ?? null), set);
  });
}

test("the browser finds nothing that would keep it off the home screen", async (t) => {
  const { page, server, context } = await visit(t, { options: { resident: true } });
  await openAndKeep(page, server.address);
  const devtools = await context.newCDPSession(page);
  const { installabilityErrors } = await devtools.send("Page.getInstallabilityErrors");
  assert.deepEqual(installabilityErrors, []);
  const { errors, url } = await devtools.send("Page.getAppManifest");
  assert.deepEqual(errors, []);
  assert.match(url, /manifest-[0-9a-f]{16}\.webmanifest$/);
});

test("the page's own policy refuses markup from text and files from elsewhere", async (t) => {
  const { page, server, blocked } = await visit(t);
  await open(page, server.address);
  const outcome = await page.evaluate(async () => {
    const names = [];
    try {
      document.createElement("p").innerHTML = "<img src=x>";
    } catch (reason) {
      names.push(reason.name);
    }
    // An address that is reserved for documentation: RFC 5737.
    await fetch("http://192.0.2.1/").catch((reason) => names.push(reason.name));
    return names;
  });
  assert.deepEqual(outcome, ["TypeError", "TypeError"]);
  // Both were complained of, and here that is what was wanted.
  assert.equal(blocked.splice(0).length >= 2, true);
});
