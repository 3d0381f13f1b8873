// `cargo xtask bench phone`: the whole job in browsers of three makes, with and without a server.
// Usage: engines.mjs <folder to write into>
import fs from "node:fs";
import path from "node:path";
import { job } from "../browser/engine-job.mjs";
import { ENGINES } from "../browser/engines.mjs";
import { ended, given, serve } from "../browser/harness.mjs";

const all = [];
for (const begin of Object.values(ENGINES)) {
  const server = await serve(given("PRESSMARK_DIST"));
  const engine = await begin();
  try {
    all.push(await job(engine, server));
  } catch (reason) {
    all.push({ engine: engine.name, version: engine.version, cold: 0, offline: 0, finding: { marked: [""] }, faults: [String(reason)], passed: false });
  } finally {
    await engine.close();
    await server.stop();
  }
  console.log(`  ${JSON.stringify({ ...all.at(-1), finding: all.at(-1).finding.marked[0] })}`);
}
await ended();
fs.writeFileSync(path.join(process.argv[2], "engines.json"), `${JSON.stringify(all, null, 2)}\n`);
