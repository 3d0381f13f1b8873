// A host that means ill by the frame, a frame that means ill by the host, and colours that nobody could read.
import assert from "node:assert/strict";
import { test } from "node:test";
import { document, entered, events, invited, plain, pressed, snippet, start } from "./guests.mjs";
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
    for (let at = 0; at < times; at += 1) port1.postMessage(JSON.stringify({ pressmark: 1, type: "wear", theme: "dark", ink: at % 2 ? "#ffffff" : "#eeeeee" }));
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

test("a hostile frame sends ten thousand malformed messages to the host: what is right among them comes through, and nothing else", async (t) => {
  const { page, app, complaints } = await invited(t, {
    page: (app) => document(snippet(app)),
    spoil(site) {
      site.put("frame.html", '<!doctype html><meta charset="utf-8"><p>0</p><script src="evil.js"></script>');
      site.put("evil.js", `
        let hellos = 0;
        const all = ${MALFORMED};
        addEventListener("message", ({ ports: [port] }) => {
          hellos += 1;
          document.querySelector("p").textContent = String(hellos);
          if (hellos > 1) return;
          for (let at = 0; at < ${TIMES}; at += 1) port.postMessage(all[at % all.length]);
          const right = JSON.stringify({ pressmark: 1, type: "finding", kind: "k", odds: 500, from: 1800, to: 1900, piece: "1/x/f~y" });
          setInterval(() => port.postMessage(right), 700);
          setTimeout(() => {
            for (let at = 0; at < ${TIMES}; at += 1) parent.postMessage('{"pressmark":1,"type":"here"}', "*");
          }, 2500);
        });
        for (const one of all) parent.postMessage(one, "*");
        parent.postMessage('{"pressmark":1,"type":"here"}', "*");`);
    },
  });
  const began = Date.now();
  await start(page).tap();
  const frame = await (await page.locator("iframe").elementHandle()).contentFrame();
  await page.waitForFunction(() => globalThis.events.some(([name]) => name === "finding"), undefined, { timeout: 20_000 });
  const right = { kind: "k", odds: 500, years: { from: 1800, to: 1900 }, link: `${app}#1/x/f~y` };
  for (const finding of await events(page, "finding")) assert.deepEqual(finding, right);
  assert.deepEqual(await events(page, "error"), []);
  await frame.waitForFunction(() => Number(globalThis.document.querySelector("p").textContent) > 1, undefined, { timeout: 20_000 });
  await page.waitForTimeout(300);
  const hellos = Number(await frame.locator("p").innerText());
  // At most twenty a second are acted upon, and ten thousand come within a few seconds.
  const seconds = (Date.now() - began) / 1000;
  assert.ok(hellos <= 20 * (seconds + 1), `${hellos} ports were handed out in ${seconds} s`);
  assert.equal(await page.locator("h1").innerText(), "A club");
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

const WORN = [
  // Published: greys on white near the limit of WCAG 2.2, #767676 with 4.54 and #777777 with 4.48 to 1.
  ["dark grey on white, 4.54 to 1", "--pressmark-ink: #767676; --pressmark-paper: #fff;", "rgb(255, 255, 255)", "rgb(118, 118, 118)"],
  ["names and functions, whatever CSS knows", "--pressmark-paper: black; --pressmark-ink: hsl(60 100% 80%)", "rgb(0, 0, 0)", "rgb(255, 255, 153)"],
];
const REFUSED = [
  ["lighter grey on white, 4.48 to 1", "--pressmark-ink: #777777; --pressmark-paper: #ffffff", /--pressmark-ink #777777 on --pressmark-paper #ffffff has a contrast of 4\.47 to 1, and 4\.5 is the least/],
  ["a line that cannot be seen", "--pressmark-line: #eeeeee", /--pressmark-line #eeeeee on .* and 3 is the least/],
  ["a paper that leaves the own ink unread", "--pressmark-paper: #7a7a7a", /on --pressmark-paper #7a7a7a/],
  ["a colour that is seen through", "--pressmark-ink: rgb(0 0 0 / 50%)", /--pressmark-ink: .* is no colour that Pressmark can wear/],
  ["no colour at all", "--pressmark-ink: url(https://192.0.2.1/)", /is no colour that Pressmark can wear/],
];

test("the colours of a host are worn where all can be read in them, and refused with a sentence where not", async (t) => {
  const all = [...WORN, ...REFUSED];
  const { page, club, complaints } = await invited(t, {
    page: () => document(""),
    more: (app) => Object.fromEntries(all.flatMap(([, css], at) => [
      [`/${at}`, { body: document(snippet(app, 'start="now"'), `<link rel="stylesheet" href="/${at}.css">`) }],
      [`/${at}.css`, { type: "text/css", body: `pressmark-embed { ${css} }` }],
    ])),
  });
  const seen = async (at) => {
    complaints.length = 0;
    await page.goto(`${club.address}${at}`);
    return worn(await entered(page));
  };
  for (const [at, [name, , ground, ink]] of WORN.entries()) {
    await t.test(`worn: ${name}`, async () => {
      assert.deepEqual(await seen(at), [ground, ink]);
      assert.deepEqual(complaints, []);
    });
  }
  for (const [at, [name, , sentence]] of REFUSED.entries()) {
    await t.test(`refused: ${name}`, async () => {
      // As www/styles/10-tokens.css has them.
      assert.deepEqual(await seen(WORN.length + at), ["rgb(246, 241, 230)", "rgb(26, 21, 16)"]);
      assert.equal(complaints.length, 1, complaints.join("\n"));
      assert.match(complaints[0], sentence);
      const said = await page.evaluate(() => globalThis.events.filter(([name]) => name === "error").length);
      assert.equal(said, sentence.source.includes("can wear") ? 0 : 1, "what the frame refused the host is told");
    });
  }
});

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
