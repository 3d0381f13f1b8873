// The pack desk's program. One file for both ends: on the page it hands the work to a worker made of itself; where a worker
// may not run, it does the work on the page, a step at a time. The build joins the glue of wasm-bindgen in front.
//
// The page calls globalThis.pressmarkDesk(), once this file is loaded, for a promise of
//   ask(what, value, tell)  promise of an answer; tell(mille) says how far it is
// with what: "work" files to { told, file, bytes }, "open" { bytes, signature, key, known } to lines of text, "starter"
// whether as sheets to bytes.
import init from "./app.js";

const FAILED = "The desk has stopped because of a fault of its own. Load the page again.";

const WORKS = {
  async work(files, tell) {
    const desk = new Desk();
    for (const file of files) desk.add(file.name, new Uint8Array(await file.arrayBuffer()));
    while (!desk.step()) {
      tell(desk.done());
      await breath();
    }
    const made = { told: desk.told(), file: desk.file(), bytes: desk.pack() };
    desk.free();
    return made;
  },
  async open({ bytes, signature, key, known }) {
    return open(bytes, signature, key, known);
  },
  async starter(sheets) {
    return starter(sheets);
  },
};

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
  // One after the other, whatever comes meanwhile.
  let turn = Promise.resolve();
  onmessage = ({ data }) => {
    if (!Array.isArray(data) || data.length !== 3) return;
    const [id, what, value] = data;
    const reply = (sort, told) => postMessage([id, sort, told]);
    turn = turn.then(async () => {
      if (what === "start") await init({ module_or_path: value });
      const told = what === "start" ? undefined : await WORKS[what](value, (mille) => reply("done", mille));
      reply("told", told);
    }).catch((reason) => {
      console.info(reason);
      reply("failed", FAILED);
    });
  };
}

// ---- On the page

/** A worker that has begun, or nothing where none may run. */
async function worker(wasm) {
  if (typeof Worker !== "function") return undefined;
  try {
    const own = globalThis.trustedTypes?.createPolicy("pressmark-desk", {
      createScriptURL(url) {
        if (url !== import.meta.url) throw new TypeError("Only the desk may be named here.");
        return url;
      },
    });
    const made = new Worker(own ? own.createScriptURL(import.meta.url) : import.meta.url, { type: "module" });
    const waiting = new Map();
    let last = 0;
    made.onmessage = ({ data: [id, sort, told] }) => {
      const one = waiting.get(id);
      if (sort === "done") {
        one?.tell(told);
        return;
      }
      waiting.delete(id);
      if (sort === "told") one?.done(told);
      else one?.fail(new Error(told));
    };
    made.onerror = () => {
      for (const one of waiting.values()) one.fail(new Error(FAILED));
      waiting.clear();
    };
    const ask = (what, value, tell = () => {}) => new Promise((done, fail) => {
      waiting.set(++last, { done, fail, tell });
      made.postMessage([last, what, value]);
    });
    await ask("start", wasm);
    return { ask };
  } catch (reason) {
    console.info(reason);
    return undefined;
  }
}

async function begin() {
  const wasm = new URL(document.getElementById("boot").dataset.deskWasm, document.baseURI).href;
  const made = await worker(wasm);
  if (made) return made;
  await init({ module_or_path: wasm });
  return { ask: (what, value, tell = () => {}) => WORKS[what](value, tell) };
}

if (typeof document === "undefined") serve();
else globalThis.pressmarkDesk = begin;
