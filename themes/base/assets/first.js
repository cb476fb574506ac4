// Runs before the page is drawn, so that nothing moves: says that scripts run, and which measures
// this device showed last.
(() => {
  const root = document.documentElement;
  root.classList.add("js");
  let units = null;
  try { units = localStorage.getItem("measures"); } catch { /* storage may be shut */ }
  root.dataset.units = ["metric", "us"].includes(units) ? units : "both";

  // Pages that have been read are kept for when there is no network. The first one tells the worker
  // what it is made of, since it was loaded before there was a worker.
  const { worker } = root.dataset;
  if (!worker || !("serviceWorker" in navigator) || !location.protocol.startsWith("http")) return;
  addEventListener("load", async () => {
    try {
      const first = !navigator.serviceWorker.controller;
      await navigator.serviceWorker.register(worker);
      const { active } = await navigator.serviceWorker.ready;
      const made = performance.getEntriesByType("resource").map((each) => each.name);
      if (first) active.postMessage({ keep: [location.href, ...made] });
    } catch { /* a browser may forbid it: then nothing is kept */ }
  });
})();
