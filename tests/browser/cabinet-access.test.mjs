// Everybody can use the cabinet: axe finds nothing on any screen in any theme, text stands out 7:1, what is tapped is 48 px,
// nothing is cut on a narrow screen or with large letters; with the keyboard alone a record is written and found.
import assert from "node:assert/strict";
import { test } from "node:test";
import { SCREENS, beginCabinet, furnished, openCabinet, takeIn, told } from "./cabinet.mjs";
import { inEveryTheme, narrowAndLarge, themed } from "./eyes.mjs";

// The way to a screen takes longer than looking at it: each is visited once and looked at in every way.
test("every screen of the cabinet in every theme, narrow, and with letters twice as large", async (t) => {
  const { page, server } = await beginCabinet(t);
  await takeIn(page, server, furnished());
  for (const [name, [fragment, way]] of Object.entries(SCREENS)) {
    await openCabinet(page, server, fragment);
    await way(page);
    await inEveryTheme(page, name);
    await narrowAndLarge(page, name);
  }
});

test("with the keyboard alone a record is written, saved and found", async (t) => {
  const { page } = await beginCabinet(t);
  const tabTo = async (wanted) => {
    for (let presses = 0; presses < 120; presses += 1) {
      await page.keyboard.press("Tab");
      const name = await page.evaluate(() => (document.activeElement.closest("label")?.innerText ?? document.activeElement.innerText).split("\n")[0]);
      if (wanted.test(name)) return;
    }
    throw new Error(`Tab never came to ${wanted}`);
  };
  await tabTo(/^Write a record$/);
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.activeElement.id === "heading");
  await tabTo(/^Title/);
  await page.keyboard.type("By keyboard");
  await tabTo(/^Save$/);
  await page.keyboard.press("Space");
  await told(page, /^Saved:/);
  assert.equal(await page.evaluate(() => document.activeElement.id), "heading", "the focus stands on the new heading");
  await tabTo(/^All pieces$/);
  await page.keyboard.press("Enter");
  await tabTo(/^Look for/);
  await page.keyboard.type("keyb");
  await page.waitForFunction(() => document.querySelectorAll(".piece-row").length === 1);
  assert.equal(await page.evaluate(() => document.activeElement.type), "search", "typing goes on");
});

test("a schedule on paper has its table and sums and no keys", async (t) => {
  const { page, server } = await beginCabinet(t);
  await takeIn(page, server, furnished());
  await openCabinet(page, server, "#paper/schedule");
  await page.locator(".ruled").first().waitFor();
  await page.emulateMedia({ media: "print" });
  const text = await page.locator("main").innerText();
  // Five owned pieces at 20 to 45 USD each, all invented.
  for (const word of ["5 pieces", "100.00 USD", "225.00 USD", "fair market", "not an appraisal", "more than three years ago"]) {
    assert.ok(text.includes(word), `${word} in ${text}`);
  }
  for (const one of await page.locator(".bar, button").all()) assert.equal(await one.isVisible(), false);
});

test("the theme that was chosen with the questions holds in the cabinet", async (t) => {
  const { page } = await beginCabinet(t, themed("sun"));
  assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), "sun");
});
