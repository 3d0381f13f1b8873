// The lines and processors of the bench, and the page under them.
import { heard, phone, serve } from "../browser/harness.mjs";

/** Bases: 400 kbit/s with 400 ms and 1.6 Mbit/s with 150 ms are published budgets (web.dev; Lighthouse's mobile line). */
export const LINES = [
  { name: "400 kbit/s, 400 ms", kbps: 400, latency: 400 },
  { name: "1.6 Mbit/s, 150 ms", kbps: 1638, latency: 150 },
  { name: "this machine", kbps: 0, latency: 0 },
];
export const SLOWER = [1, 4, 6];

/** Emulates a line (none where there is no rate) and a processor slowed so many times. */
export async function slowed(devtools, { kbps = 0, latency = 0 }, cpu) {
  await devtools.send("Network.enable");
  const bytes = kbps ? (kbps * 1000) / 8 : -1;
  await devtools.send("Network.emulateNetworkConditions", { offline: false, latency, downloadThroughput: bytes, uploadThroughput: bytes });
  await devtools.send("Emulation.setCPUThrottlingRate", { rate: cpu });
}

/** Runs in the page before anything else: when it was painted and could be used, and by how much it jumped. */
function watch() {
  globalThis.heard = [];
  globalThis.moments = { jumped: 0 };
  addEventListener("pressmark:usable", () => { globalThis.moments.usable = performance.now(); globalThis.heard.push(["usable"]); });
  for (const name of ["offline-ready", "whole-ready"]) addEventListener(`pressmark:${name}`, () => globalThis.heard.push([name]));
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) if (entry.name === "first-contentful-paint") globalThis.moments.painted = entry.startTime;
  }).observe({ type: "paint", buffered: true });
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) globalThis.moments.jumped += entry.value;
  }).observe({ type: "layout-shift", buffered: true });
}

/** A phone with one page that is watched. */
export async function fresh() {
  const { context, close } = await phone();
  const page = await context.newPage();
  await page.addInitScript(watch);
  const devtools = await context.newCDPSession(page);
  return { context, page, devtools, close };
}

/** When it was painted and could be used, ms since the start. */
export async function moments(page) {
  await heard(page, "usable", 60_000);
  await page.waitForFunction(() => globalThis.moments.painted !== undefined);
  return page.evaluate(() => globalThis.moments);
}

/** Serves a folder while something is done. */
export async function served(dist, work) {
  const server = await serve(dist);
  try {
    return await work(server);
  } finally {
    await server.stop();
  }
}

/** A share of the sorted times: .5 the middle one, .95 what 95 of 100 do not exceed. */
export function part(times, share = 0.5) {
  const sorted = times.toSorted((a, b) => a - b);
  return Math.round(sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))]);
}
