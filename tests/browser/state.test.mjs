// The piece is in the address: Back and Forward step through the answers, a reload and a shared link open the same
// finding, a damaged link gives a sentence and a fresh start, and inside another site's frame its history is left alone.
import assert from "node:assert/strict";
import { test } from "node:test";
import { heard, open } from "./harness.mjs";
import { FLAT, answer, begin, button, choice, heading, key, moved, rows, tapOn, toFinding } from "./walk.mjs";

const FIRST = "How long is the sole?";
const hash = (page) => page.evaluate(() => location.hash);

/** Lets the browser step through its history and waits for another heading. */
async function step(page, by) {
  const from = await heading(page);
  await page.evaluate((by) => history.go(by), by);
  return moved(page, from);
}

/** What the finding says, without what comes with the long texts later. */
async function finding(page) {
  return { title: await heading(page), rows: await rows(page), clues: await page.locator(".clue").allInnerTexts() };
}

/** The four letters behind `~`: 32-bit FNV-1a, folded, five bits a letter. Written from the description of the link. */
function check(body) {
  let hash = 0x811c9dc5;
  for (const byte of Buffer.from(body)) hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
  hash = (hash ^ (hash >>> 15)) >>> 0;
  const letters = "abcdefghijkmnpqrstuvwxyz23456789";
  return [0, 1, 2, 3].map((at) => letters[(hash >>> (5 * at)) % 32]).join("");
}
const signed = (body) => `${body}~${check(body)}`;

test("Back and Forward of the browser step through the answers", async (t) => {
  const { page } = await begin(t);
  const { said } = await toFinding(page);
  const end = { url: page.url(), title: await heading(page) };
  const addresses = [];
  for (const [ask] of said.toReversed()) {
    assert.equal(await step(page, -1), ask);
    addresses.unshift(await hash(page));
  }
  assert.equal(addresses[0], "", "the bare address is the beginning");
  assert.equal(new Set(addresses).size, addresses.length, "each step has an address of its own");
  for (const [ask] of said.slice(1)) assert.equal(await step(page, 1), ask);
  assert.equal(await step(page, 1), end.title);
  assert.equal(page.url(), end.url);
});

test("after Back another answer goes another way", async (t) => {
  const { page } = await begin(t);
  await answer(page, FLAT[FIRST]);
  assert.equal(await step(page, -1), FIRST);
  await answer(page, "Up to 120 mm");
  assert.match(await page.locator(".last").innerText(), /Up to 120 mm/);
});

test("a reload restores the question, the finding and the way back", async (t) => {
  const { page } = await begin(t);
  for (const ask of Object.keys(FLAT).slice(0, 3)) await answer(page, FLAT[ask]);
  const [ask, address] = [await heading(page), page.url()];
  await page.reload();
  await heard(page, "usable");
  assert.equal(await heading(page), ask);
  assert.equal(page.url(), address);
  await toFinding(page);
  const before = await finding(page);
  await page.reload();
  await heard(page, "usable");
  assert.deepEqual(await finding(page), before);
  await tapOn(page, key(page, "Undo"));
  assert.equal(await page.locator(".choices").count(), 1, "the last answer can be taken back after a reload");
});

test("the link that set-up copies opens the same finding elsewhere", async (t) => {
  const { page, context, server } = await begin(t);
  await context.grantPermissions(["clipboard-read", "clipboard-write"], { origin: new URL(server.address).origin });
  await toFinding(page);
  const mine = await finding(page);
  await tapOn(page, button(page, "Set up"));
  await button(page, "Copy the link").tap();
  await page.locator(".told", { hasText: "Copied." }).waitFor();
  const link = await page.evaluate(() => navigator.clipboard.readText());
  assert.ok(link.startsWith(server.address), link);
  const other = await context.newPage();
  await other.goto(link);
  await other.locator(".rows").waitFor();
  assert.deepEqual(await finding(other), mine);
});

const SOUND = signed("1/irons/p2/1.2/2.1");
const DAMAGED = [
  ["one character changed", SOUND.replace("2.1", "2.2"), /damaged/],
  ["a character of the check changed", SOUND.replace(/.$/, (last) => (last === "a" ? "b" : "a")), /damaged/],
  ["a cut end", SOUND.slice(0, -1), /damaged/],
  ["a cut middle", SOUND.slice(0, 12), /damaged/],
  ["another version", signed("2/irons/1.2"), /another edition/],
  ["another pack", signed("1/flowers/1.2"), /another pack/],
  ["an unknown look", signed("1/irons/999.1"), /does not have/],
  ["an unknown choice", signed("1/irons/1.99"), /does not have/],
  ["a length that no iron has", signed("1/irons/1.999999999r"), /does not have/],
  ["5,000 characters", "1/irons/" + "1.2/".repeat(1250), /damaged/],
  ["letters outside of ASCII", "1/irons/é漢字🙂", /damaged/],
  ["a broken percent sign", "%E0%A4%A", /damaged/],
  ["script text", "<script>document.body.textContent=''</script>", /damaged/],
  ["markup as a pack", signed("1/<img src=x onerror=alert(1)>/1.2"), /damaged|another pack/],
];

test("of damaged links each gives a sentence and a fresh first question", async (t) => {
  const { page, server } = await begin(t);
  for (const [what, fragment, sentence] of DAMAGED) {
    await page.goto("about:blank");
    await open(page, `${server.address}#${fragment}`);
    assert.match(await page.locator(".told").innerText(), sentence, what);
    assert.equal(await heading(page), FIRST, what);
    assert.equal(await choice(page, FLAT[FIRST]).isVisible(), true, what);
    assert.equal(await page.locator("#trouble").isVisible(), false, what);
  }
  // The sentence can be put away, and the fresh start is one.
  await button(page, "Good").tap();
  assert.equal(await page.locator(".told").count(), 0);
  await answer(page, FLAT[FIRST]);
});

test("a damaged fragment put into the address of an open page does the same", async (t) => {
  const { page } = await begin(t);
  await answer(page, FLAT[FIRST]);
  for (const [what, fragment, sentence] of DAMAGED) {
    await page.evaluate((fragment) => { location.hash = fragment; }, fragment);
    await page.locator(".told", { hasText: sentence }).waitFor();
    assert.equal(await heading(page), FIRST, what);
    await answer(page, FLAT[FIRST]);
    assert.equal(await page.locator(".told").count(), 0, "an answer puts the sentence away");
  }
});

test("a sound link is taken as it stands", async (t) => {
  // The check above would refuse everything if it were written wrongly here: this one must be read.
  const { page, server } = await begin(t);
  await page.goto("about:blank");
  await open(page, `${server.address}#${SOUND}`);
  assert.equal(await page.locator(".told").count(), 0);
  assert.match(await page.locator(".last").innerText(), new RegExp(FLAT["What is the grip like?"]));
});

/** A page of another site that frames Pressmark; `allow` takes away the server's word against that. */
async function host({ context, page, server, asked }, allow) {
  const other = server.address.replace("127.0.0.1", "localhost");
  await context.route(`${other}host.html`, (route) => route.fulfill({
    contentType: "text/html",
    body: `<!doctype html><title>host</title><iframe src="${server.address}" width="340" height="700"></iframe>`,
  }));
  if (allow) {
    await context.route(server.address, async (route) => {
      const reply = await route.fetch();
      const { "content-security-policy": _, ...headers } = reply.headers();
      await route.fulfill({ response: reply, headers });
    });
  }
  await page.goto(`${other}host.html`);
  return () => {
    // The host itself is the only foreign address that was wanted.
    for (let at = asked.length - 1; at >= 0; at -= 1) if (asked[at].startsWith(other)) asked.splice(at, 1);
  };
}

test("inside a frame on another site nothing is put into the host's history", async (t) => {
  const visited = await begin(t);
  const { page } = visited;
  const forget = await host(visited, true);
  const frame = page.frames().find((frame) => frame !== page.mainFrame());
  await frame.waitForFunction(() => globalThis.heard?.some(([name]) => name === "usable"));
  const length = await page.evaluate(() => history.length);
  const inside = (label) => frame.locator(".choices").getByRole("button", { name: label, exact: true });
  for (const ask of Object.keys(FLAT)) {
    await frame.locator("h1", { hasText: ask }).waitFor();
    await inside(FLAT[ask]).tap();
  }
  await frame.locator("h1", { hasText: Object.keys(FLAT).at(-1) }).waitFor({ state: "detached" });
  assert.match(await frame.evaluate(() => location.hash), /^#1\/irons\/p2\/1\.2\/2\.1\/3\.1~/, "the address is kept all the same");
  await frame.getByRole("button", { name: "Undo", exact: true }).tap();
  await frame.locator("h1", { hasText: Object.keys(FLAT).at(-1) }).waitFor();
  assert.equal(await page.evaluate(() => history.length), length);
  // Back belongs to the host: it leaves the host's page.
  await page.goBack();
  assert.ok(page.url().startsWith(visited.server.address), page.url());
  forget();
});

test("as it is served the page is not framed by another site", async (t) => {
  const visited = await begin(t, { quiet: false });
  const { page, blocked, server } = visited;
  const forget = await host(visited, false);
  const frame = page.frames().find((frame) => frame !== page.mainFrame());
  for (let waited = 0; frame.url() === "" && waited < 50; waited += 1) await page.waitForTimeout(100);
  assert.ok(!frame.url().startsWith(server.address), `the frame shows ${frame.url()}`);
  assert.equal(await frame.locator("h1", { hasText: FIRST }).count(), 0);
  // The browser may or may not name the policy on the console.
  blocked.length = 0;
  forget();
});
