// The example of the JavaScript package in a browser: no framework, no document in the engine. Its pack is invented.
import assert from "node:assert/strict";
import test from "node:test";
import { given, phone, serve } from "./harness.mjs";

test("the example of the package asks, answers and finds in the browser", async (t) => {
  const server = await serve(given("PRESSMARK_NPM"));
  t.after(() => server.stop());
  const { context, close } = await phone();
  t.after(close);
  const page = await context.newPage();
  const complaints = [];
  page.on("console", (message) => { if (message.type() === "error") complaints.push(message.text()); });
  page.on("pageerror", (error) => complaints.push(String(error)));
  await page.goto(`${server.address}example.html`);
  const asked = [];
  for (let taps = 0; taps < 20 && await page.locator("h2").count() === 0; taps += 1) {
    await page.locator("button").first().waitFor();
    asked.push(await page.locator("h1").innerText());
    await page.locator("button").first().tap();
  }
  assert.ok(asked.length >= 3 && new Set(asked).size === asked.length, asked.join(" | "));
  assert.equal(await page.locator("h2").innerText(), "For and against");
  assert.ok(await page.locator("li").count() > 0);
  assert.match(await page.locator("p.notice").innerText(), /invented/);
  assert.deepEqual(complaints, []);
});
