// Pages of other people that have Pressmark inside: a host on an origin of its own, with the headers and the markup that a test
// gives it, and the assistant on another.
import assert from "node:assert/strict";
import http from "node:http";
import { SLOW, Site, phone, serve } from "./harness.mjs";

/**
 * A host: `pages` are path to { body, headers, type }. It is asked for as `localhost`, which is another site than 127.0.0.1, where the
 * assistant is; by that name too it is another origin of the same site.
 */
export async function host(pages, name = "localhost") {
  const server = http.createServer((request, answer) => {
    const page = pages[request.url.split("?")[0]];
    // A browser asks for an icon, and complains of a host that has none.
    answer.writeHead(page ? 200 : request.url === "/favicon.ico" ? 204 : 404, { "content-type": page?.type ?? "text/html; charset=utf-8", ...page?.headers });
    answer.end(page?.body ?? "");
  });
  await new Promise((ready) => { server.listen(0, "127.0.0.1", ready); });
  const { port } = server.address();
  return {
    address: `http://${name}:${port}/`,
    stop: () => new Promise((ended) => {
      server.close(ended);
      server.closeAllConnections();
    }),
  };
}

/** A finding by its link: permanent codes of a cast flat iron, as `FLAT` and first choices lead to it. */
export const FOUND = "1/irons/p2/1.2/2.1/3.1/4.1/7.1/13.1/15.1/31.1/f~qh82";

/** What a club pastes, as the readme has it. */
export const snippet = (app, attributes = "") =>
  `<script src="${app}embed.js" async></script>
<pressmark-embed ${attributes}><a href="${app}">Open Pressmark</a></pressmark-embed>`;

export const document = (body, head = "") =>
  `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>A club</title>${head}</head>
<body><h1>A club</h1>${body}</body></html>`;

/**
 * A host page around the assistant, in a phone's browser; all gone afterwards. `page(app)` gives the body of the host's page, `headers(app)`
 * its headers, `more(app)` further pages by path. The test fails when anything asked any third place, or when a request of the frame told where
 * it stands.
 */
export async function invited(test, {
  page: body, headers = () => ({}), more = () => ({}), name, under = "/", spoil = () => {}, options = {}, before = async () => {},
}) {
  const site = new Site();
  spoil(site);
  const server = await serve(site.dist, { under });
  const app = server.address;
  const club = await host({ "/": { body: body(app), headers: headers(app) }, ...more(app) }, name);
  const browser = await phone(options);
  const { context } = browser;
  const asked = [];
  const told = [];
  const complaints = [];
  test.after(async () => {
    await browser.close();
    await server.stop();
    await club.stop();
    site.remove();
    const places = [app, club.address].map((address) => `${new URL(address).origin}/`);
    const foreign = asked.filter((url) => !places.some((place) => url.startsWith(place)) && !/^(blob|data):/.test(url));
    assert.deepEqual(foreign, [], "requests to a third place");
    assert.deepEqual(told, [], "requests that tell the assistant's host where its frame stands");
  });
  context.on("request", (request) => {
    asked.push(request.url());
    const { referer } = request.headers();
    if (!referer?.startsWith(club.address) || !request.url().startsWith(app)) return;
    // The loader is the host page's own, and so is a link that its reader follows: what those tell is that page's to say.
    const followed = request.isNavigationRequest() && request.frame().parentFrame() === null;
    if (!followed && !request.url().endsWith("/embed.js")) told.push(request.url());
  });
  context.on("console", (message) => {
    if (["error", "warning"].includes(message.type()) && !SLOW.test(message.text())) complaints.push(message.text());
  });
  context.on("weberror", (problem) => complaints.push(String(problem.error())));
  const page = context.pages()[0] ?? await context.newPage();
  await page.addInitScript(() => {
    globalThis.events = [];
    for (const name of ["ready", "finding", "error"]) {
      addEventListener(`pressmark-${name}`, ({ detail, target }) => globalThis.events.push([name, detail, target.id]));
    }
  });
  await before(page, context);
  await page.goto(club.address);
  return { site, server, app, club, context, page, asked, complaints };
}

/** The line for sites that take no scripts. */
export const plain = (app, rest = "") =>
  `<iframe src="${app}frame.html" title="Pressmark" width="100%" height="680" referrerpolicy="no-referrer"${rest}></iframe>`;

/** The key of an embed. */
export const start = (page, which = "pressmark-embed") => page.locator(which).getByRole("button");

/** The frame of an embed, once its first question can be answered. */
export async function entered(page, which = "pressmark-embed") {
  await page.waitForFunction((which) => {
    const embed = globalThis.document.querySelector(which);
    return globalThis.events.some(([name, , id]) => name === "ready" && id === embed.id);
  }, which, { timeout: 20_000 });
  const handle = await page.locator(which).locator("iframe").elementHandle();
  return handle.contentFrame();
}

/** Presses the key and waits until the first question can be answered. */
export async function pressed(page, which = "pressmark-embed") {
  await start(page, which).tap();
  return entered(page, which);
}

/** The details of the events of a name so far. */
export const events = (page, name) => page.evaluate((name) =>
  globalThis.events.filter(([one]) => one === name).map(([, detail]) => detail), name);

/** Waits for an event and gives its detail. */
export async function told(page, name) {
  const handle = await page.waitForFunction((name) =>
    globalThis.events.filter(([one]) => one === name).at(-1), name, { timeout: 20_000, polling: 50 });
  return (await handle.jsonValue())[1];
}
