// What the tests of access look at on any page: what axe complains of, what is faint, what is small, what is cut.
import assert from "node:assert/strict";
import fs from "node:fs";
import { packages } from "./harness.mjs";

const AXE = fs.readFileSync(packages.resolve("axe-core/axe.min.js"), "utf8");

/** The themes that can be chosen, besides that of the phone. */
export const THEMES = ["light", "dark", "sun"];

/** Puts the page in another theme, as set-up does. */
export const wear = (page, theme) => page.evaluate((theme) => {
  const { dataset } = document.documentElement;
  if (theme) dataset.theme = theme;
  else delete dataset.theme;
}, theme ?? null);

/** Options of a visit in a theme, kept as the question page keeps it. */
export const themed = (theme) => ({
  before: (page) => page.addInitScript((theme) => {
    if (!location.protocol.startsWith("http")) return;
    localStorage.setItem("pressmark.theme", theme);
    localStorage.setItem("pressmark.preferences", `theme=${theme}`);
  }, theme),
});

/** What axe complains of: rule and element. */
export async function complaints(page) {
  // At its end the page stands beside the lower bar; further up some key lies half under it and can be scrolled out.
  await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
  if (!await page.evaluate(() => "axe" in globalThis)) await page.evaluate(AXE);
  return page.evaluate(async () => {
    const { violations, passes } = await globalThis.axe.run(document, {
      runOnly: { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] },
      rules: { "color-contrast-enhanced": { enabled: true } },
    });
    if (!passes.some((rule) => rule.id === "color-contrast-enhanced")) return ["axe looked at no contrast"];
    return violations.flatMap((rule) => rule.nodes.map((node) => `${rule.id}: ${node.target.join(" ")}: ${node.failureSummary}`));
  });
}

/** Looks at a page by a function that is handed `parts` of a colour and the contrast `ratio` of two (WCAG 2.2, relative luminance). */
const byLight = (page, look) => page.evaluate(`(() => {
  const parts = (colour) => (colour.match(/[\\d.]+/g) ?? [0, 0, 0]).map(Number);
  const linear = (part) => (part / 255 <= 0.04045 ? part / 255 / 12.92 : ((part / 255 + 0.055) / 1.055) ** 2.4);
  const light = ([r, g, b]) => 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
  const ratio = (one, other) => {
    const [high, low] = [light(one), light(other)].sort((a, b) => b - a);
    return (high + 0.05) / (low + 0.05);
  };
  return (${look})(parts, ratio);
})()`);

/** Text under 7:1 and frames of keys under 3:1, from the styles that are in force. */
export const faint = (page) => byLight(page, (parts, ratio) => {
  const ground = (element) => {
    for (let at = element; at; at = at.parentElement) {
      const colour = parts(getComputedStyle(at).backgroundColor);
      if (colour.length === 3 || colour[3] === 1) return colour;
    }
    return [255, 255, 255];
  };
  const found = [];
  const words = document.createTreeWalker(document.querySelector("#app"), NodeFilter.SHOW_TEXT);
  let texts = 0;
  for (let node = words.nextNode(); node; node = words.nextNode()) {
    const element = node.parentElement;
    if (!node.nodeValue.trim() || element.closest(".unseen") || element.getClientRects().length === 0) continue;
    texts += 1;
    const style = getComputedStyle(element);
    const colour = parts(element instanceof SVGElement ? style.fill : style.color);
    const against = ratio(colour, ground(element));
    if (against < 7) found.push(`text ${against.toFixed(2)}: ${node.nodeValue.trim()}`);
  }
  let frames = 0;
  for (const element of document.querySelectorAll(".choice, .key, .keys button, .keys a, input, .rows")) {
    frames += 1;
    const style = getComputedStyle(element);
    const against = ratio(parts(style.borderTopColor), ground(element.parentElement));
    if (Number.parseFloat(style.borderTopWidth) < 1 || against < 3) {
      found.push(`frame ${against.toFixed(2)}: ${element.innerText || element.id}`);
    }
  }
  return texts > 3 && frames > 0 ? found : ["nothing was looked at"];
});

/** What is tapped and is smaller than 48 px one way. */
export const small = (page) => page.evaluate(() => {
  const all = [...document.querySelectorAll("#app button, #app a, #app input")];
  if (all.length < 4) return ["nothing was looked at"];
  return all.map((one) => [one, one.getBoundingClientRect()])
    .filter(([, box]) => box.width < 47.99 || box.height < 47.99)
    .map(([one, box]) => `${one.innerText || one.id}: ${box.width} x ${box.height}`);
});

/** What sticks out of a screen of this width, or out of its own key. */
export const cut = (page, width) => page.evaluate((width) => {
  const found = [];
  const wide = document.documentElement.scrollWidth;
  if (wide > width) found.push(`the page is ${wide} px wide on ${width}`);
  for (const one of document.querySelectorAll("#app *")) {
    if (one.closest(".unseen, svg") || one.getClientRects().length === 0) continue;
    const box = one.getBoundingClientRect();
    const name = `${one.tagName} ${one.className} "${(one.innerText ?? "").slice(0, 40)}"`;
    if (box.right > width + 1 || box.left < -1) found.push(`out of the screen: ${name}`);
    if (one.matches("button, a, .card, .rows, .care, .told") && one.scrollWidth > one.clientWidth + 1) {
      found.push(`cut: ${name} ${one.scrollWidth} in ${one.clientWidth}`);
    }
  }
  return found;
}, width);

/** With forced colours: lines that are not seen, keys without a frame, and keys that look the same on as off. */
export const unframed = (page) => byLight(page, (parts, ratio) => {
  if (!matchMedia("(forced-colors: active)").matches) return ["colours are not forced"];
  const probe = document.createElement("i");
  probe.style.color = "Canvas";
  document.body.append(probe);
  const canvas = parts(getComputedStyle(probe).color);
  probe.remove();
  const found = new Set();
  for (const line of document.querySelectorAll(".draw .d-line, .draw .d-asked, .sole .line, .axis, .curve")) {
    const stroke = getComputedStyle(line).stroke;
    if (ratio(parts(stroke), canvas) < 3) found.add(`line ${line.getAttribute("class")}: ${stroke} on rgb(${canvas})`);
  }
  for (const one of document.querySelectorAll(".choice, .key, .keys button, input, .next")) {
    if (Number.parseFloat(getComputedStyle(one).borderTopWidth) < 1) found.add(`no frame: ${one.innerText}`);
  }
  // Grounds are taken away by the system: only what survives that counts.
  const looks = (one) => {
    const { borderTopWidth, textDecorationLine, fontWeight } = getComputedStyle(one);
    return [borderTopWidth, textDecorationLine, fontWeight].join();
  };
  for (const on of document.querySelectorAll('.key[aria-pressed="true"], .choice[aria-pressed="true"]')) {
    const off = on.parentElement.querySelector(`.${on.classList[0]}[aria-pressed="false"]`);
    if (off && looks(on) === looks(off)) found.add(`on looks like off: ${on.innerText}`);
  }
  return [...found];
});

/** What would move although the system asks for no motion. */
export const moving = (page) => page.evaluate(() => {
  if (!matchMedia("(prefers-reduced-motion: reduce)").matches) return ["motion is not reduced"];
  const found = [...document.querySelectorAll("*")].filter((one) => {
    const { transitionDuration, animationName } = getComputedStyle(one);
    return animationName !== "none" || transitionDuration.split(",").some((time) => Number.parseFloat(time) > 0);
  }).map((one) => `${one.tagName} ${one.className}`);
  return document.getAnimations().length > 0 ? [...found, "an animation runs"] : found;
});

/** In every theme, which must be three: axe, contrasts and sizes. */
export async function inEveryTheme(page, name) {
  const grounds = new Set();
  for (const theme of THEMES) {
    await wear(page, theme);
    grounds.add(await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor));
    assert.deepEqual(await complaints(page), [], `${name}, ${theme}`);
    assert.deepEqual(await faint(page), [], `${name}, ${theme}`);
    assert.deepEqual(await small(page), [], `${name}, ${theme}`);
  }
  assert.equal(grounds.size, THEMES.length, `${name}: a ground for each theme`);
}

/** On a narrow screen, and with letters twice as large: nothing is cut. */
export async function narrowAndLarge(page, name) {
  await page.setViewportSize({ width: 320, height: 640 });
  assert.deepEqual(await cut(page, 320), [], `${name}, 320 px`);
  await page.setViewportSize({ width: 360, height: 740 });
  await page.evaluate(() => { document.documentElement.style.fontSize = "212.5%"; });
  assert.deepEqual(await cut(page, 360), [], `${name}, letters twice as large`);
  await page.evaluate(() => { document.documentElement.style.fontSize = ""; });
}
