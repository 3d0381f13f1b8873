// The job in browsers of three makes: each comes to the finding with and without a server, and all to the same one. Pictures
// of the finding come to lie in target/shots, for looking at.
import assert from "node:assert/strict";
import fs from "node:fs";
import path from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { job } from "./engine-job.mjs";
import { ENGINES } from "./engines.mjs";
import { given, serve } from "./harness.mjs";

const PICTURES = fileURLToPath(new URL("../../target/shots/", import.meta.url));
fs.mkdirSync(PICTURES, { recursive: true });

const findings = new Map();

for (const [name, begin] of Object.entries(ENGINES)) {
  test(`${name}: from the first question to the finding, kept, and the same again without a server`, async (t) => {
    const server = await serve(given("PRESSMARK_DIST"));
    t.after(() => server.stop());
    const engine = await begin();
    t.after(() => engine.close());
    const done = await job(engine, server, () => engine.picture(path.join(PICTURES, `finding-${name}.png`)));
    t.diagnostic(`${name} ${done.version}: usable after ${done.cold} ms, without a server after ${done.offline} ms`);
    assert.deepEqual(done.faults, []);
    // Published: so marked from 1947 on. All of the lettering has arrived, and the finding has moved with it.
    assert.match(done.finding.marked.join("\n"), /By the marks 1947 or later\n(.*\n)*.*“MADE IN OCCUPIED JAPAN”/);
    assert.doesNotMatch(done.finding.plain.join("\n"), /By the marks/);
    findings.set(name, done.finding);
  });
}

test("the findings are equal word for word", () => {
  assert.deepEqual([...findings.keys()], Object.keys(ENGINES));
  const [first, ...others] = findings.values();
  for (const other of others) assert.deepEqual(other, first);
});
