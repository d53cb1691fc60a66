/* The steps beside the machine: the screen stays on, the place is remembered, arrow keys turn the steps.
   The page is whole without this. Nothing leaves the browser: the place is kept in it, by the order's number. */
"use strict";

(() => {
  const WISH = "keep the screen on";
  const STATES = {
    on: "The screen stays on while this page is open.",
    off: "The screen goes dark as your phone is set.",
    away: "The screen is kept on again when you come back to this page.",
    refused: "The browser does not keep the screen on now, as when the battery is low. Switch it off and on again to try once more.",
    unknown: "This browser cannot keep the screen on. Set it to stay on for longer in your phone’s own settings.",
  };

  /* A browser may forbid keeping anything: then nothing is remembered. */
  const kept = (key) => {
    try {
      return localStorage.getItem(key);
    } catch {
      return null;
    }
  };
  const keep = (key, value) => {
    try {
      localStorage.setItem(key, value);
    } catch {
      /* Nothing is remembered. */
    }
  };

  const steps = () => document.getElementById("steps");
  const number = () => document.getElementById("step-screen").dataset.number;
  const placeKey = () => `step of ${steps().dataset.key}`;

  /* The screen */

  let lock = null;

  const say = (state) => {
    const words = document.getElementById("keep-on-state");
    if (words && words.textContent !== STATES[state]) words.textContent = STATES[state];
  };

  const isWished = () => kept(WISH) !== "no";

  const hold = async () => {
    if (!navigator.wakeLock) {
      say("unknown");
      return;
    }
    if (lock || document.visibilityState !== "visible") return;
    try {
      const held = await navigator.wakeLock.request("screen");
      if (!isWished() || lock) {
        await held.release();
        return;
      }
      lock = held;
      held.addEventListener("release", () => {
        if (lock !== held) return;
        lock = null;
        say(document.visibilityState === "visible" ? "refused" : "away");
      });
      say("on");
    } catch {
      say("refused");
    }
  };

  const letGo = () => {
    const held = lock;
    lock = null;
    held?.release();
    say(navigator.wakeLock ? "off" : "unknown");
  };

  const followWish = () => (isWished() ? hold() : letGo());

  /* The place */

  const offer = () => {
    const place = Number(kept(placeKey()));
    const count = document.querySelectorAll("#step-all li").length;
    const line = document.getElementById("steps-resume");
    if (!(place > 1 && place <= count) || String(place) === number()) return;
    const link = line.querySelector("a");
    link.search = `?step=${place}`;
    link.querySelector("span").textContent = String(place);
    line.hidden = false;
  };

  const remember = () => {
    document.getElementById("steps-resume").hidden = true;
    keep(placeKey(), number());
  };

  const show = () => {
    const box = document.getElementById("keep-on");
    box.disabled = !navigator.wakeLock;
    box.checked = isWished() && !box.disabled;
    followWish();
  };

  /* Where the browser brings a whole page, as before htmx has come, its heading is read all the same. */
  const STEPPED = "stepped";
  const stepped = (isNow) => {
    try {
      if (isNow) sessionStorage.setItem(STEPPED, "yes");
      else if (sessionStorage.getItem(STEPPED)) {
        sessionStorage.removeItem(STEPPED);
        return true;
      }
    } catch {
      /* Nothing is remembered. */
    }
    return false;
  };

  const start = () => {
    if (!steps()) return;
    if (stepped(false)) document.getElementById("step-title").focus({ preventScroll: true });
    document.documentElement.classList.add("has-script");
    if ("isOpened" in steps().dataset) offer();
    else remember();
    show();
  };

  document.addEventListener("change", ({ target }) => {
    if (target.id !== "keep-on") return;
    keep(WISH, target.checked ? "yes" : "no");
    followWish();
  });

  document.addEventListener("click", ({ target }) => {
    if (target.closest(".step-way a[rel]")) stepped(true);
  });

  document.addEventListener("visibilitychange", () => {
    if (steps() && document.visibilityState === "visible") followWish();
  });

  document.addEventListener("keydown", (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey || event.defaultPrevented) return;
    if (event.target.closest("input, textarea, select, [contenteditable]")) return;
    const rel = { ArrowLeft: "prev", ArrowRight: "next" }[event.key];
    const link = rel && document.querySelector(`.step-way a[rel="${rel}"]`);
    if (!link) return;
    event.preventDefault();
    /* One press turns one step, at once: a key held down says it over and over, and each would undo the last. */
    if (!event.repeat) link.click();
  });

  /* A new step is read from its heading, and seen from its top. */
  document.addEventListener("htmx:afterSettle", ({ target }) => {
    if (target.id !== "step-screen") return;
    remember();
    stepped(false);
    window.scrollTo(0, 0);
    document.getElementById("step-title").focus({ preventScroll: true });
  });

  /* The browser's own way back brings a whole page into this one. */
  document.addEventListener("htmx:historyRestore", () => {
    start();
    document.getElementById("step-title")?.focus({ preventScroll: true });
  });

  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", start);
  else start();
})();
