/* The measure form, quicker: sliders in step with their boxes, offered sizes put in without a new page.
   The page is whole without this. Numbers are only moved about here; the shop's server reads them. */
"use strict";

(() => {
  const SIGNS = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3",
  };
  const MILLIMETRES = { in: 25.4, '"': 25.4, "″": 25.4, "”": 25.4, inch: 25.4, inches: 25.4, cm: 10, mm: 1, m: 1000, yd: 914.4 };
  const NUMBER = /^(?:(\d+)\s+)?(\d+)[/⁄](\d+)|^(\d+(?:[.,]\d+)?)/;

  const greatestDivisor = (a, b) => (b ? greatestDivisor(b, a % b) : a);

  /* "1/4", "0.5" and "3" as whole numbers [over, under]. */
  const fraction = (text) => {
    const [over, under] = text.split("/");
    if (under) {
      const [whole, rest] = over.includes(" ") ? over.split(" ") : ["0", over];
      return [Number(whole) * Number(under) + Number(rest), Number(under)];
    }
    const places = (text.split(".")[1] || "").length;
    return [Math.round(Number(text) * 10 ** places), 10 ** places];
  };

  /* What stands in a box, as a number of the form's units; NaN where only the server can tell. */
  const roughly = (text, unit) => {
    const plain = text.trim().replace(/[½¼¾⅛⅜⅝⅞⅓⅔]/g, (sign) => ` ${SIGNS[sign]}`).trim();
    const found = NUMBER.exec(plain);
    if (!found) return NaN;
    const number = found[4] ? Number(found[4].replace(",", ".")) : Number(found[1] || 0) + found[2] / found[3];
    const written = plain.slice(found[0].length).trim().toLowerCase();
    if (!written || !unit) return written ? NaN : number;
    return (number * (MILLIMETRES[written] ?? NaN)) / MILLIMETRES[unit];
  };

  /* The number at a place of the slider, typed as a person would: 8 1/2 or 19.5. */
  const typedAt = (slider) => {
    const [over, under] = fraction(slider.dataset.least);
    const [stepOver, stepUnder] = fraction(slider.dataset.step);
    const top = over * stepUnder + Number(slider.value) * stepOver * under;
    const bottom = under * stepUnder;
    if (slider.dataset.unit === "cm") return String(Number((top / bottom).toFixed(6)));
    const common = greatestDivisor(top, bottom);
    const whole = Math.floor(top / bottom);
    const rest = (top % bottom) / common;
    return [whole || !rest ? whole : "", rest ? `${rest}/${bottom / common}` : ""].filter((part) => part !== "").join(" ");
  };

  const say = (slider, typed) => slider.setAttribute("aria-valuetext", `${typed} ${slider.dataset.unit}`.trim());

  const followBox = (slider) => {
    const box = document.getElementById(slider.dataset.box);
    const text = box.value.trim() || box.placeholder; /* an empty box stands for what an option sets */
    const value = roughly(text, slider.dataset.unit);
    if (Number.isNaN(value)) return;
    const [over, under] = fraction(slider.dataset.least);
    const [stepOver, stepUnder] = fraction(slider.dataset.step);
    slider.value = String(Math.round(((value - over / under) * stepUnder) / stepOver));
    say(slider, text);
  };

  const followBoxes = () => document.querySelectorAll(".slider").forEach(followBox);

  const followSlider = (slider) => {
    const typed = typedAt(slider);
    document.getElementById(slider.dataset.box).value = typed;
    say(slider, typed);
  };

  /* An option decides what an empty box stands for. */
  const followOptions = () => {
    for (const hint of document.querySelectorAll("[data-stands-for]")) {
      document.getElementById(hint.id.replace(/-hint$/, "")).placeholder = hint.dataset.standsFor;
    }
  };

  const sliderOf = (box) => document.getElementById(`${box.id}-slider`);

  /* Looked for each time: the browser's own way back brings another form into this page. */
  const theForm = () => document.getElementById("measure-form");

  /* The links of the ways lead to what is written now, and the one whose panel stands here is marked. */
  const followWays = () => {
    const form = theForm();
    const by = form.elements.by?.value ?? "measures";
    for (const link of document.querySelectorAll("#size-ways a")) {
      const typed = new URLSearchParams(new FormData(form));
      typed.delete("by");
      if (link.dataset.by !== "measures") typed.set("by", link.dataset.by);
      link.search = typed;
      if (link.dataset.by === by) link.setAttribute("aria-current", "true");
      else link.removeAttribute("aria-current");
    }
  };

  /* The size and the cloth as they are written now. The address, which people pass on, says nothing of the cloth
     where nothing is said of it. */
  const isUnsaid = (box) => !box.value && box.matches("#buying-more [name], #buying-fields select");
  const written = (isLeftOut = isUnsaid) => {
    const form = theForm();
    const typed = new URLSearchParams(new FormData(form));
    for (const box of form.elements) if (box.name && isLeftOut(box)) typed.delete(box.name);
    return typed;
  };
  /* What was written to look for a size is no part of one. */
  const isNoSize = (box) => isUnsaid(box) || box.closest("#size-way");

  /* Where somebody goes on who has put in a usual thing: the first box that still wants a number, or the button. */
  const toFill = () => {
    const boxes = [...document.querySelectorAll("#size-way .holding-boxes:not(details *) input:not([data-if-you-like])")];
    return boxes.find((box) => !box.value.trim()) ?? document.getElementById("way-look");
  };

  const start = () => {
    if (!theForm() || !window.htmx) return;
    document.documentElement.classList.add("has-script");
    followBoxes();

    /* Before htmx hears of it, which listens on the elements themselves: hence the capturing phase. */
    document.addEventListener(
      "input",
      ({ target }) => {
        if (!theForm()?.contains(target)) return;
        if (target.type === "range") followSlider(target);
        else if (sliderOf(target)) followBox(sliderOf(target));
      },
      true,
    );

    /* What is written to look for a size changes none: only the button there is waited for. */
    document.addEventListener(
      "change",
      (event) => {
        if (event.target.closest("#size-way")) event.stopPropagation();
      },
      true,
    );

    /* Enter in a box shows the size as leaving it does; where a size is looked for, it looks. */
    document.addEventListener("submit", (event) => {
      const form = theForm();
      if (event.target !== form) return;
      event.preventDefault();
      const box = document.activeElement;
      const from = form.contains(box) && box.matches("input") ? box : event.submitter;
      const look = from?.closest("#size-way") && document.getElementById("way-look");
      if (look) look.dispatchEvent(new Event("wanted"));
      else form.dispatchEvent(new Event("change", { bubbles: true }));
    });

    document.addEventListener("htmx:configRequest", ({ detail }) => {
      for (const box of theForm().elements) if (isUnsaid(box)) detail.formData.delete(box.name);
    });

    /* A link that takes the size along takes what is written, also what was typed since it was last drawn; whoever
       comes back finds it in the boxes. */
    document.addEventListener(
      "click",
      ({ target }) => {
        const link = target.closest("a[data-takes-written]");
        if (!link) return;
        link.search = written(isNoSize);
        history.replaceState(history.state, "", `?${written()}`);
      },
      true,
    );

    document.addEventListener("click", (event) => {
      const offered = event.target.closest("a[data-typed]");
      if (!offered || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
      event.preventDefault();
      const form = theForm();
      for (const [name, typed] of Object.entries(JSON.parse(offered.dataset.typed))) form.elements[name].value = typed;
      followBoxes();
      form.dispatchEvent(new Event("change", { bubbles: true }));
    });

    /* What was opened stays open when it is swapped. */
    const open = new Set();
    document.addEventListener(
      "toggle",
      ({ target }) => {
        if (target.id) open[target.open ? "add" : "delete"](target.id);
      },
      true,
    );

    let focused = null;
    document.addEventListener("htmx:beforeSwap", () => (focused = document.activeElement));

    document.addEventListener("htmx:afterSettle", ({ detail }) => {
      open.forEach((id) => document.getElementById(id)?.setAttribute("open", ""));
      for (const error of document.querySelectorAll("#measure-form .field-error, #buying .field-error")) {
        const box = document.getElementById(error.id.replace(/-error$/, ""));
        if (error.textContent.trim()) box?.setAttribute("aria-invalid", "true");
        else box?.removeAttribute("aria-invalid");
      }
      for (const line of document.querySelectorAll("#error-summary li")) {
        const id = line.querySelector("a").hash.slice(1).replace(/_0$/, "");
        if (!document.getElementById(`${id}-error`)?.textContent.trim()) line.remove();
      }
      if (!document.querySelector("#error-summary li")) document.getElementById("error-summary")?.remove();
      followOptions();
      followBoxes();
      followWays();
      /* What had the focus is gone with the part that was swapped: go on where a usual thing left a box to fill,
         or with reading where the answer stands. */
      if (focused?.isConnected || document.activeElement !== document.body) return;
      if (detail.requestConfig?.elt.matches(".preset")) toFill()?.focus();
      else document.getElementById("size-verdict")?.focus({ preventScroll: true });
    });
  };

  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", start);
  else start();
  window.addEventListener("pageshow", followBoxes);
})();
