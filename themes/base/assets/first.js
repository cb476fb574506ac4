// Runs before the page is drawn, so that nothing moves: says that scripts run, and which measures
// this device showed last.
(() => {
  const root = document.documentElement;
  root.classList.add("js");
  let units = null;
  try { units = localStorage.getItem("measures"); } catch { /* storage may be shut */ }
  root.dataset.units = ["metric", "us"].includes(units) ? units : "both";
})();
