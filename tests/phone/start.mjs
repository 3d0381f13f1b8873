// From the address to the first question that can be answered: cold, from what the device keeps, and without a server.
import { heard, serve } from "../browser/harness.mjs";
import { LINES, SLOWER, fresh, moments, part, served, slowed } from "./lines.mjs";

const TIMES = 5;

/** The first visit, by line and processor: painted, usable, requests and bytes on the way there. */
export async function cold(dist) {
  const all = [];
  for (const line of LINES) {
    for (const cpu of SLOWER) {
      const took = [];
      for (let n = 0; n < TIMES; n += 1) took.push(await served(dist, (server) => once(server.address, line, cpu)));
      const of = (what) => part(took.map((one) => one[what]));
      all.push({ line: line.name, cpu, painted: of("painted"), usable: of("usable"), requests: of("requests"), bytes: of("bytes"), jumped: Math.max(...took.map((one) => one.jumped)) });
    }
  }
  return all;
}

async function once(address, line, cpu) {
  const { page, devtools, close } = await fresh();
  await slowed(devtools, line, cpu);
  const begun = new Map();
  const done = new Map();
  devtools.on("Network.requestWillBeSent", ({ requestId }) => begun.set(requestId, Date.now()));
  devtools.on("Network.loadingFinished", ({ requestId, encodedDataLength }) => done.set(requestId, encodedDataLength));
  const from = Date.now();
  await page.goto(address, { waitUntil: "commit" });
  const took = await moments(page);
  // What is loaded for later is no part of the way to the first question. That a file has come is told a little after it was used.
  await page.waitForTimeout(200);
  const first = [...begun].filter(([, at]) => at <= from + took.usable).map(([id]) => id);
  await close();
  return { ...took, requests: first.length, bytes: first.reduce((sum, id) => sum + (done.get(id) ?? 0), 0) };
}

/** Later visits of a device that keeps everything, the line as bad as it gets or gone. */
export async function kept(dist) {
  const all = [];
  for (const [name, gone] of [["kept on the device, 400 kbit/s", false], ["kept on the device, no server", true]]) {
    for (const cpu of SLOWER) {
      const server = await serve(dist);
      const { page, devtools, close } = await fresh();
      await page.goto(server.address);
      await heard(page, "offline-ready", 60_000);
      await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
      if (gone) await server.stop();
      await slowed(devtools, gone ? {} : LINES[0], cpu);
      const took = [];
      for (let n = 0; n < TIMES; n += 1) {
        await page.reload({ waitUntil: "commit" });
        took.push(await moments(page));
      }
      await close();
      await server.stop();
      const of = (what) => part(took.map((one) => one[what]));
      all.push({ line: name, cpu, painted: of("painted"), usable: of("usable"), jumped: Math.max(...took.map((one) => one.jumped)) });
    }
  }
  return all;
}
