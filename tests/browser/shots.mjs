// Pictures of every screen in every theme, for looking at: not a test. `cargo xtask shots` builds the page and runs
// this; the pictures come to lie in target/shots.
//
// Words after the command choose pictures by parts of their names: `cargo xtask shots finding-sun` takes only those.
import fs from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { Site, ended, phone, serve } from "./harness.mjs";
import { SCREENS as CABINET, furnished, ready, takeIn } from "./cabinet.mjs";
import { SCREENS as PRACTICE } from "./practice.mjs";
import { FOUND } from "./guests.mjs";
import { SCREENS as DESK } from "./desk.mjs";
import { ROOMS } from "./rooms.mjs";
import { FLAT, answer, button, choice, key, tapOn, toFinding, typing } from "./walk.mjs";

const OUT = fileURLToPath(new URL("../../target/shots/", import.meta.url));
const SIZES = { phone: [360, 740], wide: [1200, 800] };
const THEMES = ["light", "dark", "sun"];

/** The way to each screen from the first question. */
const SCREENS = {
  first: async () => {},
  either: async (page) => {
    await key(page, "One of two").tap();
    await choice(page, "Up to 102 mm (4 in)").tap();
  },
  why: async (page) => { await button(page, "Why this?").tap(); },
  fault: async (page) => {
    await (await typing(page)).fill("iron");
    await button(page, "Use it").tap();
    await page.locator(".fault").waitFor();
  },
  place: async (page) => { await answer(page, FLAT["How long is the sole?"]); },
  grip: async (page) => {
    await SCREENS.place(page);
    await answer(page, FLAT["Where is it offered?"]);
  },
  wording: async (page) => {
    await SCREENS.grip(page);
    await answer(page, FLAT["What is the grip like?"]);
  },
  finding: async (page) => { await toFinding(page); },
  money: async (page) => {
    await toFinding(page);
    await page.locator(".rows button").tap();
  },
  early: async (page) => {
    await SCREENS.wording(page);
    await tapOn(page, page.locator(".strip"));
  },
  nothing: async (page) => { await tapOn(page, page.locator(".strip")); },
  outside: async (page) => {
    await (await typing(page)).fill("210");
    await tapOn(page, button(page, "Use it"));
    await tapOn(page, page.locator(".strip"));
  },
  picture: async (page) => {
    await SCREENS.place(page);
    await key(page, "Only a picture").tap();
    await toFinding(page);
  },
  list: async (page) => {
    await toFinding(page);
    await tapOn(page, key(page, "All looks"));
  },
  marks: async (page) => {
    await tapOn(page, button(page, "Marks"));
    await page.locator("#lettering").waitFor();
  },
  "marks-read": async (page) => {
    await SCREENS.marks(page);
    await page.locator("#lettering").fill("PAT. MAY ?3 18?1; No 114?88");
    await page.locator(".reading").first().tap();
  },
  "marks-diamond": async (page) => {
    await SCREENS.marks(page);
    await button(page, "Diamond mark\u2026").tap();
    for (const key of ["I", "X", "H"]) await page.locator(".letters").getByRole("button", { name: key, exact: true }).tap();
  },
  "marks-finding": async (page) => {
    await toFinding(page);
    await SCREENS.marks(page);
    await page.locator("#lettering").fill("MADE IN JAPAN");
    await page.locator(".reading").first().waitFor();
    await tapOn(page, key(page, "See finding"));
  },
  setup: async (page) => { await tapOn(page, button(page, "Set up")); },
  ...ROOMS,
};

/** Pages of the guide by their fragments. */
const GUIDE = {
  "guide": "", "guide-kinds": "#irons/kinds", "guide-names": "#irons/kinds/names", "guide-kind": "#irons/kind/11",
  "guide-copies": "#irons/kind/18", "guide-choose": "#irons/compare/11", "guide-compare": "#irons/compare/1/34",
  "guide-looks": "#irons/looks", "guide-look": "#irons/look/15", "guide-words": "#irons/words", "guide-word": "#irons/word/post",
  "guide-parts": "#irons/parts", "guide-care": "#irons/care", "guide-sources": "#irons/sources", "guide-find": "#irons/find/wire+grip",
  "guide-nothing": "#irons/find/zebra", "guide-lost": "#irons/kind/9999",
};

/** Opens both frames of the club's page and waits for their first questions. */
async function both(page) {
  for (const embed of await page.locator("pressmark-embed").all()) {
    await embed.getByRole("button").click();
    await embed.locator("iframe").contentFrame().locator("button.choice").first().waitFor();
  }
}

/** Pages with Pressmark in them, and the frame as it stands there. */
const EMBEDDED = {
  club: ["club.html", async () => {}],
  "club-open": ["club.html", both],
  "club-finding": ["club.html", async (page) => {
    await page.locator(".ours").evaluate((embed, piece) => embed.setAttribute("piece", piece), FOUND);
    await page.locator(".ours").getByRole("button").click();
    await page.locator("#findings li").waitFor();
  }],
};

const wanted = process.argv.slice(2);
const named = (name) => wanted.length === 0 || wanted.some((part) => name.includes(part));

fs.mkdirSync(OUT, { recursive: true });
const site = new Site();
const server = await serve(site.dist);
try {
  for (const [size, [width, height]] of Object.entries(SIZES)) {
    for (const theme of THEMES) {
      const ways = [
        ...Object.entries(SCREENS).map(([screen, way]) => [screen, "", way]),
        ...Object.entries(CABINET).map(([screen, [fragment, way]]) => [screen, `cabinet.html${fragment}`, way]),
        ...Object.entries(PRACTICE).map(([screen, [fragment, way]]) => [screen, `practice.html${fragment}`, way]),
        ...Object.entries(EMBEDDED).map(([screen, [address, way]]) => [screen, address, way]),
        ...Object.entries(GUIDE).map(([screen, fragment]) => [screen, `book.html${fragment}`, async () => {}]),
        ...Object.entries(DESK).map(([screen, [fragment, way]]) => [screen, `book.html${fragment}`, way]),
      ];
      const screens = ways.filter(([screen]) => named(`${screen}-${theme}-${size}`));
      if (screens.length === 0) continue;
      // One of its own: what tests share is closed by their runner.
      const browser = await phone({ resident: true, viewport: { width, height }, deviceScaleFactor: 1, isMobile: size === "phone", colorScheme: theme === "dark" ? "dark" : "light" });
      const page = browser.context.pages()[0];
      await page.addInitScript((theme) => {
        localStorage.setItem("pressmark.theme", theme);
        localStorage.setItem("pressmark.preferences", `theme=${theme}`);
        addEventListener("pressmark:usable", () => { globalThis.usable = true; });
      }, theme);
      if (screens.some(([screen]) => screen in CABINET)) {
        await page.addInitScript(() => {
          globalThis.heard = [];
          addEventListener("pressmark:usable", () => globalThis.heard.push(["usable"]));
        });
        await takeIn(page, server, furnished());
      }
      for (const [screen, address, way] of screens) {
        await page.goto("about:blank");
        await page.goto(`${server.address}${address}`);
        if (!(screen in EMBEDDED)) await page.waitForFunction(() => globalThis.usable);
        if (screen in CABINET) await ready(page);
        await way(page);
        const file = (part) => path.join(OUT, `${screen}-${theme}-${size}${part}.png`);
        await page.screenshot({ path: file("") });
        await page.screenshot({ path: file("-whole"), fullPage: true });
      }
      await browser.close();
      console.log(`${size}, ${theme}: ${screens.length} screens`);
    }
  }
} finally {
  await ended();
  await server.stop();
  site.remove();
}
