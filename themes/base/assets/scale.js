// Scaling and units, on the recipe and on its card. Every live figure is a <data class="fig"> that
// carries its exact value; at the recipe's own size its first text is put back untouched.
"use strict";

(() => {
  const root = document.documentElement;
  const form = document.getElementById("scale");
  const NBSP = "\u00a0";
  // Figures do not part from their units; a line may break after a plus (as pages/figures.py).
  const tight = (text) =>
    text.trim().replaceAll(" ", NBSP).replace(/([+,·;/]|plus|and|least|most|\bto)\u00a0/g, "$1 ");
  // What is counted may break within its name, but not between the number and the first word.
  const name = (text) => tight(text).replace(/(\p{L})\u00a0(?=\p{L})/gu, "$1 ");
  const make = (tag, more = {}, ...inside) => {
    const made = Object.assign(document.createElement(tag), more);
    made.append(...inside);
    return made;
  };

  // Units: remembered on the device. first.js has set what is shown before the page was drawn.
  const units = [...document.querySelectorAll("input[name=units]")];
  for (const choice of units) {
    choice.checked = choice.value === root.dataset.units;
    choice.addEventListener("change", () => {
      root.dataset.units = choice.value;
      try { localStorage.setItem("measures", choice.value); } catch { /* storage may be shut */ }
    });
  }
  // The paper of the card: what the address asks for, or else what this device last chose.
  const papers = [...document.querySelectorAll("input[name=paper]")];
  const choosePaper = (wanted) => {
    const choice = papers.find((each) => each.value === wanted);
    if (choice) choice.checked = true;
  };
  try { choosePaper(localStorage.getItem("paper")); } catch { /* storage may be shut */ }
  if (papers.length) choosePaper(new URLSearchParams(location.search).get("paper"));
  for (const choice of papers) {
    choice.addEventListener("change", () => {
      try { localStorage.setItem("paper", choice.value); } catch { /* storage may be shut */ }
    });
  }
  document.getElementById("print")?.addEventListener("click", () => window.print());
  if (!form || typeof Kitchen === "undefined") return;

  const own = form.dataset.serves;
  const field = document.getElementById("serves");
  const reset = document.getElementById("scale-reset");
  const said = form.querySelector(".scale-said");
  const notes = form.querySelector(".scale-notes");
  const figures = [...document.querySelectorAll(".fig")].map((element) => ({
    element, first: element.textContent, ...element.dataset,
  }));
  // A counted food agrees with its number: "the leek", "the 2 leeks".
  const counted = [...document.querySelectorAll(".word")].map((element) => ({
    element, first: element.textContent, ...element.dataset,
  }));
  const links = ["to-card", "to-recipe"].map((id) => document.getElementById(id)).filter(Boolean);
  let serves = own;

  const shown = (amount) => Kitchen.print("count", amount, null, "", "1");
  const inWords = (rational) => {
    const [n, d = "1"] = rational.split("/").map(BigInt);
    const hundredths = (BigInt(n) * 200n + BigInt(d)) / (2n * BigInt(d));
    return `${hundredths / 100n}.${String(hundredths % 100n).padStart(2, "0")}`.replace(/\.?0+$/, "");
  };
  // An amount of portions that a page can be scaled to, as "n" or "n/d", or null.
  const sensible = (text) => {
    const exact = /^[1-9]\d{0,11}(\/[1-9]\d{0,11})?$/.test(text) ? text : Kitchen.parse(text);
    if (!exact) return null;
    const factor = Kitchen.ratio(exact, own);
    const within = Kitchen.compare(factor, "1/100") >= 0 && Kitchen.compare(factor, "100") <= 0;
    return within ? Kitchen.times(exact, "1") : null;
  };

  const draw = (why = "") => {
    const factor = Kitchen.ratio(serves, own);
    const scaled = Kitchen.compare(factor, "1") !== 0;
    for (const { element, first, ladder, value, upto, noun, prefix, suffix, one, around } of figures) {
      let text = first;
      if (scaled) {
        const single = one !== undefined && Kitchen.isOne(ladder, value, upto, factor);
        text = single ? one : (prefix || "") + Kitchen.print(ladder, value, upto || null, noun || "", factor) + (suffix || "");
        text = (noun ? name : tight)(text);
        if (around && text) text = around.replace("…", text);
      }
      element.textContent = text;
    }
    for (const { element, first, ladder, value, upto, noun } of counted) {
      element.textContent = scaled ? Kitchen.word(ladder, value, upto, noun, factor) : first;
    }
    root.classList.toggle("scaled", scaled);
    reset.hidden = !scaled;
    said.textContent = scaled ? `${why || "Every amount"} × ${inWords(factor)}.` : "";
    if (notes) {
      const far = Kitchen.compare(factor, "2") > 0 || Kitchen.compare(factor, "1/2") < 0;
      const part = Kitchen.compare(factor, "1") < 0;
      for (const note of notes.children) {
        if (note.dataset.caution) note.hidden = !(note.dataset.caution === "egg" ? part || far : far);
      }
      notes.hidden = !scaled || ![...notes.children].some((note) => !note.hidden);
    }
    for (const link of links) {
      const [path] = link.getAttribute("href").split("?");
      link.setAttribute("href", scaled ? `${path}?serves=${encodeURIComponent(serves)}` : path);
    }
  };

  const scaleTo = (amount, why) => {
    const wanted = sensible(amount);
    if (!wanted) return false;
    serves = wanted;
    draw(why);
    const url = new URL(location.href);
    if (Kitchen.compare(serves, own)) url.searchParams.set("serves", serves);
    else url.searchParams.delete("serves");
    try { history.replaceState(null, "", url); } catch { /* from disk, some browsers forbid it */ }
    return true;
  };
  const fill = () => { field.value = shown(serves); field.removeAttribute("aria-invalid"); };

  field.addEventListener("input", () => {
    const good = scaleTo(field.value);
    if (good) field.removeAttribute("aria-invalid");
    else field.setAttribute("aria-invalid", "true");
  });
  field.addEventListener("change", fill);
  field.addEventListener("focus", () => field.select());
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("click", (event) => {
    const by = event.target.closest("[data-by]")?.dataset.by;
    if (!by) return;
    const [n, d = "1"] = serves.split("/").map(BigInt);
    const down = by === "-1";
    // From 3½, one fewer is 3 and one more is 4: the buttons walk through whole portions.
    const whole = n / BigInt(d);
    const exact = whole * BigInt(d) === n;
    const next = down ? (exact ? whole - 1n : whole) : whole + 1n;
    if (next > 0n && scaleTo(String(next))) fill();
  });
  reset.addEventListener("click", () => {
    scaleTo(own);
    fill();
    for (const input of form.querySelectorAll(".way input")) input.value = "";
    for (const select of form.querySelectorAll(".way select")) select.selectedIndex = 0;
    field.focus();
  });

  // By what I have: an ingredient, and how much of it there is.
  const FAMILIES = {
    "g": { "g": "1", "kg": "1000" },
    "ml": { "ml": "1", "l": "1000" },
    "us-volume": { "cups": "48", "tbsp": "3", "tsp": "1" },
    "us-weight": { "oz": "1", "lb": "16" },
  };
  const family = ({ ladder, noun }) => {
    if (ladder.startsWith("g")) return FAMILIES.g;
    return FAMILIES[ladder] || { [noun ? noun.split("|").pop() : "whole"]: "1" };
  };
  const byHave = () => {
    const place = document.querySelector("#by-have .way");
    const rows = [...document.querySelectorAll(".ledger tbody tr:not(.part)")]
      .map((row) => ({
        name: row.dataset.name,
        figures: [...row.querySelectorAll(".num > .fig, .food label > .fig")],
      }))
      .filter(({ figures: found }) => found.length);
    const which = make("select", {}, ...rows.map(({ name }, n) => make("option", { value: n }, name)));
    const amount = make("input", { type: "text", inputMode: "decimal", autocomplete: "off" });
    const unit = make("select");
    const choices = () => {
      const found = rows[which.value].figures;
      const first = found.find((f) => !f.classList.contains("worked")) || found[0];
      const options = [first, ...found.filter((f) => f !== first)].flatMap((f) =>
        Object.entries(family(f.dataset)).map(([words, per]) =>
          Object.assign(make("option", {}, words), { figure: f, per })));
      unit.replaceChildren(...options);
    };
    const apply = () => {
      const typed = Kitchen.parse(amount.value);
      amount.toggleAttribute("aria-invalid", Boolean(amount.value) && !typed);
      const chosen = unit.selectedOptions[0];
      if (!typed || !chosen) return;
      const factor = Kitchen.ratio(Kitchen.times(typed, chosen.per), chosen.figure.dataset.value);
      const words = `With ${tight(`${shown(typed)} ${chosen.textContent}`)} of ${rows[which.value].name}, every amount`;
      if (scaleTo(Kitchen.times(factor, own), words)) fill();
    };
    which.addEventListener("change", () => { choices(); amount.value = ""; });
    amount.addEventListener("input", apply);
    unit.addEventListener("change", apply);
    choices();
    place.append(
      make("label", {}, "I have", amount),
      make("label", {}, "in", unit),
      make("label", {}, "of", which),
    );
  };

  // By tin: the areas' ratio, at the same depth.
  const byTin = () => {
    const place = document.querySelector("#by-tin .way");
    const { own: theirs, usual } = JSON.parse(document.getElementById("tins").textContent);
    const options = (tins) => tins.map(({ text, area }) => make("option", { value: area }, text));
    const from = make("select", {}, ...options(theirs));
    const to = make("select", {}, make("option", { value: "" }, "choose a tin"), ...options(usual));
    const apply = () => {
      if (!to.value) return;
      const factor = Kitchen.ratio(to.value, from.value);
      if (scaleTo(Kitchen.times(factor, own), "For that tin at the same depth, every amount")) fill();
    };
    from.addEventListener("change", apply);
    to.addEventListener("change", apply);
    place.append(make("label", {}, "the recipe’s", from), make("label", {}, "mine", to));
  };
  const once = (id, build) =>
    document.getElementById(id)?.addEventListener("toggle", build, { once: true });
  once("by-have", byHave);
  once("by-tin", byTin);

  const asked = new URLSearchParams(location.search).get("serves");
  if (asked && sensible(asked)) serves = sensible(asked);
  fill();
  draw();
})();
