// Keeps the page and files of one release; messages never. It takes over when no page of the one
// before is open, or when somebody asks for it outside a visit: skipWaiting comes from there alone.
const NAME = `helmwright-station ${RELEASE}`;

self.addEventListener("install", (event) => event.waitUntil(keep()));
self.addEventListener("activate", (event) => event.waitUntil(clear()));
self.addEventListener("message", (event) => { if (event.data === "start") self.skipWaiting(); });
self.addEventListener("fetch", (event) => {
  const { pathname } = new URL(event.request.url);
  const isPage = event.request.mode === "navigate" && pathname === PAGE;
  if (event.request.method !== "GET" || !(isPage || FILES.includes(pathname))) return;
  event.respondWith(kept(isPage ? PAGE : pathname, event.request));
});

async function keep() {
  const cache = await caches.open(NAME);
  await Promise.all([PAGE, ...FILES].map(async (address) => {
    const answer = await fetch(address, { cache: "reload", credentials: "same-origin" });
    // Signed out, the page is a way to somewhere else: that is not to be kept in its place.
    if (!answer.ok || answer.redirected) throw new Error(`${address} did not come`);
    await cache.put(address, answer);
  }));
}

async function clear() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith("helmwright-station ") && name !== NAME).map((name) => caches.delete(name)));
  await self.clients.claim();
}

async function kept(address, request) {
  const cache = await caches.open(NAME);
  return (await cache.match(address)) ?? fetch(request);
}
