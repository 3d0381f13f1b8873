// Works on a photograph. One file for both ends: on the page it hands the work to a worker made of itself; where a worker
// may not run, it does the work on the page, a slice at a time. The build joins the glue of wasm-bindgen in front.
//
// The page calls globalThis.pressmarkDarkroom(tell), once this file is loaded, and gets
//   take(file)  decode a picture, make it small enough, hold it
//   ask(words)  an Int32Array, answered by another
//   kept()      promise of the digest of a small JPEG without anything but its pixels, and of that JPEG
// and is told tell(what, value): "told" with an Int32Array, "done" with per mille, "shown" with the address of a JPEG,
// "failed" with a sentence.
import init from "./app.js";

/** Pixels of the longer side; `LONGEST` in crates/darkroom. */
const LONGEST = 2200;
/** Of what is kept with a record. */
const LONGEST_KEPT = 1280;
/** Where a file says how it was taken: within its first bytes. */
const HEAD = 1 << 18;
/** Milliseconds of work at a time, and before progress is shown. */
const SLICE = 10;
const SHOWN_AFTER = 300;

const FAILED = "This picture could not be opened. A JPEG or PNG as the phone makes them will do.";

/** What the worker and the page without one have in common. */
class Room {
  constructor(tell) {
    this.tell = tell;
    this.turn = Promise.resolve();
  }

  async start(wasm) {
    await init({ module_or_path: wasm });
    this.work = new Darkroom();
  }

  /** One after the other, so that no answer is taken for another's. */
  then(work) {
    this.turn = this.turn.then(work).catch((reason) => {
      console.info(reason);
      this.tell("failed", FAILED);
    });
  }

  take(file) {
    this.then(async () => {
      const began = performance.now();
      const head = new Uint8Array(await file.slice(0, HEAD).arrayBuffer());
      this.work.head(head);
      // Upright, as the file says.
      const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
      const by = Math.min(1, LONGEST / Math.max(picture.width, picture.height));
      const [width, height] = [picture.width, picture.height].map((side) => Math.max(1, Math.round(side * by)));
      if (!this.work.begin(width, height)) throw new Error(`${width} x ${height}`);
      const canvas = surface(width, height);
      const context = canvas.getContext("2d", { willReadFrequently: true });
      const rows = 32;
      let told;
      let since = performance.now();
      for (let y = 0; y < height; y += rows) {
        // A strip at a time: all at once it would hold the page.
        const high = Math.min(rows, height - y);
        context.drawImage(picture, 0, y / by, picture.width, high / by, 0, y, width, high);
        told = this.work.rows(context.getImageData(0, y, width, high).data);
        if (performance.now() - since < SLICE) continue;
        if (performance.now() - began > SHOWN_AFTER) this.tell("done", Math.round((600 * y) / height));
        await breath();
        since = performance.now();
      }
      picture.close();
      this.canvas = canvas;
      // Drawn anew, so nothing of the file is left but its pixels. Meanwhile the card is looked for.
      jpeg(canvas, 0.82).then((shown) => this.tell("shown", shown), () => this.tell("failed", FAILED));
      this.tell("told", told);
    });
  }

  ask(words) {
    this.then(async () => {
      const began = performance.now();
      this.work.ask(words);
      for (let since = began; ;) {
        const told = this.work.step();
        if (told) {
          this.tell("told", told);
          return;
        }
        const now = performance.now();
        if (now - since < SLICE) continue;
        if (now - began > SHOWN_AFTER) this.tell("done", this.work.done());
        await breath();
        since = performance.now();
      }
    });
  }

  kept() {
    this.then(async () => {
      if (!this.canvas) throw new Error("no picture");
      const { width, height } = this.canvas;
      const by = Math.min(1, LONGEST_KEPT / Math.max(width, height));
      const small = surface(Math.round(width * by), Math.round(height * by));
      const context = small.getContext("2d");
      context.imageSmoothingQuality = "high";
      context.drawImage(this.canvas, 0, 0, small.width, small.height);
      this.tell("kept", await jpeg(small, 0.8));
    });
  }
}

/** On the page one of its own: that one packs pictures a little at a time. */
function surface(width, height) {
  if (typeof document === "undefined") return new OffscreenCanvas(width, height);
  return Object.assign(document.createElement("canvas"), { width, height });
}

function jpeg(canvas, quality) {
  const type = "image/jpeg";
  if (canvas.convertToBlob) return canvas.convertToBlob({ type, quality });
  return new Promise((done) => canvas.toBlob(done, type, quality));
}

/** Lets whatever else waits have its turn. */
function breath() {
  return new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      done();
    };
    port2.postMessage(null);
  });
}

// ---- In the worker

function serve() {
  const room = new Room((what, value) => postMessage([what, value]));
  let ready;
  onmessage = ({ data }) => {
    if (!Array.isArray(data) || data.length !== 2) return;
    const [what, value] = data;
    if (what === "start") {
      ready = room.start(value).then(() => postMessage(["started"]), (reason) => postMessage(["unable", String(reason)]));
    } else if (what === "take" && value instanceof Blob) {
      ready?.then(() => room.take(value));
    } else if (what === "ask" && value instanceof Int32Array && value.length <= 8192) {
      ready?.then(() => room.ask(value));
    } else if (what === "kept") {
      ready?.then(() => room.kept());
    }
  };
}

// ---- On the page

/** A worker that has begun, or nothing where none may run. */
function worker(wasm, heard) {
  if (typeof Worker !== "function" || typeof OffscreenCanvas !== "function") return Promise.resolve(undefined);
  // The edition of one file has no other file that a worker could be made of.
  if ("alone" in document.getElementById("boot").dataset) return Promise.resolve(undefined);
  return new Promise((done) => {
    try {
      const own = globalThis.trustedTypes?.createPolicy("pressmark-darkroom", {
        createScriptURL(url) {
          if (url !== import.meta.url) throw new TypeError("Only the darkroom may be named here.");
          return url;
        },
      });
      const made = new Worker(own ? own.createScriptURL(import.meta.url) : import.meta.url, { type: "module" });
      const unable = () => {
        made.terminate();
        done(undefined);
      };
      made.onerror = unable;
      made.onmessage = ({ data: [what, value] }) => {
        if (what === "started") done(made);
        else if (what === "unable") unable();
        else heard(what, value);
      };
      made.postMessage(["start", wasm]);
    } catch (reason) {
      console.warn(reason);
      done(undefined);
    }
  });
}

let address;
async function open(tell) {
  const wasm = new URL(document.getElementById("boot").dataset.darkroomWasm, document.baseURI).href;
  let keeper;
  const heard = (what, value) => {
    if (what === "shown") {
      if (address) URL.revokeObjectURL(address);
      address = URL.createObjectURL(value);
      tell(what, address);
    } else if (what === "kept") {
      keeper?.(value);
    } else {
      if (what === "failed") keeper?.(undefined);
      tell(what, value);
    }
  };
  const made = await worker(wasm, heard);
  let room;
  if (made) {
    const send = (what) => (value) => made.postMessage([what, value]);
    room = { take: send("take"), ask: send("ask"), kept: send("kept"), apart: true };
  } else {
    const own = new Room(heard);
    await own.start(wasm);
    room = { take: (file) => own.take(file), ask: (words) => own.ask(words), kept: () => own.kept(), apart: false };
  }
  // With its SHA-256 (FIPS 180-4); nothing on a page that was loaded over an open line, which has no digests.
  const kept = async () => {
    const jpeg = await new Promise((done) => {
      keeper = done;
      room.kept();
    });
    if (!jpeg || !globalThis.crypto?.subtle) return undefined;
    const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", await jpeg.arrayBuffer()));
    return [Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join(""), jpeg];
  };
  return { take: room.take, ask: room.ask, kept, apart: room.apart };
}

if (typeof document === "undefined") serve();
else globalThis.pressmarkDarkroom = open;
