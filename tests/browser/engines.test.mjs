// The job in browsers of three makes: each comes to the finding with and without a server, and all to the same one.
import assert from "node:assert/strict";
import { test } from "node:test";
import { job } from "./engine-job.mjs";
import { ENGINES } from "./engines.mjs";
import { given, serve } from "./harness.mjs";

const findings = new Map();

for (const [name, begin] of Object.entries(ENGINES)) {
  test(`${name}: from the first question to the finding, kept, and the same again without a server`, async (t) => {
    const server = await serve(given("PRESSMARK_DIST"));
    t.after(() => server.stop());
    const engine = await begin();
    t.after(() => engine.close());
    const done = await job(engine, server);
    t.diagnostic(`${name} ${done.version}: usable after ${done.cold} ms, without a server after ${done.offline} ms`);
    assert.deepEqual(done.faults, []);
    // The lettering forbids years before 1947 (published: the occupation and its marking rule), so the finding must move with it.
    assert.match(done.finding.marked.join("\n"), /MADE IN OCCUPIED JAPAN/);
    assert.notDeepEqual(done.finding.marked.slice(1, 1 + done.finding.plain.length), done.finding.plain);
    findings.set(name, done.finding);
  });
}

test("the findings are equal word for word", () => {
  assert.deepEqual([...findings.keys()], Object.keys(ENGINES));
  const [first, ...others] = findings.values();
  for (const other of others) assert.deepEqual(other, first);
});
