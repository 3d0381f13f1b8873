// What the tests of the cabinet share.
import { createHash } from "node:crypto";
import fs from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { heard, visit } from "./harness.mjs";
import { button, key } from "./walk.mjs";

export const DEEP = process.env.PRESSMARK_DEEP === "1";
export const PHOTO = fileURLToPath(new URL("../fixtures/picture/photo.jpg", import.meta.url));

/** Opens the cabinet at a fragment and waits until its pieces stand there. */
export async function openCabinet(page, server, fragment = "") {
  await page.goto("about:blank");
  await page.goto(`${server.address}cabinet.html${fragment}`);
  await ready(page);
}

/** Waits until the store has been read. */
export async function ready(page) {
  await heard(page, "usable");
  await page.waitForFunction(() => !/Opening the (cabinet|record)\./.test(document.querySelector("main")?.innerText ?? "Opening the cabinet."), null, { polling: 30 });
}

/** A visit with the cabinet open; fails when the page complained of anything. */
export async function beginCabinet(test, options = {}) {
  const all = await visit(test, { quiet: true, ...options });
  await openCabinet(all.page, all.server);
  return all;
}

/** What stands in the notice. */
export const notice = (page) => page.locator(".told[role=status]");

/** Waits until something is said. */
export const told = (page, says) => notice(page).filter({ hasText: says }).first().waitFor();

/** Writes a record with these fields by label and saves it; comes back when it is acknowledged. */
export async function write(page, fields) {
  await key(page, "Write a record").tap();
  await page.getByLabel(/^Title/).waitFor();
  for (const [label, text] of Object.entries(fields)) await page.getByLabel(label, { exact: false }).first().fill(text);
  await button(page, "Save").tap();
  await told(page, /^Saved:/);
}

/** All of a store of the database, straight from the browser: names and values. */
export const stored = (page, store) => page.evaluate((store) => new Promise((resolve, reject) => {
  const open = indexedDB.open("pressmark");
  open.onerror = () => reject(open.error);
  open.onsuccess = () => {
    const db = open.result;
    const names = db.transaction(store).objectStore(store).getAllKeys();
    names.onsuccess = () => {
      const values = db.transaction(store).objectStore(store).getAll();
      values.onsuccess = () => {
        db.close();
        resolve(names.result.map((name, at) => [name, typeof values.result[at] === "string" ? values.result[at] : null]));
      };
    };
  };
}), store);

/** The file that comes when a key is pressed, as bytes. */
export async function download(page, press) {
  const [file] = await Promise.all([page.waitForEvent("download"), press()]);
  const place = await file.path();
  return { name: file.suggestedFilename(), bytes: fs.readFileSync(place), place };
}

/** The entries of a stored ZIP by their names: told by an own reader, not by the program. */
export function entries(zip) {
  const out = new Map();
  let at = 0;
  while (zip.readUInt32LE(at) === 0x04034b50) {
    const size = zip.readUInt32LE(at + 18);
    const name = zip.readUInt16LE(at + 26);
    const extra = zip.readUInt16LE(at + 28);
    const from = at + 30 + name + extra;
    out.set(zip.subarray(at + 30, at + 30 + name).toString(), zip.subarray(from, from + size));
    at = from + size;
  }
  return out;
}

/** The table of CRC-32 (ISO/IEC 3309). */
const CRC = Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let bit = 0; bit < 8; bit += 1) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c >>> 0;
});
const crc32 = (bytes) => {
  let c = 0xffffffff;
  for (const byte of bytes) c = CRC[(c ^ byte) & 255] ^ (c >>> 8);
  return (c ^ 0xffffffff) >>> 0;
};

/** A stored ZIP of entries. */
export function zipped(all) {
  const parts = [];
  const list = [];
  let offset = 0;
  for (const [name, data] of all) {
    const common = Buffer.alloc(26);
    common.writeUInt16LE(10, 0);
    common.writeUInt16LE(0x800, 2);
    common.writeUInt16LE(0x5b7d, 8);
    common.writeUInt32LE(crc32(data), 10);
    common.writeUInt32LE(data.length, 14);
    common.writeUInt32LE(data.length, 18);
    common.writeUInt16LE(Buffer.byteLength(name), 22);
    parts.push(Buffer.from("PK\x03\x04", "latin1"), common, Buffer.from(name), data);
    const place = Buffer.alloc(14);
    place.writeUInt32LE(offset, 10);
    list.push(Buffer.from("PK\x01\x02\x0a\x00", "latin1"), common, place, Buffer.from(name));
    offset += 30 + Buffer.byteLength(name) + data.length;
  }
  const directory = Buffer.concat(list);
  const end = Buffer.alloc(22);
  end.write("PK\x05\x06", 0, "latin1");
  end.writeUInt16LE(all.length, 8);
  end.writeUInt16LE(all.length, 10);
  end.writeUInt32LE(directory.length, 12);
  end.writeUInt32LE(offset, 16);
  return Buffer.concat([...parts, directory, end]);
}

/** A record as the file has it: invented. */
export function record(n, lines = "", parts = "") {
  const hex = n.toString(16).padStart(12, "0");
  return `Pressmark record, format 1\nid: 11111111-2222-4333-8444-${hex}\nversion: aaaaaaaa-bbbb-4ccc-8ddd-${hex}\n` +
    `saved: 2026-10-03 14:05:09.250 UTC\ndevice: test\n\ntitle: Iron ${n}\n${lines}${parts}`;
}

/** Chooses a file by the key with this label. */
export async function choose(page, label, name, buffer, mimeType = "application/zip") {
  await page.getByLabel(label, { exact: true }).setInputFiles(typeof name === "string" && buffer ? { name, mimeType, buffer } : name);
}

/** Takes a file of a cabinet in through the page. */
export async function takeIn(page, server, zip) {
  await openCabinet(page, server, "#in");
  const place = path.join(process.env.TMPDIR ?? "/tmp", `pressmark-in-${process.pid}-${Date.now()}.zip`);
  fs.writeFileSync(place, zip);
  try {
    await choose(page, "Choose a ZIP", place);
    await button(page, "Take it in").tap({ timeout: 120_000 });
    await notice(page).filter({ hasText: /^Taken in/ }).first().waitFor({ timeout: 120_000 });
  } finally {
    fs.rmSync(place);
  }
}

const FULL = (n, digest) => record(n, `number: 2026.${n}
class: pressing iron
kind: ${n % 2 ? "Toy flat iron, bow of bent wire" : "Swan-shaped iron"}
materials: cast iron; wire
condition: A chip at the left heel.
| The sole is worn.
date: 1850 to 1930, most likely about 1885
date as edtf: 1850/1930
maker: a foundry, invented
location: shelf ${n}
cautions: Old paint may hold lead.
finding: What: Toy flat iron, likely, 8 in 10
| When: 1865 to 1905, even chances
answers: 1/irons/3.1/5.${n}/f~abcd
pack sha256: older
`, `
[acquired]
how: bought
date: 2026-05-02
with: a dealer, invented
price: 12.50 EUR

[measurement]
what: length
value: ${60 + 7 * n} mm
plus or minus: 0.8 mm
method: ruler

[mark]
text: No ${n}
place: upper face

[valuation]
low: 20.00 USD
high: 45.00 USD
basis: fair market
date: 2021-10-03
source: three sales, invented
${digest ? `
[photograph]
sha256: ${digest}
view: overall
` : ""}`);

/** A file of invented pieces that fills every screen: a photograph, a conflict, a series, pieces in every state. */
export function furnished() {
  const jpeg = fs.readFileSync(PHOTO);
  const digest = createHash("sha256").update(jpeg).digest("hex");
  const all = [1, 2, 3, 5, 7].map((n) => [`records/${n}.txt`, Buffer.from(FULL(n, n % 2 ? digest : ""))]);
  // The first piece once more, changed elsewhere.
  const other = FULL(1, digest).replace(/^version: .*$/m, "version: aaaaaaaa-bbbb-4ccc-8ddd-0000000000ff").replace("Iron 1", "Iron one");
  all.push(["records/other.txt", Buffer.from(other)]);
  all.push(["records/wanted.txt", Buffer.from(record(20, "state: wanted\nkind: Swan-shaped iron\n"))]);
  all.push(["records/passed.txt", Buffer.from(record(21, "state: passed over\n"))]);
  all.push([`photos/${digest}.jpg`, jpeg]);
  return zipped(all);
}

const PIECE = "11111111-2222-4333-8444-000000000003";
const DISPUTED = "11111111-2222-4333-8444-000000000001";

/** Every screen of a furnished cabinet: its fragment, and what is done there. */
export const SCREENS = {
  "cabinet": ["", async () => {}],
  "cabinet-wall": ["", (page) => button(page, "Pictures").tap()],
  "cabinet-filters": ["", (page) => button(page, "Order, filters").tap()],
  "cabinet-several": ["", async (page) => {
    await button(page, "Several").tap();
    await page.locator(".piece-row").first().tap();
  }],
  "cabinet-piece": [`#piece/${PIECE}`, (page) => button(page, "Show the money").tap()],
  "cabinet-disputed": [`#piece/${DISPUTED}`, async () => {}],
  "cabinet-edit": [`#edit/${PIECE}`, async (page) => {
    await page.getByLabel(/^Number/).fill("nonsense");
    await button(page, "Save").tap();
    await page.locator(".fault").waitFor();
  }],
  "cabinet-series": ["#series", async () => {}],
  "cabinet-out": ["#out", async () => {}],
  "cabinet-in": ["#in", async () => {}],
  "cabinet-table": ["#in", async (page) => {
    await choose(page, "Choose a table", "mine.csv", Buffer.from("name;weight;shelf\nSwan;212;A\n"), "text/csv");
    await button(page, "Take 1 row").waitFor();
  }],
  "cabinet-labels": ["#paper/labels", async () => {}],
  "cabinet-schedule": ["#paper/schedule", (page) => page.locator(".ruled").first().waitFor()],
  "cabinet-annual": ["#paper/annual", (page) => page.locator(".ruled").first().waitFor()],
  "cabinet-heirs": ["#paper/heirs", (page) => page.locator(".care").first().waitFor()],
  "cabinet-opinion": [`#paper/opinion/${PIECE}`, (page) => page.locator(".blank").first().waitFor()],
  "cabinet-sale": [`#paper/sale/${PIECE}`, async () => {}],
};
