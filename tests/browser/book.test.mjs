// The guide: every page by its own address, Back and Forward, finding, comparing, and the way to and from a piece.
import assert from "node:assert/strict";
import fs from "node:fs";
import { test } from "node:test";
import { heard, open, visit } from "./harness.mjs";
import { PACK } from "./pack.mjs";
import { PAGES, beginBook, fragment, openBook, section, turned } from "./book.mjs";
import { begin, button, heading, tapOn, toFinding } from "./walk.mjs";

const HOME = "The guide";

test("every page opens by its own address, named by its heading, with no answer to any other", async (t) => {
  const { page, server } = await beginBook(t);
  for (const [link, title] of Object.entries(PAGES)) {
    await openBook(page, server, link);
    await turned(page, title);
    assert.equal(await page.title(), `${await heading(page)} – Pressmark`);
    assert.equal(await page.locator("h1").count(), 1);
    assert.equal(await page.locator("#trouble").isVisible(), false);
  }
});

test("every kind of the pack has a page with its drawing, and each of its sections says something", async (t) => {
  const { page } = await beginBook(t);
  const codes = fs.readFileSync(`${PACK}codes.csv`, "utf8").split("\n").filter((line) => /^kind,(?!unknown,)/.test(line))
    .map((line) => line.split(",")[2]);
  assert.ok(codes.length >= 70);
  let drawn = 0;
  for (const code of codes) {
    const there = await page.evaluate(async (code) => {
      location.hash = `#irons/kind/${code}`;
      await new Promise((done) => setTimeout(done, 30));
      const told = document.querySelector(".told");
      const empty = [...document.querySelectorAll("section")].filter((one) => one.innerText.trim().split("\n").length < 2);
      return {
        gone: Boolean(told), empty: empty.map((one) => one.innerText), sections: document.querySelectorAll("section").length,
        paths: document.querySelectorAll(".pieces .draw path").length,
        marks: document.querySelectorAll(".pieces [role=img]").length,
      };
    }, code);
    // A code that was given up names no page any more, and the guide says so.
    if (there.gone) continue;
    drawn += 1;
    assert.deepEqual(there.empty, [], `kind ${code}`);
    assert.ok(there.sections >= 6, `kind ${code}: ${there.sections} sections`);
    assert.ok(there.paths > 4 && there.marks === 1, `kind ${code}: ${there.paths} strokes`);
  }
  assert.ok(drawn >= 70, `${drawn} kinds`);
});

test("a link to what is not there says so and shows the contents", async (t) => {
  const { page } = await beginBook(t, "#irons/kind/9999");
  assert.match(await page.locator(".told").innerText(), /does not have/);
  assert.equal(await heading(page), HOME);
  assert.equal(await fragment(page), "#irons");
  await button(page, "Good").tap();
  assert.equal(await page.locator(".told").count(), 0);
});

test("from the contents to a kind and back: the list stands where it was left, with the focus on the link", async (t) => {
  const { page } = await beginBook(t);
  await page.getByRole("link", { name: /^All kinds/ }).first().tap();
  await turned(page, "All kinds");
  assert.equal(await page.evaluate(() => document.activeElement.id), "heading");
  const kind = page.locator(".choice", { hasText: "Coiled wire grip" });
  await kind.scrollIntoViewIfNeeded();
  const down = await page.evaluate(() => scrollY);
  assert.ok(down > 200, `${down} px down`);
  await kind.tap();
  await turned(page, /coil/i);
  assert.equal(await page.evaluate(() => scrollY), 0, "a new page begins at its top");
  await page.goBack();
  await turned(page, "All kinds");
  await page.waitForFunction((down) => Math.abs(scrollY - down) < 4, down);
  assert.equal(await page.evaluate(() => document.activeElement.innerText.trim()), "Coiled wire grip");
  await page.goForward();
  await turned(page, /coil/i);
  await page.goBack();
  await page.goBack();
  await turned(page, HOME);
});

test("reloaded, a page stands as it was", async (t) => {
  const { page } = await beginBook(t, "#irons/compare/11/107");
  const before = await page.locator("main").innerText();
  await page.reload();
  await heard(page, "usable");
  assert.equal(await page.locator("main").innerText(), before);
});

test("what is typed is found at once, with a slip of the finger too, and has an address of its own", async (t) => {
  const { page, server } = await beginBook(t);
  const find = page.getByRole("searchbox");
  await find.tap();
  await page.keyboard.type("coled wire");
  await turned(page, "Find");
  assert.equal(await page.locator(".choice").first().innerText(), "Coiled wire grip");
  assert.equal(await find.inputValue(), "coled wire");
  assert.equal(await page.evaluate(() => document.activeElement.id), "find", "typing goes on");
  assert.equal(await fragment(page), "#irons/find/coled+wire");
  // One entry of the history for all of it.
  await page.goBack();
  await turned(page, HOME);
  await page.goForward();
  await turned(page, "Find");
  assert.equal(await find.inputValue(), "coled wire");
  await openBook(page, server, "#irons/find/tailor");
  assert.equal(await find.inputValue(), "tailor");
  assert.ok(await page.locator(".choice").count() >= 2);
  await find.fill("zebra");
  await page.getByText("Nothing in the guide is like that.").waitFor();
  // A word of the glossary leads to its page.
  await find.fill("japaning");
  await section(page, "Words").getByRole("link").first().tap();
  await turned(page, "Japanning");
});

test("the glossary and the choice of a second kind are searched in place", async (t) => {
  const { page, server } = await beginBook(t, "#irons/words");
  const all = await page.locator(".lines li").count();
  await page.getByRole("searchbox").fill("blind");
  await page.waitForFunction((all) => document.querySelectorAll(".lines li").length < all / 4, all);
  assert.match(await page.locator(".lines li").first().innerText(), /^Blind hole:/);
  await openBook(page, server, "#irons/compare/11");
  await page.getByRole("searchbox").fill("swan");
  const swan = page.locator(".choice", { hasText: "Swan" });
  await page.waitForFunction(() => document.querySelectorAll(".choice").length < 5);
  await swan.first().tap();
  await turned(page, /^Bent wire bow or swan/i);
});

test("two kinds side by side: the check first, then drawings, then the looks that part them, most first", async (t) => {
  const { page } = await beginBook(t, "#irons/kind/11");
  await section(page, "Taken for").getByRole("link").first().tap();
  await turned(page, /^Bent wire bow or /);
  assert.match(await page.locator(".check").innerText(), /^The deciding check: .+[.?]$/s);
  assert.equal(await page.locator(".pieces [role=img]").count(), 2);
  const rows = await page.locator("table tbody").evaluateAll((rows) => rows.map((row) => ({
    name: row.querySelector("th").innerText, mark: row.querySelector(".mark b")?.innerText,
    long: Number(row.querySelector(".mark rect")?.getAttribute("width") ?? 0), cells: row.querySelectorAll("td").length,
  })));
  const marked = rows.filter((row) => row.mark);
  assert.ok(marked.length >= 3, `${marked.length} looks differ`);
  assert.ok(rows.every((row) => row.cells === 2));
  const order = ["differ clearly", "differ", "differ a little"];
  for (let at = 1; at < marked.length; at += 1) {
    assert.ok(marked[at].long <= marked[at - 1].long, "the bars grow no longer");
    assert.ok(order.indexOf(marked[at].mark) >= order.indexOf(marked[at - 1].mark), marked[at].mark);
  }
  // Both kinds and another pair are one tap away.
  assert.deepEqual(await page.locator(".keys a").allInnerTexts().then((all) => [all[0], all[2]]), ["Bent wire bow", "Another pair"]);
});

test("money is shown only when asked for", async (t) => {
  const { page } = await beginBook(t, "#irons/kind/11");
  const worth = section(page, "What it is worth");
  assert.doesNotMatch(await worth.innerText(), /USD|\d/);
  await worth.getByRole("button", { name: "Show the money" }).tap();
  assert.match(await worth.innerText(), /\d+ to \d+ USD .*money of \d{4}.*not an appraisal/s);
  assert.equal(await worth.getByRole("button").getAttribute("aria-expanded"), "true");
});

test("a question leads to its place in the guide, and Back to the piece", async (t) => {
  const { page } = await begin(t);
  await tapOn(page, page.locator(".choices button").first());
  await tapOn(page, page.getByRole("button", { name: "Skip", exact: true }));
  const ask = await heading(page);
  const piece = await fragment(page);
  await button(page, "Why this?").tap();
  await page.getByRole("link", { name: "More in the guide" }).tap();
  await page.waitForURL(/book\.html#irons\/look\/\d+$/);
  await turned(page, ask);
  await page.goBack();
  await turned(page, ask);
  assert.equal(await fragment(page), piece);
});

test("every kind named in a finding leads to its page", async (t) => {
  const { page } = await begin(t);
  await toFinding(page);
  await page.locator("h2", { hasText: "About this kind" }).waitFor();
  const title = await heading(page);
  const fits = page.locator("h2", { hasText: "All that fits" }).locator("xpath=following-sibling::*[1]");
  const names = await fits.locator("li").evaluateAll((all) => all.map((one) => [one.firstChild.innerText, one.querySelector("a")?.href]));
  assert.ok(names.length >= 1 && names[0][0] === title, names[0][0]);
  for (const [name, href] of names) {
    assert.ok(href || name === "Not in this guide" || /not in/i.test(name), `${name} has no page`);
  }
  const finding = page.url();
  for (const [name, href] of names.filter(([, href]) => href).slice(0, 3)) {
    await page.goto(finding);
    await heard(page, "usable");
    await page.locator(`a[href="book.html${new URL(href).hash}"]`).first().tap();
    await page.waitForURL(/book\.html#irons\/kind\/\d+$/);
    await turned(page, name);
  }
  // And on from there: a piece of one's own.
  await page.getByRole("link", { name: "Look at a piece" }).tap();
  await page.waitForURL((url) => url.pathname === "/" && url.hash === "");
  await turned(page, "How long is the sole?");
});

test("the theme chosen here is that of the question page, and the other way round", async (t) => {
  const { page, server } = await beginBook(t);
  const theme = () => page.evaluate(() => document.documentElement.dataset.theme);
  await button(page, "Sun").tap();
  await page.waitForFunction(() => document.documentElement.dataset.theme === "sun");
  await open(page, server.address);
  assert.equal(await theme(), "sun");
  await tapOn(page, button(page, "Set up"));
  await button(page, "Dark").tap();
  await button(page, "Magnet").tap();
  await openBook(page, server);
  assert.equal(await theme(), "dark");
  assert.equal(await button(page, "Dark").getAttribute("aria-pressed"), "true");
  await button(page, "Light").tap();
  await open(page, server.address);
  assert.equal(await theme(), "light");
  await tapOn(page, button(page, "Set up"));
  assert.equal(await button(page, "Magnet").getAttribute("aria-pressed"), "true", "what else was kept stays");
});

test("a tap before the program has come is kept", async (t) => {
  const { page, server } = await visit(t, { quiet: true });
  let letGo;
  const held = new Promise((resolve) => { letGo = resolve; });
  await page.route("**/guide-*.wasm", async (route) => { await held; await route.continue(); });
  await page.goto(`${server.address}book.html`, { waitUntil: "commit" });
  await page.getByRole("link", { name: "Care and cautions" }).tap();
  assert.equal(await heading(page), HOME, "the contents stand there before any program");
  letGo();
  await heard(page, "usable");
  await turned(page, "Care and cautions");
  await page.goBack();
  await turned(page, HOME);
});

test("with JavaScript off the contents are text, and the printed key is one link away", async (t) => {
  const preferences = { profile: { default_content_setting_values: { javascript: 2 } } };
  const { page, server, context } = await visit(t, { options: { preferences } });
  await page.goto(`${server.address}book.html`);
  const devtools = await context.newCDPSession(page);
  const { documents: [shown], strings } = await devtools.send("DOMSnapshot.captureSnapshot", { computedStyles: [] });
  const text = shown.layout.text.filter((at) => at >= 0).map((at) => strings[at]).join(" ");
  assert.match(text, /needs JavaScript/);
  assert.match(text, /The printed key/);
  assert.match(text, /All kinds/);
});

test("with the keyboard alone: from the contents to a kind and to its neighbour", async (t) => {
  const { page } = await beginBook(t);
  const press = async (name) => {
    for (let presses = 0; presses < 60; presses += 1) {
      await page.keyboard.press("Tab");
      const at = await page.evaluate(() => {
        const one = document.activeElement;
        return { name: one.innerText?.trim() ?? "", ring: getComputedStyle(one).outlineStyle };
      });
      if (name.test(at.name)) {
        assert.notEqual(at.ring, "none", `${at.name} has no ring`);
        await page.keyboard.press("Enter");
        return;
      }
    }
    throw new Error(`${name} was not reached`);
  };
  await press(/^All kinds/);
  await turned(page, "All kinds");
  await press(/^Pierced grip/);
  await turned(page, /real holes/);
  await press(/^Compare with/);
  await turned(page, /^Compare/);
  await press(/^Wire|^Coiled wire/i);
  await turned(page, /^Pierced grip or /);
});
