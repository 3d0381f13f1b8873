// Keeps one version of Pressmark on the device: all of it or nothing. One file, importing nothing.
//
// The build writes the lists below: for each file its address and the SHA-256 of its bytes. Whatever is in neither is
// neither kept nor answered here. Few people need what stands in the second: it is kept once it was used.
const FILES = [/* build: files */];
const LATER = [/* build: later */];
const VERSION = "/* build: version */";

const BASE = new URL("./", self.location);
// Caches belong to the whole origin, so another copy under another path must keep its own.
const FAMILY = `pressmark ${BASE.pathname} `;
const CACHE = FAMILY + VERSION;

const addressOf = (name) => new URL(name, BASE).href;
const KNOWN = new Set([...FILES, ...LATER].map(([name]) => addressOf(name)));
const TYPES = {
  css: "text/css", html: "text/html", js: "text/javascript", pack: "application/octet-stream", png: "image/png",
  svg: "image/svg+xml", wasm: "application/wasm", webmanifest: "application/manifest+json",
};

async function digestOf(bytes) {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** One file, with exactly the bytes of the list, or an error. */
async function fetched(name, digest) {
  const address = addressOf(name);
  // A name that carries a digest may come from the version before, or from what the browser loaded a moment ago.
  const lasting = /-[0-9a-f]{16}\.[a-z]+$/.test(name);
  const kept = lasting ? await caches.match(address) : undefined;
  const ways = kept ? [() => kept] : [];
  if (lasting) ways.push(() => fetch(address, { cache: "default" }));
  ways.push(() => fetch(address, { cache: "reload" }));
  for (const way of ways) {
    const answer = await way();
    if (!answer.ok) continue;
    const bytes = await answer.arrayBuffer();
    if (await digestOf(bytes) === digest) return [address, packed(name, bytes, answer)];
  }
  throw new Error(`${name} did not arrive as it was built.`);
}

/** The answer as it is kept: unpacked, with the right type, and marked as no redirect. */
function packed(name, bytes, answer) {
  const headers = new Headers();
  for (const header of [
    "content-security-policy", "referrer-policy", "x-content-type-options", "cross-origin-opener-policy",
    "cross-origin-embedder-policy", "permissions-policy",
  ]) {
    const value = answer.headers.get(header);
    if (value) headers.set(header, value);
  }
  const type = TYPES[name === "./" ? "html" : name.split(".").pop()];
  headers.set("content-type", /^text\//.test(type) ? `${type}; charset=utf-8` : type);
  return new Response(bytes, { headers });
}

async function install() {
  try {
    // Checked first, kept afterwards: a cache of this name is complete or absent.
    const files = await Promise.all(FILES.map(([name, digest]) => fetched(name, digest)));
    const cache = await caches.open(CACHE);
    for (const [address, answer] of files) await cache.put(address, answer);
  } catch (reason) {
    await caches.delete(CACHE);
    throw reason;
  }
}

async function activate() {
  for (const name of await caches.keys()) {
    if (name.startsWith(FAMILY) && name !== CACHE) await caches.delete(name);
  }
  await self.clients.claim();
}

/** The address under which a request is kept, or none. */
function keptAs(request) {
  if (request.method !== "GET") return undefined;
  const url = new URL(request.url);
  if (request.mode === "navigate") {
    url.search = "";
    if (url.pathname === `${BASE.pathname}index.html`) url.pathname = BASE.pathname;
  }
  url.hash = "";
  return KNOWN.has(url.href) ? url.href : undefined;
}

async function answered(request, address) {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(address);
  if (kept) return kept;
  const later = LATER.find(([name]) => addressOf(name) === address);
  if (!later) return fetch(request);
  const [, answer] = await fetched(...later);
  await cache.put(address, answer.clone());
  return answer;
}

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("fetch", (event) => {
  const address = keptAs(event.request);
  if (address) event.respondWith(answered(event.request, address));
});
// Never on its own: half an old page with half a new one is worse than an old page.
self.addEventListener("message", (event) => {
  if (event.data === "accept") self.skipWaiting();
});
