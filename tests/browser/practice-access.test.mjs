// Everybody can practise: axe finds nothing on any screen in any theme, text stands out 7:1, what is tapped is 48 px,
// nothing is cut on a narrow screen or with large letters.
import assert from "node:assert/strict";
import { test } from "node:test";
import { THEMES, complaints, cut, faint, small, themed, wear } from "./eyes.mjs";
import { SCREENS, beginPractice, openPractice } from "./practice.mjs";

// The way to a screen takes longer than looking at it: each is visited once and looked at in every way.
test("every screen of practice in every theme, narrow, and with letters twice as large", async (t) => {
  const { page, server } = await beginPractice(t);
  for (const [name, [fragment, way]] of Object.entries(SCREENS)) {
    await page.setViewportSize({ width: 360, height: 740 });
    await openPractice(page, server, fragment);
    await way(page);
    for (const theme of THEMES) {
      await wear(page, theme);
      assert.deepEqual(await complaints(page), [], `${name}, ${theme}`);
      assert.deepEqual(await faint(page), [], `${name}, ${theme}`);
      assert.deepEqual(await small(page), [], `${name}, ${theme}`);
    }
    await page.setViewportSize({ width: 320, height: 640 });
    assert.deepEqual(await cut(page, 320), [], `${name}, 320 px`);
    await page.setViewportSize({ width: 360, height: 740 });
    await page.evaluate(() => { document.documentElement.style.fontSize = "212.5%"; });
    assert.deepEqual(await cut(page, 360), [], `${name}, letters twice as large`);
  }
});

for (const theme of THEMES) {
  test(`${theme}: practice wears what was chosen on the question page`, async (t) => {
    const { page } = await beginPractice(t, themed(theme));
    assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), theme);
    assert.deepEqual(await faint(page), []);
  });
}
