// Takes every file of the page in once, checked by its digest, and serves it from then on: with
// the network off, after a restart, from the home screen. What is only needed later is taken in when
// it is first asked for. It asks no other host for anything.

const VERSION = "@VERSION@";
const CACHE = `boxaloud-${VERSION}`;
const FILES = "@FILES@";
const POLICY = "@POLICY@";
const HEADERS = {
  "Content-Security-Policy": POLICY,
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
};
const address = (name) => new URL(name, self.registration.scope).href;

self.addEventListener("install", (event) => event.waitUntil(takeIn()));
self.addEventListener("activate", (event) => event.waitUntil(settle()));
self.addEventListener("fetch", (event) => {
  if (event.request.method === "GET") event.respondWith(answer(event.request));
});
self.addEventListener("message", (event) => {
  if (event.data === "version") event.waitUntil(tell(event.source));
});

async function takeIn() {
  const cache = await caches.open(CACHE);
  await Promise.all(Object.entries(FILES).map(([name, file]) => (file.later ? keep(cache, name) : take(cache, name))));
}

/** Fetch a file and put it into the cache. */
async function take(cache, name) {
  const file = FILES[name];
  const lies = await fetch(address(file.packed ? `${name}.gz` : name), { cache: "no-cache" });
  if (!lies.ok) throw new Error(`${name}: ${lies.status}`);
  const raw = await (file.packed ? unpacked(lies) : lies).arrayBuffer();
  if ((await digestOf(raw)) !== file.digest) throw new Error(`${name}: it is not what was built`);
  const headers = { ...HEADERS, "Content-Type": file.kind, "Content-Length": String(raw.byteLength), ETag: file.digest };
  await cache.put(address(name), new Response(raw, { headers }));
}

/** What was taken in later by an earlier version of the page stays where it is the same. */
async function keep(cache, name) {
  const before = await caches.match(address(name));
  if (before?.headers.get("ETag") === FILES[name].digest) await cache.put(address(name), before);
}

/** Tell a page the version, and which files are taken in later, each with its bytes. */
async function tell(page) {
  const cache = await caches.open(CACHE);
  const later = Object.fromEntries(Object.entries(FILES).filter(([, file]) => file.later).map(([name, file]) => [name, file.later]));
  const found = await Promise.all(Object.keys(later).map((name) => cache.match(address(name))));
  page.postMessage({ version: VERSION, later, there: found.every(Boolean) });
}

/** A host may have unpacked the file already, where it says so in the header. */
function unpacked(lies) {
  if (lies.headers.get("Content-Encoding")) return lies;
  return new Response(lies.body.pipeThrough(new DecompressionStream("gzip")));
}

async function digestOf(raw) {
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", raw));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

async function settle() {
  for (const name of await caches.keys()) {
    if (name.startsWith("boxaloud-") && name !== CACHE) await caches.delete(name);
  }
  await self.clients.claim();
}

async function answer(request) {
  const asked = new URL(request.url);
  asked.search = "";
  asked.hash = "";
  if (asked.href === self.registration.scope) asked.href = address("index.html");
  const cache = await caches.open(CACHE);
  const name = Object.keys(FILES).find((each) => FILES[each].later && address(each) === asked.href);
  const missing = name && !(await cache.match(asked.href));
  const why = missing ? await take(cache, name).then(() => "", (fault) => fault.message) : "";
  return (await cache.match(asked.href)) ?? new Response(why, { status: 404, headers: HEADERS });
}
