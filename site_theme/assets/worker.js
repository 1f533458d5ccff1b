/* The service worker: keeps every file of one version of the manual on the device, and answers from there.
 *
 * `sw.js` brings the list of files with the hashes of their bytes (bayleaf/site/offline.py). Files are kept by
 * address and hash: a new version is fetched beside the one in use, only what changed, and is used when it is whole
 * and when a reader says so, or when no page of the old one is open any more.
 */
(() => {
  "use strict";

  const files = self.bayleafFiles;
  const scope = new URL(self.registration.scope);
  const CACHE = `bayleaf ${scope.pathname}`;
  const AT_ONCE = 6;

  const address = (name) => new URL(name.split("/").map(encodeURIComponent).join("/"), scope).href;
  const key = (name) => `${address(name)}?${files[name]}`;

  async function hash(bytes) {
    const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
    return [...digest.slice(0, 8)].map((one) => one.toString(16).padStart(2, "0")).join("");
  }

  async function keep(cache, name) {
    if (await cache.match(key(name))) return;
    const answer = await fetch(address(name), { cache: "no-cache" });
    if (!answer.ok) throw new Error(`${name}: ${answer.status}`);
    const bytes = await answer.arrayBuffer();
    if ((await hash(bytes)) !== files[name]) throw new Error(`${name} is of another version`);
    const type = answer.headers.get("Content-Type") || "application/octet-stream";
    await cache.put(key(name), new Response(bytes, { headers: { "Content-Type": type } }));
  }

  async function install() {
    const cache = await caches.open(CACHE);
    const names = Object.keys(files);
    const work = async () => {
      while (names.length) await keep(cache, names.pop());
    };
    await Promise.all(Array.from({ length: AT_ONCE }, work));
  }

  async function activate() {
    const cache = await caches.open(CACHE);
    const wanted = new Set(Object.keys(files).map(key));
    for (const request of await cache.keys()) if (!wanted.has(request.url)) await cache.delete(request);
    await self.clients.claim();
  }

  function nameOf(url) {
    const path = decodeURIComponent(url.pathname.slice(scope.pathname.length));
    return path === "" || path.endsWith("/") ? `${path}index.html` : path;
  }

  const kept = async (name) => (Object.hasOwn(files, name) ? (await caches.open(CACHE)).match(key(name)) : undefined);

  async function answer(request, name) {
    const found = await kept(name);
    if (found) return found;
    try {
      return await fetch(request);
    } catch (error) {
      const missing = request.mode === "navigate" && (await kept("404.html"));
      if (!missing) throw error;
      return new Response(missing.body, { status: 404, headers: missing.headers });
    }
  }

  self.addEventListener("install", (event) => event.waitUntil(install()));
  self.addEventListener("activate", (event) => event.waitUntil(activate()));
  self.addEventListener("message", (event) => event.data === "use" && self.skipWaiting());
  self.addEventListener("fetch", (event) => {
    const url = new URL(event.request.url);
    const ours = url.origin === scope.origin && url.pathname.startsWith(scope.pathname);
    if (event.request.method === "GET" && ours) event.respondWith(answer(event.request, nameOf(url)));
  });
})();
