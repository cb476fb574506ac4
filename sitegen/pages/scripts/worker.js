// Keeps what has been read, so that it can be read again without a network. While the network answers,
// every page comes from it: what is kept is for when it does not. WORKER, put before this by
// pages/offline.py, has the build's version and the files of the page that is shown then.
"use strict";

const MINE = `${registration.scope} `;
const SHELF = {
  shell: `${MINE}shell ${WORKER.version}`,
  page: `${MINE}pages`,
  part: `${MINE}parts`,
  picture: `${MINE}pictures`,
};
const MOST = { page: 60, part: 60, picture: 90 };

const at = (path) => new URL(path, registration.scope).href;
// One page has one key, however it was asked for: without the scale, and a folder by its file.
const keyOf = (address) => {
  const url = new URL(address);
  url.search = url.hash = "";
  if (url.pathname.endsWith("/")) url.pathname += "index.html";
  return url.href;
};
const kindOf = (request, key) => {
  if (request.mode === "navigate" || key.endsWith(".html")) return "page";
  return /\.(avif|webp|jpe?g|png|svg)$/.test(key) ? "picture" : "part";
};
const hashed = (key) => key.startsWith(at("assets/"));

// The last read is the last to go.
const keep = async (kind, key, response) => {
  const shelf = await caches.open(SHELF[kind]);
  await shelf.delete(key);
  await shelf.put(key, response);
  const keys = await shelf.keys();
  await Promise.all(keys.slice(0, Math.max(0, keys.length - MOST[kind])).map((old) => shelf.delete(old)));
};

const offlineWords = async () => {
  const page = await caches.match(at(WORKER.page));
  if (!page) return Response.error();
  // It stands at whatever address was asked for, so its links start at the site's root.
  const text = (await page.text()).replace(/ (href|src)="(?![a-z]+:|[/#])/g, ` $1="${registration.scope}`);
  const headers = { "Content-Type": "text/html; charset=utf-8" };
  return new Response(text, { status: 503, statusText: "Offline", headers });
};

const answer = async (event) => {
  const { request } = event;
  const key = keyOf(request.url);
  const kind = kindOf(request, key);
  if (hashed(key)) {
    // Another content has another name: what is kept is what the network would send.
    const kept = await caches.match(key);
    if (kept) return kept;
  }
  try {
    const response = await fetch(request);
    if (response.ok && !response.redirected && response.type === "basic") {
      event.waitUntil(keep(kind, key, response.clone()).catch(() => {}));
    }
    return response;
  } catch {
    return (await caches.match(key)) || (request.mode === "navigate" ? offlineWords() : Response.error());
  }
};

addEventListener("install", (event) => {
  event.waitUntil((async () => {
    const shelf = await caches.open(SHELF.shell);
    await shelf.addAll(WORKER.files.map(at));
    await skipWaiting();
  })());
});
addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    const now = Object.values(SHELF);
    const old = (await caches.keys()).filter((name) => name.startsWith(MINE) && !now.includes(name));
    await Promise.all(old.map((name) => caches.delete(name)));
    await clients.claim();
  })());
});
addEventListener("fetch", (event) => {
  const { request } = event;
  const inside = request.url.startsWith(registration.scope);
  if (request.method === "GET" && inside && !request.headers.has("range")) event.respondWith(answer(event));
});
// The first page was loaded before there was a worker: it tells what it is made of.
addEventListener("message", (event) => {
  const told = (event.data?.keep || []).map(String).filter((each) => each.startsWith(registration.scope));
  event.waitUntil(Promise.all(told.slice(0, 100).map(async (address) => {
    try {
      const key = keyOf(address);
      const response = await fetch(address);
      if (response.ok && !response.redirected) await keep(kindOf({}, key), key, response);
    } catch { /* the next visit keeps it */ }
  })));
});
