// What must hold of both ends, whatever they are told. What is right is said here once more, from the words of www/embed/embed.js, not from
// its code.
import { APP, channel, frame, host } from "./ends.mjs";
import { drawn, odd } from "./odd.mjs";

const COLOURS = ["ink", "paper", "card", "accent", "line"];
const TOKENS = ["--soot", "--ash", "--iron", "--linen", "--starch", "--scorch", "--seam", "--hair"];
/** Acted upon in a second. */
const MOST = 20;
/** Messages to one end before it is made anew. */
const ROUND = 500;

function must(holds, what, message) {
  if (!holds) throw new Error(`${what}: ${typeof message === "string" ? JSON.stringify(message) : String(message)}`);
}

/** The fields of a message of this version, if it is one. */
function fields(data) {
  if (typeof data !== "string" || data.length > 2000) return undefined;
  try {
    const said = JSON.parse(data);
    const right = typeof said === "object" && said !== null && said.pressmark === 1 && typeof said.type === "string";
    return right ? said : undefined;
  } catch {
    return undefined;
  }
}

const whole = (number, least, most) => typeof number === "number" && Math.floor(number) === number && number >= least && number <= most;
/** Nothing that steers or stands for markup: categories Cc and Cf of Unicode and the two brackets. */
const plain = (text, longest) => typeof text === "string" && text !== "" && text.length <= longest
  && [...text].every((letter) => !/[\p{Cc}\p{Cf}]/u.test(letter) && letter !== "<" && letter !== ">");

/** Whether the frame should wear what a message asks for. */
function asksFor(data, type) {
  const { pressmark, ...said } = fields(data) ?? {};
  return said.type === type && Object.entries(said).every(([name, value]) => {
    if (name === "type") return true;
    if (name === "theme") return ["", "light", "dark", "sun"].includes(value);
    return COLOURS.includes(name) && typeof value === "string" && value.length === 7 && /^#[0-9a-f]+$/.test(value);
  });
}

/** The event that a host should be told for a message, or nothing. */
function event(data) {
  const { type, kind, odds, from, to, piece, says } = fields(data) ?? {};
  if (type === "ready") return ["pressmark-ready", undefined];
  if (type === "error" && plain(says, 400)) return ["pressmark-error", { says }];
  const found = type === "finding" && plain(kind, 100) && whole(odds, 0, 1000) && whole(from, 0, 9999) && whole(to, 0, 9999) && from <= to;
  if (!found || typeof piece !== "string" || piece.length > 1500 || !/^[A-Za-z0-9_.~/+,:;=?@!$&*'()%-]+$/.test(piece)) return undefined;
  return ["pressmark-finding", { kind, odds, years: { from, to }, link: `${APP}#${piece}` }];
}

/** A host that says anything to the frame: to its window until it is greeted, then down the port. */
function toFrame(runs, draw) {
  // In one round of four the clock stands still.
  const clock = { now: 0, step: draw.below(4) > 0 ? 2000 : 0 };
  const { parent, worn, sent } = frame(clock);
  let port;
  let acted = 0;
  const heard = [];
  for (let run = 0; run < runs; run += 1) {
    clock.now += clock.step;
    const data = odd("host", draw);
    const before = JSON.stringify([worn.theme, [...worn.tokens]]);
    worn.times = 0;
    let right;
    if (port) {
      right = asksFor(data, "wear") && (clock.step > 0 || acted < MOST);
      port.postMessage(data);
      acted += right ? 1 : 0;
    } else {
      const { port1, port2 } = channel();
      const [from, ports] = [draw.below(3) > 0 ? parent : {}, draw.pick([[], [port2], [port2], [port2, port1]])];
      right = from === parent && ports.length === 1 && asksFor(data, "hello");
      port1.onmessage = (event) => heard.push(event.data);
      sent({ source: from, ports, data });
      if (right) port = port1;
    }
    must(right === worn.times > 0, right ? "a right message was not heeded" : "a wrong message was heeded", data);
    if (!right) must(before === JSON.stringify([worn.theme, [...worn.tokens]]), "a wrong message changed colours", data);
    if (right && !COLOURS.some((name) => name in fields(data))) must(worn.theme === (fields(data).theme || "phone"), "not the theme asked for", data);
    must(["phone", "light", "dark", "sun"].includes(worn.theme), "a theme that is none", data);
    for (const [token, colour] of worn.tokens) must(TOKENS.includes(token) && /^#[0-9a-f]{6}$/.test(colour), "a colour that is none", data);
  }
  for (const data of [...parent.heard, ...heard]) must(fields(data) && (event(data) || fields(data).type === "here"), "the frame says what no host takes", data);
}

/** A frame that says anything to the host: to its window, and down the port that it was handed last. */
function toHost(runs, draw) {
  const clock = { now: 0, step: draw.below(4) > 0 ? 2000 : 0 };
  const { events, inside, origin, sent } = host(clock);
  let acted = 0;
  sent({ source: inside, origin, data: '{"pressmark":1,"type":"here"}' });
  must(inside.port, "no port was handed out", "here");
  acted += 1;
  for (let run = 0; run < runs; run += 1) {
    clock.now += clock.step;
    const data = odd("frame", draw);
    const [told, hellos] = [events.length, inside.hellos];
    const free = clock.step > 0 || acted < MOST;
    if (draw.below(4) === 0) {
      const [from, of] = [draw.below(3) > 0 ? inside : {}, draw.pick([origin, origin, "null", "https://host.example", ""])];
      const right = from === inside && of === origin && fields(data)?.type === "here" && free;
      sent({ source: from, origin: of, data });
      must(inside.hellos === hellos + (right ? 1 : 0) && events.length === told, right ? "it is here and was not greeted" : "greeted for nothing", data);
      acted += right ? 1 : 0;
      continue;
    }
    const right = free ? event(data) : undefined;
    inside.port.postMessage(data);
    acted += right ? 1 : 0;
    must(events.length === told + (right ? 1 : 0), right ? "the host was not told" : "the host was told", data);
    if (right) must(JSON.stringify(events.at(-1)) === JSON.stringify(right), "the host was told something else", data);
    must(inside.hellos === hellos, "greeted by the port", data);
  }
}

/** Hands so many messages to both ends in turn; an error says what does not hold. Gives how many were handed over. */
export function tried(runs, seed) {
  const draw = drawn(seed);
  let done = 0;
  for (let round = 0; done < runs; round += 1) {
    const some = Math.min(ROUND, runs - done);
    (round % 2 === 0 ? toFrame : toHost)(some, draw);
    done += some;
  }
  return done;
}
