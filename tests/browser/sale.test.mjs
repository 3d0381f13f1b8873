// The room for a sale: the most to pay with one thumb, money hidden by one key, condition felt by the finding, a sheet for
// the day that is kept, invented sales that touch nothing.
import assert from "node:assert/strict";
import test from "node:test";
import { open } from "./harness.mjs";
import { begin, button, card, heading, key, rows, tapOn, toFinding } from "./walk.mjs";

const field = (page, label) => page.getByLabel(label);
const desk = (page, name) => page.locator(".desks").getByRole("button", { name, exact: true });

/** From a finding into the room, money shown. */
async function enter(page) {
  await toFinding(page);
  await tapOn(page, card(page, "What it is worth").getByRole("button", { name: "What to pay", exact: true }));
  assert.equal(await heading(page), "What to pay");
  await button(page, "Show the money").first().tap();
  await field(page, /^Limit, all included/).waitFor();
}

test("the highest bid keeps the limit, a step more does not", async (t) => {
  const { page } = await begin(t);
  await enter(page);
  await field(page, "Premium, %").fill("20");
  await field(page, /^Limit, all included/).fill("60");
  // 60 / 1.2 = 50: arithmetic.
  assert.match(await page.locator(".big").innerText(), /50\.00 USD/);
  assert.match(await page.locator(".sums").first().innerText(), /All together\s+60\.00 USD/);
  await page.getByRole("button", { name: "One bid up" }).tap();
  assert.match(await page.locator("main").innerText(), /6\.00 USD over the limit/);
  assert.match(await page.locator("main").innerText(), /not an appraisal/);
  // The terms are there again after a reload.
  await page.reload();
  await button(page, "Show the money").first().tap();
  assert.equal(await field(page, "Premium, %").inputValue(), "20");
});

test("a field keeps the focus while what is typed in it is wrong, and right again", async (t) => {
  const { page } = await begin(t);
  await enter(page);
  const currency = field(page, "Currency");
  const fault = page.locator(".field .fault");
  await currency.tap();
  for (let letters = 0; letters < 3; letters += 1) await page.keyboard.press("Backspace");
  await fault.waitFor();
  await page.keyboard.type("GBP", { delay: 10 });
  await fault.waitFor({ state: "detached" });
  assert.equal(await currency.inputValue(), "GBP");
});

test("one key hides all money", async (t) => {
  const { page } = await begin(t);
  await enter(page);
  await field(page, /^Limit, all included/).fill("60");
  await key(page, "Hide the money").tap();
  await button(page, "Show the money").first().waitFor();
  assert.doesNotMatch(await page.locator("main").innerText(), /USD/);
});

test("a fault of the piece moves the band that the finding shows, and travels in the link", async (t) => {
  const { page } = await begin(t);
  await enter(page);
  await desk(page, "Condition").tap();
  await page.getByRole("button", { name: /^Grip missing/ }).tap();
  assert.match(await page.locator(".card").first().innerText(), /about 32 in 100 of the band/);
  assert.match(page.url(), /wgrip-missing/);
  await tapOn(page, key(page, "See finding"));
  assert.match(await card(page, "What it is worth").innerText(), /In this condition: Grip missing/);
  const link = page.url();
  await page.goto("about:blank");
  await open(page, link);
  assert.ok((await rows(page)).Worth);
});

test("the piece goes on the sheet, is won, and the day is kept", async (t) => {
  const { page } = await begin(t);
  await enter(page);
  await field(page, /^Limit, all included/).fill("45");
  await button(page, "Put this piece on the sheet").tap();
  await page.locator(".lot-head").waitFor();
  await field(page, /^Budget of the day/).fill("100");
  await page.locator(".lot-head").tap();
  await button(page, "Won at this").tap();
  assert.match(await page.locator(".lot-head").innerText(), /Won at 45\.00 USD/);
  assert.match(await page.locator(".big").innerText(), /55\.00 USD left of 100\.00 USD/);
  await page.reload();
  await button(page, "Show the money").first().tap();
  await desk(page, "Sale sheet").tap();
  assert.match(await page.locator(".lot-head").innerText(), /Won at 45\.00 USD/);
});

test("invented sales are off by default, said to be invented, and touch no finding", async (t) => {
  const { page } = await begin(t);
  await enter(page);
  await desk(page, "Sales seen").tap();
  assert.doesNotMatch(await page.locator("main").innerText(), /for demonstration only/);
  await button(page, "Show the invented sales").tap();
  await page.locator(".told", { hasText: "Invented sales of an invented club" }).waitFor();
  await tapOn(page, key(page, "See finding"));
  const after = (await rows(page)).Worth;
  await tapOn(page, card(page, "What it is worth").getByRole("button", { name: "What to pay", exact: true }));
  await button(page, "Hide the invented sales").tap();
  await tapOn(page, key(page, "See finding"));
  assert.equal((await rows(page)).Worth, after);
});
