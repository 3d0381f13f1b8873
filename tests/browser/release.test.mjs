// The release as a stranger gets it: the folder behind nginx with the example of its settings, and the edition of one file opened from
// the disk.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import fs from "node:fs";
import http from "node:http";
import net from "node:net";
import os from "node:os";
import path from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";
import { FOUND, document, entered, host, snippet, start } from "./guests.mjs";
import { given, heard, open, phone, serve } from "./harness.mjs";
import { file, photograph, scene } from "./photograph.mjs";
import { button, heading, rows, tapOn, toFinding } from "./walk.mjs";

const RELEASE = given("PRESSMARK_RELEASE");
const inRelease = (...parts) => path.join(RELEASE, ...parts);
const ONE_FILE = inRelease("pressmark-one-file.html");

const freePort = () => new Promise((found) => {
  const server = net.createServer();
  server.listen(0, "127.0.0.1", () => {
    const { port } = server.address();
    server.close(() => found(port));
  });
});

/** Replaces what must stand in a text exactly once. */
function once(text, from, to) {
  assert.equal(text.split(from).length, 2, `the example has ${from} once`);
  return text.replace(from, () => to);
}

/** nginx over the release folder, with its own example for settings: only the port and the place of the files are changed. */
async function nginx(test) {
  const own = fs.mkdtempSync(path.join(os.tmpdir(), "pressmark-nginx-"));
  const port = await freePort();
  let example = fs.readFileSync(inRelease("headers", "nginx.conf"), "utf8");
  example = once(example, "listen 80;", `listen 127.0.0.1:${port};`);
  example = once(example, "root /var/www/html;", `root ${RELEASE};`);
  const temporary = ["client_body", "proxy", "fastcgi", "uwsgi", "scgi"].map((name) => `${name}_temp_path ${own}/${name};`).join("\n");
  fs.writeFileSync(path.join(own, "nginx.conf"),
    `daemon off;\nmaster_process off;\npid ${own}/pid;\nerror_log ${own}/errors warn;\nevents {}\nhttp {\naccess_log off;\n${temporary}\n${example}}\n`);
  const child = spawn(given("PRESSMARK_NGINX"), ["-p", own, "-e", path.join(own, "errors"), "-c", path.join(own, "nginx.conf")],
    { stdio: ["ignore", "inherit", "pipe"] });
  let said = "";
  child.stderr.on("data", (part) => { said += part; });
  let ended = false;
  const end = new Promise((resolve) => {
    child.once("exit", () => { ended = true; resolve(); });
    child.once("error", (reason) => { ended = true; said += reason; resolve(); });
  });
  test.after(async () => {
    if (!ended) child.kill("SIGKILL");
    await end;
    fs.rmSync(own, { recursive: true, force: true });
  });
  for (let tries = 0; ; tries += 1) {
    assert.ok(!ended && tries < 100, `nginx did not start: ${said}`);
    const reached = await new Promise((resolve) => {
      const socket = net.connect(port, "127.0.0.1", () => { socket.destroy(); resolve(true); });
      socket.on("error", () => resolve(false));
    });
    if (reached) break;
    await new Promise((resolve) => { setTimeout(resolve, 50); });
  }
  return { address: `http://127.0.0.1:${port}/pressmark/`, port };
}

/** One request, unpacked by nobody. */
function ask(address, accepts) {
  return new Promise((resolve, reject) => {
    http.get(address, { headers: accepts ? { "accept-encoding": accepts } : {} }, (answer) => {
      const parts = [];
      answer.on("data", (part) => parts.push(part));
      answer.on("end", () => resolve({ status: answer.statusCode, headers: answer.headers, body: Buffer.concat(parts) }));
    }).on("error", reject);
  });
}

/** What is a matter of the server and not of the release. */
const OWN = ["server", "date", "connection", "keep-alive", "accept-ranges", "etag", "last-modified", "content-length", "transfer-encoding", "vary"];
const headersOf = ({ headers }) => Object.fromEntries(Object.entries(headers).filter(([name]) => !OWN.includes(name)).sort());

test("nginx with the example sends every file with the headers that the project's own server sends", async (t) => {
  const there = await nginx(t);
  const here = await serve(inRelease("pressmark"), { under: "/pressmark/" });
  t.after(() => here.stop());
  const names = fs.readdirSync(inRelease("pressmark")).filter((name) => !/\.(br|gz)$/.test(name));
  assert.ok(names.length > 40 && names.includes("embed.js") && names.includes("frame.html"), names.join(" "));
  for (const name of ["", ...names]) {
    const [wanted, got] = await Promise.all([here, there].map(({ address }) => ask(address + name)));
    assert.equal(got.status, 200, name);
    assert.deepEqual(headersOf(got), headersOf(wanted), name || "the start page");
    assert.deepEqual(got.body, wanted.body, name);
  }
  const wasm = names.find((name) => /^app-.*\.wasm$/.test(name));
  const packed = await ask(there.address + wasm, "gzip");
  assert.equal(packed.headers["content-encoding"], "gzip");
  assert.equal(packed.headers["content-type"], "application/wasm");
  assert.deepEqual(packed.body, fs.readFileSync(inRelease("pressmark", `${wasm}.gz`)));
});

test("from nginx the assistant starts, is kept for places without a signal, and stands in the page of another site", async (t) => {
  const { address } = await nginx(t);
  const club = await host({ "/": { body: document(snippet(address)) } });
  const browser = await phone();
  t.after(async () => {
    await browser.close();
    await club.stop();
  });
  const page = await browser.context.newPage();
  await page.addInitScript(() => {
    globalThis.heard = [];
    globalThis.events = [];
    for (const name of ["usable", "offline-ready"]) addEventListener(`pressmark:${name}`, ({ detail }) => globalThis.heard.push([name, detail]));
    addEventListener("pressmark-ready", ({ target }) => globalThis.events.push(["ready", null, target.id]));
  });
  await open(page, address);
  await heard(page, "offline-ready");
  await toFinding(page);
  await page.goto(club.address);
  await start(page).tap();
  await toFinding(await entered(page));
});

test("from a memory stick, by its file address, one file asks, finds, reads marks and measures in a photograph", async (t) => {
  const browser = await phone();
  t.after(() => browser.close());
  const page = await browser.context.newPage();
  const asked = [];
  const complaints = [];
  page.on("request", (request) => { if (!/^(data|blob):/.test(request.url())) asked.push(request.url()); });
  page.on("console", (message) => { if (["error", "warning"].includes(message.type())) complaints.push(message.text()); });
  page.on("pageerror", (reason) => complaints.push(String(reason)));
  const address = pathToFileURL(ONE_FILE).href;
  await page.goto(address);
  await page.locator("button.choice").first().waitFor();
  assert.match(await page.locator("#edition").innerText(), /one file.*the guide, the cabinet and practice are not/i);
  await toFinding(page);
  const found = await heading(page);
  assert.match((await rows(page)).What, /\d+ in \d+/);
  // Nothing here leads to a page that is not here.
  for (const step of [async () => {}, async () => tapOn(page, button(page, "Set up"))]) {
    await step();
    const links = await page.locator("a[href]").evaluateAll((all) => all.map((one) => one.getAttribute("href")));
    assert.deepEqual(links.filter((to) => !to.startsWith("#")), []);
  }
  assert.match(await page.locator("main").innerText(), /Ready without signal/);
  await tapOn(page, button(page, "Back"));
  await tapOn(page, button(page, "Marks"));
  await page.locator("#lettering").fill("PAT. MAY 23 1871");
  assert.match(await page.locator(".reading").first().innerText(), /1871/);
  // A link to the piece, without the place of the file.
  await page.goto("about:blank");
  await page.goto(`${address}#1/irons/1.5~66ja`);
  await page.locator("button.choice").first().waitFor();
  assert.equal(await heading(page), "Where is it offered?");
  await page.goto("about:blank");
  await page.goto(address);
  await page.locator("button.choice").first().waitFor();
  await tapOn(page, button(page, "Measure in a photo"));
  const jpeg = await photograph(browser.context, scene({ width: 1600, height: 1200, tilt: 5 }));
  await page.locator("#photo-file:enabled").setInputFiles(file(jpeg));
  await page.locator("#heading", { hasText: "Is this the card?" }).waitFor();
  assert.deepEqual(asked.filter((url) => url.split("#")[0] !== address), [], "nothing is asked for");
  assert.deepEqual(complaints, []);
  t.diagnostic(`${found}; ${fs.statSync(ONE_FILE).size} bytes`);
});

test("an older browser, which must be helped to unpack, and what is copied does not say where the file lies", async (t) => {
  const browser = await phone({ permissions: ["clipboard-read", "clipboard-write"] });
  t.after(() => browser.close());
  const page = await browser.context.newPage();
  await page.addInitScript(() => { delete Uint8Array.fromBase64; });
  await page.goto(`${pathToFileURL(ONE_FILE).href}#${FOUND}`);
  await page.locator(".rows").waitFor();
  await tapOn(page, button(page, "Set up"));
  await button(page, "Copy the link").tap();
  await page.getByText("Copied.").waitFor();
  assert.match(await page.evaluate(() => navigator.clipboard.readText()), /^pressmark-one-file\.html#1\/irons\//);
});
