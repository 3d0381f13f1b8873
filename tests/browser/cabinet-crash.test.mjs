// What was acknowledged is there: the browser killed in the middle of writing, the tab crashed. A kill of the process, not of
// the machine's power.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { test } from "node:test";
import { Site, packages, serve } from "./harness.mjs";
import { DEEP, beginCabinet, openCabinet, ready, stored, told, write } from "./cabinet.mjs";

const { chromium } = packages("playwright-core");
const KILLS = DEEP ? 50 : 8;

/** Saves records as fast as the page takes them and tells which were acknowledged; runs in the page. */
function saveOn(from) {
  globalThis.acknowledged = [];
  const wait = (found) => new Promise((done) => {
    const look = () => {
      const it = found();
      if (it) done(it);
      else setTimeout(look, 2);
    };
    look();
  });
  const key = (label) => [...document.querySelectorAll("button, a")].find((one) => one.innerText === label);
  const field = (label) => [...document.querySelectorAll("label")].find((one) => one.innerText.startsWith(label))?.querySelector("input, textarea");
  const type = (into, text) => {
    into.value = text;
    into.dispatchEvent(new Event("input", { bubbles: true }));
  };
  (async () => {
    for (let n = from; ; n += 1) {
      location.hash = "#";
      (await wait(() => key("Write a record"))).click();
      type(await wait(() => field("Title")), `Iron ${n}`);
      type(field("Condition"), `${n} `.repeat(2_000));
      key("Save").click();
      await wait(() => document.querySelector(".told")?.innerText.includes(`Iron ${n}.`));
      globalThis.acknowledged.push(`Iron ${n}`);
      document.title = `${globalThis.acknowledged.length}`;
    }
  })();
}

/** The processes of a browser by the profile that they were started with. */
const processes = (profile) => {
  const listed = execFileSync("ps", ["-eo", "pid=,args="], { encoding: "utf8", maxBuffer: 1 << 26 });
  return listed.split("\n").filter((line) => line.includes(`--user-data-dir=${profile}`)).map((line) => Number(line.trim().split(" ")[0]));
};

test(`the browser killed in the middle of writing, ${KILLS} times: every acknowledged record is there, whole`, async (t) => {
  const profile = fs.mkdtempSync(path.join(os.tmpdir(), "pressmark-kill-"));
  const site = new Site();
  const server = await serve(site.dist);
  let last;
  t.after(async () => {
    await last?.close();
    await server.stop();
    site.remove();
    fs.rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  });
  const launch = () => chromium.launchPersistentContext(profile, {
    executablePath: process.env.PRESSMARK_CHROMIUM, headless: true, viewport: { width: 360, height: 740 }, isMobile: true, hasTouch: true,
    args: ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"],
  });
  const acknowledged = new Set();
  for (let kill = 0; kill < KILLS; kill += 1) {
    const context = await launch();
    const page = context.pages()[0] ?? await context.newPage();
    await page.addInitScript(() => {
      globalThis.heard = [];
      addEventListener("pressmark:usable", () => globalThis.heard.push(["usable"]));
    });
    await openCabinet(page, server);
    // Nothing is made good by the next save: the store has as much as before, each time.
    assert.ok((await stored(page, "states")).length >= acknowledged.size, `after ${kill} kills records are gone`);
    await page.evaluate(saveOn, kill * 1000);
    // Somewhere in the middle, another moment each time.
    await page.waitForTimeout(350 + (kill * 137) % 500);
    const told = await page.evaluate(() => globalThis.acknowledged);
    told.forEach((title) => acknowledged.add(title));
    const all = processes(profile);
    assert.ok(all.length > 0, "the browser runs");
    for (const pid of all) {
      try {
        process.kill(pid, "SIGKILL");
      } catch {
        // Gone with its parent.
      }
    }
    await context.close().catch(() => {});
    for (const lock of ["SingletonLock", "SingletonCookie", "SingletonSocket"]) fs.rmSync(path.join(profile, lock), { force: true });
  }
  assert.ok(acknowledged.size >= KILLS, `${acknowledged.size} acknowledged`);
  const context = await launch();
  last = context;
  const page = context.pages()[0] ?? await context.newPage();
  await page.addInitScript(() => {
    globalThis.heard = [];
    addEventListener("pressmark:usable", () => globalThis.heard.push(["usable"]));
  });
  await openCabinet(page, server);
  const states = await stored(page, "states");
  const titles = new Map(states.map(([, text]) => [text.match(/^title: (.*)$/m)?.[1], text]));
  for (const title of acknowledged) {
    const text = titles.get(title);
    assert.ok(text, `${title} was acknowledged and is gone`);
    // Whole: its last line has all of its words.
    const n = title.split(" ")[1];
    assert.ok(text.includes(`condition: ${`${n} `.repeat(2_000).trim()}`), `${title} is torn`);
  }
  // Readable by the page too: each has its card.
  const cards = await stored(page, "cards");
  assert.equal(cards.length, states.length);
  assert.match(await page.locator("main").innerText(), new RegExp(`${states.length} pieces`));
  t.diagnostic(`${KILLS} kills: ${acknowledged.size} acknowledged, ${states.length} found, 0 lost, 0 torn`);
});

test("the tab crashed while a form is open: what was saved is there, and so is the draft", async (t) => {
  const { page, server, context } = await beginCabinet(t);
  await write(page, { Title: "Saved" });
  await page.getByRole("link", { name: "Change it" }).tap();
  await page.getByLabel(/^Title/).fill("Saved, and changed");
  await page.waitForTimeout(300);
  const address = page.url();
  const crashed = page.waitForEvent("crash");
  await page.goto("chrome://crash").catch(() => {});
  await crashed;
  const next = await context.newPage();
  await next.addInitScript(() => {
    globalThis.heard = [];
    addEventListener("pressmark:usable", () => globalThis.heard.push(["usable"]));
  });
  await next.goto(address);
  await ready(next);
  await told(next, "What you had typed here before is back");
  assert.equal(await next.getByLabel(/^Title/).inputValue(), "Saved, and changed");
  assert.equal((await stored(next, "states")).length, 1);
  assert.ok(server.address);
});
