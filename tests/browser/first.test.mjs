// The first question stands before any program: without scripts it is text and links, a tap that comes before the
// program is kept, and where storage or WebAssembly is refused the page says so and leads on.
import assert from "node:assert/strict";
import { test } from "node:test";
import { heard, visit } from "./harness.mjs";
import { FLAT, answer, button, heading, key, moved, tapOn, toFinding } from "./walk.mjs";

const FIRST = "How long is the sole?";
const PLACE = "Where is it offered?";
const link = (page, label) => page.locator("a.choice", { hasText: label });

/** Holds the program back until the returned function is called. */
async function hold(page) {
  let letGo;
  const held = new Promise((resolve) => { letGo = resolve; });
  await page.route("**/*.wasm", async (route) => { await held; await route.continue(); });
  return letGo;
}

/** Elements of a page whose scripts are turned off, by the browser's own inspection: tag, attributes, text. */
async function inspect(context, page) {
  const devtools = await context.newCDPSession(page);
  const { root } = await devtools.send("DOM.getDocument", { depth: -1 });
  const all = [];
  const text = (node) => node.nodeType === 3 ? node.nodeValue : (node.children ?? []).map(text).join("");
  const walk = (node) => {
    const pairs = node.attributes ?? [];
    const attributes = {};
    for (let at = 0; at < pairs.length; at += 2) attributes[pairs[at]] = pairs[at + 1];
    all.push({ tag: node.nodeName.toLowerCase(), ...attributes, text: text(node) });
    (node.children ?? []).forEach(walk);
  };
  walk(root);
  return all;
}

// Turned off as a user would turn it off: playwright's own switch leaves <noscript> unread.
const NO_SCRIPT = { preferences: { profile: { default_content_setting_values: { javascript: 2 } } } };

test("with JavaScript off the first question is text, and its choices are links to the answers", async (t) => {
  const { page, server, context } = await visit(t, { options: NO_SCRIPT });
  await page.goto(server.address);
  const all = await inspect(context, page);
  assert.equal(all.find((one) => one.tag === "h1").text, FIRST);
  const choices = all.filter((one) => one.tag === "a" && one.class === "choice");
  assert.ok(choices.length >= 3);
  for (const one of choices) {
    assert.match(one.href, /^#1\/irons\/1\.\d+~[a-z2-9]{4}$/);
    assert.ok(one.text.length > 3);
  }
  assert.equal(new Set(choices.map((one) => one.href)).size, choices.length);
  const keys = all.filter((one) => one.tag === "button");
  assert.ok(keys.every((one) => "disabled" in one), "what needs the program rests");
});

test("with JavaScript off the printed key is one link away and leads by links to a kind", async (t) => {
  const { page, server, context } = await visit(t, { options: NO_SCRIPT });
  await page.goto(server.address);
  const note = (await inspect(context, page)).find((one) => one.tag === "a" && /key\.html$/.test(one.href ?? ""));
  await page.goto(new URL(note.href, server.address).href);
  const all = await inspect(context, page);
  const ids = new Set(all.map((one) => one.id).filter(Boolean));
  const links = all.filter((one) => one.tag === "a" && one.href?.startsWith("#"));
  assert.ok(links.length > 20, `${links.length} links`);
  assert.deepEqual(links.filter((one) => !ids.has(one.href.slice(1))), [], "links that lead nowhere");
  assert.ok(all.some((one) => one.tag === "li" && /\d in \d/.test(one.text) && !one.text.includes("go on")), "a kind with its chance");
});

test("a tap before the program has come is kept", async (t) => {
  const { page, server } = await visit(t, { quiet: true });
  const letGo = await hold(page);
  await page.goto(server.address, { waitUntil: "commit" });
  await link(page, FLAT[FIRST]).tap();
  assert.match(await page.evaluate(() => location.hash), /^#1\/irons\/1\.2~/);
  assert.equal(await heading(page), FIRST);
  letGo();
  await heard(page, "usable");
  assert.equal(await heading(page), PLACE);
  assert.match(await page.locator(".last").innerText(), new RegExp(`You said: ${FLAT[FIRST]}`));
  // The browser's Back takes the early tap back as it takes back any other.
  await page.evaluate(() => history.back());
  assert.equal(await moved(page, PLACE), FIRST);
});

test("of two taps before the program the later one counts", async (t) => {
  const { page, server } = await visit(t, { quiet: true });
  const letGo = await hold(page);
  await page.goto(server.address, { waitUntil: "commit" });
  await link(page, "Up to 120 mm").tap();
  await link(page, "Longer than 120 mm").tap();
  letGo();
  await heard(page, "usable");
  assert.equal(await heading(page), PLACE);
  assert.match(await page.locator(".last").innerText(), /You said: Longer than 120 mm/);
});

test("each early link says the same as the tap of the program does", async (t) => {
  const { page, server } = await visit(t, { quiet: true });
  const letGo = await hold(page);
  await page.goto(server.address, { waitUntil: "commit" });
  await page.locator("a.choice").first().waitFor();
  const links = await page.locator("a.choice").evaluateAll((all) =>
    all.map((one) => [one.querySelector("span").innerText, one.getAttribute("href")]));
  letGo();
  await heard(page, "usable");
  for (const [label, href] of links) {
    await answer(page, label);
    assert.equal(await page.evaluate(() => location.hash), href, label);
    await tapOn(page, key(page, "Undo"));
  }
});

test("where the browser keeps nothing the whole job works, and set-up says what is lost", async (t) => {
  // All cookies and storage blocked, as a user would block them.
  const preferences = { profile: { default_content_setting_values: { cookies: 2 } } };
  const { page, server } = await visit(t, { options: { preferences } });
  await page.goto(server.address);
  await heard(page, "usable");
  const refused = await page.evaluate(() => {
    try { return String(localStorage.length); } catch (reason) { return reason.name; }
  });
  assert.equal(refused, "SecurityError", "storage is refused indeed");
  await heard(page, "offline-failed");
  await toFinding(page);
  await tapOn(page, button(page, "Set up"));
  await button(page, "Dark").tap();
  assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), "dark");
  const says = await page.locator("main").innerText();
  assert.match(says, /does not let Pressmark be kept on this device/);
  assert.match(says, /keeps no choices of yours/);
});

test("without WebAssembly a sentence leads to the printed key, and that goes on to a kind", async (t) => {
  const { page, server } = await visit(t, {
    before: (page) => page.addInitScript(() => { delete globalThis.WebAssembly; }),
  });
  await page.goto(server.address);
  await page.locator("#trouble").waitFor();
  assert.match(await page.locator("#trouble-says").innerText(), /WebAssembly turned off/);
  await page.locator("#trouble").getByRole("link", { name: /printed key/ }).tap();
  await page.waitForURL(/key\.html$/);
  let at = page.locator("section").first();
  for (let steps = 0; await at.locator("a").count() > 0; steps += 1) {
    assert.ok(steps < 20, "the key comes to an end");
    const to = await at.locator("a").first().getAttribute("href");
    await at.locator("a").first().tap();
    assert.equal(await page.evaluate(() => location.hash), to);
    assert.equal(await page.locator(":target").isVisible(), true);
    // A list may end in kinds: then the last of its answers is the end of the way.
    at = page.locator(to);
  }
  assert.match(await at.innerText(), /\d in \d/);
});
