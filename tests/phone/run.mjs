// `cargo xtask bench phone`: measures the finished page and a bare page of the same framework.
// Usage: run.mjs <folder to write into, with the pages that stand beside> <folder of lighthouse>
import fs from "node:fs";
import path from "node:path";
import { ended, given } from "../browser/harness.mjs";
import { judged } from "./lighthouse.mjs";
import { cold, kept } from "./start.mjs";
import { cabinet, kinds, memory, photo, taps, ways } from "./use.mjs";

const [out, lighthouse] = process.argv.slice(2);
const dist = given("PRESSMARK_DIST");

/** What is sent of a folder, packed, by file. */
function weights(folder) {
  const names = fs.readdirSync(folder).filter((name) => !/\.(br|gz)$/.test(name) && fs.statSync(path.join(folder, name)).isFile());
  const packed = (name) => [`${name}.br`, name].map((one) => path.join(folder, one)).find((one) => fs.existsSync(one));
  return names.map((name) => ({ file: name.replace(/-[0-9a-f]{16}/, ""), bytes: fs.statSync(packed(name)).size })).sort((a, b) => b.bytes - a.bytes);
}

async function step(name, work) {
  const from = Date.now();
  const found = await work();
  console.log(`  ${name}: ${Math.round((Date.now() - from) / 1000)} s`);
  return found;
}

const figures = {
  day: new Date().toISOString().slice(0, 16).replace("T", " ") + " UTC",
  cold: await step("first visits", () => cold(dist)),
  bare: await step("first visits of the bare page", () => cold(path.join(out, "bare"))),
  kept: await step("later visits", () => kept(dist)),
  taps: await step("taps", () => taps(dist)),
  ways: await step("from page to page", () => ways(dist)),
  photo: await step("a photograph", () => photo(dist)),
  cabinet: await step("a cabinet of 5,000", () => cabinet(dist, 5_000)),
  kinds: await step("very large packs", () => kinds(path.join(out, "kinds"))),
  memory: await step("memory", () => memory(dist)),
  lighthouse: await step("lighthouse", () => judged(dist, lighthouse, out)),
  weights: weights(dist),
};
await ended();
fs.writeFileSync(path.join(out, "figures.json"), `${JSON.stringify(figures, null, 2)}\n`);
