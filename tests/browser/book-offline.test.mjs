// The guide without a signal: kept by the same worker as the question page, whichever of the two is opened first.
import assert from "node:assert/strict";
import { test } from "node:test";
import { caches, heard, open, openAndKeep, visit } from "./harness.mjs";
import { fragment, openBook, turned } from "./book.mjs";

for (const [first, address] of [["the question page", ""], ["the guide", "book.html#irons/kind/11"]]) {
  test(`with ${first} opened once, both pages open without a server`, async (t) => {
    const { page, server } = await visit(t);
    await openAndKeep(page, `${server.address}${address}`);
    assert.equal((await caches(page)).length, 1);
    await server.stop();
    await openBook(page, server, "#irons/compare/1/34");
    await turned(page, /^Solid cast grip or /);
    await page.getByRole("link", { name: "Solid cast grip" }).first().tap();
    await turned(page, /solid cast grip/);
    assert.equal(await fragment(page), "#irons/kind/1");
    await page.getByRole("link", { name: "Look at a piece" }).tap();
    await turned(page, "How long is the sole?");
    // A query, as a sharing program may add one.
    await page.goto(`${server.address}book.html?from=elsewhere#irons/words`);
    await heard(page, "usable");
    await turned(page, "Words");
  });
}

test("below a path it is kept as well", async (t) => {
  const { page, server } = await visit(t, { under: "/some/path/" });
  await openAndKeep(page, `${server.address}book.html`);
  await server.stop();
  await openBook(page, server, "#irons/parts");
  await turned(page, "Parts and their names");
});

test("it carries the same policy as the question page", async (t) => {
  const { page, server } = await visit(t);
  const policies = [];
  for (const address of ["", "book.html"]) {
    const answer = await page.goto(`${server.address}${address}`);
    policies.push(answer.headers()["content-security-policy"]);
    const meta = await page.locator("meta[http-equiv]").getAttribute("content");
    assert.ok(policies.at(-1).startsWith(meta));
  }
  assert.equal(policies[0], policies[1]);
  assert.doesNotMatch(policies[0], /unsafe-inline|'unsafe-eval'|https?:/);
});

for (const [what, pattern, says] of [
  ["the book", /^book-.*\.pack$/, /arrived damaged|no connection|twice/],
  ["its wasm", /^guide-.*\.wasm$/, /could not be loaded/],
]) {
  test(`with ${what} missing the guide says so, and the question page works`, async (t) => {
    const { page, server } = await visit(t, { spoil: (site) => site.drop(site.file(pattern)) });
    await page.goto(`${server.address}book.html#irons/kind/11`);
    await page.locator("#trouble").waitFor({ state: "visible" });
    assert.match(await page.locator("#trouble-says").innerText(), says);
    assert.equal(await page.locator("#held").isVisible(), false);
    await open(page, server.address);
    assert.equal(await page.locator("#trouble").isVisible(), false);
  });
}
