// Pressmark inside the pages of others, as a stranger would put it there: from another origin, under strict rules, where storage is
// refused, twice on a page, with its name taken, without scripts.
import assert from "node:assert/strict";
import { test } from "node:test";
import { FOUND, document, entered, invited, plain, pressed, snippet, start, told } from "./guests.mjs";
import { complaints as axe, cut } from "./eyes.mjs";
import { visit } from "./harness.mjs";
import { FLAT, button, card, heading, rows, tapOn, toFinding } from "./walk.mjs";

const FIRST = "How long is the sole?";
const found = (app) => document(snippet(app, `piece="${FOUND}"`));

/** What of the browser's storage was used in a frame's origin: nothing may be. */
const stored = (frame) => frame.evaluate(async () => ({
  kept: typeof indexedDB + typeof sessionStorage + typeof caches,
  cookie: globalThis.document.cookie,
  // Refused where the browser refuses all storage.
  workers: (await navigator.serviceWorker.getRegistrations().catch(() => [])).length,
}));
const NOTHING = { kept: "undefinedundefinedundefined", cookie: "", workers: 0 };

/** Whether the browser would give a frame of the assistant's place any storage: asked of one that has not been told to do without. */
async function storage(page, app) {
  await page.evaluate((src) => new Promise((onload) => {
    globalThis.document.body.append(Object.assign(globalThis.document.createElement("iframe"), { src, onload }));
  }), `${app}embed.js`);
  return page.frames().at(-1).evaluate(() => {
    try { return `${localStorage.length}`; } catch (reason) { return reason.name; }
  });
}

test("one pasted line asks, finds and tells the page around, and nothing is asked for before the key is pressed", async (t) => {
  const { page, app, asked, complaints } = await invited(t, { page: (app) => document(snippet(app)) });
  await start(page).waitFor();
  assert.deepEqual(asked.filter((url) => url.startsWith(app)), [`${app}embed.js`], "a facade first");
  const steps = await page.evaluate(() => history.length);
  const frame = await pressed(page);
  assert.equal(await heading(frame), FIRST);
  await toFinding(frame);
  const finding = await told(page, "finding");
  const shown = await rows(frame);
  assert.equal(finding.kind, await heading(frame));
  // "likely, 8 in 10": the odds are those of the words.
  const [, of, all] = shown.What.match(/(\d+) in (\d+)/);
  assert.equal(finding.odds, Math.round(1000 * of / all));
  // The same years as the program writes them for machines: "EDTF 1853?/1995?."
  const edtf = (await card(frame, "When it was made").innerText()).match(/EDTF (\d{4})\S*\/(\d{4})/);
  assert.deepEqual(finding.years, { from: Number(edtf[1]), to: Number(edtf[2]) });
  assert.equal(finding.link, `${app}${await frame.evaluate(() => location.hash)}`);
  assert.equal(await page.evaluate(() => history.length), steps, "Back stays the host's own");
  assert.deepEqual(complaints, []);
  // The link leads to the same finding, in Pressmark itself.
  const own = await page.context().newPage();
  await own.goto(finding.link);
  await own.locator(".rows").waitFor();
  assert.equal(await heading(own), finding.kind);
});

test("a host with the strictest policy names the assistant's place twice, and that is all", async (t) => {
  const { page, complaints } = await invited(t, {
    page: found,
    headers: (app) => ({
      "content-security-policy": `default-src 'none'; script-src ${app}embed.js; frame-src ${app}; require-trusted-types-for 'script'; trusted-types 'none'`,
    }),
  });
  await pressed(page);
  await told(page, "finding");
  assert.deepEqual(complaints, []);
});

test("a host whose policy allows no frame says so at once, and shows the link inside the tag", async (t) => {
  const { page } = await invited(t, {
    page: (app) => document(snippet(app)),
    headers: (app) => ({ "content-security-policy": `default-src 'none'; script-src ${app}embed.js` }),
  });
  await start(page).tap();
  assert.match((await told(page, "error")).says, /does not answer/);
  assert.equal(await page.getByRole("link", { name: "Open Pressmark" }).isVisible(), true);
  assert.match(await page.locator("pressmark-embed").getByRole("status").innerText(), /does not answer/);
});

test("a frame that does not come is spoken of after a while, and takes its place back when it does", async (t) => {
  let letGo;
  const held = new Promise((resolve) => { letGo = resolve; });
  const { page } = await invited(t, {
    page: (app) => document(snippet(app)),
    before: async (page) => {
      await page.clock.install();
      await page.route("**/frame.html", async (route) => { await held; await route.continue(); });
    },
  });
  await start(page).tap();
  const link = page.getByRole("link", { name: "Open Pressmark" });
  const status = page.locator("pressmark-embed").getByRole("status");
  assert.equal(await status.innerText(), "Opening\u2026");
  assert.equal(await link.isVisible(), false);
  await page.clock.fastForward(15_001);
  await link.waitFor();
  assert.match(await status.innerText(), /does not answer/);
  assert.equal(await page.locator("iframe").isVisible(), false);
  letGo();
  await link.waitFor({ state: "hidden" });
  assert.equal(await page.locator("iframe").isVisible(), true);
  assert.equal(await status.innerText(), "");
});

test("a host that lets nothing in without its word (COEP) takes the frame, photo room and worker included", async (t) => {
  const { page, complaints } = await invited(t, {
    page: found,
    headers: () => ({ "cross-origin-embedder-policy": "require-corp", "cross-origin-opener-policy": "same-origin" }),
  });
  assert.equal(await page.evaluate(() => crossOriginIsolated), true);
  const frame = await pressed(page);
  await told(page, "finding");
  // The darkroom begins as a worker here too.
  assert.equal(await frame.evaluate(async () => {
    await globalThis.pressmarkPhoto();
    return (await globalThis.pressmarkDarkroom(() => {})).apart;
  }), true);
  assert.deepEqual(complaints, []);
});

test("where storage in frames is refused the whole job works, and nothing is put anywhere", async (t) => {
  const preferences = { profile: { cookie_controls_mode: 1, block_third_party_cookies: true } };
  const { page, app, complaints } = await invited(t, { page: (app) => document(snippet(app)), options: { preferences } });
  assert.equal(await storage(page, app), "SecurityError", "the browser does refuse");
  const frame = await pressed(page);
  await toFinding(frame);
  await told(page, "finding");
  assert.deepEqual(await stored(frame), NOTHING);
  assert.deepEqual(complaints, []);
});

test("where storage would be given, the frame takes none, and a theme chosen in it lasts as long as it stands", async (t) => {
  const { page, app } = await invited(t, { page: found, name: "127.0.0.1" });
  assert.equal(await storage(page, app), "0", "the browser would give some");
  const frame = await pressed(page);
  await told(page, "finding");
  await tapOn(frame, button(frame, "Set up"));
  await button(frame, "Dark").tap();
  assert.equal(await frame.evaluate(() => globalThis.document.documentElement.dataset.theme), "dark");
  assert.match(await frame.locator("main").innerText(), /Inside another page nothing is kept/);
  assert.deepEqual(await stored(frame), NOTHING);
  // Asked of the browser itself, past all that the page was given.
  const devtools = await page.context().newCDPSession(page);
  const { usage } = await devtools.send("Storage.getUsageAndQuota", { origin: new URL(app).origin });
  assert.equal(usage, 0);
});

test("the assistant in a folder of another site, two of them on a page, each with its own piece and finding", async (t) => {
  const { page, app } = await invited(t, {
    under: "/members/pressmark/",
    page: (app) => document(`${snippet(app, 'id="one"')}${snippet(app, `id="two" theme="dark" height="500" piece="${FOUND}"`)}`),
  });
  const one = await pressed(page, "#one");
  const two = await pressed(page, "#two");
  assert.equal(await heading(one), FIRST);
  assert.deepEqual(await two.evaluate(() => [globalThis.document.documentElement.dataset.theme, innerHeight]), ["dark", 498]);
  assert.notEqual(await one.evaluate(() => globalThis.document.documentElement.dataset.theme), "dark");
  const findings = () => page.evaluate(() => globalThis.events.filter(([name]) => name === "finding").map(([, detail, id]) => [id, detail.kind, detail.link]));
  await told(page, "finding");
  assert.deepEqual(await findings(), [["two", await heading(two), `${app}#${FOUND}`]]);
  await toFinding(one, { ...FLAT, "What is the grip like?": "Bent or coiled wire" });
  await page.waitForFunction(() => globalThis.events.some(([name, , id]) => name === "finding" && id === "one"));
  assert.equal((await findings()).at(-1)[1], await heading(one));
});

test("a host that sends wasm under the wrong type, and no headers at all", async (t) => {
  const { page } = await invited(t, {
    page: found,
    before: (page, context) => context.route(/127\.0\.0\.1/, async (route) => {
      const answer = await route.fetch();
      const type = route.request().url().endsWith(".wasm") ? "text/html" : answer.headers()["content-type"];
      await route.fulfill({ status: answer.status(), headers: { "content-type": type }, body: await answer.body() });
    }),
  });
  await pressed(page);
  await told(page, "finding");
});

test("a site builder's box for snippets, which has no origin and no storage of its own", async (t) => {
  const { page } = await invited(t, {
    page: () => document('<iframe id="box" sandbox="allow-scripts allow-popups" src="/box" width="340" height="700"></iframe>'),
    more: (app) => ({ "/box": { body: found(app) } }),
  });
  const box = await (await page.locator("#box").elementHandle()).contentFrame();
  assert.equal(await box.evaluate(() => origin), "null");
  const frame = await pressed(box);
  assert.equal(await frame.evaluate(() => origin), "null");
  const finding = await told(box, "finding");
  assert.equal(finding.kind, await heading(frame));
});

test("a site that takes one line of markup and no scripts has the frame alone", async (t) => {
  const { page, complaints } = await invited(t, {
    page: (app) => document(plain(app)),
    headers: (app) => ({ "content-security-policy": `default-src 'none'; frame-src ${app}` }),
  });
  const frame = await (await page.locator("iframe").elementHandle()).contentFrame();
  await frame.locator("button.choice").first().waitFor();
  await toFinding(frame);
  assert.deepEqual(await stored(frame), NOTHING);
  assert.deepEqual(complaints, []);
});

test("with JavaScript off the link inside the tag is there, and leads to the assistant", async (t) => {
  const preferences = { profile: { default_content_setting_values: { javascript: 2 } } };
  const { page, app } = await invited(t, { page: (app) => document(snippet(app)), options: { preferences } });
  const devtools = await page.context().newCDPSession(page);
  const { documents: [shown], strings } = await devtools.send("DOMSnapshot.captureSnapshot", { computedStyles: [] });
  const text = shown.layout.text.filter((at) => at >= 0).map((at) => strings[at]).join(" ");
  assert.match(text, /Open Pressmark/);
  await page.getByText("Open Pressmark").tap();
  await page.waitForURL(app);
});

test("where the name is taken what took it goes on, and the link inside the tag stays", async (t) => {
  const { page, complaints } = await invited(t, {
    page: (app) => document(`<script src="/taken.js"></script>${snippet(app)}`),
    more: () => ({
      "/taken.js": {
        type: "text/javascript",
        body: 'customElements.define("pressmark-embed", class extends HTMLElement { connectedCallback() { this.title = "taken"; } });',
      },
    }),
  });
  await page.waitForLoadState("load");
  assert.equal(await page.locator("pressmark-embed").getAttribute("title"), "taken");
  assert.equal(await page.getByRole("link", { name: "Open Pressmark" }).isVisible(), true);
  assert.equal(complaints.length, 1);
  assert.match(complaints[0], /^Something else on this page is called <pressmark-embed>/);
});

test("the assistant's own pages cannot be framed, and the frame opened by itself is the assistant", async (t) => {
  const { page, app, context } = await invited(t, {
    page: (app) => document(["", "book.html", "cabinet.html", "practice.html", "club.html"]
      .map((name) => plain(app).replace("frame.html", name)).join("")),
  });
  const frames = page.frames().slice(1);
  assert.equal(frames.length, 5);
  for (let tries = 0; frames.some((frame) => !frame.url().startsWith("chrome-error:")); tries += 1) {
    assert.ok(tries < 100, frames.map((frame) => frame.url()).join(" "));
    await page.waitForTimeout(50);
  }
  const own = await context.newPage();
  await own.goto(`${app}frame.html?pack=x#1/irons/1.5~66ja`);
  await own.waitForURL(`${app}?pack=x#1/irons/1.5~66ja`);
});

test("what leads elsewhere opens beside the host, and a piece is kept where there is a cabinet", async (t) => {
  const { page, app, context } = await invited(t, { page: found });
  const frame = await pressed(page);
  await told(page, "finding");
  const piece = await frame.evaluate(() => location.hash);
  const opened = async (target) => {
    const [other] = await Promise.all([context.waitForEvent("page"), target.tap()]);
    await other.waitForLoadState("domcontentloaded");
    assert.equal(await other.evaluate(() => opener), null);
    const url = other.url();
    await other.close();
    return url;
  };
  assert.equal(await opened(button(frame, "Keep this piece")), `${app}${piece}`);
  assert.equal(await opened(frame.getByRole("link", { name: "Open this in Pressmark itself" })), `${app}${piece}`);
  assert.match(await opened(frame.locator("a.in").first()), /\/book\.html#irons\/kind\/\d+$/);
  assert.equal(page.url().startsWith("http://localhost"), true);
  assert.equal(await heading(frame), (await told(page, "finding")).kind);
});

test("the key is reached and pressed by keyboard, and the frame has the focus then", async (t) => {
  const { page } = await invited(t, { page: (app) => document(snippet(app)) });
  await start(page).waitFor();
  await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => globalThis.document.activeElement.localName), "pressmark-embed");
  await page.keyboard.press("Enter");
  const frame = await entered(page);
  assert.equal(await frame.evaluate(() => globalThis.document.hasFocus()), true);
  const box = await page.locator("iframe").boundingBox();
  assert.ok(box.width <= 360 && box.height <= 0.95 * 740, "the frame fits the phone");
});

test("started near: no frame while it is far, and one when the reader comes near", async (t) => {
  const { page } = await invited(t, {
    page: (app) => document(`<div id="far"></div>${snippet(app, 'start="near"')}`, '<link rel="stylesheet" href="/far.css">'),
    more: () => ({ "/far.css": { type: "text/css", body: "#far { height: 4000px; }" } }),
  });
  await start(page).waitFor();
  assert.equal(await page.locator("iframe").count(), 0);
  await page.evaluate(() => scrollTo(0, 3500));
  await entered(page);
});

test("the club's page: two embeds, the finding written down, no complaint", async (t) => {
  const { page, server } = await visit(t, {
    quiet: true,
    before: (page) => page.addInitScript(() => {
      globalThis.events = [];
      addEventListener("pressmark-ready", ({ target }) => globalThis.events.push(["ready", null, target.id]));
    }),
  });
  await page.goto(`${server.address}club.html`);
  assert.match(await page.locator("body").innerText(), /invented club/i);
  await page.locator(".ours").getByRole("button").tap();
  const frame = await entered(page, ".ours");
  const colours = () => frame.evaluate(() => getComputedStyle(globalThis.document.documentElement).backgroundColor);
  assert.equal(await colours(), "rgb(238, 243, 241)", "in the club's own colours");
  await page.emulateMedia({ colorScheme: "dark" });
  await page.waitForFunction(() => matchMedia("(prefers-color-scheme: dark)").matches);
  await frame.waitForFunction(() => getComputedStyle(globalThis.document.documentElement).backgroundColor === "rgb(16, 25, 29)");
  await toFinding(frame);
  const line = page.locator("#findings li");
  await line.waitFor();
  assert.match(await line.innerText(), new RegExp(`^${await heading(frame)}, about \\d+ in 100, \\d{4} to \\d{4}$`));
  await page.locator("pressmark-embed[theme]").getByRole("button").tap();
  const other = page.frameLocator("pressmark-embed[theme] iframe");
  await other.getByRole("heading", { name: "Where is it offered?" }).waitFor();
});

for (const colorScheme of ["light", "dark"]) {
  test(`${colorScheme}: axe has nothing to say of the club's page, nor of the frame in its colours, and nothing sticks out on a phone`, async (t) => {
    const { page, server } = await visit(t, { options: { colorScheme } });
    await page.goto(`${server.address}club.html`);
    await page.locator(".ours").getByRole("button").waitFor();
    assert.deepEqual(await axe(page), []);
    assert.equal(await page.evaluate(() => globalThis.document.documentElement.scrollWidth), 360);
    const tapped = await page.locator("footer a, pressmark-embed button").evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height));
    assert.equal(tapped.length, 3);
    assert.ok(tapped.every((height) => height >= 47.99), tapped.join(" "));
    await page.locator(".ours").evaluate((embed, piece) => embed.setAttribute("piece", piece), FOUND);
    await page.locator(".ours").getByRole("button").tap();
    const frame = await (await page.locator(".ours iframe").elementHandle()).contentFrame();
    await frame.locator(".rows").waitFor();
    await page.locator("#findings li").waitFor();
    assert.deepEqual(await axe(frame), []);
    assert.deepEqual(await cut(frame, await frame.evaluate(() => innerWidth)), []);
  });
}
