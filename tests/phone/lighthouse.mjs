// Lighthouse as it comes: its own mobile line and processor, the middle of three runs.
import { spawnSync } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import { given } from "../browser/harness.mjs";
import { part, served } from "./lines.mjs";

const RUNS = 3;
/** Now and then Chromium's record of a run has no beginning: then there is no figure, and it is made again. */
const TRIES = 3;
const SORTS = ["performance", "accessibility", "best-practices", "seo"];

export function judged(dist, packages, out) {
  return served(dist, async (server) => {
    const program = path.join(packages, "node_modules/lighthouse/cli/index.js");
    const scores = Object.fromEntries(SORTS.map((sort) => [sort, []]));
    const missed = new Set();
    for (let n = 0; n < RUNS; n += 1) {
      const report = path.join(out, `lighthouse-${n}.json`);
      let ran;
      for (let tries = 0; tries < TRIES && ran?.status !== 0; tries += 1) {
        ran = spawnSync(process.execPath, [
          program, server.address, "--quiet", "--output=json", `--output-path=${report}`, `--only-categories=${SORTS.join(",")}`,
          "--chrome-flags=--headless=new --no-sandbox --disable-gpu",
        ], { env: { ...process.env, CHROME_PATH: given("PRESSMARK_CHROMIUM") }, encoding: "utf8" });
      }
      if (ran.status !== 0) throw new Error(`Lighthouse did not run: ${ran.stderr}`);
      const { categories, audits } = JSON.parse(fs.readFileSync(report, "utf8"));
      for (const sort of SORTS) {
        scores[sort].push(Math.round(categories[sort].score * 100));
        for (const { id, weight } of categories[sort].auditRefs) {
          if (weight > 0 && audits[id].score !== null && audits[id].score < 0.9) missed.add(`${sort}: ${audits[id].title}`);
        }
      }
    }
    return { scores: Object.fromEntries(SORTS.map((sort) => [sort, part(scores[sort])])), missed: [...missed] };
  });
}
