// How soon it can be used, on a slow line and a slow phone, and that nothing jumps when the program takes over.
//
// The line is emulated by the browser and very repeatable; the slowed processor is not, so the bounds on time are wide
// and what they guard is the shape: paint before the program, one round trip less, no second download.
import assert from "node:assert/strict";
import { test } from "node:test";
import { heard, openAndKeep, visit } from "./harness.mjs";
import { timeTaps } from "./taps.mjs";
import { answer, begin, key, tapOn, toFinding } from "./walk.mjs";

/** Runs in the page before anything else: notes when what happened. */
function watch() {
  globalThis.moments = { shift: 0 };
  addEventListener("pressmark:usable", () => { globalThis.moments.usable = performance.now(); });
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) if (entry.name === "first-contentful-paint") globalThis.moments.painted = entry.startTime;
  }).observe({ type: "paint", buffered: true });
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) globalThis.moments.shift += entry.value;
  }).observe({ type: "layout-shift", buffered: true });
}

async function slowed(context, page, { latency, kbps, cpu }) {
  const devtools = await context.newCDPSession(page);
  if (kbps) {
    await devtools.send("Network.enable");
    const bytes = (kbps * 1000) / 8;
    await devtools.send("Network.emulateNetworkConditions", {
      offline: false, latency, downloadThroughput: bytes, uploadThroughput: bytes,
    });
  }
  await devtools.send("Emulation.setCPUThrottlingRate", { rate: cpu });
}

async function moments(page) {
  await heard(page, "usable", 30_000);
  await page.waitForFunction(() => globalThis.moments.painted !== undefined);
  return page.evaluate(() => globalThis.moments);
}

// Bounds: the project's own budget (painted 2.5 s, usable 6 s on a line of 400 kbit/s with 400 ms; 2.5 s on 1.6 Mbit/s).
for (const [name, line, painted, usable] of [
  ["a line of 400 kbit/s and a slow phone", { latency: 400, kbps: 400, cpu: 4 }, 2500, 6000],
  ["a line of 1.6 Mbit/s and a slow phone", { latency: 150, kbps: 1638, cpu: 4 }, 1800, 3500],
]) {
  test(`on ${name} the first question is painted and usable in time`, async (t) => {
    const { page, context, server } = await visit(t, { before: (page) => page.addInitScript(watch) });
    await slowed(context, page, line);
    await page.goto(server.address);
    const took = await moments(page);
    t.diagnostic(`painted ${Math.round(took.painted)} ms, usable ${Math.round(took.usable)} ms, shift ${took.shift.toFixed(3)}`);
    assert.ok(took.painted <= painted, `painted after ${took.painted} ms`);
    assert.ok(took.usable <= usable, `usable after ${took.usable} ms`);
    assert.ok(took.painted < took.usable, "painted before the program has come");
    // Web vitals call a shift of 0.1 good; nothing of ours may come near it.
    assert.ok(took.shift <= 0.02, `the page jumped by ${took.shift}`);
  });
}

test("without a signal a slow phone can answer within two seconds", async (t) => {
  const { page, context, server } = await visit(t, { before: (page) => page.addInitScript(watch) });
  await openAndKeep(page, server.address);
  await server.stop();
  await slowed(context, page, { cpu: 4 });
  await page.reload();
  const took = await moments(page);
  t.diagnostic(`usable ${Math.round(took.usable)} ms, shift ${took.shift.toFixed(3)}`);
  assert.ok(took.usable <= 2000, `usable after ${took.usable} ms`);
  assert.ok(took.shift <= 0.02, `the page jumped by ${took.shift}`);
});

/** Prints the middle and the 95th of 100, and returns the former. */
function figures(name, times) {
  const sorted = times.toSorted((a, b) => a - b);
  const part = (share) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))];
  console.log(`figure: tap to ${name} painted, processor slowed 4 times, ${sorted.length} taps: `
    + `p50 ${part(0.5).toFixed(0)} ms, p95 ${part(0.95).toFixed(0)} ms`);
  return part(0.5);
}

// The figures are to be read; the goal for the next question is 100 ms for 95 taps of 100. The bound is 400 ms for the
// middle one, on purpose: a machine with seven times more work than processors took 85 ms in the middle and 398 ms at
// the 95th, and a bound near the goal would fail by chance. What it catches is a next question that has become slow by
// nature.
test("a tap is answered at once on a slow phone", async (t) => {
  const { page, context } = await begin(t, { before: (page) => page.addInitScript(timeTaps) });
  await heard(page, "offline-ready");
  await slowed(context, page, { cpu: 4 });
  // Three pieces to their ends, with a step back in each. No such wooden grip grows from its body: it takes long to say so.
  for (const grip of ["Plain metal bar or band", "Wood, or plastic", "Bent or coiled wire"]) {
    await toFinding(page, { "What is the grip like?": grip }, 40);
    await tapOn(page, key(page, "Undo"));
    await answer(page, await page.locator(".choice").last().innerText());
    if (await page.locator(".rows").count() === 0) await tapOn(page, page.locator(".strip"));
    await tapOn(page, key(page, "Next piece"));
  }
  const taps = await page.evaluate(() => globalThis.taps);
  const took = (screen) => taps.filter((tap) => tap.screen === screen).map((tap) => tap.took);
  assert.ok(took("question").length >= 20, `${took("question").length} taps led to a question`);
  figures("finding", took("finding"));
  const middle = figures("next question", took("question"));
  assert.ok(middle <= 400, `the middle tap took ${middle.toFixed(0)} ms`);
});
