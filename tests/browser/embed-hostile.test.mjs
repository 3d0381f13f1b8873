// A host that means ill by the frame, a frame that means ill by the host, and colours that nobody could read.
import assert from "node:assert/strict";
import { test } from "node:test";
import { document, events, invited, plain, pressed, snippet, start } from "./guests.mjs";
import { heading, toFinding } from "./walk.mjs";

const TIMES = 10_000;
/** What no end of the protocol should take: wrong in size, in kind, in version, in field, or in what it would do if it were believed. */
const MALFORMED = `(() => {
  const hello = (rest) => JSON.stringify({ pressmark: 1, type: "hello", ...rest });
  const message = (type, rest) => JSON.stringify({ pressmark: 1, type, ...rest });
  return [
    undefined, null, 0, NaN, true, "", "{", "[]", "null", "1", "\\u0000", "x".repeat(100_000), new ArrayBuffer(64), new Date(0), [[[[]]]], { pressmark: 1, type: "hello" },
    '{"pressmark":2,"type":"hello"}', '{"pressmark":"1","type":"hello"}', '{"pressmark":1}', '{"pressmark":1,"type":["wear"]}',
    '{"__proto__":{"pressmark":1,"type":"wear"}}', '{"pressmark":1,"type":"constructor"}', '{"pressmark":1,"type":"__proto__"}',
    message("wear", { theme: "<img src=x onerror=alert(1)>", ink: "red;background:url(//192.0.2.1/)", paper: ["#000000"], card: { a: 1 }, accent: 7, line: "#12345" }),
    message("wear", { ink: "#FFFFFF", paper: "url(https://192.0.2.1/x)" }), hello({ padding: "y".repeat(3000) }),
    message("finding", { kind: "<script>alert(1)</script>", odds: 500, from: 1800, to: 1900, piece: "1/irons/f~aaaa" }),
    message("finding", { kind: "A\\u202ekind", odds: 500, from: 1800, to: 1900, piece: "1" }),
    message("finding", { kind: "k", odds: 1001, from: 1800, to: 1900, piece: "1" }), message("finding", { kind: "k", odds: 0.5, from: 1800, to: 1900, piece: "1" }),
    message("finding", { kind: "k", odds: 500, from: 1900, to: 1800, piece: "1" }), message("finding", { kind: "k", odds: 500, from: 1800, to: 1900, piece: "a b" }),
    message("finding", { kind: "k", odds: 500, from: 1800, to: 1900 }), message("finding", { kind: {}, odds: "9", from: null, to: [], piece: {} }),
    message("error", { says: "" }), message("error", { says: { toString: 1 } }), message("error", { says: "z".repeat(401) }), message("ready".repeat(9)),
  ];
})()`;

test("a hostile host sends ten thousand malformed messages to the window: the frame asks and finds as if nothing were", async (t) => {
  const { page, complaints } = await invited(t, {
    page: (app) => document(plain(app)),
  });
  const frame = await (await page.locator("iframe").elementHandle()).contentFrame();
  await frame.locator("button.choice").first().waitFor();
  const before = await frame.evaluate(() => globalThis.document.documentElement.outerHTML.length);
  const waited = await page.evaluate(async ([malformed, times]) => {
    const frame = globalThis.frames[0];
    const all = (0, eval)(malformed);
    const began = performance.now();
    for (let at = 0; at < times; at += 1) {
      const { port1 } = new MessageChannel();
      // With ports and without, since a hello brings one.
      frame.postMessage(all[at % all.length], "*", at % 3 === 0 ? [port1] : []);
    }
    return performance.now() - began;
  }, [MALFORMED, TIMES]);
  t.diagnostic(`${TIMES} messages sent in ${Math.round(waited)} ms`);
  // All of them have been seen once a step of the frame's own has its turn.
  await frame.evaluate(() => new Promise((done) => { setTimeout(done); }));
  assert.equal(await frame.evaluate(() => globalThis.document.documentElement.outerHTML.length), before);
  await toFinding(frame);
  assert.deepEqual(complaints, []);
});

test("a hostile host that has said hello sends them down the port, and floods it with right ones", async (t) => {
  const { page, complaints } = await invited(t, {
    page: (app) => document(plain(app)),
  });
  const frame = await (await page.locator("iframe").elementHandle()).contentFrame();
  await frame.locator("button.choice").first().waitFor();
  await page.evaluate(async ([malformed, times]) => {
    const { port1, port2 } = new MessageChannel();
    globalThis.heard = [];
    globalThis.port = port1;
    port1.onmessage = ({ data }) => globalThis.heard.push(data);
    globalThis.frames[0].postMessage('{"pressmark":1,"type":"hello","theme":"dark"}', "*", [port2]);
    // A second hello would hand the frame over to somebody else.
    const other = new MessageChannel();
    globalThis.second = [];
    other.port1.onmessage = ({ data }) => globalThis.second.push(data);
    globalThis.frames[0].postMessage('{"pressmark":1,"type":"hello","theme":"light"}', "*", [other.port2]);
    const all = (0, eval)(malformed);
    for (let at = 0; at < times; at += 1) port1.postMessage(all[at % all.length]);
    for (let at = 0; at < times; at += 1) port1.postMessage(JSON.stringify({ pressmark: 1, type: "wear", ink: at % 2 ? "#000000" : "#111111" }));
  }, [MALFORMED, TIMES]);
  const began = Date.now();
  await toFinding(frame);
  t.diagnostic(`the finding came ${Date.now() - began} ms after the flood began`);
  assert.equal(await frame.evaluate(() => globalThis.document.documentElement.dataset.theme), "dark", "the first hello counts");
  await page.waitForFunction(() => globalThis.heard.some((data) => JSON.parse(data).type === "finding"));
  const heard = await page.evaluate(() => globalThis.heard.map((data) => [data.length, JSON.parse(data).type]));
  assert.ok(heard.every(([length]) => length <= 2000), "what the frame says is short as well");
  assert.equal(await page.evaluate(() => globalThis.second.length), 0);
  assert.deepEqual(complaints, []);
});

test("another frame of the host, and a frame inside of it, are not spoken with", async (t) => {
  const { page } = await invited(t, {
    page: (app) => document(`${plain(app, ' id="app"')}<iframe id="other" src="/other"></iframe>`),
    more: () => ({ "/other": { body: document("another") } }),
  });
  const frame = await (await page.locator("#app").elementHandle()).contentFrame();
  await frame.locator("button.choice").first().waitFor();
  const other = await (await page.locator("#other").elementHandle()).contentFrame();
  assert.equal(await other.evaluate(() => new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => done(data);
    parent.frames[0].postMessage('{"pressmark":1,"type":"hello","theme":"dark"}', "*", [port2]);
    setTimeout(() => done("silence"), 500);
  })), "silence");
  assert.notEqual(await frame.evaluate(() => globalThis.document.documentElement.dataset.theme), "dark");
});

test("a hostile frame sends ten thousand malformed messages to the host: no event comes of them, and no other end is handed out", async (t) => {
  const evil = `<!doctype html><meta charset="utf-8"><p>evil</p><script src="evil.js"></script>`;
  const { page, complaints } = await invited(t, {
    page: (app) => document(snippet(app)),
    spoil(site) {
      site.put("frame.html", evil);
      site.put("evil.js", `
        let ports = 0;
        const all = ${MALFORMED};
        addEventListener("message", ({ ports: [port] }) => {
          ports += 1;
          document.querySelector("p").textContent = String(ports);
          for (let at = 0; at < ${TIMES}; at += 1) port.postMessage(all[at % all.length]);
          // The last is right, but late: more than a second's worth has come before it.
          port.postMessage(JSON.stringify({ pressmark: 1, type: "finding", kind: "k", odds: 500, from: 1800, to: 1900, piece: "1" }));
          setTimeout(() => port.postMessage(JSON.stringify({ pressmark: 1, type: "finding", kind: "k", odds: 500, from: 1800, to: 1900, piece: "1/x/f~y" })), 1500);
        }, { once: true });
        for (const one of all) parent.postMessage(one, "*");
        setTimeout(() => {
          for (let at = 0; at < ${TIMES}; at += 1) parent.postMessage('{"pressmark":1,"type":"here"}', "*");
        }, 3000);
        parent.postMessage('{"pressmark":1,"type":"here"}', "*");`);
    },
  });
  await start(page).tap();
  await page.waitForFunction(() => globalThis.events.some(([name]) => name === "finding"), undefined, { timeout: 10_000 });
  assert.deepEqual(await events(page, "finding"), [
    { kind: "k", odds: 500, years: { from: 1800, to: 1900 }, link: await page.evaluate(() => `${new URL("./", globalThis.document.querySelector("script[src$='embed.js']").src)}#1/x/f~y`) },
  ]);
  assert.deepEqual(await events(page, "error"), []);
  await page.waitForTimeout(1800);
  assert.equal(await page.locator("h1").innerText(), "A club");
  // The frame of evil breaks a policy of its own making at most; the host's page has nothing to complain of.
  assert.deepEqual(complaints, []);
});

/** The colours that a frame wears on its ground and its words. */
const worn = (frame) => frame.evaluate(() => {
  const { backgroundColor, color } = getComputedStyle(globalThis.document.documentElement);
  return [backgroundColor, color];
});

const coloured = (css) => ({
  page: (app) => document(snippet(app), '<link rel="stylesheet" href="/club.css">'),
  more: () => ({ "/club.css": { type: "text/css", body: `pressmark-embed { ${css} }` } }),
});

for (const [name, css, ground, ink] of [
  // Published: contrasts that WCAG 2.2 documents for grey on white, #767676 4.54 and #777777 4.48 to 1.
  ["dark grey on white, 4.54 to 1", "--pressmark-ink: #767676; --pressmark-paper: #fff;", "rgb(255, 255, 255)", "rgb(118, 118, 118)"],
  ["names and functions, whatever CSS knows", "--pressmark-paper: black; --pressmark-ink: hsl(60 100% 80%)", "rgb(0, 0, 0)", "rgb(255, 255, 153)"],
]) {
  test(`worn: ${name}`, async (t) => {
    const { page, complaints } = await invited(t, coloured(css));
    const frame = await pressed(page);
    assert.deepEqual(await worn(frame), [ground, ink]);
    assert.deepEqual(complaints, []);
  });
}

for (const [name, css, sentence] of [
  ["lighter grey on white, 4.48 to 1", "--pressmark-ink: #777777; --pressmark-paper: #ffffff", /--pressmark-ink #777777 on --pressmark-paper #ffffff has a contrast of 4\.47 to 1, and 4\.5 is the least/],
  ["a line that cannot be seen", "--pressmark-line: #eeeeee", /--pressmark-line #eeeeee on .* and 3 is the least/],
  ["a paper that leaves the own ink unread", "--pressmark-paper: #7a7a7a", /on --pressmark-paper #7a7a7a/],
  ["a colour that is seen through", "--pressmark-ink: rgb(0 0 0 / 50%)", /--pressmark-ink: .* is no colour that Pressmark can wear/],
  ["no colour at all", "--pressmark-ink: url(https://192.0.2.1/)", /is no colour that Pressmark can wear/],
]) {
  test(`refused with a sentence: ${name}`, async (t) => {
    const { page, complaints } = await invited(t, coloured(css));
    const frame = await pressed(page);
    // Invented nowhere: the tokens of www/styles/10-tokens.css.
    assert.deepEqual(await worn(frame), ["rgb(246, 241, 230)", "rgb(26, 21, 16)"]);
    assert.equal(complaints.length, 1, complaints.join("\n"));
    assert.match(complaints[0], sentence);
  });
}

test("what the reader chose in the frame goes before the colours of the host", async (t) => {
  const { page } = await invited(t, coloured("--pressmark-paper: #ffffff; --pressmark-ink: #222222"));
  const frame = await pressed(page);
  assert.equal((await worn(frame))[0], "rgb(255, 255, 255)");
  await frame.getByRole("button", { name: "Set up", exact: true }).tap();
  await frame.getByRole("button", { name: "Dark", exact: true }).tap();
  assert.deepEqual(await worn(frame), ["rgb(23, 19, 16)", "rgb(245, 238, 224)"]);
  await frame.getByRole("button", { name: "As the phone", exact: true }).tap();
  assert.equal((await worn(frame))[0], "rgb(255, 255, 255)");
  // And a theme of the tag that changes is worn at once.
  await page.locator("pressmark-embed").evaluate((embed) => embed.setAttribute("theme", "sun"));
  await frame.waitForFunction(() => globalThis.document.documentElement.dataset.theme === "sun");
  assert.ok((await heading(frame)).length > 0);
});
