// `cargo xtask bench soak [minutes]`: a person who does not stop. Random but legal use of all pages in one browser with one
// store: in one window pieces are consulted without end, in the other all pages come by. Compared as it goes: findings with the
// native engine's, records with what was acknowledged. Watched: memory, the store, complaints.
// Usage: soak.mjs <minutes> <seed> <folder to write into>
import assert from "node:assert/strict";
import fs from "node:fs";
import path from "node:path";
import { PAGES, openBook } from "../browser/book.mjs";
import { notice, openCabinet, stored, told, write } from "../browser/cabinet.mjs";
import { dice } from "../browser/dice.mjs";
import { given, heard, listen, open, phone, serve } from "../browser/harness.mjs";
import { answered, same } from "../browser/pieces.mjs";
import { offers, openPractice, verdict } from "../browser/practice.mjs";
import { ROOMS } from "../browser/rooms.mjs";
import { button, key, tapOn } from "../browser/walk.mjs";

const [minutes, seed, out] = [Number(process.argv[2]), Number(process.argv[3]), process.argv[4]];
const roll = dice(seed);
/** Memory may have grown by so much since the fifth minute (the first fifth of a shorter run). */
const MORE = 1.1;

const server = await serve(given("PRESSMARK_DIST"));
const { context, close } = await phone({ resident: true });
const complaints = [];
const counted = { pieces: 0, rooms: 0, kept: 0, written: 0, tasks: 0, pages: 0 };
const differ = [];

/** A window that tells what the start script says. */
async function opened(page) {
  await page.addInitScript(listen);
  page.on("console", (message) => { if (message.type() === "error") complaints.push(message.text()); });
  page.on("pageerror", (error) => complaints.push(String(error)));
  return page;
}
const tour = await opened(context.pages()[0]);
/** It is never left: what grows while a page stands open grows here. */
const stays = await opened(await context.newPage());
await open(stays, server.address);
await heard(stays, "whole-ready");
const devtools = await context.newCDPSession(stays);

let place = [];
/** One piece by random answers in the window that stays; its finding must be the native engine's. */
async function piece() {
  await stays.bringToFront();
  let lines = await answered(stays, roll);
  // Where it is offered is asked once and stands for the pieces after it.
  const said = lines.filter((line) => line.startsWith("place = "));
  if (said.length > 0) place = said;
  else lines = [...place, ...lines];
  await same(stays, lines, lines.join("\n")).catch((reason) => {
    if (!(reason instanceof assert.AssertionError)) throw reason;
    differ.push(reason.message);
  });
  await tapOn(stays, key(stays, "Next piece"));
  counted.pieces += 1;
}

async function fresh() {
  await tour.goto("about:blank");
  await open(tour, server.address);
}

const rooms = Object.values(ROOMS);
/** Marks, photographs, measurements, money: one way into a room, as far as it has something to show. */
async function room() {
  await fresh();
  await rooms[roll(rooms.length)](tour);
  counted.rooms += 1;
}

const records = new Map();
const lost = new Set();
/** All records of the store against what was acknowledged; `more` of them are new. */
async function compare(more) {
  const now = new Map(await stored(tour, "states"));
  for (const [name, text] of records) if (now.get(name) !== text) lost.add(name);
  const fresh = [...now].filter(([name]) => !records.has(name));
  assert.equal(fresh.length, more, "acknowledged records that are new in the store");
  for (const [name, text] of fresh) records.set(name, text);
}

/** A consultation whose piece is kept. */
async function keep() {
  await fresh();
  await heard(tour, "whole-ready");
  await answered(tour, roll);
  await button(tour, "Keep this piece").tap();
  // The same answers once more: the cabinet asks.
  const another = button(tour, "It is another piece");
  await another.or(notice(tour)).first().waitFor();
  if (await another.count() > 0) await another.tap();
  await told(tour, /^Kept: /);
  counted.kept += 1;
  await compare(1);
}

async function record() {
  await openCabinet(tour, server);
  await write(tour, { Title: `Iron ${counted.written}`, Condition: "worn at the toe" });
  counted.written += 1;
  await compare(1);
}

async function search() {
  await openCabinet(tour, server);
  const field = tour.locator("input[type=search]");
  if (await field.count() > 0) await field.fill(["iron", "flat", "worn", "1"][roll(4)]);
  await tour.waitForTimeout(200);
}

async function practise() {
  await openPractice(tour, server, "#task");
  for (let n = 0; n < 3; n += 1) {
    await offers(tour).first().waitFor();
    await offers(tour).nth(roll(await offers(tour).count())).tap();
    await verdict(tour);
    counted.tasks += 1;
    await key(tour, "Next").tap();
  }
}

async function read() {
  const links = Object.keys(PAGES);
  for (let n = 0; n < 4; n += 1) {
    await openBook(tour, server, links[roll(links.length)]);
    counted.pages += 1;
  }
}

/** Kilobytes after a collection: heap and buffers of the window that stays, what the browser's processes hold, the store. */
async function memory() {
  await tour.goto("about:blank");
  await devtools.send("HeapProfiler.collectGarbage");
  const { usedSize, backingStorageSize = 0 } = await devtools.send("Runtime.getHeapUsage");
  const { usage } = await stays.evaluate(() => navigator.storage.estimate());
  const kilo = (bytes) => Math.round(bytes / 1000);
  return { minute: Math.round(spent() * 10) / 10, heap: kilo(usedSize + backingStorageSize), resident: resident(), stored: kilo(usage) };
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
const ways = [[8, piece], [3, room], [2, keep], [2, record], [1, search], [3, practise], [3, read]];
const turns = ways.flatMap(([times, way]) => Array(times).fill(way));
let next = 0;
while (spent() < minutes) {
  if (spent() >= next) {
    watched.push(await memory());
    console.log(`  ${JSON.stringify({ ...watched.at(-1), ...counted })}`);
    next += Math.max(1, minutes / 30);
  }
  const way = turns[roll(turns.length)];
  if (way !== piece) await tour.bringToFront();
  await way();
}
watched.push(await memory());
await openCabinet(tour, server);
await compare(0);
await close();
await server.stop();

const settled = watched.find((one) => one.minute >= Math.min(5, minutes / 5)) ?? watched[0];
const last = watched.at(-1);
const [heap, processes] = ["heap", "resident"].map((what) => last[what] / settled[what]);
const grown = Math.max(heap, processes);
fs.writeFileSync(path.join(out, "soak.json"), `${JSON.stringify({
  minutes, seed, counted, watched, grown, differ: differ.length, lost: lost.size, complaints,
}, null, 2)}\n`);
console.log(`soak: ${minutes} minutes, ${JSON.stringify(counted)}; heap to ${heap.toFixed(2)}, processes to ${processes.toFixed(2)} of what they were, store ${last.stored} kB`);
assert.deepEqual(differ, []);
assert.equal(lost.size, 0, "records lost or changed");
assert.deepEqual(complaints, []);
assert.ok(grown <= MORE, `memory grew to ${grown.toFixed(2)} of what it was`);
