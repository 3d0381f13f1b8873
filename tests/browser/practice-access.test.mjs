// Everybody can practise: axe finds nothing on any screen in any theme, text stands out 7:1, what is tapped is 48 px,
// nothing is cut on a narrow screen or with large letters.
import assert from "node:assert/strict";
import { test } from "node:test";
import { THEMES, complaints, cut, faint, small, themed } from "./eyes.mjs";
import { SCREENS, beginPractice, openPractice } from "./practice.mjs";

for (const theme of THEMES) {
  test(`${theme}: axe, contrast and sizes on every screen of practice`, async (t) => {
    const { page, server } = await beginPractice(t, themed(theme));
    for (const [name, [fragment, way]] of Object.entries(SCREENS)) {
      await openPractice(page, server, fragment);
      await way(page);
      assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), theme);
      assert.deepEqual(await complaints(page), [], name);
      assert.deepEqual(await faint(page), [], name);
      assert.deepEqual(await small(page), [], name);
    }
  });
}

test("nothing scrolls sideways or is cut at 320 px, or with letters twice as large", async (t) => {
  const { page, server } = await beginPractice(t);
  for (const [name, [fragment, way]] of Object.entries(SCREENS)) {
    await page.setViewportSize({ width: 320, height: 640 });
    await openPractice(page, server, fragment);
    await way(page);
    assert.deepEqual(await cut(page, 320), [], `${name}, 320 px`);
    await page.setViewportSize({ width: 360, height: 740 });
    await page.evaluate(() => { document.documentElement.style.fontSize = "212.5%"; });
    assert.deepEqual(await cut(page, 360), [], `${name}, letters twice as large`);
  }
});
