// Everybody can practise: axe finds nothing on any screen in any theme, text stands out 7:1, what is tapped is 48 px,
// nothing is cut on a narrow screen or with large letters.
import assert from "node:assert/strict";
import { test } from "node:test";
import { THEMES, faint, inEveryTheme, narrowAndLarge, themed } from "./eyes.mjs";
import { SCREENS, beginPractice, openPractice } from "./practice.mjs";

// The way to a screen takes longer than looking at it: each is visited once and looked at in every way.
test("every screen of practice in every theme, narrow, and with letters twice as large", async (t) => {
  const { page, server } = await beginPractice(t);
  for (const [name, [fragment, way]] of Object.entries(SCREENS)) {
    await openPractice(page, server, fragment);
    await way(page);
    await inEveryTheme(page, name);
    await narrowAndLarge(page, name);
  }
});

for (const theme of THEMES) {
  test(`${theme}: practice wears what was chosen on the question page`, async (t) => {
    const { page } = await beginPractice(t, themed(theme));
    assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), theme);
    assert.deepEqual(await faint(page), []);
  });
}
