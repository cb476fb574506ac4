// Without a network: the recipes that this device has kept, by name.
"use strict";

(async () => {
  const own = document.currentScript.src;
  const place = document.getElementById("kept");
  if (!place || typeof caches === "undefined") return;
  const found = new Map();
  for (const name of (await caches.keys()).filter((each) => each.endsWith(" pages"))) {
    const [scope] = name.split(" ");
    const shelf = await caches.open(name);
    for (const { url } of own.startsWith(scope) ? await shelf.keys() : []) {
      if (!/\/recipes\/(?!index\.html)[^/]+(?<!-card)\.html$/.test(url)) continue;
      const text = await (await shelf.match(url)).text();
      const heading = new DOMParser().parseFromString(text, "text/html").querySelector("h1");
      if (heading) found.set(url, heading.textContent.trim());
    }
  }
  const links = [...found].sort((a, b) => a[1].localeCompare(b[1])).map(([href, words]) => {
    const item = document.createElement("li");
    item.append(Object.assign(document.createElement("a"), { href, textContent: words }));
    return item;
  });
  place.querySelector("ul").append(...links);
  place.hidden = !links.length;
})();
