// What the page shows is what the same program says natively: for seeded random pieces, answered by taps in the page, the
// finding equals the output of `workshop try` for a file of the same answers.
import assert from "node:assert/strict";
import { test } from "node:test";
import { open } from "./harness.mjs";
import { dice } from "./dice.mjs";
import { answered, same } from "./pieces.mjs";
import { begin } from "./walk.mjs";

/** What is special about a line of answers. */
const EVERY_WAY = ["?", "can't tell", "mm", "one", "place", "|"].sort();

test("random pieces come to the same finding in the page and natively", async (t) => {
  const { page, server } = await begin(t);
  const ways = new Set();
  // Between two commits: four pieces, and on until every kind of answer has occurred. In full: ten.
  const least = process.env.PRESSMARK_DEEP ? 10 : 4;
  for (let seed = 1; seed <= 10 && (seed <= least || ways.size < EVERY_WAY.length); seed += 1) {
    await page.goto("about:blank");
    await open(page, server.address);
    const lines = await answered(page, dice(seed));
    for (const line of lines) ways.add(/can't tell|\||\?$|mm|place/.exec(line)?.[0] ?? "one");
    await same(page, lines, `seed ${seed}:\n${lines.join("\n")}`);
  }
  // The seeds are only worth something if they came by every kind of answer.
  assert.deepEqual([...ways].sort(), EVERY_WAY);
});
