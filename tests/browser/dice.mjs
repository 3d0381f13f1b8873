// Draws for the tests.

/** Whole numbers from 0 to below `n`, the same for the same seed (mulberry32, public domain, T. Ettinger). */
export function dice(seed) {
  let state = seed >>> 0;
  return (n) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) % n;
  };
}
