// Random pieces, answered by taps in the page, and what the native program finds for the same answers.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { given } from "./harness.mjs";
import { PACK, places, questions } from "./pack.mjs";
import { answer, button, choice, heading, key, rows, tapOn, typing } from "./walk.mjs";

const PLACE = "Where is it offered?";
const QUESTIONS = questions();
const PLACES = places();

/** One answer to the question that stands; returns its line for the file. */
async function say(page, roll, first) {
  const ask = await heading(page);
  const labels = await page.locator(".choices .choice").allInnerTexts();
  const pick = labels[roll(labels.length)];
  if (ask === PLACE) {
    if (roll(4) === 0) {
      await tapOn(page, key(page, "Skip"));
      return "# the place was skipped";
    }
    await answer(page, pick);
    return `place = ${PLACES.get(pick)}`;
  }
  const question = QUESTIONS.get(ask);
  assert.ok(question, `the pack has no question "${ask}"`);
  const id = (label) => {
    assert.ok(question.choices.has(label), `${question.id} has no choice "${label}"`);
    return question.choices.get(label);
  };
  const way = roll(10);
  if (way < 5 && question.id === "length") {
    const tenths = 300 + roll(900);
    const typed = `${Math.floor(tenths / 10)}.${tenths % 10}`;
    const calipers = roll(2) === 0;
    const field = await typing(page);
    await button(page, calipers ? "calipers" : "ruler").tap();
    await field.fill(typed);
    await tapOn(page, button(page, "Use it"));
    return `length = ${typed} mm ${calipers ? "calipers" : "ruler"}`;
  }
  if (way === 2 && !first) {
    await tapOn(page, key(page, "Can't tell"));
    return `${question.id} = can't tell`;
  }
  let line = `${question.id} = ${id(pick)}`;
  if (way === 3 && labels.length > 2) {
    const other = labels.filter((label) => label !== pick)[roll(labels.length - 1)];
    await key(page, "One of two").tap();
    await choice(page, pick).tap();
    await answer(page, other);
    // In the order of the pack, as the page keeps them.
    const both = [pick, other].sort((one, two) => labels.indexOf(one) - labels.indexOf(two));
    line = `${question.id} = ${both.map(id).join(" | ")}`;
  } else {
    await answer(page, pick);
  }
  if (roll(4) === 0 && await button(page, "Not sure").count() > 0) {
    await button(page, "Not sure").tap();
    await page.locator('.last button[aria-pressed="true"]').waitFor();
    line += " ?";
  }
  return line;
}

/** The finding by the native program. */
function natively(lines, year) {
  const file = path.join(fs.mkdtempSync(path.join(os.tmpdir(), "pressmark-native-")), "answers.txt");
  fs.writeFileSync(file, `${lines.join("\n")}\n`);
  const words = ["try", PACK, "--answers", file, "--json", "--year", String(year)];
  const done = spawnSync(given("PRESSMARK_WORKSHOP"), words, { encoding: "utf8", maxBuffer: 1 << 24 });
  fs.rmSync(path.dirname(file), { recursive: true });
  assert.equal(done.status, 0, `${done.error ?? ""}${done.stderr}\n${lines.join("\n")}`);
  return JSON.parse(done.stdout);
}

/** Answers a piece by random taps: the lines of its file of answers, with the finding open in the end. */
export async function answered(page, roll) {
  const lines = [];
  const most = 4 + roll(8);
  while (lines.length < most && await page.locator(".rows").count() === 0) {
    lines.push(await say(page, roll, lines.length === 0));
  }
  if (await page.locator(".rows").count() === 0) await tapOn(page, page.locator(".strip"));
  return lines;
}

/** Fails where the finding that the page shows is not what the native program says. */
export async function same(page, lines, piece) {
  await page.locator(".rows button").tap();
  await page.locator(".rows button[aria-expanded='true']").waitFor();
  const found = natively(lines, await page.evaluate(() => new Date().getFullYear()));
  const shown = await rows(page);
  assert.equal(await heading(page), found.title, piece);
  assert.equal(shown.What, `${found.likely}. ${found.made_as}`, piece);
  assert.equal(shown["Old or later"], found.make, piece);
  assert.equal(shown.When, `${found.years.half}, even chances; ${found.years.nine}, 9 in 10`, piece);
  const { Ok: worth, Err: none } = found.worth;
  assert.equal(shown.Worth, none ?? `${worth.half} for half of such; ${worth.eight} for 8 in 10`, piece);
  const clues = await page.locator(".clue .says").allInnerTexts();
  assert.deepEqual(clues, found.clues.map((clue) => clue.text + (clue.unsure ? " (not sure)" : "")), piece);
}
