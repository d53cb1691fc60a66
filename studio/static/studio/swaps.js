/* A part that is swapped takes nothing from who is at work in it. What was typed, chosen or ticked while the answer
   was on its way stays: the answer knows only what stood there before. And the focus stays: htmx finds it again by
   its id, and here a link or button without one is found by its words. */
"use strict";

(() => {
  const changed = new Map(); /* by its id: the box that somebody changed, and when */
  const askedAt = new WeakMap();
  let focused = null;

  const putBack = (box, before) => {
    if (box.matches("[type=radio], [type=checkbox]")) box.checked = before.checked;
    else if (box.value !== before.value) {
      box.value = before.value;
      if (box === document.activeElement && box.matches("[type=text], textarea")) {
        box.setSelectionRange(before.selectionStart, before.selectionEnd);
      }
    }
  };

  const keepTyped = (asked) => {
    for (const [id, { box, at }] of changed) {
      const now = document.getElementById(id);
      if (now === box) continue;
      changed.delete(id);
      if (!now || !(at > asked)) continue;
      putBack(now, box);
      changed.set(id, { box: now, at });
    }
  };

  const keepFocus = () => {
    if (!focused || focused.elt.isConnected || document.activeElement !== document.body) return;
    const { tagName, textContent } = focused.elt;
    const within = document.getElementById(focused.home)?.querySelectorAll(tagName) ?? [];
    [...within].find((one) => one.textContent === textContent)?.focus({ preventScroll: true });
  };

  document.addEventListener(
    "input",
    ({ target }) => {
      if (target.id) changed.set(target.id, { box: target, at: performance.now() });
    },
    true,
  );

  document.addEventListener("htmx:beforeRequest", ({ detail }) => askedAt.set(detail.xhr, performance.now()));

  document.addEventListener("htmx:beforeSwap", () => {
    const elt = document.activeElement;
    focused = elt.id ? null : { elt, home: elt.closest("[id]")?.id };
  });

  document.addEventListener("htmx:afterSwap", ({ detail }) => {
    keepTyped(askedAt.get(detail.xhr));
    keepFocus();
  });
})();
