/* The form of the size, its ways and its cloth ask one after the other: their answers redraw the same parts, so that
   of an earlier question must not come last. Whoever asks waits once, and takes what is written when its turn comes. */
"use strict";

(() => {
  const ASKERS = "#measure-form, #measure-form *, #buying-fields, #size-verdict *";
  const waiting = new Map();
  let isAsking = false;

  /* Who asks may have been swapped since: then what stands in its place asks, or nobody. */
  const ask = ({ elt, issueRequest, triggeringEvent }) => {
    if (elt.isConnected) issueRequest();
    else if (elt.id) document.getElementById(elt.id)?.dispatchEvent(new Event(triggeringEvent.type));
  };

  const goOn = () => {
    for (const [who, question] of waiting) {
      if (isAsking) return;
      waiting.delete(who);
      ask(question);
    }
  };

  document.addEventListener("htmx:confirm", (event) => {
    const { elt } = event.detail;
    if (!isAsking || !elt.matches(ASKERS)) return;
    event.preventDefault();
    waiting.delete(elt.id || elt);
    waiting.set(elt.id || elt, event.detail);
  });

  document.addEventListener("htmx:beforeRequest", ({ detail: { elt, xhr } }) => {
    if (!elt.matches(ASKERS)) return;
    isAsking = true;
    xhr.addEventListener("loadend", () => {
      isAsking = false;
      goOn();
    });
  });

  /* Who was swapped while the answer was on its way had asked for what is no longer wanted. */
  document.addEventListener("htmx:beforeSwap", ({ detail }) => {
    if (!detail.requestConfig.elt.isConnected) detail.shouldSwap = false;
  });

  /* The search for better layouts gives way to other cloth. Where that was a mistake, the list stays: it goes on. */
  let gaveWay = null;
  document.addEventListener("htmx:sendAbort", ({ target }) => {
    if (target.closest("#buying-search")) gaveWay = target;
  });
  document.addEventListener("htmx:afterRequest", ({ target }) => {
    if (target.id === "buying-fields") setTimeout(() => gaveWay?.dispatchEvent(new Event("again")), 0);
  });
})();
