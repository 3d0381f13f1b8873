// The whole job without a pointer: Tab, Shift+Tab, Enter, Space and letters only. After each answer the focus stands on
// the new heading, it is always seen, and never lies under the lower bar.
import assert from "node:assert/strict";
import { test } from "node:test";
import { FLAT, begin, heading, moved, rows } from "./walk.mjs";

/** What has the focus: its name, and where it stands. */
const focus = (page) => page.evaluate(() => {
  const at = document.activeElement;
  const { x, y, width, height } = at.getBoundingClientRect();
  const bar = document.querySelector(".bar").getBoundingClientRect();
  const style = getComputedStyle(at);
  // The points in from the corners, since corners are round, and the middle: whatever is on top there belongs to it.
  const points = [[0.1, 0.15], [0.9, 0.15], [0.5, 0.5], [0.1, 0.85], [0.9, 0.85]];
  const seen = points.filter(([h, v]) => {
    const top = document.elementFromPoint(x + width * h, y + height * v);
    return top && (at === top || at.contains(top));
  });
  return {
    id: at.id,
    tag: at.tagName,
    name: (at.getAttribute("aria-label") ?? at.innerText ?? "").trim().slice(0, 80),
    inBar: document.querySelector(".bar").contains(at),
    seen: seen.length,
    bottom: y + height,
    bar: bar.top,
    outline: style.outlineStyle === "none" ? 0 : Number.parseFloat(style.outlineWidth),
  };
});

/** Whether what has the focus can be seen whole, with a ring round it. */
function assertSeen(at) {
  assert.equal(at.seen, 5, `"${at.name}" has the focus and is hidden in part: ${JSON.stringify(at)}`);
  if (!at.inBar) assert.ok(at.bottom <= at.bar, `"${at.name}" reaches under the lower bar: ${JSON.stringify(at)}`);
  assert.ok(at.outline >= 2, `"${at.name}" has the focus and no ring`);
}

/** Presses Tab until what has the focus answers to `wanted`; every stop on the way must be seen. */
async function tabTo(page, wanted, back = false) {
  const stops = [];
  for (let i = 0; i < 90; i += 1) {
    await page.keyboard.press(back ? "Shift+Tab" : "Tab");
    const at = await focus(page);
    if (at.tag === "BODY") continue;
    assertSeen(at);
    stops.push(at.name);
    if (wanted(at)) return at;
  }
  throw new Error(`Tab never came to it, but to: ${stops.join(" | ")}`);
}

const named = (name) => (at) => at.name === name;

/** Presses a key on what has the focus, waits for another heading, and the focus must stand on it. */
async function press(page, key) {
  const from = await heading(page);
  await page.keyboard.press(key);
  const now = await moved(page, from);
  await page.waitForFunction(() => document.activeElement.id === "heading");
  assert.equal(await page.evaluate(() => scrollY), 0, "the new screen is seen from its top");
  return now;
}

test("the whole job by keyboard alone", async (t) => {
  const { page } = await begin(t);
  // Enter and Space in turn: both must do.
  const keys = ["Enter", "Space"];
  let answers = 0;
  while (await page.locator(".rows").count() === 0) {
    assert.ok(answers < 20, "no finding after 20 answers");
    const label = FLAT[await heading(page)] ?? await page.locator(".choice").first().innerText();
    await tabTo(page, named(label));
    await press(page, keys[answers % 2]);
    answers += 1;
  }
  assert.ok(answers >= 4);

  // The money by keyboard, and the focus stays where it was.
  await tabTo(page, (at) => at.name.endsWith("Show the money"));
  await page.keyboard.press("Space");
  await page.waitForFunction(() => /USD/.test(document.querySelector(".rows button").innerText));
  assert.match((await focus(page)).name, /USD/);
  const before = await rows(page);

  // A correction.
  await tabTo(page, (at) => at.name.startsWith("The grip is a plain metal bar"));
  assert.equal(await press(page, "Enter"), "What is the grip like?");
  await tabTo(page, named("Wood, or plastic"));
  await press(page, "Space");
  assert.notDeepEqual(await rows(page), before);

  // Undo takes it back, and everything that can have the focus is reached by Tab and seen.
  await tabTo(page, named("Undo"));
  assert.equal(await press(page, "Enter"), "What is the grip like?");
  await tabTo(page, named("Undo"));
  await press(page, "Enter");
  assert.deepEqual(await rows(page), before);
  const stops = await page.evaluate(() => document.querySelectorAll("#app button, #app a[href], #app input").length);
  const reached = new Set();
  for (let i = 0; i <= stops; i += 1) {
    await page.keyboard.press("Tab");
    const at = await focus(page);
    // Behind the last key the browser itself has its turn.
    if (at.tag === "BODY") continue;
    assertSeen(at);
    reached.add(at.name);
  }
  for (const name of ["Set up", "Undo", "All looks", "Next piece"]) {
    assert.ok(reached.has(name), `${name} is not among: ${[...reached].join(" | ")}`);
  }
});

test("one of two, not sure, why, typing and undo by keyboard", async (t) => {
  const { page } = await begin(t);
  // Typing: unfolded by Enter, and Enter in the field is enough.
  await tabTo(page, named("Or type the length"));
  await page.keyboard.press("Enter");
  await tabTo(page, (at) => at.id === "typed");
  await page.keyboard.type("iron");
  await page.keyboard.press("Enter");
  await page.locator("#typed-fault", { hasText: "is not a number" }).waitFor();
  assert.equal((await focus(page)).id, "typed", "the field keeps the focus, to be mended");
  for (let i = 0; i < 4; i += 1) await page.keyboard.press("Backspace");
  await page.keyboard.type("64");
  assert.equal(await press(page, "Enter"), "Where is it offered?");

  await tabTo(page, named("Skip"));
  const ask = await press(page, "Space");
  await tabTo(page, named("Why this?"));
  await page.keyboard.press("Enter");
  await page.locator(".card").waitFor();
  assert.equal((await focus(page)).name, "Why this?");
  await page.keyboard.press("Enter");
  await page.locator(".card").waitFor({ state: "detached" });

  await tabTo(page, named("One of two"));
  await page.keyboard.press("Enter");
  await page.locator(".told").waitFor();
  assert.equal((await focus(page)).name, "Only one", "the key under the finger is the way out");
  const labels = await page.locator(".choice").allInnerTexts();
  await tabTo(page, named(labels[1]), true);
  await page.keyboard.press("Enter");
  await page.locator(".told", { hasText: labels[1] }).waitFor();
  await tabTo(page, named(labels[0]), true);
  await press(page, "Space");
  assert.match(await page.locator(".last").innerText(), new RegExp(`${labels[0]} or ${labels[1]}`, "i"));

  await tabTo(page, named("Not sure"));
  await page.keyboard.press("Space");
  await page.locator('.last [aria-pressed="true"]').waitFor();
  assert.equal((await focus(page)).name, "Not sure");
  await tabTo(page, named("Undo"));
  assert.equal(await press(page, "Enter"), ask);
});

test("all looks and set-up by keyboard", async (t) => {
  const { page } = await begin(t);
  await tabTo(page, (at) => at.name.includes("See finding"));
  await press(page, "Enter");
  await tabTo(page, named("All looks"));
  await press(page, "Enter");
  await tabTo(page, named("wood, or plastic"));
  await page.keyboard.press("Space");
  await page.locator('.listed [aria-pressed="true"]').waitFor();
  assert.equal((await focus(page)).name, "wood, or plastic", "the list stays where it is");
  await page.keyboard.press("Space");
  await page.locator('.listed [aria-pressed="true"]').waitFor({ state: "detached" });
  assert.equal((await focus(page)).name, "wood, or plastic");

  await tabTo(page, named("Set up"), true);
  await press(page, "Enter");
  await tabTo(page, named("Dark"));
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.documentElement.dataset.theme === "dark");
  assert.equal((await focus(page)).name, "Dark");
  assertSeen(await focus(page));
  await tabTo(page, named("Back"), true);
  await press(page, "Space");
});

test("before the program has come the choices can be reached and taken by keyboard", async (t) => {
  let letGo;
  const held = new Promise((resolve) => { letGo = resolve; });
  t.after(() => letGo());
  // Begun by hand, since the page is not usable yet when the keys are pressed.
  const { heard, visit } = await import("./harness.mjs");
  const { page, server } = await visit(t, { quiet: true });
  await page.route("**/*.wasm", async (route) => { await held; await route.continue(); });
  await page.goto(server.address, { waitUntil: "commit" });
  await page.locator("a.choice").first().waitFor();
  await tabTo(page, named(FLAT["How long is the sole?"]));
  await page.keyboard.press("Enter");
  letGo();
  await heard(page, "usable");
  assert.equal(await heading(page), "Where is it offered?");
});
