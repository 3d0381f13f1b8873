// The whole job with a thumb: from the bare address to a finding, and everything that can be tapped on the way. The
// screen is a small phone's (360x740) and every step is a tap; text is typed only where a measurement is.
import assert from "node:assert/strict";
import { test } from "node:test";
import { heard } from "./harness.mjs";
import { questions } from "./pack.mjs";
import {
  FLAT, answer, begin, button, card, choice, heading, key, rows, tapOn, toFinding, typing,
} from "./walk.mjs";

const MONEY = /\b(USD|GBP|EUR)\b/;
const shown = (page) => page.evaluate(() => document.body.innerText);

/** Taps on until a question with this heading stands. */
async function until(page, ask, answers = FLAT) {
  for (let taps = 0; await heading(page) !== ask; taps += 1) {
    assert.ok(taps < 12, `"${ask}" was not asked`);
    await answer(page, answers[await heading(page)] ?? await page.locator(".choice").first().innerText());
  }
}

test("from the bare address to the whole finding in about ten taps", async (t) => {
  const { page } = await begin(t);
  assert.equal(new URL(page.url()).hash, "", "nothing was in the address");

  // Half way: what is known so far, and where to look next.
  await until(page, "What is written on it?");
  await tapOn(page, page.locator(".strip"));
  const early = await rows(page);
  assert.deepEqual(Object.keys(early), ["What", "Old or later", "When", "Worth"]);
  const next = page.locator(".next");
  assert.match(await next.innerText(), /^Look next: What is written on it\?/);
  const box = await next.boundingBox();
  const bar = await page.locator(".bar").boundingBox();
  assert.ok(box.y + 30 < bar.y, "the first screenful shows where to look next");
  await tapOn(page, next);
  assert.equal(await heading(page), "What is written on it?");

  // The rest of the way. Eight answers are enough for a plain piece: 13 leaves room for another edition of the pack.
  const { said } = await toFinding(page);
  const taps = 3 + 2 + said.length;
  assert.ok(taps <= 13, `${taps} taps`);
  console.log(`figure: ${taps} taps from the bare address to the finding, two of them for a look at it half way`);

  const found = await rows(page);
  assert.match(await heading(page), /iron/i);
  assert.match(found.What, /likely.*, \d+ in \d+\. Made as /, "a word and a number in one sentence");
  assert.match(found["Old or later"], /\d in \d+/);
  assert.match(found.When, /^1\d{3} to .*even chances; .*9 in 10$/);

  // The seller is watching: no sum anywhere until it is asked for, and gone again with a second tap.
  assert.doesNotMatch(await shown(page), MONEY);
  assert.equal(found.Worth, "Show the money");
  await page.locator(".rows button").tap();
  await page.waitForFunction(() => /USD/.test(document.querySelector(".rows button").innerText));
  assert.match((await rows(page)).Worth, /^\d+ to \d+ USD for half of such; \d+ to \d+ USD for 8 in 10$/);
  assert.match(await card(page, "What it is worth").innerText(), /money of 20\d\d.*not an appraisal/is);
  await page.locator(".rows button").tap();
  await page.waitForFunction(() => !/USD/.test(document.body.innerText));

  assert.ok(await page.locator(".clue").count() >= 5, "for and against");
  assert.ok((await card(page, "What would change it").innerText()).length > 20);
  assert.match(await card(page, "Or else").innerText(), /^.+\n.*likely.*, \d+ in \d+/, "the second kind");
  assert.match(await card(page, "When it was made").innerText(), /EDTF \d{4}/);
  assert.match(await card(page, "Take care").innerText(), /Do not heat an old iron/);
  assert.doesNotMatch(await shown(page), /genuine|authentic/i);
});

test("a row of for and against opens its question, and a correction changes the finding", async (t) => {
  const { page } = await begin(t);
  await toFinding(page);
  const [title, before] = [await heading(page), await rows(page)];
  await tapOn(page, page.locator(".clue", { hasText: "plain metal bar" }));
  assert.equal(await heading(page), "What is the grip like?");
  const standing = page.locator('.choice[aria-pressed="true"]');
  assert.equal(await standing.innerText(), "Plain metal bar or band", "the answer that stands is marked");
  await answer(page, "Wood, or plastic");
  assert.notDeepEqual(await rows(page), before);
  assert.equal(await page.locator(".clue", { hasText: "The grip is wood or plastic" }).count(), 1);
  assert.equal(await page.locator(".clue", { hasText: "plain metal bar" }).count(), 0);
  // And back again by undo: the same finding, word for word.
  await tapOn(page, key(page, "Undo"));
  await tapOn(page, key(page, "Undo"));
  assert.deepEqual([await heading(page), await rows(page)], [title, before]);
});

test("Not sure weakens the answer just given, and a second tap takes that back", async (t) => {
  const { page } = await begin(t);
  await until(page, "What is written on it?");
  const state = async () => {
    await tapOn(page, page.locator(".strip"));
    const all = [await rows(page), await page.locator(".clue").allInnerTexts()];
    await tapOn(page, page.locator(".next"));
    return JSON.stringify(all);
  };
  const sure = await state();
  assert.doesNotMatch(sure, /not sure/);
  const toggle = page.locator(".last").getByRole("button", { name: "Not sure", exact: true });
  assert.equal(await toggle.getAttribute("aria-pressed"), "false");
  await toggle.tap();
  await page.locator('.last [aria-pressed="true"]').waitFor();
  const unsure = await state();
  assert.match(unsure, /plain metal bar or band \(not sure\)/);
  // Odds are said in tenths, so that not every line of the finding needs to move; but clues stand by their weight.
  assert.notDeepEqual(JSON.parse(unsure)[0], JSON.parse(sure)[0]);
  const place = (said) => JSON.parse(said)[1].findIndex((clue) => /plain metal bar or band/.test(clue));
  assert.ok(place(sure) >= 0 && place(unsure) > place(sure), `the clue stands at ${place(sure)}, unsure at ${place(unsure)}`);
  await toggle.tap();
  await page.locator('.last [aria-pressed="false"]').waitFor();
  assert.equal(await state(), sure);
});

test("One of two takes two taps as one answer, and can be left again", async (t) => {
  const { page } = await begin(t);
  await until(page, "What is the grip like?");
  const told = page.locator(".told");
  await key(page, "One of two").tap();
  assert.match(await told.innerText(), /Tap the two it could be/);
  await key(page, "Only one").tap();
  await told.waitFor({ state: "detached" });

  await key(page, "One of two").tap();
  await choice(page, "Plain metal bar or band").tap();
  await told.filter({ hasText: "Plain metal bar or band, or" }).waitFor();
  assert.equal(await heading(page), "What is the grip like?", "one tap is half an answer");
  await answer(page, "Twisted or beaded metal");
  assert.match(await page.locator(".last").innerText(), /Plain metal bar or band or twisted or beaded metal/i);
  await tapOn(page, page.locator(".strip"));
  assert.equal(await page.locator(".clue", { hasText: /plain metal bar.*, or .*twisted/i }).count(), 1);
});

test("Can't tell goes on without claiming anything", async (t) => {
  const { page } = await begin(t);
  await until(page, "What is the grip like?");
  const before = await page.locator(".strip strong").innerText();
  await tapOn(page, key(page, "Can't tell"));
  assert.notEqual(await heading(page), "What is the grip like?");
  assert.equal(await page.locator(".strip strong").innerText(), before, "nothing was learned");
  await tapOn(page, page.locator(".strip"));
  assert.equal(await page.locator(".clue").count(), 1, "only the length counts");
});

test("Undo steps back to the very first question", async (t) => {
  const { page } = await begin(t);
  const screen = () => page.evaluate(() =>
    [...document.querySelectorAll("#app > :not(.unseen)")].map((part) => part.innerText).join("\n"));
  const first = await screen();
  const way = [await heading(page)];
  for (let i = 0; i < 6; i += 1) {
    await answer(page, FLAT[way.at(-1)] ?? await page.locator(".choice").first().innerText());
    way.push(await heading(page));
  }
  for (const ask of way.slice(0, -1).reverse()) {
    await tapOn(page, key(page, "Undo"));
    assert.equal(await heading(page), ask);
  }
  assert.equal(await screen(), first);
  await key(page, "Undo").tap();
  assert.equal(await heading(page), way[0], "there is nothing before the first question");
});

test("Only a picture asks what a picture shows, and leads to questions for the seller that can be copied", async (t) => {
  const { page, context } = await begin(t);
  const known = questions();
  await context.grantPermissions(["clipboard-read", "clipboard-write"]);
  await until(page, "Where is it offered?");
  await key(page, "Only a picture").tap();
  await key(page, "It is in my hand").waitFor();
  const { said } = await toFinding(page);
  const needsHand = said.map(([ask]) => ask).filter((ask) => known.has(ask) && !known.get(ask).picture);
  assert.deepEqual(needsHand, []);

  await page.waitForFunction(() => [...document.querySelectorAll("h2")].some((h) => h.innerText === "Ask the seller"));
  const asks = await card(page, "Ask the seller").locator("p").allInnerTexts();
  assert.ok(asks.length >= 1 && asks.every((ask) => ask.trim().endsWith("?")), asks.join(" "));
  await button(page, "Copy the questions").tap();
  const notice = page.locator(".told", { hasText: "Copied." });
  await notice.waitFor();
  assert.equal(await page.evaluate(() => navigator.clipboard.readText()), asks.join("\n"));
  await notice.getByRole("button").tap();
  await notice.waitFor({ state: "detached" });
});

test("where the browser lets no page copy, a sentence says so", async (t) => {
  const { page } = await begin(t, {
    before: (page) => page.addInitScript(() => {
      Object.defineProperty(Navigator.prototype, "clipboard", { value: undefined });
    }),
  });
  await tapOn(page, button(page, "Set up"));
  await button(page, "Copy the link").tap();
  await page.locator(".told", { hasText: "does not let pages copy" }).waitFor();
});

test("Next piece starts over in the same place, with the money hidden", async (t) => {
  const { page } = await begin(t);
  const first = await heading(page);
  const fits = async () => Number.parseInt(await page.locator(".strip strong").innerText(), 10);
  const all = await fits();
  await toFinding(page);
  await page.locator(".rows button").tap();
  await page.waitForFunction(() => /USD/.test(document.body.innerText));
  await tapOn(page, key(page, "Next piece"));
  assert.equal(await heading(page), first);
  // Some kinds are rare at the place that was told: not quite as many as at first.
  const again = await fits();
  assert.ok(again > all / 2 && again <= all, `${again} of ${all}`);
  const { said } = await toFinding(page);
  assert.ok(!said.some(([ask]) => ask === "Where is it offered?"), "the place was told already");
  assert.doesNotMatch(await shown(page), MONEY);
});

test("All looks: answers in place, not sure, can't tell, and taken back", async (t) => {
  const { page } = await begin(t);
  await tapOn(page, page.locator(".strip"));
  await tapOn(page, key(page, "All looks"));
  const look = (ask) => page.getByRole("group", { name: ask });
  const fits = () => page.locator(".strip strong").innerText();
  const none = await fits();
  assert.equal(await page.locator(".listed.most").count(), 3, "the three that tell most are marked");

  const grip = look("What is the grip like?");
  const wood = grip.getByRole("button", { name: "wood, or plastic", exact: true });
  await wood.scrollIntoViewIfNeeded();
  const place = (await wood.boundingBox()).y;
  await wood.tap();
  await grip.getByRole("button", { name: "not sure", exact: true }).waitFor();
  assert.equal(await wood.getAttribute("aria-pressed"), "true");
  assert.equal(await heading(page), "All looks", "the list stays");
  assert.ok(Math.abs((await wood.boundingBox()).y - place) < 100, "and stays where it was");
  assert.notEqual(await fits(), none);

  const sure = await page.locator(".strip").innerHTML();
  await grip.getByRole("button", { name: "not sure", exact: true }).tap();
  await grip.locator('.quiet[aria-pressed="true"]').waitFor();
  assert.notEqual(await page.locator(".strip").innerHTML(), sure, "less is known");
  await wood.tap();
  await grip.getByRole("button", { name: "not sure", exact: true }).waitFor({ state: "detached" });
  assert.equal(await wood.getAttribute("aria-pressed"), "false");
  assert.equal(await fits(), none, "taken back");

  const cannot = look("What is written on it?").getByRole("button", { name: "can't tell", exact: true });
  await cannot.tap();
  await page.waitForFunction((e) => e.getAttribute("aria-pressed") === "true", await cannot.elementHandle());
  await cannot.tap();
  await page.waitForFunction((e) => e.getAttribute("aria-pressed") === "false", await cannot.elementHandle());

  await tapOn(page, grip.getByRole("button", { name: /^drawings/ }));
  assert.equal(await heading(page), "What is the grip like?");
  await answer(page, "Wood, or plastic");
  await tapOn(page, page.locator(".strip"));
  assert.equal(await page.locator(".clue", { hasText: "wood or plastic" }).count(), 1);
});

test("a length is typed in millimetres and in inches", async (t) => {
  const { page } = await begin(t);
  const type = async (text) => {
    await (await typing(page)).fill(text);
    await tapOn(page, button(page, "Use it"));
  };
  await type("64.5");
  // 64.5 / 25.4 = 2.539 in; the nearest sixteenth is 2 9/16 = 2.5625 (2 1/2 is 0.039 away, 2 9/16 is 0.023).
  assert.match(await page.locator(".last").innerText(), /64\.5 mm \(2 9\/16 in\)/);
  await tapOn(page, key(page, "Undo"));
  await typing(page);
  await button(page, "inches").tap();
  await page.locator('.typing [aria-pressed="true"]', { hasText: "inches" }).waitFor();
  await button(page, "calipers").tap();
  await type("2 5/8");
  // 2.625 * 25.4 = 66.675.
  assert.match(await page.locator(".last").innerText(), /66\.7 mm \(2 5\/8 in\)/);
  await tapOn(page, page.locator(".strip"));
  assert.equal(await page.locator(".clue", { hasText: "66.7 mm long, by calipers" }).count(), 1);
});

for (const [typed, sentence] of [
  ["0", /nothing cannot be right/],
  ["iron", /.iron. is not a number\. Write 64, 64\.5 or 2 5\/8\./],
  ["9999", /too long for anything here/],
  ["", /is not a number/],
]) {
  test(`"${typed}" as a length is answered by a sentence beside the field`, async (t) => {
    const { page } = await begin(t);
    const field = await typing(page);
    await field.fill(typed);
    await button(page, "Use it").tap();
    const fault = page.locator("#typed-fault");
    await page.waitForFunction(() => document.getElementById("typed-fault").innerText !== "");
    assert.match(await fault.innerText(), sentence);
    assert.equal(await field.getAttribute("aria-invalid"), "true");
    assert.equal(await field.getAttribute("aria-describedby"), "typed-fault");
    const [at, says] = [await field.boundingBox(), await fault.boundingBox()];
    assert.ok(says.y >= at.y + at.height && says.y - at.y - at.height < 24, "right under the field");
    assert.ok(says.y + says.height <= (await page.locator(".bar").boundingBox()).y, "not under the bar");
    assert.equal(await heading(page), "How long is the sole?", "nothing was answered");
    await field.fill("64");
    await page.waitForFunction(() => document.getElementById("typed-fault").innerText === "");
    await tapOn(page, button(page, "Use it"));
  });
}

test("longer than 120 mm the finding says that it is outside of this guide", async (t) => {
  const { page } = await begin(t);
  await heard(page, "offline-ready");
  await (await typing(page)).fill("150");
  await tapOn(page, button(page, "Use it"));
  await tapOn(page, page.locator(".strip"));
  assert.match(await page.locator(".care").first().innerText(), /outside of this guide/);
  assert.equal(await heading(page), "Full-size pressing iron");
  await page.locator("figure svg").waitFor();
});

test("Set up: themes, tools, aims, units, and all of it kept over a reload", async (t) => {
  const { page } = await begin(t);
  const ground = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  const pressed = (name) => page.locator(`button[aria-pressed="true"]`, { hasText: new RegExp(`^${name}$`) });
  await typing(page);
  await button(page, "inches").tap();
  await tapOn(page, button(page, "Set up"));
  const grounds = [];
  for (const theme of ["Light", "Dark", "Sun"]) {
    await button(page, theme).tap();
    await page.waitForFunction((theme) => document.documentElement.dataset.theme === theme, theme.toLowerCase());
    grounds.push(await ground());
  }
  assert.equal(new Set(grounds).size, 3, grounds.join(" "));
  await button(page, "Magnet").tap();
  await pressed("Magnet").waitFor();
  await button(page, "Old or later").tap();
  await pressed("Old or later").waitFor();
  await button(page, "What tells most, from the start").tap();
  await pressed("What tells most, from the start").waitFor();

  await page.reload();
  await heard(page, "usable");
  assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), "sun");
  assert.equal(await ground(), grounds[2]);
  for (const name of ["Magnet", "Old or later", "What tells most, from the start", "Sun"]) {
    assert.equal(await pressed(name).count(), 1, name);
  }
  assert.equal(await pressed("Loupe or phone close-up").count(), 0);
  await tapOn(page, button(page, "Back"));
  assert.notEqual(await heading(page), "How long is the sole?", "another aim, another first look");
  // The unit as well: ask for the length by hand.
  await tapOn(page, page.locator(".strip"));
  await tapOn(page, key(page, "All looks"));
  await tapOn(page, page.getByRole("group", { name: "How long is the sole?" }).getByRole("button", { name: /^drawings/ }));
  await typing(page);
  await page.locator('.typing [aria-pressed="true"]', { hasText: "inches" }).waitFor();
});

test("Why this? opens and closes in place", async (t) => {
  const { page } = await begin(t);
  const why = button(page, "Why this?");
  await why.tap();
  await page.locator(".card").waitFor();
  assert.equal(await why.getAttribute("aria-expanded"), "true");
  assert.match(await page.locator(".card").innerText(), /about \d+ seconds .*points to .*\d+ in \d+/s);
  await why.tap();
  await page.locator(".card").waitFor({ state: "detached" });
});

test("the first screenful: no card under the bar, the whole finding with where to look next", async (t) => {
  const { page } = await begin(t);
  const bar = async () => (await page.locator(".bar").boundingBox()).y;
  const bottom = async (where) => {
    const box = await page.locator(where).last().boundingBox();
    return box.y + box.height;
  };
  for (const ask of ["How long is the sole?", "Where is it offered?", "What is the grip like?"]) {
    assert.equal(await heading(page), ask);
    assert.ok(await bottom(".choice") <= await bar(), `"${ask}" hides its last choice`);
    await answer(page, FLAT[ask]);
  }
  const unsure = page.locator(".last button");
  const lines = await unsure.evaluate((key) => {
    const range = document.createRange();
    range.selectNodeContents(key);
    return new Set([...range.getClientRects()].map((box) => Math.round(box.top))).size;
  });
  assert.equal(lines, 1, "\"Not sure\" stands on one line");
  await tapOn(page, page.locator(".strip"));
  assert.ok(await bottom(".rows > *") <= await bar());
  assert.ok(await bottom(".next") <= await bar());
});

test("on a wide screen the finding and its reasons stand side by side", async (t) => {
  const { page } = await begin(t, { options: { viewport: { width: 1000, height: 800 }, isMobile: false } });
  await toFinding(page);
  const [found, because] = [await page.locator(".found").boundingBox(), await page.locator(".because").boundingBox()];
  assert.ok(because.x >= found.x + found.width, JSON.stringify([found, because]));
  assert.ok(Math.abs(because.y - found.y) < 2);
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "nothing scrolls sideways");
});
