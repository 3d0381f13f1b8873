// The marks room: reached from anywhere, typed by big keys or by the phone's own, explained, kept in the address, and felt
// by the finding.
import assert from "node:assert/strict";
import test from "node:test";
import { open } from "./harness.mjs";
import { FLAT, answer, begin, button, card, heading, key, rows, tapOn, toFinding } from "./walk.mjs";

const field = (page) => page.locator("#lettering");
const readings = (page) => page.locator(".reading");

/** Into the marks room from wherever the page stands. */
async function enter(page) {
  await page.locator("header").getByRole("button", { name: "Marks", exact: true }).tap();
  await field(page).waitFor();
}

test("marks are read before any question, with keys for worn letters", async (t) => {
  const { page } = await begin(t);
  await enter(page);
  assert.equal(await heading(page), "Read the marks");
  await field(page).fill("PAT. MAY 3 181");
  // Where the caret stands, a key puts its sign in.
  await field(page).evaluate((input) => input.setSelectionRange(9, 9));
  await page.locator(".pad").getByRole("button", { name: "? one lost" }).tap();
  await field(page).evaluate((input) => input.setSelectionRange(14, 14));
  await page.locator(".pad").getByRole("button", { name: "? one lost" }).tap();
  assert.equal(await field(page).inputValue(), "PAT. MAY ?3 18?1");
  await readings(page).first().waitFor();
  // 23 May 1871 was a Tuesday, as every day on which the United States issued patents: published, USPTO.
  const all = await readings(page).allInnerTexts();
  assert.ok(all.some((text) => /May 18\d1/.test(text)), all.join(" | "));
  await readings(page).first().tap();
  assert.equal(await readings(page).first().getAttribute("aria-expanded"), "true");
  assert.match(await page.locator(".mark .card").first().innerText(), /from a published source/);
  await page.locator(".pad").getByRole("button", { name: "rub out" }).tap();
  assert.equal(await field(page).inputValue(), "PAT. MAY ?3 181");
});

test("lettering typed key by key all arrives: whatever comes and goes beneath, the field keeps the focus", async (t) => {
  const { page } = await begin(t);
  await toFinding(page);
  await enter(page);
  await field(page).tap();
  await page.keyboard.type("PAT. MAY 23 1871, MADE IN OCCUPIED JAPAN, No 7", { delay: 10 });
  assert.equal(await field(page).inputValue(), "PAT. MAY 23 1871, MADE IN OCCUPIED JAPAN, No 7");
  await readings(page).first().waitFor();
  assert.equal(await page.evaluate(() => document.activeElement.id), "lettering");
});

test("a diamond mark is entered on a drawn diamond", async (t) => {
  const { page } = await begin(t);
  await enter(page);
  await button(page, "Diamond mark…").tap();
  assert.equal(await heading(page), "The diamond mark");
  const press = (name) => page.locator(".letters").getByRole("button", { name, exact: true }).tap();
  for (const name of ["I", "X", "D", "2"]) await press(name);
  await page.getByRole("button", { name: /^in the bottom corner/ }).tap();
  await press("6");
  await button(page, "Use it").tap();
  // Letters X and D, 2 and 6: 2 September 1842, parcel 6, by the published tables.
  await readings(page).first().waitFor();
  assert.match(await readings(page).first().innerText(), /2 September 1842/);
});

test("the finding moves with the marks, and says what it would be without", async (t) => {
  const { page } = await begin(t);
  await toFinding(page);
  const before = (await rows(page)).When;
  await enter(page);
  await field(page).fill("MADE IN OCCUPIED JAPAN");
  await readings(page).first().waitFor();
  assert.match(await page.locator("main").innerText(), /What that does to the finding/i);
  await tapOn(page, key(page, "See finding"));
  const after = (await rows(page)).When;
  assert.notEqual(after, before);
  assert.match(after, /19(47|5)/);
  assert.match(await card(page, "When it was made").innerText(), /without the marks/i);
  assert.match(await page.locator(".clues").innerText(), /The marks “MADE IN OCCUPIED JAPAN”/);
  // The address carries the lettering to another phone.
  const link = page.url();
  assert.match(link, /mMADE_IN_OCCUPIED_JAPAN/);
  await page.goto("about:blank");
  await open(page, link);
  assert.equal((await rows(page)).When, after);
});

test("a mark that contradicts another is said to", async (t) => {
  const { page } = await begin(t);
  await enter(page);
  await field(page).fill("MADE IN OCCUPIED JAPAN, IL 60601");
  await page.locator(".care").first().waitFor();
  assert.match(await page.locator(".care").first().innerText(), /cannot both be right/);
});

test("the whole program goes on where the opening stands, undo included", async (t) => {
  const { page } = await begin(t);
  const first = await heading(page);
  await answer(page, FLAT[first]);
  await enter(page);
  await tapOn(page, button(page, "Back"));
  assert.equal(await heading(page), "Where is it offered?");
  await tapOn(page, key(page, "Undo"));
  assert.equal(await heading(page), first);
});
