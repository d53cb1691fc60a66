/* What is pressed stays where it is until it is let go. A press on a link leaves the box that was typed in, which
   asks for the parts of the page that follow it: swapped in before the finger is up, they would take the link away. */
"use strict";

(() => {
  let pressed = null;
  let waiting = [];

  const letGo = () => {
    pressed = null;
    const arrived = waiting;
    waiting = [];
    setTimeout(() => arrived.forEach((take) => take()), 0); /* after the click that a press ends in */
  };

  document.addEventListener("pointerdown", ({ target }) => (pressed = target.closest("a, button, label, summary")), true);
  for (const end of ["pointerup", "pointercancel", "dragend"]) document.addEventListener(end, letGo, true);
  window.addEventListener("blur", letGo);
  /* What is let go outside the window is told here. */
  document.addEventListener("pointermove", ({ buttons }) => pressed && !buttons && letGo(), true);

  document.addEventListener("htmx:beforeRequest", ({ detail: { xhr } }) => {
    const take = xhr.onload;
    xhr.onload = () => (pressed ? waiting.push(take) : take());
  });
})();
