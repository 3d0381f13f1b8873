// A cabinet of many pieces, and how long a search in it takes.
import { createHash } from "node:crypto";
import { record, zipped } from "./cabinet.mjs";

/** A file of so many invented pieces with two photographs each, every photograph another. */
export function many(pieces, photoBytes) {
  const all = [];
  const photos = [];
  for (let n = 1; n <= pieces; n += 1) {
    let parts = `\n[measurement]\nwhat: length\nvalue: ${30 + (n * 7) % 120} mm\nplus or minus: 1 mm\nmethod: ruler\n\n[mark]\ntext: No ${n % 9}\n`;
    for (let p = 0; p < 2; p += 1) {
      const jpeg = Buffer.alloc(photoBytes, n % 251);
      jpeg.set([0xff, 0xd8, 0xff], 0);
      jpeg.writeUInt32LE(2 * n + p, 8);
      const digest = createHash("sha256").update(jpeg).digest("hex");
      photos.push([`photos/${digest}.jpg`, jpeg]);
      parts += `\n[photograph]\nsha256: ${digest}\nview: ${p ? "sole" : "overall"}\n`;
    }
    const answers = Array.from({ length: 15 }, (_, q) => `${q + 1}.${1 + (n * (q + 3)) % 5}`).join("/");
    const lines = `number: ${1990 + Math.floor(n / 999)}.${1 + n % 999}\nclass: pressing iron\nkind: ${["flat iron", "swan", "trivet"][n % 3]}\n` +
      `condition: worn at the toe, a chip at the heel, some old paint\ndescription: ${"a small iron of cast metal with a plain bar ".repeat(6)}\n` +
      `location: shelf ${n % 40}\nanswers: 1/irons/${answers}/f~abcd\n`;
    all.push([`records/${n}.txt`, Buffer.from(record(n, lines, parts))]);
  }
  return zipped([...all, ...photos]);
}

/** From the letter typed to the list drawn, in the page's own time, ms. */
export const searched = (page, words) => page.evaluate(async (words) => {
  const field = document.querySelector("input[type=search]");
  const from = performance.now();
  field.value = words;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
  return performance.now() - from;
}, words);
