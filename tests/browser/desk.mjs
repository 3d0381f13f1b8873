// What the tests of the pack desk share: a ZIP in and out, and signatures, written here by Node's own means so that they hold
// the page against something that is not the page.
import assert from "node:assert/strict";
import crypto from "node:crypto";
import fs from "node:fs";
import zlib from "node:zlib";

/** CRC-32 as ZIP has it, bit by bit. */
function crc32(bytes) {
  let crc = ~0;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return ~crc >>> 0;
}

/** Files of a ZIP by name. */
export function unzipped(bytes) {
  const end = bytes.lastIndexOf("PK\x05\x06", undefined, "latin1");
  assert.ok(end >= 0, "it is a ZIP");
  const files = new Map();
  let at = bytes.readUInt32LE(end + 16);
  for (let left = bytes.readUInt16LE(end + 10); left > 0; left -= 1) {
    const [method, packed] = [bytes.readUInt16LE(at + 10), bytes.readUInt32LE(at + 20)];
    const [name, extra, remark] = [28, 30, 32].map((from) => bytes.readUInt16LE(at + from));
    const local = bytes.readUInt32LE(at + 42);
    const from = local + 30 + bytes.readUInt16LE(local + 26) + bytes.readUInt16LE(local + 28);
    const data = bytes.subarray(from, from + packed);
    files.set(bytes.toString("utf8", at + 46, at + 46 + name), method === 8 ? zlib.inflateRawSync(data) : data);
    at += 46 + name + extra + remark;
  }
  return files;
}

/** A deflated ZIP of files, as the programs of computers make them. */
export function zipped(files) {
  const parts = [];
  const list = [];
  let offset = 0;
  for (const [name, data] of files) {
    const packed = zlib.deflateRawSync(data);
    const head = Buffer.alloc(26);
    head.writeUInt16LE(20, 0);
    head.writeUInt16LE(0x800, 2);
    head.writeUInt16LE(8, 4);
    head.writeUInt32LE(crc32(data), 10);
    head.writeUInt32LE(packed.length, 14);
    head.writeUInt32LE(data.length, 18);
    head.writeUInt16LE(Buffer.byteLength(name), 22);
    const local = Buffer.concat([Buffer.from("PK\x03\x04", "latin1"), head, Buffer.from(name), packed]);
    const rest = Buffer.alloc(14);
    rest.writeUInt32LE(offset, 10);
    list.push(Buffer.concat([Buffer.from("PK\x01\x02\x14\x00", "latin1"), head, rest, Buffer.from(name)]));
    parts.push(local);
    offset += local.length;
  }
  const end = Buffer.alloc(22);
  end.write("PK\x05\x06", "latin1");
  end.writeUInt16LE(list.length, 8);
  end.writeUInt16LE(list.length, 10);
  end.writeUInt32LE(Buffer.concat(list).length, 12);
  end.writeUInt32LE(offset, 16);
  return Buffer.concat([...parts, ...list, end]);
}

/** A key of an invented club: its public half as minisign writes it, and how it signs (the newer form: of BLAKE2b-512). */
export function club() {
  const { publicKey, privateKey } = crypto.generateKeyPairSync("ed25519");
  const id = crypto.randomBytes(8);
  const raw = publicKey.export({ format: "der", type: "spki" }).subarray(-32);
  const sign = (bytes) => crypto.sign(null, bytes, privateKey);
  return {
    key: Buffer.concat([Buffer.from("Ed"), id, raw]).toString("base64"),
    signs(bytes) {
      const signature = sign(crypto.createHash("blake2b512").update(bytes).digest());
      const remark = "An invented club";
      return [
        "untrusted comment: signature of an invented club",
        Buffer.concat([Buffer.from("ED"), id, signature]).toString("base64"),
        `trusted comment: ${remark}`,
        sign(Buffer.concat([signature, Buffer.from(remark)])).toString("base64"),
        "",
      ].join("\n");
    },
  };
}

export const file = (name, bytes) => ({ name, mimeType: "application/octet-stream", buffer: Buffer.from(bytes) });

/** The bytes of what a tap downloads, and its name. */
export async function downloaded(page, tap) {
  const [download] = await Promise.all([page.waitForEvent("download"), tap()]);
  return { name: download.suggestedFilename(), bytes: fs.readFileSync(await download.path()) };
}

/** The starter as sheets, with other texts in some of them. */
export async function starter(page, changes = []) {
  const { bytes } = await downloaded(page, () => page.getByRole("button", { name: "Starter as sheets" }).tap());
  const files = unzipped(bytes);
  for (const [name, from, to] of changes) {
    const text = files.get(name).toString();
    assert.ok(text.includes(from), `${name} holds ${from}`);
    files.set(name, Buffer.from(text.replace(from, to)));
  }
  return files;
}

/** Hands files over at the desk and waits until these were looked at: what was found before goes first. */
export async function handOver(page, name, bytes) {
  const report = page.locator("h2", { hasText: "What was found" });
  const before = await report.count() > 0 ? await report.elementHandle() : null;
  await page.locator("#desk-files").setInputFiles(file(name, bytes));
  await page.waitForFunction((before) => !before?.isConnected, before);
  await report.waitFor();
}

/** A finished pack made of the starter at the desk; the desk must be open. */
export async function made(page, changes = []) {
  const zip = zipped(await starter(page, changes));
  await handOver(page, "ours.zip", zip);
  const key = page.getByRole("button", { name: "Download the pack" });
  await page.getByText("No faults. This is a pack.").waitFor();
  return downloaded(page, () => key.tap());
}

/** The pages of packs for `shots.mjs`: the fragment, and what is done there. A pack that was tried stays open. */
export const SCREENS = {
  desk: ["#desk", async () => {}],
  "desk-faults": ["#desk", async (page) => {
    const slips = [["pack.csv", "edition,2", "edition,x"], ["pack.csv", "language,", "langage,"], ["kinds.csv", "Round tea", "<b>Round tea"]];
    await handOver(page, "ours.zip", zipped(await starter(page, slips)));
    await page.locator("h2", { hasText: "What was found" }).scrollIntoViewIfNeeded();
  }],
  "desk-report": ["#desk", async (page) => {
    await handOver(page, "ours.zip", zipped(await starter(page)));
    await page.locator("h2", { hasText: "What was found" }).scrollIntoViewIfNeeded();
  }],
  packs: ["#packs", async (page) => { await page.getByText("No guest pack is on this device.").waitFor(); }],
  "guest-first": ["#desk", async (page) => {
    await SCREENS["desk-report"][1](page);
    await page.getByRole("button", { name: "Try it" }).tap();
    await page.locator("#guest").waitFor();
    await page.waitForFunction(() => globalThis.usable);
  }],
  "packs-guest": ["#desk", async (page) => {
    await SCREENS["guest-first"][1](page);
    await page.goto(new URL("book.html#packs", page.url()).href);
    await page.getByText("Open now.").waitFor();
  }],
};
