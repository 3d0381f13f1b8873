// The release in a browser of another make: the edition of one file from the disk, and the frame in another site.
import assert from "node:assert/strict";
import fs from "node:fs";
import { createRequire } from "node:module";
import os from "node:os";
import path from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";
import { document, host, snippet } from "./guests.mjs";
import { given, phone, serve } from "./harness.mjs";
import { FLAT } from "./walk.mjs";

const RELEASE = given("PRESSMARK_RELEASE");
const ONE_FILE = path.join(RELEASE, "pressmark-one-file.html");

/** One consultation in Firefox, by what a reader sees. */
async function consult(page) {
  for (let taps = 0; taps < 20; taps += 1) {
    const [ask, labels, done] = await page.evaluate(() => [
      globalThis.document.getElementById("heading").innerText,
      [...globalThis.document.querySelectorAll(".choices .choice")].map((one) => one.innerText),
      globalThis.document.querySelector(".rows") !== null,
    ]);
    if (done) return ask;
    const wanted = Math.max(0, labels.indexOf(FLAT[ask]));
    await page.evaluate((at) => globalThis.document.querySelectorAll(".choices .choice")[at].click(), wanted);
    await page.waitForFunction((from) => globalThis.document.getElementById("heading").innerText !== from, {}, ask);
  }
  throw new Error("No finding after twenty taps.");
}

test("Firefox: one file from the disk comes to the finding that Chromium comes to, and so does the frame in another site", async (t) => {
  const packages = createRequire(path.join(given("PRESSMARK_FIREFOX_DRIVER"), "package.json"));
  const puppeteer = packages("puppeteer-core");
  const profile = fs.mkdtempSync(path.join(os.tmpdir(), "pressmark-firefox-"));
  const browser = await (puppeteer.default ?? puppeteer).launch({
    browser: "firefox", executablePath: given("PRESSMARK_FIREFOX"), headless: true, userDataDir: profile,
    env: { ...process.env, HOME: profile, MOZ_DISABLE_CONTENT_SANDBOX: "1" },
  });
  const app = await serve(path.join(RELEASE, "pressmark"), { under: "/pressmark/" });
  const club = await host({ "/": { body: document(snippet(app.address)) } });
  t.after(async () => {
    await browser.close();
    await app.stop();
    await club.stop();
    fs.rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  });
  t.diagnostic(await browser.version());
  const page = await browser.newPage();
  const complaints = [];
  page.on("pageerror", (reason) => complaints.push(String(reason)));
  await page.goto(pathToFileURL(ONE_FILE).href);
  await page.waitForSelector("button.choice", { timeout: 20_000 });
  const found = await consult(page);
  const shown = await page.evaluate(() => globalThis.document.querySelector(".rows").innerText);
  assert.match(shown, /\d+ in \d+/);
  await page.goto(club.address);
  await page.waitForFunction(() => globalThis.document.querySelector("pressmark-embed").shadowRoot?.querySelector("button"));
  await page.evaluate(() => {
    globalThis.found = undefined;
    addEventListener("pressmark-finding", ({ detail }) => { globalThis.found = detail; });
    globalThis.document.querySelector("pressmark-embed").shadowRoot.querySelector("button").click();
  });
  const frame = await page.waitForFrame((one) => one.url().includes("/frame.html"), { timeout: 20_000 });
  await frame.waitForSelector("button.choice", { timeout: 20_000 });
  assert.equal(await consult(frame), found);
  await page.waitForFunction(() => globalThis.found);
  assert.equal(await page.evaluate(() => globalThis.found.kind), found);
  assert.deepEqual(complaints, []);
  // Chromium on the same file, by the same steps.
  const other = await phone();
  t.after(() => other.close());
  const same = await other.context.newPage();
  await same.goto(pathToFileURL(ONE_FILE).href);
  await same.locator("button.choice").first().waitFor();
  assert.equal(await consult({
    evaluate: (...words) => same.evaluate(...words), waitForFunction: (what, _options, ...words) => same.waitForFunction(what, ...words),
  }), found);
  assert.equal(await same.locator(".rows").innerText(), shown);
});
