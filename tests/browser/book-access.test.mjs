// Everybody can read the guide: axe finds nothing on any page in any theme, text stands out 7:1, what is tapped is 48 px,
// nothing is cut on a narrow screen or with large letters, and on paper a kind is whole.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PAGES, beginBook, openBook, section } from "./book.mjs";
import { THEMES, faint, inEveryTheme, narrowAndLarge, themed } from "./eyes.mjs";

test("every page of the guide in every theme, narrow, and with letters twice as large", async (t) => {
  const { page, server } = await beginBook(t);
  for (const link of Object.keys(PAGES)) {
    await openBook(page, server, link);
    await inEveryTheme(page, link);
    await narrowAndLarge(page, link);
  }
});

for (const theme of THEMES) {
  test(`${theme}: the guide wears what was chosen on the question page`, async (t) => {
    const { page } = await beginBook(t, "", themed(theme));
    assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), theme);
    assert.deepEqual(await faint(page), []);
  });
}

test("drawings that stand alone speak, and those beside words are silent", async (t) => {
  const { page, server } = await beginBook(t, "#irons/kind/11");
  const alone = page.locator(".pieces [role=img]");
  assert.match(await alone.getAttribute("aria-label"), /from the side.*a bent wire/i);
  await openBook(page, server, "#irons/kinds");
  const spoken = await page.locator(".choice svg").evaluateAll((all) => all.filter((one) => one.getAttribute("aria-hidden") !== "true").length);
  assert.equal(spoken, 0);
});

test("the numbers on the parts stand beside their words", async (t) => {
  const { page } = await beginBook(t, "#irons/parts");
  const plates = await page.locator(".numbers").evaluateAll((all) => all.map((one) => ({
    marks: [...one.querySelectorAll("svg text")].map((mark) => mark.textContent).filter((mark) => /^\d+$/.test(mark)),
    circles: [...one.querySelectorAll("circle")].map((c) => [Number(c.getAttribute("cx")), Number(c.getAttribute("cy"))]),
    words: [...one.querySelectorAll("ol > li")].length,
  })));
  assert.ok(plates.length >= 2 && plates[0].words >= 4, JSON.stringify(plates.map((one) => one.words)));
  for (const { marks, circles, words } of plates) {
    assert.equal(circles.length, words);
    assert.deepEqual(marks.slice(-words), Array.from({ length: words }, (_, at) => String(at + 1)));
    for (const [i, [x, y]] of circles.entries()) {
      for (const [a, b] of circles.slice(i + 1)) assert.ok(Math.hypot(x - a, y - b) >= 160, "two numbers collide");
    }
  }
});

test("on paper a kind is whole: its money too, without keys, and nothing runs over the edge", async (t) => {
  const { page } = await beginBook(t, "#irons/kind/11");
  await page.emulateMedia({ media: "print" });
  const worth = await section(page, "What it is worth").innerText();
  assert.match(worth, /\d+ to \d+ USD/);
  assert.match(worth, /not an appraisal/);
  for (const gone of [".bar", ".saves", "button"]) {
    for (const one of await page.locator(gone).all()) assert.equal(await one.isVisible(), false, gone);
  }
  const text = await page.locator("main").innerText();
  for (const word of ["Made as", "What to look for", "How copies give themselves away", "What this rests on"]) {
    assert.ok(text.includes(word), word);
  }
  const pdf = await page.pdf({ format: "A4" });
  const sheets = pdf.toString("latin1").match(/\/Type\s*\/Page\b/g).length;
  assert.ok(sheets >= 1 && sheets <= 6, `${sheets} sheets of paper`);
});
