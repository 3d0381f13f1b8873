// Drawings as files: what is saved is a drawing that any program can open, and nothing leaves the device on the way.
import assert from "node:assert/strict";
import fs from "node:fs";
import { test } from "node:test";
import { beginBook } from "./book.mjs";
import { button } from "./walk.mjs";

/** Presses a key and returns what was handed over: name and bytes. */
async function saved(page, key) {
  const [download] = await Promise.all([page.waitForEvent("download"), button(page, key).tap()]);
  return { name: download.suggestedFilename(), bytes: fs.readFileSync(await download.path()) };
}

test("as SVG: sound, complete in itself, and the same strokes as on the page", async (t) => {
  const { page, context } = await beginBook(t, "#irons/kind/11");
  const { name, bytes } = await saved(page, "Save as SVG");
  assert.equal(name, "irons-wire-grip.svg");
  const text = bytes.toString();
  const shown = await page.locator(".pieces .draw path").evaluateAll((all) => all.map((path) => path.getAttribute("d")));
  // Read where no policy of ours forbids it.
  const other = await context.newPage();
  const read = await other.evaluate((text) => {
    const file = new DOMParser().parseFromString(text, "image/svg+xml");
    return {
      fault: file.querySelector("parsererror")?.textContent ?? "",
      strokes: [...file.querySelectorAll("path")].map((path) => path.getAttribute("d")),
      outside: [...file.querySelectorAll("*")].filter((one) => one.hasAttribute("class") || one.hasAttribute("href")).length,
      title: file.querySelector("title").textContent, says: file.querySelector("desc").textContent,
    };
  }, text);
  assert.equal(read.fault, "");
  assert.ok(shown.length > 4);
  assert.deepEqual(read.strokes, shown);
  assert.equal(read.outside, 0, "no style sheet, no link");
  assert.equal(read.title, "Bent wire bow: a typical one");
  assert.match(read.says, /from the side.*Small pressing irons, \d{4}-\d{2}-\d{2}, /i);
});

test("as PNG: of the same drawing, on white, large enough to print", async (t) => {
  const { page, asked, server } = await beginBook(t, "#irons/kind/11");
  const { name, bytes } = await saved(page, "Save as PNG");
  assert.equal(name, "irons-wire-grip.png");
  // Published: PNG specification, third edition, 5.2 and 11.2.1: signature, then the size in the first chunk.
  assert.deepEqual([...bytes.subarray(0, 8)], [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  const size = [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
  assert.ok(size[0] >= 1600 && size[1] >= 480, size.join(" x "));
  const ink = await page.evaluate(async (bytes) => {
    const picture = await createImageBitmap(new Blob([new Uint8Array(bytes)], { type: "image/png" }));
    const canvas = new OffscreenCanvas(picture.width, picture.height);
    const context = canvas.getContext("2d");
    context.drawImage(picture, 0, 0);
    const { data } = context.getImageData(0, 0, picture.width, picture.height);
    let dark = 0;
    let white = 0;
    let clear = 0;
    for (let at = 0; at < data.length; at += 4) {
      if (data[at + 3] < 255) clear += 1;
      else if (data[at] + data[at + 1] + data[at + 2] < 200) dark += 1;
      else if (data[at] + data[at + 1] + data[at + 2] > 760) white += 1;
    }
    const all = data.length / 4;
    return { dark: dark / all, white: white / all, clear };
  }, [...bytes]);
  assert.equal(ink.clear, 0, "white, not see-through");
  assert.ok(ink.dark > 0.003 && ink.dark < 0.2, `${ink.dark} of it is dark`);
  assert.ok(ink.white > 0.5, `${ink.white} of it is white`);
  const sent = asked.filter((url) => !url.startsWith(server.address) && !url.startsWith("blob:"));
  assert.deepEqual(sent, []);
  assert.equal(await page.locator(".told").count(), 0, "nothing went wrong");
});

test("where pictures are refused it says so, and the page goes on", async (t) => {
  const { page } = await beginBook(t, "#irons/kind/11", {
    before: (page) => page.addInitScript(() => {
      HTMLImageElement.prototype.decode = () => Promise.reject(new DOMException("no", "EncodingError"));
    }),
  });
  await button(page, "Save as PNG").tap();
  await page.locator(".told", { hasText: "does not let pages hand over files" }).waitFor();
  assert.equal((await saved(page, "Save as SVG")).name, "irons-wire-grip.svg");
});
