// The release in a browser of another make: the edition of one file from the disk, and the frame in another site.
import assert from "node:assert/strict";
import path from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";
import { hands } from "./engine-firefox.mjs";
import { consult, said } from "./engine-job.mjs";
import { ENGINES } from "./engines.mjs";
import { document, host, snippet } from "./guests.mjs";
import { able } from "./hands.mjs";
import { given, serve } from "./harness.mjs";

const RELEASE = given("PRESSMARK_RELEASE");
const ONE_FILE = path.join(RELEASE, "pressmark-one-file.html");

test("Firefox: one file from the disk comes to the finding that Chromium comes to, and so does the frame in another site", async (t) => {
  const firefox = await ENGINES.Firefox();
  t.after(() => firefox.close());
  const app = await serve(path.join(RELEASE, "pressmark"), { under: "/pressmark/" });
  const club = await host({ "/": { body: document(snippet(app.address)) } });
  t.after(async () => {
    await app.stop();
    await club.stop();
  });
  t.diagnostic(firefox.version);
  await firefox.goto(pathToFileURL(ONE_FILE).href);
  const found = await consult(firefox);
  const shown = await said(firefox, ".rows > *");
  assert.match(shown.join("\n"), /\d+ in \d+/);
  const page = firefox.page();
  await page.goto(club.address);
  await page.waitForFunction(() => globalThis.document.querySelector("pressmark-embed").shadowRoot?.querySelector("button"));
  await page.evaluate(() => {
    globalThis.found = undefined;
    addEventListener("pressmark-finding", ({ detail }) => { globalThis.found = detail; });
    globalThis.document.querySelector("pressmark-embed").shadowRoot.querySelector("button").click();
  });
  const frame = await page.waitForFrame((one) => one.url().includes("/frame.html"), { timeout: 20_000 });
  assert.equal(await consult(able(hands(frame))), found);
  await page.waitForFunction(() => globalThis.found);
  assert.equal(await page.evaluate(() => globalThis.found.kind), found);
  assert.deepEqual(firefox.complaints(), []);
  // Chromium on the same file, by the same steps.
  const chromium = await ENGINES.Chromium();
  t.after(() => chromium.close());
  await chromium.goto(pathToFileURL(ONE_FILE).href);
  assert.equal(await consult(chromium), found);
  assert.deepEqual(await said(chromium, ".rows > *"), shown);
});
