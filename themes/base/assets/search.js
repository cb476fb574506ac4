// Searching on the reader's own device. The index comes in parts (see sitegen/pages/search.py): the
// list of terms once, then the parts that hold what was typed, then those that describe what is shown.
"use strict";

const SEARCH = (() => {
  const base = new URL(document.currentScript.dataset.terms, document.baseURI);
  const arrived = {};
  const asked = new Map();

  // One part of the index, as a script, for a page that is opened from disk can fetch nothing else.
  const load = (address) => {
    if (!asked.has(address)) {
      asked.set(address, new Promise((resolve, reject) => {
        const script = document.createElement("script");
        script.src = address;
        script.onload = resolve;
        script.onerror = () => { asked.delete(address); script.remove(); reject(new Error(address)); };
        document.head.append(script);
      }));
    }
    return asked.get(address);
  };
  const part = async (kind, number) => {
    const marks = arrived.terms0[kind];
    await load(new URL(`${kind}-${number}.${marks[number]}.js`, base).href);
    return arrived[kind + number];
  };

  let core = null;
  const ready = async () => {
    if (core) return core;
    await load(base.href);
    const data = arrived.terms0;
    const terms = [];
    let before = "";
    for (const coded of data.terms.split(" ")) {
      before = before.slice(0, data.digits.indexOf(coded[0])) + coded.slice(1);
      terms.push(before);
    }
    core = { ...data, terms, places: new Map(terms.map((term, n) => [term, n])),
      stop: new Set(data.stop.split(" ")) };
    return core;
  };

  // Words, as sitegen/finding/words.py makes them.
  const fold = (text) => text.toLowerCase().normalize("NFKD").replace(/\p{M}/gu, "")
    .replace(/[^\x00-\x7f]/g, (sign) => core.letters[sign] ?? sign);
  const stem = (word) => {
    if (Object.hasOwn(core.irregular, word)) return core.irregular[word];
    if (word.length < 4 || !word.endsWith("s") || /(ss|us|is)$/.test(word)) return word;
    if (word.endsWith("ies") && word.length > 4) return word.slice(0, -3) + "y";
    return word.slice(0, /(oes|ches|shes|sses|xes)$/.test(word) ? -2 : -1);
  };
  const words = (text) => (fold(text.replaceAll("’", "'").replaceAll("'s ", " "))
    .match(/[\p{L}\p{N}]+/gu) || [])
    .filter((word) => [...word].length > 1 && !core.stop.has(word) && !/^\p{Nd}+$/u.test(word));

  // How many slips (a letter too few, too many, another, or two changed about) lie between two words:
  // to the whole of the second, and to its nearest beginning. Above `most`, any number above it.
  const slips = (typed, term, most) => {
    let last = null, row = Array.from({ length: term.length + 1 }, (_, n) => n);
    for (let i = 1; i <= typed.length; i += 1) {
      const next = [i];
      let least = i;
      for (let j = 1; j <= term.length; j += 1) {
        let cost = Math.min(row[j] + 1, next[j - 1] + 1, row[j - 1] + (typed[i - 1] !== term[j - 1]));
        if (last && j > 1 && typed[i - 1] === term[j - 2] && typed[i - 2] === term[j - 1]) {
          cost = Math.min(cost, last[j - 2] + 1);
        }
        next.push(cost);
        if (cost < least) least = cost;
      }
      if (least > most) return [most + 1, most + 1];
      [last, row] = [row, next];
    }
    return [row[term.length], Math.min(...row)];
  };

  const partOf = (place) => {
    let low = 0, high = core.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (core.starts[middle] <= place) low = middle; else high = middle - 1;
    }
    return low;
  };

  // The terms that a word may mean, best first, each with how well it fits; from few parts.
  const meant = (word, unfinished) => {
    const whole = stem(word);
    const exact = core.places.get(whole);
    const fits = exact === undefined ? [] : [{ place: exact, worth: 1 }];
    const longer = [];
    if (word.length > 1) {
      core.terms.forEach((term, place) => {
        if (place !== exact && (term.startsWith(word) || term.startsWith(whole))) longer.push(place);
      });
      longer.sort((a, b) => core.terms[a].length - core.terms[b].length || a - b);
      for (const place of longer) fits.push({ place, worth: unfinished ? 0.75 : 0.5 });
    }
    if (fits.length) return { fits: few(fits, exact === undefined ? 3 : 1, 40), slipped: false };
    const most = word.length < 4 ? 1 : word.length < 6 ? 1 : 2;
    const near = [];
    core.terms.forEach((term, place) => {
      if (term.length < whole.length - most) return;
      if (!unfinished && term.length > whole.length + most) return;
      if (word.length < 4 && (term[0] !== word[0] || term.length > 4)) return;
      const [all, beginning] = slips(whole, term, most);
      if (all <= most) near.push({ place, rank: all + (term[0] !== word[0]) / 4, slips: all });
      else if (unfinished && word.length > 3 && beginning <= 1) {
        near.push({ place, rank: beginning + 0.8, slips: beginning + 1 });
      }
    });
    near.sort((a, b) => a.rank - b.rank || a.place - b.place);
    const best = near.filter((each) => each.rank < near[0].rank + 0.5);
    for (const each of best) each.worth = 0.6 / each.slips;
    return { fits: few(best, 4, 8), slipped: true };
  };
  const few = (fits, parts, number) => {
    const taken = new Set();
    return fits.slice(0, number).filter(({ place }) => {
      const each = partOf(place);
      if (!taken.has(each) && taken.size >= parts) return false;
      return taken.add(each);
    });
  };

  const WORTH = [8, 4, 3, 1]; // title, ingredient, filing, text

  // What a term finds: dish → worth of the best place.
  const dishes = async (place) => {
    const number = partOf(place);
    const coded = (await part("found", number))[place - core.starts[number]];
    const found = new Map();
    coded.split(".").forEach((numbers, where) => {
      let dish = -1, gap = 0, scale = 1;
      for (const sign of numbers) {
        const digit = core.digits.indexOf(sign);
        gap += (digit % 32) * scale;
        scale *= 32;
        if (digit < 32) {
          dish += gap + 1;
          gap = 0;
          scale = 1;
          if (!found.has(dish)) found.set(dish, WORTH[where]);
        }
      }
    });
    return { coded, found };
  };

  // The numbers of the dishes that the text finds, best first, and what it was taken to mean.
  const look = async (text) => {
    await ready();
    const typed = words(text);
    const unfinished = /[\p{L}\p{N}]$/u.test(text);
    const choices = typed.map((word, n) => meant(word, unfinished && n === typed.length - 1));
    const lists = await Promise.all(choices.map(async ({ fits, slipped }) => {
      const list = await Promise.all(
        fits.map(async ({ place, worth }) => ({ worth, place, ...await dishes(place) })),
      );
      // a slip is more likely in the name of something than in a word of a method
      const named = list.filter(({ coded }) => !coded.startsWith("...") && coded);
      return slipped && named.length ? named : list;
    }));
    const scores = new Map();
    let asked = 0;
    const taken = [];
    lists.forEach((list, n) => {
      if (list.length && list.every(({ coded }) => !coded)) return; // in so many that it tells nothing
      asked += 1;
      if (choices[n].slipped && list.length) {
        taken.push([typed[n], list.map(({ place }) => core.terms[place])]);
      }
      const best = new Map();
      for (const { found, worth } of list) {
        for (const [dish, place] of found) {
          if ((best.get(dish) || 0) < place * worth) best.set(dish, place * worth);
        }
      }
      for (const [dish, score] of best) {
        const [count, sum] = scores.get(dish) || [0, 0];
        scores.set(dish, [count + 1, sum + score]);
      }
    });
    let numbers = [...scores.keys()];
    const all = numbers.filter((dish) => scores.get(dish)[0] === asked);
    const some = !all.length;
    if (!some) numbers = all;
    numbers.sort((a, b) => scores.get(b)[0] - scores.get(a)[0]
      || scores.get(b)[1] - scores.get(a)[1] || a - b);
    return { numbers, some: some && asked > 1, taken, asked };
  };

  const describe = async (dish) => {
    const rows = await part("dishes", Math.floor(dish / core.run));
    return rows[dish % core.run];
  };

  return {
    take: (kind, number, data) => { arrived[kind + number] = data; },
    look, describe, ready,
    terms: async (text) => { await ready(); return words(text).map(stem); },
  };
})();

(() => {
  const AT_ONCE = 10;
  const byId = (id) => document.getElementById(id);
  const [field, status, list, further, everything] =
    ["words", "found", "results", "further", "everything"].map(byId);
  if (!field) return;
  let turn = 0, numbers = [];

  const row = ([title, href, summary, meta]) => {
    const item = document.createElement("li");
    const add = (tag, name, text) => {
      const element = document.createElement(tag);
      element.className = name;
      element.textContent = text;
      item.append(element);
      return element;
    };
    add("a", "name", title).setAttribute("href", href);
    if (summary) add("span", "sum", summary);
    add("p", "meta", meta);
    return item;
  };
  const rows = async (start) => Promise.all(
    numbers.slice(start, start + AT_ONCE).map(async (dish) => row(await SEARCH.describe(dish))),
  );
  const told = ({ numbers: found, some, taken, asked }) => {
    const count = found.length === 1 ? "1 recipe" : `${found.length} recipes`;
    const read = taken.map(([typed, terms]) => (
      `“${typed}” read as ${terms.slice(0, 3).map((term) => `“${term}”`).join(" or ")}`
    )).join(", ");
    if (!asked) return "Type a word that not every recipe has.";
    if (!found.length) return "Nothing found. Fewer words, or another name, may help.";
    return [some ? `No recipe has all of these words; ${count} with some of them` : count, read]
      .filter(Boolean).join("; ");
  };
  const show = (said, items, searching) => {
    status.textContent = said;
    list.replaceChildren(...items);
    list.hidden = !items.length;
    further.hidden = numbers.length <= items.length;
    everything.hidden = searching;
  };
  const keep = (text) => {
    const url = new URL(location.href);
    if (text) url.searchParams.set("q", text);
    else url.searchParams.delete("q");
    try { history.replaceState(null, "", url); } catch { /* from disk, some browsers forbid it */ }
  };
  const search = async () => {
    const mine = turn += 1;
    const text = field.value.trim();
    keep(text);
    if (text.length < 2) {
      numbers = [];
      show("", [], false);
      return;
    }
    try {
      await SEARCH.ready();
      const found = await SEARCH.look(text);
      if (mine !== turn) return;
      numbers = found.numbers;
      const items = await rows(0);
      if (mine === turn) show(told(found), items, Boolean(found.asked));
    } catch {
      if (mine !== turn) return;
      numbers = [];
      show("The index can’t be read just now; all recipes are below.", [], false);
    }
  };
  const links = () => [...list.querySelectorAll("a")];
  const clear = () => {
    field.value = "";
    field.focus();
    search();
  };

  field.addEventListener("input", search);
  field.addEventListener("focus", () => { SEARCH.ready().catch(() => { /* said when searched */ }); });
  byId("search").addEventListener("submit", (event) => {
    event.preventDefault();
    links()[0]?.focus();
  });
  byId("show-further").addEventListener("click", async () => {
    const mine = turn;
    const items = await rows(list.children.length);
    if (mine !== turn) return;
    list.append(...items);
    further.hidden = numbers.length <= list.children.length;
    items[0].querySelector("a").focus();
  });
  document.addEventListener("keydown", (event) => {
    const at = links().indexOf(document.activeElement);
    if (event.target !== field && at < 0) return;
    if (event.isComposing || event.ctrlKey || event.altKey || event.metaKey || event.shiftKey) return;
    if (event.key === "Escape") clear();
    else if (event.key === "ArrowDown" && links()[at + 1]) links()[at + 1].focus();
    else if (event.key === "ArrowUp" && at >= 0) (links()[at - 1] || field).focus();
    else return;
    event.preventDefault();
  });
  const asked = new URLSearchParams(location.search).get("q");
  if (asked) {
    field.value = asked;
    search();
  }
})();
