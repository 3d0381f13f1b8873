// The way out, should a released service worker ever do harm: serve this file in place of sw.js, under that name.
// Every browser that still runs the old worker fetches it on its next visit (within a day at most), drops all that was
// kept of this copy of Pressmark, and loads the page from the network again. Records of the cabinet are not touched.
// Leave it there for some months; then release as usual.
const FAMILY = `pressmark ${new URL("./", self.location).pathname} `;

async function leave() {
  for (const name of await caches.keys()) {
    if (name.startsWith(FAMILY)) await caches.delete(name);
  }
  await self.registration.unregister();
  for (const client of await self.clients.matchAll({ type: "window" })) await client.navigate(client.url);
}

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(leave()));
