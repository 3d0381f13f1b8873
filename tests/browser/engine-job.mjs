// The whole job in one engine: from the first question to the finding, kept in the cabinet, and all of it once more after the
// server has gone.
import assert from "node:assert/strict";
import { FLAT } from "./walk.mjs";

/** Published: goods for export were ordered to be marked so from 1947 to 1952. */
const LETTERING = "MADE IN OCCUPIED JAPAN";

/** The choices as the program draws them; those that came with the page are links. */
const CHOICES = ".choices button.choice";

/** When the page said that it can be answered, in milliseconds from the start of its loading. */
async function usable(engine) {
  const took = await engine.waitFor(() => performance.getEntriesByName("pressmark:usable").map((mark) => mark.startTime)[0]);
  return Math.round(took);
}

/** Answers until there is a finding; returns its heading. `page` is anything that `able` has been given. */
export async function consult(page) {
  for (let taps = 0; taps < 20; taps += 1) {
    const [ask, labels, done] = await page.waitFor((css) => {
      const says = (one) => one.innerText.replace(/\s+/g, " ").trim();
      const labels = [...document.querySelectorAll(css)].map(says);
      const done = document.querySelector(".rows") !== null;
      return (labels.length > 0 || done) && [says(document.getElementById("heading")), labels, done];
    }, CHOICES);
    if (done) return ask;
    const label = FLAT[ask] ?? labels[0];
    assert.ok(labels.includes(label), `"${ask}" has no choice "${label}", but: ${labels.join(" | ")}`);
    await page.press(CHOICES, labels.indexOf(label));
    await page.waitFor((from) => document.getElementById("heading").innerText.replace(/\s+/g, " ").trim() !== from, ask);
  }
  throw new Error("No finding after twenty taps.");
}

/** The lettering typed in the marks room, and back to the finding. */
async function mark(engine) {
  await engine.tap("Marks", "header button");
  await engine.waitFor(() => document.getElementById("lettering") !== null);
  await engine.type("#lettering", LETTERING);
  await engine.waitFor(() => document.querySelector(".reading") !== null);
  await engine.tap("See finding", "main button");
  await engine.waitFor(() => document.getElementById("lettering") === null && document.querySelector(".rows") !== null);
}

/** What the screen says under these names, as lines without regard to where they break. */
export const said = (engine, css) => engine.evaluate((css) =>
  [...document.querySelectorAll(css)].map((one) => one.innerText.replace(/\s+/g, " ").trim()), css);

/** The finding: what is asked of it, and what speaks for and against. */
async function found(engine) {
  await consult(engine);
  const plain = await said(engine, ".rows > *");
  await mark(engine);
  return { plain, marked: await said(engine, "#heading, .rows > *, .clue") };
}

/** The pieces of the cabinet, once it has been read. */
async function pieces(engine) {
  await engine.waitFor(() => document.querySelector(".piece-row") !== null);
  return said(engine, ".piece-row");
}

/**
 * Does the job. `server` is stopped on the way. Returns who did it, how long the page took until it could be answered (cold and
 * without a server), the finding, and what went wrong, as sentences. Throws when it could not be brought to its end.
 * `seen` is called while the finding stands on the screen.
 */
export async function job(engine, server, seen = async () => {}) {
  const faults = [];
  const must = (held, sentence) => { if (!held) faults.push(sentence); };
  await engine.goto(server.address);
  const cold = await usable(engine);
  const finding = await found(engine);
  await seen();
  await engine.tap("Keep this piece");
  await engine.waitFor(() => /^Kept: /.test(document.querySelector(".told[role=status]")?.innerText));
  await engine.goto(`${server.address}cabinet.html`);
  const kept = await pieces(engine);
  must(kept.length === 1 && kept[0].includes(finding.marked[0]), `The cabinet has not the piece that was kept, but: ${kept.join(" | ")}`);

  // A worker that answers for the page has everything: it installs all or nothing.
  await engine.waitFor(() => navigator.serviceWorker.controller !== null);
  await server.stop();
  await engine.restart();
  await engine.goto(server.address);
  const offline = await usable(engine);
  const again = await found(engine);
  must(JSON.stringify(again) === JSON.stringify(finding), `Without a server the finding is another: ${JSON.stringify(again)}`);
  await engine.goto(`${server.address}cabinet.html`);
  const still = await pieces(engine);
  must(still.join() === kept.join(), `Without a server the cabinet has: ${still.join(" | ")}`);
  for (const complaint of engine.complaints() ?? []) faults.push(`The page complained: ${complaint}`);
  return { engine: engine.name, version: engine.version, cold, offline, finding, faults, passed: faults.length === 0 };
}
