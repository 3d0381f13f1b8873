// Packs of other people: kept on this device, opened in place of the bundled one, made at the desk. Loaded when one is
// wanted. Whether bytes are a pack, and what a signature says, www/desk.js tells; nothing of a pack ever becomes HTML.
//
// Exported:
//   current()               promise of { core, book } of the pack that is open, or of nothing: then it is the bundled one
//   run(what, value, tell)  an errand of the guide, with a text or with files; is told tell(what, value): "done" per mille, "told" blocks and the name
//                           of the finished file behind a line break, "listed" packs, "failed" or "well" a sentence
//
// A pack that is kept: digest (SHA-256 of the file, its name in the store), id, name, edition, licence, signed ("signed" or
// "unsigned"), says, signature, source (its address on this site, or ""), bytes. Keys of clubs are kept apart: a pack that is
// removed does not take with it how its club is known.
const STORE = "pressmark-packs";
/** Digest of the pack that is open. www/early.js and www/boot.js look at it too. */
const CHOICE = "pressmark.pack";
/** Bytes of a file that is looked at. More is no pack. */
const LARGEST = 24 << 20;

const boot = document.getElementById("boot").dataset;
const framed = window.top !== window;

// ---- The store

function database() {
  return new Promise((done, fail) => {
    const asked = indexedDB.open(STORE, 1);
    asked.onupgradeneeded = () => {
      asked.result.createObjectStore("packs", { keyPath: "digest" });
      asked.result.createObjectStore("keys", { keyPath: "id" });
    };
    asked.onsuccess = () => done(asked.result);
    asked.onerror = asked.onblocked = () => fail(new Error("This browser does not let packs be kept on this device."));
  });
}

/** What `work` asked of a store, once the transaction is through. Changes wait their turn among all windows. */
async function store(name, work, changes = false) {
  const end = changes ? await globalThis.pressmarkTurn() : () => {};
  const base = await database();
  try {
    return await new Promise((done, fail) => {
      const through = base.transaction(name, changes ? "readwrite" : "readonly", { durability: "strict" });
      const asked = work(through.objectStore(name));
      through.oncomplete = () => done(asked.result);
      through.onabort = through.onerror = () => fail(new Error("There is no room on this device for the pack."));
    });
  } finally {
    base.close();
    end();
  }
}

const every = () => store("packs", (packs) => packs.getAll());

function chosen() {
  try {
    return localStorage.getItem(CHOICE) ?? "";
  } catch {
    return "";
  }
}

function choose(digest) {
  if (digest) localStorage.setItem(CHOICE, digest);
  else localStorage.removeItem(CHOICE);
}

async function digestOf(bytes) {
  if (!globalThis.crypto?.subtle) return undefined;
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** Whether the bytes are those that were kept. Without digests the readers' own checks must do. */
async function sound(pack) {
  const digest = await digestOf(pack.bytes);
  return digest === undefined || digest === pack.digest;
}

// ---- Opening

let coming;
function desk() {
  coming ??= globalThis.pressmarkDeskRoom().then(() => globalThis.pressmarkDesk()).catch((reason) => {
    coming = undefined;
    console.info(reason);
    throw new Error("What checks packs could not be loaded: there seems to be no connection.");
  });
  return coming;
}

/** Checks a pack and, outside a frame, keeps it. */
async function take(bytes, signature, key, source) {
  const known = framed ? [] : await store("keys", (keys) => keys.getAll());
  const lines = known.map((club) => `${club.id} ${club.key}`).join("\n");
  const told = (await (await desk()).ask("open", { bytes, signature, key, known: lines })).split("\n");
  if (told.length === 1) throw new Error(told[0]);
  const [signed, id, name, edition, licence, digest, club, says] = told;
  if (signed === "damaged") throw new Error(`${name}: ${says} It was not opened.`);
  const pack = { digest, id, name, edition, licence, signed, says, signature: signature ?? "", source, bytes };
  if (!framed) {
    await store("packs", (packs) => packs.put(pack), true);
    if (club) await store("keys", (keys) => keys.put({ id, key: club }), true);
  }
  return pack;
}

const SIGNATURE = /^untrusted comment:/;

async function fetched(address) {
  const answer = await fetch(address, { cache: "no-cache" });
  if (!answer.ok) return undefined;
  const bytes = await answer.arrayBuffer();
  return bytes.byteLength <= LARGEST ? new Uint8Array(bytes) : undefined;
}

/** The pack at an address within this site; the one that was kept from there when there is no connection. */
async function from(address, key) {
  const base = new URL("./", document.baseURI);
  let url;
  try {
    url = new URL(address.trim(), base);
  } catch {
    // Below.
  }
  if (!url?.href.startsWith(base.href) || url.href === base.href) {
    throw new Error("A pack is opened from this site only: its address here is the name of a file, such as club.pack.");
  }
  const source = url.href.slice(base.href.length);
  const before = framed ? undefined : (await every()).filter((pack) => pack.source === source).at(-1);
  let bytes, signature;
  try {
    [bytes, signature] = await Promise.all([fetched(url), fetched(`${url}.minisig`)]);
  } catch {
    if (before && await sound(before)) return before;
    throw new Error("The pack could not be loaded: there seems to be no connection.");
  }
  if (!bytes) throw new Error(`There is no pack at this address of the site: ${source}.`);
  // A site may answer with a page of its own where there is no file.
  const text = signature && new TextDecoder().decode(signature);
  const signed = text && SIGNATURE.test(text) ? text : undefined;
  const same = before && !key && before.signature === (signed ?? "") && before.digest === await digestOf(bytes);
  return same ? before : take(bytes, signed, key, source);
}

/** Out of files that were picked: a pack, and its signature where that was picked with it. */
async function picked(files, key) {
  let bytes, signature;
  for (const file of files) {
    if (file.size > LARGEST) throw new Error("This file is larger than a pack can be.");
    const data = new Uint8Array(await file.arrayBuffer());
    const text = data.length < 4096 ? new TextDecoder().decode(data) : "";
    if (SIGNATURE.test(text)) signature = text;
    else if (bytes) throw new Error("Pick one pack at a time, and its .minisig with it if there is one.");
    else bytes = data;
  }
  if (!bytes) throw new Error("That was a signature alone. Pick the pack and its .minisig together.");
  return take(bytes, signature, key, "");
}

// ---- What is open

/** The halves as they stand in the file (crates/pack/src/whole.rs), which was checked when it was taken. */
function halves(bytes) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const core = 19 + view.getUint8(10);
  const book = core + view.getUint32(11, true);
  return { core: bytes.slice(core, book), book: bytes.slice(book) };
}

/** Says above the page what is open, with the ways on from there. */
function said(sentence, back) {
  const line = Object.assign(document.createElement("aside"), { id: "guest" });
  line.setAttribute("aria-label", "Which pack is open");
  const says = Object.assign(document.createElement("p"), { textContent: sentence });
  const packs = Object.assign(document.createElement("a"), { href: "book.html#packs", textContent: "Packs" });
  line.append(says, packs);
  if (back) {
    const key = Object.assign(document.createElement("button"), { type: "button", textContent: "Close it" });
    key.addEventListener("click", () => leave());
    line.append(key);
  }
  document.getElementById("app").before(line);
}

/** Back to the bundled pack. What stands behind the address belongs to the other one. */
function leave() {
  choose("");
  location.replace(location.pathname);
}

/** The pack that is open, or a sentence why it is the bundled one. */
async function wanted() {
  const address = new URLSearchParams(location.search).get("pack");
  if (address !== null) {
    const pack = await from(address, "");
    if (!framed) choose(pack.digest);
    return pack;
  }
  const digest = framed ? "" : chosen();
  if (!digest) return undefined;
  const pack = await store("packs", (packs) => packs.get(digest));
  if (!pack) throw new Error("The guest pack that was open is no longer on this device.");
  if (!await sound(pack)) throw new Error(`The guest pack ${pack.name} on this device is damaged. Open its file again.`);
  return pack;
}

export async function current() {
  if (location.hash.length < 2) document.getElementById("held").textContent = "Opening the guest pack\u2026";
  try {
    const pack = await wanted();
    if (!pack) return undefined;
    boot.pack = pack.digest;
    said(`Guest pack: ${pack.name}`, true);
    return halves(pack.bytes);
  } catch (reason) {
    console.info(reason);
    try {
      choose("");
    } catch {
      // Where nothing can be kept, nothing is chosen.
    }
    said(`${reason.message} This is the bundled guide.`, false);
    return undefined;
  }
}

// ---- Errands of the guide

let finished;
const typed = (id) => document.getElementById(id)?.value.trim() ?? "";

function save(name, bytes) {
  const address = URL.createObjectURL(new Blob([bytes], { type: "application/octet-stream" }));
  Object.assign(document.createElement("a"), { href: address, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** Digest, name, edition, licence, signature and address of each, with a word whether it is open or damaged. */
async function listed() {
  const open = chosen();
  const lines = [];
  for (const pack of await every()) {
    const word = await sound(pack) ? (pack.digest === open ? "open" : "") : "damaged";
    const parts = [pack.digest, pack.name, pack.edition, pack.licence, word, pack.says, pack.source];
    lines.push(parts.map((part) => String(part).replace(/[\u0000-\u001f]/g, " ")).join("\u001f"));
  }
  return lines.join("\n");
}

const ERRANDS = {
  async starter(sheets) {
    save(sheets ? "starter-sheets.zip" : "starter-texts.zip", await (await desk()).ask("starter", Boolean(sheets)));
  },
  async work(files, tell) {
    finished = undefined;
    if (files.reduce((sum, file) => sum + file.size, 0) > LARGEST) throw new Error("That is larger than a pack can be.");
    tell("done", 0);
    const { told, file, bytes } = await (await desk()).ask("work", files, (mille) => tell("done", mille));
    if (file) finished = { file, bytes };
    tell("told", `${file}\n${told}`);
  },
  async save() {
    if (finished) save(finished.file, finished.bytes);
  },
  async try() {
    if (finished) await ERRANDS.use((await take(finished.bytes, undefined, "", "")).digest);
  },
  async list(_, tell) {
    tell("listed", await listed());
  },
  async open(files, tell) {
    const pack = await picked(files, typed("pack-key"));
    tell("listed", await listed());
    tell("well", `${pack.name} is on this device now. ${pack.says}`);
  },
  async fetch(_, tell) {
    const pack = await from(typed("pack-address"), typed("pack-key"));
    tell("listed", await listed());
    tell("well", `${pack.name} is on this device now. ${pack.says}`);
  },
  async use(digest) {
    choose(digest);
    location.href = "./";
  },
  async remove(digest, tell) {
    await store("packs", (packs) => packs.delete(digest), true);
    // The page still shows what is gone.
    if (chosen() === digest) {
      choose("");
      location.reload();
    } else {
      tell("listed", await listed());
      tell("well", "The pack is no longer on this device.");
    }
  },
};

export async function run(what, value, tell) {
  try {
    await ERRANDS[what](value, tell);
  } catch (reason) {
    console.info(reason);
    tell("failed", reason.message);
  }
}
