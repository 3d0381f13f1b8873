// The field card is paper: one side of A4 or of letter, with a rule that is true. On a phone it is read.
import assert from "node:assert/strict";
import { test } from "node:test";
import { visit } from "./harness.mjs";

/** The card, reached from the printed key as a user would. */
async function card(t) {
  const visited = await visit(t);
  await visited.page.goto(`${visited.server.address}key.html`);
  await visited.page.getByRole("link", { name: /field card/ }).click();
  await visited.page.waitForURL(/card\.html$/);
  return visited;
}

test("the field card prints on one side of A4 and of letter paper", async (t) => {
  const { page } = await card(t);
  for (const format of ["A4", "Letter"]) {
    const pdf = (await page.pdf({ format })).toString("latin1");
    const counts = [...pdf.matchAll(/\/Count (\d+)/g)].map((found) => Number(found[1]));
    assert.deepEqual(counts, [1], format);
  }
});

test("on paper a hundred millimetres of the rule are a hundred millimetres, and nothing lies over the edge", async (t) => {
  const { page } = await card(t);
  await page.emulateMedia({ media: "print" });
  // A sheet of letter paper, less its margins, at 96 dots to an inch of 25.4 mm (CSS Values 4, 6.2).
  const dots = (mm) => (mm * 96) / 25.4;
  await page.setViewportSize({ width: Math.floor(dots(216 - 16)), height: Math.floor(dots(279 - 16)) });
  const seen = await page.evaluate(() => {
    const middle = (text) => {
      const found = [...document.querySelectorAll(".rule text")].find((t) => t.textContent === text);
      const box = found.getBoundingClientRect();
      return (box.left + box.right) / 2;
    };
    const root = document.documentElement;
    return {
      tenth: middle("110") - middle("10"),
      inches: middle("6 in") - middle("1 in"),
      over: [root.scrollWidth - root.clientWidth, root.scrollHeight - root.clientHeight],
    };
  });
  assert.ok(Math.abs(seen.tenth - dots(100)) < 0.5, `${seen.tenth}`);
  assert.ok(Math.abs(seen.inches - dots(127)) < 0.5, `${seen.inches}`);
  assert.ok(seen.over.every((n) => n <= 0), `${seen.over}`);
});

test("on a phone the field card is one column, without the rule", async (t) => {
  const { page } = await card(t);
  assert.equal(await page.locator(".rule").isVisible(), false);
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "nothing scrolls sideways");
});
