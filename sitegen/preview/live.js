// Follows the author's saves. What has changed in the words of the page is changed where it stands;
// style sheets are exchanged; whatever a script of the page may hold on to is put in by loading the
// page anew, and then scroll, focus, ticks, choices and what was folded open are as they were.
"use strict";
(() => {
  const stands = document.body.classList.contains("stand-in"); // in the place of the page
  const kept = `sitegen-place:${location.pathname}`;
  let stamp = document.currentScript.dataset.stamp;
  let source = null; // the page as the server wrote it: scripts have changed this one since

  // --- what the reader of a page has done to it -----------------------------------------------

  // Rows and fields by what they are called, since another row may stand in their place then.
  function named() {
    const counts = new Map();
    const all = document.querySelectorAll("input, select, textarea, details, [aria-pressed]");
    return [...all].map((element) => {
      const row = element.closest("[data-name]")?.dataset.name;
      const summary = element.querySelector(":scope > summary")?.textContent.trim();
      const name = row ?? (element.id || `${element.name ?? ""} ${element.value ?? ""} ${summary ?? ""}`);
      const key = `${element.localName} ${element.type ?? ""} ${name}`;
      counts.set(key, (counts.get(key) ?? 0) + 1);
      return [`${key} ${counts.get(key)}`, element];
    });
  }
  function state(element) {
    if (element.matches("details")) return element.open;
    if (element.matches("[aria-pressed]")) return element.getAttribute("aria-pressed");
    if (element.matches("[type=checkbox], [type=radio]")) return element.checked;
    return element.matches("select") ? element.selectedIndex : element.value;
  }
  function put(element, was) {
    if (state(element) === was) return;
    if (element.matches("details")) element.open = was;
    else if (element.matches("[aria-pressed]")) element.click();
    else {
      if (element.matches("[type=checkbox], [type=radio]")) element.checked = was;
      else if (element.matches("select")) element.selectedIndex = was;
      else element.value = was;
      for (const kind of ["input", "change"]) element.dispatchEvent(new Event(kind, { bubbles: true }));
    }
  }
  function remembered() {
    const fields = named();
    const focus = fields.find(([, element]) => element === document.activeElement)?.[0];
    return { found: fields.map(([key, element]) => [key, state(element)]), focus };
  }
  function putBack({ found, focus }) {
    const fields = new Map(named());
    const then = new Map(found);
    for (const [key, element] of fields) {
      if (then.has(key)) put(element, then.get(key));
      // What the page itself remembers may have been another row's.
      else if (element.matches("[type=checkbox]")) put(element, element.defaultChecked);
    }
    const had = fields.get(focus);
    if (had && had !== document.activeElement) had.focus({ preventScroll: true });
  }
  function anew() {
    if (!stands) {
      const place = [scrollX, scrollY];
      sessionStorage.setItem(kept, JSON.stringify({ place, ...remembered() }));
    }
    history.scrollRestoration = "manual"; // of a page that another stood in for, it knows nothing
    location.reload();
  }
  function restore() {
    const was = sessionStorage.getItem(kept);
    if (!was || stands) return; // what stands in for the page leaves it for the page itself
    sessionStorage.removeItem(kept);
    const { place: [left, top], ...done } = JSON.parse(was);
    putBack(done);
    const back = () => scrollTo({ left, top, behavior: "instant" });
    // The browser's own restoring comes after the loading, and only then is it let in again.
    const last = () => { back(); setTimeout(() => { history.scrollRestoration = "auto"; }, 1000); };
    back();
    if (document.readyState === "complete") last();
    else addEventListener("load", last, { once: true });
  }

  // --- from one version of the page to the next ------------------------------------------------

  class Loud extends Error {} // a script of the page may hold what is to be changed
  const ours = ".fig, .time, .steps, .ledger, form, label, button, script, style, svg";
  const QUIET = /^(p|em|strong|a|ul|ol|li|h[1-6]|br|hr|blockquote|code|pre|sup|sub|q|cite|b|i|time|dl|dt|dd)$/;

  function mustBeQuiet(node, within) {
    if (within.closest(ours)) throw new Loud();
    const all = node.nodeType === Node.ELEMENT_NODE ? [node, ...node.querySelectorAll("*")] : [];
    const loud = (each) => !QUIET.test(each.localName)
      || [...each.attributes].some(({ name }) => !/^(id|href|rel|lang|datetime|class)$/.test(name))
      || each.matches(ours);
    if (all.some(loud)) throw new Loud();
  }
  const attributes = (element) => [...element.attributes].map((a) => `${a.name}=${a.value}`).sort().join();

  // Gathers what is to be done to `live`, which was `old` and is to be `next`. `boldly`: though a
  // script may hold some of it, since the page will be loaded anew in a moment.
  function compare(old, next, live, todo, boldly) {
    if (attributes(old) !== attributes(next)) {
      if (!boldly || live === document.body) throw new Loud();
      todo.push(() => {
        for (const { name } of old.attributes) if (!next.hasAttribute(name)) live.removeAttribute(name);
        for (const { name, value } of next.attributes) live.setAttribute(name, value);
      });
    }
    const [from, to] = [[...old.childNodes], [...next.childNodes]];
    if (live.childNodes.length < from.length) throw new Loud();
    if (live.childNodes.length > from.length && live !== document.body) throw new Loud();
    let first = 0;
    while (first < from.length && first < to.length && from[first].isEqualNode(to[first])) first += 1;
    let after = 0;
    const most = Math.min(from.length, to.length) - first;
    while (after < most && from.at(-1 - after).isEqualNode(to.at(-1 - after))) after += 1;
    const [gone, come] = [from.slice(first, from.length - after), to.slice(first, to.length - after)];
    const here = [...live.childNodes].slice(first, first + gone.length);
    const paired = gone.length === come.length
      && gone.every((node, n) => node.nodeName === come[n].nodeName);
    gone.forEach((node, n) => {
      if (here[n].nodeName !== node.nodeName) throw new Loud();
      if (!paired || node.nodeType !== Node.ELEMENT_NODE) {
        if (!here[n].isEqualNode(node)) throw new Loud();
      }
    });
    if (paired) {
      gone.forEach((node, n) => {
        if (node.isEqualNode(come[n])) return;
        if (node.nodeType === Node.ELEMENT_NODE) compare(node, come[n], here[n], todo, boldly);
        else {
          if (!here[n].isEqualNode(node)) throw new Loud();
          if (!boldly && live.closest(".fig, .time, form, button, script, style, svg")) throw new Loud();
          todo.push(() => { here[n].data = come[n].data; });
        }
      });
      return;
    }
    if (!boldly) for (const node of [...gone, ...come]) mustBeQuiet(node, live);
    const before = live.childNodes[first + gone.length] ?? null;
    todo.push(() => {
      for (const node of here) node.remove();
      for (const node of come) live.insertBefore(document.importNode(node, true), before);
    });
  }

  // A style sheet is exchanged when the new one is there, so that the page is never bare.
  function exchange(old, next) {
    const [was, now] = [old, next].map((page) => [...page.querySelectorAll("head link[rel=stylesheet]")]);
    if (was.length !== now.length) throw new Loud();
    const live = [...document.querySelectorAll("head link[rel=stylesheet]:not([data-leaving])")];
    return now.flatMap((link, n) => (link.isEqualNode(was[n]) ? [] : [() => {
      const sheet = document.importNode(link);
      const leave = () => live[n].remove();
      live[n].dataset.leaving = "";
      sheet.addEventListener("load", leave, { once: true });
      sheet.addEventListener("error", leave, { once: true });
      live[n].after(sheet);
    }]));
  }
  function heads(old, next) {
    const runs = (page) => [...page.querySelectorAll("script[src], body script")].map((each) => each.outerHTML).join();
    if (runs(old) !== runs(next)) throw new Loud();
    const words = "head :is(meta, link:not([rel=stylesheet]), script:not([src]))";
    const live = [...document.querySelectorAll(words)];
    const [was, now] = [old, next].map((page) => [...page.querySelectorAll(words)]);
    const same = was.length === now.length && was.every((each, n) => each.isEqualNode(now[n]));
    return same ? [] : [() => {
      for (const each of live) each.remove();
      document.head.append(...now.map((each) => document.importNode(each, true)));
    }];
  }

  function become(html, boldly = false) {
    const [old, next] = [source, html].map((text) => new DOMParser().parseFromString(text, "text/html"));
    if (attributes(old.documentElement) !== attributes(next.documentElement)) throw new Loud();
    const todo = [...exchange(old, next), ...heads(old, next)];
    compare(old.body, next.body, document.body, todo, boldly);
    for (const act of todo) act();
    if (old.title !== next.title) document.title = next.title;
  }

  // Figures are shown at once, too, and loading the page anew, for its scripts to know of them, can
  // wait until the author looks; but not if they have been scaled, nor for whoever begins to.
  const LATER = 600;
  let leaving = 0;
  function becomeBoldly(html) {
    if (document.documentElement.classList.contains("scaled")) throw new Loud();
    const done = remembered();
    become(html, true);
    putBack(done);
    document.addEventListener("input", anew, { capture: true, once: true });
    leaving = setTimeout(anew, LATER);
  }
  function change(html) {
    clearTimeout(leaving);
    if (leaving) {
      becomeBoldly(html);
      return;
    }
    try {
      become(html);
    } catch (error) {
      if (!(error instanceof Loud)) throw error;
      becomeBoldly(html);
    }
  }

  const inSlip = (id) => document.getElementById("sitegen-slip")?.shadowRoot?.getElementById(id);
  function say(note) { // how far the reading of the site is, as long as it lasts
    const line = inSlip("note");
    if (!line) return;
    line.textContent = note;
    line.hidden = !note;
  }
  function follow(told) {
    if (told.stamp !== stamp) {
      try {
        if (source === null || !told.html || stands) throw new Loud();
        change(told.html);
        stamp = told.stamp;
      } catch (error) {
        if (!(error instanceof Loud)) console.warn(error);
        anew();
        return;
      }
    }
    if (told.html) source = told.html;
    say(told.note);
    const slip = inSlip("slip");
    if (!slip || slip.dataset.mark === told.mark) return;
    const wasOpen = slip.querySelector("details")?.open;
    slip.dataset.mark = told.mark;
    slip.innerHTML = told.slip; // escaped by the server, which alone writes it
    if (wasOpen) slip.querySelector("details")?.setAttribute("open", "");
  }

  let events = null;
  function listen() {
    if (events) return;
    events = new EventSource("/-/events?page=" + encodeURIComponent(location.pathname));
    events.addEventListener("edition", (event) => follow(JSON.parse(event.data)));
    events.addEventListener("reading", (event) => say(JSON.parse(event.data).note));
  }
  // A browser has six connections to one server; pages that nobody looks at give theirs back.
  document.addEventListener("visibilitychange", () => {
    if (document.hidden) {
      events?.close();
      events = null;
    } else {
      listen();
    }
  });
  addEventListener("pagehide", () => events?.close());
  restore();
  if (!document.hidden) listen();
})();
