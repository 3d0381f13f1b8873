// The secretary's whole path without a terminal, from the starter to the finished pack open in the assistant; guest packs side
// by side, without a signal, signed, damaged and hostile.
import assert from "node:assert/strict";
import crypto from "node:crypto";
import { test } from "node:test";
import { beginBook, openBook, turned } from "./book.mjs";
import { club, downloaded, file, handOver, made, starter, unzipped, zipped } from "./desk.mjs";
import { cut, inEveryTheme } from "./eyes.mjs";
import { heard, open, openAndKeep, visit } from "./harness.mjs";
import { heading } from "./walk.mjs";

/** While a guest pack is open the browser remarks that the bundled one, which the page asks for early, is not used. */
const LOUD = { quiet: false };
const NAME = ["pack.csv", "My first pack", "Spoons of the Aldergate circle"];
const found = (page) => page.locator("main");
const guest = (page) => page.locator("#guest p");
const card = (page, name) => page.locator("section").filter({ has: page.locator("h2", { hasText: name }) }).last();
const tap = (page, name) => page.getByRole("button", { name, exact: true }).first().tap();

test("from the starter to the finished pack open in the assistant", async (t) => {
  const { page, server } = await visit(t);
  await openAndKeep(page, server.address);
  await page.goto(`${server.address}book.html`);
  await heard(page, "usable");
  await page.getByRole("link", { name: "Pack desk" }).tap();
  await turned(page, "The pack desk");

  // The starter, with a slip of the pen: sheet, row and column are named, and what to do.
  const files = await starter(page, [NAME]);
  assert.ok(files.has("kinds.csv") && files.has("pack.csv") && files.has("README.txt"), [...files.keys()].join(" "));
  const sound = files.get("pack.csv");
  const row = sound.toString().split("\r\n").findIndex((line) => line.startsWith("edition,")) + 1;
  files.set("pack.csv", Buffer.from(sound.toString().replace(/edition,\d{4}-/, "edition,20x6-")));
  await handOver(page, "ours.zip", zipped(files));
  assert.match(await found(page).innerText(), /1 fault to mend/);
  const fault = await card(page, "pack.csv").innerText();
  assert.match(fault, new RegExp(`Row ${row}, column edition:`));
  assert.equal(await page.getByRole("button", { name: "Try it" }).count(), 0);

  // Mended: what it is, how good it is, the file to hand on.
  files.set("pack.csv", sound);
  await page.locator("#desk-files").setInputFiles(file("ours.zip", zipped(files)));
  await page.getByText("No faults. This is a pack.").waitFor();
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "What was found");
  const report = await found(page).innerText();
  assert.match(report, /Spoons of the Aldergate circle/);
  assert.match(report, /Of 300 pieces made up of its own tables \d+ in 100 are found first/);
  const { name, bytes } = await downloaded(page, () => tap(page, "Download the pack"));
  assert.match(name, /^mypack-\d{4}-\d\d-\d\d\.pack$/);

  // Tried: the first question is the pack's own, the screen says whose it is, and so does every page.
  await tap(page, "Try it");
  await page.waitForURL(server.address);
  await heard(page, "usable");
  assert.equal(await guest(page).innerText(), "Guest pack: Spoons of the Aldergate circle");
  const question = await heading(page);
  assert.notEqual(question, "How long is the sole?");
  for (const other of ["book.html", "practice.html"]) {
    await page.goto(server.address + other);
    await heard(page, "usable");
    assert.match(await guest(page).innerText(), /Aldergate/);
  }

  // Without a signal it is still there, and the desk as well, since it was used.
  await server.stop();
  await open(page, server.address);
  assert.equal(await heading(page), question);
  await openBook(page, server, "#desk");
  await handOver(page, "ours.zip", zipped(files));
  await page.getByText("No faults. This is a pack.").waitFor();

  // On the page of packs: what it is, its digest as any other program reckons it, back to the bundled one, away with it.
  await openBook(page, server, "#packs");
  const shown = card(page, "Spoons of the Aldergate circle");
  await shown.getByText("Open now.").waitFor();
  const digest = crypto.createHash("sha256").update(bytes).digest("hex");
  const says = await shown.innerText();
  for (const word of [digest.slice(0, 12), name.slice(7, 17), "Unsigned"]) assert.ok(says.includes(word), `${word} in ${says}`);
  await card(page, "The bundled guide").getByRole("button", { name: "Open" }).tap();
  await page.waitForURL(server.address);
  await heard(page, "usable");
  assert.equal(await heading(page), "How long is the sole?");
  assert.equal(await guest(page).count(), 0);
  await openBook(page, server, "#packs");
  await tap(page, "Remove");
  await page.getByText("The pack is no longer on this device.").waitFor();
  assert.equal(await shown.count(), 0);
});

test("two guests side by side, opened from files, each with its own signature", async (t) => {
  const { page, server } = await beginBook(t, "#desk", LOUD);
  const ours = club();
  const key = ["pack.csv", "basis,", `key,${ours.key}\r\nbasis,`];
  const one = await made(page, [NAME, key]);
  const two = await made(page, [["pack.csv", "mypack", "ladles"], ["pack.csv", "My first pack", "Ladles"]]);
  await openBook(page, server, "#packs");
  await page.getByText("No guest pack is on this device.").waitFor();
  const pick = (...files) => page.locator("#pack-file").setInputFiles(files);
  await pick(file("a.pack", one.bytes), file("a.pack.minisig", ours.signs(one.bytes)));
  await page.getByText(/is on this device now\. Signed and unchanged.*first time/).waitFor();
  await pick(file("b.pack", two.bytes));
  await page.getByText(/Ladles is on this device now\. Unsigned/).waitFor();
  assert.match(await card(page, "Spoons of the Aldergate circle").innerText(), /Signed and unchanged/);
  assert.match(await card(page, "Ladles").innerText(), /Unsigned/);

  // A byte changed behind the club's back; a pack of the same club under another key.
  const later = Buffer.from(one.bytes);
  later[later.length - 1] ^= 1;
  await pick(file("a.pack", one.bytes), file("a.pack.minisig", ours.signs(later)));
  await page.getByText(/Damaged: it is not what was signed/).waitFor();
  const stranger = club();
  await openBook(page, server, "#desk");
  const forged = await made(page, [NAME, ["pack.csv", "basis,", `key,${stranger.key}\r\nbasis,`]]);
  await openBook(page, server, "#packs");
  await pick(file("a.pack", forged.bytes), file("a.pack.minisig", stranger.signs(forged.bytes)));
  await page.getByText(/Signed with another key than this club's packs before/).first().waitFor();

  // From one to the other and back.
  await card(page, "Ladles").getByRole("button", { name: "Open" }).tap();
  await page.waitForURL(server.address);
  await heard(page, "usable");
  assert.equal(await guest(page).innerText(), "Guest pack: Ladles");
  await page.getByRole("button", { name: "Close it" }).tap();
  await page.waitForFunction(() => !document.getElementById("guest") && globalThis.heard?.length > 0);
  assert.equal(await heading(page), "How long is the sole?");
});

test("a pack of the site by its address: opened, kept, and found again without a signal", async (t) => {
  const { page, server, site } = await visit(t);
  await openAndKeep(page, server.address);
  await openBook(page, server, "#desk");
  const { bytes } = await made(page, [NAME]);
  const ours = club();
  site.put("club.pack", bytes);
  await openBook(page, server, "#packs");
  await page.locator("#pack-address").fill("club.pack");
  await page.locator("#pack-key").fill(ours.key);
  await tap(page, "Look there");
  await page.getByText(/is on this device now\. Unsigned/).waitFor();
  site.put("club.pack.minisig", Buffer.from(ours.signs(bytes)));
  await tap(page, "Look there");
  await page.getByText(/is on this device now\. Signed and unchanged, by the key of this club/).waitFor();

  await page.goto("about:blank");
  await open(page, `${server.address}index.html?pack=club.pack`);
  assert.equal(await guest(page).innerText(), "Guest pack: Spoons of the Aldergate circle");
  const question = await heading(page);
  for (const [address, says] of [
    ["nowhere.pack", /There is no pack at this address/],
    ["https://elsewhere.example/club.pack", /opened from this site only/],
    ["//elsewhere.example/club.pack", /opened from this site only/],
    ["key.html", /not a Pressmark pack/],
  ]) {
    await page.goto("about:blank");
    await open(page, `${server.address}?pack=${encodeURIComponent(address)}`);
    assert.match(await guest(page).innerText(), says);
    assert.match(await guest(page).innerText(), /This is the bundled guide/);
    assert.equal(await heading(page), "How long is the sole?");
  }
  await server.stop();
  await page.goto("about:blank");
  await open(page, `${server.address}?pack=club.pack`);
  assert.equal(await heading(page), question);
});

test("what is kept and went bad falls back to the bundled guide with a sentence", async (t) => {
  const { page, server } = await visit(t);
  await openBook(page, server, "#desk");
  const { bytes } = await made(page, [NAME]);
  await openBook(page, server, "#packs");
  await page.locator("#pack-file").setInputFiles(file("club.pack", bytes));
  await page.getByText(/is on this device now/).waitFor();
  await page.evaluate(() => new Promise((done) => {
    indexedDB.open("pressmark-packs").onsuccess = ({ target: { result: base } }) => {
      const packs = base.transaction("packs", "readwrite").objectStore("packs");
      packs.getAll().onsuccess = ({ target: { result: [pack] } }) => {
        localStorage.setItem("pressmark.pack", pack.digest);
        pack.bytes[200] ^= 1;
        packs.put(pack).onsuccess = () => { base.close(); done(); };
      };
    };
  }));
  await open(page, server.address);
  assert.match(await guest(page).innerText(), /Aldergate circle on this device is damaged.*This is the bundled guide/);
  assert.equal(await heading(page), "How long is the sole?");
  await openBook(page, server, "#packs");
  await page.getByText(/^Damaged: what is kept here/).waitFor();
});

test("hostile files are refused with a sentence, and texts stay texts", async (t) => {
  const { page, server } = await beginBook(t, "#packs", LOUD);
  const { bytes } = await (async () => {
    await openBook(page, server, "#desk");
    return made(page, [["pack.csv", "My first pack", "Spoons & <3 &amp; \u201cforks\u201d"]]);
  })();
  await openBook(page, server, "#packs");
  const pick = (data) => page.locator("#pack-file").setInputFiles(file("x.pack", data));
  for (const [data, says] of [
    [Buffer.from("<!doctype html><script>alert(1)</script>"), /not a Pressmark pack/],
    [bytes.subarray(0, bytes.length - 40), /damaged/],
    [Buffer.concat([bytes, Buffer.from("more")]), /bytes behind its end/],
    [Buffer.alloc(5_000_000, 0x61), /not a Pressmark pack/],
  ]) {
    await pick(data);
    await page.getByText(says).waitFor();
    await page.getByRole("button", { name: "Good" }).tap();
  }
  await pick(bytes);
  await page.getByText("Spoons & <3 &amp; \u201cforks\u201d is on this device now.").waitFor();
  await card(page, "Spoons").getByRole("button", { name: "Open" }).tap();
  await page.waitForURL(server.address);
  await heard(page, "usable");
  assert.equal(await guest(page).innerText(), "Guest pack: Spoons & <3 &amp; \u201cforks\u201d");

  // A bomb, and no pack at all, at the desk.
  await openBook(page, server, "#desk");
  await handOver(page, "bomb.zip", zipped([["pack.toml", Buffer.alloc(20_000_000)]]));
  assert.match(await found(page).innerText(), /longer than 512 kB/);
  await page.locator("#desk-files").setInputFiles(file("sheet.csv", "<img src=x onerror=alert(1)>,a"));
  await page.getByText(/No file of a pack was found/).waitFor();
  assert.equal(await page.locator("main img").count(), 0);
});

test("with keys alone, in every theme, narrow, and with large letters", async (t) => {
  const { page, server } = await beginBook(t, "#desk", LOUD);
  await handOver(page, "ours.zip", zipped(await starter(page)));
  await page.getByText("No faults. This is a pack.").waitFor();
  for (const id of ["#desk-files", "#pack-file"]) {
    if (id === "#pack-file") {
      await tap(page, "Try it");
      await page.waitForURL(server.address);
      await heard(page, "usable");
      await openBook(page, server, "#packs");
      await page.getByText("Open now.").waitFor();
    }
    await inEveryTheme(page, id);
    await page.setViewportSize({ width: 320, height: 640 });
    assert.deepEqual(await cut(page, 320), [], `${id}, 320 px`);
    await page.setViewportSize({ width: 360, height: 740 });
  }
  // The way back by keyboard: the banner comes first on the page.
  await page.goto(server.address);
  await heard(page, "usable");
  await page.getByRole("button", { name: "Close it" }).focus();
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => !document.getElementById("guest") && globalThis.heard?.length > 0);
  assert.equal(await heading(page), "How long is the sole?");
  // And the desk's files are reached by Tab and opened by a key.
  // The browser is told in good time that choosers are listened to: told with the key it may open one of its own first.
  page.on("filechooser", () => {});
  await openBook(page, server, "#desk");
  await page.getByRole("button", { name: "Starter as texts" }).focus();
  await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => document.activeElement.id), "desk-files");
  const chooser = page.waitForEvent("filechooser");
  await page.keyboard.press("Enter");
  assert.equal((await chooser).isMultiple(), true);
});

test("the starter as texts is the same pack", async (t) => {
  const { page } = await beginBook(t, "#desk");
  const { bytes } = await downloaded(page, () => tap(page, "Starter as texts"));
  assert.ok(unzipped(bytes).has("pack.toml"));
  const sheets = await made(page);
  await page.locator("#desk-files").setInputFiles(file("texts.zip", bytes));
  await page.getByText("No faults. This is a pack.").waitFor();
  const texts = await downloaded(page, () => tap(page, "Download the pack"));
  assert.ok(texts.bytes.equals(sheets.bytes));
});

test("where no worker may run the desk works on the page", async (t) => {
  const before = (page) => page.addInitScript(() => { delete globalThis.Worker; });
  const { page } = await beginBook(t, "#desk", { before });
  const { name } = await made(page);
  assert.match(name, /\.pack$/);
  assert.equal(await page.evaluate(() => typeof Worker), "undefined");
});

test("in a frame a pack of the site is open for as long as the page, and nothing is kept or chosen", async (t) => {
  const { page, server, site } = await beginBook(t, "#desk", LOUD);
  const { bytes } = await made(page, [NAME]);
  site.put("club.pack", bytes);
  // A page of the same origin without the site's own policy, which would not let it frame anything.
  const body = "<!doctype html><title>A host</title><iframe src=\"index.html?pack=club.pack\" width=360 height=700></iframe>";
  await page.route("**/host", (route) => route.fulfill({ contentType: "text/html", body }));
  await page.goto(`${server.address}host`);
  const frame = page.frameLocator("iframe");
  await frame.locator("#guest p").waitFor();
  assert.equal(await frame.locator("#guest p").innerText(), "Guest pack: Spoons of the Aldergate circle");
  await frame.locator("#heading").filter({ hasText: "bowl" }).waitFor();
  const kept = await page.evaluate(async () => [
    localStorage.getItem("pressmark.pack"), (await indexedDB.databases()).map((one) => one.name).filter((name) => name === "pressmark-packs"),
  ]);
  assert.deepEqual(kept, [null, []]);
});
