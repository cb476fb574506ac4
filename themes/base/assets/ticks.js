// What is ticked off, of the ingredients and of the steps, is kept while the tab lives, page by page.
"use strict";

(() => {
  const KEPT = `ticks ${location.pathname}`;
  const boxes = [...document.querySelectorAll(".tick input, .done input")];
  const clearers = [...document.querySelectorAll("[data-untick]")];
  const of = (clearer) => [...document.querySelectorAll(`${clearer.dataset.untick} input`)];

  const changed = () => {
    const ticked = boxes.filter((box) => box.checked).map((box) => box.id);
    try { sessionStorage.setItem(KEPT, JSON.stringify(ticked)); } catch { /* storage may be shut */ }
    for (const clearer of clearers) clearer.hidden = !of(clearer).some((box) => box.checked);
  };
  try {
    const ticked = new Set(JSON.parse(sessionStorage.getItem(KEPT)) || []);
    for (const box of boxes) box.checked = ticked.has(box.id);
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
