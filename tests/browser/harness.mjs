// What every browser test needs: the built page behind a server that can be stopped, and a phone-sized Chromium with a
// fresh profile that fails the test on any request to another origin.
//
// Run by `cargo xtask test`, which sets PRESSMARK_NODE, PRESSMARK_CHROMIUM, PRESSMARK_XTASK, PRESSMARK_WORKSHOP and
// PRESSMARK_DIST.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import fs from "node:fs";
import { createRequire } from "node:module";
import os from "node:os";
import path from "node:path";
import { after } from "node:test";

/** What the command that runs the tests says. */
export function given(name) {
  const value = process.env[name];
  assert.ok(value, `${name} is not set: these tests are run by \`cargo xtask test\`.`);
  return value;
}

/** A node package from the tools' own folder. */
export const packages = createRequire(path.join(given("PRESSMARK_NODE"), "package.json"));
const { chromium } = packages("playwright-core");

const FLAGS = [
  "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
  "--disable-component-update", "--disable-sync",
];

/** What Chromium says of a machine that is busy, and of no fault: that nothing is loaded twice has a test of its own. */
export const SLOW = /was preloaded using link preload but not used within a few seconds/;

/** A fresh folder for what a browser writes. */
export const folder = () => fs.mkdtempSync(path.join(os.tmpdir(), "pressmark-test-"));
/** Takes such a folder away; a browser that has just ended may still be at it. */
export const remove = (place) => fs.rmSync(place, { recursive: true, force: true, maxRetries: 5 });

/** Runs the server over `dist` until `stop` is called. `under` is the path it serves below. */
export async function serve(dist, { under = "/", port = 0 } = {}) {
  const words = ["serve", "--dist", dist, "--port", String(port), "--under", under];
  const child = spawn(given("PRESSMARK_XTASK"), words, { stdio: ["ignore", "pipe", "inherit"] });
  const address = await new Promise((found, failed) => {
    let said = "";
    child.stdout.on("data", (part) => {
      said += part;
      const match = said.match(/http:\/\/127\.0\.0\.1:\d+\S*/);
      if (match) found(match[0]);
    });
    child.on("exit", (code) => failed(new Error(`The server ended with ${code} before it said its address: ${said}`)));
    child.on("error", failed);
  });
  let running = true;
  return {
    address,
    port: Number(new URL(address).port),
    async stop() {
      if (!running) return;
      running = false;
      const ended = new Promise((resolve) => child.once("exit", resolve));
      child.kill("SIGKILL");
      await ended;
    },
  };
}

/** The files of the build, in a copy that a test may spoil. */
export class Site {
  constructor() {
    this.dist = folder();
    fs.cpSync(given("PRESSMARK_DIST"), this.dist, { recursive: true });
  }

  /** The one file whose name matches, without the packed copies. */
  file(pattern) {
    const names = fs.readdirSync(this.dist).filter((name) => pattern.test(name) && !/\.(br|gz)$/.test(name));
    assert.equal(names.length, 1, `one file should match ${pattern}, not ${names.length}`);
    return names[0];
  }

  read(name) {
    return fs.readFileSync(path.join(this.dist, name));
  }

  /** Takes a file away, packed copies included. */
  drop(name) {
    for (const ending of ["", ".br", ".gz"]) fs.rmSync(path.join(this.dist, name + ending), { force: true });
  }

  /** Puts other bytes in place of a file. */
  put(name, bytes) {
    this.drop(name);
    fs.writeFileSync(path.join(this.dist, name), bytes);
  }

  remove() {
    remove(this.dist);
  }
}

const HOW = { executablePath: given("PRESSMARK_CHROMIUM"), headless: true, args: FLAGS };
const PHONE = { viewport: { width: 360, height: 740 }, deviceScaleFactor: 2, isMobile: true, hasTouch: true };

let shared;

/** Ends the browser that all contexts share. The runner of the tests does it; a script that is none must. */
export async function ended() {
  const browser = await shared;
  shared = undefined;
  await browser?.close();
}
after(ended);

/**
 * A phone-sized browser that knows nothing yet. The tests of a file share one process, each with a context of its own;
 * with `preferences`, which are Chromium's, or as a `resident`, whose store lies on the disk, it is a process with a
 * profile. A `profile` that is given stays when the browser is closed. All else is playwright's.
 */
export async function phone({ preferences, profile: own, resident = Boolean(preferences ?? own), ...options } = {}) {
  if (!resident) {
    shared ??= chromium.launch(HOW);
    const context = await (await shared).newContext({ ...PHONE, ...options });
    return { context, close: () => context.close() };
  }
  const profile = own ?? folder();
  if (preferences) {
    fs.mkdirSync(path.join(profile, "Default"));
    fs.writeFileSync(path.join(profile, "Default", "Preferences"), JSON.stringify(preferences));
  }
  const context = await chromium.launchPersistentContext(profile, { ...HOW, ...PHONE, ...options });
  return {
    context,
    async close() {
      await context.close();
      if (!own) remove(profile);
    },
  };
}

/**
 * Site, server and browser for one test; all gone afterwards, whatever happened. The test fails when the page asked
 * another origin for anything, or broke its own policy; with `quiet` also when it complained of anything at all.
 */
export async function visit(test, { under = "/", spoil = () => {}, before = async () => {}, quiet = false, options = {} } = {}) {
  const site = new Site();
  let server;
  let browser;
  const asked = [];
  const blocked = [];
  const complaints = [];
  test.after(async () => {
    await browser?.close();
    await server?.stop();
    site.remove();
    const origin = server && new URL(server.address).origin;
    const foreign = asked.filter((url) => !url.startsWith(`${origin}/`) && !/^(blob|data):/.test(url));
    assert.deepEqual(foreign, [], "requests to another origin");
    assert.deepEqual(blocked, [], "what the page's own policy blocked");
    if (quiet) assert.deepEqual(complaints, [], "what the page complained of");
  });
  spoil(site);
  server = await serve(site.dist, { under });
  browser = await phone(options);
  const { context } = browser;
  context.on("request", (request) => asked.push(request.url()));
  context.on("console", (message) => {
    if (/Content Security Policy|Trusted(HTML|Script)/.test(message.text())) blocked.push(message.text());
    if (["error", "warning"].includes(message.type()) && !SLOW.test(message.text())) complaints.push(message.text());
  });
  context.on("weberror", (problem) => complaints.push(String(problem.error())));
  const page = context.pages()[0] ?? await context.newPage();
  await page.addInitScript(listen);
  await before(page, context);
  return { site, server, context, page, asked, blocked };
}

/** Runs in the page before anything else: keeps what the start script says, for tests to wait on. */
export function listen() {
  globalThis.heard = [];
  for (const name of ["usable", "trouble", "update", "offline-ready", "offline-failed", "whole-ready"]) {
    addEventListener(`pressmark:${name}`, (event) => globalThis.heard.push([name, event.detail]));
  }
}

/** Waits until the page has sent `pressmark:<name>` and returns the detail. */
export async function heard(page, name, timeout = 20_000) {
  const handle = await page.waitForFunction(
    (name) => globalThis.heard?.find(([one]) => one === name), name, { timeout, polling: 50 },
  );
  return (await handle.jsonValue())[1];
}

/** Opens the page and waits until it can be answered. */
export async function open(page, address) {
  await page.goto(address);
  await heard(page, "usable");
}

/** Opens the page and waits until all of it is kept on the device and the worker answers for it. */
export async function openAndKeep(page, address) {
  await open(page, address);
  await heard(page, "offline-ready");
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
}

/** The names of the caches of the page's origin. */
export function caches(page) {
  return page.evaluate(() => globalThis.caches.keys());
}
