// What the tests of the guide share: the ways to its pages, and how to get from one to the next.
import assert from "node:assert/strict";
import { heard, visit } from "./harness.mjs";
import { heading } from "./walk.mjs";

/** One page of each sort, by its fragment, with its heading. Kind 11 is met in the hand most, 18 mostly as a copy. */
export const PAGES = {
  "": "The guide",
  "#irons/kinds": "All kinds",
  "#irons/kind/11": "Toy flat iron, bow of bent wire",
  "#irons/kind/18": "Swan-shaped iron",
  "#irons/compare/11": "Compare “Bent wire bow” with…",
  "#irons/compare/11/107": /^Bent wire bow or /,
  "#irons/looks": "How to look",
  "#irons/look/2": "What is the grip like?",
  "#irons/words": "Words",
  "#irons/word/post": "Post",
  "#irons/parts": "Parts and their names",
  "#irons/care": "Care and cautions",
  "#irons/sources": "Sources",
  "#irons/find/wire+grip": "Find",
};

/** Opens a page of the guide and waits until it stands. */
export async function openBook(page, server, fragment = "") {
  await page.goto("about:blank");
  await page.goto(`${server.address}book.html${fragment}`);
  await heard(page, "usable");
}

/** A visit with a page of the guide open; fails when the page complained of anything. */
export async function beginBook(test, fragment = "", options = {}) {
  const all = await visit(test, { quiet: true, ...options });
  await openBook(all.page, all.server, fragment);
  return all;
}

/** Waits for a heading. */
export async function turned(page, to) {
  await page.locator("#heading").filter({ hasText: to }).waitFor();
  if (typeof to === "string") assert.equal(await heading(page), to);
}

/** The part of the address behind `#`. */
export const fragment = (page) => page.evaluate(() => location.hash);

/** The section under a heading. */
export const section = (page, title) =>
  page.locator("section").filter({ has: page.locator("h2", { hasText: new RegExp(`^${title}$`) }) });
