// Everybody can use it: axe finds nothing on any screen in any theme, text stands out 7:1 and the frames of keys 3:1,
// whatever is tapped is at least 48 px each way, nothing scrolls sideways when letters grow or the screen is narrow, and
// forced colours, reduced motion and landscape keep all of it usable.
import assert from "node:assert/strict";
import { test } from "node:test";
import { THEMES, complaints, cut, faint, inEveryTheme, moving, small, themed, unframed, wear } from "./eyes.mjs";
import { ROOMS } from "./rooms.mjs";
import { FLAT, answer, begin, button, key, tapOn, toFinding, typing } from "./walk.mjs";

/** The way to each screen from the first question. */
const SCREENS = {
  "the first question": async () => {},
  "the typed question with a fault, and why": async (page) => {
    await (await typing(page)).fill("iron");
    await button(page, "Use it").tap();
    await page.locator(".fault").filter({ hasText: /./ }).waitFor();
    await button(page, "Why this?").tap();
  },
  "where it is offered": async (page) => { await answer(page, FLAT["How long is the sole?"]); },
  "the finding with its money": async (page) => {
    await toFinding(page);
    await page.locator(".rows button").tap();
    // The long texts come a moment later.
    await page.locator("h2", { hasText: "About this kind" }).waitFor();
  },
  "the finding half way, outside of the guide": async (page) => {
    await (await typing(page)).fill("210");
    await tapOn(page, button(page, "Use it"));
    await tapOn(page, page.locator(".strip"));
  },
  "the list of all looks": async (page) => {
    await toFinding(page);
    await tapOn(page, key(page, "All looks"));
  },
  "the marks room": async (page) => {
    await tapOn(page, button(page, "Marks"));
    await page.locator("#lettering").fill("PAT. MAY ?3 18?1; MADE IN OCCUPIED JAPAN, IL 60601");
    await page.locator(".reading").first().tap();
  },
  "a diamond mark": async (page) => {
    await tapOn(page, button(page, "Marks"));
    await button(page, "Diamond mark…").tap();
    for (const name of ["I", "X"]) await page.locator(".letters").getByRole("button", { name, exact: true }).tap();
  },
  "set-up": async (page) => { await tapOn(page, button(page, "Set up")); },
  ...ROOMS,
};

/** Visits every screen afresh and calls `look` on each. */
async function everyScreen({ page, server }, look) {
  for (const [name, way] of Object.entries(SCREENS)) {
    await page.goto("about:blank");
    await page.goto(server.address);
    await page.waitForFunction(() => globalThis.heard?.some(([name]) => name === "usable"));
    await way(page);
    await look(name);
  }
}

/** Everything on this screen may be 320 px wide, spaced out by the figures of WCAG 2.2, 1.4.12, and in letters twice as large. */
async function roomy(page, name) {
  const spaced = () => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(`* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important }
      p { margin-bottom: 2em !important }`);
    document.adoptedStyleSheets = [sheet];
  };
  await page.setViewportSize({ width: 320, height: 640 });
  assert.deepEqual(await cut(page, 320), [], `${name}, 320 px`);
  assert.deepEqual(await small(page), [], `${name}, 320 px`);
  await page.evaluate(spaced);
  assert.deepEqual(await cut(page, 320), [], `${name}, 320 px, spaced out`);
  await page.setViewportSize({ width: 360, height: 740 });
  assert.deepEqual(await cut(page, 360), [], `${name}, spaced out`);
  const letters = () => page.evaluate(() => Number.parseFloat(getComputedStyle(document.querySelector("h1")).fontSize));
  await page.evaluate(() => { document.adoptedStyleSheets = []; });
  const usual = await letters();
  await page.evaluate(() => { document.documentElement.style.fontSize = "212.5%"; });
  assert.ok(Math.abs(await letters() / usual - 2) < 0.01, "letters are twice as large");
  assert.deepEqual(await cut(page, 360), [], `${name}, letters twice as large`);
  assert.deepEqual(await small(page), [], `${name}, letters twice as large`);
  await page.evaluate(() => { document.documentElement.style.fontSize = ""; });
}

/** Held sideways nothing is cut, and the lower bar leaves room. */
async function sideways(page, name) {
  await page.setViewportSize({ width: 740, height: 360 });
  assert.deepEqual(await cut(page, 740), [], `${name}, held sideways`);
  const bar = await page.locator(".bar").boundingBox();
  assert.ok(bar.height <= 360 * 0.35, `${name}: the bar takes ${bar.height} of 360 px`);
  await page.setViewportSize({ width: 360, height: 740 });
}

// The way to a screen takes longer than looking at it: each is visited once and looked at in every way.
test("every screen in every theme, narrow, sideways, with large letters, with forced colours and with reduced motion", async (t) => {
  const visited = await begin(t);
  const { page } = visited;
  await everyScreen(visited, async (screen) => {
    const own = await page.evaluate(() => document.documentElement.dataset.theme);
    await inEveryTheme(page, screen);
    for (const [scheme, theme] of [["light", own], ["dark", own], ["dark", "sun"]]) {
      await wear(page, theme);
      await page.emulateMedia({ forcedColors: "active", colorScheme: scheme });
      assert.deepEqual(await unframed(page), [], `${screen}, forced colours, ${scheme}, ${theme}`);
    }
    await wear(page, own);
    await page.emulateMedia({ forcedColors: null, colorScheme: null, reducedMotion: "reduce" });
    assert.deepEqual(await moving(page), [], screen);
    await page.emulateMedia({ reducedMotion: null });
    await roomy(page, screen);
    await sideways(page, screen);
  });
});

for (const theme of THEMES) {
  test(`${theme}: what was chosen in set-up is what the page wears`, async (t) => {
    const { page } = await begin(t, themed(theme));
    assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), theme);
    assert.deepEqual(await faint(page), []);
  });
}

test("axe finds nothing on what is made for paper", async (t) => {
  const { page, server } = await begin(t);
  for (const name of ["key.html", "card.html"]) {
    await page.goto(`${server.address}${name}`);
    assert.deepEqual(await complaints(page), [], name);
  }
});

test("held sideways the whole job works, and the home screen does not lock the way it is held", async (t) => {
  const { page, site } = await begin(t, { options: { viewport: { width: 740, height: 360 } } });
  await toFinding(page);
  const manifest = JSON.parse(site.read(site.file(/^manifest-.*\.webmanifest$/)));
  assert.ok([undefined, "any", "natural"].includes(manifest.orientation));
});
