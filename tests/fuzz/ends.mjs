// Both ends of what host and frame say to each other, www/embed, each in a stand-in for the browser that is just enough for its
// readers of messages. The clock is given.
import { readFileSync } from "node:fs";
import vm from "node:vm";

const source = (name) => readFileSync(new URL(`../../www/embed/${name}`, import.meta.url), "utf8");
const nothing = () => {};

/** Two ports that deliver at once. */
export function channel() {
  const port = () => ({
    onmessage: undefined, closed: false,
    postMessage(data) {
      if (!this.closed && !this.other.closed) this.other.onmessage?.({ data });
    },
    close() {
      this.closed = true;
    },
  });
  const [port1, port2] = [port(), port()];
  Object.assign(port1, { other: port2 });
  Object.assign(port2, { other: port1 });
  return { port1, port2 };
}

function listeners() {
  const all = new Map();
  return {
    addEventListener: (name, heard) => all.set(name, [...(all.get(name) ?? []), heard]),
    removeEventListener: (name, heard) => all.set(name, (all.get(name) ?? []).filter((one) => one !== heard)),
    sent(name, event) {
      for (const heard of all.get(name) ?? []) heard(event);
    },
  };
}

/** Colours of the light theme, as www/styles/10-tokens.css has them. */
const THEME = { "--linen": "#f6f1e6", "--starch": "#fffdf7", "--soot": "#1a1510", "--scorch": "#9a3412", "--seam": "#6b5f50", "--iron": "#3b4248", "--body": "#cfd4d8" };

/** The frame, which shows a finding: `worn` counts how often it changed its colours, `parent` hears what it says to the page around. */
export function frame(clock) {
  const { sent, ...page } = listeners();
  const worn = { times: 0, theme: "phone", tokens: new Map() };
  const documentElement = {
    dataset: {
      state: "usable",
      get theme() {
        return worn.theme;
      },
      set theme(theme) {
        worn.theme = theme;
      },
    },
    style: {
      removeProperty: (token) => worn.tokens.delete(token),
      setProperty: (token, value) => worn.tokens.set(token, value),
    },
  };
  const said = (text) => ({ querySelector: () => ({ textContent: text }), textContent: text });
  const rows = [said("Likely, 9 in 10"), said(""), said("1865 to 1905, even chances; 1850 to 1930, 9 in 10")];
  const parent = { heard: [], postMessage: (data) => parent.heard.push(data) };
  const window = { parent };
  const context = vm.createContext({
    ...page, window, document: {
      documentElement,
      getElementById: (id) => (id === "app" ? { querySelector: () => ({ children: rows }) } : said("A kind")),
    },
    localStorage: {
      getItem: () => {
        // The choice of the reader is asked for each time that colours may change.
        worn.times += 1;
        return null;
      },
    },
    MutationObserver: class {
      observe() {}
    },
    getComputedStyle: () => ({ getPropertyValue: (token) => THEME[token] ?? "#000000" }),
    location: { hash: "#1/tiny/f~aaaa", search: "" }, performance: { now: () => clock.now }, console: { warn: nothing },
    setTimeout: nothing, clearTimeout: nothing, URLSearchParams,
  });
  // What it imports is put in the place of the import.
  const own = source("frame.js").replace(/^import .*$/m, "");
  const colours = source("wear.js").replace(/^export /gm, "");
  vm.runInContext(`{ const { COLOURS, wear } = (() => {${colours}; return { COLOURS, wear }; })(); ${own} }`, context);
  worn.times = 0;
  return { parent, worn, sent: (event) => sent("message", event) };
}

/** Where the loader came from. */
export const APP = "https://club.example/pressmark/";
const ORIGIN = new URL(APP).origin;

/** A page of somebody else with the loader, whose frame stands: `events` are what the page is told, `inside` the window of the frame. */
export function host(clock) {
  const { sent, ...page } = listeners();
  const events = [];
  const inside = {
    hellos: 0,
    postMessage(data, origin, [port]) {
      this.hellos += 1;
      this.port = port;
    },
  };
  const made = () => ({ style: {}, addEventListener: nothing, focus: nothing, contentWindow: inside });
  let Embed;
  const context = vm.createContext({
    ...page, document: { currentScript: { src: `${APP}embed.js` }, createElement: made, addEventListener: nothing, removeEventListener: nothing },
    customElements: {
      get: nothing,
      define: (name, element) => {
        Embed = element;
      },
    },
    HTMLElement: class {
      getAttribute(name) {
        return name === "start" ? "now" : null;
      }

      attachShadow() {
        this.shadowRoot = { append: nothing };
        return this.shadowRoot;
      }

      dispatchEvent({ name, detail }) {
        events.push([name, detail]);
      }
    },
    CustomEvent: class {
      constructor(name, { detail }) {
        Object.assign(this, { name, detail });
      }
    },
    MessageChannel: class {
      constructor() {
        Object.assign(this, channel());
      }
    },
    matchMedia: () => ({ addEventListener: nothing, removeEventListener: nothing }),
    getComputedStyle: () => ({ getPropertyValue: () => "" }),
    location: { origin: "https://host.example" }, self: { origin: "https://host.example" },
    performance: { now: () => clock.now }, console: { warn: nothing }, setTimeout: nothing, clearTimeout: nothing, URL,
  });
  vm.runInContext(source("embed.js"), context);
  new Embed().connectedCallback();
  return { events, inside, origin: ORIGIN, sent: (event) => sent("message", { type: "message", ...event }) };
}
