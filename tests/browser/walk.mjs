// One consultation as a hand or a keyboard leads it: what the flows share. Everything is found by what it says, as a
// user finds it.
import assert from "node:assert/strict";
import { open, visit } from "./harness.mjs";

/** A visit with the first question open. The test fails when the page complained of anything on the console. */
export async function begin(test, options) {
  const all = await visit(test, { quiet: true, ...options });
  await open(all.page, all.server.address);
  return all;
}

/** The heading that stands now. */
export const heading = (page) => page.locator("#heading").innerText();

/** The body's choice with this label. */
export const choice = (page, label) =>
  page.locator(".choices").getByRole("button", { name: label, exact: true });

/** A key of the lower bar. */
export const key = (page, label) => page.locator(".keys").getByRole("button", { name: label, exact: true });

/** A button by its whole name, wherever it stands. */
export const button = (page, name) => page.getByRole("button", { name, exact: true });

/** Waits until another heading stands, and returns it. */
export async function moved(page, from) {
  await page.waitForFunction((from) => document.getElementById("heading")?.innerText !== from, from, { polling: 20 });
  return heading(page);
}

/** Taps something that leads to another heading; returns the new heading. */
export async function tapOn(page, target) {
  const from = await heading(page);
  await target.tap();
  return moved(page, from);
}

/** Answers the question that stands, by a tap on a choice. */
export const answer = (page, label) => tapOn(page, choice(page, label));

/** The rows of the finding by their names: what, old or later, when, worth. */
export async function rows(page) {
  const entries = await page.locator(".rows > *").evaluateAll((rows) =>
    rows.map((row) => [row.querySelector("i").innerText, row.querySelector("i + *").innerText]));
  return Object.fromEntries(entries);
}

/** The field in which a measurement is typed, unfolded. */
export async function typing(page) {
  if (await page.locator(".typed details[open]").count() === 0) await page.locator(".typed summary").tap();
  return page.locator("#typed");
}

/** The text of the card under a heading of the finding. */
export const card = (page, title) =>
  page.locator("h2", { hasText: new RegExp(`^${title}$`) }).locator("xpath=following-sibling::*[1]");

/** One cast flat iron as a seller would hand it over: the choices, in the order of the guide's first looks. */
export const FLAT = {
  "How long is the sole?": "Up to a card's long side",
  "Where is it offered?": "Flea market or boot sale",
  "What is the grip like?": "Plain metal bar or band",
  "What is written on it?": "Nothing at all",
};

/**
 * Taps through until there is a finding: by `answers` (heading to label), otherwise the first choice. Returns what was
 * asked and said, and how many taps it took.
 */
export async function toFinding(page, answers = FLAT, most = 20) {
  const said = [];
  for (let taps = 0; taps < most; taps += 1) {
    const ask = await heading(page);
    if (await page.locator(".rows").count() > 0) return { said, taps };
    const labels = await page.locator(".choices .choice").allInnerTexts();
    const label = answers[ask] ?? labels[0];
    assert.ok(labels.includes(label), `"${ask}" has no choice "${label}", but: ${labels.join(" | ")}`);
    said.push([ask, label]);
    await answer(page, label);
  }
  throw new Error(`No finding after ${most} taps: ${said.map((pair) => pair.join(" = ")).join("; ")}`);
}
