// Timers that start from the text, and the worktop view. Timers run side by side, are kept over a
// reload of the page, and ring until they are answered.
"use strict";

(() => {
  const make = (tag, more = {}, ...inside) => {
    const made = Object.assign(document.createElement(tag), more);
    made.append(...inside);
    return made;
  };
  const KEPT = `timers ${location.pathname}`;
  const title = document.title;
  let timers = [];
  let sound = null;
  let ticking = 0;

  const list = make("ul");
  const tray = make("section", { className: "tray", hidden: true }, list);
  tray.setAttribute("aria-label", "Timers");
  const spoken = make("p", { className: "vh" });
  spoken.setAttribute("role", "alert");
  document.body.append(tray, spoken);

  const keep = () => {
    const plain = timers.map(({ own, id, step, text, end, left, extra }) => ({ own, id, step, text, end, left, extra }));
    try { sessionStorage.setItem(KEPT, JSON.stringify(plain)); } catch { /* storage may be shut */ }
  };
  const remaining = (timer) => (timer.end === null ? timer.left : timer.end - Date.now());
  const clock = (milliseconds) => {
    const seconds = Math.max(0, Math.ceil(milliseconds / 1000));
    const two = (n) => String(n).padStart(2, "0");
    const [h, m, s] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
    return h ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
  };

  // Three short notes, again every two seconds, for a minute at most.
  const ring = (timer) => {
    if (!sound) return;
    for (const [at, pitch] of [[0, 880], [0.22, 880], [0.44, 1175]]) {
      const note = sound.createOscillator();
      const loud = sound.createGain();
      const start = sound.currentTime + at;
      note.frequency.value = pitch;
      loud.gain.setValueAtTime(0.0001, start);
      loud.gain.exponentialRampToValueAtTime(0.4, start + 0.02);
      loud.gain.exponentialRampToValueAtTime(0.0001, start + 0.2);
      note.connect(loud).connect(sound.destination);
      note.start(start);
      note.stop(start + 0.22);
    }
    timer.rung += 1;
  };

  const fit = () => {
    tray.hidden = !timers.length;
    document.body.style.setProperty("--tray", timers.length ? `${tray.offsetHeight + 16}px` : "0");
  };
  const draw = () => {
    let late = null;
    for (const timer of timers) {
      const over = timer.end !== null && remaining(timer) <= 0;
      timer.face.textContent = over ? "time" : clock(remaining(timer));
      timer.row.classList.toggle("rings", over);
      timer.pause.hidden = over;
      timer.more.hidden = !(over && timer.extra);
      if (!over) continue;
      late = timer;
      if (!timer.said) {
        timer.said = true;
        spoken.textContent = `Step ${timer.step}: ${timer.text}, time is up.`;
        fit();
      }
      if (timer.rung < 30 && Date.now() - timer.last >= 2000) {
        timer.last = Date.now();
        ring(timer);
      }
    }
    document.title = late ? `Time: step ${late.step} – ${title}` : title;
  };
  const run = () => {
    clearInterval(ticking);
    if (timers.length) ticking = setInterval(draw, 250);
    draw();
    keep();
  };

  const show = (timer) => {
    const words = `step ${timer.step}`;
    const button = (label, press) => {
      const made = make("button", { type: "button" }, label);
      made.setAttribute("aria-label", `${label}, ${words}`);
      made.addEventListener("click", press);
      return made;
    };
    const stop = () => {
      timers = timers.filter((other) => other !== timer);
      timer.row.remove();
      spoken.textContent = "";
      fit();
      run();
      document.getElementById(timer.id)?.focus({ preventScroll: true });
    };
    const pause = button("pause", () => {
      if (timer.end === null) {
        timer.end = Date.now() + timer.left;
        timer.left = null;
      } else {
        timer.left = remaining(timer);
        timer.end = null;
      }
      pause.textContent = timer.end === null ? "go on" : "pause";
      pause.setAttribute("aria-label", `${pause.textContent}, ${words}`);
      run();
    });
    if (timer.end === null) pause.textContent = "go on";
    const add = (seconds) => {
      if (timer.end === null) timer.left += seconds * 1000;
      else timer.end = Math.max(timer.end, Date.now()) + seconds * 1000;
      Object.assign(timer, { rung: 0, said: false, last: 0 });
      spoken.textContent = "";
      run();
    };
    const more = button(`on to ${clock(timer.extra * 1000)} more`, () => {
      add(timer.extra);
      timer.extra = 0;
      keep();
    });
    Object.assign(timer, { pause, more, rung: 0, last: 0, said: false });
    timer.face = make("span", { className: "left-time" });
    timer.face.setAttribute("role", "timer");
    timer.row = make("li", {},
      timer.face,
      make("span", { className: "what" }, make("a", { href: `#step-${timer.step}` }, `Step ${timer.step}`), `: ${timer.text}`),
      pause, more, button("+ 1 min", () => add(60)), button("stop", stop),
    );
    list.append(timer.row);
    fit();
  };

  // A time by the words of its step and its place in them: steps may have moved since it was started.
  const buttons = new Map();
  document.querySelectorAll(".steps .time[data-seconds]").forEach((span, n) => {
    const { seconds, upto } = span.dataset;
    const text = span.textContent;
    const button = make("button", { type: "button", className: "time", id: `time-${n}` }, text);
    button.setAttribute("aria-label", `Start a timer: ${text}`);
    button.addEventListener("click", () => {
      sound ??= window.AudioContext ? new AudioContext() : null;
      sound?.resume();
      if (timers.some((timer) => timer.id === button.id)) return;
      const timer = {
        own: button.own, id: button.id, step: span.step, text, left: null,
        end: Date.now() + Number(seconds) * 1000, extra: upto ? upto - seconds : 0,
      };
      timers.push(timer);
      show(timer);
      run();
    });
    const step = span.closest(".step");
    span.step = button.step = step.id.replace("step-", "");
    let own = "";
    for (let nth = 1; !own || buttons.has(own); nth += 1) own = `${step.dataset.name} ${text} ${nth}`;
    button.own = own;
    buttons.set(own, button);
    // A comma after it must not begin a line.
    const mark = /^[,.;:)]+/.exec(span.nextSibling?.data || "");
    if (mark) span.nextSibling.data = span.nextSibling.data.slice(mark[0].length);
    span.replaceWith(mark ? make("span", { className: "held" }, button, mark[0]) : button);
  });

  try {
    timers = JSON.parse(sessionStorage.getItem(KEPT)) || [];
    for (const timer of timers) {
      const now = buttons.get(timer.own);
      if (now) Object.assign(timer, { id: now.id, step: now.step });
      show(timer);
    }
    if (timers.length) run();
  } catch { timers = []; }

  // The worktop view: large type, ledger and method alone, the screen kept awake.
  const worktop = document.getElementById("worktop");
  if (!worktop) return;
  const awake = make("p", { className: "awake" });
  awake.setAttribute("role", "status");
  worktop.after(awake);
  let lock = null;
  const hold = async () => {
    try {
      lock = await navigator.wakeLock.request("screen");
      awake.textContent = "The screen stays awake.";
    } catch {
      awake.textContent = "This browser does not keep the screen awake.";
    }
  };
  const turn = (on, by) => {
    // Much goes and comes above: what the reader looks at stays where it is.
    const place = (element) => element.getBoundingClientRect();
    const seen = by || [...document.querySelectorAll(".ledger tr, .step")].find((each) => place(each).top >= 0);
    const before = seen && place(seen).top;
    document.documentElement.classList.toggle("worktop", on);
    worktop.setAttribute("aria-pressed", String(on));
    if (on) hold();
    else {
      lock?.release();
      awake.textContent = "";
    }
    fit();
    if (seen) scrollBy({ top: place(seen).top - before, behavior: "instant" });
  };
  worktop.addEventListener("click", () => turn(worktop.getAttribute("aria-pressed") !== "true", worktop));
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && worktop.getAttribute("aria-pressed") === "true") turn(false);
  });
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden && worktop.getAttribute("aria-pressed") === "true") hold();
  });
})();
