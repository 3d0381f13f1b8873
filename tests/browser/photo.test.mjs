// The photo room: a real JPEG through the file picker, taps on a card, a length that holds the truth and answers the question
// of the size. The photographs are by a known camera (photograph.mjs), so the truth is known by construction.
import assert from "node:assert/strict";
import fs from "node:fs";
import test from "node:test";
import { stored, told } from "./cabinet.mjs";
import { complaints } from "./eyes.mjs";
import { heard, openAndKeep } from "./harness.mjs";
import { choose, enter } from "./photo.mjs";
import { LENGTH, file, photograph, scene } from "./photograph.mjs";
import { begin, button, heading, moved, tapOn } from "./walk.mjs";

/** The pixels of the longer side of a working picture; `LONGEST` of the room for pictures. */
const WORKING = 2200;
const FOUND = /^Length (\d+)(?:\.(\d))? mm/;

/** Taps a place of the picture, in pixels of the original, in one of the drawings of it, and waits for what comes of it. */
async function touch(page, what, [x, y], selector) {
  const by = Math.min(1, WORKING / Math.max(what.width, what.height));
  const place = await page.locator(selector).evaluate((svg, [x, y]) => {
    svg.scrollIntoView({ block: "center" });
    const frame = svg.getBoundingClientRect();
    const [left, top, width, height] = svg.getAttribute("viewBox").split(" ").map(Number);
    return [frame.left + (x - left) / width * frame.width, frame.top + (y - top) / height * frame.height];
  }, [x * by * 10, y * by * 10]);
  // The browser makes a click of it a little later, and the click moves the point.
  await page.evaluate(() => {
    globalThis.drawn = new Promise((drawn) => {
      addEventListener("click", () => requestAnimationFrame(() => setTimeout(drawn)), { once: true });
    });
  });
  await page.touchscreen.tap(...place);
  await page.evaluate(() => globalThis.drawn);
}

/** Puts a point: by a tap on the picture, then in the loupe, where a pixel is larger. */
async function put(page, what, spot) {
  const points = page.locator(".picture circle");
  const before = await points.count();
  await touch(page, what, spot, ".picture");
  await page.waitForFunction((before) => document.querySelectorAll(".picture circle").length > before, before);
  await touch(page, what, spot, ".loupe");
}

/** The length that stands there and its interval, mm. */
async function found(page) {
  const title = page.locator(".found h2", { hasText: FOUND }).first();
  await title.waitFor();
  const [, whole, tenth] = (await title.innerText()).match(FOUND);
  const text = await page.locator(".found", { hasText: FOUND }).first().innerText();
  const [low, high] = text.match(/between ([\d.]+) mm and ([\d.]+) mm/).slice(1).map(Number);
  return { mm: Number(`${whole}.${tenth ?? 0}`), low, high, text };
}

async function tapCard(page, what) {
  const no = button(page, "No, I tap it");
  if (await no.count()) await no.tap();
  for (const spot of what.edges) await put(page, what, spot);
  await tapOn(page, button(page, "They lie on the edges"));
}

test("a photograph goes in by the picker, taps place the card, and the length answers the question of the size", async (t) => {
  const { page, context } = await begin(t);
  const what = scene();
  await enter(page);
  await choose(page, await photograph(context, what));
  await tapCard(page, what);
  assert.equal(await heading(page), "How high does it lie?");
  await tapOn(page, button(page, "The card is level with what I measure"));
  for (const end of what.ends) await put(page, what, end);
  const { mm, low, high, text } = await found(page);
  // By construction: 92 mm.
  assert.ok(low <= LENGTH && LENGTH <= high, text);
  // At most as wide as a tap of three pixels allows at 350 to 500 mm: 2.8 %, worked out in a simulation of plane maps.
  assert.ok((high - low) / 2 <= 0.04 * LENGTH && Math.abs(mm - LENGTH) < 2, text);
  assert.match(text, /never speaks for or against a recast/);
  await button(page, "Use this length").tap();
  await page.locator(".found h2", { hasText: "It counts: " }).waitFor();
  const fragment = await page.evaluate(() => location.hash);
  assert.match(fragment, new RegExp(`/\\d+\\.${Math.round(mm * 10)}p\\d+/`));
  // The strip and the list of looks know it.
  await page.locator(".keys").getByRole("button", { name: "See finding" }).tap();
  await page.locator(".rows").waitFor();
  assert.match(await page.locator("main").innerText(), /long, by photo/);
});

test("a card that is proposed needs no taps, and the outline comes with its figures", async (t) => {
  const { page, context } = await begin(t);
  const what = scene({ tilt: 5 });
  await enter(page);
  await choose(page, await photograph(context, what));
  assert.equal(await heading(page), "Is this the card?");
  await tapOn(page, button(page, "Yes, this is the card"));
  await tapOn(page, button(page, "The card is level with what I measure"));
  for (const end of what.ends) await put(page, what, end);
  const length = await found(page);
  assert.ok(length.low <= LENGTH && LENGTH <= length.high, length.text);
  await tapOn(page, button(page, "Cut its outline"));
  const figures = page.locator(".found", { hasText: "Its figures" });
  await figures.waitFor({ timeout: 20_000 });
  const text = await figures.innerText();
  const [, long, wide] = text.match(/([\d.]+) mm long, ([\d.]+) mm at its widest/).map(Number);
  // By construction: 92 by 44 mm.
  assert.ok(Math.abs(long - LENGTH) < 0.02 * LENGTH && Math.abs(wide - 44) < 0.02 * 44 + 0.5, text);
  await page.locator(".found", { hasText: "Nearest by shape" }).waitFor();
  assert.match(await page.locator(".found", { hasText: "Nearest by shape" }).innerText(), /nothing that counts by itself/);
  // A proposal counts only once it is agreed to.
  const before = await page.evaluate(() => location.hash);
  const proposal = page.getByRole("group", { name: "If you agree, it answers" }).getByRole("button").first();
  await proposal.tap();
  assert.notEqual(await page.evaluate(() => location.hash), before);
  assert.equal(await proposal.getAttribute("aria-pressed"), "true");
  // Taken away at the toe, it is shorter; taken back, it is as it was.
  await button(page, "takes away").tap();
  await touch(page, what, what.ends[1], ".picture");
  await button(page, "Last mend back").waitFor({ timeout: 20_000 });
  const [download] = await Promise.all([page.waitForEvent("download"), button(page, "Save as drawing").tap()]);
  const svg = fs.readFileSync(await download.path(), "utf8");
  assert.match(svg, /width="\d+\.\dmm"/);
  // On paper a millimetre is 96/25.4 pixels (CSS Values and Units 4), and nothing else is printed.
  const mm = Number(svg.match(/width="(\d+\.\d)mm"/)[1]);
  await page.emulateMedia({ media: "print" });
  const { width } = await page.locator(".sheet").boundingBox();
  assert.ok(Math.abs(width - mm * 96 / 25.4) < 0.5, `${width} pixels for ${mm} mm`);
  assert.equal(await page.locator(".bar").isVisible(), false);
  await page.emulateMedia({ media: "screen" });
  // A bar of 500 tenths.
  assert.match(svg, /M50 \d+H550/);
  assert.deepEqual(await complaints(page), []);
  // A kept piece has its outline as numbers and the picture, made small.
  await tapOn(page, page.locator(".strip"));
  await button(page, "Keep this piece").tap();
  await page.waitForURL(/cabinet\.html#piece\//);
  await told(page, /^Kept:/);
  const [[, record]] = await stored(page, "states");
  assert.match(record, /^outline:( \d+){20}$/m);
  const [, digest] = record.match(/^sha256: ([0-9a-f]{64})$/m);
  assert.deepEqual((await stored(page, "photos")).map(([name]) => name), [digest]);
  await page.locator(`.photos img[src^="blob:"]`).first().waitFor();
});

test("a coin measures too, less surely", async (t) => {
  const { page, context } = await begin(t);
  const what = scene({ coin: true });
  await enter(page);
  await choose(page, await photograph(context, what));
  const no = button(page, "No, I tap it");
  if (await no.count()) await no.tap();
  await button(page, "a coin").tap();
  await button(page, "2 euro").tap();
  for (const spot of what.rim) await put(page, what, spot);
  await tapOn(page, button(page, "They lie on the rim"));
  await tapOn(page, button(page, "The coin is level with what I measure"));
  for (const end of what.ends) await put(page, what, end);
  const { low, high, text } = await found(page);
  // By construction: 92 mm.
  assert.ok(low <= LENGTH && LENGTH <= high, text);
});

test("a picture without a card is refused in a sentence", async (t) => {
  const { page, context } = await begin(t);
  const what = scene({ width: 1600, height: 1200 });
  await enter(page);
  await choose(page, await photograph(context, what));
  const no = button(page, "No, I tap it");
  if (await no.count()) await no.tap();
  // Two edges are taken for each other.
  const crossed = [0, 1, 4, 5, 2, 3, 6, 7].map((i) => what.edges[i]);
  for (const spot of crossed) await put(page, what, spot);
  await button(page, "They lie on the edges").tap();
  await page.locator(".fault", { hasText: "These points make no card" }).waitFor();
});

test("no file of a picture, and no picture in it, is said", async (t) => {
  const { page } = await begin(t);
  await enter(page);
  await page.locator("#photo-file:enabled").setInputFiles(file(Buffer.from("no picture")));
  await page.locator(".fault", { hasText: "could not be opened" }).waitFor();
  assert.equal(await heading(page), "Measure in a photo");
});

test("the ruler is approximate until it is set, and stays set on this device", async (t) => {
  const { page } = await begin(t);
  await enter(page);
  await tapOn(page, button(page, "A ruler on the screen"));
  const says = page.locator("main p[role=status]", { hasText: /Approximate|Set for/ });
  assert.match(await says.innerText(), /^Approximate/);
  assert.match(await page.locator("main").innerText(), /Never lay the piece on the glass/);
  await button(page, "Longer").tap();
  await button(page, "It is as long as the card").tap();
  await page.locator("main p[role=status]", { hasText: "Set for this screen" }).waitFor();
  assert.match(await page.evaluate(() => localStorage.getItem("pressmark.ruler")), /^2050 /);
  await page.reload();
  await heard(page, "usable");
  await tapOn(page, button(page, "A ruler on the screen"));
  await page.locator("main p[role=status]", { hasText: "Set for this screen" }).waitFor();
});

test("with the server gone it works as well, by keyboard alone", async (t) => {
  const { page, server, context } = await begin(t);
  await openAndKeep(page, server.address);
  const what = scene({ tilt: 5 });
  const picture = await photograph(context, what);
  await server.stop();
  await page.reload();
  await heard(page, "usable");
  await heard(page, "whole-ready");
  const press = async (name) => {
    await button(page, name).focus();
    await page.keyboard.press("Enter");
  };
  let from = await heading(page);
  await press("Measure in a photo");
  await moved(page, from);
  await choose(page, picture);
  await press("Yes, this is the card");
  await moved(page, "Is this the card?");
  await press("The card is level with what I measure");
  await moved(page, "How high does it lie?");
  for (const which of [0, 1]) {
    await press("Point in the middle");
    // In tenths of a pixel of the working picture.
    const by = 10 * WORKING / what.width;
    const wanted = what.ends[which].map((v) => Math.round(v * by / 10));
    const at = () => page.locator(".loupe").evaluate((svg) => {
      const [left, top, width, height] = svg.getAttribute("viewBox").split(" ").map(Number);
      return [Math.round((left + width / 2) / 10), Math.round((top + height / 2) / 10)];
    });
    for (const [step, label] of [[100, "100 pixels"], [10, "10 pixels"], [1, "1 pixel"]]) {
      while (await page.locator(".step").innerText() !== label) await press(await page.locator(".step").innerText());
      for (const [axis, less, more] of [[0, "Left", "Right"], [1, "Up", "Down"]]) {
        const far = wanted[axis] - (await at())[axis];
        for (let i = 0; i < Math.floor((Math.abs(far) + (step > 1 ? step / 2 : 0)) / step); i += 1) await press(far < 0 ? less : more);
      }
    }
  }
  const { low, high, text } = await found(page);
  assert.ok(low <= LENGTH && LENGTH <= high, text);
  await press("Use this length");
  await page.locator(".found h2", { hasText: "It counts: " }).waitFor();
});

test("a turned picture stands upright, and nothing that is kept of it says where it was taken", async (t) => {
  const before = (page) => page.addInitScript(() => {
    globalThis.blobs = [];
    const address = URL.createObjectURL.bind(URL);
    URL.createObjectURL = (blob) => {
      globalThis.blobs.push(blob);
      return address(blob);
    };
    // What the cabinet will ask is asked here by hand.
    let open;
    Object.defineProperty(globalThis, "pressmarkDarkroom", {
      set(made) { open = made; },
      get() { return async (tell) => (globalThis.room = await open(tell)); },
    });
  });
  const { page, context } = await begin(t, { before });
  const what = scene({ width: 3200, height: 2400, tilt: 5 });
  const picture = await photograph(context, what, { turned: 6 });
  for (const word of ["Exif", "N\0\0\0"]) assert.ok(picture.includes(word), "the file says where it was taken");
  await enter(page);
  await choose(page, picture);
  assert.equal(await page.locator(".picture").getAttribute("viewBox"), "0 0 22000 16500");
  const kept = await page.evaluate(async () => {
    const [, small] = await globalThis.room.kept();
    const text = async (blob) => String.fromCharCode(...new Uint8Array(await blob.arrayBuffer()).subarray(0, 4000));
    const size = await createImageBitmap(small);
    return { shown: await text(globalThis.blobs.at(-1)), small: await text(small), size: [size.width, size.height], bytes: small.size };
  });
  for (const head of [kept.shown, kept.small]) {
    assert.ok(head.startsWith("\u00ff\u00d8"), "a JPEG");
    // Marker FF E1 begins EXIF: T.81 and CIPA DC-008.
    assert.ok(!head.includes("Exif") && !head.includes("\u00ff\u00e1"), "no EXIF");
  }
  assert.deepEqual(kept.size, [1280, 960]);
  assert.ok(kept.bytes < 400_000, `${kept.bytes} bytes`);
});
