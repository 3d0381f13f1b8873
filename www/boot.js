// Starts the program, keeps it for places without a signal, and says so in words when either goes wrong.
//
// The build joins the glue of wasm-bindgen in front of this file and hands it over as `init`. The names of the
// other files stand on the tag with the id `boot`: data-wasm, data-core, data-book.
//
// What the program may count on:
//   globalThis.pressmarkPack("core" | "book")  promise of a Uint8Array, checked against its digest; fails with a sentence
// Events on window that the program sends:
//   pressmark:usable         the first question, or the piece in the address, can be answered now
//   pressmark:trouble        detail: a sentence to show, with a link to start again
//   pressmark:accept-update  the user agreed to the new version
// Events on window that the program may listen for:
//   pressmark:offline-ready  everything is kept on this device now
//   pressmark:offline-failed detail: a sentence that says why it could not be kept
//   pressmark:update         a new version waits for pressmark:accept-update
import init from "./app.js";

const names = document.getElementById("boot").dataset;
const page = document.documentElement;
const tell = (name, detail) => dispatchEvent(new CustomEvent(`pressmark:${name}`, { detail }));

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

const asked = {};
// The core is wanted twice: for the first question, and again with the book.
globalThis.pressmarkPack = (half) => (asked[half] ??= loaded(half));

// ---- Start

async function start() {
  if (typeof WebAssembly !== "object") {
    stopped("This browser has WebAssembly turned off (Lockdown Mode does that), and Pressmark cannot work without it.");
    return;
  }
  try {
    // A wrong media type makes the glue fall back from streaming by itself.
    const answer = await fetch(names.wasm);
    if (!answer.ok) throw new Error(`status ${answer.status}`);
    await init({ module_or_path: answer });
  } catch (reason) {
    if (page.dataset.state === "stopped") return;
    stopped("Pressmark could not be loaded. Is there a connection? A newer version may also just have been put in its place.");
    console.error(reason);
  }
}

addEventListener("pressmark:usable", () => {
  usable = true;
  if (page.dataset.state === "held") delete page.dataset.state;
  // The files for offline use would compete with the first question on a slow line: they come after it.
  const idle = globalThis.requestIdleCallback ?? ((work) => setTimeout(work, 1500));
  idle(() => keep());
}, { once: true });

// ---- Offline

const WORKER = "./sw.js";
const REFUSED = "This browser does not let Pressmark be kept on this device: it will need a connection next time.";

async function keep() {
  // Inside another site's frame nothing is kept.
  if (window.top !== window) return;
  if (!("serviceWorker" in navigator)) {
    tell("offline-failed", REFUSED);
    return;
  }
  const container = navigator.serviceWorker;
  const hadWorker = Boolean(container.controller);
  let accepted = false;
  container.addEventListener("controllerchange", () => {
    if (accepted) location.reload();
    // Another window accepted: the files behind this one are gone, so it should start anew as well, but when it suits.
    else if (hadWorker) tell("update");
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
    tell("offline-failed", REFUSED);
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
      if (worker.state === "installed" && !first) tell("update");
      if (worker.state === "activated" && first) tell("offline-ready");
      if (worker.state === "redundant" && first) {
        tell("offline-failed", "Not every file arrived, so Pressmark is not kept on this device yet. It will try again next time.");
      }
    });
  };
  if (registration.installing) watch(registration.installing);
  registration.addEventListener("updatefound", () => watch(registration.installing));
  if (registration.active) tell("offline-ready");
  if (registration.waiting && registration.active) tell("update");
}

start();
