// A cabinet of many pieces: how long the list, a search and likeness take on a slow phone, and that all of it goes out and in.
import assert from "node:assert/strict";
import { test } from "node:test";
import { open, visit } from "./harness.mjs";
import { DEEP, download, notice, openCabinet, takeIn } from "./cabinet.mjs";
import { many, searched } from "./many.mjs";
import { button, toFinding } from "./walk.mjs";

const PIECES = DEEP ? 5000 : 600;
const SLOWER = 4;
/** Of each invented photograph. */
const PHOTO_BYTES = 20_000;
/** The longest time in ms for which the main thread was held since it was asked to be watched. */
const watch = (page) => page.evaluate(() => {
  globalThis.held = 0;
  new PerformanceObserver((list) => list.getEntries().forEach((one) => { globalThis.held = Math.max(globalThis.held, one.duration); }))
    .observe({ type: "longtask", buffered: false });
});

const middle = (times) => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)];

test(`${PIECES} pieces with two photographs each, four times slower: list, search, likeness, out and in`, async (t) => {
  const { page, server, context } = await visit(t);
  const zip = many(PIECES, PHOTO_BYTES);
  const begun = Date.now();
  await takeIn(page, server, zip);
  t.diagnostic(`taken in: ${zip.length} bytes in ${Date.now() - begun} ms`);
  const devtools = await context.newCDPSession(page);
  const slow = (rate) => devtools.send("Emulation.setCPUThrottlingRate", { rate });

  await slow(SLOWER);
  const opened = [];
  for (let turn = 0; turn < 5; turn += 1) {
    await page.goto("about:blank");
    // What the page before still had to do is no part of it.
    await page.waitForTimeout(1000);
    const from = Date.now();
    await page.goto(`${server.address}cabinet.html`);
    await page.locator(".piece-row").first().waitFor();
    opened.push(Date.now() - from);
  }
  t.diagnostic(`list opens: ${opened.join(", ")} ms`);
  assert.ok(middle(opened) <= 1000, `the list opens in ${middle(opened)} ms`);

  const took = [];
  for (const words of ["s", "sw", "swan", "swan shelf 3", "iron 77"]) {
    took.push(Math.round(await searched(page, words)));
    await page.waitForTimeout(300);
  }
  t.diagnostic(`search: ${took.join(", ")} ms`);
  assert.ok(middle(took) <= 100, `a search takes ${middle(took)} ms`);
  assert.match(await page.locator(".piece-row").first().innerText(), /77/);
  await slow(1);

  // On the finding: offered without holding the page.
  await page.goto("about:blank");
  await open(page, server.address);
  await slow(SLOWER);
  await watch(page);
  await toFinding(page);
  await page.waitForTimeout(DEEP ? 6000 : 1500);
  t.diagnostic(`finding beside ${PIECES} pieces: the page is held for ${Math.round(await page.evaluate(() => globalThis.held))} ms at most`);
  await slow(1);

  await openCabinet(page, server, "#out");
  const heap = async () => (await devtools.send("Runtime.getHeapUsage")).usedSize;
  const [before, from] = [await heap(), Date.now()];
  const { bytes } = await download(page, () => button(page, "Export everything").tap());
  t.diagnostic(`exported: ${bytes.length} bytes in ${Date.now() - from} ms, heap ${Math.round((await heap() - before) / 1000)} kB more`);
  assert.ok(bytes.length > PIECES * 2 * PHOTO_BYTES);
  // The file is never whole in the page.
  const more = await heap() - before;
  assert.ok(more < 64e6, `the page holds ${Math.round(more / 1000)} kB more`);
  // Stopped in the middle it leaves nothing behind.
  await notice(page).getByRole("button", { name: "Good" }).tap();
  await button(page, "Export everything").tap();
  await button(page, "Stop").tap();
  await notice(page).filter({ hasText: /^Stopped/ }).first().waitFor();
});
