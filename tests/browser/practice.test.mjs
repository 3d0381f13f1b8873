// Ten minutes of a newcomer, and an hour of a teacher, as they are lived.
import assert from "node:assert/strict";
import { test } from "node:test";
import { entries, download, openCabinet, takeIn as takeCabinet, stored, write, zipped } from "./cabinet.mjs";
import { heard, open } from "./harness.mjs";
import { LONG, beginPractice, kept, offers, openPractice, sheets, takeIn, verdict } from "./practice.mjs";
import { button, heading, key, toFinding } from "./walk.mjs";

/** A line of what was kept by its first word. */
const line = (text, word) => text.split("\n").find((l) => l.startsWith(`${word} `)) ?? "";

/** Waits until so many answers are kept on the phone. */
async function answers(page, count) {
  for (let tries = 0; tries < 100; tries += 1) {
    if (line(await kept(page), "asked") === `asked ${count}`) return;
    await page.waitForTimeout(30);
  }
  assert.equal(line(await kept(page), "asked"), `asked ${count}`);
}

test("a newcomer's ten minutes by taps: a lesson, tasks, and the boxes are there the next day", async (t) => {
  const { page } = await beginPractice(t);
  await page.getByText("Nothing practised yet").waitFor();
  await page.getByRole("link", { name: /^1\. The plainest of them all/ }).tap();
  await page.waitForFunction(() => document.activeElement.id === "heading");
  for (let look = 1; look <= 5; look += 1) {
    await key(page, "Show the next look").tap();
    await page.waitForFunction((look) => document.querySelectorAll(".look").length === look, look);
    assert.match(await page.locator(".look").last().innerText(), /After .*remain/s);
  }
  await page.getByText("A toy flat iron, cast in one.").waitFor();
  await page.locator(".keys").getByRole("link", { name: "Practise" }).tap();
  await offers(page).first().waitFor();
  const sorts = new Set();
  let right = 0;
  for (let n = 1; n <= 8; n += 1) {
    sorts.add((await page.locator(".hint").first().innerText()).split(".")[0]);
    const options = await offers(page).allInnerTexts();
    assert.ok(options.length >= 2 && options.length <= 4 && new Set(options).size === options.length, options.join(" | "));
    await offers(page).nth(n % options.length).tap();
    const says = await verdict(page);
    // The grade follows from the answer, and what is right is said.
    const was = await page.locator(".stood.right span").innerText();
    const wrong = await page.locator(".stood.wrong").count();
    assert.match(says, wrong === 0 ? /^Yes\. / : /^No\. /);
    assert.ok(says.toLowerCase().includes(was.toLowerCase().replace(/\.$/, "")), `${was} in ${says}`);
    assert.equal(await page.evaluate(() => document.activeElement.id), "said", "what is said has the focus");
    assert.equal(await offers(page).count(), 0, "an answer is given once");
    right += wrong === 0 ? 1 : 0;
    await key(page, "Next").tap();
    await offers(page).first().waitFor();
    assert.equal(await page.evaluate(() => document.activeElement.id), "heading");
  }
  assert.ok(sorts.size >= 2 && sorts.has("A look"), [...sorts].join());
  await answers(page, 8);
  const before = await kept(page);
  assert.match(before, /^lesson 1$/m);
  assert.equal([...before.matchAll(/^look /gm)].length > 1, true, before);
  // Loaded again, all of it is there.
  await page.reload();
  await heard(page, "usable");
  await page.locator(".keys").getByRole("link", { name: "Stop" }).tap();
  await page.getByText("Nothing is due today").waitFor();
  assert.match(await page.locator(".ways").first().innerText(), /Each look is shown. Done./);
  assert.equal(await kept(page), before);
  // Tomorrow it is asked again: the clock of the page goes on by a day and a half.
  await page.addInitScript(() => {
    const now = Date.now.bind(Date);
    Date.now = () => now() + 36 * 3600 * 1000;
  });
  await page.reload();
  await heard(page, "usable");
  await page.getByText(/things? (is|are) due today/).waitFor();
});

test("what a drawing says never names the answer", async (t) => {
  const { page } = await beginPractice(t, {}, "#task");
  let looked = 0;
  for (let n = 0; n < 24; n += 1) {
    await offers(page).first().waitFor();
    const said = [];
    const turns = await page.locator(".turns .key").count();
    for (let at = 0; at < Math.max(turns, 1); at += 1) {
      if (turns > 0) await page.locator(".turns .key").nth(at).tap();
      if (await page.locator(".hand").count() > 0) said.push(await page.locator(".hand .pictured").getAttribute("aria-label"));
    }
    await offers(page).nth(n % 2).tap();
    await verdict(page);
    const right = (await page.locator(".stood.right span").innerText()).toLowerCase();
    for (const text of said) {
      assert.ok(text.length > 4, `a drawing says something: "${text}"`);
      assert.ok(!text.toLowerCase().includes(right), `"${right}" in "${text}"`);
      looked += 1;
    }
    await key(page, "Next").tap();
  }
  assert.ok(looked > 20, `${looked} drawings`);
});

test("by keyboard alone: to a task, its answer and the next; Back leads back", async (t) => {
  const { page } = await beginPractice(t);
  const tabTo = async (wanted) => {
    for (let presses = 0; presses < 60; presses += 1) {
      await page.keyboard.press("Tab");
      if (await page.evaluate((source) => new RegExp(source, "s").test(document.activeElement.innerText ?? ""), wanted.source)) return;
    }
    throw new Error(`Tab never came to ${wanted}`);
  };
  await tabTo(/^Practise$/);
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.activeElement.id === "heading" && document.querySelector("button.offer"));
  const first = await offers(page).first().innerText();
  await tabTo(new RegExp(`^${first.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}`));
  await page.keyboard.press("Space");
  await verdict(page);
  assert.equal(await page.evaluate(() => document.activeElement.id), "said");
  await tabTo(/^Next$/);
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.activeElement.id === "heading" && document.querySelector("button.offer"));
  await page.goBack();
  await page.waitForFunction(() => document.getElementById("heading").innerText === "Learning to see");
});

test("by words alone: tasks that need no drawing", async (t) => {
  const { page } = await beginPractice(t);
  await button(page, "By words alone").tap();
  assert.equal(await button(page, "By words alone").getAttribute("aria-pressed"), "true");
  await page.locator(".keys").getByRole("link", { name: "Practise" }).tap();
  for (let n = 0; n < 6; n += 1) {
    await offers(page).first().waitFor();
    if (await page.locator(".hand").count() > 0) {
      assert.match(await page.locator(".hand .pictured").getAttribute("aria-label"), /: /, "more than from where it is seen");
    }
    await offers(page).first().tap();
    await verdict(page);
    await key(page, "Next").tap();
  }
});

test("the test of twelve tells nothing before its end", async (t) => {
  const { page } = await beginPractice(t, {}, "#test");
  await key(page, "Begin").tap();
  for (let n = 1; n <= 12; n += 1) {
    await page.locator(".hint", { hasText: `Piece ${n} of 12` }).waitFor();
    assert.equal(await page.locator(".said").count(), 0);
    await offers(page).first().tap();
  }
  await page.getByText(/^\d+ of 12 right\.$/).waitFor();
  await page.waitForFunction(() => true);
  for (let tries = 0; tries < 50 && !/^trial /m.test(await kept(page)); tries += 1) await page.waitForTimeout(30);
  assert.match(await kept(page), /^trial \d+ right \d+ seed \d+$/m);
});

test("practice goes out and in: by itself, and with the cabinet; a damaged text is refused", async (t) => {
  const { page, server } = await beginPractice(t);
  await takeIn(page, LONG);
  await button(page, "Good").tap();
  const { name, bytes } = await download(page, () => button(page, "Save it as a file").tap());
  assert.equal(name, "irons-practice.txt");
  assert.equal(bytes.toString(), LONG);
  await page.getByLabel("Take a file in", { exact: true }).setInputFiles({ name: "x.txt", mimeType: "text/plain", buffer: Buffer.from("no") });
  await page.locator(".told", { hasText: "no file of practice" }).waitFor();
  for (let tries = 0; tries < 50 && await kept(page) !== LONG; tries += 1) await page.waitForTimeout(30);
  assert.equal(await kept(page), LONG);
  // In the file of the cabinet, which has a piece.
  await openCabinet(page, server);
  await write(page, { Title: "A small iron" });
  await openCabinet(page, server, "#out");
  const file = await download(page, () => button(page, "Export everything").tap());
  const text = entries(file.bytes).get("practice/irons.txt");
  assert.equal(text?.toString(), LONG);
  // Out of it, on a phone that has practised something else: both are there.
  const more = LONG.replace("asked 41", "asked 60").replace("kind 1 box 2 due 20000 right 3 wrong 1", "kind 1 box 3 due 20050 right 9 wrong 1");
  await takeCabinet(page, server, zipped([["practice/irons.txt", Buffer.from(more)]]));
  await openPractice(page, server);
  await page.locator(".told", { hasText: "taken in" }).waitFor();
  for (let tries = 0; tries < 50 && await kept(page) !== more; tries += 1) await page.waitForTimeout(30);
  assert.equal(await kept(page), more);
  for (let tries = 0; tries < 50 && (await stored(page, "notes")).some(([n]) => n.startsWith("practice-in/")); tries += 1) await page.waitForTimeout(30);
  assert.deepEqual((await stored(page, "notes")).map(([n]) => n).filter((n) => n.startsWith("practice-in/")), []);
});

test("what was confused has its check, and is practised at once", async (t) => {
  const { page } = await beginPractice(t);
  await takeIn(page, LONG);
  await page.getByRole("link", { name: /^What you confuse/ }).tap();
  // Three confusions among kinds 1, 2, 3 and 7, as in the text that was taken in.
  assert.equal(await page.locator(".matrix tbody tr").count(), 4);
  assert.equal(await page.locator(".matrix .often").count(), 3);
  await page.locator(".card", { hasText: "3 times" }).getByRole("button", { name: "Practise this pair" }).tap();
  await offers(page).first().waitFor();
  assert.match(await heading(page), /Which of these two|What would you check next/);
});

for (const [paper, wide, high, places] of [["A4", 595.28, 841.89, 4], ["Letter", 612, 792, 3]]) {
  test(`work sheets on ${paper}: the same from the same number, nothing runs over`, async (t) => {
    const { page } = await beginPractice(t, {}, "#sheets");
    await page.getByLabel("Number of the series").fill("12");
    await button(page, "12 pieces").tap();
    await button(page, paper).tap();
    await sheets(page);
    const pages = Math.ceil(12 / places);
    assert.equal(await page.locator(".worksheet .worked").count(), 12);
    assert.equal(await page.locator(".worksheet").count(), pages + 1);
    const before = await page.locator(".worksheets").innerText();
    await page.emulateMedia({ media: "print" });
    // The breadth of the paper without its margins of 14 mm.
    const mm = 96 / 25.4;
    await page.setViewportSize({ width: Math.floor((wide / 72) * 96 - 28 * mm), height: 1000 });
    const over = await page.evaluate(() => [...document.querySelectorAll(".worked, .answer, .worksheet")]
      .filter((one) => one.scrollWidth > one.clientWidth + 1 || (one.matches(".worked") && one.scrollHeight > one.clientHeight + 1))
      .map((one) => `${one.className}: ${one.scrollWidth} x ${one.scrollHeight} in ${one.clientWidth} x ${one.clientHeight}: ${one.innerText.slice(0, 60)}`));
    assert.deepEqual(over, []);
    for (const one of await page.locator(".bar, .top, .asked-for").all()) assert.equal(await one.isVisible(), false);
    const pdf = (await page.pdf({ preferCSSPageSize: true, printBackground: true })).toString("latin1");
    const boxes = [...pdf.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)].map((m) => [Number(m[1]), Number(m[2])]);
    // Sizes by ISO 216 and ANSI Y14.1, in points.
    for (const [w, h] of boxes) assert.ok(Math.abs(w - wide) < 1.5 && Math.abs(h - high) < 1.5, `${w} x ${h}`);
    assert.ok(boxes.length > pages && boxes.length <= pages + 2, `${boxes.length} pages for ${pages} sheets and the answers`);
    // Elsewhere, later: the same pieces.
    await page.emulateMedia({ media: "screen" });
    await page.setViewportSize({ width: 360, height: 740 });
    await page.reload();
    await heard(page, "usable");
    await page.getByLabel("Number of the series").fill("12");
    await button(page, "12 pieces").tap();
    await button(page, paper).tap();
    await sheets(page);
    assert.equal(await page.locator(".worksheets").innerText(), before);
  });
}

test("before a class: votes by hand, the answer, what was found hard", async (t) => {
  const { page } = await beginPractice(t, {}, "#board");
  await page.locator(".hint", { hasText: "Piece 1 of series 1" }).waitFor();
  for (let votes = 0; votes < 3; votes += 1) await offers(page).first().tap();
  await offers(page).nth(1).tap();
  await page.getByRole("button", { name: /^\u22121 for/ }).first().tap();
  assert.deepEqual(await page.locator(".vote .count").allInnerTexts().then((all) => all.slice(0, 2)), ["2", "1"]);
  assert.equal(await page.locator(".said").count(), 0, "nothing is told before it is wanted");
  await key(page, "Show the answer").tap();
  await page.getByText(/^[012] of 3 votes for/).waitFor();
  await page.getByRole("heading", { name: "What the class found hard" }).waitFor();
  await key(page, "Next piece").tap();
  await page.locator(".hint", { hasText: "Piece 2 of series 1" }).waitFor();
  assert.equal(await kept(page), "", "a class is no practice of the teacher's");
});

test("own pieces from the cabinet are put to a class, the finding hidden until wanted", async (t) => {
  const { page, server } = await beginPractice(t);
  await open(page, server.address);
  await toFinding(page);
  await button(page, "Keep this piece").tap();
  await page.waitForURL(/cabinet\.html#piece\//);
  await page.locator(".told", { hasText: /^Kept/ }).waitFor();
  await openPractice(page, server, "#table");
  await button(page, "Take the pieces of this cabinet").tap();
  await page.getByText("1 piece on the table.").waitFor();
  await page.locator("summary", { hasText: "No. " }).first().tap();
  await page.getByRole("button", { name: "What is the grip like?" }).tap();
  await page.waitForFunction(() => /^No\. .*: what is the grip like\?$/.test(document.getElementById("heading").innerText));
  await page.getByRole("button", { name: /^Plain metal bar or band/ }).first().tap();
  await button(page, "Finding so far").tap();
  await page.getByText("Nothing was answered of this piece yet.").waitFor();
  await key(page, "Show the answer").tap();
  await page.getByText("1 of 1 vote for").waitFor();
  await page.getByText(/^After the grip/).waitFor();
});
