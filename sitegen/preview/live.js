// Follows the author's saves: puts the page in anew when it is another, and the slip when that is.
"use strict";
(() => {
  const stamp = document.currentScript.dataset.stamp;
  const kept = "sitegen-place:" + location.pathname;
  const place = sessionStorage.getItem(kept);
  if (place) {
    sessionStorage.removeItem(kept);
    const [x, y] = JSON.parse(place);
    const back = () => scrollTo({ left: x, top: y, behavior: "instant" });
    back();
    addEventListener("load", back, { once: true });
  }

  function follow(told) {
    if (told.stamp !== stamp) {
      sessionStorage.setItem(kept, JSON.stringify([scrollX, scrollY]));
      location.reload();
      return;
    }
    const slip = document.getElementById("sitegen-slip")?.shadowRoot?.getElementById("slip");
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
  if (!document.hidden) listen();
})();
