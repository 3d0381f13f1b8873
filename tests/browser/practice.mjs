// What the tests of practice share.
import { heard, visit } from "./harness.mjs";
import { button, key } from "./walk.mjs";

/** Opens the page of practice at a fragment and waits until it can be used. */
export async function openPractice(page, server, fragment = "") {
  await page.goto("about:blank");
  await page.goto(`${server.address}practice.html${fragment}`);
  await heard(page, "usable");
}

/** A visit with the page open; fails when the page complained of anything. */
export async function beginPractice(test, options = {}, fragment = "") {
  const all = await visit(test, { quiet: true, ...options });
  await openPractice(all.page, all.server, fragment);
  return all;
}

/** The answers that can be chosen. */
export const offers = (page) => page.locator("button.offer");

/** Waits until something is said about the answer, and returns the first sentence. */
export async function verdict(page) {
  await page.locator(".said .verdict").waitFor();
  return page.locator(".said .verdict").first().innerText();
}

/** Where a learner stands, as the phone has kept it. */
export const kept = (page, name = "practice/irons") => page.evaluate((name) => new Promise((resolve, reject) => {
  const open = indexedDB.open("pressmark");
  open.onerror = () => reject(open.error);
  open.onsuccess = () => {
    const note = open.result.transaction("notes").objectStore("notes").get(name);
    note.onsuccess = () => {
      open.result.close();
      resolve(note.result ?? "");
    };
  };
}), name);

/** Practice of many days, invented: boxes, confusions, lessons, two tests. */
export const LONG = `pressmark practice 1
pack irons
asked 41
look 5 box 3 due 20000 right 4 wrong 0
look 8 box 1 due 20000 right 1 wrong 2
kind 1 box 2 due 20000 right 3 wrong 1
took 1 for 2 times 3
took 2 for 3 times 1
took 7 for 1 times 2
lesson 1
trial 20000 right 5 seed 9
trial 20014 right 9 seed 8
`;

/** Takes a text of practice in through the page. */
export async function takeIn(page, text) {
  await page.getByLabel("Take a file in", { exact: true }).setInputFiles({ name: "mine.txt", mimeType: "text/plain", buffer: Buffer.from(text) });
  await page.locator(".told", { hasText: "taken in" }).waitFor();
}

/** Makes the sheets that are asked for. */
export async function sheets(page) {
  await key(page, "Make the sheets").tap();
  await page.locator(".worksheets").waitFor();
}

/** Every screen by its fragment, and what is done there. */
export const SCREENS = {
  "practice": ["", async () => {}],
  "practice-shown": ["#lesson/1", async (page) => {
    await key(page, "Show the next look").tap();
    await page.locator("#said").waitFor();
  }],
  "practice-asked": ["#lesson/3", async (page) => {
    await offers(page).first().tap();
    await page.locator("#said").waitFor();
  }],
  "practice-alone": ["#lesson/5", async () => {}],
  "practice-task": ["#task", async (page) => { await offers(page).first().waitFor(); }],
  "practice-answered": ["#task", async (page) => {
    await offers(page).first().tap();
    await verdict(page);
  }],
  "practice-name": ["#task", async (page) => {
    // Every second task is a look; of the others some show the piece all round.
    for (let tasks = 0; tasks < 20; tasks += 1) {
      await offers(page).first().waitFor();
      if (await page.locator(".turns").count() > 0) return;
      await offers(page).first().tap();
      await verdict(page);
      await key(page, "Next").tap();
    }
    throw new Error("No task showed a piece all round.");
  }],
  "practice-named": ["#task", async (page) => {
    await SCREENS["practice-name"][1](page);
    await offers(page).first().tap();
    await verdict(page);
  }],
  "practice-mixed": ["", async (page) => {
    await takeIn(page, LONG);
    await page.getByRole("link", { name: /^What you confuse/ }).tap();
    await page.locator(".matrix").waitFor();
  }],
  "practice-test": ["#test", async () => {}],
  "practice-test-piece": ["#test", async (page) => {
    await key(page, "Begin").tap();
    await offers(page).first().waitFor();
  }],
  "practice-talk": ["#talk", async (page) => {
    await key(page, "The next look").tap();
    await page.locator(".look").nth(1).waitFor();
  }],
  "practice-teach": ["#teach", async () => {}],
  "practice-board": ["#board", async (page) => {
    await offers(page).first().tap();
    await page.locator(".count", { hasText: "1" }).waitFor();
  }],
  "practice-board-shown": ["#board", async (page) => {
    await offers(page).first().tap();
    await offers(page).nth(1).tap();
    await key(page, "Show the answer").tap();
    await verdict(page);
  }],
  "practice-sheets": ["#sheets", async (page) => {
    await page.locator("summary").tap();
    await page.getByLabel("Number of the series").fill("0");
    await page.getByText("Type a whole number").waitFor();
  }],
  "practice-printed": ["#sheets", sheets],
  "practice-table": ["#table", async () => {}],
};

export { button };
