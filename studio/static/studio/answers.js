/* Where no answer comes to a change, the page says so and offers to try again. Nothing that was typed is lost: it
   stands in its box, and is asked again as it is written then. The next answer that comes takes the words away,
   and brings what else had been asked in vain. */
"use strict";

(() => {
  const WORDS = {
    none: "The shop does not answer, so this page may not show your last change. What you wrote is still here.",
    often: "That was asked too often. Wait a minute, then try again. What you wrote is still here.",
    gone: "The shop no longer has what this page asks for. Load the page again.",
    again: "Trying again.",
  };
  const inVain = new Map(); /* by the part that it is about: the question that got no answer */

  const bar = () => document.getElementById("no-answer");

  /* Beside the live region, which is told only of what changes in it. Made each time it is missing: the browser's own
     way back brings another bar into this page. */
  const button = () => {
    const made = document.createElement("button");
    Object.assign(made, { type: "button", className: "button is-quiet", textContent: "Try again" });
    bar().append(made);
    return made;
  };

  const say = (words) => {
    const line = bar().querySelector("p");
    if (line.textContent !== words) line.textContent = words;
    (bar().querySelector("button") ?? button()).hidden = !words;
  };

  const wordsFor = (status) => (status === 429 ? WORDS.often : status >= 400 && status < 500 ? WORDS.gone : WORDS.none);

  const about = ({ target, elt }) => target?.id || elt.id || elt;

  /* Who was swapped meanwhile asks no more. */
  const askAgain = () => {
    const asking = [...inVain.values()].filter(({ elt }) => elt.isConnected);
    inVain.clear();
    for (const { elt, verb, path, triggeringEvent } of asking) {
      window.htmx.ajax(verb, path, { source: elt, event: triggeringEvent })?.catch(() => {}); /* it is said below */
    }
    return asking.length;
  };

  for (const name of ["htmx:sendError", "htmx:responseError", "htmx:timeout"]) {
    document.addEventListener(name, ({ detail }) => {
      inVain.set(about(detail), detail.requestConfig);
      say(wordsFor(detail.xhr.status));
    });
  }

  document.addEventListener("htmx:afterRequest", ({ detail }) => {
    if (!detail.successful) return;
    inVain.delete(about(detail));
    if (bar().contains(document.activeElement)) document.getElementById("main").focus({ preventScroll: true });
    say("");
    askAgain();
  });

  document.addEventListener("click", ({ target }) => {
    if (target.closest("#no-answer button")) say(askAgain() ? WORDS.again : "");
  });
  window.addEventListener("online", askAgain);
})();
