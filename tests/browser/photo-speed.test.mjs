// How long a picture of twelve million pixels takes on a slow phone, and for how long the page is held meanwhile. The processor
// is slowed to a quarter. What else the machine does falls on one take, what the program does falls on every one: the best of
// three is what is judged.
import assert from "node:assert/strict";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import test from "node:test";
import { choose, enter } from "./photo.mjs";
import { photograph, scene } from "./photograph.mjs";
import { begin, button, tapOn } from "./walk.mjs";

const TAKES = 3;

/** Notes what holds the page for more than 50 ms. */
function watch(apart) {
  if (!apart) delete globalThis.Worker;
  globalThis.long = [];
  new PerformanceObserver((list) => globalThis.long.push(...list.getEntries().map((e) => [e.startTime, e.duration])))
    .observe({ type: "longtask" });
}

/** Notes from now on when the picture was chosen and what the room said since. */
function listen() {
  globalThis.long.length = 0;
  globalThis.seen = [];
  const look = () => globalThis.seen.push([performance.now(), document.getElementById("heading").innerText]);
  new MutationObserver(look).observe(document.body, { subtree: true, childList: true, characterData: true });
  document.getElementById("photo-file").addEventListener("change", () => { globalThis.began = performance.now(); }, { capture: true });
}

/** Chooses the picture and agrees to the card: milliseconds until the card is proposed, until it is placed, and of the longest task. */
async function take(page, picture) {
  await page.evaluate(listen);
  await choose(page, picture);
  await page.waitForFunction(() => globalThis.seen.some(([, says]) => says === "Is this the card?"));
  const opened = await page.evaluate(() => globalThis.seen.find(([, says]) => says === "Is this the card?")[0] - globalThis.began);
  const placing = Date.now();
  await tapOn(page, button(page, "Yes, this is the card"));
  const placed = Date.now() - placing;
  const held = await page.evaluate(() => Math.max(0, ...globalThis.long.filter(([at]) => at >= globalThis.began).map(([, held]) => held)));
  return { opened, placed, held };
}

// Wanted: two seconds at a quarter of the speed, and no more than 100 ms at a time. Where no worker may run the page works in
// slices: it takes longer, and still holds nothing up.
for (const [name, apart, limit] of [["by a worker, within two seconds", true, 2000], ["without a worker", false, 4000]]) {
  test(`twelve million pixels ${name}, never holding the page`, async (t) => {
    const { page, context } = await begin(t, { before: (page) => page.addInitScript(watch, apart) });
    // From the disk: bytes that the test hands over would hold the page themselves.
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), "pressmark-photo-"));
    t.after(() => fs.rmSync(folder, { recursive: true }));
    const picture = path.join(folder, "iron.jpg");
    fs.writeFileSync(picture, await photograph(context, scene({ tilt: 5 })));
    await enter(page);
    // The program is there: its way over the line is not what is measured.
    await choose(page, picture);
    const devtools = await context.newCDPSession(page);
    await devtools.send("Emulation.setCPUThrottlingRate", { rate: 4 });
    const takes = [];
    for (let n = 0; n < TAKES; n += 1) {
      if (n > 0) await tapOn(page, button(page, "The card again"));
      await tapOn(page, button(page, "Another picture"));
      takes.push(await take(page, picture));
    }
    const said = takes.map((took) => `${Math.round(took.opened)} + ${took.placed} ms, held ${Math.round(took.held)}`);
    console.log(`figure: photo: 12 Mpx ${apart ? "worker" : "page"}: ${said.join("; ")}`);
    const best = (of) => Math.min(...takes.map(of));
    assert.ok(best((took) => took.opened + took.placed) <= limit, said.join("; "));
    assert.ok(best((took) => took.held) <= 100, said.join("; "));
  });
}
