// `cargo xtask bench soak [minutes]`: a person who does not stop. Random but legal use of all pages, one after the other, in one
// window with one store: pieces whose findings are compared with the native engine's, records kept and written, practice, reading.
// Watched as it goes: memory, the store, complaints. Usage: soak.mjs <minutes> <seed> <folder to write into>
import assert from "node:assert/strict";
import fs from "node:fs";
import path from "node:path";
import { openCabinet, ready, stored, told, write } from "../browser/cabinet.mjs";
import { given, heard, open, phone, serve } from "../browser/harness.mjs";
import { answered, dice, same } from "../browser/pieces.mjs";
import { offers, openPractice, verdict } from "../browser/practice.mjs";
import { button, key } from "../browser/walk.mjs";

const [minutes, seed, out] = [Number(process.argv[2]), Number(process.argv[3]), process.argv[4]];
const roll = dice(seed);
/** Memory may have grown by so much since the fifth minute (the first fifth of a shorter run). */
const MORE = 1.1;

const server = await serve(given("PRESSMARK_DIST"));
const { context, close } = await phone({ resident: true });
const page = context.pages()[0];
await page.addInitScript(() => {
  globalThis.heard = [];
  for (const name of ["usable", "trouble", "whole-ready", "offline-ready"]) {
    addEventListener(`pressmark:${name}`, (event) => globalThis.heard.push([name, event.detail]));
  }
});
const complaints = [];
page.on("console", (message) => { if (message.type() === "error") complaints.push(message.text()); });
page.on("pageerror", (error) => complaints.push(String(error)));
const devtools = await context.newCDPSession(page);

const counted = { pieces: 0, kept: 0, written: 0, tasks: 0, pages: 0 };

/** One piece by random answers; its finding is the native engine's. Sometimes it is kept. */
async function piece() {
  await page.goto("about:blank");
  await open(page, server.address);
  const lines = await answered(page, roll);
  await same(page, lines, lines.join("\n"));
  counted.pieces += 1;
  if (roll(3) > 0) return;
  await button(page, "Keep this piece").tap();
  await page.waitForURL(/cabinet\.html#piece\//);
  await told(page, /^Kept: /);
  counted.kept += 1;
}

async function record() {
  await openCabinet(page, server);
  await write(page, { Title: `Iron ${counted.written}`, Condition: "worn at the toe" });
  counted.written += 1;
}

async function search() {
  await openCabinet(page, server);
  const field = page.locator("input[type=search]");
  if (await field.count() === 0) return;
  await field.fill(["iron", "flat", "worn", "1"][roll(4)]);
  await page.waitForTimeout(200);
}

async function practise() {
  await openPractice(page, server, "#task");
  for (let n = 0; n < 3; n += 1) {
    await offers(page).first().waitFor();
    await offers(page).nth(roll(await offers(page).count())).tap();
    await verdict(page);
    counted.tasks += 1;
    await key(page, "Next").tap();
  }
}

async function read() {
  await page.goto("about:blank");
  await page.goto(`${server.address}book.html`);
  await heard(page, "usable");
  for (let n = 0; n < 4; n += 1) {
    const links = page.locator('main a[href^="#"]:visible');
    const count = await links.count();
    if (count === 0) return;
    await links.nth(roll(count)).tap();
    await page.waitForTimeout(100);
    counted.pages += 1;
  }
}

/** Kilobytes: heap of the script after a collection, on the first question, and what the browser's processes hold in all. */
async function memory() {
  await page.goto("about:blank");
  await open(page, server.address);
  await heard(page, "whole-ready");
  await devtools.send("HeapProfiler.collectGarbage");
  const heap = Math.round((await devtools.send("Runtime.getHeapUsage")).usedSize / 1000);
  const { usage } = await page.evaluate(() => navigator.storage.estimate());
  return { minute: Math.round(spent() * 10) / 10, heap, resident: resident(), stored: Math.round(usage / 1000) };
}

/** What all processes of this browser hold, each shared page counted in parts. Only where the system tells. */
function resident() {
  let all = 0;
  for (const process of fs.readdirSync("/proc").filter((name) => /^\d+$/.test(name))) {
    try {
      const words = fs.readFileSync(`/proc/${process}/cmdline`, "utf8");
      if (!words.includes("pressmark-test-") || !words.includes("chrom")) continue;
      all += Number(fs.readFileSync(`/proc/${process}/smaps_rollup`, "utf8").match(/^Pss:\s+(\d+)/m)[1]);
    } catch {
      // It has ended meanwhile.
    }
  }
  return all;
}

const begun = Date.now();
const spent = () => (Date.now() - begun) / 60_000;
const watched = [];
const ways = [[6, piece], [2, record], [1, search], [3, practise], [3, read]];
const turns = ways.flatMap(([times, way]) => Array(times).fill(way));
let next = 0;
while (spent() < minutes) {
  if (spent() >= next) {
    watched.push(await memory());
    console.log(`  ${JSON.stringify({ ...watched.at(-1), ...counted })}`);
    next += Math.max(1, minutes / 30);
  }
  await turns[roll(turns.length)]();
}
watched.push(await memory());

// Every record that was acknowledged is there, and every note is what it was kept as.
await openCabinet(page, server);
await ready(page);
const states = await stored(page, "states");
await close();
await server.stop();
fs.writeFileSync(path.join(out, "soak.json"), `${JSON.stringify({ minutes, seed, counted, watched, complaints }, null, 2)}\n`);
const settled = watched.find((one) => one.minute >= Math.min(5, minutes / 5)) ?? watched[0];
const last = watched.at(-1);
const grown = (what) => last[what] / settled[what];
console.log(`soak: ${minutes} minutes, ${JSON.stringify(counted)}; heap ${settled.heap} to ${last.heap} kB, processes ${settled.resident} to ${last.resident} kB, store ${last.stored} kB`);
assert.deepEqual(complaints, []);
assert.equal(states.length, counted.kept + counted.written, "records");
assert.ok(grown("heap") <= MORE, `the heap grew to ${grown("heap").toFixed(2)} of what it was`);
assert.ok(grown("resident") <= MORE, `the processes grew to ${grown("resident").toFixed(2)} of what they held`);
