// The frame's end of what www/embed/embed.js speaks: says that it is here, takes a port from the page around it, wears that page's
// colours where they can be read, and tells it the finding. Nothing is told but what the screen shows, so the programs
// know nothing of it.
import { COLOURS, wear } from "./wear.js";

const VERSION = 1;
/** Characters of a message, and how many are acted upon in a second. */
const LONGEST = 2000;
const MOST = 20;

const page = document.documentElement;
const app = document.getElementById("app");
let port;
let usable = false;
let told = "";

/** A message as an object with a type, or nothing. */
function read(data) {
  if (typeof data !== "string" || data.length > LONGEST) return undefined;
  try {
    const said = JSON.parse(data);
    return said?.pressmark === VERSION && typeof said.type === "string" ? said : undefined;
  } catch {
    return undefined;
  }
}

const THEMES = ["", "light", "dark", "sun"];
const isColour = (name, value) => COLOURS.includes(name) && typeof value === "string" && /^#[0-9a-f]{6}$/.test(value);

/** Whether a message of the page around holds a theme and colours, each as it must be written, and nothing else. */
const fits = ({ pressmark, type, theme = "", ...rest }) =>
  THEMES.includes(theme) && Object.entries(rest).every(([name, value]) => isColour(name, value));

/** True for the first few of each second. */
function bound() {
  let since = -1000;
  let count = 0;
  return () => {
    const now = performance.now();
    if (now - since > 1000) [since, count] = [now, 0];
    count += 1;
    return count <= MOST;
  };
}

const written = (type, rest) => JSON.stringify({ pressmark: VERSION, type, ...rest });
const say = (type, rest) => port?.postMessage(written(type, rest));

// ---- The page around

let host = {};
let complaint = "";
const choice = () => localStorage.getItem("pressmark.theme") ?? "phone";
const first = choice();

/** What the reader has chosen in set-up goes before what the page around asks for. */
function dress() {
  const chosen = choice();
  const fault = chosen === first && port ? wear(host, host.theme || "phone") : wear({}, chosen);
  if (fault && fault !== complaint) {
    console.warn(fault);
    say("error", { says: fault });
  }
  complaint = fault;
}

function look(said) {
  host = said;
  dress();
}

const allowed = bound();

/** The first hello settles who is spoken with: the page around, as the browser names it, by the port that came along. */
function greet(event) {
  if (event.source !== window.parent || event.ports.length !== 1) return;
  const said = read(event.data);
  if (said?.type !== "hello" || !fits(said)) return;
  removeEventListener("message", greet);
  [port] = event.ports;
  port.onmessage = ({ data }) => {
    const more = read(data);
    if (more?.type === "wear" && fits(more) && allowed()) look(more);
  };
  look(said);
  if (usable) say("ready");
  tell();
  trouble();
}
addEventListener("message", greet);
addEventListener("pressmark:chosen", dress);

// ---- What is told

/** The finding that the screen shows, or nothing. The odds are those of its words, never sharper. */
function finding() {
  const [what, , when] = app.querySelector(".rows")?.children ?? [];
  const kind = document.getElementById("heading")?.textContent;
  const [, of, all] = what?.querySelector("b")?.textContent.match(/(\d+) in (\d+)/) ?? [];
  // "1865 to 1905, even chances; 1850 to 1930, 9 in 10": the wider one.
  const nine = when?.textContent.match(/even chances; (.*), 9 in 10/)?.[1] ?? "";
  const years = (nine.match(/\d{4}/g) ?? []).map(Number);
  if (!kind || !all || years.length === 0) return undefined;
  return {
    kind, odds: Math.round((1000 * of) / all), from: Math.min(...years), to: Math.max(...years), piece: location.hash.slice(1),
  };
}

function tell() {
  const found = port && finding();
  if (!found) return;
  const text = JSON.stringify(found);
  if (text === told) return;
  told = text;
  say("finding", found);
}

let soon;
new MutationObserver(() => {
  clearTimeout(soon);
  soon = setTimeout(tell, 150);
}).observe(app, { childList: true, characterData: true, subtree: true });

function trouble() {
  if (page.dataset.state !== "stopped" && !("trouble" in page.dataset)) return;
  say("error", { says: document.getElementById("trouble-says").textContent });
}
new MutationObserver(trouble).observe(page, { attributeFilter: ["data-state", "data-trouble"] });

addEventListener("pressmark:usable", () => {
  usable = true;
  dress();
  say("ready");
  const detail = "Inside another page nothing is kept. Opened by itself, Pressmark works without a signal as well.";
  dispatchEvent(new CustomEvent("pressmark:offline-failed", { detail }));
});

// ---- Ways out

/** The assistant itself, with the pack and the piece that stand here. */
const outside = () => {
  const asked = new URLSearchParams(location.search);
  asked.delete("theme");
  const query = String(asked);
  return `./${query && `?${query}`}${location.hash}`;
};

// What leads to another page opens beside this one, and no step here is one for the Back of the page around.
addEventListener("click", (event) => {
  const link = event.target.closest?.("a[href]");
  const address = link?.getAttribute("href") ?? "";
  if (link?.id === "outside") link.href = outside();
  else if (link?.hasAttribute("download")) return;
  else if (address.startsWith("#")) {
    event.preventDefault();
    location.replace(address);
  } else if (link) {
    link.target = "_blank";
    link.rel = "noopener";
  } else if (event.target.closest?.(".found > .keyrow button")) {
    // A piece is kept where there is a cabinet.
    event.stopImmediatePropagation();
    window.open(outside(), "_blank", "noopener");
  }
}, true);

// Says nothing but that it is here, to whoever frames it.
window.parent.postMessage(written("here"), "*");
