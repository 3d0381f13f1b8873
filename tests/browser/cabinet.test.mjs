// The cabinet as a user has it: writing, changing, finding, photographs, out and in, two windows, no room.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { test } from "node:test";
import { heard, open, openAndKeep, visit } from "./harness.mjs";
import { PHOTO, beginCabinet, choose, download, entries, notice, openCabinet, ready, record, stored, takeIn, told, write, zipped } from "./cabinet.mjs";
import { begin, button, heading, key, toFinding } from "./walk.mjs";

test("a finding is kept, found again, and offered on the next finding that is like it", async (t) => {
  const { page, server } = await begin(t);
  await toFinding(page);
  const kind = await heading(page);
  assert.equal(await page.locator(".card", { hasText: /^You own/ }).count(), 0, "nothing is owned yet");
  await button(page, "Keep this piece").tap();
  await page.waitForURL(/cabinet\.html#piece\//);
  await told(page, `Kept: 2026.1, ${kind}.`.replace("2026", String(new Date().getFullYear())));
  const says = await page.locator("main").innerText();
  for (const part of [kind, "even chances", "What this record lacks", "THE GUIDE SAID"]) {
    assert.ok(says.toUpperCase().includes(part.toUpperCase()), `${part} in ${says}`);
  }
  // Money is not shown until it is asked for.
  assert.doesNotMatch(says, /USD/);
  await button(page, "Show the money").tap();
  await page.getByText(/USD, fair market/).first().waitFor();
  // Loaded again, the piece is there once.
  await page.reload();
  await ready(page);
  assert.equal((await stored(page, "states")).length, 1);
  assert.deepEqual((await stored(page, "notes")).filter(([name]) => name.startsWith("keep/")), []);

  await page.goto("about:blank");
  await open(page, server.address);
  await toFinding(page);
  const own = page.locator(".card", { hasText: /^You own one like this\./ });
  await own.waitFor();
  await own.getByRole("link").tap();
  await page.waitForURL(/cabinet\.html#piece\//);
  await ready(page);
  assert.match(await heading(page), new RegExp(kind));
});

test("the piece in the hand is a draft at every answer, and the cabinet leads back to it", async (t) => {
  const { page, server } = await begin(t);
  await toFinding(page);
  await page.waitForFunction(() => location.hash.includes("/f~"));
  const link = await page.evaluate(() => location.hash);
  await openCabinet(page, server);
  const on = page.getByRole("link", { name: "Go on with it" });
  await on.waitFor();
  assert.equal(await on.getAttribute("href"), `./${link}`);
});

test("written by hand, changed, taken out and put back; a draft outlives the page", async (t) => {
  const { page, server } = await beginCabinet(t);
  await page.getByText("Nothing is kept yet").waitFor();
  await write(page, { Title: "Small flat iron", Condition: "a chip at the left heel", "Where it is kept": "attic" });
  await page.getByRole("link", { name: "Change it" }).tap();
  await page.getByLabel(/^Title/).fill("Small flat iron with a chip");
  await page.waitForTimeout(200);
  // Not saved, and the page is gone.
  await page.reload();
  await ready(page);
  await told(page, "What you had typed here before is back");
  assert.equal(await page.getByLabel(/^Title/).inputValue(), "Small flat iron with a chip");
  await button(page, "Save").tap();
  await told(page, /^Saved:.*with a chip/);
  await button(page, "Take it out of the cabinet").tap();
  await told(page, /^Taken out/);
  await button(page, "Put it back").tap();
  await told(page, /^Back in the cabinet/);
  assert.equal(await page.locator(".piece-row").count(), 1);
  assert.equal((await stored(page, "states")).length, 4, "nothing was written over");
  await page.goto(`${server.address}cabinet.html#piece/00000000-0000-4000-8000-000000000000`);
  await page.getByText("not in the cabinet of this device").waitFor();
});

test("a field that was refused keeps the focus while it is put right", async (t) => {
  const { page } = await beginCabinet(t);
  await key(page, "Write a record").tap();
  const number = page.getByLabel(/^Number/);
  await number.fill("nonsense");
  await button(page, "Save").tap();
  await page.locator(".fault").first().waitFor();
  await number.tap();
  await page.keyboard.press("ControlOrMeta+A");
  await page.keyboard.type("2026.7", { delay: 10 });
  assert.equal(await number.inputValue(), "2026.7");
});

test("a photograph is made smaller and freed of its place, and shown", async (t) => {
  const { page } = await beginCabinet(t);
  await key(page, "Write a record").tap();
  await page.getByLabel(/^Title/).fill("With a picture");
  await choose(page, "Add photographs", PHOTO);
  await page.locator(".photos img").waitFor();
  await choose(page, "Add photographs", "note.png", Buffer.from("no picture"), "image/png");
  await told(page, "no picture that the browser can read");
  await button(page, "Save").tap();
  await told(page, /^Saved:/);
  const kept = await page.evaluate(() => new Promise((resolve) => {
    const open = indexedDB.open("pressmark");
    open.onsuccess = () => {
      const all = open.result.transaction("photos").objectStore("photos").getAll();
      all.onsuccess = async () => {
        open.result.close();
        resolve(await Promise.all(all.result.map(async (blob) => Array.from(new Uint8Array(await blob.arrayBuffer())))));
      };
    };
  }));
  assert.equal(kept.length, 1);
  const bytes = Buffer.from(kept[0]);
  const [[name]] = await stored(page, "photos");
  assert.equal(name, createHash("sha256").update(bytes).digest("hex"));
  // EXIF (JEITA CP-3451) stands behind this word.
  assert.equal(bytes.indexOf("Exif"), -1);
  await page.getByRole("link", { name: "All pieces" }).tap();
  await page.locator(".piece-row img").waitFor();
  await button(page, "Pictures").tap();
  await page.locator(".piece-tile img").waitFor();
  await page.waitForFunction(() => document.querySelector(".piece-tile img").naturalWidth > 0);
});

test("out and in again: the file explains itself and gives back every state and photograph", async (t) => {
  const { page, server } = await beginCabinet(t);
  const jpeg = Buffer.concat([Buffer.from([0xff, 0xd8, 0xff]), Buffer.alloc(300, 7)]);
  const digest = createHash("sha256").update(jpeg).digest("hex");
  const photo = `\n[photograph]\nsha256: ${digest}\nview: overall\n`;
  await takeIn(page, server, zipped([
    ["records/a.txt", Buffer.from(record(1, "number: 2026.4\nlocation: attic\n", photo))],
    ["records/b.txt", Buffer.from(record(2))],
    [`photos/${digest}.jpg`, jpeg],
  ]));
  const before = await stored(page, "states");
  await openCabinet(page, server, "#out");
  const { name, bytes, place } = await download(page, () => button(page, "Export everything").tap());
  assert.match(name, /^pressmark-cabinet-\d{4}-\d\d-\d\d\.zip$/);
  await told(page, /^Exported/);
  const all = entries(bytes);
  assert.equal([...all.keys()][0], "README.txt");
  assert.match(all.get("README.txt").toString(), /photos/);
  assert.ok(all.get(`photos/${digest}.jpg`).equals(jpeg));
  assert.match(all.get("index.csv").toString(), /2026\.4/);

  // A device of its own takes it.
  const other = await visit(t, { quiet: true });
  await openCabinet(other.page, other.server, "#in");
  await choose(other.page, "Choose a ZIP", place);
  await button(other.page, "Take it in").tap();
  await told(other.page, /^Taken in: 2 pieces/);
  assert.deepEqual(await stored(other.page, "states"), before);
  assert.deepEqual(await stored(other.page, "photos"), [[digest, null]]);
  // Once more it changes nothing.
  await openCabinet(other.page, other.server, "#in");
  await choose(other.page, "Choose a ZIP", place);
  await other.page.getByText("Every state in it is here already").waitFor();
  await button(other.page, "Leave it").tap();

  // For anybody there is no place in the table.
  const open = await download(page, () => button(page, "Table for anybody").tap());
  assert.ok(!open.bytes.toString().includes("attic"));
  const every = await download(page, () => button(page, "Table with everything").tap());
  assert.ok(every.bytes.toString().includes("attic"));
  const linked = JSON.parse((await download(page, () => button(page, "Linked data").tap())).bytes);
  assert.equal(linked.length, 2);
  assert.equal(linked[0].type, "HumanMadeObject");
});

test("damaged, hostile and foreign files get a sentence and change nothing", async (t) => {
  const { page, server } = await beginCabinet(t);
  await write(page, { Title: "Mine" });
  const before = [await stored(page, "states"), await stored(page, "cards")];
  const good = zipped([["records/a.txt", Buffer.from(record(1))], ["records/b.txt", Buffer.from(record(2, "number: nonsense\n"))]]);
  const cut = zipped([["records/a.txt", Buffer.from(record(1))]]).subarray(0, 200);
  const flipped = Buffer.from(zipped([["records/a.txt", Buffer.from(record(1))]]));
  flipped[120] ^= 1;
  for (const [label, name, bytes] of [
    ["Choose a ZIP", "half.zip", good],
    ["Choose a ZIP", "cut.zip", cut],
    ["Choose a ZIP", "flipped.zip", flipped],
    ["Choose a ZIP", "up.zip", zipped([["../records/a.txt", Buffer.from(record(1))]])],
    ["Choose a ZIP", "picture.zip", Buffer.from([0xff, 0xd8, 0xff, 0, 1])],
    ["Choose a table", "latin.csv", Buffer.from([0x41, 0xe4, 0x0a])],
  ]) {
    await openCabinet(page, server, "#in");
    await choose(page, label, name, bytes, "application/octet-stream");
    await page.getByText("Nothing was taken from the file").waitFor();
    assert.ok(await page.locator(".card p").count() > 0, `${name} is answered with a sentence`);
  }
  assert.deepEqual([await stored(page, "states"), await stored(page, "cards")], before);
});

test("two windows at once: both saves are there, each window hears of the other, and the user decides", async (t) => {
  const { page, server, context } = await beginCabinet(t);
  await write(page, { Title: "Iron" });
  const id = page.url().split("/").at(-1);
  const other = await context.newPage();
  await other.addInitScript(() => {
    globalThis.heard = [];
    addEventListener("pressmark:usable", () => globalThis.heard.push(["usable"]));
  });
  await openCabinet(other, server, `#edit/${id}`);
  await openCabinet(page, server, `#edit/${id}`);
  await page.getByLabel(/^Title/).fill("Iron of brass");
  await other.getByLabel(/^Title/).fill("Iron of glass");
  await button(page, "Save").tap();
  await told(page, /^Saved:/);
  await button(other, "Save").tap();
  await told(other, /^Saved:/);
  // This window hears of it by itself.
  await page.getByText("Nothing was chosen for you").waitFor();
  const says = await page.locator("main").innerText();
  assert.ok(says.includes("Iron of brass") && says.includes("Iron of glass"));
  await button(page, "That one holds").tap();
  await told(page, /^Settled/);
  assert.equal(await page.getByText("Nothing was chosen for you").count(), 0);
  assert.equal((await stored(page, "states")).length, 4);
});

test("no room: a sentence, what was typed stays, and nothing that was kept is touched", async (t) => {
  const { page, server, context } = await visit(t, { options: { resident: true } });
  // The room must be small before the store is first used: Chromium keeps in mind how much there was.
  const devtools = await context.newCDPSession(page);
  const origin = new URL(server.address).origin;
  await page.goto(`${server.address}key.html`);
  await devtools.send("Storage.overrideQuotaForOrigin", { origin, quotaSize: 400_000 });
  await openCabinet(page, server);
  let saved = 0;
  let full = "";
  for (let n = 0; n < 60 && !full; n += 1) {
    await openCabinet(page, server);
    await key(page, "Write a record").tap();
    await page.getByLabel(/^Title/).fill(`Iron ${n}`);
    for (const label of [/^Condition/, /^Description/, /^Notes/]) await page.getByLabel(label).fill(`${n} `.repeat(4_000));
    await button(page, "Save").tap();
    await notice(page).filter({ hasText: /^(Saved:|Not saved:)/ }).first().waitFor();
    full = (await notice(page).first().innerText()).startsWith("Not saved") ? await notice(page).first().innerText() : "";
    if (full) assert.equal(await page.getByLabel(/^Title/).inputValue(), `Iron ${n}`, "what was typed stands there");
    else saved += 1;
  }
  assert.match(full, /no room left/);
  assert.ok(saved > 0);
  await devtools.send("Storage.overrideQuotaForOrigin", { origin });
  const states = await stored(page, "states");
  assert.equal(states.length, saved);
  await openCabinet(page, server);
  assert.equal(await page.locator(".piece-row").count(), saved);
});

test("a store of a newer edition is read, exported, and never written", async (t) => {
  const { page, server } = await beginCabinet(t);
  await write(page, { Title: "Of now" });
  await page.goto(`${server.address}key.html`);
  await page.evaluate(() => new Promise((resolve, reject) => {
    const open = indexedDB.open("pressmark", 7);
    open.onupgradeneeded = () => open.result.createObjectStore("of a later edition");
    open.onsuccess = () => resolve(open.result.close());
    open.onerror = () => reject(open.error);
  }));
  await openCabinet(page, server);
  await page.getByText("written by a newer edition").waitFor();
  assert.equal(await button(page, "Write a record").count(), 0);
  await page.locator(".piece-row").tap();
  await page.getByRole("heading", { name: /Of now/ }).waitFor();
  assert.equal(await page.getByRole("link", { name: "Change it" }).count(), 0);
  assert.equal(await button(page, "Take it out of the cabinet").count(), 0);
  await openCabinet(page, server, "#out");
  const { bytes } = await download(page, () => button(page, "Export everything").tap());
  assert.ok([...entries(bytes).keys()].some((name) => name.startsWith("records/")));
});

test("a newer edition that opens the store is not kept waiting, and the window says so", async (t) => {
  const { page, server, context } = await beginCabinet(t);
  await write(page, { Title: "Of now" });
  const other = await context.newPage();
  await other.goto(`${server.address}key.html`);
  await other.evaluate(() => new Promise((resolve, reject) => {
    const open = indexedDB.open("pressmark", 8);
    open.onsuccess = () => resolve(open.result.close());
    open.onblocked = () => reject(new Error("kept waiting"));
    open.onerror = () => reject(open.error);
  }));
  await told(page, "left behind by a newer edition");
});

test("without a signal the cabinet opens, saves and finds", async (t) => {
  const { page, server } = await visit(t);
  await openAndKeep(page, server.address);
  await server.stop();
  await page.goto(`${server.address}cabinet.html`);
  await heard(page, "usable");
  await ready(page);
  await write(page, { Title: "In a field" });
  await page.reload();
  await ready(page);
  await page.getByRole("heading", { name: /In a field/ }).waitFor();
});

test("an update in between: what was kept before is there afterwards", async (t) => {
  const { page, server, site } = await visit(t);
  await openAndKeep(page, server.address);
  await openCabinet(page, server);
  await write(page, { Title: "Before" });
  // A release whose cabinet carries a mark.
  const old = site.read("cabinet.html");
  const fresh = Buffer.from(old.toString().replace('<html lang="en"', '<html lang="en" data-release="second"'));
  const digest = (bytes) => createHash("sha256").update(bytes).digest("hex");
  const worker = site.read("sw.js").toString();
  assert.ok(worker.includes(digest(old)));
  site.put("cabinet.html", fresh);
  site.put("sw.js", worker.replace(digest(old), digest(fresh)).replace(/VERSION = "[^"]+"/, 'VERSION = "second"'));
  await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
  await button(page, "Use it now").tap();
  await page.waitForFunction(() => document.documentElement.dataset.release === "second");
  await ready(page);
  await page.getByRole("heading", { name: /Before/ }).waitFor();
});
