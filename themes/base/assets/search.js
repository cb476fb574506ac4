// Shows the recipes that hold every word typed (or its beginning): titles, ingredients, tags.
"use strict";

(() => {
  const field = document.getElementById("words");
  const found = document.getElementById("found");
  if (!field || typeof SEARCH_INDEX === "undefined") return;
  const plain = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  const rows = [...document.querySelectorAll("[data-slug]")].map((element) => ({
    element, words: ` ${SEARCH_INDEX[element.dataset.slug] || ""}`,
  }));
  const look = () => {
    const typed = plain(field.value).match(/[\p{L}\p{N}]+/gu) || [];
    let count = 0;
    for (const { element, words } of rows) {
      const fits = typed.every((word) => words.includes(` ${word}`));
      element.hidden = !fits;
      count += fits;
    }
    const what = count === 1 ? "1 recipe" : `${count} recipes`;
    found.textContent = count || !typed.length ? what : "No recipe has all of these words.";
  };
  field.addEventListener("input", () => {
    look();
    const url = new URL(location.href);
    if (field.value.trim()) url.searchParams.set("words", field.value.trim());
    else url.searchParams.delete("words");
    try { history.replaceState(null, "", url); } catch { /* from disk, some browsers forbid it */ }
  });
  document.getElementById("search").addEventListener("submit", (event) => event.preventDefault());
  field.value = new URLSearchParams(location.search).get("words") || field.value;
  look();
})();
