// What is done once it is there: taps, ways from page to page, a photograph, a large cabinet, very large packs, and what memory
// the page takes.
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { takeIn } from "../browser/cabinet.mjs";
import { heard, open } from "../browser/harness.mjs";
import { many, searched } from "../browser/many.mjs";
import { choose, enter } from "../browser/photo.mjs";
import { photograph, scene } from "../browser/photograph.mjs";
import { timeTaps } from "../browser/taps.mjs";
import { button, key, tapOn, toFinding } from "../browser/walk.mjs";
import { SLOWER, fresh, part, served, slowed } from "./lines.mjs";

const PIECES = 6;
const WAYS = 5;

/** From a tap to the next question, and to the finding. */
export function taps(dist) {
  return served(dist, async (server) => {
    const all = [];
    for (const cpu of SLOWER) {
      const { page, devtools, close } = await fresh();
      await page.addInitScript(timeTaps);
      await open(page, server.address);
      await heard(page, "whole-ready");
      await slowed(devtools, {}, cpu);
      for (let n = 0; n < PIECES; n += 1) {
        await toFinding(page, {}, 40);
        await tapOn(page, key(page, "Next piece"));
      }
      const took = await page.evaluate(() => globalThis.taps);
      await close();
      for (const screen of ["question", "finding"]) {
        const times = took.filter((tap) => tap.screen === screen).map((tap) => tap.took);
        all.push({ to: screen, cpu, taps: times.length, middle: part(times), most: part(times, 0.95) });
      }
    }
    return all;
  });
}

/** From one page of the site to another, everything kept on the device. */
export function ways(dist) {
  return served(dist, async (server) => {
    const all = [];
    for (const cpu of SLOWER) {
      const { page, devtools, close } = await fresh();
      await open(page, server.address);
      await heard(page, "offline-ready", 60_000);
      await slowed(devtools, {}, cpu);
      for (const to of ["book.html", "cabinet.html", "practice.html", "index.html"]) {
        const took = [];
        for (let n = 0; n < WAYS; n += 1) {
          await page.goto("about:blank");
          await page.goto(`${server.address}${to}`, { waitUntil: "commit" });
          await heard(page, "usable", 60_000);
          took.push(await page.evaluate(() => globalThis.moments.usable));
        }
        all.push({ to, cpu, usable: part(took) });
      }
      await close();
    }
    return all;
  });
}

/** Twelve million pixels: until a card is proposed, and until it is placed. */
export function photo(dist) {
  return served(dist, async (server) => {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), "pressmark-phone-"));
    const all = [];
    for (const cpu of SLOWER) {
      const { context, page, devtools, close } = await fresh();
      const picture = path.join(folder, "iron.jpg");
      if (!fs.existsSync(picture)) fs.writeFileSync(picture, await photograph(context, scene({ tilt: 5 })));
      await page.bringToFront();
      await open(page, server.address);
      await enter(page);
      await choose(page, picture);
      await slowed(devtools, {}, cpu);
      const took = [];
      for (let n = 0; n < 3; n += 1) {
        if (n > 0) await tapOn(page, button(page, "The card again"));
        await tapOn(page, button(page, "Another picture"));
        const from = Date.now();
        await choose(page, picture);
        await tapOn(page, button(page, "Yes, this is the card"));
        took.push(Date.now() - from);
      }
      all.push({ cpu, took: part(took) });
      await close();
    }
    fs.rmSync(folder, { recursive: true });
    return all;
  });
}

/** A cabinet of many pieces: until its list stands, and from a letter typed to the list drawn. */
export function cabinet(dist, pieces) {
  return served(dist, async (server) => {
    const { page, devtools, close } = await fresh();
    // The list does not open photographs: small ones will do.
    await takeIn(page, server, many(pieces, 2_000));
    const all = [];
    for (const cpu of SLOWER) {
      await slowed(devtools, {}, cpu);
      const [opened, found] = [[], []];
      for (let n = 0; n < WAYS; n += 1) {
        await page.goto("about:blank");
        await page.waitForTimeout(1000);
        await page.goto(`${server.address}cabinet.html`, { waitUntil: "commit" });
        await page.locator(".piece-row").first().waitFor();
        opened.push(await page.evaluate(() => performance.now()));
        for (const words of ["swan", "iron 77"]) {
          found.push(await searched(page, words));
          await page.waitForTimeout(300);
        }
      }
      all.push({ pieces, cpu, opened: part(opened), searched: part(found), most: part(found, 0.95) });
    }
    await close();
    return all;
  });
}

/** What the page holds after some pieces: heap of the script, and the memory of its process. */
export function memory(dist) {
  return served(dist, async (server) => {
    const { page, devtools, close } = await fresh();
    await open(page, server.address);
    await heard(page, "whole-ready");
    const heap = async () => {
      await devtools.send("HeapProfiler.collectGarbage");
      return Math.round((await devtools.send("Runtime.getHeapUsage")).usedSize / 1000);
    };
    const all = [{ after: "the first question", heap: await heap() }];
    await toFinding(page, {}, 40);
    all.push({ after: "a finding", heap: await heap() });
    for (let n = 0; n < 20; n += 1) {
      await tapOn(page, key(page, "Next piece"));
      await toFinding(page, {}, 40);
    }
    all.push({ after: "twenty pieces more", heap: await heap() });
    await close();
    return all;
  });
}

/** The next question over packs of a thousand and of ten thousand kinds: the middle and 95 of 100, ms. */
export function kinds(dist) {
  return served(dist, async (server) => {
    const { page, devtools, close } = await fresh();
    await open(page, server.address);
    const all = [];
    for (const cpu of SLOWER) {
      await slowed(devtools, {}, cpu);
      for (const many of [1_000, 10_000]) {
        const took = await page.evaluate((many) => globalThis.asked(many, 40), many);
        // The compiler of the browser has taken the loops in hand by then.
        const settled = took.slice(10);
        all.push({ kinds: many, cpu, first: Math.round(took[0]), middle: part(settled), most: part(settled, 0.95), each: settled.reduce((a, b) => a + b) / settled.length / many });
      }
    }
    await close();
    return all;
  });
}
