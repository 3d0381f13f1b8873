// Starts the program, keeps it for places without a signal, and says so in words when either goes wrong.
//
// The build joins the glue of wasm-bindgen in front of this file and hands it over as `init`. The names of the
// other files stand on the tag with the id `boot`: data-wasm, data-core, data-book, and on the question page, whose own
// program is only the opening, data-app and data-app-wasm for the whole, data-marks, data-metals, data-prices, data-demo and data-coins
// for tables; data-guest for www/guest.js on pages with a pack, with data-desk and data-desk-wasm for www/desk.js.
//
// What the program may count on:
//   globalThis.pressmarkPhoto()     promise that www/darkroom.js is there
//   globalThis.pressmarkGuests()    promise of what www/guest.js exports
//   globalThis.pressmarkDeskRoom()  promise that www/desk.js is there
//   globalThis.pressmarkPack(part)  promise of a Uint8Array, checked against its digest; fails with a sentence
// Events on window that the programs send:
//   pressmark:usable         the first question, or the piece in the address, can be answered now
//   pressmark:trouble        detail: a sentence to show, with a link to start again
//   pressmark:accept-update  the user agreed to the new version
//   pressmark:whole-wanted   something is asked for that only the whole program has
// Events on window that the programs may listen for:
//   pressmark:whole-failed   detail: a sentence that says why the whole program did not come
//   pressmark:offline-ready  everything is kept on this device now
//   pressmark:offline-failed detail: a sentence that says why it could not be kept
//   pressmark:update         a new version waits for pressmark:accept-update
import init from "./app.js";

const names = document.getElementById("boot").dataset;
const page = document.documentElement;
const tell = (name, detail) => dispatchEvent(new CustomEvent(`pressmark:${name}`, { detail }));

// What became of the copy for offline use is said again to the program that takes over.
const said = new Map();
const say = (name, detail) => {
  said.set(name, detail);
  tell(name, detail);
};
addEventListener("pressmark:usable", () => said.forEach((detail, name) => tell(name, detail)));

// ---- Trouble

function trouble(sentence) {
  document.getElementById("trouble-says").textContent = sentence;
  page.dataset.trouble = "";
}

/** The program never began: what the page shows beneath would not answer. */
function stopped(sentence) {
  trouble(sentence);
  page.dataset.state = "stopped";
}

// Same address, fragment included: the piece in it is opened again.
document.getElementById("trouble-again").addEventListener("click", (event) => {
  event.preventDefault();
  location.reload();
});

let usable = false;
addEventListener("pressmark:trouble", (event) => (usable ? trouble : stopped)(String(event.detail)));

function broke(reason) {
  if (!(globalThis.WebAssembly && reason instanceof WebAssembly.RuntimeError)) return;
  const sentence = "Pressmark has stopped because of a fault of its own. Your answers are in the address of this page.";
  (usable ? trouble : stopped)(sentence);
}
addEventListener("error", (event) => broke(event.error));
addEventListener("unhandledrejection", (event) => broke(event.reason));

// ---- Packs

async function hexDigest(bytes) {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** The digest of a pack is in its name. Where the browser offers no digests, the reader's own checks must do. */
async function sound(name, bytes) {
  return !globalThis.crypto?.subtle || name.includes((await hexDigest(bytes)).slice(0, 16));
}

async function loaded(half) {
  const name = names[half];
  // A damaged copy may sit in the browser's cache: the second try goes past it.
  for (const cache of ["default", "reload"]) {
    let answer;
    try {
      answer = await fetch(name, { cache });
    } catch {
      throw new Error("The guide's data could not be loaded: there seems to be no connection.");
    }
    if (!answer.ok) continue;
    const bytes = new Uint8Array(await answer.arrayBuffer());
    if (await sound(name, bytes)) return bytes;
  }
  throw new Error("The guide's data arrived damaged, twice. Nothing is shown rather than something wrong.");
}

// Another pack may be open in place of the bundled one: chosen on this device, or named in the address.
function isGuestWanted() {
  if (!names.guest) return false;
  if (/[?&]pack=/.test(location.search)) return true;
  try {
    return window.top === window && Boolean(localStorage.getItem("pressmark.pack"));
  } catch {
    return false;
  }
}

globalThis.pressmarkGuests = () => import(`./${names.guest}`);
globalThis.pressmarkDeskRoom = () => import(`./${names.desk}`);
const guest = isGuestWanted() && globalThis.pressmarkGuests().then((guests) => guests.current(), (reason) => {
  console.info(reason);
  trouble("The guest pack could not be opened: there seems to be no connection. This is the bundled guide.");
});

const asked = {};
async function half(name) {
  const open = (name === "core" || name === "book") && await guest;
  return open ? open[name] : loaded(name);
}
// The core is wanted twice: for the first question, and again with the book.
globalThis.pressmarkPack = (name) => (asked[name] ??= half(name).catch((reason) => {
  // Asked for again it may come.
  delete asked[name];
  throw reason;
}));

globalThis.pressmarkPhoto = () => import(`./${names.darkroom}`);

// ---- Start

/** Begins a program; false when that failed and there is nothing that could be used. */
async function begin(wasm, glue) {
  // A wrong media type makes the glue fall back from streaming by itself.
  const answer = await fetch(wasm);
  if (!answer.ok) throw new Error(`status ${answer.status}`);
  await (await glue)({ module_or_path: answer });
}

let coming;
/** The whole program. When the opening runs it gives the page over; otherwise it begins by itself. */
function whole() {
  coming ??= begin(names.appWasm, import(`./${names.app}`).then((glue) => glue.default)).catch((reason) => {
    coming = undefined;
    console.warn(reason);
    const sentence = "The rest of Pressmark could not be loaded: there seems to be no connection.";
    if (usable) tell("whole-failed", sentence);
    else throw reason;
  });
  return coming;
}

async function start() {
  if (typeof WebAssembly !== "object") {
    stopped("This browser has WebAssembly turned off (Lockdown Mode does that), and Pressmark cannot work without it.");
    return;
  }
  try {
    // A link may name anything, a fresh start needs the first questions only.
    if (names.app && location.hash.length > 1) await whole();
    else {
      if (names.app) page.dataset.opening = "";
      await begin(names.wasm, init);
    }
  } catch (reason) {
    if (page.dataset.state === "stopped") return;
    stopped("Pressmark could not be loaded. Is there a connection? A newer version may also just have been put in its place.");
    console.error(reason);
  }
}

addEventListener("pressmark:usable", () => {
  usable = true;
  // For whoever measures: any browser's own tools show it.
  performance.mark("pressmark:usable");
  if (page.dataset.state === "held") delete page.dataset.state;
  // What comes after would compete with the first question on a slow line.
  const idle = globalThis.requestIdleCallback ?? ((work) => setTimeout(work, 1500));
  idle(async () => {
    if ("opening" in page.dataset) await whole();
    keep();
  });
}, { once: true });

addEventListener("pressmark:whole-wanted", whole);
addEventListener("online", () => "opening" in page.dataset && whole());
// From here on nothing is left of the opening that could be asked.
addEventListener("pressmark:handover", () => delete page.dataset.opening);

// ---- Offline

const WORKER = "./sw.js";
const REFUSED = "This browser does not let Pressmark be kept on this device: it will need a connection next time.";

async function keep() {
  // Inside another site's frame nothing is kept, and in the edition of one file there is nothing to keep.
  if (window.top !== window || "alone" in names) return;
  if (!("serviceWorker" in navigator)) {
    say("offline-failed", REFUSED);
    return;
  }
  const container = navigator.serviceWorker;
  const hadWorker = Boolean(container.controller);
  let accepted = false;
  container.addEventListener("controllerchange", () => {
    if (accepted) location.reload();
    // Another window accepted: the files behind this one are gone, so it should start anew as well, but when it suits.
    else if (hadWorker) say("update");
  });
  let registration;
  try {
    const only = globalThis.trustedTypes?.createPolicy("pressmark", {
      createScriptURL(url) {
        if (url !== WORKER) throw new TypeError("Only the service worker may be named here.");
        return url;
      },
    });
    const address = only ? only.createScriptURL(WORKER) : WORKER;
    registration = await container.register(address, { updateViaCache: "none" });
  } catch (reason) {
    say("offline-failed", REFUSED);
    console.warn(reason);
    return;
  }
  addEventListener("pressmark:accept-update", () => {
    accepted = true;
    if (registration.waiting) registration.waiting.postMessage("accept");
    else location.reload();
  });
  follow(registration);
}

/** Says what becomes of the worker: kept, refused, or waiting for the user's word. */
function follow(registration) {
  const watched = new WeakSet();
  const watch = (worker) => {
    if (watched.has(worker)) return;
    watched.add(worker);
    // With an active worker beside it a new one only waits.
    const first = !registration.active;
    worker.addEventListener("statechange", () => {
      if (worker.state === "installed" && !first) say("update");
      if (worker.state === "activated" && first) say("offline-ready");
      if (worker.state === "redundant" && first) {
        say("offline-failed", "Not every file arrived, so Pressmark is not kept on this device yet. It will try again next time.");
      }
    });
  };
  if (registration.installing) watch(registration.installing);
  registration.addEventListener("updatefound", () => watch(registration.installing));
  if (registration.active) say("offline-ready");
  if (registration.waiting && registration.active) say("update");
}

start();
