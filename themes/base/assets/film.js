// A film: the times beside the steps move it, and one of another host is fetched only when asked for.
"use strict";

(() => {
  const section = document.querySelector(".film");
  if (!section) return;
  const stand = section.querySelector(".film-stand[data-media]");
  let player = document.getElementById("film-player");

  const bring = () => {
    if (player || !stand) return player;
    const still = stand.querySelector("img");
    player = Object.assign(document.createElement("video"), {
      id: "film-player", controls: true, playsInline: true, poster: still.src,
      width: still.width, height: still.height, src: stand.href,
    });
    player.setAttribute("aria-describedby", "film-shows");
    stand.replaceWith(player);
    return player;
  };
  const from = (second) => {
    const film = bring();
    if (!film) return false;
    const go = () => { film.currentTime = second; };
    // Some browsers forget a time that was set before the film's head was there.
    if (film.readyState) go();
    else film.addEventListener("loadedmetadata", go, { once: true });
    film.play().catch(() => {}); // the browser may want a press on the film itself
    film.scrollIntoView({ block: "nearest" });
    film.focus({ preventScroll: true });
    return true;
  };

  stand?.addEventListener("click", (event) => {
    event.preventDefault();
    from(0);
  });
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-at]");
    if (link && !event.ctrlKey && !event.metaKey && !event.shiftKey && from(Number(link.dataset.at))) {
      event.preventDefault();
    }
  });
  // "?film=12" in the address, as clips in search results give it: brought into view, to be played
  // from there.
  const moment = /^\d+$/.exec(new URLSearchParams(location.search).get("film") ?? "");
  if (moment) {
    section.scrollIntoView();
    player?.addEventListener("loadedmetadata", () => { player.currentTime = Number(moment[0]); }, { once: true });
  }
})();
