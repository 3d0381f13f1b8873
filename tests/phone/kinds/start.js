import init, { Large } from "./kinds.js";

await init();

/** Milliseconds of each of so many next questions over a pack of so many kinds. */
globalThis.asked = (kinds, times) => {
  const pack = new Large(kinds);
  const took = [];
  for (let n = 0; n < times; n += 1) {
    const from = performance.now();
    pack.next();
    took.push(performance.now() - from);
  }
  pack.free();
  return took;
};
dispatchEvent(new CustomEvent("pressmark:usable"));
