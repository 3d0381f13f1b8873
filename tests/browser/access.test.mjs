// Everybody can use it: axe finds nothing on any screen in any theme, text stands out 7:1 and the frames of keys 3:1,
// whatever is tapped is at least 48 px each way, nothing scrolls sideways when letters grow or the screen is narrow, and
// forced colours, reduced motion and landscape keep all of it usable.
import assert from "node:assert/strict";
import { test } from "node:test";
import { complaints, cut, faint, small, themed } from "./eyes.mjs";
import { ROOMS } from "./rooms.mjs";
import { FLAT, answer, begin, button, key, tapOn, toFinding } from "./walk.mjs";

/** The way to each screen from the first question. */
const SCREENS = {
  "the first question": async () => {},
  "the typed question with a fault, and why": async (page) => {
    await page.locator("#typed").fill("iron");
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
    await page.locator("#typed").fill("210");
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
async function everyScreen({ page, server }, look, screens = SCREENS) {
  for (const [name, way] of Object.entries(screens)) {
    await page.goto("about:blank");
    await page.goto(server.address);
    await page.waitForFunction(() => globalThis.heard?.some(([name]) => name === "usable"));
    await way(page);
    await look(name);
  }
}

for (const theme of ["light", "dark", "sun"]) {
  test(`${theme}: axe, contrast and sizes on every screen`, async (t) => {
    const visited = await begin(t, themed(theme));
    const { page } = visited;
    await everyScreen(visited, async (name) => {
      assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), theme);
      assert.deepEqual(await complaints(page), [], name);
      assert.deepEqual(await faint(page), [], name);
      assert.deepEqual(await small(page), [], name);
    });
  });
}

test("axe finds nothing on what is made for paper", async (t) => {
  const { page, server } = await begin(t);
  for (const name of ["key.html", "card.html"]) {
    await page.goto(`${server.address}${name}`);
    assert.deepEqual(await complaints(page), [], name);
  }
});

test("nothing scrolls sideways or is cut at 320 px, with letters twice as large, or spaced out", async (t) => {
  const visited = await begin(t);
  const { page } = visited;
  const spaced = () => {
    // The figures of WCAG 2.2, 1.4.12.
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(`* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important }
      p { margin-bottom: 2em !important }`);
    document.adoptedStyleSheets = [sheet];
  };
  await everyScreen(visited, async (name) => {
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
    await page.setViewportSize({ width: 360, height: 740 });
  });
});

for (const [scheme, theme] of [["light", "phone"], ["dark", "phone"], ["dark", "sun"]]) {
  test(`forced colours, ${scheme}, ${theme}: lines are seen, keys have frames, and on differs from off`, async (t) => {
    const visited = await begin(t, themed(theme));
    const { page } = visited;
    await page.emulateMedia({ forcedColors: "active", reducedMotion: "reduce", colorScheme: scheme });
    await everyScreen(visited, async (name) => {
      assert.ok(await page.evaluate(() => matchMedia("(forced-colors: active)").matches));
      const found = await page.evaluate(() => {
        const parts = (colour) => (colour.match(/[\d.]+/g) ?? [0, 0, 0]).map(Number);
        const light = (colour) => {
          const linear = (part) => (part / 255 <= 0.04045 ? part / 255 / 12.92 : ((part / 255 + 0.055) / 1.055) ** 2.4);
          const [r, g, b] = parts(colour).map(linear);
          return 0.2126 * r + 0.7152 * g + 0.0722 * b;
        };
        const ratio = (one, other) => (Math.max(light(one), light(other)) + 0.05) / (Math.min(light(one), light(other)) + 0.05);
        const probe = document.createElement("i");
        probe.style.color = "Canvas";
        document.body.append(probe);
        const canvas = getComputedStyle(probe).color;
        probe.remove();
        const found = [];
        for (const line of document.querySelectorAll(".draw .d-line, .draw .d-asked, .sole .line, .axis, .curve")) {
          const stroke = getComputedStyle(line).stroke;
          if (ratio(stroke, canvas) < 3) found.push(`line ${line.getAttribute("class")}: ${stroke} on ${canvas}`);
        }
        for (const one of document.querySelectorAll(".choice, .key, .keys button, input, .next")) {
          const style = getComputedStyle(one);
          if (Number.parseFloat(style.borderTopWidth) < 1) found.push(`no frame: ${one.innerText}`);
        }
        const looks = (one) => {
          // Grounds are taken away by the system: only what survives that counts.
          const { borderTopWidth, textDecorationLine, fontWeight } = getComputedStyle(one);
          return [borderTopWidth, textDecorationLine, fontWeight].join();
        };
        for (const on of document.querySelectorAll('.key[aria-pressed="true"], .choice[aria-pressed="true"]')) {
          const off = on.parentElement.querySelector(`.${on.classList[0]}[aria-pressed="false"]`);
          if (off && looks(on) === looks(off)) found.push(`on looks like off: ${on.innerText}`);
        }
        return found;
      });
      assert.deepEqual([...new Set(found)], [], name);
    });
  });
}

test("with reduced motion nothing moves", async (t) => {
  const visited = await begin(t);
  const { page } = visited;
  await page.emulateMedia({ reducedMotion: "reduce" });
  await everyScreen(visited, async (name) => {
    const moving = await page.evaluate(() => [...document.querySelectorAll("*")].filter((one) => {
      const { transitionDuration, animationName } = getComputedStyle(one);
      return animationName !== "none" || transitionDuration.split(",").some((time) => Number.parseFloat(time) > 0);
    }).map((one) => one.className));
    assert.deepEqual(moving, [], name);
    assert.equal(await page.evaluate(() => document.getAnimations().length), 0);
  });
});

test("held sideways the whole job works, and the lower bar leaves room", async (t) => {
  const visited = await begin(t, { options: { viewport: { width: 740, height: 360 } } });
  const { page, site } = visited;
  await everyScreen(visited, async (name) => {
    assert.deepEqual(await cut(page, 740), [], name);
    const bar = await page.locator(".bar").boundingBox();
    assert.ok(bar.height <= 360 * 0.35, `${name}: the bar takes ${bar.height} of 360 px`);
  });
  const manifest = JSON.parse(site.read(site.file(/^manifest-.*\.webmanifest$/)));
  assert.ok([undefined, "any", "natural"].includes(manifest.orientation), "the home screen does not lock the way it is held");
});
