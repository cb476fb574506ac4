// What is ticked off, of the ingredients and of the steps, is kept while the tab lives, page by page:
// an ingredient by its food and a step by its words, since tomorrow another may stand in its place.
"use strict";

(() => {
  const KEPT = `ticks ${location.pathname}`;
  const boxes = [...document.querySelectorAll(".tick input, .done input")];
  const counts = new Map();
  for (const box of boxes) {
    const own = box.closest("[data-name]");
    const name = `${own?.localName} ${own?.dataset.name}`;
    counts.set(name, (counts.get(name) || 0) + 1); // the flour of the dough, the flour for dusting
    box.own = `${name} ${counts.get(name)}`;
  }
  const clearers = [...document.querySelectorAll("[data-untick]")];
  const of = (clearer) => [...document.querySelectorAll(`${clearer.dataset.untick} input`)];

  const changed = () => {
    const ticked = boxes.filter((box) => box.checked).map((box) => box.own);
    try { sessionStorage.setItem(KEPT, JSON.stringify(ticked)); } catch { /* storage may be shut */ }
    for (const clearer of clearers) clearer.hidden = !of(clearer).some((box) => box.checked);
  };
  try {
    const ticked = new Set(JSON.parse(sessionStorage.getItem(KEPT)) || []);
    for (const box of boxes) box.checked = ticked.has(box.own);
  } catch { /* what can't be read is as good as none */ }
  changed();

  for (const box of boxes) box.addEventListener("change", changed);
  for (const clearer of clearers) {
    clearer.addEventListener("click", () => {
      const its = of(clearer);
      for (const box of its) box.checked = false;
      changed();
      its[0].focus(); // the button that had the focus is gone
    });
  }
})();
