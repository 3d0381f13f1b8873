// Messages that went wrong, drawn from a seed: right ones with a field changed, left out or added, with letters changed, too long, too deep,
// or of another sort than text.
import { dice } from "../browser/dice.mjs";

/** Draws below a number, and from a list. */
export function drawn(seed) {
  const below = dice(seed);
  return { below, pick: (list) => list[below(list.length)] };
}

/** Right messages of each end; figures and kinds are invented. */
const RIGHT = {
  host: [
    { type: "hello", theme: "dark" }, { type: "wear", theme: "" }, { type: "wear", ink: "#111111", paper: "#fefefe" }, { type: "wear", theme: "sun", line: "#444444" },
    { type: "wear", theme: "light", accent: "#7a2000", card: "#ffffff", paper: "#f4f4f4" }, { type: "hello" },
  ],
  frame: [
    { type: "here" }, { type: "ready" }, { type: "error", says: "It cannot be shown." },
    { type: "finding", kind: "A swan", odds: 900, from: 1850, to: 1930, piece: "1/tiny/3.1/f~aaaa" },
  ],
};
const KEYS = [
  "pressmark", "type", "theme", "ink", "paper", "card", "accent", "line", "kind", "odds", "from", "to", "piece", "says", "__proto__", "constructor", "toString", "length", "",
];
const VALUES = [
  1, "1", 2, 0, -1, 0.5, 1000, 1001, 9999, 10_000, 1e21, 2 ** 53, true, null, [], {}, ["#000000"], { length: 1 }, "", "\u202e", "\ud800", "<b>", "\u0000", "\n",
  "#000000", "#FFFFFF", "#fffffff", "#ffff", "#777777\n", "red", "url(//192.0.2.1/)", "light", "dark", "sun", "Sun", "hello", "wear", "here", "ready", "error", "finding",
  "__proto__", "hasOwnProperty", "a b", "javascript:alert(1)",
  "//192.0.2.1/", "../..", "%00", "#", "1/tiny", "\u00e9", "\u{1f525}",
];
/** Values about the limits of a field. */
const NEAR = {
  kind: ["a".repeat(100), "a".repeat(101), "a\u202e"], says: ["a".repeat(400), "a".repeat(401), "a\u00ad"],
  piece: ["a".repeat(1500), "a".repeat(1501), "a\n", "1/tiny#"], from: [-1, 0, 1930, 1931, 9999], to: [1849, 1850, 9999, 10_000], odds: [-1, 0, 0.5, 1000, 1001],
};
const BARBS = ["{", "}", "[", "]", "\"", "\\", ",", ":", "1e999", "-0", "\\u0000", "\\ud800", "null", " ", "\ufeff", "\"__proto__\":", "\"type\":\"wear\",", "#"];
const OTHERS = [undefined, null, 0, NaN, true, new ArrayBuffer(8), new Date(0), [[]], { pressmark: 1, type: "wear" }, [1], new Map(), 10n];

/** The text with a few letters cut, doubled, turned round or put in. */
function changed(text, { below, pick }) {
  let out = text;
  for (let times = 1 + below(3); times > 0; times -= 1) {
    const at = below(out.length + 1);
    const until = Math.min(out.length, at + 1 + below(12));
    const middle = out.slice(at, until);
    const instead = pick([() => "", () => middle + middle, () => [...middle].reverse().join(""), () => pick(BARBS), () => pick(BARBS) + middle])();
    out = out.slice(0, at) + instead + out.slice(until);
  }
  return out;
}

/** A message as it might come from that end: "host" or "frame". */
export function odd(end, draw) {
  const { below, pick } = draw;
  // One in eight is what only the other end says.
  const said = { pressmark: 1, ...pick(RIGHT[below(8) > 0 ? end : pick(["host", "frame"])]) };
  const way = below(12);
  if (way === 0) return JSON.stringify(said);
  if (way === 1) return pick(OTHERS);
  // An own field of any name, `__proto__` too.
  const put = (name) => Object.defineProperty(said, name, { value: pick(Object.hasOwn(NEAR, name) && below(2) ? NEAR[name] : VALUES), enumerable: true, configurable: true, writable: true });
  for (let times = 1 + below(3); times > 0 && way < 9; times -= 1) {
    if (way < 5) put(pick(Object.keys(said)) ?? "type");
    else if (way < 7) put(pick(KEYS));
    else delete said[pick(Object.keys(said))];
  }
  const text = JSON.stringify(said);
  if (way < 9) return text;
  if (way === 9) return text.slice(0, -1) + " ".repeat(1900 + below(100)) + text.slice(-1);
  if (way === 10) return pick([`${"[".repeat(below(1500))}${text}`, `{"a":`.repeat(below(300)) + text, `[${text}]`, ` ${text}\n`, text + text]);
  return changed(text, draw);
}
